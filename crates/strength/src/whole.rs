//! The whole check in order: structure, cases, judgement, and what follows from them.

use crate::answer::{Bent, Item, Lost, Strength, Swing, What};
use crate::bar::{Of, settled};
use crate::case::{Case, CaseKind, KERB, Lasting, Maker, drop_factor};
use crate::extras;
use crate::judge::{Court, keep_worst, origin};
use crate::limit::{Climate, named};
use crate::matter::matters;
use crate::model::Setup;
use crate::solve::{Bench, Moving, Run, Trouble};
use crate::structure::{Loose, Structure, TieOf};
use chairwright_checks::Checked;
use chairwright_design::{Design, JointId, Vec3};
use chairwright_frame::{Frame, Settled};

/// A joint that gives way is taken to turn as five diameters of its pipe more would. Assumed, no source.
const SOFT: f64 = 5.0;

/// How much is worked out.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Depth {
    /// Everything.
    #[default]
    Whole,
    /// Every load case and every verdict; not what softer joints, lost joints and buckling do beside them, nor shapes
    /// to draw.
    Verdicts,
}

/// Works it out.
#[must_use]
pub fn strength(design: &Design, frame: &Frame, checked: &Checked, depth: Depth) -> Strength {
    let mut out = Strength::default();
    let Some(pose) = settled(design, checked) else { return out };
    out.judged = true;
    let mut all = Structure::new(design, frame, pose);
    out.assumptions.append(&mut all.assumptions);
    let climate = Climate::of(design, &mut out.assumptions);
    out.climate = Some(climate);
    out.forbidden = extras::forbidden(design, &all);
    out.incompatible = extras::incompatible(design);
    let all = moor(all, &mut out);
    let matters = matters(design, &all, &climate);
    let feet = tyres(design, &all, &mut out);
    let bench = Bench { all: &all, matters: &matters, feet: &feet };
    if all.footings.iter().any(|f| f.carrier.is_none()) {
        // a wheel that nothing carries: there is no chair to load
    } else if let Some(maker) = Maker::new(design, frame, checked, pose, &all) {
        out.mass = maker.rider.mass;
        judge(&maker, &bench, climate, (pose, depth), &mut out);
    }
    remarks(design, &all, &mut out);
    out.assumptions.sort();
    out.assumptions.dedup();
    out
}

/// Takes out what nothing holds, and says so.
fn moor(mut all: Structure, out: &mut Strength) -> Structure {
    let gone = all.adrift();
    let mut said: Vec<String> = Vec::new();
    for k in &gone {
        let bar = &all.bars[*k];
        match bar.of {
            Of::Member(_) | Of::Box(_) if !said.contains(&bar.name) => {
                said.push(bar.name.clone());
                out.loose.push(Loose::Member(bar.name.clone()));
            }
            Of::Support(i) if !out.loose.contains(&Loose::Support(i)) => out.loose.push(Loose::Support(i)),
            _ => {}
        }
    }
    out.loose.append(&mut all.loose);
    out.unchecked.append(&mut all.unchecked);
    if gone.is_empty() { all } else { all.without(&gone) }
}

fn tyres(design: &Design, all: &Structure, out: &mut Strength) -> Vec<f64> {
    let mut of = |caster: bool, name: &str| {
        let k = named(design, name).and_then(|a| a.stiffness).unwrap_or(200e3);
        if all.footings.iter().any(|f| f.caster == caster) {
            out.assumptions.push(format!(
                "strength: a {name} gives way by 1 mm under {:.0} N; measure yours under a known weight",
                k / 1e3
            ));
        }
        k
    };
    let (rear, front) = (of(false, "rear tyre"), of(true, "caster tyre"));
    all.footings.iter().map(|f| if f.caster { front } else { rear }).collect()
}

fn judge(
    maker: &Maker<'_>,
    bench: &Bench<'_>,
    climate: Climate,
    (pose, depth): (&Settled, Depth),
    out: &mut Strength,
) {
    let (design, all) = (maker.design, bench.all);
    let quick = Case { setup: Setup::default(), ..maker.base() };
    let base = match bench.run(std::slice::from_ref(&quick), None, depth == Depth::Whole).pop() {
        Some(Ok(run)) => run,
        Some(Err(trouble)) => return stuck(design, all, pose, trouble, out),
        None => return,
    };
    out.give = base.give;
    out.drop = drop_factor(KERB, base.give);
    out.buckling = base.buckling;
    out.feet = all.footings.iter().map(|f| f.name.clone()).zip(base.feet.iter().copied()).collect();
    let cases = maker.cases(base.give, &base.feet);
    let ran = bench.run(&cases, None, false);
    let runs: Vec<Option<&Run>> = ran.iter().map(|r| r.as_ref().ok()).collect();
    for (case, run) in cases.iter().zip(&ran) {
        note(case, run, all, out);
    }
    out.residual = runs.iter().flatten().map(|r| r.residual).fold(base.residual, f64::max);
    let court = Court::new(design, all, bench.matters, climate);
    (out.items, out.worst_of_case) = court.judge(&cases, &runs);
    rank(&mut out.items);
    out.mends = crate::mend::mends(&court, bench, &cases, &out.items);
    out.untold = court.untold(&cases);
    out.untold.extend(court.untold_ties(&cases, &runs, &out.loose));
    let refused = court.forbidden_ties(&cases, &runs, &out.forbidden);
    out.forbidden.extend(refused);
    out.sag = runs[0].and_then(|r| extras::sag(design, all, r));
    if depth == Depth::Whole {
        out.softer = softer(&court, bench, &cases, &runs);
        out.lost = lost(&court, bench, &quick);
        out.bent = bent(all, &court, &cases, &runs, &out.items);
    }
    let repeated: Vec<Item> = bumped(&court, &cases, &runs);
    out.lives = extras::lives(design, &climate, &repeated, &cases);
    out.cases = cases;
}

/// Ranks by the cautious use; equals by name, so that no order of joints shows.
fn rank(items: &mut [Item]) {
    let key = |i: &Item| (crate::judge::rank(i.used) * 1e6).round();
    items.sort_by(|a, b| {
        b.verdict
            .cmp(&a.verdict)
            .then(key(b).total_cmp(&key(a)))
            .then_with(|| a.name.cmp(&b.name))
            .then(a.mode.cmp(&b.mode))
    });
}

fn note(case: &Case, run: &Result<Run, Trouble>, all: &Structure, out: &mut Strength) {
    match run {
        Ok(run) => {
            let names: Vec<&str> = run.let_go.iter().map(|k| all.footings[*k].name.as_str()).collect();
            if !names.is_empty() && matches!(case.kind, CaseKind::Standing) {
                out.assumptions.push(format!(
                    "strength: with somebody standing on the foot support {} lift off",
                    names.join(", ")
                ));
            }
        }
        Err(Trouble::Refused(words)) => out.refused.push(words.clone()),
        Err(Trouble::Moves(_)) => {
            out.refused.push("in one load case a part of the frame is free to move".to_owned());
        }
    }
}

/// The frame moves by itself: what, and about which joint.
fn stuck(design: &Design, all: &Structure, pose: &Settled, trouble: Trouble, out: &mut Strength) {
    let ways = match trouble {
        Trouble::Refused(words) => return out.refused.push(words),
        Trouble::Moves(ways) => ways,
    };
    for way in ways.into_iter().filter(|w| !w.idle) {
        let swing = swing(design, all, pose, &way);
        if !out.swings.contains(&swing) {
            out.swings.push(swing);
        }
    }
    if out.swings.is_empty() {
        out.refused.push("something in the frame can turn on its own".to_owned());
    }
}

fn swing(design: &Design, all: &Structure, pose: &Settled, way: &Moving) -> Swing {
    let mut parts: Vec<String> = way.bars.iter().map(|b| all.bars[*b].name.clone()).collect();
    parts.sort();
    parts.dedup();
    let first = way.bars.first().map(|b| origin(design, all.bars[*b].of));
    let about = way.axis.and_then(|(p, w)| nearest_joint(design, pose, p, w));
    Swing { parts, origin: first, about, axis: way.axis.map(|a| a.1) }
}

/// The joint on a line, within 60 mm of it.
fn nearest_joint(design: &Design, pose: &Settled, p: Vec3, way: Vec3) -> Option<JointId> {
    let off = |id: JointId| (pose.pose.place(design.joints[id].at) - p).across(way).norm();
    let near = design.joints.iter().map(|(id, _)| id).filter(|id| off(*id) < 0.06);
    near.min_by(|a, b| off(*a).total_cmp(&off(*b)))
}

/// Cases whose chair stands on all its wheels, once more with joints that give way.
fn softer(court: &Court<'_>, bench: &Bench<'_>, cases: &[Case], runs: &[Option<&Run>]) -> Option<f64> {
    let plain = |c: &Case| c.setup == Setup::default();
    let some: Vec<Case> = cases.iter().filter(|c| plain(c)).cloned().collect();
    let soft = bench.run(&some, Some(SOFT), false);
    let mut most = [0.0_f64; 2];
    let mut peak = |k: usize, lasting: Lasting, run: Option<&Run>| {
        let Some(run) = run else { return };
        court.bars(0, lasting, run, &mut |u| {
            if matches!(u.what, What::Bar(Of::Member(_) | Of::Box(_))) {
                most[k] = most[k].max(u.used.1);
            }
        });
    };
    let rigid = cases.iter().zip(runs).filter(|(c, _)| plain(c));
    rigid.for_each(|(c, r)| peak(0, c.lasting, *r));
    some.iter().zip(&soft).for_each(|(c, r)| peak(1, c.lasting, r.as_ref().ok()));
    (most[0] > 0.0 && most[1] > 0.0).then(|| most[1] / most[0] - 1.0)
}

/// Takes every joint and fastening away, one at a time, under the seated rider.
fn lost(court: &Court<'_>, bench: &Bench<'_>, seated: &Case) -> Vec<Lost> {
    let mut all: Vec<TieOf> = bench.all.ties.iter().map(|t| t.of).collect();
    all.retain(|t| matches!(t, TieOf::Joint(_) | TieOf::Fastening(_)));
    all.sort();
    all.dedup();
    let one = |tie: TieOf| {
        let setup = Setup { dropped: Some(tie), ..Setup::default() };
        let run = bench.group(&setup, &[seated.pushes.as_slice()], false).pop();
        let name = tie_name(court.design, tie);
        match run {
            Some(Ok(run)) => {
                let mut used = 0.0_f64;
                court.bars(0, Lasting::Short, &run, &mut |u| used = used.max(u.used.0));
                Lost { tie, name, falls: false, used }
            }
            // what then only hangs loose, off the way of the load, does not bring the chair down
            Some(Err(Trouble::Moves(ways))) => {
                let mut without = bench.all.clone();
                without.ties.retain(|t| t.of != tie);
                let adrift = without.adrift();
                let member = |b: &usize| adrift.contains(b) && !carries(bench.all, *b);
                let falls = !ways.iter().all(|w| w.bars.iter().all(member));
                Lost { tie, name, falls, used: if falls { f64::INFINITY } else { 0.0 } }
            }
            _ => Lost { tie, name, falls: true, used: f64::INFINITY },
        }
    };
    all.into_iter().map(one).collect()
}

/// Whether a bar belongs to a seat, back or foot support, or holds one, or holds a wheel.
fn carries(all: &Structure, bar: usize) -> bool {
    use crate::structure::{Carries, Spot};
    let decks = all.decks.iter().any(|d| match &d.carries {
        Carries::Sheet { across, on } => across.contains(&bar) || on.contains(&bar),
        Carries::Bands(b) => b.iter().any(|(l, r)| l.bar == bar || r.bar == bar),
        Carries::Nothing => false,
    });
    let on = |s: &Spot| matches!(s, Spot::Port(p) if p.bar == bar);
    let wheel = |t: &crate::structure::Tie| matches!(t.of, TieOf::Wheel(_) | TieOf::Caster(_));
    decks || all.ties.iter().any(|t| wheel(t) && t.spots.iter().any(on))
}

/// What a tie is called.
#[must_use]
pub fn tie_name(design: &Design, tie: TieOf) -> String {
    match tie {
        TieOf::Joint(id) => design.joints[id].name.clone(),
        TieOf::Fastening(k) => format!("{} to {}", design.fastenings[k].what, design.fastenings[k].to),
        TieOf::Bearing(k) => design.supports[k].name.clone(),
        TieOf::Wheel(k) => design.wheels[k].name.clone(),
        TieOf::Caster(k) => design.casters[k].name.clone(),
        TieOf::Sheet | TieOf::Part => String::new(),
    }
}

fn bumped(court: &Court<'_>, cases: &[Case], runs: &[Option<&Run>]) -> Vec<Item> {
    let at = cases.iter().position(|c| c.kind == CaseKind::Bumps);
    let Some((at, run)) = at.and_then(|k| Some((k, runs[k]?))) else { return Vec::new() };
    let mut worst = std::collections::BTreeMap::new();
    court.bars(at, Lasting::Repeated, run, &mut |u| {
        keep_worst(worst.entry(u.what).or_insert(u), u);
    });
    let mut items: Vec<Item> = worst.into_values().map(|u| court.item(u)).collect();
    rank(&mut items);
    items
}

/// Shapes of the seated chair and of the case in which something gives first.
fn bent(
    all: &Structure,
    court: &Court<'_>,
    cases: &[Case],
    runs: &[Option<&Run>],
    items: &[Item],
) -> Vec<Bent> {
    let mut which = vec![0];
    which.extend(items.first().map(|i| i.case).filter(|c| *c != 0));
    let shape = |case: usize| {
        let run = runs[case]?;
        let used = |bar: usize, at: f64| {
            let near = run.cuts.iter().filter(|c| c.bar == bar && (c.at - at).abs() < 0.003);
            let items = near.filter_map(|c| court.cut(case, cases[case].lasting, c));
            items.map(|u| u.used.1).fold(0.0, f64::max)
        };
        let point = |(bar, at, shift): &(usize, f64, Vec3)| {
            let b = &all.bars[*bar];
            (b.name.clone(), b.at(*at), *shift, used(*bar, *at))
        };
        Some(Bent { case, points: run.moved.iter().map(point).collect() })
    };
    which.into_iter().filter_map(shape).collect()
}

fn remarks(design: &Design, all: &Structure, out: &mut Strength) {
    out.assumptions.push(
        "strength: joints are rigid in the main computation; the effect of softer ones is told beside it"
            .to_owned(),
    );
    if all.decks.iter().any(crate::structure::Deck::is_sling) {
        out.assumptions.push(
            "strength: a sling hangs through by 5 % of its width and pulls its rails together by W L/(8 sag)"
                .to_owned(),
        );
    }
    if !design.panels.is_empty() {
        out.assumptions
            .push("strength: a panel is taken as arms of sheet to where it is held: a rough model".to_owned());
    }
    let unchecked = [
        "the bodies of the fittings: taken as no weaker than the pipe they are made for",
        "wheels, axles, stems, forks, brakes and straps: taken as rigid, their makers' ratings decide",
        "what holds seat, back and foot support down where they are fastened: only lifting loads it",
        "wear, sun, chemicals and what a dropped chair does to a corner",
    ];
    if out.judged {
        out.unchecked.extend(unchecked.iter().map(|s| (*s).to_owned()));
    }
}
