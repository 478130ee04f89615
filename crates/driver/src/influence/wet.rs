//! Wood of which nobody says whether it gets wet: it is judged dry, and what would not hold wet nobody can tell.

use super::CODE;
use crate::words_strength::percent;
use crate::{Compilation, Options, Project, StrengthWanted};
use chairwright_design::{Allowance, Design};
use chairwright_diagnostics::Diagnostic;
use chairwright_strength::{Doubt, Item, Strength, Verdict};

/// The word of the place that says it.
const WATER: &str = "water";
/// What the chair is tried in: the least that is not dry, and that wood and glue know of.
const RAIN: &str = "rain";

impl Project {
    /// The chair worked out once more in the rain, in the state and at the stops it is in, if its wood may get wet for all that the text
    /// says. What no longer holds there is not called sound, and one finding says so.
    pub(super) fn if_wet(&mut self, options: &Options, c: &mut Compilation) -> Option<Diagnostic> {
        if !may_get_wet(c) {
            return None;
        }
        let mut changed = Options { strength: StrengthWanted::Verdicts, ..options.clone() };
        changed.settings.push((about_water(), RAIN.to_owned()));
        let wet = self.quietly(&changed).strength;
        let mut lost: Vec<(usize, f64)> = Vec::new();
        for (k, item) in c.strength.items.iter().enumerate().filter(|(_, i)| holds(i)) {
            lost.extend(use_of(&wet, item).map(|used| (k, used)));
        }
        // the one that is used most tells of all
        lost.sort_by(|a, b| b.1.total_cmp(&a.1));
        let said = told(c, &lost)?;
        for (k, used) in lost {
            let item = &mut c.strength.items[k];
            item.verdict = Verdict::CannotTell;
            c.strength.doubts.push((item.name.clone(), Doubt::Wet(used)));
        }
        Some(said)
    }
}

/// Whether something of a chair's wood holds of which nobody says that it stays dry.
pub(crate) fn may_get_wet(c: &Compilation) -> bool {
    let silent = !c.design.conditions.words.contains_key(WATER);
    silent && !c.design.unridden && is_wooden(&c.design) && c.strength.items.iter().any(holds)
}

/// Whether a finding says of parts in the rain no more than one that is told already, of another state or stop.
pub(crate) fn is_told_wet(told: &Diagnostic, p: &Diagnostic) -> bool {
    let rain = |p: &Diagnostic| p.code.name == CODE && p.about.first().is_some_and(|a| *a == about_water());
    rain(told) && rain(p) && p.about.iter().all(|part| told.about.contains(part))
}

fn about_water() -> String {
    format!("conditions.{WATER}")
}

fn holds(item: &Item) -> bool {
    item.verdict == Verdict::Pass
}

/// To what an item is used that no longer holds; unknown where it cannot be judged any more.
fn use_of(wet: &Strength, item: &Item) -> Option<f64> {
    match wet.items.iter().find(|i| i.what == item.what && i.name == item.name) {
        Some(there) if holds(there) => None,
        Some(there) if there.used.1 > 1.0 => Some(there.used.1),
        _ => Some(f64::NAN),
    }
}

/// Whether anything of the frame is of wood.
fn is_wooden(design: &Design) -> bool {
    design.stocks.values().any(|s| design.allowance_of(&s.material).is_some_and(Allowance::is_wood))
}

fn told(c: &Compilation, lost: &[(usize, f64)]) -> Option<Diagnostic> {
    let (first, used) = *lost.first()?;
    let item = &c.strength.items[first];
    let said = Diagnostic::new(CODE, format!("whether `{}` holds hangs on whether it gets wet", item.name));
    let label = format!("dry it is used to {}, wet {}", percent(item.used.1), to(used));
    let said = match c.origins.get(item.origin.0 as usize) {
        Some(span) => said.at(*span, label),
        None => said.note(label),
    };
    let mut names: Vec<&str> = Vec::new();
    for (k, _) in &lost[1..] {
        let name = c.strength.items[*k].name.as_str();
        if name != item.name && !names.contains(&name) {
            names.push(name);
        }
    }
    let mut said = match names.len() {
        0 => said,
        1..=4 => said.note(format!("so it is of {}", names.join(", "))),
        n => said.note(format!("so it is of {} and {} more", names[..4].join(", "), n - 4)),
    };
    said.about.push(about_water());
    said.about.extend(std::iter::once(&item.name).cloned().chain(names.into_iter().map(str::to_owned)));
    Some(said.note("nobody says whether water comes to the chair: wood and glue are judged dry").help(
        "say it in the conditions: water = none where it stays indoors and dry as long as it lives, else water = rain, and mend what \
         then does not hold",
    ))
}

fn to(used: f64) -> String {
    if used.is_nan() { "nobody can tell".to_owned() } else { format!("to {}", percent(used)) }
}
