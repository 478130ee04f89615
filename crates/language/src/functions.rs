//! Functions that the language has.

use crate::value::{Type, Value};
use chairwright_design::Vec3;
use chairwright_quantity::{Dimension, Number, Quantity};
use std::cmp::Ordering;

/// How a function's result depends on what it is given.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Shape {
    /// Quantities of one kind give that kind.
    Same,
    /// Square root.
    Root,
    /// An angle gives a number.
    Trig,
    /// A number gives an angle.
    Arc,
    /// Two quantities of one kind give an angle.
    Arc2,
    /// Two points give a length.
    Distance,
    /// Points give a point.
    Midpoint,
    /// Three points give the angle at the middle one.
    Angle,
    /// A point gives one of its coordinates.
    Coordinate,
    /// Two members give a point.
    Crossing,
    /// A condition and two values give one of them.
    Choose,
    /// A catalogue text: whether the price book has it.
    Sold,
}

/// One function.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Function {
    pub name: &'static str,
    pub shape: Shape,
    pub least: usize,
    pub most: usize,
    pub takes: &'static str,
}

const fn f(name: &'static str, shape: Shape, least: usize, most: usize, takes: &'static str) -> Function {
    Function { name, shape, least, most, takes }
}

/// Every function.
pub(crate) const FUNCTIONS: &[Function] = &[
    f("min", Shape::Same, 1, usize::MAX, "quantities of one kind"),
    f("max", Shape::Same, 1, usize::MAX, "quantities of one kind"),
    f("clamp", Shape::Same, 3, 3, "a value, its least and its greatest"),
    f("abs", Shape::Same, 1, 1, "a quantity"),
    f("round", Shape::Same, 2, 2, "a quantity and the step to round to"),
    f("floor", Shape::Same, 2, 2, "a quantity and the step to round down to"),
    f("ceil", Shape::Same, 2, 2, "a quantity and the step to round up to"),
    f("sqrt", Shape::Root, 1, 1, "a number or the square of a quantity"),
    f("sin", Shape::Trig, 1, 1, "an angle"),
    f("cos", Shape::Trig, 1, 1, "an angle"),
    f("tan", Shape::Trig, 1, 1, "an angle"),
    f("asin", Shape::Arc, 1, 1, "a number"),
    f("acos", Shape::Arc, 1, 1, "a number"),
    f("atan", Shape::Arc, 1, 1, "a number"),
    f("atan2", Shape::Arc2, 2, 2, "two quantities of one kind"),
    f("distance", Shape::Distance, 2, 2, "two points"),
    f("midpoint", Shape::Midpoint, 2, 2, "two points"),
    f("angle", Shape::Angle, 3, 3, "three points, the corner in the middle"),
    f("ahead", Shape::Coordinate, 1, 1, "a point"),
    f("leftward", Shape::Coordinate, 1, 1, "a point"),
    f("height", Shape::Coordinate, 1, 1, "a point"),
    f("crossing", Shape::Crossing, 2, 2, "two members"),
    f("sold", Shape::Sold, 1, 1, "the quoted name of something to buy"),
    f("choose", Shape::Choose, 3, 3, "a condition and two values of one kind"),
];

/// The function with this name.
pub(crate) fn function(name: &str) -> Option<&'static Function> {
    FUNCTIONS.iter().find(|f| f.name == name)
}

impl Function {
    /// The kind of the result, if the function takes these kinds.
    pub(crate) fn result(&self, kinds: &[Type]) -> Option<Type> {
        let first = kinds.first().and_then(|k| k.dimension());
        let points = kinds.iter().all(|k| *k == Type::Point);
        match self.shape {
            Shape::Same => {
                let d = first?;
                kinds.iter().all(|k| k.dimension() == Some(d)).then_some(Type::Quantity(d))
            }
            Shape::Root => first?.root().map(Type::Quantity),
            Shape::Trig => (first? == Dimension::ANGLE).then_some(Type::Quantity(Dimension::NUMBER)),
            Shape::Arc => (first? == Dimension::NUMBER).then_some(Type::Quantity(Dimension::ANGLE)),
            Shape::Arc2 => (first? == kinds[1].dimension()?).then_some(Type::Quantity(Dimension::ANGLE)),
            Shape::Distance | Shape::Coordinate => points.then_some(Type::Quantity(Dimension::LENGTH)),
            Shape::Midpoint | Shape::Crossing => points.then_some(Type::Point),
            Shape::Angle => points.then_some(Type::Quantity(Dimension::ANGLE)),
            Shape::Sold => (kinds[0] == Type::Text).then_some(Type::Bool),
            Shape::Choose => (kinds[0] == Type::Bool && kinds[1] == kinds[2]).then_some(kinds[1]),
        }
    }

    /// The result, or `None` where there is none (root of a negative number and the like).
    pub(crate) fn apply(&self, values: &[Value]) -> Option<Value> {
        match self.shape {
            Shape::Choose => match values {
                [Value::Bool(c), a, b] => Some(if *c { a.clone() } else { b.clone() }),
                _ => None,
            },
            Shape::Distance | Shape::Midpoint | Shape::Angle | Shape::Coordinate => self.on_points(values),
            _ => {
                let quantities: Option<Vec<Quantity>> = values.iter().map(Value::quantity).collect();
                self.on_quantities(&quantities?).map(Value::Quantity)
            }
        }
    }

    fn on_points(&self, values: &[Value]) -> Option<Value> {
        let points: Vec<Vec3> =
            values.iter().filter_map(|v| if let Value::Point(p) = v { Some(*p) } else { None }).collect();
        let length = |v: f64| Some(Value::Quantity(Quantity::from_si(v, Dimension::LENGTH)));
        match (self.name, points.as_slice()) {
            ("distance", [a, b]) => length((*b - *a).norm()),
            ("midpoint", [a, b]) => Some(Value::Point(a.mix(*b, 0.5))),
            ("ahead", [p]) => length(p.x),
            ("leftward", [p]) => length(p.y),
            ("height", [p]) => length(p.z),
            ("angle", [a, b, c]) => {
                let (u, v) = ((*a - *b).unit()?, (*c - *b).unit()?);
                let angle = libm::atan2(u.cross(v).norm(), u.dot(v));
                Some(Value::Quantity(Quantity::from_si(angle, Dimension::ANGLE)))
            }
            _ => None,
        }
    }

    fn on_quantities(&self, q: &[Quantity]) -> Option<Quantity> {
        let first = *q.first()?;
        let si = first.si();
        let number = |v: f64| v.is_finite().then(|| Quantity::number(Number::Rounded(v)));
        let angle = |v: f64| v.is_finite().then(|| Quantity::from_si(v, Dimension::ANGLE));
        let pick =
            |wanted: Ordering, a: Quantity, b: Quantity| Some(if b.compare(a)? == wanted { b } else { a });
        match self.name {
            "min" => q[1..].iter().try_fold(first, |a, b| pick(Ordering::Less, a, *b)),
            "max" => q[1..].iter().try_fold(first, |a, b| pick(Ordering::Greater, a, *b)),
            "clamp" => pick(Ordering::Less, pick(Ordering::Greater, first, q[1])?, q[2]),
            "abs" if first.number.compare(Number::ZERO)? == Ordering::Less => {
                Some(Quantity { number: first.number.negate(), ..first })
            }
            "abs" => Some(first),
            "round" | "floor" | "ceil" => {
                let steps = first.number.div(q[1].number)?.to_f64();
                let whole = match self.name {
                    "round" => steps.round(),
                    "floor" => (steps + 1e-9).floor(),
                    _ => (steps - 1e-9).ceil(),
                };
                #[allow(clippy::cast_possible_truncation)]
                (whole.abs() < 1e15)
                    .then(|| Quantity { number: Number::whole(whole as i128).mul(q[1].number), ..first })
            }
            "sqrt" => {
                let dimension = first.dimension.root()?;
                (si >= 0.0)
                    .then(|| Quantity { number: Number::Rounded(first.number.to_f64().sqrt()), dimension })
            }
            "sin" => number(libm::sin(si)),
            "cos" => number(libm::cos(si)),
            "tan" => number(libm::tan(si)),
            "asin" => angle(libm::asin(si)),
            "acos" => angle(libm::acos(si)),
            "atan" => angle(libm::atan(si)),
            "atan2" => angle(libm::atan2(si, q[1].si())),
            _ => None,
        }
    }
}
