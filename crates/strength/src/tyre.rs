//! Tyres: how much each gives way, how far it can, and what a fall comes to on them.

use crate::remark::{Open, Source, Taken};
use crate::structure::{Footing, Structure};
use chairwright_design::Design;
use chairwright_resistance::shock::{bottoming, fall};

/// Stiffness of a tyre that the catalogue does not know, N/m: as its rear tyre. An estimate.
const TYRE: f64 = 200e3;
/// Shares of its width that a tyre of a rear wheel and of a caster can be pressed in by before its rim, or what it is cast on, takes
/// the load: a tyre with air is round and as deep as wide, the rubber of a caster half as deep. Common practice, no source.
const DEEP: [f64; 2] = [1.0, 0.5];

/// The tyres of a chair, one for each footing.
#[derive(Clone, PartialEq, Debug, Default)]
pub(crate) struct Tyres {
    /// N/m.
    pub stiffness: Vec<f64>,
    /// How far it can be pressed in, m.
    pub room: Vec<f64>,
}

impl Tyres {
    /// The tyre's own stiffness where its part says so, else what the catalogue says of all of its kind.
    pub fn new(design: &Design, all: &Structure, taken: &mut Vec<Taken>) -> Tyres {
        let own = |f: &Footing| match f.caster {
            true => design.casters[f.index].stiffness,
            false => design.wheels[f.index].stiffness,
        };
        let mut of = |caster: bool, name: &str| {
            let known = design.allowance(name).and_then(|a| a.stiffness);
            let stiffness = known.unwrap_or(TYRE);
            if all.footings.iter().any(|f| f.caster == caster && own(f).is_none()) {
                taken.push(Taken::Tyre { caster, stiffness, known: known.is_some() });
            }
            stiffness
        };
        let (rear, front) = (of(false, "rear tyre"), of(true, "caster tyre"));
        let stiffness = |f: &Footing| own(f).unwrap_or(if f.caster { front } else { rear });
        let room = |f: &Footing| match f.caster {
            true => DEEP[1] * design.casters[f.index].width,
            false => DEEP[0] * design.wheels[f.index].tyre,
        };
        Tyres {
            stiffness: all.footings.iter().map(stiffness).collect(),
            room: all.footings.iter().map(room).collect(),
        }
    }

    /// Tyres that stand on their rims under these forces (N).
    pub fn flat(&self, feet: &[f64]) -> Vec<usize> {
        (0..feet.len()).filter(|k| feet[*k] / self.stiffness[*k] > self.room[*k]).collect()
    }

    /// Times the weight at which the first tyre is pressed flat, under forces `feet` (N).
    fn reached(&self, feet: &[f64]) -> f64 {
        let each = feet.iter().zip(&self.stiffness).zip(&self.room).filter(|((f, _), _)| **f > 0.0);
        each.map(|((f, k), room)| room * k / f).fold(f64::INFINITY, f64::min)
    }

    /// Whether a fall from `height` (m) of a chair that gives way by `give` (m) presses a tyre flat.
    pub fn bottoms(&self, height: f64, give: f64, feet: &[f64]) -> bool {
        fall(height, give).is_ok_and(|n| n > self.reached(feet))
    }

    /// Factor of a fall from `height` (m) of a chair that gives way by `give` (m) under forces `feet` (N), its tyres among it:
    /// until the first tyre is pressed flat on all of that, then on the chair alone, which gives way by `hard` (m) on tyres
    /// that do not.
    ///
    /// What the chair alone does not give of `give` is the tyres' share: so that both make up all of it, and a fall that only just
    /// comes to the rim is no milder than one that does not.
    pub fn fall(
        &self,
        height: f64,
        (give, hard): (f64, Option<f64>),
        feet: &[f64],
    ) -> Result<(f64, Source), Open> {
        let soft = fall(height, give).map_err(|_| Open::Drop)?;
        if !self.bottoms(height, give, feet) {
            return Ok((soft, Source::Fall(height, give)));
        }
        let (chair, reached) = (hard.ok_or(Open::Drop)?.min(give), self.reached(feet));
        let tyres = give - chair;
        let n = bottoming(height, (tyres, chair), reached).map_err(|_| Open::Drop)?.max(soft);
        Ok((n, Source::Bottoms { height, tyres, chair, reached }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Four tyres of 100 N/mm under 200 N each give way by 2 mm; the chair by 1 mm more. From 50 mm: 1 + √(1 + 100/3) = 6.859.
    /// With 20 mm of room a tyre is flat at 20 · 100/200 = 10 times: it is not reached. With 6 mm at 3 times, and then
    /// the fall goes on the chair's 1 mm alone: 1 + √(1 + (2·50 − 2·3·(3 − 2))/1) = 1 + √95 = 10.747.
    #[test]
    fn a_soft_tyre_ends_on_its_rim() {
        let tyres = |room: f64| Tyres { stiffness: vec![100e3; 4], room: vec![room; 4] };
        let (n, source) = tyres(0.020).fall(0.050, (0.003, Some(0.001)), &[200.0; 4]).unwrap();
        assert!((n - 6.859).abs() < 1e-3, "{n}");
        assert_eq!(source, Source::Fall(0.050, 0.003));
        let (n, source) = tyres(0.006).fall(0.050, (0.003, Some(0.001)), &[200.0; 4]).unwrap();
        assert!((n - 10.747).abs() < 1e-3, "{n}");
        // without the chair's own give there is no answer
        assert_eq!(tyres(0.006).fall(0.050, (0.003, None), &[200.0; 4]), Err(Open::Drop));
        let Source::Bottoms { tyres: t, chair, reached, .. } = source else { panic!("{source:?}") };
        assert!((t - 0.002).abs() < 1e-12 && (chair - 0.001).abs() < 1e-12 && (reached - 3.0).abs() < 1e-9);
    }

    /// A higher fall, a narrower tyre and a heavier load are never milder, wherever the rim comes to the ground: here at 8.15 times.
    #[test]
    fn coming_to_the_rim_is_no_relief() {
        let n = |height: f64, room: f64, load: f64| {
            let tyres = Tyres { stiffness: vec![100e3; 4], room: vec![room; 4] };
            tyres.fall(height, (0.003 * load, Some(0.000_9 * load)), &[200.0 * load; 4]).unwrap().0
        };
        for k in 0..200 {
            let k = f64::from(k);
            let (low, high) = (0.05 + 0.000_5 * k, 0.05 + 0.000_5 * (k + 1.0));
            assert!(n(high, 0.0163, 1.0) >= n(low, 0.0163, 1.0), "{low}");
            assert!(n(0.08, 0.02 - 5e-5 * (k + 1.0), 1.0) >= n(0.08, 0.02 - 5e-5 * k, 1.0), "{k}");
            // a heavier load gives way by more, so that it falls softer, until it comes to the rim
            let force = |load: f64| load * n(0.08, 0.0163, load);
            assert!(force(1.0 + 0.002 * (k + 1.0)) >= force(1.0 + 0.002 * k), "{k}");
        }
    }

    /// A tyre of 0.1 N/mm under 200 N would give way by 2 m; with 15 mm of room it stands on its rim.
    #[test]
    fn a_flat_tyre_is_told() {
        let tyres = Tyres { stiffness: vec![100.0, 100e3], room: vec![0.015; 2] };
        assert_eq!(tyres.flat(&[200.0, 200.0]), vec![0]);
    }
}
