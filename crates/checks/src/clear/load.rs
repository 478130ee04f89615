//! What a wheel carries against what it is rated for, and how its axle holds it.

use crate::clear::trouble::Trouble;
use crate::clear::wheels::axle_of;
use crate::figure::Figures;
use chairwright_design::{Design, ItemKind, Wheel};
use chairwright_frame::Settled;
use chairwright_quantity::Dimension;

const L: Dimension = Dimension::LENGTH;
const M: Dimension = Dimension::MASS;
const STATICS: &str = "rigid body statics on level ground";
/// What a kerb or a stone makes of the load. Common practice, no source.
const SHOCK: f64 = 3.0;
/// Hub and receiver may miss the axle's usable length by its adjuster. Common practice, no source.
const ADJUSTER: f64 = 0.002;

/// Loads and ratings; of a design without a rider nothing is known.
pub(crate) fn loads(design: &Design, settled: &Settled, figures: &mut Figures, troubles: &mut Vec<Trouble>) {
    let (Some(mass), Some(share), Some(left)) =
        (figures.si("mass.total"), figures.si("load.rear.share"), figures.si("com.total.left"))
    else {
        return;
    };
    for (i, wheel) in design.wheels.iter().enumerate() {
        let part = side_share(design, settled, i, left);
        let load = mass * share * part;
        let inputs = [("mass.total", mass, M), ("load.rear.share", share, Dimension::NUMBER)];
        let formula =
            "mass.total x load.rear.share x share of this side, from the centre of mass between the wheels";
        figures.put(format!("wheel.load.{}", wheel.name), (load, M), formula, STATICS, &inputs);
        let short = wheel.rated.map(|r| r < load * SHOCK - 1e-9);
        if short == Some(true) || (short.is_none() && !design.name.is_empty()) {
            troubles.push(Trouble::Overloaded {
                wheel: wheel.name.clone(),
                origin: wheel.origin,
                load,
                shock: SHOCK,
                rated: wheel.rated,
            });
        }
    }
}

/// The share of the rear load on one wheel: by levers between two, even among others.
fn side_share(design: &Design, settled: &Settled, index: usize, left: f64) -> f64 {
    let at = |i: usize| settled.contacts.iter().find(|c| !c.caster && c.index == i).map(|c| c.at.y);
    #[allow(clippy::cast_precision_loss)]
    let even = 1.0 / design.wheels.len().max(1) as f64;
    if design.wheels.len() != 2 {
        return even;
    }
    match (at(index), at(1 - index)) {
        (Some(own), Some(other)) if (own - other).abs() > 1e-6 => {
            ((left - other) / (own - other)).clamp(0.0, 1.0)
        }
        _ => even,
    }
}

/// Axles: held from one side, and as long as hub and receiver.
pub(crate) fn axles(design: &Design, figures: &mut Figures, troubles: &mut Vec<Trouble>) {
    for wheel in &design.wheels {
        if wheel.one_sided == Some(false) {
            troubles.push(Trouble::OneSided { wheel: wheel.name.clone(), origin: wheel.origin });
        }
        length(design, wheel, figures, troubles);
    }
}

fn length(design: &Design, wheel: &Wheel, figures: &mut Figures, troubles: &mut Vec<Trouble>) {
    let Some(axle) = axle_of(design, wheel, ItemKind::Axle) else { return };
    if wheel.hub <= 0.0 {
        return;
    }
    let usable = axle.size.y;
    let inputs = [("usable length", usable, L), ("hub", wheel.hub, L)];
    let formula = "usable length of the axle less the hub: what is left for receiver and spacers";
    figures.put(
        format!("axle.in.receiver.{}", axle.name),
        (usable - wheel.hub, L),
        formula,
        "geometry",
        &inputs,
    );
    let Some(receiver) = axle_of(design, wheel, ItemKind::Receiver) else { return };
    let long = receiver.size.y;
    if (usable - wheel.hub - long).abs() > ADJUSTER + 1e-9 {
        troubles.push(Trouble::AxleLength {
            axle: axle.name.clone(),
            origin: axle.origin,
            length: usable,
            hub: wheel.hub,
            receiver: long,
        });
    }
}
