//! Literals: numbers with their units, as written.

use crate::value::{Outcome, Silent};
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_quantity::{
    Dimension, Number, Quantity, Unit, UnitError, parse_unit, suggest_unit, unit_names,
};
use chairwright_syntax::{Literal, Part};

/// The quantity of a literal, or what is wrong with it.
pub(crate) fn literal(literal: &Literal, span: Span) -> Result<Quantity, Box<Diagnostic>> {
    let mut total: Option<Quantity> = None;
    let mut last_factor: Option<Number> = None;
    for part in &literal.parts {
        let (number, unit) = read(part)?;
        let several = literal.parts.len() > 1;
        if several && let Some(said) = one_in_so_many(&literal.parts, span) {
            return Err(said);
        }
        if several && unit.dimension != Dimension::LENGTH {
            return Err(bad(span, "only feet and inches are written as one number in two parts", part.span));
        }
        if let Some(before) = last_factor
            && unit.factor.compare(before) != Some(std::cmp::Ordering::Less)
        {
            return Err(bad(span, "the larger unit comes first, and each only once", part.span));
        }
        last_factor = Some(unit.factor);
        let number = number.mul(unit.factor).add(unit.zero);
        let value = Quantity { number, dimension: unit.dimension };
        total = Some(match total {
            None => value,
            Some(sum) => sum.plus(value).map_err(|_| bad(span, "these parts do not add up", part.span))?,
        });
    }
    total.ok_or_else(|| bad(span, "this number is empty", span))
}

/// The quantity of a literal behind a minus: the sign covers every part, and `-20 degC` is a reading
/// below zero.
pub(crate) fn negative(l: &Literal, span: Span) -> Result<Quantity, Box<Diagnostic>> {
    let value = literal(l, span)?;
    if !value.dimension.reading {
        return Ok(Quantity { number: value.number.negate(), ..value });
    }
    let (_, unit) = read(l.parts.first().ok_or_else(|| bad(span, "this number is empty", span))?)?;
    let number = unit.zero.add(unit.zero).sub(value.number);
    Ok(Quantity { number, ..value })
}

/// How far a thermometer reading is above the zero of its unit, as a difference: `6 K` of `6 degC`. Up to a tenth of a kelvin, so
/// that a tolerance is never called narrower.
pub(crate) fn above_zero(l: &Literal, span: Span) -> Option<String> {
    let value = literal(l, span).ok().filter(|v| v.dimension.reading)?;
    let (_, unit) = read(l.parts.first()?).ok()?;
    let kelvin = value.number.sub(unit.zero).to_f64();
    Some(format!("{} K", (kelvin * 10.0 - 1e-6).ceil() / 10.0))
}

/// `1 in 12`, which reads as one inch and 12: a slope, rounded up, so that a ramp is never called flatter.
fn one_in_so_many(parts: &[Part], span: Span) -> Option<Box<Diagnostic>> {
    let [rise, run] = parts else { return None };
    let plain = |p: &Part| p.number.as_ref().filter(|_| p.fraction.is_none())?.parse::<f64>().ok();
    let inch = rise.unit.as_ref().is_some_and(|u| u.text == "in") && run.unit.is_none();
    let at = run.span;
    let (rise, run) = (plain(rise)?, plain(run).filter(|n| *n > 0.0)?);
    inch.then(|| {
        let degrees = crate::bare::degrees(rise / run);
        Box::new(
            Diagnostic::new("bad-fraction", "the parts of this number do not belong together")
                .at(at, "one in so many?")
                .help(format!("a slope of {rise} in {run} is {degrees} deg, rounded up: write that"))
                .edit(span, format!("{degrees} deg")),
        )
    })
}

fn bad(span: Span, why: &str, at: Span) -> Box<Diagnostic> {
    let mut problem =
        Diagnostic::new("bad-fraction", "the parts of this number do not belong together").at(at, why);
    if at != span {
        problem = problem.help("put an operator or a comma between two values");
    }
    Box::new(problem)
}

fn read(part: &Part) -> Result<(Number, Unit), Box<Diagnostic>> {
    let unit = match &part.unit {
        Some(word) => parse_unit(&word.text).map_err(|e| unknown(&e, word.span, &word.text))?,
        None => Unit { dimension: Dimension::NUMBER, factor: Number::ONE, zero: Number::ZERO },
    };
    let whole = match &part.number {
        Some(text) => {
            Number::decimal(text).ok_or_else(|| bad(part.span, "this number is too large", part.span))?
        }
        None => Number::ZERO,
    };
    let Some((over, under)) = &part.fraction else { return Ok((whole, unit)) };
    if unit.dimension != Dimension::LENGTH {
        let why = "a fraction stands directly before a length unit";
        return Err(bad(part.span, why, part.span));
    }
    let fraction = over
        .parse::<i128>()
        .ok()
        .zip(under.parse::<i128>().ok())
        .and_then(|(o, u)| Number::fraction(o, u))
        .ok_or_else(|| bad(part.span, "this fraction has no value", part.span))?;
    Ok((whole.add(fraction), unit))
}

fn unknown(error: &UnitError, span: Span, text: &str) -> Box<Diagnostic> {
    let UnitError::Unknown(name) = error else {
        return Box::new(
            Diagnostic::new("unknown-unit", format!("`{text}` cannot be a unit"))
                .at(span, "this has no meaning"),
        );
    };
    // A unit is short: one wrong letter is likelier than one too few.
    let alike = unit_names().into_iter().filter(|u| u.len() == name.len());
    let meant = suggest_unit(name)
        .or_else(|| crate::suggest::nearest(name, alike))
        .or_else(|| crate::suggest::nearest(name, unit_names()));
    let mut problem =
        Diagnostic::new("unknown-unit", format!("there is no unit `{name}`")).at(span, "not a unit");
    problem = match meant {
        Some(meant) => {
            problem.help(format!("did you mean {meant}?")).edit(span, text.replacen(name.as_str(), meant, 1))
        }
        None => problem.help("lengths are in mm, cm, m, in or ft, masses in kg or lb, angles in deg"),
    };
    Box::new(problem)
}

/// Turns a failed read into silence after reporting it.
pub(crate) fn report<T>(result: Result<T, Box<Diagnostic>>, say: impl FnOnce(Diagnostic)) -> Outcome<T> {
    result.map_err(|problem| {
        say(*problem);
        Silent
    })
}
