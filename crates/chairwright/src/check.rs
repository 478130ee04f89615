//! `check`: every design in every variant.

use crate::arguments::{Check, Form};
use crate::{CLEAN, FINDINGS, disk, print};
use chairwright_diagnostics::{
    Diagnostic, Severity, SourceId, Sources, json_rows, render_full, render_lines, render_sarif,
};
use chairwright_driver::{Instead, World, compile_all_with};
use chairwright_syntax::{Limits, parse};
use rayon::prelude::*;
use serde_json::json;
use std::io::IsTerminal;
use std::path::{Path, PathBuf};

/// What came of one design.
struct Outcome {
    file: PathBuf,
    sources: Sources,
    problems: Vec<Diagnostic>,
    variants: usize,
    page: bool,
}

/// Runs the command.
pub fn run(arguments: &Check) -> Result<u8, String> {
    let named: Vec<&PathBuf> = arguments.paths.iter().filter(|p| p.is_file()).collect();
    let files = disk::chair_files(&arguments.paths)?;
    // Files in folders that are no designs of their own are read through the designs that use them.
    let instead = crate::instead(&arguments.instead)?;
    let wanted = files.par_iter().filter(|f| named.contains(f) || is_design(f));
    let outcomes: Vec<Result<Outcome, String>> = wanted.map(|f| outcome(f, &instead)).collect();
    let outcomes: Vec<Outcome> = outcomes.into_iter().collect::<Result<_, _>>()?;
    if outcomes.is_empty() {
        return Err("there is no design in what was named".to_owned());
    }
    print(&render(&outcomes, arguments.form));
    let bad = outcomes.iter().flat_map(|o| &o.problems).any(|p| p.severity == Severity::Error);
    Ok(if bad { FINDINGS } else { CLEAN })
}

fn is_design(file: &Path) -> bool {
    let Ok((folder, name)) = disk::open(file) else { return false };
    let Ok(text) = folder.read(&name) else { return true };
    let tree = parse(SourceId(0), &text, &Limits::default());
    tree.entries.iter().any(|e| e.keyword.text() == "design")
}

fn outcome(file: &Path, instead: &Instead) -> Result<Outcome, String> {
    let (folder, name) = disk::open(file)?;
    let (sources, all) = compile_all_with(&folder, &name, instead);
    let variants = all.len();
    let page = all.iter().all(|c| c.design.is_page());
    let problems = all.into_iter().flat_map(|c| c.problems).collect();
    Ok(Outcome { file: file.to_owned(), sources, problems, variants, page })
}

fn render(outcomes: &[Outcome], form: Form) -> String {
    match form {
        Form::Full | Form::Line => {
            let colour = std::io::stdout().is_terminal() && std::env::var_os("NO_COLOR").is_none();
            let mut out = String::new();
            for o in outcomes {
                out.push_str(&match form {
                    Form::Full => render_full(&o.sources, &o.problems, colour),
                    _ => render_lines(&o.sources, &o.problems),
                });
            }
            if form == Form::Full {
                out.push_str(&summary(outcomes));
            }
            out
        }
        Form::Json => {
            let rows: Vec<serde_json::Value> = outcomes
                .iter()
                .map(|o| {
                    json!({
                        "file": o.file.to_string_lossy(),
                        "variants": o.variants,
                        "diagnostics": json_rows(&o.sources, &o.problems),
                    })
                })
                .collect();
            format!("{:#}\n", json!({ "format": "chairwright check", "version": 1, "designs": rows }))
        }
        Form::Sarif => {
            // One log for all: the sources of every design follow each other.
            let (mut sources, mut problems) = (Sources::default(), Vec::new());
            for o in outcomes {
                let base = u32::try_from(sources.iter().count()).unwrap_or(0);
                for (_, s) in o.sources.iter() {
                    let folder = o.file.parent().unwrap_or(Path::new(""));
                    let name = if s.name.starts_with("catalogue.") || s.name == "command line" {
                        s.name.clone()
                    } else {
                        folder.join(&s.name).to_string_lossy().replace('\\', "/")
                    };
                    sources.add(name, s.text.clone());
                }
                problems.extend(o.problems.iter().cloned().map(|p| shifted(p, base)));
            }
            render_sarif(&sources, &problems)
        }
    }
}

fn shifted(mut problem: Diagnostic, base: u32) -> Diagnostic {
    for label in problem.primary.iter_mut().chain(&mut problem.secondary) {
        label.span.source = SourceId(label.span.source.0 + base);
    }
    problem
}

fn summary(outcomes: &[Outcome]) -> String {
    let mut out = String::new();
    for o in outcomes {
        let count = |s: Severity| o.problems.iter().filter(|p| p.severity == s).count();
        let words = [
            (Severity::Error, "error", "errors"),
            (Severity::CannotTell, "cannot tell", "cannot tell"),
            (Severity::Warning, "warning", "warnings"),
        ];
        let parts: Vec<String> = words
            .into_iter()
            .map(|(s, one, many)| (count(s), one, many))
            .filter(|(n, ..)| *n > 0)
            .map(|(n, one, many)| format!("{n} {}", if n == 1 { one } else { many }))
            .collect();
        let found = match (parts.is_empty(), o.page) {
            (true, true) => "clean, and no chair in it".to_owned(),
            (true, false) => "clean".to_owned(),
            (false, _) => parts.join(", "),
        };
        let variants = match o.variants {
            1 => String::new(),
            2 => ", with 1 variation".to_owned(),
            n => format!(", with {} variations", n - 1),
        };
        out.push_str(&format!("{}{variants}: {found}\n", o.file.display()));
    }
    out
}
