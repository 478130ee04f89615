//! Vectors and axes in space.

use std::ops::{Add, AddAssign, Mul, Neg, Sub};

/// A vector or point: x forward, y left, z up, in metres.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Vec3 {
    /// Forward.
    pub x: f64,
    /// To the rider's left.
    pub y: f64,
    /// Up.
    pub z: f64,
}

impl Vec3 {
    /// The origin.
    pub const ZERO: Vec3 = Vec3::new(0.0, 0.0, 0.0);
    /// Forward.
    pub const X: Vec3 = Vec3::new(1.0, 0.0, 0.0);
    /// Left.
    pub const Y: Vec3 = Vec3::new(0.0, 1.0, 0.0);
    /// Up.
    pub const Z: Vec3 = Vec3::new(0.0, 0.0, 1.0);

    /// From its coordinates.
    #[must_use]
    pub const fn new(x: f64, y: f64, z: f64) -> Vec3 {
        Vec3 { x, y, z }
    }

    /// Scalar product.
    #[must_use]
    pub fn dot(self, o: Vec3) -> f64 {
        self.x * o.x + self.y * o.y + self.z * o.z
    }

    /// Vector product.
    #[must_use]
    pub fn cross(self, o: Vec3) -> Vec3 {
        Vec3::new(self.y * o.z - self.z * o.y, self.z * o.x - self.x * o.z, self.x * o.y - self.y * o.x)
    }

    /// Length.
    #[must_use]
    pub fn norm(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// The unit vector, or `None` for a vector shorter than a nanometre.
    #[must_use]
    pub fn unit(self) -> Option<Vec3> {
        let n = self.norm();
        (n > 1e-9).then(|| self * (1.0 / n))
    }

    /// The part of it at right angles to a unit vector.
    #[must_use]
    pub fn across(self, axis: Vec3) -> Vec3 {
        self - axis * self.dot(axis)
    }

    /// Some unit vector at right angles, as level as can be.
    #[must_use]
    pub fn any_across(self) -> Vec3 {
        let level = Vec3::Z.cross(self);
        level.unit().unwrap_or(Vec3::Y)
    }

    /// The angle between two vectors, in radians.
    #[must_use]
    pub fn angle_to(self, o: Vec3) -> f64 {
        libm::atan2(self.cross(o).norm(), self.dot(o))
    }

    /// The point between two points, `t` of the way.
    #[must_use]
    pub fn mix(self, o: Vec3, t: f64) -> Vec3 {
        self + (o - self) * t
    }

    /// Mirrored in the chair's middle plane.
    #[must_use]
    pub fn mirrored(self) -> Vec3 {
        Vec3::new(self.x, -self.y, self.z)
    }
}

impl Add for Vec3 {
    type Output = Vec3;
    fn add(self, o: Vec3) -> Vec3 {
        Vec3::new(self.x + o.x, self.y + o.y, self.z + o.z)
    }
}
impl AddAssign for Vec3 {
    fn add_assign(&mut self, o: Vec3) {
        *self = *self + o;
    }
}
impl Sub for Vec3 {
    type Output = Vec3;
    fn sub(self, o: Vec3) -> Vec3 {
        Vec3::new(self.x - o.x, self.y - o.y, self.z - o.z)
    }
}
impl Mul<f64> for Vec3 {
    type Output = Vec3;
    fn mul(self, k: f64) -> Vec3 {
        Vec3::new(self.x * k, self.y * k, self.z * k)
    }
}
impl Neg for Vec3 {
    type Output = Vec3;
    fn neg(self) -> Vec3 {
        self * -1.0
    }
}

/// Three axes at right angles and an origin: a rigid motion.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Frame3 {
    /// Where the origin goes.
    pub origin: Vec3,
    /// Where x goes.
    pub x: Vec3,
    /// Where y goes.
    pub y: Vec3,
    /// Where z goes.
    pub z: Vec3,
}

impl Frame3 {
    /// No motion.
    pub const IDENTITY: Frame3 = Frame3 { origin: Vec3::ZERO, x: Vec3::X, y: Vec3::Y, z: Vec3::Z };

    /// Axes from a first axis and a second one that is made square to it; `None` when they are
    /// parallel.
    #[must_use]
    pub fn from_two(first: Vec3, second: Vec3) -> Option<Frame3> {
        let x = first.unit()?;
        let y = second.across(x).unit()?;
        Some(Frame3 { origin: Vec3::ZERO, x, y, z: x.cross(y) })
    }

    /// Moves a direction.
    #[must_use]
    pub fn turn(&self, v: Vec3) -> Vec3 {
        self.x * v.x + self.y * v.y + self.z * v.z
    }

    /// Moves a point.
    #[must_use]
    pub fn place(&self, p: Vec3) -> Vec3 {
        self.origin + self.turn(p)
    }

    /// A direction seen from these axes.
    #[must_use]
    pub fn unturn(&self, v: Vec3) -> Vec3 {
        Vec3::new(v.dot(self.x), v.dot(self.y), v.dot(self.z))
    }
}
