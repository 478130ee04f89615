//! Nails, screws and bolts loaded sideways in wood: the yield modes of the NDS.
//!
//! Formulas of the NDS 2005 and later (reference design values, ten years under load); earlier
//! editions divide differently and are not to be mixed with these.

use std::f64::consts::FRAC_PI_2;

use crate::capacity::{Assumed, Capacity, Figure, LEAST, Mode, Refusal, Yield, positive, within};
use crate::source::Source;

const INCH: f64 = 0.0254;
const PSI: f64 = 6_894.757_293_168_361;

/// Source of the yield modes.
pub const NDS: Source =
    Source::memory("NDS 2005, tables 11.3.1A and B: yield limit equations; structure read in a teaching page");

/// A dowel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dowel {
    /// Diameter, m; the root where a thread lies in the wood.
    pub diameter: f64,
    /// Its bending yield strength, Pa ([`nail_yield`], [`BOLT_YIELD`]).
    pub bending_yield: f64,
}

/// What a dowel bears on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bears {
    /// Dowel bearing strength, Pa.
    pub strength: f64,
    /// Length of the dowel within it, m; of a side member its thickness.
    pub length: f64,
}

/// Reference value with every mode.
#[derive(Clone, Debug, PartialEq)]
pub struct Yielding {
    /// The least, N.
    pub capacity: Capacity,
    /// Each mode, N.
    pub modes: Vec<(Yield, f64)>,
}

/// Bending yield strength of bolts, Pa: 45 000 psi; NDS, from memory, not checked.
pub const BOLT_YIELD: f64 = 45_000.0 * PSI;

/// Bending yield strength of nails and wood screws, Pa, by the diameter in m: 100 to 80 ksi; NDS, from
/// memory, not checked.
///
/// # Errors
/// Diameters outside 0.099 to 0.236 in.
pub fn nail_yield(diameter: f64) -> Result<f64, Refusal> {
    // Sizes are printed to a thousandth of an inch; half of that is let through at either end.
    within(Figure::Diameter, diameter, 0.0985 * INCH, 0.2365 * INCH)?;
    let inches = diameter / INCH;
    Ok(PSI
        * if inches <= 0.1425 {
            100e3
        } else if inches <= 0.1775 {
            90e3
        } else {
            80e3
        })
}

/// Dowel bearing strength of wood, Pa, by its specific gravity (oven-dry), the diameter in m and the
/// angle of the load to the grain in rad, 0 to π/2. At ¼ in and above `11200 G` along and
/// `6100 G^1.45/√D` across, psi, by Hankinson between; below `16600 G^1.84` in any direction. Each
/// rounded to 50 psi as the tables are.
///
/// # Errors
/// A specific gravity outside 0.3 to 0.75, a diameter above one inch, an angle beyond π/2.
pub fn wood_bearing(gravity: f64, diameter: f64, angle: f64) -> Result<f64, Refusal> {
    within(Figure::Gravity, gravity, 0.3, 0.75)?;
    let inches = within(Figure::Diameter, diameter, LEAST, INCH * (1.0 + 1e-9))? / INCH;
    within(Figure::Angle, angle, 0.0, FRAC_PI_2)?;
    if thin(diameter) {
        return Ok(rounded(16_600.0 * libm::pow(gravity, 1.84)) * PSI);
    }
    let along = rounded(11_200.0 * gravity);
    let across = rounded(6_100.0 * libm::pow(gravity, 1.45) / inches.sqrt());
    Ok(hankinson(along, across, angle) * PSI)
}

fn rounded(psi: f64) -> f64 {
    (psi / 50.0).round() * 50.0
}

/// Below ¼ in, where the formulas of nails hold; a hair less, so that 6.35 mm is a bolt.
fn thin(diameter: f64) -> bool {
    diameter < 0.25 * INCH * (1.0 - 1e-9)
}

/// Strength at an angle to the grain (rad): `F∥ F⊥ / (F∥ sin² + F⊥ cos²)`, Hankinson.
#[must_use]
pub fn hankinson(along: f64, across: f64, angle: f64) -> f64 {
    let (s, c) = libm::sincos(angle);
    along * across / (along * s * s + across * c * c)
}

/// Dowel bearing strength of a steel plate, Pa: 1.5 times its tensile strength from ¼ in, 1.375 times
/// below.
///
/// # Errors
/// Figures not above zero.
pub fn steel_bearing(tensile: f64, thickness: f64) -> Result<f64, Refusal> {
    positive(Figure::Stress, tensile)?;
    positive(Figure::Thickness, thickness)?;
    Ok(tensile * if thickness >= 0.25 * INCH * (1.0 - 1e-9) { 1.5 } else { 1.375 })
}

/// Divisors of the crushing modes, of mode II, and of the modes with a bent dowel, by the greatest
/// angle between load and grain in any member (rad).
///
/// # Errors
/// A diameter above one inch, an angle beyond π/2.
pub fn divisors(diameter: f64, angle: f64) -> Result<[f64; 3], Refusal> {
    let inches = within(Figure::Diameter, diameter, LEAST, INCH * (1.0 + 1e-9))? / INCH;
    within(Figure::Angle, angle, 0.0, FRAC_PI_2)?;
    if thin(diameter) {
        return Ok([(10.0 * inches + 0.5).max(2.2); 3]);
    }
    let k = 1.0 + 0.25 * angle / FRAC_PI_2;
    Ok([4.0 * k, 3.6 * k, 3.2 * k])
}

/// Share of its value that a screw keeps across the grain whose shank is as thick as a bolt's and whose root is not: its divisors are
/// those of a thin one by the greatest `angle` between load and grain, `K_D K_θ`; NDS table 11.3.1B, footnote 1, from memory, not
/// checked. Diameters in m.
///
/// # Errors
/// An angle beyond π/2.
pub fn of_thick_thread(shank: f64, root: f64, angle: f64) -> Result<f64, Refusal> {
    within(Figure::Angle, angle, 0.0, FRAC_PI_2)?;
    let both = !thin(shank) && thin(root);
    Ok(if both { 1.0 / (1.0 + 0.25 * angle / FRAC_PI_2) } else { 1.0 })
}

/// One shear plane: reference value, N, of a dowel in a main and a side member. `angle` is the
/// greatest between load and grain in either.
///
/// # Errors
/// Figures outside their range.
pub fn single_shear(dowel: &Dowel, main: &Bears, side: &Bears, angle: f64) -> Result<Yielding, Refusal> {
    let [i, ii, iii] = checked(dowel, main, side, angle)?;
    let c = Common::of(dowel, main, side);
    least(vec![
        (Yield::Im, c.main_crush() / i),
        (Yield::Is, c.side_crush() / i),
        (Yield::II, c.turned() / ii),
        (Yield::IIIm, c.bent_in_side() / iii),
        (Yield::IIIs, c.bent_in_main() / iii),
        (Yield::IV, c.bent_twice() / iii),
    ])
}

/// Two shear planes: reference value, N, of a dowel through two side members alike and a main member
/// between them.
///
/// # Errors
/// Figures outside their range.
pub fn double_shear(dowel: &Dowel, main: &Bears, side: &Bears, angle: f64) -> Result<Yielding, Refusal> {
    let [i, _, iii] = checked(dowel, main, side, angle)?;
    let c = Common::of(dowel, main, side);
    least(vec![
        (Yield::Im, c.main_crush() / i),
        (Yield::Is, 2.0 * c.side_crush() / i),
        (Yield::IIIs, 2.0 * c.bent_in_main() / iii),
        (Yield::IV, 2.0 * c.bent_twice() / iii),
    ])
}

fn checked(dowel: &Dowel, main: &Bears, side: &Bears, angle: f64) -> Result<[f64; 3], Refusal> {
    positive(Figure::Stress, dowel.bending_yield)?;
    for member in [main, side] {
        positive(Figure::Stress, member.strength)?;
        positive(Figure::Length, member.length)?;
    }
    divisors(dowel.diameter, angle)
}

fn least(modes: Vec<(Yield, f64)>) -> Result<Yielding, Refusal> {
    let worst = modes.iter().copied().fold((Yield::Im, f64::INFINITY), |a, b| if b.1 < a.1 { b } else { a });
    let capacity = Capacity::new(worst.1, Mode::Yield(worst.0), NDS).assuming(Assumed::RootDiameter);
    Ok(Yielding { capacity, modes })
}

/// Figures that the modes share; the results are not yet divided.
struct Common {
    d: f64,
    fyb: f64,
    fem: f64,
    lm: f64,
    ls: f64,
    /// Bearing strength of the main over the side member.
    re: f64,
    /// Length in the main over the side member.
    rt: f64,
}

impl Common {
    fn of(dowel: &Dowel, main: &Bears, side: &Bears) -> Common {
        let (re, rt) = (main.strength / side.strength, main.length / side.length);
        let (d, fyb, fem) = (dowel.diameter, dowel.bending_yield, main.strength);
        Common { d, fyb, fem, lm: main.length, ls: side.length, re, rt }
    }

    fn main_crush(&self) -> f64 {
        self.d * self.lm * self.fem
    }

    fn side_crush(&self) -> f64 {
        self.d * self.ls * self.fem / self.re
    }

    /// Mode II.
    fn turned(&self) -> f64 {
        let (re, rt) = (self.re, self.rt);
        let root = (re + 2.0 * re * re * (1.0 + rt + rt * rt) + rt * rt * re * re * re).sqrt();
        (root - re * (1.0 + rt)) / (1.0 + re) * self.side_crush()
    }

    /// Mode IIIm.
    fn bent_in_side(&self) -> f64 {
        let re = self.re;
        let bent = 2.0 * self.fyb * (1.0 + 2.0 * re) * self.d * self.d / (3.0 * self.fem * self.lm * self.lm);
        let k = -1.0 + (2.0 * (1.0 + re) + bent).sqrt();
        k * self.main_crush() / (1.0 + 2.0 * re)
    }

    /// Mode IIIs.
    fn bent_in_main(&self) -> f64 {
        let re = self.re;
        let bent = 2.0 * self.fyb * (2.0 + re) * self.d * self.d / (3.0 * self.fem * self.ls * self.ls);
        let k = -1.0 + (2.0 * (1.0 + re) / re + bent).sqrt();
        k * self.d * self.ls * self.fem / (2.0 + re)
    }

    /// Mode IV.
    fn bent_twice(&self) -> f64 {
        self.d * self.d * (2.0 * self.fem * self.fyb / (3.0 * (1.0 + self.re))).sqrt()
    }
}
