//! What catches a finger, or runs into something, as the chair is set otherwise, in words.

use crate::sides::without_side;
use crate::words::Words;
use chairwright_checks::{Caught, Collided};
use chairwright_diagnostics::{Diagnostic, Severity};

/// Pairs beside the first that are named.
const NAMED: usize = 6;

/// What a trap is called beside others.
pub(crate) fn trap_name(c: &Caught) -> String {
    match &c.hole {
        Some(hole) => format!("`{}`", without_side(hole)),
        None => pair_name(&c.one, &c.other),
    }
}

/// What a pair is called beside others.
pub(crate) fn pair_name(one: &str, other: &str) -> String {
    format!("`{}` and `{}`", without_side(one), without_side(other))
}

/// Adds the names of what else is found on the same way; both sides count once.
pub(crate) fn others(said: Diagnostic, first: &str, rest: impl Iterator<Item = String>) -> Diagnostic {
    let mut names: Vec<String> = Vec::new();
    for n in rest {
        if n != first && !names.contains(&n) {
            names.push(n);
        }
    }
    let more = match names.len().saturating_sub(NAMED) {
        0 => String::new(),
        n => format!(", and {n} more"),
    };
    names.truncate(NAMED);
    match names.is_empty() {
        true => said,
        false => said.note(format!("on the same way also {}{more}", names.join(", "))),
    }
}

impl Words<'_> {
    /// The names that an `accept` may call what catches a finger by: both parts as they are told, and what the text calls them.
    pub(crate) fn subjects(&self, c: &Caught) -> Vec<String> {
        let told = [&c.one, &c.other].into_iter().chain(&c.hole);
        told.flat_map(|name| self.called(name)).collect()
    }

    /// Something that catches a finger on the way.
    pub(crate) fn caught(&self, c: &Caught, way: &str, at: &str) -> Diagnostic {
        let (one, other) = (&c.one, &c.other);
        let (low, high) = (self.length(c.band.0), self.length(c.band.1));
        match &c.hole {
            Some(hole) => {
                let headline = format!("`{other}` shears a child's finger in the hole `{hole}` {way}");
                let label =
                    format!("{} across, covered at {at} and open elsewhere on the way", self.length(c.gap));
                self.at_both(Diagnostic::new("finger-trap", headline), (one, other), label)
                    .note(format!("an edge that passes an opening of {low} to {high} shears what is in it"))
                    .help(format!(
                        "drill the hole narrower than {low}, put a cap over it, or let nothing end behind it"
                    ))
            }
            None => {
                let headline = format!("a child's finger is caught between `{one}` and `{other}` {way}");
                let label = format!("{} between them at {at}", self.length(c.gap));
                self.at_both(Diagnostic::new("finger-trap", headline), (one, other), label)
                    .note(format!(
                        "they move against each other: a gap that passes through {high} to {low} shears or squeezes a finger"
                    ))
                    .help(format!(
                        "leave {high} or more between them all the way, keep them nearer than {low} all the way, or cover the gap; where only a grown-up sets it, say so: accept \"finger-trap\" about NAME because \"…\""
                    ))
            }
        }
    }

    /// Two parts of which one runs into the other: at a place that the text sets, or only between two of them.
    pub(crate) fn collided(&self, c: &Collided, (way, at): (&str, &str), depth: f64, set: bool) -> Diagnostic {
        let (one, other) = (&c.one, &c.other);
        let headline = match set {
            true => format!("`{one}` runs into `{other}` {way}"),
            false => format!("nobody can tell whether `{one}` passes `{other}` {way}"),
        };
        let said = Diagnostic::new("parts-collide", headline);
        let said = if set { said } else { said.severity(Severity::CannotTell) };
        let label = format!("{} inside it at {at}", self.length(depth));
        let said = self.at_both(said, (one, other), label);
        let note = match set {
            true => "elsewhere on the way they are free of each other: one is not built into the other",
            false => {
                "all that the way changes was turned together and evenly; in another order, or with a part taken off, they may pass"
            }
        };
        said.note(note).help(
            "shorten or move one of them, or end the way before they meet; where one goes into the other on purpose, or is \
             taken off for it, say so: accept \"parts-collide\" about NAME because \"…\"",
        )
    }
}
