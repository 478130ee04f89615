//! When findings of two designs are one and the same.

use crate::Compilation;
use crate::influence::OF_THE_TEXT;
use crate::sides::folded;
use chairwright_diagnostics::{Diagnostic, Severity, Span};
use std::collections::BTreeSet;

/// What a finding is known by: its code, its place, and what it is about. What it is about are the names in it, or else its words
/// without their numbers, which another size changes.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) struct Identity {
    code: &'static str,
    place: Option<Span>,
    about: Vec<String>,
    /// Whether those are names.
    named: bool,
}

impl Identity {
    pub(crate) fn of(p: &Diagnostic) -> Identity {
        let names = p.headline.split('`').skip(1).step_by(2).map(str::to_owned);
        let mut about: Vec<String> = names.chain(p.about.iter().cloned()).collect();
        about.sort();
        about.dedup();
        let named = !about.is_empty();
        if !named {
            about.push(p.headline.chars().filter(|c| !c.is_ascii_digit() && *c != '.').collect());
        }
        Identity { code: p.code.name, place: p.primary.as_ref().map(|l| l.span), about, named }
    }

    /// The same wherever it stands: a text that was edited has moved its places.
    pub(crate) fn anywhere(self) -> Identity {
        Identity { place: None, ..self }
    }

    /// The names that it is about.
    pub(crate) fn names(&self) -> &[String] {
        if self.named { &self.about } else { &[] }
    }

    /// Whether a finding says that what this one says is still so, in other words perhaps: of one side of two, or too low where it
    /// was too high.
    pub(crate) fn remains_in(&self, p: &Diagnostic) -> bool {
        let other = Identity::of(p);
        let shared = || self.about.iter().any(|a| other.about.contains(a));
        let told_apart = self.named && other.named;
        self.is_at(p) && (!told_apart || shared())
    }

    /// Whether a finding has the same code and place.
    pub(crate) fn is_at(&self, p: &Diagnostic) -> bool {
        self.code == p.code.name && self.place == p.primary.as_ref().map(|l| l.span)
    }
}

/// What a changed chair is told of, that is no error, and is not told of now: the weightiest first, both sides as one.
/// Findings are known by `of`; those of some codes are left out.
pub(crate) fn brought(
    (now, tried): (&[Diagnostic], &Compilation),
    of: impl Fn(&Diagnostic) -> Identity,
    but: &[&str],
) -> Vec<String> {
    let there: BTreeSet<Identity> = now.iter().map(&of).collect();
    let light = |p: &&Diagnostic| matches!(p.severity, Severity::CannotTell | Severity::Warning);
    let new = tried.problems.iter().filter(light).filter(|p| !there.contains(&of(p)));
    let new = new.filter(|p| !but.contains(&p.code.name));
    let mut new: Vec<&Diagnostic> = new.filter(|p| !OF_THE_TEXT.contains(&p.code.name)).collect();
    new.sort_by_key(|p| p.severity);
    folded(new.into_iter().map(|p| p.headline.as_str()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use chairwright_diagnostics::SourceId;

    fn said(headline: &str, at: usize) -> Diagnostic {
        let place = Span::new(SourceId(0), at, at + 4);
        Diagnostic::new("transfer-step", headline.to_owned()).at(place, "here")
    }

    #[test]
    fn another_number_is_the_same_and_another_place_is_not() {
        let one = Identity::of(&said("the seat is 70.0 mm higher than the bed", 5));
        assert_eq!(one, Identity::of(&said("the seat is 101.5 mm higher than the bed", 5)));
        assert_ne!(one, Identity::of(&said("the seat is 70.0 mm higher than the bed", 9)));
    }

    /// A seat that went from too high to too low is another finding, and yet no bed that is reached.
    #[test]
    fn what_is_said_otherwise_remains() {
        let one = Identity::of(&said("the seat is 70.0 mm higher than the bed", 5));
        let low = said("the seat is 60.0 mm lower than the bed", 5);
        assert!(one != Identity::of(&low) && one.remains_in(&low));
        assert!(!one.remains_in(&said("the seat is 60.0 mm lower than the toilet", 9)));
    }

    #[test]
    fn names_tell_findings_of_one_place_apart() {
        let one = Identity::of(&said("`left.front` swings 3 mm into `rail`", 5));
        assert_eq!(one, Identity::of(&said("`left.front` swings into `rail` by 1.2 mm", 5)));
        let other = said("`right.front` swings into `post`", 5);
        assert!(one != Identity::of(&other) && !one.remains_in(&other));
        assert!(one.remains_in(&said("`left.front` swings into `post`", 5)));
    }
}
