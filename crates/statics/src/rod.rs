//! A bar along its axis: pull, and in the same way twist.

use crate::course::{QUINTIC, integral};

/// The flexibility of one joint direction: zero is rigid, `None` is released.
pub(crate) type Slack = Option<f64>;

/// A bar with a joint at each end.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Rod {
    pub length: f64,
    /// EA or GJ.
    pub rigidity: f64,
    pub joints: [Slack; 2],
}

/// Loads along a rod: their sum before a station, and a free strain.
pub(crate) struct RodLoad<'a, F: Fn(f64) -> f64> {
    pub breaks: &'a [f64],
    /// Sum of the loads before a station.
    pub sum: F,
    pub strain: f64,
}

impl Rod {
    /// Force per lengthening between the two nodes.
    pub fn stiffness(&self) -> f64 {
        match self.joints {
            [Some(a), Some(b)] => 1.0 / (self.length / self.rigidity + a + b),
            _ => 0.0,
        }
    }

    /// Forces on the two ends that carry the loads without any stretch force added, or `None` when
    /// nothing can carry them; up to `nil` counts as no load.
    pub fn carry(&self, total: f64, nil: f64) -> Option<[f64; 2]> {
        match self.joints {
            [_, Some(_)] => Some([0.0, -total]),
            [Some(_), None] => Some([-total, 0.0]),
            [None, None] => (total.abs() <= nil).then_some([0.0, 0.0]),
        }
    }

    /// How much longer the rod becomes between its nodes under the end forces, its own stretch given.
    pub fn with_joints(&self, stretch: f64, ends: [f64; 2]) -> f64 {
        stretch + (self.slip(1, ends[1]) - self.slip(0, ends[0]))
    }

    /// Lengthening of the rod itself from its first end to a station.
    fn stretch<F: Fn(f64) -> f64>(&self, load: &RodLoad<'_, F>, first: f64, x: f64) -> f64 {
        integral(&QUINTIC, (load.breaks, x), |s| [self.strained((load.sum)(s), load.strain, first)])[0]
    }

    /// Strain at a station from the sum of the loads before it and the free strain.
    pub fn strained(&self, sum: f64, free: f64, first: f64) -> f64 {
        (-first - sum) / self.rigidity + free
    }

    fn slip(&self, end: usize, force: f64) -> f64 {
        self.joints[end].map_or(0.0, |c| c * force)
    }

    /// Displacement at a station from those of the nodes and the forces on the ends.
    pub fn at<F: Fn(f64) -> f64>(&self, load: &RodLoad<'_, F>, nodes: [f64; 2], ends: [f64; 2], x: f64) -> f64 {
        let whole = self.stretch(load, ends[0], self.length);
        let inner = self.inner(nodes, ends, whole);
        inner[0] + self.stretch(load, ends[0], x)
    }

    /// Displacements of the ends of the rod itself, inside its joints.
    pub fn inner(&self, nodes: [f64; 2], ends: [f64; 2], stretch: f64) -> [f64; 2] {
        let held = [nodes[0] - self.slip(0, ends[0]), nodes[1] - self.slip(1, ends[1])];
        match self.joints {
            [Some(_), _] => [held[0], held[0] + stretch],
            [None, Some(_)] => [held[1] - stretch, held[1]],
            // Released at both ends it floats; it is shown midway.
            [None, None] => {
                let mid = (nodes[0] + nodes[1]) / 2.0;
                [mid - stretch / 2.0, mid + stretch / 2.0]
            }
        }
    }
}
