//! Whether two flat outlines are one: turned in their plane, or turned over.

/// Two places nearer than this, in metres, are one.
const ALIKE: f64 = 1e-5;

/// Whether one outline lies on the other, turned in its plane or turned over.
pub(crate) fn outline_alike(a: &[(f64, f64)], b: &[(f64, f64)]) -> bool {
    a.len() == b.len() && (turns_onto(&round(a), &round(b)) || turns_onto(&round(a), &over(b)))
}

/// Whether an outline that is turned over lies on itself again, turned in its plane.
pub(crate) fn is_own_mirror(outline: &[(f64, f64)]) -> bool {
    turns_onto(&round(outline), &over(outline))
}

/// What an outline is, wherever it lies and whichever way it is turned: from corner to corner, how long each edge is, how far the next
/// corner but one is, and how far that is to the left of the edge.
type Round = Vec<[f64; 3]>;

fn round(outline: &[(f64, f64)]) -> Round {
    let n = outline.len();
    let twice: f64 = (0..n).map(|k| cross((0.0, 0.0), outline[k], outline[(k + 1) % n])).sum();
    // however it was drawn, it is gone round to the left
    let left: Vec<(f64, f64)> =
        if twice < 0.0 { outline.iter().rev().copied().collect() } else { outline.to_vec() };
    let far = |p: (f64, f64), q: (f64, f64)| libm::hypot(q.0 - p.0, q.1 - p.1);
    (0..n)
        .map(|k| {
            let (a, b, c) = (left[k], left[(k + 1) % n], left[(k + 2) % n]);
            let edge = far(a, b);
            [edge, far(a, c), cross(a, b, c) / edge.max(ALIKE)]
        })
        .collect()
}

/// The same, turned over.
fn over(outline: &[(f64, f64)]) -> Round {
    round(&outline.iter().map(|p| (-p.0, p.1)).collect::<Vec<_>>())
}

/// Twice the area of a triangle, positive where it goes round to the left.
fn cross(a: (f64, f64), b: (f64, f64), c: (f64, f64)) -> f64 {
    (b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0)
}

fn turns_onto(a: &Round, b: &Round) -> bool {
    let n = a.len();
    let near = |x: &[f64; 3], y: &[f64; 3]| x.iter().zip(y).all(|(p, q)| (p - q).abs() < ALIKE);
    n == b.len() && (0..n.max(1)).any(|by| (0..n).all(|k| near(&a[k], &b[(k + by) % n])))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SKEW: [(f64, f64); 4] = [(0.0, 0.0), (0.4, 0.0), (0.4, 0.2), (0.0, 0.1)];
    const EVEN: [(f64, f64); 4] = [(0.0, 0.0), (0.4, 0.0), (0.3, 0.2), (0.1, 0.2)];

    /// Of one number of corners, one extent, and one area, (0.1 + 0.2)/2 x 0.4 = (0.4 + 0.2)/2 x 0.2 = 0.06 m2.
    #[test]
    fn alike_in_numbers_is_not_alike() {
        assert!(!outline_alike(&SKEW, &EVEN));
    }

    #[test]
    fn turned_and_turned_over_is_alike() {
        let turned: Vec<(f64, f64)> = SKEW.iter().map(|p| (1.0 - p.1, p.0)).collect();
        let mirrored: Vec<(f64, f64)> = SKEW.iter().map(|p| (-p.0, p.1)).collect();
        let other_start = [SKEW[2], SKEW[3], SKEW[0], SKEW[1]];
        let backward = [SKEW[3], SKEW[2], SKEW[1], SKEW[0]];
        for other in [&turned[..], &mirrored, &other_start, &backward] {
            assert!(outline_alike(&SKEW, other), "{other:?}");
        }
    }

    #[test]
    fn a_right_trapezoid_is_handed_and_an_even_one_is_not() {
        assert!(!is_own_mirror(&SKEW));
        assert!(is_own_mirror(&EVEN));
        assert!(is_own_mirror(&[(0.0, 0.0), (0.4, 0.0), (0.4, 0.2), (0.0, 0.2)]));
        // a parallelogram turned over leans the other way
        assert!(!is_own_mirror(&[(0.0, 0.0), (0.4, 0.0), (0.5, 0.2), (0.1, 0.2)]));
    }
}
