//! What the text joins and fastens.

use crate::assumed::{Assumed, Unchecked};
use crate::bar::Bar;
use crate::demand::FRICTION;
use crate::gluing::class;
use crate::limit::{allowance, wooden};
use crate::placing::layout;
use crate::space::nearest_between;
use crate::structure::{Hold, Loose, Port, Spot, Structure, Tie, TieOf};
use chairwright_design::{Closing, ClosingKind, Design, FittingShape, JointId, MemberId, Placing, Vec3};
use chairwright_frame::{Frame, Settled};

/// Faces nearer than this touch: what is drawn to a whole millimetre, or is straightened by the fastener, m.
pub(crate) const TOUCH: f64 = 0.003;
/// Height of a nut over the diameter of its bolt: M6 5.2 mm, M8 6.8, M10 8.4 (ISO 4032, from memory, not
/// checked).
pub(crate) const NUT: f64 = 0.85;
/// Diameters of a screw that must be in the second piece for anything to be known of it (NDS).
const BITE: f64 = 6.0;
/// Bars that lie along each other, by the cosine of their angle.
const ALONG: f64 = 0.98;
/// Cosine of the angle up to which what lies between two bars that cross leads from face to face; beyond it one meets the other with its
/// end.
const SQUARE: f64 = 0.5;

/// Joints that are closed.
pub(crate) fn joints(design: &Design, frame: &Frame, settled: &Settled, all: &mut Structure) {
    for (joint, _) in design.joints.iter() {
        let spots = spots(design, joint, all);
        if spots.len() < 2 {
            continue;
        }
        let closing = design.closings.iter().find(|c| c.joint == joint);
        let closed = frame.joints.iter().any(|j| j.joint == joint);
        let slips = slips(design, frame, settled, (joint, &spots), all);
        all.slips.extend(slips);
        let wood = spots.iter().all(|s| s.bar().is_some_and(|b| of_wood(design, &all.bars[b])));
        match hold(design, closing, settled, wood) {
            _ if !closed => all.loose.push(Loose::OpenJoint(joint)),
            Some(hold) => all.ties.push(Tie { of: TieOf::Joint(joint), spots, hold }),
            None if matches!(closing.map(|c| &c.kind), Some(ClosingKind::Free(_))) => {
                all.left_out.push(Unchecked::LeftOpen(design.joints[joint].name.clone()));
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

/// Pipes that run on through a fitting without a stop at a joint.
fn slips(
    design: &Design,
    frame: &Frame,
    settled: &Settled,
    (joint, spots): (JointId, &[Spot]),
    all: &Structure,
) -> Vec<(JointId, Port)> {
    let slip = |f: &&chairwright_frame::PlacedFitting| {
        f.joint == joint && !f.bush && design.fittings[f.fitting].shape == FittingShape::SlipTee
    };
    let Some(run) = frame.fittings.iter().find(slip).and_then(|f| f.ports.first()) else { return Vec::new() };
    let run = settled.pose.turn(*run);
    let through = |s: &Spot| match s {
        Spot::Port(p) if !all.bars[p.bar].cut_at(p.at) => {
            (all.bars[p.bar].way().dot(run).abs() > ALONG).then_some((joint, *p))
        }
        _ => None,
    };
    spots.iter().filter_map(through).collect()
}

fn of_wood(design: &Design, bar: &Bar) -> bool {
    allowance(design, &design.stocks[bar.stock].material).is_some_and(wooden)
}

/// How a closing holds; `None` for one that holds nothing. Glue counts where its name says that it is one for wood, and
/// wood is what it lies on; a butt on end grain it never makes stiff.
fn hold(design: &Design, closing: Option<&Closing>, settled: &Settled, wood: bool) -> Option<Hold> {
    let Some(c) = closing else { return Some(Hold::Rigid) };
    let count = fixing(design, &c.fasteners);
    let glued = wood && c.glue.as_deref().is_some_and(|name| class(name).is_some());
    match &c.kind {
        ClosingKind::Fitting(_) => Some(Hold::Rigid),
        ClosingKind::Free(_) => None,
        _ if count == 0 && !glued => None,
        ClosingKind::Lap(lap) if count == 1 && !glued => Some(Hold::Hinge(settled.pose.turn(lap.toward))),
        ClosingKind::Butt { member, .. } if count == 1 => {
            Some(Hold::Hinge(settled.pose.turn(way(design, *member))))
        }
        _ => Some(Hold::Fastened),
    }
}

fn way(design: &Design, id: MemberId) -> Vec3 {
    let m = &design.members[id];
    (design.joints[m.end].at - design.joints[m.start].at).unit().unwrap_or(Vec3::X)
}

/// How many fasteners go through: nuts and washers come with their bolt.
pub(crate) fn fixing(design: &Design, list: &[(String, u32)]) -> u32 {
    let through = |name: &str| {
        design
            .fastener(name)
            .is_none_or(|f| matches!(f.kind.as_str(), "screw" | "nail" | "bolt" | "rivet" | "dowel" | ""))
    };
    list.iter().filter(|(name, _)| through(name)).map(|(_, n)| *n).sum()
}

/// The widest gap that every fastener of a list still reaches across, m, from a first into a second piece so
/// thick: a screw with its six diameters in the second, a bolt with its nut behind it. Never less than what
/// counts as touching.
pub(crate) fn reach(design: &Design, list: &[(String, u32)], (first, second): (f64, f64)) -> f64 {
    let past = |f: &chairwright_design::Fastener| match f.kind.as_str() {
        "screw" | "nail" => Some(f.length - first.min(second) - BITE * f.diameter),
        "bolt" => Some(f.length - first - second - NUT * f.diameter),
        _ => None,
    };
    let all = list.iter().filter_map(|(name, _)| past(design.fastener(name)?));
    all.reduce(f64::min).unwrap_or(0.0).max(TOUCH)
}

/// How thick a bar is where a fastener goes through it along a way, m: of a box its near wall.
pub(crate) fn thick(bar: &Bar, way: Vec3) -> f64 {
    match bar.form {
        crate::form::Form::Hollow { wall, .. } => wall,
        _ if bar.way().dot(way).abs() > 0.7 => bar.length(),
        _ => 2.0 * bar.half_along(way),
    }
}

/// Whether a list has more bolts than nuts.
fn bare(design: &Design, list: &[(String, u32)]) -> bool {
    let of = |kind: &str| {
        let mine = list.iter().filter(|(name, _)| design.fastener(name).is_some_and(|f| f.kind == kind));
        mine.map(|(_, count)| *count).sum::<u32>()
    };
    of("bolt") > of("nut")
}

/// What is taken for granted of fasteners and glue.
fn assumed(design: &Design) -> Vec<Assumed> {
    let fastened = design.fastenings.iter().map(|f| &f.fasteners);
    let fixed: Vec<_> = fastened.chain(design.closings.iter().map(|c| &c.fasteners)).collect();
    let mut out = Vec::new();
    if fixed.iter().any(|list| fixing(design, list) > 0) {
        out.extend([Assumed::LeadHoles, Assumed::WeakestBolts]);
    }
    let names = design.fastenings.iter().map(|f| (format!("{} to {}", f.what, f.to), &f.fasteners));
    let joints = design.closings.iter().map(|c| (design.joints[c.joint].name.clone(), &c.fasteners));
    let nuts: Vec<String> =
        names.chain(joints).filter(|(_, list)| bare(design, list)).map(|(name, _)| name).collect();
    if !nuts.is_empty() {
        out.push(Assumed::NoNuts(nuts));
    }
    if design.supports.iter().any(|s| design.fastenings.iter().any(|f| f.what == s.name || f.to == s.name)) {
        out.push(Assumed::Friction(FRICTION));
    }
    if design.closings.iter().any(|c| c.glue.is_some()) {
        out.push(Assumed::GluePressed);
    }
    out
}

/// Bars that are fastened to bars; sheets and bought parts are looked at elsewhere.
pub(crate) fn fastenings(design: &Design, settled: &Settled, all: &mut Structure) {
    all.assumed.extend(assumed(design));
    for (index, f) in design.fastenings.iter().enumerate() {
        let (Some(a), Some(b)) = (all.bar_named(&f.what), all.bar_named(&f.to)) else { continue };
        let count = fixing(design, &f.fasteners);
        if count == 0 || a == b {
            continue;
        }
        let (s, t, _) = nearest_between(all.bars[a].ends, all.bars[b].ends);
        let gap = all.bars[b].at(t) - all.bars[a].at(s);
        let across = facing((&all.bars[a], &all.bars[b]), gap).unwrap_or(Vec3::Z);
        let free = face_gap((&all.bars[a], &all.bars[b]), gap, across);
        let deep = (thick(&all.bars[a], across), thick(&all.bars[b], across));
        if free > reach(design, &f.fasteners, deep) {
            all.loose.push(Loose::Apart { fastening: index, gap: free });
            continue;
        }
        let rows = f.placing.as_ref();
        let held = places((&all.bars[a], &all.bars[b]), (s, t), (count, rows));
        let one = count == 1 || rows.is_some_and(|p| p.rows <= 1 && held.len() > 1);
        for (s, t) in held {
            let spots = vec![Spot::Port(Port { bar: a, at: s }), Spot::Port(Port { bar: b, at: t })];
            let gap = all.place(spots[1]) - all.place(spots[0]);
            let axis = facing((&all.bars[a], &all.bars[b]), gap);
            let axis = axis.unwrap_or_else(|| settled.pose.turn(Vec3::Y));
            let hold = if one { Hold::Hinge(axis) } else { Hold::Fastened };
            all.ties.push(Tie { of: TieOf::Fastening(index), spots, hold });
        }
    }
}

/// Which way fasteners go from one bar into another, by what lies between two places of their axes; `None` where that is nothing. Bars
/// that lie along each other face each other with those sides that stand furthest apart, however far they are shifted along these; bars that
/// cross, square to both.
pub(crate) fn facing((a, b): (&Bar, &Bar), gap: Vec3) -> Option<Vec3> {
    let straight = gap.unit()?;
    let signed = |e: Vec3| if e.dot(gap) < 0.0 { -e } else { e };
    if a.way().dot(b.way()).abs() < ALONG {
        let square = a.way().cross(b.way()).unit().map(signed)?;
        return Some(if square.dot(straight) > SQUARE { square } else { straight });
    }
    let flat = [a, b].into_iter().filter(|bar| !bar.form.is_round());
    let sides = flat.flat_map(|bar| [bar.up, bar.up.cross(bar.way())]).map(signed);
    let free = |e: &Vec3| face_gap((a, b), gap, *e);
    let faces = sides.fold(None, |best: Option<Vec3>, e| match best {
        // of two that are as far apart the first, whatever rounding says
        Some(b) if free(&e) < free(&b) + 1e-9 => Some(b),
        _ => Some(e),
    });
    Some(faces.unwrap_or(straight))
}

/// How much air lies between the faces of two bars along a way, m; below zero where they overlap.
fn face_gap((a, b): (&Bar, &Bar), gap: Vec3, way: Vec3) -> f64 {
    gap.dot(way).abs() - a.half_along(way) - b.half_along(way)
}

/// Where two bars are held together: at their nearest places; and where they lie along each other, where the text puts the
/// fasteners along them, or else spread over the length that they share: one in its middle, two near its ends, more at three
/// places.
///
/// These are places of the stiffness alone: fasteners that nobody places are judged in rows that fit. Force and moment of all places
/// are told about the middle of the rows, which is that of the length shared, so that no moment is lost; and held so far apart the bars are
/// stiffer against each other than rows further in make them, so that the fastening draws more moment, not less. What bends a bar between
/// the outermost place and the outermost row that is taken is not looked at: pressed together the faces hold it there, drawn apart or along
/// the face nothing does. Whoever says where the fasteners sit has the bars held there.
fn places(
    (a, b): (&Bar, &Bar),
    nearest: (f64, f64),
    (count, placing): (u32, Option<&Placing>),
) -> Vec<(f64, f64)> {
    let way = a.way();
    if way.dot(b.way()).abs() < ALONG {
        return vec![nearest];
    }
    let along = |p: Vec3| (p - a.ends.0).dot(way);
    let (p, q) = (along(b.ends.0), along(b.ends.1));
    let (low, high) = (p.min(q).max(0.0), p.max(q).min(a.length()));
    if high - low < 0.05 {
        return vec![nearest];
    }
    let middle = f64::midpoint(low, high);
    let at: Vec<f64> = match (placing, count) {
        (Some(p), _) => {
            let laid = layout(p, count, [high - low, f64::INFINITY]);
            let columns = laid.places.len() / p.rows.max(1) as usize;
            // towards which end they stand nobody says: the nearer one is the first
            laid.places[..columns].iter().map(|place| middle - laid.off[0] + place[0]).collect()
        }
        (None, 1) => vec![middle],
        (None, 2) => [0.1, 0.9].map(|share| low + (high - low) * share).to_vec(),
        (None, _) => [0.1, 0.5, 0.9].map(|share| low + (high - low) * share).to_vec(),
    };
    let port = |s: f64| {
        let s = s.clamp(low, high);
        (s, b.nearest(a.at(s)).0)
    };
    at.into_iter().map(port).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::Form;
    use crate::hand::bar;

    /// A board of 21 x 95 mm beside one of 80 x 100 mm, 80.5 mm from axis to axis: 80.5 - 10.5 - 40 = 30 mm of air, whether its middle is
    /// as high, or 40 or 90 mm lower. Where they are 60 mm apart aside and 100 mm upright, 9.5 mm of air are aside and 2.5 mm upright: they
    /// face each other aside. A bar that crosses 38 mm below is met square, though it ends 15 mm before the axis.
    #[test]
    fn fasteners_go_from_face_to_face() {
        let side = bar(Vec3::ZERO, Vec3::X * 0.5, Vec3::Z, Form::Flat { level: 0.08, upright: 0.1 });
        let arm = bar(Vec3::ZERO, Vec3::X * 0.4, Vec3::Z, Form::Flat { level: 0.021, upright: 0.095 });
        for low in [0.0, -0.04, -0.09] {
            let gap = Vec3::new(0.0, -0.0805, low);
            let way = facing((&arm, &side), gap).unwrap();
            assert!((way + Vec3::Y).norm() < 1e-12, "{way:?}");
            assert!((face_gap((&arm, &side), gap, way) - 0.030).abs() < 1e-12);
        }
        let gap = Vec3::new(0.0, 0.06, -0.1);
        let way = facing((&arm, &side), gap).unwrap();
        assert!((way - Vec3::Y).norm() < 1e-12 && (face_gap((&arm, &side), gap, way) - 0.0095).abs() < 1e-12);
        let under = Vec3::new(0.0, 0.02, -0.12);
        assert!((facing((&arm, &side), under).unwrap() + Vec3::Z).norm() < 1e-12);
        let across = bar(Vec3::ZERO, Vec3::Y * 0.3, Vec3::Z, Form::Flat { level: 0.038, upright: 0.038 });
        let short = facing((&side, &across), Vec3::new(0.0, 0.015, -0.069)).unwrap();
        assert!((short + Vec3::Z).norm() < 1e-12, "{short:?}");
        assert!((facing((&side, &across), Vec3::Y * 0.04).unwrap() - Vec3::Y).norm() < 1e-12);
        assert!(facing((&arm, &side), Vec3::ZERO).is_none());
    }

    /// A ledge of 0.338 m from 0.1 m on along a rail of 1 m. Four spaced 90 mm stand 135 and 45 mm to either side of its middle: at 34,
    /// 124, 214 and 304 mm of the ledge. In two rows 30 mm apart they stand 15 mm to either side: 154 and 184 mm. Two that nobody
    /// places stand near its ends, 33.8 and 304.2 mm, one in its middle. Beside a bar that crosses nothing of this counts.
    #[test]
    fn bars_along_each_other_are_held_where_their_bolts_are() {
        let board = Form::Flat { level: 0.038, upright: 0.064 };
        let ledge = bar(Vec3::X * 0.1, Vec3::X * 0.438, Vec3::Z, board);
        let rail = bar(Vec3::Y * 0.038, Vec3::new(1.0, 0.038, 0.0), Vec3::Z, board);
        let p =
            |rows, spaced| Placing { rows, spaced: Some(spaced), apart: Some(0.025), ends: None, edges: None };
        let at = |count, placing: Option<&Placing>| {
            places((&ledge, &rail), (0.0, 0.1), (count, placing))
                .iter()
                .map(|x| (x.0 * 1e4).round() / 10.0)
                .collect::<Vec<_>>()
        };
        assert_eq!(at(4, Some(&p(1, 0.09))), [34.0, 124.0, 214.0, 304.0]);
        assert_eq!(at(4, Some(&p(2, 0.03))), [154.0, 184.0]);
        assert_eq!(at(2, None), [33.8, 304.2]);
        assert_eq!(at(1, None), [169.0]);
        assert_eq!(at(4, None), [33.8, 169.0, 304.2]);
        let across = bar(Vec3::new(0.2, 0.038, -0.2), Vec3::new(0.2, 0.038, 0.2), Vec3::X, board);
        assert_eq!(places((&ledge, &across), (0.1, 0.2), (4, None)), [(0.1, 0.2)]);
    }
}
