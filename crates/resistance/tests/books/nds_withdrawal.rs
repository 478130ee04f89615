//! Withdrawal tables after the NDS, and the Wood Handbook's formulas.

use super::common::{INCH, LBF, near};
use chairwright_resistance::Never;
use chairwright_resistance::spacing::{bite, lead_hole};
use chairwright_resistance::withdrawal::{Fastener, Into, reference, ultimate, withdrawal};
use chairwright_resistance::wood::{Duration, Service};

const PER_INCH: f64 = LBF / INCH;
const YEARS: Service = Service { duration: Duration::TenYears, wet: false };

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
