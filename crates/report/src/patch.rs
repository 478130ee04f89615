//! One thing to paint: its outline in the picture, and how near to the eye its surface is at each point of it.

use crate::view::{Bounds, Point, View};
use chairwright_design::Vec3;
use chairwright_frame::ears;
use std::fmt::Write as _;

/// How near a surface is to the eye, in mm, by the place in the picture.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) enum Surface {
    /// A flat one: its nearness at the picture's origin, and what it grows by to the right and down.
    Flat([f64; 3]),
    /// The side of a cylinder toward the eye: one end and the other (right, down, near), and its radius.
    Round([Vec3; 2], f64),
}

/// One outline to paint.
#[derive(Clone, Debug)]
pub(crate) struct Patch {
    /// Closed outlines, filled where an odd number of them lies around a point.
    pub loops: Vec<Vec<Point>>,
    /// Lines without a filling.
    pub lines: Vec<[Point; 2]>,
    /// What is drawn of the outline, where the patch is a piece of a larger one; `None` for all of it.
    pub rim: Option<Vec<[Point; 2]>>,
    pub surface: Surface,
    /// Which of two is painted first where nothing else decides.
    pub near: f64,
    pub class: &'static str,
    pub name: String,
}

/// A place in the picture with its nearness.
pub(crate) fn seen(view: View, p: Vec3) -> Vec3 {
    let ((x, y), near) = view.project(p);
    Vec3::new(x, y, near)
}

impl Surface {
    /// The plane through corners of a flat shape; level where it stands on its edge.
    pub(crate) fn flat(view: View, corners: &[Vec3]) -> Surface {
        let points: Vec<Vec3> = corners.iter().map(|p| seen(view, *p)).collect();
        let Some(first) = points.first().copied() else { return Surface::level(0.0) };
        let normal = points.windows(2).fold(Vec3::ZERO, |s, w| s + (w[0] - first).cross(w[1] - first));
        if normal.z.abs() < 1e-3 * normal.norm() {
            return Surface::level(points.iter().map(|p| p.z).fold(f64::NEG_INFINITY, f64::max));
        }
        let (gx, gy) = (-normal.x / normal.z, -normal.y / normal.z);
        Surface::Flat([first.z - gx * first.x - gy * first.y, gx, gy])
    }

    /// As near everywhere.
    pub(crate) fn level(near: f64) -> Surface {
        Surface::Flat([near, 0.0, 0.0])
    }

    /// The side of a bar; lengths in metres.
    pub(crate) fn round(view: View, from: Vec3, to: Vec3, radius: f64) -> Surface {
        Surface::Round([seen(view, from), seen(view, to)], radius * 1e3)
    }

    /// Nearness at a place in the picture.
    pub(crate) fn near(&self, (x, y): Point) -> f64 {
        match self {
            Surface::Flat([at, gx, gy]) => at + gx * x + gy * y,
            Surface::Round([from, to], radius) => round(*from, *to, *radius, (x, y)),
        }
    }
}

/// Where the line of sight meets a cylinder first: the nearer root of |w|² − (w·d)² = r², with w from its end and d its axis.
fn round(from: Vec3, to: Vec3, radius: f64, (x, y): Point) -> f64 {
    let length = (to - from).norm();
    let Some(d) = (to - from).unit() else { return from.z + radius };
    let (x, y) = (x - from.x, y - from.y);
    let s = x * d.x + y * d.y;
    let a = 1.0 - d.z * d.z;
    let end = |t: f64| if d.z.abs() > 1e-6 { (t - s) / d.z } else { 0.0 };
    if a < 1e-3 {
        return from.z + (length * d.z).max(0.0);
    }
    let inside = (d.z * d.z * s * s - a * (x * x + y * y - s * s - radius * radius)).max(0.0);
    let z = (d.z * s + inside.sqrt()) / a;
    let t = s + z * d.z;
    // beyond an end the lid is seen, where it faces the eye and the line of sight meets it
    let lid = match t {
        t if t > length && d.z > 0.0 => Some(length),
        t if t < 0.0 && d.z < 0.0 => Some(0.0),
        _ => None,
    };
    let meets = |z: f64, t: f64| (Vec3::new(x, y, z) - d * t).norm() <= radius * 1.01;
    let seen = lid.map(|t| (end(t), t)).filter(|(z, t)| meets(*z, *t));
    from.z + seen.map_or(z, |(lid, _)| lid)
}

impl Patch {
    pub(crate) fn filled(
        loops: Vec<Vec<Point>>,
        surface: Surface,
        near: f64,
        class: &'static str,
        name: &str,
    ) -> Patch {
        Patch { loops, lines: Vec::new(), rim: None, surface, near, class, name: name.to_owned() }
    }

    /// Whether what lies behind shines through: it is not drawn as a body, and never cut.
    pub(crate) fn clear(&self) -> bool {
        self.class == "rider"
    }

    pub(crate) fn bounds(&self) -> Bounds {
        let mut all = Bounds::default();
        self.loops.iter().flatten().chain(self.lines.iter().flatten()).for_each(|p| all.take(*p));
        all
    }

    /// Convex pieces that cover the same, each turning the same way.
    pub(crate) fn pieces(&self) -> Vec<Vec<Point>> {
        const SECTOR: usize = 3;
        let lines = self.lines.iter().map(|[a, b]| strip(*a, *b));
        let flat: Vec<Vec<Point>> = match self.loops.as_slice() {
            [outer, inner] if outer.len() == inner.len() => (0..outer.len())
                .step_by(SECTOR)
                .map(|i| {
                    let j = (i + SECTOR) % outer.len();
                    vec![outer[i], outer[j], inner[j], inner[i]]
                })
                .collect(),
            loops => loops.iter().flat_map(|l| convex(l)).collect(),
        };
        flat.into_iter().chain(lines).map(turned_left).collect()
    }

    /// The path to fill, and to draw where nothing was cut off.
    pub(crate) fn path(&self) -> String {
        let mut out = String::new();
        self.loops.iter().for_each(|l| close(l, &mut out));
        stretches(&self.lines, &mut out);
        out
    }

    /// What is drawn of a piece's outline.
    pub(crate) fn rim_path(&self) -> Option<String> {
        let rim = self.rim.as_ref()?;
        let mut out = String::new();
        stretches(rim, &mut out);
        Some(out)
    }

    /// The patch in strips across its longest way, or nothing where it cannot be cut.
    pub(crate) fn cut(&self, count: u32) -> Vec<Patch> {
        // strips overlap by a hair, so that nothing shines through between them
        const HAIR: f64 = 0.15;
        let [outline] = self.loops.as_slice() else { return Vec::new() };
        if !self.lines.is_empty() || self.clear() || !is_convex(outline) {
            return Vec::new();
        }
        let Some((way, low, high)) = longest(outline) else { return Vec::new() };
        let all: Vec<[Point; 2]> = match &self.rim {
            Some(rim) => rim.clone(),
            None => (0..outline.len()).map(|i| [outline[i], outline[(i + 1) % outline.len()]]).collect(),
        };
        let step = (high - low) / f64::from(count);
        (0..count)
            .map(|k| {
                let (from, to) = (low + step * f64::from(k), low + step * f64::from(k + 1));
                let back = (-way.0, -way.1);
                let piece = half(&half(outline, way, from - HAIR), back, -to - HAIR);
                let rim = all.iter().filter_map(|s| within(*s, way, from, to)).collect();
                Patch { loops: vec![piece], rim: Some(rim), ..self.clone() }
            })
            .collect()
    }
}

fn close(points: &[Point], out: &mut String) {
    for (i, p) in points.iter().enumerate() {
        let _ = write!(out, "{}{:.1} {:.1}", if i == 0 { "M" } else { "L" }, p.0, p.1);
    }
    out.push('Z');
}

/// Stretches that follow each other are joined.
fn stretches(all: &[[Point; 2]], out: &mut String) {
    let mut pen: Option<Point> = None;
    for [a, b] in all {
        if pen != Some(*a) {
            let _ = write!(out, "M{:.1} {:.1}", a.0, a.1);
        }
        let _ = write!(out, "L{:.1} {:.1}", b.0, b.1);
        pen = Some(*b);
    }
}

/// A line as something that has an area.
fn strip(a: Point, b: Point) -> Vec<Point> {
    const HALF: f64 = 0.2;
    let (x, y) = (b.0 - a.0, b.1 - a.1);
    let n = libm::hypot(x, y).max(1e-9);
    let (x, y) = (-y / n * HALF, x / n * HALF);
    vec![(a.0 - x, a.1 - y), (b.0 - x, b.1 - y), (b.0 + x, b.1 + y), (a.0 + x, a.1 + y)]
}

fn turn(a: Point, b: Point, c: Point) -> f64 {
    (b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0)
}

/// Twice the area of an outline, positive where it turns left.
pub(crate) fn area(points: &[Point]) -> f64 {
    (2..points.len()).map(|i| turn(points[0], points[i - 1], points[i])).sum()
}

fn turned_left(mut points: Vec<Point>) -> Vec<Point> {
    if area(&points) < 0.0 {
        points.reverse();
    }
    points
}

fn is_convex(points: &[Point]) -> bool {
    let n = points.len();
    let at = |i: usize| turn(points[i], points[(i + 1) % n], points[(i + 2) % n]);
    (0..n).all(|i| at(i) >= -1e-6) || (0..n).all(|i| at(i) <= 1e-6)
}

fn convex(points: &[Point]) -> Vec<Vec<Point>> {
    if points.len() < 4 || is_convex(points) {
        return vec![points.to_vec()];
    }
    let flat: Vec<Vec3> = points.iter().map(|p| Vec3::new(p.0, p.1, 0.0)).collect();
    let normal = if area(points) < 0.0 { -Vec3::Z } else { Vec3::Z };
    ears(&flat, normal).iter().map(|t| t.iter().map(|i| points[*i as usize]).collect()).collect()
}

/// The longest way through an outline, as a unit direction, and from where to where it reaches that way.
fn longest(points: &[Point]) -> Option<(Point, f64, f64)> {
    let mut best = (0.0, (1.0, 0.0));
    for (i, p) in points.iter().enumerate() {
        for q in &points[i + 1..] {
            let (x, y) = (q.0 - p.0, q.1 - p.1);
            let n = libm::hypot(x, y);
            if n > best.0 + 1e-6 {
                best = (n, (x / n, y / n));
            }
        }
    }
    let (length, way) = best;
    let along = points.iter().map(|p| p.0 * way.0 + p.1 * way.1);
    let low = along.clone().fold(f64::INFINITY, f64::min);
    let high = along.fold(f64::NEG_INFINITY, f64::max);
    (length > 0.0).then_some((way, low, high))
}

/// What of a convex outline lies beyond a distance in a direction.
pub(crate) fn half(points: &[Point], way: Point, from: f64) -> Vec<Point> {
    let beyond = |p: Point| p.0 * way.0 + p.1 * way.1 - from;
    let mut out = Vec::with_capacity(points.len() + 1);
    for (i, p) in points.iter().enumerate() {
        let q = points[(i + 1) % points.len()];
        let (a, b) = (beyond(*p), beyond(q));
        if a >= 0.0 {
            out.push(*p);
        }
        if (a < 0.0) != (b < 0.0) {
            let t = a / (a - b);
            out.push((p.0 + (q.0 - p.0) * t, p.1 + (q.1 - p.1) * t));
        }
    }
    out
}

/// What of a stretch lies between two distances in a direction.
fn within([a, b]: [Point; 2], way: Point, from: f64, to: f64) -> Option<[Point; 2]> {
    let along = |p: Point| p.0 * way.0 + p.1 * way.1;
    let (s, e) = (along(a), along(b));
    let at = |t: f64| (a.0 + (b.0 - a.0) * t, a.1 + (b.1 - a.1) * t);
    if (e - s).abs() < 1e-9 {
        return (from <= s && s <= to).then_some([a, b]);
    }
    let (mut t0, mut t1) = ((from - s) / (e - s), (to - s) / (e - s));
    if t0 > t1 {
        (t0, t1) = (t1, t0);
    }
    let (t0, t1) = (t0.max(0.0), t1.min(1.0));
    (t0 < t1).then(|| [at(t0), at(t1)])
}

/// The overlap of two convex outlines that turn left.
pub(crate) fn overlap(a: &[Point], b: &[Point]) -> Vec<Point> {
    let mut out = a.to_vec();
    for (i, p) in b.iter().enumerate() {
        let q = b[(i + 1) % b.len()];
        let way = (-(q.1 - p.1), q.0 - p.0);
        out = half(&out, way, p.0 * way.0 + p.1 * way.1);
        if out.len() < 3 {
            return Vec::new();
        }
    }
    out
}
