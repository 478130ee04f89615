//! Axles of wheels: bent where they come out of what holds them, by what the ground carries at the middle of the wheel.
//!
//! Every axle is taken as held from one side, and as a stem is: sound is what the weakest steel that is sold bears with a
//! thread where it is bent, and what no steel bears breaks. Between the two its maker or a test tells.

use crate::case::Case;
use crate::limit::family;
use crate::remark::Open;
use crate::solve::Run;
use crate::stem::{hopeless, sound};
use crate::structure::{Spot, Structure, TieOf};
use chairwright_design::{Design, StockId};

/// Each axle that some case bends beyond what is sound, in the case that bends it most; of a whole chair also each of which
/// nobody says what is needed to tell.
pub(crate) fn bent(design: &Design, all: &Structure, cases: &[Case], runs: &[Option<&Run>]) -> Vec<Open> {
    let mut out = Vec::new();
    for (k, footing) in all.footings.iter().enumerate().filter(|(_, f)| !f.caster && f.carrier.is_some()) {
        let each = (0..cases.len()).filter_map(|i| Some((i, runs[i]?.feet[k])));
        let Some((case, load)) = crate::case::most(each) else { continue };
        let (wheel, diameter) = (footing.index, design.wheels[footing.index].axle_diameter);
        let known = diameter.and_then(|d| Some((d, sound(d)?))).zip(footing.overhang);
        match known {
            Some(((diameter, sound), lever)) => {
                let moment = load * lever;
                if moment > sound {
                    let breaks = moment > hopeless(diameter);
                    out.push(Open::Axle { wheel, case, lever, moment, sound, diameter, breaks });
                }
            }
            None if !design.name.is_empty() => out.push(Open::AxleUntold {
                wheel,
                diameter: diameter.is_some(),
                lever: footing.overhang,
                most: load,
            }),
            None => {}
        }
    }
    out
}

/// Wheels and casters whose axle or stem sits in the bare wood or plastic of a bar, each with that bar: nobody here works out how the hole
/// wears and widens under what it presses with. A sleeve or plate that is fastened there takes it, and so does a metal tube over or in
/// the bar.
pub(crate) fn pressed(design: &Design, all: &Structure) -> Vec<(TieOf, String)> {
    let metal = |stock: StockId| family(design, &design.stocks[stock].material) == "metal";
    let mut out = Vec::new();
    for tie in &all.ties {
        let name = match tie.of {
            TieOf::Wheel(k) => &design.wheels[k].name,
            TieOf::Caster(k) => &design.casters[k].name,
            _ => continue,
        };
        for spot in &tie.spots {
            let Spot::Port(p) = spot else { continue };
            let bar = &all.bars[p.bar];
            let lined = bar.sheaths.iter().any(|s| metal(s.stock) && (s.from..=s.to).contains(&p.at));
            if !fastened(design, name, &bar.name) && !lined && !metal(bar.stock) {
                out.push((tie.of, bar.name.clone()));
            }
        }
    }
    out
}

/// Whether the text fastens one thing to another, in whatever order.
pub(crate) fn fastened(design: &Design, one: &str, other: &str) -> bool {
    let is = |a: &str, b: &str| a == one && b == other;
    design.fastenings.iter().any(|f| is(&f.what, &f.to) || is(&f.to, &f.what))
}

/// The same of a whole chair, as what only a test tells.
pub(crate) fn bare(design: &Design, all: &Structure) -> Option<Open> {
    let all = pressed(design, all);
    (!design.name.is_empty() && !all.is_empty()).then_some(Open::Pressed(all))
}

/// Wheels of a sketch without a name of which neither drawing nor part says what bends their axles: of a whole chair they are
/// told one by one.
pub(crate) fn unmeasured(design: &Design, all: &Structure) -> Vec<String> {
    if !design.name.is_empty() {
        return Vec::new();
    }
    let bare = |f: &&crate::structure::Footing| {
        !f.caster && (f.overhang.is_none() || design.wheels[f.index].axle_diameter.is_none())
    };
    all.footings.iter().filter(bare).map(|f| f.name.clone()).collect()
}
