//! Ways in which a frame can move without resistance.
//!
//! Factors alone cannot tell a mechanism from a slender but sound frame: both leave small pivots.
//! Each small pivot gives a candidate motion; whether it really strains nothing is then asked of the
//! members themselves, whose strains are exactly small in a rigid motion.

use faer::{Mat, Side};

use crate::element::{Carried, Six};
use crate::error::Error;
use crate::factor::Factor;
use crate::frame::Frame;
use crate::model::{MemberId, NodeId};
use crate::vector::{Vec3, add, cross, dot, halves, norm, scale};

/// One way to move without resistance, as small displacements from the drawn shape. It is scaled so
/// that the largest displacement, or rotation times the size of the frame, is one.
#[derive(Clone, Debug, PartialEq)]
pub struct Mechanism {
    /// The nodes that move.
    pub nodes: Vec<NodeMotion>,
    /// The members that move; each as one rigid body.
    pub members: Vec<MemberMotion>,
}

/// How a node moves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NodeMotion {
    /// The node.
    pub node: NodeId,
    /// Its displacement.
    pub translation: Vec3,
    /// Its rotation.
    pub rotation: Vec3,
}

/// How a member moves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MemberMotion {
    /// The member.
    pub member: MemberId,
    /// Its middle, m.
    pub middle: Vec3,
    /// Displacement of the middle.
    pub translation: Vec3,
    /// Its rotation; zero if it only shifts.
    pub rotation: Vec3,
}

impl MemberMotion {
    /// The line it turns about: a point nearest to its middle, and a unit direction. `None` if it
    /// only shifts.
    #[must_use]
    pub fn axis(&self) -> Option<(Vec3, Vec3)> {
        let n = norm(self.rotation);
        let to = scale(cross(self.rotation, self.translation), 1.0 / (n * n));
        (n > 0.0).then(|| (add(self.middle, to), scale(self.rotation, 1.0 / n)))
    }
}

/// Pivots below this are looked into.
pub(crate) const SUSPECT: f64 = 1e-7;
/// A motion that stores less than this, relative to the diagonal of the matrix, is not resisted.
const NIL: f64 = 1e-16;
/// At most so many motions are told.
const MOST: usize = 60;
/// Parts that move less than this against the largest motion stand still.
const STILL: f64 = 1e-7;

/// The mechanisms among the motions that replaced pivots point to.
pub(crate) fn find(frame: &Frame, factor: &Factor) -> Result<Vec<Mechanism>, Error> {
    let motions = candidates(frame, factor);
    let count = motions.len();
    let energy = Mat::from_fn(count, count, |a, b| frame.energy(&motions[a], &motions[b]));
    let parts = energy.self_adjoint_eigen(Side::Lower).map_err(|_| Error::IllConditioned)?;
    let (values, vectors) = (parts.S(), parts.U());
    let loose = (0..count).filter(|&k| values.column_vector()[k] < NIL);
    let mixed: Vec<Vec<Six>> = loose.map(|k| mix(&motions, |m| vectors[(m, k)])).collect();
    Ok(separate(mixed, frame.size).iter().map(|m| describe(frame, m)).collect())
}

/// The motion of each replaced pivot, made of unit length and square to the others in scaled terms.
fn candidates(frame: &Frame, factor: &Factor) -> Vec<Vec<Six>> {
    let n = frame.layout.size;
    let picked = &factor.replaced[..factor.replaced.len().min(MOST)];
    let mut sides = vec![0.0; n * picked.len()];
    for (side, &at) in sides.chunks_exact_mut(n).zip(picked) {
        side[at] = 1.0 / factor.scale[at];
    }
    factor.solve(&mut sides);
    let mut done: Vec<Vec<f64>> = Vec::new();
    for side in sides.chunks_exact(n) {
        let mut v: Vec<f64> = side.iter().zip(&factor.scale).map(|(x, s)| x / s).collect();
        for _ in 0..2 {
            normalise(&mut v);
            for d in &done {
                let along: f64 = v.iter().zip(d).map(|(a, b)| a * b).sum();
                v.iter_mut().zip(d).for_each(|(a, b)| *a -= along * b);
            }
        }
        normalise(&mut v);
        done.push(v);
    }
    let nodes = |v: &Vec<f64>| {
        let unscaled: Vec<f64> = v.iter().zip(&factor.scale).map(|(x, s)| x * s).collect();
        let mut out = vec![[0.0; 6]; frame.nodes.len()];
        frame.scatter_add(&unscaled, &mut out);
        out
    };
    done.iter().map(nodes).collect()
}

fn normalise(v: &mut [f64]) {
    let n = v.iter().map(|x| x * x).sum::<f64>().sqrt();
    if n > 0.0 {
        v.iter_mut().for_each(|x| *x /= n);
    }
}

fn mix(motions: &[Vec<Six>], weight: impl Fn(usize) -> f64) -> Vec<Six> {
    let mut out = vec![[0.0; 6]; motions[0].len()];
    for (m, motion) in motions.iter().enumerate() {
        add_times(&mut out, motion, weight(m));
    }
    out
}

fn add_times(to: &mut [Six], what: &[Six], k: f64) {
    for (a, b) in to.iter_mut().zip(what) {
        *a = std::array::from_fn(|c| a[c] + k * b[c]);
    }
}

/// Takes mixed motions apart: each in turn gets the direction where it is largest to itself, so
/// that motions of separate parts come out separately.
fn separate(mut motions: Vec<Vec<Six>>, size: f64) -> Vec<Vec<Six>> {
    let mut done: Vec<Vec<Six>> = Vec::new();
    while let Some((which, node, k, value)) = largest(&motions, size) {
        let mut own = motions.swap_remove(which);
        own.iter_mut().for_each(|s| *s = s.map(|v| v / value));
        for other in motions.iter_mut().chain(&mut done) {
            let share = other[node][k];
            add_times(other, &own, -share);
        }
        done.push(own);
    }
    done
}

/// The motion, node and direction of the largest displacement, and its value in its own unit.
fn largest(motions: &[Vec<Six>], size: f64) -> Option<(usize, usize, usize, f64)> {
    let mut best = None;
    let mut most = 0.0;
    for (m, motion) in motions.iter().enumerate() {
        for (n, six) in motion.iter().enumerate() {
            for (k, v) in six.iter().enumerate() {
                let weight = v.abs() * if k < 3 { 1.0 } else { size };
                if weight > most {
                    most = weight;
                    best = Some((m, n, k, *v));
                }
            }
        }
    }
    best
}

fn describe(frame: &Frame, motion: &[Six]) -> Mechanism {
    let weigh = |s: &Six| (0..6).map(|k| s[k].abs() * if k < 3 { 1.0 } else { frame.size }).fold(0.0, f64::max);
    let most = motion.iter().map(weigh).fold(0.0, f64::max);
    let motion: Vec<Six> = motion.iter().map(|s| s.map(|v| v / most)).collect();
    let moving = motion.iter().enumerate().filter(|(_, s)| weigh(s) > STILL);
    let nodes = moving.map(|(n, s)| {
        let (translation, rotation) = halves(&clean(s, frame.size));
        NodeMotion { node: NodeId(n), translation, rotation }
    });
    let members = (0..frame.elements.len()).filter_map(|k| member_motion(frame, k, &motion));
    Mechanism { nodes: nodes.collect(), members: members.collect() }
}

/// Rounding set to zero.
fn clean(s: &Six, size: f64) -> Six {
    std::array::from_fn(|k| if s[k].abs() * if k < 3 { 1.0 } else { size } > STILL { s[k] } else { 0.0 })
}

fn member_motion(frame: &Frame, member: usize, motion: &[Six]) -> Option<MemberMotion> {
    let e = &frame.elements[member];
    let at: [Six; 2] = std::array::from_fn(|end| e.local_end(end, &motion[e.nodes[end]]));
    let local = e.displaced([&at[0], &at[1]], &[[0.0; 6]; 2], &Carried::none(e.length), e.length / 2.0);
    let (u, turn) = halves(&local);
    let global = crate::element::join(e.axes.to_global(u), e.axes.to_global(turn));
    let (translation, rotation) = halves(&clean(&global, frame.size));
    let start = add(frame.nodes[e.nodes[0]].at, e.arms[0]);
    let middle = add(start, scale(e.axes.x, e.length / 2.0));
    (dot(translation, translation) + dot(rotation, rotation) > 0.0).then_some(MemberMotion {
        member: MemberId(member),
        middle,
        translation,
        rotation,
    })
}

/// A single node that is made to spin by a moment though nothing resists it.
pub(crate) fn spinning(node: usize, axis: Vec3) -> Mechanism {
    let motion = NodeMotion { node: NodeId(node), translation: [0.0; 3], rotation: axis };
    Mechanism { nodes: vec![motion], members: Vec::new() }
}
