//! Points and lines: which place of one line is nearest to another.

use chairwright_design::Vec3;

/// How far along the line from `a` to `b` the place nearest to a point is (m), and how far away.
pub(crate) fn nearest_on((a, b): (Vec3, Vec3), p: Vec3) -> (f64, f64) {
    let Some(way) = (b - a).unit() else { return (0.0, (p - a).norm()) };
    let t = (p - a).dot(way).clamp(0.0, (b - a).norm());
    (t, (a + way * t - p).norm())
}

/// Distances along two lines (m) of the places where they are nearest, and the gap between.
pub(crate) fn nearest_between(one: (Vec3, Vec3), other: (Vec3, Vec3)) -> (f64, f64, f64) {
    let (u, v) = (one.1 - one.0, other.1 - other.0);
    let (l, m) = (u.norm(), v.norm());
    let ends = [
        on_second(one, other, 0.0),
        on_second(one, other, l),
        on_first(one, other, 0.0),
        on_first(one, other, m),
    ];
    let (Some(u), Some(v)) = (u.unit(), v.unit()) else { return least(&ends) };
    let w = one.0 - other.0;
    let c = u.dot(v);
    let square = 1.0 - c * c;
    if square > 1e-9 {
        let s = (c * v.dot(w) - u.dot(w)) / square;
        let t = (v.dot(w) - c * u.dot(w)) / square;
        if (0.0..=l).contains(&s) && (0.0..=m).contains(&t) {
            let gap = (one.0 + u * s - other.0 - v * t).norm();
            return least(&[(s, t, gap), ends[0], ends[1], ends[2], ends[3]]);
        }
    }
    least(&ends)
}

fn on_second(one: (Vec3, Vec3), other: (Vec3, Vec3), s: f64) -> (f64, f64, f64) {
    let way = (one.1 - one.0).unit().unwrap_or(Vec3::X);
    let (t, gap) = nearest_on(other, one.0 + way * s);
    (s, t, gap)
}

fn on_first(one: (Vec3, Vec3), other: (Vec3, Vec3), t: f64) -> (f64, f64, f64) {
    let (t, s, gap) = on_second(other, one, t);
    (s, t, gap)
}

/// The first of the nearest; what is nearer by less than a nanometre is as near.
fn least(all: &[(f64, f64, f64)]) -> (f64, f64, f64) {
    let mut best = all[0];
    for one in all {
        if one.2 < best.2 - 1e-9 {
            best = *one;
        }
    }
    best
}

/// As the solver wants it.
pub(crate) fn array(v: Vec3) -> [f64; 3] {
    [v.x, v.y, v.z]
}

/// As the design has it.
pub(crate) fn vector(a: [f64; 3]) -> Vec3 {
    Vec3::new(a[0], a[1], a[2])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn crossing_skew_and_parallel_lines() {
        let v = Vec3::new;
        // the axes of x and of y, 0.3 apart, cross at 1 and 2 along them
        let (s, t, gap) =
            nearest_between((v(-1.0, 0.0, 0.0), v(1.0, 0.0, 0.0)), (v(0.0, -2.0, 0.3), v(0.0, 2.0, 0.3)));
        assert!((s - 1.0).abs() < 1e-12 && (t - 2.0).abs() < 1e-12 && (gap - 0.3).abs() < 1e-12);
        // beside its end: nearest is the end
        let (s, t, gap) =
            nearest_between((v(0.0, 0.0, 0.0), v(1.0, 0.0, 0.0)), (v(3.0, -1.0, 0.0), v(3.0, 1.0, 0.0)));
        assert!((s - 1.0).abs() < 1e-12 && (t - 1.0).abs() < 1e-12 && (gap - 2.0).abs() < 1e-12);
        // in line with a gap
        let (s, t, gap) =
            nearest_between((v(0.0, 0.0, 0.0), v(1.0, 0.0, 0.0)), (v(1.5, 0.0, 0.0), v(2.0, 0.0, 0.0)));
        assert!((s - 1.0).abs() < 1e-12 && t.abs() < 1e-12 && (gap - 0.5).abs() < 1e-12);
    }
}
