//! How many fasteners a face has room for, in which rows, and where they turn least.

use crate::assumed::Assumed;
use crate::placing::{ROUND, layout};
use chairwright_design::{MemberId, Origin, Placing};
use std::ops::RangeInclusive;

/// The room that a face has for fasteners; m, along and across.
#[derive(Clone, PartialEq, Debug)]
pub struct Room {
    /// The fastening or joint.
    pub name: String,
    /// Where it stands in the text.
    pub origin: Origin,
    /// How many fasteners it has, and on how many faces they are shared out.
    pub count: u32,
    /// On how many faces they are shared out: of a gusset four.
    pub faces: u32,
    /// Where they sit; `None` where so many fit nowhere.
    pub placing: Option<Placing>,
    /// Whether the text does not say so, and it was taken.
    pub taken: bool,
    /// Where those that the text places go through members.
    pub through: Vec<Through>,
    /// The face.
    pub face: [f64; 2],
    /// Least spacing.
    pub(crate) least: [f64; 2],
    /// What bounds a group: for the full value, and at all.
    pub(crate) bounds: [Vec<Bound>; 2],
}

/// Fasteners that go through a member.
#[derive(Clone, PartialEq, Debug)]
pub struct Through {
    /// The member.
    pub member: MemberId,
    /// Where they are on it, from its first joint, m; those beside each other once.
    pub along: Vec<f64>,
    /// The fastener's name.
    pub fastener: String,
    /// What they hold to it.
    pub with: String,
}

/// A bound on a group: an end or an edge of a piece, that may run askew over the face.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Bound {
    /// How much half of the group's length, and half of its width, bring it nearer.
    pub shares: [f64; 2],
    /// How far it is from the middle of the face, m.
    pub reach: f64,
    /// What must be kept from it, m.
    pub margin: f64,
}

impl Bound {
    /// How long a group may be along an axis that is so wide across it, m: endless where this does not bound it, less than nothing
    /// where it is too wide already.
    fn span(&self, axis: usize, wide: f64) -> f64 {
        let left = 2.0 * (self.reach - self.margin) - self.shares[1 - axis] * wide;
        match self.shares[axis] > 0.0 {
            true => left / self.shares[axis],
            false if left < -2.0 * ROUND => f64::NEG_INFINITY,
            false => f64::INFINITY,
        }
    }
}

/// Spacing of placed fasteners, and how far the outermost are from the nearer end and edge of their face, m, along and
/// across.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Laid {
    /// From one to the next.
    pub step: [f64; 2],
    /// To the end and the edge of the face.
    pub margin: [f64; 2],
}

impl Room {
    /// Where they sit.
    #[must_use]
    pub fn laid(&self) -> Option<Laid> {
        let l = layout(self.placing.as_ref()?, self.count / self.faces, self.face);
        let margin = [0, 1].map(|k| (self.face[k] - l.span[k]) / 2.0 - l.off[k]);
        Some(Laid { step: l.step, margin })
    }

    /// Where so many sit best: the rows that turn least under a moment, with the full distances from ends and edges where
    /// these leave room; `None` where they do not fit at all. Spacings are multiples of a step, or else of a finer one, m.
    #[must_use]
    pub fn fit(&self, count: u32, steps: [f64; 2]) -> Option<Placing> {
        let each = count.is_multiple_of(self.faces).then_some(count / self.faces).filter(|n| *n > 0)?;
        self.bounds.iter().find_map(|bounds| self.within(each, bounds, steps))
    }

    /// Where so many can sit: those that turn least of every number of rows, with the full distances and with the least ones,
    /// and the same with the least spacing; first what [`Room::fit`] says.
    pub(crate) fn fits(&self, count: u32, steps: [f64; 2]) -> Vec<Placing> {
        let mut out: Vec<Placing> = self.fit(count, steps).into_iter().collect();
        let each = count / self.faces;
        for bounds in &self.bounds {
            let rows = (1..=each.min(self.most()[1])).filter(|r| each.is_multiple_of(*r));
            let all = rows.filter_map(|rows| self.of_rows((each, rows..=rows), bounds, steps));
            for placing in all.flat_map(|p| self.tighter(p, steps[1])) {
                if !out.contains(&placing) {
                    out.push(placing);
                }
            }
        }
        out
    }

    /// A placing, and the same with the least spacing along, across, and both ways: further from ends and edges.
    fn tighter(&self, p: Placing, by: f64) -> [Placing; 4] {
        let least = self.least.map(|l| libm::ceil((l - ROUND) / by) * by);
        let spaced = Placing { spaced: p.spaced.map(|s| s.min(least[0])), ..p };
        let apart = |p: Placing| Placing { apart: p.apart.map(|a| a.min(least[1])), ..p };
        [p, spaced, apart(p), apart(spaced)]
    }

    /// How many fit in a row and how many rows, at the most, whatever stands beside them.
    fn most(&self) -> [u32; 2] {
        [0, 1].map(|axis| {
            let span = self.bounds[1].iter().map(|b| b.span(axis, 0.0)).fold(f64::INFINITY, f64::min);
            let gaps = libm::floor((span + 2.0 * ROUND) / self.least[axis].max(ROUND));
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let most = (gaps + 1.0).clamp(0.0, f64::from(MOST)) as u32;
            most
        })
    }

    /// How many of its fasteners are placed: as many on each face.
    pub(crate) fn wanted(&self) -> u32 {
        self.count / self.faces.max(1) * self.faces
    }

    fn within(&self, each: u32, bounds: &[Bound], by: [f64; 2]) -> Option<Placing> {
        self.of_rows((each, 1..=each), bounds, by)
    }

    fn of_rows(
        &self,
        (each, rows): (u32, RangeInclusive<u32>),
        bounds: &[Bound],
        by: [f64; 2],
    ) -> Option<Placing> {
        let mut best: Option<(f64, Placing)> = None;
        let most = self.most();
        let fits = |rows: &u32| each.is_multiple_of(*rows) && each / rows <= most[0];
        for rows in rows.take_while(|r| *r <= most[1]).filter(fits) {
            let counts = [each / rows, rows];
            for apart in self.aparts(rows, bounds, by) {
                let wide = apart * f64::from(rows - 1);
                let Some(spaced) = step(counts[0], self.least[0], reach(bounds, wide), by) else { continue };
                let turns = inertia(counts[0], spaced) + inertia(rows, apart);
                let some = |n: u32, s: f64| (n > 1).then_some(s);
                let (spaced, apart) = (some(counts[0], spaced), some(rows, apart));
                let placing = Placing { rows, spaced, apart, ends: None, edges: None };
                if best.as_ref().is_none_or(|b| turns > b.0 + 1e-12) {
                    best = Some((turns, placing));
                }
            }
        }
        best.map(|b| b.1)
    }

    /// Distances of so many rows that are tried: the widest; where something bounds the face askew, narrower ones too.
    fn aparts(&self, rows: u32, bounds: &[Bound], by: [f64; 2]) -> Vec<f64> {
        let most = bounds.iter().map(|b| b.span(1, 0.0)).fold(f64::INFINITY, f64::min);
        let Some(widest) = step(rows, self.least[1], most, by) else { return Vec::new() };
        let mut out = vec![widest];
        if rows > 1 && bounds.iter().any(|b| b.shares[0] > 0.0 && b.shares[1] > 0.0) {
            let steps = libm::round(widest / by[1]);
            let narrower = (1..TRIED).map(|k| (steps - f64::from(k)) * by[1]);
            out.extend(narrower.take_while(|a| *a + ROUND >= self.least[1]));
        }
        out
    }

    /// The same on a face so many times as large.
    pub(crate) fn grown(&self, by: f64) -> Room {
        let grow = |b: &Bound| Bound { reach: b.reach * by, ..*b };
        let bounds = [0, 1].map(|k| self.bounds[k].iter().map(grow).collect());
        Room { face: self.face.map(|f| f * by), bounds, ..self.clone() }
    }

    /// The most of fewer than so many that fit.
    #[must_use]
    pub fn fewer(&self, count: u32, steps: [f64; 2]) -> Option<(u32, Placing)> {
        let [along, across] = self.most();
        let most = along.saturating_mul(across).saturating_mul(self.faces);
        (1..count.min(most.saturating_add(1))).rev().find_map(|n| Some((n, self.fit(n, steps)?)))
    }
}

/// The places that were taken because the text says none.
pub(crate) fn taken(rooms: &[Room], inches: bool) -> Option<Assumed> {
    let mine = rooms.iter().filter(|r| r.taken && r.count > r.faces);
    let all: Vec<(String, Placing)> = mine.filter_map(|r| Some((r.name.clone(), r.placing?))).collect();
    (!all.is_empty()).then_some(Assumed::Places(all, inches))
}

/// How far the first and the last of a row may be apart in a group so wide, m; endless where nothing bounds it.
fn reach(bounds: &[Bound], wide: f64) -> f64 {
    bounds.iter().map(|b| b.span(0, wide)).fold(f64::INFINITY, f64::min)
}

/// More in a row than this, and more rows, are not looked for.
const MOST: u32 = 200;

/// How many distances of rows are tried on a face that is bounded askew.
const TRIED: u32 = 200;

/// Mean square distance of so many in a row from its middle: `s² (n² - 1)/12`.
fn inertia(count: u32, step: f64) -> f64 {
    step * step * f64::from(count * count - 1) / 12.0
}

/// The widest spacing, rounded down, of so many within a span; where no multiple of a step lies between it and the least, the least
/// itself: whether there is room hangs on sizes, not on the units that they are written in. `None` where less than the least is left.
fn step(count: u32, least: f64, span: f64, by: [f64; 2]) -> Option<f64> {
    if count == 1 {
        return (span >= -ROUND).then_some(0.0);
    }
    let most = span / f64::from(count - 1);
    let down = |by: f64| libm::floor((most + ROUND) / by) * by;
    let rounded = by.into_iter().map(down).find(|s| *s + ROUND >= least);
    rounded.or_else(|| (most + ROUND >= least).then_some(least))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn placing(rows: u32, spaced: Option<f64>, apart: Option<f64>) -> Placing {
        Placing { rows, spaced, apart, ends: None, edges: None }
    }

    /// Four on a face where the first and last may be 50 mm apart along and 32 mm across, at least 25 and 20 mm from one
    /// to the next. One row of four wants 75 mm. Two rows of two: 50 mm and, rounded down to 5 mm, 30 mm. Six would want
    /// three in a row: 25 mm each.
    #[test]
    fn what_fits_turns_least() {
        // ends 50 mm and edges 40 mm from the middle
        let bounds = |margins: [f64; 2]| {
            let bound = |shares, reach, margin| Bound { shares, reach, margin };
            vec![bound([1.0, 0.0], 0.05, margins[0]), bound([0.0, 1.0], 0.04, margins[1])]
        };
        let room = Room {
            name: String::new(),
            origin: Origin(0),
            count: 4,
            faces: 1,
            placing: None,
            taken: false,
            through: Vec::new(),
            face: [0.1, 0.08],
            least: [0.025, 0.020],
            bounds: [bounds([0.055, 0.045]), bounds([0.025, 0.024])],
        };
        let by = [0.005, 0.001];
        assert_eq!(room.fit(4, by), Some(placing(2, Some(0.05), Some(0.03))));
        assert_eq!(room.fit(6, by), Some(placing(2, Some(0.025), Some(0.03))));
        assert_eq!(room.fit(8, by), None);
        assert_eq!(room.fewer(8, by).map(|f| f.0), Some(6));
        // half as large again there is room for 100 mm by 72 mm: four in a row at 33 mm, and two rows
        assert!(room.grown(1.5).fit(8, by).is_some());
    }

    /// Two that may be 25.2 mm apart and must be 25 mm: 25 mm in steps of 1 mm. In steps of 1/16 in, 1.5875 mm, 15 are 23.8 mm and 16 are 25.4
    /// mm: the least itself stands in for them. Where 24.9 mm are left, there is room in neither.
    #[test]
    fn room_hangs_on_no_unit() {
        let (metric, inch) = ([0.005, 0.001], [0.0254 / 4.0, 0.0254 / 16.0]);
        for by in [metric, inch] {
            assert!((step(2, 0.025, 0.0252, by).unwrap() - 0.025).abs() < 1e-12, "{by:?}");
            assert_eq!(step(2, 0.025, 0.0249, by), None);
        }
        // a rounding of the text, 10 µm, is no lack of room
        assert!(step(2, 0.0254, 0.025_391, inch).is_some() && step(2, 0.0254, 0.025_391, metric).is_some());
    }

    /// Two strips 60 mm wide that cross at 45 degrees, 10 mm to be kept from either's edges, and so 20 mm each way: two rows of
    /// two, half `a` along and half `b` across the first, keep b ≤ 20 mm and (a + b)/√2 ≤ 20 mm, a + b ≤ 28.28 mm. Of a and b in
    /// steps of 0.5 mm (spacings in 1 mm) and at least 5 mm each a² + b² is greatest at an end: b = 5, a = 23 (554) against
    /// b = 20, a = 8 (464).
    #[test]
    fn a_face_that_is_bounded_askew() {
        let askew = [0.5_f64.sqrt(); 2];
        let bound = |shares| Bound { shares, reach: 0.030, margin: 0.010 };
        let bounds = vec![bound([0.0, 1.0]), bound(askew)];
        let room = Room {
            name: String::new(),
            origin: Origin(0),
            count: 4,
            faces: 1,
            placing: None,
            taken: false,
            through: Vec::new(),
            face: [0.085, 0.06],
            least: [0.010, 0.010],
            bounds: [bounds.clone(), bounds],
        };
        // one row of four may be 56 mm long, 18 mm apart: 18² (4² - 1)/12 = 405
        assert_eq!(room.fit(4, [0.001, 0.001]), Some(placing(2, Some(0.046), Some(0.010))));
    }
}
