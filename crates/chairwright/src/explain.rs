//! `explain`: pages of codes, and lists of what the language has.

mod words;

use crate::{CLEAN, print};
use chairwright_catalogue::PAGES;
use chairwright_diagnostics::{CODES, code};
use chairwright_language::figures::FIGURES;
use chairwright_language::{function_list, nearest};
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
        Some("catalogue") => catalogue(),
        Some(topic) => match code(topic) {
            Some(code) => format!("{}  ({})\n\n{}", code.name, code.label(), code.page),
            None => words::named(topic).ok_or_else(|| unknown(topic))?,
        },
    };
    print(&text);
    Ok(CLEAN)
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
    ] {
        t.row(vec![topic.to_owned(), about.to_owned()]);
    }
    table(&t)
}

fn unknown(topic: &str) -> String {
    let topics = TOPICS.map(|(topic, _)| topic);
    let known = CODES.iter().map(|c| c.name).chain(topics).chain(words::known());
    match nearest(topic, known) {
        Some(meant) => format!("nothing is known about `{topic}`; did you mean {meant}?"),
        None => format!(
            "nothing is known about `{topic}`; the topics are {}, every code, statement, clause and field",
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

fn catalogue() -> String {
    let mut out = String::from("Pages that ship with the compiler: use catalogue.NAME\n\n");
    for p in PAGES {
        let about: Vec<&str> = p
            .text
            .lines()
            .take_while(|l| l.starts_with("//"))
            .map(|l| l.trim_start_matches('/').trim())
            .collect();
        out.push_str(&format!("  {}\n", p.name));
        for line in chairwright_diagnostics::wrap(&about.join(" "), 74) {
            out.push_str(&format!("      {line}\n"));
        }
    }
    out
}
