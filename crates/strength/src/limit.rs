//! What a material may be asked to bear here: at this temperature, for this long, wet or dry.

use crate::case::Lasting;
use chairwright_design::{Allowance, Design, Material};

/// What the checks take the place of use for.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Climate {
    /// Temperature that strength is taken at, K.
    pub hot: f64,
    /// Coldest use, K, where it is declared.
    pub cold: Option<f64>,
    /// Whether wood gets wet.
    pub wet: bool,
}

/// Room temperature, K: where strengths are published.
const ROOM: f64 = 296.15;

impl Climate {
    /// From the conditions; a chair that stands in the heat is ridden from there.
    pub(crate) fn of(design: &Design, assumptions: &mut Vec<String>) -> Climate {
        let get = |name: &str| design.conditions.quantities.get(name).copied();
        let hot = match (get("temperature"), get("parked_temperature")) {
            (None, None) => {
                assumptions.push("strength: no temperature is declared; taken at 23 degC".to_owned());
                ROOM
            }
            (t, p) => {
                if p > t {
                    assumptions.push(format!(
                        "strength: taken at the parked temperature, {:.0} degC: a chair is ridden from where it stood",
                        p.unwrap_or(ROOM) - 273.15
                    ));
                }
                t.unwrap_or(0.0).max(p.unwrap_or(0.0)).max(ROOM)
            }
        };
        let water = design.conditions.words.get("water").map_or("none", String::as_str);
        Climate { hot, cold: get("coldest"), wet: water != "none" }
    }
}

/// Limits of one material, Pa, and how far they may be off.
///
/// A load that lasts or is short is judged by one limit with its safety in it. A blow or a repeated
/// load is judged between two: it surely breaks beyond the plain strength, and it is called sound
/// only with safety and notch on top.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Limits {
    /// Along the fibres, or equivalent; the cautious one.
    pub fibre: f64,
    /// In shear; the cautious one.
    pub shear: f64,
    /// The plain limit over the cautious one.
    pub slack: f64,
    /// What a hole or a lip raises the stress by, for the cautious side.
    pub notch: f64,
    /// Whether every place counts as notched.
    pub everywhere: bool,
}

/// Why there is no limit.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Unknown {
    /// The material has no strength.
    Strength(String),
    /// Nothing says what share of it may be used.
    Allowance(String),
    /// Nothing is known of loads of this kind.
    Kind(String, Lasting),
    /// It is hotter than anything that is known, or hotter than the material may be.
    TooHot(String),
    /// It is so cold that a blow breaks it.
    Brittle(String),
    /// Nothing here knows what holds it: the fasteners or the glue in words.
    Joint(String),
    /// What holds it cannot be judged: the fasteners or the glue, and why, each in words.
    Held {
        /// Fasteners and glue.
        by: String,
        /// Why, in words that end a sentence.
        why: String,
    },
}

/// The allowance that a material names.
pub(crate) fn allowance<'d>(design: &'d Design, m: &Material) -> Option<&'d Allowance> {
    named(design, m.allowance.as_deref()?)
}

/// An allowance by name; one of a page of the builder's own comes before a shipped one.
pub(crate) fn named<'d>(design: &'d Design, name: &str) -> Option<&'d Allowance> {
    let fold = chairwright_design::fold;
    design.allowances.iter().find(|a| fold(&a.name) == fold(name))
}

/// Share of the strength at a temperature, in a straight line between the published points; 1 up to
/// 23 degC; nothing beyond the last.
pub(crate) fn heat(a: &Allowance, kelvin: f64) -> Option<f64> {
    if a.heat.is_empty() || kelvin <= ROOM {
        return Some(1.0);
    }
    let mut before = (ROOM, 1.0);
    for next in &a.heat {
        if kelvin <= next.0 {
            let t = (kelvin - before.0) / (next.0 - before.0).max(1e-9);
            return Some(before.1 + (next.1 - before.1) * t);
        }
        before = *next;
    }
    None
}

fn share(a: &Allowance, lasting: Lasting) -> Option<f64> {
    match lasting {
        Lasting::Sustained => a.lasting,
        Lasting::Short => a.short,
        Lasting::Impact => a.blow,
        Lasting::Repeated => a.repeated,
    }
}

/// Everything that takes from a published strength but the kind of load: scatter (fifth percentile of a
/// normal distribution, 1 − 1.645 of the relative deviation), heat, wet.
pub(crate) fn factor(a: &Allowance, climate: &Climate) -> Option<f64> {
    let scatter = 1.0 - 1.645 * a.scatter.unwrap_or(0.0);
    let wet = if climate.wet { a.wet.unwrap_or(1.0) } else { 1.0 };
    Some(scatter * heat(a, climate.hot)? * wet)
}

/// Limits of a material under a kind of load.
///
/// # Errors
/// Says what is not known.
pub(crate) fn limits(
    design: &Design,
    m: &Material,
    climate: &Climate,
    lasting: Lasting,
) -> Result<Limits, Unknown> {
    let name = || m.name.clone();
    let strength = m.strength.ok_or_else(|| Unknown::Strength(name()))?;
    let a = allowance(design, m).ok_or_else(|| Unknown::Allowance(name()))?;
    let share = share(a, lasting).ok_or_else(|| Unknown::Kind(name(), lasting))?;
    if m.service_temperature.is_some_and(|t| climate.hot > t) {
        return Err(Unknown::TooHot(name()));
    }
    let cold = climate.cold.is_some_and(|c| a.brittle_below.is_some_and(|b| c < b));
    if lasting == Lasting::Impact && cold {
        return Err(Unknown::Brittle(name()));
    }
    let factor = factor(a, climate).ok_or_else(|| Unknown::TooHot(name()))? * share;
    let safety = a.safety.unwrap_or(1.0);
    let shear = m.shear_strength.or(a.shear.map(|s| s * strength)).unwrap_or(0.1 * strength);
    let notch = a.notch.unwrap_or(1.0);
    // repeated loads carry their safety in the factor of the bumps
    let (cautious, slack, notch) = match lasting {
        Lasting::Sustained | Lasting::Short => (factor / safety, 1.0, 1.0),
        Lasting::Impact => (factor / safety, safety, notch),
        Lasting::Repeated => (factor, 1.0, notch),
    };
    let everywhere = lasting == Lasting::Repeated;
    Ok(Limits { fibre: strength * cautious, shear: shear * cautious, slack, notch, everywhere })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pvc() -> (Design, Material) {
        let a = Allowance {
            name: "rigid PVC".into(),
            lasting: Some(0.556),
            short: Some(1.0),
            blow: Some(1.0),
            repeated: Some(0.302),
            heat: vec![(303.15, 0.80), (313.15, 0.57), (323.15, 0.38), (333.15, 0.22)],
            safety: Some(2.0),
            brittle_below: Some(278.15),
            ..Allowance::default()
        };
        let m = Material {
            name: "PVC".into(),
            strength: Some(49.6e6),
            allowance: Some("Rigid  pvc".into()),
            ..Material::default()
        };
        (Design { allowances: vec![a], ..Design::default() }, m)
    }

    /// Lasting at 23 degC is the hydrostatic design stress, 13.8 MPa (2000 psi, design paper 2).
    #[test]
    fn lasting_stress_of_pipe_is_its_design_stress() {
        let (design, m) = pvc();
        let climate = Climate { hot: 296.15, cold: None, wet: false };
        let l = limits(&design, &m, &climate, Lasting::Sustained).unwrap();
        assert!((l.fibre / 1e6 - 13.79).abs() < 0.01, "{}", l.fibre / 1e6);
    }

    /// 45 degC: 0.475, the trade paper's 0.48 interpolated (S3).
    #[test]
    fn heat_between_two_points() {
        let (design, m) = pvc();
        let a = allowance(&design, &m).unwrap();
        assert!((heat(a, 318.15).unwrap() - 0.475).abs() < 1e-9);
        assert_eq!(heat(a, 290.0), Some(1.0));
        assert_eq!(heat(a, 334.0), None);
    }

    #[test]
    fn a_blow_in_the_cold_is_not_judged() {
        let (design, m) = pvc();
        let climate = Climate { hot: 296.15, cold: Some(275.15), wet: false };
        assert_eq!(limits(&design, &m, &climate, Lasting::Impact), Err(Unknown::Brittle("PVC".into())));
        assert!(limits(&design, &m, &climate, Lasting::Short).is_ok());
    }
}
