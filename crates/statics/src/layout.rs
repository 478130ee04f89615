//! Which displacement of which node is which unknown, and where each pair of nodes meets in the matrix.

use std::sync::Arc;

use crate::error::Error;
use crate::fronts::Fronts;
use crate::graph::Graph;
use crate::order::{NONE, order};

/// No unknown: a fixed direction.
pub(crate) const HELD: usize = usize::MAX;

/// Unknowns ordered for little fill: the order is one of nodes, whose six directions stay together.
#[derive(Clone, Debug, Default)]
pub(crate) struct Layout {
    /// Unknown of each direction of each node, or [`HELD`].
    pub slot: Vec<[usize; 6]>,
    /// Place of each node in the elimination, or [`NONE`] where all of it is held.
    place: Vec<usize>,
    /// For each place, where its later neighbours start in `later`.
    starts: Vec<usize>,
    /// Later places that a place meets, ascending, and where the values of the block start.
    later: Vec<(usize, usize)>,
    /// For each place, where the values of its own block start; and how many there are in all.
    own: Vec<usize>,
    /// What is eliminated together.
    pub fronts: Arc<Fronts>,
    /// Number of unknowns.
    pub size: usize,
}

/// Where two nodes meet in the matrix: a block of rows of one and columns of the other, by columns.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Block {
    /// Where its values start.
    pub at: usize,
    /// Its first row and column.
    pub row: usize,
    pub column: usize,
    pub height: usize,
    pub width: usize,
    /// Whether it is on the diagonal.
    pub own: bool,
    /// Whether all directions of both nodes are free.
    pub whole: bool,
}

impl Layout {
    /// Lays out nodes that meet in the given groups.
    pub fn new<'a>(
        fixed: &[[bool; 6]],
        groups: impl Iterator<Item = &'a [usize]> + Clone,
    ) -> Result<Layout, Error> {
        let graph = Graph::new(fixed.len(), groups);
        let free: Vec<usize> = fixed.iter().map(|f| f.iter().filter(|f| !**f).count()).collect();
        let (order, fronts) = Fronts::new(&graph, &free, &order(&graph, &free)?);
        Ok(Layout::placed(fixed, &graph, &order, fronts))
    }

    fn placed(fixed: &[[bool; 6]], graph: &Graph, order: &[usize], fronts: Fronts) -> Layout {
        let (mut place, mut slot) = (vec![NONE; fixed.len()], vec![[HELD; 6]; fixed.len()]);
        let mut size = 0;
        for (p, &n) in order.iter().enumerate() {
            place[n] = p;
            for k in (0..6).filter(|&k| !fixed[n][k]) {
                slot[n][k] = size;
                size += 1;
            }
        }
        let (mut starts, mut own) = (Vec::with_capacity(order.len() + 1), Vec::with_capacity(order.len() + 1));
        let (mut later, mut values) = (Vec::new(), 0);
        for (p, &n) in order.iter().enumerate() {
            let width = fronts.width(p);
            own.push(values);
            values += width * width;
            let first = later.len();
            starts.push(first);
            later.extend(graph.of(n).iter().map(|&m| (place[m], 0)).filter(|&(q, _)| q > p && q != NONE));
            later[first..].sort_unstable();
            for (q, at) in &mut later[first..] {
                *at = values;
                values += width * fronts.width(*q);
            }
        }
        own.push(values);
        starts.push(later.len());
        Layout { slot, place, starts, later, own, fronts: Arc::new(fronts), size }
    }

    /// Number of values of a matrix.
    pub fn len(&self) -> usize {
        self.own.last().copied().unwrap_or(0)
    }

    /// The block of the rows of one node in the columns of another that it meets, if it comes no earlier.
    pub fn block(&self, row: usize, col: usize) -> Option<Block> {
        let (q, p) = (self.place[row], self.place[col]);
        if q == NONE || p == NONE || q < p {
            return None;
        }
        if p == q {
            return Some(self.make(p, q, self.own[p]));
        }
        let later = self.later_of(p);
        // most nodes meet few others
        let found = if later.len() < 9 {
            later.iter().position(|e| e.0 == q)?
        } else {
            later.binary_search_by_key(&q, |e| e.0).ok()?
        };
        Some(self.make(p, q, later[found].1))
    }

    fn make(&self, p: usize, q: usize, at: usize) -> Block {
        let base = &self.fronts.base;
        let (row, column, height, width) = (base[q], base[p], self.fronts.width(q), self.fronts.width(p));
        Block { at, row, column, height, width, own: p == q, whole: height * width == 36 }
    }

    fn later_of(&self, p: usize) -> &[(usize, usize)] {
        &self.later[self.starts[p]..self.starts[p + 1]]
    }

    /// The blocks in the columns of a place: its own, and those below it.
    pub fn blocks_of(&self, p: usize) -> impl Iterator<Item = (usize, Block)> {
        let below = self.later_of(p).iter().map(move |&(q, at)| (q, self.make(p, q, at)));
        std::iter::once((p, self.make(p, p, self.own[p]))).chain(below)
    }

    /// All blocks.
    pub fn blocks(&self) -> impl Iterator<Item = Block> {
        (0..self.starts.len().saturating_sub(1)).flat_map(|p| self.blocks_of(p).map(|b| b.1))
    }

    /// Where the entry of two directions of one node is stored.
    pub fn entry(&self, node: usize, a: usize, b: usize) -> Option<usize> {
        let (a, b) = (self.slot[node][a], self.slot[node][b]);
        if a == HELD || b == HELD {
            return None;
        }
        let block = self.block(node, node)?;
        Some(block.at + (a.min(b) - block.column) * block.height + a.max(b) - block.row)
    }

    /// Where the diagonal of the matrix is stored, unknown by unknown.
    pub fn diagonal(&self) -> impl Iterator<Item = usize> {
        let places = 0..self.starts.len().saturating_sub(1);
        places.flat_map(|p| {
            let (at, width) = (self.own[p], self.fronts.width(p));
            (0..width).map(move |k| at + k * (width + 1))
        })
    }
}
