//! Statements that change or fit others: variants, states, forks, assemblies, adjustable dimensions,
//! and what the text says about findings.

use crate::check::CLOSINGS;
use crate::choice::is_demand;
use crate::evaluator::{Env, Evaluator};
use crate::expand::givens;
use crate::room::RoomId;
use crate::schema::Kind;
use crate::scope::{DeclKind, declared_name};
use crate::statements::PROVENANCE;
use crate::value::{Outcome, Type};
use crate::words::{clause, inner, keyword, says, value};
use chairwright_diagnostics::{CODES, Diagnostic, Severity, Span, code};
use chairwright_syntax::{Binary, Clause, Entry, Expr, ExprKind};
use smol_str::SmolStr;

impl<'a> Evaluator<'a> {
    /// The block of a variant, a state or a fork.
    pub(crate) fn check_changes(&self, entry: &'a Entry) {
        let word = keyword(entry);
        if entry.block.is_none() && word != "fork" {
            self.say(
                Diagnostic::new("missing-clause", format!("this {word} changes nothing"))
                    .at(entry.head, "no { … }")
                    .help(format!("for example: {word} indoor {{ camber = 0 deg }}")),
            );
        }
        self.once_each(inner(entry));
        for inner in inner(entry) {
            if !is_demand(inner) && self.more_behind(inner) {
                continue;
            }
            if says(&inner.keyword, "without") {
                self.check_without(inner);
            } else if is_demand(inner) && word == "state" {
                let env = Env { figures: true, ..Env::default() };
                if let Some(condition) = &inner.subject {
                    let _ = self.want(condition, Kind::Condition, &env);
                }
            } else {
                self.check_change(inner, &word);
            }
        }
    }

    /// What goes wrong inside a fitted assembly is often wrong where it is fitted: both are shown.
    pub(crate) fn name_fitting(&self, room: RoomId, before: usize) {
        if self.problems.borrow().len() == before {
            return;
        }
        let mut at = room;
        let fitted = loop {
            match self.scope.fitted.iter().find(|f| f.room == at) {
                Some(fitted) => break fitted,
                None if at == RoomId::ROOT => return,
                None => at = self.scope.room(at).base,
            }
        };
        let name = self.scope.room(fitted.room).prefix.trim_end_matches('.').to_owned();
        for problem in self.problems.borrow_mut().iter_mut().skip(before) {
            let label = format!("fitted here as `{name}`");
            let known = problem.secondary.iter().any(|l| l.span == fitted.entry.head);
            if !known {
                problem.secondary.push(chairwright_diagnostics::Label { span: fitted.entry.head, text: label });
            }
        }
    }

    /// Words behind a finished change: they would not be read.
    fn more_behind(&self, inner: &Entry) -> bool {
        let from = |c: &&Clause| PROVENANCE.iter().any(|p| p.word == c.word.text);
        let Some(clause) = inner.clauses.iter().find(|c| !from(c)) else { return false };
        self.second_statement(clause);
        true
    }

    pub(crate) fn second_statement(&self, clause: &Clause) {
        let at = Span { end: clause.word.span.start, ..clause.word.span };
        self.say(
            Diagnostic::new("two-statements", "two statements on one line")
                .at(clause.word.span, "the second begins here")
                .note("one statement stands on a line; the rest would not be read")
                .help(format!("begin a new line before {}", clause.word.text))
                .edit(at, "\n"),
        );
    }

    /// The same value twice in one block.
    fn once_each(&self, entries: impl Iterator<Item = &'a Entry>) {
        let mut seen: Vec<(SmolStr, Span)> = Vec::new();
        for entry in entries.filter(|e| value(e).is_some()) {
            let name = entry.keyword.text();
            match seen.iter().find(|(n, _)| *n == name) {
                Some((_, first)) => self.given_twice(&name, entry.keyword.span, *first),
                None => seen.push((name, entry.keyword.span)),
            }
        }
    }

    fn check_change(&self, inner: &'a Entry, word: &str) {
        let values = inner.value.as_deref().unwrap_or_default();
        if values.is_empty() || (values.len() > 1 && !takes_readings(inner)) {
            self.say(
                Diagnostic::new("missing-clause", format!("a {word} gives new values to names"))
                    .at(inner.head, "no single value behind =")
                    .help(format!("for example: {word} indoor {{ camber = 0 deg }}")),
            );
            return;
        }
        for value in values {
            let _ = self.check_override(&inner.keyword.text(), inner.keyword.span, value);
        }
        for clause in &inner.clauses {
            if let Some(spec) = PROVENANCE.iter().find(|p| p.word == clause.word.text) {
                self.check_clause(inner, spec, &clause.values, &Env::default());
            }
        }
    }

    fn check_without(&self, entry: &Entry) {
        if !matches!(entry.subject.as_ref().map(|s| &s.kind), Some(ExprKind::Name(_))) {
            self.say(
                Diagnostic::new("missing-clause", "`without` names what is taken away")
                    .at(entry.head, "no name behind it")
                    .help("for example: without rear"),
            );
        }
    }

    /// What each fitted assembly was given, against what it asks for.
    pub(crate) fn check_fits(&self) {
        for fitted in &self.scope.fitted {
            let asked: Vec<(SmolStr, Span)> = givens(fitted.assembly).collect();
            for (name, span) in &asked {
                if !inner(fitted.entry).any(|e| e.keyword.text() == *name && value(e).is_some()) {
                    self.say(
                        Diagnostic::new("missing-clause", format!("this assembly must be given its `{name}`"))
                            .at(fitted.entry.head, format!("no {name} = …"))
                            .also(*span, "asked for here")
                            .help(format!("add {{ {name} = … }} behind it")),
                    );
                }
            }
            self.once_each(inner(fitted.entry));
            for change in inner(fitted.entry) {
                if self.more_behind(change) {
                    continue;
                }
                self.check_given(change, &asked, fitted.room, fitted.from, fitted.assembly);
            }
        }
    }

    fn check_given(
        &self,
        change: &Entry,
        asked: &[(SmolStr, Span)],
        room: RoomId,
        from: RoomId,
        assembly: &Entry,
    ) {
        let name = change.keyword.text();
        let env = Env::on(from);
        let Some([given]) = change.value.as_deref() else {
            self.say(
                Diagnostic::new("missing-clause", "an assembly is given values by their names")
                    .at(change.head, "no single value behind =")
                    .help("for example: height = 320 mm"),
            );
            return;
        };
        if asked.iter().any(|(n, _)| *n == name) {
            if let ExprKind::Name(path) = &given.kind {
                let _ = self.resolve(path, &env);
            } else {
                self.infer(given, &env);
            }
            return;
        }
        match self.scope.names.get(&self.scope.full(room, &name)) {
            Some(decl) if decl.kind == DeclKind::Param => {
                if let Ok(kind) = self.infer_decl(decl, change.keyword.span)
                    && let Some(d) = kind.dimension()
                {
                    let _ = self.want(given, Kind::Quantity(d), &env);
                }
            }
            Some(decl) if matches!(decl.kind, DeclKind::Stock | DeclKind::Part) => {
                let kind = if decl.kind == DeclKind::Stock { Kind::Stock } else { Kind::Part };
                let _ = self.want(given, kind, &env);
            }
            Some(decl) => {
                let why = format!("it is {}", decl.kind.phrase());
                let _ = self.not_changeable(&name, change.keyword.span, &why);
            }
            None => self.unknown_given(change, asked, assembly),
        }
    }

    fn unknown_given(&self, change: &Entry, asked: &[(SmolStr, Span)], assembly: &Entry) {
        let name = change.keyword.text();
        let own = inner(assembly).filter(|e| matches!(keyword(e).as_str(), "param" | "stock" | "part"));
        let known: Vec<SmolStr> =
            asked.iter().map(|(n, _)| n.clone()).chain(own.filter_map(declared_name).map(|(n, _)| n)).collect();
        let problem = Diagnostic::new("unknown-clause", format!("this assembly takes no `{name}`"))
            .at(change.keyword.span, "it has no such param, stock, part or given")
            .also(assembly.head, "the assembly");
        self.say(match crate::suggest::nearest(&name, known.iter().map(SmolStr::as_str)) {
            Some(meant) => problem.help(format!("did you mean {meant}?")).edit(change.keyword.span, meant),
            None if known.is_empty() => problem.help("it takes nothing; leave it out"),
            None => problem.help(format!("it takes {}", known.join(", "))),
        });
    }

    /// The steps or the slot of an adjustable dimension.
    pub(crate) fn check_stops(&self, entry: &Entry, value: &Expr, kind: Type, env: &Env) {
        if keyword(entry) != "adjust" {
            return;
        }
        let steps = clause(entry, "steps");
        if steps.is_none() && clause(entry, "within").is_none() {
            self.say(
                Diagnostic::new("missing-clause", "`adjust` does not say how far")
                    .at(entry.head, "no steps … and no within …")
                    .help("add steps 20 mm, 40 mm, 60 mm for holes, or within 20 mm .. 60 mm for a slot"),
            );
        }
        let others = steps.into_iter().chain(clause(entry, "every")).flat_map(|c| &c.values);
        for other in others {
            let got = self.infer(other, env);
            if got != Type::Bad && kind != Type::Bad && got.dimension() != kind.dimension() {
                self.say(
                    Diagnostic::new("wrong-dimension", "the steps are of another kind than the value")
                        .at(other.span, format!("this is {}", got.phrase()))
                        .also(value.span, format!("this is {}", kind.phrase())),
                );
            }
        }
    }

    /// Fittings, best first, or a word.
    pub(crate) fn want_closing(&self, expr: &Expr) -> Outcome<()> {
        match &expr.kind {
            ExprKind::Text(name) => self.find_entry("fitting", name, expr.span).map(|_| ()),
            ExprKind::Binary(Binary::Or, l, r) => {
                let both = (self.want_closing(l), self.want_closing(r));
                both.0.and(both.1)
            }
            _ => self.want(expr, Kind::Word(CLOSINGS), &Env::default()),
        }
    }

    /// `accept` and `level`: the code must exist, and its weight must allow it.
    pub(crate) fn check_policy(&self, entry: &Entry, word: &str) {
        let Some(ExprKind::Text(name)) = entry.subject.as_ref().map(|s| &s.kind) else {
            if let Some(subject) = entry.subject.as_ref().filter(|s| !matches!(s.kind, ExprKind::Broken)) {
                self.say(
                    Diagnostic::new("wrong-kind", "the name of a code in quotes is wanted here")
                        .at(subject.span, "without quotes")
                        .help(format!("for example: {word} \"rocks\" …")),
                );
            }
            return;
        };
        let span = entry.subject.as_ref().map_or(entry.head, |s| s.span);
        let Some(known) = code(name) else {
            let problem =
                Diagnostic::new("unknown-name", format!("there is no code \"{name}\"")).at(span, "not a code");
            self.say(match crate::suggest::nearest(name, CODES.iter().map(|c| c.name)) {
                Some(meant) => {
                    problem.help(format!("did you mean \"{meant}\"?")).edit(span, format!("\"{meant}\""))
                }
                None => problem.help("chairwright explain codes lists them"),
            });
            return;
        };
        let empty = clause(entry, "because").and_then(|c| c.values.first()).is_some_and(is_empty);
        let lighter = value(entry).is_some_and(|v| weight(v) > Some(known.severity));
        let refused = match word {
            "accept" if known.severity == Severity::Error => Some("an error is mended, not accepted"),
            "level" if known.severity == Severity::Error && lighter => Some("an error stays an error"),
            _ if empty => Some("the reason is empty"),
            "level" if lighter && clause(entry, "because").is_none() => Some("a lighter weight needs a reason"),
            _ => None,
        };
        if let Some(why) = refused {
            self.say(
                Diagnostic::new(
                    "not-acceptable",
                    format!("\"{}\" cannot be made light of like this", known.name),
                )
                .at(span, why)
                .help(match word {
                    _ if known.severity == Severity::Error => "take this line out and mend what it is about",
                    _ => "say why: because \"…\"",
                }),
            );
        }
    }
}

fn is_empty(expr: &Expr) -> bool {
    matches!(&expr.kind, ExprKind::Text(text) if text.trim().is_empty())
}

fn weight(expr: &Expr) -> Option<Severity> {
    match &expr.kind {
        ExprKind::Name(path) => Severity::from_word(&path.text()),
        _ => None,
    }
}

/// Whether a change is of a measure that may be taken more than once.
fn takes_readings(change: &Entry) -> bool {
    let name = keyword(change);
    let of = |(base, key): (&str, &str)| {
        let (_, list) = crate::scope::block_fields(base)?;
        crate::fields::field(list, key).map(|f| matches!(f.kind, Kind::Band(_)))
    };
    name.split_once('.').and_then(of).unwrap_or(false)
}
