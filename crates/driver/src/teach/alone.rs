//! One parameter alone that meets what is sought: nearby, or else further on, past values at which something else is broken.

use super::Slope;
use super::asked::{Asked, Kept};
use super::change::Change;
use super::together::Sought;
use crate::{Options, Project};

/// Steps of the search for one change.
const STEPS: usize = 6;
/// Parameters that are looked at all along their range, those that move most first.
const BEYOND: usize = 2;
/// Looks along the rest of a range, and steps back from the first of them that does.
const LOOKS: u32 = 24;
const BACK: u32 = 4;

/// What a change has to keep, and what it is sought for.
type Quest<'q> = (&'q Asked, &'q Sought<'q>);

impl Project {
    /// The least change of one parameter that meets what is sought and breaks nothing that was met.
    pub(super) fn change(
        &mut self,
        options: &Options,
        asked: &Asked,
        sought: &Sought<'_>,
        moving: &[&Slope],
    ) -> Option<Change> {
        let quest = (asked, sought);
        let mut best: Option<Change> = None;
        for slope in moving {
            let Some(found) = self.nearest(options, quest, slope) else { continue };
            if found.is_better(best.as_ref()) {
                best = Some(found);
            }
        }
        best.or_else(|| {
            let mut widest = moving.iter().take(BEYOND);
            widest.find_map(|slope| self.beyond(options, quest, slope))
        })
    }

    /// By the slope, and then by what came of it: the nearest value that meets it.
    fn nearest(&mut self, options: &Options, quest: Quest<'_>, slope: &Slope) -> Option<Change> {
        let (dial, sought) = (&slope.dial, quest.1);
        let good = |value: f64, project: &mut Project| project.tried(options, quest, (slope, value));
        if !dial.stops.is_empty() {
            let mut stops = dial.stops.clone();
            stops.sort_by(|a, b| (a - dial.now).abs().total_cmp(&(b - dial.now).abs()));
            return stops.into_iter().find_map(|s| good(s, self).1.map(|all| slope.change(s, all)));
        }
        let (mut at, mut has) = (dial.now, sought.room);
        let mut rate = slope.by_target[sought.target];
        for _ in 0..STEPS {
            let to = outward(at - has / rate, dial.now, &dial.unit);
            if dial.range.is_some_and(|(low, high)| !(low - 1e-9..=high + 1e-9).contains(&to)) {
                return None;
            }
            let (here, kept) = good(to, self);
            if let Some(all) = kept {
                return Some(slope.change(to, all));
            }
            let here = here?;
            if here >= 0.0 || (to - at).abs() < 1e-9 {
                return None; // it is met, and something else is broken
            }
            let next = (here - has) / (to - at);
            (at, has) = (to, here);
            if next.abs() < 1e-12 || next * rate < 0.0 {
                return None;
            }
            rate = next;
        }
        None
    }

    /// Further on than the nearest value that meets it, where something else is broken there: an axle that has to go through a post
    /// may stand on its other side.
    fn beyond(&mut self, options: &Options, quest: Quest<'_>, slope: &Slope) -> Option<Change> {
        let (dial, sought) = (&slope.dial, quest.1);
        let (low, high) = dial.range.filter(|_| dial.stops.is_empty())?;
        let end = if slope.by_target[sought.target] * sought.sign > 0.0 { high } else { low };
        if (end - dial.now).abs() < 1e-9 {
            return None;
        }
        let share = |k: u32| dial.now + (end - dial.now) * f64::from(k) / f64::from(LOOKS);
        let mut look = |to: f64| {
            let to = outward(to, dial.now, &dial.unit).clamp(low, high);
            Some((to, self.tried(options, quest, (slope, to)).1?))
        };
        let (k, mut best) = (1..=LOOKS).find_map(|k| Some((k, look(share(k))?)))?;
        let mut near = share(k - 1);
        for _ in 0..BACK {
            let middle = near.midpoint(best.0);
            match look(middle).filter(|(to, _)| (to - best.0).abs() > 1e-9) {
                Some(better) => best = better,
                None => near = middle,
            }
        }
        Some(slope.change(best.0, best.1))
    }

    /// The room that there is with a parameter at a value; and what becomes of the rest, where it is enough and nothing else is broken.
    fn tried(
        &mut self,
        options: &Options,
        (asked, sought): Quest<'_>,
        turn: (&Slope, f64),
    ) -> (Option<f64>, Option<Kept>) {
        if let Some(tried) = self.turned_down_for(options, asked, sought, &[turn]) {
            return ((sought.has)(&tried).1, None);
        }
        let tried = self.turned(options, &[turn]);
        let (has, room) = (sought.has)(&tried);
        (room, asked.kept(&tried, Some(sought.target)).filter(|_| has))
    }
}

/// A value rounded away from the present one, to what a builder can set.
pub(super) fn outward(value: f64, now: f64, unit: &str) -> f64 {
    let step = match unit {
        "mm" => 1.0,
        "deg" => 0.1,
        "kg" => 0.05,
        _ => return value + (value - now) * 1e-6,
    };
    // a hair within a step of it counts as on it, so that an exact answer stays exact
    if value > now { (value / step - 1e-6).ceil() * step } else { (value / step + 1e-6).floor() * step }
}
