//! Solids as outlines to paint, seen from one side; nearer ones are painted over farther ones.

use crate::patch::{Patch, Surface};
use crate::scene::Placed;
use crate::view::{Point, View};
use chairwright_design::Vec3;
use chairwright_frame::{Group, Solid};

/// How much nearer than its wall the lid of a bar counts, in mm, so that it is painted over it.
const LID: f64 = 0.5;

fn class(body: &Placed, solid: &Solid) -> &'static str {
    match (body.group, body.fitting) {
        (_, true) => "joint",
        (Group::Wheel | Group::Caster, _) if matches!(solid, Solid::Ring { .. }) => "wheel",
        (Group::Wheel | Group::Caster | Group::Part, _) => "part",
        (Group::Support, _) => "soft",
        (Group::Frame, _) if matches!(solid, Solid::Bar { .. }) => "frame",
        (Group::Frame, _) => "board",
    }
}

/// Takes outlines, the surface that they bound, and how near its middle is.
type Push<'p> = dyn FnMut(Vec<Vec<Point>>, Surface, f64) + 'p;

pub(crate) fn paint(view: View, body: &Placed) -> Vec<Patch> {
    let mut patches = Vec::new();
    for solid in &body.solids {
        let class = class(body, solid);
        let mut push = |loops: Vec<Vec<Point>>, surface: Surface, near: f64| {
            patches.push(Patch::filled(loops, surface, near, class, &body.name));
        };
        match solid {
            Solid::Bar { from, to, outer, .. } => bar(view, *from, *to, *outer, &mut push),
            Solid::Ring { centre, axle, radius, section, hub } => {
                ring(view, (*centre, *axle), (*radius, *section, *hub), &mut push);
            }
            Solid::Brick { .. } | Solid::Prism { .. } => faces(view, solid, &mut push),
        }
    }
    patches
}

/// Outline of a round bar, and the end that faces the eye.
fn bar(view: View, from: Vec3, to: Vec3, radius: f64, push: &mut Push<'_>) {
    let axis = (to - from).unit().unwrap_or(Vec3::X);
    let ring = |centre: Vec3| -> Vec<Point> {
        circle(centre, axis, radius, 28).into_iter().map(|p| view.project(p).0).collect()
    };
    let (a, b) = (ring(from), ring(to));
    let hull = hull(&[a.clone(), b.clone()].concat());
    let near = view.project(from.mix(to, 0.5)).1 + radius * 1e3;
    push(vec![hull], Surface::round(view, from, to, radius), near);
    let slope = axis.dot(view.eye());
    if slope.abs() > 0.05 {
        let (outline, end) = if slope > 0.0 { (b, to) } else { (a, from) };
        let face: Vec<Vec3> =
            circle(end, axis, radius, 28).into_iter().map(|p| p + view.eye() * (LID * 1e-3)).collect();
        push(vec![outline], Surface::flat(view, &face), view.project(end).1 + radius * 1e3 + 0.01);
    }
}

/// A part of the rider as broad as that, round at both ends.
pub(crate) fn limb(view: View, name: &str, from: Vec3, to: Vec3, breadth: f64) -> Patch {
    let eye = view.eye();
    let round = |centre: Vec3| circle(centre, eye, breadth / 2.0, 36).into_iter().map(|p| view.project(p).0);
    let outline = hull(&round(from).chain(round(to)).collect::<Vec<Point>>());
    let near = view.project(from.mix(to, 0.5)).1 + breadth * 500.0;
    Patch::filled(vec![outline], Surface::round(view, from, to, breadth / 2.0), near, "rider", name)
}

pub(crate) fn circle(centre: Vec3, axis: Vec3, radius: f64, n: u32) -> Vec<Vec3> {
    let u = axis.any_across();
    let v = axis.cross(u);
    (0..n)
        .map(|i| {
            let (s, c) = libm::sincos(f64::from(i) * std::f64::consts::TAU / f64::from(n));
            centre + u * (c * radius) + v * (s * radius)
        })
        .collect()
}

/// A wheel: its tyre as a ring where it is seen from the side, and its hub.
fn ring(
    view: View,
    (centre, axle): (Vec3, Vec3),
    (radius, section, hub): (f64, f64, f64),
    push: &mut Push<'_>,
) {
    let near = view.project(centre).1;
    let facing = if axle.dot(view.eye()) < 0.0 { -axle } else { axle };
    let flat =
        |r: f64| -> Vec<Point> { circle(centre, axle, r, 72).into_iter().map(|p| view.project(p).0).collect() };
    let face = |out: f64| Surface::flat(view, &circle(centre + facing * out, axle, radius, 12));
    if axle.dot(view.eye()).abs() > 0.6 {
        push(vec![flat(radius), flat(radius - 2.0 * section)], face(section), near + section * 1e3);
        if hub > 0.0 {
            push(vec![flat((radius * 0.09).max(0.012))], face(hub), near + hub * 1e3);
        }
        return;
    }
    let solid = Solid::Ring { centre, axle, radius, section, hub };
    let points: Vec<Point> = solid.mesh(36).points.into_iter().map(|p| view.project(p).0).collect();
    let tyre = Surface::round(view, centre - axle * section, centre + axle * section, radius);
    push(vec![hull(&points)], tyre, near + section * 1e3);
    if hub > section {
        bar(view, centre - axle * hub, centre + axle * hub, (radius * 0.09).max(0.012), push);
    }
}

/// Faces of a flat-sided shape that look toward the eye.
fn faces(view: View, solid: &Solid, push: &mut Push<'_>) {
    let (outline, along) = match solid {
        Solid::Prism { outline, along } => (outline.clone(), *along),
        Solid::Brick { axes, half } => {
            let corner = |x: f64, y: f64| axes.place(Vec3::new(x * half.x, y * half.y, -half.z));
            (vec![corner(-1., -1.), corner(1., -1.), corner(1., 1.), corner(-1., 1.)], axes.z * (2.0 * half.z))
        }
        _ => return,
    };
    let shifted: Vec<Vec3> = outline.iter().map(|p| *p + along).collect();
    let middle = outline.iter().chain(&shifted).fold(Vec3::ZERO, |s, p| s + *p);
    #[allow(clippy::cast_precision_loss)]
    let middle = middle * (1.0 / (2 * outline.len()) as f64);
    let n = outline.len();
    let mut all: Vec<Vec<Vec3>> = vec![outline.clone(), shifted.clone()];
    all.extend((0..n).map(|i| {
        let j = (i + 1) % n;
        vec![outline[i], outline[j], shifted[j], shifted[i]]
    }));
    let eye = view.eye();
    for face in all {
        let normal = face.windows(2).fold(Vec3::ZERO, |s, w| s + (w[0] - face[0]).cross(w[1] - face[0]));
        let centre = face.iter().fold(Vec3::ZERO, |s, p| s + *p);
        #[allow(clippy::cast_precision_loss)]
        let centre = centre * (1.0 / face.len() as f64);
        let outward = if normal.dot(centre - middle) < 0.0 { -normal } else { normal };
        if outward.dot(eye) <= 1e-6 * normal.norm().max(1e-12) {
            continue;
        }
        let points: Vec<Point> = face.iter().map(|p| view.project(*p).0).collect();
        push(vec![points], Surface::flat(view, &face), view.project(centre).1);
    }
}

/// The smallest convex outline around points (monotone chain).
fn hull(points: &[Point]) -> Vec<Point> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let turn = |o: Point, a: Point, b: Point| (a.0 - o.0) * (b.1 - o.1) - (a.1 - o.1) * (b.0 - o.0);
    let half = |list: &mut dyn Iterator<Item = Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for p in list {
            while chain.len() >= 2 && turn(chain[chain.len() - 2], chain[chain.len() - 1], p) <= 0.0 {
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut lower = half(&mut sorted.iter().copied());
    lower.extend(half(&mut sorted.iter().rev().copied()));
    lower
}
