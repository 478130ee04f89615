//! What the path asks of one hand, where the rider says what a hand may push.
//!
//! A chair goes straight only while both hands push alike, so that the weaker one decides and the stronger cannot take over.
//! The push that the ground takes acts at the tyre, the hand on the smaller rim: rim push = half of it x wheel radius / rim
//! radius. It is a steady push; in strokes a hand pushes harder for less of the time.

use super::problem::Problem;
use super::push::Path;
use super::stand::Stand;
use super::{helped, said};
use crate::Checked;
use crate::fit::Hands;
use chairwright_design::{Design, Side};
use chairwright_quantity::Dimension;

const F: Dimension = Dimension::FORCE;
const L: Dimension = Dimension::LENGTH;
const N: Dimension = Dimension::NUMBER;
const HAND: &str = "statics about the rear axle; a steady push, both hands alike where two push";

/// A hand and how hard it pushes, in N along the rim.
type Hand = (Side, f64);

/// Hands on the rims that the rider gives a limit for; of one hand that nobody names the weaker.
pub(crate) fn limits(design: &Design) -> Vec<Hand> {
    limits_of(design, |a, b| if b.1 < a.1 { b } else { a })
}

/// The same where too much is what is asked for: of one hand that nobody names the stronger.
pub(crate) fn strongest(design: &Design) -> Vec<Hand> {
    limits_of(design, |a, b| if b.1 > a.1 { b } else { a })
}

fn limits_of(design: &Design, either: fn(Hand, Hand) -> Hand) -> Vec<Hand> {
    let rider = &design.rider;
    let limit = |side: Side| rider.get(&key(side)).map(|most| (side, most));
    let both = || [Side::Left, Side::Right].into_iter().filter_map(limit);
    match crate::fit::hands(rider) {
        Hands::None => Vec::new(),
        Hands::Both => both().collect(),
        Hands::One(side) => limit(side).into_iter().collect(),
        Hands::Either => both().reduce(either).into_iter().collect(),
    }
}

/// Hands that are judged in this design: nobody helps, and the place says what they push over.
pub(crate) fn judged(design: &Design) -> Vec<Side> {
    let asks =
        super::place(design, "slope").is_some_and(|s| s != 0.0) || !super::push::grounds(design).is_empty();
    if helped(design) || !asks {
        return Vec::new();
    }
    limits(design).into_iter().map(|(side, _)| side).collect()
}

fn key(side: Side) -> String {
    format!("push_force.{}", side.word())
}

/// Whether one hand pushes all of it.
fn alone(design: &Design) -> bool {
    matches!(crate::fit::hands(&design.rider), Hands::One(_) | Hands::Either)
}

/// The push of one hand along its rim, least and most, for a push along the ground; `more` is what a cross slope adds at
/// the lower wheel. Slope and cross slope may lie in different places, and the cross slope on easier ground: at least it is
/// the greater of both, at most their sum.
fn of_each(push: (f64, f64), (share, lever): (f64, f64), more: f64) -> (f64, f64) {
    // one hand alone steers otherwise, or with the same rim: what a cross slope asks of it at least is not known here; at
    // most it pushes the chair and holds it by one rim, at half the track where two hold it at the whole
    let alone = share >= 1.0;
    let across = if alone { 0.0 } else { more };
    let most = if alone { push.1.max(more) } else { share * push.1 };
    ((share * push.0).max(across) * lever, (most + more) * lever)
}

/// Judges each hand; runs after the cross slope is known.
pub(crate) fn hands(design: &Design, stand: &Stand, path: &Path, out: &mut Checked, found: &mut Vec<Problem>) {
    let limits = limits(design);
    if judged(design).is_empty() {
        return;
    }
    let share = if alone(design) { 1.0 } else { 0.5 };
    let lever = stand.lever().unwrap_or(1.0).max(1.0);
    let more = out.figures.si("drift.force").map_or(0.0, f64::abs);
    let each = |push: (f64, f64)| of_each(push, (share, lever), more);
    let need = each(path.push(path.slope));
    for (word, value, push) in
        [("least", need.0, path.push(path.slope).0), ("most", need.1, path.push(path.slope).1)]
    {
        let inputs = [
            ("push along the ground", push, F),
            ("share of one hand", share, N),
            ("drift.force", more, F),
            ("radius of the rear wheel", stand.rear_radius, L),
            ("radius of the push rim", stand.rim.unwrap_or(stand.rear_radius), L),
        ];
        let formula = match (word, share < 1.0) {
            ("least", _) => {
                "the greater of share x push along the ground and drift.force (of two hands), x wheel / rim"
            }
            (_, true) => "(share x push along the ground + drift.force) x wheel / rim",
            (_, false) => "(the greater of push along the ground and drift.force + drift.force) x wheel / rim",
        };
        out.figures.put(format!("push.hand.{word}"), (value, F), formula, HAND, &inputs);
    }
    let up_to = |can: f64| {
        let left = can / lever - more;
        // one hand holds the chair on the cross slope before it pushes it at all
        if share >= 1.0 && left < more { 0.0 } else { path.up_to(left / share) }
    };
    for (side, can) in limits.into_iter().filter(|(_, can)| need.1 > *can) {
        let name = format!("rider.{}", key(side));
        found.push(Problem::HandOvertaxed {
            origin: said(design, &name).or(design.rider.origin),
            side,
            slope: path.slope,
            ground: path.ground().to_owned(),
            need,
            can,
            level: each(path.push(0.0)),
            up_to: up_to(can),
            alone: share > 0.5,
            named: crate::fit::hands(&design.rider) != Hands::Either,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 200 N along the ground are 100 N at each tyre, and 100 x 300 / 250 = 120 N on each rim; a cross slope that takes
    /// 20 N more at the lower wheel makes (100 + 20) x 1.2 = 144 N at most. At least it is the slope alone, 120 N, unless
    /// the cross slope alone takes more: 125 x 1.2 = 150 N.
    #[test]
    fn a_hand_has_half_of_it_on_a_smaller_rim() {
        let near = |got: (f64, f64), want: (f64, f64)| {
            assert!((got.0 - want.0).abs() < 1e-9 && (got.1 - want.1).abs() < 1e-9, "{got:?}");
        };
        near(of_each((200.0, 200.0), (0.5, 1.2), 0.0), (120.0, 120.0));
        near(of_each((200.0, 200.0), (0.5, 1.2), 20.0), (120.0, 144.0));
        near(of_each((200.0, 200.0), (0.5, 1.2), 125.0), (150.0, 270.0));
        near(of_each((200.0, 240.0), (1.0, 1.2), 0.0), (240.0, 288.0));
        near(of_each((200.0, 240.0), (1.0, 1.2), 80.0), (240.0, 384.0));
        // one rim at half the track holds a cross slope by twice what each of two takes: 2 x 300 x 1.2
        near(of_each((200.0, 240.0), (1.0, 1.2), 300.0), (240.0, 720.0));
    }

    /// Who pushes with one hand and does not say which is judged by the weaker; an arm that is missing pushes nothing, and feet
    /// have no hands.
    #[test]
    fn whose_limit_counts() {
        let of = |measures: &[(&str, f64)], words: &[(&str, &str)]| {
            let mut design = Design::default();
            for (name, value) in measures {
                design.rider.measures.insert((*name).to_owned(), *value);
            }
            for (name, word) in words {
                design.rider.words.insert((*name).to_owned(), (*word).to_owned());
            }
            limits(&design)
        };
        let both = [("push_force.left", 40.0), ("push_force.right", 90.0)];
        assert_eq!(of(&both, &[]), [(Side::Left, 40.0), (Side::Right, 90.0)]);
        assert_eq!(of(&both, &[("pushes", "one_hand")]), [(Side::Left, 40.0)]);
        let said = |hand| of(&both, &[("pushes", "one_hand"), ("pushing_hand", hand)]);
        assert_eq!(said("right"), [(Side::Right, 90.0)]);
        assert_eq!(said("left"), [(Side::Left, 40.0)]);
        assert_eq!(of(&both, &[("missing_arm.right", "above_elbow")]), [(Side::Left, 40.0)]);
        assert!(of(&both, &[("pushes", "feet")]).is_empty());
        assert!(of(&[("push_force", 80.0)], &[]).is_empty());
    }
}
