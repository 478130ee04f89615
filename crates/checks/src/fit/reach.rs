//! The arms and the push rims.
//!
//! With the hand on top of the rim, upper arm a, forearm to grip f and the distance d from the shoulder to the top of the
//! rim make a triangle: cos(elbow) = (a² + f² − d²) / (2af). Band of 100 to 120 degrees: J Spinal Cord Med 2005;28(5):434-70.

use super::behind::{self, Trunk};
use super::hands::has_hand;
use super::{A, BODY, Hands, L, SIDES, hands};
use crate::assumed::Assumed;
use crate::body::{SHOULDERS, guess, half_shoulders, support};
use crate::problem::{Pressed, Problem};
use crate::sizes::outer_wheel;
use crate::{Checked, RiderBody};
use chairwright_design::{Design, Rider, Side, SupportKind, Vec3, Wheel};
use chairwright_frame::Settled;
use std::f64::consts::PI;

const DEGREE: f64 = PI / 180.0;
/// Elbow angle with the hand on top of the rim.
pub(crate) const BAND: (f64, f64) = (100.0 * DEGREE, 120.0 * DEGREE);

/// One arm at its rim.
#[derive(Clone, PartialEq, Debug)]
pub struct Reach {
    /// Which.
    pub side: Side,
    /// Elbow angle in radians; `None` where the rim is out of reach.
    pub elbow: Option<f64>,
    /// The angle nearest to what the rim asks for: straight where it is too far, folded where it is too near.
    pub at_best: f64,
    /// By how much higher over the axle the seat would have to be for the band, in metres: least and greatest.
    pub raise: Option<(f64, f64)>,
}

/// Lengths of one arm in metres.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct ArmLengths {
    /// Shoulder to elbow.
    pub(super) upper: f64,
    /// Elbow to grip.
    pub(super) lower: f64,
}

impl ArmLengths {
    /// As measured on this side or for both.
    pub(super) fn of(rider: &Rider, side: Side) -> Option<ArmLengths> {
        Some(ArmLengths { upper: rider.sided("upper_arm", side)?, lower: rider.sided("forearm", side)? })
    }
}

/// Where a shoulder is in the drawing: as far from the hip joint along the trunk as it is above it sitting upright, for a trunk
/// that leans back is no longer. `None` where nobody measured it.
pub(super) fn shoulder(design: &Design, body: &RiderBody, side: Side) -> Option<Vec3> {
    let rider = &design.rider;
    let half = half_shoulders(rider, rider.get("stature").unwrap_or(0.0));
    let (surface, normal) = body.seat;
    let rise = rider.sided("shoulder_height", side)? - (body.hip - surface).dot(normal);
    let shoulder = body.hip + body.up * rise;
    Some(shoulder + Vec3::Y * (side.sign() * half))
}

/// One arm's triangle in the settled pose.
pub(super) struct Arm {
    pub(super) shoulder: Vec3,
    pub(super) upper: f64,
    pub(super) lower: f64,
}

impl Arm {
    /// The elbow angle with the hand at a point.
    fn elbow(&self, hand: Vec3) -> Option<f64> {
        let d = (hand - self.shoulder).norm();
        let cosine =
            (self.upper * self.upper + self.lower * self.lower - d * d) / (2.0 * self.upper * self.lower);
        (-1.0..=1.0).contains(&cosine).then(|| libm::acos(cosine))
    }

    /// The elbow angle that brings the hand as near to a point as it gets.
    fn at_best(&self, hand: Vec3) -> f64 {
        let straight = (hand - self.shoulder).norm() > self.upper.max(self.lower);
        self.elbow(hand).unwrap_or(if straight { PI } else { 0.0 })
    }

    /// The distance from the shoulder that an elbow angle leaves.
    fn span(&self, elbow: f64) -> f64 {
        let (a, f) = (self.upper, self.lower);
        libm::sqrt((a * a + f * f - 2.0 * a * f * libm::cos(elbow)).max(0.0))
    }
}

pub(super) fn reach(design: &Design, body: &RiderBody, settled: &Settled, out: &mut Checked) {
    grip(design, out);
    handless(design, body, settled, out);
    let rider = &design.rider;
    let (Some(_), Some(_)) = (rider.get("upper_arm"), rider.get("forearm")) else {
        if design.wheels.iter().any(|w| w.rim.is_some()) {
            out.assumptions.push(Assumed::NoReach(&["upper_arm", "forearm"]));
        }
        return;
    };
    if rider.get("shoulder_height").is_none() {
        out.assumptions.push(Assumed::NoReach(&["shoulder_height"]));
        return;
    }
    let stature = rider.get("stature").unwrap_or(0.0);
    let hands = hands(rider);
    if hands == Hands::Either {
        out.assumptions.push(Assumed::WhichHand);
    }
    let trunk = Trunk { up: settled.pose.turn(body.up) };
    let mut far = Vec::new();
    for side in SIDES.into_iter().filter(|s| looked_at(rider, hands, *s)) {
        let Some(wheel) = outer_wheel(design, side).filter(|w| w.rim.is_some()) else { continue };
        let Some(shoulder) = shoulder(design, body, side) else { continue };
        let Some(ArmLengths { upper, lower }) = ArmLengths::of(rider, side) else { continue };
        let arm = Arm { shoulder: settled.pose.place(shoulder), upper, lower };
        let ring = Ring::of(wheel, settled);
        let found = one(&arm, &ring, side, out);
        out.reach.push(found);
        far.extend(behind::one(rider, (&arm, trunk), &ring, side, out));
    }
    behind::told(rider, far, out.reach.len(), out);
    if rider.get("shoulder_width").is_none() && !out.reach.is_empty() {
        guess(rider, "shoulder_width", (SHOULDERS * stature, 0.0), stature, &mut out.assumptions);
    }
    beyond(design, out);
    axle(design, settled, out);
    let middle = f64::midpoint(BAND.0, BAND.1);
    let worst = out.reach.iter().filter_map(|r| r.elbow);
    if let Some(elbow) = worst.max_by(|a, b| (a - middle).abs().total_cmp(&(b - middle).abs())) {
        out.figures.put("reach.elbow", (elbow, A), "of both arms the one further from 110 degrees", BODY, &[]);
    }
}

/// Rims that no hand gets to, where no rules of fit say so: with one hand the better one counts.
fn beyond(design: &Design, out: &mut Checked) {
    if design.fit_rules.is_none() {
        beyond_any_rule(design, out);
    }
}

/// The same where a rule is excused: a reason for an elbow out of its band is none for a rim that no hand gets to.
pub(super) fn beyond_any_rule(design: &Design, out: &mut Checked) {
    let far: Vec<Side> = out.reach.iter().filter(|r| r.elbow.is_none()).map(|r| r.side).collect();
    let one = design.rider.word("pushes") == Some("one_hand") && far.len() < out.reach.len();
    let pushed = !matches!(design.rider.word("pushes"), Some("assistant" | "feet"));
    if !far.is_empty() && pushed && !one {
        out.problems.push(Problem::BeyondReach { sides: far, origin: design.rider.origin });
    }
}

/// How far below the seat the axle brings both elbows into the band.
fn axle(design: &Design, settled: &Settled, out: &mut Checked) {
    let Some(seat) = support(design, SupportKind::Seat) else { return };
    let wheel = SIDES.into_iter().find_map(|s| outer_wheel(design, s).filter(|w| w.rim.is_some()));
    let Some(wheel) = wheel else { return };
    let now = settled.pose.place(seat.from).z - settled.pose.place(wheel.at).z;
    out.figures.put("axle.below", (now, L), "rear edge of the seat less rear axle, upright", BODY, &[]);
    let all: Option<Vec<(f64, f64)>> = out.reach.iter().map(|r| r.raise).collect();
    let both = all.and_then(|a| a.into_iter().reduce(|a, b| (a.0.max(b.0), a.1.min(b.1))));
    let Some((least, most)) = both.filter(|(least, most)| least <= most) else { return };
    let inputs = [("axle.below", now, L)];
    let formula = "axle.below + what both shoulders lack for 100 degrees over the tops of the rims";
    out.figures.put("reach.axle.least", (now + least, L), formula, BODY, &inputs);
    let formula = "axle.below + what both shoulders lack for 120 degrees over the tops of the rims";
    out.figures.put("reach.axle.most", (now + most, L), formula, BODY, &inputs);
}

/// Whether a side's hand at its rim is looked at: whoever is pushed may still push, a hand that does not push alone is not asked to.
fn looked_at(rider: &Rider, hands: Hands, side: Side) -> bool {
    has_hand(rider, side) && (hands == Hands::None || hands.at(side))
}

/// Rims that are to be pushed by an arm without its hand: how it holds them nobody can tell from the drawing.
fn handless(design: &Design, body: &RiderBody, settled: &Settled, out: &mut Checked) {
    let word = design.rider.word("pushes");
    let missing = |s: &Side| !has_hand(&design.rider, *s);
    let rim = |s: &Side| outer_wheel(design, *s).filter(|w| w.rim.is_some());
    let all: Vec<(Side, &Wheel)> =
        SIDES.into_iter().filter(missing).filter_map(|s| Some((s, rim(&s)?))).collect();
    if all.is_empty() || matches!(word, Some("assistant" | "feet")) {
        return;
    }
    let mut short = Vec::new();
    for (side, wheel) in &all {
        let by = stump(design, body, (*side, wheel), settled, out);
        short.extend(by.filter(|by| *by > 0.0).map(|by| (*side, by)));
    }
    // who pushes with one hand needs one, and who says nothing is taken at what is left
    let alone = matches!(hands(&design.rider), Hands::One(s) if missing(&s));
    if word == Some("both_hands") || SIDES.iter().all(missing) || alone {
        let sides = all.iter().map(|a| a.0).collect();
        out.problems.push(Problem::NoHand { sides, short, origin: design.rider.origin });
    } else {
        out.assumptions.extend(all.iter().map(|a| Assumed::HandlessRim(a.0)));
    }
}

/// How much further the top of the rim is than the end of the straight limb.
fn stump(
    design: &Design,
    body: &RiderBody,
    (side, wheel): (Side, &Wheel),
    settled: &Settled,
    out: &mut Checked,
) -> Option<f64> {
    let (_, length) = body.stumps.iter().find(|s| s.0 == side)?;
    let shoulder = settled.pose.place(shoulder(design, body, side)?);
    let d = (Ring::of(wheel, settled).at(0.0) - shoulder).norm();
    let inputs = [("shoulder to rim top", d, L), ("shoulder to the end of the limb", *length, L)];
    let formula = "shoulder to the top of the push rim less what is left of the arm, elbow straight";
    out.figures.put(format!("reach.stump.{}", side.word()), (d - length, L), formula, BODY, &inputs);
    Some(d - length)
}

/// A push rim in the settled pose.
pub(super) struct Ring {
    centre: Vec3,
    up: Vec3,
    ahead: Vec3,
    radius: f64,
}

impl Ring {
    fn of(wheel: &Wheel, settled: &Settled) -> Ring {
        let axle = settled.pose.turn(wheel.axle);
        let centre = settled.pose.place(wheel.at) + axle * (wheel.rim_out - wheel.rim_tube / 2.0);
        let up = Vec3::Z.across(axle).unit().unwrap_or(Vec3::Z);
        let ahead = Vec3::X.across(axle).unit().unwrap_or(Vec3::X);
        Ring { centre, up, ahead, radius: wheel.rim.unwrap_or(0.0) / 2.0 }
    }

    /// The point so far ahead of its top.
    pub(super) fn at(&self, angle: f64) -> Vec3 {
        self.centre + (self.up * libm::cos(angle) + self.ahead * libm::sin(angle)) * self.radius
    }
}

/// Whether the hands close round the push rims.
fn grip(design: &Design, out: &mut Checked) {
    let hands = hands(&design.rider);
    for side in SIDES {
        let Some(wheel) = outer_wheel(design, side).filter(|w| w.rim.is_some()) else { continue };
        let looked = looked_at(&design.rider, hands, side);
        let Some(grip) = design.rider.sided("grip", side).filter(|_| looked) else { continue };
        let room = grip - wheel.rim_tube;
        let inputs = [("rider.grip", grip, L), ("tube of the push rim", wheel.rim_tube, L)];
        let formula = "across the closed grip less the tube of the push rim";
        out.figures.put(format!("reach.grip.{}", side.word()), (room, L), formula, BODY, &inputs);
        if room < -1e-6 {
            let pressed = Pressed::Grip { wheel: wheel.name.clone(), tube: wheel.rim_tube, grip };
            out.problems.push(Problem::Pressed { pressed, origin: wheel.origin });
        }
    }
}

fn one(arm: &Arm, ring: &Ring, side: Side, out: &mut Checked) -> Reach {
    let on_rim = |angle: f64| ring.at(angle);
    let top = on_rim(0.0);
    let word = side.word();
    let d = (top - arm.shoulder).norm();
    let elbow = arm.elbow(top);
    let figures = &mut out.figures;
    let inputs =
        [("upper arm", arm.upper, L), ("forearm to grip", arm.lower, L), ("shoulder to rim top", d, L)];
    if let Some(elbow) = elbow {
        let formula = "acos((a^2 + f^2 - d^2) / (2 a f)), hand on top of the push rim";
        figures.put(format!("reach.elbow.{word}"), (elbow, A), formula, BODY, &inputs);
        let arc = arc(arm, &on_rim);
        let formula = "part of the rim around its top that the hand reaches with the trunk still";
        figures.put(format!("reach.arc.{word}"), (arc, A), formula, BODY, &inputs);
    }
    let spread = libm::atan2((top.y - arm.shoulder.y) * side.sign(), arm.shoulder.z - top.z);
    let formula = "atan(rim outside of the shoulder / shoulder above the rim's top)";
    figures.put(format!("reach.spread.{word}"), (spread, A), formula, BODY, &[]);
    let flat = libm::hypot(top.x - arm.shoulder.x, top.y - arm.shoulder.y);
    let fall = arm.shoulder.z - top.z;
    let wanted = |elbow: f64| {
        let d = arm.span(elbow);
        (d > flat).then(|| libm::sqrt(d * d - flat * flat) - fall)
    };
    Reach { side, elbow, at_best: arm.at_best(top), raise: wanted(BAND.0).zip(wanted(BAND.1)) }
}

/// How far round the rim the hand gets, a degree at a time from its top both ways.
fn arc(arm: &Arm, on_rim: &dyn Fn(f64) -> Vec3) -> f64 {
    let way = |sign: f64| {
        (0..=120).take_while(|k| arm.elbow(on_rim(sign * f64::from(*k) * DEGREE)).is_some()).count()
    };
    #[allow(clippy::cast_precision_loss)]
    let total = way(1.0).saturating_sub(1) + way(-1.0).saturating_sub(1);
    total as f64 * DEGREE
}
