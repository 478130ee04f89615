//! Buried Pipe Design: N = 5.05e21 × (psi)^−4.906; published comparisons of fatigue life: 200 000 cycles and 6 666 drops.

use super::common::{MPA, PSI, near};
use chairwright_resistance::pvc::{Block, Life, combined, cycles, equivalent_cycles, life, repeated_stress};

/// By hand: 2000 psi: log10 N = 21.7033 − 4.906 × 3.30103 = 5.5084, N = 322 400; four digits of the logarithm.
#[test]
fn by_logarithms() {
    near(libm::log10(cycles(2000.0 * PSI).unwrap()), 5.5084, 2e-4);
}

/// The job's own figure: about 15 MPa for 200 000 cycles, printed to two digits.
#[test]
fn fifteen_megapascals() {
    near(repeated_stress(200_000.0, 1.0).unwrap() / MPA, 15.0, 0.5);
}

#[test]
fn standard_life() {
    // 200 000 + 30 × 6 666.
    near(equivalent_cycles(200_000.0, 6_666.0).unwrap(), 399_980.0, 0.0);
}

#[test]
fn band() {
    let plain = repeated_stress(200_000.0, 1.0).unwrap();
    let band = life(plain, (1.0, 2.0)).unwrap();
    let Life::About(best) = band.best else { panic!("{:?}", band.best) };
    near(best, 200_000.0, 1.0);
    // A notch of 2 takes 2^4.906 = 30.0 of the life away: 6 670 cycles; the power by hand to three digits.
    let Life::About(worst) = band.worst else { panic!("{:?}", band.worst) };
    near(best / worst, 30.0, 0.1);
    // Neither promised beyond what the fit is known for, nor below it.
    assert_eq!(life(1.0 * MPA, (1.0, 1.0)).unwrap().worst, Life::AtLeast(1e7));
    assert_eq!(life(49.0 * MPA, (1.0, 1.0)).unwrap().best, Life::Below(1e3));
    assert!(
        life(plain, (2.0, 1.0)).is_err()
            && life(plain, (0.5, 1.0)).is_err()
            && life(f64::NAN, (1.0, 1.0)).is_err()
    );
    assert!(repeated_stress(1e9, 1.0).is_err());
}

#[test]
fn no_counts_of_cycles() {
    for odd in [-1.0, f64::NAN, f64::INFINITY] {
        assert!(equivalent_cycles(odd, 0.0).is_err() && equivalent_cycles(0.0, odd).is_err());
    }
}

/// By logarithms: 2000 psi: 10^(21.70329 − 4.906 × 3.30103) = 322 432 cycles; 1500 psi: 10^(21.70329 − 4.906 × 3.17609)
/// = 1 322 480. 100 000 and 400 000 of them use 0.3101 + 0.3025 = 0.6126; a notch of 2 uses 30.0 times that.
#[test]
fn loads_of_two_sizes() {
    let block = |psi: f64, cycles| Block { peak: psi * PSI, cycles };
    let both = [block(2000.0, 1e5), block(1500.0, 4e5)];
    let used = combined(&both, (1.0, 2.0)).unwrap();
    near(used.best, 0.6126, 2e-4);
    near(used.worst / used.best, 30.0, 0.1);
    // 1 MPa lasts longer than the fit is known for: 10^6 of them count against its last 10^7.
    near(combined(&[Block { peak: MPA, cycles: 1e6 }], (1.0, 1.0)).unwrap().worst, 0.1, 1e-12);
    // 49 MPa lasts shorter than it is known for: not one can be told to hold, and none asks nothing.
    assert!(combined(&[Block { peak: 49.0 * MPA, cycles: 1.0 }], (1.0, 1.0)).unwrap().best.is_infinite());
    near(combined(&[Block { peak: 49.0 * MPA, cycles: 0.0 }], (1.0, 1.0)).unwrap().best, 0.0, 0.0);
    assert!(combined(&[], (1.0, 1.0)).is_err() && combined(&both, (2.0, 1.0)).is_err());
    assert!(combined(&[block(f64::NAN, 1.0)], (1.0, 1.0)).is_err());
    assert!(combined(&[block(2000.0, -1.0)], (1.0, 1.0)).is_err());
}
