//! The smallest reinforcement that brings a failing member back: tried one by one, the lightest first,
//! each in the load case that is worst for the member, and what helps there in every case.

use crate::answer::{How, Item, Mend, Verdict, What};
use crate::bar::{Bar, Of, Sheath};
use crate::case::Case;
use crate::form::Form;
use crate::judge::{Court, rank, verdict};
use crate::matter::matters;
use crate::side::without_side;
use crate::sleeve::{PLAY, play};
use crate::solve::{Bench, Run};
use crate::structure::Structure;
use chairwright_design::{Shape, StockId};

/// Members that a reinforcement is looked for, and changes that are tried for each.
const MEMBERS: usize = 3;
const TRIES: usize = 8;
/// How far a short sleeve reaches to either side of the worst place, m.
const REACH: f64 = 0.1;

/// One change, and its mass in kg.
struct Try {
    mass: f64,
    how: How,
}

pub(crate) fn mends(court: &Court<'_>, bench: &Bench<'_>, cases: &[Case], items: &[Item]) -> Vec<Mend> {
    let mut out: Vec<Mend> = Vec::new();
    for item in items.iter().filter(|i| i.verdict == Verdict::Fail) {
        let What::Bar(Of::Member(_)) = item.what else { continue };
        if let Some(twin) = out.iter().find(|m| without_side(&m.name) == without_side(&item.name)) {
            let twin = Mend { name: item.name.clone(), ..twin.clone() };
            out.push(twin);
            continue;
        }
        if out.len() >= 2 * MEMBERS {
            break;
        }
        out.extend(mend(court, bench, (cases, items), item));
    }
    out
}

fn mend(court: &Court<'_>, bench: &Bench<'_>, (cases, items): (&[Case], &[Item]), item: &Item) -> Option<Mend> {
    let bar = bench.all.bars.iter().find(|b| What::Bar(b.of) == item.what)?;
    let mut tries = sleeves(court, bar, item.at);
    tries.extend(larger(court, bar));
    tries.sort_by(|a, b| a.mass.total_cmp(&b.mass));
    let mut second: Option<Mend> = None;
    for one in tries.into_iter().take(TRIES) {
        let worst = std::slice::from_ref(&cases[item.case]);
        let in_worst = tried(court, bench, (worst, items), item, &one.how);
        if in_worst.is_none_or(|used| verdict(used) == Verdict::Fail) {
            continue;
        }
        let Some(used) = tried(court, bench, (cases, items), item, &one.how) else { continue };
        let mend = Mend { name: item.name.clone(), how: one.how, used: used.1 };
        match verdict(used) {
            Verdict::Pass => return Some(mend),
            // of what only a test tells, the one that is used least
            Verdict::CannotTell if second.as_ref().is_none_or(|s| mend.used < s.used) => second = Some(mend),
            _ => {}
        }
    }
    Some(second.unwrap_or(Mend { name: item.name.clone(), how: How::Nothing, used: item.used.1 }))
}

/// Round stocks that slide into or over a bar with little play, over a short stretch and over all of it.
fn sleeves(court: &Court<'_>, bar: &Bar, at: f64) -> Vec<Try> {
    let host = &court.design.stocks[bar.stock];
    let mut out = Vec::new();
    for (id, stock) in court.design.shelf.iter() {
        let slides = play(host, stock).is_some_and(|p| p.low >= 0.0 && p.high <= PLAY);
        if !slides || stock.material.modulus.is_none() {
            continue;
        }
        let inside = outside(stock) < outside(host);
        let Some(piece) = bar.stretches.iter().find(|s| s.from <= at + 1e-6 && at <= s.to + 1e-6) else {
            continue;
        };
        // over a pipe a sleeve stops at the sockets; inside it runs on to the stop
        let grip = if inside { [0.0; 2] } else { piece.grip };
        let (first, last) = (piece.from + grip[0], piece.to - grip[1]);
        for (from, to) in [((at - REACH).max(first), (at + REACH).min(last)), (first, last)] {
            if to - from > 0.02 {
                let mass = stock.mass_per_length() * (to - from);
                out.push(Try { mass, how: How::Sleeve(id, from, to) });
            }
        }
    }
    out
}

fn outside(stock: &chairwright_design::Stock) -> f64 {
    match stock.shape {
        Shape::Tube { outer, .. } => outer.mid(),
        Shape::Rod { diameter } => diameter,
        _ => 0.0,
    }
}

/// Larger stocks of the same material, by what they weigh more.
fn larger(court: &Court<'_>, bar: &Bar) -> Vec<Try> {
    let own = &court.design.stocks[bar.stock];
    let (modulus, mass) = (own.shape.section().modulus, own.mass_per_length());
    let fits =
        court.design.shelf.iter().filter(|(_, s)| {
            s.material.name == own.material.name && s.shape.section().modulus > 1.05 * modulus
        });
    fits.map(|(id, s)| Try {
        mass: ((s.mass_per_length() - mass) * bar.length()).max(0.001),
        how: How::Stock(id),
    })
    .collect()
}

/// How far the member is used with the change, in the worst of these cases; `None` where another part then fails that
/// did not.
fn tried(
    court: &Court<'_>,
    bench: &Bench<'_>,
    (cases, items): (&[Case], &[Item]),
    item: &Item,
    how: &How,
) -> Option<(f64, f64)> {
    // stocks of the shelf come behind those of the design, so that both can be named
    let mut design = court.design.clone();
    let add = |design: &mut chairwright_design::Design, id: StockId| {
        let stock = court.design.shelf.get(id)?;
        let form = Form::of(&stock.shape)?;
        Some((design.stocks.push(stock.clone()), form))
    };
    let mut all: Structure = bench.all.clone();
    let same = |b: &Bar| matches!(b.of, Of::Member(_)) && without_side(&b.name) == without_side(&item.name);
    match *how {
        How::Sleeve(id, from, to) => {
            let (stock, form) = add(&mut design, id)?;
            all.bars
                .iter_mut()
                .filter(|b| same(b))
                .for_each(|b| b.sheaths.push(Sheath { from, to, stock, form, play: 0.0 }));
        }
        How::Stock(id) => {
            let (stock, form) = add(&mut design, id)?;
            for b in all.bars.iter_mut().filter(|b| same(b)) {
                (b.stock, b.form) = (stock, form);
            }
        }
        How::Nothing => return None,
    }
    let matters = matters(&design, &all, &court.climate);
    let bench = Bench { all: &all, matters: &matters, feet: bench.feet };
    let mut runs = bench.run(cases, None, &[]);
    let sits = court;
    let mut court = Court::new(&design, &all, &matters, court.climate);
    court.sit_as(sits);
    crate::lean::look(&court, (&bench, &[]), cases, &mut runs);
    let runs: Vec<Option<&Run>> = runs.iter().map(|r| r.as_ref().ok()).collect();
    let turns = |case: &Case, run: &Run| {
        run.cuts.iter().any(|c| same(&all.bars[c.bar]) && crate::edgewise::turns(&court, case.lasting, c))
    };
    // a deeper board that may turn over on edge is no reinforcement
    if cases.iter().zip(&runs).any(|(case, run)| run.is_some_and(|run| turns(case, run))) {
        return None;
    }
    let after = court.items(&court.hear(cases, &runs));
    let fails = |all: &[Item], name: &str| all.iter().any(|i| i.verdict == Verdict::Fail && i.name == name);
    let news = |i: &&Item| i.verdict == Verdict::Fail && i.what != item.what && !fails(items, &i.name);
    if runs.iter().any(Option::is_none) || after.iter().any(|i| news(&i)) {
        return None;
    }
    let mine = after.iter().filter(|i| i.what == item.what).map(|i| i.used);
    let used = mine.reduce(|a, b| if rank(b) > rank(a) { b } else { a }).unwrap_or_default();
    // what nothing is known of is no reinforcement
    (used.1 > 0.0).then_some(used)
}

#[cfg(test)]
mod tests;
