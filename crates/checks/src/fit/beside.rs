//! What of the chair stands beside the rider's knees, ribs and armpits, and what lies on the thighs.
//!
//! A box as wide as the body is laid where the body is; the chair's parts are exact convex bodies, so that a slanted tube beside
//! the box is not taken for one inside it.

use super::{BODY, L, hips};
use crate::Checked;
use crate::RiderBody;
use crate::body::support;
use crate::clear::{Convex, Form, convex, gap};
use crate::problem::{Pressed, Problem};
use crate::room::thigh;
use chairwright_design::{Design, ItemKind, Side, Support, SupportKind, Vec3};
use chairwright_frame::{Body, Frame, Group};

/// The knees from front to back, half of it. Common practice, no source.
const KNEE: f64 = 0.050;
/// Nothing this near above the cushion is beside anything: it gives way so far. Common practice, no source.
pub(super) const ABOVE: f64 = 0.010;
/// Wider than any body that is measured here.
const WIDE: f64 = 0.500;
/// The trunk from the back support to the front of the armpit. Common practice, no source.
const TRUNK: (f64, f64) = (0.060, 0.200);
/// An arm beyond the middle of its shoulder, half of an upper arm: what stands under that lifts the arm as well. Common practice, no
/// source.
const ARM: f64 = 0.050;
/// Half of a length is tried so often: to a tenth of a millimetre.
const HALVINGS: u32 = 13;

/// Figures about the parts beside the body, and what presses on it.
pub(super) fn beside(design: &Design, frame: &Frame, body: &RiderBody, seat: &Support, out: &mut Checked) {
    let all: Vec<(&Body, Convex)> = parts(design, frame).collect();
    chest(design, out);
    hips::hips(design, (&all, body), seat, out);
    knees(design, (&all, body), seat, out);
    lap(design, body, seat, out);
    armpits(design, (&all, body), out);
}

/// The back support beside the chest.
fn chest(design: &Design, out: &mut Checked) {
    let (Some(chest), Some(back)) = (design.rider.get("chest_width"), support(design, SupportKind::Back))
    else {
        return;
    };
    let ease = back.width - chest;
    let inputs = [("width of the back support", back.width, L), ("rider.chest_width", chest, L)];
    let formula = "width of the back support - rider.chest_width";
    out.figures.put("fit.back.ease", (ease, L), formula, BODY, &inputs);
    if ease < -1e-6 {
        let pressed = Pressed::Chest { back: back.width, chest };
        out.problems.push(Problem::Pressed { pressed, origin: back.origin });
    }
}

/// A box in the drawing, from its middle and its half edges.
pub(super) fn brick(middle: Vec3, edges: [Vec3; 3]) -> Convex {
    let radius = (edges[0] + edges[1] + edges[2]).norm();
    Convex { form: Form::Brick(edges), skin: 0.0, middle, radius }
}

fn meets(a: &Convex, b: &Convex) -> bool {
    (a.middle - b.middle).norm() <= a.radius + b.radius && gap(a, b, 1e-6).size < 0.0
}

/// Parts that may stand beside the rider: neither what carries the rider from below and behind, nor what gives way.
fn parts<'f>(design: &Design, frame: &'f Frame) -> impl Iterator<Item = (&'f Body, Convex)> {
    let soft: Vec<String> = design
        .supports
        .iter()
        .filter(|s| matches!(s.kind, SupportKind::Seat | SupportKind::Back))
        .map(|s| s.name.clone())
        .collect();
    let rider_sits = move |b: &&Body| {
        let own =
            |n: &String| b.name.strip_prefix(n.as_str()).is_some_and(|r| r.is_empty() || r.starts_with('.'));
        !soft.iter().any(own) && b.group != Group::Caster
    };
    let all = frame.bodies.iter().filter(rider_sits);
    all.flat_map(|b| b.solids.iter().flat_map(convex).map(move |c| (b, c)))
}

/// The greatest share of a length from 0 to 1 that `free` allows, where what is free at one share is so at all lesser ones.
fn greatest(free: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if free(middle) { low = middle } else { high = middle }
    }
    low
}

/// The nearest part on a side, of those within `wide` of the middle, and how far it is from there; `room` is a box beside the body so
/// far out.
pub(super) fn nearest<'f: 'a, 'a>(
    all: impl Iterator<Item = &'a (&'f Body, Convex)>,
    wide: f64,
    room: impl Fn(f64) -> Convex,
) -> Option<(f64, &'f str)> {
    let whole = room(wide);
    let near = all.filter(|(_, c)| meets(&whole, c));
    let out = near.map(|(b, c)| (wide * greatest(|share| !meets(&room(wide * share), c)), b.name.as_str()));
    out.min_by(|a, b| a.0.total_cmp(&b.0))
}

/// How thick the thicker thigh is, less what of it a cushion gives way: where nobody measured it, the hip joint lies in its middle.
pub(super) fn thick(design: &Design, body: &RiderBody) -> f64 {
    let (surface, normal) = body.seat;
    let measured = [Side::Left, Side::Right].map(|s| design.rider.sided("thigh_thickness", s));
    measured.into_iter().flatten().reduce(f64::max).unwrap_or(2.0 * (body.hip - surface).dot(normal)) - ABOVE
}

/// The clear width at the knees: twice that of the narrower side, for the hips sit in the middle.
fn knees(design: &Design, (all, body): (&[(&Body, Convex)], &RiderBody), seat: &Support, out: &mut Checked) {
    let Some(wants) = design.rider.get("knee_width") else { return };
    let Some(leg) = body.legs.iter().find(|l| l.end.left()[1] > 0.0 || l.prosthesis) else { return };
    let (surface, normal) = body.seat;
    let thick = thick(design, body);
    let ahead = (leg.knee - surface).dot(body.along);
    let middle = surface + body.along * ahead + normal * (ABOVE + thick / 2.0);
    let room = |side: Side, half: f64| {
        let y = Vec3::Y * (half / 2.0);
        brick(middle + y * side.sign(), [body.along * KNEE, y, normal * (thick / 2.0)])
    };
    let sides = [Side::Left, Side::Right].map(|side| nearest(all.iter(), WIDE, |half| room(side, half)));
    let least = sides.into_iter().flatten().min_by(|a, b| a.0.total_cmp(&b.0));
    let Some((half, name)) = least else { return };
    let inputs = [("rider.knee_width", wants, L)];
    let formula = format!(
        "twice from the middle of the chair to the nearest part beside the knees ({name}), less rider.knee_width"
    );
    out.figures.put("fit.knee.room", (2.0 * half - wants, L), formula, BODY, &inputs);
    if 2.0 * half < wants {
        let pressed = Pressed::Knees { part: name.to_owned(), clear: 2.0 * half, knees: wants };
        out.problems.push(Problem::Pressed { pressed, origin: seat.origin });
    }
}

/// Trays and bags over the thighs, as their outside boxes are drawn.
fn lap(design: &Design, body: &RiderBody, seat: &Support, out: &mut Checked) {
    let Some(thigh) = thigh(design, Some(body)) else { return };
    let (surface, normal) = body.seat;
    // of a thigh that ends early only what is left lies there
    let ends = body.legs.iter().map(|l| (l.knee - surface).dot(body.along) * l.end.left()[0]);
    let knees = ends.fold(0.0, f64::max);
    for item in design.items.iter().filter(|i| i.kind == ItemKind::Bag && i.size.norm() > 0.0) {
        let off = item.at - surface;
        let half = |d: Vec3| {
            (d.x * item.size.x).abs() / 2.0 + (d.y * item.size.y).abs() / 2.0 + (d.z * item.size.z).abs() / 2.0
        };
        let (ahead, reach) = (off.dot(body.along), half(body.along));
        let over =
            ahead + reach > 0.0 && ahead - reach < knees && off.y.abs() - half(Vec3::Y) < seat.width / 2.0;
        let clear = off.dot(normal) - half(normal);
        // what hangs under the seat lies on no thigh
        if over && off.dot(normal) > 0.0 && clear < thigh - 1e-6 {
            let pressed = Pressed::Thighs { part: item.name.clone(), clear: clear.max(0.0), thigh };
            out.problems.push(Problem::Pressed { pressed, origin: item.origin });
        }
    }
}

/// How high the parts beside the trunk go under the arms.
fn armpits(design: &Design, (all, body): (&[(&Body, Convex)], &RiderBody), out: &mut Checked) {
    let rider = &design.rider;
    let Some(stature) = rider.get("stature") else { return };
    let (surface, normal) = body.seat;
    let Some(back) = support(design, SupportKind::Back) else { return };
    let Some(ahead) = Vec3::Y.cross(body.up).unit() else { return };
    let half = crate::body::half_shoulders(rider, stature) + ARM;
    let depth = (TRUNK.1 - TRUNK.0) / 2.0;
    let start = back.from + ahead * (TRUNK.0 + depth);
    // along the trunk, by heights square to the seat
    let foot = start + body.up * ((surface - start).dot(normal) / body.up.dot(normal).max(0.2));
    let box_from = |side: Side, from: f64| {
        let tall = (1.0 - from) / 2.0;
        let middle = foot + body.up * (from + tall) + Vec3::Y * (side.sign() * half / 2.0);
        brick(middle, [ahead * depth, Vec3::Y * (half / 2.0), body.up * tall])
    };
    // arm supports may have a rule of their own, and no wheel is a side support
    let ruled = design.fit_rules.as_ref().is_some_and(|f| f.rules.contains_key("arm_above_elbow"));
    let arm =
        |b: &Body| ruled && design.supports.iter().any(|s| s.kind == SupportKind::Arm && b.name == s.name);
    let all: Vec<&(&Body, Convex)> = all.iter().filter(|(b, _)| b.group != Group::Wheel && !arm(b)).collect();
    for side in [Side::Left, Side::Right] {
        let mut top: Option<(f64, &str)> = None;
        for (b, c) in all.iter().filter(|(_, c)| meets(&box_from(side, 0.05), c)) {
            let high = 0.05 + 0.95 * (1.0 - greatest(|share| !meets(&box_from(side, 1.0 - 0.95 * share), c)));
            if top.is_none_or(|(t, _)| high > t) {
                top = Some((high, &b.name));
            }
        }
        let Some((top, name)) = top else { continue };
        let formula =
            format!("highest part between trunk and arm above the loaded cushion, along the trunk ({name})");
        out.figures.put(format!("fit.side.top.{}", side.word()), (top, L), formula, BODY, &[]);
    }
}
