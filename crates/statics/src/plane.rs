//! Bending of a member in one of its two planes.
//!
//! Written for a deflection `v` and a turn `θ` of the cross-section with `v' = θ + γ`,
//! `M = EI θ'`, `V = GAs γ` (Timoshenko). `V` and `M` act on the face that looks along +x; the nodes
//! act on the member with `force` along v and `turn` along θ at its two ends.

use crate::course::{QUINTIC, integral};
use crate::rod::Slack;

/// A beam in one plane, with a slide and a hinge at each end.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Plane {
    pub length: f64,
    /// EI.
    pub rigidity: f64,
    /// 1/(G As), zero for a beam without shear strain.
    pub shear: f64,
    /// Flexibility across the beam at each end.
    pub slides: [Slack; 2],
    /// Flexibility of turning at each end.
    pub hinges: [Slack; 2],
}

/// What the nodes do to the two ends.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Grip {
    pub force: [f64; 2],
    pub turn: [f64; 2],
}

/// Loads along the beam.
pub(crate) struct PlaneLoad<'a, Q: Fn(f64) -> f64, S: Fn(f64) -> f64> {
    pub breaks: &'a [f64],
    /// Sum of the forces before a station.
    pub force: Q,
    /// Their moment about the station, less the point moments before it.
    pub lever: S,
    /// Free curvature.
    pub curvature: f64,
}

/// The same at one station.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Before {
    pub force: f64,
    pub lever: f64,
    pub curvature: f64,
}

impl<Q: Fn(f64) -> f64, S: Fn(f64) -> f64> PlaneLoad<'_, Q, S> {
    fn before(&self, x: f64) -> Before {
        Before { force: (self.force)(x), lever: (self.lever)(x), curvature: self.curvature }
    }
}

/// Displacement and turn of the two ends.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Ends {
    pub move_: [f64; 2],
    pub turn: [f64; 2],
}

impl Plane {
    /// Stiffness `[k11, k12, k22]` of the end moments to the end turns measured from the chord
    /// between the nodes: the inverse of
    /// `c[2 -1; -1 2] + s[1 1; 1 1] + diag(r1, r2)`, `c = L/6EI`, `s` the shear and slide term.
    pub fn stiffness(&self) -> [f64; 3] {
        let c = self.length / (6.0 * self.rigidity);
        let slide = match self.slides {
            [Some(a), Some(b)] => Some(self.shear / self.length + (a + b) / (self.length * self.length)),
            _ => None,
        };
        match (slide, self.hinges) {
            (None, [Some(a), Some(b)]) => {
                let k = 1.0 / (6.0 * c + a + b);
                [k, -k, k]
            }
            (None, _) | (_, [None, None]) => [0.0; 3],
            (Some(s), [None, Some(b)]) => [0.0, 0.0, 1.0 / (2.0 * c + s + b)],
            (Some(s), [Some(a), None]) => [1.0 / (2.0 * c + s + a), 0.0, 0.0],
            (Some(s), [Some(a), Some(b)]) => {
                // The determinant as a sum of positive terms: no digits are lost to subtraction.
                let det = 3.0 * c * c + 2.0 * c * (a + b) + a * b + s * (6.0 * c + a + b);
                [(2.0 * c + s + b) / det, (c - s) / det, (2.0 * c + s + a) / det]
            }
        }
    }

    /// Grips that balance the loads and are nil where the joint is released; `None` when no such
    /// grips exist. Forces up to `nil`, and moments up to `nil` times the length, count as none.
    pub fn carry(&self, force: f64, lever: f64, nil: f64) -> Option<Grip> {
        let l = self.length;
        let (at_i, rest) = match self.slides {
            [Some(_), Some(_)] => (-lever / l, 0.0),
            [None, Some(_)] => (0.0, lever),
            [Some(_), None] => (-force, lever - force * l),
            [None, None] => (force.abs() <= nil).then_some((0.0, lever))?,
        };
        let turn = match self.hinges {
            [_, Some(_)] => [0.0, rest],
            [Some(_), None] => [rest, 0.0],
            [None, None] => (rest.abs() <= nil * l).then_some([0.0, 0.0])?,
        };
        Some(Grip { force: [at_i, -force - at_i], turn })
    }

    /// End turns from the chord between the nodes, from those of the beam alone under the same loads and grips.
    pub fn with_joints(&self, own: [f64; 2], grip: &Grip) -> [f64; 2] {
        let slip = |end: usize| self.slides[end].map_or(0.0, |c| c * grip.force[end]);
        let give = |end: usize| self.hinges[end].map_or(0.0, |c| c * grip.turn[end]);
        let chord = (slip(0) - slip(1)) / self.length;
        [own[0] + chord + give(0), own[1] + chord + give(1)]
    }

    /// End turns of the beam alone, from the chord between its own ends.
    fn beam_turns<Q: Fn(f64) -> f64, S: Fn(f64) -> f64>(
        &self,
        load: &PlaneLoad<'_, Q, S>,
        grip: &Grip,
    ) -> [f64; 2] {
        integral(&QUINTIC, (load.breaks, self.length), |x| self.turning(load.before(x), grip, x))
    }

    /// What a place of the beam adds to both, per length.
    pub fn turning(&self, load: Before, grip: &Grip, x: f64) -> [f64; 2] {
        let l = self.length;
        let (curvature, slant) = self.strains(load, grip, x);
        [(x / l - 1.0) * curvature - slant / l, x / l * curvature - slant / l]
    }

    /// Curvature and shear strain at a station.
    fn strains(&self, load: Before, grip: &Grip, x: f64) -> (f64, f64) {
        let shear = -grip.force[0] - load.force;
        let moment = -grip.turn[0] + grip.force[0] * x + load.lever;
        (moment / self.rigidity + load.curvature, shear * self.shear)
    }

    /// Displacement and turn at a station.
    pub fn at<Q: Fn(f64) -> f64, S: Fn(f64) -> f64>(
        &self,
        load: &PlaneLoad<'_, Q, S>,
        nodes: &Ends,
        grip: &Grip,
        x: f64,
    ) -> [f64; 2] {
        let inner = self.inner(nodes, grip, self.beam_turns(load, grip));
        let [turn, lever, slide] = integral(&QUINTIC, (load.breaks, x), |s| {
            let (curvature, slant) = self.strains(load.before(s), grip, s);
            [curvature, curvature * (x - s), slant]
        });
        [inner.move_[0] + inner.turn[0] * x + lever + slide, inner.turn[0] + turn]
    }

    /// Displacement and turn of the beam's own ends, inside slides and hinges, from those of the
    /// nodes, the grips, and the beam's end turns from its own chord.
    pub fn inner(&self, nodes: &Ends, grip: &Grip, own: [f64; 2]) -> Ends {
        let l = self.length;
        let held = |end: usize| self.slides[end].map(|c| nodes.move_[end] - c * grip.force[end]);
        let turned = |end: usize| self.hinges[end].map(|c| nodes.turn[end] - c * grip.turn[end] - own[end]);
        // Slope of the chord as a hinge that holds tells it, if one does.
        let chord = turned(0).or(turned(1)).unwrap_or((nodes.move_[1] - nodes.move_[0]) / l);
        let move_ = match [held(0), held(1)] {
            [Some(a), Some(b)] => [a, b],
            [Some(a), None] => [a, a + chord * l],
            [None, Some(b)] => [b - chord * l, b],
            [None, None] => {
                let mid = (nodes.move_[0] + nodes.move_[1]) / 2.0;
                [mid - chord * l / 2.0, mid + chord * l / 2.0]
            }
        };
        let slope = (move_[1] - move_[0]) / l;
        Ends { move_, turn: [own[0] + slope, own[1] + slope] }
    }

    /// Slopes of the axis at stations, under end moments and no other load.
    pub fn slopes<const N: usize>(&self, nodes: &Ends, grip: &Grip, at: [f64; N]) -> [f64; N] {
        let inner = self.inner(nodes, grip, self.own_turns(grip.turn));
        at.map(|x| {
            let bent = (-grip.turn[0] + grip.force[0] * x / 2.0) * x / self.rigidity;
            inner.turn[0] + bent - grip.force[0] * self.shear
        })
    }

    /// End turns from its own chord of the beam alone under end moments and no other load.
    fn own_turns(&self, moments: [f64; 2]) -> [f64; 2] {
        let c = self.length / (6.0 * self.rigidity);
        let s = self.shear / self.length;
        [(2.0 * c + s) * moments[0] + (s - c) * moments[1], (s - c) * moments[0] + (2.0 * c + s) * moments[1]]
    }
}
