//! Clearances.
mod convex;
mod depth;
mod distance;
mod sweep;
