//! Cross-sections: what the solver needs of them, and the stress that forces make in them.

use chairwright_design::Shape as Stocked;
use chairwright_statics::section::{Shape, bredt_flow, rectangle, rod, thin_box, tube};
use std::f64::consts::PI;

/// A cross-section, in metres. Level is along the bar's own y, upright along its own z.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Form {
    /// A round tube at its mean outside and least wall.
    Tube {
        /// Outside diameter.
        outer: f64,
        /// Wall.
        wall: f64,
    },
    /// A round bar.
    Rod {
        /// Diameter.
        diameter: f64,
    },
    /// A board or a strip of sheet.
    Flat {
        /// Size along y.
        level: f64,
        /// Size along z.
        upright: f64,
    },
    /// A closed box of sheet.
    Hollow {
        /// Outside size along y.
        level: f64,
        /// Outside size along z.
        upright: f64,
        /// Thickness of the sheet.
        wall: f64,
    },
}

/// Forces on a cross-section: N (pull positive), Vy, Vz in newton; T, My, Mz in newton metre.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Forces {
    /// Along the bar, pull positive.
    pub pull: f64,
    /// Across, along y and z.
    pub across: [f64; 2],
    /// Twist.
    pub twist: f64,
    /// Bending about y and z.
    pub bend: [f64; 2],
}

/// Stress in a cross-section, Pa, each at its worst place.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Stress {
    /// From pull or push alone; pull positive.
    pub axial: f64,
    /// From bending alone.
    pub bending: f64,
    /// From shear across and twist together.
    pub shear: f64,
    /// Shear from twist alone, where the bending is greatest.
    pub twist: f64,
}

impl Stress {
    /// The greatest stress along the fibres, either way.
    #[must_use]
    pub fn fibre(&self) -> f64 {
        self.axial.abs() + self.bending
    }

    /// Equivalent stress at the outer fibre, after von Mises: √(σ² + 3τ²) with the twist; and √3·τ
    /// where the shear is greatest.
    #[must_use]
    pub fn equivalent(&self) -> f64 {
        let s = self.fibre();
        (s * s + 3.0 * self.twist * self.twist).sqrt().max(3.0_f64.sqrt() * self.shear)
    }
}

impl Form {
    /// The section of a stock at mean outside and least wall; `None` for what bends like cloth.
    #[must_use]
    pub fn of(shape: &Stocked) -> Option<Form> {
        Some(match *shape {
            Stocked::Tube { outer, wall, .. } => Form::Tube { outer: outer.mid(), wall: wall.low },
            Stocked::Rod { diameter } => Form::Rod { diameter },
            Stocked::Board { thickness, width } => Form::Flat { level: thickness, upright: width },
            Stocked::Sheet { .. } | Stocked::Webbing { .. } => return None,
        })
    }

    /// Stiffness figures for the solver.
    #[must_use]
    pub fn shape(&self, nu: f64) -> Shape {
        match *self {
            Form::Tube { outer, wall } => tube(outer, wall, nu),
            Form::Rod { diameter } => rod(diameter, nu),
            Form::Flat { level, upright } => rectangle(level, upright, nu),
            Form::Hollow { level, upright, wall } => thin_box(level, upright, wall, wall),
        }
    }

    /// The same without the torsion constant of a rectangle, which is a long sum and no part of a stress.
    fn plain(&self) -> Shape {
        match *self {
            Form::Flat { level, upright } => {
                let area = level * upright;
                let (iy, iz) = (area * upright * upright / 12.0, area * level * level / 12.0);
                Shape { area, iy, iz, j: 0.0, shear_y: area, shear_z: area }
            }
            _ => self.shape(0.3),
        }
    }

    /// Half the sizes along y and z.
    #[must_use]
    pub fn half(&self) -> (f64, f64) {
        match *self {
            Form::Tube { outer: d, .. } | Form::Rod { diameter: d } => (d / 2.0, d / 2.0),
            Form::Flat { level, upright } | Form::Hollow { level, upright, .. } => (level / 2.0, upright / 2.0),
        }
    }

    /// Whether it is round.
    #[must_use]
    pub fn is_round(&self) -> bool {
        matches!(self, Form::Tube { .. } | Form::Rod { .. })
    }

    /// Stress from forces (strength of materials, any handbook): N/A, M/Z, V over the area that
    /// resists it with the form's peak (2 for a thin tube, 4/3 for a rod, 3/2 for a rectangle, the
    /// walls along the shear for a box), and twist: T·r/J round, Bredt's T/2At for a box, the
    /// approximation T(3 + 1.8 b/a)/(a b²) for a rectangle (Roark).
    #[must_use]
    pub fn stress(&self, f: &Forces) -> Stress {
        self.stress_at(f, None)
    }

    /// The same where a hole goes through: its way across the bar (along y and z, a unit) and its
    /// diameter. What the drill takes is taken from area and second moments; shear is left whole.
    #[must_use]
    pub fn stress_at(&self, f: &Forces, hole: Option<([f64; 2], f64)>) -> Stress {
        let shape = self.plain();
        let (hy, hz) = self.half();
        let lost = hole.map_or([0.0; 3], |(way, d)| self.lost(way, d));
        let left = |whole: f64, lost: f64| (whole - lost).max(0.02 * whole);
        let (area, iy, iz) = (left(shape.area, lost[0]), left(shape.iy, lost[1]), left(shape.iz, lost[2]));
        let bending = if self.is_round() {
            libm::hypot(f.bend[0] / iy, f.bend[1] / iz) * hy
        } else {
            (f.bend[0] * hz / iy).abs() + (f.bend[1] * hy / iz).abs()
        };
        let across = libm::hypot(f.across[0], f.across[1]);
        let (cut, twist) = match *self {
            Form::Tube { outer, .. } => (2.0 * across / shape.area, f.twist.abs() * outer / 4.0 / shape.iy),
            Form::Rod { diameter } => {
                (4.0 / 3.0 * across / shape.area, f.twist.abs() * 16.0 / (PI * diameter * diameter * diameter))
            }
            Form::Flat { level, upright } => {
                let (a, b) = (level.max(upright), level.min(upright));
                (1.5 * across / shape.area, f.twist.abs() * (3.0 + 1.8 * b / a) / (a * b * b))
            }
            Form::Hollow { level, upright, wall } => {
                let cut = (f.across[0] / shape.shear_y).abs() + (f.across[1] / shape.shear_z).abs();
                (1.5 * cut, bredt_flow(f.twist, (level - wall) * (upright - wall)).abs() / wall)
            }
        };
        Stress { axial: f.pull / area, bending, shear: cut + twist, twist }
    }

    /// Area and second moments about y and z that a hole takes: two patches of wall where it enters
    /// and leaves a hollow form, the whole depth of a solid one.
    fn lost(&self, way: [f64; 2], d: f64) -> [f64; 3] {
        let [y, z] = way;
        match *self {
            Form::Tube { outer, wall } => {
                let r = (outer - wall) / 2.0;
                let patches = 2.0 * d * wall;
                [patches, patches * r * r * z * z, patches * r * r * y * y]
            }
            Form::Rod { diameter: t } => {
                let cube = |b: f64, h: f64| b * h * h * h / 12.0;
                [d * t, cube(d, t) * z * z + cube(t, d) * y * y, cube(d, t) * y * y + cube(t, d) * z * z]
            }
            Form::Flat { level, upright } => {
                let cube = |b: f64, h: f64| b * h * h * h / 12.0;
                if y.abs() > z.abs() {
                    [d * level, cube(level, d), cube(d, level)]
                } else {
                    [d * upright, cube(d, upright), cube(upright, d)]
                }
            }
            Form::Hollow { level, upright, wall } => {
                let patches = 2.0 * d * wall;
                let (ry, rz) = ((level - wall) / 2.0, (upright - wall) / 2.0);
                if y.abs() > z.abs() {
                    [patches, 0.0, patches * ry * ry]
                } else {
                    [patches, patches * rz * rz, 0.0]
                }
            }
        }
    }

    /// The section modulus about the stronger axis, m³: what a plain bending moment meets.
    #[must_use]
    pub fn modulus(&self) -> f64 {
        let shape = self.plain();
        let (hy, hz) = self.half();
        (shape.iy / hz).max(shape.iz / hy)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1 1/4 in Schedule 40 at 54 N m: 14 MPa, worked by hand from Z = 3 844 mm³ (design paper 1.1).
    #[test]
    fn bare_axle_pipe_at_three_times_the_static_moment() {
        let pipe = Form::Tube { outer: 42.16e-3, wall: 3.556e-3 };
        let s = pipe.stress(&Forces { bend: [54.0, 0.0], ..Forces::default() });
        assert!((s.bending / 1e6 - 54.0 / 3.844).abs() < 0.02, "{}", s.bending / 1e6);
    }

    /// Box 100 x 60 x 3 mm under 500 N m: 15.07 MPa (design paper, case S10); the solver's box is
    /// upright 100 by level 60.
    #[test]
    fn twist_of_a_box_after_bredt() {
        let b = Form::Hollow { level: 60e-3, upright: 100e-3, wall: 3e-3 };
        let s = b.stress(&Forces { twist: 500.0, ..Forces::default() });
        assert!((s.twist / 1e6 - 15.07).abs() < 0.01, "{}", s.twist / 1e6);
    }

    /// A hole at top and bottom of 1 1/4 in pipe costs about 28 % of the bending stiffness for an M8 bolt
    /// with its clearance; at the neutral axis almost none (trade paper 1.10). By hand, 8.4 mm: two
    /// patches of 8.4 x 3.56 mm at 19.3 mm: 2·29.9·372.7 = 22 285 of 81 044 mm⁴, 27.5 %.
    #[test]
    fn a_hole_on_the_neutral_axis_costs_nothing() {
        let pipe = Form::Tube { outer: 42.16e-3, wall: 3.556e-3 };
        let f = Forces { bend: [20.0, 0.0], ..Forces::default() };
        let whole = pipe.stress(&f).bending;
        let upright = pipe.stress_at(&f, Some(([0.0, 1.0], 8.4e-3))).bending;
        let level = pipe.stress_at(&f, Some(([1.0, 0.0], 8.4e-3))).bending;
        assert!((1.0 - whole / upright - 0.275).abs() < 0.003, "{}", 1.0 - whole / upright);
        assert!((level - whole).abs() < 1e-6 * whole);
    }

    /// A 38 x 89 board on edge, 100 N m: Z = 38·89²/6 = 50 166 mm³, 1.993 MPa; 1 kN of shear:
    /// 1.5·1000/3 382 = 0.4435 MPa.
    #[test]
    fn a_board_in_bending_and_shear() {
        let b = Form::Flat { level: 38e-3, upright: 89e-3 };
        let s = b.stress(&Forces { bend: [100.0, 0.0], across: [0.0, 1000.0], ..Forces::default() });
        assert!((s.bending / 1e6 - 1.9934).abs() < 1e-3 && (s.shear / 1e6 - 0.4435).abs() < 1e-3);
    }
}
