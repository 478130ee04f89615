//! Whether the frame of a case gives way sideways, looked at where a pushed member cannot be cleared by itself.

mod warm;

use crate::case::{Case, CaseKind};
use crate::judge::Court;
use crate::matter::Matter;
use crate::model::{Built, Element, Setup};
use crate::solve::{Bench, FINE, Gives, Run, Trouble, load_case};
use crate::space::vector;
use chairwright_design::Vec3;
use chairwright_statics::{
    Buckling, BucklingOptions, CutFrame, Error, LoadCase, Mode, Pushed, Side, Solution, Solver,
};
use rayon::prelude::*;

/// A bar that does less than this share of what drives the frame sideways does not drive it.
const DRIVES: f64 = 0.05;

/// Pieces that the member most pushed is cut into.
const PIECES: usize = 4;

/// The first way of a frame that is cut already.
const WHOLE: BucklingOptions = BucklingOptions { count: 1, pieces: 1 };
/// Ways to give way that are looked at where the first is that the chair goes over.
const SEVERAL: BucklingOptions = BucklingOptions { count: 4, pieces: PIECES };
/// Turns that differ by less than this share of their mean are alike.
const ALIKE: f64 = 0.3;

/// One case whose frame is looked at, and what came of it.
pub(crate) struct Look<'a> {
    pub case: &'a Case,
    pub run: &'a mut Run,
    /// Whether what is found is written beside the forces, for members to be judged by; else only the factor of the frame.
    pub tells: bool,
    /// How the frame gives way, once it is found.
    mode: Option<Mode>,
    /// Load factor of the first way that is not that the chair goes over, and what every bar does of what drives it.
    found: Option<(f64, Vec<f64>)>,
    /// Which other of its group it is a multiple of, and how many times that.
    like: Option<(usize, f64)>,
}

impl<'a> Look<'a> {
    pub fn new(case: &'a Case, run: &'a mut Run, tells: bool) -> Look<'a> {
        Look { case, run, tells, mode: None, found: None, like: None }
    }

    /// The frame as it stands in the case: without the wheels that lift off and the contacts that gape.
    fn setup(&self) -> Setup {
        let mut setup = Setup { gapes: self.run.gapes.clone(), ..self.case.setup.clone() };
        setup.lifted.extend(&self.run.let_go);
        setup
    }
}

/// Looks at the frames of those cases in which a member is pushed beyond what it bears by itself, and writes what is
/// found beside the forces. What cannot be computed stays as it is: no such member is sound.
pub(crate) fn look(court: &Court<'_>, bench: &Bench<'_>, cases: &[Case], runs: &mut [Result<Run, Trouble>]) {
    lean(bench, pushed(court, cases, runs, false));
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
    let looks = all.map(|(case, run)| {
        let tells = court.leans(case.lasting, run);
        Look::new(case, run, tells)
    });
    looks.filter(|l| l.tells || (seated && l.case.kind == CaseKind::Seated)).collect()
}

/// Cases that stand alike, and into how many pieces their elements are cut.
struct Group<'a> {
    setup: Setup,
    looks: Vec<Look<'a>>,
    pieces: Vec<usize>,
}

/// A frame cut into pieces and factored.
struct Frame {
    built: Built,
    solver: Solver,
}

impl Frame {
    /// Of a group, with these materials; laid out as another where the same nodes meet in it.
    fn new(
        (bench, matters): (&Bench<'_>, &[Matter]),
        group: &Group<'_>,
        known: Option<&Frame>,
    ) -> Result<Frame, Error> {
        let built = Built::cut((bench.all, matters, bench.feet), &group.setup, &group.pieces);
        let solver = match known {
            Some(known) => known.solver.like(&built.model),
            None => Solver::new(&built.model),
        }?;
        Ok(Frame { built, solver })
    }

    fn solve<'a>(&self, cases: impl Iterator<Item = &'a Case>) -> Result<Vec<Solution<'_>>, Error> {
        let loads: Vec<LoadCase> = cases.map(|c| load_case(&self.built, &c.pushes)).collect();
        self.solver.solve_within(&loads, FINE)
    }
}

/// Looks at the frames of some cases. All are cut and laid out alike, and those that stand alike are factored once.
pub(crate) fn lean(bench: &Bench<'_>, looks: Vec<Look<'_>>) {
    let mut groups = grouped(looks);
    groups.par_iter_mut().for_each(|group| group.pieces = pieces(bench, group));
    cut_alike(&mut groups);
    let Some(first) = groups.first() else { return };
    let first = Frame::new((bench, bench.matters), first, None);
    groups.par_iter_mut().enumerate().for_each(|(k, group)| {
        let own = (k > 0).then(|| Frame::new((bench, bench.matters), group, first.as_ref().ok()));
        if let Ok(frame) = own.as_ref().unwrap_or(&first) {
            together(bench, frame, group);
        }
    });
}

fn grouped(looks: Vec<Look<'_>>) -> Vec<Group<'_>> {
    let mut out: Vec<Group<'_>> = Vec::new();
    for look in looks {
        let setup = look.setup();
        match out.iter_mut().find(|g| g.setup == setup) {
            Some(group) => group.looks.push(look),
            None => out.push(Group { setup, looks: vec![look], pieces: Vec::new() }),
        }
    }
    out
}

/// Into how many pieces each element of a group is cut: as many as that case asks for that asks for most.
fn pieces(bench: &Bench<'_>, group: &Group<'_>) -> Vec<usize> {
    let built = Built::new(bench.all, bench.matters, bench.feet, &group.setup);
    let pushed = |(e, [least, greatest]): (&Element, &[f64; 2])| {
        let s = &built.model.members[e.id.0].section;
        let over = (e.to - e.from).powi(2) / (s.e * s.iy.min(s.iz));
        let (push, most) = ((-greatest).max(0.0), least.abs().max(greatest.abs()));
        Pushed { least: push * over, greatest: most * over }
    };
    let mut out = vec![1; built.elements.len()];
    for look in &group.looks {
        let pushed: Vec<Pushed> = built.elements.iter().zip(&look.run.pulls).map(pushed).collect();
        let mine = chairwright_statics::pieces(&pushed, &BucklingOptions { count: 1, pieces: PIECES });
        out.iter_mut().zip(mine).for_each(|(most, mine)| *most = mine.max(*most));
    }
    out
}

/// Groups of the same elements are cut alike, so that they are laid out alike.
fn cut_alike(groups: &mut [Group<'_>]) {
    for k in 0..groups.len() {
        let same = |g: &Group<'_>| g.setup.held == groups[k].setup.held;
        let most = groups.iter().filter(|g| same(g)).fold(groups[k].pieces.clone(), |mut most, g| {
            most.iter_mut().zip(&g.pieces).for_each(|(m, p)| *m = *p.max(m));
            most
        });
        groups[k].pieces = most;
    }
}

/// Looks at cases of one frame.
fn together(bench: &Bench<'_>, frame: &Frame, group: &mut Group<'_>) {
    // a case without an answer must not take the others with it
    if !searched(bench, frame, &mut group.looks) && group.looks.len() > 1 {
        for one in group.looks.chunks_mut(1) {
            searched(bench, frame, one);
        }
    }
    warm::warmed(bench, frame, group);
}

/// Solves the cases and searches each, near the way of the first; whether they have answers. What is a multiple of another gives
/// way as that does.
fn searched(bench: &Bench<'_>, frame: &Frame, looks: &mut [Look<'_>]) -> bool {
    let Ok(solved) = frame.solve(looks.iter().map(|l| l.case)) else { return false };
    let Ok(cut) = CutFrame::new(&solved, &WHOLE) else { return false };
    multiples(&cut, looks);
    let mut own = looks.iter_mut().zip(&solved).enumerate().filter(|(_, (look, _))| look.like.is_none());
    let Some((k, (first, of_first))) = own.next() else { return true };
    search(bench, (frame, &cut), (k, of_first), (first, None));
    let near = first.mode.as_ref();
    let others: Vec<_> = own.collect();
    others
        .into_par_iter()
        .for_each(|(k, (look, solved))| search(bench, (frame, &cut), (k, solved), (look, near)));
    for k in 0..looks.len() {
        if let Some((other, times)) = looks[k].like {
            take_from(looks, (k, other), times);
        }
    }
    true
}

/// Finds what is a multiple of another load of which as much is told.
fn multiples(cut: &CutFrame<'_, '_>, looks: &mut [Look<'_>]) {
    let mut order: Vec<usize> = (0..looks.len()).collect();
    order.sort_by_key(|k| !looks[*k].tells);
    let mut own: Vec<usize> = Vec::new();
    for k in order {
        looks[k].like = own.iter().find_map(|other| Some((*other, cut.times(k, *other)?)));
        if looks[k].like.is_none() {
            own.push(k);
        }
    }
}

/// What is told of a load that is so many times another.
fn take_from(looks: &mut [Look<'_>], (k, other): (usize, usize), times: f64) {
    let known = &looks[other];
    let (first, mode, found) = (known.run.buckling, known.mode.clone(), known.found.clone());
    let look = &mut looks[k];
    (look.run.buckling, look.mode) = (first.map(|f| f / times), mode);
    // where the first way is that the chair goes over, heat and water leave another share of it than of what is told of the other
    if !look.tells && found.as_ref().is_some_and(|f| Some(f.0) != first) {
        look.like = None;
    }
    if let Some((factor, shares)) = found {
        told(look, factor / times, shares);
    }
}

/// Writes down the first way to give way that is not that the chair goes over, and beside it the first of all.
fn search(
    bench: &Bench<'_>,
    (frame, cut): (&Frame, &CutFrame<'_, '_>),
    (k, solved): (usize, &Solution<'_>),
    (look, near): (&mut Look<'_>, Option<&Mode>),
) {
    let several = || solved.buckling(&SEVERAL);
    for found in [&(|| cut.buckling_near(k, near)) as &dyn Fn() -> Result<Buckling, Error>, &several] {
        match found() {
            Ok(Buckling::Never) => {
                look.run.buckling.get_or_insert(f64::INFINITY);
                return told(look, f64::INFINITY, Vec::new());
            }
            Ok(Buckling::At(modes)) => {
                look.run.buckling = look.run.buckling.or(modes.first().map(|m| m.factor));
                look.mode = look.mode.take().or_else(|| modes.first().cloned());
                if !look.tells {
                    return;
                }
                if let Some(mode) = modes.iter().find(|m| !tips(&frame.built, m)) {
                    let driven = drive(&frame.built, solved, mode, bench.all.bars.len());
                    return told(look, mode.factor, driven);
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

fn told(look: &mut Look<'_>, factor: f64, shares: Vec<f64>) {
    if !look.tells {
        return;
    }
    for cut in &mut look.run.cuts {
        let drives = shares.get(cut.bar).is_some_and(|s| *s >= DRIVES);
        cut.gives = Some(Gives { factor, drives, keeps: 1.0 });
    }
    look.found = Some((factor, shares));
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
        lean(&bench, vec![Look::new(&case, &mut run, true)]);
        let gives = |bar: usize| run.cuts.iter().find(|c| c.bar == bar).unwrap().gives.unwrap();
        (gives(0).factor, (0..all.bars.len()).map(|b| gives(b).drives).collect())
    }

    /// 300 N on a mast, 600 N beside it and 600 N askew: twice the load gives way at half the factor, by the same bars; another load is
    /// looked at by itself.
    #[test]
    fn a_multiple_of_a_load_gives_way_as_that_does() {
        let all = standing(vec![mast(0.0)], &[0], &[]);
        let matters: Vec<_> = all.bars.iter().map(|b| matter(&b.form)).collect();
        let bench = Bench { all: &all, matters: &matters, feet: &[1e9; 3] };
        let put = |force: Vec3| {
            let push = Push::At { port: Port { bar: 0, at: 1.2 }, force, moment: Vec3::ZERO };
            case(CaseKind::Pushing, Lasting::Sustained, 300.0, Source::Design, vec![push])
        };
        let cases = [put(Vec3::Z * -300.0), put(Vec3::Z * -600.0), put(Vec3::new(200.0, 0.0, -600.0))];
        let run = |c: &Case| bench.group_near(&[], &c.setup, &[c.pushes.as_slice()]).pop().unwrap().unwrap();
        let mut runs: Vec<Run> = cases.iter().map(run).collect();
        let mut looks: Vec<Look<'_>> =
            cases.iter().zip(&mut runs).map(|(c, run)| Look::new(c, run, true)).collect();
        let mut groups = grouped(looks.split_off(0));
        assert_eq!(groups.len(), 1);
        groups[0].pieces = pieces(&bench, &groups[0]);
        let frame = Frame::new((&bench, &matters), &groups[0], None).unwrap();
        together(&bench, &frame, &mut groups[0]);
        let like: Vec<Option<usize>> = groups[0].looks.iter().map(|l| l.like.map(|l| l.0)).collect();
        assert_eq!(like, [None, Some(0), None]);
        let gives = |k: usize| runs[k].cuts[0].gives.unwrap();
        let (one, two, askew) = (gives(0), gives(1), gives(2));
        assert!((two.factor * 2.0 / one.factor - 1.0).abs() < 1e-9, "{two:?} {one:?}");
        assert!(one.drives && two.drives && runs[1].buckling == Some(two.factor));
        // bending from the side is no push: the load factor stays
        assert!((askew.factor / two.factor - 1.0).abs() < 1e-3, "{askew:?}");
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
            lean(&bench, vec![Look::new(&case, &mut run, true)]);
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
