//! Requirements and preferences, once the figures are known.

use crate::choice::Nudge;
use crate::evaluator::{Env, Evaluator};
use crate::figures::figure_spec;
use crate::scope::{Scope, text_of};
use crate::value::{Type, Value};
use chairwright_diagnostics::{Problems, Span};
use chairwright_quantity::Quantity;
use chairwright_syntax::{Binary, Expr, ExprKind, Unary};
use std::collections::{BTreeMap, BTreeSet};

/// Both sides of a demand that compares two quantities.
#[derive(Clone, Debug)]
pub struct Comparison {
    /// The left side's text range.
    pub left: Span,
    /// Its value.
    pub left_value: Quantity,
    /// The right side's text range.
    pub right: Span,
    /// Its value.
    pub right_value: Quantity,
    /// Whether the left side must be the larger one.
    pub wants_more: bool,
    /// Whether computed figures stand on the left side only.
    pub figure_left: bool,
}

/// What became of one demand.
#[derive(Clone, Debug)]
pub struct Verdict {
    /// The range of the condition.
    pub span: Span,
    /// The fitted assembly that asks for it, if one does.
    pub within: Option<String>,
    /// Whether it is a requirement, or only a preference.
    pub required: bool,
    /// Whether it holds; `None` when it could not be told.
    pub holds: Option<bool>,
    /// Why it was asked for.
    pub reason: Option<String>,
    /// Both sides, where it is a plain comparison.
    pub comparison: Option<Comparison>,
    /// The comparisons that it joins by `and`, `or` and `not`, each as it bears on the whole; both ways of an equality.
    pub parts: Vec<Comparison>,
    /// Figures it uses.
    pub uses: Vec<String>,
    /// Those of them that could not be computed.
    pub missing: Vec<String>,
    /// Those of them to which something belongs that could not be judged.
    pub partial: Vec<String>,
}

pub(crate) fn judge<'a>(
    scope: &'a Scope<'a>,
    (priced, nudges): (&'a BTreeSet<String>, &'a [Nudge]),
    only: Option<Span>,
    (figures, in_part): (&'a BTreeMap<String, Quantity>, &BTreeSet<String>),
) -> (Vec<Verdict>, Problems) {
    let mut evaluator = Evaluator::new(scope, Some(priced));
    evaluator.figures = Some(figures);
    evaluator.nudges = nudges;
    let mut verdicts = Vec::new();
    let asked =
        |span: Span| only.is_none_or(|o| o.source == span.source && o.start <= span.start && span.end <= o.end);
    for placed in scope.placed.iter().filter(|p| !p.ghost && asked(p.entry.span)) {
        let env = Env { figures: true, day: true, ..Env::on(placed.room) };
        let required = match placed.spec.keyword {
            "require" => true,
            "prefer" => false,
            _ => continue,
        };
        let Some(condition) = placed.entry.subject.as_ref() else { continue };
        // A condition that was wrong in itself is already reported.
        let quiet = evaluator.problems.borrow().len();
        let good = evaluator.infer(condition, &env) == Type::Bool;
        evaluator.problems.borrow_mut().truncate(quiet);
        if !good {
            continue;
        }
        let else_clause = crate::words::clause(placed.entry, "else");
        let mut uses = Vec::new();
        figures_used(condition, &evaluator, &env, &mut uses);
        let missing: Vec<String> = uses.iter().filter(|f| !figures.contains_key(*f)).cloned().collect();
        let partial: Vec<String> = uses.iter().filter(|f| in_part.contains(*f)).cloned().collect();
        let said = evaluator.problems.borrow().len();
        let result = evaluator.eval(condition, &env);
        if evaluator.problems.borrow().len() > said {
            continue;
        }
        let holds = match result {
            Ok(Value::Bool(true)) if !partial.is_empty() => None,
            Ok(Value::Bool(holds)) if missing.is_empty() => Some(holds),
            _ => None,
        };
        verdicts.push(Verdict {
            span: condition.span,
            within: within(scope, placed.room),
            required,
            holds,
            reason: else_clause.and_then(|c| text_of(c.values.first())).map(str::to_owned),
            comparison: comparison(condition, &evaluator, &env),
            parts: parts(condition, &evaluator, &env, false),
            uses,
            missing,
            partial,
        });
    }
    (verdicts, evaluator.problems.into_inner())
}

fn within(scope: &Scope, room: crate::room::RoomId) -> Option<String> {
    let prefix = scope.room(room).prefix.trim_end_matches('.');
    (!prefix.is_empty()).then(|| prefix.to_owned())
}

fn comparison(condition: &Expr, evaluator: &Evaluator, env: &Env) -> Option<Comparison> {
    let ExprKind::Binary(operator, l, r) = &condition.kind else { return None };
    let wants_more = match operator {
        Binary::More | Binary::AtLeast => true,
        Binary::Less | Binary::AtMost => false,
        _ => return None,
    };
    compared((l, r), wants_more, evaluator, env)
}

/// The comparisons inside a condition, each with the way in which more of it is better for the whole.
fn parts(condition: &Expr, evaluator: &Evaluator, env: &Env, turned: bool) -> Vec<Comparison> {
    match &condition.kind {
        ExprKind::Unary(Unary::Not, inner) => parts(inner, evaluator, env, !turned),
        ExprKind::Binary(Binary::And | Binary::Or, l, r) => {
            let mut all = parts(l, evaluator, env, turned);
            all.extend(parts(r, evaluator, env, turned));
            all
        }
        ExprKind::Binary(Binary::Same | Binary::Differs, l, r) => {
            [true, false].iter().filter_map(|more| compared((l, r), *more, evaluator, env)).collect()
        }
        _ => {
            let one = comparison(condition, evaluator, env);
            one.map(|c| Comparison { wants_more: c.wants_more != turned, ..c }).into_iter().collect()
        }
    }
}

fn compared((l, r): (&Expr, &Expr), wants_more: bool, evaluator: &Evaluator, env: &Env) -> Option<Comparison> {
    let uses = |side: &Expr| {
        let mut all = Vec::new();
        figures_used(side, evaluator, env, &mut all);
        !all.is_empty()
    };
    Some(Comparison {
        left: l.span,
        left_value: evaluator.quantity(l, env).ok()?,
        right: r.span,
        right_value: evaluator.quantity(r, env).ok()?,
        wants_more,
        figure_left: uses(l) && !uses(r),
    })
}

fn figures_used(expr: &Expr, evaluator: &Evaluator, env: &Env, out: &mut Vec<String>) {
    match &expr.kind {
        ExprKind::Name(path) => {
            let text = path.text();
            if evaluator.scope.find(&text, env.room).is_none() {
                let known = |t: &str| evaluator.figures.is_some_and(|f| f.contains_key(t));
                let usual = crate::words::usual(&text);
                let name = if known(&text) || figure_spec(&usual).is_none() { text } else { usual };
                if figure_spec(&name).is_some() {
                    out.push(name.to_string());
                }
            }
        }
        ExprKind::Unary(_, v) => figures_used(v, evaluator, env, out),
        ExprKind::Binary(_, l, r) => {
            figures_used(l, evaluator, env, out);
            figures_used(r, evaluator, env, out);
        }
        ExprKind::Call(_, items) | ExprKind::List(items) => {
            items.iter().for_each(|i| figures_used(i, evaluator, env, out));
        }
        _ => {}
    }
}
