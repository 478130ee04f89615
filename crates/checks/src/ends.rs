//! Ends of limbs that contradict what is said to be missing: a length of what is left where nothing is missing, or where
//! nothing is left.

use crate::problem::{Limb, LimbDoubt, Problem};
use chairwright_design::{Design, Origin, Side};

/// What is said of one kind of limb.
struct Words {
    limb: Limb,
    level: &'static str,
    length: &'static str,
    mass: &'static str,
    worn: &'static str,
    /// The level that leaves nothing.
    nothing: &'static str,
}

const LIMBS: [Words; 2] = [
    Words {
        limb: Limb::Leg,
        level: "missing_leg",
        length: "residual_limb",
        mass: "prosthesis_mass",
        worn: "prosthesis",
        nothing: "through_hip",
    },
    Words {
        limb: Limb::Arm,
        level: "missing_arm",
        length: "residual_arm",
        mass: "arm_prosthesis_mass",
        worn: "arm_prosthesis",
        nothing: "through_shoulder",
    },
];

/// Every such contradiction: what the body weighs, and where, then hangs on which of the two is true.
pub(crate) fn contradictions(design: &Design) -> Vec<Problem> {
    LIMBS.iter().flat_map(|w| whole(design, w).into_iter().chain(nothing(design, w))).collect()
}

fn own(name: &str, side: Side) -> String {
    format!("{name}.{}", side.word())
}

fn missing(design: &Design, words: &Words, side: Side) -> bool {
    design.rider.sided_word(words.level, side).is_some()
}

fn told(design: &Design, words: &Words, side: Option<Side>, given: String, doubt: LimbDoubt) -> Problem {
    let known = design.known.iter().find(|k| k.name.strip_prefix("rider.") == Some(given.as_str()));
    let origin: Option<Origin> = known.map(|k| k.origin).or(design.rider.origin);
    Problem::LimbDoubt { limb: words.limb, side, given, doubt, origin }
}

/// What is given of the end of a limb that nobody says misses anything; the first of each side.
fn whole(design: &Design, words: &Words) -> Vec<Problem> {
    let rider = &design.rider;
    let given = |name: &String| rider.get(name).is_some() || rider.word(name) == Some("worn");
    let names = [words.length, words.mass, words.worn];
    let sides = [Side::Left, Side::Right].into_iter().filter(|s| !missing(design, words, *s));
    let whole: Vec<Side> = sides.collect();
    // what is given of one side is not given of both
    let unsided = |name: &String| given(name) && !whole.iter().any(|s| given(&own(name, *s)));
    let both = (whole.len() == 2).then(|| names.map(str::to_owned).into_iter().find(unsided)).flatten();
    let each = whole.iter().filter_map(|s| Some((*s, names.map(|n| own(n, *s)).into_iter().find(given)?)));
    let each = each.map(|(s, name)| told(design, words, Some(s), name, LimbDoubt::Whole));
    each.chain(both.map(|name| told(design, words, None, name, LimbDoubt::Whole))).collect()
}

/// A length of what is left of a limb of which nothing is.
fn nothing(design: &Design, words: &Words) -> Vec<Problem> {
    let rider = &design.rider;
    let gone = |s: &Side| rider.sided_word(words.level, *s) == Some(words.nothing);
    let length = |s: Side| {
        let name = own(words.length, s);
        if rider.get(&name).is_some() {
            return Some(name);
        }
        // the length given for both may be that of the other side
        let other = if s == Side::Left { Side::Right } else { Side::Left };
        let others = missing(design, words, other) && !gone(&other);
        let sided = rider.get(&own(words.length, other)).is_some();
        (rider.get(words.length).is_some() && !others && !sided).then(|| words.length.to_owned())
    };
    let all = [Side::Left, Side::Right].into_iter().filter(gone);
    let mut found: Vec<(Side, String)> = all.filter_map(|s| Some((s, length(s)?))).collect();
    let twice = found.len() == 2 && found[0].1 == found[1].1;
    found.truncate(if twice { 1 } else { 2 });
    let side = |s: Side| (!twice).then_some(s);
    found.into_iter().map(|(s, name)| told(design, words, side(s), name, LimbDoubt::NothingLeft)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(measures: &[(&str, f64)], words: &[(&str, &str)]) -> Vec<(String, Option<Side>, LimbDoubt)> {
        let mut design = Design::default();
        for (name, value) in measures {
            design.rider.measures.insert((*name).to_owned(), *value);
        }
        for (name, word) in words {
            design.rider.words.insert((*name).to_owned(), (*word).to_owned());
        }
        let all = contradictions(&design).into_iter().filter_map(|p| match p {
            Problem::LimbDoubt { side, given, doubt, .. } => Some((given, side, doubt)),
            _ => None,
        });
        all.collect()
    }

    #[test]
    fn an_end_of_a_whole_limb() {
        let whole = |name: &str, side| (name.to_owned(), side, LimbDoubt::Whole);
        let left = ("missing_arm.left", "hand");
        assert_eq!(found(&[("residual_arm", 0.2)], &[]), [whole("residual_arm", None)]);
        assert_eq!(found(&[("residual_arm", 0.2)], &[left]), []);
        assert_eq!(
            found(&[("residual_arm.right", 0.2)], &[left]),
            [whole("residual_arm.right", Some(Side::Right))]
        );
        // a leg's end is not an arm's
        assert_eq!(found(&[("residual_limb", 0.2)], &[left]), [whole("residual_limb", None)]);
        assert_eq!(found(&[], &[("prosthesis", "worn")]), [whole("prosthesis", None)]);
        assert_eq!(found(&[], &[("prosthesis", "none")]), []);
    }

    #[test]
    fn a_length_of_nothing() {
        let none = |name: &str, side| (name.to_owned(), side, LimbDoubt::NothingLeft);
        let gone = ("missing_arm.left", "through_shoulder");
        assert_eq!(found(&[("residual_arm", 0.2)], &[gone]), [none("residual_arm", Some(Side::Left))]);
        assert_eq!(
            found(&[("residual_arm.left", 0.2)], &[gone]),
            [none("residual_arm.left", Some(Side::Left))]
        );
        // of two arms the length is that of the one that is left
        let other = ("missing_arm.right", "above_elbow");
        assert_eq!(found(&[("residual_arm", 0.2)], &[gone, other]), []);
        let both = ("missing_arm", "through_shoulder");
        assert_eq!(found(&[("residual_arm", 0.2)], &[both]), [none("residual_arm", None)]);
    }
}
