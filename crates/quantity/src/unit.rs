//! Units by name, each an exact factor times the base unit.
//!
//! Factors: the inch is 25.4 mm and the pound 0.45359237 kg exactly (international yard and pound
//! agreement, 1959); the pound-force is the pound times standard gravity 9.80665 m/s² (CGPM 1901).

use crate::dimension::{Currency, Dimension};
use crate::number::Number;

/// One unit: what it measures and how many base units it is.
#[derive(Clone, Copy, Debug)]
pub struct Unit {
    /// What the unit measures.
    pub dimension: Dimension,
    /// Base units in one of this unit.
    pub factor: Number,
    /// Base units at this unit's zero, for thermometer readings.
    pub zero: Number,
}

/// Why a unit text could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum UnitError {
    /// No unit has this name.
    Unknown(String),
    /// The factors cannot be multiplied (two currencies, a thermometer reading in a product).
    Meaningless,
}

/// Name, numerator, denominator, dimension.
const TABLE: &[(&str, i128, i128, Dimension)] = &[
    ("mm", 1, 1_000, Dimension::LENGTH),
    ("cm", 1, 100, Dimension::LENGTH),
    ("m", 1, 1, Dimension::LENGTH),
    ("km", 1_000, 1, Dimension::LENGTH),
    ("in", 254, 10_000, Dimension::LENGTH),
    ("inch", 254, 10_000, Dimension::LENGTH),
    ("inches", 254, 10_000, Dimension::LENGTH),
    ("ft", 3_048, 10_000, Dimension::LENGTH),
    ("feet", 3_048, 10_000, Dimension::LENGTH),
    ("yd", 9_144, 10_000, Dimension::LENGTH),
    ("g", 1, 1_000, Dimension::MASS),
    ("kg", 1, 1, Dimension::MASS),
    ("t", 1_000, 1, Dimension::MASS),
    ("lb", 45_359_237, 100_000_000, Dimension::MASS),
    ("oz", 45_359_237, 1_600_000_000, Dimension::MASS),
    ("s", 1, 1, Dimension::TIME),
    ("min", 60, 1, Dimension::TIME),
    ("h", 3_600, 1, Dimension::TIME),
    ("day", 86_400, 1, Dimension::TIME),
    ("days", 86_400, 1, Dimension::TIME),
    ("week", 604_800, 1, Dimension::TIME),
    ("weeks", 604_800, 1, Dimension::TIME),
    // a year of 365.25 days, a month its twelfth: for growth and reviews, not for calendars
    ("month", 2_629_800, 1, Dimension::TIME),
    ("months", 2_629_800, 1, Dimension::TIME),
    ("year", 31_557_600, 1, Dimension::TIME),
    ("years", 31_557_600, 1, Dimension::TIME),
    ("deg", 1, 1, Dimension::ANGLE),
    ("N", 1, 1, Dimension::FORCE),
    ("kN", 1_000, 1, Dimension::FORCE),
    ("lbf", 44_482_216_152_605, 10_000_000_000_000, Dimension::FORCE),
    ("Pa", 1, 1, Dimension::PRESSURE),
    ("kPa", 1_000, 1, Dimension::PRESSURE),
    ("MPa", 1_000_000, 1, Dimension::PRESSURE),
    ("GPa", 1_000_000_000, 1, Dimension::PRESSURE),
    ("bar", 100_000, 1, Dimension::PRESSURE),
    // lbf per square inch: 4.4482216152605 / 0.00064516
    ("psi", 44_482_216_152_605, 6_451_600_000, Dimension::PRESSURE),
    ("K", 1, 1, Dimension::INTERVAL),
    ("L", 1, 1_000, Dimension { length: 3, ..Dimension::NUMBER }),
    ("l", 1, 1_000, Dimension { length: 3, ..Dimension::NUMBER }),
    ("ml", 1, 1_000_000, Dimension { length: 3, ..Dimension::NUMBER }),
    ("Nm", 1, 1, Dimension { length: 2, mass: 1, time: -2, ..Dimension::NUMBER }),
];

/// Names that a misspelt unit is compared with.
#[must_use]
pub fn unit_names() -> Vec<&'static str> {
    TABLE.iter().map(|(n, ..)| *n).chain(["rad", "degC", "degF", "%"]).collect()
}

/// Reads a unit text such as `mm`, `N/mm2`, `kg/m3`, `degC` or `USD`.
///
/// # Errors
/// [`UnitError::Unknown`] names the part that is no unit; [`UnitError::Meaningless`] when the parts
/// cannot be multiplied.
pub fn parse_unit(text: &str) -> Result<Unit, UnitError> {
    let mut parts = text.split('/');
    let mut unit = factor(parts.next().unwrap_or_default())?;
    for part in parts {
        let under = factor(part)?;
        unit = Unit {
            dimension: unit.dimension.over(under.dimension).ok_or(UnitError::Meaningless)?,
            factor: unit.factor.div(under.factor).ok_or(UnitError::Meaningless)?,
            zero: Number::ZERO,
        };
    }
    Ok(unit)
}

fn factor(text: &str) -> Result<Unit, UnitError> {
    if let Some(unit) = named(text) {
        return Ok(unit);
    }
    let stem = text.trim_end_matches(|c: char| c.is_ascii_digit());
    let power = text[stem.len()..].parse::<i8>().ok().filter(|p| (2..=4).contains(p));
    let (Some(unit), Some(power)) = (named(stem), power) else {
        return Err(UnitError::Unknown(text.to_owned()));
    };
    Ok(Unit {
        dimension: unit.dimension.power(power).ok_or(UnitError::Meaningless)?,
        factor: unit.factor.power(i32::from(power)).ok_or(UnitError::Meaningless)?,
        zero: Number::ZERO,
    })
}

fn named(name: &str) -> Option<Unit> {
    let plain = |dimension, factor| Some(Unit { dimension, factor, zero: Number::ZERO });
    if let Some((_, n, d, dimension)) = TABLE.iter().find(|(n, ..)| *n == name) {
        return plain(*dimension, Number::fraction(*n, *d)?);
    }
    match name {
        "rad" => plain(Dimension::ANGLE, Number::Rounded(180.0 / std::f64::consts::PI)),
        "%" => plain(Dimension::NUMBER, Number::fraction(1, 100)?),
        "degC" => Some(Unit {
            dimension: Dimension::READING,
            factor: Number::ONE,
            zero: Number::fraction(27_315, 100)?,
        }),
        "degF" => Some(Unit {
            dimension: Dimension::READING,
            factor: Number::fraction(5, 9)?,
            zero: Number::fraction(45_967 * 5, 900)?,
        }),
        _ => plain(Dimension::money(Currency::from_code(name)?), Number::ONE),
    }
}

/// The known unit that a misspelt one most likely meant.
#[must_use]
pub fn suggest_unit(text: &str) -> Option<&'static str> {
    const SPELLED: &[(&str, &str)] = &[
        ("millimetre", "mm"),
        ("millimetres", "mm"),
        ("millimeter", "mm"),
        ("millimeters", "mm"),
        ("centimetre", "cm"),
        ("centimetres", "cm"),
        ("centimeter", "cm"),
        ("centimeters", "cm"),
        ("metre", "m"),
        ("metres", "m"),
        ("meter", "m"),
        ("meters", "m"),
        ("foot", "ft"),
        ("degree", "deg"),
        ("degrees", "deg"),
        ("°", "deg"),
        ("°C", "degC"),
        ("C", "degC"),
        ("kilo", "kg"),
        ("kilos", "kg"),
        ("kgs", "kg"),
        ("kilogram", "kg"),
        ("kilograms", "kg"),
        ("lbs", "lb"),
        ("pound", "lb"),
        ("pounds", "lb"),
        ("newton", "N"),
        ("newtons", "N"),
        ("ozs", "oz"),
        ("gram", "g"),
        ("grams", "g"),
        ("mtr", "m"),
        ("mtrs", "m"),
        ("ins", "in"),
    ];
    let lower = text.to_lowercase();
    if let Some((_, unit)) = SPELLED.iter().find(|(s, _)| *s == text || *s == lower) {
        return Some(unit);
    }
    unit_names().into_iter().find(|n| n.to_lowercase() == lower)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn compound_units() {
        assert_eq!(parse_unit("N/mm2").unwrap().factor.to_f64(), 1e6);
        assert_eq!(parse_unit("kg/m3").unwrap().dimension, Dimension::DENSITY);
        assert_eq!(parse_unit("g/cm3").unwrap().factor.to_f64(), 1000.0);
        assert_eq!(parse_unit("mmm").unwrap_err(), UnitError::Unknown("mmm".into()));
        assert_eq!(parse_unit("USD").unwrap().dimension.phrase(), "an amount in USD");
    }

    #[test]
    fn pound_force_is_pound_times_standard_gravity() {
        let lbf = parse_unit("lbf").unwrap().factor;
        let lb = parse_unit("lb").unwrap().factor;
        let g = Number::decimal("9.80665").unwrap();
        assert_eq!(lbf.compare(lb.mul(g)), Some(std::cmp::Ordering::Equal));
    }
}
