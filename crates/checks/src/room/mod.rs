//! Where the chair finds room: doors, corridors, corners, tables, beds, the boot of a car.
//!
//! In come the design, its frame and the chair at rest; out go figures and typed [`Problem`]s. A problem is
//! raised only in a whole design, and only about what the place declares.

mod corner;
mod head;
mod outline;
mod passage;
mod problem;
mod seat;
mod transport;

pub use corner::corner_room;
pub use outline::{Circle, Outline, turning};
pub use problem::Problem;
pub(crate) use seat::thigh;
pub use transport::{too_big, too_big_slanted};

use crate::Checked;
use chairwright_design::Design;
use chairwright_frame::Frame;

/// Computes every figure of room and says what the place makes of it.
pub(crate) fn room(design: &Design, frame: &Frame, out: &mut Checked) {
    let mut found = Vec::new();
    let settled = out.settled.clone().filter(|_| !design.unridden);
    if let Some(settled) = &settled {
        passage::passage(design, frame, settled, out, &mut found);
        seat::seat(design, frame, settled, out, &mut found);
        head::head(design, out, &mut found);
    }
    // a chair with its wheels off stands on nothing, and is what goes into the boot
    if settled.is_some() || design.unridden {
        transport::transport(design, frame, out, &mut found);
    }
    if design.name.is_empty() {
        out.withheld += found.len();
    } else {
        out.problems.extend(found.into_iter().map(crate::Problem::Room));
    }
}
