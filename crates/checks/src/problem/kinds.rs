//! What problems of the rider and of the tests are told apart by.

use chairwright_design::Side;

/// What is wrong with an anti-tip device.
#[derive(Clone, PartialEq, Debug)]
pub enum AntiTipFault {
    /// The use profile wants one.
    Missing {
        /// The profile's name.
        profile: String,
        /// Where a pair on wheels of 50 mm would do: behind the rear axle and above the ground to their middle, in metres.
        /// `None` where no fixed place does.
        place: Option<(f64, f64)>,
    },
    /// All that touch the ground stand on one side of the middle.
    OneSided {
        /// How far off the middle, in metres.
        off: f64,
    },
    /// It is on the ground before the casters are over the kerb of the path.
    StopsAtKerb {
        /// Turn until it touches, in radians.
        turn: f64,
        /// Turn until the casters are over the kerb.
        kerb: f64,
        /// The kerb in metres.
        height: f64,
    },
    /// It does not stand behind the rear axle.
    NotBehind,
    /// It never reaches the ground.
    NeverTouches,
    /// The chair has tipped before it reaches the ground.
    TooLate {
        /// Turn until it touches, in radians.
        turn: f64,
        /// Turn at which the chair is past its balance on the slope of its path, in the worst loading and leaning back.
        free: f64,
        /// The slope of the path.
        slope: f64,
    },
    /// On it the chair bears less than the slope of the path.
    TooNear {
        /// What it bears, in radians.
        has: f64,
        /// The slope of the path.
        slope: f64,
        /// What the use profile wants beyond it.
        margin: f64,
    },
    /// It is on the ground at the foot of a ramp before the casters are on it.
    Catches {
        /// Its clearance in metres.
        clearance: f64,
        /// The slope it clears.
        approach: f64,
        /// The slope of the path.
        slope: f64,
    },
}

/// A joint of the body.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum JointName {
    /// Trunk against thigh; straight is zero.
    Hip,
    /// Thigh against shank; straight is zero.
    Knee,
    /// Foot against shank; square is zero, toes up is positive.
    Ankle,
}

/// A limb of the body.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Limb {
    /// From the hip.
    Leg,
    /// From the shoulder.
    Arm,
}

/// What the given end of a limb contradicts.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum LimbDoubt {
    /// Nobody says that anything of the limb is missing.
    Whole,
    /// By the level that is said nothing of it is left.
    NothingLeft,
}

/// What of the chair presses on the rider.
#[derive(Clone, PartialEq, Debug)]
pub enum Pressed {
    /// The back support is narrower than the chest. Metres.
    Chest {
        /// Its width.
        back: f64,
        /// The rider's.
        chest: f64,
    },
    /// A part stands where the knees are. Metres.
    Knees {
        /// The part.
        part: String,
        /// Twice the room on its side.
        clear: f64,
        /// The width over the knees.
        knees: f64,
    },
    /// A tray or a bag is drawn lower than the thighs are thick. Metres.
    Thighs {
        /// The part.
        part: String,
        /// From the loaded cushion to its lower side.
        clear: f64,
        /// Thickness of the thigh.
        thigh: f64,
    },
    /// The hand does not close round the push rim. Metres.
    Grip {
        /// The wheel.
        wheel: String,
        /// Across the tube of its rim.
        tube: f64,
        /// Across the closed grip.
        grip: f64,
    },
}

/// How a body cannot sit as the drawing asks. Metres and radians.
#[derive(Clone, PartialEq, Debug)]
pub enum Unseated {
    /// Back support and seat do not meet.
    BackOff {
        /// The back support, drawn on down to the seat, ahead of the seat's rear edge; below zero behind it.
        ahead: f64,
    },
    /// The seat goes on beyond the hollow of the knee.
    Deep {
        /// From what the buttocks meet to the front edge.
        depth: f64,
        /// The shorter thigh.
        thigh: f64,
    },
    /// The hips do not go in.
    Narrow {
        /// Width of the seat, or of the room between what stands beside the hips.
        width: f64,
        /// Width over the hips.
        hips: f64,
        /// What stands there, where that is less than the seat's width.
        between: Option<crate::Between>,
    },
    /// The foot support is too far from the knee, or too near to it.
    Foot {
        /// The foot.
        side: Side,
        /// How much further than the shank is long; below zero nearer.
        beyond: f64,
    },
    /// The foot support stands beside the foot.
    Beside {
        /// The foot.
        side: Side,
        /// How far.
        aside: f64,
    },
    /// Feet that nothing carries hang lower than the floor.
    OnFloor {
        /// The lower one.
        side: Side,
        /// By how much.
        below: f64,
    },
    /// The seat falls to the front.
    Falls {
        /// By what angle.
        angle: f64,
    },
    /// Seat and back support leave thighs and trunk less of an angle than any hip does.
    Folded {
        /// The angle between them.
        angle: f64,
    },
    /// The foot that is to steer does not get to the floor.
    Steering {
        /// By how much it ends above it; `None` where there is no foot.
        off: Option<f64>,
    },
    /// Feet are to push, and none gets to the floor.
    FeetPush {
        /// By how much the nearer ends above it; `None` where there is no foot.
        off: Option<f64>,
    },
    /// Two hands push, and nothing is drawn that they push at.
    NoRims,
}

/// Measures that are hardly of one body.
#[derive(Clone, PartialEq, Debug)]
pub enum Mismatch {
    /// Mass over the square of stature, in kg/m².
    Mass {
        /// What it is.
        index: f64,
        /// The usual range.
        usual: (f64, f64),
        /// Whether it is that of children.
        child: bool,
    },
    /// A length as a share of stature.
    Share {
        /// The measure.
        measure: String,
        /// What it is.
        share: f64,
        /// The usual range.
        usual: (f64, f64),
    },
    /// A measure that lies above another, and is less. Metres.
    Order {
        /// What should be more.
        upper: (String, f64),
        /// What should be less.
        lower: (String, f64),
    },
    /// A crown, measured from the floor, that is not above the shoulders, measured from the seat. Metres.
    Head {
        /// From the floor.
        head: f64,
        /// The seat that it was measured on, where that is known.
        seat: Option<f64>,
        /// The higher shoulder above the seat.
        shoulder: f64,
    },
    /// Bones that are wider than the hips around them. Metres.
    Bones {
        /// Between the outermost points of the bones.
        bones: f64,
        /// The hips.
        hips: f64,
    },
}

/// A posture that the rider's body keeps.
#[derive(Clone, PartialEq, Debug)]
pub enum Held {
    /// The pelvis is tilted, in radians; backward is positive.
    Pelvis(f64),
    /// The back is curved: the word for it.
    Spine(String),
}

/// Something that a whole chair is held against, and a text does not declare.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Lack {
    /// Published rules of fit.
    FitRules,
    /// A use profile, with margins of tipping.
    Profile,
    /// The slope of the path.
    Slope,
    /// A parking brake.
    Brake,
}
