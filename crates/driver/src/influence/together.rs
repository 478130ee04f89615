//! Several uncertain values at once: where each alone leaves room, all of them in their unfavourable directions may not.

use super::news::news;
use super::watch::{Watch, soft};
use super::{Off, Trial, at_end, is_heavy, is_unmet};
use crate::{Compilation, Options, Project, StrengthWanted};
use chairwright_diagnostics::Severity;

/// Things that are asked for which this is tried, for one design.
const TRIES: usize = 12;
/// What values do together may be more than the sum of what each does alone: it is tried from this share of the room on.
const NEARLY: f64 = 0.8;
/// A value that moves a figure by less than this share of the room is no part of it.
const LEAST: f64 = 1e-3;

/// Something asked for that several uncertain values, none of them alone, can take away.
#[derive(Clone, Debug)]
pub struct Together {
    /// The figure.
    pub figure: String,
    /// The demand, by its place among the verdicts.
    pub demand: Option<usize>,
    /// Whether the fit or the place asks for it.
    pub soft: bool,
    /// The values by name, each at the end that was taken.
    pub values: Vec<(String, String)>,
    /// What is said there.
    pub headline: Option<String>,
}

impl Project {
    /// For each thing that is asked and that no value alone takes away: all values at their worst ends, worked out once where
    /// the sum of what each does says that it may be enough.
    pub(super) fn at_worst_ends(
        &mut self,
        options: &Options,
        (c, watched): (&Compilation, &[Watch]),
        trials: &[Trial],
    ) -> Vec<Together> {
        let mut out = Vec::new();
        let mut tries = 0;
        for (k, w) in watched.iter().enumerate() {
            let Some(room) = w.room().filter(|r| *r >= 0.0) else { continue };
            let loss = |t: &Trial| t.moved[k].iter().fold(0.0, |worst: f64, by| worst.max(-by * w.sign));
            let said = || trials.iter().filter(|t| t.influence.off.counts());
            let alone = |t: &Trial| match w.demand() {
                Some(demand) => t.influence.demands.contains(&demand),
                None => loss(t) >= room,
            };
            // a body is seldom off in several ways at once: of what stature stands for the one that does most
            let guesses = said().filter(|t| t.influence.off == Off::Guessed);
            let guess = guesses.max_by(|a, b| loss(a).total_cmp(&loss(b)));
            let text = said().filter(|t| t.influence.off == Off::Said);
            let moving: Vec<&Trial> = text.chain(guess).filter(|t| loss(t) > LEAST * room).collect();
            let sum: f64 = moving.iter().map(|t| loss(t)).sum();
            let known = out.iter().any(|o: &Together| w.demand().is_some() && o.demand == w.demand());
            if moving.len() < 2 || sum < NEARLY * room || known || said().any(alone) || tries >= TRIES {
                continue;
            }
            tries += 1;
            let ups: Vec<bool> =
                moving.iter().map(|t| t.moved[k][0] * w.sign <= t.moved[k][1] * w.sign).collect();
            let heavy = moving.iter().any(|t| is_heavy(&t.influence.known));
            let strength = StrengthWanted::of(&c.verdicts, heavy);
            let mut changed = Options { strength, ..options.clone() };
            for (t, up) in moving.iter().zip(&ups) {
                let i = &t.influence;
                self.take_end(&mut changed, (&i.known, t.place), (i.shift, i.off), *up);
            }
            let tried = self.quietly(&changed);
            let lost = match w.demand() {
                Some(k) => tried.verdicts.get(k).is_none_or(is_unmet),
                None => w.again(&tried, &soft(&tried)).is_none_or(|v| v * w.sign < 0.0),
            };
            if lost {
                let value = |(t, up): (&&Trial, &bool)| {
                    let i = &t.influence;
                    (i.known.name.clone(), at_end(&i.known, (i.shift, i.off), *up))
                };
                let new = news(c, &tried, &[], &[]).into_iter();
                let headline = new.filter(|(_, s)| *s == Severity::Error).map(|(h, _)| h).next();
                out.push(Together {
                    figure: w.figure.clone(),
                    demand: w.demand(),
                    soft: w.soft(),
                    values: moving.iter().zip(&ups).map(value).collect(),
                    headline,
                });
            }
        }
        out
    }
}
