//! Values from the command line: each is read as a text of its own, so that findings can point into it.

use crate::{Compilation, Project};
use chairwright_diagnostics::{Diagnostic, Family, Problems, Severity, Span, code};
use chairwright_language::Setting;
use chairwright_syntax::parse_expression;

/// What the texts of settings are called.
pub(crate) const COMMAND_LINE: &str = "command line";

impl Project {
    /// Reads settings from the command line; each becomes a text of its own.
    pub(crate) fn settings(&mut self, written: &[(String, String)]) -> (Vec<Setting>, Problems) {
        let mut settings = Vec::new();
        let mut problems = Problems::new();
        for (name, value) in written {
            let text = format!("{name} = {value}");
            let at = name.len() + 3;
            let source = self.sources.add(COMMAND_LINE, text.clone());
            // Blanks keep the places right: the expression is read where it stands in the text.
            let padded = format!("{}{value}", " ".repeat(at));
            match parse_expression(source, &padded) {
                Ok(value) => {
                    settings.push(Setting {
                        name: name.clone(),
                        span: Span::new(source, 0, name.len()),
                        value,
                    });
                }
                Err(more) => problems.extend(more),
            }
        }
        (settings, problems)
    }

    /// Errors for which a setting cannot be taken as it is written. What was worked out beside one is of a chair that nobody
    /// asked for; a value that is understood, and leads to errors, is none of these.
    #[must_use]
    pub fn refused_settings(&self, c: &Compilation) -> Problems {
        c.problems.iter().filter(|p| p.severity == Severity::Error && self.is_refused(p)).cloned().collect()
    }

    fn is_refused(&self, p: &Diagnostic) -> bool {
        let there = p.primary.as_ref().and_then(|l| self.sources.get(l.span.source));
        let unread = match p.code.name {
            "impossible-value" => true,
            // a value outside its range is taken all the same
            "out-of-range" => false,
            name => code(name)
                .is_some_and(|c| matches!(c.family, Family::Writing | Family::Names | Family::Dimensions)),
        };
        unread && there.is_some_and(|s| s.name == COMMAND_LINE)
    }
}
