//! Wheels off and into the boot.

use super::problem::Problem;
use crate::Checked;
use crate::assumed::Assumed;
use crate::roll::{place, said};
use chairwright_design::{Design, Vec3};
use chairwright_frame::{Body, Frame, Group};
use chairwright_quantity::Dimension;
use std::f64::consts::FRAC_PI_2;

const L: Dimension = Dimension::LENGTH;
const M: Dimension = Dimension::MASS;
const BOX: &str = "geometry of the drawing: rear wheels and cushion taken off, nothing else";
/// The six ways to lay a box square.
const WAYS: [[usize; 3]; 6] = [[0, 1, 2], [0, 2, 1], [1, 0, 2], [1, 2, 0], [2, 0, 1], [2, 1, 0]];
const BOOT: [&str; 3] = ["boot_length", "boot_width", "boot_height"];

/// By how much the most fitting of the six ways to lay a box square into a hole still exceeds it, in metres; zero
/// or less when it goes in. A side of the hole that nobody measured bounds nothing.
#[must_use]
pub fn too_big(size: [f64; 3], hole: [Option<f64>; 3]) -> f64 {
    let over = |way: &[usize; 3]| {
        let sides = way.iter().zip(hole).filter_map(|(i, h)| h.map(|h| size[*i] - h));
        sides.fold(f64::NEG_INFINITY, f64::max)
    };
    WAYS.iter().map(over).fold(f64::INFINITY, f64::min)
}

/// The same with the box turned about one of its edges, which lies along a side of the hole: the two other sides of the box, p
/// and q, take p cos θ + q sin θ and p sin θ + q cos θ. Least over θ, in metres; never more than [`too_big`].
#[must_use]
pub fn too_big_slanted(size: [f64; 3], hole: [Option<f64>; 3]) -> f64 {
    const STEPS: u32 = 180;
    let excess = |wants: f64, side: usize| hole[side].map_or(f64::NEG_INFINITY, |h| wants - h);
    let mut least = too_big(size, hole);
    for along in 0..3 {
        let (p, q) = (size[(along + 1) % 3], size[(along + 2) % 3]);
        for side in 0..3 {
            let over = |angle: f64| {
                let (s, c) = libm::sincos(angle);
                let (one, two) = (excess(p * c + q * s, (side + 1) % 3), excess(p * s + q * c, (side + 2) % 3));
                excess(size[along], side).max(one).max(two)
            };
            let step = FRAC_PI_2 / f64::from(STEPS);
            let all = (0..=STEPS).map(|k| step * f64::from(k)).map(|angle| (over(angle), angle));
            let middle = all.min_by(|a, b| a.0.total_cmp(&b.0)).map_or(0.0, |best| best.1);
            let (mut low, mut high) = ((middle - step).max(0.0), (middle + step).min(FRAC_PI_2));
            for _ in 0..50 {
                let (x, y) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
                if over(x) > over(y) { low = x } else { high = y }
            }
            least = least.min(over(middle)).min(over(f64::midpoint(low, high)));
        }
    }
    least
}

/// By how much the most fitting turn of a disc, of a diameter and a thickness, still exceeds a hole, in metres. With its axis along a
/// unit vector n it takes d √(1 − n²) + w n along each side, n that side's part (the width of a cylinder; geometry).
#[must_use]
pub fn disc_too_big([diameter, thick]: [f64; 2], hole: [Option<f64>; 3]) -> f64 {
    const STEPS: u32 = 40;
    let over = |(s, c): (f64, f64), (sr, cr): (f64, f64)| {
        let side = |(n, h): (f64, Option<f64>)| {
            h.map(|h| diameter * (1.0 - n * n).max(0.0).sqrt() + thick * n.abs() - h)
        };
        [s * cr, s * sr, c].into_iter().zip(hole).filter_map(side).fold(f64::NEG_INFINITY, f64::max)
    };
    let turned = |(tilt, round): (f64, f64)| (over(libm::sincos(tilt), libm::sincos(round)), (tilt, round));
    let less = |a: &(f64, (f64, f64)), b: &(f64, (f64, f64))| a.0.total_cmp(&b.0);
    let mut step = FRAC_PI_2 / f64::from(STEPS);
    let turns: Vec<(f64, (f64, f64))> =
        (0..=STEPS).map(|k| f64::from(k) * step).map(|a| (a, libm::sincos(a))).collect();
    let grid = turns.iter().flat_map(|a| turns.iter().map(move |b| (over(a.1, b.1), (a.0, b.0))));
    let Some(mut best) = grid.min_by(less) else { return f64::INFINITY };
    while step > 1e-9 {
        let around = [(step, 0.0), (-step, 0.0), (0.0, step), (0.0, -step), (step, step), (-step, -step)];
        let next = around.map(|(a, b)| turned((best.1.0 + a, best.1.1 + b))).into_iter().min_by(less);
        match next.filter(|n| n.0 < best.0) {
            Some(next) => best = next,
            None => step /= 2.0,
        }
    }
    best.0
}

/// What is still one piece with the wheels off and the cushion taken away.
fn carried<'f>(design: &Design, frame: &'f Frame) -> Vec<&'f Body> {
    let cushions: Vec<String> =
        design.supports.iter().filter(|s| s.cushion.is_some()).map(|s| format!("{}.cushion", s.name)).collect();
    frame.bodies.iter().filter(|b| b.group != Group::Wheel && !cushions.contains(&b.name)).collect()
}

pub(crate) fn transport(design: &Design, frame: &Frame, out: &mut Checked, found: &mut Vec<Problem>) {
    let piece = carried(design, frame);
    let reach =
        |d: Vec3| piece.iter().flat_map(|b| &b.solids).map(|s| s.reach(d)).fold(f64::NEG_INFINITY, f64::max);
    let size = [Vec3::X, Vec3::Y, Vec3::Z].map(|d| reach(d) + reach(-d));
    if !size.iter().all(|s| s.is_finite()) {
        return;
    }
    for (name, size) in ["packed.length", "packed.width", "packed.height"].into_iter().zip(size) {
        let formula = "greatest extent of the frame with its rear wheels and cushion off";
        out.figures.put(name, (size, L), formula, BOX, &[]);
    }
    // what the built chair was found to weigh more than its plan may all be in this piece
    let heavier = out.built_more("mass.chair");
    let mass: f64 = piece.iter().map(|b| b.mass).sum::<f64>() + heavier;
    let wheel = frame.bodies.iter().filter(|b| b.group == Group::Wheel).map(|b| b.mass).fold(0.0, f64::max);
    let inputs = [("frame without wheels and cushion", mass, M), ("one rear wheel", wheel, M)];
    let formula = "the heavier of the frame without rear wheels and cushion, and one wheel";
    out.figures.put("packed.mass", (mass.max(wheel), M), formula, "statics: the sum of the parts", &inputs);
    let wheels = wheels(frame);
    a_wheel(design, &wheels, found);
    // a chair that has a state without wheels is judged in that state
    if design.packs && !design.unridden {
        return;
    }
    boot(design, (size, &wheels), out, found);
    if let Some(lift) = place(design, "lift").filter(|l| *l < mass.max(wheel)) {
        found.push(Problem::TooHeavy { origin: said(design, "conditions.lift"), mass: mass.max(wheel), lift });
    }
}

/// Diameter and thickness over its hub of every rear wheel, in metres.
fn wheels(frame: &Frame) -> Vec<[f64; 2]> {
    let one = |b: &Body| {
        let reach = |d: Vec3| b.solids.iter().map(|s| s.reach(d)).fold(f64::NEG_INFINITY, f64::max);
        let [x, y, z] = [Vec3::X, Vec3::Y, Vec3::Z].map(|d| reach(d) + reach(-d));
        [x.max(z), y]
    };
    frame.bodies.iter().filter(|b| b.group == Group::Wheel).map(one).collect()
}

/// A wheel by itself, turned whichever way suits it best.
fn a_wheel(design: &Design, wheels: &[[f64; 2]], found: &mut Vec<Problem>) {
    let boot = BOOT.map(|k| place(design, k));
    if boot.iter().all(Option::is_none) {
        return;
    }
    let lacks = wheels.iter().map(|wheel| (disc_too_big(*wheel, boot), *wheel));
    let most = lacks.max_by(|a, b| a.0.total_cmp(&b.0));
    if let Some((lacks, wheel)) = most.filter(|(lacks, _)| *lacks > 0.0) {
        let origin = BOOT.into_iter().find_map(|k| said(design, &format!("conditions.{k}")));
        found.push(Problem::WheelBeyondBoot { origin, wheel, boot, lacks });
    }
}

/// Whether the wheels have room in layers beside, before or on a box that is laid square into a boot.
fn beside(size: [f64; 3], wheels: &[[f64; 2]], boot: [f64; 3]) -> bool {
    let (d, w) = wheels.iter().fold((0.0_f64, 0.0_f64), |(d, w), [a, b]| (d.max(*a), w.max(*b)));
    let rows = |side: usize| (boot[side] / d).floor();
    WAYS.iter().any(|way| {
        let left: [f64; 3] = std::array::from_fn(|k| boot[k] - size[way[k]]);
        let layers = |k: usize| (left[k] / w).floor() * rows((k + 1) % 3) * rows((k + 2) % 3);
        #[allow(clippy::cast_precision_loss)]
        let all = wheels.len() as f64;
        left.iter().all(|l| *l >= 0.0) && (0..3).any(|k| layers(k) >= all)
    })
}

fn boot(design: &Design, (size, wheels): ([f64; 3], &[[f64; 2]]), out: &mut Checked, found: &mut Vec<Problem>) {
    let boot = BOOT.map(|k| place(design, k));
    if boot.iter().all(Option::is_none) {
        return;
    }
    let unknown: Vec<&'static str> =
        BOOT.into_iter().zip(boot).filter(|(_, b)| b.is_none()).map(|(k, _)| k).collect();
    if !unknown.is_empty() {
        out.assumptions.push(Assumed::BootUnknown(unknown));
    }
    let (over, slanted) = (too_big(size, boot), too_big_slanted(size, boot));
    if over > 0.0 && slanted <= 0.0 {
        out.assumptions.push(Assumed::BootSlanted);
    }
    // what a state has taken off is not drawn in it
    if let ([Some(x), Some(y), Some(z)], true) = (boot, slanted <= 0.0)
        && (wheels.is_empty() || !beside(size, wheels, [x, y, z]))
    {
        out.assumptions.push(Assumed::BootBeside(wheels.len()));
    }
    if slanted > 0.0 {
        let origin = BOOT.into_iter().find_map(|k| said(design, &format!("conditions.{k}")));
        found.push(Problem::BootTooSmall { origin, size, boot, over, slanted, as_ridden: !design.unridden });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1000 x 500 x 600 lies into a hole of 600 x 1000 x 500 as it is turned, and lacks 50 in one of 550.
    #[test]
    fn a_box_is_tried_in_all_six_ways() {
        let hole = |a, b, c| [Some(a), Some(b), Some(c)];
        assert!(too_big([1.0, 0.5, 0.6], hole(0.6, 1.0, 0.5)) <= 0.0);
        assert!((too_big([1.0, 0.5, 0.6], hole(0.55, 1.0, 0.5)) - 0.05).abs() < 1e-12);
        assert!(too_big([1.0, 0.5, 0.6], [None, Some(0.6), Some(0.5)]) <= 0.0);
    }

    /// The largest thin disc in a cube of 1 lies in its hexagonal section: √6/2 = 1.2247 across (apothem √6/4 of a hexagon of side √2/2;
    /// geometry). A wheel of 0.60 x 0.07 m lies flat in 0.5 x 0.5 x 0.15 m and lacks 0.1 m; in a shaft of 0.3 x 0.3 m it stands on edge
    /// across the diagonal, and lacks 0.67/√2 - 0.3 m.
    #[test]
    fn a_disc_is_turned_every_way() {
        let lacks = disc_too_big([6.0_f64.sqrt() / 2.0, 0.0], [Some(1.0); 3]);
        assert!(lacks.abs() < 1e-6, "{lacks}");
        assert!(disc_too_big([1.22, 0.0], [Some(1.0); 3]) < 0.0);
        let flat = disc_too_big([0.6, 0.07], [Some(0.5), Some(0.5), Some(0.15)]);
        assert!((flat - 0.1).abs() < 1e-6, "{flat}");
        let shaft = disc_too_big([0.6, 0.07], [Some(0.3), Some(0.3), None]);
        assert!((shaft - (0.67 / 2.0_f64.sqrt() - 0.3)).abs() < 1e-6, "{shaft}");
    }

    /// A frame of 0.8 x 0.5 x 0.4 in a boot of 1.0 x 0.5 x 0.6: 0.2 m are left beside its length, where wheels of 0.5 stand on edge in
    /// layers of 0.09 m, two of them and no third; wheels of 0.55 m go into the 0.2 m over it, one to a layer.
    #[test]
    fn wheels_lie_in_what_a_frame_leaves() {
        let (frame, boot) = ([0.8, 0.5, 0.4], [1.0, 0.5, 0.6]);
        assert!(beside(frame, &[[0.5, 0.09]; 2], boot));
        assert!(!beside(frame, &[[0.5, 0.11]; 2], [1.0, 0.5, 0.5]));
        assert!(!beside([0.8, 0.5, 0.6], &[[0.5, 0.09]; 3], boot));
        assert!(beside([0.8, 0.5, 0.4], &[[0.55, 0.09]; 2], [0.85, 0.6, 0.6]));
        assert!(!beside([1.1, 0.5, 0.4], &[[0.1, 0.02]], boot));
    }

    /// A board 1.3 m by 0.1 m into a hole 1.2 m by 0.9 m, 0.25 m deep. At 3-4-5 it takes 1.3 x 0.8 + 0.1 x 0.6 = 1.10 m by
    /// 1.3 x 0.6 + 0.1 x 0.8 = 0.86 m. A stick without width goes in along the diagonal and no longer: 1.2 and 0.9 make 1.5 m.
    #[test]
    fn a_board_goes_in_slanted() {
        let hole = [Some(1.2), Some(0.9), Some(0.25)];
        assert!(too_big([1.3, 0.1, 0.2], hole) > 0.09);
        assert!(too_big_slanted([1.3, 0.1, 0.2], hole) < 0.0);
        assert!(too_big_slanted([0.0, 0.2, 1.499], hole) < 0.0);
        assert!(too_big_slanted([0.0, 0.2, 1.501], hole) > 0.0);
        // 1.51 m at the angle of the diagonal asks for 1.208 and 0.906 m: 8 mm too long, the least that any turn of it lacks
        let lacks = too_big_slanted([1.51, 0.2, 0.0], hole);
        assert!(lacks > 0.006 && lacks <= 0.008 + 1e-9, "{lacks}");
    }
}
