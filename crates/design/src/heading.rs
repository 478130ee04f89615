//! Directions in the words of the chair.

use crate::{Side, Vec3};

/// A direction: the word it is nearest to, and how far it leans aside, in radians, towards which word.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Heading {
    /// `forward`, `back`, `up`, `down`, `left`, `right`; `outward` or `inward` where there is a side.
    pub word: &'static str,
    /// The angle off it, and the word it leans to.
    pub lean: (f64, &'static str),
}

/// The heading of a direction. On a side, left and right are outward or inward.
#[must_use]
pub fn heading(v: Vec3, side: Option<Side>) -> Heading {
    let across = side.map_or(("left", "right"), |s| match s {
        Side::Left => ("outward", "inward"),
        Side::Right => ("inward", "outward"),
    });
    let mut parts = [(v.x, "forward", "back"), (v.y, across.0, across.1), (v.z, "up", "down")];
    parts.sort_by(|a, b| b.0.abs().total_cmp(&a.0.abs()));
    let word = |(d, plus, minus): (f64, &'static str, &'static str)| if d > 0.0 { plus } else { minus };
    Heading { word: word(parts[0]), lean: (libm::atan2(parts[1].0.abs(), parts[0].0.abs()), word(parts[1])) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_heading_names_its_side_and_its_lean() {
        assert_eq!(heading(Vec3::Y, None).word, "left");
        assert_eq!(heading(Vec3::Y, Some(Side::Left)).word, "outward");
        assert_eq!(heading(-Vec3::Y, Some(Side::Right)).word, "outward");
        let lean = heading(Vec3::new(-0.1, 0.0, 1.0), None);
        assert_eq!((lean.word, lean.lean.1), ("up", "back"));
        assert!((lean.lean.0 - 0.099_668_652).abs() < 1e-8, "atan(0.1)");
    }
}
