//! Rooms: where names live. The text itself is the first; each side, each fitted assembly and each
//! turn of a repetition is one more inside another.

use chairwright_design::Side;
use chairwright_syntax::Expr;
use smol_str::SmolStr;

/// Id of a room.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Debug)]
pub(crate) struct RoomId(pub u32);

impl RoomId {
    /// The text itself.
    pub(crate) const ROOT: RoomId = RoomId(0);
}

/// What a name inside a room stands for outside of it.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Argument<'a> {
    /// An expression, read in the room of whoever gave it.
    Given(&'a Expr, RoomId),
    /// The number of the turn.
    Turn(i64),
    /// Nobody gave it; the assembly is only looked through for mistakes.
    Nothing,
}

/// Where a room's own origin lies.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stand<'a> {
    /// A place, in the room of whoever fitted the assembly.
    pub at: &'a [Expr],
    pub room: RoomId,
}

/// One room.
#[derive(Clone, Debug, Default)]
pub(crate) struct Room<'a> {
    /// What stands before the names that are declared in it: `left.drive.`.
    pub prefix: SmolStr,
    /// The side it lies on.
    pub side: Option<Side>,
    /// Where names are looked for next.
    pub outer: RoomId,
    /// Names that stand for something outside.
    pub arguments: Vec<(SmolStr, Argument<'a>)>,
    /// The room whose origin it shares, unless it stands elsewhere.
    pub base: RoomId,
    /// Whether it is only looked through for mistakes.
    pub ghost: bool,
    /// Where its steps begin, if not where those of the base do.
    pub stand: Option<Stand<'a>>,
}

impl<'a> Room<'a> {
    pub(crate) fn argument(&self, name: &str) -> Option<Argument<'a>> {
        self.arguments.iter().find(|(n, _)| n == name).map(|(_, a)| *a)
    }
}
