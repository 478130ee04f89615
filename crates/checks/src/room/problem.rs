//! What can be wrong with the room that the chair finds, as data. Metres and kilograms.

use chairwright_design::Origin;

/// A problem of room. Every `origin` is where the text declares what is in question.
#[derive(Clone, PartialEq, Debug)]
pub enum Problem {
    /// Wider than a door or a corridor, or so nearly that building decides.
    TooWide {
        /// `door` or `corridor`.
        what: &'static str,
        /// Its place.
        origin: Option<Origin>,
        /// Its clear width.
        clear: f64,
        /// The chair's width.
        width: f64,
        /// By how much the built chair may be wider than that.
        built: f64,
    },
    /// It does not turn on the spot in the space there is, or building decides.
    TurnsTooWide {
        /// The space's place.
        origin: Option<Origin>,
        /// The space.
        space: f64,
        /// The diameter that it takes.
        diameter: f64,
        /// Where the part lies that reaches furthest, from the middle of the rear axle: forward and left.
        furthest: (f64, f64),
        /// By how much that of the built chair may be more.
        built: f64,
    },
    /// It does not get round the corner of two corridors, or building decides.
    CornerTooTight {
        /// The corridor's place.
        origin: Option<Origin>,
        /// Both widths.
        corridors: (f64, f64),
        /// How much too wide it is in the worst position; below zero where it gets round as drawn.
        lacks: f64,
        /// Length with feet, and width.
        size: (f64, f64),
        /// The length that gets round.
        shorter: Option<f64>,
    },
    /// The knees do not go under the table, or nobody can tell.
    UnderTable {
        /// The table's place.
        origin: Option<Origin>,
        /// Its clear height.
        clear: f64,
        /// Top of the loaded cushion at the front edge, a sling as high as its rails.
        seat: f64,
        /// How far a sling may have sunk there.
        sunk: f64,
        /// Thickness of the thigh, if it was measured.
        thigh: Option<f64>,
        /// Part of the chair that stands in the way ahead of the knees, if one does.
        blocked: Option<String>,
    },
    /// The knees and feet come to the end of the room under the table before its edge is over the thighs.
    ShallowTable {
        /// The depth's place.
        origin: Option<Origin>,
        /// The clear depth under the table.
        depth: f64,
        /// From the front edge of the seat to the foremost part or toe.
        ahead: f64,
    },
    /// The seated rider's head does not pass below something.
    TooTall {
        /// The headroom's place.
        origin: Option<Origin>,
        /// The headroom.
        clear: f64,
        /// The crown above the ground.
        crown: f64,
        /// What is wanted above it.
        over: f64,
    },
    /// Seat and bed or toilet differ in height.
    TransferStep {
        /// `toilet` or `bed`.
        what: &'static str,
        /// Its place.
        origin: Option<Origin>,
        /// Its height.
        height: f64,
        /// Top of the loaded cushion.
        seat: f64,
    },
    /// The frame does not go into the boot.
    BootTooSmall {
        /// The boot's place.
        origin: Option<Origin>,
        /// The frame with its wheels off: length, width, height.
        size: [f64; 3],
        /// What is known of the boot.
        boot: [Option<f64>; 3],
        /// The least by which one side of it is too long.
        over: f64,
        /// The same with the frame turned about one of its edges.
        slanted: f64,
        /// Whether its wheels are still on in the drawing.
        as_ridden: bool,
    },
    /// A wheel that is taken off does not go into the boot.
    WheelBeyondBoot {
        /// The boot's place.
        origin: Option<Origin>,
        /// Diameter and thickness.
        wheel: [f64; 2],
        /// What is known of the boot.
        boot: [Option<f64>; 3],
        /// The least by which it is too large, however it is turned.
        lacks: f64,
    },
    /// Heavier than whoever lifts it can lift.
    TooHeavy {
        /// The lift's place.
        origin: Option<Origin>,
        /// The heaviest piece.
        mass: f64,
        /// What they lift.
        lift: f64,
    },
}

impl Problem {
    /// Whether it is about the chair as it is carried, and so stands in a state that nobody rides.
    #[must_use]
    pub fn of_transport(&self) -> bool {
        matches!(
            self,
            Problem::BootTooSmall { .. } | Problem::WheelBeyondBoot { .. } | Problem::TooHeavy { .. }
        )
    }
}
