//! Source texts and places in them.

/// Which text.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct SourceId(pub u32);

/// A range of bytes in one text.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Span {
    /// Which text.
    pub source: SourceId,
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// A span from byte offsets.
    #[must_use]
    #[allow(clippy::cast_possible_truncation)]
    pub fn new(source: SourceId, start: usize, end: usize) -> Span {
        Span { source, start: start as u32, end: end as u32 }
    }

    /// The smallest span that covers both (of one text).
    #[must_use]
    pub fn to(self, other: Span) -> Span {
        Span { source: self.source, start: self.start.min(other.start), end: self.end.max(other.end) }
    }

    /// An empty span just behind this one, for insertions.
    #[must_use]
    pub fn behind(self) -> Span {
        Span { start: self.end, ..self }
    }

    /// The bytes as a range.
    #[must_use]
    pub fn range(self) -> std::ops::Range<usize> {
        self.start as usize..self.end as usize
    }
}

/// One text with the starts of its lines.
#[derive(Clone, Debug)]
pub struct Source {
    /// The name that reports print: a path inside the project, or a catalogue page.
    pub name: String,
    /// The text.
    pub text: String,
    lines: Vec<usize>,
}

impl Source {
    fn new(name: String, text: String) -> Source {
        let breaks = text.bytes().enumerate().filter(|(_, b)| *b == b'\n').map(|(i, _)| i + 1);
        let lines = std::iter::once(0).chain(breaks).collect();
        Source { name, text, lines }
    }

    /// Line and column, both from one, the column in characters.
    #[must_use]
    pub fn position(&self, offset: usize) -> (usize, usize) {
        let offset = self.clamp(offset);
        let line = self.lines.partition_point(|s| *s <= offset).saturating_sub(1);
        let column = self.text[self.lines[line]..offset].chars().count();
        (line + 1, column + 1)
    }

    /// The nearest character border at or before an offset.
    #[must_use]
    pub fn clamp(&self, offset: usize) -> usize {
        let mut offset = offset.min(self.text.len());
        while !self.text.is_char_boundary(offset) {
            offset -= 1;
        }
        offset
    }

    /// The text of a span, or nothing where the span lies outside.
    #[must_use]
    pub fn slice(&self, span: Span) -> &str {
        self.text.get(self.clamp(span.start as usize)..self.clamp(span.end as usize)).unwrap_or("")
    }
}

/// All texts of one compilation.
#[derive(Clone, Debug, Default)]
pub struct Sources {
    list: Vec<Source>,
}

impl Sources {
    /// Adds a text.
    #[allow(clippy::cast_possible_truncation)]
    pub fn add(&mut self, name: impl Into<String>, text: impl Into<String>) -> SourceId {
        self.list.push(Source::new(name.into(), text.into()));
        SourceId(self.list.len() as u32 - 1)
    }

    /// How many texts there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.list.len()
    }

    /// Forgets all texts but the first so many.
    pub fn keep(&mut self, count: usize) {
        self.list.truncate(count);
    }

    /// The text with this id.
    #[must_use]
    pub fn get(&self, id: SourceId) -> Option<&Source> {
        self.list.get(id.0 as usize)
    }

    /// All texts in the order they were added.
    pub fn iter(&self) -> impl Iterator<Item = (SourceId, &Source)> {
        (0u32..).map(SourceId).zip(&self.list)
    }

    /// The text of a span.
    #[must_use]
    pub fn slice(&self, span: Span) -> &str {
        self.get(span.source).map_or("", |s| s.slice(span))
    }
}
