//! What it takes to push: on the level by kind of ground, up the slope, and how hard a push tips it back.

use super::problem::{Problem, Pusher};
use super::stand::{Stand, Stands};
use super::{helped, place, said};
use crate::Checked;
use crate::assumed::Assumed;
use chairwright_design::{Design, Surface};
use chairwright_quantity::Dimension;

const F: Dimension = Dimension::FORCE;
const A: Dimension = Dimension::ANGLE;
const L: Dimension = Dimension::LENGTH;
const N: Dimension = Dimension::NUMBER;
const ROLLING: &str = "statics; rolling resistance by kind of ground from the catalogue, a range because chairs differ \
     up to sevenfold on one floor (Am J Phys Med Rehabil 2003;82(11):880-9)";
const TOE: &str = "RESNA 2016 (Vander Wiel et al.): a parabola, 25.5 % more at 1 degree of toe; measured up to 2 degrees, beyond that an estimate";
const LIFT: &str = "statics about the rear contacts: push x height = weight x distance ahead";

/// The greatest toe whose cost is known, in radians.
const MOST_TOE: f64 = 2.0 * std::f64::consts::PI / 180.0;

/// How much more a rear wheel drags for its toe, as a factor: 1 + 0.255 t² with t in degrees. The study
/// gives the shape and the value at 1 degree. `None` beyond 2 degrees, where nothing is known here.
#[must_use]
pub fn toe_drag(toe: f64) -> Option<f64> {
    (toe.abs() <= MOST_TOE).then(|| along_parabola(toe))
}

fn along_parabola(toe: f64) -> f64 {
    let degrees = toe.to_degrees();
    1.0 + 0.255 * degrees * degrees
}

/// Push up a slope: W (sin θ + c cos θ).
fn push_up(weight: f64, slope: f64, rolling: f64) -> f64 {
    let (s, c) = libm::sincos(slope);
    weight * (s + rolling * c)
}

/// Kinds of ground that the place declares.
pub(crate) fn grounds(design: &Design) -> Vec<&Surface> {
    let routes = design.conditions.quantities.keys().filter_map(|k| k.strip_prefix("route."));
    let mut names: Vec<&str> = design.conditions.words.get("ground").map(String::as_str).into_iter().collect();
    names.extend(routes);
    names.sort_unstable();
    names.dedup();
    names.iter().filter_map(|n| design.surfaces.iter().find(|s| s.name == *n)).collect()
}

/// What the path asks at its worst: the slope with the ground that is worst on it.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Path {
    /// Weight of chair and rider in N, with what makes it most.
    pub weight: f64,
    /// The slope.
    pub slope: f64,
    /// The ground by its name; without a name where the place says none.
    pub ground: Option<String>,
    /// Its rolling resistance, least and most, with the drag of toe.
    pub rolling: (f64, f64),
}

impl Path {
    /// The push along the ground on a slope, least and most, in N.
    pub(crate) fn push(&self, slope: f64) -> (f64, f64) {
        let up = |c: f64| push_up(self.weight, slope, c);
        (up(self.rolling.0), up(self.rolling.1))
    }

    /// The slope up to which a push is enough at the greatest resistance; below zero where not even the level is.
    pub(crate) fn up_to(&self, push: f64) -> f64 {
        // W (sin θ + c cos θ) = F: θ = asin(F / (W √(1 + c²))) - atan c
        let c = self.rolling.1;
        let sine = push / (self.weight * (1.0 + c * c).sqrt());
        libm::asin(sine.clamp(-1.0, 1.0)) - libm::atan(c)
    }

    /// The ground in words.
    pub(crate) fn ground(&self) -> &str {
        self.ground.as_deref().unwrap_or("any ground")
    }
}

pub(crate) fn push(design: &Design, stands: &Stands, out: &mut Checked, found: &mut Vec<Problem>) -> Path {
    let stand = stands.most(|s| s.weight);
    let factor = toe(stand, out);
    let slope = place(design, "slope").map_or(0.0, f64::abs);
    let inputs = |c: f64| [("weight", stand.weight, F), ("rolling resistance", c, N), ("toe.drag", factor, N)];
    let mut worst: Option<(&Surface, (f64, f64))> = None;
    for ground in grounds(design) {
        let need = (ground.rolling.0, ground.rolling.1 * factor);
        for (word, c) in [("least", need.0), ("most", need.1)] {
            let value = (push_up(stand.weight, 0.0, c), F);
            let formula = "weight x rolling resistance of this ground (the greater value x toe.drag)";
            out.figures.put(format!("push.{word}.{}", ground.name), value, formula, ROLLING, &inputs(c));
        }
        if worst.is_none_or(|(_, w)| need.1 > w.1) {
            worst = Some((ground, need));
        }
    }
    if design.rider.get("push_force").is_none() && !helped(design) {
        let by_hand = !super::hands::limits(design).is_empty();
        out.assumptions.push(Assumed::PushUnknown { by_hand });
    }
    // what the slope alone takes is taken on any ground
    let rolling = worst.map_or((0.0, 0.0), |(_, rolling)| rolling);
    let ground = worst.map(|(ground, _)| ground.name.clone());
    let path = Path { weight: stand.weight, slope, ground, rolling };
    if path.ground.is_none() && !helped(design) {
        out.assumptions.push(Assumed::NoGround);
    }
    if let Some(ground) = &path.ground {
        let need = path.push(slope);
        for (word, value, c) in [("least", need.0, rolling.0), ("most", need.1, rolling.1)] {
            let formula = format!("weight x (sin slope + c cos slope), c of {ground}");
            let all = [inputs(c).as_slice(), &[("slope", slope, A)]].concat();
            out.figures.put(format!("push.slope.{word}"), (value, F), formula, ROLLING, &all);
        }
    }
    too_steep(design, &path, found);
    lifts(design, stands, &path, out, found);
    if helped(design) && slope > 0.0 {
        let (s, c) = libm::sincos(slope);
        let back = path.weight * (s - path.rolling.0 * c).max(0.0);
        out.assumptions.push(Assumed::HelperUnjudged { push: path.push(slope), back, slope });
    }
    path
}

/// The mean of both wheels' factors, as each carries half of what lies on them; where a toe is beyond what was measured, the same
/// curve goes on, and a word about it. A chair with toe in one wheel alone takes a course between the two, in which both scrub a
/// little and together less: the mean is on the safe side of that.
fn toe(stand: &Stand, out: &mut Checked) -> f64 {
    let wheels = ["toe.left", "toe.right"].iter().filter_map(|n| out.figures.si(n).map(|t| (*n, t)));
    let wheels: Vec<(&str, f64)> = wheels.collect();
    let most = wheels.iter().fold(0.0, |a: f64, (_, t)| a.max(t.abs()));
    if toe_drag(most).is_none() {
        out.assumptions.push(Assumed::ToeBeyond(most));
    }
    // the toe of the rear wheels drags with their load only
    let share = stand.rear_load() / stand.weight;
    let factor = 1.0 + (mean_drag(&wheels) - 1.0) * share;
    let mut inputs: Vec<(&str, f64, Dimension)> = wheels.iter().map(|(n, t)| (*n, *t, A)).collect();
    inputs.push(("share on the rear wheels", share, N));
    let formula =
        "1 + 0.255 x (mean of toe.left² and toe.right², in degrees) x share of the weight on the rear wheels";
    out.figures.put("toe.drag", (factor, N), formula, TOE, &inputs);
    factor
}

fn mean_drag(wheels: &[(&str, f64)]) -> f64 {
    let sum: f64 = wheels.iter().map(|(_, t)| along_parabola(*t)).sum();
    if wheels.is_empty() { 1.0 } else { sum / wheels.len() as f64 }
}

fn too_steep(design: &Design, path: &Path, found: &mut Vec<Problem>) {
    if helped(design) {
        return;
    }
    let Some(can) = design.rider.get("push_force") else { return };
    let (slope, need) = (path.slope, path.push(path.slope));
    if need.1 <= can {
        return;
    }
    let origin = place_of(design, slope).or_else(|| said(design, "rider.push_force"));
    let ground = path.ground().to_owned();
    found.push(Problem::TooSteep { origin, slope, ground, need, can, up_to: path.up_to(can) });
}

/// Where the text says the slope, or without one the ground.
fn place_of(design: &Design, slope: f64) -> Option<chairwright_design::Origin> {
    said(design, if slope > 0.0 { "conditions.slope" } else { "conditions.ground" })
}

/// Pull at the rims that lifts the casters while the wheels are held, facing up a slope, in N: with the axle's height R,
/// W (a cos θ - (h - R) sin θ) / rim.
fn held(stand: &Stand, slope: f64, rim: f64) -> f64 {
    let (s, c) = libm::sincos(slope);
    let moment = c * stand.ahead - s * (stand.height - stand.rear_radius);
    stand.weight * moment.max(0.0) / rim
}

/// The push that takes the weight off the casters.
fn lifts(design: &Design, stands: &Stands, path: &Path, out: &mut Checked, found: &mut Vec<Problem>) {
    let slope = path.slope;
    let push = |s: &Stand| s.weight * libm::cos(slope) * s.ahead.max(0.0) / s.height;
    let stand = stands.least(push);
    let lift = push(stand);
    let inputs = [
        ("weight", stand.weight, F),
        ("distance ahead", stand.ahead, L),
        ("height", stand.height, L),
        ("slope", slope, A),
    ];
    let formula = format!(
        "weight x cos slope x distance of the centre of mass ahead of the rear contacts / its height{}",
        stand.words()
    );
    out.figures.put("push.lift", (lift, F), formula, LIFT, &inputs);
    pulls(stands, slope, out);
    if crate::balance::guards(design, &out.problems) {
        return;
    }
    if let Some((by, origin)) = pushes_more(design, (stand, path), lift) {
        found.push(Problem::LiftsCasters { origin, lift, by, slope });
    }
}

/// A push that is as much as lifts the casters: the rider's, that of the hands, or what the path takes of anybody.
fn pushes_more(
    design: &Design,
    (stand, path): (&Stand, &Path),
    lift: f64,
) -> Option<(Pusher, Option<chairwright_design::Origin>)> {
    let helped = helped(design);
    if let Some(can) = design.rider.get("push_force").filter(|c| *c >= lift && !helped) {
        return Some((Pusher::Rider(can), said(design, "rider.push_force")));
    }
    // along a rim that is smaller than its wheel a hand pushes harder than the wheel pushes the ground
    let hands = super::hands::strongest(design);
    let by_rims = hands.iter().map(|h| h.1).sum::<f64>() / stand.lever().unwrap_or(1.0).max(1.0);
    if let Some((side, _)) = hands.first().filter(|_| by_rims >= lift && !helped) {
        let key = format!("rider.push_force.{}", side.word());
        let by = Pusher::Hands { can: by_rims, both: hands.len() > 1 };
        return Some((by, said(design, &key).or(design.rider.origin)));
    }
    let least = path.push(path.slope).0;
    // who pushes from behind does it above the centre of mass, feet ahead of it: neither lifts the casters
    let feet = design.rider.word("pushes") == Some("feet");
    (least >= lift && !feet && !helped).then(|| (Pusher::Path(least), place_of(design, path.slope)))
}

/// The same by the rims while something holds the wheels.
fn pulls(stands: &Stands, slope: f64, out: &mut Checked) {
    let Some(rim) = stands.full().rim else { return };
    let stand = stands.least(|s| held(s, slope, rim));
    let inputs = [
        ("weight", stand.weight, F),
        ("distance ahead", stand.ahead, L),
        ("height above the axle", stand.height - stand.rear_radius, L),
        ("rim radius", rim, L),
        ("slope", slope, A),
    ];
    let formula = format!(
        "weight x (cos slope x distance ahead - sin slope x height above the axle) / radius of the push rims{}",
        stand.words()
    );
    let source = "statics about the axle: pull at the rims x their radius = moment of the weight";
    out.figures.put("push.lift.held", (held(stand, slope, rim), F), formula, source, &inputs);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::roll::G;

    /// Hand calculation, also in the trade's tables: 84 kg on 1:12 is 68 N and on 7 degrees 100 N, 159 kg on
    /// 10 degrees 271 N (without rolling).
    #[test]
    fn weight_down_a_slope() {
        let pull = |mass: f64, slope: f64| push_up(mass * G, slope, 0.0);
        assert!((pull(84.0, libm::atan(1.0 / 12.0)) - 68.0).abs() < 0.5);
        assert!((pull(84.0, 7f64.to_radians()) - 100.0).abs() < 0.5);
        assert!((pull(159.0, 10f64.to_radians()) - 271.0).abs() < 0.5);
    }

    /// By hand: 800 N, centre of mass 100 mm ahead of and 300 mm above the axle, rim 270 mm; on the level 800 x 0.1 / 0.27 =
    /// 296.3 N, facing up 10 degrees 800 (0.1 x 0.98481 - 0.3 x 0.17365) / 0.27 = 137.4 N.
    #[test]
    fn a_slope_helps_to_pull_it_over_backward() {
        let stand = Stand::of(800.0, 0.1, 0.6);
        assert!((held(&stand, 0.0, 0.27) - 296.3).abs() < 0.05);
        assert!((held(&stand, 10f64.to_radians(), 0.27) - 137.4).abs() < 0.1);
    }

    /// Carpet adds 0.0118 to the coefficient (Am J Phys Med Rehabil 2003;82(11):880-9): 20 N at 174 kg by hand.
    #[test]
    fn carpet_under_a_heavy_rider() {
        assert!((push_up(174.0 * G, 0.0, 0.0118) - 20.1).abs() < 0.1);
    }

    /// By hand: 2 degrees in one wheel make its factor 1 + 0.255 x 4 = 2.02, the other's is 1: 1.51 for both. Toed alike it is 2.02,
    /// and 2 degrees in one and 1 out in the other are (2.02 + 1.255) / 2 = 1.6375.
    #[test]
    fn toe_in_one_wheel_costs_half_of_it() {
        let both = |l: f64, r: f64| mean_drag(&[("toe.left", l.to_radians()), ("toe.right", r.to_radians())]);
        assert!((both(2.0, 0.0) - 1.51).abs() < 1e-12);
        assert!((both(2.0, 2.0) - 2.02).abs() < 1e-12);
        assert!((both(2.0, -1.0) - 1.6375).abs() < 1e-12);
        assert!((mean_drag(&[]) - 1.0).abs() < 1e-12);
    }

    /// RESNA 2016: 25.5 % more at 1 degree, a parabola; in or out alike.
    #[test]
    fn toe_costs_a_quarter_at_one_degree() {
        let at = |d: f64| toe_drag(d.to_radians());
        assert!((at(1.0).unwrap() - 1.255).abs() < 1e-12);
        assert!((at(-0.5).unwrap() - 1.06375).abs() < 1e-12);
        assert!(at(2.1).is_none());
        // beyond what was measured the push goes on along the curve: 1 + 0.255 x 9 = 3.295 at 3 degrees
        assert!((along_parabola(3f64.to_radians()) - 3.295).abs() < 1e-12);
    }
}
