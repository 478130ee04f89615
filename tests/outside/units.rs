//! Exact definitions: international yard and pound (1959), standard gravity (CGPM 1901); and pairs of
//! printed values in two systems from public tables (Wood Handbook, PVC property sheets, ramp rules).

use crate::clean;
use chairwright_quantity::{Number, parse_unit};
use std::cmp::Ordering;

fn si(number: &str, unit: &str) -> f64 {
    let unit = parse_unit(unit).unwrap();
    Number::decimal(number).unwrap().mul(unit.factor).add(unit.zero).to_f64()
}

#[test]
fn definitions_are_exact() {
    let exact = |a: &str, u: &str, b: &str, v: &str| {
        let x = Number::decimal(a).unwrap().mul(parse_unit(u).unwrap().factor);
        let y = Number::decimal(b).unwrap().mul(parse_unit(v).unwrap().factor);
        assert_eq!(x.compare(y), Some(Ordering::Equal), "{a} {u} and {b} {v}");
    };
    exact("36", "in", "3", "ft");
    exact("1", "yd", "0.9144", "m");
    exact("1", "in", "25.4", "mm");
    exact("16", "oz", "1", "lb");
    exact("1", "lb", "453.59237", "g");
    exact("1", "lbf", "4.4482216152605", "N");
    exact("1", "MPa", "1", "N/mm2");
    exact("1", "g/cm3", "1000", "kg/m3");
    assert!((si("35", "degC") - 308.15).abs() < 1e-12);
    assert!((si("95", "degF") - 308.15).abs() < 1e-12);
}

#[test]
fn printed_pairs_agree_to_their_rounding() {
    // psi and MPa of the Wood Handbook's imported woods, and of PVC property sheets
    let pairs = [
        ("14600", 100.7, 0.1),
        ("12700", 87.6, 0.1),
        ("9500", 65.5, 0.1),
        ("11400", 78.6, 0.1),
        ("8410", 58.0, 0.1),
        ("1890", 13.0, 0.1),
        ("2000", 13.79, 0.01),
        ("7200", 49.6, 0.1),
        ("9500", 65.5, 0.1),
    ];
    for (psi, mpa, rounding) in pairs {
        assert!((si(psi, "psi") / 1e6 - mpa).abs() <= rounding, "{psi} psi");
    }
    assert!((si("0.43", "lb/ft") - 0.640).abs() < 0.001);
    assert!((si("4.1", "ft") - 1.249_68).abs() < 1e-9);
}

#[test]
fn ramps_have_the_published_angles() {
    for (run, degrees) in [("12", 4.764), ("20", 2.862), ("48", 1.193)] {
        let c = clean(&format!("conditions {{ slope = atan(1 / {run}) }}\n"));
        assert!((c.design.conditions.quantities["slope"].to_degrees() - degrees).abs() < 0.0006);
    }
}

#[test]
fn a_leading_minus_covers_both_parts() {
    let c = clean("joint a at forward -5 ft 6 in\njoint b at up -(1/2 in)\n");
    let at: Vec<_> = c.design.joints.values().map(|j| j.at).collect();
    assert!((at[0].x + 1.6764).abs() < 1e-12);
    assert!((at[1].z + 0.0127).abs() < 1e-12);
}
