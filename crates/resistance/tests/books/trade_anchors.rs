//! Figures that the trade job computes: bolts through pipe, holes, ratings, what must not touch, glue and climate.

use super::common::{MPA, allowed, celsius, near};
use chairwright_resistance::bolt_in_pipe::{Bolted, Clamp, Stays, bearing, bearing_area, clamp, tear_out};
use chairwright_resistance::compatible::{Stuff, Touch, Wetness, touching};
use chairwright_resistance::glue::{Climate, Faces, Glue, Glued, Line, lap, suits};
use chairwright_resistance::rating::{AxleHeld, RatedFor, rated, wheel};
use chairwright_resistance::section::{Through, tube_with_hole};
use chairwright_resistance::{Assumed, Need, Never, NotKnown, Refusal};

fn m8() -> Bolted {
    Bolted { bolt: 0.008, sleeve: None, outer: 0.04216, wall: 0.00356 }
}

/// 2 × 8 × 3.56 = 57 mm²; at 8.6 MPa about 490 N.
#[test]
fn bolt_on_two_walls() {
    near(bearing_area(0.008, 0.00356) * 1e6, 57.0, 0.5);
    let brief = bearing(&m8(), &allowed(8.6 * MPA), Stays::Brief).unwrap();
    near(brief.value, 490.0, 1.0);
    assert!(brief.needs.contains(&Need::Sleeve));
    let stays = bearing(&m8(), &allowed(8.6 * MPA), Stays::Sustained);
    assert_eq!(stays, Err(Never::UnsleevedBoltSustained.into()));
    // A sleeve of 12 mm: 2 × 12 × 3.56 × 8.6 = 734.8 N, and the nut cannot squash the pipe.
    let sleeved = Bolted { sleeve: Some(0.012), ..m8() };
    near(bearing(&sleeved, &allowed(8.6 * MPA), Stays::Sustained).unwrap().value, 734.8, 0.05);
    assert_eq!(clamp(&sleeved, 0.016, &allowed(20.0 * MPA)), Ok(Clamp::TakenBySleeve));
    assert!(bearing(&Bolted { sleeve: Some(0.008), ..m8() }, &allowed(8.6 * MPA), Stays::Brief).is_err());
}

/// Ring by hand: π × 20 × 3.56² × 16 / (6 × 19.3) = 110.0 N; with a nut factor of 0.12 a torque of 0.1056 N·m.
#[test]
fn squashed_by_the_nut() {
    let Ok(Clamp::AtMost(c)) = clamp(&m8(), 0.016, &allowed(20.0 * MPA)) else { panic!("no limit") };
    near(c.value, 110.0, 0.1);
    let [Need::TorqueAtMost(torque)] = c.needs[..] else { panic!("{:?}", c.needs) };
    near(torque, 0.1056, 1e-4);
}

/// 20 mm to the end: 4 × 3.56 × (20 − 4) × 5 MPa = 1 139 N.
#[test]
fn torn_to_the_end() {
    near(tear_out(&m8(), 0.020, &allowed(5.0 * MPA)).unwrap().value, 1139.0, 0.5);
    assert!(tear_out(&m8(), 0.003, &allowed(5.0 * MPA)).is_err());
}

/// A hole for M8 at the top and bottom fibre removes about 28 % of the second moment, at the neutral axis almost none.
/// The hole is 8.4 mm (ISO 273, fine series, from memory); "about" is one percent of the whole.
#[test]
fn hole_in_the_fibre() {
    let (outer, wall) = (1.660 * 0.0254, 0.140 * 0.0254);
    let whole = tube_with_hole(outer, wall, 0.0, 0.0, Through::Both).unwrap();
    near(whole.iy * 1e12, 81_044.0, 20.0);
    let top = tube_with_hole(outer, wall, 0.0084, 0.0, Through::Both).unwrap();
    near(1.0 - top.iy / whole.iy, 0.28, 0.01);
    assert!(1.0 - top.iz / whole.iz < 0.012);
    let side = tube_with_hole(outer, wall, 0.0084, std::f64::consts::FRAC_PI_2, Through::Both).unwrap();
    assert!(1.0 - side.iy / whole.iy < 0.012, "{}", 1.0 - side.iy / whole.iy);
}

/// "120 kg a pair" is half of it a wheel; not said: half of it, and asked.
#[test]
fn ratings_of_pairs() {
    let kg = |m: f64| m * 9.80665;
    near(rated(kg(120.0), RatedFor::Pair).unwrap().value, kg(60.0), 1e-9);
    let unsaid = rated(kg(120.0), RatedFor::Unsaid).unwrap();
    near(unsaid.value, kg(60.0), 1e-9);
    assert_eq!(unsaid.needs, [Need::RatingBasis]);
    assert_eq!(wheel(kg(120.0), RatedFor::One, true, AxleHeld::OneSide), Err(Never::OneSidedConeAxle.into()));
    assert!(wheel(kg(120.0), RatedFor::One, true, AxleHeld::BothEnds).is_ok());
}

#[test]
fn vinyl_on_pipe() {
    let pair = touching(Stuff::RigidPvc, Stuff::PlasticisedVinyl, Wetness::None);
    assert_eq!(pair.verdict, Touch::MustNot { harms: Stuff::PlasticisedVinyl, loses: Stuff::RigidPvc });
    let locker = touching(Stuff::ThreadLocker, Stuff::RigidPvc, Wetness::None).verdict;
    assert!(matches!(locker, Touch::MustNot { .. }));
    assert_eq!(touching(Stuff::Webbing, Stuff::RigidPvc, Wetness::Salt).verdict, Touch::May);
    assert_eq!(touching(Stuff::ThreadLocker, Stuff::Webbing, Wetness::None).verdict, Touch::CannotTell);
}

/// Indices from memory: stainless 0.50 against aluminium 0.90 is fit for a dry room only; aluminium loses.
#[test]
fn metals_by_wetness() {
    let at = |w| touching(Stuff::Stainless, Stuff::Aluminium, w).verdict;
    assert_eq!(at(Wetness::None), Touch::May);
    assert_eq!(at(Wetness::Rain), Touch::MustNot { harms: Stuff::Stainless, loses: Stuff::Aluminium });
    assert_eq!(touching(Stuff::Steel, Stuff::Aluminium, Wetness::Salt).verdict, Touch::May);
    assert_eq!(touching(Stuff::Copper, Stuff::Copper, Wetness::Salt).verdict, Touch::May);
}

fn glued() -> Glued {
    Glued {
        glue: Glue::D3,
        faces: Faces::SideGrain,
        line: Line::Shear,
        climate: Climate::Sheltered,
        cured_at: celsius(20.0),
    }
}

/// EN 204 by memory: D3 under cover, D4 in the rain; none of them is for structures.
#[test]
fn glue_and_climate() {
    assert!(suits(Glue::D4, Climate::Weather).climate && !suits(Glue::D3, Climate::Weather).climate);
    assert!(!suits(Glue::D4, Climate::Dry).structural && suits(Glue::Structural, Climate::Weather).structural);
    let on = |joint: Glued| lap(0.01, &allowed(1.0 * MPA), &joint);
    // 100 cm² at 1 MPa.
    near(on(glued()).unwrap().value, 10_000.0, 1e-9);
    let refused = |joint, why: Never| assert_eq!(on(joint), Err(Refusal::Never(why)));
    refused(Glued { climate: Climate::Weather, ..glued() }, Never::GlueBelowClimate);
    refused(Glued { faces: Faces::EndGrainButt, ..glued() }, Never::EndGrainButtGlue);
    refused(Glued { line: Line::SustainedTension, ..glued() }, Never::PvaSustainedTension);
    let hard = Glued { glue: Glue::Structural, line: Line::SustainedTension, ..glued() };
    assert_eq!(on(hard), Err(Refusal::NotKnown(NotKnown::TensionAcrossGlue)));
    assert!(matches!(on(Glued { cured_at: celsius(9.0), ..glued() }), Err(Refusal::Outside(_))));
    // EN 204 does not cover heat: its glues are answered for a room only, and said so.
    assert!(on(glued()).unwrap().assumed.contains(&Assumed::RoomTemperature));
    let set = on(Glued { glue: Glue::Structural, ..glued() }).unwrap();
    assert!(
        !set.assumed.contains(&Assumed::RoomTemperature) && !set.assumed.contains(&Assumed::NonStructuralGlue)
    );
    let stays = on(Glued { line: Line::SustainedShear, ..glued() }).unwrap();
    assert!(stays.needs.contains(&Need::ScrewsBesideGlue));
}
