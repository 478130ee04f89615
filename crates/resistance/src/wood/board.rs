//! What a salvaged board is worth, by tests on a bench: weigh it, bend it, load it.

use super::property::Service;
use crate::capacity::{Assumed, Capacity, Figure, LEAST, MOST, Mode, Need, Refusal, positive, within};
use crate::source::Source;

/// A board on two supports: width across, height along the load, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Board {
    /// Span between the supports, m.
    pub span: f64,
    /// Width, m.
    pub width: f64,
    /// Height in the direction of the load, m.
    pub height: f64,
}

/// A load at mid-span with what it does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Centre {
    /// Force, N.
    pub force: f64,
    /// Deflection at mid-span by that force, m.
    pub deflection: f64,
}

const BENCH: Source =
    Source::mechanics("beam on two supports, load at mid-span: E = P L^3 / (48 I d), M = P L / 4");

fn sizes(board: &Board) -> Result<(), Refusal> {
    positive(Figure::Width, board.width)?;
    positive(Figure::Height, board.height)?;
    // Shorter spans bend too much by shear for the plain formula.
    within(Figure::Slenderness, board.span / board.height, 12.0, 100.0)?;
    Ok(())
}

/// Apparent modulus of elasticity, Pa: `P L³ / (48 I δ)`. Shear makes it read low, by some percent at a
/// span of 12 times the height. The load is the added one and the deflection what it added.
///
/// # Errors
/// A span not 12 to 100 times the height; a deflection above a twentieth of the span, where the board
/// no longer bends in proportion.
pub fn modulus_by_deflection(board: &Board, test: Centre) -> Result<Capacity, Refusal> {
    sizes(board)?;
    positive(Figure::Force, test.force)?;
    within(Figure::Deflection, test.deflection, LEAST, board.span / 20.0)?;
    let i = board.width * board.height * board.height * board.height / 12.0;
    let e = test.force * board.span * board.span * board.span / (48.0 * i * test.deflection);
    // Stiffness says little of strength: that takes a load.
    Ok(Capacity::new(e, Mode::Bending, BENCH)
        .assuming(Assumed::ShearDeflectionLeftOut)
        .needing(Need::MeasureThickness)
        .needing(Need::ProofLoad))
}

/// Density of a board, kg/m³, by its mass (kg) and sizes (m).
///
/// # Errors
/// A figure not above zero.
pub fn density(mass: f64, sizes: [f64; 3]) -> Result<f64, Refusal> {
    positive(Figure::Mass, mass)?;
    for size in sizes {
        positive(Figure::Length, size)?;
    }
    Ok(mass / (sizes[0] * sizes[1] * sizes[2]))
}

/// Allowable bending stress of a board that carried `force` (N) at mid-span for ten minutes without
/// sound or set, Pa: the stress it carried, over the safety factor (2 is common practice) and from ten
/// minutes to the time in service. A proof says nothing about the next board, nor of a damage it did.
///
/// # Errors
/// Figures outside their range.
pub fn proof_stress(board: &Board, force: f64, service: Service, safety: f64) -> Result<Capacity, Refusal> {
    sizes(board)?;
    positive(Figure::Force, force)?;
    within(Figure::Safety, safety, 1.0, MOST)?;
    let stress = force * board.span / 4.0 * 6.0 / (board.width * board.height * board.height);
    // No more than the proof's own duration can be credited: an impact factor is not proven by it.
    let lasting = (service.duration.factor() / 1.6).min(1.0);
    let wet = if service.wet { super::Property::Bending.wet() } else { 1.0 };
    let warm = super::Property::Bending.warm(service);
    let out = Capacity::new(stress * lasting * wet * warm / safety, Mode::Bending, BENCH)
        .assuming(Assumed::Safety(safety))
        .assuming(Assumed::DurationFactor(lasting))
        .needing(Need::LookOver);
    let out = if warm < 1.0 { out.assuming(Assumed::TemperatureFactor(warm)) } else { out };
    Ok(if service.wet { out.assuming(Assumed::WetFactor(wet)) } else { out })
}
