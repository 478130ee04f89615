//! What rides along further away than anything hangs on a chair: most often a slipped unit.

use crate::RiderBody;
use crate::clear::{Convex, convex, gap};
use crate::problem::Problem;
use chairwright_design::{Design, ItemKind, Origin, Vec3};
use chairwright_frame::{Body, Frame};

/// The middle of a bag, a tray or a child on the lap is nearer than this to something of the chair or to the middle of some
/// part of the rider. Common practice, no source: no strap and no arm is as long.
const AWAY: f64 = 1.0;

pub(crate) fn far_off(design: &Design, frame: &Frame, rider: Option<&RiderBody>, problems: &mut Vec<Problem>) {
    let carried = design.carried.iter().map(|c| (&c.name, c.at, c.origin));
    let bags = design.items.iter().filter(|i| i.kind == ItemKind::Bag).map(|i| (&i.name, i.at, i.origin));
    let all: Vec<(&String, Vec3, Origin)> = carried.chain(bags).collect();
    let rides = |b: &Body| all.iter().any(|(name, ..)| **name == b.name);
    let chair: Vec<&Body> = frame.bodies.iter().filter(|b| !rides(b)).collect();
    if chair.is_empty() {
        return;
    }
    for (name, at, origin) in &all {
        let segments = rider.iter().flat_map(|r| &r.segments).map(|s| (s.centre - *at).norm());
        let away = chair.iter().map(|b| from(b, *at)).chain(segments).fold(f64::INFINITY, f64::min);
        if away > AWAY {
            let (name, origin) = ((*name).clone(), *origin);
            problems.push(Problem::FarOff { name, origin, away, most: AWAY });
        }
    }
}

/// How far a place is from a body.
fn from(body: &Body, at: Vec3) -> f64 {
    let point = Convex::points(vec![at], 0.0);
    let parts = body.solids.iter().flat_map(convex);
    let nearest = parts.map(|p| gap(&p, &point, f64::INFINITY).size.max(0.0)).reduce(f64::min);
    nearest.unwrap_or((body.centre - at).norm())
}
