//! Sizes and angles, in the drawing and on the ground.

use crate::Checked;
use crate::body::support;
use crate::figure::Figures;
use crate::problem::Problem;
use chairwright_design::{Caster, Design, Side, SupportKind, Vec3, Wheel};
use chairwright_frame::{Frame, Group, Settled, caster_centre};
use chairwright_quantity::Dimension;

const GEOMETRY: &str = "geometry of the settled pose";
const DRAWN: &str = "geometry of the drawing";
const L: Dimension = Dimension::LENGTH;
const A: Dimension = Dimension::ANGLE;
/// A gap under a wheel up to this is taken up by tyres and flex. Common practice, no source.
pub(crate) const ROCK: f64 = 0.003;
/// A stem further from upright than this, rad, makes the frame rise as it swivels. Common practice, no
/// source.
pub const MOST_LEAN: f64 = 2.0 * std::f64::consts::PI / 180.0;

/// A caster with less trail than this does not follow: it stays as it stands or swings about. Common practice, no source.
const TRAIL: f64 = 0.010;

/// Figures that do not depend on the pose.
pub(crate) fn drawn(design: &Design, out: &mut Figures) {
    for member in design.members.values() {
        let length = (design.joints[member.end].at - design.joints[member.start].at).norm();
        out.put(format!("length.{}", member.name), (length, L), "from joint to joint", DRAWN, &[]);
    }
    if let Some(seat) = support(design, SupportKind::Seat) {
        out.put("seat.width", (seat.width, L), "as drawn", DRAWN, &[]);
        out.put("seat.depth", ((seat.to - seat.from).norm(), L), "rear edge to front edge", DRAWN, &[]);
    }
    axles(design, out);
    if let Some(back) = support(design, SupportKind::Back) {
        out.put("back.height", ((back.to - back.from).norm(), L), "lower edge to upper edge", DRAWN, &[]);
    }
    if let (Some(seat), Some(back)) = (support(design, SupportKind::Seat), support(design, SupportKind::Back)) {
        let (u, v) = (seat.to - seat.from, back.to - back.from);
        let angle = u.angle_to(v);
        out.put("back.angle", (angle, A), "angle between back support and seat", DRAWN, &[]);
    }
}

/// How far the axles lie below the seat, square to it: that no tyre and no pitch moves.
fn axles(design: &Design, out: &mut Figures) {
    let Some(seat) = support(design, SupportKind::Seat) else { return };
    let Some(down) = (seat.to - seat.from).unit().and_then(|u| Vec3::Y.cross(u).unit()) else { return };
    for side in [Side::Left, Side::Right] {
        let Some(wheel) = design.wheels.iter().find(|w| w.at.y * side.sign() > 1e-6) else { continue };
        let under = (wheel.at - seat.from).dot(down);
        let formula = "plane of the seat less the middle of the rear wheel's hub, square to the seat";
        out.put(format!("axle.under.{}", side.word()), (under, L), formula, DRAWN, &[]);
    }
}

/// Figures of the settled pose, and what is wrong with it.
pub(crate) fn settled(design: &Design, frame: &Frame, settled: &Settled, out: &mut Checked) {
    let figures = &mut out.figures;
    figures.put(
        "pitch",
        (settled.pitch, A),
        "turn about the rear axle that puts all wheels on the ground",
        GEOMETRY,
        &[],
    );
    figures.put("roll", (settled.roll, A), "sideways turn that puts all wheels on the ground", GEOMETRY, &[]);
    figures.put("rock", (settled.rock, L), "gap under the fourth wheel when three carry", GEOMETRY, &[]);
    supports(design, frame, settled, figures);
    wheels(design, settled, figures);
    extents(frame, settled, figures);
    problems(design, frame, settled, out);
}

fn supports(design: &Design, frame: &Frame, settled: &Settled, figures: &mut Figures) {
    let place = |p: Vec3| settled.pose.place(p);
    if let Some(seat) = support(design, SupportKind::Seat) {
        let (rear, front) = (place(seat.from), place(seat.to));
        let run = libm::hypot(front.x - rear.x, front.y - rear.y);
        let inputs = [("front", front.z, L), ("rear", rear.z, L)];
        figures.put(
            "seat.angle",
            (libm::atan2(front.z - rear.z, run), A),
            "atan((front height - rear height) / run)",
            GEOMETRY,
            &inputs,
        );
        figures.put("axle.ahead", (-rear.x, L), "rear axle less rear edge of the seat", GEOMETRY, &[]);
        figures.put("seat.height.front", (front.z, L), "front edge above the ground", GEOMETRY, &[]);
        figures.put("seat.height.rear", (rear.z, L), "rear edge above the ground", GEOMETRY, &[]);
    }
    if let Some(rest) = support(design, SupportKind::Footrest) {
        // the rider's side is drawn: the board, or the sling that hangs, goes further down
        let edge = place(rest.from).z.min(place(rest.to).z);
        let down = settled.pose.unturn(-Vec3::Z);
        let board = frame.bodies.iter().filter(|b| b.name == rest.name).flat_map(|b| &b.solids);
        let least = board.map(|s| settled.pose.origin.z - s.reach(down)).fold(edge, f64::min);
        let inputs = [("lower edge of its upper side", edge, L)];
        figures.put("footrest.clearance", (least, L), "lowest point of it above the ground", GEOMETRY, &inputs);
    }
}

fn wheels(design: &Design, settled: &Settled, figures: &mut Figures) {
    for side in [Side::Left, Side::Right] {
        let Some(wheel) = outer_wheel(design, side) else { continue };
        let n = settled.pose.turn(wheel.axle);
        let word = side.word();
        figures.put(
            format!("camber.{word}"),
            (libm::asin(n.z), A),
            "asin of the upward part of the outboard axle",
            GEOMETRY,
            &[("camber as drawn", wheel.camber, A), ("pitch", settled.pitch, A)],
        );
        figures.put(
            format!("toe.{word}"),
            (libm::atan2(-n.x, n.y * side.sign()), A),
            "backward over outward part of the outboard axle; for a cambered wheel atan(tan camber x sin pitch)",
            GEOMETRY,
            &[("camber as drawn", wheel.camber, A), ("pitch", settled.pitch, A)],
        );
    }
    let place = |caster: bool| -> Vec<Vec3> {
        settled.contacts.iter().filter(|c| c.caster == caster).map(|c| c.at).collect()
    };
    let spread = |points: &[Vec3]| {
        let high = points.iter().map(|p| p.y).fold(f64::NEG_INFINITY, f64::max);
        let low = points.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
        high - low
    };
    let (rear, front) = (place(false), place(true));
    figures.put("track", (spread(&rear), L), "between the rear ground contacts", GEOMETRY, &[]);
    if !front.is_empty() {
        figures.put(
            "track.front",
            (spread(&front), L),
            "between the caster ground contacts, trailing",
            GEOMETRY,
            &[],
        );
        #[allow(clippy::cast_precision_loss)]
        let base = design.casters.iter().map(|c| settled.pose.place(caster_centre(c, 0.0)).x).sum::<f64>()
            / design.casters.len() as f64;
        figures.put("wheelbase", (base, L), "rear axle line to caster axles, casters trailing", GEOMETRY, &[]);
    }
    for caster in &design.casters {
        let stem = settled.pose.turn(caster.stem);
        let lean = libm::acos(stem.z.clamp(-1.0, 1.0));
        figures.put(
            format!("stem.lean.{}", caster.name),
            (lean, A),
            "acos of the upward part of the stem",
            GEOMETRY,
            &[],
        );
        figures.put(
            format!("caster.rise.{}", caster.name),
            (rise(caster, lean), L),
            "2 x offset x sin lean",
            "geometry: a wheel at an offset from a stem that leans is highest and lowest half a turn apart",
            &[("offset", caster.trail, L), ("lean", lean, A)],
        );
        // (e + r sin b) / cos b, b the lean of the stem's top to the rear
        let b = libm::atan2(-stem.x, stem.z);
        let trail = (caster.trail + caster.radius * libm::sin(b)) / libm::cos(b);
        figures.put(
            format!("caster.trail.{}", caster.name),
            (trail, L),
            "(offset + radius x sin lean) / cos lean",
            "geometry: where the stem axis meets the ground ahead of the contact",
            &[("offset", caster.trail, L), ("radius", caster.radius, L), ("lean to the rear", b, A)],
        );
    }
}

/// How much a stem that leans lifts and lowers the frame as its caster swivels, in metres.
fn rise(caster: &Caster, lean: f64) -> f64 {
    2.0 * caster.trail * libm::sin(lean)
}

/// The wheel of a side that stands furthest out.
pub(crate) fn outer_wheel(design: &Design, side: Side) -> Option<&Wheel> {
    let on_side = design.wheels.iter().filter(|w| w.at.y * side.sign() > 0.0);
    on_side.max_by(|a, b| a.at.y.abs().total_cmp(&b.at.y.abs()))
}

/// How far the furthest part reaches along an axis of the settled pose.
pub(crate) fn reach(frame: &Frame, settled: &Settled, axis: Vec3) -> f64 {
    let d = settled.pose.unturn(axis);
    let all = frame.bodies.iter().flat_map(|b| &b.solids).map(|s| s.reach(d));
    all.fold(f64::NEG_INFINITY, f64::max) + settled.pose.origin.dot(axis)
}

fn extents(frame: &Frame, settled: &Settled, figures: &mut Figures) {
    let reach = |axis: Vec3| reach(frame, settled, axis);
    let span = |axis: Vec3| reach(axis) + reach(-axis);
    figures.put("width.overall", (span(Vec3::Y), L), "greatest width of all parts", GEOMETRY, &[]);
    figures.put(
        "length.overall",
        (span(Vec3::X), L),
        "greatest length of all parts, casters trailing",
        GEOMETRY,
        &[],
    );
    figures.put("height.overall", (reach(Vec3::Z), L), "greatest height of all parts", GEOMETRY, &[]);
    if let Some((part, low)) = lowest_body(frame, settled) {
        let formula = format!("lowest part that is no wheel and no caster: {part}");
        figures.put("clearance.ground", (low, L), formula, GEOMETRY, &[]);
    }
}

/// Outside sizes of a chair that nobody sits in, as it is drawn: what has to go into the boot.
pub(crate) fn packed(frame: &Frame, figures: &mut Figures) {
    let reach = |axis: Vec3| {
        let all = frame.bodies.iter().flat_map(|b| &b.solids).map(|s| s.reach(axis));
        all.fold(f64::NEG_INFINITY, f64::max)
    };
    let words = [("width.overall", Vec3::Y), ("length.overall", Vec3::X), ("height.overall", Vec3::Z)];
    for (name, axis) in words {
        let size = (reach(axis) + reach(-axis), L);
        figures.put(
            name,
            size,
            "greatest extent of all parts, as drawn, without the wheels taken off",
            GEOMETRY,
            &[],
        );
    }
}

/// The lowest part of the frame and its height.
fn lowest_body<'f>(frame: &'f Frame, settled: &Settled) -> Option<(&'f str, f64)> {
    let down = settled.pose.unturn(-Vec3::Z);
    frame
        .bodies
        .iter()
        .filter(|b| !matches!(b.group, Group::Wheel | Group::Caster))
        .flat_map(|b| b.solids.iter().map(move |s| (b.name.as_str(), s)))
        .map(|(name, s)| (name, settled.pose.origin.z - s.reach(down)))
        .min_by(|a, b| a.1.total_cmp(&b.1))
}

fn problems(design: &Design, frame: &Frame, settled: &Settled, out: &mut Checked) {
    if settled.rock > ROCK
        && let Some(contact) = settled.contacts.iter().max_by(|a, b| a.gap.total_cmp(&b.gap))
    {
        let (wheel, origin) = if contact.caster {
            let c = &design.casters[contact.index];
            (c.name.clone(), c.origin)
        } else {
            let w = &design.wheels[contact.index];
            (w.name.clone(), w.origin)
        };
        out.problems.push(Problem::Rocks { wheel, origin, gap: settled.rock });
    }
    for caster in &design.casters {
        let stem = settled.pose.turn(caster.stem);
        let angle = libm::acos(stem.z.clamp(-1.0, 1.0));
        if angle > MOST_LEAN {
            out.problems.push(Problem::StemLeans {
                caster: caster.name.clone(),
                origin: caster.origin,
                angle,
                rise: rise(caster, angle),
            });
        }
    }
    for caster in &design.casters {
        let figure = format!("caster.trail.{}", caster.name);
        let Some(trail) = out.figures.si(&figure).filter(|t| *t < TRAIL) else { continue };
        let (caster, origin) = (caster.name.clone(), caster.origin);
        out.problems.push(Problem::ShortTrail { caster, origin, trail });
    }
    for thing in &design.carried {
        let low = settled.pose.place(thing.at).z;
        if low < -1e-6 {
            out.problems.push(Problem::BelowFloor { body: thing.name.clone(), depth: -low });
        }
    }
    if let Some((body, low)) = lowest_body(frame, settled)
        && low < -1e-6
    {
        out.problems.push(Problem::BelowFloor { body: body.to_owned(), depth: -low });
    }
}
