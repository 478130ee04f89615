//! Odd figures are refused, and never come out as a capacity.

use chairwright_resistance::bolt_in_pipe::{Bolted, Clamp, Stays, bearing, clamp, tear_out};
use chairwright_resistance::column::{
    Ends, Strut, amplification, cantilever_amplified, euler, strut, wood_column,
};
use chairwright_resistance::dowel::{Bears, Dowel, double_shear, single_shear, wood_bearing};
use chairwright_resistance::glue::{Climate, Faces, Glue, Glued, Line, lap};
use chairwright_resistance::gusset::{Lap, lap_moment, plate_moment};
use chairwright_resistance::metal::{
    BoltClass, Stem, Thread, allowable, bolt_shear, bolt_tension, stem_bending,
};
use chairwright_resistance::pvc::{Duty, US_73F, Wall, allowable_bending, repeated_stress, softened_modulus};
use chairwright_resistance::rating::{RatedFor, rated};
use chairwright_resistance::section::{Through, rectangle_with_hole, tube_with_hole};
use chairwright_resistance::shock::{blow, climb, fall};
use chairwright_resistance::socket::{Bond, Fitting, Lip, Socket, lap_shear, moment, pull_out};
use chairwright_resistance::withdrawal::{Fastener, Into, withdrawal};
use chairwright_resistance::wood::{Basis, Board, Centre, Duration, Property, Service, Warmth};
use chairwright_resistance::{Capacity, Never, Refusal, Standing, wood};

const ODD: [f64; 7] = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, 0.0, f64::MIN_POSITIVE, f64::MAX];

/// Puts each odd figure in the place of each argument of a call that is otherwise sound.
fn try_all(sound: &[f64], call: &dyn Fn(&[f64]) -> Result<f64, Refusal>) {
    let answer = call(sound);
    assert!(answer.is_ok_and(|v| v.is_finite() && v > 0.0), "{sound:?}: {answer:?}");
    for place in 0..sound.len() {
        for odd in ODD {
            let mut args = sound.to_vec();
            args[place] = odd;
            if let Ok(value) = call(&args) {
                assert!(value.is_finite() && value >= 0.0, "{args:?} gives {value}");
                assert!(!odd.is_nan(), "argument {place} not a number gives {value}");
                assert!(odd >= 0.0, "argument {place} below zero gives {value}");
            }
        }
    }
}

fn value(c: Result<Capacity, Refusal>) -> Result<f64, Refusal> {
    c.map(|c| c.value)
}

fn plain(stress: f64) -> Result<Capacity, Refusal> {
    allowable(stress, 1.0)
}

const YEARS: Service = Service { duration: Duration::TenYears, wet: true, warmth: Warmth::Usual };

#[test]
fn plastic() {
    let duty = |a: &[f64]| Duty { table: &US_73F, kelvin: a[1], seconds: a[2], safety: a[3] };
    try_all(&[50e6, 300.0, 1e4, 2.0], &|a| value(allowable_bending(a[0], Wall::Solid, &duty(a))));
    try_all(&[3e9, 290.0, 1e4], &|a| softened_modulus(a[0], a[1], a[2]));
    try_all(&[1e5, 1.5], &|a| repeated_stress(a[0], a[1]));
    let socket = |a: &[f64]| Socket { fitting: Fitting::Stop, diameter: a[0], depth: a[1], engaged: a[2] };
    try_all(&[0.042, 0.024, 0.024, 0.3, 0.1], &|a| {
        let bond = Bond { shear: lap_shear(3e5, 1.0, 2.0)?, close: a[3], gap: a[4] };
        value(pull_out(&socket(a), &bond))
    });
    try_all(&[0.042, 0.024, 0.024, 8e6, 4e-6, 1.5], &|a| {
        value(moment(&socket(a), a[3], &Lip { stress: plain(8e6)?, section_modulus: a[4], notch: a[5] }))
    });
    try_all(&[3e5, 0.5, 2.0], &|a| value(lap_shear(a[0], a[1], a[2])));
}

#[test]
fn bolts_in_pipe() {
    let of = |a: &[f64]| Bolted { bolt: a[0], sleeve: Some(a[1]), outer: a[2], wall: a[3] };
    let sound = [0.008, 0.012, 0.042, 0.0035, 8e6, 0.02];
    try_all(&sound[..5], &|a| value(bearing(&of(a), &plain(a[4])?, Stays::Sustained)));
    try_all(&sound, &|a| value(tear_out(&of(a), a[5], &plain(a[4])?)));
    try_all(&sound, &|a| {
        let bare = Bolted { sleeve: None, bolt: a[1], ..of(a) };
        match clamp(&bare, a[5], &plain(a[4])?)? {
            Clamp::AtMost(c) => Ok(c.value),
            Clamp::TakenBySleeve => Ok(f64::NAN),
        }
        // The bolt's own diameter stands in place 1 here, place 0 is not used.
        .and_then(|v| if a[0].is_nan() || a[0] < 0.0 { plain(a[0]).map(|c| c.value) } else { Ok(v) })
    });
}

#[test]
fn woods() {
    try_all(&[70e6, 0.6, 2.0], &|a| {
        let basis = Basis::ClearMean { mean: a[0], strength_ratio: a[1], safety: a[2] };
        value(wood::allowable(Property::Bending, basis, YEARS))
    });
    try_all(&[33e6, 2.0], &|a| {
        value(wood::allowable(Property::Shear, Basis::TestedLow { low: a[0], safety: a[1] }, YEARS))
    });
    try_all(&[9e6], &|a| value(wood::allowable(Property::Compression, Basis::Design(a[0]), YEARS)));
    try_all(&[1.2, 0.09, 0.04, 200.0, 0.002], &|a| {
        let board = Board { span: a[0], width: a[1], height: a[2] };
        value(wood::modulus_by_deflection(&board, Centre { force: a[3], deflection: a[4] }))
    });
    try_all(&[0.04, 0.09, 0.08, 1e6], &|a| value(wood::notched_shear(a[0], a[1], a[2], a[3])));
    try_all(&[10e6, 4e9, 20.0], &|a| value(wood_column(a[0], a[1], a[2])));
}

#[test]
fn fasteners() {
    let of = |a: &[f64]| {
        let dowel = Dowel { diameter: a[0], bending_yield: a[1] };
        (dowel, Bears { strength: a[2], length: a[3] }, Bears { strength: a[4], length: a[5] })
    };
    let sound = [0.004, 600e6, 30e6, 0.04, 32e6, 0.018, 0.5];
    for two in [false, true] {
        try_all(&sound, &|a| {
            let (d, m, s) = of(a);
            let y = if two { double_shear(&d, &m, &s, a[6]) } else { single_shear(&d, &m, &s, a[6]) };
            value(y.map(|y| y.capacity))
        });
    }
    try_all(&[0.5, 0.012, 0.5], &|a| wood_bearing(a[0], a[1], a[2]));
    for f in [Fastener::Nail, Fastener::WoodScrew, Fastener::Lag] {
        try_all(&[0.5, 0.0065, 0.04], &|a| value(withdrawal(f, a[0], a[1], a[2], Into::SideGrain, YEARS)));
    }
    let thread = |a: &[f64]| Thread { diameter: a[0], pitch: a[1] };
    try_all(&[0.008, 0.00125, 2.0], &|a| value(bolt_tension(&thread(a), BoltClass::Iso88, a[2])));
    try_all(&[0.008, 0.00125, 2.0], &|a| value(bolt_shear(&thread(a), BoltClass::Sae5, 2, a[2])));
    try_all(&[0.008, 0.00125, 240e6, 2.0, 1.5], &|a| {
        value(stem_bending(Stem::Threaded(thread(a)), a[2], a[3], a[4]))
    });
}

#[test]
fn laps_columns_and_shocks() {
    try_all(&[0.01, 290.0], &|a| {
        let joint = Glued {
            glue: Glue::D4,
            faces: Faces::SideGrain,
            line: Line::SustainedShear,
            climate: Climate::Weather,
            cured_at: a[1],
        };
        value(lap(a[0], &plain(1e6)?, &joint))
    });
    try_all(&[0.1, 0.08, 1e6], &|a| value(lap_moment(&Lap { width: a[0], height: a[1] }, &plain(a[2])?)));
    try_all(&[2.0, 0.012, 0.1, 0.01, 1e7], &|a| value(plate_moment(a[0], a[1], a[2], a[3], &plain(a[4])?)));
    try_all(&[1e4, 1.5], &|a| value(euler(a[0], a[1], Ends::Pinned)));
    try_all(&[1e-4, 1e-8, 1.0, 2e11, 2e8, 2.0], &|a| {
        let of = Strut { area: a[0], second_moment: a[1], length: a[2], modulus: a[3], strength: a[4] };
        value(strut(&of, Ends::Free, a[5]))
    });
    try_all(&[1e4, 1.0, 100.0], &|a| cantilever_amplified(a[0], a[1], a[2]).map(|m| m.deflection));
    try_all(&[100.0, 1e4, 1.0], &|a| amplification(a[0], a[1], a[2]));
    try_all(&[0.05, 0.01], &|a| fall(a[0], a[1]));
    try_all(&[1.0, 0.01], &|a| blow(a[0], a[1]));
    try_all(&[0.1, 0.01], &|a| climb(a[0], a[1]));
    try_all(&[1000.0], &|a| value(rated(a[0], RatedFor::Pair)));
    try_all(&[0.042, 0.0035, 0.008], &|a| tube_with_hole(a[0], a[1], a[2], 0.3, Through::One).map(|p| p.iy));
    try_all(&[0.04, 0.09, 0.01], &|a| rectangle_with_hole(a[0], a[1], a[2], 0.0).map(|p| p.iy));
}

/// Each refused load path says why, and none twice the same.
#[test]
fn refused_paths_have_sources() {
    let mut seen: Vec<&str> = Never::ALL.iter().map(|n| n.source().citation).collect();
    assert!(seen.iter().all(|c| c.len() > 10));
    seen.sort_unstable();
    seen.dedup();
    assert_eq!(seen.len(), Never::ALL.len());
    assert_eq!(Never::UnsleevedBoltSustained.source().standing, Standing::Practice);
}
