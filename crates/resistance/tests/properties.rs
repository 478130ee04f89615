//! What must hold of any figures: order, symmetry, limits, and that nothing odd passes as a capacity.
#![allow(clippy::unwrap_used, reason = "functions that the tests share")]

#[path = "properties/joints.rs"]
mod joints;
#[path = "properties/order.rs"]
mod order;
#[path = "properties/random.rs"]
mod random;
#[path = "properties/refusals.rs"]
mod refusals;
#[path = "properties/symmetry.rs"]
mod symmetry;
