//! Room for the hand at push rim and brake.

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
/// Between brake and push rim a thumb neither fails to enter nor passes freely. Common practice, no source.
const THUMB: (f64, f64) = (0.010, 0.020);

/// Thumbs of children get in from here on: the lower end of the gaps that catch their fingers.
const CHILD_THUMB: f64 = 0.005;

pub(crate) fn hands(
    design: &Design,
    things: &[Thing<'_>],
    child: bool,
    figures: &mut Figures,
    troubles: &mut Vec<Trouble>,
) {
    stand_off(design, figures, troubles);
    brakes(design, things, child, figures, troubles);
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

/// Each brake against the push rims. Against the tyre it is not looked at: there it must touch.
fn brakes(
    design: &Design,
    things: &[Thing<'_>],
    child: bool,
    figures: &mut Figures,
    troubles: &mut Vec<Trouble>,
) {
    // a thumb that was measured may need more room to pass, or less to get in
    let thumb = design.rider.get("thumb");
    let free = thumb.map_or(THUMB.1, |t| t.max(THUMB.1));
    let enters = thumb.map_or(THUMB.0, |t| t.min(THUMB.0)).min(if child { CHILD_THUMB } else { THUMB.0 });
    let mut least = f64::INFINITY;
    for brake in things.iter().filter(|t| t.kind == Kind::Brake) {
        for wheel in &design.wheels {
            let Some(rim) = push_rim(wheel, 0.0) else { continue };
            let near = nearest(&rim, std::slice::from_ref(brake), |_| true, least.max(free));
            let Some((near, name)) = near else { continue };
            least = least.min(near.gap);
            let trap = near.gap < 0.0 || (near.gap >= enters && near.gap < free - 1e-4);
            let item = design.items.iter().find(|i| i.name == name);
            if let Some(item) = item.filter(|_| trap) {
                troubles.push(Trouble::ThumbTrap {
                    brake: item.name.clone(),
                    origin: item.origin,
                    wheel: wheel.name.clone(),
                    gap: near.gap,
                    band: (enters, free),
                });
            }
        }
    }
    let formula =
        "least distance of a brake's outside box to the ring of a push rim; its lever's way is not known";
    figures.put("gap.brake.rim", (least, L), formula, GEOMETRY, &[]);
}
