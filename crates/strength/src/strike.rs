//! Casters that run into an edge.

use crate::case::{Case, CaseKind, Lasting, case};
use crate::cases::Maker;
use crate::load::Push;
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

/// The edges that a caster of a radius climbs here: everyday ones, and a declared sill above them. With the push over
/// the load on it; `Err` with the sill that no push climbs.
pub(crate) fn edge(radius: f64, sill: Option<f64>) -> (Option<(f64, f64)>, Option<f64>) {
    let small = EDGE.min(0.5 * radius);
    let of = |height: f64| climb(radius, height).ok().map(|ratio| (height, ratio));
    match sill.filter(|s| *s > small) {
        None => (of(small), None),
        Some(high) => match of(high) {
            Some(found) => (Some(found), None),
            None => (of(small), Some(high)),
        },
    }
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
            let (found, high) = edge(radius, sill);
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

    fn strike(&self, caster: Option<String>, hits: &[(usize, f64, f64)], feet: &[f64]) -> Case {
        let mut pushes = self.seated();
        for (k, _, ratio) in hits {
            let force = Vec3::X * -push(*ratio, feet[*k]);
            pushes.extend(self.at_point(self.all.footings[*k].hub, force));
        }
        let (edge, ratio) = hits.iter().fold((0.0_f64, 0.0_f64), |m, h| (m.0.max(h.1), m.1.max(h.2)));
        let kind = CaseKind::CasterStrike { caster, edge, ratio };
        case(kind, Lasting::Impact, ratio * SUDDEN, Source::Climb(SUDDEN), pushes)
    }

    /// A force at a free point, moved to what carries it.
    fn at_point(&self, point: usize, force: Vec3) -> Option<Push> {
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
            let (found, stopped) = edge(d / 2.0, None);
            assert!((found.unwrap().1 - ratio).abs() < 0.01, "{d}");
            assert_eq!(stopped, None);
        }
    }

    /// A sill of 40 mm before a caster of 62.5 mm radius: the edge lies 22.5 mm below the axle and √(62.5² − 22.5²) =
    /// 58.3 mm ahead of it, so the push is 58.3/22.5 = 2.592 times the load. One as high as the radius stops it.
    #[test]
    fn a_declared_sill_is_climbed_or_told() {
        let (found, stopped) = edge(0.0625, Some(0.040));
        assert!((found.unwrap().1 - 2.592).abs() < 1e-3 && stopped.is_none());
        let (found, stopped) = edge(0.0625, Some(0.0625));
        assert_eq!(stopped, Some(0.0625));
        assert!((found.unwrap().0 - 0.020).abs() < 1e-12, "the everyday edge stays a case");
        assert_eq!(edge(0.0625, Some(0.010)).0, edge(0.0625, None).0, "a lower sill takes nothing away");
    }
}
