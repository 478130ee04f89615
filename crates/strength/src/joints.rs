//! Fastenings and closed joints against what they may bear: every one is judged, refused, or told as
//! unknown with the reason.

use crate::answer::{Mode, What};
use crate::bolts::NOTHING;
use crate::case::Lasting;
use crate::demand::{Demand, even, fastener_use};
use crate::gluing::Glueing;
use crate::judge::{Court, Use};
use crate::limit::Unknown;
use crate::piece::Body;
use crate::placing::Driven as Shank;
use crate::reasons::Reason;
use crate::screws::{Driven, Why, driven, held_by_wood};
use crate::seam::{Seam, Sits, held};
use crate::solve::Run;
use crate::walls::OnWall;
use chairwright_design::{Drive, Fastener};
use chairwright_resistance::bolt_in_pipe::Stays;
use chairwright_resistance::keep::Shaft;
use chairwright_resistance::withdrawal::{Fastener as Pulled, with_shear};
use chairwright_resistance::{Never, NotKnown, Refusal};

/// What one look at one joint in one case says.
#[derive(Clone, Debug)]
pub(crate) enum Said {
    Use(Use),
    Cannot(What, Unknown),
    Never(What, Never),
}

impl Said {
    /// What it is said of.
    pub fn of(&self) -> What {
        match self {
            Said::Use(u) => u.what,
            Said::Cannot(what, _) | Said::Never(what, _) => *what,
        }
    }
}

/// Fasteners of a list that go through, and what comes with them.
pub(crate) struct Fixed<'d> {
    pub through: Vec<&'d Fastener>,
    pub count: u32,
    /// Outside diameter of the narrowest washer, m, if there are two for each bolt and their pages say it.
    pub washer: Option<f64>,
    pub sleeve: Option<&'d Fastener>,
    /// How many of those sleeves there are.
    pub sleeves: u32,
    /// Whether there are lead holes, and which way they go.
    pub drive: Drive,
}

impl Fixed<'_> {
    /// The sleeve of each bolt, if there are enough to line so many walls, each so wide, m: one in each hole, or one as long as all.
    pub fn lines(&self, wide: &[f64]) -> Option<&Fastener> {
        let walls = u32::try_from(wide.len()).unwrap_or(u32::MAX);
        let long = |f: &Fastener| f.length + 0.001 >= wide.iter().sum::<f64>();
        let enough = |f: &Fastener| self.sleeves >= if long(f) { self.count } else { walls * self.count };
        self.sleeve.filter(|f| enough(f))
    }

    /// What goes in, and how thick the thickest of it is, m.
    pub fn driven(&self) -> Option<Shank> {
        let bolts = self.through.iter().all(|f| f.kind == "bolt");
        let thickest = self.through.iter().map(|f| f.diameter).reduce(f64::max)?;
        let shaft = match self.drive {
            _ if bolts => Shaft::Bolt,
            Drive::Drilled => Shaft::Screw,
            // aslant they go in without lead holes as a rule
            Drive::Undrilled | Drive::Slanted => Shaft::Undrilled,
        };
        Some((shaft, thickest))
    }
}

pub(crate) type When = (usize, Lasting);

/// Diameters of thread that differ by less are one, m: M8 is 8.0 mm, 5/16 in 7.9 mm, and neither nut goes on the other.
const SAME_THREAD: f64 = 0.00005;

impl Court<'_> {
    /// All that is said of every joint and fastening in one run.
    pub(crate) fn each_tie(&self, when: When, run: &Run, say: &mut dyn FnMut(Said)) {
        self.sockets(when.0, when.1, run, say);
        for found in &self.seams {
            match found {
                Ok(seam) => self.seam(seam, when, run, say),
                Err((what, why)) => say(Said::Cannot(*what, why.clone())),
            }
        }
    }

    /// Fasteners alone, and glue beside them: whichever holds better holds the joint, and they never add.
    pub(crate) fn seam(&self, seam: &Seam<'_>, when: When, run: &Run, say: &mut dyn FnMut(Said)) {
        let no = |why: Reason| Said::Cannot(seam.what, held(seam.list, seam.glue, why));
        let Some((w, places)) = seam.wrench(self, run) else {
            return say(no(Reason::Shared));
        };
        // where they lie on the member that runs past, the same goes through them
        if seam.plates && !seam.past {
            self.plates(seam, when, &w, say);
        }
        let fixed = match self.fixed(seam) {
            Ok(fixed) => fixed,
            Err(why) => return say(no(why)),
        };
        let glue = seam.glue.map(|_| self.glued(seam, when.1, &w));
        // what a bench speaks against holds nothing for sure
        let bench = seam.pair.iter().find_map(|p| self.benches[p.stock.index()].clone());
        if let Some(why) = &bench {
            say(Said::Cannot(seam.what, why.clone()));
        }
        if fixed.count == 0 {
            return match glue {
                Some(Ok(g)) if g.opened => {
                    let open = Refusal::NotKnown(NotKnown::TensionAcrossGlue);
                    if g.used.0 > 1.0 {
                        say(Said::Use(glue_use(seam.what, when.0, &g)));
                    }
                    self.refuse(seam, &Why::Refused(open), say);
                }
                Some(Ok(g)) if bench.is_some() && g.used.0 <= 1.0 => {}
                Some(Ok(g)) => say(Said::Use(glue_use(seam.what, when.0, &g))),
                Some(Err(Ok(why))) => self.refuse(seam, &why, say),
                Some(Err(Err(unknown))) => say(Said::Cannot(seam.what, unknown)),
                None => say(no(Reason::Nothing)),
            };
        }
        let (demand, known) = match (self.demand(seam, &fixed, &w, &places), &seam.sits) {
            // aslant they stand on no face
            (Ok(demand), _) if seam.drive == Drive::Slanted => (demand, false),
            (Ok(demand), Sits::Nowhere(why)) => {
                say(no(why.clone()));
                (demand, false)
            }
            (Ok(demand), Sits::Said | Sits::Taken) => (demand, bench.is_none()),
            (Ok(demand), Sits::Open) => (demand, false),
            (Err(why), _) => {
                self.refuse(seam, &why, say);
                (even(seam, &fixed, &w, &places), false)
            }
        };
        let mut beside = |said: Said| {
            let said = match (&glue, said) {
                (Some(g), Said::Use(u)) => Said::Use(with_glue(u, g, when.1)),
                (_, said) => said,
            };
            // of what is not known only a sure failure counts
            match said {
                Said::Use(u) if !known && u.used.0 <= 1.0 => {}
                said => say(said),
            }
        };
        for f in &fixed.through {
            let wood = |k: usize| matches!(seam.pair[k].body, Body::Wood { .. });
            if let Some(why) = self.splits(seam, f) {
                beside(no(why));
            } else if seam.drive == Drive::Slanted {
                beside(no(Reason::Slanted));
                self.slanted(seam, f, demand, when, &mut beside);
            } else if wood(0) && wood(1) {
                self.in_wood(seam, f, &fixed, demand, when, &mut beside);
            } else if held_by_wood(f).is_some() {
                beside(no(Reason::ScrewsElsewhere));
            } else {
                self.on_walls(seam, f, &fixed, (demand, &w), when, &mut beside);
            }
        }
    }

    pub(crate) fn refuse(&self, seam: &Seam<'_>, why: &Why, say: &mut dyn FnMut(Said)) {
        let cannot = |why: Reason| Said::Cannot(seam.what, held(seam.list, seam.glue, why));
        match why {
            // a glue that its climate undoes is told as incompatible
            Why::Refused(Refusal::Never(never)) if *never != Never::GlueBelowClimate => {
                say(Said::Never(seam.what, *never));
            }
            Why::Refused(r) => say(cannot(r.into())),
            Why::Reason(why) => say(cannot(why.clone())),
        }
    }

    /// What goes through of a seam's list of fasteners.
    pub(crate) fn fixed(&self, seam: &Seam<'_>) -> Result<Fixed<'_>, Reason> {
        let (list, drive) = (seam.list, seam.drive);
        let mut out = Fixed { through: Vec::new(), count: 0, washer: None, sleeve: None, sleeves: 0, drive };
        let mut washers: (u32, f64) = (0, f64::INFINITY);
        let mut nuts: Vec<&Fastener> = Vec::new();
        for (name, count) in list.iter().filter(|(_, n)| *n > 0) {
            let f = self.fastener(name).ok_or_else(|| Reason::NoPage(name.clone()))?;
            match f.kind.as_str() {
                "screw" | "nail" | "bolt" => {
                    out.through.push(f);
                    out.count += count;
                }
                "washer" => washers = (washers.0 + count, washers.1.min(f.outer.unwrap_or(0.0))),
                "sleeve" => {
                    // of several kinds the narrowest lines least
                    out.sleeve = Some(out.sleeve.map_or(f, |s| if s.diameter <= f.diameter { s } else { f }));
                    out.sleeves += count;
                }
                "nut" => nuts.push(f),
                "dowel" => return Err(Reason::Dowels),
                _ => return Err(Reason::Rivets),
            }
        }
        if out.through.iter().any(|f| f.kind != out.through[0].kind) {
            return Err(Reason::Mixed);
        }
        let bolts = || out.through.iter().filter(|f| f.kind == "bolt");
        let goes_on = |nut: &Fastener| bolts().any(|b| (b.diameter - nut.diameter).abs() < SAME_THREAD);
        if let Some(nut) = nuts.iter().find(|n| bolts().next().is_some() && !goes_on(n)) {
            return Err(Reason::WrongNut(nut.name.clone()));
        }
        // one for each bolt leaves the head or the nut bare, and nobody says which
        out.washer = (washers.0 >= 2 * out.count && washers.0 > 0).then_some(washers.1);
        Ok(out)
    }

    /// Nobody says from which side the fasteners go in: of both ways that can be, the worse counts.
    fn in_wood(
        &self,
        seam: &Seam<'_>,
        f: &Fastener,
        fixed: &Fixed<'_>,
        demand: Demand,
        when: When,
        say: &mut dyn FnMut(Said),
    ) {
        let ways: &[(usize, usize)] = if seam.plates { &[(1, 0)] } else { &[(0, 1), (1, 0)] };
        let thin = usize::from(seam.pair[1].body.thick() < seam.pair[0].body.thick());
        let mut refused: Option<Why> = None;
        let mut any = false;
        for (head, point) in ways {
            match driven(f, seam.pair[*head].body, seam.pair[*point].body, (when.1, self.climate)) {
                Ok(d) => {
                    any = true;
                    self.driven_use(seam, (f, fixed), &d, demand, when, say);
                }
                // told of the way that a builder would try first, the thinner piece under the heads
                Err(why) if refused.is_none() || *head == thin => refused = Some(why),
                Err(_) => {}
            }
        }
        if let (false, Some(why)) = (any, refused) {
            self.refuse(seam, &why, say);
        }
    }

    fn driven_use(
        &self,
        seam: &Seam<'_>,
        (f, fixed): (&Fastener, &Fixed<'_>),
        d: &Driven,
        demand: Demand,
        when: When,
        say: &mut dyn FnMut(Said),
    ) {
        let (aside, pull) = (demand.aside, demand.pull);
        let side = |n: f64| d.sideways.use_of(n);
        let used = match &d.pulled {
            Some(Ok(along)) => {
                let kind = held_by_wood(f).unwrap_or(Pulled::WoodScrew);
                let both = |p: f64, a: f64| with_shear(kind, (p, along), (a, &d.sideways)).0;
                (both(pull.0, aside.0), both(pull.1, aside.1))
            }
            Some(Err(why)) => {
                if pull.1 > NOTHING {
                    self.refuse(seam, &Why::Refused(*why), say);
                }
                // refused by name; nothing here makes it sound
                let least = if d.end_grain { 1.01 } else { 0.0 };
                (side(aside.0), side(aside.1).max(least))
            }
            None => {
                let of = OnWall { bolt: f, sleeve: None, washer: fixed.washer, stays: Stays::Brief };
                let Some(held) = self.bolt_pulled(seam, &of, demand, when, say) else { return };
                (side(aside.0).max(held.0 * d.slack), side(aside.1).max(held.1))
            }
        };
        let used = (used.0 / d.slack, used.1);
        say(Said::Use(fastener_use(seam.what, when.0, Mode::Screws, demand, used)));
    }
}

fn glue_use(what: What, case: usize, g: &Glueing) -> Use {
    Use {
        what,
        case,
        mode: Mode::Glue,
        at: 0.0,
        used: g.used,
        most: g.used.1,
        demand: g.stress,
        bears: g.bears,
    }
}

/// Fasteners with glue beside them: the joint surely fails only where both do. It is called sound by its
/// glue alone only for loads that do not stay, or if the glue is one for structures.
fn with_glue(u: Use, glue: &Result<Glueing, Result<Why, Unknown>>, lasting: Lasting) -> Use {
    let brief = matches!(lasting, Lasting::Short | Lasting::Impact);
    match glue {
        Ok(g) if (g.structural || brief) && g.used.1 < u.used.1 => glue_use(u.what, u.case, g),
        Ok(g) => Use { used: (u.used.0.min(g.used.0), u.used.1), ..u },
        // a word of which nobody knows that it holds here, holds nothing
        Err(_) => u,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::structure::TieOf;

    /// Two bolts through two pipes of 42 mm: two sleeves of 42 mm line one of them, four line both, and so do two of 84 mm; through
    /// one pipe two are enough.
    #[test]
    fn each_wall_wants_a_sleeve_of_its_own() {
        let sleeve = |length: f64| Fastener {
            name: String::new(),
            kind: "sleeve".into(),
            diameter: 0.012,
            length,
            outer: None,
            mass: 0.0,
            root: None,
            head: None,
        };
        let (short, long) = (sleeve(0.042), sleeve(0.084));
        let lined = |sleeve, sleeves, walls: &[f64]| {
            Fixed {
                through: vec![],
                count: 2,
                washer: None,
                sleeve: Some(sleeve),
                sleeves,
                drive: Drive::Drilled,
            }
            .lines(walls)
            .is_some()
        };
        assert!(!lined(&short, 2, &[0.042, 0.042]) && lined(&short, 4, &[0.042, 0.042]));
        assert!(lined(&long, 2, &[0.042, 0.042]) && lined(&short, 2, &[0.042]) && !lined(&short, 1, &[0.042]));
    }

    /// Glue beside screws does not add: a joint is what its glue says where that is known and the load passes. Glue that is pulled
    /// open breaks for sure where both do: of 1.5 and 1.2 of what surely breaks them, at 1.2. A glue of which nobody knows what it
    /// holds leaves the joint what its screws are.
    #[test]
    fn glue_and_screws_do_not_add() {
        let u = fastener_use(
            What::Tie(TieOf::Fastening(0)),
            0,
            Mode::Screws,
            Demand { aside: (300.0, 300.0), pull: (0.0, 0.0), each: 1.0 },
            (1.5, 2.0),
        );
        assert!((u.bears - 150.0).abs() < 1e-9);
        let unknown = Err(Ok(Why::Reason(Reason::Outside)));
        assert_eq!(with_glue(u, &unknown, Lasting::Sustained), u);
        let of = |used, opened| Ok(Glueing { used, stress: 1e5, bears: 1e6, structural: false, opened });
        assert_eq!(with_glue(u, &of((1.2, f64::INFINITY), true), Lasting::Short).used, (1.2, 2.0));
        assert_eq!(with_glue(u, &of((0.3, f64::INFINITY), true), Lasting::Short).used, (0.3, 2.0));
        let glue = |used| of(used, false);
        assert_eq!(with_glue(u, &glue((0.1, 0.1)), Lasting::Short).mode, Mode::Glue);
        // for years the screws beside it count
        assert_eq!(with_glue(u, &glue((0.1, 0.1)), Lasting::Sustained).used, (0.1, 2.0));
        let never = Err(Ok(Why::Refused(Never::EndGrainButtGlue.into())));
        assert_eq!(with_glue(u, &never, Lasting::Short), u);
    }
}
