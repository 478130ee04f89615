//! Slopes that tip the chair against the slopes of the path and the margins of the use profile.

use crate::Checked;
use crate::assumed::Assumed;
use crate::problem::Problem;
use chairwright_design::{Design, Profile};

/// One margin of the profile and what became of it.
#[derive(Clone, PartialEq, Debug)]
pub struct Margin {
    /// The figure.
    pub figure: &'static str,
    /// The slope that tips the chair, in radians; `None` when it could not be computed.
    pub has: Option<f64>,
    /// The slope of the path, in radians.
    pub slope: f64,
    /// What the profile wants beyond it.
    pub margin: f64,
}

impl Margin {
    /// Whether the chair bears enough; `None` when nobody can tell.
    #[must_use]
    pub fn holds(&self) -> Option<bool> {
        self.has.map(|has| has >= self.slope + self.margin)
    }
}

/// Judges every margin that the profile has.
pub(crate) fn margins(design: &Design, out: &mut Checked) {
    let Some(profile) = &design.profile else { return };
    for (figure, margin) in &profile.margins {
        let (slope, said) = slope(design, figure);
        if !said {
            out.assumptions.push(Assumed::Level(*figure == "tip.side"));
        }
        let has = out.figures.si(figure);
        // a part of a plan that has no chair in it yet is not judged
        if has.is_none() && design.name.is_empty() && design.wheels.is_empty() {
            continue;
        }
        out.margins.push(Margin { figure, has, slope, margin: *margin });
    }
    let thin: Vec<Problem> =
        out.margins.iter().filter(|m| m.holds() != Some(true)).map(|m| problem(m, profile)).collect();
    out.problems.extend(thin);
}

/// The slope of the path that a figure is judged on, and whether the text declares it.
fn slope(design: &Design, figure: &str) -> (f64, bool) {
    let key = if figure == "tip.side" { "cross_slope" } else { "slope" };
    let declared = design.conditions.quantities.get(key);
    (declared.map_or(0.0, |s| s.abs()), declared.is_some())
}

fn problem(m: &Margin, profile: &Profile) -> Problem {
    Problem::ThinMargin { margin: m.clone(), profile: profile.name.clone(), origin: profile.origin }
}
