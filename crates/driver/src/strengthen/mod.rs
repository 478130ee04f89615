//! What brings a failing joint, sheet, box or board back, as text to paste: each change is written into the plan, the
//! plan compiled again, and the part judged in every load case. So are the sleeves and other pipes that the strength
//! check found by itself (`reinforce`): their joints must close and their pieces be long enough. Nothing is offered
//! that was not compiled.

mod clear;
mod fixing;
pub(crate) mod placing;
mod site;
mod tries;

use crate::reinforce::Reinforcement;
use crate::repair::Edited;
use crate::same::{Identity, brought};
use crate::sides::without_side;
use crate::{Compilation, Options, Project, StrengthWanted};
use chairwright_cost::{Difference, Need, difference, needs};
use chairwright_design::{Origin, fold};
use chairwright_diagnostics::{Diagnostic, Edit, Severity};
use chairwright_strength::{Item, Strength, Verdict};
use site::Site;
use std::collections::{BTreeMap, BTreeSet};
pub use tries::Change;
use tries::Try;

/// Parts that are worked on, and changes that are tried for each.
const PARTS: usize = 4;
const TRIES: usize = 18;

/// A change of the text that was proven to bring a part back.
#[derive(Clone, Debug)]
pub struct Strengthening {
    /// The parts that it is for, on both sides.
    pub parts: Vec<String>,
    /// What is done.
    pub change: Change,
    /// What stands in the text, and what takes its place; empty where lines are only added.
    pub was: String,
    /// The text to paste.
    pub is: String,
    /// The edits that make it.
    pub edits: Vec<Edit>,
    /// The worst use of the part over all load cases with it, plain and cautious.
    pub used: (f64, f64),
    /// Whether the part holds then; else only a test tells.
    pub holds: bool,
    /// Mass more, kg.
    pub mass: f64,
    /// What it adds to the bill.
    pub cost: Difference,
    /// What is not told of the chair now and is with it, beside what a test has to tell.
    pub brings: Vec<String>,
}

impl Strengthening {
    /// Whether it is for this part.
    #[must_use]
    pub fn is_for(&self, name: &str) -> bool {
        self.parts.iter().any(|p| p == name)
    }
}

/// How a chair stands beside the part that is worked on.
struct Standing {
    failing: BTreeSet<String>,
    /// What nobody can tell of: in doubt, or unknown.
    open: BTreeSet<String>,
    /// What moves, hangs loose or is refused.
    broken: usize,
    /// How often each error is found: one that goes does not pay for another that comes.
    errors: BTreeMap<Identity, usize>,
}

impl Standing {
    fn of(c: &Compilation) -> Standing {
        let s = &c.strength;
        let of = |verdict: Verdict| {
            let mine = s.items.iter().filter(move |i| i.verdict == verdict);
            mine.map(|i| without_side(&i.name))
        };
        let untold = s.untold.iter().map(|u| without_side(&u.name));
        let mut errors: BTreeMap<Identity, usize> = BTreeMap::new();
        for p in c.problems.iter().filter(|p| p.severity == Severity::Error) {
            *errors.entry(Identity::of(p).anywhere()).or_default() += 1;
        }
        Standing {
            errors,
            failing: of(Verdict::Fail).collect(),
            open: of(Verdict::CannotTell).chain(untold).collect(),
            broken: s.loose.len() + s.swings.len() + s.forbidden.len() + s.refused.len(),
        }
    }

    /// Whether nothing got worse, and this part no longer fails.
    fn betters(&self, before: &Standing, part: &str) -> bool {
        self.broken <= before.broken
            && self.errors.iter().all(|(e, n)| before.errors.get(e).is_some_and(|b| n <= b))
            && !self.failing.contains(part)
            && self.failing.is_subset(&before.failing)
    }

    /// Whether nothing got worse, and nothing of this part or of what was sound is in doubt.
    fn clears(&self, before: &Standing, part: &str) -> bool {
        self.betters(before, part) && !self.open.contains(part) && self.open.is_subset(&before.open)
    }
}

/// The worst verdict on a part, on whichever side, and its worst use; what is not judged holds nothing.
fn judged(s: &Strength, part: &str) -> Option<(Verdict, (f64, f64))> {
    let mine = s.items.iter().filter(|i| without_side(&i.name) == part);
    let untold = s.untold.iter().any(|u| without_side(&u.name) == part);
    let worst = mine.map(|i| (i.verdict, i.most)).reduce(|a, b| {
        let used = (a.1.0.max(b.1.0), a.1.1.max(b.1.1));
        (a.0.max(b.0), used)
    })?;
    Some(if untold { (worst.0.max(Verdict::CannotTell), worst.1) } else { worst })
}

/// The worst failures, one for each part.
fn worst(c: &Compilation) -> Vec<Item> {
    let mut out: Vec<Item> = Vec::new();
    for item in c.strength.items.iter().filter(|i| i.verdict == Verdict::Fail) {
        let part = without_side(&item.name);
        if !out.iter().any(|o| without_side(&o.name) == part) {
            out.push(item.clone());
        }
    }
    out.truncate(PARTS);
    out
}

/// Takes an offer back that the text has not proven.
fn untell(c: &mut Compilation, offer: &Reinforcement) {
    let mine = |i: &&Item| i.verdict == Verdict::Fail && offer.is_for(&i.name);
    let spans: Vec<_> = c
        .strength
        .items
        .iter()
        .filter(mine)
        .filter_map(|i| c.origins.get(i.origin.0 as usize))
        .copied()
        .collect();
    let about = |p: &&mut chairwright_diagnostics::Diagnostic| {
        p.code.name == "overstressed" && p.primary.as_ref().is_some_and(|l| spans.contains(&l.span))
    };
    for problem in c.problems.iter_mut().filter(about) {
        problem.help = Some(crate::words_items::STOUTER.to_owned());
    }
}

/// Glue that a change is the first to use, and that the plan buys nowhere: one of each.
fn glue_bought(before: &Compilation, after: &Compilation) -> Vec<Need> {
    let uses = |c: &Compilation| -> BTreeMap<String, Origin> {
        c.design.closings.iter().filter_map(|k| Some((k.glue.clone()?, k.origin))).collect()
    };
    let (old, new) = (uses(before), uses(after));
    let bought = |key: &str| after.design.supplies.iter().any(|s| fold(&s.name) == fold(key));
    let more = new.into_iter().filter(|(key, _)| !old.contains_key(key) && !bought(key));
    more.map(|(key, origin)| Need::supply(&key, origin)).collect()
}

impl Project {
    /// Looks for what brings failing parts back.
    pub(crate) fn strengthen(&self, options: &Options, c: &mut Compilation) {
        let failing = worst(c);
        let offers = std::mem::take(&mut c.reinforcements);
        for offer in &offers {
            untell(c, offer);
        }
        if failing.is_empty() {
            return;
        }
        let options = Options { strength: StrengthWanted::Verdicts, ways: false, ..options.clone() };
        // a plan that is looked at with another rider or place is not the text that would be edited
        let base = self.with_edits(&[], &options);
        let before = Standing::of(&base);
        if before.failing != Standing::of(c).failing {
            return;
        }
        for item in failing {
            let part = without_side(&item.name);
            let offer = offers.iter().find(|r| r.is_for(&item.name));
            let found = self.least(&options, &base, (&before, &part), (&item, offer));
            if let Some(found) = &found {
                self.tell(c, &item, found);
            }
            c.strengthened.push((
                c.strength.items.iter().map(|i| i.name.clone()).find(|n| *n == item.name).unwrap_or(part),
                found,
            ));
        }
    }

    /// Every change that is known to bring a part of the plan back, or at least so far that nothing surely breaks it; each
    /// proven by compiling, the smallest of each kind first. The part by its name, on either side.
    #[must_use]
    pub fn ways(&self, options: &Options, name: &str) -> Vec<Strengthening> {
        let options = Options { strength: StrengthWanted::Verdicts, ..options.clone() };
        let base = self.with_edits(&[], &options);
        let before = Standing::of(&base);
        let Some(item) = base.strength.items.iter().find(|i| i.name == name) else { return Vec::new() };
        self.proven_ways(&options, &base, (&before, &without_side(name)), (item, None))
    }

    /// The lightest change with which a part holds; else the lightest with which it no longer surely breaks.
    fn least(
        &self,
        options: &Options,
        base: &Compilation,
        (before, part): (&Standing, &str),
        (item, offer): (&Item, Option<&Reinforcement>),
    ) -> Option<Strengthening> {
        let mut best: Option<Strengthening> = None;
        for one in self.proven_ways(options, base, (before, part), (item, offer)) {
            let lighter =
                |b: &Strengthening| (one.holds && !b.holds) || (one.holds == b.holds && one.mass < b.mass);
            if best.as_ref().is_none_or(lighter) {
                best = Some(one);
            }
        }
        best
    }

    fn proven_ways(
        &self,
        options: &Options,
        base: &Compilation,
        (before, part): (&Standing, &str),
        (item, offer): (&Item, Option<&Reinforcement>),
    ) -> Vec<Strengthening> {
        let rooms = &base.strength.rooms;
        let site = Site { sources: &self.sources, design: &base.design, origins: &base.origins, rooms };
        let was = judged(&base.strength, part).map_or(f64::INFINITY, |j| j.1.1);
        let own = offer.and_then(|r| site.offered(r));
        let others = site.tries(item).into_iter().take(TRIES);
        let mut out: Vec<Strengthening> = Vec::new();
        for (k, one) in own.into_iter().chain(others).enumerate() {
            // what the strength check found and the text proves is the smallest of its kind
            if k > 0 && offer.is_some() && out.iter().any(|b| b.holds) {
                break;
            }
            let after = self.with_edits(&one.edits, options);
            if !Standing::of(&after).betters(before, part) {
                continue;
            }
            let Some((verdict, used)) = judged(&after.strength, part) else { continue };
            let holds = verdict == Verdict::Pass;
            // what leaves the part used as far as before is no help
            if !holds && used.1 >= was {
                continue;
            }
            out.push(self.proven(base, &after, one, (part, used, holds)));
        }
        out
    }

    fn proven(
        &self,
        base: &Compilation,
        after: &Compilation,
        one: Try,
        (part, used, holds): (&str, (f64, f64), bool),
    ) -> Strengthening {
        let mass = |c: &Compilation| c.figures.si("mass.chair").unwrap_or(f64::INFINITY);
        let bought = |c: &Compilation| needs(&c.design, &c.frame);
        let mut then = bought(after);
        then.extend(glue_bought(base, after));
        let cost = difference(&bought(base), &then, self.book(), &self.shed);
        // an edited text has moved its places; of how much only a test tells, its verdicts say
        let anywhere = |p: &Diagnostic| Identity::of(p).anywhere();
        let brings = brought((&base.problems, after), anywhere, &["prove-by-test"]);
        let names = base.strength.items.iter().map(|i| &i.name).filter(|n| without_side(n) == part);
        let parts: BTreeSet<String> = names.cloned().collect();
        Strengthening {
            parts: parts.into_iter().collect(),
            change: one.change,
            was: one.was,
            is: one.is,
            edits: one.edits,
            used,
            holds,
            mass: mass(after) - mass(base),
            cost,
            brings,
        }
    }

    /// The plan with edits, compiled anew.
    fn with_edits(&self, edits: &[Edit], options: &Options) -> Compilation {
        let mut texts: BTreeMap<String, String> = BTreeMap::new();
        let mut sorted: Vec<&Edit> = edits.iter().collect();
        // from the back, so that places stay true
        sorted.sort_by_key(|e| std::cmp::Reverse(e.span.start));
        for edit in sorted {
            let Some(source) = self.sources.get(edit.span.source) else { continue };
            let text = texts.entry(source.name.clone()).or_insert_with(|| source.text.clone());
            let range = edit.span.range();
            if range.end <= text.len() && text.is_char_boundary(range.start) && text.is_char_boundary(range.end)
            {
                text.replace_range(range, &edit.replacement);
            }
        }
        let world = Edited { sources: &self.sources, texts, today: self.today.clone() };
        Project::load(&world, &self.path).compile(options)
    }

    /// Puts it into the finding about the part.
    fn tell(&self, c: &mut Compilation, item: &Item, found: &Strengthening) {
        let help = crate::words_mend::strengthening_words(found);
        let Some(span) = c.origins.get(item.origin.0 as usize).copied() else { return };
        let about = |p: &&mut chairwright_diagnostics::Diagnostic| {
            matches!(p.code.name, "overstressed" | "weak-joint")
                && p.primary.as_ref().is_some_and(|l| l.span == span)
        };
        if let Some(problem) = c.problems.iter_mut().find(about) {
            problem.help = Some(help);
        }
    }
}
