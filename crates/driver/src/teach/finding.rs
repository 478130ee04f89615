//! Findings that hang on the chair's sizes without being a demand of the text: which figures tell how near they are, and
//! which change of one parameter makes them go away.

use super::asked::Asked;
use super::together::Sought;
use super::{Change, Lesson, Slope, outward};
use crate::same::Identity;
use crate::teach::target::{Target, room};
use crate::{Compilation, Options, Project};
use chairwright_diagnostics::{Diagnostic, Severity};
use chairwright_quantity::Quantity;

/// Whether more of a figure is better or worse for a finding, or either.
#[derive(Clone, Copy, PartialEq, Debug)]
enum Better {
    More,
    Less,
    Either,
}
use Better::{Either, Less, More};

/// Figures of a finding, with what is better; a name that ends in `*` is that of many.
type Measures = &'static [(&'static str, Better)];

/// Verdicts of strength are not among them: `strengthen` has its own changes for those. Nor are findings that no figure measures, as
/// a lock out of the hand's reach.
const MEASURES: &[(&str, Measures)] = &[
    ("under-bones", &[("seat.width", More), ("fit.hips.between", More)]),
    ("caster-hits-foot", &[("gap.caster.foot", More)]),
    (
        "caster-hits",
        &[
            ("gap.caster.frame", More),
            ("gap.caster.footrest", More),
            ("gap.caster.wheel", More),
            ("gap.caster.caster", More),
        ],
    ),
    ("tyre-rubs", &[("gap.tyre.side", More)]),
    ("wheel-stuck", &[("gap.wheel.removal", More)]),
    ("wheel-overloaded", &[("wheel.load.*", Less), ("caster.load.*", Less)]),
    ("idle-anti-tip", &[("antitip.touch", Less), ("antitip.tip", More)]),
    ("anti-tip-catches", &[("antitip.touch", More)]),
    ("grounds", &[("ramp.approach", More), ("ramp.breakover", More), ("ramp.departure", More)]),
    ("pitches-forward", &[("stop.speed", More), ("stop.speed.downhill", More)]),
    ("sill-too-high", &[("climb.factor.*", Less), ("climb.push.*", Less)]),
    ("slot-catches", &[("slot.drop", Less)]),
    ("too-steep-to-push", &[("push.slope.most", Less), ("push.most.*", Less)]),
    ("hand-overtaxed", &[("push.hand.most", Less)]),
    ("brakes-slip", &[("brake.need", Less), ("brake.holds", More)]),
    ("slides", &[("slide.uphill", More), ("slide.downhill", More)]),
    ("tips-when-pushed", &[("push.lift", More)]),
    ("drifts", &[("drift.force", Less)]),
    ("too-wide", &[("door.room", More), ("corridor.room", More), ("corridor.room.to", More)]),
    ("too-long-to-turn", &[("corner.room", More), ("turn.diameter", Less), ("turn.width", Less)]),
    ("under-table", &[("table.room", More), ("table.reach", More), ("table.over", More)]),
    ("too-tall", &[("head.room", More)]),
    ("transfer-step", &[("transfer.bed", Either), ("transfer.toilet", Either)]),
    ("too-heavy-to-lift", &[("packed.mass", Less)]),
    ("rocks", &[("rock", Less)]),
    ("below-floor", &[("clearance.ground", More)]),
    ("stem-leans", &[("stem.lean.*", Less)]),
    ("short-trail", &[("caster.trail.*", More)]),
    ("wheel-toes", &[("toe.left", Either), ("toe.right", Either)]),
    ("odd-camber", &[("camber.left", Either), ("camber.right", Either)]),
    ("body-pressed", &[("fit.back.ease", More), ("fit.knee.room", More)]),
    ("rim-beyond-reach", &[("axle.below", Either), ("axle.ahead", Either)]),
    ("thumb-room", &[("gap.brake.rim", More)]),
    ("strikes-sill", &[("footrest.clearance", More), ("clearance.ground", More)]),
    (
        "tips-on-step",
        &[("tip.rear.locked", More), ("tip.rear.free", More), ("tip.forward.locked", More), ("tilt.*", Less)],
    ),
    ("tips-empty", &[("tip.empty", More)]),
    (
        "tips-when-turned",
        &[("tip.any", More), ("tip.any.leaning", More), ("tip.left", More), ("tip.right", More)],
    ),
    (
        "tips-before-baseline",
        &[("tip.rear.locked", More), ("tip.rear.free", More), ("tip.forward.locked", More), ("tip.side", More)],
    ),
    ("piece-too-short", &[("length.*", More)]),
    ("longer-than-stock", &[("cut.*", Less)]),
    ("boot-too-small", &[("packed.length", Less), ("packed.width", Less), ("packed.height", Less)]),
];

/// Codes that stand for several figures: which of them one is about that says this.
const SAYS: &[(&str, &str, &[&str])] = &[
    ("too-long-to-turn", "on the spot", &["turn.diameter", "turn.width"]),
    ("too-long-to-turn", "this corner", &["corner.room"]),
    ("under-table", "table ends", &["table.over"]),
    ("under-table", "knees", &["table.room"]),
    ("transfer-step", "the bed", &["transfer.bed"]),
    ("transfer-step", "the toilet", &["transfer.toilet"]),
    ("too-wide", "this door", &["door.room"]),
    ("too-wide", "corridor", &["corridor.room", "corridor.room.to"]),
];

/// Whether a finding is about a figure, as far as its words tell: one that it names, or that it says in other words.
fn says(finding: &Diagnostic, figure: &str) -> Option<bool> {
    let said =
        SAYS.iter().find(|(code, words, _)| *code == finding.code.name && finding.headline.contains(words));
    if let Some((.., figures)) = said {
        return Some(figures.contains(&figure));
    }
    let mut named = finding.headline.split('`').skip(1).step_by(2).peekable();
    named.peek()?;
    Some(named.any(|n| n == figure))
}

/// A parameter counts when its whole range moves a figure by this share of its value.
const LEAST: f64 = 0.005;
/// Parameters of which a way out is sought, for one finding.
const TRIED: usize = 3;
/// How far a parameter is turned, as shares of its range.
const TURNS: [f64; 6] = [1.0 / 32.0, 1.0 / 16.0, 1.0 / 8.0, 1.0 / 4.0, 1.0 / 2.0, 1.0];
/// Halvings between the last value that does not do and the first that does.
const HALVINGS: usize = 4;

/// The figures of a compilation by which a finding is measured: of many things alike, those of the things that it names.
pub(super) fn measures(c: &Compilation, finding: &Diagnostic) -> Vec<Target> {
    let code = finding.code.name;
    let fitting: Vec<&String> = c.figures.0.keys().filter(|n| better(code, n).is_some()).collect();
    let identity = Identity::of(finding);
    let is_of = |n: &str| identity.names().iter().any(|name| n.ends_with(&format!(".{name}")));
    let many = |n: &str| row(code).is_some_and(|(_, m)| !m.iter().any(|(of, _)| *of == n));
    let told = fitting.iter().any(|n| says(finding, n) == Some(true));
    let fitting = fitting.into_iter().filter(|n| !told || says(finding, n) == Some(true)).collect::<Vec<_>>();
    let some = fitting.iter().any(|n| many(n) && is_of(n));
    let kept = fitting.into_iter().filter(|n| !some || !many(n) || is_of(n));
    kept.map(|n| Target::Measure(n.clone())).collect()
}

fn row(code: &str) -> Option<&'static (&'static str, Measures)> {
    MEASURES.iter().find(|(c, _)| *c == code)
}

/// How a code's figures stand, more being better; those of many things at once tell nothing of one.
pub(super) fn depths<'c>(c: &'c Compilation, code: &str) -> impl Iterator<Item = (&'static str, f64)> + 'c {
    let measures = row(code).map_or(&[] as Measures, |(_, m)| *m);
    measures.iter().filter_map(|(figure, better)| {
        let value = c.figures.si(figure)?;
        match better {
            More => Some((*figure, value)),
            Less => Some((*figure, -value)),
            Either => None,
        }
    })
}

/// What is better of a figure for a finding; `None` where it does not measure it.
fn better(code: &str, figure: &str) -> Option<Better> {
    let (_, measures) = row(code)?;
    let fits = |of: &str| of.strip_suffix('*').map_or(figure == of, |stem| figure.starts_with(stem));
    measures.iter().find(|(of, _)| fits(of)).map(|(_, b)| *b)
}

/// One parameter as it bears on one finding: what it moves most, of its present value over the whole range.
pub(super) struct Bearing<'s> {
    pub slope: &'s Slope,
    /// Place of the figure among the targets.
    pub figure: usize,
    /// Up, down, or either way.
    way: f64,
    weight: f64,
    /// The figure's present value.
    now: f64,
}

/// Where a finding's figure was when it was gone.
#[derive(Clone, Copy)]
struct Gone {
    figure: usize,
    at: f64,
    /// Whether more of it is better (1) or less (-1).
    sign: f64,
}

impl Gone {
    /// What a chair lacks of it; below zero it is lacking.
    fn room(self, moved: &[Target], c: &Compilation) -> Option<f64> {
        room(c, &moved[self.figure]).map(|r| self.sign * (r.si() - self.at))
    }
}

/// The parameters that bear on a finding, the strongest first. `values` are the measures' present ones, by target.
pub(super) fn bearings<'s>(
    finding: &Diagnostic,
    slopes: &'s [Slope],
    measured: &[(usize, &str, f64)],
) -> Vec<Bearing<'s>> {
    let of = |slope: &'s Slope| {
        let width = slope.width();
        let each = measured.iter().map(|(i, name, now)| {
            let rate = slope.by_target[*i];
            let way = match better(finding.code.name, name) {
                Some(More) => rate.signum(),
                Some(Less) => -rate.signum(),
                Some(Either) | None => 0.0,
            };
            Bearing { slope, figure: *i, way, weight: (rate * width / now.abs().max(1e-3)).abs(), now: *now }
        });
        each.max_by(|a, b| a.weight.total_cmp(&b.weight)).filter(|b| b.weight > LEAST)
    };
    let mut out: Vec<Bearing<'s>> = slopes.iter().filter_map(of).collect();
    out.sort_by(|a, b| b.weight.total_cmp(&a.weight));
    out
}

impl Project {
    /// The least turn of one parameter, as a share of its range, or else of two or three, with which a finding is gone and nothing
    /// else is worse.
    pub(super) fn way_out(
        &mut self,
        options: &Options,
        c: &Compilation,
        (moved, finding): (&[Target], &Diagnostic),
        bearings: &[Bearing<'_>],
        lesson: &mut Lesson<'_>,
    ) -> Option<Change> {
        let error = finding.severity == Severity::Error;
        let asked = if error { lesson.gravely.clone() } else { lesson.lightly.clone() };
        let finding = Identity::of(finding);
        let is_gone = |c: &Compilation| !c.problems.iter().any(|p| finding.remains_in(p));
        let mut best: Option<(Change, usize)> = None;
        let mut gone: Option<Gone> = None;
        for b in bearings.iter().take(TRIED) {
            let ways: &[f64] = if b.way == 0.0 { &[1.0, -1.0] } else { &[b.way] };
            for way in ways {
                let sought = (&is_gone as &dyn Fn(&Compilation) -> bool, &moved[b.figure]);
                let (found, at) = self.turn_until_gone(options, &asked, sought, b.slope, *way);
                let sign = way * b.slope.by_target[b.figure].signum();
                gone = gone.or(at.filter(|_| b.way != 0.0).map(|at| Gone { figure: b.figure, at, sign }));
                if let Some(found) = found.filter(|f| f.is_better(best.as_ref().map(|b| &b.0))) {
                    best = Some((found, b.figure));
                }
            }
        }
        let slopes = lesson.slopes;
        let at_last = match &best {
            Some((change, figure)) => self.gone_with(options, (moved, slopes), change, *figure),
            None => gone,
        };
        let Some(at_last) = at_last else { return best.map(|b| b.0) };
        let has = |c: &Compilation| (is_gone(c), at_last.room(moved, c));
        let now = bearings.iter().find(|b| b.figure == at_last.figure)?.now;
        let (target, sign) = (at_last.figure, at_last.sign);
        let sought = Sought { target, room: sign * (now - at_last.at), sign, strictly: false, has: &has };
        let change = match best {
            Some((change, _)) => change,
            None => {
                let leading: Vec<&Slope> = bearings.iter().map(|b| b.slope).collect();
                self.together(options, (&asked, &sought), (&leading, slopes, &mut lesson.pairs))?
            }
        };
        Some(self.costed(options, c, (&asked, &sought), lesson, change))
    }

    /// Where a figure is with a change of one parameter.
    fn gone_with(
        &mut self,
        options: &Options,
        (moved, slopes): (&[Target], &[Slope]),
        change: &Change,
        figure: usize,
    ) -> Option<Gone> {
        let turn = change.turns.first()?;
        let slope = slopes.iter().find(|s| s.name == turn.name)?;
        let tried = self.turned(options, &[(slope, turn.to)]);
        let at = room(&tried, &moved[figure])?.si();
        let sign = (turn.to - turn.from).signum() * slope.by_target[figure].signum();
        Some(Gone { figure, at, sign })
    }

    /// The change, and where the figure was when the finding was first seen to be gone, whatever else was worse.
    fn turn_until_gone(
        &mut self,
        options: &Options,
        asked: &Asked,
        (is_gone, measure): (&dyn Fn(&Compilation) -> bool, &Target),
        slope: &Slope,
        way: f64,
    ) -> (Option<Change>, Option<f64>) {
        let mut seen: Option<f64> = None;
        let change = self.turn_while(options, asked, (slope, way), &mut |tried| {
            let gone = is_gone(tried);
            if gone && seen.is_none() {
                seen = room(tried, measure).map(Quantity::si);
            }
            gone
        });
        (change, seen)
    }

    fn turn_while(
        &mut self,
        options: &Options,
        asked: &Asked,
        (slope, way): (&Slope, f64),
        is_gone: &mut dyn FnMut(&Compilation) -> bool,
    ) -> Option<Change> {
        let dial = &slope.dial;
        let mut good = |value: f64| {
            if self.turned_down(options, asked, (None, &mut *is_gone), &[(slope, value)]).is_some() {
                return None;
            }
            let tried = self.turned(options, &[(slope, value)]);
            let gone = is_gone(&tried);
            asked.kept(&tried, None).filter(|_| gone)
        };
        if !dial.stops.is_empty() {
            let mut stops: Vec<f64> =
                dial.stops.iter().copied().filter(|s| (s - dial.now) * way > 1e-9).collect();
            stops.sort_by(|a, b| (a - dial.now).abs().total_cmp(&(b - dial.now).abs()));
            return stops.into_iter().find_map(|s| good(s).map(|all| slope.change(s, all)));
        }
        let (low, high) = dial.range.unwrap_or((f64::NEG_INFINITY, f64::INFINITY));
        let (mut short, mut done) = (dial.now, None);
        for share in TURNS {
            let to = outward(dial.now + way * share * slope.width(), dial.now, &dial.unit).clamp(low, high);
            if (to - short) * way <= 1e-9 {
                continue;
            }
            if let Some(all) = good(to) {
                done = Some((to, all));
                break;
            }
            short = to;
        }
        let (mut to, mut all) = done?;
        for _ in 0..HALVINGS {
            let half = outward(f64::midpoint(short, to), dial.now, &dial.unit);
            if (half - short) * way <= 1e-9 || (to - half) * way <= 1e-9 {
                break;
            }
            match good(half) {
                Some(found) => (to, all) = (half, found),
                None => short = half,
            }
        }
        Some(slope.change(to, all))
    }
}

/// Whether a finding is one that parameters may mend.
pub(super) fn is_measured(p: &Diagnostic, warnings: bool) -> bool {
    let heavy = p.severity == Severity::Error || (warnings && p.severity == Severity::Warning);
    heavy && MEASURES.iter().any(|(code, _)| *code == p.code.name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use chairwright_diagnostics::code;

    #[test]
    fn every_measured_finding_is_registered_and_its_figures_are_known() {
        let known: Vec<&str> = chairwright_language::figures::FIGURES.iter().map(|f| f.name).collect();
        for (name, measures) in MEASURES.iter().copied() {
            assert!(code(name).is_some(), "{name}");
            for (figure, _) in measures {
                assert!(known.contains(figure), "{name}: {figure}");
            }
        }
    }
}
