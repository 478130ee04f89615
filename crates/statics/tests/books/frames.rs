//! Whole frames of textbooks.

use super::common::{CLAMPED, exact, hold_plane, last, near, nodes, section, with};
use chairwright_statics::{End, In, Joint, LoadCase, MemberLoad, Model, Orientation};

/// *A First Course in the Finite Element Method*, 4th ed., problem 5.30 (kip, inch): a gable frame.
/// Printed reactions to 4 decimals.
#[test]
fn first_course_problem_5_30() {
    let mut m = Model::new();
    let at = [(0.0, 0.0), (0.0, 360.0), (180.0, 480.0), (420.0, 480.0), (600.0, 360.0), (600.0, 0.0)];
    let n = nodes(&mut m, &at.map(|(x, z)| [x, 0.0, z]), &[0, 5]);
    hold_plane(&mut m);
    for w in n.windows(2) {
        m.member(w[0], w[1], section(30_000.0, 11_500.0, 12.0, 200.0, 200.0, 1.0));
    }
    let down = [0.0, 0.0, -30.0, 0.0, 0.0, 0.0];
    with(&m, LoadCase::new().push(n[2], down).push(n[3], down), |s| {
        for (node, sign) in [(n[0], 1.0), (n[5], -1.0)] {
            let r = s.reaction(node);
            near(r[0], sign * 11.6877, 5e-5, "thrust");
            near(r[2], 30.0, 1e-9, "upward");
            // Turning from x to z is a negative rotation about y.
            near(r[4], sign * 1810.0745, 5e-5, "moment");
        }
    });
}

/// The same book, example 5.8 (kip, inch): three members meet at a corner. Printed to 4 digits.
#[test]
fn first_course_example_5_8() {
    let mut m = Model::new();
    let n = nodes(&mut m, &[[0.0; 3], [-100.0, 0.0, 0.0], [0.0, 0.0, -100.0], [0.0, -100.0, 0.0]], &[1, 2, 3]);
    for &far in &n[1..] {
        m.member(far, n[0], section(30_000.0, 10_000.0, 10.0, 100.0, 100.0, 50.0));
    }
    let case = LoadCase::new().push(n[0], [0.0, -50.0, 0.0, -1000.0, 0.0, 0.0]);
    let printed = [7.098e-5, -0.014, -2.352e-3, -3.996e-3, 1.78e-5, -1.033e-4];
    let digits = [1e-8, 5e-6, 5e-7, 5e-7, 2e-8, 5e-8];
    // The same frame solved by another program, to seven digits.
    let again = [7.098258e-5, -1.399513e-2, -2.351889e-3, -3.996090e-3, 1.780069e-5, -1.033429e-4];
    with(&m, case, |s| {
        for k in 0..6 {
            near(s.node(n[0])[k], printed[k], digits[k], "joint 1");
            near(s.node(n[0])[k], again[k], 1e-6 * again[k].abs(), "joint 1");
        }
    });
}

/// The same book, problem 5.58 (kip, inch). The book has Y up; its third figure depends on how the
/// sections lie, and both printed figures are rounded to 0.001, the first by more than that.
#[test]
fn first_course_problem_5_58() {
    let mut m = Model::new();
    // Book axes X, Y, Z are here x, z, -y.
    let n = nodes(&mut m, &[[0.0; 3], [120.0, 0.0, 0.0], [120.0, 120.0, 0.0], [120.0, 120.0, -240.0]], &[0, 3]);
    for w in n.windows(2) {
        m.member(w[0], w[1], section(30_000.0, 10_000.0, 100.0, 1000.0, 200.0, 100.0));
    }
    let case = LoadCase::new()
        .push(n[1], [0.0, 0.0, -5.0, -1200.0, 0.0, 0.0])
        .push(n[2], [0.0, -40.0, 0.0, 0.0, 0.0, 0.0]);
    with(&m, case, |s| {
        near(s.node(n[1])[2], -0.06223, 5e-6, "down at 2, as another program has it");
        near(s.node(n[1])[2], -0.063, 1e-3, "down at 2, printed");
        near(-s.node(n[2])[1], 1.82176, 5e-6, "along Z at 3, as another program has it");
        near(-s.node(n[2])[1], 1.825, 0.005, "along Z at 3, printed");
    });
}

/// *Matrix Analysis of Structures*, 2nd ed., example 8.4 (kip, inch): rolled members, printed to five
/// digits. The book has Y up and z level at no roll: its X, Y, Z are here x, z, -y, its local y and z
/// are here z and -y; the sense of the roll is the same.
#[test]
fn matrix_analysis_example_8_4() {
    let mut m = Model::new();
    let from_book = |v: [f64; 3]| [v[0], -v[2], v[1]];
    let at = [[0.0; 3], [-240.0, 0.0, 0.0], [0.0, -240.0, 0.0], [0.0, 0.0, -240.0]];
    let n = nodes(&mut m, &at.map(from_book), &[1, 2, 3]);
    let degrees = std::f64::consts::PI / 180.0;
    for (far, roll) in [(1, 0.0), (2, 90.0), (3, 30.0)] {
        m.member(n[far], n[0], section(29_000.0, 11_500.0, 32.9, 716.0, 236.0, 15.1));
        last(&mut m).orientation = Orientation::Roll(roll * degrees);
    }
    let beam = chairwright_statics::MemberId(0);
    let moment = from_book([-1800.0, 0.0, 1800.0]);
    let case = LoadCase::new()
        .push(n[0], [0.0, 0.0, 0.0, moment[0], moment[1], moment[2]])
        .on(beam, MemberLoad::Uniform(In::Global, from_book([0.0, -0.25, 0.0])));
    let to_book = |v: [f64; 6]| [v[0], v[2], -v[1], v[3], v[5], -v[4]];
    with(&m, case, |s| {
        let u = [-1.3522e-3, -2.7965e-3, -1.8120e-3, -3.0021e-3, 1.0569e-3, 6.4986e-3];
        let r = [
            [5.3757, 44.106, -0.74272, 2.1722, 58.987, 2330.5],
            [-4.6249, 11.117, -6.4607, -515.55, -0.76472, 369.67],
            [-0.75082, 4.7763, 7.2034, -383.5, -60.166, -4.702],
        ];
        for k in 0..6 {
            near(to_book(s.node(n[0]))[k], u[k], 6e-5 * u[k].abs(), "joint 1");
            for far in 0..3 {
                near(
                    to_book(s.reaction(n[far + 1]))[k],
                    r[far][k],
                    6e-5 * r[far][k].abs().max(1.0),
                    "reaction",
                );
            }
        }
    });
    // Column of the assembled stiffness: forces that displace joint 1 along X by one.
    let mut held = m.clone();
    held.nodes[0].fixed = CLAMPED;
    let column = [3990.3, -5.2322, 0.0, -627.87, -1075.4, 712.92];
    with(&held, LoadCase::new().settle(n[0], 0, 1.0), |s| {
        for (k, v) in column.iter().enumerate() {
            near(to_book(s.reaction(n[0]))[k], *v, 6e-5 * v.abs().max(1.0), "K(1, k)");
        }
    });
}

/// *Engineering Mechanics: Statics*, 4th ed., problem 6.64 (kN, m): a space truss, printed to 0.1.
#[test]
fn engineering_mechanics_6_64() {
    let mut m = Model::new();
    let at = [[1.1, -0.4, 0.0], [1.0, 0.0, 0.0], [0.0, 0.0, 0.6], [0.0, 0.0, -0.4], [0.0, 0.8, 0.0]];
    let n = nodes(&mut m, &at, &[2, 3, 4]);
    let joint = [Joint::Rigid, Joint::Rigid, Joint::Rigid, Joint::Free, Joint::Free, Joint::Free];
    for (a, b) in [(0, 1), (0, 2), (0, 3), (1, 2), (1, 3), (1, 4)] {
        m.member(n[a], n[b], section(2e8, 8e7, 1e-3, 1e-6, 1e-6, 1e-6));
        last(&mut m).ends = [End { joint, ..End::RIGID }; 2];
    }
    let case = LoadCase::new().push(n[0], [10.0, 60.0, 20.0, 0.0, 0.0, 0.0]);
    with(&m, case, |s| {
        for (member, printed) in [(3, 32.7), (4, 45.2), (5, -112.1)] {
            let pull = s.station(chairwright_statics::MemberId(member), 0.0, Default::default()).force[0];
            near(pull, printed, 0.05, "pull");
        }
    });
}

/// CALFEM's plane frame example `exs_beam2` (figures worked here by another solver, to five digits):
/// columns 4 m, beam 6 m, one base clamped, one pinned.
#[test]
fn calfem_plane_frame() {
    let mut m = Model::new();
    let n = nodes(&mut m, &[[0.0; 3], [0.0, 0.0, 4.0], [6.0, 0.0, 4.0], [6.0, 0.0, 0.0]], &[0, 3]);
    hold_plane(&mut m);
    m.nodes[3].fixed[4] = false;
    let column = section(200e9, 77e9, 2e-3, 1.6e-5, 1.6e-5, 1e-6);
    m.member(n[0], n[1], column);
    m.member(n[3], n[2], column);
    let beam = m.member(n[1], n[2], section(200e9, 77e9, 6e-3, 5.4e-5, 5.4e-5, 1e-6));
    let case = LoadCase::new()
        .push(n[1], [2000.0, 0.0, 0.0, 0.0, 0.0, 0.0])
        .on(beam, MemberLoad::Uniform(In::Global, [0.0, 0.0, -10_000.0]));
    with(&m, case, |s| {
        let (a, b) = (s.node(n[1]), s.node(n[2]));
        let got = [a[0], a[2], -a[4], b[0], b[2], -b[4]];
        let want = [7.5357e-3, -2.8741e-4, -5.3735e-3, 7.5161e-3, -3.1259e-4, 4.6656e-3];
        for k in 0..6 {
            near(got[k], want[k], 6e-5 * want[k].abs(), "corner");
        }
        let (r, q) = (s.reaction(n[0]), s.reaction(n[3]));
        near(r[0], 1926.8, 0.06, "left thrust");
        near(r[2], 28_740.9, 0.06, "left");
        near(-r[4], 445.3, 0.06, "left moment");
        near(q[0], -3926.8, 0.06, "right thrust");
        near(q[2], 31_259.1, 0.06, "right");
        exact(q[4] + 1.0, 1.0, "no moment at the pin");
    });
}
