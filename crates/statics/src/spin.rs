//! Nodes that can spin on the spot: every member there is hinged, so nothing turns with the node.
//!
//! Such a rotation moves no part of the frame. It is held at zero, and only a moment applied to it
//! is an error.

use crate::factor::Matrix;
use crate::frame::Frame;
use crate::vector::{Vec3, add, cross, dot, norm, scale, sub};

/// A rotation of one node that nothing resists.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spin {
    pub node: usize,
    /// Unit axis.
    pub axis: Vec3,
}

/// Relative stiffness below which a rotation counts as not resisted.
const NIL: f64 = 1e-13;
/// The same above which it surely is.
const STOUT: f64 = 1e-6;

/// Finds such rotations and adds a stiffness that holds each.
pub(crate) fn hold_spins(frame: &Frame, matrix: &mut Matrix) -> Vec<Spin> {
    let mut spins = Vec::new();
    for n in 0..frame.nodes.len() {
        let block = matrix.rotations(&frame.layout, n);
        if stout(&block) {
            continue;
        }
        let size = (0..3).map(|k| block[k][k]).fold(0.0, f64::max);
        for axis in loose_axes(&block, &frame.nodes[n].fixed) {
            let hold = if size > 0.0 { size } else { 1.0 };
            for r in 0..3 {
                for c in r..3 {
                    matrix.add_at(&frame.layout, n, 3 + r, 3 + c, hold * axis[r] * axis[c]);
                }
            }
            spins.push(Spin { node: n, axis });
        }
    }
    spins
}

/// Whether a block surely resists every direction: its pivots in a row are far from nil.
fn stout(block: &[Vec3; 3]) -> bool {
    let [[xx, xy, xz], [_, yy, yz], [_, _, zz]] = *block;
    let (ly, lz) = (xy / xx, xz / xx);
    let (second, across) = (yy - xy * ly, yz - xy * lz);
    let third = zz - xz * lz - across * across / second;
    let least = STOUT * xx.max(yy).max(zz);
    xx > least && second > least && third > least
}

/// Unit axes, at right angles, of the directions that the block does not resist.
fn loose_axes(block: &[Vec3; 3], fixed: &[bool; 6]) -> Vec<Vec3> {
    let free: Vec<usize> = (0..3).filter(|&k| !fixed[3 + k]).collect();
    let size = free.iter().map(|&k| block[k][k]).fold(0.0, f64::max);
    // Directions the block does resist, by elimination with the largest pivot first.
    let mut rest = *block;
    let mut resisted: Vec<Vec3> = Vec::new();
    for _ in 0..free.len() {
        let Some(&p) = free.iter().max_by(|&&a, &&b| rest[a][a].total_cmp(&rest[b][b])) else { break };
        let pivot = rest[p][p];
        if pivot <= NIL * size || pivot <= 0.0 {
            break;
        }
        let row = rest[p];
        for r in 0..3 {
            rest[r] = sub(rest[r], scale(row, row[r] / pivot));
        }
        resisted.push(row);
    }
    if resisted.len() == free.len() { Vec::new() } else { across(&resisted, &free) }
}

/// Unit vectors within the free directions at right angles to the given ones and each other.
fn across(given: &[Vec3], free: &[usize]) -> Vec<Vec3> {
    let unit = |k: usize| std::array::from_fn(|c| if c == k { 1.0 } else { 0.0 });
    let mut basis: Vec<Vec3> = Vec::new();
    for &g in given {
        let left = basis.iter().fold(g, |v, &b| sub(v, scale(b, dot(v, b))));
        basis.push(scale(left, 1.0 / norm(left)));
    }
    let mut out: Vec<Vec3> = Vec::new();
    if let ([a, b], 3) = (&basis[..], free.len()) {
        let c = cross(*a, *b);
        return vec![scale(c, 1.0 / norm(c))];
    }
    for &k in free {
        let taken = basis.iter().chain(&out);
        let left: Vec3 = taken.fold(unit(k), |v, &b| sub(v, scale(b, dot(v, b))));
        if norm(left) > 0.3 && basis.len() + out.len() < free.len() {
            out.push(scale(left, 1.0 / norm(left)));
        }
    }
    out
}

/// The part of a moment that drives a spin, if it is more than rounding.
pub(crate) fn drives(spin: &Spin, moment: Vec3) -> bool {
    dot(spin.axis, moment).abs() > 1e-9 * norm(add(moment, [0.0; 3]))
}

#[cfg(test)]
mod tests {
    use super::*;

    const FREE: [bool; 6] = [false; 6];

    #[test]
    fn a_rank_one_block_leaves_two_axes() {
        let a = [0.6, 0.0, 0.8];
        let block = std::array::from_fn(|r| scale(a, 5.0 * a[r]));
        let loose = loose_axes(&block, &FREE);
        assert!(loose.len() == 2 && !stout(&block) && !stout(&[[0.0; 3]; 3]));
        for l in &loose {
            assert!(dot(*l, a).abs() < 1e-14 && (norm(*l) - 1.0).abs() < 1e-14);
        }
        assert!(dot(loose[0], loose[1]).abs() < 1e-14);
    }

    #[test]
    fn fixed_directions_are_never_loose() {
        let fixed = [false, false, false, true, false, true];
        assert_eq!(loose_axes(&[[0.0; 3]; 3], &fixed), vec![[0.0, 1.0, 0.0]]);
        let full = [[2.0, 1.0, 0.0], [1.0, 3.0, 0.5], [0.0, 0.5, 1.0]];
        assert!(loose_axes(&full, &FREE).is_empty() && stout(&full));
    }
}
