//! Fields of catalogue entries.

use super::{Meaning, row};

const PART: &[&str] = &["part"];
const STOCK: &[&str] = &["stock"];
const ALLOWANCE: &[&str] = &["allowance"];
const MATERIAL: &[&str] = &["material"];
const FITTING: &[&str] = &["fitting"];
const FASTENER: &[&str] = &["fastener"];
const PROFILE: &[&str] = &["profile"];
const FIT: &[&str] = &["fit_rules"];

/// Materials, what is cut from them, what joins them, and what they may be asked to bear.
pub(super) const MATTER: &[Meaning] = &[
    row("density", MATERIAL, "mass of a volume; a stock that says no mass of its own is weighed by it"),
    row(
        "strength",
        MATERIAL,
        "mean strength as published, in bending, of plastic and metal in pull; nothing of it is judged without",
    ),
    row("modulus", MATERIAL, "modulus of elasticity: how stiff it is; nothing of it is judged without"),
    row(
        "shear_strength",
        MATERIAL,
        "mean shear strength as published; the allowance's share_shear of `strength` if left out",
    ),
    row("poisson", MATERIAL, "Poisson's ratio; a usual one is taken, and said, if left out"),
    row("service_temperature", MATERIAL, "the hottest that it may be used; in more heat nothing of it passes"),
    row(
        "allowance",
        MATERIAL,
        "name of the allowance that says what of its strength may be used; nothing of it is judged without",
    ),
    row(
        "grade",
        &["material", "stock"],
        "name of the allowance with the design values of the grade that is stamped on it; the lowest is taken if left out",
    ),
    row("shape", STOCK, "what its section is; a pipe goes into sockets, a tube does not"),
    row("material", STOCK, "name of the material that it is made of"),
    row(
        "size",
        STOCK,
        "nominal size in words, as on its print line: findings name it by that. A socket names the pipe itself",
    ),
    row("outer_diameter", STOCK, "of pipe and tube: outside diameter, with its tolerance"),
    row("wall", STOCK, "of pipe and tube: thickness of the wall; strength is reckoned with the least"),
    row("diameter", STOCK, "of a rod: its diameter"),
    row(
        "thickness",
        STOCK,
        "of board, sheet and webbing, as measured and not by its trade name; of several readings the least counts",
    ),
    row(
        "width",
        STOCK,
        "of board and webbing, as measured and not by its trade name; of several readings the least counts",
    ),
    row("linear_mass", STOCK, "mass of a metre; by density and section if left out"),
    row(
        "areal_mass",
        STOCK,
        "of sheet and webbing: mass of a square metre; by density and thickness if left out",
    ),
    row(
        "standard",
        STOCK,
        "the standard on its print line, its body and number: it tells a solid wall from a foam core, which without it, or by a schedule, nobody can; of wood the stamp of a pallet, such as ISPM 15 HT",
    ),
    row(
        "note",
        STOCK,
        "what else its maker or seller says of it; what it tells of a foam core, of a pallet's stamp or of a treatment of wood is heeded",
    ),
    row("grain", STOCK, "of a sheet: whether its faces have a grain; kept, nothing is worked out from it"),
    row("test_lying", STOCK, "bench test of a board: whether it lay flat or on its edge"),
    row("test_span", STOCK, "bench test of a board: between the middles of its two supports"),
    row(
        "test_force",
        STOCK,
        "bench test of a board: the weight at its middle that bent it by test_deflection more",
    ),
    row("test_deflection", STOCK, "bench test of a board: how much more test_force bent its middle"),
    row(
        "proof_force",
        STOCK,
        "bench test of a board: what its middle bore for ten minutes without a sound, and it sprang back",
    ),
    row("sold_length", STOCK, "the usual length on sale, where no price row says it"),
    row("sheet_length", STOCK, "length of the usual sheet on sale, where no price row says it"),
    row("sheet_width", STOCK, "width of the usual sheet on sale, where no price row says it"),
    row("entrance", &["socket"], "inside diameter at its mouth, with its tolerance"),
    row("bottom", &["socket"], "inside diameter at its stop, with its tolerance"),
    row("depth", &["socket"], "from the mouth to the stop: how far a pipe goes in"),
    row("made_for", &["socket"], "name of the pipe that it is made for"),
    row("shape", FITTING, "its pattern: how its ends lie to each other, and whether a pipe runs through"),
    row("socket", FITTING, "name of the socket of its ends; of a bush of the smaller one"),
    row("host", FITTING, "of a bush: name of the socket that it goes into"),
    row(
        "take_out",
        FITTING,
        "from the middle of the fitting, where the members' lines meet, to the stop in its socket: by that each pipe is cut shorter. \
         Measure yours with a rod pushed in to the stop",
    ),
    row(
        "take_out_is",
        FITTING,
        "what that figure is worth: a published minimum, measured on the one that is used, or from memory",
    ),
    row("hub", FITTING, "outside diameter around its sockets"),
    row("mass", &["fitting", "fastener", "part"], "of one"),
    row("threaded", FITTING, "whether an end of it is a thread, which cracks where it is bent; no if left out"),
    row(
        "stiffness",
        FITTING,
        "stiffness of one pipe's end in it against turning, measured or published; rigid if left out, and in a second run as five \
         diameters of pipe more would turn. A `close` that says its own comes first",
    ),
    row("kind", FASTENER, "what it is; a sleeve is a piece of metal tube that lines the hole of a bolt"),
    row(
        "diameter",
        FASTENER,
        "of shank and thread; of nut and washer that of the bolt it goes on, of a sleeve its outside",
    ),
    row("length", FASTENER, "under the head; of a sleeve all of it"),
    row(
        "head",
        FASTENER,
        "of a screw or nail: across its head, which is pulled through what lies under it; 1.9 diameters if left out. Of a bolt it is kept: its nut is no wider",
    ),
    row("outer_diameter", FASTENER, "of a washer: its outside; it lets the bolt sink in less"),
    row(
        "root_diameter",
        FASTENER,
        "in the root of its thread: of a screw a usual share of `diameter` is taken if left out, of a bolt its plain shank; \
         write it for one threaded all along",
    ),
    row(
        "family",
        ALLOWANCE,
        "by which rules it is judged; empty where it is no material but a glue, a cement or a tyre",
    ),
    row(
        "share_lasting",
        ALLOWANCE,
        "share of the strength that is borne for years; loads that last are not judged without",
    ),
    row("share_short", ALLOWANCE, "share of the strength that is borne for seconds to minutes"),
    row("share_blow", ALLOWANCE, "share of the strength that is borne in a blow"),
    row("share_repeated", ALLOWANCE, "share of the strength that is borne 200 000 times"),
    row(
        "share_wet",
        ALLOWANCE,
        "share of the strength that is left when it is wet; wood in the wet is not judged without, others lose nothing",
    ),
    row("share_shear", ALLOWANCE, "shear strength over strength, where the material publishes none"),
    row("share_pull", ALLOWANCE, "of wood: strength in pull along the grain over that in bending"),
    row("share_push", ALLOWANCE, "of wood: strength in push along the grain over that in bending"),
    row(
        "share_low_grade",
        ALLOWANCE,
        "of wood: what knots and slanting grain leave of clear wood in the lowest grade",
    ),
    row(
        "share_high_grade",
        ALLOWANCE,
        "of wood: what they leave in the best grade; what only that bears cannot be told",
    ),
    row(
        "grade_bending",
        ALLOWANCE,
        "of a grade: design value in bending, ten years in the dry, its safety inside",
    ),
    row("grade_pull", ALLOWANCE, "of a grade: design value in pull along the grain"),
    row("grade_push", ALLOWANCE, "of a grade: design value in push along the grain"),
    row(
        "grade_values",
        ALLOWANCE,
        "of a grade: characteristic where its figures are those of a strength class (EN 338), which Eurocode 5 makes values to judge by; \
         design values for ten years under load if left out",
    ),
    row("grade_shear", ALLOWANCE, "of a grade: design value in shear along the grain"),
    row("grade_modulus", ALLOWANCE, "of a grade: mean modulus of elasticity"),
    row("at_30_degC", ALLOWANCE, "share of the strength that is left at 30 degC; all of it is up to 23 degC"),
    row("at_40_degC", ALLOWANCE, "share of the strength that is left at 40 degC"),
    row("at_50_degC", ALLOWANCE, "share of the strength that is left at 50 degC"),
    row(
        "at_60_degC",
        ALLOWANCE,
        "share of the strength that is left at 60 degC; beyond the last that is given nobody can tell",
    ),
    row("brittle_below", ALLOWANCE, "below this a blow breaks it; never if left out"),
    row(
        "creep",
        ALLOWANCE,
        "share of its stiffness that is left after years under load; a cautious one is taken, and said, if left out",
    ),
    row(
        "scatter",
        ALLOWANCE,
        "standard deviation over mean of its strength: the weakest twentieth is judged; none if left out",
    ),
    row(
        "notch",
        ALLOWANCE,
        "by how much a hole or the lip of a socket raises the stress; of plastic 1.5 if left out, of others 1",
    ),
    row("safety", ALLOWANCE, "what may be borne is divided by it; nothing is judged without"),
    row("stiffness", ALLOWANCE, "of a tyre: the load that presses it in, over how far"),
    row("strength", ALLOWANCE, "of a glue or cement: what its line bears in shear"),
];

/// Bought parts.
pub(super) const PARTS: &[Meaning] = &[
    row("kind", PART, "what it is: that decides which of these fields it takes"),
    row(
        "diameter",
        PART,
        "of wheel and caster: over the tyre, without a load; of an anti-tip device over its wheel, 30 mm if left out",
    ),
    row(
        "loaded_radius",
        PART,
        "of wheel and caster: axle to the ground with the rider in the chair; half the diameter if left out",
    ),
    row(
        "width",
        PART,
        "of wheel and caster: across the tyre; of an anti-tip device across its wheel, 20 mm if left out; of others the outside size across the chair, 30 mm if left out; wanted of a receiver, whose axle lies that way",
    ),
    row("hub_width", PART, "of a wheel: between the faces of its hub"),
    row(
        "bore",
        PART,
        "of a wheel: across the hole through its bearings; of a receiver: across the hole that the axle goes into; held against axle_diameter",
    ),
    row(
        "axle_diameter",
        PART,
        "of a wheel: its axle where that comes out of what holds it; of an axle its own, 12 mm if left out",
    ),
    row(
        "axle_length",
        PART,
        "of an axle: usable between its head and its lock; `length` if left out, and one of them is wanted",
    ),
    row("rim_diameter", PART, "of a wheel: its push rim, over all; it has none if left out"),
    row(
        "rim_standoff",
        PART,
        "of a wheel: from the side of the tyre to the push rim; wanted with rim_diameter",
    ),
    row("rim_tube", PART, "of a wheel: across the tube of the push rim; 20 mm if left out"),
    row("trail", PART, "of a caster: from the axis of the stem back to the axle, square to it"),
    row("drop", PART, "of a caster: from the face that the stem is seated on down to the axle"),
    row(
        "stem_diameter",
        PART,
        "of a caster: its stem at the thinnest place, which bends first; nobody can tell without",
    ),
    row("thickness", PART, "of a cushion: with nobody on it"),
    row("loaded_thickness", PART, "of a cushion: under the rider; the free thickness if left out"),
    row("length", PART, "outside size along the chair, 60 mm if left out; of an axle as axle_length"),
    row("height", PART, "outside size upward, 60 mm if left out"),
    row(
        "load_rating",
        PART,
        "of wheel and caster: the load that its maker sells it for; says nothing without rating_basis",
    ),
    row("rating_basis", PART, "of wheel and caster: whether that load is of each or of a pair"),
    row("one_sided", PART, "of a wheel: whether its axle may be held from one side only"),
    row(
        "stiffness",
        PART,
        "of wheel and caster: the load that presses the tyre in, over how far; the allowance of tyres if left out",
    ),
    row(
        "holding_force",
        PART,
        "of a brake: what one holds along the ground, at the softest tyre it is used with; brakes are not judged without",
    ),
    row(
        "reach",
        PART,
        "of a brake: from its middle to the shoe that presses on the tyre; as far as its outside size goes if left out",
    ),
    row("fork_width", PART, "of a caster: outside of its fork; the tyre's width and 16 mm if left out"),
    row(
        "stem_play",
        PART,
        "of a caster: by how much the stem leans in its bearings by hand; flutter cannot be screened without",
    ),
];

/// Sets of rules, ground, and the table of the body.
pub(super) const RULES: &[Meaning] = &[
    row(
        "rear_locked",
        PROFILE,
        "margin beyond the slope of the path that `tip.rear.locked` has to keep; wants nothing if left out",
    ),
    row(
        "rear_free",
        PROFILE,
        "margin beyond the slope of the path that `tip.rear.free` has to keep; wants nothing if left out",
    ),
    row(
        "forward",
        PROFILE,
        "margin beyond the slope of the path that `tip.forward.locked` has to keep; wants nothing if left out",
    ),
    row(
        "side",
        PROFILE,
        "margin beyond the cross slope that `tip.side` has to keep; wants nothing if left out",
    ),
    row("anti_tip", PROFILE, "whether the chair has to have an anti-tip device; no if left out"),
    row(
        "shock",
        PROFILE,
        "peak of everyday bumps, so many times the weight, where that is more than every chair is judged by",
    ),
    row("kerb", PROFILE, "how high a kerb it drops off, where that is more than every chair is judged by"),
    row("helper_push", PROFILE, "how hard a helper pushes, where that is more than every chair is judged by"),
    row("for_whom", PROFILE, "for which riders it was reviewed"),
    row("reviewed_by", PROFILE, "who reviewed it, as a role and never a name"),
    row("seat_width_beyond_hips", FIT, "least .. most that the seat is wider than `hip_width`"),
    row("seat_depth_short_of_thigh", FIT, "least .. most that the seat is less deep than `thigh`"),
    row("footrest_clearance", FIT, "least from the floor to the lowest point of the foot support"),
    row(
        "back_below_axilla",
        FIT,
        "how far below `axilla_height` the back support ends, where back_below_scapula does not hold it",
    ),
    row(
        "back_below_scapula",
        FIT,
        "how far below `scapula_height` the back support ends: at least, for whoever pushes with a free trunk; at most, for a trunk that has to be held up",
    ),
    row("side_below_axilla", FIT, "least from the top of a part beside the trunk up to `axilla_height`"),
    row("arm_above_elbow", FIT, "how far above `elbow_height` the top of an arm support is"),
    row(
        "elbow_angle",
        FIT,
        "least .. most of the elbow with the hand on top of the push rim; straight is 180 deg",
    ),
    row("rolling", &["surface"], "rolling resistance, least .. most, as a share of the weight"),
    row(
        "friction",
        &["surface"],
        "friction of a tyre that is held fast, as a share of the load on it, in the dry",
    ),
    row("share", &["segment"], "its mass as a share of the body's"),
    row("centre", &["segment"], "its centre of mass from the end nearer the trunk, as a share of its length"),
    row("length", &["segment"], "its length as a share of stature"),
];
