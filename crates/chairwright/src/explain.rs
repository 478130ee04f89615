//! `explain`: pages of codes, and lists of what the language has.

mod catalogue;
mod page;
mod words;

use crate::{CLEAN, print};
use chairwright_diagnostics::{CODES, code};
use chairwright_language::figures::FIGURES;
use chairwright_language::{function_list, near_sizes, nearest};
use chairwright_report::Table;

/// Topics, and what each lists.
const TOPICS: [(&str, &str); 6] = [
    ("codes", "every finding that there is, with its weight"),
    ("statements", "every statement with its clauses and an example"),
    (
        "fields",
        "every field of rider, conditions, as_built, baseline and catalogue entries, with what it means",
    ),
    ("functions", "every function and what it takes"),
    ("figures", "every figure that is computed, for demands and for chairwright figures"),
    ("catalogue", "the pages of stocks, fittings and rules that ship with the compiler"),
];

/// Runs the command; without a topic it says which there are.
pub fn run(topic: Option<&str>) -> Result<u8, String> {
    let text = match topic {
        None => topics(),
        Some("codes") => codes(),
        Some("statements") => words::statements(),
        Some("fields") => words::fields(),
        Some("functions") => functions(),
        Some("figures") => figures(),
        Some("catalogue") => catalogue::pages(),
        Some(topic) => match code(topic) {
            Some(code) => format!("{}  ({})\n\n{}", code.name, code.label(), page::flowed(code.page)),
            None => named(topic).ok_or_else(|| unknown(topic))?,
        },
    };
    print(&text);
    Ok(CLEAN)
}

/// Words of the language first, then what the catalogue calls so.
fn named(topic: &str) -> Option<String> {
    let pages: Vec<String> = [words::named(topic), catalogue::named(topic)].into_iter().flatten().collect();
    (!pages.is_empty()).then(|| pages.join("\n"))
}

fn topics() -> String {
    let mut t = Table::new(&["chairwright explain …", "tells"]);
    for (topic, about) in TOPICS {
        t.row(vec![topic.to_owned(), about.to_owned()]);
    }
    for (topic, about) in [
        ("CODE", "what a finding means and how to mend it: needs-angle, CW0304"),
        ("STATEMENT or ENTRY", "its clauses and fields, and what each means: member, rider, fitting"),
        ("CLAUSE or FIELD", "what it means, wherever it is written: take_out, trail"),
        ("PAGE", "what is on a page of the catalogue: pipe_inch, lumber"),
        ("\"ENTRY'S NAME\"", "its fields, with their values and source: \"bolt M6 x 80\""),
    ] {
        t.row(vec![topic.to_owned(), about.to_owned()]);
    }
    table(&t)
}

fn unknown(topic: &str) -> String {
    let topics = TOPICS.map(|(topic, _)| topic);
    let shipped = catalogue::known();
    let words = CODES.iter().map(|c| c.name).chain(topics).chain(words::known()).map(str::to_owned);
    let known: Vec<String> = words.chain(shipped.iter().cloned()).collect();
    let sizes = near_sizes(topic, &shipped.iter().map(String::as_str).collect::<Vec<_>>());
    if !sizes.is_empty() {
        return format!("nothing is known about `{topic}`; the nearest sizes are {}", sizes.join(" and "));
    }
    match nearest(topic, known.iter().map(String::as_str)) {
        Some(meant) => format!("nothing is known about `{topic}`; did you mean {meant}?"),
        None => format!(
            "nothing is known about `{topic}`; the topics are {}, every code, statement, clause and field, page and entry of the catalogue",
            topics.join(", ")
        ),
    }
}

fn table(table: &Table) -> String {
    table.lines(80).join("\n") + "\n"
}

fn codes() -> String {
    let mut t = Table::new(&["number", "code", "weight", "meaning"]);
    for c in CODES {
        t.row(vec![c.label(), c.name.to_owned(), c.severity.word().to_owned(), c.title.to_owned()]);
    }
    table(&t)
}

fn functions() -> String {
    let mut t = Table::new(&["function", "takes"]);
    for (name, takes) in function_list() {
        t.row(vec![name.to_owned(), takes.to_owned()]);
    }
    table(&t)
}

fn figures() -> String {
    let mut t = Table::new(&["figure", "measures", "what it is"]);
    for f in FIGURES {
        let kind = f.dimension.map_or("money".to_owned(), chairwright_language::dimension_phrase);
        t.row(vec![f.name.to_owned(), kind, f.doc.to_owned()]);
    }
    table(&t)
}
