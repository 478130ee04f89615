//! The findings about values whose uncertainty alone can move a demand past its limit, or bring a finding.

use super::{Effect, Influence, Off, Raised, Together, guesses};
use crate::Compilation;
use chairwright_diagnostics::{Diagnostic, Severity};

pub(crate) const CODE: &str = "hangs-on-a-measure";
/// Findings at the ends of one value that are quoted.
const QUOTED: usize = 4;

/// Findings about what hangs on uncertain values, each alone and several together.
pub(crate) fn doubts(c: &Compilation) -> Vec<Diagnostic> {
    let alone = c.influences.iter().filter(|i| i.off == Off::Said).filter_map(|i| doubt(c, i));
    // where the fit or the place asks, only an error counts
    let joined = c.together.iter().filter(|t| !t.soft || t.headline.is_some()).map(|t| together(c, t));
    alone.chain(guesses::findings(c)).chain(joined).collect()
}

fn doubt(c: &Compilation, i: &Influence) -> Option<Diagnostic> {
    let spent: Vec<&Effect> = i.spent().collect();
    let rest: Vec<&Raised> = i.raises.iter().filter(|r| !is_told(r, &spent)).collect();
    let name = &i.known.name;
    let said = match (spent.first(), rest.first()) {
        (Some(effect), _) => {
            Diagnostic::new(CODE, format!("whether `{}` is enough hangs on `{name}`", effect.figure))
        }
        (None, Some(worst)) => raised(worst, name),
        (None, None) => return None,
    };
    let by = format!("{:.6}", i.shift);
    let by = by.trim_end_matches('0').trim_end_matches('.');
    let label = match (spent.first(), rest.first()) {
        (None, Some(r)) => format!("at {} it is otherwise", r.at),
        _ => format!("known to within {by} {}", i.known.unit).trim().to_owned(),
    };
    let mut said = match c.origins.get(i.known.origin.0 as usize) {
        Some(span) => said.at(*span, label),
        None => said,
    };
    said.about.push(name.clone());
    let said = moves(c, i).into_iter().fold(said, Diagnostic::note);
    Some(said.help(format!("measure {name} again, closer, or leave more room")))
}

/// What a value uses up, and what is otherwise at its ends, in words.
pub(super) fn moves(c: &Compilation, i: &Influence) -> Vec<String> {
    let spent: Vec<&Effect> = i.spent().collect();
    let rest: Vec<&Raised> = i.raises.iter().filter(|r| !is_told(r, &spent)).collect();
    let display = c.display();
    let mut notes = Vec::new();
    for (k, effect) in spent.iter().enumerate() {
        let Some(margin) = effect.margin else { continue };
        let (by, left) = (display.text(effect.change), display.text(margin));
        let that = if k == 0 { "that" } else { "it also" };
        notes.push(format!(
            "{that} moves `{}` against what is asked by {by}, and {left} is left",
            effect.figure
        ));
    }
    notes.extend(rest.iter().take(QUOTED).map(|r| format!("at {}: {}", r.at, r.headline)));
    if rest.len() > QUOTED {
        notes.push(format!("and {} more like it", rest.len() - QUOTED));
    }
    notes
}

/// Whether a finding at an end says again what a figure's room says.
fn is_told(r: &Raised, spent: &[&Effect]) -> bool {
    let of = |e: &&Effect| {
        r.headline.contains(&format!("`{}`", e.figure))
            || (e.figure == "brake.holds" && r.headline.contains("brake"))
    };
    spent.iter().any(of)
}

/// A value one end of which brings a finding of its own.
fn raised(worst: &Raised, name: &str) -> Diagnostic {
    match worst.severity {
        Severity::Error => Diagnostic::new(CODE, format!("whether there is an error hangs on `{name}`")),
        Severity::CannotTell => {
            Diagnostic::new(CODE, format!("whether something can be told hangs on `{name}`"))
        }
        _ => Diagnostic::new(CODE, format!("whether there is a warning hangs on `{name}`"))
            .severity(Severity::Warning),
    }
}

fn together(c: &Compilation, t: &Together) -> Diagnostic {
    let said =
        Diagnostic::new(CODE, format!("whether `{}` is enough hangs on several values together", t.figure));
    let demand = t.demand.and_then(|k| c.verdicts.get(k)).map(|v| v.span);
    let first = t.values.first().and_then(|(name, _)| c.design.known.iter().find(|k| k.name == *name));
    let value = first.and_then(|k| c.origins.get(k.origin.0 as usize)).copied();
    let mut said = match (demand, value) {
        (Some(span), _) => said.at(span, "each of them alone leaves room"),
        (None, Some(span)) => said.at(span, "one of them; each alone leaves room"),
        (None, None) => said,
    };
    said.about.extend(t.values.iter().map(|(name, _)| name.clone()));
    let values: Vec<String> = t.values.iter().map(|(name, at)| format!("{name} {at}")).collect();
    let what = t.headline.clone().unwrap_or_else(|| "it is not met".to_owned());
    said.note(format!("at {}: {what}", values.join(", ")))
        .help("measure those that matter most again, closer, or leave more room; the report ranks them")
}
