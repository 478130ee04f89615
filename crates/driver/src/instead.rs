//! Another rider or another place than the plan's own, and what was measured on the built chair.

use chairwright_design::spelling;
use chairwright_syntax::{Entry, ExprKind};
use smol_str::SmolStr;

/// Texts whose `rider`, `conditions` and `as_built` blocks take the place of the plan's own: name and text of each.
#[derive(Clone, Default, Debug)]
pub struct Instead {
    /// A text with a `rider` block.
    pub rider: Option<(String, String)>,
    /// A text with a `conditions` block.
    pub place: Option<(String, String)>,
    /// A text with an `as_built` block.
    pub built: Option<(String, String)>,
}

impl Instead {
    fn all(&self) -> [(&'static str, Option<&(String, String)>); 3] {
        [("rider", self.rider.as_ref()), ("conditions", self.place.as_ref()), ("as_built", self.built.as_ref())]
    }

    pub(crate) fn texts(&self) -> impl Iterator<Item = (&str, &str)> {
        self.all().into_iter().filter_map(|(_, text)| text).map(|(n, t)| (n.as_str(), t.as_str()))
    }

    /// Takes out of a tree the blocks that another text gives, and what rides along by a name in `brought`, to which the
    /// rider's own text adds; of that text itself everything that it does not bring, which is handed back.
    pub(crate) fn strip(&self, entries: &mut Vec<Entry>, path: &str, brought: &mut Vec<SmolStr>) -> Vec<Entry> {
        let named = |text: Option<&(String, String)>| text.is_some_and(|(name, _)| name == path);
        for (word, text) in self.all() {
            let replaced = text.is_some() && !named(text);
            entries.retain(|e| !(replaced && spelling(&e.keyword.text()) == word));
        }
        let mut only: Vec<&str> =
            self.all().into_iter().filter(|(_, text)| named(*text)).map(|(w, _)| w).collect();
        if only.is_empty() {
            // a bag of the rider's is the plan's of that name, with another weight or place: it hangs there once
            entries.retain(|e| !carried(e).is_some_and(|name| brought.contains(&name)));
            return Vec::new();
        }
        // a rider's bag comes along with the rider, and so does why a rule of fit is left for that rider
        if only.contains(&"rider") {
            only.extend(["carry", "deviation"]);
        }
        let (kept, dropped) = entries.drain(..).partition(|e| only.contains(&spelling(&e.keyword.text())));
        *entries = kept;
        brought.extend(entries.iter().filter_map(carried));
        dropped
    }

    /// Which blocks another text than this gives.
    pub(crate) fn given_elsewhere(&self, path: &str) -> Vec<&'static str> {
        let elsewhere = |text: Option<&(String, String)>| text.is_some_and(|(name, _)| name != path);
        self.all().into_iter().filter(|(_, text)| elsewhere(*text)).map(|(word, _)| word).collect()
    }
}

/// Takes out of variants and forks what they say of blocks that another text gives, and whole states that say something of them: a pad
/// that goes as one child grows is not another's to lose. What was said so is handed back.
pub(crate) fn strip_choices(entries: &mut Vec<Entry>, others: &[&str]) -> Vec<Entry> {
    let theirs = |e: &Entry| {
        let word = e.keyword.text();
        word.split_once('.').is_some_and(|(base, _)| others.contains(&spelling(base)))
    };
    let mut gone: Vec<Entry> = Vec::new();
    entries.retain_mut(|entry| {
        let word = entry.keyword.text();
        let word = spelling(&word);
        let (true, Some(block)) = (matches!(word, "state" | "variant" | "fork"), entry.block.as_mut()) else {
            return true;
        };
        let (taken, kept): (Vec<Entry>, _) = block.entries.drain(..).partition(theirs);
        block.entries = kept;
        let theirs = word == "state" && !taken.is_empty();
        gone.extend(taken);
        !theirs
    });
    gone
}

/// The name of what an entry lets ride along.
fn carried(entry: &Entry) -> Option<SmolStr> {
    let named = match entry.subject.as_ref().map(|s| &s.kind) {
        Some(ExprKind::Name(path)) => Some(path.text()),
        _ => None,
    };
    named.filter(|_| spelling(&entry.keyword.text()) == "carry")
}
