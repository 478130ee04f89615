//! Forward and back substitution of one right side through the supernodes of `L·D·Lᵀ`, in plain loops over the columns.
//!
//! The library's own is made for many right sides and wide supernodes. Whether this is faster on one has not been measured by itself.

use faer::sparse::linalg::cholesky::supernodal::SupernodalLdltRef;

type Factors<'a> = SupernodalLdltRef<'a, usize, f64>;

/// Solves in place; `None` where the columns of the factors do not lie in one piece.
pub(crate) fn solve(factors: Factors<'_>, count: usize, side: &mut [f64]) -> Option<()> {
    let mut below = Vec::new();
    for s in 0..count {
        forward(factors, s, side, &mut below)?;
    }
    for s in (0..count).rev() {
        back(factors, s, side, &mut below)?;
    }
    Some(())
}

/// Takes what the unknowns of one supernode put on those behind it.
fn forward(factors: Factors<'_>, s: usize, side: &mut [f64], below: &mut Vec<f64>) -> Option<()> {
    let node = factors.supernode(s);
    let (block, start, pattern) = (node.val(), node.start(), node.pattern());
    let width = block.ncols();
    below.clear();
    below.resize(pattern.len(), 0.0);
    for k in 0..width {
        let column = block.col(k).try_as_col_major()?.as_slice();
        let x = side[start + k];
        if x != 0.0 {
            take(&mut side[start + k + 1..start + width], &column[k + 1..width], x);
            take(below, &column[width..], x);
        }
    }
    for (&at, v) in pattern.iter().zip(below.iter()) {
        side[at] += v;
    }
    Some(())
}

/// Divides by the pivots of one supernode and takes what the unknowns behind it put on its own.
fn back(factors: Factors<'_>, s: usize, side: &mut [f64], below: &mut Vec<f64>) -> Option<()> {
    let node = factors.supernode(s);
    let (block, start, pattern) = (node.val(), node.start(), node.pattern());
    let width = block.ncols();
    below.clear();
    below.extend(pattern.iter().map(|&at| side[at]));
    for k in (0..width).rev() {
        let column = block.col(k).try_as_col_major()?.as_slice();
        let known =
            dot(&column[width..], below) + dot(&column[k + 1..width], &side[start + k + 1..start + width]);
        side[start + k] = side[start + k] / column[k] - known;
    }
    Some(())
}

fn take(from: &mut [f64], what: &[f64], by: f64) {
    from.iter_mut().zip(what).for_each(|(a, b)| *a -= by * b);
}

/// In eight sums side by side, so that no addition waits for the one before.
pub(crate) fn dot(a: &[f64], b: &[f64]) -> f64 {
    let (a, b) = (a.chunks_exact(8), b.chunks_exact(8));
    let rest: f64 = a.remainder().iter().zip(b.remainder()).map(|(x, y)| x * y).sum();
    let mut sums = [0.0; 8];
    for (x, y) in a.zip(b) {
        sums = std::array::from_fn(|k| sums[k] + x[k] * y[k]);
    }
    rest + sums.iter().sum::<f64>()
}
