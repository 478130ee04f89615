//! Whether a change still does it where what is uncertain lies at its ends: each value of the text alone at either end, each measure
//! that stature stands for so too, and together those of the text at their worse ends with the one guess that takes most, for a body is
//! seldom off in several ways at once. Where it does not, the one parameter is turned further; where that does not help, what the
//! change hangs on is said.

use super::asked::Asked;
use super::change::{Change, Firm, Guess};
use super::together::Sought;
use super::{Slope, outward};
use crate::influence::{Off, Uncertain, uncertain};
use crate::{Compilation, Options, Project, StrengthWanted};

/// Compiles that this may take for one chair.
pub(super) const BUDGET: usize = 140;
/// Values of one kind beyond which it is not tried.
const VALUES: usize = 8;
/// Less room than this, in the figure's own unit, is the last of it.
const LAST: f64 = 1e-9;
/// How often a parameter is turned further.
const FURTHER: usize = 4;

/// What a change is tried with.
struct Trial<'t> {
    options: &'t Options,
    /// The same for a chair of which only measures of the rider differ, where what is sought hangs on no verdict of strength.
    light: Options,
    asked: &'t Asked,
    sought: &'t Sought<'t>,
    slopes: &'t [Slope],
}

/// An uncertain value at one of its ends.
#[derive(Clone, Copy)]
struct End<'u> {
    value: &'u Uncertain,
    up: bool,
}

/// What becomes of a change where one value is alone at its ends.
#[derive(Clone, Copy)]
struct Alone<'u> {
    /// The end that is worse for what is sought.
    worse: End<'u>,
    /// The room there.
    room: f64,
    /// Whether the other end leaves more.
    moves: bool,
    /// Whether both ends have what is sought.
    has: bool,
    /// Whether at both all of what is asked is met.
    all_met: bool,
}

impl Alone<'_> {
    fn of(&self, off: Off) -> bool {
        self.worse.value.off == off
    }
}

/// The worse ends of all values of the text, and of the guess that takes most.
fn together<'u>(each: &[Alone<'u>]) -> Vec<End<'u>> {
    let moving = || each.iter().filter(|a| a.moves);
    let guess = moving().filter(|a| a.of(Off::Guessed)).min_by(|a, b| a.room.total_cmp(&b.room));
    moving().filter(|a| a.of(Off::Said)).chain(guess).map(|a| a.worse).collect()
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
        let (said, guessed) = (uncertain(c, Off::Said), uncertain(c, Off::Guessed));
        let strength = StrengthWanted::of(&c.verdicts, !sought.strictly);
        let light = Options { strength, ..options.clone() };
        let trial = Trial { options, light, asked, sought, slopes };
        let aside = Change {
            firm: if said.is_empty() { Firm::Certain } else { Firm::Aside },
            guess: if guessed.is_empty() { Guess::None } else { Guess::Aside },
            ..change
        };
        if said.len() > VALUES || guessed.len() > VALUES {
            return aside;
        }
        let all: Vec<&Uncertain> = said.iter().chain(&guessed).collect();
        let of_text: Vec<&Uncertain> = said.iter().collect();
        let whole = self.firm(&trial, (&all, &mut *budget), &aside);
        let found = whole.or_else(|| {
            let some =
                if guessed.is_empty() { None } else { self.firm(&trial, (&of_text, &mut *budget), &aside) };
            let some = some.unwrap_or_else(|| aside.clone());
            let guess = self.hangs_on(&trial, (&guessed, budget), &some);
            Some(Change { guess, ..some })
        });
        found.unwrap_or(aside)
    }

    /// A change that does it at the ends of some values; `None` where none was found.
    fn firm(
        &mut self,
        trial: &Trial<'_>,
        (values, budget): (&[&Uncertain], &mut usize),
        change: &Change,
    ) -> Option<Change> {
        let mut change = change.clone();
        if values.is_empty() {
            return Some(change);
        }
        let mut each = self.singly(trial, (values, &mut *budget), &change)?;
        let worst = together(&each);
        for turned in 0..FURTHER {
            *budget = budget.checked_sub(1)?;
            let tried = self.at(trial, &change, &worst);
            let (has, room) = (trial.sought.has)(&tried);
            let last = trial.sought.strictly && !worst.is_empty() && room.is_some_and(|r| r < LAST);
            if has && !last {
                if turned > 0 {
                    each = self.singly(trial, (values, &mut *budget), &change)?;
                }
                let met = trial.asked.standing(&tried).all_met();
                let (said, guessed) = (all_met(&each, Off::Said, met), all_met(&each, Off::Guessed, met));
                let moved = each.iter().any(|a| a.of(Off::Guessed) && a.moves);
                let guess = guessed.map(if moved { Guess::AtEnds } else { Guess::Still });
                return each.iter().all(|a| a.has).then(|| change.at_ends(said, guess));
            }
            change = self.further(trial, &mut *budget, &change, room?)?;
        }
        None
    }

    /// The guess that a change hangs on, which does not do it at an end of it.
    fn hangs_on(
        &mut self,
        trial: &Trial<'_>,
        (guessed, budget): (&[Uncertain], &mut usize),
        change: &Change,
    ) -> Guess {
        let guesses: Vec<&Uncertain> = guessed.iter().collect();
        let Some(each) = self.singly(trial, (&guesses, budget), change) else { return change.guess.clone() };
        // what is lost only together with values of the text hangs on the guess that takes most
        let lost = each.iter().filter(|a| !a.has);
        let moving = each.iter().filter(|a| a.moves);
        let least = |a: &&Alone<'_>, b: &&Alone<'_>| a.room.total_cmp(&b.room);
        match lost.min_by(least).or_else(|| moving.min_by(least)) {
            Some(a) => Guess::On(a.worse.value.known.name.clone()),
            None => change.guess.clone(),
        }
    }

    /// Each value alone at either end.
    fn singly<'u>(
        &mut self,
        trial: &Trial<'_>,
        (values, budget): (&[&'u Uncertain], &mut usize),
        change: &Change,
    ) -> Option<Vec<Alone<'u>>> {
        *budget = budget.checked_sub(2 * values.len())?;
        let mut alone = |value: &'u Uncertain| {
            let (mut has, mut all_met) = (true, true);
            let mut rooms = [true, false].map(|up| {
                let tried = self.at(trial, change, &[End { value, up }]);
                let (here, room) = (trial.sought.has)(&tried);
                has &= here;
                all_met &= trial.asked.standing(&tried).all_met();
                (room.unwrap_or(f64::NEG_INFINITY), up)
            });
            rooms.sort_by(|a, b| a.0.total_cmp(&b.0));
            let [(room, up), (better, _)] = rooms;
            Alone { worse: End { value, up }, room, moves: better - room > LAST, has, all_met }
        };
        Some(values.iter().map(|v| alone(v)).collect())
    }

    /// The one parameter turned by what its slope says is lacking, where everything is kept.
    fn further(&mut self, trial: &Trial<'_>, budget: &mut usize, change: &Change, room: f64) -> Option<Change> {
        let sought = trial.sought;
        let [turn] = change.turns.as_slice() else { return None };
        let slope = trial.slopes.iter().find(|s| s.name == turn.name)?;
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
        let tried = self.turned(trial.options, &[(slope, to)]);
        let rest = trial.asked.kept(&tried, Some(sought.target)).filter(|_| (sought.has)(&tried).0)?;
        Some(Change { guess: change.guess.clone(), firm: change.firm, ..slope.change(to, rest) })
    }

    /// The changed chair with some values at their ends. A parameter that is turned keeps its own tolerance.
    fn at(&mut self, trial: &Trial<'_>, change: &Change, ends: &[End<'_>]) -> Compilation {
        let guesses = !ends.is_empty() && ends.iter().all(|e| e.value.off == Off::Guessed);
        let mut changed = if guesses { &trial.light } else { trial.options }.clone();
        let of = |name: &str| trial.slopes.iter().find(|s| s.name == name);
        let mut turns: Vec<(&Slope, f64)> =
            change.turns.iter().filter_map(|t| Some((of(&t.name)?, t.to))).collect();
        for End { value, up } in ends {
            let known = &value.known;
            match turns.iter_mut().find(|t| t.0.name == known.name) {
                Some(turn) => turn.1 += if *up { value.shift } else { -value.shift },
                None => self.take_end(&mut changed, (known, value.place), (value.shift, value.off), *up),
            }
        }
        self.turned(&changed, &turns)
    }
}

/// Of one kind of value, where some were tried: whether all of what is asked is met at its ends, and together with the other kind.
fn all_met(each: &[Alone<'_>], off: Off, together: bool) -> Option<bool> {
    let mut of = each.iter().filter(|a| a.of(off)).peekable();
    of.peek().is_some().then(|| of.all(|a| a.all_met) && together)
}
