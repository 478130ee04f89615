//! When a growing rider has to be measured again.

use super::SIDES;
use crate::Checked;
use crate::body::Growth;
use chairwright_design::Design;
use chairwright_quantity::Dimension;

/// A growing rider is measured again after half a year in any case. Common practice, no source.
const AT_LATEST: f64 = 6.0 * MONTH;
const MONTH: f64 = 2_629_800.0;
/// A foot support this far above what the calf wants is set again. Common practice, no source.
const FOOT: f64 = 0.015;
/// A seat this much shorter than the thigh is too short, where no rules are named. WHO package: 30 to 50 mm.
const SHORT: f64 = 0.050;

/// Months until the first measure outgrows what the chair has as it is set now.
pub(super) fn remeasure(design: &Design, out: &mut Checked) {
    let rider = &design.rider;
    let Some(growth) = Growth::of(rider) else { return };
    let rule = |key: &str| design.fit_rules.as_ref().and_then(|f| f.rules.get(key).copied());
    let short = rule("seat_depth_short_of_thigh").map_or(SHORT, |r| r.1);
    let mut reasons: Vec<(f64, String)> = vec![(AT_LATEST, "half a year at the latest".to_owned())];
    let mut outgrown = |factor: f64, why: String| {
        if factor.is_finite() && growth.yearly > 0.0 {
            reasons.push((growth.until(factor).max(0.0), why));
        }
    };
    if let (Some(width), Some(hips)) = (out.figures.si("seat.width"), rider.get("hip_width")) {
        let (clear, what) = match out.figures.si("fit.hips.between").filter(|between| *between < width) {
            Some(between) => (between, "the hips fill the room between what stands beside them"),
            None => (width, "the hips fill the seat"),
        };
        outgrown(clear / hips, what.to_owned());
    }
    if let Some(depth) = out.figures.si("seat.depth") {
        for side in SIDES {
            if let Some(thigh) = rider.sided("thigh", side) {
                outgrown(
                    (depth + short) / thigh,
                    format!("the {} thigh outgrows the seat's depth", side.word()),
                );
            }
        }
    }
    for side in SIDES {
        let drop = out.figures.si(&format!("footrest.drop.{}", side.word()));
        if let (Some(drop), Some(calf)) = (drop, rider.sided("calf", side)) {
            outgrown((drop + FOOT) / calf, format!("the {} foot support gets too high", side.word()));
        }
    }
    let Some((when, why)) = reasons.into_iter().min_by(|a, b| a.0.total_cmp(&b.0)) else { return };
    let formula = format!("time until {why}, at {:.0} mm of stature a year", growth.yearly * 1e3);
    let source = "growth in proportion to stature: a guess between two measurings";
    out.figures.put("growth.remeasure", (when, Dimension::TIME), formula, source, &[]);
}
