//! Shapes for drawing: how the seated chair bends, and how it bends where something gives first.

use crate::answer::{Bent, BentBar, Item, Station};
use crate::case::Case;
use crate::judge::Court;
use crate::solve::{Cut, Run};
use crate::structure::Structure;
use chairwright_design::Vec3;

/// Stations of a bent bar stand no further apart, m.
const STEP: f64 = 0.03;

/// One stretch of a bar between two nodes.
struct Span {
    bar: usize,
    /// Along the bar, shift and turn at its two ends.
    ends: [(f64, Vec3, Vec3); 2],
}

pub(crate) fn bent(
    all: &Structure,
    court: &Court<'_>,
    cases: &[Case],
    runs: &[Option<&Run>],
    items: &[Item],
) -> Vec<Bent> {
    let mut which = vec![0];
    which.extend(items.first().map(|i| i.case).filter(|c| *c != 0));
    let shape = |case: usize| {
        let run = runs[case]?;
        let mut bars: Vec<BentBar> = Vec::new();
        let mut last = usize::MAX;
        for span in spans(run) {
            let bar = &all.bars[span.bar];
            if last != span.bar {
                bars.push(BentBar { of: bar.of, name: bar.name.clone(), stations: Vec::new() });
                last = span.bar;
            }
            let cuts: Vec<&Cut> = run.cuts.iter().filter(|c| c.bar == span.bar).collect();
            let used = |at: f64| used(court, (case, &cases[case]), &cuts, at).filter(|_| bar.free_at(at));
            let Some(bent) = bars.last_mut() else { continue };
            for at in places(&span, &cuts) {
                if bent.stations.last().is_none_or(|s| at > s.at + 1e-9) {
                    let shift = shift(&span, bar.way(), at);
                    bent.stations.push(Station { at, place: bar.at(at), shift, used: used(at) });
                }
            }
        }
        Some(Bent { case, bars })
    };
    which.into_iter().filter_map(shape).collect()
}

fn spans(run: &Run) -> impl Iterator<Item = Span> + '_ {
    let ends = run.moved.iter().zip(&run.turned);
    let ends: Vec<_> = ends.map(|((bar, at, shift), turn)| (*bar, (*at, *shift, *turn))).collect();
    let pairs: Vec<Span> = ends
        .chunks_exact(2)
        .filter(|p| p[0].0 == p[1].0)
        .map(|p| Span { bar: p[0].0, ends: [p[0].1, p[1].1] })
        .collect();
    pairs.into_iter()
}

/// Ends, places where forces are read, and steps between.
fn places(span: &Span, cuts: &[&Cut]) -> Vec<f64> {
    let (from, to) = (span.ends[0].0, span.ends[1].0);
    let mut all: Vec<f64> = cuts.iter().map(|c| c.at).filter(|a| *a > from && *a < to).collect();
    all.extend([from, to]);
    all.sort_by(f64::total_cmp);
    let mut out = vec![from];
    for pair in all.windows(2) {
        let n = ((pair[1] - pair[0]) / STEP).ceil().max(1.0);
        let mut k = 1.0;
        while k <= n {
            out.push(pair[0] + (pair[1] - pair[0]) * k / n);
            k += 1.0;
        }
    }
    out.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    out
}

/// Straight along the bar, and across it the cubic through shifts and turns at both ends (the shape of a
/// beam between two nodes; strength of materials). What a load between them adds is left out.
fn shift(span: &Span, way: Vec3, at: f64) -> Vec3 {
    let [(from, ua, ra), (to, ub, rb)] = span.ends;
    let length = (to - from).max(1e-9);
    let x = ((at - from) / length).clamp(0.0, 1.0);
    let along = way * (ua.dot(way) * (1.0 - x) + ub.dot(way) * x);
    let across = |u: Vec3| u - way * u.dot(way);
    let (a, b) = (across(ua), across(ub));
    let (sa, sb) = (ra.cross(way) * length, rb.cross(way) * length);
    let (x2, x3) = (x * x, x * x * x);
    along
        + a * (1.0 - 3.0 * x2 + 2.0 * x3)
        + b * (3.0 * x2 - 2.0 * x3)
        + sa * (x - 2.0 * x2 + x3)
        + sb * (x3 - x2)
}

/// The use at a place: the worst of what is read there, else straight between its neighbours.
fn used(court: &Court<'_>, (index, case): (usize, &Case), cuts: &[&Cut], at: f64) -> Option<f64> {
    let use_of = |c: &&&Cut| court.cut(index, case.lasting, c).map(|u| u.most);
    let here = cuts.iter().filter(|c| (c.at - at).abs() < 0.003).filter_map(|c| use_of(&c));
    if let Some(worst) = here.reduce(f64::max) {
        return Some(worst);
    }
    let before = cuts.iter().filter(|c| c.at < at).max_by(|a, b| a.at.total_cmp(&b.at));
    let after = cuts.iter().filter(|c| c.at > at).min_by(|a, b| a.at.total_cmp(&b.at));
    match (before, after) {
        (Some(a), Some(b)) => {
            let (ua, ub) = (use_of(&a), use_of(&b));
            let x = (at - a.at) / (b.at - a.at).max(1e-9);
            match (ua, ub) {
                (Some(ua), Some(ub)) => Some(ua + (ub - ua) * x),
                (one, other) => one.or(other),
            }
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A cantilever of length L bent by a force at its end: δ = FL³/3EI, turn FL²/2EI, and at half its length 5/16 δ
    /// (any handbook: δ(x) = F x² (3L − x)/6EI). With δ = 16 mm, L = 1 m: turn 1.5 δ/L = 24 mrad; 5 mm.
    #[test]
    fn a_cantilever_bends_as_in_the_handbook() {
        let down = |z: f64| Vec3::new(0.0, 0.0, -z);
        // turned about y the tip of a bar along x sinks
        let turn = Vec3::new(0.0, 0.024, 0.0);
        let span = Span { bar: 0, ends: [(0.0, Vec3::ZERO, Vec3::ZERO), (1.0, down(0.016), turn)] };
        let middle = shift(&span, Vec3::X, 0.5);
        assert!((middle.z + 0.005).abs() < 1e-9, "{}", middle.z);
        assert!((shift(&span, Vec3::X, 1.0).z + 0.016).abs() < 1e-12);
    }
}
