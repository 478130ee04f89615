//! Balance on the bent frame.

use super::common::{CLAMPED, FREE, exact, hold_plane, last, near, section, with};
use chairwright_statics::{
    Bent, Buckling, BucklingOptions, Error, In, Joint, LoadCase, MemberLoad, Model, NodeId, SecondOrder,
    Section,
};

/// W14×48 of the AISC benchmarks (kip, inch).
const L: f64 = 336.0;
const EI: f64 = 29_000.0 * 484.0;

fn w14x48(shear: Option<f64>) -> Section {
    Section { shear_y: shear, shear_z: shear, ..section(29_000.0, 11_200.0, 14.1, 484.0, 484.0, 1.0) }
}

fn bent<T>(m: &Model, case: LoadCase, pieces: usize, read: impl FnOnce(&Bent) -> T) -> T {
    with(m, case, |s| {
        let SecondOrder::Stands(b) = s.second_order(pieces).unwrap() else { unreachable!("it stands") };
        read(&b)
    })
}

/// Moment and sag in the middle of a column along x on two pins, 0.20 kip/ft across it, pushed by P.
fn column(p: f64, shear: Option<f64>, pieces: usize) -> (f64, f64) {
    let mut m = Model::new();
    let a = m.support([0.0; 3], [true; 6]);
    let b = m.support([L, 0.0, 0.0], [false, true, true, true, true, true]);
    m.nodes[a.0].fixed[4] = false;
    m.nodes[b.0].fixed[4] = false;
    let beam = m.member(a, b, w14x48(shear));
    let case = LoadCase::new()
        .push(b, [-p, 0.0, 0.0, 0.0, 0.0, 0.0])
        .on(beam, MemberLoad::Uniform(In::Global, [0.0, 0.0, -0.2 / 12.0]));
    bent(&m, case, pieces, |b| {
        let mid = b.members[0][pieces / 2];
        exact(mid.x, L / 2.0, "the middle");
        near(mid.pull, -p, 1e-6, "pushed all along");
        (-mid.moment[1], -mid.displacement[2])
    })
}

/// Moment at the foot and sag of the tip of a cantilever along x, 1 kip across its tip, pushed by P.
fn cantilever(p: f64, shear: Option<f64>, pieces: usize) -> (f64, f64) {
    let mut m = Model::new();
    let (a, b) = (m.support([0.0; 3], CLAMPED), m.support([L, 0.0, 0.0], FREE));
    hold_plane(&mut m);
    m.member(a, b, w14x48(shear));
    bent(&m, LoadCase::new().push(b, [-p, 0.0, -1.0, 0.0, 0.0, 0.0]), pieces, |b| {
        (b.members[0][0].moment[1], -b.nodes[1][2])
    })
}

/// AISC 360, commentary to chapter C, benchmark case 1 (as in PyNite's tests), printed to three digits; and
/// Timoshenko and Gere, *Theory of Elastic Stability*: M = qL²/8 · 2(sec u − 1)/u²,
/// d = 5qL⁴/384EI · 12(2 sec u − 2 − u²)/5u⁴, u = L/2·√(P/EI).
#[test]
fn aisc_case_1() {
    for (p, moment, sag) in
        [(0.0, 235.0, 0.197), (150.0, 269.0, 0.224), (300.0, 313.0, 0.261), (450.0, 375.0, 0.311)]
    {
        let (m, d) = column(p, None, 16);
        near(m, moment, 0.6, "moment");
        near(d, sag, 7e-4, "sag");
        let (q, u) = (0.2 / 12.0, L / 2.0 * f64::sqrt(p / EI));
        let sec = 1.0 / libm::cos(u);
        let (more, further) = match p {
            0.0 => (1.0, 1.0),
            _ => (2.0 * (sec - 1.0) / (u * u), 12.0 * (2.0 * sec - 2.0 - u * u) / (5.0 * u.powi(4))),
        };
        near(m, q * L * L / 8.0 * more, 1e-5 * m, "moment, closed form");
        near(d, 5.0 * q * L.powi(4) / (384.0 * EI) * further, 1e-5 * d, "sag, closed form");
    }
}

/// The same, case 2; closed form M = HL tan a/a, d = HL³/3EI · 3(tan a − a)/a³, a = L√(P/EI).
#[test]
fn aisc_case_2() {
    for (p, moment, sag) in
        [(0.0, 336.0, 0.901), (100.0, 469.0, 1.33), (150.0, 598.0, 1.75), (200.0, 848.0, 2.56)]
    {
        let (m, d) = cantilever(p, None, 16);
        near(m, moment, 1.1, "moment");
        near(d, sag, 6e-3, "sag");
        let a = L * f64::sqrt(p / EI);
        let (more, further) =
            if p == 0.0 { (1.0, 1.0) } else { (libm::tan(a) / a, 3.0 * (libm::tan(a) - a) / a.powi(3)) };
        near(m, L * more, 1e-5 * m, "moment, closed form");
        near(d, L.powi(3) / (3.0 * EI) * further, 1e-5 * d, "sag, closed form");
    }
}

/// Both cases with shear strain, As = d·tw = 4.69 in², G 11 200: sags of the commentary, printed to three
/// digits, half a percent apart in its last figure of each case; and as another solver has them.
#[test]
fn aisc_cases_with_shear() {
    let shear = Some(4.69);
    let first = [(0.0, 0.202, 0.2015), (150.0, 0.230, 0.2305), (300.0, 0.269, 0.2691), (450.0, 0.322, 0.3231)];
    for (p, printed, again) in first {
        let d = column(p, shear, 32).1;
        near(d, printed, 5e-3 * printed, "column, printed");
        near(d, again, 1e-3 * again, "column, another solver");
    }
    let second = [(0.0, 0.907, 0.9072), (100.0, 1.34, 1.3434), (150.0, 1.77, 1.7723), (200.0, 2.60, 2.6095)];
    for (p, printed, again) in second {
        let d = cantilever(p, shear, 32).1;
        near(d, printed, 5e-3 * printed, "cantilever, printed");
        near(d, again, 1e-3 * again, "cantilever, another solver");
    }
}

/// The error falls with the fourth power of the pieces.
#[test]
fn more_pieces() {
    let a = L * f64::sqrt(150.0 / EI);
    let want = L.powi(3) / (3.0 * EI) * 3.0 * (libm::tan(a) - a) / a.powi(3);
    let error = |pieces| cantilever(150.0, None, pieces).1 / want - 1.0;
    let ratio = error(2) / error(4);
    assert!((12.0..20.0).contains(&ratio), "ratio {ratio}");
}

/// A pull stiffens: tanh in the place of tan.
#[test]
fn a_pull_stiffens() {
    let (p, a) = (150.0, L * f64::sqrt(150.0 / EI));
    let (m, d) = cantilever(-p, None, 16);
    near(m, L * libm::tanh(a) / a, 1e-5 * L, "moment");
    near(d, L.powi(3) / (3.0 * EI) * 3.0 * (a - libm::tanh(a)) / a.powi(3), 1e-5, "sag");
}

/// Beyond Euler's load, π²EI/4L² of the cantilever, it does not stand; just below it does.
#[test]
fn beyond_buckling() {
    let euler = std::f64::consts::PI.powi(2) * EI / (4.0 * L * L);
    let mut m = Model::new();
    let (a, b) = (m.support([0.0; 3], CLAMPED), m.support([L, 0.0, 0.0], FREE));
    m.member(a, b, w14x48(None));
    for (share, stands) in [(0.999, true), (1.001, false), (1.5, false), (20.0, false)] {
        let case = LoadCase::new().push(b, [-share * euler, 0.0, -1.0, 0.0, 0.0, 0.0]);
        with(&m, case, |s| {
            let found = s.second_order(16).unwrap();
            assert_eq!(matches!(found, SecondOrder::Stands(_)), stands, "{share} of the buckling load");
        });
    }
    with(&m, LoadCase::new(), |s| assert!(matches!(s.second_order(0), Err(Error::Invalid { .. }))));
}

/// A rigid post on a spring k, height h, pushed down by P and sideways by H: leans by Hh/(k − Ph), by
/// the moment about its foot. The post is partly an arm.
#[test]
fn a_leaning_post() {
    let (h, k, p, side) = (2.0, 5.0, 1.5, 0.01);
    for arm in [0.0, 0.5, 1.0] {
        let mut m = Model::new();
        let foot = m.support([0.0; 3], [true, true, true, false, true, true]);
        m.nodes[foot.0].spring[3] = k;
        let top = m.node([0.0, 0.0, h]);
        m.member(foot, top, section(1e6, 4e5, 1.0, 1.0, 1.0, 1.0));
        last(&mut m).ends[0].offset = [0.0, 0.0, arm];
        bent(&m, LoadCase::new().push(top, [0.0, side, -p, 0.0, 0.0, 0.0]), 2, |b| {
            let turn = side * h / (k - p * h);
            near(b.node(foot)[3], -turn, 1e-4 * turn, "lean");
            near(b.node(top)[1], turn * h, 1e-4 * turn * h, "top");
            // The member begins where the arm ends: what is left of k·turn there.
            let moment = k * turn - (side * arm + p * turn * arm);
            let start = b.members[0][0];
            near(libm::hypot(start.moment[1], start.moment[2]), moment, 2e-4 * moment, "start of the member");
        });
    }
}

/// A frame that sways: the sway of the first order times 1/(1 − P/P_cr) to within the little by which its
/// shape differs from the buckling shape (any text on stability, such as Timoshenko and Gere).
#[test]
fn a_swaying_frame_is_amplified() {
    let mut m = Model::new();
    let at = [[0.0; 3], [0.0, 0.0, 3.0], [4.0, 0.0, 3.0], [4.0, 0.0, 0.0]];
    let n: Vec<NodeId> = at.iter().map(|p| m.node(*p)).collect();
    hold_plane(&mut m);
    for k in [0, 3] {
        m.nodes[k].fixed = [true, true, true, true, false, true];
    }
    for w in n.windows(2) {
        m.member(w[0], w[1], section(3e9, 1e9, 6e-4, 1.5e-7, 1.5e-7, 3e-7));
    }
    last(&mut m).ends[1].joint[4] = Joint::Spring(3e3);
    let case = LoadCase::new()
        .push(n[1], [1.0, 0.0, -20.0, 0.0, 0.0, 0.0])
        .push(n[2], [0.0, 0.0, -20.0, 0.0, 0.0, 0.0]);
    with(&m, case, |s| {
        let options = BucklingOptions { count: 1, pieces: 8 };
        let Buckling::At(modes) = s.buckling(&options).unwrap() else { unreachable!("it buckles") };
        let share = 1.0 / modes[0].factor;
        assert!((0.05..0.95).contains(&share), "share {share}");
        let SecondOrder::Stands(b) = s.second_order(8).unwrap() else { unreachable!("it stands") };
        let want = s.node(n[1])[0] / (1.0 - share);
        near(b.node(n[1])[0], want, 0.02 * want, "sway");
        // Moments of the feet and tops about the feet: all of the load on the bent frame.
        let (a, c) = (b.node(n[1]), b.node(n[2]));
        let turning: f64 = 1.0 * 3.0 + 20.0 * a[0] + 20.0 * (4.0 + c[0]);
        let foot = b.members[2].last().unwrap();
        near(-foot.pull * 4.0, turning, 0.02 * turning, "the far foot carries what turns");
    });
}
