//! How the chair rolls: what it takes to push it, what stops it, what throws the rider out.
//!
//! In come the design, its frame and the chair at rest; out go figures and typed [`Problem`]s. Figures are
//! computed wherever they can be; a problem is raised only in a whole design, and only about what the place
//! declares: a slope, a sill, a slot, a kind of ground.

mod brakes;
mod edge;
mod grounding;
mod hands;
mod obstacle;
mod one_hand;
mod problem;
mod profile;
mod push;
mod side;
mod stand;

pub(crate) use hands::judged as judged_hands;

pub use grounding::{Rolling, breakover, under_wheel};
pub use obstacle::{climb_factor, slot_drop, stop_speed};
pub use one_hand::OneHand;
pub use problem::{Climber, Low, Place, Problem, Pusher, Sliding};
pub use push::toe_drag;

use crate::Checked;
use chairwright_design::{Design, Origin};
use chairwright_frame::Frame;
use stand::Stands;

/// Standard gravity in m/s² (CGPM 1901).
pub(crate) const G: f64 = 9.806_65;
/// A brisk push, in m/s, where the place says no speed: 3.6 km/h. Common practice, no source.
const WALK: f64 = 1.0;

/// Computes every figure of rolling and says what the place makes of it.
pub(crate) fn roll(design: &Design, frame: &Frame, out: &mut Checked) {
    let Some(settled) = out.settled.clone().filter(|_| !design.unridden) else { return };
    let mut found = Vec::new();
    grounding::grounding(design, frame, &settled, out, &mut found);
    let stands = Stands::new(design, &settled, out);
    if let Some(stands) = &stands {
        let path = push::push(design, stands, out, &mut found);
        one_hand::turns(design, stands, &path, out, &mut found);
        side::side(design, stands, out, &mut found);
        hands::hands(design, stands.full(), &path, out, &mut found);
        obstacle::obstacles(design, stands, out, &mut found);
    } else if out.rider.is_some() {
        let origin = design.casters.first().map(|c| c.origin).or(design.wheels.first().map(|w| w.origin));
        found.push(Problem::NotJudged { origin, what: crate::layout::left_out(design) });
    }
    if out.rider.is_some() {
        brakes::brakes(design, stands.as_ref(), out, &mut found);
    }
    if design.name.is_empty() {
        out.withheld += found.len();
    } else {
        out.problems.extend(found.into_iter().map(crate::Problem::Roll));
    }
}

/// A quantity of the place of use.
pub(crate) fn place(design: &Design, key: &str) -> Option<f64> {
    design.conditions.quantities.get(key).copied()
}

/// The steepest slope that the place declares, along the path or across it, in radians: the chair may be turned on either, and a
/// parked one stands on both.
pub(crate) fn steepest(design: &Design) -> f64 {
    ["slope", "cross_slope"].iter().filter_map(|k| place(design, k)).fold(0.0, |most, s| most.max(s.abs()))
}

/// What a path that climbs and falls to its side falls all in all, in radians, where the place declares both: tan² = tan² + tan². Whether both
/// are ever met at one place the text does not say.
pub(crate) fn both(design: &Design) -> Option<f64> {
    let tangent = |key: &str| place(design, key).map(|s| libm::tan(s.abs())).filter(|t| *t > 0.0);
    Some(libm::atan(libm::hypot(tangent("slope")?, tangent("cross_slope")?)))
}

/// Where the text says the steepest slope.
pub(crate) fn said_steepest(design: &Design) -> Option<Origin> {
    let of = |key: &str| place(design, key).map_or(0.0, f64::abs);
    let key = if of("cross_slope") > of("slope") { "cross_slope" } else { "slope" };
    said(design, &format!("conditions.{key}"))
}

/// Where the text says a value such as `conditions.slope`.
pub(crate) fn said(design: &Design, name: &str) -> Option<Origin> {
    design.known.iter().find(|k| k.name == name).map(|k| k.origin)
}

/// Whether somebody walks behind the chair.
pub(crate) fn helped(design: &Design) -> bool {
    let word = |w: Option<&String>, is: &str| w.is_some_and(|w| w == is);
    word(design.conditions.words.get("helper"), "yes") || design.rider.word("pushes") == Some("assistant")
}

/// Whether somebody helps over sills and kerbs, wherever else the rider goes alone.
pub(crate) fn helped_at_steps(design: &Design) -> bool {
    helped(design) || design.conditions.words.get("helper").is_some_and(|w| w == "steps")
}
