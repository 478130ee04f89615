//! Slots: what they leave is two halves side by side, which bend each by itself under a shear that would slide them on each
//! other, as the posts of a ladder without braces do.

use crate::form::{Drilled, Form};
use std::f64::consts::PI;

/// Greatest stress, Pa, that a shear across a form (N, along its y and z) makes in the halves beside a slot: each carries half of
/// it over half of the slot, `V·a/4` (strength of materials: an opening in a web, its halves bent as an S). Nothing beside a
/// hole, where the halves have no length.
pub(crate) fn halves(form: &Form, slot: &Drilled, across: [f64; 2]) -> f64 {
    if !slot.is_slot() {
        return 0.0;
    }
    let ways = slot.way.map_or_else(|| vec![[1.0, 0.0], [0.0, 1.0]], |way| vec![way]);
    let one = |[y, z]: [f64; 2]| {
        let slides = (across[1] * y - across[0] * z).abs();
        slides * slot.long / 4.0 / half_modulus(form, [y, z], slot.diameter)
    };
    ways.into_iter().map(one).fold(0.0, f64::max)
}

/// Whether a slot is longer than its bar is wide across the drill: what it then bears in twist, and when its halves give way
/// sideways, no published rule tells.
pub(crate) fn opens(form: &Form, slot: &Drilled) -> bool {
    let (y, z) = form.half();
    let wide = match slot.way {
        Some([a, b]) => 2.0 * if a.abs() > b.abs() { z } else { y },
        None => 2.0 * y.min(z),
    };
    slot.is_slot() && slot.long > wide
}

/// Section modulus, m³, of the half beside a slot so wide, for bending that opens the slot; of a round bar at least.
fn half_modulus(form: &Form, [y, z]: [f64; 2], wide: f64) -> f64 {
    match *form {
        Form::Tube { outer, wall } => arc(outer, wall, wide),
        Form::Rod { diameter } => {
            // the rectangle in the segment that is half as high as it
            let (r, high) = (diameter / 2.0, (diameter - wide) / 2.0);
            let at = wide / 2.0 + high / 2.0;
            2.0 * (r * r - at * at).max(0.0).sqrt() * high * high / 24.0
        }
        Form::Flat { level, upright } | Form::Hollow { level, upright, .. } => {
            let (size, thick) = if y.abs() > z.abs() { (upright, level) } else { (level, upright) };
            let high = ((size - wide) / 2.0).max(0.0);
            let thick = if let Form::Hollow { wall, .. } = *form { wall } else { thick };
            thick * high * high / 6.0
        }
    }
}

/// The same of a tube: a thin arc about its own middle, `r³t(θ + sin θ cos θ − 2 sin²θ/θ)` over its farther fibre.
fn arc(outer: f64, wall: f64, wide: f64) -> f64 {
    let r = (outer - wall) / 2.0;
    let angle = PI / 2.0 - libm::asin((wide / (2.0 * r)).min(1.0));
    let (s, c) = libm::sincos(angle);
    let middle = r * s / angle;
    let second = r * r * r * wall * (angle + s * c - 2.0 * s * s / angle);
    second / ((r - middle).max(middle - r * c) + wall / 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn slot(way: [f64; 2], diameter: f64, long: f64) -> Drilled {
        Drilled { long, ..Drilled::hole(Some(way), diameter) }
    }

    /// 45 by 45 mm, slotted 20 mm wide and 200 mm long: two laths of 12.5 by 45 mm, 1 172 mm³ each. 60 N that slide them on each other
    /// bend each with 30 N over 100 mm: 3 N m, 2.56 MPa. Along the drill they do not slide. A hole has no halves.
    #[test]
    fn a_slotted_board_is_two_laths() {
        let board = Form::Flat { level: 0.045, upright: 0.045 };
        let long = slot([1.0, 0.0], 0.020, 0.200);
        assert!((halves(&board, &long, [0.0, 60.0]) / 2.56e6 - 1.0).abs() < 1e-9);
        assert_eq!(halves(&board, &long, [60.0, 0.0]), 0.0);
        assert_eq!(halves(&board, &slot([1.0, 0.0], 0.020, 0.020), [0.0, 60.0]), 0.0);
        assert!(opens(&board, &long) && !opens(&board, &slot([1.0, 0.0], 0.020, 0.044)));
    }

    /// Half a thin ring of radius 20 mm and wall 2 mm: I = r³t(π/2 − 4/π) = 16 000 · 0.29756 = 4 761 mm⁴; its middle is at 2r/π = 12.73
    /// mm, its ends are 12.73 + 1 mm from that: 346.7 mm³.
    #[test]
    fn a_slit_tube_is_two_arcs() {
        assert!((arc(0.042, 0.002, 0.0) * 1e9 - 346.7).abs() < 0.1, "{}", arc(0.042, 0.002, 0.0) * 1e9);
    }
}
