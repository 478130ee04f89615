//! Statements, blocks, catalogue entries, and the words in them, each with what it means.

use chairwright_diagnostics::wrap;
use chairwright_language::fields::{
    AS_BUILT, BASELINE, CONDITIONS, ENTRIES, Field, RIDER, field as field_of, has_sides,
};
use chairwright_language::meanings::{meaning, whole};
use chairwright_language::schema::{ClauseSpec, STATEMENTS, StatementSpec, Subject, statement_spec};
use chairwright_language::{sample_value, spelling};

/// Columns of a terminal.
pub(super) const WIDTH: usize = 80;

/// Every word that has a page of its own.
pub(super) fn known() -> impl Iterator<Item = &'static str> {
    let keywords = STATEMENTS.iter().map(|s| s.keyword).chain(ENTRIES.iter().map(|e| e.keyword));
    let clauses = STATEMENTS.iter().flat_map(|s| s.clauses).map(|c| c.word);
    let fields = blocks().into_iter().flat_map(|b| b.fields).map(|f| f.key);
    keywords.chain(clauses).chain(fields)
}

/// Every statement with an example.
pub(super) fn statements() -> String {
    let mut out = String::from(
        "Statements, each with an example. Clauses in brackets may be left out; what they\n\
         mean: chairwright explain STATEMENT, or explain CLAUSE.\n\n",
    );
    for s in STATEMENTS {
        out.push_str(&hanging(&form(s), "  ", "        "));
        out.push_str(&hanging(s.shape, "      ", "        "));
    }
    out
}

/// Every field of every block.
pub(super) fn fields() -> String {
    let all: Vec<String> = blocks().iter().map(page_of_block).collect();
    all.join("\n")
}

/// What is known by this name, in any spelling that the language takes: a statement, a block or entry, a clause, a field.
pub(super) fn named(topic: &str) -> Option<String> {
    let keyword = spelling(topic);
    let about = whole(keyword).map(|about| hanging(about, "", ""));
    let mut pages: Vec<String> = about.into_iter().collect();
    pages.extend(statement_spec(keyword).map(page_of_statement));
    pages.extend(blocks().iter().filter(|b| b.keyword == keyword).map(page_of_block));
    pages.extend(page_of_word(keyword));
    (!pages.is_empty()).then(|| pages.join("\n"))
}

/// A block of fields.
struct Block {
    keyword: &'static str,
    title: String,
    fields: &'static [Field],
}

fn blocks() -> Vec<Block> {
    let block = |keyword, title: &str, fields| Block { keyword, title: title.to_owned(), fields };
    let mut out = vec![
        block("rider", "rider { … }; what has sides is also written as thigh.left", RIDER),
        block("conditions", "conditions { … }", CONDITIONS),
        block("as_built", "as_built { … }, by the test sheet of chairwright prove", AS_BUILT),
        block("baseline", "baseline { … }, what a tape says of a chair that the rider likes", BASELINE),
    ];
    out.extend(ENTRIES.iter().map(|e| block(e.keyword, &format!("{} \"…\" {{ … }}", e.keyword), e.fields)));
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

fn page_of_statement(s: &'static StatementSpec) -> String {
    let mut out = format!("{}\n  for example:\n", hanging(&form(s), "", "    ").trim_end());
    out.push_str(&hanging(s.shape, "    ", "      "));
    if !s.clauses.is_empty() {
        out.push('\n');
    }
    for c in s.clauses {
        out.push_str(&entry(&clause(c), "", s.keyword, c.word));
    }
    out
}

fn page_of_block(block: &Block) -> String {
    let mut out = format!("{}\n\n", block.title);
    for f in block.fields {
        let sides = if sided(block, f) { ", of either side too" } else { "" };
        out.push_str(&entry(&field(f), sides, block.keyword, f.key));
    }
    out
}

fn sided(block: &Block, f: &Field) -> bool {
    block.keyword == "rider" && has_sides(f.key)
}

/// How a clause is written; in brackets where it may be left out.
fn clause(c: &ClauseSpec) -> String {
    bracketed(format!("{} {}", c.word, sample_value(c.kind)), c.required)
}

fn field(f: &Field) -> String {
    bracketed(format!("{} = {}", f.key, sample_value(f.kind)), f.required)
}

fn bracketed(text: String, required: bool) -> String {
    if required { text } else { format!("[{text}]") }
}

/// How it is written, and below what it means.
fn entry(written: &str, beside: &str, of: &str, word: &str) -> String {
    let about = meaning(of, word).unwrap_or_default();
    hanging(&format!("{written}{beside}"), "  ", "    ") + &hanging(about, "      ", "      ")
}

/// What a clause or field means wherever it stands; places in which it is written alike and means the same stand together.
fn page_of_word(word: &str) -> Option<String> {
    let clauses = STATEMENTS.iter().flat_map(|s| s.clauses.iter().map(move |c| (s, c)));
    let mut all: Vec<(String, &str, &str)> =
        clauses.filter(|(_, c)| c.word == word).map(|(s, c)| (clause(c), s.keyword, c.word)).collect();
    let blocks = blocks();
    let fields = blocks.iter().filter_map(|b| Some((b, field_of(b.fields, word)?)));
    all.extend(fields.map(|(b, f)| (field(f), b.keyword, f.key)));
    let mut groups: Vec<(&str, &str, String, Vec<&str>)> = Vec::new();
    for (written, of, key) in &all {
        let about = meaning(of, key).unwrap_or_default();
        match groups.iter_mut().find(|g| g.1 == about && g.2 == *written) {
            Some(group) => group.3.push(of),
            None => groups.push((key, about, written.clone(), vec![of])),
        }
    }
    let pages = groups.iter().map(|(key, _, written, of)| {
        let places = hanging(&format!("{key} in {}", of.join(", ")), "", "    ");
        format!("{places}{}", entry(written, "", of[0], key))
    });
    let pages: Vec<String> = pages.collect();
    (!pages.is_empty()).then(|| pages.join("\n"))
}

/// A text within the width, its first line and the others behind blanks.
pub(super) fn hanging(text: &str, first: &str, next: &str) -> String {
    let lines = wrap(text, WIDTH - first.len().max(next.len()));
    let indent = |i: usize| if i == 0 { first } else { next };
    lines.iter().enumerate().map(|(i, line)| format!("{}{line}\n", indent(i))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_has_a_page_that_fits() {
        for word in known() {
            let page = named(word).unwrap();
            assert!(page.lines().all(|l| l.chars().count() <= WIDTH), "{page}");
        }
        assert!([statements(), fields()].iter().flat_map(|t| t.lines()).all(|l| l.chars().count() <= WIDTH));
    }

    #[test]
    fn a_word_says_where_it_stands_and_what_it_is_there() {
        let page = named("width").unwrap();
        for wanted in
            ["width in seat, back, footrest\n", "width in part\n", "[width = … mm]\n", "  width … mm\n"]
        {
            assert!(page.contains(wanted), "no {wanted:?} in\n{page}");
        }
        assert!(named("thigh.left").unwrap().contains("hollow of the knee"));
        assert_eq!(named("castor"), named("caster"));
        assert_eq!(named("nonsense"), None);
    }
}
