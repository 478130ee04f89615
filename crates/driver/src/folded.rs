//! A state in which the anti-tip device is folded away, as the help for a kerb advises: the chair as drawn has one, so the state
//! is no chair without one, and yet nothing stands behind the rider in it.

use crate::{Compilation, Options, Project, StrengthWanted};
use chairwright_diagnostics::Severity;
use chairwright_language::{Setting, Situation};

const CODE: &str = "no-anti-tip";

impl Project {
    /// In a state that takes the device of the chair as drawn away, its lack is no error; that somebody holds the chair then,
    /// only they can tell.
    pub(crate) fn folded_away(&self, options: &Options, settings: &[Setting], out: &mut Compilation) {
        let lacks = out.problems.iter().any(|p| p.code.name == CODE);
        if options.situation.state.is_none() || !lacks {
            return;
        }
        let situation = Situation { state: None, ..options.situation.clone() };
        let strength = StrengthWanted::Nothing;
        let drawn =
            self.compile_settled(&Options { situation, strength, ways: false, ..options.clone() }, settings);
        if drawn.problems.iter().any(|p| p.code.name == CODE) {
            return;
        }
        for p in out.problems.iter_mut().filter(|p| p.code.name == CODE) {
            p.severity = Severity::CannotTell;
            p.headline = "in this state nothing keeps the chair from going over backward".to_owned();
            p.notes.push("the chair as drawn has an anti-tip device, which this state takes away".to_owned());
            p.help = Some("fold it away for the kerb alone, while a helper holds the chair from behind, and fold it down again".to_owned());
        }
    }
}
