//! Measures that hardly any body has: most often a slipped unit.

use crate::assumed::Assumed;
use crate::problem::Problem;
use chairwright_design::{Design, SupportKind};

/// Measure and the range that nearly every rider from a small child to a very large adult lies in, in
/// metres and kilograms. Wide on purpose and from memory, not checked; they catch slipped units, no more.
const USUAL: &[(&str, f64, f64)] = &[
    ("mass", 6.0, 300.0),
    ("stature", 0.60, 2.30),
    ("hip_width", 0.12, 0.90),
    ("trochanter_width", 0.10, 0.80),
    ("thigh", 0.12, 0.75),
    ("calf", 0.10, 0.65),
    ("foot_length", 0.08, 0.38),
    ("foot_width", 0.03, 0.18),
    ("shoulder_height", 0.20, 0.85),
    ("elbow_height", 0.05, 0.45),
    ("upper_arm", 0.10, 0.55),
    ("forearm", 0.10, 0.65),
    ("chest_width", 0.12, 0.80),
    ("shoulder_width", 0.15, 0.80),
];

/// Measures that are kept for whoever fits the chair, and that nothing is worked out from yet.
const UNUSED: &[&str] = &["grip", "hand_width", "head_height", "chest_width", "knee_width"];

/// Says which of the given measures go into nothing.
pub(crate) fn unused(design: &Design, assumptions: &mut Vec<Assumed>) {
    let arms = design.supports.iter().any(|s| s.kind == SupportKind::Arm);
    let elbow = ["elbow_height"].into_iter().filter(|_| !arms);
    let given: Vec<&'static str> =
        UNUSED.iter().copied().chain(elbow).filter(|k| design.rider.get(k).is_some()).collect();
    if !given.is_empty() {
        assumptions.push(Assumed::Unused(given));
    }
}

pub(crate) fn odd(design: &Design, problems: &mut Vec<Problem>) {
    for known in &design.known {
        let Some(key) = known.name.strip_prefix("rider.") else { continue };
        let plain = key.strip_suffix(".left").or_else(|| key.strip_suffix(".right")).unwrap_or(key);
        let Some((_, low, high)) = USUAL.iter().find(|(k, ..)| *k == plain) else { continue };
        let value = if known.unit == "mm" { known.nominal / 1e3 } else { known.nominal };
        if value > 0.0 && !(*low..=*high).contains(&value) {
            problems.push(Problem::OddMeasure {
                name: key.to_owned(),
                origin: known.origin,
                usual: (*low, *high),
                value,
            });
        }
    }
}
