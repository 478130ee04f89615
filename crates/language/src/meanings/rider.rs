//! Measures of the rider and of the place of use.

use super::{Meaning, row};

const R: &[&str] = &["rider"];
const C: &[&str] = &["conditions"];

pub(super) const RIDER: &[Meaning] = &[
    row("mass", R, "as weighed, without prostheses"),
    row(
        "stature",
        R,
        "standing height, or the span of the arms; it grows with the rider, and lengths that are not given are shares of it",
    ),
    row(
        "hip_width",
        R,
        "greatest width over the hips, sitting; the seat's width is held against it, and the feet stand by it",
    ),
    row("trochanter_width", R, "over the bones of the hips, sitting; no seat is narrower"),
    row("thigh", R, "back of the pelvis to the hollow of the knee, sitting; by stature if left out"),
    row("calf", R, "hollow of the knee to the heel; by stature if left out"),
    row("foot_length", R, "heel to toes, in the shoe; by stature and a shoe if left out"),
    row("foot_width", R, "across the foot, in the shoe; by stature and a shoe if left out"),
    row(
        "rib_height",
        R,
        "seat to the lower edge of the ribs; where a rule for the back is named, it ends no lower",
    ),
    row("scapula_height", R, "seat to the lower corner of the shoulder blade"),
    row("axilla_height", R, "seat to the armpit"),
    row("shoulder_height", R, "seat to the top of the shoulder"),
    row("elbow_height", R, "seat to the elbow, upper arm hanging"),
    row("upper_arm", R, "shoulder to elbow"),
    row("forearm", R, "elbow to the middle of the closed grip"),
    row("chest_width", R, "across the chest under the arms; a back support is no narrower"),
    row("shoulder_width", R, "across the shoulders; by stature if left out"),
    row("knee_width", R, "over both knees, as they are held"),
    row("head_height", R, "floor to the crown, sitting up on the seat of `liked_seat_height`"),
    row("hip_ahead", R, "back support to the hip joint, square to it; by stature if left out"),
    row("hip_above", R, "top of the loaded seat to the hip joint; by stature if left out"),
    row(
        "thigh_thickness",
        R,
        "top of the loaded cushion to the top of the thigh; the room under a table hangs on it",
    ),
    row("liked_seat_height", R, "floor to the top of the loaded cushion of a seat that the rider likes"),
    row("grip", R, "the thickest tube that the hand closes round, finger tip to thumb"),
    row(
        "thumb",
        R,
        "thickness of the thumb; a brake needs so much room to a push rim where it is more than 20 mm",
    ),
    row("hand_width", R, "across the hand; kept for whoever fits the chair, nothing is worked out from it"),
    row(
        "hip_flexion",
        R,
        "from .. to: how far the hips bend, straight is 0 deg; all that the chair asks if left out",
    ),
    row(
        "knee_flexion",
        R,
        "from .. to: how far the knee bends, straight is 0 deg; all that the chair asks if left out",
    ),
    row(
        "ankle",
        R,
        "from .. to: a square ankle is 0 deg, toes up is positive; all that the chair asks if left out",
    ),
    row(
        "shoulder_extension",
        R,
        "how far the upper arm goes back behind the trunk, the rider sitting upright; 60 deg are taken as usual if left out, 44 deg \
         from 65 years on, and beyond them nobody can tell",
    ),
    row(
        "pelvis_tilt",
        R,
        "how far from upright the pelvis is kept; beyond 10 deg nobody can tell from here how the rider sits",
    ),
    row(
        "spine",
        R,
        "the curve that the back keeps; of any but a straight one nobody can tell from here how the rider sits",
    ),
    row(
        "lean_forward",
        R,
        "how far the trunk leans forward from sitting, as far as this rider reaches; 30 deg if left out",
    ),
    row("lean_back", R, "how far the trunk leans back from sitting; 10 deg if left out"),
    row("lean_side", R, "how far the trunk leans to a side from sitting; 15 deg if left out"),
    row(
        "push_force",
        R,
        "what both hands push together along the ground for a while; of one side what that hand may push at its rim for long. Pushing is \
         told and not judged if left out, and no kerb counts as climbed",
    ),
    row("age", R, "how old; whoever is under 18 years grows, and fingers of a child are looked for in gaps"),
    row(
        "grown",
        R,
        "how much stature grew in the last year; 60 mm a year is taken of whoever says an age under 18 years and not this",
    ),
    row(
        "after",
        R,
        "in a state: how much later it is; the body is then as much larger, by `grown` or a usual rate for its `age`",
    ),
    row("missing_leg", R, "where the leg ends; it is whole if left out"),
    row("missing_arm", R, "where the arm ends; it is whole if left out"),
    row("residual_limb", R, "back of the pelvis to the end of the leg that ends early, knee straight"),
    row("prosthesis", R, "of a leg: none, taken off in the chair, or worn in it"),
    row("prosthesis_mass", R, "of a leg, where it is worn in the chair; the rider is weighed without it"),
    row(
        "residual_arm",
        R,
        "top of the shoulder to the end of the arm that ends early, elbow straight; half of that segment is taken if left out",
    ),
    row("arm_prosthesis", R, "of an arm: none, taken off in the chair, or worn in it"),
    row("arm_prosthesis_mass", R, "of an arm, where it is worn in the chair; the rider is weighed without it"),
    row(
        "trunk",
        R,
        "what holds the trunk upright: itself with the hands free, one hand, both hands, or nothing; hands free if left out",
    ),
    row("pushes", R, "who or what pushes; both hands if left out, or the one that there is"),
    row("pushing_hand", R, "which one, where one hand pushes"),
    row("steers", R, "what keeps a chair straight that one hand pushes"),
    row("sensation_seat", R, "what the skin under the seat feels; flags about skin hang on it"),
    row(
        "sensation_legs",
        R,
        "what the skin of the legs feels; casters keep further from feet that feel little, and hot parts are told of",
    ),
    row("past_sore", R, "whether there was a pressure sore"),
];

pub(super) const PLACE: &[Meaning] = &[
    row(
        "temperature",
        C,
        "of the air where it is ridden, with its spread: heat weakens, cold makes brittle; 23 degC is taken, and said, if left out",
    ),
    row(
        "parked_temperature",
        C,
        "where it stands, at the hottest: in the sun, in a shed; it is ridden from there",
    ),
    row("coldest", C, "the coldest that it is used in; what is brittle in the cold cannot be told without it"),
    row("slope", C, "the steepest ramp along the path, up and down alike"),
    row("cross_slope", C, "the steepest slope across the path, to either side"),
    row("door", C, "clear width of the narrowest door, as the leaf leaves it"),
    row("sill", C, "height of the highest edge that is rolled over as it comes"),
    row("kerb", C, "height of the highest kerb that is taken, up and down"),
    row("slot", C, "widest gap that is crossed, along the path: of a drain, beside a rail"),
    row("table", C, "clear height under the table"),
    row("table_depth", C, "clear depth under the table, from its edge to what ends the room for feet"),
    row("headroom", C, "floor to the lowest lintel or roof on the way"),
    row("toilet", C, "floor to the top of the toilet's seat"),
    row("bed", C, "floor to the top of the bed as it is sat on"),
    row("corridor", C, "clear width of the corridor"),
    row("corridor_to", C, "clear width beyond its corner; with `corridor` the way round is looked at"),
    row("turning_space", C, "diameter of the circle that is free for a turn on the spot"),
    row(
        "boot_length",
        C,
        "one clear side of the boot of the car, through its opening; what nobody measured bounds nothing",
    ),
    row("boot_width", C, "another clear side of the boot"),
    row("boot_height", C, "the third clear side of the boot"),
    row(
        "sitting",
        C,
        "how long the rider sits; kept for whoever fits the chair, nothing is worked out from it",
    ),
    row(
        "water",
        C,
        "what makes it wet; anything but none weakens wood and makes the ground slippery; fresh and salt: it goes into that water, where no belt may tie the rider to it; dry if left out",
    ),
    row("ground", C, "what it mostly rolls on; pushing and sliding are worked out for it"),
    row(
        "route",
        C,
        "`route.gravel` and the like: a stretch on that ground, of which the worst counts; how long it is goes into nothing",
    ),
    row("speed", C, "how fast edges are met, bends taken and casters tested; edges at 1 m/s if left out"),
    row(
        "helper",
        C,
        "whether somebody helps, always or only at steps: what a helper does is then not judged. Nobody does if left out",
    ),
    row("lift", C, "the heaviest piece that whoever loads it lifts"),
];
