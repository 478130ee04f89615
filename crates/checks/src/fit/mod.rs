//! How the chair fits its rider: seat, back and foot support against the measures, by the rules the design names.
//!
//! In come the design with its rider and the body in the seat; out go figures of fit and typed findings. Nothing here
//! knows the rider's skin: pressure and shear are flags, never passes.

mod arms;
mod behind;
mod beside;
mod growth;
mod hands;
mod held;
mod hips;
mod reach;
mod rules;
mod seated;
mod skin;

pub use behind::{Back, FarBehind};
pub(crate) use hands::{Hands, hands};
pub use hips::Between;
pub use reach::Reach;
pub use rules::{Broken, FitMargin, Measured};
pub use skin::SkinFlag;

use crate::Checked;
use crate::body::{stands_at, support};
use crate::figure::Figures;
use crate::problem::Problem;
use chairwright_design::{Design, Side, Support, SupportKind, Vec3};
use chairwright_frame::{Frame, Settled};
use chairwright_quantity::Dimension;

pub(crate) const L: Dimension = Dimension::LENGTH;
pub(crate) const A: Dimension = Dimension::ANGLE;
pub(crate) const BODY: &str = "geometry of the drawing and the rider's measures";
pub(crate) const SIDES: [Side; 2] = [Side::Left, Side::Right];

/// Everything about fit that a design tells.
pub(crate) fn fit(design: &Design, frame: &Frame, settled: Option<&Settled>, out: &mut Checked) {
    let Some(rider) = out.rider.clone() else { return };
    let Some(seat) = support(design, SupportKind::Seat) else { return };
    seat_figures(design, seat, (rider.seat, rider.up), &mut out.figures);
    foot_figures(design, &rider, settled, &mut out.figures);
    arms::figures(design, rider.seat, &mut out.figures);
    beside::beside(design, frame, &rider, seat, out);
    bones(design, seat, out);
    if let Some(settled) = settled {
        reach::reach(design, &rider, settled, out);
    }
    hands::levers(design, &rider, out);
    growth::remeasure(design, out);
    rules::judge(design, seat, out);
    seated::seated(design, &rider, (seat, settled), out);
    if settled.is_some() {
        feet_apart(design, &rider, out);
    }
    held::held(design, out);
    skin::flags(design, seat, out);
}

/// No seat is narrower than the rider's bones, nor is what stands beside them, by whatever rules, with a reason or without.
fn bones(design: &Design, seat: &Support, out: &mut Checked) {
    let (width, between) = narrowest(seat, out);
    let Some(bones) = design.rider.get("trochanter_width").filter(|b| width < b - 1e-6) else { return };
    out.problems.push(Problem::UnderBones { width, bones, between, origin: seat.origin });
}

/// What the hips have from side to side: the seat's width, or the room between the parts that stand nearer than its edges.
fn narrowest(seat: &Support, out: &Checked) -> (f64, Option<Between>) {
    let between = out.between.clone().filter(|b| b.clear < seat.width - 1e-6);
    (between.as_ref().map_or(seat.width, |b| b.clear), between)
}

/// The feet stand as far apart as the hips have them: a whole design does not leave that open. A part of a plan is looked at on
/// the cautious side.
fn feet_apart(design: &Design, rider: &crate::RiderBody, out: &mut Checked) {
    let whole = !design.name.is_empty() && !design.casters.is_empty();
    if whole && rider.legs.iter().any(crate::Leg::has_foot) {
        let wanted_by = "where the feet stand: gap.caster.foot, turn.diameter and corner.room";
        let _ = need(design, "hip_width", wanted_by, out);
    }
}

/// A measure; where it is missing that is a finding, once for each measure.
pub(crate) fn need(design: &Design, measure: &str, wanted_by: &'static str, out: &mut Checked) -> Option<f64> {
    let value = design.rider.get(measure);
    let missing = |p: &Problem| matches!(p, Problem::MissingMeasure { measure: m, .. } if m == measure);
    if value.is_none() && !out.problems.iter().any(missing) {
        let origin = design.rider.origin;
        out.problems.push(Problem::MissingMeasure { measure: measure.to_owned(), wanted_by, origin });
    }
    value
}

fn seat_figures(
    design: &Design,
    seat: &Support,
    ((surface, normal), trunk): ((Vec3, Vec3), Vec3),
    figures: &mut Figures,
) {
    let rider = &design.rider;
    if let Some(hips) = rider.get("hip_width") {
        let inputs = [("seat.width", seat.width, L), ("rider.hip_width", hips, L)];
        figures.put("fit.width.ease", (seat.width - hips, L), "seat.width - rider.hip_width", BODY, &inputs);
    }
    // from what the buttocks meet to the front edge
    let depth = (seat.to - surface).dot((seat.to - seat.from).unit().unwrap_or(Vec3::X));
    if support(design, SupportKind::Back).is_some() {
        let formula = "from what the buttocks meet on the back support to the front edge";
        figures.put("seat.depth", (depth, L), formula, BODY, &[("as drawn", (seat.to - seat.from).norm(), L)]);
    }
    for side in SIDES {
        let Some(thigh) = rider.sided("thigh", side) else { continue };
        let inputs = [("rider.thigh", thigh, L), ("seat.depth", depth, L)];
        let name = format!("fit.depth.gap.{}", side.word());
        figures.put(name, (thigh - depth, L), "rider.thigh - seat.depth", BODY, &inputs);
    }
    if let Some(back) = support(design, SupportKind::Back) {
        // as scapula and shoulder are measured: up the trunk, however far it leans back
        let top = (back.to - surface).dot(normal).max((back.to - surface).dot(trunk));
        let formula = "upper edge of the back support above the loaded cushion, up the trunk";
        figures.put("fit.back.top", (top, L), formula, BODY, &[]);
    }
}

/// From the hollow of the knee, on the loaded cushion, to the foot support under the heel: each side by itself. Feet that push
/// stand on the floor, and from there the seat is judged (WHO training package: for foot propelling, calf length to the floor).
fn foot_figures(design: &Design, rider: &crate::RiderBody, settled: Option<&Settled>, figures: &mut Figures) {
    let rest = support(design, SupportKind::Footrest);
    let floor = settled.filter(|_| design.rider.word("pushes") == Some("feet"));
    let (surface, _) = rider.seat;
    for leg in rider.legs.iter().filter(|l| l.has_foot()) {
        let Some(thigh) = design.rider.sided("thigh", leg.side) else { continue };
        let hollow = Vec3 { y: leg.hip.y, ..surface + rider.along * thigh };
        let name = format!("footrest.drop.{}", leg.side.word());
        if let Some(settled) = floor {
            let formula =
                "from the hollow of the knee on the loaded cushion down to the floor, for feet that push";
            let inputs = [("rider.thigh", thigh, L)];
            figures.put(name, (settled.pose.place(hollow).z, L), formula, BODY, &inputs);
            continue;
        }
        let Some(rest) = rest else { continue };
        let heel = Vec3 { y: stands_at(rest, leg.hip.y), ..rest.from };
        let formula = "from the hollow of the knee on the loaded cushion to the rear edge of the foot support";
        let inputs = [("rider.thigh", thigh, L)];
        figures.put(name, ((hollow - heel).norm(), L), formula, BODY, &inputs);
    }
}
