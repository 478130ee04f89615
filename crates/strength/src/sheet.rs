//! Panels that are fastened to bars: each is an arm of sheet from its middle to every place where it
//! is held. Along its face its fasteners slip, and the sheet's own shear is in series with them: see `slip.rs`.
//!
//! This is a rough model of a plate in its plane: good enough to bring forces from one bar to
//! another, not to call a panel sound. Stresses in the arms are judged with that in mind.

use crate::bar::{Bar, Of, Stretch};
use crate::form::Form;
use crate::remark::{Beside, Open};
use crate::slip::{Held, Slip};
use crate::structure::{Hold, Loose, Port, Spot, Structure, Tie, TieOf};
use chairwright_design::{Design, Panel, Shape, Vec3};
use chairwright_frame::Settled;

pub(crate) struct Plate {
    pub corners: Vec<Vec3>,
    pub normal: Vec3,
    pub thickness: f64,
}

impl Plate {
    pub fn of(design: &Design, panel: &Panel, settled: &Settled) -> Option<Plate> {
        let Shape::Sheet { thickness } = design.stocks[panel.stock].shape else { return None };
        let normal = settled.pose.turn(panel.toward).unit()?;
        let corners = panel.corners.iter().map(|c| settled.pose.place(*c) + normal * (thickness / 2.0));
        Some(Plate { corners: corners.collect(), normal, thickness })
    }

    /// Height of a point over the middle plane.
    pub fn height(&self, p: Vec3) -> f64 {
        (p - self.corners[0]).dot(self.normal)
    }

    pub fn onto(&self, p: Vec3) -> Vec3 {
        p - self.normal * self.height(p)
    }

    /// Whether a point's foot lies inside the outline, by counting crossings.
    pub fn covers(&self, p: Vec3) -> bool {
        let u = self.normal.any_across();
        let v = self.normal.cross(u);
        let flat = |q: Vec3| ((q - p).dot(u), (q - p).dot(v));
        let mut inside = false;
        for i in 0..self.corners.len() {
            let (a, b) = (flat(self.corners[i]), flat(self.corners[(i + 1) % self.corners.len()]));
            if (a.1 > 0.0) != (b.1 > 0.0) && a.0 + (0.0 - a.1) / (b.1 - a.1) * (b.0 - a.0) > 0.0 {
                inside = !inside;
            }
        }
        inside
    }

    /// Whether a point's foot lies inside the outline or no further than this from its edge.
    pub fn reaches(&self, p: Vec3, beyond: f64) -> bool {
        let n = self.corners.len();
        let foot = self.onto(p);
        let edge = |i: usize| crate::space::nearest_on((self.corners[i], self.corners[(i + 1) % n]), foot).1;
        (0..n).any(|i| edge(i) <= beyond) || self.covers(p)
    }

    /// How far a point's foot lies outside of the outline, m; 0 inside.
    pub fn beyond(&self, p: Vec3) -> f64 {
        if self.covers(p) {
            return 0.0;
        }
        let n = self.corners.len();
        let edge =
            |i: usize| crate::space::nearest_on((self.corners[i], self.corners[(i + 1) % n]), self.onto(p)).1;
        (0..n).map(edge).fold(f64::INFINITY, f64::min)
    }

    /// Area of a side, m².
    pub fn area(&self) -> f64 {
        let first = self.corners[0];
        let twice = self.corners.windows(2).fold(Vec3::ZERO, |s, w| s + (w[0] - first).cross(w[1] - first));
        twice.norm() / 2.0
    }

    /// Its smaller extent: its area over its longest diagonal.
    pub fn narrow(&self) -> f64 {
        let far = |a: &Vec3| self.corners.iter().map(|b| (*b - *a).norm()).fold(0.0, f64::max);
        self.area() / self.corners.iter().map(far).fold(1e-6, f64::max)
    }
}

/// Ties panels to the bars they are fastened to.
pub(crate) fn panels(design: &Design, settled: &Settled, all: &mut Structure) {
    for (index, panel) in design.panels.iter().enumerate() {
        let Some(plate) = Plate::of(design, panel, settled) else { continue };
        let mut held: Vec<Hole> = Vec::new();
        for (f, fastening) in design.fastenings.iter().enumerate() {
            let other = if fastening.what == panel.name {
                &fastening.to
            } else if fastening.to == panel.name {
                &fastening.what
            } else {
                continue;
            };
            let count = crate::ties::fixing(design, &fastening.fasteners);
            let Some(bar) = all.bar_named(other).filter(|_| count > 0) else {
                all.beside.push(Beside::Sheets(panel.name.clone(), other.clone()));
                continue;
            };
            let bar_thick = crate::ties::thick(&all.bars[bar], plate.normal);
            let near = crate::ties::reach(design, &fastening.fasteners, (plate.thickness, bar_thick));
            match places(&plate, &all.bars[bar], count, near) {
                Ok(places) => {
                    let slip =
                        crate::slip::of(design, &fastening.fasteners, (panel.stock, all.bars[bar].stock));
                    let turns = places.len() > 1;
                    let slip = slip.times(1.0 / f64::from(u32::try_from(places.len()).unwrap_or(1).max(1)));
                    held.extend(places.into_iter().map(|at| Hole {
                        of: f,
                        port: Port { bar, at },
                        slip,
                        turns,
                    }));
                }
                Err(gap) => all.loose.push(Loose::Apart { fastening: f, gap }),
            }
        }
        let shear = crate::slip::sheet(design, panel.stock, plate.thickness, plate.area());
        arms((index, panel), &plate, &held, shear, all);
        all.outlines.push((index, plate.corners));
    }
}

/// Where a bar is fastened to a plate across a gap of at most `near`, m; else how far it is from it.
fn places(plate: &Plate, bar: &Bar, count: u32, near: f64) -> Result<Vec<f64>, f64> {
    let length = bar.length();
    let gap = |at: f64| {
        let p = bar.at(at);
        plate.height(p).abs() - bar.half_along(plate.normal) - plate.thickness / 2.0
    };
    // past the outline a bar is still held while its own face reaches the edge
    let (level, upright) = bar.form.half();
    let beside = |at: f64| plate.beyond(bar.at(at)) < level.max(upright) + near;
    if bar.way().dot(plate.normal).abs() > 0.7 {
        // it ends at the plate or goes through it
        let end = if plate.height(bar.ends.0).abs() < plate.height(bar.ends.1).abs() { 0.0 } else { length };
        let through = plate.height(bar.ends.0) * plate.height(bar.ends.1) < 0.0;
        let at = if through {
            let (a, b) = (plate.height(bar.ends.0).abs(), plate.height(bar.ends.1).abs());
            length * a / (a + b)
        } else {
            end
        };
        let away = plate.height(bar.at(at)).abs() - plate.thickness / 2.0;
        let away = if through { 0.0 } else { away };
        return if away < near && beside(at) { Ok(vec![at]) } else { Err(away.max(plate.beyond(bar.at(at)))) };
    }
    const STEPS: u32 = 60;
    let steps = (0..=STEPS).map(|k| length * f64::from(k) / f64::from(STEPS));
    let inside: Vec<f64> = steps.filter(|s| plate.reaches(bar.at(*s), 0.002) && gap(*s) < near).collect();
    let (Some(low), Some(high)) = (inside.first(), inside.last()) else {
        let mid = length / 2.0;
        let touching = [0.0, mid, length].into_iter().min_by(|a, b| gap(*a).total_cmp(&gap(*b))).unwrap_or(mid);
        // a bar that lies on the very edge of the outline
        let holds = gap(touching) < near && beside(touching);
        return if holds { Ok(vec![touching]) } else { Err(gap(touching).max(plate.beyond(bar.at(touching)))) };
    };
    let shares: &[f64] = match count {
        1 => &[0.5],
        2 | 3 => &[0.15, 0.85],
        _ => &[0.1, 0.5, 0.9],
    };
    Ok(shares.iter().map(|s| low + (high - low) * s).collect())
}

/// A place where a panel is held.
struct Hole {
    /// The fastening, counted among the design's.
    of: usize,
    port: Port,
    slip: Slip,
    /// Whether the bar may turn there on the panel's face.
    turns: bool,
}

fn arms((index, panel): (usize, &Panel), plate: &Plate, held: &[Hole], shear: f64, all: &mut Structure) {
    match held.len() {
        0 => return all.loose.push(Loose::Panel(index)),
        1 => return all.open.push(Open::OneHold(index)),
        _ => {}
    }
    let feet: Vec<Vec3> = held.iter().map(|h| plate.onto(all.bars[h.port.bar].at(h.port.at))).collect();
    #[allow(clippy::cast_precision_loss)]
    let n = feet.len() as f64;
    let hub = feet.iter().fold(Vec3::ZERO, |s, f| s + *f) * (1.0 / n);
    let places: Vec<Held> = feet.iter().zip(held).map(|(foot, h)| (*foot, h.slip)).collect();
    let edge = (plate.corners[1] - plate.corners[0]).unit().unwrap_or_else(|| plate.normal.any_across());
    let left = crate::slip::share(&places, (edge, plate.normal.cross(edge)), shear);
    let mut middle = Vec::new();
    for (hole, foot) in held.iter().zip(&feet) {
        let reach = (*foot - hub).norm();
        let spot = if reach < 0.005 {
            None
        } else {
            // the sheet works over a fan of 30 degrees from where it is held, at most half its breadth
            let width = (0.03 + 2.0 * reach * 0.577).min(plate.narrow() / 2.0).max(0.02);
            let way = (*foot - hub) * (1.0 / reach);
            all.bars.push(Bar {
                name: panel.name.clone(),
                of: Of::Panel(index),
                ends: (hub, *foot),
                up: plate.normal.cross(way),
                stock: panel.stock,
                form: Form::Flat { level: plate.thickness, upright: width },
                stretches: vec![Stretch { from: 0.0, to: reach, grip: [0.0; 2] }],
                sheaths: Vec::new(),
                holes: Vec::new(),
            });
            let bar = all.bars.len() - 1;
            middle.push(Spot::Port(Port { bar, at: 0.0 }));
            Some(Spot::Port(Port { bar, at: reach }))
        };
        let spot = spot.unwrap_or_else(|| {
            let point = Spot::Point(all.point(hub));
            middle.push(point);
            point
        });
        let spots = vec![spot, Spot::Port(hole.port)];
        let hold = Hold::Slips { normal: plate.normal, slip: hole.slip.times(left), turns: hole.turns };
        all.ties.push(Tie { of: TieOf::Fastening(hole.of), spots, hold });
    }
    all.ties.push(Tie { of: TieOf::Sheet, spots: middle, hold: Hold::Rigid });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hand::{bar, matter};
    use crate::matter::Matter;
    use crate::model::{Built, Setup};
    use chairwright_design::{JointId, Origin, StockId};
    use chairwright_statics::{LoadCase, Solver};

    const SIDE: f64 = 0.4;
    const THICK: f64 = 0.018;

    /// Four stiff bars with hinges at their corners, and a panel on them at 0.1, 0.5 and 0.9 of each side. How far 1 kN at
    /// one end of the top side moves it along itself, m.
    fn racked(slip: Slip, shear: f64, setup: &Setup) -> f64 {
        let at = |x: f64, y: f64| Vec3::new(x * SIDE, y * SIDE, 0.0);
        let corners = vec![at(0.0, 0.0), at(1.0, 0.0), at(1.0, 1.0), at(0.0, 1.0)];
        let form = Form::Flat { level: 0.05, upright: 0.05 };
        let side = |k: usize| bar(corners[k], corners[(k + 1) % 4], Vec3::Z, form);
        let mut all = Structure { bars: (0..4).map(side).collect(), ..Structure::default() };
        let spot = |bar: usize, at: f64| Spot::Port(Port { bar, at });
        for k in 0..4 {
            let spots = vec![spot(k, SIDE), spot((k + 1) % 4, 0.0)];
            all.ties.push(Tie { of: TieOf::Joint(JointId::new(k)), spots, hold: Hold::Hinge(Vec3::Z) });
        }
        let plate = Plate { corners: corners.clone(), normal: Vec3::Z, thickness: THICK };
        let panel = Panel {
            name: "p".into(),
            side: None,
            stock: StockId::new(0),
            corners,
            toward: Vec3::Z,
            origin: Origin(0),
        };
        let hole =
            |bar: usize, share: f64| Hole { of: bar, port: Port { bar, at: share * SIDE }, slip, turns: true };
        let held: Vec<Hole> = (0..4).flat_map(|k| [0.1, 0.5, 0.9].map(|s| hole(k, s))).collect();
        arms((0, &panel), &plate, &held, shear, &mut all);
        let stiff = |b: &Bar| {
            let m = matter(&b.form);
            Matter { e: m.e.map(|e| e * 1e3), ..m }
        };
        let matters: Vec<Matter> = all.bars.iter().map(stiff).collect();
        let mut built = Built::new(&all, &matters, &[], setup);
        for end in [0.0, SIDE] {
            let node = built.node(spot(0, end)).0;
            built.model.nodes[node].fixed = [true; 6];
        }
        let top = built.node(spot(2, 0.0));
        let solver = Solver::new(&built.model).unwrap();
        let push = LoadCase::new().push(top, [1000.0, 0.0, 0.0, 0.0, 0.0, 0.0]);
        solver.solve(&[push]).unwrap()[0].node(top)[0]
    }

    /// Twelve places of 1 kN/mm: six at 200 mm from the middle one way, four at 160 mm, two in it: Σk x² = 1e6 · (6 · 0.2² +
    /// 4 · 0.16²) = 342.4 kN m, and the same the other way: 171.2 kN m together. 1 kN at 0.4 m: δ = 1 000 · 0.4²/171 200 =
    /// 0.935 mm. A sheet of G t A = 171.2 kN m in series doubles that. The bars and the arms give way by a little beside.
    #[test]
    fn a_racked_panel_by_hand() {
        let slip = Slip { usual: 1e6, least: 0.5e6 };
        let near = |got: f64, want: f64| assert!((got / want - 1.0).abs() < 0.02, "{got} {want}");
        let by_hand = 1000.0 * SIDE * SIDE / 171.2e3;
        near(racked(slip, 1e12, &Setup::default()), by_hand);
        near(racked(slip, 171.2e3, &Setup::default()), 2.0 * by_hand);
        // what is sure of the fasteners is half, and where nothing is the four bars are a mechanism but for what keeps a
        // sheet in its place
        let least = Setup { soft: Some(5.0), ..Setup::default() };
        assert!(racked(slip, 1e12, &least) > 1.98 * by_hand);
        assert!(racked(Slip { usual: 1e6, least: 0.0 }, 1e12, &least) > 100.0 * by_hand);
    }
}
