//! Fixture files: several named sections, each a small project whose expected findings stand in
//! comments below the lines they belong to.

use crate::Memory;
use chairwright_diagnostics::{Diagnostic, Sources};
use chairwright_driver::{Options, compile};
use chairwright_quantity::{Number, parse_unit};
use std::collections::BTreeMap;

/// One expected finding.
#[derive(Clone, Debug)]
pub struct Annotation {
    /// Line of its primary place, from one; `None` for a finding without a place in this text.
    pub line: Option<usize>,
    /// First column and how many columns.
    pub columns: (usize, usize),
    /// `error[needs-angle]`.
    pub head: String,
    /// Texts that must occur in it.
    pub texts: Vec<String>,
}

/// One expected figure.
#[derive(Clone, Debug)]
pub struct Figure {
    name: String,
    value: f64,
    tolerance: f64,
}

/// One section.
#[derive(Clone, Debug)]
pub struct Section {
    /// Its name.
    pub name: String,
    /// Its files; the main one is `main.chair`.
    pub files: BTreeMap<String, String>,
    /// Expected findings.
    pub annotations: Vec<Annotation>,
    /// Expected figures.
    pub figures: Vec<Figure>,
}

/// Splits a fixture file into sections.
///
/// # Panics
/// When the file is not written as fixtures are.
#[must_use]
#[allow(clippy::panic)]
pub fn sections(text: &str) -> Vec<Section> {
    let mut all: Vec<Section> = Vec::new();
    let mut file = "main.chair".to_owned();
    let mut line = 0;
    let mut last = 0;
    for written in text.lines() {
        if let Some(name) = written.strip_prefix("--- ").and_then(|n| n.strip_suffix(" ---")) {
            all.push(Section {
                name: name.to_owned(),
                files: BTreeMap::new(),
                annotations: Vec::new(),
                figures: Vec::new(),
            });
            "main.chair".clone_into(&mut file);
            line = 0;
            continue;
        }
        let Some(section) = all.last_mut() else {
            assert!(written.trim().is_empty() || written.starts_with("//"), "text before the first section");
            continue;
        };
        if let Some(name) = written.strip_prefix("=== ") {
            name.trim().clone_into(&mut file);
            section.files.insert(file.clone(), String::new());
            continue;
        }
        let main = file == "main.chair";
        if main {
            line += 1;
        }
        let note = written.trim_start().strip_prefix("//").filter(|_| main);
        match note.map(str::trim_start) {
            Some(rest) if rest.starts_with('^') => {
                let start = written.find('^').unwrap_or(0) + 1;
                let count = rest.chars().take_while(|c| *c == '^').count();
                section.annotations.push(annotation(Some(last), (start, count), rest.trim_start_matches('^')));
            }
            Some(rest) if rest.starts_with('@') => {
                section.annotations.push(at_columns(last, &rest[1..]));
            }
            Some(rest) if rest.starts_with('!') => {
                section.annotations.push(annotation(None, (0, 0), &rest[1..]));
            }
            Some(rest) if rest.starts_with('=') => section.figures.push(figure(&rest[1..])),
            _ => last = line,
        }
        let text = section.files.entry(file.clone()).or_default();
        text.push_str(written);
        text.push('\n');
    }
    all
}

/// `@COLUMN+COUNT head …`, for places too near the margin for carets.
#[allow(clippy::panic)]
fn at_columns(line: usize, text: &str) -> Annotation {
    let (place, rest) = text.split_once(' ').unwrap_or((text, ""));
    let columns = place.split_once('+').and_then(|(a, b)| Some((a.parse().ok()?, b.parse().ok()?)));
    let Some(columns) = columns else { panic!("no columns in `{text}`") };
    annotation(Some(line), columns, rest)
}

#[allow(clippy::panic)]
fn annotation(line: Option<usize>, columns: (usize, usize), text: &str) -> Annotation {
    let text = text.trim();
    let head = text.split_whitespace().next().unwrap_or_default().to_owned();
    assert!(head.contains('[') && head.ends_with(']'), "no code in `{text}`");
    let texts = text.split('"').skip(1).step_by(2).map(str::to_owned).collect();
    Annotation { line, columns, head, texts }
}

#[allow(clippy::panic)]
fn figure(text: &str) -> Figure {
    let Some((name, value)) = text.split_once("->") else { panic!("no -> in `{text}`") };
    let (value, tolerance) = value.split_once('±').unwrap_or((value, "0"));
    let read = |text: &str| -> f64 {
        let text = text.trim();
        let split = text.find(|c: char| !(c.is_ascii_digit() || ".-".contains(c))).unwrap_or(text.len());
        let (number, unit) = text.split_at(split);
        let negative = number.starts_with('-');
        let Some(number) = Number::decimal(number.trim_start_matches('-')) else {
            panic!("no number in `{text}`")
        };
        let factor = if unit.trim().is_empty() {
            Number::ONE
        } else {
            match parse_unit(unit.trim()) {
                Ok(unit) => unit.factor,
                Err(_) => panic!("no unit in `{text}`"),
            }
        };
        let value = number.mul(factor).to_f64();
        if negative { -value } else { value }
    };
    Figure { name: name.trim().to_owned(), value: read(value), tolerance: read(tolerance) }
}

/// Options from lines `// asked for: --variant NAME`, `--state NAME` and `--set NAME=VALUE`.
#[must_use]
pub fn asked_for(text: &str) -> Options {
    let mut options = Options::default();
    for line in text.lines().filter_map(|l| l.strip_prefix("// asked for: ")) {
        match line.trim().split_once(' ') {
            Some(("--variant", name)) => options.variant = Some(name.to_owned()),
            Some(("--state", name)) => options.situation.state = Some(name.to_owned()),
            Some(("--set", set)) => {
                let (name, value) = set.split_once('=').unwrap_or((set, ""));
                options.settings.push((name.trim().to_owned(), value.trim().to_owned()));
            }
            _ => {}
        }
    }
    options
}

/// Codes from lines `// leaves aside: CODE CODE`: true of the section's chair, and not what it is about.
fn leaves_aside(text: &str) -> Vec<&str> {
    let lines = text.lines().filter_map(|l| l.strip_prefix("// leaves aside: "));
    lines.flat_map(str::split_whitespace).collect()
}

/// Compiles a section and lists what differs from its annotations.
#[must_use]
pub fn check_section(section: &Section) -> Vec<String> {
    let world = Memory(section.files.clone());
    let (sources, compiled) = compile(&world, "main.chair", &asked_for(&section.files["main.chair"]));
    let mut wrong = Vec::new();
    let mut open: Vec<&Annotation> = section.annotations.iter().collect();
    let aside = leaves_aside(&section.files["main.chair"]);
    for problem in compiled.problems.iter().filter(|p| !aside.contains(&p.code.name)) {
        match open.iter().position(|a| fits(&sources, problem, a)) {
            Some(i) => {
                open.remove(i);
            }
            None => wrong.push(format!("not expected: {}", describe(&sources, problem))),
        }
    }
    for code in aside.iter().filter(|c| !compiled.problems.iter().any(|p| p.code.name == **c)) {
        wrong.push(format!("leaves aside {code}, which is not found"));
    }
    wrong.extend(open.iter().map(|a| format!("expected and not found: {a:?}")));
    for figure in &section.figures {
        let found = compiled.figures.0.get(&figure.name);
        let Some(found) = found else {
            wrong.push(format!("no figure {}", figure.name));
            continue;
        };
        let value = found.value.number.to_f64();
        if (value - figure.value).abs() > figure.tolerance + 1e-9 * figure.value.abs() {
            wrong.push(format!("{} is {value}, {} ± {} expected", figure.name, figure.value, figure.tolerance));
        }
    }
    wrong
}

/// The primary place in the main text: line, first column, columns (at least one).
fn place(sources: &Sources, problem: &Diagnostic) -> Option<(usize, usize, usize)> {
    let span = problem.primary.as_ref()?.span;
    let source = sources.get(span.source).filter(|s| s.name == "main.chair")?;
    let (line, column) = source.position(span.start as usize);
    let (end_line, end_column) = source.position(span.end as usize);
    let count = if end_line == line { end_column.saturating_sub(column).max(1) } else { 1 };
    Some((line, column, count))
}

fn fits(sources: &Sources, problem: &Diagnostic, a: &Annotation) -> bool {
    let head = format!("{}[{}]", problem.severity.token(), problem.code.name);
    let here = place(sources, problem);
    let at = match (a.line, here) {
        (Some(line), Some(p)) => p == (line, a.columns.0, a.columns.1),
        (None, None) => true,
        _ => false,
    };
    let all = everything(problem);
    head == a.head && at && a.texts.iter().all(|t| all.contains(t.as_str()))
}

fn everything(problem: &Diagnostic) -> String {
    let labels = problem.primary.iter().chain(&problem.secondary).map(|l| l.text.clone());
    let rest = problem.notes.iter().cloned().chain(problem.help.clone());
    std::iter::once(problem.headline.clone()).chain(labels).chain(rest).collect::<Vec<_>>().join("\n")
}

fn describe(sources: &Sources, problem: &Diagnostic) -> String {
    format!(
        "{:?} {}[{}] {}",
        place(sources, problem),
        problem.severity.token(),
        problem.code.name,
        everything(problem).replace('\n', " | ")
    )
}
