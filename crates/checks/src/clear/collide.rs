//! What runs into each other as the chair is set otherwise: at a stop, in a state, or on the way there.
//!
//! A pair counts that moves against each other, is free of each other at some position and one inside the other at another.
//! What is one inside the other everywhere belongs together: a tube in a tube, members at their joint.

use crate::clear::convex::Convex;
use crate::clear::depth::gap;
use crate::clear::ways::{Sort, Stage, Thing, moving, rows};
use chairwright_design::Vec3;

/// What touches no deeper than this is free, in metres: drawings are not exact.
const FREE: f64 = 0.001;
/// What is deeper inside than this runs into it. Common practice, no source: wood and pipe give way by less.
const DEEP: f64 = 0.003;

/// Two parts that run into each other.
#[derive(Clone, PartialEq, Debug)]
pub struct Collided {
    /// What moves.
    pub one: String,
    /// What it runs into.
    pub other: String,
    /// How deep, at each position, in metres; nothing where they are free of each other.
    pub depths: Vec<f64>,
}

impl Collided {
    /// The position where they are deepest inside each other among some, and how deep; `None` where they are free at all.
    #[must_use]
    pub fn worst(&self, among: impl Fn(usize) -> bool) -> Option<(usize, f64)> {
        let some = self.depths.iter().copied().enumerate().filter(|(k, d)| among(*k) && *d > DEEP);
        some.fold(None, |best: Option<(usize, f64)>, (k, d)| match best {
            Some((_, b)) if b >= d => best,
            _ => Some((k, d)),
        })
    }
}

/// What runs into each other at the positions of one way; with `remade` parts whose shape changes on it are left out.
#[must_use]
pub fn collided(stages: &[Stage], remade: bool) -> Vec<Collided> {
    let rows = rows(stages, remade);
    let mut out = Vec::new();
    for (i, j, first_moves) in moving(&rows) {
        let (a, b) = (&rows[i], &rows[j]);
        if !kept_apart(a[0].sort, b[0].sort) {
            continue;
        }
        let depths: Vec<f64> = a.iter().zip(b).map(|(p, q)| depth(p, q)).collect();
        let free = depths.iter().any(|d| *d <= FREE);
        if free && depths.iter().any(|d| *d > DEEP) {
            let (one, other) = if first_moves { (a, b) } else { (b, a) };
            out.push(Collided { one: one[0].name.clone(), other: other[0].name.clone(), depths });
        }
    }
    out
}

/// Whether two sorts of things have no business in each other.
fn kept_apart(a: Sort, b: Sort) -> bool {
    let by_wheel = |s: Sort| matches!(s, Sort::Wheel | Sort::Brake);
    a != Sort::Loose && b != Sort::Loose && !(by_wheel(a) && by_wheel(b))
}

/// How deep one thing is inside another.
fn depth(a: &Thing, b: &Thing) -> f64 {
    let apart = |[least, most]: [Vec3; 2], [low, high]: [Vec3; 2]| {
        let over = |x: Vec3| x.x > 0.0 || x.y > 0.0 || x.z > 0.0;
        over(low - most) || over(least - high)
    };
    let mut deepest = 0.0;
    for (p, p_box) in a.parts.iter().zip(&a.boxes) {
        for (q, _) in b.parts.iter().zip(&b.boxes).filter(|(_, q_box)| !apart(*p_box, **q_box)) {
            deepest = f64::max(deepest, inside(p, q));
        }
    }
    deepest
}

fn inside(p: &Convex, q: &Convex) -> f64 {
    (-gap(p, q, 0.0).size).max(0.0)
}
