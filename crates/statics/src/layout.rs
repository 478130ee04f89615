//! Which displacement of which node is which unknown, and where each pair meets in the matrix.

use crate::error::Error;
use crate::graph::Graph;
use crate::order::order;

/// No unknown: a fixed direction.
pub(crate) const HELD: usize = usize::MAX;

/// Unknowns ordered for little fill: the order is one of nodes, whose six directions stay together.
#[derive(Clone, Debug, Default)]
pub(crate) struct Layout {
    /// Unknown of each direction of each node, or [`HELD`].
    pub slot: Vec<[usize; 6]>,
    /// Place of each node in the elimination.
    place: Vec<usize>,
    /// For each place, the earlier places it meets, and where their rows start in its columns.
    earlier: Vec<Vec<(usize, usize)>>,
    /// For each place, the row where its own unknowns start in its columns.
    own: Vec<usize>,
    /// First unknown of each place.
    base: Vec<usize>,
    /// Column pointers and rows of the upper triangle.
    pub columns: Vec<usize>,
    pub rows: Vec<usize>,
    /// Number of unknowns.
    pub size: usize,
}

impl Layout {
    /// Lays out nodes that meet in the given groups.
    pub fn new<'a>(
        fixed: &[[bool; 6]],
        groups: impl Iterator<Item = &'a [usize]> + Clone,
    ) -> Result<Layout, Error> {
        let graph = Graph::new(fixed.len(), groups);
        let free: Vec<usize> = fixed.iter().map(|f| f.iter().filter(|f| !**f).count()).collect();
        let order = order(&graph, &free)?;
        Ok(Layout::placed(fixed, &free, &graph, &order))
    }

    fn placed(fixed: &[[bool; 6]], free: &[usize], graph: &Graph, order: &[usize]) -> Layout {
        let nodes = fixed.len();
        let mut place = vec![0; nodes];
        for (p, &n) in order.iter().enumerate() {
            place[n] = p;
        }
        let mut out = Layout {
            slot: vec![[HELD; 6]; nodes],
            earlier: Vec::with_capacity(nodes),
            own: Vec::with_capacity(nodes),
            base: Vec::with_capacity(nodes),
            columns: vec![0],
            rows: Vec::new(),
            size: 0,
            place,
        };
        let free = |p: usize| free[order[p]];
        for (p, &n) in order.iter().enumerate() {
            out.base.push(out.size);
            for k in (0..6).filter(|&k| !fixed[n][k]) {
                out.slot[n][k] = out.size;
                out.size += 1;
            }
            let mut before: Vec<usize> = graph.of(n).iter().map(|&m| out.place[m]).filter(|&q| q < p).collect();
            before.sort_unstable();
            let mut start = 0;
            let place = |q: usize| {
                start += free(q);
                (q, start - free(q))
            };
            let earlier: Vec<(usize, usize)> = before.into_iter().map(place).collect();
            out.push_columns(&earlier, start, free);
            out.earlier.push(earlier);
            out.own.push(start);
        }
        out
    }

    fn push_columns(&mut self, earlier: &[(usize, usize)], start: usize, free: impl Fn(usize) -> usize) {
        let base = self.base[self.base.len() - 1];
        for column in base..self.size {
            for &(q, _) in earlier {
                self.rows.extend(self.base[q]..self.base[q] + free(q));
            }
            self.rows.extend(base..=column);
            self.columns.push(self.rows.len());
            debug_assert_eq!(self.columns[column + 1] - self.columns[column], start + column - base + 1);
        }
    }

    /// Where the entry of two unknowns of two nodes that meet is stored, row at or above column.
    pub fn entry(&self, row: (usize, usize), col: (usize, usize)) -> Option<usize> {
        let column = self.unknown(col.0, col.1)?;
        self.within(self.block(row.0, col.0)?, row, column)
    }

    /// The unknown of a direction of a node, `None` where it is held still.
    pub fn unknown(&self, node: usize, direction: usize) -> Option<usize> {
        Some(self.slot[node][direction]).filter(|s| *s != HELD)
    }

    /// The first unknown of a node that is not wholly held.
    pub fn first(&self, node: usize) -> usize {
        self.base[self.place[node]]
    }

    /// How many places there are.
    pub fn places(&self) -> usize {
        self.base.len()
    }

    /// The unknowns of a place.
    pub fn unknowns(&self, place: usize) -> std::ops::Range<usize> {
        self.base[place]..self.base.get(place + 1).copied().unwrap_or(self.size)
    }

    /// The earlier places that a place meets, and where their rows start in its columns.
    pub fn earlier(&self, place: usize) -> &[(usize, usize)] {
        &self.earlier[place]
    }

    /// Where a place's own rows start in its columns.
    pub fn own(&self, place: usize) -> usize {
        self.own[place]
    }

    /// Where the rows of one node start in the columns of another that it meets, if it comes no later.
    pub fn block(&self, row: usize, col: usize) -> Option<usize> {
        let (q, p) = (self.place[row], self.place[col]);
        if p == q {
            return Some(self.own[p]);
        }
        let found = self.earlier[p].binary_search_by_key(&q, |e| e.0).ok()?;
        Some(self.earlier[p][found].1)
    }

    /// Where an entry of such a block is stored, row at or above column.
    fn within(&self, start: usize, row: (usize, usize), column: usize) -> Option<usize> {
        let r = self.unknown(row.0, row.1).filter(|r| *r <= column)?;
        Some(self.columns[column] + start + r - self.first(row.0))
    }
}
