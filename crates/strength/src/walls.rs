//! Bolts: the shank itself, and what they press on that is no wood: walls of pipe and tube, sheet, rods;
//! and heads and nuts that are pulled against whatever lies under them.

use crate::judge::Court;
use crate::limit::{Limits, Unknown, heat, wet};
use crate::piece::{Body, Piece};
use crate::reasons::Reason;
use crate::screws::Why;
use crate::spread::known;
use chairwright_design::{Fastener, StockId};
use chairwright_resistance::bolt_in_pipe::{Bolted, Clamp, Stays, bearing, clamp, tear_out};
use chairwright_resistance::metal::{BoltClass, Thread, bolt_shear, bolt_tension};
use chairwright_resistance::{Capacity, Refusal};
use std::f64::consts::PI;

/// Pitch over diameter that no usual thread from 5 mm exceeds: 1/4 in with 20 threads has a fifth, M8
/// 0.156 (ISO 261, ASME B1.1, from memory, not checked).
pub(crate) const PITCH: f64 = 0.2;
/// Nobody says what class a bolt is of: the weakest that is sold, 4.6, by half. Common practice, no source.
pub(crate) const SAFETY: f64 = 2.0;
/// Across the flats of a head or nut over the diameter, and the hole under it: M8 13 mm and 1.1 diameters (ISO
/// 4014, from memory, not checked). What a washer adds is counted only where its page says how wide it is.
const HEAD: (f64, f64) = (1.6, 1.1);
/// As wide as a washer is counted at most, in diameters: its edge is then over wood as long as bolts keep to
/// the least places, 1.5 diameters from an edge and 3 from each other. Eurocode 5, 8.5.2(3) counts a plate of
/// steel up to four, from memory, not checked.
const WIDEST: f64 = 3.0;
/// On a round wall a washer is counted as far as a plain one reaches; a wide one bends over the round.
const ON_ROUND: f64 = 2.0;
/// What wood bears under a head or a washer.
pub(crate) const UNDER_HEAD: &str = "wood under a bolt head";

/// What a bolt's own steel bears, N: across in one plane, and along.
///
/// # Errors
/// Sizes that no class is known for.
pub(crate) fn shank(f: &Fastener) -> Result<(Capacity, Capacity), Refusal> {
    let thread = Thread { diameter: f.diameter, pitch: PITCH * f.diameter };
    Ok((bolt_shear(&thread, BoltClass::Iso46, 1, SAFETY)?, bolt_tension(&thread, BoltClass::Iso46, SAFETY)?))
}

/// Outside diameter of what presses under head and nut, m, by the washer that lies under both of them.
fn wide(f: &Fastener, washer: Option<f64>, most: f64) -> f64 {
    let head = HEAD.0 * f.diameter;
    washer.unwrap_or(head).min(most * f.diameter).max(head)
}

/// Area under a head or a washer, m².
fn under(f: &Fastener, washer: Option<f64>) -> f64 {
    let (out, hole) = (wide(f, washer, WIDEST), HEAD.1 * f.diameter);
    PI / 4.0 * (out * out - hole * hole)
}

/// What the veneers across give a wall: half. As the grain of boxes is taken.
const ACROSS: f64 = 2.0;

/// Stress, Pa, that 1 N on a bolt through the middle of a wall so wide and thick, m, makes in it, pressed over a disk so wide: a long plate held
/// at both edges, `3P/(2πt²)·((1 + ν) ln(2b/(πr)) + 0.067)` under the bolt, `1.008 P/t²` at the edges, with ν = 0.3 and a small disk
/// counted as `√(1.6 r² + t²) − 0.675 t`; Timoshenko and Woinowsky-Krieger, Theory of plates and shells, and Roark, from memory, not
/// checked.
fn bends(pressed: f64, [wide, thick]: [f64; 2]) -> f64 {
    let r = pressed / 2.0;
    let r = if r < thick / 2.0 { (1.6 * r * r + thick * thick).sqrt() - 0.675 * thick } else { r };
    let ratio = libm::log((2.0 * wide / (PI * r)).max(1.0));
    (1.5 / PI * (1.3 * ratio + 0.067)).max(1.008) / (thick * thick)
}

/// A bolt in something that is no wood.
#[derive(Clone, Copy, Debug)]
pub(crate) struct OnWall<'f> {
    pub bolt: &'f Fastener,
    /// Outside diameter of its sleeve, m.
    pub sleeve: Option<f64>,
    /// Outside diameter of the washers under head and nut, m, if both have one.
    pub washer: Option<f64>,
    pub stays: Stays,
}

/// Force across that one bolt may press with, N, by the allowable stress of the wall, Pa.
///
/// # Errors
/// What the formulas refuse, and bodies that no rule knows.
pub(crate) fn across(of: &OnWall<'_>, body: Body, stress: f64) -> Result<f64, Why> {
    let d = of.bolt.diameter;
    match body {
        Body::Tube { outer, wall, .. } => {
            let bolted = Bolted { bolt: d, sleeve: of.sleeve, outer, wall };
            Ok(bearing(&bolted, &known(stress), of.stays)?.value)
        }
        Body::Sheet { thick } => Ok(d * thick * stress),
        Body::Rod { diameter } => Ok(d * diameter * stress),
        Body::Wood { .. } | Body::Other => Err(Why::Reason(Reason::Lengthwise)),
    }
}

/// Force along a pipe that tears its walls out to the end, N, by the allowable shear of the wall, Pa.
///
/// # Errors
/// A bolt at the very end.
pub(crate) fn torn(of: &OnWall<'_>, body: Body, shear: f64) -> Result<Option<f64>, Refusal> {
    let Body::Tube { outer, wall, end } = body else { return Ok(None) };
    let bolted = Bolted { bolt: of.bolt.diameter, sleeve: of.sleeve, outer, wall };
    Ok(Some(tear_out(&bolted, end, &known(shear))?.value))
}

impl Court<'_> {
    /// Pull along one bolt that bends the wall of a box as far as is sound, N; endless of what is no wall. Where the bolt stands in the wall,
    /// and what is behind it, nobody says: it is taken in its middle.
    pub(crate) fn wall_bent(&self, of: &OnWall<'_>, piece: &Piece, l: Option<&Limits>) -> f64 {
        let Some((wall, l)) = piece.wall.zip(l) else { return f64::INFINITY };
        let grain = if self.fibrous[piece.stock.index()] { ACROSS } else { 1.0 };
        l.fibre / grain / bends(wide(of.bolt, of.washer, WIDEST), wall)
    }

    /// What a material bears in shear, Pa.
    ///
    /// # Errors
    /// Where nothing says it.
    pub(crate) fn shear_of(&self, stock: StockId, l: &Limits) -> Result<f64, Unknown> {
        l.shear.ok_or_else(|| Unknown::Shear(self.design.stocks[stock].material.name.clone()))
    }

    /// Pull along one bolt that what lies under its head or nut bears, N: surely, and with care. Infinite
    /// where a sleeve takes it.
    ///
    /// # Errors
    /// What the formulas refuse, and what nothing is said of.
    pub(crate) fn under_head(
        &self,
        of: &OnWall<'_>,
        piece: &Piece,
        l: Option<&Limits>,
    ) -> Result<(f64, f64), Unhead> {
        let d = of.bolt.diameter;
        let l = || l.ok_or(Unhead::Limits);
        match piece.body {
            Body::Wood { .. } => {
                let a = self.under_head.ok_or_else(|| Unknown::Allowance(UNDER_HEAD.to_owned()))?;
                let strength = a.strength.ok_or_else(|| Unknown::Strength(UNDER_HEAD.to_owned()))?;
                let wet = wet(a, &self.climate).ok_or_else(|| Unknown::Wet(UNDER_HEAD.to_owned()))?;
                let warm = heat(a, self.climate.hot).ok_or_else(|| Unknown::TooHot(UNDER_HEAD.to_owned()))?;
                // a head that sinks in loosens the joint and does not break it
                Ok((f64::INFINITY, strength * wet * warm * under(of.bolt, of.washer)))
            }
            Body::Tube { outer, wall, .. } => {
                let bolted = Bolted { bolt: d, sleeve: of.sleeve, outer, wall };
                let long = wide(of.bolt, of.washer, ON_ROUND);
                match clamp(&bolted, long, &known(l()?.fibre))? {
                    Clamp::TakenBySleeve => Ok((f64::INFINITY, f64::INFINITY)),
                    // the pipe beside the head helps: what is squashed so far is not yet broken
                    Clamp::AtMost(most) => Ok((f64::INFINITY, most.value)),
                }
            }
            // a disk of the sheet is punched out under the head
            Body::Sheet { thick } => {
                let l = l()?;
                let least = PI * d * HEAD.0 * thick * self.shear_of(piece.stock, l)?;
                Ok((least * l.shear_slack, least))
            }
            Body::Rod { .. } => Ok((f64::INFINITY, f64::INFINITY)),
            Body::Other => Err(Unhead::Why(Why::Reason(Reason::Lengthwise))),
        }
    }
}

/// Why nothing is known of what lies under a head.
#[derive(Clone, PartialEq, Debug)]
pub(crate) enum Unhead {
    /// The material has no limits for this kind of load.
    Limits,
    Unknown(Unknown),
    Why(Why),
}

impl From<Unknown> for Unhead {
    fn from(u: Unknown) -> Unhead {
        Unhead::Unknown(u)
    }
}

impl From<Refusal> for Unhead {
    fn from(r: Refusal) -> Unhead {
        Unhead::Why(Why::Refused(r))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use chairwright_resistance::Never;

    fn bolt(diameter: f64, length: f64) -> Fastener {
        Fastener {
            name: String::new(),
            kind: "bolt".to_owned(),
            diameter,
            length,
            outer: None,
            mass: 0.0,
            root: None,
            head: None,
        }
    }

    const PIPE: Body = Body::Tube { outer: 42.16e-3, wall: 3.556e-3, end: 0.020 };

    /// M8 in 1 1/4 in Schedule 40: 2 · 8 · 3.556 mm² · 10 MPa = 569 N for a moment; for years refused bare, and
    /// 12/8 of it with a sleeve of 12 mm.
    #[test]
    fn a_bolt_in_bare_pipe() {
        let b = bolt(0.008, 0.06);
        let of = OnWall { bolt: &b, sleeve: None, washer: None, stays: Stays::Brief };
        assert!((across(&of, PIPE, 10e6).unwrap() - 568.96).abs() < 0.01);
        let stays = OnWall { stays: Stays::Sustained, ..of };
        let never = Why::Refused(Never::UnsleevedBoltSustained.into());
        assert_eq!(across(&stays, PIPE, 10e6), Err(never));
        let sleeved = OnWall { sleeve: Some(0.012), ..stays };
        assert!((across(&sleeved, PIPE, 10e6).unwrap() - 853.44).abs() < 0.01);
    }

    /// 20 mm from the end: 4 · 3.556 · (20 − 4) mm² · 5 MPa = 1 138 N; 3 mm from the end is in the hole.
    #[test]
    fn walls_torn_out_to_the_end() {
        let b = bolt(0.008, 0.06);
        let of = OnWall { bolt: &b, sleeve: None, washer: None, stays: Stays::Brief };
        assert!((torn(&of, PIPE, 5e6).unwrap().unwrap() - 1137.92).abs() < 0.01);
        assert!(torn(&of, Body::Tube { outer: 42.16e-3, wall: 3.556e-3, end: 0.003 }, 5e6).is_err());
    }

    /// M6 of class 4.6 with the coarsest thread that is sold: π/4 · (6 − 0.9382 · 1.2)² = 18.66 mm²; across
    /// 0.6 · 400 MPa · 18.66/2 = 2 239 N, along 225 · 18.66/2 = 2 099 N.
    #[test]
    fn the_weakest_bolt() {
        let (across, along) = shank(&bolt(0.006, 0.06)).unwrap();
        assert!((across.value - 2239.0).abs() < 2.0, "{}", across.value);
        assert!((along.value - 2099.0).abs() < 2.0, "{}", along.value);
    }

    /// A wall of 6 mm that spans 288 mm under a washer of 24 mm: ln(2·288/(π·12)) = 2.7266, 3/(2π)·(1.3·2.7266 + 0.067) = 1.7244 over 36 mm²:
    /// 0.0479 MPa a newton. One of 18 mm that spans 44: ln(88/37.7) = 0.8476 gives 0.558, less than its edges: 1.008/324.
    #[test]
    fn a_wall_that_a_bolt_pulls() {
        assert!(
            (bends(0.024, [0.288, 0.006]) / 47_900.0 - 1.0).abs() < 1e-3,
            "{}",
            bends(0.024, [0.288, 0.006])
        );
        assert!((bends(0.024, [0.044, 0.018]) * 324e-6 / 1.008 - 1.0).abs() < 1e-9);
        // a head smaller than half the wall is thick counts as √(1.6·16 + 324) − 12.15 = 6.547 mm
        let small = bends(0.008, [0.288, 0.018]) * 324e-6;
        assert!((small - 1.5 / PI * (1.3 * libm::log(576.0 / (PI * 6.547)) + 0.067)).abs() < 1e-3, "{small}");
    }

    /// Under the head of an M8: π/4 · 64 · (1.6² − 1.1²) = 67.9 mm²; under its washer of 16 mm 140.2 mm²; under
    /// a large one of 24 mm π/4 · (24² − 8.8²) = 391.6 mm², and no more under a wider one.
    #[test]
    fn heads_and_washers() {
        let b = bolt(0.008, 0.06);
        assert!((under(&b, None) * 1e6 - 67.86).abs() < 0.01);
        assert!((under(&b, Some(0.016)) * 1e6 - 140.24).abs() < 0.02);
        assert!((under(&b, Some(0.024)) * 1e6 - 391.57).abs() < 0.01);
        assert!((under(&b, Some(0.040)) * 1e6 - 391.57).abs() < 0.01);
    }

    /// A washer lengthens what a pipe is pinched under up to two diameters, 16 mm under an M8.
    #[test]
    fn washers_on_a_pipe() {
        let b = bolt(0.008, 0.06);
        let most = |washer| wide(&b, washer, ON_ROUND);
        assert!((most(None) - 0.0128).abs() < 1e-12);
        assert!((most(Some(0.016)) - 0.016).abs() < 1e-12 && (most(Some(0.024)) - 0.016).abs() < 1e-12);
    }
}
