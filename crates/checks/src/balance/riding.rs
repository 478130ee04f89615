//! What rides along, a prosthesis among it, and which of it tips the chair soonest.
//!
//! Over one edge the tangent of the slope is Σ m·room / Σ m·height, room the distance to the edge and height the height
//! above it, both linear in the place of each mass. Which things make that least together is found exactly: from a ratio on, take
//! what brings Σ m·(room − ratio·height) down, work the ratio out again, and so on until nothing changes (Dinkelbach 1967,
//! from memory). Each step lowers the ratio, and there are only so many sets.

use super::Loading;
use super::axles::Axles;
use super::swivel::Contacts;
use crate::body::RiderBody;
use crate::weigh::{Mass, weigh};
use chairwright_design::{Design, Item, ItemKind, Origin, Side, SupportKind, Vec3};
use chairwright_frame::{Frame, Group, Settled};

/// Up to so many things every set of them is handed on to rolling; of more, the sets that lie furthest to one side.
pub(crate) const EVERY: usize = 10;

/// Whether each thing rides along.
type Set = Vec<bool>;

/// How far before the seat's front edge the lap reaches, in metres. Common practice, no source.
const LAP: f64 = 0.15;

/// The chair on the ground and what it can go over.
#[derive(Clone, Copy)]
pub(super) struct Scene<'a> {
    pub(super) design: &'a Design,
    pub(super) frame: &'a Frame,
    pub(super) settled: &'a Settled,
    pub(super) contacts: &'a Contacts,
    /// The rear axles.
    pub(super) axles: &'a Axles,
    /// Whether somebody sits in it and may have something on the lap.
    pub(super) lap: bool,
    /// What the rider may have taken off.
    pub(super) worn: &'a [Worn],
    /// Shifts of chair and rider that a tipping test of the built chair leaves open.
    pub(super) shifts: &'a [Vec3],
    /// What that test shifts: chair and rider with the bags that are drawn on, kg.
    pub(super) tested: f64,
}

/// A prosthesis that is worn, and may as well lie beside the bed.
pub(super) struct Worn {
    name: String,
    origin: Origin,
    mass: f64,
    at: Vec3,
}

/// The prostheses of legs that a rider wears.
pub(super) fn worn(design: &Design, rider: &RiderBody) -> Vec<Worn> {
    let origin = design.rider.origin.unwrap_or(Origin(0));
    let worn = rider.segments.iter().filter(|s| s.is_worn());
    worn.map(|s| Worn { name: s.name.replace(' ', "_"), origin, mass: s.mass, at: s.centre }).collect()
}

/// Bags and trays that are drawn as parts of the chair: they may be off like what rides along.
fn removable(design: &Design) -> impl Iterator<Item = &Item> {
    design.items.iter().filter(|i| i.kind == ItemKind::Bag)
}

/// Whether anything rides along that may be there or not.
pub(crate) fn rides(design: &Design) -> bool {
    let worn = |side| design.rider.sided_word("prosthesis", side) == Some("worn");
    !design.carried.is_empty()
        || removable(design).next().is_some()
        || [Side::Left, Side::Right].into_iter().any(worn)
}

/// Chair and rider with the bags that are drawn and nothing else that rides along, in the settled pose: everything, and everything
/// but the rear wheels.
pub(super) fn alone(frame: &Frame, settled: &Settled, segments: &[(f64, Vec3)]) -> (Mass, Mass) {
    without(&[], frame, settled, segments)
}

/// The same without these bodies.
fn without(off: &[&str], frame: &Frame, settled: &Settled, segments: &[(f64, Vec3)]) -> (Mass, Mass) {
    let part = |wheels: bool| {
        let on = frame.bodies.iter().filter(|b| !off.contains(&b.name.as_str()));
        let bodies = on.filter(move |b| wheels || b.group != Group::Wheel);
        let m = weigh(bodies.map(|b| (b.mass, b.centre)).chain(segments.iter().copied()));
        Mass { centre: settled.pose.place(m.centre), ..m }
    };
    (part(true), part(false))
}

impl Scene<'_> {
    /// Without what rides along, with each of it, with what tips it soonest over any edge, and with all of it: the last.
    pub(super) fn loadings(&self, segments: &[(f64, Vec3)]) -> Vec<Loading> {
        let base = self.bare(segments);
        let things = self.things();
        let mut sets = plain(things.len());
        if things.len() > 2 {
            self.shifts.iter().for_each(|by| self.worst(base, *by, &things, &mut sets));
        }
        self.with(base, &things, &sets)
    }

    /// As many sets as can be: rolling asks other questions of them.
    pub(super) fn every(&self, segments: &[(f64, Vec3)]) -> Vec<Loading> {
        let things = self.things();
        let n = things.len();
        let sets = if n <= EVERY { (0..1_usize << n).map(|k| bits(k, n)).collect() } else { sided(&things) };
        self.with(self.bare(segments), &things, &sets)
    }

    /// Chair and rider without anything that may be off.
    fn bare(&self, segments: &[(f64, Vec3)]) -> (Mass, Mass) {
        let off: Vec<&str> = removable(self.design).map(|i| i.name.as_str()).collect();
        without(&off, self.frame, self.settled, segments)
    }

    /// What may be there or not: its name and place in the text, its mass and its place in the drawing.
    fn rides(&self) -> impl Iterator<Item = ((&str, Origin), f64, Vec3)> {
        let there = |at: Vec3| self.lap || !on_lap(self.design, at);
        let carried = self.design.carried.iter().filter(move |c| there(c.at));
        let carried = carried.map(|c| ((c.name.as_str(), c.origin), c.mass, c.at));
        let drawn = removable(self.design).map(|i| ((i.name.as_str(), i.origin), i.part.mass, i.at));
        let worn = self.worn.iter().filter(|_| self.lap);
        carried.chain(drawn).chain(worn.map(|w| ((w.name.as_str(), w.origin), w.mass, w.at)))
    }

    fn things(&self) -> Vec<Mass> {
        let place = |at: Vec3| self.settled.pose.place(at);
        self.rides().map(|(_, mass, at)| Mass { mass, centre: place(at) }).collect()
    }

    /// How many things may be there or not.
    pub(super) fn many(&self) -> usize {
        self.rides().count()
    }

    fn with(&self, (total, sprung): (Mass, Mass), things: &[Mass], sets: &[Set]) -> Vec<Loading> {
        let on = |set: &Set| -> Vec<(&str, Origin)> {
            self.rides().zip(set).filter(|(_, on)| **on).map(|((what, ..), _)| what).collect()
        };
        let load = |set: &Set| Loading {
            with: on(set).iter().map(|(name, _)| *name).collect::<Vec<_>>().join(" and "),
            origin: on(set).first().map(|(_, origin)| *origin),
            named: true,
            total: plus(total, things, set),
            sprung: plus(sprung, things, set),
        };
        let full = sets.iter().filter(|s| s.iter().all(|on| *on));
        let rest = sets.iter().filter(|s| !s.iter().all(|on| *on) || s.is_empty());
        let mut out: Vec<Loading> = rest.map(load).collect();
        if !things.is_empty() {
            out.extend(full.take(1).map(load));
        }
        out
    }

    /// Adds the worst set for each edge at each coarse swivel, and for the axles of rear wheels and casters.
    fn worst(&self, (total, sprung): (Mass, Mass), by: Vec3, things: &[Mass], sets: &mut Vec<Set>) {
        let moved = |m: Mass| Mass { centre: m.centre + by * (total.mass / m.mass.max(1e-9)), ..m };
        let front = crate::layout::front_radius(self.design, self.settled);
        let mut add = |set: Option<Set>| {
            if let Some(set) = set.filter(|s| !sets.contains(s)) {
                sets.push(set);
            }
        };
        for edge in self.contacts.edges() {
            add(soonest(moved(total), things, |p| (edge.room(p), edge.height(p))));
            if let Some(front) = front {
                add(soonest(moved(total), things, |p| (edge.room(p), edge.height(p) - front)));
            }
        }
        let axle = |p: Vec3| {
            let from = self.contacts.nosed(p - self.axles.at(p.y));
            (from.x, from.z)
        };
        add(soonest(moved(sprung), things, axle));
    }
}

/// Whether a place in the drawing is over the lap of whoever sits in the seat.
fn on_lap(design: &Design, at: Vec3) -> bool {
    let Some(seat) = crate::body::support(design, SupportKind::Seat) else { return false };
    let (way, v) = (seat.to - seat.from, at - seat.from);
    let Some(along) = way.unit() else { return false };
    let up = along.cross(Vec3::Y);
    let ahead = v.dot(along);
    (0.0..=way.norm() + LAP).contains(&ahead) && v.y.abs() <= seat.width / 2.0 && v.dot(up) > 0.0
}

/// None, each and all.
fn plain(n: usize) -> Vec<Set> {
    let each = (0..n).map(|i| (0..n).map(|k| k == i).collect());
    let mut out: Vec<Set> = std::iter::once(vec![false; n]).chain(each).collect();
    if n > 1 {
        out.push(vec![true; n]);
    }
    out
}

fn bits(k: usize, n: usize) -> Set {
    (0..n).map(|i| k >> i & 1 == 1).collect()
}

/// None, each, all, and the first few in each of six directions.
fn sided(things: &[Mass]) -> Vec<Set> {
    let mut out = plain(things.len());
    for d in [Vec3::X, Vec3::Y, Vec3::Z].into_iter().flat_map(|d| [d, -d]) {
        let mut order: Vec<usize> = (0..things.len()).collect();
        order.sort_by(|a, b| things[*b].centre.dot(d).total_cmp(&things[*a].centre.dot(d)));
        let mut set = vec![false; things.len()];
        for i in order {
            set[i] = true;
            if !out.contains(&set) {
                out.push(set.clone());
            }
        }
    }
    out
}

fn plus(base: Mass, things: &[Mass], set: &Set) -> Mass {
    let on = things.iter().zip(set).filter(|(_, on)| **on).map(|(m, _)| (m.mass, m.centre));
    weigh(std::iter::once((base.mass, base.centre)).chain(on))
}

/// The set of things with which room over height is least; `None` where nothing stands above the edge.
fn soonest(base: Mass, things: &[Mass], of: impl Fn(Vec3) -> (f64, f64)) -> Option<Set> {
    let moments = |m: &Mass| {
        let (room, height) = of(m.centre);
        (m.mass * room, m.mass * height)
    };
    let (base, own) = (moments(&base), things.iter().map(moments).collect::<Vec<_>>());
    let sum = |set: &Set| {
        let on = own.iter().zip(set).filter(|(_, on)| **on);
        on.fold(base, |s, (m, _)| (s.0 + m.0, s.1 + m.1))
    };
    let start = [vec![false; things.len()], vec![true; things.len()]];
    let mut set = start.into_iter().find(|s| sum(s).1 > 1e-9)?;
    // each turn lowers the ratio; more turns than that nobody has seen, and one too few only keeps a set that is less bad
    for _ in 0..64 {
        let (room, height) = sum(&set);
        let ratio = room / height;
        let next: Set = own.iter().map(|(r, h)| r - ratio * h < 0.0).collect();
        if next == set || sum(&next).1 <= 1e-9 {
            break;
        }
        set = next;
    }
    Some(set)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mass(mass: f64, x: f64, z: f64) -> Mass {
        Mass { mass, centre: Vec3::new(x, 0.0, z) }
    }

    /// Back over an edge at x = 0. By hand, moments m·x and m·z: chair and rider 80 kg at (0.15, 0.65): 12 and 52; bag 8 kg at
    /// (-0.3, 0.8): -2.4 and 6.4; water 6 kg at (-0.35, 0.85): -2.1 and 5.1; child 14 kg at (0.45, 0.75): 6.3 and 10.5.
    /// None 12/52 = 0.231, bag 9.6/58.4 = 0.164, water 9.9/57.1 = 0.173, all 13.8/74 = 0.186; bag and water 7.5/63.5 = 0.118.
    #[test]
    fn the_child_in_front_does_not_hide_the_bags_behind() {
        let things = [mass(8.0, -0.3, 0.8), mass(6.0, -0.35, 0.85), mass(14.0, 0.45, 0.75)];
        let base = mass(80.0, 0.15, 0.65);
        let back = |p: Vec3| (p.x, p.z);
        assert_eq!(soonest(base, &things, back), Some(vec![true, true, false]));
        let both = plus(base, &things, &vec![true, true, false]);
        assert!((both.centre.x / both.centre.z - 7.5 / 63.5).abs() < 1e-12, "{both:?}");
        // ahead over an edge at 0.4: none 20/52 = 0.385; child: 0.7 less, 19.3/62.5 = 0.309; the bags hold it back
        assert_eq!(soonest(base, &things, |p| (0.4 - p.x, p.z)), Some(vec![false, false, true]));
    }

    /// The least of all sets, tried one by one.
    #[test]
    fn no_set_is_worse_than_the_one_that_is_found() {
        let things: Vec<Mass> = (0..7_u32)
            .map(|k| {
                let k = f64::from(k);
                mass(2.0 + 1.5 * k, 0.5 * libm::sin(2.1 * k + 0.4), 0.6 + 0.5 * libm::cos(1.3 * k))
            })
            .collect();
        let base = mass(70.0, 0.12, 0.62);
        for room in [|p: Vec3| (p.x, p.z), |p: Vec3| (0.38 - p.x, p.z - 0.075)] {
            let ratio = |set: &Set| {
                let (r, h) = room(plus(base, &things, set).centre);
                r / h
            };
            let least = (0..1 << 7).map(|k| ratio(&bits(k, 7))).fold(f64::INFINITY, f64::min);
            let found = soonest(base, &things, room).map(|s| ratio(&s)).unwrap_or(f64::NAN);
            assert!((found - least).abs() < 1e-12, "{found} {least}");
        }
    }
}
