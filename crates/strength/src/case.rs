//! What a load case is.

use crate::load::Push;
use crate::model::Setup;
use crate::remark::Source;

/// What a load case is.
#[derive(Clone, PartialEq, Debug)]
pub enum CaseKind {
    /// The rider sits, for hours and years.
    Seated,
    /// Ordinary bumps, over and over.
    Bumps,
    /// The rider throws himself against the back.
    LeaningBack,
    /// One wheel hangs over a hole.
    OneWheelOff(String),
    /// Two wheels on a diagonal carry nearly everything.
    Diagonal(String, String),
    /// Casters run into an edge of this height.
    CasterStrike {
        /// The caster, or `None` for all at once.
        caster: Option<String>,
        /// Height of the edge, in m.
        edge: f64,
        /// Push over the load on the caster.
        ratio: f64,
    },
    /// The chair drops from this height.
    Drop(f64),
    /// The chair rolls off a kerb of this height, in m, and comes down on its wheels at this end alone.
    Landing(End, f64),
    /// The rider puts the whole weight on one front corner of the seat.
    Transfer(&'static str),
    /// The rider pushes up from the middle of an arm.
    Arm(String),
    /// The rider pushes up from an end of an arm: `front` or `rear`.
    ArmEnd(String, &'static str),
    /// Somebody stands on the foot support.
    Standing,
    /// The occupied chair is lifted by this.
    Lift(String),
    /// A helper pushes.
    Pushing,
    /// The chair has gone over backward onto its anti-tip devices, which bear nearly all of it.
    TippedBack,
    /// A load of the design, counted among its loads.
    Declared(usize),
    /// The same with the casters turned: they trail in all other cases.
    Swung(Swung, Box<CaseKind>),
    /// The same without anything that rides along: a bag takes weight off the casters.
    Bare(Box<CaseKind>),
}

/// An end of the chair.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum End {
    /// Ahead of the centre of mass.
    Front,
    /// Behind it.
    Rear,
}

/// How casters are turned.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Swung {
    /// Ahead of their stems, as after rolling backward.
    Ahead,
    /// Each away from the middle of the chair.
    Outward,
}

impl Swung {
    /// Both, in the order of [`crate::structure::Footing::swung`].
    pub(crate) const ALL: [Swung; 2] = [Swung::Ahead, Swung::Outward];
}

impl CaseKind {
    /// What it is, whether or not anything rides along and however the casters stand.
    #[must_use]
    pub fn plain(&self) -> &CaseKind {
        match self {
            CaseKind::Bare(kind) | CaseKind::Swung(_, kind) => kind.plain(),
            kind => kind,
        }
    }
}

/// How long a load lasts.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Lasting {
    /// Hours a day for years.
    Sustained,
    /// Seconds to minutes.
    Short,
    /// A blow.
    Impact,
    /// Over and over.
    Repeated,
}

impl Lasting {
    /// In words.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Lasting::Sustained => "lasting",
            Lasting::Short => "short",
            Lasting::Impact => "a blow",
            Lasting::Repeated => "repeated",
        }
    }
}

/// One load case.
#[derive(Clone, PartialEq, Debug)]
pub struct Case {
    /// What it is.
    pub kind: CaseKind,
    /// How long it lasts.
    pub lasting: Lasting,
    /// What the rider's weight is multiplied by, or the force in N for a push; for the list.
    pub size: f64,
    /// Where its size is from.
    pub source: Source,
    pub(crate) pushes: Vec<Push>,
    pub(crate) setup: Setup,
}

/// Factor of ordinary bumps: the everyday shock of the design paper. Common practice, no source.
pub const BUMPS: f64 = 3.0;
/// Height of the kerb, m: the drop of the ISO 7176-8 test, from memory, not checked.
pub const KERB: f64 = 0.050;

/// Of cases with what each puts on something, the one that puts most; of equals the first.
pub(crate) fn most(each: impl Iterator<Item = (usize, f64)>) -> Option<(usize, f64)> {
    each.max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)))
}

pub(crate) fn case(kind: CaseKind, lasting: Lasting, size: f64, source: Source, pushes: Vec<Push>) -> Case {
    let setup = Setup { lasting: lasting == Lasting::Sustained, ..Setup::default() };
    Case { kind, lasting, size, source, pushes, setup }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_cases_that_put_as_much_the_first_counts() {
        assert_eq!(most([(0, 1.0), (1, 3.0), (2, 3.0), (3, -4.0)].into_iter()), Some((1, 3.0)));
        assert_eq!(most(std::iter::empty()), None);
    }
}
