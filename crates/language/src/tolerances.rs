//! Values with a tolerance that stand in a part or in a statement, where no name reaches them: their doubt is tried like
//! that of a measure of the rider.

use crate::build::Builder;
use crate::build_extras::plain_unit;
use crate::scope::declared_name;
use crate::words::{inner, keyword};
use chairwright_design::Known;
use chairwright_diagnostics::Span;
use chairwright_syntax::{Entry, Expr, ExprKind};

/// What is left out: a band of a stock or a fitting is held against what it meets
/// instead; what was measured on the built chair, and rules, have checks of their own.
const ASIDE: [&str; 13] = [
    "rider",
    "conditions",
    "require",
    "prefer",
    "as_built",
    "baseline",
    "profile",
    "fit_rules",
    "stock",
    "fitting",
    "material",
    "allowance",
    "fastener",
];

impl Builder<'_, '_> {
    /// Keeps every such value that was made use of.
    pub(crate) fn know_places(&mut self) {
        let told: Vec<Span> = self.design.known.iter().filter_map(|k| self.place_of(k.origin)).collect();
        let met = self.evaluator.tolerances.take();
        for (span, [middle, half]) in met.into_iter().filter(|(span, _)| !told.contains(span)) {
            let scope = self.evaluator.scope;
            let statements =
                scope.placed.iter().filter(|p| p.own && !p.ghost).map(|p| (p.spec.keyword, p.entry));
            let mut all = statements.chain(scope.own_entries.iter().copied());
            let Some((word, entry)) = all.find(|(_, e)| holds(e.span, span)) else { continue };
            let Some((unit, scale)) = plain_unit(middle.dimension) else { continue };
            if ASIDE.contains(&word) {
                continue;
            }
            let zero = if middle.dimension.reading { 273.15 } else { 0.0 };
            let origin = self.origin(span);
            self.design.known.push(Known {
                name: name(word, entry, span),
                by_name: false,
                written: self.display().text(middle),
                nominal: middle.number.to_f64() / scale - zero,
                spread: Some(half.number.to_f64() / scale),
                unit: unit.to_owned(),
                basis: None,
                by: None,
                dated: None,
                origin,
            });
        }
    }
}

/// What a value is of: `holding_force of drum`, `carry bag`, `joint hub`.
fn name(word: &str, entry: &Entry, span: Span) -> String {
    let quoted = || crate::scope::text_of(entry.subject.as_ref()).map(str::to_owned);
    let meant = || entry.subject.as_ref().and_then(subject);
    let own = declared_name(entry).map(|(n, _)| n.to_string()).or_else(quoted).or_else(meant);
    let line = inner(entry).find(|l| holds(l.span, span));
    match (line, own) {
        (Some(line), Some(own)) => format!("{} of {own}", keyword(line)),
        (Some(line), None) => format!("{} of {word}", keyword(line)),
        (None, Some(own)) => format!("{word} {own}"),
        (None, None) => word.to_owned(),
    }
}

/// The name that a statement is about: the joint of a closing, the thing that is fastened.
fn subject(expr: &Expr) -> Option<String> {
    if let ExprKind::Name(path) = &expr.kind { Some(path.text().to_string()) } else { None }
}

fn holds(all: Span, part: Span) -> bool {
    all.source == part.source && all.start <= part.start && part.end <= all.end
}
