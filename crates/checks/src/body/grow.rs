//! The rider some months on.
//!
//! Lengths grow in proportion to stature, mass with its square (a steady body-mass index); both are a builder's guess
//! between two measurings, and say so.

use crate::assumed::Assumed;
use chairwright_design::Rider;
use chairwright_quantity::Dimension;

/// Growth of a child of two years and more in metres a year where nobody measured it: about 6 cm until the spurt, by trade
/// articles on growth.
const YEARLY: f64 = 0.06;
/// Age from which nobody is taken to grow, in seconds: 18 years.
const GROWN_UP: f64 = 18.0 * YEAR;
const YEAR: f64 = 31_557_600.0;
/// What a measure is, as far as growth goes.
enum Kind {
    /// It grows with stature.
    Length,
    /// The body's own mass grows with its square.
    Mass,
    /// Forces, angles, times, and what is worn: it stays.
    Steady,
}

fn kind(name: &str) -> Kind {
    let plain = name.split('.').next().unwrap_or(name);
    match plain {
        "mass" => Kind::Mass,
        "liked_seat_height"
        | "prosthesis_mass"
        | "arm_prosthesis_mass"
        | "push_force"
        | "age"
        | "grown"
        | "after"
        | "ankle"
        | "pelvis_tilt" => Kind::Steady,
        "hip_flexion" | "knee_flexion" | "lean_forward" | "lean_back" | "lean_side" => Kind::Steady,
        _ => Kind::Length,
    }
}

/// The measures of a rider that grow, in metres and kilograms.
pub fn grown(rider: &Rider) -> impl Iterator<Item = (&str, f64, Dimension)> {
    rider.measures.iter().filter_map(|(name, value)| match kind(name) {
        Kind::Length => Some((name.as_str(), *value, Dimension::LENGTH)),
        Kind::Mass => Some((name.as_str(), *value, Dimension::MASS)),
        Kind::Steady => None,
    })
}

/// How a rider grows.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Growth {
    /// Stature now, in metres.
    pub stature: f64,
    /// Stature gained in a year.
    pub yearly: f64,
}

impl Growth {
    /// How this rider grows; `None` for somebody grown up or of unknown age who is not said to grow.
    #[must_use]
    pub fn of(rider: &Rider) -> Option<Growth> {
        let stature = rider.get("stature")?;
        let child = rider.get("age").is_some_and(|a| a < GROWN_UP);
        let yearly = rider.get("grown").or(child.then_some(YEARLY))?;
        Some(Growth { stature, yearly })
    }

    /// By what lengths are multiplied after a time in seconds.
    #[must_use]
    pub fn factor(&self, after: f64) -> f64 {
        1.0 + self.yearly * after / YEAR / self.stature
    }

    /// The time in seconds until lengths are multiplied by `factor`.
    #[must_use]
    pub fn until(&self, factor: f64) -> f64 {
        (factor - 1.0) * self.stature / self.yearly * YEAR
    }
}

/// Makes the rider as old as the state under look says (`rider.after`).
pub fn grow(rider: &mut Rider, assumptions: &mut Vec<Assumed>) {
    let Some(after) = rider.get("after").filter(|a| *a > 0.0) else { return };
    let months = after / (YEAR / 12.0);
    let Some(growth) = Growth::of(rider) else {
        assumptions.push(Assumed::StaysAsOld(months));
        return;
    };
    let k = growth.factor(after);
    // what is above a seat grows, and not the seat that it was measured on
    let grows = |head: f64, seat: f64| seat + (head - seat) * k;
    let head = rider.get("head_height").zip(rider.get("liked_seat_height")).map(|(h, s)| grows(h, s));
    let stated = rider.stated.clone();
    for (name, value) in rider.measures.iter_mut().filter(|(name, _)| !stated.contains(*name)) {
        match kind(name) {
            Kind::Length => *value *= k,
            Kind::Mass => *value *= k * k,
            Kind::Steady if name == "age" => *value += after,
            Kind::Steady => {}
        }
    }
    let head = head.filter(|_| !stated.contains("head_height"));
    if let (Some(head), Some(value)) = (head, rider.measures.get_mut("head_height")) {
        *value = head;
    }
    let as_last_year = rider.get("grown").is_some();
    assumptions.push(Assumed::Grows { months, yearly: growth.yearly, as_last_year });
}
