//! Whether the chair and what the seated rider puts on it are their own image in the middle plane: then what a joint on
//! one side leaves behind is the image of what its twin leaves, and need not be worked out again.
//!
//! Everything that a verdict goes by is compared, not names: places, sections, stock, holes, how things are held and by what,
//! and the forces of the seated chair. Where anything has no twin nothing is said.

use crate::bar::{Bar, Of, Pierced, Sheath, Stretch};
use crate::solve::{Cut, Run};
use crate::structure::{Hold, Port, Spot, Structure, Tie, TieOf};
use chairwright_design::{Closing, ClosingKind, Design, JointId, MemberId, Vec3};
use chairwright_frame::Frame;
use std::collections::BTreeMap;

/// Places nearer than this are one, m: what is drawn alike differs by rounding.
const SAME: f64 = 1e-7;
/// Forces alike to this share of the greatest are images.
const ALIKE: f64 = 1e-6;

/// The twins of ties, bars and footings.
pub(crate) struct Mirror {
    ties: BTreeMap<TieOf, TieOf>,
    names: BTreeMap<String, String>,
}

/// The image of a bar, and whether its ends are the other way round.
#[derive(Clone, Copy)]
struct Image {
    bar: usize,
    turned: bool,
}

fn near(a: Vec3, b: Vec3) -> bool {
    (a - b).norm() < SAME
}

fn alike(a: f64, b: f64) -> bool {
    (a - b).abs() < SAME
}

/// The same up to its sign.
fn along(a: Vec3, b: Vec3) -> bool {
    near(a, b) || near(a, b * -1.0)
}

impl Mirror {
    /// `None` where anything has no twin.
    pub fn new(
        (design, frame): (&Design, &Frame),
        all: &Structure,
        feet: &[f64],
        seated: &Run,
    ) -> Option<Mirror> {
        let bars = bars(all)?;
        let points = points(all)?;
        footings(all, (feet, &seated.feet), &points)?;
        let twins = ties(all, &bars, &points)?;
        let mut out = Mirror { ties: BTreeMap::new(), names: BTreeMap::new() };
        for (k, twin) in twins.iter().enumerate() {
            let (one, other) = (all.ties[k].of, all.ties[*twin].of);
            if out.ties.insert(one, other).is_some_and(|before| before != other) {
                return None;
            }
            if !made_alike(design, frame, (one, other), &|id| member(all, &bars, id)) {
                return None;
            }
            let name = |of| crate::whole::tie_name(design, of);
            out.name(name(one), name(other))?;
        }
        for (k, i) in bars.iter().enumerate() {
            out.name(all.bars[k].name.clone(), all.bars[i.bar].name.clone())?;
        }
        forces(all, (&bars, &twins), seated).then_some(out)
    }

    fn name(&mut self, one: String, other: String) -> Option<()> {
        let before = self.names.insert(one, other.clone());
        before.is_none_or(|b| b == other).then_some(())
    }

    /// The twin of a tie, if it is another.
    pub fn of(&self, tie: TieOf) -> Option<TieOf> {
        self.ties.get(&tie).copied().filter(|t| *t != tie)
    }

    /// The name of the twin; of what is in the middle or has none, its own.
    pub fn named(&self, name: &str) -> String {
        self.names.get(name).cloned().unwrap_or_else(|| name.to_owned())
    }
}

fn bars(all: &Structure) -> Option<Vec<Image>> {
    let of = |bar: &Bar| {
        all.bars.iter().enumerate().find_map(|(k, other)| {
            let (a, b) = (bar.ends.0.mirrored(), bar.ends.1.mirrored());
            let straight = near(a, other.ends.0) && near(b, other.ends.1);
            let turned = near(a, other.ends.1) && near(b, other.ends.0);
            let found = straight || turned;
            (found && twin_bars(bar, other, turned)).then_some(Image { bar: k, turned })
        })
    };
    let out: Vec<Image> = all.bars.iter().map(of).collect::<Option<_>>()?;
    let there_and_back = out.iter().enumerate().all(|(k, i)| out[i.bar].bar == k);
    there_and_back.then_some(out)
}

fn twin_bars(a: &Bar, b: &Bar, turned: bool) -> bool {
    let length = a.length();
    let at = |x: f64| if turned { length - x } else { x };
    let kind = match (a.of, b.of) {
        (Of::Member(_), Of::Member(_)) | (Of::Box(_), Of::Box(_)) => true,
        (one, other) => one == other || matches!((one, other), (Of::Panel(_), Of::Panel(_))),
    };
    let stretch = |s: &Stretch, o: &Stretch| {
        let (from, to, grip) =
            if turned { (at(s.to), at(s.from), [s.grip[1], s.grip[0]]) } else { (s.from, s.to, s.grip) };
        alike(from, o.from) && alike(to, o.to) && (0..2).all(|k| alike(grip[k], o.grip[k]))
    };
    let sheath = |s: &Sheath, o: &Sheath| {
        let (from, to) = if turned { (at(s.to), at(s.from)) } else { (s.from, s.to) };
        let place = alike(from, o.from) && alike(to, o.to) && alike(s.play, o.play);
        place && s.stock == o.stock && s.form == o.form
    };
    // a hole is the image of one at the same place, of the same size, drilled along the same line
    let way = |bar: &Bar, h: &Pierced| h.drilled.way.map(|[y, z]| bar.up.cross(bar.way()) * y + bar.up * z);
    let hole = |h: &Pierced, o: &Pierced| {
        let ways = match (way(a, h), way(b, o)) {
            (Some(one), Some(other)) => along(one.mirrored(), other),
            (None, None) => true,
            _ => false,
        };
        let sizes = alike(h.drilled.diameter, o.drilled.diameter) && alike(h.drilled.long, o.drilled.long);
        ways && alike(at(h.at), o.at) && sizes && h.said == o.said
    };
    kind && a.stock == b.stock
        && a.form == b.form
        && along(a.up.mirrored(), b.up)
        && matched(&a.stretches, &b.stretches, stretch)
        && matched(&a.sheaths, &b.sheaths, sheath)
        && matched(&a.holes, &b.holes, hole)
}

/// Whether every one of the first has one of its own among the second, and none is left.
fn matched<T, U>(a: &[T], b: &[U], same: impl Fn(&T, &U) -> bool) -> bool {
    let mut taken = vec![false; b.len()];
    let mut take = |x: &T| {
        let found = (0..b.len()).find(|k| !taken[*k] && same(x, &b[*k]));
        if let Some(k) = found {
            taken[k] = true;
        }
        found.is_some()
    };
    a.len() == b.len() && a.iter().all(&mut take)
}

fn points(all: &Structure) -> Option<Vec<usize>> {
    let of = |p: &Vec3| all.points.iter().position(|q| near(p.mirrored(), *q));
    all.points.iter().map(of).collect()
}

fn footings(all: &Structure, (feet, carried): (&[f64], &[f64]), points: &[usize]) -> Option<()> {
    let most = carried.iter().fold(0.0, |a: f64, f| a.max(f.abs()));
    let twins = |a: usize, b: usize| {
        let (one, other) = (&all.footings[a], &all.footings[b]);
        let places = near(all.points[points[one.hub]], all.points[other.hub])
            && near(all.points[points[one.contact]], all.points[other.contact]);
        places
            && one.caster == other.caster
            && one.carrier.is_some() == other.carrier.is_some()
            && (feet[a] - feet[b]).abs() <= ALIKE * feet[a]
            && (carried[a] - carried[b]).abs() <= ALIKE * most
    };
    let all_of_them = 0..all.footings.len();
    all_of_them.clone().all(|a| all_of_them.clone().any(|b| twins(a, b))).then_some(())
}

fn ties(all: &Structure, bars: &[Image], points: &[usize]) -> Option<Vec<usize>> {
    let spot = |s: &Spot| match s {
        Spot::Port(p) => {
            let i = bars[p.bar];
            let at = if i.turned { all.bars[p.bar].length() - p.at } else { p.at };
            Spot::Port(Port { bar: i.bar, at })
        }
        Spot::Point(p) => Spot::Point(points[*p]),
    };
    let same = |a: &Spot, b: &Spot| match (a, b) {
        (Spot::Port(p), Spot::Port(q)) => p.bar == q.bar && alike(p.at, q.at),
        (Spot::Point(p), Spot::Point(q)) => p == q || near(all.points[*p], all.points[*q]),
        _ => false,
    };
    let of = |tie: &Tie| {
        let there: Vec<Spot> = tie.spots.iter().map(spot).collect();
        all.ties.iter().position(|other| {
            kinds(tie.of, other.of) && holds(&tie.hold, &other.hold) && matched(&there, &other.spots, same)
        })
    };
    let out: Vec<usize> = all.ties.iter().map(of).collect::<Option<_>>()?;
    let there_and_back = out.iter().enumerate().all(|(k, t)| out[*t] == k);
    there_and_back.then_some(out)
}

fn kinds(a: TieOf, b: TieOf) -> bool {
    match (a, b) {
        (TieOf::Bearing(one), TieOf::Bearing(other)) => one == other,
        _ => std::mem::discriminant(&a) == std::mem::discriminant(&b),
    }
}

fn holds(a: &Hold, b: &Hold) -> bool {
    match (a, b) {
        (Hold::Rigid, Hold::Rigid) | (Hold::Fastened, Hold::Fastened) => true,
        (Hold::Hinge(a), Hold::Hinge(b)) => along(a.mirrored(), *b),
        (Hold::Bearing { normal: a, grip: g }, Hold::Bearing { normal: b, grip: h }) => {
            along(a.mirrored(), *b) && g == h
        }
        (Hold::Slips { normal: a, slip: s, turns: t }, Hold::Slips { normal: b, slip: r, turns: u }) => {
            along(a.mirrored(), *b) && s == r && t == u
        }
        _ => false,
    }
}

fn member(all: &Structure, bars: &[Image], id: MemberId) -> Option<MemberId> {
    let at = all.bars.iter().position(|b| b.of == Of::Member(id))?;
    match all.bars[bars[at].bar].of {
        Of::Member(other) => Some(other),
        _ => None,
    }
}

/// Whether two ties are closed by the same means.
fn made_alike(
    design: &Design,
    frame: &Frame,
    (one, other): (TieOf, TieOf),
    member: &dyn Fn(MemberId) -> Option<MemberId>,
) -> bool {
    match (one, other) {
        (TieOf::Joint(a), TieOf::Joint(b)) => {
            let of = |j: JointId| design.closings.iter().filter(move |c| c.joint == j);
            let (a_all, b_all): (Vec<&Closing>, Vec<&Closing>) = (of(a).collect(), of(b).collect());
            let fittings = |j: JointId| {
                let mut all: Vec<_> =
                    frame.fittings.iter().filter(|f| f.joint == j).map(|f| (f.fitting, f.bush)).collect();
                all.sort_unstable();
                all
            };
            matched(&a_all, &b_all, |a, b| closed_alike(a, b, member)) && fittings(a) == fittings(b)
        }
        (TieOf::Fastening(a), TieOf::Fastening(b)) => {
            let (a, b) = (&design.fastenings[a], &design.fastenings[b]);
            a.fasteners == b.fasteners && a.placing == b.placing
        }
        _ => true,
    }
}

fn closed_alike(a: &Closing, b: &Closing, member: &dyn Fn(MemberId) -> Option<MemberId>) -> bool {
    let is = |a: MemberId, b: MemberId| member(a) == Some(b);
    let kind = match (&a.kind, &b.kind) {
        (ClosingKind::Fitting(a), ClosingKind::Fitting(b)) | (ClosingKind::Free(a), ClosingKind::Free(b)) => {
            a == b
        }
        (ClosingKind::Lap(a), ClosingKind::Lap(b)) => {
            is(a.member, b.member) && near(a.toward.mirrored(), b.toward)
        }
        (ClosingKind::Butt { member: m, against: n }, ClosingKind::Butt { member: o, against: p }) => {
            is(*m, *o) && is(*n, *p)
        }
        (
            ClosingKind::Gusset { member: m, against: n, stock: s, size: x },
            ClosingKind::Gusset { member: o, against: p, stock: t, size: y },
        ) => is(*m, *o) && is(*n, *p) && s == t && x == y,
        _ => false,
    };
    let made = a.made.stiffness == b.made.stiffness
        && a.made.inserted == b.made.inserted
        && a.made.sprung == b.made.sprung
        && match (a.made.bent, b.made.bent) {
            (None, None) => true,
            (Some(a), Some(b)) => is(a, b),
            _ => false,
        };
    kind && made && a.fasteners == b.fasteners && a.glue == b.glue && a.placing == b.placing
}

/// Whether the seated chair bears the same on both sides, so that what is put on it is its own image.
fn forces(all: &Structure, (bars, twins): (&[Image], &[usize]), run: &Run) -> bool {
    let size = |c: &Cut| c.forces.pull.abs().max(libm::hypot(c.forces.across[0], c.forces.across[1]));
    let bends = |c: &Cut| c.forces.twist.abs().max(libm::hypot(c.forces.bend[0], c.forces.bend[1]));
    let most = |of: &dyn Fn(&Cut) -> f64| run.cuts.iter().map(of).fold(0.0, f64::max);
    let (force, moment) = (ALIKE * most(&size), ALIKE * most(&bends));
    let one = |k: usize| {
        let (mine, i) = (run.cuts_of(k), bars[k]);
        let other = run.cuts_of(i.bar);
        let length = all.bars[k].length();
        let twin = |c: &Cut, o: &Cut| {
            let at = if i.turned { length - c.at } else { c.at };
            alike(at, o.at)
                && (c.forces.pull - o.forces.pull).abs() <= force
                && (size(c) - size(o)).abs() <= force
                && (bends(c) - bends(o)).abs() <= moment
                && (c.forces.twist.abs() - o.forces.twist.abs()).abs() <= moment
        };
        // places that are one but for rounding may be read once here and twice there
        mine.iter().all(|c| other.iter().any(|o| twin(c, o)))
    };
    let gapes = run.gapes.iter().all(|t| run.gapes.contains(&twins[*t]));
    gapes && (0..bars.len()).all(one)
}
