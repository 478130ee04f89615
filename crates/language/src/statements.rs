//! The table of statements.

use crate::schema::{ClauseSpec, Kind, Stands, StatementSpec, Subject};
use Stands::{Anywhere, Inside, Text};
use chairwright_quantity::Dimension;

const fn must(word: &'static str, kind: Kind) -> ClauseSpec {
    ClauseSpec { word, kind, required: true }
}
const fn may(word: &'static str, kind: Kind) -> ClauseSpec {
    ClauseSpec { word, kind, required: false }
}

const LENGTH: Kind = Kind::Quantity(Dimension::LENGTH);
const ANGLE: Kind = Kind::Quantity(Dimension::ANGLE);
const NUMBER: Kind = Kind::Quantity(Dimension::NUMBER);
const MASS: Kind = Kind::Quantity(Dimension::MASS);
const FORCE: Kind = Kind::Quantity(Dimension::FORCE);
const TURNING: Kind = Kind::Quantity(Dimension::TURNING);

/// Where a figure comes from.
pub const ORIGINS: &[&str] = &["measured", "data_sheet", "standard", "rule", "estimate"];

/// Clauses that say where a value comes from; any field, `param`, `adjust`, `let` and `load` may have them.
pub const PROVENANCE: [ClauseSpec; 3] =
    [may("origin", Kind::Word(ORIGINS)), may("by", Kind::Text), may("dated", Kind::Date)];
const ORIGIN: ClauseSpec = PROVENANCE[0];
const BY: ClauseSpec = PROVENANCE[1];
const DATED: ClauseSpec = PROVENANCE[2];

const fn statement(
    keyword: &'static str,
    subject: Subject,
    value: Option<Kind>,
    clauses: &'static [ClauseSpec],
    stands: Stands,
    shape: &'static str,
) -> StatementSpec {
    StatementSpec { keyword, subject, value, clauses, stands, shape }
}

const SUPPORT: &[ClauseSpec] = &[
    must("from", Kind::Place),
    must("to", Kind::Place),
    must("width", LENGTH),
    may("cushion", Kind::Part),
    may("times", NUMBER),
    may("sagging", LENGTH),
];
const ARMREST: &[ClauseSpec] = &[must("from", Kind::Place), must("to", Kind::Place), must("width", LENGTH)];
const AT: &[ClauseSpec] = &[must("at", Kind::Place)];
const USING: [ClauseSpec; 2] = [may("using", Kind::Fasteners), may("times", NUMBER)];
/// Where fasteners sit.
const DRIVEN: ClauseSpec = may("driven", Kind::Word(&["undrilled", "slanted"]));
const PLACED: [ClauseSpec; 5] = [
    may("rows", NUMBER),
    may("apart", LENGTH),
    may("spaced", LENGTH),
    may("ends", LENGTH),
    may("edges", LENGTH),
];
const BECAUSE: ClauseSpec = may("because", Kind::Text);

/// All statements but the catalogue entries, which are in [`crate::fields`].
pub const STATEMENTS: &[StatementSpec] = &[
    statement("design", Subject::NewName, None, &[], Text, "design slipway"),
    statement("revision", Subject::Value(Kind::Plain), None, &[], Text, "revision 4"),
    statement("licence", Subject::Value(Kind::Text), None, &[], Text, "licence \"CERN-OHL-S-2.0\""),
    statement(
        "units",
        Subject::Value(Kind::Word(&["metric", "inch"])),
        None,
        &[may("to", LENGTH)],
        Text,
        "units inch to 1/16 in",
    ),
    statement("use", Subject::Value(Kind::Plain), None, &[], Text, "use catalogue.pipe_inch"),
    statement("prices", Subject::Value(Kind::Text), None, &[], Text, "prices \"shop.csv\""),
    statement("rider", Subject::None, None, &[], Text, "rider { mass = 68 kg }"),
    statement("conditions", Subject::None, None, &[], Text, "conditions { slope = 5 deg }"),
    statement(
        "param",
        Subject::NewName,
        Some(Kind::AnyQuantity),
        &[may("within", Kind::AnyQuantity), ORIGIN, BY, DATED],
        Inside,
        "param camber = 2 deg within 0 deg .. 8 deg",
    ),
    statement(
        "adjust",
        Subject::NewName,
        Some(Kind::AnyQuantity),
        &[
            may("within", Kind::AnyQuantity),
            may("every", Kind::AnyQuantity),
            may("steps", Kind::Several),
            ORIGIN,
            BY,
            DATED,
        ],
        Text,
        "adjust axle_ahead = 40 mm steps 20 mm, 40 mm, 60 mm",
    ),
    statement(
        "let",
        Subject::NewName,
        Some(Kind::AnyQuantity),
        &PROVENANCE,
        Anywhere,
        "let half = seat_width / 2",
    ),
    statement("stock", Subject::NewName, Some(Kind::Stock), &[], Inside, "stock rail = \"pipe 1 in sch40\""),
    statement("part", Subject::NewName, Some(Kind::Part), &[], Inside, "part front_wheel = \"caster 125\""),
    statement(
        "assembly",
        Subject::NewName,
        None,
        &[],
        Text,
        "assembly brace { given low joint high at low, up 300 mm }",
    ),
    statement("given", Subject::NewName, None, &[], Stands::Assembly, "given low"),
    statement(
        "fit",
        Subject::NewName,
        Some(Kind::Assembly),
        &[may("at", Kind::Place)],
        Anywhere,
        "fit front_brace = brace at knee { low = heel }",
    ),
    statement(
        "repeat",
        Subject::NewName,
        None,
        &[must("from", NUMBER), must("to", NUMBER)],
        Anywhere,
        "repeat slat from 1 to 5 { joint a at up 300 mm + slat * 50 mm }",
    ),
    statement(
        "when",
        Subject::Value(Kind::Condition),
        None,
        &[],
        Anywhere,
        "when sold(\"slip tee 1 in\") { close hip with \"slip tee 1 in\" }",
    ),
    statement("both", Subject::None, None, &[], Inside, "both sides { joint hip at outward 200 mm }"),
    statement(
        "joint",
        Subject::NewName,
        None,
        &[must("at", Kind::Place), may("on", Kind::Member), may("from", Kind::Joint)],
        Anywhere,
        "joint knee at hip, forward 400 mm",
    ),
    statement(
        "member",
        Subject::NewName,
        Some(Kind::Stock),
        &[must("from", Kind::Joint), must("to", Kind::Joint), may("turned", ANGLE), may("offset", Kind::Steps)],
        Anywhere,
        "member seat_rail = rail from hip to knee",
    ),
    statement(
        "hole",
        Subject::NewName,
        None,
        &[
            must("on", Kind::Member),
            must("at", LENGTH),
            may("from", Kind::Joint),
            must("diameter", LENGTH),
            must("toward", Kind::Toward),
            may("slotted", LENGTH),
            may("times", NUMBER),
            may("every", LENGTH),
        ],
        Anywhere,
        "hole axle_hole on post at 120 mm from foot diameter 12 mm toward outward",
    ),
    statement(
        "sleeve",
        Subject::Value(Kind::Member),
        Some(Kind::Stock),
        &[must("over", LENGTH), may("from", Kind::Joint), may("shimmed", Kind::Text)],
        Anywhere,
        "sleeve shin = \"pipe 1 in sch40\" over 200 mm from heel shimmed \"polyethylene tape\"",
    ),
    statement(
        "panel",
        Subject::NewName,
        Some(Kind::Stock),
        &[must("corners", Kind::Points), may("toward", Kind::Toward)],
        Anywhere,
        "panel deck = ply corners a, b, c, d toward down",
    ),
    statement(
        "box",
        Subject::NewName,
        Some(Kind::Stock),
        &[
            must("from", Kind::Place),
            must("to", Kind::Place),
            must("outside", LENGTH),
            must("by", LENGTH),
            may("grain", Kind::Word(&["lengthwise", "crosswise"])),
        ],
        Anywhere,
        "box axle_box = ply from left.end to right.end outside 90 mm by 60 mm",
    ),
    statement(
        "close",
        Subject::Value(Kind::Joint),
        Some(Kind::Stock),
        &[
            must("with", Kind::Closing),
            may("of", Kind::Member),
            may("against", Kind::Member),
            may("toward", Kind::Toward),
            USING[0],
            USING[1],
            PLACED[0],
            PLACED[1],
            PLACED[2],
            PLACED[3],
            PLACED[4],
            DRIVEN,
            may("glued", Kind::Text),
            may("size", LENGTH),
            may("by", LENGTH),
            may("inserted", LENGTH),
            may("sprung", LENGTH),
            may("stiffness", TURNING),
        ],
        Anywhere,
        "close hip with \"tee 1 in\"",
    ),
    statement(
        "fasten",
        Subject::Value(Kind::Thing),
        None,
        &[
            must("to", Kind::Thing),
            must("using", Kind::Fasteners),
            may("times", NUMBER),
            PLACED[0],
            PLACED[1],
            PLACED[2],
            PLACED[3],
            PLACED[4],
            DRIVEN,
        ],
        Anywhere,
        "fasten deck to left.seat_rail using \"screw 5 x 60\" times 6 rows 2 apart 40 mm spaced 60 mm",
    ),
    statement("seat", Subject::None, Some(Kind::Stock), SUPPORT, Inside, "seat = ply from a to b width 400 mm"),
    statement(
        "back",
        Subject::None,
        Some(Kind::Stock),
        SUPPORT,
        Inside,
        "back = band from a to b width 400 mm",
    ),
    statement(
        "footrest",
        Subject::None,
        Some(Kind::Stock),
        SUPPORT,
        Inside,
        "footrest = ply from a to b width 300 mm",
    ),
    statement(
        "armrest",
        Subject::NewName,
        Some(Kind::Stock),
        ARMREST,
        Anywhere,
        "armrest pad = ply from back_post to front_post width 60 mm",
    ),
    statement(
        "wheel",
        Subject::NewName,
        Some(Kind::Part),
        &[must("at", Kind::Place), may("camber", ANGLE), may("toe", ANGLE)],
        Anywhere,
        "wheel rear = \"wheel 24\" at axle_end camber 2 deg",
    ),
    statement(
        "caster",
        Subject::NewName,
        Some(Kind::Part),
        &[must("at", Kind::Place), may("raked", ANGLE)],
        Anywhere,
        "caster front = \"caster 125\" at stem_seat",
    ),
    statement("brake", Subject::NewName, Some(Kind::Part), AT, Anywhere, "brake lock = \"brake\" at hip"),
    statement("axle", Subject::NewName, Some(Kind::Part), AT, Anywhere, "axle pin = \"axle 12\" at axle_end"),
    statement(
        "item",
        Subject::NewName,
        Some(Kind::Part),
        AT,
        Anywhere,
        "item bag = \"bag\" at crown, back 80 mm",
    ),
    statement(
        "supply",
        Subject::Value(Kind::Text),
        None,
        &[may("times", NUMBER), may("over", LENGTH)],
        Text,
        "supply \"solvent cement\" times 1",
    ),
    statement(
        "load",
        Subject::NewName,
        None,
        &[
            must("at", Kind::Joint),
            must("force", FORCE),
            must("toward", Kind::Toward),
            may("lasting", Kind::Word(&["short", "sustained", "repeated", "blow"])),
            ORIGIN,
            BY,
            DATED,
        ],
        Anywhere,
        "load helper_pull at left.top force 300 N toward back lasting short",
    ),
    statement(
        "require",
        Subject::Value(Kind::Condition),
        None,
        &[may("else", Kind::Text)],
        Inside,
        "require tip.rear.locked >= 9 deg else \"the ramp\"",
    ),
    statement(
        "prefer",
        Subject::Value(Kind::Condition),
        None,
        &[may("else", Kind::Text)],
        Inside,
        "prefer cost.total <= 150 USD",
    ),
    statement("variant", Subject::NewName, None, &[], Text, "variant indoor { camber = 0 deg }"),
    statement("state", Subject::NewName, None, &[], Text, "state boot { without rear }"),
    statement(
        "fork",
        Subject::Value(Kind::Text),
        None,
        &[],
        Text,
        "fork \"valley/school.chair\" { seat_ease = 15 mm }",
    ),
    statement("on_hand", Subject::Value(Kind::Text), None, &[], Text, "on_hand \"shed.csv\""),
    statement("profile", Subject::Value(Kind::Text), None, &[], Text, "profile \"everyday\""),
    statement("fit_rules", Subject::Value(Kind::Text), None, &[], Text, "fit_rules \"WHO package\""),
    statement(
        "deviation",
        Subject::Value(Kind::Plain),
        None,
        &[must("because", Kind::Text), must("by", Kind::Text), DATED],
        Text,
        "deviation seat.width because \"tissue spreads\" by \"therapist\" dated \"2026-05-15\"",
    ),
    statement("as_built", Subject::None, None, &[], Text, "as_built { rear_locked = 11 deg ± 1 deg }"),
    statement(
        "baseline",
        Subject::None,
        None,
        &[],
        Text,
        "baseline { chair = \"the everyday chair\" seat_rear = 430 mm }",
    ),
    statement(
        "carry",
        Subject::NewName,
        Some(MASS),
        &[must("at", Kind::Place), ORIGIN, BY, DATED],
        Inside,
        "carry school_bag = 8 kg at top, back 100 mm",
    ),
    statement(
        "accept",
        Subject::Value(Kind::Code),
        None,
        &[must("because", Kind::Text), may("about", Kind::Plain)],
        Text,
        "accept \"rocks\" because \"it stands on carpet\"",
    ),
    statement(
        "level",
        Subject::Value(Kind::Code),
        Some(Kind::Word(&["error", "warning", "advice"])),
        &[BECAUSE],
        Text,
        "level \"missing-price\" = error",
    ),
    statement(
        "measured",
        Subject::Value(Kind::Text),
        None,
        &[],
        Text,
        "measured \"tee 1 in\" { take_out = 17 mm }",
    ),
];
