//! What stands where a wheel turns: inside its spokes, or in another wheel.

use crate::clear::convex::{Convex, Support};
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

/// A way out is halved so often: to less than a hundredth of a millimetre.
const HALVINGS: u32 = 20;

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

/// Whether a part counts: what goes along the axle turns with the wheel or carries it, a lock is drawn as it is thrown, and what
/// of the frame reaches the hub holds it.
fn counts(wheel: &Wheel, kind: Kind, part: &Convex) -> bool {
    let hub = || Convex::cylinder(wheel.at, wheel.axle, wheel.hub / 2.0, AT_AXLE);
    match kind {
        Kind::Axle | Kind::Brake => false,
        Kind::Frame => meets(&hub(), part).is_none(),
        Kind::On | Kind::Soft | Kind::Footrest => true,
    }
}

/// How deep two bodies stand in each other, if they do.
fn meets(one: &Convex, other: &Convex) -> Option<f64> {
    let near = (one.middle - other.middle).norm() < one.radius + other.radius;
    near.then(|| -gap(one, other, 0.0).size).filter(|depth| *depth > TOUCHES)
}

/// The least way along a line, either way, that takes one body out of another.
fn way_out(one: &Convex, other: &Convex, line: Vec3) -> f64 {
    let free = |by: f64| gap(one, &other.moved(line * by), 0.0).size >= 0.0;
    let least = |sign: f64| {
        // nothing that meets is further away than both are large
        let (mut low, mut high) = (0.0, 2.0 * (one.radius + other.radius));
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if free(sign * middle) { high = middle } else { low = middle }
        }
        high
    };
    least(1.0).min(least(-1.0))
}

/// What stands inside the wheels, the deepest of each, and wheels that stand in each other.
pub(crate) fn within(design: &Design, things: &[Thing<'_>], troubles: &mut Vec<Trouble>) {
    let disc = |w: &Wheel| Convex::disc(w.at, w.axle, w.radius, w.tyre / 2.0);
    for (k, wheel) in design.wheels.iter().enumerate() {
        let room = spokes(wheel.at, wheel.axle, (wheel.radius - wheel.tyre).max(0.0), wheel.hub);
        // what lies wholly beside the faces of the hub meets nothing between them
        let within = |p: &Convex| {
            let out = |way: Vec3| (p.furthest(way) - wheel.at).dot(wheel.axle);
            out(-wheel.axle) < wheel.hub / 2.0 && out(wheel.axle) > -wheel.hub / 2.0
        };
        let parts = things.iter().flat_map(|t| t.parts.iter().map(move |p| (t, p)));
        let parts = parts.filter(|(_, p)| within(p));
        let met = parts.filter_map(|(t, p)| Some((meets(&room, p)?, t, p)));
        let deep = met.filter(|(_, t, p)| counts(wheel, t.kind, p)).max_by(|a, b| a.0.total_cmp(&b.0));
        let part = deep.map(|(depth, t, p)| (depth, t.name, false, way_out(&room, p, wheel.axle)));
        let mine = disc(wheel);
        let others = design.wheels[k + 1..].iter().map(|w| (w, disc(w)));
        let met = others.filter_map(|(w, d)| Some((meets(&mine, &d)?, w, d)));
        let other = met.max_by(|a, b| a.0.total_cmp(&b.0));
        let other = other.map(|(depth, w, d)| (depth, w.name.as_str(), true, way_out(&mine, &d, wheel.axle)));
        troubles.extend(part.into_iter().chain(other).map(|(depth, body, is_wheel, out)| {
            Trouble::WheelBlocked {
                wheel: wheel.name.clone(),
                origin: wheel.origin,
                body: body.to_owned(),
                is_wheel,
                depth,
                out,
            }
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

    /// A plate of 20 mm lies in the plane of a disc of 20 mm: half of both along the axle is 20 mm, though from the disc's edge it would be out
    /// sooner sideways.
    #[test]
    fn a_plate_comes_out_along_the_axle() {
        let disc = Convex::disc(Vec3::ZERO, Vec3::Y, 0.27, 0.01);
        let plate = Convex::cylinder(Vec3::new(0.24, 0.0, 0.0), Vec3::Y, 0.01, 0.05);
        assert!((way_out(&disc, &plate, Vec3::Y) - 0.02).abs() < 1e-5);
    }
}
