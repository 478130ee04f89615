//! Boards and flat bars on edge that may turn over sideways as they are bent.
//!
//! Nobody here works out when one in a frame does so: where the rule for beams of wood, or the theory of a thin bar with a safety, asks less
//! of it than it carries, it is told that it cannot be told, and it does not pass.

use crate::answer::Untold;
use crate::bar::Of;
use crate::case::{Case, Lasting};
use crate::form::Form;
use crate::judge::{Court, origin};
use crate::limit::Unknown;
use crate::solve::{Cut, Run};
use std::collections::BTreeMap;
use std::f64::consts::PI;

/// Up to so many times as deep as it is thick a board needs no hold at its sides: NDS 4.4.1.2, from memory, not checked.
const STOCKY: f64 = 2.0;
/// Modulus for stability over the mean one, with a scatter of 0.25 and a safety of 1.66: `1.03 (1 − 1.645 · 0.25)/1.66`; NDS appendix
/// D, from memory, not checked.
const STABLE: f64 = 0.365;

/// Safety against turning over of what is not of wood: AISC 360, F1, 1.67, from memory, not checked.
const SAFETY: f64 = 1.67;

/// Bending moment, N m, under which a thin bar so long turns over: `4.013/L √(E I_y G J)` where one end is free and all of the load acts
/// there, in its axis; held at both ends and bent alike all along, `π/L` of it. Timoshenko and Gere, Theory of elastic stability, 6.2 and
/// 6.3, from memory, not checked. Loads nearer to where it is held, and moments that go down along it, need more.
fn overturns(free: bool, length: f64, [weak, twist]: [f64; 2]) -> f64 {
    let root = (weak * twist).max(0.0).sqrt();
    if free { 4.013 / length * root } else { PI / length * root }
}

/// Effective length, m, of a board so deep whose bent edge nothing holds over a length, for any load: NDS table 3.3.3, from memory,
/// not checked.
fn effective(length: f64, depth: f64) -> f64 {
    match length / depth {
        r if r < 7.0 => 2.06 * length,
        r if r <= 14.3 => 1.63 * length + 3.0 * depth,
        _ => 1.84 * length,
    }
}

/// Bending stress, Pa, that a board bears on edge of what it bears lying flat: NDS 3.3.3, `C_L` with `F_bE = 1.20 E'min/R_B²`,
/// `R_B² = l_e d/b²`; from memory, not checked.
fn stands(bears: f64, modulus: f64, [length, depth, breadth]: [f64; 3]) -> f64 {
    let slender = effective(length, depth) * depth / (breadth * breadth);
    let ratio = 1.20 * STABLE * modulus / slender / bears;
    let half = (1.0 + ratio) / 1.9;
    bears * (half - (half * half - ratio / 0.95).max(0.0).sqrt())
}

/// Boards that carry more than that somewhere, each with the kinds of load.
pub(crate) fn untold(court: &Court<'_>, cases: &[Case], runs: &[Option<&Run>]) -> Vec<Untold> {
    let mut found: BTreeMap<usize, Vec<Lasting>> = BTreeMap::new();
    for (case, run) in cases.iter().zip(runs) {
        let Some(run) = run else { continue };
        for cut in run.cuts.iter().filter(|cut| turns(court, case.lasting, cut)) {
            let kinds = found.entry(cut.bar).or_default();
            if !kinds.contains(&case.lasting) {
                kinds.push(case.lasting);
            }
        }
    }
    let of = |(bar, kinds): (usize, Vec<Lasting>)| {
        let bar = &court.all.bars[bar];
        Untold { name: bar.name.clone(), origin: origin(court.design, bar.of), why: Unknown::Edgewise, kinds }
    };
    found.into_iter().map(of).collect()
}

/// Whether a board may turn over where it is cut.
pub(crate) fn turns(court: &Court<'_>, lasting: Lasting, cut: &Cut) -> bool {
    let bar = &court.all.bars[cut.bar];
    let (Of::Member(_), Form::Flat { level, upright }) = (bar.of, bar.form) else { return false };
    let (depth, breadth, moment) = match level > upright {
        true => (level, upright, cut.forces.bend[1]),
        false => (upright, level, cut.forces.bend[0]),
    };
    if depth <= STOCKY * breadth {
        return false;
    }
    if court.wooden(bar.stock).is_none() {
        return overturned(court, lasting, cut, moment);
    }
    let Some(limits) = court.limits(bar.stock, lasting) else { return false };
    let stress = moment.abs() * 6.0 / (breadth * depth * depth);
    let modulus = court.matters[cut.bar].softest(lasting == Lasting::Sustained);
    // what surely holds lying flat too is not in doubt by its edge
    stress > stands(limits.fibre, modulus, [court.runs[cut.bar], depth, breadth])
}

/// The same of a flat bar of metal or plastic, whose least stiffness is across its breadth.
fn overturned(court: &Court<'_>, lasting: Lasting, cut: &Cut, moment: f64) -> bool {
    let matter = &court.matters[cut.bar];
    let e = matter.softest(lasting == Lasting::Sustained);
    let stiff = [e * matter.shape.iy.min(matter.shape.iz), e * matter.g * matter.shape.j];
    let free = court.met[cut.bar].contains(&false);
    moment.abs() * SAFETY > overturns(free, court.runs[cut.bar], stiff)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Steel 3 by 60 mm, E = 200 GPa, G = 76.9 GPa: I_y = 60·3³/12 = 135 mm⁴, J = 60·3³/3·(1 − 0.63·3/60) = 523.0 mm⁴; √(27 · 40.22) = 32.95
    /// N m². Cantilevered 0.46 m: 4.013/0.46 · 32.95 = 287.5 N m, a load of 625 N at its tip: with the safety 600 N are too much, 350 are not.
    /// Held at both ends π/0.46 · 32.95 = 225.0 N m.
    #[test]
    fn a_thin_bar_on_edge() {
        let stiff = [200e9 * 135e-12, 76.9e9 * 523.0e-12];
        let free = overturns(true, 0.46, stiff);
        assert!((free / 287.5 - 1.0).abs() < 1e-3, "{free}");
        assert!((overturns(false, 0.46, stiff) / 225.0 - 1.0).abs() < 1e-3);
        assert!(600.0 * 0.46 * SAFETY > free && 350.0 * 0.46 * SAFETY < free);
    }

    /// 4 mm by 140 mm, 0.6 m long: 0.6/0.14 = 4.29 < 7, l_e = 2.06 · 0.6 = 1.236 m; R_B² = 1.236 · 0.14/0.004² = 10 815; of 10 GPa
    /// 1.2 · 0.365 · 10e9/10 815 = 405.0 kPa. Of 10 MPa F = 0.0405: (1.0405/1.9) = 0.547632; 0.547632² = 0.299900; 0.0405/0.95 =
    /// 0.042632; √0.257269 = 0.507217; 0.040415 of it: 0.404 MPa. 38 mm by 140 mm over 1.2 m: 8.57, l_e = 1.956 + 0.42 = 2.376 m, R_B² =
    /// 230.4, F = 4.38e9/230.4/10e6 = 1.901: 1.526842; 2.331247 − 2.001053 = 0.330194, √ 0.574625; 0.952217 of it.
    #[test]
    fn a_lath_and_a_plank_on_edge() {
        let lath = stands(10e6, 10e9, [0.6, 0.14, 0.004]);
        assert!((lath / 0.404_15e6 - 1.0).abs() < 1e-3, "{lath}");
        let plank = stands(10e6, 10e9, [1.2, 0.14, 0.038]);
        assert!((plank / 9.522e6 - 1.0).abs() < 1e-3, "{plank}");
        assert!((effective(3.0, 0.14) - 5.52).abs() < 1e-12);
    }
}
