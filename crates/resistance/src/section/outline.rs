//! Sections of any outline: integrals round a polygon (Green's theorem), summed over pieces.

use super::principal::Properties;
use crate::capacity::{Figure, MOST, Refusal, positive, within};

/// A piece of a section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece<'a> {
    /// Its corners, y and z in m, either way round, not crossing itself.
    pub corners: &'a [[f64; 2]],
    /// Its modulus over the reference modulus: 1 for a section of one material, −1 for a hole in it.
    pub weight: f64,
}

/// Corners of a rectangle by two opposite ones.
#[must_use]
pub fn rectangle(from: [f64; 2], to: [f64; 2]) -> [[f64; 2]; 4] {
    [from, [to[0], from[1]], to, [from[0], to[1]]]
}

/// Properties of one outline.
///
/// # Errors
/// Fewer than three corners, or no area.
pub fn outline(corners: &[[f64; 2]]) -> Result<Properties, Refusal> {
    assembled(&[Piece { corners, weight: 1.0 }])
}

/// Properties of pieces glued into one: the transformed section. Pieces of a modulus other than the
/// reference weigh in proportion; holes weigh −1 times what they are cut from. Pieces must not overlap
/// (not checked).
///
/// # Errors
/// No pieces, fewer than three corners, or no area on the whole.
pub fn assembled(pieces: &[Piece<'_>]) -> Result<Properties, Refusal> {
    // About the first corner, so that a section far from the origin keeps its digits.
    let origin = pieces.first().and_then(|p| p.corners.first()).copied().unwrap_or([0.0; 2]);
    let mut sum = [0.0; 6];
    for piece in pieces {
        within(Figure::Count, piece.corners.len() as f64, 3.0, MOST)?;
        for (total, part) in sum.iter_mut().zip(integrals(piece.corners, origin)) {
            *total += piece.weight * part;
        }
    }
    let [area, sy, sz, yy, zz, yz] = sum;
    positive(Figure::Area, area)?;
    let (y, z) = (sy / area, sz / area);
    Ok(Properties {
        area,
        centroid: [origin[0] + y, origin[1] + z],
        iy: zz - area * z * z,
        iz: yy - area * y * y,
        iyz: yz - area * y * z,
    })
}

/// `∫1, ∫y, ∫z, ∫y², ∫z², ∫yz` of a polygon about a point, positive whichever way round it is given.
fn integrals(corners: &[[f64; 2]], origin: [f64; 2]) -> [f64; 6] {
    let mut sum = [0.0; 6];
    for (k, a) in corners.iter().enumerate() {
        let b = corners[(k + 1) % corners.len()];
        let ([y0, z0], [y1, z1]) = ([a[0] - origin[0], a[1] - origin[1]], [b[0] - origin[0], b[1] - origin[1]]);
        let cross = y0 * z1 - y1 * z0;
        let parts = [
            1.0 / 2.0,
            (y0 + y1) / 6.0,
            (z0 + z1) / 6.0,
            (y0 * y0 + y0 * y1 + y1 * y1) / 12.0,
            (z0 * z0 + z0 * z1 + z1 * z1) / 12.0,
            (y0 * z1 + 2.0 * y0 * z0 + 2.0 * y1 * z1 + y1 * z0) / 24.0,
        ];
        for (total, part) in sum.iter_mut().zip(parts) {
            *total += cross * part;
        }
    }
    let sign = if sum[0] < 0.0 { -1.0 } else { 1.0 };
    sum.map(|s| sign * s)
}
