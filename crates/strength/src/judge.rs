//! Members, boxes, supports and panels against what their material may bear.

use crate::answer::{Item, Mode, Untold, Verdict, What};
use crate::bar::{Bar, Of};
use crate::case::{Case, Lasting};
use crate::form::{Forces, Form};
use crate::limit::{Climate, Limits, Unknown, allowance, limits};
use crate::matter::Matter;
use crate::solve::{Cut, Run};
use crate::structure::Structure;
use chairwright_design::{Design, Material, Origin, StockId};
use std::collections::BTreeMap;

/// Everything a judgement needs.
pub(crate) struct Court<'a> {
    pub design: &'a Design,
    pub all: &'a Structure,
    pub matters: &'a [Matter],
    pub climate: Climate,
    /// Limits of every stock in use, by kind of load.
    known: BTreeMap<(usize, Lasting), Result<Limits, Unknown>>,
    /// Whether a stock is of wood or metal: wood is judged by its fibres, the rest after von Mises.
    fibrous: BTreeMap<usize, bool>,
}

const KINDS: [Lasting; 4] = [Lasting::Sustained, Lasting::Short, Lasting::Impact, Lasting::Repeated];

impl<'a> Court<'a> {
    pub fn new(design: &'a Design, all: &'a Structure, matters: &'a [Matter], climate: Climate) -> Court<'a> {
        let mut court =
            Court { design, all, matters, climate, known: BTreeMap::new(), fibrous: BTreeMap::new() };
        let stocks = all.bars.iter().flat_map(|b| b.sheaths.iter().map(|s| s.stock).chain([b.stock]));
        for stock in stocks {
            let material = &design.stocks[stock].material;
            court.fibrous.entry(stock.index()).or_insert_with(|| fibrous(design, material));
            for kind in KINDS {
                let entry = court.known.entry((stock.index(), kind));
                entry.or_insert_with(|| limits(design, material, &climate, kind));
            }
        }
        court
    }

    pub fn limits(&self, stock: StockId, lasting: Lasting) -> Option<&Limits> {
        self.known.get(&(stock.index(), lasting)).and_then(|r| r.as_ref().ok())
    }

    /// What every bar is used for in the cases that ran; the worst case of each.
    pub fn bars(&self, cases: &[Case], runs: &[Option<&Run>]) -> Vec<Item> {
        let mut worst: BTreeMap<Of, Item> = BTreeMap::new();
        for (index, (case, run)) in cases.iter().zip(runs).enumerate() {
            let Some(run) = run else { continue };
            for cut in &run.cuts {
                let Some(item) = self.cut(index, case.lasting, cut) else { continue };
                let slot = worst.entry(self.all.bars[cut.bar].of);
                slot.and_modify(|old| {
                    // as good as equal: the first case and place stays, whatever the order of joints
                    if item.used.1 > old.used.1 * (1.0 + 1e-9) {
                        *old = item.clone();
                    }
                })
                .or_insert(item);
            }
        }
        worst.into_values().collect()
    }

    /// Use of one bar at one place.
    pub fn cut(&self, case: usize, lasting: Lasting, cut: &Cut) -> Option<Item> {
        let bar = &self.all.bars[cut.bar];
        if !bar.free_at(cut.at) {
            return None;
        }
        let matter = &self.matters[cut.bar];
        let active = bar.sheaths.iter().zip(&matter.sheaths).filter(|(s, _)| (s.from..=s.to).contains(&cut.at));
        let rest: Vec<_> = active.collect();
        let mut best: Option<Item> = None;
        let parts = std::iter::once((bar.form, matter, bar.stock, false))
            .chain(rest.iter().map(|(s, m)| (s.form, *m, s.stock, true)));
        let sum = rest.iter().fold(Rigidity::of(matter), |r, (_, m)| r.plus(&Rigidity::of(m)));
        for (form, m, stock, sleeve) in parts {
            let forces = Rigidity::of(m).share(&sum, &cut.forces);
            let Some(item) = self.part(case, lasting, (bar, cut), (form, stock, sleeve), &forces) else {
                continue;
            };
            if best.as_ref().is_none_or(|b| item.used.1 > b.used.1) {
                best = Some(item);
            }
        }
        best
    }

    fn part(
        &self,
        case: usize,
        lasting: Lasting,
        (bar, cut): (&Bar, &Cut),
        (form, stock, sleeve): (Form, StockId, bool),
        forces: &Forces,
    ) -> Option<Item> {
        let l = self.limits(stock, lasting)?;
        let hole = bar.hole_at(cut.at).filter(|_| !sleeve);
        let stress = form.stress_at(forces, hole.map(|h| (h.way, h.diameter)));
        let notched = l.everywhere || hole.is_some() || bar.lip_at(cut.at);
        let notch = if notched { l.notch } else { 1.0 };
        let fibrous = self.fibrous.get(&stock.index()).copied().unwrap_or(true);
        let along = if fibrous { stress.fibre() } else { stress.equivalent() };
        // the twist of a strip of a plate is shared with its neighbours: only what cuts it counts
        let shear = if matches!(bar.of, Of::Support(_)) { stress.shear - stress.twist } else { stress.shear };
        let (by_fibre, by_shear) = (along / l.fibre, if fibrous { shear / l.shear } else { 0.0 });
        let (use_, demand, bears, mode) = if by_shear > by_fibre {
            (by_shear, shear, l.shear, Mode::Shear)
        } else {
            let mode = if hole.is_some() {
                Mode::Hole
            } else if sleeve {
                Mode::Sleeve
            } else {
                Mode::Bending
            };
            (by_fibre, along, l.fibre, mode)
        };
        let used = rough(bar.of, fibrous, (use_ / l.slack, use_ * notch));
        Some(Item {
            what: What::Bar(bar.of),
            name: bar.name.clone(),
            origin: origin(self.design, bar.of),
            case,
            mode,
            at: cut.at,
            used,
            demand,
            bears: bears / notch,
            verdict: verdict(used),
        })
    }

    /// Stocks whose bars could not be judged in a kind of load that occurs.
    pub fn untold(&self, cases: &[Case]) -> Vec<Untold> {
        let mut out: Vec<Untold> = Vec::new();
        for bar in &self.all.bars {
            for kind in KINDS.into_iter().filter(|k| cases.iter().any(|c| c.lasting == *k)) {
                let Some(Err(why)) = self.known.get(&(bar.stock.index(), kind)) else { continue };
                match out.iter_mut().find(|u| u.name == bar.name && u.why == *why) {
                    Some(old) if !old.kinds.contains(&kind) => old.kinds.push(kind),
                    Some(_) => {}
                    None => out.push(Untold {
                        name: bar.name.clone(),
                        origin: origin(self.design, bar.of),
                        why: why.clone(),
                        kinds: vec![kind],
                    }),
                }
            }
        }
        out
    }
}

fn fibrous(design: &Design, material: &Material) -> bool {
    allowance(design, material).is_none_or(|a| matches!(a.family.as_str(), "wood" | "plywood" | ""))
}

/// Models that are rough say so in the width of their answer: the arms of a panel by a factor of two
/// either way, and a plate of plywood whose grain nobody has told bears half across it.
fn rough(of: Of, fibrous: bool, (plain, cautious): (f64, f64)) -> (f64, f64) {
    match of {
        Of::Panel(_) => (plain / 2.0, cautious * 2.0),
        Of::Support(_) if fibrous => (plain, cautious * 2.0),
        _ => (plain, cautious),
    }
}

/// Sound if even the cautious side is within its limit, broken if the plain side is beyond it.
pub(crate) fn verdict((plain, cautious): (f64, f64)) -> Verdict {
    if plain > 1.0 || !plain.is_finite() {
        Verdict::Fail
    } else if cautious > 1.0 {
        Verdict::CannotTell
    } else {
        Verdict::Pass
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
    fn of(m: &Matter) -> Rigidity {
        let (e, g) = m.stiffness(false);
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
