//! Strength and stiffness fall with time under load.
//!
//! Two points of each are published and no curve between them; a straight line over the logarithm of
//! time joins them, and every answer between them says so.

use crate::capacity::{Figure, LEAST, MOST, Refusal, within};
use crate::source::Source;

/// Two published points: full value at `short` seconds, the share `left` of it at `long`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Relaxation {
    /// Length of the short test, s.
    pub short: f64,
    /// Length that the long value stands for, s.
    pub long: f64,
    /// Share that is left then.
    pub left: f64,
    /// Where the share is published.
    pub source: Source,
}

const PSI: f64 = 6_894.757_293_168_361;
const HOUR: f64 = 3600.0;
const YEAR: f64 = 365.25 * 24.0 * HOUR;

/// Hoop strength of long-term against short-term tests. Both printed values hold the same
/// design factor, so that the ratio is free of it. Lengths of the tests from memory, not checked
/// (burst within about a minute, ASTM D1599; long-term strength at 100 000 h, ASTM D2837).
pub const STRENGTH: Relaxation = Relaxation {
    short: 60.0,
    long: 100_000.0 * HOUR,
    left: 2000.0 / 3200.0,
    source: Source::published("AWWA C900 DR18 example: 3200 psi short-term, 2000 psi long-term hoop strength"),
};

/// Strength reckoned from a *tensile* strength of a property sheet: twice the hydrostatic design stress
/// of 2000 psi (design factor 2) against 52 MPa, the strongest that the sheets print. The hoop ratio of
/// [`STRENGTH`] belongs to burst tests; on a tensile strength it would give up to 18 % more than the
/// published design stress. Lengths of the tests as there.
pub const TENSILE: Relaxation = Relaxation {
    short: STRENGTH.short,
    long: STRENGTH.long,
    left: 2.0 * 2000.0 * PSI / 52e6,
    source: Source::published(
        "trade note on the hydrostatic design stress of 2000 psi; PVC-U property sheets, tensile strength up to 52 MPa",
    ),
};

/// Stiffness: 50-year bending modulus of rings against the short-term tensile modulus. Length of the
/// short test from memory, not checked; a shorter one would be more careful, a line over log time
/// falls earlier than creep usually does.
pub const CREEP: Relaxation = Relaxation {
    short: 60.0,
    long: 50.0 * YEAR,
    left: 1200.0 / 3200.0,
    source: Source::published(
        "PVC-U property sheets: 1200 MPa 50-year ring bending modulus, 3200 MPa short-term",
    ),
};

/// What share is left after so many seconds under load. Shorter than the short test: all of it, no
/// credit. Longer than the long one is refused.
///
/// # Errors
/// [`Refusal::Outside`] beyond the last published point.
pub fn duration_factor(of: &Relaxation, seconds: f64) -> Result<f64, Refusal> {
    within(Figure::Time, seconds, 0.0, of.long)?;
    let along = libm::log(seconds.max(of.short) / of.short) / libm::log(of.long / of.short);
    Ok(1.0 + (of.left - 1.0) * along)
}

/// Long-term over short-term strength of one material, both in Pa and both with or both without a
/// design factor. A hydrostatic design stress has one inside (usually 2), a tensile strength none.
///
/// # Errors
/// Unless `0 < long_term <= short_term`.
pub fn sustained_ratio(long_term: f64, short_term: f64) -> Result<f64, Refusal> {
    within(Figure::Stress, short_term, LEAST, MOST)?;
    within(Figure::Stress, long_term, LEAST, short_term)?;
    Ok(long_term / short_term)
}
