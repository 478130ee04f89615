//! The net under the judges: whatever of the design nobody judged is said to be unjudged; and what no part of
//! this room looks at.

use crate::answer::{Strength, Untold};
use crate::assumed::Unchecked;
use crate::case::Lasting;
use crate::limit::Unknown;
use crate::remark::Open;
use crate::solve::Run;
use crate::structure::{Loose, Spot, Structure};
use chairwright_design::{Design, Origin, Shape};

/// Parts that no verdict names: members, boxes, panels and supports that are neither judged nor said to be
/// unjudged nor loose.
pub(crate) fn unjudged(design: &Design, out: &Strength) -> Vec<Untold> {
    // the rider cannot even sit: the finding about that says why
    let leaves = out.open.iter().any(|o| matches!(o, Open::Leaves { case: None, .. }));
    let stuck = leaves || !out.swings.is_empty() || !out.loose.is_empty() || !out.refused.is_empty();
    if !out.judged || (out.cases.is_empty() && stuck) {
        // nothing was computed, and the findings say why
        return Vec::new();
    }
    let kinds: Vec<Lasting> = kinds(out);
    let open = parts(design).filter(|(name, _)| !named(design, out, name));
    let why = |name: &str| {
        let support = design.supports.iter().find(|s| s.name == name).map(|s| &design.stocks[s.stock]);
        let cloth = support.filter(|s| matches!(s.shape, Shape::Webbing { .. }));
        cloth.map_or(Unknown::Nobody, |s| Unknown::Cloth(s.name.clone()))
    };
    let untold = |(name, origin): (&str, Origin)| {
        let kinds = kinds.clone();
        Untold { name: name.to_owned(), origin, why: why(name), kinds }
    };
    open.map(untold).collect()
}

fn kinds(out: &Strength) -> Vec<Lasting> {
    let mut all: Vec<Lasting> = out.cases.iter().map(|c| c.lasting).collect();
    all.sort();
    all.dedup();
    all
}

fn parts(design: &Design) -> impl Iterator<Item = (&str, Origin)> {
    let members = design.members.values().map(|m| (m.name.as_str(), m.origin));
    let boxes = design.boxes.iter().map(|b| (b.name.as_str(), b.origin));
    let panels = design.panels.iter().map(|p| (p.name.as_str(), p.origin));
    let supports = design.supports.iter().map(|s| (s.name.as_str(), s.origin));
    members.chain(boxes).chain(panels).chain(supports)
}

fn named(design: &Design, out: &Strength, name: &str) -> bool {
    let loose = |l: &Loose| match l {
        Loose::Member(n) => n == name,
        Loose::Support(k) | Loose::Tips { support: k, .. } | Loose::Bands { support: k, .. } => {
            design.supports[*k].name == name
        }
        Loose::Panel(k) => design.panels[*k].name == name,
        Loose::OpenJoint(_) | Loose::Unfastened(_) | Loose::Wheel(_) | Loose::Apart { .. } => false,
    };
    out.items.iter().any(|i| i.name == name)
        || out.untold.iter().any(|u| u.name == name)
        || out.loose.iter().any(loose)
}

/// What this room does not look at in this design.
pub(crate) fn left_out(design: &Design, all: &Structure, runs: &[Option<&Run>]) -> Vec<Unchecked> {
    let mut out = vec![Unchecked::Sideways];
    for caster in [false, true] {
        let (names, most) = crate::rated::unrated(design, all, runs, caster);
        if !names.is_empty() {
            out.push(Unchecked::Ratings(names, most));
        }
    }
    let axles = crate::axle::unmeasured(design, all);
    if !axles.is_empty() {
        out.push(Unchecked::Axles(axles));
    }
    let bare = undrilled(all);
    if !bare.is_empty() {
        out.push(Unchecked::AxleHoles(bare));
    }
    let pressed = crate::axle::pressed(design, all);
    if design.name.is_empty() && !pressed.is_empty() {
        let mut bars: Vec<String> = pressed.into_iter().map(|p| p.1).collect();
        bars.dedup();
        out.push(Unchecked::Pressed(bars));
    }
    out
}

/// Bars that carry an axle or a stem without a hole in the text for it.
fn undrilled(all: &Structure) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for tie in &all.ties {
        let rolls = matches!(tie.of, crate::structure::TieOf::Wheel(_) | crate::structure::TieOf::Caster(_));
        for spot in tie.spots.iter().filter(|_| rolls) {
            let Spot::Port(port) = spot else { continue };
            let bar = &all.bars[port.bar];
            let drilled = bar.holes.iter().any(|h| (h.at - port.at).abs() < 2.0 * h.reach());
            if !drilled && !out.contains(&bar.name) {
                out.push(bar.name.clone());
            }
        }
    }
    out
}

/// Forces further out of balance than this, over the largest, are no answer. Joints as stiff as they are here
/// leave some 1e-8.
const RESIDUAL: f64 = 1e-5;

/// The worst of some residuals; what is no number is the worst of all.
pub(crate) fn residual(all: impl Iterator<Item = f64>) -> f64 {
    all.fold(0.0, |worst: f64, r| if r.is_nan() || r > worst { r } else { worst })
}

/// Whether the forces balance, so that their stresses can be trusted.
pub(crate) fn balanced(residual: f64) -> bool {
    residual <= RESIDUAL
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forces_out_of_balance_are_no_answer() {
        assert!(balanced(residual([0.0, 3e-9, 1e-12].into_iter())));
        assert!(!balanced(residual([1e-9, 1e-3, 1e-9].into_iter())));
        assert!(!balanced(residual([1e-9, f64::NAN, 1e-9].into_iter())));
    }
}
