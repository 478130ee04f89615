//! `explain`: pages of codes, and lists of what the language has.

use crate::{CLEAN, print};
use chairwright_catalogue::PAGES;
use chairwright_diagnostics::{CODES, code};
use chairwright_language::fields::{AS_BUILT, BASELINE, CONDITIONS, ENTRIES, Field, RIDER, has_sides};
use chairwright_language::figures::FIGURES;
use chairwright_language::schema::{STATEMENTS, StatementSpec, Subject, statement_spec};
use chairwright_language::{function_list, nearest, sample_value};
use chairwright_report::Table;

/// Runs the command.
pub fn run(topic: &str) -> Result<u8, String> {
    let text = match topic {
        "codes" => codes(),
        "statements" => statements(),
        "fields" => all_fields(),
        "functions" => functions(),
        "figures" => figures(),
        "catalogue" => catalogue(),
        _ => match code(topic) {
            Some(code) => format!("{}  ({})\n\n{}", code.name, code.label(), code.page),
            None => named(topic).ok_or_else(|| unknown(topic))?,
        },
    };
    print(&text);
    Ok(CLEAN)
}

fn unknown(topic: &str) -> String {
    let topics = ["codes", "statements", "fields", "functions", "figures", "catalogue"];
    let words = STATEMENTS.iter().map(|s| s.keyword).chain(ENTRIES.iter().map(|e| e.keyword));
    let known = CODES.iter().map(|c| c.name).chain(topics).chain(words);
    match nearest(topic, known) {
        Some(meant) => format!("nothing is known about `{topic}`; did you mean {meant}?"),
        None => {
            format!(
                "nothing is known about `{topic}`; the topics are {}, every code and every statement",
                topics.join(", ")
            )
        }
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

fn statements() -> String {
    let mut out = String::from("Statements, each with an example. Clauses in brackets may be left out.\n\n");
    for s in STATEMENTS {
        out.push_str(&format!("  {}\n      {}\n", form(s), s.shape));
    }
    out
}

/// How a statement is put together.
fn form(s: &StatementSpec) -> String {
    let mut out = s.keyword.to_owned();
    if s.subject == Subject::NewName {
        out.push_str(" NAME");
    }
    if s.value.is_some() {
        out.push_str(" = …");
    }
    for c in s.clauses {
        out.push_str(&if c.required { format!(" {}", c.word) } else { format!(" [{}]", c.word) });
    }
    out
}

/// One statement, block or catalogue entry by its keyword, in any spelling that the language takes.
fn named(topic: &str) -> Option<String> {
    let statement = statement_spec(topic);
    let entries: Vec<(String, &[Field])> = blocks()
        .into_iter()
        .filter(|(k, ..)| *k == statement.map_or(topic, |s| s.keyword))
        .map(|(_, t, f)| (t, f))
        .collect();
    if statement.is_none() && entries.is_empty() {
        return None;
    }
    let mut out = String::new();
    if let Some(s) = statement {
        out.push_str(&format!("{}\n\n  for example: {}\n", form(s), s.shape));
        if !s.clauses.is_empty() {
            let mut t = Table::new(&["clause", "", "written as"]);
            for c in s.clauses {
                t.row(vec![c.word.to_owned(), must(c.required), sample_value(c.kind)]);
            }
            out.push_str(&format!("\n{}", table(&t)));
        }
    }
    if let Some((_, note)) = EDGES.iter().find(|(word, _)| statement.is_some_and(|s| s.keyword == *word)) {
        out.push_str(&format!("\n{note}\n"));
    }
    for (title, fields) in entries {
        out.push_str(&format!("{}{}", if out.is_empty() { "" } else { "\n" }, block(&title, fields)));
    }
    Some(out)
}

/// Which edge of a support is written first.
const EDGES: [(&str, &str); 4] = [
    ("seat", "from the rear edge to the front edge; written the other way round it is the same seat"),
    ("back", "from the lower edge to the upper edge; written the other way round it is the same back"),
    ("footrest", "from the heels' edge to the toes' edge; written the other way round it is the same footrest"),
    ("armrest", "from the rear end to the front end; written the other way round it is the same armrest"),
];

fn must(required: bool) -> String {
    if required { "must" } else { "" }.to_owned()
}

/// Every block of fields: its keyword, its title, its fields.
fn blocks() -> Vec<(&'static str, String, &'static [Field])> {
    let mut out = vec![
        ("rider", "rider { … }, also with .left and .right where it says so".to_owned(), RIDER),
        ("conditions", "conditions { … }".to_owned(), CONDITIONS),
        ("as_built", "as_built { … }, by the test sheet of chairwright prove".to_owned(), AS_BUILT),
        ("baseline", "baseline { … }, what a tape says of a chair that the rider likes".to_owned(), BASELINE),
    ];
    out.extend(ENTRIES.iter().map(|e| (e.keyword, format!("{} \"…\" {{ … }}", e.keyword), e.fields)));
    out
}

fn block(title: &str, fields: &[Field]) -> String {
    let mut t = Table::new(&["field", "", "written as"]);
    let rider = std::ptr::eq(fields, RIDER);
    for f in fields {
        let sides = if rider && has_sides(f.key) { ".left .right" } else { "" };
        t.row(vec![f.key.to_owned(), format!("{}{sides}", must(f.required)), sample_value(f.kind)]);
    }
    format!("{title}\n{}", table(&t))
}

fn all_fields() -> String {
    let all: Vec<String> = blocks().iter().map(|(_, title, fields)| block(title, fields)).collect();
    all.join("\n")
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
