//! Holes and slots: which piece each goes through, and where on it.

use crate::Frame;
use crate::problem::Problem;
use crate::wood::{axes, half_along};
use chairwright_design::{Design, Hole, Side, Vec3, heading};
use std::collections::BTreeSet;

/// A hole in a piece to cut.
#[derive(Clone, PartialEq, Debug)]
pub struct Drilled {
    /// Its name.
    pub name: String,
    /// From the piece's first end to the middle of the hole, in metres.
    pub from_end: f64,
    /// Across, in metres.
    pub diameter: f64,
    /// Length of a slot; equal to the diameter for a hole.
    pub long: f64,
    /// The way the drill goes, in words.
    pub toward: String,
}

/// A drill within this angle of the member's line runs along it rather than across.
const ALONG: f64 = 0.26;

/// A drill that leans less than this from a word is said to go that way.
const EXACT: f64 = 0.045;

/// Drills the pieces.
pub(crate) fn drill(design: &Design, frame: &mut Frame) {
    // a row of holes in one line that goes wrong is said once
    let mut wrong = BTreeSet::new();
    for (index, hole) in design.holes.iter().enumerate() {
        let before = frame.problems.len();
        if across(design, index, hole, frame) {
            place(design, index, hole, frame);
        }
        if frame.problems.len() > before && !wrong.insert(hole.origin) {
            frame.problems.truncate(before);
        }
    }
    meet(design, frame);
}

fn across(design: &Design, index: usize, hole: &Hole, frame: &mut Frame) -> bool {
    let along = axes(design, &design.members[hole.member]).x;
    if hole.toward.across(along).norm() < libm::sin(ALONG) {
        frame.problems.push(Problem::HoleAlong { hole: index });
        return false;
    }
    // the drill needs wood or wall on both sides of it
    let aside = hole.toward.cross(along).unit().unwrap_or(Vec3::Y);
    let room = 2.0 * half_along(design, hole.member, aside);
    if hole.diameter >= room {
        frame.problems.push(Problem::HoleTooWide { hole: index, room });
        return false;
    }
    true
}

fn place(design: &Design, index: usize, hole: &Hole, frame: &mut Frame) {
    let (first, last) = (hole.along - hole.long / 2.0, hole.along + hole.long / 2.0);
    let member = &design.members[hole.member];
    let pieces = frame.pieces.iter_mut().filter(|p| p.of == member.name);
    let found = pieces.filter_map(|p| p.lies.map(|l| (p, l))).find(|(_, l)| first >= l.from && last <= l.to);
    let Some((piece, lies)) = found else {
        frame.problems.push(Problem::HoleMisses { hole: index });
        return;
    };
    piece.holes.push(Drilled {
        name: hole.name.clone(),
        from_end: hole.along - lies.from,
        diameter: hole.diameter,
        long: hole.long,
        toward: way(hole.toward, member.side),
    });
    if first < lies.from + lies.grip[0] || last > lies.to - lies.grip[1] {
        frame.problems.push(Problem::HoleInSocket { hole: index });
    }
}

/// Two holes of one member whose edges meet, whichever way they go; once for two lines of the text.
fn meet(design: &Design, frame: &mut Frame) {
    let mut order: Vec<usize> = (0..design.holes.len()).collect();
    order.sort_by(|a, b| {
        let (a, b) = (&design.holes[*a], &design.holes[*b]);
        a.member.index().cmp(&b.member.index()).then(a.along.total_cmp(&b.along))
    });
    let mut said = BTreeSet::new();
    for pair in order.windows(2) {
        let (first, second) = (pair[0].min(pair[1]), pair[0].max(pair[1]));
        let (a, b) = (&design.holes[first], &design.holes[second]);
        let near = (a.along - b.along).abs() < f64::midpoint(a.long, b.long) - 1e-9;
        if a.member == b.member && near && said.insert((a.origin, b.origin)) {
            frame.problems.push(Problem::HolesMeet { first, second });
        }
    }
}

/// The way of a drill; `about` where it is none of the words exactly.
fn way(v: Vec3, side: Option<Side>) -> String {
    let heading = heading(v, side);
    if heading.lean.0 < EXACT { heading.word.to_owned() } else { format!("about {}", heading.word) }
}
