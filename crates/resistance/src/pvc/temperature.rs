//! Strength falls with heat: two published tables with different bases, kept apart.

use crate::capacity::{Figure, Refusal, within};
use crate::source::Source;

/// A table of factors on strength over temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FactorTable {
    /// Temperature in K and factor, by rising temperature.
    pub points: &'static [(f64, f64)],
    /// The coldest that is answered, K; between it and the first point the first factor holds.
    pub coldest: f64,
    /// Where it is published.
    pub source: Source,
}

const fn fahrenheit(t: f64) -> f64 {
    (t + 459.67) * 5.0 / 9.0
}

const fn celsius(t: f64) -> f64 {
    t + 273.15
}

/// Derating of pressure in the US, 1.00 at 73 °F. Where two columns are printed, the lower.
pub static US_73F: FactorTable = FactorTable {
    points: &[
        (fahrenheit(73.0), 1.00),
        (fahrenheit(80.0), 0.88),
        (fahrenheit(90.0), 0.75),
        (fahrenheit(100.0), 0.62),
        (fahrenheit(110.0), 0.50),
        (fahrenheit(120.0), 0.40),
        (fahrenheit(130.0), 0.30),
        (fahrenheit(140.0), 0.22),
    ],
    coldest: celsius(0.0),
    source: Source::published("pressure-pipe derating tables, 73 to 140 degF; lower of the printed columns"),
};

/// Derating in the style of ISO 4422-2, 1.00 at 20 °C.
pub static ISO_20C: FactorTable = FactorTable {
    points: &[
        (celsius(20.0), 1.00),
        (celsius(25.0), 0.94),
        (celsius(30.0), 0.87),
        (celsius(35.0), 0.78),
        (celsius(40.0), 0.70),
        (celsius(45.0), 0.64),
        (celsius(50.0), 0.58),
    ],
    coldest: celsius(0.0),
    source: Source::published("PVC-U property sheets, derating as ISO 4422-2, rating range 0 to 50 degC"),
};

/// A factor on strength.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Factor {
    /// Between 0 and 1.
    pub value: f64,
    /// Colder than the first point: its factor is kept.
    pub held: bool,
}

/// The factor at a temperature in K: straight lines between the points of the table. Above the last
/// point and below the coldest it is refused.
///
/// # Errors
/// [`Refusal::Outside`] with the table's range.
pub fn factor(table: &FactorTable, kelvin: f64) -> Result<Factor, Refusal> {
    let warmest = table.points.last().map_or(f64::NAN, |p| p.0);
    within(Figure::Temperature, kelvin, table.coldest, warmest)?;
    let held = table.points.first().is_some_and(|p| kelvin < p.0);
    let at = if held { table.points.first().map_or(f64::NAN, |p| p.0) } else { kelvin };
    Ok(Factor { value: along(table.points, at).unwrap_or(f64::NAN), held })
}

/// A value between points of rising temperature (K), by straight lines; `None` colder than the first,
/// hotter than the last and for what is no number.
#[must_use]
pub fn along(points: &[(f64, f64)], kelvin: f64) -> Option<f64> {
    let above = points.iter().position(|p| p.0 >= kelvin)?;
    let (t1, f1) = points[above];
    match above.checked_sub(1) {
        None => (kelvin >= t1).then_some(f1),
        Some(below) => {
            let (t0, f0) = points[below];
            Some(f0 + (f1 - f0) * (kelvin - t0) / (t1 - t0))
        }
    }
}

/// The lower factor of both tables where both answer, else that of the one that does. The tables
/// have different bases and differ: at 50 °C 0.58 against about 0.38.
///
/// # Errors
/// Where neither table answers.
pub fn cautious_factor(kelvin: f64) -> Result<Factor, Refusal> {
    let us = factor(&US_73F, kelvin)?;
    Ok(match factor(&ISO_20C, kelvin) {
        Ok(iso) if iso.value < us.value => iso,
        _ => us,
    })
}

/// How brittle the cold makes it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cold {
    /// At or below about 5 °C: brittle unless modified. No figure of impact holds.
    Brittle,
    /// Within 5 K above that, the sheets being no sharper than "about".
    Near,
    /// Warmer.
    Clear,
}

/// Brittleness flag at a temperature in K, from PVC-U property sheets: brittle around 5 °C. Not a
/// number is called brittle.
#[must_use]
pub fn cold(kelvin: f64) -> Cold {
    match kelvin {
        t if t > celsius(10.0) => Cold::Clear,
        t if t > celsius(5.0) => Cold::Near,
        _ => Cold::Brittle,
    }
}

#[cfg(test)]
mod tests {
    use super::along;

    /// By hand: halfway between 0.8 at 300 K and 0.6 at 310 K.
    #[test]
    fn between_points_and_nowhere_else() {
        let points = [(290.0, 1.0), (300.0, 0.8), (310.0, 0.6)];
        assert!((along(&points, 305.0).unwrap() - 0.7).abs() < 1e-12);
        assert_eq!((along(&points, 290.0), along(&points, 310.0)), (Some(1.0), Some(0.6)));
        assert_eq!(
            (along(&points, 289.9), along(&points, 310.1), along(&points, f64::NAN)),
            (None, None, None)
        );
        assert_eq!(along(&[], 300.0), None);
    }
}
