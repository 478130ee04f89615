//! What materials, members and joints of hardware-shop frames can carry.
//!
//! In come sizes, strengths and conditions as plain numbers in SI units (m, N, Pa, K, s, rad). Out
//! goes a [`Capacity`]: how much, what gives first, what was assumed, what the maker must see to; or
//! a [`Refusal`]: a load path that must [`Never`] carry, or a figure [`Outside`] what the formula is
//! known for. Nothing is extrapolated.
//!
//! Each formula stands beside its [`Source`]. Strengths of materials come in as arguments; what is
//! kept here are the tables that belong to a method (temperature factors, cure steps, duration
//! factors, bolt classes), each with its source.
//!
//! This room knows no frame, no load case and no chair: it must not know what a member is for.

pub mod bolt_in_pipe;
mod capacity;
pub mod column;
pub mod compatible;
pub mod connection;
pub mod dowel;
pub mod glue;
pub mod group;
pub mod gusset;
pub mod metal;
mod never;
pub mod pvc;
pub mod rating;
pub mod section;
pub mod shock;
pub mod socket;
mod source;
pub mod spacing;
pub mod withdrawal;
pub mod wood;

pub use capacity::{Assumed, Capacity, Figure, Mode, Need, NotKnown, Outside, Refusal, Yield};
pub use never::Never;
pub use source::{Source, Standing};
