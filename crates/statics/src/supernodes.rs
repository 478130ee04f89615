//! The factors of a matrix by a library: supernodal LDLᵀ on one thread.

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

use crate::blocks::Pivots;
use crate::error::Error;
use crate::factor::STAND_IN;
use crate::layout::Layout;
use std::sync::Arc;

/// Pattern and numbers of the factors.
#[derive(Debug)]
pub(crate) struct Supernodes {
    symbolic: Arc<SymbolicCholesky<usize>>,
    values: Vec<f64>,
}

impl Supernodes {
    /// Factors a matrix by its upper triangle, scaled to a unit diagonal. A pivot that is not above `tiny` is replaced.
    pub fn new(
        layout: &Layout,
        known: Option<&Supernodes>,
        (values, scale): (&[f64], &[f64]),
        tiny: f64,
    ) -> Result<(Supernodes, Pivots), Error> {
        let n = layout.size;
        let pattern = SymbolicSparseColMatRef::new_checked(n, n, &layout.columns, None, &layout.rows);
        let symbolic = match known {
            Some(known) => Arc::clone(&known.symbolic),
            None => Arc::new(analyse(pattern)?),
        };
        let scaled = scaled(layout, values, scale);
        let values = numeric(&symbolic, SparseColMatRef::new(pattern, &scaled), tiny)?;
        let pivots = pivots(&symbolic, &values);
        Ok((Supernodes { symbolic, values }, pivots))
    }

    /// Solves for several right sides of `n` unknowns, one after the other in `sides`, in place.
    pub fn solve(&self, sides: &mut [f64], n: usize) {
        let count = sides.len() / n;
        let mut memory = MemBuffer::new(self.symbolic.solve_in_place_scratch::<f64>(count, Par::Seq));
        let mat = MatMut::from_column_major_slice_mut(sides, n, count);
        let factors = LdltRef::new(&self.symbolic, &self.values);
        factors.solve_in_place_with_conj(Conj::No, mat, Par::Seq, MemStack::new(&mut memory));
    }
}

/// Unknowns whose pivot was replaced, and the smallest of the others.
fn pivots(symbolic: &SymbolicCholesky<usize>, values: &[f64]) -> Pivots {
    let mut out = Pivots { replaced: Vec::new(), least: 1.0 };
    let SymbolicCholeskyRaw::Supernodal(symbolic) = symbolic.raw() else { return out };
    let factors = SupernodalLdltRef::new(symbolic, values);
    for s in 0..symbolic.n_supernodes() {
        let node = factors.supernode(s);
        let block = node.val();
        for k in 0..block.ncols() {
            let pivot = block[(k, k)];
            if pivot > 1.5 {
                out.replaced.push(node.start() + k);
            } else {
                out.least = out.least.min(pivot);
            }
        }
    }
    out
}

/// The pattern of the factors. Always in supernodes: measured faster than column by column, for unknowns come six by six.
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

fn scaled(layout: &Layout, values: &[f64], scale: &[f64]) -> Vec<f64> {
    let mut out = values.to_vec();
    for c in 0..layout.size {
        for at in layout.columns[c]..layout.columns[c + 1] {
            out[at] *= scale[c] * scale[layout.rows[at]];
        }
    }
    out
}
