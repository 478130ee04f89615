//! What can be wrong with a chair at rest, as data.

use crate::baseline::Beside;
use crate::clear::Trouble;
use crate::fit::{Broken, SkinFlag};
use crate::margins::Margin;
use chairwright_design::{Band, Origin, Side};
use chairwright_frame::SettleError;

mod kinds;

pub use kinds::{AntiTipFault, Held, JointName, Lack, Limb, LimbDoubt, Mismatch, Pressed, Unseated};

/// A problem of the chair at rest.
#[derive(Clone, PartialEq, Debug)]
pub enum Problem {
    /// A body that cannot sit as the drawing asks.
    Unseated {
        /// How.
        how: Unseated,
        /// The seat, the back or the foot support.
        origin: Option<Origin>,
    },
    /// Measures that are hardly of one body.
    Mismatched {
        /// Which.
        odd: Mismatch,
        /// One of them, or the rider's block.
        origin: Option<Origin>,
    },
    /// A rear wheel whose top leans outward, or that leans further than any chair's. Radians.
    OddCamber {
        /// Its name.
        wheel: String,
        /// Its place in the text.
        origin: Origin,
        /// On the ground, top inward is positive.
        camber: f64,
    },
    /// A caster whose contact hardly lies behind its stem's axis, or ahead of it.
    ShortTrail {
        /// Its name.
        caster: String,
        /// Its place in the text.
        origin: Origin,
        /// Trail on the ground, in metres.
        trail: f64,
    },
    /// The chair without its rider, with what hangs on it, goes over.
    EmptyTips {
        /// What rides along, in words.
        with: String,
        /// Where the first of it stands in the text, or the chair.
        origin: Option<Origin>,
        /// The way down, from ahead over the left, in radians.
        toward: f64,
        /// Whether it goes backward over its anti-tip device, on which it has come to stand.
        device: bool,
        /// The slope that tips it, in radians.
        has: f64,
        /// The slope of the path.
        slope: f64,
        /// What tips it by the plan, where only a tipping test of the built chair leaves it open that less does.
        planned: Option<f64>,
    },
    /// The rider keeps a posture that the body here cannot take.
    Posture {
        /// Which.
        held: Held,
        /// The rider's block, or the measure.
        origin: Option<Origin>,
    },
    /// A rear wheel that does not run straight.
    Toes {
        /// Its name.
        wheel: String,
        /// Its place in the text.
        origin: Origin,
        /// Toe in radians, toe-out is positive.
        toe: f64,
        /// What it makes between the front and the back of the wheel at axle height, in metres.
        gap: f64,
        /// How many times more it drags; `None` beyond what was ever measured.
        drag: Option<f64>,
        /// The camber as drawn, in radians, where toe comes from it.
        camber: Option<f64>,
        /// Whether it was measured on the built chair.
        measured: bool,
    },
    /// The chair tips sooner than the one that the rider is used to.
    TipsBeforeBaseline {
        /// The liked chair; empty where only one measure of it is given.
        chair: String,
        /// What tips sooner.
        sooner: Vec<Beside>,
        /// Where the liked chair stands in the text.
        origin: Option<Origin>,
    },
    /// The chair differs from one that the rider likes.
    UnlikeBaseline {
        /// The liked chair; empty where only one measure of it is given.
        chair: String,
        /// What differs.
        differs: Vec<Beside>,
        /// Where the liked chair stands in the text.
        origin: Option<Origin>,
    },
    /// Push rims whose arm lacks its hand, though the rider is to push there.
    NoHand {
        /// On which sides.
        sides: Vec<Side>,
        /// Where even the straight arm ends short of the top of its rim: the side, and by how much in metres.
        short: Vec<(Side, f64)>,
        /// The rider's block.
        origin: Option<Origin>,
    },
    /// A wheel lock that no hand gets to, or perhaps none.
    LeverFar {
        /// Its name.
        brake: String,
        /// Its place in the text.
        origin: Origin,
        /// The hand that is nearest to it.
        hand: Side,
        /// Whether that is the only one.
        alone: bool,
        /// From the shoulder to the nearest and to the furthest of the lock, in metres.
        away: (f64, f64),
        /// Shoulder to grip with the arm straight.
        arm: f64,
        /// How far leaning brings the shoulder at most.
        lean: f64,
    },
    /// Push rims whose tops are out of reach of their hands, straight or folded.
    BeyondReach {
        /// On which sides.
        sides: Vec<Side>,
        /// The rider's block.
        origin: Option<Origin>,
    },
    /// An arm that goes further behind the trunk for its rim than its shoulder does, or than a usual one.
    FarBehind {
        /// The arm.
        arm: crate::FarBehind,
        /// The rider's block.
        origin: Option<Origin>,
    },
    /// A measure of the rider that is missing.
    MissingMeasure {
        /// Its name.
        measure: String,
        /// What needs it.
        wanted_by: &'static str,
        /// The rider's block.
        origin: Option<Origin>,
    },
    /// A later day is looked at, and nobody says how the rider grows until then.
    GrowthUnsaid {
        /// Whether the rider is as small as a child.
        small: bool,
        /// Where the later day is said, or the rider's block.
        origin: Option<Origin>,
    },
    /// A limb that by its length does not end where the text says.
    LimbLength {
        /// Which.
        limb: Limb,
        /// Which side.
        side: Side,
        /// From the back of the pelvis, or from the top of the shoulder, to its end as given, m.
        given: f64,
        /// Between which it would end there, m.
        range: (f64, f64),
        /// Its place, or the rider's block.
        origin: Option<Origin>,
    },
    /// What is given of a limb's end contradicts what is said to be missing of it.
    LimbDoubt {
        /// Which.
        limb: Limb,
        /// Which side; of both where it is given for both.
        side: Option<Side>,
        /// The measure or word that is given.
        given: String,
        /// Against what.
        doubt: LimbDoubt,
        /// Its place, or the rider's block.
        origin: Option<Origin>,
    },
    /// Values that figures of safety or fit hang on, and nobody says where they are from.
    UnknownOrigin {
        /// Their full names.
        names: Vec<String>,
        /// The place of the first.
        origin: Origin,
    },
    /// Measures of the rider's body that come from a data sheet.
    BodyBySheet {
        /// Their full names.
        names: Vec<String>,
        /// The place of the first.
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
    /// A joint that the chair bends further than the rider can.
    JointBent {
        /// Which.
        joint: JointName,
        /// Of which side, where it has one.
        side: Option<Side>,
        /// As the chair bends it, in radians.
        has: f64,
        /// The rider's range.
        range: (f64, f64),
        /// A knee alone: how far ahead and up the foot support would have to go, in metres.
        moves: Option<(f64, f64)>,
        /// The seat.
        origin: Option<Origin>,
    },
    /// Leaning out of the chair tips it on its path.
    TipsLeaning {
        /// The figure.
        figure: &'static str,
        /// The measure of the lean, with its side where the sides differ.
        measure: String,
        /// How far the rider leans, in radians.
        lean: f64,
        /// The slope that tips the chair.
        has: f64,
        /// The slope of the path.
        slope: f64,
        /// The rider's block.
        origin: Option<Origin>,
    },
    /// The anti-tip device is missing or does not do its work.
    AntiTip {
        /// What is wrong.
        fault: AntiTipFault,
        /// Its name; empty where there is none.
        name: String,
        /// Its place in the text.
        origin: Origin,
    },
    /// Two measured tipping angles that cannot be of one chair.
    BuiltImpossible {
        /// With the wheels locked, in radians.
        locked: f64,
        /// With the wheels free.
        free: f64,
        /// Their block in the text.
        origin: Origin,
    },
    /// Two measured tipping angles so near to each other that they leave nearly any height open.
    BuiltUnsure {
        /// With the wheels locked, in radians.
        locked: Band,
        /// With the wheels free.
        free: Band,
        /// Least height of the centre of mass that they leave open, in metres.
        least: f64,
        /// The greatest; without end where some of their ends belong to no chair.
        most: f64,
        /// Their block in the text.
        origin: Origin,
    },
    /// The tipping test and the scales place the centre of mass at different places.
    BuiltTwoPlaces {
        /// Ahead of the rear axle by the tipping test, in metres.
        tilt: f64,
        /// By the scales.
        scales: f64,
        /// Their block in the text.
        origin: Origin,
    },
    /// Findings about a chair without a name that are told of whole chairs only.
    Unnamed {
        /// The rider's place.
        origin: Option<Origin>,
        /// How many.
        withheld: usize,
    },
    /// A rider and no seat: nothing of the rider was worked out.
    NoSeat {
        /// The rider's block.
        origin: Option<Origin>,
    },
    /// Directions that the use profile has no margin for.
    ProfileSilent {
        /// The fields that it lacks, with their figures.
        lacks: Vec<(&'static str, &'static str)>,
        /// The profile's name.
        profile: String,
        /// Where the text names it.
        origin: Origin,
    },
    /// The built chair balances elsewhere than the plan.
    BuiltDiffers {
        /// Further ahead by so much, in metres.
        ahead: f64,
        /// Higher by so much.
        up: f64,
        /// Half the span of the height that the measuring leaves open.
        open: f64,
        /// Whether it is too far to be believed: each slope is then the lesser of plan and test.
        held: bool,
        /// The block in the text.
        origin: Origin,
    },
    /// A published rule of fit is broken without a reason.
    FitRule(Broken),
    /// The seat, or what stands beside the hips, is narrower than the rider's bones.
    UnderBones {
        /// Its width in metres.
        width: f64,
        /// The rider's width over the bones.
        bones: f64,
        /// What stands beside the hips, where that is less than the seat's width.
        between: Option<crate::Between>,
        /// The seat.
        origin: Origin,
    },
    /// A part of the chair that presses on the rider.
    Pressed {
        /// What and where.
        pressed: Pressed,
        /// The part, or the seat.
        origin: Origin,
    },
    /// A deviation from a rule that is kept, or from none.
    IdleDeviation {
        /// Whether the design names rules at all.
        ruled: bool,
        /// The figure.
        figure: String,
        /// Its place in the text.
        origin: Origin,
    },
    /// Something about the seat is risky for the skin.
    Skin {
        /// What.
        flag: SkinFlag,
        /// The seat.
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
    /// What rides along is further from chair and rider than anything that hangs on them.
    FarOff {
        /// Its name.
        name: String,
        /// Its place in the text.
        origin: Origin,
        /// From the nearest part, in metres.
        away: f64,
        /// What is taken for possible.
        most: f64,
    },
    /// Turned to any side on the slope of its path it tips, or nearly.
    TipsTurned {
        /// The figure.
        figure: &'static str,
        /// What it bears, in radians.
        has: f64,
        /// The slope of the path.
        slope: f64,
        /// What the use profile wants beyond it at least.
        margin: f64,
        /// Where the slope stands in the text.
        origin: Option<Origin>,
    },
    /// It bears the slope and the cross slope of its path, and not both at once.
    TipsOnBoth {
        /// What it bears in the worst direction, in radians.
        has: f64,
        /// Both together.
        slope: f64,
        /// Where the steeper stands in the text.
        origin: Option<Origin>,
    },
    /// The place names no slope, and the chair goes over on no more than a ramp may have.
    SlopeUnsaid {
        /// The figure.
        figure: &'static str,
        /// The slope that tips it, in radians.
        has: f64,
        /// What a ramp may have, in radians.
        ramp: f64,
        /// The rider's block.
        origin: Option<Origin>,
    },
    /// What is held against nothing, since nothing is declared to hold it against.
    Undeclared {
        /// Each of it.
        lacks: Vec<Lack>,
        /// The rider's block.
        origin: Option<Origin>,
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
    /// How it rolls.
    Roll(crate::roll::Problem),
    /// Where it finds room.
    Room(crate::room::Problem),
}
