//! The rider's body and the place of use.

use std::collections::BTreeMap;

/// Measures of the rider in SI units, by name; sides as `thigh.left`.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Rider {
    /// Whether the text has a rider at all.
    pub given: bool,
    /// The measures; of a range of angles the middle, its ends as `hip_flexion.least` and `.most`.
    pub measures: BTreeMap<String, f64>,
    /// Measures that the state gives which also says how much later it is: they are of that day, and do not grow.
    pub stated: std::collections::BTreeSet<String>,
    /// What is said in words, such as `missing_leg.left = above_knee`.
    pub words: BTreeMap<String, String>,
    /// What is added to measures that stature stands for, in metres, where it is tried what that does.
    pub tried: BTreeMap<String, f64>,
    /// Place in the text.
    pub origin: Option<crate::Origin>,
}

impl Rider {
    /// A measure, if it was given.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<f64> {
        self.measures.get(name).copied()
    }

    /// A measure of one side: the side's own, or the one given for both.
    #[must_use]
    pub fn sided(&self, name: &str, side: crate::Side) -> Option<f64> {
        self.get(&format!("{name}.{}", side.word())).or_else(|| self.get(name))
    }

    /// What stature says of a measure, at the value that is tried.
    #[must_use]
    pub fn at_trial(&self, measure: &str, value: f64) -> f64 {
        value + self.tried.get(measure).copied().unwrap_or(0.0)
    }

    /// A word about the rider.
    #[must_use]
    pub fn word(&self, name: &str) -> Option<&str> {
        self.words.get(name).map(String::as_str)
    }

    /// A word about one side: the side's own, or the one given for both.
    #[must_use]
    pub fn sided_word(&self, name: &str, side: crate::Side) -> Option<&str> {
        self.word(&format!("{name}.{}", side.word())).or_else(|| self.word(name))
    }
}

/// One body segment of the table in use.
#[derive(Clone, PartialEq, Debug)]
pub struct Segment {
    /// Its name.
    pub name: String,
    /// Fraction of body mass.
    pub share: f64,
    /// Centre of mass from the end nearer the trunk, as a fraction of the segment's length.
    pub centre: f64,
    /// Length as a fraction of stature.
    pub of_stature: f64,
    /// Where the figures come from.
    pub source: String,
}

/// The table of segments.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Body {
    /// The segments.
    pub segments: Vec<Segment>,
}

impl Body {
    /// A segment by name.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&Segment> {
        self.segments.iter().find(|s| s.name == name)
    }
}

/// A kind of ground.
#[derive(Clone, PartialEq, Debug)]
pub struct Surface {
    /// Its name.
    pub name: String,
    /// Least and greatest rolling resistance as a share of the weight.
    pub rolling: (f64, f64),
    /// Friction of a tyre that is held fast, as a share of the load on it.
    pub friction: f64,
    /// Where the figures come from.
    pub source: String,
}

/// A published set of fit rules; `None` where it has no such rule. Lengths in metres, angles in radians.
#[derive(Clone, PartialEq, Debug)]
pub struct FitRules {
    /// Its name.
    pub name: String,
    /// Least and greatest by field.
    pub rules: BTreeMap<String, (f64, f64)>,
    /// When it was entered.
    pub dated: String,
    /// Where it was published.
    pub source: String,
    /// Place in the text that chooses it.
    pub origin: crate::Origin,
}

/// A fit rule that the design departs from on purpose.
#[derive(Clone, PartialEq, Debug)]
pub struct Deviation {
    /// The figure that departs, such as `seat.width`.
    pub figure: String,
    /// Why.
    pub reason: String,
    /// Who decided it, as a role.
    pub by: String,
    /// When.
    pub dated: Option<String>,
    /// Place in the text.
    pub origin: crate::Origin,
}

/// Something that rides along and is no part of the chair: a bag, a child on the lap.
#[derive(Clone, PartialEq, Debug)]
pub struct Carried {
    /// Its name.
    pub name: String,
    /// In kg.
    pub mass: f64,
    /// Its centre of mass in the drawing.
    pub at: crate::Vec3,
    /// Place in the text.
    pub origin: crate::Origin,
}

/// The place of use: quantities in SI units and words, by name.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Conditions {
    /// Quantities such as `temperature` (K), `slope` (rad), `door` (m); of a spread also its ends, as
    /// `temperature.least` and `temperature.most`.
    pub quantities: BTreeMap<String, f64>,
    /// Words such as `water = salt`.
    pub words: BTreeMap<String, String>,
}
