//! Arbitrary frames, the same in every run.

use chairwright_statics::{
    End, In, Joint, LoadCase, Member, MemberId, MemberLoad, Model, Node, NodeId, Orientation, Section, Solver,
};

/// A small generator of numbers.
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Dice {
        Dice(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    /// Even between two figures.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * ((self.0 >> 11) as f64 / (1_u64 << 53) as f64)
    }

    pub fn below(&mut self, n: usize) -> usize {
        (self.between(0.0, n as f64) as usize).min(n - 1)
    }

    pub fn vector(&mut self, size: f64) -> [f64; 3] {
        std::array::from_fn(|_| self.between(-size, size))
    }
}

fn section(dice: &mut Dice) -> Section {
    let shear = |d: &mut Dice| (d.between(0.0, 1.0) < 0.7).then(|| d.between(2e-4, 9e-4));
    Section {
        e: dice.between(2e9, 9e9),
        g: dice.between(1e9, 3e9),
        area: dice.between(3e-4, 1e-3),
        shear_y: shear(dice),
        shear_z: shear(dice),
        iy: dice.between(5e-8, 5e-7),
        iz: dice.between(5e-8, 5e-7),
        j: dice.between(1e-7, 6e-7),
    }
}

fn joint(dice: &mut Dice, k: usize) -> Joint {
    let (what, size) = (dice.between(0.0, 1.0), if k < 3 { 1e6 } else { 2e3 });
    match what {
        w if w < 0.06 => Joint::Free,
        w if w < 0.2 => Joint::Spring(dice.between(0.1, 1.0) * size),
        _ => Joint::Rigid,
    }
}

fn held(joint: Joint) -> Joint {
    if joint == Joint::Free { Joint::Rigid } else { joint }
}

/// A frame of a chain and cross members, with arms, joints, springs; and a load case on all of it.
/// Sound: it is made again until it is.
pub fn frame(seed: u64) -> (Model, LoadCase) {
    for again in 0.. {
        let mut dice = Dice::new(seed + 1000 * again);
        let m = attempt(&mut dice);
        let case = load(&m, &mut dice);
        if Solver::new(&m).is_ok_and(|s| s.solve(std::slice::from_ref(&case)).is_ok()) {
            return (m, case);
        }
    }
    unreachable!()
}

fn attempt(dice: &mut Dice) -> Model {
    let count = 3 + dice.below(8);
    let mut m = Model::new();
    for k in 0..count {
        let at = [0.5 * k as f64 + dice.between(-0.1, 0.1), dice.between(-0.6, 0.6), dice.between(-0.6, 0.6)];
        let fixed = if k % 4 == 0 { [true, true, true, k == 0, true, k == 0] } else { [false; 6] };
        let springy = dice.between(0.0, 1.0) < 0.2;
        let spring =
            std::array::from_fn(
                |d| if springy { dice.between(0.0, if d < 3 { 1e5 } else { 1e2 }) } else { 0.0 },
            );
        m.nodes.push(Node { at, fixed, spring });
    }
    let mut pairs: Vec<(usize, usize)> = (1..count).map(|k| (k - 1, k)).collect();
    pairs.extend((2..count).map(|k| (k, k - 2)));
    for (k, (i, j)) in pairs.into_iter().enumerate() {
        let mut ends = [End::RIGID; 2];
        for (e, end) in ends.iter_mut().enumerate() {
            if dice.between(0.0, 1.0) < 0.3 {
                end.offset = dice.vector(0.05);
            }
            if k >= count - 1 {
                end.joint = std::array::from_fn(|d| joint(dice, d));
                // Released at both ends it would be loose, and its pieces a mechanism.
                (0..6).filter(|_| e == 1).for_each(|d| end.joint[d] = held(end.joint[d]));
            }
        }
        let orientation = Orientation::Roll(dice.between(-3.0, 3.0));
        m.members.push(Member { i: NodeId(i), j: NodeId(j), section: section(dice), orientation, ends });
    }
    m
}

fn load(m: &Model, dice: &mut Dice) -> LoadCase {
    let mut case = LoadCase::new();
    for n in 0..m.nodes.len() {
        let (f, t) = (dice.vector(300.0), dice.vector(40.0));
        case.nodes.push((NodeId(n), [f[0], f[1], f[2], t[0], t[1], t[2]]));
    }
    for (k, b) in m.members.iter().enumerate() {
        let (p, q) = (m.nodes[b.i.0].at, m.nodes[b.j.0].at);
        let reach = (0..3).map(|d| (p[d] - q[d]).powi(2)).sum::<f64>().sqrt() - 0.2;
        let (a, c) = (dice.between(0.0, reach / 2.0), dice.between(reach / 2.0, reach));
        let axes = if dice.below(2) == 0 { In::Global } else { In::Local };
        let id = MemberId(k);
        case = match dice.below(4) {
            0 => case.on(id, MemberLoad::Uniform(axes, dice.vector(200.0))),
            1 => {
                let (first, last) = (dice.vector(200.0), dice.vector(200.0));
                case.on(id, MemberLoad::Linear { axes, from: a, to: c, first, last })
            }
            2 => {
                let (force, moment) = (dice.vector(200.0), dice.vector(20.0));
                case.on(id, MemberLoad::Point { axes, at: c, force, moment })
            }
            _ => case
                .on(id, MemberLoad::Strain { axial: 1e-4, about_y: dice.between(-1e-3, 1e-3), about_z: 2e-4 }),
        };
    }
    for (n, node) in m.nodes.iter().enumerate() {
        if node.fixed[2] && dice.below(2) == 0 {
            case = case.settle(NodeId(n), 2, dice.between(-1e-3, 1e-3));
        }
    }
    case
}
