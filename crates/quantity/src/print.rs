//! How a quantity is written for a reader.

use crate::dimension::Dimension;
use crate::quantity::Quantity;

/// The system of units that reports print in.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Display {
    /// Millimetres, kilograms, newtons.
    #[default]
    Metric,
    /// Inches, pounds, pounds-force.
    Inch,
    /// The same, lengths to a fraction of an inch with this denominator. A `+` or `-` behind the fraction
    /// says that the true length is a little more or less.
    Fraction(u32),
}

/// A printed quantity in two parts, so that a table can align them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pieces {
    /// The digits.
    pub number: String,
    /// The unit; empty for a bare number.
    pub unit: String,
}

/// A twelfth of a year of 365.25 days, in seconds.
const MONTH: f64 = 2_629_800.0;
const DAY: f64 = 86_400.0;

impl Display {
    /// The display of a design: whether in inches, and to which denominator (0: decimals).
    #[must_use]
    pub fn new(inches: bool, denominator: u32) -> Display {
        match (inches, denominator) {
            (false, _) => Display::Metric,
            (true, 0) => Display::Inch,
            (true, d) => Display::Fraction(d),
        }
    }

    /// Whether lengths are in inches.
    #[must_use]
    pub fn is_inch(self) -> bool {
        self != Display::Metric
    }

    /// Number and unit as a reader sees them. Decimals: lengths to 0.1 mm or 0.01 in, angles to
    /// 0.1 degree, masses to 0.01 kg or lb, money to two places, the rest to three significant ones.
    #[must_use]
    pub fn pieces(self, q: Quantity) -> Pieces {
        let si = q.si();
        let inch = self.is_inch();
        if let (Display::Fraction(denominator), Dimension::LENGTH) = (self, q.dimension) {
            let (text, error) = fraction_inch(si, denominator);
            let mark = match error {
                e if e.abs() < 5e-6 => "",
                e if e < 0.0 => "+",
                _ => "-",
            };
            return Pieces { number: format!("{}{mark}", text.trim_end_matches(" in")), unit: "in".into() };
        }
        let (value, places, unit): (f64, usize, String) = match q.dimension {
            Dimension::LENGTH if inch => (si / 0.0254, 2, "in".into()),
            Dimension::LENGTH => (si * 1e3, 1, "mm".into()),
            Dimension::MASS if inch => (si / 0.453_592_37, 2, "lb".into()),
            Dimension::MASS => (si, 2, "kg".into()),
            Dimension::ANGLE => (si.to_degrees(), 1, "deg".into()),
            Dimension::FORCE if inch => (si / 4.448_221_615_260_5, 1, "lbf".into()),
            Dimension::FORCE => (si, 0, "N".into()),
            Dimension::PRESSURE if inch => (si / 6_894.757_293_168, 0, "psi".into()),
            Dimension::PRESSURE if si.abs() < 1e5 => (si / 1e3, 1, "kPa".into()),
            Dimension::PRESSURE => (si / 1e6, 2, "MPa".into()),
            Dimension::TIME if si.abs() >= MONTH => (si / MONTH, 1, "months".into()),
            Dimension::TIME if si.abs() >= 2.0 * DAY => (si / DAY, 1, "days".into()),
            Dimension::TIME if si.abs() >= 7_200.0 => (si / 3_600.0, 1, "h".into()),
            // nothing left of a time is nothing in any unit: now
            Dimension::TIME if si == 0.0 => (0.0, 0, "months".into()),
            Dimension::TIME => (si, 0, "s".into()),
            Dimension::READING => (si - 273.15, 1, "degC".into()),
            Dimension::INTERVAL => (si, 1, "K".into()),
            Dimension::AREA => (si, 3, "m2".into()),
            Dimension::SPEED => (si, 2, "m/s".into()),
            Dimension::MOMENT => (si, 1, "N m".into()),
            Dimension::STIFFNESS if inch => (si / (4.448_221_615_260_5 / 0.0254), 1, "lbf/in".into()),
            Dimension::STIFFNESS => (si / 1e3, 1, "N/mm".into()),
            Dimension::TURNING => (si, 0, "N m/rad".into()),
            Dimension::NUMBER => return Pieces { number: significant(si), unit: String::new() },
            d => match d.money {
                Some((c, 1)) if d == Dimension::money(c) => (si, 2, c.code()),
                _ => return Pieces { number: significant(si), unit: d.to_string() },
            },
        };
        Pieces { number: fixed(value, places), unit }
    }

    /// Number and unit in one text.
    #[must_use]
    pub fn text(self, q: Quantity) -> String {
        let p = self.pieces(q);
        if p.unit.is_empty() { p.number } else { format!("{} {}", p.number, p.unit) }
    }
}

/// Fixed decimals without a negative zero.
fn fixed(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| c == '0' || c == '.') => rest.to_owned(),
        _ => text,
    }
}

fn significant(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return fixed(value, 0);
    }
    if value.fract() == 0.0 && value.abs() < 1e9 {
        return fixed(value, 0);
    }
    let size = value.abs();
    let places = if size >= 100.0 {
        1
    } else if size >= 1.0 {
        2
    } else if size >= 0.01 {
        4
    } else {
        6
    };
    fixed(value, places)
}

/// A length in inches as a whole number and a fraction with the given denominator, and the error
/// made by it in metres.
#[must_use]
#[allow(clippy::cast_possible_truncation, clippy::cast_precision_loss)]
pub fn fraction_inch(metres: f64, denominator: u32) -> (String, f64) {
    let steps = (metres / 0.0254 * f64::from(denominator)).round() as i64;
    let error = steps as f64 / f64::from(denominator) * 0.0254 - metres;
    let d = i64::from(denominator.max(1));
    let (whole, rest) = (steps.abs() / d, steps.abs() % d);
    let sign = if steps < 0 { "-" } else { "" };
    let text = if rest == 0 {
        format!("{sign}{whole} in")
    } else {
        let common = gcd(rest, d);
        let part = format!("{}/{}", rest / common, d / common);
        if whole == 0 { format!("{sign}{part} in") } else { format!("{sign}{whole} {part} in") }
    };
    (text, error)
}

fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// A number with thin grouping of thousands, for money columns.
#[must_use]
pub fn grouped(value: f64, places: usize) -> String {
    let text = fixed(value, places);
    let (whole, part) = text.split_once('.').unwrap_or((&text, ""));
    let (sign, digits) = whole.strip_prefix('-').map_or(("", whole), |d| ("-", d));
    let mut out = String::new();
    for (i, c) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i).is_multiple_of(3) {
            out.push(' ');
        }
        out.push(c);
    }
    if part.is_empty() { format!("{sign}{out}") } else { format!("{sign}{out}.{part}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inch_fractions_state_their_error() {
        let (text, error) = fraction_inch(0.0127 * 3.0, 16);
        assert_eq!(text, "1 1/2 in");
        assert!(error.abs() < 1e-12);
        let (text, error) = fraction_inch(0.1, 16);
        assert_eq!(text, "3 15/16 in");
        assert!((error - (3.9375 * 0.0254 - 0.1)).abs() < 1e-12);
    }

    /// 1 N/mm is 1 000 N/m; 1 lbf/in is 4.448 N over 25.4 mm, 175.1 N/m.
    #[test]
    fn a_spring_rate_is_printed_as_on_a_bench() {
        let q = Quantity::from_si(160_000.0, Dimension::STIFFNESS);
        assert_eq!(Display::Metric.text(q), "160.0 N/mm");
        assert_eq!(Display::Inch.text(Quantity::from_si(175.127, Dimension::STIFFNESS)), "1.0 lbf/in");
    }

    #[test]
    fn printing_has_no_negative_zero() {
        let q = Quantity::from_si(-1e-9, Dimension::LENGTH);
        assert_eq!(Display::Metric.text(q), "0.0 mm");
        assert_eq!(grouped(-1234567.5, 2), "-1 234 567.50");
    }
}
