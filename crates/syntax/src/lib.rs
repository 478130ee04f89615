//! From text to tree.
//!
//! In comes the text of one source; out go [`Parse`]: the tree, every token (comments and blanks
//! too), and the problems of writing. A broken line spoils only itself.
//! This room knows the shape of statements, not their meaning: no unit, no dimension, no chair.
//!
//! One shape serves every statement: `keyword subject = value clause value … { block }`.
//! Which keywords and clauses exist is for the `language` room to say.

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
