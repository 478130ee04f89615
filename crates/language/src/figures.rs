//! The names that computed figures have, so that a requirement can be checked before anything is
//! computed.

use chairwright_quantity::Dimension;

/// One figure, or a family of them whose last words are names from the design.
#[derive(Clone, Copy, Debug)]
pub struct FigureSpec {
    /// The dotted name; a `*` stands for one or more words.
    pub name: &'static str,
    /// Its dimension; `None` for money, whose currency the price book says.
    pub dimension: Option<Dimension>,
    /// What it is.
    pub doc: &'static str,
}

const fn f(name: &'static str, dimension: Dimension, doc: &'static str) -> FigureSpec {
    FigureSpec { name, dimension: Some(dimension), doc }
}

const L: Dimension = Dimension::LENGTH;
const A: Dimension = Dimension::ANGLE;
const M: Dimension = Dimension::MASS;
const N: Dimension = Dimension::NUMBER;

/// Every figure.
pub const FIGURES: &[FigureSpec] = &[
    f("mass.frame", M, "members, fittings, panels, boxes and their fasteners"),
    f("mass.chair", M, "everything that is built or bought, without the rider"),
    f("mass.rider", M, "the rider as declared"),
    f("mass.total", M, "chair and rider"),
    f("mass.wheels.rear", M, "the rear wheels together"),
    f("com.chair.ahead", L, "centre of mass of the empty chair ahead of the rear axle"),
    f("com.chair.height", L, "centre of mass of the empty chair above the ground"),
    f("com.total.ahead", L, "centre of mass of chair and rider ahead of the rear axle"),
    f("com.total.height", L, "centre of mass of chair and rider above the ground"),
    f("com.total.left", L, "centre of mass of chair and rider to the left of the middle"),
    f("load.rear.share", N, "share of the weight on the rear wheels"),
    f("load.caster.share", N, "share of the weight on the casters"),
    f("seat.angle", A, "seat plane against the ground, front higher is positive"),
    f("seat.height.front", L, "front edge of the seat above the ground, without cushion"),
    f("seat.height.rear", L, "rear edge of the seat above the ground, without cushion"),
    f("seat.width", L, "width of the seat"),
    f("seat.depth", L, "rear edge to front edge of the seat"),
    f("back.angle", A, "back support against the seat"),
    f("back.height", L, "length of the back support along itself"),
    f("footrest.clearance", L, "lowest point of the foot support above the ground"),
    f("camber.left", A, "lean of the left rear wheel on the ground, top inward is positive"),
    f("camber.right", A, "lean of the right rear wheel on the ground, top inward is positive"),
    f("toe.left", A, "left rear wheel seen from above, toe-out is positive"),
    f("toe.right", A, "right rear wheel seen from above, toe-out is positive"),
    f("wheelbase", L, "rear axle line to caster axles, casters trailing"),
    f("track", L, "between the ground contacts of the rear wheels"),
    f("track.front", L, "between the ground contacts of the casters, casters trailing"),
    f("width.overall", L, "greatest width, push rims and tyres included"),
    f("length.overall", L, "greatest length, casters trailing, without feet"),
    f("height.overall", L, "greatest height, without rider"),
    f("clearance.ground", L, "lowest part of the frame above the ground"),
    f("pitch", A, "turn of the drawing on its wheels, nose up is positive"),
    f("roll", A, "sideways turn of the drawing on its wheels, left side up is positive"),
    f("rock", L, "gap under the wheel that does not touch"),
    f("stem.lean.*", A, "caster stem against the vertical"),
    f("caster.trail.*", L, "caster ground contact behind the stem axis, on the ground"),
    f("tip.rear.locked", A, "slope that tips the chair backward, rear wheels locked"),
    f("tip.rear.free", A, "slope that tips the chair backward, rear wheels free to turn"),
    f("tip.forward.locked", A, "slope that tips the chair forward, casters in their worst swivel"),
    f("tip.forward.free", A, "the same about the caster axles, caster wheels free to turn"),
    f("tip.left", A, "slope that tips the chair to its left, worst caster swivel"),
    f("tip.right", A, "slope that tips the chair to its right, worst caster swivel"),
    f("tip.side", A, "the lesser of tip.left and tip.right"),
    f("strength.worst", N, "greatest use of any part: demand over what it may bear, cautious side"),
    f("strength.*", N, "the same of one member, joint or fastening"),
    f("drop.factor", N, "peak over static load in a drop of 50 mm"),
    f("give.seat", L, "how far chair and tyres give way under the rider"),
    f("sag.seat", L, "lasting sag of the seat between the ends of its rails"),
    f("buckling.factor", N, "how many riders until the frame gives way sideways"),
    f("length.*", L, "centre to centre length of a member"),
    f("cut.*", L, "cut length of one piece"),
    f("count.pieces", N, "pieces to cut"),
    f("count.fittings", N, "fittings to buy"),
    f("count.fasteners", N, "fasteners to buy"),
    f("buy.*", N, "sale units to buy of one stock"),
    f("waste.share", N, "share of the bought lengths that becomes offcut or sawdust"),
    FigureSpec { name: "cost.total", dimension: None, doc: "price of everything to buy" },
    FigureSpec { name: "cost.frame", dimension: None, doc: "price of what is cut, fitted and fastened" },
    FigureSpec { name: "cost.parts", dimension: None, doc: "price of the bought parts" },
    f("cost.unpriced", N, "things to buy that have no price"),
];

/// The figure or family that a name belongs to.
#[must_use]
pub fn figure_spec(name: &str) -> Option<&'static FigureSpec> {
    FIGURES.iter().find(|f| match f.name.strip_suffix('*') {
        Some(stem) => name.len() > stem.len() && name.starts_with(stem),
        None => f.name == name,
    })
}
