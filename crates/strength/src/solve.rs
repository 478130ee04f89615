//! Load cases through the solver: forces at every station, what the ground carries, how far it gives.

use crate::case::Case;
use crate::form::Forces;
use crate::load::Push;
use crate::matter::Matter;
use crate::model::{Built, Element, Setup};
use crate::space::array;
use crate::structure::{Spot, Structure};
use chairwright_design::Vec3;
use chairwright_statics::{Error, In, LoadCase, MemberId, MemberLoad, Solution, Solver};

/// Forces on a bar at one place.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Cut {
    pub bar: usize,
    pub at: f64,
    pub forces: Forces,
}

/// What a tie hands from one thing to another.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Handed {
    pub tie: usize,
    pub force: Vec3,
    pub moment: Vec3,
}

/// What came of one case.
#[derive(Clone, Debug, Default)]
pub(crate) struct Run {
    pub cuts: Vec<Cut>,
    pub handed: Vec<Handed>,
    /// Upward on each footing, N.
    pub feet: Vec<f64>,
    /// Shift of every bar at its stations: bar, along, shift.
    pub moved: Vec<(usize, f64, Vec3)>,
    /// Work of the loads over their sum: how far the load sinks, m.
    pub give: f64,
    /// Footings that would have had to be held down and were let go.
    pub let_go: Vec<usize>,
    /// Buckling factor, where it was asked for.
    pub buckling: Option<f64>,
    /// Largest force out of balance over the largest of all.
    pub residual: f64,
}

/// Why a case has no answer.
#[derive(Clone, Debug)]
pub(crate) enum Trouble {
    /// The frame can move by itself: bars that move, and about which line (point, way).
    Moves(Vec<Moving>),
    /// The solver refused, in its own words.
    Refused(String),
}

/// One way to move.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Moving {
    /// Bars that turn or shift.
    pub bars: Vec<usize>,
    /// Line that the first of them turns about.
    pub axis: Option<(Vec3, Vec3)>,
    /// Only single points spin.
    pub idle: bool,
}

/// Everything the solver needs beside the cases.
pub(crate) struct Bench<'a> {
    pub all: &'a Structure,
    pub matters: &'a [Matter],
    /// Stiffness of each footing's tyre, N/m.
    pub feet: &'a [f64],
}

impl Bench<'_> {
    /// Runs cases that may differ in their setup; those that share one share a factor.
    pub fn run(&self, cases: &[Case], soft: Option<f64>, buckle: bool) -> Vec<Result<Run, Trouble>> {
        let mut out: Vec<Option<Result<Run, Trouble>>> = vec![None; cases.len()];
        for i in 0..cases.len() {
            if out[i].is_some() {
                continue;
            }
            let same: Vec<usize> = (i..cases.len()).filter(|k| cases[*k].setup == cases[i].setup).collect();
            let setup = Setup { soft, ..cases[i].setup.clone() };
            let group: Vec<&[Push]> = same.iter().map(|k| cases[*k].pushes.as_slice()).collect();
            for (k, run) in same.iter().zip(self.group(&setup, &group, buckle)) {
                out[*k] = Some(run);
            }
        }
        out.into_iter().map(|r| r.unwrap_or_else(|| Err(Trouble::Refused(String::new())))).collect()
    }

    /// Runs loads that share a setup. Where a footing would have to be held down it is let go and the
    /// case run again.
    pub fn group(&self, setup: &Setup, loads: &[&[Push]], buckle: bool) -> Vec<Result<Run, Trouble>> {
        let built = Built::new(self.all, self.matters, self.feet, setup);
        let solver = match Solver::new(&built.model) {
            Ok(solver) => solver,
            Err(error) => {
                let trouble = trouble(&built, error);
                return loads.iter().map(|_| Err(trouble.clone())).collect();
            }
        };
        loads.iter().map(|pushes| self.one(setup, &built, &solver, pushes, buckle)).collect()
    }

    fn one(
        &self,
        setup: &Setup,
        built: &Built,
        solver: &Solver,
        pushes: &[Push],
        buckle: bool,
    ) -> Result<Run, Trouble> {
        let case = load_case(built, pushes);
        let loads = on_elements(built, &case);
        let solved = solver.solve(&[case]).map_err(|e| trouble(built, e))?;
        let run = self.read(built, &solved[0], (pushes, &loads), buckle);
        let held_down = |k: usize| run.feet[k] < -1.0 && !setup.lifted.contains(&k);
        let pulled: Vec<usize> = (0..run.feet.len()).filter(|k| held_down(*k)).collect();
        let standing = self.all.footings.len() - setup.lifted.len();
        if pulled.is_empty() || standing - pulled.len() < 3 || !setup.held.is_empty() {
            return Ok(run);
        }
        let mut next = setup.clone();
        next.lifted.extend(&pulled);
        let again = self.group(&next, &[pushes], buckle).pop();
        let mut run = again.unwrap_or(Err(Trouble::Refused(String::new())))?;
        run.let_go.extend(pulled);
        Ok(run)
    }

    fn read(
        &self,
        built: &Built,
        s: &Solution<'_>,
        (pushes, loads): (&[Push], &[Vec<Local>]),
        buckle: bool,
    ) -> Run {
        let mut cuts = Vec::with_capacity(built.elements.len() * 2);
        let mut moved = Vec::with_capacity(built.elements.len() * 2);
        let mut marks: (usize, Vec<f64>) = (usize::MAX, Vec::new());
        for e in &built.elements {
            if marks.0 != e.bar {
                marks = (e.bar, self.all.bars[e.bar].marks());
            }
            cuts_of(e, s, (&loads[e.id.0], &marks.1), &mut cuts);
            for (node, at) in [(built.model.members[e.id.0].i, e.from), (built.model.members[e.id.0].j, e.to)] {
                let u = s.node(node);
                moved.push((e.bar, at, Vec3::new(u[0], u[1], u[2])));
            }
        }
        let up = |k: usize| s.reaction(built.points[self.all.footings[k].contact])[2];
        let feet = (0..self.all.footings.len()).map(up).collect();
        let (work, sum) = pushes.iter().fold((0.0, 0.0), |(w, f), p| {
            let down = -p.force().z;
            (w + down * -sink(built, s, p), f + down)
        });
        let buckling = buckle.then(|| buckling(s)).flatten();
        let give = if sum > 1.0 { work / sum } else { 0.0 };
        let handed = handed(built, s);
        Run { cuts, handed, feet, moved, give, let_go: Vec::new(), buckling, residual: s.residual() }
    }
}

/// A load on an element in its own axes: even between two places, or at one.
#[derive(Clone, Copy)]
struct Local {
    from: f64,
    to: f64,
    force: [f64; 3],
    moment: [f64; 3],
}

impl Local {
    /// Its force before a place, and that force times its distance back from there.
    fn before(&self, x: f64, after: bool) -> ([f64; 3], [f64; 3]) {
        let run = (x.min(self.to) - self.from).max(0.0);
        let share = if self.to > self.from {
            run / (self.to - self.from)
        } else {
            f64::from(self.from < x || (after && self.from <= x))
        };
        let arm = x - self.from - run / 2.0;
        (self.force.map(|f| f * share), self.force.map(|f| f * share * arm))
    }
}

/// The loads of a case by element, in the elements' own axes.
fn on_elements(built: &Built, case: &LoadCase) -> Vec<Vec<Local>> {
    let mut out = vec![Vec::new(); built.model.members.len()];
    for (id, load) in &case.members {
        let m = &built.model.members[id.0];
        let along = crate::space::vector(built.model.nodes[m.j.0].at)
            - crate::space::vector(built.model.nodes[m.i.0].at);
        let chairwright_statics::Orientation::ZTowards(up) = m.orientation else { continue };
        let Some(axes) = chairwright_statics::Axes::with_z_towards(array(along), up) else { continue };
        match *load {
            MemberLoad::Point { at, force, moment, .. } => {
                let (force, moment) = (axes.to_local(force), axes.to_local(moment));
                out[id.0].push(Local { from: at, to: at, force, moment });
            }
            MemberLoad::Linear { from, to, first, .. } => {
                let force = axes.to_local(first).map(|q| q * (to - from));
                out[id.0].push(Local { from, to, force, moment: [0.0; 3] });
            }
            _ => {}
        }
    }
    out
}

/// Forces along an element: those of the joint on its first end and of the loads up to the place.
fn cuts_of(e: &Element, s: &Solution<'_>, (loads, marks): (&[Local], &[f64]), out: &mut Vec<Cut>) {
    let [first, _] = s.ends(e.id);
    let at = |x: f64, after: bool| {
        let (mut f, mut l, mut m) = ([0.0; 3], [0.0; 3], [0.0; 3]);
        for load in loads {
            let (force, lever) = load.before(x, after);
            let counts = load.from < x || (after && load.from <= x);
            for k in 0..3 {
                f[k] += force[k];
                l[k] += lever[k];
                m[k] += if counts { load.moment[k] } else { 0.0 };
            }
        }
        Cut {
            bar: e.bar,
            at: e.from + x,
            forces: Forces {
                pull: -first[0] - f[0],
                across: [-first[1] - f[1], -first[2] - f[2]],
                twist: -first[3] - m[0],
                bend: [-first[4] - first[2] * x - l[2] - m[1], -first[5] + first[1] * x + l[1] - m[2]],
            },
        }
    };
    let places = places(e, loads, marks);
    for (k, x) in places.iter().enumerate() {
        if k > 0 {
            out.push(at(*x, false));
        }
        if k + 1 < places.len() && (k == 0 || loads.iter().any(|l| l.from == l.to && (l.from - x).abs() < 1e-9))
        {
            out.push(at(*x, true));
        }
    }
}

/// Places of an element where its forces are read: ends, loads, lips and holes, and between loads the
/// middle, where spread loads have their peak.
fn places(e: &Element, loads: &[Local], marks: &[f64]) -> Vec<f64> {
    let length = e.to - e.from;
    let mut all = vec![0.0, length];
    all.extend(loads.iter().flat_map(|l| [l.from, l.to]));
    all.sort_by(f64::total_cmp);
    all.dedup();
    if !loads.is_empty() {
        let middles: Vec<f64> = all.windows(2).map(|w| f64::midpoint(w[0], w[1])).collect();
        all.extend(middles);
    }
    all.extend(marks.iter().map(|m| m - e.from).filter(|m| *m > 1e-6 && *m < length - 1e-6));
    all.sort_by(f64::total_cmp);
    all
}

/// Force and moment, in ground axes, that every link hands on; about its middle.
pub(crate) fn handed(built: &Built, s: &Solution<'_>) -> Vec<Handed> {
    let at = |n: chairwright_statics::NodeId| crate::space::vector(built.model.nodes[n.0].at);
    let moved = |n: chairwright_statics::NodeId, mid: Vec3| {
        let u = s.node(n);
        let turn = Vec3::new(u[3], u[4], u[5]);
        (Vec3::new(u[0], u[1], u[2]) + turn.cross(mid - at(n)), turn)
    };
    let one = |(tie, link): &(usize, usize)| {
        let l = &built.model.links[*link];
        let mid = at(l.a).mix(at(l.b), 0.5);
        let ((ua, ra), (ub, rb)) = (moved(l.a, mid), moved(l.b, mid));
        let local = |v: Vec3| l.axes.to_local(array(v));
        let (d, r) = (local(ub - ua), local(rb - ra));
        let force = std::array::from_fn(|k| d[k] * l.stiffness[k]);
        let moment = std::array::from_fn(|k| r[k] * l.stiffness[k + 3]);
        let global = |v: [f64; 3]| crate::space::vector(l.axes.to_global(v));
        Handed { tie: *tie, force: global(force), moment: global(moment) }
    };
    built.links.iter().map(one).collect()
}

/// Vertical shift under a push.
fn sink(built: &Built, s: &Solution<'_>, push: &Push) -> f64 {
    let port = match *push {
        Push::At { port, .. } | Push::Weight { port, .. } => port,
        Push::Over { bar, from, to, .. } => crate::structure::Port { bar, at: f64::midpoint(from, to) },
    };
    let node = built.node(Spot::Port(port));
    s.node(node)[2]
}

fn load_case(built: &Built, pushes: &[Push]) -> LoadCase {
    let mut case = LoadCase::new();
    let mut ends = Vec::new();
    let mut on = |id: MemberId, load: MemberLoad| case.members.push((id, load));
    for push in pushes {
        match *push {
            Push::Weight { port, force } => {
                let Some((e, at)) = built.element_at(port) else { continue };
                let member = &built.model.members[e.id.0];
                let share = at / (e.to - e.from).max(1e-12);
                for (node, part) in [(member.i, 1.0 - share), (member.j, share)] {
                    let [x, y, z] = array(force * part);
                    ends.push((node, [x, y, z, 0.0, 0.0, 0.0]));
                }
            }
            Push::At { port, force, moment } => {
                let Some((e, at)) = built.element_at(port) else { continue };
                let (force, moment) = (array(force), array(moment));
                let member = &built.model.members[e.id.0];
                if at < 1e-6 || at > e.to - e.from - 1e-6 {
                    let node = if at < 1e-6 { member.i } else { member.j };
                    let [x, y, z] = force;
                    let [a, b, c] = moment;
                    ends.push((node, [x, y, z, a, b, c]));
                    continue;
                }
                on(e.id, MemberLoad::Point { axes: In::Global, at, force, moment });
            }
            Push::Over { bar, from, to, force } => {
                let per = array(force * (1.0 / (to - from).max(1e-9)));
                for e in built.elements_of(bar) {
                    let (a, b) = (from.max(e.from) - e.from, to.min(e.to) - e.from);
                    if b > a + 1e-12 {
                        on(
                            e.id,
                            MemberLoad::Linear { axes: In::Global, from: a, to: b, first: per, last: per },
                        );
                    }
                }
            }
        }
    }
    case.nodes = ends;
    case
}

fn buckling(s: &Solution<'_>) -> Option<f64> {
    use chairwright_statics::{Buckling, BucklingOptions};
    match s.buckling(&BucklingOptions { count: 1, pieces: 2 }) {
        Ok(Buckling::At(modes)) => modes.first().map(|m| m.factor),
        Ok(Buckling::Never) => Some(f64::INFINITY),
        Err(_) => None,
    }
}

fn trouble(built: &Built, error: Error) -> Trouble {
    match error {
        Error::Mechanism(ways) => Trouble::Moves(ways.iter().map(|m| moving(built, m)).collect()),
        Error::LooseMember { member, .. } => {
            let bars = built.elements.iter().filter(|e| e.id.0 == member).map(|e| e.bar).collect();
            Trouble::Moves(vec![Moving { bars, axis: None, idle: false }])
        }
        other => Trouble::Refused(other.to_string()),
    }
}

fn moving(built: &Built, m: &chairwright_statics::Mechanism) -> Moving {
    let of = |id: MemberId| built.elements.iter().find(|e| e.id == id).map(|e| e.bar);
    let mut bars: Vec<usize> = m.members.iter().filter_map(|x| of(x.member)).collect();
    bars.sort_unstable();
    bars.dedup();
    let axis = m.members.first().and_then(chairwright_statics::MemberMotion::axis);
    let axis = axis.map(|(p, w)| (crate::space::vector(p), crate::space::vector(w)));
    Moving { idle: bars.is_empty(), bars, axis }
}

#[cfg(test)]
mod tests {
    use super::*;
    use chairwright_statics::{Model, Section, Side};

    /// The forces read here are those of the solver's own stations.
    #[test]
    fn forces_along_a_loaded_element_are_those_of_the_solver() {
        let mut model = Model::new();
        let a = model.support([0.1, 0.2, 0.3], [true; 6]);
        let b = model.support([0.5, 0.4, 0.9], [false, true, true, true, false, true]);
        let section =
            Section { e: 3e9, g: 1e9, area: 4e-4, shear_y: None, shear_z: None, iy: 8e-8, iz: 5e-8, j: 1e-7 };
        let id = model.member(a, b, section);
        let up = [0.3, 1.0, 0.2];
        model.members[0].orientation = chairwright_statics::Orientation::ZTowards(up);
        let length = (0.16_f64 + 0.04 + 0.36).sqrt();
        let point = MemberLoad::Point {
            axes: In::Global,
            at: 0.3,
            force: [5.0, -70.0, 30.0],
            moment: [1.0, 2.0, -3.0],
        };
        let spread = MemberLoad::Linear {
            axes: In::Global,
            from: 0.1,
            to: 0.5,
            first: [0.0, 40.0, -300.0],
            last: [0.0, 40.0, -300.0],
        };
        let case = LoadCase::new().on(id, point).on(id, spread);
        let solver = Solver::new(&model).unwrap();
        let solved = solver.solve(std::slice::from_ref(&case)).unwrap();
        let e = Element { bar: 0, from: 0.0, to: length, id };
        let mut built = Built::default();
        built.model = model;
        let loads = on_elements(&built, &case);
        let mut cuts = Vec::new();
        cuts_of(&e, &solved[0], (&loads[0], &[0.42]), &mut cuts);
        assert!(cuts.len() > 8);
        let mut seen_after = false;
        for (k, cut) in cuts.iter().enumerate() {
            let after = k + 1 < cuts.len() && (k == 0 || cuts[k - 1].at == cut.at);
            seen_after |= after && k > 0;
            let station = solved[0].station(id, cut.at, if after { Side::After } else { Side::Before });
            let f = &cut.forces;
            let got = [f.pull, f.across[0], f.across[1], f.twist, f.bend[0], f.bend[1]];
            let want = [station.force, station.moment].concat();
            for (g, w) in got.iter().zip(want) {
                assert!((g - w).abs() < 1e-9 * 300.0, "at {}: {got:?} {station:?}", cut.at);
            }
        }
        assert!(seen_after, "both sides of the point load are read");
    }
}
