//! The rider, the wheels on the ground and what the chair is asked, as rows of the JSON report.

use chairwright_design::{Design, Vec3};
use chairwright_driver::Compilation;
use serde::Serialize;

type Point = [f64; 3];

fn point(v: Vec3) -> Point {
    [v.x, v.y, v.z]
}

/// A parameter.
#[derive(Serialize)]
pub(crate) struct ParamJson {
    name: String,
    value: String,
    si: Option<f64>,
    unit: Option<String>,
    from: &'static str,
    range: Option<String>,
    stops: Option<String>,
    doc: Option<String>,
}

pub(crate) fn params(d: &Design) -> Vec<ParamJson> {
    d.params
        .iter()
        .map(|p| ParamJson {
            name: p.name.clone(),
            value: p.value.clone(),
            si: p.si,
            unit: p.unit.clone(),
            from: p.given.word(),
            range: p.range.clone(),
            stops: p.stops.clone(),
            doc: p.doc.clone(),
        })
        .collect()
}

/// A mass in the settled pose.
#[derive(Serialize)]
struct MassJson {
    name: String,
    mass: f64,
    at: Point,
    /// Whether it is a wheel that does not swivel.
    wheel: bool,
}

/// A wheel's contact with the ground.
#[derive(Serialize)]
struct ContactJson {
    name: String,
    caster: bool,
    at: Point,
    gap: f64,
}

/// A wheel that does not swivel, in the settled pose.
#[derive(Serialize)]
struct WheelJson {
    name: String,
    at: Point,
    radius: f64,
}

/// A caster in the settled pose.
#[derive(Serialize)]
struct CasterJson {
    name: String,
    seat: Point,
    stem: Point,
    trail: f64,
    drop: f64,
    radius: f64,
    width: f64,
}

/// Everything that balance is worked out from, in the settled pose: x forward, y left, z up, origin on the ground under
/// the middle of the rear axle.
#[derive(Serialize)]
pub(crate) struct BalanceJson {
    masses: Vec<MassJson>,
    contacts: Vec<ContactJson>,
    casters: Vec<CasterJson>,
    wheels: Vec<WheelJson>,
    /// Slope that tips the chair by the way down, from straight ahead over the left, in even steps.
    curve: Vec<f64>,
    /// The same for several ways in which the chair may be used.
    curves: Vec<CurveJson>,
}

/// One curve over the slope's direction, in radians.
#[derive(Serialize)]
struct CurveJson {
    name: &'static str,
    slopes: Vec<f64>,
}

pub(crate) fn balance(c: &Compilation) -> Option<BalanceJson> {
    let settled = c.checked.settled.as_ref()?;
    let place = |v: Vec3| point(settled.pose.place(v));
    let bodies = c.frame.bodies.iter().map(|b| MassJson {
        name: b.name.clone(),
        mass: b.mass,
        at: place(b.centre),
        wheel: b.group == chairwright_frame::Group::Wheel,
    });
    let mass =
        |name: &str, mass: f64, at: Vec3| MassJson { name: name.to_owned(), mass, at: place(at), wheel: false };
    let rider = c.checked.rider.iter().flat_map(|r| &r.segments).map(|s| mass(&s.name, s.mass, s.centre));
    let carried = c.design.carried.iter().map(|x| mass(&x.name, x.mass, x.at));
    let contacts = settled.contacts.iter().map(|k| ContactJson {
        name: if k.caster {
            c.design.casters[k.index].name.clone()
        } else {
            c.design.wheels[k.index].name.clone()
        },
        caster: k.caster,
        at: point(k.at),
        gap: k.gap,
    });
    let casters = c.design.casters.iter().map(|k| CasterJson {
        name: k.name.clone(),
        seat: place(k.at),
        stem: point(settled.pose.turn(k.stem)),
        trail: k.trail,
        drop: k.drop,
        radius: k.radius,
        width: k.width,
    });
    let wheels =
        c.design.wheels.iter().map(|w| WheelJson { name: w.name.clone(), at: place(w.at), radius: w.radius });
    Some(BalanceJson {
        masses: bodies.chain(rider).chain(carried).collect(),
        contacts: contacts.collect(),
        casters: casters.collect(),
        wheels: wheels.collect(),
        curve: c.checked.curve.clone(),
        curves: c.curves().into_iter().map(|k| CurveJson { name: k.name, slopes: k.slopes }).collect(),
    })
}

/// One of the ten tipping angles, over all adjustments.
#[derive(Serialize)]
pub(crate) struct AngleJson {
    direction: &'static str,
    figure: &'static str,
    least: f64,
    least_adjusted: String,
    most: f64,
    most_adjusted: String,
}

pub(crate) fn angles(c: &Compilation) -> Vec<AngleJson> {
    c.spreads
        .iter()
        .map(|s| AngleJson {
            direction: s.words,
            figure: s.figure,
            least: s.least.0,
            least_adjusted: s.least.1.clone(),
            most: s.most.0,
            most_adjusted: s.most.1.clone(),
        })
        .collect()
}

/// What a state changes.
#[derive(Serialize)]
pub(crate) struct StateJson {
    state: String,
    after: Option<f64>,
    set: Vec<(String, String, String)>,
    made_anew: Vec<String>,
    not_needed: Vec<String>,
    cost: Option<String>,
    currency: Option<String>,
    unpriced: Vec<String>,
    errors: usize,
}

pub(crate) fn states(c: &Compilation) -> Vec<StateJson> {
    c.steps
        .iter()
        .map(|s| StateJson {
            state: s.state.clone(),
            after: s.after,
            set: s.set.clone(),
            made_anew: s.pieces.clone(),
            not_needed: s.without.clone(),
            cost: s.cost.map(|q| format!("{:.2}", q.si())),
            currency: s.cost.and_then(|q| q.dimension.money.map(|(c, _)| c.code())),
            unpriced: s.unpriced.clone(),
            errors: s.errors,
        })
        .collect()
}

/// The fit rules in use and what departs from them.
#[derive(Serialize)]
pub(crate) struct FitJson {
    rules: Option<String>,
    source: Option<String>,
    deviations: Vec<DeviationJson>,
}

#[derive(Serialize)]
struct DeviationJson {
    figure: String,
    reason: String,
    by: String,
    dated: Option<String>,
}

pub(crate) fn fit(d: &Design) -> FitJson {
    let deviations = d.deviations.iter().map(|x| DeviationJson {
        figure: x.figure.clone(),
        reason: x.reason.clone(),
        by: x.by.clone(),
        dated: x.dated.clone(),
    });
    FitJson {
        rules: d.fit_rules.as_ref().map(|f| f.name.clone()),
        source: d.fit_rules.as_ref().map(|f| f.source.clone()),
        deviations: deviations.collect(),
    }
}

/// The chair beside one that the rider likes.
#[derive(Serialize)]
pub(crate) struct BesideJson {
    figure: &'static str,
    least_there: f64,
    greatest_there: f64,
    here: Option<f64>,
    differs: f64,
}

pub(crate) fn beside(c: &Compilation) -> Vec<BesideJson> {
    let row = |b: &chairwright_checks::Beside| BesideJson {
        figure: b.figure,
        least_there: b.there.0,
        greatest_there: b.there.1,
        here: b.here,
        differs: b.by,
    };
    c.checked.beside.iter().map(row).collect()
}

/// Plan and built chair side by side.
#[derive(Serialize)]
pub(crate) struct BuiltJson {
    figure: &'static str,
    plan: Option<f64>,
    least: f64,
    greatest: f64,
}

pub(crate) fn built(c: &Compilation) -> Vec<BuiltJson> {
    let row = |x: &chairwright_checks::Compared| BuiltJson {
        figure: x.figure,
        plan: x.plan,
        least: x.built.0,
        greatest: x.built.1,
    };
    c.checked.compared.iter().map(row).collect()
}
