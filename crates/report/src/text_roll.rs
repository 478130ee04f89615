//! Groups of the report about rolling and room, in the order in which a builder asks.

use chairwright_driver::Compilation;

/// Groups and their figures; a `*` stands for every kind of ground or step that there is.
pub(crate) const ROLLING: &[(&str, &[&str])] = &[
    (
        "Pushing",
        &[
            "push.least.*",
            "push.most.*",
            "push.slope.least",
            "push.slope.most",
            "push.hand.least",
            "push.hand.most",
            "push.lift",
            "toe.drag",
            "drift.force",
        ],
    ),
    ("Parking", &["brake.need", "brake.holds", "slide.uphill", "slide.downhill"]),
    ("Ramps", &["ramp.approach", "ramp.breakover", "ramp.departure"]),
    (
        "Steps",
        &[
            "climb.factor.*",
            "climb.push.*",
            "climb.slope.*",
            "tilt.*",
            "slot.drop",
            "stop.speed",
            "stop.speed.downhill",
        ],
    ),
    (
        "Room",
        &[
            "length.occupied",
            "turn.diameter",
            "turn.width",
            "turn.radius",
            "door.room",
            "corridor.room",
            "corner.room",
            "table.knee",
            "table.room",
            "transfer.seat",
            "transfer.toilet",
            "transfer.bed",
            "transfer.gap",
        ],
    ),
    ("Wheels off", &["packed.length", "packed.width", "packed.height", "packed.mass"]),
];

/// The figures that a name stands for.
pub(crate) fn family<'c>(c: &'c Compilation, name: &'c str) -> Vec<&'c str> {
    match name.strip_suffix('*') {
        Some(stem) => c.figures.0.keys().map(String::as_str).filter(|k| k.starts_with(stem)).collect(),
        None => vec![name],
    }
}
