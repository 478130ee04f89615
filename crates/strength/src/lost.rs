//! What happens when one joint or fastening lets go: members, joints and fastenings of what is left are judged as the
//! seated rider's chair is, for a load that stays.

use crate::answer::{Lost, Strength};
use crate::case::Lasting;
use crate::follow::{Down, Follows, UNKNOWN, Whole, lower, seat_sinks};
use crate::mirror::Mirror;
use crate::solve::Run;
use crate::structure::TieOf;
use crate::whole::tie_name;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// Takes every joint and fastening away, one at a time, under the seated rider, whom `run` is of with nothing lost.
/// Of twins in a chair that is its own image only the first.
pub(crate) fn lost(chair: &Whole<'_>, run: Option<&Run>, mirror: Option<&Mirror>) -> Vec<Lost> {
    let (design, structure) = (chair.court.design, chair.bench.all);
    let mut all: Vec<TieOf> = structure.ties.iter().map(|t| t.of).collect();
    all.retain(|t| matches!(t, TieOf::Joint(_) | TieOf::Fastening(_)));
    all.sort();
    all.dedup();
    let before = run.map(|r| seat_sinks(design, structure, r)).unwrap_or_default();
    let one = |tie: TieOf| told((tie, tie_name(design, tie)), chair.without(tie), &before);
    let twin = |tie: TieOf| mirror.and_then(|m| Some((m, m.of(tie).filter(|of| *of < tie)?)));
    let first: Vec<TieOf> = all.iter().copied().filter(|tie| twin(*tie).is_none()).collect();
    let known: BTreeMap<TieOf, Lost> = first.into_par_iter().map(|tie| (tie, one(tie))).collect();
    let found = |tie: TieOf| {
        let image = || {
            let (m, of) = twin(tie)?;
            Some(seen(m, (tie, tie_name(design, tie)), known.get(&of)?))
        };
        known.get(&tie).cloned().or_else(image).unwrap_or_else(|| one(tie))
    };
    all.into_iter().map(found).collect()
}

/// What the twin leaves behind, in the mirror.
fn seen(mirror: &Mirror, (tie, name): (TieOf, String), twin: &Lost) -> Lost {
    let named = |all: &[String]| all.iter().map(|n| mirror.named(n)).collect::<Vec<String>>();
    let mut unjudged = named(&twin.unjudged);
    unjudged.sort();
    let worst = twin.worst.as_ref().map(|n| mirror.named(n));
    Lost { tie, name, worst, unjudged, lets_go: named(&twin.lets_go), ..*twin }
}

/// What follows as it is told: the first that stood is judged, and what of it or of the last nobody could judge stays open.
fn told((tie, name): (TieOf, String), follows: Follows, before: &BTreeMap<(usize, i64), f64>) -> Lost {
    let Follows { down, at_once, lets_go, first, last, leaves } = follows;
    let sinks = last.as_ref().filter(|_| down == Down::Stays).and_then(|l| lower(before, &l.seat));
    let mut unjudged = leaves;
    unjudged.extend(first.iter().chain(&last).flat_map(|l| l.unjudged.iter().cloned()));
    unjudged.sort();
    unjudged.dedup();
    // what would break the chair in the end does not hold because the first that stood is not sure to break
    let sound = last.as_ref().is_none_or(|l| l.used.1 <= 1.0);
    let seat = if down == Down::Stays && !sound { Down::Untold } else { down };
    let used = match &first {
        _ if at_once => (f64::INFINITY, f64::INFINITY),
        Some(left) => left.used,
        None => UNKNOWN,
    };
    let worst = first.and_then(|l| l.worst).map(|w| w.1);
    Lost { tie, name, falls: at_once, used, worst, unjudged, lets_go, seat, sinks }
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::Rest;

    fn one(falls: bool, used: (f64, f64), unjudged: &[&str]) -> Lost {
        let unjudged = unjudged.iter().map(|n| (*n).to_owned()).collect();
        let (tie, name) = (TieOf::Fastening(0), "one".to_owned());
        let seat = if falls { Down::Seat } else { Down::Stays };
        Lost { tie, name, falls, used, worst: None, unjudged, lets_go: Vec::new(), seat, sinks: None }
    }

    fn lost(falls: bool, used: (f64, f64), unjudged: &[&str]) -> Rest {
        one(falls, used, unjudged).rest()
    }

    /// A seat stays up only on what was wholly judged sound, and sinks by no more than small shifts, 50 mm.
    #[test]
    fn a_seat_stays_up_only_where_that_is_sure() {
        let sinking = |by: f64| Lost { sinks: Some(by), ..one(false, (0.4, 1.0), &[]) };
        assert_eq!((sinking(0.050).rest(), sinking(0.050).comes()), (Rest::Sound, Down::Stays));
        assert_eq!((sinking(0.051).rest(), sinking(0.051).comes()), (Rest::CannotTell, Down::Untold));
        assert_eq!(sinking(f64::NAN).comes(), Down::Untold);
        assert_eq!(one(false, (0.4, 1.0), &["back"]).comes(), Down::Untold);
        assert_eq!(one(false, (0.4, 1.1), &[]).comes(), Down::Untold);
        assert_eq!(one(true, (0.4, 1.0), &[]).comes(), Down::Seat);
        // what breaks beside the seat leaves it up, and takes it along where nobody can tell
        let beside = Lost { lets_go: vec!["footrest".into()], ..one(false, (1.2, 2.0), &[]) };
        assert_eq!((beside.rest(), beside.comes()), (Rest::Breaks, Down::Stays));
        assert_eq!(Lost { unjudged: vec!["back".into()], ..beside }.comes(), Down::Untold);
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
