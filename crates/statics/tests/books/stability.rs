//! Linear buckling.

use super::common::{CLAMPED, FREE, hold_plane, near, nodes, section, with};
use chairwright_statics::{
    Buckling, BucklingOptions, CutFrame, Error, Fault, In, Item, LoadCase, Member, MemberLoad, Mode, Model,
    NodeId, Section, Solver,
};
use std::f64::consts::PI;

fn modes(model: &Model, case: LoadCase, count: usize, pieces: usize) -> Vec<Mode> {
    with(model, case, |s| match s.buckling(&BucklingOptions { count, pieces }).unwrap() {
        Buckling::At(modes) => modes,
        Buckling::Never => Vec::new(),
    })
}

/// A strut of EI 1, length 1 along z, pushed at the top by 1.
fn strut(bottom: [bool; 6], top: [bool; 6], s: Section) -> (Model, LoadCase) {
    let mut m = Model::new();
    let a = m.support([0.0; 3], bottom);
    let b = m.support([0.0, 0.0, 1.0], top);
    m.member(a, b, s);
    (m, LoadCase::new().push(b, [0.0, 0.0, -1.0, 0.0, 0.0, 0.0]))
}

/// EI 1 about y, a little less about z.
fn slender() -> Section {
    section(1.0, 0.4, 1e4, 1.0, 1.44, 1.0)
}

const SEAT: [bool; 6] = [true, true, true, false, false, true];
const GUIDE: [bool; 6] = [true, true, false, false, false, true];
const GUIDED_CLAMP: [bool; 6] = [true, true, false, true, true, true];

/// Euler's columns (any text, such as Timoshenko and Gere, *Theory of Elastic Stability*): factors on
/// π²EI/L² of 1, 4, 2.0457 and 1/4; each again 1.44 times for the stiffer axis. Eight pieces are
/// 5e-4 too stiff where the strut is clamped at both ends, less elsewhere.
#[test]
fn euler_columns() {
    for (bottom, top, factor) in
        [(SEAT, GUIDE, 1.0), (CLAMPED, GUIDED_CLAMP, 4.0), (CLAMPED, GUIDE, 2.04575), (CLAMPED, FREE, 0.25)]
    {
        let (m, case) = strut(bottom, top, slender());
        let found = modes(&m, case, 2, 8);
        near(found[0].factor / (PI * PI), factor, 6e-4 * factor, "softer axis");
        near(found[1].factor / (PI * PI), 1.44 * factor, 6e-4 * 1.44 * factor, "stiffer axis");
        assert!(found[0].factor > factor * PI * PI * (1.0 - 1e-6), "pieces are never too soft");
    }
}

/// The error falls with the fourth power of the pieces.
#[test]
fn fourth_power() {
    let (m, case) = strut(CLAMPED, GUIDED_CLAMP, slender());
    let error = |pieces| modes(&m, case.clone(), 1, pieces)[0].factor / (4.0 * PI * PI) - 1.0;
    let ratio = error(4) / error(8);
    assert!((12.0..20.0).contains(&ratio), "ratio {ratio}");
    assert!(error(16).abs() < 5e-5);
}

/// A round strut buckles every way: two equal modes at right angles.
#[test]
fn equal_modes_are_both_found() {
    let (m, case) = strut(CLAMPED, FREE, section(1.0, 0.4, 1e4, 1.0, 1.0, 1.0));
    let found = modes(&m, case, 3, 8);
    near(found[0].factor, PI * PI / 4.0, 1e-5, "first");
    near(found[1].factor, found[0].factor, 1e-9, "second");
    near(found[2].factor, 9.0 * PI * PI / 4.0, 1e-2, "third");
    let (a, b) = (found[0].nodes[1], found[1].nodes[1]);
    near(a[0] * b[0] + a[1] * b[1], 0.0, 1e-6, "at right angles");
    let shape = &found[0].members[0];
    let tip =
        |k: usize| (shape[k][0].powi(2) + shape[k][1].powi(2)).sqrt() / (a[0].powi(2) + a[1].powi(2)).sqrt();
    near(tip(4), 1.0 - std::f64::consts::FRAC_1_SQRT_2, 1e-4, "half way up a quarter of a cosine");
}

/// Engesser: shear strain lowers Euler's load to P/(1 + P/GAs).
#[test]
fn engesser() {
    let mut s = slender();
    s.shear_z = Some(50.0 / 0.4);
    let (m, case) = strut(CLAMPED, FREE, s);
    let euler = PI * PI / 4.0;
    let error = |pieces| modes(&m, case.clone(), 1, pieces)[0].factor * (1.0 + euler / 50.0) / euler - 1.0;
    near(error(16), 0.0, 5e-5, "cantilever");
    // The part from shear falls with the square of the pieces only.
    near(error(16) / error(32), 4.0, 0.2, "error");
}

fn portal(hold: [bool; 6]) -> Model {
    let mut m = Model::new();
    let n = nodes(&mut m, &[[0.0; 3], [0.0, 0.0, 1.0], [1.0, 0.0, 1.0], [1.0, 0.0, 0.0]], &[]);
    for k in [0, 3] {
        m.nodes[k].fixed = hold;
    }
    hold_plane(&mut m);
    for w in n.windows(2) {
        m.member(w[0], w[1], section(1.0, 0.4, 1e6, 1.0, 1.0, 1.0));
    }
    m
}

/// Sway of a square portal of equal members: kh·tan(kh) = 6 with pinned feet, tan(kh)/kh = -1/6 with
/// clamped ones: P h²/EI = 1.8213 and 7.379 a column (slope-deflection texts; the roots re-solved).
#[test]
fn portals_sway() {
    for (hold, want) in [([true, true, true, true, false, true], 1.82128), (CLAMPED, 7.37921)] {
        let push = [0.0, 0.0, -1.0, 0.0, 0.0, 0.0];
        let case = LoadCase::new().push(NodeId(1), push).push(NodeId(2), push);
        let found = modes(&portal(hold), case, 1, 8);
        near(found[0].factor, want, 1e-4 * want, "factor");
        let (a, b) = (found[0].nodes[1][0], found[0].nodes[2][0]);
        near(a, b, 1e-3 * a.abs(), "both corners sway alike");
    }
}

/// CALFEM's frame `exn_beam2g_b`, loads as there; the factors were worked by another solver with 1, 4
/// and 16 elements a member.
#[test]
fn calfem_frame() {
    let mut m = Model::new();
    let n = nodes(&mut m, &[[0.0; 3], [0.0, 0.0, 4.0], [6.0, 0.0, 4.0], [6.0, 0.0, 0.0]], &[0, 3]);
    hold_plane(&mut m);
    m.nodes[3].fixed[4] = false;
    let column = section(200e9, 77e9, 2e-3, 1.6e-5, 1.6e-5, 1e-6);
    m.member(n[0], n[1], column);
    m.member(n[3], n[2], column);
    let beam = m.member(n[1], n[2], section(200e9, 77e9, 6e-3, 5.4e-5, 5.4e-5, 1e-6));
    let case = LoadCase::new()
        .push(n[1], [10_000.0, 0.0, 0.0, 0.0, 0.0, 0.0])
        .on(beam, MemberLoad::Uniform(In::Global, [0.0, 0.0, -50_000.0]));
    for (pieces, factor) in [(1, 6.892), (4, 6.8017), (16, 6.8009)] {
        near(
            modes(&m, case.clone(), 1, pieces)[0].factor,
            factor,
            6e-4 * if pieces == 1 { 1.0 } else { 0.1 },
            "factor",
        );
    }
}

/// A strut under its own weight, clamped below: qL = 7.837 EI/L² (Timoshenko and Gere).
#[test]
fn own_weight() {
    let (m, _) = strut(CLAMPED, FREE, slender());
    let case =
        LoadCase::new().on(chairwright_statics::MemberId(0), MemberLoad::Uniform(In::Global, [0.0, 0.0, -1.0]));
    near(modes(&m, case, 1, 16)[0].factor, 7.837, 1e-3, "weight");
}

/// A rigid post on a rotational spring: P = k/h, the post being an arm of the member above it, which
/// bends a hundred-thousandth.
#[test]
fn an_arm_leans() {
    let mut m = Model::new();
    let foot = m.support([0.0; 3], [true, true, true, false, true, true]);
    m.nodes[foot.0].spring[3] = 5.0;
    let top = m.node([0.0, 0.0, 2.0]);
    m.member(foot, top, section(1e6, 4e5, 1.0, 1.0, 1.0, 1.0));
    let arm = |m: &mut Member, by: f64| m.ends[0].offset = [0.0, 0.0, by];
    for by in [0.0, 1.0, 1.9] {
        arm(&mut m.members[0], by);
        let case = LoadCase::new().push(top, [0.0, 0.0, -1.0, 0.0, 0.0, 0.0]);
        near(modes(&m, case, 1, 2)[0].factor, 2.5, 5e-5, "k/h");
    }
}

/// Pulled members never buckle; nor does a frame without loads.
#[test]
fn never() {
    let (m, case) = strut(CLAMPED, FREE, slender());
    let pull = LoadCase::new().push(case.nodes[0].0, [0.0, 0.0, 1.0, 0.0, 0.0, 0.0]);
    for case in [pull, LoadCase::new()] {
        with(&m, case, |s| assert_eq!(s.buckling(&BucklingOptions::default()).unwrap(), Buckling::Never));
    }
}

/// A strut beside a bar that is released along itself at both ends: the bar floats and does not matter.
#[test]
fn a_floating_bar_does_not_matter() {
    let (mut m, case) = strut(CLAMPED, FREE, slender());
    let (a, b) = (m.support([1.0, 0.0, 0.0], CLAMPED), m.support([1.0, 0.3, 1.0], CLAMPED));
    m.member(a, b, slender());
    for end in &mut m.members[1].ends {
        end.joint[0] = chairwright_statics::Joint::Free;
        end.joint[3] = chairwright_statics::Joint::Free;
    }
    near(modes(&m, case, 1, 8)[0].factor, PI * PI / 4.0, 1e-4, "the strut alone");
}

/// A clamped mast pushed with one, pushed with two, and pulled: π²/4, half of it, and never, whether the frame is cut for each
/// or once for all. Cases of another frame are not looked at with it.
#[test]
fn a_frame_is_cut_once_for_all_its_cases() {
    let (m, _) = strut(CLAMPED, FREE, slender());
    let load = |down: f64| LoadCase::new().push(NodeId(1), [0.0, 0.0, -down, 0.0, 0.0, 0.0]);
    let solver = Solver::new(&m).unwrap();
    let all = solver.solve(&[load(1.0), load(2.0), load(-1.0)]).unwrap();
    let options = BucklingOptions::default();
    let cut = CutFrame::new(&all, &options).unwrap();
    let first = |found: Buckling| match found {
        Buckling::At(modes) => modes[0].factor,
        Buckling::Never => f64::INFINITY,
    };
    for (k, wants) in [PI * PI / 4.0, PI * PI / 8.0].into_iter().enumerate() {
        let (together, alone) = (first(cut.buckling(k).unwrap()), first(all[k].buckling(&options).unwrap()));
        near(together, wants, 1e-3 * wants, "together");
        near(together, alone, 1e-6 * alone, "alone");
    }
    assert_eq!(cut.buckling(2).unwrap(), Buckling::Never);
    let other = Solver::new(&m).unwrap();
    let others = other.solve(&[load(1.0)]).unwrap();
    let wrong = CutFrame::new(all.iter().chain(&others), &options).unwrap_err();
    assert_eq!(wrong, Error::Invalid { item: Item::Option("cases"), fault: Fault::OtherFrame });
    assert!(CutFrame::new(&[], &options).is_err());
}
