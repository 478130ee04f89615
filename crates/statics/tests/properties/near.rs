//! A frame with a little changed, on the factors of the unchanged one, is the frame that is made so from the start.

use crate::random::{Dice, frame};
use chairwright_statics::{Axes, Error, Link, LoadCase, MemberId, Model, NodeId, Section, Solution, Solver};

/// Links across a random frame, from firm to weak, some without a direction.
fn linked(m: &mut Model, dice: &mut Dice) {
    for _ in 0..3 {
        let (a, b) = (dice.below(m.nodes.len()), dice.below(m.nodes.len()));
        if a == b {
            continue;
        }
        let axes = Axes::with_z_towards(dice.vector(1.0), dice.vector(1.0)).unwrap_or(Axes::GLOBAL);
        let size = [1e3, 1e5, 1e8][dice.below(3)];
        let stiffness =
            std::array::from_fn(|_| if dice.below(4) == 0 { 0.0 } else { dice.between(0.1, 1.0) * size });
        m.links.push(Link { a: NodeId(a), b: NodeId(b), axes, stiffness });
    }
}

/// One change of the kinds that there are.
fn change(m: &mut Model, dice: &mut Dice) {
    let node = dice.below(m.nodes.len());
    let direction = dice.below(6);
    match dice.below(6) {
        0 | 1 => tear(m, dice),
        2 if !m.links.is_empty() => {
            let gone = dice.below(m.links.len());
            m.links.remove(gone);
        }
        3 if !m.links.is_empty() => {
            let which = dice.below(m.links.len());
            m.links[which].stiffness[direction] *= [0.0, 0.3, 5.0][dice.below(3)];
        }
        4 => m.nodes[node].fixed[direction] = true,
        _ => m.nodes[node].spring[direction] = [0.0, 1e3, 1e6][dice.below(3)],
    }
}

/// Takes one end of a member, and with it those of the links at its node, off to a node of its own.
fn tear(m: &mut Model, dice: &mut Dice) {
    let (which, last) = (dice.below(m.members.len()), dice.below(2) == 1);
    let own = m.node([0.0; 3]);
    let member = &mut m.members[which];
    let end = if last { &mut member.j } else { &mut member.i };
    let was = std::mem::replace(end, own);
    m.nodes[own.0].at = m.nodes[was.0].at;
    for link in m.links.iter_mut().filter(|_| dice.below(2) == 0) {
        let there = if link.a == was { Some(&mut link.a) } else { Some(&mut link.b).filter(|b| **b == was) };
        if let Some(end) = there {
            *end = own;
        }
    }
}

/// Largest difference of displacements, forces inside and reactions, each against the largest of its kind.
fn differ(m: &Model, a: &Solution<'_>, b: &Solution<'_>) -> f64 {
    let nodes = || (0..m.nodes.len()).map(NodeId);
    let members = || (0..m.members.len()).map(MemberId);
    let mut worst = 0.0_f64;
    let mut put = |pairs: Vec<(f64, f64)>| {
        let most = pairs.iter().fold(1e-30, |s: f64, p| s.max(p.1.abs()));
        worst = pairs.iter().fold(worst, |w, p| w.max((p.0 - p.1).abs() / most));
    };
    for kinds in [0..3, 3..6] {
        put(nodes()
            .flat_map(|n| kinds.clone().map(move |k| (n, k)))
            .map(|(n, k)| (a.node(n)[k], b.node(n)[k]))
            .collect());
        let ends = members().flat_map(|n| [0, 1].map(|e| (n, e)));
        let ends = ends.flat_map(|(n, e)| kinds.clone().map(move |k| (n, e, k)));
        put(ends.map(|(n, e, k)| (a.ends(n)[e][k], b.ends(n)[e][k])).collect());
        let ground = nodes().flat_map(|n| kinds.clone().map(move |k| (n, k)));
        put(ground.map(|(n, k)| (a.reaction(n)[k], b.reaction(n)[k])).collect());
    }
    worst
}

/// 400 random frames with one to three changes each: displacements, forces and reactions to 1e-9 of the frame factored anew,
/// and never an answer for one that can move.
#[test]
fn a_changed_frame_is_the_frame_made_anew() {
    let (mut near, mut anew, mut moving) = (0, 0, 0);
    for seed in 0..400 {
        let (mut m, case) = frame(seed);
        let mut dice = Dice::new(seed + 77);
        linked(&mut m, &mut dice);
        let solver = Solver::new(&m).unwrap();
        let mut changed = m.clone();
        for _ in 0..=dice.below(3) {
            change(&mut changed, &mut dice);
        }
        let found = solver.near(&changed);
        match Solver::new(&changed) {
            Err(_) => {
                moving += 1;
                assert!(found.is_none(), "frame {seed} can move");
            }
            Ok(own) => {
                anew += 1;
                let Some(found) = found else { continue };
                let case = LoadCase {
                    settlements: case
                        .settlements
                        .iter()
                        .copied()
                        .filter(|s| changed.nodes[s.0.0].fixed[s.1])
                        .collect(),
                    ..case.clone()
                };
                let (Ok(a), Ok(b)) =
                    (found.solve(std::slice::from_ref(&case)), own.solve(std::slice::from_ref(&case)))
                else {
                    continue;
                };
                near += 1;
                let off = differ(&changed, &a[0], &b[0]);
                assert!(off < 1e-9, "frame {seed}: {off:e}, pivot {:e}", found.least_pivot());
                // links of 1e8 N/m beside springs of 1e3 leave 1e-11 by rounding alone
                assert!(a[0].residual() < 1e-10, "frame {seed}: out of balance {:e}", a[0].residual());
            }
        }
    }
    assert!(near * 10 > anew * 8 && moving > 5, "{near} of {anew} on the factors of another; {moving} move");
}

const SECTION: Section =
    Section { e: 200e9, g: 77e9, area: 1e-3, shear_y: None, shear_z: None, iy: 1e-6, iz: 1e-6, j: 2e-6 };

/// A beam of 2 m between two walls, in two halves.
fn held_beam() -> (Model, [NodeId; 3]) {
    let mut m = Model::new();
    let a = m.support([0.0; 3], [true; 6]);
    let middle = m.node([1.0, 0.0, 0.0]);
    let b = m.support([2.0, 0.0, 0.0], [true; 6]);
    m.member(a, middle, SECTION);
    m.member(middle, b, SECTION);
    (m, [a, middle, b])
}

/// Cut in the middle it is a cantilever of 1 m: P L³/3EI (any handbook); the other half hangs without load.
#[test]
fn a_beam_that_is_cut_is_a_cantilever() {
    let (m, [_, middle, _]) = held_beam();
    let solver = Solver::new(&m).unwrap();
    let mut cut = m.clone();
    let own = cut.node([1.0, 0.0, 0.0]);
    cut.members[1].i = own;
    let near = solver.near(&cut).unwrap();
    let solved = near.solve(&[LoadCase::new().push(middle, [0.0, 0.0, -1000.0, 0.0, 0.0, 0.0])]).unwrap();
    let down = 1000.0 / (3.0 * 200e9 * 1e-6);
    assert!((solved[0].node(middle)[2] / -down - 1.0).abs() < 1e-12);
    assert!(solved[0].node(own)[2].abs() < 1e-12 * down);
}

/// A beam of 2 m on two springs, one of which goes as a trestle comes under its middle: without the trestle it would fall over,
/// whichever change is made first. P at the free end sinks by P c²(l + c)/3EI (any handbook, overhanging beam) and by what the
/// other spring rises.
#[test]
fn a_beam_that_is_lifted_off_one_spring_stands_on_its_trestle() {
    let mut m = Model::new();
    let (a, middle, b) = (m.node([0.0; 3]), m.node([1.0, 0.0, 0.0]), m.node([2.0, 0.0, 0.0]));
    m.member(a, middle, SECTION);
    m.member(middle, b, SECTION);
    m.nodes[a.0].fixed = [true, true, false, true, false, true];
    for end in [a, b] {
        m.nodes[end.0].spring[2] = 1e5;
    }
    let solver = Solver::new(&m).unwrap();
    let mut lifted = m.clone();
    lifted.nodes[b.0].spring[2] = 0.0;
    assert!(solver.near(&lifted).is_none());
    lifted.nodes[middle.0].fixed[2] = true;
    let near = solver.near(&lifted).unwrap();
    let solved = near.solve(&[LoadCase::new().push(b, [0.0, 0.0, -1000.0, 0.0, 0.0, 0.0])]).unwrap();
    let down = 2.0 * 1000.0 / (3.0 * 200e9 * 1e-6) + 1000.0 / 1e5;
    assert!((solved[0].node(b)[2] / -down - 1.0).abs() < 1e-12);
    assert!((solved[0].reaction(middle)[2] / 2000.0 - 1.0).abs() < 1e-12);
}

/// A cantilever off its wall flies away, and one wall that is freed is a change of another kind.
#[test]
fn what_can_move_or_is_another_frame_is_not_answered() {
    let mut m = Model::new();
    let a = m.support([0.0; 3], [true; 6]);
    let b = m.node([1.0, 0.0, 0.0]);
    m.member(a, b, SECTION);
    let solver = Solver::new(&m).unwrap();
    let mut loose = m.clone();
    loose.members[0].i = loose.node([0.0; 3]);
    assert!(matches!(Solver::new(&loose), Err(Error::Mechanism(_))));
    assert!(solver.near(&loose).is_none());
    let (m, [_, _, wall]) = held_beam();
    let solver = Solver::new(&m).unwrap();
    let mut freed = m.clone();
    freed.nodes[wall.0].fixed = [false; 6];
    let mut thicker = m.clone();
    thicker.members[0].section.iy *= 2.0;
    let mut moved = m.clone();
    moved.nodes[1].at[2] = 0.1;
    for other in [freed, thicker, moved] {
        assert!(solver.near(&other).is_none());
    }
}
