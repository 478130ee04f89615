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
/// Riders of unknown age below this stature may be children, in metres. From memory, not checked: about the shortest
/// twentieth of those of fourteen.
const SMALL: f64 = 1.50;
/// A year in seconds, the Julian one.
pub(crate) const YEAR: f64 = 31_557_600.0;
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
        "hip_flexion" | "knee_flexion" | "shoulder_extension" | "lean_forward" | "lean_back" | "lean_side" => {
            Kind::Steady
        }
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
    /// Time in seconds until the rider is grown up; without end where nobody says how old the rider is.
    pub left: f64,
}

impl Growth {
    /// How this rider grows; `None` for somebody grown up, whatever is said of the last year, or of unknown age who is not said to
    /// grow.
    #[must_use]
    pub fn of(rider: &Rider) -> Option<Growth> {
        let stature = rider.get("stature")?;
        let left = rider.get("age").map(|a| GROWN_UP - a);
        if left.is_some_and(|left| left <= 0.0) {
            return None;
        }
        let yearly = rider.get("grown").or(left.map(|_| YEARLY))?;
        Some(Growth { stature, yearly, left: left.unwrap_or(f64::INFINITY) })
    }

    /// By what lengths are multiplied after a time in seconds; nobody grows once grown up.
    #[must_use]
    pub fn factor(&self, after: f64) -> f64 {
        1.0 + self.yearly * after.min(self.left) / YEAR / self.stature
    }

    /// The time in seconds until lengths are multiplied by `factor`; without end where that is after growing up.
    #[must_use]
    pub fn until(&self, factor: f64) -> f64 {
        let after = (factor - 1.0) * self.stature / self.yearly * YEAR;
        if after > self.left { f64::INFINITY } else { after }
    }
}

/// Whether a rider whose age nobody says may be a child.
pub(crate) fn small(rider: &Rider) -> bool {
    rider.get("stature").is_none_or(|stature| stature < SMALL)
}

/// Whether a later day is looked at and nobody says how the rider grows until then: neither age nor the growth of the last year. No
/// stature tells, for those of fifteen are as tall as many a grown-up.
pub(crate) fn unsaid(rider: &Rider) -> bool {
    let given = |measure: &str| rider.get(measure).is_some();
    rider.get("after").is_some_and(|after| after > 0.0) && !given("age") && !given("grown")
}

/// Makes the rider as old as the state under look says (`rider.after`).
pub fn grow(rider: &mut Rider, assumptions: &mut Vec<Assumed>) {
    let Some(after) = rider.get("after").filter(|a| *a > 0.0) else { return };
    let months = after / (YEAR / 12.0);
    let Some(growth) = Growth::of(rider) else {
        // of whom nobody knows whether they grow a measure is missing, and that is told with the chair
        if rider.get("age").is_some_and(|age| age >= GROWN_UP) {
            assumptions.push(Assumed::StaysAsOld(months));
        }
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
    if after > growth.left {
        assumptions.push(Assumed::GrownUpBy { months: growth.left / (YEAR / 12.0) });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn child(years: f64, grown: Option<f64>) -> Rider {
        let mut rider = Rider::default();
        let all = [("stature", 1.16), ("age", years * YEAR), ("thigh", 0.35), ("mass", 22.0)];
        rider.measures.extend(all.into_iter().map(|(k, v)| (k.to_owned(), v)));
        rider.measures.extend(grown.map(|g| ("grown".to_owned(), g)));
        rider
    }

    /// By hand: 7 years old and 58 mm a year, 24 years on: it grows for 11 years, 638 mm: 1.16 m becomes 1.798 m, and the mass
    /// goes with the square of 1.55: 22 kg x 2.4025 = 52.855 kg.
    #[test]
    fn nobody_grows_beyond_eighteen() {
        let mut rider = child(7.0, Some(0.058));
        rider.measures.insert("after".to_owned(), 24.0 * YEAR);
        let mut said = Vec::new();
        grow(&mut rider, &mut said);
        assert!((rider.get("stature").unwrap() - 1.798).abs() < 1e-9, "{:?}", rider.get("stature"));
        assert!((rider.get("mass").unwrap() - 52.855).abs() < 1e-9);
        assert!(
            said.iter().any(|a| matches!(a, Assumed::GrownUpBy { months } if (months - 132.0).abs() < 1e-9))
        );
    }

    /// Nobody says how old the rider is: the measures stay and nothing is called certain, until an age or last year's growth is said.
    #[test]
    fn growth_that_nobody_tells_of_is_not_taken_for_none() {
        let mut rider = child(7.0, None);
        rider.measures.remove("age");
        assert!(!unsaid(&rider));
        rider.measures.insert("after".to_owned(), 2.0 * YEAR);
        let mut said = Vec::new();
        grow(&mut rider, &mut said);
        assert!(unsaid(&rider) && said.is_empty(), "{said:?}");
        rider.measures.insert("grown".to_owned(), 0.0);
        assert!(!unsaid(&rider));
    }

    /// Thirty years old: whatever is said of the last year, no more.
    #[test]
    fn a_grown_up_rider_does_not_grow() {
        assert!(Growth::of(&child(30.0, Some(0.058))).is_none());
        assert!(Growth::of(&child(17.0, None)).is_some());
    }
}
