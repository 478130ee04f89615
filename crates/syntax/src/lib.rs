//! From text to tree.
//!
//! In comes the text of one source; out go [`Parse`]: the tree, every token (comments and blanks
//! too), and the problems of writing. A broken line spoils only itself.
//! This room knows the shape of statements, not their meaning: no dimension, no chair,
//! and of units only those that its refusals of other habits write (`in`, `ft`, `deg`).
//!
//! One shape serves every statement: `keyword subject = value clause value … { block }`.
//! Which keywords and clauses exist is for the `language` room to say; `words` lists them for reading a line
//! that is broken, and a test of that room holds the two together.

mod cook;
mod entries;
mod format;
mod grammar;
mod token;
mod tree;
mod unread;
mod words;

pub use entries::{Limits, Parse, parse, parse_expression};
pub use format::format;
pub use token::{Raw, tokens};
pub use tree::{Binary, Block, Clause, Entry, Expr, ExprKind, Literal, Part, Path, Unary, Word};
pub use words::{CLAUSE_WORDS, DIRECTIONS, NEARLY_STATEMENTS, RESERVED, STATEMENT_WORDS};
