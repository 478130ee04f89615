//! The rider and what rides along, the place, and the tables about both.

use crate::build::{Builder, plain};
use crate::evaluator::Env;
use crate::fields::{CONDITIONS, GROUNDS, RIDER};
use crate::measures::{For, Said};
use crate::schema::Kind;
use crate::scope::{Placed, text_of};
use crate::value::{Outcome, Silent, Value};
use crate::words::{clause, inner, says};
use chairwright_design::{Carried, Deviation, FitRules, Segment};
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_quantity::Dimension;
use chairwright_syntax::Entry;

/// Rules whose value is a least or greatest only are stored as a range of one point.
const RULES: [&str; 8] = [
    "seat_width_beyond_hips",
    "seat_depth_short_of_thigh",
    "footrest_clearance",
    "back_below_axilla",
    "back_below_scapula",
    "side_below_axilla",
    "arm_above_elbow",
    "elbow_angle",
];
/// Figures that a fit rule is about, and that a deviation may name.
const DEVIATIONS: [&str; 10] = [
    "seat.width",
    "seat.depth",
    "footrest.clearance",
    "footrest.drop",
    "back.height",
    "reach.elbow",
    "fit.arm.above.elbow",
    "fit.arms.between",
    "fit.hips.between",
    "fit.side.top",
];

impl<'a> Builder<'_, 'a> {
    pub(crate) fn people_and_place(&mut self) {
        let scope = self.evaluator.scope;
        // a rider may be told of by a state alone
        if let Some(from) = scope.rider.map(|b| b.keyword.span).or_else(|| scope.chosen_of("rider")) {
            self.design.rider.given = true;
            self.design.rider.origin = Some(self.origin(from));
            self.measures(scope.rider.map_or(from, |b| b.head));
            self.both_stated();
        }
        if let Some(block) = scope.rider {
            self.know_block("rider", block);
        }
        self.know_chosen("rider");
        self.conditions();
        if let Some(block) = scope.conditions {
            self.know_block("conditions", block);
        }
        self.know_chosen("conditions");
    }

    pub(crate) fn plain_tables(&mut self) {
        for ((keyword, _), entry) in &self.evaluator.scope.entries {
            let _ = match *keyword {
                "segment" => self.segment(entry),
                "surface" => self.surface(entry),
                "allowance" => self.allowance(entry),
                _ => Ok(()),
            };
        }
    }

    fn measures(&mut self, from: Span) {
        let by = |said: Option<(Said<'_>, bool)>| match said {
            Some((Said::Given(given), _)) => Some(given.by),
            _ => None,
        };
        let evaluator = self.evaluator;
        let said = |key: &str| evaluator.said("rider", key, For::Day);
        let after = by(said("after"));
        for field in RIDER {
            let apart = evaluator.sided("rider", field.key, For::Day);
            // of two sides the shorter length stands for both; a word or an angle of one side says nothing of the other
            let shared = matches!(field.kind, Kind::Band(d) if d != Dimension::ANGLE);
            let sides = ["left", "right"].map(|side| format!("{}.{side}", field.key));
            let whole = (said(field.key).is_some() || (apart && shared)).then(|| field.key.to_owned());
            let sided = sides.into_iter().filter(|key| apart && said(key).is_some());
            for key in whole.into_iter().chain(sided) {
                if after.is_some() && by(said(&key)) == after {
                    self.design.rider.stated.insert(key.clone());
                }
                let value = evaluator.block_value(("rider", &key), field, from, For::Day);
                if let Ok(value) = value {
                    self.measure(from, key, &value);
                }
            }
        }
    }

    /// Of two sides that are both of the later day the shorter is, too.
    fn both_stated(&mut self) {
        let stated = &mut self.design.rider.stated;
        let left: Vec<String> =
            stated.iter().filter_map(|k| k.strip_suffix(".left")).map(str::to_owned).collect();
        let both: Vec<String> = left.into_iter().filter(|k| stated.contains(&format!("{k}.right"))).collect();
        stated.extend(both);
    }

    fn measure(&mut self, from: Span, key: String, value: &Value) {
        if let Value::Text(word) = value {
            self.design.rider.words.insert(key, word.to_string());
            return;
        }
        let Some(q) = value.quantity() else { return };
        let measures = &mut self.design.rider.measures;
        if q.dimension == Dimension::ANGLE {
            // an angle may well be zero or less, and a range of angles is meant by its ends
            let (low, high) = match value {
                Value::Band { low, high, .. } => (low.si(), high.si()),
                _ => (q.si(), q.si()),
            };
            measures.insert(format!("{key}.least"), low);
            measures.insert(format!("{key}.most"), high);
        } else if !key.starts_with("after") && !self.positive_measure(from, &key, q.si()) {
            return;
        }
        self.design.rider.measures.insert(key, q.si());
    }

    /// Whether a measure is more than nothing; what is not is said and not used.
    fn positive_measure(&self, from: Span, key: &str, value: f64) -> bool {
        // nothing is no size either, but nobody need grow or push
        if value > 0.0 || (value >= 0.0 && crate::bounds::bound("rider", key).is_some()) {
            return true;
        }
        let rider = self.evaluator.scope.rider;
        let line = rider.into_iter().flat_map(inner).find(|e| says(&e.keyword, key));
        self.say(
            Diagnostic::new("not-positive", format!("the rider's `{key}` must be more than zero"))
                .at(line.map_or(from, |e| e.head), "zero or less, and not used"),
        );
        false
    }

    fn conditions(&mut self) {
        let scope = self.evaluator.scope;
        // a place may be told of by a state alone
        let Some(from) = scope.conditions.map(|b| b.head).or_else(|| scope.chosen_of("conditions")) else {
            return;
        };
        for field in CONDITIONS {
            if field.key == "route" {
                GROUNDS.iter().for_each(|ground| self.condition(from, field, &format!("route.{ground}")));
            }
            self.condition(from, field, field.key);
        }
    }

    fn condition(&mut self, from: Span, field: &crate::fields::Field, key: &str) {
        if self.evaluator.said("conditions", key, For::Day).is_none() {
            return;
        }
        match self.evaluator.block_value(("conditions", key), field, from, For::Day) {
            Ok(Value::Text(word)) => {
                self.design.conditions.words.insert(key.to_owned(), word.to_string());
            }
            Ok(value) => {
                let quantities = &mut self.design.conditions.quantities;
                if let Value::Band { low, high, .. } = &value {
                    quantities.insert(format!("{key}.least"), low.si());
                    quantities.insert(format!("{key}.most"), high.si());
                }
                if let Some(q) = value.quantity() {
                    quantities.insert(key.to_owned(), q.si());
                }
            }
            Err(_) => {}
        }
    }

    fn surface(&mut self, entry: &'a Entry) -> Outcome<()> {
        let r = self.reader("surface", entry)?;
        let rolling = r.band("rolling").ok_or(Silent)?;
        self.design.surfaces.push(chairwright_design::Surface {
            name: r.name().to_owned(),
            rolling: (rolling.low, rolling.high),
            friction: r.si("friction").ok_or(Silent)?,
            source: r.text("source").unwrap_or_default(),
        });
        Ok(())
    }

    fn segment(&mut self, entry: &'a Entry) -> Outcome<()> {
        let r = self.reader("segment", entry)?;
        let segment = Segment {
            name: r.name().to_owned(),
            share: r.si("share").ok_or(Silent)?,
            centre: r.si("centre").ok_or(Silent)?,
            of_stature: r.si("length").unwrap_or(0.0),
            source: r.text("source").unwrap_or_default(),
        };
        self.design.body.segments.push(segment);
        Ok(())
    }

    pub(crate) fn fit_rules(&mut self, entry: &'a Entry) -> Outcome<()> {
        if !self.evaluator.scope.fit_rules.is_some_and(|p| std::ptr::eq(p, entry)) {
            return Ok(());
        }
        let name = text_of(entry.subject.as_ref()).ok_or(Silent)?;
        let found = self.evaluator.find_entry("fit_rules", name, entry.head)?;
        let r = self.reader("fit_rules", found)?;
        let rules = RULES
            .iter()
            .filter_map(|key| r.band(key).map(|band| ((*key).to_owned(), (band.low, band.high))))
            .collect();
        let text = |key: &str| r.text(key).unwrap_or_default();
        let (name, dated, source) = (r.name().to_owned(), text("dated"), text("source"));
        let origin = self.origin(entry.head);
        self.design.fit_rules = Some(FitRules { name, rules, dated, source, origin });
        Ok(())
    }

    pub(crate) fn deviation(&mut self, entry: &'a Entry) -> Outcome<()> {
        let figure = entry.subject.as_ref().map(plain).ok_or(Silent)?;
        if !DEVIATIONS.contains(&figure.as_str()) {
            let problem = Diagnostic::new("unknown-name", format!("no fit rule is about `{figure}`"))
                .at(entry.subject.as_ref().map_or(entry.head, |s| s.span), "not a figure of fit");
            self.say(match crate::suggest::nearest(&figure, DEVIATIONS) {
                Some(meant) => problem.help(format!("did you mean {meant}?")),
                None => problem.help(format!("it is one of {}", DEVIATIONS.join(", "))),
            });
            return Err(Silent);
        }
        let text = |word: &str| clause(entry, word).and_then(|c| text_of(c.values.first())).map(str::to_owned);
        let (reason, by) = (text("because").ok_or(Silent)?, text("by").ok_or(Silent)?);
        for (word, said, want) in [("because", &reason, "why the rule is left"), ("by", &by, "who left it")] {
            let Some(given) = clause(entry, word).and_then(|c| c.values.first()) else { continue };
            if said.trim().is_empty() {
                let headline = format!("the `{word}` of this deviation says nothing");
                let problem = Diagnostic::new("missing-clause", headline).at(given.span, "empty");
                self.say(problem.help(format!("say in words {want}: {word} \"…\"")));
                return Err(Silent);
            }
        }
        let dated = text("dated");
        self.agreed_later(entry, dated.as_deref());
        let origin = self.origin(entry.head);
        self.design.deviations.push(Deviation { figure, reason, by, dated, origin });
        Ok(())
    }

    /// Refuses a reason of a day that has not come.
    fn agreed_later(&self, entry: &'a Entry, dated: Option<&str>) {
        let Some(given) = clause(entry, "dated") else { return };
        self.to_come(given.span, dated, ("nobody left a rule", "it was agreed"));
    }

    /// Refuses a day that has not come, with what nobody did on it yet and what day is asked for.
    pub(crate) fn to_come(&self, at: Span, dated: Option<&str>, (nobody, when): (&str, &str)) {
        let (Some(day), Some(today)) = (dated, self.evaluator.today) else { return };
        if !crate::date::is_after(day, today) {
            return;
        }
        self.say(
            Diagnostic::new("bad-date", format!("{nobody} on {day} yet"))
                .at(at, "this day has not come")
                .note(format!("today is {today} at most, anywhere on earth, by the clock of this machine"))
                .help(format!("write the day on which {when}; where the clock is wrong, set it")),
        );
    }

    pub(crate) fn carry(&mut self, placed: &Placed<'a>, env: &Env) -> Outcome<()> {
        let entry = placed.entry;
        let name = self.full(placed)?.to_string();
        let value = Self::value(entry)?;
        // what rides along, and where, is of the day
        let env = &Env { day: true, ..env.clone() };
        if self.evaluator.infer(value, env) == crate::value::Type::Bad {
            return Err(Silent);
        }
        let weight = self.evaluator.eval(value, env)?;
        let mass = weight.quantity().ok_or(Silent)?;
        let span = crate::scope::declared_name(entry).map_or(entry.head, |(_, s)| s);
        if mass.si() <= 0.0 {
            let problem = Diagnostic::new("not-positive", format!("`{name}` must weigh more than nothing"));
            self.say(problem.at(value.span, "zero or less"));
            return Err(Silent);
        }
        let at = self.place_near(entry, &name, env)?;
        let origin = self.origin(span);
        let before = self.design.known.len();
        self.know(&name, Some(entry), &weight);
        // what rides along has no value that a name could change
        if let Some(known) = self.design.known.get_mut(before) {
            known.by_name = false;
        }
        self.design.carried.push(Carried { name, mass: mass.si(), at, origin });
        Ok(())
    }
}
