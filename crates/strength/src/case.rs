//! The load cases: made from the rider, the place of use and the parts that can be grasped. They are
//! the same for every design and cannot be taken out; the design's own loads come beside them.

use crate::grasp::{Grasp, grasps};
use crate::load::{G, Push, Seated, deck, own_weight, rider_pushes, seated};
use crate::model::Setup;
use crate::structure::{Port, Spot, Structure};
use chairwright_checks::{Checked, weigh};
use chairwright_design::{Design, SupportKind, Vec3};
use chairwright_frame::{Frame, Settled};

/// What a load case is.
#[derive(Clone, PartialEq, Debug)]
pub enum CaseKind {
    /// The rider sits, for hours and years.
    Seated,
    /// Ordinary bumps, over and over.
    Bumps,
    /// The rider throws himself against the back.
    LeaningBack,
    /// One wheel hangs over a hole.
    OneWheelOff(String),
    /// Two wheels on a diagonal carry nearly everything.
    Diagonal(String, String),
    /// Casters run into an edge of this height.
    CasterStrike {
        /// The caster, or `None` for all at once.
        caster: Option<String>,
        /// Height of the edge, in m.
        edge: f64,
        /// Push over the load on the caster.
        ratio: f64,
    },
    /// The chair drops from this height.
    Drop(f64),
    /// The rider puts the whole weight on one front corner of the seat.
    Transfer(&'static str),
    /// The rider pushes up from an arm.
    Arm(String),
    /// Somebody stands on the foot support.
    Standing,
    /// The occupied chair is lifted by this.
    Lift(String),
    /// A helper pushes.
    Pushing,
    /// A load of the design, counted among its loads.
    Declared(usize),
}

/// How long a load lasts.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Lasting {
    /// Hours a day for years.
    Sustained,
    /// Seconds to minutes.
    Short,
    /// A blow.
    Impact,
    /// Over and over.
    Repeated,
}

impl Lasting {
    /// In words.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Lasting::Sustained => "lasting",
            Lasting::Short => "short",
            Lasting::Impact => "a blow",
            Lasting::Repeated => "repeated",
        }
    }
}

/// One load case.
#[derive(Clone, PartialEq, Debug)]
pub struct Case {
    /// What it is.
    pub kind: CaseKind,
    /// How long it lasts.
    pub lasting: Lasting,
    /// What the rider's weight is multiplied by, or the force in N for a push; for the list.
    pub size: f64,
    /// Where its size is from.
    pub source: &'static str,
    pub(crate) pushes: Vec<Push>,
    pub(crate) setup: Setup,
}

/// Factor of ordinary bumps: the everyday shock of the design paper. Common practice, no source.
pub const BUMPS: f64 = 3.0;
/// A push that comes at once and does not stop counts twice: 1 + √(1 + 2h/δ) with h = 0.
const SUDDEN: f64 = 2.0;
/// Lifting with a jerk. Common practice, no source.
const JERK: f64 = 1.5;
/// Height of the edge that casters run into where the place of use declares none, m.
const EDGE: f64 = 0.020;
/// Height of the kerb, m: the drop of the ISO 7176-8 test, from memory, not checked.
pub const KERB: f64 = 0.050;

/// Peak over static load of a body that drops a height h onto what gives way by δ under its weight:
/// 1 + √(1 + 2h/δ) (strength of materials; the energy of a spring).
#[must_use]
pub fn drop_factor(height: f64, give: f64) -> f64 {
    1.0 + (1.0 + 2.0 * height / give.max(1e-9)).sqrt()
}

/// Push on the axle, over the load on the wheel, at which a wheel of radius r climbs an edge of
/// height h: √(2rh − h²)/(r − h) (statics: moments about the edge). `None` from h = r up.
#[must_use]
pub fn climb_ratio(radius: f64, edge: f64) -> Option<f64> {
    (edge < radius).then(|| (2.0 * radius * edge - edge * edge).sqrt() / (radius - edge))
}

/// What the cases are made from.
pub(crate) struct Maker<'a> {
    pub design: &'a Design,
    pub all: &'a Structure,
    pub settled: &'a Settled,
    pub rider: Seated,
    own: Vec<Push>,
    /// Chair and rider, with the centre of mass on the ground.
    pub total: (f64, Vec3),
    pub grasps: Vec<Grasp>,
}

impl<'a> Maker<'a> {
    pub fn new(
        design: &'a Design,
        frame: &'a Frame,
        checked: &'a Checked,
        settled: &'a Settled,
        all: &'a Structure,
    ) -> Option<Maker<'a>> {
        let body = checked.rider.as_ref()?;
        let known = design.known.iter().find(|k| k.name == "rider.mass" && k.unit == "kg");
        let mass = body.mass + known.and_then(|k| k.spread).unwrap_or(0.0);
        let rider = seated(design, all, settled, body, mass);
        let bodies = frame.bodies.iter().map(|b| (b.mass, b.centre));
        let scale = mass / body.mass;
        let sum = weigh(bodies.chain(body.segments.iter().map(|s| (s.mass * scale, s.centre))));
        let own = own_weight(frame, settled, all);
        let grasps = grasps(design, all);
        let total = (sum.mass, settled.pose.place(sum.centre));
        Some(Maker { design, all, settled, rider, own, total, grasps })
    }

    fn seated(&self) -> Vec<Push> {
        let mut out = rider_pushes(self.design, self.all, &self.rider, 0.0, 0.0);
        out.extend(self.own.iter().copied());
        out
    }

    /// The rider sits; what everything else is measured by.
    pub fn base(&self) -> Case {
        case(CaseKind::Seated, Lasting::Sustained, 1.0, "the rider's weight", self.seated())
    }

    /// Every case. `give` is how far the rider's weight sinks on chair and tyres, in m; `feet` what each
    /// footing carries then, in N.
    pub fn cases(&self, give: f64, feet: &[f64]) -> Vec<Case> {
        let mut out = vec![self.base(), self.bumps(), self.leaning()];
        out.extend(self.wheels_off());
        out.extend(self.strikes(feet));
        out.push(self.drop(give));
        out.extend(self.transfers());
        out.extend(self.arms());
        out.extend(self.standing());
        out.extend(self.lifts());
        out.extend(self.pushing());
        out.extend(self.declared());
        out
    }

    fn scaled(&self, n: f64) -> Vec<Push> {
        self.seated().into_iter().map(|p| p.times(n)).collect()
    }

    fn bumps(&self) -> Case {
        let source = "everyday shocks, three times the weight; common practice, no source";
        case(CaseKind::Bumps, Lasting::Repeated, BUMPS, source, self.scaled(BUMPS))
    }

    fn drop(&self, give: f64) -> Case {
        let n = drop_factor(KERB, give);
        let source = "1 + sqrt(1 + 2h/give) with the give of this chair and its tyres";
        case(CaseKind::Drop(KERB), Lasting::Impact, n, source, self.scaled(n))
    }

    fn leaning(&self) -> Case {
        let more = 0.5 * self.rider.trunk;
        let mut pushes = rider_pushes(self.design, self.all, &self.rider, more, 0.0);
        pushes.extend(self.own.iter().copied());
        let source = "half the weight of head, arms and trunk, square to the back; common practice, no source";
        case(CaseKind::LeaningBack, Lasting::Short, more, source, pushes)
    }

    fn contact(&self, k: usize) -> Vec3 {
        self.all.points[self.all.footings[k].contact]
    }

    /// Wheels that can hang over a hole without the chair tipping onto them.
    fn wheels_off(&self) -> Vec<Case> {
        let all = self.all;
        let mut out = Vec::new();
        let n = all.footings.len();
        for k in (0..n).filter(|_| n > 3) {
            let rest: Vec<Vec3> = (0..n).filter(|i| *i != k).map(|i| self.contact(i)).collect();
            if !inside(self.total.1, &rest) {
                continue;
            }
            let kind = CaseKind::OneWheelOff(all.footings[k].name.clone());
            let mut one = case(kind, Lasting::Short, 1.0, "statics: three wheels carry", self.seated());
            one.setup.lifted = vec![k];
            out.push(one);
        }
        out.extend(self.diagonals());
        out
    }

    /// A rear wheel and the caster across from it carry, the rider leaning over the line between them.
    fn diagonals(&self) -> Vec<Case> {
        let all = self.all;
        let mut out = Vec::new();
        for (i, rear) in all.footings.iter().enumerate().filter(|(_, f)| !f.caster) {
            for (j, front) in all.footings.iter().enumerate().filter(|(_, f)| f.caster) {
                let (a, b) = (self.contact(i), self.contact(j));
                if a.y * b.y >= 0.0 || (b.x - a.x).abs() < 1e-6 {
                    continue;
                }
                let on_line = a.y + (b.y - a.y) * (self.total.1.x - a.x) / (b.x - a.x);
                let width = deck(self.design, all, SupportKind::Seat).map_or(0.0, |d| d.width);
                let wanted = (on_line - self.total.1.y) * self.total.0 * G / self.rider.seat.0.max(1.0);
                let aside = wanted.clamp(-0.25 * width, 0.25 * width);
                let mut pushes = rider_pushes(self.design, all, &self.rider, 0.0, aside);
                pushes.extend(self.own.iter().copied());
                let kind = CaseKind::Diagonal(rear.name.clone(), front.name.clone());
                let source = "statics: two wheels carry, the rider leans at most a quarter of the seat's width";
                let mut one = case(kind, Lasting::Short, 1.0, source, pushes);
                one.setup.light = (0..all.footings.len()).filter(|k| *k != i && *k != j).collect();
                out.push(one);
            }
        }
        out
    }

    fn strikes(&self, feet: &[f64]) -> Vec<Case> {
        let casters: Vec<usize> =
            (0..self.all.footings.len()).filter(|k| self.all.footings[*k].caster).collect();
        let Some(radius) = self.design.casters.iter().map(|c| c.radius).reduce(f64::min) else {
            return Vec::new();
        };
        let sill = self.design.conditions.quantities.get("sill").copied().filter(|s| *s < 0.5 * radius);
        let edge = sill.unwrap_or(EDGE).max(EDGE.min(0.5 * radius));
        let mut out = Vec::new();
        let ratio = |k: usize| {
            let c = &self.design.casters[self.all.footings[k].index];
            climb_ratio(c.radius, edge).unwrap_or(0.0)
        };
        let source = "push that climbs the edge, sqrt(2rh - h^2)/(r - h), twice for coming at once";
        let mut make = |who: Option<String>, hit: &[usize]| {
            let mut pushes = self.seated();
            for k in hit {
                let force = Vec3::X * (-ratio(*k) * SUDDEN * feet[*k].max(0.0));
                pushes.extend(self.at_point(self.all.footings[*k].hub, force));
            }
            let most = hit.iter().map(|k| ratio(*k)).fold(0.0, f64::max);
            let kind = CaseKind::CasterStrike { caster: who, edge, ratio: most };
            out.push(case(kind, Lasting::Impact, most * SUDDEN, source, pushes));
        };
        for k in &casters {
            make(Some(self.all.footings[*k].name.clone()), &[*k]);
        }
        if casters.len() > 1 {
            make(None, &casters);
        }
        out
    }

    /// A force at a free point, moved to what carries it.
    fn at_point(&self, point: usize, force: Vec3) -> Option<Push> {
        let footing = self.all.footings.iter().find(|f| f.hub == point)?;
        let bar = self.all.bar_named(footing.carrier.as_deref()?)?;
        let from = self.all.points[point];
        let tie = self.all.ties.iter().find_map(|t| {
            let on = |s: &Spot| matches!(s, Spot::Port(p) if p.bar == bar);
            let of = t.of == crate::structure::TieOf::Caster(footing.index) && footing.caster
                || t.of == crate::structure::TieOf::Wheel(footing.index) && !footing.caster;
            t.spots.iter().find(|s| on(s) && of).copied()
        })?;
        let Spot::Port(port) = tie else { return None };
        let arm = from - self.all.place(tie);
        Some(Push::At { port, force, moment: arm.cross(force) })
    }

    fn weight(&self) -> f64 {
        self.rider.mass * G
    }

    fn transfers(&self) -> Vec<Case> {
        let Some(seat) = deck(self.design, self.all, SupportKind::Seat) else { return Vec::new() };
        let make = |(word, sign): (&'static str, f64)| {
            let corner = seat.ends.1 + seat.side * (sign * seat.width / 2.0);
            let port = self.nearest(corner)?;
            let force = Vec3::Z * -self.weight();
            let mut pushes: Vec<Push> = self.own.clone();
            pushes.push(Push::At { port, force, moment: Vec3::ZERO });
            let source = "the whole weight on one front corner of the seat; common practice, no source";
            Some(case(CaseKind::Transfer(word), Lasting::Short, 1.0, source, pushes))
        };
        [("left", 1.0), ("right", -1.0)].into_iter().filter_map(make).collect()
    }

    fn nearest(&self, p: Vec3) -> Option<Port> {
        let all = self.all.frame_bars();
        let best = all.min_by(|(_, a), (_, b)| a.nearest(p).1.total_cmp(&b.nearest(p).1));
        best.map(|(bar, b)| Port { bar, at: b.nearest(p).0 })
    }

    /// Bars beside the rider above the seat: 1.5·m·g / (2·cos 15°), 15 degrees outward, as the arm
    /// test of ISO 7176-8 (formula from memory, not checked).
    fn arms(&self) -> Vec<Case> {
        let Some(seat) = deck(self.design, self.all, SupportKind::Seat) else { return Vec::new() };
        let (s, c) = libm::sincos(15.0_f64.to_radians());
        let size = 1.5 * self.weight() / (2.0 * c);
        let mut out = Vec::new();
        for (bar, b) in self.all.frame_bars() {
            let middle = b.at(b.length() / 2.0);
            let up = middle.z - seat.ends.0.z.max(seat.ends.1.z);
            let beside = (middle - seat.ends.0).dot(seat.side);
            let between = (seat.ends.0.x..=seat.ends.1.x).contains(&middle.x);
            if !(0.08..0.4).contains(&up)
                || b.way().x.abs() < 0.8
                || beside.abs() < 0.3 * seat.width
                || !between
            {
                continue;
            }
            let force = (Vec3::Z * -c + seat.side * (s * beside.signum())) * size;
            let mut pushes = self.seated();
            pushes.push(Push::At { port: Port { bar, at: b.length() / 2.0 }, force, moment: Vec3::ZERO });
            let source = "1.5 x weight / (2 cos 15 deg), 15 deg outward; ISO 7176-8, from memory";
            out.push(case(CaseKind::Arm(b.name.clone()), Lasting::Short, size, source, pushes));
        }
        out
    }

    fn standing(&self) -> Option<Case> {
        let rest = deck(self.design, self.all, SupportKind::Footrest)?;
        let mut pushes = rest.edge(self.all, Vec3::Z * -self.weight());
        pushes.extend(self.own.iter().copied());
        let source = "the whole weight on the front edge; common practice, no source";
        Some(case(CaseKind::Standing, Lasting::Short, 1.0, source, pushes))
    }

    fn lifts(&self) -> Vec<Case> {
        let make = |g: &Grasp| {
            let kind = CaseKind::Lift(g.name.clone());
            let source = "held by this and by the wheels at the other end, with a jerk of 1.5; common practice, no source";
            let mut one = case(kind, Lasting::Short, JERK, source, self.scaled(JERK));
            let rear = g.hands.iter().map(|h| self.all.place(Spot::Port(*h)).x).sum::<f64>()
                / f64::from(u32::try_from(g.hands.len().max(1)).unwrap_or(1))
                < self.total.1.x;
            let off = |k: &usize| self.all.footings[*k].caster != rear;
            one.setup.lifted = (0..self.all.footings.len()).filter(off).collect();
            one.setup.held = g.hands.iter().map(|h| Spot::Port(*h)).collect();
            one
        };
        self.grasps.iter().map(make).collect()
    }

    /// A helper pushes at the push bar: up the declared slope with 2 % rolling, at least 200 N.
    fn pushing(&self) -> Option<Case> {
        let bar = self.grasps.iter().find(|g| g.pushed)?;
        let slope = self.design.conditions.quantities.get("slope").copied().unwrap_or(0.0);
        let force = (self.total.0 * G * (libm::sin(slope) + 0.02)).max(200.0);
        let mut pushes = self.seated();
        #[allow(clippy::cast_precision_loss)]
        let each = Vec3::X * (force / bar.hands.len().max(1) as f64);
        pushes.extend(bar.hands.iter().map(|h| Push::At { port: *h, force: each, moment: Vec3::ZERO }));
        let source = "up the declared slope, at least 200 N; common practice, no source";
        Some(case(CaseKind::Pushing, Lasting::Short, force, source, pushes))
    }

    fn declared(&self) -> Vec<Case> {
        let make = |(i, load): (usize, &chairwright_design::Load)| {
            let at = self.settled.pose.place(self.design.joints[load.joint].at);
            let port = self.nearest(at)?;
            let force = self.settled.pose.turn(load.force);
            let mut pushes = self.seated();
            pushes.push(Push::At { port, force, moment: Vec3::ZERO });
            let lasting = if load.sustained { Lasting::Sustained } else { Lasting::Short };
            Some(case(CaseKind::Declared(i), lasting, load.force.norm(), "the design", pushes))
        };
        self.design.loads.iter().enumerate().filter_map(make).collect()
    }
}

fn case(kind: CaseKind, lasting: Lasting, size: f64, source: &'static str, pushes: Vec<Push>) -> Case {
    let setup = Setup { lasting: lasting == Lasting::Sustained, ..Setup::default() };
    Case { kind, lasting, size, source, pushes, setup }
}

/// Whether a point's foot lies inside three or more points on the ground.
fn inside(p: Vec3, feet: &[Vec3]) -> bool {
    let contacts: Vec<(f64, f64)> = feet.iter().map(|f| (f.x, f.y)).collect();
    let ways = [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)];
    ways.iter().all(|w| {
        let exit = chairwright_checks::exit_distance((p.x, p.y), *w, &contacts);
        exit.is_some_and(|e| e.distance > 1e-6)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Design paper 7: (h, δ) in mm: (0, any) 2; (4, 1) 4; (50, 10) 4.317; (50, 5) 5.583; (50, 2) 8.141.
    #[test]
    fn drop_factors_of_the_design_paper() {
        for (h, give, n) in
            [(0.0, 1.0, 2.0), (4.0, 1.0, 4.0), (50.0, 10.0, 4.317), (50.0, 5.0, 5.583), (50.0, 2.0, 8.141)]
        {
            assert!((drop_factor(h, give) - n).abs() < 5e-4, "{h} {give}");
        }
    }

    /// A spring of 100, 250, 400 N/mm under 84 kg and 50 mm: 4.6, 6.6, 8.0 (trade paper 1.19).
    #[test]
    fn drop_factors_of_springs() {
        for (k, n) in [(100e3, 4.6), (250e3, 6.6), (400e3, 8.0)] {
            assert!((drop_factor(0.050, 84.0 * G / k) - n).abs() < 0.06, "{k}");
        }
    }

    /// Casters of 150, 100, 75 mm at a 20 mm edge: 0.93, 1.33, 1.90 (trade paper 1.14); 125: 1.08 (S1).
    #[test]
    fn climbing_an_edge() {
        for (d, ratio) in [(0.150, 0.93), (0.100, 1.33), (0.075, 1.90), (0.125, 1.08)] {
            assert!((climb_ratio(d / 2.0, 0.020).unwrap() - ratio).abs() < 0.01, "{d}");
        }
        assert_eq!(climb_ratio(0.05, 0.05), None);
    }
}
