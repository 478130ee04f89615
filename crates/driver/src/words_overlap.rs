//! What is drawn through something else, in words.

use crate::sides::without_side;
use crate::words::Words;
use chairwright_checks::{Overlap, Overlaps};
use chairwright_diagnostics::Diagnostic;

/// Things beside the deepest that are named.
const NAMED: usize = 6;

/// What is told where so much stands near each other that it was not all looked at.
pub(crate) const CUT_SHORT: &str =
    "so much is drawn near each other that whether parts stand in each other was not looked at everywhere";

impl Words<'_> {
    pub(crate) fn overlaps(&self, all: &Overlaps) -> Vec<Diagnostic> {
        all.found.iter().filter_map(|o| self.overlap(o)).collect()
    }

    fn overlap(&self, o: &Overlap) -> Option<Diagnostic> {
        let (deepest, depth) = o.others.first()?;
        let lies = o.lies;
        let (one, deep) = (&o.one, self.length(*depth));
        let headline = match lies {
            true => format!("`{one}` is drawn into `{deepest}`, not onto it"),
            false => format!("`{one}` and `{deepest}` are drawn through each other"),
        };
        let label = match lies {
            true => format!("{deep} deep"),
            false => format!("no nearer way out of it than {deep}"),
        };
        let support = self.design.supports.iter().any(|s| s.name == *one);
        // of its own code: what accepts a notch around a post accepts no seat that is drawn too low
        let code = if lies && support { "drawn-into" } else { "drawn-through" };
        let mut said = Diagnostic::new(code, headline);
        said.about.extend([one, deepest].into_iter().flat_map(|name| self.called(name)));
        let said = self.at_both(said, (one, deepest), label);
        let said = match self.also_in(o) {
            Some(names) => said.note(names),
            None => said,
        };
        Some(match lies {
            true if !support => said.note("it cannot lie so deep").help(format!(
                "move it {deep} out; what is sawn out of it say by accept \"drawn-through\" about {one} because \"…\": neither weight \
                 nor strength knows of it"
            )),
            true => said
                .note(
                    "it cannot lie so deep: what it carries comes higher or further out than drawn, and heights and the slopes \
                     that tip the chair are not those worked out",
                )
                .help(format!(
                    "move it {deep} out: the places of a seat, back or footrest are on the rider's side of the sheet, so that what it \
                     lies on is one thickness behind them"
                )),
            false => said.note("no joint, bore or hole of the text explains it, and nobody can put it together").help(format!(
                "move one of them {deep} or more, or let them meet at a joint; what is sawn out of one of them say by accept \
                 \"drawn-through\" about {one} because \"…\": neither weight nor strength knows of it"
            )),
        })
    }

    /// What else it stands in; both sides count once.
    fn also_in(&self, o: &Overlap) -> Option<String> {
        let mut names: Vec<String> = Vec::new();
        let first = o.others.first().map(|(name, _)| without_side(name).to_owned());
        for (name, deep) in &o.others[1..] {
            let plain = without_side(name).to_owned();
            let told = format!("`{plain}`");
            if Some(plain) != first && !names.iter().any(|n| n.starts_with(&told)) {
                names.push(format!("{told} by {}", self.length(*deep)));
            }
        }
        let more = match names.len().saturating_sub(NAMED) {
            0 => String::new(),
            n => format!(", and {n} more"),
        };
        names.truncate(NAMED);
        (!names.is_empty()).then(|| format!("it also stands in {}{more}", names.join(", ")))
    }
}
