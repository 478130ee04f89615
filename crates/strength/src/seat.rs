//! How each closed joint came out: what was measured of it as it was made, and what its fitting says.

use crate::answer::Forbidden;
use crate::limit::wood::modulus;
use crate::remark::Taken;
use crate::side::without_side;
use crate::solve::Cut;
use crate::structure::Structure;
use chairwright_design::{Closing, Design, JointId, MemberId};
use chairwright_frame::Frame;
use chairwright_resistance::socket::sprung_shut;

/// A pipe that stops shorter than this before the bottom of its socket is home: what a rule reads, m.
const HOME: f64 = 0.001;

/// What is known of one joint beside the drawing.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Seat {
    pub joint: JointId,
    /// Against turning of one member's end in it, N·m/rad.
    pub stiffness: Option<f64>,
    /// How far the pipes are in their sockets, m.
    pub inserted: Option<f64>,
    /// Whether a thread is part of it.
    pub threaded: bool,
}

impl Seat {
    /// How far a pipe is in a socket of a depth, m, where that is known to be short of it.
    pub fn short(&self, depth: f64) -> Option<f64> {
        self.inserted.filter(|in_it| *in_it < depth - HOME)
    }
}

/// Of every joint of which more is known than its drawing. A joint's own figure comes before its fitting's.
pub(crate) fn seats(design: &Design, frame: &Frame) -> Vec<Seat> {
    let of = |joint: JointId| {
        let made = design.closings.iter().find(|c| c.joint == joint).map(|c| c.made).unwrap_or_default();
        let placed = || frame.fittings.iter().filter(|f| f.joint == joint).map(|f| &design.fittings[f.fitting]);
        // the softest of a fitting and its bushes, where one of them is known
        let published = placed().filter_map(|f| f.stiffness).reduce(f64::min);
        let stiffness = made.stiffness.or(published);
        let threaded = placed().any(|f| f.threaded);
        Seat { joint, stiffness, inserted: made.inserted, threaded }
    };
    let told = |s: &Seat| s.stiffness.is_some() || s.inserted.is_some() || s.threaded;
    design.joints.iter().map(|(joint, _)| of(joint)).filter(told).collect()
}

impl Structure {
    /// What is known of a joint beside the drawing.
    pub fn seat(&self, joint: JointId) -> Option<&Seat> {
        self.seats.iter().find(|s| s.joint == joint)
    }

    /// How stiff a joint is against turning, N·m/rad, where that is known.
    pub fn turning(&self, joint: JointId) -> Option<f64> {
        self.seat(joint)?.stiffness
    }
}

/// Joints whose stiffness is known, both sides as one; of several of a name the softest.
pub(crate) fn known(design: &Design, all: &Structure) -> Option<Taken> {
    let mut out: Vec<(String, f64)> = Vec::new();
    for (joint, k) in all.seats.iter().filter_map(|s| Some((s.joint, s.stiffness?))) {
        let name = without_side(&design.joints[joint].name);
        match out.iter_mut().find(|(n, _)| *n == name) {
            Some((_, least)) => *least = least.min(k),
            None => out.push((name, k)),
        }
    }
    (!out.is_empty()).then_some(Taken::Stiffness(out))
}

/// Whether what a thread is handed bends it, N·m: no more than the solver leaves of nothing.
pub(crate) fn bends(cut: &Cut) -> bool {
    libm::hypot(cut.forces.bend[0], cut.forces.bend[1]) > 0.02
}

/// Joints that were closed by force: refused whatever stays in the frame.
pub(crate) fn sprung(design: &Design) -> Vec<Forbidden> {
    design.closings.iter().filter_map(|c| one(design, c, c.made.sprung?)).collect()
}

/// The member that was bent aside, else the one in which most stays: a leg held at its next joint, its end here pushed
/// aside, [`sprung_shut`].
fn one(design: &Design, closing: &Closing, travel: f64) -> Option<Forbidden> {
    let ends =
        |id: MemberId| design.members[id].start == closing.joint || design.members[id].end == closing.joint;
    let all = design.members.iter().map(|(id, _)| id).filter(|id| ends(*id));
    let named: Vec<MemberId> = match closing.made.bent {
        Some(id) => vec![id],
        None => all.collect(),
    };
    let leg = |id: &MemberId| {
        let stock = &design.stocks[design.members[*id].stock];
        let section = stock.shape.section();
        let (second, fibre) = (section.second_moment, section.second_moment / section.modulus);
        let length = free(design, *id, closing.joint);
        let stays = sprung_shut(modulus(design, &stock.material)?, second, fibre, length, travel).ok()?;
        Some((design.members[*id].name.clone(), stays.force, stays.stress))
    };
    let worst = named.iter().filter_map(leg).max_by(|a, b| a.2.total_cmp(&b.2));
    let name = design.joints[closing.joint].name.clone();
    Some(Forbidden::Sprung { origin: closing.origin, name, travel, bent: worst })
}

/// From the end of a member at a joint to its next joint, m.
fn free(design: &Design, id: MemberId, joint: JointId) -> f64 {
    let m = &design.members[id];
    let length = (design.joints[m.end].at - design.joints[m.start].at).norm();
    let from = |along: f64| if m.start == joint { along } else { length - along };
    m.middle.iter().map(|k| from(k.along)).filter(|x| *x > HOME).fold(length, f64::min)
}
