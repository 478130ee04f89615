//! Masses and centres of mass.

use crate::body::RiderBody;
use crate::figure::Figures;
use crate::tested::{reading, readings};
use chairwright_design::{Design, Vec3};
use chairwright_quantity::Dimension;

/// A mass and its centre.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Mass {
    /// In kg.
    pub mass: f64,
    /// In the axes of the bodies that were weighed.
    pub centre: Vec3,
}

/// Total mass and its centre: Σm and Σm·r / Σm.
#[must_use]
pub fn weigh(parts: impl Iterator<Item = (f64, Vec3)>) -> Mass {
    let (mass, moment) = parts.fold((0.0, Vec3::ZERO), |(m, s), (mass, at)| (m + mass, s + at * mass));
    Mass { mass, centre: if mass > 0.0 { moment * (1.0 / mass) } else { Vec3::ZERO } }
}

const SUM: &str = "statics: the sum of the parts";
const M: Dimension = Dimension::MASS;

pub(crate) fn figures(chair: &Mass, frame: &Mass, wheels: &Mass, out: &mut Figures) {
    out.put("mass.frame", (frame.mass, M), "members + fittings + panels + boxes + their fasteners", SUM, &[]);
    out.put("mass.wheels.rear", (wheels.mass, M), "the fixed wheels", SUM, &[]);
    let inputs = [("mass.frame", frame.mass, M), ("mass.wheels.rear", wheels.mass, M)];
    out.put("mass.chair", (chair.mass, M), "everything but the rider", SUM, &inputs);
}

/// What the built chair was found to weigh, in the place of the plan: the most that its readings leave open, in every figure
/// that counts on it.
pub(crate) fn as_built(design: &Design, out: &mut Figures) {
    let Some(plan) = out.si("mass.chair") else { return };
    let Some(measured) = readings(design).and_then(|b| reading(b, "mass", Some(plan))) else { return };
    let (chair, by) = (measured.high, measured.high - plan);
    let inputs = [("as planned", plan, M)];
    out.put("mass.chair", (chair, M), "as measured on the built chair", SUM, &inputs);
    if let Some(total) = out.si("mass.total") {
        let inputs = [("as planned", total, M), ("the built chair heavier by", by, M)];
        out.put("mass.total", (total + by, M), "as planned + what the built chair is heavier", SUM, &inputs);
    }
}

pub(crate) fn rider_figures(design: &Design, rider: &RiderBody, total: &Mass, chair: &Mass, out: &mut Figures) {
    let formula = "as declared in the rider block, and prostheses that are worn";
    out.put("mass.rider", (rider.mass, M), formula, "the design", &[]);
    let carried: f64 = design.carried.iter().map(|c| c.mass).sum();
    if carried > 0.0 {
        out.put("mass.carried", (carried, M), "what rides along, together", SUM, &[]);
    }
    let inputs = [("mass.chair", chair.mass, M), ("mass.rider", rider.mass, M), ("carried", carried, M)];
    let inputs = if carried > 0.0 { &inputs[..] } else { &inputs[..2] };
    out.put("mass.total", (total.mass, M), "mass.chair + mass.rider + what rides along", SUM, inputs);
}
