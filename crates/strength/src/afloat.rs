//! Belts in water: a chair that rolls over in it drowns a rider who is tied to it.

use crate::answer::Incompatible;
use crate::compatible::wetness;
use chairwright_design::{Design, ItemKind, Origin};
use chairwright_resistance::compatible::Wetness;
use chairwright_resistance::wording::says;

/// Words for what holds a rider in a chair. Common practice, no source.
const BELTS: [&str; 6] = ["*belt", "*belts", "harness*", "vest", "chest strap*", "seat restraint"];
/// Straps that hold a part of the rider, where they are named for it.
const STRAPS: [&str; 2] = ["*strap", "*straps"];
/// Straps and belts that hold things.
const FOR_THINGS: [&str; 14] = [
    "packing",
    "luggage",
    "bag*",
    "tie down",
    "tiedown",
    "cargo",
    "tool*",
    "transport",
    "tension*",
    "ratchet",
    "drive",
    "life",
    "pet",
    "carry*",
];

/// Belts of a chair that goes into water.
pub(crate) fn belts(design: &Design) -> Vec<Incompatible> {
    let wet = wetness(design);
    if !matches!(wet, Wetness::Fresh | Wetness::Salt) {
        return Vec::new();
    }
    let told =
        |(origin, name): (Origin, &String)| Incompatible::BeltInWater { origin, belt: name.clone(), wet };
    let belt = |n: &str| says(n, &BELTS) && !says(n, &FOR_THINGS);
    let strap = |n: &str| belt(n) || (says(n, &STRAPS) && !says(n, &FOR_THINGS));
    let items =
        design.items.iter().filter(|i| i.kind == ItemKind::Belt || strap(&i.part.name) || strap(&i.name));
    let items = items.map(|i| (i.origin, &i.part.name));
    let carried = design.carried.iter().filter(|c| strap(&c.name)).map(|c| (c.origin, &c.name));
    // straps are bought by the metre for many things
    let supplies = design.supplies.iter().filter(|s| belt(&s.name)).map(|s| (s.origin, &s.name));
    items.chain(carried).chain(supplies).map(told).collect()
}
