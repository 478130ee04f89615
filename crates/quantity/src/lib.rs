//! Quantities: exact numbers with a dimension.
//!
//! In come unit names and decimal texts that somebody else has cut out of a source; out go
//! [`Quantity`] values whose arithmetic is checked, and texts that print them.
//! This room knows nothing of files, tokens or chairs.
//!
//! Base units inside: metre, kilogram, second, **degree**, kelvin, and one base per currency.
//! The degree is the base of angle because builders write degrees and a degree must stay exact;
//! [`Quantity::si`] hands on radians.

mod calendar;
mod dimension;
mod number;
mod print;
mod quantity;
mod unit;

pub use calendar::day_after;
pub use dimension::{Currency, Dimension};
pub use number::Number;
pub use print::{Display, Pieces, fraction_inch, grouped};
pub use quantity::{Mismatch, Quantity};
pub use unit::{Unit, UnitError, parse_unit, suggest_unit, unit_names};
