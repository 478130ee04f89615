//! Which statements there are, what each must carry, and of what kind it is.
//!
//! The tables are the one place that knows a statement's clauses; checking, error texts and the
//! reference all read them.

use chairwright_quantity::Dimension;

/// What a value must be.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Kind {
    /// A quantity of this dimension.
    Quantity(Dimension),
    /// A quantity that may carry a tolerance or be a range.
    Band(Dimension),
    /// Money in any currency, or any quantity: for values that carry their own dimension.
    AnyQuantity,
    /// A quoted text.
    Text,
    /// One of these words.
    Word(&'static [&'static str]),
    /// A place: a point and steps from it.
    Place,
    /// A direction word or a step.
    Toward,
    /// The name of a joint.
    Joint,
    /// The name of a member.
    Member,
    /// The name of any drawn thing.
    Thing,
    /// A stock: a catalogue text or a bound name.
    Stock,
    /// A bought part: a catalogue text or a bound name.
    Part,
    /// Several points.
    Points,
    /// Catalogue texts of fasteners.
    Fasteners,
    /// Something true or false.
    Condition,
    /// Text, name or number, taken as written.
    Plain,
    /// The closing of a joint: a fitting text or a word.
    Closing,
}

/// What stands between keyword and `=`.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Subject {
    /// Nothing.
    None,
    /// A new name.
    NewName,
    /// A value of this kind.
    Value(Kind),
}

/// One clause of a statement.
#[derive(Clone, Copy, Debug)]
pub struct ClauseSpec {
    /// The word that opens it.
    pub word: &'static str,
    /// What its values must be.
    pub kind: Kind,
    /// Whether the statement cannot do without it.
    pub required: bool,
}

/// One statement.
#[derive(Clone, Copy, Debug)]
pub struct StatementSpec {
    /// The word that opens it.
    pub keyword: &'static str,
    /// What it is about.
    pub subject: Subject,
    /// What stands behind `=`, if anything may.
    pub value: Option<Kind>,
    /// The clauses.
    pub clauses: &'static [ClauseSpec],
    /// Whether it may stand inside `both sides`.
    pub sided: bool,
    /// How one is written.
    pub shape: &'static str,
}

const fn must(word: &'static str, kind: Kind) -> ClauseSpec {
    ClauseSpec { word, kind, required: true }
}
const fn may(word: &'static str, kind: Kind) -> ClauseSpec {
    ClauseSpec { word, kind, required: false }
}

const LENGTH: Kind = Kind::Quantity(Dimension::LENGTH);
const ANGLE: Kind = Kind::Quantity(Dimension::ANGLE);
const NUMBER: Kind = Kind::Quantity(Dimension::NUMBER);

const fn statement(
    keyword: &'static str,
    subject: Subject,
    value: Option<Kind>,
    clauses: &'static [ClauseSpec],
    sided: bool,
    shape: &'static str,
) -> StatementSpec {
    StatementSpec { keyword, subject, value, clauses, sided, shape }
}

const SUPPORT: &[ClauseSpec] = &[
    must("from", Kind::Place),
    must("to", Kind::Place),
    must("width", LENGTH),
    may("cushion", Kind::Part),
    may("times", NUMBER),
];
const AT: &[ClauseSpec] = &[must("at", Kind::Place)];
const USING: [ClauseSpec; 2] = [may("using", Kind::Fasteners), may("times", NUMBER)];

/// All statements but the catalogue entries, which are in [`crate::fields`].
pub const STATEMENTS: &[StatementSpec] = &[
    statement("design", Subject::NewName, None, &[], false, "design slipway"),
    statement("revision", Subject::Value(Kind::Plain), None, &[], false, "revision 4"),
    statement("licence", Subject::Value(Kind::Text), None, &[], false, "licence \"CERN-OHL-S-2.0\""),
    statement("units", Subject::Value(Kind::Word(&["metric", "inch"])), None, &[], false, "units inch"),
    statement("use", Subject::Value(Kind::Plain), None, &[], false, "use catalogue.pipe_inch"),
    statement("prices", Subject::Value(Kind::Text), None, &[], false, "prices \"shop.csv\""),
    statement("rider", Subject::None, None, &[], false, "rider { mass = 68 kg }"),
    statement("conditions", Subject::None, None, &[], false, "conditions { slope = 5 deg }"),
    statement(
        "param",
        Subject::NewName,
        Some(Kind::AnyQuantity),
        &[may("within", Kind::AnyQuantity)],
        false,
        "param camber = 2 deg within 0 deg .. 8 deg",
    ),
    statement("let", Subject::NewName, Some(Kind::AnyQuantity), &[], true, "let half = seat_width / 2"),
    statement("stock", Subject::NewName, Some(Kind::Stock), &[], false, "stock rail = \"pipe 1 in sch40\""),
    statement("part", Subject::NewName, Some(Kind::Part), &[], false, "part front_wheel = \"caster 125\""),
    statement("both", Subject::None, None, &[], false, "both sides { joint hip at outward 200 mm }"),
    statement(
        "joint",
        Subject::NewName,
        None,
        &[must("at", Kind::Place), may("on", Kind::Member), may("from", Kind::Joint)],
        true,
        "joint knee at hip, forward 400 mm",
    ),
    statement(
        "member",
        Subject::NewName,
        Some(Kind::Stock),
        &[must("from", Kind::Joint), must("to", Kind::Joint), may("turned", ANGLE)],
        true,
        "member seat_rail = rail from hip to knee",
    ),
    statement(
        "sleeve",
        Subject::Value(Kind::Member),
        Some(Kind::Stock),
        &[must("over", LENGTH), may("from", Kind::Joint)],
        true,
        "sleeve shin = \"pipe 1 in sch40\" over 200 mm from heel",
    ),
    statement(
        "panel",
        Subject::NewName,
        Some(Kind::Stock),
        &[must("corners", Kind::Points), may("toward", Kind::Toward)],
        true,
        "panel deck = ply corners a, b, c, d toward down",
    ),
    statement(
        "box",
        Subject::NewName,
        Some(Kind::Stock),
        &[must("from", Kind::Place), must("to", Kind::Place), must("outside", LENGTH), must("by", LENGTH)],
        true,
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
            may("glued", Kind::Text),
            may("size", LENGTH),
            may("by", LENGTH),
        ],
        true,
        "close hip with \"tee 1 in\"",
    ),
    statement(
        "fasten",
        Subject::Value(Kind::Thing),
        None,
        &[must("to", Kind::Thing), must("using", Kind::Fasteners), may("times", NUMBER)],
        true,
        "fasten deck to left.seat_rail using \"screw 5 x 60\" times 6",
    ),
    statement("seat", Subject::None, Some(Kind::Stock), SUPPORT, false, "seat = ply from a to b width 400 mm"),
    statement("back", Subject::None, Some(Kind::Stock), SUPPORT, false, "back = band from a to b width 400 mm"),
    statement(
        "footrest",
        Subject::None,
        Some(Kind::Stock),
        SUPPORT,
        false,
        "footrest = ply from a to b width 300 mm",
    ),
    statement(
        "wheel",
        Subject::NewName,
        Some(Kind::Part),
        &[must("at", Kind::Place), may("camber", ANGLE), may("toe", ANGLE)],
        true,
        "wheel rear = \"wheel 24\" at axle_end camber 2 deg",
    ),
    statement(
        "caster",
        Subject::NewName,
        Some(Kind::Part),
        &[must("at", Kind::Place), may("raked", ANGLE)],
        true,
        "caster front = \"caster 125\" at stem_seat",
    ),
    statement("brake", Subject::NewName, Some(Kind::Part), AT, true, "brake lock = \"brake\" at hip"),
    statement("axle", Subject::NewName, Some(Kind::Part), AT, true, "axle pin = \"axle 12\" at axle_end"),
    statement("item", Subject::NewName, Some(Kind::Part), AT, true, "item bag = \"bag\" at crown, back 80 mm"),
    statement(
        "supply",
        Subject::Value(Kind::Text),
        None,
        &[may("times", NUMBER), may("over", LENGTH)],
        false,
        "supply \"solvent cement\" times 1",
    ),
    statement(
        "require",
        Subject::Value(Kind::Condition),
        None,
        &[may("else", Kind::Text)],
        false,
        "require tip.rear.locked >= 9 deg else \"the ramp\"",
    ),
    statement(
        "prefer",
        Subject::Value(Kind::Condition),
        None,
        &[may("else", Kind::Text)],
        false,
        "prefer cost.total <= 150 USD",
    ),
    statement("variant", Subject::NewName, None, &[], false, "variant indoor { camber = 0 deg }"),
    statement(
        "measured",
        Subject::Value(Kind::Text),
        None,
        &[],
        false,
        "measured \"tee 1 in\" { take_out = 17 mm }",
    ),
];

/// The statement with this keyword.
#[must_use]
pub fn statement_spec(keyword: &str) -> Option<&'static StatementSpec> {
    STATEMENTS.iter().find(|s| s.keyword == keyword)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_grammar_knows_every_clause() {
        for clause in STATEMENTS.iter().flat_map(|s| s.clauses) {
            assert!(chairwright_syntax::CLAUSE_WORDS.contains(&clause.word), "{}", clause.word);
        }
    }
}
