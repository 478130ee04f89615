//! Panels that are fastened to bars: each is an arm of sheet from its middle to every place where it
//! is held.
//!
//! This is a rough model of a plate in its plane: good enough to bring forces from one bar to
//! another, not to call a panel sound. Stresses in the arms are judged with that in mind.

use crate::bar::{Bar, Of, Stretch};
use crate::form::Form;
use crate::remark::{Beside, Open};
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

    /// Its smaller extent: its area over its longest diagonal.
    pub fn narrow(&self) -> f64 {
        let first = self.corners[0];
        let twice = self.corners.windows(2).fold(Vec3::ZERO, |s, w| s + (w[0] - first).cross(w[1] - first));
        let far = |a: &Vec3| self.corners.iter().map(|b| (*b - *a).norm()).fold(0.0, f64::max);
        twice.norm() / 2.0 / self.corners.iter().map(far).fold(1e-6, f64::max)
    }
}

/// Ties panels to the bars they are fastened to.
pub(crate) fn panels(design: &Design, settled: &Settled, all: &mut Structure) {
    for (index, panel) in design.panels.iter().enumerate() {
        let Some(plate) = Plate::of(design, panel, settled) else { continue };
        let mut held: Vec<(usize, Port)> = Vec::new();
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
                Ok(places) => held.extend(places.into_iter().map(|at| (f, Port { bar, at }))),
                Err(gap) => all.loose.push(Loose::Apart { fastening: f, gap }),
            }
        }
        arms(index, panel, &plate, &held, all);
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

fn arms(index: usize, panel: &Panel, plate: &Plate, held: &[(usize, Port)], all: &mut Structure) {
    match held.len() {
        0 => return all.loose.push(Loose::Panel(index)),
        1 => return all.open.push(Open::OneHold(index)),
        _ => {}
    }
    let feet: Vec<Vec3> = held.iter().map(|(_, p)| plate.onto(all.bars[p.bar].at(p.at))).collect();
    #[allow(clippy::cast_precision_loss)]
    let n = feet.len() as f64;
    let hub = feet.iter().fold(Vec3::ZERO, |s, f| s + *f) * (1.0 / n);
    let mut middle = Vec::new();
    for ((f, port), foot) in held.iter().zip(&feet) {
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
        let spots = vec![spot, Spot::Port(*port)];
        all.ties.push(Tie { of: TieOf::Fastening(*f), spots, hold: Hold::Fastened });
    }
    all.ties.push(Tie { of: TieOf::Sheet, spots: middle, hold: Hold::Rigid });
}
