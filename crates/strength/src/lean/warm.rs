//! What heat and water leave of the load at which a frame gives way.

use super::{Frame, Group, Look, SEVERAL, WHOLE, tips};
use crate::doubt::STOUT;
use crate::matter::Matter;
use crate::model::Element;
use crate::solve::Bench;
use chairwright_statics::{Buckling, CutFrame};

/// Where what is strained keeps no more than so many times the least, the least is told: on the cautious side, and a frame
/// spared.
const NEAR_LEAST: f64 = 1.1;
/// Shares that differ by less are the same.
const SAME_SOFT: f64 = 1e-9;

/// Writes down what heat and water leave of the load factors of loads that do not last: where they leave all bars as much, that; where not,
/// by the frame as soft as it then is. What years leave is as warm already.
pub(super) fn warmed(bench: &Bench<'_>, frame: &Frame, group: &mut Group<'_>) {
    let softs = bench.matters.iter().flat_map(softs);
    let (least, most) = softs.fold((1.0_f64, 0.0_f64), |(l, m), s| (l.min(s), m.max(s)));
    if group.setup.lasting || least >= 1.0 {
        return;
    }
    let cold =
        |look: &Look<'_>| look.run.cuts.first().and_then(|c| c.gives).map(|g| g.factor).or(look.run.buckling);
    // where it is stout though every bar were as soft as the softest no verdict hangs on how soft it really is
    let close = |look: &Look<'_>| !look.tells || cold(look).is_none_or(|f| f * least < STOUT);
    let more = |look: &Look<'_>| strained(bench, frame, look).is_none_or(|s| s > least * NEAR_LEAST);
    let wanted = |l: &Look<'_>| most - least >= SAME_SOFT && close(l) && more(l);
    let mut wanted: Vec<bool> = group.looks.iter().map(wanted).collect();
    // of multiples of one load as much is left
    for (k, look) in group.looks.iter().enumerate() {
        if let Some((other, _)) = look.like {
            wanted[other] |= std::mem::take(&mut wanted[k]);
        }
    }
    let found = wanted.contains(&true).then(|| warm_factors(bench, frame, group, &wanted)).flatten();
    let found = found.unwrap_or_else(|| vec![None; wanted.len()]);
    let kept = |(look, warm): (&Look<'_>, Option<f64>)| {
        let share = warm.zip(cold(look)).map(|(w, c)| w / c);
        share.filter(|s| s.is_finite()).map_or(least, |s| s.min(1.0))
    };
    let kept: Vec<f64> = group.looks.iter().zip(found).map(kept).collect();
    for (k, look) in group.looks.iter_mut().enumerate() {
        let keeps = kept[look.like.map_or(k, |l| l.0)];
        look.run.keeps = Some(keeps);
        look.run.cuts.iter_mut().filter_map(|c| c.gives.as_mut()).for_each(|g| g.keeps = keeps);
    }
}

/// Shares of stiffness that heat and water leave of a bar and its sleeves.
fn softs(matter: &Matter) -> impl Iterator<Item = f64> + '_ {
    matter.sheaths.iter().map(|s| s.soft).chain([matter.soft])
}

/// Share of the stiffness against the way in which a frame gives way that heat and water leave of it, every bar counted as the
/// hardest of what it is made of. `None` where it does not bend that way.
fn strained(bench: &Bench<'_>, frame: &Frame, look: &Look<'_>) -> Option<f64> {
    let mode = look.mode.as_ref().filter(|m| !tips(&frame.built, m))?;
    let (members, rest) = frame.solver.energy(&mode.nodes);
    let soft = |e: &Element| softs(&bench.matters[e.bar]).fold(0.0, f64::max);
    let kept: f64 = frame.built.elements.iter().map(|e| soft(e) * members[e.id.0]).sum();
    Some((kept + rest) / (members.iter().sum::<f64>() + rest))
}

/// Load factors of the frame in heat and water in the wanted cases; `None` of a case that has no answer so.
fn warm_factors(
    bench: &Bench<'_>,
    cold: &Frame,
    group: &Group<'_>,
    wanted: &[bool],
) -> Option<Vec<Option<f64>>> {
    let matters: Vec<Matter> = bench.matters.iter().map(Matter::warm).collect();
    let frame = Frame::new((bench, &matters), group, Some(cold)).ok()?;
    let looks: Vec<&Look<'_>> = group.looks.iter().zip(wanted).filter(|(_, w)| **w).map(|(l, _)| l).collect();
    let solved = frame.solve(looks.iter().map(|l| l.case)).ok()?;
    let cut = CutFrame::new(&solved, &WHOLE).ok()?;
    let factor = |tells: bool, found: Buckling| match found {
        Buckling::Never => Some(f64::INFINITY),
        Buckling::At(modes) if tells => modes.iter().find(|m| !tips(&frame.built, m)).map(|m| m.factor),
        Buckling::At(modes) => modes.first().map(|m| m.factor),
    };
    let one = |(k, look): (usize, &&Look<'_>)| {
        let found = cut.buckling_near(k, look.mode.as_ref()).ok()?;
        factor(look.tells, found).or_else(|| factor(look.tells, solved[k].buckling(&SEVERAL).ok()?))
    };
    let mut found = looks.iter().enumerate().map(one);
    Some(wanted.iter().map(|w| if *w { found.next().flatten() } else { None }).collect())
}
