//! Load cases through the solver: forces at every station, what the ground carries, how far it gives.

use crate::case::Case;
use crate::contact::{Contacts, Freed, Unsettled};
use crate::form::Forces;
use crate::load::Push;
use crate::matter::Matter;
use crate::model::{Built, Element, Setup};
use crate::space::array;
use crate::structure::{Spot, Structure, TieOf};
use chairwright_design::Vec3;
use chairwright_statics::{Error, In, LoadCase, MemberId, MemberLoad, Side, Solution, Solver};
use rayon::prelude::*;

/// Relative error of displacements to which frames are solved: a hundred times finer than anything here is read, and the
/// residual is looked at besides.
pub(crate) const FINE: f64 = 1e-6;

/// Forces on a bar at one place.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Cut {
    pub bar: usize,
    pub at: f64,
    pub forces: Forces,
    /// Where the frame of this case was looked at for giving way sideways.
    pub gives: Option<Gives>,
}

/// How a frame gives way sideways in a case, as one of its bars has it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Gives {
    /// Load factor of the case at which it does.
    pub factor: f64,
    /// Whether the push in this bar is among what drives it.
    pub drives: bool,
    /// Share of the factor that heat and water leave, where the load does not last.
    pub keeps: f64,
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
    /// In the order of the bars.
    pub cuts: Vec<Cut>,
    /// Least and greatest pull among the cuts of every element, N.
    pub pulls: Vec<[f64; 2]>,
    pub handed: Vec<Handed>,
    /// Upward on each footing, N.
    pub feet: Vec<f64>,
    /// Shift of every bar at its stations: bar, along, shift.
    pub moved: Vec<(usize, f64, Vec3)>,
    /// How far it turns at the same stations.
    pub turned: Vec<Vec3>,
    /// Work of the loads over their sum: how far the load sinks, m.
    pub give: f64,
    /// Footings that would have had to be held down and were let go.
    pub let_go: Vec<usize>,
    /// Footings that had to be held down, since the chair would tip without them.
    pub held_down: Vec<usize>,
    /// Ties of sheets that only lie there and gape in this case.
    pub gapes: Vec<usize>,
    /// Buckling factor, where the frame was looked at for giving way sideways.
    pub buckling: Option<f64>,
    /// Share of that which heat and water leave, where the load does not last and they leave less.
    pub keeps: Option<f64>,
    /// Largest force out of balance over the largest of all.
    pub residual: f64,
}

impl Run {
    /// The cuts of one bar.
    pub fn cuts_of(&self, bar: usize) -> &[Cut] {
        let (from, to) =
            (self.cuts.partition_point(|c| c.bar < bar), self.cuts.partition_point(|c| c.bar <= bar));
        &self.cuts[from..to]
    }
}

/// Why a case has no answer.
#[derive(Clone, Debug)]
pub(crate) enum Trouble {
    /// The frame can move by itself: bars that move, and about which line (point, way).
    Moves(Vec<Moving>),
    /// The solver refused, in its own words.
    Refused(String),
    /// Sheets that come off what they lie on, counted among the design's supports.
    Leaves(Vec<usize>),
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

/// A structure in one setup, made ready for loads.
pub(crate) struct Ready {
    pub(crate) setup: Setup,
    pub(crate) built: Built,
    pub(crate) solver: Solver,
}

impl Bench<'_> {
    /// Runs cases that may differ in their setup; those that share one share a factor, and those of a setup that is ready, or
    /// little different from one, share that.
    pub fn run(&self, cases: &[Case], soft: Option<f64>, known: &[&Ready]) -> Vec<Result<Run, Trouble>> {
        let groups = alike(cases);
        let one = |same: &Vec<usize>| {
            let setup = Setup { soft, ..cases[same[0]].setup.clone() };
            let group: Vec<&[Push]> = same.iter().map(|k| cases[*k].pushes.as_slice()).collect();
            match known.iter().find(|r| r.setup == setup) {
                Some(ready) => self.loaded(ready, &group),
                None => self.group_near(known, &setup, &group),
            }
        };
        let runs: Vec<Vec<Result<Run, Trouble>>> = groups.par_iter().map(one).collect();
        let mut out: Vec<(usize, Result<Run, Trouble>)> =
            groups.into_iter().zip(runs).flat_map(|(same, runs)| same.into_iter().zip(runs)).collect();
        out.sort_by_key(|(k, _)| *k);
        out.into_iter().map(|(_, run)| run).collect()
    }

    /// Runs loads that share a setup, by the factors of one that is ready where it differs little from that. What then goes wrong is run again
    /// with factors of its own, which tell why.
    pub fn group_near(&self, known: &[&Ready], setup: &Setup, loads: &[&[Push]]) -> Vec<Result<Run, Trouble>> {
        let mut built = Built::new(self.all, self.matters, self.feet, setup);
        if let Some(solver) = known.iter().find_map(|r| r.solver.near(&built.model)) {
            let ready = Ready { setup: setup.clone(), built, solver };
            let runs = self.each(known, &ready, loads);
            if runs.iter().all(Result::is_ok) {
                return runs;
            }
            built = ready.built;
        }
        match factored(setup, built, known) {
            Ok(ready) => self.loaded(&ready, loads),
            Err(trouble) => loads.iter().map(|_| Err(trouble.clone())).collect(),
        }
    }

    /// Makes a setup ready; one that is ready tells in which order it is done, if the same nodes meet in both.
    pub fn ready(&self, setup: &Setup, known: &[&Ready]) -> Result<Ready, Trouble> {
        factored(setup, Built::new(self.all, self.matters, self.feet, setup), known)
    }

    /// Runs loads on a setup that is ready. Where a footing would have to be held down it is let go and
    /// the case run again.
    pub fn loaded(&self, ready: &Ready, loads: &[&[Push]]) -> Vec<Result<Run, Trouble>> {
        self.each(&[ready], ready, loads)
    }

    /// The same; what is run again goes by the factors of those that are known.
    fn each(&self, known: &[&Ready], ready: &Ready, loads: &[&[Push]]) -> Vec<Result<Run, Trouble>> {
        let mut contacts = Contacts::new(self.all, &ready.built);
        let cases: Vec<LoadCase> = loads.iter().map(|pushes| load_case(&ready.built, pushes)).collect();
        let solved: Vec<Result<Solution<'_>, Trouble>> = match ready.solver.solve_within(&cases, FINE) {
            Ok(all) => all.into_iter().map(Ok).collect(),
            // a load that cannot be used must not take the others with it
            Err(_) => cases.iter().map(|c| self.alone(ready, c)).collect(),
        };
        let each = loads.iter().zip(&cases).zip(solved);
        let by = (known, ready);
        each.map(|((pushes, case), s)| self.one(by, &mut contacts, (pushes, case, s?))).collect()
    }

    fn alone<'r>(&self, ready: &'r Ready, case: &LoadCase) -> Result<Solution<'r>, Trouble> {
        let solved = ready
            .solver
            .solve_within(std::slice::from_ref(case), FINE)
            .map_err(|e| trouble(&ready.built, e))?;
        solved.into_iter().next().ok_or(Trouble::Refused(String::new()))
    }

    fn one<'r>(
        &self,
        (known, ready): (&[&Ready], &'r Ready),
        contacts: &mut Contacts,
        (pushes, case, solved): (&[Push], &LoadCase, Solution<'r>),
    ) -> Result<Run, Trouble> {
        let Ready { setup, built, solver } = ready;
        let freed = contacts.settle(built, solver, (case, solved)).map_err(|u| self.unsettled(built, u))?;
        let Freed { ties: gapes, solution } = freed;
        let mut run = self.read(built, &solution, (pushes, case), &gapes);
        let held_down = |k: usize| run.feet[k] < -1.0 && !setup.lifted.contains(&k);
        let pulled: Vec<usize> = (0..run.feet.len()).filter(|k| held_down(*k)).collect();
        let standing = self.all.footings.len() - setup.lifted.len();
        if pulled.is_empty() || standing - pulled.len() < 3 || !setup.held.is_empty() {
            run.held_down = pulled;
            return Ok(run);
        }
        let mut next = setup.clone();
        next.lifted.extend(&pulled);
        let again = self.group_near(known, &next, &[pushes]).pop();
        let mut run = again.unwrap_or(Err(Trouble::Refused(String::new())))?;
        run.let_go.extend(pulled);
        Ok(run)
    }

    fn unsettled(&self, built: &Built, why: Unsettled) -> Trouble {
        match why {
            Unsettled::Refused(error) => trouble(built, error),
            Unsettled::Leaves(ties) => {
                let of = |t: &usize| match self.all.ties[*t].of {
                    TieOf::Bearing(support) => Some(support),
                    _ => None,
                };
                let mut supports: Vec<usize> = ties.iter().filter_map(of).collect();
                supports.sort_unstable();
                supports.dedup();
                Trouble::Leaves(supports)
            }
        }
    }

    fn read(
        &self,
        built: &Built,
        s: &Solution<'_>,
        (pushes, case): (&[Push], &LoadCase),
        gapes: &[(usize, f64)],
    ) -> Run {
        let mut cuts = Vec::with_capacity(built.elements.len() * 4);
        let mut pulls = Vec::with_capacity(built.elements.len());
        let mut moved = Vec::with_capacity(built.elements.len() * 2);
        let mut turned = Vec::with_capacity(built.elements.len() * 2);
        let mut marks: (usize, Vec<f64>) = (usize::MAX, Vec::new());
        let loaded = loaded(built, case);
        for e in &built.elements {
            if marks.0 != e.bar {
                marks = (e.bar, self.all.bars[e.bar].marks());
            }
            let first = cuts.len();
            cuts_of(e, s, (loaded[e.id.0], &marks.1), &mut cuts);
            let each = cuts[first..].iter().map(|c: &Cut| c.forces.pull);
            pulls.push(each.fold([f64::INFINITY, f64::NEG_INFINITY], |[l, g], n| [l.min(n), g.max(n)]));
            for (node, at) in [(built.model.members[e.id.0].i, e.from), (built.model.members[e.id.0].j, e.to)] {
                let u = s.node(node);
                moved.push((e.bar, at, Vec3::new(u[0], u[1], u[2])));
                turned.push(Vec3::new(u[3], u[4], u[5]));
            }
        }
        let up = |k: usize| s.reaction(built.points[self.all.footings[k].contact])[2];
        debug_assert!(cuts.is_sorted_by_key(|c| c.bar));
        let feet = (0..self.all.footings.len()).map(up).collect();
        let (work, sum) = pushes.iter().fold((0.0, 0.0), |(w, f), p| {
            let down = -p.force().z;
            (w + down * -sink(built, s, p), f + down)
        });
        let give = if sum > 1.0 { work / sum } else { 0.0 };
        let handed = handed(built, s, gapes);
        let gapes = gapes.iter().map(|g| g.0).collect();
        let residual = s.residual();
        Run { cuts, pulls, handed, feet, moved, turned, give, gapes, residual, ..Run::default() }
    }
}

/// Which cases share a setup, by the first of each.
fn alike(cases: &[Case]) -> Vec<Vec<usize>> {
    let mut out: Vec<Vec<usize>> = Vec::new();
    for (k, case) in cases.iter().enumerate() {
        match out.iter_mut().find(|same| cases[same[0]].setup == case.setup) {
            Some(same) => same.push(k),
            None => out.push(vec![k]),
        }
    }
    out
}

fn factored(setup: &Setup, built: Built, known: &[&Ready]) -> Result<Ready, Trouble> {
    match solver(&built, known) {
        Ok(solver) => Ok(Ready { setup: setup.clone(), built, solver }),
        Err(error) => Err(trouble(&built, error)),
    }
}

/// Factors of its own for a frame, by what is known of one that is ready.
pub(crate) fn solver(built: &Built, known: &[&Ready]) -> Result<Solver, Error> {
    match known.first() {
        Some(ready) => ready.solver.like(&built.model),
        None => Solver::new(&built.model),
    }
}

/// Which elements carry loads between their ends.
fn loaded(built: &Built, case: &LoadCase) -> Vec<bool> {
    let mut out = vec![false; built.model.members.len()];
    for (id, _) in &case.members {
        out[id.0] = true;
    }
    out
}

/// Forces along an element at both ends, at lips and holes, and where loads start, end and sit; between
/// loads in the middle, where spread loads have their peak.
fn cuts_of(e: &Element, s: &Solution<'_>, (loaded, marks): (bool, &[f64]), out: &mut Vec<Cut>) {
    let length = e.to - e.from;
    let at = |x: f64, side: Side| {
        let [pull, y, z, twist, my, mz] = s.inside(e.id, x, side);
        Cut {
            bar: e.bar,
            at: e.from + x,
            forces: Forces { pull, across: [y, z], twist, bend: [my, mz] },
            gives: None,
        }
    };
    if !loaded && marks.is_empty() {
        out.extend([at(0.0, Side::After), at(length, Side::Before)]);
        return;
    }
    let mut places = if loaded { s.breaks(e.id) } else { vec![0.0, length] };
    if loaded {
        let middles: Vec<f64> = places.windows(2).map(|w| f64::midpoint(w[0], w[1])).collect();
        places.extend(middles);
    }
    places.extend(marks.iter().map(|m| m - e.from).filter(|m| *m > 1e-6 && *m < length - 1e-6));
    places.sort_by(f64::total_cmp);
    for (k, x) in places.iter().enumerate() {
        if k == 0 {
            out.push(at(*x, Side::After));
            continue;
        }
        let before = at(*x, Side::Before);
        out.push(before);
        if loaded && k + 1 < places.len() {
            let after = at(*x, Side::After);
            if after.forces != before.forces {
                out.push(after);
            }
        }
    }
}

/// Force and moment, in ground axes, that every link hands on; about its middle.
pub(crate) fn handed(built: &Built, s: &Solution<'_>, gapes: &[(usize, f64)]) -> Vec<Handed> {
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
        let mut force: [f64; 3] = std::array::from_fn(|k| d[k] * l.stiffness[k]);
        force[0] += gapes.iter().find(|g| g.0 == *tie).map_or(0.0, |g| g.1);
        let moment = std::array::from_fn(|k| r[k] * l.stiffness[k + 3]);
        let global = |v: [f64; 3]| crate::space::vector(l.axes.to_global(v));
        Handed { tie: *tie, force: global(force), moment: global(moment) }
    };
    built.links.iter().map(one).collect()
}

/// Vertical shift under a push: between the nodes of its element in a straight line, whichever of them is nearer.
fn sink(built: &Built, s: &Solution<'_>, push: &Push) -> f64 {
    let port = match *push {
        Push::At { port, .. } | Push::Weight { port, .. } => port,
        Push::Over { bar, from, to, .. } => crate::structure::Port { bar, at: f64::midpoint(from, to) },
    };
    let Some((e, at)) = built.element_at(port) else { return s.node(built.node(Spot::Port(port)))[2] };
    let member = &built.model.members[e.id.0];
    let share = at / (e.to - e.from).max(1e-12);
    s.node(member.i)[2] * (1.0 - share) + s.node(member.j)[2] * share
}

pub(crate) fn load_case(built: &Built, pushes: &[Push]) -> LoadCase {
    let mut case = LoadCase::new();
    let mut ends = Vec::new();
    let mut on = |id: MemberId, load: MemberLoad| case.members.push((id, load));
    for push in pushes {
        match *push {
            Push::Weight { port, force, moment } => {
                let Some((e, at)) = built.element_at(port) else { continue };
                let member = &built.model.members[e.id.0];
                let share = at / (e.to - e.from).max(1e-12);
                for (node, part) in [(member.i, 1.0 - share), (member.j, share)] {
                    let ([x, y, z], [a, b, c]) = (array(force * part), array(moment * part));
                    ends.push((node, [x, y, z, a, b, c]));
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

    /// Bars without cuts, at both ends and between others, have none.
    #[test]
    fn cuts_are_found_by_their_bar() {
        let cut = |bar: usize, at: f64| Cut { bar, at, forces: Forces::default(), gives: None };
        let cuts = vec![cut(1, 0.0), cut(1, 0.5), cut(3, 0.0), cut(4, 0.0), cut(4, 0.1), cut(4, 0.2)];
        let run = Run { cuts: cuts.clone(), ..Run::default() };
        for bar in 0..6 {
            let mine: Vec<Cut> = cuts.iter().filter(|c| c.bar == bar).copied().collect();
            assert_eq!(run.cuts_of(bar), mine, "{bar}");
        }
    }
}
