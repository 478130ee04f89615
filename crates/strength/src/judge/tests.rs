//! Judgements worked out by hand: forces are given, no frame is solved.

use super::*;
use crate::assumed::{Assumed, IdleSleeve, Unchecked};
use crate::bar::{Pierced, Sheath, Stretch};
use crate::matter::matters;
use crate::shipped::{PARTS, design, short};
use chairwright_design::{Id, Vec3};

fn stock(design: &mut Design, name: &str) -> StockId {
    let found = design.shelf.iter().find(|(_, s)| s.name == name).map(|(_, s)| s.clone());
    design.stocks.push(found.unwrap_or_else(|| panic!("no {name}")))
}

fn bar(design: &Design, length: f64) -> Bar {
    let member = design.members.values().next().unwrap();
    Bar {
        name: member.name.clone(),
        of: Of::Member(Id::new(0)),
        ends: (Vec3::ZERO, Vec3::X * length),
        up: Vec3::Z,
        stock: member.stock,
        form: Form::of(&design.stocks[member.stock].shape).unwrap(),
        stretches: vec![Stretch { from: 0.0, to: length, grip: [0.0; 2] }],
        sheaths: Vec::new(),
        holes: Vec::new(),
    }
}

fn sheath(design: &mut Design, name: &str, to: f64) -> Sheath {
    let stock = stock(design, name);
    Sheath { from: 0.0, to, stock, form: Form::of(&design.stocks[stock].shape).unwrap(), play: 0.0 }
}

/// What a bar is used for under these forces at 50 mm.
fn used(design: &Design, bar: &Bar, lasting: Lasting, forces: Forces) -> Vec<Use> {
    let all = Structure { bars: vec![bar.clone()], ..Structure::default() };
    let climate = Climate::of(design, &mut Vec::new());
    let matters = matters(design, &all, &climate);
    let court = Court::new(design, &all, &matters, climate);
    let mut out = Vec::new();
    let run = Run { cuts: vec![Cut { bar: 0, at: 0.05, forces, gives: None }], ..Run::default() };
    court.bars(0, lasting, &run, &mut |u| out.push(u));
    out
}

const ROOT: Forces = Forces { pull: 0.0, across: [0.0; 2], twist: 0.0, bend: [30.0, 0.0] };

/// A cantilever of 1 1/4 in Schedule 40, 100 N at 0.3 m: 30 N m, Z = 3 844 mm³: 7.804 MPa of 49.6/2 = 24.8. A sleeve of
/// 1 in Schedule 40 in it takes its share by EI, 36 355 to 81 044 mm⁴: the pipe keeps 0.6903, 5.388 MPa; the
/// sleeve has 0.3097 of 30 N m on 2 177 mm³, 4.267 MPa. The pipe decides.
#[test]
fn a_sleeve_shares_by_stiffness() {
    let mut design = design(PARTS);
    let mut rail = bar(&design, 0.3);
    let bare = used(&design, &rail, Lasting::Short, ROOT);
    assert!((bare[0].demand / 1e6 - 7.804).abs() < 0.005 && bare.len() == 1, "{bare:?}");
    assert!((bare[0].used.1 - 7.804 / 24.8).abs() < 3e-4, "{bare:?}");
    rail.sheaths.push(sheath(&mut design, "pipe 1 in sch40", 0.15));
    let all = used(&design, &rail, Lasting::Short, ROOT);
    assert!((all[0].demand / 1e6 - 5.388).abs() < 0.005, "{all:?}");
    assert_eq!(all[0].mode, Mode::Bending);
}

/// 30 N m on 1 1/4 in Schedule 40 (2.9 GPa on 81 044 mm⁴: 235.0 N m², after years 0.375 of it) with a steel tube of 33.7 by 2.6 mm in it (200 GPa
/// on π/64·(33.7⁴ − 28.5⁴) = 30 929 mm⁴: 6 186 N m²): the pipe keeps 235.0/6 421, 1.098 N m, for a while, and 88.1/6 274, 0.421 N m, for years.
#[test]
fn years_shift_what_is_shared_onto_what_does_not_creep() {
    let forms = [(42.16e-3, 3.556e-3), (33.7e-3, 2.6e-3)].map(|(outer, wall)| Form::Tube { outer, wall });
    let matter = |k: usize, e: [f64; 2]| Matter { e, ..crate::hand::matter(&forms[k]) };
    let (pipe, tube) = (matter(0, [2.9e9, 0.375 * 2.9e9]), matter(1, [200e9; 2]));
    for (lasting, keeps) in [(false, 1.098), (true, 0.4214)] {
        let sum = Rigidity::of(&pipe, lasting).plus(&Rigidity::of(&tube, lasting));
        let kept = Rigidity::of(&pipe, lasting).share(&sum, &ROOT).bend[0];
        assert!((kept / keeps - 1.0).abs() < 2e-3, "{lasting}: {kept}");
    }
}

/// The same sleeve 0.3 m long with 0.5 mm of play that nothing fills. The pipe (E = 2.9 GPa, I = 81 044 mm⁴) has bent by
/// 0.5 mm on 0.3 m at 8 · 0.5e-3/0.3² = 0.0444 1/m, under 10.45 N m: it keeps 10.45 + 0.6903 · 19.55 = 23.95 of 30 N m on
/// the plain side, and all of them on the cautious one. With 1.5 mm it closes under 31.3 N m (8.15 MPa in the pipe,
/// E·r·8c/L²) and has done nothing at 30; under 60 it leaves 31.34 + 0.6903 · 28.66 = 51.12.
#[test]
fn a_sleeve_with_play_makes_nothing_sound() {
    let mut design = design(PARTS);
    let mut rail = bar(&design, 0.3);
    let twice = Forces { bend: [60.0, 0.0], ..ROOT };
    let bare = [ROOT, twice].map(|f| used(&design, &rail, Lasting::Short, f)[0].used);
    let sheath = sheath(&mut design, "pipe 1 in sch40", 0.3);
    for (play, forces, bare, kept) in [
        (0.5e-3, ROOT, bare[0], 23.95 / 30.0),
        (1.5e-3, ROOT, bare[0], 1.0),
        (1.5e-3, twice, bare[1], 51.12 / 60.0),
    ] {
        rail.sheaths = vec![Sheath { play, ..sheath }];
        let loose = used(&design, &rail, Lasting::Short, forces)[0].used;
        assert!((loose.0 / bare.0 - kept).abs() < 1e-3, "{play}: {loose:?} {bare:?}");
        assert!((loose.1 - bare.1).abs() < 1e-12, "{play}: {loose:?} {bare:?}");
    }
}

/// What nothing is known of under a blow is given nothing of it, though it shares what is slow.
#[test]
fn a_sleeve_that_is_not_known_under_a_blow_carries_none_of_it() {
    let mut design = design(PARTS);
    let mut rail = bar(&design, 0.3);
    rail.sheaths.push(sheath(&mut design, "pipe 1 in sch40", 0.15));
    let m = &mut design.stocks[rail.sheaths[0].stock].material;
    m.allowance = Some("expanded PVC".into());
    let stress = |lasting| used(&design, &rail, lasting, ROOT)[0].demand / 1e6;
    assert!((stress(Lasting::Impact) - 7.804).abs() < 0.005, "{}", stress(Lasting::Impact));
    // 4.267 MPa of 49.6/3 in the sleeve is more than 5.388 of 49.6/2 in the pipe
    assert!((stress(Lasting::Short) - 4.267).abs() < 0.005, "{}", stress(Lasting::Short));
}

/// 1 in Schedule 40 in 1 1/4 in Schedule 40: 42.16 + 0.13 − 2·3.556 − (33.40 − 0.13) = 1.91 mm of play at most, it
/// sits tight when shimmed; in 1 1/2 in Schedule 80 4.70 mm nominal: it carries nothing, and that is said; nor does
/// one of unknown stiffness or strength.
#[test]
fn a_loose_or_unknown_sleeve_carries_nothing() {
    let mut design = design(PARTS);
    let mut rail = bar(&design, 0.3);
    rail.sheaths.push(sheath(&mut design, "pipe 1 in sch40", 0.15));
    let settled = |design: &Design, rail: &Bar| {
        let mut all = Structure { bars: vec![rail.clone()], ..Structure::default() };
        let (taken, idle) = crate::sleeve::settle(design, &mut all);
        (all.bars[0].sheaths.len(), taken, idle)
    };
    let (kept, taken, _) = settled(&design, &rail);
    let Assumed::TightSleeve(_, _, play) = &taken[0] else { panic!("{taken:?}") };
    assert!(kept == 1 && (play * 1e3 - 1.91).abs() < 0.01, "{play}");
    let mut wide = rail.clone();
    wide.stock = stock(&mut design, "pipe 1 1/2 in sch80");
    let why = |found: (usize, Vec<Assumed>, Vec<Unchecked>)| match (found.0, &found.2[..]) {
        (0, [Unchecked::Sleeve(_, _, why)]) => *why,
        _ => panic!("{found:?}"),
    };
    assert!(matches!(why(settled(&design, &wide)), IdleSleeve::Play(p) if p > 0.0047));
    let mut narrow = rail.clone();
    narrow.stock = stock(&mut design, "pipe 1/2 in sch40");
    narrow.sheaths[0].stock = stock(&mut design, "pipe 3/4 in sch40");
    // 20.93 mm of bore over 21.34 mm of pipe
    assert!(matches!(why(settled(&design, &narrow)), IdleSleeve::Misfit));
    let sleeve = rail.sheaths[0].stock;
    design.stocks[sleeve].material.strength = None;
    assert_eq!(why(settled(&design, &rail)), IdleSleeve::Strength);
    design.stocks[sleeve].material.modulus = None;
    assert_eq!(why(settled(&design, &rail)), IdleSleeve::Stiffness);
}

/// A hole of 9 mm upright through 1 1/4 in under 30 N m: two patches of wall 3.556 thick and 9 mm wide at about
/// 19.1 mm leave 81 044 − 2·9·3.556·(19.303² − 2.2) (the wall curves inward by 9²/(24·19.3)·2 mm² or so) = 57 330 mm⁴:
/// 11.03 MPa; the notch of 1.5 raises the cautious side.
#[test]
fn a_drilled_hole_leaves_a_net_section() {
    let design = design(PARTS);
    let mut rail = bar(&design, 0.3);
    rail.holes.push(Pierced::said(0.05, Drilled::hole(Some([0.0, 1.0]), 9e-3)));
    let hole = used(&design, &rail, Lasting::Short, ROOT)[0];
    assert_eq!(hole.mode, Mode::Hole);
    assert!((hole.demand / 1e6 / 11.03 - 1.0).abs() < 0.01, "{hole:?}");
    assert!((hole.used.1 / hole.used.0 - 1.5).abs() < 1e-9, "{hole:?}");
    // where the text does not say it, the plain side has the whole pipe: 7.804 of 24.8 MPa
    rail.holes[0].said = false;
    let unsaid = used(&design, &rail, Lasting::Short, ROOT)[0];
    assert!((unsaid.used.0 - 7.804 / 24.8).abs() < 3e-4 && unsaid.used.1 == hole.used.1, "{unsaid:?}");
}

/// A hole wider than the bore is judged as one as wide as the bore, and is no pass; one that leaves nothing fails.
#[test]
fn a_hole_that_leaves_nothing_never_passes() {
    let design = design(PARTS);
    let mut rail = bar(&design, 0.3);
    rail.holes.push(Pierced::said(0.05, Drilled::hole(None, 40e-3)));
    assert_eq!(unknown(&design, rail.clone()).0, [Unknown::Hole]);
    // it is judged as one as wide as the bore, 42.164 - 2 x 3.556 = 35.05 mm, which leaves more: worse than one of 30 mm, and as bad as
    // any between it and the whole pipe; one of 43 mm leaves nothing
    let mut of = |diameter: f64| {
        rail.holes[0].drilled = Drilled::hole(None, diameter);
        used(&design, &rail, Lasting::Short, ROOT).iter().map(|u| u.used.0).fold(0.0, f64::max)
    };
    let [small, bore, wide, all] = [30e-3, 35.0e-3, 40e-3, 43e-3].map(&mut of);
    assert!(bore > small && wide >= bore && wide < 1.02 * bore, "{small} {bore} {wide}");
    assert_eq!(all, f64::INFINITY);
}

/// What is not known of a bar, and what comes of an item of it that would pass.
fn unknown(design: &Design, rail: Bar) -> (Vec<Unknown>, Verdict) {
    let all = Structure { bars: vec![rail], ..Structure::default() };
    let climate = Climate::of(design, &mut Vec::new());
    let matters = matters(design, &all, &climate);
    let court = Court::new(design, &all, &matters, climate);
    let untold = court.untold(&[short(Vec::new())]);
    let mut items = vec![court.item(one(0, Mode::Bending, (0.1, 0.2)))];
    Court::doubt(&mut items, &untold);
    (untold.into_iter().map(|u| u.why).collect(), items[0].verdict)
}

/// 0.5 m of 1 1/4 in pushed by 500 N: EI = 2.9 GPa·81 044 mm⁴ = 235.0 N m². Nothing meets its ends: at best it is held at one
/// and free at the other, π²·EI/(2·0.5)² = 2 320 N: 0.2156; at worst π²·EI/(2.1·0.5)² = 2 104 N, half of it for safety: 0.4753; under a load that lasts
/// 0.375 of the stiffness is left: 1.2675.
#[test]
fn a_pushed_member_gives_way_sideways() {
    let design = design(PARTS);
    let rail = bar(&design, 0.5);
    let push = Forces { pull: -500.0, ..Forces::default() };
    let column = |lasting| used(&design, &rail, lasting, push).into_iter().find(|u| u.mode == Mode::Buckling);
    let short = column(Lasting::Short).unwrap();
    assert!((short.used.0 - 0.2156).abs() < 2e-4 && (short.used.1 - 0.4753).abs() < 1e-3, "{short:?}");
    let years = column(Lasting::Sustained).unwrap();
    assert!((years.used.1 - 1.2675).abs() < 3e-3, "{years:?}");
}

/// 0.5 m of a 2x2 (38.1 mm square, 175 598 mm⁴) of a wood of E GPa pushed by 500 N: its sorts scatter, so that it bears on the cautious
/// side E·(1 − 1.645·0.25)·1.03/1.66 = 0.3654 of what its mean modulus tells, not half.
#[test]
fn wood_gives_way_by_the_least_of_its_moduli() {
    let parts = PARTS.replace("use catalogue.panels", "use catalogue.panels\nuse catalogue.lumber");
    let design = design(&parts.replace("\"pipe 1 1/4 in sch40\"", "\"lumber 2x2\""));
    let rail = bar(&design, 0.5);
    let e = design.stocks[rail.stock].material.modulus.unwrap();
    let push = Forces { pull: -500.0, ..Forces::default() };
    let all = used(&design, &rail, Lasting::Short, push);
    let column = all.iter().find(|u| u.mode == Mode::Buckling).unwrap();
    let euler = std::f64::consts::PI.powi(2) * e * 175_598e-12 / (2.1_f64 * 0.5).powi(2);
    assert!((column.used.1 * 0.3654 * euler / 500.0 - 1.0).abs() < 1e-3, "{column:?} {euler}");
}

/// Corners of a box of 120 level by 90 upright, 18 mm thick, under 1 kN upright and 50 N m: over the middle lie
/// 120·18·36 = 77 760 mm³, I = 6.18775e6 mm⁴: 12.567 N/mm on two lines of 18 mm, 0.3491 MPa; twist 50 000/(2·102·72) =
/// 3.404 N/mm on one, 0.1891 MPa. Borne: 2.5 MPa over the safety of 2.5.
#[test]
fn corners_of_a_box_are_glue_lines() {
    let design = design(PARTS);
    let b = &design.boxes[0];
    let side = Bar {
        name: b.name.clone(),
        of: Of::Box(0),
        stock: b.stock,
        form: Form::Hollow { level: 120e-3, upright: 90e-3, wall: 18e-3 },
        ..bar(&design, 0.5)
    };
    let forces = Forces { across: [0.0, 1000.0], twist: 50.0, ..Forces::default() };
    let all = used(&design, &side, Lasting::Short, forces);
    let glue = all.iter().find(|u| u.mode == Mode::Glue).unwrap();
    assert!((glue.used.1 - 0.5382).abs() < 5e-4 && (glue.demand / 1e6 - 0.5382).abs() < 5e-4, "{glue:?}");
}

fn one(case: usize, mode: Mode, used: (f64, f64)) -> Use {
    Use {
        what: What::Bar(Of::Member(Id::new(0))),
        case,
        mode,
        at: 0.0,
        used,
        most: used.1,
        demand: 1.0,
        bears: 1.0,
    }
}

/// A part that fails in one kind of load and must be tested in another is told in both; what passes beside
/// them is not told, nor a second failure.
#[test]
fn no_verdict_hides_another() {
    let fails = one(0, Mode::Bending, (1.2, 2.0));
    let open = one(1, Mode::Cement, (0.6, 1.8));
    let passes = one(2, Mode::Bending, (0.2, 0.4));
    let again = one(3, Mode::Glue, (1.1, 1.1));
    let told = told([open, passes, fails, again].into_iter());
    assert_eq!(told, vec![(vec![open], fails)]);
    // what cannot be told does not hide what fails, however far its cautious side is used
    let told = super::told([one(0, Mode::Cement, (0.9, 9.0)), again].into_iter());
    assert_eq!(told.last().map(|t| t.1), Some(Use { most: 9.0, ..again }));
}

/// A joint whose bolts are used to 0.24 and 14.93 in one load and to 0.98 and 2.1 in another is at 0.98 of what surely breaks
/// it: that is told beside 14.93.
#[test]
fn the_greatest_plain_share_is_told() {
    let design = design(PARTS);
    let all = Structure { bars: vec![bar(&design, 0.3)], ..Structure::default() };
    let climate = Climate::of(&design, &mut Vec::new());
    let matters = matters(&design, &all, &climate);
    let court = Court::new(&design, &all, &matters, climate);
    let mut heard = Heard::default();
    for (kind, u) in [(Lasting::Short, (0.24, 14.93)), (Lasting::Impact, (0.98, 2.1))] {
        let u = one(0, Mode::Screws, u);
        heard.worst.insert((u.what, u.mode.family(), kind), u);
        let most = heard.plain.entry(u.what).or_insert(0.0);
        *most = most.max(u.used.0);
    }
    let items = court.items(&heard);
    let told: Vec<_> = items.iter().map(|i| (i.used, i.most)).collect();
    assert_eq!(told, [((0.24, 14.93), (0.98, 14.93))]);
}

#[test]
fn what_is_no_number_never_passes() {
    for used in [(f64::NAN, 0.5), (0.5, f64::NAN), (f64::NAN, f64::NAN), (0.0, f64::INFINITY)] {
        assert_eq!(verdict(used), Verdict::CannotTell, "{used:?}");
        assert!(rank(used) >= 1e3 || used.1.is_infinite(), "{used:?}");
    }
    assert_eq!(verdict((f64::INFINITY, f64::INFINITY)), Verdict::Fail);
    assert_eq!(verdict((1.0, 1.0)), Verdict::Pass);
}

/// A material without a modulus gets one to share out the loads; its bars are not judged sound, and the
/// number is told.
#[test]
fn a_guessed_stiffness_is_told_and_passes_nothing() {
    let mut design = design(PARTS);
    let rail = bar(&design, 0.3);
    design.stocks[rail.stock].material.modulus = None;
    let all = Structure { bars: vec![rail.clone()], ..Structure::default() };
    let climate = Climate::of(&design, &mut Vec::new());
    let taken = crate::matter::taken(&design, &all, &climate);
    assert_eq!(taken, vec![Assumed::Modulus("PVC-U pipe".into(), 1e9)]);
    let (why, verdict) = unknown(&design, rail);
    assert_eq!((&why[..], verdict), (&[Unknown::Stiffness("PVC-U pipe".into())][..], Verdict::CannotTell));
}

/// The pipe of [`a_pushed_member_gives_way_sideways`] at 40 degC, where its page leaves 0.57: 0.4753/0.57 = 0.8339; what
/// surely gives way is reckoned cool: 0.2156.
#[test]
fn warm_pipe_gives_way_sooner() {
    let design = design(&PARTS.replace("23 degC", "40 degC"));
    let push = Forces { pull: -500.0, ..Forces::default() };
    let all = used(&design, &bar(&design, 0.5), Lasting::Short, push);
    let u = all.iter().find(|u| u.mode == Mode::Buckling).unwrap();
    assert!((u.used.0 - 0.2156).abs() < 2e-4 && (u.used.1 - 0.8339).abs() < 2e-3, "{u:?}");
}

/// A box of 120 level by 90 upright, 18 mm birch plywood, under 500 N m: Z = 6.18775e6/45 = 137 506 mm³, 3.636 MPa of
/// 42·(1 − 1.645·0.16)/1.3 = 23.80: 0.1528 with the grain along it. Nobody says: half may be borne, 0.3055. Across: surely half.
#[test]
fn the_grain_of_a_box() {
    let mut design = design(PARTS);
    let b = &design.boxes[0];
    let form = Form::Hollow { level: 120e-3, upright: 90e-3, wall: 18e-3 };
    let side = Bar { name: b.name.clone(), of: Of::Box(0), stock: b.stock, form, ..bar(&design, 0.5) };
    let forces = Forces { bend: [500.0, 0.0], ..Forces::default() };
    let mut bent = |lengthwise| {
        design.boxes[0].lengthwise = lengthwise;
        let all = used(&design, &side, Lasting::Short, forces);
        all.into_iter().find(|u| u.mode == Mode::Bending).unwrap().used
    };
    for (told, plain, cautious) in
        [(Some(true), 0.1528, 0.1528), (None, 0.1528, 0.3055), (Some(false), 0.3055, 0.3055)]
    {
        let got = bent(told);
        assert!((got.0 - plain).abs() < 2e-4 && (got.1 - cautious).abs() < 2e-4, "{told:?} {got:?}");
    }
}

/// A wall that a test must tell at 260 % of what is sound, beside a bar that comes to its limit: once the bar surely breaks it is the
/// worst, and what is used at most stays 260 %.
#[test]
fn what_breaks_hides_no_greater_use() {
    let wall = one(0, Mode::Sleeve, (0.5, 2.6));
    for (plain, worst) in [(0.99, 2.6), (1.01, 1.2)] {
        let mut found = one(0, Mode::Bending, (plain, 1.2));
        keep_worst(&mut found, wall);
        assert_eq!((found.used.1, found.most), (worst, 2.6), "{plain}");
        let mut other = wall;
        keep_worst(&mut other, one(0, Mode::Bending, (plain, 1.2)));
        assert_eq!((other.used.1, other.most), (worst, 2.6), "{plain}");
    }
}
