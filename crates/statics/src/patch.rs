//! Links and panels: springs over a few nodes, each against one combination of their displacements.

use crate::element::{Six, join};
use crate::model::{Link, Node, Panel};
use crate::vector::{Vec3, add, cross, dot, norm, scale, sub};

/// Springs over the displacements of a few nodes.
#[derive(Clone, Debug)]
pub(crate) struct Patch {
    nodes: [usize; MOST],
    /// How many nodes it has.
    count: usize,
    /// Stiffness and, for each node, what one unit of each displacement adds to the strain.
    pub springs: Vec<(f64, [Six; MOST])>,
}

/// At most so many nodes.
const MOST: usize = 4;

impl Patch {
    /// Six springs midway between two nodes.
    pub fn link(link: &Link, nodes: &[Node]) -> Patch {
        let (a, b) = (nodes[link.a.0].at, nodes[link.b.0].at);
        let half = scale(sub(b, a), 0.5);
        let axes = [link.axes.x, link.axes.y, link.axes.z];
        let (nil, none) = ([0.0; 3], [0.0; 6]);
        let row = |k: usize| {
            let e = axes[k % 3];
            let (a, b) = if k < 3 {
                // u·e of the middle: translation plus rotation × arm.
                let (ra, rb) = (cross(half, e), cross(scale(half, -1.0), e));
                (join(scale(e, -1.0), scale(ra, -1.0)), join(e, rb))
            } else {
                (join(nil, scale(e, -1.0)), join(nil, e))
            };
            [a, b, none, none]
        };
        let springs = (0..6).filter(|&k| link.stiffness[k] > 0.0).map(|k| (link.stiffness[k], row(k)));
        Patch { nodes: [link.a.0, link.b.0, 0, 0], count: 2, springs: springs.collect() }
    }

    /// One spring against the shear strain of a sheet: stiffness G·t·A.
    pub fn panel(panel: &Panel, nodes: &[Node]) -> Patch {
        let at = panel.corners.map(|c| nodes[c.0].at);
        let rows = shear_strain(&at).map(|v| join(v, [0.0; 3]));
        let stiffness = panel.g * panel.thickness * area(&at);
        Patch { nodes: panel.corners.map(|c| c.0), count: MOST, springs: vec![(stiffness, rows)] }
    }

    /// The nodes that it is on.
    pub fn nodes(&self) -> &[usize] {
        &self.nodes[..self.count]
    }

    /// The same on other nodes, as many as it has.
    pub fn on(&self, nodes: [usize; MOST]) -> Patch {
        Patch { nodes, ..self.clone() }
    }

    /// Strain of one of its springs.
    pub fn strain(&self, spring: usize, u: &[Six]) -> f64 {
        let rows = &self.springs[spring].1;
        let terms =
            rows.iter().zip(self.nodes()).map(|(row, &n)| (0..6).map(|k| row[k] * u[n][k]).sum::<f64>());
        terms.sum()
    }

    /// Forces of each of its nodes on it.
    pub fn forces(&self, u: &[Six]) -> [Six; MOST] {
        let mut out = [[0.0; 6]; MOST];
        for (s, (stiffness, rows)) in self.springs.iter().enumerate() {
            let pull = stiffness * self.strain(s, u);
            for (f, row) in out.iter_mut().zip(rows).take(self.count) {
                *f = std::array::from_fn(|k| f[k] + row[k] * pull);
            }
        }
        out
    }

    /// Its stiffness matrix, by place of the node and direction.
    pub fn matrix(&self) -> [[f64; 6 * MOST]; 6 * MOST] {
        let mut out = [[0.0; 6 * MOST]; 6 * MOST];
        for (k, rows) in &self.springs {
            let flat = rows.as_flattened();
            for (row, a) in out.iter_mut().zip(flat).take(6 * self.count) {
                let share = k * a;
                if share != 0.0 {
                    row.iter_mut().zip(flat).take(6 * self.count).for_each(|(v, b)| *v += share * b);
                }
            }
        }
        out
    }
}

fn diagonals(at: &[Vec3; 4]) -> (Vec3, Vec3) {
    (sub(at[2], at[0]), sub(at[3], at[1]))
}

/// Area of a flat four-cornered figure.
pub(crate) fn area(at: &[Vec3; 4]) -> f64 {
    let (p, q) = diagonals(at);
    norm(cross(p, q)) / 2.0
}

/// Whether four corners are flat, convex and in order.
pub(crate) fn flat(at: &[Vec3; 4]) -> bool {
    let (p, q) = diagonals(at);
    let normal = cross(p, q);
    let (size, n) = (norm(p).max(norm(q)), norm(normal));
    let level = dot(sub(at[1], at[0]), normal).abs() <= 1e-6 * size * n;
    let turns = (0..4).all(|k| {
        let (a, b) = (sub(at[(k + 1) % 4], at[k]), sub(at[(k + 2) % 4], at[(k + 1) % 4]));
        dot(cross(a, b), normal) > 1e-9 * size * size * n
    });
    n > 0.0 && level && turns
}

/// The shear strain at the middle of the sheet per unit displacement of each corner.
///
/// x of the sheet runs along the mean of the edges 1-2 and 4-3. The strain is that of bilinear
/// displacements at their centre, so every rigid motion gives none.
fn shear_strain(at: &[Vec3; 4]) -> [Vec3; 4] {
    let (p, q) = diagonals(at);
    let normal = cross(p, q);
    let n = scale(normal, 1.0 / norm(normal));
    let along = add(sub(at[1], at[0]), sub(at[2], at[3]));
    let ex = scale(along, 1.0 / norm(along));
    let ey = cross(n, ex);
    let (r, s) = ([-0.25, 0.25, 0.25, -0.25], [-0.25, -0.25, 0.25, 0.25]);
    let slope = |w: &[f64; 4], e: Vec3| (0..4).map(|k| w[k] * dot(sub(at[k], at[0]), e)).sum::<f64>();
    let (xr, yr, xs, ys) = (slope(&r, ex), slope(&r, ey), slope(&s, ex), slope(&s, ey));
    let det = xr * ys - yr * xs;
    std::array::from_fn(|k| {
        let (dx, dy) = ((ys * r[k] - yr * s[k]) / det, (xr * s[k] - xs * r[k]) / det);
        add(scale(ex, dy), scale(ey, dx))
    })
}
