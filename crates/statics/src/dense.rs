//! Dense work on the columns of one front, which lie one after the other, each as tall as the front. What is above
//! the diagonal is never read.
//!
//! Narrow blocks of columns are worked on here, in loops that the compiler turns to vector instructions; what they
//! take away from others is a product of matrices, left to a library.

use std::ops::Range;

use faer::linalg::matmul::matmul;
use faer::linalg::matmul::triangular::{self, BlockStructure};
use faer::linalg::triangular_solve::{solve_lower_triangular_in_place, solve_upper_triangular_in_place};
use faer::traits::ComplexField;
use faer::{Accum, MatMut, MatRef, Par};

/// So many columns are worked on here rather than parted further.
const NARROW: usize = 24;
/// Columns that are taken from others together: loading and storing those others is most of the work.
const GROUP: usize = 4;
/// From so many right sides on, solving is a product of matrices.
const MANY: usize = 4;

/// What becomes of pivots.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Pivots<'a> {
    /// What they are compared with.
    pub diagonal: &'a [f64],
    /// At most this share of it, they are replaced.
    pub tiny: f64,
    /// By what.
    pub stand_in: f64,
}

impl Pivots<'_> {
    /// Those of some of the unknowns.
    pub fn of(&self, unknowns: Range<usize>) -> Pivots<'_> {
        Pivots { diagonal: &self.diagonal[unknowns], ..*self }
    }
}

/// Factors columns to those of `L·Lᵀ`; the diagonal of the first is in the row after those `above`. False where a
/// pivot is no number.
pub(crate) fn factor(columns: &mut [f64], height: usize, above: usize, pivots: Pivots<'_>) -> bool {
    let own = columns.len() / height;
    if own <= NARROW {
        return wide(
            #[inline(always)]
            || narrow(columns, height, above, pivots),
        );
    }
    let half = (own / 2).next_multiple_of(GROUP);
    let (first, second) = columns.split_at_mut(half * height);
    if !factor(first, height, above, pivots.of(0..half)) {
        return false;
    }
    let known = MatRef::from_column_major_slice(first, height, half).split_at_row(above + half).1;
    let (beside, below) = known.split_at_row(own - half);
    let open = MatMut::from_column_major_slice_mut(second, height, own - half).split_at_row_mut(above + half).1;
    if own <= 2 * NARROW {
        matmul(open, Accum::Add, known, beside.transpose(), -1.0, Par::Seq);
    } else {
        let (top, bottom) = open.split_at_row_mut(own - half);
        lower(top, Accum::Add, beside);
        matmul(bottom, Accum::Add, below, beside.transpose(), -1.0, Par::Seq);
    }
    factor(second, height, above + half, pivots.of(half..own))
}

/// What factored columns take away from the unknowns below them: of that, the columns from one to another, each
/// from the row of the first one down.
pub(crate) fn leave(columns: &[f64], height: usize, (from, to): (usize, usize), values: &mut [f64]) {
    let own = columns.len() / height;
    let below = MatRef::from_column_major_slice(columns, height, own).split_at_row(own + from).1;
    let (beside, below) = below.split_at_row(to - from);
    let into = MatMut::from_column_major_slice_mut(values, height - own - from, to - from);
    let (top, bottom) = into.split_at_row_mut(to - from);
    lower(top, Accum::Replace, beside);
    matmul(bottom, Accum::Replace, below, beside.transpose(), -1.0, Par::Seq);
}

fn lower(into: MatMut<f64>, accum: Accum, of: MatRef<f64>) {
    let (half, whole) = (BlockStructure::TriangularLower, BlockStructure::Rectangular);
    triangular::matmul(into, half, accum, of, whole, of.transpose(), whole, -1.0, Par::Seq);
}

/// Solves `L·x = b` for the unknowns of a front: in each of `sides` are their right sides and, after them, nought for
/// each that they reach, which becomes what is to be added to it.
pub(crate) fn forward(columns: &[f64], height: usize, sides: &mut [f64]) {
    let (own, count) = (columns.len() / height, sides.len() / height);
    if count < MANY {
        sides.chunks_exact_mut(height).for_each(|side| forward_one(columns, height, side));
        return;
    }
    let (top, bottom) = MatRef::from_column_major_slice(columns, height, own).split_at_row(own);
    let (mut known, taken) = MatMut::from_column_major_slice_mut(sides, height, count).split_at_row_mut(own);
    solve_lower_triangular_in_place(top, known.as_mut(), Par::Seq);
    matmul(taken, Accum::Replace, bottom, known, -1.0, Par::Seq);
}

/// Solves `Lᵀ·x = b` for the unknowns of a front: in each of `sides` are their right sides and, after them, the
/// answers of those that they reach.
pub(crate) fn back(columns: &[f64], height: usize, sides: &mut [f64]) {
    let (own, count) = (columns.len() / height, sides.len() / height);
    if count < MANY {
        sides.chunks_exact_mut(height).for_each(|side| back_one(columns, height, side));
        return;
    }
    let (top, bottom) = MatRef::from_column_major_slice(columns, height, own).split_at_row(own);
    let (mut open, known) = MatMut::from_column_major_slice_mut(sides, height, count).split_at_row_mut(own);
    matmul(open.as_mut(), Accum::Add, bottom.transpose(), known, -1.0, Par::Seq);
    solve_upper_triangular_in_place(top.transpose(), open, Par::Seq);
}

fn forward_one(columns: &[f64], height: usize, side: &mut [f64]) {
    wide(
        #[inline(always)]
        || {
            for (k, group) in columns.chunks(GROUP * height).enumerate() {
                let (start, n) = (GROUP * k, group.len() / height);
                for (j, column) in group.chunks_exact(height).enumerate() {
                    let (top, rest) = side[start + j..].split_at_mut(1);
                    top[0] /= column[start + j];
                    take(&mut rest[..n - j - 1], &column[start + j + 1..start + n], top[0]);
                }
                let (known, rest) = side.split_at_mut(start + n);
                take_group(rest, group, height, start + n, |j| known[start + j]);
            }
        },
    );
}

fn back_one(columns: &[f64], height: usize, side: &mut [f64]) {
    wide(
        #[inline(always)]
        || {
            for (k, group) in columns.chunks(GROUP * height).enumerate().rev() {
                let (start, n) = (GROUP * k, group.len() / height);
                let known = along(group, height, &side[start + n..]);
                for (j, column) in group.chunks_exact(height).enumerate().rev() {
                    let row = start + j;
                    let near = column[row + 1..start + n].iter().zip(&side[row + 1..]);
                    let near: f64 = near.map(|(l, x)| l * x).sum();
                    side[row] = (side[row] - known[j] - near) / column[row];
                }
            }
        },
    );
}

/// Does work with what vector instructions the machine has.
fn wide<R>(work: impl FnOnce() -> R) -> R {
    <f64 as ComplexField>::Arch::default().dispatch(work)
}

#[inline(always)]
fn narrow(columns: &mut [f64], height: usize, above: usize, pivots: Pivots<'_>) -> bool {
    for j in 0..columns.len() / height {
        let (done, open) = columns.split_at_mut(j * height);
        let row = above + j;
        let open = &mut open[row..height];
        for group in done.chunks(GROUP * height) {
            take_group(open, group, height, row, |k| group[k * height + row]);
        }
        let lost = open[0] <= pivots.tiny * pivots.diagonal[j];
        let root = if lost { pivots.stand_in.sqrt() } else { open[0].sqrt() };
        if !root.is_finite() {
            return false;
        }
        open[0] = root;
        let by = 1.0 / root;
        open[1..].iter_mut().for_each(|v| *v *= by);
    }
    true
}

/// Takes a group of columns, from a row on, so many times each from another.
#[inline(always)]
fn take_group(from: &mut [f64], group: &[f64], height: usize, row: usize, times: impl Fn(usize) -> f64) {
    let column = |k: usize| &group[k * height + row..(k + 1) * height];
    if group.len() < GROUP * height {
        (0..group.len() / height).for_each(|k| take(from, column(k), times(k)));
        return;
    }
    let [p, q, r, s] = [0, 1, 2, 3].map(&times);
    let columns = column(0).iter().zip(column(1)).zip(column(2)).zip(column(3));
    for (v, (((a, b), c), d)) in from.iter_mut().zip(columns) {
        *v -= (p * a + q * b) + (r * c + s * d);
    }
}

#[inline(always)]
fn take(from: &mut [f64], what: &[f64], times: f64) {
    from.iter_mut().zip(what).for_each(|(v, w)| *v -= times * w);
}

/// The products of the columns of a group with what is given for their last rows.
#[inline(always)]
fn along(group: &[f64], height: usize, with: &[f64]) -> [f64; GROUP] {
    let mut out = [0.0; GROUP];
    let tail = |k: usize| &group[(k + 1) * height - with.len()..(k + 1) * height];
    if group.len() < GROUP * height {
        for (k, out) in out.iter_mut().enumerate().take(group.len() / height) {
            *out = tail(k).iter().zip(with).map(|(l, x)| l * x).sum();
        }
        return out;
    }
    let mut sums = [[0.0; 4]; GROUP];
    let (x, rest) = with.as_chunks::<4>();
    let tails: [(&[[f64; 4]], &[f64]); GROUP] = std::array::from_fn(|k| tail(k).as_chunks::<4>());
    for (i, x) in x.iter().enumerate() {
        for (sums, tail) in sums.iter_mut().zip(&tails) {
            for (sum, (l, x)) in sums.iter_mut().zip(tail.0[i].iter().zip(x)) {
                *sum += l * x;
            }
        }
    }
    for ((out, sums), tail) in out.iter_mut().zip(&sums).zip(&tails) {
        let last: f64 = tail.1.iter().zip(rest).map(|(l, x)| l * x).sum();
        *out = (sums[0] + sums[1]) + (sums[2] + sums[3]) + last;
    }
    out
}
