//! Through doors, along corridors, round corners, and round on the spot.

use super::corner::{corner_room, longest};
use super::outline::{Outline, feet, has_footrest, turning};
use super::problem::Problem;
use crate::Checked;
use crate::roll::{place, said};
use chairwright_design::Design;
use chairwright_frame::{Frame, Settled};
use chairwright_quantity::Dimension;

const L: Dimension = Dimension::LENGTH;
const GEOMETRY: &str = "geometry of the settled pose";
const TURN: &str =
    "geometry: about the middle of the rear axle, the centre-point of ISO 7176-5; casters in every swivel";
const CORNER: &str = "geometry: a rectangle in the corner of two corridors, free to move to and fro";

pub(crate) fn passage(
    design: &Design,
    frame: &Frame,
    settled: &Settled,
    out: &mut Checked,
    found: &mut Vec<Problem>,
) {
    let Some(width) = out.figures.si("width.overall") else { return };
    for (what, name) in
        [("door", "door.room"), ("corridor", "corridor.room"), ("corridor_to", "corridor.room.to")]
    {
        let Some(clear) = place(design, what) else { continue };
        let inputs = [(what, clear, L), ("width.overall", width, L)];
        let formula = "clear width less width.overall; each hand has half of it beside the widest part";
        out.figures.put(name, (clear - width, L), formula, GEOMETRY, &inputs);
        if clear < width - 1e-9 {
            let origin = said(design, &format!("conditions.{what}"));
            let what = if what == "door" { "door" } else { "corridor" };
            found.push(Problem::TooWide { what, origin, clear, width });
        }
    }
    turn(design, frame, settled, out, found);
    corner(design, frame, settled, (width, out), found);
}

fn turn(design: &Design, frame: &Frame, settled: &Settled, out: &mut Checked, found: &mut Vec<Problem>) {
    let outline = Outline::new(design, frame, settled, out.rider.as_ref());
    let (diameter, passage, furthest) = turning(&outline);
    if out.rider.is_some() && !has_footrest(design) {
        out.assumptions.push("there is no foot support: the room to turn takes the feet as hanging".to_owned());
    }
    let inputs = [("forward", furthest.0, L), ("left", furthest.1, L)];
    let formula = "2 x distance of the furthest point, feet included, from the middle of the rear axle";
    out.figures.put("turn.diameter", (diameter, L), formula, TURN, &inputs);
    let formula = "furthest point ahead of the axle + furthest point behind it: half a turn between two walls";
    out.figures.put("turn.width", (passage, L), formula, TURN, &[]);
    if let Some(space) = place(design, "turning_space").filter(|s| *s < diameter) {
        let origin = said(design, "conditions.turning_space");
        found.push(Problem::TurnsTooWide { origin, space, diameter, furthest });
    }
}

/// Length with the feet that stand out in front.
fn occupied(design: &Design, frame: &Frame, settled: &Settled, out: &mut Checked) -> Option<f64> {
    let length = out.figures.si("length.overall")?;
    let front = frame
        .bodies
        .iter()
        .flat_map(|b| &b.solids)
        .map(|s| s.reach(settled.pose.unturn(chairwright_design::Vec3::X)))
        .fold(f64::NEG_INFINITY, f64::max)
        + settled.pose.origin.x;
    let toes = feet(design, settled, out.rider.as_ref());
    let toe = toes.iter().map(|f| f.x + f.r).fold(front, f64::max);
    let inputs = [("length.overall", length, L), ("toes ahead of it", toe - front, L)];
    let formula = "length.overall + what the toes reach beyond it";
    out.figures.put("length.occupied", (length + toe - front, L), formula, GEOMETRY, &inputs);
    Some(length + toe - front)
}

fn corner(
    design: &Design,
    frame: &Frame,
    settled: &Settled,
    (width, out): (f64, &mut Checked),
    found: &mut Vec<Problem>,
) {
    let Some(length) = occupied(design, frame, settled, out) else { return };
    let (Some(a), Some(b)) = (place(design, "corridor"), place(design, "corridor_to")) else { return };
    let room = corner_room(length, width, a, b);
    let inputs = [
        ("length.occupied", length, L),
        ("width.overall", width, L),
        ("corridor", a, L),
        ("corridor_to", b, L),
    ];
    let formula =
        "least over φ of a sin φ + b cos φ - length sin φ cos φ, at most either corridor, less the width";
    out.figures.put("corner.room", (room, L), formula, CORNER, &inputs);
    if room < 0.0 && width <= a.min(b) {
        let origin = said(design, "conditions.corridor");
        let shorter = longest(width, a, b);
        let (corridors, size) = ((a, b), (length, width));
        found.push(Problem::CornerTooTight { origin, corridors, lacks: -room, size, shorter });
    }
}
