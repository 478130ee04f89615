//! The chair with its rider's feet seen from above.

use crate::clear::sweep_radius;
use crate::feet::Foot;
use chairwright_design::{Design, Vec3};
use chairwright_frame::{Frame, Settled, Solid};
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// Directions that are tried before the best one is narrowed down.
const TURNS: u32 = 72;

/// A round thing from above: its middle, forward and left, and its radius, in metres.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Circle {
    /// Forward of the middle of the rear axle.
    pub x: f64,
    /// To the left.
    pub y: f64,
    /// Radius.
    pub r: f64,
}

/// Everything that takes room on the floor, in the settled pose.
#[derive(Clone, Debug)]
pub struct Outline<'a> {
    settled: &'a Settled,
    parts: Vec<Part<'a>>,
    rounds: Vec<Circle>,
    /// By how much each side of the built chair stands further out than the drawing's.
    wider: f64,
}

/// A solid with the box around it on the floor, so that most need no closer look in most directions.
#[derive(Clone, Copy, Debug)]
struct Part<'a> {
    solid: &'a Solid,
    /// Forward, back, left and right of it.
    sides: [f64; 4],
    /// At least as far as its furthest point.
    size: f64,
}

impl<'a> Part<'a> {
    fn new(solid: &'a Solid, settled: &Settled) -> Part<'a> {
        let to = |d: Vec3| solid.reach(settled.pose.unturn(d)) + settled.pose.origin.dot(d);
        let sides = [to(Vec3::X), to(-Vec3::X), to(Vec3::Y), to(-Vec3::Y)];
        let [forward, back, left, right] = sides.map(f64::abs);
        Part { solid, sides, size: libm::hypot(forward.max(back), left.max(right)) }
    }

    /// At least as much as it reaches in a direction.
    fn at_most(&self, c: f64, s: f64) -> f64 {
        let [forward, back, left, right] = self.sides;
        c.abs() * if c > 0.0 { forward } else { back } + s.abs() * if s > 0.0 { left } else { right }
    }
}

impl<'a> Outline<'a> {
    /// All parts, the casters in every swivel, and the feet; the sides further out by `wider` than they are drawn.
    pub(crate) fn new(
        design: &Design,
        frame: &'a Frame,
        settled: &'a Settled,
        (feet, wider): (&[Foot], f64),
    ) -> Self {
        let mut rounds: Vec<Circle> = feet.iter().map(|f| tip(f, settled)).collect();
        rounds.extend(design.casters.iter().map(|c| {
            let p = settled.pose.place(c.at);
            Circle { x: p.x, y: p.y, r: sweep_radius(c) }
        }));
        let mut parts: Vec<Part<'a>> =
            frame.bodies.iter().flat_map(|b| &b.solids).map(|s| Part::new(s, settled)).collect();
        // what stands far out first, so that the rest is soon passed over
        parts.sort_by(|a, b| b.size.total_cmp(&a.size));
        Outline { settled, parts, rounds, wider }
    }

    /// How far it reaches in the direction at this angle, forward 0, left 90 degrees.
    #[must_use]
    pub fn reach(&self, angle: f64) -> f64 {
        let (s, c) = libm::sincos(angle);
        let d = Vec3::new(c, s, 0.0);
        let local = self.settled.pose.unturn(d);
        let from = self.settled.pose.origin.dot(d);
        let rounds = self.rounds.iter().map(|r| r.x * c + r.y * s + r.r).fold(f64::NEG_INFINITY, f64::max);
        let mut most = rounds;
        for part in &self.parts {
            // a hair for rounding, so that nothing that ties is passed over; the rest is no larger
            if part.size + 1e-9 < most {
                break;
            }
            if part.at_most(c, s) + 1e-9 >= most {
                most = most.max(part.solid.reach(local) + from);
            }
        }
        most + self.wider * s.abs()
    }

    /// How far it reaches from one end to the other along the direction at this angle.
    pub(crate) fn span(&self, angle: f64) -> f64 {
        self.reach(angle) + self.reach(angle + PI)
    }

    /// The greatest reach among directions of a range, and where: the furthest point lies in its own direction.
    fn furthest(&self, from: f64, to: f64) -> (f64, f64) {
        let step = (to - from) / f64::from(TURNS);
        let angles = (0..=TURNS).map(|k| from + step * f64::from(k));
        let best = angles.map(|a| (self.reach(a), a)).max_by(|a, b| a.0.total_cmp(&b.0)).unwrap_or((0.0, from));
        let (mut low, mut high) = ((best.1 - step).max(from), (best.1 + step).min(to));
        for _ in 0..40 {
            let (a, b) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
            if self.reach(a) < self.reach(b) { low = a } else { high = b }
        }
        let angle = f64::midpoint(low, high);
        let narrowed = (self.reach(angle), angle);
        if narrowed.0 > best.0 { narrowed } else { best }
    }
}

/// What a turn on the spot takes: the diameter of the circle, the width of a passage for half a turn, and the point
/// that reaches furthest. The turn is about the middle of the rear axle, which ISO 7176-5 calls the centre-point.
#[must_use]
pub fn turning(outline: &Outline<'_>) -> (f64, f64, (f64, f64)) {
    let ((ahead, angle), (behind, back)) =
        rayon::join(|| outline.furthest(-FRAC_PI_2, FRAC_PI_2), || outline.furthest(FRAC_PI_2, PI + FRAC_PI_2));
    let (far, turn) = if ahead >= behind { (ahead, angle) } else { (behind, back) };
    let (s, c) = libm::sincos(turn % TAU);
    (2.0 * far, ahead + behind, (far * c, far * s))
}

/// The tip of a foot, as wide as it is: a round one that ends where the toes end.
fn tip(foot: &Foot, settled: &Settled) -> Circle {
    let (toe, half) = (settled.pose.place(foot.toe()), foot.breadth / 2.0);
    Circle { x: toe.x - half, y: toe.y, r: half }
}

#[cfg(test)]
mod tests {
    use super::*;
    use chairwright_design::Frame3;

    /// A round of 50 mm at 300 mm ahead and 200 mm to the left, on a chair that was built 40 mm wider on each side.
    #[test]
    fn a_chair_that_was_built_wider_reaches_further_aside_and_not_ahead() {
        let settled =
            Settled { pose: Frame3::IDENTITY, pitch: 0.0, roll: 0.0, contacts: Vec::new(), rock: 0.0 };
        let rounds = vec![Circle { x: 0.3, y: 0.2, r: 0.05 }];
        let outline = Outline { settled: &settled, parts: Vec::new(), rounds, wider: 0.04 };
        assert!((outline.reach(FRAC_PI_2) - 0.29).abs() < 1e-12);
        assert!((outline.reach(0.0) - 0.35).abs() < 1e-12);
    }
}
