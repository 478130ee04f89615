//! A number with its dimension, and the arithmetic that keeps both right.

use crate::dimension::Dimension;
use crate::number::Number;
use std::cmp::Ordering;

/// A number and what it measures.
#[derive(Clone, Copy, Debug)]
pub struct Quantity {
    /// How many base units.
    pub number: Number,
    /// What it measures.
    pub dimension: Dimension,
}

/// Why two quantities could not be joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mismatch {
    /// Their dimensions differ.
    Dimensions,
    /// Two thermometer readings were added.
    TwoReadings,
    /// A division by zero.
    Zero,
}

impl Quantity {
    /// A bare number.
    #[must_use]
    pub fn number(number: Number) -> Quantity {
        Quantity { number, dimension: Dimension::NUMBER }
    }

    /// A quantity from a value in SI units (radians for angles).
    #[must_use]
    pub fn from_si(value: f64, dimension: Dimension) -> Quantity {
        let scale = radians_power(dimension);
        let number = if scale == 1.0 { value } else { value / scale };
        Quantity { number: Number::Rounded(number), dimension }
    }

    /// The value in SI units: metres, kilograms, seconds, radians, kelvins, or one of the currency.
    #[must_use]
    pub fn si(self) -> f64 {
        let scale = radians_power(self.dimension);
        if scale == 1.0 { self.number.to_f64() } else { self.number.to_f64() * scale }
    }

    /// Dimension of a sum or difference, or why there is none.
    ///
    /// # Errors
    /// When the dimensions differ or two thermometer readings are added.
    pub fn sum_dimension(a: Dimension, b: Dimension, minus: bool) -> Result<Dimension, Mismatch> {
        let plain = |d: Dimension| Dimension { reading: false, ..d };
        if plain(a) != plain(b) {
            return Err(Mismatch::Dimensions);
        }
        match (a.reading, b.reading, minus) {
            (true, true, false) => Err(Mismatch::TwoReadings),
            (true, true, true) => Ok(plain(a)),
            (false, true, true) => Err(Mismatch::Dimensions),
            (x, y, _) => Ok(Dimension { reading: x || y, ..a }),
        }
    }

    /// Sum.
    ///
    /// # Errors
    /// As for [`Quantity::sum_dimension`].
    pub fn plus(self, other: Quantity) -> Result<Quantity, Mismatch> {
        let dimension = Self::sum_dimension(self.dimension, other.dimension, false)?;
        Ok(Quantity { number: self.number.add(other.number), dimension })
    }

    /// Difference.
    ///
    /// # Errors
    /// As for [`Quantity::sum_dimension`].
    pub fn minus(self, other: Quantity) -> Result<Quantity, Mismatch> {
        let dimension = Self::sum_dimension(self.dimension, other.dimension, true)?;
        Ok(Quantity { number: self.number.sub(other.number), dimension })
    }

    /// Product.
    ///
    /// # Errors
    /// When the dimensions cannot be multiplied.
    pub fn times(self, other: Quantity) -> Result<Quantity, Mismatch> {
        let dimension = self.dimension.times(other.dimension).ok_or(Mismatch::Dimensions)?;
        Ok(Quantity { number: self.number.mul(other.number), dimension })
    }

    /// Quotient.
    ///
    /// # Errors
    /// When the dimensions cannot be divided, or the divisor is zero.
    pub fn over(self, other: Quantity) -> Result<Quantity, Mismatch> {
        let dimension = self.dimension.over(other.dimension).ok_or(Mismatch::Dimensions)?;
        let number = self.number.div(other.number).ok_or(Mismatch::Zero)?;
        Ok(Quantity { number, dimension })
    }

    /// Order of two quantities of one dimension. Rounded values within one part in 10^12 count as
    /// equal, so that a limit computed two ways is met by itself.
    #[must_use]
    pub fn compare(self, other: Quantity) -> Option<Ordering> {
        if self.dimension != other.dimension {
            return None;
        }
        if !(self.number.is_exact() && other.number.is_exact()) {
            let (a, b) = (self.number.to_f64(), other.number.to_f64());
            if (a - b).abs() <= 1e-12 * a.abs().max(b.abs()) {
                return Some(Ordering::Equal);
            }
        }
        self.number.compare(other.number)
    }
}

fn radians_power(dimension: Dimension) -> f64 {
    let one = std::f64::consts::PI / 180.0;
    match dimension.angle {
        0 => 1.0,
        1 => one,
        n => one.powi(i32::from(n)),
    }
}
