//! Members, boxes, supports and panels against what their material may bear.

use crate::answer::{Item, Mode, Verdict, What};
use crate::bar::{Bar, Of, Sheath};
use crate::case::Lasting;
use crate::form::{Drilled, Forces, Form};
use crate::gluing::LINE;
use crate::heard::Heard;
use crate::limit::{Bond, Climate, Limits, Unknown, allowance, bench_doubt, bond, family, limits, wooden};
use crate::matter::Matter;
use crate::placing::Abreast;
use crate::seam::Found;
use crate::sockets::CEMENT;
use crate::solve::{Cut, Run};
use crate::structure::{Structure, TieOf};
use crate::walls::UNDER_HEAD;
use chairwright_design::{Allowance, ClosingKind, Design, Fastener, Material, Origin, StockId};
use std::collections::BTreeMap;

/// How far something is used at one place in one case.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Use {
    pub what: What,
    pub case: usize,
    pub mode: Mode,
    pub at: f64,
    pub used: (f64, f64),
    /// The greatest cautious use of all that this is the worst of: what surely breaks comes before what is used more on the
    /// cautious side, and must not make it look less used.
    pub most: f64,
    pub demand: f64,
    pub bears: f64,
}

/// Keeps the worse of two; of two as good as equal the first, whatever the order of joints.
pub(crate) fn keep_worst(old: &mut Use, new: Use) {
    let most = more(old.most, new.most);
    if rank(new.used) > rank(old.used) * (1.0 + 1e-9) {
        *old = new;
    }
    old.most = most;
}

/// The greater of two uses; no number where one of them is none.
pub(crate) fn more(old: f64, used: f64) -> f64 {
    if old.is_nan() || used.is_nan() { f64::NAN } else { old.max(used) }
}

/// What surely breaks comes before everything else, by its plain side; the rest goes by its cautious side. What
/// is no number comes right behind what surely breaks.
pub(crate) fn rank((plain, cautious): (f64, f64)) -> f64 {
    if plain > 1.0 {
        1e3 * plain
    } else if plain.is_nan() || cautious.is_nan() {
        1e3
    } else {
        cautious.min(1e3)
    }
}

/// Everything a judgement needs.
pub(crate) struct Court<'a> {
    pub design: &'a Design,
    pub all: &'a Structure,
    pub matters: &'a [Matter],
    pub climate: Climate,
    /// Limits of every stock in use, by stock and kind of load.
    known: Vec<[Option<Result<Limits, Unknown>>; 4]>,
    /// Whether a stock is of wood, which is judged by its fibres; the rest is judged after von Mises.
    pub(crate) fibrous: Vec<bool>,
    /// The family of every stock's material: names are folded to find it, which costs more than what it is asked for.
    pub(crate) families: Vec<&'a str>,
    /// Whether a stock in use is of wood for sure, which glue holds.
    pub(crate) wooden: Vec<bool>,
    /// What a bench says against a stock in use: neither it nor what is fastened or glued to it passes.
    pub(crate) benches: Vec<Option<Unknown>>,
    /// Places of every bar where something meets it, in order, with both its ends.
    stations: Vec<Vec<f64>>,
    /// Length of the straight run that every bar is part of, m.
    pub(crate) runs: Vec<f64>,
    /// Whether something meets a bar at its first and its last end.
    pub(crate) met: Vec<[bool; 2]>,
    /// What cement and glue bear, by kind of load.
    bonds: [[Result<Bond, Unknown>; 4]; 2],
    /// Every fastening, lap, butt and gusset that hands something through: the same in every run.
    pub(crate) seams: Vec<Found<'a>>,
    /// The fasteners that those name, and what wood bears under a head: names are folded, which costs more than the
    /// judging itself.
    fasteners: BTreeMap<&'a str, &'a Fastener>,
    /// Bolts of a tie that stand side by side across a bar, or beside its middle.
    pub(crate) beside: BTreeMap<(usize, TieOf), Abreast>,
    pub(crate) under_head: Option<&'a Allowance>,
}

/// What bonds two pieces.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum BondOf {
    /// Solvent cement in a socket.
    Cement,
    /// Glue between wood.
    Glue,
}

pub(crate) const KINDS: [Lasting; 4] = [Lasting::Sustained, Lasting::Short, Lasting::Impact, Lasting::Repeated];

impl<'a> Court<'a> {
    pub fn new(design: &'a Design, all: &'a Structure, matters: &'a [Matter], climate: Climate) -> Court<'a> {
        let mut court = Court::without_seams(design, all, matters, climate);
        court.seams = court.find_seams();
        for (name, _) in court.seams.iter().flatten().flat_map(|s| s.list) {
            if let Some(f) = design.fastener(name) {
                court.fasteners.insert(name, f);
            }
        }
        let mut seams = std::mem::take(&mut court.seams);
        seams.iter_mut().flatten().for_each(|seam| court.take(seam));
        court.seams = seams;
        court.beside = court.side_by_side();
        court
    }

    /// The same chair judged by other limits: its fasteners sit where they sit here.
    pub(crate) fn beside<'b>(&self, design: &'b Design, climate: Climate) -> Court<'b>
    where
        'a: 'b,
    {
        let court = Court::without_seams(design, self.all, self.matters, climate);
        let (seams, fasteners) = (self.seams.clone(), self.fasteners.clone());
        Court { seams, fasteners, beside: self.beside.clone(), ..court }
    }

    fn without_seams(
        design: &'a Design,
        all: &'a Structure,
        matters: &'a [Matter],
        climate: Climate,
    ) -> Court<'a> {
        let stocks = design.stocks.len();
        let known = vec![[const { None }; 4]; stocks];
        let fibrous = vec![true; stocks];
        let families = design.stocks.values().map(|s| family(design, &s.material)).collect();
        let stations = crate::column::stations(all);
        let bonds =
            [(CEMENT, false), (LINE, true)].map(|of| KINDS.map(|kind| bond(design, of, &climate, kind)));
        let mut court = Court {
            design,
            all,
            matters,
            climate,
            known,
            fibrous,
            families,
            wooden: vec![false; stocks],
            benches: vec![None; stocks],
            stations,
            runs: crate::column::runs(all),
            met: crate::column::met(all),
            bonds,
            seams: Vec::new(),
            fasteners: BTreeMap::new(),
            beside: BTreeMap::new(),
            under_head: design.allowance(UNDER_HEAD),
        };
        let used = all.bars.iter().flat_map(|b| b.sheaths.iter().map(|s| s.stock).chain([b.stock]));
        // plates of a gusset are cut from a sheet that no bar need be of
        let plates = design.closings.iter().filter_map(|c| match c.kind {
            ClosingKind::Gusset { stock, .. } => Some(stock),
            _ => None,
        });
        for stock in used.chain(plates) {
            let material = &design.stocks[stock].material;
            let slot = &mut court.known[stock.index()];
            if slot[0].is_none() {
                *slot = KINDS.map(|kind| Some(limits(design, material, &climate, kind)));
                court.fibrous[stock.index()] = by_fibres(design, material);
                court.wooden[stock.index()] = allowance(design, material).is_some_and(wooden);
                court.benches[stock.index()] = bench_doubt(design, material);
            }
        }
        court
    }

    /// The fastener of a seam by its name; `None` where no page says what it is.
    pub(crate) fn fastener(&self, name: &str) -> Option<&'a Fastener> {
        self.fasteners.get(name).copied().or_else(|| self.design.fastener(name))
    }

    pub(crate) fn known(&self, stock: StockId, lasting: Lasting) -> Option<&Result<Limits, Unknown>> {
        self.known[stock.index()][lasting as usize].as_ref()
    }

    /// What a bond bears under a kind of load.
    pub(crate) fn bond(&self, of: BondOf, lasting: Lasting) -> Result<Bond, Unknown> {
        self.bonds[of as usize][lasting as usize].clone()
    }

    pub fn limits(&self, stock: StockId, lasting: Lasting) -> Option<&Limits> {
        self.known(stock, lasting).and_then(|r| r.as_ref().ok())
    }

    /// What everything is used for in its worst case.
    pub fn items(&self, heard: &Heard) -> Vec<Item> {
        let mut out = Vec::new();
        for (others, worst) in told(heard.worst.values().copied()) {
            out.extend(others.into_iter().map(|u| self.item(u)));
            let most = |of: &BTreeMap<What, f64>, used: f64| match of.get(&worst.what) {
                Some(most) if !used.is_nan() => used.max(*most),
                _ => used,
            };
            let most = (most(&heard.plain, worst.used.0), most(&heard.most, worst.used.1));
            out.push(Item { most, ..self.item(worst) });
        }
        out
    }

    /// The greatest cautious use of each thing, which what surely breaks comes before among the items.
    pub fn most(&self, heard: &Heard) -> Vec<(String, f64)> {
        heard.most.iter().map(|(what, used)| (self.name(*what), *used)).collect()
    }

    /// The most used thing of every case.
    pub fn peaks(&self, heard: &Heard) -> Vec<Option<(String, f64)>> {
        heard.peaks.iter().map(|p| p.map(|u| (self.name(u.what), u.most))).collect()
    }

    /// Uses of every bar at every place in one run.
    pub fn bars(&self, case: usize, lasting: Lasting, run: &Run, keep: &mut dyn FnMut(Use)) {
        for cut in &run.cuts {
            let all = [
                self.cut(case, lasting, cut),
                self.corners(case, lasting, cut),
                self.column(case, lasting, cut),
            ];
            all.into_iter().flatten().for_each(&mut *keep);
        }
    }

    /// Where a bar's places are.
    pub(crate) fn stations(&self, bar: usize) -> &[f64] {
        &self.stations[bar]
    }

    /// An item with its name, place and verdict.
    pub fn item(&self, u: Use) -> Item {
        Item {
            what: u.what,
            name: self.name(u.what),
            origin: self.origin(u.what),
            case: u.case,
            mode: u.mode,
            at: u.at,
            used: u.used,
            most: u.used,
            demand: u.demand,
            bears: u.bears,
            verdict: verdict(u.used),
        }
    }

    pub(crate) fn name(&self, what: What) -> String {
        let d = self.design;
        match what {
            What::Bar(Of::Member(id)) => d.members[id].name.clone(),
            What::Bar(Of::Box(k)) => d.boxes[k].name.clone(),
            What::Bar(Of::Support(k)) => d.supports[k].name.clone(),
            What::Bar(Of::Panel(k)) => d.panels[k].name.clone(),
            What::Joint(id) => d.joints[id].name.clone(),
            What::Tie(tie) => crate::whole::tie_name(d, tie),
        }
    }

    pub(crate) fn origin(&self, what: What) -> Origin {
        let d = self.design;
        match what {
            What::Bar(of) => origin(d, of),
            What::Joint(id) | What::Tie(TieOf::Joint(id)) => d.joints[id].origin,
            What::Tie(TieOf::Fastening(k)) => d.fastenings[k].origin,
            What::Tie(TieOf::Bearing(k)) => d.supports[k].origin,
            What::Tie(TieOf::Wheel(k)) => d.wheels[k].origin,
            What::Tie(TieOf::Caster(k)) => d.casters[k].origin,
            What::Tie(TieOf::Sheet | TieOf::Part) => Origin(0),
        }
    }

    /// Use of one bar at one place. A sleeve with play that nothing fills helps only on the plain side, once the bar
    /// has bent through the play; where it then touches nobody knows, and on the cautious side it does nothing. Nor does any near its
    /// ends, where the bar still hands over.
    pub fn cut(&self, case: usize, lasting: Lasting, cut: &Cut) -> Option<Use> {
        let bar = &self.all.bars[cut.bar];
        if !bar.free_at(cut.at) {
            return None;
        }
        // a sleeve of which nothing is known under such a load is given nothing of it
        let active: Vec<(&Sheath, &Matter)> = bar
            .sheaths
            .iter()
            .zip(&self.matters[cut.bar].sheaths)
            .filter(|(s, _)| bar.helped_at(s, cut.at)[1] && self.limits(s.stock, lasting).is_some())
            .collect();
        let sure = |s: &Sheath| s.play <= 0.0 && bar.helped_at(s, cut.at)[0];
        let tight: Vec<_> = active.iter().filter(|(s, _)| sure(s)).copied().collect();
        let without = self.shared((case, lasting), (bar, cut), &tight, 0.0)?;
        if tight.len() == active.len() {
            return Some(without);
        }
        let gaps = active.iter().filter_map(|(s, _)| closing(s));
        let spent = gaps.reduce(f64::min).map_or(0.0, |k| k * self.bending(cut.bar, lasting));
        let with = self.shared((case, lasting), (bar, cut), &active, spent)?;
        Some(Use { used: (with.used.0.min(without.used.0), without.used.1), ..without })
    }

    /// Bending stiffness of a bar without its sleeves, N m².
    fn bending(&self, bar: usize, lasting: Lasting) -> f64 {
        let matter = &self.matters[bar];
        matter.stiffness(lasting == Lasting::Sustained).0 * matter.shape.iy
    }

    /// A bar and its sleeves at one place, each with its share; the bar alone has bent under the first `spent`, N m.
    fn shared(
        &self,
        (case, lasting): (usize, Lasting),
        (bar, cut): (&Bar, &Cut),
        sheaths: &[(&Sheath, &Matter)],
        spent: f64,
    ) -> Option<Use> {
        let own = (bar.form, bar.stock, false);
        if sheaths.is_empty() {
            return self.part(case, lasting, (bar, cut), own, &cut.forces);
        }
        let matter = &self.matters[cut.bar];
        let of = |m: &Matter| Rigidity::of(m, lasting == Lasting::Sustained);
        let sum = sheaths.iter().fold(of(matter), |r, (_, m)| r.plus(&of(m)));
        let most = libm::hypot(cut.forces.bend[0], cut.forces.bend[1]);
        let alone = if most > spent { spent / most } else { 1.0 };
        let left = Forces { bend: cut.forces.bend.map(|m| m * (1.0 - alone)), ..cut.forces };
        let mut kept = of(matter).share(&sum, &left);
        for (k, m) in cut.forces.bend.iter().enumerate() {
            kept.bend[k] += m * alone;
        }
        let mut best = self.part(case, lasting, (bar, cut), own, &kept);
        for (s, m) in sheaths {
            let forces = of(m).share(&sum, &left);
            let Some(u) = self.part(case, lasting, (bar, cut), (s.form, s.stock, true), &forces) else {
                continue;
            };
            keep_worst(best.get_or_insert(u), u);
        }
        best
    }

    /// The worst of a bar or a sleeve at one place, with each of its holes there. A hole through both is a hole in
    /// both. Where a bolt sits in its joint, and how much of the bending is there, nobody says: what it
    /// drills counts on the cautious side only.
    fn part(
        &self,
        case: usize,
        lasting: Lasting,
        (bar, cut): (&Bar, &Cut),
        part: (Form, StockId, bool),
        forces: &Forces,
    ) -> Option<Use> {
        let l = self.limits(part.1, lasting)?;
        let whole = self.section((case, lasting), l, (bar, cut), part, (forces, None))?;
        let mut worst = whole;
        for mut hole in bar.holes_at(cut.at) {
            let beside = hole.of.and_then(|of| self.beside.get(&(cut.bar, of)));
            if let Some(row) = beside {
                (hole.drilled.beside, hole.drilled.off) = ((row.count, row.apart), row.off);
            }
            // what a hole as wide as can be reckoned leaves is no less than this one leaves; that it is wider is told beside this
            let known = part.0.widest(hole.drilled);
            let net = known.and_then(|h| self.section((case, lasting), l, (bar, cut), part, (forces, Some(h))));
            let mut net = net.unwrap_or(Use {
                mode: Mode::Hole,
                used: (f64::INFINITY, f64::INFINITY),
                most: f64::INFINITY,
                ..whole
            });
            if !hole.said {
                net.used.0 = whole.used.0;
            } else if hole.drilled.is_slot()
                && let Some(h) = known
                // how its halves bend is reckoned carefully: surely it breaks by no more than a hole leaves
                && let Some(round) = self.section((case, lasting), l, (bar, cut), part, (forces, Some(h.round())))
            {
                net.used.0 = round.used.0;
            }
            keep_worst(&mut worst, net);
        }
        Some(worst)
    }

    fn section(
        &self,
        (case, lasting): (usize, Lasting),
        l: &Limits,
        (bar, cut): (&Bar, &Cut),
        (form, stock, sleeve): (Form, StockId, bool),
        (forces, hole): (&Forces, Option<Drilled>),
    ) -> Option<Use> {
        let stress = form.stress_at(forces, hole)?;
        let notched = l.everywhere || hole.is_some() || bar.lip_at(cut.at);
        let notch = if notched { l.notch } else { 1.0 };
        let fibrous = self.fibrous.get(stock.index()).copied().unwrap_or(true);
        let along = if fibrous { stress.fibre() } else { stress.equivalent() };
        // the twist of a strip of a plate is shared with its neighbours: only what cuts it counts
        let shear = if matches!(bar.of, Of::Support(_)) { stress.shear - stress.twist } else { stress.shear };
        let limit = l.shear.filter(|_| fibrous).unwrap_or(f64::INFINITY);
        let by_fibre = match fibrous && !sleeve {
            true => self.along_grain(lasting, cut, l, &stress),
            false => (along / l.fibre / l.slack, along / l.fibre),
        };
        let by_shear = shear / limit;
        let bend = match (hole, sleeve) {
            (Some(_), _) => Mode::Hole,
            (None, true) => Mode::Sleeve,
            (None, false) => Mode::Bending,
        };
        let sheared = (by_shear / l.shear_slack, by_shear);
        let most = self.rough(bar.of, fibrous, (0.0, more(by_fibre.1, by_shear) * notch)).1;
        let ((plain, share), demand, bears, mode) = if rank(sheared) > rank(by_fibre) {
            (sheared, shear, limit, Mode::Shear)
        } else {
            let bears = if by_fibre.1 > 0.0 { along / by_fibre.1 } else { l.fibre };
            (by_fibre, along, bears, bend)
        };
        let used = self.rough(bar.of, fibrous, (plain, share * notch));
        Some(Use { what: What::Bar(bar.of), case, mode, at: cut.at, used, most, demand, bears: bears / notch })
    }
}

/// The worst of every part; and beside it what fails or must be tested in another kind of load or another
/// family of modes, where that is not the verdict of the worst: so that no verdict hides another.
fn told(all: impl Iterator<Item = Use>) -> Vec<(Vec<Use>, Use)> {
    let mut parts: BTreeMap<What, Vec<Use>> = BTreeMap::new();
    all.for_each(|u| parts.entry(u.what).or_default().push(u));
    let mut out = Vec::new();
    for uses in parts.into_values() {
        let Some((first, rest)) = uses.split_first() else { continue };
        let worst = rest.iter().fold(*first, |mut w, u| {
            keep_worst(&mut w, *u);
            w
        });
        let other =
            |u: &&Use| !matches!(verdict(u.used), Verdict::Pass) && verdict(u.used) != verdict(worst.used);
        out.push((uses.iter().filter(other).copied().collect(), worst));
    }
    out
}

/// Curvature, 1/m, at which a sleeve with play begins to carry, the bar bent alike all along it: the bar's sag over
/// the sleeve's length, k·L²/8, is the play. Bending that has its peak in the middle or at one end needs 12 or 16
/// instead of 8 there: this is the least.
fn closing(s: &Sheath) -> Option<f64> {
    let length = s.to - s.from;
    (s.play > 0.0 && length > 0.0).then(|| 8.0 * s.play / (length * length))
}

fn by_fibres(design: &Design, material: &Material) -> bool {
    allowance(design, material).is_none_or(|a| wooden(a) || a.family.is_empty())
}

/// Sound if even the cautious side is within its limit, broken if the plain side is beyond it. What is no
/// number cannot be told.
pub(crate) fn verdict((plain, cautious): (f64, f64)) -> Verdict {
    if plain > 1.0 {
        Verdict::Fail
    } else if plain <= 1.0 && cautious <= 1.0 {
        Verdict::Pass
    } else {
        Verdict::CannotTell
    }
}

/// Where a bar stands in the text.
pub(crate) fn origin(design: &Design, of: Of) -> Origin {
    match of {
        Of::Member(id) => design.members[id].origin,
        Of::Box(k) => design.boxes[k].origin,
        Of::Support(k) => design.supports[k].origin,
        Of::Panel(k) => design.panels[k].origin,
    }
}

/// What shares forces between tubes in tubes: pull by EA, bending by EI, twist by GJ.
struct Rigidity {
    pull: f64,
    bend: [f64; 2],
    twist: f64,
    across: f64,
}

impl Rigidity {
    /// As stiff as the solver has it under such a load: years of it shift what a plastic bears onto a sleeve of wood or metal.
    fn of(m: &Matter, lasting: bool) -> Rigidity {
        let (e, g) = m.stiffness(lasting);
        let s = &m.shape;
        Rigidity { pull: e * s.area, bend: [e * s.iy, e * s.iz], twist: g * s.j, across: g * s.shear_z }
    }

    fn plus(&self, o: &Rigidity) -> Rigidity {
        Rigidity {
            pull: self.pull + o.pull,
            bend: [self.bend[0] + o.bend[0], self.bend[1] + o.bend[1]],
            twist: self.twist + o.twist,
            across: self.across + o.across,
        }
    }

    fn share(&self, sum: &Rigidity, f: &Forces) -> Forces {
        Forces {
            pull: f.pull * self.pull / sum.pull,
            across: f.across.map(|v| v * self.across / sum.across),
            twist: f.twist * self.twist / sum.twist,
            bend: [f.bend[0] * self.bend[0] / sum.bend[0], f.bend[1] * self.bend[1] / sum.bend[1]],
        }
    }
}

#[cfg(test)]
mod tests;
