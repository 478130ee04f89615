//! How far hips, knees and ankles go, and what the body does where the chair asks more.
//!
//! A hip that does not bend as far as seat and back ask opens the body: thighs stay on the seat, the trunk leans back further
//! and touches the back support at its upper edge only, so the pelvis slides ahead on the seat. A hip that does not open as far
//! brings the trunk off its support, forward. A knee or an ankle stays at the end of its range nearest to what is asked, and
//! the foot leaves its support. Geometry; that the body gives way like this, and not by turning the pelvis or lifting a
//! thigh, is common practice, no source, and each is listed among what was assumed.

use super::{LegEnd, Lengths, Notes, support};
use crate::assumed::Assumed;
use crate::problem::JointName;
use chairwright_design::{Design, Rider, Side, SupportKind, Vec3};
use std::f64::consts::{FRAC_PI_2, PI};

/// A joint bent this much beyond its range is measured wrong or drawn wrong; less is within the goniometer's error. Common
/// practice, no source.
const GONIOMETER: f64 = 5.0 * PI / 180.0;

/// A joint's range in radians.
type Range = Option<(f64, f64)>;

/// The range of a joint, of a side where the sides differ.
pub(super) fn range(rider: &Rider, joint: JointName, side: Option<Side>) -> Range {
    let key = match joint {
        JointName::Hip => "hip_flexion",
        JointName::Knee => "knee_flexion",
        JointName::Ankle => "ankle",
    };
    let [least, most] = ["least", "most"].map(|end| {
        let sided = side.and_then(|s| rider.get(&format!("{key}.{}.{end}", s.word())));
        sided.or_else(|| rider.get(&format!("{key}.{end}")))
    });
    least.zip(most)
}

/// The range, where what is asked is beyond it by more than an instrument tells.
pub(super) fn beyond(range: Range, asked: f64) -> Range {
    range.filter(|(least, most)| !(least - GONIOMETER..=most + GONIOMETER).contains(&asked))
}

/// What a joint does of what is asked.
fn held(range: Range, asked: f64) -> f64 {
    beyond(range, asked).map_or(asked, |(least, most)| asked.max(least).min(most))
}

/// Whether the hips were measured apart.
pub(super) fn hips_apart(rider: &Rider) -> bool {
    ["left", "right"].iter().any(|s| rider.get(&format!("hip_flexion.{s}.least")).is_some())
}

/// Whether a leg has its own knee.
pub(super) fn has_knee(end: LegEnd) -> bool {
    matches!(end, LegEnd::Whole | LegEnd::Foot | LegEnd::BelowKnee(_))
}

/// A unit vector at an angle from `from`, on the side of `toward`.
fn at_angle(from: Vec3, toward: Vec3, angle: f64) -> Option<Vec3> {
    let across = toward.across(from).unit()?;
    let (s, c) = libm::sincos(angle);
    Some(from * c + across * s)
}

/// Middle of the hips and direction of the trunk, as far as the hips go.
pub(super) fn trunk(
    design: &Design,
    (hip, along, up): (Vec3, Vec3, Vec3),
    ends: [LegEnd; 2],
    lengths: &Lengths,
    notes: &mut Notes,
) -> (Vec3, Vec3) {
    let asked = PI - along.angle_to(up);
    let sides = [Side::Left, Side::Right].into_iter().zip(ends).filter(|(_, e)| *e != LegEnd::Hip);
    let ranges = sides.filter_map(|(side, _)| range(&design.rider, JointName::Hip, Some(side)));
    let Some((least, most)) = ranges.reduce(|a, b| (a.0.max(b.0), a.1.min(b.1))) else { return (hip, up) };
    if least > most {
        notes.assumptions.push(Assumed::HipsApart);
        return (hip, up);
    }
    let does = held(Some((least, most)), asked);
    let Some(leant) = at_angle(along, up, PI - does).filter(|_| (does - asked).abs() > 1e-12) else {
        return (hip, up);
    };
    let back = support(design, SupportKind::Back).filter(|_| does < asked);
    let slid = back.map_or(0.0, |b| slid((b.from, b.to), (hip, along, up), leant, lengths.trunk));
    notes.assumptions.push(Assumed::HipHeld { back: asked - does, slid });
    (hip + along * slid, leant)
}

/// How far ahead the pelvis slides until a trunk that leans back further touches the upper edge of the back support, or
/// its shoulders touch it, as deep in the body as it lay along it.
fn slid((from, to): (Vec3, Vec3), (hip, along, up): (Vec3, Vec3, Vec3), leant: Vec3, trunk: f64) -> f64 {
    let (before, now) = (Vec3::Y.cross(up), Vec3::Y.cross(leant));
    let deep = (hip - from).dot(before);
    let edge = to - up * ((to - hip).dot(up) - trunk).max(0.0);
    let goes = now.dot(along);
    if goes < 0.1 { 0.0 } else { ((deep - now.dot(hip - edge)) / goes).max(0.0) }
}

/// Ankle and tip of the foot as far as knee and ankle go; `drawn` is where the chair wants them, `asked` how it bends both.
pub(super) fn lower(
    rider: &Rider,
    (side, end): (Side, LegEnd),
    (knee, along): (Vec3, Vec3),
    drawn: (Vec3, Vec3),
    asked: (f64, f64),
) -> (Vec3, Vec3) {
    let of = |joint: JointName, there: bool| if there { range(rider, joint, Some(side)) } else { None };
    let (knee_range, ankle_range) =
        (of(JointName::Knee, has_knee(end)), of(JointName::Ankle, end == LegEnd::Whole));
    if beyond(knee_range, asked.0).is_none() && beyond(ankle_range, asked.1).is_none() {
        return drawn;
    }
    let (down, forward) = (drawn.0 - knee, drawn.1 - drawn.0);
    let shank = at_angle(along, down, held(knee_range, asked.0)).unwrap_or(along);
    let ankle = knee + shank * down.norm();
    let foot = at_angle(-shank, forward, FRAC_PI_2 - held(ankle_range, asked.1)).unwrap_or(shank);
    (ankle, ankle + foot * forward.norm())
}

#[cfg(test)]
mod tests {
    use super::*;

    const DEGREE: f64 = PI / 180.0;

    /// By hand: seat level, back upright and 450 mm tall, hip joint 125 mm ahead and 85 mm up. Leaning 10 degrees further the
    /// trunk's line has its front side along (0.98481, 0.17365); from the back's upper edge to the hip joint it is (125, -365):
    /// 123.10 - 63.38 = 59.72 mm; 125 - 59.72 = 65.28 are lacking, over 0.98481 along the seat: 66.29 mm.
    #[test]
    fn the_pelvis_slides_until_the_trunk_touches() {
        let back = (Vec3::ZERO, Vec3::new(0.0, 0.0, 0.45));
        let leant = Vec3::new(-libm::sin(10.0 * DEGREE), 0.0, libm::cos(10.0 * DEGREE));
        let hip = Vec3::new(0.125, 0.0, 0.085);
        let far = slid(back, (hip, Vec3::X, Vec3::Z), leant, 0.5);
        assert!((far - 0.06629).abs() < 2e-5, "{far}");
    }

    /// Thigh level, a knee that bends 30 degrees where 90 are asked: the shank points 30 degrees below level, its end at
    /// 400 cos 30 = 346.4 ahead and 200 below; the square foot goes on 60 degrees up from level.
    #[test]
    fn a_stiff_knee_lifts_the_foot() {
        let mut rider = Rider::default();
        for (k, v) in [("knee_flexion.left.least", 20.0), ("knee_flexion.left.most", 30.0)] {
            rider.measures.insert(k.to_owned(), v * DEGREE);
        }
        let drawn = (Vec3::new(0.0, 0.0, -0.4), Vec3::new(0.25, 0.0, -0.4));
        let side = (Side::Left, LegEnd::Whole);
        let (ankle, toe) = lower(&rider, side, (Vec3::ZERO, Vec3::X), drawn, (FRAC_PI_2, 0.0));
        assert!((ankle - Vec3::new(0.3464, 0.0, -0.2)).norm() < 1e-4, "{ankle:?}");
        assert!((toe - ankle - Vec3::new(0.125, 0.0, 0.2165)).norm() < 1e-4, "{toe:?}");
    }
}
