//! What a lost joint does to a frame that is worked out by hand.

use super::bar;
use crate::answer::{Lost, Rest};
use crate::bar::{Bar, Of};
use crate::case::{Case, Lasting};
use crate::follow::{Down, Whole};
use crate::form::Form;
use crate::judge::Court;
use crate::limit::Climate;
use crate::load::Push;
use crate::lost::lost;
use crate::matter::matters;
use crate::model::Setup;
use crate::shipped::{design, short};
use crate::solve::Bench;
use crate::structure::{Carries, Deck, Footing, Hold, Port, Spot, Structure, Tie, TieOf};
use chairwright_design::{Design, Id, JointId, Vec3};

const TEXT: &str = "use catalogue.pipe_inch
rider { mass = 70 kg }
use catalogue.panels
conditions { temperature = 23 degC }
stock ply = \"plywood 18 mm\"
joint a at left 200 mm, up 300 mm
joint b at right 200 mm, up 300 mm
joint c at right 300 mm, up 300 mm
member axle = \"pipe 1 1/4 in sch40\" from a to b
member rail = \"pipe 1 1/4 in sch40\" from a to b
member peg = \"pipe 1 1/4 in sch40\" from b to c
seat = ply from up 300 mm to forward 400 mm, up 300 mm width 400 mm
footrest = ply from forward 500 mm, up 100 mm to forward 700 mm, up 100 mm width 300 mm
";

fn spot(bar: usize, at: f64) -> Spot {
    Spot::Port(Port { bar, at })
}

fn rigid(a: Spot, b: Spot, of: TieOf) -> Tie {
    Tie { of, spots: vec![a, b], hold: Hold::Rigid }
}

/// An axle 0.4 m long whose wheels stand 0.1 m beyond its ends, a third foot that only keeps it from rolling, and beside it
/// a rail of the same length that carries the seat, joined to the axle at its ends `joints`; number 2 is a peg on its second
/// end that carries the foot support.
fn frame(design: &Design, joints: &[usize]) -> Structure {
    let members: Vec<Bar> = design
        .members
        .values()
        .enumerate()
        .map(|(k, m)| {
            let form = Form::of(&design.stocks[m.stock].shape).unwrap();
            let ends = if k == 2 { (Vec3::Y * 0.2, Vec3::Y * 0.3) } else { (Vec3::Y * -0.2, Vec3::Y * 0.2) };
            let plain = bar(ends.0, ends.1, Vec3::Z, form);
            Bar { name: m.name.clone(), of: Of::Member(Id::new(k)), stock: m.stock, ..plain }
        })
        .collect();
    let mut all = Structure { bars: members, ..Structure::default() };
    let feet = [(Vec3::Y * -0.3, 0.0, false), (Vec3::Y * 0.3, 0.4, false), (Vec3::X * 0.4, 0.2, true)];
    for (k, (at, along, caster)) in feet.into_iter().enumerate() {
        let (hub, contact) = (all.point(at), all.point(at - Vec3::Z * 0.3));
        all.ties.push(rigid(Spot::Point(contact), Spot::Point(hub), TieOf::Part));
        all.ties.push(rigid(Spot::Point(hub), spot(0, along), TieOf::Wheel(k)));
        let name = format!("foot {k}");
        all.footings.push(Footing {
            name,
            caster,
            index: k,
            hub,
            contact,
            carrier: Some("axle".into()),
            swung: None,
            overhang: None,
        });
    }
    for k in joints {
        let (a, b) =
            [(spot(0, 0.0), spot(1, 0.0)), (spot(0, 0.4), spot(1, 0.4)), (spot(1, 0.4), spot(2, 0.0))][*k];
        all.ties.push(rigid(a, b, TieOf::Joint(JointId::new(*k))));
    }
    let (low, high) = (Port { bar: 1, at: 0.0 }, Port { bar: 1, at: 0.4 });
    let seat = Carries::Bands(vec![(low, high)]);
    let foot = Carries::Sheet { across: Vec::new(), on: vec![2] };
    for (support, carries) in [seat, foot].into_iter().enumerate() {
        all.decks.push(Deck {
            support,
            ends: (Vec3::ZERO, Vec3::X * 0.4),
            side: Vec3::Y,
            normal: Vec3::Z,
            width: 0.4,
            sag: 0.020,
            carries,
        });
    }
    if joints.contains(&2) { all } else { all.without(&[2]) }
}

/// What each lost joint does under 200 N on the middle of the rail, so many times, for years; and the bending stiffness of the
/// pipe after years, N m².
fn without_each(joints: &[usize], times: f64) -> (Vec<Lost>, f64) {
    let design = design(TEXT);
    let all = frame(&design, joints);
    let climate = Climate::of(&design, &mut Vec::new());
    let matters = matters(&design, &all, &climate);
    let bench = Bench { all: &all, matters: &matters, feet: &[160e3, 160e3, 400e3] };
    let force = Vec3::Z * (-200.0 * times);
    let down = Push::At { port: Port { bar: 1, at: 0.2 }, force, moment: Vec3::ZERO };
    let setup = Setup { lasting: true, ..Setup::default() };
    let case = Case { lasting: Lasting::Sustained, setup, ..short(vec![down]) };
    let court = Court::new(&design, &all, &matters, climate);
    let ready = bench.ready(&case.setup, &[]).unwrap_or_else(|t| panic!("{t:?}"));
    let run = bench.loaded(&ready, &[case.pushes.as_slice()]).pop().and_then(Result::ok);
    // the rail stays the second bar, whatever goes
    let again = |left: &Structure| (left.bars[1].name == "rail").then(|| vec![down]);
    let chair = Whole { court: &court, bench: &bench, seated: &case, ready: &ready, again: &again };
    let stiff = matters[1].stiffness(true).0 * matters[1].shape.iy;
    (lost(&chair, run.as_ref(), None), stiff)
}

/// Each wheel carries half of the 200 N whatever is joined. With one end of the rail lost the rail is a cantilever of 0.2 m
/// from the other: at that end the axle takes 0.1 m · 100 N from its wheel and 0.2 m · 200 N from the rail, 50 N m, which
/// fall to the 10 N m of the other wheel. 1 1/4 in Schedule 40 has Z = 3 844 mm³: 13.01 MPa of the 13.79 (2 000 psi)
/// that rigid PVC bears for years, 0.943; the 40 N m of the rail itself are 0.755.
///
/// How far the free end sinks, in 1/EI: the axle turns by 0.4·(2·50 + 10)/6 = 7.333 at the joint and by 0.4·(2·10 + 50)/6 =
/// 4.667 at its other end, against its chord, which turns by (4.667 − 7.333)/6 = −0.444 as the hubs stand 0.1 m beyond: 6.889 at
/// the joint. Its end lies 0.1·6.889 below its wheel, the rail turned by it 0.4·6.889 lower, and itself bent by
/// 200·0.2²·(3·0.4 − 0.2)/6 = 1.333: 4.778 in all. Before, the wheels alone bent the axle by 10 N m, which
/// turns its ends by 10·0.4/2 = 2, 0.1·2 = 0.2 below the wheels: 4.578/EI lower. Shear adds a little.
#[test]
fn one_end_of_a_rail_lets_go() {
    let (all, stiff) = without_each(&[0, 1], 1.0);
    let names: Vec<&str> = all.iter().map(|l| l.name.as_str()).collect();
    assert_eq!(names, ["a", "b"]);
    for l in &all {
        assert!(!l.falls && l.worst.as_deref() == Some("axle"), "{l:?}");
        assert!((l.used.1 - 0.943).abs() < 0.003, "{l:?}");
        assert!(l.used.0 <= l.used.1, "{l:?}");
        assert!(l.seat == Down::Stays && l.lets_go.is_empty(), "{l:?}");
        let by = l.sinks.unwrap() / (4.578 / stiff);
        assert!((1.0..1.03).contains(&by), "{by} {l:?}");
    }
}

/// The same with 40 times the load: the 2 000 N m break the axle, and with it go the wheels.
#[test]
fn what_breaks_an_axle_takes_the_wheels() {
    let (all, _) = without_each(&[0, 1], 40.0);
    for l in &all {
        assert!(l.rest() == Rest::Breaks && l.comes() == Down::Wheel && l.lets_go == ["axle"], "{l:?}");
        assert_eq!(l.sinks, None);
    }
}

/// A rail that hangs on one joint alone comes down with the seat when it lets go.
#[test]
fn the_only_joint_of_a_rail_lets_go() {
    let (all, _) = without_each(&[0], 1.0);
    assert!(matches!(&all[..], [l] if l.falls && l.name == "a" && l.comes() == Down::Seat), "{all:?}");
}

/// A peg that carries the foot support comes off by itself. The seat stays where it is: the wheels bend the axle by 10 N m,
/// which turns its ends by 10·0.4/(2·EI), as the load turns those of a rail that hands on no moment, 200·0.4²/(16·EI): so
/// none goes through the joints, and the rail has 200·0.4/4 = 20 N m, 5.203 MPa of 13.79: 0.377.
#[test]
fn a_foot_support_lets_go_alone() {
    let (all, _) = without_each(&[0, 1, 2], 1.0);
    let peg = &all[2];
    assert_eq!(peg.lets_go, ["footrest", "peg"]);
    assert!(!peg.falls && peg.seat == Down::Stays, "{peg:?}");
    // nothing in the text closes the joints of this frame
    assert_eq!(peg.unjudged, ["a", "b"]);
    assert!(peg.worst.as_deref() == Some("rail") && (peg.used.1 - 0.377).abs() < 0.002, "{peg:?}");
    assert!(peg.sinks.unwrap() < 1e-6, "{peg:?}");
}
