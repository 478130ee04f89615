//! Allowable stress of wood.

use crate::capacity::{Assumed, Capacity, Figure, LEAST, MOST, Mode, Need, Refusal, positive, within};
use crate::source::Source;

/// A property of wood along the grain.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Property {
    /// Modulus of rupture: strength in bending.
    Bending,
    /// Modulus of elasticity.
    Modulus,
    /// Crushing strength along the grain.
    Compression,
    /// Shear strength along the grain.
    Shear,
}

impl Property {
    /// Coefficient of variation of clear wood; Wood Handbook, table 5-6, from memory, not checked.
    #[must_use]
    pub const fn variation(self) -> f64 {
        match self {
            Property::Bending => 0.16,
            Property::Modulus => 0.22,
            Property::Compression => 0.18,
            Property::Shear => 0.14,
        }
    }

    /// Factor where the wood is wet in service (above 19 % moisture), sawn lumber; NDS supplement,
    /// from memory, not checked.
    #[must_use]
    pub const fn wet(self) -> f64 {
        match self {
            Property::Bending => 0.85,
            Property::Modulus => 0.9,
            Property::Compression => 0.8,
            Property::Shear => 0.97,
        }
    }

    /// Factor for heat.
    #[must_use]
    pub const fn warm(self, service: Service) -> f64 {
        match self {
            Property::Modulus => service.warmth.stiffness_factor(),
            _ => service.warmth.factor(service.wet),
        }
    }

    const fn mode(self) -> Mode {
        match self {
            Property::Bending | Property::Modulus => Mode::Bending,
            Property::Compression => Mode::Compression,
            Property::Shear => Mode::Shear,
        }
    }
}

/// Time under full load, all of it added up, with the NDS load duration factor (from memory; 1.6 read
/// in a quotation of NDS-2005). A person seated for years is nearer to ten years than to ten minutes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Duration {
    /// More than ten years: 0.9.
    Permanent,
    /// Ten years: 1.0.
    TenYears,
    /// Two months: 1.15.
    TwoMonths,
    /// Seven days: 1.25.
    SevenDays,
    /// Ten minutes: 1.6.
    TenMinutes,
    /// Impact: 2.0, not for connections.
    Impact,
}

impl Duration {
    /// The factor, relative to ten years under load.
    #[must_use]
    pub const fn factor(self) -> f64 {
        match self {
            Duration::Permanent => 0.9,
            Duration::TenYears => 1.0,
            Duration::TwoMonths => 1.15,
            Duration::SevenDays => 1.25,
            Duration::TenMinutes => 1.6,
            Duration::Impact => 2.0,
        }
    }

    /// The shortest class that holds so many seconds under load; never `Impact`, which a time does not make.
    /// A time below zero or not a number is taken as permanent.
    #[must_use]
    pub fn of_seconds(seconds: f64) -> Duration {
        const DAY: f64 = 86_400.0;
        match seconds {
            s if s < 0.0 => Duration::Permanent,
            s if s <= 600.0 => Duration::TenMinutes,
            s if s <= 7.0 * DAY => Duration::SevenDays,
            s if s <= 61.0 * DAY => Duration::TwoMonths,
            s if s <= 3652.0 * DAY => Duration::TenYears,
            _ => Duration::Permanent,
        }
    }
}

/// What an allowable stress is derived from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Basis {
    /// Mean of tests on clear pieces, Pa, which last minutes.
    ClearMean {
        /// The mean, Pa.
        mean: f64,
        /// Share of the strength that knots and slope of grain leave, 0 to 1 (ASTM D245).
        strength_ratio: f64,
        /// Safety factor on the lower bound, at least 1.
        safety: f64,
    },
    /// A lower bound of tests that last minutes, Pa: the low end of a printed range, a panel's stated
    /// lower value.
    TestedLow {
        /// The bound, Pa.
        low: f64,
        /// Safety factor on it, at least 1.
        safety: f64,
    },
    /// A published design value for ten years under load, Pa, its safety inside.
    Design(f64),
}

/// Where and how long.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Service {
    /// Time under load.
    pub duration: Duration,
    /// Above 19 % moisture in service.
    pub wet: bool,
    /// Warmth of the wood while it is loaded.
    pub warmth: Warmth,
}

/// How warm the wood is while it is loaded, in the steps of the NDS temperature factor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Warmth {
    /// Up to 100 degF (37.8 degC): nothing is lost.
    Usual,
    /// Above that, up to 125 degF (51.7 degC).
    Warm,
    /// Above that, up to 150 degF (65.6 degC).
    Hot,
}

impl Warmth {
    /// The step that a temperature in K lies in.
    ///
    /// # Errors
    /// Above 150 degF, where heat hurts wood for good, and what is no number.
    pub fn of(kelvin: f64) -> Result<Warmth, Refusal> {
        const fn fahrenheit(t: f64) -> f64 {
            (t + 459.67) * 5.0 / 9.0
        }
        within(Figure::Temperature, kelvin, 0.0, fahrenheit(150.0))?;
        Ok(match kelvin {
            t if t <= fahrenheit(100.0) => Warmth::Usual,
            t if t <= fahrenheit(125.0) => Warmth::Warm,
            _ => Warmth::Hot,
        })
    }

    /// Factor for fasteners, and for bending, shear and compression: dry 1.0, 0.8, 0.7, wet 1.0, 0.7, 0.5;
    /// NDS tables 2.3.3 and 11.3.4 (10.3.4 before 2012), from memory, not checked.
    #[must_use]
    pub const fn factor(self, wet: bool) -> f64 {
        match (self, wet) {
            (Warmth::Usual, _) => 1.0,
            (Warmth::Warm, false) => 0.8,
            (Warmth::Warm, true) | (Warmth::Hot, false) => 0.7,
            (Warmth::Hot, true) => 0.5,
        }
    }

    /// Factor for the modulus and for pull along the grain: 0.9 above 100 degF, wet or dry; NDS table 2.3.3, from
    /// memory, not checked.
    #[must_use]
    pub const fn stiffness_factor(self) -> f64 {
        match self {
            Warmth::Usual => 1.0,
            Warmth::Warm | Warmth::Hot => 0.9,
        }
    }
}

/// Source of the chain of factors.
pub const METHOD: Source = Source::memory(
    "NDS adjustment factors; ASTM D245 and D2555 for the lower bound and the step from minutes to ten years under load",
);

/// Duration factor of the tests themselves, which last about five to ten minutes.
const TEST: f64 = 1.6;

/// Lower 5 % bound of a normal spread: `mean × (1 − 1.645 × variation)`; ASTM D2555 as the Wood
/// Handbook describes it.
///
/// # Errors
/// A mean not above zero, or a variation outside 0 to 0.5, where the bound loses sense.
pub fn fifth_percentile(mean: f64, variation: f64) -> Result<f64, Refusal> {
    positive(Figure::Stress, mean)?;
    within(Figure::Variation, variation, 0.0, 0.5)?;
    Ok(mean * (1.0 - 1.645 * variation))
}

/// Allowable stress (or a modulus to reckon buckling with), Pa.
///
/// From a mean of clear tests: lower 5 % bound × strength ratio × (duration factor ÷ 1.6) × wet factor
/// × temperature factor ÷ safety. The duration factors are relative to ten years while tests last minutes, which is why 1.6
/// divides; with a safety of 1.3 a ten-year load stands at 1/2.08 of the bound, as the divisor 2.1 of
/// ASTM D245 (from memory). From a design value: × duration factor × wet factor × temperature factor. A modulus has no
/// duration factor: creep is separate.
///
/// # Errors
/// Figures outside their range.
pub fn allowable(property: Property, basis: Basis, service: Service) -> Result<Capacity, Refusal> {
    let lasting = match property {
        Property::Modulus => 1.0,
        _ => service.duration.factor(),
    };
    let wet = if service.wet { property.wet() } else { 1.0 };
    let warm = property.warm(service);
    let wet_and_warm = wet * warm;
    let test = if property == Property::Modulus { 1.0 } else { TEST };
    let out = match basis {
        Basis::Design(value) => {
            positive(Figure::Stress, value)?;
            Capacity::new(value * lasting * wet_and_warm, property.mode(), METHOD)
        }
        Basis::TestedLow { low, safety } => from_tests(property, low * lasting / test * wet_and_warm, safety)?,
        Basis::ClearMean { mean, strength_ratio, safety } => {
            within(Figure::Share, strength_ratio, LEAST, 1.0)?;
            let low = fifth_percentile(mean, property.variation())?;
            from_tests(property, low * strength_ratio * lasting / test * wet_and_warm, safety)?
                .assuming(Assumed::FifthPercentile(property.variation()))
                .assuming(match strength_ratio == 1.0 {
                    true => Assumed::ClearWood,
                    false => Assumed::StrengthRatio(strength_ratio),
                })
                .needing(Need::LookOver)
        }
    };
    let out = out.assuming(Assumed::DurationFactor(lasting));
    let out = if warm < 1.0 { out.assuming(Assumed::TemperatureFactor(warm)) } else { out };
    Ok(match service.wet {
        true => out.assuming(Assumed::WetFactor(wet)).needing(Need::SealEnds),
        false => out,
    })
}

fn from_tests(property: Property, stress: f64, safety: f64) -> Result<Capacity, Refusal> {
    within(Figure::Safety, safety, 1.0, MOST)?;
    positive(Figure::Stress, stress)?;
    Ok(Capacity::new(stress / safety, property.mode(), METHOD)
        .assuming(Assumed::TestMinutes)
        .assuming(Assumed::Safety(safety)))
}
