//! Shocks as multiples of the static load.

use crate::capacity::{Figure, MOST, Refusal, positive, within};

/// Standard gravity, m/s².
pub const GRAVITY: f64 = 9.80665;

/// Factor of a fall from `height` (m) on something that a static load deflects by `deflection` (m):
/// `1 + √(1 + 2h/δ)`. Strength of materials; a rigid mass, an elastic massless structure, no loss:
/// an upper bound where nothing else is soft. From no height it is 2.
///
/// # Errors
/// A height below zero or a deflection not above zero.
pub fn fall(height: f64, deflection: f64) -> Result<f64, Refusal> {
    within(Figure::Height, height, 0.0, MOST)?;
    positive(Figure::Deflection, deflection)?;
    Ok(1.0 + (1.0 + 2.0 * height / deflection).sqrt())
}

/// Factor of a fall from `height` (m) on two springs in a row of which the first, `soft`, ends at `end` times the static load:
/// deflections (m) of both under the static load, soft first. The energy of the load, h + n₀(s + r) + (n − n₀) r of way,
/// is what both springs take up to n₀ and the hard one alone from there, n₀²(s + r)/2 + (n² − n₀²) r/2:
/// `n = 1 + √(1 + (2h − s n₀ (n₀ − 2)) / r)`. Strength of materials, same assumptions; equal to [`fall`] where that
/// comes to n₀.
///
/// # Errors
/// A height, a soft deflection or an end below zero, or a hard deflection not above zero.
pub fn bottoming(height: f64, (soft, hard): (f64, f64), end: f64) -> Result<f64, Refusal> {
    within(Figure::Height, height, 0.0, MOST)?;
    within(Figure::Deflection, soft, 0.0, MOST)?;
    within(Figure::Deflection, end, 0.0, MOST)?;
    positive(Figure::Deflection, hard)?;
    // where the soft spring does not come to its end this is below the root of a plain fall, which then decides
    let under = 1.0 + (2.0 * height - soft * end * (end - 2.0)) / hard;
    Ok(1.0 + under.max(0.0).sqrt())
}

/// Factor of a sideways or head-on blow at `speed` (m/s): `v / √(g δ)`, δ (m) the deflection that the
/// mass's own weight would make in that direction. Strength of materials, same assumptions.
///
/// # Errors
/// A speed below zero or a deflection not above zero.
pub fn blow(speed: f64, deflection: f64) -> Result<f64, Refusal> {
    within(Figure::Speed, speed, 0.0, MOST)?;
    positive(Figure::Deflection, deflection)?;
    Ok(speed / (GRAVITY * deflection).sqrt())
}

/// Horizontal push over vertical load that lifts a wheel of `radius` (m) over a step of `height` (m),
/// from rest: `√(2rh − h²) / (r − h)`. Statics about the edge.
///
/// # Errors
/// A step as high as the radius or higher: no push climbs it.
pub fn climb(radius: f64, height: f64) -> Result<f64, Refusal> {
    positive(Figure::Diameter, radius)?;
    within(Figure::Height, height, 0.0, radius)?;
    match height < radius {
        true => Ok((2.0 * radius * height - height * height).sqrt() / (radius - height)),
        false => within(Figure::Height, height, 0.0, radius * (1.0 - f64::EPSILON)),
    }
}
