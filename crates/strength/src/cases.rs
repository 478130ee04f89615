//! The load cases: made from the rider, the place of use and the parts that can be grasped. They are
//! the same for every design and cannot be taken out; the design's own loads come beside them.

use crate::case::{BUMPS, Case, CaseKind, Lasting, Swung, case};
use crate::grasp::{Grasp, arm_rails, grasps};
use crate::load::{G, Middle, Push, Seated, deck, moment, rider_pushes, seated, thrown, turned};
use crate::remark::{Open, Source, Taken};
use crate::strike::SUDDEN;
use crate::structure::{Carries, Port, Spot, Structure};
use crate::tyre::Tyres;
use crate::weight::{Weights, bags};
use chairwright_checks::{Checked, weigh};
use chairwright_design::{Design, ItemKind, LoadLasts, SupportKind, Vec3};
use chairwright_frame::{Frame, Settled};

/// Lifting with a jerk. Common practice, no source.
const JERK: f64 = 1.5;
/// Share of the weight of the trunk that is thrown against the back. Common practice, no source.
const THROWN: f64 = 0.5;
/// Share of the seat's width that a rider leans aside at most. Common practice, no source.
const LEAN: f64 = 0.25;
/// Angle of an arm that pushes up, and the weight that both take, as the arm test of ISO 7176-8; from memory, not
/// checked.
const ARM: (f64, f64) = (15.0, 1.5);
/// Least push of a helper, N, and rolling resistance as a share of the weight. Common practice, no source.
const HELPER: (f64, f64) = (200.0, 0.02);
/// Half the width of a hand on an arm: its push acts no nearer to the arm's end, m. Common practice, no source.
const HAND: f64 = 0.045;
/// An arm shorter than this is gripped in its middle alone, m. Common practice, no source.
const SHORT: f64 = 0.15;
/// Share of the way from the anti-tip devices to the rear axle that the weight has left to go when the devices are judged. Assumed,
/// no source.
const BEFORE: f64 = 0.02;
/// A load of the design that acts this far from its bar is listed, m.
const REACH: f64 = 0.005;

/// The chair under its rider, at rest.
pub(crate) struct AtRest<'r> {
    /// How far the rider's weight sinks on chair and tyres, m.
    pub give: f64,
    /// The same on tyres that do not give way, where a tyre is pressed flat in the drop.
    pub hard: Option<f64>,
    /// What each footing carries, N.
    pub feet: &'r [f64],
    pub tyres: &'r Tyres,
    /// Where it lands that rolls off a kerb.
    pub landed: Vec<Case>,
}

/// What the cases are made from.
pub(crate) struct Maker<'a> {
    pub design: &'a Design,
    pub(crate) frame: &'a Frame,
    pub(crate) checked: &'a Checked,
    pub all: &'a Structure,
    pub settled: &'a Settled,
    pub rider: Seated,
    /// Of the chair, and of what rides along.
    own: Vec<Push>,
    /// Chair, rider and what rides along, with the centre of mass on the ground.
    pub total: (f64, Vec3),
    /// The same two without what rides along; `None` where nothing does.
    bare: Option<(Vec<Push>, (f64, Vec3))>,
    pub grasps: Vec<Grasp>,
    /// What could not be made into a case.
    pub open: Vec<Open>,
    /// What was taken for granted.
    pub taken: Vec<Taken>,
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
        let scale = mass / body.mass;
        let whole = |carried: bool| {
            let off = |name: &str| !carried && bags(design).any(|bag| bag == name);
            let bodies = frame.bodies.iter().filter(|b| !off(&b.name)).map(|b| (b.mass, b.centre));
            let segments = body.segments.iter().map(|s| (s.mass * scale, s.centre));
            let rides = design.carried.iter().filter(|_| carried).map(|c| (c.mass, c.at));
            let sum = weigh(bodies.chain(segments).chain(rides));
            (sum.mass, settled.pose.place(sum.centre))
        };
        let Weights { mut own, carried, taken } = Weights::new(design, frame, settled, all, Vec3::Z * -1.0);
        let rides = !design.carried.is_empty() || bags(design).next().is_some();
        let bare = rides.then(|| (own.clone(), whole(false)));
        own.extend(carried);
        let (grasps, total) = (grasps(design, all), whole(true));
        let open = Vec::new();
        Some(Maker { design, frame, checked, all, settled, rider, own, total, bare, grasps, open, taken })
    }

    /// The same chair without what rides along; `None` where nothing does.
    pub fn without_carried(&self) -> Option<Maker<'a>> {
        let (own, total) = self.bare.clone()?;
        let (rider, grasps) = (self.rider.clone(), self.grasps.clone());
        let Maker { design, frame, checked, all, settled, .. } = *self;
        let (open, taken) = (Vec::new(), Vec::new());
        Some(Maker { design, frame, checked, all, settled, rider, own, total, bare: None, grasps, open, taken })
    }

    pub(crate) fn seated(&self) -> Vec<Push> {
        self.leant(0.0)
    }

    /// The same with the rider leaning to the left by so much, m.
    fn leant(&self, aside: f64) -> Vec<Push> {
        let mut out = rider_pushes(self.design, self.all, &self.rider, Vec3::Z * -1.0, aside);
        out.extend(self.own.iter().copied());
        out
    }

    /// The rider sits; what everything else is measured by.
    pub fn base(&self) -> Case {
        case(CaseKind::Seated, Lasting::Sustained, 1.0, Source::Weight, self.seated())
    }

    /// The pushes of the seated rider on what is left of the chair.
    pub fn again(&self, left: &Structure) -> Option<Vec<Push>> {
        Maker::new(self.design, self.frame, self.checked, self.settled, left).map(|m| m.seated())
    }

    /// Every case; `height` is from where the chair drops, in m.
    pub fn cases(&mut self, rest: &AtRest<'_>, height: f64) -> Vec<Case> {
        let mut out = vec![self.base(), self.bumps(), self.leaning()];
        out.extend(self.wheels_off());
        out.extend(self.strikes(rest.feet));
        out.extend(self.drop(rest, height));
        out.extend(rest.landed.iter().cloned());
        out.extend(self.transfers());
        out.extend(self.arms());
        out.extend(self.standing());
        out.extend(self.lifts());
        out.extend(self.pushing());
        out.extend(self.tipped_back());
        out.extend(self.declared());
        out.extend(self.swung(&out));
        out
    }

    /// What is worst where casters do not trail: the rider sitting, bumps, the drop from a kerb, which is rolled off backward too, and
    /// somebody on the foot support, with all casters ahead of their stems and with each turned outward.
    fn swung(&self, trailing: &[Case]) -> Vec<Case> {
        if self.all.footings.iter().all(|f| f.swung.is_none()) {
            return Vec::new();
        }
        let is = |c: &&Case| {
            matches!(c.kind, CaseKind::Seated | CaseKind::Bumps | CaseKind::Standing | CaseKind::Drop(_))
        };
        let each = Swung::ALL.into_iter().flat_map(|which| {
            trailing.iter().filter(is).map(move |c| {
                let mut one = c.clone();
                one.kind = CaseKind::Swung(which, Box::new(c.kind.clone()));
                one.setup.swung = Some(which);
                one
            })
        });
        each.collect()
    }

    /// Gone over backward onto the anti-tip devices, just before it goes over them: the line of its weight passes so near to
    /// them that they bear all but [`BEFORE`] of it. The chair stays as it is drawn, the weight is turned.
    fn tipped_back(&self) -> Option<Case> {
        let (design, all) = (self.design, self.all);
        let is = |h: &&(usize, usize, Port)| design.items[h.0].kind == ItemKind::AntiTip;
        let devices: Vec<&(usize, usize, Port)> = all.handles.iter().filter(is).collect();
        let rear: Vec<Vec3> = all.footings.iter().filter(|f| !f.caster).map(|f| all.points[f.hub]).collect();
        #[allow(clippy::cast_precision_loss)]
        let mean = |all: &[Vec3]| all.iter().fold(Vec3::ZERO, |s, p| s + *p) * (1.0 / all.len().max(1) as f64);
        let (axle, device) = (mean(&rear), mean(&devices.iter().map(|h| all.points[h.1]).collect::<Vec<_>>()));
        if devices.is_empty() || rear.is_empty() || device.x >= axle.x {
            return None;
        }
        let through = device.mix(axle, BEFORE);
        let angle = libm::atan2(self.total.1.x - through.x, self.total.1.z - through.z);
        let down = turned(Vec3::Z * -1.0, angle);
        let mut pushes = rider_pushes(design, all, &self.rider, down, 0.0);
        let weights = Weights::new(design, self.frame, self.settled, all, down);
        pushes.extend(weights.own);
        if self.bare.is_some() {
            pushes.extend(weights.carried);
        }
        for f in &all.footings {
            let mass =
                if f.caster { design.casters[f.index].part.mass } else { design.wheels[f.index].part.mass };
            pushes.extend(self.at_point(f.hub, down * (mass * G)));
        }
        // about the axle the devices hold all of it, so that the casters stay unloaded
        let about = |at: Vec3, force: Vec3| (at - axle).cross(force).y;
        let sum = pushes.iter().fold(Vec3::ZERO, |s, p| s + p.force());
        let turns = (moment(all, &pushes) - axle.cross(sum)).y;
        let force = -down * (-turns / about(device, -down));
        #[allow(clippy::cast_precision_loss)]
        let each = force * (1.0 / devices.len() as f64);
        pushes.extend(devices.iter().filter_map(|h| self.by_hand(Spot::Point(h.1), each)));
        Some(case(CaseKind::TippedBack, Lasting::Short, 1.0, Source::TippedBack(BEFORE), pushes))
    }

    fn scaled(&self, n: f64) -> Vec<Push> {
        self.seated().into_iter().map(|p| p.times(n)).collect()
    }

    fn bumps(&self) -> Case {
        let wanted = self.design.profile.as_ref().and_then(|p| p.shock).unwrap_or(0.0);
        let (n, source) =
            if wanted > BUMPS { (wanted, Source::ProfileBumps(wanted)) } else { (BUMPS, Source::Bumps(BUMPS)) };
        case(CaseKind::Bumps, Lasting::Repeated, n, source, self.scaled(n))
    }

    fn drop(&mut self, rest: &AtRest<'_>, height: f64) -> Option<Case> {
        match rest.tyres.fall(height, (rest.give, rest.hard), rest.feet) {
            Ok((n, source)) => Some(case(CaseKind::Drop(height), Lasting::Impact, n, source, self.scaled(n))),
            Err(open) => {
                self.open.push(open);
                None
            }
        }
    }

    fn leaning(&self) -> Case {
        let more = THROWN * self.rider.trunk.0;
        let mut pushes = self.seated();
        pushes.extend(thrown(self.design, self.all, more));
        case(CaseKind::LeaningBack, Lasting::Short, more, Source::Trunk(THROWN), pushes)
    }

    pub(crate) fn contact(&self, k: usize) -> Vec3 {
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
            let mut one = case(kind, Lasting::Short, 1.0, Source::FewerWheels, self.seated());
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
                let wanted = (on_line - self.total.1.y) * self.total.0 * G / self.rider.upper().max(1.0);
                let aside = wanted.clamp(-LEAN * width, LEAN * width);
                let kind = CaseKind::Diagonal(rear.name.clone(), front.name.clone());
                let mut one = case(kind, Lasting::Short, 1.0, Source::TwoWheels(LEAN), self.leant(aside));
                one.setup.light = (0..all.footings.len()).filter(|k| *k != i && *k != j).collect();
                out.push(one);
            }
        }
        out
    }

    fn weight(&self) -> f64 {
        self.rider.mass * G
    }

    /// The whole weight on one front corner of the seat.
    fn transfers(&self) -> Vec<Case> {
        let Some(seat) = deck(self.design, self.all, SupportKind::Seat) else { return Vec::new() };
        let make = |(word, sign): (&'static str, f64)| {
            let mut pushes: Vec<Push> = self.own.clone();
            let (on, patch) = seat.corner(self.all, Vec3::Z * -self.weight(), sign);
            pushes.extend(on);
            let source = Source::Corner(patch.0, patch.1);
            case(CaseKind::Transfer(word), Lasting::Short, 1.0, source, pushes)
        };
        [("left", 1.0), ("right", -1.0)].map(make).to_vec()
    }

    fn nearest(&self, p: Vec3) -> Option<Port> {
        let all = self.all.frame_bars();
        let best = all.min_by(|(_, a), (_, b)| a.nearest(p).1.total_cmp(&b.nearest(p).1));
        best.map(|(bar, b)| Port { bar, at: b.nearest(p).0 })
    }

    /// Arm supports, and bars beside the rider above the seat: [`ARM`] times m·g / (2·cos), outward, in the middle of each and
    /// where a hand holds its ends.
    fn arms(&self) -> Vec<Case> {
        let Some(seat) = deck(self.design, self.all, SupportKind::Seat) else { return Vec::new() };
        let (s, c) = libm::sincos(ARM.0.to_radians());
        let size = ARM.1 * self.weight() / (2.0 * c);
        let force = |beside: f64| (Vec3::Z * -c + seat.side * (s * beside.signum())) * size;
        let make = |kind: CaseKind, on: Vec<Push>| {
            let mut pushes = self.seated();
            pushes.extend(on);
            case(kind, Lasting::Short, size, Source::Arm(ARM.1, ARM.0.to_radians()), pushes)
        };
        let mut out = Vec::new();
        for (bar, beside) in arm_rails(self.design, self.all) {
            let b = &self.all.bars[bar];
            for (kind, at) in places(&b.name, b.length(), b.way().x > 0.0) {
                let port = Port { bar, at };
                out.push(make(kind, vec![Push::At { port, force: force(beside), moment: Vec3::ZERO }]));
            }
        }
        let rests = self.all.decks.iter().filter(|d| self.design.supports[d.support].kind == SupportKind::Arm);
        for rest in rests.filter(|d| d.carries != Carries::Nothing) {
            let beside = (rest.ends.0.mix(rest.ends.1, 0.5) - seat.ends.0).dot(seat.side);
            let way = rest.ends.1 - rest.ends.0;
            for (kind, at) in places(&self.design.supports[rest.support].name, way.norm(), way.x > 0.0) {
                let lie = Middle { along: at / way.norm(), aside: 0.0 };
                out.push(make(kind, rest.push(self.all, force(beside), lie)));
            }
        }
        out
    }

    fn standing(&self) -> Option<Case> {
        let rest = deck(self.design, self.all, SupportKind::Footrest)?;
        let mut pushes = rest.edge(self.all, Vec3::Z * -self.weight());
        pushes.extend(self.own.iter().copied());
        Some(case(CaseKind::Standing, Lasting::Short, 1.0, Source::Edge, pushes))
    }

    fn lifts(&self) -> Vec<Case> {
        let make = |g: &Grasp| {
            let kind = CaseKind::Lift(g.name.clone());
            let source = if g.whole { Source::LiftWhole(JERK) } else { Source::Lift(JERK) };
            let mut one = case(kind, Lasting::Short, JERK, source, self.scaled(JERK));
            #[allow(clippy::cast_precision_loss)]
            let hands = g.hands.iter().map(|h| self.all.place(*h).x).sum::<f64>() / g.hands.len().max(1) as f64;
            // the wheels on that side of the weight come up; where all stand there they stay, and share
            let com = self.total.1.x;
            let there = |k: &usize| (self.contact(*k).x < com) == (hands < com);
            let all = 0..self.all.footings.len();
            let alone = all.clone().all(|k| there(&k));
            one.setup.lifted = all.filter(|k| g.whole || (there(k) && !alone)).collect();
            one.setup.held.clone_from(&g.hands);
            one
        };
        self.grasps.iter().map(make).collect()
    }

    /// A helper pushes at the push bar: up the declared slope with rolling, at least [`HELPER`].
    fn pushing(&self) -> Option<Case> {
        let bar = self.grasps.iter().find(|g| g.pushed)?;
        let slope = self.design.conditions.quantities.get("slope").copied().unwrap_or(0.0);
        let least = HELPER.0.max(self.design.profile.as_ref().and_then(|p| p.helper_push).unwrap_or(0.0));
        let force = (self.total.0 * G * (libm::sin(slope) + HELPER.1)).max(least);
        let mut pushes = self.seated();
        #[allow(clippy::cast_precision_loss)]
        let each = Vec3::X * (force / bar.hands.len().max(1) as f64);
        pushes.extend(bar.hands.iter().filter_map(|h| self.by_hand(*h, each)));
        let source = Source::Push(HELPER.1, least);
        Some(case(CaseKind::Pushing, Lasting::Short, force, source, pushes))
    }

    /// A push by a hand: on a bar, or by a handle with its lever.
    fn by_hand(&self, hand: Spot, force: Vec3) -> Option<Push> {
        match hand {
            Spot::Port(port) => Some(Push::At { port, force, moment: Vec3::ZERO }),
            Spot::Point(point) => {
                let (_, _, port) = *self.all.handles.iter().find(|h| h.1 == point)?;
                let arm = self.all.points[point] - self.all.bars[port.bar].at(port.at);
                Some(Push::At { port, force, moment: arm.cross(force) })
            }
        }
    }

    /// Loads of the design, each at its place: on the bar nearest to it, at the end of a rigid arm.
    fn declared(&mut self) -> Vec<Case> {
        let mut out = Vec::new();
        for (i, load) in self.design.loads.iter().enumerate() {
            let at = self.settled.pose.place(self.design.joints[load.joint].at);
            let Some(port) = self.nearest(at) else { continue };
            let (lasting, times, source) = match load.lasts {
                LoadLasts::Short => (Lasting::Short, 1.0, Source::Design),
                LoadLasts::Sustained => (Lasting::Sustained, 1.0, Source::Design),
                LoadLasts::Repeated => (Lasting::Repeated, 1.0, Source::Design),
                LoadLasts::Blow => (Lasting::Impact, SUDDEN, Source::Blow(SUDDEN)),
            };
            let force = self.settled.pose.turn(load.force) * times;
            let arm = at - self.all.bars[port.bar].at(port.at);
            if arm.norm() > REACH {
                let bar = self.all.bars[port.bar].name.clone();
                self.taken.push(Taken::Reach { load: load.name.clone(), bar, arm: arm.norm() });
            }
            let mut pushes = self.seated();
            pushes.push(Push::At { port, force, moment: arm.cross(force) });
            out.push(case(CaseKind::Declared(i), lasting, force.norm(), source, pushes));
        }
        out
    }
}

/// Where an arm of a length is gripped, m from its first end: in its middle, and as near to its ends as a hand holds.
fn places(name: &str, length: f64, forward: bool) -> Vec<(CaseKind, f64)> {
    let mut out = vec![(CaseKind::Arm(name.to_owned()), length / 2.0)];
    if length >= SHORT {
        let (first, last) = if forward { ("rear", "front") } else { ("front", "rear") };
        out.push((CaseKind::ArmEnd(name.to_owned(), first), HAND));
        out.push((CaseKind::ArmEnd(name.to_owned(), last), length - HAND));
    }
    out
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
    use chairwright_resistance::shock::fall;

    /// A cantilever arm of 250 mm, gripped no nearer to its end than half a hand, 45 mm: at 205 mm from what holds it. 69 kg push with
    /// 1.5 · 69 · 9.80665/(2 cos 15°) = 525 N, of which cos 15° = 507 N are down: 104 N m there, where the middle had 63.
    #[test]
    fn an_arm_is_gripped_at_its_ends() {
        let found = places("arm", 0.250, true);
        let of = |kind: CaseKind| found.iter().find(|p| p.0 == kind).unwrap().1;
        assert!((of(CaseKind::Arm("arm".into())) - 0.125).abs() < 1e-12);
        assert!((of(CaseKind::ArmEnd("arm".into(), "rear")) - 0.045).abs() < 1e-12);
        let at = of(CaseKind::ArmEnd("arm".into(), "front"));
        let down = ARM.1 * 69.0 * G / 2.0;
        assert!((at - 0.205).abs() < 1e-12 && (down * at - 104.0).abs() < 0.1, "{}", down * at);
        assert_eq!(places("arm", 0.250, false)[1].0, CaseKind::ArmEnd("arm".into(), "front"));
        assert_eq!(places("stub", 0.100, true).len(), 1);
    }

    /// Design paper 7: (h, δ) in mm: (0, any) 2; (4, 1) 4; (50, 10) 4.317; (50, 5) 5.583; (50, 2) 8.141.
    #[test]
    fn drop_factors_of_the_design_paper() {
        for (h, give, n) in
            [(0.0, 1.0, 2.0), (4.0, 1.0, 4.0), (50.0, 10.0, 4.317), (50.0, 5.0, 5.583), (50.0, 2.0, 8.141)]
        {
            assert!((fall(h, give).unwrap() - n).abs() < 5e-4, "{h} {give}");
        }
    }

    /// A spring of 100, 250, 400 N/mm under 84 kg and 50 mm: 4.6, 6.6, 8.0 (trade paper 1.19).
    #[test]
    fn drop_factors_of_springs() {
        for (k, n) in [(100e3, 4.6), (250e3, 6.6), (400e3, 8.0)] {
            assert!((fall(0.050, 84.0 * G / k).unwrap() - n).abs() < 0.06, "{k}");
        }
    }
}
