//! Cross-sections: area, second moments, torsion constant, shear areas from a shape's sizes.
//!
//! All lengths in m, y and z through the centroid. Nothing here checks that a shape is possible:
//! a wall thicker than its tube gives figures below zero, which [`crate::Solver::new`] refuses.

mod leaning;

pub use leaning::{Moments, Principal, Rectangle, angle, rectangles, zed};

use std::f64::consts::PI;

/// Figures of a shape, without its material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shape {
    /// Area, m².
    pub area: f64,
    /// Second moment about y, m⁴.
    pub iy: f64,
    /// Second moment about z, m⁴.
    pub iz: f64,
    /// Torsion constant, m⁴.
    pub j: f64,
    /// Area that resists shear along y, m².
    pub shear_y: f64,
    /// Area that resists shear along z, m².
    pub shear_z: f64,
}

impl Shape {
    /// With a material: Young's and shear modulus in Pa.
    #[must_use]
    pub fn of(&self, e: f64, g: f64) -> crate::Section {
        crate::Section {
            e,
            g,
            area: self.area,
            shear_y: Some(self.shear_y),
            shear_z: Some(self.shear_z),
            iy: self.iy,
            iz: self.iz,
            j: self.j,
        }
    }
}

/// A round tube, any wall.
///
/// Shear factor: Cowper, "The Shear Coefficient in Timoshenko's Beam Theory" (1966), hollow circle:
/// `6(1+ν)(1+m²)² / ((7+6ν)(1+m²)² + (20+12ν)m²)`, m the inner over the outer diameter.
#[must_use]
pub fn tube(outer: f64, wall: f64, nu: f64) -> Shape {
    let inner = outer - 2.0 * wall;
    let m = inner / outer;
    let q = (1.0 + m * m) * (1.0 + m * m);
    let k = 6.0 * (1.0 + nu) * q / ((7.0 + 6.0 * nu) * q + (20.0 + 12.0 * nu) * m * m);
    // Written by differences of the diameters, so that a thin wall keeps its digits.
    let (sum, squares) = (outer + inner, outer * outer + inner * inner);
    let area = PI / 4.0 * sum * 2.0 * wall;
    let i = area * squares / 16.0;
    Shape { area, iy: i, iz: i, j: 2.0 * i, shear_y: k * area, shear_z: k * area }
}

/// A round rod.
///
/// Shear factor: Cowper (1966), circle: `6(1+ν)/(7+6ν)`.
#[must_use]
pub fn rod(diameter: f64, nu: f64) -> Shape {
    tube(diameter, diameter / 2.0, nu)
}

/// A rectangle, `width` along y and `height` along z.
///
/// Torsion: Saint-Venant's series, as in Timoshenko and Goodier, *Theory of Elasticity*, summed until
/// it no longer changes. Shear factor: Cowper (1966), rectangle: `10(1+ν)/(12+11ν)`.
#[must_use]
pub fn rectangle(width: f64, height: f64, nu: f64) -> Shape {
    let area = width * height;
    let k = 10.0 * (1.0 + nu) / (12.0 + 11.0 * nu);
    Shape {
        area,
        iy: area * height * height / 12.0,
        iz: area * width * width / 12.0,
        j: rectangle_torsion(width, height),
        shear_y: k * area,
        shear_z: k * area,
    }
}

/// Torsion constant of a rectangle: `a b³ (1/3 − 64/π⁵ · b/a · Σ tanh(nπa/2b)/n⁵)`, n odd, a ≥ b.
#[must_use]
pub fn rectangle_torsion(width: f64, height: f64) -> f64 {
    let (a, b) = (width.max(height), width.min(height));
    let mut sum = 0.0;
    // The 33rd term is below 1e-9 of the first; the tail of 1/n⁵ beyond it adds nothing that counts.
    for n in (1..4000).step_by(2) {
        let n = f64::from(n);
        let term = libm::tanh(n * PI * a / (2.0 * b)) / (n * n * n * n * n);
        sum += term;
        if term < 1e-17 {
            break;
        }
    }
    a * b * b * b * (1.0 / 3.0 - 64.0 / (PI * PI * PI * PI * PI) * b / a * sum)
}

/// A closed rectangular box, walls of one thickness along each pair of sides: `width` along y with
/// walls `flange` thick (top and bottom), `height` along z with walls `web` thick.
///
/// Area and second moments are exact. Torsion: Bredt, `4 Aₘ² / Σ(s/t)` on the middle line, good for
/// thin walls. Shear areas: the walls along the shear, between the middles of the others, as in any
/// thin-walled beam text.
#[must_use]
pub fn thin_box(width: f64, height: f64, flange: f64, web: f64) -> Shape {
    let (inner_w, inner_h) = (width - 2.0 * web, height - 2.0 * flange);
    let (mid_w, mid_h) = (width - web, height - flange);
    let cube = |b: f64, h: f64| b * h * h * h / 12.0;
    Shape {
        area: width * height - inner_w * inner_h,
        iy: cube(width, height) - cube(inner_w, inner_h),
        iz: cube(height, width) - cube(inner_h, inner_w),
        j: bredt(mid_w * mid_h, &[(2.0 * mid_w, flange), (2.0 * mid_h, web)]),
        shear_y: 2.0 * flange * mid_w,
        shear_z: 2.0 * web * mid_h,
    }
}

/// Bredt's torsion constant `4 Aₘ² / Σ(s/t)` of a closed thin wall: the area inside its middle line,
/// and the length and thickness of each stretch of it. Walls of several materials: thickness times
/// the ratio of shear moduli.
#[must_use]
pub fn bredt(enclosed: f64, stretches: &[(f64, f64)]) -> f64 {
    4.0 * enclosed * enclosed / stretches.iter().map(|(s, t)| s / t).sum::<f64>()
}

/// Shear flow round a closed thin wall under a torque, `T / 2Aₘ`, N/m; over the thickness it is the
/// stress, and on a glue line it is the force per length.
#[must_use]
pub fn bredt_flow(torque: f64, enclosed: f64) -> f64 {
    torque / (2.0 * enclosed)
}

/// Torsion constant of an open thin wall: a third of the sum of length times thickness cubed.
#[must_use]
pub fn open_torsion(stretches: &[(f64, f64)]) -> f64 {
    stretches.iter().map(|(s, t)| s * t * t * t).sum::<f64>() / 3.0
}

/// A part of a composed section: its material, shape and where its centroid lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// Young's modulus, Pa.
    pub e: f64,
    /// Shear modulus, Pa.
    pub g: f64,
    /// Its shape, axes parallel to those of the whole.
    pub shape: Shape,
    /// Its centroid, y and z, m.
    pub at: [f64; 2],
}

/// Parts that share every displacement but slide on each other, such as nested tubes without glue:
/// stiffnesses add, each about its own axis. Returned as a section whose products with `e` and `g` of
/// the first part are those sums. `None` without parts.
///
/// A moment is shared in proportion to the parts' EI, a pull to their EA, a torque to their GJ.
#[must_use]
pub fn unbonded(parts: &[Part]) -> Option<crate::Section> {
    combine(parts, |_| [0.0, 0.0])
}

/// Parts that are glued into one: the transformed section about the common centroid, weighted by E.
/// Torsion and shear stiffness add, which is exact for tubes in tubes and too soft for parts side by
/// side. `None` without parts.
///
/// Only for sections whose axes stay principal: symmetric about y or z.
#[must_use]
pub fn bonded(parts: &[Part]) -> Option<crate::Section> {
    let ea: f64 = parts.iter().map(|p| p.e * p.shape.area).sum();
    let centre: [f64; 2] =
        std::array::from_fn(|k| parts.iter().map(|p| p.e * p.shape.area * p.at[k]).sum::<f64>() / ea);
    combine(parts, |p| [p.at[0] - centre[0], p.at[1] - centre[1]])
}

fn combine(parts: &[Part], arm: impl Fn(&Part) -> [f64; 2]) -> Option<crate::Section> {
    let first = parts.first()?;
    let sum = |f: &dyn Fn(&Part) -> f64| parts.iter().map(f).sum::<f64>();
    Some(crate::Section {
        e: first.e,
        g: first.g,
        area: sum(&|p| p.e * p.shape.area) / first.e,
        iy: sum(&|p| p.e * (p.shape.iy + p.shape.area * arm(p)[1] * arm(p)[1])) / first.e,
        iz: sum(&|p| p.e * (p.shape.iz + p.shape.area * arm(p)[0] * arm(p)[0])) / first.e,
        j: sum(&|p| p.g * p.shape.j) / first.g,
        shear_y: Some(sum(&|p| p.g * p.shape.shear_y) / first.g),
        shear_z: Some(sum(&|p| p.g * p.shape.shear_z) / first.g),
    })
}
