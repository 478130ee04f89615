//! Springs, releases, offsets.

use super::common::{CLAMPED, FREE, exact, last, near, section, with};
use chairwright_statics::{Axes, End, In, Joint, Link, LoadCase, MemberId, MemberLoad, Model, NodeId, Side};

const BEAM: MemberId = MemberId(0);

fn joint(k: usize, j: Joint) -> [Joint; 6] {
    let mut out = [Joint::Rigid; 6];
    out[k] = j;
    out
}

/// Closed form: beam with equal rotational springs k at both ends under an even load q,
/// M_end = (qL²/12) / (1 + 2EI/kL); figures for L 6 m, EI 10 MN m², q 10 kN/m.
#[test]
fn springs_at_both_ends() {
    let table = [
        (0.0, 0.0, 45.0, 16.875),
        (2.0, 15.0, 30.0, 10.125),
        (6.0, 22.5, 22.5, 6.75),
        (f64::INFINITY, 30.0, 15.0, 3.375),
    ];
    for (ratio, end, middle, sag) in table {
        let mut m = Model::new();
        let (a, b) = (m.support([0.0; 3], CLAMPED), m.support([6.0, 0.0, 0.0], CLAMPED));
        m.member(a, b, section(1e11, 4e10, 1e-2, 1e-4, 1e-4, 1e-4));
        let j = match ratio {
            0.0 => Joint::Free,
            r if r.is_infinite() => Joint::Rigid,
            r => Joint::Spring(r * 1e7 / 6.0),
        };
        last(&mut m).ends = [End { joint: joint(4, j), ..End::RIGID }; 2];
        with(&m, LoadCase::new().on(BEAM, MemberLoad::Uniform(In::Global, [0.0, 0.0, -1e4])), |s| {
            near(s.ends(BEAM)[0][4], -end * 1e3, 1e-6, "end moment");
            let mid = s.station(BEAM, 3.0, Side::Before);
            near(mid.moment[1], -middle * 1e3, 1e-6, "middle moment");
            near(mid.displacement[2], -sag * 1e-3, 1e-12, "sag");
        });
    }
}

/// Cantilever on a base spring, PL³/3EI + PL²/k, and with a slide of stiffness t besides, + P/t: by
/// the member's own joint, by a spring to the ground, and by a link.
#[test]
fn base_spring_three_ways() {
    let (p, l, ei, k, t) = (700.0, 1.5, 1e11 * 1e-6, 4e4, 9e5);
    let want = -(p * l * l * l / (3.0 * ei) + p * l * l / k + p / t);
    let s = section(1e11, 4e10, 1e-3, 1e-6, 2e-6, 1e-6);
    let tip_of = |m: &Model, tip: NodeId| {
        with(m, LoadCase::new().push(tip, [0.0, 0.0, -p, 0.0, 0.0, 0.0]), |s| s.node(tip)[2])
    };
    let mut own = Model::new();
    let (base, tip) = (own.support([0.0; 3], CLAMPED), own.node([l, 0.0, 0.0]));
    own.member(base, tip, s);
    last(&mut own).ends[0].joint[4] = Joint::Spring(k);
    last(&mut own).ends[0].joint[2] = Joint::Spring(t);
    exact(tip_of(&own, tip), want, "joint");

    let mut ground = Model::new();
    let (base, tip) =
        (ground.support([0.0; 3], [true, true, false, true, false, true]), ground.node([l, 0.0, 0.0]));
    ground.nodes[0].spring = [0.0, 0.0, t, 0.0, k, 0.0];
    ground.member(base, tip, s);
    exact(tip_of(&ground, tip), want, "spring to the ground");

    let mut linked = Model::new();
    let (wall, base) = (linked.support([0.0; 3], CLAMPED), linked.node([0.0; 3]));
    let tip = linked.node([l, 0.0, 0.0]);
    linked.member(base, tip, s);
    // A stiff link gives a little itself: 1e-9 of its neighbours.
    let hard = 1e15;
    let axes = Axes::with_z_towards([0.0, 1.0, 0.0], [0.0, 0.0, 1.0]).unwrap();
    linked.links.push(Link { a: wall, b: base, axes, stiffness: [hard, hard, t, k, hard, hard] });
    near(tip_of(&linked, tip), want, 1e-8 * want.abs(), "link");
}

/// *A First Course in the Finite Element Method*, example 2.1 (pound, inch): springs of 1000, 2000 and
/// 3000 in a row, 5000 on the second joint.
#[test]
fn springs_in_a_row() {
    let mut m = Model::new();
    let hold = [false, true, true, true, true, true];
    let ends = [CLAMPED, hold, hold, CLAMPED];
    let n: Vec<NodeId> = (0..4).map(|k| m.support([k as f64, 0.0, 0.0], ends[k])).collect();
    for (w, k) in n.windows(2).zip([1000.0, 2000.0, 3000.0]) {
        let stiffness = [k, 0.0, 0.0, 0.0, 0.0, 0.0];
        m.links.push(Link { a: w[0], b: w[1], axes: Axes::GLOBAL, stiffness });
    }
    with(&m, LoadCase::new().push(n[2], [5000.0, 0.0, 0.0, 0.0, 0.0, 0.0]), |s| {
        exact(s.node(n[1])[0], 10.0 / 11.0, "u2");
        exact(s.node(n[2])[0], 15.0 / 11.0, "u3");
        near(s.reaction(n[0])[0], -909.09, 5e-3, "left");
        near(s.reaction(n[3])[0], -4090.91, 5e-3, "right");
    });
}

/// *Matrix Structural Analysis*, 2nd ed., example 4.15 (kip, inch): a beam on springs, 16 pieces of
/// 15 in, 22.5 kip/in each, both ends on hard supports, 40 kip in the middle: the moment printed to
/// three digits; the sag is the continuous bed's, 5 % as the suite that quotes it allows.
#[test]
fn beam_on_springs() {
    let mut m = Model::new();
    let hold = [false, true, false, true, false, true];
    let n: Vec<NodeId> = (0..17).map(|k| m.support([15.0 * k as f64, 0.0, 0.0], hold)).collect();
    m.nodes[0].fixed[0] = true;
    m.nodes[0].fixed[2] = true;
    m.nodes[16].fixed[2] = true;
    for &k in &n {
        m.nodes[k.0].spring[2] = 22.5;
    }
    for w in n.windows(2) {
        m.member(w[0], w[1], section(29_000.0, 11_000.0, 10.3, 128.5, 128.5, 10.0));
    }
    with(&m, LoadCase::new().push(n[8], [0.0, 0.0, -40.0, 0.0, 0.0, 0.0]), |s| {
        near(s.node(n[8])[2], -0.238, 0.05 * 0.238, "sag");
        near(s.ends(MemberId(8))[0][4], 547.0, 0.5, "moment");
        let up: f64 = n.iter().map(|&k| s.reaction(k)[2]).sum();
        exact(up, 40.0, "the springs and ends carry it");
    });
}

/// A hinge inside a two-member beam, clamped at both ends, load at the hinge: each side is a
/// cantilever with half the load where both are alike.
#[test]
fn hinge_between_two_cantilevers() {
    let mut m = Model::new();
    let n =
        [m.support([0.0; 3], CLAMPED), m.support([1.0, 0.0, 0.0], FREE), m.support([2.0, 0.0, 0.0], CLAMPED)];
    let s = section(1e11, 4e10, 1e-3, 1e-6, 2e-6, 1e-6);
    m.member(n[0], n[1], s);
    m.member(n[1], n[2], s);
    last(&mut m).ends[0].joint[4] = Joint::Free;
    with(&m, LoadCase::new().push(n[1], [0.0, 0.0, -200.0, 0.0, 0.0, 0.0]), |s| {
        exact(s.node(n[1])[2], -100.0 / (3.0 * 1e5), "hinge");
        near(s.ends(BEAM)[1][4], 0.0, 1e-9, "no moment in the hinge");
        exact(s.reaction(n[0])[4], -100.0, "wall");
        // The far side turns the other way; its own turn shows at its first station.
        let turn = s.station(MemberId(1), 0.0, Side::Before).rotation[1];
        exact(turn, -100.0 / (2.0 * 1e5), "far side");
        exact(s.station(BEAM, 1.0, Side::Before).rotation[1], 100.0 / (2.0 * 1e5), "near side");
    });
}

/// A slide across the beam: clamped left, sliding right end held against turning: PL³/12EI, and the
/// load is all carried on the left.
#[test]
fn slide_at_the_far_end() {
    let mut m = Model::new();
    let n = [m.support([0.0; 3], CLAMPED), m.support([2.0, 0.0, 0.0], CLAMPED)];
    m.member(n[0], n[1], section(1e11, 4e10, 1e-3, 1e-6, 2e-6, 1e-6));
    last(&mut m).ends[1].joint[2] = Joint::Free;
    let load = MemberLoad::Point { axes: In::Local, at: 2.0, force: [0.0, 0.0, -300.0], moment: [0.0; 3] };
    with(&m, LoadCase::new().on(BEAM, load), |s| {
        exact(s.station(BEAM, 2.0, Side::Before).displacement[2], -300.0 * 8.0 / (12.0 * 1e5), "slides");
        exact(s.reaction(n[0])[2], 300.0, "left");
        near(s.reaction(n[1])[2], 0.0, 1e-9, "right");
        exact(s.reaction(n[1])[4], -300.0, "right moment");
    });
}

/// Rigid arms: a beam whose ends stand off clamped nodes by arms bends over its own length only, and
/// the nodes feel the moment of the arms.
#[test]
fn arms_are_rigid() {
    let mut m = Model::new();
    let n = [m.support([0.0; 3], CLAMPED), m.node([3.0, 0.0, 0.0])];
    m.member(n[0], n[1], section(1e11, 4e10, 1e-3, 1e-6, 2e-6, 1e-6));
    last(&mut m).ends[0].offset = [0.5, 0.2, 0.1];
    last(&mut m).ends[1].offset = [-0.5, 0.2, 0.1];
    let p = 100.0;
    with(&m, LoadCase::new().push(n[1], [0.0, 0.0, -p, 0.0, 0.0, 0.0]), |s| {
        // At the beam's end: force P and moment P·0.5, over L = 2; the node hangs 0.5 further out.
        let (l, a, ei, gj) = (2.0_f64, 0.5_f64, 1e5_f64, 4e10 * 1e-6);
        let end = p * l.powi(3) / (3.0 * ei) + p * a * l * l / (2.0 * ei);
        let turn = p * l * l / (2.0 * ei) + p * a * l / ei;
        let twist = p * 0.2 * l / gj;
        exact(s.node(n[1])[2], -(end + turn * a + twist * 0.2), "node");
        exact(s.station(BEAM, 2.0, Side::Before).displacement[2], -end, "end of the beam");
        exact(s.reaction(n[0])[4], -p * 3.0, "wall");
        exact(s.length(BEAM), 2.0, "own length");
    });
}
