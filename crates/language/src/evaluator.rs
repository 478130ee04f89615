//! The state of one evaluation: what is declared, what was overridden, what is known so far.

use crate::room::RoomId;
use crate::scope::{DeclKind, Scope};
use crate::value::{Type, Value};
use chairwright_design::Vec3;
use chairwright_diagnostics::{Diagnostic, Problems, Span};
use indexmap::IndexMap;
use smol_str::SmolStr;
use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};

/// Steps of evaluation that one design may take.
const WORK: u64 = 2_000_000;

/// Names inside names inside names, before it is refused.
const NESTING: u32 = 200;

/// Where an expression stands.
#[derive(Clone, Default)]
pub(crate) struct Env {
    pub room: RoomId,
    /// Whether computed figures may be used.
    pub figures: bool,
    /// Whether the rider and the place are meant as they are that day, and not as the chair was drawn for them.
    pub day: bool,
    /// Arguments of the function being applied.
    pub arguments: Vec<(SmolStr, Type, Option<Value>)>,
}

impl Env {
    pub(crate) fn on(room: RoomId) -> Env {
        Env { room, ..Env::default() }
    }
}

/// Whether a name is being worked out or is known.
#[derive(Clone)]
pub(crate) enum Memo<T> {
    Working,
    Known(Option<T>),
}

/// One evaluation of one variant.
pub(crate) struct Evaluator<'a> {
    pub scope: &'a Scope<'a>,
    pub types: RefCell<IndexMap<SmolStr, Memo<Type>>>,
    pub values: RefCell<IndexMap<SmolStr, Memo<Value>>>,
    /// Where the steps of each room begin.
    pub origins: RefCell<IndexMap<RoomId, Vec3>>,
    pub problems: RefCell<Problems>,
    /// Values of computed figures, once there are any.
    pub figures: Option<&'a BTreeMap<String, chairwright_quantity::Quantity>>,
    /// Folded keys of the price book.
    pub priced: Option<&'a BTreeSet<String>>,
    /// What was assumed.
    pub assumptions: RefCell<Vec<String>>,
    /// What kind of name is looked up, for the help when there is none.
    pub wanted: Cell<Option<DeclKind>>,
    /// The field of a block whose value is being checked.
    pub field: Cell<&'static str>,
    /// The word of the statement being checked.
    pub keyword: Cell<&'static str>,
    /// The statement being worked on.
    pub statement: Cell<Option<Span>>,
    /// The tolerances of which an end is taken for the middle.
    pub nudges: &'a [crate::choice::Nudge],
    /// Whether tolerances stay at their middle, as in what the chair is drawn from.
    pub still: Cell<bool>,
    /// Every value with a tolerance that was made use of, by its place: its middle and half its width.
    pub tolerances: RefCell<BTreeMap<Span, [chairwright_quantity::Quantity; 2]>>,
    /// The day that nothing was measured after, where it is known.
    pub today: Option<&'a str>,
    work: Cell<u64>,
    nesting: Cell<u32>,
}

impl<'a> Evaluator<'a> {
    pub(crate) fn new(scope: &'a Scope<'a>, priced: Option<&'a BTreeSet<String>>) -> Evaluator<'a> {
        Evaluator {
            scope,
            types: RefCell::default(),
            values: RefCell::default(),
            problems: RefCell::default(),
            figures: None,
            priced,
            origins: RefCell::default(),
            assumptions: RefCell::default(),
            wanted: Cell::new(None),
            field: Cell::new(""),
            keyword: Cell::new(""),
            statement: Cell::new(None),
            nudges: &[],
            still: Cell::new(false),
            tolerances: RefCell::default(),
            today: None,
            work: Cell::new(0),
            nesting: Cell::new(0),
        }
    }

    /// The end that is taken for the middle of a value at this place.
    pub(crate) fn nudge(&self, at: Span) -> Option<&'a crate::choice::Nudge> {
        self.nudges.iter().find(|n| n.at == at && !self.still.get())
    }

    /// Whether the price book sells this.
    pub(crate) fn is_priced(&self, name: &str) -> bool {
        self.priced.is_some_and(|p| p.contains(&crate::scope::fold(name)))
    }

    pub(crate) fn say(&self, problem: Diagnostic) {
        self.problems.borrow_mut().push(problem);
    }

    /// Counts one step; false once the bound is passed, which is reported once.
    pub(crate) fn step(&self, span: Span) -> bool {
        let work = self.work.get() + 1;
        self.work.set(work);
        if work == WORK {
            self.say(
                Diagnostic::new("too-much-work", "this design takes too many steps to work out")
                    .at(self.statement.get().unwrap_or(span), "reached while working this out")
                    .note(format!("the limit is {WORK} steps"))
                    .help("look for functions that apply each other many times"),
            );
        }
        work < WORK
    }

    /// Runs `inner` one level deeper, or refuses.
    pub(crate) fn deeper<T>(&self, span: Span, inner: impl FnOnce() -> Option<T>) -> Option<T> {
        let depth = self.nesting.get();
        if depth >= NESTING {
            if depth == NESTING && self.step(span) {
                self.say(
                    Diagnostic::new("too-deep", "names lead to names too many times over here")
                        .at(span, "reached here")
                        .note(format!("the limit is {NESTING} names that depend on each other in a row")),
                );
            }
            return None;
        }
        self.nesting.set(depth + 1);
        let result = inner();
        self.nesting.set(depth);
        result
    }
}
