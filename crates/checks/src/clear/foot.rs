//! The feet with their shoes, as boxes on the foot support.

use crate::clear::convex::{Convex, Form};
use crate::rider::{RiderBody, support};
use chairwright_design::{Design, Side, SupportKind, Vec3};

/// Foot length and breadth as fractions of stature: NYU Technical Report 1166.03 (1966), from memory.
const LENGTH: f64 = 0.152;
const BREADTH: f64 = 0.055;
/// Ankle above the sole as a fraction of stature, from the same, and as high as the box of a foot.
const ANKLE: f64 = 0.039;
/// Heel behind the ankle, as a share of the foot's length. From memory, not checked.
const HEEL: f64 = 0.25;

/// One foot.
#[derive(Clone, Debug)]
pub(crate) struct Foot {
    pub side: Side,
    pub body: Convex,
}

/// The feet that the seated rider has.
pub(crate) fn feet(design: &Design, rider: &RiderBody, assumptions: &mut Vec<String>) -> Vec<Foot> {
    [Side::Left, Side::Right].into_iter().filter_map(|side| foot(design, rider, side, assumptions)).collect()
}

fn foot(design: &Design, rider: &RiderBody, side: Side, assumptions: &mut Vec<String>) -> Option<Foot> {
    let missing = design.rider.sided_word("missing_leg", side).is_some();
    let worn = design.rider.sided_word("prosthesis", side) == Some("on");
    if missing && !worn {
        return None;
    }
    let name = format!("{} foot", side.word());
    let Some(segment) = rider.segments.iter().find(|s| s.name == name) else {
        assumptions.push(format!("the {name} has no place: the casters were not checked against it"));
        return None;
    };
    let (ankle, toe) = segment.ends;
    let along = (toe - ankle).unit()?;
    let left = Vec3::Y.across(along).unit()?;
    let normal = along.cross(left);
    let [length, breadth, height] = size(design, side, segment.ends, assumptions);
    let ankle = on_support(design, ankle, normal, height);
    let middle = ankle + along * (length * (0.5 - HEEL)) - normal * (height / 2.0);
    let half = Vec3::new(length / 2.0, breadth / 2.0, height / 2.0);
    let form = Form::Brick([along * half.x, left * half.y, normal * half.z]);
    Some(Foot { side, body: Convex { form, skin: 0.0, middle, radius: half.norm() } })
}

/// Length, breadth and height of the box around a shoe; what is not given is estimated and said.
fn size(design: &Design, side: Side, ends: (Vec3, Vec3), assumptions: &mut Vec<String>) -> [f64; 3] {
    let rider = &design.rider;
    let stature = rider.get("stature");
    let mut want = |measure: &str, share: f64, other: f64| {
        rider.sided(measure, side).unwrap_or_else(|| {
            let value = stature.map_or(other, |s| share * s);
            let text = format!(
                "rider.{measure}: {:.0} mm, estimated as {share} of stature (from memory)",
                value * 1e3
            );
            if !assumptions.contains(&text) {
                assumptions.push(text);
            }
            value
        })
    };
    let drawn = (ends.1 - ends.0).norm();
    let length = want("foot_length", LENGTH, drawn);
    let breadth = want("foot_width", BREADTH, length * BREADTH / LENGTH);
    let height = stature.map_or(length * ANKLE / LENGTH, |s| ANKLE * s);
    let text = format!(
        "feet: a box of length by breadth, {:.0} mm high, with a quarter of its length behind the ankle (from \
         memory); shoes count as far as the measures were taken with them",
        height * 1e3
    );
    if !assumptions.contains(&text) {
        assumptions.push(text);
    }
    [length, breadth, height]
}

/// The ankle with the sole on the foot support, if there is one: the foot rests there, whatever the length
/// of the shank says.
fn on_support(design: &Design, ankle: Vec3, normal: Vec3, height: f64) -> Vec3 {
    let Some(rest) = support(design, SupportKind::Footrest) else { return ankle };
    ankle - normal * ((ankle - rest.from).dot(normal) - height)
}
