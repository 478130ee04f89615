//! Postures that no body takes, whatever rules of fit are named or excused: the body is placed as the drawing asks and balanced
//! so, and where it cannot be there nobody can tell anything from that.

use crate::body::{Leg, LegEnd, ankle_height, support};
use crate::feet::{hangs, on_the_floor};
use crate::problem::{JointName, Problem, Unseated};
use crate::{Checked, RiderBody};
use chairwright_design::{Design, Support, SupportKind};
use chairwright_frame::Settled;

/// Flesh beside the hips gives way by so much of their width, no more. Common practice, no source.
const GIVES: f64 = 0.10;
/// A shank that misses its place over the foot support by this much stretches no further, or lifts the thigh off the seat.
/// Common practice, no source.
const SHANK: f64 = 0.060;
/// A foot that is this far beside its hip is not put there for long. Common practice, no source.
const ASIDE: f64 = 0.080;
/// A seat that falls further than this to the front lets the rider slide out. Common practice, no source.
const FALLS: f64 = 3.0 * std::f64::consts::PI / 180.0;
/// Thighs and trunk come no nearer to each other: hips bend by 120 degrees from straight (from memory, not checked).
const FOLDS: f64 = 60.0 * std::f64::consts::PI / 180.0;
/// A foot that pushes or steers still gets to the floor this far beyond its shank, toes down. Common practice, no source.
const TOES_DOWN: f64 = 0.050;

/// Tells each of them once, where no broken rule has told it already.
pub(super) fn seated(design: &Design, rider: &RiderBody, at: (&Support, Option<&Settled>), out: &mut Checked) {
    let (seat, settled) = at;
    if design.name.is_empty() {
        return;
    }
    let mut found = Vec::new();
    found.extend(deep(design, rider, seat, out));
    found.extend(narrow(design, seat, out));
    found.extend(foot_support(design, rider, out));
    if let Some(settled) = settled {
        found.extend(floor(design, rider, seat, settled));
        found.extend(on_floor(design, rider, (seat, settled), out));
    }
    if let Some(angle) = out.figures.si("seat.angle").filter(|a| *a < -FALLS) {
        found.push((Unseated::Falls { angle: -angle }, seat.origin));
    }
    found.extend(folded(design, rider, seat, out));
    if rimless(design) {
        found.push((Unseated::NoRims, design.rider.origin.unwrap_or(seat.origin)));
    }
    out.problems.extend(found.into_iter().map(|(how, o)| Problem::Unseated { how, origin: Some(o) }));
}

type Found = (Unseated, chairwright_design::Origin);

/// Whether a broken rule about a figure is told.
fn told(out: &Checked, figure: &str) -> bool {
    out.problems.iter().any(|p| matches!(p, Problem::FitRule(b) if b.figure == figure))
}

/// The front edge lies beyond the hollow of the knee.
fn deep(design: &Design, rider: &RiderBody, seat: &Support, out: &Checked) -> Option<Found> {
    if told(out, "seat.depth") {
        return None;
    }
    let depth = (seat.to - rider.seat.0).dot(rider.along);
    let bent = rider.legs.iter().filter(|l| l.end.left()[1] > 0.0 || l.prosthesis);
    let thigh = bent.filter_map(|l| design.rider.sided("thigh", l.side)).reduce(f64::min)?;
    (depth > thigh + 1e-6).then_some((Unseated::Deep { depth, thigh }, seat.origin))
}

/// Seat and back support are folded together further than any hip bends. Of hips whose range was measured that is told.
fn folded(design: &Design, rider: &RiderBody, seat: &Support, out: &Checked) -> Option<Found> {
    let back = support(design, SupportKind::Back)?;
    let angle = (back.to - back.from).angle_to(rider.along);
    let told = out.problems.iter().any(|p| matches!(p, Problem::JointBent { joint: JointName::Hip, .. }));
    (angle < FOLDS - 1e-9 && !told).then_some((Unseated::Folded { angle }, seat.origin))
}

/// The hips do not go between the seat's sides.
fn narrow(design: &Design, seat: &Support, out: &Checked) -> Option<Found> {
    let hips = design.rider.get("hip_width")?;
    let bones = out.problems.iter().any(|p| matches!(p, Problem::UnderBones { .. }));
    let (width, between) = super::narrowest(seat, out);
    let ruled = told(out, "seat.width") || told(out, "fit.hips.between");
    let narrow = width < hips * (1.0 - GIVES) - 1e-9 && !bones && !ruled;
    narrow.then_some((Unseated::Narrow { width, hips, between }, seat.origin))
}

/// The foot support is out of the feet's reach, or far beside them.
fn foot_support(design: &Design, rider: &RiderBody, out: &Checked) -> Vec<Found> {
    let Some(rest) = crate::body::support(design, SupportKind::Footrest) else { return Vec::new() };
    let feet = || rider.legs.iter().filter(|l| l.end == LegEnd::Whole || l.prosthesis);
    let mut found = Vec::new();
    let free = feet().filter(|l| l.moves.is_none());
    if let Some(leg) = free.max_by(|a, b| a.beyond.abs().total_cmp(&b.beyond.abs()))
        && leg.beyond.abs() > SHANK
        && !told(out, "footrest.drop")
    {
        found.push((Unseated::Foot { side: leg.side, beyond: leg.beyond }, rest.origin));
    }
    if let Some(leg) = feet().max_by(|a, b| a.aside.total_cmp(&b.aside))
        && leg.aside > ASIDE
    {
        found.push((Unseated::Beside { side: leg.side, aside: leg.aside }, rest.origin));
    }
    found
}

/// Without a foot support feet that hang lower than the floor drag.
fn floor(design: &Design, rider: &RiderBody, seat: &Support, settled: &Settled) -> Option<Found> {
    if crate::body::support(design, SupportKind::Footrest).is_some() || on_the_floor(design) {
        return None;
    }
    let sole = ankle_height(design.rider.get("stature")?);
    let feet = rider.legs.iter().filter(|l| l.has_foot());
    // by the joints of the body, and by what was measured: whichever is lower
    let low = feet.map(|l| {
        let body = settled.pose.place(l.ankle).z - sole;
        let hung = hangs(design, settled, rider, l).filter(|_| l.moves.is_none());
        (l.side, hung.map_or(body, |z| z.min(body)))
    });
    let (side, low) = low.min_by(|a, b| a.1.total_cmp(&b.1))?;
    (low < -1e-6).then_some((Unseated::OnFloor { side, below: -low }, seat.origin))
}

/// A foot that pushes or steers gets to the floor, of any side that has one: to steer an own one, to push a worn one as well.
fn on_floor(
    design: &Design,
    rider: &RiderBody,
    (seat, settled): (&Support, &Settled),
    out: &Checked,
) -> Option<Found> {
    let pushes = design.rider.word("pushes") == Some("feet");
    if !on_the_floor(design) || (pushes && told(out, "footrest.drop")) {
        return None;
    }
    let fit = |l: &&Leg| l.end == LegEnd::Whole || (pushes && l.has_foot());
    let own = rider.legs.iter().any(|l| fit(&l));
    let ends = rider.legs.iter().filter(fit).filter_map(|l| hangs(design, settled, rider, l));
    let off = match ends.reduce(f64::min) {
        Some(off) => (off > TOES_DOWN).then_some(Some(off)),
        None => (!own).then_some(None),
    }?;
    let how = if pushes { Unseated::FeetPush { off } } else { Unseated::Steering { off } };
    Some((how, seat.origin))
}

/// Two hands are said to push, and no wheel has anything that they push at.
fn rimless(design: &Design) -> bool {
    design.rider.word("pushes") == Some("both_hands")
        && !design.wheels.is_empty()
        && design.wheels.iter().all(|w| w.rim.is_none())
}
