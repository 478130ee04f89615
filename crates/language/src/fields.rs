//! The fields of blocks: the rider, the conditions, and every kind of catalogue entry.

use crate::schema::Kind;
use chairwright_quantity::Dimension;

/// One field of a block.
#[derive(Clone, Copy, Debug)]
pub struct Field {
    /// Its key.
    pub key: &'static str,
    /// What it must be.
    pub kind: Kind,
    /// Whether the block cannot do without it.
    pub required: bool,
}

/// One kind of catalogue entry.
#[derive(Clone, Copy, Debug)]
pub struct EntrySpec {
    /// The keyword.
    pub keyword: &'static str,
    /// Its fields.
    pub fields: &'static [Field],
}

const fn must(key: &'static str, kind: Kind) -> Field {
    Field { key, kind, required: true }
}
const fn may(key: &'static str, kind: Kind) -> Field {
    Field { key, kind, required: false }
}

const LENGTH: Kind = Kind::Quantity(Dimension::LENGTH);
const LENGTH_BAND: Kind = Kind::Band(Dimension::LENGTH);
const MASS: Kind = Kind::Quantity(Dimension::MASS);
const FORCE: Kind = Kind::Quantity(Dimension::FORCE);
const ANGLE: Kind = Kind::Quantity(Dimension::ANGLE);
const MASS_BAND: Kind = Kind::Band(Dimension::MASS);
const FORCE_BAND: Kind = Kind::Band(Dimension::FORCE);
const RESULT: Kind = Kind::Word(&["passed", "failed"]);
const ANGLE_BAND: Kind = Kind::Band(Dimension::ANGLE);
const TIME: Kind = Kind::Quantity(Dimension::TIME);
const STRESS: Kind = Kind::Quantity(Dimension::PRESSURE);
const NUMBER: Kind = Kind::Quantity(Dimension::NUMBER);
const YES: Kind = Kind::Word(&["yes", "no"]);
const ORIGIN: Field = may("origin", Kind::Word(crate::statements::ORIGINS));

/// Kinds of bought part.
pub const PART_KINDS: &[&str] = &[
    "wheel", "caster", "brake", "axle", "cushion", "receiver", "handle", "bag", "tray", "anti_tip", "belt",
    "other",
];

/// Fields that every bought part takes.
const OF_ANY_PART: &[&str] = &["kind", "mass", "note", "origin", "source"];

/// Further fields that a part of a kind takes: those that something is worked out from, or that only tell which one it is.
#[must_use]
pub fn part_takes(kind: &str, key: &str) -> bool {
    let own: &[&str] = match kind {
        "wheel" => &[
            "diameter",
            "loaded_radius",
            "width",
            "hub_width",
            "bore",
            "axle_diameter",
            "rim_diameter",
            "rim_standoff",
            "rim_tube",
            "load_rating",
            "rating_basis",
            "one_sided",
            "stiffness",
        ],
        "caster" => &[
            "diameter",
            "loaded_radius",
            "width",
            "trail",
            "drop",
            "fork_width",
            "stem_diameter",
            "stem_play",
            "load_rating",
            "rating_basis",
            "stiffness",
        ],
        "brake" => &["length", "width", "height", "holding_force", "reach"],
        "axle" => &["axle_diameter", "axle_length", "length"],
        "cushion" => &["thickness", "loaded_thickness"],
        "anti_tip" => &["diameter", "width"],
        "receiver" => &["length", "width", "height", "bore"],
        _ => &["length", "width", "height"],
    };
    OF_ANY_PART.contains(&key) || own.contains(&key)
}

/// What the ground may be.
pub const GROUNDS: &[&str] = &["smooth", "carpet", "concrete", "earth", "gravel", "grass", "sand", "mud"];

/// Where a leg may end.
pub const LEG_LEVELS: &[&str] = &["foot", "below_knee", "through_knee", "above_knee", "through_hip"];

/// Where an arm may end.
pub const ARM_LEVELS: &[&str] = &["hand", "below_elbow", "above_elbow", "through_shoulder"];

/// Every kind of catalogue entry.
pub const ENTRIES: &[EntrySpec] = &[
    EntrySpec {
        keyword: "material",
        fields: &[
            must("density", Kind::Band(Dimension::DENSITY)),
            may("strength", STRESS),
            may("modulus", STRESS),
            may("shear_strength", STRESS),
            may("poisson", NUMBER),
            may("service_temperature", Kind::Quantity(Dimension::READING)),
            may("allowance", Kind::Text),
            may("grade", Kind::Text),
            may("note", Kind::Text),
            ORIGIN,
            must("source", Kind::Text),
        ],
    },
    EntrySpec {
        keyword: "stock",
        fields: &[
            must("shape", Kind::Word(&["pipe", "tube", "rod", "board", "sheet", "webbing"])),
            must("material", Kind::Text),
            may("size", Kind::Text),
            may("outer_diameter", LENGTH_BAND),
            may("wall", LENGTH_BAND),
            may("diameter", LENGTH),
            may("thickness", LENGTH_BAND),
            may("width", LENGTH_BAND),
            may("linear_mass", Kind::Quantity(Dimension::LINEAR_MASS)),
            may("areal_mass", Kind::Quantity(Dimension::AREAL_MASS)),
            may("standard", Kind::Text),
            may("grain", YES),
            may("grade", Kind::Text),
            may("test_lying", Kind::Word(&["flat", "on_edge"])),
            may("test_span", LENGTH),
            may("test_force", FORCE),
            may("test_deflection", LENGTH),
            may("proof_force", FORCE),
            may("sold_length", LENGTH),
            may("sheet_length", LENGTH),
            may("sheet_width", LENGTH),
            may("note", Kind::Text),
            ORIGIN,
            must("source", Kind::Text),
        ],
    },
    EntrySpec {
        keyword: "socket",
        fields: &[
            must("entrance", LENGTH_BAND),
            must("bottom", LENGTH_BAND),
            must("depth", LENGTH),
            must("made_for", Kind::Text),
            ORIGIN,
            must("source", Kind::Text),
        ],
    },
    EntrySpec {
        keyword: "fitting",
        fields: &[
            must(
                "shape",
                Kind::Word(&[
                    "elbow_90", "elbow_45", "tee", "slip_tee", "cross", "corner", "coupling", "cap", "bush",
                ]),
            ),
            must("socket", Kind::Text),
            may("host", Kind::Text),
            must("take_out", LENGTH),
            must("take_out_is", Kind::Word(&["minimum", "measured", "memory"])),
            must("hub", LENGTH),
            must("mass", MASS),
            may("threaded", YES),
            may("stiffness", Kind::Quantity(Dimension::TURNING)),
            ORIGIN,
            must("source", Kind::Text),
        ],
    },
    EntrySpec {
        keyword: "fastener",
        fields: &[
            must("kind", Kind::Word(&["screw", "nail", "bolt", "nut", "washer", "sleeve", "rivet", "dowel"])),
            must("diameter", LENGTH),
            may("length", LENGTH),
            may("head", LENGTH),
            may("outer_diameter", LENGTH),
            may("root_diameter", LENGTH),
            must("mass", MASS),
            ORIGIN,
            must("source", Kind::Text),
        ],
    },
    EntrySpec {
        keyword: "part",
        fields: &[
            must("kind", Kind::Word(PART_KINDS)),
            must("mass", MASS),
            may("diameter", LENGTH_BAND),
            may("loaded_radius", LENGTH),
            may("width", LENGTH),
            may("hub_width", LENGTH),
            may("bore", LENGTH),
            may("axle_diameter", LENGTH),
            may("axle_length", LENGTH),
            may("rim_diameter", LENGTH),
            may("rim_standoff", LENGTH),
            may("rim_tube", LENGTH),
            may("trail", LENGTH),
            may("drop", LENGTH),
            may("stem_diameter", LENGTH),
            may("thickness", LENGTH),
            may("loaded_thickness", LENGTH),
            may("length", LENGTH),
            may("height", LENGTH),
            may("load_rating", MASS),
            may("rating_basis", Kind::Word(&["each", "pair"])),
            may("one_sided", YES),
            may("stiffness", Kind::Quantity(Dimension::STIFFNESS)),
            may("holding_force", FORCE),
            may("reach", LENGTH),
            may("fork_width", LENGTH),
            may("stem_play", ANGLE),
            may("note", Kind::Text),
            ORIGIN,
            must("source", Kind::Text),
        ],
    },
    EntrySpec {
        keyword: "profile",
        fields: &[
            may("rear_locked", Kind::Quantity(Dimension::ANGLE)),
            may("rear_free", Kind::Quantity(Dimension::ANGLE)),
            may("forward", Kind::Quantity(Dimension::ANGLE)),
            may("side", Kind::Quantity(Dimension::ANGLE)),
            may("anti_tip", YES),
            may("shock", NUMBER),
            may("kerb", LENGTH),
            may("helper_push", FORCE),
            must("for_whom", Kind::Text),
            must("reviewed_by", Kind::Text),
            must("dated", Kind::Date),
            must("source", Kind::Text),
        ],
    },
    EntrySpec {
        keyword: "fit_rules",
        fields: &[
            may("seat_width_beyond_hips", LENGTH_BAND),
            may("seat_depth_short_of_thigh", LENGTH_BAND),
            may("footrest_clearance", LENGTH),
            may("back_below_axilla", LENGTH),
            may("back_below_scapula", LENGTH),
            may("side_below_axilla", LENGTH),
            may("arm_above_elbow", LENGTH),
            may("elbow_angle", ANGLE_BAND),
            must("dated", Kind::Date),
            must("source", Kind::Text),
        ],
    },
    EntrySpec {
        keyword: "surface",
        fields: &[
            must("rolling", Kind::Band(Dimension::NUMBER)),
            must("friction", NUMBER),
            must("source", Kind::Text),
        ],
    },
    EntrySpec {
        keyword: "allowance",
        fields: &[
            may("family", Kind::Word(&["plastic", "wood", "plywood", "metal", "cloth"])),
            may("share_lasting", NUMBER),
            may("share_short", NUMBER),
            may("share_blow", NUMBER),
            may("share_repeated", NUMBER),
            may("share_wet", NUMBER),
            may("share_shear", NUMBER),
            may("share_pull", NUMBER),
            may("share_push", NUMBER),
            may("share_low_grade", NUMBER),
            may("share_high_grade", NUMBER),
            may("grade_values", Kind::Word(&["design", "characteristic"])),
            may("grade_bending", STRESS),
            may("grade_pull", STRESS),
            may("grade_push", STRESS),
            may("grade_shear", STRESS),
            may("grade_modulus", STRESS),
            may("at_30_degC", NUMBER),
            may("at_40_degC", NUMBER),
            may("at_50_degC", NUMBER),
            may("at_60_degC", NUMBER),
            may("brittle_below", Kind::Quantity(Dimension::READING)),
            may("creep", NUMBER),
            may("scatter", NUMBER),
            may("notch", NUMBER),
            may("safety", NUMBER),
            may("stiffness", Kind::Quantity(Dimension::STIFFNESS)),
            may("strength", STRESS),
            may("note", Kind::Text),
            ORIGIN,
            must("source", Kind::Text),
        ],
    },
    EntrySpec {
        keyword: "segment",
        fields: &[
            must("share", NUMBER),
            must("centre", NUMBER),
            may("length", NUMBER),
            must("source", Kind::Text),
        ],
    },
];

const SPEED: Dimension = Dimension::SPEED;

/// Fields of the rider that a body has on either side: they are also written `thigh.left`. A side of any other would be
/// read by nothing.
const SIDED: &[&str] = &[
    "thigh",
    "calf",
    "foot_length",
    "foot_width",
    "rib_height",
    "scapula_height",
    "axilla_height",
    "shoulder_height",
    "elbow_height",
    "upper_arm",
    "forearm",
    "thigh_thickness",
    "grip",
    "thumb",
    "hand_width",
    "hip_flexion",
    "knee_flexion",
    "ankle",
    "shoulder_extension",
    "lean_side",
    "push_force",
    "missing_leg",
    "missing_arm",
    "residual_limb",
    "prosthesis",
    "prosthesis_mass",
    "residual_arm",
    "arm_prosthesis",
    "arm_prosthesis_mass",
    "sensation_seat",
    "sensation_legs",
    "past_sore",
];

/// Whether a field of the rider is also written of one side.
#[must_use]
pub fn has_sides(key: &str) -> bool {
    SIDED.contains(&key)
}

/// Measures of the rider. Those with a side are also written `thigh.left`.
pub static RIDER: &[Field] = &[
    may("mass", Kind::Band(Dimension::MASS)),
    may("stature", LENGTH_BAND),
    may("hip_width", LENGTH_BAND),
    may("trochanter_width", LENGTH_BAND),
    may("thigh", LENGTH_BAND),
    may("calf", LENGTH_BAND),
    may("foot_length", LENGTH_BAND),
    may("foot_width", LENGTH_BAND),
    may("rib_height", LENGTH_BAND),
    may("scapula_height", LENGTH_BAND),
    may("axilla_height", LENGTH_BAND),
    may("shoulder_height", LENGTH_BAND),
    may("elbow_height", LENGTH_BAND),
    may("upper_arm", LENGTH_BAND),
    may("forearm", LENGTH_BAND),
    may("chest_width", LENGTH_BAND),
    may("shoulder_width", LENGTH_BAND),
    may("knee_width", LENGTH_BAND),
    may("head_height", LENGTH_BAND),
    may("hip_ahead", LENGTH_BAND),
    may("hip_above", LENGTH_BAND),
    may("thigh_thickness", LENGTH_BAND),
    may("liked_seat_height", LENGTH_BAND),
    may("grip", LENGTH_BAND),
    may("thumb", LENGTH_BAND),
    may("hand_width", LENGTH_BAND),
    may("hip_flexion", ANGLE_BAND),
    may("knee_flexion", ANGLE_BAND),
    may("ankle", ANGLE_BAND),
    may("pelvis_tilt", ANGLE_BAND),
    may("spine", Kind::Word(&["straight", "kyphosis", "lordosis", "scoliosis"])),
    may("shoulder_extension", ANGLE),
    may("lean_forward", ANGLE),
    may("lean_back", ANGLE),
    may("lean_side", ANGLE),
    may("push_force", FORCE),
    may("age", TIME),
    may("grown", LENGTH),
    may("after", TIME),
    may("missing_leg", Kind::Word(LEG_LEVELS)),
    may("missing_arm", Kind::Word(ARM_LEVELS)),
    may("residual_limb", LENGTH_BAND),
    may("prosthesis", Kind::Word(&["none", "off", "worn"])),
    may("prosthesis_mass", MASS),
    may("residual_arm", LENGTH_BAND),
    may("arm_prosthesis", Kind::Word(&["none", "off", "worn"])),
    may("arm_prosthesis_mass", MASS),
    may("trunk", Kind::Word(&["hands_free", "one_hand", "both_hands", "none"])),
    may("pushes", Kind::Word(&["both_hands", "one_hand", "feet", "assistant"])),
    may("pushing_hand", Kind::Word(&["left", "right"])),
    may("steers", Kind::Word(&["foot", "lever", "two_rims"])),
    may("sensation_seat", Kind::Word(&["full", "reduced", "absent"])),
    may("sensation_legs", Kind::Word(&["full", "reduced", "absent"])),
    may("past_sore", YES),
    ORIGIN,
    may("measured_by", Kind::Text),
    may("dated", Kind::Date),
];

/// The place of use.
pub static CONDITIONS: &[Field] = &[
    may("temperature", Kind::Band(Dimension::READING)),
    may("parked_temperature", Kind::Band(Dimension::READING)),
    may("coldest", Kind::Band(Dimension::READING)),
    may("slope", Kind::Quantity(Dimension::ANGLE)),
    may("cross_slope", Kind::Quantity(Dimension::ANGLE)),
    may("door", LENGTH),
    may("sill", LENGTH),
    may("kerb", LENGTH),
    may("slot", LENGTH),
    may("table", LENGTH),
    may("table_depth", LENGTH),
    may("headroom", LENGTH),
    may("toilet", LENGTH),
    may("bed", LENGTH),
    may("corridor", LENGTH),
    may("corridor_to", LENGTH),
    may("turning_space", LENGTH),
    may("boot_length", LENGTH),
    may("boot_width", LENGTH),
    may("boot_height", LENGTH),
    may("sitting", Kind::Quantity(Dimension::TIME)),
    may("water", Kind::Word(&["none", "rain", "fresh", "salt"])),
    may("ground", Kind::Word(GROUNDS)),
    may("route", LENGTH),
    may("speed", Kind::Quantity(SPEED)),
    may("helper", Kind::Word(&["yes", "no", "steps"])),
    may("lift", MASS),
    ORIGIN,
    may("measured_by", Kind::Text),
    may("dated", Kind::Date),
];

/// What may be measured and tried on the built chair: readings, then tests that end in a word, then who, when and
/// what was built. The test sheet says how each is found.
pub static AS_BUILT: &[Field] = &[
    may("width", LENGTH_BAND),
    may("length", LENGTH_BAND),
    may("seat_front", LENGTH_BAND),
    may("seat_rear", LENGTH_BAND),
    may("axle_left", LENGTH_BAND),
    may("axle_right", LENGTH_BAND),
    may("rock", LENGTH_BAND),
    may("toe_left", ANGLE_BAND),
    may("toe_right", ANGLE_BAND),
    may("camber_left", ANGLE_BAND),
    may("camber_right", ANGLE_BAND),
    may("mass", MASS_BAND),
    may("system_mass", MASS_BAND),
    may("load_rear_left", MASS_BAND),
    may("load_rear_right", MASS_BAND),
    may("load_front_left", MASS_BAND),
    may("load_front_right", MASS_BAND),
    may("rear_locked", ANGLE_BAND),
    may("rear_free", ANGLE_BAND),
    may("forward", ANGLE_BAND),
    may("forward_free", ANGLE_BAND),
    may("side", ANGLE_BAND),
    may("rear_locked_least", ANGLE_BAND),
    may("rear_free_least", ANGLE_BAND),
    may("forward_least", ANGLE_BAND),
    may("forward_free_least", ANGLE_BAND),
    may("side_least", ANGLE_BAND),
    may("antitip_touch", ANGLE_BAND),
    may("antitip_tip", ANGLE_BAND),
    may("sag", LENGTH_BAND),
    may("load_set", LENGTH_BAND),
    may("night_set", LENGTH_BAND),
    may("brake_back", FORCE_BAND),
    may("brake_forward", FORCE_BAND),
    may("coast_drift", LENGTH_BAND),
    may("load_sand", MASS_BAND),
    may("night_sand", MASS_BAND),
    may("flutter_speed", Kind::Band(SPEED)),
    may("edge_height", LENGTH_BAND),
    may("drop_height", LENGTH_BAND),
    may("footrest_sand", MASS_BAND),
    may("arm_sand", MASS_BAND),
    may("lift_sand", MASS_BAND),
    may("pieces_test", RESULT),
    may("wheels_test", RESULT),
    may("load_test", RESULT),
    may("night_test", RESULT),
    may("antitip_test", RESULT),
    may("flutter_test", RESULT),
    may("edge_test", RESULT),
    may("bump_test", RESULT),
    may("drop_test", RESULT),
    may("footrest_test", RESULT),
    may("arm_test", RESULT),
    may("lift_test", RESULT),
    may("of_variant", Kind::Text),
    may("of_revision", Kind::Text),
    may("of_rider", Kind::Text),
    may("of_place", Kind::Text),
    may("measured_by", Kind::Text),
    may("dated", Kind::Date),
];

/// What may be measured by tape on a chair that the rider likes.
pub static BASELINE: &[Field] = &[
    may("chair", Kind::Text),
    may("seat_width", LENGTH_BAND),
    may("seat_depth", LENGTH_BAND),
    may("seat_front", LENGTH_BAND),
    may("seat_rear", LENGTH_BAND),
    may("back_height", LENGTH_BAND),
    may("back_angle", ANGLE_BAND),
    may("axle_ahead", LENGTH_BAND),
    may("footrest_clearance", LENGTH_BAND),
    may("wheelbase", LENGTH_BAND),
    may("width", LENGTH_BAND),
    may("length", LENGTH_BAND),
    may("mass", Kind::Band(Dimension::MASS)),
    may("rear_locked", ANGLE_BAND),
    may("rear_free", ANGLE_BAND),
    may("forward", ANGLE_BAND),
    may("side", ANGLE_BAND),
    may("measured_by", Kind::Text),
    may("dated", Kind::Date),
];

/// The catalogue entry with this keyword.
#[must_use]
pub fn entry_spec(keyword: &str) -> Option<&'static EntrySpec> {
    let keyword = chairwright_design::spelling(keyword);
    ENTRIES.iter().find(|e| e.keyword == keyword)
}

/// A field by key; `thigh.left` finds `thigh` where the list is the rider's, `route.earth` finds `route` where
/// it is the conditions'.
#[must_use]
pub fn field(list: &'static [Field], key: &str) -> Option<&'static Field> {
    let plain = key.strip_suffix(".left").or_else(|| key.strip_suffix(".right"));
    let route = key.strip_prefix("route.").is_some_and(|g| GROUNDS.contains(&g));
    list.iter().find(|f| {
        f.key == key
            || (plain == Some(f.key) && std::ptr::eq(list, RIDER) && has_sides(f.key))
            || (route && f.key == "route" && std::ptr::eq(list, CONDITIONS))
    })
}
