//! Parked on the slope: what the brakes have to hold, and when the locked wheels slide.

use super::problem::Problem;
use super::push::grounds;
use super::stand::Stand;
use super::{place, said};
use crate::Checked;
use chairwright_design::{Design, ItemKind, Surface};
use chairwright_quantity::Dimension;

const F: Dimension = Dimension::FORCE;
const A: Dimension = Dimension::ANGLE;
const L: Dimension = Dimension::LENGTH;
const N: Dimension = Dimension::NUMBER;
const HOLD: &str =
    "statics, facing up or down alike; rolling resistance is not counted on. Not an ISO 7176-3 test";
const SIDES: &str = "the parts' own entries; statics: casters swivel, so a pull in the middle has to be held on both sides alike";
const SLIDE: &str =
    "statics: friction on the rear wheels, whose load the slope changes, against the weight's downhill part";
/// Share of its dry friction that a tyre keeps on wet ground. From memory, not checked.
const WET: f64 = 0.5;

/// Slope at which a chair with locked rear wheels slides, in radians: downhill it slides when
/// sin θ = μ (cos θ · rear share ∓ sin θ · h / base), minus facing downhill, where the rear wheels lose
/// load. Never more than atan μ: facing uphill the rear wheels carry at most the whole weight.
#[must_use]
pub(crate) fn slide_angle(friction: f64, rear: f64, steepness: f64, downhill: bool) -> f64 {
    let lean = if downhill { friction * steepness } else { -friction * steepness };
    libm::atan2(friction * rear, 1.0 + lean).clamp(0.0, libm::atan(friction))
}

pub(crate) fn brakes(design: &Design, stand: &Stand, out: &mut Checked, found: &mut Vec<Problem>) {
    slides(design, stand, out, found);
    let brakes: Vec<_> = design.items.iter().filter(|i| i.kind == ItemKind::Brake).collect();
    let holds = both_sides(brakes.iter().filter_map(|b| Some((b.at.y, b.holds?))));
    let unknown: Vec<_> =
        brakes.iter().filter(|b| b.holds.is_none()).map(|b| (b.name.clone(), b.origin)).collect();
    if holds > 0.0 && unknown.is_empty() {
        let formula = "twice what the weaker side's wheel locks hold along the ground, at the softest tyre";
        out.figures.put("brake.holds", (holds, F), formula, SIDES, &[]);
    }
    let Some(slope) = place(design, "slope").map(f64::abs).filter(|s| *s > 0.0) else { return };
    let need = stand.weight * libm::sin(slope);
    let inputs = [("weight", stand.weight, F), ("slope", slope, A)];
    out.figures.put("brake.need", (need, F), "weight x sin slope", HOLD, &inputs);
    let origin = said(design, "conditions.slope");
    if holds >= need {
        return;
    }
    found.push(if brakes.is_empty() || !unknown.is_empty() {
        Problem::BrakeUnknown { origin, slope, need, brakes: unknown }
    } else {
        Problem::BrakesSlip { origin, slope, need, holds, count: brakes.len() }
    });
}

/// What locks at these places hold together: a chair that is held on one side swings round that wheel, so each
/// side has to hold half.
fn both_sides(locks: impl Iterator<Item = (f64, f64)>) -> f64 {
    let (left, right) = locks.fold((0.0, 0.0), |(left, right), (y, holds)| match y {
        y if y > 1e-6 => (left + holds, right),
        y if y < -1e-6 => (left, right + holds),
        _ => (left + holds / 2.0, right + holds / 2.0),
    });
    2.0 * f64::min(left, right)
}

/// The ground with the least friction, that friction with what water leaves of it, and whether there is water.
fn slippiest<'d>(design: &'d Design, out: &mut Checked) -> Option<(&'d Surface, f64, bool)> {
    let ground = grounds(design).into_iter().min_by(|a, b| a.friction.total_cmp(&b.friction))?;
    let wet = design.conditions.words.get("water").is_some_and(|w| w != "none");
    if wet {
        out.assumptions
            .push("the ground is wet: locked tyres keep half of their friction (from memory)".to_owned());
    }
    Some((ground, if wet { ground.friction * WET } else { ground.friction }, wet))
}

fn slides(design: &Design, stand: &Stand, out: &mut Checked, found: &mut Vec<Problem>) {
    let Some((ground, friction, wet)) = slippiest(design, out) else { return };
    let (rear, steep) = (1.0 - stand.ahead / stand.base, stand.height / stand.base);
    let inputs = [
        ("friction", friction, N),
        ("share on the rear wheels", rear, N),
        ("height", stand.height, L),
        ("wheelbase on the ground", stand.base, L),
    ];
    let at = [("slide.downhill", true), ("slide.uphill", false)].map(|(name, downhill)| {
        let angle = slide_angle(friction, rear, steep, downhill);
        let sign = if downhill { "+" } else { "-" };
        let formula = format!(
            "atan(friction x share / (1 {sign} friction x height / wheelbase)), at most atan friction, on {}",
            ground.name
        );
        out.figures.put(name, (angle, A), formula, SLIDE, &inputs);
        (angle, downhill)
    });
    let Some(slope) = place(design, "slope").map(f64::abs).filter(|s| *s > 0.0) else { return };
    if !design.items.iter().any(|i| i.kind == ItemKind::Brake) {
        return;
    }
    let (at, downhill) = if at[0].0 <= at[1].0 { at[0] } else { at[1] };
    if at <= slope {
        let origin = said(design, "conditions.slope");
        let dry = slide_angle(ground.friction, rear, steep, downhill) > slope;
        let only_wet = wet && dry;
        found.push(Problem::Slides {
            origin,
            slope,
            at,
            downhill,
            ground: ground.name.clone(),
            friction,
            only_wet,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_lock_on_one_side_holds_nothing() {
        assert!(both_sides([(0.2, 60.0)].into_iter()).abs() < 1e-12);
        assert!((both_sides([(0.2, 60.0), (-0.2, 50.0)].into_iter()) - 100.0).abs() < 1e-12);
        assert!((both_sides([(0.0, 70.0)].into_iter()) - 70.0).abs() < 1e-12);
    }

    /// Written out as forces and solved by bisection instead of in closed form.
    #[test]
    fn sliding_agrees_with_the_forces_written_out() {
        let (mu, a, h, base) = (0.4, 0.15, 0.55, 0.42);
        for downhill in [true, false] {
            let excess = |t: f64| {
                let (s, c) = (libm::sin(t), libm::cos(t));
                // moments about the caster contact; the weight's downhill part acts at h
                let toward_casters = if downhill { s * h } else { -s * h };
                let rear = ((c * (base - a) - toward_casters) / base).min(c);
                s - mu * rear
            };
            let (mut low, mut high) = (0.0, 1.2);
            for _ in 0..80 {
                let mid = f64::midpoint(low, high);
                if excess(mid) > 0.0 { high = mid } else { low = mid }
            }
            let got = slide_angle(mu, (base - a) / base, h / base, downhill);
            assert!((got - low).abs() < 1e-9, "{got} against {low}");
        }
    }
}
