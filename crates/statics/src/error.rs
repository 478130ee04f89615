//! What can be wrong.

use std::fmt;

use crate::mechanism::Mechanism;

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq)]
pub enum Error {
    /// Something that came in cannot be used.
    Invalid {
        /// Which thing.
        item: Item,
        /// What is wrong with it.
        fault: Fault,
    },
    /// Parts of the frame can move without any resistance.
    Mechanism(Vec<Mechanism>),
    /// A load pushes a member along or about its own releases, where nothing holds it.
    LooseMember {
        /// The load case, counted from zero.
        case: usize,
        /// The member.
        member: usize,
    },
    /// Stiffnesses differ so much that no digit of the answer is sure.
    IllConditioned,
    /// The library for linear algebra gave up, for want of memory.
    OutOfMemory,
}

/// Something that came in, counted from zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Item {
    /// A node.
    Node(usize),
    /// A member.
    Member(usize),
    /// A link.
    Link(usize),
    /// A panel.
    Panel(usize),
    /// A load on a node: case and place in it.
    NodeLoad(usize, usize),
    /// A load on a member: case and place in it.
    MemberLoad(usize, usize),
    /// A settlement: case and place in it.
    Settlement(usize, usize),
    /// An option of the computation.
    Option(&'static str),
}

/// What is wrong with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// A number is infinite or not a number.
    NotFinite,
    /// A number must be above zero.
    NotPositive,
    /// A number must not be below zero.
    Negative,
    /// It names a node that is not there.
    UnknownNode,
    /// It names a member that is not there.
    UnknownMember,
    /// Its ends fall together.
    NoLength,
    /// Its axes cannot be told: the given vector is parallel to it, or three axes are not square.
    NoAxes,
    /// Its corners do not lie in one plane in order around a convex edge.
    NotFlat,
    /// A station lies outside the member, or the last before the first.
    OutsideMember,
    /// The direction is not a fixed one.
    NotFixed,
    /// It is of another frame.
    OtherFrame,
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Error::Invalid { item, fault } => write!(f, "{item}: {fault}"),
            Error::Mechanism(all) => write!(f, "{} ways to move without resistance", all.len()),
            Error::LooseMember { case, member } => {
                write!(f, "load case {case} pushes member {member} where it is released")
            }
            Error::IllConditioned => f.write_str("stiffnesses differ too much for a sure answer"),
            Error::OutOfMemory => f.write_str("out of memory"),
        }
    }
}

impl fmt::Display for Item {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Item::Node(k) => write!(f, "node {k}"),
            Item::Member(k) => write!(f, "member {k}"),
            Item::Link(k) => write!(f, "link {k}"),
            Item::Panel(k) => write!(f, "panel {k}"),
            Item::NodeLoad(c, k) => write!(f, "load case {c}, node load {k}"),
            Item::MemberLoad(c, k) => write!(f, "load case {c}, member load {k}"),
            Item::Settlement(c, k) => write!(f, "load case {c}, settlement {k}"),
            Item::Option(name) => write!(f, "option {name}"),
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Fault::NotFinite => "a number is not finite",
            Fault::NotPositive => "a number is not above zero",
            Fault::Negative => "a number is below zero",
            Fault::UnknownNode => "unknown node",
            Fault::UnknownMember => "unknown member",
            Fault::NoLength => "no length",
            Fault::NoAxes => "axes cannot be told",
            Fault::NotFlat => "corners not flat and convex",
            Fault::OutsideMember => "station outside the member",
            Fault::NotFixed => "direction is not fixed",
            Fault::OtherFrame => "of another frame",
        })
    }
}

impl std::error::Error for Error {}
