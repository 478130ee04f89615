//! How the body is held: trunk along the back support, thighs along the seat, feet towards the foot support, as far as hips,
//! knees and ankles go.

use super::joints::{self, beyond};
use super::limbs::Limbs;
use super::{KNEE_AHEAD, Leg, Lengths, Notes, guess, support};
use crate::assumed::{Assumed, once};
use crate::problem::{JointName, Problem};
use chairwright_design::{Design, Rider, Side, Support, SupportKind, Vec3};
use std::f64::consts::{FRAC_PI_2, PI};

/// Ankle above the sole, as a fraction of stature: NYU Technical Report 1166.03 (1966), from memory.
const ANKLE: f64 = 0.039;
/// Back support leaning back from square to the seat, where there is none: 10 degrees, assumed.
const LEAN: f64 = 10.0 * PI / 180.0;

/// How far the ankle of somebody so tall is above the sole, in metres.
#[must_use]
pub fn ankle_height(stature: f64) -> f64 {
    ANKLE * stature
}

/// Direction of the trunk.
pub(super) fn trunk(design: &Design, along: Vec3, normal: Vec3, assumptions: &mut Vec<Assumed>) -> Vec3 {
    if let Some(back) = support(design, SupportKind::Back)
        && let Some(direction) = (back.to - back.from).unit()
    {
        return direction;
    }
    assumptions.push(Assumed::NoBack);
    normal * libm::cos(LEAN) - along * libm::sin(LEAN)
}

/// A foot that is held this far off where the chair wants it is not on its support.
const HELD_OFF: f64 = 1e-9;

/// One leg.
pub(super) fn leg(
    design: &Design,
    side: Side,
    (hip, along): (Vec3, Vec3),
    limbs: &Limbs,
    lengths: &Lengths,
    notes: &mut Notes,
) -> Option<Leg> {
    let rider = &design.rider;
    let out = Vec3::Y * (side.sign() * super::hip_out(rider.get("hip_width").unwrap_or(0.0)));
    let (end, prosthesis) = limbs.end(side);
    let row = |name: &str| design.body.get(name).map(|s| s.of_stature);
    let mut estimated = |measure: &'static str, share: f64, beside: f64, there: bool| {
        let value = share * lengths.stature;
        match there {
            true => guess(rider, measure, (value, beside), lengths.stature, notes.assumptions),
            false => value,
        }
    };
    let left = end.left();
    // the hollow of the knee is what a builder can measure; the joint lies ahead of it
    let beside = lengths.ahead - KNEE_AHEAD * lengths.stature;
    let measured = rider.sided("thigh", side).map(|t| t - beside);
    let thigh = match measured.filter(|t| *t > 0.0) {
        Some(thigh) => thigh,
        None => estimated("thigh", row("thigh")?, beside, left[0] > 0.0 || prosthesis),
    };
    // the knee joint stands as high above the ankle joint as the hollow of the knee above the heel, by the same tables
    let shank = match rider.sided("calf", side) {
        Some(calf) => calf,
        None => estimated("calf", row("shank")?, 0.0, left[1] > 0.0 || prosthesis),
    };
    // a foot that was not measured is told of where feet are looked at
    let foot = rider.sided("foot_length", side).or_else(|| Some(row("foot")? * lengths.stature))?;
    let hip = hip + out;
    let knee = hip + along * thigh;
    let (drawn, beyond) = foot_place(design, knee, (shank, foot), lengths.stature, notes);
    let (down, forward) = (drawn.0 - knee, drawn.1 - drawn.0);
    let knee_bend = along.angle_to(down);
    let ankle_bend = FRAC_PI_2 - forward.angle_to(-down);
    let (ankle, toe) = joints::lower(rider, (side, end), (knee, along), drawn, (knee_bend, ankle_bend));
    let off = (ankle - drawn.0).norm();
    if off > HELD_OFF {
        notes.assumptions.push(Assumed::KneeHeld { side, off });
    } else if (toe - drawn.1).norm() > HELD_OFF {
        notes.assumptions.push(Assumed::AnkleHeld(side));
    }
    let moves = (off > HELD_OFF).then_some((ankle.x - drawn.0.x, ankle.z - drawn.0.z));
    let aside =
        support(design, SupportKind::Footrest).map_or(0.0, |rest| (stands_at(rest, hip.y) - hip.y).abs());
    Some(Leg { side, end, hip, knee, ankle, toe, prosthesis, knee_bend, ankle_bend, moves, beyond, aside })
}

/// Where a foot stands across the chair: straight below its hip, or as near to that as its support goes.
pub(crate) fn stands_at(rest: &Support, hip: f64) -> f64 {
    let (middle, half) = (rest.from.y, rest.width / 2.0);
    hip.max(middle - half).min(middle + half)
}

/// Ankle and toe: towards the foot support, or hanging where there is none; and how much further than the shank is long its place
/// over the support is.
fn foot_place(
    design: &Design,
    knee: Vec3,
    (shank, foot): (f64, f64),
    stature: f64,
    notes: &mut Notes,
) -> ((Vec3, Vec3), f64) {
    let Some(rest) = support(design, SupportKind::Footrest) else {
        let ankle = knee - Vec3::Z * shank;
        return ((ankle, ankle + Vec3::X * foot), 0.0);
    };
    let along = (rest.to - rest.from).unit().unwrap_or(Vec3::X);
    let normal = along.cross(Vec3::Y).unit().unwrap_or(Vec3::Z);
    let heel = Vec3 { y: stands_at(rest, knee.y), ..rest.from };
    let target = heel + normal * ankle_height(stature);
    let ankle = knee + (target - knee).unit().unwrap_or(-Vec3::Z) * shank;
    once(Assumed::Shanks, notes.assumptions);
    ((ankle, ankle + along * foot), (target - knee).norm() - shank)
}

/// Joints that the chair bends further than the rider can.
pub(super) fn bends(rider: &Rider, legs: &[Leg], opening: f64, design: &Design, notes: &mut Notes) {
    let seat = support(design, SupportKind::Seat).map(|s| s.origin);
    let mut judge = |joint: JointName, side: Option<Side>, has: f64, moves: Option<(f64, f64)>| {
        if let Some(range) = beyond(joints::range(rider, joint, side), has) {
            notes.problems.push(Problem::JointBent { joint, side, has, range, moves, origin: seat });
        }
    };
    if joints::hips_apart(rider) {
        for leg in legs.iter().filter(|l| l.end != super::LegEnd::Hip) {
            judge(JointName::Hip, Some(leg.side), PI - opening, None);
        }
    } else {
        judge(JointName::Hip, None, PI - opening, None);
    }
    for leg in legs {
        if joints::has_knee(leg.end) {
            judge(JointName::Knee, Some(leg.side), leg.knee_bend, leg.moves);
        }
        if leg.end == super::LegEnd::Whole {
            judge(JointName::Ankle, Some(leg.side), leg.ankle_bend, None);
        }
    }
}
