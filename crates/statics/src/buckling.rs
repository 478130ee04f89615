//! Linear buckling: by what factor a load case must grow until the frame can give way sideways.
//!
//! `(K + λ Kg) φ = 0` with the geometric stiffness of the axial forces of the load case itself; the
//! forces are taken to grow in proportion. Members are cut into pieces first, since one element can
//! not bend into the shape of a strut held at both ends. Not covered: torsional and lateral-torsional
//! buckling of thin open sections, local buckling of walls, yielding, and initial bends.

use crate::error::{Error, Fault, Item};
use crate::factor::Factor;
use crate::frame::Frame;
use crate::geometric::{self, POINTS, Tension};
use crate::krylov;
use crate::model::Model;
use crate::solution::Solution;
use crate::solver::LOOSE;
use crate::split::split;

/// How to look for buckling.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BucklingOptions {
    /// How many of the smallest factors to find, at least one.
    pub count: usize,
    /// Pieces to cut each member into, at least one. The error of a factor falls with their fourth
    /// power; the part of it that comes from shear strain falls with their square.
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
    /// The load case cannot make the frame buckle, however much it grows.
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

impl Solution<'_> {
    /// Finds the load factors at which this load case makes the frame buckle.
    ///
    /// # Errors
    /// [`Error::Invalid`] for options of zero, [`Error::IllConditioned`] if the search does not settle,
    /// [`Error::OutOfMemory`].
    pub fn buckling(&self, options: &BucklingOptions) -> Result<Buckling, Error> {
        for (name, value) in [("count", options.count), ("pieces", options.pieces)] {
            if value == 0 {
                return Err(Error::Invalid { item: Item::Option(name), fault: Fault::NotPositive });
            }
        }
        let tensions = self.tensions(options.pieces);
        if let (1, Some(factor)) = (options.pieces, self.solver.factor.own()) {
            return find(self.solver.model(), (&self.solver.frame, factor), &tensions, options);
        }
        let cut = split(self.solver.model(), options.pieces);
        let (frame, matrix) = Frame::new(&cut)?;
        // The whole frame is sound, but the pieces of a member that is released along itself at both
        // ends float; a replaced pivot holds them and touches nothing else.
        let factor = Factor::new(&frame.layout, &matrix, LOOSE)?;
        find(self.solver.model(), (&frame, &factor), &tensions, options)
    }

    /// Pulls at the Gauss points of every piece of every member.
    pub(crate) fn tensions(&self, pieces: usize) -> Vec<Tension> {
        let mut out = Vec::with_capacity(self.ends.len() * pieces);
        for (m, e) in self.solver.frame.elements.iter().enumerate() {
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

fn find(
    model: &Model,
    (frame, factor): (&Frame, &Factor),
    tensions: &[Tension],
    options: &BucklingOptions,
) -> Result<Buckling, Error> {
    if geometric::only_pulls(frame, tensions) || frame.layout.size == 0 {
        return Ok(Buckling::Never);
    }
    let mut push = geometric::matrix(frame, tensions);
    push.values.iter_mut().for_each(|v| *v = -*v);
    let pairs = krylov::largest(&frame.layout, factor, &push, options.count)?;
    if pairs.is_empty() {
        return Ok(Buckling::Never);
    }
    let modes = pairs.iter().map(|(value, vector)| mode(model, frame, *value, vector, options.pieces));
    Ok(Buckling::At(modes.collect()))
}

fn mode(model: &Model, frame: &Frame, value: f64, vector: &[f64], pieces: usize) -> Mode {
    let mut all = vec![[0.0; 6]; frame.nodes.len()];
    frame.scatter_add(vector, &mut all);
    let weigh = |k: usize, v: f64| v * if k < 3 { 1.0 } else { frame.size };
    let larger = |a: f64, b: f64| if b.abs() > a.abs() { b } else { a };
    let most = all.iter().flat_map(|s| s.iter().enumerate()).fold(0.0, |a, (k, v)| larger(a, weigh(k, *v)));
    for six in &mut all {
        *six = six.map(|v| v / most);
    }
    let shape = |m: usize| {
        let start = frame.elements[m * pieces].nodes[0];
        let rest = (0..pieces).map(|p| frame.elements[m * pieces + p].nodes[1]);
        std::iter::once(start).chain(rest).map(|n| [all[n][0], all[n][1], all[n][2]]).collect()
    };
    let members = (0..model.members.len()).map(shape).collect();
    Mode { factor: 1.0 / value, nodes: all[..model.nodes.len()].to_vec(), members }
}
