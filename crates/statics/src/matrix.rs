//! A symmetric matrix over the unknowns of the nodes, in blocks.

use crate::layout::{HELD, Layout};

/// A symmetric matrix: for each place of the layout its own block, of which the upper triangle stays zero,
/// and those below it, each by columns.
#[derive(Clone, Debug)]
pub(crate) struct Matrix {
    pub values: Vec<f64>,
}

impl Matrix {
    pub fn new(layout: &Layout) -> Matrix {
        Matrix { values: vec![0.0; layout.len()] }
    }

    /// Adds the part of an element: `entry` gives its matrix by (node of the element, direction).
    pub fn add(&mut self, layout: &Layout, nodes: &[usize], entry: impl Fn(usize, usize) -> f64) {
        for (b, &col) in nodes.iter().enumerate() {
            for (a, &row) in nodes.iter().enumerate() {
                let Some(block) = layout.block(row, col) else { continue };
                let (rows, columns) = (&layout.slot[row], &layout.slot[col]);
                let values = &mut self.values[block.at..];
                if block.whole {
                    for (e, column) in values[..36].chunks_exact_mut(6).enumerate() {
                        let above = if block.own { e } else { 0 };
                        for (d, value) in column.iter_mut().enumerate().skip(above) {
                            *value += entry(6 * a + d, 6 * b + e);
                        }
                    }
                    continue;
                }
                for (e, &c) in columns.iter().enumerate().filter(|c| *c.1 != HELD) {
                    let column = (c - block.column) * block.height;
                    for (d, &r) in rows.iter().enumerate().filter(|r| *r.1 != HELD) {
                        if !block.own || r >= c {
                            values[column + r - block.row] += entry(6 * a + d, 6 * b + e);
                        }
                    }
                }
            }
        }
    }

    /// Adds to the diagonal block of one node.
    pub fn add_at(&mut self, layout: &Layout, node: usize, row: usize, col: usize, value: f64) {
        if let Some(at) = layout.entry(node, row, col) {
            self.values[at] += value;
        }
    }

    /// An entry of the diagonal block of one node, zero where held.
    pub fn at(&self, layout: &Layout, node: usize, row: usize, col: usize) -> f64 {
        layout.entry(node, row, col).map_or(0.0, |at| self.values[at])
    }

    /// Row, column and value of the entries on and below the diagonal, column by column.
    pub fn entries(&self, layout: &Layout) -> impl Iterator<Item = (usize, usize, f64)> {
        layout.blocks().flat_map(move |block| {
            let values = &self.values[block.at..block.at + block.height * block.width];
            let entry = move |(k, &v)| (block.row + k % block.height, block.column + k / block.height, v);
            values.iter().enumerate().map(entry).filter(|(r, c, _)| r >= c)
        })
    }
}
