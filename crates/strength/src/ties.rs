//! What the text joins and fastens.

use crate::bar::Bar;
use crate::space::nearest_between;
use crate::structure::{Hold, Loose, Port, Spot, Structure, Tie, TieOf};
use chairwright_design::{Closing, ClosingKind, Design, JointId, MemberId, Vec3};
use chairwright_frame::{Frame, Settled};

/// Parts further apart than this between their faces are not taken for fastened to each other.
const FASTENED: f64 = 0.06;
/// Bars that lie along each other, by the cosine of their angle.
const ALONG: f64 = 0.98;

/// Joints that are closed.
pub(crate) fn joints(design: &Design, frame: &Frame, settled: &Settled, all: &mut Structure) {
    for (joint, _) in design.joints.iter() {
        let spots = spots(design, joint, all);
        if spots.len() < 2 {
            continue;
        }
        let closing = design.closings.iter().find(|c| c.joint == joint);
        let closed = frame.joints.iter().any(|j| j.joint == joint);
        match hold(design, closing, settled) {
            _ if !closed => all.loose.push(Loose::OpenJoint(joint)),
            Some(hold) => all.ties.push(Tie { of: TieOf::Joint(joint), spots, hold }),
            None if matches!(closing.map(|c| &c.kind), Some(ClosingKind::Free(_))) => {
                all.unchecked.push(format!(
                    "{}: left open in the text, taken as holding nothing",
                    design.joints[joint].name
                ));
            }
            None => all.loose.push(Loose::Unfastened(joint)),
        }
    }
}

fn spots(design: &Design, joint: JointId, all: &Structure) -> Vec<Spot> {
    let mut out = Vec::new();
    for (bar, b) in all.bars.iter().enumerate() {
        let crate::bar::Of::Member(id) = b.of else { continue };
        let m = &design.members[id];
        let at = if m.start == joint {
            Some(0.0)
        } else if m.end == joint {
            Some(b.length())
        } else {
            m.middle.iter().find(|k| k.joint == joint).map(|k| k.along)
        };
        out.extend(at.map(|at| Spot::Port(Port { bar, at })));
    }
    out
}

/// How a closing holds; `None` for one that holds nothing.
fn hold(design: &Design, closing: Option<&Closing>, settled: &Settled) -> Option<Hold> {
    let Some(c) = closing else { return Some(Hold::Rigid) };
    let count = fixing(design, &c.fasteners);
    let glued = c.glue.is_some();
    match &c.kind {
        ClosingKind::Fitting(_) => Some(Hold::Rigid),
        ClosingKind::Free(_) => None,
        _ if count == 0 && !glued => None,
        ClosingKind::Lap(lap) if count == 1 && !glued => Some(Hold::Hinge(settled.pose.turn(lap.toward))),
        ClosingKind::Butt { member, .. } if count == 1 && !glued => {
            Some(Hold::Hinge(settled.pose.turn(way(design, *member))))
        }
        _ => Some(Hold::Rigid),
    }
}

fn way(design: &Design, id: MemberId) -> Vec3 {
    let m = &design.members[id];
    (design.joints[m.end].at - design.joints[m.start].at).unit().unwrap_or(Vec3::X)
}

/// How many fasteners go through: nuts and washers come with their bolt.
pub(crate) fn fixing(design: &Design, list: &[(String, u32)]) -> u32 {
    let fold = chairwright_design::fold;
    let kind = |name: &str| design.fasteners.iter().find(|f| fold(&f.name) == fold(name));
    let through =
        |name: &str| kind(name).is_none_or(|f| matches!(f.kind.as_str(), "screw" | "bolt" | "rivet" | ""));
    list.iter().filter(|(name, _)| through(name)).map(|(_, n)| *n).sum()
}

/// Bars that are fastened to bars; sheets and bought parts are looked at elsewhere.
pub(crate) fn fastenings(design: &Design, settled: &Settled, all: &mut Structure) {
    for (index, f) in design.fastenings.iter().enumerate() {
        let (Some(a), Some(b)) = (all.bar_named(&f.what), all.bar_named(&f.to)) else { continue };
        let count = fixing(design, &f.fasteners);
        if count == 0 || a == b {
            continue;
        }
        let (s, t, gap) = nearest_between(all.bars[a].ends, all.bars[b].ends);
        let free = face_gap(&all.bars[a], &all.bars[b], (s, t), gap);
        if free > FASTENED {
            all.loose.push(Loose::Apart { fastening: index, gap: free });
            continue;
        }
        for (s, t) in places(&all.bars[a], &all.bars[b], (s, t), count) {
            let spots = vec![Spot::Port(Port { bar: a, at: s }), Spot::Port(Port { bar: b, at: t })];
            let axis = (all.place(spots[1]) - all.place(spots[0])).unit();
            let axis = axis.unwrap_or_else(|| settled.pose.turn(Vec3::Y));
            let hold = if count == 1 { Hold::Hinge(axis) } else { Hold::Rigid };
            all.ties.push(Tie { of: TieOf::Fastening(index), spots, hold });
        }
    }
}

fn face_gap(a: &Bar, b: &Bar, (s, t): (f64, f64), gap: f64) -> f64 {
    let way = (b.at(t) - a.at(s)).unit().unwrap_or(Vec3::Z);
    gap - a.half_along(way) - b.half_along(way)
}

/// Where two bars are held together: at their nearest places, or at three places where they lie
/// along each other.
fn places(a: &Bar, b: &Bar, nearest: (f64, f64), count: u32) -> Vec<(f64, f64)> {
    let way = a.way();
    if way.dot(b.way()).abs() < ALONG || count < 3 {
        return vec![nearest];
    }
    let along = |p: Vec3| (p - a.ends.0).dot(way);
    let (p, q) = (along(b.ends.0), along(b.ends.1));
    let (low, high) = (p.min(q).max(0.0), p.max(q).min(a.length()));
    if high - low < 0.05 {
        return vec![nearest];
    }
    [0.1, 0.5, 0.9]
        .map(|share| {
            let s = low + (high - low) * share;
            (s, b.nearest(a.at(s)).0)
        })
        .to_vec()
}
