//! Whether what stands around the wheels is alike on both sides: what was proven on one side then holds on the other.

use crate::clear::convex::{Convex, Form};
use chairwright_design::{Vec3, Wheel};

/// Two places within this are one, in metres.
const SAME: f64 = 1e-9;

fn near(a: Vec3, b: Vec3) -> bool {
    let d = a - b;
    d.dot(d) <= SAME * SAME
}

/// Whether two vectors lie on one line and are as long.
fn along(a: Vec3, b: Vec3) -> bool {
    near(a, b) || near(a, -b)
}

/// Whether one body is the other's mirror image across the chair's middle plane.
pub(crate) fn mirrored(a: &Convex, b: &Convex) -> bool {
    let alike = |x: f64, y: f64| (x - y).abs() <= SAME;
    near(a.middle.mirrored(), b.middle)
        && alike(a.radius, b.radius)
        && alike(a.skin, b.skin)
        && match (&a.form, &b.form) {
            (Form::Points(p), Form::Points(q)) => {
                let on = |x: &Vec3| q.iter().any(|y| near(x.mirrored(), *y));
                let back = |y: &Vec3| p.iter().any(|x| near(x.mirrored(), *y));
                p.len() == q.len() && p.iter().all(on) && q.iter().all(back)
            }
            (
                Form::Cylinder { axis, half, radius },
                Form::Cylinder { axis: axis2, half: half2, radius: radius2 },
            ) => along(axis.mirrored(), *axis2) && alike(*half, *half2) && alike(*radius, *radius2),
            (Form::Brick(p), Form::Brick(q)) => p.iter().all(|x| q.iter().any(|y| along(x.mirrored(), *y))),
            (Form::Around(p), Form::Around(q)) => {
                p.len() == q.len() && p.iter().zip(q).all(|(x, y)| mirrored(x, y))
            }
            _ => false,
        }
}

/// Whether each body, with what it counts as, has its mirror image among them.
pub(crate) fn even<K: PartialEq>(all: &[(K, &Convex)]) -> bool {
    let image = |(kind, body): &(K, &Convex)| all.iter().any(|(k, b)| k == kind && mirrored(body, b));
    all.iter().all(image)
}

/// Whether one wheel is the other's mirror image.
pub(crate) fn wheels_mirrored(a: &Wheel, b: &Wheel) -> bool {
    let sizes = |w: &Wheel| [w.radius, w.tyre, w.hub];
    near(a.at.mirrored(), b.at)
        && along(a.axle.mirrored(), b.axle)
        && sizes(a).iter().zip(sizes(b)).all(|(x, y)| (x - y).abs() <= SAME)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bar(y: f64, lean: f64) -> Convex {
        let (s, c) = libm::sincos(lean);
        Convex::cylinder(Vec3::new(0.1, y, 0.3), Vec3::new(0.0, s, c), 0.2, 0.015)
    }

    #[test]
    fn a_lean_to_the_same_side_is_no_image() {
        assert!(mirrored(&bar(0.2, 0.1), &bar(-0.2, -0.1)));
        assert!(!mirrored(&bar(0.2, 0.1), &bar(-0.2, 0.1)));
        assert!(!mirrored(&bar(0.2, 0.1), &bar(-0.21, -0.1)));
        // an axis is one line, whichever way it points
        let flipped = Convex::cylinder(
            Vec3::new(0.1, -0.2, 0.3),
            Vec3::new(0.0, libm::sin(0.1), -libm::cos(0.1)),
            0.2,
            0.015,
        );
        assert!(mirrored(&bar(0.2, 0.1), &flipped));
    }

    #[test]
    fn one_thing_more_on_one_side_is_not_even() {
        let (left, right, middle) = (bar(0.2, 0.1), bar(-0.2, -0.1), bar(0.0, 0.0));
        assert!(even(&[((), &left), ((), &right), ((), &middle)]));
        assert!(!even(&[((), &left), ((), &middle)]));
        // and of another kind it is another thing
        assert!(!even(&[(1, &left), (2, &right)]));
    }

    #[test]
    fn a_plate_is_its_own_image_in_the_middle() {
        let corners = [(0.2, 0.3), (-0.2, 0.3), (-0.2, -0.1), (0.2, -0.1)];
        let plate = Convex::points(corners.map(|(y, x)| Vec3::new(x, y, 0.5)).to_vec(), 0.0);
        assert!(mirrored(&plate, &plate));
        assert!(!mirrored(&plate.moved(Vec3::Y * 1e-6), &plate));
    }
}
