//! What would mend it: for each demand that fails and each finding that hangs on sizes, the parameters that move it most,
//! and a change of one of them, or else of two or three, that mends it and breaks nothing else. Each is found by compiling the
//! changed design again, and what it does to fit that no rule judges is said.

mod cost;
mod finding;
mod target;
mod together;

use crate::{Compilation, Options, Project, StrengthWanted};
use chairwright_design::Dial;
use chairwright_diagnostics::{Diagnostic, Severity};
use chairwright_quantity::Quantity;
use finding::{Identity, bearings, identity, is_measured, measures};
use std::collections::{BTreeMap, BTreeSet};
use target::{Target, is_about, room, targets};

/// Parameters that are tried.
const DIALS: usize = 40;
/// Failing demands, and findings, that are worked on.
const FAILING: usize = 8;
/// Steps of the search for one change.
const STEPS: usize = 6;
/// How far a value is shifted to see what it moves, as a share of its range or of itself.
const NUDGE: f64 = 0.01;
/// A room that is lacking by less than this is lost in the last digits: whether a demand is met then, its finding says.
const HAIR: f64 = -1e-12;

/// One parameter and what turning it up by one unit does to each target.
struct Slope {
    name: String,
    dial: Dial,
    by_target: Vec<f64>,
}

/// One parameter turned.
#[derive(Clone, PartialEq, Debug)]
struct Turn {
    name: String,
    unit: String,
    from: f64,
    to: f64,
    /// How much of the range it takes.
    share: f64,
}

/// A change that meets a demand: of one parameter, or of two or three.
#[derive(Clone, PartialEq, Debug)]
struct Change {
    turns: Vec<Turn>,
    /// How much of the ranges it takes together.
    share: f64,
    /// What it does beside.
    rest: Rest,
    /// What it does to fit, where no rule judges that.
    costs: Vec<String>,
}

/// What a change does to everything else that is asked.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
enum Rest {
    /// With it all of it is met.
    AllMet,
    /// Nothing is worse.
    Kept,
    /// No other demand breaks, and yet something that is wrong already gets worse; whether all that is asked is met.
    Deeper(bool),
}

/// How a chair stands with everything that is asked of it.
struct Standing {
    rooms: Vec<Option<f64>>,
    errors: BTreeMap<Identity, usize>,
    /// Figures by which the body has no room.
    squeezed: Vec<&'static str>,
    /// How far what is wrong is from being right, by code and figure: more is better.
    depths: BTreeMap<String, f64>,
}

impl Standing {
    fn rest(&self, before: &Standing) -> Rest {
        let worse = |now: f64, was: f64| now < was - 1e-6 * was.abs().max(1e-6);
        let deeper =
            self.depths.iter().any(|(k, now)| before.depths.get(k).is_some_and(|was| worse(*now, *was)));
        let rooms = self.rooms.iter().zip(&before.rooms);
        let further = |(now, was): (&Option<f64>, &Option<f64>)| match (now, was) {
            (Some(now), Some(was)) => *was < HAIR && worse(*now, *was),
            _ => false,
        };
        let all_met = self.rooms.iter().all(|r| r.is_some_and(|r| r >= HAIR));
        match () {
            () if deeper || rooms.into_iter().any(further) => Rest::Deeper(all_met),
            () if all_met => Rest::AllMet,
            () => Rest::Kept,
        }
    }
}

fn standing(c: &Compilation, goals: &[Target]) -> Standing {
    let rooms = goals.iter().map(|g| room(c, g).map(Quantity::si)).collect();
    Standing { rooms, errors: errors(c), squeezed: cost::squeezed(c), depths: depths(c) }
}

impl Slope {
    /// The range, or the value itself where it has none.
    fn width(&self) -> f64 {
        self.dial.range.map_or(self.dial.now.abs(), |(low, high)| high - low).max(1e-9)
    }

    fn turn(&self, to: f64) -> Turn {
        let (name, unit, from) = (self.name.clone(), self.dial.unit.clone(), self.dial.now);
        Turn { name, unit, from, to, share: (to - from).abs() / self.width() }
    }

    fn change(&self, to: f64, rest: Rest) -> Change {
        Change::of(vec![self.turn(to)], rest)
    }
}

impl Project {
    /// Adds to each finding about a failed demand, and to each that hangs on sizes, what would mend it; to warnings only where
    /// `warnings` says so, for each takes some fifty compiles.
    pub fn teach(&mut self, options: &Options, c: &mut Compilation, warnings: bool) {
        let all = targets(c);
        let failing: Vec<usize> = (0..all.len()).filter(|i| all[*i].1.si() < 0.0).take(FAILING).collect();
        let goals: Vec<Target> = all.iter().map(|t| t.0.clone()).collect();
        let about = |p: &Diagnostic| goals.iter().any(|g| is_about(p, g));
        let found = |p: &Diagnostic| is_measured(p, warnings) && !about(p);
        let others: Vec<usize> =
            (0..c.problems.len()).filter(|k| found(&c.problems[*k])).take(FAILING).collect();
        if failing.is_empty() && others.is_empty() {
            return;
        }
        // what is tried is compiled as deep as this, and no deeper
        let base = self.turned(options, &[]);
        let before = standing(&base, &goals);
        let there: Vec<Identity> = base.problems.iter().map(identity).collect();
        let others: Vec<usize> =
            others.into_iter().filter(|k| there.contains(&identity(&c.problems[*k]))).collect();
        let mut moved = goals.clone();
        for t in others.iter().flat_map(|k| measures(c, &c.problems[*k])) {
            if !moved.contains(&t) {
                moved.push(t);
            }
        }
        let slopes = self.slopes(options, c, &moved);
        let mut budget = together::BUDGET;
        self.teach_demands(options, c, (&all, &failing), (&before, &slopes), &mut budget);
        self.teach_findings(options, c, (&goals, &moved), &others, (&before, &slopes, &mut budget));
    }

    fn teach_findings(
        &mut self,
        options: &Options,
        c: &mut Compilation,
        (goals, moved): (&[Target], &[Target]),
        others: &[usize],
        (before, slopes, budget): (&Standing, &[Slope], &mut usize),
    ) {
        let display = c.display();
        for at in others {
            let own = measures(c, &c.problems[*at]);
            let of = |(i, t): (usize, &'_ Target)| match t {
                Target::Measure(name) if own.contains(t) => Some((i, name.clone(), room(c, t)?)),
                _ => None,
            };
            let measured: Vec<(usize, String, Quantity)> = moved.iter().enumerate().filter_map(of).collect();
            let values: Vec<(usize, &str, f64)> =
                measured.iter().map(|(i, n, q)| (*i, n.as_str(), q.si())).collect();
            let finding = &c.problems[*at];
            let bearing = bearings(finding, slopes, &values);
            let sought = (&identity(finding), before);
            let mut change = self.way_out(options, (goals, moved), sought, &bearing, (slopes, &mut *budget));
            if let Some(change) = &mut change {
                change.costs = self.costs(options, c, slopes, change);
            }
            let words = bearing.iter().take(3).filter_map(|b| {
                let (_, figure, now) = measured.iter().find(|(i, ..)| *i == b.figure)?;
                let per_unit = |si: f64| display.text(Quantity::from_si(si, now.dimension));
                Some(format!("{} of {figure}", turned_by(b.slope, b.figure, &per_unit)))
            });
            let words: Vec<String> = words.collect();
            advise_beside(&mut c.problems[*at], &words, change.as_ref());
        }
    }

    fn teach_demands(
        &mut self,
        options: &Options,
        c: &mut Compilation,
        (all, failing): (&[(Target, Quantity)], &[usize]),
        (before, slopes): (&Standing, &[Slope]),
        budget: &mut usize,
    ) {
        let display = c.display();
        let goals: Vec<Target> = all.iter().map(|t| t.0.clone()).collect();
        for &i in failing {
            let Some(at) = c.problems.iter().position(|p| is_about(p, &goals[i])) else { continue };
            let mut moving: Vec<&Slope> = slopes.iter().filter(|s| s.by_target[i].abs() > 1e-12).collect();
            moving.sort_by(|a, b| weight(b, i).total_cmp(&weight(a, i)));
            let alone = self.change(options, &goals, i, before, &moving);
            let mut change = alone.or_else(|| {
                let has = |c: &Compilation| {
                    let room = room(c, &goals[i]).map(Quantity::si);
                    (meets(c, &goals[i]), room)
                };
                let sought = together::Sought { target: i, room: before.rooms[i]?, sign: 1.0, has: &has };
                self.together(options, &goals, (&sought, before), (&moving, slopes, &mut *budget))
            });
            if let Some(change) = &mut change {
                change.costs = self.costs(options, c, slopes, change);
            }
            let per_unit = |si: f64| display.text(Quantity::from_si(si, all[i].1.dimension));
            advise(&mut c.problems[at], i, &moving, change.as_ref(), &per_unit);
        }
    }

    /// What each parameter does to each target.
    fn slopes(&mut self, options: &Options, c: &Compilation, goals: &[Target]) -> Vec<Slope> {
        let dials = c.design.params.iter().filter_map(|p| Some((p.name.clone(), p.dial.clone()?)));
        let dials: Vec<(String, Dial)> = dials.take(DIALS).collect();
        let mut out = Vec::new();
        for (name, dial) in dials {
            let Some((low, high)) = nudged(&dial) else { continue };
            let mut rooms = |value: f64| -> Vec<Option<f64>> {
                let tried = self.turned(options, &[(&name, &dial, value)]);
                goals.iter().map(|g| room(&tried, g).map(Quantity::si)).collect()
            };
            let (a, b) = (rooms(low), rooms(high));
            let slope = |(a, b): (&Option<f64>, &Option<f64>)| match (a, b) {
                (Some(a), Some(b)) => (b - a) / (high - low),
                _ => 0.0,
            };
            let by_target = a.iter().zip(&b).map(slope).collect();
            out.push(Slope { name, dial, by_target });
        }
        out
    }

    /// The design with parameters at other values. Findings hang on the verdicts of strength alone.
    fn turned(&mut self, options: &Options, turns: &[(&str, &Dial, f64)]) -> Compilation {
        let mut changed = options.clone();
        if changed.strength == StrengthWanted::Whole {
            changed.strength = StrengthWanted::Verdicts;
        }
        for (name, dial, value) in turns {
            changed.settings.retain(|(n, _)| n != name);
            changed.situation.picks.retain(|p| p.name != *name);
            let written = format!("{value:.6} {}", dial.unit).trim().to_owned();
            changed.settings.push(((*name).to_owned(), written));
        }
        self.quietly(&changed)
    }

    /// The least change of one parameter that meets target `i` and breaks nothing that was met.
    fn change(
        &mut self,
        options: &Options,
        goals: &[Target],
        i: usize,
        before: &Standing,
        moving: &[&Slope],
    ) -> Option<Change> {
        let mut best: Option<Change> = None;
        for slope in moving {
            let Some(found) = self.one_change(options, goals, i, before, slope) else { continue };
            if found.is_better(best.as_ref()) {
                best = Some(found);
            }
        }
        best
    }

    fn one_change(
        &mut self,
        options: &Options,
        goals: &[Target],
        i: usize,
        before: &Standing,
        slope: &Slope,
    ) -> Option<Change> {
        let dial = &slope.dial;
        let good = |value: f64, project: &mut Project| {
            let tried = project.turned(options, &[(&slope.name, dial, value)]);
            let now = standing(&tried, goals);
            let kept = is_no_worse(&now, before, Some(i)) && meets(&tried, &goals[i]);
            (now.rooms[i], kept.then_some(now.rest(before)))
        };
        if !dial.stops.is_empty() {
            let mut stops = dial.stops.clone();
            stops.sort_by(|a, b| (a - dial.now).abs().total_cmp(&(b - dial.now).abs()));
            return stops.into_iter().find_map(|s| good(s, self).1.map(|all| slope.change(s, all)));
        }
        let (mut at, mut has) = (dial.now, before.rooms[i]?);
        let mut rate = slope.by_target[i];
        for _ in 0..STEPS {
            let to = outward(at - has / rate, dial.now, &dial.unit);
            if dial.range.is_some_and(|(low, high)| !(low - 1e-9..=high + 1e-9).contains(&to)) {
                return None;
            }
            let (here, kept) = good(to, self);
            if let Some(all) = kept {
                return Some(slope.change(to, all));
            }
            let here = here?;
            if here >= 0.0 || (to - at).abs() < 1e-9 {
                return None; // it is met, and something else is broken
            }
            let next = (here - has) / (to - at);
            (at, has) = (to, here);
            if next.abs() < 1e-12 || next * rate < 0.0 {
                return None;
            }
            rate = next;
        }
        None
    }
}

/// The effect over the whole range, to compare parameters of different units.
fn weight(slope: &Slope, i: usize) -> f64 {
    slope.by_target[i].abs() * slope.width()
}

/// Two values around the present one, within the range or on the neighbouring stops.
fn nudged(dial: &Dial) -> Option<(f64, f64)> {
    if !dial.stops.is_empty() {
        let below =
            dial.stops.iter().copied().filter(|s| *s < dial.now - 1e-9).fold(f64::NEG_INFINITY, f64::max);
        let above = dial.stops.iter().copied().filter(|s| *s > dial.now + 1e-9).fold(f64::INFINITY, f64::min);
        let low = if below.is_finite() { below } else { dial.now };
        let high = if above.is_finite() { above } else { dial.now };
        return (high > low).then_some((low, high));
    }
    let width = dial.range.map_or(dial.now.abs(), |(low, high)| high - low);
    let by = (width * NUDGE).max(1e-3);
    let (low, high) = dial.range.unwrap_or((f64::NEG_INFINITY, f64::INFINITY));
    let (a, b) = ((dial.now - by).max(low), (dial.now + by).min(high));
    (b > a).then_some((a, b))
}

/// A value rounded away from the present one, to what a builder can set.
fn outward(value: f64, now: f64, unit: &str) -> f64 {
    let step = match unit {
        "mm" => 1.0,
        "deg" => 0.1,
        "kg" => 0.05,
        _ => return value + (value - now) * 1e-6,
    };
    // a hair within a step of it counts as on it, so that an exact answer stays exact
    if value > now { (value / step - 1e-6).ceil() * step } else { (value / step + 1e-6).floor() * step }
}

/// Errors, each told apart from others of its code: to trade one broken rule for another mends nothing.
fn errors(c: &Compilation) -> BTreeMap<Identity, usize> {
    let mut out = BTreeMap::new();
    for p in c.problems.iter().filter(|p| p.severity == Severity::Error) {
        *out.entry(identity(p)).or_insert(0) += 1;
    }
    out
}

/// How deep the errors of a chair are, by the figures that measure them.
fn depths(c: &Compilation) -> BTreeMap<String, f64> {
    let codes: BTreeSet<&str> =
        c.problems.iter().filter(|p| p.severity == Severity::Error).map(|p| p.code.name).collect();
    let all = codes
        .into_iter()
        .flat_map(|code| finding::depths(c, code).map(move |(f, d)| (format!("{code} {f}"), d)));
    all.collect()
}

/// Whether target `i`, if one is sought, is met now, and everything else at least as it was: what was met stays met, no other
/// error is new, and the body has room where it had.
fn is_no_worse(now: &Standing, before: &Standing, i: Option<usize>) -> bool {
    let met = i.is_none_or(|i| now.rooms[i].is_some_and(|r| r >= HAIR));
    let kept = now.rooms.iter().zip(&before.rooms).enumerate().all(|(k, (now, before))| {
        Some(k) == i || before.is_none_or(|b| b < HAIR) || now.is_some_and(|n| n >= HAIR)
    });
    let quiet = now.errors.iter().all(|(code, n)| before.errors.get(code).is_some_and(|b| n <= b));
    let fits = now.squeezed.iter().all(|f| before.squeezed.contains(f));
    met && kept && quiet && fits
}

/// Whether no finding is about a target, and its room is there.
fn meets(c: &Compilation, target: &Target) -> bool {
    room(c, target).is_some_and(|r| r.si() >= HAIR) && !c.problems.iter().any(|p| is_about(p, target))
}

/// Said before the help that a finding has of its own, where no parameter meets it.
const NO_PARAMETER: &str = "no parameter alone meets it within its range without breaking another demand or leaving the body no \
                            room, and no two or three together were found that do; ";

/// Puts it into words.
fn advise(
    finding: &mut Diagnostic,
    i: usize,
    moving: &[&Slope],
    change: Option<&Change>,
    per_unit: &dyn Fn(f64) -> String,
) {
    let words: Vec<String> = moving.iter().take(3).map(|s| turned_by(s, i, per_unit)).collect();
    note(finding, &words);
    match change {
        Some(c) => finding.help = Some(c.words()),
        None if !moving.is_empty() => {
            // one finding may stand for two figures, left and right: what is known by now is not said again
            let also = finding.help.take().unwrap_or_default();
            let also = also.trim_start_matches(NO_PARAMETER);
            finding.help = Some(format!("{NO_PARAMETER}{also}"));
        }
        None => {}
    }
}

/// The same for a finding that has a help of its own: a repair that was computed for it alone stands first.
fn advise_beside(finding: &mut Diagnostic, words: &[String], change: Option<&Change>) {
    note(finding, words);
    if let Some(change) = change {
        let own = finding.help.take().map_or(String::new(), |h| format!("{h}; or "));
        finding.help = Some(format!("{own}{}", change.words()));
    }
}

/// What moves it most; a finding of both sides is told once.
fn note(finding: &mut Diagnostic, words: &[String]) {
    let text = format!("what moves it most: {}", words.join(", "));
    if !words.is_empty() && !finding.notes.iter().any(|n| n.starts_with("what moves it most")) {
        finding.notes.push(text);
    }
}

/// What turning a parameter up does to a target, by a step that moves it by more than the last digit that is printed.
fn turned_by(s: &Slope, target: usize, per_unit: &dyn Fn(f64) -> String) -> String {
    let step = if s.dial.unit == "mm" { 10.0 } else { 1.0 };
    let unit = format!("{step} {}", s.dial.unit);
    let by = s.by_target[target] * step;
    format!("`{}` ({}{} for {} more)", s.name, if by > 0.0 { "+" } else { "" }, per_unit(by), unit.trim())
}

impl Change {
    fn of(turns: Vec<Turn>, rest: Rest) -> Change {
        let share = turns.iter().map(|t| t.share).sum();
        Change { turns, share, rest, costs: Vec::new() }
    }

    /// One that makes nothing else worse comes before one that does, and of equals the smaller.
    fn is_better(&self, than: Option<&Change>) -> bool {
        let deeper = |c: &Change| matches!(c.rest, Rest::Deeper(_));
        than.is_none_or(|b| (deeper(self), self.share) < (deeper(b), b.share))
    }

    fn words(&self) -> String {
        let rest = match self.rest {
            Rest::AllMet => "everything that is asked is met then, tolerances aside",
            Rest::Kept => "no other demand breaks",
            Rest::Deeper(true) => {
                "everything that is asked is met then, tolerances aside, but something that is wrong already gets worse"
            }
            Rest::Deeper(false) => "no other demand breaks, but something that is wrong already gets worse",
        };
        let turn = |t: &Turn| {
            let text = |v: f64| format!("{} {}", plain(v), t.unit).trim().to_owned();
            (format!("`{}` = {}", t.name, text(t.to)), text(t.from))
        };
        let fit = match self.costs.as_slice() {
            [] => String::new(),
            all => format!("; it changes fit that no rule judges here: {}", all.join(", ")),
        };
        match self.turns.as_slice() {
            [one] => {
                let (set, from) = turn(one);
                format!("{set} would do it (it is {from}), and {rest}{fit}; look at the whole report again")
            }
            all => {
                let fewer = if all.len() > 2 { "fewer were found that do" } else { "parameter alone does" };
                let all: Vec<String> =
                    all.iter().map(turn).map(|(set, from)| format!("{set} (it is {from})")).collect();
                format!(
                    "{} together would do it, where no {fewer}, and {rest}{fit}; look at the whole report again",
                    all.join(" and ")
                )
            }
        }
    }
}

/// A number without needless decimals.
pub(crate) fn plain(v: f64) -> String {
    let text = format!("{v:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
