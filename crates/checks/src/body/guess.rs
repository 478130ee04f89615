//! What stature stands for where nobody measured, and how far from it people of one stature lie.
//!
//! The table of segments gives no spread. Where it can be had it is worked out from the published percentiles of grown people (ANSUR
//! II: 4082 men, 1986 women, seated): half of what lies between the 5th and the 95th, as a share of the middle, less the share
//! of stature itself (6.3 % men, 6.6 % women), square by square, for a length that goes with stature. So nine of ten lie within
//! it. Soldiers, neither children nor old people, whose bodies differ more: it is the least to be doubted, no bound.

use crate::assumed::{Assumed, once};
use chairwright_design::Rider;

/// By the measure: how far it may be off, as a share of what stature says of it.
const SPREAD: [(&str, f64); 8] = [
    // buttock to knee less the thigh's segment: the medians of women lie 15 % further ahead of the back than those of men
    ("hip_ahead", 0.15),
    // no source: taken as large as the other of the hip joint
    ("hip_above", 0.15),
    // hip joint to shoulder: sitting height 6.4 % of men and women, of which stature leaves no more than a few; common practice, no source
    ("shoulder_height", 0.05),
    // buttock to hollow of the knee: 8.9 % of men, 9.7 % of women: 6.2 and 7.1 % at one stature
    ("thigh", 0.07),
    // hollow of the knee to floor: 9.4 and 10.1 %: 7.0 and 7.6 %
    ("calf", 0.07),
    // foot: 7.9 and 8.5 %: 4.8 and 5.4 %
    ("foot_length", 0.05),
    // breadths: across the shoulders' muscles 10.6 and 10.3 %: 8.5 and 7.9 %; of the foot taken as that
    ("foot_width", 0.08),
    ("shoulder_width", 0.08),
];

/// Measures that stature may stand for.
pub fn guessed() -> impl Iterator<Item = &'static str> {
    SPREAD.iter().map(|s| s.0)
}

/// How far what stature says of a measure may be off, in metres.
fn spread(measure: &str, value: f64) -> f64 {
    SPREAD.iter().find(|(m, _)| *m == measure).map_or(0.0, |(_, share)| share * value)
}

/// What stature says of a measure, and of what is `beside` it in the measure as a builder takes it; told, and at the value that is tried.
pub(crate) fn guess(
    rider: &Rider,
    measure: &'static str,
    (value, beside): (f64, f64),
    stature: f64,
    assumptions: &mut Vec<Assumed>,
) -> f64 {
    let spread = spread(measure, value);
    let value = rider.at_trial(measure, value);
    let taken = value + beside;
    once(Assumed::Estimate { measure, value: taken, of_stature: taken / stature, spread }, assumptions);
    value
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ANSUR II, hollow of the knee to floor, men 390, 430 and 471 mm, of a stature of 1648, 1755 and 1870: half of each span over
    /// its middle is 9.42 and 6.33 %, and √(9.42² - 6.33²) = 6.98 %.
    #[test]
    fn what_stature_leaves_of_a_spread() {
        let half = |low: f64, middle: f64, high: f64| (high - low) / 2.0 / middle;
        let (calf, stature) = (half(390.0, 430.0, 471.0), half(1648.0, 1755.0, 1870.0));
        assert!(((calf * calf - stature * stature).sqrt() - spread("calf", 1.0)).abs() < 5e-4);
    }
}
