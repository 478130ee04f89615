//! What the readings of the built chair say of the chair under look.
//!
//! In the setting that was tested they take the place of the plan. In another state, at another stop of an adjustment, or with
//! a parameter set otherwise, the same chair is taken to differ from its plan as it did when it was tested. Of another variant,
//! revision or rider they say nothing.

use crate::assumed::Assumed;
use chairwright_design::{AsBuilt, Band, Design, OtherBuilt};

/// How far a size of the built chair may be off the plan, m. Common practice, no source.
pub const SIZE: f64 = 0.010;
/// How far a tape is taken to be off, m. Common practice, no source.
pub const TAPE: f64 = 0.002;

/// By how much a built chair that passes its sheet may be larger than its plan in a figure; nothing where that was measured on it.
pub(crate) fn larger(out: &crate::Checked, figure: &str) -> f64 {
    if out.built(figure).is_some() { 0.0 } else { SIZE - TAPE }
}

/// The readings, where they are of this chair.
pub(crate) fn readings(design: &Design) -> Option<&AsBuilt> {
    let of = |b: &&AsBuilt| match b.other {
        None => true,
        Some(OtherBuilt::Settings) => b.carry.is_some(),
        Some(_) => false,
    };
    design.as_built.as_ref().filter(of)
}

/// Least and greatest of what the built chair has where its plan has `plan`.
pub(crate) fn reading(built: &AsBuilt, field: &str, plan: Option<f64>) -> Option<Band> {
    let Some(carry) = &built.carry else { return built.values.get(field).copied() };
    let (plan, by) = (plan?, carry.by.get(field)?);
    let angle = field.starts_with("toe_") || field.starts_with("camber_");
    let end = |by: f64| if angle { plan + by } else { (plan + by).max(0.0) };
    Some(Band { low: end(by.low), high: end(by.high) })
}

/// Says what becomes of readings that were not taken in the setting under look.
pub(crate) fn told(design: &Design, out: &mut Vec<Assumed>) {
    let Some(built) = &design.as_built else { return };
    match built.other {
        _ if built.carry.is_some() => out.push(Assumed::BuiltCarried),
        Some(other) => out.push(Assumed::OtherBuilt(other)),
        None => {}
    }
}
