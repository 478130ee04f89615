//! Impact factors: strength of materials; steps: statics about the edge. Figures of the job's own computation.

use super::common::near;
use chairwright_resistance::shock::{GRAVITY, blow, climb, fall};

#[test]
fn falls() {
    for (h, d, printed) in
        [(0.0, 1.0, 2.0), (4.0, 1.0, 4.0), (50.0, 10.0, 4.317), (50.0, 5.0, 5.583), (50.0, 2.0, 8.141)]
    {
        near(fall(h, d).unwrap(), printed, 5e-4);
    }
    // 84 kg from 50 mm on 100, 250 and 400 N/mm: 4.6, 6.6, 8.0.
    for (stiffness, printed) in [(100e3, 4.6), (250e3, 6.6), (400e3, 8.0)] {
        near(fall(0.05, 84.0 * GRAVITY / stiffness).unwrap(), printed, 0.05);
    }
    assert!(fall(-0.01, 0.01).is_err() && fall(0.01, 0.0).is_err() && fall(f64::NAN, 1.0).is_err());
}

/// By hand: 1 m/s on 1.0197 cm: √(9.80665 × 0.010197) = 0.31623, factor 3.162.
#[test]
fn blows() {
    near(blow(1.0, 0.1 / GRAVITY).unwrap(), 10.0_f64.sqrt(), 1e-12);
    assert!(blow(f64::NAN, 0.01).is_err());
}

/// A step of 20 mm: 0.93 of the load for a wheel of 150 mm, 1.33 for 100, 1.90 for 75.
#[test]
fn steps() {
    for (diameter, printed) in [(0.150, 0.93), (0.100, 1.33), (0.075, 1.90)] {
        near(climb(diameter / 2.0, 0.020).unwrap(), printed, 0.005);
    }
    assert!(climb(0.05, 0.05).is_err() && climb(0.05, 0.06).is_err());
    near(climb(0.05, 0.0).unwrap(), 0.0, 0.0);
}
