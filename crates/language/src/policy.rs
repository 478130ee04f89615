//! What the text says about findings themselves: accepted with a reason, or weighed otherwise.

use crate::Program;
use crate::scope::text_of;
use crate::words::{clause, value};
use chairwright_diagnostics::Span;
use chairwright_syntax::{Entry, ExprKind};

/// A finding that the design accepts.
#[derive(Clone, Debug)]
pub struct Accept {
    /// The code.
    pub code: String,
    /// The name it is about; `None` for every finding of that code.
    pub about: Option<String>,
    /// Why.
    pub reason: String,
    /// Where it says so.
    pub span: Span,
}

/// Another weight for a code.
#[derive(Clone, Debug)]
pub struct Level {
    /// The code.
    pub code: String,
    /// `error`, `warning` or `advice`.
    pub word: String,
    /// Why, where it is made lighter.
    pub reason: Option<String>,
    /// Where it says so.
    pub span: Span,
}

impl Program<'_> {
    fn said(&self, word: &'static str) -> impl Iterator<Item = &Entry> + '_ {
        self.scope.placed.iter().filter(move |p| p.spec.keyword == word && !p.ghost).map(|p| p.entry)
    }

    /// Findings that are accepted.
    #[must_use]
    pub fn accepts(&self) -> Vec<Accept> {
        self.said("accept")
            .filter_map(|e| {
                let reason = text_of(clause(e, "because")?.values.first())?.trim().to_owned();
                let about = clause(e, "about").and_then(|c| c.values.first()).map(crate::build::plain);
                let code = text_of(e.subject.as_ref())?.to_owned();
                Some(Accept { code, about, reason, span: e.head })
            })
            .collect()
    }

    /// Codes that are weighed otherwise.
    #[must_use]
    pub fn levels(&self) -> Vec<Level> {
        self.said("level")
            .filter_map(|e| {
                let code = text_of(e.subject.as_ref())?.to_owned();
                let word = match &value(e)?.kind {
                    ExprKind::Name(path) => path.text().to_string(),
                    _ => return None,
                };
                let reason = clause(e, "because").and_then(|c| text_of(c.values.first()));
                let reason = reason.map(str::trim).filter(|r| !r.is_empty()).map(str::to_owned);
                Some(Level { code, word, reason, span: e.head })
            })
            .collect()
    }
}
