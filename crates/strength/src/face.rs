//! The face that two pieces share: how far each of them reaches from its middle.

use crate::bar::{Bar, Of};
use crate::structure::Structure;
use chairwright_design::Vec3;

/// What two pieces share.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Face {
    /// Its middle.
    pub at: Vec3,
    /// Its sizes along and across, m.
    pub size: [f64; 2],
    /// How far each piece reaches from the middle on its nearer side, along and across, m.
    pub reach: [[f64; 2]; 2],
}

/// An end so near to the joint stops there, m.
const AT_JOINT: f64 = 1e-3;

/// From where to where something is along a direction, seen from a place, m.
type Span = (f64, f64);

/// The face of two bars about a place on it, by its two directions. A lapped member that ends at the joint runs on
/// over the whole of the other, as it is cut.
pub(crate) fn face(all: &Structure, bars: [&Bar; 2], at: Vec3, axes: [Vec3; 2], lap: bool) -> Face {
    let span = |k: usize, at: Vec3, e: Vec3| {
        let (low, high) = span(all, bars[k], at, e);
        let past = if lap { bars[1 - k].half_along(e) } else { 0.0 };
        let on = |end: f64| if end.abs() < AT_JOINT { past } else { 0.0 };
        (low - on(low), high + on(high))
    };
    let mut at = at;
    let mut size = [0.0; 2];
    for k in 0..2 {
        let [a, b] = [0, 1].map(|bar| span(bar, at, axes[k]));
        let (low, high) = (a.0.max(b.0), a.1.min(b.1));
        size[k] = (high - low).max(0.0);
        if low.is_finite() && high.is_finite() && high > low {
            at += axes[k] * low.midpoint(high);
        }
    }
    let reach = [0, 1].map(|bar| {
        axes.map(|e| {
            let (low, high) = span(bar, at, e);
            high.min(-low).max(0.0)
        })
    });
    Face { at, size, reach }
}

fn span(all: &Structure, bar: &Bar, at: Vec3, e: Vec3) -> Span {
    let everywhere = (f64::NEG_INFINITY, f64::INFINITY);
    match bar.of {
        Of::Panel(k) => {
            let outline = all.outlines.iter().find(|(of, _)| *of == k).map(|(_, corners)| corners);
            outline.and_then(|corners| within(corners, at, e)).unwrap_or(everywhere)
        }
        Of::Support(k) => {
            let deck = all.decks.iter().find(|d| d.support == k);
            let corners = deck.map(|d| {
                let side = d.side * (d.width / 2.0);
                [d.ends.0 + side, d.ends.1 + side, d.ends.1 - side, d.ends.0 - side]
            });
            corners.and_then(|c| within(&c, at, e)).unwrap_or(everywhere)
        }
        Of::Member(_) | Of::Box(_) if bar.way().dot(e).abs() > 0.7 => {
            let (p, q) = ((bar.ends.0 - at).dot(e), (bar.ends.1 - at).dot(e));
            (p.min(q), p.max(q))
        }
        Of::Member(_) | Of::Box(_) => {
            let middle = (bar.at(bar.nearest(at).0) - at).dot(e);
            (middle - bar.half_along(e), middle + bar.half_along(e))
        }
    }
}

/// Where a line through a place is inside an outline, on either side of it; `None` where the place lies outside. A line
/// along an edge of the outline counts as inside only where it is.
fn within(corners: &[Vec3], at: Vec3, e: Vec3) -> Option<Span> {
    let normal = (0..corners.len()).fold(Vec3::ZERO, |sum, k| {
        sum + (corners[k] - corners[0]).cross(corners[(k + 1) % corners.len()] - corners[0])
    });
    let across = normal.unit()?.cross(e).unit()?;
    let flat = |p: Vec3| ((p - at).dot(e), (p - at).dot(across));
    let mut hits: Vec<f64> = Vec::new();
    for k in 0..corners.len() {
        let (a, b) = (flat(corners[k]), flat(corners[(k + 1) % corners.len()]));
        if (a.1 > 0.0) != (b.1 > 0.0) {
            hits.push(a.0 + (b.0 - a.0) * a.1 / (a.1 - b.1));
        }
    }
    let before = hits.iter().copied().filter(|x| *x <= 0.0);
    let after = hits.iter().copied().filter(|x| *x > 0.0);
    // an odd number of crossings on either side: inside
    let inside = before.clone().count() % 2 == 1 && after.clone().count() % 2 == 1;
    inside.then(|| (before.fold(f64::NEG_INFINITY, f64::max), after.fold(f64::INFINITY, f64::min)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// An outline like an L: 0.4 m by 0.3 m without its upper right quarter. A level line 0.1 m up runs 0.4 m, one 0.2 m up
    /// only 0.2 m.
    #[test]
    fn a_line_inside_of_an_outline() {
        let p = |x: f64, z: f64| Vec3::new(x, 0.0, z);
        let l = [p(0.0, 0.0), p(0.4, 0.0), p(0.4, 0.15), p(0.2, 0.15), p(0.2, 0.3), p(0.0, 0.3)];
        let at = |x, z| within(&l, p(x, z), Vec3::X);
        let near = |got: Option<Span>, want: Span| {
            let got = got.unwrap();
            assert!((got.0 - want.0).abs() < 1e-12 && (got.1 - want.1).abs() < 1e-12, "{got:?}");
        };
        near(at(0.1, 0.1), (-0.1, 0.3));
        near(at(0.1, 0.2), (-0.1, 0.1));
        assert_eq!(at(0.3, 0.2), None);
    }
}
