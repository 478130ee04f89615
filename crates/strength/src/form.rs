//! Cross-sections: what the solver needs of them, and the stress that forces make in them.

use crate::slot::halves;
use chairwright_design::Shape as Stocked;
use chairwright_resistance::section::{
    Piece, Properties, Through, assembled, rectangle as corners, rectangle_with_hole, tube_with_hole,
};
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

/// A hole through a cross-section.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Drilled {
    /// Way of the drill across the bar, along its y and z, a unit; `None` where nobody says: the worst counts.
    pub way: Option<[f64; 2]>,
    /// Its diameter, m.
    pub diameter: f64,
    /// How long a slot is along the bar, m; of a hole its diameter.
    pub long: f64,
    /// How many alike stand side by side across the bar, and how far from one to the next, m.
    pub beside: (u32, f64),
    /// How far their middle is from that of the bar, m, to whichever side.
    pub off: f64,
}

impl Drilled {
    /// One round hole.
    pub(crate) fn hole(way: Option<[f64; 2]>, diameter: f64) -> Drilled {
        Drilled { way, diameter, long: diameter, beside: (1, 0.0), off: 0.0 }
    }

    /// How far each of those side by side is from the middle, m.
    fn offsets(self) -> impl Iterator<Item = f64> {
        let (count, apart) = self.beside;
        (0..count).map(move |k| self.off + apart * (f64::from(k) - f64::from(count - 1) / 2.0))
    }

    /// Whether it is more than one hole in the middle.
    fn is_row(&self) -> bool {
        self.beside.0 > 1 || self.off > 0.0
    }

    /// Whether it is longer than wide.
    #[must_use]
    pub fn is_slot(&self) -> bool {
        self.long > self.diameter + 1e-6
    }

    /// The hole that is as wide as a slot.
    pub(crate) fn round(self) -> Drilled {
        Drilled { long: self.diameter, ..self }
    }
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
    /// approximation T(3 + 1.8 b/a)/(a b²) for a rectangle (Roark). Infinite in a form without a size.
    #[must_use]
    pub fn stress(&self, f: &Forces) -> Stress {
        const LOST: f64 = f64::INFINITY;
        self.stress_at(f, None).unwrap_or(Stress { axial: LOST, bending: LOST, shear: LOST, twist: LOST })
    }

    /// The same where a hole goes through the middle: area, second moments and shear areas are those of
    /// what it leaves, bent beside a slot each half by itself; twist is left whole. `None` where it leaves nothing that can be reckoned with.
    #[must_use]
    pub fn stress_at(&self, f: &Forces, hole: Option<Drilled>) -> Option<Stress> {
        let Some(hole) = hole else { return self.stress_of(f, UPRIGHT, None) };
        let of = |way| self.stress_of(f, way, Some(&hole));
        let mut worst = match hole.way.or_else(|| self.worst_way(f)) {
            Some(way) => of(way)?,
            None => {
                let (level, upright) = (of(LEVEL)?, of(UPRIGHT)?);
                if level.equivalent().total_cmp(&upright.equivalent()).is_gt() { level } else { upright }
            }
        };
        worst.bending += halves(self, &hole, f.across);
        Some(worst)
    }

    /// The widest hole of which what it leaves can be reckoned, no wider than this one: through a tube or a box one as wide as
    /// its bore. `None` where this one leaves nothing at all.
    #[must_use]
    pub fn widest(&self, hole: Drilled) -> Option<Drilled> {
        const LEFT: f64 = 0.99;
        let sizes = |way: [f64; 2]| match *self {
            Form::Tube { outer, wall } => (outer, outer - 2.0 * wall),
            Form::Rod { diameter } => (diameter, LEFT * diameter),
            Form::Flat { level, upright } => {
                let size = if is_level(way) { upright } else { level };
                (size, LEFT * size)
            }
            Form::Hollow { level, upright, wall } => {
                let size = if is_level(way) { upright } else { level };
                (size, size - 2.0 * wall)
            }
        };
        let least = |(a, b): (f64, f64), (c, d): (f64, f64)| (a.min(c), b.min(d));
        let (all, known) = hole.way.map_or_else(|| least(sizes(LEVEL), sizes(UPRIGHT)), sizes);
        let diameter = hole.diameter.min(known * (1.0 - 1e-6));
        (hole.diameter < all).then_some(Drilled { diameter, ..hole })
    }

    /// Way of a drill that costs most under these forces, where nobody says how it goes: in a round form through the outermost
    /// fibres; else `None`, one of the two axes.
    fn worst_way(&self, f: &Forces) -> Option<[f64; 2]> {
        let bend = long(f.bend[0], f.bend[1]);
        (self.is_round() && bend > 0.0).then(|| [-f.bend[1] / bend, f.bend[0] / bend])
    }

    fn stress_of(&self, f: &Forces, way: [f64; 2], hole: Option<&Drilled>) -> Option<Stress> {
        let net = self.net(way, hole)?;
        let (hy, hz) = self.half();
        let bending = if self.is_round() {
            // the moment about the axis across the drill, and about the drill
            let across = f.bend[0] * way[1] - f.bend[1] * way[0];
            let along = f.bend[0] * way[0] + f.bend[1] * way[1];
            long(across / net.iy, along / net.iz) * hy
        } else {
            // what holes beside the middle leave has its own middle to the other side: a pull bends it, and one face is further off
            let [cy, cz] = net.centroid.map(f64::abs);
            (f.bend[0].abs() + f.pull.abs() * cz) * (hz + cz) / net.iy
                + (f.bend[1].abs() + f.pull.abs() * cy) * (hy + cy) / net.iz
        };
        let cut = long(f.across[0], f.across[1]);
        let (cut, twist) = match *self {
            Form::Tube { outer, wall } => {
                let whole = tube(outer, wall, 0.0);
                (2.0 * cut / net.area, f.twist.abs() * outer / 2.0 / whole.j)
            }
            Form::Rod { diameter } => {
                (4.0 / 3.0 * cut / net.area, f.twist.abs() * 16.0 / (PI * diameter * diameter * diameter))
            }
            Form::Flat { level, upright } => {
                let (a, b) = (level.max(upright), level.min(upright));
                (1.5 * cut / net.area, f.twist.abs() * (3.0 + 1.8 * b / a) / (a * b * b))
            }
            Form::Hollow { level, upright, wall } => {
                let whole = thin_box(level, upright, wall, wall);
                let gone = hole.map_or(0.0, |h| 2.0 * h.diameter * f64::from(h.beside.0) * wall);
                let along = hole.filter(|h| h.is_row()).map_or(0.0, |h| self.cut_along(way, h));
                let (y, z) = if is_level(way) { (along, gone) } else { (gone, along) };
                let cut = (f.across[0] / (whole.shear_y - y)).abs() + (f.across[1] / (whole.shear_z - z)).abs();
                (1.5 * cut, bredt_flow(f.twist, (level - wall) * (upright - wall)).abs() / wall)
            }
        };
        Some(Stress { axial: f.pull / net.area, bending, shear: cut + twist, twist })
    }

    /// What a drill leaves, of a round form in the drill's own axes: the first second moment is about the
    /// axis across it.
    fn net(&self, way: [f64; 2], drilled: Option<&Drilled>) -> Option<Properties> {
        let hole = drilled.map_or(0.0, |h| h.diameter);
        if let Some(several) = drilled.filter(|h| h.is_row() && !self.is_round()) {
            return self.net_of_several(way, several);
        }
        match *self {
            Form::Tube { outer, wall } => tube_with_hole(outer, wall, hole, 0.0, Through::Both).ok(),
            Form::Rod { diameter } => tube_with_hole(diameter, diameter / 2.0, hole, 0.0, Through::Both).ok(),
            Form::Flat { level, upright } if hole == 0.0 || is_level(way) => {
                rectangle_with_hole(level, upright, hole, 0.0).ok()
            }
            Form::Flat { level, upright } => {
                let turned = rectangle_with_hole(upright, level, hole, 0.0).ok()?;
                Some(Properties { iy: turned.iz, iz: turned.iy, ..turned })
            }
            Form::Hollow { level, upright, wall } => hollow([level, upright], wall, way, hole),
        }
    }
}

impl Form {
    /// What holes side by side, or beside the middle, leave of a flat or hollow form, about its own middle: each takes off its own
    /// patches, where it is, and one that runs down along a wall of a box all of its depth. `None` where the outermost runs out of it.
    fn net_of_several(&self, way: [f64; 2], drilled: &Drilled) -> Option<Properties> {
        let whole = self.net(way, None)?;
        let (y, z) = self.half();
        let (wide, deep) = if is_level(way) { (z, y) } else { (y, z) };
        let whole_depth = [(0.0, 2.0 * deep)];
        // middle of each patch along the drill, and how thick it is there
        let walls = match *self {
            Form::Hollow { wall, .. } => vec![(deep - wall / 2.0, wall), (wall / 2.0 - deep, wall)],
            _ => whole_depth.to_vec(),
        };
        let d = drilled.diameter;
        let (mut lost, mut first) = ((0.0, 0.0, 0.0), 0.0);
        for off in drilled.offsets() {
            if off.abs() + d / 2.0 >= wide {
                return None;
            }
            let patches = if self.along_wall(way, off, d) { &whole_depth[..] } else { &walls[..] };
            for (at, thick) in patches {
                let area = d * thick;
                lost.0 += area;
                first += area * off;
                lost.1 += area * (d * d / 12.0 + off * off);
                lost.2 += area * (thick * thick / 12.0 + at * at);
            }
        }
        let area = whole.area - lost.0;
        if area <= 0.0 {
            return None;
        }
        // Steiner: about the middle of what is left
        let shift = -first / area;
        let across = lost.1 + area * shift * shift;
        let (iy, iz) = if is_level(way) { (across, lost.2) } else { (lost.2, across) };
        let centroid = if is_level(way) { [0.0, shift] } else { [shift, 0.0] };
        let left = Properties { area, centroid, iy: whole.iy - iy, iz: whole.iz - iz, ..whole };
        (left.iy > 0.0 && left.iz > 0.0).then_some(left)
    }

    /// Whether a hole so far from the middle runs down along a wall of a box, rather than through two of them.
    fn along_wall(&self, way: [f64; 2], off: f64, diameter: f64) -> bool {
        let Form::Hollow { level, upright, wall } = *self else { return false };
        let wide = if is_level(way) { upright } else { level } / 2.0;
        off.abs() + diameter / 2.0 > wide - wall
    }

    /// Area, m², that holes side by side take off the walls of a box that they run down along.
    fn cut_along(&self, way: [f64; 2], drilled: &Drilled) -> f64 {
        let (y, z) = self.half();
        let deep = 2.0 * if is_level(way) { y } else { z };
        drilled
            .offsets()
            .filter(|off| self.along_wall(way, *off, drilled.diameter))
            .fold(0.0, |sum, _| sum + drilled.diameter * deep)
    }
}

/// Ways of a drill along y and along z.
const LEVEL: [f64; 2] = [1.0, 0.0];
const UPRIGHT: [f64; 2] = [0.0, 1.0];

/// Length of a pair. Forces and stresses are nowhere near so large that their squares would be too large for a number.
fn long(y: f64, z: f64) -> f64 {
    (y * y + z * z).sqrt()
}

/// Whether a drill goes along y rather than along z.
fn is_level([y, z]: [f64; 2]) -> bool {
    y.abs() > z.abs()
}

/// A closed box with a hole through the middle of two walls.
fn hollow([level, upright]: [f64; 2], wall: f64, way: [f64; 2], hole: f64) -> Option<Properties> {
    if hole == 0.0 {
        let s = thin_box(level, upright, wall, wall);
        return Some(Properties { area: s.area, centroid: [0.0; 2], iy: s.iy, iz: s.iz, iyz: 0.0 });
    }
    let (hy, hz, r) = (level / 2.0, upright / 2.0, hole / 2.0);
    let room = if is_level(way) { upright } else { level } - 2.0 * wall;
    if hole.is_nan() || hole >= room {
        return None;
    }
    let around = |y: f64, z: f64| corners([-y, -z], [y, z]);
    let (outer, inner) = (around(hy, hz), around(hy - wall, hz - wall));
    let patches = if is_level(way) {
        [corners([hy - wall, -r], [hy, r]), corners([-hy, -r], [wall - hy, r])]
    } else {
        [corners([-r, hz - wall], [r, hz]), corners([-r, -hz], [r, wall - hz])]
    };
    let cut = |corners| Piece { corners, weight: -1.0 };
    let whole = Piece { corners: &outer, weight: 1.0 };
    assembled(&[whole, cut(&inner), cut(&patches[0]), cut(&patches[1])]).ok()
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
    /// patches of 8.4 x 3.56 mm at 19.3 mm: 2·29.9·372.7 = 22 285 of 81 044 mm⁴, 27.5 %; the curve of the wall
    /// takes the patches a little inward (19.1 mm on average) and lengthens them as much. On the neutral axis
    /// 2·3.56·8.4³/12 = 351 mm⁴, 0.4 %.
    #[test]
    fn a_hole_on_the_neutral_axis_costs_nothing() {
        let pipe = Form::Tube { outer: 42.16e-3, wall: 3.556e-3 };
        let f = Forces { bend: [20.0, 0.0], ..Forces::default() };
        let whole = pipe.stress(&f).bending;
        let at = |way| pipe.stress_at(&f, Some(Drilled::hole(way, 8.4e-3))).unwrap().bending;
        let (upright, level) = (at(Some([0.0, 1.0])), at(Some([1.0, 0.0])));
        assert!((1.0 - whole / upright - 0.275).abs() < 0.003, "{}", 1.0 - whole / upright);
        assert!((1.0 - whole / level - 0.0043).abs() < 0.0005, "{}", 1.0 - whole / level);
        // where nobody says how it goes, it goes through the outermost fibres, whichever these are
        assert!((at(None) / upright - 1.0).abs() < 1e-9);
        let turned = Forces { bend: [12.0, -16.0], ..Forces::default() };
        let unknown = Some(Drilled::hole(None, 8.4e-3));
        assert!((pipe.stress_at(&turned, unknown).unwrap().bending / upright - 1.0).abs() < 1e-9);
        // a hole as wide as the bore leaves nothing to reckon with
        assert_eq!(pipe.stress_at(&f, Some(Drilled::hole(None, 36e-3))), None);
    }

    /// A box of 120 by 90 outside, 18 mm thick, drilled 9 mm upright through top and bottom (the 120 wide
    /// ones): I = (120·90³ − 84·54³)/12 = 6.18775e6 mm⁴; gone are 2·(9·18³/12 + 9·18·36²) = 428 652:
    /// 6.9 %. Under 100 N m 100·45e-3/5.75910e-6 = 0.7814 MPa. Of a pull of 10 kN: A = 120·90 − 84·54 − 2·9·18 =
    /// 5 940 mm², 1.684 MPa.
    #[test]
    fn a_drilled_box() {
        let b = Form::Hollow { level: 120e-3, upright: 90e-3, wall: 18e-3 };
        let f = Forces { pull: 10e3, bend: [100.0, 0.0], ..Forces::default() };
        let s = b.stress_at(&f, Some(Drilled::hole(Some([0.0, 1.0]), 9e-3))).unwrap();
        assert!((s.bending / 1e6 - 0.7814).abs() < 2e-4, "{}", s.bending);
        assert!((s.axial / 1e6 - 1.6835).abs() < 2e-4, "{}", s.axial);
    }

    /// Two holes of 11 mm through a 38.1 by 88.9 mm board along its thickness, 25 mm to either side of its middle: I₀ = 38.1·88.9³/12, less
    /// 2·38.1·(11³/12 + 11·25²): 1 − 2·(110.9 + 6 875)/58 549 = 0.7614 of it. Through a box of 120 by 90 outside, 18 mm thick, two of 9 mm
    /// upright, 20 mm to either side: about the level axis twice what one takes, 2·428 652 of 6.18775e6 mm⁴; about the upright one, of
    /// (90·120³ − 54·84³)/12 = 10.29283e6, 4·18·(9³/12 + 9·20²) = 263 574. Three rows 40 mm apart do not fit into 88.9 mm.
    #[test]
    fn holes_side_by_side_are_all_taken_off() {
        let board = Form::Flat { level: 38.1e-3, upright: 88.9e-3 };
        let f = |bend| Forces { bend, ..Forces::default() };
        let two = |way, d, apart| Some(Drilled { beside: (2, apart), ..Drilled::hole(Some(way), d) });
        let share = |form: &Form, bend, hole| {
            form.stress(&f(bend)).bending / form.stress_at(&f(bend), hole).unwrap().bending
        };
        let left = share(&board, [100.0, 0.0], two([1.0, 0.0], 11e-3, 50e-3));
        assert!((left - 0.7614).abs() < 1e-4, "{left}");
        let b = Form::Hollow { level: 120e-3, upright: 90e-3, wall: 18e-3 };
        let hole = two([0.0, 1.0], 9e-3, 40e-3);
        let left = share(&b, [100.0, 0.0], hole);
        assert!((left - (1.0 - 2.0 * 428_652.0 / 6.187_75e6)).abs() < 1e-4, "{left}");
        let left = share(&b, [0.0, 100.0], hole);
        assert!((left - (1.0 - 263_574.0 / 10.292_83e6)).abs() < 1e-4, "{left}");
        // a box of 80 by 60, two of 7 mm 40 mm apart run down along its walls: of (80·60³ − 44·24³)/12 = 1.389312e6, 2·7·60³/12 = 252 000 are gone
        let small = Form::Hollow { level: 80e-3, upright: 60e-3, wall: 18e-3 };
        let left = share(&small, [100.0, 0.0], two([0.0, 1.0], 7e-3, 40e-3));
        assert!((left - (1.0 - 252_000.0 / 1.389_312e6)).abs() < 1e-4, "{left}");
        // one of 11 mm in the board, 25 mm beside its middle, which lies 25·11/77.9 = 3.530 mm to the other side of what is left: I =
        // 38.1·(88.9³/12 − 11³/12 − 11·25² − 77.9·3.530²) = 1.927590e6 mm⁴, its far face 47.980 mm off: 2.4891 MPa under 100 N m, where the whole
        // board has 1.9926; a pull of 10 kN, 3.369 MPa on 2 968 mm², bends it by 35.30 N m, which are 0.8787 MPa
        let beside = Some(Drilled { off: 25e-3, ..Drilled::hole(Some([1.0, 0.0]), 11e-3) });
        let s = board.stress_at(&f([100.0, 0.0]), beside).unwrap();
        assert!((s.bending / 1e6 - 2.4891).abs() < 2e-4, "{}", s.bending);
        let s = board.stress_at(&Forces { pull: 10e3, ..Forces::default() }, beside).unwrap();
        assert!((s.axial / 1e6 - 3.3693).abs() < 2e-4 && (s.bending / 1e6 - 0.8787).abs() < 2e-4, "{s:?}");
        let three = Drilled { beside: (3, 40e-3), ..Drilled::hole(Some([1.0, 0.0]), 11e-3) };
        assert_eq!(board.stress_at(&f([100.0, 0.0]), Some(three)), None);
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
