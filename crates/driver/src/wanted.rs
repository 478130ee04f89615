//! Which measures of the rider a figure is worked out from, so that whoever asks for it is told what to measure.

use chairwright_design::{Design, Side};

/// Beginning of a figure's name and the measures that it does without none of. A later row adds to an earlier one.
const WANTED: &[(&str, &[&str])] = &[
    ("tip.", &["mass", "stature"]),
    ("com.total", &["mass", "stature"]),
    ("mass.rider", &["mass"]),
    ("mass.total", &["mass"]),
    ("load.", &["mass", "stature"]),
    ("gap.caster.foot", &["mass", "stature", "hip_width"]),
    ("fit.", &["mass", "stature"]),
    ("fit.width", &["hip_width"]),
    ("fit.depth", &["thigh"]),
    ("fit.back.ease", &["chest_width"]),
    ("fit.knee", &["knee_width"]),
    ("fit.arm.above", &["elbow_height"]),
    ("footrest.drop", &["mass", "stature", "thigh"]),
    ("reach.", &["mass", "stature"]),
    ("reach.elbow", &["upper_arm", "forearm", "shoulder_height"]),
    ("reach.arc", &["upper_arm", "forearm", "shoulder_height"]),
    ("reach.spread", &["upper_arm", "forearm", "shoulder_height"]),
    ("reach.behind", &["upper_arm", "forearm", "shoulder_height"]),
    ("reach.start", &["upper_arm", "forearm", "shoulder_height"]),
    ("reach.axle", &["upper_arm", "forearm", "shoulder_height"]),
    ("reach.grip", &["grip"]),
    ("table.knee", &["thigh_thickness"]),
    ("table.room", &["thigh_thickness"]),
    ("head.", &["head_height", "liked_seat_height"]),
    ("pressure.", &["mass", "stature"]),
];

/// The measures that a figure wants and the rider's block does not give.
pub(crate) fn wanted(design: &Design, figure: &str) -> Vec<&'static str> {
    let given = |m: &str| [Side::Left, Side::Right].iter().any(|s| design.rider.sided(m, *s).is_some());
    let all = WANTED.iter().filter(|(start, _)| figure.starts_with(start)).flat_map(|(_, m)| m.iter().copied());
    all.filter(|m| design.rider.given && !given(m)).collect()
}
