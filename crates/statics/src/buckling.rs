//! Linear buckling: by what factor a load case must grow until the frame can give way sideways.
//!
//! `(K + λ Kg) φ = 0` with the geometric stiffness of the axial forces of the load case itself; the
//! forces are taken to grow in proportion. Members are cut into pieces first, since one element can
//! not bend into the shape of a strut held at both ends. Not covered: torsional and lateral-torsional
//! buckling of thin open sections, local buckling of walls, yielding, and initial bends.

use crate::element::Element;
use crate::error::{Error, Fault, Item};
use crate::factor::{Factor, Matrix};
use crate::frame::Frame;
use crate::geometric::{self, POINTS, Tension};
use crate::krylov;
use crate::model::Model;
use crate::solution::Solution;
use crate::solver::{LOOSE, Solver};
use crate::split::split_each;

/// Pulls that differ by less than this share of the greatest are the same.
const ALIKE: f64 = 1e-9;

/// How to look for buckling.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BucklingOptions {
    /// How many of the smallest factors to find, at least one.
    pub count: usize,
    /// Pieces to cut the member into that is pushed most for what it bears, at least one; the others are cut
    /// into as few as keep their pieces no more pushed than its own. The error of a factor falls with
    /// their fourth power; the part of it that comes from shear strain falls with their square.
    pub pieces: usize,
}

impl Default for BucklingOptions {
    fn default() -> Self {
        BucklingOptions { count: 1, pieces: 8 }
    }
}

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub enum Buckling {
    /// The load case cannot make the frame buckle, however much it grows; or by pushes so slight among its pulls that it would have to
    /// grow ten thousand times and more.
    Never,
    /// The smallest load factors above zero, ascending, with their shapes; fewer than asked for if
    /// there are no more.
    At(Vec<Mode>),
}

/// One way of buckling.
#[derive(Clone, Debug, PartialEq)]
pub struct Mode {
    /// The load case times this is critical.
    pub factor: f64,
    /// Displacements and rotations of the nodes, global; the largest displacement anywhere, or
    /// rotation times the size of the frame, is one.
    pub nodes: Vec<[f64; 6]>,
    /// Displacements of each member at the ends of its pieces, global. First and last are those of
    /// its nodes.
    pub members: Vec<Vec<[f64; 3]>>,
}

/// A frame cut into pieces and factored once, for looking at how it gives way in several of its load cases.
#[derive(Debug)]
pub struct CutFrame<'a, 's> {
    cases: Vec<&'a Solution<'s>>,
    count: usize,
    /// Of every member.
    pieces: Vec<usize>,
    /// None where no member is cut: then frame and factors of the solver are those of the pieces.
    own: Option<(Frame, Factor, Matrix)>,
}

impl<'a, 's> CutFrame<'a, 's> {
    /// Cuts the frame of load cases that were solved together; every member into as many pieces as that case asks for that asks
    /// for most.
    ///
    /// # Errors
    /// [`Error::Invalid`] for options of zero, for no case and for cases of different frames, [`Error::IllConditioned`],
    /// [`Error::OutOfMemory`].
    pub fn new(
        cases: impl IntoIterator<Item = &'a Solution<'s>>,
        options: &BucklingOptions,
    ) -> Result<Self, Error> {
        let cases: Vec<&Solution<'s>> = cases.into_iter().collect();
        for (name, value) in [("count", options.count), ("pieces", options.pieces), ("cases", cases.len())] {
            if value == 0 {
                return Err(Error::Invalid { item: Item::Option(name), fault: Fault::NotPositive });
            }
        }
        let solver = cases[0].solver;
        if cases.iter().any(|c| !std::ptr::eq(c.solver, solver)) {
            return Err(Error::Invalid { item: Item::Option("cases"), fault: Fault::OtherFrame });
        }
        let mut pieces = cases[0].pieces(options);
        for case in &cases[1..] {
            pieces.iter_mut().zip(case.pieces(options)).for_each(|(most, mine)| *most = mine.max(*most));
        }
        let whole = pieces.iter().all(|p| *p == 1) && solver.factor.own().is_some();
        let own = if whole { None } else { Some(factored(solver, &pieces)?) };
        Ok(CutFrame { cases, count: options.count, pieces, own })
    }

    /// Finds the load factors at which one of the load cases, counted from zero, makes the frame buckle.
    ///
    /// # Errors
    /// [`Error::IllConditioned`] if the search does not settle.
    ///
    /// # Panics
    /// If there is no such case.
    pub fn buckling(&self, case: usize) -> Result<Buckling, Error> {
        self.buckling_near(case, None)
    }

    /// How many times another of the load cases one is, both counted from zero, as far as its pushes and pulls go: it gives way in
    /// the same shapes, at that share of the load factors of the other. `None` where it is another load.
    ///
    /// # Panics
    /// If there are no such cases.
    #[must_use]
    pub fn times(&self, case: usize, other: usize) -> Option<f64> {
        let figures = |case: usize| {
            let each = self.cases[case].tensions(&self.pieces);
            each.into_iter()
                .flat_map(|t| t.pull.into_iter().chain(t.ends.into_iter().flatten()))
                .collect::<Vec<f64>>()
        };
        let (mine, others) = (figures(case), figures(other));
        let (at, most) = others.iter().enumerate().max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))?;
        let times = mine[at] / most;
        let same = |(a, b): (&f64, &f64)| (a - times * b).abs() <= ALIKE * (times * most).abs();
        (times > 0.0 && times.is_finite() && mine.iter().zip(&others).all(same)).then_some(times)
    }

    /// The same, looked for near a mode of a like frame or load case first. Where it gives way in another shape nothing is lost but
    /// time.
    ///
    /// # Errors
    /// Those of [`CutFrame::buckling`].
    ///
    /// # Panics
    /// If there is no such case.
    pub fn buckling_near(&self, case: usize, mode: Option<&Mode>) -> Result<Buckling, Error> {
        let case = self.cases[case];
        let plan = Plan { model: case.solver.model(), pieces: &self.pieces, count: self.count };
        let tensions = case.tensions(&self.pieces);
        let solver = case.solver;
        let (frame, factor, matrix) = match (&self.own, solver.factor.own(), &solver.matrix) {
            (Some((frame, factor, matrix)), ..) => (frame, factor, matrix),
            (None, Some(factor), Some(matrix)) => (&solver.frame, &**factor, matrix),
            _ => return Err(Error::IllConditioned),
        };
        find(&plan, (frame, matrix, factor), &tensions, mode)
    }
}

fn factored(solver: &Solver, pieces: &[usize]) -> Result<(Frame, Factor, Matrix), Error> {
    let (frame, matrix) = Frame::new(&split_each(solver.model(), pieces))?;
    // The whole frame is sound, but the pieces of a member that is released along itself at both
    // ends float; a replaced pivot holds them and touches nothing else.
    let factor = Factor::new(&frame.layout, &matrix, LOOSE)?;
    Ok((frame, factor, matrix))
}

impl Solution<'_> {
    /// Finds the load factors at which this load case makes the frame buckle. Several cases of one frame are looked at sooner
    /// by a [`CutFrame`].
    ///
    /// # Errors
    /// [`Error::Invalid`] for options of zero, [`Error::IllConditioned`] if the search does not settle,
    /// [`Error::OutOfMemory`].
    pub fn buckling(&self, options: &BucklingOptions) -> Result<Buckling, Error> {
        CutFrame::new([self], options)?.buckling(0)
    }

    fn pieces(&self, options: &BucklingOptions) -> Vec<usize> {
        let elements = &self.solver.frame.elements;
        let tensions = self.tensions(&vec![1; elements.len()]);
        let pushed = |(e, t): (&Element, &Tension)| {
            let over = e.length * e.length / e.least_bending();
            let least = t.pull.iter().fold(f64::INFINITY, |a, n| a.min(-n)).max(0.0);
            let greatest = t.pull.iter().fold(0.0, |a: f64, n| a.max(n.abs()));
            Pushed { least: least * over, greatest: greatest * over }
        };
        let pushed: Vec<Pushed> = elements.iter().zip(&tensions).map(pushed).collect();
        pieces(&pushed, options)
    }

    /// Pulls at the Gauss points of every piece of every member.
    pub(crate) fn tensions(&self, pieces: &[usize]) -> Vec<Tension> {
        let mut out = Vec::with_capacity(pieces.iter().sum());
        for ((m, e), &pieces) in self.solver.frame.elements.iter().enumerate().zip(pieces) {
            let ends = &self.ends[m];
            let forces = geometric::end_forces(e, ends);
            let carried = self.carried(crate::MemberId(m));
            let pull = |p: usize, at: f64| {
                let x = e.length * (p as f64 + at) / pieces as f64;
                carried.map_or(-ends[0][0], |c| c.inside(&ends[0], x, false)[0])
            };
            out.extend((0..pieces).map(|p| Tension { pull: POINTS.map(|at| pull(p, at)), ends: forces }));
        }
        out
    }
}

/// How much a member is pushed for what it bears: force along it times the square of its length over its least bending stiffness E·I.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pushed {
    /// By a push of which there is as much along its whole length; zero where there is none.
    pub least: f64,
    /// By the greatest pull or push anywhere in it: a pull stiffens, and bends the shape of it as much.
    pub greatest: f64,
}

/// Into how many pieces each member is cut. A member held still at both ends gives way at `4 π² EI / L²` (Euler), and no
/// frame bears more than one of its members so held: so many factors there are no greater than those of the
/// members most pushed for what they bear. What is pushed little against these hardly bends by its push.
#[must_use]
pub fn pieces(members: &[Pushed], options: &BucklingOptions) -> Vec<usize> {
    if options.pieces <= 1 || options.count == 0 {
        return vec![1; members.len()];
    }
    let mut sure: Vec<f64> = members.iter().map(|m| m.least).collect();
    sure.sort_by(|a, b| b.total_cmp(a));
    let most = sure.get(options.count - 1).copied().unwrap_or(0.0);
    let share = |m: &Pushed| {
        let part = m.greatest / most;
        // where no push is sure there is nothing to go by
        if part.is_finite() { part.min(1.0).sqrt() } else { 1.0 }
    };
    let cut = |m: &Pushed| ((options.pieces as f64 * share(m)).ceil() as usize).clamp(1, options.pieces);
    members.iter().map(cut).collect()
}

/// What is looked for in which frame.
struct Plan<'a> {
    model: &'a Model,
    /// Of every member.
    pieces: &'a [usize],
    count: usize,
}

fn find(
    plan: &Plan<'_>,
    (frame, matrix, factor): (&Frame, &Matrix, &Factor),
    tensions: &[Tension],
    near: Option<&Mode>,
) -> Result<Buckling, Error> {
    if geometric::only_pulls(frame, tensions) || frame.layout.size == 0 {
        return Ok(Buckling::Never);
    }
    let mut push = geometric::matrix(frame, tensions);
    push.values.iter_mut().for_each(|v| *v = -*v);
    // what stands under a load factor has no smaller one (Sylvester's law of inertia): no pivot is lost
    let none_above = |value: f64| factor.stays_sound(&frame.layout, matrix, (&push, 1.0 / value));
    let near = near.map(|mode| known(frame, mode));
    let pairs = krylov::largest((&frame.layout, factor, &push), (plan.count, near.as_deref()), &none_above)?;
    if pairs.is_empty() {
        return Ok(Buckling::Never);
    }
    Ok(Buckling::At(pairs.iter().map(|(value, vector)| mode(plan, frame, *value, vector)).collect()))
}

/// The unknowns of a mode at the nodes that it tells of; the pieces of others stay where they are.
fn known(frame: &Frame, mode: &Mode) -> Vec<f64> {
    let mut nodes = mode.nodes.clone();
    nodes.resize(frame.nodes.len(), [0.0; 6]);
    let mut out = vec![0.0; frame.layout.size];
    frame.gather(&nodes, &mut out);
    out
}

fn mode(plan: &Plan<'_>, frame: &Frame, value: f64, vector: &[f64]) -> Mode {
    let mut all = vec![[0.0; 6]; frame.nodes.len()];
    frame.scatter_add(vector, &mut all);
    let weigh = |k: usize, v: f64| v * if k < 3 { 1.0 } else { frame.size };
    let larger = |a: f64, b: f64| if b.abs() > a.abs() { b } else { a };
    let most = all.iter().flat_map(|s| s.iter().enumerate()).fold(0.0, |a, (k, v)| larger(a, weigh(k, *v)));
    for six in &mut all {
        *six = six.map(|v| v / most);
    }
    let mut elements = frame.elements.iter();
    let shape = |&pieces: &usize| {
        let ends = elements.by_ref().take(pieces).enumerate();
        let nodes = ends.flat_map(|(p, e)| if p == 0 { &e.nodes[..] } else { &e.nodes[1..] });
        nodes.map(|&n| [all[n][0], all[n][1], all[n][2]]).collect()
    };
    let members = plan.pieces.iter().map(shape).collect();
    Mode { factor: 1.0 / value, nodes: all[..plan.model.nodes.len()].to_vec(), members }
}
