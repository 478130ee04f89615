//! Wood Handbook and ASTM D245: from means of clear wood to what may be used.

use super::common::{MPA, PSI, near};
use chairwright_resistance::wood::{
    Basis, Board, Centre, Duration, Property, Service, Warmth, allowable, density, fifth_percentile,
    modulus_by_deflection, notched_shear, proof_stress, rectangle_shear,
};
use chairwright_resistance::{Assumed, Mode};

const YEARS: Service = Service { duration: Duration::TenYears, wet: false, warmth: Warmth::Usual };

/// By hand for Douglas fir: 12 400 psi × (1 − 1.645 × 0.16) = 9 136 psi.
#[test]
fn lower_bound() {
    near(fifth_percentile(12_400.0 * PSI, 0.16).unwrap() / PSI, 9136.3, 0.1);
    // Shear by hand: 7.8 × (1 − 1.645 × 0.14) = 6.004 MPa.
    near(fifth_percentile(7.8 * MPA, Property::Shear.variation()).unwrap() / MPA, 6.004, 5e-4);
}

/// ASTM D245 divides the lower bound in bending by 2.1 for ten years (from memory): 1.6 × 1.3 = 2.08.
#[test]
fn divisor_of_d245() {
    let basis = Basis::ClearMean { mean: 12_400.0 * PSI, strength_ratio: 1.0, safety: 1.3 };
    let a = allowable(Property::Bending, basis, YEARS).unwrap();
    near(9136.3 / (a.value / PSI), 2.1, 0.025);
    assert!(a.assumed.contains(&Assumed::ClearWood));
    // Knots that leave 0.6 leave 0.6 of it; for ten minutes it is 1.6 times as much.
    let knots = Basis::ClearMean { mean: 12_400.0 * PSI, strength_ratio: 0.6, safety: 1.3 };
    near(allowable(Property::Bending, knots, YEARS).unwrap().value / a.value, 0.6, 1e-12);
    let minutes = Service { duration: Duration::TenMinutes, wet: false, warmth: Warmth::Usual };
    near(allowable(Property::Bending, basis, minutes).unwrap().value / a.value, 1.6, 1e-12);
}

/// The same lower bound given by itself: the same allowable.
#[test]
fn a_tested_lower_value() {
    let low = Basis::TestedLow { low: 33.7 * MPA, safety: 2.0 };
    // By hand for a panel: 33.7 / 1.6 / 2 = 10.53 MPa; wet 0.85 of it.
    near(allowable(Property::Bending, low, YEARS).unwrap().value / MPA, 10.53, 0.005);
    near(allowable(Property::Bending, low, Service { wet: true, ..YEARS }).unwrap().value / MPA, 8.95, 0.005);
}

/// A published design value has its safety inside: 900 psi × 1.15 = 1035 psi. A modulus knows no duration.
#[test]
fn design_values() {
    let months = Service { duration: Duration::TwoMonths, wet: false, warmth: Warmth::Usual };
    near(allowable(Property::Bending, Basis::Design(900.0 * PSI), months).unwrap().value / PSI, 1035.0, 1e-6);
    near(allowable(Property::Modulus, Basis::Design(1.6e6 * PSI), months).unwrap().value / PSI, 1.6e6, 1e-3);
}

#[test]
fn duration_classes() {
    let printed = [0.9, 1.0, 1.15, 1.25, 1.6, 2.0];
    let all = [
        Duration::Permanent,
        Duration::TenYears,
        Duration::TwoMonths,
        Duration::SevenDays,
        Duration::TenMinutes,
        Duration::Impact,
    ];
    for (d, f) in all.into_iter().zip(printed) {
        near(d.factor(), f, 0.0);
    }
    assert_eq!(Duration::of_seconds(1.0), Duration::TenMinutes);
    assert_eq!(Duration::of_seconds(86_400.0), Duration::SevenDays);
    assert_eq!(Duration::of_seconds(1e8), Duration::TenYears);
    assert_eq!(Duration::of_seconds(-1.0), Duration::Permanent);
    assert_eq!(Duration::of_seconds(f64::NAN), Duration::Permanent);
}

/// By hand: a board of 38 × 89 mm laid flat on 1.2 m, 20 kg (196.133 N) at the middle bends it by 1.75 mm:
/// I = 89 × 38³/12 = 406 967 mm⁴, E = 196.133 × 1.728e9 / (48 × 406 967 × 1.75) = 9 914 MPa.
#[test]
fn a_board_by_test() {
    let board = Board { span: 1.2, width: 0.089, height: 0.038 };
    let e = modulus_by_deflection(&board, Centre { force: 196.133, deflection: 0.00175 }).unwrap();
    near(e.value / MPA, 9914.0, 1.0);
    assert!(
        modulus_by_deflection(&Board { span: 0.4, ..board }, Centre { force: 100.0, deflection: 0.001 })
            .is_err()
    );
    // 2.0 kg over 1.2 × 0.089 × 0.038 m: 492.8 kg/m³.
    near(density(2.0, [1.2, 0.089, 0.038]).unwrap(), 492.8, 0.05);
    // Proof by 1 000 N: M 300 N·m over Z 21 419 mm³ = 14.006 MPa; / 2 / 1.6 for ten years = 4.377 MPa.
    near(proof_stress(&board, 1000.0, YEARS, 2.0).unwrap().value / MPA, 4.377, 0.001);
    // An impact is not proven by a load that stood: no more than the proof itself.
    let blow = Service { duration: Duration::Impact, wet: false, warmth: Warmth::Usual };
    near(proof_stress(&board, 1000.0, blow, 2.0).unwrap().value / MPA, 7.003, 0.001);
}

/// By hand: 38 × 89 mm at 1.0 MPa: 3382/1.5 = 2 254.7 N. Notched by a quarter: 2/3 × 38 × 66.75 × (0.75)² = 951.2 N.
#[test]
fn shear() {
    near(rectangle_shear(0.038 * 0.089, 1e6).unwrap().value, 2254.7, 0.05);
    let notched = notched_shear(0.038, 0.089, 0.75 * 0.089, 1e6).unwrap();
    near(notched.value, 951.2, 0.05);
    assert_eq!(notched.mode, Mode::NetSection);
    assert!(notched_shear(0.038, 0.089, 0.7 * 0.089, 1e6).is_err());
}
