//! A bolt through both walls of a pipe.

use std::f64::consts::PI;

use crate::capacity::{Assumed, Capacity, Figure, LEAST, MOST, Mode, Need, Refusal, positive, within};
use crate::never::Never;
use crate::source::Source;

/// A bolt through a pipe, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bolted {
    /// Diameter of the bolt.
    pub bolt: f64,
    /// Outside diameter of the sleeve that it goes through, if any.
    pub sleeve: Option<f64>,
    /// Outside diameter of the pipe.
    pub outer: f64,
    /// Least wall of the pipe.
    pub wall: f64,
}

/// How long the load stays.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stays {
    /// For a moment.
    Brief,
    /// For hours or longer, or again and again.
    Sustained,
}

const BEARING: Source = Source::mechanics("bearing on two walls: 2 d t x stress");

/// Bearing area on both walls, m²: `2 d t`, d the outside of what fills the hole.
#[must_use]
pub fn bearing_area(filled: f64, wall: f64) -> f64 {
    2.0 * filled * wall
}

/// Force across the pipe that a bolt carries by bearing, N, by the allowable stress `stress` (Pa) of
/// the wall for that time and heat.
///
/// # Errors
/// A load that stays on a bolt without a sleeve; a sleeve not larger than its bolt; figures outside
/// their range.
pub fn bearing(of: &Bolted, stress: &Capacity, stays: Stays) -> Result<Capacity, Refusal> {
    check(of)?;
    if stays == Stays::Sustained && of.sleeve.is_none() {
        return Err(Never::UnsleevedBoltSustained.into());
    }
    let filled = of.sleeve.unwrap_or(of.bolt);
    let out = Capacity::new(bearing_area(filled, of.wall) * stress.value, Mode::Bearing, BEARING)
        .resting_on(stress)
        .assuming(Assumed::TwoWallsAlike)
        .needing(Need::HoleOnNeutralAxis);
    Ok(if of.sleeve.is_some() { out } else { out.needing(Need::Sleeve) })
}

fn check(of: &Bolted) -> Result<(), Refusal> {
    positive(Figure::Diameter, of.outer)?;
    within(Figure::Thickness, of.wall, LEAST, of.outer / 2.0)?;
    within(Figure::Diameter, of.bolt, LEAST, of.outer - 2.0 * of.wall)?;
    if let Some(sleeve) = of.sleeve {
        within(Figure::Diameter, sleeve, of.bolt * (1.0 + 1e-9), of.outer - 2.0 * of.wall)?;
    }
    Ok(())
}

const TEAR: Source = Source::mechanics("two planes in each of two walls: 4 t (e - d/2) x shear stress");

/// Pull along the pipe that tears the walls out to the end, N: `4 t (e − d/2) τ`; `end` is from the
/// middle of the hole to the end of the pipe, m, `shear` the allowable shear stress of the wall, Pa.
/// The bolt bears on the same walls: [`bearing`] holds too, with its refusal.
///
/// # Errors
/// A hole not wholly within the pipe; figures outside their range.
pub fn tear_out(of: &Bolted, end: f64, shear: &Capacity) -> Result<Capacity, Refusal> {
    check(of)?;
    let filled = of.sleeve.unwrap_or(of.bolt);
    within(Figure::Length, end, filled / 2.0, MOST)?;
    let value = 4.0 * of.wall * (end - filled / 2.0) * shear.value;
    Ok(Capacity::new(value, Mode::TearOut, TEAR).resting_on(shear).assuming(Assumed::TwoWallsAlike))
}

const RING: Source =
    Source::memory("Roark, circular ring with two opposite forces: greatest moment F r / pi under them");

/// Torque over force times diameter, of a greased thread; common practice. Dry ones have about 0.2 and clamp
/// less by the same torque: the lesser factor is the careful one where clamping does the harm.
const NUT: f64 = 0.12;

/// What clamping does to a pipe.
#[derive(Clone, Debug, PartialEq)]
pub enum Clamp {
    /// A sleeve or spacer as long as the pipe is wide takes it: the nut does not squash the pipe.
    TakenBySleeve,
    /// Most clamping force, N. The needs carry the torque of the nut that makes it.
    AtMost(Capacity),
}

/// Clamping force that squashes a bare pipe to its allowable fibre stress: a ring as long as the
/// washers `bearing_length` (m, along the pipe) under two opposite forces, `F = π σ t² b / (6 r)`. The
/// pipe beside the washers helps and is left out. A nut is easily turned far beyond it.
///
/// # Errors
/// Figures outside their range.
pub fn clamp(of: &Bolted, bearing_length: f64, stress: &Capacity) -> Result<Clamp, Refusal> {
    check(of)?;
    positive(Figure::Length, bearing_length)?;
    if of.sleeve.is_some() {
        return Ok(Clamp::TakenBySleeve);
    }
    let radius = (of.outer - of.wall) / 2.0;
    let force = PI * stress.value * of.wall * of.wall * bearing_length / (6.0 * radius);
    Ok(Clamp::AtMost(
        Capacity::new(force, Mode::Crushing, RING)
            .resting_on(stress)
            .assuming(Assumed::NutFactor(NUT))
            .needing(Need::TorqueAtMost(NUT * force * of.bolt)),
    ))
}
