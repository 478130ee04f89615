//! Beside the numbers: refused load paths, things that must not touch, life, sag, softer joints.

use crate::answer::{Forbidden, Incompatible, Item, Life, What};
use crate::bar::Of;
use crate::case::{Case, CaseKind};
use crate::limit::{Climate, allowance, heat};
use crate::remark::Beside;
use crate::solve::Run;
use crate::structure::{Hold, Spot, Structure, TieOf};
use chairwright_design::{ClosingKind, Design, Material, SupportKind, Vec3, fold};
use chairwright_resistance::compatible::{Stuff, Touch, Wetness, touching};
use chairwright_resistance::glue::{self, Glue, suits};
use chairwright_resistance::pvc::cycles;
use std::collections::BTreeMap;

fn family<'d>(design: &'d Design, m: &Material) -> &'d str {
    allowance(design, m).map_or("", |a| a.family.as_str())
}

fn screws(design: &Design, list: &[(String, u32)]) -> bool {
    let screw = |n: &str| design.fastener(n).is_some_and(|f| f.kind == "screw");
    list.iter().any(|(n, c)| *c > 0 && screw(n))
}

/// Load paths that are refused by name.
pub(crate) fn forbidden(design: &Design, all: &Structure) -> Vec<Forbidden> {
    let mut out = Vec::new();
    for c in &design.closings {
        if let ClosingKind::Butt { member, .. } = &c.kind
            && screws(design, &c.fasteners)
            && family(design, &design.stocks[design.members[*member].stock].material) == "wood"
        {
            out.push(Forbidden::EndGrain { origin: c.origin, member: design.members[*member].name.clone() });
        }
    }
    out.extend(ends_at_panels(design, all));
    for stock in design.stocks.values() {
        let used = all.bars.iter().any(|b| design.stocks[b.stock].name == stock.name);
        let cellular = stock.material.allowance.as_deref().is_some_and(|a| fold(a) == "expanded pvc");
        if used && stock.is_pipe() && cellular {
            out.push(Forbidden::Cellular { origin: stock.origin, stock: stock.name.clone() });
        }
    }
    out
}

/// Screws through a panel into the end of a board that meets it square.
fn ends_at_panels(design: &Design, all: &Structure) -> Vec<Forbidden> {
    let mut out = Vec::new();
    for f in &design.fastenings {
        if !screws(design, &f.fasteners) {
            continue;
        }
        let pair = |a: &str, b: &str| {
            let panel = design.panels.iter().find(|p| p.name == a)?;
            let bar = all.bars.iter().find(|x| x.name == b && matches!(x.of, Of::Member(_)))?;
            Some((panel, bar))
        };
        let Some((panel, bar)) = pair(&f.what, &f.to).or_else(|| pair(&f.to, &f.what)) else { continue };
        let Of::Member(id) = bar.of else { continue };
        let m = &design.members[id];
        let way = (design.joints[m.end].at - design.joints[m.start].at).unit();
        let square = way.is_some_and(|w| w.dot(panel.toward).abs() > 0.7);
        if square && family(design, &design.stocks[m.stock].material) == "wood" {
            out.push(Forbidden::EndGrain { origin: f.origin, member: m.name.clone() });
        }
    }
    out
}

/// How wet a word of the conditions is.
fn wetness(design: &Design) -> Wetness {
    match design.conditions.words.get("water").map(String::as_str) {
        None | Some("none") => Wetness::None,
        Some("rain") => Wetness::Rain,
        Some("salt") => Wetness::Salt,
        Some(_) => Wetness::Fresh,
    }
}

/// Materials and glues that do not go together, or not with the climate.
pub(crate) fn incompatible(design: &Design) -> Vec<Incompatible> {
    let mut out = Vec::new();
    let wet = wetness(design);
    let plastic = design.stocks.values().any(|s| family(design, &s.material) == "plastic");
    let cracks = touching(Stuff::PlasticisedVinyl, Stuff::RigidPvc, wet).verdict != Touch::May;
    let vinyl = |name: &str| {
        let n = fold(name);
        plastic && cracks && (n.contains("vinyl") || n.contains("soft pvc") || n.contains("plasticised"))
    };
    for s in &design.supports {
        let stock = &design.stocks[s.stock];
        if vinyl(&stock.name) || vinyl(&stock.material.name) {
            out.push(Incompatible::VinylOnPvc { origin: s.origin, what: stock.name.clone() });
        }
    }
    for s in &design.supplies {
        if vinyl(&s.name) {
            out.push(Incompatible::VinylOnPvc { origin: s.origin, what: s.name.clone() });
        }
    }
    // in the rain a joint of a chair is wetted and dries: sheltered, as the chair is not left there
    let climate = match wet {
        Wetness::None => glue::Climate::Dry,
        Wetness::Rain => glue::Climate::Sheltered,
        Wetness::Fresh | Wetness::Salt => glue::Climate::Weather,
    };
    for c in &design.closings {
        let weak = |g: &&String| class(g).is_some_and(|class| !suits(class, climate).climate);
        if let Some(glue) = c.glue.as_ref().filter(weak) {
            out.push(Incompatible::Glue { origin: c.origin, glue: glue.clone() });
        }
    }
    out.extend(metals(design, wet));
    out
}

/// What a glue is, where its name says so.
fn class(name: &str) -> Option<Glue> {
    let n = fold(name);
    let word = |w: &str| n.split(' ').any(|p| p == w);
    let of = [("d1", Glue::D1), ("d2", Glue::D2), ("d3", Glue::D3), ("d4", Glue::D4)];
    let said = of.into_iter().find(|(w, _)| word(w)).map(|(_, g)| g);
    said.or_else(|| word("pva").then_some(Glue::D1))
}

/// Metals of the design that must not touch where it is this wet, the first pair of them. Which of them do touch
/// nobody says.
fn metals(design: &Design, wet: Wetness) -> Option<Incompatible> {
    if wet == Wetness::None {
        return None;
    }
    let metal = design.stocks.values().filter(|s| family(design, &s.material) == "metal");
    let kinds: Vec<_> = metal.filter_map(|s| Some((s.origin, s.material.name.clone(), stuff(s)?))).collect();
    for (k, one) in kinds.iter().enumerate() {
        for other in &kinds[k + 1..] {
            if let Touch::MustNot { loses, .. } = touching(one.2, other.2, wet).verdict {
                let (lost, stays) = if loses == one.2 { (one, other) } else { (other, one) };
                let (one, other) = (lost.1.clone(), stays.1.clone());
                return Some(Incompatible::Metals { origin: lost.0, one, other });
            }
        }
    }
    None
}

/// What metal a stock is of, by the names of stock and material.
fn stuff(stock: &chairwright_design::Stock) -> Option<Stuff> {
    let name = fold(&format!("{} {}", stock.name, stock.material.name));
    let of = [
        ("stainless", Stuff::Stainless),
        ("aluminium", Stuff::Aluminium),
        ("brass", Stuff::Brass),
        ("copper", Stuff::Copper),
        ("zinc", Stuff::Zinc),
        ("galvani", Stuff::Zinc),
        ("emt", Stuff::Zinc),
        ("steel", Stuff::Steel),
    ];
    of.into_iter().find(|(word, _)| name.contains(word)).map(|(_, s)| s)
}

/// Life of members of plastic pipe under bumps, weakest first, at most three.
pub(crate) fn lives(design: &Design, climate: &Climate, items: &[Item], cases: &[Case]) -> Vec<Life> {
    let mut out = Vec::new();
    for item in items {
        let What::Bar(Of::Member(id)) = item.what else { continue };
        let material = &design.stocks[design.members[id].stock].material;
        let bumps = cases.get(item.case).is_some_and(|c| c.kind == CaseKind::Bumps);
        let Some(a) = allowance(design, material).filter(|a| a.family == "plastic" && bumps) else { continue };
        let Some(warm) = heat(a, climate.hot) else { continue };
        let plain = item.demand / warm;
        // without stress no number of cycles can be told
        let (Ok(worst), Ok(best)) = (cycles(plain * a.notch.unwrap_or(1.0)), cycles(plain)) else { continue };
        let cycles = (worst, best);
        out.push(Life { name: item.name.clone(), stress: item.demand, cycles });
    }
    out.truncate(3);
    out
}

/// How far the seat sinks for good between its rails' ends: the deepest shift of its strips or rails
/// less the mean shift of the ends of what carries it.
pub(crate) fn sag(design: &Design, all: &Structure, run: &Run) -> Option<f64> {
    let seat = all.decks.iter().find(|d| design.supports[d.support].kind == SupportKind::Seat)?;
    let carriers: Vec<usize> = match &seat.carries {
        crate::structure::Carries::Sheet { on, .. } => on.clone(),
        crate::structure::Carries::Bands(b) => b.iter().flat_map(|(l, r)| [l.bar, r.bar]).collect(),
        crate::structure::Carries::Nothing => return None,
    };
    let part = |bar: usize| carriers.contains(&bar) || all.bars[bar].of == Of::Support(seat.support);
    let deepest = run.moved.iter().filter(|(b, ..)| part(*b)).map(|(_, _, u)| u.z).fold(0.0, f64::min);
    let ends: Vec<f64> = run
        .moved
        .iter()
        .filter(|(b, at, _)| carriers.contains(b) && (*at < 1e-6 || (*at - all.bars[*b].length()).abs() < 1e-6))
        .map(|(_, _, u)| u.z)
        .collect();
    #[allow(clippy::cast_precision_loss)]
    let mean = ends.iter().sum::<f64>() / ends.len().max(1) as f64;
    Some((mean - deepest).max(0.0))
}

/// What the fasteners of each support have to hold, in the case that is worst for it: pull off its bars, and push along
/// them, each summed over the places on one bar.
pub(crate) fn support_fasteners(all: &Structure, runs: &[Option<&Run>]) -> Vec<Beside> {
    let mut worst: BTreeMap<usize, (f64, f64)> = BTreeMap::new();
    for run in runs.iter().flatten() {
        let mut sums: BTreeMap<(usize, usize), (f64, Vec3)> = BTreeMap::new();
        for h in &run.handed {
            let tie = &all.ties[h.tie];
            let (TieOf::Bearing(support), Hold::Bearing { normal, grip: Some(_) }) = (tie.of, tie.hold) else {
                continue;
            };
            let Some(bar) = tie.spots.get(1).and_then(Spot::bar) else { continue };
            let pressed = h.force.dot(normal);
            // what hangs below its bar is pulled off by what presses on it
            let hangs = (all.place(tie.spots[1]) - all.place(tie.spots[0])).dot(normal) > 0.0;
            let pull = if hangs { pressed } else { -pressed }.max(0.0);
            let sum = sums.entry((support, bar)).or_insert((0.0, Vec3::ZERO));
            *sum = (sum.0 + pull, sum.1 + h.force.across(normal));
        }
        for ((support, _), (pull, along)) in sums {
            let old = worst.entry(support).or_insert((0.0, 0.0));
            *old = (old.0.max(pull), old.1.max(along.norm()));
        }
    }
    let of = |(support, (pull, along))| Beside::SupportFasteners { support, pull, along };
    worst.into_iter().map(of).collect()
}

/// Supports that are fastened nowhere: they only lie on their bars.
pub(crate) fn only_lie(all: &Structure) -> Vec<usize> {
    let bearing = |k: usize| all.ties.iter().filter(move |t| t.of == TieOf::Bearing(k));
    let lies = |k: &usize| {
        let mut holds = bearing(*k).map(|t| t.hold).peekable();
        holds.peek().is_some() && holds.all(|h| matches!(h, Hold::Bearing { grip: None, .. }))
    };
    all.decks.iter().map(|d| d.support).filter(lies).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// EN 204 (from memory): D3 stands water often, D4 stands outdoors; a PVA without a class is D1.
    #[test]
    fn glues_by_their_names() {
        assert_eq!(class("PVA wood glue"), Some(Glue::D1));
        assert_eq!(class("wood glue D4"), Some(Glue::D4));
        assert_eq!(class("PVA D3"), Some(Glue::D3));
        assert_eq!(class("epoxy"), None);
    }
}
