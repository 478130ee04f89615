//! Pressure rating: a check that a pipe's printed rating, sizes and design stress belong together.

use crate::capacity::{Figure, LEAST, Refusal, positive, within};

/// Pressure rating in Pa: `P = 2 S t / (D − t)`, ASTM D1785 (ISO form of the thin-wall formula), from
/// the design stress in Pa, least wall and mean outside diameter in m.
///
/// # Errors
/// A wall not between nothing and half the diameter.
pub fn pressure_rating(design_stress: f64, wall: f64, outer: f64) -> Result<f64, Refusal> {
    positive(Figure::Stress, design_stress)?;
    sizes(wall, outer)?;
    Ok(2.0 * design_stress * wall / (outer - wall))
}

/// The design stress that a printed rating implies, Pa: the same formula turned round. A pipe whose
/// print line gives less than its material's design stress is not what it says.
///
/// # Errors
/// As for [`pressure_rating`].
pub fn design_stress(rating: f64, wall: f64, outer: f64) -> Result<f64, Refusal> {
    positive(Figure::Stress, rating)?;
    sizes(wall, outer)?;
    Ok(rating * (outer - wall) / (2.0 * wall))
}

fn sizes(wall: f64, outer: f64) -> Result<(), Refusal> {
    positive(Figure::Diameter, outer)?;
    within(Figure::Thickness, wall, LEAST, outer / 2.0)?;
    Ok(())
}
