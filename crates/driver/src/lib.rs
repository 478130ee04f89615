//! The one entry: from a project's texts to everything that is known about a design.
//!
//! In comes a [`World`] that reads texts; out goes a [`Compilation`]. This room joins the others and
//! turns their typed problems into diagnostics with places in the text; it computes nothing itself.

mod figures;
mod load;
mod path;
mod words;
mod words_chair;
mod words_frame;

pub use load::Project;
pub use path::{PathError, join};
pub use words::is_open;

use chairwright_checks::{Checked, Figures};
use chairwright_cost::{Bill, PriceBook};
use chairwright_design::Design;
use chairwright_diagnostics::{Diagnostic, Problems, Severity, Sources, Span, settle_order};
use chairwright_frame::Frame;
use chairwright_language::{Setting, Verdict};
use chairwright_making::CutRow;
use chairwright_quantity::Display;

/// Why a text could not be read.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum ReadError {
    /// It does not exist.
    Missing,
    /// It lies outside the project's folder, perhaps by a link.
    Outside,
    /// It is no text in UTF-8.
    NotText,
    /// It is larger than the limit.
    TooLarge,
    /// Anything else, in the system's words.
    Other(String),
}

/// What the compiler may ask of the outside.
pub trait World {
    /// Reads a text by its path inside the project's folder, with `/` between names.
    ///
    /// # Errors
    /// Says why it cannot.
    fn read(&self, path: &str) -> Result<String, ReadError>;
}

/// What to compile.
#[derive(Clone, Debug, Default)]
pub struct Options {
    /// The variant; `None` for the base design.
    pub variant: Option<String>,
    /// Names and values from the command line.
    pub settings: Vec<(String, String)>,
}

/// Everything known about one variant of a design.
#[derive(Clone, Debug, Default)]
pub struct Compilation {
    /// The design.
    pub design: Design,
    /// Its frame.
    pub frame: Frame,
    /// The chair at rest.
    pub checked: Checked,
    /// The cut list.
    pub cuts: Vec<CutRow>,
    /// The bill.
    pub bill: Bill,
    /// Every figure, of this room's neighbours too.
    pub figures: Figures,
    /// What became of the demands.
    pub verdicts: Vec<Verdict>,
    /// Everything there is to say, in order.
    pub problems: Problems,
    /// Everything that was assumed.
    pub assumptions: Vec<String>,
}

impl Compilation {
    /// Whether something must not be built as it stands.
    #[must_use]
    pub fn has_errors(&self) -> bool {
        self.problems.iter().any(|p| p.severity == Severity::Error)
    }

    /// The units that reports print in.
    #[must_use]
    pub fn display(&self) -> Display {
        if self.design.inches { Display::Inch } else { Display::Metric }
    }
}

/// Compiles one variant of the design at `path`.
#[must_use]
pub fn compile(world: &dyn World, path: &str, options: &Options) -> (Sources, Compilation) {
    let mut project = Project::load(world, path);
    let compilation = project.compile(options);
    (project.sources, compilation)
}

/// Compiles the base design and every variant; problems of several variants are named once.
#[must_use]
pub fn compile_all(world: &dyn World, path: &str) -> (Sources, Vec<Compilation>) {
    let mut project = Project::load(world, path);
    let base = project.compile(&Options::default());
    let mut seen = base.problems.clone();
    let mut all = vec![base];
    for variant in project.variants() {
        let mut next = project.compile(&Options { variant: Some(variant), settings: Vec::new() });
        next.problems.retain(|p| !seen.iter().any(|s| same_finding(s, p)));
        seen.extend(next.problems.iter().cloned());
        all.push(next);
    }
    (project.sources, all)
}

fn same_finding(a: &Diagnostic, b: &Diagnostic) -> bool {
    a.code == b.code && a.primary == b.primary && a.headline == b.headline
}

impl Project {
    /// Names of the variants.
    #[must_use]
    pub fn variants(&self) -> Vec<String> {
        self.program().0.variants()
    }

    /// Compiles one variant.
    #[must_use]
    pub fn compile(&mut self, options: &Options) -> Compilation {
        let (settings, mut problems) = self.settings(&options.settings);
        let mut out = self.compile_settled(options, &settings);
        problems.append(&mut out.problems);
        for problem in &mut problems {
            problem.variant.clone_from(&options.variant);
            let page = || format!("how to mend it: chairwright explain {}", problem.code.name);
            problem.help.get_or_insert_with(page);
        }
        settle_order(&mut problems);
        out.problems = problems;
        out
    }

    fn compile_settled(&self, options: &Options, settings: &[Setting]) -> Compilation {
        let mut out = Compilation { problems: self.problems.clone(), ..Compilation::default() };
        let (program, declared) = self.program();
        out.problems.extend(declared);
        out.problems.extend(program.check());
        let overrides = match program.overrides(options.variant.as_deref(), settings) {
            Ok(overrides) => overrides,
            Err(problems) => {
                out.problems.extend(problems);
                return out;
            }
        };
        let built = program.build(options.variant.as_deref(), &overrides);
        out.problems.extend(built.problems);
        let design = built.design;
        let frame = chairwright_frame::frame(&design);
        let checked = chairwright_checks::check(&design, &frame);
        let cuts = chairwright_making::cut_list(&design, &frame);
        let needs = chairwright_cost::needs(&design, &frame);
        let (bill, cost_problems) = chairwright_cost::bill(&needs, self.book());
        let mut figures = checked.figures.clone();
        figures::add(&design, &frame, &bill, &mut figures);
        let values = figures.0.iter().map(|(k, f)| (k.clone(), f.value)).collect();
        let (verdicts, judged) = program.judge(&overrides, &values);
        out.problems.extend(judged);
        let words = words::Words {
            design: &design,
            origins: &built.origins,
            display: if design.inches { Display::Inch } else { Display::Metric },
        };
        out.problems.extend(frame.problems.iter().map(|p| words.frame(p)));
        out.problems.extend(checked.problems.iter().map(|p| words.chair(p)));
        if self.book.is_none() && !design.name.is_empty() && !needs.is_empty() {
            out.problems.push(words::no_book());
        }
        out.problems.extend(cost_problems.iter().map(|p| words.cost(p, self.book_source())));
        out.problems.extend(verdicts.iter().filter_map(|v| words.verdict(v, &figures, &bill)));
        out.assumptions = [&design.assumptions, &frame.assumptions, &checked.assumptions, &bill.assumptions]
            .into_iter()
            .flatten()
            .cloned()
            .collect();
        out.assumptions.sort();
        out.assumptions.dedup();
        out.figures = figures;
        (out.design, out.frame, out.checked, out.cuts, out.bill, out.verdicts) =
            (design, frame, checked, cuts, bill, verdicts);
        out
    }

    fn book(&self) -> Option<&PriceBook> {
        self.book.as_ref().map(|(_, book)| book)
    }

    fn book_source(&self) -> Option<Span> {
        self.book.as_ref().map(|(source, _)| Span::new(*source, 0, 0))
    }
}
