//! Which hands push, and whether a hand gets to every wheel lock.

use super::reach;
use super::reach::ArmLengths;
use crate::assumed::Assumed;
use crate::problem::Problem;
use crate::{Checked, RiderBody};
use chairwright_design::{Design, Item, ItemKind, Rider, Side, Vec3};

/// How the rider pushes with the hands.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Hands {
    /// The rider does not.
    None,
    /// With both, as far as anybody says.
    Both,
    /// With this one.
    One(Side),
    /// With one of two, and nobody says which.
    Either,
}

impl Hands {
    /// Whether a side's hand is to push its rim.
    pub(crate) fn at(self, side: Side) -> bool {
        match self {
            Hands::None => false,
            Hands::Both | Hands::Either => true,
            Hands::One(hand) => hand == side,
        }
    }
}

/// Whether the arm of a side has its hand.
pub(super) fn has_hand(rider: &Rider, side: Side) -> bool {
    rider.sided_word("missing_arm", side).is_none()
}

/// With which hands the rider pushes: as said, or with what is left of them.
pub(crate) fn hands(rider: &Rider) -> Hands {
    let alone = match [Side::Left, Side::Right].map(|s| has_hand(rider, s)) {
        [true, false] => Some(Side::Left),
        [false, true] => Some(Side::Right),
        _ => None,
    };
    let said = match rider.word("pushing_hand") {
        Some("left") => Some(Side::Left),
        Some("right") => Some(Side::Right),
        _ => None,
    };
    match rider.word("pushes") {
        Some("assistant" | "feet") => Hands::None,
        Some("one_hand") => said.or(alone).map_or(Hands::Either, Hands::One),
        Some(_) => Hands::Both,
        None => alone.map_or(Hands::Both, Hands::One),
    }
}

/// Every wheel lock has to be within reach of a hand: of the one that there is, or of either.
pub(super) fn levers(design: &Design, body: &RiderBody, out: &mut Checked) {
    let (there, alone): (Vec<Side>, bool) = match hands(&design.rider) {
        Hands::None => return,
        Hands::One(hand) => (vec![hand], true),
        Hands::Both | Hands::Either => {
            let both = [Side::Left, Side::Right].into_iter();
            (both.filter(|s| has_hand(&design.rider, *s)).collect(), false)
        }
    };
    let mut locks = design.items.iter().filter(|i| i.kind == ItemKind::Brake).peekable();
    if locks.peek().is_none() || design.name.is_empty() {
        return;
    }
    let reaches = |hand: &Side| {
        let arm = ArmLengths::of(&design.rider, *hand)?;
        Some((*hand, arm.upper + arm.lower, reach::shoulder(design, body, *hand)?))
    };
    let arms: Vec<(Side, f64, Vec3)> = there.iter().filter_map(reaches).collect();
    if arms.len() < there.len() || arms.is_empty() {
        // of two hands the figures of reach miss the same measures
        if alone {
            out.assumptions.push(Assumed::LeversUnreached);
        }
        return;
    }
    for lock in locks {
        let each = arms.iter().map(|(hand, arm, shoulder)| (*hand, *arm, *shoulder, away(lock, *shoulder)));
        let nearest = each.min_by(|a, b| (a.3.1 - a.1).total_cmp(&(b.3.1 - b.1)));
        let Some((hand, arm, shoulder, away)) = nearest else { continue };
        // the shoulder turns about the hips; the greatest way that leaning brings it
        let lean = 2.0 * (shoulder - body.hip).norm() * libm::sin(crate::balance::furthest(design) / 2.0);
        // whoever leans with one hand alone has none to hold on by
        if away.1 > if alone { arm } else { arm + lean } {
            let (brake, origin) = (lock.name.clone(), lock.origin);
            out.problems.push(Problem::LeverFar { brake, origin, hand, alone, away, arm, lean });
        }
    }
}

/// From a point to the nearest and the furthest of a part's outside box: where in it the lever's grip is nobody says.
fn away(item: &Item, from: Vec3) -> (f64, f64) {
    let (half, off) = (item.size * 0.5, from - item.at);
    let short = |off: f64, half: f64| (off.abs() - half.abs()).max(0.0);
    let long = |off: f64, half: f64| off.abs() + half.abs();
    let norm =
        |f: &dyn Fn(f64, f64) -> f64| Vec3::new(f(off.x, half.x), f(off.y, half.y), f(off.z, half.z)).norm();
    (norm(&short), norm(&long))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rider(words: &[(&str, &str)]) -> Rider {
        let words = words.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned()));
        Rider { words: words.collect(), ..Rider::default() }
    }

    #[test]
    fn the_hand_that_is_left_pushes() {
        let left_gone = ("missing_arm.left", "below_elbow");
        assert_eq!(hands(&rider(&[left_gone, ("pushes", "one_hand")])), Hands::One(Side::Right));
        assert_eq!(hands(&rider(&[left_gone])), Hands::One(Side::Right));
        assert_eq!(hands(&rider(&[("pushes", "one_hand")])), Hands::Either);
        let said = [("pushes", "one_hand"), ("pushing_hand", "left")];
        assert_eq!(hands(&rider(&said)), Hands::One(Side::Left));
        assert_eq!(hands(&rider(&[])), Hands::Both);
        assert_eq!(hands(&rider(&[left_gone, ("pushes", "feet")])), Hands::None);
        assert!(Hands::One(Side::Right).at(Side::Right) && !Hands::One(Side::Right).at(Side::Left));
    }
}
