//! Whether the frame of a case gives way sideways, looked at where a pushed member cannot be cleared by itself.

use crate::case::{Case, CaseKind};
use crate::doubt::STOUT;
use crate::judge::Court;
use crate::matter::Matter;
use crate::model::{Built, Setup};
use crate::solve::{Bench, FINE, Gives, Ready, Run, Trouble, load_case, solver};
use crate::space::vector;
use chairwright_design::Vec3;
use chairwright_statics::{Buckling, BucklingOptions, CutFrame, Error, LoadCase, Mode, Side, Solution, Solver};
use rayon::prelude::*;

/// A bar that does less than this share of what drives the frame sideways does not drive it.
const DRIVES: f64 = 0.05;

/// Pieces that the member most pushed is cut into.
const PIECES: usize = 4;

/// Ways to give way that are looked at where the first is that the chair goes over.
const MODES: usize = 4;
/// Turns that differ by less than this share of their mean are alike.
const ALIKE: f64 = 0.3;

/// One case whose frame is looked at, and what came of it.
pub(crate) struct Look<'a> {
    pub case: &'a Case,
    pub run: &'a mut Run,
    /// Whether what is found is written beside the forces, for members to be judged by; else only the factor of the frame.
    pub tells: bool,
}

impl Look<'_> {
    /// The frame as it stands in the case: without the wheels that lift off and the contacts that gape.
    fn setup(&self) -> Setup {
        let mut setup = Setup { gapes: self.run.gapes.clone(), ..self.case.setup.clone() };
        setup.lifted.extend(&self.run.let_go);
        setup
    }
}

/// Looks at the frames of those cases in which a member is pushed beyond what it bears by itself, and writes what is
/// found beside the forces. What cannot be computed stays as it is: no such member is sound.
pub(crate) fn look(
    court: &Court<'_>,
    by: (&Bench<'_>, &[&Ready]),
    cases: &[Case],
    runs: &mut [Result<Run, Trouble>],
) {
    lean(by, pushed(court, cases, runs, false));
}

/// The cases in which a member is pushed beyond what it bears by itself; and the sitting rider's, if it is wanted for the
/// frame as a whole.
pub(crate) fn pushed<'a>(
    court: &Court<'_>,
    cases: &'a [Case],
    runs: &'a mut [Result<Run, Trouble>],
    seated: bool,
) -> Vec<Look<'a>> {
    let all = cases.iter().zip(runs).filter_map(|(case, run)| Some((case, run.as_mut().ok()?)));
    let looks = all.map(|(case, run)| Look { tells: court.leans(case.lasting, run), case, run });
    looks.filter(|l| l.tells || (seated && l.case.kind == CaseKind::Seated)).collect()
}

/// Looks at the frames of some cases. Those that stand alike are cut and factored once.
pub(crate) fn lean(by: (&Bench<'_>, &[&Ready]), looks: Vec<Look<'_>>) {
    let mut alike: Vec<(Setup, Vec<Look<'_>>)> = Vec::new();
    for look in looks {
        let setup = look.setup();
        match alike.iter_mut().find(|(s, _)| *s == setup) {
            Some((_, some)) => some.push(look),
            None => alike.push((setup, vec![look])),
        }
    }
    alike.into_par_iter().for_each(|(setup, mut some)| together(by, &setup, &mut some));
}

/// Looks at cases of one frame, by the factors of a setup that is ready where it differs little from that.
fn together((bench, known): (&Bench<'_>, &[&Ready]), setup: &Setup, looks: &mut [Look<'_>]) {
    let built = Built::new(bench.all, bench.matters, bench.feet, setup);
    if let Some(solver) = known.iter().find_map(|r| r.solver.near(&built.model))
        && searched(bench, (&built, &solver), looks)
    {
        return warmed((bench, known), setup, looks);
    }
    let Ok(solver) = solver(&built, known) else { return };
    // a case without an answer must not take the others with it
    if !searched(bench, (&built, &solver), looks) && looks.len() > 1 {
        for one in looks.chunks_mut(1) {
            searched(bench, (&built, &solver), one);
        }
    }
    warmed((bench, known), setup, looks);
}

/// Writes down what heat and water leave of the load factors of loads that do not last: where they leave all bars as much, that; where not,
/// by the frame as soft as it then is. What years leave is as warm already.
fn warmed((bench, known): (&Bench<'_>, &[&Ready]), setup: &Setup, looks: &mut [Look<'_>]) {
    let softs = bench.matters.iter().flat_map(|m| m.sheaths.iter().map(|s| s.soft).chain([m.soft]));
    let (least, most) = softs.fold((1.0_f64, 0.0_f64), |(l, m), s| (l.min(s), m.max(s)));
    if setup.lasting || least >= 1.0 {
        return;
    }
    let cold =
        |look: &Look<'_>| look.run.cuts.first().and_then(|c| c.gives).map(|g| g.factor).or(look.run.buckling);
    // where it is stout though every bar were as soft as the softest no verdict hangs on how soft it really is
    let close = |look: &&Look<'_>| !look.tells || cold(look).is_none_or(|f| f * least < STOUT);
    let wanted: Vec<&Look<'_>> = looks.iter().filter(|_| most - least >= SAME_SOFT).filter(close).collect();
    let found = if wanted.is_empty() { None } else { warm_factors((bench, known), setup, &wanted) };
    let mut found = found.unwrap_or_default().into_iter();
    let warm: Vec<Option<f64>> =
        looks.iter().map(|l| if close(&l) { found.next().flatten() } else { None }).collect();
    for (look, warm) in looks.iter_mut().zip(warm) {
        let share = warm.zip(cold(look)).map(|(w, c)| w / c);
        let keeps = share.filter(|s| s.is_finite()).map_or(least, |s| s.min(1.0));
        look.run.keeps = Some(keeps);
        look.run.cuts.iter_mut().filter_map(|c| c.gives.as_mut()).for_each(|g| g.keeps = keeps);
    }
}

/// Shares that differ by less are the same.
const SAME_SOFT: f64 = 1e-9;

/// Load factors of the frame in heat and water; `None` of a case that has no answer so.
fn warm_factors(
    (bench, known): (&Bench<'_>, &[&Ready]),
    setup: &Setup,
    looks: &[&Look<'_>],
) -> Option<Vec<Option<f64>>> {
    let matters: Vec<Matter> = bench.matters.iter().map(Matter::warm).collect();
    let built = Built::new(bench.all, &matters, bench.feet, setup);
    let solver = solver(&built, known).ok()?;
    let loads: Vec<LoadCase> = looks.iter().map(|l| load_case(&built, &l.case.pushes)).collect();
    let solved = solver.solve_within(&loads, FINE).ok()?;
    let cut = CutFrame::new(&solved, &BucklingOptions { count: 1, pieces: PIECES }).ok()?;
    let factor = |tells: bool, found: Buckling| match found {
        Buckling::Never => Some(f64::INFINITY),
        Buckling::At(modes) if tells => modes.iter().find(|m| !tips(&built, m)).map(|m| m.factor),
        Buckling::At(modes) => modes.first().map(|m| m.factor),
    };
    let one = |k: usize| {
        let several = || solved[k].buckling(&BucklingOptions { count: MODES, pieces: PIECES });
        let tells = looks[k].tells;
        factor(tells, cut.buckling(k).ok()?).or_else(|| factor(tells, several().ok()?))
    };
    Some((0..looks.len()).map(one).collect())
}

/// Solves the cases and searches each; whether they have answers.
fn searched(bench: &Bench<'_>, (built, solver): (&Built, &Solver), looks: &mut [Look<'_>]) -> bool {
    let loads: Vec<LoadCase> = looks.iter().map(|l| load_case(built, &l.case.pushes)).collect();
    let Ok(solved) = solver.solve_within(&loads, FINE) else { return false };
    let Ok(cut) = CutFrame::new(&solved, &BucklingOptions { count: 1, pieces: PIECES }) else { return false };
    let each = looks.par_iter_mut().enumerate();
    each.for_each(|(k, look)| search(bench, built, (&cut, k, &solved[k]), look));
    true
}

/// Writes down the first way to give way that is not that the chair goes over, and beside it the first of all.
fn search(
    bench: &Bench<'_>,
    built: &Built,
    (cut, k, solved): (&CutFrame<'_, '_>, usize, &Solution<'_>),
    look: &mut Look<'_>,
) {
    let several = || solved.buckling(&BucklingOptions { count: MODES, pieces: PIECES });
    for found in [&(|| cut.buckling(k)) as &dyn Fn() -> Result<Buckling, Error>, &several] {
        match found() {
            Ok(Buckling::Never) => {
                look.run.buckling.get_or_insert(f64::INFINITY);
                return told(look, f64::INFINITY, &[]);
            }
            Ok(Buckling::At(modes)) => {
                look.run.buckling = look.run.buckling.or(modes.first().map(|m| m.factor));
                if !look.tells {
                    return;
                }
                if let Some(mode) = modes.iter().find(|m| !tips(built, m)) {
                    return told(look, mode.factor, &drive(built, solved, mode, bench.all.bars.len()));
                }
            }
            Err(_) => return,
        }
    }
}

/// Whether the chair goes over as a whole, on two wheels that carry it: every place of a bar turns alike. That is no matter
/// of its bars, and is judged by its slopes that tip.
fn tips(built: &Built, mode: &Mode) -> bool {
    let bars = built.owners.iter().zip(&mode.nodes).filter(|(o, _)| o.is_some());
    let turns: Vec<Vec3> = bars.map(|(_, n)| Vec3::new(n[3], n[4], n[5])).collect();
    #[allow(clippy::cast_precision_loss)]
    let share = 1.0 / turns.len().max(1) as f64;
    let mean = turns.iter().fold(Vec3::ZERO, |s, t| s + *t) * share;
    let off = turns.iter().map(|t| (*t - mean).dot(*t - mean)).sum::<f64>() * share;
    off.sqrt() < ALIKE * mean.norm()
}

fn told(look: &mut Look<'_>, factor: f64, shares: &[f64]) {
    if !look.tells {
        return;
    }
    for cut in &mut look.run.cuts {
        let drives = shares.get(cut.bar).is_some_and(|s| *s >= DRIVES);
        cut.gives = Some(Gives { factor, drives, keeps: 1.0 });
    }
}

/// Share of every bar in the work that pushes do as the frame goes sideways: push × ½ ∫ slope², over the sum of all.
fn drive(built: &Built, solved: &Solution<'_>, mode: &Mode, bars: usize) -> Vec<f64> {
    let mut out = vec![0.0; bars];
    for e in &built.elements {
        let length = e.to - e.from;
        let push = -solved.inside(e.id, length / 2.0, Side::After)[0];
        let Some(places) = mode.members.get(e.id.0).filter(|p| p.len() > 1 && push > 0.0) else { continue };
        let member = &built.model.members[e.id.0];
        let at = |n: chairwright_statics::NodeId| vector(built.model.nodes[n.0].at);
        let Some(way) = (at(member.j) - at(member.i)).unit() else { continue };
        let moved = places.windows(2).map(|w| (vector(w[1]) - vector(w[0])).across(way).norm());
        // pieces are alike: the slope of each is its shift over its length
        #[allow(clippy::cast_precision_loss)]
        let piece = length / (places.len() - 1) as f64;
        out[e.bar] += push * moved.map(|d| d * d / piece).sum::<f64>();
    }
    let sum: f64 = out.iter().sum();
    out.into_iter().map(|w| if sum > 0.0 { w / sum } else { 0.0 }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bar::Bar;
    use crate::case::{Lasting, case};
    use crate::form::Form;
    use crate::hand::{bar, matter};
    use crate::load::Push;
    use crate::remark::Source;
    use crate::structure::{Footing, Hold, Port, Spot, Structure, Tie, TieOf};
    use chairwright_design::JointId;

    const PIPE: Form = Form::Tube { outer: 42.16e-3, wall: 3.556e-3 };

    /// Bars of which some stand on three feet that give way by nothing, 1 m out from the middle.
    fn standing(bars: Vec<Bar>, on_feet: &[usize], joints: &[[Port; 2]]) -> Structure {
        let mut all = Structure { bars, ..Structure::default() };
        let tie = |of, a, b| Tie { of, spots: vec![a, b], hold: Hold::Rigid };
        for (k, at) in [Vec3::Y, Vec3::Y * -1.0, Vec3::X].into_iter().enumerate() {
            let (hub, contact) = (all.point(at), all.point(at - Vec3::Z * 0.3));
            all.ties.push(tie(TieOf::Part, Spot::Point(contact), Spot::Point(hub)));
            for bar in on_feet {
                let foot = Spot::Port(Port { bar: *bar, at: 0.0 });
                all.ties.push(tie(TieOf::Wheel(k), Spot::Point(hub), foot));
            }
            let name = format!("foot {k}");
            all.footings.push(Footing {
                name,
                caster: k == 2,
                index: k,
                hub,
                contact,
                carrier: Some("b".into()),
                swung: None,
                overhang: None,
            });
        }
        for (k, [a, b]) in joints.iter().enumerate() {
            let id = JointId::new(k);
            all.ties.push(tie(TieOf::Joint(id), Spot::Port(*a), Spot::Port(*b)));
        }
        all
    }

    /// Load factor of 300 N for years down on the top of the first bar, and what drives it.
    fn leaned(all: &Structure) -> (f64, Vec<bool>) {
        let matters: Vec<_> = all.bars.iter().map(|b| matter(&b.form)).collect();
        let bench = Bench { all, matters: &matters, feet: &[1e9; 3] };
        let top = Port { bar: 0, at: 1.2 };
        let push = Push::At { port: top, force: Vec3::Z * -300.0, moment: Vec3::ZERO };
        let case = case(CaseKind::Pushing, Lasting::Sustained, 300.0, Source::Design, vec![push]);
        let mut run = bench.group_near(&[], &case.setup, &[case.pushes.as_slice()]).pop().unwrap().unwrap();
        lean((&bench, &[]), vec![Look { case: &case, run: &mut run, tells: true }]);
        let gives = |bar: usize| run.cuts.iter().find(|c| c.bar == bar).unwrap().gives.unwrap();
        (gives(0).factor, (0..all.bars.len()).map(|b| gives(b).drives).collect())
    }

    /// A mast of pipe with a stub of 0.1 m at its top that carries nothing, pushed for a while where heat leaves 0.58 of one of them: what
    /// the mast keeps the frame keeps, its stub takes nothing from it.
    #[test]
    fn an_idle_stub_softens_no_frame() {
        let top = Vec3::new(0.0, 0.0, 1.2);
        let stub = bar(top, top + Vec3::Y * 0.1, Vec3::Z, PIPE);
        let all =
            standing(vec![mast(0.0), stub], &[0], &[[Port { bar: 0, at: 1.2 }, Port { bar: 1, at: 0.0 }]]);
        let keeps = |softs: [f64; 2]| {
            let matters = [0, 1].map(|k| Matter { soft: softs[k], ..matter(&PIPE) });
            let bench = Bench { all: &all, matters: &matters, feet: &[1e9; 3] };
            let push = Push::At { port: Port { bar: 0, at: 1.2 }, force: Vec3::Z * -300.0, moment: Vec3::ZERO };
            let case = case(CaseKind::Pushing, Lasting::Short, 300.0, Source::Design, vec![push]);
            let mut run = bench.group_near(&[], &case.setup, &[case.pushes.as_slice()]).pop().unwrap().unwrap();
            lean((&bench, &[]), vec![Look { case: &case, run: &mut run, tells: true }]);
            assert_eq!(run.keeps, run.cuts[0].gives.map(|g| g.keeps));
            run.keeps.unwrap()
        };
        assert!((keeps([1.0, 0.58]) - 1.0).abs() < 1e-6, "{}", keeps([1.0, 0.58]));
        assert!((keeps([0.58, 1.0]) - 0.58).abs() < 1e-3, "{}", keeps([0.58, 1.0]));
        assert!((keeps([0.58, 0.58]) - 0.58).abs() < 1e-12);
    }

    fn mast(y: f64) -> Bar {
        bar(Vec3::Y * y, Vec3::new(0.0, y, 1.2), Vec3::X, PIPE)
    }

    /// A free mast of 1.2 m of 1 1/4 in Schedule 40 for years: Euler's π²·2.9 GPa·0.375·81 044 mm⁴/(2·1.2 m)² = 151.0 N, less a
    /// little for shear: 0.503 of 300 N.
    #[test]
    fn a_free_mast_gives_way_as_a_cantilever() {
        let all = standing(vec![mast(0.0)], &[0], &[]);
        let (factor, drives) = leaned(&all);
        assert!((0.500..0.5034).contains(&factor), "{factor}");
        assert_eq!(drives, [true]);
    }

    /// Two such masts with a rung every 240 mm: nothing braces them out of the plane of the rungs, and both bend together: at
    /// most twice 151.0 N, 1.007 of 300 N, and little less, for the rungs twist but little. The length between rungs would
    /// have told 25 times as much.
    #[test]
    fn rungs_brace_nothing_out_of_their_plane() {
        let mut bars = vec![mast(0.1), mast(-0.1)];
        let mut joints = Vec::new();
        for k in 1..=5 {
            let z = 0.24 * f64::from(k);
            bars.push(bar(Vec3::new(0.0, 0.1, z), Vec3::new(0.0, -0.1, z), Vec3::Z, PIPE));
            let rung = bars.len() - 1;
            joints.push([Port { bar: rung, at: 0.0 }, Port { bar: 0, at: z }]);
            joints.push([Port { bar: rung, at: 0.2 }, Port { bar: 1, at: z }]);
        }
        let all = standing(bars, &[0, 1], &joints);
        let (factor, drives) = leaned(&all);
        assert!((0.95..1.0068).contains(&factor), "{factor}");
        assert!(drives[0], "the mast under the load drives it");
        // and by itself the mast is measured whole, not from rung to rung
        assert!(crate::column::runs(&all).iter().take(2).all(|r| (r - 1.2).abs() < 1e-9));
    }
}
