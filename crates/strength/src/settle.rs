//! Where fasteners are taken to sit that the text does not place: of all rows that fit on the face, those in which the
//! joint bears most over all load cases; or why so many fit nowhere.

use crate::case::Case;
use crate::joints::Said;
use crate::judge::{Court, rank};
use crate::placing::{Driven, ROUND};
use crate::reasons::Reason;
use crate::room::Room;
use crate::seam::{Seam, Sits};
use crate::solve::Run;
use chairwright_design::{Drive, Origin, Placing};
use chairwright_resistance::keep::Shaft;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// Steps in which thinner fasteners are looked for, m.
const THINNER: f64 = 0.0005;
/// How often a twentieth is added to a face that is too small.
const GROWS: u32 = 60;
/// Steps that places are looked for in, m: 5 mm, else 1 mm; of a design in inches 1/4 in, else 1/16 in.
const METRIC: [f64; 2] = [0.005, 0.001];
const INCH: [f64; 2] = [0.0254 / 4.0, 0.0254 / 16.0];

/// The steps that spacings are offered and taken in, m: first the coarse one.
#[must_use]
pub fn steps(inches: bool) -> [f64; 2] {
    if inches { INCH } else { METRIC }
}

/// The thinnest that is sold for such joints, m. Common practice, no source.
fn least_diameter(shaft: Shaft) -> f64 {
    match shaft {
        Shaft::Screw | Shaft::Undrilled => 0.003,
        Shaft::Bolt => 0.005,
    }
}

impl Court<'_> {
    /// Takes the fasteners of a seam that the text does not place to sit where they turn least of all places that fit, until
    /// [`Court::settle`] knows what they bear; or says why they fit nowhere.
    pub(crate) fn take(&self, seam: &mut Seam<'_>) {
        let Ok(fixed) = self.fixed(seam) else { return };
        let aslant = seam.drive == Drive::Slanted;
        let Some(driven) = fixed.driven().filter(|_| seam.sits == Sits::Open && !aslant) else { return };
        let steps = steps(self.design.inches);
        let Some(room) = self.room(seam, fixed.count, driven) else {
            seam.sits = Sits::Nowhere(Reason::NoFace);
            return;
        };
        match room.fit(room.wanted(), steps) {
            Some(placing) => seam.place(placing, Sits::Taken),
            None => seam.sits = Sits::Nowhere(self.too_many(seam, &room, driven)),
        }
    }

    /// How many fit instead, and up to which diameter or on how large a face all would.
    fn too_many(&self, seam: &Seam<'_>, room: &Room, driven: Driven) -> Reason {
        let steps = steps(self.design.inches);
        let (has, face) = (room.wanted(), room.face);
        let fits = room.fewer(has, steps).map_or(0, |f| f.0);
        let thinner = (1..)
            .map(|k| driven.1 - THINNER * f64::from(k))
            .take_while(|d| *d >= least_diameter(driven.0) - ROUND)
            .find(|d| self.room(seam, has, (driven.0, *d)).is_some_and(|r| r.fit(has, steps).is_some()));
        let larger = (1..=GROWS)
            .map(|k| 1.0 + 0.05 * f64::from(k))
            .find(|by| room.grown(*by).fit(has, steps).is_some())
            .map(|by| face.map(|f| (f * by).into()));
        Reason::NoRoom { has, fits, face: face.map(Into::into), thinner: thinner.map(Into::into), larger }
    }

    /// Chooses among the places that fit, for the fasteners of each statement: those in which they are used least in the worst of
    /// all cases. Both sides are one statement, and sit alike; of a gusset those on either member by themselves.
    pub(crate) fn settle(&mut self, cases: &[Case], runs: &[Option<&Run>]) {
        let mut alike: BTreeMap<(Origin, bool), Vec<usize>> = BTreeMap::new();
        for (k, seam) in self.seams.iter().enumerate() {
            if let Ok(seam) = seam
                && seam.sits == Sits::Taken
            {
                alike.entry((self.said_of(seam.what).1, seam.past)).or_default().push(k);
            }
        }
        let alike: Vec<Vec<usize>> = alike.into_values().collect();
        let best: Vec<Option<Placing>> = alike.par_iter().map(|all| self.best(all, cases, runs)).collect();
        for (all, placing) in alike.into_iter().zip(best) {
            let Some(placing) = placing else { continue };
            for k in all {
                if let Ok(seam) = &mut self.seams[k] {
                    seam.place(placing, Sits::Taken);
                }
            }
        }
        self.beside = self.side_by_side();
    }

    /// The placing in which the worst used of some seams is used least.
    fn best(&self, seams: &[usize], cases: &[Case], runs: &[Option<&Run>]) -> Option<Placing> {
        let mut best: Option<(Worst, Placing)> = None;
        for placing in self.choices(seams) {
            let each = seams.iter().map(|k| self.worst(*k, placing, cases, runs));
            let worst = each.fold(Worst::default(), Worst::with);
            // of two as good as equal the one that turns least, which comes first
            if best.is_none_or(|b| worst.beats(b.0)) {
                best = Some((worst, placing));
            }
        }
        best.map(|b| b.1)
    }

    /// Takes fasteners to sit where they sit in another judgement of nearly the same chair, where they fit there.
    pub(crate) fn sit_as(&mut self, other: &Court<'_>) {
        for k in 0..self.seams.len() {
            let Some(mine) = self.seams[k].as_ref().ok().filter(|s| s.sits == Sits::Taken) else { continue };
            let twin = |s: &&Seam<'_>| (s.what, s.past) == (mine.what, mine.past) && s.sits == Sits::Taken;
            let twin = other.seams.iter().flatten().find(twin);
            let Some(placing) = twin.and_then(|s| s.placing).filter(|p| self.choices(&[k]).contains(p)) else {
                continue;
            };
            if let Ok(seam) = &mut self.seams[k] {
                seam.place(placing, Sits::Taken);
            }
        }
        self.beside = self.side_by_side();
    }

    /// The places that fit on each of some faces.
    fn choices(&self, seams: &[usize]) -> Vec<Placing> {
        let steps = steps(self.design.inches);
        let one = |k: &usize| {
            let seam = self.seams[*k].as_ref().ok()?;
            let fixed = self.fixed(seam).ok()?;
            let room = self.room(seam, fixed.count, fixed.driven()?)?;
            Some(room.fits(room.wanted(), steps))
        };
        let mut lists = seams.iter().filter_map(one);
        let Some(mut first) = lists.next() else { return Vec::new() };
        for other in lists {
            first.retain(|p| other.contains(p));
        }
        first
    }

    /// How far a seam is used in its worst case with its fasteners somewhere.
    fn worst(&self, seam: usize, placing: Placing, cases: &[Case], runs: &[Option<&Run>]) -> Worst {
        let mut out = Worst::default();
        let Ok(seam) = &self.seams[seam] else { return out };
        let mut seam = seam.clone();
        seam.place(placing, Sits::Taken);
        for (index, (case, run)) in cases.iter().zip(runs).enumerate() {
            let Some(run) = run else { continue };
            self.seam(&seam, (index, case.lasting), run, &mut |said| match said {
                Said::Use(u) => {
                    out.sure = out.sure.max(u.used.0);
                    out.used = out.used.max(rank((0.0, u.used.1)));
                }
                Said::Cannot(..) | Said::Never(..) => out.untold += 1,
            });
        }
        out
    }
}

/// How a placing does in its worst case.
#[derive(Clone, Copy)]
struct Worst {
    /// How often nobody can tell.
    untold: usize,
    /// How far it is used of what surely breaks it, where that is all of it or more; else 1.
    sure: f64,
    /// How far it is used of what is sound.
    used: f64,
}

impl Default for Worst {
    fn default() -> Worst {
        Worst { untold: 0, sure: 1.0, used: 0.0 }
    }
}

impl Worst {
    fn with(self, o: Worst) -> Worst {
        Worst { untold: self.untold + o.untold, sure: self.sure.max(o.sure), used: self.used.max(o.used) }
    }

    fn beats(self, o: Worst) -> bool {
        let less = |a: f64, b: f64| a < b * (1.0 - 1e-6);
        let by_use = less(self.sure, o.sure) || (!less(o.sure, self.sure) && less(self.used, o.used));
        self.untold < o.untold || (self.untold == o.untold && by_use)
    }
}
