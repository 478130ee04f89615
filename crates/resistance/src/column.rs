//! Slender members under a push: buckling, and how a push amplifies bending.

use std::f64::consts::PI;

use crate::capacity::{Assumed, Capacity, Figure, LEAST, MOST, Mode, Refusal, positive, within};
use crate::source::Source;

/// How the ends are held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Ends {
    /// Both turn, neither moves: 1.
    Pinned,
    /// Both held: 0.65, the theoretical 0.5 raised because no joint is rigid.
    Fixed,
    /// One held, one turns: 0.8 for the theoretical 0.7.
    FixedPinned,
    /// One held, one free: 2.1 for the theoretical 2.
    Free,
    /// Held at both ends, which move sideways against each other: 1.2 for the theoretical 1.
    Sway,
    /// A factor of the caller's, 0.5 or more.
    Factor(f64),
}

impl Ends {
    /// Effective over real length: values recommended in the AISC commentary on alignment, from
    /// memory, not checked.
    ///
    /// # Errors
    /// A factor of the caller's below 0.5.
    pub fn factor(self) -> Result<f64, Refusal> {
        Ok(match self {
            Ends::Pinned => 1.0,
            Ends::Fixed => 0.65,
            Ends::FixedPinned => 0.8,
            Ends::Free => 2.1,
            Ends::Sway => 1.2,
            Ends::Factor(k) => within(Figure::Slenderness, k, 0.5, MOST)?,
        })
    }
}

const EULER: Source = Source::mechanics("Euler: pi^2 E I / (K L)^2");
const JOHNSON: Source = Source::memory("J. B. Johnson's parabola: Sy (1 - Sy (KL/r)^2 / (4 pi^2 E))");
const YLINEN: Source =
    Source::memory("NDS 3.7.1: column stability factor, c = 0.8 for sawn lumber, FcE = 0.822 Emin/(le/d)^2");

/// Buckling load, N, without safety: `π² E I / (K L)²`, from EI in N·m² and the length in m.
///
/// # Errors
/// Figures not above zero.
pub fn euler(ei: f64, length: f64, ends: Ends) -> Result<Capacity, Refusal> {
    let load = euler_load(ei, length, ends)?;
    Ok(Capacity::new(load, Mode::Buckling, EULER).assuming(Assumed::EffectiveLength(ends.factor()?)))
}

/// The load of [`euler`] alone, for what is asked at every place of every bar.
///
/// # Errors
/// Figures not above zero.
pub fn euler_load(ei: f64, length: f64, ends: Ends) -> Result<f64, Refusal> {
    positive(Figure::SecondMoment, ei)?;
    positive(Figure::Length, length)?;
    let effective = ends.factor()? * length;
    Ok(PI * PI * ei / (effective * effective))
}

/// A strut of one material with a yield strength.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strut {
    /// Area, m².
    pub area: f64,
    /// Least second moment, m⁴.
    pub second_moment: f64,
    /// Length, m.
    pub length: f64,
    /// Young's modulus, Pa.
    pub modulus: f64,
    /// Yield strength or allowable stress, Pa.
    pub strength: f64,
}

/// Push that a strut carries, N: Euler where slender, Johnson's parabola where stocky (they meet at
/// half the strength), over the safety factor.
///
/// # Errors
/// Figures outside their range.
pub fn strut(of: &Strut, ends: Ends, safety: f64) -> Result<Capacity, Refusal> {
    positive(Figure::Area, of.area)?;
    positive(Figure::Stress, of.strength)?;
    within(Figure::Safety, safety, 1.0, MOST)?;
    let slender = euler(of.modulus * of.second_moment, of.length, ends)?;
    let squash = of.area * of.strength;
    let (value, mode, source) = match slender.value <= squash / 2.0 {
        true => (slender.value, Mode::Buckling, EULER),
        false => (squash * (1.0 - squash / (4.0 * slender.value)), Mode::Compression, JOHNSON),
    };
    Ok(Capacity::new(value / safety, mode, source).resting_on(&slender).assuming(Assumed::Safety(safety)))
}

/// Allowable stress of a rectangular column of sawn lumber, Pa, by the NDS: `Fc* × Cp`, from the
/// allowable crushing stress `crush` (all other factors inside), the modulus for stability `modulus`
/// (lower bound with its safety inside, the NDS' E'min), both Pa, and slenderness le/d.
///
/// # Errors
/// A slenderness above 50, which the NDS does not allow.
pub fn wood_column(crush: f64, modulus: f64, slenderness: f64) -> Result<Capacity, Refusal> {
    positive(Figure::Stress, crush)?;
    let critical = wood_euler(modulus, slenderness)?;
    let c = 0.8;
    let a = critical / crush;
    let m = (1.0 + a) / (2.0 * c);
    // The lesser root of c x² − (1 + a) x + a = 0, written so that a stocky column keeps its digits.
    let cp = a / c / (m + (m * m - a / c).sqrt());
    let mode = if cp > 0.5 { Mode::Compression } else { Mode::Buckling };
    Ok(Capacity::new(crush * cp, mode, YLINEN))
}

/// Critical buckling stress of a rectangular wood column, Pa: `0.822 E'min / (le/d)²`.
///
/// # Errors
/// As for [`wood_column`].
pub fn wood_euler(modulus: f64, slenderness: f64) -> Result<f64, Refusal> {
    positive(Figure::Modulus, modulus)?;
    within(Figure::Slenderness, slenderness, LEAST, 50.0)?;
    Ok(0.822 * modulus / (slenderness * slenderness))
}

/// Exact amplification of a cantilever with a push at its tip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Amplified {
    /// Moment at its greatest over that without the push.
    pub moment: f64,
    /// Deflection at its greatest over that without the push.
    pub deflection: f64,
}

/// A cantilever with a force across its tip and a push `axial` (N): moment `tan a / a`, deflection
/// `3 (tan a − a)/a³`, a = L √(P/EI). Beam-column theory, bending only.
///
/// # Errors
/// A push below zero, or at or beyond buckling (a = π/2).
pub fn cantilever_amplified(ei: f64, length: f64, axial: f64) -> Result<Amplified, Refusal> {
    let a = argument(ei, length, axial)?;
    if a < 1e-3 {
        return Ok(Amplified { moment: 1.0 + a * a / 3.0, deflection: 1.0 + 0.4 * a * a });
    }
    let tan = libm::tan(a);
    Ok(Amplified { moment: tan / a, deflection: 3.0 * (tan - a) / (a * a * a) })
}

/// A beam on two hinges with an even load across and a push `axial` (N): moment `2 (sec u − 1)/u²`,
/// deflection `12 (2 sec u − 2 − u²)/(5 u⁴)`, u = L/2 √(P/EI). Beam-column theory, bending only.
///
/// # Errors
/// A push below zero, or at or beyond buckling (u = π/2).
pub fn simple_beam_amplified(ei: f64, length: f64, axial: f64) -> Result<Amplified, Refusal> {
    let u = argument(ei, length / 2.0, axial)?;
    let u2 = u * u;
    if u < 0.03 {
        return Ok(Amplified { moment: 1.0 + 5.0 / 12.0 * u2, deflection: 1.0 + 61.0 / 150.0 * u2 });
    }
    let sec = 1.0 / libm::cos(u);
    Ok(Amplified { moment: 2.0 * (sec - 1.0) / u2, deflection: 2.4 * (2.0 * sec - 2.0 - u2) / (u2 * u2) })
}

fn argument(ei: f64, length: f64, axial: f64) -> Result<f64, Refusal> {
    positive(Figure::SecondMoment, ei)?;
    positive(Figure::Length, length)?;
    let critical = PI * PI / 4.0 * ei / (length * length);
    within(Figure::Force, axial, 0.0, critical * (1.0 - 1e-12))?;
    Ok(length * (axial / ei).sqrt())
}

/// Usual approximation of the amplification: `Cm / (1 − P/Pe)`, not below 1. Infinite at or beyond
/// buckling. `cm` is 1 for loads between the ends.
///
/// # Errors
/// A push below zero or a critical load not above zero.
pub fn amplification(axial: f64, critical: f64, cm: f64) -> Result<f64, Refusal> {
    positive(Figure::Force, critical)?;
    within(Figure::Force, axial, 0.0, MOST)?;
    within(Figure::Share, cm, 0.0, 1.0)?;
    let left = 1.0 - axial / critical;
    Ok(if left > 0.0 { (cm / left).max(1.0) } else { f64::INFINITY })
}
