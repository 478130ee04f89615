//! What a change does to the same chair in its states and at its stops.

use super::{Change, Slope};
use crate::same::Identity;
use crate::{Compilation, OF_ONE_SETTING, Options, Project};
use chairwright_diagnostics::{Diagnostic, Severity};
use chairwright_language::{Choice, Situation};
use std::collections::BTreeMap;

/// States and stops that a change is tried in.
const PLACES: usize = 8;

/// A state or a stop of the chair as it is now.
pub(super) struct Place {
    options: Options,
    words: String,
    errors: BTreeMap<Identity, usize>,
    /// Values of its parameters: a state may set them anew.
    values: BTreeMap<String, f64>,
}

/// What of errors a chair has there.
fn errors(c: &Compilation, adjusted: bool) -> BTreeMap<Identity, (usize, String)> {
    let counts =
        |p: &&Diagnostic| p.severity == Severity::Error && !(adjusted && OF_ONE_SETTING.contains(&p.code.name));
    let mut out = BTreeMap::new();
    for p in c.problems.iter().filter(counts) {
        out.entry(Identity::of(p)).or_insert_with(|| (0, p.headline.clone())).0 += 1;
    }
    out
}

impl Project {
    /// The states and stops that the changes of one chair are tried in: those nearest to the chair as drawn come first.
    pub(super) fn places(&mut self, options: &Options) -> Vec<Place> {
        if options.situation != Situation::default() {
            return Vec::new();
        }
        let (mut all, _) = self.program(Choice::default()).0.situations();
        all.sort_by_key(|s| s.picks.len() + usize::from(s.state.is_some()));
        all.truncate(PLACES);
        let place = |situation: Situation| {
            let words = situation.words.clone();
            let options = Options { situation, ..options.clone() };
            let c = self.turned(&options, &[]);
            let errors = errors(&c, !options.situation.picks.is_empty());
            let values = c.design.params.iter().filter_map(|p| Some((p.name.clone(), p.dial.as_ref()?.now)));
            let values = values.collect();
            Place { options, words, errors: errors.into_iter().map(|(k, (n, _))| (k, n)).collect(), values }
        };
        all.into_iter().map(place).collect()
    }

    /// The first state or stop in which a change brings an error that is not there now, and what is said there.
    pub(super) fn broken_elsewhere(
        &mut self,
        places: &[Place],
        slopes: &[Slope],
        change: &Change,
    ) -> Option<(String, String)> {
        let of = |name: &str| slopes.iter().find(|s| s.name == name);
        let turns: Vec<(&Slope, f64)> =
            change.turns.iter().filter_map(|t| Some((of(&t.name)?, t.to))).collect();
        for place in places {
            // what a state or a stop sets by itself does not change there
            let set = |s: &Slope| place.values.get(&s.name).is_none_or(|v| (v - s.dial.now).abs() > 1e-9);
            let own = |s: &Slope| s.plain.is_none() && set(s);
            let mine: Vec<(&Slope, f64)> = turns.iter().copied().filter(|(s, _)| !own(s)).collect();
            let tried = self.turned(&place.options, &mine);
            let now = errors(&tried, !place.options.situation.picks.is_empty());
            let new = now.into_iter().find(|(what, (n, _))| place.errors.get(what).is_none_or(|was| n > was));
            if let Some((_, (_, headline))) = new {
                return Some((place.words.clone(), headline));
            }
        }
        None
    }
}
