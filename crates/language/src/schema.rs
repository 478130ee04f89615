//! Which statements there are, what each must carry, and of what kind it is.
//!
//! The tables are the one place that knows a statement's clauses; checking, error texts and the
//! reference all read them.

pub use crate::statements::STATEMENTS;
use chairwright_quantity::Dimension;

/// What a value must be.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Kind {
    /// A quantity of this dimension.
    Quantity(Dimension),
    /// A quantity that may carry a tolerance or be a range.
    Band(Dimension),
    /// Money in any currency, or any quantity: for values that carry their own dimension.
    AnyQuantity,
    /// A quoted text.
    Text,
    /// A quoted day or month: year-month-day.
    Date,
    /// One of these words.
    Word(&'static [&'static str]),
    /// A place: a point and steps from it.
    Place,
    /// A direction word or a step.
    Toward,
    /// The name of a joint.
    Joint,
    /// The name of a member.
    Member,
    /// The name of any drawn thing.
    Thing,
    /// A stock: a catalogue text or a bound name.
    Stock,
    /// A bought part: a catalogue text or a bound name.
    Part,
    /// Several points.
    Points,
    /// Catalogue texts of fasteners.
    Fasteners,
    /// Something true or false.
    Condition,
    /// Text, name or number, taken as written.
    Plain,
    /// The closing of a joint: fitting texts, best first, or a word.
    Closing,
    /// Steps from where something would lie.
    Steps,
    /// The name of an assembly.
    Assembly,
    /// Quantities of one kind.
    Several,
    /// The name of a code, in quotes.
    Code,
}

/// What stands between keyword and `=`.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Subject {
    /// Nothing.
    None,
    /// A new name.
    NewName,
    /// A value of this kind.
    Value(Kind),
}

/// One clause of a statement.
#[derive(Clone, Copy, Debug)]
pub struct ClauseSpec {
    /// The word that opens it.
    pub word: &'static str,
    /// What its values must be.
    pub kind: Kind,
    /// Whether the statement cannot do without it.
    pub required: bool,
}

/// Where a statement may stand.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stands {
    /// Only in the text itself.
    Text,
    /// In assemblies, repetitions and `when` too.
    Inside,
    /// In `both sides` as well.
    Anywhere,
    /// Only in an assembly.
    Assembly,
}

/// One statement.
#[derive(Clone, Copy, Debug)]
pub struct StatementSpec {
    /// The word that opens it.
    pub keyword: &'static str,
    /// What it is about.
    pub subject: Subject,
    /// What stands behind `=`, if anything may.
    pub value: Option<Kind>,
    /// The clauses.
    pub clauses: &'static [ClauseSpec],
    /// Where it may stand.
    pub stands: Stands,
    /// How one is written.
    pub shape: &'static str,
}

/// The statement with this keyword, in any of its spellings.
#[must_use]
pub fn statement_spec(keyword: &str) -> Option<&'static StatementSpec> {
    let keyword = chairwright_design::spelling(keyword);
    STATEMENTS.iter().find(|s| s.keyword == keyword)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_grammar_knows_every_statement_and_no_other() {
        let entries = || crate::fields::ENTRIES.iter().map(|e| e.keyword);
        let words = chairwright_syntax::STATEMENT_WORDS;
        for word in STATEMENTS.iter().map(|s| s.keyword).chain(entries()) {
            assert!(words.contains(&word), "{word}");
        }
        for word in words {
            let usual = chairwright_design::spelling(word);
            assert!(statement_spec(word).is_some() || entries().any(|e| e == usual), "{word}");
        }
        for (_, meant) in chairwright_syntax::NEARLY_STATEMENTS {
            assert!(statement_spec(meant).is_some(), "{meant}");
        }
    }

    #[test]
    fn the_grammar_knows_every_clause() {
        for clause in STATEMENTS.iter().flat_map(|s| s.clauses) {
            assert!(chairwright_syntax::CLAUSE_WORDS.contains(&clause.word), "{}", clause.word);
        }
    }
}
