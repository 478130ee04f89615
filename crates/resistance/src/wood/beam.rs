//! Bending with push or pull, and shear.

use crate::capacity::{Assumed, Capacity, Figure, MOST, Mode, Refusal, positive, within};
use crate::source::Source;

/// How much of a member is used under stresses together.
#[derive(Clone, Debug, PartialEq)]
pub struct Interaction {
    /// Sum of the shares; more than 1 does not hold. Infinite at or beyond buckling.
    pub used: f64,
    /// What governs.
    pub mode: Mode,
    /// What it takes for granted.
    pub assumed: &'static [Assumed],
    /// The formula's source.
    pub source: Source,
}

/// Stresses along the grain, without sign, Pa: push or pull, and bending about two axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stresses {
    /// Axial stress.
    pub axial: f64,
    /// Bending stress about each principal axis.
    pub bending: [f64; 2],
}

const PULLED: Source = Source::memory("NDS 3.9.1: ft/Ft + fb/Fb <= 1");
const PRESSED: Source = Source::memory("NDS 3.9.2: (fc/Fc)^2 + sum of fb/(Fb (1 - fc/FcE)) <= 1");

/// Bending with a pull: `ft/Ft + Σ fb/Fb`. Allowables in Pa.
///
/// # Errors
/// An allowable not above zero, or a stress that is not a number.
pub fn bent_and_pulled(on: Stresses, tension: f64, bending: [f64; 2]) -> Result<Interaction, Refusal> {
    let shares = shares(on, tension, bending)?;
    let mode = if shares[0] > shares[1] + shares[2] { Mode::Tension } else { Mode::Bending };
    Ok(Interaction { used: shares.iter().sum(), mode, assumed: &[Assumed::NoSidewaysBuckling], source: PULLED })
}

/// Bending with a push: `(fc/Fc)² + Σ fb/(Fb (1 − fc/FcE))`, which amplifies each bending stress by
/// the push over its own axis' buckling stress. `compression` is the allowable with the column's own
/// stability in it ([`crate::column::wood_column`]); `euler` the critical stresses for bending about
/// each axis, Pa, their safety inside. A push at or beyond the least of them gives infinity.
///
/// # Errors
/// An allowable not above zero, or a stress that is not a number.
pub fn bent_and_pressed(
    on: Stresses,
    compression: f64,
    bending: [f64; 2],
    euler: [f64; 2],
) -> Result<Interaction, Refusal> {
    let [push, first, second] = shares(on, compression, bending)?;
    let mut used = push * push;
    for (share, critical) in [first, second].into_iter().zip(euler) {
        positive(Figure::Stress, critical)?;
        let left = 1.0 - on.axial.abs() / critical;
        used += if left > 0.0 { share / left } else { f64::INFINITY };
    }
    let mode = if push * push > used - push * push { Mode::Buckling } else { Mode::Bending };
    Ok(Interaction { used, mode, assumed: &[Assumed::NoSidewaysBuckling], source: PRESSED })
}

fn shares(on: Stresses, axial: f64, bending: [f64; 2]) -> Result<[f64; 3], Refusal> {
    let share = |stress: f64, allowed: f64| {
        positive(Figure::Stress, allowed)?;
        within(Figure::Stress, stress.abs(), 0.0, MOST).map(|s| s / allowed)
    };
    Ok([share(on.axial, axial)?, share(on.bending[0], bending[0])?, share(on.bending[1], bending[1])?])
}

const SHEAR: Source = Source::mechanics("greatest shear stress in a rectangle: 1.5 V / A");

/// Shear force that a rectangle carries, N: `A Fv / 1.5`, from its area (m²) and allowable shear
/// along the grain (Pa).
///
/// # Errors
/// An area or stress not above zero.
pub fn rectangle_shear(area: f64, shear: f64) -> Result<Capacity, Refusal> {
    positive(Figure::Area, area)?;
    positive(Figure::Stress, shear)?;
    Ok(Capacity::new(area * shear / 1.5, Mode::Shear, SHEAR))
}

const NOTCH: Source =
    Source::memory("NDS 3.4.3.2: rectangle notched on the tension side, V = 2/3 Fv b dn (dn/d)^2");

/// Shear force at a support notched on the tension side, N: `⅔ Fv b dₙ (dₙ/d)²`, b the width, d the
/// height and dₙ what the notch leaves of it.
///
/// # Errors
/// A notch deeper than a quarter of the height, which the NDS does not allow at the ends.
pub fn notched_shear(width: f64, height: f64, left: f64, shear: f64) -> Result<Capacity, Refusal> {
    positive(Figure::Width, width)?;
    positive(Figure::Height, height)?;
    positive(Figure::Stress, shear)?;
    within(Figure::Height, left, 0.75 * height, height)?;
    let ratio = left / height;
    Ok(Capacity::new(2.0 / 3.0 * shear * width * left * ratio * ratio, Mode::NetSection, NOTCH))
}
