//! Slopes that tip the chair while the rider leans out of it.

use super::riding::Scene;
use super::swivel::Turning;
use super::{A, L, Loading, STATICS, moved, put_least, tip_angle};
use crate::Checked;
use crate::assumed::Assumed;
use crate::body::RiderBody;
use crate::problem::Problem;
use crate::weigh::Mass;
use chairwright_design::{Design, Side, Vec3};
use std::f64::consts::PI;

const DEGREE: f64 = PI / 180.0;
/// How far a rider leans where nobody says: reaching for the feet, over the back support, and for something beside the
/// wheel. Common practice, no source.
const USUAL: [(&str, f64); 3] =
    [("lean_forward", 30.0 * DEGREE), ("lean_back", 10.0 * DEGREE), ("lean_side", 15.0 * DEGREE)];

/// One way to lean: the measure, its side where it has one, the axis of the turn, the way down, and the figures.
struct Way {
    measure: &'static str,
    side: Option<Side>,
    axis: Vec3,
    down: (f64, f64),
    figure: &'static str,
}

/// With the trunk upright along z, turning about +y brings the head forward, about +x to the right.
const WAYS: [Way; 4] = [
    Way {
        measure: "lean_forward",
        side: None,
        axis: Vec3::Y,
        down: (1.0, 0.0),
        figure: "tip.forward.locked.leaning",
    },
    Way {
        measure: "lean_back",
        side: None,
        axis: Vec3 { x: 0.0, y: -1.0, z: 0.0 },
        down: (-1.0, 0.0),
        figure: "tip.rear.locked.leaning",
    },
    Way {
        measure: "lean_side",
        side: Some(Side::Left),
        axis: Vec3 { x: -1.0, y: 0.0, z: 0.0 },
        down: (0.0, 1.0),
        figure: "tip.left.leaning",
    },
    Way {
        measure: "lean_side",
        side: Some(Side::Right),
        axis: Vec3::X,
        down: (0.0, -1.0),
        figure: "tip.right.leaning",
    },
];

impl Way {
    /// How far the rider is said to lean this way; what is said of one side says nothing of the other.
    fn said(&self, design: &Design) -> Option<f64> {
        match self.side {
            Some(side) => design.rider.sided(self.measure, side),
            None => design.rider.get(self.measure),
        }
    }

    /// How far the rider leans this way, in radians.
    fn far(&self, design: &Design) -> f64 {
        let usual = USUAL.iter().find(|(n, _)| *n == self.measure).map_or(0.0, |(_, a)| *a);
        self.said(design).unwrap_or(usual)
    }

    /// The measure, with its side where the sides are given apart.
    fn name(&self, design: &Design) -> String {
        let own = |s: Side| format!("{}.{}", self.measure, s.word());
        let apart = [Side::Left, Side::Right].iter().any(|s| design.rider.get(&own(*s)).is_some());
        self.side.filter(|_| apart).map_or_else(|| self.measure.to_owned(), own)
    }
}

/// How far the rider leans forward or to a side, whichever is further, in radians.
pub(crate) fn furthest(design: &Design) -> f64 {
    let ways = WAYS.iter().filter(|w| w.measure != "lean_back");
    ways.map(|w| w.far(design)).fold(0.0, f64::max)
}

/// The chair with its rider leaning over the back support, in every way it may be loaded.
pub(super) fn back(scene: &Scene, rider: &RiderBody) -> Vec<Loading> {
    leant(scene, rider, &WAYS[1])
}

/// The chair with its rider leaning in each of four ways, in every way it may be loaded.
pub(super) fn every_way(scene: &Scene, rider: &RiderBody) -> Vec<Loading> {
    WAYS.iter().flat_map(|way| leant(scene, rider, way)).collect()
}

fn leant(scene: &Scene, rider: &RiderBody, way: &Way) -> Vec<Loading> {
    let lean = way.far(scene.design);
    moved(&scene.loadings(&rider.leaning(way.axis, lean)), scene, false)
}

pub(super) fn leaning(scene: &Scene, out: &mut Checked) {
    let Some(rider) = &out.rider else { return };
    let (design, contacts) = (scene.design, scene.contacts);
    let mut all: Vec<(&Way, Vec<Mass>)> = Vec::new();
    for way in &WAYS {
        let lean = way.far(design);
        let loadings = leant(scene, rider, way);
        let formula =
            "atan(distance to the edge of the contacts / height), head, arms and trunk turned about the hips";
        put_least(way.figure, formula, &loadings, &mut out.figures, |l| contacts.worst(l.total, way.down));
        if way.measure == "lean_back" && crate::layout::usual(scene.settled) {
            let formula =
                "atan(distance to the axle / height above it), head, arms and trunk turned about the hips";
            put_least("tip.rear.free.leaning", formula, &loadings, &mut out.figures, |l| {
                let from = contacts.nosed(l.sprung.centre - scene.axles.at(l.sprung.centre.y));
                (from.x, from.z)
            });
        }
        let has = out.figures.si(way.figure).unwrap_or(0.0);
        match judge(design, way, lean, has) {
            Some(_) if design.name.is_empty() => out.withheld += 1,
            found => out.problems.extend(found),
        }
        all.push((way, loadings.iter().map(|l| l.total).collect()));
    }
    crosswise(scene, &all, out);
    let mut assumed: Vec<(String, f64)> =
        WAYS.iter().filter(|w| w.said(design).is_none()).map(|w| (w.name(design), w.far(design))).collect();
    assumed.sort_by(|a, b| a.0.cmp(&b.0));
    assumed.dedup();
    out.assumptions.extend(assumed.into_iter().map(|(m, a)| Assumed::UsualReach(m, a)));
}

/// Leaning must not tip the chair on the slopes that the path has.
fn judge(design: &Design, way: &Way, lean: f64, has: f64) -> Option<Problem> {
    // whoever leans forward or back may do it facing down the cross slope too
    let across = crate::roll::place(design, "cross_slope").map_or(0.0, f64::abs);
    let slope = if way.measure == "lean_side" { across } else { crate::roll::steepest(design) };
    (has <= slope).then(|| Problem::TipsLeaning {
        figure: way.figure,
        measure: way.name(design),
        lean,
        has,
        slope,
        origin: design.rider.origin,
    })
}

/// Ahead and back, or to either side.
const ALONG: [(f64, f64); 2] = [(1.0, 0.0), (-1.0, 0.0)];
const ACROSS: [(f64, f64); 2] = [(0.0, 1.0), (0.0, -1.0)];

/// A lean as it bears on a slope that is not straight below it: whoever goes along a cross slope leans forward there too, and
/// whoever goes up or down a ramp leans aside on it. And the least slope of all, whichever way it falls.
fn crosswise(scene: &Scene, all: &[(&Way, Vec<Mass>)], out: &mut Checked) {
    let aside = |way: &Way| way.measure == "lean_side";
    let of = |wanted: bool| all.iter().filter(move |(way, _)| aside(way) == wanted);
    // what goes over on the level already goes its own way, and is told as that
    let standing = |loads: &[Mass]| -> Vec<Mass> {
        loads.iter().copied().filter(|load| scene.contacts.stands(*load)).collect()
    };
    let across = of(false).filter_map(|(way, coms)| fall(scene, &standing(coms), &ACROSS).map(|f| (*way, f)));
    let along = of(true).filter_map(|(way, coms)| fall(scene, &standing(coms), &ALONG).map(|f| (*way, f)));
    let worst = all.iter().filter_map(|(way, coms)| {
        let downs: Vec<(f64, f64)> =
            coms.iter().filter_map(|com| scene.contacts.toward(*com, |_| true)).collect();
        fall(scene, coms, &downs).map(|f| (*way, f))
    });
    let (across, along, worst) = (least(across), least(along), least(worst));
    let turned = "head, arms and trunk turned about the hips";
    for (figure, found, which) in [
        ("tip.across.leaning", &across, "to either side, the rider leaning forward or back"),
        ("tip.along.leaning", &along, "ahead or back, the rider leaning to a side"),
        ("tip.any.leaning", &worst, "in the worst direction, the rider leaning any way"),
    ] {
        let Some((_, (t, h))) = found else { continue };
        let formula = format!("atan(distance to the edge of the contacts / height) {which}, {turned}");
        let inputs = [("distance", *t, L), ("height", *h, L)];
        out.figures.put(figure, (tip_angle(*t, *h), A), formula, STATICS, &inputs);
    }
    let said = |key: &str| crate::roll::place(scene.design, key).map_or(0.0, f64::abs);
    let upright =
        |figures: &[&str]| figures.iter().filter_map(|f| out.figures.si(f)).fold(f64::INFINITY, f64::min);
    let told = |aside: bool| {
        let of = |p: &Problem| matches!(p, Problem::TipsLeaning { measure, .. } if measure.starts_with("lean_side") == aside);
        out.problems.iter().any(of)
    };
    let mut found = Vec::new();
    for (figure, fall, slope, bears, told) in [
        ("tip.across.leaning", across, said("cross_slope"), upright(&["tip.side"]), told(true)),
        (
            "tip.along.leaning",
            along,
            said("slope"),
            upright(&["tip.rear.locked", "tip.forward.locked"]),
            told(false),
        ),
    ] {
        let Some((way, (t, h))) = fall else { continue };
        let has = tip_angle(t, h);
        // what tips it upright already, or leaning straight that way, is told as that
        if has > slope || slope <= 0.0 || bears <= slope || told {
            continue;
        }
        let (measure, lean) = (way.name(scene.design), way.far(scene.design));
        let origin = scene.design.rider.origin;
        found.push(Problem::TipsLeaning { figure, measure, lean, has, slope, origin });
    }
    if scene.design.name.is_empty() {
        out.withheld += found.len();
    } else {
        out.problems.extend(found);
    }
}

/// How the chair stands in the loading and direction in which it tips soonest.
fn fall(scene: &Scene, coms: &[Mass], downs: &[(f64, f64)]) -> Option<(f64, f64)> {
    if coms.is_empty() {
        return None;
    }
    let stands = scene.contacts.least(coms, downs, Turning::default());
    stands.into_iter().min_by(|a, b| tip_angle(a.0, a.1).total_cmp(&tip_angle(b.0, b.1)))
}

fn least<'w>(found: impl Iterator<Item = (&'w Way, (f64, f64))>) -> Option<(&'w Way, (f64, f64))> {
    found.min_by(|(_, a), (_, b)| tip_angle(a.0, a.1).total_cmp(&tip_angle(b.0, b.1)))
}
