//! What happens when one joint or fastening lets go.

use crate::answer::Lost;
use crate::case::{Case, Lasting};
use crate::judge::Court;
use crate::model::Setup;
use crate::solve::{Bench, Ready, Trouble};
use crate::structure::{Carries, Spot, Structure, Tie, TieOf};
use crate::whole::tie_name;

/// Takes every joint and fastening away, one at a time, under the seated rider.
pub(crate) fn lost(court: &Court<'_>, bench: &Bench<'_>, (seated, ready): (&Case, &Ready)) -> Vec<Lost> {
    let mut all: Vec<TieOf> = bench.all.ties.iter().map(|t| t.of).collect();
    all.retain(|t| matches!(t, TieOf::Joint(_) | TieOf::Fastening(_)));
    all.sort();
    all.dedup();
    let one = |tie: TieOf| {
        let setup = Setup { dropped: Some(tie), ..Setup::default() };
        let run = bench.group_near(&[ready], &setup, &[seated.pushes.as_slice()], false).pop();
        let name = tie_name(court.design, tie);
        match run {
            Some(Ok(run)) => {
                let mut used = 0.0_f64;
                court.bars(0, Lasting::Short, &run, &mut |u| used = used.max(u.used.0));
                Lost { tie, name, falls: false, used }
            }
            // what then only hangs loose, off the way of the load, does not bring the chair down
            Some(Err(Trouble::Moves(ways))) => {
                let mut without = bench.all.clone();
                without.ties.retain(|t| t.of != tie);
                let adrift = without.adrift();
                let member = |b: &usize| adrift.contains(b) && !carries(bench.all, *b);
                let falls = !ways.iter().all(|w| w.bars.iter().all(member));
                Lost { tie, name, falls, used: if falls { f64::INFINITY } else { 0.0 } }
            }
            _ => Lost { tie, name, falls: true, used: f64::INFINITY },
        }
    };
    all.into_iter().map(one).collect()
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
