//! A changed chair is looked at without its strength first: most changes that are tried are turned down by what a chair without load
//! cases tells already, in a quarter of the time.

use super::asked::{Asked, Standing};
use super::target::{Target, room};
use super::{Slope, together::Sought};
use crate::{Compilation, Options, Project, StrengthWanted};

/// Whether a compilation has what is sought.
type Has<'h> = &'h mut dyn FnMut(&Compilation) -> bool;

impl Asked {
    /// How the chair stands where its strength is left aside, if that tells of what is sought.
    fn without_strength(&self, sought: Option<usize>) -> Option<&Standing> {
        let tells = |s: &&Standing| sought.is_none_or(|i| s.rooms.get(i).is_none_or(Option::is_some));
        self.light.as_ref().filter(tells)
    }
}

/// Whether one of these hangs on verdicts of strength.
pub(super) fn of_strength(base: &Compilation, light: &Compilation, all: &[&Target]) -> bool {
    all.iter().any(|t| room(base, t).is_some() && room(light, t).is_none())
}

impl Project {
    /// The changed chair without its strength.
    pub(super) fn turned_lightly(&mut self, options: &Options, turns: &[(&Slope, f64)]) -> Compilation {
        self.turned(&Options { strength: StrengthWanted::Nothing, ..options.clone() }, turns)
    }

    /// The changed chair without its strength, where that is enough to turn it down.
    pub(super) fn turned_down(
        &mut self,
        options: &Options,
        asked: &Asked,
        (sought, has): (Option<usize>, Has<'_>),
        turns: &[(&Slope, f64)],
    ) -> Option<Compilation> {
        let before = asked.without_strength(sought)?;
        let tried = self.turned_lightly(options, turns);
        let keeps = has(&tried) && asked.keeps_as(before, &asked.standing(&tried), sought);
        (!keeps).then_some(tried)
    }

    /// The same for what is sought.
    pub(super) fn turned_down_for(
        &mut self,
        options: &Options,
        asked: &Asked,
        sought: &Sought<'_>,
        turns: &[(&Slope, f64)],
    ) -> Option<Compilation> {
        self.turned_down(options, asked, (Some(sought.target), &mut |c| (sought.has)(c).0), turns)
    }
}
