//! Cemented sockets and fastenings against what they may bear.

use crate::answer::{Mode, Untold, What};
use crate::bar::{Bar, Of};
use crate::case::Lasting;
use crate::judge::{Court, Use};
use crate::limit::{Unknown, factor, named};
use crate::screws::Handing;
use crate::solve::{Cut, Run};
use crate::structure::{Spot, Tie, TieOf};
use chairwright_design::{Closing, Fastener, Shape, Vec3};
use std::f64::consts::PI;

/// Places on a bar nearer than this are the same for reading forces, m.
const SAME: f64 = 0.003;

impl Court<'_> {
    /// Uses of every joint and fastening in one run.
    pub fn ties(&self, case: usize, lasting: Lasting, run: &Run, keep: &mut dyn FnMut(Use)) {
        let at_bars = by_bar(run, self.all.bars.len());
        for tie in &self.all.ties {
            if let TieOf::Joint(_) = tie.of {
                self.sockets(case, lasting, tie, &at_bars, keep);
            }
        }
        self.fastened(case, lasting, run, keep);
        self.closed(case, lasting, &at_bars, keep);
    }

    /// The cement and the wall of every socket of a joint.
    ///
    /// Cement: pull over the engaged area π·D·L, and twist as shear at its radius. Bending: the pipe
    /// presses on the socket by a straight-line couple over the depth, p = 6M/(D·L²) + V/(D·L). That leaves the
    /// cement out, which takes its part of the moment: on the plain side half is left to the couple
    /// (common practice, no source).
    fn sockets(
        &self,
        case: usize,
        lasting: Lasting,
        tie: &Tie,
        at_bars: &[Vec<&Cut>],
        keep: &mut dyn FnMut(Use),
    ) {
        let TieOf::Joint(joint) = tie.of else { return };
        for spot in &tie.spots {
            let Spot::Port(port) = spot else { continue };
            let bar = &self.all.bars[port.bar];
            let Shape::Tube { outer, is_pipe: true, .. } = self.design.stocks[bar.stock].shape else {
                continue;
            };
            let d = outer.mid();
            for (lip, depth) in lips(bar, port.at) {
                // what the pipe brings to the lip is what the socket must take
                let here = |c: &&&Cut| (c.at - lip).abs() < SAME;
                let Some(cut) = at_bars[port.bar].iter().find(here) else { continue };
                let f = &cut.forces;
                let area = PI * d * depth;
                let shear = libm::hypot(f.pull / area, 2.0 * f.twist / (area * d));
                let bend = libm::hypot(f.bend[0], f.bend[1]);
                let across = libm::hypot(f.across[0], f.across[1]);
                let press = 6.0 * bend / (d * depth * depth) + across / (d * depth);
                let what = What::Joint(joint);
                let mut used = |mode, demand: f64, bears: f64, slack: f64| {
                    let used = (demand / bears / slack, demand / bears);
                    keep(Use { what, case, mode, at: port.at, used, demand, bears });
                };
                if let Some((bears, slack)) = self.cement(lasting) {
                    used(Mode::Cement, shear, bears, slack);
                }
                // pressing wears nothing out: again and again counts as a blow
                let pressed = if lasting == Lasting::Repeated { Lasting::Impact } else { lasting };
                if let Some(l) = self.limits(bar.stock, pressed) {
                    used(Mode::SocketBending, press, l.fibre, 2.0 * l.slack);
                }
            }
        }
    }

    /// Shear that cement bears on its cautious side, and how much more on the plain one.
    fn cement(&self, lasting: Lasting) -> Option<(f64, f64)> {
        let a = named(self.design, "solvent cement")?;
        let share = match lasting {
            Lasting::Sustained => a.lasting,
            Lasting::Short => a.short,
            Lasting::Impact => a.blow,
            Lasting::Repeated => a.repeated,
        }?;
        let safety = a.safety.unwrap_or(1.0);
        let slack = if matches!(lasting, Lasting::Impact | Lasting::Repeated) { safety } else { 1.0 };
        Some((a.strength? * factor(a, &self.climate)? * share / safety, slack))
    }

    /// Bolts that press on the walls of pipes and sheets. Force alone is the plain side; the cautious
    /// one adds the moment as a couple over half the face that the fasteners can be spread on.
    fn fastened(&self, case: usize, lasting: Lasting, run: &Run, keep: &mut dyn FnMut(Use)) {
        for h in &run.handed {
            let tie = &self.all.ties[h.tie];
            let TieOf::Fastening(index) = tie.of else { continue };
            let f = &self.design.fastenings[index];
            let sides: Vec<&Bar> = tie.spots.iter().filter_map(|s| self.bar(s)).collect();
            if let Some(found) = self.in_wood(tie, &f.fasteners) {
                let handing = Handing { force: h.force, moment: h.moment, way: found.2 };
                let who = (What::Tie(tie.of), case, lasting);
                self.screwed(who, (found.0, found.1), (found.3, found.4), &handing)
                    .into_iter()
                    .for_each(&mut *keep);
                continue;
            }
            let Some((count, diameter)) = bolts(self, &f.fasteners) else { continue };
            // of several places that one fastening holds, each has its share of the fasteners
            let places = self.all.ties.iter().filter(|t| t.of == tie.of).count();
            #[allow(clippy::cast_precision_loss)]
            let each = (f64::from(count) / places.max(1) as f64).max(1.0);
            for bar in sides {
                let Some(l) = self.limits(bar.stock, lasting) else { continue };
                let Some(walls) = walls(bar, self) else { continue };
                let one = walls * diameter * l.fibre;
                let (y, z) = bar.form.half();
                let lever = y.max(z);
                let plain = h.force.norm() / each;
                let cautious = plain + h.moment.norm() / (each * lever);
                let used = (plain / one / l.slack, cautious * l.notch.min(1.5) / one);
                keep(Use {
                    what: What::Tie(tie.of),
                    case,
                    mode: Mode::Bearing,
                    at: 0.0,
                    used,
                    demand: cautious,
                    bears: one,
                });
            }
        }
    }

    /// Side and main piece, way, fastener and how many at each place, where a tie is of screws or bolts in wood.
    #[allow(clippy::type_complexity)]
    fn in_wood(&self, tie: &Tie, list: &[(String, u32)]) -> Option<(&Bar, &Bar, Vec3, &Fastener, f64)> {
        let [a, b] = tie.spots[..] else { return None };
        let (one, other) = (self.bar(&a)?, self.bar(&b)?);
        let (f, count) = self.dowels(list)?;
        let places = self.all.ties.iter().filter(|t| t.of == tie.of).count();
        #[allow(clippy::cast_precision_loss)]
        let each = (f64::from(count) / places.max(1) as f64).max(1.0);
        let panel = |x: &Bar| matches!(x.of, Of::Panel(_)).then(|| x.up.cross(x.way()));
        let between = (self.all.place(b) - self.all.place(a)).unit();
        let way = panel(one).or(panel(other)).or(between)?;
        // the thinner piece lies under the heads
        let thin = |x: &Bar| self.bearing(x, if std::ptr::eq(x, one) { other } else { one }, f, way).is_some();
        let (side, main) = if thin(one) { (one, other) } else { (other, one) };
        self.bearing(side, main, f, way)?;
        Some((side, main, way, f, each))
    }

    /// Laps, butts and gussets of wood: what the member brings to the joint against their fasteners.
    fn closed(&self, case: usize, lasting: Lasting, at_bars: &[Vec<&Cut>], keep: &mut dyn FnMut(Use)) {
        use chairwright_design::ClosingKind as K;
        for c in self.design.closings.iter().filter(|c| wooden(c)) {
            let Some(tie) = self.all.ties.iter().find(|t| t.of == TieOf::Joint(c.joint)) else { continue };
            let Some((f, count)) = self.dowels(&c.fasteners) else { continue };
            let moved = match &c.kind {
                K::Lap(lap) => lap.member,
                K::Butt { member, .. } | K::Gusset { member, .. } => *member,
                _ => continue,
            };
            let port = |mine: bool| {
                tie.spots.iter().find_map(|s| match s {
                    Spot::Port(p) if (self.all.bars[p.bar].of == Of::Member(moved)) == mine => Some(*p),
                    _ => None,
                })
            };
            let (Some(p), Some(q)) = (port(true), port(false)) else { continue };
            let (bar, other) = (&self.all.bars[p.bar], &self.all.bars[q.bar]);
            let way = match &c.kind {
                // screws of a butt go through the one that runs past, along the one that stops
                K::Butt { .. } => bar.way(),
                K::Gusset { .. } => bar.way().cross(other.way()).unit().unwrap_or(bar.up),
                _ => (other.at(q.at) - bar.at(p.at)).unit().unwrap_or(bar.up),
            };
            let (side, main) = if matches!(c.kind, K::Butt { .. }) { (other, bar) } else { (bar, other) };
            // both plates of a gusset hold, each with its half on this member
            let each =
                if matches!(c.kind, K::Gusset { .. }) { f64::from(count) / 2.0 } else { f64::from(count) };
            for cut in at_bars[p.bar].iter().filter(|x| (x.at - p.at).abs() < SAME) {
                let y = bar.up.cross(bar.way());
                let global = |a: f64, b: [f64; 2]| bar.way() * a + y * b[0] + bar.up * b[1];
                let force = global(cut.forces.pull, cut.forces.across);
                let moment = global(cut.forces.twist, cut.forces.bend);
                let who = (What::Joint(c.joint), case, lasting);
                let h = Handing { force, moment, way };
                self.screwed(who, (side, main), (f, each.max(1.0)), &h).into_iter().for_each(&mut *keep);
            }
        }
    }

    fn bar(&self, spot: &Spot) -> Option<&Bar> {
        match spot {
            Spot::Port(p) => Some(&self.all.bars[p.bar]),
            Spot::Point(_) => None,
        }
    }

    /// Joints and fastenings that nothing here can judge: screws, glue lines, laps, gussets.
    pub fn untold_ties(&self) -> Vec<Untold> {
        let mut out = Vec::new();
        for (index, f) in self.design.fastenings.iter().enumerate() {
            let tied = |t: &&Tie| t.of == TieOf::Fastening(index);
            let judged = self.all.ties.iter().filter(tied).any(|t| self.in_wood(t, &f.fasteners).is_some());
            let count = crate::ties::fixing(self.design, &f.fasteners);
            // a support on one line stands or falls with its fasteners, and nobody says where they sit
            let upright = self.all.ties.iter().any(|t| {
                let here =
                    |k: usize| self.design.supports[k].name == f.what || self.design.supports[k].name == f.to;
                t.hold == crate::structure::Hold::Rigid && matches!(t.of, TieOf::Bearing(k) if here(k))
            });
            if count > 0 && !judged && (upright || bolts(self, &f.fasteners).is_none()) {
                out.push(Untold {
                    name: format!("{} to {}", f.what, f.to),
                    origin: f.origin,
                    why: Unknown::Joint(words(&f.fasteners, None)),
                    kinds: vec![Lasting::Short],
                });
            }
        }
        for c in &self.design.closings {
            if wooden(c) && self.dowels(&c.fasteners).is_none() {
                let joint = &self.design.joints[c.joint];
                out.push(Untold {
                    name: joint.name.clone(),
                    origin: c.origin,
                    why: Unknown::Joint(words(&c.fasteners, c.glue.as_deref())),
                    kinds: vec![Lasting::Short],
                });
            }
        }
        out
    }
}

fn wooden(c: &Closing) -> bool {
    use chairwright_design::ClosingKind as K;
    matches!(c.kind, K::Lap(_) | K::Butt { .. } | K::Gusset { .. })
}

fn words(fasteners: &[(String, u32)], glue: Option<&str>) -> String {
    let mut all: Vec<String> = fasteners.iter().map(|(n, c)| format!("{c} x {n}")).collect();
    all.extend(glue.map(str::to_owned));
    all.join(", ")
}

/// How many bolts, and of what diameter; `None` where anything else holds too.
fn bolts(court: &Court<'_>, list: &[(String, u32)]) -> Option<(u32, f64)> {
    let fold = chairwright_design::fold;
    let mut found: Option<(u32, f64)> = None;
    for (name, count) in list {
        let f = court.design.fasteners.iter().find(|f| fold(&f.name) == fold(name))?;
        match f.kind.as_str() {
            "bolt" => found = Some((count + found.map_or(0, |f| f.0), f.diameter)),
            "nut" | "washer" => {}
            _ => return None,
        }
    }
    found
}

/// Thickness that one bolt presses on: both walls of a tube, one of a sheet.
fn walls(bar: &Bar, court: &Court<'_>) -> Option<f64> {
    use crate::form::Form;
    match (bar.form, bar.of) {
        (Form::Tube { wall, .. }, _) => Some(2.0 * wall),
        (Form::Hollow { wall, .. }, _) => Some(wall),
        (Form::Flat { .. }, Of::Panel(_) | Of::Support(_)) => match court.design.stocks[bar.stock].shape {
            Shape::Sheet { thickness } => Some(thickness),
            _ => None,
        },
        (Form::Flat { level, .. }, _) => Some(level),
        (Form::Rod { .. }, _) => None,
    }
}

/// Lips of the sockets that hold a bar at a place, and their depths.
fn lips(bar: &Bar, at: f64) -> Vec<(f64, f64)> {
    let near = |x: f64| (x - at).abs() < 0.15;
    let first = bar.stretches.iter().find(|s| s.grip[0] > 0.0 && s.from >= at - 1e-6 && near(s.from));
    let last = bar.stretches.iter().rev().find(|s| s.grip[1] > 0.0 && s.to <= at + 1e-6 && near(s.to));
    let first = first.map(|s| (s.from + s.grip[0], s.grip[0]));
    first.into_iter().chain(last.map(|s| (s.to - s.grip[1], s.grip[1]))).collect()
}

fn by_bar(run: &Run, bars: usize) -> Vec<Vec<&Cut>> {
    let mut out = vec![Vec::new(); bars];
    for cut in &run.cuts {
        out[cut.bar].push(cut);
    }
    out
}
