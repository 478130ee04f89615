//! What is declared: which names exist, what each stands for, and in which room.

use crate::fields::{CONDITIONS, RIDER};
use crate::room::{Argument, Room, RoomId};
use crate::schema::{StatementSpec, Subject};
use crate::words::usual;
use chairwright_design::{GivenBy, Side};
use chairwright_diagnostics::Span;
use chairwright_syntax::{Entry, Expr, ExprKind};
use indexmap::IndexMap;
use smol_str::{SmolStr, format_smolstr};
use std::collections::BTreeSet;

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
    Armrest,
    Wheel,
    Caster,
    Item,
    Hole,
    Load,
    Carried,
    Group,
}

impl DeclKind {
    pub(crate) fn of(keyword: &str) -> Option<DeclKind> {
        Some(match keyword {
            "param" | "adjust" => DeclKind::Param,
            "let" => DeclKind::Let,
            "stock" => DeclKind::Stock,
            "part" => DeclKind::Part,
            "joint" => DeclKind::Joint,
            "member" => DeclKind::Member,
            "panel" => DeclKind::Panel,
            "box" => DeclKind::Box,
            "armrest" => DeclKind::Armrest,
            "wheel" => DeclKind::Wheel,
            "caster" => DeclKind::Caster,
            "brake" | "axle" | "item" => DeclKind::Item,
            "hole" => DeclKind::Hole,
            "load" => DeclKind::Load,
            "carry" => DeclKind::Carried,
            "fit" | "repeat" => DeclKind::Group,
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
            DeclKind::Armrest => "an armrest",
            DeclKind::Wheel => "a wheel",
            DeclKind::Caster => "a caster",
            DeclKind::Item => "an item",
            DeclKind::Hole => "a hole",
            DeclKind::Load => "a load",
            DeclKind::Carried => "something carried",
            DeclKind::Group => "a fitted assembly or a repetition",
        }
    }
}

/// A declared name.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Decl<'a> {
    pub kind: DeclKind,
    pub entry: &'a Entry,
    pub room: RoomId,
    pub name_span: Span,
}

/// A statement in its place.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Placed<'a> {
    pub entry: &'a Entry,
    pub spec: &'static StatementSpec,
    pub room: RoomId,
    /// Whether the text is the builder's own rather than a shipped page.
    pub own: bool,
    /// Looked through for mistakes, and not built.
    pub ghost: bool,
}

/// A value that takes the place of a name's own.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Given<'a> {
    pub value: &'a Expr,
    /// The line that says it, where it is one of its own.
    pub line: Option<&'a Entry>,
    /// Where its own names are looked for.
    pub room: RoomId,
    /// Who gave it.
    pub by: GivenBy,
    /// How near whoever gave it is: the command line is 0, and the nearest counts.
    pub layer: u8,
}

/// An assembly fitted somewhere.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Fitted<'a> {
    pub entry: &'a Entry,
    pub assembly: &'a Entry,
    /// The room of the one who fitted it.
    pub from: RoomId,
    /// Its own room.
    pub room: RoomId,
}

/// A plan that this one is made from.
#[derive(Clone, Default, Debug)]
pub(crate) struct Ancestor {
    pub name: String,
    pub revision: Option<String>,
    pub licence: Option<String>,
}

/// Finds the shipped page that an entry is on, by its keyword and folded name.
pub type Shelf = fn(&str, &str) -> Option<&'static str>;

/// Everything that is declared.
#[derive(Clone, Debug)]
pub(crate) struct Scope<'a> {
    pub rooms: Vec<Room<'a>>,
    pub names: IndexMap<SmolStr, Decl<'a>>,
    pub placed: Vec<Placed<'a>>,
    /// Catalogue entries by keyword and folded name.
    pub entries: IndexMap<(&'static str, String), &'a Entry>,
    /// Those of them that the builder wrote; the shipped pages are checked by the tests.
    pub own_entries: Vec<(&'static str, &'a Entry)>,
    pub measured: Vec<&'a Entry>,
    /// Allowances of the builder's own, each with the shipped one that it stands in for.
    pub replaced: Vec<(&'a Entry, &'a Entry)>,
    pub rider: Option<&'a Entry>,
    pub conditions: Option<&'a Entry>,
    pub profile: Option<&'a Entry>,
    pub fit_rules: Option<&'a Entry>,
    pub as_built: Option<&'a Entry>,
    pub baseline: Option<&'a Entry>,
    pub variants: IndexMap<SmolStr, &'a Entry>,
    pub states: IndexMap<SmolStr, &'a Entry>,
    pub assemblies: IndexMap<SmolStr, &'a Entry>,
    pub fitted: Vec<Fitted<'a>>,
    pub given: IndexMap<SmolStr, Given<'a>>,
    /// What the state says of the rider and the place, by `rider.…` and `conditions.…`: true that day, and not what the chair was
    /// drawn for.
    pub stated: IndexMap<SmolStr, Given<'a>>,
    /// Finds the shipped page that an entry is on.
    pub shelf: Option<Shelf>,
    /// Words of lines that could not be read.
    pub spoilt: BTreeSet<SmolStr>,
    pub forks: Vec<&'a Entry>,
    pub ancestors: Vec<Ancestor>,
}

impl Default for Scope<'_> {
    fn default() -> Self {
        Scope {
            rooms: vec![Room::default()],
            names: IndexMap::new(),
            placed: Vec::new(),
            entries: IndexMap::new(),
            own_entries: Vec::new(),
            measured: Vec::new(),
            replaced: Vec::new(),
            rider: None,
            conditions: None,
            profile: None,
            fit_rules: None,
            as_built: None,
            baseline: None,
            variants: IndexMap::new(),
            states: IndexMap::new(),
            assemblies: IndexMap::new(),
            fitted: Vec::new(),
            given: IndexMap::new(),
            stated: IndexMap::new(),
            shelf: None,
            spoilt: BTreeSet::new(),
            forks: Vec::new(),
            ancestors: Vec::new(),
        }
    }
}

/// What a written name leads to.
#[derive(Clone)]
pub(crate) enum Found<'a> {
    /// A declaration, by its full name.
    Name(SmolStr),
    /// What an assembly was given, or the number of a turn, and what was written behind it.
    Argument(Argument<'a>, Option<SmolStr>),
}

impl<'a> Scope<'a> {
    pub(crate) fn room(&self, id: RoomId) -> &Room<'a> {
        &self.rooms[id.0 as usize]
    }

    pub(crate) fn side(&self, id: RoomId) -> Option<Side> {
        self.room(id).side
    }

    /// The full name of what is declared as `name` in this room.
    pub(crate) fn full(&self, room: RoomId, name: &str) -> SmolStr {
        let prefix = &self.room(room).prefix;
        if prefix.is_empty() { name.into() } else { format_smolstr!("{prefix}{name}") }
    }

    /// What was chosen for a name, by whoever is nearest.
    pub(crate) fn chosen(&self, name: &str) -> Option<&Given<'a>> {
        self.given.get(name).into_iter().chain(self.stated.get(name)).min_by_key(|g| g.layer)
    }

    /// Where the first value that was chosen of a block stands.
    pub(crate) fn chosen_of(&self, base: &str) -> Option<Span> {
        let of = |name: &SmolStr| name.strip_prefix(base).is_some_and(|rest| rest.starts_with('.'));
        self.given.iter().chain(&self.stated).find(|(name, _)| of(name)).map(|(_, g)| g.value.span)
    }

    /// Looks a written name up, from a room outward.
    pub(crate) fn find(&self, text: &str, mut id: RoomId) -> Option<Found<'a>> {
        let (first, rest) = match text.split_once('.') {
            Some((first, rest)) => (first, Some(rest)),
            None => (text, None),
        };
        loop {
            let room = self.room(id);
            if let Some(argument) = room.argument(first) {
                return Some(Found::Argument(argument, rest.map(SmolStr::new)));
            }
            let full = self.full(id, text);
            if self.names.contains_key(&full) {
                return Some(Found::Name(full));
            }
            if id == RoomId::ROOT {
                return None;
            }
            id = room.outer;
        }
    }

    /// Whether a name may be declared in a line that could not be read, which is already reported.
    pub(crate) fn is_spoilt(&self, text: &str) -> bool {
        text.split('.').any(|word| self.spoilt.contains(word))
    }

    /// Every name that can be written in a room, for "did you mean".
    pub(crate) fn reachable(&self, mut id: RoomId) -> Vec<SmolStr> {
        let mut known: Vec<SmolStr> = self.names.keys().filter(|k| !k.starts_with('~')).cloned().collect();
        while id != RoomId::ROOT {
            let room = self.room(id);
            known.extend(room.arguments.iter().map(|(n, _)| n.clone()));
            known.extend(
                self.names.keys().filter_map(|k| k.strip_prefix(room.prefix.as_str())).map(SmolStr::new),
            );
            id = room.outer;
        }
        known
    }
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

/// Whether a statement's subject must be a new name.
pub(crate) fn wants_name(spec: &StatementSpec) -> bool {
    spec.subject == Subject::NewName
}

/// Keys of the rider's and the conditions' blocks.
pub(crate) fn block_fields(base: &str) -> Option<(&'static str, &'static [crate::fields::Field])> {
    match usual(base).as_str() {
        "rider" => Some(("rider", RIDER)),
        "conditions" => Some(("conditions", CONDITIONS)),
        "profile" => crate::fields::entry_spec("profile").map(|e| ("profile", e.fields)),
        _ => None,
    }
}
