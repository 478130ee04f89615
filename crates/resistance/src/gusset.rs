//! Plates that join members by screws or glue, under a force and a moment. Screw groups are in
//! [`crate::group`].

use crate::capacity::{Assumed, Capacity, Figure, MOST, Mode, Refusal, positive, within};
use crate::source::Source;

/// A rectangular glued lap, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lap {
    /// Along y.
    pub width: f64,
    /// Along z.
    pub height: f64,
}

impl Lap {
    fn area(&self) -> f64 {
        self.width * self.height
    }

    /// Polar second moment about its middle, m⁴: `b h (b² + h²)/12`.
    #[must_use]
    pub fn polar(&self) -> f64 {
        self.area() * (self.width * self.width + self.height * self.height) / 12.0
    }

    fn checked(&self) -> Result<(), Refusal> {
        positive(Figure::Width, self.width)?;
        positive(Figure::Height, self.height)?;
        Ok(())
    }
}

const POLAR: Source =
    Source::mechanics("stress at a corner of a lap: force / area and moment x distance / polar second moment");

/// Greatest shear stress in a glued lap, Pa, under a force `[Fy, Fz]` (N) through its middle and a
/// moment (N·m): the corner where both add up. Rigid plates: a long lap peaks higher at its ends.
///
/// # Errors
/// Sizes not above zero.
pub fn lap_stress(lap: &Lap, force: [f64; 2], moment: f64) -> Result<f64, Refusal> {
    lap.checked()?;
    for pushed in [force[0], force[1], moment] {
        within(Figure::Force, pushed.abs(), 0.0, MOST)?;
    }
    let turn = moment.abs() / lap.polar();
    let y = force[0].abs() / lap.area() + turn * lap.height / 2.0;
    let z = force[1].abs() / lap.area() + turn * lap.width / 2.0;
    Ok(libm::hypot(y, z))
}

/// Moment that a glued lap carries alone, N·m: `τ J / r`, by the allowable shear `shear` in Pa of the
/// glue or of the wood (rolling shear where plies cross), the lesser.
///
/// # Errors
/// Sizes not above zero.
pub fn lap_moment(lap: &Lap, shear: &Capacity) -> Result<Capacity, Refusal> {
    let unit = lap_stress(lap, [0.0; 2], 1.0)?;
    Ok(Capacity::new(shear.value / unit, Mode::GlueLine, POLAR).resting_on(shear).assuming(Assumed::RigidPlate))
}

const PLATE: Source = Source::mechanics(
    "plate bent in its plane: plates x stress x t h^2 / 6, less the holes in its tension half",
);

/// Moment that the plates themselves carry in their plane, N·m: `n σ t h²/6` of what is left of the
/// height h (m) after `holes` (m, all of them across it). `stress` is the plate's allowable in bending
/// in its plane, Pa. Holes are taken off the height as a whole, to the careful side.
///
/// # Errors
/// Sizes not above zero, or holes as large as the plate.
pub fn plate_moment(
    plates: f64,
    thickness: f64,
    height: f64,
    holes: f64,
    stress: &Capacity,
) -> Result<Capacity, Refusal> {
    positive(Figure::Count, plates)?;
    positive(Figure::Thickness, thickness)?;
    positive(Figure::Height, height)?;
    within(Figure::Hole, holes, 0.0, height)?;
    let left = positive(Figure::Height, height - holes)?;
    let value = plates * stress.value * thickness * left * left / 6.0;
    Ok(Capacity::new(value, Mode::NetSection, PLATE).resting_on(stress))
}
