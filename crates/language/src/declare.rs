//! Declaring: every statement finds its room, and every name its statement.

use crate::fields::{ENTRIES, entry_spec};
use crate::figures::figure_spec;
use crate::room::{Room, RoomId};
use crate::schema::{STATEMENTS, Stands, StatementSpec, statement_spec};
use crate::scope::{Ancestor, Decl, DeclKind, Placed, Scope, declared_name, fold, text_of};
use crate::suggest::nearest;
use crate::words::{inner, keyword, says, value};
use chairwright_design::Side;
use chairwright_diagnostics::{Diagnostic, Problems, Span};
use chairwright_syntax::{DIRECTIONS, Entry, ExprKind, NEARLY_STATEMENTS, RESERVED};
use smol_str::SmolStr;
use std::collections::{BTreeMap, BTreeSet};

/// A chair stands on so many wheels and casters at least.
const WHEELS: usize = 3;
/// Statements that one design may come to, repetitions counted out.
const STATEMENTS_IN_ALL: usize = 20_000;

/// Where a statement stands while it is declared.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Context {
    pub room: RoomId,
    /// What may stand here.
    pub stands: Stands,
    pub own: bool,
    /// How many forks away from the plan itself.
    pub level: u8,
    /// Assemblies and repetitions around it.
    pub depth: u8,
}

/// A statement whose extent depends on values.
pub(crate) struct Pending<'a> {
    pub entry: &'a Entry,
    pub context: Context,
}

pub(crate) struct Declare<'a, 'p> {
    pub scope: Scope<'a>,
    pub problems: &'p mut Problems,
    pub pending: Vec<Pending<'a>>,
    /// Names of assemblies that were fitted.
    pub used: BTreeSet<SmolStr>,
    /// Names that a state or fork takes away, each with where it says so, and whether it was met.
    pub without: Vec<(SmolStr, Span, bool)>,
    /// Assemblies being fitted, outermost first.
    pub open: Vec<SmolStr>,
    /// Folded keys of the price book.
    pub priced: &'p BTreeSet<String>,
    /// Wheels, casters and seats that were taken away, by their full names, and whether it is one that rolls.
    pub off: BTreeMap<SmolStr, bool>,
    full: bool,
}

impl<'a, 'p> Declare<'a, 'p> {
    pub(crate) fn new(problems: &'p mut Problems, priced: &'p BTreeSet<String>) -> Declare<'a, 'p> {
        Declare {
            scope: Scope::default(),
            problems,
            pending: Vec::new(),
            used: BTreeSet::new(),
            without: Vec::new(),
            open: Vec::new(),
            priced,
            off: BTreeMap::new(),
            full: false,
        }
    }

    /// Takes in the assemblies of one text; they may be fitted before they are described.
    pub(crate) fn assemblies(&mut self, entries: &'a [Entry]) {
        for entry in entries.iter().filter(|e| says(&e.keyword, "assembly")) {
            let Some((name, span)) = declared_name(entry) else { continue };
            if let Some(first) = self.scope.assemblies.get(&name) {
                let first = first.head;
                self.twice(format!("there are two assemblies `{name}`"), span, first);
                continue;
            }
            self.scope.assemblies.insert(name, entry);
        }
    }

    /// Takes in one text, `level` forks away from the plan itself.
    pub(crate) fn file(&mut self, entries: &'a [Entry], own: bool, level: u8) {
        let context = Context { room: RoomId::ROOT, stands: Stands::Text, own, level, depth: 0 };
        if level > 0 && own {
            self.ancestor(entries);
        }
        for entry in entries {
            self.entry(entry, context);
        }
    }

    /// The head of a plan that this one is made from goes into the trail, not into the design.
    fn ancestor(&mut self, entries: &'a [Entry]) {
        let find = |word: &str| entries.iter().find(|e| says(&e.keyword, word));
        let Some((name, _)) = find("design").and_then(declared_name) else { return };
        self.scope.ancestors.push(Ancestor {
            name: name.to_string(),
            revision: find("revision").and_then(|e| e.subject.as_ref()).map(crate::build::plain),
            licence: find("licence").and_then(|e| text_of(e.subject.as_ref())).map(str::to_owned),
        });
    }

    /// A name written with a hyphen is reported once, where it is declared; its halves are not missing.
    pub(crate) fn hyphened(&mut self, texts: &[crate::Text<'a>]) {
        fn halves(expr: &chairwright_syntax::Expr, out: &mut BTreeSet<SmolStr>) {
            match &expr.kind {
                ExprKind::Binary(chairwright_syntax::Binary::Minus, l, r) => {
                    halves(l, out);
                    halves(r, out);
                }
                ExprKind::Name(path) => out.extend(path.words.iter().map(|w| w.text.clone())),
                _ => {}
            }
        }
        fn walk(entries: &[Entry], out: &mut BTreeSet<SmolStr>) {
            for entry in entries {
                let named = statement_spec(&keyword(entry)).is_some_and(crate::scope::wants_name);
                if let Some(subject) =
                    entry.subject.as_ref().filter(|s| named && matches!(s.kind, ExprKind::Binary(..)))
                {
                    halves(subject, out);
                }
                walk(entry.block.as_ref().map_or(&[], |b| b.entries.as_slice()), out);
            }
        }
        for text in texts.iter().filter(|t| t.own) {
            walk(text.entries, &mut self.scope.spoilt);
        }
    }

    pub(crate) fn say(&mut self, problem: Diagnostic) {
        self.problems.push(problem);
    }

    fn twice(&mut self, headline: String, again: Span, first: Span) {
        self.say(
            Diagnostic::new("taken-name", headline)
                .at(again, "again here")
                .also(first, "first given here")
                .help("give one of them another name"),
        );
    }

    pub(crate) fn entry(&mut self, entry: &'a Entry, context: Context) {
        let word = keyword(entry);
        if let (Some(spec), Some(name)) = (entry_spec(&word), text_of(entry.subject.as_ref()))
            && entry.value.is_none()
            && (entry.block.is_some() || !matches!(spec.keyword, "profile" | "fit_rules"))
        {
            return self.catalogue(spec.keyword, name, entry, context);
        }
        let Some(spec) = statement_spec(&word) else { return self.unknown_word(entry) };
        if !self.may_stand(entry, spec, context) || self.taken_away(entry, context) || self.too_many(entry) {
            return;
        }
        let head = ["design", "licence", "revision", "units", "prices"].contains(&spec.keyword);
        if context.level > 0 && head {
            return;
        }
        match spec.keyword {
            "both" => return self.both(entry, context),
            "rider" => self.single(entry, context, |s| &mut s.rider),
            "conditions" => self.single(entry, context, |s| &mut s.conditions),
            "profile" => self.single(entry, context, |s| &mut s.profile),
            "fit_rules" => self.single(entry, context, |s| &mut s.fit_rules),
            // another chair was measured there
            "as_built" if context.level > 0 => return,
            "as_built" => self.single(entry, context, |s| &mut s.as_built),
            "baseline" => self.single(entry, context, |s| &mut s.baseline),
            "measured" => self.scope.measured.push(entry),
            // a state of the plan that this one is made from comes along, unless this one has its own of that name
            "state" if context.level > 0 && self.has_state(entry) => return,
            "state" => self.variation(entry, spec.keyword),
            "variant" if context.level == 0 => self.variation(entry, spec.keyword),
            // that is another chair than this one
            "variant" => return,
            "fork" => self.scope.forks.push(entry),
            "repeat" | "when" => self.pending.push(Pending { entry, context }),
            _ => {}
        }
        self.once(entry, spec, context);
        if let Some(kind) = DeclKind::of(spec.keyword) {
            self.name(kind, entry, context.room);
        }
        let ghost = self.scope.room(context.room).ghost;
        self.scope.placed.push(Placed { entry, spec, room: context.room, own: context.own, ghost });
        if spec.keyword == "fit" {
            self.fit(entry, context);
        }
    }

    fn may_stand(&mut self, entry: &Entry, spec: &StatementSpec, context: Context) -> bool {
        let word = spec.keyword;
        let good = match context.stands {
            Stands::Text => spec.stands != Stands::Assembly,
            Stands::Inside => matches!(spec.stands, Stands::Inside | Stands::Anywhere),
            Stands::Anywhere => spec.stands == Stands::Anywhere,
            Stands::Assembly => spec.stands != Stands::Text,
        };
        let two_sides = word == "both" && self.scope.side(context.room).is_some();
        if good && !two_sides {
            return true;
        }
        let (headline, label, help) = match context.stands {
            Stands::Text => (
                format!("`{word}` stands in an assembly"),
                "there is none here",
                "write assembly NAME { … } around it",
            ),
            Stands::Anywhere => (
                format!("`{word}` cannot stand inside both sides"),
                "it has no left and right",
                "move it out of the block",
            ),
            _ if two_sides => (
                "both sides cannot stand on one side".to_owned(),
                "this is already left or right",
                "move it out of the block",
            ),
            _ => (
                format!("`{word}` cannot stand inside a block"),
                "it belongs to the whole design",
                "move it out of the block",
            ),
        };
        self.say(Diagnostic::new("misplaced-statement", headline).at(entry.keyword.span, label).help(help));
        false
    }

    /// Whether a state or a fork does without this.
    fn taken_away(&mut self, entry: &Entry, context: Context) -> bool {
        let word = keyword(entry);
        // there is one seat, back and footrest, called by its own word
        let unnamed = || matches!(word.as_str(), "seat" | "back" | "footrest").then(|| word.clone());
        let Some(name) = declared_name(entry).map(|(n, _)| n).or_else(unnamed) else { return false };
        let full = self.scope.full(context.room, &name);
        let mut gone = false;
        for (without, _, met) in &mut self.without {
            let sided = full.split_once('.').filter(|(s, _)| matches!(*s, "left" | "right")).map(|(_, n)| n);
            if *without == full || sided == Some(without.as_str()) {
                *met = true;
                gone = true;
                if matches!(word.as_str(), "wheel" | "caster" | "seat") {
                    self.off.insert(full.clone(), word != "seat");
                }
            }
        }
        gone
    }

    /// Whether nobody rides what is left: a seat is taken away, or wheels with what stands across from them, or so many that it
    /// no longer stands on wheels. One wheel of a pair, or one that stands alone, is lost or forgotten, and how the chair stands
    /// without it is looked at.
    pub(crate) fn unridden(&self) -> bool {
        let rolls = |p: &&Placed| matches!(p.spec.keyword, "wheel" | "caster") && !p.ghost;
        let stands = self.scope.placed.iter().filter(rolls).count() >= WHEELS;
        self.off.iter().any(|(name, rolls)| !rolls || !stands || self.off.contains_key(&across(name)))
    }

    fn too_many(&mut self, entry: &Entry) -> bool {
        if self.scope.placed.len() < STATEMENTS_IN_ALL {
            return false;
        }
        if !self.full {
            self.full = true;
            self.say(
                Diagnostic::new("too-large", "this design comes to too many statements")
                    .at(entry.keyword.span, "one too many")
                    .note(format!("the limit is {STATEMENTS_IN_ALL}, repetitions counted out"))
                    .help("let the repetitions run less often"),
            );
        }
        true
    }

    fn both(&mut self, entry: &'a Entry, context: Context) {
        let named_sides =
            matches!(entry.subject.as_ref().map(|s| &s.kind), Some(ExprKind::Name(p)) if p.text() == "sides");
        if !named_sides {
            self.say(
                Diagnostic::new("unknown-word", "`both` opens `both sides { … }`")
                    .at(entry.keyword.span, "write both sides"),
            );
        }
        for side in [Side::Left, Side::Right] {
            let room = self.side_room(context.room, side);
            for entry in inner(entry) {
                self.entry(entry, Context { room, stands: Stands::Anywhere, ..context });
            }
        }
    }

    fn side_room(&mut self, outer: RoomId, side: Side) -> RoomId {
        let prefix = self.scope.full(outer, &format!("{}.", side.word()));
        if let Some(at) = self.scope.rooms.iter().position(|r| r.outer == outer && r.prefix == prefix) {
            return RoomId(u32::try_from(at).unwrap_or(0));
        }
        let ghost = self.scope.room(outer).ghost;
        self.add_room(Room { prefix, side: Some(side), outer, base: outer, ghost, ..Room::default() })
    }

    pub(crate) fn add_room(&mut self, room: Room<'a>) -> RoomId {
        self.scope.rooms.push(room);
        RoomId(u32::try_from(self.scope.rooms.len() - 1).unwrap_or(0))
    }

    /// A block of which the design has one; that of the plan itself takes the place of a forked plan's.
    fn single(
        &mut self,
        entry: &'a Entry,
        context: Context,
        slot: impl for<'s> Fn(&'s mut Scope<'a>) -> &'s mut Option<&'a Entry>,
    ) {
        let slot = slot(&mut self.scope);
        match slot {
            Some(first) if !std::ptr::eq(*first, entry) && context.level == 0 => {
                let problem =
                    Diagnostic::new("taken-name", format!("a second `{}` block", entry.keyword.text()))
                        .at(entry.keyword.span, "again here")
                        .also(first.keyword.span, "first given here")
                        .help("keep one of them");
                self.say(problem);
            }
            Some(_) => {}
            None => *slot = Some(entry),
        }
    }

    /// Statements of which one design has one, and blocks where none is read.
    fn once(&mut self, entry: &'a Entry, spec: &'static StatementSpec, context: Context) {
        let head = ["design", "licence", "revision", "units"].contains(&spec.keyword);
        let same = |p: &&Placed| {
            p.own == context.own && p.room == context.room && p.spec.keyword == spec.keyword && !p.ghost
        };
        let again = |p: &&Placed| head || (spec.keyword == "close" && same_subject(p.entry, entry));
        if (head || spec.keyword == "close")
            && let Some(first) = self.scope.placed.iter().filter(same).find(again)
        {
            let problem = Diagnostic::new("given-twice", format!("a second `{}`", spec.keyword))
                .at(entry.head, "again here")
                .also(first.entry.head, "first given here")
                .help("keep one of them");
            self.say(problem);
        }
        let with_block = [
            "rider",
            "conditions",
            "as_built",
            "baseline",
            "both",
            "variant",
            "state",
            "measured",
            "assembly",
            "fit",
            "repeat",
            "when",
            "fork",
        ];
        if let Some(block) = &entry.block
            && !with_block.contains(&spec.keyword)
        {
            let problem = Diagnostic::new("unknown-clause", format!("`{}` takes no block", spec.keyword))
                .at(block.span, "this would not be read")
                .help(format!("for example: {}", spec.shape));
            self.say(problem);
        }
    }

    fn has_state(&self, entry: &Entry) -> bool {
        declared_name(entry).is_some_and(|(name, _)| self.scope.states.contains_key(&name))
    }

    fn variation(&mut self, entry: &'a Entry, word: &'static str) {
        let Some((name, span)) = declared_name(entry) else { return };
        let map = if word == "state" { &mut self.scope.states } else { &mut self.scope.variants };
        if let Some(first) = map.get(&name).map(|f| f.head) {
            return self.twice(format!("there are two {word}s `{name}`"), span, first);
        }
        map.insert(name, entry);
    }

    fn catalogue(&mut self, keyword: &'static str, name: &str, entry: &'a Entry, context: Context) {
        let key = (keyword, fold(name));
        if let Some(first) = self.scope.entries.get(&key) {
            // the page of allowances comes in by itself and last: whoever has an entry of his own means it
            if keyword == "allowance" && !context.own {
                self.scope.replaced.push((*first, entry));
                return;
            }
            // a fork describes its own parts in place of the forked plan's
            if context.level == 0 {
                let shipped = !self.scope.own_entries.iter().any(|(_, e)| std::ptr::eq(*e, *first));
                let (old, new) =
                    if shipped || context.own { (first.head, entry) } else { (entry.head, *first) };
                let span = new.subject.as_ref().map_or(new.head, |s| s.span);
                let problem = Diagnostic::new("taken-name", format!("there is already a {keyword} \"{name}\""))
                    .at(span, "again here")
                    .also(old, "first given here")
                    .help(format!("to correct some of its figures write measured \"{name}\" {{ … }}"));
                self.say(problem);
            }
            return;
        }
        self.scope.entries.insert(key, entry);
        if context.own {
            self.scope.own_entries.push((keyword, entry));
        }
    }

    fn name(&mut self, kind: DeclKind, entry: &'a Entry, room: RoomId) {
        let Some((name, span)) = declared_name(entry) else { return };
        if let Some(problem) = reserved_name(&name, span) {
            self.say(problem);
        }
        let full = self.scope.full(room, &name);
        let inside = self.scope.room(room).argument(&name).is_some();
        if let Some(first) = self.scope.names.get(&full).map(|f| f.name_span) {
            return self.twice(format!("`{full}` is declared twice"), span, first);
        }
        if inside {
            return self.twice(format!("`{name}` is given to this assembly"), span, span);
        }
        self.scope.names.insert(full, Decl { kind, entry, room, name_span: span });
    }

    fn unknown_word(&mut self, entry: &Entry) {
        let word = entry.keyword.text();
        let spellings = chairwright_design::SPELLINGS.iter().map(|(w, _)| *w);
        let keywords = STATEMENTS.iter().map(|s| s.keyword).chain(ENTRIES.iter().map(|e| e.keyword));
        let mut problem = Diagnostic::new("unknown-word", format!("`{word}` opens no statement"))
            .at(entry.keyword.span, "not a statement");
        let hint = NEARLY_STATEMENTS.iter().find(|(w, _)| *w == word).map(|(_, meant)| *meant);
        let near = hint
            .or_else(|| nearest(&word, keywords))
            .or_else(|| nearest(&word, spellings.filter(|s| statement_spec(s).is_some())));
        if let Some(meant) = near {
            problem = problem.help(format!("did you mean {meant}?")).edit(entry.keyword.span, meant);
        } else if value(entry).is_some() {
            problem = problem.help(format!(
                "to give a value a name write let {word} = …, or param {word} = … if it may vary"
            ));
        } else {
            let start = Span { end: entry.keyword.span.start, ..entry.keyword.span };
            problem = problem.help("to keep the line as a remark, write // in front of it").edit(start, "// ");
        }
        self.say(problem);
    }
}

/// What stands across the chair from something, by its name; nothing where it has no side.
fn across(name: &str) -> SmolStr {
    let mut words: Vec<&str> = name.split('.').collect();
    if let Some(side) = words.iter_mut().find(|w| matches!(**w, "left" | "right")) {
        *side = if *side == "left" { "right" } else { "left" };
    } else {
        return SmolStr::default();
    }
    words.join(".").into()
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
    } else if matches!(name, "rider" | "conditions" | "catalogue" | "profile" | "occupant" | "place") {
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
