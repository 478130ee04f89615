//! Shapes: what each body looks like and how far it reaches.

use chairwright_design::{Frame3, Vec3};
use std::f64::consts::TAU;

/// A simple shape.
#[derive(Clone, PartialEq, Debug)]
pub enum Solid {
    /// A round bar or tube.
    Bar {
        /// Middle of one end.
        from: Vec3,
        /// Middle of the other end.
        to: Vec3,
        /// Outside radius.
        outer: f64,
        /// Inside radius; zero for a bar.
        inner: f64,
    },
    /// A box.
    Brick {
        /// Its middle and axes.
        axes: Frame3,
        /// Half its sizes along them.
        half: Vec3,
    },
    /// A flat outline with a thickness.
    Prism {
        /// Corners in order.
        outline: Vec<Vec3>,
        /// Thickness as a vector.
        along: Vec3,
    },
    /// A wheel: a tyre of round section, and a hub.
    Ring {
        /// Its middle.
        centre: Vec3,
        /// Unit axle.
        axle: Vec3,
        /// Outside radius.
        radius: f64,
        /// Radius of the tyre's section.
        section: f64,
        /// Half the hub's length; zero for a bare ring.
        hub: f64,
    },
}

/// Triangles.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Mesh {
    /// Corners.
    pub points: Vec<Vec3>,
    /// Triples of corners, counter-clockwise from outside.
    pub triangles: Vec<[u32; 3]>,
}

impl Solid {
    /// How far the shape reaches in a unit direction: the greatest scalar product over its points.
    #[must_use]
    pub fn reach(&self, d: Vec3) -> f64 {
        match self {
            Solid::Bar { from, to, outer, .. } => {
                let along = (*to - *from).unit().unwrap_or(Vec3::X);
                from.dot(d).max(to.dot(d)) + outer * d.across(along).norm()
            }
            Solid::Brick { axes, half } => {
                axes.origin.dot(d)
                    + half.x * axes.x.dot(d).abs()
                    + half.y * axes.y.dot(d).abs()
                    + half.z * axes.z.dot(d).abs()
            }
            Solid::Prism { outline, along } => {
                let flat = outline.iter().map(|p| p.dot(d)).fold(f64::NEG_INFINITY, f64::max);
                flat + along.dot(d).max(0.0)
            }
            Solid::Ring { centre, axle, radius, section, hub } => {
                let tyre = (radius - section) * d.across(*axle).norm() + section;
                centre.dot(d) + tyre.max(hub * axle.dot(d).abs())
            }
        }
    }

    /// The shape moved.
    #[must_use]
    pub fn moved(&self, by: &Frame3) -> Solid {
        match self {
            Solid::Bar { from, to, outer, inner } => {
                Solid::Bar { from: by.place(*from), to: by.place(*to), outer: *outer, inner: *inner }
            }
            Solid::Brick { axes, half } => Solid::Brick {
                axes: Frame3 {
                    origin: by.place(axes.origin),
                    x: by.turn(axes.x),
                    y: by.turn(axes.y),
                    z: by.turn(axes.z),
                },
                half: *half,
            },
            Solid::Prism { outline, along } => {
                Solid::Prism { outline: outline.iter().map(|p| by.place(*p)).collect(), along: by.turn(*along) }
            }
            Solid::Ring { centre, axle, radius, section, hub } => Solid::Ring {
                centre: by.place(*centre),
                axle: by.turn(*axle),
                radius: *radius,
                section: *section,
                hub: *hub,
            },
        }
    }

    /// The shape as triangles; `sides` is how many flats a round takes.
    #[must_use]
    pub fn mesh(&self, sides: u32) -> Mesh {
        match self {
            Solid::Bar { from, to, outer, inner } => tube(*from, *to, *outer, *inner, sides),
            Solid::Brick { axes, half } => brick(axes, *half),
            Solid::Prism { outline, along } => prism(outline, *along),
            Solid::Ring { centre, axle, radius, section, .. } => {
                torus(*centre, *axle, radius - section, *section, sides * 2, sides.min(12))
            }
        }
    }
}

fn round(axle: Vec3) -> (Vec3, Vec3) {
    let u = axle.any_across();
    (u, axle.cross(u))
}

fn angles(n: u32) -> impl Iterator<Item = (f64, f64)> {
    (0..n).map(move |i| libm::sincos(TAU * f64::from(i) / f64::from(n)))
}

/// Two rings of corners joined into walls and lids; with an inside, lids are annular.
fn tube(from: Vec3, to: Vec3, outer: f64, inner: f64, n: u32) -> Mesh {
    let axis = (to - from).unit().unwrap_or(Vec3::X);
    let (u, v) = round(axis);
    let mut mesh = Mesh::default();
    let hollow = inner > 1e-6;
    let mut rings = vec![(from, outer), (to, outer)];
    if hollow {
        rings.extend([(to, inner), (from, inner)]);
    }
    for (centre, r) in &rings {
        mesh.points.extend(angles(n).map(|(s, c)| *centre + u * (c * r) + v * (s * r)));
    }
    let count = u32::try_from(rings.len()).unwrap_or(2);
    let pairs = if hollow { count } else { 1 };
    for ring in 0..pairs {
        let (a, b) = (ring * n, ((ring + 1) % count) * n);
        for i in 0..n {
            let j = (i + 1) % n;
            mesh.triangles.push([a + i, a + j, b + j]);
            mesh.triangles.push([a + i, b + j, b + i]);
        }
    }
    if !hollow {
        for i in 1..n - 1 {
            mesh.triangles.push([0, i + 1, i]);
            mesh.triangles.push([n, n + i, n + i + 1]);
        }
    }
    mesh
}

fn brick(axes: &Frame3, h: Vec3) -> Mesh {
    let face = [
        Vec3::new(-h.x, -h.y, -h.z),
        Vec3::new(h.x, -h.y, -h.z),
        Vec3::new(h.x, h.y, -h.z),
        Vec3::new(-h.x, h.y, -h.z),
    ];
    let outline: Vec<Vec3> = face.iter().map(|p| axes.place(*p)).collect();
    prism(&outline, axes.z * (2.0 * h.z))
}

/// Lids by cutting ears off, so that a hollow outline is right too.
fn prism(outline: &[Vec3], along: Vec3) -> Mesh {
    let n = u32::try_from(outline.len()).unwrap_or(0);
    let first = outline[0];
    let normal = outline.windows(2).fold(Vec3::ZERO, |s, w| s + (w[0] - first).cross(w[1] - first));
    let turned = normal.dot(along) < 0.0;
    let order: Vec<Vec3> = if turned { outline.iter().rev().copied().collect() } else { outline.to_vec() };
    let mut mesh = Mesh { points: order.clone(), triangles: Vec::new() };
    mesh.points.extend(order.iter().map(|p| *p + along));
    for [a, b, c] in ears(&order, along) {
        mesh.triangles.push([a, c, b]);
        mesh.triangles.push([n + a, n + b, n + c]);
    }
    for i in 0..n {
        let j = (i + 1) % n;
        mesh.triangles.push([i, j, n + j]);
        mesh.triangles.push([i, n + j, n + i]);
    }
    mesh
}

/// Triangles that fill a flat outline, by cutting ears off; `normal` is the side it turns left around.
#[must_use]
pub fn ears(points: &[Vec3], normal: Vec3) -> Vec<[u32; 3]> {
    let mut left: Vec<usize> = (0..points.len()).collect();
    let mut out = Vec::new();
    let as_u32 = |i: usize| u32::try_from(i).unwrap_or(0);
    while left.len() > 3 {
        let n = left.len();
        let ear = (0..n).find(|i| is_ear(points, &left, *i, normal));
        let i = ear.unwrap_or(0);
        let (a, b, c) = (left[(i + n - 1) % n], left[i], left[(i + 1) % n]);
        out.push([as_u32(a), as_u32(b), as_u32(c)]);
        left.remove(i);
    }
    if let [a, b, c] = left[..] {
        out.push([as_u32(a), as_u32(b), as_u32(c)]);
    }
    out
}

fn is_ear(points: &[Vec3], left: &[usize], i: usize, normal: Vec3) -> bool {
    let n = left.len();
    let (a, b, c) = (points[left[(i + n - 1) % n]], points[left[i]], points[left[(i + 1) % n]]);
    let turn = |p: Vec3, q: Vec3, r: Vec3| (q - p).cross(r - p).dot(normal);
    if turn(a, b, c) <= 0.0 {
        return false;
    }
    left.iter().enumerate().all(|(k, index)| {
        let near = k == i || k == (i + 1) % n || k == (i + n - 1) % n;
        let p = points[*index];
        near || turn(a, b, p) < 0.0 || turn(b, c, p) < 0.0 || turn(c, a, p) < 0.0
    })
}

fn torus(centre: Vec3, axle: Vec3, r: f64, section: f64, around: u32, across: u32) -> Mesh {
    let (u, v) = round(axle);
    let mut mesh = Mesh::default();
    for (s, c) in angles(around) {
        let out = u * c + v * s;
        for (t, k) in angles(across) {
            mesh.points.push(centre + out * (r + section * k) + axle * (section * t));
        }
    }
    for i in 0..around {
        for j in 0..across {
            let (i2, j2) = ((i + 1) % around, (j + 1) % across);
            let at = |a: u32, b: u32| a * across + b;
            mesh.triangles.push([at(i, j), at(i2, j), at(i2, j2)]);
            mesh.triangles.push([at(i, j), at(i2, j2), at(i, j2)]);
        }
    }
    mesh
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Volume by the divergence theorem; positive only when every triangle faces outward.
    fn volume(m: &Mesh) -> f64 {
        let p = |i: u32| m.points[i as usize];
        m.triangles.iter().map(|[a, b, c]| p(*a).dot(p(*b).cross(p(*c))) / 6.0).sum()
    }

    #[test]
    fn meshes_face_outward_and_hold_their_volume() {
        let from = Vec3::new(0.1, 0.2, 0.3);
        let bar = Solid::Bar { from, to: from + Vec3::new(0.3, 0.4, 0.0), outer: 0.02, inner: 0.0 };
        let exact = std::f64::consts::PI * 0.02 * 0.02 * 0.5;
        assert!((volume(&bar.mesh(96)) / exact - 1.0).abs() < 2e-3);
        let tube = Solid::Bar { from, to: from + Vec3::Z, outer: 0.02, inner: 0.01 };
        assert!((volume(&tube.mesh(96)) / (std::f64::consts::PI * 3e-4) - 1.0).abs() < 2e-3);
        let brick = Solid::Brick { axes: Frame3::IDENTITY, half: Vec3::new(0.1, 0.2, 0.3) };
        assert!((volume(&brick.mesh(8)) - 0.048).abs() < 1e-12);
        let l = |x: f64, y: f64| Vec3::new(x, y, 0.0);
        let outline = vec![l(0., 0.), l(0., 3.), l(1., 3.), l(1., 1.), l(3., 1.), l(3., 0.)];
        let prism = Solid::Prism { outline, along: Vec3::new(0.0, 0.0, 2.0) };
        assert!((volume(&prism.mesh(8)) - 10.0).abs() < 1e-12);
        let ring = Solid::Ring { centre: from, axle: Vec3::Y, radius: 0.3, section: 0.02, hub: 0.0 };
        let exact = 2.0 * std::f64::consts::PI.powi(2) * 0.28 * 4e-4;
        assert!((volume(&ring.mesh(64)) / exact - 1.0).abs() < 0.06);
    }
}
