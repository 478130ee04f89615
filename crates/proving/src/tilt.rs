//! Slopes that tip it, in the directions that ISO 7176-1 has measured: forward, rearward, sideways, wheels held and
//! wheels free, as the chair is used and, where it can be adjusted, at its least stable stops.

use crate::limits::{FLOOR, NEAR, off};
use crate::make::{Plan, reading};
use crate::sheet::{Kind, Lack, Limit, Reading, Test, Why};
use chairwright_quantity::Dimension;

/// Field as used, field at the least stable stops, figure, figure of the most stable swivel.
pub(crate) const DIRECTIONS: [(&str, &str, &str, &str); 5] = [
    ("rear_locked", "rear_locked_least", "tip.rear.locked", "tip.rear.locked"),
    ("rear_free", "rear_free_least", "tip.rear.free", "tip.rear.free"),
    ("forward", "forward_least", "tip.forward.locked", "tip.forward.locked.most"),
    ("forward_free", "forward_free_least", "tip.forward.free", "tip.forward.free.most"),
    ("side", "side_least", "tip.side", "tip.side.most"),
];

pub(crate) fn tilt(plan: &Plan) -> Test {
    let adjustable = plan.design.params.iter().any(|p| p.stops.is_some());
    let mut readings: Vec<Reading> = DIRECTIONS.iter().map(|d| as_used(plan, d)).collect();
    if adjustable {
        readings.extend(DIRECTIONS.iter().map(|d| least(plan, d)));
    }
    Test { kind: Kind::Tilt { adjustable }, weakest: Vec::new(), readings }
}

fn as_used(plan: &Plan, d: &(&'static str, &'static str, &'static str, &'static str)) -> Reading {
    let expected = plan.figure(d.2);
    let most = plan.figure(d.3).filter(|m| expected.is_some_and(|e| m - e > 1e-9));
    let limit = limit(plan, d.2);
    let lack = if limit.is_none() { Some(Lack::Slope) } else { expected.is_none().then_some(Lack::Figure) };
    Reading {
        expected,
        most,
        limit,
        near: expected.map(|x| (x - NEAR, most.unwrap_or(x) + NEAR)),
        lack,
        ..reading(d.0, Dimension::ANGLE, off::LEVEL)
    }
}

/// The least stable stops must bear the same; what is expected there is known once every stop is worked out.
fn least(plan: &Plan, d: &(&'static str, &'static str, &'static str, &'static str)) -> Reading {
    let limit = limit(plan, d.2);
    let lack = if limit.is_none() { Lack::Slope } else { Lack::Stops };
    Reading { limit, lack: Some(lack), ..reading(d.1, Dimension::ANGLE, off::LEVEL) }
}

/// What the figure must bear: the most of the path's slope with the profile's margin and of the design's demands.
/// Sideways it is the declared cross slope, else the slope of the path: on a ramp one turns.
fn limit(plan: &Plan, figure: &str) -> Option<Limit> {
    let along = plan.place("slope").map(f64::abs);
    let across = plan.place("cross_slope").map(f64::abs);
    let declared = if figure == "tip.side" { across.or(along) } else { along };
    let margin = plan.checked.margins.iter().find(|m| m.figure == figure).map(|m| m.margin);
    let demand = plan.demanded(figure).0;
    if declared.is_none() && margin.is_none() && demand.is_none() {
        return None;
    }
    let slope = declared.unwrap_or(0.0).max(FLOOR);
    let least = (slope + margin.unwrap_or(0.0)).max(demand.unwrap_or(0.0));
    Some(Limit { least: Some(least), most: None, why: Why::Path { slope, margin, demand } })
}
