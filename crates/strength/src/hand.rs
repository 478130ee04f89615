//! The model against hand calculation: each test builds a small structure and compares with a closed
//! formula of beam theory.

use crate::bar::{Bar, Of, Sheath, Stretch};
use crate::case::Lasting;
use crate::form::Form;
use crate::load::{Middle, Push};
use crate::matter::Matter;
use crate::model::{Built, Setup};
use crate::solve::Bench;
use crate::structure::{Carries, Deck, Hold, Port, Spot, Structure, Tie, TieOf};
use chairwright_design::{Id, JointId, StockId, Vec3};
use chairwright_statics::{LoadCase, MemberLoad, Solver};

mod lost;

const PIPE: Form = Form::Tube { outer: 42.16e-3, wall: 3.556e-3 };
pub(crate) const E: f64 = 2.9e9;

pub(crate) fn bar(from: Vec3, to: Vec3, up: Vec3, form: Form) -> Bar {
    Bar {
        name: "b".into(),
        of: Of::Member(Id::new(0)),
        ends: (from, to),
        up,
        stock: StockId::new(0),
        form,
        stretches: vec![Stretch { from: 0.0, to: (to - from).norm(), grip: [0.0; 2] }],
        sheaths: Vec::new(),
        holes: Vec::new(),
    }
}

pub(crate) fn matter(form: &Form) -> Matter {
    Matter { e: [E, 0.375 * E], soft: 1.0, g: 0.36, shape: form.shape(0.38), sheaths: Vec::new() }
}

/// A rail of 0.4 m that only stands on its ends, a station in its middle, 350 N spread over it: the
/// moment in the middle is W·L/8, the middle sinks by 5·W·L³/(384·E·I), with W·L/(8·k·G·A) of shear
/// (any handbook).
#[test]
fn a_rail_under_a_seat() {
    let rail = bar(Vec3::ZERO, Vec3::X * 0.4, Vec3::Z, PIPE);
    let mut all = Structure { bars: vec![rail], ..Structure::default() };
    let spot = |at| Spot::Port(Port { bar: 0, at });
    all.ties.push(Tie { of: TieOf::Joint(JointId::new(0)), spots: vec![spot(0.2)], hold: Hold::Rigid });
    let matters = [matter(&PIPE)];
    let mut built = Built::new(&all, &matters, &[], &Setup::default());
    assert_eq!(built.elements.len(), 2, "the joint in the middle is a station");
    let (first, last) = (built.node(spot(0.0)).0, built.node(spot(0.4)).0);
    built.model.nodes[first].fixed = [true, true, true, true, false, false];
    built.model.nodes[last].fixed = [false, true, true, false, false, false];
    let solver = Solver::new(&built.model).unwrap();
    let mut case = LoadCase::new();
    for e in &built.elements {
        case = case.on(e.id, MemberLoad::Uniform(chairwright_statics::In::Global, [0.0, 0.0, -350.0 / 0.4]));
    }
    let solved = solver.solve(&[case]).unwrap();
    let middle = solved[0].ends(built.elements[0].id)[1];
    assert!((middle[4].abs() - 350.0 * 0.4 / 8.0).abs() < 1e-6, "{middle:?}");
    let s = PIPE.shape(0.38);
    let sinks = 5.0 * 350.0 * 0.4_f64.powi(3) / (384.0 * E * s.iy) + 350.0 * 0.4 / (8.0 * 0.36 * E * s.shear_z);
    let down = -solved[0].node(built.node(spot(0.2)))[2];
    assert!((down / sinks - 1.0).abs() < 1e-9, "{down} {sinks}");
}

/// A sleeve that slides adds its EI to that of its bar, over its length only.
#[test]
fn a_sleeve_adds_its_stiffness_where_it_is() {
    let inner = Form::Tube { outer: 33.4e-3, wall: 3.378e-3 };
    let mut rail = bar(Vec3::ZERO, Vec3::X * 0.4, Vec3::Z, PIPE);
    rail.sheaths.push(Sheath { from: 0.1, to: 0.25, stock: StockId::new(1), form: inner, play: 0.0 });
    let all = Structure { bars: vec![rail], ..Structure::default() };
    let matters = [Matter { sheaths: vec![matter(&inner)], ..matter(&PIPE) }];
    let built = Built::new(&all, &matters, &[], &Setup::default());
    let ei: Vec<f64> = built.model.members.iter().map(|m| m.section.e * m.section.iy).collect();
    let (a, b) = (E * PIPE.shape(0.38).iy, E * inner.shape(0.38).iy);
    assert_eq!(ei.len(), 3);
    for (got, want) in ei.iter().zip([a, a + b, a]) {
        assert!((got / want - 1.0).abs() < 1e-12, "{got} {want}");
    }
}

/// A sling 0.4 m square that hangs through by 20 mm, its bands at these places of two rails.
fn sling(bands: &[f64]) -> (Vec<Bar>, Deck) {
    let rail = |y: f64| bar(Vec3::Y * y, Vec3::new(0.4, y, 0.0), Vec3::Z, PIPE);
    let band = |at: &f64| (Port { bar: 0, at: *at }, Port { bar: 1, at: *at });
    let deck = Deck {
        support: 0,
        ends: (Vec3::ZERO, Vec3::X * 0.4),
        side: Vec3::Y,
        normal: Vec3::Z,
        width: 0.4,
        sag: 0.020,
        carries: Carries::Bands(bands.iter().map(band).collect()),
    };
    (vec![rail(0.2), rail(-0.2)], deck)
}

/// 700 N on a sling 0.4 m wide pull its rails together by W·L/(8·sag) = 1 750 N at 20 mm of sag
/// (trade paper 1.16), half the weight on each.
#[test]
fn a_sling_pulls_its_rails_together() {
    let (bars, deck) = sling(&[0.1, 0.3]);
    let all = Structure { bars, ..Structure::default() };
    let pushes = deck.push(&all, Vec3::Z * -700.0, Middle { along: 0.5, aside: 0.0 });
    let sum = |bar: usize| {
        pushes.iter().fold(Vec3::ZERO, |s, p| match p {
            Push::At { port, force, .. } if port.bar == bar => s + *force,
            _ => s,
        })
    };
    assert!((sum(0) - Vec3::new(0.0, -1750.0, -350.0)).norm() < 1e-9, "{:?}", sum(0));
    assert!((sum(1) - Vec3::new(0.0, 1750.0, -350.0)).norm() < 1e-9, "{:?}", sum(1));
}

/// A band in the middle of two rails of 0.4 m that stand on their ends: 700 N on 20 mm of sag pull 1 750 N at each, in the
/// heat for years (0.375 of 2.9 GPa): F·L³/(48·E·I) = 1 750 · 0.064/(48 · 1.0875e9 · 81 044e-12) = 26.5 mm, and
/// F·L/(4·k·G·A) = 1.9 mm of shear, of each. The band's place is no joint: the model has a station there by itself.
#[test]
fn a_sling_brings_its_rails_nearer() {
    let (bars, deck) = sling(&[0.2]);
    let all = Structure { bars, decks: vec![deck], ..Structure::default() };
    let matters = [matter(&PIPE), matter(&PIPE)];
    let setup = Setup { lasting: true, ..Setup::default() };
    let mut built = Built::new(&all, &matters, &[], &setup);
    assert_eq!(built.elements.len(), 4);
    for bar in 0..2 {
        let end = |at| built.node(Spot::Port(Port { bar, at })).0;
        let (first, last) = (end(0.0), end(0.4));
        built.model.nodes[first].fixed = [true, true, true, true, false, false];
        built.model.nodes[last].fixed = [false, true, true, false, false, false];
    }
    let solver = Solver::new(&built.model).unwrap();
    let mut case = LoadCase::new();
    for push in all.decks[0].push(&all, Vec3::Z * -700.0, Middle { along: 0.5, aside: 0.0 }) {
        let Push::At { port, force, .. } = push else { panic!("{push:?}") };
        let e = built.elements.iter().find(|e| e.bar == port.bar && (e.to - port.at).abs() < 1e-9).unwrap();
        let load = MemberLoad::Point {
            axes: chairwright_statics::In::Global,
            at: e.to - e.from,
            force: [force.x, force.y, force.z],
            moment: [0.0; 3],
        };
        case = case.on(e.id, load);
    }
    let solved = solver.solve(&[case]).unwrap();
    let mut run = crate::solve::Run::default();
    for e in &built.elements {
        let u = solved[0].node(built.node(Spot::Port(Port { bar: e.bar, at: e.to })));
        run.moved.push((e.bar, e.to, Vec3::new(u[0], u[1], u[2])));
    }
    let (s, soft) = (PIPE.shape(0.38), 0.375 * E);
    let each = 1750.0 * 0.4_f64.powi(3) / (48.0 * soft * s.iy) + 1750.0 * 0.4 / (4.0 * 0.36 * soft * s.shear_z);
    let narrow = crate::extras::narrow(&all.decks[0], &run).unwrap();
    assert!((each - 0.0284).abs() < 2e-4 && (narrow / (2.0 * each) - 1.0).abs() < 1e-6, "{narrow} {each}");
}

/// The same sling hanging through by 12 mm pulls 700 · 0.4/(8 · 0.012) = 2 916.7 N; where nobody says, tight webbing hangs through by
/// 2 % of its width, 8 mm, and pulls 700 · 0.4/(8 · 0.008) = 4 375 N.
#[test]
fn a_tight_sling_pulls_harder() {
    let lines = |clause: &str| {
        format!(
            "use catalogue.webbing
{}
seat = \"webbing 50 mm\" from up 400 mm to forward 400 mm, up 400 mm width 400 mm times 2{clause}
both sides {{
joint r at outward 200 mm, up 400 mm
joint s at r, forward 400 mm
member edge = \"pipe 1 1/4 in sch40\" from r to s
}}
",
            crate::shipped::PARTS
        )
    };
    for (clause, pull) in [(" sagging 12 mm", 2916.667), ("", 4375.0)] {
        let design = crate::shipped::design(&lines(clause));
        let settled = chairwright_frame::Settled {
            pose: chairwright_design::Frame3::IDENTITY,
            pitch: 0.0,
            roll: 0.0,
            contacts: Vec::new(),
            rock: 0.0,
        };
        let all = Structure::new(&design, &chairwright_frame::frame(&design), &settled);
        let pushes = all.decks[0].push(&all, Vec3::Z * -700.0, Middle { along: 0.5, aside: 0.0 });
        let inward: f64 = pushes.iter().map(|p| p.force().y.max(0.0)).sum();
        assert!((inward - pull).abs() < 1e-2, "{clause}: {inward}");
    }
}

/// The same 700 N on a sheet only press: no pull across.
#[test]
fn a_sheet_does_not_pull_its_rails() {
    let strip = bar(Vec3::Y * -0.2, Vec3::Y * 0.2, Vec3::Z, Form::Flat { level: 0.1, upright: 0.012 });
    let all = Structure { bars: vec![strip], ..Structure::default() };
    let deck = Deck {
        support: 0,
        ends: (Vec3::ZERO, Vec3::X * 0.4),
        side: Vec3::Y,
        normal: Vec3::Z,
        width: 0.4,
        sag: 0.020,
        carries: Carries::Sheet { across: vec![0], on: Vec::new() },
    };
    let pushes = deck.push(&all, Vec3::Z * -700.0, Middle { along: 0.5, aside: 0.0 });
    assert_eq!(pushes.len(), 1);
    assert!((pushes[0].force() - Vec3::Z * -700.0).norm() < 1e-9);
}

/// The whole weight of 700 N on the left front corner: of a sheet 0.4 m wide on the outer 0.1 m of its foremost strip; of a
/// sling by its foremost band, three eighths of the width to the left of the middle: 7/8 of the weight on the left rail,
/// 1/8 on the right, and the pull across of a whole sling.
#[test]
fn a_weight_on_a_corner() {
    let strip = |x: f64| bar(Vec3::new(x, -0.2, 0.0), Vec3::new(x, 0.2, 0.0), Vec3::Z, PIPE);
    let bars = [0.05, 0.15, 0.25, 0.35].map(strip).to_vec();
    let all = Structure { bars, ..Structure::default() };
    let deck = |carries: Carries| Deck {
        support: 0,
        ends: (Vec3::ZERO, Vec3::X * 0.4),
        side: Vec3::Y,
        normal: Vec3::Z,
        width: 0.4,
        sag: 0.020,
        carries,
    };
    let down = Vec3::Z * -700.0;
    let (on, share) = deck(Carries::Sheet { across: vec![0, 1, 2, 3], on: Vec::new() }).corner(&all, down, 1.0);
    assert!((share.0 - 0.25).abs() < 1e-12 && (share.1 - 0.25).abs() < 1e-12);
    let [Push::Over { bar: 3, from, to, force }] = on[..] else { panic!("{on:?}") };
    assert!((from - 0.3).abs() < 1e-12 && (to - 0.4).abs() < 1e-12 && force == down, "{on:?}");
    let pair = (Port { bar: 3, at: 0.1 }, Port { bar: 0, at: 0.1 });
    let (on, _) = deck(Carries::Bands(vec![pair])).corner(&all, down, 1.0);
    let on_left = Vec3::new(0.0, -1750.0, -612.5);
    assert!((on[0].force() - on_left).norm() < 1e-9, "{on:?}");
    assert!((on[1].force() - Vec3::new(0.0, 1750.0, -87.5)).norm() < 1e-9, "{on:?}");
}

/// Two bars that meet in one place under a rigid tie share a node; with the tie gone they do not.
#[test]
fn a_dropped_tie_parts_its_bars() {
    let post = bar(Vec3::ZERO, Vec3::Z * 0.3, Vec3::X, PIPE);
    let rail = bar(Vec3::ZERO, Vec3::X * 0.4, Vec3::Z, PIPE);
    let of = TieOf::Joint(JointId::new(0));
    let spots = vec![Spot::Port(Port { bar: 0, at: 0.0 }), Spot::Port(Port { bar: 1, at: 0.0 })];
    let tie = Tie { of, spots: spots.clone(), hold: Hold::Rigid };
    let all = Structure { bars: vec![post, rail], ties: vec![tie], ..Structure::default() };
    let matters = [matter(&PIPE), matter(&PIPE)];
    let whole = Built::new(&all, &matters, &[], &Setup::default());
    assert_eq!(whole.node(spots[0]), whole.node(spots[1]));
    let broken = Built::new(&all, &matters, &[], &Setup { dropped: vec![of], ..Setup::default() });
    assert_ne!(broken.node(spots[0]), broken.node(spots[1]));
    let bench = Bench { all: &all, matters: &matters, feet: &[] };
    assert!(bench.group_near(&[], &Setup::default(), &[&[]])[0].is_err(), "nothing holds it to the ground");
}

/// A post that hangs on a fastening whose axes cross: 100 N at its foot, 0.3 m below and pushed forward, go through
/// the fastening as 100 N and 0.3 m · 100 N = 30 N m, though both places are one point.
#[test]
fn what_hangs_on_crossing_axes_is_read() {
    let rail = bar(Vec3::ZERO, Vec3::X * 0.4, Vec3::Z, PIPE);
    let post = bar(Vec3::X * 0.4, Vec3::new(0.4, 0.0, -0.3), Vec3::X, PIPE);
    let spots = vec![Spot::Port(Port { bar: 0, at: 0.4 }), Spot::Port(Port { bar: 1, at: 0.0 })];
    let tie = Tie { of: TieOf::Fastening(0), spots: spots.clone(), hold: Hold::Fastened };
    let all = Structure { bars: vec![rail, post], ties: vec![tie], ..Structure::default() };
    let matters = [matter(&PIPE), matter(&PIPE)];
    let mut built = Built::new(&all, &matters, &[], &Setup::default());
    assert_ne!(built.node(spots[0]), built.node(spots[1]));
    let first = built.node(Spot::Port(Port { bar: 0, at: 0.0 })).0;
    built.model.nodes[first].fixed = [true; 6];
    let foot = built.node(Spot::Port(Port { bar: 1, at: 0.3 }));
    let mut case = LoadCase::new();
    case.nodes.push((foot, [100.0, 0.0, 0.0, 0.0, 0.0, 0.0]));
    let solver = Solver::new(&built.model).unwrap();
    let solved = solver.solve(&[case]).unwrap();
    let handed = crate::solve::handed(&built, &solved[0], &[]);
    assert_eq!(handed.len(), 1);
    // on the rail: what the post pulls it by; (0, 0, −0.3) × (100, 0, 0) = (0, −30, 0)
    let (f, m) = (handed[0].force, handed[0].moment);
    assert!((f - Vec3::new(100.0, 0.0, 0.0)).norm() < 1e-4, "{f:?}");
    assert!((m - Vec3::new(0.0, -30.0, 0.0)).norm() < 1e-4, "{m:?}");
}

/// A kind of load knows its place in a table of four.
#[test]
fn kinds_of_load_are_numbered_in_order() {
    let all = [Lasting::Sustained, Lasting::Short, Lasting::Impact, Lasting::Repeated];
    assert!(all.iter().enumerate().all(|(i, k)| *k as usize == i));
}

/// A cantilever of 0.5 m whose root turns in its joint: `δ = PL³/3EI + PL²/k` (figures of semi-rigid ends, any handbook), with
/// k = 800 N m/rad as measured; after years the joint keeps of it what its pipe keeps, 0.375. Where nothing was measured the
/// joint is rigid, and in the softer run turns as five diameters more would: k = EI/(5 D).
#[test]
fn a_measured_joint_turns() {
    let length = 0.5;
    let sinks = |stiffness: Option<f64>, setup: &Setup| {
        let arm = bar(Vec3::ZERO, Vec3::X * length, Vec3::Z, PIPE);
        let post = bar(Vec3::ZERO, Vec3::Z * 0.1, Vec3::X, PIPE);
        let mut all = Structure { bars: vec![arm, post], ..Structure::default() };
        let spot = |bar, at| Spot::Port(Port { bar, at });
        let joint = JointId::new(0);
        all.ties.push(Tie {
            of: TieOf::Joint(joint),
            spots: vec![spot(0, 0.0), spot(1, 0.0)],
            hold: Hold::Rigid,
        });
        all.seats.extend(stiffness.map(|k| crate::seat::Seat {
            joint,
            stiffness: Some(k),
            inserted: None,
            threaded: false,
        }));
        let matters = [matter(&PIPE), matter(&PIPE)];
        let mut built = Built::new(&all, &matters, &[], setup);
        let root = built.node(spot(0, 0.0)).0;
        built.model.nodes[root].fixed = [true; 6];
        let tip = built.node(spot(0, length));
        let solver = Solver::new(&built.model).unwrap();
        let push = LoadCase::new().push(tip, [0.0, 0.0, -100.0, 0.0, 0.0, 0.0]);
        -solver.solve(&[push]).unwrap()[0].node(tip)[2]
    };
    let s = PIPE.shape(0.38);
    let by_hand = |e: f64, k: f64| {
        let bends = 100.0 * length.powi(3) / (3.0 * e * s.iy) + 100.0 * length / (0.36 * e * s.shear_z);
        bends + 100.0 * length * length / k
    };
    let near = |got: f64, want: f64| assert!((got / want - 1.0).abs() < 1e-6, "{got} {want}");
    let (rigid, softer) = (Setup::default(), Setup { soft: Some(5.0), ..Setup::default() });
    let years = Setup { lasting: true, ..Setup::default() };
    near(sinks(None, &rigid), by_hand(E, f64::INFINITY));
    near(sinks(None, &softer), by_hand(E, E * s.iy / (5.0 * 42.16e-3)));
    near(sinks(Some(800.0), &rigid), by_hand(E, 800.0));
    // what was measured is not doubted in the softer run
    near(sinks(Some(800.0), &softer), by_hand(E, 800.0));
    near(sinks(Some(800.0), &years), by_hand(0.375 * E, 0.375 * 800.0));
    // alone another joint gives way, and this one does not
    let other = Setup { alone: vec![JointId::new(1)], ..softer };
    near(sinks(None, &other), by_hand(E, f64::INFINITY));
}
