//! Names, dimensions and evaluation: from trees to a design.
//!
//! In come the trees of a project's texts; out go [`Built`] designs, one per variant, and the
//! verdicts on its demands. Everything is checked against [`schema`] before anything is evaluated.
//! This room knows no file system, no fitting rule and no physics.

mod blocks;
mod build;
mod build_closings;
mod build_parts;
mod build_shapes;
mod check;
mod eval;
mod evaluator;
pub mod fields;
pub mod figures;
mod functions;
mod infer;
mod judge;
mod literal;
mod resolve;
pub mod schema;
mod scope;
mod suggest;
mod value;
mod want;

pub use check::sample_value;
pub use judge::{Comparison, Verdict};
pub use suggest::nearest;

use chairwright_design::Design;
use chairwright_diagnostics::{Diagnostic, Problems, Span};
use chairwright_quantity::Quantity;
use chairwright_syntax::{Entry, Expr, ExprKind};
use evaluator::Evaluator;
use indexmap::IndexMap;
use scope::{Declare, Scope};
use smol_str::SmolStr;
use std::collections::{BTreeMap, BTreeSet};

/// One text of a project.
#[derive(Clone, Copy, Debug)]
pub struct Text<'a> {
    /// Its tree.
    pub entries: &'a [Entry],
    /// Whether it is the builder's own, rather than a shipped page.
    pub own: bool,
}

/// What a text asks to be brought in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Import {
    /// A shipped page: `use catalogue.pipe_inch`.
    Page(String, Span),
    /// A neighbouring file: `use "parts.chair"`.
    File(String, Span),
    /// A price book: `prices "shop.csv"`.
    Prices(String, Span),
}

/// The imports of one tree, in order.
#[must_use]
pub fn imports(entries: &[Entry]) -> Vec<Import> {
    entries
        .iter()
        .filter_map(|entry| {
            let subject = entry.subject.as_ref()?;
            match (entry.keyword.text().as_str(), &subject.kind) {
                ("use", ExprKind::Name(path)) => Some(Import::Page(path.text().to_string(), subject.span)),
                ("use", ExprKind::Text(text)) => Some(Import::File(text.to_string(), subject.span)),
                ("prices", ExprKind::Text(text)) => Some(Import::Prices(text.to_string(), subject.span)),
                _ => None,
            }
        })
        .collect()
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

/// A project whose names are known.
pub struct Program<'a> {
    scope: Scope<'a>,
    priced: BTreeSet<String>,
}

/// One evaluated variant.
pub struct Built {
    /// The design.
    pub design: Design,
    /// Places in the text, by origin.
    pub origins: Vec<Span>,
    /// Problems met on the way.
    pub problems: Problems,
}

impl<'a> Program<'a> {
    /// Declares everything in the texts. `priced` holds the folded keys of the price book.
    #[must_use]
    pub fn new(texts: &[Text<'a>], priced: BTreeSet<String>) -> (Program<'a>, Problems) {
        let mut problems = Problems::new();
        let mut declare = Declare { scope: Scope::default(), problems: &mut problems };
        for text in texts {
            declare.file(text.entries, text.own);
        }
        let scope = declare.scope;
        (Program { scope, priced }, problems)
    }

    /// Names of the variants, in order.
    #[must_use]
    pub fn variants(&self) -> Vec<String> {
        self.scope.variants.keys().map(SmolStr::to_string).collect()
    }

    /// Checks every statement before anything is evaluated.
    #[must_use]
    pub fn check(&self) -> Problems {
        let overrides = IndexMap::new();
        let evaluator = self.evaluator(&overrides);
        evaluator.check_all();
        let mut problems = evaluator.problems.into_inner();
        problems.extend(self.head());
        problems
    }

    fn head(&self) -> Option<Diagnostic> {
        let design = self.scope.placed.iter().find(|p| p.spec.keyword == "design" && p.own)?;
        let licensed = self.scope.placed.iter().any(|p| p.spec.keyword == "licence" && p.own);
        (!licensed).then(|| {
            Diagnostic::new("no-licence", "this design has no licence")
                .at(design.entry.head, "shared as it is, nobody may build on it")
                .help("add a licence line, such as licence \"CERN-OHL-S-2.0\"")
        })
    }

    fn evaluator<'s>(&'s self, overrides: &'s IndexMap<SmolStr, &'s Expr>) -> Evaluator<'s>
    where
        'a: 's,
    {
        let mut evaluator = Evaluator::new(&self.scope, overrides);
        evaluator.priced = Some(&self.priced);
        evaluator
    }

    /// Values in place of the text's own: the variant's, then the command line's.
    ///
    /// # Errors
    /// When the variant does not exist or a setting does not fit.
    pub fn overrides<'s>(
        &'s self,
        variant: Option<&str>,
        settings: &'s [Setting],
    ) -> Result<IndexMap<SmolStr, &'s Expr>, Problems> {
        let mut map: IndexMap<SmolStr, &Expr> = IndexMap::new();
        if let Some(name) = variant {
            let Some(entry) = self.scope.variants.get(name) else { return Err(vec![self.no_variant(name)]) };
            for inner in entry.block.iter().flat_map(|b| &b.entries) {
                if let Some([value]) = inner.value.as_deref() {
                    map.insert(inner.keyword.text(), value);
                }
            }
        }
        let none = IndexMap::new();
        let evaluator = self.evaluator(&none);
        for setting in settings {
            if evaluator.check_override(&SmolStr::new(&setting.name), setting.span, &setting.value).is_ok() {
                map.insert(SmolStr::new(&setting.name), &setting.value);
            }
        }
        let problems = evaluator.problems.into_inner();
        if problems.is_empty() { Ok(map) } else { Err(problems) }
    }

    fn no_variant(&self, name: &str) -> Diagnostic {
        let known: Vec<&str> = self.scope.variants.keys().map(SmolStr::as_str).collect();
        let problem = Diagnostic::new("unknown-variant", format!("this design has no variant `{name}`"));
        match nearest(name, known.iter().copied()) {
            Some(meant) => problem.help(format!("did you mean {meant}?")),
            None if known.is_empty() => problem.help("it has no variants at all"),
            None => problem.help(format!("it has {}", known.join(", "))),
        }
    }

    /// Evaluates the design with these values in place.
    #[must_use]
    pub fn build(&self, variant: Option<&str>, overrides: &IndexMap<SmolStr, &Expr>) -> Built {
        let evaluator = self.evaluator(overrides);
        let mut builder = build::Builder::new(&evaluator);
        builder.all();
        let (mut design, origins) = (builder.design, builder.origins);
        design.variant = variant.map(str::to_owned);
        design.assumptions = evaluator.assumptions.take();
        Built { design, origins, problems: evaluator.problems.into_inner() }
    }

    /// Judges every demand by the computed figures.
    #[must_use]
    pub fn judge(
        &self,
        overrides: &IndexMap<SmolStr, &Expr>,
        figures: &BTreeMap<String, Quantity>,
    ) -> (Vec<Verdict>, Problems) {
        judge::judge(&self.scope, overrides, figures)
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
