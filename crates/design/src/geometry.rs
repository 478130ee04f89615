//! Joints, members, panels, boxes and supports.

use crate::{Id, Origin, Side, StockId, Vec3};

/// Id of a joint.
pub type JointId = Id<Joint>;
/// Id of a member.
pub type MemberId = Id<Member>;

/// A named point where members meet.
#[derive(Clone, PartialEq, Debug)]
pub struct Joint {
    /// Its name, such as `left.hip`.
    pub name: String,
    /// Where it is in the drawing.
    pub at: Vec3,
    /// Place in the text.
    pub origin: Origin,
}

/// A joint somewhere along a member.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct MidJoint {
    /// The joint.
    pub joint: JointId,
    /// Distance from the member's start, in metres.
    pub along: f64,
}

/// A second tube inside or outside a member.
#[derive(Clone, PartialEq, Debug)]
pub struct Sleeve {
    /// What it is cut from.
    pub stock: StockId,
    /// From where along the member, in metres.
    pub start: f64,
    /// To where.
    pub end: f64,
    /// What fills its play at both ends and in its middle, where the text says so.
    pub shim: Option<String>,
    /// Place in the text.
    pub origin: Origin,
}

/// A straight piece between two joints.
#[derive(Clone, PartialEq, Debug)]
pub struct Member {
    /// Its name, such as `left.seat_rail`.
    pub name: String,
    /// The side it belongs to, if it has a mirror image.
    pub side: Option<Side>,
    /// What it is cut from.
    pub stock: StockId,
    /// First joint.
    pub start: JointId,
    /// Last joint.
    pub end: JointId,
    /// Joints along it, in order from the start.
    pub middle: Vec<MidJoint>,
    /// Shift of the piece off the line of its joints.
    pub offset: Vec3,
    /// Turn of a board about its length, in radians; zero stands the wider side upright.
    pub turned: f64,
    /// Sleeves.
    pub sleeves: Vec<Sleeve>,
    /// Place in the text.
    pub origin: Origin,
}

/// A flat piece of sheet.
#[derive(Clone, PartialEq, Debug)]
pub struct Panel {
    /// Its name.
    pub name: String,
    /// The side it belongs to, if it has a mirror image.
    pub side: Option<Side>,
    /// What it is cut from.
    pub stock: StockId,
    /// Corners in order, on the face that the thickness grows from.
    pub corners: Vec<Vec3>,
    /// The direction in which the thickness grows.
    pub toward: Vec3,
    /// Place in the text.
    pub origin: Origin,
}

/// A closed box of four boards of sheet around a line.
#[derive(Clone, PartialEq, Debug)]
pub struct BoxBeam {
    /// Its name.
    pub name: String,
    /// What it is cut from.
    pub stock: StockId,
    /// One end of the middle line.
    pub start: Vec3,
    /// The other end.
    pub end: Vec3,
    /// Outside size, level.
    pub width: f64,
    /// Outside size, upright.
    pub height: f64,
    /// Whether both ends are closed by a plate inside.
    pub ends: bool,
    /// Whether the face grain of its plates runs along it; `None` where nobody says.
    pub lengthwise: Option<bool>,
    /// Place in the text.
    pub origin: Origin,
}

/// How a lap lies.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Lap {
    /// The member that is moved aside.
    pub member: MemberId,
    /// To which side of the other one.
    pub toward: Vec3,
}

/// The ways to close a joint.
#[derive(Clone, PartialEq, Debug)]
pub enum ClosingKind {
    /// A named fitting.
    Fitting(String),
    /// Members side by side, held by fasteners or glue.
    Lap(Lap),
    /// The first stops at the face of the second.
    Butt {
        /// The member that stops.
        member: MemberId,
        /// The member that runs past.
        against: MemberId,
    },
    /// Butted members under plates on both faces.
    Gusset {
        /// The member that stops.
        member: MemberId,
        /// The member that runs past.
        against: MemberId,
        /// What the plates are cut from.
        stock: StockId,
        /// Size of one plate along and across the member that stops.
        size: (f64, f64),
    },
    /// Left open on purpose, or held by something else that is described in words.
    Free(String),
}

/// How a joint came out when it was made, where somebody measured it.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Made {
    /// Stiffness against turning of one member's end in it, N·m/rad.
    pub stiffness: Option<f64>,
    /// How far the pipes are in their sockets, m.
    pub inserted: Option<f64>,
    /// How far the end of a member was bent aside to close the joint, m.
    pub sprung: Option<f64>,
    /// The member that was bent aside; `None` where nobody says which.
    pub bent: Option<MemberId>,
}

/// How one joint is closed, as the text says.
#[derive(Clone, PartialEq, Debug)]
pub struct Closing {
    /// Which joint.
    pub joint: JointId,
    /// How.
    pub kind: ClosingKind,
    /// Fastener name and how many.
    pub fasteners: Vec<(String, u32)>,
    /// Glue name.
    pub glue: Option<String>,
    /// Where the fasteners sit, where the text says it.
    pub placing: Option<Placing>,
    /// How they are driven.
    pub drive: Drive,
    /// How it came out.
    pub made: Made,
    /// Place in the text.
    pub origin: Origin,
}

/// How screws and nails are driven.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
pub enum Drive {
    /// Square to the face, into lead holes.
    #[default]
    Drilled,
    /// Square to the face, without lead holes.
    Undrilled,
    /// Aslant, through the side of the piece that stops into the one that it stops at.
    Slanted,
}

/// Where fasteners sit on the face that two pieces share: rows alike, in its middle unless the distance from an
/// end or edge says otherwise. Lengths in m.
#[derive(Clone, Copy, PartialEq, PartialOrd, Debug)]
pub struct Placing {
    /// How many rows.
    pub rows: u32,
    /// From one fastener to the next in a row; `None` where `ends` gives it, or a row has only one.
    pub spaced: Option<f64>,
    /// From one row to the next; `None` where `edges` gives it, or there is only one.
    pub apart: Option<f64>,
    /// From the first and the last of a row to the end of the face.
    pub ends: Option<f64>,
    /// From the outer rows to the edge of the face.
    pub edges: Option<f64>,
}

/// Fasteners that hold two things together away from the joints.
#[derive(Clone, PartialEq, Debug)]
pub struct Fastening {
    /// What is held.
    pub what: String,
    /// What it is held to.
    pub to: String,
    /// Fastener name and how many.
    pub fasteners: Vec<(String, u32)>,
    /// Where they sit, where the text says it.
    pub placing: Option<Placing>,
    /// How they are driven.
    pub drive: Drive,
    /// Where their masses act.
    pub at: Vec3,
    /// Place in the text.
    pub origin: Origin,
}

/// Which part of the body a support carries.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum SupportKind {
    /// The seat.
    Seat,
    /// The back support.
    Back,
    /// The foot support.
    Footrest,
    /// An arm support; there may be several.
    Arm,
}

impl SupportKind {
    /// The statement's keyword.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            SupportKind::Seat => "seat",
            SupportKind::Back => "back",
            SupportKind::Footrest => "footrest",
            SupportKind::Arm => "armrest",
        }
    }
}

/// A surface that carries the rider.
#[derive(Clone, PartialEq, Debug)]
pub struct Support {
    /// Which.
    pub kind: SupportKind,
    /// Its name.
    pub name: String,
    /// What it is cut from.
    pub stock: StockId,
    /// Middle of the rear edge (seat, footrest, armrest) or lower edge (back), on the rider's side.
    pub from: Vec3,
    /// Middle of the front or upper edge.
    pub to: Vec3,
    /// Width across.
    pub width: f64,
    /// How many bands side by side, for webbing; 1 for a sheet.
    pub bands: u32,
    /// How far a sling hangs through in its middle under the rider, m, where somebody measured it; `None` for a sheet.
    pub sag: Option<f64>,
    /// The cushion's name, mass and loaded thickness.
    pub cushion: Option<(String, f64, f64)>,
    /// Place in the text.
    pub origin: Origin,
}
