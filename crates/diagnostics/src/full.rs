//! The full rendering for people, drawn by ariadne.

use crate::{Diagnostic, Label, Severity, SourceId, Sources, Span, wrap};
use ariadne::{Cache, Color, Config, IndexType, Report, ReportKind};
use std::collections::BTreeMap;
use std::fmt;
use std::fmt::Write as _;

type Place = (SourceId, std::ops::Range<usize>);

/// Width that headlines, notes and helps are broken at.
const WIDTH: usize = 66;
/// Columns of the whole.
const COLUMNS: usize = 80;

/// Texts as ariadne wants them, built once per rendering.
struct Drawn<'a> {
    sources: &'a Sources,
    texts: BTreeMap<SourceId, ariadne::Source<&'a str>>,
}

impl<'a> Cache<SourceId> for Drawn<'a> {
    type Storage = &'a str;

    fn fetch(&mut self, id: &SourceId) -> Result<&ariadne::Source<&'a str>, impl fmt::Debug> {
        let sources = self.sources;
        let text = self
            .texts
            .entry(*id)
            .or_insert_with(|| ariadne::Source::from(sources.get(*id).map_or("", |s| s.text.as_str())));
        Ok::<_, fmt::Error>(text)
    }

    fn display<'b>(&self, id: &'b SourceId) -> Option<impl fmt::Display + 'b> {
        self.sources.get(*id).map(|s| s.name.clone())
    }
}

/// Renders every diagnostic in full, separated by blank lines.
#[must_use]
pub fn render_full(sources: &Sources, problems: &[Diagnostic], colour: bool) -> String {
    let mut drawn = Drawn { sources, texts: BTreeMap::new() };
    let mut out = String::new();
    let mut folded: Vec<&'static str> = Vec::new();
    for problem in problems {
        let alike = alike(problem, problems);
        if folded.contains(&problem.code.name) {
            continue;
        }
        let text = match &problem.primary {
            Some(primary) => draw(&mut drawn, problem, primary, colour),
            None => without_place(problem),
        };
        for line in text.lines() {
            let _ = writeln!(out, "{}", line.trim_end());
        }
        if alike.len() > FOLD {
            folded.push(problem.code.name);
            out.push_str(&same_on(sources, &alike));
        }
        out.push('\n');
    }
    out
}

/// Slips of writing that are repeated more often than this are shown once.
const FOLD: usize = 3;

/// Findings of the same slip of writing, this one first.
fn alike<'p>(problem: &Diagnostic, problems: &'p [Diagnostic]) -> Vec<&'p Diagnostic> {
    let folds =
        ["stray-character", "decimal-comma", "list-mark", "curly-quote", "inch-marks", "hyphen-fraction"];
    if !folds.contains(&problem.code.name) {
        return Vec::new();
    }
    problems.iter().filter(|p| p.code == problem.code).collect()
}

fn same_on(sources: &Sources, alike: &[&Diagnostic]) -> String {
    let mut lines: Vec<usize> = alike
        .iter()
        .skip(1)
        .filter_map(|p| p.primary.as_ref())
        .filter_map(|l| Some(sources.get(l.span.source)?.position(l.span.start as usize).0))
        .collect();
    lines.dedup();
    let list: Vec<String> = lines.iter().map(usize::to_string).collect();
    let text = format!("the same {} more times, on lines {}", alike.len() - 1, list.join(", "));
    format!("   {}\n", wrap(&text, WIDTH).join("\n   "))
}

/// A label that does not fit beside its place is printed below the snippet instead.
fn too_long(sources: &Sources, label: &Label) -> bool {
    let column = sources.get(label.span.source).map_or(0, |s| s.position(label.span.end as usize).1);
    label.text.chars().count() + column + 12 > COLUMNS
}

fn draw(drawn: &mut Drawn, problem: &Diagnostic, primary: &Label, colour: bool) -> String {
    let room = COLUMNS - problem.code.name.len() - problem.severity.word().len() - 5;
    let kind = ReportKind::Custom(problem.severity.word(), hue(problem.severity));
    let config = Config::default().with_color(colour).with_index_type(IndexType::Byte).with_compact(false);
    let mut report = Report::build(kind, place(drawn.sources, primary.span))
        .with_config(config)
        .with_code(problem.code.name)
        .with_message(wrap(&headline(problem), room).join("\n  "));
    let labels = std::iter::once((primary, hue(problem.severity)))
        .chain(problem.secondary.iter().map(|l| (l, Color::Cyan)));
    let mut below = String::new();
    for (i, (label, color)) in labels.enumerate() {
        let word = if i == 0 { "here".to_owned() } else { format!("here {i}") };
        let text = if label.text.len() > word.len() && too_long(drawn.sources, label) {
            let _ = writeln!(below, "   {word}: {}", wrap(&label.text, WIDTH).join("\n         "));
            word
        } else {
            label.text.clone()
        };
        let order = i32::try_from(i).unwrap_or(i32::MAX);
        report = report.with_label(
            ariadne::Label::new(place(drawn.sources, label.span))
                .with_message(text)
                .with_color(color)
                .with_order(order),
        );
    }
    let mut bytes = Vec::new();
    if report.finish().write(drawn, &mut bytes).is_err() {
        return without_place(problem);
    }
    let text = String::from_utf8_lossy(&bytes);
    let mut out = if colour { text.into_owned() } else { plain(&text) };
    out.push_str(&below);
    reasons(problem, &mut out);
    out
}

/// ariadne colours the severity of a custom kind whatever the configuration says.
fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut escape = false;
    for c in text.chars() {
        match (escape, c) {
            (false, '\u{1b}') => escape = true,
            (false, c) => out.push(c),
            (true, c) => escape = !c.is_ascii_alphabetic(),
        }
    }
    out
}

/// Why and what next, below the snippet and in this order; ariadne would print the help first.
fn reasons(problem: &Diagnostic, out: &mut String) {
    let notes = problem.notes.iter().map(|n| ("note", n));
    for (word, text) in notes.chain(problem.help.iter().map(|h| ("help", h))) {
        let _ = writeln!(out, "   {word}: {}", wrap(text, WIDTH).join("\n         "));
    }
}

fn headline(problem: &Diagnostic) -> String {
    match &problem.situation {
        Some(situation) => format!("{} ({situation})", problem.headline),
        None => problem.headline.clone(),
    }
}

fn hue(severity: Severity) -> Color {
    match severity {
        Severity::Error => Color::Red,
        Severity::CannotTell => Color::Magenta,
        Severity::Warning => Color::Yellow,
        Severity::Advice => Color::Blue,
    }
}

/// ariadne loses the snippet for a span behind the last character, so spans are clamped.
fn place(sources: &Sources, span: Span) -> Place {
    let Some(source) = sources.get(span.source) else { return (span.source, 0..0) };
    let start = source.clamp((span.start as usize).min(source.text.len().saturating_sub(1)));
    let end = source.clamp(span.end as usize).max(start);
    (span.source, start..end)
}

fn without_place(problem: &Diagnostic) -> String {
    let mut out = format!("[{}] {}: {}\n", problem.code.name, problem.severity.word(), headline(problem));
    for label in problem.primary.iter().chain(&problem.secondary) {
        let _ = writeln!(out, "   {}", label.text);
    }
    reasons(problem, &mut out);
    out
}
