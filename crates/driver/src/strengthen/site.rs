//! Where a part stands in the text: its statement, clauses, and the words for directions.

use chairwright_design::{Design, Origin, Side, Vec3};
use chairwright_diagnostics::{Edit, Source, Sources, Span};
use chairwright_strength::Room;
use chairwright_syntax::{Clause, Entry, Limits, parse};

/// The text and what it says.
pub(super) struct Site<'a> {
    pub sources: &'a Sources,
    pub design: &'a Design,
    pub origins: &'a [Span],
    /// The faces that fasteners go through.
    pub rooms: &'a [Room],
}

/// One statement of the builder's own text.
pub(super) struct Statement<'a> {
    pub source: &'a Source,
    pub entry: Entry,
}

/// The innermost statement whose head covers a place.
fn innermost(entries: &[Entry], at: u32) -> Option<&Entry> {
    let outer = entries.iter().find(|e| (e.span.start..e.span.end).contains(&at))?;
    let inner = outer.block.as_ref().and_then(|b| innermost(&b.entries, at));
    inner.or_else(|| (outer.head.start..outer.head.end).contains(&at).then_some(outer))
}

impl<'a> Site<'a> {
    pub fn statement(&self, origin: Origin) -> Option<Statement<'a>> {
        let span = self.origins.get(origin.0 as usize)?;
        let source = self.sources.get(span.source)?;
        if source.name.starts_with("catalogue.") || source.name == crate::settings::COMMAND_LINE {
            return None;
        }
        let read = parse(span.source, &source.text, &Limits::default());
        Some(Statement { source, entry: innermost(&read.entries, span.start)?.clone() })
    }
}

impl Statement<'_> {
    pub fn clause(&self, word: &str) -> Option<&Clause> {
        self.entry.clauses.iter().find(|c| c.word.text == word)
    }

    pub fn slice(&self, span: Span) -> &str {
        self.source.slice(span)
    }

    /// A clause as it is written, or nothing.
    pub fn written(&self, word: &str) -> &str {
        self.clause(word).map_or("", |c| self.slice(c.span))
    }

    /// The statement as it is written, without its block.
    pub fn text(&self) -> &str {
        self.slice(self.entry.head)
    }

    /// Blanks before it.
    pub fn margin(&self) -> &str {
        let before = self.source.text.get(..self.entry.span.start as usize).unwrap_or("");
        let line = before.rsplit('\n').next().unwrap_or("");
        let blanks = line.len() - line.trim_start().len();
        line.get(..blanks).unwrap_or("")
    }

    pub fn replace(&self, span: Span, by: impl Into<String>) -> Edit {
        Edit { span, replacement: by.into() }
    }

    /// Puts lines behind it.
    pub fn behind(&self, lines: &[String]) -> Edit {
        let end = Span { start: self.entry.span.end, ..self.entry.span };
        let margin = self.margin();
        let text: String = lines.iter().map(|l| format!("\n{margin}{l}")).collect();
        Edit { span: end, replacement: text }
    }

    /// The text with edits of this statement made.
    pub fn with(&self, edits: &[Edit]) -> String {
        let mut text = self.text().to_owned();
        let mut mine: Vec<&Edit> = edits.iter().collect();
        mine.sort_by_key(|e| std::cmp::Reverse(e.span.start));
        for e in mine {
            let from = (e.span.start - self.entry.head.start) as usize;
            let to = (e.span.end - self.entry.head.start) as usize;
            if to <= text.len() {
                text.replace_range(from..to, &e.replacement);
            }
        }
        text
    }
}

/// The word for a direction along an axis of the chair; `None` for one that is slanted.
pub(super) fn direction(v: Vec3, side: Option<Side>) -> Option<&'static str> {
    const STRAIGHT: f64 = 0.999;
    let along = |axis: Vec3| v.dot(axis);
    let aside = match side {
        Some(Side::Left) => [("outward", along(Vec3::Y)), ("inward", -along(Vec3::Y))],
        Some(Side::Right) => [("outward", -along(Vec3::Y)), ("inward", along(Vec3::Y))],
        None => [("left", along(Vec3::Y)), ("right", -along(Vec3::Y))],
    };
    let rest = [
        ("up", along(Vec3::Z)),
        ("down", -along(Vec3::Z)),
        ("forward", along(Vec3::X)),
        ("back", -along(Vec3::X)),
    ];
    aside.into_iter().chain(rest).find(|(_, share)| *share > STRAIGHT).map(|(word, _)| word)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn directions_have_words_on_either_side() {
        assert_eq!(direction(Vec3::Y, Some(Side::Left)), Some("outward"));
        assert_eq!(direction(Vec3::Y, Some(Side::Right)), Some("inward"));
        assert_eq!(direction(Vec3::Y, None), Some("left"));
        assert_eq!(direction(Vec3::Z * -1.0, None), Some("down"));
        assert_eq!(direction(Vec3::new(0.7, 0.7, 0.0), None), None);
    }
}
