//! Standing upright: centre of mass, load shares and the slopes that tip the chair.
//!
//! On a slope the plumb line from the centre of mass, seen on the chair's own ground, moves
//! downhill by h·tan θ. The chair begins to tip when it leaves the polygon of ground contacts:
//! tan θ = t / h, with t the distance to the polygon's edge in that direction. For an edge square to
//! the slope this is the textbook d / h.

use crate::Checked;
use crate::figure::Figures;
use crate::weigh::{Mass, weigh};
use chairwright_design::{Caster, Design, Vec3};
use chairwright_frame::{Frame, Group, Settled, caster_centre, lowest};
use chairwright_quantity::Dimension;

/// A point on the ground: forward and left, in metres.
type Point = (f64, f64);

const STATICS: &str =
    "rigid body statics: tan(slope) = distance to the tipping edge / height; not an ISO 7176-1 test";
const L: Dimension = Dimension::LENGTH;
const A: Dimension = Dimension::ANGLE;

/// Swivel steps for the worst case: 5 degrees, which misses the worst reach by under 0.1 % of trail.
const STEPS: u32 = 72;

/// Where a ray from a point leaves a polygon.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Exit {
    /// How far it is.
    pub distance: f64,
    /// Index of the contact at one end of the edge.
    pub from: usize,
    /// Index of the contact at its other end.
    pub to: usize,
}

/// How far a point on the ground can move in a unit direction before it leaves the smallest convex
/// outline around the contacts. `None` when it never meets it.
#[must_use]
pub fn exit_distance(point: Point, direction: Point, contacts: &[Point]) -> Option<Exit> {
    let (dx, dy) = direction;
    let mut best: Option<Exit> = None;
    for i in 0..contacts.len() {
        for j in i + 1..contacts.len() {
            let (ax, ay) = (contacts[i].0 - point.0, contacts[i].1 - point.1);
            let (ex, ey) = (contacts[j].0 - contacts[i].0, contacts[j].1 - contacts[i].1);
            let det = ex * dy - ey * dx;
            if det.abs() < 1e-15 {
                continue;
            }
            // a + s·e = t·d
            let s = (ay * dx - ax * dy) / det;
            if !(-1e-12..=1.0 + 1e-12).contains(&s) {
                continue;
            }
            let t = (ax + s * ex) * dx + (ay + s * ey) * dy;
            if best.is_none_or(|b| t > b.distance) {
                best = Some(Exit { distance: t, from: i, to: j });
            }
        }
    }
    best
}

/// The slope that tips a body whose edge is `distance` away and whose centre of mass is `height`
/// above the edge; a body whose centre of mass is not above the edge does not tip: 90 degrees.
#[must_use]
pub fn tip_angle(distance: f64, height: f64) -> f64 {
    if height <= 0.0 {
        return std::f64::consts::FRAC_PI_2;
    }
    libm::atan2(distance.max(0.0), height)
}

pub(crate) fn balance(
    design: &Design,
    frame: &Frame,
    settled: &Settled,
    chair: &Mass,
    total: &Mass,
    out: &mut Checked,
) {
    let figures = &mut out.figures;
    let empty = settled.pose.place(chair.centre);
    figures.put("com.chair.ahead", (empty.x, L), "centre of mass ahead of the rear axle line", STATICS, &[]);
    figures.put("com.chair.height", (empty.z, L), "centre of mass above the ground", STATICS, &[]);
    let Some(rider) = &out.rider else { return };
    let com = settled.pose.place(total.centre);
    figures.put("com.total.ahead", (com.x, L), "centre of mass ahead of the rear axle line", STATICS, &[]);
    figures.put("com.total.height", (com.z, L), "centre of mass above the ground", STATICS, &[]);
    figures.put("com.total.left", (com.y, L), "centre of mass left of the middle", STATICS, &[]);
    shares(settled, com, figures);
    let bodies = frame.bodies.iter().filter(|b| b.group != Group::Wheel).map(|b| (b.mass, b.centre));
    let sprung = weigh(bodies.chain(rider.segments.iter().map(|s| (s.mass, s.centre))));
    rear(design, settled, com, settled.pose.place(sprung.centre), figures);
    worst(design, settled, com, figures);
}

fn shares(settled: &Settled, com: Vec3, figures: &mut Figures) {
    let mean = |caster: bool| {
        let xs: Vec<f64> = settled.contacts.iter().filter(|c| c.caster == caster).map(|c| c.at.x).collect();
        #[allow(clippy::cast_precision_loss)]
        let n = xs.len() as f64;
        (!xs.is_empty()).then(|| xs.iter().sum::<f64>() / n)
    };
    let (Some(rear), Some(front)) = (mean(false), mean(true)) else { return };
    let share = (com.x - rear) / (front - rear);
    let inputs = [("com.total.ahead", com.x, L), ("wheelbase on the ground", front - rear, L)];
    let n = Dimension::NUMBER;
    figures.put(
        "load.caster.share",
        (share, n),
        "distance of the centre of mass ahead of the rear contacts / wheelbase",
        STATICS,
        &inputs,
    );
    figures.put("load.rear.share", (1.0 - share, n), "1 - load.caster.share", STATICS, &inputs);
}

fn rear(design: &Design, settled: &Settled, com: Vec3, sprung: Vec3, figures: &mut Figures) {
    let contacts: Vec<Point> = settled.contacts.iter().map(|c| (c.at.x, c.at.y)).collect();
    let locked = exit_distance((com.x, com.y), (-1.0, 0.0), &contacts).map_or(0.0, |e| e.distance);
    figures.put(
        "tip.rear.locked",
        (tip_angle(locked, com.z), A),
        "atan(distance to the rear contacts / height)",
        STATICS,
        &[("distance", locked, L), ("height", com.z, L)],
    );
    let axles: Vec<Vec3> = design.wheels.iter().map(|w| settled.pose.place(w.at)).collect();
    #[allow(clippy::cast_precision_loss)]
    let n = axles.len() as f64;
    let axle = axles.iter().fold(Vec3::ZERO, |s, a| s + *a) * (1.0 / n);
    let (ahead, above) = (sprung.x - axle.x, sprung.z - axle.z);
    figures.put(
        "tip.rear.free",
        (tip_angle(ahead, above), A),
        "atan(distance to the axle / height above the axle), for everything but the rear wheels",
        STATICS,
        &[("distance", ahead, L), ("height above axle", above, L)],
    );
}

/// Contact of a caster's wheel on the settled ground at a swivel. The change of pose while a leaning
/// stem swivels is left out: it is the rise that `stem-leans` reports.
fn caster_contact(caster: &Caster, settled: &Settled, swivel: f64) -> Point {
    let centre = settled.pose.place(caster_centre(caster, swivel));
    let ahead = settled.pose.place(caster_centre(caster, swivel + std::f64::consts::FRAC_PI_2));
    let pivot = settled.pose.place(caster.at - caster.stem * caster.drop);
    let axle = (ahead - pivot).unit().unwrap_or(Vec3::Y);
    let p = lowest(centre, axle, caster.radius, (caster.width / 2.0).min(caster.radius * 0.9), Vec3::Z);
    (p.x, p.y)
}

fn worst(design: &Design, settled: &Settled, com: Vec3, figures: &mut Figures) {
    let fixed: Vec<Point> = settled.contacts.iter().filter(|c| !c.caster).map(|c| (c.at.x, c.at.y)).collect();
    let sweep: Vec<Vec<Point>> = design
        .casters
        .iter()
        .map(|c| {
            (0..STEPS)
                .map(|k| caster_contact(c, settled, f64::from(k) * std::f64::consts::TAU / f64::from(STEPS)))
                .collect()
        })
        .collect();
    let directions = [("forward", (1.0, 0.0)), ("left", (0.0, 1.0)), ("right", (0.0, -1.0))];
    let mut least = [f64::INFINITY; 3];
    each_swivel(&fixed, &sweep, &mut |contacts| {
        for (slot, (_, d)) in least.iter_mut().zip(&directions) {
            let t = exit_distance((com.x, com.y), *d, contacts).map_or(0.0, |e| e.distance);
            *slot = slot.min(t);
        }
    });
    let axle = design.casters.iter().map(|c| c.radius).fold(f64::INFINITY, f64::min);
    let formula = "atan(distance to the edge of the contacts / height), casters in their worst swivel";
    let inputs = |t: f64| [("distance", t, L), ("height", com.z, L)];
    let angle = |t: f64| tip_angle(t, com.z);
    figures.put("tip.forward.locked", (angle(least[0]), A), formula, STATICS, &inputs(least[0]));
    if axle.is_finite() {
        figures.put(
            "tip.forward.free",
            (tip_angle(least[0], com.z - axle), A),
            "atan(distance to the caster axles / height above them), casters in their worst swivel",
            STATICS,
            &[("distance", least[0], L), ("height above axle", com.z - axle, L)],
        );
    }
    figures.put("tip.left", (angle(least[1]), A), formula, STATICS, &inputs(least[1]));
    figures.put("tip.right", (angle(least[2]), A), formula, STATICS, &inputs(least[2]));
    let side = least[1].min(least[2]);
    figures.put("tip.side", (angle(side), A), "the lesser of tip.left and tip.right", STATICS, &inputs(side));
}

/// Calls back with the contacts for every pair of swivels; with more than two casters they all
/// swivel together.
fn each_swivel(fixed: &[Point], sweep: &[Vec<Point>], visit: &mut dyn FnMut(&[Point])) {
    let mut contacts: Vec<Point> = fixed.to_vec();
    let start = contacts.len();
    contacts.extend(sweep.iter().map(|s| s[0]));
    match sweep {
        [a, b] => {
            for p in a {
                for q in b {
                    contacts[start] = *p;
                    contacts[start + 1] = *q;
                    visit(&contacts);
                }
            }
        }
        _ => {
            for k in 0..STEPS as usize {
                for (i, s) in sweep.iter().enumerate() {
                    contacts[start + i] = s[k];
                }
                visit(&contacts);
            }
        }
    }
}
