//! What a builder marks along each piece with a tape, before anything is joined.

use chairwright_design::{Design, JointId, Member, MemberId, StockId, Vec3, unsided};
use chairwright_frame::{Cut, Frame, Lies, Piece};

/// Two places nearer than this, in metres, are one.
const ALIKE: f64 = 1e-5;

/// A piece, or a left and a right one, with its marks.
#[derive(Clone, PartialEq, Debug)]
pub struct Marked {
    /// Names of the pieces: one, or the left and the right one.
    pub names: Vec<String>,
    /// What they are cut from.
    pub stock: StockId,
    /// How long each is, in metres.
    pub length: f64,
    /// The member's first joint: all is measured from the end that is nearer to it.
    pub first: JointId,
    /// Marks in their order from that end.
    pub marks: Vec<Mark>,
}

/// One mark.
#[derive(Clone, PartialEq, Debug)]
pub struct Mark {
    /// From the piece's first end, in metres.
    pub at: f64,
    /// What is there.
    pub what: What,
}

/// What a mark is for.
#[derive(Clone, PartialEq, Debug)]
pub enum What {
    /// The mouth of the socket that an end goes into, when it is home; the piece's last end where true.
    Mouth(bool),
    /// A joint, in the middle of what meets there.
    Joint(JointId, Vec<MemberId>),
    /// The middle of a hole.
    Hole(String),
    /// Where something that is fastened to it begins, or ends where true.
    Edge(String, bool),
    /// The middle of a fastener that the text places: its name, and what it holds.
    Fastener(String, String),
    /// The middle of a bought part that is fastened to it; of a caster its stem.
    Part(String),
}

/// Fasteners that go through a member.
#[derive(Clone, PartialEq, Debug)]
pub struct Set {
    /// The member.
    pub member: MemberId,
    /// Where they are on it, from its first joint, in metres.
    pub along: Vec<f64>,
    /// The fastener's name.
    pub fastener: String,
    /// What they hold to it.
    pub with: String,
}

/// Every piece of a member that has a mark, in the order of the frame. Where fasteners sit, whoever knows the faces that they go
/// through says.
#[must_use]
pub fn marks(design: &Design, frame: &Frame, set: &[Set]) -> Vec<Marked> {
    let mut out: Vec<Marked> = Vec::new();
    for piece in &frame.pieces {
        let Some((id, member)) = design.members.iter().find(|(_, m)| m.name == piece.of) else { continue };
        let (Some(lies), Cut::Length(length)) = (piece.lies, &piece.cut) else { continue };
        let mut marks = along((design, frame), member, (piece, lies, *length));
        marks.extend(fasteners(set.iter().filter(|s| s.member == id), (lies, *length)));
        marks.sort_by(|a, b| a.at.total_cmp(&b.at));
        let twin = out.iter_mut().find(|m| twins(design, m, (piece, &marks)));
        match twin {
            Some(twin) => twin.names.push(piece.name.clone()),
            None if marks.is_empty() => {}
            None => out.push(Marked {
                names: vec![piece.name.clone()],
                stock: piece.stock,
                length: *length,
                first: member.start,
                marks,
            }),
        }
    }
    out
}

fn along(
    (design, frame): (&Design, &Frame),
    member: &Member,
    (piece, lies, length): (&Piece, Lies, f64),
) -> Vec<Mark> {
    let [first, last] = lies.grip;
    let mouths = [(first, first, false), (last, length - last, true)];
    let mouths =
        mouths.into_iter().filter(|m| m.0 > 0.0).map(|(_, at, last)| Mark { at, what: What::Mouth(last) });
    let span = (design.joints[member.end].at - design.joints[member.start].at).norm();
    let joints = [(member.start, 0.0), (member.end, span)].into_iter();
    let joints = joints.chain(member.middle.iter().map(|m| (m.joint, m.along)));
    let inside =
        joints.map(|(joint, at)| (joint, at - lies.from)).filter(|(_, at)| *at > ALIKE && *at < length - ALIKE);
    let joints =
        inside.map(|(joint, at)| Mark { at, what: What::Joint(joint, meeting(design, member, joint)) });
    let holes = piece.holes.iter().map(|h| Mark { at: h.from_end, what: What::Hole(h.name.clone()) });
    let mut all: Vec<Mark> = mouths.chain(joints).chain(holes).collect();
    let fixed = fastened(design, frame, member).into_iter();
    let fixed =
        fixed.map(|m| Mark { at: m.at - lies.from, ..m }).filter(|m| m.at > ALIKE && m.at < length - ALIKE);
    all.extend(fixed);
    all
}

fn fasteners<'s>(set: impl Iterator<Item = &'s Set>, (lies, length): (Lies, f64)) -> Vec<Mark> {
    let of = |s: &Set| {
        let what = What::Fastener(s.fastener.clone(), s.with.clone());
        s.along.iter().map(|at| Mark { at: at - lies.from, what: what.clone() }).collect::<Vec<_>>()
    };
    set.flat_map(of).filter(|m| m.at > ALIKE && m.at < length - ALIKE).collect()
}

/// What is fastened to a member, from the member's first joint.
fn fastened(design: &Design, frame: &Frame, member: &Member) -> Vec<Mark> {
    let (a, b) = (design.joints[member.start].at, design.joints[member.end].at);
    let Some(way) = (b - a).unit() else { return Vec::new() };
    let mut out = Vec::new();
    for f in &design.fastenings {
        let thing = match () {
            () if f.to == member.name => &f.what,
            () if f.what == member.name => &f.to,
            () => continue,
        };
        let part = design.casters.iter().find(|c| c.name == *thing).map(|c| c.at);
        let part = part.or_else(|| design.items.iter().find(|i| i.name == *thing).map(|i| i.at));
        if let Some(at) = part {
            out.push(Mark { at: (at - a).dot(way), what: What::Part(thing.clone()) });
        } else if let Some((low, high)) = reach(frame, thing, way) {
            out.push(Mark { at: low - a.dot(way), what: What::Edge(thing.clone(), false) });
            out.push(Mark { at: high - a.dot(way), what: What::Edge(thing.clone(), true) });
        }
    }
    out
}

/// From where to where something that is cut goes along a direction.
fn reach(frame: &Frame, thing: &str, way: Vec3) -> Option<(f64, f64)> {
    let pieces: Vec<&str> = frame.pieces.iter().filter(|p| p.of == thing).map(|p| p.name.as_str()).collect();
    let bodies = frame.bodies.iter().filter(|b| pieces.contains(&b.name.as_str()));
    let ends = bodies.flat_map(|b| &b.solids).map(|s| (-s.reach(-way), s.reach(way)));
    ends.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
}

/// The other members that meet a member at a joint.
fn meeting(design: &Design, member: &Member, joint: JointId) -> Vec<MemberId> {
    let here = |m: &Member| m.start == joint || m.end == joint || m.middle.iter().any(|k| k.joint == joint);
    let others = design.members.iter().filter(|(_, m)| m.name != member.name && here(m));
    others.map(|(id, _)| id).collect()
}

/// Whether a piece is the other side's of one that is marked already, with marks in the same places.
fn twins(design: &Design, marked: &Marked, (piece, marks): (&Piece, &[Mark])) -> bool {
    let joint = |id: JointId| unsided(&design.joints[id].name);
    let alike = |(a, b): (&Mark, &Mark)| {
        let what = match (&a.what, &b.what) {
            (What::Joint(a, _), What::Joint(b, _)) => joint(*a) == joint(*b),
            (What::Hole(a), What::Hole(b)) | (What::Part(a), What::Part(b)) => unsided(a) == unsided(b),
            (What::Fastener(a, with), What::Fastener(b, by)) => a == b && unsided(with) == unsided(by),
            (What::Edge(a, ends), What::Edge(b, end)) => unsided(a) == unsided(b) && ends == end,
            (a, b) => a == b,
        };
        what && (a.at - b.at).abs() < ALIKE
    };
    let first = marked.names[0].as_str();
    // a piece in the middle of the chair may have the same name without a side
    let other = piece.side.is_some()
        && first != piece.name
        && first != unsided(first)
        && unsided(first) == unsided(&piece.name);
    other
        && marked.names.len() == 1
        && marked.stock == piece.stock
        && matches!(piece.cut, Cut::Length(l) if (l - marked.length).abs() < ALIKE)
        && marked.marks.len() == marks.len()
        && marked.marks.iter().zip(marks).all(alike)
}
