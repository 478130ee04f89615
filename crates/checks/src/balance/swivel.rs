//! The ground contacts of the casters at every swivel, and the swivel in which the chair tips soonest.
//!
//! Every pair of swivels is tried in steps of 15 degrees, and the least and the greatest distance are then
//! looked for around the best of them in steps down to a quarter of a degree. The change of pose while a leaning stem
//! swivels is left out: it is the rise that `stem-leans` reports.

use super::edge::{Point, exit_distance};
use chairwright_design::{Caster, Design, Vec3};
use chairwright_frame::{Settled, caster_centre, lowest};
use std::f64::consts::{FRAC_PI_2, TAU};

/// Coarse steps of a full turn.
const STEPS: usize = 24;
/// Least step of the search in radians.
const FINE: f64 = TAU / 1440.0;

/// The contacts of one chair.
pub(super) struct Contacts<'d> {
    fixed: Vec<Point>,
    casters: &'d [Caster],
    settled: &'d Settled,
    sweep: Vec<[Point; STEPS]>,
}

/// Least and greatest distance over all swivels.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Span {
    pub(super) least: f64,
    pub(super) most: f64,
}

impl<'d> Contacts<'d> {
    pub(super) fn new(design: &'d Design, settled: &'d Settled) -> Contacts<'d> {
        let fixed = settled.contacts.iter().filter(|c| !c.caster).map(|c| (c.at.x, c.at.y)).collect();
        #[allow(clippy::cast_precision_loss)]
        let angle = |k: usize| k as f64 * TAU / STEPS as f64;
        let sweep = design
            .casters
            .iter()
            .map(|c| std::array::from_fn(|k| caster_contact(c, settled, angle(k))))
            .collect();
        Contacts { fixed, casters: &design.casters, settled, sweep }
    }

    /// How far the foot point can move in a direction, casters in their worst and in their best swivel. With more than two
    /// casters they all swivel together.
    pub(super) fn span(&self, point: Point, direction: Point) -> Span {
        let mut low = (f64::INFINITY, Vec::new());
        let mut high = (f64::NEG_INFINITY, Vec::new());
        self.coarse(&mut |steps, contacts| {
            let t = exit(point, direction, contacts);
            if t < low.0 {
                low = (t, steps.to_vec());
            }
            if t > high.0 {
                high = (t, steps.to_vec());
            }
        });
        if self.casters.is_empty() {
            let t = exit(point, direction, &self.fixed);
            return Span { least: t, most: t };
        }
        Span { least: self.refine(low, 1.0, point, direction), most: self.refine(high, -1.0, point, direction) }
    }

    /// Calls back with the contacts of every coarse combination.
    fn coarse(&self, visit: &mut dyn FnMut(&[usize], &[Point])) {
        let mut contacts = self.fixed.clone();
        let start = contacts.len();
        contacts.extend(self.sweep.iter().map(|s| s[0]));
        match self.sweep.as_slice() {
            [] => {}
            [a, b] => {
                for (i, p) in a.iter().enumerate() {
                    for (j, q) in b.iter().enumerate() {
                        contacts[start] = *p;
                        contacts[start + 1] = *q;
                        visit(&[i, j], &contacts);
                    }
                }
            }
            many => {
                for k in 0..STEPS {
                    for (i, s) in many.iter().enumerate() {
                        contacts[start + i] = s[k];
                    }
                    visit(&vec![k; many.len()], &contacts);
                }
            }
        }
    }

    /// Goes on from a coarse combination as long as it gets better (`sign` 1: shorter).
    fn refine(&self, (mut best, steps): (f64, Vec<usize>), sign: f64, point: Point, direction: Point) -> f64 {
        #[allow(clippy::cast_precision_loss)]
        let mut angles: Vec<f64> = steps.iter().map(|k| *k as f64 * TAU / STEPS as f64).collect();
        let mut contacts = self.fixed.clone();
        let start = contacts.len();
        contacts.extend(steps.iter().zip(&self.sweep).map(|(k, s)| s[*k]));
        let mut step = TAU / STEPS as f64;
        while step >= FINE {
            let mut better = false;
            for i in 0..angles.len() {
                for by in [step, -step] {
                    let was = contacts[start + i];
                    contacts[start + i] = caster_contact(&self.casters[i], self.settled, angles[i] + by);
                    let t = exit(point, direction, &contacts);
                    if (best - t) * sign > 1e-12 {
                        best = t;
                        angles[i] += by;
                        better = true;
                    } else {
                        contacts[start + i] = was;
                    }
                }
            }
            if !better {
                step /= 2.0;
            }
        }
        best
    }

    /// The least distance in each of many directions: every second step of each caster, then the search from the best.
    pub(super) fn least(&self, point: Point, directions: &[Point]) -> Vec<f64> {
        if self.casters.is_empty() {
            return directions.iter().map(|d| exit(point, *d, &self.fixed)).collect();
        }
        let mut best: Vec<(f64, Vec<usize>)> = vec![(f64::INFINITY, Vec::new()); directions.len()];
        self.coarse(&mut |steps, contacts| {
            if steps.iter().any(|k| k % 2 == 1) {
                return;
            }
            for (slot, d) in best.iter_mut().zip(directions) {
                let t = exit(point, *d, contacts);
                if t < slot.0 {
                    *slot = (t, steps.to_vec());
                }
            }
        });
        best.into_iter().zip(directions).map(|(start, d)| self.refine(start, 1.0, point, *d)).collect()
    }
}

fn exit(point: Point, direction: Point, contacts: &[Point]) -> f64 {
    exit_distance(point, direction, contacts).map_or(0.0, |e| e.distance)
}

/// Contact of a caster's wheel on the settled ground at a swivel.
fn caster_contact(caster: &Caster, settled: &Settled, swivel: f64) -> Point {
    let centre = settled.pose.place(caster_centre(caster, swivel));
    let ahead = settled.pose.place(caster_centre(caster, swivel + FRAC_PI_2));
    let pivot = settled.pose.place(caster.at - caster.stem * caster.drop);
    let axle = (ahead - pivot).unit().unwrap_or(Vec3::Y);
    let p = lowest(centre, axle, caster.radius, (caster.width / 2.0).min(caster.radius * 0.9), Vec3::Z);
    (p.x, p.y)
}
