//! Wheels and casters: what carries each, and where it stands on the ground.

use crate::case::Swung;
use crate::remark::Taken;
use crate::structure::{Footing, Hold, Loose, Port, Spot, Structure, Tie, TieOf};
use chairwright_design::{Design, Vec3};
use chairwright_frame::{Settled, caster_centre};
use std::f64::consts::{FRAC_PI_2, PI};

/// How far inboard of the hub the end of what carries an axle may lie.
const AXLE: f64 = 0.15;
/// Cosine of the angle between a bar and an axle up to which the axle goes into the bar's end.
const ALONG: f64 = 0.97;
/// How far beside a bar's face the seat of a stem may lie.
const SEAT: f64 = 0.04;

/// Finds what carries each wheel, and puts it on the ground.
pub(crate) fn wheels(design: &Design, settled: &Settled, all: &mut Structure) {
    for contact in &settled.contacts {
        let index = contact.index;
        if contact.caster {
            caster(design, settled, index, contact.at, all);
        } else {
            wheel(design, settled, index, contact.at, all);
        }
    }
}

/// What the text fastens a part to, where it says so.
fn named(design: &Design, name: &str, near: Vec3, all: &Structure) -> Option<Port> {
    let of = |f: &&chairwright_design::Fastening| f.what == name || f.to == name;
    let f = design.fastenings.iter().find(of)?;
    let bar = all.bar_named(if f.what == name { &f.to } else { &f.what })?;
    Some(Port { bar, at: all.bars[bar].nearest(near).0 })
}

fn wheel(design: &Design, settled: &Settled, index: usize, foot: Vec3, all: &mut Structure) {
    let w = &design.wheels[index];
    let hub = settled.pose.place(w.at);
    let inward = -settled.pose.turn(w.axle);
    let found = named(design, &w.name, hub, all).or_else(|| in_line(hub, inward, all)).or_else(|| {
        let crossing = |reach: f64| crossing(hub, inward, reach, all);
        crossing(AXLE)
    });
    let overhang = found.and_then(|p| overhang(hub, inward, p, all));
    let port = found.map(Spot::Port);
    footing((w.name.clone(), false, index), (hub, foot), port, TieOf::Wheel(index), all);
    if let Some(last) = all.footings.last_mut() {
        last.overhang = overhang;
    }
}

/// From the middle of a wheel inward to the face of what holds its axle, m; `None` where that face lies at or outside of the
/// wheel, so that the drawing does not tell how the axle is held.
fn overhang(hub: Vec3, inward: Vec3, port: Port, all: &Structure) -> Option<f64> {
    let b = &all.bars[port.bar];
    let out = |p: Vec3| (p - hub).dot(inward);
    let along = b.way().dot(inward).abs() >= ALONG;
    let face = if along { out(b.ends.0).min(out(b.ends.1)) } else { out(b.at(port.at)) - b.half_along(inward) };
    (face > 0.0).then_some(face)
}

/// A bar whose end lies on the axle's line, inboard of the hub.
fn in_line(hub: Vec3, inward: Vec3, all: &Structure) -> Option<Port> {
    let mut best: Option<(f64, Port)> = None;
    for (bar, b) in all.frame_bars() {
        if b.way().dot(inward).abs() < ALONG {
            continue;
        }
        for (at, end) in [(0.0, b.ends.0), (b.length(), b.ends.1)] {
            let out = (end - hub).dot(inward);
            let aside = (end - hub).across(inward).norm();
            let (level, upright) = b.form.half();
            if (-0.01..=AXLE).contains(&out)
                && aside < level.max(upright) + 0.01
                && best.is_none_or(|(o, _)| out < o - 1e-9)
            {
                best = Some((out, Port { bar, at }));
            }
        }
    }
    best.map(|(_, p)| p)
}

/// The first bar that the axle passes through or along the face of.
fn crossing(hub: Vec3, inward: Vec3, reach: f64, all: &Structure) -> Option<Port> {
    let axle = (hub, hub + inward * reach);
    let mut best: Option<(f64, Port)> = None;
    for (bar, b) in all.frame_bars() {
        let (out, at, gap) = crate::space::nearest_between(axle, b.ends);
        let way = (b.at(at) - hub - inward * out).unit().unwrap_or(inward);
        if gap - b.half_along(way) < 0.02 && best.is_none_or(|(o, _)| out < o - 1e-9) {
            best = Some((out, Port { bar, at }));
        }
    }
    best.map(|(_, p)| p)
}

fn caster(design: &Design, settled: &Settled, index: usize, foot: Vec3, all: &mut Structure) {
    let c = &design.casters[index];
    let seat = settled.pose.place(c.at);
    let axle = settled.pose.place(caster_centre(c, 0.0));
    let found = named(design, &c.name, seat, all).or_else(|| seated(seat, all));
    if let Some(port) = &found {
        let b = &all.bars[port.bar];
        let (_, gap) = b.nearest(seat);
        let way = (seat - b.at(port.at)).unit().unwrap_or(Vec3::Z);
        let (name, gap) = (b.name.clone(), (gap - b.half_along(way)).max(0.0));
        all.taken.push(Taken::Stem(c.name.clone(), name, gap));
    }
    let spot = found.map(|port| {
        let point = all.point(seat);
        let spots = vec![Spot::Point(point), Spot::Port(port)];
        all.ties.push(Tie { of: TieOf::Caster(index), spots, hold: Hold::Rigid });
        Spot::Point(point)
    });
    footing((c.name.clone(), true, index), (axle, foot), spot, TieOf::Part, all);
    let swung = Swung::ALL.map(|which| {
        let hub = settled.pose.place(caster_centre(c, angle(which, seat)));
        (hub, Vec3::new(hub.x + foot.x - axle.x, hub.y + foot.y - axle.y, foot.z))
    });
    if let Some(last) = all.footings.last_mut() {
        last.swung = (c.trail > 0.0).then_some(swung);
    }
}

/// The swivel, from trailing, of a caster whose stem is seated there: a positive one turns its wheel to the right.
fn angle(which: Swung, seat: Vec3) -> f64 {
    match which {
        Swung::Ahead => PI,
        Swung::Outward if seat.y > 0.0 => -FRAC_PI_2,
        Swung::Outward => FRAC_PI_2,
    }
}

/// The bar whose face is nearest to a stem's seat.
fn seated(seat: Vec3, all: &Structure) -> Option<Port> {
    let mut best: Option<(f64, Port)> = None;
    for (bar, b) in all.frame_bars() {
        let (at, gap) = b.nearest(seat);
        let way = (seat - b.at(at)).unit().unwrap_or(Vec3::Z);
        let free = (gap - b.half_along(way)).max(0.0);
        if free < SEAT && best.is_none_or(|(g, _)| free < g - 1e-6) {
            best = Some((free, Port { bar, at }));
        }
    }
    best.map(|(_, p)| p)
}

fn footing(
    (name, caster, index): (String, bool, usize),
    (hub, foot): (Vec3, Vec3),
    held: Option<Spot>,
    of: TieOf,
    all: &mut Structure,
) {
    let (hub, contact) = (all.point(hub), all.point(foot));
    let carrier = match held {
        Some(Spot::Port(p)) => Some(all.bars[p.bar].name.clone()),
        Some(Spot::Point(point)) => {
            let on = all.ties.iter().find(|t| t.spots[0] == Spot::Point(point)).map(|t| t.spots[1]);
            on.and_then(|s| if let Spot::Port(p) = s { Some(all.bars[p.bar].name.clone()) } else { None })
        }
        None => None,
    };
    let rigid = |a: Spot, b: Spot, of: TieOf| Tie { of, spots: vec![a, b], hold: Hold::Rigid };
    all.ties.push(rigid(Spot::Point(contact), Spot::Point(hub), TieOf::Part));
    match held {
        Some(held) => all.ties.push(rigid(Spot::Point(hub), held, of)),
        None => all.loose.push(Loose::Wheel(name.clone())),
    }
    all.footings.push(Footing { name, caster, index, hub, contact, carrier, swung: None, overhang: None });
}
