//! Reinforcements and their prices in a builder's words.

use crate::reinforce::Reinforcement;
use crate::sides::folded;
use crate::strengthen::{Change, Strengthening};
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
            "a sleeve of \"{}\" {} it from {} to {}, {} long, shimmed so that it has no play",
            r.stock,
            if r.inside { "inside" } else { "over" },
            length(from),
            length(to),
            length(to - from)
        ),
        _ => format!("\"{}\" in its place", r.stock),
    }
}

/// What a change of the text does, without its price.
#[must_use]
pub fn change_words(change: &Change) -> String {
    match change {
        Change::Sleeve(stock, inside) => {
            format!(
                "a sleeve of \"{stock}\" {} it, shimmed so that it has no play",
                if *inside { "inside" } else { "over" }
            )
        }
        Change::Stock(stock) => format!("\"{stock}\" in its place"),
        Change::More(from, to) => format!("{to} instead of {from} of them"),
        Change::Washers => "large washers under heads and nuts".to_owned(),
        Change::Glue => "glue beside the fasteners".to_owned(),
        Change::MoreAndGlue(from, to) => format!("{to} instead of {from} of them, and glue"),
        Change::Placed(n, text) => format!("{n} of them, {text}"),
        Change::Gusset => "gusset plates on both faces".to_owned(),
        Change::Thicker(stock) => format!("\"{stock}\" instead"),
        Change::Larger => "a larger box".to_owned(),
        Change::Box(stock) => format!("a closed box of \"{stock}\" in its place"),
        Change::Doubler => "a second board beside it".to_owned(),
        Change::Web(stock) => format!("a web of \"{stock}\" to the member along it"),
    }
}

/// A proven change with its text, for the finding about the part.
#[must_use]
pub fn strengthening_words(s: &Strengthening) -> String {
    let after = if s.holds {
        "with it the part holds in every load case"
    } else {
        "with it no load case surely breaks the part, and a test must tell"
    };
    with_text(s, &format!("; {after}."))
}

/// The same of a part of which only a test tells, for the finding that says so of several.
#[must_use]
pub fn clearing_words(s: &Strengthening) -> String {
    with_text(s, ";")
}

fn with_text(s: &Strengthening, then: &str) -> String {
    let parts = folded(s.parts.iter().map(String::as_str)).join(", ");
    let how = if s.was.is_empty() { "add" } else { "write" };
    let text = s.is.lines().collect::<Vec<_>>().join(" / ");
    format!(
        "{parts}: {}{then} {}; {}{}; {how}: {text}",
        change_words(&s.change),
        mass_words(s.mass),
        cost_words(&s.cost),
        brings_words(s)
    )
}

/// What is told with it that is not told now, in words; nothing where nothing is.
#[must_use]
pub fn brings_words(s: &Strengthening) -> String {
    if s.brings.is_empty() {
        return String::new();
    }
    format!("; it brings what is not there now: {}", s.brings.join("; "))
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
            "that brings it back"
        } else {
            "then it no longer surely breaks, and a test must tell"
        };
        let parts = folded(r.parts.iter().map(String::as_str)).join(", ");
        let joints = match r.how {
            How::Stock(_) => "; what its joints then need, fittings and solvent cement, is not counted",
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
