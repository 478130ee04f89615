//! What stands around the wheels, in the drawing's axes: a rigid turn onto the ground changes no gap.

use crate::clear::convex::{Convex, convex};
use chairwright_design::{Design, ItemKind, Shape, SupportKind};
use chairwright_frame::{Body, Frame, Group};

/// What an obstacle counts as.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Kind {
    Frame,
    Footrest,
    /// Another support, a cushion, a part.
    On,
    /// A band or cloth, which gives way.
    Soft,
    Brake,
    /// Goes with its wheel.
    Axle,
}

/// Something that stands still beside the wheels.
#[derive(Clone, Debug)]
pub(crate) struct Thing<'f> {
    pub name: &'f str,
    pub kind: Kind,
    pub parts: Vec<Convex>,
}

/// Everything of the chair but its wheels and casters.
pub(crate) fn things<'f>(design: &Design, frame: &'f Frame) -> Vec<Thing<'f>> {
    let still = |b: &&Body| !matches!(b.group, Group::Wheel | Group::Caster) && !b.solids.is_empty();
    frame
        .bodies
        .iter()
        .filter(still)
        .map(|b| {
            let parts = b.solids.iter().flat_map(convex).collect();
            Thing { name: &b.name, kind: kind(design, b), parts }
        })
        .collect()
}

fn kind(design: &Design, body: &Body) -> Kind {
    match body.group {
        Group::Frame => Kind::Frame,
        Group::Support => {
            let of = |name: &str| {
                body.name.strip_prefix(name).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
            };
            match design.supports.iter().find(|s| of(&s.name)) {
                Some(s) if s.kind == SupportKind::Footrest => Kind::Footrest,
                Some(s) if matches!(design.stocks[s.stock].shape, Shape::Webbing { .. }) => Kind::Soft,
                _ => Kind::On,
            }
        }
        _ => match design.items.iter().find(|i| i.name == body.name).map(|i| i.kind) {
            Some(ItemKind::Brake) => Kind::Brake,
            Some(ItemKind::Axle | ItemKind::Receiver) => Kind::Axle,
            Some(_) => Kind::On,
            None => Kind::Soft,
        },
    }
}
