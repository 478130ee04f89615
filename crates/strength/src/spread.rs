//! What a pull and moments that open a face put on each of the fasteners that stand on it.

use chairwright_resistance::Capacity;
use chairwright_resistance::group::tilted;

/// A moment smaller than this is none, N m: what the solver leaves of a hinge.
const NONE: f64 = 1e-3;

/// Fasteners alike on a face.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Group {
    /// Places, m, along the face and across it, from its middle.
    pub places: Vec<[f64; 2]>,
    /// Sizes of the face that both pieces share, m.
    pub face: [f64; 2],
}

impl Group {
    fn count(&self) -> f64 {
        self.places.len().max(1) as f64
    }

    /// What a pull through the middle of the face, N, and moments that open it, N m with their signs, put on the worst of
    /// them, along it, N: with the longest lever that there is, about the very edge of the face, and with care.
    pub fn pulled(&self, pull: f64, about: [f64; 2]) -> (f64, f64) {
        let n = self.count();
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

    /// What moments that open the faces put on the worst of them, along it, N: about the long side of
    /// the face and about the short one. The lesser of the group turning about its own middle, and of an even
    /// pull against faces that press over the other half as a triangle: a lever of a third of the face.
    pub fn tilted(&self, about: [f64; 2]) -> f64 {
        let m = about.map(f64::abs);
        let alone = [tilted(&self.places, 0.0, m[0], 0.0), tilted(&self.places, 0.0, 0.0, m[1])];
        let n = self.count();
        let press = [m[0] / (n * self.face[1] / 3.0), m[1] / (n * self.face[0] / 3.0)];
        let each = |k: usize| match &alone[k] {
            Ok(t) if m[k] >= NONE => t.greatest.min(press[k]),
            Err(_) if m[k] >= NONE => press[k],
            _ => 0.0,
        };
        each(0) + each(1)
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

    /// Two rows of two, 32 mm by 24 mm, on a face of 60 mm: about the short side the lever is 16 mm, 8 N m give
    /// 8/(4 · 0.016) = 125 N; the face would give 8/(4 · 0.06/3) = 100 N, which is less. About the long side 12 mm:
    /// 4.8/(4 · 0.012) = 100 N against 4.8/(4 · 0.02) = 60 N. On a face of 30 mm the group itself is the less: 4.8/(4 · 0.01) =
    /// 120 N against 100 N.
    #[test]
    fn four_that_open() {
        let places = vec![[-0.016, -0.012], [0.016, -0.012], [-0.016, 0.012], [0.016, 0.012]];
        let wide = Group { places: places.clone(), face: [0.06, 0.06] };
        assert!((wide.tilted([0.0, 8.0]) - 100.0).abs() < 1e-9);
        assert!((wide.tilted([4.8, 0.0]) - 60.0).abs() < 1e-9);
        let narrow = Group { places, face: [0.06, 0.03] };
        assert!((narrow.tilted([4.8, 0.0]) - 100.0).abs() < 1e-9);
    }

    /// One alone is held by the face: 2/(1 · 0.06/3) = 100 N, and a pull of 30 N beside it adds to that.
    #[test]
    fn one_that_opens() {
        let g = Group { places: vec![[0.0, 0.0]], face: [0.06, 0.06] };
        assert!((g.tilted([2.0, 0.0]) - 100.0).abs() < 1e-9);
        assert!((g.pulled(30.0, [2.0, 0.0]).1 - 130.0).abs() < 1e-9);
    }

    /// A row of three over 0.2 m: Σr² = 2 · 0.1². About the short side its own middle: 3 N m give 15 N on the last; the face
    /// 3/(3 · 0.25/3) = 12 N, which is less. About its own line only the face holds: 3/(3 · 0.04/3) = 75 N.
    #[test]
    fn a_row_that_opens() {
        let places = vec![[-0.1, 0.0], [0.0, 0.0], [0.1, 0.0]];
        let g = Group { places, face: [0.25, 0.04] };
        assert!((g.tilted([0.0, 3.0]) - 12.0).abs() < 1e-9);
        assert!((g.tilted([3.0, 0.0]) - 75.0).abs() < 1e-9);
    }
}
