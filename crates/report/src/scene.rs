//! The chair as a list of shapes on the ground, for drawings and solids.

use chairwright_design::{Frame3, Vec3};
use chairwright_driver::Compilation;
use chairwright_frame::{Body, Group, Solid};

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
            solids: b.solids.iter().map(|s| under_load(c, b, s).moved(&pose)).collect(),
        })
        .collect()
}

/// A caster swings as large as its tyre is without a load, and stands on it with one: so it is drawn, as the wheels are.
fn under_load(c: &Compilation, body: &Body, solid: &Solid) -> Solid {
    let caster = body.swivels.and_then(|i| c.design.casters.get(i));
    match (solid, caster) {
        (Solid::Ring { centre, axle, section, hub, .. }, Some(caster)) => {
            Solid::Ring { centre: *centre, axle: *axle, radius: caster.radius, section: *section, hub: *hub }
        }
        _ => solid.clone(),
    }
}

pub(crate) fn pose(c: &Compilation) -> Frame3 {
    c.checked.settled.as_ref().map_or(Frame3::IDENTITY, |s| s.pose)
}

/// The rider's segments as lines; none of a chair that nobody rides as it is.
pub(crate) fn rider(c: &Compilation) -> Vec<(String, Vec3, Vec3)> {
    let pose = pose(c);
    let segments = c.checked.rider.iter().filter(|_| !c.design.unridden).flat_map(|r| &r.segments);
    segments.map(|s| (s.name.clone(), pose.place(s.ends.0), pose.place(s.ends.1))).collect()
}
