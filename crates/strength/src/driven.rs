//! Nails and screws that go in otherwise than square into lead holes: without one, where wood splits; and aslant.

use crate::answer::Mode;
use crate::demand::{Demand, fastener_use};
use crate::joints::{Said, When};
use crate::judge::Court;
use crate::piece::{Body, Grain};
use crate::reasons::Reason;
use crate::screws::{driven, held_by_wood};
use crate::seam::Seam;
use chairwright_design::{Drive, Fastener};

/// Specific gravity beyond which wood wants lead holes: EN 1995-1-1, 8.3.1.1(2) has it from 500 kg/m³ characteristic density on, which
/// is no less than 0.5 of gravity without water; from memory, not checked.
const DENSE: f64 = 0.5;
/// Thicker nails than this want lead holes, m: EN 1995-1-1, 8.3.1.1(2), from memory, not checked.
const THICK: f64 = 0.006;

/// The least thickness of wood that does not split where a nail of a diameter goes in without a lead hole, m: the greater of 7 d and
/// (13 d - 30) ρ/400 in mm with ρ 500 kg/m³; EN 1995-1-1, 8.3.1.2(6), from memory, not checked.
fn least_wood(diameter: f64) -> f64 {
    (7.0 * diameter).max((13.0 * diameter - 0.030) * 500.0 / 400.0)
}

impl Court<'_> {
    /// Why wood splits where a fastener goes in without a lead hole, if it does; how far from each other and from the edges they stand
    /// is looked at with the others.
    pub(crate) fn splits(&self, seam: &Seam<'_>, f: &Fastener) -> Option<Reason> {
        if seam.drive == Drive::Drilled || held_by_wood(f).is_none() {
            return None;
        }
        let lumber = |k: usize| match seam.pair[k].body {
            Body::Wood { gravity, thick, .. } if self.family(seam.pair[k].stock) != "plywood" => {
                Some((gravity, thick))
            }
            _ => None,
        };
        let all: Vec<(f64, f64)> = (0..2).filter_map(lumber).collect();
        if f.diameter > THICK || all.iter().any(|w| w.0 > DENSE) {
            return Some(Reason::SplitsDense);
        }
        let thin = all.iter().map(|w| w.1).fold(f64::INFINITY, f64::min);
        let least = least_wood(f.diameter);
        (thin + 1e-6 < least).then(|| Reason::Splits(thin.into(), least.into()))
    }

    /// What slanted nails surely do not bear: as much as as many straight ones would in the side of the wood, and an even share of the
    /// force. What they bear for sure nobody knows here: no published rule has them hold the moment that a rigid frame hands them.
    pub(crate) fn slanted(
        &self,
        seam: &Seam<'_>,
        f: &Fastener,
        demand: Demand,
        when: When,
        say: &mut dyn FnMut(Said),
    ) {
        let side = |body: Body| match body {
            Body::Wood { gravity, thick, .. } => Body::Wood { gravity, thick, grain: Grain::Side },
            other => other,
        };
        let [a, b] = [0, 1].map(|k| side(seam.pair[k].body));
        // the piece that stops is as thick under the head as the nail leaves of it: a third of its length
        let head = match a {
            Body::Wood { gravity, grain, .. } => Body::Wood { gravity, thick: f.length / 3.0, grain },
            other => other,
        };
        let Ok(d) = driven(f, head, b, (when.1, self.climate)) else { return };
        // what pulls at the joint shears them aslant, and what shears it pulls them: the sum of both is more than they bear
        let most = d.sideways.value + d.pulled.as_ref().and_then(|p| p.as_ref().ok()).map_or(0.0, |p| p.value);
        let force = libm::hypot(demand.aside.0, demand.pull.0);
        let used = force / most / d.slack;
        say(Said::Use(fastener_use(seam.what, when.0, Mode::Screws, demand, (used, used))));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 3.1 mm: 7 · 3.1 = 21.7 mm, and (13 · 3.1 - 30) · 1.25 = 12.9 mm. 5 mm: 35 mm against (65 - 30) · 1.25 = 43.75 mm.
    #[test]
    fn thin_wood_splits() {
        assert!((least_wood(0.0031) - 0.0217).abs() < 1e-9);
        assert!((least_wood(0.005) - 0.04375).abs() < 1e-9);
    }
}
