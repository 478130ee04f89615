//! Beside the numbers: refused load paths, life, sag.

use crate::answer::{Foam, Forbidden, Item, Life, What};
use crate::bar::Of;
use crate::case::{Case, CaseKind};
use crate::limit::{Climate, allowance, family, heat};
use crate::remark::{Beside, Open};
use crate::screws::held_by_wood;
use crate::side::without_side;
use crate::solve::Run;
use crate::structure::{Carries, Deck, Hold, Port, Spot, Structure, TieOf};
use chairwright_design::{ClosingKind, Design, Drive, Stock, SupportKind, Vec3, fold};
use chairwright_resistance::pvc::{Wall, cycles, wall};
use std::collections::BTreeMap;

/// Of how many parts a life is told.
const TOLD: usize = 3;

pub(crate) fn screws(design: &Design, list: &[(String, u32)]) -> bool {
    let screw = |n: &str| design.fastener(n).is_some_and(|f| held_by_wood(f).is_some());
    list.iter().any(|(n, c)| *c > 0 && screw(n))
}

/// Load paths that are refused by name.
pub(crate) fn forbidden(design: &Design, all: &Structure) -> Vec<Forbidden> {
    let mut out = Vec::new();
    for c in &design.closings {
        if let ClosingKind::Butt { member, .. } = &c.kind
            && screws(design, &c.fasteners)
            // aslant they go through its sides into the side of the other
            && c.drive != Drive::Slanted
            && family(design, &design.stocks[design.members[*member].stock].material) == "wood"
        {
            out.push(Forbidden::EndGrain { origin: c.origin, member: design.members[*member].name.clone() });
        }
    }
    out.extend(ends_at_panels(design, all));
    out.extend(crate::edges::edges_at_sheets(design));
    out.extend(crate::edges::edges_at_bars(design, all));
    out.extend(crate::seat::sprung(design));
    for stock in pipes(design, all) {
        if let Some(by) = foam(stock) {
            out.push(Forbidden::Cellular { origin: stock.origin, stock: stock.name.clone(), by });
        }
    }
    out
}

/// Pipes of plastic that the frame is made of.
fn pipes<'a>(design: &'a Design, all: &'a Structure) -> impl Iterator<Item = &'a Stock> {
    let used = |s: &Stock| all.bars.iter().any(|b| design.stocks[b.stock].name == s.name);
    let pipes = design.stocks.values().filter(|s| s.is_pipe());
    pipes.filter(move |s| used(s) && family(design, &s.material) == "plastic")
}

/// Density of what a pipe is weighed to be made of, kg/m³: a published mass per length counts before the material's.
fn density(stock: &Stock) -> f64 {
    stock.linear_mass.map_or(stock.material.density, |m| m / stock.shape.mean_area())
}

fn foam(stock: &Stock) -> Option<Foam> {
    if stock.material.allowance.as_deref().is_some_and(|a| fold(a) == "expanded pvc") {
        return Some(Foam::Material);
    }
    let marks = (stock.standard.as_deref(), stock.name.as_str());
    if wall(marks.0, marks.1, None) == Wall::Cellular {
        return Some(Foam::Print);
    }
    if stock.note.as_deref().is_some_and(|n| wall(None, n, None) == Wall::Cellular) {
        return Some(Foam::Note);
    }
    let weighed = density(stock);
    // the density of rigid PVC tells nothing of another plastic
    let rigid = stock.material.allowance.as_deref().is_some_and(|a| fold(a).contains("pvc"));
    (rigid && wall(marks.0, marks.1, Some(weighed)) == Wall::Cellular).then_some(Foam::Light(weighed))
}

/// Pipes of plastic of which no number of a standard says that their wall is solid.
pub(crate) fn unmarked(design: &Design, all: &Structure) -> Vec<Open> {
    let marked = |s: &Stock| wall(s.standard.as_deref(), &s.name, None) != Wall::Unknown;
    let bare = pipes(design, all).filter(|s| !marked(s) && foam(s).is_none());
    bare.map(|s| Open::Unmarked { origin: s.origin, stock: s.name.clone(), said: s.standard.clone() }).collect()
}

/// Screws through a panel into the end of a board that meets it square.
fn ends_at_panels(design: &Design, all: &Structure) -> Vec<Forbidden> {
    let mut out = Vec::new();
    for f in &design.fastenings {
        if !screws(design, &f.fasteners) {
            continue;
        }
        let pair = |a: &str, b: &str| {
            let panel = design.panels.iter().find(|p| p.name == a)?;
            let bar = all.bars.iter().find(|x| x.name == b && matches!(x.of, Of::Member(_)))?;
            Some((panel, bar))
        };
        let Some((panel, bar)) = pair(&f.what, &f.to).or_else(|| pair(&f.to, &f.what)) else { continue };
        let Of::Member(id) = bar.of else { continue };
        let m = &design.members[id];
        let way = (design.joints[m.end].at - design.joints[m.start].at).unit();
        let square = way.is_some_and(|w| w.dot(panel.toward).abs() > 0.7);
        if square && family(design, &design.stocks[m.stock].material) == "wood" {
            out.push(Forbidden::EndGrain { origin: f.origin, member: m.name.clone() });
        }
    }
    out
}

/// Life of members of plastic pipe under bumps, weakest first: of three parts, of which both sides are one.
pub(crate) fn lives(design: &Design, climate: &Climate, items: &[Item], cases: &[Case]) -> Vec<Life> {
    let mut out: Vec<Life> = Vec::new();
    let mut parts: Vec<String> = Vec::new();
    for item in items {
        let What::Bar(Of::Member(id)) = item.what else { continue };
        let material = &design.stocks[design.members[id].stock].material;
        let bumps = cases.get(item.case).is_some_and(|c| *c.kind.plain() == CaseKind::Bumps);
        let Some(a) = allowance(design, material).filter(|a| a.family == "plastic" && bumps) else { continue };
        let Some(warm) = heat(a, climate.hot) else { continue };
        let plain = item.demand / warm;
        // without stress no number of cycles can be told
        let (Ok(worst), Ok(best)) = (cycles(plain * a.notch.unwrap_or(1.0)), cycles(plain)) else { continue };
        let cycles = (worst, best);
        let part = without_side(&item.name);
        if !parts.contains(&part) {
            if parts.len() == TOLD {
                continue;
            }
            parts.push(part);
        }
        out.push(Life { name: item.name.clone(), stress: item.demand, cycles });
    }
    out
}

/// How far the seat sinks for good between its rails' ends: the deepest shift of its strips or rails
/// less the mean shift of the ends of what carries it.
pub(crate) fn sag(design: &Design, all: &Structure, run: &Run) -> Option<f64> {
    let seat = all.decks.iter().find(|d| design.supports[d.support].kind == SupportKind::Seat)?;
    let carriers: Vec<usize> = match &seat.carries {
        Carries::Sheet { on, .. } => on.clone(),
        Carries::Bands(b) => b.iter().flat_map(|(l, r)| [l.bar, r.bar]).collect(),
        Carries::Nothing => return None,
    };
    let part = |bar: usize| carriers.contains(&bar) || all.bars[bar].of == Of::Support(seat.support);
    let deepest = run.moved.iter().filter(|(b, ..)| part(*b)).map(|(_, _, u)| u.z).fold(0.0, f64::min);
    let ends: Vec<f64> = run
        .moved
        .iter()
        .filter(|(b, at, _)| carriers.contains(b) && (*at < 1e-6 || (*at - all.bars[*b].length()).abs() < 1e-6))
        .map(|(_, _, u)| u.z)
        .collect();
    #[allow(clippy::cast_precision_loss)]
    let mean = ends.iter().sum::<f64>() / ends.len().max(1) as f64;
    Some((mean - deepest).max(0.0))
}

/// How much nearer to each other a sling has pulled the bars that it hangs on, where it has most, m: by its tension and by
/// what else bends them. A sheet holds its rails apart.
pub(crate) fn narrow(deck: &Deck, run: &Run) -> Option<f64> {
    let Carries::Bands(pairs) = &deck.carries else { return None };
    let moved = |port: &Port| {
        let on = run.moved.iter().filter(|(bar, ..)| *bar == port.bar);
        let nearest = on.min_by(|a, b| (a.1 - port.at).abs().total_cmp(&(b.1 - port.at).abs()))?;
        Some(nearest.2.dot(deck.side))
    };
    let closing = pairs.iter().filter_map(|(left, right)| Some(moved(right)? - moved(left)?));
    closing.reduce(f64::max).map(|c| c.max(0.0))
}

/// What the fasteners of each support have to hold, in the case that is worst for it: pull off its bars, and push along
/// them, each summed over the places on one bar.
pub(crate) fn support_fasteners(all: &Structure, runs: &[Option<&Run>]) -> Vec<Beside> {
    let mut worst: BTreeMap<usize, (f64, f64)> = BTreeMap::new();
    for run in runs.iter().flatten() {
        let mut sums: BTreeMap<(usize, usize), (f64, Vec3)> = BTreeMap::new();
        for h in &run.handed {
            let tie = &all.ties[h.tie];
            let (TieOf::Bearing(support), Hold::Bearing { normal, grip: Some(_) }) = (tie.of, tie.hold) else {
                continue;
            };
            let Some(bar) = tie.spots.get(1).and_then(Spot::bar) else { continue };
            let pressed = h.force.dot(normal);
            // what hangs below its bar is pulled off by what presses on it
            let hangs = (all.place(tie.spots[1]) - all.place(tie.spots[0])).dot(normal) > 0.0;
            let pull = if hangs { pressed } else { -pressed }.max(0.0);
            let sum = sums.entry((support, bar)).or_insert((0.0, Vec3::ZERO));
            *sum = (sum.0 + pull, sum.1 + h.force.across(normal));
        }
        for ((support, _), (pull, along)) in sums {
            let old = worst.entry(support).or_insert((0.0, 0.0));
            *old = (old.0.max(pull), old.1.max(along.norm()));
        }
    }
    let of = |(support, (pull, along))| Beside::SupportFasteners { support, pull, along };
    worst.into_iter().map(of).collect()
}

/// Supports that are fastened nowhere: they only lie on their bars.
pub(crate) fn only_lie(all: &Structure) -> Vec<usize> {
    let bearing = |k: usize| all.ties.iter().filter(move |t| t.of == TieOf::Bearing(k));
    let lies = |k: &usize| {
        let mut holds = bearing(*k).map(|t| t.hold).peekable();
        holds.peek().is_some() && holds.all(|h| matches!(h, Hold::Bearing { grip: None, .. }))
    };
    all.decks.iter().map(|d| d.support).filter(lies).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::{Mode, Verdict};
    use crate::case::{Lasting, Swung, case};
    use crate::remark::Source;
    use crate::shipped::{PARTS, design};
    use chairwright_design::{Id, Origin};

    /// Five members in the order of their use, of which two are twins: three parts are four members, and the fifth is not told. The
    /// casters need not trail. At 5 MPa and 23 degC, and with a notch, the least life is the shorter one.
    #[test]
    fn lives_of_three_parts_and_their_twins() {
        let design = design(PARTS);
        let climate = Climate::of(&design, &mut Vec::new());
        let kind = CaseKind::Swung(Swung::Ahead, Box::new(CaseKind::Bumps));
        let cases = [case(kind, Lasting::Repeated, 3.0, Source::Bumps(3.0), Vec::new())];
        let item = |name: &str| Item {
            what: What::Bar(Of::Member(Id::new(0))),
            name: name.to_owned(),
            origin: Origin(0),
            case: 0,
            mode: Mode::Bending,
            at: 0.0,
            used: (0.1, 0.5),
            most: (0.1, 0.5),
            demand: 5e6,
            bears: 1e7,
            verdict: Verdict::Pass,
        };
        let items = ["left.post", "left.rail", "right.post", "tie", "bar"].map(item);
        let found = lives(&design, &climate, &items, &cases);
        let names: Vec<&str> = found.iter().map(|l| l.name.as_str()).collect();
        assert_eq!(names, ["left.post", "left.rail", "right.post", "tie"]);
        assert!(found.iter().all(|l| l.cycles.0 < l.cycles.1 && l.stress == 5e6), "{found:?}");
    }
}
