//! What a change costs in fit: where no rule of fit judges a figure, nothing holds it, and whoever takes the change wants to
//! know.

use super::asked::Asked;
use super::together::Sought;
use super::{Change, Lesson, Slope};
use crate::same::{Identity, brought};
use crate::{Compilation, Options, Project};
use chairwright_diagnostics::Span;
use chairwright_language::Verdict;

/// A length of fit that is off by less is no other fit, in metres. Common practice, no source: about what a tape on a sitting
/// body is good for.
const LENGTH: f64 = 0.010;
/// The same of an angle, in radians.
const ANGLE: f64 = 3.0 * std::f64::consts::PI / 180.0;

/// Figures of fit, with how far they may go unsaid.
const FIT: [(&str, f64); 13] = [
    ("seat.height.front", LENGTH),
    ("seat.angle", ANGLE),
    ("fit.width.ease", LENGTH),
    ("fit.depth.gap.left", LENGTH),
    ("fit.depth.gap.right", LENGTH),
    ("back.angle", ANGLE),
    ("fit.back.top", LENGTH),
    ("fit.knee.room", LENGTH),
    ("footrest.drop.left", LENGTH),
    ("footrest.drop.right", LENGTH),
    ("reach.elbow", ANGLE),
    ("fit.arms.between", LENGTH),
    ("fit.hips.between", LENGTH),
];

/// Figures that leave the body no room below zero: a change that takes it is none, whatever it mends.
const ROOM: [&str; 4] = ["fit.width.ease", "fit.depth.gap.left", "fit.depth.gap.right", "fit.knee.room"];

/// Figures by which the body has no room.
pub(super) fn squeezed(c: &Compilation) -> Vec<&'static str> {
    let below = |name: &&str| c.figures.0.get(*name).is_some_and(|f| f.value.si() < 0.0);
    ROOM.into_iter().filter(below).collect()
}

/// Figures under which a rule of fit knows what is said here by another.
const RULED: [(&str, &str); 3] = [
    ("fit.width.ease", "seat.width"),
    ("fit.depth.gap.left", "seat.depth"),
    ("fit.depth.gap.right", "seat.depth"),
];

/// Figures of fit that are another thing in the changed chair, in words.
fn changed(c: &Compilation, tried: &Compilation) -> Vec<String> {
    let display = c.display();
    let value = |c: &Compilation, name: &str| c.figures.0.get(name).map(|f| f.value);
    let ruled = |name: &str| {
        let known = |key: &str| c.checked.fit_margins.iter().any(|m| m.key == key);
        known(name) || RULED.iter().any(|(of, key)| *of == name && known(key))
    };
    let mut out: Vec<String> = Vec::new();
    for (name, least) in FIT.iter().filter(|(name, _)| !ruled(name)) {
        let (Some(before), Some(after)) = (value(c, name), value(tried, name)) else { continue };
        if (after.si() - before.si()).abs() <= *least {
            continue;
        }
        let short = name.trim_end_matches(".left").trim_end_matches(".right");
        let said = format!("{short} goes from {} to {}", display.text(before), display.text(after));
        // both sides alike are said once
        if !out.contains(&said) {
            out.push(said);
        }
    }
    out
}

/// Preferences that hold and do not in the changed chair, as they are written.
fn spoilt(c: &Compilation, tried: &Compilation, written: &dyn Fn(Span) -> String) -> Vec<String> {
    let preferred = c.verdicts.iter().filter(|v| !v.required && v.holds == Some(true));
    let lost = preferred.filter(|v| {
        let same = |t: &&Verdict| t.span == v.span && t.within == v.within;
        tried.verdicts.iter().find(same).is_none_or(|t| t.holds != Some(true))
    });
    lost.map(|v| written(v.span)).collect()
}

impl Project {
    /// A change that was found, tried at the ends of what is uncertain and in states and at stops, and with what it costs.
    pub(super) fn costed(
        &mut self,
        options: &Options,
        c: &Compilation,
        found: (&Asked, &Sought<'_>),
        lesson: &mut Lesson<'_>,
        change: Change,
    ) -> Change {
        let slopes = lesson.slopes;
        let mut change = self.firmly(options, c, found, (slopes, &mut lesson.ends), change);
        let places = lesson.places.take().unwrap_or_else(|| self.places(options));
        change.elsewhere = self.broken_elsewhere(&places, slopes, &change);
        lesson.places = Some(places);
        let of = |name: &str| slopes.iter().find(|s| s.name == name);
        let turns: Vec<(&Slope, f64)> =
            change.turns.iter().filter_map(|t| Some((of(&t.name)?, t.to))).collect();
        let tried = self.turned(options, &turns);
        change.costs = changed(c, &tried);
        change.spoilt = spoilt(c, &tried, &|span| self.sources.slice(span).to_owned());
        change.worse = found.0.standing(&tried).deeper(&found.0.before);
        change.brings = brought((lesson.there, &tried), Identity::of, &[]);
        change
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_of_fit_are_known() {
        let known: Vec<&str> = chairwright_language::figures::FIGURES.iter().map(|f| f.name).collect();
        let ruled = RULED.iter().flat_map(|(of, key)| [*of, *key]);
        for name in FIT.iter().map(|f| f.0).chain(ruled).chain(ROOM) {
            assert!(known.contains(&name), "{name}");
        }
    }
}
