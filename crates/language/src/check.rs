//! Every statement against the schema, before anything is evaluated.

use crate::blocks::{Complete, sample};
use crate::evaluator::{Env, Evaluator};
use crate::fields::{AS_BUILT, BASELINE, CONDITIONS, ENTRIES, RIDER, entry_spec};
use crate::figures::figure_spec;
use crate::schema::{ClauseSpec, Kind, StatementSpec, Subject, statement_spec};
use crate::scope::{DeclKind, Placed, fold, text_of, wants_name};
use crate::value::{Outcome, Silent, Type};
use crate::words::clause;
use chairwright_design::spelling;
use chairwright_diagnostics::Diagnostic;
use chairwright_syntax::{Entry, Expr, ExprKind};
use smol_str::SmolStr;

/// Words that close a joint without a fitting.
pub(crate) const CLOSINGS: &[&str] = &["lap", "butt", "gusset", "open"];

impl<'a> Evaluator<'a> {
    /// Checks the whole scope.
    pub(crate) fn check_all(&self) {
        if let Some(rider) = self.scope.rider {
            self.check_fields(rider, RIDER, Complete::No);
        }
        if let Some(conditions) = self.scope.conditions {
            self.check_fields(conditions, CONDITIONS, Complete::No);
        }
        if let Some(as_built) = self.scope.as_built {
            self.check_fields(as_built, AS_BUILT, Complete::No);
        }
        if let Some(baseline) = self.scope.baseline {
            self.check_fields(baseline, BASELINE, Complete::No);
        }
        for (keyword, entry) in &self.scope.own_entries {
            if let Some(spec) = entry_spec(keyword) {
                self.check_fields(entry, spec.fields, Complete::All);
                self.check_kind(entry, entry);
            }
        }
        for (i, entry) in self.scope.measured.iter().enumerate() {
            self.check_measured(entry, &self.scope.measured[..i]);
        }
        for placed in &self.scope.placed {
            let before = self.problems.borrow().len();
            self.check_statement(placed);
            self.name_fitting(placed.room, before);
        }
        for entry in self.scope.variants.values().chain(self.scope.states.values()).chain(&self.scope.forks) {
            self.check_changes(entry);
        }
        self.check_fits();
    }

    /// Values from the command line, by the rule for variants.
    pub(crate) fn check_settings(&self, settings: &[crate::Setting]) {
        for s in settings {
            let _ = self.check_override(&SmolStr::new(&s.name), s.span, &s.value);
        }
    }

    /// A correction by measuring: the entry must exist, its fields must be that entry's, and it needs a
    /// source of its own.
    fn check_measured(&self, entry: &'a Entry, before: &[&'a Entry]) {
        let Some((name, span)) = entry.subject.as_ref().and_then(|s| Some((text_of(Some(s))?, s.span))) else {
            return;
        };
        let same = |e: &&&Entry| text_of(e.subject.as_ref()).is_some_and(|t| fold(t) == fold(name));
        if let Some(first) = before.iter().find(same) {
            self.given_twice(name, span, first.head);
        }
        let key = fold(name);
        let kind = ENTRIES.iter().find(|e| self.scope.entries.contains_key(&(e.keyword, key.clone())));
        match kind {
            Some(spec) => {
                self.check_fields(entry, spec.fields, Complete::Source);
                if let Some(part) = self.scope.entries.get(&("part", key)) {
                    self.check_kind(entry, part);
                }
            }
            None => {
                let _ = self.find_entry("fitting", name, span);
            }
        }
    }

    fn check_statement(&self, placed: &Placed<'a>) {
        let Placed { entry, spec, .. } = *placed;
        self.statement.set(Some(entry.head));
        self.keyword.set(spec.keyword);
        let env =
            Env { room: placed.room, figures: matches!(spec.keyword, "require" | "prefer"), ..Env::default() };
        let wrong = self.check_subject(entry, spec, &env);
        if wrong || self.two_statements(entry, spec) {
            return;
        }
        if matches!(spec.keyword, "design" | "use" | "prices" | "licence" | "revision" | "on_hand" | "fork") {
            return self.check_clauses(entry, spec, &env);
        }
        self.check_value(entry, spec, &env);
        self.check_clauses(entry, spec, &env);
        if matches!(spec.keyword, "accept" | "level") {
            self.check_policy(entry, spec.keyword);
        }
    }

    /// Whether the subject is so wrong that the rest of the line says nothing.
    fn check_subject(&self, entry: &Entry, spec: &StatementSpec, env: &Env) -> bool {
        match (&entry.subject, spec.subject) {
            (None, Subject::None) => {}
            (Some(subject), Subject::None) if is_blank_name(entry) => {
                let name = format!("let {}_{}", spec.keyword, crate::build::plain(subject));
                let span = entry.keyword.span.to(subject.span);
                self.say(
                    Diagnostic::new("bad-name", "a name has no blank")
                        .at(span, "two words")
                        .help(format!("write {name} = …"))
                        .edit(span, name),
                );
                return true;
            }
            (Some(subject), Subject::None) => self.unexpected(subject, spec),
            (None, _) if crate::words::value(entry).is_some() => {
                let first = entry.value.iter().flatten().next().map_or(entry.head, |v| v.span);
                let gap =
                    chairwright_diagnostics::Span { start: entry.keyword.span.end, end: first.start, ..first };
                self.say(
                    Diagnostic::new("unreadable-line", format!("no = belongs behind `{}`", spec.keyword))
                        .at(first, "comes right behind the word")
                        .help(format!("for example: {}", spec.shape))
                        .edit(gap, " "),
                );
            }
            (None, _) => self.say(
                Diagnostic::new("missing-clause", format!("`{}` does not say what it is about", spec.keyword))
                    .at(entry.keyword.span, "nothing stands behind it")
                    .help(format!("for example: {}", spec.shape)),
            ),
            (Some(subject), _) if wants_name(spec) && matches!(subject.kind, ExprKind::Literal(_)) => self.say(
                Diagnostic::new("bad-name", "a name begins with a letter")
                    .at(subject.span, "begins with a digit")
                    .help("put the number behind the letters"),
            ),
            (Some(subject), _) if wants_name(spec) && !is_name(subject) && hyphened(subject).is_some() => {
                let fixed = hyphened(subject).unwrap_or_default();
                self.say(
                    Diagnostic::new("bad-name", "a name has no hyphen")
                        .at(subject.span, "this would be a subtraction")
                        .help(format!("write {fixed} here and everywhere else"))
                        .edit(subject.span, fixed),
                );
            }
            (Some(subject), _) if wants_name(spec) && !is_name(subject) => self.say(
                Diagnostic::new("wrong-kind", format!("`{}` wants a name of its own here", spec.keyword))
                    .at(subject.span, "this is no name")
                    .help(format!("for example: {}", spec.shape)),
            ),
            (Some(subject), Subject::Value(kind)) => {
                let _ = self.want(subject, kind, env);
            }
            _ => {}
        }
        false
    }

    fn unexpected(&self, subject: &Expr, spec: &StatementSpec) {
        self.say(
            Diagnostic::new("unknown-clause", format!("`{}` takes nothing here", spec.keyword))
                .at(subject.span, "leave it out")
                .help(format!("for example: {}", spec.shape)),
        );
    }

    /// Words behind a finished statement that open another: nothing behind them would be read.
    fn two_statements(&self, entry: &Entry, spec: &StatementSpec) -> bool {
        if self.slipped_clause(entry, spec) {
            return true;
        }
        let opens = |word: &str| {
            let own = spec.clauses.iter().any(|c| c.word == spelling(word));
            !own && (statement_spec(word).is_some() || entry_spec(word).is_some())
        };
        let Some(clause) = entry.clauses.iter().find(|c| opens(&c.word.text)) else { return false };
        self.second_statement(clause);
        true
    }

    /// A word in place of a sign: `is` for `=`, `between` for `from`, a direction without its comma.
    fn slipped_clause(&self, entry: &Entry, spec: &StatementSpec) -> bool {
        let known = |w: &str| spec.clauses.iter().any(|c| c.word == spelling(w));
        let Some(clause) = entry.clauses.iter().find(|c| !known(&c.word.text)) else { return false };
        let (word, span) = (clause.word.text.as_str(), clause.word.span);
        let before = chairwright_diagnostics::Span { end: span.start, ..span };
        let said = |headline: String| Diagnostic::new("unknown-clause", headline);
        self.say(match word {
            "is" | "are" => said("a sentence is no statement".to_owned())
                .at(span, "in place of =")
                .help("write = instead")
                .edit(span, "="),
            "between" => said("`between` is no clause".to_owned())
                .at(span, "not one of the clauses")
                .help("write from A to B")
                .edit(span, "from"),
            _ if chairwright_syntax::DIRECTIONS.contains(&word) => {
                said(format!("a comma is missing before `{word}`"))
                    .at(span, "a new step")
                    .help("put a comma between two steps")
                    .edit(before, ",")
            }
            _ => return false,
        });
        true
    }

    fn check_value(&self, entry: &Entry, spec: &StatementSpec, env: &Env) {
        let optional = spec.keyword == "close";
        match (entry.value.as_deref(), spec.value) {
            (None, Some(_)) if !optional => self.say(
                Diagnostic::new("missing-clause", format!("`{}` has no value", spec.keyword))
                    .at(entry.head, "no = …")
                    .help(format!("for example: {}", spec.shape)),
            ),
            (Some([first, ..]), None) if matches!(spec.keyword, "require" | "prefer") => self.say(
                Diagnostic::new("wrong-kind", "a single = compares nothing")
                    .at(first.span, "stands behind =")
                    .help("write <= for at most, >= for at least, == for exactly"),
            ),
            (Some([first, ..]), None) if spec.keyword == "joint" && clause(entry, "at").is_none() => {
                let from = entry.subject.as_ref().map_or(entry.keyword.span, |s| s.span);
                let gap = chairwright_diagnostics::Span { start: from.end, end: first.span.start, ..from };
                self.say(
                    Diagnostic::new("unreadable-line", "a joint is placed with at, not with =")
                        .at(first.span, "the place")
                        .help(format!("for example: {}", spec.shape))
                        .edit(gap, " at "),
                );
            }
            (Some([first, ..]), None) => self.unexpected(first, spec),
            (Some(values), Some(kind)) => self.check_values(entry, spec, kind, values, env),
            _ => {}
        }
    }

    fn check_values(&self, entry: &Entry, spec: &StatementSpec, kind: Kind, values: &[Expr], env: &Env) {
        if spec.keyword == "let" {
            if let Some(ExprKind::Call(_, wanted)) = entry.subject.as_ref().map(|s| &s.kind) {
                return self.check_function(wanted, values, env);
            }
            let name = crate::scope::declared_name(entry).map(|(n, _)| self.scope.full(env.room, &n));
            if let Some(decl) = name.and_then(|n| self.scope.names.get(&n)) {
                let _ = self.infer_decl(decl, entry.keyword.span);
            }
            return;
        }
        if let [_, second, ..] = values {
            self.say(
                Diagnostic::new("wrong-kind", format!("`{}` takes one value", spec.keyword))
                    .at(second.span, "one too many"),
            );
        }
        if let Some(first) = values.first() {
            let good = self.want(first, kind, env);
            if matches!(spec.keyword, "param" | "adjust") && good.is_ok() {
                self.check_param(entry, first, env);
            }
        }
    }

    /// The body of a function, whatever its arguments will be: what does not depend on them is checked
    /// here, the rest wherever it is applied.
    fn check_function(&self, wanted: &[Expr], values: &[Expr], env: &Env) {
        let arguments = wanted.iter().filter_map(|w| match &w.kind {
            ExprKind::Name(path) => Some((path.text(), Type::Bad, None)),
            _ => {
                self.say(
                    Diagnostic::new("wrong-kind", "a function's arguments are names")
                        .at(w.span, "this is no name")
                        .help("for example: let rise(run, slope) = run * tan(slope)"),
                );
                None
            }
        });
        let inner = Env { room: env.room, arguments: arguments.collect(), ..Env::default() };
        if let Some(body) = values.first() {
            self.infer(body, &inner);
        }
    }

    fn check_param(&self, entry: &Entry, value: &Expr, env: &Env) {
        let kind = self.infer(value, env);
        self.check_stops(entry, value, kind, env);
        let Some(within) = clause(entry, "within") else { return };
        let range = self.infer(&within.values[0], env);
        if range == Type::Bad || kind == Type::Bad {
            return;
        }
        let is_range = matches!(within.values[0].kind, ExprKind::Binary(chairwright_syntax::Binary::Range, ..));
        if !is_range {
            self.say(
                Diagnostic::new("bad-range", "`within` wants a least and a greatest value")
                    .at(within.values[0].span, "not a range")
                    .help("write them with two dots between: 0 mm .. 90 mm"),
            );
        } else if range.dimension() != kind.dimension() {
            self.say(
                Diagnostic::new("wrong-dimension", "the range is of another kind than the value")
                    .at(within.values[0].span, format!("this is {}", range.phrase()))
                    .also(value.span, format!("this is {}", kind.phrase())),
            );
        }
    }

    pub(crate) fn check_clauses(&self, entry: &Entry, spec: &StatementSpec, env: &Env) {
        for (i, clause) in entry.clauses.iter().enumerate() {
            if let Some(first) = entry.clauses[..i].iter().find(|c| c.word.text == clause.word.text) {
                self.given_twice(&clause.word.text, clause.word.span, first.word.span);
            }
            match spec.clauses.iter().find(|c| c.word == spelling(&clause.word.text)) {
                Some(wanted) => self.check_clause(entry, wanted, &clause.values, env),
                None => self.unknown_clause(entry, spec, clause),
            }
        }
        for wanted in spec.clauses.iter().filter(|c| c.required) {
            let misspelt = entry.clauses.iter().any(|c| {
                !spec.clauses.iter().any(|s| s.word == spelling(&c.word.text))
                    && crate::suggest::nearest(&c.word.text, spec.clauses.iter().map(|s| s.word))
                        == Some(wanted.word)
            });
            let placed = spec.keyword == "joint" && wanted.word == "at" && entry.value.is_some();
            if clause(entry, wanted.word).is_none() && !misspelt && !placed {
                self.say(
                    Diagnostic::new(
                        "missing-clause",
                        format!("`{}` lacks its `{}`", spec.keyword, wanted.word),
                    )
                    .at(entry.head, format!("no {} …", wanted.word))
                    .help(format!("for example: {}", spec.shape)),
                );
            }
        }
    }

    fn unknown_clause(&self, entry: &Entry, spec: &StatementSpec, clause: &chairwright_syntax::Clause) {
        let word = &clause.word.text;
        let mut problem =
            Diagnostic::new("unknown-clause", format!("`{}` takes no `{word}`", entry.keyword.text()))
                .at(clause.word.span, "not one of its clauses");
        problem = match crate::suggest::nearest(word, spec.clauses.iter().map(|c| c.word)) {
            Some(meant) => problem.help(format!("did you mean {meant}?")).edit(clause.word.span, meant),
            None => problem.help(format!("for example: {}", spec.shape)),
        };
        self.say(problem);
    }

    pub(crate) fn check_clause(&self, entry: &Entry, wanted: &ClauseSpec, values: &[Expr], env: &Env) {
        let on_member = entry.keyword.text() == "joint" && clause(entry, "on").is_some();
        match wanted.kind {
            Kind::Place if on_member => {
                let length = Kind::Quantity(chairwright_quantity::Dimension::LENGTH);
                values.iter().for_each(|v| {
                    let _ = self.want(v, length, env);
                });
            }
            Kind::Place => {
                let _ = self.infer_place(values, env);
            }
            Kind::Points => values.iter().for_each(|v| {
                let _ = self.want(v, Kind::Place, env);
            }),
            kind @ (Kind::Fasteners | Kind::Steps | Kind::Several) => values.iter().for_each(|v| {
                let _ = self.want(v, kind, env);
            }),
            Kind::Closing => {
                let _ = self.want_closing(&values[0]);
            }
            kind => {
                if let [_, second, ..] = values {
                    self.say(
                        Diagnostic::new("wrong-kind", format!("`{}` takes one value", wanted.word))
                            .at(second.span, "one too many"),
                    );
                }
                let _ = self.want(&values[0], kind, env);
            }
        }
    }

    /// Whether a value may take the place of a name's own; the same rule for variants and for the
    /// command line.
    pub(crate) fn check_override(
        &self,
        name: &SmolStr,
        span: chairwright_diagnostics::Span,
        value: &Expr,
    ) -> Outcome<()> {
        if let Some((base, key)) = name.split_once('.')
            && let Some((base, list)) = crate::scope::block_fields(base)
            && let Some(field) = crate::fields::field(list, &crate::words::usual(key))
        {
            if base == "profile" {
                return self.not_changeable(name, span, "a use profile is reviewed as a whole");
            }
            return self.want_field(value, field);
        }
        let Some(decl) = self.scope.names.get(name) else {
            if figure_spec(name).is_some() {
                return self.not_changeable(name, span, "it is computed");
            }
            if self.scope.is_spoilt(name) {
                return Err(Silent);
            }
            let changeable =
                self.scope.names.iter().filter(|(_, d)| d.kind == DeclKind::Param).map(|(n, _)| n.as_str());
            let mut problem =
                Diagnostic::new("unknown-name", format!("nothing is called `{name}`")).at(span, "not declared");
            if let Some(meant) = crate::suggest::nearest(name, changeable) {
                problem = problem.help(format!("did you mean {meant}?")).edit(span, meant);
            } else {
                problem = problem
                    .help("write the name of a param, stock or part of this design, rider.… or conditions.…");
            }
            self.say(problem);
            return Err(Silent);
        };
        match decl.kind {
            DeclKind::Param => {
                let wanted = self.infer_decl(decl, span)?;
                match wanted.dimension() {
                    Some(d) => self.want(value, Kind::Quantity(d), &Env::default()),
                    None => self.want(value, Kind::AnyQuantity, &Env::default()),
                }
            }
            DeclKind::Stock => self.want(value, Kind::Stock, &Env::default()),
            DeclKind::Part => self.want(value, Kind::Part, &Env::default()),
            kind => self.not_changeable(name, span, &format!("it is {}", kind.phrase())),
        }
    }

    pub(crate) fn not_changeable(
        &self,
        name: &str,
        span: chairwright_diagnostics::Span,
        why: &str,
    ) -> Outcome<()> {
        self.say(
            Diagnostic::new("not-changeable", format!("`{name}` cannot be changed from here"))
                .at(span, why.to_owned())
                .help("only params, stocks, parts, the rider's measures and the conditions can"),
        );
        Err(Silent)
    }
}

/// `rear-hip` as `rear_hip`, where a subject is names joined by hyphens.
fn hyphened(subject: &Expr) -> Option<String> {
    match &subject.kind {
        ExprKind::Name(path) if path.words.len() == 1 => Some(path.text().to_string()),
        ExprKind::Literal(l) => l
            .parts
            .first()
            .and_then(|p| p.number.as_ref())
            .filter(|_| l.parts.len() == 1)
            .map(ToString::to_string),
        ExprKind::Binary(chairwright_syntax::Binary::Minus, l, r) => {
            Some(format!("{}_{}", hyphened(l)?, hyphened(r)?))
        }
        _ => None,
    }
}

/// `seat width = 400 mm`: a name with a blank, that opens with a statement's word.
pub(crate) fn is_blank_name(entry: &Entry) -> bool {
    entry.subject.as_ref().is_some_and(is_name) && entry.value.is_some() && entry.clauses.is_empty()
}

/// Whether a subject can be declared; what is broken is already reported.
fn is_name(subject: &Expr) -> bool {
    matches!(subject.kind, ExprKind::Name(_) | ExprKind::Call(..) | ExprKind::Broken)
}

/// How a clause or field of this kind is written, for the reference.
#[must_use]
pub fn sample_value(kind: Kind) -> String {
    let word = match kind {
        Kind::AnyQuantity => "VALUE",
        Kind::Place => "PLACE",
        Kind::Toward => "DIRECTION",
        Kind::Joint => "JOINT",
        Kind::Member => "MEMBER",
        Kind::Thing => "THING",
        Kind::Stock => "STOCK",
        Kind::Part => "PART",
        Kind::Points => "PLACE, PLACE, …",
        Kind::Fasteners => "\"…\", \"…\"",
        Kind::Closing => "\"…\" or WORD",
        Kind::Steps => "STEPS",
        Kind::Several => "VALUE, VALUE, …",
        // a number would look like advice
        Kind::Quantity(_) | Kind::Band(_) => {
            return sample(kind).split_once(' ').map_or("…".to_owned(), |(_, unit)| format!("… {unit}"));
        }
        _ => return sample(kind),
    };
    word.to_owned()
}
