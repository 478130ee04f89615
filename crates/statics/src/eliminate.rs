//! Factoring front by front: each is a dense block, and what it leaves for later ones is added into their
//! columns at once.

use crate::dense::{self, Pivots};
use crate::error::Error;
use crate::fronts::{Front, Fronts};
use crate::layout::Layout;
use crate::matrix::Matrix;

/// Numbers in the smallest page of memory that is in use.
const PAGE: usize = 4096 / size_of::<f64>();

/// Columns of what a front leaves that are found at once: not so many that they would leave the near memory.
const WIDE: usize = 128;

/// The columns of L of all fronts, each from the diagonal down.
pub(crate) fn eliminate(
    layout: &Layout,
    matrix: &Matrix,
    scale: &[f64],
    pivots: Pivots<'_>,
) -> Result<Vec<f64>, Error> {
    let fronts = &*layout.fronts;
    let mut room = Vec::new();
    let mut panels = fresh(fronts);
    for front in &fronts.list {
        let (done, later) = panels.split_at_mut(front.panel().end);
        let panel = &mut done[front.at..];
        fill((layout, matrix, scale), front, panel);
        if !dense::factor(panel, front.height(), 0, pivots.of(front.unknowns())) {
            return Err(Error::IllConditioned);
        }
        leave(fronts, front, panel, &mut room, later);
    }
    Ok(panels)
}

/// Takes what a front leaves away from the columns of later ones, some columns at a time.
fn leave(fronts: &Fronts, front: &Front, panel: &[f64], room: &mut Vec<f64>, later: &mut [f64]) {
    let (mut from, mut open, mut runs) = (0, &front.rows[..], Vec::new());
    while from < front.below {
        let to = if front.below - from < 2 * WIDE { front.below } else { from + WIDE };
        let height = front.below - from;
        room.resize(room.len().max(height * (to - from)), 0.0);
        let rest = &mut room[..height * (to - from)];
        dense::leave(panel, front.height(), (from, to), rest);
        while let Some(&(place, _)) = open.first().filter(|r| r.1 < to) {
            let next = &fronts.list[fronts.owner[place]];
            let mine = meet(fronts, open, next, &mut runs);
            let start = next.at - front.panel().end;
            add(&runs, (from, to), (rest, height), (&mut later[start..], next));
            let end = open.get(mine).map_or(front.below, |r| r.1);
            if end > to {
                break;
            }
            open = &open[mine..];
        }
        from = to;
    }
}

/// Columns of zeros, in memory that is sure to be there from the diagonals down: a page of fresh memory that is read
/// before it is written comes twice, and the second time costs as much as thousands of multiplications.
fn fresh(fronts: &Fronts) -> Vec<f64> {
    let mut out = std::hint::black_box(vec![0.0; fronts.len()]);
    for front in &fronts.list {
        for (k, column) in out[front.panel()].chunks_exact_mut(front.height()).enumerate() {
            column[k..].iter_mut().step_by(PAGE).for_each(|v| *v = 0.0);
            column[front.height() - 1] = 0.0;
        }
    }
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

/// Adds some columns of what a front leaves, which start on the diagonal, to those of the later front that they
/// belong to.
fn add(
    runs: &[Run],
    (first, last): (usize, usize),
    (rest, size): (&[f64], usize),
    (panel, next): (&mut [f64], &Front),
) {
    for (k, &(from, to, len)) in runs.iter().enumerate().take_while(|r| r.1.1 < next.own) {
        for column in from.max(first)..(from + len).min(last) {
            let rest = &rest[(column - first) * size..][..size];
            let own = to + column - from;
            let into = &mut panel[own * next.height()..][..next.height()];
            plus(&mut into[own..to + len], &rest[column - first..]);
            for &(from, to, len) in &runs[k + 1..] {
                plus(&mut into[to..to + len], &rest[from - first..]);
            }
        }
    }
}

fn plus(into: &mut [f64], what: &[f64]) {
    into.iter_mut().zip(what).for_each(|(a, b)| *a += b);
}
