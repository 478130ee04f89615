//! The ten tipping angles: forward and rearward with wheels free and locked, sideways, each as the least and the most stable
//! adjustment has it (the cases that ISO 7176-1 asks to be measured; these are computed, not measured).

use crate::{Compilation, Options, Project};
use chairwright_language::{Choice, Pick, Situation};

/// One direction, least and most stable.
#[derive(Clone, PartialEq, Debug)]
pub struct Spread {
    /// What is tried, in words.
    pub words: &'static str,
    /// The figure.
    pub figure: &'static str,
    /// The least slope that tips it in radians, and how it is adjusted then; empty as drawn.
    pub least: (f64, String),
    /// The greatest.
    pub most: (f64, String),
}

/// Words, figure of the least stable swivel, figure of the most stable one.
const CASES: [(&str, &str, &str); 5] = [
    ("forward, wheels free", "tip.forward.free", "tip.forward.free.most"),
    ("forward, downhill wheels locked", "tip.forward.locked", "tip.forward.locked.most"),
    ("rearward, wheels free", "tip.rear.free", "tip.rear.free"),
    ("rearward, downhill wheels locked", "tip.rear.locked", "tip.rear.locked"),
    ("sideways", "tip.side", "tip.side.most"),
];

impl Project {
    /// The ten angles over every stop of every adjustment, in the variant and state that are looked at.
    pub fn spreads(&mut self, options: &Options, drawn: &Compilation) -> Vec<Spread> {
        let situations: Vec<Situation> = {
            let (program, _) =
                self.program(Choice { variant: options.variant.as_deref(), ..Choice::default() });
            program.situations().0.into_iter().filter(|s| s.state == options.situation.state).collect()
        };
        let start = CASES.iter().filter_map(|(words, least, most)| {
            let angle = |figure: &str| drawn.figures.si(figure);
            Some(Spread {
                words,
                figure: least,
                least: (angle(least)?, String::new()),
                most: (angle(most)?, String::new()),
            })
        });
        let mut out: Vec<Spread> = start.collect();
        if out.is_empty() {
            return out;
        }
        let mut alone: Vec<(Pick, Vec<[Option<f64>; 2]>)> = Vec::new();
        for situation in situations.iter().filter(|s| !s.picks.is_empty()) {
            let tried = self.widen(options, drawn, situation, &mut out);
            if let [pick] = situation.picks.as_slice() {
                let angles = CASES.iter().map(|c| [tried.figures.si(c.1), tried.figures.si(c.2)]);
                alone.push((pick.clone(), angles.collect()));
            }
        }
        // where not all stops were tried together: those that alone are the worst and the best
        for picks in (0..CASES.len()).flat_map(|k| [extreme(&alone, k, 0), extreme(&alone, k, 1)]) {
            if picks.len() < 2 || situations.iter().any(|s| s.picks == picks) {
                continue;
            }
            let situation = {
                let (program, _) = self.program(Choice::default());
                program.situation(options.situation.state.clone(), picks)
            };
            self.widen(options, drawn, &situation, &mut out);
        }
        out
    }

    /// Works out one more adjustment, and widens the spread to it.
    fn widen(
        &mut self,
        options: &Options,
        drawn: &Compilation,
        situation: &Situation,
        out: &mut [Spread],
    ) -> Compilation {
        let tried = self.quietly(&Options { situation: situation.clone(), ..options.clone() });
        let words = words(drawn, &tried, situation);
        for spread in out {
            let Some((_, least, most)) = CASES.iter().find(|c| c.1 == spread.figure) else { continue };
            if let Some(a) = tried.figures.si(least).filter(|a| *a < spread.least.0 - 1e-12) {
                spread.least = (a, words.clone());
            }
            if let Some(a) = tried.figures.si(most).filter(|a| *a > spread.most.0 + 1e-12) {
                spread.most = (a, words.clone());
            }
        }
        tried
    }

    /// Says that the spread may be wider, where not all stops were tried together.
    pub(crate) fn spreads_in_part(&mut self, c: &mut Compilation) {
        let (program, _) = self.program(Choice::default());
        if !c.spreads.is_empty() && program.situations().1 {
            c.assumptions.push(
                "tipping angles over all adjustments: there are too many stops to try all together; tried were each dimension \
                 alone, all ends together, and the stops that alone are the worst and the best together"
                    .to_owned(),
            );
        }
    }
}

/// Of each dimension the stop that alone leaves the least (0) or the most (1) of a case.
fn extreme(alone: &[(Pick, Vec<[Option<f64>; 2]>)], case: usize, end: usize) -> Vec<Pick> {
    let mut best: Vec<(f64, &Pick)> = Vec::new();
    let sign = if end == 0 { 1.0 } else { -1.0 };
    for (pick, angles) in alone {
        let Some(angle) = angles[case][end].map(|a| a * sign) else { continue };
        match best.iter_mut().find(|(_, p)| p.name == pick.name) {
            Some(known) if angle < known.0 - 1e-12 => *known = (angle, pick),
            Some(_) => {}
            None => best.push((angle, pick)),
        }
    }
    best.into_iter().map(|(_, pick)| pick.clone()).collect()
}

/// The dimensions that are not as drawn, with their values.
fn words(drawn: &Compilation, tried: &Compilation, situation: &Situation) -> String {
    let value =
        |c: &Compilation, name: &str| c.design.params.iter().find(|p| p.name == name).map(|p| p.value.clone());
    let parts = situation.picks.iter().filter_map(|p| {
        let now = value(tried, &p.name)?;
        (value(drawn, &p.name).as_ref() != Some(&now)).then(|| format!("{} {now}", p.name))
    });
    parts.collect::<Vec<_>>().join(", ")
}
