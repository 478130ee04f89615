//! Measures that hardly any body has: most often a slipped unit.

use crate::assumed::Assumed;
use crate::problem::{Mismatch, Problem};
use chairwright_design::{Design, ItemKind, Rider, Side, SupportKind};

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
    ("knee_width", 0.10, 0.80),
    ("rib_height", 0.05, 0.45),
    ("scapula_height", 0.12, 0.65),
    ("axilla_height", 0.15, 0.70),
    ("thigh_thickness", 0.04, 0.35),
    ("head_height", 0.45, 1.70),
    ("grip", 0.015, 0.090),
];

/// Measures and conditions that nothing is worked out from: kept for whoever fits the chair.
const KEPT: &[&str] = &["hand_width"];
const KEPT_OF_PLACE: &[&str] = &["sitting"];

/// Says which of the given measures go into nothing in this design, and which side stands for both.
pub(crate) fn unused(design: &Design, assumptions: &mut Vec<Assumed>) {
    let given = |k: &str| {
        let rider = &design.rider;
        [Side::Left, Side::Right]
            .iter()
            .any(|s| rider.sided(k, *s).is_some() || rider.sided_word(k, *s).is_some())
    };
    let idle = KEPT.iter().copied().chain(idle(design)).filter(|k| given(k)).map(|k| format!("rider.{k}"));
    let idle = idle.chain(idle_hands(design));
    let place = KEPT_OF_PLACE.iter().copied().chain(idle_of_place(design));
    let place =
        place.filter(|k| design.conditions.quantities.contains_key(*k)).map(|k| format!("conditions.{k}"));
    let idle: Vec<String> = idle.chain(place).collect();
    if !idle.is_empty() {
        assumptions.push(Assumed::Unused(idle));
    }
    one_sided(design, assumptions);
}

/// Limits of hands that push nothing, or on no path that the place declares.
fn idle_hands(design: &Design) -> Vec<String> {
    let judged = crate::roll::judged_hands(design);
    let own = [Side::Left, Side::Right].into_iter().filter(|s| !judged.contains(s));
    let own = own.map(|s| format!("push_force.{}", s.word()));
    own.filter(|k| design.rider.get(k).is_some()).map(|k| format!("rider.{k}")).collect()
}

/// Measures that only go into something that this design does not have.
fn idle(design: &Design) -> Vec<&'static str> {
    let has = |kind: SupportKind| design.supports.iter().any(|s| s.kind == kind);
    let rule = |key: &str| design.fit_rules.as_ref().is_some_and(|f| f.rules.contains_key(key));
    let limb = |key: &str| [Side::Left, Side::Right].iter().any(|s| design.rider.sided_word(key, *s).is_some());
    let rims = design.wheels.iter().any(|w| w.rim.is_some());
    let pushes = !matches!(design.rider.word("pushes"), Some("assistant" | "feet"));
    let free = matches!(design.rider.word("trunk"), None | Some("hands_free"));
    let back = has(SupportKind::Back);
    let upright = !pushes && design.rider.word("trunk") == Some("hands_free");
    let scapula = back && rule("back_below_scapula");
    let blade = scapula && (pushes && free || !rule("back_below_axilla") && !upright);
    let ribs = scapula && (pushes && free || !rule("back_below_axilla") && upright);
    let armpit = back && rule("back_below_axilla") && !(rule("back_below_scapula") && pushes && free);
    let item = |kind: ItemKind| design.items.iter().any(|i| i.kind == kind);
    let asked = [
        ("elbow_height", has(SupportKind::Arm)),
        ("chest_width", back),
        ("scapula_height", blade),
        ("rib_height", ribs),
        ("axilla_height", armpit || rule("side_below_axilla")),
        ("upper_arm", rims),
        ("forearm", rims),
        ("shoulder_width", rims || limb("missing_arm")),
        ("grip", rims),
        ("thumb", rims && item(ItemKind::Brake)),
        ("head_height", design.conditions.quantities.contains_key("headroom")),
        // lengths, masses and worn prostheses of whole limbs are errors
        ("prosthesis", limb("missing_leg")),
        ("arm_prosthesis", limb("missing_arm")),
        ("pushing_hand", design.rider.word("pushes") == Some("one_hand")),
        ("steers", pushes && design.rider.word("pushes") != Some("both_hands")),
        ("trunk", back && design.fit_rules.is_some()),
    ];
    asked.into_iter().filter(|(_, used)| !used).map(|(k, _)| k).collect()
}

/// The same of the place.
fn idle_of_place(design: &Design) -> Vec<&'static str> {
    let given = |k: &str| design.conditions.quantities.contains_key(k);
    let asked = [("table_depth", given("table"))];
    asked.into_iter().filter(|(_, used)| !used).map(|(k, _)| k).collect()
}

/// Lengths of which one side alone was measured: it stands for the other, where there is one.
fn one_sided(design: &Design, assumptions: &mut Vec<Assumed>) {
    const LEG: &[&str] = &["thigh", "calf", "foot_length", "foot_width", "thigh_thickness"];
    const ARM: &[&str] = &["upper_arm", "forearm", "elbow_height", "shoulder_height", "axilla_height", "grip"];
    for (measures, limb) in [(LEG, "missing_leg"), (ARM, "missing_arm")] {
        for (side, other) in [(Side::Left, Side::Right), (Side::Right, Side::Left)] {
            let alone = |k: &&&str| {
                let own = |s: Side| design.rider.get(&format!("{k}.{}", s.word())).is_some();
                own(side) && !own(other) && design.rider.sided_word(limb, other).is_none()
            };
            let alone: Vec<&'static str> = measures.iter().filter(alone).copied().collect();
            if !alone.is_empty() {
                assumptions.push(Assumed::OneSide(side, alone));
            }
        }
    }
}

/// Length and its usual range as a share of stature, children and adults alike: the mean of the tables of segments by nearly a
/// third to either side. From memory, not checked; they catch the tape of another rider, no more.
const SHARES: &[(&str, f64, f64)] = &[
    ("thigh", 0.20, 0.36),
    ("calf", 0.17, 0.32),
    ("upper_arm", 0.13, 0.25),
    ("forearm", 0.13, 0.27),
    ("foot_length", 0.11, 0.20),
    ("shoulder_height", 0.24, 0.42),
];
/// Measured upward from the seat: each pair the upper one first.
const ABOVE: &[(&str, &str)] = &[
    ("shoulder_height", "axilla_height"),
    ("shoulder_height", "scapula_height"),
    ("shoulder_height", "elbow_height"),
    ("axilla_height", "elbow_height"),
    ("scapula_height", "rib_height"),
];
/// Mass over stature squared that nearly everybody lies in, in kg/m²: children and grown up. From memory, not checked.
const INDEX: ((f64, f64), (f64, f64)) = ((10.5, 35.0), (13.0, 70.0));
/// Whoever is younger, or of unknown age and smaller, is taken for a child by its mass: seconds, metres. Fingers are looked at up to
/// fourteen, on the safe side.
const CHILD: (f64, f64) = (13.0 * crate::body::YEAR, 1.40);

/// Measures that are each usual and hardly of one body.
pub(crate) fn mismatched(design: &Design, problems: &mut Vec<Problem>) {
    let rider = &design.rider;
    let known = |key: &str| {
        let full = format!("rider.{key}");
        design.known.iter().find(|k| k.name == full).map(|k| k.origin).or(rider.origin)
    };
    let Some(stature) = rider.get("stature").filter(|s| *s > 0.0) else { return };
    let whole = ["missing_leg", "missing_arm"]
        .iter()
        .all(|k| [Side::Left, Side::Right].iter().all(|s| rider.sided_word(k, *s).is_none()));
    // a mass that nobody has is told as that
    let likely = |m: &f64| USUAL.iter().any(|(k, low, high)| *k == "mass" && (*low..=*high).contains(m));
    if let Some(mass) = rider.get("mass").filter(likely) {
        let child = rider.get("age").map_or(stature < CHILD.1, |a| a < CHILD.0);
        let usual = if child { INDEX.0 } else { INDEX.1 };
        let index = mass / (stature * stature);
        // a limb that is missing takes its mass away
        if index > usual.1 || (index < usual.0 && whole) {
            let odd = Mismatch::Mass { index, usual, child };
            problems.push(Problem::Mismatched { odd, origin: known("mass") });
        }
    }
    for (measure, low, high) in SHARES {
        let of = |s: Side| Some((s, rider.sided(measure, s)? / stature));
        let odd = [Side::Left, Side::Right].into_iter().filter_map(of).find(|o| !(*low..=*high).contains(&o.1));
        if let Some((side, share)) = odd {
            let own = format!("{measure}.{}", side.word());
            let measure = if rider.get(&own).is_some() { own } else { (*measure).to_owned() };
            let origin = known(&measure);
            let odd = Mismatch::Share { measure, share, usual: (*low, *high) };
            problems.push(Problem::Mismatched { odd, origin });
        }
    }
    for (upper, lower) in ABOVE {
        let pair = [Side::Left, Side::Right].into_iter().find_map(|s| {
            let pair = (rider.sided(upper, s)?, rider.sided(lower, s)?);
            (pair.0 <= pair.1).then_some(pair)
        });
        if let Some((above, below)) = pair {
            let odd =
                Mismatch::Order { upper: ((*upper).to_owned(), above), lower: ((*lower).to_owned(), below) };
            problems.push(Problem::Mismatched { odd, origin: known(lower) });
        }
    }
    let mixed = mixed_up(rider).map(|(measure, odd)| Problem::Mismatched { odd, origin: known(measure) });
    problems.extend(mixed);
}

/// A caliper on the bones and a tape across the hips read apart by so much, in metres. Common practice, no source.
const APART: f64 = 0.005;

/// Measures that two ways of measuring mix up: a head from the seat instead of the floor, and bones wider than the hips.
fn mixed_up(rider: &Rider) -> impl Iterator<Item = (&'static str, Mismatch)> {
    let shoulders = [Side::Left, Side::Right].into_iter().filter_map(|s| rider.sided("shoulder_height", s));
    let shoulder = shoulders.fold(f64::NEG_INFINITY, f64::max);
    let seat = rider.get("liked_seat_height");
    let low = |head: &f64| head - seat.unwrap_or(0.0) <= shoulder;
    let head = rider.get("head_height").filter(low);
    let head = head.map(|head| ("head_height", Mismatch::Head { head, seat, shoulder }));
    let widths = rider.get("trochanter_width").zip(rider.get("hip_width"));
    let bones = widths.filter(|(bones, hips)| *bones > hips + APART);
    let bones = bones.map(|(bones, hips)| ("trochanter_width", Mismatch::Bones { bones, hips }));
    head.into_iter().chain(bones)
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

#[cfg(test)]
mod tests {
    use super::*;

    fn said(measures: &[(&str, f64)], words: &[(&str, &str)]) -> Vec<String> {
        let mut design = Design::default();
        design.rider.given = true;
        for (name, value) in measures {
            design.rider.measures.insert((*name).to_owned(), *value);
        }
        for (name, word) in words {
            design.rider.words.insert((*name).to_owned(), (*word).to_owned());
        }
        let mut assumptions = Vec::new();
        unused(&design, &mut assumptions);
        let all = assumptions.into_iter().filter_map(|a| match a {
            Assumed::Unused(names) => Some(names),
            _ => None,
        });
        all.flatten().collect()
    }

    /// Of a whole limb a prosthesis that is not worn says nothing; what else is said of its end is an error elsewhere.
    #[test]
    fn a_prosthesis_of_a_whole_leg_goes_into_nothing() {
        assert_eq!(said(&[], &[("prosthesis", "none")]), ["rider.prosthesis"]);
        assert!(said(&[], &[("prosthesis", "none"), ("missing_leg", "below_knee")]).is_empty());
    }
}
