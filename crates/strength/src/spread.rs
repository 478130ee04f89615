//! Where the fasteners of a joint sit, as far as the text tells, and what a moment puts on each.
//!
//! The text counts fasteners and does not place them. What lies along something is taken as fastened
//! over the length that both share; everywhere else the fasteners are taken as close to each other as
//! the rules for spacing allow, which is the smallest spread that a careful builder makes.

use chairwright_resistance::group::{shared, tilted};
use chairwright_resistance::spacing::{Distances, Placed, least};
use chairwright_resistance::{Capacity, Refusal};

/// Room between the rows of bolts, in diameters: two washers side by side and a spanner. Common practice,
/// no source.
const WRENCH: f64 = 3.0;
/// A moment smaller than this is none, N m: what the solver leaves of a hinge.
const NONE: f64 = 1e-3;

/// Fasteners alike on a face.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Group {
    /// Places, m, along the face and across it.
    places: Vec<[f64; 2]>,
    /// How many share a force; a fraction where one fastening holds in several places.
    pub count: f64,
    /// Sizes of the face that both pieces share, m.
    face: [f64; 2],
    /// Whether nobody knows how the group is turned on its face.
    turned: bool,
    /// Whether they do not all fit there: less than three diameters would be between them.
    pub crowded: bool,
}

fn distances(bolts: bool, diameter: f64) -> Result<Distances, Refusal> {
    least(if bolts { Placed::BoltInSoftwood } else { Placed::WithLeadHole }, diameter)
}

/// The least room between two, m, whichever way.
fn between(d: &Distances, diameter: f64) -> f64 {
    d.between_rows.max(WRENCH * diameter)
}

impl Group {
    /// A row along the face, over a length in m: taken as one line, and as fitting where as many rows hold them as the face is
    /// wide for.
    ///
    /// # Errors
    /// A diameter that is none.
    pub fn row(
        count: u32,
        (bolts, diameter): (bool, f64),
        length: f64,
        face: [f64; 2],
    ) -> Result<Group, Refusal> {
        let n = f64::from(count.max(1));
        let step = if count > 1 { length / (n - 1.0) } else { 0.0 };
        let place = |k: u32| [step * (f64::from(k) - (n - 1.0) / 2.0), 0.0];
        let places = (0..count).map(place).collect();
        let closest = between(&distances(bolts, diameter)?, diameter) * (1.0 - 1e-9);
        let fit = |room: f64| (room / closest).floor();
        let crowded = n > (fit(length) + 1.0) * fit(face[0].min(face[1])).max(1.0);
        Ok(Group { places, count: f64::from(count), face, turned: false, crowded })
    }

    /// As close as the spacing rules allow: up to three in a row, more in two rows. Of an odd number the
    /// last one is left out of the moment.
    ///
    /// # Errors
    /// A diameter that is none.
    pub fn close(count: u32, bolts: bool, diameter: f64, face: [f64; 2]) -> Result<Group, Refusal> {
        let d = distances(bolts, diameter)?;
        let between = between(&d, diameter);
        let rows = if count < 4 { 1 } else { 2 };
        let columns = count / rows;
        let fit = |wanted: f64, face: f64| wanted.min((face - 2.0 * d.free_edge).max(face / 3.0));
        let long = fit(d.in_row * f64::from(columns.saturating_sub(1)), face[0].max(face[1]));
        let wide = fit(between, face[0].min(face[1]));
        let step = if columns > 1 { long / f64::from(columns - 1) } else { 0.0 };
        let place = |k: u32| {
            let (column, row) = (k % columns.max(1), k / columns.max(1));
            let off = if rows == 1 { 0.0 } else { (f64::from(row) - 0.5) * wide };
            [step * f64::from(column) - long / 2.0, off]
        };
        let places = (0..rows * columns).map(place).collect();
        let closest = between * (1.0 - 1e-9);
        let crowded = (columns > 1 && step < closest) || (rows > 1 && wide < closest);
        Ok(Group { places, count: f64::from(count), face, turned: true, crowded })
    }

    /// Where the text puts them, from the middle of the face.
    pub fn laid(places: Vec<[f64; 2]>, face: [f64; 2]) -> Group {
        let count = places.len() as f64;
        Group { places, count, face, turned: false, crowded: false }
    }

    /// What a pull through the middle of the face, N, and moments that open it, N m with their signs, put on the worst of
    /// them, along it, N: with the longest lever that there is, about the very edge of the face, and with care.
    pub fn pulled(&self, pull: f64, about: [f64; 2]) -> (f64, f64) {
        let n = self.count.max(1.0);
        let centre = [0, 1].map(|k| self.places.iter().map(|p| p[k]).sum::<f64>() / n);
        // moved to the middle of the group, as a pull beside it tilts it
        let about = [about[0] - pull * centre[1], about[1] + pull * centre[0]];
        let edge: f64 = (0..2).map(|k| self.about_edge(k, about[k])).sum();
        (pull / n + edge, pull / n + self.tilted(about))
    }

    /// The greatest pull on one of them where a moment opens the face about its far edge: `M r/Σr²`, r from that edge.
    fn about_edge(&self, axis: usize, moment: f64) -> f64 {
        if moment.abs() < NONE {
            return 0.0;
        }
        // a moment about the face's length pulls apart across it
        let along = 1 - axis;
        let sign = if axis == 0 { moment.signum() } else { -moment.signum() };
        let arms = self.places.iter().map(|p| (sign * p[along] + self.face[along] / 2.0).max(0.0));
        let (most, sum) = arms.fold((0.0_f64, 0.0), |(most, sum), r| (most.max(r), sum + r * r));
        if sum > 0.0 { moment.abs() * most / sum } else { 0.0 }
    }

    /// What a moment about the way of the fasteners puts on the worst of them, across it, N.
    ///
    /// # Errors
    /// A moment on a single fastener.
    pub fn twisted(&self, moment: f64) -> Result<f64, Refusal> {
        if moment.abs() < NONE {
            return Ok(0.0);
        }
        Ok(shared(&self.places, [0.0; 2], [0.0; 2], moment.abs())?.greatest)
    }

    /// What moments that open the faces put on the worst of them, along it, N: about the long side of
    /// the face and about the short one. The lesser of the group turning about its own middle, and of an even
    /// pull against faces that press over the other half as a triangle: a lever of a third of the face.
    pub fn tilted(&self, about: [f64; 2]) -> f64 {
        let one = |places: &[[f64; 2]], m: [f64; 2]| {
            let alone = [tilted(places, 0.0, m[0], 0.0), tilted(places, 0.0, 0.0, m[1])];
            let press = [m[0] / (self.count * self.face[1] / 3.0), m[1] / (self.count * self.face[0] / 3.0)];
            let each = |k: usize| match &alone[k] {
                Ok(t) if m[k] >= NONE => t.greatest.min(press[k]),
                Err(_) if m[k] >= NONE => press[k],
                _ => 0.0,
            };
            each(0) + each(1)
        };
        let m = about.map(f64::abs);
        let straight = one(&self.places, m);
        if !self.turned {
            return straight;
        }
        let across: Vec<[f64; 2]> = self.places.iter().map(|p| [p[1], p[0]]).collect();
        straight.max(one(&across, m))
    }

    /// The value of one fastener that takes a moment alone, as a moment, N m: for words and tests.
    #[cfg(test)]
    fn moment(&self, each: f64) -> f64 {
        each / self.twisted(1.0).unwrap_or(f64::INFINITY)
    }
}

/// A stress or force that is known by itself, as the formulas want it.
pub(crate) fn known(value: f64) -> Capacity {
    use chairwright_resistance::{Mode, Source};
    let source = Source::mechanics("handed in");
    Capacity { value, mode: Mode::Bending, assumed: Vec::new(), needs: Vec::new(), source }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Four bolts M8 on a wide face: 4 D = 32 mm by 3 D = 24 mm; each is √(16² + 12²) = 20 mm from the
    /// middle. A moment of 8 N m puts 8/(4 · 0.020) = 100 N on each.
    #[test]
    fn four_bolts_as_close_as_allowed() {
        let g = Group::close(4, true, 0.008, [0.2, 0.2]).unwrap();
        assert!((g.twisted(8.0).unwrap() - 100.0).abs() < 1e-9);
        assert!((g.moment(100.0) - 8.0).abs() < 1e-9);
        // tilted the weak way round: lever 12 mm; 4.8/(4 · 0.012) = 100 N; the face would give
        // 4.8/(4 · 0.2/3) = 18 N, which is less
        assert!((g.tilted([4.8, 0.0]) - 18.0).abs() < 1e-9);
        // on a face of 60 mm: 4.8/(4 · 0.020) = 60 N
        let g = Group::close(4, true, 0.008, [0.06, 0.06]).unwrap();
        assert!((g.tilted([4.8, 0.0]) - 60.0).abs() < 1e-9);
    }

    /// A narrow face holds them closer: 30 mm less twice 1.5 D leaves 6 mm... but never less than a third
    /// of the face, 10 mm: two bolts 10 mm apart, 1 N m puts 1/(2 · 0.005) = 100 N on each.
    #[test]
    fn a_narrow_face_keeps_them_together() {
        let g = Group::close(2, true, 0.008, [0.030, 0.030]).unwrap();
        // 30 − 2 · 12 = 6 < 10
        assert!((g.twisted(1.0).unwrap() - 100.0).abs() < 1e-9, "{:?}", g.twisted(1.0));
        // which is closer than 3 D = 24 mm: they do not fit
        assert!(g.crowded);
        // 60 − 24 = 36 mm hold two rows of two, not of three: 2 · 24 = 48 mm
        let fits = |n| !Group::close(n, true, 0.008, [0.060, 0.060]).unwrap().crowded;
        assert!(fits(4) && !fits(6));
    }

    /// One fastener turns; a moment about it is refused, and a tilt is held by the face alone:
    /// 2/(1 · 0.06/3) = 100 N.
    #[test]
    fn one_fastener() {
        let g = Group::close(1, false, 0.005, [0.06, 0.06]).unwrap();
        assert!(g.twisted(1.0).is_err());
        assert_eq!(g.twisted(1e-4), Ok(0.0));
        assert!((g.tilted([2.0, 0.0]) - 100.0).abs() < 1e-9);
    }

    /// A row of three over 0.2 m: Σr² = 2 · 0.1², 3 N m about its way: 3 · 0.1/0.02 = 15 N on the last.
    #[test]
    fn a_row_over_a_length() {
        let row = |n, length| Group::row(n, (true, 0.008), length, [0.25, 0.04]).unwrap();
        let g = row(3, 0.2);
        assert!((g.twisted(3.0).unwrap() - 15.0).abs() < 1e-9);
        // about the short side its own middle: 15 N; the face 3/(3 · 0.25/3) = 12 N is less
        assert!((g.tilted([0.0, 3.0]) - 12.0).abs() < 1e-9);
        // about its own line only the face holds: 3/(3 · 0.04/3) = 75 N
        assert!((g.tilted([3.0, 0.0]) - 75.0).abs() < 1e-9);
        // M8 no closer than 24 mm: 0.1 m hold five in a row, and 40 mm one row
        assert!(!row(5, 0.1).crowded && row(6, 0.1).crowded);
        // 50 mm hold two rows
        let wide = |n| Group::row(n, (true, 0.008), 0.1, [0.25, 0.05]).unwrap().crowded;
        assert!(!wide(10) && wide(11));
    }
}
