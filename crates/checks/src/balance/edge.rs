//! The outline of the ground contacts, and how far a foot point is from leaving it.

/// A point on the ground: forward and left, in metres.
pub type Point = (f64, f64);

/// Where a ray from a point leaves a polygon.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Exit {
    /// How far it is.
    pub distance: f64,
    /// Index of the contact at one end of the edge.
    pub from: usize,
    /// Index of the contact at its other end.
    pub to: usize,
}

/// How far a point on the ground can move in a unit direction before it leaves the smallest convex
/// outline around the contacts. `None` when it never meets it.
#[must_use]
pub fn exit_distance(point: Point, direction: Point, contacts: &[Point]) -> Option<Exit> {
    let (dx, dy) = direction;
    let mut best: Option<Exit> = None;
    for i in 0..contacts.len() {
        for j in i + 1..contacts.len() {
            let (ax, ay) = (contacts[i].0 - point.0, contacts[i].1 - point.1);
            let (ex, ey) = (contacts[j].0 - contacts[i].0, contacts[j].1 - contacts[i].1);
            let det = ex * dy - ey * dx;
            if det.abs() < 1e-15 {
                continue;
            }
            // a + s·e = t·d
            let s = (ay * dx - ax * dy) / det;
            if !(-1e-12..=1.0 + 1e-12).contains(&s) {
                continue;
            }
            let t = (ax + s * ex) * dx + (ay + s * ey) * dy;
            if best.is_none_or(|b| t > b.distance) {
                best = Some(Exit { distance: t, from: i, to: j });
            }
        }
    }
    best
}

/// The slope that tips a body whose edge is `distance` away and whose centre of mass is `height`
/// above the edge; a body whose centre of mass is not above the edge does not tip: 90 degrees.
#[must_use]
pub fn tip_angle(distance: f64, height: f64) -> f64 {
    if height <= 0.0 {
        return std::f64::consts::FRAC_PI_2;
    }
    libm::atan2(distance.max(0.0), height)
}
