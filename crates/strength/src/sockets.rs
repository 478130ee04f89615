//! Pipes cemented into fittings: cement and wall of every socket, and pipes that slip through.

use crate::answer::{Mode, What};
use crate::bar::Bar;
use crate::case::Lasting;
use crate::joints::Said;
use crate::judge::{BondOf, Court, Use};
use crate::limit::{Unknown, limits};
use crate::reasons::Reason;
use crate::seam::held;
use crate::solve::{Cut, Run};
use crate::structure::{Port, Spot, Tie, TieOf};
use chairwright_design::{ClosingKind, JointId, Shape, StockId};
use chairwright_resistance::Never;
use std::f64::consts::PI;

/// Places on a bar nearer than this are the same for reading forces, m.
pub(crate) const SAME: f64 = 0.003;
/// What is handed into a pipe that slips through its fitting is nothing below this: N and N m.
const NOTHING: (f64, f64) = (1.0, 0.02);
pub(crate) const CEMENT: &str = "solvent cement";

impl Court<'_> {
    /// Uses of every socket in one run.
    pub(crate) fn sockets(&self, case: usize, lasting: Lasting, run: &Run, say: &mut dyn FnMut(Said)) {
        for tie in &self.all.ties {
            let TieOf::Joint(joint) = tie.of else { continue };
            let closing = self.design.closings.iter().find(|c| c.joint == joint);
            if closing.is_none_or(|c| matches!(c.kind, ClosingKind::Fitting(_))) {
                self.fitting(joint, (case, lasting), tie, run, say);
            }
        }
    }

    fn fitting(&self, joint: JointId, when: (usize, Lasting), tie: &Tie, run: &Run, say: &mut dyn FnMut(Said)) {
        let what = What::Joint(joint);
        for spot in &tie.spots {
            let Spot::Port(port) = spot else { continue };
            let bar = &self.all.bars[port.bar];
            let Shape::Tube { outer, is_pipe: true, .. } = self.design.stocks[bar.stock].shape else {
                say(Said::Cannot(what, held(&[], None, Reason::NoPipe(bar.name.clone()))));
                continue;
            };
            if self.all.slips.contains(&(joint, *port)) {
                self.slipping(what, *port, run.cuts_of(port.bar), say);
                continue;
            }
            let seat = self.all.seat(joint);
            let found = lips(bar, port.at);
            if found.is_empty() {
                let why = Reason::NoSocket(bar.name.clone());
                say(Said::Cannot(what, held(&[], Some("the fitting"), why)));
            }
            for (lip, depth) in found {
                // what the pipe brings to the lip is what the socket must take
                let near = |c: &&Cut| (c.at - lip).abs() < SAME;
                match run.cuts_of(port.bar).iter().find(near) {
                    Some(cut) if seat.is_some_and(|s| s.threaded) => say(threaded(what, bar, cut)),
                    Some(cut) => {
                        let depth = seat.and_then(|s| s.short(depth)).map_or(depth, |short| {
                            say(not_home(what, bar, (short, depth)));
                            short
                        });
                        self.socket(what, when, (port.at, bar.stock), (outer.mid(), depth), cut, say);
                    }
                    None => {
                        let why = Reason::LipUnread(bar.name.clone());
                        say(Said::Cannot(what, held(&[], Some(CEMENT), why)));
                    }
                }
            }
        }
    }

    /// The cement and the wall of one socket.
    ///
    /// Cement: pull over the engaged area π·D·L, and twist as shear at its radius. Bending: the pipe
    /// presses on the socket by a straight-line couple over the depth, p = 6M/(D·L²) + V/(D·L). That leaves the
    /// cement out, which takes its part of the moment: on the plain side half is left to the couple
    /// (common practice, no source).
    fn socket(
        &self,
        what: What,
        (case, lasting): (usize, Lasting),
        (at, stock): (f64, StockId),
        (d, depth): (f64, f64),
        cut: &Cut,
        say: &mut dyn FnMut(Said),
    ) {
        let f = &cut.forces;
        let (shear, press) = (cement_shear(d, depth, (f.pull, f.twist)), pressing(d, depth, f));
        let mut used = |mode, demand: f64, bears: f64, slack: f64| {
            let used = (demand / bears / slack, demand / bears);
            say(Said::Use(Use { what, case, mode, at, used, most: used.1, demand, bears }));
        };
        let cement = self.cement(lasting);
        if let Ok((bears, slack)) = &cement {
            used(Mode::Cement, shear, *bears, *slack);
        }
        // pressing wears nothing out: again and again counts as a blow
        let pressed = if lasting == Lasting::Repeated { Lasting::Impact } else { lasting };
        let wall = self.limits(stock, pressed);
        if let Some(l) = wall {
            used(Mode::SocketBending, press, l.fibre, 2.0 * l.slack);
        }
        if let Err(why) = cement {
            say(Said::Cannot(what, why));
        }
        if wall.is_none() {
            say(Said::Cannot(what, self.why(stock, pressed)));
        }
    }

    /// Why a stock has no limits for a kind of load.
    pub(crate) fn why(&self, stock: StockId, lasting: Lasting) -> Unknown {
        let m = &self.design.stocks[stock].material;
        limits(self.design, m, &self.climate, lasting)
            .err()
            .unwrap_or_else(|| Unknown::Strength(m.name.clone()))
    }

    /// Shear that cement bears on its cautious side, and how much more on the plain one.
    fn cement(&self, lasting: Lasting) -> Result<(f64, f64), Unknown> {
        let b = self.bond(BondOf::Cement, lasting)?;
        let slack = if matches!(lasting, Lasting::Impact | Lasting::Repeated) { b.safety } else { 1.0 };
        Ok((b.strength * b.share / b.safety, slack))
    }

    /// A pipe that runs on through a fitting without a stop: what is handed along it and round it goes
    /// through cement alone, unless it is drilled there for a bolt.
    fn slipping(&self, what: What, port: Port, cuts: &[Cut], say: &mut dyn FnMut(Said)) {
        let bar = &self.all.bars[port.bar];
        let here: Vec<&Cut> = cuts.iter().filter(|c| (c.at - port.at).abs() < SAME).collect();
        let (Some(before), Some(after)) = (here.first(), here.last()) else {
            let why = Reason::SlipUnread(bar.name.clone());
            return say(Said::Cannot(what, held(&[], Some(CEMENT), why)));
        };
        let along = (after.forces.pull - before.forces.pull).abs();
        let round = (after.forces.twist - before.forces.twist).abs();
        let half = bar.form.half().0;
        let pinned = bar.holes.iter().any(|h| h.said && (h.at - port.at).abs() < 2.0 * half);
        if pinned || (along < NOTHING.0 && round < NOTHING.1) {
            let why = if pinned { Reason::SlipBolt } else { Reason::SlipLies };
            return say(Said::Cannot(what, held(&[], Some("the slip fitting"), why)));
        }
        say(Said::Never(what, Never::SlipFittingByCementAlone));
    }
}

/// A thread is no socket: it is a notch where it is bent, and what else it bears nobody says.
fn threaded(what: What, bar: &Bar, cut: &Cut) -> Said {
    if crate::seat::bends(cut) {
        return Said::Never(what, Never::ThreadedAdapterBending);
    }
    Said::Cannot(what, held(&[], Some("a thread"), Reason::Thread(bar.name.clone())))
}

/// A pipe short of the bottom of its socket: below half of it refused, else judged by what is in it and never sound.
fn not_home(what: What, bar: &Bar, (short, depth): (f64, f64)) -> Said {
    if short < depth / 2.0 {
        return Said::Never(what, Never::HalfInserted);
    }
    let why = Reason::NotHome(bar.name.clone(), short.into(), depth.into());
    Said::Cannot(what, held(&[], Some(CEMENT), why))
}

/// Shear in the cement, Pa.
fn cement_shear(d: f64, depth: f64, (pull, twist): (f64, f64)) -> f64 {
    let area = PI * d * depth;
    libm::hypot(pull / area, 2.0 * twist / (area * d))
}

/// Pressure of the pipe on its socket, Pa.
fn pressing(d: f64, depth: f64, f: &crate::form::Forces) -> f64 {
    let bend = libm::hypot(f.bend[0], f.bend[1]);
    let across = libm::hypot(f.across[0], f.across[1]);
    6.0 * bend / (d * depth * depth) + across / (d * depth)
}

/// Lips of the sockets that hold a bar at a place, and their depths: those of the two stretches that
/// stop on either side of it, however far their fitting keeps them from it.
fn lips(bar: &Bar, at: f64) -> Vec<(f64, f64)> {
    let stops = |x: f64, grip: f64| (grip > 0.0).then_some((x, grip));
    let after = bar.stretches.iter().position(|s| s.from >= at - 1e-6);
    let before = bar.stretches.iter().rposition(|s| s.to <= at + 1e-6);
    // nothing of the bar may lie over the place itself
    let over = bar.stretches.iter().any(|s| s.from < at - 1e-6 && at + 1e-6 < s.to);
    if over {
        return Vec::new();
    }
    let after = after.map(|k| &bar.stretches[k]).and_then(|s| stops(s.from + s.grip[0], s.grip[0]));
    let before = before.map(|k| &bar.stretches[k]).and_then(|s| stops(s.to - s.grip[1], s.grip[1]));
    after.into_iter().chain(before).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bar::{Of, Stretch};
    use crate::form::{Forces, Form};
    use chairwright_design::{Id, Vec3};

    fn bar(stretches: Vec<Stretch>) -> Bar {
        Bar {
            name: "b".into(),
            of: Of::Member(Id::new(0)),
            ends: (Vec3::ZERO, Vec3::X),
            up: Vec3::Z,
            stock: StockId::new(0),
            form: Form::Tube { outer: 0.042, wall: 0.0035 },
            stretches,
            sheaths: Vec::new(),
            holes: Vec::new(),
        }
    }

    /// A rail of 1 m with a cross in its middle whose stops are 180 mm apart, farther than 150 mm with the sockets
    /// of 30 mm: both sockets are found, and the pipe's ends at their own joints.
    #[test]
    fn sockets_of_a_large_fitting_are_found() {
        let s = |from, to, grip| Stretch { from, to, grip };
        let b = bar(vec![s(0.02, 0.3, [0.03, 0.03]), s(0.7, 0.98, [0.03, 0.03])]);
        assert_eq!(lips(&b, 0.5), vec![(0.73, 0.03), (0.27, 0.03)]);
        assert_eq!(lips(&b, 0.0), vec![(0.05, 0.03)]);
        assert_eq!(lips(&b, 1.0), vec![(0.95, 0.03)]);
        // a pipe that runs on over the place has no socket there
        assert!(lips(&b, 0.2).is_empty());
    }

    /// 1 1/4 in pipe 31.8 mm deep: π · 42.16 · 31.8 = 4 212 mm²; 1 000 N pull 0.237 MPa, 50 N m twist
    /// 2 · 50 000/(4 212 · 42.16) = 0.563 MPa; together 0.611 MPa. 100 N m bend 6 · 100 000/(42.16 · 31.8²) =
    /// 14.07 MPa and 400 N across 0.298 MPa.
    #[test]
    fn a_socket_by_hand() {
        let (d, depth) = (42.16e-3, 31.8e-3);
        assert!((cement_shear(d, depth, (1000.0, 50.0)) / 1e6 - 0.611).abs() < 0.001);
        let f = Forces { bend: [60.0, 80.0], across: [400.0, 0.0], ..Forces::default() };
        assert!((pressing(d, depth, &f) / 1e6 - 14.37).abs() < 0.01);
    }
}
