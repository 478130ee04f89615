//! What keeps the chair from going over backward.
//!
//! The chair turns back about its rear axle until the anti-tip device is on the ground; from there it
//! can only tip about that contact.

use super::{A, Loading, STATICS, axle_middle, tip_angle};
use crate::Checked;
use crate::problem::{AntiTipFault, Problem};
use chairwright_design::{Design, Item, ItemKind, Vec3};
use chairwright_frame::Settled;

pub(super) fn anti_tip(design: &Design, settled: &Settled, loadings: &[Loading], out: &mut Checked) {
    let devices: Vec<&Item> = design.items.iter().filter(|i| i.kind == ItemKind::AntiTip).collect();
    let axle = axle_middle(design, settled);
    let mut least: Option<(f64, f64)> = None;
    for device in &devices {
        let at = settled.pose.place(device.at) - axle;
        let radius = device.size.x / 2.0;
        if let Some(fault) = at_rest(design, at, axle, radius) {
            out.problems.push(Problem::AntiTip { fault, name: device.name.clone(), origin: device.origin });
            continue;
        }
        let Some(turn) = touches(at, axle.z, radius) else {
            let fault = AntiTipFault::NeverTouches;
            out.problems.push(Problem::AntiTip { fault, name: device.name.clone(), origin: device.origin });
            continue;
        };
        let contact = nose_up(at, turn).x + axle.x;
        let slope = loadings.iter().map(|l| on_it(l, axle, turn, contact)).fold(f64::INFINITY, f64::min);
        if least.is_none_or(|(_, s)| slope < s) {
            least = Some((turn, slope));
        }
        let free = out.figures.si("tip.rear.free").unwrap_or(0.0);
        let path = path_slope(design);
        let fault = match () {
            () if turn >= free => Some(AntiTipFault::TooLate { turn, free }),
            () if slope <= path => Some(AntiTipFault::TooNear { has: slope, slope: path }),
            () => None,
        };
        if let Some(fault) = fault {
            out.problems.push(Problem::AntiTip { fault, name: device.name.clone(), origin: device.origin });
        }
    }
    if let Some((turn, slope)) = least {
        let formula = "turn about the rear axle that puts the anti-tip device on the ground";
        out.figures.put("antitip.touch", (turn, A), formula, "geometry of the settled pose", &[]);
        let inputs = [("turn until it touches", turn, A)];
        let formula =
            "atan(distance ahead of the device's contact / height), chair turned back until it touches";
        out.figures.put("antitip.tip", (slope, A), formula, STATICS, &inputs);
    }
    if let Some(profile) = design.profile.as_ref().filter(|p| p.anti_tip && devices.is_empty()) {
        let fault = AntiTipFault::Missing { profile: profile.name.clone() };
        out.problems.push(Problem::AntiTip { fault, name: String::new(), origin: profile.origin });
    }
}

/// The slope that tips the chair over a contact, turned back about its axle: everything but the rear wheels turns.
fn on_it(loading: &Loading, axle: Vec3, turn: f64, contact: f64) -> f64 {
    let body = nose_up(loading.sprung.centre - axle, turn);
    let com = body * (loading.sprung.mass / loading.total.mass) + axle;
    tip_angle(com.x - contact, com.z)
}

/// What is wrong with a device while all wheels stand.
fn at_rest(design: &Design, at: Vec3, axle: Vec3, radius: f64) -> Option<AntiTipFault> {
    if at.x >= 0.0 {
        return Some(AntiTipFault::NotBehind);
    }
    let clearance = at.z + axle.z - radius;
    let approach = libm::atan2(clearance, -at.x);
    let slope = path_slope(design);
    (approach <= slope).then_some(AntiTipFault::Catches { clearance, approach, slope })
}

fn path_slope(design: &Design) -> f64 {
    design.conditions.quantities.get("slope").map_or(0.0, |s| s.abs())
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
    let ahead = turns.map(|t| if t < -1e-12 { t + std::f64::consts::TAU } else { t.max(0.0) });
    Some(ahead[0].min(ahead[1])).filter(|t| *t < std::f64::consts::FRAC_PI_2)
}
