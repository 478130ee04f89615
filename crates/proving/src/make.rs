//! The sheet, test by test.

use crate::dummy::bags;
use crate::judge::judge;
use crate::limits::{AXLE, CAMBER, MASS, ROCK, SCALE, SET, SINKS, SIZE, TOE, off};
use crate::sheet::{Kind, Lack, Limit, Outcome, Reading, Test, TestSheet, Why};
use crate::{FACTOR, guard, tilt, trials};
use chairwright_checks::Checked;
use chairwright_design::{AsBuilt, Design, ItemKind, Shape, Support, SupportKind};
use chairwright_quantity::Dimension;
use chairwright_strength::Strength;

/// A demand of the design's text on one figure by itself, in SI units.
#[derive(Clone, PartialEq, Debug)]
pub struct Demand {
    /// The figure.
    pub figure: String,
    /// At least.
    pub least: Option<f64>,
    /// At most.
    pub most: Option<f64>,
}

/// What the sheet is made from.
#[derive(Clone, Copy)]
pub struct Plan<'a> {
    /// The design.
    pub design: &'a Design,
    /// The chair at rest, worked out without what was measured on the built one.
    pub checked: &'a Checked,
    /// Whether it holds.
    pub strength: &'a Strength,
    /// What the text requires.
    pub demands: &'a [Demand],
    /// Pieces of the cut list.
    pub pieces: usize,
}

impl Plan<'_> {
    pub(crate) fn figure(&self, name: &str) -> Option<f64> {
        self.checked.figures.si(name)
    }

    pub(crate) fn place(&self, key: &str) -> Option<f64> {
        self.design.conditions.quantities.get(key).copied()
    }

    /// The strictest demands on a figure.
    pub(crate) fn demanded(&self, figure: &str) -> (Option<f64>, Option<f64>) {
        let mine = || self.demands.iter().filter(|d| d.figure == figure);
        (mine().filter_map(|d| d.least).reduce(f64::max), mine().filter_map(|d| d.most).reduce(f64::min))
    }

    /// The rider at the heaviest, kg.
    pub(crate) fn rider(&self) -> f64 {
        let rider = self.checked.rider.as_ref().map_or(0.0, |r| r.mass);
        let known = self.design.known.iter().find(|k| k.name == "rider.mass" && k.unit == "kg");
        rider + known.and_then(|k| k.spread).unwrap_or(0.0)
    }

    /// Whether strength was worked out.
    pub(crate) fn strong(&self) -> bool {
        self.strength.judged && !self.strength.cases.is_empty()
    }

    pub(crate) fn has_brake(&self) -> bool {
        self.design.items.iter().any(|i| i.kind == ItemKind::Brake)
    }
}

/// The sheet with its results, where the design has any.
#[must_use]
pub fn test_sheet(plan: &Plan) -> TestSheet {
    let checked = plan.checked;
    if plan.design.unridden || checked.rider.is_none() || checked.settled.is_none() {
        return TestSheet::default();
    }
    let mut tests =
        vec![pieces(plan), sizes(plan), alignment(plan), wheels(), scales(plan), load(plan), night(plan)];
    tests.push(tilt::tilt(plan));
    tests.extend(guard::guard(plan));
    tests.extend(trials::trials(plan));
    let (total, rider) = (plan.figure("mass.total").unwrap_or(0.0), plan.rider());
    let mut sheet = TestSheet { whole: true, rider, total, bags: bags(plan.design, checked), tests };
    // what another chair, or this one in another setting, was found to do says nothing of what this sheet asks
    let here = |b: &&AsBuilt| b.other.is_none() && b.carry.is_none();
    judge(&mut sheet, plan.design.as_built.as_ref().filter(here));
    sheet
}

/// A reading without limits.
pub(crate) fn reading(field: &'static str, dimension: Dimension, tolerance: f64) -> Reading {
    Reading {
        field,
        dimension: Some(dimension),
        expected: None,
        most: None,
        adjusted: String::new(),
        limit: None,
        near: None,
        tolerance,
        lack: None,
        result: None,
        passed: None,
        outcome: Outcome::Missing,
    }
}

/// A test that ends in a word.
pub(crate) fn word(field: &'static str) -> Reading {
    Reading { dimension: None, ..reading(field, Dimension::NUMBER, 0.0) }
}

/// How hard a test that ends in a word was made: what passed at less was never tried.
pub(crate) fn hard(field: &'static str, dimension: Dimension, asked: f64) -> Reading {
    let limit = Limit { least: Some(asked), most: None, why: Why::Hard };
    Reading { expected: Some(asked), limit: Some(limit), ..reading(field, dimension, 0.0) }
}

/// A figure of the plan that the built chair must be near to.
fn like(plan: &Plan, field: &'static str, figure: &str, (kind, off): (Dimension, f64), far: f64) -> Reading {
    let expected = plan.figure(figure);
    let (least, most) = plan.demanded(figure);
    let asked = least.is_some() || most.is_some();
    Reading {
        expected,
        near: expected.map(|x| (x - far, x + far)),
        limit: asked.then_some(Limit { least, most, why: Why::Demand }),
        lack: expected.is_none().then_some(Lack::Figure),
        ..reading(field, kind, off)
    }
}

fn pieces(plan: &Plan) -> Test {
    Test { kind: Kind::Pieces { count: plan.pieces }, weakest: Vec::new(), readings: vec![word("pieces_test")] }
}

fn sizes(plan: &Plan) -> Test {
    let seat = plan.figure("seat.height.front").is_some();
    let all = [
        ("width", "width.overall"),
        ("length", "length.overall"),
        ("seat_front", "seat.height.front"),
        ("seat_rear", "seat.height.rear"),
    ];
    let length = (Dimension::LENGTH, off::TAPE);
    let wanted = all.into_iter().filter(|(f, _)| seat || !f.starts_with("seat"));
    let mut readings: Vec<Reading> =
        wanted.map(|(field, figure)| like(plan, field, figure, length, SIZE)).collect();
    // of a chair without a seat, or without a wheel on that side, there is nothing to measure
    let axles = [("axle_left", "axle.under.left"), ("axle_right", "axle.under.right")];
    let there = axles.into_iter().filter(|(_, figure)| plan.figure(figure).is_some());
    readings.extend(there.map(|(field, figure)| like(plan, field, figure, length, AXLE)));
    Test { kind: Kind::Sizes, weakest: Vec::new(), readings }
}

fn alignment(plan: &Plan) -> Test {
    // on three nothing rocks
    let rocks = plan.design.wheels.len() + plan.design.casters.len() > 3;
    let rock = rocks.then(|| Reading {
        expected: plan.figure("rock"),
        limit: Some(Limit { least: None, most: Some(ROCK), why: Why::Rock }),
        ..reading("rock", Dimension::LENGTH, off::RULE)
    });
    let toe = |field: &'static str, figure: &str| Reading {
        expected: plan.figure(figure),
        limit: Some(Limit { least: Some(-TOE), most: Some(TOE), why: Why::Toe }),
        ..reading(field, Dimension::ANGLE, off::RIMS)
    };
    let lean = (Dimension::ANGLE, off::LEVEL);
    let wheels = [
        toe("toe_left", "toe.left"),
        toe("toe_right", "toe.right"),
        like(plan, "camber_left", "camber.left", lean, CAMBER),
        like(plan, "camber_right", "camber.right", lean, CAMBER),
    ];
    let readings = rock.into_iter().chain(wheels).collect();
    let diameter = plan.design.wheels.iter().map(|w| 2.0 * w.radius).fold(0.0, f64::max);
    let half = half_a_degree(diameter);
    Test { kind: Kind::Alignment { diameter, half }, weakest: Vec::new(), readings }
}

/// Front of a rim further out than its rear by half a degree of toe: D sin(toe).
pub(crate) fn half_a_degree(diameter: f64) -> f64 {
    diameter * libm::sin(0.5_f64.to_radians())
}

fn wheels() -> Test {
    Test { kind: Kind::Wheels, weakest: Vec::new(), readings: vec![word("wheels_test")] }
}

/// Mass of the chair; chair and sand together; each wheel's load as the plan has it, if both sides of an axle share by
/// the place of the centre of mass.
fn scales(plan: &Plan) -> Test {
    let kg = (Dimension::MASS, off::SCALE);
    let far = |figure: &str, share: f64| plan.figure(figure).map_or(0.0, |m| share * m);
    let total = plan.figure("mass.total").unwrap_or(0.0);
    let mut readings = vec![
        like(plan, "mass", "mass.chair", kg, far("mass.chair", MASS)),
        like(plan, "system_mass", "mass.total", kg, far("mass.total", SCALE)),
    ];
    for (field, expected) in wheel_loads(plan) {
        readings.push(Reading {
            expected,
            near: expected.map(|x| (x - SCALE * total, x + SCALE * total)),
            lack: expected.is_none().then_some(Lack::FourWheels),
            ..reading(field, kg.0, kg.1)
        });
    }
    Test { kind: Kind::Scales, weakest: Vec::new(), readings }
}

/// Readings of a scale under each wheel.
pub(crate) const SCALES: [&str; 4] =
    ["load_rear_left", "load_rear_right", "load_front_left", "load_front_right"];

fn wheel_loads(plan: &Plan) -> Vec<(&'static str, Option<f64>)> {
    let four = plan.design.wheels.len() == 2 && plan.design.casters.len() == 2;
    let one = |share: &str, track: &str, sign: f64| {
        let side = 0.5 + sign * plan.figure("com.total.left")? / plan.figure(track).filter(|t| *t > 0.0)?;
        Some(plan.figure("mass.total")? * plan.figure(share)? * side)
    };
    let of = [
        ("load.rear.share", "track", 1.0),
        ("load.rear.share", "track", -1.0),
        ("load.caster.share", "track.front", 1.0),
        ("load.caster.share", "track.front", -1.0),
    ];
    // of a chair with other wheels nothing is asked that nobody could write down
    let asked = SCALES.into_iter().zip(of).filter(|_| four);
    asked.map(|(field, (share, track, sign))| (field, one(share, track, sign))).collect()
}

pub(crate) fn set(field: &'static str) -> Reading {
    Reading {
        expected: Some(0.0),
        limit: Some(Limit { least: None, most: Some(SET), why: Why::Set }),
        ..reading(field, Dimension::LENGTH, off::RULE)
    }
}

/// The seat sinks under so much sand as the rider's weight does, so many times more: the frame is worked out as linear.
fn load(plan: &Plan) -> Test {
    let give = Some(plan.strength.give).filter(|g| plan.strong() && *g > 0.0);
    let expected = give.map(|g| FACTOR * g);
    let sag = Reading {
        expected,
        near: expected.map(|x| (f64::NEG_INFINITY, SINKS * x + SET)),
        lack: expected.is_none().then_some(Lack::Strength),
        ..reading("sag", Dimension::LENGTH, off::RULE)
    };
    let weakest = crate::weak::weakest(plan.strength, |k| matches!(k, chairwright_strength::CaseKind::Seated));
    let sand = FACTOR * plan.rider();
    let laid = hard("load_sand", Dimension::MASS, sand);
    let readings = vec![laid, sag, set("load_set"), word("load_test")];
    let seats = plan.design.supports.iter().filter(|s| s.kind == SupportKind::Seat);
    let cloth = |s: &Support| matches!(plan.design.stocks[s.stock].shape, Shape::Webbing { .. });
    let sling = seats.into_iter().any(cloth);
    Test { kind: Kind::Load { sand, sling }, weakest, readings }
}

fn night(plan: &Plan) -> Test {
    let sand = plan.rider();
    let readings = vec![hard("night_sand", Dimension::MASS, sand), set("night_set"), word("night_test")];
    Test { kind: Kind::Night { sand }, weakest: Vec::new(), readings }
}
