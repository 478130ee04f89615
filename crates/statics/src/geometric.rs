//! Geometric stiffness: what pull and push along the members add to the stiffness across them.

use crate::element::{Element, Six, Straight};
use crate::factor::Matrix;
use crate::frame::Frame;
use crate::vector::{cross, dot, halves};

/// Pull along a member at the three Gauss points of one of its pieces, and the global forces of the
/// nodes on its two ends if it has arms.
pub(crate) struct Tension {
    pub pull: [f64; 3],
    pub ends: [[f64; 3]; 2],
}

/// Gauss points of the piece from 0 to 1, and their weights.
pub(crate) const POINTS: [f64; 3] = [0.112_701_665_379_258_3, 0.5, 0.887_298_334_620_741_7];
const WEIGHTS: [f64; 3] = [5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0];

/// The geometric stiffness matrix of a frame under the given tensions, one for each member.
pub(crate) fn matrix(frame: &Frame, tensions: &[Tension]) -> Matrix {
    let mut out = Matrix::new(&frame.layout);
    for (e, t) in frame.elements.iter().zip(tensions) {
        let k = element(e, t);
        out.add(&frame.layout, &e.nodes, |c| &k[c]);
    }
    out
}

/// The part of a member: bending and the lean of its arms.
pub(crate) fn element(e: &Element, t: &Tension) -> [[f64; 12]; 12] {
    let mut out = bending(e, t);
    if !e.armless() {
        for end in 0..2 {
            lean(e, end, t, &mut out);
        }
    }
    out
}

/// `∫ N v' v' dx` in both planes, `v` the deflection that the displaced nodes cause by themselves
/// (with its shear part): the work of a pull on a leaning axis, as in any text on stability, such as
/// Przemieniecki, *Theory of Matrix Structural Analysis*.
pub(crate) fn bending(e: &Element, t: &Tension) -> [[f64; 12]; 12] {
    if e.armless() { straight(e, t) } else { any(e, t) }
}

/// Places of the Gauss points, and their weights times the pull there.
fn weighed(e: &Element, t: &Tension) -> ([f64; 3], [f64; 3]) {
    (POINTS.map(|p| p * e.length), std::array::from_fn(|g| WEIGHTS[g] * e.length * t.pull[g]))
}

fn straight(e: &Element, t: &Tension) -> [[f64; 12]; 12] {
    let (at, weights) = weighed(e, t);
    let [z, y] = e.own_slopes(at).map(|[shift, first, second]| {
        let by = |s: &[f64; 3]| std::array::from_fn(|g| s[g] * weights[g]);
        let (by_shift, by_first, by_second) = (by(&shift), by(&first), by(&second));
        let across_by = [dot(by_shift, first), dot(by_shift, second)];
        (dot(by_shift, shift), across_by, [dot(by_first, first), dot(by_first, second), dot(by_second, second)])
    });
    e.by_blocks(&Straight {
        along: 0.0,
        across: [z.0, y.0],
        across_by: [z.1, y.1],
        twist: 0.0,
        turns: [z.2, y.2],
    })
}

fn any(e: &Element, t: &Tension) -> [[f64; 12]; 12] {
    let (at, weights) = weighed(e, t);
    let slopes = e.slopes(at);
    let mut out = [[0.0; 12]; 12];
    for r in 0..12 {
        let weighed = slopes[r].map(|s| [s[0] * weights[0], s[1] * weights[1], s[2] * weights[2]]);
        for c in r..12 {
            let both = dot(weighed[0], slopes[c][0]) + dot(weighed[1], slopes[c][1]);
            out[r][c] = both;
            out[c][r] = both;
        }
    }
    out
}

/// An arm that turns by θ carries its tip second-order by `θ(θ·o)/2 - o θ²/2`; times the force there.
fn lean(e: &Element, end: usize, t: &Tension, out: &mut [[f64; 12]; 12]) {
    let (f, o) = (t.ends[end], e.arms[end]);
    let along = dot(f, o);
    for r in 0..3 {
        for c in 0..3 {
            let same = if r == c { along } else { 0.0 };
            out[6 * end + 3 + r][6 * end + 3 + c] += (f[r] * o[c] + o[r] * f[c]) / 2.0 - same;
        }
    }
}

/// Whether no tension can cause buckling: no push, no arm that leans.
pub(crate) fn only_pulls(frame: &Frame, tensions: &[Tension]) -> bool {
    let arm = |e: &Element, t: &Tension, k: usize| {
        let (f, o) = (t.ends[k], e.arms[k]);
        dot(f, o) == 0.0 && cross(f, o) == [0.0; 3]
    };
    frame
        .elements
        .iter()
        .zip(tensions)
        .all(|(e, t)| t.pull.iter().all(|n| *n >= 0.0) && arm(e, t, 0) && arm(e, t, 1))
}

/// The global force part of the forces of the nodes on the two ends.
pub(crate) fn end_forces(e: &Element, ends: &[Six; 2]) -> [[f64; 3]; 2] {
    std::array::from_fn(|k| e.axes.to_global(halves(&ends[k]).0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{End, Joint, Member, Model, Orientation, Section};

    /// A member askew with a spring at one end and a hinge at the other, pulled unevenly: block by block it is what its slopes say.
    #[test]
    fn a_matrix_by_blocks_is_the_matrix_of_its_slopes() {
        let mut model = Model::new();
        let (i, j) = (model.node([0.1, 0.2, 0.3]), model.node([0.7, -0.4, 0.9]));
        let (shear_y, shear_z) = (Some(2e-4), Some(1e-4));
        let section = Section { e: 3e9, g: 1e9, area: 4e-4, shear_y, shear_z, iy: 8e-8, iz: 5e-8, j: 1e-7 };
        let mut ends = [End::RIGID; 2];
        ends[0].joint[5] = Joint::Spring(700.0);
        ends[1].joint[1] = Joint::Spring(9e3);
        ends[1].joint[4] = Joint::Free;
        let member = Member { i, j, section, orientation: Orientation::ZTowards([0.2, 0.1, 1.0]), ends };
        let element = Element::new(&member, &model.nodes).unwrap();
        let tension = Tension { pull: [-300.0, 500.0, 200.0], ends: [[0.0; 3]; 2] };
        let (blocks, any) = (straight(&element, &tension), any(&element, &tension));
        let most = any.iter().flatten().fold(0.0, |m: f64, v| m.max(v.abs()));
        for (r, c) in (0..144).map(|k| (k / 12, k % 12)) {
            assert!((blocks[r][c] - any[r][c]).abs() < 1e-14 * most, "{r} {c}: {} {}", blocks[r][c], any[r][c]);
        }
    }
}
