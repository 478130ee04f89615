//! Sleeves that may carry: those whose sizes fit and whose material is known. The others are taken out, and
//! said. One whose play nothing fills stays, and is said: see `judge.rs` for what it is given.

use crate::assumed::{Assumed, IdleSleeve, Unchecked};
use crate::bar::{Bar, Sheath};
use crate::limit::allowance;
use crate::structure::Structure;
use chairwright_design::{Band, Design, Shape, Stock, StockId, fold};

/// A sleeve with more play than this on the diameter does not share the bending, m. Common practice, no
/// source.
pub(crate) const PLAY: f64 = 0.003;

/// Least and most play on the diameter, m, of a round stock in a bar's stock or over it; `None` where neither can
/// be. Below nothing at its least it must be reamed or warmed on.
pub(crate) fn play(host: &Stock, sleeve: &Stock) -> Option<Band> {
    let (outer, bore) = round(host)?;
    let (big, small) = round(sleeve)?;
    let gap = |hole: Band, peg: Band| Band { low: hole.low - peg.high, high: hole.high - peg.low };
    let fits = |b: &Band| b.high >= 0.0 && b.mid() > -PLAY;
    let inside = bore.map(|b| gap(b, big)).filter(fits);
    let over = small.map(|s| gap(s, outer)).filter(fits);
    inside.into_iter().chain(over).min_by(|a, b| a.high.total_cmp(&b.high))
}

/// Whether a word names something that fills the play of a sleeve and stays hard: resin, and strips of plastic, metal or wood. Common
/// practice, no source. Of anything else nobody knows whether it carries.
pub(crate) fn fills(with: &str) -> bool {
    const HARD: [&str; 21] = [
        "epoxy",
        "polyester",
        "polyethylene",
        "polypropylene",
        "nylon",
        "acetal",
        "pvc",
        "hdpe",
        "pet",
        "ptfe",
        "aluminium",
        "steel",
        "brass",
        "copper",
        "tin",
        "wood",
        "hardwood",
        "plywood",
        "veneer",
        "bamboo",
        "strapping",
    ];
    const SOFT: [&str; 23] = [
        "foam",
        "rubber",
        "paper",
        "card",
        "cloth",
        "fabric",
        "wool",
        "rope",
        "string",
        "thread",
        "soft",
        "foil",
        "vinyl",
        "plasticised",
        "plasticized",
        "no",
        "grease",
        "wax",
        "silicone",
        "dust",
        "sawdust",
        "shavings",
        "powder",
    ];
    // thin stuff that is named after what it joins or covers; of epoxy alone it sets hard in a gap
    const THIN: [&str; 8] = ["glue", "adhesive", "cement", "paint", "varnish", "lacquer", "primer", "oil"];
    let folded = fold(with);
    let has = |words: &[&str]| folded.split(|c: char| !c.is_alphanumeric()).any(|w| words.contains(&w));
    let thin = has(&THIN) && !has(&["epoxy"]);
    // tape of it is plasticised
    let tape = has(&["pvc"]) && has(&["tape"]);
    has(&HARD) && !has(&SOFT) && !thin && !tape
}

/// Outside and bore of a round stock.
fn round(stock: &Stock) -> Option<(Band, Option<Band>)> {
    match stock.shape {
        Shape::Tube { outer, wall, .. } => {
            let bore = Band { low: outer.low - 2.0 * wall.high, high: outer.high - 2.0 * wall.low };
            Some((outer, Some(bore)))
        }
        Shape::Rod { diameter } => Some((Band::point(diameter), None)),
        _ => None,
    }
}

/// Takes out the sleeves that carry nothing.
pub(crate) fn settle(design: &Design, all: &mut Structure) -> (Vec<Assumed>, Vec<Unchecked>) {
    let (mut taken, mut idle) = (Vec::new(), Vec::new());
    for bar in &mut all.bars {
        let sheaths = std::mem::take(&mut bar.sheaths);
        for s in sheaths {
            let stock = design.stocks[s.stock].name.clone();
            let unfilled = unfilled(design, &bar.name, s.stock);
            match works(design, bar, &s) {
                Ok(play) => {
                    let shimmed = s.play <= 0.0 && play > 0.0;
                    let of = if shimmed { Assumed::TightSleeve } else { Assumed::LooseSleeve };
                    match unfilled {
                        _ if play <= 0.0 => {}
                        Some(with) => {
                            taken.push(Assumed::NoFiller { bar: bar.name.clone(), sleeve: stock, play, with });
                        }
                        None => taken.push(of(bar.name.clone(), stock, play)),
                    }
                    bar.sheaths.push(s);
                }
                Err(why) => idle.push(Unchecked::Sleeve(bar.name.clone(), stock, why)),
            }
        }
    }
    (taken, idle)
}

/// What the text fills the play of a sleeve with that is not known to fill anything.
fn unfilled(design: &Design, bar: &str, stock: StockId) -> Option<String> {
    let member = design.members.values().find(|m| m.name == bar)?;
    let mut words = member.sleeves.iter().filter(|s| s.stock == stock).filter_map(|s| s.shim.as_ref());
    words.find(|with| !fills(with)).cloned()
}

/// The most play of a sleeve that carries.
fn works(design: &Design, bar: &Bar, s: &Sheath) -> Result<f64, IdleSleeve> {
    let (host, stock) = (&design.stocks[bar.stock], &design.stocks[s.stock]);
    let play = play(host, stock).ok_or(IdleSleeve::Misfit)?.high;
    if play.is_nan() || play > PLAY {
        return Err(IdleSleeve::Play(play));
    }
    let m = &stock.material;
    if m.modulus.is_none() {
        return Err(IdleSleeve::Stiffness);
    }
    if m.strength.is_none() || allowance(design, m).is_none() {
        return Err(IdleSleeve::Strength);
    }
    Ok(play)
}

#[cfg(test)]
mod tests {
    use super::fills;

    #[test]
    fn what_fills_a_sleeve() {
        for with in [
            "epoxy putty",
            "filled epoxy",
            "polyester packing strap",
            "polyethylene tape",
            "split PVC pipe",
            "wood shims",
            "epoxy glue",
        ] {
            assert!(fills(with), "{with}");
        }
        for with in [
            "air",
            "hope",
            "foam",
            "vinyl tape",
            "soft pvc",
            "paper",
            "nylon cloth",
            "petrol",
            "old tape",
            "wood glue",
            "PVC cement",
            "pvc tape",
            "copper grease",
            "sawdust and wood glue",
        ] {
            assert!(!fills(with), "{with}");
        }
    }
}
