//! Properties of a section about its centroid, its principal axes, and shear flow along a cut.

use crate::capacity::{Figure, MOST, Refusal, positive, within};

/// Properties of a section. Where several materials are glued into one, everything is weighted by
/// their modulus over a reference modulus.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Properties {
    /// Area, m².
    pub area: f64,
    /// Centroid, y and z, m.
    pub centroid: [f64; 2],
    /// Second moment about the centroid's y axis, `∫z²`, m⁴.
    pub iy: f64,
    /// Second moment about the centroid's z axis, `∫y²`, m⁴.
    pub iz: f64,
    /// Product of inertia about the centroid, `∫yz`, m⁴.
    pub iyz: f64,
}

/// Principal axes of a section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Principal {
    /// The greater second moment, m⁴.
    pub major: f64,
    /// The lesser second moment, m⁴.
    pub minor: f64,
    /// Angle from y to the axis of the greater second moment, rad, in (−π/2, π/2].
    pub angle: f64,
}

impl Properties {
    /// Principal axes: Mohr's circle. A round or square section has no axis of its own; its angle is 0.
    #[must_use]
    pub fn principal(&self) -> Principal {
        let (middle, half) = ((self.iy + self.iz) / 2.0, (self.iy - self.iz) / 2.0);
        let radius = libm::hypot(half, self.iyz);
        let angle = match radius <= 1e-12 * middle {
            true => 0.0,
            false => libm::atan2(-self.iyz, half) / 2.0,
        };
        Principal { major: middle + radius, minor: middle - radius, angle }
    }

    /// Second moments about axes turned by `angle` (rad) from y towards z: `[∫z'², ∫y'², ∫y'z']`.
    #[must_use]
    pub fn turned(&self, angle: f64) -> [f64; 3] {
        let (s, c) = libm::sincos(2.0 * angle);
        let (middle, half) = ((self.iy + self.iz) / 2.0, (self.iy - self.iz) / 2.0);
        [middle + half * c - self.iyz * s, middle - half * c + self.iyz * s, half * s + self.iyz * c]
    }

    /// Stress per unit reference modulus at `[y, z]` (as drawn) under a pull `n` (N) and moments `my`,
    /// `mz` (N·m) about the centroid's axes, Pa: positive `my` pulls where z is positive, positive `mz`
    /// where y is *negative* (right-handed axes with x along the member). Unsymmetric bending with the
    /// product of inertia, any text on strength of materials. In a part of several materials multiply
    /// by its modulus over the reference.
    #[must_use]
    pub fn stress(&self, at: [f64; 2], n: f64, my: f64, mz: f64) -> f64 {
        let (y, z) = (at[0] - self.centroid[0], at[1] - self.centroid[1]);
        let det = self.iy * self.iz - self.iyz * self.iyz;
        // Curvatures that give these moments: My = ∫σz, Mz = −∫σy.
        let by_z = (my * self.iz + mz * self.iyz) / det;
        let by_y = -(mz * self.iy + my * self.iyz) / det;
        n / self.area + by_z * z + by_y * y
    }
}

/// Shear flow along a cut, `V Q / I`, N/m: `first_moment` is of the area beyond the cut about the
/// neutral axis, m³. Over the thickness (or the width of a glue line) it is the stress. Jourawski's
/// formula, any text on strength of materials.
///
/// # Errors
/// A second moment that is not above zero, or figures that are not numbers.
pub fn shear_flow(shear: f64, first_moment: f64, second_moment: f64) -> Result<f64, Refusal> {
    positive(Figure::SecondMoment, second_moment)?;
    within(Figure::Force, shear.abs(), 0.0, MOST)?;
    within(Figure::SecondMoment, first_moment.abs(), 0.0, MOST)?;
    Ok(shear * first_moment / second_moment)
}

/// Shear stress on one glue line of a closed box of boards, Pa: `V Q / (I · lines · width)` and Bredt's
/// `T / (2 Aₘ width)` in the worse sense. `lines` glue lines, each `width` wide, hold the flange whose
/// first moment is `first_moment`; `enclosed` is the area within the middle line of the walls, m².
///
/// # Errors
/// A size that is not above zero, or figures that are not numbers.
pub fn box_glue_line(
    (shear, torque): (f64, f64),
    (first_moment, second_moment): (f64, f64),
    (lines, width): (f64, f64),
    enclosed: f64,
) -> Result<f64, Refusal> {
    positive(Figure::Count, lines)?;
    positive(Figure::Width, width)?;
    positive(Figure::Area, enclosed)?;
    within(Figure::Force, torque.abs(), 0.0, MOST)?;
    let across = shear_flow(shear.abs(), first_moment.abs(), second_moment)? / lines;
    Ok((across + torque.abs() / (2.0 * enclosed)) / width)
}
