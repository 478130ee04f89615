//! The suite: every section of every fixture, every page, every snippet of the reference.

#![allow(clippy::unwrap_used, clippy::panic)]

use chairwright_diagnostics::CODES;
use chairwright_driver::{Options, compile};
use chairwright_tests::{Memory, asked_for, check_section, fences, files, root, sections};
use std::collections::{BTreeMap, BTreeSet};

fn all_sections() -> Vec<chairwright_tests::Section> {
    files(&root().join("tests/suite"), "chair")
        .iter()
        .flat_map(|f| sections(&std::fs::read_to_string(f).unwrap()))
        .collect()
}

#[test]
fn every_section_says_what_it_is_annotated_with() {
    let all = all_sections();
    assert!(all.len() >= CODES.len(), "only {} sections", all.len());
    let mut wrong = String::new();
    for section in &all {
        for line in check_section(section) {
            wrong.push_str(&format!("{}: {line}\n", section.name));
        }
    }
    assert!(wrong.is_empty(), "\n{wrong}");
}

#[test]
fn every_finding_says_what_to_do_next() {
    for section in all_sections() {
        let world = Memory(section.files.clone());
        let (_, c) = compile(&world, "main.chair", &asked_for(&section.files["main.chair"]));
        for problem in &c.problems {
            assert!(
                problem.help.as_ref().is_some_and(|h| h.len() > 8),
                "{}: {}",
                section.name,
                problem.headline
            );
        }
    }
}

#[test]
fn section_names_are_unique() {
    let mut seen = BTreeSet::new();
    for section in all_sections() {
        assert!(seen.insert(section.name.clone()), "{} twice", section.name);
    }
}

/// Codes that only a huge text can raise have a test of their own instead of a fixture.
const WITHOUT_FIXTURE: &[&str] = &["unregistered-code"];

#[test]
fn every_code_has_a_plain_and_an_awkward_fixture() {
    let mut used: BTreeMap<String, usize> = BTreeMap::new();
    for section in all_sections() {
        let codes: BTreeSet<String> = section
            .annotations
            .iter()
            .filter_map(|a| a.head.split_once('[').map(|(_, c)| c.trim_end_matches(']').to_owned()))
            .collect();
        for code in codes {
            *used.entry(code).or_default() += 1;
        }
    }
    let enough = |n: &&str| used.get(*n).copied().unwrap_or(0) >= 2 || WITHOUT_FIXTURE.contains(n);
    let missing: Vec<&str> = CODES.iter().map(|c| c.name).filter(|n| !enough(n)).collect();
    assert!(missing.is_empty(), "codes without two fixtures: {missing:?}");
    let known: BTreeSet<&str> = CODES.iter().map(|c| c.name).collect();
    let unknown: Vec<&String> = used.keys().filter(|u| !known.contains(u.as_str())).collect();
    assert!(unknown.is_empty(), "{unknown:?}");
}

/// The files of a fenced example: the main text, then others behind `=== name` lines.
fn world(example: &str) -> Memory {
    let mut memory = Memory::default();
    let mut file = "main.chair".to_owned();
    for line in example.lines() {
        if let Some(name) = line.strip_prefix("=== ") {
            name.trim().clone_into(&mut file);
            continue;
        }
        let text = memory.0.entry(file.clone()).or_default();
        text.push_str(line);
        text.push('\n');
    }
    memory
}

#[test]
fn every_page_explains_its_code_by_an_example_that_raises_it() {
    let mut wrong = String::new();
    for code in CODES {
        if !code.page.starts_with(&format!("# {}\n", code.name)) {
            wrong.push_str(&format!("{}: the page has another title\n", code.name));
        }
        if code.name == "unregistered-code" {
            continue;
        }
        let examples = fences(code.page, "chair");
        if examples.len() != 1 || !code.page.contains("## How to mend it") {
            wrong.push_str(&format!("{}: one example and a repair are wanted\n", code.name));
            continue;
        }
        let (_, compiled) = compile(&world(&examples[0]), "main.chair", &asked_for(&examples[0]));
        if !compiled.problems.iter().any(|p| p.code.name == code.name) {
            let got: Vec<&str> = compiled.problems.iter().map(|p| p.code.name).collect();
            wrong.push_str(&format!("{}: the example raises {got:?}\n", code.name));
        }
    }
    assert!(wrong.is_empty(), "\n{wrong}");
}

#[test]
fn repairs_that_are_offered_as_edits_remove_their_finding() {
    let mut tried = 0;
    for section in all_sections() {
        let world = Memory(section.files.clone());
        let (sources, before) = compile(&world, "main.chair", &Options::default());
        for problem in &before.problems {
            let Some(edit) = &problem.edit else { continue };
            let Some(source) = sources.get(edit.span.source).filter(|s| s.name == "main.chair") else {
                continue;
            };
            let mut text = source.text.clone();
            text.replace_range(edit.span.range(), &edit.replacement);
            let mut mended = world.clone();
            mended.0.insert("main.chair".to_owned(), text);
            let (_, after) = compile(&mended, "main.chair", &Options::default());
            let count = |list: &[chairwright_diagnostics::Diagnostic]| {
                list.iter().filter(|p| p.code == problem.code).count()
            };
            tried += 1;
            assert!(
                count(&after.problems) < count(&before.problems),
                "{}: the repair of {} does not help",
                section.name,
                problem.code.name
            );
        }
    }
    assert!(tried >= 15, "only {tried} repairs were tried");
}

#[test]
fn every_snippet_of_the_reference_compiles() {
    let text = std::fs::read_to_string(root().join("crates/language/REFERENCE.md")).unwrap();
    let snippets = fences(&text, "chair");
    assert!(snippets.len() >= 8, "only {} snippets", snippets.len());
    for snippet in snippets {
        let mut memory = world(&snippet);
        for name in ["parts.chair", "prices.csv"] {
            let path = root().join("examples/first_chair").join(name);
            memory.0.insert(name.to_owned(), std::fs::read_to_string(path).unwrap());
        }
        let (_, compiled) = compile(&memory, "main.chair", &Options::default());
        let errors: Vec<&String> = compiled
            .problems
            .iter()
            .filter(|p| p.severity == chairwright_diagnostics::Severity::Error)
            .map(|p| &p.headline)
            .collect();
        assert!(errors.is_empty(), "{errors:?} in\n{snippet}");
    }
}
