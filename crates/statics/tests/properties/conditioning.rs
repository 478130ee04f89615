//! Stiffnesses that differ by large factors, against exact answers.

use chairwright_statics::{Error, LoadCase, Model, NodeId, Section, Solver};

const CLAMPED: [bool; 6] = [true; 6];

fn section(e: f64) -> Section {
    Section { e, g: e / 2.6, area: 1e-3, shear_y: None, shear_z: None, iy: 1e-6, iz: 2e-6, j: 1e-6 }
}

/// A cantilever of two halves whose stiffness differs by a factor, either way round. Exact tip:
/// P a³/3 (1/EI₂ + 7/EI₁), a the half length.
#[test]
fn hard_and_soft_halves() {
    for power in 0..=9 {
        let ratio = 10f64.powi(power);
        for (first, second) in [(1e9, 1e9 * ratio), (1e9 * ratio, 1e9)] {
            let mut m = Model::new();
            let n = [m.support([0.0; 3], CLAMPED), m.node([1.0, 0.0, 0.0]), m.node([2.0, 0.0, 0.0])];
            m.member(n[0], n[1], section(first));
            m.member(n[1], n[2], section(second));
            let solver = Solver::new(&m).unwrap();
            let all = solver.solve(&[LoadCase::new().push(n[2], [0.0, 0.0, -7.0, 0.0, 0.0, 0.0])]).unwrap();
            let want = -7.0 / 3.0 * (1.0 / (second * 1e-6) + 7.0 / (first * 1e-6));
            let error = (all[0].node(n[2])[2] / want - 1.0).abs();
            assert!(error < 1e-11, "ratio 1e{power}: off by {error:e}");
            let moment = all[0].reaction(n[0])[4];
            assert!((moment / -14.0 - 1.0).abs() < 1e-9, "ratio 1e{power}: moment {moment}");
        }
    }
}

/// A stiff plate of members on soft ground: sinks by P/k, whatever the ratio up to 1e9.
#[test]
fn stiff_on_soft() {
    for power in [0, 3, 6, 9] {
        let k = 1e6 / 10f64.powi(power);
        let mut m = Model::new();
        let at = [[0.0, 0.0, 0.0], [1.0, 0.0, 0.0], [1.0, 1.0, 0.0], [0.0, 1.0, 0.0]];
        let n: Vec<NodeId> = at.iter().map(|p| m.node(*p)).collect();
        for c in 0..4 {
            m.nodes[c].spring = [k, k, k, 0.0, 0.0, 0.0];
            m.member(n[c], n[(c + 1) % 4], section(1e11));
        }
        let solver = Solver::new(&m).unwrap();
        let push = [0.0, 0.0, -25.0, 0.0, 0.0, 0.0];
        let case = n.iter().fold(LoadCase::new(), |c, &node| c.push(node, push));
        let all = solver.solve(&[case]).unwrap();
        let error = (all[0].node(n[0])[2] * k / -25.0 - 1.0).abs();
        assert!(error < 1e-10, "ratio 1e{power}: off by {error:e}");
    }
}

/// A very long chain: what is lost is made good by corrections, and the estimate owns up to the rest.
#[test]
fn long_chain() {
    for pieces in [10, 100, 1000] {
        let mut m = Model::new();
        let n: Vec<NodeId> = (0..=pieces).map(|k| m.node([k as f64 / pieces as f64, 0.0, 0.0])).collect();
        m.nodes[0].fixed = CLAMPED;
        for w in n.windows(2) {
            m.member(w[0], w[1], section(1e9));
        }
        let solver = Solver::new(&m).unwrap();
        let all = solver.solve(&[LoadCase::new().push(n[pieces], [0.0, 0.0, -3.0, 0.0, 0.0, 0.0])]).unwrap();
        let error = (all[0].node(n[pieces])[2] / -1e-3 - 1.0).abs();
        assert!(error < 1e-9, "{pieces} pieces: off by {error:e}, estimate {:e}", all[0].accuracy());
    }
}

/// Beyond all digits the answer is refused, not made up.
#[test]
fn hopeless_ratios_are_refused() {
    let mut m = Model::new();
    let (a, b) = (m.support([0.0; 3], [true, true, true, true, false, true]), m.node([1.0, 0.0, 0.0]));
    m.member(a, b, section(1e11));
    m.nodes[0].spring[4] = 1e-16;
    assert!(matches!(Solver::new(&m), Err(Error::Mechanism(_) | Error::IllConditioned)));
}
