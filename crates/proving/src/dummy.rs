//! The sand rider: three bags whose middles are where the rider's parts have theirs.

use crate::sheet::{Bag, Place};
use chairwright_checks::{Checked, RiderBody, SegmentMass, weigh};
use chairwright_design::{Design, SupportKind, Vec3};

/// The bags for the rider's declared mass. Together they have the rider's own centre of mass: each is the centre of
/// its segments.
pub(crate) fn bags(design: &Design, checked: &Checked) -> Vec<Bag> {
    let (Some(rider), Some(settled)) = (&checked.rider, &checked.settled) else { return Vec::new() };
    let seat = design.supports.iter().find(|s| s.kind == SupportKind::Seat);
    let edge = seat.map_or(Vec3::ZERO, |s| settled.pose.place(s.from));
    let bag = |place: Place| {
        let mine = of(rider, place).map(|s| (s.mass, s.centre));
        let sum = weigh(mine);
        let centre = settled.pose.place(sum.centre);
        (sum.mass > 0.0).then_some(Bag { place, mass: sum.mass, ahead: centre.x - edge.x, height: centre.z })
    };
    [Place::Back, Place::Seat, Place::Feet].into_iter().filter_map(bag).collect()
}

fn of(rider: &RiderBody, place: Place) -> impl Iterator<Item = &SegmentMass> {
    rider.segments.iter().filter(move |s| where_is(&s.name) == place)
}

/// Segments are named after the table of the body, with their side in front.
fn where_is(name: &str) -> Place {
    let has = |word: &str| name.contains(word);
    if has("thigh") {
        Place::Seat
    } else if has("shank") || has("foot") || has("leg") || has("prosthesis") {
        Place::Feet
    } else {
        Place::Back
    }
}
