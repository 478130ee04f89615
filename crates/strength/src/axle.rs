//! Axles of wheels: bent where they come out of what holds them, by what the ground carries at the middle of the wheel.
//!
//! Every axle is taken as held from one side, and as a stem is: sound is what the weakest steel that is sold bears with a
//! thread where it is bent, and what no steel bears breaks. Between the two its maker or a test tells.

use crate::case::Case;
use crate::remark::Open;
use crate::solve::Run;
use crate::stem::{hopeless, sound};
use crate::structure::Structure;
use chairwright_design::Design;

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
