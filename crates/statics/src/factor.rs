//! The stiffness matrix and its factors: of wide fronts a library's, of small frames in blocks of a node.
//!
//! The matrix is scaled to a unit diagonal first, so that pivots compare like with like whatever
//! the units: displacements with rotations, hard members with soft springs.

use crate::blocks::{Blocks, Pattern, Pivots};
use crate::error::Error;
use crate::layout::{HELD, Layout};
use crate::supernodes::Supernodes;
use std::sync::Arc;

/// A symmetric matrix, upper triangle.
#[derive(Clone, Debug)]
pub(crate) struct Matrix {
    pub values: Vec<f64>,
}

impl Matrix {
    pub fn new(layout: &Layout) -> Matrix {
        Matrix { values: vec![0.0; layout.rows.len()] }
    }

    /// Adds the part of an element: `column` gives the columns of its symmetric matrix by (node of the element, direction).
    pub fn add<'m>(&mut self, layout: &Layout, nodes: &[usize], column: impl Fn(usize) -> &'m [f64]) {
        for (b, &col) in nodes.iter().enumerate() {
            for (a, &row) in nodes.iter().enumerate() {
                self.add_block(layout, (row, a), (col, b), &column);
            }
        }
    }

    fn add_block<'m>(
        &mut self,
        layout: &Layout,
        row: (usize, usize),
        col: (usize, usize),
        entries: &impl Fn(usize) -> &'m [f64],
    ) {
        let Some(block) = layout.block(row.0, col.0) else { return };
        let rows = &layout.slot[row.0];
        let free = rows.iter().all(|r| *r != HELD);
        let first = layout.first(row.0);
        for (e, &column) in layout.slot[col.0].iter().enumerate().filter(|(_, c)| **c != HELD) {
            let start = layout.columns[column] + block;
            let entries = &entries(6 * col.1 + e)[6 * row.1..];
            if free && row.0 != col.0 {
                // six by six, of one length known beforehand
                let pair = self.values[start..].first_chunk_mut::<6>().zip(entries.first_chunk::<6>());
                if let Some((there, k)) = pair {
                    there.iter_mut().zip(k).for_each(|(v, k)| *v += k);
                }
                continue;
            }
            if free {
                // the rows of a node follow each other, and end at the diagonal
                let there = &mut self.values[start..=start + e];
                there.iter_mut().zip(entries).for_each(|(v, k)| *v += k);
                continue;
            }
            // what is held has no place, and comes after every column
            for (&r, k) in rows.iter().zip(entries).filter(|(r, _)| **r <= column) {
                self.values[start + r - first] += k;
            }
        }
    }

    /// Adds to the diagonal block of one node.
    pub fn add_at(&mut self, layout: &Layout, node: usize, row: usize, col: usize, value: f64) {
        if let Some(at) = layout.entry((node, row), (node, col)) {
            self.values[at] += value;
        }
    }

    /// What turns of one node meet of themselves, zero where held.
    pub fn rotations(&self, layout: &Layout, node: usize) -> [[f64; 3]; 3] {
        let (slots, first) = (&layout.slot[node], layout.first(node));
        let start = layout.block(node, node).unwrap_or(0);
        let mut out = [[0.0; 3]; 3];
        for c in (0..3).filter(|c| slots[3 + c] != HELD) {
            let column = &self.values[layout.columns[slots[3 + c]] + start..];
            // only what is at or above the diagonal is kept
            for r in (0..=c).filter(|r| slots[3 + r] != HELD) {
                let v = column[slots[3 + r] - first];
                (out[r][c], out[c][r]) = (v, v);
            }
        }
        out
    }
}

/// The factors of a matrix.
#[derive(Debug)]
pub(crate) struct Factor {
    by: By,
    /// Square roots of the inverse diagonal.
    pub scale: Vec<f64>,
    /// Unknowns whose pivot was too small and was replaced.
    pub replaced: Vec<usize>,
    /// Smallest pivot of the scaled matrix, one at most.
    pub least: f64,
}

/// What holds the numbers.
#[derive(Debug)]
enum By {
    /// Blocks of six by six, of a small frame.
    Blocks(Arc<Pattern>, Blocks),
    Library(Supernodes),
}

/// What a replaced pivot is set to; no pivot of a matrix with unit diagonal reaches it by itself.
pub(crate) const STAND_IN: f64 = 2.0;

impl Factor {
    /// Factors a matrix. Pivots below `tiny` of the scaled matrix are replaced: as if the unknown
    /// were held by a spring.
    pub fn new(layout: &Layout, matrix: &Matrix, tiny: f64) -> Result<Factor, Error> {
        Factor::like(layout, matrix, tiny, None)
    }

    /// The same; a known matrix of the same layout tells the pattern of the factors.
    pub fn like(layout: &Layout, matrix: &Matrix, tiny: f64, known: Option<&Factor>) -> Result<Factor, Error> {
        let scale = scales(layout, matrix);
        let numbers = (&matrix.values[..], &scale[..]);
        let (by, Pivots { replaced, least }) = match known.map(|k| &k.by) {
            Some(By::Blocks(pattern, _)) => blocks(layout, pattern, numbers, tiny),
            Some(By::Library(known)) => library(layout, Some(known), numbers, tiny)?,
            None => match Pattern::of(layout) {
                Some(pattern) => blocks(layout, &Arc::new(pattern), numbers, tiny),
                None => library(layout, None, numbers, tiny)?,
            },
        };
        Ok(Factor { by, scale, replaced, least })
    }

    /// Whether no pivot is lost when a share of another matrix is taken away from the factored one, and the rest is positive definite.
    pub fn stays_sound(&self, layout: &Layout, matrix: &Matrix, (other, share): (&Matrix, f64)) -> bool {
        let values: Vec<f64> = matrix.values.iter().zip(&other.values).map(|(m, o)| m - share * o).collect();
        let left = (&values[..], &self.scale[..]);
        let lost = match &self.by {
            By::Blocks(pattern, _) => Some(pattern.factor(layout, left, f64::MIN_POSITIVE).1.replaced),
            By::Library(known) => {
                library(layout, Some(known), left, f64::MIN_POSITIVE).ok().map(|(_, p)| p.replaced)
            }
        };
        // a pull that stiffens a direction by half may say no as well: then whoever asks goes on searching
        lost.is_some_and(|lost| lost.is_empty())
    }

    /// Solves for several right sides, one after the other in `sides`, in place.
    pub fn solve(&self, sides: &mut [f64]) {
        let n = self.scale.len();
        if n == 0 {
            return;
        }
        self.rescale(sides);
        match &self.by {
            By::Blocks(pattern, blocks) => pattern.solve(blocks, sides),
            By::Library(known) => known.solve(sides, n),
        }
        self.rescale(sides);
    }

    fn rescale(&self, sides: &mut [f64]) {
        for side in sides.chunks_exact_mut(self.scale.len()) {
            for (v, s) in side.iter_mut().zip(&self.scale) {
                *v *= s;
            }
        }
    }
}

/// A matrix by its upper triangle, and what its rows and columns are scaled by.
type Numbers<'a> = (&'a [f64], &'a [f64]);

fn blocks(layout: &Layout, pattern: &Arc<Pattern>, numbers: Numbers<'_>, tiny: f64) -> (By, Pivots) {
    let (blocks, pivots) = pattern.factor(layout, numbers, tiny);
    (By::Blocks(Arc::clone(pattern), blocks), pivots)
}

fn library(
    layout: &Layout,
    known: Option<&Supernodes>,
    numbers: Numbers<'_>,
    tiny: f64,
) -> Result<(By, Pivots), Error> {
    let (factors, pivots) = Supernodes::new(layout, known, numbers, tiny)?;
    Ok((By::Library(factors), pivots))
}

fn scales(layout: &Layout, matrix: &Matrix) -> Vec<f64> {
    let diagonal = (0..layout.size).map(|c| matrix.values[layout.columns[c + 1] - 1]);
    diagonal.map(|d| if d > 0.0 { 1.0 / d.sqrt() } else { 1.0 }).collect()
}
