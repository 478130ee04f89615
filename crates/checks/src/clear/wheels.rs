//! Fixed wheels: the room between tyre and side, and the way that a wheel is pulled off: tyre, push rim, spokes and hub
//! along the axle, whatever its camber.

use crate::clear::convex::{Axis, Convex};
use crate::clear::depth::gap;
use crate::clear::scene::{Kind, Thing};
use crate::clear::sweep::{Least, Turning};
use crate::clear::trouble::Trouble;
use crate::clear::{GEOMETRY, LIMIT};
use crate::figure::Figures;
use chairwright_design::{Design, ItemKind, Vec3, Wheel};
use chairwright_quantity::Dimension;

const L: Dimension = Dimension::LENGTH;
/// How far a spoked wheel's rim bends under a side load, with its hub's play. Common practice, no source.
const BEND: f64 = 0.002;
/// Error of camber: an axle that is half a degree off, about one hole drilled by hand. Common practice, no source.
const CAMBER_ERROR: f64 = 0.5 * std::f64::consts::PI / 180.0;
/// Room for the fingers that pull a wheel off, beyond its axle. Common practice, no source.
const HAND: f64 = 0.050;
/// What spokes and hub may run into something without being held up, for drawings are not exact.
pub(crate) const TOUCHES: f64 = 0.001;
/// Axle in the receiver where no axle is drawn. Common practice, no source.
const RECEIVER: f64 = 0.050;

/// What bending and a camber error take off the gap beside a tyre: bend + R·tan(error).
pub(crate) fn flex(wheel: &Wheel) -> f64 {
    BEND + wheel.radius * libm::tan(CAMBER_ERROR)
}

/// A ring about a wheel's axle: a ball, or a ball drawn along the axle, that is turned all around. The hub's
/// surroundings, where axle, receiver and box belong, are thereby left out: only what the tyre itself can
/// touch counts.
fn ring(wheel: &Wheel, offset: f64, radius: f64, section: f64, out: f64) -> (Convex, Axis) {
    let axis = Axis { through: wheel.at, along: wheel.axle };
    let start = wheel.at + wheel.axle.any_across() * (radius - section) + wheel.axle * offset;
    let points = if out > 0.0 { vec![start, start + wheel.axle * out] } else { vec![start] };
    (Convex::points(points, section), axis)
}

/// The tyre as a ring.
pub(crate) fn tyre(wheel: &Wheel, out: f64) -> (Convex, Axis) {
    ring(wheel, 0.0, wheel.radius, wheel.tyre / 2.0, out)
}

/// The push rim as a ring, if there is one; its diameter is taken over all, as a tape takes it and the drawing shows it.
pub(crate) fn push_rim(wheel: &Wheel, out: f64) -> Option<(Convex, Axis)> {
    let tube = wheel.rim_tube / 2.0;
    wheel.rim.map(|d| ring(wheel, wheel.rim_out - tube, d / 2.0, tube, out))
}

/// The nearest thing to a ring, if it is nearer than `beat`.
pub(crate) fn nearest<'t>(
    (body, axis): &(Convex, Axis),
    things: &'t [Thing<'_>],
    counts: impl Fn(Kind) -> bool,
    beat: f64,
) -> Option<(Least, &'t str)> {
    let turning = Turning::new(body, *axis, 1.0);
    let all = things.iter().filter(|t| counts(t.kind)).flat_map(|t| t.parts.iter().map(move |p| (t.name, p)));
    let mut order: Vec<(f64, &str, &Convex)> = all.map(|(n, p)| (turning.at_least(p), n, p)).collect();
    order.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut best: Option<(Least, &str)> = None;
    for (bound, name, part) in order {
        let beat = best.map_or(beat, |(l, _)| l.gap);
        if bound > beat {
            break;
        }
        if let Some(least) = turning.least(part, beat) {
            best = Some((least, name));
        }
    }
    best
}

/// What a tyre must keep clear of: everything but its brake, which presses on it, and its axle.
fn beside(kind: Kind) -> bool {
    matches!(kind, Kind::Frame | Kind::On | Kind::Soft | Kind::Footrest)
}

/// A least gap as drawn, if there is one, with the names of both sides.
pub(crate) type Between = Option<(f64, String, String)>;

/// Room beside the tyres after flex, and on the wheels' way off.
pub(crate) fn wheels(
    design: &Design,
    things: &[Thing<'_>],
    figures: &mut Figures,
    troubles: &mut Vec<Trouble>,
) -> Between {
    let mut beside_it: Option<(f64, f64, String, String)> = None;
    let mut way_off: Option<(f64, f64, String, String)> = None;
    for wheel in &design.wheels {
        let rest = nearest(&tyre(wheel, 0.0), things, beside, f64::INFINITY);
        if let Some((near, body)) = rest {
            let left = near.gap - flex(wheel);
            side(wheel, near.gap, body, troubles);
            if beside_it.as_ref().is_none_or(|l| left < l.0) {
                beside_it = Some((left, near.gap, wheel.name.clone(), body.to_owned()));
            }
        }
        let out = path(design, wheel);
        let Some((gap, body)) = removal(wheel, things, out, rest, troubles) else { continue };
        if way_off.as_ref().is_none_or(|l| gap < l.0) {
            way_off = Some((gap, out, wheel.name.clone(), body.to_owned()));
        }
    }
    if let Some((gap, out, wheel, body)) = way_off {
        let formula = format!(
            "least distance of tyre and push rim to the chair on the way out along the axle, its length and 50 mm \
             for the hand: {wheel} and {body}"
        );
        figures.put("gap.wheel.removal", (gap, L), formula, GEOMETRY, &[("way out", out, L)]);
    }
    let (left, drawn, wheel, body) = beside_it?;
    let formula = format!(
        "least distance of the tyre's ring to the chair, less 2 mm of bending and radius x tan 0.5 deg of camber \
         error: {wheel} and {body}"
    );
    figures.put("gap.tyre.side", (left, L), formula, GEOMETRY, &[("as drawn", drawn, L)]);
    Some((drawn, wheel, body))
}

fn side(wheel: &Wheel, drawn: f64, body: &str, troubles: &mut Vec<Trouble>) {
    let flex = flex(wheel);
    if drawn - flex < LIMIT {
        troubles.push(Trouble::TyreRubs {
            wheel: wheel.name.clone(),
            origin: wheel.origin,
            body: body.to_owned(),
            drawn,
            flex,
            limit: LIMIT,
        });
    }
}

/// What the inside of a wheel and its hub take on the way out: everything from the hub's outer face on. What is inboard of
/// that carries the wheel, and the axle is drawn out of it.
fn spokes(wheel: &Wheel, out: f64) -> Convex {
    let from = wheel.hub.max(wheel.tyre) / 2.0;
    let half = (out / 2.0).max(0.0);
    let radius = (wheel.radius - wheel.tyre / 2.0).max(0.0);
    Convex::cylinder(wheel.at + wheel.axle * (from + half), wheel.axle, half, radius)
}

/// What the spokes and the hub run into deepest on the way out. Another wheel further out comes off first.
fn in_the_way<'t>(wheel: &Wheel, things: &'t [Thing<'_>], out: f64) -> Option<(f64, &'t str)> {
    let way = spokes(wheel, out);
    let parts = things.iter().filter(|t| beside(t.kind)).flat_map(|t| t.parts.iter().map(move |p| (t.name, p)));
    let near = parts.filter(|(_, p)| (p.middle - way.middle).norm() < p.radius + way.radius);
    let deep = near.map(|(name, p)| (-gap(&way, p, 0.0).size, name));
    deep.filter(|f| f.0 > TOUCHES).max_by(|a, b| a.0.total_cmp(&b.0))
}

/// The least gap on the way that a wheel is pulled off along its axle; it begins with what is beside it at rest.
fn removal<'t>(
    wheel: &Wheel,
    things: &'t [Thing<'_>],
    out: f64,
    rest: Option<(Least, &'t str)>,
    troubles: &mut Vec<Trouble>,
) -> Option<(f64, &'t str)> {
    let mut least = rest;
    for ring in [Some(tyre(wheel, out)), push_rim(wheel, out)].iter().flatten() {
        let beat = least.map_or(f64::INFINITY, |(l, _)| l.gap);
        least = nearest(ring, things, beside, beat).or(least);
    }
    // what the tyre touches where it stands rubs; here only what it meets on its way
    let rubs = rest.filter(|(r, _)| r.gap < 0.0).map(|(_, body)| body);
    let met = least.filter(|(l, body)| l.gap < 0.0 && rubs != Some(*body)).map(|(l, body)| (-l.gap, body));
    let inside = in_the_way(wheel, things, out);
    let stuck = met.into_iter().chain(inside).max_by(|a, b| a.0.total_cmp(&b.0));
    if let Some((depth, body)) = stuck {
        troubles.push(Trouble::WheelStuck {
            wheel: wheel.name.clone(),
            origin: wheel.origin,
            body: body.to_owned(),
            depth,
            path: out,
        });
    }
    let ring = least.map(|(l, body)| (l.gap, body));
    ring.into_iter().chain(inside.map(|(d, body)| (-d, body))).min_by(|a, b| a.0.total_cmp(&b.0))
}

/// The axle that a wheel is drawn with: of its own kind, and on the line of its hub.
pub(crate) fn axle_of<'d>(
    design: &'d Design,
    wheel: &Wheel,
    kind: ItemKind,
) -> Option<&'d chairwright_design::Item> {
    let off = |at: Vec3| (at - wheel.at).across(wheel.axle).norm();
    let on_line = design.items.iter().filter(|i| i.kind == kind && off(i.at) < wheel.radius / 4.0);
    let near = on_line.filter(|i| (i.at - wheel.at).norm() < i.size.norm() + wheel.hub + 0.1);
    near.min_by(|a, b| (a.at - wheel.at).norm().total_cmp(&(b.at - wheel.at).norm()))
}

/// How far a wheel must come out: its axle in the receiver, and room for the hand.
fn path(design: &Design, wheel: &Wheel) -> f64 {
    let usable = axle_of(design, wheel, ItemKind::Axle).map(|a| a.size.y);
    usable.unwrap_or(wheel.hub + RECEIVER) + HAND
}
