//! Findings that the text accepts with a reason, or weighs otherwise.

use chairwright_diagnostics::{CodeInfo, Diagnostic, Problems, Severity, code};
use chairwright_language::{Accept, Level};

/// A finding that is listed as accepted instead of being raised.
#[derive(Clone, Debug)]
pub struct Accepted {
    /// The finding.
    pub finding: Diagnostic,
    /// Why it is accepted.
    pub reason: String,
}

/// A code that the text weighs otherwise than the compiler.
#[derive(Clone, Debug)]
pub struct Reweighed {
    /// The code.
    pub code: &'static CodeInfo,
    /// Its weight here.
    pub severity: Severity,
    /// Why, where it is lighter.
    pub reason: Option<String>,
}

/// Changes weights, and takes the accepted findings out.
pub(crate) fn apply(
    problems: &mut Problems,
    levels: &[Level],
    accepts: &[Accept],
    whole: bool,
) -> (Vec<Accepted>, Vec<Reweighed>) {
    let weights: Vec<Reweighed> = levels.iter().filter_map(weight).collect();
    for problem in problems.iter_mut() {
        if let Some(w) = weights.iter().find(|w| w.code == problem.code) {
            problem.severity = w.severity;
        }
    }
    let mut accepted = Vec::new();
    for accept in accepts {
        let before = accepted.len();
        problems.retain(|p| {
            let taken = covers(accept, p);
            if taken {
                accepted.push(Accepted { finding: p.clone(), reason: accept.reason.clone() });
            }
            !taken
        });
        if accepted.len() == before
            && whole
            && code(&accept.code).is_some_and(|c| c.severity != Severity::Error)
        {
            problems.push(
                Diagnostic::new("idle-accept", format!("nothing is left to accept as \"{}\"", accept.code))
                    .at(accept.span, "no finding is met by this")
                    .help("take this line out; it would hide the next one"),
            );
        }
    }
    (accepted, weights)
}

/// An error stays an error, and a lighter weight needs a reason: anything else is reported and ignored.
fn weight(level: &Level) -> Option<Reweighed> {
    let code = code(&level.code)?;
    let severity = Severity::from_word(&level.word)?;
    let lighter = severity > code.severity;
    let good = !lighter || (code.severity != Severity::Error && level.reason.is_some());
    good.then(|| Reweighed { code, severity, reason: level.reason.clone() })
}

fn covers(accept: &Accept, problem: &Diagnostic) -> bool {
    let named = |about: &String| problem.about.contains(about);
    problem.code.name == accept.code
        && problem.code.severity != Severity::Error
        && !accept.reason.is_empty()
        && accept.about.as_ref().is_none_or(named)
}
