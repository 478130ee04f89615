//! What can be wrong with a frame, as data.

use chairwright_design::{FittingId, FittingShape, JointId, MemberId, Origin, SocketId, StockId, Vec3};

/// One member end at a joint.
#[derive(Clone, PartialEq, Debug)]
pub struct RayName {
    /// The member.
    pub member: MemberId,
    /// Unit direction away from the joint.
    pub direction: Vec3,
}

/// The fitting that comes nearest to closing a joint.
#[derive(Clone, PartialEq, Debug)]
pub struct Nearest {
    /// Its pattern.
    pub shape: FittingShape,
    /// By what angle the worst member misses its port, in radians.
    pub off: f64,
    /// That member.
    pub member: MemberId,
    /// The joint at its other end.
    pub far: JointId,
    /// How that joint would have to move.
    pub shift: Vec3,
}

/// A problem of the frame.
#[derive(Clone, PartialEq, Debug)]
pub enum Problem {
    /// No fitting has ports in these directions.
    NoFitting {
        /// Where.
        joint: JointId,
        /// What meets.
        rays: Vec<RayName>,
        /// What comes nearest, if any pattern has as many ports.
        nearest: Option<Nearest>,
        /// Whether any fitting at all is in reach.
        any_fittings: bool,
        /// Whether a run-through member was met only by fittings that cut it.
        sizes: Vec<String>,
    },
    /// A fitting of the right pattern exists, but the pipe is loose in its socket.
    LooseSocket {
        /// Where.
        joint: JointId,
        /// The pipe.
        stock: StockId,
        /// The socket.
        socket: SocketId,
        /// Least and most gap on the diameter at the stop, in metres; the least is negative where the tolerances would touch.
        gap: (f64, f64),
    },
    /// A pipe of which its middle size fits, and an end of its tolerance does not.
    UnsureSocket {
        /// Where first.
        joint: JointId,
        /// The pipe.
        stock: StockId,
        /// The socket.
        socket: SocketId,
        /// By how much.
        unsure: crate::Unsure,
    },
    /// The pipe does not enter the socket.
    TightSocket {
        /// Where.
        joint: JointId,
        /// The pipe.
        stock: StockId,
        /// The socket.
        socket: SocketId,
        /// How much too thick, on the diameter, at the least and at the most; the least is negative where the tolerances would let it in.
        over: (f64, f64),
    },
    /// The named fitting does not suit.
    WrongFitting {
        /// Where the text names it.
        origin: Origin,
        /// The joint.
        joint: JointId,
        /// The fitting.
        fitting: FittingId,
        /// How many members meet.
        rays: usize,
        /// How many ports it has.
        ports: usize,
        /// Worst miss of a port, where the numbers agree.
        off: Option<f64>,
    },
    /// A pipe weaker than the one the socket is made for.
    WeakerPipe {
        /// The pipe.
        stock: StockId,
        /// The socket.
        socket: SocketId,
        /// Its section modulus as a share of the proper pipe's.
        share: f64,
    },
    /// Pipes that are said to be deeper in a fitting than any of its sockets.
    TooDeep {
        /// Where the text says it.
        origin: Origin,
        /// The fitting.
        fitting: FittingId,
        /// Its deepest socket here.
        socket: SocketId,
        /// How deep they are said to be, in metres.
        inserted: f64,
    },
    /// A take-out nobody has measured.
    UnmeasuredTakeOut {
        /// The fitting.
        fitting: FittingId,
        /// The first joint it closes.
        joint: JointId,
        /// How many joints it closes.
        uses: usize,
    },
    /// A joint that needs a closing from the text.
    Unclosed {
        /// Where.
        joint: JointId,
        /// What meets.
        members: Vec<MemberId>,
    },
    /// Two laps ask a member to lie in two places.
    LapConflict {
        /// Where the text asks for the second.
        origin: Origin,
        /// The member.
        member: MemberId,
        /// First shift.
        first: Vec3,
        /// Second shift.
        second: Vec3,
    },
    /// A member named in a closing that does not touch the joint.
    NotAtJoint {
        /// Where the text names it.
        origin: Origin,
        /// The joint.
        joint: JointId,
        /// The member.
        member: MemberId,
    },
    /// An open pipe end.
    OpenEnd {
        /// Where.
        joint: JointId,
        /// The pipe.
        member: MemberId,
    },
    /// A piece too short to fill the sockets at its ends.
    PieceTooShort {
        /// The member.
        member: MemberId,
        /// The piece.
        piece: String,
        /// From middle to middle of the fittings at its ends.
        between: f64,
        /// What is left after the take-outs.
        left: f64,
        /// What the sockets at its ends must hold.
        grip: f64,
    },
    /// A hole that runs along its member.
    HoleAlong {
        /// Index into the design's holes.
        hole: usize,
    },
    /// A hole as wide as its member.
    HoleTooWide {
        /// Index into the design's holes.
        hole: usize,
        /// How wide the member is there.
        room: f64,
    },
    /// A hole where there is no piece: beyond the end, or in a fitting.
    HoleMisses {
        /// Index into the design's holes.
        hole: usize,
    },
    /// A hole where the piece is inside a socket.
    HoleInSocket {
        /// Index into the design's holes.
        hole: usize,
    },
    /// Two holes that run into each other.
    HolesMeet {
        /// Index into the design's holes.
        first: usize,
        /// The other.
        second: usize,
    },
    /// A sleeve that does not go over or into its member.
    SleeveFit {
        /// Where the text asks for it.
        origin: Origin,
        /// The member.
        member: MemberId,
        /// The sleeve's stock.
        stock: StockId,
        /// Worst-case gap on the diameter; negative is an overlap.
        gap: f64,
    },
    /// A sleeve over a member that runs on over a fitting.
    SleeveOverFitting {
        /// Where the text asks for it.
        origin: Origin,
        /// The member.
        member: MemberId,
        /// The sleeve's stock.
        stock: StockId,
        /// By how much it runs over it, m.
        over: f64,
        /// How long it may be at most, from the joint that it is measured from, m.
        most: f64,
    },
    /// Two sleeves in one place.
    SleevesMeet {
        /// Where the text asks for the second.
        origin: Origin,
        /// Where it asks for the first.
        other: Origin,
        /// The member.
        member: MemberId,
        /// The second sleeve's stock.
        stock: StockId,
        /// Whether both are in the member, and not over it.
        inside: bool,
        /// How much of it both claim, m.
        over: f64,
    },
    /// Two statements that hold the same two things together, in the middle of the face that both share.
    FastenedTwice {
        /// Where the second stands.
        origin: Origin,
        /// Where the first stands.
        first: Origin,
        /// The one.
        what: String,
        /// The other.
        to: String,
        /// How many of the same fasteners both have together; `None` where they differ.
        together: Option<u32>,
    },
}
