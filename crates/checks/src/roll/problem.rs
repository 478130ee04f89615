//! What can be wrong with how the chair rolls, as data. SI units; angles in radians.

use chairwright_design::{Origin, Side};

/// Where the chair touches down.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Place {
    /// Ahead of the casters, at the foot of the slope.
    Foot,
    /// Between the wheels, at its top.
    Crest,
    /// Behind the rear wheels, at its foot.
    Behind,
}

/// Wheels that do not climb a step.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Climber {
    /// The casters.
    Casters {
        /// Radius of a caster that climbs it with what the rider can push, or with a push as great as its load.
        wants: f64,
        /// Whether the rear wheels climb it, so that it is gone over backward.
        backward: bool,
    },
    /// The casters do, and the rear wheels after them do not.
    Rear,
}

/// Where a part meets a step.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Low {
    /// Ahead of the casters, before they climb.
    Ahead,
    /// Under the chair, the casters up on the step.
    Under,
    /// Under the chair, where the step is a ridge that all wheels stand beside; of a step with its floor behind it, it would clear.
    OverRidge,
}

/// Why nobody can tell whether a parked chair slides.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Sliding {
    /// It slides only where slope and cross slope are met at once, which fall by this together, in radians.
    OnBoth(f64),
    /// It holds as long as the ground is dry.
    WhenWet,
    /// The place does not say what the ground is; on the slipperiest that is known it slides.
    GroundUnknown,
}

/// A push that is more than lifts the casters, in N.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Pusher {
    /// What the rider can push.
    Rider(f64),
    /// What the hands that push may do together, in N along the ground.
    Hands {
        /// How much.
        can: f64,
        /// Whether there are two.
        both: bool,
    },
    /// What the path takes at least: whoever gets up it by the wheels pushes so much.
    Path(f64),
}

/// A problem of rolling. Every `origin` is where the text declares what is in question.
#[derive(Clone, PartialEq, Debug)]
pub enum Problem {
    /// The wheels stand otherwise than the formulas are for.
    NotJudged {
        /// A caster or wheel.
        origin: Option<Origin>,
        /// What was not worked out.
        what: Vec<&'static str>,
    },
    /// A brake that is drawn away from its wheel.
    BrakeMisses {
        /// Its place.
        origin: Origin,
        /// Its name.
        brake: String,
        /// The wheel nearest to it on its side.
        wheel: String,
        /// From its middle to the tyre, in metres.
        gap: f64,
        /// How far it is taken to reach from its middle, in metres.
        reach: f64,
        /// How far its entry says that it reaches.
        stated: Option<f64>,
        /// From corner to corner of it, in metres: no shoe is further from its middle.
        size: f64,
    },
    /// The slope asks more than the rider can push.
    TooSteep {
        /// The slope's place.
        origin: Option<Origin>,
        /// The slope.
        slope: f64,
        /// The worst ground of the place.
        ground: String,
        /// Least and greatest push in N.
        need: (f64, f64),
        /// What the rider can push.
        can: f64,
        /// The slope that the rider can push up at the greatest resistance.
        up_to: f64,
    },
    /// The path asks more of a hand than it may push.
    HandOvertaxed {
        /// Where the limit is said.
        origin: Option<Origin>,
        /// Which hand.
        side: Side,
        /// The slope.
        slope: f64,
        /// The worst ground of the place.
        ground: String,
        /// Least and greatest push along the rim, in N.
        need: (f64, f64),
        /// What the hand may push.
        can: f64,
        /// Least and greatest push where it is level, in N.
        level: (f64, f64),
        /// The slope up to which it is enough at the greatest resistance.
        up_to: f64,
        /// Whether this hand pushes alone.
        alone: bool,
        /// Whether the text says which hand pushes; otherwise the weaker one was judged.
        named: bool,
    },
    /// Pushed by one hand at one rim the chair turns.
    OneHandTurns {
        /// The rider's block.
        origin: Option<Origin>,
        /// The hand, where it is known which.
        hand: Option<Side>,
        /// Whether the text says that one hand pushes; else only one is there.
        said: bool,
        /// What it takes, where the ground or a slope is known.
        forces: Option<super::OneHand>,
    },
    /// Nobody says what the brakes hold, or there are none.
    BrakeUnknown {
        /// The slope's place.
        origin: Option<Origin>,
        /// The slope.
        slope: f64,
        /// What they have to hold, in N.
        need: f64,
        /// Brakes without a holding force; empty when there is no brake at all.
        brakes: Vec<(String, Origin)>,
    },
    /// The brakes hold less than the slope pulls.
    BrakesSlip {
        /// The slope's place.
        origin: Option<Origin>,
        /// The slope.
        slope: f64,
        /// What they have to hold, in N.
        need: f64,
        /// What they hold.
        holds: f64,
        /// How many there are.
        count: usize,
        /// Whether only slope and cross slope together pull so much.
        both: bool,
    },
    /// With its wheels locked the chair slides down.
    Slides {
        /// The slope's place.
        origin: Option<Origin>,
        /// The slope.
        slope: f64,
        /// The slope at which it slides.
        at: f64,
        /// Whether it faces downhill.
        downhill: bool,
        /// On which ground.
        ground: String,
        /// Friction, as a share of the load.
        friction: f64,
        /// Why nobody can tell, where nobody can.
        doubt: Option<Sliding>,
    },
    /// A step that the wheels do not climb.
    StepTooHigh {
        /// `sill`, `kerb` or `slot`.
        what: &'static str,
        /// Its place.
        origin: Option<Origin>,
        /// How much has to be climbed.
        height: f64,
        /// Radius of the wheel.
        radius: f64,
        /// Push in N, if a push can do it at all.
        need: Option<f64>,
        /// What the rider can push, if that is known.
        can: Option<f64>,
        /// Which wheels do not climb it.
        wheel: Climber,
    },
    /// On the level a push climbs the step, on the slope of the path perhaps not.
    StepOnSlope {
        /// `sill` or `kerb`.
        what: &'static str,
        /// Its place.
        origin: Option<Origin>,
        /// Its height.
        height: f64,
        /// What it takes there, in N.
        need: f64,
        /// What of it the slope takes.
        pull: f64,
        /// What the rider can push.
        can: f64,
    },
    /// Casters and rear wheels a step apart in height tip the chair.
    TipsOnStep {
        /// `sill` or `kerb`.
        what: &'static str,
        /// Its place.
        origin: Option<Origin>,
        /// The slope that tips it.
        figure: &'static str,
        /// Whether the casters are up on it; else they rolled off it.
        up: bool,
        /// The step's height.
        height: f64,
        /// How far that turns the chair.
        turn: f64,
        /// What the chair bears.
        has: f64,
        /// The steepest slope of the path.
        slope: f64,
        /// Whether somebody walks behind, or has to, because no push climbs it.
        helped: bool,
    },
    /// A slot that a wheel drops into.
    SlotCatches {
        /// Its place.
        origin: Option<Origin>,
        /// Its width.
        width: f64,
        /// Whether a rear wheel drops in.
        rear: bool,
        /// Width of the tyre, when it drops in lengthwise; its diameter, when it drops in crosswise.
        wheel: f64,
        /// Whether it drops in rolling along the slot.
        along: bool,
    },
    /// Stopped dead by a step, chair and rider go over forward.
    PitchesForward {
        /// `sill`, `kerb` or `slot`.
        what: &'static str,
        /// Its place.
        origin: Option<Origin>,
        /// The speed in m/s, and whether the place declares it.
        speed: (f64, bool),
        /// From which speed it goes over.
        from: f64,
        /// The slope that it goes down, if there is one.
        slope: f64,
        /// Whether the step stops the casters dead.
        dead: bool,
        /// Whether somebody walks behind.
        helped: bool,
    },
    /// A part touches the ground where it bends.
    Grounds {
        /// The slope's place.
        origin: Option<Origin>,
        /// The slope.
        slope: f64,
        /// The slope at which it touches.
        at: f64,
        /// Which part.
        part: String,
        /// Where.
        place: Place,
        /// By how much it would have to be higher, in metres.
        raise: f64,
    },
    /// A part meets the step before the casters do, or does not clear it when they are over it.
    Strikes {
        /// `sill` or `kerb`.
        what: &'static str,
        /// Its place.
        origin: Option<Origin>,
        /// The step's height.
        height: f64,
        /// Which part.
        part: String,
        /// Its height above the ground, as the chair stands there.
        low: f64,
        /// Where it meets the step.
        at: Low,
    },
    /// The rider is strong enough to lift the casters while pushing.
    LiftsCasters {
        /// The push's place.
        origin: Option<Origin>,
        /// Push that lifts them, in N.
        lift: f64,
        /// Who or what pushes more.
        by: Pusher,
        /// On which slope.
        slope: f64,
    },
    /// On the cross slope one hand has to hold back all the way.
    Drifts {
        /// The cross slope's place.
        origin: Option<Origin>,
        /// The cross slope.
        slope: f64,
        /// More at the lower wheel and less at the upper, in N each.
        force: f64,
        /// The share of one of two hands in pushing straight ahead.
        hand: f64,
        /// Whether one hand alone pushes.
        alone: bool,
    },
}
