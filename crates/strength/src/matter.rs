//! How stiff the bars are: their materials as the solver sees them, and what was taken where a page says
//! nothing.

use crate::assumed::Assumed;
use crate::form::Form;
use crate::limit::wood::{ALONG, modulus};
use crate::limit::{Climate, NOTCH, ROOM, allowance, heat, wooden};
use crate::structure::Structure;
use chairwright_design::{Allowance, Design, Material, StockId};
use chairwright_resistance::wood::{Property, eurocode};
use chairwright_statics::section::Shape;

/// Stiffness of one bar's material, Pa.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Matter {
    /// Young's modulus at once, in the dry at room temperature, which makes blows hardest; and after years under load,
    /// in the heat and water here.
    pub e: [f64; 2],
    /// Share of the first that heat and water leave.
    pub soft: f64,
    /// Shear modulus over Young's modulus.
    pub g: f64,
    /// Figures of the bar's section.
    pub shape: Shape,
    /// The same of its sheaths.
    pub sheaths: Vec<Matter>,
}

/// Taken for the stiffness of what publishes none, Pa: soft enough to hand its load to the rest. The bar itself
/// is not judged.
const MODULUS: f64 = 1e9;
/// Taken for Poisson's ratio of what publishes none. Common practice, no source.
const POISSON: f64 = 0.3;
/// Shear modulus of wood over its modulus along the grain: the usual sixteenth, common practice.
const WOOD_SHEAR: f64 = 1.0 / 16.0;
/// Taken for what years leave of the stiffness of what publishes nothing. Common practice, no source.
const CREEP: f64 = 0.5;
/// Taken for what heat beyond anything known leaves of the stiffness. The bar itself is not judged.
const WARM: f64 = 0.2;

impl Matter {
    /// Young's and shear modulus.
    pub fn stiffness(&self, lasting: bool) -> (f64, f64) {
        let e = self.e[usize::from(lasting)];
        (e, e * self.g)
    }

    /// Young's modulus of what might give way sideways, as warm and wet as it is here.
    pub fn softest(&self, lasting: bool) -> f64 {
        if lasting { self.e[1] } else { self.e[0] * self.soft }
    }

    /// The same where loads that do not last find it as warm and wet as it is here.
    pub fn warm(&self) -> Matter {
        let sheaths = self.sheaths.iter().map(Matter::warm).collect();
        Matter { e: [self.softest(false), self.e[1]], soft: 1.0, sheaths, ..self.clone() }
    }

    fn of(design: &Design, m: &Material, climate: &Climate, form: &Form) -> Matter {
        let a = allowance(design, m);
        let poisson = m.poisson.unwrap_or(POISSON);
        let g = if a.is_some_and(wooden) { WOOD_SHEAR } else { 1.0 / (2.0 * (1.0 + poisson)) };
        let e = modulus(design, m).unwrap_or(MODULUS);
        // hot plastic: taken to lose stiffness as it loses strength, which is more than it does
        let warm = a.and_then(|a| heat(a, climate.hot)).unwrap_or(WARM);
        let creep = a.and_then(|a| a.creep).unwrap_or(CREEP);
        let wet = if climate.wet && a.is_some_and(wooden) { Property::Modulus.wet() } else { 1.0 };
        // what says nothing of heat has lost nothing in a cool place
        let soft = if climate.hot <= ROOM { wet } else { warm * wet };
        let years = creep * wet;
        // a strength class creeps by its own code, where that is more
        let years = if a.is_some_and(Allowance::characteristic) {
            years.min(eurocode::creep(climate.wet))
        } else {
            years
        };
        Matter { e: [e, e * years * warm], soft, g, shape: form.shape(poisson), sheaths: Vec::new() }
    }
}

/// Shear modulus of a material, Pa, as its bars have it.
pub(crate) fn shear_modulus(design: &Design, m: &Material) -> f64 {
    let wood = allowance(design, m).is_some_and(wooden);
    let g = if wood { WOOD_SHEAR } else { 1.0 / (2.0 * (1.0 + m.poisson.unwrap_or(POISSON))) };
    modulus(design, m).unwrap_or(MODULUS) * g
}

/// What was taken for the materials of the bars where nothing is published.
pub(crate) fn taken(design: &Design, all: &Structure, climate: &Climate) -> Vec<Assumed> {
    let stocks = all.bars.iter().flat_map(|b| b.sheaths.iter().map(|s| s.stock).chain([b.stock]));
    let mut out: Vec<Assumed> = Vec::new();
    for m in stocks.map(|s| &design.stocks[s].material) {
        let a = allowance(design, m);
        let name = || m.name.clone();
        let plastic = a.is_some_and(|a| a.family == "plastic");
        let wood = a.is_some_and(wooden);
        let here = [
            modulus(design, m).is_none().then(|| Assumed::Modulus(name(), MODULUS)),
            (m.poisson.is_none() && !wood).then(|| Assumed::Poisson(name(), POISSON)),
            wood.then_some(Assumed::WoodShear(WOOD_SHEAR)),
            (wood && climate.wet).then_some(Assumed::SealedEnds),
            a.filter(|a| wooden(a) && a.scatter.is_none() && a.grade.is_none())
                .map(|_| Assumed::LowerBound(name())),
            a.filter(|a| wooden(a) && a.grade.is_none()).and_then(|a| {
                let proven = m.bench.is_some_and(|b| b.proof.is_some());
                (!proven).then_some(Assumed::NoGrade(name(), a.low_grade?, a.high_grade.unwrap_or(1.0)))
            }),
            m.bench.and_then(|b| {
                let stress = 1.5 * b.proof? * b.span / (b.width * b.height * b.height);
                Some(Assumed::Proven(name(), stress))
            }),
            a.filter(|a| wooden(a) && a.grade.is_none() && (a.pull.is_none() || a.push.is_none()))
                .map(|a| Assumed::Along(name(), a.pull.unwrap_or(ALONG.0), a.push.unwrap_or(ALONG.1))),
            a.is_none_or(|a| a.creep.is_none()).then(|| Assumed::Creep(name(), CREEP)),
            a.is_none_or(|a| heat(a, climate.hot).is_none()).then(|| Assumed::WarmStiffness(name(), WARM)),
            (plastic && a.is_some_and(|a| a.notch.is_none())).then(|| Assumed::Notch(name(), NOTCH)),
        ];
        for one in here.into_iter().flatten() {
            if !out.contains(&one) {
                out.push(one);
            }
        }
    }
    out
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
