//! The chair's underside from the side: for every solid the lower outline of its shadow on the middle plane.

use crate::body::{RiderBody, support};
use crate::feet::{Foot, hangs, on_the_floor};
use chairwright_design::{Design, SupportKind, Vec3};
use chairwright_frame::{Frame, Group, Settled, Solid};
use rayon::prelude::*;

/// Directions around the downward half turn that every solid is touched from.
const TURNS: u32 = 12;
/// Long edges are looked at every so many metres.
const PACE: f64 = 0.010;

/// The lower outline of one body, from the rear forward: forward and up, in metres.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Under<'a> {
    /// The body's name.
    pub name: &'a str,
    /// Points on it.
    pub points: Vec<(f64, f64)>,
}

/// Undersides of everything but wheels and casters. Rounds are drawn slightly too large, never too small.
pub(crate) fn undersides<'a>(frame: &'a Frame, settled: &Settled) -> Vec<Under<'a>> {
    let bodies = frame.bodies.par_iter().filter(|b| !matches!(b.group, Group::Wheel | Group::Caster));
    bodies
        .filter(|b| !b.solids.is_empty())
        .map(|b| {
            let mut points = Vec::new();
            b.solids.iter().for_each(|s| pace(&chain(s, settled), &mut points));
            Under { name: b.name.as_str(), points }
        })
        .collect()
}

/// The tips of the soles: the toes stand over the edge of the foot support, or hang. Feet that push or steer are on the floor on
/// purpose, and lifted where it rises.
pub(crate) fn soles(design: &Design, settled: &Settled, rider: &RiderBody, feet: &[Foot]) -> Vec<(f64, f64)> {
    let carried = support(design, SupportKind::Footrest).is_some();
    if !carried && on_the_floor(design) {
        return Vec::new();
    }
    let tip = |foot: &Foot| {
        let at = settled.pose.place(foot.toe());
        let leg = rider.legs.iter().find(|l| l.side == foot.side && !carried && l.moves.is_none());
        let low = leg.and_then(|leg| hangs(design, settled, rider, leg));
        (at.x, low.map_or(at.z, |low| low.min(at.z)))
    };
    feet.iter().map(tip).collect()
}

/// The shadow's lower outline as where neighbouring tangents cross: corners exactly, rounds from outside.
fn chain(solid: &Solid, settled: &Settled) -> Vec<(f64, f64)> {
    let edges = edges(solid);
    let mut turns: Vec<f64> = Vec::with_capacity(TURNS as usize + 1 + edges.len());
    turns.extend((0..=TURNS).map(|k| f64::from(k) * std::f64::consts::PI / f64::from(TURNS)));
    for edge in edges {
        let e = settled.pose.turn(edge);
        if libm::hypot(e.x, e.z) > 1e-9 {
            // the downward normal of the edge, as a turn from backward over down to forward
            let (x, z) = if e.x >= 0.0 { (e.z, -e.x) } else { (-e.z, e.x) };
            turns.push(libm::atan2(-z, -x));
        }
    }
    turns.retain(|t| (-1e-12..=std::f64::consts::PI + 1e-12).contains(t));
    turns.sort_by(f64::total_cmp);
    turns.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    let mut out = Vec::with_capacity(turns.len());
    let mut before = None;
    for t in turns {
        let (s, c) = libm::sincos(t);
        let d = Vec3::new(-c, 0.0, -s);
        let line = (-c, -s, solid.reach(settled.pose.unturn(d)) + settled.pose.origin.dot(d));
        out.extend(before.and_then(|before| crossing(before, line)));
        before = Some(line);
    }
    out
}

fn crossing(a: (f64, f64, f64), b: (f64, f64, f64)) -> Option<(f64, f64)> {
    let det = a.0 * b.1 - a.1 * b.0;
    (det.abs() > 1e-9).then(|| ((a.2 * b.1 - a.1 * b.2) / det, (a.0 * b.2 - a.2 * b.0) / det))
}

/// Directions of the straight edges of a solid.
fn edges(solid: &Solid) -> Vec<Vec3> {
    match solid {
        Solid::Bar { from, to, .. } => vec![*to - *from],
        Solid::Brick { axes, .. } => vec![axes.x, axes.y, axes.z],
        Solid::Prism { outline, along } => {
            let next = outline.iter().cycle().skip(1);
            let mut all: Vec<Vec3> = outline.iter().zip(next).map(|(a, b)| *b - *a).collect();
            all.push(*along);
            all
        }
        Solid::Ring { .. } => Vec::new(),
    }
}

/// Adds the outline with points set along its long edges.
fn pace(chain: &[(f64, f64)], out: &mut Vec<(f64, f64)>) {
    out.extend(chain.first());
    for w in chain.windows(2) {
        let (a, b) = (w[0], w[1]);
        let (ahead, up) = (b.0 - a.0, b.1 - a.1);
        // rounds are made of short ones, which need no root
        let short = ahead.abs() + up.abs() < 0.9 * PACE;
        let length = if short { 0.0 } else { libm::hypot(ahead, up) };
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let n = (length / PACE).ceil().clamp(1.0, 200.0) as u32;
        out.extend((1..=n).map(|k| {
            let t = f64::from(k) / f64::from(n);
            (a.0 + (b.0 - a.0) * t, a.1 + (b.1 - a.1) * t)
        }));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use chairwright_design::Frame3;

    fn flat() -> Settled {
        Settled { pose: Frame3::IDENTITY, pitch: 0.0, roll: 0.0, contacts: Vec::new(), rock: 0.0 }
    }

    /// A brick's corners are met exactly; a level rail of 40 mm lies 20 mm below its middle.
    #[test]
    fn corners_are_exact_and_rounds_are_not_smaller() {
        let axes = Frame3 { origin: Vec3::new(1.0, 0.0, 0.5), ..Frame3::IDENTITY };
        let brick = Solid::Brick { axes, half: Vec3::new(0.2, 0.1, 0.1) };
        for (x, z) in chain(&brick, &flat()) {
            let corner = (x - 0.8).abs() < 1e-9 || (x - 1.2).abs() < 1e-9;
            assert!((z - 0.4).abs() < 1e-9 && corner, "{x} {z}");
        }
        let (from, to) = (Vec3::new(0.0, 0.0, 0.3), Vec3::new(0.4, 0.0, 0.2));
        let rail = Solid::Bar { from, to, outer: 0.02, inner: 0.0 };
        let deepest = chain(&rail, &flat()).iter().map(|p| p.1).fold(f64::INFINITY, f64::min);
        // lowest point of a sloping bar's end disc: 0.2 - 0.02 cos(atan(1/4))
        let exact = 0.2 - 0.02 * libm::cos(libm::atan(0.25));
        assert!(deepest <= exact + 1e-12 && deepest > exact - 0.002, "{deepest} against {exact}");
    }
}
