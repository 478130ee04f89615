//! Anti-tip devices: that they touch before the chair is past its balance, and what it bears on them.

use crate::limits::{FLOOR, NEAR, off};
use crate::make::{Plan, reading, word};
use crate::sheet::{Kind, Lack, Limit, Reading, Test, Why};
use crate::weak::weakest;
use chairwright_design::ItemKind;
use chairwright_quantity::Dimension;
use chairwright_strength::CaseKind;

/// `None` for a chair without such devices: nothing of them is asked.
pub(crate) fn guard(plan: &Plan) -> Option<Test> {
    let devices = plan.design.items.iter().filter(|i| i.kind == ItemKind::AntiTip).count();
    let weakest = weakest(plan.strength, |k| matches!(k, CaseKind::TippedBack));
    let readings = vec![touch(plan), tip(plan), word("antitip_test")];
    (devices > 0).then_some(Test { kind: Kind::AntiTip { devices }, weakest, readings })
}

/// The steepest slope that the place declares: the chair is turned on either.
fn slope(plan: &Plan) -> Option<f64> {
    let said = ["slope", "cross_slope"].iter().filter_map(|k| plan.place(k)).map(f64::abs);
    said.reduce(f64::max).map(|s| s.max(FLOOR))
}

/// The turn back at which they touch. Nose up by t on a slope s the chair is past its balance at t + s = the slope that tips it
/// with its wheels free, the rider leaning back: before that they must touch.
fn touch(plan: &Plan) -> Reading {
    let expected = plan.figure("antitip.touch");
    let free = ["tip.rear.free", "tip.rear.free.leaning"];
    let free = free.iter().filter_map(|f| plan.figure(f)).reduce(f64::min);
    let limit = slope(plan).zip(free).map(|(slope, free)| Limit {
        least: None,
        most: Some(free - slope),
        why: Why::Balance { free, slope },
    });
    Reading {
        expected,
        near: expected.map(|x| (x - NEAR, x + NEAR)),
        lack: lack(plan, limit.is_some() && expected.is_some()),
        limit,
        ..reading("antitip_touch", Dimension::ANGLE, off::LEVEL)
    }
}

/// The slope that tips it over them: what its path and the profile ask of a slope that tips it backward, wheels free.
fn tip(plan: &Plan) -> Reading {
    let expected = plan.figure("antitip.tip");
    let margin = plan.checked.margins.iter().find(|m| m.figure == "tip.rear.free").map(|m| m.margin);
    let demand = plan.demanded("antitip.tip").0;
    let limit = slope(plan).map(|slope| {
        let least = (slope + margin.unwrap_or(0.0)).max(demand.unwrap_or(0.0));
        Limit { least: Some(least), most: None, why: Why::Path { slope, margin, demand } }
    });
    Reading {
        expected,
        near: expected.map(|x| (x - NEAR, f64::INFINITY)),
        lack: lack(plan, limit.is_some() && expected.is_some()),
        limit,
        ..reading("antitip_tip", Dimension::ANGLE, off::LEVEL)
    }
}

fn lack(plan: &Plan, known: bool) -> Option<Lack> {
    if slope(plan).is_none() { Some(Lack::Slope) } else { (!known).then_some(Lack::Figure) }
}
