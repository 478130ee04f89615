//! Figures at the far ends of what a number can hold: an error or finite answers, never a panic.

use super::random::{Dice, frame};
use chairwright_statics::{Buckling, BucklingOptions, Joint, SecondOrder, Solver};

/// One figure of a sound frame is blown up or shrunk, then all that can be asked is asked.
#[test]
fn extreme_figures_never_panic() {
    let (mut answered, mut refused) = (0, 0);
    for seed in 0..300 {
        let (mut m, mut case) = frame(seed % 20);
        let mut dice = Dice::new(seed);
        let factor = 10f64.powi(dice.between(-300.0, 300.0) as i32);
        let (b, n) = (dice.below(m.members.len()), dice.below(m.nodes.len()));
        let s = &mut m.members[b].section;
        match dice.below(8) {
            0 => s.e *= factor,
            1 => s.g *= factor,
            2 => s.iy *= factor,
            3 => s.shear_y = Some(factor),
            4 => m.nodes[n].at[dice.below(3)] = factor,
            5 => m.nodes[n].spring[dice.below(6)] = factor,
            6 => m.members[b].ends[0].joint[dice.below(6)] = Joint::Spring(factor),
            _ => case.nodes.iter_mut().for_each(|l| l.1[2] *= factor),
        }
        let Ok(solver) = Solver::new(&m) else {
            refused += 1;
            continue;
        };
        let Ok(all) = solver.solve(&[case]) else {
            refused += 1;
            continue;
        };
        answered += 1;
        for k in 0..m.nodes.len() {
            let u = all[0].node(chairwright_statics::NodeId(k));
            assert!(u.iter().all(|v| v.is_finite()), "seed {seed}: {u:?}");
        }
        if let Ok(Buckling::At(modes)) = all[0].buckling(&BucklingOptions { count: 1, pieces: 2 }) {
            assert!(modes.iter().all(|m| m.factor > 0.0), "seed {seed}");
        }
        if let Ok(SecondOrder::Stands(bent)) = all[0].second_order(2) {
            assert!(bent.nodes.iter().flatten().all(|v| v.is_finite()), "seed {seed}");
        }
    }
    assert!(answered > 50 && refused > 20, "{answered} answered, {refused} refused");
}
