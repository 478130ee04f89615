//! What a sheet's fasteners resist sliding with along its face, and the sheet's own shear in series with them.

use crate::matter::shear_modulus;
use crate::screws::held_by_wood;
use chairwright_design::{Design, Fastener, StockId, Vec3};
use chairwright_resistance::withdrawal::Fastener as Pulled;

/// What one fastener of a sheet resists sliding with where nothing is published, N/m: the slip modulus of a 5 mm screw in wood
/// of 450 kg/m³. An estimate; what slides more bends its bars more.
const UNSURE: f64 = 2e6;
/// Share of the slip modulus that is left where the fastener is loaded far up: `K_u = 2/3 K_ser`, EN 1995-1-1, 2.2.2(2).
const LOADED: f64 = 2.0 / 3.0;

/// What some fasteners together resist sliding with, N/m.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub(crate) struct Slip {
    /// As a rule.
    pub usual: f64,
    /// At least: what is left when nothing unsure is counted on.
    pub least: f64,
}

impl Slip {
    pub fn plus(self, other: Slip) -> Slip {
        Slip { usual: self.usual + other.usual, least: self.least + other.least }
    }

    pub fn times(self, by: f64) -> Slip {
        Slip { usual: self.usual * by, least: self.least * by }
    }
}

/// Slip modulus of one screw or bolt between two woods, N/m: `ρ^1.5 d/23` in N/mm with the mean densities in kg/m³,
/// ρ their geometric mean, and d in mm; EN 1995-1-1, table 7.1 and 7.1(2), from memory, not checked.
pub(crate) fn modulus(densities: (f64, f64), diameter: f64) -> f64 {
    let mean = (densities.0 * densities.1).sqrt();
    mean * mean.sqrt() * diameter * 1e3 / 23.0 * 1e3
}

/// The same of a nail without a lead hole: `ρ^1.5 d^0.8/30`, EN 1995-1-1, table 7.1, from memory, not checked.
fn nail_modulus(densities: (f64, f64), diameter: f64) -> f64 {
    let mean = (densities.0 * densities.1).sqrt();
    mean * mean.sqrt() * libm::pow(diameter * 1e3, 0.8) / 30.0 * 1e3
}

/// What a list of fasteners between two stocks resists sliding with. A bolt has play in its hole (7.1(4)), and in plastic or
/// metal nothing is published: on the careful side neither holds anything along the face.
pub(crate) fn of(design: &Design, list: &[(String, u32)], (a, b): (StockId, StockId)) -> Slip {
    let wood = |s: StockId| {
        let m = &design.stocks[s].material;
        let family = crate::limit::allowance(design, m).map(|a| a.family.as_str());
        matches!(family, Some("wood" | "plywood")).then_some(m.density)
    };
    let both = wood(a).zip(wood(b));
    let own = |d: (f64, f64), f: &Fastener| match held_by_wood(f) {
        Some(Pulled::Nail) => nail_modulus(d, f.diameter),
        _ => modulus(d, f.diameter),
    };
    let mut sum = Slip::default();
    for (name, count) in list {
        if crate::ties::fixing(design, &[(name.clone(), 1)]) == 0 {
            continue;
        }
        let known = both.zip(design.fastener(name)).map(|(d, f)| (own(d, f), held_by_wood(f).is_some()));
        let one = match known {
            Some((k, true)) => Slip { usual: k, least: LOADED * k },
            Some((k, false)) => Slip { usual: k, least: 0.0 },
            None => Slip { usual: UNSURE, least: 0.0 },
        };
        sum = sum.plus(one.times(f64::from(*count)));
    }
    sum
}

/// A place where a sheet is held: where, and how stiff along the face.
pub(crate) type Held = (Vec3, Slip);

/// Stiffness against racking of a frame by a rigid sheet on places that slip, N·m per strain: `1/(1/Σk x² + 1/Σk y²)`. The
/// frame racks by γ and the sheet turns by φ: each place slips by φ x one way and by (γ - φ) y the other, and φ is such that
/// the work is least. So a push H at the height h moves the frame by `δ = H h² (1/Σk x² + 1/Σk y²)`, the elastic model of a
/// sheathed wall (Källsner and Girhammar, from memory, not checked; derived here).
pub(crate) fn racking(places: &[(Vec3, f64)], (u, v): (Vec3, Vec3)) -> f64 {
    let sum: f64 = places.iter().map(|p| p.1).sum();
    let middle = places.iter().fold(Vec3::ZERO, |m, (at, k)| m + *at * (k / sum.max(1e-12)));
    let second = |e: Vec3| {
        let one = |(at, k): &(Vec3, f64)| k * (*at - middle).dot(e) * (*at - middle).dot(e);
        places.iter().map(one).sum::<f64>()
    };
    let (x, y) = (second(u), second(v));
    if x <= 0.0 || y <= 0.0 { 0.0 } else { 1.0 / (1.0 / x + 1.0 / y) }
}

/// The share of its places' stiffness that a sheet of so many N/m·m (`G t A`) leaves: both in series.
pub(crate) fn share(places: &[Held], axes: (Vec3, Vec3), sheet: f64) -> f64 {
    let each: Vec<(Vec3, f64)> = places.iter().map(|(at, s)| (*at, s.usual)).collect();
    let slips = racking(&each, axes);
    if sheet > 0.0 { sheet / (sheet + slips) } else { 1.0 }
}

/// `G t A` of a sheet, N·m.
pub(crate) fn sheet(design: &Design, stock: StockId, thickness: f64, area: f64) -> f64 {
    shear_modulus(design, &design.stocks[stock].material) * thickness * area
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A 5 mm screw between two woods of 450 kg/m³: 450^1.5 = 9 546; · 5/23 = 2 075 N/mm. Between 400 and 600 kg/m³ the
    /// mean is √240 000 = 489.9, 489.9^1.5 = 10 843; a screw of 4 mm: · 4/23 = 1 886 N/mm.
    #[test]
    fn screws_by_hand() {
        assert!((modulus((450.0, 450.0), 0.005) / 2.075e6 - 1.0).abs() < 1e-3);
        // a nail of 4 mm: 450^1.5 x 4^0.8 / 30 = 9546 x 3.031 / 30 = 964.6 N/mm
        assert!((nail_modulus((450.0, 450.0), 0.004) / 9.646e5 - 1.0).abs() < 1e-3);
        assert!((modulus((400.0, 600.0), 0.004) / 1.886e6 - 1.0).abs() < 1e-3);
    }

    /// Places of 2 kN/mm at the corners of 0.4 m by 0.3 m: Σk x² = 4 · 2e6 · 0.2² = 320 kN m, Σk y² = 4 · 2e6 · 0.15² =
    /// 180 kN m: 1/(1/320 + 1/180) = 115.2 kN m. A sheet of G t A = 0.5 GPa · 12 mm · 0.12 m² = 720 kN m leaves
    /// 720/(720 + 115.2) = 0.8621 of it.
    #[test]
    fn a_sheet_in_series_with_its_places() {
        let slip = Slip { usual: 2e6, least: 0.0 };
        let at = |x: f64, y: f64| (Vec3::new(x, y, 0.0), slip);
        let places = [at(0.0, 0.0), at(0.4, 0.0), at(0.4, 0.3), at(0.0, 0.3)];
        let each: Vec<(Vec3, f64)> = places.iter().map(|(at, s)| (*at, s.usual)).collect();
        assert!((racking(&each, (Vec3::X, Vec3::Y)) / 115.2e3 - 1.0).abs() < 1e-9);
        assert!((share(&places, (Vec3::X, Vec3::Y), 720e3) - 0.862_07).abs() < 1e-4);
        // in one line there is nothing to rack
        assert_eq!(share(&places[..2], (Vec3::X, Vec3::Y), 720e3), 1.0);
    }
}
