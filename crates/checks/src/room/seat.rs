//! Under the table, and across to bed and toilet.

use super::problem::Problem;
use crate::Checked;
use crate::body::support;
use crate::feet::feet;
use crate::roll::{place, said};
use crate::sizes::reach;
use chairwright_design::{Design, Side, SupportKind, Vec3};
use chairwright_frame::{Frame, Group, Settled};
use chairwright_quantity::Dimension;

const L: Dimension = Dimension::LENGTH;
const GEOMETRY: &str = "geometry of the settled pose, cushion loaded";
/// Room above the thighs under a table. Common practice, no source.
const UNDER: f64 = 0.015;
/// Step that a transfer bears. Common practice, no source.
const STEP: f64 = 0.050;

pub(crate) fn seat(
    design: &Design,
    frame: &Frame,
    settled: &Settled,
    out: &mut Checked,
    found: &mut Vec<Problem>,
) {
    let Some(seat) = support(design, SupportKind::Seat) else { return };
    let up = (seat.to - seat.from).unit().and_then(|u| u.cross(Vec3::Y).unit()).unwrap_or(Vec3::Z);
    let cushion = settled.pose.turn(up).z * seat.cushion.as_ref().map_or(0.0, |c| c.2);
    let height = |p: Vec3, figure: &str| built(out, figure, settled.pose.place(p).z);
    let (rear, front) = (height(seat.from, "seat.height.rear"), height(seat.to, "seat.height.front"));
    // a sling has sunk by the time somebody slides off it; how far in front, under the thighs alone, nobody knows
    let sunk = settled.pose.turn(up).z * seat.sag.unwrap_or(0.0);
    table(design, frame, settled, (front.1 + cushion, sunk.max(0.0), seat.to), out, found);
    let middle = [(rear.0, front.0), (rear.1, front.1)].map(|(r, f)| f64::midpoint(r, f) + cushion - sunk);
    let aside = f64::midpoint(settled.pose.place(seat.from).y, settled.pose.place(seat.to).y);
    transfer(design, frame, settled, (middle, (seat.width, aside)), out, found);
}

/// A height as drawn, or between which ends it was measured on the built chair.
fn built(out: &Checked, figure: &str, drawn: f64) -> (f64, f64) {
    out.built(figure).map_or((drawn, drawn), |c| c.built)
}

/// The thicker of the thighs that lie on the seat, where they are known; nothing where there is none.
pub(crate) fn thigh(design: &Design, rider: Option<&crate::RiderBody>) -> Option<f64> {
    let there =
        |side: Side| rider.is_none_or(|r| r.legs.iter().any(|l| l.side == side && l.end.left()[0] > 0.0));
    let sides = [Side::Left, Side::Right].into_iter().filter(|s| there(*s));
    sides.map(|s| design.rider.sided("thigh_thickness", s)).try_fold(0.0, |most: f64, t| Some(most.max(t?)))
}

fn table(
    design: &Design,
    frame: &Frame,
    settled: &Settled,
    (front, sunk, edge): (f64, f64, Vec3),
    out: &mut Checked,
    found: &mut Vec<Problem>,
) {
    let thigh = thigh(design, out.rider.as_ref());
    if let Some(thigh) = thigh {
        let inputs = [("top of the loaded cushion in front", front, L), ("rider.thigh_thickness", thigh, L)];
        let formula = "top of the loaded cushion at the front edge, a sling as high as its rails, + thickness of the thigh";
        out.figures.put("table.knee", (front + thigh, L), formula, GEOMETRY, &inputs);
    }
    let x = settled.pose.place(edge).x;
    shallow(design, frame, settled, x, out, found);
    let Some(clear) = place(design, "table") else { return };
    if let Some(thigh) = thigh {
        let room = clear - front - thigh;
        let inputs = [("table", clear, L), ("table.knee", front + thigh, L)];
        out.figures.put("table.room", (room, L), "clear height of the table - table.knee", GEOMETRY, &inputs);
    }
    let blocked = tall(frame, settled, clear).filter(|(_, at)| *at >= x).map(|(name, _)| name.to_owned());
    if let Some((_, at)) = tall(frame, settled, clear) {
        let inputs = [("front edge of the seat", x, L), ("foremost part that is taller", at, L)];
        let formula =
            "front edge of the seat less the foremost part of the chair that is taller than the table";
        out.figures.put("table.reach", (x - at, L), formula, GEOMETRY, &inputs);
    }
    let fits = thigh.is_some_and(|t| front + t + UNDER <= clear);
    if !fits || blocked.is_some() {
        let origin = said(design, "conditions.table");
        found.push(Problem::UnderTable { origin, clear, seat: front, sunk, thigh, blocked });
    }
}

/// How far the table's edge gets over the seat before toes, casters or foot support meet what ends the room below it. A table that
/// does not reach the front of the seat serves nobody in it. Common practice, no source.
fn shallow(
    design: &Design,
    frame: &Frame,
    settled: &Settled,
    edge: f64,
    out: &mut Checked,
    found: &mut Vec<Problem>,
) {
    let Some(depth) = place(design, "table_depth") else { return };
    let parts = reach(frame, settled, Vec3::X).max(edge);
    let feet = match &out.rider {
        Some(rider) => feet(design, rider, &mut out.assumptions),
        None => Vec::new(),
    };
    let ahead = feet.iter().map(|f| settled.pose.place(f.toe()).x).fold(parts, f64::max) - edge;
    let inputs = [("table_depth", depth, L), ("foremost part or toe ahead of the seat", ahead, L)];
    let formula =
        "clear depth under the table less the foremost part or toe ahead of the front edge of the seat";
    out.figures.put("table.over", (depth - ahead, L), formula, GEOMETRY, &inputs);
    if depth < ahead {
        let origin = said(design, "conditions.table_depth");
        found.push(Problem::ShallowTable { origin, depth, ahead });
    }
}

/// The foremost part that does not go under the table, and where its front is.
fn tall<'f>(frame: &'f Frame, settled: &Settled, clear: f64) -> Option<(&'f str, f64)> {
    let reach =
        |s: &chairwright_frame::Solid, d: Vec3| s.reach(settled.pose.unturn(d)) + settled.pose.origin.dot(d);
    let solids = frame.bodies.iter().flat_map(|b| b.solids.iter().map(move |s| (b, s)));
    let tall = solids.filter(|(_, s)| reach(s, Vec3::Z) > clear);
    // of a wheel only what stands above the table's edge meets it: its front at that height
    tall.map(|(b, s)| {
        (b.name.as_str(), if b.group == Group::Wheel { chord(s, settled, clear) } else { reach(s, Vec3::X) })
    })
    .max_by(|a, b| a.1.total_cmp(&b.1))
}

/// How far forward a wheel reaches at a height above its middle.
fn chord(solid: &chairwright_frame::Solid, settled: &Settled, height: f64) -> f64 {
    let chairwright_frame::Solid::Ring { centre, radius, .. } = solid else { return f64::NEG_INFINITY };
    let c = settled.pose.place(*centre);
    let up = (height - c.z).max(0.0);
    c.x + (radius * radius - up * up).max(0.0).sqrt()
}

fn transfer(
    design: &Design,
    frame: &Frame,
    settled: &Settled,
    ([low, high], (width, middle)): ([f64; 2], (f64, f64)),
    out: &mut Checked,
    found: &mut Vec<Problem>,
) {
    let seat = f64::midpoint(low, high);
    let formula =
        "top of the loaded cushion in the middle of the seat, a sling as far down as it hangs through";
    out.figures.put("transfer.seat", (seat, L), formula, GEOMETRY, &[]);
    if let Some(overall) = out.figures.si("width.overall") {
        let side = |axis: Vec3| reach(frame, settled, axis);
        let off = (middle - (side(Vec3::Y) - side(-Vec3::Y)) / 2.0).abs();
        let inputs =
            [("width.overall", overall, L), ("seat.width", width, L), ("seat off the chair's middle", off, L)];
        let formula =
            "(width.overall - seat.width) / 2 + seat off the chair's middle: on the side that is further";
        out.figures.put("transfer.gap", ((overall - width) / 2.0 + off, L), formula, GEOMETRY, &inputs);
    }
    let up = settled.pose.unturn(Vec3::Z);
    let wheels = frame.bodies.iter().filter(|b| b.group == Group::Wheel).flat_map(|b| &b.solids);
    let over = wheels.map(|s| s.reach(up) + settled.pose.origin.z).fold(f64::NEG_INFINITY, f64::max);
    out.figures.put(
        "transfer.wheel",
        (over - seat, L),
        "top of the rear wheel less top of the loaded cushion",
        GEOMETRY,
        &[("top of the wheel", over, L), ("transfer.seat", seat, L)],
    );
    for what in ["toilet", "bed"] {
        let Some(height) = place(design, what) else { continue };
        let inputs = [("transfer.seat", seat, L), (what, height, L)];
        let formula = format!("transfer.seat - height of the {what}");
        out.figures.put(format!("transfer.{what}"), (seat - height, L), formula, GEOMETRY, &inputs);
        // of the readings the one that is further off
        let seat = if (low - height).abs() > (high - height).abs() { low } else { high };
        if (seat - height).abs() > STEP + 1e-9 {
            let origin = said(design, &format!("conditions.{what}"));
            found.push(Problem::TransferStep { what, origin, height, seat });
        }
    }
}
