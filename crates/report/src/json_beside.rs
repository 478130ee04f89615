//! What stands beside the verdicts of strength, as rows of the JSON report: mends with prices, lives, lost joints,
//! bent shapes.

use crate::json_strength::{bar, finite};
use chairwright_cost::Difference;
use chairwright_design::Vec3;
use chairwright_driver::{Compilation, Reinforcement, Strengthening, refused_words};
use chairwright_strength::{Bent, Down, How, Life, Lost, Refused, Rest};
use serde::Serialize;

/// Something that could not be computed.
#[derive(Serialize)]
pub(crate) struct RefusedJson {
    case: Option<usize>,
    moves: Vec<String>,
    words: String,
}

pub(crate) fn refused(r: &Refused) -> RefusedJson {
    RefusedJson { case: r.case, moves: r.moves.clone(), words: refused_words(r) }
}

/// What a joint's failure does to the chair.
#[derive(Serialize)]
pub(crate) struct LostJson {
    name: String,
    falls: bool,
    /// What the rest does.
    rest: &'static str,
    /// The worst use that anything else then has; `None` where the chair comes down, or nobody knows.
    plain: Option<f64>,
    cautious: Option<f64>,
    /// What is used so.
    worst: Option<String>,
    /// What of the rest could not be judged.
    unjudged: Vec<String>,
    /// What moves freely or surely breaks after it.
    lets_go: Vec<String>,
    /// How the seat fares.
    seat: &'static str,
    /// By how much it then lies lower, m.
    sinks: Option<f64>,
}

pub(crate) fn lost(l: &Lost) -> LostJson {
    let rest = match l.rest() {
        Rest::Sound => "sound",
        Rest::CannotTell => "cannot tell",
        Rest::Breaks => "breaks",
        Rest::Falls => "comes down at once",
    };
    LostJson {
        name: l.name.clone(),
        falls: l.falls,
        rest,
        plain: l.worst.as_ref().and_then(|_| finite(l.used.0)),
        cautious: l.worst.as_ref().and_then(|_| finite(l.used.1)),
        worst: l.worst.clone(),
        unjudged: l.unjudged.clone(),
        lets_go: l.lets_go.clone(),
        seat: match l.comes() {
            Down::Seat => "comes down",
            Down::Wheel => "wheel lets go",
            Down::Stays => "stays up",
            Down::Untold => "cannot tell",
        },
        sinks: l.sinks.and_then(finite),
    }
}

/// A band of life.
#[derive(Serialize)]
pub(crate) struct LifeJson {
    name: String,
    stress: f64,
    least: Option<f64>,
    most: Option<f64>,
}

pub(crate) fn life(l: &Life) -> LifeJson {
    LifeJson { name: l.name.clone(), stress: l.stress, least: finite(l.cycles.0), most: finite(l.cycles.1) }
}

/// A reinforcement, or that nothing was found.
#[derive(Serialize)]
pub(crate) struct MendJson {
    parts: Vec<String>,
    /// Whether they surely fail, or only a test tells of them.
    of: &'static str,
    how: &'static str,
    stock: Option<String>,
    from: Option<f64>,
    to: Option<f64>,
    /// Lengths to cut.
    lengths: Vec<f64>,
    cautious: Option<f64>,
    mass: Option<f64>,
    price: Option<PriceJson>,
    /// The text to paste, where the change is one of the text.
    text: Option<String>,
}

/// What a change adds to the bill; money as decimal texts, less where negative.
#[derive(Serialize)]
struct PriceJson {
    money: Option<String>,
    currency: Option<String>,
    unpriced: Vec<String>,
    bought: Vec<BoughtJson>,
}

#[derive(Serialize)]
struct BoughtJson {
    key: String,
    more: i64,
    sale_unit: String,
    price: String,
    date: String,
}

pub(crate) fn mends(c: &Compilation) -> Vec<MendJson> {
    let found = c.reinforcements.iter().map(mend);
    let changed = c.strengthened.iter().filter_map(|(_, f)| f.as_ref());
    let found = found.chain(changed.clone().map(strengthened));
    let open = |m: &&chairwright_strength::Mend| {
        !c.reinforcements.iter().any(|r| r.is_for(&m.name)) && !changed.clone().any(|s| s.is_for(&m.name))
    };
    let nothing = c
        .strength
        .mends
        .iter()
        .filter(open)
        .map(|m| MendJson { cautious: finite(m.used), ..nothing_found(&m.name, FAILING) });
    let cleared = c.cleared.iter().map(|(name, found)| match found {
        Some(s) => MendJson { of: DOUBTED, ..strengthened(s) },
        None => nothing_found(name, DOUBTED),
    });
    found.chain(nothing).chain(cleared).collect()
}

const FAILING: &str = "failing";
const DOUBTED: &str = "in doubt";

/// A part that something was tried for, and nothing helps.
fn nothing_found(name: &str, of: &'static str) -> MendJson {
    MendJson {
        parts: vec![name.to_owned()],
        of,
        how: "nothing",
        stock: None,
        from: None,
        to: None,
        lengths: Vec::new(),
        cautious: None,
        mass: None,
        price: None,
        text: None,
    }
}

fn mend(r: &Reinforcement) -> MendJson {
    let (how, from, to) = match r.how {
        How::Sleeve(_, from, to) if r.inside => ("inner sleeve", Some(from), Some(to)),
        How::Sleeve(_, from, to) => ("outer sleeve", Some(from), Some(to)),
        _ => ("stock", None, None),
    };
    MendJson {
        parts: r.parts.clone(),
        of: FAILING,
        how,
        stock: Some(r.stock.clone()),
        from,
        to,
        lengths: r.lengths.clone(),
        cautious: finite(r.used),
        mass: Some(r.mass),
        price: Some(price(&r.cost)),
        text: None,
    }
}

/// A change of the text that was proven.
fn strengthened(s: &Strengthening) -> MendJson {
    MendJson {
        parts: s.parts.clone(),
        of: FAILING,
        how: "text",
        stock: None,
        from: None,
        to: None,
        lengths: Vec::new(),
        cautious: finite(s.used.1),
        mass: Some(s.mass),
        price: Some(price(&s.cost)),
        text: Some(s.is.clone()),
    }
}

fn price(cost: &Difference) -> PriceJson {
    let bought = cost.bought.iter().map(|b| BoughtJson {
        key: b.key.clone(),
        more: b.more,
        sale_unit: b.unit.clone(),
        price: format!("{:.2}", b.price.si()),
        date: b.date.clone(),
    });
    PriceJson {
        money: cost.money.map(|q| format!("{:.2}", q.si())),
        currency: cost.money.and_then(|q| q.dimension.money.map(|(c, _)| c.code())),
        unpriced: cost.unpriced.clone(),
        bought: bought.collect(),
    }
}

/// A bent shape, ready to draw: places on the ground without a load, shifts, uses.
#[derive(Serialize)]
pub(crate) struct BentJson {
    case: usize,
    bars: Vec<BarJson>,
}

#[derive(Serialize)]
struct BarJson {
    name: String,
    what: &'static str,
    stations: Vec<StationJson>,
}

#[derive(Serialize)]
struct StationJson {
    at: f64,
    place: [f64; 3],
    shift: [f64; 3],
    cautious: Option<f64>,
}

pub(crate) fn bent(b: &Bent) -> BentJson {
    // a picture needs no more than the micrometre
    let round = |x: f64| (x * 1e6).round() / 1e6 + 0.0;
    let point = |v: Vec3| [v.x, v.y, v.z].map(round);
    let bars = b.bars.iter().map(|x| BarJson {
        name: x.name.clone(),
        what: bar(x.of),
        stations: x
            .stations
            .iter()
            .map(|s| StationJson {
                at: round(s.at),
                place: point(s.place),
                shift: point(s.shift),
                cautious: s.used.and_then(finite).map(|u| (u * 1e4).ceil() / 1e4),
            })
            .collect(),
    });
    BentJson { case: b.case, bars: bars.collect() }
}
