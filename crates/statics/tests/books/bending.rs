//! Beams of formula tables, textbooks and closed forms.

use super::common::{CLAMPED, FREE, PINNED, exact, last, near, section, with};
use chairwright_statics::{In, LoadCase, MemberId, MemberLoad, Model, NodeId, Section, Side};

const EI: f64 = 210e9 * 8e-6;

fn steel() -> Section {
    section(210e9, 81e9, 4e-3, 8e-6, 3e-6, 5e-6)
}

/// A beam along x through supports at the given stations.
fn beam(at: &[f64], holds: &[[bool; 6]], s: Section) -> (Model, Vec<NodeId>) {
    let mut m = Model::new();
    let n: Vec<NodeId> = at.iter().zip(holds).map(|(x, h)| m.support([*x, 0.0, 0.0], *h)).collect();
    for w in n.windows(2) {
        m.member(w[0], w[1], s);
    }
    (m, n)
}

fn down(q: f64) -> MemberLoad {
    MemberLoad::Uniform(In::Global, [0.0, 0.0, -q])
}

fn push_at(x: f64, force: [f64; 3]) -> MemberLoad {
    MemberLoad::Point { axes: In::Global, at: x, force, moment: [0.0; 3] }
}

const BEAM: MemberId = MemberId(0);
/// Pinned, but kept from spinning about its own axis.
const SEAT: [bool; 6] = [true, true, true, true, false, false];

/// *Structural Analysis*, 3rd ed., example 13.14 (kip, inch): three spans that settle. The book rounds
/// on the way, up to 7.6 % of a reaction.
#[test]
fn structural_analysis_example_13_14() {
    let (m, n) =
        beam(&[0.0, 240.0, 480.0, 720.0], &[SEAT; 4], section(29_000.0, 11_000.0, 100.0, 7800.0, 7800.0, 1.0));
    let mut case = LoadCase::new();
    for (k, by) in [(1, 0.625), (2, 1.5), (3, 0.75)] {
        case = case.settle(n[k], 2, -by).on(MemberId(k - 1), down(2.0 / 12.0));
    }
    with(&m, case, |s| {
        for (k, printed) in [-1.098, 122.373, -61.451, 60.176].into_iter().enumerate() {
            near(s.reaction(n[k])[2], printed, 0.08 * f64::abs(printed), "reaction");
        }
        let sum: f64 = n.iter().map(|&k| s.reaction(k)[2]).sum();
        exact(sum, 120.0, "all the load");
    });
}

/// Beam formulas (any handbook, such as *Roark's Formulas for Stress and Strain*): clamped beam under
/// an even load, qL²/12 and qL⁴/384EI.
#[test]
fn clamped_beam_even_load() {
    let (m, _) = beam(&[0.0, 3.0], &[CLAMPED; 2], steel());
    with(&m, LoadCase::new().on(BEAM, down(1200.0)), |s| {
        let mid = s.station(BEAM, 1.5, Side::Before);
        exact(mid.displacement[2], -1200.0 * 81.0 / (384.0 * EI), "sag");
        // Moment about y at the wall: sagging is negative My, hogging positive.
        exact(s.station(BEAM, 0.0, Side::Before).moment[1], 1200.0 * 9.0 / 12.0, "wall");
        exact(mid.moment[1], -1200.0 * 9.0 / 24.0, "middle");
        exact(s.ends(BEAM)[0][2], 1800.0, "shear");
    });
}

/// Propped cantilever, load at mid-span: R = 5P/16, M = 3PL/16, and 7PL³/768EI under the load.
#[test]
fn propped_cantilever() {
    let (m, n) = beam(&[0.0, 4.0], &[CLAMPED, SEAT], steel());
    with(&m, LoadCase::new().on(BEAM, push_at(2.0, [0.0, 0.0, -1000.0])), |s| {
        exact(s.reaction(n[1])[2], 5.0 * 1000.0 / 16.0, "prop");
        exact(s.reaction(n[0])[4], -3.0 * 1000.0 * 4.0 / 16.0, "wall");
        exact(s.station(BEAM, 2.0, Side::Before).displacement[2], -7.0 * 1000.0 * 64.0 / (768.0 * EI), "sag");
        let (before, after) = (s.station(BEAM, 2.0, Side::Before), s.station(BEAM, 2.0, Side::After));
        exact(after.force[2] - before.force[2], 1000.0, "jump of shear");
    });
}

/// Two equal spans under an even load: 10qL/8 on the middle support.
#[test]
fn two_spans() {
    let (m, n) = beam(&[0.0, 2.5, 5.0], &[SEAT; 3], steel());
    let case = LoadCase::new().on(BEAM, down(800.0)).on(MemberId(1), down(800.0));
    with(&m, case, |s| exact(s.reaction(n[1])[2], 1.25 * 800.0 * 2.5, "middle"));
}

/// Triangular load on a simple beam: 0.06415 qL² (exactly qL²/9√3) at L/√3.
#[test]
fn simple_beam_triangular_load() {
    let hold = [false, true, true, true, false, false];
    let (m, n) = beam(&[0.0, 3.0], &[PINNED, hold], steel());
    let (first, last) = ([0.0; 3], [0.0, 0.0, -900.0]);
    let load = MemberLoad::Linear { axes: In::Global, from: 0.0, to: 3.0, first, last };
    with(&m, LoadCase::new().on(BEAM, load), |s| {
        exact(s.reaction(n[0])[2], 900.0 * 3.0 / 6.0, "small end");
        exact(s.reaction(n[1])[2], 900.0 * 3.0 / 3.0, "great end");
        let top = s.station(BEAM, 3.0 / 3f64.sqrt(), Side::Before);
        exact(top.moment[1], -900.0 * 9.0 / (9.0 * 3f64.sqrt()), "greatest moment");
        near(top.force[2], 0.0, 1e-9, "no shear there");
        // w = q0 x (7L⁴ - 10L²x² + 3x⁴) / 360 L EI
        let x: f64 = 1.1;
        let sag = 900.0 * x * (7.0 * 81.0 - 10.0 * 9.0 * x * x + 3.0 * x.powi(4)) / (360.0 * 3.0 * EI);
        exact(s.station(BEAM, x, Side::Before).displacement[2], -sag, "sag");
    });
}

/// A moment on a simple beam at a third: M/L on the supports, and the moment jumps by M.
#[test]
fn simple_beam_moment() {
    let (m, n) = beam(&[0.0, 3.0], &[SEAT; 2], steel());
    let load = MemberLoad::Point { axes: In::Local, at: 1.0, force: [0.0; 3], moment: [0.0, 600.0, 0.0] };
    with(&m, LoadCase::new().on(BEAM, load), |s| {
        exact(s.reaction(n[1])[2], 200.0, "far support");
        exact(s.station(BEAM, 1.0, Side::Before).moment[1], 200.0, "before");
        exact(s.station(BEAM, 1.0, Side::After).moment[1], -400.0, "after");
    });
}

/// PyNite's tests, after a textbook (kip, inch): a shaft clamped at both ends, twisted at two places.
#[test]
fn shaft_with_two_torques() {
    let (m, n) = beam(&[0.0, 168.0], &[CLAMPED; 2], section(29_000.0, 11_200.0, 10.0, 100.0, 100.0, 50.0));
    let twist = |at, by| MemberLoad::Point { axes: In::Local, at, force: [0.0; 3], moment: [by, 0.0, 0.0] };
    with(&m, LoadCase::new().on(BEAM, twist(36.0, 5.0)).on(BEAM, twist(132.0, 10.0)), |s| {
        near(s.reaction(n[0])[3], -6.07, 5e-3, "left");
        near(s.reaction(n[1])[3], -8.93, 5e-3, "right");
        let turn = s.reaction(n[0])[3] * -36.0 / (11_200.0 * 50.0);
        exact(s.station(BEAM, 36.0, Side::Before).rotation[0], turn, "twist");
    });
}

/// A deep cantilever, 1 × 2 × 4, E 1000, ν 1/4, κ 5/6, load 1: 0.0320 of bending and 0.0060 of shear
/// (Timoshenko's beam, closed form).
#[test]
fn deep_cantilever() {
    let shear = Some(2.0 * 5.0 / 6.0);
    let s =
        Section { shear_y: shear, shear_z: shear, ..section(1000.0, 400.0, 2.0, 8.0 / 12.0, 2.0 / 12.0, 0.4) };
    let (m, n) = beam(&[0.0, 4.0], &[CLAMPED, FREE], s);
    with(&m, LoadCase::new().push(n[1], [0.0, 0.0, -1.0, 0.0, 0.0, 0.0]), |s| {
        exact(s.node(n[1])[2], -0.0380, "tip");
        exact(s.station(BEAM, 4.0, Side::Before).displacement[2], -0.0380, "tip as a station");
        let x: f64 = 2.0;
        let bend = x * x * (12.0 - x) / (6.0 * 1000.0 * 8.0 / 12.0);
        exact(
            s.station(BEAM, x, Side::Before).displacement[2],
            -(bend + x / (400.0 * 2.0 * 5.0 / 6.0)),
            "half way",
        );
    });
}

/// Heat: a free bar lengthens without force, a held one is pressed by EAε, and a curved strain on a
/// clamped beam gives EIκ.
#[test]
fn strain_without_load() {
    let strain = MemberLoad::Strain { axial: 1e-4, about_y: 2e-3, about_z: -1e-3 };
    let (m, n) = beam(&[0.0, 2.0], &[CLAMPED, FREE], steel());
    with(&m, LoadCase::new().on(BEAM, strain), |s| {
        let u = s.node(n[1]);
        let want = [2e-4, -1e-3 * 2.0, -2e-3 * 2.0, 0.0, 4e-3, -2e-3];
        for k in 0..6 {
            near(u[k], want[k], 1e-15, "free tip");
        }
        near(s.station(BEAM, 1.0, Side::Before).displacement[2], -1e-3, 1e-15, "a circle is a parabola here");
        near(s.ends(BEAM)[0].iter().fold(0.0, |a: f64, v| a.max(v.abs())), 0.0, 1e-6, "no force");
    });
    let (m, _) = beam(&[0.0, 2.0], &[CLAMPED; 2], steel());
    with(&m, LoadCase::new().on(BEAM, strain), |s| {
        let mid = s.station(BEAM, 1.0, Side::Before);
        exact(mid.force[0], -210e9 * 4e-3 * 1e-4, "pressed");
        exact(mid.moment[1], -EI * 2e-3, "bent");
        exact(mid.moment[2], 210e9 * 3e-6 * 1e-3, "bent the other way");
    });
}

/// Loads along the beam: a hanging bar of weight q lengthens by qL²/2EA.
#[test]
fn hanging_bar() {
    let mut m = Model::new();
    let top = m.support([0.0, 0.0, 5.0], CLAMPED);
    let low = m.node([0.0, 0.0, 0.0]);
    let bar = m.member(top, low, steel());
    last(&mut m).orientation = chairwright_statics::Orientation::Roll(0.4);
    with(&m, LoadCase::new().on(bar, down(500.0)), |s| {
        exact(s.node(low)[2], -500.0 * 25.0 / (2.0 * 210e9 * 4e-3), "stretch");
        let x = 2.0;
        exact(s.station(bar, x, Side::Before).force[0], 500.0 * 3.0, "pull");
        exact(
            s.station(bar, x, Side::Before).displacement[0],
            500.0 * (5.0 * x - x * x / 2.0) / (210e9 * 4e-3),
            "part",
        );
    });
}
