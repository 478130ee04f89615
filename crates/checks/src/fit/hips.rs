//! What stands beside the hips: side guards, boxes and members between which the rider has to sit, nearer than the seat is wide.

use super::beside::{ABOVE, brick, nearest, thick};
use super::{BODY, L};
use crate::Checked;
use crate::RiderBody;
use crate::clear::Convex;
use chairwright_design::{Design, Side, Support, SupportKind, Vec3};
use chairwright_frame::Body;

/// The hips lie so far before and behind the hip joint, as a share of what it is ahead of the back: what stands at the back support
/// or beside the thighs further on is not at the widest place. Common practice, no source.
const LONG: f64 = 0.6;

/// The room between what stands beside the hips, where that is less than the seat's width.
#[derive(Clone, PartialEq, Debug)]
pub struct Between {
    /// In metres.
    pub clear: f64,
    /// What stands there, left and right; on a side where nothing does the seat's edge bounds it.
    pub parts: Vec<String>,
}

/// Looks beside the hips from the loaded cushion to the top of the thighs, as far out as the seat goes.
pub(super) fn hips(
    design: &Design,
    (all, body): (&[(&Body, Convex)], &RiderBody),
    seat: &Support,
    out: &mut Checked,
) {
    let (surface, normal) = body.seat;
    let (ahead, thick) = ((body.hip - surface).dot(body.along), thick(design, body));
    if thick <= 0.0 || ahead <= 0.0 {
        return;
    }
    let edge = seat.width / 2.0;
    let middle = surface + body.along * ahead + normal * (ABOVE + thick / 2.0);
    let room = |side: Side, half: f64| {
        let y = Vec3::Y * (half / 2.0);
        brick(middle + y * side.sign(), [body.along * (LONG * ahead), y, normal * (thick / 2.0)])
    };
    // arm supports on both sides are held against the hips by themselves, at any height
    let told = out.figures.si("fit.arms.between").is_some();
    let arm = |b: &Body| told && design.supports.iter().any(|s| s.kind == SupportKind::Arm && s.name == b.name);
    let sides = [Side::Left, Side::Right].map(|side| {
        let all = all.iter().filter(|(b, _)| !arm(b));
        nearest(all, edge, |half| room(side, half))
    });
    let parts: Vec<String> = sides.iter().flatten().map(|(_, name)| (*name).to_owned()).collect();
    if parts.is_empty() {
        return;
    }
    let clear = sides.iter().map(|s| s.map_or(edge, |(half, _)| half)).sum();
    let formula = format!(
        "between what stands beside the hips nearer than the edges of the seat, from the loaded cushion to the top of the thighs \
         ({})",
        parts.join(", ")
    );
    out.figures.put("fit.hips.between", (clear, L), formula, BODY, &[("seat.width", seat.width, L)]);
    out.between = Some(Between { clear, parts });
}
