//! Price books and the bill of materials.
//!
//! In come a price book's text and what the frame needs; out go a [`PriceBook`], a [`Bill`] with
//! exact decimal money, and typed [`Problem`]s. Lengths and sheets are counted whole, from the
//! packing. This room knows no file and no clock.

mod bill;
mod book;
mod change;
mod needs;
mod problem;
mod shed;
mod used_up;

pub use bill::{Bill, BillRow, bill};
pub use book::{Pack, PriceBook, PriceRow, read_book};
pub use change::{Bought, Difference, difference};
pub use needs::{Class, Need, needs};
pub use problem::Problem;
pub use shed::{FromShed, Shed, read_shed};
pub use used_up::{UsedUp, used_up};

pub use chairwright_design::fold;
