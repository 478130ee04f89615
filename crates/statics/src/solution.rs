//! What comes out of one load case.

use crate::element::{Carried, Six};
use crate::model::{MemberId, NodeId};
use crate::solver::Solver;

/// Displacements and forces of one load case.
#[derive(Clone, Debug)]
pub struct Solution<'s> {
    pub(crate) solver: &'s Solver,
    pub(crate) displacements: Vec<Six>,
    pub(crate) ends: Vec<[Six; 2]>,
    pub(crate) reactions: Vec<Six>,
    pub(crate) carried: Vec<(usize, Carried)>,
    pub(crate) residual: f64,
    pub(crate) accuracy: f64,
}

/// The state of a member at one station, all in its own axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Force on the cross-section that looks along +x: N (tension positive), Vy, Vz, in N.
    pub force: [f64; 3],
    /// Moment on the same face: T, My, Mz, in N m; `My = E·Iy·dθy/dx`, `Mz = E·Iz·dθz/dx`.
    pub moment: [f64; 3],
    /// Displacement of the axis, m.
    pub displacement: [f64; 3],
    /// Rotation of the cross-section, rad.
    pub rotation: [f64; 3],
}

/// Which side of a point load at the very station is meant.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Side {
    /// Just before it.
    #[default]
    Before,
    /// Just after it.
    After,
}

impl Solution<'_> {
    /// Displacement (m) and rotation (rad) of a node, in global axes.
    ///
    /// # Panics
    /// If the model has no such node.
    #[must_use]
    pub fn node(&self, node: NodeId) -> [f64; 6] {
        self.displacements[node.0]
    }

    /// Force (N) and moment (N m) of the ground on a node, by fixed directions and springs, global.
    ///
    /// # Panics
    /// If the model has no such node.
    #[must_use]
    pub fn reaction(&self, node: NodeId) -> [f64; 6] {
        self.reactions[node.0]
    }

    /// Forces and moments of the joints on the two ends of a member (after its offsets), in its own
    /// axes: Fx, Fy, Fz, Mx, My, Mz.
    ///
    /// # Panics
    /// If the model has no such member.
    #[must_use]
    pub fn ends(&self, member: MemberId) -> [[f64; 6]; 2] {
        self.ends[member.0]
    }

    /// Length of the flexible part of a member, m.
    ///
    /// # Panics
    /// If the model has no such member.
    #[must_use]
    pub fn length(&self, member: MemberId) -> f64 {
        self.solver.frame.elements[member.0].length
    }

    /// Forces and displacements at a station, `x` in m from the first end of the flexible part;
    /// stations outside are moved to the nearest end. Exact for the loads given, to rounding.
    ///
    /// # Panics
    /// If the model has no such member.
    #[must_use]
    pub fn station(&self, member: MemberId, x: f64, side: Side) -> Station {
        let e = &self.solver.frame.elements[member.0];
        let x = if x.is_nan() { 0.0 } else { x.clamp(0.0, e.length) };
        let none = Carried::none(e.length);
        let carried = self.carried(member).unwrap_or(&none);
        let ends = &self.ends[member.0];
        let inside = carried.inside(&ends[0], x, side == Side::After);
        let at: [Six; 2] = std::array::from_fn(|k| e.local_end(k, &self.displacements[e.nodes[k]]));
        let moved = e.displaced([&at[0], &at[1]], ends, carried, x);
        Station {
            force: [inside[0], inside[1], inside[2]],
            moment: [inside[3], inside[4], inside[5]],
            displacement: [moved[0], moved[1], moved[2]],
            rotation: [moved[3], moved[4], moved[5]],
        }
    }

    /// Force and moment on the cross-section at a station, as [`Solution::station`] has them, without
    /// its displacements, which cost more: N, Vy, Vz, T, My, Mz.
    ///
    /// # Panics
    /// If the model has no such member.
    #[must_use]
    pub fn inside(&self, member: MemberId, x: f64, side: Side) -> [f64; 6] {
        let e = &self.solver.frame.elements[member.0];
        let x = if x.is_nan() { 0.0 } else { x.clamp(0.0, e.length) };
        let first = &self.ends[member.0][0];
        match self.carried(member) {
            Some(carried) => carried.inside(first, x, side == Side::After),
            None => {
                let [n, vy, vz, t, my, mz] = first.map(|f| -f);
                [n, vy, vz, t, my + vz * x, mz - vy * x]
            }
        }
    }

    /// The stations of a member where a load starts, ends or sits, with both ends, in order, m.
    ///
    /// # Panics
    /// If the model has no such member.
    #[must_use]
    pub fn breaks(&self, member: MemberId) -> Vec<f64> {
        self.carried(member).map_or_else(|| vec![0.0, self.length(member)], |c| c.breaks.clone())
    }

    /// Axes of a member.
    ///
    /// # Panics
    /// If the model has no such member.
    #[must_use]
    pub fn axes(&self, member: MemberId) -> crate::Axes {
        self.solver.frame.elements[member.0].axes
    }

    /// Shear stress in a panel, Pa, counted from zero among [`crate::Model::panels`]; positive
    /// shear closes the angle between its x and y (see [`crate::panel`]).
    ///
    /// # Panics
    /// If the model has no such panel.
    #[must_use]
    pub fn panel_stress(&self, panel: usize) -> f64 {
        let patch = &self.solver.frame.patches[self.solver.frame.links + panel];
        patch.strain(0, &self.displacements) * self.solver.model().panels[panel].g
    }

    /// Largest force or moment out of balance at a free node, against the largest of all.
    #[must_use]
    pub fn residual(&self) -> f64 {
        self.residual
    }

    /// Estimated relative error of the displacements: the last correction, or, where one solution
    /// was enough, rounding over the smallest pivot.
    #[must_use]
    pub fn accuracy(&self) -> f64 {
        self.accuracy
    }

    pub(crate) fn carried(&self, member: MemberId) -> Option<&Carried> {
        let found = self.carried.binary_search_by_key(&member.0, |c| c.0).ok()?;
        Some(&self.carried[found].1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{In, LoadCase, MemberLoad, Model, Section};

    /// The same forces, with and without the displacements.
    #[test]
    fn forces_inside_are_those_of_the_station() {
        let mut model = Model::new();
        let a = model.support([0.1, 0.2, 0.3], [true; 6]);
        let b = model.node([0.5, 0.4, 0.9]);
        let c = model.support([0.9, 0.4, 0.9], [true; 6]);
        let section =
            Section { e: 3e9, g: 1e9, area: 4e-4, shear_y: None, shear_z: None, iy: 8e-8, iz: 5e-8, j: 1e-7 };
        let members = [model.member(a, b, section), model.member(b, c, section)];
        let point = MemberLoad::Point {
            axes: In::Global,
            at: 0.3,
            force: [5.0, -70.0, 30.0],
            moment: [1.0, 2.0, -3.0],
        };
        let solver = Solver::new(&model).unwrap();
        let solved = solver.solve(&[LoadCase::new().on(members[0], point)]).unwrap();
        for member in members {
            for x in [0.0, 0.2, 0.3, 0.31, solved[0].length(member)] {
                for side in [Side::Before, Side::After] {
                    let (got, s) = (solved[0].inside(member, x, side), solved[0].station(member, x, side));
                    let want = [s.force, s.moment].concat();
                    assert!(got.iter().zip(want).all(|(g, w)| (g - w).abs() < 1e-9), "{x}: {got:?} {s:?}");
                }
            }
        }
    }
}
