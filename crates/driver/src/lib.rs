//! The one entry: from a project's texts to everything that is known about a design.
//!
//! In comes a [`World`] that reads texts; out goes a [`Compilation`]. This room joins the others and
//! turns their typed problems into diagnostics with places in the text. It has no physics of its own: to see
//! what a change does (an uncertain value, an edit) it has the design worked out again and compares.

mod figures;
mod folded;
mod influence;
mod instead;
mod load;
mod path;
mod policy;
mod proving;
mod proving_numbers;
mod proving_steps;
mod reinforce;
mod repair;
mod same;
mod settings;
mod sides;
mod spread;
mod stands;
mod steps;
mod strengthen;
mod teach;
mod tested;
mod trail;
mod twins;
mod variations;
mod wanted;
mod ways;
mod words;
mod words_assumed;
mod words_axle;
mod words_balance;
mod words_baseline;
mod words_chair;
mod words_checked;
mod words_clear;
mod words_edge;
mod words_fit;
mod words_frame;
mod words_hands;
mod words_holes;
mod words_items;
mod words_limbs;
mod words_loads;
mod words_mend;
mod words_open;
mod words_origins;
mod words_overlap;
mod words_proving;
mod words_reasons;
mod words_roll;
mod words_room;
mod words_socket;
mod words_strength;
mod words_ways;

pub use chairwright_language::{Pick, Situation};
pub use influence::{ESTIMATE, Effect, Influence, Off, Raised, TAPE, Together};
pub use instead::Instead;
pub use load::Project;
pub use path::{PathError, join};
pub use policy::{Accepted, Reweighed};
pub use proving::{NO_TEST, Release};
pub use reinforce::Reinforcement;
pub use repair::{Repair, Repaired, repair};
pub use sides::{BOTH, folded, without_side};
pub use spread::Spread;
pub use stands::{Stands, margin_stands, stands};
pub use steps::Step as StateStep;
pub use strengthen::placing::placing_words;
pub use strengthen::{Change, Strengthening};
pub use trail::Step;
pub use variations::{compile_all, compile_all_with};
pub(crate) use words::is_open;
pub use words_assumed::{assumed_words, unchecked_words};
pub(crate) use words_checked::checked_words;
pub use words_loads::{beside_words, doubt_words, nobody_words, source_words, taken_words};
pub use words_mend::{
    brings_words, change_words, clearing_words, cost_words, mass_words, mend_words, strengthening_words,
};
pub use words_proving::{BagText, ReadingText, SheetText, TestText, sheet_text};
pub use words_strength::{
    case_name, case_words, mode_words, percent, refused_words, unknown_words, verdict_words,
};

use chairwright_checks::{Checked, Figures, Problem};
use chairwright_cost::{Bill, PriceBook};
use chairwright_design::{AsBuilt, Design, OtherBuilt};
use chairwright_diagnostics::{Diagnostic, Problems, Severity, Sources, Span, settle_order};
use chairwright_frame::{Frame, SettleError};
use chairwright_language::{Accept, Choice, Level, Nudge, Setting, Verdict};
use chairwright_making::CutRow;
use chairwright_quantity::{Display, Quantity};
use std::collections::BTreeMap;

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

    /// The day, as `year-month-day`, that no test can be dated after; `None` where there is no calendar.
    fn today(&self) -> Option<String> {
        None
    }
}

/// What to compile.
#[derive(Clone, Debug, Default)]
pub struct Options {
    /// The variant; `None` for the base design.
    pub variant: Option<String>,
    /// The state and adjustment; the default is the chair as drawn and ridden.
    pub situation: Situation,
    /// Names and values from the command line.
    pub settings: Vec<(String, String)>,
    /// Uncertain values of which an end is taken for the middle.
    pub nudges: Vec<Nudge>,
    /// Measures of the rider that stature stands for, and what is added to each, in metres.
    pub guesses: Vec<(String, f64)>,
    /// How much of the strength is worked out.
    pub strength: StrengthWanted,
    /// Whether the plan is looked at, without what was measured on the built chair.
    pub planned: bool,
    /// Whether gaps for fingers, and parts that run into each other, are also looked at between the stops of adjustments and on
    /// the way into a state, which has the design built some dozens of times; and what is drawn through something else.
    pub ways: bool,
}

/// How much of the strength is worked out.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum StrengthWanted {
    /// Everything.
    #[default]
    Whole,
    /// Load cases and verdicts.
    Verdicts,
    /// The same, and what would clear the doubt about members.
    Clearing,
    /// Nothing: for whoever compares figures that strength has no part in.
    Nothing,
}

impl Options {
    /// Variant and situation in words, if there is anything to say.
    fn words(&self) -> Option<String> {
        let variant = self.variant.iter().map(|v| format!("variant {v}"));
        let situation = Some(self.situation.words.clone()).filter(|w| !w.is_empty());
        let words: Vec<String> = variant.chain(situation).collect();
        (!words.is_empty()).then(|| words.join(", "))
    }
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
    /// Whether it holds.
    pub strength: chairwright_strength::Strength,
    /// The tests before anyone sits, with their results where there are any.
    pub sheet: chairwright_proving::TestSheet,
    /// What would bring failing members back, with its price.
    pub reinforcements: Vec<Reinforcement>,
    /// Failing parts that changes of the text were tried for, and the least that was proven to bring each back.
    pub strengthened: Vec<(String, Option<Strengthening>)>,
    /// Parts of which only a test tells that changes of the text were tried for, and what was proven to clear the doubt about each.
    pub cleared: Vec<(String, Option<Strengthening>)>,
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
    /// Findings that the text accepts, with its reasons.
    pub accepted: Vec<Accepted>,
    /// Codes that the text weighs otherwise.
    pub reweighed: Vec<Reweighed>,
    /// Places in the text, by origin.
    pub origins: Vec<Span>,
    /// The file as whoever asked named it.
    pub file: String,
    /// Uncertain values and what they move, where somebody asked for them.
    pub influences: Vec<Influence>,
    /// What is asked for and several uncertain values together can take away, each alone not.
    pub together: Vec<Together>,
    /// What the text accepts, and how it weighs codes.
    policy: (Vec<Accept>, Vec<Level>),
    /// The ten tipping angles over all adjustments, where somebody asked for them.
    pub spreads: Vec<Spread>,
    /// Its states and what they change, where somebody asked for them.
    pub steps: Vec<StateStep>,
    /// Errors of a built chair in its states and at the stops of its adjustments, where somebody asked for them.
    pub elsewhere: Vec<chairwright_diagnostics::Diagnostic>,
    /// How many of its states and stops were not looked at for these, since there are too many.
    pub unseen: usize,
}

impl Compilation {
    /// Whether something must not be built as it stands.
    #[must_use]
    pub fn has_errors(&self) -> bool {
        self.problems.iter().any(|p| p.severity == Severity::Error)
    }

    /// The slope that tips the chair by the way down, for several ways in which it may be used.
    #[must_use]
    pub fn curves(&self) -> Vec<chairwright_checks::Curve> {
        chairwright_checks::curves(&self.design, &self.frame, &self.checked)
    }

    /// The units that reports print in.
    #[must_use]
    pub fn display(&self) -> Display {
        Display::new(self.design.inches, self.design.fraction)
    }
}

/// Compiles one variant of the design at `path`; what is uncertain is tried too, however much room is left.
#[must_use]
pub fn compile(world: &dyn World, path: &str, options: &Options) -> (Sources, Compilation) {
    let mut project = Project::load(world, path);
    let options = &Options { ways: true, ..options.clone() };
    let mut compilation = project.compile(options);
    project.doubt(options, &mut compilation, Off::Guessed);
    (project.sources, compilation)
}

/// Findings about the chair as it is set for its rider, and not at every stop of its adjustments.
const OF_ONE_SETTING: [&str; 3] = ["breaks-fit-rule", "under-bones", "joint-bent"];

/// Whether a finding calls a deviation idle that one of these figures needs.
fn is_idle(p: &Diagnostic, needed: &[&str]) -> bool {
    p.code.name == "idle-deviation" && needed.iter().any(|f| p.headline.contains(&format!("`{f}`")))
}

impl Project {
    /// Works out what needs the design compiled over and over: what uncertain values move, the ten tipping angles over all
    /// adjustments, what the states change, and what would mend a failed demand.
    pub fn study(&mut self, options: &Options, c: &mut Compilation) {
        self.influences(options, c);
        c.spreads = self.spreads(options, c);
        self.spreads_in_part(c);
        self.stops(options, c);
        let (steps, needed) = self.steps(options, c);
        c.steps = steps;
        let needed: Vec<&str> = needed.iter().map(String::as_str).collect();
        c.problems.retain(|p| !is_idle(p, &needed));
        self.teach(options, c, true);
        self.strengthen(options, c);
        self.clear(options, c);
        self.elsewhere(options, c);
    }

    /// Compiles one variant in one situation.
    #[must_use]
    pub fn compile(&mut self, options: &Options) -> Compilation {
        let stops = options.situation.picks.iter().filter_map(|p| Some((p.name.clone(), p.value.clone()?)));
        let written: Vec<(String, String)> = options.settings.iter().cloned().chain(stops).collect();
        let known = self.sources.count();
        let (settings, mut problems) = self.settings(&written);
        let mut out = self.compile_settled(options, &settings);
        self.folded_away(options, &settings, &mut out);
        if options.settings.is_empty() {
            self.sources.keep(known);
        }
        problems.append(&mut out.problems);
        for problem in &mut problems {
            problem.situation = options.words();
            let pattern = self.pattern(problem);
            let page = || {
                pattern.unwrap_or_else(|| format!("how to mend it: chairwright explain {}", problem.code.name))
            };
            let help = problem.help.get_or_insert_with(page);
            if help.contains("FILE") {
                *help = help.replace("FILE", &self.shown);
            }
        }
        problems.iter_mut().filter(|p| p.code.name == "idle-deviation").for_each(|p| self.inherited(p));
        settle_order(&mut problems);
        twins::fold(&mut problems);
        out.problems = problems;
        out.file.clone_from(&self.shown);
        out
    }

    /// Takes in the findings about what is uncertain, which come after all others: what the text accepts, or weighs
    /// otherwise, it does of them too.
    fn take_in(&self, options: &Options, c: &mut Compilation, mut found: Problems) {
        found.iter_mut().for_each(|p| p.situation = options.words());
        let whole = options.situation == Situation::default() && options.variant.is_none();
        let (accepts, levels) = &c.policy;
        let accepts: Vec<Accept> = accepts.iter().filter(|a| a.code == influence::CODE).cloned().collect();
        let (accepted, _) = policy::apply(&mut found, levels, &accepts, whole);
        c.accepted.extend(accepted);
        c.problems.extend(found);
    }

    /// A reason for leaving a rule that a plan has from the one it is made from is told where it names that one: whoever made this
    /// plan did not write it, and cannot take it out here. It weighs less, for the other plan may need it.
    fn inherited(&self, p: &mut Diagnostic) {
        let Some(there) = p.primary.as_ref().map(|l| l.span) else { return };
        let Some(fork) = self.forked_at(there) else { return };
        let kept = p.severity != Severity::Advice;
        *p = std::mem::replace(p, Diagnostic::new("idle-deviation", ""))
            .severity(Severity::Advice)
            .at(fork, "the reason comes with this plan")
            .also(there, "written here");
        if kept {
            p.help = Some(
                "give this plan a rider block of its own, and that plan's reasons fall away here; or take the line out there, \
                 if that plan keeps the rule too"
                    .to_owned(),
            );
        }
    }

    /// How the statement of a line that cannot be read is written.
    fn pattern(&self, problem: &Diagnostic) -> Option<String> {
        let span = problem.primary.as_ref().filter(|_| problem.code.name == "unreadable-line")?.span;
        let source = self.sources.get(span.source)?;
        let before = source.text.get(..span.start as usize)?;
        let line = before.rsplit('\n').next()?;
        let word: String = line.trim_start().chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
        let spec = chairwright_language::schema::statement_spec(&word)?;
        Some(format!("this statement is written like: {}", spec.shape))
    }

    fn compile_settled(&self, options: &Options, settings: &[Setting]) -> Compilation {
        let mut out = Compilation { problems: self.problems.clone(), ..Compilation::default() };
        let choice = Choice {
            variant: options.variant.as_deref(),
            state: options.situation.state.as_deref(),
            picks: &options.situation.picks,
            settings,
            nudges: &options.nudges,
            shelf: Some(chairwright_catalogue::shelf),
            ..Choice::default()
        };
        let (program, declared) = self.program(choice);
        out.problems.extend(declared);
        out.problems.extend(program.check());
        if out.problems.iter().any(|p| p.code.name == "unknown-variant") {
            return out;
        }
        let built = program.build(&self.tables);
        out.problems.extend(built.problems);
        // what is held back for it needs an error that says so
        let incomplete = built.incomplete && out.problems.iter().any(|p| p.severity == Severity::Error);
        let mut design = built.design;
        if options.planned {
            design.as_built = None;
        }
        self.tested(options, choice, &mut design);
        let mut grown = Vec::new();
        let growing = design.rider.get("after").is_some_and(|a| a > 0.0);
        chairwright_checks::grow(&mut design.rider, &mut grown);
        design.rider.tried.extend(options.guesses.iter().cloned());
        let frame = chairwright_frame::frame(&design);
        let checked = chairwright_checks::check(&design, &frame);
        let strength = match options.strength {
            StrengthWanted::Nothing => chairwright_strength::Strength::default(),
            wanted => {
                let depth = match wanted {
                    StrengthWanted::Whole => chairwright_strength::Depth::Whole,
                    StrengthWanted::Clearing => chairwright_strength::Depth::Clearing,
                    _ => chairwright_strength::Depth::Verdicts,
                };
                chairwright_strength::strength(&design, &frame, &checked, depth)
            }
        };
        let cuts = chairwright_making::cut_list(&design, &frame);
        let needs = chairwright_cost::needs(&design, &frame);
        let (mut bill, cost_problems) = chairwright_cost::bill(&needs, self.book(), &self.shed);
        bill.used_up = chairwright_cost::used_up(&design, &frame);
        let shop = (self.book(), &self.shed);
        let reinforcements = reinforce::reinforcements((&design, &frame), &strength.mends, &needs, shop);
        let mut figures = checked.figures.clone();
        figures::add(&design, &frame, &bill, &mut figures);
        figures::strength(&strength, &mut figures);
        let mut values: BTreeMap<String, Quantity> =
            figures.0.iter().map(|(k, f)| (k.clone(), f.value)).collect();
        if growing {
            // demands are held against the grown rider, not today's
            let own = chairwright_checks::grown(&design.rider);
            values.extend(own.map(|(k, si, d)| (format!("rider.{k}"), Quantity::from_si(si, d))));
        }
        let (verdicts, judged) = program.judge(&values, &figures.partial());
        out.problems.extend(judged);
        let words = words::Words {
            design: &design,
            origins: &built.origins,
            display: Display::new(design.inches, design.fraction),
            reach: &checked.reach,
            figures: &checked.figures,
        };
        // where members could not be read, what is missing at their joints is no news
        let follows = ["open-end", "no-fitting", "wrong-fitting", "unclosed-joint"];
        let said = frame.problems.iter().map(|p| words.frame(p));
        out.problems.extend(said.filter(|p| !(incomplete && follows.contains(&p.code.name))));
        // of a chair that nobody rides as it is, only how it is carried matters
        let carried = |p: &Problem| matches!(p, Problem::Room(p) if p.of_transport());
        let wheelless =
            |p: &&Problem| incomplete && matches!(p, Problem::CannotStand(SettleError::TooFewWheels { .. }));
        let said = checked.problems.iter().filter(|p| !design.unridden || carried(p)).filter(|p| !wheelless(p));
        out.problems.extend(said.map(|p| words.chair(p)));
        if !design.unridden && !incomplete {
            // what the shock of every day already says of a wheel is not said again
            let place = |p: &Diagnostic| p.primary.as_ref().map(|l| l.span);
            let rated = |p: &Diagnostic| p.code.name == "wheel-overloaded";
            let told: Vec<_> = out.problems.iter().filter(|p| rated(p)).map(place).collect();
            out.problems.extend(strengthen::placing::misplaced(&words, &self.sources, &strength));
            let news = words.strength(&strength, &reinforcements).into_iter();
            out.problems.extend(news.filter(|p| !rated(p) || !told.contains(&place(p))));
        }
        if self.book.is_none() && !self.wants_book && !design.name.is_empty() && !needs.is_empty() {
            out.problems.push(words::no_book());
        }
        out.problems.extend(cost_problems.iter().map(|p| words.cost(p, self.book_source())));
        out.problems.extend(verdicts.iter().filter_map(|v| words.verdict(v, &figures, &bill)));
        if options.strength != StrengthWanted::Nothing {
            let demands = proving::demands(&self.sources, &verdicts);
            let pieces = cuts.iter().map(|c| c.names.len()).sum();
            out.sheet = proving::sheet(&design, &frame, (&checked, &strength), &demands, pieces);
            // the results of a chair are told of that chair as it was tested, and not of each of its states and variants
            let elsewhere = |b: &AsBuilt| b.carry.is_some() || b.other == Some(OtherBuilt::Variant);
            if options.situation.picks.is_empty() && !design.as_built.as_ref().is_some_and(elsewhere) {
                out.problems.extend(words.proving(&out.sheet));
            }
        }
        let looked = match options.ways {
            true => self.along_ways(options, settings, (&design, &checked), (&words, &program.accepts())),
            false => ways::Looked::default(),
        };
        out.problems.extend(looked.problems);
        // a part of a chair may be drawn as a sketch
        let whole_chair = !design.name.is_empty() && !design.unridden && !incomplete;
        let through = match options.ways && whole_chair {
            true => chairwright_checks::overlaps(&design, &frame),
            false => chairwright_checks::Overlaps::default(),
        };
        out.problems.extend(words.overlaps(&through));
        let whole = options.situation == Situation::default() && options.variant.is_none();
        out.policy = (program.accepts(), program.levels());
        (out.accepted, out.reweighed) = policy::apply(&mut out.problems, &out.policy.1, &out.policy.0, whole);
        // what was not looked at may still be accepted
        let idle = |p: &Diagnostic, code: &str| {
            p.code.name == "idle-accept" && p.headline.contains(&format!("\"{code}\""))
        };
        let of_ways = ["finger-trap", "parts-collide", "drawn-through", "drawn-into"];
        out.problems.retain(|p| options.ways || !of_ways.iter().any(|code| idle(p, code)));
        out.problems.retain(|p| !idle(p, influence::CODE));
        out.assumptions = [
            &design.assumptions,
            &grown.iter().map(checked_words).collect(),
            &frame.assumptions,
            &checked.assumptions.iter().map(checked_words).collect(),
            &strength.taken.iter().map(|t| words_loads::taken_words(&design, t)).collect(),
            &strength.assumed.iter().map(assumed_words).collect(),
            &bill.assumptions,
            &looked.assumptions,
            &through.cut_short.then(|| words_overlap::CUT_SHORT.to_owned()).into_iter().collect(),
        ]
        .into_iter()
        .flatten()
        .cloned()
        .collect();
        out.assumptions.sort();
        out.assumptions.dedup();
        out.figures = figures;
        out.strength = strength;
        out.reinforcements = reinforcements;
        out.origins = built.origins;
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
