//! The test sheet before anyone sits, and the verdict on the built chair.
//!
//! In come the evaluated [`chairwright_design::Design`], its *plan* worked out without anything measured
//! ([`chairwright_checks::Checked`]), its [`chairwright_strength::Strength`] and the design's own demands; out goes
//! [`TestSheet`], plain data: tests in their order, each with its sand, the readings to write down, what the plan expects
//! and what passes, and the result where the design says what was measured on the built chair. [`reasons`] lists
//! everything that holds the chair back; only an empty list releases it.
//!
//! This room formats nothing and must not know texts, prices or printed units; steps and reasons are put into words
//! by `driver`. Nothing here is an ISO 7176 test: the loads are those of a workshop, no pass mark is a standard's, and
//! wear is not tried at all.

mod dummy;
mod guard;
mod judge;
mod limits;
mod make;
mod sheet;
mod tilt;
mod trials;
mod weak;

pub use judge::{Reason, judge, reasons};
pub use limits::{
    BATTEN, BATTENS, BRAKE, COAST, DROPS, FACTOR, FLOOR, HOURS, MASS, MINUTES, NEAR, SCALE, SET, SINKS, SIZE,
    TOE, WALK,
};
pub use make::{Demand, Plan, test_sheet};
pub use sheet::{Bag, Kind, Lack, Limit, Outcome, Place, Reading, Test, TestSheet, Weak, Why};
