//! Things that must not touch, and glues that do not stand the place: told by the words of their names, for nobody
//! writes the chemistry of a tape into a plan.

use crate::answer::Incompatible;
use crate::gluing::class;
use crate::limit::allowance;
use crate::structure::Structure;
use chairwright_design::{Design, Material, Origin, Stock, fold};
use chairwright_resistance::compatible::{Stuff, Touch, Wetness, touching};
use chairwright_resistance::glue::{self, suits};

/// A thing that something is known of.
struct Thing {
    origin: Origin,
    name: String,
    stuff: Stuff,
}

/// Materials and glues that do not go together, or not with the climate.
pub(crate) fn incompatible(design: &Design, all: &Structure) -> Vec<Incompatible> {
    let wet = wetness(design);
    let mut out = on_plastic(design, wet);
    out.extend(glues(design, wet));
    let mut pairs = fastened(design, all, wet);
    // which stocks touch nobody says: the first pair of them stands for all
    pairs.extend(clash(&stocks(design), wet));
    for pair in pairs {
        if !out.contains(&pair) {
            out.push(pair);
        }
    }
    out
}

/// How wet a word of the conditions is.
fn wetness(design: &Design) -> Wetness {
    match design.conditions.words.get("water").map(String::as_str) {
        None | Some("none") => Wetness::None,
        Some("rain") => Wetness::Rain,
        Some("salt") => Wetness::Salt,
        Some(_) => Wetness::Fresh,
    }
}

fn family<'d>(design: &'d Design, m: &Material) -> &'d str {
    allowance(design, m).map_or("", |a| a.family.as_str())
}

/// Covers, cushions, grips, tapes, paints and thread locker of a chair with plastic in it.
fn on_plastic(design: &Design, wet: Wetness) -> Vec<Incompatible> {
    let Some(plastic) = design.stocks.values().find(|s| family(design, &s.material) == "plastic") else {
        return Vec::new();
    };
    let stock = |k| &design.stocks[k];
    let named = |origin: Origin, name: &str, more: &str| {
        Some(Thing { origin, name: name.to_owned(), stuff: stuff(&format!("{name} {more}"))? })
    };
    let covers = design.supports.iter().filter_map(|s| {
        let of = stock(s.stock);
        named(s.origin, &of.name, &of.material.name)
    });
    let cushions = design.supports.iter().filter_map(|s| named(s.origin, &s.cushion.as_ref()?.0, ""));
    let items = design.items.iter().filter_map(|i| named(i.origin, &i.part.name, ""));
    let supplies = design.supplies.iter().filter_map(|s| named(s.origin, &s.name, ""));
    let shims = design.members.values().flat_map(|m| &m.sleeves);
    let shims = shims.filter_map(|s| named(s.origin, s.shim.as_ref()?, ""));
    let harms = |t: &Thing| {
        matches!(touching(t.stuff, Stuff::RigidPvc, wet).verdict, Touch::MustNot { loses: Stuff::RigidPvc, .. })
    };
    let bad = covers.chain(cushions).chain(items).chain(supplies).chain(shims).filter(harms);
    let told = |t: Thing| Incompatible::OnPlastic {
        origin: t.origin,
        what: t.name,
        stuff: t.stuff,
        plastic: plastic.name.clone(),
    };
    bad.map(told).collect()
}

/// Paints of which the name does not say what they are thinned with, on a chair with plastic in it.
pub(crate) fn plain_paints(design: &Design) -> impl Iterator<Item = String> + use<'_> {
    let plastic = design.stocks.values().any(|s| family(design, &s.material) == "plastic");
    let paints = move |n: &String| has(n, &["paint", "varnish", "lacquer"]) && stuff(n).is_none();
    let names = design.supplies.iter().map(|s| s.name.clone());
    names.filter(move |n| plastic && paints(n))
}

fn glues(design: &Design, wet: Wetness) -> Vec<Incompatible> {
    // in the rain a joint of a chair is wetted and dries: sheltered, as the chair is not left there
    let climate = match wet {
        Wetness::None => glue::Climate::Dry,
        Wetness::Rain => glue::Climate::Sheltered,
        Wetness::Fresh | Wetness::Salt => glue::Climate::Weather,
    };
    let weak = |g: &&String| class(g).is_some_and(|class| !suits(class, climate).climate);
    let told = |c: &chairwright_design::Closing| {
        let glue = c.glue.as_ref().filter(weak)?;
        Some(Incompatible::Glue { origin: c.origin, glue: glue.clone() })
    };
    design.closings.iter().filter_map(told).collect()
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

/// Screws and bolts whose name says of what metal they are, in what they fasten.
fn fastened(design: &Design, all: &Structure, wet: Wetness) -> Vec<Incompatible> {
    let mut out = Vec::new();
    let stock_of = |name: &str| {
        let bar = all.bars.iter().find(|b| b.name == name).map(|b| &design.stocks[b.stock]);
        bar.and_then(|s| of_stock(design, s))
    };
    for f in &design.fastenings {
        let held: Vec<Thing> = [&f.what, &f.to].into_iter().filter_map(|n| stock_of(n)).collect();
        out.extend(through((f.origin, &f.fasteners), held, wet));
    }
    for c in &design.closings {
        let there = design.members.values().filter(|m| m.start == c.joint || m.end == c.joint);
        let held = there.filter_map(|m| of_stock(design, &design.stocks[m.stock])).collect();
        out.extend(through((c.origin, &c.fasteners), held, wet));
    }
    out
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

fn has(name: &str, words: &[&str]) -> bool {
    let n = fold(name);
    words.iter().any(|w| n.contains(w))
}

/// What something is of, by the words of its name; what says that it is free of a thing is not of it.
fn stuff(name: &str) -> Option<Stuff> {
    let rid = |w: &str| {
        has(name, &[&format!("{w}-free"), &format!("{w} free"), &format!("no {w}"), &format!("without {w}")])
    };
    let vinyl = ["vinyl", "soft pvc", "plasticised", "pvc tape", "insulating tape", "electrical tape"];
    if has(name, &vinyl) && !rid("vinyl") {
        return Some(Stuff::PlasticisedVinyl);
    }
    let oil = ["oil paint", "oil-based", "oil based", "enamel", "alkyd", "synthetic resin paint", "petroleum"];
    let of: [(&[&str], Stuff); 11] = [
        (&["thread lock", "threadlock", "thread-lock"], Stuff::ThreadLocker),
        (&oil, Stuff::OilPaint),
        (&["latex paint", "water-based", "water based", "acrylic paint", "emulsion paint"], Stuff::WaterPaint),
        (&["stainless"], Stuff::Stainless),
        (&["aluminium"], Stuff::Aluminium),
        (&["brass"], Stuff::Brass),
        (&["copper"], Stuff::Copper),
        (&["zinc"], Stuff::Zinc),
        (&["galvani"], Stuff::Zinc),
        (&["emt"], Stuff::Zinc),
        (&["steel"], Stuff::Steel),
    ];
    of.into_iter().find(|(words, _)| has(name, words)).map(|(_, s)| s)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn things_by_their_names() {
        assert_eq!(stuff("Vinyl cover"), Some(Stuff::PlasticisedVinyl));
        assert_eq!(stuff("PVC insulating tape"), Some(Stuff::PlasticisedVinyl));
        assert_eq!(stuff("cloth tape, vinyl-free"), None);
        assert_eq!(stuff("Threadlocker blue"), Some(Stuff::ThreadLocker));
        assert_eq!(stuff("thread locker blue"), Some(Stuff::ThreadLocker));
        assert_eq!(stuff("oil paint white"), Some(Stuff::OilPaint));
        assert_eq!(stuff("bolt M8 x 60 stainless steel"), Some(Stuff::Stainless));
        assert_eq!(stuff("bolt M8 x 60"), None);
        assert_eq!(stuff("cement"), None);
    }
}
