//! What must hold for every frame: the mesh, the order, the axes and the way of loading do not matter.
#![allow(clippy::unwrap_used, reason = "functions that the tests share")]

#[path = "properties/conditioning.rs"]
mod conditioning;
#[path = "properties/hostile.rs"]
mod hostile;
#[path = "properties/invariance.rs"]
mod invariance;
#[path = "properties/like.rs"]
mod like;
#[path = "properties/narrow.rs"]
mod narrow;
#[path = "properties/near.rs"]
mod near;
#[path = "properties/panels.rs"]
mod panels;
#[path = "properties/random.rs"]
mod random;
