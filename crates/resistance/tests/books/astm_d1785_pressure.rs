//! ASTM D1785: sizes and pressure ratings of PVC pipe; design stress 2000 psi (trade note on HDS).

use super::common::{INCH, PSI, near};
use chairwright_resistance::pvc::{design_stress, pressure_rating};

/// Outside diameter, least wall of schedule 40 and 80 in inches; printed ratings of both in psi; schedule 80 as a second
/// table prints it, not rounded to tens.
const PIPES: [[f64; 6]; 8] = [
    [0.840, 0.109, 0.147, 600.0, 850.0, 848.0],
    [1.050, 0.113, 0.154, 480.0, 690.0, 688.0],
    [1.315, 0.133, 0.179, 450.0, 630.0, 630.0],
    [1.660, 0.140, 0.191, 370.0, 520.0, 520.0],
    [1.900, 0.145, 0.200, 330.0, 470.0, 471.0],
    [2.375, 0.154, 0.218, 280.0, 400.0, 404.0],
    [2.875, 0.203, 0.276, 300.0, 420.0, 425.0],
    [3.500, 0.216, 0.300, 260.0, 370.0, 375.0],
];

#[test]
fn ratings() {
    for [outer, wall40, wall80, printed40, printed80, exact80] in PIPES {
        let rating = |wall: f64| pressure_rating(2000.0 * PSI, wall * INCH, outer * INCH).unwrap() / PSI;
        // D1785 rounds to tens, at two places down rather than to the nearest: less than 10 apart.
        near(rating(wall40), printed40, 6.0);
        near(rating(wall80), printed80, 6.0);
        near(rating(wall80), exact80, 1.0);
        let back = design_stress(rating(wall40) * PSI, wall40 * INCH, outer * INCH).unwrap() / PSI;
        near(back, 2000.0, 1e-6);
    }
}

#[test]
fn impossible_pipe_is_refused() {
    assert!(pressure_rating(13.8e6, 0.03, 0.05).is_err());
    assert!(pressure_rating(13.8e6, 0.0, 0.05).is_err());
    assert!(pressure_rating(f64::NAN, 0.003, 0.05).is_err());
}
