//! How far fasteners in wood must bite, and whether they meet; where they may stand is in [`crate::keep`].

use crate::capacity::{Figure, MOST, Refusal, positive, within};

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
