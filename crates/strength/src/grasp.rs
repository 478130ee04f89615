//! What a helper would take hold of: whatever looks like a handle is a load case; and the devices that keep a chair from
//! going over, which hang on their bars as bought handles do.

use crate::bar::Bar;
use crate::load::deck;
use crate::remark::Open;
use crate::side::without_side;
use crate::structure::{Carries, Deck, Hold, Port, Spot, Structure, Tie, TieOf};
use crate::ties::TOUCH;
use chairwright_design::{Design, Item, ItemKind, SupportKind, Vec3};
use chairwright_frame::Settled;

/// Something that can be grasped, and where two hands would hold it.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Grasp {
    pub name: String,
    pub hands: Vec<Spot>,
    /// Whether a helper also pushes the chair by it.
    pub pushed: bool,
    /// Whether the whole chair hangs on it: what is beside the rider is lifted by one helper on each side.
    pub whole: bool,
}

pub(crate) fn grasps(design: &Design, all: &Structure) -> Vec<Grasp> {
    let bought = bought(design, all);
    let stubs = stubs(design, all);
    // where the stubs are the tops of the back they are held once
    let tops = back_tops(design, all).filter(|t| !stubs.iter().any(|g| same_hands(g, t)));
    let bars = push_bars(design, all).into_iter().chain(stubs).chain(tops);
    bought
        .into_iter()
        .chain(bars)
        .chain(arms(design, all))
        .chain(front(design, all))
        .chain(footrest(design, all))
        .chain(front_bars(design, all))
        .collect()
}

/// Puts bought handles and anti-tip devices on the bars that they are fastened to, or else are nearest to: a hand holds each
/// handle in its middle, the ground each device, at the end of a rigid arm.
pub(crate) fn handles(design: &Design, settled: &Settled, all: &mut Structure) {
    let held = |i: &Item| matches!(i.kind, ItemKind::Handle | ItemKind::AntiTip);
    for (k, item) in design.items.iter().enumerate().filter(|(_, i)| held(i)) {
        let at = settled.pose.place(item.at);
        let told = design.fastenings.iter().find_map(|f| match (f.what == item.name, f.to == item.name) {
            (true, _) => Some(&f.to),
            (_, true) => Some(&f.what),
            _ => None,
        });
        let mine = |b: &Bar| told.is_none_or(|name| b.name == *name);
        let gaps = all.frame_bars().filter(|(_, b)| mine(b)).map(|(bar, b)| (bar, b.nearest(at)));
        let Some((bar, (along, _))) = gaps.min_by(|a, b| a.1.1.total_cmp(&b.1.1)) else { continue };
        let b = &all.bars[bar];
        let off = at - b.at(along);
        let way = off.unit().unwrap_or(Vec3::Z);
        let half = (way.x.abs() * item.size.x + way.y.abs() * item.size.y + way.z.abs() * item.size.z) / 2.0;
        let air = off.norm() - b.half_along(way) - half;
        if told.is_none() && air > TOUCH {
            all.open.push(Open::Unheld { item: k, bar: b.name.clone(), air });
        }
        let (point, port) = (all.point(at), Port { bar, at: along });
        all.ties.push(Tie {
            of: TieOf::Part,
            spots: vec![Spot::Port(port), Spot::Point(point)],
            hold: Hold::Rigid,
        });
        all.handles.push((k, point, port));
    }
}

/// Bought handles, both sides together; a helper pushes by those behind the seat.
fn bought(design: &Design, all: &Structure) -> Vec<Grasp> {
    let mut out: Vec<Grasp> = Vec::new();
    let handle = |k: usize| design.items[k].kind == ItemKind::Handle;
    for (k, point, _) in all.handles.iter().filter(|h| handle(h.0)) {
        let name = without_side(&design.items[*k].name);
        if let Some(pair) = out.iter_mut().find(|g| g.name == name) {
            pair.hands.push(Spot::Point(*point));
            continue;
        }
        let pushed = seat_middle(design, all).is_some_and(|seat| all.points[*point].x < seat.x);
        out.push(Grasp { name, hands: vec![Spot::Point(*point)], pushed, whole: false });
    }
    out
}

fn seat_middle(design: &Design, all: &Structure) -> Option<Vec3> {
    deck(design, all, SupportKind::Seat).map(|d| d.ends.0.mix(d.ends.1, 0.5))
}

/// Bars across, above and behind the middle of the seat; the highest first, by which a helper pushes.
fn push_bars(design: &Design, all: &Structure) -> Vec<Grasp> {
    let Some(seat) = seat_middle(design, all) else { return Vec::new() };
    let across = all.frame_bars().filter(|(_, b)| {
        let m = b.at(b.length() / 2.0);
        b.way().y.abs() > 0.9 && m.z > seat.z + 0.2 && m.x < seat.x
    });
    let mut found: Vec<(usize, &Bar)> = across.collect();
    found.sort_by(|(_, a), (_, b)| b.ends.0.z.total_cmp(&a.ends.0.z));
    let grasp = |(bar, b): (usize, &Bar)| {
        let hands = [0.2, 0.8].map(|s| Spot::Port(Port { bar, at: b.length() * s })).to_vec();
        Grasp { name: b.name.clone(), hands, pushed: true, whole: false }
    };
    found.into_iter().map(grasp).collect()
}

/// Bars beside the rider above the seat, and how far each is to the left of its middle, m.
pub(crate) fn arm_rails(design: &Design, all: &Structure) -> Vec<(usize, f64)> {
    let Some(seat) = deck(design, all, SupportKind::Seat) else { return Vec::new() };
    let beside = |(bar, b): (usize, &Bar)| {
        let middle = b.at(b.length() / 2.0);
        let up = middle.z - seat.ends.0.z.max(seat.ends.1.z);
        let beside = (middle - seat.ends.0).dot(seat.side);
        let between = (seat.ends.0.x..=seat.ends.1.x).contains(&middle.x);
        let is =
            (0.08..0.4).contains(&up) && b.way().x.abs() >= 0.8 && beside.abs() >= 0.3 * seat.width && between;
        is.then_some((bar, beside))
    };
    all.frame_bars().filter_map(beside).collect()
}

/// Something beside the rider that two hands hold.
struct Arm {
    name: String,
    hands: [Port; 2],
    middle: Vec3,
    left: bool,
}

/// What a helper on each side lifts the whole chair by: arm rails, and arm supports, each with the one across from it.
fn arms(design: &Design, all: &Structure) -> Vec<Grasp> {
    let rail = |(bar, beside): (usize, f64)| {
        let b = &all.bars[bar];
        let hands = [0.25, 0.75].map(|s| Port { bar, at: b.length() * s });
        Arm { name: b.name.clone(), hands, middle: b.at(b.length() / 2.0), left: beside > 0.0 }
    };
    let rails = arm_rails(design, all).into_iter().map(rail).collect::<Vec<_>>();
    let seat = deck(design, all, SupportKind::Seat);
    let rest = |d: &Deck| {
        let Carries::Sheet { across, .. } = &d.carries else { return None };
        let hand = |bar: usize| Port { bar, at: all.bars[bar].length() / 2.0 };
        let middle = d.ends.0.mix(d.ends.1, 0.5);
        Some(Arm {
            name: design.supports[d.support].name.clone(),
            hands: [hand(*across.first()?), hand(*across.last()?)],
            middle,
            left: (middle - seat?.ends.0).dot(seat?.side) > 0.0,
        })
    };
    let is = |d: &&Deck| design.supports[d.support].kind == SupportKind::Arm;
    let rests = all.decks.iter().filter(is).filter_map(rest).collect::<Vec<_>>();
    pairs(&rails).into_iter().chain(pairs(&rests)).collect()
}

/// Each on the left with the one on the right that lies most nearly across from it.
fn pairs(arms: &[Arm]) -> Vec<Grasp> {
    let off = |a: &Arm, b: &Arm| (a.middle.x - b.middle.x).abs() + (a.middle.z - b.middle.z).abs();
    let pair = |l: &Arm| {
        let across = arms.iter().filter(|r| !r.left);
        let r = across.min_by(|a, b| off(l, a).total_cmp(&off(l, b)))?;
        let name = format!("{} and {}", l.name, r.name);
        Some(Grasp {
            name,
            hands: [l.hands, r.hands].concat().into_iter().map(Spot::Port).collect(),
            pushed: false,
            whole: true,
        })
    };
    arms.iter().filter(|a| a.left).filter_map(pair).collect()
}

/// The highest end of a bar on each side, behind the middle of the seat.
fn back_tops(design: &Design, all: &Structure) -> Option<Grasp> {
    let seat = seat_middle(design, all)?;
    let top = |left: bool| {
        let mut best: Option<(f64, Port)> = None;
        for (bar, b) in all.frame_bars() {
            for (at, p) in [(0.0, b.ends.0), (b.length(), b.ends.1)] {
                let fits = (p.y > 0.0) == left && p.y.abs() > 0.05 && p.z > seat.z + 0.2 && p.x < seat.x;
                if fits && best.is_none_or(|(z, _)| p.z > z + 1e-6) {
                    best = Some((p.z, Port { bar, at }));
                }
            }
        }
        best.map(|b| b.1)
    };
    let hands = vec![Spot::Port(top(true)?), Spot::Port(top(false)?)];
    Some(Grasp { name: "the tops of the back".to_owned(), hands, pushed: true, whole: false })
}

fn same_hands(one: &Grasp, other: &Grasp) -> bool {
    one.hands.len() == other.hands.len() && one.hands.iter().all(|h| other.hands.contains(h))
}

/// A bar points back, by the cosine of its angle to that.
const BACK: f64 = 0.5;
/// Nothing so near to a free end holds the bar, m.
const FREE: f64 = 0.02;
/// A bar so little behind the front edge of the seat is still taken hold of from ahead, m. Common practice, no source.
const BEHIND_EDGE: f64 = 0.05;

/// Ends of bars that stick out backward above and behind the middle of the seat, each with the one across from it: a helper holds
/// them by their very ends.
fn stubs(design: &Design, all: &Structure) -> Vec<Grasp> {
    let Some(seat) = seat_middle(design, all) else { return Vec::new() };
    let mut out: Vec<(f64, Grasp)> = Vec::new();
    for (bar, b) in all.frame_bars() {
        for (at, p, outward) in [(0.0, b.ends.0, b.way() * -1.0), (b.length(), b.ends.1, b.way())] {
            let back = outward.x < -BACK && p.x < seat.x && p.z > seat.z;
            if !back || !free_end(all, bar, at) {
                continue;
            }
            let hand = Spot::Port(Port { bar, at });
            let name = without_side(&b.name);
            // both sides are one grip; two ends on one side are two
            let pair = |g: &&mut (f64, Grasp)| g.1.name == name && g.1.hands.len() == 1 && g.0 * p.y < 0.0;
            match out.iter_mut().find(pair) {
                Some(pair) => pair.1.hands.push(hand),
                None => out.push((p.y, Grasp { name, hands: vec![hand], pushed: true, whole: false })),
            }
        }
    }
    out.into_iter().map(|g| g.1).collect()
}

/// Whether nothing holds a bar, or is held by it, at an end.
fn free_end(all: &Structure, bar: usize, at: f64) -> bool {
    let there = |s: &Spot| matches!(s, Spot::Port(p) if p.bar == bar && (p.at - at).abs() < FREE);
    !all.ties.iter().flat_map(|t| &t.spots).any(there)
}

/// Bars across ahead of the rider, each held in its middle.
fn front_bars(design: &Design, all: &Structure) -> Vec<Grasp> {
    let Some(seat) = deck(design, all, SupportKind::Seat) else { return Vec::new() };
    let edge = seat.ends.0.x.max(seat.ends.1.x) - BEHIND_EDGE;
    let ahead = |(_, b): &(usize, &Bar)| {
        let (a, z) = b.ends;
        b.way().y.abs() > 0.9 && a.x.min(z.x) >= edge && a.y * z.y < 0.0
    };
    let grasp = |(bar, b): (usize, &Bar)| {
        let hands = vec![Spot::Port(Port { bar, at: b.length() / 2.0 })];
        Grasp { name: b.name.clone(), hands, pushed: false, whole: false }
    };
    all.frame_bars().filter(ahead).map(grasp).collect()
}

/// The foremost end of a bar on each side, between foot support and seat.
fn front(design: &Design, all: &Structure) -> Option<Grasp> {
    let seat = seat_middle(design, all)?;
    let most = |left: bool| {
        let mut best: Option<(f64, Port)> = None;
        for (bar, b) in all.frame_bars() {
            for (at, p) in [(0.0, b.ends.0), (b.length(), b.ends.1)] {
                let fits = (p.y > 0.0) == left && p.y.abs() > 0.05 && p.z <= seat.z + 0.1 && p.x > seat.x;
                // of two as far forward, the higher is nearer to the hand
                let score = p.x + 0.01 * p.z;
                if fits && best.is_none_or(|(s, _)| score > s + 1e-6) {
                    best = Some((score, Port { bar, at }));
                }
            }
        }
        best.map(|b| b.1)
    };
    let hands = vec![Spot::Port(most(true)?), Spot::Port(most(false)?)];
    Some(Grasp { name: "the front of the frame".to_owned(), hands, pushed: false, whole: false })
}

/// The front edge of the foot support.
fn footrest(design: &Design, all: &Structure) -> Option<Grasp> {
    let d = deck(design, all, SupportKind::Footrest)?;
    let Carries::Sheet { across, .. } = &d.carries else { return None };
    let bar = *across.last()?;
    let length = all.bars[bar].length();
    let hands = [0.25, 0.75].map(|s| Spot::Port(Port { bar, at: length * s })).to_vec();
    Some(Grasp { name: "the foot support".to_owned(), hands, pushed: false, whole: false })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::Form;
    use crate::hand::bar;
    use crate::shipped::{PARTS, design};
    use chairwright_design::Frame3;

    /// A handle 150 mm behind and 30 mm above the top of a post hangs on it: a hand is at the end of that lever, and both
    /// sides are one grip.
    #[test]
    fn a_bought_handle_is_gripped_at_its_lever() {
        let design = design(
            "part \"grip\" { kind = handle, mass = 0.2 kg, length = 150 mm, width = 30 mm, height = 30 mm, source = \"bench\" }
both sides { item grip = \"grip\" at outward 200 mm, back 150 mm, up 930 mm }
",
        );
        let pipe = Form::Tube { outer: 42e-3, wall: 3.5e-3 };
        let post = |y: f64| bar(Vec3::new(0.0, y, 0.4), Vec3::new(0.0, y, 0.9), Vec3::X, pipe);
        let mut all = Structure { bars: vec![post(0.2), post(-0.2)], ..Structure::default() };
        let settled =
            Settled { pose: Frame3::IDENTITY, pitch: 0.0, roll: 0.0, contacts: Vec::new(), rock: 0.0 };
        handles(&design, &settled, &mut all);
        let found = bought(&design, &all);
        assert_eq!(found.iter().map(|g| (g.name.as_str(), g.hands.len())).collect::<Vec<_>>(), [("grip", 2)]);
        // it begins 75 mm behind the middle of the post, 54 mm behind its face: nothing holds it there
        let air = |o: &Open| matches!(o, Open::Unheld { air, .. } if (air - 0.054).abs() < 0.004);
        assert!(all.open.len() == 2 && all.open.iter().all(air), "{:?}", all.open);
        for (_, point, port) in &all.handles {
            let arm = all.points[*point] - all.bars[port.bar].at(port.at);
            assert!((arm - Vec3::new(-0.15, 0.0, 0.03)).norm() < 1e-9, "{arm:?}");
        }
    }

    /// Stubs of 150 mm behind the posts, below their tops, are gripped at their very ends, both as one; where a bar across ties their ends
    /// it is they no longer stick out. A bar from post to post ahead of the seat is gripped in its middle, one under the seat is not.
    #[test]
    fn stubs_and_front_bars_are_gripped() {
        let seat = "seat = ply from up 450 mm to forward 420 mm, up 450 mm width 400 mm\n";
        let design = design(&format!("{PARTS}{seat}"));
        let Some(seat) = design.supports.iter().position(|s| s.kind == SupportKind::Seat) else { panic!() };
        let pipe = Form::Tube { outer: 42e-3, wall: 3.5e-3 };
        let stub = |name: &str, y: f64| {
            let mut b = bar(Vec3::new(0.0, y, 0.8), Vec3::new(-0.15, y, 0.8), Vec3::Z, pipe);
            b.name = name.to_owned();
            b
        };
        let cross = |x: f64| bar(Vec3::new(x, 0.2, 0.5), Vec3::new(x, -0.2, 0.5), Vec3::Z, pipe);
        let bars = vec![stub("left.grip", 0.2), stub("right.grip", -0.2), cross(0.5), cross(0.2)];
        let mut all = Structure { bars, ..Structure::default() };
        all.decks.push(Deck {
            support: seat,
            ends: (Vec3::new(0.0, 0.0, 0.45), Vec3::new(0.42, 0.0, 0.45)),
            side: Vec3::Y,
            normal: Vec3::Z,
            width: 0.4,
            sag: 0.0,
            carries: Carries::Bands(Vec::new()),
        });
        let hands = |found: &[Grasp]| -> Vec<(String, Vec<Spot>)> {
            found.iter().map(|g| (g.name.clone(), g.hands.clone())).collect()
        };
        let port = |bar, at| Spot::Port(Port { bar, at });
        assert_eq!(hands(&stubs(&design, &all)), [("grip".to_owned(), vec![port(0, 0.15), port(1, 0.15)])]);
        let found = hands(&front_bars(&design, &all));
        assert_eq!(found.iter().map(|f| f.1.clone()).collect::<Vec<_>>(), [vec![port(2, 0.2)]]);
        let spots = vec![port(0, 0.15), port(1, 0.15)];
        all.ties.push(Tie { of: TieOf::Part, spots, hold: Hold::Rigid });
        assert!(stubs(&design, &all).is_empty());
    }
}
