//! What meets the edge of a sill or kerb, in words.

use crate::words::Words;
use chairwright_checks::roll::{Low, Problem};
use chairwright_design::Origin;
use chairwright_diagnostics::{Diagnostic, Severity};

impl Words<'_> {
    pub(crate) fn strikes(&self, problem: &Problem) -> Diagnostic {
        match problem {
            Problem::Strikes { at: Low::Ahead, what, origin, height, part, low } => {
                let said = Diagnostic::new(
                    "strikes-sill",
                    format!("{} meets the {what} before the casters do", self.part(part)),
                );
                let label = format!("{} high, the part only {}", self.length(*height), self.length(*low));
                self.at_or(said, *origin, label).note("it stops the chair dead, and the rider goes on").help(
                    format!(
                        "raise it by {}, or bring it back behind the front of the casters",
                        self.up(height - low)
                    ),
                )
            }
            Problem::Strikes { at, what, origin, height, part, low } => {
                self.not_cleared(*at == Low::OverRidge, (what, *origin), part, (*height, *low))
            }
            _ => self.meeting(problem),
        }
    }

    /// What hangs low under the chair, and the edge that the casters are over.
    fn not_cleared(
        &self,
        ridge: bool,
        (what, origin): (&str, Option<Origin>),
        part: &str,
        (height, low): (f64, f64),
    ) -> Diagnostic {
        let part = self.part(part);
        let raise = self.up(height - low);
        if ridge {
            let said =
                Diagnostic::new("strikes-sill", format!("nobody can tell whether {part} clears this {what}"))
                    .severity(Severity::CannotTell);
            let label = format!("{} high, the part {}", self.length(height), self.length(low));
            return self
                .at_or(said, origin, label)
                .note("a ridge of that height between two floors catches it under the chair; a step up to a higher floor it clears")
                .help(format!("raise it by {raise}; where the floor behind is as high as the {what}, write kerb = … instead"));
        }
        let said = Diagnostic::new(
            "strikes-sill",
            format!("{part} does not clear the {what} that the casters are up on"),
        );
        let label =
            format!("{} high, the part {} above the ground before it", self.length(height), self.length(low));
        self.at_or(said, origin, label)
            .note("the edge catches it between casters and rear wheels: the chair hangs on it")
            .help(format!("raise it by {raise}, or a wedge, a ramp, a helper (helper = steps)"))
    }
}
