//! Units of print, stops, holes, extra loads, the use profile, and where values come from.

use crate::bounds::ends;
use crate::build::{Builder, plain};
use crate::evaluator::Env;
use crate::fields::entry_spec;
use crate::measures::{For, is_range_of_motion};
use crate::reader::Reader;
use crate::schema::Kind;
use crate::scope::{Placed, text_of};
use crate::value::{Outcome, Silent, Value};
use crate::words::{clause, field_of, inner, keyword, says, usual_path, value};
use chairwright_design::{Basis, Dial, Hole, Known, Load, LoadLasts, Profile, Vec3};
use chairwright_diagnostics::Diagnostic;
use chairwright_quantity::{Dimension, Number, Quantity};
use chairwright_syntax::{Entry, Expr, ExprKind};

/// Denominators that inches are divided by on rules and tapes.
const DENOMINATORS: [u32; 6] = [2, 4, 8, 16, 32, 64];
/// Holes that one design may have.
const HOLES: usize = 2_000;
/// Fields of a profile and the figures that they are about.
const MARGINS: [(&str, &str); 4] = [
    ("rear_locked", "tip.rear.locked"),
    ("rear_free", "tip.rear.free"),
    ("forward", "tip.forward.locked"),
    ("side", "tip.side"),
];
/// Two readings of a length, or of an angle, that differ by more than this are not of one measure: metres, and degrees as far as a
/// goniometer errs. Common practice, no source.
const READINGS: f64 = 0.010;
const GONIOMETER: f64 = 5.0;
/// The same of masses: a share of their mean, and in kilograms. Within a day a body weighs so much more or less by food and
/// water, and clothes and shoes make a kilogram even of a child. Common practice, no source.
const SCALE: (f64, f64) = (0.05, 1.0);
/// A value nearer than this share of its step to a step lies on it.
const ON_STEP: f64 = 1e-6;

impl<'a> Builder<'_, 'a> {
    pub(crate) fn units(&mut self, entry: &'a Entry) {
        self.design.inches = entry.subject.as_ref().map(plain).as_deref() == Some("inch");
        let Some(clause) = clause(entry, "to") else { return };
        let step = self.evaluator.quantity(&clause.values[0], &Env::default()).map(Quantity::si);
        let found = DENOMINATORS
            .into_iter()
            .find(|d| step.as_ref().is_ok_and(|s| (s * f64::from(*d) - 0.0254).abs() < 1e-9));
        match found {
            Some(d) if self.design.inches => self.design.fraction = d,
            _ => self.say(
                Diagnostic::new("bad-fraction", "reports cannot print to this step")
                    .at(clause.span, "a part of an inch is wanted")
                    .help("write units inch to 1/16 in; 1/2, 1/4, 1/8, 1/32 and 1/64 do as well"),
            ),
        }
    }

    /// The stops of an adjustable dimension, in words; the value must be one of them.
    pub(crate) fn stops(
        &self,
        entry: &'a Entry,
        now: &Value,
        range: &Option<Value>,
    ) -> Outcome<Option<String>> {
        if keyword(entry) != "adjust" {
            return Ok(None);
        }
        let display = self.display();
        let env = Env::default();
        let now = now.quantity().ok_or(Silent)?;
        if let Some(steps) = clause(entry, "steps") {
            let all: Vec<Quantity> =
                steps.values.iter().map(|s| self.evaluator.quantity(s, &env)).collect::<Outcome<_>>()?;
            if !all.iter().any(|s| (s.si() - now.si()).abs() <= ON_STEP * s.si().abs().max(1e-6)) {
                self.between(entry, now, steps.span, &all);
            }
            let words: Vec<String> = all.iter().map(|s| display.text(*s)).collect();
            return Ok(Some(words.join(", ")));
        }
        let Some(Value::Band { low, high, .. }) = range else { return Ok(None) };
        let slot = format!("{} to {}", display.text(*low), display.text(*high));
        let Some(every) = clause(entry, "every") else { return Ok(Some(slot)) };
        let step = self.evaluator.quantity(&every.values[0], &env)?;
        if step.si() <= 0.0 {
            self.say(
                Diagnostic::new("not-positive", "a step must be more than zero").at(every.span, "zero or less"),
            );
            return Err(Silent);
        }
        let steps = (now.si() - low.si()) / step.si();
        if (steps - steps.round()).abs() > ON_STEP {
            let at = |n: f64| Quantity::from_si(low.si() + n * step.si(), low.dimension);
            self.between(entry, now, every.span, &[at(steps.floor()), at(steps.ceil())]);
        }
        Ok(Some(format!("{slot}, every {}", display.text(step))))
    }

    /// How far a value may be turned, in the unit that the language writes it in.
    pub(crate) fn dial(&self, entry: &'a Entry, now: &Value, range: &Option<Value>) -> Option<Dial> {
        let q = now.quantity().filter(|q| !q.dimension.reading)?;
        let (unit, scale) = plain_unit(q.dimension)?;
        let number = |q: Quantity| q.number.to_f64() / scale;
        let range = match range {
            Some(Value::Band { low, high, .. }) => Some((number(*low), number(*high))),
            _ => None,
        };
        let mut stops = Vec::new();
        if says(&entry.keyword, "adjust") {
            let env = Env::default();
            let value = |e: &Expr| self.evaluator.quantity(e, &env).ok().map(number);
            if let Some(steps) = clause(entry, "steps") {
                stops = steps.values.iter().filter_map(value).collect();
            } else if let (Some((low, high)), Some(step)) =
                (range, clause(entry, "every").and_then(|c| value(&c.values[0])).filter(|s| *s > 0.0))
            {
                let count = ((high - low) / step + ON_STEP).floor().min(200.0);
                stops = (0..=200).map(f64::from).take_while(|k| *k <= count).map(|k| low + k * step).collect();
            }
        }
        Some(Dial { unit: unit.to_owned(), now: number(q), range, stops })
    }

    fn between(&self, entry: &Entry, now: Quantity, steps: chairwright_diagnostics::Span, all: &[Quantity]) {
        let display = self.display();
        let near = all.iter().min_by(|a, b| (a.si() - now.si()).abs().total_cmp(&(b.si() - now.si()).abs()));
        let span = value(entry).map_or(entry.head, |v| v.span);
        let problem = Diagnostic::new("off-step", "this value lies between the steps")
            .at(span, format!("this comes to {}", display.text(now)))
            .also(steps, "the steps");
        self.say(match near {
            Some(near) => problem.help(format!("the nearest step is {}", display.text(*near))),
            None => problem,
        });
    }

    pub(crate) fn offset(&self, entry: &'a Entry, env: &Env) -> Outcome<Vec3> {
        let Some(clause) = clause(entry, "offset") else { return Ok(Vec3::ZERO) };
        clause.values.iter().try_fold(Vec3::ZERO, |sum, v| match self.evaluator.eval(v, env)? {
            Value::Step(step) => Ok(sum + step),
            _ => Err(Silent),
        })
    }

    pub(crate) fn hole(&mut self, placed: &Placed<'a>, env: &Env) -> Outcome<()> {
        let entry = placed.entry;
        let name = self.full(placed)?;
        let on = Self::clause(entry, "on").ok_or(Silent)?;
        let member = self.member_id(&on.values[0], env)?;
        let (m, joints) = (&self.design.members[member], &self.design.joints);
        let length = (joints[m.end].at - joints[m.start].at).norm();
        let from_end = match Self::clause(entry, "from") {
            Some(from) => {
                let id = self.joint_id(&from.values[0], env)?;
                if id != m.start && id != m.end {
                    self.say(
                        Diagnostic::new("wrong-kind", "the distance is counted from an end of the member")
                            .at(from.values[0].span, "this joint is not one of its ends")
                            .help("name the joint that the member runs from or to"),
                    );
                    return Err(Silent);
                }
                id == m.end
            }
            None => false,
        };
        let diameter = self.size(entry, "diameter", env)?;
        let long = match Self::clause(entry, "slotted") {
            Some(_) => self.size(entry, "slotted", env)?.max(diameter),
            None => diameter,
        };
        let at = self.si(entry, "at", env)?.ok_or(Silent)?;
        let toward = self.toward(entry, env)?.ok_or(Silent)?;
        let count = self.count(entry, env)?;
        let every = match Self::clause(entry, "every") {
            Some(_) => self.size(entry, "every", env)?,
            None if count > 1 => {
                self.say(
                    Diagnostic::new("missing-clause", "several holes in one place")
                        .at(entry.head, "no every …")
                        .help("say how far apart: every 20 mm"),
                );
                return Err(Silent);
            }
            None => 0.0,
        };
        if self.design.holes.len() + count as usize > HOLES {
            self.say(
                Diagnostic::new("too-large", "this design comes to too many holes")
                    .at(entry.head, "one too many")
                    .note(format!("the limit is {HOLES}"))
                    .help("leave some of them out"),
            );
            return Err(Silent);
        }
        let origin = self.origin(crate::scope::declared_name(entry).map_or(entry.head, |(_, s)| s));
        for i in 0..count {
            let along = at + f64::from(i) * every;
            let name = if count > 1 { format!("{name}.{}", i + 1) } else { name.to_string() };
            let along = if from_end { length - along } else { along };
            self.design.holes.push(Hole { name, member, along, diameter, long, toward, origin });
        }
        Ok(())
    }

    pub(crate) fn load(&mut self, placed: &Placed<'a>, env: &Env) -> Outcome<()> {
        let entry = placed.entry;
        let name = self.full(placed)?.to_string();
        let at = Self::clause(entry, "at").ok_or(Silent)?;
        let joint = self.joint_id(&at.values[0], env)?;
        let force = self.size(entry, "force", &Env { day: true, ..env.clone() })?;
        let toward = self.toward(entry, env)?.ok_or(Silent)?;
        let word = clause(entry, "lasting").and_then(|c| c.values.first()).map(plain);
        let named = |l: &LoadLasts| word.as_deref() == Some(l.word());
        let lasts = LoadLasts::ALL.into_iter().find(named).unwrap_or(LoadLasts::Short);
        let basis = basis(entry);
        let origin = self.origin(crate::scope::declared_name(entry).map_or(entry.head, |(_, s)| s));
        self.design.loads.push(Load { name, joint, force: toward * force, lasts, basis, origin });
        Ok(())
    }

    pub(crate) fn profile(&mut self, entry: &'a Entry) -> Outcome<()> {
        if !self.evaluator.scope.profile.is_some_and(|p| std::ptr::eq(p, entry)) {
            return Ok(());
        }
        let found = self.evaluator.profile(entry.head)?.ok_or(Silent)?;
        // a profile that somebody reviewed on a day that has not come is refused
        if let Some(written) = field_of(found, "dated") {
            let day = text_of(Some(written));
            self.to_come(written.span, day, ("nobody reviewed a profile", "it was reviewed"));
        }
        let r = Reader { evaluator: self.evaluator, entry: found, spec: entry_spec("profile").ok_or(Silent)? };
        r.possible("profile", &[])?;
        let text = |key: &str| r.text(key).unwrap_or_default();
        let (for_whom, reviewed_by, dated, source) =
            (text("for_whom"), text("reviewed_by"), text("dated"), text("source"));
        let name = r.name().to_owned();
        let margins = MARGINS.iter().filter_map(|(key, figure)| Some((*figure, r.si(key)?))).collect();
        let origin = self.origin(entry.head);
        let anti_tip = r.text("anti_tip").as_deref() == Some("yes");
        let (shock, kerb, helper_push) = (r.si("shock"), r.si("kerb"), r.si("helper_push"));
        self.design.profile = Some(Profile {
            name,
            margins,
            shock,
            kerb,
            helper_push,
            anti_tip,
            for_whom,
            reviewed_by,
            dated,
            source,
            origin,
        });
        Ok(())
    }

    /// Keeps a value with where it comes from. What the text works out from others is left out: its
    /// sources are theirs.
    pub(crate) fn know(&mut self, name: &str, entry: Option<&'a Entry>, now: &Value) {
        // whoever gives another value says where that is from
        let given = self.evaluator.scope.chosen(name);
        let line = given.map_or(entry, |g| g.line);
        let Some(written) = given.map(|g| g.value).or_else(|| entry.and_then(value)) else { return };
        if !is_plain(written) {
            return;
        }
        let ranges = is_motion(name, written, now);
        let (Some(q), spread) = (now.quantity(), spread(now).filter(|_| !ranges)) else { return };
        let Some((unit, scale)) = plain_unit(q.dimension) else { return };
        let number = |q: Quantity| q.number.to_f64() / scale;
        // a reading of the thermometer is written in its own degrees
        let zero = if q.dimension.reading { 273.15 } else { 0.0 };
        let origin = self.origin(written.span);
        let one_reading = line.and_then(|e| e.value.as_ref()).is_none_or(|v| v.len() < 2);
        let said = |word: &str| {
            let own = line.and_then(|e| clause(e, word)).and_then(|c| text_of(c.values.first()));
            own.map(str::to_owned)
        };
        self.design.known.push(Known {
            name: name.to_owned(),
            by_name: true,
            written: self.display().text(q),
            nominal: number(q) - zero,
            spread: spread.map(number),
            ranges,
            toleranced: is_tolerance(written) && one_reading,
            unit: unit.to_owned(),
            basis: line.and_then(basis),
            by: said("by"),
            dated: said("dated"),
            origin,
        });
    }

    /// Readings of one measure should agree: a tape held otherwise reads otherwise. Each reading's own tolerance is no
    /// disagreement.
    fn readings_apart(&self, line: &'a Entry, kind: Kind) {
        let Some(all @ [first, .., last]) = line.value.as_deref() else { return };
        let values: Vec<Value> = all.iter().filter_map(|e| self.evaluator.field_value(e, kind).ok()).collect();
        let motion = is_range_of_motion(line);
        let of = |pick: &dyn Fn(&Value) -> Option<f64>| apart(values.iter().filter_map(pick));
        let far = if motion {
            let end = |v: &Value, high: bool| ends(v).map(|e| if high { e.1 } else { e.0 });
            of(&|v| end(v, false)).max(of(&|v| end(v, true)))
        } else {
            of(&|v| v.quantity().map(Quantity::si))
        };
        let Some(dimension) = values.first().and_then(Value::quantity).map(|q| q.dimension) else { return };
        let least = match dimension {
            Dimension::LENGTH => READINGS,
            Dimension::ANGLE => GONIOMETER.to_radians(),
            Dimension::MASS => {
                let sum: f64 = values.iter().filter_map(Value::quantity).map(Quantity::si).sum();
                (SCALE.0 * sum / f64::from(u32::try_from(values.len()).unwrap_or(u32::MAX))).max(SCALE.1)
            }
            _ => return,
        };
        if far <= least + 1e-9 {
            return;
        }
        let words = self.display().text(Quantity::from_si(far, dimension));
        let used = if motion {
            "only what every reading allows is used"
        } else {
            "their mean is used, and counts as that uncertain"
        };
        self.say(
            Diagnostic::new("readings-apart", format!("readings of `{}` disagree", keyword(line)))
                .at(last.span, format!("{words} apart"))
                .also(first.span, "the first reading")
                .note(used)
                .help("measure again, in the posture of the fitting, and leave out the reading that was wrong"),
        );
    }

    /// The measures of the rider or the conditions, each with the origin of its line or of its block.
    pub(crate) fn know_block(&mut self, base: &'static str, block: &'a Entry) {
        let all = field_of(block, "origin").and_then(word_of).and_then(|w| Basis::from_word(&w));
        let text = |key: &str| field_of(block, key).and_then(|e| text_of(Some(e))).map(str::to_owned);
        let (by, dated) = (text("measured_by"), text("dated"));
        for line in inner(block) {
            let Some(written) = value(line) else { continue };
            let name = format!("{base}.{}", keyword(line));
            let Some((_, list)) = crate::scope::block_fields(base) else { continue };
            let Some(field) = crate::fields::field(list, &keyword(line)) else { continue };
            let from = written.span;
            if let Ok(now) = self.evaluator.block_value((base, &keyword(line)), field, from, For::Day) {
                self.readings_apart(
                    self.evaluator.scope.chosen(&name).and_then(|g| g.line).unwrap_or(line),
                    field.kind,
                );
                let before = self.design.known.len();
                self.know(&name, Some(line), &now);
                if let Some(known) = self.design.known.get_mut(before) {
                    let changed = self.evaluator.scope.chosen(&name).is_some();
                    // a line that says its own origin does not take the block's
                    if !changed && known.basis.is_none() {
                        known.basis = all;
                        known.by = known.by.take().or_else(|| by.clone());
                        known.dated = known.dated.take().or_else(|| dated.clone());
                    }
                }
            }
        }
    }

    /// Keeps what a state, a variant or a fork alone says of the rider or the place, with the line that says it.
    pub(crate) fn know_chosen(&mut self, base: &'static str) {
        let scope = self.evaluator.scope;
        let Some((_, list)) = crate::scope::block_fields(base) else { return };
        for (name, given) in scope.given.iter().chain(&scope.stated) {
            let Some(key) = name.strip_prefix(base).and_then(|rest| rest.strip_prefix('.')) else { continue };
            let Some(field) = crate::fields::field(list, key) else { continue };
            if self.design.known.iter().any(|k| k.name == *name) {
                continue;
            }
            if let Ok(now) = self.evaluator.block_value((base, key), field, given.value.span, For::Day) {
                given.line.into_iter().for_each(|line| self.readings_apart(line, field.kind));
                self.know(name, None, &now);
            }
        }
    }
}

/// How far the furthest two of some numbers are apart.
fn apart(all: impl Iterator<Item = f64>) -> f64 {
    let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)));
    (high - low).max(0.0)
}

fn word_of(expr: &Expr) -> Option<String> {
    match &expr.kind {
        ExprKind::Name(path) => Some(usual_path(path).to_string()),
        _ => None,
    }
}

fn basis(entry: &Entry) -> Option<Basis> {
    clause(entry, "origin").and_then(|c| c.values.first()).and_then(word_of).and_then(|w| Basis::from_word(&w))
}

/// Whether a value is written as a number, with or without a tolerance, rather than worked out.
fn is_plain(expr: &Expr) -> bool {
    match &expr.kind {
        ExprKind::Literal(_) => true,
        ExprKind::Unary(_, v) => is_plain(v),
        ExprKind::Binary(chairwright_syntax::Binary::Tolerance, l, r) => is_plain(l) && is_plain(r),
        ExprKind::Binary(chairwright_syntax::Binary::Range, l, r) => is_plain(l) && is_plain(r),
        _ => false,
    }
}

fn is_tolerance(written: &Expr) -> bool {
    matches!(&written.kind, ExprKind::Binary(chairwright_syntax::Binary::Tolerance, ..))
}

/// Whether a value is how far a joint of the rider moves: an angle from one end to the other, and both are meant.
fn is_motion(name: &str, written: &Expr, now: &Value) -> bool {
    let angle = now.quantity().is_some_and(|q| q.dimension == Dimension::ANGLE);
    let range = matches!(&written.kind, ExprKind::Binary(chairwright_syntax::Binary::Range, ..));
    angle && range && name.starts_with("rider.")
}

/// Whether a value is the same in every variant: a literal, a quoted text, or a word that nothing declares.
pub(crate) fn is_steady(expr: &Expr, scope: &crate::scope::Scope) -> bool {
    match &expr.kind {
        ExprKind::Text(_) => true,
        ExprKind::Name(path) => !path.text().contains('.') && !scope.names.contains_key(&path.text()),
        _ => is_plain(expr),
    }
}

/// Half the width of a band.
fn spread(value: &Value) -> Option<Quantity> {
    match value {
        Value::Band { low, high, .. } => {
            let half = high.number.sub(low.number).div(Number::whole(2))?;
            Some(Quantity { number: half, ..*high })
        }
        _ => None,
    }
}

/// The unit a value is written back in, and how many base units it holds.
pub(crate) fn plain_unit(dimension: Dimension) -> Option<(&'static str, f64)> {
    Some(match dimension {
        Dimension::LENGTH => ("mm", 1e-3),
        Dimension::ANGLE => ("deg", 1.0),
        Dimension::MASS => ("kg", 1.0),
        Dimension::READING => ("degC", 1.0),
        Dimension::INTERVAL => ("K", 1.0),
        Dimension::TIME => ("s", 1.0),
        Dimension::FORCE => ("N", 1.0),
        Dimension::SPEED => ("m/s", 1.0),
        Dimension::STIFFNESS => ("N/mm", 1e3),
        Dimension::MOMENT => ("Nm", 1.0),
        // inside an angle is in degrees
        Dimension::TURNING => ("Nm/rad", std::f64::consts::PI / 180.0),
        Dimension::AREA => ("mm2", 1e-6),
        Dimension::LINEAR_MASS => ("kg/m", 1.0),
        Dimension::AREAL_MASS => ("kg/m2", 1.0),
        Dimension::PRESSURE => ("MPa", 1e6),
        Dimension::DENSITY => ("kg/m3", 1.0),
        Dimension::NUMBER => ("", 1.0),
        _ => return None,
    })
}
