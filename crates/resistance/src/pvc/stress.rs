//! Allowable stress and the modulus to reckon sag with.

use super::temperature::{Cold, FactorTable, cold, factor};
use super::time::{CREEP, TENSILE, duration_factor};
use crate::capacity::{Assumed, Capacity, Figure, MOST, Mode, Need, Refusal, positive, within};
use crate::never::Never;
use crate::source::Source;

/// How the wall of a pipe is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wall {
    /// Solid, as its print line says (ASTM D1785 or D2665).
    Solid,
    /// Not known: "schedule 40" names sizes, not the wall.
    Unknown,
    /// Cellular core (ASTM F891).
    Cellular,
}

/// How a part is used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Duty {
    /// Which table of temperature factors.
    pub table: &'static FactorTable,
    /// Temperature of the part, K.
    pub kelvin: f64,
    /// Time under load, s, all of it added up.
    pub seconds: f64,
    /// Safety factor, at least 1.
    pub safety: f64,
}

/// Source of the product of factors.
pub const METHOD: Source = Source::practice(
    "short-term strength x temperature factor x share left after the time under load / safety factor; pressure-pipe data do not license structural loads",
);

/// Allowable fibre stress in bending, Pa: `strength × temperature factor × duration factor ÷ safety`.
///
/// `strength` is the short-term *tensile* strength in Pa (about 50 MPa): the strength in bending that
/// property sheets print (about 90 MPa) is reckoned as if the wall stayed elastic, which it does not.
/// The duration factor is [`TENSILE`]'s, so that a load that stays is allowed no more than the published
/// hydrostatic design stress when the safety factor is the design factor of 2.
/// Notches, holes and the lip of a socket come on top. Impact in the cold is not covered.
///
/// # Errors
/// Cellular pipe; a temperature or time outside the tables; a safety factor below 1.
pub fn allowable_bending(strength: f64, wall: Wall, duty: &Duty) -> Result<Capacity, Refusal> {
    if wall == Wall::Cellular {
        return Err(Never::CellularCorePipe.into());
    }
    positive(Figure::Stress, strength)?;
    within(Figure::Safety, duty.safety, 1.0, MOST)?;
    let heat = factor(duty.table, duty.kelvin)?;
    let time = duration_factor(&TENSILE, duty.seconds)?;
    let mut out = Capacity::new(strength * heat.value * time / duty.safety, Mode::Bending, METHOD)
        .assuming(Assumed::TensileForBending)
        .assuming(Assumed::TemperatureFactor(heat.value))
        .assuming(Assumed::DurationFactor(time))
        .assuming(Assumed::Safety(duty.safety));
    if heat.held {
        out = out.assuming(Assumed::TemperatureHeld);
    }
    if duty.seconds > TENSILE.short && duty.seconds < TENSILE.long {
        out = out.assuming(Assumed::LogTimeInterpolated);
    }
    if wall == Wall::Unknown {
        out = out.needing(Need::SolidWallPrint);
    }
    Ok(match cold(duty.kelvin) {
        Cold::Clear => out,
        Cold::Near | Cold::Brittle => out.needing(Need::ColdImpactTest),
    })
}

/// Modulus to reckon sag with, Pa: the short-term one times what is left after `seconds` under load.
/// Only at room temperature, up to the 23 °C (printed as 73 °F too) that sheets are measured at: no
/// factor on stiffness over temperature is published in what we hold.
///
/// # Errors
/// A temperature outside 0 to 23 °C, or a time beyond 50 years.
pub fn softened_modulus(modulus: f64, kelvin: f64, seconds: f64) -> Result<f64, Refusal> {
    positive(Figure::Modulus, modulus)?;
    within(Figure::Temperature, kelvin, 273.15, 296.15 + 1e-9)?;
    Ok(modulus * duration_factor(&CREEP, seconds)?)
}
