//! Mass, balance, sizes: the figures of the chair at rest with its rider; how it rolls ([`roll`]) and where it finds
//! room ([`room`]).
//!
//! In come a design and its frame; out go [`Figures`], each with its formula, source and inputs,
//! and typed [`Problem`]s. This room knows no text and formats nothing.

mod assumed;
mod balance;
mod baseline;
mod body;
mod carried;
mod clear;
mod ends;
mod feet;
mod figure;
mod fit;
mod layout;
mod margins;
mod measures;
mod origins;
mod problem;
pub mod roll;
pub mod room;
mod sizes;
mod tested;
mod toe;
mod undeclared;
mod weigh;

pub use assumed::Assumed;
pub use balance::{CURVE, Compared, Curve, Exit, curves, exit_distance, invert, is_reading, tip_angle};
pub use baseline::Beside;
pub use body::{Growth, Leg, LegEnd, RiderBody, SegmentMass, ankle_height, grow, grown, guessed, seat_rider};
pub use clear::{
    Caught, Collided, Doubt, Overlap, Overlaps, Shift, Stage, Struck, Trouble, Way, caught, collided, overlaps,
};
pub use figure::{Figure, Figures, Input};
pub use fit::{Back, Between, Broken, FarBehind, FitMargin, Measured, Reach, SkinFlag};
pub use margins::Margin;
pub use problem::{AntiTipFault, Held, JointName, Lack, Limb, LimbDoubt, Mismatch, Pressed, Problem, Unseated};
pub use sizes::MOST_LEAN;
pub use tested::{SIZE, TAPE};
pub use toe::MOST_TOE;
pub use weigh::{Mass, weigh};

use chairwright_design::{Design, SupportKind, Vec3};
use chairwright_frame::{Frame, Group, Settled, settle};

/// The chair worked out: pose, figures and problems.
#[derive(Clone, Debug, Default)]
pub struct Checked {
    /// The pose at rest, if there is one.
    pub settled: Option<Settled>,
    /// The rider in the seat, if that could be worked out.
    pub rider: Option<RiderBody>,
    /// Chair and rider in the settled pose: without what rides along, with each of it and with all of it, as far as a tipping
    /// test of the built chair leaves them open; by the names of what rides along. The last is the one that figures are of.
    pub loadings: Vec<(String, Mass)>,
    /// The slope that tips the chair by the way down, every 5 degrees from straight ahead over the left, in radians.
    pub curve: Vec<f64>,
    /// The arms at their push rims.
    pub reach: Vec<Reach>,
    /// Rules of fit that the design departs from on purpose.
    pub deviated: Vec<Broken>,
    /// Plan and built chair side by side.
    pub compared: Vec<Compared>,
    /// The chair beside one that the rider likes.
    pub beside: Vec<Beside>,
    /// What stands beside the hips nearer than the edges of the seat.
    pub between: Option<Between>,
    /// How far each judged figure of fit is from its rule.
    pub fit_margins: Vec<FitMargin>,
    /// Figures whose rule of fit is kept.
    pub kept: Vec<&'static str>,
    /// What became of the margins of the use profile.
    pub margins: Vec<Margin>,
    /// Every figure that could be computed.
    pub figures: Figures,
    /// What is wrong.
    pub problems: Vec<Problem>,
    /// How much more would be wrong with a whole chair, and is not told of a part of one, which has no name.
    pub withheld: usize,
    /// What was assumed.
    pub assumptions: Vec<Assumed>,
    /// By how much the tests of the built chair move the centre of mass of chair and rider, m: each a corner of what they leave
    /// open. Empty where it was not tested.
    pub shifts: Vec<Vec3>,
}

impl Checked {
    /// What was measured of a figure on the built chair, beside its plan.
    pub(crate) fn built(&self, figure: &str) -> Option<&Compared> {
        self.compared.iter().find(|c| c.figure == figure)
    }

    /// How much more a figure is at most on the built chair than in its plan; nothing where it is less, or not measured.
    pub(crate) fn built_more(&self, figure: &str) -> f64 {
        let more = self.built(figure).and_then(|c| Some(c.built.1 - c.plan?));
        more.unwrap_or(0.0).max(0.0)
    }
}

/// Computes every figure of this room.
#[must_use]
pub fn check(design: &Design, frame: &Frame) -> Checked {
    // whoever shares work out from within the pool need not wait to be let in each time
    rayon::scope(|_| checked(design, frame))
}

fn checked(design: &Design, frame: &Frame) -> Checked {
    let mut out = at_rest(design, frame);
    if let Some(as_built) = tested::readings(design) {
        // the tipping test has moved the centre of mass by now: the plan is worked out without it
        let plan = at_rest(&Design { as_built: None, ..design.clone() }, frame);
        balance::measured(design, as_built, &plan.figures, &mut out);
    }
    tested::told(design, &mut out.assumptions);
    toe::toe(design, &mut out);
    toe::camber(design, &mut out);
    if !design.unridden {
        margins::margins(design, &mut out);
        margins::turned(design, &mut out);
        undeclared::undeclared(design, &mut out);
    }
    roll::roll(design, frame, &mut out);
    room::room(design, frame, &mut out);
    baseline::baseline(design, &mut out);
    if let Some(as_built) = tested::readings(design) {
        balance::measured_brakes(as_built, &mut out);
    }
    unnamed(design, &mut out);
    out
}

fn at_rest(design: &Design, frame: &Frame) -> Checked {
    let mut out = Checked::default();
    let chair = weigh(frame.bodies.iter().map(|b| (b.mass, b.centre)));
    let framework = weigh(frame.bodies.iter().filter(|b| b.group == Group::Frame).map(|b| (b.mass, b.centre)));
    let wheels = weigh(frame.bodies.iter().filter(|b| b.group == Group::Wheel).map(|b| (b.mass, b.centre)));
    if !frame.bodies.is_empty() {
        weigh::figures(&chair, &framework, &wheels, &mut out.figures);
    }
    origins::origins(design, &mut out.problems);
    measures::odd(design, &mut out.problems);
    out.problems.extend(ends::contradictions(design));
    measures::mismatched(design, &mut out.problems);
    measures::unused(design, &mut out.assumptions);
    if body::grows_unsaid(&design.rider) {
        let origin = roll::said(design, "rider.after").or(design.rider.origin);
        out.problems.push(Problem::GrowthUnsaid { small: body::small(&design.rider), origin });
    }
    out.rider = seat_rider(design, &mut out.assumptions, &mut out.problems);
    carried::far_off(design, frame, out.rider.as_ref(), &mut out.problems);
    let whole = !design.name.is_empty() && !design.wheels.is_empty();
    if design.rider.given && whole && body::support(design, SupportKind::Seat).is_none() {
        out.problems.push(Problem::NoSeat { origin: design.rider.origin });
    }
    let total = match &out.rider {
        Some(rider) => {
            let all = frame.bodies.iter().map(|b| (b.mass, b.centre));
            let carried = design.carried.iter().map(|c| (c.mass, c.at));
            weigh(all.chain(rider.segments.iter().map(|s| (s.mass, s.centre))).chain(carried))
        }
        None => chair,
    };
    if let Some(rider) = &out.rider {
        weigh::rider_figures(design, rider, &total, &chair, &mut out.figures);
    } else if !design.rider.given {
        out.assumptions.push(Assumed::NoRider);
    }
    weigh::as_built(design, &mut out.figures);
    sizes::drawn(design, &mut out.figures);
    if design.unridden {
        sizes::packed(frame, &mut out.figures);
        return out;
    }
    if design.wheels.is_empty() && design.casters.is_empty() {
        fit::fit(design, frame, None, &mut out);
        return out;
    }
    match settle(design, total.centre, 0.0) {
        Ok(settled) => {
            let rider = out.rider.clone();
            let looked = clear::look(design, frame, rider.as_ref(), || {
                sizes::settled(design, frame, &settled, &mut out);
                balance::balance(design, frame, &settled, &chair, &mut out);
                fit::fit(design, frame, Some(&settled), &mut out);
            });
            clear::clear(design, &settled, looked, &mut out);
            out.settled = Some(settled);
        }
        Err(error) => {
            fit::fit(design, frame, None, &mut out);
            out.problems.push(Problem::CannotStand(error));
        }
    }
    out
}

/// A frame with a rider of its own is a whole chair to whoever wrote it: without a name it is judged as a part of one.
fn unnamed(design: &Design, out: &mut Checked) {
    if out.withheld > 0 && design.rider.given && !design.members.is_empty() {
        out.problems.push(Problem::Unnamed { origin: design.rider.origin, withheld: out.withheld });
    }
}
