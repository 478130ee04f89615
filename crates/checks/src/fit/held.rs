//! Postures that the body here cannot take.

use crate::Checked;
use crate::problem::{Held, Problem};
use chairwright_design::Design;

/// A pelvis kept further from upright than this sits otherwise than the body here. Common practice, no source.
const UPRIGHT: f64 = 10.0 * std::f64::consts::PI / 180.0;

/// The body in the seat has an upright pelvis and a straight back. Where the rider's are kept otherwise, nobody can tell from it
/// how the back fits or where the weight is.
pub(super) fn held(design: &Design, out: &mut Checked) {
    let origin = |key: &str| {
        let known = design.known.iter().find(|k| k.name == key).map(|k| k.origin);
        known.or(design.rider.origin)
    };
    if let Some(tilt) = design.rider.get("pelvis_tilt").filter(|t| t.abs() > UPRIGHT) {
        let origin = origin("rider.pelvis_tilt");
        out.problems.push(Problem::Posture { held: Held::Pelvis(tilt), origin });
    }
    if let Some(curve) = design.rider.word("spine").filter(|s| *s != "straight") {
        let origin = design.rider.origin;
        out.problems.push(Problem::Posture { held: Held::Spine(curve.to_owned()), origin });
    }
}
