//! Which of its possible chairs a design is looked at as: variant, state, and how it is adjusted.

use crate::Program;
use crate::Setting;
use crate::Text;
use crate::declare::{Context, Declare};
use crate::expand::taken;
use crate::room::RoomId;
use crate::schema::Stands;
use crate::scope::{Given, declared_name};
use crate::words::{clause, inner, keyword, says, value};
use chairwright_design::GivenBy;
use chairwright_diagnostics::Diagnostic;
use chairwright_syntax::{Binary, Entry, Expr, ExprKind};
use smol_str::SmolStr;

/// Dimensions whose ends are tried together where not all stops can be.
const ENDS: usize = 6;
/// Situations of one variant that are looked at.
const SITUATIONS: usize = 200;
/// Stops of one slot that are tried one by one; beyond that its ends.
const STOPS: usize = 24;

/// How near those stand who give values, after the command line.
const STATE: u8 = 1;
const ADJUSTED: u8 = 2;
const VARIANT: u8 = 3;
const FORK: u8 = 4;

/// One step or end of an adjustable dimension.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Pick {
    /// The adjustable dimension.
    pub name: String,
    /// Which of its steps, or 0 and 1 for the ends of its slot.
    pub index: usize,
    /// The value of a stop that is not written in the text.
    pub value: Option<String>,
}

/// An uncertain value, taken at one of its ends.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Nudge {
    /// Where value and tolerance stand.
    pub at: chairwright_diagnostics::Span,
    /// Whether the upper end is taken.
    pub up: bool,
    /// How far off a value may be that states no tolerance, as a share of it.
    pub share: f64,
}

/// Which chair a design is looked at as.
#[derive(Clone, Copy, Default, Debug)]
pub struct Choice<'a> {
    /// The variant; `None` for the base design.
    pub variant: Option<&'a str>,
    /// The state; `None` as it is ridden.
    pub state: Option<&'a str>,
    /// How it is adjusted, where not as drawn.
    pub picks: &'a [Pick],
    /// Values from the command line.
    pub settings: &'a [Setting],
    /// The tolerances, by their places in the text, of which an end is taken for the middle.
    pub nudges: &'a [Nudge],
    /// Finds the shipped page that an entry is on, for the help when it is not in use.
    pub shelf: Option<crate::Shelf>,
    /// The day, as `year-month-day`, that nothing was measured after; `None` where nobody knows.
    pub today: Option<&'a str>,
}

/// A state and an adjustment to look at beside the chair as drawn.
#[derive(Clone, Default, PartialEq, Eq, Debug)]
pub struct Situation {
    /// The state.
    pub state: Option<String>,
    /// The adjustment.
    pub picks: Vec<Pick>,
    /// Both in words.
    pub words: String,
}

impl<'a> Declare<'a, '_> {
    /// Puts in place what was chosen: the command line first, then state, adjustment, variant and the
    /// forks, nearest first. The first to give a value wins. Returns the state.
    pub(crate) fn choose(&mut self, texts: &[Text<'a>], choice: &Choice<'a>) -> Option<&'a Entry> {
        let own = || texts.iter().filter(|t| t.own);
        for s in choice.settings {
            let given =
                Given { value: &s.value, line: None, room: RoomId::ROOT, by: GivenBy::CommandLine, layer: 0 };
            self.give(SmolStr::new(&s.name), given);
        }
        let find = |word: &str, name: &str| {
            let named = |e: &&Entry| says(&e.keyword, word) && declared_name(e).is_some_and(|(n, _)| n == name);
            let mine = own().filter(|t| t.level == 0 || word == "state");
            let all = mine.flat_map(|t| t.entries.iter().map(move |e| (t.level, e)));
            all.filter(|(_, e)| named(e)).min_by_key(|(level, _)| *level).map(|(_, e)| e)
        };
        let state = choice.state.and_then(|name| find("state", name));
        let variant = choice.variant.and_then(|name| find("variant", name));
        for (word, name, found) in [("state", choice.state, state), ("variant", choice.variant, variant)] {
            match (name, found) {
                (Some(name), None) => self.unknown_choice(word, name, texts),
                (Some(_), Some(entry)) if word == "state" => {
                    self.changes(entry, STATE);
                    self.picks(texts, choice.picks);
                }
                (_, Some(entry)) => self.changes(entry, VARIANT),
                _ => {}
            }
        }
        if state.is_none() {
            self.picks(texts, choice.picks);
        }
        let mut forks: Vec<(u8, &'a Entry)> = own()
            .flat_map(|t| t.entries.iter().map(|e| (t.level, e)))
            .filter(|(_, e)| says(&e.keyword, "fork"))
            .collect();
        forks.sort_by_key(|(level, _)| *level);
        for (level, fork) in forks {
            self.changes(fork, FORK.saturating_add(level));
        }
        state
    }

    /// What a state says of the rider and the place is of that day; the chair was drawn before.
    fn give(&mut self, name: SmolStr, given: Given<'a>) {
        let of_day = given.by == GivenBy::State && name.split_once('.').is_some_and(|(base, _)| of_day(base));
        let into = if of_day { &mut self.scope.stated } else { &mut self.scope.given };
        into.entry(name).or_insert(given);
    }

    fn changes(&mut self, entry: &'a Entry, layer: u8) {
        let by = match keyword(entry).as_str() {
            "fork" => GivenBy::Fork,
            "state" => GivenBy::State,
            _ => GivenBy::Variant,
        };
        for inner in inner(entry) {
            if let Some(value) = value(inner) {
                let given = Given { value, line: Some(inner), room: RoomId::ROOT, by, layer };
                self.give(inner.keyword.text(), given);
                // rider and conditions are looked up by their usual names
                self.give(keyword(inner), given);
            }
        }
        self.without.extend(taken(entry).map(|(n, s)| (n, s, false)));
    }

    fn picks(&mut self, texts: &[Text<'a>], picks: &[Pick]) {
        for pick in picks {
            let entry = texts.iter().flat_map(|t| t.entries).filter(|e| says(&e.keyword, "adjust"));
            if pick.value.is_some() {
                continue;
            }
            let found = entry.filter(|e| declared_name(e).is_some_and(|(n, _)| n == pick.name)).find_map(|e| {
                let value = *stops(e).get(pick.index)?;
                Some(Given { value, line: None, room: RoomId::ROOT, by: GivenBy::Adjustment, layer: ADJUSTED })
            });
            if let Some(given) = found {
                self.give(SmolStr::new(&pick.name), given);
            }
        }
    }

    fn unknown_choice(&mut self, word: &str, name: &str, texts: &[Text<'a>]) {
        let mine = texts.iter().filter(|t| t.level == 0 || (t.own && word == "state"));
        let entries = mine.flat_map(|t| t.entries);
        let known: Vec<SmolStr> =
            entries.filter(|e| says(&e.keyword, word)).filter_map(declared_name).map(|(n, _)| n).collect();
        let problem = Diagnostic::new("unknown-variant", format!("this design has no {word} `{name}`"));
        let known: Vec<&str> = known.iter().map(SmolStr::as_str).collect();
        let problem = match crate::nearest(name, known.iter().copied()) {
            Some(meant) => problem.help(format!("did you mean {meant}?")),
            None if known.is_empty() => problem.help(format!("it has no {word}s at all")),
            None => problem.help(format!("it has {}", known.join(", "))),
        };
        self.say(problem);
    }

    /// The demands that stand in a state hold in that state.
    pub(crate) fn state_demands(&mut self, state: Option<&'a Entry>) {
        let context = Context { room: RoomId::ROOT, stands: Stands::Inside, own: true, level: 0, depth: 0 };
        for demand in state.into_iter().flat_map(inner).filter(|e| is_demand(e)) {
            self.entry(demand, context);
        }
    }
}

/// Whether a block is about the rider or the place.
fn of_day(base: &str) -> bool {
    crate::scope::block_fields(base).is_some_and(|(base, _)| matches!(base, "rider" | "conditions"))
}

/// Whether an entry is a demand.
pub(crate) fn is_demand(entry: &Entry) -> bool {
    matches!(keyword(entry).as_str(), "require" | "prefer")
}

/// The steps of an adjustable dimension, or the ends of its slot.
pub(crate) fn stops(adjust: &Entry) -> Vec<&Expr> {
    if let Some(steps) = clause(adjust, "steps") {
        return steps.values.iter().collect();
    }
    match clause(adjust, "within").and_then(|c| c.values.first()).map(|e| &e.kind) {
        Some(ExprKind::Binary(Binary::Range, low, high)) => vec![low, high],
        _ => Vec::new(),
    }
}

impl Program<'_> {
    /// Every state, as drawn and adjusted to each stop. When that is too many, each dimension is
    /// adjusted by itself, and the second value says so.
    #[must_use]
    pub fn situations(&self) -> (Vec<Situation>, bool) {
        let states: Vec<Option<String>> =
            std::iter::once(None).chain(self.scope.states.keys().map(|s| Some(s.to_string()))).collect();
        let mut coarse = false;
        let adjusts: Vec<Vec<Pick>> = self
            .scope
            .placed
            .iter()
            .filter(|p| p.spec.keyword == "adjust" && !p.ghost)
            .map(|p| self.stops_of(p.entry, &mut coarse))
            .filter(|stops| !stops.is_empty())
            .collect();
        let all = adjusts.iter().fold(states.len(), |n, stops| n.saturating_mul(stops.len()));
        let together = all <= SITUATIONS;
        let adjustments = if together { every(&adjusts) } else { apart(&adjusts) };
        let mut out = Vec::new();
        for state in &states {
            for picks in std::iter::once(&Vec::new()).chain(&adjustments).take(SITUATIONS + (1 << ENDS)) {
                if state.is_some() || !picks.is_empty() {
                    out.push(self.situation(state.clone(), picks.clone()));
                }
            }
        }
        out.truncate(4 * SITUATIONS);
        (out, !together || coarse)
    }

    /// Whether some state takes wheels or casters of this design away.
    pub(crate) fn packs(&self, design: &chairwright_design::Design) -> bool {
        let wheels = design.wheels.iter().map(|w| w.name.as_str());
        let names: Vec<&str> = wheels.chain(design.casters.iter().map(|c| c.name.as_str())).collect();
        let is = |name: &str, off: &str| {
            let plain = name.strip_prefix("left.").or_else(|| name.strip_prefix("right."));
            name == off || plain == Some(off)
        };
        let mut off = self.scope.states.values().flat_map(|state| taken(state));
        off.any(|(off, _)| names.iter().any(|n| is(n, &off)))
    }

    /// Every stop of one adjustable dimension.
    fn stops_of(&self, entry: &Entry, coarse: &mut bool) -> Vec<Pick> {
        let Some((name, _)) = declared_name(entry) else { return Vec::new() };
        let written = stops(entry);
        let pick = |index: usize, value: Option<String>| Pick { name: name.to_string(), index, value };
        if let (Some(every), [low, high]) = (clause(entry, "every"), written.as_slice()) {
            let evaluator = self.evaluator();
            let env = crate::evaluator::Env::default();
            let si = |e: &Expr| evaluator.quantity(e, &env).ok();
            if let (Some(low), Some(high), Some(step)) = (si(low), si(high), si(&every.values[0]))
                && let Some((unit, scale)) = crate::build_extras::plain_unit(low.dimension)
            {
                let number = |q: chairwright_quantity::Quantity| q.number.to_f64() / scale;
                let count = ((number(high) - number(low)) / number(step) + 1e-6).floor();
                if (1.0..=STOPS as f64).contains(&count) {
                    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
                    let count = count as usize;
                    return (0..=count)
                        .map(|k| {
                            pick(
                                k,
                                Some(
                                    format!("{:.9} {unit}", number(low) + k as f64 * number(step))
                                        .trim()
                                        .to_owned(),
                                ),
                            )
                        })
                        .collect();
                }
                *coarse = true;
            }
        }
        (0..written.len()).map(|i| pick(i, None)).collect()
    }

    /// A state and an adjustment, with their words.
    #[must_use]
    pub fn situation(&self, state: Option<String>, picks: Vec<Pick>) -> Situation {
        let mut words: Vec<String> = state.iter().map(|s| format!("state {s}")).collect();
        for pick in &picks {
            let entry = self.scope.names.get(pick.name.as_str()).map(|d| d.entry);
            let stop = entry.map(stops).unwrap_or_default();
            let text = match (clause_is_range(entry), pick.index, &pick.value) {
                (true, i, Some(value)) => format!("at stop {} ({})", i + 1, short(value)),
                (true, 0, _) => "at its least".to_owned(),
                (true, ..) => "at its greatest".to_owned(),
                (false, i, _) => format!("at step {} of {}", i + 1, stop.len()),
            };
            words.push(format!("{} {text}", pick.name));
        }
        Situation { state, picks, words: words.join(", ") }
    }
}

fn clause_is_range(entry: Option<&Entry>) -> bool {
    entry.is_some_and(|e| clause(e, "steps").is_none())
}

/// All stops of all dimensions together.
fn every(adjusts: &[Vec<Pick>]) -> Vec<Vec<Pick>> {
    if adjusts.is_empty() {
        return Vec::new();
    }
    adjusts.iter().fold(vec![Vec::new()], |all, stops| {
        let grown = all.iter().flat_map(|before: &Vec<Pick>| {
            stops.iter().map(move |stop| before.iter().chain([stop]).cloned().collect())
        });
        grown.collect()
    })
}

/// One dimension at a time, the others as drawn; and the ends of all of them together, where they are few.
fn apart(adjusts: &[Vec<Pick>]) -> Vec<Vec<Pick>> {
    let mut all: Vec<Vec<Pick>> = adjusts.iter().flatten().map(|stop| vec![stop.clone()]).collect();
    if (2..=ENDS).contains(&adjusts.len()) {
        let ends = |stops: &Vec<Pick>| match stops.as_slice() {
            [first, .., last] => vec![first.clone(), last.clone()],
            _ => stops.clone(),
        };
        let ends: Vec<Vec<Pick>> = adjusts.iter().map(ends).collect();
        // what is tried first is kept where there are too many
        all.splice(0..0, every(&ends));
    }
    all
}

/// A value without needless decimals.
fn short(value: &str) -> String {
    let (number, unit) = value.split_once(' ').unwrap_or((value, ""));
    let number = if number.contains('.') { number.trim_end_matches('0').trim_end_matches('.') } else { number };
    format!("{number} {unit}").trim().to_owned()
}
