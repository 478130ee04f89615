//! What every expression is, before anything is evaluated.

use crate::evaluator::{Env, Evaluator, Memo};
use crate::literal::{above_zero, literal, report};
use crate::resolve::Meaning;
use crate::schema::Kind;
use crate::scope::{Decl, DeclKind};
use crate::value::{Outcome, Silent, Type};
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_quantity::{Dimension, Mismatch, Quantity};
use chairwright_syntax::{Binary, Expr, ExprKind, Path, Unary};
use smol_str::SmolStr;

impl<'a> Evaluator<'a> {
    /// The type of an expression; problems are reported and poison the result.
    pub(crate) fn infer(&self, expr: &Expr, env: &Env) -> Type {
        if !self.step(expr.span) {
            return Type::Bad;
        }
        self.infer_kind(expr, env).unwrap_or(Type::Bad)
    }

    pub(crate) fn infer_kind(&self, expr: &Expr, env: &Env) -> Outcome<Type> {
        match &expr.kind {
            ExprKind::Broken => Err(Silent),
            ExprKind::Literal(l) => {
                report(literal(l, expr.span), |p| self.say(p)).map(|q| Type::Quantity(q.dimension))
            }
            ExprKind::Text(_) => Ok(Type::Text),
            ExprKind::Name(path) => self.infer_name(path, env),
            ExprKind::Unary(operator, value) => self.infer_unary(*operator, value, env),
            ExprKind::Binary(operator, l, r) => self.infer_binary(*operator, l, r, expr.span, env),
            ExprKind::Call(path, arguments) => self.infer_call(path, arguments, expr.span, env),
            ExprKind::List(items) => self.infer_list(items, expr.span, env),
            ExprKind::Direction { word, amount, lean } => {
                self.want(amount, Kind::Quantity(Dimension::LENGTH), env)?;
                if let Some((_, angle)) = lean {
                    self.want(angle, Kind::Quantity(Dimension::ANGLE), env)?;
                }
                for word in std::iter::once(word).chain(lean.iter().map(|(w, _)| w)) {
                    if matches!(word.text.as_str(), "outward" | "inward") && self.scope.side(env.room).is_none()
                    {
                        self.no_outward(word.span, &word.text);
                        return Err(Silent);
                    }
                }
                Ok(Type::Step)
            }
            ExprKind::Along { line, amount } => {
                self.want(amount, Kind::Quantity(Dimension::LENGTH), env)?;
                self.member(line, env).map(|_| Type::Step)
            }
        }
    }

    pub(crate) fn no_outward(&self, span: Span, word: &str) {
        self.say(
            Diagnostic::new("no-outward", format!("`{word}` has no meaning outside both sides"))
                .at(span, "which side?")
                .help("write left or right, or move the statement into both sides { … }"),
        );
    }

    fn infer_name(&self, path: &Path, env: &Env) -> Outcome<Type> {
        let text = path.text();
        if let Some((_, kind, _)) = env.arguments.iter().find(|(n, ..)| *n == text) {
            return Ok(*kind);
        }
        match self.resolve(path, env)? {
            Meaning::Turn(_) => Ok(Type::Quantity(Dimension::NUMBER)),
            Meaning::Expr(expr, room) => self
                .deeper(path.span, || self.infer_kind(expr, &Env::on(room)).ok().filter(|t| *t != Type::Bad))
                .ok_or(Silent),
            Meaning::Decl(decl) => self.infer_decl(&decl, path.span),
            Meaning::Block(_, field) | Meaning::Entry(_, field) => match field.kind {
                Kind::Quantity(d) => Ok(Type::Quantity(d)),
                Kind::Band(d) => Ok(Type::Band(d)),
                _ => Ok(Type::Text),
            },
            Meaning::Figure(figure) => Ok(figure.dimension.map_or(Type::Money, Type::Quantity)),
        }
    }

    /// The type of a declaration, worked out once; circles are named in full.
    pub(crate) fn infer_decl(&self, decl: &Decl<'a>, from: Span) -> Outcome<Type> {
        match decl.kind {
            DeclKind::Param | DeclKind::Let => {}
            DeclKind::Joint => return Ok(Type::Point),
            DeclKind::Stock | DeclKind::Part => return Ok(Type::Text),
            kind => {
                self.say(
                    Diagnostic::new("wrong-kind", format!("{} is no value", kind.phrase()))
                        .at(from, "a value is wanted here"),
                );
                return Err(Silent);
            }
        }
        let full = self.key(decl);
        match self.types.borrow().get(&full) {
            Some(Memo::Known(Some(kind))) => return Ok(*kind),
            Some(Memo::Known(None)) => return Err(Silent),
            Some(Memo::Working) => {
                self.report_circle(&full, from);
                return Err(Silent);
            }
            None => {}
        }
        self.types.borrow_mut().insert(full.clone(), Memo::Working);
        let env = Env::on(decl.room);
        let kind = self.deeper(from, || {
            let values = decl.entry.value.as_deref().unwrap_or_default();
            match values {
                [one] => self.infer_kind(one, &env).ok().filter(|t| *t != Type::Bad),
                [] => None,
                several => self.infer_place(several, &env).ok(),
            }
        });
        self.types.borrow_mut().insert(full, Memo::Known(kind));
        kind.ok_or(Silent)
    }

    pub(crate) fn key(&self, decl: &Decl<'a>) -> SmolStr {
        let name = crate::scope::declared_name(decl.entry).map(|(n, _)| n).unwrap_or_default();
        self.scope.full(decl.room, &name)
    }

    fn report_circle(&self, full: &SmolStr, from: Span) {
        let types = self.types.borrow();
        let start = types.get_index_of(full).unwrap_or(0);
        let names: Vec<&str> = types
            .iter()
            .skip(start)
            .filter(|(_, m)| matches!(m, Memo::Working))
            .map(|(n, _)| n.as_str())
            .chain([full.as_str()])
            .collect();
        let circle = names.join(" → ");
        self.say(
            Diagnostic::new("circular-name", format!("`{full}` depends on itself"))
                .at(from, "the circle closes here")
                .note(format!("the circle: {circle}"))
                .help("give one of them a value of its own"),
        );
    }

    fn infer_unary(&self, operator: Unary, value: &Expr, env: &Env) -> Outcome<Type> {
        match operator {
            Unary::Not => self.want(value, Kind::Condition, env).map(|()| Type::Bool),
            Unary::Minus if matches!(value.kind, ExprKind::Literal(_)) => self.infer_kind(value, env),
            Unary::Minus => match self.infer(value, env) {
                Type::Bad => Err(Silent),
                Type::Quantity(d) | Type::Band(d) if !d.reading => Ok(Type::Quantity(d)),
                Type::Step => Ok(Type::Step),
                other => {
                    self.wrong_kind(value.span, "a quantity", other);
                    Err(Silent)
                }
            },
        }
    }

    fn infer_binary(&self, operator: Binary, l: &Expr, r: &Expr, span: Span, env: &Env) -> Outcome<Type> {
        use Binary as B;
        if matches!(operator, B::And | B::Or) {
            let (a, b) = (self.infer(l, env), self.infer(r, env));
            if operator == B::Or && a == Type::Text && b == Type::Text {
                return Ok(Type::Text);
            }
            for (side, kind) in [(l, a), (r, b)] {
                if kind != Type::Bool && kind != Type::Bad {
                    self.wrong_kind(side.span, "a condition", kind);
                    return Err(Silent);
                }
            }
            return Ok(Type::Bool);
        }
        let (a, b) = (self.infer(l, env), self.infer(r, env));
        if a == Type::Bad || b == Type::Bad {
            return Err(Silent);
        }
        if matches!(operator, B::Same | B::Differs) && a == Type::Text && b == Type::Text {
            return Ok(Type::Bool);
        }
        if matches!(operator, B::Minus) && a == Type::Point && b == Type::Point {
            return Ok(Type::Step);
        }
        if matches!(operator, B::Plus | B::Minus) && matches!(a, Type::Point | Type::Step) && b == Type::Step {
            return Ok(a);
        }
        if let (Type::Step, B::Times | B::Over, Some(d)) = (a, operator, b.dimension())
            && d.is_number()
        {
            return Ok(Type::Step);
        }
        if a == Type::Step && b.dimension() == Some(Dimension::LENGTH) {
            return self.swallowed_step(l, r, operator);
        }
        let compares = matches!(operator, B::Less | B::AtMost | B::More | B::AtLeast | B::Same | B::Differs);
        if compares && (a == Type::Money || b == Type::Money) {
            let other = if a == Type::Money { b } else { a };
            if other == Type::Money || other.dimension().is_some_and(|d| d.money.is_some()) {
                return Ok(Type::Bool);
            }
            let place = if a == Type::Money { r } else { l };
            return self.mixed(place, Type::Money, other, span);
        }
        let (Some(x), Some(y)) = (a.dimension(), b.dimension()) else {
            let (side, kind) = if a.dimension().is_none() { (l, a) } else { (r, b) };
            self.wrong_kind(side.span, "a quantity", kind);
            return Err(Silent);
        };
        match operator {
            B::Times => x.times(y).map(Type::Quantity).ok_or_else(|| self.no_product(x, y, span)),
            B::Over => x.over(y).map(Type::Quantity).ok_or_else(|| self.no_product(x, y, span)),
            B::Power => self.infer_power(l, x, r, span),
            B::Plus | B::Minus => match Quantity::sum_dimension(x, y, operator == B::Minus) {
                Ok(d) => Ok(Type::Quantity(d)),
                Err(Mismatch::TwoReadings) => {
                    self.say(
                        Diagnostic::new("two-readings", "two thermometer readings cannot be added")
                            .at(span, "adding 20 degC to 35 degC is not 55 degC")
                            .help("write the difference in kelvin, such as 20 K"),
                    );
                    Err(Silent)
                }
                Err(_) => self.mixed_sum(l, r, (a, b), span),
            },
            B::Tolerance if x.reading && y.reading => {
                self.say(tolerance_in_degrees(r));
                Err(Silent)
            }
            B::Tolerance if x == Dimension { reading: true, ..y } => Ok(Type::Band(x)),
            B::Tolerance | B::Range if x == y => Ok(Type::Band(x)),
            _ if x == y => Ok(Type::Bool),
            _ => self.mixed_sum(l, r, (a, b), span),
        }
    }

    fn infer_power(&self, l: &Expr, base: Dimension, r: &Expr, span: Span) -> Outcome<Type> {
        let whole = match &r.kind {
            ExprKind::Literal(l) => literal(l, r.span).ok().map(|q| q.number.to_f64()),
            _ => None,
        };
        match whole {
            #[allow(clippy::cast_possible_truncation)]
            Some(n) if n.fract() == 0.0 && n.abs() <= 8.0 => {
                base.power(n as i8).map(Type::Quantity).ok_or_else(|| self.no_product(base, base, span))
            }
            _ => {
                self.say(
                    Diagnostic::new("wrong-kind", "a power is a whole number up to 8")
                        .at(r.span, "not one of these")
                        .also(l.span, "raised here"),
                );
                Err(Silent)
            }
        }
    }

    fn no_product(&self, x: Dimension, y: Dimension, span: Span) -> Silent {
        let money = x.money.zip(y.money).is_some_and(|((a, _), (b, _))| a != b);
        self.say(if money {
            two_currencies(span)
        } else {
            Diagnostic::new(
                "wrong-dimension",
                format!("{} and {} cannot be multiplied or divided", x.phrase(), y.phrase()),
            )
            .at(span, "here")
        });
        Silent
    }

    /// `up a - b` reads as `up (a - b)`, so a step meets a length only by mistake.
    fn swallowed_step(&self, l: &Expr, r: &Expr, operator: Binary) -> Outcome<Type> {
        let sign = if operator == Binary::Minus { "-" } else { "+" };
        self.say(
            Diagnostic::new("mixed-dimensions", "a step in a direction and a length cannot be joined")
                .at(r.span, "a length")
                .also(l.span, "a step in a direction")
                .help(format!("say which way: write , up … or put the sum in parentheses behind the direction: up (… {sign} …)")),
        );
        Err(Silent)
    }

    fn mixed<T>(&self, place: &Expr, wanted: Type, got: Type, _span: Span) -> Outcome<T> {
        self.say(
            Diagnostic::new("mixed-dimensions", format!("{} cannot meet {}", got.phrase(), wanted.phrase()))
                .at(place.span, format!("this is {}", got.phrase())),
        );
        Err(Silent)
    }

    fn mixed_sum(&self, l: &Expr, r: &Expr, (a, b): (Type, Type), span: Span) -> Outcome<Type> {
        let money = |t: Type| t.dimension().and_then(|d| d.money);
        if let (Some((x, _)), Some((y, _))) = (money(a), money(b))
            && x != y
        {
            self.say(two_currencies(span));
            return Err(Silent);
        }
        if let (Some(Dimension::MASS), Some(Dimension::FORCE))
        | (Some(Dimension::FORCE), Some(Dimension::MASS)) = (a.dimension(), b.dimension())
        {
            let (mass, force) = if a.dimension() == Some(Dimension::MASS) { (l, r) } else { (r, l) };
            let known = match &force.kind {
                ExprKind::Literal(written) => literal(written, force.span).ok(),
                _ => None,
            };
            self.say(match (known, &mass.kind) {
                // a figure is what it is: the force beside it is the slip
                (Some(n), ExprKind::Name(_)) => {
                    let kg = format!("{:.1} kg", (n.si() / 9.806_65 * 10.0).floor() / 10.0);
                    Diagnostic::new("mass-for-force", "a mass is compared with a force")
                        .at(force.span, "this is a force")
                        .also(mass.span, "this is a mass")
                        .help(format!("write it as a mass: {kg} weighs that much"))
                        .edit(force.span, kg)
                }
                _ => mass_for_force(mass.span).also(force.span, "this is a force"),
            });
            return Err(Silent);
        }
        let bare = |t: Type| t.dimension().is_some_and(Dimension::is_number);
        let mut problem = Diagnostic::new(
            "mixed-dimensions",
            format!("{} and {} cannot be added or compared", a.phrase(), b.phrase()),
        )
        .at(r.span, format!("this is {}", b.phrase()))
        .also(l.span, format!("this is {}", a.phrase()));
        let (number, other) = if bare(a) { (l, b) } else { (r, a) };
        if (bare(a) || bare(b))
            && let Some(wanted) = other.dimension()
            && let ExprKind::Literal(l) = &number.kind
        {
            let value = literal(l, number.span).map_or(0.0, Quantity::si);
            if let Some(meant) = crate::bare::meant(&self.written(number), value, wanted, "") {
                problem = problem.help(format!("give the bare number its unit: {meant}"));
            }
        }
        self.say(problem);
        Err(Silent)
    }

    pub(crate) fn wrong_kind(&self, span: Span, wanted: &str, got: Type) {
        self.say(
            Diagnostic::new("wrong-kind", format!("{wanted} is wanted here"))
                .at(span, format!("this is {}", got.phrase())),
        );
    }

    fn infer_list(&self, items: &[Expr], span: Span, env: &Env) -> Outcome<Type> {
        let kinds: Vec<Type> = items.iter().map(|i| self.infer(i, env)).collect();
        if kinds.contains(&Type::Bad) {
            return Err(Silent);
        }
        let length = |k: &Type| k.dimension() == Some(Dimension::LENGTH);
        if items.len() == 3 && kinds.iter().all(length) {
            return Ok(Type::Point);
        }
        match kinds.split_first() {
            Some((Type::Point | Type::Step, rest)) if rest.iter().all(|k| *k == Type::Step) => Ok(kinds[0]),
            _ => {
                self.say(
                    Diagnostic::new("wrong-kind", "these values together are no point")
                        .at(span, "a point is three lengths, or a point and steps from it"),
                );
                Err(Silent)
            }
        }
    }

    /// A place: an optional point, then steps.
    pub(crate) fn infer_place(&self, values: &[Expr], env: &Env) -> Outcome<Type> {
        let mut good = true;
        for (i, value) in values.iter().enumerate() {
            match self.infer(value, env) {
                Type::Bad => good = false,
                Type::Step => {}
                Type::Point if i == 0 => {}
                Type::Point => {
                    self.wrong_kind(value.span, "a step such as `up 20 mm`", Type::Point);
                    good = false;
                }
                other => {
                    let mut problem = Diagnostic::new("wrong-kind", "a place is wanted here")
                        .at(value.span, format!("this is {}", other.phrase()));
                    if other.dimension() == Some(Dimension::LENGTH) {
                        problem = problem
                            .help("say which way: forward, back, up, down, left, right, outward or inward");
                    }
                    self.say(problem);
                    good = false;
                }
            }
        }
        if good { Ok(Type::Point) } else { Err(Silent) }
    }
}

/// A mass where a force is wanted.
pub(crate) fn mass_for_force(span: Span) -> Diagnostic {
    Diagnostic::new("mass-for-force", "a force is wanted here")
        .at(span, "this is a mass")
        .help("multiply by 9.80665 m/s2, or write it in N, or in lbf instead of lb")
}

/// A tolerance written as a reading: `± 6 degC` would be 279 K to either side.
fn tolerance_in_degrees(r: &Expr) -> Diagnostic {
    let said = Diagnostic::new("two-readings", "a tolerance is a difference of temperatures, not a reading")
        .at(r.span, "this is a reading on a thermometer");
    let kelvin = match &r.kind {
        ExprKind::Literal(l) => above_zero(l, r.span),
        _ => None,
    };
    match kelvin {
        Some(kelvin) => said.help(format!("write ± {kelvin}")).edit(r.span, kelvin),
        None => said.help("write the difference in kelvin, such as ± 6 K"),
    }
}

fn two_currencies(span: Span) -> Diagnostic {
    Diagnostic::new("two-currencies", "two currencies meet here")
        .at(span, "no rate is given")
        .note("money never converts by itself: a rate has a date")
        .help("write both amounts in one currency")
}

/// A unit that a builder would use for this kind of thing.
pub(crate) fn usual_unit(kind: Type) -> Option<&'static str> {
    match kind.dimension()? {
        Dimension::LENGTH => Some("mm"),
        Dimension::ANGLE => Some("deg"),
        Dimension::MASS => Some("kg"),
        Dimension::FORCE => Some("N"),
        Dimension::PRESSURE => Some("MPa"),
        Dimension::READING => Some("degC"),
        Dimension::TIME => Some("h"),
        _ => None,
    }
}
