//! Diagnostics as rows for programs.

use crate::{Diagnostic, Label, Sources};
use serde::Serialize;

/// A place as line and column, counted from one, and as bytes.
#[derive(Serialize, Clone, Debug)]
pub struct PlaceRow {
    /// The text's name.
    pub file: String,
    /// Line of the first character.
    pub line: usize,
    /// Column of the first character.
    pub column: usize,
    /// Line just behind the last character.
    pub end_line: usize,
    /// Column just behind the last character.
    pub end_column: usize,
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
    /// What is said there.
    pub label: String,
}

/// The edit that mends a finding.
#[derive(Serialize, Clone, Debug)]
pub struct EditRow {
    /// What to replace.
    pub place: PlaceRow,
    /// By what.
    pub replacement: String,
}

/// One diagnostic.
#[derive(Serialize, Clone, Debug)]
pub struct DiagnosticRow {
    /// Registered name.
    pub code: &'static str,
    /// Registered number, such as `CW0301`.
    pub number: String,
    /// `error`, `cannot-tell`, `warning` or `advice`.
    pub severity: &'static str,
    /// What.
    pub headline: String,
    /// Where.
    pub place: Option<PlaceRow>,
    /// The other parties.
    pub related: Vec<PlaceRow>,
    /// Why it matters.
    pub notes: Vec<String>,
    /// What to do next.
    pub help: Option<String>,
    /// The edit that does it.
    pub edit: Option<EditRow>,
    /// The variant, state and adjustment in which it happens, in words.
    pub situation: Option<String>,
}

/// All diagnostics as rows, in the order given.
#[must_use]
pub fn json_rows(sources: &Sources, problems: &[Diagnostic]) -> Vec<DiagnosticRow> {
    problems.iter().map(|p| row(sources, p)).collect()
}

fn row(sources: &Sources, problem: &Diagnostic) -> DiagnosticRow {
    DiagnosticRow {
        code: problem.code.name,
        number: problem.code.label(),
        severity: problem.severity.token(),
        headline: problem.headline.clone(),
        place: problem.primary.as_ref().map(|l| place(sources, l)),
        related: problem.secondary.iter().map(|l| place(sources, l)).collect(),
        notes: problem.notes.clone(),
        help: problem.help.clone(),
        edit: problem.edit.as_ref().map(|e| EditRow {
            place: place(sources, &Label { span: e.span, text: String::new() }),
            replacement: e.replacement.clone(),
        }),
        situation: problem.situation.clone(),
    }
}

/// A label with its place spelled out.
pub(crate) fn place(sources: &Sources, label: &Label) -> PlaceRow {
    let span = label.span;
    let source = sources.get(span.source);
    let at = |o: u32| source.map_or((1, 1), |s| s.position(o as usize));
    let ((line, column), (end_line, end_column)) = (at(span.start), at(span.end));
    PlaceRow {
        file: source.map(|s| s.name.clone()).unwrap_or_default(),
        line,
        column,
        end_line,
        end_column,
        start: span.start,
        end: span.end,
        label: label.text.clone(),
    }
}
