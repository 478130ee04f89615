//! Ratings printed on bought parts.

use crate::capacity::{Assumed, Capacity, Figure, Mode, Need, Refusal, positive};
use crate::never::Never;
use crate::source::Source;

/// What a printed rating is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RatedFor {
    /// One part.
    One,
    /// Two together.
    Pair,
    /// Not said: taken as two together, and asked.
    Unsaid,
}

const RATING: Source = Source::practice("ratings of wheels are printed for one or for a pair");

/// What one part carries, N, by a printed rating in N.
///
/// # Errors
/// A rating not above zero.
pub fn rated(rating: f64, basis: RatedFor) -> Result<Capacity, Refusal> {
    positive(Figure::Force, rating)?;
    let of = |share: f64| Capacity::new(rating * share, Mode::Bearing, RATING);
    Ok(match basis {
        RatedFor::One => of(1.0),
        RatedFor::Pair => of(0.5).assuming(Assumed::HalfOfPair),
        RatedFor::Unsaid => of(0.5).assuming(Assumed::HalfOfPair).needing(Need::RatingBasis),
    })
}

/// How an axle is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AxleHeld {
    /// At both ends.
    BothEnds,
    /// On one side.
    OneSide,
}

/// A wheel's rating as one part carries it, with how its axle is made and held: a cone axle held on
/// one side is refused whatever is printed.
///
/// # Errors
/// A one-sided cone axle; a rating not above zero.
pub fn wheel(rating: f64, basis: RatedFor, cone_axle: bool, held: AxleHeld) -> Result<Capacity, Refusal> {
    match cone_axle && held == AxleHeld::OneSide {
        true => Err(Never::OneSidedConeAxle.into()),
        false => rated(rating, basis),
    }
}
