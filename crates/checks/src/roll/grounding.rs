//! Where the ground bends under the chair: the foot of a slope ahead of the foremost wheels and behind the rearmost,
//! whichever of them are casters, and its top between any two rows of wheels.
//!
//! A wheel of radius r rolls on a line that falls by β from a point P, D ahead of the wheel's contact and z above the
//! ground. The line is D sin β + (r - z) cos β = r from the axle, so β = asin(r / A) - atan((r - z) / D) with
//! A² = D² + (r - z)². Level with the ground (z = 0) β is zero.

use super::problem::{Place, Problem};
use super::profile::{Under, soles, undersides};
use super::{place, said};
use crate::Checked;
use crate::feet::feet;
use crate::layout::ONE_AXLE;
use chairwright_design::Design;
use chairwright_frame::{Frame, Settled};
use chairwright_quantity::Dimension;
use std::f64::consts::{FRAC_PI_2, PI};

const A: Dimension = Dimension::ANGLE;
const L: Dimension = Dimension::LENGTH;
const SOURCE: &str = "geometry: a line that touches the wheel and the part, ground that bends sharply";

/// A wheel from the side: its contact along the ground and its radius, in metres.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Rolling {
    /// Where it stands.
    pub at: f64,
    /// Its radius.
    pub radius: f64,
}

/// The steepest bend at which a point still clears a ground that turns up under this wheel, in radians; `None`
/// where the wheel itself is further out.
#[must_use]
pub fn under_wheel(wheel: Rolling, (x, z): (f64, f64)) -> Option<f64> {
    let (d, up) = ((x - wheel.at).abs(), wheel.radius - z);
    let far = (d * d + up * up).sqrt();
    (far > wheel.radius && d > 0.0).then(|| libm::asin(wheel.radius / far) - libm::atan2(up, d))
}

/// The sharpest crest that a point between two wheels clears, in radians.
#[must_use]
pub fn breakover(rear: Rolling, front: Rolling, point: (f64, f64)) -> Option<f64> {
    if rear.at >= point.0 || point.0 >= front.at {
        return None;
    }
    Some(under_wheel(rear, point)? + under_wheel(front, point)?)
}

/// The lowest angle, the part it belongs to and its point.
type Worst<'a> = Option<(f64, &'a str, (f64, f64))>;

fn worst<'a>(unders: &[Under<'a>], angle: impl Fn((f64, f64)) -> Option<f64>) -> Worst<'a> {
    let all = unders.iter().flat_map(|u| u.points.iter().map(move |p| (u.name, *p)));
    all.filter_map(|(name, p)| angle(p).map(|a| (a, name, p))).min_by(|a, b| a.0.total_cmp(&b.0))
}

/// The wheels from the side, whichever stand ahead. The smallest radius of each kind stands for all of it.
struct Wheels {
    /// The rearmost row: what overhangs behind hangs behind it.
    rear: Rolling,
    /// The foremost row, of it the wheel furthest back, casters as they trail: the longest way to what overhangs ahead.
    front: Rolling,
    /// Neighbours that the ground may bend between, each pair as far apart as it gets: casters ahead of the others turned round to
    /// the front, as they stand in rolling back, others as they trail.
    between: Vec<(Rolling, Rolling)>,
}

/// The sharpest crest between any two neighbours that a point clears.
fn crest(between: &[(Rolling, Rolling)], point: (f64, f64)) -> Option<f64> {
    between.iter().filter_map(|(rear, front)| breakover(*rear, *front, point)).min_by(f64::total_cmp)
}

/// Whether a point between two wheels surely clears a sharper crest than one of this sine and cosine, up to half a turn, told by
/// roots alone. The angle under one wheel is asin(r / A) - asin(u / A), u how far the point is below the axle; the sines and
/// cosines of both are A² times too large here.
fn clears((rear, front): (Rolling, Rolling), (x, z): (f64, f64), (sine, cosine): (f64, f64)) -> bool {
    let under = |wheel: Rolling| {
        let (d, r, up) = ((x - wheel.at).abs(), wheel.radius, wheel.radius - z);
        let square = d * d + up * up;
        let along = (square - r * r).max(0.0).sqrt();
        (r * d - up * along, along * d + r * up, square)
    };
    let ((s, c, n), (sin, cos, m)) = (under(rear), under(front));
    // with both within a quarter turn their sum is within half a turn, and the sine of what is left over tells
    let quarter = s >= 0.0 && c >= 0.0 && sin >= 0.0 && cos >= 0.0 && sine >= 0.0;
    quarter && (s * cos + c * sin) * cosine - (c * cos - s * sin) * sine > 1e-9 * n * m
}

/// The worst point for a crest. Most points clear far more than the worst so far, and need no arcs.
fn over_crest<'a>(unders: &[Under<'a>], between: &[(Rolling, Rolling)]) -> Worst<'a> {
    let mut worst: Worst<'a> = None;
    // of the worst so far
    let mut sincos = (0.0, 0.0);
    for (name, p) in unders.iter().flat_map(|u| u.points.iter().map(move |p| (u.name, *p))) {
        let first = worst.is_none();
        let inside = |(rear, front): &(Rolling, Rolling)| rear.at < p.0 && p.0 < front.at;
        let may = |pair: &&(Rolling, Rolling)| first || inside(pair) && !clears(**pair, p, sincos);
        let found = between.iter().filter(may).filter_map(|(rear, front)| breakover(*rear, *front, p));
        let Some(angle) = found.min_by(f64::total_cmp) else { continue };
        if worst.is_none_or(|w| angle.total_cmp(&w.0).is_lt()) {
            worst = Some((angle, name, p));
            // a crest below level ground or beyond half a turn is no measure for others
            sincos = if (0.0..=PI).contains(&angle) { libm::sincos(angle) } else { (-1.0, 0.0) };
        }
    }
    worst
}

fn wheels(design: &Design, settled: &Settled) -> Option<Wheels> {
    let radius = |caster: bool| {
        let wheels = design.wheels.iter().filter(|_| !caster).map(|w| w.radius);
        wheels.chain(design.casters.iter().filter(|_| caster).map(|c| c.radius)).min_by(f64::total_cmp)
    };
    let mut all: Vec<Row> = Vec::new();
    for caster in [false, true] {
        let Some(radius) = radius(caster) else { continue };
        for c in settled.contacts.iter().filter(|c| c.caster == caster) {
            let swings = if caster { 2.0 * design.casters.get(c.index)?.trail.max(0.0) } else { 0.0 };
            all.push(Row { wheel: Rolling { at: c.at.x, radius }, turned: c.at.x + swings });
        }
    }
    all.sort_by(|a, b| a.wheel.at.total_cmp(&b.wheel.at));
    let mut rows: Vec<Row> = Vec::new();
    for one in all {
        match rows.last_mut() {
            Some(row) if one.wheel.at - row.wheel.at <= ONE_AXLE => row.join(&one),
            _ => rows.push(one),
        }
    }
    let (first, last) = (rows.first()?, rows.last()?);
    if rows.len() < 2 {
        return None;
    }
    let pair = |w: &[Row]| (w[0].wheel, Rolling { at: w[1].turned, ..w[1].wheel });
    Some(Wheels { rear: first.wheel, front: last.wheel, between: rows.windows(2).map(pair).collect() })
}

/// Wheels within one axle's spread.
struct Row {
    /// The one furthest back, of the least radius among them.
    wheel: Rolling,
    /// Where the foremost of them stands, casters turned round to the front.
    turned: f64,
}

impl Row {
    fn join(&mut self, other: &Row) {
        self.wheel.radius = self.wheel.radius.min(other.wheel.radius);
        self.turned = self.turned.max(other.turned);
    }
}

pub(crate) fn grounding(
    design: &Design,
    frame: &Frame,
    settled: &Settled,
    out: &mut Checked,
    found: &mut Vec<Problem>,
) {
    let Some(Wheels { rear, front, between }) = wheels(design, settled) else { return };
    let mut unders = undersides(frame, settled);
    if let Some(rider) = &out.rider {
        let feet = feet(design, rider, &mut out.assumptions);
        unders.push(Under { name: "the toes", points: soles(design, settled, rider, &feet) });
    }
    let foot = worst(&unders, |p| if p.0 > front.at { under_wheel(front, p) } else { None });
    let behind = worst(&unders, |p| if p.0 < rear.at { under_wheel(rear, p) } else { None });
    let top = over_crest(&unders, &between);
    let over = |x: f64| between.iter().find(|(a, b)| a.at < x && x < b.at).copied();
    let turned = top.and_then(|w| over(w.2.0)).map_or(front, |pair| pair.1);
    let cases = [
        (Place::Foot, "ramp.approach", foot, front),
        (Place::Crest, "ramp.breakover", top, turned),
        (Place::Behind, "ramp.departure", behind, rear),
    ];
    let slope = place(design, "slope").map(f64::abs).filter(|s| *s > 0.0);
    for (case, name, worst, wheel) in cases {
        let formula = match case {
            Place::Crest => {
                "the sum, for the rear wheel and the caster turned to the front, of asin(r / A) - atan((r - z) / D)"
            }
            _ => "asin(r / A) - atan((r - z) / D), A² = D² + (r - z)²",
        };
        let Some((at, part, point)) = worst.filter(|w| w.0 < FRAC_PI_2) else {
            let formula = format!("{formula}: no part reaches out so far that a slope could touch it");
            out.figures.put(name, (FRAC_PI_2, A), formula, SOURCE, &[]);
            continue;
        };
        // a part on the floor or below it would need ground that falls away
        let level = at <= 1e-9;
        let at = at.max(0.0);
        let formula = if level {
            format!("{formula}, none left: {part} touches level ground")
        } else {
            format!("{formula}, least for {part}")
        };
        let inputs = [
            ("radius r", wheel.radius, L),
            ("height z", point.1, L),
            ("distance D from the contact", (point.0 - wheel.at).abs(), L),
        ];
        out.figures.put(name, (at, A), formula, SOURCE, &inputs);
        if let Some(slope) = slope.filter(|s| *s >= at) {
            let raise = raise(case, slope, (&between, wheel), point);
            let origin = said(design, "conditions.slope");
            found.push(Problem::Grounds { origin, slope, at, part: part.to_owned(), place: case, raise });
        }
    }
    super::edge::edges(design, (rear, front, between.len() + 1), &unders, found);
}

/// By how much a point has to go up to clear the slope, by halving.
fn raise(
    case: Place,
    slope: f64,
    (between, wheel): (&[(Rolling, Rolling)], Rolling),
    point: (f64, f64),
) -> f64 {
    let clears = |up: f64| {
        let p = (point.0, point.1 + up);
        let angle = match case {
            Place::Foot | Place::Behind => under_wheel(wheel, p),
            Place::Crest => crest(between, p),
        };
        angle.is_none_or(|a| a > slope)
    };
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..40 {
        let mid = f64::midpoint(low, high);
        if clears(mid) { high = mid } else { low = mid }
    }
    high
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A wheel without radius: the plain right triangle.
    #[test]
    fn a_point_wheel_gives_the_plain_triangle() {
        let wheel = Rolling { at: 0.0, radius: 1e-9 };
        let got = under_wheel(wheel, (0.3, 0.06)).unwrap();
        assert!((got - libm::atan(0.2)).abs() < 1e-6);
    }

    /// By hand, in coordinates: a wheel of 75 mm touches a ground that turns up by 12 degrees 75 tan 6 = 7.883 mm ahead
    /// of its contact; 300 mm ahead the slope is (300 - 7.883) tan 12 = 62.091 mm high.
    #[test]
    fn a_round_wheel_stands_back_from_the_bend() {
        let got = under_wheel(Rolling { at: 0.0, radius: 0.075 }, (0.300, 0.062_091)).unwrap();
        assert!((got.to_degrees() - 12.0).abs() < 1e-3, "{}", got.to_degrees());
    }

    /// A crest of twice 10 degrees, the same on both sides, by the same hand: from the middle of two wheels of 100 mm
    /// 500 mm apart, (250 - 100 tan 5) tan 10 = 42.538 mm.
    #[test]
    fn a_crest_is_the_sum_of_both_sides() {
        let (rear, front) = (Rolling { at: 0.0, radius: 0.1 }, Rolling { at: 0.5, radius: 0.1 });
        let got = breakover(rear, front, (0.25, 0.042_538)).unwrap();
        assert!((got.to_degrees() - 20.0).abs() < 2e-3, "{}", got.to_degrees());
        assert!(breakover(rear, front, (0.6, 0.05)).is_none());
    }

    /// What is passed over by roots clears a sharper crest by arcs as well.
    #[test]
    fn roots_tell_what_arcs_do() {
        let pair = (Rolling { at: 0.0, radius: 0.3 }, Rolling { at: 0.45, radius: 0.07 });
        let mut told = 0;
        for k in 0..2_000 {
            let (x, z) = (0.45 * f64::from(k % 50) / 50.0, 0.6 * f64::from(k / 50) / 40.0);
            let Some(angle) = breakover(pair.0, pair.1, (x, z)) else { continue };
            for crest in [0.1, 0.4, 0.9, 1.6, 2.5] {
                let passed = clears(pair, (x, z), libm::sincos(crest));
                assert!(!passed || angle > crest, "{x} {z}: {angle} {crest}");
                told += u32::from(passed);
            }
        }
        assert!(told > 1_000, "{told}");
    }
}
