//! *Aircraft Structures* (1950), examples 6.2.1 and 7.2.1, as quoted in the tests of an open section library. Inches.

use super::common::near;
use chairwright_resistance::section::{Piece, assembled, rectangle};

/// Example 6.2.1: I-section of 6 in, flanges 3 × 1, web 1: I = 43.3; moment 800 000: 55 427 psi.
#[test]
fn i_section() {
    let parts = [
        rectangle([-1.5, 2.0], [1.5, 3.0]),
        rectangle([-0.5, -2.0], [0.5, 2.0]),
        rectangle([-1.5, -3.0], [1.5, -2.0]),
    ];
    let i = assembled(&parts.each_ref().map(|c| Piece { corners: c, weight: 1.0 })).unwrap();
    near(i.iy, 43.3, 0.05);
    // 8e5 × 3 / 43.3 = 55 427 with the rounded I; 0.1 % for that rounding.
    near(i.stress([0.0, 3.0], 0.0, 8e5, 0.0), 55_427.3, 56.0);
    // The same as a rectangle with two pieces cut out.
    let (full, left, right) = (
        rectangle([-1.5, -3.0], [1.5, 3.0]),
        rectangle([-1.5, -2.0], [-0.5, 2.0]),
        rectangle([0.5, -2.0], [1.5, 2.0]),
    );
    let cut = assembled(&[
        Piece { corners: &full, weight: 1.0 },
        Piece { corners: &left, weight: -1.0 },
        Piece { corners: &right, weight: -1.0 },
    ])
    .unwrap();
    near(cut.iy, i.iy, 1e-9);
}

/// Example 7.2.1: Z-section 12 in high, flanges 6 × 2, web 2.
#[test]
fn z_section() {
    let parts = [
        rectangle([-5.0, 4.0], [1.0, 6.0]),
        rectangle([-1.0, -4.0], [1.0, 4.0]),
        rectangle([-1.0, -6.0], [5.0, -4.0]),
    ];
    let z = assembled(&parts.each_ref().map(|c| Piece { corners: c, weight: 1.0 })).unwrap();
    near(z.iy, 693.3, 0.05);
    near(z.iz, 173.3, 0.05);
    near(z.iyz, -240.0, 1e-9);
    let p = z.principal();
    near(p.major, 787.0, 0.5);
    near(p.minor, 79.5, 0.05);
    // The example's moments: −100 000 about the horizontal and 10 000 about the vertical axis. The book goes on
    // with −494 and −315 a unit, rounded: −2384, 580, 1210; half a unit times the coordinates is 5.5.
    for (at, printed) in [([1.0, 6.0], -2384.0), ([-5.0, 6.0], 580.0), ([-5.0, 4.0], 1210.0)] {
        near(z.stress(at, 0.0, -1e5, 1e4), printed, 5.5);
    }
}
