//! What would mend it: for each demand that fails, the parameters that move it most, and a change of one of them that meets
//! it and breaks nothing else. Each is found by compiling the changed design again.

mod target;

use crate::{Compilation, Options, Project};
use chairwright_design::Dial;
use chairwright_diagnostics::{Diagnostic, Severity};
use chairwright_quantity::Quantity;
use std::collections::BTreeMap;
use target::{Target, is_about, room, targets};

/// Parameters that are tried.
const DIALS: usize = 40;
/// Failing demands that are worked on.
const FAILING: usize = 8;
/// Steps of the search for one change.
const STEPS: usize = 6;
/// How far a value is shifted to see what it moves, as a share of its range or of itself.
const NUDGE: f64 = 0.01;

/// One parameter and what turning it up by one unit does to each target.
struct Slope {
    name: String,
    dial: Dial,
    by_target: Vec<f64>,
}

/// A change that meets a demand.
#[derive(Clone, PartialEq, Debug)]
struct Change {
    name: String,
    unit: String,
    from: f64,
    to: f64,
    /// How much of the range it takes.
    share: f64,
    /// Whether with it everything that is asked is met.
    all: bool,
}

/// How a chair stands with everything that is asked of it.
struct Standing {
    rooms: Vec<Option<f64>>,
    errors: BTreeMap<&'static str, usize>,
}

impl Project {
    /// Adds to each finding about a failed demand what would mend it.
    pub fn teach(&mut self, options: &Options, c: &mut Compilation) {
        let all = targets(c);
        let failing: Vec<usize> = (0..all.len()).filter(|i| all[*i].1.si() < 0.0).take(FAILING).collect();
        if failing.is_empty() {
            return;
        }
        let display = c.display();
        let goals: Vec<Target> = all.iter().map(|t| t.0.clone()).collect();
        let before = Standing { rooms: all.iter().map(|t| Some(t.1.si())).collect(), errors: errors(c) };
        let slopes = self.slopes(options, c, &goals);
        for i in failing {
            let Some(at) = c.problems.iter().position(|p| is_about(p, &goals[i])) else { continue };
            let mut moving: Vec<&Slope> = slopes.iter().filter(|s| s.by_target[i].abs() > 1e-12).collect();
            moving.sort_by(|a, b| weight(b, i).total_cmp(&weight(a, i)));
            let change = self.change(options, &goals, i, &before, &moving);
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
                let tried = self.turned(options, &name, &dial, value);
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

    /// The design with one parameter at another value.
    fn turned(&mut self, options: &Options, name: &str, dial: &Dial, value: f64) -> Compilation {
        let mut changed = options.clone();
        changed.settings.retain(|(n, _)| n != name);
        changed.situation.picks.retain(|p| p.name != name);
        changed.settings.push((name.to_owned(), format!("{value:.6} {}", dial.unit).trim().to_owned()));
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
            if best.as_ref().is_none_or(|b| found.share < b.share) {
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
            let tried = project.turned(options, &slope.name, dial, value);
            let rooms: Vec<Option<f64>> = goals.iter().map(|g| room(&tried, g).map(Quantity::si)).collect();
            let here = rooms[i];
            let all = rooms.iter().all(|r| r.is_some_and(|r| r >= 0.0));
            let kept = is_no_worse(&Standing { rooms, errors: errors(&tried) }, before, i);
            (here, kept.then_some(all))
        };
        let result = |(to, all): (f64, bool)| {
            let width = dial.range.map_or(dial.now.abs().max(1.0), |(low, high)| high - low);
            let share = (to - dial.now).abs() / width.max(1e-9);
            Change { name: slope.name.clone(), unit: dial.unit.clone(), from: dial.now, to, share, all }
        };
        if !dial.stops.is_empty() {
            let mut stops = dial.stops.clone();
            stops.sort_by(|a, b| (a - dial.now).abs().total_cmp(&(b - dial.now).abs()));
            return stops.into_iter().find_map(|s| good(s, self).1.map(|all| result((s, all))));
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
                return Some(result((to, all)));
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

/// The effect over a tenth of the range, to compare parameters of different units.
fn weight(slope: &Slope, i: usize) -> f64 {
    let width = slope.dial.range.map_or(slope.dial.now.abs(), |(low, high)| high - low);
    slope.by_target[i].abs() * width.max(1e-9)
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

fn errors(c: &Compilation) -> BTreeMap<&'static str, usize> {
    let mut out = BTreeMap::new();
    for p in c.problems.iter().filter(|p| p.severity == Severity::Error) {
        *out.entry(p.code.name).or_insert(0) += 1;
    }
    out
}

/// Whether target `i` is met now, and everything else at least as it was: what was met stays met, no other error is new.
fn is_no_worse(now: &Standing, before: &Standing, i: usize) -> bool {
    let met = now.rooms[i].is_some_and(|r| r >= 0.0);
    let kept =
        now.rooms.iter().zip(&before.rooms).enumerate().all(|(k, (now, before))| {
            k == i || before.is_none_or(|b| b < 0.0) || now.is_some_and(|n| n >= 0.0)
        });
    let quiet = now.errors.iter().all(|(code, n)| before.errors.get(code).is_some_and(|b| n <= b));
    met && kept && quiet
}

/// Puts it into words.
fn advise(
    finding: &mut Diagnostic,
    i: usize,
    moving: &[&Slope],
    change: Option<&Change>,
    per_unit: &dyn Fn(f64) -> String,
) {
    let words: Vec<String> = moving
        .iter()
        .take(3)
        .map(|s| {
            // a step that moves it by more than the last digit that is printed
            let (step, unit) = if s.dial.unit == "mm" { (10.0, "10 mm") } else { (1.0, "") };
            let unit = if unit.is_empty() { format!("1 {}", s.dial.unit) } else { unit.to_owned() };
            let by = s.by_target[i] * step;
            format!(
                "`{}` ({}{} for {} more)",
                s.name,
                if by > 0.0 { "+" } else { "" },
                per_unit(by),
                unit.trim()
            )
        })
        .collect();
    if !words.is_empty() {
        finding.notes.push(format!("what moves it most: {}", words.join(", ")));
    }
    match change {
        Some(c) => {
            let text = |v: f64| format!("{} {}", plain(v), c.unit).trim().to_owned();
            let rest = if c.all { "everything that is asked is met then" } else { "no other demand breaks" };
            finding.help = Some(format!(
                "`{}` = {} would do it (it is {}), and {rest}; look at the whole report again",
                c.name,
                text(c.to),
                text(c.from)
            ));
        }
        None if !moving.is_empty() => {
            let also = finding.help.take().unwrap_or_default();
            finding.help = Some(format!(
                "no parameter alone meets it within its range without breaking another demand; {also}"
            ));
        }
        None => {}
    }
}

/// A number without needless decimals.
fn plain(v: f64) -> String {
    let text = format!("{v:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
