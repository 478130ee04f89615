//! The static analysis interchange form (OASIS SARIF 2.1.0), which code hosts display.

use crate::json::place;
use crate::{CODES, Diagnostic, Label, Severity, Sources};
use serde_json::{Value, json};

/// Renders a whole SARIF log with one run.
#[must_use]
pub fn render_sarif(sources: &Sources, problems: &[Diagnostic]) -> String {
    let rules: Vec<Value> =
        CODES.iter().map(|c| json!({ "id": c.name, "shortDescription": { "text": c.title } })).collect();
    let results: Vec<Value> = problems.iter().map(|p| result(sources, p)).collect();
    let log = json!({
        "$schema": "https://json.schemastore.org/sarif-2.1.0.json",
        "version": "2.1.0",
        "runs": [{
            "tool": { "driver": { "name": "chairwright", "version": env!("CARGO_PKG_VERSION"), "rules": rules } },
            "columnKind": "unicodeCodePoints",
            "results": results,
        }],
    });
    format!("{log:#}\n")
}

fn result(sources: &Sources, problem: &Diagnostic) -> Value {
    let mut text = problem.headline.clone();
    for more in problem.notes.iter().chain(&problem.help) {
        text.push('\n');
        text.push_str(more);
    }
    let mut result = json!({
        "ruleId": problem.code.name,
        "level": level(problem.severity),
        "message": { "text": text },
    });
    if let Some(primary) = &problem.primary {
        result["locations"] = json!([location(sources, primary)]);
    }
    if !problem.secondary.is_empty() {
        result["relatedLocations"] = problem.secondary.iter().map(|l| location(sources, l)).collect();
    }
    result
}

fn level(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "error",
        Severity::CannotTell | Severity::Warning => "warning",
        Severity::Advice => "note",
    }
}

fn location(sources: &Sources, label: &Label) -> Value {
    let p = place(sources, label);
    let mut location = json!({
        "physicalLocation": {
            "artifactLocation": { "uri": p.file },
            "region": {
                "startLine": p.line, "startColumn": p.column,
                "endLine": p.end_line, "endColumn": p.end_column,
            },
        },
    });
    if !label.text.is_empty() {
        location["message"] = json!({ "text": label.text });
    }
    location
}
