//! Worked cases of published books, and closed forms. Each names its source beside its figures.
//!
//! Figures in other units (kip, inch) are used as they are printed: any consistent set will do.
#![allow(clippy::unwrap_used, reason = "functions that the tests share")]

#[path = "books/bending.rs"]
mod bending;
#[path = "books/common.rs"]
mod common;
#[path = "books/frames.rs"]
mod frames;
#[path = "books/leaning.rs"]
mod leaning;
#[path = "books/second_order.rs"]
mod second_order;
#[path = "books/sections.rs"]
mod sections;
#[path = "books/springs.rs"]
mod springs;
#[path = "books/stability.rs"]
mod stability;
