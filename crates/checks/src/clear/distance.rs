//! How far apart two convex bodies are, or how deep they overlap.
//!
//! Apart: the point of A − B nearest to the origin, closed in on from support points (Gilbert, Johnson
//! and Keerthi, IEEE Journal of Robotics and Automation 4, 1988). Every step also gives a plane that A − B
//! lies beyond, so the answer is known from both sides. Overlapping: see [`crate::clear::depth`].

use crate::clear::convex::Support;
use chairwright_design::Vec3;

/// Two bounds of a distance this near each other are one, in metres.
const CLOSE: f64 = 1e-6;
/// Steps; smooth bodies need about ten.
const STEPS: usize = 80;

/// A point of A − B with the points it comes from.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Corner {
    pub at: Vec3,
    pub a: Vec3,
    pub b: Vec3,
}

/// The point of A − B furthest in a direction.
pub(crate) fn corner(a: &impl Support, b: &impl Support, toward: Vec3) -> Corner {
    let (p, q) = (a.furthest(toward), b.furthest(-toward));
    Corner { at: p - q, a: p, b: q }
}

/// What is known about two bodies.
#[derive(Clone, Debug)]
pub(crate) enum Apart {
    /// They do not touch.
    By {
        /// They are no nearer than this, in metres.
        least: f64,
        /// Nearest points found.
        on: (Vec3, Vec3),
    },
    /// They touch or overlap; some corners of A − B around the origin.
    Overlap(Vec<Corner>),
}

/// The corners in use, with the weights of their point nearest to the origin.
#[derive(Clone, Copy)]
struct Simplex {
    corners: [Corner; 4],
    weights: [f64; 4],
    len: usize,
}

impl Simplex {
    fn used(&self) -> &[Corner] {
        &self.corners[..self.len]
    }

    fn sum(&self, f: fn(&Corner) -> Vec3) -> Vec3 {
        self.used().iter().zip(&self.weights).fold(Vec3::ZERO, |s, (c, w)| s + f(c) * *w)
    }

    /// What carries the point nearest to the origin once a corner is taken in behind those in use, and that point; `None` when
    /// the origin is inside.
    fn with(&mut self, next: Corner) -> Option<(Carried, Vec3)> {
        self.corners[self.len] = next;
        let carried = nearest(&self.corners[..=self.len])?;
        let mut at = Vec3::ZERO;
        for i in (0..=self.len).filter(|i| carried.1 & (1 << i) != 0) {
            at += self.corners[i].at * carried.0[i];
        }
        Some((carried, at))
    }

    /// Drops the corners that carry nothing.
    fn keep(&mut self, (weights, carry): Carried) {
        let count = self.len + 1;
        self.len = 0;
        for i in (0..count).filter(|i| carry & (1 << i) != 0) {
            // most often only the last ones move up
            if self.len != i {
                self.corners[self.len] = self.corners[i];
            }
            self.weights[self.len] = weights[i];
            self.len += 1;
        }
    }
}

/// When a search may end before the distance is known.
#[derive(Clone, Copy)]
pub(crate) struct Ends {
    /// It is more than this.
    pub above: f64,
    /// It is less than this, and known within a fifth.
    pub below: f64,
}

/// The nearest points of two bodies. Stops as soon as they are known to be further apart than `enough`.
pub(crate) fn apart(a: &impl Support, b: &impl Support, enough: f64) -> Apart {
    apart_from(a, b, Ends { above: enough, below: 0.0 }, b.middle() - a.middle())
}

/// The same, beginning with a direction from the first to the second: near the answer, it takes fewer steps.
pub(crate) fn apart_from(a: &impl Support, b: &impl Support, ends: Ends, toward: Vec3) -> Apart {
    let toward = if toward.norm() < 1e-12 { Vec3::X } else { toward };
    let first = corner(a, b, toward);
    let mut simplex = Simplex { corners: [first; 4], weights: [1.0, 0.0, 0.0, 0.0], len: 1 };
    let (mut v, mut n) = (first.at, first.at.norm());
    let mut least = 0.0_f64;
    for _ in 0..STEPS {
        if n < 1e-9 {
            return Apart::Overlap(simplex.used().to_vec());
        }
        let next = corner(a, b, -v);
        least = least.max(v.dot(next.at) / n);
        let known = simplex.used().iter().any(|c| {
            let d = c.at - next.at;
            d.dot(d) < 1e-24
        });
        let rough = n < ends.below && least > 0.8 * n;
        if n - least < CLOSE || least > ends.above || rough || known {
            break;
        }
        let Some((carried, nearer)) = simplex.with(next) else {
            return Apart::Overlap(simplex.used().iter().copied().chain([next]).collect());
        };
        let size = nearer.norm();
        if size >= n - 1e-13 {
            break;
        }
        simplex.keep(carried);
        (v, n) = (nearer, size);
    }
    Apart::By { least: least.max(0.0), on: (simplex.sum(|c| c.a), simplex.sum(|c| c.b)) }
}

/// Weights of the simplex's point nearest to the origin, and which corners carry it; `None` when the
/// origin is inside a tetrahedron. The last corner was taken in because it lies before all that the others carry, so that
/// what is nearest rests on it: sides without it are not looked at.
fn nearest(s: &[Corner]) -> Option<([f64; 4], u8)> {
    let p = |i: usize| s[i].at;
    match s.len() {
        1 => Some(([1.0, 0.0, 0.0, 0.0], 1)),
        2 => Some(on_edge(p(0), p(1), [0, 1])),
        3 => Some(on_face([p(0), p(1), p(2)], [0, 1, 2])),
        _ => in_body([p(0), p(1), p(2), p(3)]),
    }
}

type Carried = ([f64; 4], u8);

/// The point of an edge nearest to the origin: the weights of both ends, and which of them carry it.
fn along(a: Vec3, b: Vec3) -> ([f64; 2], [bool; 2]) {
    let ab = b - a;
    let t = -a.dot(ab);
    let len = ab.dot(ab);
    if t <= 0.0 || len <= 0.0 {
        return ([1.0, 0.0], [true, false]);
    }
    if t >= len {
        return ([0.0, 1.0], [false, true]);
    }
    ([1.0 - t / len, t / len], [true, true])
}

fn on_edge(a: Vec3, b: Vec3, i: [usize; 2]) -> Carried {
    let (weights, carry) = along(a, b);
    let mut all = ([0.0; 4], 0);
    for k in 0..2 {
        all.0[i[k]] = weights[k];
        all.1 |= u8::from(carry[k]) << i[k];
    }
    all
}

/// Nearest point of a triangle: the face if the foot of the origin lies in it, else the nearer of the edges to its last corner.
fn on_face([a, b, c]: [Vec3; 3], i: [usize; 3]) -> Carried {
    let n = (b - a).cross(c - a);
    let nn = n.dot(n);
    if nn > 1e-30 {
        let u = b.cross(c).dot(n) / nn;
        let v = c.cross(a).dot(n) / nn;
        let w = 1.0 - u - v;
        if u >= 0.0 && v >= 0.0 && w >= 0.0 {
            let mut all = [0.0; 4];
            (all[i[0]], all[i[1]], all[i[2]]) = (u, v, w);
            return (all, 1 << i[0] | 1 << i[1] | 1 << i[2]);
        }
    }
    // only how far each edge is has to be known to choose one
    let far = |a: Vec3, b: Vec3| {
        let ([u, v], _) = along(a, b);
        let p = a * u + b * v;
        p.dot(p)
    };
    if far(c, a) < far(b, c) { on_edge(c, a, [i[2], i[0]]) } else { on_edge(b, c, [i[1], i[2]]) }
}

/// The square of how far a carried point is from the origin.
fn size_of(carried: &Carried, at: &[Vec3; 4]) -> f64 {
    let mut p = Vec3::ZERO;
    for (w, q) in carried.0.iter().zip(at) {
        p += *q * *w;
    }
    p.dot(p)
}

fn in_body(p: [Vec3; 4]) -> Option<Carried> {
    let faces = [[0, 2, 3, 1], [1, 0, 3, 2], [2, 1, 3, 0]];
    let mut seen: Option<(f64, Carried)> = None;
    let volume = (p[1] - p[0]).cross(p[2] - p[0]).dot(p[3] - p[0]);
    let square = |i: usize| (p[i] - p[0]).dot(p[i] - p[0]);
    let size = square(1).max(square(2)).max(square(3));
    let flat = volume * volume < 1e-26 * size * size * size;
    for [a, b, c, d] in faces {
        let n = (p[b] - p[a]).cross(p[c] - p[a]);
        let (here, there) = (-p[a].dot(n), (p[d] - p[a]).dot(n));
        if flat || here * there < 0.0 {
            let carried = on_face([p[a], p[b], p[c]], [a, b, c]);
            let size = size_of(&carried, &p);
            if seen.is_none_or(|s| size < s.0) {
                seen = Some((size, carried));
            }
        }
    }
    seen.map(|s| s.1)
}
