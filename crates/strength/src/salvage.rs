//! Wood out of pallets and other second-hand wood, by the words of its entry: what was done to it stands in its stamp, or nobody knows.

use crate::answer::Incompatible;
use crate::limit::{allowance, wooden};
use crate::remark::Open;
use crate::structure::Structure;
use chairwright_design::{Design, Shape, Stock, StockId, Support};
use chairwright_resistance::wording::says;

/// What poisons wood: methyl bromide, `MB` in the stamp of a pallet (ISPM 15, annex 1), and what wood is impregnated with against rot: salts
/// of copper, chromium and arsenic, creosote, pentachlorophenol. From memory, not checked.
const POISON: [&str; 21] = [
    "mb",
    "bromide",
    "cca",
    "arsen*",
    "creosot*",
    "tar oil",
    "pcp",
    "pentachlorophenol",
    "pressure treated",
    "pressure impregnated",
    "treated under pressure",
    "tanalis*",
    "tanaliz*",
    "copper chrom*",
    "chromated copper",
    "chromium copper",
    "railway sleeper*",
    "railway tie*",
    "railroad tie*",
    "lindane",
    "fumigated",
];
/// Treatments of which the word alone does not tell what is in them. Common practice, no source.
const TREATED: [&str; 9] = [
    "treated",
    "impregnated",
    "preservative*",
    "acq",
    "copper azole",
    "sf",
    "chemical*",
    "oil spill",
    "stains",
];
/// Words for wood that had another life. Common practice, no source.
const SALVAGED: [&str; 14] = [
    "pallet*",
    "salvage*",
    "reclaimed",
    "second hand",
    "secondhand",
    "scrap",
    "crate*",
    "driftwood",
    "demolition",
    "dunnage",
    "skip find",
    "scaffold board*",
    "packing case*",
    "cable drum*",
];
/// Stamps of wood that heat alone was used on: `HT`, `KD` dried in a kiln, `DH` heated by waves (ISPM 15, annex 1, the last from memory).
/// `DB`, debarked, tells of no treatment.
const HEATED: [&str; 7] = ["ht", "kd", "dh", "heat treated", "heat treatment", "kiln dried", "oven dried"];

/// What is known of a board's former life.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Past {
    /// Nothing speaks of one, or heat alone was used on it.
    Clean,
    /// It is poisoned.
    Poisoned,
    /// Something was done to it, or may have been.
    Unknown,
}

/// Everything that an entry says in words.
fn said(stock: &Stock) -> String {
    let texts =
        [stock.note.as_deref(), stock.standard.as_deref(), Some(&stock.material.name), Some(&stock.source)];
    texts.into_iter().flatten().fold(stock.name.clone(), |all, t| format!("{all}; {t}"))
}

fn past(design: &Design, stock: &Stock) -> Past {
    let flat = matches!(stock.shape, Shape::Board { .. } | Shape::Sheet { .. });
    // a board or a sheet of what nobody filed may be of wood
    if !allowance(design, &stock.material).map_or(flat, wooden) {
        return Past::Clean;
    }
    let words = said(stock).to_lowercase().replace('-', " ");
    // what heat did is no treatment with anything
    let others = HEATED.iter().filter(|h| h.contains(' ')).fold(words.clone(), |w, h| w.replace(h, ""));
    if says(&others, &POISON) {
        return Past::Poisoned;
    }
    match says(&others, &TREATED) || (says(&words, &SALVAGED) && !says(&words, &HEATED)) {
        true => Past::Unknown,
        false => Past::Clean,
    }
}

/// Poisoned wood that the rider sits on, leans on or stands on.
pub(crate) fn poisoned(design: &Design) -> Vec<Incompatible> {
    let bad = design.supports.iter().filter(|s| past(design, &design.stocks[s.stock]) == Past::Poisoned);
    let told = |s: &Support| Incompatible::Poisoned {
        origin: s.origin,
        stock: design.stocks[s.stock].name.clone(),
        part: s.kind,
    };
    bad.map(told).collect()
}

/// Wood of which nobody knows what was done to it, wherever it is, and poisoned wood that the rider's body does not rest on; each stock once.
pub(crate) fn unknown(design: &Design, all: &Structure) -> Vec<Open> {
    let rests = |id: StockId| design.supports.iter().any(|s| s.stock == id);
    let used = |id: StockId| {
        rests(id) || all.bars.iter().any(|b| b.stock == id) || design.panels.iter().any(|p| p.stock == id)
    };
    let told = design.stocks.iter().filter(|(id, _)| used(*id)).filter_map(|(id, stock)| {
        let poisoned = match past(design, stock) {
            Past::Clean => return None,
            Past::Poisoned if rests(id) => return None,
            Past::Poisoned => true,
            Past::Unknown => false,
        };
        Some(Open::Salvaged { origin: stock.origin, stock: stock.name.clone(), poisoned })
    });
    told.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(words: &str) -> Past {
        let mut design = crate::shipped::design(crate::shipped::PARTS);
        let (id, _) = design.stocks.iter().find(|(_, s)| matches!(s.shape, Shape::Sheet { .. })).unwrap();
        design.stocks[id].note = Some(words.to_owned());
        past(&design, &design.stocks[id])
    }

    #[test]
    fn what_is_written_of_a_board_tells_its_past() {
        for poison in
            ["pallet deck, IPPC stamp DE-001 MB", "treated with CCA, green", "old railway sleeper", "HT and MB"]
        {
            assert_eq!(read(poison), Past::Poisoned, "{poison}");
        }
        for open in [
            "pallet without any stamp",
            "out of a crate",
            "treated pine",
            "pallet, DB",
            "no stamp HT, from a pallet",
        ] {
            assert_eq!(read(open), Past::Unknown, "{open}");
        }
        for clean in
            ["pallet, stamped HT", "pallet, PL-12 345 HT DB", "heat-treated", "KD 19", "untreated", "planed"]
        {
            assert_eq!(read(clean), Past::Clean, "{clean}");
        }
    }
}
