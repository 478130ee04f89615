//! The factors `L·Lᵀ` of a stiffness matrix, and solving by them, on one thread.
//!
//! The matrix is scaled to a unit diagonal first, so that pivots compare like with like whatever
//! the units: displacements with rotations, hard members with soft springs.

use std::sync::Arc;

use faer::linalg::matmul::matmul;
use faer::linalg::triangular_solve::{solve_lower_triangular_in_place, solve_upper_triangular_in_place};
use faer::{Accum, MatMut, MatRef, Par};

use crate::eliminate::eliminate;
use crate::error::Error;
use crate::fronts::{Front, Fronts};
use crate::layout::Layout;
use crate::matrix::Matrix;

/// The factors of a matrix.
#[derive(Debug)]
pub(crate) struct Factor {
    fronts: Arc<Fronts>,
    /// The columns of L of each front, from the diagonal down.
    panels: Vec<f64>,
    /// Square roots of the inverse diagonal.
    pub scale: Vec<f64>,
    /// Unknowns whose pivot was too small and was replaced.
    pub replaced: Vec<usize>,
    /// Smallest pivot of the scaled matrix, one at most.
    pub least: f64,
}

/// What a replaced pivot is set to; no pivot of a matrix with unit diagonal reaches it by itself.
pub(crate) const STAND_IN: f64 = 2.0;

impl Factor {
    /// Factors a matrix. Pivots below `tiny` of the scaled matrix are replaced: as if the unknown
    /// were held by a spring.
    pub fn new(layout: &Layout, matrix: &Matrix, tiny: f64) -> Result<Factor, Error> {
        let diagonal = layout.diagonal().map(|at| matrix.values[at]);
        let scale: Vec<f64> = diagonal.map(|d| if d > 0.0 { 1.0 / d.sqrt() } else { 1.0 }).collect();
        let panels = eliminate(layout, matrix, &scale, tiny)?;
        let mut out =
            Factor { fronts: Arc::clone(&layout.fronts), panels, scale, replaced: vec![], least: 1.0 };
        out.read_pivots();
        Ok(out)
    }

    fn read_pivots(&mut self) {
        for front in &self.fronts.list {
            let diagonal = self.panels[front.panel()].iter().step_by(front.height() + 1).take(front.own);
            for (k, root) in diagonal.enumerate() {
                let pivot = root * root;
                if pivot > 0.75 * STAND_IN {
                    self.replaced.push(front.start + k);
                } else {
                    self.least = self.least.min(pivot);
                }
            }
        }
    }

    /// Solves for several right sides, one after the other in `sides`, in place.
    pub fn solve(&self, sides: &mut [f64]) {
        let n = self.scale.len();
        if n == 0 {
            return;
        }
        let count = sides.len() / n;
        self.rescale(sides);
        let most = self.fronts.list.iter().map(|f| f.below).max().unwrap_or(0);
        let mut room = vec![0.0; most * count];
        for front in &self.fronts.list {
            self.forward(front, MatMut::from_column_major_slice_mut(sides, n, count), &mut room);
        }
        for front in self.fronts.list.iter().rev() {
            self.back(front, MatMut::from_column_major_slice_mut(sides, n, count), &mut room);
        }
        self.rescale(sides);
    }

    /// Solves for the unknowns of a front, and takes what they put on later ones away from those.
    fn forward(&self, front: &Front, mut sides: MatMut<f64>, room: &mut [f64]) {
        let (count, (top, bottom)) = (sides.ncols(), self.columns(front));
        solve_lower_triangular_in_place(top, sides.as_mut().subrows_mut(front.start, front.own), Par::Seq);
        if front.below == 0 {
            return;
        }
        let room = &mut room[..front.below * count];
        let mut put = MatMut::from_column_major_slice_mut(room, front.below, count);
        let known = sides.as_ref().subrows(front.start, front.own);
        matmul(put.as_mut(), Accum::Replace, bottom, known, 1.0, Par::Seq);
        for (from, to, len) in self.fronts.runs(front) {
            for c in 0..count {
                for k in 0..len {
                    sides[(to + k, c)] -= put[(from + k, c)];
                }
            }
        }
    }

    /// Solves for the unknowns of a front when the later ones are known.
    fn back(&self, front: &Front, mut sides: MatMut<f64>, room: &mut [f64]) {
        let (count, (top, bottom)) = (sides.ncols(), self.columns(front));
        if front.below > 0 {
            let room = &mut room[..front.below * count];
            let mut known = MatMut::from_column_major_slice_mut(room, front.below, count);
            for (from, to, len) in self.fronts.runs(front) {
                for c in 0..count {
                    for k in 0..len {
                        known[(from + k, c)] = sides[(to + k, c)];
                    }
                }
            }
            let open = sides.as_mut().subrows_mut(front.start, front.own);
            matmul(open, Accum::Add, bottom.transpose(), known, -1.0, Par::Seq);
        }
        let open = sides.subrows_mut(front.start, front.own);
        solve_upper_triangular_in_place(top.transpose(), open, Par::Seq);
    }

    /// The columns of a front: those of its own rows, and those below.
    fn columns(&self, front: &Front) -> (MatRef<'_, f64>, MatRef<'_, f64>) {
        let panel = &self.panels[front.panel()];
        MatRef::from_column_major_slice(panel, front.height(), front.own).split_at_row(front.own)
    }

    fn rescale(&self, sides: &mut [f64]) {
        for side in sides.chunks_exact_mut(self.scale.len()) {
            for (v, s) in side.iter_mut().zip(&self.scale) {
                *v *= s;
            }
        }
    }
}
