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
//! ```
//! use chairwright_resistance::{Never, Refusal, withdrawal::{Fastener, Into, withdrawal}, wood::{Duration, Service, Warmth}};
//!
//! let years = Service { duration: Duration::TenYears, wet: false, warmth: Warmth::Usual };
//! let pull = |into| withdrawal(Fastener::WoodScrew, 0.45, 0.0048, 0.032, into, years);
//! let side = pull(Into::SideGrain)?;
//! assert!(side.use_of(300.0) < 1.0 && side.use_of(900.0) > 1.0);
//! assert_eq!(pull(Into::EndGrain), Err(Refusal::Never(Never::EndGrainWithdrawal)));
//! # Ok::<(), Refusal>(())
//! ```
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
pub mod keep;
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
pub mod wording;

pub use capacity::{Assumed, Capacity, Figure, Mode, Need, NotKnown, Outside, Refusal, Yield};
pub use never::Never;
pub use source::{Source, Standing};
