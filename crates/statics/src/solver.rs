//! Factors once, solves any number of load cases.

use crate::check;
use crate::course::Actions;
use crate::element::{Carried, Six};
use crate::error::Error;
use crate::factor::{Factor, Matrix};
use crate::frame::Frame;
use crate::lanes::Lanes;
use crate::layout::HELD;
use crate::load::LoadCase;
use crate::mechanism::{self, SUSPECT};
use crate::model::Model;
use crate::near::{Factored, Near};
use crate::solution::Solution;
use crate::spin;
use crate::vector::halves;
use std::sync::Arc;

/// A frame factored and ready for load cases.
#[derive(Debug)]
pub struct Solver {
    model: Model,
    pub(crate) frame: Frame,
    pub(crate) factor: Factored,
    /// The matrix that has factors of its own: what buckles is asked against it.
    pub(crate) matrix: Option<Matrix>,
}

/// Pivots from here on keep ten digits without a second look.
const SURE: f64 = 1e-4;
/// An error by rounding over the smallest pivot below this is believed without another look at it.
const LIKELY: f64 = 1e-9;
/// Residuals above this are worked on.
const ROUNDING: f64 = 1e-12;
/// Pivots of cut members below this are those of floating pieces.
pub(crate) const LOOSE: f64 = 1e-14;
/// At most so many corrections.
const ROUNDS: usize = 6;

/// One load case on its way.
pub(crate) struct Work {
    loads: Vec<Six>,
    carried: Vec<(usize, Carried)>,
    u: Vec<Six>,
    ends: Vec<[Six; 2]>,
    rest: Vec<Six>,
    /// Relative size of the last correction.
    change: f64,
    /// Estimated relative error of the displacements.
    accuracy: f64,
    /// Relative residual with the displacements so far.
    residual: f64,
}

impl Solver {
    /// Checks, assembles and factors a model.
    ///
    /// # Errors
    /// [`Error::Invalid`] for figures that cannot be used, [`Error::Mechanism`] for a frame that can
    /// move, [`Error::IllConditioned`] and [`Error::OutOfMemory`].
    pub fn new(model: &Model) -> Result<Solver, Error> {
        check::model(model)?;
        let (frame, matrix) = Frame::new(model)?;
        let factor = sound_factor(&frame, &matrix, None)?;
        Ok(Solver::own(model, frame, (matrix, factor)))
    }

    /// A solver for a model in which the same nodes are held and meet, of whatever sections and stiffness: in which order its nodes
    /// are eliminated is not found out again. Of any other model as [`Solver::new`].
    ///
    /// # Errors
    /// Those of [`Solver::new`].
    pub fn like(&self, model: &Model) -> Result<Solver, Error> {
        let Some(known) = self.factor.own() else { return Solver::new(model) };
        check::model(model)?;
        let (frame, matrix) = Frame::like(model, Some(&self.frame))?;
        let known = Arc::ptr_eq(&frame.layout, &self.frame.layout).then_some(&**known);
        let factor = sound_factor(&frame, &matrix, known)?;
        Ok(Solver::own(model, frame, (matrix, factor)))
    }

    fn own(model: &Model, frame: Frame, (matrix, factor): (Matrix, Factor)) -> Solver {
        let factor = Factored::Own(Arc::new(factor));
        Solver { model: model.clone(), frame, factor, matrix: Some(matrix) }
    }

    /// A solver for a model that differs little from this one's, on the factors of this one: nodes taken apart, links left
    /// out or of other stiffness, springs and holds of the ground. `None` where it differs in anything else or in too much,
    /// or where the changed frame may not stand: then [`Solver::new`] must tell. Solutions are corrected until
    /// they balance the changed frame, as those of any other solver are.
    #[must_use]
    pub fn near(&self, model: &Model) -> Option<Solver> {
        check::model(model).ok()?;
        let (frame, near) = Near::new(self.factor.own()?, &self.frame, (&self.model, model))?;
        Some(Solver { model: model.clone(), frame, factor: Factored::Near(near), matrix: None })
    }

    /// The model it was made from.
    #[must_use]
    pub fn model(&self) -> &Model {
        &self.model
    }

    /// The smallest pivot of the stiffness matrix scaled to a unit diagonal: near one for a stout
    /// frame, small for a slender or badly scaled one.
    #[must_use]
    pub fn least_pivot(&self) -> f64 {
        self.factor.least()
    }

    /// Twice the energy, N m, that a displacement and rotation of every node puts into each member, and into all links, panels
    /// and springs of the ground together.
    ///
    /// # Panics
    /// If there are fewer than the model has nodes.
    #[must_use]
    pub fn energy(&self, nodes: &[[f64; 6]]) -> (Vec<f64>, f64) {
        let members = self.frame.elements.iter().map(|e| e.energy(nodes, nodes)).collect();
        (members, self.frame.rest_energy(nodes, nodes))
    }

    /// Solves load cases, all on the one factorisation.
    ///
    /// # Errors
    /// [`Error::Invalid`] for a load that cannot be used, [`Error::LooseMember`] for a load along a
    /// release, [`Error::Mechanism`] for a moment on a node that nothing turns with.
    pub fn solve(&self, cases: &[LoadCase]) -> Result<Vec<Solution<'_>>, Error> {
        self.solve_within(cases, 0.0)
    }

    /// The same, corrected no further than to an estimated relative error of the displacements: for what is solved often and
    /// read to few digits. What is out of balance is told with every solution.
    ///
    /// # Errors
    /// Those of [`Solver::solve`].
    pub fn solve_within(&self, cases: &[LoadCase], error: f64) -> Result<Vec<Solution<'_>>, Error> {
        let started = cases.iter().enumerate().map(|(k, case)| self.start(k, case));
        self.rounds(started.collect::<Result<Vec<Work>, Error>>()?, error)
    }

    /// Corrects what is out of balance until it is little enough.
    fn rounds(&self, mut work: Vec<Work>, error: f64) -> Result<Vec<Solution<'_>>, Error> {
        let mut open: Vec<usize> = (0..work.len()).collect();
        for round in 0..ROUNDS {
            self.correct(&mut work, &open, round);
            open.retain(|&k| self.unsure(&mut work[k], round, error));
            if open.is_empty() {
                break;
            }
        }
        if work.iter().any(|w| !w.residual.is_finite() || !w.accuracy.is_finite() || w.accuracy > 1e-3) {
            return Err(Error::IllConditioned);
        }
        Ok(work.into_iter().map(|w| self.finish(w)).collect())
    }

    /// Solves a case that differs from a solved one in its loads on nodes alone, from what came of that one: the loads on its
    /// members are not worked out again.
    ///
    /// # Errors
    /// Those of [`Solver::solve`].
    pub fn solve_from<'s>(
        &'s self,
        solved: Solution<'s>,
        case: &LoadCase,
        error: f64,
    ) -> Result<Solution<'s>, Error> {
        check::case(0, case, &self.model)?;
        let loads = self.loads(case);
        self.refuse_spins(&loads)?;
        let (u, ends, carried) = (solved.displacements, solved.ends, solved.carried);
        let rest = loads.clone();
        let mut work = Work { loads, carried, u, ends, rest, change: 2.0, accuracy: 1.0, residual: 0.0 };
        self.balance(&mut work);
        let done = self.rounds(vec![work], error)?;
        done.into_iter().next().ok_or(Error::IllConditioned)
    }

    /// Displacements and rotations of every node under loads on nodes, from the factors once: not corrected and not judged. For
    /// what is tried many times before it is solved. Loads on members and settlements are left out.
    ///
    /// # Errors
    /// [`Error::Invalid`] for a load that cannot be used, [`Error::Mechanism`] for a moment on a node that nothing turns with,
    /// [`Error::IllConditioned`] for what is no number.
    pub fn sketch(&self, cases: &[LoadCase]) -> Result<Vec<Vec<[f64; 6]>>, Error> {
        let (n, nodes) = (self.frame.layout.size, self.frame.nodes.len());
        let mut sides = vec![0.0; n * cases.len()];
        for (at, case) in cases.iter().enumerate() {
            check::case(at, case, &self.model)?;
            let loads = self.loads(case);
            self.refuse_spins(&loads)?;
            self.frame.gather(&loads, &mut sides[at * n..(at + 1) * n]);
        }
        if n > 0 {
            self.factor.solve(&mut sides);
        }
        if sides.iter().any(|v| !v.is_finite()) {
            return Err(Error::IllConditioned);
        }
        let one = |at: usize| {
            let mut out = vec![[0.0; 6]; nodes];
            self.frame.scatter_add(&sides[at * n..(at + 1) * n], &mut out);
            out
        };
        Ok((0..cases.len()).map(one).collect())
    }

    /// Loads of a case on every node.
    fn loads(&self, case: &LoadCase) -> Vec<Six> {
        let mut loads = vec![[0.0; 6]; self.frame.nodes.len()];
        for (node, force) in &case.nodes {
            loads[node.0] = std::array::from_fn(|k| loads[node.0][k] + force[k]);
        }
        loads
    }

    /// Everything still but the settlements; what is out of balance then.
    fn start(&self, at: usize, case: &LoadCase) -> Result<Work, Error> {
        check::case(at, case, &self.model)?;
        let (loads, mut u) = (self.loads(case), vec![[0.0; 6]; self.frame.nodes.len()]);
        for &(node, k, by) in &case.settlements {
            u[node.0][k] += by;
        }
        self.refuse_spins(&loads)?;
        let carried = self.carry(at, case)?;
        let mut work = Work {
            rest: loads.clone(),
            loads,
            carried,
            u,
            ends: Vec::new(),
            change: 2.0,
            accuracy: 1.0,
            residual: 0.0,
        };
        if case.settlements.is_empty() {
            for (k, c) in &work.carried {
                let e = &self.frame.elements[*k];
                let held = e.end_forces([&[0.0; 6]; 2], Some(c));
                for (end, force) in held.iter().enumerate() {
                    let f = e.at_node(end, force);
                    let rest = &mut work.rest[e.nodes[end]];
                    *rest = std::array::from_fn(|d| rest[d] - f[d]);
                }
            }
        } else {
            self.balance(&mut work);
        }
        Ok(work)
    }

    fn refuse_spins(&self, loads: &[Six]) -> Result<(), Error> {
        let driven = self.frame.spins.iter().filter(|s| spin::drives(s, halves(&loads[s.node]).1));
        let found: Vec<_> = driven.map(|s| mechanism::spinning(s.node, s.axis)).collect();
        if found.is_empty() { Ok(()) } else { Err(Error::Mechanism(found)) }
    }

    fn carry(&self, at: usize, case: &LoadCase) -> Result<Vec<(usize, Carried)>, Error> {
        let mut order: Vec<usize> = (0..case.members.len()).collect();
        order.sort_by_key(|&k| case.members[k].0);
        let mut out = Vec::new();
        for same in order.chunk_by(|&a, &b| case.members[a].0 == case.members[b].0) {
            let member = case.members[same[0]].0.0;
            let e = &self.frame.elements[member];
            let mut actions = Actions::default();
            for &k in same {
                actions.push(&case.members[k].1, e.length, &e.axes);
            }
            let carried = e.carry(actions).ok_or(Error::LooseMember { case: at, member })?;
            out.push((member, carried));
        }
        Ok(out)
    }

    /// What is out of balance at every node with the displacements so far.
    fn balance(&self, work: &mut Work) {
        work.rest.copy_from_slice(&work.loads);
        self.frame.subtract_forces(&work.u, &work.carried, &mut work.rest, &mut work.ends);
    }

    /// One correction of several cases by the factors.
    fn correct(&self, work: &mut [Work], which: &[usize], round: usize) {
        let n = self.frame.layout.size;
        let mut sides = vec![0.0; n * which.len()];
        if n > 0 {
            for (side, &k) in sides.chunks_exact_mut(n).zip(which) {
                self.frame.gather(&work[k].rest, side);
            }
            self.factor.solve(&mut sides);
        }
        for (place, &k) in which.iter().enumerate() {
            let side = &sides[place * n..(place + 1) * n];
            let w = &mut work[k];
            self.frame.scatter_add(side, &mut w.u);
            // The first answer is all change.
            let finite = side.iter().all(|v| v.is_finite());
            w.change = if round > 0 || !finite { self.relative(side, &w.u) } else { 1.0 };
            self.balance(w);
            w.residual = self.residual(w);
        }
    }

    /// Size of a correction against the whole, in scaled terms.
    fn relative(&self, change: &[f64], u: &[Six]) -> f64 {
        let mut whole = vec![0.0; change.len()];
        self.frame.gather(u, &mut whole);
        let size = |v: &[f64]| v.iter().zip(self.factor.scale()).map(|(x, s)| (x / s).abs()).fold(0.0, nan_max);
        let (a, b) = (size(change), size(&whole));
        if a == 0.0 { 0.0 } else { a / b }
    }

    /// Judges the displacements after a round; whether another round could better them to what is wanted.
    fn unsure(&self, work: &mut Work, round: usize, wanted: f64) -> bool {
        let least = self.factor.least();
        let by_pivots = f64::EPSILON / least;
        if round == 0 {
            work.accuracy = if work.change.is_finite() { by_pivots } else { f64::INFINITY };
            let sure = least > SURE && work.residual < ROUNDING;
            let enough = by_pivots.max(work.residual / least) < wanted;
            return !(sure || enough) && work.accuracy.is_finite();
        }
        let before = if round == 1 { 1.0 } else { work.accuracy };
        // corrections shrink alike from round to round: the next one, which nobody need compute, is known
        let next = work.change * (work.change / before);
        if next < wanted.max(f64::EPSILON) && by_pivots < wanted.max(LIKELY) {
            work.accuracy = next.max(by_pivots);
            return false;
        }
        work.accuracy = work.change;
        // A correction that no longer shrinks is rounding.
        work.change > 1e-14 && work.change < 0.5 * before
    }

    /// Largest force out of balance against the largest force, and the same of moments; infinite when
    /// a figure is not finite.
    fn residual(&self, work: &Work) -> f64 {
        let mut open = Lanes::default();
        for (six, slots) in work.rest.iter().zip(&self.frame.layout.slot) {
            open.put(&std::array::from_fn(|k| if slots[k] == HELD { 0.0 } else { six[k] }));
        }
        let scale = Lanes::over(work.ends.iter().flatten().chain(&work.loads).chain(&work.rest));
        if !(open.finite() && scale.finite()) {
            return f64::INFINITY;
        }
        let (out, [force, moment]) = (open.pair(), scale.pair());
        // A frame of pure push and pull has only rounding for moments.
        let scale = [force, moment.max(force * self.frame.size)];
        (0..2).map(|k| if out[k] == 0.0 { 0.0 } else { out[k] / scale[k] }).fold(0.0, f64::max)
    }

    fn finish(&self, work: Work) -> Solution<'_> {
        let reactions = self.reactions(&work);
        Solution {
            solver: self,
            displacements: work.u,
            ends: work.ends,
            reactions,
            carried: work.carried,
            residual: work.residual,
            accuracy: work.accuracy,
        }
    }

    /// Forces of the ground on every node: of fixed directions and of springs.
    fn reactions(&self, work: &Work) -> Vec<Six> {
        let one = |n: usize| {
            let (node, slots) = (&self.frame.nodes[n], &self.frame.layout.slot[n]);
            std::array::from_fn(|k| {
                let held = if slots[k] == HELD { -work.rest[n][k] } else { 0.0 };
                held - node.spring[k] * work.u[n][k]
            })
        };
        (0..self.frame.nodes.len()).map(one).collect()
    }
}

/// The larger, or not a number if either is not.
fn nan_max(a: f64, b: f64) -> f64 {
    if a.is_nan() || a > b { a } else { b }
}

/// Factors that are sound: no mechanism, no pivot lost in rounding.
fn sound_factor(frame: &Frame, matrix: &Matrix, known: Option<&Factor>) -> Result<Factor, Error> {
    let factor = Factor::like(&frame.layout, matrix, SUSPECT, known)?;
    if factor.replaced.is_empty() {
        return Ok(factor);
    }
    let found = mechanism::find(frame, &factor)?;
    if !found.is_empty() {
        return Err(Error::Mechanism(found));
    }
    let again = Factor::like(&frame.layout, matrix, f64::MIN_POSITIVE, Some(&factor))?;
    if again.replaced.is_empty() { Ok(again) } else { Err(Error::IllConditioned) }
}
