//! The least gap between two bodies that turn about axes of their own, over all pairs of angles.
//!
//! As in [`crate::clear::sweep`], with two arcs: within a pair of ranges both bodies stay inside the hulls
//! around their ends, but for the arcs' heights.

use crate::clear::convex::{Both, Convex};
use crate::clear::depth::gap;
use crate::clear::sweep::{CLOSE, SAME, Turning, close, grain};
use std::f64::consts::PI;

const FIRST: u32 = 8;
const HALVED: usize = 1500;

/// The least gap of a pair.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct LeastPair {
    /// No pair of angles has a smaller gap, in metres.
    pub gap: f64,
    /// Where the least gap was found.
    pub angles: [f64; 2],
}

#[derive(Clone, Copy)]
struct Ranges {
    /// From and to, of both bodies.
    ends: [[f64; 2]; 2],
    bound: f64,
    /// The bound without what rounding makes of it.
    grain: f64,
}

struct Search<'s, 'a> {
    bodies: [&'s Turning<'a>; 2],
    best: LeastPair,
}

/// How well an overlap is to be known, as a share of its depth; how near bodies come that do not overlap is always known to the
/// end.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Care(pub f64);

impl Care {
    fn close(self, gap: f64) -> f64 {
        close(gap).max(-gap * self.0)
    }
}

/// The least gap, if it is below `beat`.
pub(crate) fn least_pair(a: &Turning<'_>, b: &Turning<'_>, beat: f64, care: Care) -> Option<LeastPair> {
    let mut search = Search { bodies: [a, b], best: LeastPair { gap: beat, angles: [0.0; 2] } };
    let step = 2.0 * PI / f64::from(FIRST);
    let side = |i: u32| [step * f64::from(i) - PI, step * f64::from(i + 1) - PI];
    let mut open: Vec<Ranges> = (0..FIRST * FIRST)
        .map(|k| search.ranges([side(k / FIRST), side(k % FIRST)], f64::NEG_INFINITY))
        .collect();
    let mut aside = f64::INFINITY;
    for _ in 0..HALVED {
        let next = open.iter().enumerate().min_by(|p, q| p.1.grain.total_cmp(&q.1.grain));
        let Some((i, worst)) = next.map(|(i, r)| (i, *r)) else { break };
        if worst.bound >= search.best.gap - care.close(search.best.gap) {
            break;
        }
        open.swap_remove(i);
        search.look(worst.ends.map(|e| (e[0] + e[1]) / 2.0));
        for half in search.halves(worst) {
            if half.bound >= search.best.gap - care.close(search.best.gap) {
                aside = aside.min(half.bound);
            } else {
                open.push(half);
            }
        }
    }
    let bound = open.iter().map(|r| r.bound).fold(aside, f64::min);
    // an overlap that was known before is not told as another one, at no angle, because this search left its depth open
    if beat < 0.0 && search.best.gap >= beat {
        return None;
    }
    let gap = search.best.gap.min(bound);
    (gap < beat - CLOSE).then_some(LeastPair { gap, ..search.best })
}

impl Search<'_, '_> {
    fn at(&self, which: usize, angle: f64) -> Convex {
        self.bodies[which].at(angle)
    }

    fn look(&mut self, angles: [f64; 2]) -> f64 {
        let found = gap(&self.at(0, angles[0]), &self.at(1, angles[1]), self.best.gap.max(0.0) + CLOSE);
        if found.size < self.best.gap - SAME {
            self.best = LeastPair { gap: found.size, angles };
        }
        found.size
    }

    /// The half ranges, of the body that sweeps the longer arc.
    fn halves(&mut self, r: Ranges) -> [Ranges; 2] {
        let arc = |k: usize| (r.ends[k][1] - r.ends[k][0]) * self.bodies[k].reach();
        let k = usize::from(arc(1) > arc(0));
        let middle = (r.ends[k][0] + r.ends[k][1]) / 2.0;
        let (mut low, mut high) = (r.ends, r.ends);
        low[k][1] = middle;
        high[k][0] = middle;
        [self.ranges(low, r.bound), self.ranges(high, r.bound)]
    }

    fn ranges(&mut self, ends: [[f64; 2]; 2], known: f64) -> Ranges {
        #[cfg(test)]
        RANGES.with(|n| n.set(n.get() + 1));
        let half = ends.map(|e| (e[1] - e[0]) / 2.0);
        let arc = |k: usize| self.bodies[k].reach() * (1.0 - libm::cos(half[k]));
        let arcs = arc(0) + arc(1);
        let ends_of = |k: usize| ends[k].map(|angle| self.at(k, angle));
        let ([a, b], [c, d]) = (ends_of(0), ends_of(1));
        let bound = gap(&Both(&a, &b), &Both(&c, &d), self.best.gap.max(0.0) + arcs).size - arcs;
        let bound = bound.max(known);
        Ranges { ends, bound, grain: grain(bound) }
    }
}

/// A gap that no pair of angles is below: both turn in balls around their axes.
pub(crate) fn balls_apart(a: &Turning<'_>, b: &Turning<'_>) -> f64 {
    let hub = |t: &Turning<'_>, body: &Convex| t.axis.foot(body.middle);
    (hub(a, a.body) - hub(b, b.body)).norm() - a.reach() - b.reach()
}

#[cfg(test)]
thread_local! {
    static RANGES: std::cell::Cell<usize> = const { std::cell::Cell::new(0) };
}

/// Pairs of ranges looked at so far in this thread.
#[cfg(test)]
pub(crate) fn work() -> usize {
    RANGES.with(std::cell::Cell::get)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::clear::convex::Axis;
    use chairwright_design::Vec3;

    /// Two casters on upright stems at one height come nearest when a corner of each tyre points at the
    /// other stem: stem to stem less twice sqrt((trail + r)² + (b/2)²).
    #[test]
    fn two_casters_meet_corner_to_corner() {
        let wheel = |y: f64| Convex::cylinder(Vec3::new(-0.05, y, -0.1), Vec3::Y, 0.02, 0.075);
        let axis = |y: f64| Axis { through: Vec3::new(0.0, y, 0.0), along: Vec3::Z };
        let sweep = (0.125_f64 * 0.125 + 0.02 * 0.02).sqrt();
        for far in [0.24, 0.26, 0.3] {
            let (a, b) = (wheel(0.0), wheel(far));
            let (one, two) = (Turning::new(&a, axis(0.0), 1.0), Turning::new(&b, axis(far), -1.0));
            let got = least_pair(&one, &two, 1.0, Care(0.0)).unwrap();
            let wanted = far - 2.0 * sweep;
            if wanted > 0.0 {
                assert!(
                    got.gap <= wanted + 1e-6 && got.gap > wanted - 2.0 * close(wanted),
                    "{got:?} against {wanted}"
                );
            } else {
                assert!(got.gap < 0.0, "{got:?}");
            }
            assert!(balls_apart(&one, &two) <= wanted);
        }
    }
}
