//! Nested dissection: a wall of nodes parts the frame in two halves that do not meet, each half is
//! parted again, and every wall is eliminated after what it parts.
//!
//! The walls are level sets of the distance, in members, from a node far out (George and Liu, *Computer
//! Solution of Large Sparse Positive Definite Systems*, automatic nested dissection). In a lattice of
//! cells these run aslant through the cells, and a wall aslant through a cube has three quarters of the
//! nodes of one along its faces: the factors of a block of 10 000 members take 0.4 of the work that they
//! take by least degree or by walls along the faces. Coordinates are not needed.

use crate::error::Error;
use crate::graph::Graph;
use crate::order::least_degree;

/// Parts up to this size are left to least degree.
const LEAF: usize = 10;
/// Each half has at least this share of the nodes that are not in the wall.
const SHARE: f64 = 0.2;
/// Nodes from which distances are counted, for each part.
const ROOTS: usize = 3;

const NONE: usize = usize::MAX;

/// Some of the nodes in the order of their elimination.
pub(crate) fn dissect(graph: &Graph, nodes: &[usize]) -> Result<Vec<usize>, Error> {
    let n = graph.len();
    let room = || vec![NONE; n];
    let mut cutter = Cutter {
        graph,
        part: room(),
        parts: 0,
        level: room(),
        local: room(),
        order: Vec::with_capacity(nodes.len()),
    };
    cutter.all(nodes)?;
    Ok(cutter.order)
}

struct Cutter<'a> {
    graph: &'a Graph,
    /// The part that each node was last put into.
    part: Vec<usize>,
    parts: usize,
    /// Distance from the last root, or [`NONE`] for nodes that are not reached.
    level: Vec<usize>,
    local: Vec<usize>,
    order: Vec<usize>,
}

/// A wall: of the nodes in order of their distance from a root, those from one place to another.
struct Wall {
    sorted: Vec<usize>,
    from: usize,
    to: usize,
    cost: f64,
}

impl Cutter<'_> {
    /// Orders nodes that need not hang together.
    fn all(&mut self, nodes: &[usize]) -> Result<(), Error> {
        self.parts += 1;
        let part = self.parts;
        for &n in nodes {
            self.part[n] = part;
            self.level[n] = NONE;
        }
        let mut pieces = Vec::new();
        for &n in nodes {
            if self.level[n] == NONE {
                pieces.push(self.spread(n));
            }
        }
        pieces.into_iter().try_for_each(|piece| self.piece(piece))
    }

    /// Orders nodes that hang together, given by their distance from one of them.
    fn piece(&mut self, nodes: Vec<usize>) -> Result<(), Error> {
        let wall = if nodes.len() > LEAF { self.wall(&nodes) } else { None };
        let Some(Wall { sorted, from, to, .. }) = wall else {
            let ordered = least_degree(self.graph, &nodes, &mut self.local)?;
            self.order.extend(ordered);
            return Ok(());
        };
        drop(nodes);
        let (near, far) = (&sorted[..from], &sorted[to..]);
        self.parts += 1;
        far.iter().for_each(|&n| self.part[n] = self.parts);
        // What of the wall does not meet the far half belongs to the near one.
        let (wall, idle): (Vec<usize>, Vec<usize>) = sorted[from..to]
            .iter()
            .partition(|&&n| self.graph.of(n).iter().any(|&m| self.part[m] == self.parts));
        self.all(&[near, &idle].concat())?;
        self.all(far)?;
        self.order.extend(wall);
        Ok(())
    }

    /// The best wall among the level sets from several roots, each far from those before.
    fn wall(&mut self, nodes: &[usize]) -> Option<Wall> {
        let mut nearest = vec![NONE; nodes.len()];
        let mut root = nodes[nodes.len() - 1];
        let mut best: Option<Wall> = None;
        for _ in 0..ROOTS {
            nodes.iter().for_each(|&n| self.level[n] = NONE);
            let sorted = self.spread(root);
            let mut most = 0;
            for (near, &n) in nearest.iter_mut().zip(nodes) {
                *near = self.level[n].min(*near);
                if *near > most {
                    (most, root) = (*near, n);
                }
            }
            let found = self.thinnest(sorted);
            if let Some(found) = found.filter(|f| best.as_ref().is_none_or(|b| f.cost < b.cost)) {
                best = Some(found);
            }
        }
        best
    }

    /// The best level set: thin, and near the middle.
    fn thinnest(&self, sorted: Vec<usize>) -> Option<Wall> {
        let mut best: Option<(f64, usize, usize)> = None;
        let mut from = 0;
        for level in sorted.chunk_by(|&a, &b| self.level[a] == self.level[b]) {
            let to = from + level.len();
            let (wall, rest) = (level.len() as f64, (sorted.len() - level.len()) as f64);
            let less = from.min(sorted.len() - to) as f64;
            if less > 0.0 && less >= SHARE * rest {
                // The work in a wall grows with the cube of its nodes.
                let cost = wall * wall * wall * rest / less;
                if best.is_none_or(|b| cost < b.0) {
                    best = Some((cost, from, to));
                }
            }
            from = to;
        }
        best.map(|(cost, from, to)| Wall { sorted, from, to, cost })
    }

    /// The nodes of its part that a root reaches, by distance, which is put down as their level.
    fn spread(&mut self, root: usize) -> Vec<usize> {
        let part = self.part[root];
        let mut reached = vec![root];
        self.level[root] = 0;
        let mut next = 0;
        while let Some(&n) = reached.get(next) {
            next += 1;
            for &m in self.graph.of(n) {
                if self.part[m] == part && self.level[m] == NONE {
                    self.level[m] = self.level[n] + 1;
                    reached.push(m);
                }
            }
        }
        reached
    }
}
