//! Where fasteners in wood may stand, how far they must bite, and whether they meet.

use crate::capacity::{Figure, MOST, Refusal, positive, within};
use crate::source::Source;

/// Least distances, m, along the grain unless said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Distances {
    /// From the end that the load pulls towards.
    pub loaded_end: f64,
    /// From an end that the load pushes away from.
    pub free_end: f64,
    /// From the edge that the load pulls towards, across the grain.
    pub loaded_edge: f64,
    /// From any other edge, across the grain.
    pub free_edge: f64,
    /// Between neighbours in a row along the grain.
    pub in_row: f64,
    /// Between rows, across the grain.
    pub between_rows: f64,
    /// The source.
    pub source: Source,
}

/// What stands in the wood.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Placed {
    /// A bolt or lag of ¼ in or more, in softwood.
    BoltInSoftwood,
    /// The same in hardwood.
    BoltInHardwood,
    /// A nail or screw in a lead hole.
    WithLeadHole,
    /// A nail or screw without a lead hole.
    WithoutLeadHole,
}

const BOLTS: Source =
    Source::memory("NDS tables 11.5.1A to D: 7 D (hardwood 5 D) loaded end, 4 D loaded edge, 4 D in a row");
const NAILS: Source = Source::memory("NDS commentary, minimum distances of nails and wood screws");

/// Least distances for the full value, by the diameter in m.
///
/// # Errors
/// A diameter not above zero.
pub fn least(placed: Placed, diameter: f64) -> Result<Distances, Refusal> {
    let d = positive(Figure::Diameter, diameter)?;
    let of = |m: [f64; 6], source| Distances {
        loaded_end: m[0] * d,
        free_end: m[1] * d,
        loaded_edge: m[2] * d,
        free_edge: m[3] * d,
        in_row: m[4] * d,
        between_rows: m[5] * d,
        source,
    };
    Ok(match placed {
        Placed::BoltInSoftwood => of([7.0, 4.0, 4.0, 1.5, 4.0, 1.5], BOLTS),
        Placed::BoltInHardwood => of([5.0, 4.0, 4.0, 1.5, 4.0, 1.5], BOLTS),
        Placed::WithLeadHole => of([10.0, 5.0, 5.0, 2.5, 10.0, 3.0], NAILS),
        Placed::WithoutLeadHole => of([15.0, 10.0, 10.0, 2.5, 15.0, 5.0], NAILS),
    })
}

/// How a screw or nail sits in a stack.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bite {
    /// Length within the last piece, m, not counting what pokes out.
    pub penetration: f64,
    /// That over the whole length of the fastener.
    pub share: f64,
    /// At least two thirds of it (read: Wood Handbook and NDS rules).
    pub two_thirds: bool,
    /// How far the point comes out behind, m; 0 where it stays inside.
    pub pokes_out: f64,
}

/// A fastener `length` long that goes through `through` (head piece and what lies between) into a
/// piece `into` thick, all in m along the fastener.
///
/// # Errors
/// Lengths not above zero.
pub fn bite(length: f64, through: f64, into: f64) -> Result<Bite, Refusal> {
    positive(Figure::Length, length)?;
    positive(Figure::Thickness, through)?;
    positive(Figure::Thickness, into)?;
    let past = (length - through).max(0.0);
    let penetration = past.min(into);
    let share = penetration / length;
    // A rounding of the last digit must not turn an exact two thirds into less.
    let two_thirds = share >= 2.0 / 3.0 - 1e-9;
    Ok(Bite { penetration, share, two_thirds, pokes_out: (past - into).max(0.0) })
}

/// Lead hole for a root diameter, m: 70 % of it in softwood, 90 % in hardwood (read: Wood Handbook and
/// NDS rules for screws in withdrawal).
#[must_use]
pub fn lead_hole(root: f64, hardwood: bool) -> f64 {
    root * if hardwood { 0.9 } else { 0.7 }
}

/// A fastener in space: head and point, and its diameter, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shank {
    /// Head.
    pub from: [f64; 3],
    /// Point.
    pub to: [f64; 3],
    /// Diameter.
    pub diameter: f64,
}

/// Room between two fasteners, m: least distance of their axes less the sum of their diameters, half
/// of which is wood to be left between them (common practice). Below zero they collide.
///
/// # Errors
/// A place that is no number, or a diameter not above zero.
pub fn room(a: &Shank, b: &Shank) -> Result<f64, Refusal> {
    for shank in [a, b] {
        positive(Figure::Diameter, shank.diameter)?;
    }
    Ok(axis_distance(a, b)? - a.diameter - b.diameter)
}

/// Least distance between two segments, m.
///
/// # Errors
/// A place that is no number: it must not read as far away.
pub fn axis_distance(a: &Shank, b: &Shank) -> Result<f64, Refusal> {
    for place in [a.from, a.to, b.from, b.to].concat() {
        within(Figure::Length, place.abs(), 0.0, MOST)?;
    }
    Ok(segments(a, b))
}

fn segments(a: &Shank, b: &Shank) -> f64 {
    let (u, v, w) = (sub(a.to, a.from), sub(b.to, b.from), sub(a.from, b.from));
    let (uu, uv, vv) = (dot(u, u), dot(u, v), dot(v, v));
    let (uw, vw) = (dot(u, w), dot(v, w));
    let gap = |s: f64, t: f64| {
        let d: [f64; 3] = std::array::from_fn(|k| w[k] + s * u[k] - t * v[k]);
        dot(d, d).sqrt()
    };
    let along = |n: f64, by: f64| if by > 0.0 { (n / by).clamp(0.0, 1.0) } else { 0.0 };
    // The least lies within both, or at an end of one against the nearest point of the other.
    let ends = [
        gap(0.0, along(vw, vv)),
        gap(1.0, along(vw + uv, vv)),
        gap(along(-uw, uu), 0.0),
        gap(along(uv - uw, uu), 1.0),
    ];
    let least = ends.into_iter().fold(f64::INFINITY, f64::min);
    let det = uu * vv - uv * uv;
    let (s, t) = (uv * vw - vv * uw, uu * vw - uv * uw);
    let inside = det > 1e-12 * uu * vv && (0.0..=det).contains(&s) && (0.0..=det).contains(&t);
    if inside { gap(s / det, t / det).min(least) } else { least }
}

fn sub(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    std::array::from_fn(|k| a[k] - b[k])
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}
