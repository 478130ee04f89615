//! Sections weakened by a drilled hole.

use std::f64::consts::{FRAC_PI_2, PI};

use super::principal::Properties;
use crate::capacity::{Figure, LEAST, Refusal, positive, within};

/// How far a hole goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Through {
    /// Both walls.
    Both,
    /// One wall, on the positive side of the hole's direction.
    One,
}

/// A tube cut by a round hole whose axis crosses the tube's. `angle` (rad) is that from the z axis to
/// the hole's axis, turning towards y: 0 takes the wall at the top and bottom fibre for a moment about
/// y, π/2 takes it on that moment's neutral axis.
///
/// Exact integrals of the strip that the drill takes from the ring. Stress concentration at the
/// hole's edge is not in it.
///
/// # Errors
/// A wall that is no wall, or a hole not smaller than the bore.
pub fn tube_with_hole(
    outer: f64,
    wall: f64,
    hole: f64,
    angle: f64,
    through: Through,
) -> Result<Properties, Refusal> {
    positive(Figure::Diameter, outer)?;
    // A rod is a tube whose wall is half its diameter; the last digit may be lost on the way here.
    within(Figure::Thickness, wall, LEAST, outer / 2.0 * (1.0 + 1e-9))?;
    let (r1, r0) = (outer / 2.0, bore(outer, wall));
    // A solid rod has no bore; something of it must be left beside the hole.
    within(Figure::Hole, hole, 0.0, if r0 > 0.0 { 2.0 * r0 } else { 0.99 * outer })?;
    within(Figure::Angle, angle, -1e6, 1e6)?;
    let (whole, ring) = (PI * (r1 * r1 - r0 * r0), PI / 4.0 * (power4(r1) - power4(r0)));
    if hole == 0.0 {
        return Ok(Properties { area: whole, centroid: [0.0; 2], iy: ring, iz: ring, iyz: 0.0 });
    }
    let [strip, first, across, along] = strip(hole / 2.0, r0, r1, through);
    let area = whole - strip;
    // In the hole's own axes: u across it, v along it.
    let v = -first / area;
    let (iu, iv) = (ring - along - area * v * v, ring - across);
    // The hole's axes are y and z turned by −angle: u = y cos − z sin, v = y sin + z cos.
    let (s, c) = libm::sincos(angle);
    Ok(Properties {
        area,
        centroid: [v * s, v * c],
        iy: iu * c * c + iv * s * s,
        iz: iu * s * s + iv * c * c,
        iyz: (iu - iv) * s * c,
    })
}

fn bore(outer: f64, wall: f64) -> f64 {
    match wall < outer / 2.0 * (1.0 - 1e-9) {
        true => outer / 2.0 - wall,
        false => 0.0,
    }
}

/// Area, `∫v`, `∫u²`, `∫v²` of what the drill takes.
fn strip(a: f64, r0: f64, r1: f64, through: Through) -> [f64; 4] {
    let walls = if through == Through::Both { 2.0 } else { 1.0 };
    let ring = |f: fn(f64, f64) -> f64| f(a, r1) - f(a, r0);
    let first = match through {
        Through::Both => 0.0,
        Through::One => ring(chord_firsts),
    };
    [walls * ring(chord), first, walls * ring(chord_squares), walls * ring(chord_cubes) / 3.0]
}

fn root(a: f64, r: f64) -> f64 {
    (r * r - a * a).max(0.0).sqrt()
}

/// Half-angle of the strip |u| ≤ a on a circle.
fn half(a: f64, r: f64) -> f64 {
    match a < r {
        true => libm::asin(a / r),
        false => FRAC_PI_2,
    }
}

/// `∫√(r²−u²) du` over |u| ≤ a.
fn chord(a: f64, r: f64) -> f64 {
    if r <= 0.0 { 0.0 } else { a * root(a, r) + r * r * half(a, r) }
}

/// `∫(r²−u²)/2 du` over |u| ≤ a: the first moment of one half.
fn chord_firsts(a: f64, r: f64) -> f64 {
    if a < r { a * r * r - a * a * a / 3.0 } else { 2.0 / 3.0 * r * r * r }
}

/// `∫u²√(r²−u²) du` over |u| ≤ a.
fn chord_squares(a: f64, r: f64) -> f64 {
    if r <= 0.0 { 0.0 } else { (power4(r) * half(a, r) - a * root(a, r) * (r * r - 2.0 * a * a)) / 4.0 }
}

/// `∫(r²−u²)^(3/2) du` over |u| ≤ a.
fn chord_cubes(a: f64, r: f64) -> f64 {
    if r <= 0.0 {
        0.0
    } else {
        (a * root(a, r) * (5.0 * r * r - 2.0 * a * a) + 3.0 * power4(r) * half(a, r)) / 4.0
    }
}

fn power4(r: f64) -> f64 {
    r * r * r * r
}

/// A rectangle, `width` along y and `height` along z, cut by a hole along y at the height `at` above
/// its middle: a strip is gone over the whole width. For a hole along z swap width and height.
///
/// # Errors
/// A hole that does not leave wood on both sides of it.
pub fn rectangle_with_hole(width: f64, height: f64, hole: f64, at: f64) -> Result<Properties, Refusal> {
    positive(Figure::Width, width)?;
    positive(Figure::Height, height)?;
    within(Figure::Hole, hole, 0.0, height)?;
    let room = (height - hole) / 2.0;
    within(Figure::Height, at, -room, room)?;
    let (gone, area) = (width * hole, width * (height - hole));
    let z = -gone * at / area;
    let iy = width * (height * height * height - hole * hole * hole) / 12.0 - gone * at * at - area * z * z;
    Ok(Properties { area, centroid: [0.0, z], iy, iz: area * width * width / 12.0, iyz: 0.0 })
}
