//! Withdrawal tables after the NDS, and the Wood Handbook's formulas.

use super::common::{INCH, LBF, allowed, near};
use chairwright_resistance::Never;
use chairwright_resistance::spacing::{bite, lead_hole};
use chairwright_resistance::withdrawal::{Fastener, Into, reference, ultimate, with_shear, withdrawal};
use chairwright_resistance::wood::{Duration, Service, Warmth};

const PER_INCH: f64 = LBF / INCH;
const YEARS: Service = Service { duration: Duration::TenYears, wet: false, warmth: Warmth::Usual };

#[test]
fn reference_values() {
    // 20d nail, diameter printed as 0.203 in that table, G 0.45: 38 lb/in (38.05 exactly).
    near(reference(Fastener::Nail, 0.45, 0.203 * INCH).unwrap() / PER_INCH, 38.0, 0.5);
    // No. 10 screw, G 0.45: the table cuts 109.65 off to 109.
    near(reference(Fastener::WoodScrew, 0.45, 0.190 * INCH).unwrap() / PER_INCH, 109.65, 0.005);
    // No. 10 in spruce of G 0.42: 16.7 N/mm (the job's figure).
    near(reference(Fastener::WoodScrew, 0.42, 0.190 * INCH).unwrap() / 1e3, 16.7, 0.05);
    // Lag of 3/8 in, G 0.50: NDS table prints 305 lb/in (from memory).
    near(reference(Fastener::Lag, 0.50, 0.375 * INCH).unwrap() / PER_INCH, 305.0, 0.6);
}

/// Wood Handbook: the metric coefficients 54.12 and 108.25 (N, mm) belong to 7850 and 15 700 (lb, in).
#[test]
fn ultimate_values() {
    let nail = ultimate(Fastener::Nail, 0.5, 0.003).unwrap().unwrap() / 1e3;
    near(nail, 54.12 * 0.25 * 0.5_f64.sqrt() * 3.0, 0.01);
    let screw = ultimate(Fastener::WoodScrew, 0.5, 0.005).unwrap().unwrap() / 1e3;
    near(screw, 108.25 * 0.25 * 5.0, 0.01);
    assert_eq!(ultimate(Fastener::Lag, 0.5, 0.01), Ok(None));
}

#[test]
fn whole_fastener() {
    // By hand: 109.65 lb/in × 1.5 in = 164.5 lb; end grain and panel edges carry nothing.
    let of = |into| withdrawal(Fastener::WoodScrew, 0.45, 0.190 * INCH, 1.5 * INCH, into, YEARS);
    near(of(Into::SideGrain).unwrap().value / LBF, 164.5, 0.05);
    assert_eq!(of(Into::EndGrain), Err(Never::EndGrainWithdrawal.into()));
    assert_eq!(of(Into::PanelEdge), Err(Never::PanelEdgeWithdrawal.into()));
    let wet_nail = Service { wet: true, ..YEARS };
    let wet = withdrawal(Fastener::Nail, 0.45, 0.203 * INCH, 1.0 * INCH, Into::SideGrain, wet_nail).unwrap();
    // A quarter of 38.05 lb.
    near(wet.value / LBF, 9.51, 0.01);
}

/// Two thirds of the screw in the second piece; lead holes of 70 and 90 % of the root.
#[test]
fn bite_and_lead() {
    let b = bite(0.048, 0.016, 0.038).unwrap();
    near(b.share, 2.0 / 3.0, 1e-12);
    assert!(b.two_thirds && b.pokes_out == 0.0);
    let thick = bite(0.048, 0.018, 0.038).unwrap();
    assert!(!thick.two_thirds);
    let out = bite(0.060, 0.018, 0.038).unwrap();
    near(out.pokes_out, 0.004, 1e-12);
    near(out.penetration, 0.038, 1e-12);
    near(lead_hole(0.0030, false), 0.0021, 1e-12);
    near(lead_hole(0.0030, true), 0.0027, 1e-12);
}

/// NDS 11.4 by hand, load at 45° (from memory). Screw that carries 100 N either way: 100² / (100/2 + 100/2) = 100 N; nail:
/// 100² / (2 × 100 × 0.7071) = 70.71 N. Screw, 100 N aside and 500 N out: 50 000 / (500/2 + 100/2) = 166.7 N, but
/// 141.4 N already put its 100 N aside.
#[test]
fn aslant() {
    let (hundred, much) = (allowed(100.0), allowed(500.0));
    let at = |load: f64, f, pull| {
        let part = load * 0.5_f64.sqrt();
        with_shear(f, (part, pull), (-part, &hundred)).0
    };
    near(at(100.0, Fastener::WoodScrew, &hundred), 1.0, 1e-12);
    near(at(100.0, Fastener::Lag, &hundred), 1.0, 1e-12);
    near(at(70.7107, Fastener::Nail, &hundred), 1.0, 1e-5);
    // 20 N of 100 and of 500 by a screw: 0.1414 of each part; 20/166.7 = 0.12 by the rule.
    near(at(20.0, Fastener::WoodScrew, &much), 0.1414, 5e-5);
    near(at(141.4214, Fastener::WoodScrew, &much), 1.0, 1e-5);
    // Along one of them alone it is that share.
    near(with_shear(Fastener::WoodScrew, (50.0, &much), (0.0, &hundred)).0, 0.1, 1e-12);
    near(with_shear(Fastener::WoodScrew, (0.0, &much), (50.0, &hundred)).0, 0.5, 1e-12);
    near(with_shear(Fastener::Nail, (0.0, &much), (0.0, &hundred)).0, 0.0, 0.0);
    for odd in [f64::NAN, f64::INFINITY] {
        assert!(with_shear(Fastener::WoodScrew, (odd, &much), (1.0, &hundred)).0.is_infinite());
        assert!(with_shear(Fastener::Nail, (1.0, &much), (odd, &hundred)).0.is_infinite());
    }
}
