//! What is known of one frame helps with another and changes nothing of it.

use crate::random::{Dice, frame};
use chairwright_statics::{
    Buckling, BucklingOptions, CutFrame, LoadCase, Model, NodeId, Pushed, Solver, pieces,
};

/// Other sections everywhere; and for some a member on another node, so that other nodes meet.
fn other(m: &Model, dice: &mut Dice, elsewhere: bool) -> Model {
    let mut out = m.clone();
    for member in &mut out.members {
        member.section.e *= dice.between(0.2, 5.0);
        member.section.iy *= dice.between(0.2, 5.0);
    }
    if elsewhere {
        let which = dice.below(out.members.len());
        let (i, j) = (out.members[which].i, NodeId(dice.below(out.nodes.len())));
        if j != i && out.nodes[j.0].at != out.nodes[i.0].at {
            out.members[which].j = j;
        }
    }
    out
}

/// 300 random frames after another: every displacement is bit by bit that of the frame by itself, and what cannot stand is refused
/// by both.
#[test]
fn a_frame_like_another_is_the_frame_by_itself() {
    let mut stood = 0;
    for seed in 0..300 {
        let (m, mut load) = frame(seed);
        load.members.clear();
        let mut dice = Dice::new(seed + 9000);
        let first = Solver::new(&m).unwrap();
        let changed = other(&m, &mut dice, seed % 3 == 0);
        match (first.like(&changed), Solver::new(&changed)) {
            (Ok(like), Ok(own)) => {
                let cases = std::slice::from_ref(&load);
                let (a, b) = (like.solve(cases), own.solve(cases));
                let (Ok(a), Ok(b)) = (a, b) else { continue };
                for n in 0..changed.nodes.len() {
                    assert_eq!(a[0].node(NodeId(n)), b[0].node(NodeId(n)), "frame {seed}, node {n}");
                }
                stood += 1;
            }
            (a, b) => assert_eq!(a.is_err(), b.is_err(), "frame {seed}"),
        }
    }
    assert!(stood > 200, "{stood}");
}

/// One load factor is shown to be the least as soon as it is settled; three are sought for longer. 300 random
/// frames, whose members stay whole so that both look at the same: the one is the first of the three.
#[test]
fn one_load_factor_is_the_first_of_three() {
    let mut found = 0;
    for seed in 0..300 {
        let (m, load) = frame(seed);
        let solver = Solver::new(&m).unwrap();
        let Ok(solved) = solver.solve(std::slice::from_ref(&load)) else { continue };
        let at = |count: usize| solved[0].buckling(&BucklingOptions { count, pieces: 1 });
        match (at(1), at(3)) {
            (Ok(Buckling::At(one)), Ok(Buckling::At(three))) => {
                let off = one[0].factor / three[0].factor - 1.0;
                assert!(off.abs() < 1e-6, "frame {seed}: {} and {}", one[0].factor, three[0].factor);
                found += 1;
            }
            (Ok(Buckling::Never), Ok(Buckling::Never)) | (Err(_), _) | (_, Err(_)) => {}
            // what a push that is next to nothing among pulls could do is never waited for
            (Ok(Buckling::Never), Ok(Buckling::At(three))) if three[0].factor > 1e5 => {}
            (one, three) => panic!("frame {seed}: {one:?} and {three:?}"),
        }
    }
    assert!(found > 200, "{found}");
}

/// Sought near the way in which another load makes the frame give way, which is mostly the wrong one, a load factor is the same: 300
/// random frames, each under its own load and under one push somewhere.
#[test]
fn a_load_factor_is_the_same_wherever_it_is_sought_first() {
    let (mut found, mut other_way) = (0, 0);
    for seed in 0..300 {
        let (m, load) = frame(seed);
        let mut dice = Dice::new(seed + 4000);
        let [x, y, z] = dice.vector(1000.0);
        let push = LoadCase::new().push(NodeId(dice.below(m.nodes.len())), [x, y, z, 0.0, 0.0, 0.0]);
        let solver = Solver::new(&m).unwrap();
        let Ok(solved) = solver.solve(&[load, push]) else { continue };
        let cut = CutFrame::new(&solved, &BucklingOptions { count: 1, pieces: 1 }).unwrap();
        let (Ok(Buckling::At(own)), Ok(Buckling::At(others))) = (cut.buckling(0), cut.buckling(1)) else {
            continue;
        };
        let Ok(Buckling::At(near)) = cut.buckling_near(0, Some(&others[0])) else {
            panic!("frame {seed}: nothing is found near another mode")
        };
        let off = near[0].factor / own[0].factor - 1.0;
        assert!(off.abs() < 1e-6, "frame {seed}: {} and {}", near[0].factor, own[0].factor);
        found += 1;
        let all = |m: &chairwright_statics::Mode| m.nodes.concat();
        let along: f64 = all(&own[0]).iter().zip(all(&others[0])).map(|(a, b)| a * b).sum();
        let size = |m| all(m).iter().map(|v| v * v).sum::<f64>().sqrt();
        other_way += usize::from(along.abs() < 0.5 * size(&own[0]) * size(&others[0]));
    }
    assert!(found > 100 && other_way > 20, "{found}, {other_way} of them another way");
}

/// What loads on nodes do as they are put on is what the frame takes up: half of their work, doubled here as the energy is (Clapeyron).
#[test]
fn the_energy_is_the_work_of_the_loads() {
    let mut looked = 0;
    for seed in 0..100 {
        let (mut m, mut load) = frame(seed);
        load.members.clear();
        load.settlements.clear();
        m.panels.clear();
        let Ok(solver) = Solver::new(&m) else { continue };
        let Ok(solved) = solver.solve(std::slice::from_ref(&load)) else { continue };
        let nodes: Vec<[f64; 6]> = (0..m.nodes.len()).map(|n| solved[0].node(NodeId(n))).collect();
        let (members, rest) = solver.energy(&nodes);
        assert!(members.len() == m.members.len() && members.iter().all(|e| *e >= 0.0) && rest >= 0.0);
        let each = load.nodes.iter().flat_map(|(n, f)| f.iter().zip(nodes[n.0]).map(|(f, u)| f * u));
        let (work, energy) = (each.sum::<f64>(), members.iter().sum::<f64>() + rest);
        assert!((energy - work).abs() <= 1e-8 * work.abs(), "frame {seed}: {energy} and {work}");
        looked += 1;
    }
    assert!(looked > 80, "{looked}");
}

/// By hand: the most pushed member is cut into four, one pushed a quarter as much for what it bears into two, one pulled so into two as
/// well, what carries nothing stays whole. Where no push is sure all are cut.
#[test]
fn members_are_cut_by_how_much_they_are_pushed() {
    let of = |least, greatest| Pushed { least, greatest };
    let options = BucklingOptions { count: 1, pieces: 4 };
    assert_eq!(pieces(&[of(8.0, 8.0), of(2.0, 2.0), of(0.0, 2.0), of(0.0, 0.0)], &options), [4, 2, 2, 1]);
    assert_eq!(pieces(&[of(0.0, 3.0), of(0.0, 1.0)], &options), [4, 4]);
    assert_eq!(pieces(&[of(8.0, 8.0)], &BucklingOptions { count: 1, pieces: 1 }), [1]);
    assert!(pieces(&[], &options).is_empty());
}
