//! Which findings a tried design has that the one before it lacks.

use super::watch::{By, Watch};
use crate::Compilation;
use crate::same::Identity;
use chairwright_diagnostics::{Diagnostic, Severity, Span};

/// Something that stands in the design at an end of an uncertain value and not as it is.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Raised {
    /// At which value, in words.
    pub at: String,
    /// What is said there.
    pub headline: String,
    /// How much it weighs.
    pub severity: Severity,
}

/// Findings about the text and not about the chair: that a tried value takes one away or brings one is no news. The range of a parameter is
/// one of what may be chosen, whatever the saw makes of it.
pub(crate) const OF_THE_TEXT: [&str; 5] =
    ["idle-accept", "idle-deviation", "unknown-origin", "too-much-work", "out-of-range"];

/// What is new in a tried design, but for demands whose room is watched and codes that are left out.
pub(super) fn news(
    c: &Compilation,
    tried: &Compilation,
    watched: &[Watch],
    aside: &[&str],
) -> Vec<(String, Severity)> {
    let demand = |p: &Diagnostic| matches!(p.code.name, "requirement-unmet" | "preference-unmet");
    let spans = watched.iter().filter_map(|w| match w.by {
        By::Demand(k) => c.verdicts.get(k).map(|v| v.span),
        _ => None,
    });
    let spans: Vec<Span> = spans.collect();
    let told = |p: &Diagnostic| demand(p) && p.primary.as_ref().is_some_and(|l| spans.contains(&l.span));
    let counts = |p: &&Diagnostic| {
        p.severity != Severity::Advice
            && !OF_THE_TEXT.contains(&p.code.name)
            && !aside.contains(&p.code.name)
            && !told(p)
    };
    let old: Vec<(Identity, Severity)> =
        c.problems.iter().filter(counts).map(|p| (Identity::of(p), p.severity)).collect();
    let is_old = |p: &Diagnostic| {
        let key = Identity::of(p);
        // the same that weighs more is news
        old.iter().any(|(k, s)| *k == key && *s <= p.severity)
    };
    let mut new: Vec<&Diagnostic> = tried.problems.iter().filter(counts).filter(|p| !is_old(p)).collect();
    new.sort_by_key(|p| p.severity);
    new.into_iter().map(|p| (p.headline.clone(), p.severity)).collect()
}
