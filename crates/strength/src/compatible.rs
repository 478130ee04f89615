//! Things that must not touch, and glues that do not stand the place: told by the words of their names, for nobody
//! writes the chemistry of a tape into a plan.

use crate::answer::Incompatible;
use crate::gluing::{class, exposure};
use crate::limit::{allowance, family, wooden};
use crate::metals::clashes;
use crate::remark::Open;
use crate::side::without_side;
use crate::structure::Structure;
use chairwright_design::{BoxBeam, Design, Origin, Shape, Stock, fold};
use chairwright_resistance::compatible::{Stuff, Touch, Wetness, touching};
use chairwright_resistance::glue::suits;
use std::collections::BTreeSet;

/// A thing that something is known of.
pub(crate) struct Thing {
    pub origin: Origin,
    pub name: String,
    pub stuff: Stuff,
}

/// Materials and glues that do not go together, or not with the climate.
pub(crate) fn incompatible(design: &Design, all: &Structure) -> Vec<Incompatible> {
    let wet = wetness(design);
    let mut out = on_plastic(design, wet);
    out.extend(glues(design, wet));
    out.extend(crate::salvage::poisoned(design));
    out.extend(crate::afloat::belts(design));
    for pair in clashes(design, all, wet) {
        if !out.contains(&pair) {
            out.push(pair);
        }
    }
    out
}

/// How wet a word of the conditions is.
pub(crate) fn wetness(design: &Design) -> Wetness {
    match design.conditions.words.get("water").map(String::as_str) {
        None | Some("none") => Wetness::None,
        Some("rain") => Wetness::Rain,
        Some("salt") => Wetness::Salt,
        Some(_) => Wetness::Fresh,
    }
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
        Some(Thing { origin: s.origin, name: of.name.clone(), stuff: stuff(&described(of))? })
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

fn glues(design: &Design, wet: Wetness) -> Vec<Incompatible> {
    // in the rain a joint of a chair is wetted and dries: sheltered, as the chair is not left there
    let climate = exposure(wet != Wetness::None);
    let weak = |g: &&String| class(g).is_some_and(|class| !suits(class, climate).climate);
    let told = |(origin, glue): (Origin, &String)| Incompatible::Glue { origin, glue: glue.clone() };
    named_glues(design).filter(|(_, g)| weak(g)).map(told).collect()
}

/// Glues of joints, and those that are only bought: nothing else says what the corners of boxes are glued with.
fn named_glues(design: &Design) -> impl Iterator<Item = (Origin, &String)> {
    let joints = design.closings.iter().filter_map(|c| Some((c.origin, c.glue.as_ref()?)));
    let joint = |g: &String| design.closings.iter().any(|c| c.glue.as_ref() == Some(g));
    let bought = design.supplies.iter().map(|s| (s.origin, &s.name)).filter(move |(_, g)| !joint(g));
    joints.chain(bought)
}

/// Glues of which no word tells whether they hold wood or stand water: beside fasteners, and for boxes; and wood of which none tells what was
/// done to it.
pub(crate) fn unclassed(design: &Design, all: &Structure) -> Vec<Open> {
    let open = |origin, glue: &String| Open::GlueClass { origin, glue: glue.clone() };
    // a joint that glue alone holds is told where it is judged
    let beside = design.closings.iter().filter(|c| !c.fasteners.is_empty());
    let beside = beside.filter_map(|c| Some((c.origin, c.glue.as_ref().filter(|g| class(g).is_none())?)));
    let wood = all.bars.iter().any(|b| allowance(design, &design.stocks[b.stock].material).is_some_and(wooden));
    let joint = |g: &String| design.closings.iter().any(|c| c.glue.as_ref() == Some(g));
    let glue = |s: &&chairwright_design::Supply| wood && has(&s.name, &["glue", "adhesive"]);
    let bought = design.supplies.iter().filter(glue).filter(|s| class(&s.name).is_none() && !joint(&s.name));
    let told = beside.chain(bought.map(|s| (s.origin, &s.name))).map(|(o, g)| open(o, g));
    told.chain(unnamed(design)).chain(crate::salvage::unknown(design, all)).collect()
}

/// Boxes of wood in the wet whose corners nobody names a glue for: there any glue will not do.
fn unnamed(design: &Design) -> Option<Open> {
    let wood = |b: &&BoxBeam| allowance(design, &design.stocks[b.stock].material).is_some_and(wooden);
    let mut boxes = design.boxes.iter().filter(wood).filter(|_| wetness(design) != Wetness::None);
    let first = boxes.next()?;
    let named = named_glues(design).any(|(_, g)| class(g).is_some() || has(g, &["glue", "adhesive"]));
    let name = without_side(&first.name);
    let others: BTreeSet<String> = boxes.map(|b| without_side(&b.name)).filter(|n| *n != name).collect();
    (!named).then_some(Open::CornerGlue { origin: first.origin, name, rest: others.len() })
}

/// What lies on the plastic of a chair and of which no word tells whether there is vinyl or a solvent in it: slings and
/// covers, tapes, and what is bought under a name that says nothing.
pub(crate) fn unknown_stuff(design: &Design) -> Vec<Open> {
    let Some(plastic) = design.stocks.values().find(|s| family(design, &s.material) == "plastic") else {
        return Vec::new();
    };
    let unknown = |words: &str| stuff(words).is_none() && !harmless(words);
    let slings = design.supports.iter().filter_map(|s| {
        let of = &design.stocks[s.stock];
        let cloth = matches!(of.shape, Shape::Webbing { .. });
        (cloth && unknown(&described(of))).then(|| (s.origin, of.name.clone()))
    });
    let words = |n: &str| unknown(n) && !has(n, &PAINTS) && !has(n, &["glue", "adhesive"]);
    let bought = design.supplies.iter().filter(|s| words(&s.name)).map(|s| (s.origin, s.name.clone()));
    let cover = |n: &str| has(n, &["cover", "upholster", "grip", "tape", "padding", "wrap"]) && unknown(n);
    let items = design.items.iter().filter(|i| cover(&i.part.name)).map(|i| (i.origin, i.part.name.clone()));
    let of_plastic = |stock| family(design, &design.stocks[stock].material) == "plastic";
    let sleeves = design.members.values().flat_map(|m| m.sleeves.iter().map(move |s| (m, s)));
    let sleeves = sleeves.filter(|(m, s)| of_plastic(m.stock) || of_plastic(s.stock));
    let shims = sleeves.filter_map(|(_, s)| Some((s.origin, s.shim.clone().filter(|with| unknown(with))?)));
    let told = |(origin, what)| Open::Stuff { origin, what, plastic: plastic.name.clone() };
    let told = slings.chain(bought).chain(items).chain(shims).map(told);
    // of a paint the name has to say what it is thinned with
    let coats = design.supplies.iter().filter(|s| has(&s.name, &PAINTS) && stuff(&s.name).is_none());
    let coats =
        coats.map(|s| Open::Paint { origin: s.origin, paint: s.name.clone(), plastic: plastic.name.clone() });
    told.chain(coats).collect()
}

/// Names of what holds no plasticiser and no solvent that stays: fibres, rubber, metal, wood, what cleans or cements
/// pipe, and fasteners. Common practice, no source.
fn harmless(name: &str) -> bool {
    const WORDS: [&str; 43] = [
        "nylon",
        "polyester",
        "polypropylene",
        "polyethylene",
        "cotton",
        "canvas",
        "wool",
        "felt",
        "linen",
        "jute",
        "hemp",
        "denim",
        "leather belt",
        "cowhide",
        "webbing",
        "strap",
        "silicone",
        "neoprene",
        "sandpaper",
        "emery",
        "oil finish",
        "linseed",
        "wax",
        "plywood",
        "wood",
        "bamboo",
        "cork",
        "epoxy",
        "resorcinol",
        "screw",
        "bolt",
        "nut",
        "washer",
        "rivet",
        "nail",
        "wire",
        "cable tie",
        "cord",
        "rope",
        "thread seal",
        "cloth tape",
        "vinyl-free",
        "vinyl free",
    ];
    // what locks nuts is no nut, but a nut that locks is one
    let locks = has(name, &["nut lock", "nutlock", "bolt lock", "boltlock"]) && !has(name, &["washer", "wire"]);
    // what cements or cleans pipe is made for it; what else is called so is a solvent of which nobody knows
    let solvent =
        has(name, &["cement", "primer", "cleaner", "remover", "thinner", "polish", "stripper", "solvent"]);
    let for_pipe = has(name, &["pvc", "pipe", "solvent cement"]);
    if solvent { for_pipe } else { has(name, &WORDS) && !locks }
}

/// Names of coats. Common practice, no source.
const PAINTS: [&str; 5] = ["paint", "varnish", "lacquer", "primer spray", "spray can"];

/// Everything that an entry of cloth or sheet says of what it is of.
fn described(stock: &Stock) -> String {
    format!("{} {} {}", stock.name, stock.material.name, stock.note.as_deref().unwrap_or(""))
}

fn has(name: &str, words: &[&str]) -> bool {
    any(&fold(name), words)
}

fn any(folded: &str, words: &[&str]) -> bool {
    words.iter().any(|w| folded.contains(w))
}

/// What something is of, by the words of its name; what says that it is free of a thing is not of it.
pub(crate) fn stuff(name: &str) -> Option<Stuff> {
    let folded = fold(name);
    let has = |words: &[&str]| any(&folded, words);
    let rid = |w: &str| {
        let ways = ["no", "without", "not", "non", "never"].map(|n| [format!("{n} {w}"), format!("{n}-{w}")]);
        has(&[&format!("{w}-free"), &format!("{w} free")]) || ways.iter().flatten().any(|d| has(&[d]))
    };
    let vinyl = ["vinyl", "soft pvc", "plasticised", "plasticized", "insulating tape", "electrical tape"];
    // vinyl that is bent, sewn or wound is soft, which rigid vinyl becomes by its plasticiser alone
    let soft = [
        "coated", "cloth", "fabric", "leather", "tarp", "foil", "film", "tape", "cover", "grip", "canvas",
        "curtain",
    ];
    if (has(&vinyl) && !rid("vinyl")) || (has(&["pvc"]) && has(&soft) && !rid("pvc")) {
        return Some(Stuff::PlasticisedVinyl);
    }
    if stainless(&folded) {
        return Some(Stuff::Stainless);
    }
    let oil = ["oil paint", "oil-based", "oil based", "enamel", "alkyd", "synthetic resin paint", "petroleum"];
    let of: [(&[&str], Stuff); 11] = [
        (
            &[
                "thread lock",
                "threadlock",
                "thread-lock",
                "screw lock",
                "screwlock",
                "anaerobic",
                "retaining compound",
            ],
            Stuff::ThreadLocker,
        ),
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
    of.into_iter().find(|(words, _)| has(words)).map(|(_, s)| s)
}

/// Grades of stainless steel by whole words: those of fasteners after ISO 3506, the others by their trade or AISI names; from memory,
/// not checked. A bare number may be a length.
fn stainless(folded: &str) -> bool {
    let has = |words: &[&str]| folded.split(|c: char| !c.is_alphanumeric()).any(|w| words.contains(&w));
    let fastener = any(folded, &["bolt", "screw", "nail", "rivet", "nut", "washer", "stud"]);
    let steel = has(&["ss", "steel", "aisi"]);
    has(&["inox", "v2a", "v4a", "304l", "316l"])
        || (fastener && has(&["a2", "a4"]))
        || (steel && has(&["304", "316"]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_solvent_is_known_where_it_is_for_pipe() {
        for name in ["PVC cement", "pipe primer", "solvent cement", "pipe cleaner PVC"] {
            assert!(harmless(name), "{name}");
        }
        for name in ["brake cleaner", "contact cement", "nail polish remover", "metal primer grey"] {
            assert!(!harmless(name), "{name}");
        }
    }

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
        for name in [
            "bolt M8 x 80 A4",
            "bolt M8 x 60 A2-70",
            "bolt M8 x 80 inox",
            "screw 5 x 60 ss 316",
            "bolt M6 x 40 SS 304",
        ] {
            assert_eq!(stuff(name), Some(Stuff::Stainless), "{name}");
        }
        assert_eq!(stuff("bolt M8 x 304"), None);
        assert_eq!(stuff("cement"), None);
        assert_eq!(stuff("marine leatherette pvc-coated cloth"), Some(Stuff::PlasticisedVinyl));
        assert_eq!(stuff("pvc sheet 4 mm PVC-U sheet"), None);
        assert_eq!(stuff("screw lock, medium"), Some(Stuff::ThreadLocker));
    }

    #[test]
    fn what_no_word_tells_is_not_harmless() {
        for name in [
            "leatherette",
            "tarpaulin",
            "sticky stuff 243",
            "cover of unknown cloth",
            "leather-look",
            "nut lock",
        ] {
            assert!(stuff(name).is_none() && !harmless(name), "{name}");
        }
        for name in [
            "webbing 50 mm polyester webbing",
            "canvas cotton canvas",
            "solvent cement",
            "vinyl-free tape",
            "lock nut M8",
        ] {
            assert!(harmless(name), "{name}");
        }
    }
}
