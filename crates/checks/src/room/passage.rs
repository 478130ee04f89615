//! Through doors, along corridors, round corners, and round on the spot.

use super::corner::{corner_room, longest};
use super::outline::{Outline, turning};
use super::problem::Problem;
use crate::Checked;
use crate::assumed::Assumed;
use crate::body::support;
use crate::feet::feet;
use crate::roll::{place, said};
use crate::tested::larger;
use chairwright_design::{Design, SupportKind};
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
    let feet = match &out.rider {
        Some(rider) => feet(design, rider, &mut out.assumptions),
        None => Vec::new(),
    };
    // a chair that was built narrower is not trusted to be so in every direction
    let wider = out.built_more("width.overall") / 2.0;
    let outline = Outline::new(design, frame, settled, (&feet, wider));
    for (what, name) in
        [("door", "door.room"), ("corridor", "corridor.room"), ("corridor_to", "corridor.room.to")]
    {
        let Some(clear) = place(design, what) else { continue };
        let inputs = [(what, clear, L), ("width.overall", width, L)];
        let formula = "clear width less width.overall; each hand has half of it beside the widest part";
        out.figures.put(name, (clear - width, L), formula, GEOMETRY, &inputs);
        let built = larger(out, "width.overall");
        if clear < width + built - 1e-9 {
            let origin = said(design, &format!("conditions.{what}"));
            let what = if what == "door" { "door" } else { "corridor" };
            found.push(Problem::TooWide { what, origin, clear, width, built });
        }
    }
    turn(design, &outline, out, found);
    corner(design, &outline, (width, out), found);
}

fn turn(design: &Design, outline: &Outline<'_>, out: &mut Checked, found: &mut Vec<Problem>) {
    let (diameter, passage, furthest) = turning(outline);
    if out.rider.is_some() && support(design, SupportKind::Footrest).is_none() {
        out.assumptions.push(Assumed::FeetHang);
    }
    let inputs = [("forward", furthest.0, L), ("left", furthest.1, L)];
    let formula = "2 x distance of the furthest point, feet included, from the middle of the rear axle";
    out.figures.put("turn.diameter", (diameter, L), formula, TURN, &inputs);
    let formula = "furthest point ahead of the axle + furthest point behind it: half a turn between two walls";
    out.figures.put("turn.width", (passage, L), formula, TURN, &[]);
    // whether anybody has to turn round there the place does not say
    let corridors = ["corridor", "corridor_to"].into_iter().filter_map(|c| place(design, c));
    if let Some(corridor) = corridors.reduce(f64::min).filter(|c| *c < passage) {
        out.assumptions.push(Assumed::NoTurning { corridor, passage });
    }
    // what reaches furthest of a chair that is longer or wider by so much stands out by as much on either side
    let built = 2.0 * larger(out, "length.overall").max(larger(out, "width.overall") / 2.0);
    if let Some(space) = place(design, "turning_space").filter(|s| *s < diameter + built - 1e-9) {
        let origin = said(design, "conditions.turning_space");
        found.push(Problem::TurnsTooWide { origin, space, diameter, furthest, built });
    }
}

fn corner(design: &Design, outline: &Outline<'_>, (width, out): (f64, &mut Checked), found: &mut Vec<Problem>) {
    let length = outline.span(0.0);
    let formula = "greatest length of all parts and feet, casters in every swivel";
    out.figures.put("length.occupied", (length, L), formula, GEOMETRY, &[]);
    let (Some(a), Some(b)) = (place(design, "corridor"), place(design, "corridor_to")) else { return };
    // as it turns its casters swing aside, and feet may stand out further than anything drawn
    let width = width.max(outline.span(std::f64::consts::FRAC_PI_2));
    let room = corner_room(length, width, a, b);
    let inputs = [
        ("length.occupied", length, L),
        ("greatest width of all parts and feet, casters in every swivel", width, L),
        ("corridor", a, L),
        ("corridor_to", b, L),
    ];
    let formula =
        "least over φ of a sin φ + b cos φ - length sin φ cos φ, at most either corridor, less the width";
    out.figures.put("corner.room", (room, L), formula, CORNER, &inputs);
    let built = larger(out, "width.overall");
    if room < built - 1e-9 && width <= a.min(b) {
        let origin = said(design, "conditions.corridor");
        let shorter = longest(width, a, b);
        let (corridors, size) = ((a, b), (length, width));
        found.push(Problem::CornerTooTight { origin, corridors, lacks: -room, size, shorter });
    }
}
