//! Adjustments that all fasteners in wood share.

use crate::capacity::{Assumed, Capacity, Figure, LEAST, MOST, Need, Refusal, within};
use crate::never::Never;
use crate::wood::{Duration, Service};

/// How a fastener is loaded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Loaded {
    /// Across its shank, in side grain.
    Sideways,
    /// Across its shank, driven into end grain: 0.67.
    SidewaysInEndGrain,
    /// Along its shank.
    Pulled,
}

impl Loaded {
    /// Factor for end grain; NDS 12.5.2, from memory, not checked.
    #[must_use]
    pub const fn end_grain(self) -> f64 {
        match self {
            Loaded::SidewaysInEndGrain => 0.67,
            Loaded::Sideways | Loaded::Pulled => 1.0,
        }
    }
}

/// Factor for wood wet in service (above 19 % moisture): 0.7 for what is loaded sideways and for
/// screws pulled, 0.25 for nails pulled (wood that dries lets go of them); NDS table 11.3.3, from
/// memory, not checked.
#[must_use]
pub const fn wet_factor(loaded: Loaded, nail: bool) -> f64 {
    match (loaded, nail) {
        (Loaded::Pulled, true) => 0.25,
        _ => 0.7,
    }
}

/// A reference value with its adjustments: duration (an impact is refused), wetness, heat, end grain.
///
/// # Errors
/// [`Never::ImpactFactorOnConnection`].
pub fn adjusted(
    reference: Capacity,
    loaded: Loaded,
    nail: bool,
    service: Service,
) -> Result<Capacity, Refusal> {
    if service.duration == Duration::Impact {
        return Err(Never::ImpactFactorOnConnection.into());
    }
    let lasting = service.duration.factor();
    let wet = if service.wet { wet_factor(loaded, nail) } else { 1.0 };
    let mut out = reference;
    let warm = service.warmth.factor(service.wet);
    out.value *= lasting * wet * warm * loaded.end_grain();
    out = out.assuming(Assumed::DurationFactor(lasting)).needing(Need::Distances).needing(Need::LeadHole);
    if loaded == Loaded::SidewaysInEndGrain {
        out = out.assuming(Assumed::EndGrainLateral(loaded.end_grain()));
    }
    if warm < 1.0 {
        out = out.assuming(Assumed::TemperatureFactor(warm));
    }
    Ok(if service.wet { out.assuming(Assumed::WetFactor(wet)) } else { out })
}

/// Factor for a nail or screw that goes less than ten diameters into the main member: p / 10D, and
/// none below six; footnote of the NDS tables of tabulated values (edition 2005).
///
/// # Errors
/// Less than six diameters.
pub fn penetration_factor(penetration: f64, diameter: f64) -> Result<f64, Refusal> {
    within(Figure::Diameter, diameter, LEAST, MOST)?;
    within(Figure::Depth, penetration, 6.0 * diameter * (1.0 - 1e-12), MOST)?;
    Ok((penetration / (10.0 * diameter)).min(1.0))
}
