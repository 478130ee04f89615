//! The published rules of fit that the design names, and where it departs from them.

use super::{Between, Reach, SIDES, need};
use crate::Checked;
use crate::assumed::Assumed;
use crate::body::{Leg, support};
use crate::problem::Problem;
use chairwright_design::{Design, FitRules, Origin, Support, SupportKind};

/// A foot support that is off by no more than this is set by hand at the fitting. Common practice, no source.
const FOOT: f64 = 0.015;
/// Figures nearer than this to a limit are on it.
const CLOSE: f64 = 1e-6;

/// What a figure of fit is measured against.
#[derive(Clone, PartialEq, Debug)]
pub struct Measured {
    /// The measure, with its side.
    pub measure: String,
    /// Its value in metres; angles in radians.
    pub value: f64,
}

/// A rule that the chair breaks.
#[derive(Clone, PartialEq, Debug)]
pub struct Broken {
    /// The figure that breaks it, and that a deviation would name.
    pub figure: &'static str,
    /// The figure that has its value.
    pub key: String,
    /// Its value.
    pub has: f64,
    /// Least and greatest by the rule; infinite where there is no such end.
    pub range: (f64, f64),
    /// What it is measured against.
    pub against: Vec<Measured>,
    /// The set of rules.
    pub set: String,
    /// The seat, or where the set is named.
    pub origin: Origin,
    /// The elbow alone: the hand of one side does not get to the top of its rim at all.
    pub out_of_reach: bool,
    /// The room beside the hips alone: what stands there.
    pub between: Option<Between>,
}

/// How far a figure is from the nearer end of its rule.
#[derive(Clone, PartialEq, Debug)]
pub struct FitMargin {
    /// The figure that has its value.
    pub key: String,
    /// In metres or radians; below zero where the rule is broken.
    pub margin: f64,
}

struct Judge<'d, 'o> {
    design: &'d Design,
    rules: &'d FitRules,
    seat: Origin,
    out: &'o mut Checked,
}

/// Judges every rule of the set. Without one nothing is judged.
pub(super) fn judge(design: &Design, seat: &Support, out: &mut Checked) {
    let Some(rules) = &design.fit_rules else {
        let idle = design.deviations.iter();
        out.problems.extend(idle.map(|d| Problem::IdleDeviation {
            ruled: false,
            figure: d.figure.clone(),
            origin: d.origin,
        }));
        return;
    };
    let mut judge = Judge { design, rules, seat: seat.origin, out };
    judge.width(seat);
    let drawn = (seat.to - seat.from).norm();
    let depth = judge.out.figures.si("seat.depth").unwrap_or(drawn);
    judge.depth(depth);
    judge.feet();
    judge.back();
    judge.elbow();
    judge.arms();
    judge.sides();
    idle_deviations(design, out);
    let armless = !design.supports.iter().any(|s| s.kind == SupportKind::Arm);
    let sides = SIDES.iter().any(|s| out.figures.si(&format!("fit.side.top.{}", s.word())).is_some());
    let open = [("side_below_axilla", !sides), ("arm_above_elbow", armless)];
    let open: Vec<&'static str> =
        open.iter().filter(|(k, none)| *none && rules.rules.contains_key(*k)).map(|(k, _)| *k).collect();
    if !open.is_empty() {
        out.assumptions.push(Assumed::Unruled(open));
    }
}

/// Deviations from rules that are kept.
fn idle_deviations(design: &Design, out: &mut Checked) {
    for d in &design.deviations {
        let kept = out.kept.contains(&d.figure.as_str()) && !out.deviated.iter().any(|b| b.figure == d.figure);
        if kept {
            out.problems.push(Problem::IdleDeviation {
                ruled: true,
                figure: d.figure.clone(),
                origin: d.origin,
            });
        }
    }
}

impl Judge<'_, '_> {
    fn rule(&self, key: &str) -> Option<(f64, f64)> {
        self.rules.rules.get(key).copied()
    }

    fn undrawn(&mut self, part: &'static str) {
        self.out.assumptions.push(Assumed::Undrawn(part));
    }

    /// A measure; where it is missing that is a finding, once for each measure.
    fn need(&mut self, measure: &str, wanted_by: &'static str) -> Option<f64> {
        need(self.design, measure, wanted_by, self.out)
    }

    fn hold(&mut self, figure: &'static str, has: f64, range: (f64, f64), against: &[(&str, f64)]) {
        let key = match (figure, against.first()) {
            ("footrest.drop", Some((m, _))) => m.replace("calf", "footrest.drop"),
            ("back.height", _) => "fit.back.top".to_owned(),
            ("fit.arm.above.elbow", _) => self.arm_key(has),
            ("fit.side.top", Some((m, _))) => m.replace("axilla_height", "fit.side.top"),
            _ => figure.to_owned(),
        };
        self.out.fit_margins.push(FitMargin { key: key.clone(), margin: (has - range.0).min(range.1 - has) });
        if (range.0 - CLOSE..=range.1 + CLOSE).contains(&has) {
            self.out.kept.push(figure);
            return;
        }
        let against: Vec<Measured> =
            against.iter().map(|(m, v)| Measured { measure: (*m).to_owned(), value: *v }).collect();
        let out_of_reach = figure == "reach.elbow" && self.out.reach.iter().any(|r| r.elbow.is_none());
        let (set, origin) = (self.rules.name.clone(), self.seat);
        let between = self.out.between.clone().filter(|_| figure == "fit.hips.between");
        let broken = Broken { figure, key, has, range, against, set, origin, out_of_reach, between };
        if self.design.deviations.iter().any(|d| d.figure == figure) {
            self.out.deviated.push(broken);
            if out_of_reach {
                super::reach::beyond_any_rule(self.design, self.out);
            }
        } else {
            self.out.problems.push(Problem::FitRule(broken));
        }
    }

    /// The side whose arm support has this height.
    fn arm_key(&self, has: f64) -> String {
        let key = |side: chairwright_design::Side| format!("fit.arm.above.elbow.{}", side.word());
        let is = |k: &String| self.out.figures.si(k) == Some(has);
        SIDES.map(key).into_iter().find(is).unwrap_or_default()
    }

    fn width(&mut self, seat: &Support) {
        let Some((least, most)) = self.rule("seat_width_beyond_hips") else { return };
        let Some(hips) = self.need("hip_width", "the rule for the seat's width") else { return };
        let bones = self.design.rider.get("trochanter_width").unwrap_or(0.0);
        // bones that are measured wider than the hips are told elsewhere; no rule is upside down
        let low = (hips + least).max(bones);
        let range = (low, (hips + most).max(low));
        self.hold("seat.width", seat.width, range, &[("hip_width", hips)]);
        if let (clear, Some(_)) = super::narrowest(seat, self.out) {
            self.hold("fit.hips.between", clear, (low, f64::INFINITY), &[("hip_width", hips)]);
        }
    }

    fn depth(&mut self, depth: f64) {
        let Some((least, most)) = self.rule("seat_depth_short_of_thigh") else { return };
        if self.legless() {
            return;
        }
        let Some(thigh) = self.need("thigh", "the rule for the seat's depth") else { return };
        self.hold("seat.depth", depth, (thigh - most, thigh - least), &[("thigh", thigh)]);
    }

    /// Whether no thigh reaches the front of a seat.
    fn legless(&self) -> bool {
        let body = self.out.rider.as_ref();
        body.is_some_and(|b| b.legs.iter().all(|l| l.end.left()[1] <= 0.0 && !l.prosthesis))
    }

    fn feet(&mut self) {
        if let (Some((least, _)), Some(has)) =
            (self.rule("footrest_clearance"), self.out.figures.si("footrest.clearance"))
        {
            self.hold("footrest.clearance", has, (least, f64::INFINITY), &[]);
        }
        let feet = self.out.rider.as_ref().is_some_and(|b| b.legs.iter().any(Leg::has_foot));
        if !feet {
            return;
        }
        let pushing = self.design.rider.word("pushes") == Some("feet");
        if support(self.design, SupportKind::Footrest).is_none() && !pushing {
            return self.undrawn("foot support");
        }
        if self.design.rider.get("thigh").is_none() {
            let _ = self.need("thigh", "the rule for the foot support's height");
            return;
        }
        for side in SIDES {
            // only sides that have a foot
            let Some(drop) = self.out.figures.si(&format!("footrest.drop.{}", side.word())) else { continue };
            let Some(calf) = self.design.rider.sided("calf", side) else {
                let _ = self.need("calf", "the rule for the foot support's height");
                return;
            };
            let name = format!("calf.{}", side.word());
            let range = (calf - FOOT, calf + FOOT);
            self.hold("footrest.drop", drop, range, &[(name.as_str(), calf)]);
        }
    }

    fn back(&mut self) {
        let Some(top) = self.out.figures.si("fit.back.top") else {
            return self.undrawn("back support");
        };
        let pushes = self.pushes();
        let trunk = self.design.rider.word("trunk");
        let free = matches!(trunk, None | Some("hands_free"));
        if trunk.is_none() && pushes {
            self.out.assumptions.push(Assumed::HandsFree);
        }
        if let (Some((below, _)), true) = (self.rule("back_below_scapula"), pushes && free) {
            let Some(scapula) = self.need("scapula_height", "the rule for the back's height") else { return };
            let least = self.design.rider.get("rib_height").unwrap_or(0.0);
            let against = [("scapula_height", scapula)];
            self.hold("back.height", top, (least, (scapula - below).max(least)), &against);
        } else if let Some((below, _)) = self.rule("back_below_axilla") {
            let Some(axilla) = self.need("axilla_height", "the rule for the back's height") else { return };
            let range = (axilla - below - FOOT, axilla - below + FOOT);
            self.hold("back.height", top, range, &[("axilla_height", axilla)]);
        } else if trunk == Some("hands_free") && self.rule("back_below_scapula").is_some() {
            // nobody's shoulder blades have to move, and nothing has to be held up: any back behind the ribs does
            let least = self.design.rider.get("rib_height").unwrap_or(0.0);
            if let Some(shoulder) = self.design.rider.get("shoulder_height") {
                self.hold("back.height", top, (least, shoulder), &[("shoulder_height", shoulder)]);
            }
        } else if let Some((below, _)) = self.rule("back_below_scapula") {
            // a trunk that does not hold itself is held up to between shoulder blade and shoulder
            let wanted_by = "the rule for the back's height";
            let (Some(scapula), Some(shoulder)) =
                (self.need("scapula_height", wanted_by), self.need("shoulder_height", wanted_by))
            else {
                return;
            };
            let range = (scapula - below, shoulder.max(scapula));
            let against = [("scapula_height", scapula), ("shoulder_height", shoulder)];
            self.hold("back.height", top, range, &against);
        }
    }

    /// Parts beside the trunk stay below the armpits, of either side.
    fn sides(&mut self) {
        let Some((below, _)) = self.rule("side_below_axilla") else { return };
        for side in SIDES {
            let key = format!("fit.side.top.{}", side.word());
            let Some(top) = self.out.figures.si(&key) else { continue };
            let Some(axilla) = self.design.rider.sided("axilla_height", side) else {
                let _ = self.need("axilla_height", "the rule for the height of parts beside the trunk");
                return;
            };
            let range = (f64::NEG_INFINITY, axilla - below);
            self.hold("fit.side.top", top, range, &[(&format!("axilla_height.{}", side.word()), axilla)]);
        }
    }

    /// Arm supports under the elbows, and the hips between them.
    fn arms(&mut self) {
        let design = self.design;
        let Some(first) = design.supports.iter().find(|s| s.kind == SupportKind::Arm) else { return };
        let seat = std::mem::replace(&mut self.seat, first.origin);
        if let Some((above, _)) = self.rule("arm_above_elbow") {
            for side in SIDES {
                if self.design.rider.sided("elbow_height", side).is_none() {
                    let _ = self.need("elbow_height", "the rule for the arm supports' height");
                    break;
                }
                let key = format!("fit.arm.above.elbow.{}", side.word());
                let Some(has) = self.out.figures.si(&key) else { continue };
                self.hold("fit.arm.above.elbow", has, (above - FOOT, above + FOOT), &[]);
            }
        }
        if let (Some(between), Some((least, _)), Some(hips)) = (
            self.out.figures.si("fit.arms.between"),
            self.rule("seat_width_beyond_hips"),
            self.design.rider.get("hip_width"),
        ) {
            self.hold("fit.arms.between", between, (hips + least, f64::INFINITY), &[("hip_width", hips)]);
        }
        self.seat = seat;
    }

    fn elbow(&mut self) {
        let Some(range) = self.rule("elbow_angle") else { return };
        if !self.pushes() || self.armless() {
            return;
        }
        if !self.design.wheels.iter().any(|w| w.rim.is_some()) {
            self.out.assumptions.push(Assumed::NoRims);
            return;
        }
        if self.out.reach.is_empty() {
            for measure in ["upper_arm", "forearm", "shoulder_height"] {
                let _ = self.need(measure, "the rule for the elbow at the push rim");
            }
            return;
        }
        let middle = f64::midpoint(range.0, range.1);
        let off = |r: &&Reach| (r.at_best - middle).abs();
        let worst = self.out.reach.iter().max_by(|a, b| off(a).total_cmp(&off(b)));
        if let Some(has) = worst.map(|r| r.at_best) {
            self.hold("reach.elbow", has, range, &[]);
        }
    }

    /// Whether the rider pushes with the hands, as far as anybody says.
    fn pushes(&self) -> bool {
        !matches!(self.design.rider.word("pushes"), Some("assistant" | "feet"))
    }

    fn armless(&self) -> bool {
        !SIDES.iter().any(|s| super::hands::has_hand(&self.design.rider, *s))
    }
}
