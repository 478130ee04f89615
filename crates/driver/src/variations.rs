//! Every chair that a design may be: the base design and each variant, in every state and at the stops of its adjustments, with
//! what is uncertain tried in them.

use crate::influence::{Off, Watch, is_told_wet, may_get_wet, watched};
use crate::same::Identity;
use crate::{Compilation, Instead, OF_ONE_SETTING, Options, Project, StrengthWanted, World, is_idle, repair};
use chairwright_diagnostics::{Diagnostic, Severity, Sources};
use chairwright_language::{Choice, Pick, Situation};

/// Variations of one design that get lessons.
const LESSONS: usize = 6;
/// Variations of one design that are looked at.
const VARIATIONS: usize = 600;
/// Designs worked out to try what is uncertain in states and at stops, beyond the base design and its variants.
const TRIALS: usize = 400;
/// A stop is near its limit where less room is left than this many times what all that is uncertain moves.
const NEAR: f64 = 2.0;
/// Situations in which a finding is told again, in a note, and how that begins.
const TOLD: usize = 3;
const ALSO: &str = "also in ";
/// How it begins where it is the same, of a finding that the base design has not.
const SAME: &str = "the same in ";
/// Combinations of stops that are tried where not all can be, for each variant and state.
const COMBINED: usize = 12;

/// One chair that was worked out.
struct Tried {
    options: Options,
    c: Compilation,
}

impl Tried {
    fn is_of(&self, other: &Tried) -> bool {
        let of = |t: &Tried| (t.options.variant.clone(), t.options.situation.state.clone());
        of(self) == of(other)
    }

    fn adjusted(&self) -> bool {
        !self.options.situation.picks.is_empty()
    }
}

/// Compiles the base design and every variant, each in every state and adjustment; what several of
/// them say is said once.
#[must_use]
pub fn compile_all(world: &dyn World, path: &str) -> (Sources, Vec<Compilation>) {
    compile_all_with(world, path, &Instead::default())
}

/// The same with another rider's and another place's text.
#[must_use]
pub fn compile_all_with(world: &dyn World, path: &str, instead: &Instead) -> (Sources, Vec<Compilation>) {
    let mut project = Project::load_with(world, path, instead);
    let (variants, situations, singly) = {
        let (program, _) = project.program(Choice::default());
        let (situations, singly) = program.situations();
        (program.variants(), situations, singly)
    };
    let count = (variants.len() + 1) * (situations.len() + 1);
    let mut tried: Vec<Tried> = Vec::new();
    for variant in std::iter::once(None).chain(variants.into_iter().map(Some)) {
        for situation in std::iter::once(Situation::default()).chain(situations.iter().cloned()) {
            if tried.len() < VARIATIONS {
                tried.push(project.variation(variant.clone(), situation));
            }
        }
    }
    if singly {
        project.combine(&mut tried);
    }
    let left = project.doubt_all(&mut tried);
    let mut all = project.tell_once(tried, untried(singly, count).into_iter().chain(left).collect());
    let used: Vec<String> =
        all.iter().flat_map(|c| &c.accepted).map(|a| a.finding.code.name.to_owned()).collect();
    // a reason that some state needs is not idle
    let needed: Vec<&str> = all.iter().flat_map(|c| &c.checked.deviated).map(|b| b.figure).collect();
    for c in &mut all {
        c.problems.retain(|p| !is_idle(p, &needed));
        c.problems.retain(|p| {
            p.code.name != "idle-accept" || !used.iter().any(|u| p.headline.contains(&format!("\"{u}\"")))
        });
    }
    repair::verify((&project.sources, project.today.as_deref()), &project.path, &mut all);
    (project.sources, all)
}

/// What could not be tried.
fn untried(singly: bool, count: usize) -> Option<Diagnostic> {
    if count > VARIATIONS {
        let said = Diagnostic::new("too-much-work", format!("this design has {count} variations"));
        let said = said.note(format!("the limit is {VARIATIONS}: the others were not looked at"));
        return Some(said.help("split it into plans that fork a common one"));
    }
    singly.then(|| {
        Diagnostic::new("cannot-tell", "not all adjustments were tried together")
            .note(
                "there are too many stops; each dimension was tried alone, the ends together, and the stops that alone are \
                 the worst for a demand together",
            )
            .help("give some of them fewer stops, or check the combinations that are used as variants")
    })
}

/// Whether two situations say the same. At another stop of an adjustment the same demand fails by
/// another amount; the first is enough.
pub(crate) fn same_finding(a: &Diagnostic, b: &Diagnostic, adjusted: bool) -> bool {
    let amount = adjusted && a.primary.is_some() && a.code.name != crate::influence::CODE;
    let one = Identity::of(a);
    one.is_at(b) && (a.headline == b.headline || (amount && one.remains_in(b)))
}

/// Says of a finding that is told how the same stands in another situation: there it may be worse.
fn also(first: &mut Diagnostic, there: &Diagnostic) {
    let label = |p: &Diagnostic| p.primary.as_ref().map(|l| l.text.clone()).unwrap_or_default();
    let words = if first.headline == there.headline { label(there) } else { there.headline.clone() };
    let told = words == label(first) || first.notes.iter().any(|n| n.ends_with(&words));
    let grave = there.severity <= Severity::Warning && there.code.name != crate::influence::CODE;
    let (true, Some(situation)) = (grave, &there.situation) else { return };
    let same = told && first.situation.is_some() && words == label(first);
    let (how, note, more) = match (told, same) {
        (false, _) => {
            (ALSO, format!("{situation}: {words}"), "other states or at other stops, by other amounts")
        }
        (true, true) => (SAME, situation.clone(), "others"),
        (true, false) => return,
    };
    match first.notes.iter().filter(|n| n.starts_with(how)).count() {
        n if n < TOLD => first.notes.push(format!("{how}{note}")),
        TOLD => first.notes.push(format!("{how}{more}")),
        _ => {}
    }
}

/// The room left to each thing that is asked, as a share of what all that is uncertain moves of it: the least of them.
fn nearness(c: &Compilation, reach: &[(Watch, f64)]) -> f64 {
    let one = |w: Watch| {
        let (_, by) = reach.iter().find(|(x, _)| x.by == w.by && x.figure == w.figure)?;
        let room = w.room().filter(|r| *r >= 0.0)?;
        (*by > 1e-12).then_some(room / by)
    };
    watched(c).into_iter().filter_map(one).fold(f64::INFINITY, f64::min)
}

impl Project {
    fn variation(&mut self, variant: Option<String>, situation: Situation) -> Tried {
        // whoever looks at all variations wants findings, and those hang on the verdicts alone
        let strength = StrengthWanted::Verdicts;
        let ways = situation.picks.is_empty();
        let options = Options { variant, situation, strength, ways, ..Options::default() };
        Tried { c: self.compile(&options), options }
    }

    /// Where dimensions were adjusted one by one: for each thing that is asked, the stops that leave the least room, all together.
    fn combine(&mut self, tried: &mut Vec<Tried>) {
        for k in 0..tried.len() {
            if tried[k].adjusted() {
                continue;
            }
            let picks = worst_picks(tried, k);
            for picks in picks.into_iter().take(COMBINED) {
                let known = |t: &Tried| t.is_of(&tried[k]) && t.options.situation.picks == picks;
                if tried.len() >= VARIATIONS || tried.iter().any(known) {
                    continue;
                }
                let (variant, state) =
                    (tried[k].options.variant.clone(), tried[k].options.situation.state.clone());
                let situation = {
                    let (program, _) = self.program(Choice::default());
                    program.situation(state, picks)
                };
                tried.push(self.variation(variant, situation));
            }
        }
    }

    /// Tries what is uncertain: in the base design and each variant always, then in states, then at stops, those with the least
    /// room first, as far as the bound goes; hands back what is to be said where it did not reach.
    fn doubt_all(&mut self, tried: &mut [Tried]) -> Vec<Diagnostic> {
        let mut reaches: Vec<(usize, Vec<(Watch, f64)>)> = Vec::new();
        let mut budget = TRIALS;
        let mut left = 0;
        let drawn = |t: &Tried| t.options.situation == Situation::default();
        let first: Vec<usize> = (0..tried.len()).filter(|k| drawn(&tried[*k])).collect();
        let states: Vec<usize> =
            (0..tried.len()).filter(|k| !drawn(&tried[*k]) && !tried[*k].adjusted()).collect();
        for k in first.iter().chain(&states) {
            let cost = Project::trials(&tried[*k].c, Off::Guessed);
            let free = drawn(&tried[*k]);
            if !free && cost > budget {
                left += 1;
                continue;
            }
            budget -= if free { 0 } else { cost };
            let Tried { options, c } = &mut tried[*k];
            let reach = self.doubt(options, c, Off::Guessed);
            reaches.push((*k, reach));
        }
        let mut stops: Vec<(f64, usize)> = Vec::new();
        for k in (0..tried.len()).filter(|k| tried[*k].adjusted()) {
            let of = reaches.iter().find(|(base, _)| tried[*base].is_of(&tried[k]));
            let Some((_, reach)) = of else {
                // its state was not tried either: how near it is, is not known
                left += usize::from(Project::trials(&tried[k].c, Off::Guessed) > 0);
                continue;
            };
            stops.push((nearness(&tried[k].c, reach), k));
        }
        stops.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        for (near, k) in stops {
            // with much room left what nobody measured changes nothing, and is worth no compiles
            let most = if near < NEAR { Off::Guessed } else { Off::Said };
            let cost = Project::trials(&tried[k].c, most);
            if cost > budget {
                left += usize::from((near < NEAR && cost > 0) || may_get_wet(&tried[k].c));
                continue;
            }
            budget -= cost;
            let Tried { options, c } = &mut tried[k];
            self.doubt(options, c, most);
        }
        let said = |n: usize| {
            Diagnostic::new("cannot-tell", "what is uncertain was not tried everywhere")
                .note(format!(
                    "in {n} states or stops with little room, or of wood that may get wet, it was not: the limit is {TRIALS} designs \
                     worked out for it"
                ))
                .help("give adjustments fewer stops, measure closer, or check those that are used as variants")
        };
        (left > 0).then(|| said(left)).into_iter().collect()
    }

    /// Adds lessons to those that fail first, and says what several say once.
    fn tell_once(&mut self, tried: Vec<Tried>, untried: Vec<Diagnostic>) -> Vec<Compilation> {
        let mut all: Vec<Compilation> = Vec::new();
        let mut lessons = 0;
        for Tried { options, c: mut next } in tried {
            let adjusted = !options.situation.picks.is_empty();
            // lessons cost dozens of compiles: the chair as drawn gets them, of warnings too, and the first others that fail
            if all.is_empty() || (lessons < LESSONS && next.has_errors()) {
                self.teach(&options, &mut next, all.is_empty());
                if lessons == 0 && next.has_errors() {
                    self.strengthen(&options, &mut next);
                }
                lessons += usize::from(next.has_errors());
            }
            // a chair that is adjusted to somebody else need not fit this rider; it must still not tip
            if adjusted {
                next.problems.retain(|p| !OF_ONE_SETTING.contains(&p.code.name));
            }
            if options.variant.is_some() || options.situation != Situation::default() {
                next.problems.retain(|p| p.code.name != "idle-deviation");
            }
            let mut kept = Vec::new();
            for p in std::mem::take(&mut next.problems) {
                let mut seen = all.iter_mut().flat_map(|c| &mut c.problems);
                match seen.find(|s| same_finding(s, &p, adjusted) || is_told_wet(s, &p)) {
                    Some(first) => also(first, &p),
                    None => kept.push(p),
                }
            }
            next.problems = kept;
            if all.is_empty() {
                next.problems.extend(untried.iter().cloned());
            }
            all.push(next);
        }
        all
    }
}

/// For each thing that is asked of the chair as drawn in one variant and state: of each dimension the stop at which alone it has
/// the least room, those that leave less than as drawn together.
fn worst_picks(tried: &[Tried], base: usize) -> Vec<Vec<Pick>> {
    let singles: Vec<&Tried> =
        tried.iter().filter(|t| t.options.situation.picks.len() == 1 && t.is_of(&tried[base])).collect();
    let mut names: Vec<&str> = Vec::new();
    for t in &singles {
        let name = t.options.situation.picks[0].name.as_str();
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let mut out: Vec<Vec<Pick>> = Vec::new();
    for w in watched(&tried[base].c) {
        let room = |c: &Compilation| w.again(c, &[]).map(|v| v * w.sign);
        let drawn = w.value.si() * w.sign;
        let of = |name: &&str| {
            let stops = singles.iter().filter(|t| t.options.situation.picks[0].name == *name);
            let rooms = stops.filter_map(|t| Some((room(&t.c)?, &t.options.situation.picks[0])));
            let least = rooms.min_by(|a, b| a.0.total_cmp(&b.0))?;
            (least.0 < drawn - 1e-12).then(|| least.1.clone())
        };
        let picks: Vec<Pick> = names.iter().filter_map(of).collect();
        if picks.len() > 1 && !out.contains(&picks) {
            out.push(picks);
        }
    }
    out
}
