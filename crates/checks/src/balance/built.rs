//! The centre of mass of the built chair, from slopes at which it was measured to tip.
//!
//! With the wheels locked tan a = x / h, with the wheels free tan b = x / (h − R), where x is the distance of the
//! centre of mass of chair and rider ahead of the rear axle, h its height and R the height of the axle. (The rear wheels'
//! own mass lies on the axle and drops out of the second.) So h = R·tan b / (tan b − tan a) and x = h·tan a. With only the
//! first angle the planned height is kept.

use super::{A, L, Loading};
use crate::Checked;
use crate::problem::Problem;
use chairwright_design::{Design, Vec3};
use chairwright_quantity::Dimension;

/// A built chair whose centre of mass lies further than this from the plan's is another chair. Common practice, no source.
const FAR: f64 = 0.03;

/// The centre of mass as the tipping test of the built chair has it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Built {
    /// Ahead of the rear axle, in metres.
    pub ahead: f64,
    /// Above the ground.
    pub height: f64,
    /// Half the span of the height that the tolerances of the angles leave open.
    pub height_open: f64,
}

/// Inverts the two angles; `None` where they do not belong to one chair.
#[must_use]
pub fn invert(locked: f64, free: f64, axle: f64) -> Option<(f64, f64)> {
    let (a, b) = (libm::tan(locked), libm::tan(free));
    if a <= 0.0 || b <= a {
        return None;
    }
    let height = axle * b / (b - a);
    Some((height * a, height))
}

/// What must be added to the planned centre of mass of the chair and its rider alone.
pub(super) fn correction(design: &Design, tested: &Loading, axle: Vec3, out: &mut Checked) -> Option<Vec3> {
    let as_built = design.as_built.as_ref()?;
    let angle = |key: &str| as_built.values.get(key).map(|v| (v.low, v.high, f64::midpoint(v.low, v.high)));
    let locked = angle("rear_locked");
    let free = angle("rear_free");
    let plan = tested.total.centre;
    let (locked, built) = match (locked, free) {
        (Some(locked), Some(free)) => {
            let Some((ahead, height)) = invert(locked.2, free.2, axle.z) else {
                out.problems.push(Problem::BuiltImpossible {
                    locked: locked.2,
                    free: free.2,
                    origin: as_built.origin,
                });
                return None;
            };
            let ends = [(locked.0, free.1), (locked.1, free.0)].map(|(a, b)| invert(a, b, axle.z));
            let open = match ends {
                [Some(low), Some(high)] => (high.1 - low.1).abs() / 2.0,
                _ => f64::INFINITY,
            };
            (locked, Built { ahead: ahead + axle.x, height, height_open: open })
        }
        (Some(locked), None) => {
            let ahead = plan.z * libm::tan(locked.2) + axle.x;
            out.assumptions.push(
                "as built: only one tipping angle was measured, the height of the centre of mass is the plan's"
                    .to_owned(),
            );
            (locked, Built { ahead, height: plan.z, height_open: 0.0 })
        }
        _ => return None,
    };
    let by = Vec3::new(built.ahead - plan.x, 0.0, built.height - plan.z);
    let inputs = [("tip.rear.locked as measured", locked.2, A), ("height of the axle", axle.z, L)];
    let source = "rigid body statics, inverted from the tipping test of the built chair";
    let figures = &mut out.figures;
    figures.put("com.built.ahead", (built.ahead, L), "h x tan(locked)", source, &inputs);
    figures.put(
        "com.built.height",
        (built.height, L),
        "R tan(free) / (tan(free) - tan(locked))",
        source,
        &inputs,
    );
    if by.norm() > FAR {
        out.problems.push(Problem::BuiltDiffers {
            ahead: by.x,
            up: by.z,
            open: built.height_open,
            origin: as_built.origin,
        });
    }
    out.built = Some(built);
    Some(by)
}

/// One figure of the plan beside what was measured on the built chair.
#[derive(Clone, PartialEq, Debug)]
pub struct Compared {
    /// The figure.
    pub figure: &'static str,
    /// As planned, in SI units.
    pub plan: Option<f64>,
    /// Least and greatest as measured.
    pub built: (f64, f64),
}

/// Fields of the block and the figures whose place they take.
const FIGURES: [(&str, &str, Dimension); 11] = [
    ("mass", "mass.chair", Dimension::MASS),
    ("width", "width.overall", L),
    ("seat_front", "seat.height.front", L),
    ("seat_rear", "seat.height.rear", L),
    ("rock", "rock", L),
    ("toe_left", "toe.left", A),
    ("toe_right", "toe.right", A),
    ("rear_locked", "tip.rear.locked", A),
    ("rear_free", "tip.rear.free", A),
    ("forward", "tip.forward.locked", A),
    ("side", "tip.side", A),
];

/// Puts what was measured in the place of what was planned: slopes that tip by their least reading, sizes and masses by
/// their greatest. What rides along was not in the test, so a slope that is less with it stays.
pub(crate) fn measured(design: &Design, out: &mut Checked) {
    let Some(as_built) = &design.as_built else { return };
    for (key, figure, dimension) in FIGURES {
        let Some(band) = as_built.values.get(key) else { continue };
        let plan = out.figures.si(figure);
        let slope = figure.starts_with("tip.");
        let value = match (slope, plan) {
            (true, Some(plan)) if !design.carried.is_empty() => band.low.min(plan),
            (true, _) => band.low,
            (false, _) if band.low < 0.0 => {
                if band.low.abs() > band.high {
                    band.low
                } else {
                    band.high
                }
            }
            (false, _) => band.high,
        };
        out.compared.push(Compared { figure, plan, built: (band.low, band.high) });
        let inputs = plan.map(|p| ("as planned", p, dimension));
        let source = "measured on the built chair";
        out.figures.put(
            figure,
            (value, dimension),
            "as measured on the built chair",
            source,
            inputs.as_slice(),
        );
    }
}
