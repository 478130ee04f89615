//! Three-vectors as plain arrays, and the axes of a member.

/// A vector or point: x, y, z.
pub type Vec3 = [f64; 3];

pub(crate) fn add(a: Vec3, b: Vec3) -> Vec3 {
    [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
}

pub(crate) fn sub(a: Vec3, b: Vec3) -> Vec3 {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

pub(crate) fn scale(a: Vec3, k: f64) -> Vec3 {
    [a[0] * k, a[1] * k, a[2] * k]
}

pub(crate) fn dot(a: Vec3, b: Vec3) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(crate) fn cross(a: Vec3, b: Vec3) -> Vec3 {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

pub(crate) fn norm(a: Vec3) -> f64 {
    dot(a, a).sqrt()
}

pub(crate) fn finite(a: &[f64]) -> bool {
    a.iter().all(|v| v.is_finite())
}

/// The first three and last three of six numbers.
pub(crate) fn halves(a: &[f64; 6]) -> (Vec3, Vec3) {
    ([a[0], a[1], a[2]], [a[3], a[4], a[5]])
}

/// Three right-handed unit axes at right angles, in global components.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axes {
    /// First axis.
    pub x: Vec3,
    /// Second axis.
    pub y: Vec3,
    /// Third axis, `x × y`.
    pub z: Vec3,
}

impl Axes {
    /// The global axes.
    pub const GLOBAL: Axes = Axes { x: [1.0, 0.0, 0.0], y: [0.0, 1.0, 0.0], z: [0.0, 0.0, 1.0] };

    /// Axes with `x` along the first vector and `z` in the plane of both, on the side of the second;
    /// `None` when a vector is not finite or they are parallel (sine of the angle below 1e-6).
    #[must_use]
    pub fn with_z_towards(along: Vec3, towards: Vec3) -> Option<Axes> {
        let (n, t) = (norm(along), norm(towards));
        let side = cross(towards, along);
        let s = norm(side);
        if !(s > 1e-6 * n * t && s.is_finite()) {
            return None;
        }
        let (x, y) = (scale(along, 1.0 / n), scale(side, 1.0 / s));
        Some(Axes { x, y, z: cross(x, y) })
    }

    /// Turned about its own `x`, from `y` towards `z`, in radians.
    #[must_use]
    pub fn rolled(&self, angle: f64) -> Axes {
        let (s, c) = (libm::sin(angle), libm::cos(angle));
        let y = add(scale(self.y, c), scale(self.z, s));
        Axes { x: self.x, y, z: add(scale(self.y, -s), scale(self.z, c)) }
    }

    /// A global vector in these axes.
    #[must_use]
    pub fn to_local(&self, v: Vec3) -> Vec3 {
        [dot(self.x, v), dot(self.y, v), dot(self.z, v)]
    }

    /// A vector of these axes in global components.
    #[must_use]
    pub fn to_global(&self, v: Vec3) -> Vec3 {
        add(add(scale(self.x, v[0]), scale(self.y, v[1])), scale(self.z, v[2]))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn axes_are_right_handed_and_roll_turns_y_towards_z() {
        let a = Axes::with_z_towards([3.0, 1.0, 2.0], [0.0, 0.0, 1.0]).unwrap();
        let z = cross(a.x, a.y);
        assert!(norm(sub(z, a.z)) < 1e-15);
        assert!(a.z[2] > 0.0 && a.y[2].abs() < 1e-15);
        let q = a.rolled(std::f64::consts::FRAC_PI_2);
        assert!(norm(sub(q.y, a.z)) < 1e-15);
        let v = [0.3, -2.0, 5.0];
        assert!(norm(sub(a.to_global(a.to_local(v)), v)) < 1e-14);
    }

    #[test]
    fn parallel_vectors_give_no_axes() {
        assert!(Axes::with_z_towards([0.0, 0.0, 2.0], [0.0, 0.0, 1.0]).is_none());
        assert!(Axes::with_z_towards([f64::NAN, 0.0, 2.0], [0.0, 1.0, 1.0]).is_none());
    }
}
