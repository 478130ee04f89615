//! The whole check in order: structure, cases, judgement, and what follows from them.

use crate::answer::{Family, Item, Refused, Strength, Swing, What};
use crate::bar::{Of, settled};
use crate::case::{Case, CaseKind, KERB, Lasting};
use crate::cases::{AtRest, Maker};
use crate::doubt::{SOFT, Sideways, by_sideways, by_softer_joints};
use crate::extras;
use crate::follow::Whole;
use crate::heard::Heard;
use crate::judge::{Court, Use, keep_worst, origin};
use crate::lean::Look;
use crate::limit::Climate;
use crate::load::{Push, SLACK, deck};
use crate::matter::matters;
use crate::mirror::Mirror;
use crate::model::Setup;
use crate::remark::{Beside, Open, Taken};
use crate::solve::{Bench, Moving, Ready, Run, Trouble};
use crate::structure::{Hold, Loose, Structure, TieOf};
use crate::tyre::Tyres;
use chairwright_checks::{Checked, Figures};
use chairwright_design::{Design, JointId, SupportKind, Vec3};
use chairwright_frame::{Frame, Settled};
use std::collections::BTreeMap;

/// How much is worked out.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Depth {
    /// Everything.
    #[default]
    Whole,
    /// Every load case and every verdict in it, and whether the frame gives way sideways; not the doubts that softer joints cast
    /// on what holds, nor what lost joints do, nor shapes to draw.
    Verdicts,
    /// The same, and what would clear the doubt about members of which only a test tells: up to twelve more looks at every load case.
    Clearing,
}

/// Works it out.
#[must_use]
pub fn strength(design: &Design, frame: &Frame, checked: &Checked, depth: Depth) -> Strength {
    let mut out = Strength::default();
    let Some(pose) = settled(design, checked) else {
        out.open.extend(crate::bar::nobody(design, checked).map(Open::Nobody));
        return out;
    };
    out.judged = true;
    let mut all = Structure::new(design, frame, pose);
    out.assumed.append(&mut all.assumed);
    let climate = Climate::of(design, &mut out.assumed);
    out.climate = Some(climate);
    let (tight, idle) = crate::sleeve::settle(design, &mut all);
    out.assumed.extend(tight.into_iter().chain(crate::drill::drill(design, pose, &mut all)));
    out.left_out.extend(idle);
    out.forbidden = extras::forbidden(design, &all);
    out.open.extend(extras::unmarked(design, &all));
    out.open.extend(crate::compatible::unknown_stuff(design));
    out.open.extend(crate::compatible::unclassed(design, &all));
    out.open.extend(crate::metals::unnamed_metals(design, &all));
    out.incompatible = crate::compatible::incompatible(design, &all);
    let all = moor(all, &mut out);
    let matters = matters(design, &all, &climate);
    out.assumed.extend(crate::matter::taken(design, &all, &climate));
    let tyres = Tyres::new(design, &all, &mut out.taken);
    let bench = Bench { all: &all, matters: &matters, feet: &tyres.stiffness };
    if all.footings.iter().any(|f| f.carrier.is_none()) {
        // a wheel that nothing carries: there is no chair to load
    } else if let Some(mut maker) = Maker::new(design, frame, checked, pose, &all) {
        out.mass = maker.rider.mass;
        judge(&mut maker, (&bench, &tyres), climate, ((frame, pose), &checked.figures, depth), &mut out);
        narrows(&all, (design, checked), &mut out);
        out.open.append(&mut maker.open);
        out.taken.append(&mut maker.taken);
    }
    remarks(design, &all, &mut out);
    let unjudged = crate::coverage::unjudged(design, &out);
    out.untold.extend(unjudged);
    crate::lost::doubt(&mut out);
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
            Of::Panel(i) if !out.loose.contains(&Loose::Panel(i)) => out.loose.push(Loose::Panel(i)),
            _ => {}
        }
    }
    out.loose.append(&mut all.loose);
    out.left_out.append(&mut all.left_out);
    out.taken.append(&mut all.taken);
    out.beside.append(&mut all.beside);
    out.open.append(&mut all.open);
    if gone.is_empty() { all } else { all.without(&gone) }
}

fn judge(
    maker: &mut Maker<'_>,
    (bench, tyres): (&Bench<'_>, &Tyres),
    climate: Climate,
    ((frame, pose), figures, depth): ((&Frame, &Settled), &Figures, Depth),
    out: &mut Strength,
) {
    let (design, all) = (maker.design, bench.all);
    let quick = Case { setup: Setup::default(), ..maker.base() };
    let ready = match bench.ready(&quick.setup, &[]) {
        Ok(ready) => ready,
        Err(trouble) => return stuck(design, all, pose, trouble, out),
    };
    let mut base = match bench.loaded(&ready, &[quick.pushes.as_slice()]).pop() {
        Some(Ok(run)) => run,
        Some(Err(trouble)) => return stuck(design, all, pose, trouble, out),
        None => return,
    };
    out.give = base.give;
    out.feet = all.footings.iter().map(|f| f.name.clone()).zip(base.feet.iter().copied()).collect();
    let flat = tyres.flat(&base.feet);
    if let Some(first) = flat.first() {
        let names = flat.iter().map(|k| all.footings[*k].name.clone()).collect();
        out.open.push(Open::Flat(names, tyres.room[*first]));
    }
    // whoever lives with a higher kerb rolls off it
    let kerb = design.conditions.quantities.get("kerb").copied().unwrap_or(0.0);
    let kerb = KERB.max(kerb).max(design.profile.as_ref().and_then(|p| p.kerb).unwrap_or(0.0));
    let hard = hard((&ready, &quick), &base, (bench, tyres), kerb);
    let landed = landed(maker, (bench, tyres), (&ready, &base.feet), kerb);
    let rest = AtRest { give: base.give, hard, feet: &base.feet, tyres, landed };
    let mut cases = maker.cases(&rest, kerb);
    match without_carried(maker, (bench, tyres), &ready, kerb) {
        Some(bare) => cases.extend(bare),
        None => {
            let words = "without what rides along the chair could not be computed".to_owned();
            out.refused.push(Refused { case: None, moves: Vec::new(), words });
        }
    }
    let drop = cases.iter().find(|c| matches!(c.kind, CaseKind::Drop(_)));
    out.drop = drop.map_or(f64::INFINITY, |c| c.size);
    let lasting = lasting(bench, &ready, &cases);
    let known: Vec<&Ready> = std::iter::once(&ready).chain(&lasting).collect();
    let mut ran = bench.run(&cases, None, &known);
    let mut court = Court::new(design, all, bench.matters, climate);
    court.settle(&cases, &answers(&ran));
    // what lost joints do hangs on nothing that is said of the whole chair, and takes about as long
    let at = cases.iter().position(|c| c.kind == CaseKind::Seated).and_then(|k| ran[k].as_ref().ok().cloned());
    let lost = || {
        if depth != Depth::Whole {
            return (false, Vec::new());
        }
        let mirror = at.as_ref().and_then(|run| Mirror::new((design, frame), all, bench.feet, run));
        let again = |left: &Structure| maker.again(left);
        let chair = seated(&cases).zip(lasting.as_ref()).map(|(seated, ready)| {
            let chair = Whole { court: &court, bench, seated, ready, again: &again };
            crate::lost::lost(&chair, at.as_ref(), mirror.as_ref())
        });
        (mirror.is_some(), chair.unwrap_or_default())
    };
    let chair = Chair { court: &court, bench, known: &known, cases: &cases, figures, pose };
    let rest = || chair.judge((&quick, &mut base), &mut ran, depth, out);
    let (lost, ()) = rayon::join(lost, rest);
    (out.mirrored, out.lost) = lost;
    out.cases = cases;
}

/// What has an answer.
fn answers(ran: &[Result<Run, Trouble>]) -> Vec<Option<&Run>> {
    ran.iter().map(|r| r.as_ref().ok()).collect()
}

/// The chair with all that is put on it.
struct Chair<'a> {
    court: &'a Court<'a>,
    bench: &'a Bench<'a>,
    known: &'a [&'a Ready],
    cases: &'a [Case],
    figures: &'a Figures,
    pose: &'a Settled,
}

impl Chair<'_> {
    /// Judges every part of it in every case.
    fn judge(
        &self,
        (quick, base): (&Case, &mut Run),
        ran: &mut [Result<Run, Trouble>],
        depth: Depth,
        out: &mut Strength,
    ) {
        let Chair { court, bench, cases, .. } = *self;
        let mut looks = crate::lean::pushed(court, cases, ran, true);
        looks.push(Look::new(quick, base, false));
        crate::lean::lean(bench, looks);
        let runs = answers(ran);
        for (index, (case, run)) in cases.iter().zip(ran.iter()).enumerate() {
            note((index, case), run, bench.all, out);
        }
        let residuals = runs.iter().flatten().map(|r| r.residual).chain([base.residual]);
        out.residual = crate::coverage::residual(residuals);
        if !crate::coverage::balanced(out.residual) {
            let words = "the forces in the frame do not balance: its stresses cannot be trusted".to_owned();
            out.refused.push(Refused { case: None, moves: Vec::new(), words });
        }
        let heard = court.hear(cases, &runs);
        self.tell(&heard, &runs, out);
        sideways((base, &runs), cases, out);
        if depth == Depth::Whole {
            by_softer_joints(court, (bench, self.known), (cases, &runs, &heard.members), out);
            rank(&mut out.items);
            out.mends = crate::mend::mends(court, bench, cases, &out.items);
            out.bent = crate::bent::bent(bench.all, court, cases, &runs, &out.items);
        } else {
            rank(&mut out.items);
        }
        if depth == Depth::Clearing {
            out.clears = crate::mend::clears(court, bench, (cases, &out.items), &out.untold);
        }
        let repeated: Vec<Item> = bumped(court, (cases, &runs), &heard);
        out.lives = extras::lives(court.design, &court.climate, &repeated, cases);
    }

    /// Tells what was heard, and what else the forces say.
    fn tell(&self, heard: &Heard, runs: &[Option<&Run>], out: &mut Strength) {
        let Chair { court, bench, cases, figures, pose, .. } = *self;
        let (design, all) = (court.design, bench.all);
        (out.items, out.worst_of_case, out.most) = (court.items(heard), court.peaks(heard), court.most(heard));
        out.untold = court.untold(cases);
        out.untold.extend(crate::edgewise::untold(court, cases, runs));
        (out.rooms, out.misplaced) = court.rooms();
        out.assumed.extend(crate::room::taken(&out.rooms, design.inches));
        out.untold.extend(court.untold_ties(heard, &out.loose));
        let refused = court.forbidden_ties(heard, &out.forbidden);
        out.forbidden.extend(refused);
        sags(design, all, runs[0], out);
        out.turned =
            runs[0].map(|r| crate::turned::wheels((design, figures), all, pose, r)).unwrap_or_default();
        out.open.extend(crate::turned::toes(&out.turned));
        out.leaned =
            runs[0].map(|r| crate::turned::stems(design, (all, bench.feet), pose, r)).unwrap_or_default();
        out.open.extend(crate::turned::leaning(&out.leaned));
        out.seat_height = crate::follow::seat_height(design, all);
        out.under_seat = crate::below::under_seat(design, pose, all);
        out.seat_turned = runs[0].and_then(|r| crate::turned::seat(design, all, r));
        let seat = deck(design, all, SupportKind::Seat);
        out.narrow = runs[0].zip(seat).and_then(|(run, seat)| extras::narrow(seat, run));
        // what is judged as a fastening is not left out
        let judged = |b: &Beside| {
            let Beside::SupportFasteners { support, .. } = b else { return false };
            let name = &design.supports[*support].name;
            let mut mine =
                design.fastenings.iter().enumerate().filter(|(_, f)| f.what == *name || f.to == *name);
            mine.all(|(k, _)| heard.seen.contains(&crate::answer::What::Tie(TieOf::Fastening(k))))
        };
        out.beside.extend(extras::support_fasteners(all, runs).into_iter().filter(|b| !judged(b)));
        out.beside.extend(crate::sling::edges(design, all, cases));
        Court::doubt(&mut out.items, &out.untold);
        out.left_out.extend(crate::coverage::left_out(design, all, runs));
        out.open.extend(court.points_out());
        out.open.extend(court.warmth_unsaid());
        out.open.extend(crate::rated::beyond(design, all, cases, runs));
        out.open.extend(crate::stem::bent(design, all, cases, runs));
        out.open.extend(crate::axle::bent(design, all, cases, runs));
        out.open.extend(crate::axle::bare(design, all));
        out.assumed.extend(crate::column::glued(design, all));
        out.assumed.extend(crate::grain::untold_grain(design, all));
    }
}

fn seated(cases: &[Case]) -> Option<&Case> {
    cases.iter().find(|c| c.kind == CaseKind::Seated)
}

/// The chair as the seated rider has it after years.
fn lasting(bench: &Bench<'_>, ready: &Ready, cases: &[Case]) -> Option<Ready> {
    seated(cases).and_then(|c| bench.ready(&c.setup, &[ready]).ok())
}

/// Every case once more without what rides along: a bag behind the back takes weight off the casters. `None` where the
/// chair has no answer so.
fn without_carried(
    maker: &Maker<'_>,
    (bench, tyres): (&Bench<'_>, &Tyres),
    ready: &Ready,
    kerb: f64,
) -> Option<Vec<Case>> {
    let Some(mut bare) = maker.without_carried() else { return Some(Vec::new()) };
    let Some(Ok(base)) = bench.loaded(ready, &[bare.base().pushes.as_slice()]).pop() else {
        return None;
    };
    let light = Case { setup: Setup::default(), ..bare.base() };
    let hard = hard((ready, &light), &base, (bench, tyres), kerb);
    let landed = landed(&mut bare, (bench, tyres), (ready, &base.feet), kerb);
    let cases = bare.cases(&AtRest { give: base.give, hard, feet: &base.feet, tyres, landed }, kerb);
    Some(cases.into_iter().map(|c| Case { kind: CaseKind::Bare(Box::new(c.kind)), ..c }).collect())
}

/// The cases of landing on the wheels at one end. One whose size could not be computed is told.
fn landed(
    maker: &mut Maker<'_>,
    (bench, tyres): (&Bench<'_>, &Tyres),
    (ready, feet): (&Ready, &[f64]),
    kerb: f64,
) -> Vec<Case> {
    let mut out = Vec::new();
    let seated = maker.seated();
    let landings = maker.landings(feet, &seated);
    let loads: Vec<&[Push]> = landings.iter().map(|l| l.falls.as_slice()).collect();
    for (landing, run) in landings.iter().zip(bench.loaded(ready, &loads)) {
        let sized = run.ok().and_then(|run| {
            let give = landing.sinks(run.give);
            let flat = tyres.bottoms(kerb, give, &run.feet);
            let hard = flat.then(|| rims((ready, &landing.falls), (bench, tyres))).flatten();
            landing.sized(&seated, (tyres, kerb), (give, hard.map(|g| landing.sinks(g))), &run.feet)
        });
        match sized {
            Some(case) => out.push(case),
            None => maker.open.push(Open::Drop),
        }
    }
    out
}

/// Stiffness of a tyre that does not give way, N/m: a thousand times what a chair has.
const RIM: f64 = 1e9;

/// How far the seated chair gives way on tyres that do not, where a drop presses one flat.
fn hard(
    (ready, seated): (&Ready, &Case),
    base: &Run,
    (bench, tyres): (&Bench<'_>, &Tyres),
    height: f64,
) -> Option<f64> {
    if !tyres.bottoms(height, base.give, &base.feet) {
        return None;
    }
    rims((ready, &seated.pushes), (bench, tyres))
}

/// How far a load sinks on tyres that do not give way, m.
fn rims((ready, load): (&Ready, &[Push]), (bench, tyres): (&Bench<'_>, &Tyres)) -> Option<f64> {
    let feet = vec![RIM; tyres.stiffness.len()];
    let bench = Bench { feet: &feet, ..*bench };
    let run = bench.group_near(&[ready], &ready.setup, &[load]).pop();
    run.and_then(Result::ok).map(|r| r.give)
}

/// When the frame gives way sideways, and what that takes from the verdicts.
fn sideways((base, runs): (&Run, &[Option<&Run>]), cases: &[Case], out: &mut Strength) {
    let at = cases.iter().position(|c| c.kind == CaseKind::Seated);
    let lasting = at.and_then(|k| runs[k]).and_then(|r| r.buckling);
    // what heat and water leave of it
    let short = base.buckling.map(|b| b * base.keeps.unwrap_or(1.0));
    (out.buckling, out.buckling_lasting) = (short, lasting);
    let found = Sideways { short, lasting };
    out.open.extend(found.open(cases));
    let factor = |run: &Option<&Run>| {
        let gives = run.as_ref()?.cuts.first()?.gives?;
        Some(gives.factor * gives.keeps)
    };
    let own: Vec<Option<f64>> = runs.iter().map(factor).collect();
    out.doubts.extend(by_sideways(found, (cases, &own), &mut out.items));
}

/// How far the seat sags after years, and whether that is more than a sling is taken to.
fn sags(design: &Design, all: &Structure, seated: Option<&Run>, out: &mut Strength) {
    out.sag = seated.and_then(|r| extras::sag(design, all, r));
    let Some((sag, seat)) = out.sag.zip(deck(design, all, SupportKind::Seat)) else { return };
    let most = SLACK * seat.width;
    if sag > most {
        out.open.push(Open::Sags { support: seat.support, sag, most });
    }
}

/// How far a sling seat has pulled its rails together after years, and whether that takes the room that the hips have, or
/// more than a sling is taken to hang through.
fn narrows(all: &Structure, (design, checked): (&Design, &Checked), out: &mut Strength) {
    let Some((by, seat)) = out.narrow.zip(deck(design, all, SupportKind::Seat)) else { return };
    let ease = checked.figures.si("fit.width.ease").map(|e| e.max(0.0));
    let most = ease.unwrap_or(f64::INFINITY).min(SLACK * seat.width);
    // less than a tenth of a millimetre is nobody's concern, even where the hips have no room at all
    if by > most.max(1e-4) {
        out.open.push(Open::Narrows { support: seat.support, by, ease });
    }
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

fn note((index, case): (usize, &Case), run: &Result<Run, Trouble>, all: &Structure, out: &mut Strength) {
    match run {
        Ok(run) => {
            let names: Vec<String> = run.let_go.iter().map(|k| all.footings[*k].name.clone()).collect();
            // on two wheels alone the others are up by definition
            if !names.is_empty() && !matches!(case.kind.plain(), CaseKind::Diagonal(..)) {
                out.taken.push(Taken::LiftOff(case.kind.clone(), names));
            }
            let names: Vec<String> = run.held_down.iter().map(|k| all.footings[*k].name.clone()).collect();
            if !names.is_empty() {
                out.taken.push(Taken::HeldDown(case.kind.clone(), names));
            }
        }
        Err(Trouble::Refused(words)) => {
            out.refused.push(Refused { case: Some(index), moves: Vec::new(), words: words.clone() });
        }
        Err(Trouble::Moves(ways)) => {
            let moves = moving(all, ways.iter().flat_map(|w| &w.bars));
            out.refused.push(Refused { case: Some(index), moves, words: String::new() });
        }
        Err(Trouble::Leaves(supports)) => {
            out.open.push(Open::Leaves { case: Some(index), supports: supports.clone() });
        }
    }
}

/// The frame moves by itself: what, and about which joint.
fn stuck(design: &Design, all: &Structure, pose: &Settled, trouble: Trouble, out: &mut Strength) {
    let ways = match trouble {
        Trouble::Refused(words) => {
            return out.refused.push(Refused { case: None, moves: Vec::new(), words });
        }
        Trouble::Leaves(supports) => return out.open.push(Open::Leaves { case: None, supports }),
        Trouble::Moves(ways) => ways,
    };
    let idle = moving(all, ways.iter().flat_map(|w| &w.bars));
    for way in ways.into_iter().filter(|w| !w.idle) {
        let swing = swing(design, all, pose, &way);
        if !out.swings.contains(&swing) {
            out.swings.push(swing);
        }
    }
    if out.swings.is_empty() {
        out.refused.push(Refused { case: None, moves: idle, words: String::new() });
    }
}

/// Names of bars that move.
fn moving<'a>(all: &Structure, bars: impl Iterator<Item = &'a usize>) -> Vec<String> {
    let mut names: Vec<String> = bars.map(|b| all.bars[*b].name.clone()).collect();
    names.sort();
    names.dedup();
    names
}

fn swing(design: &Design, all: &Structure, pose: &Settled, way: &Moving) -> Swing {
    let parts = moving(all, way.bars.iter());
    let first = way.bars.first().map(|b| origin(design, all.bars[*b].of));
    let middle = way.bars.first().map(|b| all.bars[*b].at(all.bars[*b].length() / 2.0));
    let about = way.axis.zip(middle).and_then(|((p, w), m)| nearest_joint(design, pose, (p, w), m));
    Swing { parts, origin: first, about, axis: way.axis.map(|a| a.1) }
}

/// The joint on a line, within 60 mm of it; of several as near to it the one nearest to what moves.
fn nearest_joint(design: &Design, pose: &Settled, (p, way): (Vec3, Vec3), moves: Vec3) -> Option<JointId> {
    let place = |id: JointId| pose.pose.place(design.joints[id].at);
    let off = |id: JointId| (place(id) - p).across(way).norm();
    let near: Vec<JointId> = design.joints.iter().map(|(id, _)| id).filter(|id| off(*id) < 0.06).collect();
    let least = near.iter().map(|id| off(*id)).fold(f64::INFINITY, f64::min);
    let alike = near.into_iter().filter(|id| off(*id) < least + 1e-3);
    alike.min_by(|a, b| (place(*a) - moves).norm().total_cmp(&(place(*b) - moves).norm()))
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

/// The worst stress of every bar over bumps, however the casters stand and whatever rides along.
fn bumped(court: &Court<'_>, (cases, runs): (&[Case], &[Option<&Run>]), heard: &Heard) -> Vec<Item> {
    let bumps = |k: usize| *cases[k].kind.plain() == CaseKind::Bumps;
    let mut worst: BTreeMap<What, Use> = BTreeMap::new();
    // a life is told of stress, not of a push or a line of glue
    let mut keep = |u: Use| keep_worst(worst.entry(u.what).or_insert(u), u);
    if cases.iter().any(|c| c.lasting == Lasting::Repeated && *c.kind.plain() != CaseKind::Bumps) {
        // beside a load of the design that comes again and again, which may hide them
        for (k, run) in (0..cases.len()).filter(|k| bumps(*k)).filter_map(|k| Some((k, runs[k]?))) {
            run.cuts.iter().filter_map(|cut| court.cut(k, Lasting::Repeated, cut)).for_each(&mut keep);
        }
    } else {
        let stress = |key: &(What, Family, Lasting)| key.1 == Family::Section && key.2 == Lasting::Repeated;
        heard.worst.iter().filter(|(key, _)| stress(key)).for_each(|(_, u)| keep(*u));
    }
    let mut items: Vec<Item> = worst.into_values().map(|u| court.item(u)).collect();
    rank(&mut items);
    items
}

fn remarks(design: &Design, all: &Structure, out: &mut Strength) {
    out.taken.push(Taken::RigidJoints(SOFT));
    if all.ties.iter().any(|t| matches!(t.hold, Hold::Slips { .. } | Hold::Bearing { grip: Some(_), .. })) {
        out.taken.push(Taken::Slip);
    }
    out.taken.extend(crate::seat::known(design, all));
    for deck in all.decks.iter().filter(|d| d.is_sling()) {
        let known = design.supports[deck.support].sag.is_some();
        out.taken.push(Taken::SlingSag { support: deck.support, sag: deck.sag, known });
    }
    if !design.panels.is_empty() {
        out.taken.push(Taken::PanelArms);
    }
    let lies = extras::only_lie(all);
    out.beside.extend(lies.iter().map(|k| Beside::Slides(*k)));
    if !lies.is_empty() {
        out.taken.push(Taken::OnlyLies(lies));
    }
    let place = |k: &&'static str| {
        design.conditions.quantities.contains_key(*k) || design.conditions.words.contains_key(*k)
    };
    let unused: Vec<&'static str> = ["speed", "ground"].into_iter().filter(place).collect();
    if !unused.is_empty() {
        out.beside.push(Beside::Unused(unused));
    }
    if all.bars.iter().any(|b| matches!(b.form, crate::form::Form::Tube { .. })) {
        out.beside.push(Beside::FittingBodies);
    }
    out.beside.extend([Beside::BoughtParts, Beside::Toe, Beside::Age]);
}
