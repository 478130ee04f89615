//! What the rider measures and what the place is: which of several lines says it, and what it comes to.
//!
//! A chair is drawn once. What a state says of the rider or the place is of that day, and tolerances of measures are about a body that
//! the drawing does not know: neither redraws the chair. Demands, the rider's own body and loads go by the day.

use crate::evaluator::{Env, Evaluator};
use crate::fields::Field;
use crate::schema::Kind;
use crate::scope::Given;
use crate::value::{Outcome, Silent, Value};
use crate::words::{keyword, line_of};
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_quantity::{Number, Quantity};
use chairwright_syntax::{Entry, Expr, ExprKind};
use smol_str::format_smolstr;
use std::cmp::Ordering;

const SIDES: [&str; 2] = ["left", "right"];

/// For whom a measure is looked up.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum For {
    /// The drawing, which stays as it is in every state.
    Drawing,
    /// The rider and the place as they are that day.
    Day,
}

/// Who says a field.
#[derive(Clone, Copy)]
pub(crate) enum Said<'a> {
    /// A choice: the command line, a state, a variant, a fork.
    Given(Given<'a>),
    /// A line of the block.
    Line(&'a Entry),
}

impl Said<'_> {
    /// The nearest counts; a line gives way to every choice.
    fn layer(&self) -> u8 {
        match self {
            Said::Given(given) => given.layer,
            Said::Line(_) => u8::MAX,
        }
    }
}

impl<'a> Evaluator<'a> {
    /// Who says exactly this field.
    fn said_by_name(&self, base: &str, key: &str, whom: For) -> Option<Said<'a>> {
        let full = format_smolstr!("{base}.{key}");
        let of_day = self.scope.stated.get(&full).filter(|_| whom == For::Day);
        let chosen = self.scope.given.get(&full).into_iter().chain(of_day).min_by_key(|g| g.layer);
        let block = match base {
            "rider" => self.scope.rider,
            "conditions" => self.scope.conditions,
            _ => None,
        };
        let line = || block.and_then(|b| line_of(b, key)).map(Said::Line);
        chosen.map(|g| Said::Given(*g)).or_else(line)
    }

    /// Who says a field, and whether of this side alone: of one side, whoever says it of the side or of both, the nearest first.
    pub(crate) fn said(&self, base: &str, key: &str, whom: For) -> Option<(Said<'a>, bool)> {
        let whole = SIDES.iter().find_map(|s| key.strip_suffix(s)?.strip_suffix('.'));
        let own = self.said_by_name(base, key, whom).map(|own| (own, whole.is_some()));
        let both = whole.and_then(|whole| self.said_by_name(base, whole, whom)).map(|both| (both, false));
        own.into_iter().chain(both).min_by_key(|(said, _)| said.layer())
    }

    /// Whether one side is told apart from the other.
    pub(crate) fn sided(&self, base: &str, key: &str, whom: For) -> bool {
        let own = |side: &&str| self.said(base, &format!("{key}.{side}"), whom).is_some_and(|(_, own)| own);
        base == "rider" && SIDES.iter().any(own)
    }

    /// The value of one field of the rider's or the conditions' block, or of the profile.
    pub(crate) fn block_value(
        &self,
        (base, key): (&str, &str),
        field: &Field,
        from: Span,
        whom: For,
    ) -> Outcome<Value> {
        let full = format_smolstr!("{base}.{key}");
        if let Some(grown) = self.figures.filter(|_| whom == For::Day).and_then(|f| f.get(full.as_str())) {
            return Ok(Value::Quantity(*grown));
        }
        if base == "profile" {
            let line = self.profile(from)?.and_then(|b| line_of(b, key));
            let line = line.ok_or_else(|| self.untold((base, key), from))?;
            return self.told((base, key), Said::Line(line), field, whom);
        }
        // of two sides the shorter length stands for both; a word or an angle that is said of both is not that of one
        let lengths = matches!(field.kind, Kind::Band(d) if d != chairwright_quantity::Dimension::ANGLE);
        let said = self.said(base, key, whom);
        if self.sided(base, key, whom) && (lengths || said.is_none()) {
            let each = SIDES.iter().filter_map(|side| {
                let key = format!("{key}.{side}");
                let (said, _) = self.said(base, &key, whom)?;
                self.told((base, &key), said, field, whom).ok()
            });
            let shorter = each.reduce(|a, b| match (a.quantity(), b.quantity()) {
                (Some(x), Some(y)) if y.compare(x) == Some(Ordering::Less) => b,
                _ => a,
            });
            return shorter.ok_or(Silent);
        }
        match said {
            Some((said, _)) => self.told((base, key), said, field, whom),
            None => Err(self.untold((base, key), from)),
        }
    }

    fn told(&self, (base, key): (&str, &str), said: Said<'a>, field: &Field, whom: For) -> Outcome<Value> {
        let before = self.still.replace(whom == For::Drawing);
        let (value, place) = match said {
            Said::Given(given) if matches!(field.kind, Kind::Word(_)) => {
                (self.field_value(given.value, field.kind), None)
            }
            Said::Given(Given { line: Some(line), .. }) if line.value.as_ref().is_some_and(|v| v.len() > 1) => {
                (self.readings(line, field.kind), Some(line.head))
            }
            Said::Given(given) => (self.eval(given.value, &Env::on(given.room)), Some(given.value.span)),
            Said::Line(line) => (self.readings(line, field.kind), Some(line.head)),
        };
        self.still.set(before);
        let value = value?;
        if let Some(place) = place {
            self.possible(base, key, &value, place)?;
        }
        Ok(value)
    }

    fn untold(&self, (base, key): (&str, &str), from: Span) -> Silent {
        let (what, block) = match base {
            "rider" => ("the rider's measures do not say", self.scope.rider),
            "profile" => ("the use profile does not say", self.profile(from).ok().flatten()),
            _ => ("the conditions do not say", self.scope.conditions),
        };
        let mut problem = Diagnostic::new("missing-measure", format!("{what} `{key}`"))
            .at(from, "it is needed here")
            .help(match base {
                "rider" => format!("measure the rider and add {key} = … to the rider block"),
                "profile" => format!("add {key} = … to the profile, and have it reviewed"),
                _ => format!("find out and add {key} = … to the conditions block"),
            });
        if let Some(block) = block {
            problem = problem.also(block.head, "this block");
        }
        self.say(problem);
        Silent
    }

    /// The value of a line: of several readings of one measure their mean, as uncertain as they differ.
    pub(crate) fn readings(&self, line: &'a Entry, kind: Kind) -> Outcome<Value> {
        match line.value.as_deref().unwrap_or_default() {
            [one] => self.field_value(one, kind),
            [] => Err(Silent),
            several if is_range_of_motion(line) => self.common(line, several, kind),
            several => self.several(several, kind),
        }
    }

    /// Several readings of one measure: their mean, between the least and the greatest that one of them, with its own
    /// tolerance, leaves open.
    fn several(&self, readings: &'a [Expr], kind: Kind) -> Outcome<Value> {
        use Ordering::{Greater, Less};
        let values: Vec<Value> = readings.iter().map(|r| self.field_value(r, kind)).collect::<Outcome<_>>()?;
        let first = values.first().and_then(Value::quantity).ok_or(Silent)?;
        let (mut low, mut high) = values.first().and_then(quantities).ok_or(Silent)?;
        let mut sum = first.number;
        let mut count = 1;
        for value in &values[1..] {
            let (least, most) = quantities(value).ok_or(Silent)?;
            low = if least.compare(low) == Some(Less) { least } else { low };
            high = if most.compare(high) == Some(Greater) { most } else { high };
            sum = sum.add(value.quantity().ok_or(Silent)?.number);
            count += 1;
        }
        let mean = sum.div(Number::whole(count)).ok_or(Silent)?;
        Ok(Value::Band { nominal: Quantity { number: mean, ..first }, low, high })
    }

    /// Several readings of how far a joint goes: the part that every one of them has, since a joint that was moved there
    /// once too little is not known to go further. Readings that are no ranges are of a joint that does not move.
    fn common(&self, line: &Entry, readings: &'a [Expr], kind: Kind) -> Outcome<Value> {
        use Ordering::{Greater, Less};
        let is_range = |e: &Expr| matches!(e.kind, ExprKind::Binary(chairwright_syntax::Binary::Range, ..));
        if !readings.iter().any(is_range) {
            return self.several(readings, kind);
        }
        let (mut low, mut high): (Option<Quantity>, Option<Quantity>) = (None, None);
        for reading in readings {
            let value = self.field_value(reading, kind)?;
            let (least, most) = quantities(&value).ok_or(Silent)?;
            low = Some(low.filter(|l| least.compare(*l) != Some(Greater)).unwrap_or(least));
            high = Some(high.filter(|h| most.compare(*h) != Some(Less)).unwrap_or(most));
        }
        let (low, high) = low.zip(high).ok_or(Silent)?;
        if low.compare(high) == Some(Greater) {
            self.say(
                Diagnostic::new(
                    "impossible-value",
                    format!("readings of `{}` have no angle in common", keyword(line)),
                )
                .at(line.head, "not used")
                .note("each reading is taken as the whole of the way that the joint goes")
                .help("measure again, and leave out the reading that was wrong"),
            );
            return Err(Silent);
        }
        let mean = low.number.add(high.number).div(Number::whole(2)).ok_or(Silent)?;
        Ok(Value::Band { nominal: Quantity { number: mean, ..low }, low, high })
    }
}

/// Least and greatest of a value.
fn quantities(value: &Value) -> Option<(Quantity, Quantity)> {
    match value {
        Value::Band { low, high, .. } => Some((*low, *high)),
        other => other.quantity().map(|q| (q, q)),
    }
}

/// Whether a line says from where to where a joint of the rider goes.
pub(crate) fn is_range_of_motion(line: &Entry) -> bool {
    let key = keyword(line);
    // a state, a variant or a fork writes the whole name
    let key = key.strip_prefix("rider.").unwrap_or(&key);
    matches!(key.split('.').next(), Some("hip_flexion" | "knee_flexion" | "ankle"))
}
