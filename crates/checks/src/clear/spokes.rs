//! The face of a fixed wheel, spokes or disc, against what stands beside it.
//!
//! One spoke from the hub's end to the rim is turned all around, in pieces: near the hub it passes what carries the wheel,
//! and further out it may still stand in the band. Whether a wheel has spokes or a disc nobody says; both shear.

use crate::clear::convex::{Axis, Convex, Support};
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
/// Angles at which a spoke is looked at before its least gap is searched for.
const LOOKS: u32 = 16;
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
    let slab = wheel.hub / 2.0 + MOVING.1;
    let beside = |p: &Convex| {
        let out = |way: Vec3| (p.furthest(way) - wheel.at).dot(wheel.axle);
        out(-wheel.axle) < slab && out(wheel.axle) > -slab
    };
    let reach = |p: &Convex| (p.middle - whole.middle).norm() - p.radius < whole.radius + MOVING.1;
    let far = |p: &Convex| matches!(apart(p, &whole, MOVING.1), Apart::By { least, .. } if least >= MOVING.1);
    let near = |p: &Convex| reach(p) && beside(p) && !far(p);
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

/// The narrowest gap in the band between the spokes and one part, if it is below `beat` and open. A spoke that keeps above
/// the band's lower end needs no pieces.
fn passes(wheel: &Wheel, part: &Convex, things: &[Thing<'_>], beat: f64) -> Option<f64> {
    let out = |way: Vec3| (part.furthest(way) - wheel.at).dot(wheel.axle);
    let (inmost, outmost) = (out(-wheel.axle), out(wheel.axle));
    let sides = [(-1.0, inmost < 0.0), (1.0, outmost > 0.0)];
    let mut best: Option<f64> = None;
    for side in sides.into_iter().filter(|(_, there)| *there).map(|(side, _)| side) {
        let ends = |from: f64, to: f64| [at(wheel, side, from), at(wheel, side, to)];
        let found = match turned(wheel, ends(0.0, 1.0), part, things, best.unwrap_or(beat)) {
            Passing::Far => None,
            Passing::At(gap) => Some(gap),
            Passing::Elsewhere => {
                let share = |k: u32| f64::from(k) / f64::from(PIECES);
                let pieces = (0..PIECES).map(|k| ends(share(k), share(k + 1)));
                pieces.fold(None, |least: Option<f64>, piece| {
                    match turned(wheel, piece, part, things, least.or(best).unwrap_or(beat)) {
                        Passing::At(gap) => Some(gap),
                        _ => least,
                    }
                })
            }
        };
        best = found.or(best);
    }
    best
}

/// How a stretch of a spoke passes a part.
enum Passing {
    /// No nearer than it has to be.
    Far,
    /// With an open gap in the band.
    At(f64),
    /// Nearer than the band, or with something in between: another stretch may still be in it.
    Elsewhere,
}

fn turned(wheel: &Wheel, ends: [Vec3; 2], part: &Convex, things: &[Thing<'_>], beat: f64) -> Passing {
    let wire = Convex::points(ends.to_vec(), WIRE);
    let turning = Turning::new(&wire, Axis { through: wheel.at, along: wheel.axle }, 1.0);
    if turning.is_beyond(part, beat) {
        return Passing::Far;
    }
    // what carries the wheel is met at once; how deep need not be searched for
    let meets = |k: u32| {
        let there = turning.at(std::f64::consts::TAU * f64::from(k) / f64::from(LOOKS));
        let balls = (there.middle - part.middle).norm() - there.radius - part.radius;
        balls < MOVING.0
            && !matches!(apart(&there, part, MOVING.0), Apart::By { least, .. } if least >= MOVING.0)
    };
    if (0..LOOKS).any(meets) {
        return Passing::Elsewhere;
    }
    let Some(least) = turning.least(part, beat) else { return Passing::Far };
    if least.gap < MOVING.0 {
        return Passing::Elsewhere;
    }
    let there = turning.at(least.angle.unwrap_or(0.0));
    let Apart::By { on, .. } = apart(&there, part, MOVING.1) else { return Passing::Elsewhere };
    match filled(things.iter().flat_map(|t| &t.parts), on.0.mix(on.1, 0.5)) {
        true => Passing::Elsewhere,
        false => Passing::At(least.gap),
    }
}
