//! What closes on a child's finger on the way from one stop of an adjustment to the next, or into a state; and, whosever chair
//! it is, what runs into each other there.
//!
//! The design is built again at positions in between, by its own text: a part that the text turns goes along its arc. Ways
//! that the text does not say (of a lever, of a part that is put on) cannot be followed, and that is told.

use crate::sides::without_side;
use crate::teach::plain;
use crate::words::Words;
use crate::words_ways::{others, pair_name, trap_name};
use crate::{Options, Project};
use chairwright_checks::{Assumed, Caught, Checked, Collided, Stage, caught, collided};
use chairwright_design::{Design, Param};
use chairwright_diagnostics::{Diagnostic, SourceId, Span};
use chairwright_frame::frame;
use chairwright_language::{Accept, Choice, Setting};
use chairwright_syntax::parse_expression;
use std::collections::BTreeMap;

/// No part goes further than this between two positions, in metres: two parts that move against each other come nearer by
/// less than the eleven millimetres that the band is wide.
const STEP: f64 = 0.004;
/// How wide the band is, in metres: what goes further between two positions may jump over it.
const BAND: f64 = 0.011;
/// Positions that one design is built in for all of its ways.
const POSITIONS: usize = 200;
/// The same where nobody looks for fingers: thin bars and boards that pass each other are seen.
const STRIDE: f64 = 0.012;

/// One way: what is changed together, and through which values.
struct Way {
    /// In words: `as axle_ahead goes from 20 mm to 38 mm`.
    words: String,
    /// Names and units.
    dials: Vec<(String, String)>,
    /// Values at the places that the text gives, in order.
    knots: Vec<Vec<f64>>,
    /// Whether parts whose shape changes are made anew for it.
    remade: bool,
}

/// What came of the ways.
#[derive(Default)]
pub(crate) struct Looked {
    pub problems: Vec<Diagnostic>,
    pub assumptions: Vec<String>,
}

impl Project {
    /// Looks at every way: what runs into each other, and of a child's chair what closes on a finger.
    pub(crate) fn along_ways(
        &self,
        options: &Options,
        settings: &[Setting],
        (design, checked): (&Design, &Checked),
        (words, accepts): (&Words<'_>, &[Accept]),
    ) -> Looked {
        let mut out = Looked::default();
        let child = checked.assumptions.contains(&Assumed::FingersWhereItStands);
        let grows = design.rider.get("after").is_some_and(|a| a > 0.0);
        let ways: Vec<Way> = match &options.situation.state {
            None => design.params.iter().filter_map(adjusted).collect(),
            Some(state) if grows => {
                let finger = if child { ", or closes on a child's finger," } else { "" };
                out.assumptions.push(format!(
                    "the way into state {state}: parts are made anew for a grown rider, and what runs into each other{finger} \
                     meanwhile was not looked for"
                ));
                Vec::new()
            }
            Some(state) => self.way_to(options, settings, design, state).into_iter().collect(),
        };
        let share = POSITIONS / ways.len().max(1);
        for way in &ways {
            let step = if child { STEP } else { STRIDE };
            let (positions, coarse) = self.follow(options, settings, way, (share, step));
            out.assumptions.push(told(way, (positions.len(), coarse), child, words));
            let (values, stages): (Vec<Vec<f64>>, Vec<Stage>) = positions.into_iter().unzip();
            let seen = Seen { way, values, stages, words, accepts };
            seen.collisions(&mut out.problems);
            if child {
                seen.traps(&mut out.problems);
            }
        }
        out
    }

    /// The way into a state: everything that it sets, together.
    fn way_to(&self, options: &Options, settings: &[Setting], there: &Design, state: &str) -> Option<Way> {
        let here = self.drawn(options, settings)?;
        let before: BTreeMap<&str, &Param> = here.params.iter().map(|p| (p.name.as_str(), p)).collect();
        let both = there.params.iter().filter_map(|p| {
            let (from, to) = (before.get(p.name.as_str())?.dial.as_ref()?, p.dial.as_ref()?);
            (from.unit == to.unit && from.now != to.now)
                .then(|| ((p.name.clone(), to.unit.clone()), (from.now, to.now)))
        });
        let (dials, ends): (Vec<_>, Vec<(f64, f64)>) = both.unzip();
        let knots = vec![ends.iter().map(|e| e.0).collect(), ends.iter().map(|e| e.1).collect()];
        let words = format!("on the way into state {state}");
        (!dials.is_empty()).then_some(Way { words, dials, knots, remade: true })
    }

    fn drawn(&self, options: &Options, settings: &[Setting]) -> Option<Design> {
        let choice = Choice { variant: options.variant.as_deref(), settings, ..Choice::default() };
        let built = self.program(choice).0.build(&self.tables);
        (!built.incomplete).then_some(built.design)
    }

    /// The positions of a way, in order, and how far some part goes between two of them at most. The longest stretch is
    /// halved first.
    fn follow(
        &self,
        options: &Options,
        settings: &[Setting],
        way: &Way,
        (most, step): (usize, f64),
    ) -> (Vec<(Vec<f64>, Stage)>, f64) {
        let stage = |values: &[f64]| self.stage(options, settings, way, values);
        let mut open: Vec<(Vec<f64>, Stage)> =
            starts(way).into_iter().filter_map(|v| Some((v.clone(), stage(&v)?))).collect();
        let gap = |pair: &[(Vec<f64>, Stage)]| pair[0].1.travel(&pair[1].1);
        let mut travels: Vec<f64> = open.windows(2).map(gap).collect();
        while open.len() < most {
            let longest = (0..travels.len()).max_by(|a, b| travels[*a].total_cmp(&travels[*b]));
            let Some(k) = longest.filter(|k| travels[*k] > step) else { break };
            let middle: Vec<f64> = open[k].0.iter().zip(&open[k + 1].0).map(|(a, b)| (a + b) / 2.0).collect();
            let Some(between) = stage(&middle) else { break };
            open.insert(k + 1, (middle, between));
            travels.splice(k..=k, [gap(&open[k..k + 2]), gap(&open[k + 1..k + 3])]);
        }
        (open, travels.into_iter().fold(0.0, f64::max))
    }

    /// The chair at one position, as the text draws it there.
    fn stage(&self, options: &Options, settings: &[Setting], way: &Way, values: &[f64]) -> Option<Stage> {
        let mut all: Vec<Setting> =
            settings.iter().filter(|s| !way.dials.iter().any(|(name, _)| *name == s.name)).cloned().collect();
        for ((name, unit), value) in way.dials.iter().zip(values) {
            // nobody sees this text: a place in it is never told
            let text = format!("{value:.9} {unit}");
            let value = parse_expression(SourceId(0), text.trim()).ok()?;
            all.push(Setting { name: name.clone(), span: Span::new(SourceId(0), 0, 0), value });
        }
        let design = self.drawn(options, &all)?;
        Some(Stage::new(&design, &frame(&design)))
    }
}

/// One way with the positions that were looked at.
struct Seen<'s> {
    way: &'s Way,
    values: Vec<Vec<f64>>,
    stages: Vec<Stage>,
    words: &'s Words<'s>,
    accepts: &'s [Accept],
}

impl Seen<'_> {
    fn place(&self, at: usize) -> String {
        place(self.way, self.values.get(at).map(Vec::as_slice).unwrap_or_default())
    }

    /// Whether the text itself sets the chair there.
    fn is_set(&self, at: usize) -> bool {
        self.values.get(at).is_some_and(|v| self.way.knots.contains(v))
    }

    fn dials(&self) -> impl Iterator<Item = String> {
        self.way.dials.iter().map(|(name, _)| name.clone())
    }

    /// What closes on a finger.
    fn traps(&self, problems: &mut Vec<Diagnostic>) {
        let mut found = caught(&self.stages, self.way.remade);
        found.sort_by(|a, b| a.hole.is_some().cmp(&b.hole.is_some()).then(a.gap.total_cmp(&b.gap)));
        let (gaps, holes) = found.split_at(found.iter().take_while(|c| c.hole.is_none()).count());
        let subjects = |c: &Caught| self.words.subjects(c);
        for all in [gaps, holes].into_iter().flat_map(|all| self.asunder("finger-trap", all, &subjects)) {
            let Some((first, rest)) = all.split_first() else { continue };
            let mut said = self.words.caught(first, &self.way.words, &self.place(first.at));
            said.about.extend(self.dials().chain(all.iter().flat_map(|c| subjects(c))));
            problems.push(others(said, &trap_name(first), rest.iter().map(|c| trap_name(c))));
        }
    }

    /// What runs into each other: where the text sets the chair, and else in between.
    fn collisions(&self, problems: &mut Vec<Diagnostic>) {
        let found = collided(&self.stages, self.way.remade);
        let at_rest = |c: &Collided| c.worst(|k| self.is_set(k));
        let (set, between): (Vec<Collided>, Vec<Collided>) =
            found.into_iter().partition(|c| at_rest(c).is_some());
        let subjects =
            |c: &Collided| [&c.one, &c.other].into_iter().flat_map(|n| self.words.called(n)).collect();
        for (some, set) in [(set, true), (between, false)] {
            let worst = |c: &Collided| if set { at_rest(c) } else { c.worst(|_| true) };
            let mut some = some;
            let depth = |c: &Collided| worst(c).map_or(0.0, |w| w.1);
            some.sort_by(|a, b| depth(b).total_cmp(&depth(a)));
            for all in self.asunder("parts-collide", &some, &subjects) {
                let Some(((first, rest), (at, depth))) = all.split_first().and_then(|s| Some((s, worst(s.0)?)))
                else {
                    continue;
                };
                let where_to = (self.way.words.as_str(), self.place(at));
                let mut said = self.words.collided(first, (where_to.0, &where_to.1), depth, set);
                said.about.extend(self.dials().chain(all.iter().flat_map(|c| subjects(c))));
                let name = |c: &Collided| pair_name(&c.one, &c.other);
                problems.push(others(said, &name(first), rest.iter().map(|c| name(c))));
            }
        }
    }

    /// What is told together: what the text accepts by a name of the pair, on either side, stands apart, so that it takes
    /// nothing else with it.
    fn asunder<'c, T>(
        &self,
        code: &str,
        all: &'c [T],
        subjects: &dyn Fn(&T) -> Vec<String>,
    ) -> Vec<Vec<&'c T>> {
        let own = self.accepts.iter().filter(|a| a.code == code);
        let named: Vec<&String> = own.filter_map(|a| a.about.as_ref()).collect();
        let mut groups: Vec<Vec<&T>> = (0..=named.len()).map(|_| Vec::new()).collect();
        for one in all {
            let names = subjects(one);
            let meant = |n: &&String| names.iter().any(|s| without_side(s) == without_side(n));
            groups[named.iter().position(meant).unwrap_or(named.len())].push(one);
        }
        groups
    }
}

/// The way of one adjustable dimension through all of its stops.
fn adjusted(param: &Param) -> Option<Way> {
    param.stops.as_ref()?;
    let dial = param.dial.as_ref()?;
    let mut knots = match dial.range {
        _ if !dial.stops.is_empty() => dial.stops.clone(),
        Some((low, high)) => vec![low, high],
        None => return None,
    };
    knots.sort_by(f64::total_cmp);
    let (first, last) = (knots.first()?, knots.last()?);
    let unit = &dial.unit;
    let (from, to) = (plain(*first), plain(*last));
    let words = format!("as `{}` goes from {from} {unit} to {to} {unit}", param.name);
    let knots: Vec<Vec<f64>> = knots.into_iter().map(|v| vec![v]).collect();
    (knots.len() > 1).then(|| Way {
        words,
        dials: vec![(param.name.clone(), unit.clone())],
        knots,
        remade: false,
    })
}

/// Where a way is looked at first: at the places that the text gives, and for angles between them, for what is turned all
/// around ends where it began.
fn starts(way: &Way) -> Vec<Vec<f64>> {
    let parts = if way.dials.iter().any(|(_, unit)| unit == "deg") { 4 } else { 1 };
    let mut out = Vec::new();
    for pair in way.knots.windows(2) {
        for k in 0..parts {
            let share = f64::from(k) / f64::from(parts);
            out.push(pair[0].iter().zip(&pair[1]).map(|(a, b)| a + (b - a) * share).collect());
        }
    }
    out.extend(way.knots.last().cloned());
    out
}

/// A position in words.
fn place(way: &Way, values: &[f64]) -> String {
    let each = way.dials.iter().zip(values).map(|((name, unit), v)| {
        let number = format!("{v:.1}");
        format!("{name} = {} {unit}", number.trim_end_matches(".0")).trim().to_owned()
    });
    each.take(2).collect::<Vec<_>>().join(", ")
}

/// What was looked at, in words.
fn told(way: &Way, (positions, coarse): (usize, f64), child: bool, words: &Words<'_>) -> String {
    let all = match child {
        true => "gaps that close on a child's finger, and parts that run into each other,",
        false => "parts that run into each other",
    };
    if positions < 2 {
        return format!("{all} {}: not looked at, for the chair could not be drawn in between", way.words);
    }
    let made = if way.remade { "; parts whose shape changes are taken as made anew for it" } else { "" };
    let far = words.length(coarse);
    let missed = match child {
        true if coarse > BAND => ", so that one may have been missed",
        false if coarse > STRIDE => ", so that something thinner may have been missed",
        _ => "",
    };
    format!(
        "{all} {}: looked at in {positions} positions, no part going further than {far} from one to the next{missed}{made}; every \
         other dimension as drawn",
        way.words
    )
}
