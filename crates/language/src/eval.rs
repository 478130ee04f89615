//! What every expression comes to.

use crate::evaluator::{Env, Evaluator, Memo};
use crate::functions::function;
use crate::literal::{literal, negative};
use crate::measures::For;
use crate::resolve::Meaning;
use crate::room::RoomId;
use crate::scope::{Decl, DeclKind, Found};
use crate::value::{Outcome, Silent, Type, Value};
use crate::words::clause;
use chairwright_design::{Side, Vec3};
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_quantity::{Dimension, Mismatch, Number, Quantity};
use chairwright_syntax::{Binary, Expr, ExprKind, Path, Unary};
use smol_str::SmolStr;
use std::cmp::Ordering;

/// Two lines closer than this at their nearest cross.
const CROSSING: f64 = 0.001;

impl<'a> Evaluator<'a> {
    /// The value of an expression whose type was found good.
    pub(crate) fn eval(&self, expr: &Expr, env: &Env) -> Outcome<Value> {
        if !self.step(expr.span) {
            return Err(Silent);
        }
        let shifted = self.nudge(expr.span).filter(|n| n.share > 0.0);
        match (shifted, self.eval_as_written(expr, env)?) {
            (Some(nudge), Value::Quantity(q)) => {
                let share = if nudge.up { 1.0 + nudge.share } else { 1.0 - nudge.share };
                Ok(Value::Quantity(Quantity { number: q.number.mul(Number::Rounded(share)), ..q }))
            }
            (_, value) => Ok(value),
        }
    }

    fn eval_as_written(&self, expr: &Expr, env: &Env) -> Outcome<Value> {
        match &expr.kind {
            ExprKind::Broken => Err(Silent),
            ExprKind::Literal(l) => literal(l, expr.span).map(Value::Quantity).map_err(|_| Silent),
            ExprKind::Text(text) => Ok(Value::Text(text.clone())),
            ExprKind::Name(path) => self.eval_name(path, env),
            ExprKind::Unary(operator, value) => self.eval_unary(*operator, value, env),
            ExprKind::Binary(operator, l, r) => self.eval_binary(*operator, l, r, expr.span, env),
            ExprKind::Call(path, arguments) => self.eval_call(path, arguments, expr.span, env),
            ExprKind::List(items) => self.eval_list(items, expr.span, env),
            ExprKind::Direction { word, amount, lean } => {
                let length = self.length(amount, env)?;
                let side = self.scope.side(env.room);
                let mut way = direction(&word.text, side).ok_or(Silent)?;
                if let Some((toward, angle)) = lean {
                    let angle = self.quantity(angle, env)?.si();
                    let aside = direction(&toward.text, side).ok_or(Silent)?;
                    way = way * libm::cos(angle) + aside * libm::sin(angle);
                }
                Ok(Value::Step(way * length))
            }
            ExprKind::Along { line, amount } => {
                let (a, b) = self.member_ends(&self.member(line, env)?, line.span)?;
                let way = (b - a).unit().ok_or(Silent)?;
                Ok(Value::Step(way * self.length(amount, env)?))
            }
        }
    }

    /// The quantity of an expression.
    pub(crate) fn quantity(&self, expr: &Expr, env: &Env) -> Outcome<Quantity> {
        self.eval(expr, env)?.quantity().ok_or(Silent)
    }

    fn length(&self, expr: &Expr, env: &Env) -> Outcome<f64> {
        self.quantity(expr, env).map(Quantity::si)
    }

    fn eval_name(&self, path: &Path, env: &Env) -> Outcome<Value> {
        let text = path.text();
        if let Some((.., value)) = env.arguments.iter().find(|(n, ..)| *n == text) {
            return value.clone().ok_or(Silent);
        }
        match self.resolve(path, env)? {
            Meaning::Turn(turn) => Ok(Value::Quantity(Quantity::number(Number::whole(i128::from(turn))))),
            Meaning::Expr(expr, room) => {
                self.deeper(path.span, || self.eval(expr, &Env::on(room)).ok()).ok_or(Silent)
            }
            Meaning::Decl(decl) => self.eval_decl(&decl, path.span),
            Meaning::Block(base, field) => {
                let key = crate::words::usual(text.split_once('.').map_or("", |(_, k)| k));
                let whom = if env.day { For::Day } else { For::Drawing };
                self.block_value((base, &key), field, path.span, whom)
            }
            Meaning::Entry(decl, field) => self.entry_value(&decl, field, path.span),
            Meaning::Figure(_) => {
                let usual = crate::words::usual(&text);
                let known = self.figures.and_then(|f| f.get(text.as_str()).or_else(|| f.get(usual.as_str())));
                known.map(|q| Value::Quantity(*q)).ok_or(Silent)
            }
        }
    }

    pub(crate) fn eval_decl(&self, decl: &Decl<'a>, from: Span) -> Outcome<Value> {
        let full = self.key(decl);
        match self.values.borrow().get(&full) {
            Some(Memo::Known(value)) => return value.clone().ok_or(Silent),
            Some(Memo::Working) => {
                self.say(
                    Diagnostic::new("circular-name", format!("`{full}` depends on itself"))
                        .at(from, "the circle closes here")
                        .note(format!("the circle: {}", self.value_circle(&full)))
                        .help("place one of them without the others"),
                );
                return Err(Silent);
            }
            None => {}
        }
        self.values.borrow_mut().insert(full.clone(), Memo::Working);
        // what a name stands for is the same whoever asks
        let still = self.still.replace(false);
        let value = self.deeper(from, || self.eval_fresh(decl, &full).ok());
        self.still.set(still);
        self.values.borrow_mut().insert(full, Memo::Known(value.clone()));
        value.ok_or(Silent)
    }

    fn value_circle(&self, full: &SmolStr) -> String {
        let values = self.values.borrow();
        let start = values.get_index_of(full).unwrap_or(0);
        let open =
            values.iter().skip(start).filter(|(_, m)| matches!(m, Memo::Working)).map(|(n, _)| n.as_str());
        open.chain([full.as_str()]).collect::<Vec<_>>().join(" → ")
    }

    fn eval_fresh(&self, decl: &Decl<'a>, full: &SmolStr) -> Outcome<Value> {
        let env = Env::on(decl.room);
        match decl.kind {
            DeclKind::Joint => self.joint_place(decl, &env).map(Value::Point),
            DeclKind::Param | DeclKind::Let => {
                if self.infer_decl(decl, decl.name_span)? == Type::Bad {
                    return Err(Silent);
                }
                if let Some(given) = self.scope.given.get(full) {
                    let env = Env::on(given.room);
                    self.infer_kind(given.value, &env)?;
                    return self.eval(given.value, &env);
                }
                match decl.entry.value.as_deref().unwrap_or_default() {
                    [one] => self.eval(one, &env),
                    several => self.place(several, &env).map(Value::Point),
                }
            }
            _ => Err(Silent),
        }
    }

    fn joint_place(&self, decl: &Decl<'a>, env: &Env) -> Outcome<Vec3> {
        let clause = |word: &str| clause(decl.entry, word);
        let at = clause("at").ok_or(Silent)?;
        let Some(on) = clause("on") else {
            self.infer_place(&at.values, env)?;
            return self.place(&at.values, env);
        };
        let ExprKind::Name(path) = &on.values[0].kind else { return Err(Silent) };
        let member = self.member(path, env)?;
        let (a, b) = self.member_ends(&member, path.span)?;
        self.want(&at.values[0], crate::schema::Kind::Quantity(Dimension::LENGTH), env)?;
        let along = self.length(&at.values[0], env)?;
        let from_end = match clause("from") {
            Some(from) => {
                let joint = self.joint(&from.values[0], env)?;
                let at_end = self.same_joint(&joint, &member, "to");
                if !at_end && !self.same_joint(&joint, &member, "from") {
                    self.say(
                        Diagnostic::new("wrong-kind", "the distance is counted from an end of the member")
                            .at(from.values[0].span, "this joint is not one of its ends")
                            .also(member.name_span, "this member")
                            .help("name the joint that the member runs from or to"),
                    );
                    return Err(Silent);
                }
                at_end
            }
            None => false,
        };
        let (start, way) = if from_end { (b, a - b) } else { (a, b - a) };
        let length = way.norm();
        if along < -1e-9 || along > length + 1e-9 {
            self.say(
                Diagnostic::new("off-member", "this point lies beyond the end of its member")
                    .at(at.values[0].span, format!("{:.1} mm from the end", along * 1e3))
                    .also(member.name_span, format!("this member is {:.1} mm long", length * 1e3))
                    .help(format!("keep it between 0 and {:.1} mm", length * 1e3)),
            );
            return Err(Silent);
        }
        Ok(start + way.unit().ok_or(Silent)? * along)
    }

    fn same_joint(&self, joint: &Decl<'a>, member: &Decl<'a>, word: &str) -> bool {
        clause(member.entry, word)
            .and_then(|c| self.joint(&c.values[0], &Env::on(member.room)).ok())
            .is_some_and(|end| self.key(&end) == self.key(joint))
    }

    /// Both ends of a member.
    pub(crate) fn member_ends(&self, member: &Decl<'a>, from: Span) -> Outcome<(Vec3, Vec3)> {
        let env = Env::on(member.room);
        let end = |word: &str| {
            let clause = clause(member.entry, word).ok_or(Silent)?;
            let joint = self.joint(&clause.values[0], &env)?;
            match self.eval_decl(&joint, from)? {
                Value::Point(p) => Ok(p),
                _ => Err(Silent),
            }
        };
        Ok((end("from")?, end("to")?))
    }

    /// Adds up a place.
    pub(crate) fn place(&self, values: &[Expr], env: &Env) -> Outcome<Vec3> {
        let mut sum = Vec3::ZERO;
        for (i, value) in values.iter().enumerate() {
            match self.eval(value, env)? {
                Value::Point(p) => sum += p,
                // without a point the steps begin where the room stands
                Value::Step(p) if i == 0 => sum = self.origin(env.room, value.span)? + p,
                Value::Step(p) => sum += p,
                _ => return Err(Silent),
            }
        }
        Ok(sum)
    }

    /// Where the steps of a room begin: the origin of the drawing, or the place an assembly is fitted at.
    fn origin(&self, room: RoomId, from: Span) -> Outcome<Vec3> {
        if room == RoomId::ROOT {
            return Ok(Vec3::ZERO);
        }
        if let Some(known) = self.origins.borrow().get(&room) {
            return Ok(*known);
        }
        let here = self.scope.room(room);
        let place = match here.stand {
            Some(stand) => self.deeper(from, || {
                let env = Env::on(stand.room);
                self.infer_place(stand.at, &env).ok()?;
                self.place(stand.at, &env).ok()
            }),
            None => self.deeper(from, || self.origin(here.base, from).ok()),
        };
        let place = place.ok_or(Silent)?;
        self.origins.borrow_mut().insert(room, place);
        Ok(place)
    }

    fn eval_unary(&self, operator: Unary, value: &Expr, env: &Env) -> Outcome<Value> {
        if let (Unary::Minus, ExprKind::Literal(l)) = (operator, &value.kind) {
            return negative(l, value.span).map(Value::Quantity).map_err(|_| Silent);
        }
        match (operator, self.eval(value, env)?) {
            (Unary::Not, Value::Bool(b)) => Ok(Value::Bool(!b)),
            (Unary::Minus, Value::Step(v)) => Ok(Value::Step(-v)),
            (Unary::Minus, Value::Band { nominal, low, high }) => {
                let turned = |q: Quantity| Quantity { number: q.number.negate(), ..q };
                Ok(Value::Band { nominal: turned(nominal), low: turned(high), high: turned(low) })
            }
            (Unary::Minus, v) => {
                let q = v.quantity().ok_or(Silent)?;
                Ok(Value::Quantity(Quantity { number: q.number.negate(), ..q }))
            }
            _ => Err(Silent),
        }
    }

    fn eval_binary(&self, operator: Binary, l: &Expr, r: &Expr, span: Span, env: &Env) -> Outcome<Value> {
        use Binary as B;
        let a = self.eval(l, env)?;
        match (operator, &a) {
            (B::And, Value::Bool(false)) | (B::Or, Value::Bool(true)) => return Ok(a),
            (B::And | B::Or, Value::Bool(_)) => return self.eval(r, env),
            (B::Or, Value::Text(_)) => return Ok(a),
            _ => {}
        }
        let b = self.eval(r, env)?;
        match (operator, &a, &b) {
            (B::Minus, Value::Point(p), Value::Point(q)) => return Ok(Value::Step(*p - *q)),
            (B::Plus, Value::Point(p), Value::Step(q)) => return Ok(Value::Point(*p + *q)),
            (B::Minus, Value::Point(p), Value::Step(q)) => return Ok(Value::Point(*p - *q)),
            (B::Plus, Value::Step(p), Value::Step(q)) => return Ok(Value::Step(*p + *q)),
            (B::Minus, Value::Step(p), Value::Step(q)) => return Ok(Value::Step(*p - *q)),
            (B::Same, Value::Text(p), Value::Text(q)) => return Ok(Value::Bool(p == q)),
            (B::Differs, Value::Text(p), Value::Text(q)) => return Ok(Value::Bool(p != q)),
            (B::Times, Value::Step(p), _) => {
                return Ok(Value::Step(*p * b.quantity().ok_or(Silent)?.si()));
            }
            (B::Over, Value::Step(p), _) => {
                let by = b.quantity().ok_or(Silent)?.si();
                return if by == 0.0 { self.by_zero(r.span) } else { Ok(Value::Step(*p * (1.0 / by))) };
            }
            _ => {}
        }
        let (x, y) = (a.quantity().ok_or(Silent)?, b.quantity().ok_or(Silent)?);
        match operator {
            B::Plus => self.joined(x.plus(y), span),
            B::Minus => self.joined(x.minus(y), span),
            B::Times => self.joined(x.times(y), span),
            B::Over => match x.over(y) {
                Err(Mismatch::Zero) => self.by_zero(r.span),
                other => self.joined(other, span),
            },
            B::Power => self.power(x, y, span),
            B::Tolerance => {
                let none = Quantity { number: y.number.sub(y.number), ..y };
                if y.compare(none) == Some(Ordering::Less) {
                    self.say(
                        Diagnostic::new("bad-range", "a tolerance is below zero")
                            .at(r.span, "it goes as far to either side")
                            .help("write how far the value may be off, without a sign"),
                    );
                    return Err(Silent);
                }
                let low = Quantity { number: x.number.sub(y.number), ..x };
                let high = Quantity { number: x.number.add(y.number), ..x };
                self.tolerances.borrow_mut().entry(span).or_insert([x, y]);
                match self.nudge(span).map(|n| if n.up { high } else { low }) {
                    Some(end) => Ok(Value::Band { nominal: end, low: end, high: end }),
                    None => Ok(Value::Band { nominal: x, low, high }),
                }
            }
            B::Range => {
                let two = Number::whole(2);
                let middle = x.number.add(y.number).div(two).ok_or(Silent)?;
                if x.compare(y) == Some(Ordering::Greater) {
                    self.say(
                        Diagnostic::new("bad-range", "this range runs backwards")
                            .at(span, "the lower end comes first")
                            .help("swap its ends"),
                    );
                    return Err(Silent);
                }
                Ok(Value::Band { nominal: Quantity { number: middle, ..x }, low: x, high: y })
            }
            _ => self.comparison(operator, x, y, span),
        }
    }

    fn comparison(&self, operator: Binary, x: Quantity, y: Quantity, span: Span) -> Outcome<Value> {
        use Binary as B;
        let Some(order) = x.compare(y) else {
            if x.dimension.money.is_some() {
                self.say(
                    Diagnostic::new("two-currencies", "the price book is in another currency")
                        .at(span, format!("{} meets {}", x.dimension.phrase(), y.dimension.phrase()))
                        .help("write the amount in the price book's currency"),
                );
            }
            return Err(Silent);
        };
        Ok(Value::Bool(match operator {
            B::Less => order == Ordering::Less,
            B::AtMost => order != Ordering::Greater,
            B::More => order == Ordering::Greater,
            B::AtLeast => order != Ordering::Less,
            B::Same => order == Ordering::Equal,
            _ => order != Ordering::Equal,
        }))
    }

    fn joined(&self, result: Result<Quantity, Mismatch>, _span: Span) -> Outcome<Value> {
        let q = result.map_err(|_| Silent)?;
        if q.number.to_f64().is_finite() { Ok(Value::Quantity(q)) } else { Err(Silent) }
    }

    fn by_zero(&self, span: Span) -> Outcome<Value> {
        self.say(Diagnostic::new("divided-by-zero", "this divides by zero").at(span, "this is zero"));
        Err(Silent)
    }

    fn power(&self, x: Quantity, y: Quantity, span: Span) -> Outcome<Value> {
        #[allow(clippy::cast_possible_truncation)]
        let n = y.number.to_f64() as i8;
        match (x.number.power(i32::from(n)), x.dimension.power(n)) {
            (Some(number), Some(dimension)) => Ok(Value::Quantity(Quantity { number, dimension })),
            _ => self.by_zero(span),
        }
    }

    fn eval_list(&self, items: &[Expr], span: Span, env: &Env) -> Outcome<Value> {
        let values: Vec<Value> = items.iter().map(|i| self.eval(i, env)).collect::<Outcome<_>>()?;
        if let [Value::Quantity(_) | Value::Band { .. }, ..] = values.as_slice() {
            let c: Vec<f64> = values.iter().filter_map(Value::quantity).map(Quantity::si).collect();
            return match c.as_slice() {
                [x, y, z] => {
                    let origin = self.origin(env.room, span)?;
                    Ok(Value::Point(origin + Vec3::new(*x, *y, *z)))
                }
                _ => Err(Silent),
            };
        }
        let point = matches!(values.first(), Some(Value::Point(_)));
        let sum = values.iter().fold(Vec3::ZERO, |s, v| match v {
            Value::Point(p) | Value::Step(p) => s + *p,
            _ => s,
        });
        Ok(if point { Value::Point(sum) } else { Value::Step(sum) })
    }

    fn eval_call(&self, path: &Path, arguments: &[Expr], span: Span, env: &Env) -> Outcome<Value> {
        let name = path.text();
        if let Some(Found::Name(full)) = self.scope.find(&name, env.room) {
            let decl = self.scope.names[&full];
            let names = self.argument_names(&decl, span, arguments.len())?;
            let values: Vec<Value> = arguments.iter().map(|a| self.eval(a, env)).collect::<Outcome<_>>()?;
            let inner = Env {
                room: decl.room,
                figures: false,
                day: env.day,
                arguments: names.into_iter().zip(values).map(|(n, v)| (n, Type::Bad, Some(v))).collect(),
            };
            let body = decl.entry.value.as_deref().and_then(<[Expr]>::first).ok_or(Silent)?;
            return self.deeper(span, || self.eval(body, &inner).ok()).ok_or(Silent);
        }
        if name == "sold" {
            return match arguments {
                [Expr { kind: ExprKind::Text(what), .. }] => Ok(Value::Bool(self.is_priced(what))),
                _ => Err(Silent),
            };
        }
        if name == "crossing" {
            return self.crossing(arguments, span, env).map(Value::Point);
        }
        let values: Vec<Value> = arguments.iter().map(|a| self.eval(a, env)).collect::<Outcome<_>>()?;
        function(&name).and_then(|f| f.apply(&values)).ok_or_else(|| {
            self.say(
                Diagnostic::new("no-value", format!("`{name}` has no result for this"))
                    .at(span, "outside what it can answer")
                    .note("square roots want zero or more, asin and acos a number from -1 to 1, steps more than zero"),
            );
            Silent
        })
    }

    fn crossing(&self, arguments: &[Expr], span: Span, env: &Env) -> Outcome<Vec3> {
        let (a, b) = self.member_ends(&self.member_argument(&arguments[0], env)?, span)?;
        let (c, d) = self.member_ends(&self.member_argument(&arguments[1], env)?, span)?;
        let (u, v) = ((b - a).unit().ok_or(Silent)?, (d - c).unit().ok_or(Silent)?);
        let w = c - a;
        let k = u.dot(v);
        let denominator = 1.0 - k * k;
        let gap = if denominator < 1e-9 {
            f64::INFINITY
        } else {
            let s = (w.dot(u) - k * w.dot(v)) / denominator;
            let t = (k * w.dot(u) - w.dot(v)) / denominator;
            let (p, q) = (a + u * s, c + v * t);
            if (p - q).norm() <= CROSSING {
                return Ok(p.mix(q, 0.5));
            }
            (p - q).norm()
        };
        let how = if gap.is_finite() {
            format!("they pass each other at {:.1} mm", gap * 1e3)
        } else {
            "they are parallel".to_owned()
        };
        self.say(
            Diagnostic::new("no-crossing", "these two members do not cross")
                .at(span, how)
                .help("move one of them into the other's plane, or place the joint with `on`"),
        );
        Err(Silent)
    }
}

/// The unit vector of a direction word.
pub(crate) fn direction(word: &str, side: Option<Side>) -> Option<Vec3> {
    Some(match word {
        "forward" => Vec3::X,
        "back" => -Vec3::X,
        "up" => Vec3::Z,
        "down" => -Vec3::Z,
        "left" => Vec3::Y,
        "right" => -Vec3::Y,
        "outward" => Vec3::Y * side?.sign(),
        "inward" => Vec3::Y * -side?.sign(),
        _ => return None,
    })
}
