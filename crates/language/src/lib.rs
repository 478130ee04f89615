//! Names, dimensions and evaluation: from trees to a design.
//!
//! In come the trees of a project's texts; out go [`Built`] designs, one per variant and state, and the
//! verdicts on its demands. Everything is checked against [`schema`] before anything is evaluated.
//! This room knows no file system, no fitting rule and no physics.

mod allowance;
mod bare;
mod blocks;
mod bounds;
mod build;
mod build_built;
mod build_closings;
mod build_extras;
mod build_parts;
mod build_placing;
mod build_rider;
mod build_shapes;
mod build_stocks;
mod build_tables;
mod check;
mod check_parts;
mod choice;
mod date;
mod declare;
mod eval;
mod evaluator;
mod expand;
pub mod fields;
pub mod figures;
mod functions;
mod import;
mod infer;
mod infer_calls;
mod judge;
mod literal;
pub mod meanings;
mod measures;
mod near_sizes;
mod outline;
mod plain_sizes;
mod policy;
mod reader;
mod resolve;
mod room;
pub mod schema;
mod scope;
mod statements;
mod suggest;
mod tolerances;
mod trace;
mod value;
mod want;
mod words;

pub use build_tables::Tables;
pub use check::sample_value;
pub use choice::{Choice, Nudge, Pick, Situation};
pub use import::{Import, imports};
pub use judge::{Comparison, Verdict};
pub use near_sizes::near_sizes;
pub use plain_sizes::{PlainSize, plain_sizes};
pub use policy::{Accept, Level};
pub use scope::Shelf;
pub use suggest::nearest;
pub use trace::Trace;

pub use chairwright_design::spelling;

use chairwright_design::Design;
use chairwright_diagnostics::{Diagnostic, Problems, Span};
use chairwright_quantity::Quantity;
use chairwright_syntax::{Entry, Expr};
use declare::Declare;
use evaluator::Evaluator;
use scope::Scope;
use smol_str::SmolStr;
use std::collections::{BTreeMap, BTreeSet};

/// One text of a project.
#[derive(Clone, Copy, Debug)]
pub struct Text<'a> {
    /// Its tree.
    pub entries: &'a [Entry],
    /// Whether it is the builder's own, rather than a shipped page.
    pub own: bool,
    /// How many forks away from the plan itself; 0 for the plan and what it brings in.
    pub level: u8,
    /// Words of its lines that could not be read.
    pub spoilt: &'a BTreeSet<SmolStr>,
}

/// A value given from the command line.
#[derive(Clone, Debug)]
pub struct Setting {
    /// Which name.
    pub name: String,
    /// Where the name was written.
    pub span: Span,
    /// The new value.
    pub value: Expr,
}

/// A project whose names are known, in one variant and state.
pub struct Program<'a> {
    scope: Scope<'a>,
    priced: BTreeSet<String>,
    choice: Choice<'a>,
    /// The state's own demands; the others are not asked of a chair that is not ridden.
    only: Option<Span>,
}

/// One evaluated variant.
pub struct Built {
    /// The design.
    pub design: Design,
    /// Places in the text, by origin.
    pub origins: Vec<Span>,
    /// Problems met on the way.
    pub problems: Problems,
    /// Whether something that the text meant to have is missing: members, wheels, what joins and fastens them.
    pub incomplete: bool,
}

impl<'a> Program<'a> {
    /// Declares everything in the texts, in the variant and state that are chosen. `priced` holds the
    /// folded keys of the price book.
    #[must_use]
    pub fn new(texts: &[Text<'a>], priced: BTreeSet<String>, choice: Choice<'a>) -> (Program<'a>, Problems) {
        let mut problems = Problems::new();
        let mut declare = Declare::new(&mut problems, &priced);
        declare.scope.shelf = choice.shelf;
        for text in texts {
            declare.assemblies(text.entries);
            declare.scope.spoilt.extend(text.spoilt.iter().cloned());
        }
        declare.hyphened(texts);
        let state = declare.choose(texts, &choice);
        for text in texts {
            declare.file(text.entries, text.own, text.level);
        }
        declare.state_demands(state);
        declare.expand();
        let only = state.filter(|_| declare.unridden()).map(|s| s.span);
        let scope = declare.scope;
        (Program { scope, priced, choice, only }, problems)
    }

    /// Names of the variants, in order.
    #[must_use]
    pub fn variants(&self) -> Vec<String> {
        self.scope.variants.keys().map(SmolStr::to_string).collect()
    }

    /// Checks every statement before anything is evaluated.
    #[must_use]
    pub fn check(&self) -> Problems {
        let evaluator = self.evaluator();
        evaluator.check_all();
        evaluator.check_settings(self.choice.settings);
        let mut problems = evaluator.problems.into_inner();
        problems.extend(self.head());
        problems
    }

    fn head(&self) -> Option<Diagnostic> {
        let mine = |word: &str| self.scope.placed.iter().find(|p| p.spec.keyword == word && p.own);
        let design = mine("design")?;
        let licence = mine("licence").and_then(|l| scope::text_of(l.entry.subject.as_ref()).map(|t| (l, t)));
        let (span, headline) = match licence {
            Some((l, text)) if text.trim().is_empty() => (l.entry.head, "this licence says nothing"),
            Some(_) => return None,
            None => (design.entry.head, "this design has no licence"),
        };
        let problem = Diagnostic::new("no-licence", headline)
            .at(span, "shared as it is, nobody may build on it")
            .help("add a licence line, such as licence \"CERN-OHL-S-2.0\"");
        let from = self.scope.ancestors.iter().find_map(|a| Some((&a.name, a.licence.as_ref()?)));
        Some(match from {
            Some((name, licence)) => problem.note(format!("{name}, which it is made from, is under {licence}")),
            None => problem,
        })
    }

    fn evaluator(&self) -> Evaluator<'_> {
        let mut evaluator = Evaluator::new(&self.scope, Some(&self.priced));
        evaluator.nudges = self.choice.nudges;
        evaluator.today = self.choice.today;
        evaluator
    }

    /// Evaluates the design. `kept` carries what was read of the shipped pages from one compilation of the same texts to the next.
    #[must_use]
    pub fn build(&self, kept: &Tables) -> Built {
        let evaluator = self.evaluator();
        let mut builder = build::Builder::new(&evaluator);
        builder.all(kept);
        builder.know_places();
        let (mut design, origins, partial) = (builder.design, builder.origins, builder.partial);
        design.variant = self.choice.variant.map(str::to_owned);
        design.state = self.choice.state.map(str::to_owned);
        design.unridden = self.only.is_some();
        design.packs = self.packs(&design);
        design.assumptions = evaluator.assumptions.take();
        let ancestors = self.scope.ancestors.iter();
        design.made_from = ancestors.map(|a| (a.name.clone(), a.revision.clone(), a.licence.clone())).collect();
        let frame = |p: &&scope::Placed| matches!(p.spec.keyword, "member" | "wheel" | "caster") && !p.ghost;
        let meant = self.scope.placed.iter().filter(frame).count();
        let there = design.members.len() + design.wheels.len() + design.casters.len();
        let incomplete = partial || there < meant || !self.scope.spoilt.is_empty();
        Built { design, origins, problems: evaluator.problems.into_inner(), incomplete }
    }

    /// Judges every demand by the computed figures. Those in part may be worse than they are, never better: by them a demand
    /// is missed or cannot be told, but never met.
    #[must_use]
    pub fn judge(
        &self,
        figures: &BTreeMap<String, Quantity>,
        partial: &BTreeSet<String>,
    ) -> (Vec<Verdict>, Problems) {
        judge::judge(&self.scope, (&self.priced, self.choice.nudges), self.only, (figures, partial))
    }
}

/// Names of the functions and what each takes.
#[must_use]
pub fn function_list() -> Vec<(&'static str, &'static str)> {
    functions::FUNCTIONS.iter().map(|f| (f.name, f.takes)).collect()
}

/// What a builder calls a dimension.
#[must_use]
pub fn dimension_phrase(dimension: chairwright_quantity::Dimension) -> String {
    dimension.phrase()
}
