//! The AISC's benchmarks of second-order analysis (W14x48: E 29 000 ksi, I 484 in⁴, 28 ft; kip and inch), by the closed
//! forms of beam-columns; bending only. Figures as re-run by an independent frame program.

use super::common::near;
use chairwright_resistance::column::{Ends, amplification, cantilever_amplified, euler, simple_beam_amplified};

const EI: f64 = 29_000.0 * 484.0;
const LENGTH: f64 = 336.0;

/// Case 1: hinged at both ends, 0.20 kip/ft across.
#[test]
fn simple_column() {
    let w = 0.20 / 12.0;
    let (m0, d0) = (w * LENGTH * LENGTH / 8.0, 5.0 * w * LENGTH.powi(4) / (384.0 * EI));
    let printed =
        [(0.0, 235.2, 0.1971), (150.0, 268.9, 0.2246), (300.0, 313.5, 0.2611), (450.0, 375.4, 0.3116)];
    for (push, moment, deflection) in printed {
        let a = simple_beam_amplified(EI, LENGTH, push).unwrap();
        // Half of the last digit, doubled for the program's own pieces.
        near(a.moment * m0, moment, 0.1);
        near(a.deflection * d0, deflection, 1e-4);
    }
}

/// Case 2: cantilever, 1 kip across its tip.
#[test]
fn cantilever() {
    let d0 = LENGTH.powi(3) / (3.0 * EI);
    let printed =
        [(0.0, 336.0, 0.9009), (100.0, 469.1, 1.3307), (150.0, 598.7, 1.7510), (200.0, 849.0, 2.5649)];
    for (push, moment, deflection) in printed {
        let a = cantilever_amplified(EI, LENGTH, push).unwrap();
        near(a.moment * LENGTH, moment, 0.1);
        near(a.deflection * d0, deflection, 2e-4);
    }
}

/// Euler's column: the load at which both closed forms grow without bound, and the usual approximation near them.
#[test]
fn near_buckling() {
    let simple = euler(EI, LENGTH, Ends::Pinned).unwrap().value;
    let free = euler(EI, LENGTH, Ends::Factor(2.0)).unwrap().value;
    // π² × 29 000 × 484 / 336² = 1 227.06 kip by hand; a cantilever a quarter of it.
    near(simple, 1227.06, 0.01);
    near(free, simple / 4.0, 1e-9);
    assert!(
        simple_beam_amplified(EI, LENGTH, simple).is_err() && cantilever_amplified(EI, LENGTH, free).is_err()
    );
    // 1/(1 − P/Pe) overrates the deflection of the simple beam by less than 1 % (known of an even load).
    for push in [100.0, 400.0, 800.0] {
        let exact = simple_beam_amplified(EI, LENGTH, push).unwrap().deflection;
        near(amplification(push, simple, 1.0).unwrap() / exact, 1.0, 0.01);
    }
    assert!(amplification(simple, simple, 1.0).unwrap().is_infinite());
}
