//! What would clear the doubt about parts of which only a test tells, offered unasked: each change is written into the plan,
//! the plan compiled again, and only what leaves no doubt about the part, and brings none elsewhere, is offered.

use super::site::Site;
use super::tries::Try;
use super::{Standing, Strengthening, judged};
use crate::reinforce::reinforcements;
use crate::sides::without_side;
use crate::words_items::under_words;
use crate::words_mend::clearing_words;
use crate::{Compilation, Options, Project, StrengthWanted};
use chairwright_cost::needs;
use chairwright_strength::{Item, Lasting, Verdict, What, doubted};
use std::collections::VecDeque;

/// Parts that are worked on, both sides as one, and changes that are compiled for all of them together.
const PARTS: usize = 6;
const LOOKS: usize = 12;

/// A part of which only a test tells.
struct Work {
    item: Item,
    lasting: Lasting,
    tries: VecDeque<Try>,
    found: Option<Strengthening>,
}

impl Work {
    fn over(&self) -> bool {
        self.found.is_some() || self.tries.is_empty()
    }
}

impl Project {
    /// Looks for what would clear doubts.
    pub(crate) fn clear(&self, options: &Options, c: &mut Compilation) {
        let names = doubtful(c);
        if names.is_empty() {
            return;
        }
        let options = Options { strength: StrengthWanted::Verdicts, ways: false, ..options.clone() };
        let base = self.with_edits(&[], &Options { strength: wanted(c), ..options.clone() });
        // a plan that is looked at with another rider or place is not the text that would be edited
        if doubtful(&base) != names {
            return;
        }
        let before = [Standing::of(&base), Standing::of(c)];
        let mut works = self.works(&base);
        let mut left = LOOKS;
        while left > 0 && works.iter().any(|w| !w.over()) {
            for work in works.iter_mut().filter(|w| !w.over()) {
                if left > 0 {
                    left -= 1;
                    self.look(&options, (&base, &before), work);
                }
            }
        }
        for work in works {
            if let Some(found) = &work.found {
                told(c, work.lasting, found);
            }
            c.cleared.push((work.item.name, work.found));
        }
    }

    /// The parts with what is tried for each; those that nothing can be tried for are left out.
    fn works(&self, base: &Compilation) -> Vec<Work> {
        let rooms = &base.strength.rooms;
        let site = Site { sources: &self.sources, design: &base.design, origins: &base.origins, rooms };
        let shop = (self.book(), &self.shed);
        let bill = needs(&base.design, &base.frame);
        let offers = reinforcements((&base.design, &base.frame), &base.strength.clears, &bill, shop);
        let work = |item: &Item| {
            let offer = offers.iter().find(|r| r.is_for(&item.name)).and_then(|r| site.offered(r));
            let tries: VecDeque<Try> = offer.into_iter().chain(promising(site.tries(item), item)).collect();
            let lasting = base.strength.cases[item.case].lasting;
            (!tries.is_empty()).then(|| Work { item: item.clone(), lasting, tries, found: None })
        };
        let items = doubted(&base.strength.items, &base.strength.untold);
        items.into_iter().filter_map(work).take(PARTS).collect()
    }

    /// Whether the next change clears the doubt: by the verdicts, and where these say so, by all of the strength too, which casts
    /// doubts of its own.
    fn look(
        &self,
        options: &Options,
        (base, [before, whole]): (&Compilation, &[Standing; 2]),
        work: &mut Work,
    ) {
        let Some(one) = work.tries.pop_front() else { return };
        let part = without_side(&work.item.name);
        let after = self.with_edits(&one.edits, options);
        if !Standing::of(&after).clears(before, &part) {
            return;
        }
        let Some((Verdict::Pass, used)) = judged(&after.strength, &part) else { return };
        let sure = self.with_edits(&one.edits, &Options { strength: StrengthWanted::Whole, ..options.clone() });
        if Standing::of(&sure).clears(whole, &part) {
            work.found = Some(self.proven(base, &after, one, (&part, used, true)));
        }
    }
}

/// What of a chair is in doubt and known well enough for it.
fn doubtful(c: &Compilation) -> Vec<String> {
    doubted(&c.strength.items, &c.strength.untold).into_iter().map(|i| without_side(&i.name)).collect()
}

/// Only members have sleeves and stocks that the strength check tries by itself.
fn wanted(c: &Compilation) -> StrengthWanted {
    let all = doubted(&c.strength.items, &c.strength.untold);
    let member = all.iter().any(|i| matches!(i.what, What::Bar(chairwright_strength::Of::Member(_))));
    if member { StrengthWanted::Clearing } else { StrengthWanted::Verdicts }
}

/// What may be enough comes first, and what by a rough reckoning is not comes last; else in the order in which it was.
fn promising(tries: Vec<Try>, item: &Item) -> impl Iterator<Item = Try> {
    let enough = |t: &Try| t.gain.is_none_or(|gain| gain >= item.most.1);
    let (first, rest): (Vec<Try>, Vec<Try>) = tries.into_iter().partition(enough);
    first.into_iter().chain(rest)
}

/// Puts it into the finding about parts that only a test tells of under such a load.
fn told(c: &mut Compilation, lasting: Lasting, found: &Strengthening) {
    let about = |p: &&mut chairwright_diagnostics::Diagnostic| {
        p.code.name == "prove-by-test" && p.headline.ends_with(under_words(lasting))
    };
    if let Some(problem) = c.problems.iter_mut().find(about) {
        problem.notes.push(format!("would clear the doubt: {}", clearing_words(found)));
    }
}
