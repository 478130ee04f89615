//! The rider's body and the place of use.

use std::collections::BTreeMap;

/// Measures of the rider in SI units, by name; sides as `thigh.left`.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Rider {
    /// Whether the text has a rider at all.
    pub given: bool,
    /// The measures.
    pub measures: BTreeMap<String, f64>,
    /// Place in the text.
    pub origin: Option<crate::Origin>,
}

impl Rider {
    /// A measure, if it was given.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<f64> {
        self.measures.get(name).copied()
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

/// The place of use: quantities in SI units and words, by name.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Conditions {
    /// Quantities such as `temperature` (K), `slope` (rad), `door` (m).
    pub quantities: BTreeMap<String, f64>,
    /// Words such as `water = salt`.
    pub words: BTreeMap<String, String>,
}
