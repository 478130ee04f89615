//! Exact rational numbers that fall back to floating point only when they must.

use num_rational::Ratio;
use num_traits::{CheckedAdd, CheckedDiv, CheckedMul, CheckedSub, Zero};
use std::cmp::Ordering;

/// A number: exact while 128-bit fractions suffice, else a 64-bit float.
#[derive(Clone, Copy, Debug)]
pub enum Number {
    /// An exact fraction.
    Exact(Ratio<i128>),
    /// A rounded value, from trigonometry, roots or overflow.
    Rounded(f64),
}

impl Number {
    /// Zero.
    pub const ZERO: Number = Number::Exact(Ratio::new_raw(0, 1));
    /// One.
    pub const ONE: Number = Number::Exact(Ratio::new_raw(1, 1));

    /// A whole number.
    #[must_use]
    pub fn whole(value: i128) -> Number {
        Number::Exact(Ratio::from_integer(value))
    }

    /// A fraction; `None` when the denominator is zero.
    #[must_use]
    pub fn fraction(numerator: i128, denominator: i128) -> Option<Number> {
        (denominator != 0).then(|| Number::Exact(Ratio::new(numerator, denominator)))
    }

    /// Reads a decimal text such as `12`, `0.35` or `1.5e-3` exactly where it fits.
    #[must_use]
    pub fn decimal(text: &str) -> Option<Number> {
        let (mantissa, exponent) = match text.split_once(['e', 'E']) {
            Some((m, e)) => (m, e.parse::<i32>().ok()?),
            None => (text, 0),
        };
        let (whole, part) = mantissa.split_once('.').unwrap_or((mantissa, ""));
        let digits = format!("{whole}{part}");
        let places = exponent - i32::try_from(part.len()).ok()?;
        let exact = digits.parse::<i128>().ok().and_then(|n| {
            let power = 10i128.checked_pow(places.unsigned_abs())?;
            if places >= 0 { n.checked_mul(power).map(Number::whole) } else { Number::fraction(n, power) }
        });
        exact.or_else(|| text.parse::<f64>().ok().filter(|v| v.is_finite()).map(Number::Rounded))
    }

    /// The nearest `f64`: one rounding where numerator and denominator are below 2^53, else within
    /// two units in the last place.
    #[must_use]
    #[allow(clippy::cast_precision_loss)]
    pub fn to_f64(self) -> f64 {
        match self {
            Number::Exact(r) => {
                debug_assert!(*r.denom() != 0);
                let (n, d) = (*r.numer(), *r.denom());
                n as f64 / d as f64
            }
            Number::Rounded(v) => v,
        }
    }

    /// Whether the number is an exact fraction.
    #[must_use]
    pub fn is_exact(self) -> bool {
        matches!(self, Number::Exact(_))
    }

    /// Whether the number is zero.
    #[must_use]
    pub fn is_zero(self) -> bool {
        match self {
            Number::Exact(r) => r.is_zero(),
            Number::Rounded(v) => v == 0.0,
        }
    }

    /// Sum.
    #[must_use]
    #[allow(clippy::should_implement_trait)]
    pub fn add(self, other: Number) -> Number {
        self.join(other, |a, b| a.checked_add(b), |a, b| a + b)
    }

    /// Difference.
    #[must_use]
    #[allow(clippy::should_implement_trait)]
    pub fn sub(self, other: Number) -> Number {
        self.join(other, |a, b| a.checked_sub(b), |a, b| a - b)
    }

    /// Product.
    #[must_use]
    #[allow(clippy::should_implement_trait)]
    pub fn mul(self, other: Number) -> Number {
        self.join(other, |a, b| a.checked_mul(b), |a, b| a * b)
    }

    /// Quotient; `None` when dividing by zero.
    #[must_use]
    #[allow(clippy::should_implement_trait)]
    pub fn div(self, other: Number) -> Option<Number> {
        (!other.is_zero()).then(|| self.join(other, |a, b| a.checked_div(b), |a, b| a / b))
    }

    /// Whole power; `None` for zero to a negative power.
    #[must_use]
    pub fn power(self, exponent: i32) -> Option<Number> {
        let mut result = Number::ONE;
        for _ in 0..exponent.unsigned_abs().min(64) {
            result = result.mul(self);
        }
        if exponent < 0 { Number::ONE.div(result) } else { Some(result) }
    }

    /// The number with its sign turned.
    #[must_use]
    pub fn negate(self) -> Number {
        match self {
            Number::Exact(r) if *r.numer() != i128::MIN => Number::Exact(-r),
            other => Number::Rounded(-other.to_f64()),
        }
    }

    /// Order; equal only when equal to the last bit of what each side holds. `None` for not-a-number.
    #[must_use]
    pub fn compare(self, other: Number) -> Option<Ordering> {
        match (self, other) {
            (Number::Exact(a), Number::Exact(b)) => Some(a.cmp(&b)),
            (a, b) => a.to_f64().partial_cmp(&b.to_f64()),
        }
    }

    fn join(
        self,
        other: Number,
        exact: impl Fn(&Ratio<i128>, &Ratio<i128>) -> Option<Ratio<i128>>,
        rounded: impl Fn(f64, f64) -> f64,
    ) -> Number {
        if let (Number::Exact(a), Number::Exact(b)) = (&self, &other)
            && let Some(value) = exact(a, b)
        {
            return Number::Exact(value);
        }
        Number::Rounded(rounded(self.to_f64(), other.to_f64()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn decimals_are_exact() {
        let tenth = Number::decimal("0.1").unwrap();
        let sum = (0..10).fold(Number::ZERO, |s, _| s.add(tenth));
        assert_eq!(sum.compare(Number::ONE), Some(Ordering::Equal));
        assert_eq!(Number::decimal("1.5e-3").unwrap().to_f64(), 0.0015);
        assert_eq!(Number::decimal("2e3").unwrap().to_f64(), 2000.0);
        assert!(Number::decimal("x").is_none());
    }

    #[test]
    fn overflow_falls_back_to_floats() {
        let big = Number::decimal("1e30").unwrap();
        let product = big.mul(big);
        assert!(!product.is_exact());
        assert!((product.to_f64() / 1e60 - 1.0).abs() < 1e-15);
        assert!(Number::ONE.div(Number::ZERO).is_none());
    }
}
