//! Sheets that only lie on bars: they press and never pull.
//!
//! The solver's model holds such a contact both ways. Here the contacts are found that would have to
//! pull, and let go: every contact either presses or gapes (a linear complementarity problem, solved
//! by block principal pivoting: J. J. Júdice and F. M. Pires, Computers & Operations Research 21,
//! 1994, from memory, not checked). A contact is let go by the pair of forces that its spring still
//! makes, so that one factor serves every load.

use crate::model::Built;
use crate::solve::FINE;
use crate::space::{array, vector};
use crate::structure::{Hold, Structure};
use chairwright_design::Vec3;
use chairwright_statics::{Error, Link, LoadCase, NodeId, Solution, Solver};

/// Changes of side that are tried before the search is given up.
const ROUNDS: usize = 200;
/// Full exchanges without progress before contacts change sides one by one.
const PATIENCE: usize = 8;
/// Share of a contact's own stiffness that must hold a sheet once it is let go: 1e-8 of 1e9 N/m is
/// 10 N/m, and what is held by less comes off.
const HELD: f64 = 1e-8;

/// One contact: a link of the model, along its own first axis.
struct Touch {
    tie: usize,
    link: usize,
}

/// All contacts of a model, and how each answers to letting another go.
pub(crate) struct Contacts {
    touches: Vec<Touch>,
    /// For every contact that was ever let go: by how much each of all closes under a unit pair there.
    answers: Vec<Option<Vec<f64>>>,
}

/// What came of a case, and which contacts were let go for it.
pub(crate) struct Freed<'s> {
    /// Ties, counted among the structure's, and the pair of forces that lets each go, N.
    pub ties: Vec<(usize, f64)>,
    /// The solution with those pairs.
    pub solution: Solution<'s>,
}

/// Why contacts have no answer.
pub(crate) enum Unsettled {
    /// A sheet comes off what it lies on: the ties that gape.
    Leaves(Vec<usize>),
    /// The solver refused.
    Refused(Error),
}

impl Contacts {
    pub fn new(all: &Structure, built: &Built) -> Contacts {
        let lies = |tie: usize| matches!(all.ties[tie].hold, Hold::Bearing { grip: None, .. });
        let touches: Vec<Touch> =
            built.links.iter().filter(|(t, _)| lies(*t)).map(|&(tie, link)| Touch { tie, link }).collect();
        let answers = vec![None; touches.len()];
        Contacts { touches, answers }
    }

    /// By how much each contact is pressed, N; below zero it pulls.
    fn pressed(&self, built: &Built, s: &Solution<'_>) -> Vec<f64> {
        let moved = |n: NodeId| s.node(n);
        self.touches.iter().map(|t| closing(built, moved, t) * link(built, t).stiffness[0]).collect()
    }

    /// Finds the contacts that must let go.
    pub fn settle<'s>(
        &mut self,
        built: &Built,
        solver: &'s Solver,
        (case, first): (&LoadCase, Solution<'s>),
    ) -> Result<Freed<'s>, Unsettled> {
        let pressed = self.pressed(built, &first);
        let least = 1e-3 + 1e-6 * pressed.iter().fold(0.0, |a: f64, p| a.max(p.abs()));
        if pressed.iter().all(|p| *p >= -least) {
            return Ok(Freed { ties: Vec::new(), solution: first });
        }
        let mut open = vec![false; self.touches.len()];
        let (mut fewest, mut patience) = (usize::MAX, PATIENCE);
        for _ in 0..ROUNDS {
            let (forces, left) = self.freed(built, solver, &pressed, &open)?;
            let wrong: Vec<usize> = (0..open.len())
                .filter(|k| if open[*k] { forces[*k] < -least } else { left[*k] < -least })
                .collect();
            let Some(last) = wrong.last().copied() else {
                return self.sure((built, solver), (case, first), (&open, &forces, least));
            };
            let better = wrong.len() < fewest;
            if better {
                (fewest, patience) = (wrong.len(), PATIENCE);
            } else {
                patience = patience.saturating_sub(1);
            }
            let turned = if better || patience > 0 { &wrong[..] } else { &[last][..] };
            for k in turned {
                open[*k] = !open[*k];
            }
        }
        Err(self.gaping(&open))
    }

    fn gaping(&self, open: &[bool]) -> Unsettled {
        let some = self.touches.iter().zip(open).filter(|(_, o)| **o);
        Unsettled::Leaves(some.map(|(t, _)| t.tie).collect())
    }

    /// The pairs of forces that let contacts go, and by how much every contact then is pressed.
    fn freed(
        &mut self,
        built: &Built,
        solver: &Solver,
        pressed: &[f64],
        open: &[bool],
    ) -> Result<(Vec<f64>, Vec<f64>), Unsettled> {
        let who: Vec<usize> = (0..open.len()).filter(|k| open[*k]).collect();
        self.learn(built, solver, &who)?;
        let answer = |row: usize, column: usize| {
            let own = if row == column { 1.0 } else { 0.0 };
            let k = link(built, &self.touches[row]).stiffness[0];
            own + self.answers[column].as_ref().map_or(0.0, |a| k * a[row])
        };
        let mut rows: Vec<Vec<f64>> =
            who.iter().map(|r| who.iter().map(|c| answer(*r, *c)).chain([-pressed[*r]]).collect()).collect();
        let Some(found) = eliminate(&mut rows) else { return Err(self.gaping(open)) };
        let mut forces = vec![0.0; open.len()];
        for (k, force) in who.iter().zip(found) {
            forces[*k] = force;
        }
        let left = |r: usize| pressed[r] + who.iter().map(|c| answer(r, *c) * forces[*c]).sum::<f64>();
        let left = (0..open.len()).map(left).collect();
        Ok((forces, left))
    }

    /// Finds the answers to unit pairs that are not known yet.
    fn learn(&mut self, built: &Built, solver: &Solver, who: &[usize]) -> Result<(), Unsettled> {
        let new: Vec<usize> = who.iter().copied().filter(|k| self.answers[*k].is_none()).collect();
        let cases: Vec<LoadCase> =
            new.iter().map(|k| pair(built, &self.touches[*k], 1.0, LoadCase::new())).collect();
        if cases.is_empty() {
            return Ok(());
        }
        // what comes of it is solved in full, and looked at, when the search is over
        let moved = solver.sketch(&cases).map_err(Unsettled::Refused)?;
        for (k, moved) in new.into_iter().zip(&moved) {
            self.answers[k] = Some(self.touches.iter().map(|t| closing(built, |n| moved[n.0], t)).collect());
        }
        Ok(())
    }

    /// Solves with the pairs and looks whether every contact does what it was found to do.
    fn sure<'s>(
        &self,
        (built, solver): (&Built, &'s Solver),
        (case, first): (&LoadCase, Solution<'s>),
        (open, forces, least): (&[bool], &[f64], f64),
    ) -> Result<Freed<'s>, Unsettled> {
        let mut with = case.clone();
        for (k, t) in self.touches.iter().enumerate().filter(|(k, _)| open[*k]) {
            with = pair(built, t, forces[k], with);
        }
        let solution = solver.solve_from(first, &with, FINE).map_err(Unsettled::Refused)?;
        let slack = 10.0 * least + 0.01;
        let good = self.pressed(built, &solution).into_iter().zip(open.iter().zip(forces));
        let mut good = good.map(|(p, (o, f))| if *o { (p + f).abs() < slack } else { p > -slack });
        if !good.all(|g| g) {
            return Err(self.gaping(open));
        }
        let ties = self.touches.iter().enumerate().filter(|(k, _)| open[*k]);
        Ok(Freed { ties: ties.map(|(k, t)| (t.tie, forces[k])).collect(), solution })
    }
}

fn link<'b>(built: &'b Built, t: &Touch) -> &'b Link {
    &built.model.links[t.link]
}

/// How far the sheet comes nearer to the bar along the contact, m.
fn closing(built: &Built, six: impl Fn(NodeId) -> [f64; 6], t: &Touch) -> f64 {
    let l = link(built, t);
    let at = |n: NodeId| vector(built.model.nodes[n.0].at);
    let middle = at(l.a).mix(at(l.b), 0.5);
    let moved = |n: NodeId| {
        let u = six(n);
        Vec3::new(u[0], u[1], u[2]) + Vec3::new(u[3], u[4], u[5]).cross(middle - at(n))
    };
    (moved(l.b) - moved(l.a)).dot(vector(l.axes.x))
}

/// A force that presses the two sides of a contact apart, N, added to a case.
fn pair(built: &Built, t: &Touch, force: f64, mut case: LoadCase) -> LoadCase {
    let l = link(built, t);
    let at = |n: NodeId| vector(built.model.nodes[n.0].at);
    let middle = at(l.a).mix(at(l.b), 0.5);
    for (n, sign) in [(l.a, 1.0), (l.b, -1.0)] {
        let f = vector(l.axes.x) * (sign * force);
        let ([x, y, z], [a, b, c]) = (array(f), array((middle - at(n)).cross(f)));
        case.nodes.push((n, [x, y, z, a, b, c]));
    }
    case
}

/// Solves a small dense system, the right side its last column; `None` where it does not hold together.
fn eliminate(rows: &mut [Vec<f64>]) -> Option<Vec<f64>> {
    let n = rows.len();
    for k in 0..n {
        let best = (k..n).max_by(|a, b| rows[*a][k].abs().total_cmp(&rows[*b][k].abs()))?;
        rows.swap(k, best);
        if rows[k][k].abs() < HELD {
            return None;
        }
        let (above, below) = rows.split_at_mut(k + 1);
        let top = above.last()?;
        for row in below {
            let share = row[k] / top[k];
            row[k..].iter_mut().zip(&top[k..]).for_each(|(v, t)| *v -= share * t);
        }
    }
    let mut out = vec![0.0; n];
    for k in (0..n).rev() {
        let known: f64 = (k + 1..n).map(|c| rows[k][c] * out[c]).sum();
        out[k] = (rows[k][n] - known) / rows[k][k];
    }
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::Form;
    use crate::hand::{E, bar, matter};
    use crate::model::Setup;
    use crate::structure::{Port, Spot, Tie, TieOf};

    const BOARD: Form = Form::Flat { level: 0.1, upright: 0.030 };
    const RAIL: Form = Form::Rod { diameter: 0.03 };
    const SPAN: f64 = 0.4;

    /// A strip that lies on three rails that do not give, two spans of 0.4 m.
    fn strip(grip: Option<crate::slip::Slip>) -> (Structure, Built) {
        let mut all = Structure {
            bars: vec![bar(Vec3::ZERO, Vec3::Y * (2.0 * SPAN), Vec3::Z, BOARD)],
            ..Structure::default()
        };
        for k in 0..3 {
            let at = SPAN * f64::from(k);
            let middle = Vec3::new(0.0, at, -0.030);
            all.bars.push(bar(middle - Vec3::X * 0.1, middle + Vec3::X * 0.1, Vec3::Z, RAIL));
            let spots =
                vec![Spot::Port(Port { bar: 0, at }), Spot::Port(Port { bar: all.bars.len() - 1, at: 0.1 })];
            all.ties.push(Tie { of: TieOf::Bearing(0), spots, hold: Hold::Bearing { normal: Vec3::Z, grip } });
        }
        let matters = [matter(&BOARD), matter(&RAIL), matter(&RAIL), matter(&RAIL)];
        let mut built = Built::new(&all, &matters, &[], &Setup::default());
        for node in &mut built.model.nodes {
            node.fixed = if node.at[2] < -0.01 { [true; 6] } else { node.fixed };
        }
        (all, built)
    }

    /// A push of 100 N at a place of the strip, halfway along a span or at an end.
    fn push(built: &Built, at: f64) -> LoadCase {
        let (e, x) = built.element_at(Port { bar: 0, at }).unwrap();
        let force = [0.0, 0.0, -100.0];
        let load = chairwright_statics::MemberLoad::Point {
            axes: chairwright_statics::In::Global,
            at: x,
            force,
            moment: [0.0; 3],
        };
        LoadCase::new().on(e.id, load)
    }

    /// Two equal spans under a push in the middle of one: 13/32, 22/32 and -3/32 of it where the rails hold
    /// both ways (any handbook of continuous beams). A board that only lies there lifts off the third, and the other
    /// two share the push: 1/2 and 1/2. Its free end stands P L³/16 EI above the third rail.
    #[test]
    fn a_board_lifts_off_the_rail_that_would_have_to_pull_it_down() {
        let (all, built) = strip(None);
        let solver = Solver::new(&built.model).unwrap();
        let case = push(&built, SPAN / 2.0);
        let both_ways = solver.solve(std::slice::from_ref(&case)).unwrap();
        let mut contacts = Contacts::new(&all, &built);
        let held = contacts.pressed(&built, &both_ways[0]);
        for (got, want) in held.iter().zip([13.0, 22.0, -3.0]) {
            // shear, which handbooks leave out, moves a few per cent of the push
            assert!((got - 100.0 * want / 32.0).abs() < 1.0, "{held:?}");
        }
        let freed = contacts.settle(&built, &solver, (&case, both_ways[0].clone())).ok().unwrap();
        assert_eq!(freed.ties.iter().map(|t| t.0).collect::<Vec<_>>(), [2]);
        let solved = freed.solution;
        let mut pressed = contacts.pressed(&built, &solved);
        pressed[2] += freed.ties[0].1;
        // what keeps the board in its place takes 10 N m a radian at each contact: 0.0015 rad over 0.4 m, 0.04 N
        for (got, want) in pressed.iter().zip([50.0, 50.0, 0.0]) {
            assert!((got - want).abs() < 0.1, "{pressed:?}");
        }
        let gap = -closing(&built, |n| solved.node(n), &contacts.touches[2]);
        let by_hand = 100.0 * SPAN * SPAN * SPAN / (16.0 * E * BOARD.shape(0.38).iy);
        assert!((gap / by_hand - 1.0).abs() < 0.02, "{gap} {by_hand}");
    }

    /// The same from a model in which the third rail is left out.
    #[test]
    fn letting_go_is_the_same_as_leaving_out() {
        let (all, built) = strip(None);
        let solver = Solver::new(&built.model).unwrap();
        let case = push(&built, SPAN / 2.0);
        let first = solver.solve(std::slice::from_ref(&case)).unwrap();
        let freed =
            Contacts::new(&all, &built).settle(&built, &solver, (&case, first[0].clone())).ok().unwrap();
        let solved = freed.solution;
        let mut without = built.clone();
        without.model.links[built.links[2].1].stiffness[0] = 0.0;
        let other = Solver::new(&without.model).unwrap();
        let wanted = other.solve(&[case]).unwrap();
        let most = wanted[0].node(built.node(Spot::Port(Port { bar: 0, at: 2.0 * SPAN })))[2].abs();
        assert!(most > 1e-4, "the free end rises");
        for k in 0..built.model.nodes.len() {
            let (a, b) = (solved.node(NodeId(k)), wanted[0].node(NodeId(k)));
            assert!((0..3).all(|d| (a[d] - b[d]).abs() < 1e-6 * most), "{a:?} {b:?}");
        }
    }

    /// Pushed over the middle rail the board presses on it alone: nothing is let go; and what is fastened is no contact.
    #[test]
    fn what_presses_or_is_fastened_is_left_alone() {
        let (all, built) = strip(Some(crate::slip::Slip { usual: 1e6, least: 0.0 }));
        assert!(Contacts::new(&all, &built).touches.is_empty());
        let (all, built) = strip(None);
        let solver = Solver::new(&built.model).unwrap();
        let case = push(&built, SPAN);
        let first = solver.solve(std::slice::from_ref(&case)).unwrap();
        let found =
            Contacts::new(&all, &built).settle(&built, &solver, (&case, first[0].clone())).ok().unwrap();
        assert!(found.ties.is_empty(), "a push over a rail goes straight into it");
    }

    /// Pulled up, nothing holds it.
    #[test]
    fn a_board_that_is_lifted_comes_off() {
        let (all, built) = strip(None);
        let solver = Solver::new(&built.model).unwrap();
        let mut case = push(&built, SPAN / 2.0);
        for (_, load) in &mut case.members {
            if let chairwright_statics::MemberLoad::Point { force, .. } = load {
                force[2] = 100.0;
            }
        }
        let first = solver.solve(std::slice::from_ref(&case)).unwrap();
        let found = Contacts::new(&all, &built).settle(&built, &solver, (&case, first[0].clone()));
        assert!(matches!(found, Err(Unsettled::Leaves(ties)) if !ties.is_empty()));
    }
}
