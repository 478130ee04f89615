//! Metals that must not touch where water joins them: of what the frame is, and of what its screws and bolts are.

use crate::answer::Incompatible;
use crate::compatible::{Thing, stuff, wetness};
use crate::limit::family;
use crate::remark::Open;
use crate::structure::Structure;
use chairwright_design::{Design, Origin, Stock};
use chairwright_resistance::compatible::{Stuff, Touch, Wetness, touching};

/// Pairs that must not touch.
pub(crate) fn clashes(design: &Design, all: &Structure, wet: Wetness) -> Vec<Incompatible> {
    let mut pairs = fastened(design, all, wet);
    // which stocks touch nobody says: the first pair of them stands for all
    pairs.extend(clash(&stocks(design), wet));
    pairs
}

/// Stocks of metal.
fn stocks(design: &Design) -> Vec<Thing> {
    design.stocks.values().filter_map(|s| of_stock(design, s)).collect()
}

fn of_stock(design: &Design, stock: &Stock) -> Option<Thing> {
    let material = &stock.material;
    let stuff = stuff(&format!("{} {}", stock.name, material.name)).filter(|s| s.anodic_index().is_some())?;
    (family(design, material) == "metal").then(|| Thing {
        origin: stock.origin,
        name: material.name.clone(),
        stuff,
    })
}

/// What fasteners go through that is of metal.
struct Through<'d> {
    origin: Origin,
    fasteners: &'d [(String, u32)],
    held: Vec<Thing>,
}

/// Every place where fasteners hold things, with what of them is of metal.
fn throughs<'d>(design: &'d Design, all: &Structure) -> Vec<Through<'d>> {
    let stock_of = |name: &str| {
        let bar = all.bars.iter().find(|b| b.name == name).map(|b| &design.stocks[b.stock]);
        bar.and_then(|s| of_stock(design, s))
    };
    let fastenings = design.fastenings.iter().map(|f| {
        let held = [&f.what, &f.to].into_iter().filter_map(|n| stock_of(n)).collect();
        Through { origin: f.origin, fasteners: &f.fasteners, held }
    });
    let closings = design.closings.iter().map(|c| {
        let there = design.members.values().filter(|m| m.start == c.joint || m.end == c.joint);
        let held = there.filter_map(|m| of_stock(design, &design.stocks[m.stock])).collect();
        Through { origin: c.origin, fasteners: &c.fasteners, held }
    });
    fastenings.chain(closings).collect()
}

/// Screws and bolts whose name says of what metal they are, in what they fasten.
fn fastened(design: &Design, all: &Structure, wet: Wetness) -> Vec<Incompatible> {
    let each = throughs(design, all).into_iter();
    each.filter_map(|t| through((t.origin, t.fasteners), t.held, wet)).collect()
}

/// Metals that shops sell bolts and screws of: bare, galvanised and stainless steel. Common practice, no source.
const SOLD: [Stuff; 3] = [Stuff::Steel, Stuff::Zinc, Stuff::Stainless];

/// Fasteners of which no word tells the metal, in a metal that one of those that they may be of must not touch in this water; the first of
/// each name; and what rusts in salt water.
pub(crate) fn unnamed_metals(design: &Design, all: &Structure) -> Vec<Open> {
    let wet = wetness(design);
    let mut out: Vec<Open> = Vec::new();
    for t in throughs(design, all) {
        for (fastener, _) in t.fasteners.iter().filter(|(name, _)| stuff(name).is_none()) {
            let bolt = |of: Stuff| Thing { origin: t.origin, name: fastener.clone(), stuff: of };
            let bad = |h: &&Thing| SOLD.iter().any(|of| between(&bolt(*of), h, wet).is_some());
            let Some(held) = t.held.iter().find(bad) else { continue };
            let told = |o: &Open| matches!(o, Open::UnnamedMetal { fastener: known, .. } if known == fastener);
            if !out.iter().any(told) {
                let (fastener, held) = (fastener.clone(), held.name.clone());
                out.push(Open::UnnamedMetal { origin: t.origin, fastener, held, wet });
            }
        }
    }
    out.extend(rusts(design, all));
    out
}

/// What of steel is bare in salt water, or may be: stocks, and fasteners whose name does not say that they are of anything better.
fn rusts(design: &Design, all: &Structure) -> Option<Open> {
    if wetness(design) != Wetness::Salt {
        return None;
    }
    let used = design.stocks.iter().filter(|(id, _)| all.bars.iter().any(|b| b.stock == *id));
    let bars = used.filter_map(|(_, s)| {
        of_stock(design, s).filter(|t| t.stuff == Stuff::Steel).map(|t| (t.origin, t.name))
    });
    let held = throughs(design, all);
    let bare = |name: &str| matches!(stuff(name), None | Some(Stuff::Steel)) && design.fastener(name).is_some();
    let fasteners = held.iter().flat_map(|t| t.fasteners.iter().map(|(name, _)| (t.origin, name.clone())));
    let mut names: Vec<String> = Vec::new();
    let mut origin = None;
    for (at, name) in bars.chain(fasteners.filter(|(_, n)| bare(n))) {
        origin = origin.or(Some(at));
        if !names.contains(&name) {
            names.push(name);
        }
    }
    Some(Open::Rusts { origin: origin?, names })
}

/// The first clash of fasteners with what they go through.
fn through(
    (origin, fasteners): (Origin, &[(String, u32)]),
    held: Vec<Thing>,
    wet: Wetness,
) -> Option<Incompatible> {
    let metal = |(name, _): &(String, u32)| {
        let stuff = stuff(name).filter(|s| s.anodic_index().is_some())?;
        Some(Thing { origin, name: name.clone(), stuff })
    };
    let bolts: Vec<Thing> = fasteners.iter().filter_map(metal).collect();
    let at = |t: Thing| Thing { origin, ..t };
    let held: Vec<Thing> = held.into_iter().map(at).collect();
    bolts.iter().find_map(|b| held.iter().find_map(|h| between(b, h, wet)))
}

/// The first pair that must not touch where it is this wet.
fn clash(things: &[Thing], wet: Wetness) -> Option<Incompatible> {
    things.iter().enumerate().find_map(|(k, one)| things[k + 1..].iter().find_map(|o| between(one, o, wet)))
}

/// Two metals; told at the one that is lost. Where it is dry no water joins them.
fn between(one: &Thing, other: &Thing, wet: Wetness) -> Option<Incompatible> {
    let Touch::MustNot { loses, .. } = touching(one.stuff, other.stuff, wet).verdict else { return None };
    let (lost, stays) = if loses == one.stuff { (one, other) } else { (other, one) };
    (wet != Wetness::None).then(|| Incompatible::Metals {
        origin: lost.origin,
        one: lost.name.clone(),
        other: stays.name.clone(),
        wet,
    })
}
