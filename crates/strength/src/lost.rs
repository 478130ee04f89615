//! What happens when one joint or fastening lets go: members, joints and fastenings of what is left are judged as the
//! seated rider's chair is, for a load that stays.

use crate::answer::{Lost, Strength, What};
use crate::case::{Case, Lasting};
use crate::coverage::balanced;
use crate::joints::Said;
use crate::judge::{Court, Use, keep_worst};
use crate::mirror::Mirror;
use crate::model::Setup;
use crate::solve::{Bench, Moving, Ready, Run, Trouble};
use crate::structure::{Carries, Spot, Structure, Tie, TieOf};
use crate::whole::tie_name;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// A use that nobody knows: not surely broken, and never sound.
const UNKNOWN: (f64, f64) = (0.0, f64::INFINITY);

/// Takes every joint and fastening away, one at a time, under the seated rider.
/// Of twins in a chair that is its own image only the first.
pub(crate) fn lost(
    court: &Court<'_>,
    bench: &Bench<'_>,
    (seated, ready): (&Case, &Ready),
    mirror: Option<&Mirror>,
) -> Vec<Lost> {
    let mut all: Vec<TieOf> = bench.all.ties.iter().map(|t| t.of).collect();
    all.retain(|t| matches!(t, TieOf::Joint(_) | TieOf::Fastening(_)));
    all.sort();
    all.dedup();
    let one = |tie: TieOf| {
        let setup = Setup { dropped: Some(tie), ..seated.setup.clone() };
        let run = bench.group_near(&[ready], &setup, &[seated.pushes.as_slice()]).pop();
        let name = tie_name(court.design, tie);
        let open = Lost { tie, name, falls: false, used: UNKNOWN, worst: None, unjudged: Vec::new() };
        match run {
            // a bar that may give way sideways is used as far as the cautious length of its run says: how the whole frame would,
            // is not looked at for each joint, and what that leaves open stays open
            Some(Ok(run)) => rest(court, (tie, seated.lasting), &run, open),
            Some(Err(Trouble::Moves(ways))) => moves(bench.all, tie, &ways, open),
            Some(Err(Trouble::Leaves(supports))) => {
                let unjudged = supports.iter().map(|k| court.design.supports[*k].name.clone()).collect();
                Lost { unjudged, ..open }
            }
            // what nobody could compute neither holds nor surely comes down
            Some(Err(Trouble::Refused(_))) | None => open,
        }
    };
    let twin = |tie: TieOf| mirror.and_then(|m| Some((m, m.of(tie).filter(|of| *of < tie)?)));
    let first: Vec<TieOf> = all.iter().copied().filter(|tie| twin(*tie).is_none()).collect();
    let known: BTreeMap<TieOf, Lost> = first.into_par_iter().map(|tie| (tie, one(tie))).collect();
    let found = |tie: TieOf| {
        let image = || {
            let (m, of) = twin(tie)?;
            Some(seen(m, (tie, tie_name(court.design, tie)), known.get(&of)?))
        };
        known.get(&tie).cloned().or_else(image).unwrap_or_else(|| one(tie))
    };
    all.into_iter().map(found).collect()
}

/// What the twin leaves behind, in the mirror.
fn seen(mirror: &Mirror, (tie, name): (TieOf, String), twin: &Lost) -> Lost {
    let mut unjudged: Vec<String> = twin.unjudged.iter().map(|n| mirror.named(n)).collect();
    unjudged.sort();
    let worst = twin.worst.as_ref().map(|n| mirror.named(n));
    Lost { tie, name, worst, unjudged, ..*twin }
}

/// The worst of what is left, and what of it nobody can judge.
fn rest(court: &Court<'_>, (tie, lasting): (TieOf, Lasting), run: &Run, open: Lost) -> Lost {
    let gone = |what: What| what == What::Tie(tie) || matches!(tie, TieOf::Joint(j) if what == What::Joint(j));
    let mut worst: Option<Use> = None;
    let mut keep = |u: Use| {
        if !gone(u.what) {
            keep_worst(worst.get_or_insert(u), u);
        }
    };
    court.bars(0, lasting, run, &mut keep);
    let mut cannot: Vec<What> = Vec::new();
    court.each_tie((0, lasting), run, &mut |said| match said {
        Said::Use(u) => keep(u),
        // a load path that is refused by name is not known to break, and is never sound
        Said::Cannot(what, _) | Said::Never(what, _) if !gone(what) => cannot.push(what),
        Said::Cannot(..) | Said::Never(..) => {}
    });
    let mut unjudged: Vec<String> = cannot.into_iter().map(|what| court.name(what)).collect();
    let turns = run.cuts.iter().filter(|cut| crate::edgewise::turns(court, lasting, cut));
    unjudged.extend(turns.map(|cut| court.all.bars[cut.bar].name.clone()));
    unjudged.extend(run.held_down.iter().map(|k| court.all.footings[*k].name.clone()));
    unjudged.sort();
    unjudged.dedup();
    let used = worst.filter(|_| balanced(run.residual)).map_or(UNKNOWN, |u| u.used);
    Lost { used, worst: worst.map(|u| court.name(u.what)), unjudged, ..open }
}

/// What then only hangs loose, off the way of the load, does not bring the chair down; the rest without it is not
/// computed.
fn moves(all: &Structure, tie: TieOf, ways: &[Moving], open: Lost) -> Lost {
    let mut without = all.clone();
    without.ties.retain(|t| t.of != tie);
    let adrift = without.adrift();
    let member = |b: &usize| adrift.contains(b) && !carries(all, *b);
    let falls = !ways.iter().all(|w| w.bars.iter().all(member));
    Lost { falls, used: if falls { (f64::INFINITY, f64::INFINITY) } else { UNKNOWN }, ..open }
}

/// What nobody can judge of the whole chair under a load that stays, nobody can judge of the rest.
pub(crate) fn doubt(out: &mut Strength) {
    // what nothing was said of in any case is told as of a short load
    let counts = |kinds: &[Lasting]| kinds.contains(&Lasting::Sustained) || kinds == [Lasting::Short];
    let open = || out.untold.iter().filter(|u| counts(&u.kinds)).map(|u| &u.name);
    for l in out.lost.iter_mut().filter(|l| !l.falls) {
        l.unjudged.extend(open().filter(|n| **n != l.name).cloned());
        l.unjudged.sort();
        l.unjudged.dedup();
    }
}

/// Whether a bar belongs to a seat, back or foot support, or holds one, or holds a wheel.
fn carries(all: &Structure, bar: usize) -> bool {
    let decks = all.decks.iter().any(|d| match &d.carries {
        Carries::Sheet { across, on } => across.contains(&bar) || on.contains(&bar),
        Carries::Bands(b) => b.iter().any(|(l, r)| l.bar == bar || r.bar == bar),
        Carries::Nothing => false,
    });
    let on = |s: &Spot| matches!(s, Spot::Port(p) if p.bar == bar);
    let wheel = |t: &Tie| matches!(t.of, TieOf::Wheel(_) | TieOf::Caster(_));
    decks || all.ties.iter().any(|t| wheel(t) && t.spots.iter().any(on))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::Rest;

    fn lost(falls: bool, used: (f64, f64), unjudged: &[&str]) -> Rest {
        let unjudged = unjudged.iter().map(|n| (*n).to_owned()).collect();
        let (tie, name) = (TieOf::Fastening(0), "one".to_owned());
        Lost { tie, name, falls, used, worst: None, unjudged }.rest()
    }

    /// The example of the trade: a fastening at 443 % of what is sound and 81 % of what surely breaks neither holds
    /// nor surely breaks. What is within both is sound only if nothing was left out.
    #[test]
    fn only_what_is_wholly_judged_and_within_its_limits_is_sound() {
        assert_eq!(lost(false, (0.81, 4.43), &[]), Rest::CannotTell);
        assert_eq!(lost(false, (0.4, 1.0), &[]), Rest::Sound);
        assert_eq!(lost(false, (0.4, 1.0), &["back"]), Rest::CannotTell);
        assert_eq!(lost(false, (1.01, 4.0), &["back"]), Rest::Breaks);
        assert_eq!(lost(false, UNKNOWN, &[]), Rest::CannotTell);
        assert_eq!(lost(false, (f64::NAN, 0.1), &[]), Rest::CannotTell);
        assert_eq!(lost(true, (0.0, 0.0), &[]), Rest::Falls);
    }
}
