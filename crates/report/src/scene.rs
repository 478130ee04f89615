//! The chair as a list of shapes on the ground, for drawings and solids.

use chairwright_design::{Frame3, Vec3};
use chairwright_driver::Compilation;
use chairwright_frame::{Group, Solid};

/// One body in its place.
pub(crate) struct Placed {
    pub name: String,
    pub group: Group,
    pub fitting: bool,
    pub solids: Vec<Solid>,
}

/// Every body that has a shape, on the ground if the chair stands, else as drawn.
pub(crate) fn bodies(c: &Compilation) -> Vec<Placed> {
    let pose = pose(c);
    c.frame
        .bodies
        .iter()
        .filter(|b| !b.solids.is_empty())
        .map(|b| Placed {
            name: b.name.clone(),
            group: b.group,
            fitting: b.name.ends_with(".fitting") || b.name.contains(".bush_"),
            solids: b.solids.iter().map(|s| s.moved(&pose)).collect(),
        })
        .collect()
}

pub(crate) fn pose(c: &Compilation) -> Frame3 {
    c.checked.settled.as_ref().map_or(Frame3::IDENTITY, |s| s.pose)
}

/// The rider's segments as lines.
pub(crate) fn rider(c: &Compilation) -> Vec<(String, Vec3, Vec3)> {
    let pose = pose(c);
    let segments = c.checked.rider.iter().flat_map(|r| &r.segments);
    segments.map(|s| (s.name.clone(), pose.place(s.ends.0), pose.place(s.ends.1))).collect()
}
