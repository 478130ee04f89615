//! The centre of mass of the built chair, from slopes at which it was measured to tip.
//!
//! With the wheels locked tan a = x / h, with the wheels free tan b = x / (h − R), where x is the distance of the
//! centre of mass of chair and rider ahead of the rear axle, h its height and R the height of the axle. (The rear wheels'
//! own mass lies on the axle and drops out of the second.) So h = R·tan b / (tan b − tan a) and x = h·tan a. With only the
//! first angle the planned height is kept. Where it was not tipped but stood on scales, moments give x and y: the sum of
//! load times place over the sum of the loads.

use super::{A, L};
use crate::Checked;
use crate::assumed::Assumed;
use crate::figure::Figures;
use crate::problem::Problem;
use crate::tested::{reading, readings};
use chairwright_design::{AsBuilt, Band, Design, Origin, Vec3};
use chairwright_frame::Settled;
use chairwright_quantity::Dimension;

/// A built chair whose centre of mass lies further than this from the plan's is another chair. Common practice, no source.
const FAR: f64 = 0.03;
/// A test that places it further from the plan than this was of another chair, or misread: the plan is kept beside it. Common
/// practice, no source.
const BELIEVED: f64 = 0.15;
/// Two angles that leave more of the height open than this say nothing of it. Common practice, no source.
const OPEN: f64 = 0.2;
/// No seated rider's centre of mass lies higher above the ground than this. Common practice, no source.
const TALL: f64 = 1.5;
/// Tipping test and scales that place the centre of mass further apart than this, with their tolerances, are of two chairs.
/// Common practice, no source.
const APART: f64 = 0.02;

/// Inverts the two angles; `None` where they do not belong to one chair.
#[must_use]
pub fn invert(locked: f64, free: f64, axle: f64) -> Option<(f64, f64)> {
    let (a, b) = (libm::tan(locked), libm::tan(free));
    if a <= 0.0 || b <= a {
        return None;
    }
    let height = axle * b / (b - a);
    Some((height * a, height))
}

/// What must be added to the planned centre of mass of the chair and its rider alone: by the middle of the readings
/// first, then by the ends of their tolerances. Nothing where the built chair was not tipped.
pub(super) fn corrections(
    design: &Design,
    settled: &Settled,
    plan: Vec3,
    axle: Vec3,
    out: &mut Checked,
) -> Vec<Vec3> {
    let Some(as_built) = readings(design) else { return Vec::new() };
    if let Some(carry) = &as_built.carry {
        return carry.shifts.clone();
    }
    // behind stand other wheels than these formulas are for, and nobody can tell how they were swivelled: said with the rest
    // that such a layout leaves out
    if !crate::layout::usual(settled) {
        return Vec::new();
    }
    let (locked, free) = (as_built.values.get("rear_locked"), as_built.values.get("rear_free"));
    if locked.is_none() && free.is_none() {
        return on_scales(settled, as_built)
            .map(|all| scales(all, plan, as_built.origin, out))
            .unwrap_or_default();
    }
    let shift = |(ahead, height): (f64, f64)| Vec3::new(ahead + axle.x - plan.x, 0.0, height - plan.z);
    // one angle alone, and the height of the plan
    let one = |angle: &Band, height: f64| -> Vec<Vec3> {
        [angle.mid(), angle.low, angle.high].iter().map(|a| shift((height * libm::tan(*a), plan.z))).collect()
    };
    let (Some(locked), Some(free)) = (locked, free) else {
        out.assumptions.push(Assumed::TippedOnce);
        let all = match (locked, free) {
            (Some(locked), _) => one(locked, plan.z),
            (_, Some(free)) => one(free, plan.z - axle.z),
            _ => Vec::new(),
        };
        return tell(all, (plan, axle), None, as_built.origin, out);
    };
    if let Some((least, most)) = open_heights(locked, free, axle.z).filter(|(a, b)| b - a > OPEN || *b > TALL) {
        // the angles themselves still stand; what they say of the height is not used
        out.problems.push(Problem::BuiltUnsure {
            locked: *locked,
            free: *free,
            least,
            most,
            origin: as_built.origin,
        });
        out.assumptions.push(Assumed::TippedOnce);
        return tell(one(locked, plan.z), (plan, axle), None, as_built.origin, out);
    }
    let Some(middle) = invert(locked.mid(), free.mid(), axle.z) else {
        let (locked, free, origin) = (locked.mid(), free.mid(), as_built.origin);
        out.problems.push(Problem::BuiltImpossible { locked, free, origin });
        return Vec::new();
    };
    let ends =
        [(locked.low, free.low), (locked.low, free.high), (locked.high, free.low), (locked.high, free.high)];
    let ends = ends.iter().filter_map(|(a, b)| invert(*a, *b, axle.z));
    let all = std::iter::once(middle).chain(ends).map(shift).collect();
    tell(all, (plan, axle), Some(locked.mid()), as_built.origin, out)
}

/// Least and greatest height that the ends of two angles leave open, without end where some of them belong to no chair;
/// `None` where their middles do not.
fn open_heights(locked: &Band, free: &Band, axle: f64) -> Option<(f64, f64)> {
    let (_, middle) = invert(locked.mid(), free.mid(), axle)?;
    let ends =
        [(locked.low, free.low), (locked.low, free.high), (locked.high, free.low), (locked.high, free.high)];
    let all = ends.iter().map(|(a, b)| invert(*a, *b, axle).map_or(f64::INFINITY, |(_, h)| h));
    Some(all.fold((middle, middle), |(least, most), h| (least.min(h), most.max(h))))
}

/// By how much the centre of mass has to lie further ahead, or to a side, for the built chair to tip where it was found to:
/// each a further corner of what the tests leave open. Height and what tips it to the rear stay as `now`; with casters behind what
/// tips it to the rear is such a corner as well.
pub(super) fn aside(
    (design, settled): (&Design, &Settled),
    now: Vec3,
    room: impl Fn((f64, f64)) -> (f64, f64),
) -> Vec<Vec3> {
    // what is carried over from the tested setting has these corners already
    let Some(as_built) = readings(design).filter(|b| b.carry.is_none()) else { return Vec::new() };
    let toward = |key: &str, way: (f64, f64)| {
        let (distance, height) = room(way);
        let lacks = distance - height * libm::tan(as_built.values.get(key)?.low);
        (lacks > 1e-6 && now.z > 0.0).then(|| Vec3::new(way.0, way.1, 0.0) * lacks)
    };
    let rear = (!crate::layout::usual(settled)).then_some(("rear_locked", (-1.0, 0.0)));
    [("forward", (1.0, 0.0)), ("side", (0.0, 1.0)), ("side", (0.0, -1.0))]
        .into_iter()
        .chain(rear)
        .filter_map(|(key, way)| toward(key, way))
        .collect()
}

/// How far from where it is planned the empty chair may have its middle, where the tipping test makes the chair with its rider
/// (`share` times as heavy) another one than the plan's: nobody knows whether the chair differs or the sand in it. A smaller
/// difference is what sand laid by hand explains; of a greater one no more is laid on the chair than is believed of any. The
/// height stays as planned.
pub(super) fn of_the_chair(shifts: &[Vec3], share: f64) -> Option<Vec3> {
    let by = shifts.first().filter(|by| (FAR..=BELIEVED).contains(&by.norm()))?;
    let flat = Vec3 { z: 0.0, ..*by } * share;
    Some(flat * (BELIEVED / flat.norm().max(1e-9)).min(1.0))
}

/// Says so where the tipping test and the scales place the centre of mass of one chair at different places fore and aft.
pub(super) fn scales_against_tilt(
    design: &Design,
    settled: &Settled,
    (plan, by): (Vec3, &[Vec3]),
    out: &mut Checked,
) {
    let Some(as_built) = readings(design).filter(|b| b.carry.is_none()) else { return };
    let tipped = ["rear_locked", "rear_free"].iter().any(|k| as_built.values.contains_key(*k));
    let Some(feet) = on_scales(settled, as_built).filter(|_| tipped && !by.is_empty()) else { return };
    let span = |all: &mut dyn Iterator<Item = f64>| {
        all.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), x| (a.min(x), b.max(x)))
    };
    let tilt = span(&mut by.iter().map(|b| plan.x + b.x));
    let scales = span(&mut feet.iter().map(|f| f.0));
    if (scales.0 - tilt.1).max(tilt.0 - scales.1) > APART {
        let (tilt, scales) = (plan.x + by[0].x, feet[0].0);
        out.problems.push(Problem::BuiltTwoPlaces { tilt, scales, origin: as_built.origin });
    }
}

/// Foot of the centre of mass, ahead of the axle and to the left, from what the wheels press on scales: by the middle
/// of the readings, then by the ends of their tolerances. `None` unless the chair has four wheels and all were read.
#[must_use]
pub fn on_scales(settled: &Settled, built: &AsBuilt) -> Option<Vec<(f64, f64)>> {
    let wheels: Option<Vec<(Vec3, Band, bool)>> = settled
        .contacts
        .iter()
        .map(|c| Some((c.at, *built.values.get(scale(c.caster, c.at.y))?, c.caster)))
        .collect();
    let wheels = wheels.filter(|w| w.len() == 4 && w.iter().filter(|c| c.2).count() == 2)?;
    let foot = |load: &dyn Fn(&(Vec3, Band, bool)) -> f64| {
        let sum: f64 = wheels.iter().map(load).sum();
        let moment = |axis: Vec3| wheels.iter().map(|w| load(w) * w.0.dot(axis)).sum::<f64>();
        (sum > 0.0).then(|| (moment(Vec3::X) / sum, moment(Vec3::Y) / sum))
    };
    let ends = |heavy: &dyn Fn(&(Vec3, Band, bool)) -> bool| {
        foot(&|w: &(Vec3, Band, bool)| if heavy(w) { w.1.high } else { w.1.low })
    };
    let all =
        [foot(&|w| w.1.mid()), ends(&|w| w.2), ends(&|w| !w.2), ends(&|w| w.0.y > 0.0), ends(&|w| w.0.y < 0.0)];
    all.into_iter().collect()
}

/// The field that one wheel's load is written into.
fn scale(caster: bool, y: f64) -> &'static str {
    match (caster, y > 0.0) {
        (false, true) => "load_rear_left",
        (false, false) => "load_rear_right",
        (true, true) => "load_front_left",
        (true, false) => "load_front_right",
    }
}

fn scales(all: Vec<(f64, f64)>, plan: Vec3, origin: Origin, out: &mut Checked) -> Vec<Vec3> {
    out.assumptions.push(Assumed::OnScales);
    let all: Vec<Vec3> = all.into_iter().map(|(x, y)| Vec3::new(x - plan.x, y - plan.y, 0.0)).collect();
    let by = all[0];
    let source = "statics: moments of the four wheel loads of the built chair";
    let formula = "sum of load x place / sum of loads";
    out.figures.put("com.built.ahead", (plan.x + by.x, L), formula, source, &[]);
    if by.norm() > FAR {
        let held = by.norm() > BELIEVED;
        out.problems.push(Problem::BuiltDiffers { ahead: by.x, up: 0.0, open: 0.0, held, origin });
    }
    with_plan(all, by)
}

/// Readings that place the weight too far from the plan to be believed leave the plan open as well.
fn with_plan(mut all: Vec<Vec3>, by: Vec3) -> Vec<Vec3> {
    if by.norm() > BELIEVED {
        all.push(Vec3::ZERO);
    }
    all
}

/// Puts the corrected centre of mass, its height only where both angles were measured (`tested`: the locked one), among the figures, and says so where it is another chair's.
fn tell(
    all: Vec<Vec3>,
    (plan, axle): (Vec3, Vec3),
    tested: Option<f64>,
    origin: Origin,
    out: &mut Checked,
) -> Vec<Vec3> {
    let by = all[0];
    let source = "rigid body statics, inverted from the tipping test of the built chair";
    let figures = &mut out.figures;
    if let Some(locked) = tested {
        let inputs = [("tip.rear.locked as measured", locked, A), ("height of the axle", axle.z, L)];
        figures.put("com.built.ahead", (plan.x + by.x, L), "h x tan(locked)", source, &inputs);
        let formula = "R tan(free) / (tan(free) - tan(locked))";
        figures.put("com.built.height", (plan.z + by.z, L), formula, source, &inputs);
    } else {
        let inputs =
            [("height of the centre of mass as planned", plan.z, L), ("height of the axle", axle.z, L)];
        let formula = "h x tan(locked), or (h - R) x tan(free), h as planned";
        figures.put("com.built.ahead", (plan.x + by.x, L), formula, source, &inputs);
    }
    if by.norm() > FAR {
        let heights = || all.iter().map(|b| b.z);
        let open =
            (heights().fold(f64::NEG_INFINITY, f64::max) - heights().fold(f64::INFINITY, f64::min)) / 2.0;
        let held = by.norm() > BELIEVED;
        out.problems.push(Problem::BuiltDiffers { ahead: by.x, up: by.z, open, held, origin });
    }
    with_plan(all, by)
}

/// One figure of the plan beside what was measured on the built chair.
#[derive(Clone, PartialEq, Debug)]
pub struct Compared {
    /// The figure.
    pub figure: &'static str,
    /// As planned, in SI units.
    pub plan: Option<f64>,
    /// Least and greatest as measured.
    pub built: (f64, f64),
}

/// Fields of the block and the figures whose place they take.
const FIGURES: [(&str, &str, Dimension); 18] = [
    ("mass", "mass.chair", Dimension::MASS),
    ("system_mass", "mass.total", Dimension::MASS),
    ("width", "width.overall", L),
    ("length", "length.overall", L),
    ("seat_front", "seat.height.front", L),
    ("seat_rear", "seat.height.rear", L),
    ("axle_left", "axle.under.left", L),
    ("axle_right", "axle.under.right", L),
    ("rock", "rock", L),
    ("toe_left", "toe.left", A),
    ("toe_right", "toe.right", A),
    ("camber_left", "camber.left", A),
    ("camber_right", "camber.right", A),
    ("rear_locked", "tip.rear.locked", A),
    ("rear_free", "tip.rear.free", A),
    ("forward", "tip.forward.locked", A),
    ("forward_free", "tip.forward.free", A),
    ("side", "tip.side", A),
];

/// Whether a field of the block is a reading of a figure.
#[must_use]
pub fn is_reading(field: &str, figure: &str) -> bool {
    FIGURES.iter().any(|f| f.0 == field && f.1 == figure)
}

/// Puts what was measured in the place of what was planned: slopes that tip by their least reading, sizes and masses by
/// their greatest. What rides along was not in the test, so a slope that is less with it stays. `plan` has the figures without the
/// test.
pub(crate) fn measured(design: &Design, as_built: &AsBuilt, plan: &Figures, out: &mut Checked) {
    let plan_of = |field: &str| FIGURES.iter().find(|f| f.0 == field).and_then(|f| plan.si(f.1));
    let reading = |field: &str| reading(as_built, field, plan_of(field));
    if let (Some(chair), None) = (reading("mass"), reading("system_mass"))
        && let (Some(all), Some(own)) = (plan.si("mass.total"), plan.si("mass.chair"))
    {
        let (others, kg) = (all - own, Dimension::MASS);
        let inputs = [("chair as measured", chair.high, kg), ("rider and what rides along", others, kg)];
        let formula = "chair as measured + rider and what rides along";
        out.figures.put(
            "mass.total",
            (chair.high + others, kg),
            formula,
            "measured on the built chair",
            &inputs,
        );
    }
    for (key, figure, dimension) in FIGURES {
        // elsewhere than it was tested slopes follow from where its centre of mass lies
        if as_built.carry.is_some() && figure.starts_with("tip.") {
            continue;
        }
        let Some(band) = reading(key) else { continue };
        let value = match out.figures.si(figure) {
            // what rides along may tip it sooner than the test did
            Some(now) if figure.starts_with("tip.") && (super::rides(design) || far(out)) => band.low.min(now),
            _ if figure.starts_with("tip.") => band.low,
            _ if band.low.abs() > band.high.abs() => band.low,
            _ => band.high,
        };
        let plan = plan.si(figure);
        out.compared.push(Compared { figure, plan, built: (band.low, band.high) });
        let inputs = plan.map(|p| ("as planned", p, dimension));
        let formula = "as measured on the built chair";
        out.figures.put(figure, (value, dimension), formula, "measured on the built chair", inputs.as_slice());
        if figure == "tip.side" && !super::rides(design) && !far(out) {
            // the lesser of both sides was measured: neither is less
            for own in ["tip.left", "tip.right"] {
                let less = out.figures.si(own).is_some_and(|now| now < value);
                if less {
                    out.figures.put(own, (value, dimension), formula, "measured on the built chair", &[]);
                }
            }
        }
    }
    follow(out);
}

/// Whether what was measured is so far from the plan that the plan is kept beside it.
fn far(out: &Checked) -> bool {
    out.problems.iter().any(|p| matches!(p, Problem::BuiltDiffers { held: true, .. }))
}

/// Slopes of one chair that cannot stand apart: with locked wheels it never tips later than with free ones, and never later
/// in the worst of all directions than in any one.
fn follow(out: &mut Checked) {
    let mut at_most = |figure: &str, bound: &str| {
        if let (Some(now), Some(most)) = (out.figures.si(figure), out.figures.si(bound))
            && now > most
        {
            let inputs = [("as worked out", now, A)];
            let formula = format!("no later than {bound}");
            out.figures.put(figure, (most, A), formula, "measured on the built chair", &inputs);
        }
    };
    at_most("tip.rear.locked", "tip.rear.free");
    at_most("tip.rear.locked.leaning", "tip.rear.locked");
    at_most("tip.along.leaning", "tip.rear.locked");
    at_most("tip.along.leaning", "tip.forward.locked");
    at_most("tip.across.leaning", "tip.side");
    at_most("tip.rear.free.leaning", "tip.rear.free");
    at_most("tip.forward.locked", "tip.forward.free");
    at_most("tip.forward.locked.leaning", "tip.forward.locked");
    for side in ["tip.left", "tip.right"] {
        at_most(&format!("{side}.leaning"), side);
    }
    for one in ["tip.rear.locked", "tip.forward.locked", "tip.side"] {
        at_most("tip.any", one);
    }
    at_most("tip.any.leaning", "tip.any");
    for one in ["tip.rear.locked", "tip.forward.locked", "tip.left", "tip.right", "tip.along", "tip.across"] {
        at_most("tip.any.leaning", &format!("{one}.leaning"));
    }
}

/// Puts the pull at which the locked wheels of the built chair slipped in the place of what its parts' entries promise:
/// the lesser of both ways, by its least reading.
pub(crate) fn brakes(as_built: &AsBuilt, out: &mut Checked) {
    let pulls: Option<Vec<Band>> =
        ["brake_back", "brake_forward"].iter().map(|k| as_built.values.get(*k).copied()).collect();
    let Some(pulls) = pulls else { return };
    let least = |end: fn(&Band) -> f64| pulls.iter().map(end).fold(f64::INFINITY, f64::min);
    let (low, high) = (least(|b| b.low), least(|b| b.high));
    let (figure, force) = ("brake.holds", Dimension::FORCE);
    let plan = out.figures.si(figure);
    // elsewhere than it was tested its brakes hold no more than they are said to
    let low = plan.filter(|_| as_built.carry.is_some()).map_or(low, |p| low.min(p));
    out.compared.push(Compared { figure, plan, built: (low, high) });
    let inputs = plan.map(|p| ("as planned", p, force));
    let formula = "as measured on the built chair";
    out.figures.put(figure, (low, force), formula, "measured on the built chair", inputs.as_slice());
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: R = 300 mm, 5 and 9 degrees: h = 0.3·0.158384 / (0.158384 − 0.087489) = 0.670 m, x = 0.0586 m.
    #[test]
    fn two_slopes_give_place_and_height() {
        let (x, h) = invert(5f64.to_radians(), 9f64.to_radians(), 0.3).unwrap();
        assert!((h - 0.6702).abs() < 1e-4 && (x - 0.058_64).abs() < 1e-4, "{x} {h}");
    }

    /// By hand: 20 and 24 kg behind, 12 and 8 kg 400 mm ahead, rear wheels 250 mm and casters 200 mm from the middle:
    /// x = 20·400/64 = 125 mm; y = (−4·250 + 4·200)/64 = −3.125 mm.
    #[test]
    fn four_scales_give_the_foot() {
        let contact = |caster: bool, x: f64, y: f64| chairwright_frame::Contact {
            caster,
            index: 0,
            at: Vec3::new(x, y, 0.0),
            gap: 0.0,
        };
        let settled = Settled {
            pose: chairwright_design::Frame3::IDENTITY,
            pitch: 0.0,
            roll: 0.0,
            contacts: vec![
                contact(false, 0.0, 0.25),
                contact(false, 0.0, -0.25),
                contact(true, 0.4, 0.2),
                contact(true, 0.4, -0.2),
            ],
            rock: 0.0,
        };
        let mut built = AsBuilt::default();
        for (key, kg) in [
            ("load_rear_left", 20.0),
            ("load_rear_right", 24.0),
            ("load_front_left", 12.0),
            ("load_front_right", 8.0),
        ] {
            built.values.insert(key.to_owned(), Band::point(kg));
        }
        let feet = on_scales(&settled, &built).unwrap();
        assert_eq!(feet.len(), 5);
        assert!((feet[0].0 - 0.125).abs() < 1e-12 && (feet[0].1 + 0.003_125).abs() < 1e-12, "{feet:?}");
        built.values.remove("load_front_right");
        assert!(on_scales(&settled, &built).is_none());
    }
}
