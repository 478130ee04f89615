//! *Analysis and Design of Elastic Beams* (2002), as quoted in the tests of an open section library.

use super::common::near;
use chairwright_resistance::section::{Piece, assembled, outline, rectangle};

/// Example 1.1, figure 1.8: an angle of middle lines 1 and 2, 0.1 thick.
#[test]
fn angle() {
    let t = 0.1;
    let l = outline(&[
        [-t / 2.0, -2.0],
        [t / 2.0, -2.0],
        [t / 2.0, -t / 2.0],
        [1.0, -t / 2.0],
        [1.0, t / 2.0],
        [-t / 2.0, t / 2.0],
    ])
    .unwrap();
    // The book reckons by middle lines, whose corner square is counted on both legs: 1e-3 of each figure, as the
    // library's own comparison allows (2e-3 for the last).
    near(l.area, 0.3, 0.3e-3);
    near(l.centroid[0], 0.1663, 0.2e-3);
    near(l.centroid[1], -0.6663, 0.7e-3);
    near(l.iy, 0.1336, 0.14e-3);
    near(l.iz, 0.0252, 0.05e-3);
    near(l.iyz, 0.0332, 0.05e-3);
    let p = l.principal();
    near(p.angle.to_degrees(), -15.7589, 0.016);
    near(p.major, 0.1430, 0.14e-3);
    near(p.minor, 0.0158, 0.05e-3);
    // Stresses under a moment of −1 about the horizontal axis: 5, −10 and 12.5 by middle lines, 5 % as above.
    for (at, printed) in [([1.0, 0.0], 5.0), ([0.0, 0.0], -10.0), ([0.0, -2.0], 12.5)] {
        near(l.stress(at, 0.0, -1.0, 0.0), printed, 0.05 * printed.abs());
    }
}

/// Example 5.13: bars of 15 × 2 of aluminium (10.4e6) and copper (18.5e6): EA over the modulus of aluminium 83.36.
#[test]
fn aluminium_and_copper() {
    let (a, b) = (rectangle([0.0, 0.0], [15.0, 2.0]), rectangle([15.0, 0.0], [30.0, 2.0]));
    let bar =
        assembled(&[Piece { corners: &a, weight: 1.0 }, Piece { corners: &b, weight: 18.5 / 10.4 }]).unwrap();
    near(bar.area, 83.36, 0.01);
}
