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
const F: Dimension = Dimension::FORCE;
const MOMENT: Dimension = Dimension::MOMENT;
const SPEED: Dimension = Dimension::SPEED;

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
    f("tip.forward.locked.most", A, "the same as tip.forward.locked, casters in their best swivel"),
    f("tip.forward.free.most", A, "the same as tip.forward.free, casters in their best swivel"),
    f("tip.left.most", A, "the same as tip.left, casters in their best swivel"),
    f("tip.right.most", A, "the same as tip.right, casters in their best swivel"),
    f("tip.side.most", A, "the lesser of tip.left.most and tip.right.most"),
    f("tip.rear.locked.leaning", A, "the same while the rider leans back"),
    f("tip.rear.free.leaning", A, "the same while the rider leans back"),
    f("tip.forward.locked.leaning", A, "the same while the rider leans forward"),
    f("tip.left.leaning", A, "the same while the rider leans to the left"),
    f("tip.right.leaning", A, "the same while the rider leans to the right"),
    f("tip.rear.locked.alone", A, "without what rides along"),
    f("tip.rear.free.alone", A, "without what rides along"),
    f("tip.forward.locked.alone", A, "without what rides along"),
    f("tip.forward.free.alone", A, "without what rides along"),
    f("tip.left.alone", A, "without what rides along"),
    f("tip.right.alone", A, "without what rides along"),
    f("tip.rear.locked.with.*", A, "with one of the things that ride along"),
    f("tip.rear.free.with.*", A, "with one of the things that ride along"),
    f("tip.forward.locked.with.*", A, "with one of the things that ride along"),
    f("tip.forward.free.with.*", A, "with one of the things that ride along"),
    f("tip.left.with.*", A, "with one of the things that ride along"),
    f("tip.right.with.*", A, "with one of the things that ride along"),
    f("tip.any", A, "slope that tips the chair in the worst of all directions, wheels locked"),
    f("direction.tip.any", A, "that direction: the way down, from straight ahead over the left"),
    f("antitip.touch", A, "turn back that puts the anti-tip device on the ground"),
    f("antitip.tip", A, "slope that tips the chair over its anti-tip device"),
    f("com.built.ahead", L, "centre of mass ahead of the rear axle by the tipping test of the built chair"),
    f("com.built.height", L, "centre of mass above the ground by the tipping test of the built chair"),
    f("mass.carried", M, "what rides along, together"),
    f("fit.width.ease", L, "seat wider than the hips"),
    f("fit.depth.gap.left", L, "left thigh longer than the seat"),
    f("fit.depth.gap.right", L, "right thigh longer than the seat"),
    f("fit.back.top", L, "upper edge of the back support above the loaded cushion"),
    f("footrest.drop.left", L, "hollow of the left knee to the foot support"),
    f("footrest.drop.right", L, "hollow of the right knee to the foot support"),
    f("reach.elbow", A, "of both elbow angles the one further from 110 degrees"),
    f("reach.elbow.left", A, "left elbow, hand on top of the push rim; straight is 180 degrees"),
    f("reach.elbow.right", A, "right elbow, hand on top of the push rim; straight is 180 degrees"),
    f("reach.arc.left", A, "part of the left rim that the hand reaches, trunk still"),
    f("reach.arc.right", A, "part of the right rim that the hand reaches, trunk still"),
    f("reach.spread.left", A, "left arm out to the side, hand on top of the rim"),
    f("reach.spread.right", A, "right arm out to the side, hand on top of the rim"),
    f("growth.remeasure", Dimension::TIME, "time until a growing rider is to be measured again"),
    f("pressure.seat.average", Dimension::PRESSURE, "average under the seat; says nothing of peaks or skin"),
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
    f("push.least.*", F, "push on the level on one kind of ground, at least"),
    f("push.most.*", F, "push on the level on one kind of ground, at most"),
    f("push.slope.least", F, "push up the slope of the path on its worst ground, at least"),
    f("push.slope.most", F, "push up the slope of the path on its worst ground, at most"),
    f("push.lift", F, "push along the ground that lifts the casters, on the slope of the path"),
    f("push.lift.held", F, "pull at the push rims that lifts the casters while the wheels are held"),
    f("toe.drag", N, "how many times more it drags for the toe of the rear wheels"),
    f("drift.moment", MOMENT, "what turns the chair downhill on the cross slope"),
    f("drift.force", F, "more push at the lower wheel and less at the upper, each, to go straight across"),
    f("climb.factor.*", N, "push over load that takes a caster up the sill, the kerb, out of the slot"),
    f("climb.push.*", F, "push that takes the casters up the sill, the kerb, out of the slot"),
    f("climb.rear.*", F, "push that takes the rear wheels up the sill, the kerb"),
    f("slot.drop", L, "how far a caster drops into the slot that it crosses"),
    f("stop.speed", SPEED, "least speed at which a dead stop of the casters throws it over"),
    f("stop.speed.downhill", SPEED, "the same going down the slope of the path"),
    f("brake.need", F, "what the brakes have to hold on the slope of the path"),
    f("brake.holds", F, "what all wheel locks hold together"),
    f("slide.uphill", A, "slope on which it slides, facing uphill with its rear wheels locked"),
    f("slide.downhill", A, "the same facing downhill"),
    f("ramp.approach", A, "slope at whose foot a part ahead of the casters touches"),
    f("ramp.departure", A, "slope at whose foot a part behind the rear wheels touches"),
    f("ramp.breakover", A, "crest on which a part between the wheels touches"),
    f("turn.radius", L, "tightest bend at the declared speed before it tips sideways"),
    f("turn.diameter", L, "circle that a turn on the spot takes, feet included"),
    f("turn.width", L, "narrowest passage for half a turn on the spot"),
    f("length.occupied", L, "greatest length with the rider's feet"),
    f("door.room", L, "clear width of the door less the chair's"),
    f("corridor.room", L, "width of the corridor less the chair's"),
    f("corridor.room.to", L, "width of the corridor beyond the corner less the chair's"),
    f("corner.room", L, "room left at the tightest place of the corner; below zero is too little"),
    f("table.knee", L, "top of the thighs at the front of the seat above the ground"),
    f("table.room", L, "clear height of the table above the thighs"),
    f("table.reach", L, "front edge of the seat beyond the foremost part taller than the table"),
    f("transfer.seat", L, "top of the loaded cushion above the ground, in the middle"),
    f("transfer.gap", L, "from the side of the seat to the widest part"),
    f("transfer.wheel", L, "top of the rear wheel above the loaded cushion"),
    f("transfer.toilet", L, "top of the loaded cushion above the toilet"),
    f("transfer.bed", L, "top of the loaded cushion above the bed"),
    f("packed.length", L, "length of the frame without rear wheels and cushion"),
    f("packed.width", L, "width of the frame without rear wheels and cushion"),
    f("packed.height", L, "height of the frame without rear wheels and cushion"),
    f("packed.mass", M, "the heaviest piece to lift, rear wheels and cushion off"),
];

/// The figure that a name is, or the family that it belongs to.
#[must_use]
pub fn figure_spec(name: &str) -> Option<&'static FigureSpec> {
    let family = |f: &&FigureSpec| {
        f.name.strip_suffix('*').is_some_and(|stem| name.len() > stem.len() && name.starts_with(stem))
    };
    FIGURES.iter().find(|f| f.name == name).or_else(|| FIGURES.iter().find(family))
}
