//! How a chair stands with everything that is asked of it, and whether a change keeps that.

use super::change::Rest;
use super::target::{Target, room};
use super::{HAIR, cost, finding};
use crate::Compilation;
use crate::influence::OF_THE_TEXT;
use crate::same::Identity;
use chairwright_diagnostics::Severity;
use chairwright_quantity::Quantity;
use std::collections::{BTreeMap, BTreeSet};

/// What a change has to keep: all that is asked as gravely as what is sought, and how the chair stands with it now.
#[derive(Clone)]
pub(super) struct Asked {
    pub goals: Vec<Target>,
    /// Findings that weigh so much and more must not be new.
    lightest: Severity,
    pub before: Standing,
    /// The same with its strength left aside, where strength is looked at.
    pub light: Option<Standing>,
}

/// How a chair stands with everything that is asked of it.
#[derive(Clone)]
pub(super) struct Standing {
    pub rooms: Vec<Option<f64>>,
    /// What is wrong, each told apart from others of its code: to trade one broken rule for another mends nothing.
    wrong: BTreeMap<Identity, usize>,
    /// Figures by which the body has no room.
    squeezed: Vec<&'static str>,
    /// How far what is wrong is from being right, by code and figure: more is better.
    depths: BTreeMap<(&'static str, &'static str), f64>,
    /// Whether anything is refused, asked for or not.
    refused: bool,
    /// Of what nobody can tell.
    doubts: BTreeSet<Identity>,
}

/// What keeps everything that is asked: what becomes of it, and of how many things nobody can tell then that are told of now.
pub(super) type Kept = (Rest, usize);

/// Findings that no change may bring, however lightly they are said: what it takes away holds the chair, or the rider on it.
const NEVER: [&str; 2] = ["brake-misses", "cannot-sit"];

impl Asked {
    pub(super) fn of(
        (base, light): (&Compilation, Option<&Compilation>),
        goals: &[Target],
        lightest: Severity,
    ) -> Asked {
        let goals = goals.to_vec();
        let before = standing(base, &goals, lightest);
        let light = light.map(|c| standing(c, &goals, lightest));
        Asked { goals, lightest, before, light }
    }

    pub(super) fn standing(&self, c: &Compilation) -> Standing {
        standing(c, &self.goals, self.lightest)
    }

    /// What a changed chair does to everything that is asked beside target `sought`; `None` where something of it is worse.
    pub(super) fn kept(&self, c: &Compilation, sought: Option<usize>) -> Option<Kept> {
        let now = self.standing(c);
        self.keeps(&now, sought).then(|| now.kept(&self.before))
    }

    /// Whether target `i`, if one is sought, is met now, and everything else at least as it was: what was met stays met, nothing
    /// else is newly wrong, and the body has room where it had.
    pub(super) fn keeps(&self, now: &Standing, i: Option<usize>) -> bool {
        self.keeps_as(&self.before, now, i)
    }

    /// The same of a chair that stood so before.
    pub(super) fn keeps_as(&self, before: &Standing, now: &Standing, i: Option<usize>) -> bool {
        let i = i.filter(|i| *i < self.goals.len());
        let met = i.is_none_or(|i| now.rooms[i].is_some_and(|r| r >= HAIR));
        let kept = now.rooms.iter().zip(&before.rooms).enumerate().all(|(k, (now, before))| {
            Some(k) == i || before.is_none_or(|b| b < HAIR) || now.is_some_and(|n| n >= HAIR)
        });
        let quiet = now.wrong.iter().all(|(what, n)| before.wrong.get(what).is_some_and(|b| n <= b));
        let fits = now.squeezed.iter().all(|f| before.squeezed.contains(f));
        met && kept && quiet && fits
    }
}

impl Standing {
    pub(super) fn kept(&self, before: &Standing) -> Kept {
        (self.rest(before), self.doubts.difference(&before.doubts).count())
    }

    fn rest(&self, before: &Standing) -> Rest {
        let deeper = !self.deeper(before).is_empty();
        let rooms = self.rooms.iter().zip(&before.rooms);
        let further = |(now, was): (&Option<f64>, &Option<f64>)| match (now, was) {
            (Some(now), Some(was)) => *was < HAIR && worse(*now, *was),
            _ => false,
        };
        let all_met = self.all_met();
        match () {
            () if deeper || rooms.into_iter().any(further) => Rest::Deeper(all_met),
            () if all_met => Rest::AllMet,
            () => Rest::Kept,
        }
    }

    /// Figures of what is wrong already and is more so than it was.
    pub(super) fn deeper(&self, before: &Standing) -> Vec<&'static str> {
        let is = |(k, now): &(&(&str, &str), &f64)| before.depths.get(*k).is_some_and(|was| worse(**now, *was));
        self.depths.iter().filter(is).map(|(k, _)| k.1).collect()
    }

    /// Whether all that is asked is met, and nothing is refused.
    pub(super) fn all_met(&self) -> bool {
        !self.refused && self.rooms.iter().all(|r| r.is_some_and(|r| r >= HAIR))
    }
}

fn worse(now: f64, was: f64) -> bool {
    now < was - 1e-6 * was.abs().max(1e-6)
}

fn standing(c: &Compilation, goals: &[Target], lightest: Severity) -> Standing {
    let rooms = goals.iter().map(|g| room(c, g).map(Quantity::si)).collect();
    let mut wrong = BTreeMap::new();
    let counts = |p: &&chairwright_diagnostics::Diagnostic| {
        let heavy = p.severity <= lightest || NEVER.contains(&p.code.name);
        heavy && (p.severity == Severity::Error || !OF_THE_TEXT.contains(&p.code.name))
    };
    for p in c.problems.iter().filter(counts) {
        *wrong.entry(Identity::of(p)).or_insert(0) += 1;
    }
    let open = |p: &&chairwright_diagnostics::Diagnostic| {
        p.severity == Severity::CannotTell && !OF_THE_TEXT.contains(&p.code.name)
    };
    let doubts = c.problems.iter().filter(open).map(Identity::of).collect();
    let refused = c.has_errors();
    Standing { rooms, wrong, squeezed: cost::squeezed(c), depths: depths(c, lightest), refused, doubts }
}

/// How deep what is wrong with a chair is, by the figures that measure it.
fn depths(c: &Compilation, lightest: Severity) -> BTreeMap<(&'static str, &'static str), f64> {
    let codes: BTreeSet<&'static str> =
        c.problems.iter().filter(|p| p.severity <= lightest).map(|p| p.code.name).collect();
    let all = codes.into_iter().flat_map(|code| finding::depths(c, code).map(move |(f, d)| ((code, f), d)));
    all.collect()
}
