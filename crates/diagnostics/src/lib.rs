//! Source texts, places in them, and what the compiler has to say about them.
//!
//! In come texts and [`Diagnostic`] values; out go renderings: full (for people, by ariadne), one
//! line each (for logs, by codespan-reporting), JSON and SARIF (for programs).
//! This room knows no grammar, no unit and no chair: it only knows places, codes and words.

mod codes;
mod full;
mod json;
mod line;
mod sarif;
mod source;
mod wrap;

pub use codes::{CODES, CodeInfo, Family, code};
pub use full::render_full;
pub use json::{DiagnosticRow, PlaceRow, json_rows};
pub use line::render_lines;
pub use sarif::render_sarif;
pub use source::{Source, SourceId, Sources, Span};
pub use wrap::wrap;

/// How much a finding weighs.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Severity {
    /// The design must not be built as it stands.
    Error,
    /// The compiler cannot tell; somebody must measure or test.
    CannotTell,
    /// It can be built, but somebody should look.
    Warning,
    /// Worth knowing.
    Advice,
}

impl Severity {
    /// The word that reports print.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Severity::Error => "error",
            Severity::CannotTell => "cannot tell",
            Severity::Warning => "warning",
            Severity::Advice => "advice",
        }
    }

    /// The weight that a word names.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Severity> {
        match word {
            "error" => Some(Severity::Error),
            "warning" => Some(Severity::Warning),
            "advice" => Some(Severity::Advice),
            _ => None,
        }
    }

    /// The word without spaces, for fixtures and machine forms.
    #[must_use]
    pub fn token(self) -> &'static str {
        if self == Severity::CannotTell { "cannot-tell" } else { self.word() }
    }
}

/// A place with a few words about it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Label {
    /// Where.
    pub span: Span,
    /// What to say there.
    pub text: String,
}

/// A change of the text that mends the finding.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Edit {
    /// What to replace.
    pub span: Span,
    /// By what.
    pub replacement: String,
}

/// One thing the compiler has to say.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Diagnostic {
    /// The registered code.
    pub code: &'static CodeInfo,
    /// How much it weighs.
    pub severity: Severity,
    /// What, on one short line.
    pub headline: String,
    /// Where; `None` says in so many words that it has no place in the text.
    pub primary: Option<Label>,
    /// The other parties.
    pub secondary: Vec<Label>,
    /// Why it matters to the chair.
    pub notes: Vec<String>,
    /// What to do next.
    pub help: Option<String>,
    /// The edit that does it, where one edit does.
    pub edit: Option<Edit>,
    /// Names of the things it is about, so that one of them can be accepted.
    pub about: Vec<String>,
    /// The variant, state and adjustment in which it happens, in words; `None` for the design as drawn.
    pub situation: Option<String>,
}

impl Diagnostic {
    /// A diagnostic with the registered default severity.
    ///
    /// An unregistered name falls back to `unregistered-code`, which a test forbids.
    #[must_use]
    pub fn new(name: &str, headline: impl Into<String>) -> Diagnostic {
        let code = code(name).unwrap_or(&CODES[0]);
        Diagnostic {
            code,
            severity: code.severity,
            headline: headline.into(),
            primary: None,
            secondary: Vec::new(),
            notes: Vec::new(),
            help: None,
            edit: None,
            about: Vec::new(),
            situation: None,
        }
    }

    /// Sets the primary place.
    #[must_use]
    pub fn at(mut self, span: Span, text: impl Into<String>) -> Diagnostic {
        self.primary = Some(Label { span, text: text.into() });
        self
    }

    /// Adds another place.
    #[must_use]
    pub fn also(mut self, span: Span, text: impl Into<String>) -> Diagnostic {
        self.secondary.push(Label { span, text: text.into() });
        self
    }

    /// Adds a reason.
    #[must_use]
    pub fn note(mut self, text: impl Into<String>) -> Diagnostic {
        self.notes.push(text.into());
        self
    }

    /// Sets the next action.
    #[must_use]
    pub fn help(mut self, text: impl Into<String>) -> Diagnostic {
        self.help = Some(text.into());
        self
    }

    /// Sets the edit that mends it.
    #[must_use]
    pub fn edit(mut self, span: Span, replacement: impl Into<String>) -> Diagnostic {
        self.edit = Some(Edit { span, replacement: replacement.into() });
        self
    }

    /// Sets the severity.
    #[must_use]
    pub fn severity(mut self, severity: Severity) -> Diagnostic {
        self.severity = severity;
        self
    }
}

/// Everything said about one compilation, in a stable order.
pub type Problems = Vec<Diagnostic>;

/// Sorts errors first, then by place, code and words, and drops exact repeats, so that every run
/// prints the same bytes. A finding that every variant repeats is kept once, under the first.
pub fn settle_order(problems: &mut Problems) {
    let key = |d: &Diagnostic| {
        let place = d.primary.as_ref().map(|l| l.span);
        let later = d.severity != Severity::Error;
        (later, place.is_none(), place, d.severity, d.code.number, d.headline.clone(), d.situation.clone())
    };
    problems.sort_by_cached_key(key);
    problems.dedup_by(|later, first| {
        later.code == first.code
            && later.headline == first.headline
            && later.primary.as_ref().map(|l| l.span) == first.primary.as_ref().map(|l| l.span)
    });
}
