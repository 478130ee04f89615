//! The findings about measures of the rider that nobody took and that stature stands for: whoever takes one takes all of them in one
//! sitting, so what hangs on several is told once.

use super::doubts::{CODE, moves};
use super::{Influence, Off};
use crate::Compilation;
use chairwright_diagnostics::Diagnostic;

/// Measures that the help says how to take.
const TOLD: usize = 3;

/// How a measure is taken: from where to where. The rider sits on a firm bench, hips back against a board.
const HOW: [(&str, &str); 8] = [
    ("hip_ahead", "sitting, from a board behind the pelvis forward to the bony point at the side of the hip"),
    ("hip_above", "sitting, from the bench up to the bony point at the side of the hip"),
    ("shoulder_height", "sitting, from the bench up to the top of the shoulder"),
    ("thigh", "sitting, from a board behind the pelvis to the hollow of the knee"),
    ("calf", "from the hollow of the knee to the base of the heel, in the usual shoe"),
    ("foot_length", "from heel to toe, in the usual shoe"),
    ("foot_width", "across the widest of the foot, in the usual shoe"),
    ("shoulder_width", "from the top of one shoulder across to that of the other"),
];

/// One finding for each thing that hangs on such measures.
pub(super) fn findings(c: &Compilation) -> Vec<Diagnostic> {
    let mut groups: Vec<(String, Vec<&Influence>)> = Vec::new();
    // the most influential come first
    for i in c.influences.iter().filter(|i| i.off == Off::Guessed) {
        let Some(what) = what(i) else { continue };
        match groups.iter_mut().find(|(known, _)| *known == what) {
            Some((_, all)) => all.push(i),
            None => groups.push((what, vec![i])),
        }
    }
    groups.iter().filter_map(|(what, all)| finding(c, what, all)).collect()
}

/// What hangs on a measure first of all.
fn what(i: &Influence) -> Option<String> {
    let enough = i.spent().next().map(|e| format!("`{}` is enough", e.figure));
    enough.or_else(|| (!i.raises.is_empty()).then(|| "there is an error".to_owned()))
}

fn finding(c: &Compilation, what: &str, all: &[&Influence]) -> Option<Diagnostic> {
    let first = all.first()?;
    let names: Vec<String> = all.iter().map(|i| format!("`{}`", i.known.name)).collect();
    let names = match names.as_slice() {
        [rest @ .., last] if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        all => all.concat(),
    };
    let said = Diagnostic::new(CODE, format!("whether {what} hangs on {names}, which nobody measured"));
    let mut said = match c.origins.get(first.known.origin.0 as usize) {
        Some(span) => said.at(*span, "this alone stands for them"),
        None => said,
    };
    for i in all {
        said.about.push(i.known.name.clone());
        let (name, by) = (&i.known.name, i.shift);
        said = said.note(format!("{name} is {} by stature, to within {by:.0} mm", i.known.written));
        said = moves(c, i).into_iter().fold(said, Diagnostic::note);
    }
    let how: Vec<String> = all.iter().take(TOLD).map(|i| to_measure(&i.known.name)).collect();
    Some(said.help(format!("measure {}; or leave more room", how.join("; "))))
}

fn to_measure(name: &str) -> String {
    let plain = name.trim_start_matches("rider.");
    match HOW.iter().find(|(measure, _)| *measure == plain) {
        Some((_, how)) => format!("{name}: {how}"),
        None => name.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every measure that stature may stand for can be taken.
    #[test]
    fn every_guess_has_a_way_to_be_measured() {
        for measure in chairwright_checks::guessed() {
            assert!(to_measure(&format!("rider.{measure}")).contains(": "), "{measure}");
        }
    }
}
