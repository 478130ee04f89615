//! Entries read by the words they mean, whatever their spelling.

use chairwright_design::spelling;
use chairwright_syntax::{Clause, Entry, Expr, Path};
use smol_str::SmolStr;

/// A dotted word with every part in its usual spelling.
pub(crate) fn usual(text: &str) -> SmolStr {
    if text.contains('.') {
        return text.split('.').map(spelling).collect::<Vec<_>>().join(".").into();
    }
    spelling(text).into()
}

/// Whether a path says a dotted word, which is in its usual spelling. Asked of every line of a block for every field, so nothing is put together.
pub(crate) fn says(path: &Path, word: &str) -> bool {
    match path.words.as_slice() {
        [only] => spelling(&only.text) == word,
        words => words.iter().map(|w| spelling(&w.text)).eq(word.split('.')),
    }
}

/// The word that opens an entry, in its usual spelling.
pub(crate) fn keyword(entry: &Entry) -> SmolStr {
    usual(&entry.keyword.text())
}

/// A path in its usual spelling.
pub(crate) fn usual_path(path: &Path) -> SmolStr {
    usual(&path.text())
}

/// The clause that a word opens.
pub(crate) fn clause<'a>(entry: &'a Entry, word: &str) -> Option<&'a Clause> {
    entry.clauses.iter().find(|c| spelling(&c.word.text) == word)
}

/// The first value behind `=`.
pub(crate) fn value(entry: &Entry) -> Option<&Expr> {
    entry.value.as_deref().and_then(<[Expr]>::first)
}

/// The entries of an entry's block.
pub(crate) fn inner(entry: &Entry) -> impl Iterator<Item = &Entry> {
    entry.block.iter().flat_map(|b| &b.entries)
}

/// The line of a block with this key and a value.
pub(crate) fn line_of<'a>(entry: &'a Entry, key: &str) -> Option<&'a Entry> {
    inner(entry).find(|e| says(&e.keyword, key) && value(e).is_some())
}

/// The value of a field of a block.
pub(crate) fn field_of<'a>(entry: &'a Entry, key: &str) -> Option<&'a Expr> {
    inner(entry).filter(|e| says(&e.keyword, key)).find_map(value)
}
