//! What functions and calls give, before anything is evaluated.

use crate::evaluator::{Env, Evaluator};
use crate::functions::{Shape, function};
use crate::scope::{Decl, Found};
use crate::value::{Outcome, Silent, Type};
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_syntax::{Expr, ExprKind, Path};
use smol_str::SmolStr;

impl<'a> Evaluator<'a> {
    pub(crate) fn infer_call(&self, path: &Path, arguments: &[Expr], span: Span, env: &Env) -> Outcome<Type> {
        let name = path.text();
        if let Some(Found::Name(full)) = self.scope.find(&name, env.room) {
            return self.infer_own_function(&full, arguments, span, env);
        }
        let Some(spec) = function(&name) else {
            let known = crate::functions::FUNCTIONS.iter().map(|f| f.name);
            let mut problem = Diagnostic::new("unknown-function", format!("there is no function `{name}`"))
                .at(path.span, "not a function");
            if let Some(meant) = crate::suggest::nearest(&name, known) {
                problem = problem.help(format!("did you mean {meant}?")).edit(path.span, meant);
            }
            self.say(problem);
            return Err(Silent);
        };
        if spec.shape == Shape::Crossing {
            self.count(spec.name, spec.least..=spec.most, arguments.len(), span)?;
            for argument in arguments {
                self.member_argument(argument, env)?;
            }
            return Ok(Type::Point);
        }
        if let (Shape::Sold, [Expr { kind: ExprKind::Text(what), span }]) = (spec.shape, arguments) {
            self.known_to_be_sold(what, *span)?;
        }
        let kinds: Vec<Type> = arguments.iter().map(|a| self.infer(a, env)).collect();
        self.count(spec.name, spec.least..=spec.most, arguments.len(), span)?;
        if kinds.contains(&Type::Bad) {
            return Err(Silent);
        }
        spec.result(&kinds).ok_or_else(|| {
            let got: Vec<String> = kinds.iter().map(|k| k.phrase()).collect();
            self.say(
                Diagnostic::new("wrong-dimension", format!("`{}` takes {}", spec.name, spec.takes))
                    .at(span, format!("this gives it {}", got.join(" and "))),
            );
            Silent
        })
    }

    /// Whether anything is called that, in the price book, the shed or the pages in use.
    fn known_to_be_sold(&self, what: &str, span: Span) -> Outcome<()> {
        let key = crate::scope::fold(what);
        if self.is_priced(what) || self.scope.entries.keys().any(|(_, name)| *name == key) {
            return Ok(());
        }
        let priced = self.priced.into_iter().flatten().map(String::as_str);
        let known = self.scope.entries.keys().map(|(_, name)| name.as_str()).chain(priced);
        let problem = Diagnostic::new("unknown-entry", format!("nothing to buy is called \"{what}\""))
            .at(span, "not in the price book, and on no page in use");
        self.say(match crate::suggest::nearest(&key, known) {
            Some(meant) => {
                problem.help(format!("did you mean \"{meant}\"?")).edit(span, format!("\"{meant}\""))
            }
            None => problem.help("use the page that has it, or add it to the price book"),
        });
        Err(Silent)
    }

    fn count(
        &self,
        name: &str,
        wanted: std::ops::RangeInclusive<usize>,
        got: usize,
        span: Span,
    ) -> Outcome<()> {
        if wanted.contains(&got) {
            return Ok(());
        }
        let (least, most) = (*wanted.start(), *wanted.end());
        let words = if most == usize::MAX {
            format!("at least {least}")
        } else if least == most {
            format!("{least}")
        } else {
            format!("{least} to {most}")
        };
        self.say(
            Diagnostic::new("unknown-function", format!("`{name}` takes {words} values"))
                .at(span, format!("this gives it {got}")),
        );
        Err(Silent)
    }

    fn infer_own_function(&self, full: &SmolStr, arguments: &[Expr], span: Span, env: &Env) -> Outcome<Type> {
        let decl = self.scope.names[full];
        let kinds: Vec<Type> = arguments.iter().map(|a| self.infer(a, env)).collect();
        let names = self.argument_names(&decl, span, arguments.len())?;
        if kinds.contains(&Type::Bad) {
            return Err(Silent);
        }
        let inner = Env {
            room: decl.room,
            figures: false,
            day: env.day,
            arguments: names.into_iter().zip(kinds).map(|(n, k)| (n, k, None)).collect(),
        };
        let body = decl.entry.value.as_deref().and_then(<[Expr]>::first).ok_or(Silent)?;
        self.deeper(span, || self.infer_kind(body, &inner).ok().filter(|t| *t != Type::Bad)).ok_or(Silent)
    }

    /// Names of the arguments of a function that the text declares.
    pub(crate) fn argument_names(&self, decl: &Decl<'a>, span: Span, got: usize) -> Outcome<Vec<SmolStr>> {
        let Some(ExprKind::Call(path, wanted)) = decl.entry.subject.as_ref().map(|s| &s.kind) else {
            self.say(
                Diagnostic::new("unknown-function", "this name is no function")
                    .at(span, "applied to values here")
                    .also(decl.name_span, "declared here"),
            );
            return Err(Silent);
        };
        self.count(&path.text(), wanted.len()..=wanted.len(), got, span)?;
        Ok(wanted
            .iter()
            .filter_map(|w| match &w.kind {
                ExprKind::Name(p) => Some(p.text()),
                _ => None,
            })
            .collect())
    }
}
