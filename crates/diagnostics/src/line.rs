//! One line each, for logs, drawn by codespan-reporting.

use crate::{Diagnostic, Severity, Sources};
use codespan_reporting::diagnostic::{Diagnostic as Line, Label, Severity as Weight};
use codespan_reporting::files::SimpleFiles;
use codespan_reporting::term;
use codespan_reporting::term::{Config, DisplayStyle};
use std::fmt::Write as _;

/// Renders every diagnostic on one line: `file:line:column: severity[code]: headline`.
#[must_use]
pub fn render_lines(sources: &Sources, problems: &[Diagnostic]) -> String {
    let mut files = SimpleFiles::new();
    for (_, source) in sources.iter() {
        files.add(source.name.as_str(), source.text.as_str());
    }
    let config = Config { display_style: DisplayStyle::Short, ..Config::default() };
    let mut out = String::new();
    for problem in problems {
        let line = as_line(sources, problem);
        if problem.primary.is_none() || term::emit_to_string(&mut out, &config, &files, &line).is_err() {
            let _ = writeln!(out, "{}[{}]: {}", word(problem.severity), problem.code.name, text(problem));
        }
    }
    out
}

fn as_line(sources: &Sources, problem: &Diagnostic) -> Line<usize> {
    let mut line = Line::new(weight(problem.severity)).with_code(problem.code.name).with_message(text(problem));
    if let Some(primary) = &problem.primary {
        let clamp = |o: u32| sources.get(primary.span.source).map_or(0, |s| s.clamp(o as usize));
        let range = clamp(primary.span.start)..clamp(primary.span.end);
        line = line.with_label(Label::primary(primary.span.source.0 as usize, range));
    }
    line
}

fn text(problem: &Diagnostic) -> String {
    let situation = problem.situation.as_ref().map(|s| format!(" ({s})")).unwrap_or_default();
    let cannot = if problem.severity == Severity::CannotTell { "cannot tell: " } else { "" };
    format!("{cannot}{}{situation}", problem.headline)
}

fn weight(severity: Severity) -> Weight {
    match severity {
        Severity::Error => Weight::Error,
        Severity::CannotTell | Severity::Warning => Weight::Warning,
        Severity::Advice => Weight::Note,
    }
}

fn word(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "error",
        Severity::CannotTell | Severity::Warning => "warning",
        Severity::Advice => "note",
    }
}
