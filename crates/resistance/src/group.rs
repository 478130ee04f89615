//! Fasteners that carry a force off their middle together: the elastic method.

use crate::capacity::{Assumed, Capacity, Figure, MOST, Mode, Refusal, positive, within};
use crate::source::Source;

const ELASTIC: Source = Source::mechanics(
    "elastic method: force shared evenly, moment in proportion to the distance from the centroid",
);

/// What each fastener of a group carries.
#[derive(Clone, Debug, PartialEq)]
pub struct Shared {
    /// Force on each, y and z, N, in the order given.
    pub each: Vec<[f64; 2]>,
    /// The greatest of them, N.
    pub greatest: f64,
    /// Which has it.
    pub worst: usize,
}

/// Shares a force `[Fy, Fz]` (N) that acts at `at` and a moment (N·m, from y to z) over fasteners alike
/// at `places` (m).
///
/// # Errors
/// No fasteners, a moment on fasteners all at one place, or figures that are not numbers.
pub fn shared(places: &[[f64; 2]], force: [f64; 2], at: [f64; 2], moment: f64) -> Result<Shared, Refusal> {
    for given in [force[0], force[1], at[0], at[1], moment] {
        within(Figure::Force, given.abs(), 0.0, MOST)?;
    }
    let count = within(Figure::Count, places.len() as f64, 1.0, MOST)?;
    let centre: [f64; 2] = std::array::from_fn(|k| places.iter().map(|p| p[k]).sum::<f64>() / count);
    let polar: f64 = places.iter().map(|p| square(p[0] - centre[0]) + square(p[1] - centre[1])).sum();
    let twist = moment + (at[0] - centre[0]) * force[1] - (at[1] - centre[1]) * force[0];
    if twist != 0.0 {
        positive(Figure::SecondMoment, polar)?;
    }
    within(Figure::SecondMoment, polar, 0.0, MOST)?;
    let turn = if twist == 0.0 { 0.0 } else { twist / polar };
    let on = |p: &[f64; 2]| {
        [force[0] / count - turn * (p[1] - centre[1]), force[1] / count + turn * (p[0] - centre[0])]
    };
    let each: Vec<[f64; 2]> = places.iter().map(on).collect();
    let sizes = each.iter().map(|f| libm::hypot(f[0], f[1])).enumerate();
    let (worst, greatest) = sizes.fold((0, 0.0), |a, b| if b.1 > a.1 { b } else { a });
    Ok(Shared { each, greatest, worst })
}

fn square(x: f64) -> f64 {
    x * x
}

/// Moment that a group carries about its own centroid, N·m, when each fastener carries `each` sideways
/// whatever the direction: `each × Σr² / r_max`.
///
/// # Errors
/// Fewer than two places.
pub fn moment(places: &[[f64; 2]], each: &Capacity) -> Result<Capacity, Refusal> {
    within(Figure::Count, places.len() as f64, 2.0, MOST)?;
    let unit = shared(places, [0.0; 2], [0.0; 2], 1.0)?;
    Ok(Capacity::new(each.value / unit.greatest, Mode::WorstFastener, ELASTIC)
        .resting_on(each)
        .assuming(Assumed::RigidPlate))
}
