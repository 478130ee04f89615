//! Sills, kerbs and slots: what it takes to climb them, and what happens to who meets them at speed.

use super::problem::{Climber, Problem};
use super::stand::{Stand, Stands};
use super::{G, WALK, helped_at_steps, place, said, steepest};
use crate::Checked;
use crate::assumed::Assumed;
use chairwright_design::Design;
use chairwright_quantity::Dimension;

const F: Dimension = Dimension::FORCE;
const A: Dimension = Dimension::ANGLE;
const L: Dimension = Dimension::LENGTH;
const N: Dimension = Dimension::NUMBER;
const SPEED: Dimension = Dimension::SPEED;
const CLIMB: &str = "statics: the push and the load on a rigid wheel turn about the edge of the step";
const TILT: &str = "geometry: front and rear contacts a step apart in height";
const STOP: &str = "energy: stopped dead at the casters, all motion lifts the centre of mass over them; no chair that loses \
     energy on the way goes over sooner. The rider is not held";

/// Push over load that takes a rigid wheel up a step: √(2 r h - h²) / (r - h). `None` from h = r on: no push
/// along the ground climbs it.
#[must_use]
pub fn climb_factor(radius: f64, step: f64) -> Option<f64> {
    if step <= 0.0 {
        return Some(0.0);
    }
    (step < radius).then(|| (2.0 * radius * step - step * step).sqrt() / (radius - step))
}

/// How far a wheel drops into a slot that it crosses: r - √(r² - s²/4). `None` when it falls in.
#[must_use]
pub fn slot_drop(radius: f64, slot: f64) -> Option<f64> {
    (slot < 2.0 * radius).then(|| radius - (radius * radius - slot * slot / 4.0).sqrt())
}

/// Least speed in m/s at which a dead stop of the casters throws the chair over them, going down a slope in
/// radians: √(2 g (√(d² + h²) - h')), d from the centre of mass forward to the caster contacts, h its height,
/// h' its height over those contacts seen upright, h cos θ + d sin θ. Zero where it tips by itself.
#[must_use]
pub fn stop_speed(d: f64, h: f64, slope: f64) -> f64 {
    let (s, c) = libm::sincos(slope);
    if d * c - h * s <= 0.0 {
        return 0.0;
    }
    (2.0 * G * (libm::hypot(d, h) - (h * c + d * s)).max(0.0)).sqrt()
}

/// Radius of a wheel that climbs a step with this push over load: h / (1 - cos(atan k)).
fn radius_for(step: f64, factor: f64) -> f64 {
    step / (1.0 - libm::cos(libm::atan(factor)))
}

/// One thing in the way.
struct Step {
    what: &'static str,
    height: f64,
}

pub(crate) fn obstacles(design: &Design, stands: &Stands, out: &mut Checked, found: &mut Vec<Problem>) {
    let stand = stands.full();
    stops(design, stands, out);
    let mut steps: Vec<Step> = ["sill", "kerb"]
        .into_iter()
        .filter_map(|what| place(design, what).filter(|h| *h > 0.0).map(|height| Step { what, height }))
        .collect();
    steps.extend(slot(design, stand, out, found));
    for step in &steps {
        climb(design, stands, step, out, found);
    }
    if !steps.is_empty() && place(design, "speed").is_none() {
        out.assumptions.push(Assumed::UsualSpeed);
    }
    found.extend(steps.iter().filter_map(|s| pitches(design, stands, s)).max_by(worse));
    tilts(design, stand, &steps, out, found);
}

/// Turn of a chair whose casters stand a step higher or lower than its rear wheels, from contact to contact, in radians; upright
/// where the step is as high as they are apart.
#[must_use]
pub(super) fn tilt(step: f64, base: f64) -> f64 {
    libm::asin((step / base).clamp(0.0, 1.0))
}

/// With its casters up on a step the chair stands nose up, after they rolled off it nose down: by that turn alone it may tip, or
/// on a slope together with it. With the casters up the wheels are held, by their rims or against the step.
fn tilts(design: &Design, stand: &Stand, steps: &[Step], out: &mut Checked, found: &mut Vec<Problem>) {
    let slope = steepest(design);
    for step in steps.iter().filter(|s| s.what != "slot") {
        let turn = tilt(step.height, stand.base);
        let inputs = [(step.what, step.height, L), ("wheelbase on the ground", stand.base, L)];
        let formula = "asin(step / wheelbase on the ground)";
        out.figures.put(format!("tilt.{}", step.what), (turn, A), formula, TILT, &inputs);
        for (figure, up) in [("tip.rear.locked", true), ("tip.forward.locked", false)] {
            let Some(has) = out.figures.si(figure).filter(|has| *has <= turn + slope) else { continue };
            let origin = said(design, &format!("conditions.{}", step.what));
            // however its casters come up on it: by a push, or where none climbs it by tipping back
            let helped = helped_at_steps(design);
            let (what, height) = (step.what, step.height);
            found.push(Problem::TipsOnStep { what, origin, figure, up, height, turn, has, slope, helped });
        }
    }
}

/// A sure stop is worse than a likely one, a higher step than a lower.
fn worse(a: &Problem, b: &Problem) -> std::cmp::Ordering {
    let key = |p: &Problem| matches!(p, Problem::PitchesForward { dead: true, .. });
    key(a).cmp(&key(b))
}

fn slot(design: &Design, stand: &Stand, out: &mut Checked, found: &mut Vec<Problem>) -> Option<Step> {
    let width = place(design, "slot").filter(|s| *s > 0.0)?;
    let origin = said(design, "conditions.slot");
    let catches =
        |rear: bool, wheel: f64, along: bool| Problem::SlotCatches { origin, width, rear, wheel, along };
    let drop = slot_drop(stand.radius, width);
    // a caster that falls in whole is told as that
    if stand.tyre <= width && drop.is_some() {
        found.push(catches(false, stand.tyre, true));
    }
    if stand.rear_tyre <= width {
        found.push(catches(true, stand.rear_tyre, true));
    }
    let Some(drop) = drop else {
        found.push(catches(false, 2.0 * stand.radius, false));
        return None;
    };
    let inputs = [("radius of the caster", stand.radius, L), ("slot", width, L)];
    let source = "geometry: a wheel on the two edges of the slot";
    out.figures.put("slot.drop", (drop, L), "radius - √(radius² - slot²/4)", source, &inputs);
    Some(Step { what: "slot", height: drop })
}

fn climb(design: &Design, stands: &Stands, step: &Step, out: &mut Checked, found: &mut Vec<Problem>) {
    let Step { what, height } = *step;
    let stand = stands.full();
    let load = stands.most(Stand::caster_load).caster_load();
    let rear_load = stands.most(Stand::rear_load).rear_load();
    let factor = climb_factor(stand.radius, height);
    if let Some(k) = factor {
        let inputs = [("radius of the caster", stand.radius, L), (what, height, L)];
        let formula = "√(2 r h - h²) / (r - h), r the caster's radius, h the step";
        out.figures.put(format!("climb.factor.{what}"), (k, N), formula, CLIMB, &inputs);
        let inputs = [("factor", k, N), ("load on the casters", load, F)];
        let formula = "factor x load on the casters; both meet the step at once";
        out.figures.put(format!("climb.push.{what}"), (k * load, F), formula, CLIMB, &inputs);
    }
    let back = climb_factor(stand.rear_radius, height).map(|k| (k, k * rear_load));
    if let Some((k, push)) = back.filter(|_| what != "slot") {
        let inputs = [("factor", k, N), ("load on the rear wheels", rear_load, F)];
        let formula = "√(2 r h - h²) / (r - h) x load on the rear wheels; both meet the step at once";
        out.figures.put(format!("climb.rear.{what}"), (push, F), formula, CLIMB, &inputs);
    }
    if helped_at_steps(design) {
        return;
    }
    let can = design.rider.get("push_force");
    let need = factor.map(|k| k * load);
    // where nobody says how hard the rider pushes: a push greater than the load on the wheels
    // is more than an arm has to give, and no kerb is taken for granted
    let most = |load: f64| can.unwrap_or(if what == "kerb" { 0.0 } else { load });
    let beyond = |need: Option<f64>, load: f64| need.is_none_or(|n| n > most(load));
    let back = back.map(|b| b.1);
    // where the step stands, on the level or at the end of the ramp, nobody says: on the slope the whole weight pulls back as well
    let pull = stands.most(|s| s.weight).weight * libm::sin(place(design, "slope").map_or(0.0, f64::abs));
    if pull > 0.0 && what != "slot" {
        on_the_slope(what, (need, back), pull, out);
    }
    let (casters, rear) = (beyond(need, load), what != "slot" && beyond(back, rear_load));
    if !casters && !rear {
        let all = [need, back].into_iter().flatten().fold(0.0, f64::max) + pull;
        if let Some(can) = can.filter(|can| what != "slot" && pull > 0.0 && all > *can) {
            let origin = said(design, &format!("conditions.{what}"));
            found.push(Problem::StepOnSlope { what, origin, height, need: all, pull, can });
        }
        return;
    }
    let origin = said(design, &format!("conditions.{what}"));
    // where no strength is known, the caster that takes a push as great as its load
    let wants = radius_for(height, can.map_or(1.0, |c| c / load.max(1.0)));
    let wheel = if casters { Climber::Casters { wants, backward: !rear } } else { Climber::Rear };
    let (radius, need) = if casters { (stand.radius, need) } else { (stand.rear_radius, back) };
    found.push(Problem::StepTooHigh { what, origin, height, radius, need, can, wheel });
}

/// What it takes up a step that stands on the slope of the path.
fn on_the_slope(what: &str, (casters, rear): (Option<f64>, Option<f64>), pull: f64, out: &mut Checked) {
    let Some(need) = casters.zip(rear).map(|(c, r)| c.max(r)) else { return };
    let inputs = [("the greater push on the level", need, F), ("weight x sin slope", pull, F)];
    let formula = "the greater of climb.push and climb.rear + weight x sin slope";
    out.figures.put(format!("climb.slope.{what}"), (need + pull, F), formula, CLIMB, &inputs);
}

/// From what speed on a dead stop throws this chair over on a slope.
fn thrown(stand: &Stand, slope: f64) -> f64 {
    stop_speed(stand.base - stand.ahead, stand.height, slope)
}

fn stops(design: &Design, stands: &Stands, out: &mut Checked) {
    let stand = stands.least(|s| thrown(s, 0.0));
    let inputs =
        |s: &Stand| [("centre of mass to caster contacts", s.base - s.ahead, L), ("height", s.height, L)];
    let formula = format!(
        "√(2 g (√(d² + h²) - h)), d from the centre of mass to the caster contacts, h its height{}",
        stand.words()
    );
    out.figures.put("stop.speed", (thrown(stand, 0.0), SPEED), formula, STOP, &inputs(stand));
    let slope = steepest(design);
    if slope > 0.0 {
        let stand = stands.least(|s| thrown(s, slope));
        let all = [inputs(stand).as_slice(), &[("slope", slope, A)]].concat();
        let formula = format!("√(2 g (√(d² + h²) - h cos slope - d sin slope)), going down{}", stand.words());
        out.figures.put("stop.speed.downhill", (thrown(stand, slope), SPEED), formula, STOP, &all);
    }
}

/// A step whose edge pushes on the caster along a line that passes below the centre of mass turns the chair
/// forward: k (h - r) > d. From what speed on it goes all the way over is bounded by the dead stop.
fn pitches(design: &Design, stands: &Stands, step: &Step) -> Option<Problem> {
    let factor = climb_factor(stands.full().radius, step.height);
    // by how much the edge's push passes above the centre of mass, as a moment
    let above = |s: &Stand| factor.map_or(f64::NEG_INFINITY, |k| s.base - s.ahead - k * (s.height - s.radius));
    let slope = steepest(design);
    let turned: Vec<&Stand> = stands.all().filter(|s| above(s) < 0.0).collect();
    let from = turned.iter().map(|s| thrown(s, slope)).min_by(f64::total_cmp)?;
    let speed = place(design, "speed").map_or((WALK, false), |v| (v, true));
    if speed.0 < from {
        return None;
    }
    let origin = said(design, &format!("conditions.{}", step.what));
    let (what, dead, helped) = (step.what, factor.is_none(), helped_at_steps(design));
    Some(Problem::PitchesForward { what, origin, speed, from, slope, dead, helped })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Hand calculation from the free body of the wheel, to two decimals, at a step of 20 mm: 150 mm caster 0.93,
    /// 125 mm 1.08, 100 mm 1.33, 75 mm 1.90. At half the radius the factor is √3.
    #[test]
    fn a_small_caster_takes_more_to_climb() {
        for (diameter, factor) in [(0.150, 0.93), (0.125, 1.08), (0.100, 1.33), (0.075, 1.90)] {
            let got = climb_factor(diameter / 2.0, 0.020).unwrap();
            assert!((got - factor).abs() < 0.005, "{got} against {factor}");
        }
        assert!((climb_factor(0.08, 0.04).unwrap() - 3f64.sqrt()).abs() < 1e-12);
        assert!(climb_factor(0.05, 0.05).is_none());
        assert!((radius_for(0.02, climb_factor(0.0625, 0.02).unwrap()) - 0.0625).abs() < 1e-12);
    }

    /// 100 mm over 315 mm: the sine is 0.31746, 18.51 degrees.
    #[test]
    fn a_kerb_turns_the_chair() {
        assert!((tilt(0.100, 0.315).to_degrees() - 18.51).abs() < 0.005);
        assert!((tilt(0.5, 0.4).to_degrees() - 90.0).abs() < 1e-9);
    }

    /// A slot of 60 mm under a wheel of 100 mm: the 3-4-5 triangle leaves 40 mm of 50, a drop of 10 mm.
    #[test]
    fn a_wheel_drops_into_a_slot() {
        assert!((slot_drop(0.05, 0.06).unwrap() - 0.01).abs() < 1e-12);
        assert!(slot_drop(0.05, 0.10).is_none());
    }

    /// d 0.3, h 0.4: the centre rises by 0.1 m, √(2 g 0.1) = 1.40 m/s. On a slope of atan(d / h) it goes by itself.
    #[test]
    fn a_dead_stop_throws_it_over_sooner_downhill() {
        assert!((stop_speed(0.3, 0.4, 0.0) - (0.2 * G).sqrt()).abs() < 1e-12);
        let ten = stop_speed(0.3, 0.4, 10f64.to_radians());
        // by hand: h' = 0.4 x 0.98481 + 0.3 x 0.17365 = 0.44602; √(2 x 9.80665 x 0.05398) = 1.0289
        assert!((ten - 1.0289).abs() < 1e-3, "{ten}");
        assert!(stop_speed(0.3, 0.4, libm::atan(0.75)) < 1e-6);
    }
}
