//! What would mend it: for each demand that fails and each finding that hangs on sizes, the parameters that move it most,
//! and a change of one of them, or else of two or three, that mends it and breaks nothing else. Each is found by compiling the
//! changed design again, and what it does to fit that no rule judges is said.

mod alone;
mod asked;
mod change;
mod cost;
mod elsewhere;
mod ends;
mod finding;
mod lightly;
mod moves;
mod plain;
mod target;
mod together;

use crate::same::Identity;
use crate::{Compilation, Options, Project, StrengthWanted};
use alone::outward;
use asked::{Asked, Kept};
use chairwright_design::{Dial, Param};
use chairwright_diagnostics::{Diagnostic, Severity};
use chairwright_quantity::Quantity;
pub(crate) use change::plain;
use change::{Change, Turn};
use elsewhere::Place;
use finding::{bearings, is_measured, measures};
use moves::Move;
use plain::Plain;
use target::{Target, is_about, room, targets, upward};
use together::Sought;

/// Parameters that are tried.
const DIALS: usize = 40;
/// Failing demands, and findings, that are worked on.
const FAILING: usize = 8;
/// How far a value is shifted to see what it moves, as a share of its range or of itself.
const NUDGE: f64 = 0.01;
/// A room that is lacking by less than this is lost in the last digits: whether a demand is met then, its finding says.
const HAIR: f64 = -1e-12;

/// One parameter and what turning it up by one unit does to each target.
struct Slope {
    name: String,
    dial: Dial,
    by_target: Vec<f64>,
    /// Where it is no parameter, but stands as a plain number.
    plain: Option<Plain>,
}

/// All that a change is sought with, for one chair.
struct Lesson<'l> {
    /// What has to be kept where a requirement or an error is mended.
    gravely: Asked,
    /// The same where a preference or a warning is: no other may break for it.
    lightly: Asked,
    slopes: &'l [Slope],
    /// What is said of the chair as it is.
    there: &'l [Diagnostic],
    /// Whether these are sizes that stand as plain numbers.
    plainly: bool,
    /// Compiles that are left for two or three parameters together.
    pairs: usize,
    /// The same for the ends of what is uncertain.
    ends: usize,
    /// States and stops that a change is tried in as well, from the first change on.
    places: Option<Vec<Place>>,
}

impl Lesson<'_> {
    /// What has to be kept for a target.
    fn asked(&self, target: usize) -> Asked {
        if target < self.gravely.goals.len() { self.gravely.clone() } else { self.lightly.clone() }
    }
}

impl Slope {
    /// The range, or the value itself where it has none.
    fn width(&self) -> f64 {
        self.dial.range.map_or(self.dial.now.abs(), |(low, high)| high - low).max(1e-9)
    }

    /// Whether nothing goes along with it: what does moves a figure as much as the same size by itself, and is not told beside it.
    fn is_alone(&self) -> bool {
        self.plain.as_ref().is_none_or(|p| p.along.is_empty())
    }

    fn turn(&self, to: f64) -> Turn {
        let (name, unit, from) = (self.name.clone(), self.dial.unit.clone(), self.dial.now);
        Turn { name, unit, from, to, share: (to - from).abs() / self.width(), plain: self.plain.clone() }
    }

    fn change(&self, to: f64, kept: Kept) -> Change {
        Change::of(vec![self.turn(to)], kept)
    }
}

impl Project {
    /// Adds to each finding about a failed demand, and to each that hangs on sizes, what would mend it. Preferences and warnings get it,
    /// and changes are tried at the ends of tolerances, only where it is to be thorough: each takes some fifty compiles.
    pub fn teach(&mut self, options: &Options, c: &mut Compilation, thorough: bool) {
        let (all, required) = targets(c);
        let told = if thorough { all.len() } else { required };
        let failing: Vec<usize> = (0..told).filter(|i| all[*i].1.si() < 0.0).take(FAILING).collect();
        let goals: Vec<Target> = all.iter().map(|t| t.0.clone()).collect();
        let about = |p: &Diagnostic| goals.iter().any(|g| is_about(p, g));
        let found = |p: &Diagnostic| is_measured(p, thorough) && !about(p);
        let mut others: Vec<usize> = (0..c.problems.len()).filter(|k| found(&c.problems[*k])).collect();
        others.sort_by_key(|k| c.problems[*k].severity);
        others.truncate(FAILING);
        if failing.is_empty() && others.is_empty() {
            return;
        }
        // what is tried is compiled as deep as this, and no deeper
        let base = self.turned(options, &[]);
        let light = (options.strength != StrengthWanted::Nothing).then(|| self.turned_lightly(options, &[]));
        let light = light.as_ref();
        let there: Vec<Identity> = base.problems.iter().map(Identity::of).collect();
        others.retain(|k| there.contains(&Identity::of(&c.problems[*k])));
        let mut moved = goals.clone();
        for t in others.iter().flat_map(|k| measures(c, &c.problems[*k])) {
            if !moved.contains(&t) {
                moved.push(t);
            }
        }
        let mended: Vec<&Target> = failing.iter().map(|i| &goals[*i]).chain(&moved[goals.len()..]).collect();
        // what a parameter does to a verdict of strength takes all load cases to see, and is seen where it is sought
        let deep = light.is_none_or(|l| lightly::of_strength(&base, l, &mended));
        let seen = if deep {
            options.clone()
        } else {
            Options { strength: StrengthWanted::Nothing, ..options.clone() }
        };
        let slopes = self.slopes(&seen, c, &moved);
        let mut lesson = Lesson {
            gravely: Asked::of((&base, light), &goals[..required], Severity::Error),
            lightly: Asked::of((&base, light), &goals, Severity::Warning),
            slopes: &slopes,
            there: &base.problems,
            plainly: false,
            pairs: together::BUDGET,
            ends: if thorough { ends::BUDGET } else { 0 },
            places: if thorough { None } else { Some(Vec::new()) },
        };
        let mut failing = self.teach_demands(options, c, (&all, &failing), &mut lesson);
        let mut others = self.teach_findings(options, c, &moved, &others, &mut lesson);
        failing.truncate(plain::FAILING);
        others.truncate(plain::FAILING - failing.len());
        if thorough && !(failing.is_empty() && others.is_empty()) {
            let slopes = self.plain_slopes(&seen, &moved);
            let mut lesson = Lesson { slopes: &slopes, plainly: true, pairs: 0, ..lesson };
            self.teach_demands(options, c, (&all, &failing), &mut lesson);
            self.teach_findings(options, c, &moved, &others, &mut lesson);
        }
    }

    /// Hands back those that nothing was found for.
    fn teach_findings(
        &mut self,
        options: &Options,
        c: &mut Compilation,
        moved: &[Target],
        others: &[usize],
        lesson: &mut Lesson<'_>,
    ) -> Vec<usize> {
        let mut left = Vec::new();
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
            let bearing = bearings(finding, lesson.slopes, &values);
            let change = self.way_out(options, c, (moved, finding), &bearing, lesson);
            let of = |b: &finding::Bearing<'_>| {
                let (_, figure, now) = measured.iter().find(|(i, ..)| *i == b.figure)?;
                Some((b.figure, figure.as_str(), now.dimension))
            };
            let alone = bearing.iter().filter(|b| b.slope.is_alone());
            let moves = alone.filter_map(|b| Some((b, of(b)?)));
            let moves = moves.map(|(b, (target, figure, dimension))| Move {
                slope: b.slope,
                target,
                dimension,
                of: Some(figure),
                sign: 1.0,
            });
            let (moves, display) = (moves.collect(), c.display());
            moves::note(&mut c.problems[*at], moves, &display);
            let Some(change) = change else {
                left.push(*at);
                continue;
            };
            // a repair that was computed for it alone stands first
            let own = c.problems[*at].help.take().map_or(String::new(), |h| format!("{h}; or "));
            c.problems[*at].help = Some(format!("{own}{}", change.words()));
        }
        left
    }

    /// Hands back those that nothing was found for.
    fn teach_demands(
        &mut self,
        options: &Options,
        c: &mut Compilation,
        (all, failing): (&[(Target, Quantity)], &[usize]),
        lesson: &mut Lesson<'_>,
    ) -> Vec<usize> {
        let mut left = Vec::new();
        for &i in failing {
            let target = &all[i].0;
            let Some(at) = c.problems.iter().position(|p| is_about(p, target)) else { continue };
            let slopes = lesson.slopes;
            let mut moving: Vec<&Slope> = slopes.iter().filter(|s| s.by_target[i].abs() > 1e-12).collect();
            moving.sort_by(|a, b| weight(b, i).total_cmp(&weight(a, i)));
            if lesson.plainly {
                moving.truncate(plain::TRIED);
            }
            let change = self.demanded(options, c, (i, target), &moving, lesson);
            let dimension = all[i].1.dimension;
            let sign = upward(c, target);
            let alone = moving.iter().filter(|s| s.is_alone());
            let moves = alone.map(|slope| Move { slope, target: i, dimension, of: None, sign }).collect();
            let display = c.display();
            advise(&mut c.problems[at], change.as_ref(), !moving.is_empty() && !lesson.plainly);
            moves::note(&mut c.problems[at], moves, &display);
            if change.is_none() {
                left.push(i);
            }
        }
        left
    }

    /// A change that meets a demand.
    fn demanded(
        &mut self,
        options: &Options,
        c: &Compilation,
        (i, target): (usize, &Target),
        moving: &[&Slope],
        lesson: &mut Lesson<'_>,
    ) -> Option<Change> {
        let asked = lesson.asked(i);
        let has = |c: &Compilation| (meets(c, target), room(c, target).map(Quantity::si));
        let sought = Sought { target: i, room: asked.before.rooms[i]?, sign: 1.0, strictly: true, has: &has };
        let alone = self.change(options, &asked, &sought, moving);
        let (slopes, pairs) = (lesson.slopes, &mut lesson.pairs);
        let change =
            alone.or_else(|| self.together(options, (&asked, &sought), (moving, slopes, &mut *pairs)))?;
        Some(self.costed(options, c, (&asked, &sought), lesson, change))
    }

    /// What each parameter does to each target.
    fn slopes(&mut self, options: &Options, c: &Compilation, goals: &[Target]) -> Vec<Slope> {
        let of = |p: &Param| {
            Some(Slope { name: p.name.clone(), dial: p.dial.clone()?, by_target: Vec::new(), plain: None })
        };
        let dials: Vec<Slope> = c.design.params.iter().filter_map(of).take(DIALS).collect();
        self.measured(options, dials, goals)
    }

    /// The same of parameters, or of plain sizes, that are given; those that cannot be turned are left out.
    fn measured(&mut self, options: &Options, dials: Vec<Slope>, goals: &[Target]) -> Vec<Slope> {
        let mut out = Vec::new();
        for mut slope in dials {
            let Some((low, high)) = nudged(&slope.dial) else { continue };
            let mut rooms = |value: f64| -> Vec<Option<f64>> {
                let tried = self.turned(options, &[(&slope, value)]);
                goals.iter().map(|g| room(&tried, g).map(Quantity::si)).collect()
            };
            let (a, b) = (rooms(low), rooms(high));
            let rate = |(a, b): (&Option<f64>, &Option<f64>)| match (a, b) {
                (Some(a), Some(b)) => (b - a) / (high - low),
                _ => 0.0,
            };
            slope.by_target = a.iter().zip(&b).map(rate).collect();
            out.push(slope);
        }
        out
    }

    /// The design with parameters at other values. Findings hang on the verdicts of strength alone.
    fn turned(&mut self, options: &Options, turns: &[(&Slope, f64)]) -> Compilation {
        let mut changed = options.clone();
        if changed.strength == StrengthWanted::Whole {
            changed.strength = StrengthWanted::Verdicts;
        }
        for (slope, value) in turns {
            if let Some(plain) = &slope.plain {
                changed.nudges.extend(plain.turned(*value));
                continue;
            }
            changed.settings.retain(|(n, _)| *n != slope.name);
            changed.situation.picks.retain(|p| p.name != slope.name);
            let written = format!("{value:.6} {}", slope.dial.unit).trim().to_owned();
            changed.settings.push((slope.name.clone(), written));
        }
        self.quietly(&changed)
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

/// Whether no finding is about a target, and its room is there.
fn meets(c: &Compilation, target: &Target) -> bool {
    room(c, target).is_some_and(|r| r.si() >= HAIR) && !c.problems.iter().any(|p| is_about(p, target))
}

/// Said before the help that a finding has of its own, where no parameter meets it.
const NO_PARAMETER: &str = "no parameter alone meets it within its range without breaking another demand or leaving the body no \
                            room, and no two or three together were found that do; ";

/// Puts it into the words of a demand's finding, which has another help that is worth less.
fn advise(finding: &mut Diagnostic, change: Option<&Change>, moves: bool) {
    match change {
        Some(c) => {
            let before = if finding.help.as_ref().is_some_and(|h| h.starts_with(NO_PARAMETER)) {
                NO_PARAMETER
            } else {
                ""
            };
            finding.help = Some(format!("{before}{}", c.words()));
        }
        None if moves => {
            // one finding may stand for two figures, left and right: what is known by now is not said again
            let also = finding.help.take().unwrap_or_default();
            let also = also.trim_start_matches(NO_PARAMETER);
            finding.help = Some(format!("{NO_PARAMETER}{also}"));
        }
        None => {}
    }
}
