//! The chair that its rider has just left, or not yet sat down in: with what hangs on it may go over by itself, to any side.
//!
//! A tipping test of the built chair is made with sand in the seat. Where it tips like another chair than the plan's, the empty
//! chair is looked at twice: as planned, and with the difference laid on it alone. An anti-tip device that does its work with
//! the rider in the seat may let the empty chair go over it: backward that chair is looked at as it stands on the device.

use super::edge::Point;
use super::riding::Scene;
use super::swivel::{Stand, Turning};
use super::{A, L, Loading, STATICS, tip_angle};
use super::{antitip, built};
use crate::Checked;
use crate::problem::Problem;
use std::f64::consts::PI;

/// The slope that tips the empty chair in the worst of all directions, with locked wheels and whatever of what rides along
/// tips it soonest, and what the place makes of it.
pub(super) fn empty(scene: &Scene, out: &mut Checked) {
    // what rides on the lap goes with the rider; to the rear it may be left behind
    let left = Scene { lap: false, ..*scene };
    let (Some(all), Some(left)) = (Loads::new(scene), Loads::new(&left)) else { return };
    let back = all.over(|l| backward(scene, l));
    let round = left.over(|l| elsewhere(scene, l));
    let guarded = crate::layout::usual(scene.settled) && antitip::guards(scene.design, &out.problems);
    let device = all.over(|l| antitip::caught(scene, l).map(|stand| (stand, PI))).filter(|_| guarded);
    if let Some(least) = [&back, &round].into_iter().flatten().min_by(|a, b| a.angle().total_cmp(&b.angle())) {
        let formula = "atan(distance to the edge of the contacts / height) in the worst direction";
        put(out, "tip.empty", least, formula);
        let formula = "way down that tips the empty chair soonest, from ahead over the left";
        out.figures.put("direction.tip.empty", (least.soonest().toward, A), formula, STATICS, &[]);
    }
    if let Some(device) = &device {
        let formula = "atan(distance ahead of the anti-tip device's contact / height), chair turned back until it touches";
        put(out, "antitip.tip.empty", device, formula);
    }
    let caught = device.is_some();
    let first = device.or(back);
    let found = first.iter().filter_map(|fall| judge(scene, fall, caught));
    let found: Vec<Problem> = found.chain(round.iter().filter_map(|fall| judge(scene, fall, false))).collect();
    if scene.design.name.is_empty() {
        out.withheld += found.len();
    } else {
        out.problems.extend(found);
    }
}

/// How the chair goes over backward, over whatever edge is behind it.
fn backward(scene: &Scene, loading: &Loading) -> Option<(Stand, f64)> {
    let own = scene.contacts.toward(loading.total, behind);
    soonest(scene, loading, &[Some((-1.0, 0.0)), own]).filter(|_| !falls(scene, loading, |way| !behind(way)))
}

/// How it goes over in any other direction.
fn elsewhere(scene: &Scene, loading: &Loading) -> Option<(Stand, f64)> {
    let own = scene.contacts.toward(loading.total, |way| !behind(way));
    soonest(scene, loading, &[own]).filter(|_| !falls(scene, loading, behind))
}

/// Whether it goes over on the level already, and one of these ways: on no slope does it then go another way first.
fn falls(scene: &Scene, loading: &Loading, way: impl Fn(Point) -> bool) -> bool {
    !scene.contacts.stands(loading.total) && scene.contacts.toward(loading.total, |_| true).is_some_and(way)
}

/// Whether a way down is rather backward than to a side.
fn behind((ahead, left): Point) -> bool {
    ahead < -left.abs()
}

fn soonest(scene: &Scene, loading: &Loading, ways: &[Option<Point>]) -> Option<(Stand, f64)> {
    let of = |way: &Point| {
        let stand = scene.contacts.least(&[loading.total], &[*way], Turning::default());
        Some((*stand.first()?, libm::atan2(way.1, way.0)))
    };
    let all = ways.iter().flatten().filter_map(of);
    all.min_by(|a, b| tip_angle(a.0.0, a.0.1).total_cmp(&tip_angle(b.0.0, b.0.1)))
}

/// The empty chair in every way it may be loaded: by the plan, and with what a tipping test found laid on the chair.
struct Loads {
    planned: Vec<Loading>,
    moved: Vec<Loading>,
}

impl Loads {
    fn new(scene: &Scene) -> Option<Loads> {
        let planned = scene.loadings(&[]);
        let chair = planned.first()?.total.mass;
        let tested = built::of_the_chair(scene.shifts, scene.tested / chair);
        let moved = tested.iter().flat_map(|by| planned.iter().map(|l| l.shifted(*by, chair, false))).collect();
        Some(Loads { planned, moved })
    }

    /// The loading that goes over soonest, by where it stands and which way it goes.
    fn over(&self, stand: impl Fn(&Loading) -> Option<(Stand, f64)>) -> Option<Fall<'_>> {
        let plan = least(&self.planned, &stand)?;
        let doubted = least(&self.moved, &stand).filter(|s| s.angle() < plan.angle());
        Some(Fall { plan, doubted })
    }
}

fn least<'l>(all: &'l [Loading], stand: &impl Fn(&Loading) -> Option<(Stand, f64)>) -> Option<Soonest<'l>> {
    let each = all.iter().filter_map(|loading| {
        let (from, toward) = stand(loading)?;
        Some(Soonest { loading, from, toward })
    });
    each.min_by(|a, b| a.angle().total_cmp(&b.angle()))
}

/// One way to go over: by the plan, and where a tipping test leaves open that it is sooner.
struct Fall<'l> {
    plan: Soonest<'l>,
    doubted: Option<Soonest<'l>>,
}

/// The loading that tips soonest.
struct Soonest<'l> {
    loading: &'l Loading,
    /// Distance to the edge and height.
    from: Stand,
    /// The way down, from ahead over the left.
    toward: f64,
}

impl Soonest<'_> {
    fn angle(&self) -> f64 {
        tip_angle(self.from.0, self.from.1)
    }
}

impl Fall<'_> {
    fn soonest(&self) -> &Soonest<'_> {
        self.doubted.as_ref().unwrap_or(&self.plan)
    }

    fn angle(&self) -> f64 {
        self.soonest().angle()
    }
}

fn put(out: &mut Checked, figure: &str, fall: &Fall, formula: &str) {
    let least = fall.soonest();
    let words = least.loading.words();
    let laid = if fall.doubted.is_some() { ", what the tipping test found laid on the chair" } else { "" };
    let formula = format!("{formula}, nobody in the seat{words}{laid}");
    let inputs = [("distance", least.from.0, L), ("height", least.from.1, L)];
    out.figures.put(figure, (least.angle(), A), formula, STATICS, &inputs);
}

/// What the place makes of it.
fn judge(scene: &Scene, fall: &Fall, device: bool) -> Option<Problem> {
    let slope = crate::roll::steepest(scene.design);
    if fall.angle() > slope {
        return None;
    }
    // what the plan alone says is told as such
    let stands = fall.plan.angle() > slope;
    let told = if stands { fall.soonest() } else { &fall.plan };
    Some(Problem::EmptyTips {
        with: told.loading.with.clone(),
        origin: told.loading.origin.or(scene.design.wheels.first().map(|w| w.origin)),
        toward: told.toward,
        device,
        has: told.angle(),
        slope,
        planned: stands.then(|| fall.plan.angle()),
    })
}
