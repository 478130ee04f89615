//! Which of the values that are not certain move the results most: each is shifted by its tolerance and
//! the design worked out again.

use crate::{Compilation, Options, Project, StrengthWanted};
use chairwright_design::{Basis, Known, Side};
use chairwright_diagnostics::{Diagnostic, Severity, Span};
use chairwright_language::Nudge;
use chairwright_quantity::{Dimension, Quantity};
use std::collections::BTreeSet;

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

/// One uncertain value.
#[derive(Clone, Debug)]
pub struct Influence {
    /// The value.
    pub known: Known,
    /// By how much it was shifted either way, in the value's own unit.
    pub shift: f64,
    /// Whether the text says so; a usual error otherwise, tried one way.
    pub said: bool,
    /// All that it moves, the most of its margin first.
    pub effects: Vec<Effect>,
    /// How much of a margin it can use up; 1 uses it up.
    pub weight: f64,
    /// Errors that stand in the design at one of its ends and not as it is: at which value, in words, and which.
    pub raises: Vec<(String, String)>,
    /// Parts and joints that hold as the design is and of which nobody can tell at one of its ends: at which value, and what is said.
    pub doubts: Vec<(String, String)>,
}

impl Influence {
    /// What it moves most.
    #[must_use]
    pub fn effect(&self) -> Option<&Effect> {
        self.effects.first()
    }
}

/// Who asks for something of a figure.
#[derive(Clone, Copy, PartialEq, Eq)]
enum By {
    /// The demand at this place among the verdicts.
    Demand(usize),
    /// The use profile.
    Profile,
    /// The slope of the place, of the brakes.
    Brakes,
    /// Nobody.
    Nobody,
    /// The fit or the place.
    Soft,
}

/// What a demand hangs on: figure, what is watched of it, and how far it is from the limit. Where something is asked, what is
/// watched is the room left and not the figure: a value may move the limit alone.
struct Watch {
    figure: String,
    value: Quantity,
    margin: Option<f64>,
    by: By,
}

impl Watch {
    fn soft(&self) -> bool {
        self.by == By::Soft
    }

    /// What is watched in the same design with another value.
    fn again(&self, c: &Compilation, soft: &[Watch]) -> Option<f64> {
        match self.by {
            By::Demand(k) => {
                let v = c.verdicts.get(k).filter(|v| v.uses.first() == Some(&self.figure))?;
                match &v.comparison {
                    Some(x) => Some(x.left_value.si() - x.right_value.si()),
                    None => c.figures.si(&self.figure),
                }
            }
            By::Profile => {
                let m = c.checked.margins.iter().find(|m| m.figure == self.figure)?;
                m.has.map(|has| has - m.slope - m.margin)
            }
            By::Brakes => c.figures.si("brake.holds").zip(c.figures.si("brake.need")).map(|(h, n)| h - n),
            By::Nobody => c.figures.si(&self.figure),
            By::Soft => soft.iter().find(|x| x.figure == self.figure).map(|x| x.value.si()),
        }
    }
}

fn watched(c: &Compilation) -> Vec<Watch> {
    let mut all: Vec<Watch> = Vec::new();
    for (k, v) in c.verdicts.iter().enumerate() {
        let Some(figure) = v.uses.first().cloned() else { continue };
        let Some(dimension) = c.figures.0.get(&figure).map(|f| f.value.dimension) else { continue };
        let left =
            v.comparison.as_ref().map(|x| (x.left_value.si() - x.right_value.si(), x.left_value.dimension));
        let (value, dimension) = match left {
            Some(left) => left,
            None => (c.figures.si(&figure).unwrap_or(0.0), dimension),
        };
        let margin = left.map(|l| l.0.abs());
        all.push(Watch { figure, value: Quantity::from_si(value, dimension), margin, by: By::Demand(k) });
    }
    // the use profile's margins are tighter than most demands
    for m in &c.checked.margins {
        let (Some(has), Some(f)) = (m.has, c.figures.0.get(m.figure)) else { continue };
        let left = has - m.slope - m.margin;
        let value = Quantity::from_si(left, f.value.dimension);
        all.push(Watch { figure: m.figure.to_owned(), value, margin: Some(left.abs()), by: By::Profile });
    }
    if let Some((holds, need)) = c.figures.si("brake.holds").zip(c.figures.si("brake.need")) {
        let (figure, left) = ("brake.holds".to_owned(), holds - need);
        let value = Quantity::from_si(left, Dimension::FORCE);
        all.push(Watch { figure, value, margin: Some(left.abs()), by: By::Brakes });
    }
    for name in ["tip.rear.locked", "tip.rear.free", "tip.forward.locked", "tip.side"] {
        if !all.iter().any(|w| w.figure == name)
            && let Some(f) = c.figures.0.get(name)
        {
            all.push(Watch { figure: name.to_owned(), value: f.value, margin: None, by: By::Nobody });
        }
    }
    all
}

/// What casters keep clear of feet, and of feet that feel little.
const FEET: (f64, f64) = (0.010, 0.015);

/// Figures of room with the least that their findings want, in metres.
const ROOM: [(&str, f64); 7] = [
    ("door.room", 0.0),
    ("corridor.room", 0.0),
    ("corner.room", 0.0),
    ("table.room", 0.015),
    ("table.over", 0.0),
    ("head.room", 0.050),
    ("gap.caster.foot", FEET.0),
];

/// What fit and place ask for. The margin itself is the value: a measure may move the limit and not the figure.
fn soft(c: &Compilation) -> Vec<Watch> {
    let rule = |m: &chairwright_checks::FitMargin| {
        let value = Quantity::from_si(m.margin, c.figures.0.get(&m.key)?.value.dimension);
        Some(Watch { figure: m.key.clone(), value, margin: Some(m.margin.abs()), by: By::Soft })
    };
    let word = |side| c.design.rider.sided_word("sensation_legs", side);
    let numb = [Side::Left, Side::Right].iter().any(|s| matches!(word(*s), Some("reduced" | "absent")));
    let room = |(name, least): &(&str, f64)| {
        let least = if *name == "gap.caster.foot" && numb { FEET.1 } else { *least };
        let left = c.figures.si(name)? - least;
        let value = Quantity::from_si(left, Dimension::LENGTH);
        Some(Watch { figure: (*name).to_owned(), value, margin: Some(left.abs()), by: By::Soft })
    };
    c.checked.fit_margins.iter().filter_map(rule).chain(ROOM.iter().filter_map(room)).collect()
}

/// The shift to try, if the value is uncertain, and whether the text says so.
fn shift(known: &Known) -> Option<(f64, bool)> {
    match (known.spread, known.basis) {
        (Some(spread), _) if spread > 0.0 => Some((spread, true)),
        (_, Some(Basis::Estimate)) => Some(((known.nominal * ESTIMATE).abs(), true)).filter(|s| s.0 > 0.0),
        _ if known.name.starts_with("rider.") => match known.unit.as_str() {
            "mm" => Some((TAPE.0, false)),
            "kg" => Some((TAPE.1, false)),
            "deg" => Some((TAPE.2, false)),
            _ => None,
        },
        _ => None,
    }
}

/// Findings about values whose uncertainty alone can move a demand past its limit.
pub(crate) fn doubts(c: &Compilation) -> Vec<Diagnostic> {
    let display = c.display();
    c.influences
        .iter()
        .filter(|i| i.said)
        .filter_map(|i| {
            let Some(effect) = i.effects.iter().find(|e| !e.soft).filter(|e| e.weight >= 1.0) else {
                return raised(c, i);
            };
            let margin = effect.margin?;
            let (name, figure) = (&i.known.name, &effect.figure);
            let said = Diagnostic::new(
                "hangs-on-a-measure",
                format!("whether `{figure}` is enough hangs on `{name}`"),
            );
            let by = format!("{:.6}", i.shift);
            let by = by.trim_end_matches('0').trim_end_matches('.');
            let label = format!("known to within {by} {}", i.known.unit);
            let said = match c.origins.get(i.known.origin.0 as usize) {
                Some(span) => said.at(*span, label.trim().to_owned()),
                None => said,
            };
            let (moves, left) = (display.text(effect.change), display.text(margin));
            Some(
                said.note(format!(
                    "that moves `{figure}` against what is asked by {moves}, and {left} is left"
                ))
                .help(format!("measure {name} again, closer, or leave more room")),
            )
        })
        .collect()
}

/// A value one end of which brings an error of its own, or takes what holds to where nobody can tell.
fn raised(c: &Compilation, i: &Influence) -> Option<Diagnostic> {
    let name = &i.known.name;
    let (all, whether) = match i.raises.is_empty() {
        false => (&i.raises, format!("whether there is an error hangs on `{name}`")),
        true => (&i.doubts, format!("whether it holds hangs on `{name}`")),
    };
    let (at, headline) = all.first()?;
    let said = Diagnostic::new("hangs-on-a-measure", whether);
    let said = match c.origins.get(i.known.origin.0 as usize) {
        Some(span) => said.at(*span, format!("at {at} there is")),
        None => said,
    };
    let said = said.note(format!("at {at}: {headline}"));
    let said = match all.len() {
        1 => said,
        n => said.note(format!("and {} more like it", n - 1)),
    };
    Some(said.help(format!("measure {name} again, closer, or leave more room")))
}

/// Errors of a tried design that this one does not have.
fn news(c: &Compilation, tried: &Compilation) -> Vec<String> {
    // what is asked of figures is watched by its margin
    let error = |p: &&Diagnostic| p.severity == Severity::Error && p.code.name != "requirement-unmet";
    let key = |p: &Diagnostic| (p.code.name, place(p));
    let old: Vec<_> = c.problems.iter().filter(error).map(key).collect();
    let new = tried.problems.iter().filter(error).filter(|p| !old.contains(&key(p)));
    new.map(|p| p.headline.clone()).collect()
}

/// What is said of parts and joints of a tried design that nobody can tell of, at places where this one says nothing.
fn doubted(c: &Compilation, tried: &Compilation) -> Vec<String> {
    let open = |p: &&Diagnostic| ["prove-by-test", "strength-unknown"].contains(&p.code.name);
    let told = |p: &&Diagnostic| matches!(p.severity, Severity::Error | Severity::CannotTell);
    let old: Vec<_> = c.problems.iter().filter(told).map(place).collect();
    let new = tried.problems.iter().filter(open).filter(|p| !old.contains(&place(p)));
    new.map(|p| p.headline.clone()).collect()
}

fn place(p: &Diagnostic) -> Option<Span> {
    p.primary.as_ref().map(|l| l.span)
}

/// Whether a figure comes from the strength check.
fn is_strength(figure: &str) -> bool {
    ["strength.", "drop.", "give.", "sag.", "buckling."].iter().any(|f| figure.starts_with(f))
}

impl Project {
    /// Adds the findings about values that the text says are uncertain, however much room is left: what a tolerance uses up
    /// of it, and which errors it brings, only trying tells.
    pub(crate) fn doubt(&mut self, options: &Options, c: &mut Compilation) {
        if c.design.unridden || !c.design.known.iter().filter_map(shift).any(|by| by.1) {
            return;
        }
        c.influences = self.shifted(options, c, true);
        c.problems.extend(doubts(c));
    }

    /// Every uncertain value with what it moves, the most influential first: those whose tolerance the text says, and the
    /// measures of the rider by the usual error of a tape.
    pub fn influences(&mut self, options: &Options, c: &Compilation) -> Vec<Influence> {
        self.shifted(options, c, false)
    }

    fn shifted(&mut self, options: &Options, c: &Compilation, said: bool) -> Vec<Influence> {
        let mut watched = watched(c);
        if !said {
            for w in soft(c) {
                if !watched.iter().any(|x| x.figure == w.figure) {
                    watched.push(w);
                }
            }
        }
        let uncertain = c.design.known.iter().filter_map(|k| Some((k, shift(k)?)));
        let mut out: Vec<Influence> = uncertain
            .filter(|(_, by)| by.1 || !said)
            .take(VALUES)
            .map(|(known, by)| {
                let place = c.origins.get(known.origin.0 as usize).copied();
                self.influence(options, (c, &watched), (known, place), by)
            })
            .collect();
        out.sort_by(|a, b| b.weight.total_cmp(&a.weight).then(a.known.name.cmp(&b.known.name)));
        out
    }

    fn influence(
        &mut self,
        options: &Options,
        (c, watched): (&Compilation, &[Watch]),
        (known, place): (&Known, Option<Span>),
        (shift, said): (f64, bool),
    ) -> Influence {
        let ways: &[f64] = if said { &[1.0, -1.0] } else { &[1.0] };
        let tried: Vec<Compilation> = ways
            .iter()
            .map(|way| {
                let mut changed = options.clone();
                if known.by_name {
                    let value = format!("{:.9} {}", known.nominal + way * shift, known.unit);
                    changed.settings.push((known.name.clone(), value.trim().to_owned()));
                } else {
                    changed.nudge = place.map(|at| Nudge { at, up: *way > 0.0 });
                }
                // places, parts and masses bear on what holds; of a measure the figures are enough
                let heavy = !known.by_name || known.unit == "kg";
                let asked = (said && heavy) || watched.iter().any(|w| is_strength(&w.figure));
                let wanted = if asked { StrengthWanted::Verdicts } else { StrengthWanted::Nothing };
                changed.strength = wanted;
                self.quietly(&changed)
            })
            .collect();
        let margins: Vec<Vec<Watch>> = tried.iter().map(soft).collect();
        let mut effects: Vec<Effect> = Vec::new();
        for w in watched {
            let values = tried.iter().zip(&margins).filter_map(|(t, soft)| w.again(t, soft));
            let change = values.map(|v| (v - w.value.si()).abs()).fold(0.0, f64::max);
            if change <= 1e-9 {
                continue;
            }
            let as_quantity = |si: f64| Quantity::from_si(si, w.value.dimension);
            effects.push(Effect {
                figure: w.figure.clone(),
                change: as_quantity(change),
                margin: w.margin.map(as_quantity),
                weight: change / w.margin.unwrap_or(0.1).max(1e-9),
                soft: w.soft(),
            });
        }
        effects.sort_by(|a, b| b.weight.total_cmp(&a.weight));
        // several demands of one figure: the one that it uses up most stands for them
        let mut seen = BTreeSet::new();
        effects.retain(|e| seen.insert(e.figure.clone()));
        let weight = effects.first().map_or(0.0, |e| e.weight);
        let end = |way: &f64| {
            let number = format!("{:.3}", known.nominal + way * shift);
            format!("{} {}", number.trim_end_matches('0').trim_end_matches('.'), known.unit).trim().to_owned()
        };
        let at_ends = |new: fn(&Compilation, &Compilation) -> Vec<String>| {
            let each = ways.iter().zip(&tried).filter(|_| said);
            let of = |(way, t): (&f64, &Compilation)| {
                new(c, t).into_iter().map(|h| (end(way), h)).collect::<Vec<_>>()
            };
            each.flat_map(of).collect::<Vec<_>>()
        };
        let (raises, doubts) = (at_ends(news), at_ends(doubted));
        Influence { known: known.clone(), shift, said, effects, weight, raises, doubts }
    }

    /// Works a design out and forgets the texts that its settings made.
    pub(crate) fn quietly(&mut self, options: &Options) -> Compilation {
        let before = self.sources.count();
        let out = self.compile(&Options { ways: false, ..options.clone() });
        self.sources.keep(before);
        out
    }
}
