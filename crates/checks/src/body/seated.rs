//! Where on the seat the body sits: on the loaded cushion, as deep as a sling hangs through, and back against what the
//! buttocks meet.
//!
//! The back of the pelvis lies along the back support, so that from the hip joint square to that plane it is as far as
//! `hip_ahead` says, however far the back leans. A back support that ends above the seat is gone on with straight down to it; a sling
//! hangs through by what its text says. Without a back support the buttocks are at the rear edge of the seat.

use super::{Lengths, Notes, support};
use crate::assumed::Assumed;
use crate::problem::{Problem, Unseated};
use chairwright_design::{Design, Shape, Support, SupportKind, Vec3};

/// Back support and seat may miss each other by so much: a post's half, and a cushion's edge, more is a gap that the pelvis goes
/// through, or a seat that begins behind what is sat on. Common practice, no source.
const MEETS: f64 = 0.040;
/// A back that leans further than this from square to the seat is a bed; where it meets the buttocks is not known: cosine.
const UPRIGHT: f64 = 0.3;

/// The seat's loaded upper side at its rear edge.
pub(super) fn surface(seat: &Support, normal: Vec3) -> Vec3 {
    let cushion = seat.cushion.as_ref().map_or(0.0, |c| c.2);
    seat.from + normal * (cushion - seat.sag.unwrap_or(0.0))
}

/// How far ahead of the seat's rear edge the hip joint is, along the seat.
pub(super) fn hip(design: &Design, surface: Vec3, (along, normal): (Vec3, Vec3), lengths: &Lengths) -> f64 {
    let Some((back, before)) = back(design, along) else { return lengths.ahead };
    let hangs = back.from - before * back.sag.unwrap_or(0.0);
    let from = surface + normal * lengths.above;
    (lengths.ahead - (from - hangs).dot(before)) / along.dot(before)
}

/// The back support that the pelvis lies against, and the unit vector square to it, to the rider.
fn back(design: &Design, along: Vec3) -> Option<(&Support, Vec3)> {
    let back = support(design, SupportKind::Back)?;
    let up = (back.to - back.from).unit()?;
    let before = Vec3::Y.cross(up).unit()?;
    (along.dot(before) > UPRIGHT).then_some((back, before))
}

/// Tells of a back support that does not meet the seat, and lists slings of which nobody says how far they hang through.
pub(super) fn told(design: &Design, seat: &Support, along: Vec3, notes: &mut Notes) {
    for part in [Some(seat), support(design, SupportKind::Back)].into_iter().flatten() {
        let sling = matches!(design.stocks[part.stock].shape, Shape::Webbing { .. });
        if sling && part.sag.is_none() {
            notes.assumptions.push(Assumed::SagUnsaid(part.kind));
        }
    }
    let Some((back, before)) = back(design, along) else { return };
    // drawn on down to the seat it stands so far ahead of the rear edge
    let ahead = (back.from - seat.from).dot(before) / along.dot(before);
    if ahead.abs() > MEETS + 1e-9 {
        notes.problems.push(Problem::Unseated { how: Unseated::BackOff { ahead }, origin: Some(back.origin) });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    const LENGTHS: Lengths = Lengths { ahead: 0.125, above: 0.085, trunk: 0.5, stature: 1.7 };

    fn part(kind: SupportKind, from: Vec3, to: Vec3, sag: Option<f64>) -> Support {
        let name = String::new();
        let origin = chairwright_design::Origin(0);
        let stock = chairwright_design::StockId::new(0);
        Support { kind, name, stock, from, to, width: 0.4, bands: 1, sag, cushion: None, origin }
    }

    fn hip_with(back: Support) -> f64 {
        let design = Design { supports: vec![back], ..Design::default() };
        hip(&design, Vec3::ZERO, (Vec3::X, Vec3::Z), &LENGTHS)
    }

    /// Upright at the rear edge: as far ahead as the measure says. 80 mm behind the edge and 20 mm of sag: 125 - 80 - 20 = 25 mm.
    #[test]
    fn an_upright_back_holds_the_hips() {
        let up = |x: f64, sag| part(SupportKind::Back, Vec3::new(x, 0.0, 0.1), Vec3::new(x, 0.0, 0.5), sag);
        assert!((hip_with(up(0.0, None)) - 0.125).abs() < 1e-12);
        assert!((hip_with(up(-0.08, Some(0.02))) - 0.025).abs() < 1e-12);
    }

    /// By hand, leaning back 30 degrees from the rear edge: 85 mm up the plane is 85 tan 30 = 49.07 mm behind the edge there; the
    /// hip joint stands 125 square to it, 125 / cos 30 = 144.34 mm along the seat: 144.34 - 49.07 = 95.26 mm.
    #[test]
    fn a_leaning_back_takes_the_hips_along() {
        let (s, c) = libm::sincos(30.0 * PI / 180.0);
        let back = part(SupportKind::Back, Vec3::ZERO, Vec3::new(-0.5 * s, 0.0, 0.5 * c), None);
        assert!((hip_with(back) - 0.09526).abs() < 1e-5);
    }
}
