//! Holes that stay open and catch a child's finger.
//!
//! A hole is filled where something else of the chair stands in its middle: a fitting, a bar through it, an axle or a stem.
//! Where bolts or pins hold something to the member is not drawn: so many of its holes as they are, and that they fit, may be
//! filled, and the rest are open.

use crate::clear::convex::Convex;
use crate::clear::distance::{Apart, apart};
use crate::clear::fingers::FIXED;
use crate::clear::scene::Thing;
use crate::clear::trouble::Trouble;
use chairwright_design::{Design, Hole, Vec3};

/// A point has no size; this stands for it.
const POINT: f64 = 0.0005;
/// How far along its line an axle or a stem is looked for, in metres. Common practice, no source.
const SHANK: f64 = 0.20;

/// Tells every line of the text whose holes lie in the band and stay open.
pub(crate) fn open(design: &Design, things: &[Thing<'_>], troubles: &mut Vec<Trouble>) {
    let in_band = |h: &&Hole| (FIXED.0 - 1e-6..FIXED.1 - 1e-6).contains(&h.diameter);
    let holes: Vec<&Hole> =
        design.holes.iter().filter(in_band).filter(|h| !filled(design, things, h)).collect();
    let mut rest = &holes[..];
    while let Some(first) = rest.first() {
        let same = |h: &&Hole| h.origin == first.origin && h.member == first.member;
        let row = rest.iter().take_while(|h| same(h)).count();
        rest = &rest[row..];
        let bolts = bolts(design, first);
        let all = holes.iter().filter(|h| h.member == first.member).count();
        if bolts < all {
            troubles.push(Trouble::FingerHole {
                hole: first.name.clone(),
                count: row,
                bolts,
                member: design.members[first.member].name.clone(),
                origin: first.origin,
                across: first.diameter,
                slot: first.long > first.diameter + 1e-9,
                band: FIXED,
            });
        }
    }
}

/// The middle of a hole, on the line of its member.
pub(super) fn middle(design: &Design, hole: &Hole) -> Option<Vec3> {
    let member = &design.members[hole.member];
    let (from, to) = (design.joints[member.start].at, design.joints[member.end].at);
    Some(from + (to - from).unit()? * hole.along)
}

/// Whether something goes through a hole, or covers it from inside or all round.
fn filled(design: &Design, things: &[Thing<'_>], hole: &Hole) -> bool {
    let Some(at) = middle(design, hole) else { return false };
    let own = &design.members[hole.member].name;
    let of_own =
        |name: &str| name.strip_prefix(own.as_str()).is_some_and(|r| r.is_empty() || r.starts_with('.'));
    let dot = Convex::points(vec![at], POINT);
    let inside = |p: &Convex| match apart(p, &dot, FIXED.1) {
        Apart::By { least, .. } => least <= 0.0,
        Apart::Overlap(_) => true,
    };
    let others = things.iter().filter(|t| !of_own(t.name)).flat_map(|t| &t.parts);
    let axles = design.wheels.iter().map(|w| (w.at, w.axle));
    let stems = design.casters.iter().map(|c| (c.at, c.stem));
    others.filter(|p| (p.middle - at).norm() <= p.radius + POINT).any(inside)
        || axles.chain(stems).any(|(from, way)| along(at, from, way, hole))
}

/// Whether a shank along a line from a point goes through a hole the way it is drilled.
fn along(at: Vec3, from: Vec3, way: Vec3, hole: &Hole) -> bool {
    let (Some(way), Some(drill)) = (way.unit(), hole.toward.unit()) else { return false };
    let far = at - from;
    far.across(way).norm() <= hole.long / 2.0 && far.norm() <= SHANK && way.dot(drill).abs() > 0.95
}

/// How many bolts, screws and pins that fit the hole hold something to its member, or close its joints.
fn bolts(design: &Design, hole: &Hole) -> usize {
    let member = &design.members[hole.member];
    let held = design.fastenings.iter().filter(|f| f.what == member.name || f.to == member.name);
    let closed = design.closings.iter().filter(|c| c.joint == member.start || c.joint == member.end);
    let all = held.map(|f| &f.fasteners).chain(closed.map(|c| &c.fasteners)).flatten();
    let fits = |name: &str| {
        design.fastener(name).is_some_and(|f| {
            f.length > 0.0 && f.diameter <= hole.diameter + 1e-6 && !matches!(f.kind.as_str(), "nut" | "washer")
        })
    };
    all.filter(|(name, _)| fits(name)).map(|(_, n)| *n as usize).sum()
}
