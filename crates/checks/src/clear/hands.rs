//! Room for the hand at push rim and brake.

use crate::assumed::Assumed;
use crate::clear::GEOMETRY;
use crate::clear::scene::{Kind, Thing};
use crate::clear::trouble::Trouble;
use crate::clear::wheels::{nearest, push_rim};
use crate::figure::Figures;
use chairwright_design::Design;
use chairwright_quantity::Dimension;

const L: Dimension = Dimension::LENGTH;
/// Push rim to tyre: less gives the fingers no hold, more lets the thumb in between. Common practice, no source.
const STAND_OFF: (f64, f64) = (0.010, 0.020);
/// Room beside a push rim for the thumb that runs along it. No gap is too small to harm there: the hand comes along the rim, and
/// meets what stands nearer at full push. Common practice, no source.
const THUMB: f64 = 0.020;

pub(crate) fn hands(
    design: &Design,
    things: &[Thing<'_>],
    (assumptions, figures): (&mut Vec<Assumed>, &mut Figures),
    troubles: &mut Vec<Trouble>,
) {
    stand_off(design, figures, troubles);
    if brakes(design, things, figures, troubles) {
        assumptions.push(Assumed::LeverStands);
    }
}

fn stand_off(design: &Design, figures: &mut Figures, troubles: &mut Vec<Trouble>) {
    let rims = || design.wheels.iter().filter(|w| w.rim.is_some());
    let least = rims().map(|w| w.rim_gap).fold(f64::INFINITY, f64::min);
    figures.put("gap.rim.tyre", (least, L), "stand-off of the push rim as measured", GEOMETRY, &[]);
    for wheel in rims() {
        let (low, high) = STAND_OFF;
        if wheel.rim_gap < low - 1e-9 || wheel.rim_gap > high + 1e-9 {
            troubles.push(Trouble::StandOff {
                wheel: wheel.name.clone(),
                origin: wheel.origin,
                gap: wheel.rim_gap,
                band: STAND_OFF,
            });
        }
    }
}

/// Each brake against the push rims, and whether there are both. Against the tyre it is not looked at: there it must touch.
fn brakes(design: &Design, things: &[Thing<'_>], figures: &mut Figures, troubles: &mut Vec<Trouble>) -> bool {
    // a thumb that was measured may need more room to pass
    let free = design.rider.get("thumb").map_or(THUMB, |t| t.max(THUMB));
    let mut both = false;
    let mut least = f64::INFINITY;
    for brake in things.iter().filter(|t| t.kind == Kind::Brake) {
        for wheel in &design.wheels {
            let Some(rim) = push_rim(wheel, 0.0) else { continue };
            both = true;
            let near = nearest(&rim, std::slice::from_ref(brake), |_| true, least.max(free));
            let Some((near, name)) = near else { continue };
            least = least.min(near.gap);
            let item = design.items.iter().find(|i| i.name == name);
            if let Some(item) = item.filter(|_| near.gap < free - 1e-4) {
                troubles.push(Trouble::ThumbTrap {
                    brake: item.name.clone(),
                    origin: item.origin,
                    wheel: wheel.name.clone(),
                    gap: near.gap,
                    free,
                });
            }
        }
    }
    let formula =
        "least distance of a brake's outside box to the ring of a push rim; its lever's way is not known";
    figures.put("gap.brake.rim", (least, L), formula, GEOMETRY, &[]);
    both
}
