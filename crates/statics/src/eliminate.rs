//! Factoring front by front: each is a dense block, and what it leaves for later ones is added into their
//! columns at once. The dense work is a library's.

use faer::dyn_stack::{MemBuffer, MemStack};
use faer::linalg::cholesky::ldlt::factor::{LdltRegularization, cholesky_in_place, cholesky_in_place_scratch};
use faer::linalg::matmul::triangular::{BlockStructure, matmul};
use faer::linalg::triangular_solve::solve_lower_triangular_in_place;
use faer::{Accum, MatMut, MatRef, Par};

use crate::error::Error;
use crate::factor::STAND_IN;
use crate::fronts::{Front, Fronts};
use crate::layout::Layout;
use crate::matrix::Matrix;

/// Numbers in the smallest page of memory that is in use.
const PAGE: usize = 4096 / size_of::<f64>();

/// The columns of L of all fronts, each from the diagonal down. Pivots below `tiny` are replaced.
pub(crate) fn eliminate(layout: &Layout, matrix: &Matrix, scale: &[f64], tiny: f64) -> Result<Vec<f64>, Error> {
    let fronts = &*layout.fronts;
    let most = |size: fn(&Front) -> usize| fronts.list.iter().map(size).max().unwrap_or(0);
    let need = cholesky_in_place_scratch::<f64>(most(|f| f.own), Par::Seq, Default::default());
    let mut memory = MemBuffer::try_new(need).map_err(|_| Error::OutOfMemory)?;
    let signs = vec![1; most(|f| f.own)];
    let mut room = vec![0.0; most(|f| f.below * f.below)];
    let mut panels = fresh(fronts.len());
    let mut runs = Vec::new();
    for front in &fronts.list {
        let (done, later) = panels.split_at_mut(front.panel().end);
        let panel = &mut done[front.at..];
        fill((layout, matrix, scale), front, panel);
        factor(front, panel, (tiny, &signs), MemStack::new(&mut memory))?;
        let rest = &mut room[..front.below * front.below];
        leave(front, panel, rest);
        let mut open = &front.rows[..];
        while let Some(&(place, _)) = open.first() {
            let next = &fronts.list[fronts.owner[place]];
            let mine = meet(fronts, open, next, &mut runs);
            let start = next.at - front.panel().end;
            add(&runs, (rest, front.below), (&mut later[start..], next));
            open = &open[mine..];
        }
    }
    Ok(panels)
}

/// Numbers of zero in memory that is sure to be there: a page of fresh memory that is read before it is written
/// comes twice, and the second time costs as much as hundreds of multiplications.
fn fresh(count: usize) -> Vec<f64> {
    let mut out = std::hint::black_box(vec![0.0; count]);
    out.iter_mut().step_by(PAGE).for_each(|v| *v = 0.0);
    out
}

/// Adds the scaled matrix to the columns of a front.
fn fill((layout, matrix, scale): (&Layout, &Matrix, &[f64]), front: &Front, panel: &mut [f64]) {
    for p in front.places.clone() {
        let mut open = front.rows.iter();
        for (q, block) in layout.blocks_of(p) {
            let above = if q < front.places.end {
                block.row - front.start
            } else {
                open.find(|r| r.0 == q).map_or(0, |r| front.own + r.1)
            };
            let rows = &scale[block.row..block.row + block.height];
            for c in 0..block.width {
                let by = scale[block.column + c];
                let values = &matrix.values[block.at + c * block.height..][..block.height];
                let column = block.column - front.start + c;
                let into = &mut panel[column * front.height() + above..][..block.height];
                for ((into, v), s) in into.iter_mut().zip(values).zip(rows) {
                    *into += v * s * by;
                }
            }
        }
    }
}

/// Factors the columns of a front. The library's own `L·Lᵀ` loses the pivots that it replaces, so it is made of
/// `L·D·Lᵀ`, whose pivots are all above zero.
fn factor(
    front: &Front,
    panel: &mut [f64],
    (tiny, signs): (f64, &[i8]),
    stack: &mut MemStack,
) -> Result<(), Error> {
    let columns = MatMut::from_column_major_slice_mut(panel, front.height(), front.own);
    let (mut top, bottom) = columns.split_at_row_mut(front.own);
    let replacing = LdltRegularization {
        dynamic_regularization_signs: Some(&signs[..front.own]),
        dynamic_regularization_delta: STAND_IN,
        dynamic_regularization_epsilon: tiny,
    };
    cholesky_in_place(top.as_mut(), replacing, Par::Seq, stack, Default::default())
        .map_err(|_| Error::IllConditioned)?;
    for k in 0..front.own {
        let root = top[(k, k)].sqrt();
        let column = top.as_mut().col_mut(k).subrows_mut(k, front.own - k);
        column.iter_mut().for_each(|v| *v *= root);
        top[(k, k)] = root;
    }
    solve_lower_triangular_in_place(top.as_ref(), bottom.transpose_mut(), Par::Seq);
    Ok(())
}

/// What a front takes away from the later unknowns that it reaches.
fn leave(front: &Front, panel: &[f64], values: &mut [f64]) {
    let below = MatRef::from_column_major_slice(panel, front.height(), front.own).split_at_row(front.own).1;
    let into = MatMut::from_column_major_slice_mut(values, front.below, front.below);
    let (lower, dense) = (BlockStructure::TriangularLower, BlockStructure::Rectangular);
    matmul(into, lower, Accum::Replace, below, dense, below.transpose(), dense, -1.0, Par::Seq);
}

/// Unknowns that lie side by side in what a front leaves and in a later front: from where, to where, how many.
type Run = (usize, usize, usize);

/// Finds where the unknowns of some rows are in the front that the first of them belong to; how many do.
fn meet(fronts: &Fronts, rows: &[(usize, usize)], next: &Front, runs: &mut Vec<Run>) -> usize {
    runs.clear();
    let mine = rows.partition_point(|r| r.0 < next.places.end);
    let mut put = |from: usize, to: usize, len: usize| match runs.last_mut() {
        // none goes from the columns of the front into its rows
        Some((f, t, n)) if *f + *n == from && *t + *n == to && to != next.own => *n += len,
        _ => runs.push((from, to, len)),
    };
    for &(q, from) in &rows[..mine] {
        put(from, fronts.base[q] - next.start, fronts.width(q));
    }
    let mut theirs = next.rows.iter();
    for &(q, from) in &rows[mine..] {
        if let Some((_, to)) = theirs.find(|r| r.0 == q) {
            put(from, next.own + to, fronts.width(q));
        }
    }
    mine
}

/// Adds the columns of what a front leaves that belong to a later front to the columns of that.
fn add(runs: &[Run], (rest, size): (&[f64], usize), (panel, next): (&mut [f64], &Front)) {
    for (k, &(from, to, len)) in runs.iter().enumerate().take_while(|r| r.1.1 < next.own) {
        for c in 0..len {
            let column = &rest[(from + c) * size..][..size];
            let into = &mut panel[(to + c) * next.height()..][..next.height()];
            plus(&mut into[to + c..to + len], &column[from + c..]);
            for &(from, to, len) in &runs[k + 1..] {
                plus(&mut into[to..to + len], &column[from..]);
            }
        }
    }
}

fn plus(into: &mut [f64], what: &[f64]) {
    into.iter_mut().zip(what).for_each(|(a, b)| *a += b);
}
