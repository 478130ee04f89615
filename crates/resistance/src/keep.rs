//! Least distances of screws in lead holes and of bolts by the way that the load points, in lumber and plywood; and
//! how much a bolt loses where it has less than it wants.

use crate::capacity::{Figure, Refusal, positive};
use crate::source::Source;

/// What goes in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shaft {
    /// A screw or nail in a lead hole.
    Screw,
    /// A nail, or a thin screw, without a lead hole.
    Undrilled,
    /// A bolt.
    Bolt,
}

/// Into what.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ground {
    /// Wood with its grain one way.
    Lumber,
    /// Plies crossed: it hardly splits.
    Plywood,
}

/// Least distances that no direction of the load may fall short of, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Keep {
    /// From one to the next along the grain.
    pub in_row: f64,
    /// From one to the next across the grain.
    pub between_rows: f64,
    /// From the end of the grain.
    pub end: f64,
    /// From an edge along the grain.
    pub edge: f64,
    /// Where the figures are from.
    pub source: Source,
}

const SCREWS: Source = Source::published(
    "EN 1995-1-1 table 8.2, nails and screws in lead holes, as printed in LVL Handbook Europe (2025), table 5.1, proofer.faktor.fi/epaper/LVLHandbook_2025/149",
);
const UNDRILLED: Source = Source::memory(
    "EN 1995-1-1 table 8.2, nails without lead holes in wood of 420 to 500 kg/m3, which wants the most: (7 + 8 cos a) d in a row, 7 d between rows, (15 + 5 cos a) d from an end, 7 d from an edge, towards which the load points (7 + 5 sin a) d, below 5 mm (7 + 2 sin a) d",
);
const BOLTS: Source = Source::memory(
    "NDS tables 11.5.1A to D: reduced values down to 3.5 D from a loaded end and 3 D in a row, 1.5 D from a free edge (that one as told by the publisher in seaintarchive.org/mailarchive/2008a/msg00736.html, loaded along the grain); two washers side by side (common practice) keep rows 3 D apart",
);
const PLIES: Source = Source::memory(
    "EN 1995-1-1 8.3.1.3: spacings of screws in plywood 0.85 of those in wood, 3 d from a free edge; bolts 4 d apart, as printed for cross-layered veneer in LVL Handbook Europe (2025), table 5.3",
);
/// What spacings in plywood are of those in wood.
const CROSSED: f64 = 0.85;

/// Distances below which no value holds, for a diameter in m.
///
/// # Errors
/// A diameter not above zero.
pub fn keep(shaft: Shaft, ground: Ground, diameter: f64) -> Result<Keep, Refusal> {
    let d = positive(Figure::Diameter, diameter)?;
    let of = |m: [f64; 4], source| Keep {
        in_row: m[0] * d,
        between_rows: m[1] * d,
        end: m[2] * d,
        edge: m[3] * d,
        source,
    };
    Ok(match (shaft, ground) {
        (Shaft::Screw, Ground::Lumber) => of([5.0, 4.0, 7.0, 3.0], SCREWS),
        (Shaft::Screw, Ground::Plywood) => of([5.0 * CROSSED, 5.0 * CROSSED, 3.0, 3.0], PLIES),
        (Shaft::Undrilled, Ground::Lumber) => of([15.0, 7.0, 15.0, 7.0], UNDRILLED),
        (Shaft::Undrilled, Ground::Plywood) => of([15.0 * CROSSED, 15.0 * CROSSED, 3.0, 3.0], PLIES),
        (Shaft::Bolt, Ground::Lumber) => of([3.0, 3.0, 3.5, 1.5], BOLTS),
        (Shaft::Bolt, Ground::Plywood) => of([4.0, 4.0, 3.0, 3.0], PLIES),
    })
}

/// From the end that the load points to, and from the edge, m, for the full value: the load has shares `along` the grain
/// and `across` it, from 0 to 1.
///
/// Screws EN 1995-1-1 table 8.2 (7 + 5 cos α, and 3 + 4 sin α, below 5 mm 3 + 2 sin α diameters), in plywood
/// 3 + 4 sin α all round; bolts 7 D and 4 D (NDS, softwood, from memory), in plywood 4 d (table 5.3 as above).
///
/// # Errors
/// A diameter not above zero.
pub fn loaded(
    shaft: Shaft,
    ground: Ground,
    diameter: f64,
    [along, across]: [f64; 2],
) -> Result<[f64; 2], Refusal> {
    let d = positive(Figure::Diameter, diameter)?;
    let own = keep(shaft, ground, diameter)?;
    let edge = |share: f64| (3.0 + if d < 0.005 { 2.0 } else { 4.0 } * share) * d;
    Ok(match (shaft, ground) {
        (Shaft::Screw, Ground::Lumber) => [(7.0 + 5.0 * along) * d, edge(across)],
        (Shaft::Undrilled, Ground::Lumber) => {
            [(15.0 + 5.0 * along) * d, (7.0 + if d < 0.005 { 2.0 } else { 5.0 } * across) * d]
        }
        (Shaft::Screw | Shaft::Undrilled, Ground::Plywood) => {
            [(3.0 + 4.0 * along) * d, (3.0 + 4.0 * across) * d]
        }
        (Shaft::Bolt, Ground::Lumber) => [own.end.max(7.0 * d * along), own.edge.max(4.0 * d * across)],
        (Shaft::Bolt, Ground::Plywood) => [own.end.max(4.0 * d * along), own.edge.max(4.0 * d * across)],
    })
}

/// From one to the next along the grain, m, for the full value: bolts in lumber 4 D (NDS, as above), all else as at least.
///
/// # Errors
/// A diameter not above zero.
pub fn row(shaft: Shaft, ground: Ground, diameter: f64) -> Result<f64, Refusal> {
    let d = positive(Figure::Diameter, diameter)?;
    Ok(match (shaft, ground) {
        (Shaft::Bolt, Ground::Lumber) => 4.0 * d,
        _ => keep(shaft, ground, d)?.in_row,
    })
}

/// Share of its value that a fastener keeps which stands `has` from where it wants to be `wanted` m: in proportion, as
/// NDS 11.5.1 (from memory) has it of a bolt at a loaded end; for screws and edges the same is taken, common
/// practice, no source.
#[must_use]
pub fn left(has: f64, wanted: f64) -> f64 {
    if has >= wanted { 1.0 } else { (has / wanted).max(0.0) }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// EN 1995-1-1 table 8.2 (from memory), 3.1 mm without lead holes: 15 d = 46.5 mm in a row and from an end, 62 mm from one that the
    /// load points to, and 9 d = 27.9 mm from such an edge. A lead hole asks for less of everything.
    #[test]
    fn nails_without_lead_holes_want_more() {
        let d = 0.0031;
        let bare = keep(Shaft::Undrilled, Ground::Lumber, d).unwrap();
        assert!((bare.in_row - 0.0465).abs() < 1e-9 && (bare.end - 0.0465).abs() < 1e-9);
        let [end, edge] = loaded(Shaft::Undrilled, Ground::Lumber, d, [1.0, 1.0]).unwrap();
        assert!((end - 0.062).abs() < 1e-9 && (edge - 0.0279).abs() < 1e-9);
        let led = keep(Shaft::Screw, Ground::Lumber, d).unwrap();
        assert!(led.in_row < bare.in_row && led.between_rows < bare.between_rows && led.edge < bare.edge);
    }

    /// LVL Handbook Europe table 5.1, lead holes: a screw of 5 mm, load along the grain: 12 d = 60 mm from the loaded
    /// end, across it 7 d = 35 mm from the loaded edge, never less than 7 d and 3 d; of 4 mm 5 d = 20 mm.
    #[test]
    fn screws_as_printed() {
        let k = keep(Shaft::Screw, Ground::Lumber, 0.005).unwrap();
        assert!((k.in_row - 0.025).abs() < 1e-12 && (k.between_rows - 0.020).abs() < 1e-12);
        assert!((k.end - 0.035).abs() < 1e-12 && (k.edge - 0.015).abs() < 1e-12);
        let along = loaded(Shaft::Screw, Ground::Lumber, 0.005, [1.0, 0.0]).unwrap();
        assert!((along[0] - 0.060).abs() < 1e-12 && (along[1] - 0.015).abs() < 1e-12);
        let across = loaded(Shaft::Screw, Ground::Lumber, 0.005, [0.0, 1.0]).unwrap();
        assert!((across[1] - 0.035).abs() < 1e-12);
        let thin = loaded(Shaft::Screw, Ground::Lumber, 0.004, [0.0, 1.0]).unwrap();
        assert!((thin[1] - 0.020).abs() < 1e-12);
    }

    /// Softwood bolts of 8 mm for the full value: 7 D = 56 mm from the loaded end, 4 D = 32 mm from the loaded edge and from
    /// one to the next in a row.
    #[test]
    fn bolts_for_the_full_value() {
        let [end, edge] = loaded(Shaft::Bolt, Ground::Lumber, 0.008, [1.0, 1.0]).unwrap();
        assert!((end - 0.056).abs() < 1e-12 && (edge - 0.032).abs() < 1e-12);
        assert!((row(Shaft::Bolt, Ground::Lumber, 0.008).unwrap() - 0.032).abs() < 1e-12);
        assert!((row(Shaft::Screw, Ground::Lumber, 0.005).unwrap() - 0.025).abs() < 1e-12);
    }

    /// A bolt M6 at 31.5 mm of 42 mm (7 D) keeps three quarters.
    #[test]
    fn a_bolt_near_its_end_keeps_a_share() {
        let [end, edge] = loaded(Shaft::Bolt, Ground::Lumber, 0.006, [1.0, 1.0]).unwrap();
        assert!((end - 0.042).abs() < 1e-12 && (edge - 0.024).abs() < 1e-12);
        assert!((left(0.0315, end) - 0.75).abs() < 1e-12 && (left(0.05, end) - 1.0).abs() < 1e-12);
        assert!(keep(Shaft::Bolt, Ground::Lumber, 0.0).is_err());
    }
}
