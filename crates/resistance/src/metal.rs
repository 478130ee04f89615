//! Metal: yield, bolts in tension and shear, stems in bending.

use std::f64::consts::PI;

use crate::capacity::{Assumed, Capacity, Figure, LEAST, MOST, Mode, Need, Refusal, positive, within};
use crate::source::Source;

const INCH: f64 = 0.0254;

/// Source of yielding.
const YIELD: Source = Source::mechanics("yield strength / safety factor");

/// Allowable stress of a metal, Pa: yield strength over safety. Beside a weld the caller hands in the
/// yield strength of the weld zone, less than half for heat-treated aluminium.
///
/// # Errors
/// A strength not above zero, a safety factor below 1.
pub fn allowable(strength: f64, safety: f64) -> Result<Capacity, Refusal> {
    positive(Figure::Stress, strength)?;
    within(Figure::Safety, safety, 1.0, MOST)?;
    Ok(Capacity::new(strength / safety, Mode::Bending, YIELD).assuming(Assumed::Safety(safety)))
}

/// Yield by normal and shear stress together, as von Mises: `√(σ² + 3τ²)`, Pa.
#[must_use]
pub fn von_mises(normal: f64, shear: f64) -> f64 {
    (normal * normal + 3.0 * shear * shear).sqrt()
}

/// A thread by its sizes, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thread {
    /// Nominal diameter.
    pub diameter: f64,
    /// Pitch: the inch over the threads per inch.
    pub pitch: f64,
}

impl Thread {
    fn checked(&self) -> Result<(), Refusal> {
        positive(Figure::Diameter, self.diameter)?;
        within(Figure::Pitch, self.pitch, LEAST, self.diameter / 3.0)?;
        Ok(())
    }

    /// Tensile stress area of an ISO metric thread, m²: `π/4 (d − 0.9382 P)²`, ISO 898-1.
    #[must_use]
    pub fn stress_area(&self) -> f64 {
        circle(self.diameter - 0.9382 * self.pitch)
    }

    /// Tensile stress area of a unified inch thread, m²: `π/4 (d − 0.9743 P)²`, ASME B1.1.
    #[must_use]
    pub fn stress_area_unified(&self) -> f64 {
        circle(self.diameter - 0.9743 * self.pitch)
    }

    /// Root diameter, m: `d − 1.22687 P` (ISO 724 and 68-1, rounded root).
    #[must_use]
    pub fn root(&self) -> f64 {
        self.diameter - 1.226_87 * self.pitch
    }
}

fn circle(d: f64) -> f64 {
    PI / 4.0 * d * d
}

/// Strength classes of bolts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum BoltClass {
    /// ISO 898-1 class 4.6.
    Iso46,
    /// ISO 898-1 class 8.8, up to M16.
    Iso88,
    /// ISO 898-1 class 10.9.
    Iso109,
    /// ISO 898-1 class 12.9, the strongest.
    Iso129,
    /// SAE J429 grade 2, up to 3/4 in.
    Sae2,
    /// SAE J429 grade 5, up to 1 in.
    Sae5,
    /// SAE J429 grade 8.
    Sae8,
}

impl BoltClass {
    /// Proof stress, Pa; ISO 898-1 and SAE J429, from memory, not checked.
    #[must_use]
    pub const fn proof(self) -> f64 {
        match self {
            BoltClass::Iso46 => 225e6,
            BoltClass::Iso88 => 580e6,
            BoltClass::Iso109 => 830e6,
            BoltClass::Iso129 => 970e6,
            BoltClass::Sae2 => 379e6,
            BoltClass::Sae5 => 586e6,
            BoltClass::Sae8 => 827e6,
        }
    }

    /// Tensile strength, Pa; ISO 898-1 and SAE J429, from memory, not checked.
    #[must_use]
    pub const fn tensile(self) -> f64 {
        match self {
            BoltClass::Iso46 => 400e6,
            BoltClass::Iso88 => 800e6,
            BoltClass::Iso109 => 1040e6,
            BoltClass::Iso129 => 1220e6,
            BoltClass::Sae2 => 510e6,
            BoltClass::Sae5 => 827e6,
            BoltClass::Sae8 => 1034e6,
        }
    }

    /// Least and greatest nominal diameter that the class's figures hold for, m; ISO 898-1 (M1.6 to M39,
    /// 8.8 to M16) and SAE J429, from memory, not checked. Beyond its greatest a grade 2 or 5 is weaker.
    #[must_use]
    pub const fn sizes(self) -> (f64, f64) {
        match self {
            BoltClass::Iso46 | BoltClass::Iso109 | BoltClass::Iso129 => (0.0016, 0.039),
            BoltClass::Iso88 => (0.0016, 0.016),
            BoltClass::Sae2 => (0.25 * INCH, 0.75 * INCH),
            BoltClass::Sae5 => (0.25 * INCH, INCH),
            BoltClass::Sae8 => (0.25 * INCH, 1.5 * INCH),
        }
    }

    fn holds_for(self, thread: &Thread) -> Result<(), Refusal> {
        thread.checked()?;
        let (least, greatest) = self.sizes();
        // The last digit may be lost on the way from inches.
        within(Figure::Diameter, thread.diameter, least * (1.0 - 1e-9), greatest * (1.0 + 1e-9))?;
        Ok(())
    }

    fn area(self, thread: &Thread) -> f64 {
        match self {
            BoltClass::Iso46 | BoltClass::Iso88 | BoltClass::Iso109 | BoltClass::Iso129 => thread.stress_area(),
            BoltClass::Sae2 | BoltClass::Sae5 | BoltClass::Sae8 => thread.stress_area_unified(),
        }
    }

    /// Share of the tensile strength in shear; EN 1993-1-8 table 3.4, from memory, not checked: 0.6, or
    /// 0.5 for the hard classes with the thread in the shear plane.
    const fn shear_share(self) -> f64 {
        match self {
            BoltClass::Iso109 | BoltClass::Iso129 | BoltClass::Sae8 => 0.5,
            _ => 0.6,
        }
    }
}

const PROOF: Source = Source::memory("ISO 898-1 / SAE J429: proof stress x stress area");
const SHEAR: Source = Source::memory(
    "EN 1993-1-8 table 3.4: 0.6 (0.5) x tensile strength x stress area, thread in the shear plane",
);
const TOGETHER: Source = Source::memory("EN 1993-1-8: V + T/1.4; AISC: V^2 + T^2, the worse of both");

/// Tension that a bolt carries, N: proof load over safety.
///
/// # Errors
/// A thread that is none, a diameter outside [`BoltClass::sizes`], a safety factor below 1.
pub fn bolt_tension(thread: &Thread, class: BoltClass, safety: f64) -> Result<Capacity, Refusal> {
    class.holds_for(thread)?;
    within(Figure::Safety, safety, 1.0, MOST)?;
    let value = class.proof() * class.area(thread) / safety;
    Ok(Capacity::new(value, Mode::Proof, PROOF).assuming(Assumed::Safety(safety)))
}

/// Shear that a bolt carries in each of its `planes`, N, all together, the thread in the plane.
///
/// # Errors
/// A thread that is none, a diameter outside [`BoltClass::sizes`], a safety factor below 1, planes other
/// than 1 or 2.
pub fn bolt_shear(thread: &Thread, class: BoltClass, planes: u32, safety: f64) -> Result<Capacity, Refusal> {
    class.holds_for(thread)?;
    within(Figure::Safety, safety, 1.0, MOST)?;
    let planes = within(Figure::Count, f64::from(planes), 1.0, 2.0)?;
    let value = planes * class.shear_share() * class.tensile() * class.area(thread) / safety;
    Ok(Capacity::new(value, Mode::BoltShear, SHEAR)
        .assuming(Assumed::Safety(safety))
        .assuming(Assumed::NoFriction))
}

/// Tension and shear on a bolt together: the worse of the straight line `v + t/1.4` and the ellipse
/// `√(v² + t²)`, v and t the shares of what it carries alone. More than 1 does not hold.
#[must_use]
pub fn bolt_together(
    tension: f64,
    shear: f64,
    tension_alone: &Capacity,
    shear_alone: &Capacity,
) -> (f64, Source) {
    let (t, v) = (tension_alone.use_of(tension), shear_alone.use_of(shear));
    ((v + t / 1.4).max(libm::hypot(v, t)).max(t), TOGETHER)
}

/// A stem's cross-section where it is bent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stem {
    /// Plain shank, diameter in m.
    Plain(f64),
    /// Thread in the plane of bending.
    Threaded(Thread),
}

const STEM: Source = Source::mechanics("round bar in bending: Sy pi d^3 / 32, at the root where threaded");

/// Bending moment that a stem carries, N·m: yield over safety times the section modulus, at the root
/// of the thread where it is threaded, divided by a notch factor there (common practice for cut threads
/// under repeated load: 2.2 to 2.8; handed in by the caller, at least 1).
///
/// # Errors
/// Figures outside their range.
pub fn stem_bending(stem: Stem, strength: f64, notch: f64, safety: f64) -> Result<Capacity, Refusal> {
    within(Figure::Notch, notch, 1.0, MOST)?;
    let stress = allowable(strength, safety)?;
    let modulus = |d: f64| PI / 32.0 * d * d * d;
    let out =
        |d: f64, by: f64, mode| Capacity::new(stress.value * modulus(d) / by, mode, STEM).resting_on(&stress);
    match stem {
        Stem::Plain(d) => {
            positive(Figure::Diameter, d)?;
            Ok(out(d, 1.0, Mode::Bending))
        }
        Stem::Threaded(thread) => {
            thread.checked()?;
            Ok(out(thread.root(), notch, Mode::ThreadRoot)
                .assuming(Assumed::RootDiameter)
                .assuming(Assumed::NotchFactor(notch))
                .needing(Need::NoThreadInBending))
        }
    }
}
