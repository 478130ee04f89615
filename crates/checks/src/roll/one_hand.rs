//! Pushed at one rim: the hand pulls as much as two would together, beside the middle of the chair, and the chair turns.
//!
//! Casters swivel freely, so that nothing of the chair holds it straight: statics about the middle of the rear contacts.

use super::problem::Problem;
use super::push::{Path, grounds};
use super::stand::{Stand, Stands};
use super::{helped, place};
use crate::Checked;
use crate::assumed::Assumed;
use crate::fit::{Hands, hands};
use chairwright_design::Design;
use chairwright_quantity::Dimension;

const F: Dimension = Dimension::FORCE;
const L: Dimension = Dimension::LENGTH;
const MOMENT: Dimension = Dimension::MOMENT;
const TURNS: &str = "statics: one pull beside the middle, casters swivel freely";

/// What one hand at one rim does to the chair.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct OneHand {
    /// Pull at the rim in N, where each of two hands would pull half.
    pub pull: f64,
    /// What turns the chair, in Nm.
    pub turn: f64,
    /// Push aside at the casters' distance that keeps it straight, in N.
    pub steer: f64,
}

/// A push along the ground that one of two wheels gives.
fn one_hand(push: f64, stand: &Stand) -> Option<OneHand> {
    let turn = push * stand.track / 2.0;
    Some(OneHand { pull: push * stand.lever()?, turn, steer: turn / stand.base })
}

pub(crate) fn turns(
    design: &Design,
    stands: &Stands,
    path: &Path,
    out: &mut Checked,
    found: &mut Vec<Problem>,
) {
    let rider = &design.rider;
    let said = rider.word("pushes") == Some("one_hand");
    let hand = match hands(rider) {
        Hands::One(side) => Some(side),
        Hands::Either => None,
        Hands::None | Hands::Both => return,
    };
    let stand = stands.most(|s| s.weight);
    let Some(rim) = stand.rim else { return };
    if rider.get("push_force").is_some() {
        out.assumptions.push(Assumed::OneHandForce);
    }
    let level = grounds(design).into_iter().filter_map(|g| out.figures.si(&format!("push.most.{}", g.name)));
    let uphill = place(design, "slope").is_some();
    let slope = out.figures.si("push.slope.most").or(Some(path.push(path.slope).1)).filter(|_| uphill);
    let push = level.chain(slope).reduce(f64::max);
    let forces = push.and_then(|p| one_hand(p, stand));
    if let (Some(push), Some(f)) = (push, forces) {
        let inputs = [("push", push, F), ("wheel radius", stand.rear_radius, L), ("rim radius", rim, L)];
        let formula = "greatest push along the ground x wheel radius / rim radius, all of it by one hand";
        out.figures.put("push.one.hand", (f.pull, F), formula, TURNS, &inputs);
        let inputs = [("push", push, F), ("track", stand.track, L)];
        out.figures.put("push.one.turn", (f.turn, MOMENT), "greatest push x track / 2", TURNS, &inputs);
        let inputs = [("push.one.turn", f.turn, MOMENT), ("rear contacts to caster contacts", stand.base, L)];
        let formula = "push.one.turn / distance of the caster contacts ahead of the rear contacts";
        out.figures.put("push.one.steer", (f.steer, F), formula, TURNS, &inputs);
    }
    if helped(design) {
        return;
    }
    if let Some(by) = rider.word("steers") {
        return out.assumptions.push(Assumed::Steered(by.to_owned()));
    }
    found.push(Problem::OneHandTurns { origin: rider.origin, hand, said, forces });
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 20 N along the ground, wheel 300 mm, rim 270 mm, track 500 mm, base 400 mm: 22.22 N at the rim, 20 x 0.25 =
    /// 5 Nm, 12.5 N aside.
    #[test]
    fn one_rim_of_two() {
        let f = one_hand(20.0, &Stand::of(700.0, 0.1, 0.6)).unwrap();
        assert!((f.pull - 22.222).abs() < 1e-3);
        assert!((f.turn - 5.0).abs() < 1e-12);
        assert!((f.steer - 12.5).abs() < 1e-12);
    }
}
