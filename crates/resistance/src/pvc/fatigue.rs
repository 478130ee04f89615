//! Repeated load. The one published fit is of plain pipe under pressure surges (hoop stress), so that
//! what comes out is a band and an upper bound, never a proof of life.

use crate::capacity::{Assumed, Figure, MOST, Need, Refusal, positive, within};
use crate::source::Source;

const PSI: f64 = 6_894.757_293_168_361;
const COEFFICIENT: f64 = 5.05e21;
const EXPONENT: f64 = 4.906;

/// The fit's source. Its exponent and coefficient take the peak stress in psi.
pub const FIT: Source = Source::published(
    "Buried Pipe Design, surge fatigue of PVC pipe: N = 5.05e21 x (peak hoop stress, psi)^-4.906",
);

/// Fewest and most cycles that the fit is used for; from memory of the plotted data, not checked.
pub const CYCLES: (f64, f64) = (1e3, 1e7);

/// A number of cycles.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Life {
    /// Cycles by the fit.
    About(f64),
    /// More than the fit is known for: at least so many.
    AtLeast(f64),
    /// Fewer than the fit is known for: less than so many.
    Below(f64),
}

/// Cycles by the fit at a peak stress in Pa, as the formula gives them, without a range.
///
/// # Errors
/// A stress that is not above zero.
pub fn cycles(peak: f64) -> Result<f64, Refusal> {
    positive(Figure::Stress, peak)?;
    Ok(COEFFICIENT * libm::pow(peak / PSI, -EXPONENT))
}

/// Peak stress in Pa for so many cycles: the fit turned round, at the notch when `notch` is 1, else
/// the nominal stress that is `notch` times lower.
///
/// # Errors
/// Cycles outside [`CYCLES`], or a notch factor below 1.
pub fn repeated_stress(cycles: f64, notch: f64) -> Result<f64, Refusal> {
    within(Figure::Cycles, cycles, CYCLES.0, CYCLES.1)?;
    within(Figure::Notch, notch, 1.0, MOST)?;
    Ok(libm::pow(COEFFICIENT / cycles, 1.0 / EXPONENT) * PSI / notch)
}

/// Life between two notch factors.
#[derive(Clone, Debug, PartialEq)]
pub struct LifeBand {
    /// With the greater notch factor.
    pub worst: Life,
    /// With the lesser notch factor.
    pub best: Life,
    /// What it takes for granted.
    pub assumed: Vec<Assumed>,
    /// What it needs.
    pub needs: Vec<Need>,
    /// The fit's source.
    pub source: Source,
}

/// Band of life at a nominal peak stress in Pa, between a lesser and a greater notch factor. No
/// notch factors of PVC joints are published in what we hold: the band is the caller's, and wide.
///
/// # Errors
/// A stress not above zero, or notch factors not rising from at least 1.
pub fn life(peak: f64, notch: (f64, f64)) -> Result<LifeBand, Refusal> {
    within(Figure::Notch, notch.0, 1.0, MOST)?;
    within(Figure::Notch, notch.1, notch.0, MOST)?;
    Ok(LifeBand {
        worst: bounded(cycles(peak * notch.1)?),
        best: bounded(cycles(peak * notch.0)?),
        assumed: vec![Assumed::PlainPipeFit, Assumed::RoomTemperature, Assumed::NotchFactor(notch.1)],
        needs: vec![Need::InspectOften],
        source: FIT,
    })
}

fn bounded(cycles: f64) -> Life {
    match cycles {
        c if c > CYCLES.1 => Life::AtLeast(CYCLES.1),
        c if c < CYCLES.0 => Life::Below(CYCLES.0),
        c => Life::About(c),
    }
}

/// Equivalent cycles of rolling and dropping: `drum + 30 × drop`. The weight of 30 is from memory of
/// published comparisons of fatigue life.
///
/// # Errors
/// A count below zero or not a number.
pub fn equivalent_cycles(drum: f64, drops: f64) -> Result<f64, Refusal> {
    within(Figure::Cycles, drum, 0.0, MOST)?;
    within(Figure::Cycles, drops, 0.0, MOST)?;
    Ok(drum + 30.0 * drops)
}

/// A number of loads alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Block {
    /// Nominal peak stress, Pa.
    pub peak: f64,
    /// How often.
    pub cycles: f64,
}

/// Shares of life that blocks of loads use together; more than 1 does not last.
#[derive(Clone, Debug, PartialEq)]
pub struct Combined {
    /// With the greater notch factor.
    pub worst: f64,
    /// With the lesser notch factor.
    pub best: f64,
    /// What it takes for granted.
    pub assumed: Vec<Assumed>,
    /// What it needs.
    pub needs: Vec<Need>,
    /// The source of the sum.
    pub source: Source,
}

/// Source of the sum.
pub const SUM: Source = Source::memory(
    "Palmgren and Miner: sum of cycles over life; tests of many materials failed anywhere between 0.3 and 3",
);

/// Share of life that blocks of loads of several sizes use together, `Σ n/N`, between a lesser and a
/// greater notch factor. Loads too small for the fit count as if their life were the longest that it is
/// known for, to the careful side; with loads too large for it the share is infinite: not known.
///
/// # Errors
/// No blocks, a stress not above zero, a count below zero or not a number, notch factors not rising from
/// at least 1.
pub fn combined(blocks: &[Block], notch: (f64, f64)) -> Result<Combined, Refusal> {
    within(Figure::Count, blocks.len() as f64, 1.0, MOST)?;
    let (mut best, mut worst) = (0.0, 0.0);
    for block in blocks {
        let count = within(Figure::Cycles, block.cycles, 0.0, MOST)?;
        let band = life(block.peak, notch)?;
        best += share(count, band.best);
        worst += share(count, band.worst);
    }
    Ok(Combined {
        worst,
        best,
        assumed: vec![Assumed::PlainPipeFit, Assumed::RoomTemperature, Assumed::NotchFactor(notch.1)],
        needs: vec![Need::InspectOften],
        source: SUM,
    })
}

fn share(count: f64, life: Life) -> f64 {
    match life {
        _ if count == 0.0 => 0.0,
        Life::About(n) | Life::AtLeast(n) => count / n,
        Life::Below(_) => f64::INFINITY,
    }
}
