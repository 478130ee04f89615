//! What was measured and tried on the built chair, and what a tape says of a chair that the rider likes.

use crate::build::Builder;
use crate::fields::{AS_BUILT, BASELINE, Field, field};
use crate::value::{Outcome, Value};
use crate::words::{field_of, inner, keyword, says};
use chairwright_design::{AsBuilt, Band, Baseline};
use chairwright_diagnostics::Diagnostic;
use chairwright_quantity::{Display, Quantity};
use chairwright_syntax::Entry;
use std::collections::BTreeMap;

/// Least and greatest that a tape, a scale or a level can have shown of a wheelchair, by field, in SI units. They
/// only refuse slips of the pen: limits of the trade stand in the test sheet. Common practice, no source.
fn believable(key: &str) -> (f64, f64) {
    let deg = |d: f64| d.to_radians();
    match key {
        "width" | "length" | "seat_front" | "seat_rear" => (0.05, 3.0),
        "axle_left" | "axle_right" => (-0.5, 1.0),
        "rock" | "sag" | "load_set" | "night_set" => (0.0, 0.5),
        "coast_drift" => (0.0, 5.0),
        "edge_height" | "drop_height" => (0.0, 1.0),
        "flutter_speed" => (0.0, 10.0),
        "toe_left" | "toe_right" | "camber_left" | "camber_right" => (deg(-20.0), deg(20.0)),
        "mass" | "system_mass" => (0.5, 600.0),
        k if k.starts_with("load_") || k.ends_with("_sand") => (0.0, 600.0),
        "brake_back" | "brake_forward" => (0.0, 5_000.0),
        // slopes that tip it
        _ => (0.0, deg(60.0)),
    }
}

/// A text of a block.
fn said(entry: &Entry, key: &str) -> Option<String> {
    field_of(entry, key).and_then(|e| crate::scope::text_of(Some(e))).map(str::to_owned)
}

/// Least and greatest of a reading, in SI units.
fn band_of(value: &Value) -> Option<Band> {
    match value {
        Value::Band { low, high, .. } => Some(Band { low: low.si(), high: high.si() }),
        other => other.quantity().map(|q| Band::point(q.si())),
    }
}

impl<'a> Builder<'_, 'a> {
    pub(crate) fn as_built(&mut self, entry: &'a Entry) -> Outcome<()> {
        if !self.evaluator.scope.as_built.is_some_and(|p| std::ptr::eq(p, entry)) {
            return Ok(());
        }
        let text = |key: &str| said(entry, key);
        self.not_yet(entry);
        let mut built = AsBuilt {
            variant: text("of_variant"),
            revision: text("of_revision"),
            rider: text("of_rider"),
            place: text("of_place"),
            by: text("measured_by"),
            dated: text("dated"),
            origin: self.origin(entry.keyword.span),
            ..AsBuilt::default()
        };
        for line in inner(entry) {
            let key = keyword(line);
            if let Some(field) = field(AS_BUILT, &key) {
                self.reading(line, field, &mut built);
            }
        }
        self.design.as_built = Some(built);
        Ok(())
    }

    /// Refuses results of a day that has not come.
    fn not_yet(&self, entry: &'a Entry) {
        let Some(line) = inner(entry).find(|l| says(&l.keyword, "dated")) else { return };
        let day = said(entry, "dated");
        self.to_come(line.head, day.as_deref(), ("nothing was measured", "the chair was measured"));
    }

    /// A chair that the rider likes.
    pub(crate) fn baseline(&mut self, entry: &'a Entry) -> Outcome<()> {
        if !self.evaluator.scope.baseline.is_some_and(|p| std::ptr::eq(p, entry)) {
            return Ok(());
        }
        let text = |key: &str| said(entry, key);
        self.not_yet(entry);
        let mut liked = Baseline {
            chair: text("chair").unwrap_or_default(),
            values: BTreeMap::new(),
            by: text("measured_by"),
            dated: text("dated"),
            origin: self.origin(entry.keyword.span),
        };
        for line in inner(entry) {
            let key = keyword(line);
            let Some(field) = field(BASELINE, &key) else { continue };
            let Ok(value) = self.evaluator.readings(line, field.kind) else { continue };
            if self.evaluator.possible("baseline", field.key, &value, line.head).is_err() {
                continue;
            }
            if let Some(band) = band_of(&value) {
                liked.values.insert(field.key.to_owned(), band);
            }
        }
        self.design.baseline = Some(liked);
        Ok(())
    }

    /// One line of the block; what cannot be believed is refused and stays missing.
    fn reading(&mut self, line: &'a Entry, field: &Field, built: &mut AsBuilt) {
        let Ok(value) = self.evaluator.readings(line, field.kind) else { return };
        let key = field.key;
        let origin = self.origin(line.keyword.span);
        let band = match &value {
            Value::Text(word) => {
                // other texts say who, when and what
                let passed = match word.as_str() {
                    "passed" => true,
                    "failed" => false,
                    _ => return,
                };
                if key.ends_with("_test") {
                    built.passed.insert(key.to_owned(), passed);
                    built.places.insert(key.to_owned(), origin);
                }
                return;
            }
            other => match band_of(other) {
                Some(band) => band,
                None => return,
            },
        };
        let (least, most) = believable(key);
        let good = band.low.is_finite() && band.high.is_finite() && band.low <= band.high;
        if !good || band.low < least - 1e-12 || band.high > most + 1e-12 {
            return self.refuse_reading(line, key, &value, (least, most));
        }
        built.values.insert(key.to_owned(), band);
        built.places.insert(key.to_owned(), origin);
    }

    fn refuse_reading(&self, line: &Entry, key: &str, value: &Value, (least, most): (f64, f64)) {
        let dimension = value.quantity().map(|q| q.dimension);
        let text =
            |si: f64| dimension.map_or(String::new(), |d| Display::Metric.text(Quantity::from_si(si, d)));
        self.say(
            Diagnostic::new("bad-reading", format!("no built chair has this `{key}`"))
                .at(line.head, "cannot be believed, and is not used")
                .note(format!(
                    "a reading of it, with its tolerance, lies between {} and {}",
                    text(least),
                    text(most)
                ))
                .help("read it again and look at the sign and the unit; until then the chair is held"),
        );
    }
}
