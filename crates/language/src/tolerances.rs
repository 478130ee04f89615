//! Values with a tolerance that stand in a part or in a statement, where no name reaches them: their doubt is tried like
//! that of a measure of the rider.

use crate::build::Builder;
use crate::build_extras::plain_unit;
use crate::evaluator::Env;
use crate::scope::declared_name;
use crate::words::{inner, keyword};
use chairwright_design::Known;
use chairwright_diagnostics::Span;
use chairwright_syntax::{Binary, Entry, Expr, ExprKind};

/// What is left out: a band of a stock or a fitting is held against what it meets
/// instead; what was measured on the built chair, and rules, have checks of their own.
const ASIDE: [&str; 9] =
    ["as_built", "baseline", "profile", "fit_rules", "stock", "fitting", "material", "allowance", "fastener"];

impl Builder<'_, '_> {
    /// Keeps every such value that was made use of.
    pub(crate) fn know_places(&mut self) {
        self.meet_demands();
        // a value that is worked out from one with a tolerance has none of its own
        let own = self.design.known.iter().filter(|k| k.spread.is_some());
        let told: Vec<Span> = own.filter_map(|k| self.place_of(k.origin)).collect();
        let met = self.evaluator.tolerances.take();
        for (span, [middle, half]) in met.into_iter().filter(|(span, _)| !told.iter().any(|t| holds(*t, *span)))
        {
            let scope = self.evaluator.scope;
            let statements =
                scope.placed.iter().filter(|p| p.own && !p.ghost).map(|p| (p.spec.keyword, p.entry));
            let blocks = [("rider", scope.rider), ("conditions", scope.conditions)];
            let blocks = blocks.into_iter().filter_map(|(word, block)| Some((word, block?)));
            let changes = scope.variants.values().map(|e| ("variant", *e));
            let states = scope.states.values().map(|e| ("state", *e));
            let all = statements.chain(scope.own_entries.iter().copied()).chain(blocks);
            let Some((word, entry)) = all.chain(changes).chain(states).find(|(_, e)| holds(e.span, span))
            else {
                continue;
            };
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
                ranges: false,
                toleranced: true,
                unit: unit.to_owned(),
                basis: None,
                by: None,
                dated: None,
                origin,
            });
        }
    }
}

impl Builder<'_, '_> {
    /// What only a demand makes use of is met when the demand is judged, after the design stands: it is looked up here.
    fn meet_demands(&self) {
        let evaluator = self.evaluator;
        let demand = |p: &&crate::scope::Placed| matches!(p.spec.keyword, "require" | "prefer") && !p.ghost;
        let said = evaluator.problems.borrow().len();
        for placed in evaluator.scope.placed.iter().filter(demand) {
            if let Some(condition) = &placed.entry.subject {
                self.meet_in(condition, &Env::on(placed.room));
            }
        }
        // what is wrong with a demand is said where it is judged
        evaluator.problems.borrow_mut().truncate(said);
    }

    fn meet_in(&self, expr: &Expr, env: &Env) {
        match &expr.kind {
            ExprKind::Name(_) | ExprKind::Binary(Binary::Tolerance, ..) => {
                let known = self.evaluator.infer(expr, env).dimension().is_some();
                let _ = known.then(|| self.evaluator.eval(expr, env));
            }
            ExprKind::Unary(_, inner) => self.meet_in(inner, env),
            ExprKind::Binary(_, l, r) => [l, r].into_iter().for_each(|e| self.meet_in(e, env)),
            ExprKind::Call(_, all) | ExprKind::List(all) => all.iter().for_each(|e| self.meet_in(e, env)),
            _ => {}
        }
    }
}

/// What a value is of: `holding_force of drum`, `carry bag`, `joint hub`.
fn name(word: &str, entry: &Entry, span: Span) -> String {
    let quoted = || crate::scope::text_of(entry.subject.as_ref()).map(str::to_owned);
    let own = declared_name(entry).map(|(n, _)| n.to_string()).or_else(quoted);
    let line = inner(entry).find(|l| holds(l.span, span));
    match (line, own) {
        (Some(line), Some(own)) => format!("{} of {own}", keyword(line)),
        (Some(line), None) => format!("{} of {word}", keyword(line)),
        (None, Some(own)) => format!("{word} {own}"),
        (None, None) if matches!(word, "require" | "prefer") => "limit of a demand".to_owned(),
        (None, None) => word.to_owned(),
    }
}

fn holds(all: Span, part: Span) -> bool {
    all.source == part.source && all.start <= part.start && part.end <= all.end
}
