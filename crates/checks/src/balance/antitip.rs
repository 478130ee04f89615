//! What keeps the chair from going over backward.
//!
//! The chair turns back about its rear axle until the anti-tip device is on the ground; from there it
//! can only tip about that contact. Nose up by the angle t on a slope s it is past its balance at t + s = the slope that tips it
//! with its wheels free: a device must touch before that, in the worst loading and with the rider leaning back.

use super::riding::Scene;
use super::swivel::Stand;
use super::{A, Loading, STATICS, lean, tip_angle};
use crate::Checked;
use crate::problem::{AntiTipFault, Problem};
use chairwright_design::{Design, Item, ItemKind, Vec3};
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// A device touches this much before the chair is past its balance: a tenth of what a chair usually turns. Common practice, no
/// source.
const BEFORE: f64 = 2.0 * PI / 180.0;
/// One device alone stands this near to the middle. Common practice, no source.
const MIDDLE: f64 = 0.03;
/// What a proposed device leaves of room above the ground where it can: stones and thresholds. Common practice, no source.
const CLEAR: f64 = 0.04;
/// What a proposed device rolls on: a furniture caster's wheel. Common practice, no source.
const PROPOSED: f64 = 0.025;

pub(super) fn anti_tip(scene: &Scene, loadings: &[Loading], out: &mut Checked) {
    let design = scene.design;
    let devices: Vec<&Item> = design.items.iter().filter(|i| i.kind == ItemKind::AntiTip).collect();
    let wanted = design.profile.as_ref().filter(|p| p.anti_tip);
    if devices.is_empty() && wanted.is_none() {
        return;
    }
    let leaning = out.rider.as_ref().map(|r| lean::back(scene, r)).unwrap_or_default();
    let all: Vec<&Loading> = loadings.iter().chain(&leaning).collect();
    let need = Need::new(scene, out);
    let mut least: Option<(f64, f64)> = None;
    let mut working: Vec<(&Item, f64)> = Vec::new();
    for device in &devices {
        let (found, faults) = judge(scene, device, &all, &need);
        if let Some((turn, slope)) = found {
            if least.is_none_or(|(_, s)| slope < s) {
                least = Some((turn, slope));
            }
            working.push((device, scene.settled.pose.place(device.at).y));
        }
        let told = |fault| Problem::AntiTip { fault, name: device.name.clone(), origin: device.origin };
        out.problems.extend(faults.into_iter().map(told));
    }
    if let Some(one) = one_sided(&working) {
        let fault = AntiTipFault::OneSided { off: one.1.abs() };
        out.problems.push(Problem::AntiTip { fault, name: one.0.name.clone(), origin: one.0.origin });
    }
    if let Some((turn, slope)) = least {
        let formula = "turn about the rear axle that puts the anti-tip device on the ground";
        out.figures.put("antitip.touch", (turn, A), formula, "geometry of the settled pose", &[]);
        let inputs = [("turn until it touches", turn, A)];
        let formula = "atan(distance ahead of the device's contact / height), chair turned back until it touches, in its worst \
                       loading and with the rider leaning back";
        out.figures.put("antitip.tip", (slope, A), formula, STATICS, &inputs);
    }
    if let Some(profile) = wanted.filter(|_| devices.is_empty()) {
        let place = propose(scene, &all, &need);
        let fault = AntiTipFault::Missing { profile: profile.name.clone(), place };
        out.problems.push(Problem::AntiTip { fault, name: String::new(), origin: profile.origin });
    }
}

/// Whether anti-tip devices keep the chair from going over, once they are judged: one that does not do its work, or too late, guards
/// nothing.
pub(crate) fn guards(design: &Design, problems: &[Problem]) -> bool {
    let works =
        |fault: &AntiTipFault| matches!(fault, AntiTipFault::Catches { .. } | AntiTipFault::StopsAtKerb { .. });
    let idle = |p: &Problem| matches!(p, Problem::AntiTip { fault, .. } if !works(fault));
    design.items.iter().any(|i| i.kind == ItemKind::AntiTip) && !problems.iter().any(idle)
}

/// What a device has to keep to, angles in radians.
struct Need {
    /// Nose up by which the chair is past its balance on the slope of its path.
    over: f64,
    /// The slope of the path.
    slope: f64,
    /// What the use profile wants beyond it.
    margin: f64,
    /// Nose up until the casters are over the kerb of the path, and that kerb in metres.
    kerb: Option<(f64, f64)>,
}

impl Need {
    fn new(scene: &Scene, out: &Checked) -> Need {
        let slope = crate::roll::steepest(scene.design);
        let free = ["tip.rear.free", "tip.rear.free.leaning"].map(|f| out.figures.si(f).unwrap_or(0.0));
        let profile = scene.design.profile.as_ref();
        let margin =
            profile.and_then(|p| p.margins.iter().find(|m| m.0 == "tip.rear.free")).map_or(0.0, |m| m.1);
        Need { over: free[0].min(free[1]) - slope, slope, margin, kerb: kerb(scene) }
    }
}

/// Turn until a device touches and what the chair bears on it, if it reaches the ground; and what is wrong with it.
fn judge(
    scene: &Scene,
    device: &Item,
    loadings: &[&Loading],
    need: &Need,
) -> (Option<(f64, f64)>, Vec<AntiTipFault>) {
    let axle = scene.axles.middle();
    let at = scene.settled.pose.place(device.at) - axle;
    let radius = device.size.x / 2.0;
    if let Some(fault) = at_rest(scene.design, at, axle, radius) {
        return (None, vec![fault]);
    }
    let Some(turn) = touches(at, axle.z, radius) else { return (None, vec![AntiTipFault::NeverTouches]) };
    let has = bears(loadings, axle, turn, nose_up(at, turn).x);
    let Need { over, slope, margin, kerb } = *need;
    // over on the level is over for good; what touches in time must hold; on its slope the chair is over sooner
    let idle = match () {
        () if turn >= over + slope => Some(AntiTipFault::TooLate { turn, free: over + slope, slope: 0.0 }),
        () if has <= slope || has < slope + margin => Some(AntiTipFault::TooNear { has, slope, margin }),
        () if turn >= over - BEFORE => Some(AntiTipFault::TooLate { turn, free: over, slope }),
        () => None,
    };
    let short = kerb.filter(|k| turn < k.0);
    let short = short.map(|(kerb, height)| AntiTipFault::StopsAtKerb { turn, kerb, height });
    (Some((turn, has)), idle.into_iter().chain(short).collect())
}

/// The one furthest out, where all that touch stand on one side of the middle.
fn one_sided<'a>(working: &[(&'a Item, f64)]) -> Option<(&'a Item, f64)> {
    let left = working.iter().all(|d| d.1 > MIDDLE);
    let right = working.iter().all(|d| d.1 < -MIDDLE);
    working.iter().copied().filter(|_| left || right).max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))
}

/// Where a pair of devices on wheels of 50 mm would do: behind the rear axle and above the ground to their middle, in metres.
/// Halfway between what path and kerb need and where the chair is past its balance, and as near as it holds.
fn propose(scene: &Scene, loadings: &[&Loading], need: &Need) -> Option<(f64, f64)> {
    let least = need.slope.max(need.kerb.map_or(0.0, |k| k.0));
    let most = need.over - BEFORE;
    if least >= most {
        return None;
    }
    let turn = f64::midpoint(least, most);
    let (s, c) = libm::sincos(turn);
    let axle = scene.axles.middle();
    let place = |clearance: f64| {
        (10_u32..=50).map(|k| f64::from(k) * 0.01).find_map(|back| {
            // x sin + z cos = r - R
            let up = (PROPOSED - axle.z + back * s) / c;
            let at = Vec3::new(-back, 0.0, up);
            let holds = bears(loadings, axle, turn, nose_up(at, turn).x) >= need.slope + need.margin + BEFORE;
            let clear = at_rest(scene.design, at, axle, PROPOSED).is_none();
            let above = up + axle.z;
            (holds && clear && above - PROPOSED >= clearance).then_some((back, above))
        })
    };
    place(CLEAR).or_else(|| place(0.0))
}

/// How far the nose must rise about the rear axle for the casters to be over the kerb, and the kerb: x·sin + z·cos = kerb + r − R
/// for a caster's middle at x ahead of and z above the axle.
fn kerb(scene: &Scene) -> Option<(f64, f64)> {
    let kerb = *scene.design.conditions.quantities.get("kerb")?;
    let axle = scene.axles.middle();
    let turn = |c: &chairwright_design::Caster| {
        let at = scene.settled.pose.place(chairwright_frame::caster_centre(c, 0.0)) - axle;
        let sine = (kerb + c.radius - axle.z) / libm::hypot(at.x, at.z);
        if sine >= 1.0 { FRAC_PI_2 } else { libm::asin(sine.max(-1.0)) - libm::atan2(at.z, at.x) }
    };
    let most = scene.design.casters.iter().map(turn).fold(0.0, f64::max);
    (kerb > 0.0 && most > 0.0).then_some((most, kerb))
}

/// The slope that tips the chair over a contact so far ahead of the axle, turned back: the least of all loadings.
fn bears(loadings: &[&Loading], axle: Vec3, turn: f64, contact: f64) -> f64 {
    loadings.iter().map(|l| on_it(l, axle, turn, contact + axle.x)).fold(FRAC_PI_2, f64::min)
}

/// The slope that tips the chair over a contact, turned back about its axle.
fn on_it(loading: &Loading, axle: Vec3, turn: f64, contact: f64) -> f64 {
    let (ahead, up) = stands(loading, axle, turn, contact);
    tip_angle(ahead, up)
}

/// How far ahead of a contact and how high the centre of mass is, turned back about the axle: everything but the rear wheels
/// turns.
fn stands(loading: &Loading, axle: Vec3, turn: f64, contact: f64) -> Stand {
    let body = nose_up(loading.sprung.centre - axle, turn);
    let com = body * (loading.sprung.mass / loading.total.mass) + axle;
    (com.x - contact, com.z)
}

/// How a loading stands once it has turned back onto the devices, on the one over which it goes soonest; `None` where none
/// touches the ground.
pub(super) fn caught(scene: &Scene, loading: &Loading) -> Option<Stand> {
    let axle = scene.axles.middle();
    let on = |device: &Item| {
        let at = scene.settled.pose.place(device.at) - axle;
        let turn = touches(at, axle.z, device.size.x / 2.0)?;
        Some(stands(loading, axle, turn, nose_up(at, turn).x + axle.x))
    };
    let devices = scene.design.items.iter().filter(|i| i.kind == ItemKind::AntiTip);
    devices.filter_map(on).min_by(|a, b| tip_angle(a.0, a.1).total_cmp(&tip_angle(b.0, b.1)))
}

/// What is wrong with a device while all wheels stand.
fn at_rest(design: &Design, at: Vec3, axle: Vec3, radius: f64) -> Option<AntiTipFault> {
    if at.x >= 0.0 {
        return Some(AntiTipFault::NotBehind);
    }
    let clearance = at.z + axle.z - radius;
    let approach = libm::atan2(clearance, -at.x);
    let slope = crate::roll::steepest(design);
    (approach <= slope).then_some(AntiTipFault::Catches { clearance, approach, slope })
}

/// A vector from the axle, turned nose up.
fn nose_up(v: Vec3, angle: f64) -> Vec3 {
    let (s, c) = libm::sincos(angle);
    Vec3::new(v.x * c - v.z * s, v.y, v.x * s + v.z * c)
}

/// The least turn at which a wheel at `at` from the axle is on the ground: x·sin + z·cos = r − R.
fn touches(at: Vec3, axle_height: f64, radius: f64) -> Option<f64> {
    let reach = libm::hypot(at.x, at.z);
    let cosine = (radius - axle_height) / reach;
    if !(-1.0..=1.0).contains(&cosine) {
        return None;
    }
    let start = libm::atan2(at.x, at.z);
    let turns = [start + libm::acos(cosine), start - libm::acos(cosine)];
    let ahead = turns.map(|t| if t < -1e-12 { t + TAU } else { t.max(0.0) });
    Some(ahead[0].min(ahead[1])).filter(|t| *t < FRAC_PI_2)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: axle 300 mm up, device of 50 mm with its middle 200 mm behind and 100 mm up: x = -200, z = -200, so that
    /// -200 sin t - 200 cos t = 25 - 300: sin t + cos t = 1.375, sin(t + 45°) = 0.97227, t = 76.476° - 45° = 31.48°.
    #[test]
    fn a_device_touches_after_this_turn() {
        let turn = touches(Vec3::new(-0.2, 0.0, -0.2), 0.3, 0.025).unwrap();
        assert!((turn.to_degrees() - 31.476).abs() < 2e-3, "{}", turn.to_degrees());
    }

    /// By hand: 80 kg without the rear wheels at (0.12, 0.3) from the axle at 0.3 m, rear wheels of 4 kg on the axle. Turned by
    /// 10°: x = 0.12·0.98481 - 0.3·0.17365 = 0.06608, z = 0.12·0.17365 + 0.3·0.98481 = 0.31628; times 80/84 and from the ground:
    /// x = 0.06293, z = 0.60122. Over a contact 0.2 m behind: atan(0.26293 / 0.60122) = 23.62°.
    #[test]
    fn on_the_device_the_chair_bears_more() {
        let mass = |mass: f64, x: f64, z: f64| crate::weigh::Mass { mass, centre: Vec3::new(x, 0.0, z) };
        let loading = Loading {
            with: String::new(),
            origin: None,
            named: true,
            total: mass(84.0, 0.0, 0.0),
            sprung: mass(80.0, 0.12, 0.6),
        };
        let axle = Vec3::new(0.0, 0.0, 0.3);
        let slope = bears(&[&loading], axle, 10f64.to_radians(), -0.2);
        assert!((slope.to_degrees() - 23.62).abs() < 0.01, "{}", slope.to_degrees());
    }
}
