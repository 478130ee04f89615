//! Sections without an axis of symmetry, such as angles and zeds: their principal axes lean.
//!
//! A member takes them with `iy` the greater and `iz` the lesser principal moment and
//! [`crate::Orientation::Roll`] by [`Principal::angle`]. Left out: the shear centre of such a shape
//! lies off its centroid, so that a load through the centroid twists it as well; add that torque to
//! the load case if it counts.

use crate::Section;

/// A rectangle with sides along y and z.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rectangle {
    /// Its middle, y and z, m.
    pub at: [f64; 2],
    /// Its sides along y and z, m.
    pub size: [f64; 2],
}

/// Area, centroid and second moments about axes through the centroid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moments {
    /// Area, m².
    pub area: f64,
    /// Centroid, y and z, m.
    pub centre: [f64; 2],
    /// Second moment about y, `∫z² dA`, m⁴.
    pub iy: f64,
    /// Second moment about z, `∫y² dA`, m⁴.
    pub iz: f64,
    /// Product moment, `∫y z dA`, m⁴.
    pub iyz: f64,
}

/// Principal axes and moments.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Principal {
    /// The greatest second moment, m⁴.
    pub most: f64,
    /// The least, m⁴.
    pub least: f64,
    /// From y to the axis of the greatest moment, turning towards z, rad, within a quarter turn.
    pub angle: f64,
}

/// Rectangles that do not overlap, taken as one shape: sums about the common centroid by the
/// parallel-axis theorem (any statics text). `None` without area or with figures that are not finite.
#[must_use]
pub fn rectangles(parts: &[Rectangle]) -> Option<Moments> {
    let size = |p: &Rectangle| p.size[0] * p.size[1];
    let area: f64 = parts.iter().map(size).sum();
    if !(area > 0.0 && area.is_finite()) {
        return None;
    }
    let centre: [f64; 2] = std::array::from_fn(|k| parts.iter().map(|p| size(p) * p.at[k]).sum::<f64>() / area);
    let mut out = Moments { area, centre, iy: 0.0, iz: 0.0, iyz: 0.0 };
    for p in parts {
        let (a, [w, h]) = (size(p), p.size);
        let (y, z) = (p.at[0] - centre[0], p.at[1] - centre[1]);
        out.iy += a * (h * h / 12.0 + z * z);
        out.iz += a * (w * w / 12.0 + y * y);
        out.iyz += a * y * z;
    }
    (out.iy + out.iz + out.iyz).is_finite().then_some(out)
}

/// An angle with square corners: a leg `width` along y and one `height` along z, of one thickness,
/// from the corner at the origin. `None` for sizes that make no angle.
#[must_use]
pub fn angle(width: f64, height: f64, thickness: f64) -> Option<Moments> {
    if !(thickness > 0.0 && width > thickness && height > thickness) {
        return None;
    }
    let t = thickness;
    let lying = Rectangle { at: [width / 2.0, t / 2.0], size: [width, t] };
    let standing = Rectangle { at: [t / 2.0, (height + t) / 2.0], size: [t, height - t] };
    rectangles(&[lying, standing])
}

/// A zed with square corners about the origin: a web `height` along z and `web` thick, and two
/// flanges `flange` thick that stand out from the web by `reach`: the upper one towards +y, the lower
/// one towards -y. `None` for sizes that make no zed.
#[must_use]
pub fn zed(height: f64, reach: f64, web: f64, flange: f64) -> Option<Moments> {
    if !(web > 0.0 && flange > 0.0 && reach > 0.0 && height > 2.0 * flange) {
        return None;
    }
    let (y, z) = ((web + reach) / 2.0, (height - flange) / 2.0);
    let size = [reach, flange];
    let upright = Rectangle { at: [0.0; 2], size: [web, height] };
    rectangles(&[upright, Rectangle { at: [y, z], size }, Rectangle { at: [-y, -z], size }])
}

impl Moments {
    /// Principal axes by Mohr's circle: `tan 2α = -2 Iyz / (Iy - Iz)` (any statics text).
    #[must_use]
    pub fn principal(&self) -> Principal {
        let (mean, half) = ((self.iy + self.iz) / 2.0, (self.iy - self.iz) / 2.0);
        let radius = libm::hypot(half, self.iyz);
        let angle = if radius > 0.0 { libm::atan2(-self.iyz, half) / 2.0 } else { 0.0 };
        Principal { most: mean + radius, least: mean - radius, angle }
    }

    /// As a section in its principal axes, without shear strain, to be rolled by
    /// [`Principal::angle`]; with moduli in Pa and the torsion constant in m⁴ (for thin walls,
    /// [`super::open_torsion`]).
    #[must_use]
    pub fn section(&self, e: f64, g: f64, j: f64) -> Section {
        let p = self.principal();
        Section { e, g, area: self.area, shear_y: None, shear_z: None, iy: p.most, iz: p.least, j }
    }
}
