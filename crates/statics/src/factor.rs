//! The factors `L·Lᵀ` of a stiffness matrix, and solving by them, on one thread.
//!
//! The matrix is scaled first by powers of two, which rounds nothing, to a diagonal near one; and each pivot is
//! compared with what its own entry of the diagonal was. So like is compared with like whatever the units:
//! displacements with rotations, hard members with soft springs.

use std::sync::Arc;

use crate::dense::{self, Pivots};
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
    /// By what the matrix is scaled.
    powers: Vec<f64>,
    /// Square roots of the inverse diagonal.
    pub scale: Vec<f64>,
    /// Unknowns whose pivot was too small and was replaced.
    pub replaced: Vec<usize>,
    /// Smallest pivot against its entry of the diagonal.
    pub least: f64,
}

/// What a replaced pivot is set to; no other reaches it, since no entry of the scaled diagonal is above two.
const STAND_IN: f64 = 4.0;

impl Factor {
    /// Factors a matrix. Pivots below `tiny` of their entry of the diagonal are replaced: as if the unknown
    /// were held by a spring.
    pub fn new(layout: &Layout, matrix: &Matrix, tiny: f64) -> Result<Factor, Error> {
        let mut diagonal: Vec<f64> = layout.diagonal().map(|at| matrix.values[at]).collect();
        let scale = diagonal.iter().map(|&d| if d > 0.0 { 1.0 / d.sqrt() } else { 1.0 }).collect();
        let powers: Vec<f64> = diagonal.iter().map(|&d| power(d)).collect();
        for (d, power) in diagonal.iter_mut().zip(&powers) {
            *d = if *d > 0.0 { *d * power * power } else { 1.0 };
        }
        let panels =
            eliminate(layout, matrix, &powers, Pivots { diagonal: &diagonal, tiny, stand_in: STAND_IN })?;
        let fronts = Arc::clone(&layout.fronts);
        let mut out = Factor { fronts, panels, powers, scale, replaced: vec![], least: 1.0 };
        out.read_pivots(&diagonal);
        Ok(out)
    }

    fn read_pivots(&mut self, given: &[f64]) {
        for front in &self.fronts.list {
            let diagonal = self.panels[front.panel()].iter().step_by(front.height() + 1);
            for (root, at) in diagonal.zip(front.unknowns()) {
                let pivot = root * root;
                if pivot > 0.75 * STAND_IN {
                    self.replaced.push(at);
                } else {
                    self.least = self.least.min(pivot / given[at]);
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
        self.rescale(sides);
        let most = self.fronts.list.iter().map(Front::height).max().unwrap_or(0);
        let mut room = vec![0.0; most * (sides.len() / n)];
        for front in &self.fronts.list {
            self.forward(front, sides, &mut room[..front.height() * (sides.len() / n)]);
        }
        for front in self.fronts.list.iter().rev() {
            self.back(front, sides, &mut room[..front.height() * (sides.len() / n)]);
        }
        self.rescale(sides);
    }

    /// Solves for the unknowns of a front, and takes what they put on later ones away from those.
    fn forward(&self, front: &Front, sides: &mut [f64], room: &mut [f64]) {
        let n = self.scale.len();
        for (side, room) in sides.chunks_exact(n).zip(room.chunks_exact_mut(front.height())) {
            room[..front.own].copy_from_slice(&side[front.unknowns()]);
            room[front.own..].fill(0.0);
        }
        dense::forward(&self.panels[front.panel()], front.height(), room);
        for (side, room) in sides.chunks_exact_mut(n).zip(room.chunks_exact(front.height())) {
            side[front.unknowns()].copy_from_slice(&room[..front.own]);
            for (before, to, len) in self.fronts.runs(front) {
                let taken = &room[front.own + before..][..len];
                side[to..to + len].iter_mut().zip(taken).for_each(|(v, t)| *v += t);
            }
        }
    }

    /// Solves for the unknowns of a front when the later ones are known.
    fn back(&self, front: &Front, sides: &mut [f64], room: &mut [f64]) {
        let n = self.scale.len();
        for (side, room) in sides.chunks_exact(n).zip(room.chunks_exact_mut(front.height())) {
            room[..front.own].copy_from_slice(&side[front.unknowns()]);
            for (before, from, len) in self.fronts.runs(front) {
                room[front.own + before..][..len].copy_from_slice(&side[from..from + len]);
            }
        }
        dense::back(&self.panels[front.panel()], front.height(), room);
        for (side, room) in sides.chunks_exact_mut(n).zip(room.chunks_exact(front.height())) {
            side[front.unknowns()].copy_from_slice(&room[..front.own]);
        }
    }

    fn rescale(&self, sides: &mut [f64]) {
        for side in sides.chunks_exact_mut(self.scale.len()) {
            for (v, s) in side.iter_mut().zip(&self.powers) {
                *v *= s;
            }
        }
    }
}

/// The power of two whose square brings a size to at least a half and below two.
fn power(size: f64) -> f64 {
    let plain = size > 0.0 && size.is_finite();
    if plain { libm::scalbn(1.0, -(libm::ilogb(size) + 1).div_euclid(2)) } else { 1.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn powers_bring_every_size_near_one() {
        for size in [1e-310, 3e-5, 0.25, 0.5, 1.0, 2.0, 3.99, 4.0, 7.7e11, 1e308] {
            let by = power(size);
            assert!((0.5..2.0).contains(&(size * by * by)), "{size:e} {by:e}");
        }
        assert_eq!([power(0.0), power(-3.0), power(f64::INFINITY)], [1.0; 3]);
    }
}
