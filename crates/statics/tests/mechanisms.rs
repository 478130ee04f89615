//! Frames that can move: found, told apart from slender ones, and described.
#![allow(clippy::unwrap_used, reason = "functions that the tests share")]

use chairwright_statics::{
    End, Error, Fault, Item, Joint, LoadCase, Mechanism, MemberId, Model, NodeId, Orientation, Section, Solver,
};

const CLAMPED: [bool; 6] = [true; 6];
const PINNED: [bool; 6] = [true, true, true, false, false, false];

fn tube() -> Section {
    Section {
        e: 2.9e9,
        g: 1.1e9,
        area: 6e-4,
        shear_y: Some(3e-4),
        shear_z: Some(3e-4),
        iy: 1.5e-7,
        iz: 1.5e-7,
        j: 3e-7,
    }
}

fn mechanisms(m: &Model) -> Vec<Mechanism> {
    match Solver::new(m) {
        Err(Error::Mechanism(found)) => found,
        other => unreachable!("expected a mechanism, got {:?}", other.map(|_| ())),
    }
}

fn hinge(about: usize) -> [Joint; 6] {
    let mut out = [Joint::Rigid; 6];
    out[about] = Joint::Free;
    out
}

/// Every scale of length and stiffness must give the same verdict.
fn scaled(m: &Model, length: f64, force: f64) -> Model {
    let mut out = m.clone();
    for n in &mut out.nodes {
        n.at = n.at.map(|c| c * length);
        n.spring = std::array::from_fn(|k| n.spring[k] * if k < 3 { force / length } else { force * length });
    }
    for b in &mut out.members {
        let s = &mut b.section;
        let (l2, l4) = (length.powi(2), length.powi(4));
        (s.e, s.g) = (s.e * force / l2, s.g * force / l2);
        (s.area, s.iy, s.iz, s.j) = (s.area * l2, s.iy * l4, s.iz * l4, s.j * l4);
        (s.shear_y, s.shear_z) = (s.shear_y.map(|a| a * l2), s.shear_z.map(|a| a * l2));
        for end in &mut b.ends {
            end.offset = end.offset.map(|c| c * length);
        }
    }
    out
}

/// Two posts hinged at their feet about y, joined by a rail on top: the whole swings about the feet.
fn swing() -> Model {
    let mut m = Model::new();
    let seat = [true, true, true, false, false, true];
    let n = [
        m.support([0.0, 0.0, 0.0], CLAMPED),
        m.node([0.0, 0.0, 0.5]),
        m.node([0.0, 0.6, 0.5]),
        m.support([0.0, 0.6, 0.0], seat),
    ];
    for w in n.windows(2) {
        m.member(w[0], w[1], tube());
    }
    // A vertical member's local y is global Y.
    m.members[0].ends[0].joint = hinge(4);
    m.members[0].orientation = Orientation::Roll(0.0);
    m
}

#[test]
fn posts_that_swing_are_named_with_their_axis() {
    for (length, force) in [(1.0, 1.0), (1e-3, 1e6), (1e3, 1e-9)] {
        let found = mechanisms(&scaled(&swing(), length, force));
        assert_eq!(found.len(), 1, "one way to move at scale {length}");
        let moving: Vec<usize> = found[0].members.iter().map(|m| m.member.0).collect();
        assert_eq!(moving, [0, 1, 2]);
        for motion in &found[0].members {
            let (point, direction) = motion.axis().unwrap();
            assert!((direction[1].abs() - 1.0).abs() < 1e-6, "about y: {direction:?}");
            assert!(
                (point[0] / length).abs() < 1e-6 && (point[2] / length).abs() < 1e-6,
                "through the feet: {point:?}"
            );
        }
        let top = found[0].nodes.iter().find(|n| n.node == NodeId(1)).unwrap();
        assert!(top.translation[0].abs() > 0.4 && top.translation[2].abs() < 1e-6);
    }
}

#[test]
fn a_strut_stops_the_swing() {
    let mut m = swing();
    let foot = m.support([0.4, 0.0, 0.0], PINNED);
    m.member(foot, NodeId(1), tube());
    assert!(Solver::new(&m).is_ok());
}

#[test]
fn a_free_frame_has_six_ways() {
    let mut m = Model::new();
    let n = [m.node([0.0; 3]), m.node([1.0, 0.0, 0.0]), m.node([1.0, 1.0, 0.3])];
    m.member(n[0], n[1], tube());
    m.member(n[1], n[2], tube());
    assert_eq!(mechanisms(&m).len(), 6);
    m.nodes[0].fixed = PINNED;
    assert_eq!(mechanisms(&m).len(), 3);
    // Held at two points it still turns about the line between them.
    m.nodes[2].fixed = PINNED;
    let found = mechanisms(&m);
    assert_eq!(found.len(), 1);
    let axis = found[0].members[0].axis().unwrap().1;
    let line = [1.0, 1.0, 0.3].map(|c: f64| c / 2.09f64.sqrt());
    let along: f64 = (0..3).map(|k| axis[k] * line[k]).sum();
    assert!((along.abs() - 1.0).abs() < 1e-9);
}

#[test]
fn separate_mechanisms_are_told_separately() {
    let mut m = Model::new();
    for x in [0.0, 5.0] {
        let a = m.support([x, 0.0, 0.0], CLAMPED);
        let b = m.node([x + 1.0, 0.0, 0.0]);
        m.member(a, b, tube());
        let k = m.members.len() - 1;
        m.members[k].ends[0].joint = hinge(4);
    }
    let found = mechanisms(&m);
    assert_eq!(found.len(), 2);
    for f in &found {
        assert_eq!(f.members.len(), 1, "each names its own member");
        assert_eq!(f.nodes.len(), 1);
    }
    assert_ne!(found[0].members[0].member, found[1].members[0].member);
}

#[test]
fn a_node_without_members_and_a_telescope() {
    let mut m = Model::new();
    let a = m.support([0.0; 3], CLAMPED);
    let b = m.node([1.0, 0.0, 0.0]);
    m.member(a, b, tube());
    m.members[0].ends[0].joint = hinge(0);
    let found = mechanisms(&m);
    assert_eq!(found.len(), 1);
    let motion = found[0].members[0];
    assert!(motion.axis().is_none(), "it shifts");
    assert!((motion.translation[0].abs() - 1.0).abs() < 1e-9 || found[0].nodes[0].translation[0].abs() == 1.0);
    m.members[0].ends[0].joint = [Joint::Rigid; 6];
    m.node([3.0, 0.0, 0.0]);
    assert_eq!(mechanisms(&m).len(), 3, "a lone point shifts three ways; its turning is held");
}

/// A square of pinned bars racks; a panel or a diagonal stops it.
#[test]
fn a_racking_square() {
    let mut m = Model::new();
    let flat = [false, true, false, true, false, true];
    let at = [[0.0, 0.0, 0.0], [1.0, 0.0, 0.0], [1.0, 0.0, 1.0], [0.0, 0.0, 1.0]];
    let n: Vec<NodeId> = at.iter().map(|p| m.support(*p, flat)).collect();
    m.nodes[0].fixed = [true, true, true, true, false, true];
    m.nodes[1].fixed[2] = true;
    for k in 0..4 {
        m.member(n[k], n[(k + 1) % 4], tube());
        m.members[k].ends = [End::PINNED; 2];
    }
    let found = mechanisms(&m);
    assert_eq!(found.len(), 1);
    let moving: Vec<usize> = found[0].members.iter().map(|b| b.member.0).collect();
    assert_eq!(moving, [1, 2, 3], "the foot stands still");
    assert!(found[0].members[1].axis().is_none(), "the top shifts");
    assert!(found[0].members[0].axis().is_some(), "the posts turn");
    let mut braced = m.clone();
    braced.member(n[0], n[2], tube());
    assert!(Solver::new(&braced).is_ok());
    m.panels.push(chairwright_statics::Panel { corners: [n[0], n[1], n[2], n[3]], thickness: 0.01, g: 6e8 });
    assert!(Solver::new(&m).is_ok());
}

/// Slender but sound: a chain of 400 pieces, a whip of 1 in 1e4, a soft spring. None is a mechanism.
#[test]
fn slender_frames_are_sound() {
    let mut m = Model::new();
    let n: Vec<NodeId> = (0..=400).map(|k| m.node([0.01 * k as f64, 0.0, 0.0])).collect();
    m.nodes[0].fixed = CLAMPED;
    for w in n.windows(2) {
        m.member(w[0], w[1], tube());
    }
    let solver = Solver::new(&m).unwrap();
    let tip = solver.solve(&[LoadCase::new().push(n[400], [0.0, 0.0, -1.0, 0.0, 0.0, 0.0])]).unwrap()[0]
        .node(n[400])[2];
    let want = -(64.0 / (3.0 * 2.9e9 * 1.5e-7) + 4.0 / (1.1e9 * 3e-4));
    assert!((tip / want - 1.0).abs() < 1e-9, "off by {:e}", tip / want - 1.0);
    // The same chain with a hinge in it is one.
    m.members[200].ends[0].joint = hinge(4);
    let found = mechanisms(&m);
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].members.len(), 200);
    assert!(found[0].members.iter().all(|b| b.member >= MemberId(200)));

    let mut soft = Model::new();
    let (a, b) = (soft.support([0.0; 3], [true, true, true, true, false, true]), soft.node([1.0, 0.0, 0.0]));
    soft.member(a, b, tube());
    soft.nodes[0].spring[4] = 1e-6;
    let solver = Solver::new(&soft).unwrap();
    let tip = solver.solve(&[LoadCase::new().push(b, [0.0, 0.0, -1e-9, 0.0, 0.0, 0.0])]).unwrap()[0].node(b)[2];
    assert!((tip / -1e-3 - 1.0).abs() < 1e-6, "tip {tip:e}");
}

/// Trusses of hinged bars: their nodes may spin on the spot; only a moment on one is refused.
#[test]
fn spinning_nodes_do_no_harm() {
    let mut m = Model::new();
    let n = [
        m.support([0.0; 3], PINNED),
        m.support([2.0, 0.0, 0.0], PINNED),
        m.support([1.0, 1.0, 0.0], PINNED),
        m.node([1.0, 0.3, 1.0]),
    ];
    for k in 0..3 {
        m.member(n[k], n[3], tube());
        let all = [Joint::Rigid, Joint::Rigid, Joint::Rigid, Joint::Free, Joint::Free, Joint::Free];
        m.members[k].ends = [End { joint: all, ..End::RIGID }; 2];
    }
    let solver = Solver::new(&m).unwrap();
    assert!(solver.solve(&[LoadCase::new().push(n[3], [0.0, 0.0, -9.0, 0.0, 0.0, 0.0])]).is_ok());
    let twisted = solver.solve(&[LoadCase::new().push(n[3], [0.0, 0.0, 0.0, 0.0, 5.0, 0.0])]);
    let Err(Error::Mechanism(found)) = twisted else { panic!("a moment on a loose node") };
    assert!(found.iter().all(|f| f.nodes[0].node == n[3] && f.members.is_empty()));
}

/// What cannot be used is refused by name.
#[test]
fn bad_figures_are_refused() {
    type Spoil = fn(&mut Model);
    let cases: [(Spoil, Item, Fault); 11] = [
        (|m| m.nodes[1].at[0] = f64::NAN, Item::Node(1), Fault::NotFinite),
        (|m| m.nodes[0].spring[2] = -1.0, Item::Node(0), Fault::Negative),
        (|m| m.nodes[1].at = [0.0; 3], Item::Member(0), Fault::NoLength),
        (|m| m.members[0].j = NodeId(9), Item::Member(0), Fault::UnknownNode),
        (|m| m.members[0].section.e = -2.0, Item::Member(0), Fault::NotPositive),
        (|m| m.members[0].section.iy = f64::INFINITY, Item::Member(0), Fault::NotFinite),
        (|m| m.members[0].section.shear_y = Some(0.0), Item::Member(0), Fault::NotPositive),
        (|m| m.members[0].ends[1].joint[4] = Joint::Spring(-4.0), Item::Member(0), Fault::Negative),
        (|m| m.members[0].ends[1].joint[4] = Joint::Spring(f64::NAN), Item::Member(0), Fault::NotFinite),
        (|m| m.members[0].orientation = Orientation::ZTowards([2.0, 0.0, 0.0]), Item::Member(0), Fault::NoAxes),
        (|m| m.members[0].orientation = Orientation::Roll(f64::NAN), Item::Member(0), Fault::NotFinite),
    ];
    for (spoil, item, fault) in cases {
        let mut m = Model::new();
        let (a, b) = (m.support([0.0; 3], CLAMPED), m.node([1.0, 0.0, 0.0]));
        m.member(a, b, tube());
        assert!(Solver::new(&m).is_ok());
        spoil(&mut m);
        assert_eq!(Solver::new(&m).err(), Some(Error::Invalid { item, fault }));
    }
}

#[test]
fn bad_loads_are_refused() {
    use chairwright_statics::{In, MemberLoad};
    let mut m = Model::new();
    let (a, b) = (m.support([0.0; 3], CLAMPED), m.node([1.0, 0.0, 0.0]));
    let beam = m.member(a, b, tube());
    m.members[0].ends[1].joint = hinge(0);
    m.nodes[1].fixed[0] = true;
    let solver = Solver::new(&m).unwrap();
    let point = |at| MemberLoad::Point { axes: In::Local, at, force: [0.0, 0.0, 1.0], moment: [0.0; 3] };
    let refused = |case: LoadCase| solver.solve(&[LoadCase::new(), case]).err().unwrap();
    let invalid = |item, fault| Error::Invalid { item, fault };
    assert_eq!(
        refused(LoadCase::new().on(beam, point(1.1))),
        invalid(Item::MemberLoad(1, 0), Fault::OutsideMember)
    );
    assert_eq!(
        refused(LoadCase::new().on(MemberId(7), point(0.1))),
        invalid(Item::MemberLoad(1, 0), Fault::UnknownMember)
    );
    assert_eq!(
        refused(LoadCase::new().push(NodeId(4), [0.0; 6])),
        invalid(Item::NodeLoad(1, 0), Fault::UnknownNode)
    );
    assert_eq!(
        refused(LoadCase::new().push(b, [f64::NAN; 6])),
        invalid(Item::NodeLoad(1, 0), Fault::NotFinite)
    );
    assert_eq!(refused(LoadCase::new().settle(b, 1, 0.1)), invalid(Item::Settlement(1, 0), Fault::NotFixed));
    assert_eq!(refused(LoadCase::new().settle(b, 9, 0.1)), invalid(Item::Settlement(1, 0), Fault::NotFixed));
    // Released along itself at both ends, nothing carries a pull.
    m.members[0].ends[0].joint = hinge(0);
    let solver = Solver::new(&m);
    let pull = LoadCase::new().on(beam, MemberLoad::Uniform(In::Local, [5.0, 0.0, 0.0]));
    assert_eq!(solver.unwrap().solve(&[pull]).err(), Some(Error::LooseMember { case: 0, member: 0 }));
}

#[test]
fn nothing_at_all() {
    let solver = Solver::new(&Model::new()).unwrap();
    assert_eq!(solver.solve(&[LoadCase::new()]).unwrap().len(), 1);
    let mut m = Model::new();
    let (a, b) = (m.support([0.0; 3], CLAMPED), m.support([1.0, 0.0, 0.0], CLAMPED));
    m.member(a, b, tube());
    let solver = Solver::new(&m).unwrap();
    let moved = LoadCase::new().settle(b, 0, 0.01);
    assert!((solver.solve(&[moved]).unwrap()[0].reaction(b)[0] / (2.9e9 * 6e-4 * 0.01) - 1.0).abs() < 1e-12);
}
