//! What every clause and every field means, in plain words: beside the specs, which say how they are written.
//!
//! A row holds where its list names the keyword of the statement, block or entry; with an empty list wherever no other row of
//! that word does. So a word that means the same everywhere is written once.

mod built;
mod clauses;
mod entries;
mod rider;
mod whole;

/// One meaning.
#[derive(Clone, Copy, Debug)]
pub struct Meaning {
    /// The clause or field.
    pub word: &'static str,
    /// Keywords of the statements, blocks and entries in which it means this; empty for all others.
    pub of: &'static [&'static str],
    /// What it is, from where it is measured, and what is taken where it is left out.
    pub about: &'static str,
}

const fn row(word: &'static str, of: &'static [&'static str], about: &'static str) -> Meaning {
    Meaning { word, of, about }
}

/// What a word means everywhere.
const ANYWHERE: &[Meaning] = &[
    row(
        "origin",
        &[],
        "where the value is from, or every value of the block that does not say its own; a value that says nothing is listed as of \
         unknown origin",
    ),
    row("by", &[], "who says so, as a role and never a name: \"nurse\""),
    row("dated", &[], "on which day or in which month: \"2026-03-02\", or \"2026-03\""),
    row("measured_by", &[], "who measured, as a role and never a name: \"therapist\""),
    row(
        "source",
        &[],
        "where the figures come from, so that the next builder can look them up: a page, a print line, a calliper",
    ),
    row("note", &[], "what else there is to say, in words"),
];

fn all() -> impl Iterator<Item = &'static Meaning> {
    [
        ANYWHERE,
        clauses::CLAUSES,
        rider::RIDER,
        rider::PLACE,
        built::BUILT,
        entries::MATTER,
        entries::PARTS,
        entries::RULES,
    ]
    .into_iter()
    .flatten()
}

/// What a clause or field means in the statement, block or entry with this keyword.
#[must_use]
pub fn meaning(of: &str, word: &str) -> Option<&'static str> {
    let own = all().find(|m| m.word == word && m.of.contains(&of));
    own.or_else(|| all().find(|m| m.word == word && m.of.is_empty())).map(|m| m.about)
}

/// What a statement, block or entry with this keyword is.
#[must_use]
pub fn whole(keyword: &str) -> Option<&'static str> {
    whole::WHOLE.iter().find(|m| m.word == keyword).map(|m| m.about)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fields::{AS_BUILT, BASELINE, CONDITIONS, ENTRIES, RIDER};
    use crate::schema::STATEMENTS;

    /// Keyword and word of every clause and field that there is.
    fn words() -> Vec<(&'static str, &'static str)> {
        let clauses = STATEMENTS.iter().flat_map(|s| s.clauses.iter().map(|c| (s.keyword, c.word)));
        let blocks =
            [("rider", RIDER), ("conditions", CONDITIONS), ("as_built", AS_BUILT), ("baseline", BASELINE)];
        let entries = ENTRIES.iter().map(|e| (e.keyword, e.fields));
        let fields =
            blocks.into_iter().chain(entries).flat_map(|(k, list)| list.iter().map(move |f| (k, f.key)));
        clauses.chain(fields).collect()
    }

    #[test]
    fn every_clause_and_field_has_a_meaning() {
        let silent: Vec<String> = words()
            .into_iter()
            .filter(|(of, word)| meaning(of, word).is_none_or(|about| about.trim().is_empty()))
            .map(|(of, word)| format!("{of} {word}"))
            .collect();
        assert!(silent.is_empty(), "{silent:?}");
    }

    #[test]
    fn every_statement_and_entry_has_a_meaning() {
        let keywords = STATEMENTS.iter().map(|s| s.keyword).chain(ENTRIES.iter().map(|e| e.keyword));
        let all: std::collections::BTreeSet<&str> = keywords.collect();
        let silent: Vec<&&str> = all.iter().filter(|k| whole(k).is_none_or(str::is_empty)).collect();
        assert!(silent.is_empty(), "{silent:?}");
        assert_eq!(whole::WHOLE.len(), all.len());
    }

    /// No row is about what is not there, none stands behind another, and no text is written twice.
    #[test]
    fn every_meaning_is_of_something_and_written_once() {
        let words = words();
        for m in all() {
            for of in m.of {
                assert!(words.contains(&(of, m.word)), "{of} has no {}", m.word);
                let rows = all().filter(|n| n.word == m.word && n.of.contains(of)).count();
                assert_eq!(rows, 1, "{of} {}", m.word);
            }
            assert!(words.iter().any(|(_, word)| *word == m.word), "{}", m.word);
            let alike = all()
                .filter(|n| n.word == m.word && (n.about == m.about || n.of.is_empty() && m.of.is_empty()));
            assert_eq!(alike.count(), 1, "{}", m.word);
        }
    }
}
