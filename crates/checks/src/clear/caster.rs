//! A caster as it swings: its wheel and its fork, and what each must keep clear of.

use crate::clear::convex::{Axis, Convex, Support};
use crate::clear::depth::gap;
use crate::clear::sweep::{Least, Turning};
use chairwright_design::{Caster, Side, Vec3};
use chairwright_frame::caster_centre;

/// Radius of the boss at the ends of a caster's axle: a bolt of 8 mm with its nut. Common practice, no source.
const BOSS: f64 = 0.010;
/// Radius around the stem's axis, and length above its seat, in which a part carries the stem. Common
/// practice, no source: a stem of 12 mm in two bearings.
const STEM: (f64, f64) = (0.012, 0.060);
/// A part that dips no further below the stem's seat counts as lying on it.
const ON_SEAT: f64 = 0.001;

/// A caster's turning bodies.
#[derive(Clone, Debug)]
pub(crate) struct Swing {
    pub axis: Axis,
    /// Counts swivels towards the chair's middle, so that both sides count alike.
    pub sense: f64,
    /// The wheel with square shoulders: the shape of the sweep formula, and no smaller than a real tyre.
    wheel: Convex,
    /// Crown, legs and axle bolt in one: from the stem's seat down to the axle, as wide as the fork.
    fork: Convex,
    /// Legs and bolt below the crown.
    legs: Convex,
}

impl Swing {
    pub(crate) fn new(caster: &Caster) -> Swing {
        let centre = caster_centre(caster, 0.0);
        let axis = Axis { through: caster.at, along: caster.stem };
        let back = (centre - axis.foot(centre)).unit().unwrap_or(-Vec3::X);
        let axle = caster.stem.cross(back);
        let wheel = Convex::cylinder(centre, axle, caster.width / 2.0, caster.radius);
        let half = (caster.fork_width / 2.0 - BOSS).max(0.0);
        let bolt = Convex::points(vec![centre + axle * half, centre - axle * half], BOSS);
        // the crown lies between the stem's seat and the top of the wheel
        let high = (caster.drop - caster.radius).max(0.0);
        let crown = Convex::cylinder(
            caster.at - caster.stem * (high / 2.0),
            caster.stem,
            high / 2.0,
            caster.fork_width / 2.0,
        );
        let root = Convex::points(vec![caster.at - caster.stem * high], 0.0);
        let legs = Convex::around(vec![root, bolt.clone()]);
        let fork = Convex::around(vec![crown, bolt]);
        let sense = if caster.side == Some(Side::Right) { -1.0 } else { 1.0 };
        Swing { axis, sense, wheel, fork, legs }
    }

    pub(crate) fn moved(&self, by: Vec3) -> Swing {
        let axis = Axis { through: self.axis.through + by, ..self.axis };
        let [wheel, fork, legs] = [&self.wheel, &self.fork, &self.legs].map(|b| b.moved(by));
        Swing { axis, sense: self.sense, wheel, fork, legs }
    }

    /// Wheel and fork, as they turn.
    pub(crate) fn turning(&self) -> [Turning<'_>; 2] {
        [&self.wheel, &self.fork].map(|b| Turning::new(b, self.axis, self.sense))
    }

    /// The least gap to a part that the fork may not touch, if it is below `beat`.
    pub(crate) fn least(&self, part: &Convex, beat: f64) -> Option<Least> {
        nearest([&self.wheel, &self.fork].map(|b| Turning::new(b, self.axis, self.sense)), part, beat)
    }

    /// The same for what carries the stem, which the crown bears against and turns under: wheel and legs.
    pub(crate) fn least_below_crown(&self, part: &Convex, beat: f64) -> Option<Least> {
        nearest([&self.wheel, &self.legs].map(|b| Turning::new(b, self.axis, self.sense)), part, beat)
    }

    /// Whether a part carries the stem or lies wholly on the stem's side of its seat. The fork turns on the
    /// other side of that plane, so that no swivel brings it nearer.
    pub(crate) fn carries(&self, part: &Convex) -> bool {
        let Axis { through, along } = self.axis;
        let dip = (part.furthest(-along) - through).dot(along);
        if dip >= -ON_SEAT {
            return true;
        }
        let (radius, length) = STEM;
        let reach = radius + length;
        if (part.middle - through).norm() > part.radius + reach {
            return false;
        }
        let stem = Convex::points(vec![through, through + along * length], radius);
        gap(part, &stem, 0.0).size <= 0.0
    }
}

fn nearest(bodies: [Turning<'_>; 2], part: &Convex, beat: f64) -> Option<Least> {
    let mut best: Option<Least> = None;
    for body in bodies {
        let found = body.least(part, best.map_or(beat, |b| b.gap));
        best = found.or(best);
    }
    best
}

/// Radius of the circle that a caster's wheel sweeps: √((trail + r)² + (b/2)²).
pub(crate) fn sweep_radius(caster: &Caster) -> f64 {
    libm::hypot(caster.trail.abs() + caster.radius, caster.width / 2.0)
}
