//! Where the weight acts and which slope tips the chair.
//!
//! On a slope gravity turns against the chair. The chair tips when the line of gravity through the
//! centre of mass leaves the outline of the ground contacts: the slope angle is atan(t / h), t the
//! distance from the foot of the centre of mass to the edge, measured straight downhill, h its
//! height. For a centre of mass in line with the slope this is the textbook d / h.
//!
//! What rides along (a bag, a child on the lap) may be there or not: each slope is the least of the chair without it and
//! with whichever of it tips the chair soonest ([`riding`]).

mod antitip;
mod axles;
mod built;
mod curves;
mod edge;
mod empty;
mod known;
mod lean;
mod riding;
mod rim;
mod swivel;

pub(crate) use antitip::guards;

pub use built::{Compared, invert, is_reading};
pub(crate) use built::{brakes as measured_brakes, measured};
pub use curves::{Curve, curves};
pub use edge::{Exit, exit_distance, tip_angle};
pub(crate) use lean::furthest;
pub(crate) use riding::rides;

use crate::Checked;
use crate::assumed::Assumed;
use crate::figure::Figures;
use crate::weigh::Mass;
use axles::Axles;
use chairwright_design::{Design, Origin, Vec3};
use chairwright_frame::{Frame, Settled};
use chairwright_quantity::Dimension;
use riding::Scene;
use swivel::{Contacts, Span};

pub(crate) const STATICS: &str =
    "rigid body statics: tan(slope) = distance to the tipping edge / height; not an ISO 7176-1 test";
pub(crate) const L: Dimension = Dimension::LENGTH;
pub(crate) const A: Dimension = Dimension::ANGLE;
/// Directions of the curve over the slope's direction: every 5 degrees.
pub const CURVE: usize = 72;

/// Chair, rider and some of what rides along, in the settled pose.
struct Loading {
    /// What rides along, in words; empty for nothing.
    with: String,
    /// Where the first of it stands in the text.
    origin: Option<Origin>,
    /// Whether its slopes have names of their own.
    named: bool,
    /// Everything.
    total: Mass,
    /// Everything but the rear wheels.
    sprung: Mass,
}

impl Loading {
    /// The same with the centre of mass of chair and rider, of this mass, moved; what rides along stays.
    fn shifted(&self, by: Vec3, mass: f64, named: bool) -> Loading {
        let moved = |m: Mass| Mass { centre: m.centre + by * (mass / m.mass), ..m };
        let with = self.with.clone();
        Loading { with, origin: self.origin, named, total: moved(self.total), sprung: moved(self.sprung) }
    }

    fn words(&self) -> String {
        if self.with.is_empty() { String::new() } else { format!(", with {}", self.with) }
    }
}

pub(crate) fn balance(design: &Design, frame: &Frame, settled: &Settled, chair: &Mass, out: &mut Checked) {
    let empty = settled.pose.place(chair.centre);
    let figures = &mut out.figures;
    figures.put("com.chair.ahead", (empty.x, L), "centre of mass ahead of the rear axle line", STATICS, &[]);
    figures.put("com.chair.height", (empty.z, L), "centre of mass above the ground", STATICS, &[]);
    let Some(rider) = &out.rider else { return };
    let segments: Vec<(f64, Vec3)> = rider.segments.iter().map(|s| (s.mass, s.centre)).collect();
    let (flesh, worn) = (rider.flesh(), riding::worn(design, rider));
    let (alone, _) = riding::alone(frame, settled, &segments);
    let axles = Axles::new(design, settled);
    let axle = axles.at(alone.centre.y);
    // the built chair's own tipping test corrects the plan; each slope is the least that its tolerances leave open
    let shifts = built::corrections(design, settled, alone.centre, axle, out);
    // the plan that is kept beside a test that nobody believes is none of its readings
    let tested: Vec<Vec3> = shifts.iter().copied().filter(|by| by.norm() > 0.0).collect();
    built::scales_against_tilt(design, settled, (alone.centre, &tested), out);
    let mut shifts = if shifts.is_empty() { vec![Vec3::ZERO] } else { shifts };
    let contacts = Contacts::new(design, settled);
    let now = alone.centre + shifts[0];
    let tilted = Mass { centre: now, ..alone };
    let aside = built::aside((design, settled), now, |way| contacts.worst(tilted, way));
    shifts.extend(aside.into_iter().map(|by| by + shifts[0]).collect::<Vec<_>>());
    if crate::tested::readings(design).is_some() {
        out.shifts.clone_from(&shifts);
    }
    let tested = alone.mass;
    let (contacts, axles) = (&contacts, &axles);
    let scene =
        Scene { design, frame, settled, contacts, axles, lap: true, worn: &worn, shifts: &shifts, tested };
    let loadings = moved(&scene.loadings(&flesh), &scene, true);
    let Some(all) = loadings.last() else { return };
    out.loadings = moved(&scene.every(&flesh), &scene, true).into_iter().map(|l| (l.with, l.total)).collect();
    if scene.many() > riding::EVERY {
        out.assumptions.push(Assumed::ManyRide(scene.many()));
    }
    let figures = &mut out.figures;
    let com = all.total.centre;
    figures.put("com.total.ahead", (com.x, L), "centre of mass ahead of the rear axle line", STATICS, &[]);
    figures.put("com.total.height", (com.z, L), "centre of mass above the ground", STATICS, &[]);
    figures.put("com.total.left", (com.y, L), "centre of mass left of the middle", STATICS, &[]);
    shares(settled, com, figures);
    rear(&scene, &loadings, figures);
    around(&scene, &loadings, figures);
    curve(contacts, &loadings, out);
    lean::leaning(&scene, out);
    if crate::layout::usual(settled) {
        antitip::anti_tip(&scene, &loadings, out);
    }
    empty::empty(&scene, out);
}

/// The loadings moved by each of several shifts of chair and rider, the first shift last; only that one may have slopes with
/// names of their own.
fn moved(planned: &[Loading], scene: &Scene, named: bool) -> Vec<Loading> {
    let (shifts, mass) = (scene.shifts, scene.tested);
    let by = |i: usize, named: bool| planned.iter().map(move |l| l.shifted(shifts[i], mass, named));
    (1..shifts.len()).flat_map(|i| by(i, false)).chain(by(0, named)).collect()
}

fn shares(settled: &Settled, com: Vec3, figures: &mut Figures) {
    let mean = |caster: bool| {
        let xs: Vec<f64> = settled.contacts.iter().filter(|c| c.caster == caster).map(|c| c.at.x).collect();
        #[allow(clippy::cast_precision_loss)]
        let n = xs.len() as f64;
        (!xs.is_empty()).then(|| xs.iter().sum::<f64>() / n)
    };
    let (Some(rear), Some(front)) = (mean(false), mean(true)) else { return };
    if !crate::layout::usual(settled) {
        return;
    }
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

/// Puts the least of a slope over all loadings, and each loading's own where there are several.
fn put_least(
    name: &str,
    formula: &str,
    loadings: &[Loading],
    figures: &mut Figures,
    distance: impl Fn(&Loading) -> (f64, f64),
) {
    let mut least: Option<(f64, &Loading, (f64, f64))> = None;
    for loading in loadings {
        let (t, h) = distance(loading);
        let angle = tip_angle(t, h);
        if least.as_ref().is_none_or(|(a, ..)| angle < *a) {
            least = Some((angle, loading, (t, h)));
        }
        if loading.named && loadings.iter().any(|l| !l.with.is_empty()) {
            let inputs = [("distance", t, L), ("height", h, L)];
            let own = if loading.with.is_empty() {
                format!("{name}.alone")
            } else if loading.with.contains(' ') {
                continue; // several together have no name
            } else {
                format!("{name}.with.{}", loading.with)
            };
            figures.put(own, (angle, A), formula, STATICS, &inputs);
        }
    }
    let Some((angle, loading, (t, h))) = least else { return };
    let inputs = [("distance", t, L), ("height", h, L)];
    figures.put(name, (angle, A), format!("{formula}{}", loading.words()), STATICS, &inputs);
}

fn rear(scene: &Scene, loadings: &[Loading], figures: &mut Figures) {
    let contacts = scene.contacts;
    let formula =
        "atan(distance to the rear contacts / height), casters in the swivel that lifts the nose most";
    put_least("tip.rear.locked", formula, loadings, figures, |l| contacts.worst(l.total, (-1.0, 0.0)));
    if !crate::layout::usual(scene.settled) {
        return;
    }
    let formula = "atan(distance to the axle / height above it), for everything but the rear wheels, casters in the swivel \
                   that lifts the nose most";
    put_least("tip.rear.free", formula, loadings, figures, |l| {
        let from = contacts.nosed(l.sprung.centre - scene.axles.at(l.sprung.centre.y));
        (from.x, from.z)
    });
}

fn around(scene: &Scene, loadings: &[Loading], figures: &mut Figures) {
    let contacts = scene.contacts;
    let spans: Vec<[Span; 3]> = loadings
        .iter()
        .map(|l| [(1.0, 0.0), (0.0, 1.0), (0.0, -1.0)].map(|d| contacts.span(l.total, d)))
        .collect();
    let of = |l: &Loading| loadings.iter().position(|x| std::ptr::eq(x, l)).unwrap_or(0);
    let mut both = |name: &str, formula: &str, direction: usize, axle: f64| {
        let worst = format!("{formula}, casters in their worst swivel");
        put_least(name, &worst, loadings, figures, |l| {
            let (t, h) = spans[of(l)][direction].least;
            (t, h - axle)
        });
        let best = format!("{formula}, casters in their best swivel");
        let most = spans.iter().map(|s| s[direction].most).map(|(t, h)| (t, h - axle));
        if let Some((t, h)) = most.min_by(|a, b| tip_angle(a.0, a.1).total_cmp(&tip_angle(b.0, b.1))) {
            let inputs = [("distance", t, L), ("height", h, L)];
            figures.put(format!("{name}.most"), (tip_angle(t, h), A), best, STATICS, &inputs);
        }
    };
    let edge = "atan(distance to the edge of the contacts / height)";
    both("tip.forward.locked", edge, 0, 0.0);
    if let Some(axle) = crate::layout::front_radius(scene.design, scene.settled) {
        // over a line to a wheel of another kind nothing rolls along
        let free = if axle > 0.0 { "atan(distance to the foremost axles / height above them)" } else { edge };
        both("tip.forward.free", free, 0, axle);
    }
    both("tip.left", edge, 1, 0.0);
    both("tip.right", edge, 2, 0.0);
    for end in ["", ".most"] {
        let side = ["tip.left", "tip.right"].map(|n| figures.si(&format!("{n}{end}")).unwrap_or(0.0));
        let formula = "the lesser of the two sides";
        let inputs = [("tip.left", side[0], A), ("tip.right", side[1], A)];
        figures.put(format!("tip.side{end}"), (side[0].min(side[1]), A), formula, STATICS, &inputs);
    }
}

/// The unit directions of the curve, from straight ahead over the left.
fn directions() -> Vec<edge::Point> {
    #[allow(clippy::cast_precision_loss)]
    let angle = |k: usize| k as f64 * std::f64::consts::TAU / CURVE as f64;
    (0..CURVE).map(|k| (libm::cos(angle(k)), libm::sin(angle(k)))).collect()
}

/// The slope that tips the chair by the way down, wheels locked and casters in their worst swivel: one for each of
/// [`CURVE`] directions, from straight ahead over the left, each the least of all loadings.
fn curve(contacts: &Contacts, loadings: &[Loading], out: &mut Checked) {
    let directions = directions();
    let loads: Vec<Mass> = loadings.iter().map(|l| l.total).collect();
    let stands = contacts.least(&loads, &directions, swivel::Turning::default());
    let least: Vec<(f64, f64, f64)> = stands.into_iter().map(|(t, h)| (tip_angle(t, h), t, h)).collect();
    out.curve = least.iter().map(|l| l.0).collect();
    let Some((k, (angle, t, h))) = least.iter().enumerate().min_by(|a, b| a.1.0.total_cmp(&b.1.0)) else {
        return;
    };
    #[allow(clippy::cast_precision_loss)]
    let toward = k as f64 * std::f64::consts::TAU / CURVE as f64;
    let inputs = [("distance", *t, L), ("height", *h, L), ("way down, from ahead over the left", toward, A)];
    let formula =
        "atan(distance to the edge of the contacts / height), the least of all directions by 5 degrees";
    out.figures.put("tip.any", (*angle, A), formula, STATICS, &inputs);
    let formula = "way down that tips it soonest, from ahead over the left";
    out.figures.put("direction.tip.any", (toward, A), formula, STATICS, &[]);
}
