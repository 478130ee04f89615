//! Which of the values that are not certain move the results most: each is shifted by its tolerance and
//! the design worked out again.

use crate::{Compilation, Options, Project, StrengthWanted};
use chairwright_design::{Basis, Known};
use chairwright_diagnostics::Diagnostic;
use chairwright_quantity::Quantity;

/// How far an estimate is shifted that states no tolerance, as a share of its value.
pub const ESTIMATE: f64 = 0.05;
/// Values that are shifted for one report.
const VALUES: usize = 60;

/// What one value does to one demand or figure.
#[derive(Clone, Debug)]
pub struct Effect {
    /// The figure.
    pub figure: String,
    /// Its greatest change.
    pub change: Quantity,
    /// The room between it and what is demanded of it, where something is.
    pub margin: Option<Quantity>,
}

/// One uncertain value.
#[derive(Clone, Debug)]
pub struct Influence {
    /// The value.
    pub known: Known,
    /// By how much it was shifted either way, in the value's own unit.
    pub shift: f64,
    /// What it moves most.
    pub effect: Option<Effect>,
    /// How much of a margin it can use up; 1 uses it up.
    pub weight: f64,
}

/// What a demand hangs on: figure, its value, and how far it is from the limit.
struct Watch {
    figure: String,
    value: Quantity,
    margin: Option<f64>,
}

fn watched(c: &Compilation) -> Vec<Watch> {
    let mut all: Vec<Watch> = c
        .verdicts
        .iter()
        .filter_map(|v| {
            let figure = v.uses.first()?.clone();
            let value = c.figures.0.get(&figure)?.value;
            let margin = v.comparison.as_ref().map(|x| (x.left_value.si() - x.right_value.si()).abs());
            Some(Watch { figure, value, margin })
        })
        .collect();
    // the use profile's margins are tighter than most demands
    for m in &c.checked.margins {
        let (Some(has), Some(f)) = (m.has, c.figures.0.get(m.figure)) else { continue };
        let margin = (has - m.slope - m.margin).abs();
        match all.iter_mut().find(|w| w.figure == m.figure) {
            Some(w) => w.margin = Some(w.margin.map_or(margin, |x| x.min(margin))),
            None => all.push(Watch { figure: m.figure.to_owned(), value: f.value, margin: Some(margin) }),
        }
    }
    for name in ["tip.rear.locked", "tip.rear.free", "tip.forward.locked", "tip.side"] {
        if !all.iter().any(|w| w.figure == name)
            && let Some(f) = c.figures.0.get(name)
        {
            all.push(Watch { figure: name.to_owned(), value: f.value, margin: None });
        }
    }
    all
}

/// The shift to try, if the value is uncertain.
fn shift(known: &Known) -> Option<f64> {
    match (known.spread, known.basis) {
        (Some(spread), _) if spread > 0.0 => Some(spread),
        (_, Some(Basis::Estimate)) => Some((known.nominal * ESTIMATE).abs()).filter(|s| *s > 0.0),
        _ => None,
    }
}

/// Room in a demand below which its uncertain values are looked at even when nobody asked: a degree, or ten millimetres.
const THIN: f64 = 0.0175;

/// Findings about values whose uncertainty alone can move a demand past its limit.
pub(crate) fn doubts(c: &Compilation) -> Vec<Diagnostic> {
    let display = c.display();
    c.influences
        .iter()
        .filter(|i| i.weight >= 1.0)
        .filter_map(|i| {
            let effect = i.effect.as_ref()?;
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
                said.note(format!("that moves `{figure}` by {moves}, and {left} is left to what is asked"))
                    .help(format!("measure {name} again, closer, or leave more room")),
            )
        })
        .collect()
}

/// Whether a figure comes from the strength check.
fn is_strength(figure: &str) -> bool {
    ["strength.", "drop.", "give.", "sag.", "buckling."].iter().any(|f| figure.starts_with(f))
}

impl Project {
    /// Adds the findings about uncertain values of a chair that meets what is asked by little.
    pub(crate) fn doubt(&mut self, options: &Options, c: &mut Compilation) {
        let thin = |w: &Watch| w.margin.is_some_and(|m| m < THIN);
        if c.design.unridden || !watched(c).iter().any(thin) {
            return;
        }
        c.influences = self.influences(options, c);
        c.problems.extend(doubts(c));
    }

    /// Every uncertain value with what it moves most, the most influential first.
    pub fn influences(&mut self, options: &Options, c: &Compilation) -> Vec<Influence> {
        let watched = watched(c);
        let uncertain = c.design.known.iter().filter_map(|k| Some((k, shift(k)?)));
        let mut out: Vec<Influence> = uncertain
            .take(VALUES)
            .map(|(known, shift)| self.influence(options, &watched, known, shift))
            .collect();
        out.sort_by(|a, b| b.weight.total_cmp(&a.weight).then(a.known.name.cmp(&b.known.name)));
        out
    }

    fn influence(&mut self, options: &Options, watched: &[Watch], known: &Known, shift: f64) -> Influence {
        let tried: Vec<Compilation> = [shift, -shift]
            .into_iter()
            .map(|by| {
                let mut changed = options.clone();
                let value = format!("{:.9} {}", known.nominal + by, known.unit);
                changed.settings.push((known.name.clone(), value.trim().to_owned()));
                let asked = watched.iter().any(|w| is_strength(&w.figure));
                changed.strength = if asked { StrengthWanted::Verdicts } else { StrengthWanted::Nothing };
                self.quietly(&changed)
            })
            .collect();
        let mut best: Option<(f64, Effect)> = None;
        for w in watched {
            let values = tried.iter().filter_map(|t| t.figures.si(&w.figure));
            let change = values.map(|v| (v - w.value.si()).abs()).fold(0.0, f64::max);
            let weight = change / w.margin.unwrap_or(0.1).max(1e-9);
            if change > 1e-9 && best.as_ref().is_none_or(|(b, _)| weight > *b) {
                let as_quantity = |si: f64| Quantity::from_si(si, w.value.dimension);
                let effect = Effect {
                    figure: w.figure.clone(),
                    change: as_quantity(change),
                    margin: w.margin.map(as_quantity),
                };
                best = Some((weight, effect));
            }
        }
        let (weight, effect) = best.map_or((0.0, None), |(w, e)| (w, Some(e)));
        Influence { known: known.clone(), shift, effect, weight }
    }

    /// Works a design out and forgets the texts that its settings made.
    pub(crate) fn quietly(&mut self, options: &Options) -> Compilation {
        let before = self.sources.count();
        let out = self.compile(options);
        self.sources.keep(before);
        out
    }
}
