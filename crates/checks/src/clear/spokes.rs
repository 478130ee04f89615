//! The face of a fixed wheel, spokes or disc, against what stands beside it.
//!
//! One spoke from the hub's end to the rim is turned all around, in pieces: near the hub it passes what carries the wheel,
//! and further out it may still stand in the band. Whether a wheel has spokes or a disc nobody says; both shear.

use crate::clear::convex::{Axis, Convex};
use crate::clear::distance::{Apart, apart};
use crate::clear::fingers::MOVING;
use crate::clear::near::filled;
use crate::clear::scene::{Kind, Thing};
use crate::clear::sweep::Turning;
use crate::clear::wheels::Between;
use chairwright_design::{Vec3, Wheel};

/// Radius at which spokes leave the hub. From memory, not checked: flanges of bicycle hubs are 40 to 60 mm across.
const FLANGE: f64 = 0.025;
/// Half the thickness of a spoke: wire of 2 mm. From memory, not checked.
const WIRE: f64 = 0.001;
/// Pieces of a spoke.
const PIECES: u32 = 4;

/// Where a spoke is at a share of its length, on one side of the wheel: the flange counts as standing at the hub's end,
/// which is the nearest that it can be to what stands beside it.
fn at(wheel: &Wheel, side: f64, share: f64) -> Vec3 {
    let rim = (wheel.radius - wheel.tyre).max(FLANGE);
    let up = wheel.axle.any_across() * (FLANGE + (rim - FLANGE) * share);
    wheel.at + up + wheel.axle * (side * (wheel.hub / 2.0 - WIRE).max(0.0) * (1.0 - share))
}

/// Everything that both rows of spokes pass.
fn passed(wheel: &Wheel) -> Convex {
    let rim = (wheel.radius - wheel.tyre).max(FLANGE);
    let disc = |half: f64, radius: f64| Convex::cylinder(wheel.at, wheel.axle, half, radius);
    Convex::around(vec![disc(wheel.hub / 2.0, FLANGE), disc(WIRE, rim)])
}

/// The narrowest gap in the band between the spokes of one wheel and the chair.
pub(crate) fn spokes(wheel: &Wheel, things: &[Thing<'_>]) -> Between {
    let whole = passed(wheel);
    let reach = |p: &Convex| (p.middle - whole.middle).norm() - p.radius < whole.radius + MOVING.1;
    let near = |p: &Convex| {
        reach(p) && !matches!(apart(p, &whole, MOVING.1), Apart::By { least, .. } if least >= MOVING.1)
    };
    let hard = things.iter().filter(|t| matches!(t.kind, Kind::Frame | Kind::On | Kind::Footrest));
    let candidates = hard.flat_map(|t| t.parts.iter().map(move |p| (t.name, p))).filter(|(_, p)| near(p));
    let mut best: Between = None;
    for (name, part) in candidates {
        let beat = best.as_ref().map_or(MOVING.1 - 1e-4, |b| b.0);
        if let Some(gap) = passes(wheel, part, things, beat) {
            best = Some((gap, wheel.name.clone(), name.to_owned()));
        }
    }
    best
}

/// The narrowest gap in the band between the spokes and one part, if it is below `beat` and open.
fn passes(wheel: &Wheel, part: &Convex, things: &[Thing<'_>], beat: f64) -> Option<f64> {
    let axis = Axis { through: wheel.at, along: wheel.axle };
    let share = |k: u32| f64::from(k) / f64::from(PIECES);
    let mut best: Option<f64> = None;
    for (side, k) in [-1.0, 1.0].into_iter().flat_map(|s| (0..PIECES).map(move |k| (s, k))) {
        let piece = Convex::points(vec![at(wheel, side, share(k)), at(wheel, side, share(k + 1))], WIRE);
        let turning = Turning::new(&piece, axis, 1.0);
        let Some(least) = turning.least(part, best.unwrap_or(beat)).filter(|l| l.gap >= MOVING.0) else {
            continue;
        };
        let there = turning.at(least.angle.unwrap_or(0.0));
        let Apart::By { on, .. } = apart(&there, part, MOVING.1) else { continue };
        if !filled(things.iter().flat_map(|t| &t.parts), on.0.mix(on.1, 0.5)) {
            best = Some(least.gap);
        }
    }
    best
}
