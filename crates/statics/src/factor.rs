//! The stiffness matrix and its factors, by a library: supernodal LDLᵀ on one thread.
//!
//! The matrix is scaled to a unit diagonal first, so that pivots compare like with like whatever
//! the units: displacements with rotations, hard members with soft springs.

use faer::dyn_stack::{MemBuffer, MemStack, StackReq};
use faer::linalg::cholesky::ldlt::factor::LdltRegularization;
use faer::sparse::linalg::SupernodalThreshold;
use faer::sparse::linalg::cholesky::supernodal::SupernodalLdltRef;
use faer::sparse::linalg::cholesky::{
    CholeskySymbolicParams, LdltRef, SymbolicCholesky, SymbolicCholeskyRaw, SymmetricOrdering,
    factorize_symbolic_cholesky,
};
use faer::sparse::{SparseColMatRef, SymbolicSparseColMatRef};
use faer::{Conj, MatMut, Par, Side};

use crate::error::Error;
use crate::layout::{HELD, Layout};
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
            if free {
                // the rows of a node follow each other, and end at the diagonal
                let there = &mut self.values[start..start + if row.0 == col.0 { e + 1 } else { 6 }];
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

    /// An entry of the diagonal block of one node, zero where held.
    pub fn at(&self, layout: &Layout, node: usize, row: usize, col: usize) -> f64 {
        let found = layout.entry((node, row), (node, col)).or(layout.entry((node, col), (node, row)));
        found.map_or(0.0, |at| self.values[at])
    }
}

/// The factors of a matrix.
#[derive(Debug)]
pub(crate) struct Factor {
    symbolic: Option<Arc<SymbolicCholesky<usize>>>,
    values: Vec<f64>,
    /// Square roots of the inverse diagonal.
    pub scale: Vec<f64>,
    /// Unknowns whose pivot was too small and was replaced.
    pub replaced: Vec<usize>,
    /// Smallest pivot of the scaled matrix, one at most.
    pub least: f64,
}

/// What a replaced pivot is set to; no pivot of a matrix with unit diagonal reaches it by itself.
const STAND_IN: f64 = 2.0;

impl Factor {
    /// Factors a matrix. Pivots below `tiny` of the scaled matrix are replaced: as if the unknown
    /// were held by a spring.
    pub fn new(layout: &Layout, matrix: &Matrix, tiny: f64) -> Result<Factor, Error> {
        Factor::like(layout, matrix, tiny, None)
    }

    /// The same; a known matrix of the same layout tells the pattern of the factors.
    pub fn like(layout: &Layout, matrix: &Matrix, tiny: f64, known: Option<&Factor>) -> Result<Factor, Error> {
        let n = layout.size;
        let scale = scales(layout, matrix);
        if n == 0 {
            return Ok(Factor { symbolic: None, values: vec![], scale, replaced: vec![], least: 1.0 });
        }
        let pattern = SymbolicSparseColMatRef::new_checked(n, n, &layout.columns, None, &layout.rows);
        let symbolic = match known.and_then(|k| k.symbolic.as_ref()) {
            Some(known) => Arc::clone(known),
            None => Arc::new(analyse(pattern)?),
        };
        let scaled = scaled(layout, matrix, &scale);
        let values = numeric(&symbolic, SparseColMatRef::new(pattern, &scaled), tiny)?;
        let (replaced, least) = pivots(&symbolic, &values);
        Ok(Factor { symbolic: Some(symbolic), values, scale, replaced, least })
    }

    /// Whether no pivot is lost when a share of another matrix is taken away from the factored one, and the rest is positive definite.
    pub fn stays_sound(&self, layout: &Layout, matrix: &Matrix, (other, share): (&Matrix, f64)) -> bool {
        let Some(symbolic) = &self.symbolic else { return true };
        let values = matrix.values.iter().zip(&other.values).map(|(m, o)| m - share * o).collect();
        let left = scaled(layout, &Matrix { values }, &self.scale);
        let pattern =
            SymbolicSparseColMatRef::new_checked(layout.size, layout.size, &layout.columns, None, &layout.rows);
        let Ok(values) = numeric(symbolic, SparseColMatRef::new(pattern, &left), f64::MIN_POSITIVE) else {
            return false;
        };
        // a pull that stiffens a direction by half says no as well: then whoever asks goes on searching
        pivots(symbolic, &values).0.is_empty()
    }

    /// Solves for several right sides, one after the other in `sides`, in place.
    pub fn solve(&self, sides: &mut [f64]) {
        let n = self.scale.len();
        let Some(symbolic) = &self.symbolic else { return };
        let count = sides.len() / n;
        self.rescale(sides);
        let mut memory = MemBuffer::new(symbolic.solve_in_place_scratch::<f64>(count, Par::Seq));
        let mat = MatMut::from_column_major_slice_mut(sides, n, count);
        let factors = LdltRef::new(symbolic, &self.values);
        factors.solve_in_place_with_conj(Conj::No, mat, Par::Seq, MemStack::new(&mut memory));
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

/// Unknowns whose pivot was replaced, and the smallest of the others.
fn pivots(symbolic: &SymbolicCholesky<usize>, values: &[f64]) -> (Vec<usize>, f64) {
    let (mut replaced, mut least) = (Vec::new(), 1.0_f64);
    let SymbolicCholeskyRaw::Supernodal(symbolic) = symbolic.raw() else { return (replaced, least) };
    let factors = SupernodalLdltRef::new(symbolic, values);
    for s in 0..symbolic.n_supernodes() {
        let node = factors.supernode(s);
        let block = node.val();
        for k in 0..block.ncols() {
            let pivot = block[(k, k)];
            if pivot > 1.5 {
                replaced.push(node.start() + k);
            } else {
                least = least.min(pivot);
            }
        }
    }
    (replaced, least)
}

fn scales(layout: &Layout, matrix: &Matrix) -> Vec<f64> {
    let diagonal = (0..layout.size).map(|c| matrix.values[layout.columns[c + 1] - 1]);
    diagonal.map(|d| if d > 0.0 { 1.0 / d.sqrt() } else { 1.0 }).collect()
}

fn scaled(layout: &Layout, matrix: &Matrix, scale: &[f64]) -> Vec<f64> {
    let mut out = matrix.values.clone();
    for c in 0..layout.size {
        for at in layout.columns[c]..layout.columns[c + 1] {
            out[at] *= scale[c] * scale[layout.rows[at]];
        }
    }
    out
}

/// The pattern of the factors. Always in supernodes: measured faster than column by column even
/// on the smallest frames, whose unknowns come six by six.
fn analyse(pattern: SymbolicSparseColMatRef<'_, usize>) -> Result<SymbolicCholesky<usize>, Error> {
    let params = CholeskySymbolicParams {
        supernodal_flop_ratio_threshold: SupernodalThreshold::FORCE_SUPERNODAL,
        ..CholeskySymbolicParams::default()
    };
    factorize_symbolic_cholesky(pattern, Side::Upper, SymmetricOrdering::Identity, params)
        .map_err(|_| Error::OutOfMemory)
}

fn numeric(
    symbolic: &SymbolicCholesky<usize>,
    matrix: SparseColMatRef<'_, usize, f64>,
    tiny: f64,
) -> Result<Vec<f64>, Error> {
    let signs = vec![1; matrix.ncols()];
    let regularization = LdltRegularization {
        dynamic_regularization_signs: Some(&signs),
        dynamic_regularization_delta: STAND_IN,
        dynamic_regularization_epsilon: tiny,
    };
    let mut values = vec![0.0; symbolic.len_val()];
    let need = symbolic.factorize_numeric_ldlt_scratch::<f64>(Par::Seq, Default::default());
    let mut memory = MemBuffer::try_new(StackReq::all_of(&[need])).map_err(|_| Error::OutOfMemory)?;
    let stack = MemStack::new(&mut memory);
    symbolic
        .factorize_numeric_ldlt(
            &mut values,
            matrix,
            Side::Upper,
            regularization,
            Par::Seq,
            stack,
            Default::default(),
        )
        .map_err(|_| Error::IllConditioned)?;
    Ok(values)
}
