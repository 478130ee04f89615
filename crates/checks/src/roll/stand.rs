//! The loaded chair on its wheels in plain numbers.

use super::G;
use crate::Figures;
use chairwright_design::Design;
use chairwright_frame::Settled;

/// What the formulas of rolling need, in SI units. Lengths along the ground are from the rear contacts.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stand {
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

impl Stand {
    /// `None` without a rider, two rear wheels and a caster.
    pub(crate) fn new(design: &Design, settled: &Settled, figures: &Figures) -> Option<Stand> {
        let x = |caster: bool| settled.contacts.iter().filter(move |c| c.caster == caster).map(|c| c.at.x);
        let mean = |caster: bool| {
            let n = x(caster).count();
            #[allow(clippy::cast_precision_loss)]
            let n = n as f64;
            (n > 0.0).then(|| x(caster).sum::<f64>() / n)
        };
        let (rear, front) = (mean(false)?, mean(true)?);
        let stand = Stand {
            weight: figures.si("mass.total")? * G,
            ahead: figures.si("com.total.ahead")? - rear,
            height: figures.si("com.total.height")?,
            base: front - rear,
            track: figures.si("track")?,
            rear_radius: least(design.wheels.iter().map(|w| w.radius))?,
            rear_tyre: least(design.wheels.iter().map(|w| w.tyre))?,
            radius: least(design.casters.iter().map(|c| c.radius))?,
            tyre: least(design.casters.iter().map(|c| c.width))?,
            rim: least(design.wheels.iter().filter_map(|w| w.rim)).map(|d| d / 2.0),
        };
        (stand.base > 0.0 && stand.height > 0.0).then_some(stand)
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
