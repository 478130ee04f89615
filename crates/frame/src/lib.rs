//! From a design to pieces, fittings and solids, and the chair at rest on its wheels.
//!
//! In comes a [`chairwright_design::Design`]; out go a [`Frame`] (what is cut, what closes each
//! joint, every solid with its mass) and, given the centre of mass, a [`Settled`] pose.
//! This room knows no text and no message: problems are typed data with model names in them.

mod boards;
mod bodies;
mod closing;
mod fit;
mod holes;
mod ports;
mod problem;
mod settle;
mod sleeves;
mod solid;
mod twice;
mod wood;

pub use bodies::{Body, Group};
pub use fit::{SocketFit, Unsure, socket_fit, unsure};
pub use holes::Drilled;
pub use ports::{ANGLE_TOLERANCE, port_directions};
pub use problem::{Nearest, Problem, RayName};
pub use settle::{Contact, SettleError, Settled, caster_centre, lowest, settle};
pub use sleeves::{covers, goes_into};
pub use solid::{Mesh, Solid, ears};
pub use wood::half_along;

use chairwright_design::{Design, FittingId, JointId, MemberId, Origin, Side, StockId, Vec3};

/// What one piece is cut to.
#[derive(Clone, PartialEq, Debug)]
pub enum Cut {
    /// A length of pipe, bar or board, in metres.
    Length(f64),
    /// A flat outline in metres, first edge along x.
    Sheet {
        /// Corners in order.
        outline: Vec<(f64, f64)>,
    },
    /// A length of band.
    Band(f64),
}

/// One piece to cut.
#[derive(Clone, PartialEq, Debug)]
pub struct Piece {
    /// Its name: the member's, with `.1`, `.2` when fittings cut the member.
    pub name: String,
    /// What it belongs to.
    pub of: String,
    /// The side it belongs to, if it has a mirror image.
    pub side: Option<Side>,
    /// What it is cut from.
    pub stock: StockId,
    /// To what.
    pub cut: Cut,
    /// What is at its ends or why it is so long, for the cut list.
    pub ends: String,
    /// Where it lies on its member, if it is a piece of one.
    pub lies: Option<Lies>,
    /// Holes in it, in the order of the text.
    pub holes: Vec<Drilled>,
    /// Place in the text.
    pub origin: Origin,
}

/// Where a piece lies on its member.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Lies {
    /// From the member's first joint to the piece's first end, in metres.
    pub from: f64,
    /// To its last end.
    pub to: f64,
    /// How much of each end is inside a socket.
    pub grip: [f64; 2],
}

/// A fitting in its place.
#[derive(Clone, PartialEq, Debug)]
pub struct PlacedFitting {
    /// Which fitting.
    pub fitting: FittingId,
    /// The joint it closes.
    pub joint: JointId,
    /// Its centre.
    pub at: Vec3,
    /// Directions of its ports, in the order of the pattern.
    pub ports: Vec<Vec3>,
    /// For a bush: the joint's main fitting.
    pub bush: bool,
}

/// How one joint came out.
#[derive(Clone, PartialEq, Debug)]
pub struct JointReport {
    /// Which joint.
    pub joint: JointId,
    /// Members that meet there.
    pub members: Vec<MemberId>,
    /// What closes it, in the trade's words.
    pub closed_by: String,
    /// Whether the design chose it, rather than the compiler.
    pub chosen_by_design: bool,
    /// Largest angle between a member and its port, in radians.
    pub off: f64,
    /// How the pipes sit in the sockets: least and greatest first contact as a share of the depth.
    pub contact: Option<(f64, f64)>,
}

/// The frame worked out.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Frame {
    /// Pieces to cut.
    pub pieces: Vec<Piece>,
    /// Fittings in their places, bushes too.
    pub fittings: Vec<PlacedFitting>,
    /// How each joint came out.
    pub joints: Vec<JointReport>,
    /// Everything that has a mass and a shape, but the rider.
    pub bodies: Vec<Body>,
    /// What is wrong.
    pub problems: Vec<Problem>,
    /// What was assumed.
    pub assumptions: Vec<String>,
}

/// Works out the frame of a design.
#[must_use]
pub fn frame(design: &Design) -> Frame {
    let mut frame = Frame::default();
    let mut ends = closing::Ends::new(design);
    wood::close_wood(design, &mut ends, &mut frame);
    closing::close_pipes(design, &mut ends, &mut frame);
    boards::members(design, &ends, &mut frame);
    holes::drill(design, &mut frame);
    twice::fastened(design, &mut frame);
    boards::panels(design, &mut frame);
    boards::boxes(design, &mut frame);
    boards::supports(design, &mut frame);
    bodies::fittings(design, &mut frame);
    bodies::fasteners(design, &mut frame);
    bodies::parts(design, &mut frame);
    frame
}
