//! How deep two convex bodies overlap: the least shift that parts them.
//!
//! A polytope of support points of A − B around the origin grows outward at its nearest face until
//! nothing lies beyond it (the expanding polytope, van den Bergen, Game Developers Conference 2001). The
//! face's plane is then the shift. Where the search ends early the shift found is too long, never too short.

use crate::clear::convex::Support;
use crate::clear::distance::{Apart, Corner, Ends, apart_from, corner};
use chairwright_design::Vec3;

/// Depths this near each other are one, in metres.
const CLOSE: f64 = 1e-5;
const STEPS: usize = 160;

/// Distance of two bodies, negative when they overlap.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Gap {
    /// In metres: never more than the true distance by more than a tenth of a micrometre; an overlap no
    /// deeper than told.
    pub size: f64,
    /// Nearest or deepest points.
    pub on: (Vec3, Vec3),
}

/// The gap between two bodies. Beyond `enough` only a distance that they have at least is found.
pub(crate) fn gap(a: &impl Support, b: &impl Support, enough: f64) -> Gap {
    gap_from(a, b, enough, b.middle() - a.middle())
}

/// The same, beginning with a direction from the first to the second.
pub(crate) fn gap_from(a: &impl Support, b: &impl Support, enough: f64, toward: Vec3) -> Gap {
    match apart_from(a, b, Ends { above: enough, below: 0.0 }, toward) {
        Apart::By { least, on } => Gap { size: least, on },
        Apart::Overlap(corners) => {
            let (size, at) = depth(a, b, &corners);
            Gap { size: -size, on: (at.a, at.b) }
        }
    }
}

#[derive(Clone, Copy)]
struct Face {
    corners: [usize; 3],
    normal: Vec3,
    far: f64,
}

fn face(all: &[Corner], corners: [usize; 3]) -> Option<Face> {
    let [a, b, c] = corners.map(|i| all[i].at);
    let n = (b - a).cross(c - a);
    let size = n.norm();
    if size < 1e-18 {
        return None;
    }
    let normal = n * (1.0 / size);
    Some(Face { corners, normal, far: normal.dot(a) })
}

/// How deep two bodies overlap, from corners around the origin, and the corner that lies deepest.
pub(crate) fn depth(a: &impl Support, b: &impl Support, seen: &[Corner]) -> (f64, Corner) {
    let Some((mut all, mut faces)) = start(a, b, seen) else {
        return (0.0, seen[0]);
    };
    let mut best = (f64::INFINITY, all[0]);
    for _ in 0..STEPS {
        let Some(nearest) = faces.iter().copied().min_by(|p, q| p.far.total_cmp(&q.far)) else { break };
        let next = corner(a, b, nearest.normal);
        let reach = next.at.dot(nearest.normal);
        if reach < best.0 {
            best = (reach, next);
        }
        if best.0 - nearest.far < CLOSE || !grow(&mut all, &mut faces, next) {
            break;
        }
    }
    (best.0.max(0.0), best.1)
}

/// Takes a corner in: the faces that see it go, and new ones join it to the rim of the hole.
fn grow(all: &mut Vec<Corner>, faces: &mut Vec<Face>, next: Corner) -> bool {
    let sees = |f: &Face| f.normal.dot(next.at) - f.far > 1e-12;
    let mut rim: Vec<[usize; 2]> = Vec::new();
    for f in faces.iter().filter(|f| sees(f)) {
        for k in 0..3 {
            let edge = [f.corners[k], f.corners[(k + 1) % 3]];
            match rim.iter().position(|e| *e == [edge[1], edge[0]]) {
                Some(i) => {
                    rim.swap_remove(i);
                }
                None => rim.push(edge),
            }
        }
    }
    if rim.is_empty() {
        return false;
    }
    faces.retain(|f| !sees(f));
    all.push(next);
    let last = all.len() - 1;
    faces.extend(rim.into_iter().filter_map(|[i, j]| face(all, [i, j, last])));
    true
}

/// A tetrahedron of support points with the origin inside or on it.
fn start(a: &impl Support, b: &impl Support, seen: &[Corner]) -> Option<(Vec<Corner>, Vec<Face>)> {
    let mut all: Vec<Corner> = seen.to_vec();
    let axes = [Vec3::X, Vec3::Y, Vec3::Z];
    let aside = |all: &[Corner]| -> Vec<Vec3> {
        match all {
            [_] => axes.iter().flat_map(|d| [*d, -*d]).collect(),
            [p, q] => {
                let along = (q.at - p.at).unit().unwrap_or(Vec3::X);
                let u = along.any_across();
                let w = along.cross(u);
                vec![u, -u, w, -w]
            }
            _ => {
                let n = (all[1].at - all[0].at).cross(all[2].at - all[0].at);
                vec![n, -n]
            }
        }
    };
    while all.len() < 4 {
        let next = aside(&all).into_iter().map(|d| corner(a, b, d)).find(|c| adds(&all, c.at))?;
        all.push(next);
    }
    let turn = (all[1].at - all[0].at).cross(all[2].at - all[0].at).dot(all[3].at - all[0].at);
    if turn > 0.0 {
        all.swap(0, 1);
    }
    let sides = [[0, 1, 2], [0, 2, 3], [0, 3, 1], [1, 3, 2]];
    let faces: Vec<Face> = sides.into_iter().filter_map(|s| face(&all, s)).collect();
    (faces.len() == 4).then_some((all, faces))
}

/// Whether a point widens a point to a line, a line to a face, a face to a body.
fn adds(all: &[Corner], p: Vec3) -> bool {
    let d = p - all[0].at;
    match all {
        [_] => d.norm() > 1e-9,
        [_, q] => d.cross(q.at - all[0].at).norm() > 1e-15,
        _ => (all[1].at - all[0].at).cross(all[2].at - all[0].at).dot(d).abs() > 1e-20,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::clear::convex::{Axis, Both, Convex, Form, Turn};

    fn brick(at: Vec3, half: Vec3) -> Convex {
        let edges = [Vec3::X * half.x, Vec3::Y * half.y, Vec3::Z * half.z];
        Convex { form: Form::Brick(edges), skin: 0.0, middle: at, radius: half.norm() }
    }

    fn size(a: &Convex, b: &Convex) -> f64 {
        gap(a, b, f64::INFINITY).size
    }

    fn same(got: f64, wanted: f64) {
        assert!((got - wanted).abs() < 3e-6, "{got} against {wanted}");
    }

    /// Closed forms: distance of points, faces, corners, capsules and cylinders, by Pythagoras.
    #[test]
    fn apart_as_by_pythagoras() {
        let unit = Vec3::new(0.1, 0.1, 0.1);
        let a = brick(Vec3::ZERO, unit);
        same(size(&a, &brick(Vec3::new(0.5, 0.05, -0.02), unit)), 0.3);
        same(size(&a, &brick(Vec3::new(0.3, 0.3, 0.3), unit)), 0.1 * 3.0_f64.sqrt());
        same(size(&a, &brick(Vec3::new(0.3, 0.3, 0.0), unit)), 0.1 * 2.0_f64.sqrt());
        let ball = Convex::points(vec![Vec3::new(0.4, 0.4, 0.1)], 0.05);
        same(size(&a, &ball), 0.3 * 2.0_f64.sqrt() - 0.05);
        // crossed bars: the distance of their middle lines less both radii
        let one = Convex::cylinder(Vec3::ZERO, Vec3::X, 0.5, 0.02);
        let two = Convex::cylinder(Vec3::new(0.1, 0.2, 0.3), Vec3::Y, 0.5, 0.03);
        same(size(&one, &two), 0.25);
        // end to end on one line, and rim to rim beside it: hypot(0.2, 0.3 - 0.02 - 0.03)
        let three = Convex::cylinder(Vec3::new(1.2, 0.0, 0.0), Vec3::X, 0.5, 0.03);
        same(size(&one, &three), 0.2);
        let four = Convex::cylinder(Vec3::new(1.2, 0.0, 0.3), Vec3::X, 0.5, 0.03);
        same(size(&one, &four), (0.04_f64 + 0.0625).sqrt());
        // a tyre of 300 mm and 20 mm section over a plate: 0.5 - 0.3, and beside it: 0.4 - 0.02
        let tyre = Convex::disc(Vec3::new(0.0, 0.0, 0.5), Vec3::Y, 0.3, 0.02);
        let plate = brick(Vec3::new(0.0, 0.0, -0.1), Vec3::new(1.0, 1.0, 0.1));
        same(size(&tyre, &plate), 0.2);
        same(size(&tyre, &brick(Vec3::new(0.0, 0.5, 0.5), unit)), 0.38);
    }

    fn deep(got: f64, wanted: f64) {
        assert!((got - wanted).abs() < 2e-5, "{got} against {wanted}");
    }

    /// Closed forms of the least shift that parts two bodies.
    #[test]
    fn overlaps_as_deep_as_the_least_shift() {
        let unit = Vec3::new(0.1, 0.1, 0.1);
        let a = brick(Vec3::ZERO, unit);
        deep(size(&a, &brick(Vec3::new(0.15, 0.02, 0.03), unit)), -0.05);
        deep(size(&a, &a), -0.2);
        let ball = Convex::points(vec![Vec3::ZERO], 0.05);
        deep(size(&a, &ball), -0.15);
        deep(size(&ball, &ball.moved(Vec3::new(0.03, 0.04, 0.0))), -0.05);
        let one = Convex::cylinder(Vec3::ZERO, Vec3::X, 0.5, 0.02);
        deep(size(&one, &Convex::cylinder(Vec3::new(0.0, 0.0, 0.01), Vec3::Y, 0.5, 0.03)), -0.04);
        // a disc through a plate's edge: it must go out by how far it is in
        let disc = Convex::cylinder(Vec3::new(0.35, 0.0, 0.0), Vec3::Y, 0.01, 0.3);
        let plate = brick(Vec3::ZERO, Vec3::new(0.1, 0.5, 0.5));
        deep(size(&disc, &plate), -0.05);
    }

    /// Linear congruence (Numerical Recipes' quick generator), so that cases never change.
    struct Dice(u32);
    impl Dice {
        fn roll(&mut self) -> f64 {
            self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            f64::from(self.0) / f64::from(u32::MAX)
        }
        fn point(&mut self, size: f64) -> Vec3 {
            Vec3::new(self.roll() - 0.5, self.roll() - 0.5, self.roll() - 0.5) * (2.0 * size)
        }
        fn body(&mut self) -> Convex {
            let at = self.point(0.17);
            let axis = self.point(1.0).unit().unwrap_or(Vec3::X);
            match (self.roll() * 4.0) as u32 {
                0 => Convex::cylinder(at, axis, 0.01 + self.roll() * 0.3, 0.01 + self.roll() * 0.1),
                1 => Convex::disc(at, axis, 0.1 + self.roll() * 0.2, 0.02),
                2 => Convex::points((0..6).map(|_| at + self.point(0.2)).collect(), 0.0),
                _ => Convex::around(vec![
                    Convex::cylinder(at, axis, 0.01, 0.05),
                    Convex::points(vec![at + axis * 0.2], 0.01),
                ]),
            }
        }
    }

    /// An independent sampler: the gap is the greatest, over directions u, of how far the plane of A
    /// lies behind the plane of B (negative: overlap). Six thousand directions, then a walk
    /// uphill whose steps turn, so that it does not stick at a ridge; it can only end too low, and ends within 50 µm.
    fn sampled(a: &Convex, b: &Convex) -> f64 {
        let lag = |u: Vec3| b.furthest(-u).dot(u) - a.furthest(u).dot(u);
        let mut tops: Vec<(f64, Vec3)> = (0..6_000)
            .map(|i| {
                let z = 1.0 - 2.0 * (f64::from(i) + 0.5) / 6_000.0;
                let (s, c) = libm::sincos(2.399_963_229_728_653 * f64::from(i));
                let r = (1.0 - z * z).sqrt();
                let u = Vec3::new(r * c, r * s, z);
                (lag(u), u)
            })
            .collect();
        tops.sort_by(|p, q| q.0.total_cmp(&p.0));
        let mut best = f64::NEG_INFINITY;
        for (start, u) in tops.into_iter().take(6) {
            let (mut top, mut u, mut step, mut phase) = (start, u, 0.02, 0.0);
            while step > 1e-9 {
                phase += 0.61;
                let s = u.any_across();
                let t = u.cross(s);
                let around =
                    (0..24).map(|k| libm::sincos(phase + std::f64::consts::FRAC_PI_6 / 2.0 * f64::from(k)));
                let moved = around.filter_map(|(y, x)| (u + s * (x * step) + t * (y * step)).unit());
                let next = moved.map(|w| (lag(w), w)).max_by(|p, q| p.0.total_cmp(&q.0));
                match next {
                    Some((l, w)) if l > top => (top, u) = (l, w),
                    _ => step *= 0.88,
                }
            }
            best = best.max(top);
        }
        best
    }

    #[test]
    fn random_pairs_agree_with_an_independent_sampler() {
        let mut dice = Dice(7);
        let (mut deep, mut clear) = (0, 0);
        for _ in 0..150 {
            let (a, b) = (dice.body(), dice.body());
            let (got, wanted) = (size(&a, &b), sampled(&a, &b));
            assert!(got > wanted - 2e-5 && got < wanted + 5e-5, "{got} against {wanted}: {a:?} {b:?}");
            if got < 0.0 { deep += 1 } else { clear += 1 }
        }
        assert!(deep >= 15 && clear >= 15, "{deep} overlap, {clear} are apart");
    }

    /// The body around two turns holds the body at every turn between, but for the arc's height.
    #[test]
    fn between_two_turns_nothing_leaves_their_hull_by_more_than_the_arc() {
        let axis = Axis { through: Vec3::new(0.1, 0.0, 0.0), along: Vec3::Z };
        let body = Convex::cylinder(Vec3::new(0.0, 0.0, -0.1), Vec3::Y, 0.02, 0.08);
        let reach = libm::hypot(0.18, 0.02);
        let turned = |angle: f64| body.turned(&Turn::new(axis, angle));
        let (first, last) = (turned(0.0), turned(0.5));
        let hull = Both(&first, &last);
        let arc = reach * (1.0 - libm::cos(0.25));
        for k in 0..=50 {
            let now = turned(0.01 * f64::from(k));
            for i in 0..200 {
                let (s, c) = libm::sincos(0.1 * f64::from(i));
                let u = Vec3::new(c, s, 0.3 * (f64::from(i) / 100.0 - 1.0));
                let out = (now.furthest(u) - hull.furthest(u)).dot(u) / u.norm();
                assert!(out <= arc + 1e-12, "{out} beyond {arc}");
            }
        }
    }
}
