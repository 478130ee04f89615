//! What is drawn through each other where no joint explains it: nobody can make that.
//!
//! In come a design and its frame; out goes, of each thing, what it stands in and how deep. Looked at is what is cut and put
//! together: members with their sleeves, fittings, gusset plates, panels, boxes and supports of sheet. Members that share a
//! joint are explained by it, a bar in a bore of its size or through a hole of its size too, and sheet is cut out around the
//! hub of a fitting. Of wheels and casters [`crate::clear::wheels`], [`crate::clear::within`] and [`crate::clear::casters`]
//! tell; of other bought parts only the size around them is known; cloth and cushions give way.

use crate::clear::convex::{Convex, convex};
use crate::clear::depth::gap;
use crate::clear::holes::middle;
use crate::clear::near::bounds;
use chairwright_design::{Design, JointId, Shape, Vec3};
use chairwright_frame::{Body, Frame, Group, Solid};
use std::collections::BTreeMap;

/// What is no deeper in something else is pressed to it, in metres: as what runs into each other on its way, wood and pipe
/// give way by less. Common practice, no source.
const DEEP: f64 = 0.003;
/// Pairs that are measured; a chair has some dozens that stand near each other.
const MOST_PAIRS: usize = 10_000;
/// Axes that lean less than this from each other, in radians, are of one bore.
const PARALLEL: f64 = 0.01;
/// Cosine to the square of a sheet beyond which a bar stands across it rather than along it: 45 degrees.
const ACROSS: f64 = std::f64::consts::FRAC_1_SQRT_2;
/// What a bar may be thicker than its bore or hole, in metres: drawings are not exact.
const ROUND: f64 = 1e-4;

/// Something that stands in other things.
#[derive(Clone, PartialEq, Debug)]
pub struct Overlap {
    /// Its name.
    pub one: String,
    /// Whether it is a flat sheet that comes free of them square to its faces, by no more than it is thick unless it is a support: it
    /// is meant to lie on them. What it stands in otherwise is told apart: a corner sawn out of it explains that alone.
    pub lies: bool,
    /// What it stands in, each with the least shift that parts the two, in metres; the deepest first.
    pub others: Vec<(String, f64)>,
}

/// What was found, and whether everything was looked at.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Overlaps {
    /// One for each thing, in the order of the frame.
    pub found: Vec<Overlap>,
    /// Whether so much stands near each other that some of it was left out.
    pub cut_short: bool,
}

/// What a body belongs to.
#[derive(Clone, Debug)]
struct Owner {
    name: String,
    joints: Vec<JointId>,
    fitting: bool,
    /// Whether it is one flat sheet.
    flat: bool,
    /// Whether it is a seat, back, foot or arm support.
    support: bool,
    /// Whether it consists of sheet, flat or not.
    of_sheet: bool,
}

/// One convex part of it.
struct Part<'f> {
    owner: usize,
    solid: &'f Solid,
    form: Convex,
    bounds: [Vec3; 2],
}

/// Everything that is drawn through something else.
#[must_use]
pub fn overlaps(design: &Design, frame: &Frame) -> Overlaps {
    let (owners, mut parts) = parts(design, frame);
    parts.sort_by(|a, b| a.bounds[0].x.total_cmp(&b.bounds[0].x));
    let mut pairs = Pairs::new();
    let mut looked = 0;
    for (k, a) in parts.iter().enumerate() {
        let beside = parts[k + 1..].iter().take_while(|b| b.bounds[0].x < a.bounds[1].x);
        for b in beside.filter(|b| near(a.bounds, b.bounds)) {
            if explained(&owners[a.owner], &owners[b.owner]) || goes_in(design, [a, b]) {
                continue;
            }
            looked += 1;
            if looked > MOST_PAIRS {
                return Overlaps { found: grouped(&owners, &pairs), cut_short: true };
            }
            let deep = -gap(&a.form, &b.form, 0.0).size;
            if deep > DEEP {
                let pair = (a.owner.min(b.owner), a.owner.max(b.owner));
                let known = pairs.entry(pair).or_insert((0.0, false));
                if deep > known.0 {
                    let lies = |one, other| lifts_off(&owners, (one, other), deep);
                    *known = (deep, lies(a, b) || lies(b, a));
                }
            }
        }
    }
    Overlaps { found: grouped(&owners, &pairs), cut_short: false }
}

/// How deep one thing stands in another, and whether it is meant to lie on it.
type Deep = (f64, bool);

/// How deep two things are in each other, and whether one is a sheet that is meant to lie on the other.
type Pairs = BTreeMap<(usize, usize), Deep>;

/// Whether a part is of flat sheet and comes free of another square to its faces. What stands across it, a post in a corner of it, is
/// nothing that it lies on.
fn lifts_off(owners: &[Owner], (sheet, other): (&Part<'_>, &Part<'_>), deep: f64) -> bool {
    let Solid::Prism { along, .. } = sheet.solid else { return false };
    let Some(square) = along.unit() else { return false };
    // a panel may stand between bars; a support lies on them, however deep it is drawn
    if deep > along.norm() + ROUND && !owners[sheet.owner].support {
        return false;
    }
    if !owners[sheet.owner].flat || way(other.solid).is_some_and(|way| way.dot(square).abs() > ACROSS) {
        return false;
    }
    let free = |by: f64| gap(&sheet.form.moved(square * by), &other.form, 0.0).size >= -ROUND;
    free(deep + ROUND) || free(-deep - ROUND)
}

/// Which way a bar or board runs.
fn way(solid: &Solid) -> Option<Vec3> {
    match solid {
        Solid::Bar { from, to, .. } => (*to - *from).unit(),
        Solid::Brick { axes, half } => {
            let long = [(half.x, Vec3::X), (half.y, Vec3::Y), (half.z, Vec3::Z)];
            let most = long.into_iter().max_by(|a, b| a.0.total_cmp(&b.0))?;
            Some(axes.turn(most.1))
        }
        Solid::Prism { .. } | Solid::Ring { .. } => None,
    }
}

fn near([a_low, a_high]: [Vec3; 2], [b_low, b_high]: [Vec3; 2]) -> bool {
    let over = |a: Vec3, b: Vec3| a.x > b.x && a.y > b.y && a.z > b.z;
    over(a_high, b_low) && over(b_high, a_low)
}

/// Whether two things belong into each other by what the text says of them.
fn explained(a: &Owner, b: &Owner) -> bool {
    let shared = a.joints.iter().any(|j| b.joints.contains(j));
    a.name == b.name || shared || (a.fitting && b.of_sheet) || (b.fitting && a.of_sheet)
}

/// Whether one is a bar that goes into the bore of the other, or through a hole in it.
fn goes_in(design: &Design, [a, b]: [&Part<'_>; 2]) -> bool {
    let in_bore = |p: &Part<'_>, q: &Part<'_>| {
        let (Solid::Bar { from, to, outer, .. }, Solid::Bar { from: at, to: end, inner, .. }) =
            (p.solid, q.solid)
        else {
            return false;
        };
        let Some((way, axis)) = (*to - *from).unit().zip((*end - *at).unit()) else { return false };
        let off = (*from - *at).across(axis).norm();
        way.cross(axis).norm() < PARALLEL && off + outer <= inner + ROUND
    };
    let in_hole = |p: &Part<'_>| {
        let Solid::Bar { from, to, outer, .. } = p.solid else { return false };
        let Some(way) = (*to - *from).unit() else { return false };
        let holes = design.holes.iter().filter(|h| h.diameter + ROUND >= 2.0 * outer);
        holes.filter(|h| h.toward.cross(way).norm() < PARALLEL).any(|h| {
            let off = |at: Vec3| (at - *from).across(way).norm() + outer;
            middle(design, h).is_some_and(|at| off(at) <= h.diameter / 2.0 + ROUND)
        })
    };
    in_bore(a, b) || in_bore(b, a) || in_hole(a) || in_hole(b)
}

/// What is cut and put together, and its convex parts.
fn parts<'f>(design: &Design, frame: &'f Frame) -> (Vec<Owner>, Vec<Part<'f>>) {
    let joints: BTreeMap<&str, JointId> = design.joints.iter().map(|(id, j)| (j.name.as_str(), id)).collect();
    let pieces: BTreeMap<&str, &str> = frame.pieces.iter().map(|p| (p.name.as_str(), p.of.as_str())).collect();
    let members: BTreeMap<&str, Vec<JointId>> = design
        .members
        .values()
        .map(|m| {
            let middle = m.middle.iter().map(|k| k.joint);
            (m.name.as_str(), [m.start, m.end].into_iter().chain(middle).collect())
        })
        .collect();
    let (mut owners, mut parts): (Vec<Owner>, Vec<Part<'_>>) = (Vec::new(), Vec::new());
    for body in frame.bodies.iter().filter(|b| matches!(b.group, Group::Frame | Group::Support)) {
        let Some(owner) = owner(design, body, (&joints, &pieces, &members)) else { continue };
        if owners.last().is_none_or(|o| o.name != owner.name) {
            owners.push(owner);
        }
        let owner = owners.len() - 1;
        for solid in &body.solids {
            parts.extend(convex(solid).into_iter().map(|form| {
                let bounds = bounds(&form);
                Part { owner, solid, form, bounds }
            }));
        }
    }
    (owners, parts)
}

type Known<'k> =
    (&'k BTreeMap<&'k str, JointId>, &'k BTreeMap<&'k str, &'k str>, &'k BTreeMap<&'k str, Vec<JointId>>);

/// What a body belongs to; `None` of cloth, and of what has no shape of its own.
fn owner(design: &Design, body: &Body, (joints, pieces, members): Known<'_>) -> Option<Owner> {
    let plain = |name: &str| Owner {
        name: name.to_owned(),
        joints: Vec::new(),
        fitting: false,
        flat: false,
        support: false,
        of_sheet: false,
    };
    if body.solids.is_empty() {
        return None;
    }
    let Some(of) = pieces.get(body.name.as_str()) else {
        // the hubs of a fitting; bushes are in it
        let (joint, _) = body.name.rsplit_once(".fitting").or_else(|| body.name.rsplit_once(".bush_"))?;
        let joints = vec![*joints.get(joint)?];
        return Some(Owner { joints, fitting: true, ..plain(&format!("{joint}.fitting")) });
    };
    let of = of.strip_suffix(".sleeve").unwrap_or(of);
    if let Some(own) = members.get(of) {
        return Some(Owner { joints: own.clone(), ..plain(of) });
    }
    if let Some(joint) = of.strip_suffix(".gusset").and_then(|name| joints.get(name)) {
        return Some(Owner { joints: vec![*joint], of_sheet: true, ..plain(of) });
    }
    let support = design.supports.iter().find(|s| s.name == of).map(|s| s.stock);
    let panel = design.panels.iter().find(|p| p.name == of).map(|p| p.stock);
    let flat = support.or(panel).map(|stock| design.stocks[stock].shape);
    match flat {
        Some(Shape::Webbing { .. }) => None,
        Some(_) => Some(Owner { flat: true, support: support.is_some(), of_sheet: true, ..plain(of) }),
        None => Some(Owner { of_sheet: true, ..plain(of) }),
    }
}

/// Pairs by what is told of them: sheet in what it lies on, sheet in what else it stands in, else the first of both in what comes behind it.
fn grouped(owners: &[Owner], pairs: &Pairs) -> Vec<Overlap> {
    let mut by: BTreeMap<(usize, bool), Vec<(usize, f64)>> = BTreeMap::new();
    for ((first, second), (deep, lies)) in pairs {
        let turned = owners[*second].flat && !owners[*first].flat;
        let (one, other) = if turned { (second, first) } else { (first, second) };
        by.entry((*one, !*lies)).or_default().push((*other, *deep));
    }
    let told = by.into_iter().map(|((one, stands), mut others)| {
        others.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        let others = others.into_iter().map(|(k, deep)| (owners[k].name.clone(), deep)).collect();
        Overlap { one: owners[one].name.clone(), lies: !stands, others }
    });
    told.collect()
}
