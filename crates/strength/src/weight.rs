//! What the chair itself and what rides along weigh, and on what each hangs.
//!
//! What is cut lies in its own bar; what the text fastens hangs on what it is fastened to; seat, back, foot support and
//! their cushions press on what they lie on. Everything else hangs on the nearest bar, and is listed as taken.

use crate::bar::{Bar, Of};
use crate::load::{G, Push, deck};
use crate::remark::Taken;
use crate::structure::{Carries, Deck, Port, Structure};
use chairwright_design::{Design, ItemKind, SupportKind, Vec3};
use chairwright_frame::{Body, Frame, Group, Settled};

/// How far before the seat's front edge the lap reaches, m. Common practice, no source.
const LAP: f64 = 0.15;
/// Beyond this share of the seat's depth a weight presses on its front edge: no load that changes in a straight line
/// over the whole depth has its middle further forward than 5/6.
const FRONT: f64 = 5.0 / 6.0;

/// The weights as pushes.
#[derive(Clone, PartialEq, Debug, Default)]
pub(crate) struct Weights {
    /// The chair's own, without wheels and casters.
    pub own: Vec<Push>,
    /// Of what rides along.
    pub carried: Vec<Push>,
    /// What was taken for granted.
    pub taken: Vec<Taken>,
}

impl Weights {
    /// With the weight acting along `down`.
    pub fn new(design: &Design, frame: &Frame, settled: &Settled, all: &Structure, down: Vec3) -> Weights {
        let mut out = Weights::default();
        let mut hung: Vec<(String, String)> = Vec::new();
        let counts = |b: &&Body| !matches!(b.group, Group::Wheel | Group::Caster) && b.mass > 0.0;
        for body in frame.bodies.iter().filter(counts) {
            let at = settled.pose.place(body.centre);
            let force = down * (body.mass * G);
            let bag = bags(design).any(|name| name == body.name);
            let to = if bag { &mut out.carried } else { &mut out.own };
            if let Some(deck) = lain(design, all, body) {
                to.extend(under(all, deck, at, force));
                continue;
            }
            let told = told(design, all, body, at);
            if body.group == Group::Part && told.is_empty() {
                let near = nearest(all, at, |b| matches!(b.of, Of::Member(_) | Of::Box(_)));
                hung.extend(near.first().map(|p| (body.name.clone(), all.bars[p.bar].name.clone())));
            }
            let ports = if told.is_empty() { beside(all, body, at) } else { told };
            hang(all, &ports, (at, force), to);
        }
        if !hung.is_empty() {
            out.taken.push(Taken::Hangs(hung));
        }
        out.ride(design, settled, all, down);
        out
    }

    /// What rides along: over the seat it sits on the rider, elsewhere it hangs on the nearest bar.
    fn ride(&mut self, design: &Design, settled: &Settled, all: &Structure, down: Vec3) {
        for c in &design.carried {
            let at = settled.pose.place(c.at);
            let force = down * (c.mass * G);
            let lap = deck(design, all, SupportKind::Seat).and_then(|seat| Some((seat, over(seat, at)?)));
            if let Some((seat, along)) = lap {
                let on = if along > FRONT { seat.edge(all, force) } else { under(all, seat, at, force) };
                self.carried.extend(on);
                self.taken.push(Taken::Rides { what: c.name.clone(), mass: c.mass, on: None });
                continue;
            }
            let ports = nearest(all, at, |b| matches!(b.of, Of::Member(_) | Of::Box(_)));
            let name = ports.first().map(|p| all.bars[p.bar].name.clone());
            let arm = ports.first().map_or(0.0, |p| (at - all.bars[p.bar].at(p.at)).norm());
            hang(all, &ports, (at, force), &mut self.carried);
            let on = name.map(|n| (n, arm));
            self.taken.push(Taken::Rides { what: c.name.clone(), mass: c.mass, on });
        }
    }
}

/// Bags and trays that are drawn as parts of the chair: they may be off like what rides along.
pub fn bags(design: &Design) -> impl Iterator<Item = &str> {
    design.items.iter().filter(|i| i.kind == ItemKind::Bag).map(|i| i.name.as_str())
}

/// How far along the seat, as a share of its depth, a place lies over the lap of whoever sits on it.
fn over(seat: &Deck, at: Vec3) -> Option<f64> {
    let way = seat.ends.1 - seat.ends.0;
    let depth = way.norm();
    let v = at - seat.ends.0;
    let (along, aside) = (v.dot(way.unit()?), v.dot(seat.side));
    let inside = (0.0..=depth + LAP).contains(&along) && aside.abs() <= seat.width / 2.0;
    (inside && v.dot(seat.normal) > 0.0).then(|| (along / depth).min(1.0))
}

/// A weight on a deck, straight below its own centre.
fn under(all: &Structure, deck: &Deck, at: Vec3, force: Vec3) -> Vec<Push> {
    let (mut out, lacks) = deck.laid(all, force, at.cross(force));
    if lacks.norm() > 1e-6 {
        out.extend(deck.couple(all, lacks));
    }
    out
}

/// The deck that a support, its bands or its cushion are.
fn lain<'s>(design: &Design, all: &'s Structure, body: &Body) -> Option<&'s Deck> {
    let of = |d: &&Deck| d.carries != Carries::Nothing && part_of(&body.name, &design.supports[d.support].name);
    let soft = body.group == Group::Support || body.name.ends_with(".cushion");
    all.decks.iter().find(of).filter(|_| soft)
}

/// Whether something bears a name or is a part of what does: `side.top` of `side`.
fn part_of(name: &str, whole: &str) -> bool {
    name.strip_prefix(whole).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
}

/// Where the text fastens a bought part, on each bar once.
fn told(design: &Design, all: &Structure, body: &Body, at: Vec3) -> Vec<Port> {
    let mut out: Vec<Port> = Vec::new();
    if body.group != Group::Part {
        return out;
    }
    for f in &design.fastenings {
        let other = match (f.what == body.name, f.to == body.name) {
            (true, _) => &f.to,
            (_, true) => &f.what,
            _ => continue,
        };
        for port in nearest(all, at, |b| b.name == *other).into_iter().take(1) {
            if out.iter().all(|p| p.bar != port.bar) {
                out.push(port);
            }
        }
    }
    out
}

/// The bar that a body is cut for, or whatever member or box is nearest; what lies midway between two is on both.
fn beside(all: &Structure, body: &Body, at: Vec3) -> Vec<Port> {
    let own = nearest(all, at, |b| !matches!(b.of, Of::Support(_)) && part_of(&body.name, &b.name));
    if body.group == Group::Frame && !own.is_empty() {
        return own;
    }
    nearest(all, at, |b| matches!(b.of, Of::Member(_) | Of::Box(_)))
}

/// The nearest places on those bars that may carry it.
fn nearest(all: &Structure, at: Vec3, may: impl Fn(&Bar) -> bool) -> Vec<Port> {
    let gaps: Vec<(usize, f64, f64)> = all
        .bars
        .iter()
        .enumerate()
        .filter(|(_, b)| may(b))
        .map(|(bar, b)| {
            let (along, gap) = b.nearest(at);
            (bar, along, gap)
        })
        .collect();
    let least = gaps.iter().map(|g| g.2).fold(f64::INFINITY, f64::min);
    gaps.iter().filter(|g| g.2 < least + 1e-6).map(|(bar, at, _)| Port { bar: *bar, at: *at }).collect()
}

/// A weight shared evenly among places, by its own lever from each of them.
fn hang(all: &Structure, ports: &[Port], (at, force): (Vec3, Vec3), out: &mut Vec<Push>) {
    #[allow(clippy::cast_precision_loss)]
    let share = force * (1.0 / ports.len().max(1) as f64);
    for port in ports {
        let lever = at - all.bars[port.bar].at(port.at);
        out.push(Push::Weight { port: *port, force: share, moment: lever.cross(share) });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bar::Stretch;
    use crate::form::Form;
    use chairwright_design::{Carried, Fastening, Frame3, Id, Origin, StockId, Support};

    fn bar(name: &str, from: Vec3, to: Vec3) -> Bar {
        Bar {
            name: name.into(),
            of: Of::Member(Id::new(0)),
            ends: (from, to),
            up: Vec3::Z,
            stock: StockId::new(0),
            form: Form::Tube { outer: 42e-3, wall: 3.5e-3 },
            stretches: vec![Stretch { from: 0.0, to: (to - from).norm(), grip: [0.0; 2] }],
            sheaths: Vec::new(),
            holes: Vec::new(),
        }
    }

    fn body(name: &str, group: Group, mass: f64, centre: Vec3) -> Body {
        Body { name: name.into(), group, mass, centre, solids: Vec::new(), swivels: None }
    }

    fn settled() -> Settled {
        Settled { pose: Frame3::IDENTITY, pitch: 0.0, roll: 0.0, contacts: Vec::new(), rock: 0.0 }
    }

    fn push_bar() -> Structure {
        let bars = vec![
            bar("push_bar", Vec3::new(0.0, -0.2, 0.9), Vec3::new(0.0, 0.2, 0.9)),
            bar("rail", Vec3::new(0.0, 0.2, 0.4), Vec3::new(0.4, 0.2, 0.4)),
        ];
        Structure { bars, ..Structure::default() }
    }

    fn sum(pushes: &[Push]) -> (Vec3, Vec3) {
        pushes.iter().fold((Vec3::ZERO, Vec3::ZERO), |(f, m), p| match p {
            Push::Weight { force, moment, .. } => (f + *force, m + *moment),
            other => (f + other.force(), m),
        })
    }

    /// A bag of 15 kg, 120 mm behind the push bar: 15 · 9.80665 = 147.1 N down on it, and 0.12 m · 147.1 N = 17.65 N m that turn
    /// it backward: (−0.12, 0, 0) × (0, 0, −147.1) = (0, −17.65, 0).
    #[test]
    fn a_bag_hangs_on_the_push_bar() {
        let all = push_bar();
        let bag = Carried { name: "bag".into(), mass: 15.0, at: Vec3::new(-0.12, 0.0, 0.9), origin: Origin(0) };
        let design = Design { carried: vec![bag], ..Design::default() };
        let found = Weights::new(&design, &Frame::default(), &settled(), &all, Vec3::Z * -1.0);
        let (force, moment) = sum(&found.carried);
        assert!((force - Vec3::Z * -147.099_75).norm() < 1e-6, "{force:?}");
        assert!((moment - Vec3::Y * -17.651_97).norm() < 1e-6, "{moment:?}");
        let [Taken::Rides { on: Some((bar, arm)), .. }] = &found.taken[..] else { panic!("{:?}", found.taken) };
        assert!(bar == "push_bar" && (arm - 0.12).abs() < 1e-12);
    }

    /// A child of 12 kg over the middle of a seat, left of its middle by 0.1 m: 117.68 N on the seat's strips, not on the rails
    /// beside it. One as far forward as the knees presses on the front edge. One behind the seat hangs on a bar.
    #[test]
    fn a_child_sits_on_the_lap() {
        let mut all = push_bar();
        let strip = |x: f64| Bar {
            of: Of::Support(0),
            ..bar("seat", Vec3::new(x, -0.2, 0.45), Vec3::new(x, 0.2, 0.45))
        };
        all.bars.extend([0.05, 0.15, 0.25, 0.35].map(strip));
        all.decks.push(Deck {
            support: 0,
            ends: (Vec3::Z * 0.45, Vec3::new(0.4, 0.0, 0.45)),
            side: Vec3::Y,
            normal: Vec3::Z,
            width: 0.4,
            sag: 0.008,
            carries: Carries::Sheet { across: vec![2, 3, 4, 5], on: vec![1] },
        });
        let seat = Support {
            kind: SupportKind::Seat,
            name: "seat".into(),
            stock: StockId::new(0),
            from: Vec3::Z * 0.45,
            to: Vec3::new(0.4, 0.0, 0.45),
            width: 0.4,
            bands: 1,
            sag: None,
            cushion: None,
            origin: Origin(0),
        };
        let child = |x: f64| Carried {
            name: "child".into(),
            mass: 12.0,
            at: Vec3::new(x, 0.1, 0.7),
            origin: Origin(0),
        };
        let on = |x: f64| {
            let design = Design { carried: vec![child(x)], supports: vec![seat.clone()], ..Design::default() };
            Weights::new(&design, &Frame::default(), &settled(), &all, Vec3::Z * -1.0).carried
        };
        let middle = on(0.2);
        assert_eq!(middle.len(), 4, "{middle:?}");
        assert!(middle.iter().all(|p| matches!(p, Push::Over { .. })));
        assert!((sum(&middle).0 - Vec3::Z * -117.679_8).norm() < 1e-6);
        let knees = on(0.45);
        assert!(
            matches!(knees[..], [Push::At { port: Port { bar: 5, .. }, .. }, Push::At { .. }]),
            "{knees:?}"
        );
        assert!((sum(&knees).0 - Vec3::Z * -117.679_8).norm() < 1e-6);
        assert!(matches!(on(-0.1)[..], [Push::Weight { .. }]));
    }

    /// A battery of 4 kg that lies near the rail and is fastened to the push bar hangs on the push bar: 39.23 N; its arm to it
    /// is (0.1, 0, −0.5), so that it turns it by (0.1, 0, −0.5) × (0, 0, −39.23) = (0, 3.923, 0). Without the fastening it hangs on
    /// the rail and that is listed.
    #[test]
    fn what_is_fastened_hangs_on_what_it_is_fastened_to() {
        let all = push_bar();
        let frame = Frame {
            bodies: vec![body("battery", Group::Part, 4.0, Vec3::new(0.1, 0.0, 0.4))],
            ..Frame::default()
        };
        let fastening = Fastening {
            what: "battery".into(),
            to: "push_bar".into(),
            fasteners: Vec::new(),
            placing: None,
            drive: chairwright_design::Drive::Drilled,
            at: Vec3::ZERO,
            origin: Origin(0),
        };
        let design = Design { fastenings: vec![fastening], ..Design::default() };
        let found = Weights::new(&design, &frame, &settled(), &all, Vec3::Z * -1.0);
        let [Push::Weight { port, force, moment }] = found.own[..] else { panic!("{:?}", found.own) };
        assert!(port.bar == 0 && (force - Vec3::Z * -39.226_6).norm() < 1e-6);
        assert!((moment - Vec3::Y * 3.922_66).norm() < 1e-6, "{moment:?}");
        assert!(found.taken.is_empty());
        let loose = Weights::new(&Design::default(), &frame, &settled(), &all, Vec3::Z * -1.0);
        assert!(matches!(loose.own[..], [Push::Weight { port: Port { bar: 1, .. }, .. }]));
        assert_eq!(loose.taken, vec![Taken::Hangs(vec![("battery".into(), "rail".into())])]);
    }

    /// What is cut lies in its own bar, even where another crosses it: the middle of the rail, 2 kg, 19.6 N.
    #[test]
    fn what_is_cut_lies_in_its_own_bar() {
        let mut all = push_bar();
        all.bars.insert(0, bar("cross", Vec3::new(0.2, -0.2, 0.4), Vec3::new(0.2, 0.2, 0.4)));
        let frame = Frame {
            bodies: vec![body("rail", Group::Frame, 2.0, Vec3::new(0.2, 0.2, 0.4))],
            ..Frame::default()
        };
        let found = Weights::new(&Design::default(), &frame, &settled(), &all, Vec3::Z * -1.0);
        let [Push::Weight { port, force, .. }] = found.own[..] else { panic!("{:?}", found.own) };
        assert!(port.bar == 2 && (port.at - 0.2).abs() < 1e-12 && (force.z + 19.6133).abs() < 1e-6);
    }
}
