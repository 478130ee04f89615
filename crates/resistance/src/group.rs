//! Fasteners that carry a force off their middle together, in their face and out of it: the elastic method.

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

const TILT: Source = Source::mechanics(
    "elastic method: pulls on a plane over the group, its axis through the centroid of the fasteners",
);

/// Pull on each fastener of a group that is tilted off its face.
#[derive(Clone, Debug, PartialEq)]
pub struct Tilted {
    /// Pull on each, N, in the order given; below zero the face presses there.
    pub each: Vec<f64>,
    /// The greatest pull, N; 0 where none is pulled.
    pub greatest: f64,
    /// Which has it.
    pub worst: usize,
    /// The method.
    pub source: Source,
}

/// Pulls that a pull along the fasteners (N, through their centroid) and moments out of the face (N·m)
/// put on fasteners alike at `places` (m): positive `my` pulls where z is positive, positive `mz` where
/// y is negative.
///
/// The pressing face is left out, so that the group turns about its own centroid. Turning about a
/// pressing edge beyond all of them gives less: `(c + a)/(Σr² + n a²) ≤ c/Σr²` holds as long as
/// `Σr² ≤ n a c`, and for a no less than the farthest on the pressed side it does (Bhatia and Davis).
///
/// # Errors
/// No fasteners, a moment about the line of a single row, or figures that are not numbers.
pub fn tilted(places: &[[f64; 2]], pull: f64, my: f64, mz: f64) -> Result<Tilted, Refusal> {
    for given in places.iter().flatten().chain(&[pull, my, mz]) {
        within(Figure::Force, given.abs(), 0.0, MOST)?;
    }
    let count = within(Figure::Count, places.len() as f64, 1.0, MOST)?;
    let centre: [f64; 2] = std::array::from_fn(|k| places.iter().map(|p| p[k]).sum::<f64>() / count);
    let arms: Vec<[f64; 2]> = places.iter().map(|p| [p[0] - centre[0], p[1] - centre[1]]).collect();
    let [by_y, by_z] = slope(&arms, [-mz, my])?;
    let each: Vec<f64> = arms.iter().map(|a| pull / count + by_y * a[0] + by_z * a[1]).collect();
    let (worst, greatest) =
        each.iter().copied().enumerate().fold((0, 0.0), |a, b| if b.1 > a.1 { b } else { a });
    Ok(Tilted { each, greatest, worst, source: TILT })
}

/// The plane over the arms whose pulls have these first moments.
fn slope(arms: &[[f64; 2]], [my, mz]: [f64; 2]) -> Result<[f64; 2], Refusal> {
    let size = libm::hypot(my, mz);
    if size == 0.0 {
        return Ok([0.0; 2]);
    }
    let sum = |f: fn(&[f64; 2]) -> f64| arms.iter().map(f).sum::<f64>();
    let (yy, zz, yz) = (sum(|a| a[0] * a[0]), sum(|a| a[1] * a[1]), sum(|a| a[0] * a[1]));
    let all = positive(Figure::SecondMoment, yy + zz)?;
    let det = yy * zz - yz * yz;
    if det > 1e-9 * all * all {
        return Ok([(my * zz - mz * yz) / det, (mz * yy - my * yz) / det]);
    }
    // One row: it resists only what turns its own line up.
    let angle = libm::atan2(2.0 * yz, yy - zz) / 2.0;
    let (s, c) = libm::sincos(angle);
    let (along, beside) = (my * c + mz * s, mz * c - my * s);
    within(Figure::SecondMoment, beside.abs() / size, 0.0, 1e-6)?;
    Ok([along / all * c, along / all * s])
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
