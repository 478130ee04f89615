//! Parked on the slope: what the brakes have to hold, and when the locked wheels slide.

use super::problem::{Problem, Sliding};
use super::push::grounds;
use super::stand::{Stand, Stands};
use super::{G, said_steepest, steepest};
use crate::Checked;
use crate::assumed::Assumed;
use chairwright_design::{Design, Item, ItemKind, Surface, Wheel};
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

/// Parked, in any layout of wheels: what the slope pulls is the weight's part along it. Sliding is known for `stands` alone.
pub(crate) fn brakes(design: &Design, stands: Option<&Stands>, out: &mut Checked, found: &mut Vec<Problem>) {
    if let Some(stands) = stands {
        slides(design, stands, out, found);
    }
    let heavier = |total: f64| total - out.loadings.last().map_or(0.0, |l| l.1.mass);
    let (Some(heavier), Some(most)) = (
        out.figures.si("mass.total").map(heavier),
        out.loadings.iter().map(|l| l.1.mass).max_by(f64::total_cmp),
    ) else {
        return;
    };
    let weight = (most + heavier) * G;
    let all = design.items.iter().filter(|i| i.kind == ItemKind::Brake);
    let (brakes, away): (Vec<&Item>, Vec<&Item>) = all.partition(|b| misses(design, b).is_none());
    found.extend(away.iter().filter_map(|b| misses(design, b)));
    let holds = both_sides(brakes.iter().filter_map(|b| Some((b.at.y, b.holds?))));
    let unknown: Vec<_> =
        brakes.iter().filter(|b| b.holds.is_none()).map(|b| (b.name.clone(), b.origin)).collect();
    if holds > 0.0 && unknown.is_empty() {
        let formula = "twice what the weaker side's wheel locks hold along the ground, at the softest tyre";
        out.figures.put("brake.holds", (holds, F), formula, SIDES, &[]);
    }
    let slope = steepest(design);
    if slope <= 0.0 {
        return;
    }
    let need = weight * libm::sin(slope);
    let inputs = [("weight", weight, F), ("slope", slope, A)];
    out.figures.put("brake.need", (need, F), "weight x sin slope", HOLD, &inputs);
    let origin = said_steepest(design);
    // a brake that misses its wheel is told of by itself
    if !away.is_empty() {
        return;
    }
    let both = super::both(design).map(|slope| (slope, weight * libm::sin(slope)));
    if holds >= need {
        if let Some((slope, need)) = both.filter(|(_, need)| holds < *need) {
            found.push(Problem::BrakesSlip { origin, slope, need, holds, count: brakes.len(), both: true });
        }
        return;
    }
    found.push(if brakes.is_empty() || !unknown.is_empty() {
        Problem::BrakeUnknown { origin, slope, need, brakes: unknown }
    } else {
        Problem::BrakesSlip { origin, slope, need, holds, count: brakes.len(), both: false }
    });
}

/// A brake that is drawn further from the tyre of the nearest wheel on its side than it reaches. A lock is fixed by one end and
/// presses with the other: it reaches no further than from corner to corner, whatever its entry says.
fn misses(design: &Design, brake: &Item) -> Option<Problem> {
    let away = |w: &Wheel| {
        let from = brake.at - w.at;
        let along = from.dot(w.axle);
        let radial = (from - w.axle * along).norm();
        let beyond = (radial - w.radius).max(w.radius - w.tyre - radial).max(0.0);
        libm::hypot(beyond, (along.abs() - w.tyre / 2.0).max(0.0))
    };
    let own = design.wheels.iter().filter(|w| brake.at.y.abs() < 1e-6 || w.at.y * brake.at.y > 0.0);
    let (gap, wheel) = own.map(|w| (away(w), w)).min_by(|a, b| a.0.total_cmp(&b.0))?;
    let size = brake.size.norm();
    // of a lock of which nobody says how far its shoe lies from its middle, as far as its own corners
    let reach = brake.reach.map_or(size / 2.0, |r| r.min(size));
    // in the middle a bar may run to both wheels
    (gap > reach + 1e-9 && (brake.at.y.abs() >= 1e-6 || brake.reach.is_some())).then(|| Problem::BrakeMisses {
        origin: brake.origin,
        brake: brake.name.clone(),
        wheel: wheel.name.clone(),
        gap,
        reach,
        stated: brake.reach,
        size,
    })
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

/// What locked wheels stand on.
struct Footing {
    /// Its name.
    ground: String,
    /// Friction dry, and with what water leaves of it.
    dry: f64,
    friction: f64,
    /// Whether the place says on what the chair stands.
    known: bool,
}

/// The ground with the least friction: of those that the place declares, or of all that are known.
fn slippiest(design: &Design, out: &mut Checked) -> Option<Footing> {
    let declared = grounds(design);
    let known = !declared.is_empty();
    let all: Vec<&Surface> = if known { declared } else { design.surfaces.iter().collect() };
    let ground = all.into_iter().min_by(|a, b| a.friction.total_cmp(&b.friction))?;
    let water = design.conditions.words.get("water");
    let wet = water.is_some_and(|w| w != "none");
    out.assumptions.extend(match water {
        Some(_) => wet.then_some(Assumed::WetGround),
        None => Some(Assumed::DryGround),
    });
    let friction = if wet { ground.friction * WET } else { ground.friction };
    Some(Footing { ground: ground.name.clone(), dry: ground.friction, friction, known })
}

/// The slope at which a loaded chair slides on this friction.
fn slides_at(stand: &Stand, friction: f64, downhill: bool) -> f64 {
    slide_angle(friction, 1.0 - stand.ahead / stand.base, stand.height / stand.base, downhill)
}

fn slides(design: &Design, stands: &Stands, out: &mut Checked, found: &mut Vec<Problem>) {
    let Some(footing) = slippiest(design, out) else { return };
    if footing.known {
        slide_figures(stands, &footing, out);
    }
    let slope = steepest(design);
    let both = super::both(design).unwrap_or(slope);
    if slope <= 0.0 {
        return;
    }
    if !design.items.iter().any(|i| i.kind == ItemKind::Brake) {
        return;
    }
    let least = |friction: f64, downhill: bool| {
        let angle = |s: &Stand| slides_at(s, friction, downhill);
        angle(stands.least(angle))
    };
    let (down, up) = (least(footing.friction, true), least(footing.friction, false));
    let (at, downhill) = if down <= up { (down, true) } else { (up, false) };
    if at > both {
        return;
    }
    let doubt = match () {
        () if !footing.known => Some(Sliding::GroundUnknown),
        () if at > slope => Some(Sliding::OnBoth(both)),
        () if least(footing.dry, downhill) > slope => Some(Sliding::WhenWet),
        () => None,
    };
    let origin = said_steepest(design);
    let (ground, friction) = (footing.ground, footing.friction);
    found.push(Problem::Slides { origin, slope, at, downhill, ground, friction, doubt });
}

fn slide_figures(stands: &Stands, footing: &Footing, out: &mut Checked) {
    for (name, downhill) in [("slide.downhill", true), ("slide.uphill", false)] {
        let stand = stands.least(|s| slides_at(s, footing.friction, downhill));
        let inputs = [
            ("friction", footing.friction, N),
            ("share on the rear wheels", 1.0 - stand.ahead / stand.base, N),
            ("height", stand.height, L),
            ("wheelbase on the ground", stand.base, L),
        ];
        let sign = if downhill { "+" } else { "-" };
        let formula = format!(
            "atan(friction x share / (1 {sign} friction x height / wheelbase)), at most atan friction, on {}{}",
            footing.ground,
            stand.words()
        );
        let angle = slides_at(stand, footing.friction, downhill);
        out.figures.put(name, (angle, A), formula, SLIDE, &inputs);
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
