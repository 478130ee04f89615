//! How a demand stands once what is uncertain was tried: the one place that every report asks.

use crate::{Compilation, is_open};
use chairwright_language::Verdict;

/// How something that is asked for stands.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stands {
    /// It is met.
    Met,
    /// It is not met.
    Unmet,
    /// Nobody can tell.
    CannotTell,
}

impl Stands {
    fn of(holds: Option<bool>) -> Stands {
        match holds {
            Some(true) => Stands::Met,
            Some(false) => Stands::Unmet,
            None => Stands::CannotTell,
        }
    }

    fn doubted(self, doubted: bool) -> Stands {
        if self == Stands::Met && doubted { Stands::CannotTell } else { self }
    }
}

/// How a demand of the text stands: what hangs on an uncertain value, or on the price of something that has none, nobody can
/// tell.
#[must_use]
pub fn stands(c: &Compilation, v: &Verdict) -> Stands {
    if is_open(v, &c.bill) {
        return Stands::CannotTell;
    }
    let at = c.verdicts.iter().position(|x| x.span == v.span && x.within == v.within);
    let alone = || c.influences.iter().any(|i| i.off.counts() && at.is_some_and(|k| i.demands.contains(&k)));
    let together = || c.together.iter().any(|t| at.is_some() && t.demand == at);
    Stands::of(v.holds).doubted(alone() || together())
}

/// How a margin of the use profile stands, by the figure that must bear it.
#[must_use]
pub fn margin_stands(c: &Compilation, figure: &str, holds: Option<bool>) -> Stands {
    let alone = || c.influences.iter().any(|i| i.uses_up(figure));
    let together = || c.together.iter().any(|t| t.demand.is_none() && !t.soft && t.figure == figure);
    Stands::of(holds).doubted(alone() || together())
}
