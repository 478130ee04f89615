//! Casters that run into an edge.

use crate::case::{Case, CaseKind, Lasting, case};
use crate::cases::Maker;
use crate::load::{G, Push};
use crate::remark::{Open, Source};
use crate::structure::{Spot, TieOf};
use chairwright_design::Vec3;
use chairwright_resistance::shock::climb;

/// Height of the edge that casters run into every day, m, or half their radius. Common practice, no source.
const EDGE: f64 = 0.020;
/// A push that comes at once and does not stop counts twice: 1 + √(1 + 2h/δ) with h = 0.
pub(crate) const SUDDEN: f64 = 2.0;

/// The push along the ground, N, of a strike on a caster that carries so much seated, N.
pub(crate) fn push(ratio: f64, seated: f64) -> f64 {
    ratio * SUDDEN * seated.max(0.0)
}

/// What is left of each of the pushes that climb, N, where all of them come at once and there is no more push than so much.
fn shared(pushes: impl Iterator<Item = f64>, most: f64) -> f64 {
    (most / pushes.map(|p| p.max(0.0)).sum::<f64>().max(1e-9)).min(1.0)
}

/// The edge that a caster of a radius runs into here, the everyday one or a higher declared sill, with the push over the load
/// on it; and the sill, where it is higher than anything that a push of `most` times the load climbs: then the highest
/// that this climbs is judged. So a higher sill is never judged better. `None` where there is no push.
pub(crate) fn edge(radius: f64, sill: Option<f64>, most: f64) -> (Option<(f64, f64)>, Option<f64>) {
    let small = EDGE.min(0.5 * radius);
    let wanted = sill.map_or(small, |s| s.max(small));
    // the wheel turns about the edge where push over load is the tangent of the angle that the edge stands at
    let highest = (radius * (1.0 - 1.0 / libm::sqrt(1.0 + most * most))).max(small);
    let stopped = (wanted > highest + 1e-9).then_some(wanted);
    let height = wanted.min(highest);
    (climb(radius, height).ok().map(|ratio| (height, ratio)), stopped)
}

impl Maker<'_> {
    /// A strike on every caster by itself, and on all at once: the push that climbs the edge, twice.
    pub(crate) fn strikes(&mut self, feet: &[f64]) -> Vec<Case> {
        let all = self.all;
        let sill = self.design.conditions.quantities.get("sill").copied();
        // place of the footing, edge, push over load
        let mut hits: Vec<(usize, f64, f64)> = Vec::new();
        let mut stopped: Vec<(String, f64, f64)> = Vec::new();
        for (k, footing) in all.footings.iter().enumerate().filter(|(_, f)| f.caster) {
            let radius = self.design.casters[footing.index].radius;
            let (found, high) = edge(radius, sill, self.most(feet[k]));
            hits.extend(found.map(|(height, ratio)| (k, height, ratio)));
            let beyond = high.or(if found.is_none() { Some(EDGE) } else { None });
            stopped.extend(beyond.map(|height| (footing.name.clone(), height, radius)));
        }
        if let Some((_, edge, _)) = stopped.first().cloned() {
            let radius = stopped.iter().map(|s| s.2).fold(f64::INFINITY, f64::min);
            let casters = stopped.into_iter().map(|s| s.0).collect();
            self.open.push(Open::Edge { casters, edge, radius });
        }
        let mut out: Vec<Case> = Vec::new();
        for hit in &hits {
            let name = all.footings[hit.0].name.clone();
            out.push(self.strike(Some(name), std::slice::from_ref(hit), feet));
        }
        if hits.len() > 1 {
            out.push(self.strike(None, &hits, feet));
        }
        out
    }

    /// The greatest push over the load on a caster, N: wheels that grip push no harder than with all of the weight of chair and
    /// rider. Common practice, no source.
    fn most(&self, carries: f64) -> f64 {
        self.total.0 * G / carries.max(1.0)
    }

    fn strike(&self, caster: Option<String>, hits: &[(usize, f64, f64)], feet: &[f64]) -> Case {
        let mut pushes = self.seated();
        // all at once take no more of a push than one alone
        let share = shared(hits.iter().map(|(k, _, ratio)| ratio * feet[*k]), self.total.0 * G);
        for (k, _, ratio) in hits {
            let force = Vec3::X * (-push(*ratio, feet[*k]) * share);
            pushes.extend(self.at_point(self.all.footings[*k].hub, force));
        }
        let (edge, ratio) = hits.iter().fold((0.0_f64, 0.0_f64), |m, h| (m.0.max(h.1), m.1.max(h.2)));
        let kind = CaseKind::CasterStrike { caster, edge, ratio };
        case(kind, Lasting::Impact, ratio * SUDDEN * share, Source::Climb(SUDDEN, share), pushes)
    }

    /// A force at a free point, moved to what carries it.
    pub(crate) fn at_point(&self, point: usize, force: Vec3) -> Option<Push> {
        let footing = self.all.footings.iter().find(|f| f.hub == point)?;
        let bar = self.all.bar_named(footing.carrier.as_deref()?)?;
        let from = self.all.points[point];
        let tie = self.all.ties.iter().find_map(|t| {
            let on = |s: &Spot| matches!(s, Spot::Port(p) if p.bar == bar);
            let of = t.of == TieOf::Caster(footing.index) && footing.caster
                || t.of == TieOf::Wheel(footing.index) && !footing.caster;
            t.spots.iter().find(|s| on(s) && of).copied()
        })?;
        let Spot::Port(port) = tie else { return None };
        let arm = from - self.all.place(tie);
        Some(Push::At { port, force, moment: arm.cross(force) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Casters of 150, 125, 100 mm at a 20 mm edge: 0.93, 1.08, 1.33 (trade papers 1.14, S1). One of 75 mm meets half its
    /// radius every day, which takes √3 of the load (60 degrees).
    #[test]
    fn climbing_an_edge() {
        for (d, ratio) in [(0.150, 0.93), (0.125, 1.08), (0.100, 1.33), (0.075, 1.732)] {
            let (found, stopped) = edge(d / 2.0, None, 6.0);
            assert!((found.unwrap().1 - ratio).abs() < 0.01, "{d}");
            assert_eq!(stopped, None);
        }
    }

    /// A sill of 40 mm before a caster of 62.5 mm radius: the edge lies 22.5 mm below the axle and √(62.5² − 22.5²) =
    /// 58.3 mm ahead of it, so the push is 58.3/22.5 = 2.592 times the load. With 6 times the load at most the highest edge
    /// climbed stands at atan 6 = 80.54°, 62.5·(1 − cos 80.54°) = 62.5·(1 − 1/√37) = 52.225 mm: a sill of 55 mm is judged by
    /// that one, and so is one above the radius.
    #[test]
    fn a_declared_sill_is_climbed_or_told() {
        let (found, stopped) = edge(0.0625, Some(0.040), 6.0);
        assert!((found.unwrap().1 - 2.592).abs() < 1e-3 && stopped.is_none());
        for high in [0.055, 0.0625, 0.080] {
            let (found, stopped) = edge(0.0625, Some(high), 6.0);
            assert_eq!(stopped, Some(high));
            let (height, ratio) = found.unwrap();
            assert!((height - 0.052_225).abs() < 1e-6 && (ratio - 6.0).abs() < 1e-9, "{height} {ratio}");
        }
        assert_eq!(
            edge(0.0625, Some(0.010), 6.0).0,
            edge(0.0625, None, 6.0).0,
            "a lower sill takes nothing away"
        );
    }

    /// Two casters that would take 900 N each where 1 200 N are all that pushes get two thirds of it; 500 N each they get whole.
    #[test]
    fn casters_that_strike_together_share_the_push() {
        assert!((shared([900.0, 900.0].into_iter(), 1200.0) - 2.0 / 3.0).abs() < 1e-12);
        assert_eq!(shared([500.0, 500.0].into_iter(), 1200.0), 1.0);
        assert_eq!(shared([-5.0, 0.0].into_iter(), 1200.0), 1.0);
    }

    /// No higher sill is judged by a smaller push, whatever the caster.
    #[test]
    fn a_higher_sill_is_never_judged_better() {
        for radius in [0.030, 0.050, 0.0625, 0.075, 0.100] {
            let push = |mm: u32| edge(radius, Some(f64::from(mm) * 1e-3), 6.0).0.unwrap().1;
            for mm in 1..200 {
                assert!(push(mm + 1) >= push(mm) - 1e-12, "{radius} {mm}");
            }
        }
    }
}
