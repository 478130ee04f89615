//! Parts to look at after a test: what the strength check has the most used in that load.

use crate::sheet::Weak;
use chairwright_strength::{CaseKind, Strength};

/// Names on a line of the sheet.
const NAMES: usize = 5;

/// Parts whose worst load is one of these, then the most used of each such load; the weakest first.
pub(crate) fn weakest(s: &Strength, kind: impl Fn(&CaseKind) -> bool) -> Vec<Weak> {
    let mine = |k: usize| s.cases.get(k).is_some_and(|c| kind(c.kind.plain()));
    let own = s.items.iter().filter(|i| mine(i.case));
    let own = own.map(|i| Weak { name: i.name.clone(), used: i.most.1, verdict: Some(i.verdict) });
    let worst = s.worst_of_case.iter().enumerate().filter(|(k, _)| mine(*k));
    let worst = worst.filter_map(|(_, w)| w.as_ref());
    let worst = worst.map(|(name, used)| Weak { name: name.clone(), used: *used, verdict: None });
    let mut all: Vec<Weak> = Vec::new();
    for weak in own.chain(worst) {
        match all.iter_mut().find(|w| w.name == weak.name) {
            Some(known) => known.used = known.used.max(weak.used),
            None => all.push(weak),
        }
    }
    all.sort_by(|a, b| b.used.total_cmp(&a.used).then_with(|| a.name.cmp(&b.name)));
    all.truncate(NAMES);
    all
}
