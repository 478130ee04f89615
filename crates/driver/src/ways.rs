//! What closes on a child's finger on the way from one stop of an adjustment to the next, or into a state.
//!
//! The design is built again at positions in between, by its own text: a part that the text turns goes along its arc. Ways
//! that the text does not say (of a lever, of a part that is put on) cannot be followed, and that is told.

use crate::sides::without_side;
use crate::words::Words;
use crate::{Options, Project};
use chairwright_checks::{Assumed, Caught, Checked, Stage, caught};
use chairwright_design::{Design, Param};
use chairwright_diagnostics::{Diagnostic, SourceId, Span};
use chairwright_frame::frame;
use chairwright_language::{Choice, Setting};
use chairwright_syntax::parse_expression;
use std::collections::BTreeMap;

/// No part goes further than this between two positions, in metres: two parts that move against each other come nearer by
/// less than the eleven millimetres that the band is wide.
const STEP: f64 = 0.004;
/// How wide the band is, in metres: what goes further between two positions may jump over it.
const BAND: f64 = 0.011;
/// Positions that one design is built in for all of its ways.
const POSITIONS: usize = 200;
/// Pairs beside the narrowest that are named.
const NAMED: usize = 6;

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
    /// Looks at every way of a child's chair; nothing for anybody else.
    pub(crate) fn traps(
        &self,
        options: &Options,
        settings: &[Setting],
        (design, checked): (&Design, &Checked),
        words: &Words<'_>,
    ) -> Looked {
        let mut out = Looked::default();
        if !checked.assumptions.contains(&Assumed::FingersWhereItStands) {
            return out;
        }
        let grows = design.rider.get("after").is_some_and(|a| a > 0.0);
        let ways = match &options.situation.state {
            None => design.params.iter().filter_map(adjusted).collect(),
            Some(state) if grows => {
                out.assumptions.push(format!(
                    "the way into state {state}: parts are made anew for a grown rider, and what closes on a child's finger \
                     meanwhile was not looked for"
                ));
                Vec::new()
            }
            Some(state) => self.way_to(options, settings, design, state).into_iter().collect(),
        };
        let share = POSITIONS / ways.len().max(1);
        for way in &ways {
            let (stages, coarse) = self.follow(options, settings, way, share);
            out.assumptions.push(told(way, stages.len(), coarse, words));
            let mut found = caught(&stages.iter().map(|s| s.1.clone()).collect::<Vec<_>>(), way.remade);
            found.sort_by(|a, b| a.hole.is_some().cmp(&b.hole.is_some()).then(a.gap.total_cmp(&b.gap)));
            let (gaps, holes) = found.split_at(found.iter().take_while(|c| c.hole.is_none()).count());
            let at = |c: &Caught| stages.get(c.at).map(|(values, _)| values.as_slice()).unwrap_or_default();
            for all in [gaps, holes] {
                let Some((first, rest)) = all.split_first() else { continue };
                let mut said = words.caught(first, &way.words, &place(way, at(first)));
                said.about.extend(way.dials.iter().map(|(name, _)| name.clone()));
                out.problems.push(others(said, first, rest));
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
        most: usize,
    ) -> (Vec<(Vec<f64>, Stage)>, f64) {
        let stage = |values: &[f64]| self.stage(options, settings, way, values);
        let mut open: Vec<(Vec<f64>, Stage)> =
            starts(way).into_iter().filter_map(|v| Some((v.clone(), stage(&v)?))).collect();
        let gap = |pair: &[(Vec<f64>, Stage)]| pair[0].1.travel(&pair[1].1);
        let mut travels: Vec<f64> = open.windows(2).map(gap).collect();
        while open.len() < most {
            let longest = (0..travels.len()).max_by(|a, b| travels[*a].total_cmp(&travels[*b]));
            let Some(k) = longest.filter(|k| travels[*k] > STEP) else { break };
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
    let words = format!("as `{}` goes from {first:.4} {unit} to {last:.4} {unit}", param.name);
    let words = words.replace(".0000", "");
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
fn told(way: &Way, positions: usize, coarse: f64, words: &Words<'_>) -> String {
    let all = "gaps that close on a child's finger";
    if positions < 2 {
        return format!("{all} {}: not looked at, for the chair could not be drawn in between", way.words);
    }
    let made = if way.remade { "; parts whose shape changes are taken as made anew for it" } else { "" };
    let far = words.length(coarse);
    let missed = if coarse > BAND { ", so that one may have been missed" } else { "" };
    format!(
        "{all} {}: looked at in {positions} positions, no part going further than {far} from one to the next{missed}{made}; every \
         other dimension as drawn",
        way.words
    )
}

/// Adds the names of what else is caught on the same way; both sides count once.
fn others(said: Diagnostic, first: &Caught, rest: &[Caught]) -> Diagnostic {
    let name = |c: &Caught| match &c.hole {
        Some(hole) => format!("`{}`", without_side(hole)),
        None => format!("`{}` and `{}`", without_side(&c.one), without_side(&c.other)),
    };
    let mut names: Vec<String> = Vec::new();
    for n in rest.iter().map(name) {
        if n != name(first) && !names.contains(&n) {
            names.push(n);
        }
    }
    let more = match names.len().saturating_sub(NAMED) {
        0 => String::new(),
        n => format!(", and {n} more"),
    };
    names.truncate(NAMED);
    match names.is_empty() {
        true => said,
        false => said.note(format!("on the same way also {}{more}", names.join(", "))),
    }
}

impl Words<'_> {
    /// Something that catches a finger on the way.
    fn caught(&self, c: &Caught, way: &str, at: &str) -> Diagnostic {
        let (one, other) = (&c.one, &c.other);
        let (low, high) = (self.length(c.band.0), self.length(c.band.1));
        let owner = |name: &str| self.part_origin(name);
        let put = |said: Diagnostic, label: String| match owner(one) {
            Some(origin) => self.placed(said, origin, label),
            None => said.note(label),
        };
        let also = |said: Diagnostic| match owner(other) {
            Some(origin) => self.related(said, origin, "the other part"),
            None => said,
        };
        match &c.hole {
            Some(hole) => {
                let headline = format!("`{other}` shears a child's finger in the hole `{hole}` {way}");
                let label =
                    format!("{} across, covered at {at} and open elsewhere on the way", self.length(c.gap));
                also(put(Diagnostic::new("finger-trap", headline), label))
                    .note(format!("an edge that passes an opening of {low} to {high} shears what is in it"))
                    .help(format!(
                        "drill the hole narrower than {low}, put a cap over it, or let nothing end behind it"
                    ))
            }
            None => {
                let headline = format!("a child's finger is caught between `{one}` and `{other}` {way}");
                let label = format!("{} between them at {at}", self.length(c.gap));
                also(put(Diagnostic::new("finger-trap", headline), label))
                    .note(format!(
                        "they move against each other: a gap that passes through {high} to {low} shears or squeezes a finger"
                    ))
                    .help(format!(
                        "leave {high} or more between them all the way, keep them nearer than {low} all the way, or cover the gap; where only a grown-up sets it, say so: accept \"finger-trap\" about NAME because \"…\""
                    ))
            }
        }
    }
}
