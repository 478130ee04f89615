//! Assemblies fitted, repetitions counted out, and what is built only on a condition.

use crate::declare::{Context, Declare, Pending};
use crate::evaluator::{Env, Evaluator};
use crate::room::{Argument, Room, RoomId, Stand};
use crate::schema::{Kind, Stands};
use crate::scope::{Fitted, Given, declared_name};
use crate::value::Value;
use crate::words::{clause, inner, keyword, says, usual_path, value};
use chairwright_design::GivenBy;
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_quantity::Dimension;
use chairwright_syntax::{Entry, Expr, ExprKind};
use smol_str::{SmolStr, format_smolstr};

/// Turns of one repetition.
const TURNS: i64 = 500;
/// Assemblies and repetitions inside each other.
const DEPTH: u8 = 12;

impl<'a> Declare<'a, '_> {
    /// Works through everything whose extent depends on values; what comes up on the way too.
    pub(crate) fn expand(&mut self) {
        let mut at = 0;
        while at < self.pending.len() {
            let Pending { entry, context } = self.pending[at];
            at += 1;
            if says(&entry.keyword, "repeat") { self.repeat(entry, context) } else { self.when(entry, context) }
        }
        self.unused_assemblies();
        for (name, span, met) in std::mem::take(&mut self.without) {
            if !met {
                self.say(
                    Diagnostic::new("unknown-name", format!("nothing is called `{name}`"))
                        .at(span, "nothing to take away")
                        .help("write the name of a wheel, caster, item, member, panel or box"),
                );
            }
        }
    }

    /// Assemblies that nobody fits are looked through for mistakes all the same.
    fn unused_assemblies(&mut self) {
        let unused: Vec<(SmolStr, &'a Entry)> = self
            .scope
            .assemblies
            .iter()
            .filter(|(n, _)| !self.used.contains(*n))
            .map(|(n, e)| (n.clone(), *e))
            .collect();
        let own = Context { room: RoomId::ROOT, stands: Stands::Assembly, own: true, level: 0, depth: 0 };
        for (name, assembly) in unused {
            let arguments = givens(assembly).map(|(n, _)| (n, Argument::Nothing)).collect();
            let room = self.ghost_room(RoomId::ROOT, arguments);
            self.open.push(name);
            for entry in inner(assembly) {
                self.entry(entry, Context { room, ..own });
            }
            self.open.pop();
        }
    }

    fn ghost_room(&mut self, outer: RoomId, arguments: Vec<(SmolStr, Argument<'a>)>) -> RoomId {
        let prefix = format_smolstr!("~{}.", self.scope.rooms.len());
        let side = self.scope.side(outer);
        self.add_room(Room { prefix, side, outer, base: outer, ghost: true, arguments, stand: None })
    }

    pub(crate) fn fit(&mut self, entry: &'a Entry, context: Context) {
        let Some((name, span)) = declared_name(entry) else { return };
        let Some(ExprKind::Name(path)) = value(entry).map(|v| &v.kind) else { return };
        let wanted = path.text();
        let Some(assembly) = self.scope.assemblies.get(&wanted).copied() else {
            return self.unknown_assembly(&wanted, path.span);
        };
        if self.open.contains(&wanted) || context.depth >= DEPTH {
            return self.endless(&wanted, span, context);
        }
        self.used.insert(wanted.clone());
        let arguments = givens(assembly)
            .map(|(given, _)| {
                let found = inner(entry).find(|e| e.keyword.text() == given).and_then(value);
                (given, found.map_or(Argument::Nothing, |e| Argument::Given(e, context.room)))
            })
            .collect();
        let outer_room = self.scope.room(context.room);
        let (side, ghost) = (outer_room.side, outer_room.ghost);
        let prefix = self.scope.full(context.room, &format!("{name}."));
        let stand = clause(entry, "at").map(|c| Stand { at: &c.values, room: context.room });
        let outer = RoomId::ROOT;
        let room = self.add_room(Room { prefix, side, outer, base: context.room, ghost, arguments, stand });
        self.scope.fitted.push(Fitted { entry, assembly, from: context.room, room });
        for change in inner(entry) {
            let Some(new) = value(change) else { continue };
            let full = self.scope.full(room, &change.keyword.text());
            let given =
                Given { value: new, line: None, room: context.room, by: GivenBy::Assembly, layer: u8::MAX };
            self.scope.given.entry(full).or_insert(given);
        }
        self.open.push(wanted);
        let stands = if side.is_some() { Stands::Anywhere } else { Stands::Assembly };
        for statement in inner(assembly) {
            // a param or stock of an assembly is its own, on whichever side it is fitted
            let own = matches!(
                keyword(statement).as_str(),
                "param" | "stock" | "part" | "given" | "require" | "prefer"
            );
            let stands = if own { Stands::Assembly } else { stands };
            self.entry(statement, Context { room, stands, depth: context.depth + 1, ..context });
        }
        self.open.pop();
    }

    fn unknown_assembly(&mut self, wanted: &str, span: Span) {
        let problem = Diagnostic::new("unknown-name", format!("there is no assembly `{wanted}`"))
            .at(span, "not described");
        let known = self.scope.assemblies.keys().map(SmolStr::as_str);
        let problem = match crate::suggest::nearest(wanted, known) {
            Some(meant) => problem.help(format!("did you mean {meant}?")).edit(span, meant),
            None => problem.help(format!("describe it: assembly {wanted} {{ … }}")),
        };
        self.say(problem);
    }

    fn endless(&mut self, wanted: &str, span: Span, context: Context) {
        if context.depth >= DEPTH && !self.open.iter().any(|o| o == wanted) {
            self.say(
                Diagnostic::new("too-deep", "assemblies are fitted into each other too deep here")
                    .at(span, "one too many")
                    .note(format!("the limit is {DEPTH} inside each other"))
                    .help("fit some of them beside each other"),
            );
            return;
        }
        let start = self.open.iter().position(|o| o == wanted).unwrap_or(0);
        let circle: Vec<&str> = self.open[start..].iter().map(SmolStr::as_str).chain([wanted]).collect();
        self.say(
            Diagnostic::new("circular-name", format!("assembly `{wanted}` is fitted into itself"))
                .at(span, "the circle closes here")
                .note(format!("the circle: {}", circle.join(" → ")))
                .help("fit it outside of itself"),
        );
    }

    fn repeat(&mut self, entry: &'a Entry, context: Context) {
        let Some((name, _)) = declared_name(entry) else { return };
        let ghost = self.scope.room(context.room).ghost;
        let turns = if ghost { None } else { self.turns(entry, context) };
        let (from, to) = match turns {
            Some((from, to)) if to >= from => (from, to),
            _ => return self.body(entry, context, vec![(name, Argument::Turn(1))]),
        };
        if context.depth >= DEPTH || to - from >= TURNS {
            return self.too_often(entry, to.saturating_sub(from).saturating_add(1));
        }
        let side = self.scope.side(context.room);
        for turn in from..=to {
            let prefix = self.scope.full(context.room, &format!("{name}.{turn}."));
            let arguments = vec![(name.clone(), Argument::Turn(turn))];
            let outer = context.room;
            let room = self.add_room(Room { prefix, side, outer, base: outer, ghost, arguments, stand: None });
            for statement in inner(entry) {
                self.entry(statement, Context { room, depth: context.depth + 1, ..inside(context) });
            }
        }
    }

    /// Declares a body that is not built, so that it is looked through for mistakes.
    fn body(&mut self, entry: &'a Entry, context: Context, arguments: Vec<(SmolStr, Argument<'a>)>) {
        if context.depth >= DEPTH {
            return;
        }
        let room = self.ghost_room(context.room, arguments);
        for statement in inner(entry) {
            self.entry(statement, Context { room, depth: context.depth + 1, ..inside(context) });
        }
    }

    fn too_often(&mut self, entry: &Entry, turns: i64) {
        self.say(
            Diagnostic::new("too-large", "this repetition runs too often")
                .at(entry.head, format!("{turns} turns"))
                .note(format!("the limits are {TURNS} turns, and {DEPTH} repetitions inside each other"))
                .help("let it run less often"),
        );
    }

    fn turns(&mut self, entry: &'a Entry, context: Context) -> Option<(i64, i64)> {
        let mut problems = Vec::new();
        let ends = {
            let evaluator = Evaluator::new(&self.scope, Some(self.priced));
            let env = Env::on(context.room);
            let ends = ["from", "to"].map(|word| {
                let expr = clause(entry, word)?.values.first()?;
                evaluator.want(expr, Kind::Quantity(Dimension::NUMBER), &env).ok()?;
                let value = evaluator.quantity(expr, &env).ok()?.si();
                if value.fract() != 0.0 || value.abs() > 1e15 {
                    evaluator.say(
                        Diagnostic::new("not-positive", "a turn has a whole number")
                            .at(expr.span, format!("this comes to {value}"))
                            .help("write a whole number, or round(…, 1)"),
                    );
                    return None;
                }
                #[allow(clippy::cast_possible_truncation)]
                Some(value as i64)
            });
            problems.append(&mut evaluator.problems.borrow_mut());
            ends
        };
        self.problems.extend(problems);
        Some((ends[0]?, ends[1]?))
    }

    fn when(&mut self, entry: &'a Entry, context: Context) {
        let Some(condition) = entry.subject.as_ref() else { return };
        let ghost = self.scope.room(context.room).ghost;
        let holds = if ghost { None } else { self.holds(condition, context.room) };
        if holds != Some(true) {
            return self.body(entry, context, Vec::new());
        }
        if context.depth >= DEPTH {
            self.say(
                Diagnostic::new("too-deep", "conditions stand inside each other too deep here")
                    .at(entry.head, "one too many")
                    .note(format!("the limit is {DEPTH} inside each other"))
                    .help("join them with and"),
            );
            return;
        }
        for statement in inner(entry) {
            self.entry(statement, Context { depth: context.depth + 1, ..inside(context) });
        }
    }

    fn holds(&mut self, condition: &'a Expr, room: RoomId) -> Option<bool> {
        let mut problems = Vec::new();
        let value = {
            let evaluator = Evaluator::new(&self.scope, Some(self.priced));
            let env = Env::on(room);
            let value =
                evaluator.want(condition, Kind::Condition, &env).and_then(|()| evaluator.eval(condition, &env));
            problems.append(&mut evaluator.problems.borrow_mut());
            value
        };
        self.problems.extend(problems);
        match value {
            Ok(Value::Bool(holds)) => Some(holds),
            _ => None,
        }
    }
}

/// Within a repetition or a condition the head statements have no place.
fn inside(context: Context) -> Context {
    let stands = if context.stands == Stands::Text { Stands::Inside } else { context.stands };
    Context { stands, ..context }
}

/// What an assembly must be given.
pub(crate) fn givens(assembly: &Entry) -> impl Iterator<Item = (SmolStr, Span)> + '_ {
    inner(assembly).filter(|e| says(&e.keyword, "given")).filter_map(declared_name)
}

/// Names that a block takes away: `without rear`.
pub(crate) fn taken(entry: &Entry) -> impl Iterator<Item = (SmolStr, Span)> + '_ {
    inner(entry).filter(|e| says(&e.keyword, "without")).filter_map(|e| match &e.subject.as_ref()?.kind {
        ExprKind::Name(path) => Some((usual_path(path), path.span)),
        _ => None,
    })
}
