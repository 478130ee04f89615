//! How many fasteners a face has room for, and where they turn least.

use crate::placing::{ROUND, layout};
use chairwright_design::{Origin, Placing};

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
    /// Where the text says that they sit.
    pub placing: Option<Placing>,
    /// The face.
    pub face: [f64; 2],
    /// Least spacing.
    pub(crate) least: [f64; 2],
    /// The farthest that the first and the last may be apart: for the full value, and at all.
    pub(crate) span: [[f64; 2]; 2],
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
    /// Where they sit, where the text says it.
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
        self.span.iter().find_map(|span| self.within(each, *span, steps))
    }

    fn within(&self, each: u32, span: [f64; 2], by: [f64; 2]) -> Option<Placing> {
        let mut best: Option<(f64, Placing)> = None;
        for rows in (1..=each).filter(|r| each.is_multiple_of(*r)) {
            let counts = [each / rows, rows];
            let steps = [0, 1].map(|k| step(counts[k], self.least[k], span[k], by));
            let [Some(spaced), Some(apart)] = steps else { continue };
            let turns = (0..2).map(|k| inertia(counts[k], [spaced, apart][k])).sum::<f64>() * f64::from(each);
            let some = |n: u32, s: f64| (n > 1).then_some(s);
            let placing = Placing {
                rows,
                spaced: some(counts[0], spaced),
                apart: some(rows, apart),
                ends: None,
                edges: None,
            };
            if best.as_ref().is_none_or(|b| turns > b.0 * (1.0 + 1e-9)) {
                best = Some((turns, placing));
            }
        }
        best.map(|b| b.1)
    }

    /// The most of fewer than so many that fit.
    #[must_use]
    pub fn fewer(&self, count: u32, steps: [f64; 2]) -> Option<(u32, Placing)> {
        (1..count).rev().find_map(|n| Some((n, self.fit(n, steps)?)))
    }
}

/// Mean square distance of so many in a row from its middle: `s² (n² - 1)/12`.
fn inertia(count: u32, step: f64) -> f64 {
    step * step * f64::from(count * count - 1) / 12.0
}

/// The widest spacing, rounded down, of so many within a span; `None` where less than the least is left.
fn step(count: u32, least: f64, span: f64, by: [f64; 2]) -> Option<f64> {
    if count == 1 {
        return (span >= -ROUND).then_some(0.0);
    }
    let most = span / f64::from(count - 1);
    let down = |by: f64| libm::floor((most + ROUND) / by) * by;
    by.into_iter().map(down).find(|s| *s + ROUND >= least)
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
        let room = Room {
            name: String::new(),
            origin: Origin(0),
            count: 4,
            faces: 1,
            placing: None,
            face: [0.1, 0.08],
            least: [0.025, 0.020],
            span: [[-0.01, -0.01], [0.050, 0.032]],
        };
        let by = [0.005, 0.001];
        assert_eq!(room.fit(4, by), Some(placing(2, Some(0.05), Some(0.03))));
        assert_eq!(room.fit(6, by), Some(placing(2, Some(0.025), Some(0.03))));
        assert_eq!(room.fit(8, by), None);
        assert_eq!(room.fewer(8, by).map(|f| f.0), Some(6));
    }
}
