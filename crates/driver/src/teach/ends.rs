//! Whether a change still does it where what the text says is uncertain lies at its ends: each value alone at either end, and all
//! together at those that are worse. Where it does not, the one parameter is turned further.

use super::asked::Asked;
use super::change::{Change, Firm};
use super::together::Sought;
use super::{Slope, outward};
use crate::influence::{Off, Uncertain, uncertain};
use crate::{Compilation, Options, Project};

/// Compiles that this may take for one chair.
pub(super) const BUDGET: usize = 90;
/// Uncertain values beyond which it is not tried.
const VALUES: usize = 8;
/// Less room than this, in the figure's own unit, is the last of it.
const LAST: f64 = 1e-9;
/// How often a parameter is turned further.
const FURTHER: usize = 4;

/// An uncertain value at one of its ends.
#[derive(Clone, Copy)]
struct End<'u> {
    value: &'u Uncertain,
    up: bool,
}

/// Of some compiles at ends: whether all have what is sought, and whether all of what is asked is met.
#[derive(Clone, Copy)]
struct AtEnds {
    has: bool,
    all_met: bool,
}

impl Project {
    /// The same change, or one that goes further, with what becomes of it where uncertain values lie at their ends.
    pub(super) fn firmly(
        &mut self,
        options: &Options,
        c: &Compilation,
        (asked, sought): (&Asked, &Sought<'_>),
        (slopes, budget): (&[Slope], &mut usize),
        change: Change,
    ) -> Change {
        let values = uncertain(c);
        if values.is_empty() {
            return change;
        }
        let found = self.firm(options, (asked, sought), (slopes, &values, budget), &change);
        found.unwrap_or(Change { firm: Firm::Aside, ..change })
    }

    fn firm(
        &mut self,
        options: &Options,
        (asked, sought): (&Asked, &Sought<'_>),
        (slopes, values, budget): (&[Slope], &[Uncertain], &mut usize),
        change: &Change,
    ) -> Option<Change> {
        if values.len() > VALUES {
            return None;
        }
        let mut change = change.clone();
        let (worst, _) = self.singly(options, (asked, sought), (slopes, values, &mut *budget), &change)?;
        for _ in 0..FURTHER {
            *budget = budget.checked_sub(1)?;
            let tried = self.at(options, slopes, &change, &worst);
            let (has, room) = (sought.has)(&tried);
            let last = sought.strictly && !worst.is_empty() && room.is_some_and(|r| r < LAST);
            if has && !last {
                let (_, each) =
                    self.singly(options, (asked, sought), (slopes, values, &mut *budget), &change)?;
                let all_met = each.all_met && asked.standing(&tried).all_met();
                return each.has.then_some(Change { firm: Firm::AtEnds(all_met), ..change });
            }
            change = self.further(options, (asked, sought), (slopes, &mut *budget), &change, room?)?;
        }
        None
    }

    /// Each value alone at either end, and of each the end that is worse for what is sought.
    fn singly<'u>(
        &mut self,
        options: &Options,
        (asked, sought): (&Asked, &Sought<'_>),
        (slopes, values, budget): (&[Slope], &'u [Uncertain], &mut usize),
        change: &Change,
    ) -> Option<(Vec<End<'u>>, AtEnds)> {
        *budget = budget.checked_sub(2 * values.len())?;
        let mut each = AtEnds { has: true, all_met: true };
        let mut worst = Vec::new();
        for value in values {
            let mut rooms = [true, false].map(|up| {
                let tried = self.at(options, slopes, change, &[End { value, up }]);
                let (has, room) = (sought.has)(&tried);
                each.has &= has;
                each.all_met &= asked.standing(&tried).all_met();
                (room.unwrap_or(f64::NEG_INFINITY), up)
            });
            rooms.sort_by(|a, b| a.0.total_cmp(&b.0));
            if rooms[0].0 < rooms[1].0 {
                worst.push(End { value, up: rooms[0].1 });
            }
        }
        Some((worst, each))
    }

    /// The one parameter turned by what its slope says is lacking, where everything is kept.
    fn further(
        &mut self,
        options: &Options,
        (asked, sought): (&Asked, &Sought<'_>),
        (slopes, budget): (&[Slope], &mut usize),
        change: &Change,
        room: f64,
    ) -> Option<Change> {
        let [turn] = change.turns.as_slice() else { return None };
        let slope = slopes.iter().find(|s| s.name == turn.name)?;
        let dial = &slope.dial;
        let way = (turn.to - turn.from).signum();
        let rate = (slope.by_target[sought.target] * sought.sign).abs().max(1e-12);
        // the last of the room, or met by a hair and yet not for the finding: a step further
        let by = (-room / rate).max(slope.width() * 1e-4);
        let to = match dial.stops.as_slice() {
            [] => outward(turn.to + way * by, dial.now, &dial.unit),
            stops => {
                let beyond = stops.iter().copied().filter(|s| (s - turn.to) * way > 1e-9);
                beyond.min_by(|a, b| (a - turn.to).abs().total_cmp(&(b - turn.to).abs()))?
            }
        };
        if (to - turn.to) * way <= 1e-9
            || dial.range.is_some_and(|(low, high)| !(low - 1e-9..=high + 1e-9).contains(&to))
        {
            return None;
        }
        *budget = budget.checked_sub(1)?;
        let tried = self.turned(options, &[(slope, to)]);
        let rest = asked.kept(&tried, Some(sought.target)).filter(|_| (sought.has)(&tried).0)?;
        Some(slope.change(to, rest))
    }

    /// The changed chair with some values at their ends. A parameter that is turned keeps its own tolerance.
    fn at(&mut self, options: &Options, slopes: &[Slope], change: &Change, ends: &[End<'_>]) -> Compilation {
        let mut changed = options.clone();
        let of = |name: &str| slopes.iter().find(|s| s.name == name);
        let mut turns: Vec<(&Slope, f64)> =
            change.turns.iter().filter_map(|t| Some((of(&t.name)?, t.to))).collect();
        for End { value, up } in ends {
            let known = &value.known;
            match turns.iter_mut().find(|t| t.0.name == known.name) {
                Some(turn) => turn.1 += if *up { value.shift } else { -value.shift },
                None => self.take_end(&mut changed, (known, value.place), (value.shift, Off::Said), *up),
            }
        }
        self.turned(&changed, &turns)
    }
}
