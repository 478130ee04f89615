//! What can be wrong with a chair at rest, as data.

use crate::clear::Trouble;
use crate::margins::Margin;
use chairwright_design::Origin;
use chairwright_frame::SettleError;

/// A problem of the chair at rest.
#[derive(Clone, PartialEq, Debug)]
pub enum Problem {
    /// A measure of the rider that is missing.
    MissingMeasure {
        /// Its name.
        measure: &'static str,
        /// What needs it.
        wanted_by: &'static str,
        /// The rider's block.
        origin: Option<Origin>,
    },
    /// A value that a safety figure hangs on, and nobody says where it is from.
    UnknownOrigin {
        /// Its name.
        name: String,
        /// Its place in the text.
        origin: Origin,
    },
    /// The chair tips on a slope that its use profile wants it to bear, or nobody can tell.
    ThinMargin {
        /// What is wanted and what there is.
        margin: Margin,
        /// The profile's name.
        profile: String,
        /// Where the text names the profile.
        origin: Origin,
    },
    /// A measure that hardly any body has.
    OddMeasure {
        /// Its name.
        name: String,
        /// Its place in the text.
        origin: Origin,
        /// The usual range in SI units.
        usual: (f64, f64),
        /// Its value.
        value: f64,
    },
    /// The chair cannot be set on the ground.
    CannotStand(SettleError),
    /// A wheel does not touch.
    Rocks {
        /// The wheel's name.
        wheel: String,
        /// Its place in the text.
        origin: Origin,
        /// The gap in metres.
        gap: f64,
    },
    /// A stem is not upright.
    StemLeans {
        /// The caster's name.
        caster: String,
        /// Its place in the text.
        origin: Origin,
        /// By what angle, in radians.
        angle: f64,
        /// How much the frame rises and falls as it swivels, in metres.
        rise: f64,
    },
    /// A clearance is broken, or nobody can tell.
    Clearance(Trouble),
    /// Something of the frame is below the floor.
    BelowFloor {
        /// What.
        body: String,
        /// By how much, in metres.
        depth: f64,
    },
}
