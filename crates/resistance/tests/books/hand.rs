//! Hand calculations of what has no book: groups, gussets, boxes, struts, holes in boards, distances.

use super::common::{MPA, allowed, near};
use chairwright_resistance::Mode;
use chairwright_resistance::column::{Ends, Strut, strut};
use chairwright_resistance::group::{moment, shared, tilted};
use chairwright_resistance::gusset::{Lap, lap_moment, lap_stress, plate_moment};
use chairwright_resistance::section::{box_glue_line, rectangle_with_hole, shear_flow};
use chairwright_resistance::spacing::{Shank, axis_distance, room};

const SQUARE: [[f64; 2]; 4] = [[-0.05, -0.05], [0.05, -0.05], [0.05, 0.05], [-0.05, 0.05]];

/// Four bolts on a square of 100 mm, 10 kN downwards 200 mm to the right: Σr² 20 000 mm², 2 kN·m; 2.5 kN straight, 5 kN
/// each way by the moment; worst on the right, √(5² + 7.5²) = 9.014 kN.
#[test]
fn eccentric_bolts() {
    let s = shared(&SQUARE, [0.0, -10_000.0], [0.2, 0.0], 0.0).unwrap();
    near(s.greatest, 9013.9, 0.05);
    assert!(SQUARE[s.worst][0] > 0.0);
    // Moment alone: each at 70.71 mm: 4 × 70.71 mm × 1 kN = 282.8 N·m.
    near(moment(&SQUARE, &allowed(1000.0)).unwrap().value, 282.84, 0.005);
    assert!(shared(&SQUARE[..1], [0.0, 0.0], [0.0; 2], 1.0).is_err());
    assert!(shared(&SQUARE, [f64::NAN, 0.0], [0.0; 2], 0.0).is_err());
    near(shared(&SQUARE[..1], [3.0, 4.0], [-0.05, -0.05], 0.0).unwrap().greatest, 5.0, 1e-12);
}

/// Lap of 80 × 60 mm: J = 4800 × 10 000 / 12 = 4.0e6 mm⁴, r = 50 mm; 1 MPa: 80 N·m.
#[test]
fn glued_gusset() {
    let l = Lap { width: 0.08, height: 0.06 };
    near(l.polar() * 1e12, 4.0e6, 1e-3);
    near(lap_moment(&l, &allowed(1.0 * MPA)).unwrap().value, 80.0, 1e-9);
}

/// The corner: moment 40 N·m gives 40 × 30/4e6·1e3 = 0.3 MPa along y and 0.4 along z; with 0.5 MPa straight along y:
/// √(0.8² + 0.4²) = 0.8944 MPa.
#[test]
fn corner_of_a_lap() {
    let l = Lap { width: 0.08, height: 0.06 };
    near(lap_stress(&l, [-2400.0, 0.0], 40.0).unwrap() / MPA, 0.8944, 5e-5);
    assert!(lap_stress(&l, [f64::NAN, 0.0], 1.0).is_err());
}

/// Two plates of 12 mm, 100 mm high, 8 mm of holes, 10 MPa: 2 × 10 × 12 × 92² / 6 = 338.6 N·m.
#[test]
fn plates() {
    near(plate_moment(2.0, 0.012, 0.1, 0.008, &allowed(10.0 * MPA)).unwrap().value, 338.6, 0.05);
    assert!(plate_moment(2.0, 0.012, 0.1, f64::NAN, &allowed(1.0)).is_err());
    assert!(plate_moment(2.0, 0.012, 0.1, 0.1, &allowed(1.0)).is_err());
}

/// A box 100 wide, 80 high, flanges of 12, webs of 12: I = (100 × 80³ − 76 × 56³)/12 = 3 154 432 mm⁴; flange between webs
/// 76 × 12 at 34 mm: Q = 31 008 mm³. V 1 000 N: 9.830 N/mm over both lines; each 12 mm deep: 0.40958 MPa. Torque 20 N·m,
/// Am = 88 × 68 = 5 984 mm²: 1.6711 N/mm, 0.13926 MPa more.
#[test]
fn glue_lines_of_a_box() {
    let (q, i) = (31_008e-9, 3_154_432e-12);
    near(shear_flow(1000.0, q, i).unwrap(), 9830.0, 0.5);
    near(box_glue_line((1000.0, 0.0), (q, i), (2.0, 0.012), 5984e-6).unwrap() / MPA, 0.4096, 5e-5);
    near(box_glue_line((-1000.0, -20.0), (q, i), (2.0, 0.012), 5984e-6).unwrap() / MPA, 0.54884, 1e-5);
    assert!(box_glue_line((f64::NAN, 0.0), (q, i), (2.0, 0.012), 5984e-6).is_err());
}

/// 40 × 90 mm with a 10 mm hole across: at mid-height I = 40 (90³ − 10³)/12 = 2 426 667; 30 mm up: area 3 200, centroid
/// down by 400 × 30/3 200 = 3.75 mm, I = 2 426 667 − 400 × 900 − 3 200 × 3.75² = 2 021 667 mm⁴.
#[test]
fn hole_in_a_board() {
    near(rectangle_with_hole(0.04, 0.09, 0.01, 0.0).unwrap().iy * 1e12, 2_426_667.0, 1.0);
    let high = rectangle_with_hole(0.04, 0.09, 0.01, 0.03).unwrap();
    near(high.centroid[1] * 1e3, -3.75, 1e-9);
    near(high.iy * 1e12, 2_021_667.0, 1.0);
    assert!(rectangle_with_hole(0.04, 0.09, 0.01, 0.041).is_err());
}

/// Steel tube of 127.8 mm², I 12 638 mm⁴, 235 MPa, 200 GPa: at 2 m Euler π² EI/L² = 6 236.6 N; at 0.3 m Euler is 277.2 kN,
/// squash 30 033 N: Johnson 30 033 (1 − 30 033/(4 × 277 180)) = 29 220 N.
#[test]
fn struts() {
    let at =
        |length| Strut { area: 127.8e-6, second_moment: 12_638e-12, length, modulus: 200e9, strength: 235e6 };
    let long = strut(&at(2.0), Ends::Pinned, 1.0).unwrap();
    near(long.value, 6236.6, 0.5);
    assert_eq!(long.mode, Mode::Buckling);
    let short = strut(&at(0.3), Ends::Pinned, 1.0).unwrap();
    near(short.value, 29_219.5, 2.0);
    near(strut(&at(2.0), Ends::Pinned, 3.0).unwrap().value * 3.0, long.value, 1e-9);
    // Held ends carry more, by the recommended factors 1/0.65².
    near(strut(&at(2.0), Ends::Fixed, 1.0).unwrap().value / long.value, 1.0 / 0.4225, 1e-9);
}

/// Screws of 5 mm from two faces, axes crossing 8 mm apart: 8 − 10 = 2 mm too near. End to end by Pythagoras.
#[test]
fn crossing_screws() {
    let a = Shank { from: [0.0, 0.0, 0.0], to: [0.05, 0.0, 0.0], diameter: 0.005 };
    let b = Shank { from: [0.02, -0.03, 0.008], to: [0.02, 0.03, 0.008], diameter: 0.005 };
    near(axis_distance(&a, &b).unwrap(), 0.008, 1e-12);
    near(room(&a, &b).unwrap(), -0.002, 1e-12);
    let far = Shank { from: [0.053, 0.004, 0.0], to: [0.1, 0.004, 0.0], diameter: 0.005 };
    near(axis_distance(&a, &far).unwrap(), 0.005, 1e-12);
    let beside = Shank { from: [0.01, 0.02, 0.0], to: [0.04, 0.02, 0.0], diameter: 0.005 };
    near(axis_distance(&a, &beside).unwrap(), 0.02, 1e-12);
}

/// A place that is no number must be refused: it must not read as far away.
#[test]
fn screws_nowhere() {
    let sound = Shank { from: [0.0; 3], to: [0.05, 0.0, 0.0], diameter: 0.005 };
    for odd in [f64::NAN, f64::INFINITY] {
        for k in 0..3 {
            let (mut head, mut point) = (sound, sound);
            head.from[k] = odd;
            point.to[k] = -odd;
            for lost in [head, point] {
                assert!(room(&sound, &lost).is_err() && room(&lost, &sound).is_err());
                assert!(axis_distance(&sound, &lost).is_err());
            }
        }
    }
    for diameter in [0.0, -0.005, f64::NAN] {
        assert!(room(&sound, &Shank { diameter, ..sound }).is_err());
    }
}

/// The same square pulled off its face: 100 N·m about y by 4 × 50² mm²: 500 N above and −500 N below; 400 N straight add 100
/// each; 100 N·m about z add 500 where y is negative.
#[test]
fn a_bracket_that_tilts() {
    let t = tilted(&SQUARE, 400.0, 100.0, 0.0).unwrap();
    for (got, want) in t.each.iter().zip([-400.0, -400.0, 600.0, 600.0]) {
        near(*got, want, 1e-9);
    }
    let both = tilted(&SQUARE, 0.0, 100.0, 100.0).unwrap();
    near(both.greatest, 1000.0, 1e-9);
    assert_eq!(SQUARE[both.worst], [-0.05, 0.05]);
    // Pressed on all over: nothing is pulled.
    near(tilted(&SQUARE, -400.0, 0.0, 0.0).unwrap().greatest, 0.0, 0.0);
    assert!(tilted(&[], 1.0, 0.0, 0.0).is_err() && tilted(&SQUARE, f64::NAN, 0.0, 0.0).is_err());
    assert!(tilted(&[[f64::NAN, 0.0]], 1.0, 0.0, 0.0).is_err());
}

/// Three in a row, 100 mm apart, along y: 20 N·m about z pulls the first by 20 × 0.1/(2 × 0.1²) = 100 N; nothing holds
/// against a moment about the row itself, nor one fastener against any.
#[test]
fn a_single_row() {
    let row = [[-0.1, 0.3], [0.0, 0.3], [0.1, 0.3]];
    let t = tilted(&row, 0.0, 0.0, 20.0).unwrap();
    near(t.greatest, 100.0, 1e-9);
    assert_eq!(t.worst, 0);
    assert!(tilted(&row, 0.0, 1.0, 20.0).is_err() && tilted(&row[..1], 0.0, 0.0, 1.0).is_err());
    near(tilted(&row[..1], 7.0, 0.0, 0.0).unwrap().greatest, 7.0, 1e-12);
    // Along the diagonal: two at 141.4 mm, 5√2 N·m: 50 N.
    let aslant = tilted(&[[0.0, 0.0], [0.1, 0.1]], 0.0, 5.0, -5.0).unwrap();
    near(aslant.each[0], -50.0, 1e-9);
    near(aslant.each[1], 50.0, 1e-9);
}
