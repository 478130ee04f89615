//! Least and greatest that a rider, a place, a bought part, a use profile and a chair to compare with can have, with the
//! reasons, in one table. They refuse slips of the pen that would make a chair look safer than it is; what is only rare is
//! looked at elsewhere. A value outside is not used.

use crate::evaluator::Evaluator;
use crate::value::{Outcome, Silent, Value};
use chairwright_design::Vec3;
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_quantity::{Dimension, Display, Quantity};

/// Least and greatest in SI units, and why.
pub(crate) type Bound = (f64, f64, &'static str);

const fn deg(d: f64) -> f64 {
    d * std::f64::consts::PI / 180.0
}

const NO_LESS: f64 = f64::INFINITY;
const LEAN: &str = "it says how far the trunk leans that way from sitting: nobody leans less than not at all, or past a right angle";
const BACK: &str = "it says how far the upper arm goes back behind the trunk: none goes less than not at all, or up past level";
const SLOPE: &str = "it is the size of the slope, the same up and down; steeper than 45 deg nobody rolls";
const SIZE: &str = "it is a size: less than nothing there is not";
const GROWTH: &str = "nobody shrinks, or is younger later";
const MARGIN: &str =
    "a margin is held beyond the slope of the path: less than none would let a chair pass that tips on it";
const REST: &str = "a wheel of a chair trails: with its axle ahead of the stem it turns round at once, and is measured backward";
// common practice, no source: the longest locks with all of their levers are shorter
const SHOE: &str = "it goes from the middle of a lock to the shoe that presses on the tyre, and no lock has its shoe half a metre away";
const TAPE: &str = "no wheelchair measures that";
/// K: the coldest air ever measured near the ground, -89.2 degC (Vostok, 1983; World Meteorological Organization), rounded down; and
/// where water boils, which no closed car in the sun comes near.
const COLDEST: f64 = 183.15;
const HOTTEST: f64 = 373.15;
const WEATHER: &str = "no air on earth was ever measured colder than -89.2 degC (Vostok, 1983), and no parked chair is as hot as boiling water";
/// m from the origin of the drawing: as far as any measure of a chair to compare with. Common practice, no source.
const REACHED: f64 = 3.0;
/// m: less is no size of a thing.
const LEAST: f64 = 0.000_001;
const THING: &str = "it is the size of a thing: nothing is thinner than a thousandth of a millimetre, and no part of a chair is longer than 3 m";
/// kg, N and N/m that no part which is sold in a shop for hardware or bicycles comes near. Common practice, no source.
const HEAVIEST: f64 = 200.0;
const RATED: f64 = 2000.0;
const HELD: f64 = 20e3;
const STIFFEST: f64 = 1e8;
const HEAVY: &str = "no part of a chair weighs more than chair and rider together";
const RATING: &str = "a rating is what one wheel or a pair is sold for, and none that is sold for carts bears more than two tonnes";
const HOLDS: &str = "no brake of a wheelchair holds the weight of a car";
const STIFF: &str = "a tyre is softer than a block of steel";
const PLAY: &str = "a stem that leans further than this in its seat has come out of it";
/// m: the thinnest, the thickest and the longest fastener that a chair is held by. Common practice, no source.
const THINNEST: f64 = 0.000_5;
const THICKEST: f64 = 0.050;
const LONGEST: f64 = 1.0;
const THICK: &str = "no fastener of a chair is thinner than half a millimetre or thicker than 50 mm";
const LONG: &str = "no fastener of a chair is longer than 1 m";
const LIGHT: &str = "no fastener of a chair weighs more than 5 kg";
const TIPS: &str = "no chair stands on a slope like that, or on less than level ground";

/// What a value of this block can be; `None` where anything can.
pub(crate) fn bound(block: &str, key: &str) -> Option<Bound> {
    let key = key.split('.').next().unwrap_or(key);
    match (block, key) {
        ("rider", "lean_forward" | "lean_back" | "lean_side") => Some((0.0, deg(90.0), LEAN)),
        ("rider", "shoulder_extension") => Some((0.0, deg(90.0), BACK)),
        ("rider", "after" | "grown") => Some((0.0, NO_LESS, GROWTH)),
        ("rider", "prosthesis_mass" | "push_force") => Some((0.0, NO_LESS, SIZE)),
        ("conditions", "slope" | "cross_slope") => Some((0.0, deg(45.0), SLOPE)),
        ("conditions", "temperature" | "parked_temperature" | "coldest") => Some((COLDEST, HOTTEST, WEATHER)),
        ("conditions", _) => Some((0.0, NO_LESS, SIZE)),
        ("profile", "rear_locked" | "rear_free" | "forward" | "side") => Some((0.0, deg(45.0), MARGIN)),
        ("profile", _) => Some((0.0, NO_LESS, SIZE)),
        ("part", "trail") => Some((0.0, NO_LESS, REST)),
        ("part", "reach") => Some((0.0, 0.5, SHOE)),
        (
            "part",
            "diameter" | "loaded_radius" | "width" | "hub_width" | "rim_diameter" | "rim_tube" | "bore"
            | "axle_diameter" | "axle_length" | "stem_diameter" | "fork_width" | "thickness"
            | "loaded_thickness",
        ) => Some((LEAST, REACHED, THING)),
        ("part", "rim_standoff" | "drop" | "length" | "height") => Some((0.0, REACHED, THING)),
        ("part", "mass") => Some((0.0, HEAVIEST, HEAVY)),
        ("part", "load_rating") => Some((1.0, RATED, RATING)),
        ("part", "holding_force") => Some((0.0, HELD, HOLDS)),
        ("part", "stiffness") => Some((0.0, STIFFEST, STIFF)),
        ("part", "stem_play") => Some((0.0, deg(45.0), PLAY)),
        ("part", _) => Some((0.0, NO_LESS, SIZE)),
        ("fastener", "diameter" | "root_diameter") => Some((THINNEST, THICKEST, THICK)),
        ("fastener", "outer_diameter" | "head") => Some((THINNEST, 3.0 * THICKEST, THICK)),
        ("fastener", "length") => Some((THINNEST, LONGEST, LONG)),
        ("fastener", "mass") => Some((0.0, 5.0, LIGHT)),
        ("baseline", "mass") => Some((0.5, 600.0, TAPE)),
        ("baseline", "rear_locked" | "rear_free" | "forward" | "side") => Some((0.0, deg(60.0), TIPS)),
        ("baseline", "axle_ahead" | "footrest_clearance") => Some((-1.0, 3.0, TAPE)),
        ("baseline", "back_angle") => Some((0.0, deg(180.0), TAPE)),
        ("baseline", _) => Some((0.05, 3.0, TAPE)),
        _ => None,
    }
}

/// A field, another that it is measured by, the least and the most that it is of that, and why.
pub(crate) type Shares = (&'static str, &'static str, f64, f64, &'static str);

/// Fields of a bought part that are no less and no more than a share of another of its fields. That a tyre is pressed in by no more than a
/// fifth of its radius is common practice, no source.
pub(crate) const WITHIN: [Shares; 5] = [
    (
        "loaded_radius",
        "diameter",
        0.4,
        0.5,
        "a tyre under load is flatter than without it, by no more than a fifth of its radius",
    ),
    ("width", "diameter", 0.0, 1.0, "what is wider than high is a roller and no wheel"),
    ("trail", "diameter", 0.0, 2.0, "no fork reaches further behind its stem than two diameters of its wheel"),
    ("rim_diameter", "diameter", 0.0, 1.0, "a push rim larger than its wheel would stand on the ground"),
    ("loaded_thickness", "thickness", 0.0, 1.0, "a cushion under the rider is thinner than without"),
];

/// The same of a fastener.
pub(crate) const DRIVEN: [Shares; 2] = [
    ("root_diameter", "diameter", 0.0, 1.0, "the thread is cut into the shank, so that its root is thinner"),
    (
        "head",
        "diameter",
        1.0,
        4.0,
        "a head is wider than its shank, and no screw's is four times as wide; what is wider is a washer",
    ),
];

/// Least and greatest of a value with its tolerance, in SI units.
pub(crate) fn ends(value: &Value) -> Option<(f64, f64)> {
    match value {
        Value::Band { low, high, .. } => Some((low.si(), high.si())),
        other => other.quantity().map(|q| (q.si(), q.si())),
    }
}

impl Evaluator<'_> {
    /// Refuses a value that cannot be.
    pub(crate) fn possible(&self, block: &str, key: &str, value: &Value, span: Span) -> Outcome<()> {
        let (Some((least, most, why)), Some((low, high))) = (bound(block, key), ends(value)) else {
            return Ok(());
        };
        if low >= least - 1e-12 && high <= most + 1e-12 {
            return Ok(());
        }
        self.impossible(key, value, (least, most), why, span)
    }

    /// Refuses a place that no chair reaches to.
    pub(crate) fn reached(&self, name: &str, at: Vec3, span: Span) -> Outcome<()> {
        let away = at.norm();
        if away <= REACHED {
            return Ok(());
        }
        let text = |si: f64| Display::Metric.text(Quantity::from_si(si, Dimension::LENGTH));
        self.say(
            Diagnostic::new("impossible-value", format!("`{name}` cannot ride along there"))
                .at(span, format!("this is {} from the origin of the drawing, and is not used", text(away)))
                .note("what rides along hangs on the chair or sits on the rider, and no chair reaches that far")
                .help(format!("it is at most {} away: look at the unit", text(REACHED))),
        );
        Err(Silent)
    }

    /// Says that a value cannot be, and between which ones it lies.
    pub(crate) fn impossible(
        &self,
        key: &str,
        value: &Value,
        (least, most): (f64, f64),
        why: &str,
        span: Span,
    ) -> Outcome<()> {
        let (Some(q), Some((low, high))) = (value.quantity(), ends(value)) else { return Ok(()) };
        let text = |si: f64| Display::Metric.text(Quantity::from_si(si, q.dimension));
        // of a value with its tolerance the end that cannot be is what is wrong
        let said = |low: f64, high: f64, text: &dyn Fn(f64) -> String| {
            if high - low <= 1e-12 {
                return text(q.si());
            }
            let (end, word) = if low < least - 1e-12 { (low, "least") } else { (high, "most") };
            format!("{} at the {word}", text(end))
        };
        let range = if most.is_finite() {
            format!("from {} to {}", text(least), text(most))
        } else {
            format!("{} or more", text(least))
        };
        self.say(
            Diagnostic::new("impossible-value", format!("no `{key}` is like this"))
                .at(span, format!("this comes to {}, and is not used", said(low, high, &text)))
                .note(why.to_owned())
                .help(format!("it is {range}: look at the sign and at the unit")),
        );
        Err(Silent)
    }
}
