//! How far behind the trunk the upper arm goes for the push rims.
//!
//! With shoulder and hand at their places the elbow lies on a circle round the line between them. Straight behind, as whoever pushes
//! holds it, the upper arm goes back furthest; out to the side it goes back as far as that line does and no less. Shoulders that differ
//! are the rule: what is beyond a usual one nobody can tell, and what is beyond a measured one even with the elbow out to the side the
//! hand does not do with the trunk upright.

use super::reach::{Arm, Ring};
use super::{A, BODY, L};
use crate::Checked;
use crate::body::YEAR;
use crate::problem::Problem;
use chairwright_design::{Rider, Side, Vec3};
use std::f64::consts::PI;

const DEGREE: f64 = PI / 180.0;
/// How far back behind the trunk a shoulder usually brings the arm: 60 degrees (AAOS); 62 were measured on the average of 109 men up
/// to 54 years (J Bone Joint Surg 1979;61-A:756-9), and from 50 on a shoulder counts as whole (AMA). The angles as the appendix of a
/// textbook of goniometry lists them, where they stand in that journal from memory. The elbow straight behind asks the most of a
/// shoulder, so that one of 50 still gets there with the elbow a little aside.
const USUAL: f64 = 60.0 * DEGREE;
/// The same of the old: mean of 30 men and 30 women of 65 to 85 years (Phys Ther 1984;64:919-23), from the same list; the journal from
/// memory.
const OLD: f64 = 44.0 * DEGREE;
/// From this age on.
const OLD_FROM: f64 = 65.0;
/// Steps of a rim that is moved until the arm gets to it, in metres, and how many.
const STEP: f64 = 0.005;
const STEPS: u32 = 60;

/// How far back a shoulder goes, in radians.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Back {
    /// As measured.
    Measured(f64),
    /// As that of most; whether the rider is old.
    Usual(f64, bool),
}

impl Back {
    fn of(rider: &Rider, side: Side) -> Back {
        let old = rider.get("age").is_some_and(|a| a / YEAR >= OLD_FROM);
        let usual = Back::Usual(if old { OLD } else { USUAL }, old);
        rider.sided("shoulder_extension", side).map_or(usual, Back::Measured)
    }

    /// The angle.
    #[must_use]
    pub fn angle(self) -> f64 {
        match self {
            Back::Measured(angle) | Back::Usual(angle, _) => angle,
        }
    }
}

/// An arm that goes further behind the trunk than its shoulder may.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct FarBehind {
    /// Which.
    pub side: Side,
    /// How far back the upper arm goes with the hand on top of the rim and the elbow straight behind, and out to the side, in radians.
    pub goes: (f64, f64),
    /// How far the shoulder goes.
    pub may: Back,
    /// How far the rim has to go ahead, or else the seat up over it, until the arm does not go too far; in metres.
    pub ahead: Option<f64>,
    /// The same of the seat.
    pub raise: Option<f64>,
}

impl FarBehind {
    /// Whether the shoulder surely does not do it: it was measured, and no way of holding the elbow helps.
    #[must_use]
    pub fn never(&self) -> bool {
        matches!(self.may, Back::Measured(most) if self.goes.1 > most)
    }
}

/// The trunk of the seated rider in the settled pose.
#[derive(Clone, Copy)]
pub(super) struct Trunk {
    pub up: Vec3,
}

impl Trunk {
    /// How far behind it an upper arm goes with the hand at a point and the elbow held toward a direction.
    fn behind(self, arm: &Arm, hand: Vec3, toward: Vec3) -> Option<f64> {
        let line = hand - arm.shoulder;
        let (d, along) = (line.norm(), line.unit()?);
        let far = (arm.upper * arm.upper + d * d - arm.lower * arm.lower) / (2.0 * d);
        let off = arm.upper * arm.upper - far * far;
        if off < 0.0 {
            return None;
        }
        let upper = along * far + toward.across(along).unit()? * libm::sqrt(off);
        Some(libm::atan2(upper.dot(self.back()), -upper.dot(self.up)))
    }

    fn back(self) -> Vec3 {
        self.up.cross(Vec3::Y).unit().unwrap_or(-Vec3::X)
    }

    /// The same with the elbow straight behind.
    fn straight(self, arm: &Arm, hand: Vec3) -> Option<f64> {
        self.behind(arm, hand, self.back())
    }
}

/// Figures of one arm at its rim; whether it goes further behind than its shoulder may.
pub(super) fn one(
    rider: &Rider,
    (arm, trunk): (&Arm, Trunk),
    ring: &Ring,
    side: Side,
    out: &mut Checked,
) -> Option<FarBehind> {
    let top = ring.at(0.0);
    let may = Back::of(rider, side);
    let most = may.angle();
    let behind = trunk.straight(arm, top)?;
    let aside = trunk.behind(arm, top, Vec3::Y * side.sign())?;
    let (figures, word) = (&mut out.figures, side.word());
    let inputs = [("upper arm", arm.upper, L), ("forearm to grip", arm.lower, L)];
    let formula = "upper arm behind the line of the trunk, hand on top of the push rim, elbow straight behind";
    figures.put(format!("reach.behind.{word}"), (behind, A), formula, BODY, &inputs);
    if behind <= most {
        let start = |k: &u32| {
            trunk.straight(arm, ring.at(-f64::from(*k) * DEGREE)).is_some_and(|behind| behind <= most)
        };
        let start = f64::from((1..=120).take_while(start).count() as u32) * DEGREE;
        let formula = "how far behind its top the hand takes the rim, the upper arm no further behind than the shoulder goes";
        figures.put(format!("reach.start.{word}"), (start, A), formula, BODY, &[("shoulder goes", most, A)]);
        return None;
    }
    let until = |way: Vec3| {
        let goes = |k: &u32| trunk.straight(arm, top + way * (f64::from(*k) * STEP));
        (1..=STEPS).find(|k| goes(k).is_some_and(|behind| behind <= most)).map(|k| f64::from(k) * STEP)
    };
    let (ahead, raise) = (until(Vec3::X), until(-Vec3::Z));
    Some(FarBehind { side, goes: (behind, aside), may, ahead, raise })
}

/// Arms that go too far behind, of whoever pushes: with one of two hands the better one counts.
pub(super) fn told(rider: &Rider, far: Vec<FarBehind>, looked: usize, out: &mut Checked) {
    let pushed = !matches!(rider.word("pushes"), Some("assistant" | "feet"));
    let one = rider.word("pushes") == Some("one_hand") && far.len() < looked;
    if pushed && !one {
        let origin = rider.origin;
        out.problems.extend(far.into_iter().map(|arm| Problem::FarBehind { arm, origin }));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: upper arm and forearm of 300 mm, the hand 300 mm straight below the shoulder: a triangle of equal sides, the upper arm 60
    /// degrees behind; of a trunk that leans 10 degrees back, whose line goes as much ahead on its way down, it is 70. Out to the side it
    /// goes 0 behind the upright trunk.
    #[test]
    fn an_even_triangle() {
        let arm = Arm { shoulder: Vec3::Z, upper: 0.3, lower: 0.3 };
        let hand = Vec3::Z * 0.7;
        let near = |a: Option<f64>, b: f64| (a.unwrap() - b * DEGREE).abs() < 1e-9;
        let upright = Trunk { up: Vec3::Z };
        assert!(near(upright.straight(&arm, hand), 60.0));
        assert!(near(upright.behind(&arm, hand, Vec3::Y), 0.0));
        let (s, c) = libm::sincos(10.0 * DEGREE);
        assert!(near(Trunk { up: Vec3::new(-s, 0.0, c) }.straight(&arm, hand), 70.0));
        assert_eq!(upright.straight(&arm, Vec3::Z * 0.3), None);
    }
}
