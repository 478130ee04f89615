//! Tests in motion and of single parts: brakes, coasting, edges, drops, foot support, arms, lifting.

use crate::limits::{BRAKE, COAST, FACTOR, FLOOR, TOE, WALK, off};
use crate::make::{Plan, hard, reading, word};
use crate::sheet::{Kind, Lack, Limit, Reading, Test, Why};
use crate::weak::weakest;
use chairwright_quantity::Dimension;
use chairwright_resistance::shock::fall;
use chairwright_strength::{CaseKind, KERB, Source};

/// Standard gravity in m/s² (CGPM 1901).
const G: f64 = 9.806_65;
/// Edge that casters are run into where strength has no case, m. Common practice, no source.
const EDGE: f64 = 0.020;

pub(crate) fn trials(plan: &Plan) -> Vec<Test> {
    let mut out = vec![brakes(plan), coast(plan)];
    if !plan.design.casters.is_empty() {
        out.push(flutter(plan));
        out.push(edge(plan));
    }
    out.push(bumps(plan));
    out.push(drop(plan));
    out.extend(footrest(plan));
    out.extend(arms(plan));
    out.extend(lift(plan));
    out
}

/// Weight x sin(slope), with its factor, for the heaviest rider: the downhill pull on a parked chair (statics).
fn brakes(plan: &Plan) -> Test {
    let slope = plan.place("slope").map(|s| s.abs().max(FLOOR));
    let total = plan.figure("mass.total").unwrap_or(0.0) + plan.rider()
        - plan.checked.rider.as_ref().map_or(0.0, |r| r.mass);
    let pull = |s: f64| BRAKE * total * G * libm::sin(s);
    let drawn = plan.has_brake();
    // brakes that the plan does not have make it another chair
    let limit = slope.filter(|_| drawn);
    let limit = limit.map(|s| Limit { least: Some(pull(s)), most: None, why: Why::Brake { slope: s } });
    let expected = plan.figure("brake.holds");
    let lack = match (drawn, slope) {
        (false, _) => Some(Lack::NoBrake),
        (true, None) => Some(Lack::Slope),
        _ => expected.is_none().then_some(Lack::Brake),
    };
    let one = |field| Reading { expected, limit, lack, ..reading(field, Dimension::FORCE, off::LUGGAGE) };
    let readings = vec![one("brake_back"), one("brake_forward")];
    Test { kind: Kind::Brakes { slope, drawn }, weakest: Vec::new(), readings }
}

/// A chair whose rear wheels both point aside by an angle leaves its line by that angle: distance x tan of the mean of
/// left and right toe, as the wheels roll without slip and the casters follow (geometry). One degree is let pass.
fn coast(plan: &Plan) -> Test {
    let toe = |side: &str| plan.figure(side);
    let skew = toe("toe.left").zip(toe("toe.right")).map(|(l, r)| (l - r) / 2.0);
    let drift = |a: f64| COAST * libm::tan(a).abs();
    let limit = Limit { least: None, most: Some(drift(TOE)), why: Why::Straight };
    let reading = Reading {
        expected: skew.map(drift),
        limit: Some(limit),
        lack: skew.is_none().then_some(Lack::Figure),
        ..reading("coast_drift", Dimension::LENGTH, off::LINE)
    };
    let kind = Kind::Coast { hold: plan.figure("drift.force").map(f64::abs) };
    Test { kind, weakest: Vec::new(), readings: vec![reading] }
}

fn flutter(plan: &Plan) -> Test {
    let speed = plan.place("speed");
    let driven = hard("flutter_speed", Dimension::SPEED, speed.unwrap_or(WALK));
    Test { kind: Kind::Flutter { speed }, weakest: Vec::new(), readings: vec![driven, word("flutter_test")] }
}

fn edge(plan: &Plan) -> Test {
    let is = |k: &CaseKind| matches!(k, CaseKind::CasterStrike { .. });
    let computed = plan.strength.cases.iter().filter_map(|c| match c.kind {
        CaseKind::CasterStrike { edge, .. } => Some(edge),
        _ => None,
    });
    // a higher sill is no edge that casters are meant to take
    let height = computed.fold(EDGE, f64::max);
    let weakest = weakest(plan.strength, is);
    let readings = vec![hard("edge_height", Dimension::LENGTH, height), word("edge_test")];
    Test { kind: Kind::Edge { height }, weakest, readings }
}

fn bumps(plan: &Plan) -> Test {
    let weakest = weakest(plan.strength, |k| matches!(k, CaseKind::Bumps));
    Test { kind: Kind::Bumps, weakest, readings: vec![word("bump_test")] }
}

/// Off the declared kerb, never less than what strength was computed for.
fn drop(plan: &Plan) -> Test {
    let case = plan.strength.cases.iter().find_map(|c| match c.kind {
        CaseKind::Drop(h) => Some((h, c.size)),
        _ => None,
    });
    let computed = case.map_or(KERB, |c| c.0);
    let height = plan.place("kerb").map_or(computed, |k| k.abs().max(computed));
    // of another height than the case's the factor is worked out by the same formula
    let factor = match case {
        Some((h, n)) if height <= h + 1e-9 => n,
        Some(_) => fall(height, plan.strength.give).unwrap_or(f64::INFINITY),
        None => 0.0,
    };
    let force = factor * plan.figure("mass.total").unwrap_or(0.0) * G;
    let weakest = weakest(plan.strength, |k| matches!(k, CaseKind::Drop(_)));
    let kind = Kind::Drop { height, computed, factor, force };
    let readings = vec![hard("drop_height", Dimension::LENGTH, height), word("drop_test")];
    Test { kind, weakest, readings }
}

fn footrest(plan: &Plan) -> Option<Test> {
    let has = plan.design.supports.iter().any(|s| s.kind == chairwright_design::SupportKind::Footrest);
    let weakest = weakest(plan.strength, |k| matches!(k, CaseKind::Standing));
    let sand = plan.rider();
    let readings = vec![hard("footrest_sand", Dimension::MASS, sand), word("footrest_test")];
    has.then_some(Test { kind: Kind::Footrest { sand }, weakest, readings })
}

fn arms(plan: &Plan) -> Option<Test> {
    let arms: Vec<(String, f64)> = plan
        .strength
        .cases
        .iter()
        .filter_map(|c| match &c.kind {
            CaseKind::Arm(name) => Some((name.clone(), c.size / G)),
            _ => None,
        })
        .collect();
    let weakest = weakest(plan.strength, |k| matches!(k, CaseKind::Arm(_) | CaseKind::ArmEnd(..)));
    let most = arms.iter().map(|a| a.1).reduce(f64::max)?;
    let readings = vec![hard("arm_sand", Dimension::MASS, most), word("arm_test")];
    Some(Test { kind: Kind::Arms { arms }, weakest, readings })
}

/// Lifting by whatever looks like a handle, with more sand than the rider instead of a jerk. The heaviest end is the
/// greater of the two shares of the whole: no more is to be lifted there by a part that stands at or beyond the wheels.
fn lift(plan: &Plan) -> Option<Test> {
    let lifted = |all: bool| -> Vec<String> {
        let mine = plan.strength.cases.iter().filter(|c| matches!(c.source, Source::LiftWhole(_)) == all);
        let name = |kind: &CaseKind| if let CaseKind::Lift(name) = kind { Some(name.clone()) } else { None };
        mine.filter_map(|c| name(&c.kind)).collect()
    };
    let (by, whole) = (lifted(false), lifted(true));
    let sand = FACTOR * plan.rider();
    let share = plan.figure("load.rear.share").zip(plan.figure("load.caster.share")).map(|(r, c)| r.max(c));
    let share = if whole.is_empty() { share } else { Some(1.0) };
    let heaviest = share.zip(plan.figure("mass.chair")).map(|(s, chair)| s * (chair + sand));
    let weakest = weakest(plan.strength, |k| matches!(k, CaseKind::Lift(_)));
    let any = !by.is_empty() || !whole.is_empty();
    let kind = Kind::Lift { by, whole, sand, heaviest };
    let readings = vec![hard("lift_sand", Dimension::MASS, sand), word("lift_test")];
    any.then_some(Test { kind, weakest, readings })
}
