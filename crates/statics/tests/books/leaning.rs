//! Angles and zeds.

use super::common::{CLAMPED, FREE, exact, last, near, with};
use chairwright_statics::section::{Rectangle, angle, open_torsion, rectangles, zed};
use chairwright_statics::{LoadCase, Model, Orientation};

/// *Analysis and Design of Elastic Beams*, the L of a 1, t 0.1 (as in section-properties' tests, printed
/// to four digits): legs of 2 and 1 along their middle lines, the corner square.
#[test]
fn elastic_beams_angle() {
    let lying = Rectangle { at: [0.475, 0.0], size: [1.05, 0.1] };
    let hanging = Rectangle { at: [0.0, -1.025], size: [0.1, 1.95] };
    let m = rectangles(&[lying, hanging]).unwrap();
    for (got, printed, what) in [
        (m.area, 0.3, "area"),
        (m.centre[0], 0.1663, "centroid across"),
        (m.centre[1], -0.6663, "centroid up"),
        (m.iy, 0.1336, "about the level axis"),
        (m.iz, 0.0252, "about the upright axis"),
        (m.iyz, 0.0332, "product"),
    ] {
        near(got, printed, 6e-5, what);
    }
    let p = m.principal();
    near(p.most, 0.1430, 6e-5, "greatest");
    near(p.least, 0.0158, 6e-5, "least");
    near(p.angle.to_degrees(), -15.7589, 5e-4, "lean");
}

/// The same L by the angle's own sizes: outer legs 1.05 and 2.05, mirrored up and down.
#[test]
fn the_same_angle_by_its_sizes() {
    let p = angle(1.05, 2.05, 0.1).unwrap();
    near(p.area, 0.3, 1e-12, "area");
    near(p.principal().most, 0.1430, 6e-5, "greatest");
    near(p.principal().least, 0.0158, 6e-5, "least");
    near(p.principal().angle.to_degrees(), 15.7589, 5e-4, "lean, mirrored");
}

/// *Aircraft Structures* (1950), example 7.2.1 (inch): a zed 12 high, flanges standing out 4, all 2 thick;
/// printed 693.3, 173.3, 240 (its flanges lie the other way: -240), principal 787 and 79.5, as in
/// section-properties' tests. By hand: 2·12³/12 + 2(4·2³/12 + 8·5²) = 693.33, 12·2³/12 + 2(2·4³/12 + 8·3²)
/// = 173.33 and 2·8·3·5 = 240; Mohr's circle then has its middle at 433.33 and the radius
/// √(260² + 240²) = 353.84.
#[test]
fn aircraft_structures_zed() {
    let m = zed(12.0, 4.0, 2.0, 2.0).unwrap();
    near(m.iy, 693.3, 0.05, "printed");
    near(m.iz, 173.3, 0.05, "printed");
    near(m.principal().most, 787.0, 0.5, "printed");
    near(m.principal().least, 79.5, 0.05, "printed");
    exact(m.iy, 2080.0 / 3.0, "about the level axis");
    exact(m.iz, 520.0 / 3.0, "about the upright axis");
    exact(m.iyz, 240.0, "product");
    let p = m.principal();
    near(p.most, 787.17, 5e-3, "greatest");
    near(p.least, 79.50, 7e-3, "least");
    exact(libm::tan(2.0 * p.angle), -480.0 / 520.0, "lean");
}

/// Bending of a zed without regard to principal axes (any text on unsymmetrical bending): a load P down
/// the tip moves it by PL³/3E · Iz/(Iy·Iz − Iyz²) down and PL³/3E · Iyz/(Iy·Iz − Iyz²) sideways. The
/// member gets there by its principal axes and its roll.
#[test]
fn a_zed_moves_sideways_too() {
    let m = zed(0.12, 0.04, 0.003, 0.003).unwrap();
    let (e, l, p) = (200e9, 1.5, 300.0);
    let j = open_torsion(&[(0.12, 0.003), (0.04, 0.003), (0.04, 0.003)]);
    let mut frame = Model::new();
    // Along -x: local y at no roll is then global -Y, local z is up.
    for along in [1.0, -1.0] {
        frame.nodes.clear();
        frame.members.clear();
        let (wall, tip) = (frame.support([0.0; 3], CLAMPED), frame.support([along * l, 0.0, 0.0], FREE));
        frame.member(wall, tip, m.section(e, 77e9, j));
        last(&mut frame).orientation = Orientation::Roll(m.principal().angle);
        let det = m.iy * m.iz - m.iyz * m.iyz;
        with(&frame, LoadCase::new().push(tip, [0.0, 0.0, -p, 0.0, 0.0, 0.0]), |s| {
            exact(s.node(tip)[2], -p * l * l * l / (3.0 * e) * m.iz / det, "down");
            exact(s.node(tip)[1], along * p * l * l * l / (3.0 * e) * m.iyz / det, "sideways");
        });
    }
}

/// Sizes that make no shape give none.
#[test]
fn no_shape() {
    assert!(rectangles(&[]).is_none());
    assert!(angle(0.05, 0.05, 0.06).is_none());
    assert!(angle(f64::NAN, 0.05, 0.01).is_none());
    assert!(angle(f64::INFINITY, 0.05, 0.01).is_none());
    assert!(zed(0.1, 0.04, 0.003, 0.06).is_none());
    let square = rectangles(&[Rectangle { at: [0.0; 2], size: [2.0, 2.0] }]).unwrap();
    exact(square.principal().angle + 1.0, 1.0, "a square leans nowhere");
}
