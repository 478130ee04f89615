//! NDS 3.7 and 3.9: columns of sawn lumber, and bending with push or pull. Hand calculations.

use super::common::{PSI, near};
use chairwright_resistance::Mode;
use chairwright_resistance::column::{wood_column, wood_euler};
use chairwright_resistance::wood::{Stresses, bent_and_pressed, bent_and_pulled};

/// Where the critical stress equals the crushing stress: Cp = 1.25 − √(1.5625 − 1.25) = 0.6910.
#[test]
fn stability_factor() {
    let modulus = 580_000.0 * PSI;
    let critical = wood_euler(modulus, 20.0).unwrap();
    // 0.822 × 580 000 / 400 = 1 191.9 psi.
    near(critical / PSI, 1191.9, 0.05);
    near(wood_column(critical, modulus, 20.0).unwrap().value / critical, 0.6910, 5e-5);
    // Stocky: nearly all of it; slender: nearly the critical stress.
    near(wood_column(1000.0 * PSI, modulus, 3.0).unwrap().value / PSI, 1000.0, 10.0);
    near(wood_column(1e6 * PSI, modulus, 50.0).unwrap().value / PSI, 190.7, 0.1);
    assert!(wood_column(1000.0 * PSI, modulus, 50.1).is_err());
}

/// fc/Fc 0.5, fb/Fb 0.3 with fc/FcE 0.25, second axis 0.2 with 0.5: 0.25 + 0.3/0.75 + 0.2/0.5 = 1.05.
#[test]
fn pressed() {
    let on = Stresses { axial: -500.0, bending: [300.0, -200.0] };
    let i = bent_and_pressed(on, 1000.0, [1000.0; 2], [2000.0, 1000.0]).unwrap();
    near(i.used, 1.05, 1e-12);
    assert_eq!(i.mode, Mode::Bending);
    assert!(bent_and_pressed(on, 1000.0, [1000.0; 2], [2000.0, 500.0]).unwrap().used.is_infinite());
    assert!(bent_and_pressed(Stresses { axial: f64::NAN, ..on }, 1.0, [1.0; 2], [1.0; 2]).is_err());
}

/// 0.5 + 0.3 + 0.2 = 1.
#[test]
fn pulled() {
    let on = Stresses { axial: 500.0, bending: [-300.0, 200.0] };
    let even = bent_and_pulled(on, 1000.0, [1000.0; 2]).unwrap();
    near(even.used, 1.0, 1e-12);
    assert_eq!(even.mode, Mode::Bending);
    let pulled = bent_and_pulled(Stresses { axial: 600.0, ..on }, 1000.0, [1000.0; 2]).unwrap();
    assert_eq!(pulled.mode, Mode::Tension);
    let bent = bent_and_pulled(Stresses { axial: 100.0, ..on }, 1000.0, [1000.0; 2]).unwrap();
    assert_eq!(bent.mode, Mode::Bending);
}
