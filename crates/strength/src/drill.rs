//! Holes that fastenings and closings drill: whatever a bolt, rivet or screw goes through loses its section
//! there.

use crate::assumed::Assumed;
use crate::bar::{Bar, Of, Pierced};
use crate::form::Drilled;
use crate::limit::{allowance, wooden};
use crate::structure::{Port, Spot, Structure, Tie, TieOf};
use chairwright_design::{Design, Vec3};

/// A bolt's hole over the bolt, m: the medium series of ISO 273 (M8 9.0, M10 11), from memory, not checked.
pub(crate) const WIDER: f64 = 0.001;

/// Drills every member and box; what the text itself drills at the same place stays as it says.
pub(crate) fn drill(design: &Design, all: &mut Structure) -> Option<Assumed> {
    let mut found: Vec<(usize, Pierced)> = Vec::new();
    for tie in &all.ties {
        for (k, spot) in tie.spots.iter().enumerate() {
            let Spot::Port(port) = *spot else { continue };
            let bar = &all.bars[port.bar];
            let lists = fasteners(design, tie, &bar.name);
            let holes = lists.into_iter().filter_map(|l| widest(design, bar, l));
            let Some(diameter) = holes.reduce(f64::max) else { continue };
            let others = tie.spots.iter().enumerate().filter(|(i, _)| *i != k);
            let toward = others.map(|(_, s)| all.place(*s)).next();
            let drilled = Drilled { way: toward.and_then(|p| across(bar, port, p)), diameter, long: diameter };
            let own = bar.holes.iter().any(|h| (h.at - port.at).abs() < 2.0 * h.reach());
            let twice = found.iter().any(|(b, h)| *b == port.bar && h.at == port.at && h.drilled == drilled);
            if !own && !twice {
                found.push((port.bar, Pierced { at: port.at, drilled, said: false }));
            }
        }
    }
    let any = !found.is_empty();
    for (bar, hole) in found {
        all.bars[bar].holes.push(hole);
    }
    any.then_some(Assumed::BoltHoles(WIDER))
}

/// What goes through a bar at a tie, by the bar's name.
fn fasteners<'d>(design: &'d Design, tie: &Tie, bar: &str) -> Vec<&'d [(String, u32)]> {
    let between = |name: &str| {
        let here = |a: &str, b: &str| a == name && b == bar;
        let mine = design.fastenings.iter().filter(|f| here(&f.what, &f.to) || here(&f.to, &f.what));
        mine.map(|f| f.fasteners.as_slice()).collect()
    };
    match tie.of {
        TieOf::Fastening(k) => design.fastenings.get(k).map(|f| f.fasteners.as_slice()).into_iter().collect(),
        TieOf::Joint(id) => {
            let mine = design.closings.iter().filter(|c| c.joint == id);
            mine.map(|c| c.fasteners.as_slice()).collect()
        }
        TieOf::Bearing(k) => between(&design.supports[k].name),
        TieOf::Wheel(k) => between(&design.wheels[k].name),
        TieOf::Caster(k) => between(&design.casters[k].name),
        TieOf::Sheet | TieOf::Part => Vec::new(),
    }
}

/// The widest hole that a list of fasteners makes in a bar. Screws only part the fibres of wood: their holes
/// are not counted there, as in wood design (from memory, not checked).
fn widest(design: &Design, bar: &Bar, list: &[(String, u32)]) -> Option<f64> {
    if !matches!(bar.of, Of::Member(_) | Of::Box(_)) {
        return None;
    }
    let wood = allowance(design, &design.stocks[bar.stock].material).is_some_and(wooden);
    let hole = |(name, count): &(String, u32)| {
        let f = design.fastener(name).filter(|_| *count > 0)?;
        match f.kind.as_str() {
            "bolt" | "rivet" => Some(f.diameter + WIDER),
            "screw" if !wood => Some(f.diameter),
            _ => None,
        }
    };
    list.iter().filter_map(hole).reduce(f64::max)
}

/// Way across a bar toward what it is fastened to, in its own axes; `None` where that lies on its line.
fn across(bar: &Bar, port: Port, other: Vec3) -> Option<[f64; 2]> {
    let way = bar.way();
    let off = (other - bar.at(port.at)).across(way);
    let unit = off.unit().filter(|_| off.norm() > 1e-4)?;
    Some([unit.dot(bar.up.cross(way)), unit.dot(bar.up)])
}
