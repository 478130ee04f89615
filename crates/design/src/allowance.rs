//! What materials, joints and tyres may be asked to bear.

/// What a material, a joint or a tyre may be asked to bear: shares of its published strength.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Allowance {
    /// Its name.
    pub name: String,
    /// `plastic`, `wood`, `plywood`, `metal`, `cloth`; empty where it is no material.
    pub family: String,
    /// Share of the strength that is borne for years.
    pub lasting: Option<f64>,
    /// Share for seconds to minutes.
    pub short: Option<f64>,
    /// Share under a blow.
    pub blow: Option<f64>,
    /// Share that is borne 200 000 times.
    pub repeated: Option<f64>,
    /// Share when wet.
    pub wet: Option<f64>,
    /// Shear strength over strength, where none is published.
    pub shear: Option<f64>,
    /// Temperature in K and share of the strength that is left there, hotter and hotter.
    pub heat: Vec<(f64, f64)>,
    /// Below this temperature (K) it breaks under a blow.
    pub brittle_below: Option<f64>,
    /// Share of the stiffness that is left after years under load.
    pub creep: Option<f64>,
    /// Standard deviation over mean of the published strength.
    pub scatter: Option<f64>,
    /// By how much a hole or the lip of a socket raises the stress that starts a crack.
    pub notch: Option<f64>,
    /// Strength in pull along the grain over that in bending, of wood.
    pub pull: Option<f64>,
    /// Strength in push along the grain over that in bending, of wood.
    pub push: Option<f64>,
    /// What knots and sloping grain leave of the strength of clear wood in the lowest grade that is reckoned with.
    pub low_grade: Option<f64>,
    /// The same in the best grade.
    pub high_grade: Option<f64>,
    /// Design values of graded wood.
    pub grade: Option<Grade>,
    /// Factor of safety.
    pub safety: Option<f64>,
    /// Stiffness in N/m, of a tyre.
    pub stiffness: Option<f64>,
    /// Strength in Pa, of a glue line.
    pub strength: Option<f64>,
    /// Where the figures come from.
    pub source: String,
}

/// How the values of a grade are meant.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Values {
    /// For ten years under load in the dry, their safety inside (NDS).
    Design,
    /// What nineteen of twenty bear in minutes, nothing inside (EN 338).
    Characteristic,
}

/// Published values of one grade of wood, Pa.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Grade {
    /// How they are meant.
    pub values: Values,
    /// In bending.
    pub bending: f64,
    /// In pull along the grain.
    pub pull: f64,
    /// In push along the grain.
    pub push: f64,
    /// In shear along the grain.
    pub shear: f64,
    /// Mean modulus of elasticity.
    pub modulus: f64,
}

impl Allowance {
    /// Whether it is of wood or plywood, which have a grain and take up water.
    #[must_use]
    pub fn is_wood(&self) -> bool {
        matches!(self.family.as_str(), "wood" | "plywood")
    }

    /// Whether it is a grade of wood by characteristic values.
    #[must_use]
    pub fn characteristic(&self) -> bool {
        self.grade.is_some_and(|g| g.values == Values::Characteristic)
    }
}
