//! What closes on a child's finger as the chair is set otherwise: from stop to stop of an adjustment, or folded.
//!
//! In come the positions on the way, near enough to each other that no gap can jump over the band; out go the pairs that
//! move against each other and stand in the band somewhere on the way, and holes that an edge passes over. Which positions
//! those are, and what the way is called, whoever calls knows.
//!
//! Distances at a position are exact; between two positions nothing is looked at.

use crate::clear::convex::{Convex, Form, convex};
use crate::clear::fingers::MOVING;
use crate::clear::holes;
use crate::clear::near::{bounds, filled, open, slices};
use chairwright_design::{Design, ItemKind, Shape, Vec3};
use chairwright_frame::{Body, Frame, Group};

/// Points that keep their places within this have not moved, in metres.
const STILL: f64 = 1e-4;
/// Sizes that differ by less are of one part.
const ALIKE: f64 = 1e-6;

/// One thing at one position.
#[derive(Clone, Debug)]
pub(super) struct Thing {
    pub name: String,
    pub sort: Sort,
    pub parts: Vec<Convex>,
    pub boxes: Vec<[Vec3; 2]>,
    marks: Vec<Vec3>,
}

/// What a thing may stand in.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Sort {
    /// In nothing.
    Still,
    /// In what presses on it.
    Wheel,
    /// In a wheel.
    Brake,
    /// In anything: what is plugged in, and what swivels.
    Loose,
}

/// A hole at one position.
#[derive(Clone, Debug)]
struct Bore {
    name: String,
    member: String,
    across: f64,
    /// What stands in it or behind it.
    by: Option<String>,
}

/// The chair at one position on its way.
#[derive(Clone, Debug, Default)]
pub struct Stage {
    things: Vec<Thing>,
    bores: Vec<Bore>,
}

/// Something that catches a finger on the way.
#[derive(Clone, PartialEq, Debug)]
pub struct Caught {
    /// What moves, or the member with the hole.
    pub one: String,
    /// The other part, or what passes the hole.
    pub other: String,
    /// The narrowest gap in the band, or how far across the hole is, in metres.
    pub gap: f64,
    /// The position of that.
    pub at: usize,
    /// The hole that an edge passes over.
    pub hole: Option<String>,
    /// The band to stay out of.
    pub band: (f64, f64),
}

impl Stage {
    /// The hard parts of a chair, its wheels and casters among them, and its holes.
    #[must_use]
    pub fn new(design: &Design, frame: &Frame) -> Stage {
        let soft = |name: &str| {
            let of = |s: &str| name.strip_prefix(s).is_some_and(|r| r.is_empty() || r.starts_with('.'));
            let cloth = |stock| matches!(design.stocks[stock].shape, Shape::Webbing { .. });
            design.supports.iter().any(|s| of(&s.name) && cloth(s.stock))
        };
        let unknown = |b: &Body| b.group == Group::Part && !design.items.iter().any(|i| i.name == b.name);
        let hard = frame.bodies.iter().filter(|b| !b.solids.is_empty() && !soft(&b.name) && !unknown(b));
        let things: Vec<Thing> = hard
            .map(|b| Thing::new(&b.name, sort(design, b), b.solids.iter().flat_map(convex).collect()))
            .collect();
        let bores = design.holes.iter().filter(|h| in_band(h.diameter)).filter_map(|h| {
            let member = design.members[h.member].name.clone();
            let by = passing(&things, &member, holes::middle(design, h)?);
            Some(Bore { name: h.name.clone(), member, across: h.diameter, by })
        });
        let bores = bores.collect();
        Stage { things, bores }
    }

    /// No point of a part is further away at the other position, in metres, but for what turns about its own axis.
    #[must_use]
    pub fn travel(&self, other: &Stage) -> f64 {
        let same = self.things.iter().filter_map(|t| Some((t, other.find(&t.name)?)));
        let far =
            same.map(|(a, b)| a.marks.iter().zip(&b.marks).map(|(p, q)| (*p - *q).norm()).fold(0.0, f64::max));
        far.fold(0.0, f64::max)
    }

    fn find(&self, name: &str) -> Option<&Thing> {
        self.things.iter().find(|t| t.name == name)
    }
}

fn sort(design: &Design, body: &Body) -> Sort {
    let item = design.items.iter().find(|i| i.name == body.name).map(|i| i.kind);
    match (body.group, item) {
        (Group::Wheel, _) => Sort::Wheel,
        (Group::Caster, _) | (_, Some(ItemKind::Axle | ItemKind::Receiver)) => Sort::Loose,
        (_, Some(ItemKind::Brake)) => Sort::Brake,
        _ => Sort::Still,
    }
}

/// The part that stands in a hole, other than the member that it is drilled through.
fn passing(things: &[Thing], member: &str, at: Vec3) -> Option<String> {
    let own = |name: &str| name.strip_prefix(member).is_some_and(|r| r.is_empty() || r.starts_with('.'));
    things.iter().find(|t| !own(&t.name) && filled(&t.parts, at)).map(|t| t.name.clone())
}

fn in_band(size: f64) -> bool {
    (MOVING.0 - 1e-6..MOVING.1 - 1e-6).contains(&size)
}

impl Thing {
    fn new(name: &str, sort: Sort, parts: Vec<Convex>) -> Thing {
        let boxes = parts.iter().map(bounds).collect();
        let marks = parts.iter().flat_map(marks).collect();
        Thing { name: name.to_owned(), sort, parts, boxes, marks }
    }

    /// Whether both have the same shape, wherever they stand.
    fn alike(&self, other: &Thing) -> bool {
        self.marks.len() == other.marks.len() && together(self, other, self, other, ALIKE)
    }
}

/// Points that go with a part.
fn marks(part: &Convex) -> Vec<Vec3> {
    let m = part.middle;
    match &part.form {
        Form::Points(all) => all.clone(),
        Form::Cylinder { axis, half, .. } => vec![m + *axis * *half, m - *axis * *half],
        Form::Brick([a, b, c]) => vec![m + *a + *b + *c, m - *a + *b - *c, m + *a - *b - *c, m - *a - *b + *c],
        Form::Around(all) => all.iter().map(|p| p.middle).collect(),
    }
}

/// Whether two things keep their places to each other between two positions: the distances between their points stay.
fn together(a: &Thing, a2: &Thing, b: &Thing, b2: &Thing, within: f64) -> bool {
    const MOST: usize = 12;
    if a.marks.len() != a2.marks.len() || b.marks.len() != b2.marks.len() {
        return false;
    }
    let pairs = |p: &[Vec3], q: &[Vec3]| -> Vec<f64> {
        p.iter().take(MOST).flat_map(|x| q.iter().take(MOST).map(move |y| (*x - *y).norm())).collect()
    };
    let (now, then) = (pairs(&a.marks, &b.marks), pairs(&a2.marks, &b2.marks));
    now.iter().zip(&then).all(|(n, t)| (n - t).abs() <= within)
}

/// What catches a finger between the positions of one way, the narrowest of each pair; with `remade` parts whose shape
/// changes on the way are made anew for it and are left out.
#[must_use]
pub fn caught(stages: &[Stage], remade: bool) -> Vec<Caught> {
    let rows = rows(stages, remade);
    let mut out = Vec::new();
    for (i, j, first_moves) in moving(&rows) {
        out.extend(pair(stages, &rows[i], &rows[j], first_moves));
    }
    out.extend(edges(stages));
    out
}

/// Each thing at every position, as far as it is there at all of them; with `remade` without those whose shape changes.
pub(super) fn rows(stages: &[Stage], remade: bool) -> Vec<Vec<&Thing>> {
    let things = stages.first().map_or(&[] as &[Thing], |s| &s.things);
    let row = |t: &Thing| stages.iter().map(|s| s.find(&t.name)).collect::<Option<Vec<&Thing>>>();
    let whole = |row: &Vec<&Thing>| !remade || row.iter().all(|t| t.alike(row[0]));
    things.iter().filter_map(row).filter(whole).collect()
}

/// Pairs that move against each other, and whether the first of them is what moves.
pub(super) fn moving(rows: &[Vec<&Thing>]) -> Vec<(usize, usize, bool)> {
    let moved: Vec<bool> = rows.iter().map(|row| row.iter().any(|t| went(row[0], t))).collect();
    let pairs = (0..rows.len()).flat_map(|i| (i + 1..rows.len()).map(move |j| (i, j)));
    let some = pairs.filter(|(i, j)| (moved[*i] || moved[*j]) && against(&rows[*i], &rows[*j]));
    some.map(|(i, j)| (i, j, moved[i])).collect()
}

fn went(a: &Thing, b: &Thing) -> bool {
    a.marks.len() != b.marks.len() || a.marks.iter().zip(&b.marks).any(|(p, q)| (*p - *q).norm() > STILL)
}

/// Whether two things move against each other somewhere on the way.
fn against(a: &[&Thing], b: &[&Thing]) -> bool {
    (1..a.len()).any(|k| !together(a[0], a[k], b[0], b[k], STILL))
}

/// The narrowest open gap in the band that a pair has at a position.
fn pair(stages: &[Stage], a: &[&Thing], b: &[&Thing], first_moves: bool) -> Option<Caught> {
    let found = stages.iter().enumerate().filter_map(|(k, s)| Some((opening(s, a[k], b[k])?, k)));
    let (gap, at) = found.min_by(|p, q| p.0.total_cmp(&q.0))?;
    let (one, other) = if first_moves { (a, b) } else { (b, a) };
    let name = |t: &[&Thing]| t[0].name.clone();
    Some(Caught { one: name(one), other: name(other), gap, at, hole: None, band: MOVING })
}

/// The narrowest gap in the band between two things that nothing fills. Where they meet like scissors the gap widens from
/// nothing, so that each is looked at slice by slice, and what touches elsewhere is no excuse.
fn opening(stage: &Stage, a: &Thing, b: &Thing) -> Option<f64> {
    let far = |[least, most]: [Vec3; 2], [low, high]: [Vec3; 2]| {
        let apart = |x: Vec3| x.x > MOVING.1 || x.y > MOVING.1 || x.z > MOVING.1;
        apart(low - most) || apart(least - high)
    };
    let each = (0..a.parts.len()).flat_map(|k| (0..b.parts.len()).map(move |l| (k, l)));
    let near = each.filter(|(k, l)| !far(a.boxes[*k], b.boxes[*l]));
    let free = near.filter_map(|(k, l)| narrow(stage, &a.parts[k], &b.parts[l]));
    free.min_by(f64::total_cmp)
}

fn narrow(stage: &Stage, p: &Convex, q: &Convex) -> Option<f64> {
    if open(p, q, MOVING.1).is_some_and(|g| g.size >= MOVING.1 - 1e-6) {
        return None;
    }
    let gaps = slices(p).into_iter().filter_map(|s| open(&s, q, MOVING.1)).filter(|g| in_band(g.size));
    let all = || stage.things.iter().flat_map(|t| &t.parts);
    gaps.filter(|g| !filled(all(), g.on.0.mix(g.on.1, 0.5))).map(|g| g.size).min_by(f64::total_cmp)
}

/// Holes that something covers at one position and not at another: its edge shears what is in the hole.
fn edges(stages: &[Stage]) -> Vec<Caught> {
    let Some(first) = stages.first() else { return Vec::new() };
    let cut = first.bores.iter().filter_map(|hole| {
        let there = |s: &Stage| Some(s.bores.iter().find(|b| b.name == hole.name)?.by.clone());
        let by: Vec<Option<String>> = stages.iter().map(there).collect::<Option<_>>()?;
        let covered = by.iter().position(Option::is_some)?;
        by.iter().any(Option::is_none).then(|| Caught {
            one: hole.member.clone(),
            other: by[covered].clone().unwrap_or_default(),
            gap: hole.across,
            at: covered,
            hole: Some(hole.name.clone()),
            band: MOVING,
        })
    });
    cut.collect()
}
