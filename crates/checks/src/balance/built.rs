//! The centre of mass of the built chair, from slopes at which it was measured to tip.
//!
//! With the wheels locked tan a = x / h, with the wheels free tan b = x / (h − R), where x is the distance of the
//! centre of mass of chair and rider ahead of the rear axle, h its height and R the height of the axle. (The rear wheels'
//! own mass lies on the axle and drops out of the second.) So h = R·tan b / (tan b − tan a) and x = h·tan a. With only the
//! first angle the planned height is kept.

use super::{A, L};
use crate::Checked;
use crate::figure::Figures;
use crate::problem::Problem;
use chairwright_design::{AsBuilt, Design, Origin, Vec3};
use chairwright_quantity::Dimension;

/// A built chair whose centre of mass lies further than this from the plan's is another chair. Common practice, no source.
const FAR: f64 = 0.03;

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

/// What must be added to the planned centre of mass of the chair and its rider alone: by the middle of the readings
/// first, then by the ends of their tolerances. Nothing where the built chair was not tipped.
pub(super) fn corrections(design: &Design, plan: Vec3, axle: Vec3, out: &mut Checked) -> Vec<Vec3> {
    let Some(as_built) = &design.as_built else { return Vec::new() };
    let (Some(locked), free) = (as_built.values.get("rear_locked"), as_built.values.get("rear_free")) else {
        return Vec::new();
    };
    let shift = |(ahead, height): (f64, f64)| Vec3::new(ahead + axle.x - plan.x, 0.0, height - plan.z);
    let Some(free) = free else {
        let said =
            "as built: only one tipping angle was measured, the height of the centre of mass is the plan's";
        out.assumptions.push(said.to_owned());
        let ends = [locked.mid(), locked.low, locked.high];
        let all = ends.iter().map(|a| shift((plan.z * libm::tan(*a), plan.z))).collect();
        return tell(all, (locked.mid(), plan, axle), as_built.origin, out);
    };
    let Some(middle) = invert(locked.mid(), free.mid(), axle.z) else {
        let (locked, free, origin) = (locked.mid(), free.mid(), as_built.origin);
        out.problems.push(Problem::BuiltImpossible { locked, free, origin });
        return Vec::new();
    };
    let ends =
        [(locked.low, free.low), (locked.low, free.high), (locked.high, free.low), (locked.high, free.high)];
    let ends = ends.iter().filter_map(|(a, b)| invert(*a, *b, axle.z));
    let all = std::iter::once(middle).chain(ends).map(shift).collect();
    tell(all, (locked.mid(), plan, axle), as_built.origin, out)
}

/// Puts the corrected centre of mass among the figures, and says so where it is another chair's.
fn tell(
    all: Vec<Vec3>,
    (locked, plan, axle): (f64, Vec3, Vec3),
    origin: Origin,
    out: &mut Checked,
) -> Vec<Vec3> {
    let by = all[0];
    let inputs = [("tip.rear.locked as measured", locked, A), ("height of the axle", axle.z, L)];
    let source = "rigid body statics, inverted from the tipping test of the built chair";
    let figures = &mut out.figures;
    figures.put("com.built.ahead", (plan.x + by.x, L), "h x tan(locked)", source, &inputs);
    let formula = "R tan(free) / (tan(free) - tan(locked))";
    figures.put("com.built.height", (plan.z + by.z, L), formula, source, &inputs);
    if by.norm() > FAR {
        let heights = || all.iter().map(|b| b.z);
        let open =
            (heights().fold(f64::NEG_INFINITY, f64::max) - heights().fold(f64::INFINITY, f64::min)) / 2.0;
        out.problems.push(Problem::BuiltDiffers { ahead: by.x, up: by.z, open, origin });
    }
    all
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
/// their greatest. What rides along was not in the test, so a slope that is less with it stays. `plan` has the figures without the
/// test.
pub(crate) fn measured(design: &Design, as_built: &AsBuilt, plan: &Figures, out: &mut Checked) {
    for (key, figure, dimension) in FIGURES {
        let Some(band) = as_built.values.get(key) else { continue };
        let value = match out.figures.si(figure) {
            // what rides along may tip it sooner than the test did
            Some(now) if figure.starts_with("tip.") && !design.carried.is_empty() => band.low.min(now),
            _ if figure.starts_with("tip.") => band.low,
            _ if band.low.abs() > band.high.abs() => band.low,
            _ => band.high,
        };
        let plan = plan.si(figure);
        out.compared.push(Compared { figure, plan, built: (band.low, band.high) });
        let inputs = plan.map(|p| ("as planned", p, dimension));
        let formula = "as measured on the built chair";
        out.figures.put(figure, (value, dimension), formula, "measured on the built chair", inputs.as_slice());
    }
}
