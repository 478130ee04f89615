//! Clauses of statements.

use super::{Meaning, row};

pub(super) const CLAUSES: &[Meaning] = &[
    row(
        "to",
        &["units"],
        "with inch: the part of an inch that lengths are printed to, from 1/2 in to 1/64 in; decimals of an inch if left out",
    ),
    row(
        "within",
        &["param"],
        "the range that it may be turned in, least .. greatest; a value outside is a finding",
    ),
    row("within", &["adjust"], "the ends of its slot, least .. greatest"),
    row(
        "every",
        &["adjust"],
        "from stop to stop of the slot, counted from its least; it stops anywhere if left out",
    ),
    row("steps", &["adjust"], "its holes: each value that it can be set to"),
    row(
        "at",
        &["fit"],
        "where steps inside of it begin that name no point; the origin of the drawing if left out, which is on the floor in the \
         chair's middle plane",
    ),
    row("from", &["repeat"], "the first number; the name stands for 1, 2, 3 … in turn"),
    row("to", &["repeat"], "the last number, which is built too"),
    row("at", &["joint"], "where it is: a point and steps from it; with `on`, how far along that member"),
    row("on", &["joint"], "the member that it lies on"),
    row(
        "from",
        &["joint", "hole"],
        "the end joint of the member that the distance is counted from; the member's first joint if left out",
    ),
    row("from", &["member"], "the joint that it begins at: distances along it are counted from there"),
    row("to", &["member"], "the joint that it ends at"),
    row(
        "turned",
        &["member"],
        "turn of a board about its length: at 0, which is taken if left out, its wider side stands upright; 90 deg lays it flat",
    ),
    row(
        "offset",
        &["member"],
        "steps by which the piece lies beside the line of its joints; on that line if left out",
    ),
    row("on", &["hole"], "the member that is drilled"),
    row(
        "at",
        &["hole"],
        "middle of the hole along the member, or of the first of a row, from the joint of `from`",
    ),
    row("diameter", &["hole"], "across the hole; of a slot its width"),
    row("toward", &["hole"], "the direction in which the drill goes"),
    row("slotted", &["hole"], "length over all of a slot along the member; a round hole if left out"),
    row("times", &["hole"], "how many holes stand in the row; one if left out"),
    row("every", &["hole"], "from middle to middle in a row; wanted with `times`"),
    row("over", &["sleeve"], "how much of the member it covers or fills"),
    row(
        "from",
        &["sleeve"],
        "the end joint of the member that it begins at; the member's first joint if left out. One over the member begins at the \
         edge of the fitting there",
    ),
    row(
        "shimmed",
        &["sleeve"],
        "what fills its play at both ends and in the middle; a sleeve with play that nothing fills carries only once the member has \
         bent through it",
    ),
    row(
        "corners",
        &["panel"],
        "three corners or more in their order around it, in one plane, on the face that its thickness grows from",
    ),
    row("toward", &["panel"], "the side that its thickness grows to; down if left out"),
    row("from", &["box"], "the middle of one end"),
    row("to", &["box"], "the middle of the other end"),
    row("outside", &["box"], "outside size across it, level"),
    row("by", &["box"], "outside size across it, upright"),
    row(
        "grain",
        &["box"],
        "whether the face grain of its plates runs along it or across; half of the strength counts if left out",
    ),
    row(
        "with",
        &["close"],
        "what closes it: the quoted name of a fitting, of several joined by `or` the first that is sold; or lap (side by side), butt \
         (end against face), gusset (plates on both faces), open (on purpose)",
    ),
    row(
        "of",
        &["close"],
        "the member that a lap moves aside, that stops at a butt or a gusset, or whose end was sprung",
    ),
    row("against", &["close"], "of a butt or gusset: the member that runs past"),
    row("toward", &["close"], "of a lap: to which side of the other member it lies; wanted there"),
    row(
        "using",
        &["close", "fasten"],
        "quoted names of screws, bolts, nuts and what else goes with each; `times` of every one",
    ),
    row(
        "times",
        &["close"],
        "how many of each fastener, of a gusset on all its faces together; one if left out",
    ),
    row("times", &["fasten"], "how many of each fastener; one if left out"),
    row(
        "rows",
        &["close", "fasten"],
        "in how many rows alike they sit, of a gusset on each plate and member; one if left out. With none of rows, apart, spaced, \
         ends and edges the rows are taken in which they bear most, and the report says which",
    ),
    row(
        "apart",
        &["close", "fasten"],
        "from row to row; with more rows than one it is wanted, or `edges` is. The rows stand in the middle of the face that both share",
    ),
    row(
        "spaced",
        &["close", "fasten"],
        "from fastener to fastener in a row; with more than one in a row it is wanted, or `ends` is",
    ),
    row(
        "ends",
        &["close", "fasten"],
        "from the first and the last of a row to the end of the face that both share",
    ),
    row("edges", &["close", "fasten"], "from the outer rows to the edge of the face that both share"),
    row(
        "driven",
        &[],
        "how nails and screws go in: undrilled, without lead holes, or slanted, aslant through the end of a piece into the one it stops \
         at; square to the face in lead holes if left out",
    ),
    row(
        "glued",
        &["close"],
        "the glue, by a name that says its class: D1 to D4, PVA, epoxy or resorcinol; one that says none counts as nothing. No glue if \
         left out",
    ),
    row("size", &["close"], "of a gusset: its plates along the member that stops; wanted there"),
    row("by", &["close"], "of a gusset: its plates across the member that stops; wanted there"),
    row(
        "inserted",
        &["close"],
        "how far its pipes are in their sockets, measured on the joint as made; home to the stop if left out",
    ),
    row("sprung", &["close"], "how far an end was bent aside to close it, as made; not at all if left out"),
    row(
        "stiffness",
        &["close"],
        "stiffness of one member's end in it against turning, measured. If left out that of its fitting's entry, else it counts as \
         rigid, and in a second run turns as five diameters of its pipe more would",
    ),
    row("to", &["fasten"], "what it is fastened to; rows run along that"),
    row(
        "from",
        &["seat", "footrest"],
        "the middle of the rear edge, on the rider's side; written from front to rear it is the same one",
    ),
    row("to", &["seat", "footrest"], "the middle of the front edge, on the rider's side"),
    row(
        "from",
        &["back"],
        "the middle of the lower edge, on the rider's side; written from the top down it is the same one",
    ),
    row("to", &["back"], "the middle of the upper edge, on the rider's side"),
    row("width", &["seat", "back", "footrest"], "across it, from side to side"),
    row(
        "cushion",
        &["seat", "back", "footrest"],
        "a part of kind cushion: heights above the seat are counted from its top under the rider; none if left out",
    ),
    row(
        "times",
        &["seat", "back", "footrest"],
        "of webbing: how many bands lie side by side; one if left out, 60 at most",
    ),
    row(
        "sagging",
        &["seat", "back", "footrest"],
        "of webbing: how far its middle hangs through with the rider in it; 2 % of its width if left out",
    ),
    row(
        "from",
        &["armrest"],
        "the middle of its rear end, on the rider's side; written from front to rear it is the same one",
    ),
    row("to", &["armrest"], "the middle of its front end, on the rider's side"),
    row("width", &["armrest"], "across it"),
    row("at", &["wheel"], "the middle of the wheel"),
    row("camber", &["wheel"], "its lean: top inward is positive; upright if left out"),
    row("toe", &["wheel"], "its turn seen from above: toe-out is positive; straight ahead if left out"),
    row("at", &["caster"], "where the axis of its stem meets the face that it is seated on"),
    row("raked", &["caster"], "lean of its stem: top to the rear is positive; upright if left out"),
    row("at", &["brake", "axle", "item"], "its middle, where its mass acts"),
    row("times", &["supply"], "how many to buy; one if left out"),
    row("over", &["supply"], "how much of it, where it is sold by length; then `times` is not read"),
    row("at", &["load"], "the joint that it acts on"),
    row("force", &["load"], "how much"),
    row("toward", &["load"], "the direction that it pushes in"),
    row(
        "lasting",
        &["load"],
        "how long: short (seconds to minutes), sustained (years), repeated, or blow, which comes at once and counts twice; short if \
         left out",
    ),
    row("else", &["require", "prefer"], "why it is asked for; said where it is not met"),
    row("because", &["deviation"], "why the rule is left for this rider"),
    row("by", &["deviation"], "who left it, as a role and never a name: \"therapist\""),
    row("dated", &["deviation"], "when that was agreed: \"2026-05-15\", or \"2026-05\""),
    row(
        "at",
        &["carry"],
        "where its weight acts: over the seat it rides on the lap, elsewhere it hangs on the nearest bar; within 3 m of the origin",
    ),
    row("because", &["accept"], "why the finding is accepted; listed in the report"),
    row("about", &["accept"], "the name that the finding is about; every finding of that code if left out"),
    row("because", &["level"], "why; wanted where the code is made lighter, and an error cannot be"),
];
