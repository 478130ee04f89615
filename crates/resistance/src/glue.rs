//! Glued laps in wood.

use crate::capacity::{Assumed, Capacity, Figure, Mode, Need, NotKnown, Refusal, positive, within};
use crate::never::Never;
use crate::source::Source;

/// What a glue is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Glue {
    /// PVA and other thermoplastic glues of EN 204 class D1.
    D1,
    /// EN 204 class D2.
    D2,
    /// EN 204 class D3.
    D3,
    /// EN 204 class D4.
    D4,
    /// Resorcinol, or epoxy: hard, not thermoplastic.
    Structural,
}

/// Where the joint lives.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Climate {
    /// Indoors and dry.
    Dry,
    /// Indoors, wetted for moments.
    BrieflyWet,
    /// Indoors wetted often, or outdoors under cover.
    Sheltered,
    /// Outdoors in the rain, or in water.
    Weather,
}

/// Scope of EN 204.
pub const SCOPE: Source =
    Source::published("EN 204 scope: thermoplastic wood glues for non-structural use; heat is not covered");
const CLASSES: Source = Source::memory(
    "EN 204: D1 dry indoors, D2 brief water, D3 frequent water or sheltered outdoors, D4 outdoors with a good coating",
);

/// Whether a glue suits a climate, and whether the class covers carrying load at all.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Suits {
    /// Its class reaches the climate.
    pub climate: bool,
    /// Its class is for structures. False for all of EN 204.
    pub structural: bool,
    /// The source of the class.
    pub source: Source,
}

/// Class against climate.
#[must_use]
pub fn suits(glue: Glue, climate: Climate) -> Suits {
    let reach = match climate {
        Climate::Dry => Glue::D1,
        Climate::BrieflyWet => Glue::D2,
        Climate::Sheltered => Glue::D3,
        Climate::Weather => Glue::D4,
    };
    Suits { climate: glue >= reach, structural: glue == Glue::Structural, source: CLASSES }
}

/// How the faces of a joint lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Faces {
    /// Side grain on side grain.
    SideGrain,
    /// End grain butted.
    EndGrainButt,
}

/// How a joint is loaded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line {
    /// In the plane of the glue, for a moment.
    Shear,
    /// In the plane of the glue, for hours or longer.
    SustainedShear,
    /// Across the glue or peeling, for a moment.
    Tension,
    /// Across the glue or peeling, for hours or longer.
    SustainedTension,
}

/// How a joint is made and where it lives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Glued {
    /// Its glue.
    pub glue: Glue,
    /// Its faces.
    pub faces: Faces,
    /// Its load.
    pub line: Line,
    /// Its climate.
    pub climate: Climate,
    /// The coldest while it cured, K.
    pub cured_at: f64,
}

const LAP: Source =
    Source::memory("Wood Handbook, adhesives: joint no stronger than the wood's own shear along the grain");
/// Coldest to cure in, K: 10 degC; common practice for PVA.
const COLDEST: f64 = 283.15;
/// Warmest that is answered, K.
const WARMEST: f64 = 333.15;

/// Shear that a glued lap carries, N: area (m²) × allowable shear of the weaker wood along the grain
/// (Pa), at most.
///
/// # Errors
/// End-grain butts; a class that does not reach the climate; PVA under a tension that stays; any other
/// tension, for which nothing is held; less than 10 °C while curing.
pub fn lap(area: f64, wood_shear: &Capacity, joint: &Glued) -> Result<Capacity, Refusal> {
    refusals(joint)?;
    positive(Figure::Area, area)?;
    within(Figure::Temperature, joint.cured_at, COLDEST, WARMEST)?;
    let out = Capacity::new(area * wood_shear.value, Mode::GlueLine, LAP)
        .resting_on(wood_shear)
        .assuming(Assumed::EvenLap)
        .needing(Need::WarmWhileCuring(COLDEST));
    if joint.glue == Glue::Structural {
        return Ok(out);
    }
    // The classes do not cover heat, in which these glues soften ([`SCOPE`]).
    let out = out.assuming(Assumed::NonStructuralGlue).assuming(Assumed::RoomTemperature);
    Ok(if joint.line == Line::SustainedShear { out.needing(Need::ScrewsBesideGlue) } else { out })
}

fn refusals(joint: &Glued) -> Result<(), Refusal> {
    if joint.faces == Faces::EndGrainButt {
        return Err(Never::EndGrainButtGlue.into());
    }
    if !suits(joint.glue, joint.climate).climate {
        return Err(Never::GlueBelowClimate.into());
    }
    match (joint.line, joint.glue) {
        (Line::SustainedTension, Glue::D1 | Glue::D2 | Glue::D3 | Glue::D4) => {
            Err(Never::PvaSustainedTension.into())
        }
        (Line::SustainedTension | Line::Tension, _) => Err(Refusal::NotKnown(NotKnown::TensionAcrossGlue)),
        _ => Ok(()),
    }
}
