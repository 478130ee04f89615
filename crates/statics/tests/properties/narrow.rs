//! Frames long and narrow enough to be factored in blocks, against closed forms; and one without unknowns.

use chairwright_statics::{Buckling, BucklingOptions, Error, Joint, LoadCase, Model, NodeId, Section, Solver};
use std::f64::consts::PI;

const E: f64 = 200e9;
const I: f64 = 1e-7;
const LENGTH: f64 = 3.0;
/// Well above the nodes from which blocks are taken.
const PIECES: usize = 120;

/// A mast clamped at its foot, in many pieces, and its top.
fn mast() -> (Model, NodeId) {
    let section =
        Section { e: E, g: 77e9, area: 1e-3, shear_y: None, shear_z: None, iy: I, iz: 2.0 * I, j: 3e-7 };
    let mut model = Model::new();
    let mut below = model.support([0.0; 3], [true; 6]);
    for k in 1..=PIECES {
        let node = model.node([0.0, 0.0, LENGTH * k as f64 / PIECES as f64]);
        model.member(below, node, section);
        below = node;
    }
    (model, below)
}

/// P L³ / 3 E I aside, for one load and for another solved from it; π² E I / 4 L² down (Euler, by hand).
#[test]
fn a_mast_of_many_pieces_bends_and_gives_way_as_one() {
    let (model, top) = mast();
    let solver = Solver::new(&model).unwrap();
    // which of its axes is which does not matter: the softer one gives way twice as far
    let aside = |p: f64| LoadCase::new().push(top, [p, p, 0.0, 0.0, 0.0, 0.0]);
    let both = |u: [f64; 6]| [u[0].abs().max(u[1].abs()), 2.0 * u[0].abs().min(u[1].abs())];
    let by_hand = |p: f64| p * LENGTH.powi(3) / (3.0 * E * I);
    let one = solver.solve(&[aside(100.0)]).unwrap().remove(0);
    assert!(both(one.node(top)).iter().all(|u| (u / by_hand(100.0) - 1.0).abs() < 1e-7), "{:?}", one.node(top));
    let other = solver.solve_from(one, &aside(-250.0), 1e-9).unwrap();
    assert!(
        both(other.node(top)).iter().all(|u| (u / by_hand(250.0) - 1.0).abs() < 1e-7)
            && other.node(top)[0] < 0.0
    );
    let down = LoadCase::new().push(top, [0.0, 0.0, -1000.0, 0.0, 0.0, 0.0]);
    let solved = solver.solve(&[down]).unwrap();
    let Buckling::At(modes) = solved[0].buckling(&BucklingOptions { count: 2, pieces: 1 }).unwrap() else {
        panic!("a mast gives way")
    };
    let euler = PI * PI * E * I / (4.0 * LENGTH * LENGTH) / 1000.0;
    assert!((modes[0].factor / euler - 1.0).abs() < 1e-5, "{} {euler}", modes[0].factor);
    assert!((modes[1].factor / (2.0 * euler) - 1.0).abs() < 1e-5, "{} {euler}", modes[1].factor);
}

/// A ball in the middle lets the upper half swing about both axes across and spin about its own: three ways to move.
#[test]
fn a_ball_in_the_middle_of_a_mast_is_a_mechanism() {
    let (mut model, _) = mast();
    for joint in &mut model.members[PIECES / 2].ends[0].joint[3..] {
        *joint = Joint::Free;
    }
    let Err(Error::Mechanism(ways)) = Solver::new(&model) else { panic!("it moves") };
    assert_eq!(ways.len(), 3);
    assert!(ways.iter().all(|w| !w.members.is_empty()));
}

/// A member between two walls has nothing to be found out: half of its load is on either.
#[test]
fn a_frame_without_unknowns_stands() {
    let mut model = Model::new();
    let (a, b) = (model.support([0.0; 3], [true; 6]), model.support([1.0, 0.0, 0.0], [true; 6]));
    let section = Section { e: E, g: 77e9, area: 1e-3, shear_y: None, shear_z: None, iy: I, iz: I, j: 3e-7 };
    let member = model.member(a, b, section);
    let load = chairwright_statics::MemberLoad::Uniform(chairwright_statics::In::Global, [0.0, 0.0, -80.0]);
    let solver = Solver::new(&model).unwrap();
    let solved = solver.solve(&[LoadCase::new().on(member, load)]).unwrap();
    assert!([a, b].iter().all(|n| (solved[0].reaction(*n)[2] - 40.0).abs() < 1e-9));
}
