//! What is wrong with a clearance, as data.

use chairwright_design::{Origin, Side};

/// What something that moves comes near to.
#[derive(Clone, PartialEq, Debug)]
pub enum Struck {
    /// The rider's foot of a side.
    Foot(Side),
    /// The foot support, by name.
    Footrest(String),
    /// A part of the frame or on it, by name.
    Part(String),
    /// A wheel that does not swivel, by name.
    Wheel(String),
    /// Another caster, by name.
    Caster(String),
}

/// A direction that something can be moved in to mend a clearance.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Way {
    /// Ahead.
    Forward,
    /// To the rear.
    Back,
    /// Away from the chair's middle.
    Outward,
    /// Towards the chair's middle.
    Inward,
    /// Upward.
    Up,
}

/// A shift that mends a clearance and breaks no other of the same caster.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Shift {
    /// Which way.
    pub way: Way,
    /// How far, in metres, in whole millimetres.
    pub by: f64,
}

/// Why a caster needs a coast test.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Doubt {
    /// Trail over wheel radius is outside the band of common practice.
    Ratio(f64),
    /// Wheel and fork are heavier than usual for their size. Kilograms.
    Heavy {
        /// What they weigh.
        mass: f64,
        /// What they weigh at most as a rule.
        most: f64,
    },
    /// Nobody says what wheel and fork weigh.
    MassUnknown,
    /// The stem leans by this with the rider in the seat, in radians.
    Leans(f64),
    /// The stem turns in its bearings by this, in radians.
    Play(f64),
    /// Nobody measured the stem's play.
    PlayUnknown,
    /// The chair is meant for this speed, in m/s.
    Speed(f64),
    /// Nobody says how fast it goes.
    SpeedUnknown,
}

/// A clearance that is broken, or that nobody can tell.
#[derive(Clone, PartialEq, Debug)]
pub enum Trouble {
    /// A caster swings onto something, or too near to it.
    CasterHits {
        /// The caster's name.
        caster: String,
        /// Its place in the text.
        origin: Origin,
        /// Its side.
        side: Option<Side>,
        /// What it comes near to.
        what: Struck,
        /// The swivel there from trailing, towards the chair's middle positive (to the right for a caster in
        /// the middle), in radians; `None` where every swivel is alike.
        swivel: Option<f64>,
        /// The least gap in metres; negative when they overlap.
        gap: f64,
        /// What is wanted.
        limit: f64,
        /// The rider feels little or nothing in the feet.
        numb: bool,
        /// The least shift of the caster that mends it.
        caster_shift: Option<Shift>,
        /// The least shift of the feet or the foot support that mends it.
        feet_shift: Option<Shift>,
    },
    /// More pairs of casters may meet than are looked at.
    CastersUntold {
        /// The first caster of such a pair.
        caster: String,
        /// Its place in the text.
        origin: Origin,
        /// How many such pairs there are.
        pairs: usize,
        /// How many are looked at.
        looked: usize,
    },
    /// A tyre rubs, or would when the wheel bends.
    TyreRubs {
        /// The wheel's name.
        wheel: String,
        /// Its place in the text.
        origin: Origin,
        /// What it comes near to.
        body: String,
        /// The gap as drawn, in metres.
        drawn: f64,
        /// What bending and a camber error take off it.
        flex: f64,
        /// What is wanted of the rest.
        limit: f64,
    },
    /// A gap that a child's finger enters and cannot leave, or that shears it.
    FingerGap {
        /// One of the two parts.
        one: String,
        /// The other.
        other: String,
        /// The gap in metres.
        gap: f64,
        /// The band to stay out of.
        band: (f64, f64),
        /// Whether one of them moves.
        moves: bool,
    },
    /// Holes of one line of the text that stay open and that a child's finger enters and cannot leave.
    FingerHole {
        /// The first of them.
        hole: String,
        /// How many there are.
        count: usize,
        /// How many of the bolts that hold something to that member may go through them.
        bolts: usize,
        /// What it is drilled through.
        member: String,
        /// Its place in the text.
        origin: Origin,
        /// Across, in metres.
        across: f64,
        /// Whether it is a slot.
        slot: bool,
        /// The band to stay out of.
        band: (f64, f64),
    },
    /// Something is in the way of a wheel that is pulled off.
    WheelStuck {
        /// The wheel's name.
        wheel: String,
        /// Its place in the text.
        origin: Origin,
        /// What is in the way.
        body: String,
        /// How deep the wheel would run into it, in metres.
        depth: f64,
        /// How far the wheel has to come out.
        path: f64,
    },
    /// Something stands inside a wheel's spokes, or another wheel in it.
    WheelBlocked {
        /// The wheel's name.
        wheel: String,
        /// Its place in the text.
        origin: Origin,
        /// What stands there.
        body: String,
        /// Whether that is another wheel.
        is_wheel: bool,
        /// How deep, in metres.
        depth: f64,
        /// How far along the axle it must be moved to be out of it.
        out: f64,
    },
    /// The push rim stands too near to the tyre or too far from it.
    StandOff {
        /// The wheel's name.
        wheel: String,
        /// Its place in the text.
        origin: Origin,
        /// From the side of the tyre to the rim, in metres.
        gap: f64,
        /// The band to stay in.
        band: (f64, f64),
    },
    /// A brake stands where the thumb runs along the push rim.
    ThumbTrap {
        /// The brake's name.
        brake: String,
        /// Its place in the text.
        origin: Origin,
        /// The wheel's name.
        wheel: String,
        /// The gap in metres; negative when they overlap.
        gap: f64,
        /// The room that a thumb passes freely.
        free: f64,
    },
    /// A wheel or caster that carries more than it is rated for, or nobody can tell.
    Overloaded {
        /// Its name.
        wheel: String,
        /// Whether it is a caster.
        caster: bool,
        /// Its place in the text.
        origin: Origin,
        /// What it carries standing still, in kg.
        load: f64,
        /// How much more a kerb or a stone makes of it.
        shock: f64,
        /// What it is rated for, in kg; `None` where nobody says.
        rated: Option<f64>,
    },
    /// A wheel whose axle must be held at both ends, held at one.
    OneSided {
        /// The wheel's name.
        wheel: String,
        /// Its place in the text.
        origin: Origin,
    },
    /// Hub and receiver do not add up to the axle's usable length.
    AxleLength {
        /// The axle's name.
        axle: String,
        /// Its place in the text.
        origin: Origin,
        /// Its usable length in metres.
        length: f64,
        /// The hub's width.
        hub: f64,
        /// The receiver's length; none for an axle that does not even come out of the hub.
        receiver: Option<f64>,
        /// Another side of the receiver, that would add up.
        lying: Option<f64>,
    },
    /// An axle of which nobody can tell whether it is long enough to lock.
    AxleUnmeasured {
        /// The axle's name.
        axle: String,
        /// Its place in the text.
        origin: Origin,
        /// The wheel's part.
        wheel: String,
        /// The axle's usable length in metres.
        length: f64,
        /// The hub's width, if somebody measured it.
        hub: Option<f64>,
        /// The receiver's length, if one is drawn.
        receiver: Option<f64>,
    },
    /// An axle that does not go into what it must go through, or rattles there.
    AxleBore {
        /// The axle's name.
        axle: String,
        /// Its place in the text.
        origin: Origin,
        /// Its diameter in metres.
        diameter: f64,
        /// The wheel or the receiver.
        into: String,
        /// Across the hole of that.
        bore: f64,
    },
    /// Only a ride can tell whether a caster flutters.
    CoastTest {
        /// The caster's name.
        caster: String,
        /// Its place in the text.
        origin: Origin,
        /// Why.
        doubts: Vec<Doubt>,
        /// The speed that the built chair was tried at and passed, in m/s.
        tried: Option<f64>,
    },
}
