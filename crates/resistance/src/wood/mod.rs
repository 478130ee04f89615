//! Wood: from tests on clear pieces or a stated design value to what a member may carry.

mod beam;
mod board;
pub mod eurocode;
mod property;

pub use beam::{Interaction, Stresses, bent_and_pressed, bent_and_pulled, notched_shear, rectangle_shear};
pub use board::{Board, Centre, density, modulus_by_deflection, proof_stress};
pub use property::{Basis, Duration, Property, Service, Warmth, allowable, fifth_percentile};
