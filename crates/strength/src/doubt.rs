//! What casts doubt on a verdict: joints that give way, and a frame that gives way sideways.

use crate::answer::{Item, Mode, Strength, Verdict, What};
use crate::bar::Of;
use crate::case::{Case, CaseKind, Lasting};
use crate::judge::Court;
use crate::model::{Setup, soft};
use crate::remark::{Doubt, Open, Source};
use crate::side::without_side;
use crate::sockets::SAME;
use crate::solve::{Bench, Cut, Ready, Run};
use crate::structure::{Spot, TieOf};
use chairwright_design::JointId;
use chairwright_resistance::column::amplification;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// A joint that gives way is taken to turn as five diameters of its pipe more would. Assumed, no source.
pub(crate) const SOFT: f64 = 5.0;
/// Load factor of giving way sideways, over the load of the case, from which bending need not be raised for it:
/// EN 1993-1-1, 5.2.1(3), from memory, not checked.
pub(crate) const STOUT: f64 = 10.0;
/// The same below which raising the bending by 1/(1 − 1/factor) is no longer enough: EN 1993-1-1, 5.2.2(5)B, from memory,
/// not checked.
const TRUSTED: f64 = 3.0;

/// How many times the rider's weight a case puts on the chair.
fn times(case: &Case) -> f64 {
    match case.kind.plain() {
        CaseKind::Bumps | CaseKind::Drop(_) | CaseKind::Lift(_) => case.size,
        // what it lands on is pressed as in a drop of all of it
        CaseKind::Landing(..) => match case.source {
            Source::Lands { factor, .. } => factor,
            _ => case.size,
        },
        _ => 1.0,
    }
}

/// Load factors at which the seated frame gives way sideways: at once, and after years.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Sideways {
    pub short: Option<f64>,
    pub lasting: Option<f64>,
}

impl Sideways {
    fn of(self, case: &Case) -> Option<f64> {
        if case.lasting == Lasting::Sustained { self.lasting } else { self.short }
    }

    /// What follows for the chair as a whole.
    pub fn open(self, cases: &[Case]) -> Vec<Open> {
        let most = |lasting: bool| {
            let mine = cases.iter().filter(|c| (c.lasting == Lasting::Sustained) == lasting);
            mine.map(times).fold(1.0, f64::max)
        };
        let mut out = Vec::new();
        for (factor, lasting) in [(self.short, false), (self.lasting, true)] {
            let wanted = TRUSTED * most(lasting);
            match factor {
                None if !out.contains(&Open::Sideways) => out.push(Open::Sideways),
                Some(factor) if factor < wanted => out.push(Open::GivesSideways { factor, wanted, lasting }),
                _ => {}
            }
        }
        out
    }

    /// By what the use of an item is raised in its case, of which the frame was looked at or not; 1 for a stout frame.
    fn raises(self, case: &Case, own: Option<f64>) -> f64 {
        let seated = self.of(case).map(|f| f / times(case));
        let Some(factor) = seated.into_iter().chain(own).reduce(f64::min).filter(|f| *f < STOUT) else {
            return 1.0;
        };
        amplification(1.0, factor, 1.0).unwrap_or(f64::INFINITY)
    }
}

/// Calls no item sound that bending raised by a push would take over its limit.
pub(crate) fn by_sideways(
    sideways: Sideways,
    (cases, own): (&[Case], &[Option<f64>]),
    items: &mut [Item],
) -> Vec<(String, Doubt)> {
    let mut out = Vec::new();
    // giving way sideways has its safety already
    for item in items.iter_mut().filter(|i| i.verdict == Verdict::Pass && i.mode != Mode::Buckling) {
        let used = item.used.1 * sideways.raises(&cases[item.case], own[item.case]);
        if used > 1.0 {
            item.verdict = Verdict::CannotTell;
            out.push((item.name.clone(), Doubt::Sideways(used)));
        }
    }
    out
}

/// Cases whose chair stands on all its wheels, once more with joints that give way: greatest change of any member's
/// use, and no item is called sound that is taken over its limit.
pub(crate) fn by_softer_joints(
    court: &Court<'_>,
    (bench, known): (&Bench<'_>, &[&Ready]),
    (cases, runs, members): (&[Case], &[Option<&Run>], &[f64]),
    out: &mut Strength,
) {
    let plain: Vec<usize> = (0..cases.len()).filter(|k| standing(&cases[*k])).collect();
    let some: Vec<Case> = plain.iter().map(|k| cases[*k].clone()).collect();
    let Some(first) = some.first() else { return };
    let setup = Setup { soft: Some(SOFT), ..first.setup.clone() };
    let first = bench.ready(&setup, known).ok();
    let known: Vec<&Ready> = first.iter().chain(known.iter().copied()).collect();
    let mut soft = bench.run(&some, Some(SOFT), &known);
    // softer joints change little of who pushes: giving way sideways is judged with the joints as they are, and a safety
    for (k, run) in plain.iter().zip(&mut soft) {
        if let (Some(before), Ok(run)) = (runs[*k], run) {
            same_lean(before, run);
        }
    }
    let soft: Vec<Option<&Run>> = soft.iter().map(|r| r.as_ref().ok()).collect();
    if plain.iter().zip(&soft).any(|(k, r)| runs[*k].is_some() && r.is_none()) {
        out.open.push(Open::Softer);
    }
    let heard = court.hear(&some, &soft);
    let before: Vec<f64> = plain.iter().map(|k| members[*k]).collect();
    let then = &heard.members;
    let greatest = |all: &[f64]| all.iter().copied().fold(0.0, f64::max);
    let (first, second) = (greatest(&before), greatest(then));
    out.softer = (first > 0.0 && second > 0.0).then(|| second / first - 1.0);
    let worst = (0..some.len()).max_by(|a, b| then[*a].max(before[*a]).total_cmp(&then[*b].max(before[*b])));
    out.softest = worst.and_then(|k| softest(court, (bench, &known), (&some[k], before[k]), soft[k]?));
    let after = court.items(&heard);
    for item in out.items.iter_mut().filter(|i| i.verdict == Verdict::Pass) {
        let softened = after.iter().find(|s| s.what == item.what).map_or(0.0, |s| s.used.1);
        if softened > 1.0 {
            item.verdict = Verdict::CannotTell;
            out.doubts.push((item.name.clone(), Doubt::SofterJoints(softened)));
        }
    }
}

/// Hands on how a frame gives way sideways to the same case with other joints.
fn same_lean(before: &Run, run: &mut Run) {
    let of = |bar: usize| before.cuts.iter().find(|c| c.bar == bar).and_then(|c| c.gives);
    let mut last = (usize::MAX, None);
    for cut in &mut run.cuts {
        if last.0 != cut.bar {
            last = (cut.bar, of(cut.bar));
        }
        cut.gives = last.1;
    }
}

/// Joints that are tried alone: those whose springs take up most work when all give way.
const TRIED: usize = 3;
/// A change of the greatest use below this share of itself is none.
const MATTERS: f64 = 0.01;

/// The joint, both sides as one, that moves the greatest use of a case most when it alone gives way, and by what share: of
/// those whose springs take up most work when all give way.
fn softest(
    court: &Court<'_>,
    (bench, known): (&Bench<'_>, &[&Ready]),
    (case, rigid): (&Case, f64),
    soft: &Run,
) -> Option<(String, f64)> {
    let mut work: BTreeMap<String, (f64, Vec<JointId>)> = BTreeMap::new();
    for tie in &bench.all.ties {
        let TieOf::Joint(joint) = tie.of else { continue };
        if bench.all.turning(joint).is_none() {
            let name = without_side(&court.design.joints[joint].name);
            let entry = work.entry(name).or_default();
            entry.0 += tie.spots.iter().map(|s| turned(bench, *s, soft, case.setup.lasting)).sum::<f64>();
            entry.1.push(joint);
        }
    }
    let mut most_work: Vec<(String, (f64, Vec<JointId>))> =
        work.into_iter().filter(|(_, w)| w.0 > 0.0).collect();
    most_work.sort_by(|a, b| b.1.0.total_cmp(&a.1.0).then_with(|| a.0.cmp(&b.0)));
    let alone = |(name, (_, joints)): (String, (f64, Vec<JointId>))| {
        let mut case = case.clone();
        case.setup.alone = joints;
        let mut run = bench.run(std::slice::from_ref(&case), Some(SOFT), known).pop()?.ok()?;
        same_lean(soft, &mut run);
        let used = most(court, &case, &run);
        (rigid > 0.0).then(|| (name, used / rigid - 1.0))
    };
    most_work.truncate(TRIED);
    let tried: Vec<(String, f64)> = most_work.into_par_iter().filter_map(alone).collect();
    let moves = tried.into_iter().filter(|(_, by)| by.abs() >= MATTERS);
    moves.max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()).then_with(|| b.0.cmp(&a.0)))
}

/// Work that the spring at the end of a bar in a joint takes up, N m, times two.
fn turned(bench: &Bench<'_>, spot: Spot, run: &Run, lasting: bool) -> f64 {
    let Spot::Port(port) = spot else { return 0.0 };
    let bar = &bench.all.bars[port.bar];
    let here = run.cuts.iter().filter(|c| c.bar == port.bar && (c.at - port.at).abs() < SAME);
    let moment = |c: &Cut| c.forces.bend[0] * c.forces.bend[0] + c.forces.bend[1] * c.forces.bend[1];
    let square = here.map(moment).fold(0.0, f64::max);
    square / soft(&bench.matters[port.bar], bar, SOFT, lasting)
}

/// The greatest use of a member or box in a case, cautious side.
fn most(court: &Court<'_>, case: &Case, run: &Run) -> f64 {
    let mut out = 0.0_f64;
    court.bars(0, case.lasting, run, &mut |u| {
        if matches!(u.what, What::Bar(Of::Member(_) | Of::Box(_))) {
            out = out.max(u.used.1);
        }
    });
    out
}

/// Whether the chair of a case stands on all its wheels and answers at once.
fn standing(case: &Case) -> bool {
    case.setup == Setup::default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::{Mode, What};
    use crate::bar::Of;
    use crate::case::case;
    use crate::remark::Source;
    use chairwright_design::Origin;

    fn cases() -> Vec<Case> {
        vec![
            case(CaseKind::Seated, Lasting::Sustained, 1.0, Source::Weight, Vec::new()),
            case(CaseKind::Drop(0.05), Lasting::Impact, 6.0, Source::Fall(0.05, 0.004), Vec::new()),
        ]
    }

    fn item(case: usize, used: f64) -> Item {
        Item {
            what: What::Bar(Of::Box(0)),
            name: format!("b{case}"),
            origin: Origin(0),
            case,
            mode: Mode::Bending,
            at: 0.0,
            used: (used, used),
            most: (used, used),
            demand: 0.0,
            bears: 0.0,
            verdict: Verdict::Pass,
        }
    }

    /// A drop that counts six times the weight wants three times that, 18; the sitting rider three. Below the load itself
    /// the frame falls.
    #[test]
    fn a_frame_that_gives_way_early_is_told() {
        let stout = Sideways { short: Some(18.1), lasting: Some(3.1) };
        assert_eq!(stout.open(&cases()), []);
        let weak = Sideways { short: Some(17.9), lasting: Some(0.9) };
        let wants = |factor, wanted, lasting| Open::GivesSideways { factor, wanted, lasting };
        assert_eq!(weak.open(&cases()), [wants(17.9, 18.0, false), wants(0.9, 3.0, true)]);
        assert_eq!(weak.open(&cases()).iter().map(Open::falls).collect::<Vec<_>>(), [false, true]);
        assert_eq!(Sideways { short: None, lasting: None }.open(&cases()), [Open::Sideways]);
    }

    /// 24 times the weight against a drop of 6: a quarter, so that bending grows by 1/(1 − 1/4) = 4/3: 0.76 goes over
    /// one, 0.74 does not. From ten times up nothing is raised.
    #[test]
    fn bending_is_raised_by_the_push() {
        let of = |short: f64, used: f64| {
            let mut items = [item(1, used)];
            let sideways = Sideways { short: Some(short), lasting: Some(100.0) };
            let doubts = by_sideways(sideways, (&cases(), &[None, None]), &mut items);
            (items[0].verdict, doubts)
        };
        let (verdict, doubts) = of(24.0, 0.76);
        assert_eq!(verdict, Verdict::CannotTell);
        assert!(matches!(doubts[..], [(_, Doubt::Sideways(u))] if (u - 0.76 * 4.0 / 3.0).abs() < 1e-9));
        assert_eq!(of(24.0, 0.74), (Verdict::Pass, vec![]));
        assert_eq!(of(60.0, 0.99), (Verdict::Pass, vec![]));
    }
}
