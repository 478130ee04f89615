//! What acts on the frame in one load case.

use crate::model::{MemberId, NodeId};
use crate::vector::Vec3;

/// Loads and settlements that act together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LoadCase {
    /// Forces (N) and moments (N m) on nodes, in global axes.
    pub nodes: Vec<(NodeId, [f64; 6])>,
    /// Loads on members.
    pub members: Vec<(MemberId, MemberLoad)>,
    /// Displacement (m) or rotation (rad) of a fixed direction 0 to 5 of a node.
    pub settlements: Vec<(NodeId, usize, f64)>,
}

/// The axes in which a load is given.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum In {
    /// The global axes.
    #[default]
    Global,
    /// The member's own axes.
    Local,
}

/// A load on one member. Stations count from the first end of the flexible part, in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MemberLoad {
    /// The same force on every metre of the member's own length, N/m.
    Uniform(In, Vec3),
    /// A force per metre that goes straight from one value to another between two stations, N/m.
    Linear {
        /// Axes of the values.
        axes: In,
        /// First station, m.
        from: f64,
        /// Last station, m.
        to: f64,
        /// Value at the first station, N/m.
        first: Vec3,
        /// Value at the last station, N/m.
        last: Vec3,
    },
    /// A force and a moment at a station.
    Point {
        /// Axes of the values.
        axes: In,
        /// Where, m.
        at: f64,
        /// Force, N.
        force: Vec3,
        /// Moment, N m.
        moment: Vec3,
    },
    /// Strain without force, as from heat: of the axis, and curvature about local y and z.
    Strain {
        /// Lengthening per length.
        axial: f64,
        /// Rate of turn about y, rad/m.
        about_y: f64,
        /// Rate of turn about z, rad/m.
        about_z: f64,
    },
}

impl LoadCase {
    /// An empty load case.
    #[must_use]
    pub fn new() -> LoadCase {
        LoadCase::default()
    }

    /// Adds a force and a moment on a node.
    #[must_use]
    pub fn push(mut self, node: NodeId, force: [f64; 6]) -> LoadCase {
        self.nodes.push((node, force));
        self
    }

    /// Adds a load on a member.
    #[must_use]
    pub fn on(mut self, member: MemberId, load: MemberLoad) -> LoadCase {
        self.members.push((member, load));
        self
    }

    /// Adds a settlement of a fixed direction.
    #[must_use]
    pub fn settle(mut self, node: NodeId, direction: usize, by: f64) -> LoadCase {
        self.settlements.push((node, direction, by));
        self
    }
}
