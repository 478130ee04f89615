//! How stiff the bars are: their materials as the solver sees them.

use crate::form::Form;
use crate::limit::{Climate, allowance, heat};
use crate::structure::Structure;
use chairwright_design::{Design, Material, StockId};
use chairwright_statics::section::Shape;

/// Stiffness of one bar's material, Pa.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Matter {
    /// Young's modulus at once, and after years under load in the heat.
    pub e: [f64; 2],
    /// Shear modulus over Young's modulus.
    pub g: f64,
    pub poisson: f64,
    /// Figures of the bar's section.
    pub shape: Shape,
    /// The same of its sheaths.
    pub sheaths: Vec<Matter>,
}

/// Taken for the stiffness of what publishes none, Pa: soft enough to hand its load to the rest.
const UNKNOWN: f64 = 1e9;

impl Matter {
    /// Young's and shear modulus.
    pub fn stiffness(&self, lasting: bool) -> (f64, f64) {
        let e = self.e[usize::from(lasting)];
        (e, e * self.g)
    }

    fn of(design: &Design, m: &Material, climate: &Climate, form: &Form) -> Matter {
        let a = allowance(design, m);
        let wood = a.is_some_and(|a| matches!(a.family.as_str(), "wood" | "plywood"));
        let poisson = m.poisson.unwrap_or(0.3);
        // wood: the usual sixteenth, common practice; else the isotropic E/2(1+ν)
        let g = if wood { 1.0 / 16.0 } else { 1.0 / (2.0 * (1.0 + poisson)) };
        let e = m.modulus.unwrap_or(UNKNOWN);
        // hot plastic: taken to lose stiffness as it loses strength, which is more than it does
        let warm = a.and_then(|a| heat(a, climate.hot)).unwrap_or(0.2);
        let creep = a.and_then(|a| a.creep).unwrap_or(0.5);
        Matter { e: [e, e * creep * warm], g, poisson, shape: form.shape(poisson), sheaths: Vec::new() }
    }
}

pub(crate) fn matters(design: &Design, all: &Structure, climate: &Climate) -> Vec<Matter> {
    let of = |stock: StockId, form: &Form| Matter::of(design, &design.stocks[stock].material, climate, form);
    let mut out: Vec<Matter> = Vec::with_capacity(all.bars.len());
    for (k, b) in all.bars.iter().enumerate() {
        // the torsion of a rectangle is a long sum: strips of one kind share it
        let same = (0..k).rev().take(8).find(|i| all.bars[*i].form == b.form && all.bars[*i].stock == b.stock);
        let sheaths = b.sheaths.iter().map(|s| of(s.stock, &s.form)).collect();
        let matter = match same {
            Some(i) => Matter { sheaths, ..out[i].clone() },
            None => Matter { sheaths, ..of(b.stock, &b.form) },
        };
        out.push(matter);
    }
    out
}
