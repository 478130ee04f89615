//! What materials and bonds are asked to bear: read, held to what such figures can be, and told where a page of the
//! builder's own stands in for a shipped one.

use crate::build::Builder;
use crate::fields::entry_spec;
use crate::reader::Reader;
use crate::scope::{fold, text_of};
use crate::value::{Outcome, Value};
use crate::words::field_of;
use chairwright_design::{Allowance, Grade, Values};
use chairwright_diagnostics::Diagnostic;
use chairwright_syntax::{Entry, Expr};

/// Fields that hold a figure at a temperature, in degC.
const HEAT: [f64; 4] = [30.0, 40.0, 50.0, 60.0];
/// Beyond this scatter (standard deviation over mean) the lower 5 % bound of a normal spread loses sense.
const MOST_SCATTER: f64 = 0.5;

/// What a figure of an allowance can be.
#[derive(Clone, Copy)]
enum Range {
    /// More than nothing and no more than all of it.
    Share,
    /// One or more.
    Factor,
    /// From none to half.
    Scatter,
    /// More than nothing.
    Positive,
}

impl Range {
    fn of(key: &str) -> Option<Range> {
        Some(match key {
            "notch" | "safety" => Range::Factor,
            "scatter" => Range::Scatter,
            "stiffness" | "strength" => Range::Positive,
            "creep" => Range::Share,
            k if k.starts_with("grade_") => Range::Positive,
            k if k.starts_with("share_") || k.starts_with("at_") => Range::Share,
            _ => return None,
        })
    }

    fn holds(self, value: f64) -> bool {
        match self {
            Range::Share => value > 0.0 && value <= 1.0,
            Range::Factor => value >= 1.0 && value.is_finite(),
            Range::Scatter => (0.0..=MOST_SCATTER).contains(&value),
            Range::Positive => value > 0.0 && value.is_finite(),
        }
    }

    fn words(self) -> &'static str {
        match self {
            Range::Share => "a share of the strength is more than 0 and no more than 1",
            Range::Factor => "it divides what may be borne: 1 or more",
            Range::Scatter => "standard deviation over mean: from 0 to 0.5",
            Range::Positive => "it must be more than zero",
        }
    }
}

impl<'a> Builder<'_, 'a> {
    pub(crate) fn allowance(&mut self, entry: &'a Entry) -> Outcome<()> {
        let r = self.reader("allowance", entry)?;
        let of = |key: &str| self.figure(&r, key);
        let allowance = Allowance {
            name: r.name().to_owned(),
            family: r.text("family").unwrap_or_default(),
            lasting: of("share_lasting"),
            short: of("share_short"),
            blow: of("share_blow"),
            repeated: of("share_repeated"),
            wet: of("share_wet"),
            shear: of("share_shear"),
            heat: self.heat(&r),
            brittle_below: r.si("brittle_below"),
            creep: of("creep"),
            scatter: of("scatter"),
            pull: of("share_pull"),
            push: of("share_push"),
            low_grade: of("share_low_grade"),
            high_grade: of("share_high_grade"),
            grade: self.grade(&r),
            notch: of("notch"),
            safety: of("safety"),
            stiffness: of("stiffness"),
            strength: of("strength"),
            source: r.text("source").unwrap_or_default(),
        };
        self.design.allowances.push(allowance);
        Ok(())
    }

    /// A figure within what it can be; one that cannot be so is said and left out, so that nothing passes by it.
    fn figure(&self, r: &Reader<'_, 'a>, key: &str) -> Option<f64> {
        let value = r.si(key)?;
        let range = Range::of(key)?;
        if range.holds(value) {
            return Some(value);
        }
        self.outside(r, key, format!("{value} cannot be"), range.words());
        None
    }

    /// Design values of a grade: all of them or none.
    fn grade(&self, r: &Reader<'_, 'a>) -> Option<Grade> {
        const ALL: [&str; 5] = ["grade_bending", "grade_pull", "grade_push", "grade_shear", "grade_modulus"];
        if ALL.iter().all(|key| r.span(key).is_none()) {
            return None;
        }
        for key in ALL.iter().filter(|key| r.span(key).is_none()) {
            r.lacks(key, "a grade is judged in bending, pull, push and shear, each by its own value");
        }
        let [bending, pull, push, shear, modulus] = ALL.map(|key| self.figure(r, key));
        let values = self.meant(r)?;
        Some(Grade { values, bending: bending?, pull: pull?, push: push?, shear: shear?, modulus: modulus? })
    }

    /// How the values of a grade are meant. What the code says of time and water is of solid wood alone: of anything else a
    /// grade of characteristic values is left out.
    fn meant(&self, r: &Reader<'_, 'a>) -> Option<Values> {
        if r.text("grade_values").is_none_or(|word| word == "design") {
            return Some(Values::Design);
        }
        if r.text("family").is_some_and(|family| family == "wood") {
            return Some(Values::Characteristic);
        }
        let why = "Eurocode 5 has factors of its own for every kind of panel, and only those of solid wood stand here: give design values instead";
        self.outside(
            r,
            "grade_values",
            "characteristic values are read of family = wood alone".to_owned(),
            why,
        );
        None
    }

    /// What heat leaves, by rising temperature: it never gives strength back.
    fn heat(&self, r: &Reader<'_, 'a>) -> Vec<(f64, f64)> {
        let mut points: Vec<(f64, f64)> = Vec::new();
        for degrees in HEAT {
            let key = format!("at_{degrees:.0}_degC");
            let Some(share) = self.figure(r, &key) else { continue };
            if points.last().is_some_and(|p| share > p.1) {
                let why =
                    "heat gives no strength back: each share is no more than that of the lower temperature";
                self.outside(r, &key, "more than at a lower temperature".to_owned(), why);
                break;
            }
            points.push((degrees + 273.15, share));
        }
        points
    }

    fn outside(&self, r: &Reader<'_, 'a>, key: &str, label: String, why: &str) {
        let span = r.span(key).unwrap_or(r.entry.head);
        self.say(
            Diagnostic::new(
                "allowance-range",
                format!("the `{key}` of \"{}\" cannot be what it says", r.name()),
            )
            .at(span, label)
            .note(why.to_owned())
            .help("it is left out until it is mended: look the figure up again, and give its source"),
        );
    }

    /// Says which shipped allowances the builder's own words stand in for, with the figures that differ and their
    /// source: nothing that a verdict rests on changes unseen.
    pub(crate) fn replaced(&self) {
        let scope = self.evaluator.scope;
        for (own, shipped) in &scope.replaced {
            self.tell_replaced(own, shipped, true);
        }
        for own in &scope.measured {
            let name = text_of(own.subject.as_ref()).unwrap_or_default();
            if let Some(entry) = scope.entries.get(&("allowance", fold(name)))
                && !scope.own_entries.iter().any(|(_, e)| std::ptr::eq(*e, *entry))
            {
                self.tell_replaced(own, entry, false);
            }
        }
    }

    fn tell_replaced(&self, own: &'a Entry, shipped: &'a Entry, whole: bool) {
        let name = text_of(shipped.subject.as_ref()).unwrap_or_default();
        let what =
            if whole { "is replaced by an entry of the design's own" } else { "is corrected by the design" };
        let changed = self.changed(own, shipped, whole);
        let changed = if changed.is_empty() { "no figure differs".to_owned() } else { changed.join(", ") };
        let source = field_of(own, "source").and_then(|e| text_of(Some(e))).unwrap_or("none");
        self.assume(format!("the shipped allowance \"{name}\" {what}: {changed}; its source: {source}"));
    }

    /// Figures of one that are not those of the other, as `safety 2 to 1.5`. What a whole entry leaves out is gone.
    fn changed(&self, own: &'a Entry, shipped: &'a Entry, whole: bool) -> Vec<String> {
        let Some(spec) = entry_spec("allowance") else { return Vec::new() };
        let display = self.display();
        let of = |expr: Option<&'a Expr>, kind| {
            let value = self.evaluator.field_value(expr?, kind).ok()?;
            Some(match &value {
                Value::Text(text) => text.to_string(),
                other => display.text(other.quantity()?),
            })
        };
        let one = |f: &crate::fields::Field| {
            if matches!(f.key, "note" | "source" | "origin") {
                return None;
            }
            let (new, old) = (of(field_of(own, f.key), f.kind), of(field_of(shipped, f.key), f.kind));
            if new == old || (new.is_none() && !whole) {
                return None;
            }
            let none = || "none".to_owned();
            Some(format!("{} {} to {}", f.key, old.unwrap_or_else(none), new.unwrap_or_else(none)))
        };
        spec.fields.iter().filter_map(one).collect()
    }
}
