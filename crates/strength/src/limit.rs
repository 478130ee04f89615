//! What a material may be asked to bear here: at this temperature, for this long, wet or dry.

use crate::assumed::Assumed;
use crate::case::Lasting;
use chairwright_design::{Allowance, Design, Material};
use chairwright_resistance::pvc::{Cold, along, cold};
use chairwright_resistance::wood::fifth_percentile;

/// What the checks take the place of use for.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Climate {
    /// Temperature that strength is taken at, K.
    pub hot: f64,
    /// Coldest use, K; `None` where the place does not say how cold it gets, however warm a day it names.
    pub cold: Option<f64>,
    /// The least of all temperatures of use that are declared, K: it gets no warmer than this at the coldest.
    pub least: Option<f64>,
    /// Whether wood gets wet.
    pub wet: bool,
}

/// Room temperature, K: where strengths are published.
pub(crate) const ROOM: f64 = 296.15;

impl Climate {
    /// From the conditions; a chair that stands in the heat is ridden from there. Neither a parked temperature nor
    /// a usual one says how cold it gets.
    pub(crate) fn of(design: &Design, assumed: &mut Vec<Assumed>) -> Climate {
        let get = |name: &str| design.conditions.quantities.get(name).copied();
        // of a spread the warm end weakens and the cold end makes brittle
        let end = |name: &str, end: &str| get(&format!("{name}.{end}")).or(get(name));
        let (ridden, parked) = (end("temperature", "most"), end("parked_temperature", "most"));
        // the coldest day is never warmer than the usual one: where the text says so, the warmer of both is taken
        let warm = [ridden, parked, end("coldest", "least")].into_iter().flatten();
        let hot = warm.fold(ROOM, f64::max);
        match (ridden, parked) {
            (None, None) => assumed.push(Assumed::NoTemperature(ROOM)),
            (t, Some(p)) if t.is_none_or(|t| p > t) => assumed.push(Assumed::Parked(hot)),
            _ => {}
        }
        let coldest = end("coldest", "least");
        let least = [coldest, end("temperature", "least")].into_iter().flatten().reduce(f64::min);
        let cold = coldest.and(least);
        let water = design.conditions.words.get("water").map_or("none", String::as_str);
        Climate { hot, cold, least, wet: water != "none" }
    }
}

/// Limits of one material, Pa, and how far they may be off.
///
/// A load that lasts or is short is judged by one limit with its safety in it. A blow or a repeated
/// load is judged between two: it surely breaks beyond the plain strength, and it is called sound
/// only with safety and notch on top.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Limits {
    /// In bending along the fibres, or equivalent; the cautious one.
    pub fibre: f64,
    /// In pull along the fibres.
    pub pull: f64,
    /// In push along the fibres, where it cannot give way sideways.
    pub push: f64,
    /// In shear; the cautious one. `None` where nothing says what of the strength that is.
    pub shear: Option<f64>,
    /// The plain limit over the cautious one.
    pub slack: f64,
    /// The same of shear.
    pub shear_slack: f64,
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
    /// Nothing says what it bears in shear.
    Shear(String),
    /// A bench test of it whose figures make no test.
    Bench(String),
    /// A bench test found it softer than the lower bound of its grade or species.
    Softer(String),
    /// Nothing says how stiff it is: how much of a load comes to it is a guess.
    Stiffness(String),
    /// Nothing says what water, at this heat, leaves of its strength.
    Wet(String),
    /// Nothing says what share of it may be used.
    Allowance(String),
    /// Nothing is known of loads of this kind.
    Kind(String, Lasting),
    /// It is hotter than anything that is known, or hotter than the material may be.
    TooHot(String),
    /// It is so cold that a blow breaks it.
    Brittle(String),
    /// It is brittle in the cold, and nothing says how cold it gets.
    Cold(String),
    /// Nothing here knows what holds it: the fasteners or the glue in words.
    Joint(String),
    /// A hole leaves nothing of it that can be reckoned with.
    Hole,
    /// A slot longer than the bar is wide opens it against twist.
    Slot,
    /// Holes so near to each other in a row that they stand as such a slot.
    Row,
    /// A board on edge may turn over sideways before it breaks.
    Edgewise,
    /// A closed box of something that glue does not hold: its corners.
    Corners(String),
    /// Nothing is known here of what such cloth or webbing bears: its stock.
    Cloth(String),
    /// No check looked at it.
    Nobody,
    /// What holds it cannot be judged: the fasteners or the glue in words, and why.
    Held {
        /// Fasteners and glue.
        by: String,
        /// Why.
        why: crate::reasons::Reason,
    },
}

/// The allowance that a material names: that of its grade, where it has one.
pub(crate) fn allowance<'d>(design: &'d Design, m: &Material) -> Option<&'d Allowance> {
    design.allowance_of(m)
}

/// The family of a material; empty where its page is not known.
pub(crate) fn family<'d>(design: &'d Design, m: &Material) -> &'d str {
    allowance(design, m).map_or("", |a| a.family.as_str())
}

/// Whether a material is judged along its fibres.
pub(crate) fn wooden(a: &Allowance) -> bool {
    a.is_wood()
}

/// Share of the strength at a temperature, in a straight line between the published points; 1 up to
/// 23 degC; nothing beyond the last, nor where none is published.
pub(crate) fn heat(a: &Allowance, kelvin: f64) -> Option<f64> {
    if kelvin <= ROOM {
        return Some(1.0);
    }
    let last = a.heat.last()?;
    let points: Vec<(f64, f64)> = std::iter::once((ROOM, 1.0)).chain(a.heat.iter().copied()).collect();
    // a degree that reached us with its last digit rounded up is still the last one
    along(&points, if kelvin - last.0 < 1e-6 { kelvin.min(last.0) } else { kelvin })
}

/// Share of the strength under a kind of load. Of characteristic values the rules of their code tell what time leaves, in
/// place of it.
fn share(a: &Allowance, lasting: Lasting) -> Option<f64> {
    match lasting {
        Lasting::Sustained | Lasting::Short | Lasting::Impact if a.characteristic() => Some(1.0),
        Lasting::Sustained => a.lasting,
        Lasting::Short => a.short,
        Lasting::Impact => a.blow,
        Lasting::Repeated => a.repeated,
    }
}

/// Warmer than this (100 degF), K, wet wood loses more than heat and water each by itself tell.
const HOT_AND_WET: f64 = 310.93;

/// What water leaves; only wood asks for it. Of characteristic values their code tells it together with what time leaves.
pub(crate) fn wet(a: &Allowance, climate: &Climate) -> Option<f64> {
    match climate.wet {
        false => Some(1.0),
        true if a.characteristic() => Some(1.0).filter(|_| climate.hot <= HOT_AND_WET),
        true if wooden(a) => a.wet.filter(|_| climate.hot <= HOT_AND_WET),
        true => Some(a.wet.unwrap_or(1.0)),
    }
}

/// Everything that takes from a published strength but the kind of load: scatter (the lower 5 % bound),
/// heat, wet.
pub(crate) fn factor(a: &Allowance, climate: &Climate) -> Option<f64> {
    let scatter = fifth_percentile(1.0, a.scatter.unwrap_or(0.0)).ok()?;
    Some(scatter * heat(a, climate.hot)? * wet(a, climate)?)
}

/// What cement or glue bears in shear under a kind of load.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Bond {
    /// What is left of its strength by scatter, heat and water, Pa.
    pub strength: f64,
    /// Share of it under this kind of load.
    pub share: f64,
    /// Safety factor.
    pub safety: f64,
}

/// A bond by the name of its allowance, and whether water weakens it.
///
/// # Errors
/// Says what is not known; what water leaves of a bond that it weakens among it.
pub(crate) fn bond(
    design: &Design,
    (name, swells): (&str, bool),
    climate: &Climate,
    lasting: Lasting,
) -> Result<Bond, Unknown> {
    let of = || name.to_owned();
    let a = design.allowance(name).ok_or_else(|| Unknown::Allowance(of()))?;
    let share = share(a, lasting).ok_or_else(|| Unknown::Kind(of(), lasting))?;
    let strength = a.strength.ok_or_else(|| Unknown::Strength(of()))?;
    let safety = a.safety.ok_or_else(|| Unknown::Allowance(of()))?;
    if climate.wet && swells && a.wet.is_none() {
        return Err(Unknown::Wet(of()));
    }
    let factor = factor(a, climate).ok_or_else(|| Unknown::TooHot(of()))?;
    Ok(Bond { strength: strength * factor, share, safety })
}

/// Why a blow in this cold is not judged, if so. Property sheets are no sharper than "about": what is nearer to
/// the brittle temperature than the room of PVC keeps away from it counts as brittle.
fn brittle(a: &Allowance, climate: &Climate, name: &str) -> Option<Unknown> {
    /// Where PVC's own rule has its brittle temperature, K.
    const ABOUT: f64 = 278.15;
    let below = a.brittle_below?;
    match climate.least {
        Some(least) if cold(ABOUT + least - below) != Cold::Clear => Some(Unknown::Brittle(name.to_owned())),
        _ if climate.cold.is_none() => Some(Unknown::Cold(name.to_owned())),
        _ => None,
    }
}

/// Taken for a plastic that publishes no notch factor. Common practice, no source.
pub(crate) const NOTCH: f64 = 1.5;

/// What a hole or a lip raises the stress by under a kind of load. Steady loads: wood is judged on what
/// the hole leaves and metal yields before it cracks (machine design: no stress concentration on ductile metal
/// at rest; from memory, not checked), but a plastic cracks slowly from its notches under a load that stays.
fn notch(a: &Allowance, lasting: Lasting) -> f64 {
    let plastic = a.family == "plastic";
    match lasting {
        Lasting::Sustained | Lasting::Short if !plastic => 1.0,
        _ => a.notch.unwrap_or(if plastic { NOTCH } else { 1.0 }),
    }
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
    let a = allowance(design, m).ok_or_else(|| Unknown::Allowance(name()))?;
    let share = share(a, lasting).ok_or_else(|| Unknown::Kind(name(), lasting))?;
    if m.service_temperature.is_some_and(|t| climate.hot > t) {
        return Err(Unknown::TooHot(name()));
    }
    if let Some(why) = brittle(a, climate, &m.name).filter(|_| lasting == Lasting::Impact) {
        return Err(why);
    }
    wet(a, climate).ok_or_else(|| Unknown::Wet(name()))?;
    let left = factor(a, climate).ok_or_else(|| Unknown::TooHot(name()))? * share;
    let known = match &a.grade {
        Some(grade) => {
            wood::graded(grade, (left, climate.wet), lasting).may_bear(species(design, m, climate, lasting))
        }
        None => {
            let strength = m.strength.ok_or_else(|| Unknown::Strength(name()))?;
            let safety = a.safety.ok_or_else(|| Unknown::Allowance(name()))?;
            let known = wood::by_strength((m, a), strength, (left, safety), lasting, wooden(a));
            let lowest = || lowest_class(design, climate, lasting);
            (a.family == "wood").then(lowest).flatten().map_or(known, |class| known.no_more_than(&class))
        }
    };
    let known = wood::proven(known, m, a, climate, (lasting, share));
    let everywhere = lasting == Lasting::Repeated;
    Ok(Limits {
        fibre: known.bending,
        pull: known.pull,
        push: known.push,
        shear: known.shear,
        slack: known.slack,
        shear_slack: known.shear_slack,
        notch: notch(a, lasting),
        everywhere,
    })
}

/// What the lowest of the strength classes in reach bears, in each stress: they stand for any species.
fn lowest_class(design: &Design, climate: &Climate, lasting: Lasting) -> Option<wood::Along> {
    let of = |a: &Allowance| {
        let left = factor(a, climate)? * share(a, lasting)?;
        Some(wood::graded(a.grade.as_ref()?, (left, climate.wet), lasting))
    };
    let classes = design.allowances.iter().filter(|a| a.characteristic());
    classes.filter_map(of).reduce(|one, other| one.no_more_than(&other))
}

/// What a wood bears by its species alone, whatever stamp is on it; `None` where its entry does not say.
fn species(design: &Design, m: &Material, climate: &Climate, lasting: Lasting) -> Option<wood::Along> {
    let a = design.allowance(m.allowance.as_deref()?)?;
    let left = factor(a, climate)? * share(a, lasting)?;
    Some(wood::by_strength((m, a), m.strength?, (left, a.safety?), lasting, wooden(a)))
}

/// What a bench says against a board of wood: that it is softer than it may be, or that it was no test. It is judged without it, and
/// never passes.
pub(crate) fn bench_doubt(design: &Design, m: &Material) -> Option<Unknown> {
    let a = allowance(design, m).filter(|a| wooden(a))?;
    if wood::no_test(m) {
        return Some(Unknown::Bench(m.name.clone()));
    }
    wood::softer_than_said(m, a).then(|| Unknown::Softer(m.name.clone()))
}

pub(crate) mod sure;
#[cfg(test)]
mod tests;
pub(crate) mod wood;
