//! The test sheet of a compilation, and whether its built chair is released.

use crate::sides::folded;
use crate::variations::same_finding;
use crate::words_proving::{lack_words, reading_words, test_words};
use crate::{Compilation, OF_ONE_SETTING, Options, Project, StrengthWanted};
use chairwright_checks::Checked;
use chairwright_design::Design;
use chairwright_diagnostics::{Diagnostic, Severity, Sources};
use chairwright_frame::Frame;
use chairwright_language::{Choice, Situation, Verdict};
use chairwright_proving::{Demand, Kind, Outcome, Plan, Reason, TestSheet, reasons, test_sheet};
use chairwright_strength::{Lasting, Open, Strength, Unknown, Untold};

/// What stands beside every verdict on a built chair.
pub const NO_TEST: &str = "This is no ISO 7176 test, no certificate and no licence: whoever saw the tests signs for \
     them, and local practice decides who sits in it.";

/// Findings that are told with their test.
const OF_TESTS: [&str; 2] = ["test-failed", "off-sheet"];

/// States and stops of a built chair that are looked at.
const ELSEWHERE: usize = 400;

/// Whether somebody may sit in the built chair.
#[derive(Clone, PartialEq, Debug)]
pub struct Release {
    /// Whether anything was written down of a built chair.
    pub tested: bool,
    /// Everything that holds it back, in words; empty for a released chair.
    pub reasons: Vec<String>,
}

impl Release {
    /// `release` or `hold`.
    #[must_use]
    pub fn word(&self) -> &'static str {
        if self.released() { "release" } else { "hold" }
    }

    /// Whether it is released: tested, and nothing holds it back.
    #[must_use]
    pub fn released(&self) -> bool {
        self.tested && self.reasons.is_empty()
    }
}

/// What no test of the sheet shows, and years or the touch of it do.
fn behind_tests(open: &Open) -> Option<String> {
    match open {
        Open::Unmarked { stock, .. } => Some(format!(
            "nobody can tell whether \"{stock}\" has a core of foam, which gives way after the tests: read its print line, look at a cut \
             end, and write the number of its standard"
        )),
        Open::Salvaged { stock, .. } => Some(format!(
            "nobody can tell what was done to \"{stock}\", and no test shows it: find its stamp, or take other wood"
        )),
        _ => None,
    }
}

impl Compilation {
    /// The verdict on the built chair: a release only where every reading of the sheet passes, somebody stands for
    /// them, they are of this chair, and no finding is an error.
    #[must_use]
    pub fn release(&self) -> Release {
        let tested = self.design.as_built.is_some();
        let open = reasons(&self.sheet, &self.design);
        let mut said: Vec<String> = open.iter().filter_map(|r| self.whose(r)).collect();
        let errors = self.problems.iter().filter(|p| p.severity == Severity::Error);
        // a reading that does not pass is told with its test
        let others = errors.filter(|p| !OF_TESTS.contains(&p.code.name));
        said.extend(others.map(|p| format!("finding: {} [{}]", p.headline, p.code.name)));
        let there = |p: &Diagnostic| {
            let at = p.situation.as_deref().unwrap_or("elsewhere");
            format!("finding: {} [{}], {at}", p.headline, p.code.name)
        };
        said.extend(self.elsewhere.iter().map(there));
        if self.unseen > 0 {
            said.push(format!(
                "{} of its states and stops were not looked at, there are too many: give its adjustments fewer stops",
                self.unseen
            ));
        }
        said.extend(self.in_the_cold());
        said.extend(self.strength.open.iter().filter_map(behind_tests));
        said.extend(self.of_tests(&open));
        Release { tested, reasons: said }
    }

    /// What a blow may break on the coldest day: no test on the sheet is made that cold.
    fn in_the_cold(&self) -> Option<String> {
        let blow = |u: &&Untold| u.kinds.contains(&Lasting::Impact);
        let brittle = |u: &&Untold| matches!(u.why, Unknown::Brittle(_) | Unknown::Cold(_));
        let open: Vec<&Untold> = self.strength.untold.iter().filter(blow).filter(brittle).collect();
        let names = folded(open.iter().map(|u| u.name.as_str()));
        let first = names.first()?;
        let (more, bear) = match names.len() {
            1 => (String::new(), "bears"),
            n => (format!(" and {} more", n - 1), "bear"),
        };
        let unsaid = open.iter().any(|u| matches!(u.why, Unknown::Cold(_)));
        let why = if unsaid {
            "nobody says how cold it gets: add coldest = … to the conditions"
        } else {
            "no test here is made that cold"
        };
        Some(format!("nobody can tell whether {first}{more} {bear} a blow at the coldest, and {why}"))
    }

    fn whose(&self, reason: &Reason) -> Option<String> {
        let name =
            |v: &Option<String>| v.as_ref().map_or("the plan itself".to_owned(), |v| format!("variant {v}"));
        Some(match reason {
            Reason::Reading(..) => return None,
            Reason::NoSheet => {
                "there is no test sheet: a chair that stands, with its rider, is needed to test by".to_owned()
            }
            Reason::NotOnSheet(field) => {
                format!("{field} was written down, and the plan has nothing that this sheet tests by it")
            }
            Reason::Nobody => {
                "nobody says who measured: add measured_by = \"…\", a role and no name".to_owned()
            }
            Reason::Undated => "nobody says when it was measured: add dated = \"…\"".to_owned(),
            Reason::OtherVariant { built, asked } => {
                format!("what was built is {}, and this is {}", name(built), name(asked))
            }
            Reason::OtherRider(Some(rider)) => {
                format!("it was tested for the rider of {rider}, and this is another rider: test it again")
            }
            Reason::OtherRider(None) => {
                "nobody says that it was tested for this rider: if it was, add of_rider = \"…\", the rider's file".to_owned()
            }
            Reason::OtherSettings => {
                "parameters are set otherwise than in the plan that was built: judge it as it is written, or build and test it so"
                    .to_owned()
            }
            Reason::OtherPlace(Some(place)) => {
                format!("it was tested for the place of {place}, and this is another: what passed there is not known to pass here")
            }
            Reason::OtherPlace(None) => {
                "nobody says that it was tested for this place: if it was, add of_place = \"…\", the place's file".to_owned()
            }
            Reason::NoRevision => {
                "the plan has no revision, and nobody can tell whether it is still the one that was built: add revision 1, and raise it \
                 with every change"
                    .to_owned()
            }
            Reason::OtherState(state) => {
                format!("this is the state {state}: the results are of the chair as it is ridden")
            }
            Reason::OtherRevision { built: Some(built), asked } => {
                format!("revision {built} was built and tested, and this is revision {asked}: test it again")
            }
            Reason::OtherRevision { built: None, asked } => {
                format!("nobody says which revision was built: if it is this one add of_revision = \"{asked}\"")
            }
        })
    }

    /// One line a test, with its readings by what came of them.
    fn of_tests(&self, open: &[Reason]) -> Vec<String> {
        let mut out = Vec::new();
        for (i, test) in self.sheet.tests.iter().enumerate() {
            let mine = |wanted: Outcome| -> Vec<&str> {
                let fits = |r: &&Reason| matches!(r, Reason::Reading(n, _, o) if *n == i + 1 && *o == wanted);
                let names = open.iter().filter(fits);
                names.filter_map(|r| if let Reason::Reading(_, f, _) = r { Some(*f) } else { None }).collect()
            };
            let title = test_words(self, test).0;
            let kinds = [
                (Outcome::Failed, "not passed"),
                (Outcome::OffSheet, "not the chair that was worked out"),
                (Outcome::TooGentle, "tested more gently than the plan asks now"),
                (Outcome::CannotTell, "too near to the limit to tell, measure more closely"),
                (Outcome::NoLimit, "nobody can say what passes"),
                (Outcome::Missing, "still to be tested"),
            ];
            for (outcome, words) in kinds {
                let fields = mine(outcome);
                if !fields.is_empty() {
                    let lack = test.readings.iter().find(|r| fields.contains(&r.field) && r.limit.is_none());
                    let lack = lack.and_then(|r| r.lack).map(|l| format!(" ({})", lack_words(Some(l))));
                    let lack = lack.unwrap_or_default();
                    out.push(format!("test {}, {title}: {words}: {}{lack}", i + 1, fields.join(", ")));
                }
            }
        }
        out
    }
}

/// The sheet of a design, worked out from its plan.
pub(crate) fn sheet(
    design: &Design,
    frame: &Frame,
    (checked, strength): (&Checked, &Strength),
    demands: &[Demand],
    pieces: usize,
) -> TestSheet {
    if design.name.is_empty() {
        return TestSheet::default();
    }
    let measured = design.as_built.is_some();
    // what was measured must not become its own measure
    let plan = measured.then(|| chairwright_checks::check(&Design { as_built: None, ..design.clone() }, frame));
    let checked = plan.as_ref().unwrap_or(checked);
    test_sheet(&Plan { design, checked, strength, demands, pieces })
}

/// Requirements on one figure by itself.
pub(crate) fn demands(sources: &Sources, verdicts: &[Verdict]) -> Vec<Demand> {
    let one = |v: &Verdict| {
        let (figure, c) = (v.uses.first()?, v.comparison.as_ref()?);
        let alone = v.required && v.uses.len() == 1 && c.figure_left && sources.slice(c.left).trim() == figure;
        let value = c.right_value.si();
        alone.then(|| Demand {
            figure: figure.clone(),
            least: c.wants_more.then_some(value),
            most: (!c.wants_more).then_some(value),
        })
    };
    verdicts.iter().filter_map(one).collect()
}

impl Project {
    /// Looks at a built chair in its other states and at its other stops: whoever sits in it may set it so.
    pub(crate) fn elsewhere(&mut self, options: &Options, c: &mut Compilation) {
        if c.design.as_built.is_none() || options.situation != Situation::default() {
            return;
        }
        let (situations, _) = self.program(Choice::default()).0.situations();
        c.unseen = situations.len().saturating_sub(ELSEWHERE);
        for situation in situations.into_iter().take(ELSEWHERE) {
            let adjusted = !situation.picks.is_empty();
            let strength = StrengthWanted::Verdicts;
            let there = self.compile(&Options { situation, strength, ..options.clone() });
            let of_here = |p: &Diagnostic| {
                c.problems.iter().chain(&c.elsewhere).any(|known| same_finding(known, p, adjusted))
            };
            let tested = |p: &Diagnostic| OF_TESTS.contains(&p.code.name);
            let fits = |p: &Diagnostic| !(adjusted && OF_ONE_SETTING.contains(&p.code.name));
            let errors = there.problems.iter().filter(|p| p.severity == Severity::Error);
            let new: Vec<Diagnostic> =
                errors.filter(|p| !tested(p) && fits(p) && !of_here(p)).cloned().collect();
            c.elsewhere.extend(new);
        }
    }

    /// Fills in what the tilt test expects at the least and most stable stops of a chair that can be adjusted.
    pub(crate) fn stops(&mut self, options: &Options, c: &mut Compilation) {
        let adjustable = |t: &chairwright_proving::Test| t.kind == Kind::Tilt { adjustable: true };
        if !c.sheet.tests.iter().any(adjustable) {
            return;
        }
        let spreads = if c.design.as_built.is_some() {
            let planned = Options { planned: true, ..options.clone() };
            let plan = self.quietly(&planned);
            self.spreads(&planned, &plan)
        } else {
            c.spreads.clone()
        };
        let fields = [
            ("tip.rear.locked", "rear_locked", "rear_locked_least"),
            ("tip.rear.free", "rear_free", "rear_free_least"),
            ("tip.forward.locked", "forward", "forward_least"),
            ("tip.forward.free", "forward_free", "forward_free_least"),
            ("tip.side", "side", "side_least"),
        ];
        for r in c.sheet.tests.iter_mut().flat_map(|t| &mut t.readings) {
            for (figure, used, least) in fields {
                let Some(spread) = spreads.iter().find(|s| s.figure == figure) else { continue };
                if r.field == least {
                    (r.expected, r.adjusted) = (Some(spread.least.0), spread.least.1.clone());
                    r.lack = r.limit.is_none().then_some(chairwright_proving::Lack::Slope);
                } else if r.field == used {
                    r.most = Some(spread.most.0).filter(|m| r.expected.is_some_and(|e| m - e > 1e-9));
                }
            }
        }
    }
}

impl crate::words::Words<'_> {
    /// What there is to say of the results; nothing without any.
    pub(crate) fn proving(&self, sheet: &TestSheet) -> Vec<chairwright_diagnostics::Diagnostic> {
        use chairwright_diagnostics::Diagnostic;
        let Some(built) = &self.design.as_built else { return Vec::new() };
        let open = reasons(sheet, self.design);
        let elsewhere = |r: &Reason| matches!(r, Reason::OtherVariant { .. } | Reason::OtherState(_));
        if self.design.name.is_empty() || open.iter().any(elsewhere) {
            return Vec::new();
        }
        let mut out = Vec::new();
        let mut missing: Vec<&str> = Vec::new();
        for reason in &open {
            if let Reason::NotOnSheet(field) = reason {
                out.push(self.stray(field, built));
            }
            let Reason::Reading(_, field, outcome) = reason else { continue };
            let Some(reading) = sheet.reading(field) else { continue };
            let words = reading_words(self.display, reading);
            let at = built.places.get(*field).copied().unwrap_or(built.origin);
            let said = match outcome {
                Outcome::Missing => {
                    missing.push(field);
                    continue;
                }
                Outcome::Failed => {
                    Diagnostic::new("test-failed", format!("the built chair does not pass `{field}`"))
                        .help("find out why and mend the chair; then test it again from the first test on")
                }
                Outcome::OffSheet => {
                    let headline = format!("by `{field}` this is not the chair that was worked out");
                    Diagnostic::new("off-sheet", headline)
                        .note("every slope, clearance and stress was computed for the chair of the plan")
                        .help("look for what came out otherwise, and change the chair, or draw it as it is and check it again")
                }
                Outcome::TooGentle => Diagnostic::new(
                    "held",
                    format!("the built chair was tested more gently than asked, by `{field}`"),
                )
                .help("make this test again as hard as the sheet asks, and write down how hard it was"),
                Outcome::CannotTell => Diagnostic::new(
                    "held",
                    format!("`{field}` is too near to its limit to tell"),
                )
                .help("measure it more closely and write its tolerance behind it, such as ± 0.2 deg or ± 1 mm"),
                Outcome::NoLimit => Diagnostic::new("held", format!("nobody can say what passes `{field}`"))
                    .help("give the plan what is missing: chairwright prove FILE says what"),
                Outcome::Passed => continue,
            };
            let said = if words.why.is_empty() { said } else { said.note(words.why.clone()) };
            out.push(self.placed(said, at, format!("{}; {}", words.result, words.passes)));
        }
        out.extend(self.held(built.origin, &open, &missing));
        out
    }

    fn stray(&self, field: &str, built: &chairwright_design::AsBuilt) -> chairwright_diagnostics::Diagnostic {
        let headline = format!("`{field}` is not on the test sheet of this plan");
        let said = chairwright_diagnostics::Diagnostic::new("held", headline)
            .note("the plan has nothing that could be tested by it, so nobody can say what passes")
            .help("draw what was tested and check the plan again, or take the line out");
        let at = built.places.get(field).copied().unwrap_or(built.origin);
        self.placed(said, at, "cannot be judged")
    }

    fn held(
        &self,
        origin: chairwright_design::Origin,
        open: &[Reason],
        missing: &[&str],
    ) -> Option<chairwright_diagnostics::Diagnostic> {
        let mut lacks: Vec<String> = Vec::new();
        for reason in open {
            match reason {
                Reason::Nobody => lacks.push("who measured".to_owned()),
                Reason::Undated => lacks.push("when".to_owned()),
                Reason::OtherRevision { asked, .. } => lacks.push(format!("that revision {asked} was built")),
                Reason::NoSheet => lacks.push("a rider in a chair that stands, to test by".to_owned()),
                _ => {}
            }
        }
        if missing.is_empty() && lacks.is_empty() {
            return None;
        }
        let headline = match missing.len() {
            0 => "the built chair is held: nobody stands for its results".to_owned(),
            1 => "the built chair is held: one result is missing".to_owned(),
            n => format!("the built chair is held: {n} results are missing"),
        };
        let mut said = chairwright_diagnostics::Diagnostic::new("held", headline);
        if !missing.is_empty() {
            said = said.note(format!("not written down: {}", missing.join(", ")));
        }
        if !lacks.is_empty() {
            said = said.note(format!("nobody says {}", lacks.join(", ")));
        }
        let said = said.help("nobody sits in it: print the sheet with chairwright prove FILE, test, and write down what came of it");
        Some(self.placed(said, origin, "not everything that is to be tested"))
    }
}
