//! Which of the values that are not certain move the results most: each is shifted by its tolerance and
//! the design worked out again; then several together, where each alone leaves room.

mod doubts;
mod guesses;
mod news;
mod together;
mod watch;
mod wet;

pub(crate) use doubts::{CODE, doubts};
pub(crate) use news::OF_THE_TEXT;
pub use news::Raised;
pub(crate) use watch::{Watch, watched};
pub(crate) use wet::{is_told_wet, may_get_wet};

use crate::{Compilation, Options, Project, StrengthWanted};
use chairwright_checks::Assumed;
use chairwright_design::{Basis, Known};
use chairwright_diagnostics::{Severity, Span};
use chairwright_language::{Nudge, Verdict};
use chairwright_quantity::Quantity;
use news::news;
use std::collections::BTreeSet;
pub use together::Together;
use watch::{By, soft};

/// How far an estimate is shifted that states no tolerance, as a share of its value.
pub const ESTIMATE: f64 = 0.05;
/// Values that are shifted for one report.
const VALUES: usize = 60;

/// How far a measure of the rider is shifted that states no tolerance: a tape to the least that two readings may differ either
/// way without a word, a scale, a goniometer. Common practice, no source.
pub const TAPE: (f64, f64, f64) = (5.0, 1.0, 5.0);

/// What one value does to one demand, rule, margin or figure.
#[derive(Clone, Debug)]
pub struct Effect {
    /// The figure.
    pub figure: String,
    /// By how much it moves against what is asked of it.
    pub change: Quantity,
    /// The room between it and what is asked of it, where something is.
    pub margin: Option<Quantity>,
    /// How much of the margin that uses up; 1 uses it up.
    pub weight: f64,
    /// Whether it is asked for by the fit or the place, which whoever fits the chair decides, and not by the design or its
    /// use profile.
    pub soft: bool,
}

/// Who says how far a value may be off, the surest first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Off {
    /// The text.
    Said,
    /// Nobody measured it: stature stands for it, and people of one stature differ by so much.
    Guessed,
    /// Nobody: a usual error, tried one way.
    Usual,
}

impl Off {
    /// Whether what hangs on the value is in doubt; a usual error is only ranked.
    #[must_use]
    pub fn counts(self) -> bool {
        self != Off::Usual
    }
}

/// One uncertain value.
#[derive(Clone, Debug)]
pub struct Influence {
    /// The value.
    pub known: Known,
    /// By how much it was shifted either way, in the value's own unit.
    pub shift: f64,
    /// Who says so.
    pub off: Off,
    /// All that it moves, the most of its margin first.
    pub effects: Vec<Effect>,
    /// How much of a margin it can use up; 1 uses it up.
    pub weight: f64,
    /// Findings that stand in the design at one of its ends and not as it is, the gravest first.
    pub raises: Vec<Raised>,
    /// Demands, by their place among the verdicts, that hang on it alone.
    pub demands: BTreeSet<usize>,
}

impl Influence {
    /// What it moves most.
    #[must_use]
    pub fn effect(&self) -> Option<&Effect> {
        self.effects.first()
    }

    /// What it puts in doubt: what is asked of a figure by the design or its use profile.
    pub(crate) fn spent(&self) -> impl Iterator<Item = &Effect> {
        let used = |e: &&Effect| !e.soft && e.weight >= 1.0 && e.margin.is_some();
        self.effects.iter().filter(move |_| self.off.counts()).filter(used)
    }

    /// Whether it is so uncertain that this uses up all the room of a figure.
    #[must_use]
    pub fn uses_up(&self, figure: &str) -> bool {
        self.spent().any(|e| e.figure == figure)
    }
}

/// One uncertain value tried at its ends.
struct Trial {
    influence: Influence,
    place: Option<Span>,
    /// By how much each thing that is watched moves, at the upper end and at the lower.
    moved: Vec<[f64; 2]>,
}

/// The shift to try, if the value is uncertain, and who says so.
fn shift(known: &Known) -> Option<(f64, Off)> {
    match (known.spread, known.basis) {
        _ if known.ranges => None,
        (Some(spread), _) if spread > 0.0 => Some((spread, Off::Said)),
        (_, Some(Basis::Estimate)) => Some(((known.nominal * ESTIMATE).abs(), Off::Said)).filter(|s| s.0 > 0.0),
        _ if known.name.starts_with("rider.") => match known.unit.as_str() {
            "mm" => Some((TAPE.0, Off::Usual)),
            "kg" => Some((TAPE.1, Off::Usual)),
            "deg" => Some((TAPE.2, Off::Usual)),
            _ => None,
        },
        _ => None,
    }
}

/// A value that is uncertain: where it stands, how far it is shifted either way, and who says so.
pub(crate) struct Uncertain {
    pub known: Known,
    pub place: Option<Span>,
    pub shift: f64,
    pub off: Off,
}

/// A value that is tried, by how much it is shifted, and who says that it is so uncertain.
type Tried = (Known, (f64, Off));

/// What the text says that is uncertain, and the measures of the rider that stature stands for.
fn values(c: &Compilation) -> Vec<Tried> {
    let stature = c.design.known.iter().find(|k| k.name == "rider.stature");
    let guessed = |a: &Assumed| {
        let Assumed::Estimate { measure, value, spread, .. } = a else { return None };
        let (nominal, spread) = (value * 1e3, spread * 1e3);
        let known = Known {
            name: format!("rider.{measure}"),
            written: format!("{nominal:.0} mm"),
            nominal,
            spread: Some(spread),
            ranges: false,
            unit: "mm".to_owned(),
            basis: Some(Basis::Estimate),
            by: None,
            dated: None,
            ..stature?.clone()
        };
        (spread > 0.0).then_some((known, (spread, Off::Guessed)))
    };
    let said = c.design.known.iter().filter_map(|k| Some((k.clone(), shift(k)?)));
    said.chain(c.checked.assumptions.iter().filter_map(guessed)).collect()
}

/// All of a design's values whose uncertainty somebody vouches for: the text, or stature for want of a measure.
pub(crate) fn uncertain(c: &Compilation, by: Off) -> Vec<Uncertain> {
    let of = values(c).into_iter().filter(|(_, (_, off))| *off == by);
    let all = of.map(|(known, (shift, off))| {
        let place = c.origins.get(known.origin.0 as usize).copied();
        Uncertain { known, place, shift, off }
    });
    all.take(VALUES).collect()
}

/// Whether a value may bear on what holds; of a measure of the rider or the place the figures are enough.
fn is_heavy(known: &Known) -> bool {
    let measure = known.name.starts_with("rider.") || known.name.starts_with("conditions.");
    !measure || known.unit == "kg"
}

/// Whether a demand is unmet, or nobody can tell.
fn is_unmet(v: &Verdict) -> bool {
    v.holds != Some(true)
}

/// A value at one of its ends, in words; of a guess whole millimetres.
fn at_end(known: &Known, (shift, off): (f64, Off), up: bool) -> String {
    let end = if up { known.nominal + shift } else { known.nominal - shift };
    if off == Off::Guessed {
        return format!("{end:.0} {}", known.unit);
    }
    let number = format!("{end:.3}");
    format!("{} {}", number.trim_end_matches('0').trim_end_matches('.'), known.unit).trim().to_owned()
}

impl Project {
    /// Adds the findings about values that are uncertain by the text, or for want of a measure, however much room is left: what that
    /// uses up of it, and which errors it brings, only trying tells.
    pub(crate) fn doubt(&mut self, options: &Options, c: &mut Compilation, most: Off) -> Vec<(Watch, f64)> {
        let mut reach = Vec::new();
        if !c.design.unridden && values(c).iter().any(|(_, by)| by.1 <= most) {
            reach = self.shifted(options, c, most);
        }
        let mut found = doubts(c);
        found.extend(self.if_wet(options, c));
        self.take_in(options, c, found);
        reach
    }

    /// Every uncertain value with what it moves, the most influential first: those whose tolerance the text says, and the
    /// measures of the rider by the usual error of a tape.
    pub(crate) fn influences(&mut self, options: &Options, c: &mut Compilation) {
        self.shifted(options, c, Off::Usual);
        let mut found = doubts(c);
        found.extend(self.if_wet(options, c));
        self.take_in(options, c, found);
    }

    /// How many designs have to be worked out to try what is uncertain of one.
    pub(crate) fn trials(c: &Compilation, most: Off) -> usize {
        let values = values(c).iter().filter(|(_, by)| by.1 <= most).take(VALUES).count();
        2 * values + usize::from(may_get_wet(c))
    }

    /// Tries what is uncertain, and hands back how far all of it together moves each thing that is watched.
    fn shifted(&mut self, options: &Options, c: &mut Compilation, most: Off) -> Vec<(Watch, f64)> {
        let mut watched = watched(c);
        let asked = watched.len();
        watched.extend(soft(c));
        let uncertain = values(c);
        let mut trials: Vec<Trial> = uncertain
            .iter()
            .filter(|(_, by)| by.1 <= most)
            .take(VALUES)
            .map(|(known, by)| {
                let place = c.origins.get(known.origin.0 as usize).copied();
                self.trial(options, (c, &watched), (known, place), *by)
            })
            .collect();
        c.together = self.at_worst_ends(options, (c, &watched), &trials);
        let goes = |k: usize| -> f64 {
            let by = |t: &Trial| t.moved[k][0].abs().max(t.moved[k][1].abs());
            let of = |off: Off| trials.iter().filter(move |t| t.influence.off == off).map(by);
            // a body is seldom off in several ways at once
            of(Off::Said).sum::<f64>() + of(Off::Guessed).fold(0.0, f64::max)
        };
        let reach = watched.iter().take(asked).enumerate().map(|(k, w)| (w.clone(), goes(k))).collect();
        if most.counts() {
            // what fit and place ask is ranked in a report; errors of either are told anyway
            trials.iter_mut().for_each(|t| t.influence.keep_asked());
        }
        let mut out: Vec<Influence> = trials.into_iter().map(|t| t.influence).collect();
        out.sort_by(|a, b| b.weight.total_cmp(&a.weight).then(a.known.name.cmp(&b.known.name)));
        c.influences = out;
        reach
    }

    fn trial(
        &mut self,
        options: &Options,
        (c, watched): (&Compilation, &[Watch]),
        (known, place): (&Known, Option<Span>),
        (shift, off): (f64, Off),
    ) -> Trial {
        let counts = off.counts();
        let ways: &[bool] = if counts { &[true, false] } else { &[true] };
        let strength = StrengthWanted::of(&c.verdicts, counts && is_heavy(known));
        let mut tried = Vec::new();
        for up in ways {
            let mut changed = Options { strength, ..options.clone() };
            self.take_end(&mut changed, (known, place), (shift, off), *up);
            tried.push(self.quietly(&changed));
        }
        let margins: Vec<Vec<Watch>> = tried.iter().map(soft).collect();
        let by = |w: &Watch, end: usize| -> f64 {
            let there = tried.get(end).zip(margins.get(end)).and_then(|(t, soft)| w.again(t, soft));
            there.map_or(0.0, |v| v - w.value.si())
        };
        let moved: Vec<[f64; 2]> = watched.iter().map(|w| [by(w, 0), by(w, 1)]).collect();
        let aside: &[&str] = if options.situation.picks.is_empty() { &[] } else { &crate::OF_ONE_SETTING };
        let raised = |(up, t): (&bool, &Compilation)| -> Vec<Raised> {
            let at = at_end(known, (shift, off), *up);
            let new = news(c, t, watched, aside).into_iter();
            // of what nobody measured only errors count: all else is told by its own finding once it is measured
            let new = new.filter(|(_, severity)| off == Off::Said || *severity == Severity::Error);
            new.map(|(headline, severity)| Raised { at: at.clone(), headline, severity }).collect()
        };
        let mut raises: Vec<Raised> =
            if counts { ways.iter().zip(&tried).flat_map(raised).collect() } else { Vec::new() };
        raises.sort_by_key(|r| r.severity);
        let mut influence = Influence {
            known: known.clone(),
            shift,
            off,
            effects: Vec::new(),
            weight: 0.0,
            raises,
            demands: BTreeSet::new(),
        };
        influence.count(watched, &moved);
        if counts {
            let unmet = |k: usize| tried.iter().any(|t| t.verdicts.get(k).is_none_or(is_unmet));
            let met = c.verdicts.iter().enumerate().filter(|(_, v)| v.holds == Some(true));
            influence.demands.extend(met.map(|(k, _)| k).filter(|k| unmet(*k)));
        }
        Trial { influence, place, moved }
    }

    /// Takes a value at one of its ends: at its place where a tolerance stands there, by its name otherwise.
    pub(crate) fn take_end(
        &self,
        options: &mut Options,
        (known, place): (&Known, Option<Span>),
        (shift, off): (f64, Off),
        up: bool,
    ) {
        if off == Off::Guessed {
            let measure = known.name.trim_start_matches("rider.").to_owned();
            options.guesses.push((measure, if up { shift } else { -shift } / 1e3));
            return;
        }
        let own = place
            .filter(|p| self.sources.get(p.source).is_some_and(|s| s.name != crate::settings::COMMAND_LINE));
        if let Some(at) = own.filter(|_| known.toleranced || !known.by_name) {
            let share = if known.toleranced { 0.0 } else { shift / known.nominal };
            options.nudges.push(Nudge { at, up, share });
            return;
        }
        let end = if up { known.nominal + shift } else { known.nominal - shift };
        let value = format!("{end:.9} {}", known.unit);
        options.settings.retain(|(name, _)| *name != known.name);
        options.settings.push((known.name.clone(), value.trim().to_owned()));
    }

    /// Works a design out and forgets the texts that its settings made.
    pub(crate) fn quietly(&mut self, options: &Options) -> Compilation {
        let before = self.sources.count();
        let out = self.compile(&Options { ways: false, ..options.clone() });
        self.sources.keep(before);
        out
    }
}

impl Influence {
    /// Counts what it moves.
    fn count(&mut self, watched: &[Watch], moved: &[[f64; 2]]) {
        for (w, by) in watched.iter().zip(moved) {
            let met = w.room().is_none_or(|r| r >= 0.0);
            // towards what takes a demand that is met away, and what would meet one that is not
            let way = |by: f64| match (self.off, w.margin) {
                (Off::Usual, _) | (_, None) => by.abs(),
                _ if met => -by * w.sign,
                _ => by * w.sign,
            };
            let change = by.iter().fold(0.0, |most: f64, by| most.max(way(*by)));
            // one part of a demand does not decide it
            if change <= 1e-9 || matches!(w.by, By::Part(..)) {
                continue;
            }
            let as_quantity = |si: f64| Quantity::from_si(si, w.value.dimension);
            // a measure that nobody took makes no failure doubtful
            let failed = !met && self.off == Off::Guessed;
            let weight = if failed { 0.0 } else { change / w.margin.unwrap_or(0.1).max(1e-9) };
            if let By::Demand(k) = w.by
                && w.margin.is_some()
                && weight >= 1.0
            {
                self.demands.insert(k);
            }
            let (figure, margin) = (w.figure.clone(), w.margin.map(as_quantity));
            self.effects.push(Effect { figure, change: as_quantity(change), margin, weight, soft: w.soft() });
        }
        self.effects.sort_by(|a, b| b.weight.total_cmp(&a.weight));
        // several demands of one figure: the one that it uses up most stands for them
        let mut seen = BTreeSet::new();
        let asked: Vec<&Watch> = watched.iter().filter(|w| !w.soft()).collect();
        self.effects.retain(|e| !e.soft || !asked.iter().any(|w| w.figure == e.figure));
        self.effects.retain(|e| seen.insert(e.figure.clone()));
        self.weight = self.effects.first().map_or(0.0, |e| e.weight);
    }

    fn keep_asked(&mut self) {
        self.effects.retain(|e| !e.soft);
        self.weight = self.effects.first().map_or(0.0, |e| e.weight);
    }
}
