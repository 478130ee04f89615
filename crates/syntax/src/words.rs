//! The words of the grammar.

/// Directions of the chair: forward, up and to the rider's sides; outward and inward within
/// `both sides`.
pub const DIRECTIONS: &[&str] = &["forward", "back", "up", "down", "left", "right", "outward", "inward"];

/// Words that never stand for a value, so that they can end an expression and open the next line.
pub const RESERVED: &[&str] = &[
    "from", "to", "at", "on", "with", "by", "within", "else", "and", "or", "not", "leaning", "using", "times",
    "of", "along", "origin", "dated", "lasting", "every", "slotted", "because",
];

/// Every word that opens a statement or an entry of a catalogue, in its usual spelling.
pub const STATEMENT_WORDS: &[&str] = &[
    "design",
    "revision",
    "licence",
    "units",
    "use",
    "prices",
    "on_hand",
    "fork",
    "profile",
    "fit_rules",
    "deviation",
    "carry",
    "as_built",
    "baseline",
    "rider",
    "conditions",
    "param",
    "adjust",
    "let",
    "stock",
    "part",
    "assembly",
    "given",
    "fit",
    "repeat",
    "when",
    "both",
    "joint",
    "member",
    "hole",
    "sleeve",
    "panel",
    "box",
    "close",
    "fasten",
    "seat",
    "back",
    "footrest",
    "armrest",
    "wheel",
    "caster",
    "brake",
    "axle",
    "item",
    "supply",
    "load",
    "require",
    "prefer",
    "variant",
    "state",
    "accept",
    "level",
    "measured",
    "material",
    "socket",
    "fitting",
    "fastener",
    "segment",
    "surface",
    "allowance",
    "license",
    "castor",
    "footplate",
    "backrest",
    "occupant",
    "place",
];

/// Words that builders write for a statement, and the statement.
pub const NEARLY_STATEMENTS: &[(&str, &str)] = &[
    ("tyre", "wheel"),
    ("tire", "wheel"),
    ("wheels", "wheel"),
    ("tube", "member"),
    ("pipe", "member"),
    ("bar", "member"),
    ("beam", "member"),
    ("rail", "member"),
    ("user", "rider"),
    ("person", "rider"),
    ("patient", "rider"),
    ("client", "rider"),
    ("foot_rest", "footrest"),
    ("footrests", "footrest"),
    ("back_rest", "back"),
    ("point", "joint"),
    ("node", "joint"),
    ("sheet", "panel"),
    ("plate", "panel"),
    ("screw", "fasten"),
    ("bolt", "fasten"),
    ("include", "use"),
    ("import", "use"),
    ("price", "prices"),
    ("must", "require"),
    ("parameter", "param"),
    ("variable", "param"),
    ("name", "design"),
    ("title", "design"),
    ("version", "revision"),
];

/// Words that look like a direction, and the direction.
pub const NEARLY_DIRECTIONS: &[(&str, &str)] = &[
    ("forwards", "forward"),
    ("front", "forward"),
    ("ahead", "forward"),
    ("backward", "back"),
    ("backwards", "back"),
    ("behind", "back"),
    ("above", "up"),
    ("upward", "up"),
    ("upwards", "up"),
    ("below", "down"),
    ("downward", "down"),
    ("downwards", "down"),
    ("outwards", "outward"),
    ("outside", "outward"),
    ("inwards", "inward"),
    ("inside", "inward"),
    ("leftward", "left"),
    ("leftwards", "left"),
    ("rightward", "right"),
    ("rightwards", "right"),
];

/// Every word that may open a clause. A number in front of one of them has no unit.
pub const CLAUSE_WORDS: &[&str] = &[
    "from", "to", "at", "on", "with", "by", "within", "else", "using", "times", "of", "along", "leaning",
    "and", "or", "outside", "width", "camber", "toe", "toward", "turned", "over", "glued", "size", "against",
    "corners", "cushion", "raked", "towards", "origin", "dated", "every", "steps", "offset", "diameter",
    "slotted", "force", "lasting", "because", "about", "grain", "sagging", "shimmed", "rows", "apart",
    "spaced", "ends", "edges",
];

/// Whether a word is reserved.
#[must_use]
pub fn is_reserved(word: &str) -> bool {
    RESERVED.contains(&word)
}

/// Whether a word is a direction.
#[must_use]
pub fn is_direction(word: &str) -> bool {
    DIRECTIONS.contains(&word)
}
