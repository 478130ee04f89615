//! A caster as it swings: its wheel and its fork, and what each must keep clear of.

use crate::clear::convex::{Axis, Convex, Support};
use crate::clear::depth::gap;
use crate::clear::even::mirrored;
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
    /// From the stem's seat down to the top of the wheel, as wide as the fork: round, so that no swivel
    /// changes it.
    crown: Convex,
    /// Legs and axle bolt, from the lower face of the crown down.
    legs: Convex,
    /// The same without the width of the crown.
    bare_legs: Convex,
}

impl Swing {
    pub(crate) fn new(caster: &Caster) -> Swing {
        let centre = caster_centre(caster, 0.0);
        let axis = Axis { through: caster.at, along: caster.stem };
        let back = (centre - axis.foot(centre)).unit().unwrap_or(-Vec3::X);
        let axle = caster.stem.cross(back);
        let wheel = Convex::cylinder(centre, axle, caster.width / 2.0, caster.tread);
        let half = (caster.fork_width / 2.0 - BOSS).max(0.0);
        let bolt = Convex::points(vec![centre + axle * half, centre - axle * half], BOSS);
        let high = (caster.drop - caster.tread).max(0.0);
        let round = |down: f64, half: f64| {
            Convex::cylinder(caster.at - caster.stem * down, caster.stem, half, caster.fork_width / 2.0)
        };
        let crown = round(high / 2.0, high / 2.0);
        let root = Convex::points(vec![caster.at - caster.stem * high], 0.0);
        let bare_legs = Convex::around(vec![root, bolt.clone()]);
        let legs = Convex::around(vec![round(high, 0.0), bolt]);
        let sense = if caster.side == Some(Side::Right) { -1.0 } else { 1.0 };
        Swing { axis, sense, wheel, crown, legs, bare_legs }
    }

    /// Whether one caster swings as the other one's mirror image.
    pub(crate) fn mirrors(&self, other: &Swing) -> bool {
        // what is round shows nothing of its axis
        let tip = |s: &Swing| Convex::points(vec![s.axis.through, s.axis.through + s.axis.along], 0.0);
        self.sense == -other.sense
            && mirrored(&tip(self), &tip(other))
            && self.bodies().into_iter().zip(other.bodies()).all(|(a, b)| mirrored(a, b))
    }

    fn bodies(&self) -> [&Convex; 4] {
        [&self.wheel, &self.crown, &self.legs, &self.bare_legs]
    }

    pub(crate) fn moved(&self, by: Vec3) -> Swing {
        let axis = Axis { through: self.axis.through + by, ..self.axis };
        let [wheel, crown, legs, bare_legs] = self.bodies().map(|b| b.moved(by));
        Swing { axis, sense: self.sense, wheel, crown, legs, bare_legs }
    }

    fn turn<'a>(&self, body: &'a Convex) -> Turning<'a> {
        Turning::new(body, self.axis, self.sense)
    }

    /// Wheel and fork, as they turn.
    pub(crate) fn turning(&self) -> [Turning<'_>; 3] {
        [self.turn(&self.wheel), self.turn(&self.legs), self.turn(&self.crown)]
    }

    /// The least gap to a part, if it is below `beat`.
    pub(crate) fn least(&self, part: &Convex, beat: f64) -> Option<Least> {
        let best = self.nearest([&self.wheel, &self.legs], part, beat);
        // the crown is round: it comes no nearer as it turns, and only matters where it has no room at all
        let still = gap(&self.crown, part, 0.0).size;
        if still < best.map_or(beat, |b| b.gap).min(0.0) {
            return Some(Least { gap: still, angle: None });
        }
        best
    }

    /// The same for what carries the stem, which the crown bears against and turns under: wheel and legs.
    pub(crate) fn least_below_crown(&self, part: &Convex, beat: f64) -> Option<Least> {
        self.nearest([&self.wheel, &self.bare_legs], part, beat)
    }

    /// A gap that there is at some swivel, of wheel or legs, as far as it is below `beat`.
    pub(crate) fn sampled(&self, part: &Convex, under: bool, beat: f64) -> f64 {
        let legs = if under { &self.bare_legs } else { &self.legs };
        [&self.wheel, legs].into_iter().fold(beat, |b, body| self.turn(body).sampled(part, b))
    }

    fn nearest(&self, bodies: [&Convex; 2], part: &Convex, beat: f64) -> Option<Least> {
        let mut best: Option<Least> = None;
        for body in bodies {
            let found = self.turn(body).least(part, best.map_or(beat, |b| b.gap));
            best = found.or(best);
        }
        best
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

/// Radius of the circle that a caster's wheel sweeps: √((trail + r)² + (b/2)²), r without load.
pub(crate) fn sweep_radius(caster: &Caster) -> f64 {
    libm::hypot(caster.trail.abs() + caster.tread, caster.width / 2.0)
}
