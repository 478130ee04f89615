//! Short cuts for the cases.

use chairwright_statics::{LoadCase, Member, Model, NodeId, Section, Solution, Solver};

/// Nothing held, everything held, all but rotations held.
pub const FREE: [bool; 6] = [false; 6];
pub const CLAMPED: [bool; 6] = [true; 6];
pub const PINNED: [bool; 6] = [true, true, true, false, false, false];

/// A section without shear strain.
pub fn section(e: f64, g: f64, area: f64, iy: f64, iz: f64, j: f64) -> Section {
    Section { e, g, area, shear_y: None, shear_z: None, iy, iz, j }
}

/// Nodes at points, some of them clamped.
pub fn nodes(model: &mut Model, points: &[[f64; 3]], clamped: &[usize]) -> Vec<NodeId> {
    let hold = |k: usize| if clamped.contains(&k) { CLAMPED } else { FREE };
    points.iter().enumerate().map(|(k, p)| model.support(*p, hold(k))).collect()
}

/// Solves one load case and hands its answer on.
pub fn with<T>(model: &Model, case: LoadCase, read: impl FnOnce(&Solution<'_>) -> T) -> T {
    let solver = Solver::new(model).unwrap();
    let solutions = solver.solve(&[case]).unwrap();
    assert!(solutions[0].residual() < 1e-11, "residual {:e}", solutions[0].residual());
    read(&solutions[0])
}

/// A plane frame in x and z: nothing leaves the plane.
pub fn hold_plane(model: &mut Model) {
    for n in &mut model.nodes {
        n.fixed[1] = true;
        n.fixed[3] = true;
        n.fixed[5] = true;
    }
}

/// The last member added.
pub fn last(model: &mut Model) -> &mut Member {
    model.members.last_mut().unwrap()
}

/// Near to a printed figure.
pub fn near(got: f64, printed: f64, tolerance: f64, what: &str) {
    assert!((got - printed).abs() <= tolerance, "{what}: got {got:.9e}, printed {printed:.9e} ± {tolerance:e}");
}

/// Near to a figure that is exact up to rounding.
pub fn exact(got: f64, want: f64, what: &str) {
    near(got, want, 1e-9 * want.abs().max(1e-12), what);
}
