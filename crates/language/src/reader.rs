//! The fields of one catalogue entry, for whoever builds from it.

use crate::bounds::Shares;
use crate::evaluator::Evaluator;
use crate::fields::{EntrySpec, field};
use crate::scope::text_of;
use crate::value::{Outcome, Silent, Value};
use crate::words::{field_of, line_of};
use chairwright_design::same_name;
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_quantity::Quantity;
use chairwright_syntax::{Entry, Expr};

/// Reads the fields of one catalogue entry; corrections by `measured` come first.
pub(crate) struct Reader<'e, 'a> {
    pub evaluator: &'e Evaluator<'a>,
    pub entry: &'a Entry,
    pub spec: &'static EntrySpec,
}

impl<'a> Reader<'_, 'a> {
    /// The entry's name as written.
    pub(crate) fn name(&self) -> &'a str {
        text_of(self.entry.subject.as_ref()).unwrap_or_default()
    }

    fn measured(&self) -> Option<&'a Entry> {
        let all = &self.evaluator.scope.measured;
        all.iter().copied().find(|m| text_of(m.subject.as_ref()).is_some_and(|t| same_name(t, self.name())))
    }

    fn find(&self, key: &str) -> Option<&'a Expr> {
        self.measured().and_then(|m| field_of(m, key)).or_else(|| field_of(self.entry, key))
    }

    /// Where a field's value is written.
    pub(crate) fn span(&self, key: &str) -> Option<Span> {
        self.find(key).map(|e| e.span)
    }

    /// Whether a builder corrected this field by measuring.
    pub(crate) fn is_measured(&self, key: &str) -> bool {
        self.measured().is_some_and(|m| field_of(m, key).is_some())
    }

    /// Where a field is written: a whole line, which may hold several readings of one measure.
    fn line(&self, key: &str) -> Option<&'a Entry> {
        self.measured().and_then(|m| line_of(m, key)).or_else(|| line_of(self.entry, key))
    }

    pub(crate) fn value(&self, key: &str) -> Option<Value> {
        let kind = field(self.spec.fields, key)?.kind;
        self.evaluator.readings(self.line(key)?, kind).ok()
    }

    /// How often a field was read, if more than once: the least and the greatest reading, in SI units.
    pub(crate) fn read_often(&self, key: &str) -> Option<(usize, chairwright_design::Band)> {
        let count = self.line(key)?.value.as_deref().unwrap_or_default().len();
        (count > 1).then_some((count, self.band(key)?))
    }

    pub(crate) fn quantity(&self, key: &str) -> Option<Quantity> {
        self.value(key)?.quantity()
    }

    pub(crate) fn si(&self, key: &str) -> Option<f64> {
        self.quantity(key).map(Quantity::si)
    }

    pub(crate) fn band(&self, key: &str) -> Option<chairwright_design::Band> {
        match self.value(key)? {
            Value::Band { low, high, .. } => Some(chairwright_design::Band { low: low.si(), high: high.si() }),
            other => other.quantity().map(|q| chairwright_design::Band::point(q.si())),
        }
    }

    pub(crate) fn text(&self, key: &str) -> Option<String> {
        match self.value(key)? {
            Value::Text(text) => Some(text.to_string()),
            _ => None,
        }
    }

    /// Refuses fields whose values cannot be, each in itself or beside another of `within`.
    pub(crate) fn possible(&self, block: &str, within: &[Shares]) -> Outcome<()> {
        let mut good = Ok(());
        let mut refuse = |found: Outcome<()>| good = good.and(found);
        for field in self.spec.fields {
            if let (Some(value), Some(span)) = (self.value(field.key), self.span(field.key)) {
                refuse(self.evaluator.possible(block, field.key, &value, span));
            }
        }
        for (key, beside, least, most, why) in within {
            let (Some(value), Some(span)) = (self.value(key), self.span(key)) else { continue };
            let beside = self.value(beside).and_then(|b| crate::bounds::ends(&b));
            let (Some(by), Some((low, high))) = (beside, crate::bounds::ends(&value)) else { continue };
            let (least, most) = (by.0 * least, by.1 * most);
            if low < least - 1e-9 || high > most + 1e-9 {
                refuse(self.evaluator.impossible(key, &value, (least, most), why, span));
            }
        }
        good
    }

    /// A field that this shape of entry cannot do without, positive; reported when it is not there.
    pub(crate) fn size(&self, key: &str, why: &str) -> Outcome<f64> {
        let Some(value) = self.si(key) else {
            self.lacks(key, why);
            return Err(Silent);
        };
        self.positive(key, value)?;
        Ok(value)
    }

    /// Refuses a size of zero or less.
    pub(crate) fn positive(&self, key: &str, value: f64) -> Outcome<()> {
        if value > 0.0 {
            return Ok(());
        }
        let span = self.find(key).map_or(self.entry.head, |e| e.span);
        self.evaluator.say(
            Diagnostic::new(
                "not-positive",
                format!("the `{key}` of \"{}\" must be more than zero", self.name()),
            )
            .at(span, "zero or less"),
        );
        Err(Silent)
    }

    pub(crate) fn lacks(&self, key: &str, why: &str) {
        self.evaluator.say(
            Diagnostic::new("missing-clause", format!("\"{}\" does not say its `{key}`", self.name()))
                .at(self.entry.head, format!("no {key} = …"))
                .note(why.to_owned())
                .help(format!("measure it and add {key} = …")),
        );
    }
}
