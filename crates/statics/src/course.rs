//! Loads along one member in its own axes, and their running sums.

use crate::load::{In, MemberLoad};
use crate::vector::{Axes, Vec3, add, scale, sub};

/// A force per length that goes straight from `first` at `from` to `last` at `to`.
#[derive(Clone, Copy, Debug)]
struct Spread {
    from: f64,
    to: f64,
    first: Vec3,
    last: Vec3,
}

/// A force and a moment at a station.
#[derive(Clone, Copy, Debug)]
struct Point {
    at: f64,
    force: Vec3,
    moment: Vec3,
}

/// Everything that acts on one member, in its own axes.
#[derive(Clone, Debug, Default)]
pub(crate) struct Actions {
    spread: Vec<Spread>,
    points: Vec<Point>,
    /// Free strain of the axis, free curvature about y and about z.
    pub strain: Vec3,
}

impl Actions {
    /// Takes over one load of a member of the given length and axes. A station that rounding has put
    /// beyond an end is moved to it: past the end it would act on nothing.
    pub fn push(&mut self, load: &MemberLoad, length: f64, axes: &Axes) {
        let local = |from: In, v: Vec3| match from {
            In::Local => v,
            In::Global => axes.to_local(v),
        };
        match *load {
            MemberLoad::Uniform(of, q) => {
                let q = local(of, q);
                self.spread(Spread { from: 0.0, to: length, first: q, last: q });
            }
            MemberLoad::Linear { axes: of, from, to, first, last } => {
                let (from, to) = (from.clamp(0.0, length), to.clamp(0.0, length));
                self.spread(Spread { from, to, first: local(of, first), last: local(of, last) });
            }
            MemberLoad::Point { axes: of, at, force, moment } => {
                let at = at.clamp(0.0, length);
                self.points.push(Point { at, force: local(of, force), moment: local(of, moment) });
            }
            MemberLoad::Strain { axial, about_y, about_z } => {
                self.strain = add(self.strain, [axial, about_y, about_z]);
            }
        }
    }

    /// Loads over the same stretch are one: every place inside asks all of them.
    fn spread(&mut self, more: Spread) {
        match self.spread.iter_mut().find(|s| (s.from, s.to) == (more.from, more.to)) {
            Some(same) => {
                (same.first, same.last) = (add(same.first, more.first), add(same.last, more.last));
            }
            None => self.spread.push(more),
        }
    }

    /// Whether no spread load grows or falls along the member.
    pub fn even(&self) -> bool {
        self.spread.iter().all(|s| s.first == s.last)
    }

    /// The stations where a load starts, ends or sits, with both ends of the member, in order.
    pub fn breaks(&self, length: f64) -> Vec<f64> {
        let mut all = vec![0.0, length];
        all.extend(self.spread.iter().flat_map(|s| [s.from, s.to]));
        all.extend(self.points.iter().map(|p| p.at));
        all.retain(|x| (0.0..=length).contains(x));
        all.sort_by(f64::total_cmp);
        all.dedup();
        all
    }

    /// Force of the loads before a station. `after` counts a point load at the station itself.
    pub fn force(&self, x: f64, after: bool) -> Vec3 {
        let spread = self.spread.iter().map(|s| s.force(x));
        let points = self.points.iter().filter(|p| p.before(x, after)).map(|p| p.force);
        spread.chain(points).fold([0.0; 3], add)
    }

    /// Lever sum of the loads before a station: forces times their distance back from it.
    pub fn lever(&self, x: f64) -> Vec3 {
        let spread = self.spread.iter().map(|s| s.lever(x));
        let points = self.points.iter().filter(|p| p.at < x).map(|p| scale(p.force, x - p.at));
        spread.chain(points).fold([0.0; 3], add)
    }

    /// Moment of the point moments before a station.
    pub fn moment(&self, x: f64, after: bool) -> Vec3 {
        self.points.iter().filter(|p| p.before(x, after)).map(|p| p.moment).fold([0.0; 3], add)
    }
}

impl Point {
    fn before(&self, x: f64, after: bool) -> bool {
        self.at < x || (after && self.at <= x)
    }
}

impl Spread {
    /// The length of the load before a station, and the value it starts and has grown to there.
    fn part(&self, x: f64) -> Option<(f64, Vec3)> {
        let (run, whole) = (x.min(self.to) - self.from, self.to - self.from);
        (run > 0.0 && whole > 0.0).then(|| (run, scale(sub(self.last, self.first), run / whole)))
    }

    fn force(&self, x: f64) -> Vec3 {
        self.part(x).map_or([0.0; 3], |(run, growth)| scale(add(self.first, scale(growth, 0.5)), run))
    }

    fn lever(&self, x: f64) -> Vec3 {
        let Some((run, growth)) = self.part(x) else { return [0.0; 3] };
        // About the end of the loaded run: q·a²/2 of the even part, q·a²/6 of the growing part.
        let about_end = add(scale(self.first, run * run / 2.0), scale(growth, run * run / 6.0));
        add(about_end, scale(self.force(x), x - self.from - run))
    }
}

/// Gauss points of a piece from -1 to 1 and their weights, exact for polynomials of the third degree.
pub(crate) const CUBIC: [(f64, f64); 2] = [(-0.577_350_269_189_625_8, 1.0), (0.577_350_269_189_625_8, 1.0)];
/// The same for the fifth.
pub(crate) const QUINTIC: [(f64, f64); 3] =
    [(-0.774_596_669_241_483_4, 5.0 / 9.0), (0.0, 8.0 / 9.0), (0.774_596_669_241_483_4, 5.0 / 9.0)];

/// Integral of a function over the pieces between breaks up to `end`, by these points on each piece.
pub(crate) fn integral<const N: usize>(
    points: &[(f64, f64)],
    (breaks, end): (&[f64], f64),
    f: impl Fn(f64) -> [f64; N],
) -> [f64; N] {
    let mut sum = [0.0; N];
    for pair in breaks.windows(2) {
        let (a, b) = (pair[0].min(end), pair[1].min(end));
        let (mid, half) = ((a + b) / 2.0, (b - a) / 2.0);
        if half <= 0.0 {
            continue;
        }
        for &(at, weight) in points {
            let value = f(mid + half * at);
            for (s, v) in sum.iter_mut().zip(value) {
                *s += v * weight * half;
            }
        }
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_load_that_rounding_puts_past_the_end_acts_at_the_end() {
        let load = |at: f64| MemberLoad::Point {
            axes: In::Local,
            at,
            force: [1.0, 2.0, 3.0],
            moment: [4.0, 5.0, 6.0],
        };
        let mut actions = Actions::default();
        actions.push(&load(3.0 + 4e-16), 3.0, &Axes::GLOBAL);
        actions.push(&load(-4e-16), 3.0, &Axes::GLOBAL);
        assert_eq!(actions.force(3.0, true), [2.0, 4.0, 6.0]);
        assert_eq!(actions.moment(3.0, true), [8.0, 10.0, 12.0]);
    }

    #[test]
    fn sums_of_a_part_load_agree_with_direct_integration() {
        let load = MemberLoad::Linear {
            axes: In::Local,
            from: 0.5,
            to: 2.0,
            first: [1.0, -2.0, 0.0],
            last: [4.0, 5.0, 1.0],
        };
        let mut actions = Actions::default();
        actions.push(&load, 3.0, &Axes::GLOBAL);
        for x in [0.2, 0.5, 1.1, 2.0, 2.7] {
            let q = |s: f64, k: usize| {
                let (a, b) = ([1.0, -2.0, 0.0][k], [4.0, 5.0, 1.0][k]);
                if (0.5..=2.0).contains(&s) { a + (b - a) * (s - 0.5) / 1.5 } else { 0.0 }
            };
            let breaks = actions.breaks(3.0);
            for k in 0..3 {
                let [force, lever] = integral(&QUINTIC, (&breaks, x), |s| [q(s, k), q(s, k) * (x - s)]);
                assert!((force - actions.force(x, false)[k]).abs() < 1e-14);
                assert!((lever - actions.lever(x)[k]).abs() < 1e-14);
            }
        }
    }
}
