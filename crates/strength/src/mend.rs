//! The smallest reinforcement that brings a failing member back, or clears the doubt about one of which only a test tells: tried
//! one by one, the lightest first, each in the load case that is worst for the member, and what helps there in every case.

use crate::answer::{How, Item, Mend, Mode, Untold, Verdict, What};
use crate::bar::{Bar, Of, Sheath};
use crate::case::Case;
use crate::form::Form;
use crate::judge::{Court, rank, verdict};
use crate::matter::{Matter, matters};
use crate::model::Setup;
use crate::side::without_side;
use crate::sleeve::{PLAY, play};
use crate::solve::{Bench, Cut, Ready, Run, Trouble};
use crate::structure::Structure;
use chairwright_design::{Design, Shape};

/// Members that a reinforcement is looked for, both sides as one, and changes that are tried for each.
const MEMBERS: usize = 6;
const TRIES: usize = 8;
/// Changes of a chair that are looked at in every load case: each costs as much as the chair itself does.
const WHOLE: usize = 12;
/// How far a short sleeve reaches to either side of the worst place, m.
const REACHES: [f64; 2] = [0.1, 0.2];

/// One change, and its mass in kg.
struct Try {
    mass: f64,
    how: How,
}

/// Of members that surely fail.
pub(crate) fn mends(court: &Court<'_>, bench: &Bench<'_>, cases: &[Case], items: &[Item]) -> Vec<Mend> {
    let members: Vec<&Item> = items.iter().filter(|i| i.verdict == Verdict::Fail && is_member(i)).collect();
    of_all(court, bench, (cases, items), &members)
}

/// Of members of which only a test tells, that hold in every load case with it.
pub(crate) fn clears(
    court: &Court<'_>,
    bench: &Bench<'_>,
    (cases, items): (&[Case], &[Item]),
    untold: &[Untold],
) -> Vec<Mend> {
    let doubted = crate::answer::doubted(items, untold);
    let members: Vec<&Item> = doubted.into_iter().filter(|i| is_member(i)).collect();
    let found = of_all(court, bench, (cases, items), &members);
    found.into_iter().filter(|m| m.how != How::Nothing).collect()
}

fn is_member(item: &Item) -> bool {
    matches!(item.what, What::Bar(Of::Member(_)))
}

fn of_all(
    court: &Court<'_>,
    bench: &Bench<'_>,
    (cases, items): (&[Case], &[Item]),
    members: &[&Item],
) -> Vec<Mend> {
    let mut works: Vec<Work<'_>> = Vec::new();
    for item in members {
        let twin = works.iter().any(|w| without_side(&w.item.name) == without_side(&item.name));
        if !twin && works.len() < MEMBERS {
            works.extend(Work::new(court, bench, item));
        }
    }
    in_turn(court, bench, (cases, items), &mut works, WHOLE);
    let found: Vec<Mend> = works.into_iter().filter_map(Work::found).collect();
    let of = |item: &Item| {
        let mine = found.iter().find(|m| without_side(&m.name) == without_side(&item.name))?;
        Some(Mend { name: item.name.clone(), ..mine.clone() })
    };
    members.iter().copied().filter_map(of).collect()
}

/// One look in every load case for each part in turn, so that none uses up what is left for all of them: until each has what it
/// needs, or has tried everything, or no more may be looked at.
fn in_turn(
    court: &Court<'_>,
    bench: &Bench<'_>,
    (cases, items): (&[Case], &[Item]),
    works: &mut [Work<'_>],
    mut left: usize,
) {
    while left > 0 && works.iter().any(|w| !w.over()) {
        for work in works.iter_mut() {
            if left > 0 {
                work.turn(court, bench, (cases, items), &mut left);
            }
        }
    }
}

/// A part that a reinforcement is looked for.
struct Work<'a> {
    item: &'a Item,
    /// What is still to be tried, the lightest last.
    tries: Vec<Try>,
    /// With it the part holds.
    first: Option<Mend>,
    /// Of what only a test tells, the one that is used least.
    second: Option<Mend>,
}

impl<'a> Work<'a> {
    fn new(court: &Court<'_>, bench: &Bench<'_>, item: &'a Item) -> Option<Work<'a>> {
        let bar = bench.all.bars.iter().find(|b| What::Bar(b.of) == item.what)?;
        let mut tries = sleeves(court, bar, item.at);
        tries.extend(larger(court, bar));
        tries.sort_by(|a, b| a.mass.total_cmp(&b.mass));
        tries.truncate(TRIES);
        tries.reverse();
        Some(Work { item, tries, first: None, second: None })
    }

    fn over(&self) -> bool {
        self.first.is_some() || self.tries.is_empty()
    }

    /// Tries on until one change was looked at in every load case.
    fn turn(&mut self, court: &Court<'_>, bench: &Bench<'_>, known: (&[Case], &[Item]), left: &mut usize) {
        let before = *left;
        while *left == before && !self.over() {
            let Some(one) = self.tries.pop() else { return };
            let Some(used) = tried(court, bench, known, (self.item, &one.how), left) else { continue };
            let mend = Mend { name: self.item.name.clone(), how: one.how, used: used.1 };
            match verdict(used) {
                Verdict::Pass => self.first = Some(mend),
                Verdict::CannotTell if self.second.as_ref().is_none_or(|s| mend.used < s.used) => {
                    self.second = Some(mend);
                }
                _ => {}
            }
        }
    }

    /// `None` where nothing was found before no more might be tried.
    fn found(self) -> Option<Mend> {
        let nothing = Mend { name: self.item.name.clone(), how: How::Nothing, used: self.item.used.1 };
        let all = self.tries.is_empty().then_some(nothing);
        self.first.or(self.second).or(all)
    }
}

/// Round stocks that slide into or over a bar with little play, over shorter stretches and over all of it.
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
        let short = REACHES.map(|reach| ((at - reach).max(first), (at + reach).min(last)));
        let mut spans = [short[0], short[1], (first, last)].to_vec();
        spans.dedup();
        for (from, to) in spans {
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

/// The chair with a change in it: what it is judged from.
struct Changed {
    design: Design,
    all: Structure,
    matters: Vec<Matter>,
}

impl Changed {
    /// `None` where the stock of a change has no shape that can be reckoned with.
    fn new(court: &Court<'_>, bench: &Bench<'_>, item: &Item, how: &How) -> Option<Changed> {
        let (How::Sleeve(id, ..) | How::Stock(id)) = *how else { return None };
        // stocks of the shelf come behind those of the design, so that both can be named
        let mut design = court.design.clone();
        let new = court.design.shelf.get(id)?;
        let form = Form::of(&new.shape)?;
        let stock = design.stocks.push(new.clone());
        let mut all = bench.all.clone();
        for b in all.bars.iter_mut().filter(|b| same(b, item)) {
            match *how {
                How::Sleeve(_, from, to) => b.sheaths.push(Sheath { from, to, stock, form, play: 0.0 }),
                _ => (b.stock, b.form) = (stock, form),
            }
        }
        let matters = matters(&design, &all, &court.climate);
        Some(Changed { design, all, matters })
    }
}

/// Whether a bar is the member of an item, on either side.
fn same(b: &Bar, item: &Item) -> bool {
    matches!(b.of, Of::Member(_)) && without_side(&b.name) == without_side(&item.name)
}

/// How far the member is used with the change, over all cases; `None` where it or another part then fails that did not. The
/// case that was worst refuses most changes, for the price of one; only what stands there is looked at in every case, and of
/// that only so much as is `left`.
fn tried(
    court: &Court<'_>,
    bench: &Bench<'_>,
    (cases, items): (&[Case], &[Item]),
    (item, how): (&Item, &How),
    left: &mut usize,
) -> Option<(f64, f64)> {
    let changed = Changed::new(court, bench, item, how)?;
    let bench = Bench { all: &changed.all, matters: &changed.matters, feet: bench.feet };
    let mut own = Court::new(&changed.design, &changed.all, &changed.matters, court.climate);
    own.sit_as(court);
    let trial = Trial { court: own, bench: &bench, items, item };
    let worst = std::slice::from_ref(&cases[item.case]);
    let mut ready = vec![bench.ready(&worst[0].setup, &[]).ok()?];
    trial.used(worst, &ready)?;
    *left = left.checked_sub(1)?;
    // setups that differ little from these go by their factors
    for setup in [false, true].map(|lasting| Setup { lasting, ..Setup::default() }) {
        if ready.iter().all(|r| r.setup != setup) {
            let next = bench.ready(&setup, &[&ready[0]]).ok()?;
            ready.push(next);
        }
    }
    trial.used(cases, &ready)
}

/// A changed chair before its court.
struct Trial<'a> {
    court: Court<'a>,
    bench: &'a Bench<'a>,
    items: &'a [Item],
    item: &'a Item,
}

impl Trial<'_> {
    /// How far the member is used in the worst of these cases; `None` where it or another part fails that did not, or nothing
    /// is known of it.
    fn used(&self, cases: &[Case], ready: &[Ready]) -> Option<(f64, f64)> {
        let known: Vec<&Ready> = ready.iter().collect();
        let mut runs = self.bench.run(cases, None, &known);
        if runs.iter().any(Result::is_err) || self.turns(cases, &runs) {
            return None;
        }
        let mut after = self.judged(cases, &runs);
        let leans = |(case, run): (&Case, &Result<Run, Trouble>)| {
            run.as_ref().is_ok_and(|r| self.court.leans(case.lasting, r))
        };
        if cases.iter().zip(&runs).any(leans) {
            // what breaks in another way than sideways breaks however the frame gives way
            if after.iter().any(|i| i.mode != Mode::Buckling && self.refuses(i)) {
                return None;
            }
            crate::lean::look(&self.court, self.bench, cases, &mut runs);
            after = self.judged(cases, &runs);
        }
        if after.iter().any(|i| self.refuses(i)) {
            return None;
        }
        let mine = after.iter().filter(|i| i.what == self.item.what).map(|i| i.used);
        let used = mine.reduce(|a, b| if rank(b) > rank(a) { b } else { a }).unwrap_or_default();
        // what nothing is known of is no reinforcement
        (used.1 > 0.0).then_some(used)
    }

    /// A deeper board that may turn over on edge is no reinforcement.
    fn turns(&self, cases: &[Case], runs: &[Result<Run, Trouble>]) -> bool {
        let turns = |case: &Case, c: &Cut| {
            same(&self.bench.all.bars[c.bar], self.item) && crate::edgewise::turns(&self.court, case.lasting, c)
        };
        let mut each = cases.iter().zip(runs);
        each.any(|(case, run)| run.as_ref().is_ok_and(|run| run.cuts.iter().any(|c| turns(case, c))))
    }

    fn judged(&self, cases: &[Case], runs: &[Result<Run, Trouble>]) -> Vec<Item> {
        let runs: Vec<Option<&Run>> = runs.iter().map(|r| r.as_ref().ok()).collect();
        self.court.items(&self.court.hear(cases, &runs))
    }

    /// Whether something speaks against the change: the member itself still fails, or something else that did not; and where it
    /// is to clear a doubt, whether one is left, or comes up elsewhere.
    fn refuses(&self, i: &Item) -> bool {
        let borne = if self.item.verdict == Verdict::Fail { Verdict::CannotTell } else { Verdict::Pass };
        let was = |name: &str| self.items.iter().filter(|o| o.name == name).map(|o| o.verdict).max();
        i.verdict > borne && (i.what == self.item.what || was(&i.name).is_none_or(|was| i.verdict > was))
    }
}

#[cfg(test)]
mod tests;
