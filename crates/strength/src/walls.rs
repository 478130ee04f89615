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
/// Across the flats of a head, and outside of a washer, over the diameter: M8 13 and 16 mm (ISO 4014 and 7089,
/// from memory, not checked); the hole takes 1.1 diameters of either.
const HEAD: (f64, f64, f64) = (1.6, 2.0, 1.1);
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

/// Area under a head or a washer, m².
fn under(f: &Fastener, washers: bool) -> f64 {
    let out = if washers { HEAD.1 } else { HEAD.0 };
    PI / 4.0 * f.diameter * f.diameter * (out * out - HEAD.2 * HEAD.2)
}

/// A bolt in something that is no wood.
#[derive(Clone, Copy, Debug)]
pub(crate) struct OnWall<'f> {
    pub bolt: &'f Fastener,
    /// Outside diameter of its sleeve, m.
    pub sleeve: Option<f64>,
    pub washers: bool,
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
                Ok((f64::INFINITY, strength * wet * warm * under(of.bolt, of.washers)))
            }
            Body::Tube { outer, wall, .. } => {
                let bolted = Bolted { bolt: d, sleeve: of.sleeve, outer, wall };
                let long = d * if of.washers { HEAD.1 } else { HEAD.0 };
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
                Ok((least * l.slack, least))
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
        Fastener { name: String::new(), kind: "bolt".to_owned(), diameter, length, mass: 0.0, root: None }
    }

    const PIPE: Body = Body::Tube { outer: 42.16e-3, wall: 3.556e-3, end: 0.020 };

    /// M8 in 1 1/4 in Schedule 40: 2 · 8 · 3.556 mm² · 10 MPa = 569 N for a moment; for years refused bare, and
    /// 12/8 of it with a sleeve of 12 mm.
    #[test]
    fn a_bolt_in_bare_pipe() {
        let b = bolt(0.008, 0.06);
        let of = OnWall { bolt: &b, sleeve: None, washers: false, stays: Stays::Brief };
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
        let of = OnWall { bolt: &b, sleeve: None, washers: false, stays: Stays::Brief };
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

    /// Under the head of an M8: π/4 · 64 · (1.6² − 1.1²) = 67.9 mm²; under its washer 140.2 mm².
    #[test]
    fn heads_and_washers() {
        let b = bolt(0.008, 0.06);
        assert!((under(&b, false) * 1e6 - 67.86).abs() < 0.01);
        assert!((under(&b, true) * 1e6 - 140.24).abs() < 0.02);
    }
}
