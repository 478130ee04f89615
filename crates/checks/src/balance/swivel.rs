//! The casters at every swivel, and the swivel in which the chair tips soonest.
//!
//! At each swivel the chair is set on the ground anew: a leaning stem lifts or lowers its corner as it swivels, so that
//! pitch, roll, the height of the centre of mass and its foot move with it. A chair that rocks on four wheels goes over
//! the outermost edges of what it can stand on, each from the three wheels that it stands on then: the lower hull of the
//! contacts ([`super::rim`]).
//!
//! Every pair of swivels is tried in steps of 30 degrees (of more casters, each on its own in steps that leave at most about a
//! thousand combinations), and the least and the greatest slope are then looked for
//! around the best of them in steps down to a little below two degrees: on a trail of 50 mm that is within 0.007 mm of
//! where the contact is worst. What is found is then worked out once more without leaving out that wheels roll on
//! as the chair turns. A caster's mass goes with its wheel, and the centre of mass of all with it by its share.

use super::edge::Point;
use super::known::Known;
use super::rim::{Edge, Roll, Spin, again, rim};
use crate::weigh::Mass;
use chairwright_design::{Design, Vec3};
use chairwright_frame::Settled;
use rayon::prelude::*;
use std::f64::consts::TAU;
use std::sync::OnceLock;

/// Coarse steps of a full turn.
const STEPS: usize = 12;
/// Least step of the search in radians.
const FINE: f64 = TAU / 200.0;
/// So many combinations of coarse steps at most.
const COMBINATIONS: usize = 1024;
/// Casters that swivel on their own from the start; any beyond them begin turned with these.
const OWN: usize = 10;
/// Steps of a full turn in which the lowest swivel of one caster is looked for.
const AROUND: u32 = 72;

/// Where the centre of mass stands at some swivel: how far from the edge in the direction of the slope, and how high, in
/// metres.
pub(super) type Stand = (f64, f64);

/// The contacts of one chair.
pub(super) struct Contacts {
    fixed: Vec<Roll>,
    casters: Vec<Spin>,
    /// Masses of the casters, kg.
    masses: Vec<f64>,
    coarse: Vec<Swivels>,
    /// Lengths of the steps of a search, in radians: each half of the one before.
    lengths: Vec<f64>,
    /// The most that the nose rises as casters swivel, in radians.
    pub(super) nose: f64,
}

/// One combination of swivels with the edges that the chair can go over.
struct Swivels {
    angles: Vec<f64>,
    edges: Vec<Edge>,
    /// What the casters' masses moved from where they trail, kg m.
    moves: Vec3,
    /// The same with the ground that the wheels really stand on, once a search ended here.
    anew: OnceLock<Vec<Edge>>,
    /// Every combination one step away that a search came to: by step, caster and sense. Searches in directions near each other
    /// go the same ways, and each works out what it needs for all.
    beside: OnceLock<Vec<OnceLock<Box<Swivels>>>>,
}

/// Which wheels turn: an edge between two contacts of wheels that do is as good as their axle.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub(super) struct Turning {
    /// How many contacts are of fixed wheels.
    fixed: usize,
    /// Radii of rear wheels and casters, in metres; nothing for what is locked.
    rear: f64,
    caster: f64,
}

impl Turning {
    /// How high a point counts above an edge.
    fn height(&self, edge: &Edge, point: Vec3) -> f64 {
        let of = edge.between().map(|i| i < self.fixed);
        let axle = match of {
            [true, true] => self.rear,
            [false, false] => self.caster,
            _ => 0.0,
        };
        edge.height(point) - axle
    }
}

/// Least and greatest slope over all swivels.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Span {
    pub(super) least: Stand,
    pub(super) most: Stand,
}

impl Contacts {
    pub(super) fn new(design: &Design, settled: &Settled) -> Contacts {
        let fixed: Vec<Roll> = design.wheels.iter().map(|w| Roll::fixed(w, settled)).collect();
        let casters: Vec<Spin> = design.casters.iter().map(|c| Spin::new(c, settled)).collect();
        Contacts::of(fixed, casters, design.casters.iter().map(|c| c.part.mass).collect())
    }

    fn of(fixed: Vec<Roll>, casters: Vec<Spin>, masses: Vec<f64>) -> Contacts {
        let mut out = Contacts { fixed, casters, masses, coarse: Vec::new(), lengths: Vec::new(), nose: 0.0 };
        out.coarse = out.combinations().into_iter().map(|angles| out.swivels(angles)).collect();
        #[allow(clippy::cast_precision_loss)]
        let first = TAU / out.steps() as f64 / 2.0;
        out.lengths =
            std::iter::successors(Some(first), |s| Some(s / 2.0)).take_while(|s| *s >= FINE).collect();
        out.nose = out.nose_up();
        out
    }

    /// Coarse steps of a full turn: fewer where more casters swivel.
    fn steps(&self) -> usize {
        let own = u32::try_from(self.casters.len().min(OWN)).unwrap_or(1);
        (2..=STEPS).rev().find(|s| s.pow(own) <= COMBINATIONS).unwrap_or(2)
    }

    /// What a search can take off the slope that it begins with, as a share: half a coarse step on a trail of half the way
    /// to the edge takes half of that; 0.05 for steps of 30 degrees.
    fn gain(&self) -> f64 {
        #[allow(clippy::cast_precision_loss)]
        let half = TAU / self.steps() as f64 / 2.0;
        1.5 * (1.0 - libm::cos(half))
    }

    /// Every combination of coarse steps, each caster on its own.
    fn combinations(&self) -> Vec<Vec<f64>> {
        let (steps, n) = (self.steps(), self.casters.len());
        #[allow(clippy::cast_precision_loss)]
        let angle = |k: usize| k as f64 * TAU / steps as f64;
        let own = |k: usize, i: usize| (0..i % OWN).fold(k, |k, _| k / steps) % steps;
        let all = (0..n.min(OWN)).fold(1, |all, _| all * steps);
        (0..all).map(|k| (0..n).map(|i| angle(own(k, i))).collect()).collect()
    }

    /// Rear wheels and casters that turn freely.
    pub(super) fn free(&self) -> Turning {
        let least = |radii: &mut dyn Iterator<Item = f64>| radii.fold(f64::INFINITY, f64::min);
        let rear = least(&mut self.fixed.iter().map(|w| w.radius));
        let caster = least(&mut self.casters.iter().map(|c| c.radius));
        let some = |r: f64| if r.is_finite() { r } else { 0.0 };
        Turning { fixed: self.fixed.len(), rear: some(rear), caster: some(caster) }
    }

    /// What the chair can go over, at every coarse combination.
    pub(super) fn edges(&self) -> impl Iterator<Item = &Edge> {
        self.coarse.iter().flat_map(|c| &c.edges)
    }

    /// The direction in which the chair goes over soonest, of those that are asked for: straight across one of its edges. Where
    /// its foot is outside already, the edge that it is furthest beyond.
    pub(super) fn toward(&self, load: Mass, asked: impl Fn(Point) -> bool) -> Option<Point> {
        let slope = |e: &Edge, com: Vec3| e.room(com) / e.height(com).max(1e-9);
        let across = |e: &Edge| (e.toward((1.0, 0.0)), e.toward((0.0, 1.0)));
        let each = self.coarse.iter().flat_map(|c| {
            let com = c.com(load);
            c.edges.iter().map(move |e| (slope(e, com), across(e)))
        });
        let all = each.filter(|(_, way)| asked(*way));
        all.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, way)| way)
    }

    /// Whether a foot is within all edges that the chair can go over, at every coarse combination: on the level it stands.
    pub(super) fn stands(&self, load: Mass) -> bool {
        self.coarse.iter().all(|c| {
            let com = c.com(load);
            c.edges.iter().all(|e| e.room(com) > 0.0)
        })
    }

    fn lows(&self, angles: &[f64]) -> Vec<Vec3> {
        let casters = self.casters.iter().zip(angles).map(|(c, a)| c.at(*a).low(Vec3::Z));
        self.fixed.iter().map(|w| w.low(Vec3::Z)).chain(casters).collect()
    }

    fn swivels(&self, angles: Vec<f64>) -> Swivels {
        let lows = self.lows(&angles);
        let mut edges = Vec::with_capacity(2 * lows.len());
        rim(&lows, &mut edges);
        let moved = |((c, m), a): ((&Spin, &f64), &f64)| (c.at(*a).centre - c.at(0.0).centre) * *m;
        let each = self.casters.iter().zip(&self.masses).zip(&angles).map(moved);
        let moves = each.fold(Vec3::ZERO, |sum, by| sum + by);
        Swivels { angles, edges, moves, anew: OnceLock::new(), beside: OnceLock::new() }
    }

    /// One caster turned by one step (`by` 1 or -1) of those of a length.
    fn beside<'s>(&self, from: &'s Swivels, length: usize, caster: usize, by: i32) -> &'s Swivels {
        let count = self.casters.len();
        let new = || (0..2 * count * self.lengths.len()).map(|_| OnceLock::new()).collect();
        let slot = 2 * (length * count + caster) + usize::from(by < 0);
        from.beside.get_or_init(new)[slot].get_or_init(|| {
            let mut angles = from.angles.clone();
            angles[caster] += f64::from(by) * self.lengths[length];
            Box::new(self.swivels(angles))
        })
    }

    /// The most that the nose rises: with each caster where it stands lowest, or at a coarse step.
    fn nose_up(&self) -> f64 {
        let lowest = |c: &Spin| {
            let angles = (0..AROUND).map(|k| f64::from(k) * TAU / f64::from(AROUND));
            let low = |a: f64| c.at(a).low(Vec3::Z).z;
            angles.map(|a| (low(a), a)).min_by(|p, q| p.0.total_cmp(&q.0)).map_or(0.0, |p| p.1)
        };
        let own = self.swivels(self.casters.iter().map(lowest).collect());
        let nose = |e: &Edge| libm::asin(e.up.x.clamp(-1.0, 1.0));
        let most = |c: &&Swivels| c.edges.iter().map(nose).fold(0.0, f64::max);
        let best = self.coarse.iter().max_by(|p, q| most(p).total_cmp(&most(q)));
        let exact = best.into_iter().chain([&own]).flat_map(|c| self.anew(c));
        exact.map(|e| nose(&e)).fold(0.0, f64::max)
    }

    /// A vector from the rear axle in the swivel that lifts the nose most.
    pub(super) fn nosed(&self, v: Vec3) -> Vec3 {
        let (s, c) = libm::sincos(self.nose);
        Vec3::new(v.x * c - v.z * s, v.y, v.x * s + v.z * c)
    }

    /// How far the foot point can move in a direction and how high the centre of mass is then, casters in their worst and
    /// in their best swivel.
    pub(super) fn span(&self, load: Mass, direction: Point) -> Span {
        let [low, high] = self.ends(load, direction);
        let best = |start, sign| self.refine(start, sign, load, direction, Turning::default());
        Span { least: best(low, 1.0), most: best(high, -1.0) }
    }

    /// The same with casters in their worst swivel alone.
    pub(super) fn worst(&self, load: Mass, direction: Point) -> Stand {
        let [low, _] = self.ends(load, direction);
        self.refine(low, 1.0, load, direction, Turning::default())
    }

    /// Least and greatest slope over the coarse combinations, each with its place.
    fn ends(&self, load: Mass, direction: Point) -> [(f64, usize); 2] {
        let (mut low, mut high) = ((f64::INFINITY, 0), (f64::NEG_INFINITY, 0));
        for (i, c) in self.coarse.iter().enumerate() {
            let slope = c.slope(load, direction, Turning::default());
            if slope < low.0 {
                low = (slope, i);
            }
            if slope > high.0 {
                high = (slope, i);
            }
        }
        [low, high]
    }

    /// Goes on from a coarse combination as long as it gets better (`sign` 1: less slope).
    fn refine(
        &self,
        (mut best, at): (f64, usize),
        sign: f64,
        load: Mass,
        direction: Point,
        turning: Turning,
    ) -> Stand {
        let (Some(trailing), Some(start)) = (self.coarse.first(), self.coarse.get(at)) else {
            return (0.0, load.centre.z);
        };
        let mut here = start;
        // of more casters than these the combination beside it is none of the coarse ones
        let own = if self.casters.len() <= OWN { self.casters.len() } else { 0 };
        let mut known = Known::beside(own);
        for length in 0..self.lengths.len() {
            let mut better = true;
            while better {
                better = false;
                for (caster, by) in (0..self.casters.len()).flat_map(|i| [(i, 1), (i, -1)]) {
                    if known.tries(caster, by) {
                        continue;
                    }
                    let there = self.beside(here, length, caster, by);
                    let slope = there.slope(load, direction, turning);
                    if (best - slope) * sign > 1e-12 {
                        (best, better, here) = (slope, true, there);
                        known.goes(caster, by);
                    }
                }
            }
            known.halve();
        }
        // where pose and mass pull against each other a search on ground left as it was may end a hair beside where it began
        let exact = [here, start, trailing]
            .map(|s| slope(s.anew.get_or_init(|| self.anew(s)), s.com(load), direction, turning));
        exact.into_iter().reduce(|a, b| if (a.0 - b.0) * sign > 0.0 { b } else { a }).unwrap_or_default().1
    }

    /// The edges once more, with the ground that the three wheels of each really stand on.
    fn anew(&self, swivels: &Swivels) -> Vec<Edge> {
        let casters = self.casters.iter().zip(&swivels.angles).map(|(c, a)| c.at(*a));
        let rolls: Vec<Roll> = self.fixed.iter().copied().chain(casters).collect();
        swivels.edges.iter().map(|e| again(&rolls, e)).collect()
    }

    /// The stand with the least slope in each of many directions, of several centres of mass.
    pub(super) fn least(&self, loads: &[Mass], directions: &[Point], turning: Turning) -> Vec<Stand> {
        let pulls: Vec<Pulls> = loads.iter().map(|load| Pulls::new(&self.coarse, *load, turning)).collect();
        let gain = self.gain();
        let least = |d: &Point| {
            let starts: Vec<(f64, usize)> = pulls.iter().map(|p| p.least(&self.coarse, *d)).collect();
            let first = starts.iter().map(|s| s.0).fold(f64::INFINITY, f64::min);
            // a search never takes off more than that from where it begins
            let worth = starts.iter().zip(loads).filter(|(s, _)| s.0 <= first * (1.0 + gain) + 1e-9);
            let stands = worth.map(|(s, load)| self.refine(*s, 1.0, *load, *d, turning));
            stands.min_by(|a, b| (a.0 / a.1.max(1e-9)).total_cmp(&(b.0 / b.1.max(1e-9)))).unwrap_or((0.0, 1.0))
        };
        directions.par_iter().map(least).collect()
    }
}

/// The coarse combinations for one centre of mass. Inside the outline the slope that goes over an edge is
/// 1 / (w·d), with d the way down and w the edge's outward normal times height over room: the least slope is where w·d is
/// greatest.
struct Pulls {
    load: Mass,
    turning: Turning,
    /// Every edge with its combination.
    inside: Vec<(Point, usize)>,
    /// Combinations that the centre of mass is outside of.
    outside: Vec<usize>,
}

impl Pulls {
    fn new(coarse: &[Swivels], load: Mass, turning: Turning) -> Pulls {
        let edges = coarse.iter().map(|c| c.edges.len()).sum();
        let mut out = Pulls { load, turning, inside: Vec::with_capacity(edges), outside: Vec::new() };
        for (i, c) in coarse.iter().enumerate() {
            let from = out.inside.len();
            let (mut beside, com) = (c.edges.is_empty(), c.com(load));
            for e in &c.edges {
                let (room, height) = (e.room(com), turning.height(e, com));
                beside |= room < 1e-6 || height < 1e-6;
                let pull = height / room;
                out.inside.push(((e.toward((1.0, 0.0)) * pull, e.toward((0.0, 1.0)) * pull), i));
            }
            if beside {
                out.inside.truncate(from);
                out.outside.push(i);
            }
        }
        out
    }

    /// The least slope in a direction and its combination.
    fn least(&self, coarse: &[Swivels], (x, y): Point) -> (f64, usize) {
        let mut most = (0.0, 0);
        for ((wx, wy), i) in &self.inside {
            let pull = wx * x + wy * y;
            if pull > most.0 {
                most = (pull, *i);
            }
        }
        let inside = (if most.0 > 0.0 { 1.0 / most.0 } else { f64::INFINITY }, most.1);
        let outside = self.outside.iter().map(|i| (coarse[*i].slope(self.load, (x, y), self.turning), *i));
        outside.fold(inside, |a, b| if b.0 < a.0 { b } else { a })
    }
}

impl Swivels {
    fn slope(&self, load: Mass, direction: Point, turning: Turning) -> f64 {
        slope(&self.edges, self.com(load), direction, turning).0
    }

    /// The centre of mass of all as the casters stand here; `load` is weighed with casters that trail.
    fn com(&self, load: Mass) -> Vec3 {
        load.centre + self.moves * (1.0 / load.mass.max(1e-9))
    }
}

/// The tangent of the slope that takes the foot of the centre of mass over the first edge in a direction, and the stand
/// there. Nothing to stand on, or a foot beside everything there is to stand on, is no slope at all.
fn slope(edges: &[Edge], com: Vec3, direction: Point, turning: Turning) -> (f64, Stand) {
    let mut first = (f64::INFINITY, (0.0, com.z));
    let mut enters = f64::NEG_INFINITY;
    for edge in edges {
        let toward = edge.toward(direction);
        let (room, height) = (edge.room(com), turning.height(edge, com));
        if toward.abs() < 1e-12 {
            if room < 0.0 {
                return (0.0, (0.0, com.z));
            }
            continue;
        }
        let tangent = room / (toward * height.max(1e-9));
        if toward < 0.0 {
            enters = enters.max(tangent);
        } else if tangent < first.0 {
            first = (tangent, (room / toward, height));
        }
    }
    if !first.0.is_finite() || enters > first.0 { (0.0, (0.0, com.z)) } else { first }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spin(y: f64, lean: f64) -> Spin {
        // stem leaning forward at its top by `lean`: the pivot is drawn where the wheel's middle is 75 mm up when trailing
        let (s, c) = libm::sincos(lean);
        let (back, side) = (Vec3::new(-c, 0.0, s), -Vec3::Y);
        let pivot = Vec3::new(0.45, y, 0.075) - back * 0.05;
        Spin { pivot, back, side, trail: 0.05, radius: 0.075, section: 1e-6 }
    }

    fn chair(lean: f64) -> Contacts {
        let wheel = |y: f64| Roll { centre: Vec3::new(0.0, y, 0.3), axle: Vec3::Y, radius: 0.3, section: 1e-6 };
        let fixed = vec![wheel(0.28), wheel(-0.28)];
        Contacts::of(fixed, vec![spin(0.2, lean), spin(-0.2, lean)], vec![0.0; 2])
    }

    const COM: Mass = Mass { mass: 60.0, centre: Vec3 { x: 0.15, y: 0.0, z: 0.6 } };

    fn at(centre: Vec3) -> Mass {
        Mass { mass: 60.0, centre }
    }

    /// Upright stems: ahead the casters turned back, contacts where they trail: (0.45 - 0.15) / 0.6; the best swivel turns
    /// them ahead, 100 mm further.
    #[test]
    fn upright_stems_keep_the_pose() {
        let span = chair(0.0).span(COM, (1.0, 0.0));
        assert!((span.least.0 - 0.3).abs() < 1e-5 && (span.least.1 - 0.6).abs() < 1e-9, "{span:?}");
        assert!((span.most.0 - 0.4).abs() < 1e-5, "{span:?}");
        assert!(chair(0.0).nose.abs() < 1e-9);
    }

    /// With the wheels free the chair turns about the rear axle, 300 mm up: 0.15 / (0.6 - 0.3); ahead about those of the casters,
    /// 75 mm up: 0.3 / (0.6 - 0.075). To the side no wheel turns: the line from the rear contact at (0, 280) that just passes
    /// inside the caster's circle of 50 mm about (500, 200) falls by atan(80/500) + asin(50/506.36) = 9.090° + 5.667°; at 150 mm
    /// ahead it lies 280 - 150·0.26341 = 240.49 mm out: 0.24049 / 0.6.
    #[test]
    fn wheels_that_turn_tip_about_their_axles() {
        let chair = chair(0.0);
        let slope = |d: Point| {
            let (t, h) = chair.least(&[COM], &[d], chair.free())[0];
            t / h
        };
        assert!((slope((-1.0, 0.0)) - 0.5).abs() < 1e-5, "{}", slope((-1.0, 0.0)));
        assert!((slope((1.0, 0.0)) - 0.3 / 0.525).abs() < 1e-4, "{}", slope((1.0, 0.0)));
        assert!((slope((0.0, 1.0)) - 0.24049 / 0.6).abs() < 2e-4, "{}", slope((0.0, 1.0)));
    }

    /// A third caster abreast of the two, its wheel 1 mm further back and 0.1 mm higher or lower, changes nothing ahead by more than a
    /// thousandth: 300 mm at 600 mm of height.
    #[test]
    fn casters_abreast_do_not_tilt_the_ground() {
        for rise in [-1e-4, 1e-4] {
            let mut chair = chair(0.0);
            let mut middle = spin(0.1, 0.0);
            middle.pivot += Vec3::new(-1e-3, 0.0, rise);
            chair.casters.push(middle);
            let chair = Contacts::of(chair.fixed, chair.casters, vec![0.0; 3]);
            let (t, h) = chair.span(COM, (1.0, 0.0)).least;
            assert!((t / h - 0.5).abs() < 2e-3, "{rise}: {t} {h}");
        }
    }

    /// Three casters abreast, each on its own in ten steps: 1,000 combinations. With upright stems the nearest edge ahead is
    /// where all trail, 450 - 150 mm, and the furthest where all are turned ahead, 100 mm more: as with two of them.
    #[test]
    fn three_casters_swivel_each_on_its_own() {
        let mut chair = chair(0.0);
        chair.casters.push(spin(0.0, 0.0));
        let chair = Contacts::of(chair.fixed, chair.casters, vec![0.0; 3]);
        assert_eq!(chair.coarse.len(), 1000);
        let apart = |c: &&Swivels| {
            c.angles[0] != c.angles[1] && c.angles[1] != c.angles[2] && c.angles[0] != c.angles[2]
        };
        assert_eq!(chair.coarse.iter().filter(apart).count(), 10 * 9 * 8);
        let span = chair.span(COM, (1.0, 0.0));
        assert!((span.least.0 - 0.3).abs() < 1e-5 && (span.most.0 - 0.4).abs() < 1e-4, "{span:?}");
    }

    /// A stem that leans by b about the pitch axis and trails to the rear: turned ahead, the wheel's middle comes
    /// 2 x 50 mm x sin b lower and 2 x 50 mm x cos b further ahead. With 300 mm and 75 mm wheels the ground touches
    /// both circles: the line between the middles falls by atan((225 + drop) / run), and the ground by asin(225 / length)
    /// from that line, so that the nose rises by the difference, and the slope that tips it back is less by as much.
    #[test]
    fn a_leaning_stem_takes_its_rise_off_the_slope_to_the_rear() {
        for degrees in [1.0_f64, 2.0, 5.0] {
            let lean = degrees.to_radians();
            let chair = chair(lean);
            let (run, fall) = (0.45 + 0.1 * libm::cos(lean), 0.225 + 0.1 * libm::sin(lean));
            let nose = libm::atan2(fall, run) - libm::asin(0.225 / libm::hypot(run, fall));
            let (t, h) = chair.span(COM, (-1.0, 0.0)).least;
            // about the axle: 0.15 ahead and 0.3 above, turned nose up; the ground is 0.3 below it
            let (s, c) = libm::sincos(nose);
            let wanted = libm::atan2(0.15 * c - 0.3 * s, 0.15 * s + 0.3 * c + 0.3);
            assert!((libm::atan2(t, h) - wanted).abs() < 2e-5, "{degrees}: {} {wanted}", libm::atan2(t, h));
            assert!((chair.nose - nose).abs() < 2e-3 * nose + 0.03 * nose, "{} {nose}", chair.nose);
        }
    }

    /// Stems that lean 3 degrees and a weight 20 mm left of the middle, from `anew` in `tests/outside/room_oracle.py`, which
    /// sets the chair on each three wheels by Newton's method, every pair of swivels by degrees.
    #[test]
    fn a_leaning_stem_agrees_with_brute_force_on_every_side() {
        let chair = chair(3.0_f64.to_radians());
        let com = at(Vec3::new(0.15, 0.02, 0.6));
        let wanted =
            [((1.0, 0.0), 26.5651), ((0.0, 1.0), 19.6015), ((-1.0, 0.0), 13.7481), ((0.0, -1.0), 22.8867)];
        for (direction, degrees) in wanted {
            let (t, h) = chair.span(com, direction).least;
            let got = libm::atan2(t, h).to_degrees();
            assert!((got - degrees).abs() < 0.01, "{direction:?}: {got} against {degrees}");
            let (t, h) = chair.least(&[com], &[direction], Turning::default())[0];
            let got = libm::atan2(t, h).to_degrees();
            assert!((got - degrees).abs() < 0.01, "{direction:?}, of many: {got} against {degrees}");
        }
    }

    /// What other searches left behind changes no bit of what one finds, nor does looking again at where it has been.
    #[test]
    fn a_search_finds_the_same_whoever_went_before_it() {
        let used = chair(0.05);
        let com = at(Vec3::new(0.16, 0.013, 0.61));
        for (x, y) in super::super::directions() {
            let fresh = chair(0.05);
            let bits = |c: &Contacts| {
                let Span { least, most } = c.span(com, (x, y));
                [least.0, least.1, most.0, most.1].map(f64::to_bits)
            };
            assert_eq!(bits(&used), bits(&fresh), "{x} {y}");
        }
    }

    /// By hand: casters of 3 kg each under 24 kg, turned out to one side on a trail of 50 mm, move the middle of all by
    /// 2 x 3 x 0.05 / 24 = 12.5 mm that way, and the wheels to that side stand 50 mm further out; turned ahead it is
    /// 2 x 3 x 0.1 / 24 = 25 mm, with the contacts 100 mm further: (0.55 - 0.15 - 0.025) / 0.6.
    #[test]
    fn what_casters_weigh_goes_with_their_wheels() {
        let light = Mass { mass: 24.0, ..COM };
        let mut heavy = chair(0.0);
        heavy.masses = vec![3.0; 2];
        let heavy = Contacts::of(heavy.fixed, heavy.casters, heavy.masses);
        let span = heavy.span(light, (1.0, 0.0));
        assert!((span.least.0 - 0.3).abs() < 1e-5, "{span:?}");
        assert!((span.most.0 - 0.375).abs() < 1e-5, "{span:?}");
        let out = |c: &Contacts| c.worst(light, (0.0, 1.0)).0;
        let by = out(&chair(0.0)) - out(&heavy);
        assert!((0.0..0.0125 + 1e-9).contains(&by) && by > 1e-3, "{by}");
    }
}
