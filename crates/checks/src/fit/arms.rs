//! Arm supports: how high under the elbows, how far apart.

use super::{BODY, L, SIDES};
use crate::figure::Figures;
use chairwright_design::{Design, Side, Support, SupportKind, Vec3};

/// The arm supports of one side of the chair.
fn of_side(design: &Design, side: Side) -> impl Iterator<Item = &Support> {
    let arms = design.supports.iter().filter(|s| s.kind == SupportKind::Arm);
    arms.filter(move |s| s.from.mix(s.to, 0.5).y * side.sign() > 0.0)
}

/// Heights above the elbows, each side by itself, and the room between left and right.
pub(super) fn figures(design: &Design, (surface, normal): (Vec3, Vec3), out: &mut Figures) {
    for side in SIDES {
        let highest = |s: &Support| (s.from - surface).dot(normal).max((s.to - surface).dot(normal));
        let top = of_side(design, side).map(highest).reduce(f64::max);
        let (Some(top), Some(elbow)) = (top, design.rider.sided("elbow_height", side)) else { continue };
        let inputs = [("top above the loaded cushion", top, L), ("rider.elbow_height", elbow, L)];
        let formula = "upper end of the arm support above the loaded cushion, square to the seat, less rider.elbow_height";
        out.put(format!("fit.arm.above.elbow.{}", side.word()), (top - elbow, L), formula, BODY, &inputs);
    }
    let inner = |side: Side| {
        let edge = |s: &Support| s.from.y.abs().min(s.to.y.abs()) - s.width / 2.0;
        of_side(design, side).map(edge).reduce(f64::min)
    };
    if let (Some(left), Some(right)) = (inner(Side::Left), inner(Side::Right)) {
        let formula = "between the inner edges of the arm supports";
        out.put("fit.arms.between", (left + right, L), formula, BODY, &[]);
    }
}
