//! A rectangle round the corner of two corridors.

use std::f64::consts::FRAC_PI_2;

/// Angles that are tried before the worst one is narrowed down.
const STEPS: u32 = 360;

/// Room that is left when a rectangle of `length` turns round the corner of corridors `a` and `b` wide, at its
/// tightest, in metres: negative is how much too wide it is.
///
/// At every angle φ the rectangle is pushed against both outer walls. It passes the inner corner when it is no wider than
/// a sin φ + b cos φ - length sin φ cos φ, or ends before it: width ≤ (a - length cos φ) / sin φ or
/// (b - length sin φ) / cos φ. It also has to lie in both corridors.
#[must_use]
pub fn corner_room(length: f64, width: f64, a: f64, b: f64) -> f64 {
    let ratio = |over: f64, under: f64| if under > 1e-12 { over / under } else { f64::INFINITY.copysign(over) };
    let clear = |t: f64| {
        let (s, c) = libm::sincos(t);
        let past = a * s + b * c - length * s * c;
        past.max(ratio(a - length * c, s)).max(ratio(b - length * s, c))
    };
    let step = FRAC_PI_2 / f64::from(STEPS);
    let angles = (0..=STEPS).map(|k| step * f64::from(k));
    let worst = angles.min_by(|x, y| clear(*x).total_cmp(&clear(*y))).unwrap_or(0.0);
    let (mut low, mut high) = ((worst - step).max(0.0), (worst + step).min(FRAC_PI_2));
    for _ in 0..50 {
        let (x, y) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
        if clear(x) > clear(y) { low = x } else { high = y }
    }
    clear(worst).min(clear(f64::midpoint(low, high))).min(a).min(b) - width
}

/// The greatest length that gets round, by halving; `None` when no length does.
#[must_use]
pub(crate) fn longest(width: f64, a: f64, b: f64) -> Option<f64> {
    if corner_room(width, width, a, b) < 0.0 {
        return None;
    }
    let (mut low, mut high) = (width, 10.0);
    for _ in 0..50 {
        let mid = f64::midpoint(low, high);
        if corner_room(mid, width, a, b) >= 0.0 { low = mid } else { high = mid }
    }
    Some(low)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A ladder without width, a classic of calculus: the longest is (a^(2/3) + b^(2/3))^(3/2).
    #[test]
    fn a_ladder_is_the_textbook_length() {
        for (a, b) in [(0.9, 0.9), (0.8, 1.2), (0.75, 1.5)] {
            let third = |x: f64| libm::pow(x, 2.0 / 3.0);
            let length = libm::pow(third(a) + third(b), 1.5);
            assert!(corner_room(length, 0.0, a, b).abs() < 1e-9);
        }
    }

    /// A short rectangle ends before the inner corner: 0.6 m long in corridors of 1 m and 0.8 m it turns as it likes, and only
    /// the narrower corridor bounds its width.
    #[test]
    fn a_short_rectangle_is_bounded_by_the_corridors() {
        assert!((corner_room(0.6, 0.5, 1.0, 0.8) - 0.3).abs() < 1e-9);
    }

    /// Two corridors of one width: the tightest place is at 45 degrees, a √2 - length / 2 by hand.
    #[test]
    fn equal_corridors_are_tightest_at_half_a_turn() {
        let got = corner_room(1.1, 0.65, 0.9, 0.9);
        assert!((got - (0.9 * std::f64::consts::SQRT_2 - 0.55 - 0.65)).abs() < 1e-9);
        let long = longest(0.65, 0.9, 0.9).unwrap();
        assert!((long - 2.0 * (0.9 * std::f64::consts::SQRT_2 - 0.65)).abs() < 1e-9);
    }
}
