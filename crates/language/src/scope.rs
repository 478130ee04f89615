//! Declarations: which names exist, what each stands for, and on which side.

use crate::fields::{CONDITIONS, RIDER, entry_spec};
use crate::figures::figure_spec;
use crate::schema::{STATEMENTS, StatementSpec, Subject, statement_spec};
use crate::suggest::nearest;
use chairwright_design::Side;
use chairwright_diagnostics::{Diagnostic, Problems, Span};
use chairwright_syntax::{DIRECTIONS, Entry, Expr, ExprKind, RESERVED};
use indexmap::IndexMap;
use smol_str::{SmolStr, format_smolstr};

/// What a name stands for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum DeclKind {
    Param,
    Let,
    Stock,
    Part,
    Joint,
    Member,
    Panel,
    Box,
    Wheel,
    Caster,
    Item,
}

impl DeclKind {
    fn of(keyword: &str) -> Option<DeclKind> {
        Some(match keyword {
            "param" => DeclKind::Param,
            "let" => DeclKind::Let,
            "stock" => DeclKind::Stock,
            "part" => DeclKind::Part,
            "joint" => DeclKind::Joint,
            "member" => DeclKind::Member,
            "panel" => DeclKind::Panel,
            "box" => DeclKind::Box,
            "wheel" => DeclKind::Wheel,
            "caster" => DeclKind::Caster,
            "brake" | "axle" | "item" => DeclKind::Item,
            _ => return None,
        })
    }

    pub(crate) fn phrase(self) -> &'static str {
        match self {
            DeclKind::Param => "a parameter",
            DeclKind::Let => "a let",
            DeclKind::Stock => "a stock",
            DeclKind::Part => "a part",
            DeclKind::Joint => "a joint",
            DeclKind::Member => "a member",
            DeclKind::Panel => "a panel",
            DeclKind::Box => "a box",
            DeclKind::Wheel => "a wheel",
            DeclKind::Caster => "a caster",
            DeclKind::Item => "an item",
        }
    }
}

/// A declared name.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Decl<'a> {
    pub kind: DeclKind,
    pub entry: &'a Entry,
    pub side: Option<Side>,
    pub name_span: Span,
}

/// A statement in its place.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Placed<'a> {
    pub entry: &'a Entry,
    pub spec: &'static StatementSpec,
    pub side: Option<Side>,
    /// Whether the text is the builder's own rather than a shipped page.
    pub own: bool,
}

/// Everything that is declared.
#[derive(Clone, Debug, Default)]
pub(crate) struct Scope<'a> {
    pub names: IndexMap<SmolStr, Decl<'a>>,
    pub placed: Vec<Placed<'a>>,
    /// Catalogue entries by keyword and folded name.
    pub entries: IndexMap<(&'static str, String), &'a Entry>,
    /// Those of them that the builder wrote; the shipped pages are checked by the tests.
    pub own_entries: Vec<(&'static str, &'a Entry)>,
    pub measured: Vec<&'a Entry>,
    pub rider: Option<&'a Entry>,
    pub conditions: Option<&'a Entry>,
    pub variants: IndexMap<SmolStr, &'a Entry>,
}

pub(crate) use chairwright_design::fold;

/// The text of an expression that is a quoted text.
pub(crate) fn text_of(expr: Option<&Expr>) -> Option<&str> {
    match expr.map(|e| &e.kind) {
        Some(ExprKind::Text(text)) => Some(text),
        _ => None,
    }
}

/// The name that a statement declares, and its place.
pub(crate) fn declared_name(entry: &Entry) -> Option<(SmolStr, Span)> {
    match entry.subject.as_ref().map(|s| (&s.kind, s.span)) {
        Some((ExprKind::Name(path) | ExprKind::Call(path, _), _)) => Some((path.text(), path.span)),
        _ => None,
    }
}

pub(crate) struct Declare<'a, 'p> {
    pub scope: Scope<'a>,
    pub problems: &'p mut Problems,
}

impl<'a> Declare<'a, '_> {
    /// Takes in one text.
    pub(crate) fn file(&mut self, entries: &'a [Entry], own: bool) {
        for entry in entries {
            self.entry(entry, None, own);
        }
    }

    fn entry(&mut self, entry: &'a Entry, side: Option<Side>, own: bool) {
        let keyword = entry.keyword.text();
        if let (Some(spec), Some(name)) = (entry_spec(&keyword), text_of(entry.subject.as_ref()))
            && entry.value.is_none()
        {
            return self.catalogue(spec.keyword, name, entry, own);
        }
        let Some(spec) = statement_spec(&keyword) else { return self.unknown_word(entry) };
        if side.is_some() && !spec.sided {
            let problem =
                Diagnostic::new("misplaced-statement", format!("`{keyword}` cannot stand inside both sides"))
                    .at(entry.keyword.span, "it has no left and right")
                    .help("move it out of the block");
            self.problems.push(problem);
            return;
        }
        match spec.keyword {
            "both" => return self.both(entry, own),
            "rider" => self.single(entry, |s| &mut s.rider),
            "conditions" => self.single(entry, |s| &mut s.conditions),
            "measured" => self.scope.measured.push(entry),
            "variant" => self.variant(entry),
            _ => {}
        }
        self.once(entry, spec, side, own);
        if let Some(kind) = DeclKind::of(spec.keyword) {
            self.name(kind, entry, side);
        }
        self.scope.placed.push(Placed { entry, spec, side, own });
    }

    fn both(&mut self, entry: &'a Entry, own: bool) {
        let named_sides =
            matches!(entry.subject.as_ref().map(|s| &s.kind), Some(ExprKind::Name(p)) if p.text() == "sides");
        if !named_sides {
            self.problems.push(
                Diagnostic::new("unknown-word", "`both` opens `both sides { … }`")
                    .at(entry.keyword.span, "write both sides"),
            );
        }
        for side in [Side::Left, Side::Right] {
            for inner in entry.block.iter().flat_map(|b| &b.entries) {
                self.entry(inner, Some(side), own);
            }
        }
    }

    fn single(
        &mut self,
        entry: &'a Entry,
        slot: impl for<'s> Fn(&'s mut Scope<'a>) -> &'s mut Option<&'a Entry>,
    ) {
        let slot = slot(&mut self.scope);
        match slot {
            Some(first) if !std::ptr::eq(*first, entry) => {
                let problem =
                    Diagnostic::new("taken-name", format!("a second `{}` block", entry.keyword.text()))
                        .at(entry.keyword.span, "again here")
                        .also(first.keyword.span, "first given here")
                        .help("keep one of them");
                self.problems.push(problem);
            }
            _ => *slot = Some(entry),
        }
    }

    /// Statements of which one design has one, and blocks where none is read.
    fn once(&mut self, entry: &'a Entry, spec: &'static StatementSpec, side: Option<Side>, own: bool) {
        let head = ["design", "licence", "revision", "units"].contains(&spec.keyword);
        let same = |p: &&Placed| p.own == own && p.side == side && p.spec.keyword == spec.keyword;
        let again = |p: &&Placed| head || (spec.keyword == "close" && same_subject(p.entry, entry));
        if let Some(first) = self.scope.placed.iter().filter(same).find(again) {
            let problem = Diagnostic::new("given-twice", format!("a second `{}`", spec.keyword))
                .at(entry.head, "again here")
                .also(first.entry.head, "first given here")
                .help("keep one of them");
            self.problems.push(problem);
        }
        if let Some(block) = &entry.block
            && !["rider", "conditions", "both", "variant", "measured"].contains(&spec.keyword)
        {
            let problem = Diagnostic::new("unknown-clause", format!("`{}` takes no block", spec.keyword))
                .at(block.span, "this would not be read")
                .help(format!("for example: {}", spec.shape));
            self.problems.push(problem);
        }
    }

    fn variant(&mut self, entry: &'a Entry) {
        let Some((name, span)) = declared_name(entry) else { return };
        if let Some(first) = self.scope.variants.get(&name) {
            let problem = Diagnostic::new("taken-name", format!("there are two variants `{name}`"))
                .at(span, "again here")
                .also(first.head, "first given here")
                .help("give one of them another name");
            self.problems.push(problem);
            return;
        }
        self.scope.variants.insert(name, entry);
    }

    fn catalogue(&mut self, keyword: &'static str, name: &str, entry: &'a Entry, own: bool) {
        let key = (keyword, fold(name));
        if let Some(first) = self.scope.entries.get(&key) {
            let span = entry.subject.as_ref().map_or(entry.head, |s| s.span);
            let problem = Diagnostic::new("taken-name", format!("there is already a {keyword} \"{name}\""))
                .at(span, "again here")
                .also(first.head, "first given here")
                .help(format!("to correct some of its figures write measured \"{name}\" {{ … }}"));
            self.problems.push(problem);
            return;
        }
        self.scope.entries.insert(key, entry);
        if own {
            self.scope.own_entries.push((keyword, entry));
        }
    }

    fn name(&mut self, kind: DeclKind, entry: &'a Entry, side: Option<Side>) {
        let Some((name, span)) = declared_name(entry) else { return };
        if let Some(problem) = reserved_name(&name, span) {
            self.problems.push(problem);
        }
        let full = match side {
            Some(side) => format_smolstr!("{}.{name}", side.word()),
            None => name.clone(),
        };
        if let Some(first) = self.scope.names.get(&full) {
            let problem = Diagnostic::new("taken-name", format!("`{full}` is declared twice"))
                .at(span, "again here")
                .also(first.name_span, "first declared here")
                .help("give one of them another name");
            self.problems.push(problem);
            return;
        }
        self.scope.names.insert(full, Decl { kind, entry, side, name_span: span });
    }

    fn unknown_word(&mut self, entry: &Entry) {
        let word = entry.keyword.text();
        let keywords =
            STATEMENTS.iter().map(|s| s.keyword).chain(crate::fields::ENTRIES.iter().map(|e| e.keyword));
        let mut problem = Diagnostic::new("unknown-word", format!("`{word}` opens no statement"))
            .at(entry.keyword.span, "not a statement");
        if let Some(meant) = nearest(&word, keywords) {
            problem = problem.help(format!("did you mean {meant}?")).edit(entry.keyword.span, meant);
        } else if entry.value.is_some() {
            problem = problem.help(format!(
                "to give a value a name write let {word} = …, or param {word} = … if it may vary"
            ));
        } else {
            problem = problem.help("the reference lists the statements: chairwright explain statements");
        }
        self.problems.push(problem);
    }
}

/// Whether two statements are about the same name.
fn same_subject(a: &Entry, b: &Entry) -> bool {
    declared_name(a).map(|(n, _)| n) == declared_name(b).map(|(n, _)| n)
}

fn reserved_name(name: &str, span: Span) -> Option<Diagnostic> {
    let why = if DIRECTIONS.contains(&name) {
        "it is a direction"
    } else if RESERVED.contains(&name) {
        "it belongs to the grammar"
    } else if figure_spec(name).is_some() {
        "a computed figure is called that"
    } else if name == "rider" || name == "conditions" || name == "catalogue" {
        "it names a part of the language"
    } else if name.contains('.') {
        "a new name has no dot; both sides puts left. and right. in front"
    } else {
        return None;
    };
    Some(
        Diagnostic::new("reserved-name", format!("`{name}` cannot be a name here"))
            .at(span, why)
            .help(format!("choose another, such as {}_1", name.replace('.', "_"))),
    )
}

/// Whether a statement's subject must be a new name.
pub(crate) fn wants_name(spec: &StatementSpec) -> bool {
    spec.subject == Subject::NewName
}

/// Keys of the rider's and the conditions' blocks.
pub(crate) fn block_fields(base: &str) -> Option<&'static [crate::fields::Field]> {
    match base {
        "rider" => Some(RIDER),
        "conditions" => Some(CONDITIONS),
        _ => None,
    }
}
