//! One member made ready: its axes, its joints and its stiffness to six natural deformations.
//!
//! The natural deformations leave out every rigid motion: lengthening, twist, and the turns of both
//! ends from the chord in the two planes. Forces are recovered from them, never from the full
//! stiffness matrix, since differences taken first lose fewer digits.

use crate::course::{Actions, CUBIC, QUINTIC, integral};
use crate::model::{Joint, Member, Node};
use crate::plane::{Before, Ends, Grip, Plane, PlaneLoad};
use crate::rod::{Rod, RodLoad, Slack};
use crate::vector::{Axes, Vec3, add, cross, dot, halves, norm, sub};

/// Displacement and rotation of a node.
pub(crate) type Six = [f64; 6];

/// A member made ready.
#[derive(Clone, Debug)]
pub(crate) struct Element {
    pub nodes: [usize; 2],
    pub axes: Axes,
    pub length: f64,
    pub arms: [Vec3; 2],
    pub stretch: Rod,
    pub twist: Rod,
    /// Bending about z (v = uy), then about y (v = -uz).
    pub planes: [Plane; 2],
    pull: f64,
    torque: f64,
    bend: [[f64; 3]; 2],
}

/// The loads of one case on one member: what carries them with both nodes still.
#[derive(Clone, Debug)]
pub(crate) struct Carried {
    pub actions: Actions,
    pub breaks: Vec<f64>,
    /// Forces of the nodes on the two ends, local.
    pub ends: [Six; 2],
    /// Natural deformations that these loads and end forces cause.
    free: Six,
}

/// What a symmetric matrix of a member without arms is made of, in its own axes: nothing comes of a shift of both ends alike.
pub(crate) struct Straight {
    /// Force by a shift of the second end along the axis.
    pub along: f64,
    /// Force across by a shift across, in both planes.
    pub across: [f64; 2],
    /// Force across on the second end by a turn of the first and of the second, in both planes.
    pub across_by: [[f64; 2]; 2],
    /// Moment about the axis by a twist.
    pub twist: f64,
    /// Moments by turns in both planes: of the first by its own, by that of the other, of the second by its own.
    pub turns: [[f64; 3]; 2],
}

fn tensor(of: impl Fn(usize, usize) -> f64) -> [Vec3; 3] {
    std::array::from_fn(|r| std::array::from_fn(|c| of(r, c)))
}

/// `a·bᵀ`.
fn outer(a: Vec3, b: Vec3) -> [Vec3; 3] {
    a.map(|a| b.map(|b| a * b))
}

fn slack(joint: Joint) -> Slack {
    match joint {
        Joint::Rigid => Some(0.0),
        Joint::Free => None,
        Joint::Spring(k) => Some(1.0 / k),
    }
}

impl Element {
    /// Makes a member ready; `None` if it has no length or no axes.
    pub fn new(member: &Member, nodes: &[Node]) -> Option<Element> {
        let length = member.length(nodes);
        let axes = member.axes(nodes)?;
        let joints = |k: usize| [slack(member.ends[0].joint[k]), slack(member.ends[1].joint[k])];
        let s = &member.section;
        let rod = |rigidity: f64, k: usize| Rod { length, rigidity, joints: joints(k) };
        let (stretch, twist) = (rod(s.e * s.area, 0), rod(s.g * s.j, 3));
        let plane = |i: f64, area: Option<f64>, slide: usize, hinge: usize| Plane {
            length,
            rigidity: s.e * i,
            shear: area.map_or(0.0, |a| 1.0 / (s.g * a)),
            slides: joints(slide),
            hinges: joints(hinge),
        };
        let planes = [plane(s.iz, s.shear_y, 1, 5), plane(s.iy, s.shear_z, 2, 4)];
        Some(Element {
            nodes: [member.i.0, member.j.0],
            axes,
            length,
            arms: [member.ends[0].offset, member.ends[1].offset],
            pull: stretch.stiffness(),
            torque: twist.stiffness(),
            bend: [planes[0].stiffness(), planes[1].stiffness()],
            stretch,
            twist,
            planes,
        })
    }

    /// The same for a member that may name nodes that are not there.
    pub fn new_checked(member: &Member, nodes: &[Node]) -> Option<Element> {
        let there = member.i.0 < nodes.len() && member.j.0 < nodes.len();
        if there { Element::new(member, nodes) } else { None }
    }

    /// The smaller rigidity in bending, N m².
    pub fn least_bending(&self) -> f64 {
        self.planes[0].rigidity.min(self.planes[1].rigidity)
    }

    /// Displacement of one end (after its arm) and its rotation, both global.
    fn end(&self, end: usize, node: &Six) -> (Vec3, Vec3) {
        let (u, turn) = halves(node);
        (add(u, cross(turn, self.arms[end])), turn)
    }

    /// Displacement and rotation of one end (after its arm) in the axes of the member.
    pub fn local_end(&self, end: usize, node: &Six) -> Six {
        let (u, turn) = self.end(end, node);
        join(self.axes.to_local(u), self.axes.to_local(turn))
    }

    /// Natural deformations from the displacements of the nodes.
    pub fn deform(&self, nodes: [&Six; 2]) -> Six {
        let ((ui, ti), (uj, tj)) = (halves(nodes[0]), halves(nodes[1]));
        let straight = sub(uj, ui);
        if self.armless() {
            return self.natural(straight, ti, tj);
        }
        let arms = sub(cross(tj, self.arms[1]), cross(ti, self.arms[0]));
        self.natural(add(straight, arms), ti, tj)
    }

    /// Elastic energy, doubled, of one displacement of all nodes with another.
    pub fn energy(&self, a: &[Six], b: &[Six]) -> f64 {
        let [i, j] = self.nodes;
        let (da, db) = (self.deform([&a[i], &a[j]]), self.deform([&b[i], &b[j]]));
        self.spring(&da).iter().zip(&db).map(|(s, d)| s * d).sum()
    }

    fn natural(&self, apart: Vec3, ti: Vec3, tj: Vec3) -> Six {
        let d = self.axes.to_local(apart);
        let (yc, zc) = (d[2] / self.length, d[1] / self.length);
        let (y, z) = (self.axes.y, self.axes.z);
        let twist = dot(self.axes.x, sub(tj, ti));
        [d[0], twist, dot(z, ti) - zc, dot(z, tj) - zc, dot(y, ti) + yc, dot(y, tj) + yc]
    }

    /// Natural forces of natural deformations.
    pub fn spring(&self, d: &Six) -> Six {
        let [z, y] = &self.bend;
        [
            self.pull * d[0],
            self.torque * d[1],
            z[0] * d[2] + z[1] * d[3],
            z[1] * d[2] + z[2] * d[3],
            y[0] * d[4] + y[1] * d[5],
            y[1] * d[4] + y[2] * d[5],
        ]
    }

    /// Forces of the nodes on the two ends that go with natural forces.
    pub fn ends_of(&self, s: &Six) -> [Six; 2] {
        let (v, w) = ((s[2] + s[3]) / self.length, (s[4] + s[5]) / self.length);
        [[-s[0], v, -w, -s[1], s[4], s[2]], [s[0], -v, w, s[1], s[5], s[3]]]
    }

    /// Forces of the nodes on the two ends, local.
    pub fn end_forces(&self, nodes: [&Six; 2], carried: Option<&Carried>) -> [Six; 2] {
        let mut d = self.deform(nodes);
        if let Some(c) = carried {
            d = std::array::from_fn(|k| d[k] - c.free[k]);
        }
        let mut ends = self.ends_of(&self.spring(&d));
        if let Some(c) = carried {
            for (end, own) in ends.iter_mut().zip(&c.ends) {
                *end = std::array::from_fn(|k| end[k] + own[k]);
            }
        }
        ends
    }

    /// Force and moment on the node end of an arm, global, from those on the member's end, local.
    pub fn at_node(&self, end: usize, local: &Six) -> Six {
        let (f, m) = halves(local);
        let f = self.axes.to_global(f);
        join(f, add(self.axes.to_global(m), cross(self.arms[end], f)))
    }

    /// The same at both ends of a member without loads, whose forces are each other's opposite.
    pub fn at_nodes(&self, ends: &[Six; 2]) -> [Six; 2] {
        let (f, first) = halves(&ends[0]);
        let (f, back) = (self.axes.to_global(f), halves(&ends[1]).1);
        let back_f = f.map(|v| -v);
        let (first, back) = (self.axes.to_global(first), self.axes.to_global(back));
        if self.armless() {
            return [join(f, first), join(back_f, back)];
        }
        [join(f, add(first, cross(self.arms[0], f))), join(back_f, add(back, cross(self.arms[1], back_f)))]
    }

    /// Whether its ends are at its nodes.
    pub fn armless(&self) -> bool {
        self.arms == [[0.0; 3]; 2]
    }

    /// Natural deformations per unit of each of the twelve displacements of the nodes.
    pub fn shape(&self) -> [Six; 12] {
        const UNIT: [Vec3; 3] = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];
        const NIL: Vec3 = [0.0; 3];
        std::array::from_fn(|k| {
            let (end, e) = (k / 6, UNIT[k % 3]);
            let turn = k % 6 >= 3;
            let moved = if turn { cross(e, self.arms[end]) } else { e };
            let apart = if end == 0 { sub(NIL, moved) } else { moved };
            let turns = if turn { e } else { NIL };
            if end == 0 { self.natural(apart, turns, NIL) } else { self.natural(apart, NIL, turns) }
        })
    }

    /// Stiffness matrix to the twelve displacements of the nodes.
    pub fn matrix(&self) -> [[f64; 12]; 12] {
        if self.armless() { self.straight_matrix() } else { self.any_matrix() }
    }

    /// Without arms every block of it is made of the axes alone.
    fn straight_matrix(&self) -> [[f64; 12]; 12] {
        let ([z, y], l) = (&self.bend, self.length);
        self.by_blocks(&Straight {
            along: self.pull,
            across: [(z[0] + 2.0 * z[1] + z[2]) / (l * l), (y[0] + 2.0 * y[1] + y[2]) / (l * l)],
            across_by: [[-(z[0] + z[1]) / l, -(z[1] + z[2]) / l], [-(y[0] + y[1]) / l, -(y[1] + y[2]) / l]],
            twist: self.torque,
            turns: self.bend,
        })
    }

    /// A matrix to the twelve displacements of the nodes of a member without arms.
    pub fn by_blocks(&self, m: &Straight) -> [[f64; 12]; 12] {
        let Axes { x, y, z } = self.axes;
        let (along, first, second, askew) = (outer(x, x), outer(y, y), outer(z, z), outer(y, z));
        let about =
            |x: f64, y: f64, z: f64| tensor(|r, c| x * along[r][c] + y * first[r][c] + z * second[r][c]);
        let apart = about(m.along, m.across[0], m.across[1]);
        // force on the second end by a turn of the first, and of the second
        let by = |end: usize| {
            let [one, other] = [m.across_by[0][end], m.across_by[1][end]];
            tensor(|r, c| one * askew[r][c] - other * askew[c][r])
        };
        let (by_first, by_second) = (by(0), by(1));
        let [z, y] = &m.turns;
        let turns = [about(m.twist, y[0], z[0]), about(m.twist, y[2], z[2])];
        let between = about(-m.twist, y[1], z[1]);
        let mut out = [[0.0; 12]; 12];
        for r in 0..3 {
            for c in 0..3 {
                let shift = apart[r][c];
                (out[r][c], out[r][c + 6], out[r + 6][c], out[r + 6][c + 6]) = (shift, -shift, -shift, shift);
                for (at, force) in [(3, by_first[r][c]), (9, by_second[r][c])] {
                    (out[r][c + at], out[c + at][r]) = (-force, -force);
                    (out[r + 6][c + at], out[c + at][r + 6]) = (force, force);
                }
                (out[r + 3][c + 3], out[r + 9][c + 9]) = (turns[0][r][c], turns[1][r][c]);
                (out[r + 3][c + 9], out[r + 9][c + 3]) = (between[r][c], between[r][c]);
            }
        }
        out
    }

    /// By the natural deformations of each displacement.
    fn any_matrix(&self) -> [[f64; 12]; 12] {
        let shape = self.shape();
        let forces: [Six; 12] = std::array::from_fn(|k| self.spring(&shape[k]));
        let mut out = [[0.0; 12]; 12];
        for r in 0..12 {
            for c in r..12 {
                let k = (0..6).map(|n| shape[r][n] * forces[c][n]).sum();
                out[r][c] = k;
                out[c][r] = k;
            }
        }
        out
    }

    /// Slopes of the axis in its two planes (of uy, and of -uz) at stations, per unit of each of the twelve displacements of the
    /// nodes.
    pub fn slopes<const N: usize>(&self, at: [f64; N]) -> [[[f64; N]; 2]; 12] {
        let own = self.own_slopes(at);
        std::array::from_fn(|k| {
            let (end, mut node) = (k / 6, [0.0; 6]);
            node[k % 6] = 1.0;
            let here = self.local_end(end, &node);
            let here = [[here[1], here[5]], [-here[2], here[4]]];
            [0, 1].map(|plane| {
                let ([shift, turn], [by_shift, by_turns @ ..]) = (here[plane], &own[plane]);
                let shift = if end == 0 { -shift } else { shift };
                std::array::from_fn(|g| shift * by_shift[g] + turn * by_turns[end][g])
            })
        })
    }

    /// Slopes in both planes, in each per unit of the shift of the second end and of the turns of both.
    pub fn own_slopes<const N: usize>(&self, at: [f64; N]) -> [[[f64; N]; 3]; 2] {
        let chord = -1.0 / self.length;
        let modes = [
            ([0.0, 1.0], [0.0; 2], [chord; 2]),
            ([0.0; 2], [1.0, 0.0], [1.0, 0.0]),
            ([0.0; 2], [0.0, 1.0], [0.0, 1.0]),
        ];
        let plane = |p: usize| {
            let k = &self.bend[p];
            modes.map(|(move_, turn, from_chord)| {
                let turns =
                    [k[0] * from_chord[0] + k[1] * from_chord[1], k[1] * from_chord[0] + k[2] * from_chord[1]];
                let force = (turns[0] + turns[1]) / self.length;
                let grip = Grip { force: [force, -force], turn: turns };
                self.planes[p].slopes(&Ends { move_, turn }, &grip, at)
            })
        };
        [plane(0), plane(1)]
    }

    /// What carries the loads with both nodes still, or `None` if its releases let them go.
    pub fn carry(&self, actions: Actions) -> Option<Carried> {
        let l = self.length;
        let (force, lever, moment) = (actions.force(l, true), actions.lever(l), actions.moment(l, true));
        // Rounding of a load that was given in other axes is no load.
        let nil = 1e-12 * (norm(force) + (norm(lever) + norm(moment)) / l);
        let breaks = actions.breaks(l);
        let rod = self.stretch.carry(force[0], nil)?;
        let twist = self.twist.carry(moment[0], nil * l)?;
        let z = self.planes[0].carry(force[1], lever[1] - moment[2], nil)?;
        let y = self.planes[1].carry(-force[2], -lever[2] - moment[1], nil)?;
        let ends = std::array::from_fn(|e| [rod[e], z.force[e], -y.force[e], twist[e], y.turn[e], z.turn[e]]);
        let mut carried = Carried { actions, breaks, ends, free: [0.0; 6] };
        carried.free = self.free(&carried, rod, twist, [&z, &y]);
        Some(carried)
    }

    /// All six integrals go over the same places: the loads before each place are summed up once for all of them.
    fn free(&self, c: &Carried, rod: [f64; 2], twist: [f64; 2], [z, y]: [&Grip; 2]) -> Six {
        let (a, strain) = (&c.actions, c.actions.strain);
        // moments of an even load are of the second degree, and turn with a straight line
        let points = if a.even() { &CUBIC[..] } else { &QUINTIC };
        let [along, around, z0, z1, y0, y1] = integral(points, (&c.breaks, self.length), |x| {
            let (force, lever, moment) = (a.force(x, false), a.lever(x), a.moment(x, false));
            let of_z = Before { force: force[1], lever: lever[1] - moment[2], curvature: strain[2] };
            let of_y = Before { force: -force[2], lever: -lever[2] - moment[1], curvature: strain[1] };
            let ([z0, z1], [y0, y1]) = (self.planes[0].turning(of_z, z, x), self.planes[1].turning(of_y, y, x));
            let along = self.stretch.strained(force[0], strain[0], rod[0]);
            [along, self.twist.strained(moment[0], 0.0, twist[0]), z0, z1, y0, y1]
        });
        let [z0, z1] = self.planes[0].with_joints([z0, z1], z);
        let [y0, y1] = self.planes[1].with_joints([y0, y1], y);
        [self.stretch.with_joints(along, rod), self.twist.with_joints(around, twist), z0, z1, y0, y1]
    }

    /// Displacement and rotation at a station, local, from those of the two ends (after their arms,
    /// local), the end forces and the loads.
    pub fn displaced(&self, at: [&Six; 2], ends: &[Six; 2], c: &Carried, x: f64) -> Six {
        let pair = |k: usize| [at[0][k], at[1][k]];
        let pull = |k: usize| [ends[0][k], ends[1][k]];
        let ux = self.stretch.at(&c.along(), pair(0), pull(0), x);
        let rx = self.twist.at(&c.around(), pair(3), pull(3), x);
        let z = Ends { move_: pair(1), turn: pair(5) };
        let y = Ends { move_: pair(2).map(|v| -v), turn: pair(4) };
        let [uy, rz] = self.planes[0].at(&c.about_z(), &z, &Grip { force: pull(1), turn: pull(5) }, x);
        let grip = Grip { force: pull(2).map(|v| -v), turn: pull(4) };
        let [uz, ry] = self.planes[1].at(&c.about_y(), &y, &grip, x);
        [ux, uy, -uz, rx, ry, rz]
    }
}

impl Carried {
    /// No loads.
    pub fn none(length: f64) -> Carried {
        Carried { actions: Actions::default(), breaks: vec![0.0, length], ends: [[0.0; 6]; 2], free: [0.0; 6] }
    }

    fn along(&self) -> RodLoad<'_, impl Fn(f64) -> f64> {
        RodLoad {
            breaks: &self.breaks,
            sum: |x| self.actions.force(x, false)[0],
            strain: self.actions.strain[0],
        }
    }

    fn around(&self) -> RodLoad<'_, impl Fn(f64) -> f64> {
        RodLoad { breaks: &self.breaks, sum: |x| self.actions.moment(x, false)[0], strain: 0.0 }
    }

    fn about_z(&self) -> PlaneLoad<'_, impl Fn(f64) -> f64, impl Fn(f64) -> f64> {
        PlaneLoad {
            breaks: &self.breaks,
            force: |x| self.actions.force(x, false)[1],
            lever: |x| self.actions.lever(x)[1] - self.actions.moment(x, false)[2],
            curvature: self.actions.strain[2],
        }
    }

    fn about_y(&self) -> PlaneLoad<'_, impl Fn(f64) -> f64, impl Fn(f64) -> f64> {
        PlaneLoad {
            breaks: &self.breaks,
            force: |x| -self.actions.force(x, false)[2],
            lever: |x| -self.actions.lever(x)[2] - self.actions.moment(x, false)[1],
            curvature: self.actions.strain[1],
        }
    }

    /// Force and moment on the face that looks along +x at a station: N, Vy, Vz, T, My, Mz.
    /// `after` counts a point load at the station itself.
    pub fn inside(&self, first: &Six, x: f64, after: bool) -> Six {
        let f = self.actions.force(x, after);
        let (m, lever) = (self.actions.moment(x, after), self.actions.lever(x));
        let n = |k: usize| -first[k] - f[k];
        let bend_y = -first[4] - first[2] * x - lever[2] - m[1];
        let bend_z = -first[5] + first[1] * x + lever[1] - m[2];
        [n(0), n(1), n(2), -first[3] - m[0], bend_y, bend_z]
    }
}

/// Six numbers from two threes.
pub(crate) fn join(a: Vec3, b: Vec3) -> Six {
    [a[0], a[1], a[2], b[0], b[1], b[2]]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{End, Model, Orientation, Section};

    /// A member askew with a spring at one end and a hinge at the other: block by block it is what its deformations say.
    #[test]
    fn a_matrix_by_blocks_is_the_matrix_of_its_deformations() {
        let mut model = Model::new();
        let (i, j) = (model.node([0.1, 0.2, 0.3]), model.node([0.7, -0.4, 0.9]));
        let section = Section {
            e: 3e9,
            g: 1e9,
            area: 4e-4,
            shear_y: Some(2e-4),
            shear_z: Some(1e-4),
            iy: 8e-8,
            iz: 5e-8,
            j: 1e-7,
        };
        let mut ends = [End::RIGID; 2];
        ends[0].joint[5] = Joint::Spring(700.0);
        ends[0].joint[3] = Joint::Spring(90.0);
        ends[1].joint[4] = Joint::Free;
        let member = Member { i, j, section, orientation: Orientation::ZTowards([0.2, 0.1, 1.0]), ends };
        let element = Element::new(&member, &model.nodes).unwrap();
        let (blocks, any) = (element.straight_matrix(), element.any_matrix());
        let most = any.iter().flatten().fold(0.0, |m: f64, v| m.max(v.abs()));
        for (r, c) in (0..144).map(|k| (k / 12, k % 12)) {
            let (a, b) = (blocks[r][c], any[r][c]);
            assert!(
                (a - b).abs() < 1e-14 * most && (a - blocks[c][r]).abs() < 1e-14 * most,
                "{r} {c}: {a} {b}"
            );
        }
    }
}
