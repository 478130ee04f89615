//! Holes in the drawings: a circle with a cross where the drill goes toward the eye, its centre line where it goes across.

use crate::paint::circle;
use crate::patch::{Patch, Surface};
use crate::scene::pose;
use crate::view::View;
use chairwright_design::{Frame3, Hole, Vec3};
use chairwright_driver::Compilation;
use chairwright_frame::half_along;

/// A drill that leans less than this from the eye is drawn as a circle: the cosine of 37 degrees.
const FACING: f64 = 0.8;

/// Marks of every hole that is in a piece, to be painted among the solids.
pub(crate) fn holes(c: &Compilation, view: View) -> Vec<Patch> {
    let pose = pose(c);
    let drilled = |h: &&Hole| c.frame.pieces.iter().any(|p| p.holes.iter().any(|d| d.name == h.name));
    c.design.holes.iter().filter(drilled).flat_map(|h| mark(c, view, &pose, h)).collect()
}

fn mark(c: &Compilation, view: View, pose: &Frame3, hole: &Hole) -> Vec<Patch> {
    let d = &c.design;
    let member = &d.members[hole.member];
    let start = d.joints[member.start].at;
    let way = (d.joints[member.end].at - start).unit().unwrap_or(Vec3::X);
    // a lapped board lies beside the line between its joints
    let own = |b: &&chairwright_frame::Body| {
        c.frame.pieces.iter().any(|p| p.name == b.name && p.holes.iter().any(|x| x.name == hole.name))
    };
    let beside = c.frame.bodies.iter().find(own).map_or(Vec3::ZERO, |b| (b.centre - start).across(way));
    let middle = pose.place(start + way * hole.along + beside);
    let (along, toward) = (pose.turn(way), pose.turn(hole.toward));
    let eye = view.eye();
    let drill = half_along(d, hole.member, hole.toward);
    let lines = |lines: Vec<[Vec3; 2]>, near: f64| Patch {
        lines: lines.into_iter().map(|l| l.map(|p| view.project(p).0)).collect(),
        ..Patch::filled(Vec::new(), Surface::level(near), near, "axis", &hole.name)
    };
    if toward.dot(eye).abs() > FACING {
        let out = if toward.dot(eye) < 0.0 { -toward } else { toward };
        let face = middle + out * drill;
        let near = view.project(face).1 + 0.05;
        let shift = along * ((hole.long - hole.diameter) / 2.0);
        let mut ring = circle(face, toward, hole.diameter / 2.0, 24);
        for p in &mut ring {
            *p = *p + if (*p - face).dot(along) > 0.0 { shift } else { -shift };
        }
        let ring: Vec<_> = ring.into_iter().map(|p| view.project(p).0).collect();
        let arm = hole.diameter * 0.9;
        let aside = along.cross(toward).unit().unwrap_or(Vec3::Z);
        let cross = vec![
            [face - shift - along * arm, face + shift + along * arm],
            [face - aside * arm, face + aside * arm],
        ];
        let mark = Patch::filled(vec![ring], Surface::level(near), near, "hole", &hole.name);
        return vec![mark, lines(cross, near + 0.01)];
    }
    // across the picture: its centre line, over the piece and a little beyond
    let reach = toward * (drill + 0.006);
    let near = view.project(middle).1 + half_along(d, hole.member, pose.unturn(eye)) * 1e3 + 0.05;
    vec![lines(vec![[middle - reach, middle + reach]], near)]
}
