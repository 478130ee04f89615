//! What can be wrong with prices and lengths, as data.

use chairwright_design::Origin;

/// A problem of prices or of what the shop sells.
#[derive(Clone, PartialEq, Debug)]
pub enum Problem {
    /// A row that cannot be read; bytes from `start` to `end` of the price book.
    BadRow {
        /// First byte.
        start: usize,
        /// One past the last byte.
        end: usize,
        /// What is wrong with it.
        why: String,
    },
    /// A second currency in one book.
    MixedCurrencies {
        /// First byte of the row.
        start: usize,
        /// One past its last byte.
        end: usize,
        /// The book's currency.
        first: String,
        /// The row's currency.
        second: String,
    },
    /// Two rows with the same key and the same sale unit, of which the cheaper is taken.
    PricedTwice {
        /// The key.
        key: String,
        /// First byte of the later row, and one past its last.
        again: (usize, usize),
        /// Those of the first row.
        first: (usize, usize),
        /// The prices that they ask, of the later and of the first row.
        prices: (String, String),
    },
    /// Nothing in the book has this key.
    MissingPrice {
        /// The key.
        key: String,
        /// Place in the text that asks for it.
        origin: Option<Origin>,
        /// The nearest key in the book.
        nearest: Option<String>,
    },
    /// A piece longer, or larger, than anything on sale.
    LongerThanStock {
        /// The piece.
        piece: String,
        /// Place in the text.
        origin: Option<Origin>,
        /// Its length (and width for a sheet), in metres.
        need: (f64, Option<f64>),
        /// The greatest on sale.
        longest: (f64, Option<f64>),
        /// The stock's name.
        stock: String,
    },
}
