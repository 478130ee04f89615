//! In which order the nodes are eliminated, so that the factors stay small.
//!
//! Approximate least degree (Amestoy, Davis and Duff) is quick and best for small frames and short
//! masts; where it leaves much work, dissection is tried as well, and the one with less work is
//! taken. What either would cost is reckoned on the nodes, long before any factor exists.

use faer::dyn_stack::{MemBuffer, MemStack};
use faer::sparse::SymbolicSparseColMatRef;
use faer::sparse::linalg::amd;

use crate::dissect::dissect;
use crate::error::Error;
use crate::graph::Graph;

/// Multiplications and additions from which looking for a better order pays: some milliseconds.
const MUCH: f64 = 1e7;
/// Looking from a node through one of those below it in the elimination tree costs as many: the library goes through all of
/// them to find those that reach the node, so that a tree which is one long stem costs the square of its length. Measured with faer 0.24 on an x86-64 server.
const LOOK: f64 = 200.0;

/// The nodes in an order of little fill. `free` counts the unknowns of each; nodes without any come
/// first and cost nothing.
pub(crate) fn order(graph: &Graph, free: &[usize]) -> Result<Vec<usize>, Error> {
    let (held, moving): (Vec<usize>, Vec<usize>) = (0..graph.len()).partition(|&n| free[n] == 0);
    let mut local = vec![usize::MAX; graph.len()];
    let usual = least_degree(graph, &moving, &mut local)?;
    let work = work(graph, free, &usual);
    let best = if work > MUCH {
        let other = dissect(graph, &moving)?;
        if self::work(graph, free, &other) < work { other } else { usual }
    } else {
        usual
    };
    Ok(held.into_iter().chain(best).collect())
}

/// Some of the nodes by approximate least degree among themselves. `local` is room to work in, one
/// entry a node, none of them a place among the given; it is left so.
pub(crate) fn least_degree(graph: &Graph, nodes: &[usize], local: &mut [usize]) -> Result<Vec<usize>, Error> {
    for (k, &n) in nodes.iter().enumerate() {
        local[n] = k;
    }
    let (mut columns, mut rows) = (Vec::with_capacity(nodes.len() + 1), Vec::with_capacity(8 * nodes.len()));
    columns.push(0);
    for &n in nodes {
        let start = rows.len();
        rows.extend(graph.of(n).iter().map(|&m| local[m]).filter(|&k| k != usize::MAX));
        rows[start..].sort_unstable();
        columns.push(rows.len());
    }
    for &n in nodes {
        local[n] = usize::MAX;
    }
    let n = nodes.len();
    let pattern = SymbolicSparseColMatRef::new_checked(n, n, &columns, None, &rows);
    let need = amd::order_scratch::<usize>(n, rows.len());
    let mut memory = MemBuffer::try_new(need).map_err(|_| Error::OutOfMemory)?;
    let (mut forward, mut back) = (vec![0; n], vec![0; n]);
    let stack = MemStack::new(&mut memory);
    amd::order(&mut forward, &mut back, pattern, amd::Control::default(), stack)
        .map_err(|_| Error::OutOfMemory)?;
    Ok(forward.into_iter().map(|k| nodes[k]).collect())
}

/// Multiplications and additions that factoring takes in this order: the squares of the lengths of the
/// columns, summed, and what is looked through. Nodes that are not in the order take no part.
fn work(graph: &Graph, free: &[usize], order: &[usize]) -> f64 {
    let (below, parent) = below(graph, free, order);
    let node = |(&n, &rows): (&usize, &usize)| {
        (0..free[n]).map(|k| ((rows + k) as f64) * (rows + k) as f64).sum::<f64>()
    };
    let factor: f64 = order.iter().zip(&below).map(node).sum();
    let mut under = vec![0; order.len()];
    for (p, &up) in parent.iter().enumerate().filter(|(_, up)| **up < order.len()) {
        under[up] += under[p] + 1;
    }
    factor + LOOK * under.iter().map(|n| *n as f64).sum::<f64>()
}

/// For each node in the order, the unknowns of later nodes that its columns reach, and the first of these nodes, by place: found by
/// climbing the elimination tree from every neighbour (Liu).
fn below(graph: &Graph, free: &[usize], order: &[usize]) -> (Vec<usize>, Vec<usize>) {
    const NONE: usize = usize::MAX;
    let mut place = vec![NONE; graph.len()];
    for (p, &n) in order.iter().enumerate() {
        place[n] = p;
    }
    let (mut parent, mut seen) = (vec![NONE; order.len()], vec![NONE; order.len()]);
    let mut below = vec![0; order.len()];
    for (p, &n) in order.iter().enumerate() {
        seen[p] = p;
        for mut q in graph.of(n).iter().map(|&m| place[m]).filter(|&q| q < p) {
            while seen[q] != p {
                seen[q] = p;
                below[q] += free[n];
                if parent[q] == NONE {
                    parent[q] = p;
                }
                q = parent[q];
            }
        }
    }
    (below, parent)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A grid of square cells in space.
    pub(crate) fn grid([a, b, c]: [usize; 3]) -> Graph {
        let at = |x: usize, y: usize, z: usize| (x * b + y) * c + z;
        let mut pairs = Vec::new();
        for (x, y, z) in (0..a * b * c).map(|k| (k / (b * c), k / c % b, k % c)) {
            for (on, far) in
                [(x + 1 < a, [x + 1, y, z]), (y + 1 < b, [x, y + 1, z]), (z + 1 < c, [x, y, z + 1])]
            {
                if on {
                    pairs.push([at(x, y, z), at(far[0], far[1], far[2])]);
                }
            }
        }
        Graph::new(a * b * c, pairs.iter().map(|p| &p[..]))
    }

    /// By hand: a chain of three, two unknowns each, eliminated from one end, has columns with
    /// 3, 2, 3, 2, 1, 0 entries below the diagonal; from the middle 5, 4, 3, 2, 1, 0. Either way the tree is a stem: one node
    /// is below the second, two are below the last. With the middle last, nothing but both ends is below it.
    #[test]
    fn work_is_the_sum_of_squares_of_the_columns_and_of_looks() {
        let chain = Graph::new(3, [&[0, 1][..], &[1, 2]].into_iter());
        let stem = 3.0 * LOOK;
        assert_eq!(work(&chain, &[2; 3], &[0, 1, 2]), 9.0 + 4.0 + 9.0 + 4.0 + 1.0 + stem);
        assert_eq!(work(&chain, &[2; 3], &[1, 0, 2]), 25.0 + 16.0 + 9.0 + 4.0 + 1.0 + stem);
        assert_eq!(work(&chain, &[2; 3], &[0, 2, 1]), 9.0 + 4.0 + 9.0 + 4.0 + 1.0 + 2.0 * LOOK);
        assert_eq!(work(&chain, &[2, 0, 2], &[0, 2]), 2.0);
    }

    #[test]
    fn every_node_has_one_place_and_held_ones_come_first() {
        for size in [[1, 1, 1], [3, 2, 2], [9, 9, 9]] {
            let graph = grid(size);
            let free: Vec<usize> = (0..graph.len()).map(|n| if n % 5 == 0 { 0 } else { 6 }).collect();
            let mut found = order(&graph, &free).unwrap();
            let held = found.iter().take_while(|&&n| free[n] == 0).count();
            assert_eq!(held, graph.len().div_ceil(5));
            found.sort_unstable();
            assert_eq!(found, (0..graph.len()).collect::<Vec<_>>());
        }
    }

    /// A cube is where least degree does worst; a short mast is where dissection does; a long one is a stem that takes long to
    /// look through.
    #[test]
    fn the_order_with_less_work_is_taken() {
        for (size, cut) in [([12, 12, 12], true), ([3, 3, 40], false), ([3, 3, 500], true)] {
            let graph = grid(size);
            let (free, all) = (vec![6; graph.len()], (0..graph.len()).collect::<Vec<_>>());
            let usual = least_degree(&graph, &all, &mut vec![usize::MAX; all.len()]).unwrap();
            let other = dissect(&graph, &all).unwrap();
            let (usual, other) = (work(&graph, &free, &usual), work(&graph, &free, &other));
            let chosen = work(&graph, &free, &order(&graph, &free).unwrap());
            assert_eq!(other < usual, cut, "{size:?}: {other} {usual}");
            assert_eq!(chosen, usual.min(other));
        }
    }
}
