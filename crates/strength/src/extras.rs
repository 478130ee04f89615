//! Beside the numbers: refused load paths, things that must not touch, life, sag, softer joints.

use crate::answer::{Forbidden, Incompatible, Item, Life, What};
use crate::bar::Of;
use crate::case::{Case, CaseKind};
use crate::limit::{Climate, allowance, heat};
use crate::solve::Run;
use crate::structure::Structure;
use chairwright_design::{ClosingKind, Design, Material, SupportKind, fold};

fn family<'d>(design: &'d Design, m: &Material) -> &'d str {
    allowance(design, m).map_or("", |a| a.family.as_str())
}

fn screws(design: &Design, list: &[(String, u32)]) -> bool {
    let screw = |n: &str| design.fasteners.iter().any(|f| fold(&f.name) == fold(n) && f.kind == "screw");
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

/// Materials and glues that do not go together, or not with the climate.
pub(crate) fn incompatible(design: &Design) -> Vec<Incompatible> {
    let mut out = Vec::new();
    let plastic = design.stocks.values().any(|s| family(design, &s.material) == "plastic");
    let vinyl = |name: &str| {
        let n = fold(name);
        n.contains("vinyl") || n.contains("soft pvc") || n.contains("plasticised")
    };
    for s in &design.supports {
        let stock = &design.stocks[s.stock];
        if plastic && (vinyl(&stock.name) || vinyl(&stock.material.name)) {
            out.push(Incompatible::VinylOnPvc { origin: s.origin, what: stock.name.clone() });
        }
    }
    for s in &design.supplies {
        if plastic && vinyl(&s.name) {
            out.push(Incompatible::VinylOnPvc { origin: s.origin, what: s.name.clone() });
        }
    }
    let water = design.conditions.words.get("water").map_or("none", String::as_str);
    let wet = water != "none";
    let weak = |name: &str| {
        let n = fold(name);
        let word = |w: &str| n.split(' ').any(|p| p == w);
        word("pva") || word("d1") || word("d2") || (word("d3") && water != "rain")
    };
    for c in &design.closings {
        if let Some(glue) = c.glue.as_ref().filter(|g| wet && weak(g)) {
            out.push(Incompatible::Glue { origin: c.origin, glue: glue.clone() });
        }
    }
    out.extend(metals(design, water));
    out
}

/// Aluminium on steel in salt water; stainless steel beside either is as bad for the other.
fn metals(design: &Design, water: &str) -> Option<Incompatible> {
    if water != "salt" {
        return None;
    }
    let metal = design.stocks.values().filter(|s| family(design, &s.material) == "metal");
    let kinds: Vec<_> = metal.map(|s| (s.origin, s.material.name.clone())).collect();
    let alu = kinds.iter().find(|(_, n)| n.contains("aluminium"))?;
    let steel = kinds.iter().find(|(_, n)| n.contains("steel"))?;
    Some(Incompatible::Metals { origin: alu.0, one: alu.1.clone(), other: steel.1.clone() })
}

/// Cycles to failure of plain PVC pipe under a peak stress in Pa: N = 5.05e21·S^−4.906, S in psi
/// (Buried Pipe Design, fit of hoop stress from pressure surges).
#[must_use]
pub fn surge_cycles(stress: f64) -> f64 {
    let psi = (stress / 6_894.76).max(1e-6);
    5.05e21 * libm::pow(psi, -4.906)
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
        let cycles = (surge_cycles(plain * a.notch.unwrap_or(1.0)), surge_cycles(plain));
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

#[cfg(test)]
mod tests {
    use super::*;

    /// The trade paper: about 15 MPa for 200 000 cycles (1.13).
    #[test]
    fn the_surge_fit() {
        let n = surge_cycles(15e6);
        assert!((180_000.0..230_000.0).contains(&n), "{n}");
    }
}
