//! Reinforcements and their prices in a builder's words.

use crate::reinforce::Reinforcement;
use crate::sides::folded;
use crate::words::Words;
use chairwright_cost::{Bought, Difference};
use chairwright_quantity::{Dimension, Display, Quantity};
use chairwright_strength::How;

/// What to do, without its price: `"pipe 2 in" over it from 20 mm to 220 mm, 200 mm long`.
#[must_use]
pub fn mend_words(r: &Reinforcement, display: Display) -> String {
    let length = |m: f64| display.text(Quantity::from_si(m, Dimension::LENGTH));
    match r.how {
        How::Sleeve(_, from, to) => format!(
            "a sleeve of \"{}\" {} it from {} to {}, {} long",
            r.stock,
            if r.inside { "inside" } else { "over" },
            length(from),
            length(to),
            length(to - from)
        ),
        _ => format!("\"{}\" in its place", r.stock),
    }
}

/// What it costs, in words; whatever has no price is named.
#[must_use]
pub fn cost_words(cost: &Difference) -> String {
    if !cost.unpriced.is_empty() {
        let keys: Vec<String> = cost.unpriced.iter().map(|k| format!("\"{k}\"")).collect();
        return format!("no price for {}: ask before you decide", keys.join(", "));
    }
    let Some(money) = cost.money else {
        return "without a price book there is no price".to_owned();
    };
    let code = money.dimension.money.map_or(String::new(), |(c, _)| format!(" {}", c.code()));
    if cost.bought.is_empty() {
        return "nothing more to buy: what is on hand or left over is enough".to_owned();
    }
    let one = |b: &Bought| {
        let more = if b.more < 0 { "less" } else { "more" };
        format!("{} {more} of \"{}\" ({}, {:.2} each)", b.more.abs(), b.key, b.unit, b.price.si())
    };
    let list: Vec<String> = cost.bought.iter().map(one).collect();
    let (sum, word) = (money.si(), if money.si() < 0.0 { "less" } else { "more" });
    format!("{:.2}{code} {word}: {}", sum.abs(), list.join("; "))
}

/// Mass that is added, in words.
#[must_use]
pub fn mass_words(kg: f64) -> String {
    let word = if kg < 0.0 { "less" } else { "more" };
    format!("{:.2} kg {word}", kg.abs())
}

impl Words<'_> {
    /// What brings a failing member back, for the finding about it.
    pub(crate) fn mend(&self, r: &Reinforcement) -> String {
        let after = if r.used <= 1.0 {
            "that brings it back in this load case"
        } else {
            "then it no longer surely breaks in this load case, and a test must tell"
        };
        let parts = folded(r.parts.iter().map(String::as_str)).join(", ");
        let joints = match r.how {
            How::Stock(_) => "; what its joints then need is not counted",
            _ => "",
        };
        format!(
            "{parts}: {}; {after}. {}; {}{joints}",
            mend_words(r, self.display),
            mass_words(r.mass),
            cost_words(&r.cost)
        )
    }
}
