//! What follows when a joint or fastening has let go: what moves freely or surely breaks goes as well, one after the
//! other, until the seat comes down, a wheel lets go, or what is left stands.

use crate::answer::What;
use crate::bar::Of;
use crate::case::Case;
use crate::coverage::balanced;
use crate::joints::Said;
use crate::judge::{Court, Use, keep_worst};
use crate::load::{Push, deck};
use crate::matter::matters;
use crate::model::Setup;
use crate::solve::{Bench, Ready, Run, Trouble};
use crate::structure::{Carries, Structure, TieOf};
use chairwright_design::{Design, SupportKind};
use std::collections::BTreeMap;

/// A use that nobody knows: not surely broken, and never sound.
pub(crate) const UNKNOWN: (f64, f64) = (0.0, f64::INFINITY);
/// How many things go one after the other before nobody can tell any more.
const STEPS: u32 = 8;

/// How the seat fares.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Down {
    /// It moves freely, or what carries it breaks.
    Seat,
    /// What holds a wheel or caster does: the chair goes down there, or over.
    Wheel,
    /// It stays up on what is left, as far as that was judged.
    Stays,
    /// Nobody can tell.
    Untold,
}

/// The pushes of the seated rider on what is left of a structure.
pub(crate) type Again<'a> = dyn Fn(&Structure) -> Option<Vec<Push>> + Sync + 'a;

/// The chair as it was before anything let go.
pub(crate) struct Whole<'a> {
    pub court: &'a Court<'a>,
    pub bench: &'a Bench<'a>,
    pub seated: &'a Case,
    pub ready: &'a Ready,
    pub again: &'a Again<'a>,
}

/// What has let go so far.
#[derive(Clone, Debug, Default)]
struct Gone {
    ties: Vec<TieOf>,
    of: Vec<Of>,
    /// Names of what followed the first, in order.
    names: Vec<String>,
    wheel: bool,
}

/// What is left, judged as it stands.
#[derive(Clone, Debug)]
pub(crate) struct Left {
    pub used: (f64, f64),
    pub worst: Option<(What, String)>,
    pub unjudged: Vec<String>,
    /// Downward shift of every place of the seat, m.
    pub seat: BTreeMap<(usize, i64), f64>,
}

/// What came of it.
#[derive(Clone, Debug)]
pub(crate) struct Follows {
    pub down: Down,
    /// Whether the seat or a wheel came loose at once, before anything else was judged.
    pub at_once: bool,
    pub lets_go: Vec<String>,
    /// The first that stood, and the last.
    pub first: Option<Left>,
    pub last: Option<Left>,
    /// Supports that would come off what they lie on.
    pub leaves: Vec<String>,
}

/// One look at what is left.
enum Look {
    /// These move freely.
    Moves(Vec<Of>),
    Stands(Left),
    /// These supports come off what they lie on.
    Leaves(Vec<String>),
    Refused,
}

impl Whole<'_> {
    /// What follows the loss of a tie.
    pub fn without(&self, tie: TieOf) -> Follows {
        let mut gone = Gone { ties: vec![tie], ..Gone::default() };
        let mut out = Follows {
            down: Down::Untold,
            at_once: false,
            lets_go: Vec::new(),
            first: None,
            last: None,
            leaves: Vec::new(),
        };
        for step in 0..STEPS {
            let loosened = match self.look(&gone) {
                Look::Moves(of) => self.loosen(&mut gone, &of),
                Look::Stands(left) => {
                    out.first.get_or_insert_with(|| left.clone());
                    let broken = left.worst.as_ref().filter(|_| left.used.0 > 1.0).map(|w| w.0);
                    let Some(what) = broken else {
                        (out.down, out.last) = (Down::Stays, Some(left));
                        break;
                    };
                    self.part(&mut gone, what)
                }
                Look::Leaves(supports) => {
                    out.leaves = supports;
                    break;
                }
                Look::Refused => break,
            };
            if let Some(down) = self.comes_down(&gone) {
                (out.down, out.at_once) = (down, step == 0 && out.first.is_none());
                break;
            }
            if !loosened {
                break;
            }
        }
        out.lets_go = gone.names;
        out
    }

    /// Takes away what moves freely; whether that was anything.
    fn loosen(&self, gone: &mut Gone, of: &[Of]) -> bool {
        let all = self.bench.all;
        let new: Vec<Of> = of.iter().copied().filter(|o| !gone.of.contains(o)).collect();
        let held = |b: &crate::bar::Bar| all.footings.iter().any(|f| f.carrier.as_ref() == Some(&b.name));
        gone.wheel |= all.bars.iter().any(|b| new.contains(&b.of) && held(b));
        gone.of.extend(&new);
        let mut names: Vec<String> = new.iter().map(|o| self.court.name(What::Bar(*o))).collect();
        names.extend(
            all.decks
                .iter()
                .filter(|d| hangs_on(all, &d.carries, &new))
                .map(|d| self.court.design.supports[d.support].name.clone()),
        );
        names.sort();
        names.dedup();
        names.retain(|n| !gone.names.contains(n));
        gone.names.extend(names);
        !new.is_empty()
    }

    /// Takes away what surely breaks.
    fn part(&self, gone: &mut Gone, what: What) -> bool {
        let tie = match what {
            What::Bar(of) => return self.loosen(gone, &[of]),
            What::Joint(id) => TieOf::Joint(id),
            What::Tie(tie) => tie,
        };
        if let TieOf::Bearing(support) = tie {
            return self.loosen(gone, &[Of::Support(support)]);
        }
        let new = !gone.ties.contains(&tie) && !matches!(tie, TieOf::Sheet | TieOf::Part);
        if new {
            gone.wheel |= matches!(tie, TieOf::Wheel(_) | TieOf::Caster(_));
            gone.names.push(self.court.name(what));
            gone.ties.push(tie);
        }
        new
    }

    /// Whether the seat has come down by now, or a wheel has let go.
    fn comes_down(&self, gone: &Gone) -> Option<Down> {
        let (design, all) = (self.court.design, self.bench.all);
        let seat = deck(design, all, SupportKind::Seat);
        let seat = seat
            .is_some_and(|d| gone.of.contains(&Of::Support(d.support)) || hangs_on(all, &d.carries, &gone.of));
        match (seat, gone.wheel) {
            (true, _) => Some(Down::Seat),
            (false, true) => Some(Down::Wheel),
            (false, false) => None,
        }
    }

    fn look(&self, gone: &Gone) -> Look {
        let setup = Setup { dropped: gone.ties.clone(), ..self.seated.setup.clone() };
        if gone.of.is_empty() {
            let run = self.bench.group_near(&[self.ready], &setup, &[self.seated.pushes.as_slice()]).pop();
            return look(self.court, self.seated, gone, run);
        }
        let bars = &self.bench.all.bars;
        let out: Vec<usize> = (0..bars.len()).filter(|k| gone.of.contains(&bars[*k].of)).collect();
        let left = self.bench.all.clone().without(&out);
        let Some(pushes) = (self.again)(&left) else { return Look::Refused };
        let (design, climate) = (self.court.design, self.court.climate);
        let matters = matters(design, &left, &climate);
        let bench = Bench { all: &left, matters: &matters, feet: self.bench.feet };
        let mut court = Court::new(design, &left, &matters, climate);
        court.sit_as(self.court);
        let run = bench.group_near(&[], &setup, &[pushes.as_slice()]).pop();
        look(&court, self.seated, gone, run)
    }
}

/// Whether a deck lies or hangs on any of these.
pub(crate) fn hangs_on(all: &Structure, carries: &Carries, of: &[Of]) -> bool {
    let is = |bar: &usize| of.contains(&all.bars[*bar].of);
    match carries {
        Carries::Sheet { across, on } => across.iter().chain(on).any(is),
        Carries::Bands(bands) => bands.iter().any(|(l, r)| is(&l.bar) || is(&r.bar)),
        Carries::Nothing => false,
    }
}

fn look(court: &Court<'_>, seated: &Case, gone: &Gone, run: Option<Result<Run, Trouble>>) -> Look {
    match run {
        // a bar that may give way sideways is used as far as the cautious length of its run says: how the whole frame would,
        // is not looked at for each joint, and what that leaves open stays open
        Some(Ok(run)) => Look::Stands(judged(court, seated, gone, &run)),
        Some(Err(Trouble::Moves(ways))) => {
            let bars = ways.iter().flat_map(|w| &w.bars);
            let mut of: Vec<Of> = bars.map(|b| court.all.bars[*b].of).collect();
            of.sort();
            of.dedup();
            Look::Moves(of)
        }
        Some(Err(Trouble::Leaves(supports))) => {
            Look::Leaves(supports.iter().map(|k| court.design.supports[*k].name.clone()).collect())
        }
        // what nobody could compute neither holds nor surely comes down
        Some(Err(Trouble::Refused(_))) | None => Look::Refused,
    }
}

/// The worst of what is left, and what of it nobody can judge.
fn judged(court: &Court<'_>, seated: &Case, gone: &Gone, run: &Run) -> Left {
    let lasting = seated.lasting;
    let out = |what: What| {
        gone.ties
            .iter()
            .any(|tie| what == What::Tie(*tie) || matches!(*tie, TieOf::Joint(j) if what == What::Joint(j)))
    };
    let mut worst: Option<Use> = None;
    let mut keep = |u: Use| {
        if !out(u.what) {
            keep_worst(worst.get_or_insert(u), u);
        }
    };
    court.bars(0, lasting, run, &mut keep);
    let mut cannot: Vec<What> = Vec::new();
    court.each_tie((0, lasting), run, &mut |said| match said {
        Said::Use(u) => keep(u),
        // a load path that is refused by name is not known to break, and is never sound
        Said::Cannot(what, _) | Said::Never(what, _) if !out(what) => cannot.push(what),
        Said::Cannot(..) | Said::Never(..) => {}
    });
    let mut unjudged: Vec<String> = cannot.into_iter().map(|what| court.name(what)).collect();
    let turns = run.cuts.iter().filter(|cut| crate::edgewise::turns(court, lasting, cut));
    unjudged.extend(turns.map(|cut| court.all.bars[cut.bar].name.clone()));
    unjudged.extend(run.held_down.iter().map(|k| court.all.footings[*k].name.clone()));
    unjudged.sort();
    unjudged.dedup();
    let used = worst.filter(|_| balanced(run.residual)).map_or(UNKNOWN, |u| u.used);
    let worst = worst.map(|u| (u.what, court.name(u.what)));
    Left { used, worst, unjudged, seat: seat_sinks(court.design, court.all, run) }
}

/// How far every place of the seat shifts downward: of a sheet along each of its strips, of a sling where its bands hang.
pub(crate) fn seat_sinks(design: &Design, all: &Structure, run: &Run) -> BTreeMap<(usize, i64), f64> {
    let mut out = BTreeMap::new();
    let Some(seat) = deck(design, all, SupportKind::Seat) else { return out };
    #[allow(clippy::cast_possible_truncation)]
    let mark = |at: f64| (at * 1e5).round() as i64;
    let on = |bar: usize| run.moved.iter().filter(move |m| m.0 == bar);
    match &seat.carries {
        Carries::Sheet { across, .. } => {
            for (k, bar) in across.iter().enumerate() {
                out.extend(on(*bar).map(|(_, at, shift)| ((k, mark(*at)), -shift.z)));
            }
        }
        Carries::Bands(bands) => {
            for (k, port) in bands.iter().flat_map(|(l, r)| [l, r]).enumerate() {
                let near = on(port.bar).min_by(|a, b| (a.1 - port.at).abs().total_cmp(&(b.1 - port.at).abs()));
                out.extend(near.map(|(_, _, shift)| ((k, 0), -shift.z)));
            }
        }
        Carries::Nothing => {}
    }
    out
}

/// The most by which any place of the seat lies lower than before, m; `None` where no place was found in both.
pub(crate) fn lower(before: &BTreeMap<(usize, i64), f64>, after: &BTreeMap<(usize, i64), f64>) -> Option<f64> {
    let each = after.iter().filter_map(|(k, z)| Some(z - before.get(k)?));
    each.reduce(f64::max).map(|by| by.max(0.0))
}

/// How high the lowest edge of the seat stands over the ground, m.
pub(crate) fn seat_height(design: &Design, all: &Structure) -> Option<f64> {
    deck(design, all, SupportKind::Seat).map(|d| d.ends.0.z.min(d.ends.1.z))
}
