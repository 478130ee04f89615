//! Glue lines of laps and gussets.

use crate::case::Lasting;
use crate::judge::Court;
use crate::limit::Unknown;
use crate::piece::{Body, Grain};
use crate::reasons::Reason;
use crate::screws::Why;
use crate::seam::{Seam, Wrench};
use crate::spread::known;
use chairwright_design::fold;
use chairwright_resistance::glue::{Climate, Faces, Glue, Glued, Line, lap};
use chairwright_resistance::gusset::{Lap, lap_stress};
use chairwright_resistance::{NotKnown, Refusal};

/// What the catalogue says of a glue line.
pub(crate) const LINE: &str = "wood glue";
/// Taken for the warmth that it cured in, K: 20 degC.
const CURED: f64 = 293.15;
/// A pull or a moment smaller than this opens nothing, N and N m.
const NOTHING: (f64, f64) = (1.0, 0.02);

/// How a glue line is used, plain and cautious; stress in it and what it may bear, Pa.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Glueing {
    pub used: (f64, f64),
    pub stress: f64,
    pub bears: f64,
    /// Whether it may hold for years by itself.
    pub structural: bool,
    /// Whether something pulls its faces apart: then nobody knows what it bears, but what it surely does not.
    pub opened: bool,
}

/// Class of a glue by its name; `None` of what no word tells.
pub(crate) fn class(name: &str) -> Option<Glue> {
    let name = fold(name);
    let word = |w: &str| name.split(' ').any(|p| p == w);
    if word("epoxy") || word("resorcinol") {
        return Some(Glue::Structural);
    }
    let of = [("d4", Glue::D4), ("d3", Glue::D3), ("d2", Glue::D2), ("d1", Glue::D1), ("pva", Glue::D1)];
    of.iter().find(|(w, _)| word(w)).map(|(_, g)| *g)
}

/// Where a joint of a chair lives: whoever says that a chair gets wet has its joints wetted to the bottom of the seam, by
/// rain as by water.
pub(crate) fn exposure(wet: bool) -> Climate {
    if wet { Climate::Weather } else { Climate::Dry }
}

/// Whether anything opens the faces: a pull, or a moment whose resultant lies outside of the middle third.
fn opened(seam: &Seam<'_>, w: &Wrench) -> bool {
    let press = -w.force.dot(seam.way);
    let across = seam.way.cross(seam.along);
    let tilt = [w.moment.dot(seam.along).abs(), w.moment.dot(across).abs()];
    let lever = [seam.face[1] / 6.0, seam.face[0] / 6.0];
    press < -NOTHING.0 || (0..2).any(|k| tilt[k] > NOTHING.1 && tilt[k] > press.max(0.0) * lever[k])
}

/// Greatest pull across the line where a pull and moments open it, Pa: `N/A + M/W` of the whole face, as if all of it held.
/// Where the faces are less stiff than that it is more. Whatever the glue, it surely lets go beyond what the wood bears in shear
/// along the grain: across the grain every wood bears less in pull than that (Wood Handbook, mechanical properties, from memory,
/// not checked).
fn across_line([a, b]: [f64; 2], pull: f64, about: [f64; 2]) -> f64 {
    let tilt = about[0].abs() / (a * b * b / 6.0) + about[1].abs() / (a * a * b / 6.0);
    (pull / (a * b) + tilt).max(0.0)
}

impl Court<'_> {
    /// How far the glue of a seam is used.
    ///
    /// # Errors
    /// A glue or a load that nothing is known of, and what is refused.
    pub(crate) fn glued(
        &self,
        seam: &Seam<'_>,
        lasting: Lasting,
        w: &Wrench,
    ) -> Result<Glueing, Result<Why, Unknown>> {
        let name = seam.glue.unwrap_or("");
        let words = |why: Reason| Err(Ok(Why::Reason(why)));
        let Some(glue) = class(name) else {
            return words(Reason::GlueClass);
        };
        let sides = seam.pair.iter().map(|p| match p.body {
            Body::Wood { grain, .. } => Some(grain),
            _ => None,
        });
        let grains: Vec<Grain> = sides.flatten().collect();
        if grains.len() < 2 {
            return words(Reason::GlueNoWood);
        }
        let faces = if grains.contains(&Grain::Side) && !grains.contains(&Grain::End) {
            Faces::SideGrain
        } else {
            Faces::EndGrainButt
        };
        let stays = matches!(lasting, Lasting::Sustained | Lasting::Repeated);
        let line = match (opened(seam, w), stays) {
            (true, true) => Line::SustainedTension,
            (true, false) => Line::Tension,
            (false, true) => Line::SustainedShear,
            (false, false) => Line::Shear,
        };
        let climate = exposure(self.climate.wet);
        let (shear, most, wood) = self.glue_shear(seam, lasting).map_err(Err)?;
        let [a, b] = seam.face;
        let joint = Glued { glue, faces, line, climate, cured_at: CURED };
        let plates = if seam.plates { 2.0 } else { 1.0 };
        let refused = |r| Ok(Why::Refused(r));
        let opened = match lap(a * b * plates, &known(shear), &joint) {
            Err(Refusal::NotKnown(NotKnown::TensionAcrossGlue)) => true,
            other => other.map(|_| false).map_err(refused)?,
        };
        let across = seam.way.cross(seam.along);
        let force = [w.force.dot(seam.along) / plates, w.force.dot(across) / plates];
        let (face, turn) = (Lap { width: a, height: b }, w.moment.dot(seam.way) / plates);
        let stress = lap_stress(&face, force, turn).map_err(refused)?;
        let structural = glue == Glue::Structural;
        if opened {
            let about = [w.moment.dot(seam.along), w.moment.dot(across)];
            let pull = across_line(seam.face, w.force.dot(seam.way), about) / plates;
            let surely = (stress / most).max(pull / wood);
            return Ok(Glueing { used: (surely, f64::INFINITY), stress, bears: shear, structural, opened });
        }
        Ok(Glueing { used: (stress / most, stress / shear), stress, bears: shear, structural, opened })
    }

    /// Shear that the glue line and the weaker wood bear on the cautious side, what they bear at most, and what the wood
    /// does at most, Pa.
    fn glue_shear(&self, seam: &Seam<'_>, lasting: Lasting) -> Result<(f64, f64, f64), Unknown> {
        let mut out = (f64::INFINITY, f64::INFINITY, f64::INFINITY);
        for piece in &seam.pair {
            let (shear, slack) = self.glue(piece.stock, lasting)?;
            let l = self.limits(piece.stock, lasting).ok_or_else(|| self.why(piece.stock, lasting))?;
            let wood = self.shear_of(piece.stock, l)?;
            let most = wood * l.slack;
            out = (out.0.min(shear).min(wood), out.1.min(shear * slack).min(most), out.2.min(most));
        }
        Ok(out)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A face of 100 by 60 mm pulled by 600 N bears 0.1 MPa; 6 N m about its length add 6/(0.1 · 0.06²/6) = 0.1 MPa, 6 N m about its
    /// width 6/(0.06 · 0.1²/6) = 0.06 MPa.
    #[test]
    fn a_line_that_is_pulled_open() {
        let of = |pull, about| across_line([0.1, 0.06], pull, about);
        assert!((of(600.0, [0.0, 0.0]) / 0.1e6 - 1.0).abs() < 1e-9);
        assert!((of(600.0, [-6.0, 0.0]) / 0.2e6 - 1.0).abs() < 1e-9);
        assert!((of(0.0, [0.0, 6.0]) / 0.06e6 - 1.0).abs() < 1e-9);
        assert!(of(-600.0, [0.0, 0.0]) == 0.0);
    }

    #[test]
    fn classes_by_name() {
        assert_eq!(class("wood glue D4"), Some(Glue::D4));
        assert_eq!(class("PVA wood glue"), Some(Glue::D1));
        assert_eq!(class("PVA D3"), Some(Glue::D3));
        assert_eq!(class("Epoxy, slow"), None, "a comma is part of the word: nothing is guessed");
        assert_eq!(class("epoxy slow"), Some(Glue::Structural));
        assert_eq!(class("hide glue"), None);
    }
}
