//! Slopes that tip the chair against the slopes of the path and the margins of the use profile.

use crate::Checked;
use crate::assumed::Assumed;
use crate::problem::Problem;
use crate::roll::said_steepest;
use chairwright_design::{Design, Profile};

/// One margin of the profile and what became of it.
#[derive(Clone, PartialEq, Debug)]
pub struct Margin {
    /// The figure.
    pub figure: &'static str,
    /// The slope that tips the chair, in radians; `None` when it could not be computed.
    pub has: Option<f64>,
    /// The slope of the path, in radians.
    pub slope: f64,
    /// What the profile wants beyond it.
    pub margin: f64,
}

impl Margin {
    /// Whether the chair bears enough; `None` when nobody can tell.
    #[must_use]
    pub fn holds(&self) -> Option<bool> {
        self.has.map(|has| has >= self.slope + self.margin)
    }
}

/// On a declared slope, along the path or across it, the chair may stand in any direction, turning on the ramp or on its landing: so the slope that tips it
/// in the worst of all directions is held against it, with the least margin that the use profile has for locked wheels, and
/// the slope that tips it with the rider leaning aside, bare. A profile that is silent about a direction wants nothing of it:
/// then the worst of all is held bare, and the side with its own margin, if it has one.
pub(crate) fn turned(design: &Design, out: &mut Checked) {
    let slope = crate::roll::steepest(design);
    if design.name.is_empty() {
        return;
    }
    if slope <= 0.0 {
        return unsaid(design, out);
    }
    let wanted = |figure: &str| {
        let mut all = design.profile.iter().flat_map(|p| &p.margins);
        all.find(|m| m.0 == figure).map(|m| m.1)
    };
    let locked = ["tip.rear.locked", "tip.forward.locked", "tip.side"].map(wanted);
    let least = locked.into_iter().reduce(|a, b| a.zip(b).map(|(a, b)| a.min(b))).flatten();
    let margin = least.unwrap_or(0.0);
    let across = crate::roll::place(design, "cross_slope").map_or(0.0, f64::abs);
    let origin = said_steepest(design);
    let tips = |figure: &'static str, margin: f64, told: f64| {
        let has = out.figures.si(figure)?;
        let thin = has <= slope || has < slope + margin;
        // what tips it on the cross slope already is told as that
        (thin && has > told).then_some(Problem::TipsTurned { figure, has, slope, margin, origin })
    };
    let worst = |a: &'static str, b: &'static str| {
        if out.figures.si(b) < out.figures.si(a) { b } else { a }
    };
    let any = tips("tip.any", margin, f64::NEG_INFINITY);
    let leaning = tips(worst("tip.left.leaning", "tip.right.leaning"), 0.0, across);
    // what the margin to the side says of the cross slope is told with the other margins
    let aside = wanted("tip.side").filter(|_| least.is_none());
    let any = any.or_else(|| aside.and_then(|m| tips("tip.side", m, across + m - 1e-12)));
    let aslant = tips("tip.any.leaning", 0.0, f64::NEG_INFINITY)
        .filter(|_| any.is_none() && leaning.is_none() && !out.problems.iter().any(tells_leaning));
    let both = if any.is_none() { together(design, out) } else { None };
    let found: Vec<Problem> = any.into_iter().chain(leaning).chain(aslant).chain(both).collect();
    out.problems.extend(found);
}

/// The steepest ramp that building rules allow where wheelchairs go, 1 in 12, in radians (ISO 21542; 2010 ADA Standards 405.2).
const RAMP: f64 = 0.083_141;

/// Of a place that names no slope nothing is judged; a chair that goes over on what lies before any door is in doubt.
fn unsaid(design: &Design, out: &mut Checked) {
    let declared = |key: &str| crate::roll::place(design, key).is_some();
    if out.rider.is_none() || design.profile.is_some() || declared("slope") || declared("cross_slope") {
        return;
    }
    let all = ["tip.any", "tip.any.leaning", "tip.left.leaning", "tip.right.leaning", "tip.rear.locked"];
    let has = all.into_iter().filter_map(|f| Some((f, out.figures.si(f)?)));
    let least = has.min_by(|a, b| a.1.total_cmp(&b.1)).filter(|(_, has)| *has <= RAMP);
    let origin = design.rider.origin;
    out.problems.extend(least.map(|(figure, has)| Problem::SlopeUnsaid { figure, has, ramp: RAMP, origin }));
}

fn tells_leaning(p: &Problem) -> bool {
    matches!(p, Problem::TipsLeaning { .. })
}

/// A chair that bears slope and cross slope and not both at once is in doubt.
fn together(design: &Design, out: &Checked) -> Option<Problem> {
    let slope = crate::roll::both(design)?;
    let has = out.figures.si("tip.any")?;
    (has <= slope).then(|| Problem::TipsOnBoth { has, slope, origin: said_steepest(design) })
}

/// Judges every margin that the profile has.
pub(crate) fn margins(design: &Design, out: &mut Checked) {
    let Some(profile) = &design.profile else { return };
    for (figure, margin) in &profile.margins {
        let (slope, said) = slope(design, figure);
        if !said {
            out.assumptions.push(Assumed::Level(*figure == "tip.side"));
        }
        let has = out.figures.si(figure);
        // a part of a plan that has no chair in it yet is not judged
        if has.is_none() && design.name.is_empty() && design.wheels.is_empty() {
            continue;
        }
        out.margins.push(Margin { figure, has, slope, margin: *margin });
    }
    let thin: Vec<Problem> =
        out.margins.iter().filter(|m| m.holds() != Some(true)).map(|m| problem(m, profile)).collect();
    out.problems.extend(thin);
    let lacks: Vec<_> =
        ALL.into_iter().filter(|(_, figure)| !profile.margins.iter().any(|m| m.0 == *figure)).collect();
    if !lacks.is_empty() && !design.name.is_empty() && !design.wheels.is_empty() {
        let (profile, origin) = (profile.name.clone(), profile.origin);
        out.problems.push(Problem::ProfileSilent { lacks, profile, origin });
    }
}

/// Every margin that a profile can have, and the figure that it is held against.
const ALL: [(&str, &str); 4] = [
    ("rear_locked", "tip.rear.locked"),
    ("rear_free", "tip.rear.free"),
    ("forward", "tip.forward.locked"),
    ("side", "tip.side"),
];

/// The slope of the path that a figure is judged on, and whether the text declares it. Forward and back the chair may also stand
/// on the cross slope, turned down it.
fn slope(design: &Design, figure: &str) -> (f64, bool) {
    let declared = |key: &str| design.conditions.quantities.get(key).map(|s| s.abs());
    if figure == "tip.side" {
        let across = declared("cross_slope");
        return (across.unwrap_or(0.0), across.is_some());
    }
    (crate::roll::steepest(design), declared("slope").or(declared("cross_slope")).is_some())
}

fn problem(m: &Margin, profile: &Profile) -> Problem {
    Problem::ThinMargin { margin: m.clone(), profile: profile.name.clone(), origin: profile.origin }
}

#[cfg(test)]
mod tests {
    use super::*;
    use chairwright_quantity::Dimension;

    fn found(any: f64, aside: f64, margins: &[(&'static str, f64)]) -> Vec<(&'static str, f64)> {
        let mut design = Design { name: "yard".to_owned(), ..Design::default() };
        design.conditions.quantities.insert("slope".to_owned(), 7.13_f64.to_radians());
        if !margins.is_empty() {
            let margins = margins.iter().map(|(f, m)| (*f, m.to_radians())).collect();
            let word = String::new;
            design.profile = Some(Profile {
                name: word(),
                margins,
                anti_tip: false,
                shock: None,
                kerb: None,
                helper_push: None,
                for_whom: word(),
                reviewed_by: word(),
                dated: word(),
                source: word(),
                origin: chairwright_design::Origin(0),
            });
        }
        let mut out = Checked::default();
        for (name, degrees) in [
            ("tip.any", any),
            ("tip.side", any + 5.0),
            ("tip.left.leaning", aside),
            ("tip.right.leaning", aside + 1.0),
        ] {
            out.figures.put(name, (degrees.to_radians(), Dimension::ANGLE), "", "", &[]);
        }
        turned(&design, &mut out);
        let told = |p: &Problem| match p {
            Problem::TipsTurned { figure, margin, .. } => Some((*figure, margin.to_degrees().round())),
            _ => None,
        };
        out.problems.iter().filter_map(told).collect()
    }

    /// A cross slope of 9 degrees beside a slope of 2: forward and back it is held against 9 as well; to the side against 9.
    #[test]
    fn the_steeper_slope_counts_in_every_direction() {
        let mut design = Design { name: "yard".to_owned(), ..Design::default() };
        for (key, degrees) in [("slope", 2.0_f64), ("cross_slope", -9.0)] {
            design.conditions.quantities.insert(key.to_owned(), degrees.to_radians());
        }
        for figure in ["tip.rear.locked", "tip.forward.locked", "tip.side"] {
            let (has, said) = slope(&design, figure);
            assert!((has.to_degrees() - 9.0).abs() < 1e-9 && said, "{figure}");
        }
    }

    /// By hand, on a ramp of 7.13 degrees: 7.8 bears it bare; margins of 4 and 6 degrees want 7.13 + 4 = 11.13 at least (that for
    /// wheels that turn is not asked of locked ones), so 7.8 is too little and 11.2 is not. Leaning aside 4.5 is less than the ramp.
    #[test]
    fn whoever_turns_on_the_ramp_stands_in_every_direction() {
        let everyday =
            [("tip.rear.locked", 4.0), ("tip.rear.free", 3.0), ("tip.side", 4.0), ("tip.forward.locked", 6.0)];
        assert_eq!(found(7.8, 7.2, &[]), []);
        assert_eq!(found(7.1, 7.2, &[]), [("tip.any", 0.0)]);
        assert_eq!(found(7.8, 7.2, &everyday), [("tip.any", 4.0)]);
        assert_eq!(found(11.2, 7.2, &everyday), []);
        assert_eq!(found(11.2, 4.5, &everyday), [("tip.left.leaning", 0.0)]);
    }

    /// By hand: 7.13 along and 5 across: tan = hypot(0.12509, 0.08749) = 0.15265, 8.68 degrees. 7.8 bears each and not both, 8.7
    /// both.
    #[test]
    fn a_slope_and_a_cross_slope_may_be_met_at_once() {
        let mut design = Design { name: "yard".to_owned(), ..Design::default() };
        for (key, degrees) in [("slope", -7.13_f64), ("cross_slope", 5.0)] {
            design.conditions.quantities.insert(key.to_owned(), degrees.to_radians());
        }
        let told = |design: &Design, has: f64| {
            let mut out = Checked::default();
            out.figures.put("tip.any", (has.to_radians(), Dimension::ANGLE), "", "", &[]);
            turned(design, &mut out);
            let slope = |p: &Problem| match p {
                Problem::TipsOnBoth { slope, .. } => Some((slope.to_degrees() * 100.0).round()),
                _ => None,
            };
            out.problems.iter().find_map(slope)
        };
        assert_eq!(told(&design, 7.8), Some(868.0));
        assert_eq!(told(&design, 8.7), None);
        design.conditions.quantities.remove("cross_slope");
        assert_eq!(told(&design, 7.8), None);
    }

    /// Leaning any way 7.0 is less than the ramp of 7.13 though straight aside 7.2 is not; told once, and not where leaning straight
    /// is told already.
    #[test]
    fn leaning_counts_in_every_direction() {
        let mut design = Design { name: "yard".to_owned(), ..Design::default() };
        design.conditions.quantities.insert("slope".to_owned(), 7.13_f64.to_radians());
        let told = |aside: f64, aslant: f64| {
            let mut out = Checked::default();
            for (name, degrees) in [
                ("tip.any", 9.0),
                ("tip.left.leaning", aside),
                ("tip.right.leaning", aside),
                ("tip.any.leaning", aslant),
            ] {
                out.figures.put(name, (degrees.to_radians(), Dimension::ANGLE), "", "", &[]);
            }
            turned(&design, &mut out);
            let of = |p: &Problem| match p {
                Problem::TipsTurned { figure, .. } => Some(*figure),
                _ => None,
            };
            out.problems.iter().filter_map(of).collect::<Vec<_>>()
        };
        assert_eq!(told(7.2, 7.0), ["tip.any.leaning"]);
        assert_eq!(told(7.2, 7.2), [] as [&str; 0]);
        assert_eq!(told(7.0, 6.9), ["tip.left.leaning"]);
    }

    /// A profile that speaks of the side alone wants nothing forward and back: 7.8 bears the ramp of 7.13 bare, and 12.8 to the side
    /// is more than 7.13 + 4 and less than 7.13 + 12.
    #[test]
    fn a_profile_is_asked_only_about_what_it_speaks_of() {
        assert_eq!(found(7.8, 7.2, &[("tip.side", 4.0)]), []);
        assert_eq!(found(7.8, 7.2, &[("tip.side", 12.0)]), [("tip.side", 12.0)]);
        assert_eq!(found(7.1, 7.2, &[("tip.side", 12.0)]), [("tip.any", 0.0)]);
        assert_eq!(found(7.8, 7.2, &[("tip.rear.locked", 9.0), ("tip.forward.locked", 9.0)]), []);
    }
}
