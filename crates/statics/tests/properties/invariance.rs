//! Mesh, order, axes, sums, balance.

use super::random::{Dice, frame};
use chairwright_statics::{
    In, LoadCase, MemberId, MemberLoad, Model, NodeId, Orientation, Side, Solution, Solver, Station, split,
};

const SEEDS: u64 = 60;

fn solve<T>(m: &Model, case: &LoadCase, read: impl FnOnce(&Solution<'_>) -> T) -> T {
    let solver = Solver::new(m).unwrap();
    let all = solver.solve(std::slice::from_ref(case)).unwrap();
    read(&all[0])
}

fn displacements(m: &Model, case: &LoadCase) -> Vec<[f64; 6]> {
    solve(m, case, |s| (0..m.nodes.len()).map(|n| s.node(NodeId(n))).collect())
}

fn largest(all: &[[f64; 6]]) -> f64 {
    all.iter().flatten().fold(0.0, |a: f64, v| a.max(v.abs()))
}

fn alike(a: &[[f64; 6]], b: &[[f64; 6]], tolerance: f64, what: &str) {
    let size = largest(a);
    for (x, y) in a.iter().flatten().zip(b.iter().flatten()) {
        assert!((x - y).abs() <= tolerance * size, "{what}: {x:e} and {y:e}, of {size:e}");
    }
}

/// The loads of a member given to its pieces.
fn on_pieces(m: &Model, case: &LoadCase, pieces: usize) -> LoadCase {
    let solver = Solver::new(m).unwrap();
    let all = solver.solve(&[LoadCase::new()]).unwrap();
    let mut out = LoadCase { members: Vec::new(), ..case.clone() };
    for (id, load) in &case.members {
        let part = all[0].length(*id) / pieces as f64;
        for p in 0..pieces {
            let (a, b) = (p as f64 * part, (p + 1) as f64 * part);
            if let Some(cut) = cut(load, a, b, p == 0) {
                out = out.on(MemberId(id.0 * pieces + p), cut);
            }
        }
    }
    out
}

fn cut(load: &MemberLoad, a: f64, b: f64, opens: bool) -> Option<MemberLoad> {
    match *load {
        MemberLoad::Linear { axes, from, to, first, last } => {
            let value =
                |x: f64| std::array::from_fn(|k| first[k] + (last[k] - first[k]) * (x - from) / (to - from));
            let (lo, hi) = (from.max(a), to.min(b));
            let load = MemberLoad::Linear { axes, from: lo - a, to: hi - a, first: value(lo), last: value(hi) };
            (lo < hi).then_some(load)
        }
        MemberLoad::Point { axes, at, force, moment } => {
            let here = (at > a && at <= b) || (opens && at == a);
            here.then_some(MemberLoad::Point { axes, at: at - a, force, moment })
        }
        other => Some(other),
    }
}

#[test]
fn pieces_do_not_matter() {
    for seed in 0..SEEDS {
        let (m, case) = frame(seed);
        let whole = displacements(&m, &case);
        for pieces in [2, 3, 7] {
            let fine = split(&m, pieces);
            let loads = on_pieces(&m, &case, pieces);
            let cut = displacements(&fine, &loads);
            alike(&whole, &cut[..whole.len()], 1e-9, "nodes");
            stations_agree(&m, &case, &fine, &loads, pieces);
        }
    }
}

/// Every new node is a station of the whole member: displacement and forces agree there.
fn stations_agree(m: &Model, case: &LoadCase, fine: &Model, loads: &LoadCase, pieces: usize) {
    let at = |s: &Solution<'_>, id: MemberId, x: f64| s.station(id, x, Side::Before);
    let coarse: Vec<Vec<Station>> = solve(m, case, |s| {
        let one = |k: usize| {
            (1..pieces).map(|p| at(s, MemberId(k), s.length(MemberId(k)) * p as f64 / pieces as f64)).collect()
        };
        (0..m.members.len()).map(one).collect()
    });
    solve(fine, loads, |s| {
        for (k, stations) in coarse.iter().enumerate() {
            for (p, want) in stations.iter().enumerate() {
                let id = MemberId(k * pieces + p);
                let got = at(s, id, s.length(id));
                for d in 0..3 {
                    assert!(
                        (got.displacement[d] - want.displacement[d]).abs() < 1e-8,
                        "displacement of member {k}"
                    );
                    assert!((got.rotation[d] - want.rotation[d]).abs() < 1e-8, "rotation of member {k}");
                    assert!((got.force[d] - want.force[d]).abs() < 1e-5, "force in member {k}");
                    assert!((got.moment[d] - want.moment[d]).abs() < 1e-5, "moment in member {k}");
                }
            }
        }
    });
}

fn shuffled(count: usize, dice: &mut Dice) -> Vec<usize> {
    let mut order: Vec<usize> = (0..count).collect();
    for k in (1..count).rev() {
        order.swap(k, dice.below(k + 1));
    }
    order
}

#[test]
fn order_does_not_matter() {
    for seed in 0..SEEDS {
        let (m, case) = frame(seed);
        let mut dice = Dice::new(seed + 7);
        let (nodes, members) = (shuffled(m.nodes.len(), &mut dice), shuffled(m.members.len(), &mut dice));
        let place = |order: &[usize], k: usize| order.iter().position(|&o| o == k).unwrap();
        let node = |n: NodeId| NodeId(place(&nodes, n.0));
        let mut other = m.clone();
        other.nodes = nodes.iter().map(|&k| m.nodes[k]).collect();
        other.members = members.iter().map(|&k| m.members[k]).collect();
        for b in &mut other.members {
            (b.i, b.j) = (node(b.i), node(b.j));
        }
        let mut loads = case.clone();
        loads.nodes.iter_mut().for_each(|l| l.0 = node(l.0));
        loads.settlements.iter_mut().for_each(|l| l.0 = node(l.0));
        loads.members.iter_mut().for_each(|l| l.0 = MemberId(place(&members, l.0.0)));
        let (a, b) = (displacements(&m, &case), displacements(&other, &loads));
        let back: Vec<[f64; 6]> = (0..a.len()).map(|k| b[place(&nodes, k)]).collect();
        alike(&a, &back, 1e-10, "other order");
    }
}

/// A member turned end for end, with its loads in global axes.
#[test]
fn direction_does_not_matter() {
    for seed in 0..SEEDS {
        let (m, case) = frame(seed);
        let solver = Solver::new(&m).unwrap();
        let all = solver.solve(&[LoadCase::new()]).unwrap();
        let mut case = case;
        case.members.retain(|(_, l)| matches!(l, MemberLoad::Uniform(In::Global, _)));
        let mut other = m.clone();
        for (k, b) in other.members.iter_mut().enumerate() {
            // Local z stays; x and y turn round.
            b.orientation = Orientation::ZTowards(all[0].axes(MemberId(k)).z);
            (b.i, b.j) = (b.j, b.i);
            b.ends.swap(0, 1);
        }
        alike(&displacements(&m, &case), &displacements(&other, &case), 1e-10, "turned round");
    }
}

/// The whole turned about the vertical.
#[test]
fn axes_do_not_matter() {
    let (c, s) = (0.6, 0.8);
    let turn = |v: [f64; 3]| [c * v[0] - s * v[1], s * v[0] + c * v[1], v[2]];
    let six = |v: [f64; 6]| {
        let (a, b) = (turn([v[0], v[1], v[2]]), turn([v[3], v[4], v[5]]));
        [a[0], a[1], a[2], b[0], b[1], b[2]]
    };
    for seed in 0..SEEDS {
        let (mut m, case) = frame(seed);
        for n in &mut m.nodes {
            // Only supports and springs that are the same all round can be turned.
            n.fixed = [n.fixed[0]; 6];
            n.spring = [n.spring[0], n.spring[0], n.spring[2], n.spring[3], n.spring[3], n.spring[5]];
        }
        let mut other = m.clone();
        other.nodes.iter_mut().for_each(|n| n.at = turn(n.at));
        other.members.iter_mut().flat_map(|b| &mut b.ends).for_each(|e| e.offset = turn(e.offset));
        let mut loads = case.clone();
        loads.nodes.iter_mut().for_each(|l| l.1 = six(l.1));
        for (_, l) in &mut loads.members {
            match l {
                MemberLoad::Uniform(In::Global, q) => *q = turn(*q),
                MemberLoad::Linear { axes: In::Global, first, last, .. } => {
                    (*first, *last) = (turn(*first), turn(*last))
                }
                MemberLoad::Point { axes: In::Global, force, moment, .. } => {
                    (*force, *moment) = (turn(*force), turn(*moment))
                }
                _ => {}
            }
        }
        let turned: Vec<[f64; 6]> = displacements(&m, &case).into_iter().map(six).collect();
        alike(&turned, &displacements(&other, &loads), 1e-10, "turned about the vertical");
    }
}

/// Two load cases add up; all in one call or apart gives the same bits.
#[test]
fn cases_add_up() {
    for seed in 0..SEEDS {
        let (m, case) = frame(seed);
        let half = |keep: usize| LoadCase {
            nodes: case.nodes.iter().enumerate().filter(|(k, _)| k % 2 == keep).map(|(_, l)| *l).collect(),
            members: case.members.iter().enumerate().filter(|(k, _)| k % 2 == keep).map(|(_, l)| *l).collect(),
            settlements: case
                .settlements
                .iter()
                .enumerate()
                .filter(|(k, _)| k % 2 == keep)
                .map(|(_, l)| *l)
                .collect(),
        };
        let (a, b, whole) =
            (displacements(&m, &half(0)), displacements(&m, &half(1)), displacements(&m, &case));
        let sum: Vec<[f64; 6]> = a.iter().zip(&b).map(|(x, y)| std::array::from_fn(|k| x[k] + y[k])).collect();
        alike(&whole, &sum, 1e-10, "sum");
    }
}

#[test]
fn the_same_bits_every_time() {
    for seed in 0..SEEDS {
        let (m, case) = frame(seed);
        assert_eq!(displacements(&m, &case), displacements(&m, &case));
    }
}

/// Maxwell: a force here moves there as much as the same force there moves here.
#[test]
fn reciprocal() {
    for seed in 0..SEEDS {
        let (m, _) = frame(seed);
        let (p, q) = (NodeId(1), NodeId(2));
        let one = |k: usize| std::array::from_fn(|d| if d == k { 1.0 } else { 0.0 });
        let solver = Solver::new(&m).unwrap();
        let cases: Vec<LoadCase> =
            (0..6).flat_map(|k| [p, q].map(|n| LoadCase::new().push(n, one(k)))).collect();
        let all = solver.solve(&cases).unwrap();
        let size = all.iter().map(|s| largest(&[s.node(p), s.node(q)])).fold(0.0, f64::max);
        for a in 0..6 {
            for b in 0..6 {
                let (there, here) = (all[2 * a].node(q)[b], all[2 * b + 1].node(p)[a]);
                assert!((there - here).abs() < 1e-11 * size, "{there:e} and {here:e}");
            }
        }
    }
}

/// The ground carries exactly what acts; the worst residual is rounding.
#[test]
fn all_is_in_balance() {
    for seed in 0..SEEDS {
        let (m, mut case) = frame(seed);
        case.members.retain(|(_, l)| matches!(l, MemberLoad::Uniform(In::Global, _)));
        solve(&m, &case, |s| {
            assert!(s.residual() < 1e-10, "residual {:e}", s.residual());
            assert!(s.accuracy() < 1e-8, "accuracy {:e}", s.accuracy());
            let mut sum = [0.0; 3];
            for n in 0..m.nodes.len() {
                let r = s.reaction(NodeId(n));
                (0..3).for_each(|k| sum[k] += r[k]);
            }
            for (_, f) in &case.nodes {
                (0..3).for_each(|k| sum[k] += f[k]);
            }
            for (id, l) in &case.members {
                let MemberLoad::Uniform(_, q) = l else { continue };
                (0..3).for_each(|k| sum[k] += q[k] * s.length(*id));
            }
            assert!(sum.iter().all(|v| v.abs() < 1e-6), "left over: {sum:?}");
        });
    }
}

/// The diagrams obey dN/dx = -q, dM/dx = ∓V and the displacements their strains, by differences.
#[test]
fn diagrams_obey_their_equations() {
    for seed in 0..SEEDS {
        let (m, mut case) = frame(seed);
        case.members.retain(|(_, l)| !matches!(l, MemberLoad::Strain { .. }));
        solve(&m, &case, |s| {
            for (k, b) in m.members.iter().enumerate() {
                let id = MemberId(k);
                let breaks = s.breaks(id);
                for pair in breaks.windows(2).filter(|p| p[1] - p[0] > 1e-2) {
                    let (x, h) = ((pair[0] + pair[1]) / 2.0, 1e-4);
                    let (p, o, n) = (
                        s.station(id, x - h, Side::Before),
                        s.station(id, x, Side::Before),
                        s.station(id, x + h, Side::Before),
                    );
                    let slope = |a: f64, c: f64| (c - a) / (2.0 * h);
                    let size = 1.0 + o.force.iter().chain(&o.moment).fold(0.0, |a: f64, v| a.max(v.abs()));
                    let near =
                        |a: f64, c: f64| assert!((a - c).abs() < 1e-5 * size, "member {k} at {x}: {a} and {c}");
                    near(slope(p.moment[1], n.moment[1]), o.force[2]);
                    near(slope(p.moment[2], n.moment[2]), -o.force[1]);
                    let sec = &b.section;
                    near(sec.e * sec.area * slope(p.displacement[0], n.displacement[0]), o.force[0]);
                    near(sec.g * sec.j * slope(p.rotation[0], n.rotation[0]), o.moment[0]);
                    near(sec.e * sec.iy * slope(p.rotation[1], n.rotation[1]), o.moment[1]);
                    near(sec.e * sec.iz * slope(p.rotation[2], n.rotation[2]), o.moment[2]);
                    let gamma = |v: f64, area: Option<f64>| area.map_or(0.0, |a| v / (sec.g * a));
                    let lean = |got: f64, want: f64| {
                        assert!((got - want).abs() < 1e-6, "member {k}: slope {got} and {want}")
                    };
                    lean(
                        slope(p.displacement[1], n.displacement[1]),
                        o.rotation[2] + gamma(o.force[1], sec.shear_y),
                    );
                    lean(
                        slope(p.displacement[2], n.displacement[2]),
                        -o.rotation[1] + gamma(o.force[2], sec.shear_z),
                    );
                }
            }
        });
    }
}

/// The displacement of a member's far end, walked to from its near end, is that of its node.
#[test]
fn far_ends_meet_their_nodes() {
    for seed in 0..SEEDS {
        let (m, case) = frame(seed);
        solve(&m, &case, |s| {
            for (k, b) in m.members.iter().enumerate() {
                if b.ends.iter().any(|e| e.joint != [chairwright_statics::Joint::Rigid; 6]) {
                    continue;
                }
                let id = MemberId(k);
                let got = s.station(id, s.length(id), Side::After);
                let (u, o, a) = (s.node(b.j), b.ends[1].offset, s.axes(id));
                let tip: [f64; 3] = [
                    u[0] + u[4] * o[2] - u[5] * o[1],
                    u[1] + u[5] * o[0] - u[3] * o[2],
                    u[2] + u[3] * o[1] - u[4] * o[0],
                ];
                let (want, turn) = (a.to_local(tip), a.to_local([u[3], u[4], u[5]]));
                for d in 0..3 {
                    assert!((got.displacement[d] - want[d]).abs() < 1e-10, "member {k}");
                    assert!((got.rotation[d] - turn[d]).abs() < 1e-10, "member {k}");
                }
            }
        });
    }
}
