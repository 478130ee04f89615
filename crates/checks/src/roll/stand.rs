//! The loaded chair on its wheels in plain numbers, once for each way it may be loaded: with and without what rides along,
//! and as far as a tipping test of the built chair leaves its centre of mass open. Each rule looks at the worst of them.

use super::G;
use crate::Checked;
use chairwright_design::Design;
use chairwright_frame::Settled;

/// What the formulas of rolling need, in SI units. Lengths along the ground are from the rear contacts.
#[derive(Clone, Debug)]
pub(crate) struct Stand {
    /// What rides along, by name; empty for nothing.
    with: String,
    /// Weight of chair and rider in N.
    pub weight: f64,
    /// Centre of mass ahead of the rear contacts.
    pub ahead: f64,
    /// Centre of mass above the ground.
    pub height: f64,
    /// Rear contacts to caster contacts, casters trailing.
    pub base: f64,
    /// Between the rear contacts.
    pub track: f64,
    /// Radius of the smallest rear wheel.
    pub rear_radius: f64,
    /// Width of the narrowest rear tyre.
    pub rear_tyre: f64,
    /// Radius of the smallest caster.
    pub radius: f64,
    /// Width of the narrowest caster wheel.
    pub tyre: f64,
    /// Radius of the push rims, where there are any.
    pub rim: Option<f64>,
}

fn least(values: impl Iterator<Item = f64>) -> Option<f64> {
    values.min_by(f64::total_cmp)
}

/// All ways that a chair may be loaded.
pub(crate) struct Stands(Vec<Stand>);

impl Stands {
    /// `None` without a rider, or where not all casters stand ahead of one axle.
    pub(crate) fn new(design: &Design, settled: &Settled, checked: &Checked) -> Option<Stands> {
        if !crate::layout::usual(settled) {
            return None;
        }
        let x = |caster: bool| settled.contacts.iter().filter(move |c| c.caster == caster).map(|c| c.at.x);
        let mean = |caster: bool| {
            let n = x(caster).count();
            #[allow(clippy::cast_precision_loss)]
            let n = n as f64;
            (n > 0.0).then(|| x(caster).sum::<f64>() / n)
        };
        let (rear, front) = (mean(false)?, mean(true)?);
        // what the built chair was found to weigh more than its plan
        let heavier = checked.figures.si("mass.total")? - checked.loadings.last()?.1.mass;
        let empty = Stand {
            with: String::new(),
            weight: 0.0,
            ahead: 0.0,
            height: 0.0,
            base: front - rear,
            track: checked.figures.si("track")?,
            rear_radius: least(design.wheels.iter().map(|w| w.radius))?,
            rear_tyre: least(design.wheels.iter().map(|w| w.tyre))?,
            radius: least(design.casters.iter().map(|c| c.radius))?,
            tyre: least(design.casters.iter().map(|c| c.width))?,
            rim: least(design.wheels.iter().filter_map(|w| w.rim)).map(|d| d / 2.0),
        };
        let loaded = checked.loadings.iter().map(|(with, mass)| Stand {
            with: with.clone(),
            weight: (mass.mass + heavier) * G,
            ahead: mass.centre.x - rear,
            height: mass.centre.z,
            ..empty.clone()
        });
        let all: Vec<Stand> = loaded.collect();
        let stands = all.iter().all(|s| s.base > 0.0 && s.height > 0.0);
        (stands && !all.is_empty()).then_some(Stands(all))
    }

    /// With everything on: the one that nothing else is said of.
    pub(crate) fn full(&self) -> &Stand {
        &self.0[self.0.len() - 1]
    }

    /// Each of them.
    pub(crate) fn all(&self) -> impl Iterator<Item = &Stand> {
        self.0.iter()
    }

    /// The one with the least of something; where they are alike, with everything on.
    pub(crate) fn least(&self, of: impl Fn(&Stand) -> f64) -> &Stand {
        self.0.iter().fold(self.full(), |best, s| if of(s) < of(best) - 1e-9 { s } else { best })
    }

    /// The one with the most of something.
    pub(crate) fn most(&self, of: impl Fn(&Stand) -> f64) -> &Stand {
        self.least(|s| -of(s))
    }
}

impl Stand {
    /// Behind a formula: what rides along in this one.
    pub(crate) fn words(&self) -> String {
        if self.with.is_empty() { String::new() } else { format!(", with {}", self.with) }
    }

    /// A push along the ground of one rear wheel is this much harder at its rim: wheel radius / rim radius, moments about the
    /// axle. `None` without push rims.
    pub(crate) fn lever(&self) -> Option<f64> {
        Some(self.rear_radius / self.rim?)
    }

    /// Load on both casters on the level, in N.
    pub(crate) fn caster_load(&self) -> f64 {
        self.weight * (self.ahead / self.base).clamp(0.0, 1.0)
    }

    /// Load on both rear wheels on the level, in N.
    pub(crate) fn rear_load(&self) -> f64 {
        self.weight - self.caster_load()
    }
}

#[cfg(test)]
impl Stand {
    /// On rear wheels of 300 mm and casters of 75 mm 400 mm ahead of them.
    pub(crate) fn of(weight: f64, ahead: f64, height: f64) -> Stand {
        Stand {
            with: String::new(),
            weight,
            ahead,
            height,
            base: 0.4,
            track: 0.5,
            rear_radius: 0.3,
            rear_tyre: 0.035,
            radius: 0.075,
            tyre: 0.03,
            rim: Some(0.27),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first of those that are alike is not taken for less: everything on is the last.
    #[test]
    fn the_worst_is_looked_for_among_all() {
        let stands = Stands(vec![Stand::of(700.0, 0.15, 0.6), Stand::of(780.0, 0.10, 0.62)]);
        assert!((stands.least(|s| s.base - s.ahead).ahead - 0.15).abs() < 1e-12);
        assert!((stands.most(|s| s.weight).ahead - 0.10).abs() < 1e-12);
        assert!((stands.least(|s| s.track).ahead - 0.10).abs() < 1e-12);
    }
}
