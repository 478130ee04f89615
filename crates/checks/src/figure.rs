//! Computed figures with where they come from.

use chairwright_quantity::{Dimension, Quantity};
use std::collections::{BTreeMap, BTreeSet};

/// One thing that went into a figure.
#[derive(Clone, Debug)]
pub struct Input {
    /// What it is called.
    pub name: String,
    /// Its value.
    pub value: Quantity,
}

/// One computed figure.
#[derive(Clone, Debug)]
pub struct Figure {
    /// Its value.
    pub value: Quantity,
    /// The formula in words and signs.
    pub formula: String,
    /// Where the formula comes from.
    pub source: &'static str,
    /// What went in.
    pub inputs: Vec<Input>,
    /// Whether something that belongs to it could not be judged: it may be worse than this, never better.
    pub partial: bool,
}

/// Figures by their dotted names.
#[derive(Clone, Debug, Default)]
pub struct Figures(pub BTreeMap<String, Figure>);

impl Figures {
    /// Adds a figure from a value in SI units.
    pub fn put(
        &mut self,
        name: impl Into<String>,
        (value, dimension): (f64, Dimension),
        formula: impl Into<String>,
        source: &'static str,
        inputs: &[(&str, f64, Dimension)],
    ) {
        if !value.is_finite() {
            return;
        }
        let inputs = inputs
            .iter()
            .map(|(n, v, d)| Input { name: (*n).to_owned(), value: Quantity::from_si(*v, *d) })
            .collect();
        let value = Quantity::from_si(value, dimension);
        self.0.insert(name.into(), Figure { value, formula: formula.into(), source, inputs, partial: false });
    }

    /// Marks a figure to which something belongs that could not be judged.
    pub fn partly(&mut self, name: &str) {
        if let Some(figure) = self.0.get_mut(name) {
            figure.partial = true;
        }
    }

    /// Names of the figures so marked.
    #[must_use]
    pub fn partial(&self) -> BTreeSet<String> {
        self.0.iter().filter(|(_, f)| f.partial).map(|(name, _)| name.clone()).collect()
    }

    /// A figure's value in SI units.
    #[must_use]
    pub fn si(&self, name: &str) -> Option<f64> {
        self.0.get(name).map(|f| f.value.si())
    }
}
