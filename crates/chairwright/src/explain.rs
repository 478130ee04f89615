//! `explain`: pages of codes, and lists of what the language has.

use crate::{CLEAN, print};
use chairwright_catalogue::PAGES;
use chairwright_diagnostics::{CODES, code};
use chairwright_language::fields::{AS_BUILT, CONDITIONS, ENTRIES, Field, RIDER};
use chairwright_language::figures::FIGURES;
use chairwright_language::schema::{STATEMENTS, Subject};
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
            None => return Err(unknown(topic)),
        },
    };
    print(&text);
    Ok(CLEAN)
}

fn unknown(topic: &str) -> String {
    let topics = ["codes", "statements", "fields", "functions", "figures", "catalogue"];
    let known = CODES.iter().map(|c| c.name).chain(topics);
    match nearest(topic, known) {
        Some(meant) => format!("nothing is known about `{topic}`; did you mean {meant}?"),
        None => {
            format!("nothing is known about `{topic}`; the topics are {}, and every code", topics.join(", "))
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
        let clauses: Vec<String> = s
            .clauses
            .iter()
            .map(|c| if c.required { c.word.to_owned() } else { format!("[{}]", c.word) })
            .collect();
        let name = if s.subject == Subject::NewName { " NAME" } else { "" };
        let value = if s.value.is_some() { " = …" } else { "" };
        out.push_str(&format!("  {}{name}{value} {}\n      {}\n", s.keyword, clauses.join(" "), s.shape));
    }
    out
}

fn all_fields() -> String {
    let mut out = String::new();
    let mut block = |title: &str, list: &[Field]| {
        out.push_str(&format!("{title}\n"));
        let mut t = Table::new(&["field", "", "written as"]);
        for f in list {
            t.row(vec![
                f.key.to_owned(),
                if f.required { "must" } else { "" }.to_owned(),
                sample_value(f.kind),
            ]);
        }
        out.push_str(&table(&t));
        out.push('\n');
    };
    block("rider { … }, with .left and .right where the sides differ", RIDER);
    block("conditions { … }", CONDITIONS);
    block("as_built { … }, by the test sheet of chairwright prove", AS_BUILT);
    for e in ENTRIES {
        block(&format!("{} \"…\" {{ … }}", e.keyword), e.fields);
    }
    out
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
