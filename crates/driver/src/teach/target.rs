//! What is asked of a chair, each with the room that is left: below zero it is not met.

use crate::Compilation;
use chairwright_checks::Problem;
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_quantity::Quantity;

/// One thing that is asked of the chair.
#[derive(Clone, PartialEq, Debug)]
pub(crate) enum Target {
    /// A demand of the text, by its place and the assembly that asks for it.
    Demand(Span, Option<String>),
    /// A figure that must be at least or at most something: use profile, rules of fit, leaning. The finding's code.
    Figure { code: &'static str, figure: String, least: f64, most: f64 },
    /// A figure that a finding is measured by; its room is its value.
    Measure(String),
}

/// Each thing that is asked, whether met or not, and the room that is left; first so many that are required, behind them what is
/// preferred.
pub(crate) fn targets(c: &Compilation) -> (Vec<(Target, Quantity)>, usize) {
    let of = |required: bool| {
        c.verdicts.iter().filter(move |v| v.required == required).filter_map(|v| {
            let target = Target::Demand(v.span, v.within.clone());
            room(c, &target).map(|room| (target, room))
        })
    };
    let margins = c.checked.margins.iter().map(|m| {
        let least = m.slope + m.margin;
        figure("tips-too-soon", m.figure, least, f64::INFINITY)
    });
    let problems = c.checked.problems.iter().filter_map(|p| match p {
        Problem::FitRule(b) => Some(figure("breaks-fit-rule", &b.key, b.range.0, b.range.1)),
        Problem::TipsLeaning { figure: f, slope, .. } => {
            Some(figure("tips-when-leaning", f, *slope + 1e-6, f64::INFINITY))
        }
        _ => None,
    });
    let figures = margins.chain(problems).filter_map(|t| room(c, &t).map(|room| (t, room)));
    let mut all: Vec<(Target, Quantity)> = of(true).chain(figures).collect();
    let required = all.len();
    all.extend(of(false));
    (all, required)
}

fn figure(code: &'static str, figure: &str, least: f64, most: f64) -> Target {
    Target::Figure { code, figure: figure.to_owned(), least, most }
}

/// The room that a chair leaves to a target, below zero where it is not met; `None` where nobody can tell.
pub(crate) fn room(c: &Compilation, target: &Target) -> Option<Quantity> {
    match target {
        Target::Demand(span, within) => {
            let verdict = c.verdicts.iter().find(|v| v.span == *span && v.within == *within)?;
            let both = verdict.comparison.as_ref().filter(|_| verdict.missing.is_empty())?;
            let more = both.left_value.si() - both.right_value.si();
            let room = if both.wants_more { more } else { -more };
            // met by what was judged alone is not met
            let told = room < 0.0 || verdict.partial.is_empty();
            told.then(|| Quantity::from_si(room, both.left_value.dimension))
        }
        Target::Measure(figure) => Some(c.figures.0.get(figure)?.value),
        Target::Figure { figure, least, most, .. } => {
            let value = c.figures.0.get(figure)?.value;
            Some(Quantity::from_si((value.si() - least).min(most - value.si()), value.dimension))
        }
    }
}

/// 1 where more room is more of the figure, -1 where it is less of it.
pub(crate) fn upward(c: &Compilation, target: &Target) -> f64 {
    let up = match target {
        Target::Demand(span, within) => {
            let verdict = c.verdicts.iter().find(|v| v.span == *span && v.within == *within);
            verdict.and_then(|v| v.comparison.as_ref()).is_none_or(|both| both.wants_more)
        }
        Target::Measure(_) => true,
        Target::Figure { figure, least, most, .. } => {
            c.figures.si(figure).is_none_or(|value| value - least <= most - value)
        }
    };
    if up { 1.0 } else { -1.0 }
}

/// Whether a finding is about a target.
pub(crate) fn is_about(finding: &Diagnostic, target: &Target) -> bool {
    match target {
        Target::Demand(span, _) => {
            matches!(finding.code.name, "requirement-unmet" | "preference-unmet")
                && finding.primary.as_ref().is_some_and(|l| l.span == *span)
        }
        Target::Measure(_) => false,
        Target::Figure { code, figure, .. } => {
            let short = figure.trim_end_matches(".left").trim_end_matches(".right");
            let named = finding.headline.contains(&format!("`{figure}`"))
                || finding.headline.contains(&format!("`{short}`"))
                || (figure == "fit.back.top" && finding.headline.contains("`back.height`"));
            finding.code.name == *code && named
        }
    }
}
