//! The chair that its rider has just left, or not yet sat down in: with what hangs behind it may go over by itself.
//!
//! A tipping test of the built chair is made with sand in the seat. Where it tips like another chair than the plan's, the empty
//! chair is looked at twice: as planned, and with the difference laid on it alone.

use super::riding::Scene;
use super::{A, L, Loading, STATICS, tip_angle};
use super::{antitip, built};
use crate::Checked;
use crate::problem::Problem;

/// The slope that tips the empty chair backward, with locked wheels and whatever of what rides along tips it soonest, and
/// what the place makes of it.
pub(super) fn empty(scene: &Scene, out: &mut Checked) {
    let planned = scene.loadings(&[]);
    let Some(chair) = planned.first().map(|bare| bare.total.mass) else { return };
    let tested = built::of_the_chair(scene.shifts, scene.tested / chair);
    let moved: Vec<Loading> =
        tested.iter().flat_map(|by| planned.iter().map(|l| l.shifted(*by, chair, false))).collect();
    let Some(plan) = soonest(scene, &planned) else { return };
    let doubted = soonest(scene, &moved).filter(|s| s.angle < plan.angle);
    let Soonest { loading, angle: has, from: (t, h) } = doubted.as_ref().unwrap_or(&plan);
    let words = loading.words();
    let laid = if doubted.is_some() { ", what the tipping test found laid on the chair" } else { "" };
    let formula = format!("atan(distance to the rear contacts / height), nobody in the seat{words}{laid}");
    out.figures.put("tip.empty", (*has, A), formula, STATICS, &[("distance", *t, L), ("height", *h, L)]);
    let slope = crate::roll::steepest(scene.design);
    let guarded = crate::layout::usual(scene.settled) && antitip::guards(scene.design, &out.problems);
    if *has > slope || guarded {
        return;
    }
    if scene.design.name.is_empty() {
        out.withheld += 1;
        return;
    }
    // what the plan alone says is told as such
    let told = if plan.angle > slope { doubted.as_ref() } else { None }.unwrap_or(&plan);
    let origin = told.loading.origin.or(scene.design.wheels.first().map(|w| w.origin));
    let planned = (plan.angle > slope).then_some(plan.angle);
    out.problems.push(Problem::EmptyTips {
        with: told.loading.with.clone(),
        origin,
        has: told.angle,
        slope,
        planned,
    });
}

/// The loading that tips soonest.
struct Soonest<'l> {
    loading: &'l Loading,
    angle: f64,
    /// Distance to the edge and height.
    from: (f64, f64),
}

fn soonest<'l>(scene: &Scene, loadings: &'l [Loading]) -> Option<Soonest<'l>> {
    let of = |loading: &'l Loading| {
        let from = scene.contacts.span(loading.total.centre, (-1.0, 0.0)).least;
        Soonest { loading, angle: tip_angle(from.0, from.1), from }
    };
    loadings.iter().map(of).min_by(|a, b| a.angle.total_cmp(&b.angle))
}
