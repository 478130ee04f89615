//! NDS 2005 yield limit equations: table 11N as quoted by a reader of it; other tables from memory. Pounds and inches.

use std::f64::consts::FRAC_PI_2;

use super::common::{INCH, LBF, PSI, near};
use chairwright_resistance::connection::{Loaded, adjusted, penetration_factor};
use chairwright_resistance::dowel::{
    BOLT_YIELD, Bears, Dowel, Yielding, double_shear, nail_yield, single_shear, steel_bearing, wood_bearing,
};
use chairwright_resistance::wood::{Duration, Service, Warmth};
use chairwright_resistance::{Mode, Never, Yield};

fn bears(psi: f64, inches: f64) -> Bears {
    Bears { strength: psi * PSI, length: inches * INCH }
}

fn nail(inches: f64) -> Dowel {
    Dowel { diameter: inches * INCH, bending_yield: nail_yield(inches * INCH).unwrap() }
}

fn pounds(y: &Yielding) -> Vec<f64> {
    y.modes.iter().map(|m| m.1 / LBF).collect()
}

#[track_caller]
fn modes(got: &Yielding, printed: [f64; 6], governs: Yield, tabulated: Option<f64>) {
    for (got, printed) in pounds(got).iter().zip(printed) {
        // Computed elsewhere and printed to a pound.
        near(*got, printed, 0.6);
    }
    assert_eq!(got.capacity.mode, Mode::Yield(governs));
    if let Some(table) = tabulated {
        // Tables print three digits up to 200 and tens above.
        near(got.capacity.value / LBF, table, if table < 200.0 { 0.6 } else { 5.0 });
    }
}

/// Bearing strengths that the tables round to 50 psi.
#[test]
fn bearing_strengths() {
    let of = |g, d: f64, a| wood_bearing(g, d * INCH, a).unwrap() / PSI;
    near(of(0.50, 0.162, 0.0), 4650.0, 1e-6);
    near(of(0.36, 0.162, 1.0), 2550.0, 1e-6);
    near(of(0.50, 0.5, 0.0), 5600.0, 1e-6);
    near(of(0.50, 0.5, FRAC_PI_2), 3150.0, 1e-6);
    // Hankinson at 45 degrees by hand: 2 × 5600 × 3150 / (5600 + 3150) = 4032.
    near(of(0.50, 0.5, FRAC_PI_2 / 2.0), 4032.0, 1e-6);
    assert!(wood_bearing(0.5, 1.1 * INCH, 0.0).is_err() && wood_bearing(0.2, 0.01, 0.0).is_err());
    // NDS: 1.375 Fu for thin, 1.5 Fu for thick steel plates; A36 with Fu 58 ksi gives 87 000.
    near(steel_bearing(58_000.0 * PSI, 0.25 * INCH).unwrap() / PSI, 87_000.0, 1e-6);
    near(steel_bearing(45_000.0 * PSI, 0.12 * INCH).unwrap() / PSI, 61_875.0, 1e-6);
}

/// Side member 1 1/2 in, ten diameters into the main member, specific gravity 0.50.
#[test]
fn common_nails() {
    for (d, printed, table) in [
        (0.162, [555.0, 514.0, 221.0, 202.0, 190.0, 140.9], Some(141.0)),
        (0.131, [363.0, 415.0, 162.0, 134.0, 150.0, 97.1], Some(97.0)),
        (0.148, [463.0, 469.0, 193.0, 169.0, 171.0, 117.6], Some(118.0)),
        (0.192, [708.0, 553.0, 265.0, 256.0, 210.0, 169.6], Some(170.0)),
    ] {
        let wood = wood_bearing(0.50, d * INCH, 0.0).unwrap() / PSI;
        let z = single_shear(&nail(d), &bears(wood, 10.0 * d), &bears(wood, 1.5), 0.0).unwrap();
        modes(&z, printed, Yield::IV, table);
    }
}

/// The same with a cedar-like wood of specific gravity 0.36 (computed elsewhere).
#[test]
fn nail_in_cedar() {
    let z = single_shear(&nail(0.162), &bears(2550.0, 1.62), &bears(2550.0, 1.5), 0.0).unwrap();
    modes(&z, [304.0, 282.0, 122.0, 119.0, 112.0, 104.3], Yield::IV, None);
}

/// As quoted: penetration 1.25 in and wind: 1.25/1.62 × 1.6 × 141 = 174 lb.
#[test]
fn nail_with_little_penetration() {
    let z = single_shear(&nail(0.162), &bears(4650.0, 1.62), &bears(4650.0, 1.5), 0.0).unwrap();
    let wind = Service { duration: Duration::TenMinutes, wet: false, warmth: Warmth::Usual };
    let lasting = adjusted(z.capacity.clone(), Loaded::Sideways, true, wind).unwrap();
    let part = penetration_factor(1.25 * INCH, 0.162 * INCH).unwrap();
    near(part, 0.7716, 5e-5);
    near(part * lasting.value / LBF, 174.0, 0.5);
    assert!(penetration_factor(0.9 * INCH, 0.162 * INCH).is_err());
    let blow = Service { duration: Duration::Impact, wet: false, warmth: Warmth::Usual };
    assert_eq!(adjusted(z.capacity, Loaded::Sideways, true, blow), Err(Never::ImpactFactorOnConnection.into()));
}

/// Bolts of 1/2 in, members of 1 1/2 in, Douglas fir: along the grain, side across, both across.
#[test]
fn half_inch_bolts() {
    let bolt = Dowel { diameter: 0.5 * INCH, bending_yield: BOLT_YIELD };
    let (along, across) = (bears(5600.0, 1.5), bears(3150.0, 1.5));
    let z = |main, side, angle| single_shear(&bolt, main, side, angle).unwrap();
    modes(&z(&along, &along, 0.0), [1050.0, 1050.0, 483.0, 615.0, 615.0, 716.0], Yield::II, Some(480.0));
    modes(&z(&along, &across, FRAC_PI_2), [840.0, 472.0, 298.0, 432.0, 366.0, 486.0], Yield::II, Some(300.0));
    modes(&z(&across, &across, FRAC_PI_2), [472.0, 472.0, 217.0, 330.0, 330.0, 430.0], Yield::II, Some(220.0));
    let quarter = Dowel { diameter: 0.25 * INCH, bending_yield: BOLT_YIELD };
    let z = single_shear(&quarter, &along, &along, 0.0).unwrap();
    modes(&z, [525.0, 525.0, 242.0, 243.0, 243.0, 179.0], Yield::IV, None);
}

/// Double shear, same bolt and members: 1050, 730 (sides across) and 470 lb (main across); NDS table 11F, from memory.
#[test]
fn double_shear_of_bolts() {
    let bolt = Dowel { diameter: 0.5 * INCH, bending_yield: BOLT_YIELD };
    let (along, across) = (bears(5600.0, 1.5), bears(3150.0, 1.5));
    for (main, side, angle, table, mode) in [
        (&along, &along, 0.0, 1050.0, Yield::Im),
        (&along, &across, FRAC_PI_2, 730.0, Yield::IIIs),
        (&across, &along, FRAC_PI_2, 470.0, Yield::Im),
    ] {
        let z = double_shear(&bolt, main, side, angle).unwrap();
        near(z.capacity.value / LBF, table, 5.0);
        assert_eq!(z.capacity.mode, Mode::Yield(mode));
    }
}

/// Thin sides by hand: two sides of 1/4 in crush at 2 × 0.5 × 0.25 × 5600 / 4 = 350 lb.
#[test]
fn thin_sides() {
    let bolt = Dowel { diameter: 0.5 * INCH, bending_yield: BOLT_YIELD };
    let z = double_shear(&bolt, &bears(5600.0, 3.5), &bears(5600.0, 0.25), 0.0).unwrap();
    near(z.capacity.value / LBF, 350.0, 1e-6);
    assert_eq!(z.capacity.mode, Mode::Yield(Yield::Is));
}

/// Bending yield by size: 100, 90 and 80 ksi; none held beyond.
#[test]
fn nail_strengths() {
    for (d, ksi) in [(0.099, 100.0), (0.142, 100.0), (0.148, 90.0), (0.177, 90.0), (0.192, 80.0), (0.236, 80.0)]
    {
        near(nail_yield(d * INCH).unwrap() / PSI, ksi * 1e3, 1e-6);
    }
    assert!(nail_yield(0.08 * INCH).is_err() && nail_yield(0.25 * INCH).is_err());
}

/// End grain 0.67, wet 0.7 (from memory), by hand on 100 N at ten years.
#[test]
fn adjustments() {
    let base = super::common::allowed(100.0);
    let at = |wet| Service { duration: Duration::TenYears, wet, warmth: Warmth::Usual };
    near(adjusted(base.clone(), Loaded::SidewaysInEndGrain, false, at(false)).unwrap().value, 67.0, 1e-9);
    near(adjusted(base.clone(), Loaded::SidewaysInEndGrain, false, at(true)).unwrap().value, 46.9, 1e-9);
    near(adjusted(base.clone(), Loaded::Pulled, true, at(true)).unwrap().value, 25.0, 1e-9);
    near(
        adjusted(
            base,
            Loaded::Sideways,
            false,
            Service { duration: Duration::Permanent, wet: false, warmth: Warmth::Usual },
        )
        .unwrap()
        .value,
        90.0,
        1e-9,
    );
}

/// Heat, NDS table 11.3.4 (from memory): dry 1.0, 0.8, 0.7, wet 1.0, 0.7, 0.5 up to 100, 125 and 150 degF. By hand on
/// 100 N at ten years, wet 0.7 besides: at 45 degC (113 degF) 80 N dry and 49 N wet.
#[test]
fn heat() {
    let base = super::common::allowed(100.0);
    for (celsius, dry, wet) in
        [(20.0, 100.0, 70.0), (37.7, 100.0, 70.0), (45.0, 80.0, 49.0), (60.0, 70.0, 35.0)]
    {
        for (is_wet, value) in [(false, dry), (true, wet)] {
            let warmth = Warmth::of(celsius + 273.15).unwrap();
            let service = Service { duration: Duration::TenYears, wet: is_wet, warmth };
            near(adjusted(base.clone(), Loaded::Sideways, false, service).unwrap().value, value, 1e-9);
        }
    }
    assert!(Warmth::of(339.0).is_err() && Warmth::of(f64::NAN).is_err());
}
