//! Repairs: offered only when the edited text proves better, and applied on request.

use crate::{Compilation, Options, Project, ReadError, World};
use chairwright_diagnostics::{CodeInfo, Diagnostic, Edit, Family, Severity, SourceId, Sources};
use std::collections::BTreeMap;

/// Edits that are tried for one design.
const TRIES: usize = 40;
/// Rounds of repairing; each mends at least one finding.
const ROUNDS: usize = 60;

/// A project whose texts are known already, some of them edited.
pub(crate) struct Edited<'s> {
    pub sources: &'s Sources,
    pub texts: BTreeMap<String, String>,
    /// As the world that the texts come from has it.
    pub today: Option<String>,
}

impl World for Edited<'_> {
    fn today(&self) -> Option<String> {
        self.today.clone()
    }

    fn read(&self, path: &str) -> Result<String, ReadError> {
        if let Some(text) = self.texts.get(path) {
            return Ok(text.clone());
        }
        let found = self.sources.iter().find(|(_, s)| s.name == path);
        found.map(|(_, s)| s.text.clone()).ok_or(ReadError::Missing)
    }
}

/// One repair that was made.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Repair {
    /// The file, by its path in the project.
    pub file: String,
    /// The line.
    pub line: usize,
    /// What stood there.
    pub was: String,
    /// What stands there now.
    pub is: String,
    /// The code of the finding that it mends.
    pub code: &'static str,
}

/// What a repair came to.
#[derive(Clone, Default, Debug)]
pub struct Repaired {
    /// The repairs, in the order they were made.
    pub made: Vec<Repair>,
    /// The texts that changed, by path.
    pub texts: BTreeMap<String, String>,
}

/// Whether the second set of findings has fewer of this code, and not more errors. A line that could not
/// be read hid its other mistakes, so behind a finding of writing only those of writing are counted.
fn better(before: &[Diagnostic], after: &[Diagnostic], code: &CodeInfo) -> bool {
    let count = |list: &[Diagnostic]| list.iter().filter(|p| p.code == code).count();
    let errors = |list: &[Diagnostic]| {
        let counted = |p: &&Diagnostic| code.family != Family::Writing || p.code.family == Family::Writing;
        list.iter().filter(|p| p.severity == Severity::Error).filter(counted).count()
    };
    count(after) < count(before) && errors(after) <= errors(before)
}

/// A text of the builder's own, and not the command line.
fn own(sources: &Sources, id: SourceId) -> Option<&chairwright_diagnostics::Source> {
    sources.get(id).filter(|s| !s.name.starts_with("catalogue.") && s.name != crate::settings::COMMAND_LINE)
}

fn edited(sources: &Sources, edit: &Edit) -> Option<(String, String)> {
    let source = own(sources, edit.span.source)?;
    let mut text = source.text.clone();
    let range = edit.span.range();
    if range.end > text.len() || !text.is_char_boundary(range.start) || !text.is_char_boundary(range.end) {
        return None;
    }
    text.replace_range(range, &edit.replacement);
    Some((source.name.clone(), text))
}

/// Takes back every edit that does not prove to mend its finding when the edited text is read again.
pub(crate) fn verify((sources, today): (&Sources, Option<&str>), path: &str, all: &mut [Compilation]) {
    let Some(base) = all.first().map(|c| c.problems.clone()) else { return };
    let mut tries = 0;
    let mut proven: Vec<(Edit, bool)> = Vec::new();
    for problem in all.iter_mut().flat_map(|c| &mut c.problems) {
        let Some(edit) = problem.edit.clone() else { continue };
        let known = proven.iter().find(|(e, _)| *e == edit).map(|(_, good)| *good);
        let good = known.unwrap_or_else(|| {
            tries += 1;
            let Some((name, text)) = edited(sources, &edit).filter(|_| tries <= TRIES) else { return false };
            let world =
                Edited { sources, texts: BTreeMap::from([(name, text)]), today: today.map(str::to_owned) };
            let after = Project::load(&world, path).compile(&Options::default());
            better(&base, &after.problems, problem.code)
        });
        proven.push((edit, good));
        if !good {
            problem.edit = None;
        }
    }
}

/// Repairs a design as far as proven edits go. Nothing is written: the changed texts are handed back.
#[must_use]
pub fn repair(world: &dyn World, path: &str) -> Repaired {
    let mut out = Repaired::default();
    let mut refused: Vec<(String, Edit)> = Vec::new();
    for _ in 0..ROUNDS {
        let layered = Layered { world, texts: &out.texts };
        let mut project = Project::load(&layered, path);
        let before = project.compile(&Options::default());
        let next = before.problems.iter().find_map(|p| {
            let edit = p.edit.clone()?;
            let (name, text) = edited(&project.sources, &edit)?;
            (!refused.contains(&(name.clone(), edit.clone()))).then_some((p.code, edit, name, text))
        });
        let Some((code, edit, name, text)) = next else { break };
        let mut texts = out.texts.clone();
        texts.insert(name.clone(), text);
        let after = Project::load(&Layered { world, texts: &texts }, path).compile(&Options::default());
        if !better(&before.problems, &after.problems, code) {
            refused.push((name, edit));
            continue;
        }
        let line = project.sources.get(edit.span.source).map_or(1, |s| s.position(edit.span.start as usize).0);
        let was = project.sources.slice(edit.span).to_owned();
        out.made.push(Repair { file: name, line, was, is: edit.replacement, code: code.name });
        out.texts = texts;
        // places have moved, so what was refused before is another place now
        refused.clear();
    }
    out
}

/// A world with some texts changed.
struct Layered<'w> {
    world: &'w dyn World,
    texts: &'w BTreeMap<String, String>,
}

impl World for Layered<'_> {
    fn today(&self) -> Option<String> {
        self.world.today()
    }

    fn read(&self, path: &str) -> Result<String, ReadError> {
        self.texts.get(path).map_or_else(|| self.world.read(path), |t| Ok(t.clone()))
    }
}
