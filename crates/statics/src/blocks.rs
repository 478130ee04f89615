//! Factors of a small frame, six unknowns by six: `L·D·Lᵀ` in blocks of one node against another.
//!
//! A chair is factored and solved dozens of times for one answer, and its fronts are a few nodes wide: there the library's
//! kernels for large matrices spend most of their time on being called. Blocks of one size need no calls: a frame of 122 nodes
//! took a fifth of the time to solve (59 and 12 µs a right side) and a third to factor (0.38 and 0.13 ms). Wider fronts are the
//! library's (`supernodes.rs`); both agree to rounding (`blocks/tests.rs`).

use crate::factor::STAND_IN;
use crate::layout::Layout;
use kernel::{Block, Column, Kernel, ROWS, SIX, ZERO};
use pulp::{Arch, Simd, WithSimd};
use std::ops::Range;

mod kernel;
#[cfg(test)]
mod tests;

/// So many products of blocks a node are narrow fronts. A chair has four to eight, a lattice of bars in space twenty and more: the
/// library's times grow less with its size.
const NARROW: usize = 12;
/// Nodes from which a frame is taken. The solver promises twenty cases for less than twice the time of one (`statics_bench.py`).
/// Of 32 nodes these kernels take one case in half the library's time, but twenty, one after the other, in as much: 2.6 times one.
const FEW: usize = 80;

/// Which blocks the factors have, and where each product of two goes.
#[derive(Debug)]
pub(crate) struct Pattern {
    /// First unknown of each place, and one more at the end.
    first: Vec<usize>,
    /// For each place, where its blocks start, and one more at the end.
    starts: Vec<usize>,
    /// Place of the rows of every block, ascending within a column.
    rows: Vec<usize>,
    /// Block that each product of two blocks of a column is taken from; the diagonal's own follow the others.
    targets: Vec<usize>,
}

/// The factors in numbers.
#[derive(Debug)]
pub(crate) struct Blocks {
    /// `L` below the diagonal.
    below: Vec<Block>,
    /// Inverse of the unit lower triangle on the diagonal.
    inverse: Vec<Block>,
    /// Inverse of `D`.
    inverse_d: Vec<[f64; SIX]>,
}

/// Unknowns whose pivot was replaced, and the smallest of the others, one at most.
#[derive(Debug)]
pub(crate) struct Pivots {
    pub replaced: Vec<usize>,
    pub least: f64,
}

impl Pattern {
    /// Of the factors of a layout; `None` for the library's.
    pub fn of(layout: &Layout) -> Option<Pattern> {
        let count = layout.places();
        if count < FEW { None } else { Pattern::within(layout, NARROW * count) }
    }

    /// The same, of at most so many products.
    fn within(layout: &Layout, most: usize) -> Option<Pattern> {
        let count = layout.places();
        let moves = |p: usize| !layout.unknowns(p).is_empty();
        let mut columns: Vec<Vec<usize>> = vec![Vec::new(); count];
        for p in (0..count).filter(|p| moves(*p)) {
            for q in layout.earlier(p).iter().map(|e| e.0).filter(|q| moves(*q)) {
                columns[q].push(p);
            }
        }
        let mut products = 0;
        for q in 0..count {
            let mine = std::mem::take(&mut columns[q]);
            products += mine.len() * (mine.len() + 1) / 2;
            if products > most {
                return None;
            }
            // what a column reaches, the next one that it meets reaches as well
            if let Some((&next, rest)) = mine.split_first() {
                merge(&mut columns[next], rest);
            }
            columns[q] = mine;
        }
        let mut out = Pattern {
            first: (0..count).map(|p| layout.unknowns(p).start).chain([layout.size]).collect(),
            starts: vec![0],
            rows: Vec::new(),
            targets: Vec::with_capacity(products),
        };
        for column in &columns {
            out.rows.extend(column);
            out.starts.push(out.rows.len());
        }
        out.aim(count);
        Some(out)
    }

    /// Finds the block of every product.
    fn aim(&mut self, count: usize) {
        for q in 0..count {
            let mine = &self.rows[self.starts[q]..self.starts[q + 1]];
            for (a, &p) in mine.iter().enumerate() {
                self.targets.push(self.rows.len() + p);
                let mut at = self.starts[p];
                for r in &mine[a + 1..] {
                    while self.rows[at] != *r {
                        at += 1;
                    }
                    self.targets.push(at);
                }
            }
        }
    }

    fn places(&self) -> usize {
        self.starts.len() - 1
    }

    fn size(&self) -> usize {
        self.first[self.places()]
    }

    /// The blocks of a column.
    fn column(&self, place: usize) -> Range<usize> {
        self.starts[place]..self.starts[place + 1]
    }

    /// The blocks of a matrix by its upper triangle, rows and columns scaled, and behind them those on the diagonal.
    fn spread(&self, layout: &Layout, values: &[f64], scale: &[f64]) -> Vec<Block> {
        let mut out = vec![ZERO; self.rows.len() + self.places()];
        let (below, on) = out.split_at_mut(self.rows.len());
        for (p, on) in on.iter_mut().enumerate() {
            let mine = layout.unknowns(p);
            for &(q, start) in layout.earlier(p) {
                let there = layout.unknowns(q);
                let Some(block) = self.block(q, p).filter(|_| !there.is_empty()) else { continue };
                for (row, column) in mine.clone().enumerate() {
                    let entries = &values[layout.columns[column] + start..];
                    for ((to, v), by) in below[block].iter_mut().zip(entries).zip(&scale[there.clone()]) {
                        to[row] = v * (by * scale[column]);
                    }
                }
            }
            for (row, column) in mine.clone().enumerate() {
                let entries = &values[layout.columns[column] + layout.own(p)..];
                for (k, v) in entries[..=row].iter().enumerate() {
                    let v = v * (scale[mine.start + k] * scale[column]);
                    (on[k][row], on[row][k]) = (v, v);
                }
            }
            (mine.len()..SIX).for_each(|k| on[k][k] = 1.0);
        }
        out
    }

    /// The block of a place below another.
    fn block(&self, column: usize, row: usize) -> Option<usize> {
        let from = self.starts[column];
        self.rows[from..self.starts[column + 1]].binary_search(&row).ok().map(|k| from + k)
    }

    /// Factors a matrix by its upper triangle, scaled to a unit diagonal. A pivot that is not above `tiny` is replaced.
    pub fn factor(&self, layout: &Layout, (values, scale): (&[f64], &[f64]), tiny: f64) -> (Blocks, Pivots) {
        Arch::new().dispatch(Factoring { pattern: self, all: self.spread(layout, values, scale), tiny })
    }

    /// Solves for several right sides, one after the other in `sides`, in place.
    pub fn solve(&self, factors: &Blocks, sides: &mut [f64]) {
        Arch::new().dispatch(Solving { pattern: self, factors, sides });
    }

    /// Unknowns of every place.
    fn spans(&self) -> impl Iterator<Item = Range<usize>> + '_ {
        self.first.windows(2).map(|w| w[0]..w[1])
    }
}

/// What factoring needs, with the widest lanes that the machine has.
struct Factoring<'a> {
    pattern: &'a Pattern,
    all: Vec<Block>,
    tiny: f64,
}

impl WithSimd for Factoring<'_> {
    type Output = (Blocks, Pivots);

    #[inline(always)]
    fn with_simd<S: Simd>(self, simd: S) -> (Blocks, Pivots) {
        let Factoring { pattern, mut all, tiny } = self;
        let (kernel, count) = (Kernel(simd), pattern.places());
        let mut pivots = Pivots { replaced: Vec::new(), least: 1.0 };
        let mut inverse = Vec::with_capacity(count);
        let mut inverse_d = Vec::with_capacity(count);
        let mut scaled: Vec<Block> = Vec::new();
        let mut targets = pattern.targets.iter();
        for q in 0..count {
            let (lower, lower_inverse, d) = kernel.triangle(&all[pattern.rows.len() + q], |k, pivot| {
                if pivot > tiny {
                    pivots.least = pivots.least.min(pivot);
                    return pivot;
                }
                pivots.replaced.push(pattern.first[q] + k);
                STAND_IN
            });
            let mut over = [0.0; SIX];
            over.iter_mut().zip(d).for_each(|(over, d)| *over = 1.0 / d);
            let mine = pattern.column(q);
            scaled.clear();
            for block in &mut all[mine.clone()] {
                kernel.divide_transposed(block, &lower);
                scaled.push(*block);
                *block = kernel.columns_times(block, &over);
            }
            for (full, from) in scaled.iter().zip(mine.start..) {
                for (b, &target) in (from..mine.end).zip(&mut targets) {
                    let factor = all[b];
                    kernel.subtract(&mut all[target], &factor, full);
                }
            }
            inverse.push(lower_inverse);
            inverse_d.push(over);
        }
        all.truncate(pattern.rows.len());
        (Blocks { below: all, inverse, inverse_d }, pivots)
    }
}

/// What solving needs.
struct Solving<'a> {
    pattern: &'a Pattern,
    factors: &'a Blocks,
    sides: &'a mut [f64],
}

impl WithSimd for Solving<'_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: Simd>(self, simd: S) {
        let mut room = vec![[0.0; ROWS]; self.pattern.places()];
        for side in self.sides.chunks_exact_mut(self.pattern.size()) {
            for (six, span) in room.iter_mut().zip(self.pattern.spans()) {
                *six = [0.0; ROWS];
                six[..span.len()].copy_from_slice(&side[span]);
            }
            self.pattern.forward(Kernel(simd), self.factors, &mut room);
            self.pattern.backward(Kernel(simd), self.factors, &mut room);
            for (six, span) in room.iter().zip(self.pattern.spans()) {
                side[span.clone()].copy_from_slice(&six[..span.len()]);
            }
        }
    }
}

impl Pattern {
    /// `D⁻¹·L⁻¹` on a right side.
    #[inline(always)]
    fn forward<S: Simd>(&self, kernel: Kernel<S>, factors: &Blocks, room: &mut [Column]) {
        for q in 0..self.places() {
            let mine = kernel.times(&factors.inverse[q], &room[q]);
            for k in self.column(q) {
                kernel.subtract_times(&mut room[self.rows[k]], &factors.below[k], &mine);
            }
            for (k, over) in factors.inverse_d[q].iter().enumerate() {
                room[q][k] = mine[k] * over;
            }
        }
    }

    /// `L⁻ᵀ` on what comes of it.
    #[inline(always)]
    fn backward<S: Simd>(&self, kernel: Kernel<S>, factors: &Blocks, room: &mut [Column]) {
        for q in (0..self.places()).rev() {
            let blocks = self.column(q);
            let each = self.rows[blocks.clone()].iter().zip(&factors.below[blocks]);
            let sums = kernel.sum_along(each.map(|(row, block)| (block, &room[*row])));
            let mut rest = room[q];
            (0..SIX).for_each(|k| rest[k] -= sums[k]);
            room[q][..SIX].copy_from_slice(&kernel.sum_along(std::iter::once((&factors.inverse[q], &rest))));
        }
    }
}

/// Adds to an ascending list what it lacks of another.
fn merge(list: &mut Vec<usize>, more: &[usize]) {
    list.extend(more);
    list.sort_unstable();
    list.dedup();
}
