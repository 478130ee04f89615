//! The formatter: same tokens, same comments, same tree, and a second run changes nothing.

#![allow(clippy::unwrap_used, clippy::panic)]

use chairwright_diagnostics::SourceId;
use chairwright_syntax::{Limits, Raw, format, parse, tokens};
use chairwright_tests::{files, root, sections};

/// Every token that carries meaning, and every comment, in order.
fn meaning(text: &str) -> Vec<(Raw, String)> {
    tokens(text)
        .into_iter()
        .filter(|(t, _)| !matches!(t, Raw::Blank | Raw::Newline))
        .map(|(t, r)| (t, text[r].trim_end().to_owned()))
        .collect()
}

fn texts() -> Vec<String> {
    let mut all: Vec<String> = chairwright_catalogue::PAGES.iter().map(|p| p.text.to_owned()).collect();
    let read = |f: &std::path::PathBuf| std::fs::read_to_string(f).unwrap();
    all.extend(files(&root().join("examples"), "chair").iter().map(read));
    for file in files(&root().join("tests/suite"), "chair") {
        all.extend(sections(&read(&file)).into_iter().filter_map(|s| s.files.get("main.chair").cloned()));
    }
    all
}

#[test]
fn formatting_keeps_the_meaning_and_settles() {
    for text in texts() {
        let once = format(&text);
        assert_eq!(meaning(&text), meaning(&once), "tokens changed in\n{text}");
        assert_eq!(once, format(&once), "a second run changes\n{text}");
        let limits = Limits::default();
        let (a, b) = (parse(SourceId(0), &text, &limits), parse(SourceId(0), &once, &limits));
        assert_eq!(a.entries.len(), b.entries.len(), "tree changed in\n{text}");
        let codes = |p: &chairwright_syntax::Parse| p.problems.iter().map(|d| d.code.name).collect::<Vec<_>>();
        assert_eq!(codes(&a), codes(&b), "problems changed in\n{text}");
    }
}

#[test]
fn examples_and_pages_are_formatted() {
    for file in
        files(&root().join("examples"), "chair").iter().chain(&files(&root().join("crates/catalogue"), "chair"))
    {
        let text = std::fs::read_to_string(file).unwrap();
        assert_eq!(text, format(&text), "{}", file.display());
    }
}
