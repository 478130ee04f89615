//! The seated rider's head under a door, a beam, the roof of a bus.

use super::problem::Problem;
use crate::Checked;
use crate::fit::need;
use crate::roll::{place, said};
use chairwright_design::Design;
use chairwright_quantity::Dimension;

const L: Dimension = Dimension::LENGTH;
const GEOMETRY: &str = "geometry of the settled pose, cushion loaded, and the rider's measures";
/// Room over a head on its way through, for the path is not level. Common practice, no source.
const OVER: f64 = 0.050;

/// The crown stands as high above this seat as above the one that it was measured on.
pub(crate) fn head(design: &Design, out: &mut Checked, found: &mut Vec<Problem>) {
    let wanted_by = "head.height, under the headroom of the place";
    let clear = place(design, "headroom");
    let mut want = |measure: &str| match clear {
        Some(_) if out.rider.is_some() => need(design, measure, wanted_by, out),
        _ => design.rider.get(measure),
    };
    let (Some(head), Some(liked)) = (want("head_height"), want("liked_seat_height")) else { return };
    let Some(seat) = out.figures.si("transfer.seat").filter(|_| out.rider.is_some()) else { return };
    let crown = seat + head - liked;
    let inputs =
        [("transfer.seat", seat, L), ("rider.head_height", head, L), ("rider.liked_seat_height", liked, L)];
    let formula =
        "transfer.seat + rider.head_height - rider.liked_seat_height: sitting up as when it was measured";
    out.figures.put("head.height", (crown, L), formula, GEOMETRY, &inputs);
    let Some(clear) = clear else { return };
    let inputs = [("headroom", clear, L), ("head.height", crown, L)];
    out.figures.put("head.room", (clear - crown, L), "headroom - head.height", GEOMETRY, &inputs);
    if clear < crown + OVER {
        found.push(Problem::TooTall { origin: said(design, "conditions.headroom"), clear, crown, over: OVER });
    }
}
