//! What stands where a wheel turns: inside its spokes, or in another wheel.

use crate::clear::convex::Convex;
use crate::clear::depth::gap;
use crate::clear::scene::{Kind, Thing};
use crate::clear::trouble::Trouble;
use crate::clear::wheels::TOUCHES;
use chairwright_design::{Design, Vec3, Wheel};
use std::f64::consts::TAU;

/// Corners that stand for a rim's circle, all on it: what is between them and the circle is left out.
const CORNERS: u32 = 48;
/// What comes this near to the axle's line is the axle, or what holds it. Common practice, no source.
const AT_AXLE: f64 = 0.030;

/// The room that spokes surely take as they turn: from the rim to the faces of the hub on the axle's line.
fn spokes(at: Vec3, axle: Vec3, rim: f64, hub: f64) -> Convex {
    let side = axle.any_across();
    let other = axle.cross(side);
    let corner = |k: u32| {
        let (s, c) = libm::sincos(TAU * f64::from(k) / f64::from(CORNERS));
        at + (side * c + other * s) * rim
    };
    let faces = [-0.5, 0.5].map(|half| at + axle * (hub * half));
    Convex::points((0..CORNERS).map(corner).chain(faces).collect(), 0.0)
}

/// The hub about its axle's line, as thick as an axle and what holds it.
fn hub(wheel: &Wheel) -> Convex {
    Convex::cylinder(wheel.at, wheel.axle, wheel.hub / 2.0, AT_AXLE)
}

/// Whether a part counts: an axle turns nothing off, a lock is drawn as it is thrown, and what a frame puts to the hub carries it.
fn counts(wheel: &Wheel, kind: Kind, part: &Convex) -> bool {
    match kind {
        Kind::Axle | Kind::Brake => false,
        Kind::Frame => meets(&hub(wheel), part).is_none(),
        Kind::On | Kind::Soft | Kind::Footrest => true,
    }
}

/// How deep two bodies stand in each other, if they do.
fn meets(one: &Convex, other: &Convex) -> Option<f64> {
    let near = (one.middle - other.middle).norm() < one.radius + other.radius;
    near.then(|| -gap(one, other, 0.0).size).filter(|depth| *depth > TOUCHES)
}

/// What stands inside the wheels, the deepest of each, and wheels that stand in each other.
pub(crate) fn within(design: &Design, things: &[Thing<'_>], troubles: &mut Vec<Trouble>) {
    for (k, wheel) in design.wheels.iter().enumerate() {
        let room = spokes(wheel.at, wheel.axle, (wheel.radius - wheel.tyre).max(0.0), wheel.hub);
        let parts = things.iter().flat_map(|t| t.parts.iter().map(move |p| (t.name, t.kind, p)));
        let counted = parts.filter(|(_, kind, p)| meets(&room, p).is_some() && counts(wheel, *kind, p));
        let deep = counted.filter_map(|(name, _, p)| Some((meets(&room, p)?, name.to_owned(), false)));
        let disc = |w: &Wheel| Convex::disc(w.at, w.axle, w.radius, w.tyre / 2.0);
        let later = design.wheels[k + 1..].iter();
        let wheels = later.filter_map(|w| Some((meets(&disc(wheel), &disc(w))?, w.name.clone(), true)));
        let by_depth = |a: &(f64, String, bool), b: &(f64, String, bool)| a.0.total_cmp(&b.0);
        let found = deep.max_by(by_depth).into_iter().chain(wheels.max_by(by_depth));
        troubles.extend(found.map(|(depth, body, is_wheel)| Trouble::WheelBlocked {
            wheel: wheel.name.clone(),
            origin: wheel.origin,
            body,
            is_wheel,
            depth,
        }));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Half way from a hub of 100 mm to a rim of 270 mm the spokes are 25 mm from the wheel's plane.
    #[test]
    fn spokes_lean_from_the_hub_to_the_rim() {
        let room = spokes(Vec3::ZERO, Vec3::Y, 0.27, 0.1);
        let ball = |y: f64| Convex::points(vec![Vec3::new(0.135, y, 0.0)], 0.005);
        assert!(meets(&room, &ball(0.027)).is_some());
        assert!(meets(&room, &ball(0.033)).is_none());
    }
}
