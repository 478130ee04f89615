//! What comes in: nodes, members, springs, panels.

use crate::vector::{Axes, Vec3, add, norm, sub};

/// The place of a node in [`Model::nodes`].
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct NodeId(pub usize);

/// The place of a member in [`Model::members`].
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct MemberId(pub usize);

/// A frame. All figures in SI units (m, N, rad) or any other consistent set.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Model {
    /// The nodes; each has three displacements and three rotations, in global axes.
    pub nodes: Vec<Node>,
    /// The members.
    pub members: Vec<Member>,
    /// Springs between two nodes.
    pub links: Vec<Link>,
    /// Sheets that carry shear.
    pub panels: Vec<Panel>,
}

/// A point of the frame, its supports and its springs to the ground.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Node {
    /// Where it is, m.
    pub at: Vec3,
    /// Which of ux, uy, uz, rx, ry, rz are held (at zero or at a settlement of the load case).
    pub fixed: [bool; 6],
    /// Springs to the ground along and about the global axes: N/m and N m/rad; zero is none.
    pub spring: [f64; 6],
}

/// A straight beam of constant section between two nodes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Member {
    /// First node.
    pub i: NodeId,
    /// Second node.
    pub j: NodeId,
    /// Its cross-section and material.
    pub section: Section,
    /// How its own axes lie.
    pub orientation: Orientation,
    /// How it meets its two nodes.
    pub ends: [End; 2],
}

/// How the axes of a member lie. Local x runs from the first end to the second, after offsets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Orientation {
    /// At zero roll, local y is level and local z in the vertical plane of the member, pointing up
    /// (`y = Z × x`, global Z up). For a member within 1e-6 rad of vertical, local y is global Y
    /// instead. The roll in radians then turns y towards z about local x.
    Roll(f64),
    /// Local z lies in the plane of the member and this global vector, on the vector's side.
    ZTowards(Vec3),
}

impl Default for Orientation {
    fn default() -> Self {
        Orientation::Roll(0.0)
    }
}

/// Stiffness of a cross-section. Local y and z must be its principal axes through the centroid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// Young's modulus, Pa.
    pub e: f64,
    /// Shear modulus, Pa.
    pub g: f64,
    /// Area, m².
    pub area: f64,
    /// Area that resists shear along y, m²; `None` neglects that shear strain.
    pub shear_y: Option<f64>,
    /// Area that resists shear along z, m²; `None` neglects that shear strain.
    pub shear_z: Option<f64>,
    /// Second moment about y (bending in the xz plane), m⁴.
    pub iy: f64,
    /// Second moment about z (bending in the xy plane), m⁴.
    pub iz: f64,
    /// Torsion constant, m⁴.
    pub j: f64,
}

/// How one end of a member meets its node.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct End {
    /// Rigid arm from the node to the end of the member, m, in global axes.
    pub offset: Vec3,
    /// The six local directions ux, uy, uz, rx, ry, rz of the joint between arm and member.
    pub joint: [Joint; 6],
}

/// One direction of a joint.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Joint {
    /// Held.
    #[default]
    Rigid,
    /// Released.
    Free,
    /// Held by a spring, N/m or N m/rad, above zero.
    Spring(f64),
}

impl End {
    /// Rigid, at the node itself.
    pub const RIGID: End = End { offset: [0.0; 3], joint: [Joint::Rigid; 6] };
    /// Released about local y and z.
    pub const PINNED: End = End {
        offset: [0.0; 3],
        joint: [Joint::Rigid, Joint::Rigid, Joint::Rigid, Joint::Rigid, Joint::Free, Joint::Free],
    };
}

impl Default for End {
    fn default() -> Self {
        End::RIGID
    }
}

/// A spring between two nodes. It sits midway between them and is joined to each by a rigid arm, so
/// that it is in balance whatever the distance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Link {
    /// First node.
    pub a: NodeId,
    /// Second node.
    pub b: NodeId,
    /// Its own axes.
    pub axes: Axes,
    /// Stiffness along and about its axes, N/m and N m/rad; zero is none.
    pub stiffness: [f64; 6],
}

/// A flat four-cornered sheet that carries shear in its plane and nothing else: see
/// [`crate::panel`] for the model.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Panel {
    /// Its corners in order around the edge.
    pub corners: [NodeId; 4],
    /// Thickness, m.
    pub thickness: f64,
    /// Shear modulus, Pa.
    pub g: f64,
}

impl Model {
    /// An empty model.
    #[must_use]
    pub fn new() -> Model {
        Model::default()
    }

    /// Adds a free node.
    pub fn node(&mut self, at: Vec3) -> NodeId {
        self.nodes.push(Node { at, ..Node::default() });
        NodeId(self.nodes.len() - 1)
    }

    /// Adds a node that is held in the given directions.
    pub fn support(&mut self, at: Vec3, fixed: [bool; 6]) -> NodeId {
        self.nodes.push(Node { at, fixed, ..Node::default() });
        NodeId(self.nodes.len() - 1)
    }

    /// Adds a rigidly joined member at zero roll; change [`Model::members`] for anything else.
    pub fn member(&mut self, i: NodeId, j: NodeId, section: Section) -> MemberId {
        let (orientation, ends) = (Orientation::default(), [End::RIGID; 2]);
        self.members.push(Member { i, j, section, orientation, ends });
        MemberId(self.members.len() - 1)
    }

    /// The largest distance between nodes along any axis, m: the size that rotations are compared with.
    #[must_use]
    pub fn size(&self) -> f64 {
        let mut low = [f64::INFINITY; 3];
        let mut high = [f64::NEG_INFINITY; 3];
        for node in &self.nodes {
            for k in 0..3 {
                low[k] = low[k].min(node.at[k]);
                high[k] = high[k].max(node.at[k]);
            }
        }
        (0..3).map(|k| high[k] - low[k]).fold(0.0, f64::max)
    }
}

impl Member {
    /// The ends of the flexible part, after the offsets.
    pub(crate) fn span(&self, nodes: &[Node]) -> (Vec3, Vec3) {
        (add(nodes[self.i.0].at, self.ends[0].offset), add(nodes[self.j.0].at, self.ends[1].offset))
    }

    /// Length of the flexible part, m.
    pub(crate) fn length(&self, nodes: &[Node]) -> f64 {
        let (a, b) = self.span(nodes);
        norm(sub(b, a))
    }

    /// Its own axes, or `None` if they cannot be told.
    pub(crate) fn axes(&self, nodes: &[Node]) -> Option<Axes> {
        let (a, b) = self.span(nodes);
        let along = sub(b, a);
        match self.orientation {
            Orientation::ZTowards(v) => Axes::with_z_towards(along, v),
            Orientation::Roll(angle) => {
                // The second choice gives y = Y for a vertical member: z = x × Y.
                let level = Axes::with_z_towards(along, [0.0, 0.0, 1.0]);
                let axes = level.or_else(|| {
                    let z = crate::vector::cross(along, [0.0, 1.0, 0.0]);
                    Axes::with_z_towards(along, z)
                });
                axes.map(|a| a.rolled(angle))
            }
        }
    }
}
