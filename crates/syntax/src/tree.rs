//! The tree: plain data with exact ranges.

use chairwright_diagnostics::Span;
use smol_str::SmolStr;

/// A word and its place.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Word {
    /// The word as written.
    pub text: SmolStr,
    /// Where.
    pub span: Span,
}

/// Words joined by dots: `left.knee`.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Path {
    /// The words, at least one.
    pub words: Vec<Word>,
    /// The whole range.
    pub span: Span,
}

impl Path {
    /// The path as one text.
    #[must_use]
    pub fn text(&self) -> SmolStr {
        match self.words.as_slice() {
            [only] => only.text.clone(),
            words => words.iter().map(|w| w.text.as_str()).collect::<Vec<_>>().join(".").into(),
        }
    }
}

/// One part of a literal: `1 1/4 in` or the `6 in` of `5 ft 6 in`.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Part {
    /// The decimal or whole number, if there is one before the fraction.
    pub number: Option<SmolStr>,
    /// Numerator and denominator of a fraction.
    pub fraction: Option<(SmolStr, SmolStr)>,
    /// The unit, with its place.
    pub unit: Option<Word>,
    /// The whole range.
    pub span: Span,
}

/// A number with or without units, as written.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Literal {
    /// The parts, at least one.
    pub parts: Vec<Part>,
}

/// An operator before one value.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Unary {
    /// `-`
    Minus,
    /// `not`
    Not,
}

/// An operator between two values.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Binary {
    /// `+`
    Plus,
    /// `-`
    Minus,
    /// `*`
    Times,
    /// `/`
    Over,
    /// `^`
    Power,
    /// `±`
    Tolerance,
    /// `..`
    Range,
    /// `<`
    Less,
    /// `<=`
    AtMost,
    /// `>`
    More,
    /// `>=`
    AtLeast,
    /// `==`
    Same,
    /// `!=`
    Differs,
    /// `and`
    And,
    /// `or`
    Or,
}

/// An expression with its range.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Expr {
    /// What it is.
    pub kind: ExprKind,
    /// Where.
    pub span: Span,
}

/// The kinds of expression.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum ExprKind {
    /// A number.
    Literal(Literal),
    /// A quoted text, without its quotes.
    Text(SmolStr),
    /// A name.
    Name(Path),
    /// An operator before a value.
    Unary(Unary, Box<Expr>),
    /// An operator between two values.
    Binary(Binary, Box<Expr>, Box<Expr>),
    /// A function applied to values.
    Call(Path, Vec<Expr>),
    /// Values in parentheses, not exactly one.
    List(Vec<Expr>),
    /// A distance in a direction: `up 420 mm leaning back 8 deg`.
    Direction {
        /// Which way.
        word: Word,
        /// How far.
        amount: Box<Expr>,
        /// Which way it leans, and by what angle.
        lean: Option<(Word, Box<Expr>)>,
    },
    /// A distance parallel to a member: `along seat_rail by 200 mm`.
    Along {
        /// The member.
        line: Path,
        /// How far.
        amount: Box<Expr>,
    },
    /// A literal or text that was refused while reading; already reported.
    Broken,
}

/// One clause: `from hip, up 20 mm`.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Clause {
    /// The word that opens it.
    pub word: Word,
    /// Its values, at least one.
    pub values: Vec<Expr>,
    /// The whole range.
    pub span: Span,
}

/// Entries in braces.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Block {
    /// The entries.
    pub entries: Vec<Entry>,
    /// From brace to brace.
    pub span: Span,
}

/// One statement or field.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Entry {
    /// The doc comment above it, without its slashes.
    pub doc: Option<String>,
    /// The word that opens it.
    pub keyword: Path,
    /// What it is about: a name, a text, a number, a condition.
    pub subject: Option<Expr>,
    /// The values behind `=`.
    pub value: Option<Vec<Expr>>,
    /// The clauses.
    pub clauses: Vec<Clause>,
    /// The block.
    pub block: Option<Block>,
    /// The range of everything but the block.
    pub head: Span,
    /// The range of everything.
    pub span: Span,
}
