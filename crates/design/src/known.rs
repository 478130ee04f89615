//! Where the values of a design come from.

use crate::{Band, Id, JointId, Member, Origin, Vec3};
use std::collections::BTreeMap;

/// How a value was found.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Basis {
    /// By measuring.
    Measured,
    /// From the maker's sheet.
    DataSheet,
    /// From a published standard.
    Standard,
    /// By a rule of the trade.
    Rule,
    /// By guessing.
    Estimate,
}

impl Basis {
    /// The basis that a word of the language names.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Basis> {
        Some(match word {
            "measured" => Basis::Measured,
            "data_sheet" => Basis::DataSheet,
            "standard" => Basis::Standard,
            "rule" => Basis::Rule,
            "estimate" => Basis::Estimate,
            _ => return None,
        })
    }

    /// In words.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Basis::Measured => "measured",
            Basis::DataSheet => "data sheet",
            Basis::Standard => "standard",
            Basis::Rule => "rule",
            Basis::Estimate => "estimate",
        }
    }
}

/// A value that the text gives, with what it says about it.
#[derive(Clone, PartialEq, Debug)]
pub struct Known {
    /// Its name: `rider.thigh`, `conditions.slope`, `camber`; or, of a part or a statement, what it is of.
    pub name: String,
    /// Whether it can be given another value by its name; otherwise only by its place in the text.
    pub by_name: bool,
    /// The value as written.
    pub written: String,
    /// The value, and how far it may be off, both in the unit that `unit` names.
    pub nominal: f64,
    /// Half the width of its tolerance, where it has one.
    pub spread: Option<f64>,
    /// Whether its two ends are meant, as those of a joint's motion are, and it is not one value known to so much.
    pub ranges: bool,
    /// Whether value and tolerance stand in one place, at which an end can be taken for the middle.
    pub toleranced: bool,
    /// The unit of both: `mm`, `deg`, `kg` and so on, as the language writes it.
    pub unit: String,
    /// How it was found.
    pub basis: Option<Basis>,
    /// By whom, as a role.
    pub by: Option<String>,
    /// When.
    pub dated: Option<String>,
    /// Place in the text.
    pub origin: Origin,
}

/// A hole through a member, or a slot.
#[derive(Clone, PartialEq, Debug)]
pub struct Hole {
    /// Its name; of several in a row, `.1`, `.2` behind it.
    pub name: String,
    /// Through what.
    pub member: Id<Member>,
    /// From the member's first joint to its middle, in metres.
    pub along: f64,
    /// Across, in metres.
    pub diameter: f64,
    /// Length of a slot along the member; equal to the diameter for a hole.
    pub long: f64,
    /// The way the drill goes.
    pub toward: Vec3,
    /// Place in the text.
    pub origin: Origin,
}

/// How long an extra load lasts.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum LoadLasts {
    /// Seconds to minutes.
    Short,
    /// Hours a day for years.
    Sustained,
    /// Over and over.
    Repeated,
    /// At once: a blow.
    Blow,
}

impl LoadLasts {
    /// All of them, in the language's order.
    pub const ALL: [LoadLasts; 4] =
        [LoadLasts::Short, LoadLasts::Sustained, LoadLasts::Repeated, LoadLasts::Blow];

    /// The word of the language.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            LoadLasts::Short => "short",
            LoadLasts::Sustained => "sustained",
            LoadLasts::Repeated => "repeated",
            LoadLasts::Blow => "blow",
        }
    }
}

/// An extra load case.
#[derive(Clone, PartialEq, Debug)]
pub struct Load {
    /// Its name.
    pub name: String,
    /// Where it pulls.
    pub joint: JointId,
    /// The force in N.
    pub force: Vec3,
    /// How long it lasts.
    pub lasts: LoadLasts,
    /// How it was found.
    pub basis: Option<Basis>,
    /// Place in the text.
    pub origin: Origin,
}

/// What was measured and tried on the built chair.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct AsBuilt {
    /// Least and greatest by field, in SI units.
    pub values: BTreeMap<String, Band>,
    /// Tests that end in a word: whether they were passed.
    pub passed: BTreeMap<String, bool>,
    /// Place in the text by field.
    pub places: BTreeMap<String, Origin>,
    /// The variant that was built; `None` for the base design.
    pub variant: Option<String>,
    /// The revision that was built.
    pub revision: Option<String>,
    /// The rider's file that the chair was tested for; `None` for the rider of the plan.
    pub rider: Option<String>,
    /// The file of the place that the chair was tested for; `None` for the place of the plan.
    pub place: Option<String>,
    /// Whether that is another place than the one under look: what was measured is true there too, and what was passed is not known
    /// to pass.
    pub other_place: bool,
    /// By whom, as a role.
    pub by: Option<String>,
    /// When.
    pub dated: Option<String>,
    /// Place in the text.
    pub origin: Origin,
    /// Why the readings are not of the chair under look, and say nothing of it.
    pub other: Option<OtherBuilt>,
    /// By how much the tested chair differs from its plan, where the built chair is looked at in another state or at another
    /// stop than it was tested in.
    pub carry: Option<Carry>,
}

/// What the chair under look and the one that was measured differ in.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum OtherBuilt {
    /// Another variant was built.
    Variant,
    /// Another revision was built.
    Revision,
    /// It was tested for another rider.
    Rider,
    /// A parameter is set otherwise than the plan has it.
    Settings,
}

/// By how much a built chair differs from its plan.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Carry {
    /// What its tests leave open of where the centre of mass of chair and rider lies off the plan's, m.
    pub shifts: Vec<Vec3>,
    /// Least and greatest reading less the plan, by field, in SI units.
    pub by: BTreeMap<String, Band>,
}

/// What a tape says of a chair that the rider likes.
#[derive(Clone, PartialEq, Debug)]
pub struct Baseline {
    /// What it is called; empty where it has no name.
    pub chair: String,
    /// Least and greatest by field, in SI units.
    pub values: BTreeMap<String, Band>,
    /// By whom, as a role.
    pub by: Option<String>,
    /// When.
    pub dated: Option<String>,
    /// Place in the text.
    pub origin: Origin,
}

/// The use profile that the design names: margins that somebody reviewed.
#[derive(Clone, PartialEq, Debug)]
pub struct Profile {
    /// Its name.
    pub name: String,
    /// By how much more than the slope of the path the chair must bear, in radians, by the figure that
    /// must bear it.
    pub margins: Vec<(&'static str, f64)>,
    /// Everyday shocks as a multiple of the weight, where it wants more than every chair is judged for.
    pub shock: Option<f64>,
    /// Height of the kerb that the rider drops from, m, likewise.
    pub kerb: Option<f64>,
    /// Force that a helper pushes with, N, likewise.
    pub helper_push: Option<f64>,
    /// Whether it wants an anti-tip device.
    pub anti_tip: bool,
    /// For whom it is.
    pub for_whom: String,
    /// Who reviewed it, as a role.
    pub reviewed_by: String,
    /// When.
    pub dated: String,
    /// Where its figures come from.
    pub source: String,
    /// Place in the text.
    pub origin: Origin,
}
