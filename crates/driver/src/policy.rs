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

/// Names that a finding about a vague line lists.
const NAMES: usize = 6;

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
        if let Some(vague) = vague(accept, problems) {
            problems.push(vague);
            continue;
        }
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
    is_meant(accept, problem) && accept.about.as_ref().is_none_or(|about| names(problem).contains(about))
}

fn is_meant(accept: &Accept, problem: &Diagnostic) -> bool {
    problem.code.name == accept.code && problem.code.severity != Severity::Error && !accept.reason.is_empty()
}

/// What a finding is about: things of the text, and the figures and values that it names.
fn names(problem: &Diagnostic) -> Vec<String> {
    let label = problem.primary.iter().map(|l| &l.text);
    let quoted = std::iter::once(&problem.headline).chain(label).flat_map(|t| t.split('`').skip(1).step_by(2));
    let mut all: Vec<String> = problem.about.iter().cloned().chain(quoted.map(str::to_owned)).collect();
    let mut seen = std::collections::BTreeSet::new();
    all.retain(|name| seen.insert(name.clone()));
    all
}

/// What nobody can tell is accepted one by one: one line that took all of a code away would take the next one, too.
fn vague(accept: &Accept, problems: &[Diagnostic]) -> Option<Diagnostic> {
    let code = code(&accept.code).filter(|c| c.severity == Severity::CannotTell)?;
    let meant: Vec<&Diagnostic> = problems.iter().filter(|p| is_meant(accept, p)).collect();
    let nameless = meant.iter().all(|p| names(p).is_empty() && p.headline == meant[0].headline);
    if accept.about.is_some() || nameless {
        return None;
    }
    let mut known: Vec<String> = meant.iter().flat_map(|p| names(p)).collect();
    known.dedup();
    known.truncate(NAMES);
    let said = Diagnostic::new("not-acceptable", format!("which \"{}\" is accepted must be said", code.name))
        .at(accept.span, "all of them at once cannot be accepted");
    let said = said.note("what nobody can tell is looked at one by one, and so is the next one");
    Some(match known.as_slice() {
        [] => said.help("take this line out: they cannot be told apart by a name"),
        known => said.help(format!("say which: about {}", known.join(", or about "))),
    })
}
