//! Whether an expression is what its statement wants.

use crate::evaluator::{Env, Evaluator};
use crate::infer::{mass_for_force, usual_unit};
use crate::resolve::Meaning;
use crate::room::RoomId;
use crate::schema::Kind;
use crate::scope::{Decl, DeclKind};
use crate::value::{Outcome, Silent, Type};
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_quantity::{Dimension, Quantity};
use chairwright_syntax::{DIRECTIONS, Expr, ExprKind, Path};
use smol_str::SmolStr;

/// Whether a number is written over another.
fn is_ratio(expr: &Expr) -> bool {
    let plain = |e: &Expr| matches!(e.kind, ExprKind::Literal(_));
    matches!(&expr.kind, ExprKind::Binary(chairwright_syntax::Binary::Over, l, r) if plain(l) && plain(r))
}

fn is_range(expr: &Expr) -> bool {
    matches!(expr.kind, ExprKind::Binary(chairwright_syntax::Binary::Range, ..))
}

/// The word that builders mean by another one.
fn hinted(text: &str, words: &[&'static str]) -> Option<&'static str> {
    let (_, meant) = chairwright_syntax::NEARLY_STATEMENTS.iter().find(|(w, _)| *w == text)?;
    words.iter().find(|w| *w == meant).copied()
}

impl<'a> Evaluator<'a> {
    /// Checks the value of a block's field against what is wanted.
    pub(crate) fn want_field(&self, value: &Expr, field: &crate::fields::Field) -> Outcome<()> {
        self.field.set(field.key);
        let good = self.want(value, field.kind, &Env::default());
        self.field.set("");
        good
    }

    /// Checks one expression against what is wanted; reports and fails when it is something else.
    pub(crate) fn want(&self, expr: &Expr, kind: Kind, env: &Env) -> Outcome<()> {
        match kind {
            Kind::Quantity(d) | Kind::Band(d) => {
                let got = self.infer(expr, env);
                self.want_dimension(expr, d, (matches!(kind, Kind::Band(_)), env), got)
            }
            Kind::AnyQuantity => self.not_bad(self.infer(expr, env)),
            Kind::Condition => match self.infer(expr, env) {
                Type::Bool => Ok(()),
                got => self.want_other(expr, "a condition such as a >= b", got),
            },
            Kind::Date => match &expr.kind {
                ExprKind::Text(text) => self.want_date(expr.span, text),
                ExprKind::Broken => Err(Silent),
                _ => self.want_form(expr, "a date in quotes"),
            },
            Kind::Text => match &expr.kind {
                ExprKind::Text(_) => Ok(()),
                ExprKind::Broken => Err(Silent),
                _ => self.want_form(expr, "a text in quotes"),
            },
            Kind::Word(words) => self.want_word(expr, words),
            Kind::Joint => self.joint(expr, env).map(|_| ()),
            Kind::Member => match &expr.kind {
                ExprKind::Name(path) => self.member(path, env).map(|_| ()),
                _ => self.want_form(expr, "the name of a member"),
            },
            Kind::Place | Kind::Points => self.infer_place(std::slice::from_ref(expr), env).map(|_| ()),
            Kind::Toward => self.want_toward(expr, env),
            Kind::Stock => self.catalogue_name(expr, DeclKind::Stock, env).map(|_| ()),
            Kind::Part => self.catalogue_name(expr, DeclKind::Part, env).map(|_| ()),
            Kind::Fasteners => match &expr.kind {
                ExprKind::Text(name) => self.find_entry("fastener", name, expr.span).map(|_| ()),
                _ => self.want_form(expr, "a fastener's name in quotes"),
            },
            Kind::Steps => match self.infer(expr, env) {
                Type::Step => Ok(()),
                got => self.want_other(expr, "a step such as up 20 mm", got),
            },
            Kind::Several => self.not_bad(self.infer(expr, env)),
            Kind::Thing | Kind::Plain | Kind::Closing | Kind::Assembly | Kind::Code => Ok(()),
        }
    }

    fn not_bad(&self, kind: Type) -> Outcome<()> {
        if kind == Type::Bad { Err(Silent) } else { Ok(()) }
    }

    /// A type for messages only, without following names.
    fn shallow(&self, expr: &Expr) -> Type {
        match &expr.kind {
            ExprKind::Text(_) => Type::Text,
            ExprKind::Literal(l) => {
                crate::literal::literal(l, expr.span).map_or(Type::Bad, |q| Type::Quantity(q.dimension))
            }
            ExprKind::Direction { .. } | ExprKind::Along { .. } => Type::Step,
            _ => Type::Bad,
        }
    }

    /// Refuses what was inferred to be something else; what is bad in itself is reported already.
    fn want_other(&self, expr: &Expr, wanted: &str, got: Type) -> Outcome<()> {
        if got == Type::Bad && !matches!(expr.kind, ExprKind::Name(_)) {
            return Err(Silent);
        }
        self.refuse(expr, wanted, got)
    }

    /// Refuses what is not of the form that is wanted, without following names.
    fn want_form(&self, expr: &Expr, wanted: &str) -> Outcome<()> {
        self.refuse(expr, wanted, self.shallow(expr))
    }

    fn refuse(&self, expr: &Expr, wanted: &str, got: Type) -> Outcome<()> {
        // a hyphened name is reported where it is declared
        let hyphened = matches!(&expr.kind, ExprKind::Binary(chairwright_syntax::Binary::Minus, l, _)
            if matches!(&l.kind, ExprKind::Name(path) if self.scope.is_spoilt(&path.text())));
        if hyphened || matches!(expr.kind, ExprKind::Broken) {
            return Err(Silent);
        }
        let label = match got {
            Type::Bad => "this is something else".into(),
            _ => format!("this is {}", got.phrase()),
        };
        self.say(Diagnostic::new("wrong-kind", format!("{wanted} is wanted here")).at(expr.span, label));
        Err(Silent)
    }

    fn want_dimension(
        &self,
        expr: &Expr,
        wanted: Dimension,
        (band, env): (bool, &Env),
        got: Type,
    ) -> Outcome<()> {
        match got {
            Type::Bad => return Err(Silent),
            Type::Quantity(d) if d == wanted => return Ok(()),
            Type::Band(d) if d == wanted && band => return Ok(()),
            // a measure with its tolerance is drawn by its middle; a range is no measure
            Type::Band(d) if d == wanted && !is_range(expr) => return Ok(()),
            Type::Band(d) if d == wanted => {
                self.say(
                    Diagnostic::new("wrong-kind", "a single value is wanted here")
                        .at(expr.span, "this is a range"),
                );
                return Err(Silent);
            }
            _ => {}
        }
        let Some(d) = got.dimension() else {
            self.wrong_kind(expr.span, &wanted.phrase(), got);
            return Err(Silent);
        };
        let unit = usual_unit(Type::Quantity(wanted));
        let literal = matches!(expr.kind, ExprKind::Literal(_));
        let problem = if d.is_number() {
            let code = if wanted == Dimension::ANGLE { "needs-angle" } else { "needs-unit" };
            let problem = Diagnostic::new(code, format!("{} is wanted here", wanted.phrase()))
                .at(expr.span, "this number has no unit");
            let percent =
                matches!(&expr.kind, ExprKind::Literal(l) if l.parts.iter().any(|p| p.unit.is_some()));
            match unit {
                // a slope in percent is a rise over a run
                Some(_) if percent && wanted == Dimension::ANGLE => {
                    let share = self.quantity(expr, env).map_or(0.0, Quantity::si);
                    let degrees = crate::bare::degrees(share);
                    problem
                        .help(format!("a slope in percent is {degrees} deg here, rounded up: write that"))
                        .edit(expr.span, format!("{degrees} deg"))
                }
                _ if literal => {
                    let value = self.quantity(expr, env).map_or(0.0, Quantity::si);
                    let meant = crate::bare::meant(&self.written(expr), value, wanted, self.field.get());
                    problem.help(meant.unwrap_or_else(|| "give it its unit".to_owned()))
                }
                // a ramp of 1/12 is told in full
                Some(_) if is_ratio(expr) && crate::bare::is_slope(self.field.get()) => {
                    let share = self.quantity(expr, env).map_or(0.0, Quantity::si);
                    let degrees = crate::bare::degrees(share);
                    problem
                        .help(format!("a rise over a run is {degrees} deg here, rounded up: write that"))
                        .edit(expr.span, format!("{degrees} deg"))
                }
                Some(unit) => problem.help(format!("one of the values in it needs a unit, such as {unit}")),
                None => problem.help("give it its unit"),
            }
        } else if d == Dimension::MASS && wanted == Dimension::FORCE {
            mass_for_force(expr.span)
        } else {
            let problem = Diagnostic::new("wrong-dimension", format!("{} is wanted here", wanted.phrase()))
                .at(expr.span, format!("this is {}", d.phrase()));
            match unit {
                Some(unit) if wanted != Dimension::NUMBER => {
                    problem.help(format!("write it in {unit}, for example"))
                }
                _ => problem,
            }
        };
        self.say(problem);
        Err(Silent)
    }

    pub(crate) fn written(&self, expr: &Expr) -> String {
        match &expr.kind {
            ExprKind::Literal(l) => l
                .parts
                .iter()
                .map(|p| p.number.as_deref().unwrap_or_default().to_owned())
                .collect::<Vec<_>>()
                .join(" "),
            _ => String::new(),
        }
    }

    /// The value of a stock's or part's name, and the room its names are looked for in.
    pub(crate) fn own_value(&self, decl: &Decl<'a>) -> Option<(&'a Expr, RoomId)> {
        match self.scope.given.get(&self.key(decl)) {
            Some(given) => Some((given.value, given.room)),
            None => crate::words::value(decl.entry).map(|v| (v, decl.room)),
        }
    }

    fn want_word(&self, expr: &Expr, words: &[&'static str]) -> Outcome<()> {
        let (text, span) = match &expr.kind {
            ExprKind::Name(path) => (path.text(), path.span),
            ExprKind::Text(text) => (text.clone(), expr.span),
            ExprKind::Broken => return Err(Silent),
            _ => (SmolStr::default(), expr.span),
        };
        if words.contains(&text.as_str()) || words.contains(&crate::words::usual(&text).as_str()) {
            return Ok(());
        }
        let mut problem = Diagnostic::new("wrong-kind", "this word is not one of those that fit here")
            .at(span, format!("one of {} is wanted", words.join(", ")));
        if let Some(meant) = crate::suggest::nearest(&text, words.iter().copied()) {
            problem = problem.help(format!("did you mean {meant}?")).edit(span, meant);
        } else if let Some(meant) = hinted(&text, words) {
            problem = problem.help(format!("did you mean {meant}?")).edit(span, meant);
        } else {
            let all = crate::bare::nearest_first(&text, words);
            problem = problem.help(format!("write the one that is meant: {}", all.join(", ")));
        }
        self.say(problem);
        Err(Silent)
    }

    fn want_toward(&self, expr: &Expr, env: &Env) -> Outcome<()> {
        match &expr.kind {
            ExprKind::Name(path) if DIRECTIONS.contains(&path.text().as_str()) => {
                let text = path.text();
                if matches!(text.as_str(), "outward" | "inward") && self.scope.side(env.room).is_none() {
                    self.no_outward(path.span, &text);
                    return Err(Silent);
                }
                Ok(())
            }
            _ => match self.infer(expr, env) {
                Type::Step => Ok(()),
                got => self.want_other(expr, "a direction", got),
            },
        }
    }

    /// The joint that an expression names.
    pub(crate) fn joint(&self, expr: &Expr, env: &Env) -> Outcome<Decl<'a>> {
        let ExprKind::Name(path) = &expr.kind else {
            self.want_form(expr, "the name of a joint")?;
            return Err(Silent);
        };
        self.declared(path, DeclKind::Joint, env)
    }

    /// The member that a path names.
    pub(crate) fn member(&self, path: &Path, env: &Env) -> Outcome<Decl<'a>> {
        self.declared(path, DeclKind::Member, env)
    }

    pub(crate) fn member_argument(&self, expr: &Expr, env: &Env) -> Outcome<Decl<'a>> {
        match &expr.kind {
            ExprKind::Name(path) => self.member(path, env),
            _ => {
                self.want_form(expr, "the name of a member")?;
                Err(Silent)
            }
        }
    }

    fn declared(&self, path: &Path, kind: DeclKind, env: &Env) -> Outcome<Decl<'a>> {
        self.wanted.set(Some(kind));
        let found = self.resolve(path, env);
        self.wanted.set(None);
        match found? {
            Meaning::Decl(decl) if decl.kind == kind => Ok(decl),
            Meaning::Decl(decl) => {
                self.say(
                    Diagnostic::new("wrong-kind", format!("{} is wanted here", kind.phrase()))
                        .at(path.span, format!("this is {}", decl.kind.phrase()))
                        .also(decl.name_span, "declared here"),
                );
                Err(Silent)
            }
            _ => {
                self.say(
                    Diagnostic::new("wrong-kind", format!("{} is wanted here", kind.phrase()))
                        .at(path.span, "this is a value"),
                );
                Err(Silent)
            }
        }
    }

    /// The catalogue names that a stock or part expression offers, best first, each checked.
    pub(crate) fn catalogue_name(
        &self,
        expr: &Expr,
        kind: DeclKind,
        env: &Env,
    ) -> Outcome<Vec<(SmolStr, Span)>> {
        let keyword = if kind == DeclKind::Stock { "stock" } else { "part" };
        match &expr.kind {
            ExprKind::Text(name) => {
                self.find_entry(keyword, name, expr.span)?;
                Ok(vec![(name.clone(), expr.span)])
            }
            ExprKind::Binary(chairwright_syntax::Binary::Or, l, r) => {
                let mut names = self.catalogue_name(l, kind, env)?;
                names.extend(self.catalogue_name(r, kind, env)?);
                Ok(names)
            }
            ExprKind::Name(path) => {
                let (value, room) = match self.resolve(path, env)? {
                    Meaning::Expr(expr, room) => (expr, room),
                    _ => self.own_value(&self.declared(path, kind, env)?).ok_or(Silent)?,
                };
                self.deeper(path.span, || {
                    matches!(value.kind, ExprKind::Text(_) | ExprKind::Binary(..) | ExprKind::Name(_))
                        .then(|| self.catalogue_name(value, kind, &Env::on(room)).ok())
                        .flatten()
                })
                .ok_or(Silent)
            }
            ExprKind::Broken => Err(Silent),
            _ => {
                let wanted = format!("the name of a {keyword} in quotes");
                self.want_form(expr, &wanted)?;
                Err(Silent)
            }
        }
    }
}
