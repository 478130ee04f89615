//! Fastenings and closed joints against what they may bear: every one is judged, refused, or told as
//! unknown with the reason.

use crate::answer::{Forbidden, Mode, Untold, What};
use crate::case::Lasting;
use crate::gluing::Glueing;
use crate::heard::Heard;
use crate::judge::{Court, Use};
use crate::limit::Unknown;
use crate::reasons::{mm, refusal};
use crate::screws::{Driven, Why, beside, driven, grip};
use crate::seam::{Body, Places, Seam, Wrench, held};
use crate::solve::Run;
use crate::spread::Group;
use crate::structure::{Loose, TieOf};
use crate::walls::{OnWall, Unhead, across, shank, torn};
use chairwright_design::{ClosingKind, Fastener, Origin};
use chairwright_resistance::bolt_in_pipe::Stays;
use chairwright_resistance::metal::bolt_together;
use chairwright_resistance::withdrawal::{Fastener as Pulled, with_shear};
use chairwright_resistance::{Never, Refusal};
use std::collections::BTreeSet;

/// A pull smaller than this is none, N.
const NOTHING: f64 = 1.0;
/// Share of what a bare wall may bear for years below which a lasting push is a trifle. Common practice,
/// no source.
const TRIFLE: f64 = 0.05;
/// Friction that keeps what is sat on from sliding on what it lies on: wood on dry plastic or wood, low; from
/// memory, not checked.
const FRICTION: f64 = 0.2;

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
struct Fixed<'d> {
    through: Vec<&'d Fastener>,
    count: u32,
    washers: bool,
    sleeve: Option<&'d Fastener>,
}

/// What each fastener of a seam is asked to bear, N, plain and cautious.
#[derive(Clone, Copy, Debug)]
struct Demand {
    aside: (f64, f64),
    pull: (f64, f64),
    /// How many share the force.
    each: f64,
}

type When = (usize, Lasting);

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
    fn seam(&self, seam: &Seam<'_>, when: When, run: &Run, say: &mut dyn FnMut(Said)) {
        let no = |why: &str| Said::Cannot(seam.what, held(seam.list, seam.glue, why));
        let Some((w, places)) = seam.wrench(self, run) else {
            return say(no(
                "another joint at the same place takes what goes through, so that its share cannot be read",
            ));
        };
        let fixed = match self.fixed(seam.list) {
            Ok(fixed) => fixed,
            Err(why) => return say(no(&why)),
        };
        let glue = seam.glue.map(|_| self.glued(seam, when.1, &w));
        if fixed.count == 0 {
            return match glue {
                Some(Ok(g)) => say(Said::Use(glue_use(seam.what, when.0, &g))),
                Some(Err(Ok(why))) => self.refuse(seam, &why, say),
                Some(Err(Err(unknown))) => say(Said::Cannot(seam.what, unknown)),
                None => say(no("no screw, bolt or glue is named")),
            };
        }
        let demand = match demand(seam, &fixed, &w, &places) {
            Ok(demand) => demand,
            Err(why) => return self.refuse(seam, &why, say),
        };
        let mut beside = |said: Said| match (&glue, said) {
            (Some(g), Said::Use(u)) => say(Said::Use(with_glue(u, g, when.1))),
            (_, said) => say(said),
        };
        for f in &fixed.through {
            let wood = |k: usize| matches!(seam.pair[k].body, Body::Wood { .. });
            if wood(0) && wood(1) {
                self.in_wood(seam, f, &fixed, demand, when, &mut beside);
            } else if f.kind == "screw" {
                beside(no("screws in anything but wood have no published rule here"));
            } else {
                self.on_walls(seam, f, &fixed, (demand, &w), when, &mut beside);
            }
        }
    }

    fn refuse(&self, seam: &Seam<'_>, why: &Why, say: &mut dyn FnMut(Said)) {
        let cannot = |words: &str| Said::Cannot(seam.what, held(seam.list, seam.glue, words));
        match why {
            // a glue that its climate undoes is told as incompatible
            Why::Refused(Refusal::Never(never)) if *never != Never::GlueBelowClimate => {
                say(Said::Never(seam.what, *never));
            }
            Why::Refused(r) => say(cannot(&refusal(r))),
            Why::Words(words) => say(cannot(words)),
        }
    }

    /// What goes through of a list of fasteners.
    fn fixed(&self, list: &[(String, u32)]) -> Result<Fixed<'_>, String> {
        let mut out = Fixed { through: Vec::new(), count: 0, washers: false, sleeve: None };
        for (name, count) in list.iter().filter(|(_, n)| *n > 0) {
            let f = self.fastener(name).ok_or_else(|| format!("no page says what {name} is"))?;
            match f.kind.as_str() {
                "screw" | "bolt" => {
                    out.through.push(f);
                    out.count += count;
                }
                "washer" => out.washers = true,
                "sleeve" => out.sleeve = Some(f),
                "nut" => {}
                _ => return Err("nothing is known here of rivets".to_owned()),
            }
        }
        if out.through.iter().any(|f| f.kind != out.through[0].kind) {
            return Err("nobody can say how much screws and bolts side by side take of the load".to_owned());
        }
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
                let both = |p: f64, a: f64| with_shear(Pulled::WoodScrew, (p, along), (a, &d.sideways)).0;
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
                let of = OnWall { bolt: f, sleeve: None, washers: fixed.washers, stays: Stays::Brief };
                let Some(held) = self.bolt_pulled(seam, &of, demand, when, say) else { return };
                (side(aside.0).max(held.0 * d.slack), side(aside.1).max(held.1))
            }
        };
        let used = (used.0 / d.slack, used.1);
        say(Said::Use(fastener_use(seam.what, when.0, Mode::Screws, demand, used)));
    }

    /// The bolt itself, and what its head and nut are pulled against; use, plain and cautious.
    fn bolt_pulled(
        &self,
        seam: &Seam<'_>,
        of: &OnWall<'_>,
        demand: Demand,
        when: When,
        say: &mut dyn FnMut(Said),
    ) -> Option<(f64, f64)> {
        let (shear, tension) = match shank(of.bolt) {
            Ok(both) => both,
            Err(why) => {
                self.refuse(seam, &Why::Refused(why), say);
                return None;
            }
        };
        let (aside, pull) = (demand.aside, demand.pull);
        let steel = |p: f64, a: f64| bolt_together(p, a, &tension, &shear).0;
        let mut used = (steel(pull.0, aside.0), steel(pull.1, aside.1));
        if pull.1 <= NOTHING {
            return Some(used);
        }
        for piece in &seam.pair {
            match self.under_head(of, piece, self.limits(piece.stock, when.1)) {
                Ok((plain, cautious)) => {
                    used = (used.0.max(pull.0 / plain), used.1.max(pull.1 / cautious));
                }
                Err(Unhead::Limits) => {
                    say(Said::Cannot(seam.what, self.why(piece.stock, when.1)));
                    return None;
                }
                Err(Unhead::Unknown(unknown)) => {
                    say(Said::Cannot(seam.what, unknown));
                    return None;
                }
                Err(Unhead::Why(why)) => {
                    self.refuse(seam, &why, say);
                    return None;
                }
            }
        }
        Some(used)
    }

    /// A bolt that presses on walls of pipe, sheet or rod, on one side at least.
    fn on_walls(
        &self,
        seam: &Seam<'_>,
        f: &Fastener,
        fixed: &Fixed<'_>,
        (demand, w): (Demand, &Wrench),
        when: When,
        say: &mut dyn FnMut(Said),
    ) {
        if let Err(why) = grip(f, &[seam.pair[0].body, seam.pair[1].body]) {
            return self.refuse(seam, &why, say);
        }
        let tube = |k: &usize| matches!(seam.pair[*k].body, Body::Tube { .. });
        let wide = [0, 1].iter().filter(|k| tube(k)).map(|k| seam.pair[*k].body.thick()).fold(0.0, f64::max);
        if let Some(s) = fixed.sleeve.filter(|s| s.length + 0.001 < wide) {
            let (short, wide) = (mm(s.length), mm(wide));
            let words =
                format!("its sleeve of {short} is shorter than the pipe is wide, {wide}, and gets lost in it");
            return self.refuse(seam, &Why::Words(words), say);
        }
        let stays = match when.1 {
            Lasting::Sustained | Lasting::Repeated => Stays::Sustained,
            Lasting::Short | Lasting::Impact => Stays::Brief,
        };
        let sleeve = fixed.sleeve.map(|s| s.diameter);
        let mut of = OnWall { bolt: f, sleeve, washers: fixed.washers, stays };
        for k in 0..2 {
            let piece = &seam.pair[k];
            // metal does not creep: the refusal is of bare plastic
            // and what lies on its rail is only kept in its place by its bolts
            let bare = self.family(piece.stock) != "metal" && !seam.lies;
            of.stays = if bare { stays } else { Stays::Brief };
            let used = match piece.body {
                Body::Wood { .. } => self.wood_beside(seam, k, f, demand, when),
                _ => self.wall(seam, k, &of, (demand, w), when),
            };
            match used {
                Ok(used) => say(Said::Use(fastener_use(seam.what, when.0, Mode::Bearing, demand, used))),
                Err(Ok(why)) => self.refuse(seam, &why, say),
                Err(Err(unknown)) => say(Said::Cannot(seam.what, unknown)),
            }
        }
        if let Some(used) = self.bolt_pulled(seam, &of, demand, when, say) {
            say(Said::Use(fastener_use(seam.what, when.0, Mode::Bearing, demand, used)));
        }
    }

    fn wood_beside(
        &self,
        seam: &Seam<'_>,
        k: usize,
        f: &Fastener,
        demand: Demand,
        when: When,
    ) -> Result<(f64, f64), Result<Why, Unknown>> {
        let other = &seam.pair[1 - k];
        let m = &self.design.stocks[other.stock].material;
        let strength = m.strength.ok_or_else(|| Err(Unknown::Strength(m.name.clone())))?;
        let d = beside(f, seam.pair[k].body, (strength, other.body), (when.1, self.climate)).map_err(Ok)?;
        Ok((d.sideways.use_of(demand.aside.0) / d.slack, d.sideways.use_of(demand.aside.1)))
    }

    fn wall(
        &self,
        seam: &Seam<'_>,
        k: usize,
        of: &OnWall<'_>,
        (demand, w): (Demand, &Wrench),
        when: When,
    ) -> Result<(f64, f64), Result<Why, Unknown>> {
        let piece = &seam.pair[k];
        let l = self.limits(piece.stock, when.1).ok_or_else(|| Err(self.why(piece.stock, when.1)))?;
        let bears = match across(of, piece.body, l.fibre) {
            Err(Why::Refused(Refusal::Never(never))) => {
                let brief = OnWall { stays: Stays::Brief, ..*of };
                let bears = across(&brief, piece.body, l.fibre).map_err(Ok)?;
                if demand.aside.1 > TRIFLE * bears {
                    return Err(Ok(Why::Refused(never.into())));
                }
                bears
            }
            other => other.map_err(Ok)?,
        };
        let mut used = (demand.aside.0 / bears / l.slack, demand.aside.1 * l.notch / bears);
        let along = w.force.dot(piece.long).abs() / demand.each;
        if along > NOTHING {
            let shear = self.shear_of(piece.stock, l).map_err(Err)?;
            let out = torn(of, piece.body, shear).map_err(|r| Ok(Why::Refused(r)))?;
            if let Some(bears) = out {
                used = (used.0.max(along / bears / l.slack), used.1.max(along * l.notch / bears));
            }
        }
        Ok(used)
    }

    /// Joints and fastenings that nothing here can judge, each with its reason; and, so that nothing is
    /// left out, those that nothing was said of in any case.
    pub fn untold_ties(&self, heard: &Heard, loose: &[Loose]) -> Vec<Untold> {
        let told = |((what, why), kinds): (&(What, Unknown), &Vec<Lasting>)| {
            let (name, origin) = self.said_of(*what);
            Untold { name, origin, why: why.clone(), kinds: kinds.clone() }
        };
        let mut out: Vec<Untold> = heard.open.iter().map(told).collect();
        out.extend(self.unseen(&heard.seen, loose));
        out
    }

    fn unseen(&self, seen: &BTreeSet<What>, loose: &[Loose]) -> Vec<Untold> {
        let mut out = Vec::new();
        let mut missing = |what: What, why: Unknown| {
            if !seen.contains(&what) {
                let (name, origin) = self.said_of(what);
                out.push(Untold { name, origin, why, kinds: vec![Lasting::Short] });
            }
        };
        for (index, f) in self.design.fastenings.iter().enumerate() {
            let apart = |l: &Loose| matches!(l, Loose::Apart { fastening, .. } if *fastening == index);
            if loose.iter().any(apart) {
                continue;
            }
            let why = "nothing here follows a load through it: one of the two is a bought part, or carries nothing as drawn";
            missing(What::Tie(TieOf::Fastening(index)), held(&f.fasteners, None, why));
        }
        for tie in &self.all.ties {
            let TieOf::Joint(joint) = tie.of else { continue };
            let c = self.design.closings.iter().find(|c| c.joint == joint);
            let (list, glue) = c.map_or((&[][..], None), |c| (&c.fasteners[..], c.glue.as_deref()));
            let why = "no rule here knows such a joint";
            missing(What::Joint(joint), held(list, glue, why));
        }
        out
    }

    /// Load paths that are refused by name in one of the cases, and were not told from the drawing.
    pub fn forbidden_ties(&self, heard: &Heard, known: &[Forbidden]) -> Vec<Forbidden> {
        let one = |&(what, never): &(What, Never)| {
            let (name, origin) = self.said_of(what);
            Forbidden::Never { origin, name, never }
        };
        let told = |f: &Forbidden| match f {
            Forbidden::Never { origin, never: Never::EndGrainWithdrawal, .. } => {
                known.iter().any(|k| matches!(k, Forbidden::EndGrain { origin: o, .. } if o == origin))
            }
            _ => false,
        };
        heard.never.iter().map(one).filter(|f| !told(f)).collect()
    }

    /// Name and place of a joint or fastening.
    fn said_of(&self, what: What) -> (String, Origin) {
        let d = self.design;
        let tie = match what {
            What::Tie(tie) => tie,
            What::Joint(joint) => TieOf::Joint(joint),
            What::Bar(of) => return (String::new(), crate::judge::origin(d, of)),
        };
        let origin = match tie {
            TieOf::Fastening(k) => d.fastenings[k].origin,
            TieOf::Joint(joint) => {
                let wooden = d.closings.iter().find(|c| c.joint == joint);
                let wooden = wooden.filter(|c| !matches!(c.kind, ClosingKind::Free(_)));
                wooden.map_or(d.joints[joint].origin, |c| c.origin)
            }
            _ => Origin(0),
        };
        (crate::whole::tie_name(d, tie), origin)
    }
}

/// What each fastener is asked to bear: the force evenly on all of them is the plain side; the cautious one
/// adds the moment by the group that they are taken to stand in. Where a fastening holds in several places
/// the cautious side is no less than what the place that is handed most puts on its part of them.
fn demand(seam: &Seam<'_>, fixed: &Fixed<'_>, w: &Wrench, places: &Places) -> Result<Demand, Why> {
    let bolts = fixed.through.iter().all(|f| f.kind == "bolt");
    let diameter = fixed.through.iter().map(|f| f.diameter).fold(0.0, f64::max);
    // of a gusset half of the fasteners are on this member, and half of those in each plate
    let on_one = if seam.plates { fixed.count / 4 } else { fixed.count };
    let (each, twist) = if seam.plates {
        (f64::from(fixed.count) / 2.0, w.moment.dot(seam.way) / 2.0)
    } else {
        (f64::from(fixed.count), w.moment.dot(seam.way))
    };
    let group = match seam.spread {
        Some(length) if on_one > 1 => Group::row(on_one, length, seam.face),
        _ => Group::close(on_one.max(1), bolts, diameter, seam.face)?,
    };
    if group.crowded {
        let [a, b] = seam.face.map(mm);
        return Err(Why::Words(format!(
            "so many do not fit on the face of {a} by {b} that the two pieces share"
        )));
    }
    let along = w.force.dot(seam.way);
    let mut aside = w.force.across(seam.way).norm();
    let pull = match (seam.lies, seam.plates) {
        (true, _) => places.opens,
        (_, true) => 2.0 * along.abs(),
        _ => along.max(0.0),
    };
    let mut tilt = [w.moment.dot(seam.along), w.moment.dot(seam.way.cross(seam.along))];
    if !seam.plates {
        tilt = pressed(tilt, -along, seam.face);
    }
    if seam.lies {
        // what lies on its rail tilts against the rail; where it opens is in `opens`
        tilt = [0.0; 2];
        aside = (aside - FRICTION * (-along).max(0.0)).max(0.0);
    }
    let several = places.count > 1.0 && !seam.lies;
    let most = |force: f64| if several { force / (each / places.count) } else { 0.0 };
    Ok(Demand {
        aside: (aside / each, (aside / each + group.twisted(twist)?).max(most(places.aside))),
        pull: (pull / each, (pull / each + group.tilted(tilt)).max(most(places.pull))),
        each,
    })
}

/// What is left of moments that open the faces, about their long and their short side, where a force
/// presses them together: as long as its resultant stays in the middle third, nothing opens (strength of
/// materials: the kern of a rectangle, e ≤ b/6). Half of the force is counted for either side.
fn pressed(tilt: [f64; 2], press: f64, face: [f64; 2]) -> [f64; 2] {
    let left = |k: usize| (tilt[k].abs() - press.max(0.0) / 2.0 * face[1 - k] / 6.0).max(0.0);
    [left(0), left(1)]
}

fn fastener_use(what: What, case: usize, mode: Mode, d: Demand, used: (f64, f64)) -> Use {
    let demand = libm::hypot(d.aside.1, d.pull.1);
    let bears = if used.1 > 0.0 { demand / used.1 } else { f64::INFINITY };
    Use { what, case, mode, at: 0.0, used, demand, bears }
}

fn glue_use(what: What, case: usize, g: &Glueing) -> Use {
    Use { what, case, mode: Mode::Glue, at: 0.0, used: g.used, demand: g.stress, bears: g.bears }
}

/// Fasteners with glue beside them: the joint surely fails only where both do. It is called sound by its
/// glue alone only for loads that do not stay, or if the glue is one for structures.
fn with_glue(u: Use, glue: &Result<Glueing, Result<Why, Unknown>>, lasting: Lasting) -> Use {
    let brief = matches!(lasting, Lasting::Short | Lasting::Impact);
    match glue {
        Ok(g) if (g.structural || brief) && g.used.1 < u.used.1 => glue_use(u.what, u.case, g),
        Ok(g) => Use { used: (u.used.0.min(g.used.0), u.used.1), ..u },
        Err(Ok(Why::Refused(Refusal::Never(_)))) => u,
        // nobody knows what the glue takes: it is not surely broken
        Err(_) => Use { used: (u.used.0.min(1.0), u.used.1), ..u },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1 200 N press a face of 0.12 m by 0.06 m: half of it, 600 N, closes 600 · 0.06/6 = 6 N m about the long side and
    /// 12 N m about the short one.
    #[test]
    fn what_presses_keeps_shut() {
        let left = pressed([10.0, 10.0], 1200.0, [0.12, 0.06]);
        assert!((left[0] - 4.0).abs() < 1e-12 && left[1] == 0.0, "{left:?}");
        assert_eq!(pressed([-10.0, 3.0], -500.0, [0.12, 0.06]), [10.0, 3.0]);
    }

    /// Glue beside screws does not add: a joint whose screws surely break is open as long as nobody knows what its
    /// glue takes, and is what the glue says where that is known and the load passes.
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
        let unknown = Err(Ok(Why::Words(String::new())));
        assert_eq!(with_glue(u, &unknown, Lasting::Sustained).used, (1.0, 2.0));
        let glue = |used| Ok(Glueing { used, stress: 1e5, bears: 1e6, structural: false });
        assert_eq!(with_glue(u, &glue((0.1, 0.1)), Lasting::Short).mode, Mode::Glue);
        // for years the screws beside it count
        assert_eq!(with_glue(u, &glue((0.1, 0.1)), Lasting::Sustained).used, (0.1, 2.0));
        let never = Err(Ok(Why::Refused(Never::EndGrainButtGlue.into())));
        assert_eq!(with_glue(u, &never, Lasting::Short), u);
    }
}
