//! Panels against closed forms.

use chairwright_statics::{End, LoadCase, MemberId, Model, NodeId, Panel, Section, Side, Solver};

const FLAT: [bool; 6] = [false, true, false, true, false, true];

fn bar(area: f64) -> Section {
    Section { e: 7e9, g: 3e9, area, shear_y: None, shear_z: None, iy: 1e-8, iz: 1e-8, j: 1e-8 }
}

/// A ladder of square bays along x, hinged bars all round, clamped at x = 0, a sheet in every bay.
fn ladder(bays: usize, a: f64, b: f64, area: f64, sheet: Option<(f64, f64)>) -> (Model, Vec<NodeId>) {
    let mut m = Model::new();
    let mut n = Vec::new();
    for k in 0..=bays {
        for z in [0.0, b] {
            let hold = if k == 0 { [true, true, true, true, false, true] } else { FLAT };
            n.push(m.support([a * k as f64, 0.0, z], hold));
        }
    }
    let rod = |m: &mut Model, i: usize, j: usize| {
        m.member(n[i], n[j], bar(area));
        m.members.last_mut().unwrap().ends = [End::PINNED; 2];
    };
    for k in 0..bays {
        rod(&mut m, 2 * k, 2 * k + 2);
        rod(&mut m, 2 * k + 1, 2 * k + 3);
        rod(&mut m, 2 * k + 2, 2 * k + 3);
        if let Some((g, thickness)) = sheet {
            let corners = [n[2 * k], n[2 * k + 2], n[2 * k + 3], n[2 * k + 1]];
            m.panels.push(Panel { corners, thickness, g });
        }
    }
    (m, n)
}

/// Racking of one bay between rigid bars: P·b/(G·t·a) sideways, and the stress P/(t·a).
#[test]
fn one_bay_racks() {
    let (a, b, g, t) = (0.4, 0.7, 6e8, 0.012);
    // Bars so stiff that they count for 1e-7.
    let (mut m, n) = ladder(1, b, a, 1e3, Some((g, t)));
    m.nodes[1].fixed = [true, true, true, true, false, true];
    let solver = Solver::new(&m).unwrap();
    let half = [0.0, 0.0, -250.0, 0.0, 0.0, 0.0];
    let s = &solver.solve(&[LoadCase::new().push(n[2], half).push(n[3], half)]).unwrap()[0];
    let want = -500.0 * b / (g * t * a);
    assert!((s.node(n[2])[2] / want - 1.0).abs() < 1e-4, "{} and {want}", s.node(n[2])[2]);
    assert!((s.panel_stress(0).abs() / (500.0 / (t * a)) - 1.0).abs() < 1e-4);
}

/// The cantilever of stiffened-sheet theory (as in Megson, *Aircraft Structures*): booms of area A take
/// the bending, sheets the shear q = P/b. With bars of one pull each, the boom of bay k carries the
/// moment at its middle; energy gives the tip as Σ 2 N² a/EA + Σ q² a b/Gt, per unit load. Uprights
/// carry P/2 between the halves of the load and the flow of their bay.
#[test]
fn cantilever_of_booms_and_sheets() {
    let (bays, a, b, area, g, t, p) = (5, 0.5, 0.4, 8e-4, 6e8, 0.006, 300.0);
    let (m, n) = ladder(bays, a, b, area, Some((g, t)));
    let solver = Solver::new(&m).unwrap();
    let half = [0.0, 0.0, -p / 2.0, 0.0, 0.0, 0.0];
    let s = &solver.solve(&[LoadCase::new().push(n[2 * bays], half).push(n[2 * bays + 1], half)]).unwrap()[0];
    let mut tip = bays as f64 * p * a / (b * g * t);
    for k in 0..bays {
        let boom = p * a * (bays as f64 - k as f64 - 0.5) / b;
        tip += 2.0 * boom * boom * a / (7e9 * area) / p;
        let pull = s.station(MemberId(3 * k + 1), 0.0, Side::Before).force[0];
        assert!((pull / boom - 1.0).abs() < 1e-9, "upper boom {k}: {pull} and {boom}");
        assert!((s.panel_stress(k).abs() * t * b / p - 1.0).abs() < 1e-9, "flow in bay {k}");
    }
    let got = -s.node(n[2 * bays])[2];
    assert!((got / tip - 1.0).abs() < 1e-9, "tip {got} and {tip}");
}

/// A sheet acts like a pair of crossed bars: for a rectangle, two diagonals of EA = G·t·d³/(2·a·b)
/// have the same stiffness to racking.
#[test]
fn equivalent_diagonals() {
    let (a, b, g, t) = (0.6, 0.45, 5e8, 0.009);
    let d = f64::sqrt(a * a + b * b);
    let (sheet, n) = ladder(1, a, b, 1e-2, Some((g, t)));
    let (mut crossed, _) = ladder(1, a, b, 1e-2, None);
    let diagonal = bar(g * t * d.powi(3) / (2.0 * a * b) / 7e9);
    crossed.member(n[0], n[3], diagonal);
    crossed.member(n[1], n[2], diagonal);
    for k in [3, 4] {
        crossed.members[k].ends = [End::PINNED; 2];
    }
    // Stiff bars, so that only racking is compared: the crossed bars also brace the booms.
    for m in crossed.members[..3].iter_mut() {
        m.section.area = 1e3;
    }
    let mut sheet = sheet;
    for m in &mut sheet.members {
        m.section.area = 1e3;
    }
    let half = [0.0, 0.0, -100.0, 0.0, 0.0, 0.0];
    let case = LoadCase::new().push(n[2], half).push(n[3], half);
    let tip = |m: &Model| Solver::new(m).unwrap().solve(std::slice::from_ref(&case)).unwrap()[0].node(n[2])[2];
    let (x, y) = (tip(&sheet), tip(&crossed));
    assert!((x / y - 1.0).abs() < 1e-4, "{x} and {y}");
}

/// Any rigid motion, of a skew panel too, leaves it without stress; its corner order may start anywhere.
#[test]
fn skew_panels_feel_no_rigid_motion() {
    let at = [[0.0, 0.0, 0.0], [1.0, 0.2, 0.1], [1.3, 1.1, 0.4], [-0.2, 0.8, 0.3]];
    // Made flat: the fourth corner is put into the plane of the others.
    let plane = |p: [f64; 3]| {
        let (u, v) = (at[1], at[2]);
        let n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
        [p[0], p[1], -(n[0] * p[0] + n[1] * p[1]) / n[2]]
    };
    let mut m = Model::new();
    let n: Vec<NodeId> = at.iter().map(|p| m.support(plane(*p), [true; 6])).collect();
    m.panels.push(Panel { corners: [n[0], n[1], n[2], n[3]], thickness: 0.01, g: 1e9 });
    m.panels.push(Panel { corners: [n[2], n[3], n[0], n[1]], thickness: 0.01, g: 1e9 });
    let (shift, turn) = ([0.1, -0.3, 0.2], [0.02, 0.05, -0.04]);
    let mut case = LoadCase::new();
    for (k, node) in m.nodes.iter().enumerate() {
        let r = node.at;
        let moved = [
            shift[0] + turn[1] * r[2] - turn[2] * r[1],
            shift[1] + turn[2] * r[0] - turn[0] * r[2],
            shift[2] + turn[0] * r[1] - turn[1] * r[0],
        ];
        case = moved.iter().enumerate().fold(case, |c, (d, by)| c.settle(n[k], d, *by));
    }
    let solver = Solver::new(&m).unwrap();
    let pulled = case.clone().settle(n[2], 0, 0.01);
    let all = solver.solve(&[case, pulled]).unwrap();
    assert!(all[0].panel_stress(0).abs() < 1e-15 * 1e9 * 10.0);
    assert!(all[1].panel_stress(0).abs() > 1e5, "a corner pulled out does strain it");
    assert!((all[1].panel_stress(0) / all[1].panel_stress(1) - 1.0).abs() < 1e-9);
    // Its own forces are in balance.
    let sum: [f64; 3] = std::array::from_fn(|k| n.iter().map(|&c| all[1].reaction(c)[k]).sum());
    assert!(sum.iter().all(|v| v.abs() < 1e-6));
}
