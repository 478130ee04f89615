//! Links and panels: springs over a few nodes, each against one combination of their displacements.

use crate::element::Six;
use crate::model::{Link, Node, Panel};
use crate::vector::{Vec3, add, cross, dot, norm, scale, sub};

/// Springs over the displacements of a few nodes.
#[derive(Clone, Debug)]
pub(crate) struct Patch {
    pub nodes: Vec<usize>,
    /// Stiffness and, for each node, what one unit of each displacement adds to the strain.
    pub springs: Vec<(f64, Vec<Six>)>,
}

impl Patch {
    /// Six springs midway between two nodes.
    pub fn link(link: &Link, nodes: &[Node]) -> Patch {
        let (a, b) = (nodes[link.a.0].at, nodes[link.b.0].at);
        let half = scale(sub(b, a), 0.5);
        let axes = [link.axes.x, link.axes.y, link.axes.z];
        let row = |k: usize| {
            let e = axes[k % 3];
            if k < 3 {
                // u·e of the middle: translation plus rotation × arm.
                let (ra, rb) = (cross(half, e), cross(scale(half, -1.0), e));
                vec![crate::element::join(scale(e, -1.0), scale(ra, -1.0)), crate::element::join(e, rb)]
            } else {
                let nil = [0.0; 3];
                vec![crate::element::join(nil, scale(e, -1.0)), crate::element::join(nil, e)]
            }
        };
        let springs = (0..6).filter(|&k| link.stiffness[k] > 0.0).map(|k| (link.stiffness[k], row(k)));
        Patch { nodes: vec![link.a.0, link.b.0], springs: springs.collect() }
    }

    /// One spring against the shear strain of a sheet: stiffness G·t·A.
    pub fn panel(panel: &Panel, nodes: &[Node]) -> Patch {
        let at = panel.corners.map(|c| nodes[c.0].at);
        let rows = shear_strain(&at).map(|v| crate::element::join(v, [0.0; 3]));
        let stiffness = panel.g * panel.thickness * area(&at);
        Patch { nodes: panel.corners.map(|c| c.0).to_vec(), springs: vec![(stiffness, rows.to_vec())] }
    }

    /// Strain of one of its springs.
    pub fn strain(&self, spring: usize, u: &[Six]) -> f64 {
        let rows = &self.springs[spring].1;
        let terms = rows.iter().zip(&self.nodes).map(|(row, &n)| (0..6).map(|k| row[k] * u[n][k]).sum::<f64>());
        terms.sum()
    }

    /// Forces of each of its nodes on it.
    pub fn forces(&self, u: &[Six]) -> Vec<Six> {
        let mut out = vec![[0.0; 6]; self.nodes.len()];
        for (s, (stiffness, rows)) in self.springs.iter().enumerate() {
            let pull = stiffness * self.strain(s, u);
            for (f, row) in out.iter_mut().zip(rows) {
                *f = std::array::from_fn(|k| f[k] + row[k] * pull);
            }
        }
        out
    }

    /// One entry of its stiffness matrix.
    pub fn entry(&self, row: (usize, usize), col: (usize, usize)) -> f64 {
        self.springs.iter().map(|(k, rows)| k * rows[row.0][row.1] * rows[col.0][col.1]).sum()
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
