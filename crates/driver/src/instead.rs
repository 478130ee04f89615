//! Another rider or another place than the plan's own.

use chairwright_design::spelling;
use chairwright_syntax::Entry;

/// Texts whose `rider` and `conditions` blocks take the place of the plan's own: name and text of each.
#[derive(Clone, Default, Debug)]
pub struct Instead {
    /// A text with a `rider` block.
    pub rider: Option<(String, String)>,
    /// A text with a `conditions` block.
    pub place: Option<(String, String)>,
}

impl Instead {
    pub(crate) fn texts(&self) -> impl Iterator<Item = (&str, &str)> {
        self.rider.iter().chain(&self.place).map(|(n, t)| (n.as_str(), t.as_str()))
    }

    /// Takes out of a tree the blocks that another text gives.
    pub(crate) fn strip(&self, entries: &mut Vec<Entry>, path: &str) {
        for (word, text) in [("rider", &self.rider), ("conditions", &self.place)] {
            let replaced = text.as_ref().is_some_and(|(name, _)| name != path);
            entries.retain(|e| !(replaced && spelling(&e.keyword.text()) == word));
        }
        // a text that brings a rider brings nothing else
        let only = match (&self.rider, &self.place) {
            (Some((name, _)), _) if name == path => Some("rider"),
            (_, Some((name, _))) if name == path => Some("conditions"),
            _ => None,
        };
        if let Some(word) = only {
            entries.retain(|e| spelling(&e.keyword.text()) == word);
        }
    }
}
