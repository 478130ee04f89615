//! What a lost joint does to a frame that is worked out by hand.

use super::bar;
use crate::answer::Lost;
use crate::bar::{Bar, Of};
use crate::case::{Case, Lasting};
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
conditions { temperature = 23 degC }
joint a at left 200 mm, up 300 mm
joint b at right 200 mm, up 300 mm
member axle = \"pipe 1 1/4 in sch40\" from a to b
member rail = \"pipe 1 1/4 in sch40\" from a to b
";

fn spot(bar: usize, at: f64) -> Spot {
    Spot::Port(Port { bar, at })
}

fn rigid(a: Spot, b: Spot, of: TieOf) -> Tie {
    Tie { of, spots: vec![a, b], hold: Hold::Rigid }
}

/// An axle 0.4 m long whose wheels stand 0.1 m beyond its ends, a third foot that only keeps it from rolling, and beside it
/// a rail of the same length that carries the seat, joined to the axle at its ends `joints`.
fn frame(design: &Design, joints: &[usize]) -> Structure {
    let members: Vec<Bar> = design
        .members
        .values()
        .enumerate()
        .map(|(k, m)| {
            let form = Form::of(&design.stocks[m.stock].shape).unwrap();
            let plain = bar(Vec3::Y * -0.2, Vec3::Y * 0.2, Vec3::Z, form);
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
        let at = [0.0, 0.4][*k];
        all.ties.push(rigid(spot(0, at), spot(1, at), TieOf::Joint(JointId::new(*k))));
    }
    all.decks.push(Deck {
        support: 0,
        ends: (Vec3::ZERO, Vec3::X * 0.4),
        side: Vec3::Y,
        normal: Vec3::Z,
        width: 0.4,
        sag: 0.020,
        carries: Carries::Sheet { across: Vec::new(), on: vec![1] },
    });
    all
}

/// What each lost joint does under 200 N on the middle of the rail, for years.
fn without_each(joints: &[usize]) -> Vec<Lost> {
    let design = design(TEXT);
    let all = frame(&design, joints);
    let climate = Climate::of(&design, &mut Vec::new());
    let matters = matters(&design, &all, &climate);
    let bench = Bench { all: &all, matters: &matters, feet: &[160e3, 160e3, 400e3] };
    let down = Push::At { port: Port { bar: 1, at: 0.2 }, force: Vec3::Z * -200.0, moment: Vec3::ZERO };
    let setup = Setup { lasting: true, ..Setup::default() };
    let case = Case { lasting: Lasting::Sustained, setup, ..short(vec![down]) };
    let court = Court::new(&design, &all, &matters, climate);
    let ready = bench.ready(&case.setup, &[]).unwrap_or_else(|t| panic!("{t:?}"));
    lost(&court, &bench, (&case, &ready), None)
}

/// Each wheel carries half of the 200 N whatever is joined. With one end of the rail lost the rail is a cantilever of 0.2 m
/// from the other: at that end the axle takes 0.1 m · 100 N from its wheel and 0.2 m · 200 N from the rail, 50 N m, which
/// fall to the 10 N m of the other wheel. 1 1/4 in Schedule 40 has Z = 3 844 mm³: 13.01 MPa of the 13.79 (2 000 psi)
/// that rigid PVC bears for years, 0.943; the 40 N m of the rail itself are 0.755.
#[test]
fn one_end_of_a_rail_lets_go() {
    let all = without_each(&[0, 1]);
    let names: Vec<&str> = all.iter().map(|l| l.name.as_str()).collect();
    assert_eq!(names, ["a", "b"]);
    for l in &all {
        assert!(!l.falls && l.worst.as_deref() == Some("axle"), "{l:?}");
        assert!((l.used.1 - 0.943).abs() < 0.003, "{l:?}");
        assert!(l.used.0 <= l.used.1, "{l:?}");
    }
}

/// A rail that hangs on one joint alone comes down with the seat when it lets go.
#[test]
fn the_only_joint_of_a_rail_lets_go() {
    let all = without_each(&[0]);
    assert!(matches!(&all[..], [l] if l.falls && l.name == "a"), "{all:?}");
}
