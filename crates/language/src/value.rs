//! Kinds of value and values.

use chairwright_design::Vec3;
use chairwright_quantity::{Dimension, Quantity};
use smol_str::SmolStr;

/// What an expression is, before it is evaluated.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) enum Type {
    Quantity(Dimension),
    /// With a tolerance, or a range.
    Band(Dimension),
    /// Money whose currency the price book says.
    Money,
    Bool,
    Text,
    Point,
    Step,
    /// Already reported.
    Bad,
}

impl Type {
    pub(crate) fn phrase(self) -> String {
        match self {
            Type::Quantity(d) | Type::Band(d) => d.phrase(),
            Type::Money => "an amount of money".into(),
            Type::Bool => "a condition".into(),
            Type::Text => "a text".into(),
            Type::Point => "a point".into(),
            Type::Step => "a step in a direction".into(),
            Type::Bad => "something broken".into(),
        }
    }

    /// The dimension of something that can be counted with.
    pub(crate) fn dimension(self) -> Option<Dimension> {
        match self {
            Type::Quantity(d) | Type::Band(d) => Some(d),
            _ => None,
        }
    }
}

/// What an expression came to.
#[derive(Clone, Debug)]
pub(crate) enum Value {
    Quantity(Quantity),
    /// A nominal value between two bounds.
    Band {
        nominal: Quantity,
        low: Quantity,
        high: Quantity,
    },
    Bool(bool),
    Text(SmolStr),
    Point(Vec3),
    Step(Vec3),
}

impl Value {
    /// The nominal quantity.
    pub(crate) fn quantity(&self) -> Option<Quantity> {
        match self {
            Value::Quantity(q) | Value::Band { nominal: q, .. } => Some(*q),
            _ => None,
        }
    }
}

/// A word was poisoned by something already reported.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Silent;

pub(crate) type Outcome<T> = Result<T, Silent>;
