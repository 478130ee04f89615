//! The least gap between a body that turns about an axis and one that stands still, over all angles.
//!
//! Proven, not sampled. A point at distance ρ from the axis that turns through Δ stays within
//! ρ·(1 − cos(Δ/2)) of the chord between its two ends, so the body stays, up to that, inside the smallest
//! convex body around its two ends: their gap less the arc's height is never more than the gap at any
//! angle between; and so for overlaps, which only deepen when a body grows. Ranges whose bound cannot beat the
//! least gap found are put aside; the others are halved.

use crate::clear::convex::{Axis, Both, Convex, Form, Support, Turn};
use crate::clear::depth::{depth, gap_from};
use crate::clear::distance::{Apart, Ends, apart, apart_from};
use chairwright_design::Vec3;
use std::f64::consts::PI;

/// The bound and the least gap found are this near each other when a search ends, in metres.
pub(crate) const CLOSE: f64 = 0.000_05;
/// The same for overlaps, whose depth only has to be told.
const CLOSE_DEEP: f64 = 0.000_5;
/// Gaps that differ by less count as the same, so that rounding never decides which of two angles is told:
/// both sides of a chair then tell the same.
pub(crate) const SAME: f64 = 1e-8;
/// Gaps beyond this are only told to a hundredth of themselves.
const FAR: f64 = 0.030;
/// Ranges a search begins with.
const FIRST: u32 = 8;
/// Ranges halved before a search ends with what it has: the bound is then further away, and still holds.
const HALVED: usize = 400;

/// The least gap of a search.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Least {
    /// No angle has a smaller gap, in metres; negative when they overlap.
    pub gap: f64,
    /// The angle of the least gap found; `None` where every angle is alike.
    pub angle: Option<f64>,
}

/// A range of angles.
#[derive(Clone, Copy)]
struct Range {
    from: f64,
    to: f64,
    /// The body at both ends, by its place among those of the search.
    ends: [usize; 2],
    /// No angle in it has a smaller gap.
    bound: f64,
    /// The same without what rounding makes of it.
    grain: f64,
}

/// A body that turns, with what its bounds need.
pub(crate) struct Turning<'a> {
    pub body: &'a Convex,
    pub axis: Axis,
    /// +1 or −1: the sense that angles are counted in.
    pub sense: f64,
    /// No point is further from the axis.
    reach: f64,
    /// No point is nearer to the axis, where the body is one ball or a row of them along the axis.
    inner: f64,
    /// From where to where it lies along the axis.
    along: (f64, f64),
    /// Everything it passes, and more.
    swept: Convex,
}

impl<'a> Turning<'a> {
    pub(crate) fn new(body: &'a Convex, axis: Axis, sense: f64) -> Turning<'a> {
        let off = (body.middle - axis.foot(body.middle)).norm();
        let ring = matches!(&body.form, Form::Points(p) if p.iter().all(|q| ((*q - axis.foot(*q)).norm() - off).abs() < 1e-9));
        let (reach, inner) = if ring { (off + body.skin, off - body.skin) } else { (off + body.radius, 0.0) };
        let along = extent(body, axis);
        let (middle, half) = ((along.0 + along.1) / 2.0, (along.1 - along.0) / 2.0);
        let swept = Convex::cylinder(axis.through + axis.along * middle, axis.along, half, reach);
        Turning { body, axis, sense, reach, inner, along, swept }
    }

    /// A gap that no angle is below: from the slab and the ball that everything turns in, and from a ring's
    /// hole.
    pub(crate) fn at_least(&self, other: &Convex) -> f64 {
        let hub = self.axis.foot(self.body.middle);
        let ball = (other.middle - hub).norm() - self.swept.radius - other.radius;
        let (low, high) = extent(other, self.axis);
        let slab = (low - self.along.1).max(self.along.0 - high);
        let off = (other.middle - self.axis.foot(other.middle)).norm();
        let hole = self.inner - off - other.radius;
        ball.max(slab).max(hole)
    }

    /// No point of the body is further from the axis.
    pub(crate) fn reach(&self) -> f64 {
        self.reach
    }

    /// The body at an angle.
    pub(crate) fn at(&self, angle: f64) -> Convex {
        self.body.turned(&Turn::new(self.axis, angle * self.sense))
    }

    /// A gap that is there at one of some angles: the least over all is no greater. What `beat` is not beaten
    /// by is not told.
    pub(crate) fn sampled(&self, other: &Convex, beat: f64) -> f64 {
        const STEPS: u32 = 16;
        if self.at_least(other) > beat {
            return beat;
        }
        let mut least = beat;
        for k in 0..STEPS {
            let turned = self.at(2.0 * PI * f64::from(k) / f64::from(STEPS));
            least = least.min(gap_from(&turned, other, least.max(0.0), other.middle - turned.middle).size);
        }
        least
    }

    /// Whether a body is further than `beat` from everything that is passed.
    pub(crate) fn is_beyond(&self, other: &Convex, beat: f64) -> bool {
        let far = |apart: Apart| matches!(apart, Apart::By { least, .. } if least > beat);
        self.at_least(other) > beat || far(apart(&self.swept, other, beat))
    }

    /// The least gap to a body over all angles, if it is below `beat`.
    pub(crate) fn least(&self, other: &Convex, beat: f64) -> Option<Least> {
        if self.is_beyond(other, beat) {
            return None;
        }
        let hint = other.middle - self.swept.middle;
        let bodies = Vec::with_capacity(4 * FIRST as usize);
        let mut search = Search { turning: self, other, best: None, beat, hint, bodies };
        let step = 2.0 * PI / f64::from(FIRST);
        let angle = |i: u32| step * f64::from(i) - PI;
        let mut open: Vec<Range> = Vec::with_capacity(4 * FIRST as usize);
        let mut last = search.body(angle(0));
        for i in 0..FIRST {
            let next = search.body(angle(i + 1));
            open.push(search.range((angle(i), angle(i + 1)), [last, next], f64::NEG_INFINITY));
            last = next;
        }
        // no range that was put aside has a smaller gap
        let mut aside = f64::INFINITY;
        for _ in 0..HALVED {
            let next = open.iter().enumerate().min_by(|p, q| p.1.grain.total_cmp(&q.1.grain));
            let Some((i, worst)) = next.map(|(i, r)| (i, *r)) else { break };
            if search.done(worst.bound) {
                break;
            }
            open.swap_remove(i);
            let middle = (worst.from + worst.to) / 2.0;
            let between = search.body(middle);
            search.look(middle, between);
            let [first, last] = worst.ends;
            for (angles, ends) in
                [((worst.from, middle), [first, between]), ((middle, worst.to), [between, last])]
            {
                let half = search.range(angles, ends, worst.bound);
                if search.done(half.bound) {
                    aside = aside.min(half.bound);
                } else {
                    open.push(half);
                }
            }
        }
        let bound = open.iter().map(|r| r.bound).fold(aside, f64::min);
        match search.best {
            Some(best) => Some(Least { gap: best.gap.min(bound), ..best }),
            None => self.unfinished(&open, beat),
        }
    }

    /// A search that ended early: the worst range left, as if it were as bad as its bound.
    fn unfinished(&self, open: &[Range], beat: f64) -> Option<Least> {
        let worst =
            open.iter().min_by(|p, q| p.bound.total_cmp(&q.bound)).filter(|r| r.bound < beat - CLOSE)?;
        let angle = (worst.from + worst.to) / 2.0;
        Some(Least { gap: worst.bound, angle: Some(angle) })
    }
}

/// From where to where a body lies along an axis.
fn extent(body: &Convex, axis: Axis) -> (f64, f64) {
    let at = |toward: Vec3| (body.furthest(toward) - axis.through).dot(axis.along);
    (at(-axis.along), at(axis.along))
}

/// How near bound and gap must come: finer where it decides something.
pub(crate) fn close(gap: f64) -> f64 {
    if gap < 0.0 {
        CLOSE_DEEP
    } else if gap < FAR {
        CLOSE
    } else {
        gap * 0.01
    }
}

/// A bound without what rounding makes of it.
pub(crate) fn grain(bound: f64) -> f64 {
    libm::round(bound / SAME)
}

struct Search<'s, 'a> {
    turning: &'s Turning<'a>,
    other: &'s Convex,
    best: Option<Least>,
    beat: f64,
    /// The direction of the last gap measured.
    hint: Vec3,
    /// The body at every angle that was looked at.
    bodies: Vec<Convex>,
}

impl Search<'_, '_> {
    /// Whether nothing above a bound is worth looking at.
    fn done(&self, bound: f64) -> bool {
        let found = self.best.map_or(f64::INFINITY, |b| b.gap);
        bound >= (found - close(found)).min(self.beat)
    }

    /// Turns the body there, and keeps it.
    fn body(&mut self, angle: f64) -> usize {
        self.bodies.push(self.turning.at(angle));
        self.bodies.len() - 1
    }

    /// Measures the gap at an angle.
    fn look(&mut self, angle: f64, body: usize) -> f64 {
        let enough = self.best.map_or(self.beat, |b| b.gap.max(0.0)).max(0.0) + CLOSE;
        let found = gap_from(&self.bodies[body], self.other, enough, self.hint);
        if found.size > 0.0 {
            self.hint = found.on.1 - found.on.0;
        }
        let least = self.best.map_or(self.beat, |b| b.gap);
        if found.size < least - SAME {
            self.best = Some(Least { gap: found.size, angle: Some(angle) });
        }
        found.size
    }

    /// A range with its bound.
    fn range(&self, (from, to): (f64, f64), ends: [usize; 2], known: f64) -> Range {
        let half = (to - from) / 2.0;
        let arc = self.turning.reach * (1.0 - libm::cos(half));
        let hull = Both(&self.bodies[ends[0]], &self.bodies[ends[1]]);
        let best = self.best.map_or(self.beat, |b| b.gap.min(self.beat));
        let until = Ends {
            above: best.max(0.0) + arc,
            below: if best.is_finite() { best - close(best) + arc } else { best },
        };
        let bound = match apart_from(&hull, self.other, until, self.hint) {
            Apart::By { least, .. } => least - arc,
            // how deep only matters where an overlap was found already
            Apart::Overlap(_) if best >= 0.0 => -2.0 * self.turning.reach,
            Apart::Overlap(corners) => -depth(&hull, self.other, &corners).0 - arc,
        };
        let bound = bound.max(known);
        Range { from, to, ends, bound, grain: grain(bound) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::clear::depth::gap;

    fn plate(at: Vec3, half: Vec3) -> Convex {
        let edges = [Vec3::X * half.x, Vec3::Y * half.y, Vec3::Z * half.z];
        Convex { form: Form::Brick(edges), skin: 0.0, middle: at, radius: half.norm() }
    }

    /// A wheel of 150 x 40 mm with 50 mm of trail about an upright stem at the origin, axle 100 mm down.
    fn wheel() -> Convex {
        Convex::cylinder(Vec3::new(-0.05, 0.0, -0.1), Vec3::Y, 0.02, 0.075)
    }

    fn least(other: &Convex) -> Least {
        let body = wheel();
        let axis = Axis { through: Vec3::ZERO, along: Vec3::Z };
        Turning::new(&body, axis, 1.0).least(other, f64::INFINITY).unwrap()
    }

    /// A wall that the corner of the tyre comes nearest to: distance less sqrt((trail + r)² + (b/2)²)
    /// (job Q53), whatever the wall's direction.
    #[test]
    fn the_corner_of_the_tyre_sweeps_the_circle_of_the_formula() {
        let sweep = (0.125_f64 * 0.125 + 0.02 * 0.02).sqrt();
        for far in [0.13, 0.2, 0.4] {
            for (x, y) in [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)] {
                let at = Vec3::new(x * (far + 0.1), y * (far + 0.1), -0.1);
                let got = least(&plate(at, Vec3::new(0.1, 0.1, 0.1)));
                let wanted = far - sweep;
                assert!(
                    got.gap <= wanted + 1e-6 && got.gap > wanted - 2.0 * close(wanted),
                    "{got:?} against {wanted}"
                );
            }
        }
    }

    /// A plate over the wheel is as far at every angle, the hardest case for a search: 100 - 75 mm below
    /// the stem's seat.
    #[test]
    fn a_level_plate_above_is_as_far_at_every_angle() {
        let got = least(&plate(Vec3::new(0.0, 0.0, 0.1), Vec3::new(0.5, 0.5, 0.1)));
        assert!(got.gap <= 0.025 + 1e-6 && got.gap > 0.025 - 2.0 * CLOSE, "{got:?}");
    }

    /// A post 20 mm square whose face is 100 mm ahead of the stem at axle height: the wheel runs over it,
    /// deepest when it stands in the tyre's middle plane. The least shift that parts them is sideways, half
    /// the tyre and half the post: 20 + 10 mm, or lengthwise 125 - 100 mm.
    #[test]
    fn a_post_in_the_way_is_overlapped() {
        let post = plate(Vec3::new(0.11, 0.0, -0.1), Vec3::new(0.01, 0.01, 0.05));
        let got = least(&post);
        assert!((got.gap + 0.025).abs() < 2.0 * CLOSE_DEEP, "{got:?}");
        assert!((got.angle.unwrap().abs() - PI).abs() < 0.35, "{got:?}");
    }

    /// Against one degree steps, on both sides: the search is never above a step, and never further below
    /// the least step than half a step's arc, 125 mm x 0.5 degrees.
    #[test]
    fn never_above_a_sampled_angle() {
        let body = wheel();
        let axis = Axis { through: Vec3::ZERO, along: Vec3::new(0.1, 0.05, 1.0).unit().unwrap() };
        let turning = Turning::new(&body, axis, -1.0);
        for i in 0..24 {
            let (s, c) = libm::sincos(0.7 * f64::from(i));
            let far = 0.14 + 0.01 * f64::from(i);
            let at = Vec3::new(far * c, far * s, -0.15 + 0.01 * f64::from(i));
            let bar = Convex::cylinder(at, Vec3::new(s, c, 0.4).unit().unwrap(), 0.2, 0.017);
            let got = turning.least(&bar, f64::INFINITY).unwrap();
            let steps = (0..360).map(|k| gap(&turning.at(f64::from(k).to_radians()), &bar, f64::INFINITY).size);
            let sampled = steps.fold(f64::INFINITY, f64::min);
            assert!(got.gap <= sampled + 1e-6, "{got:?} above {sampled}");
            assert!(got.gap >= sampled - 0.135 * 0.5_f64.to_radians() - CLOSE_DEEP, "{got:?} below {sampled}");
        }
    }
}
