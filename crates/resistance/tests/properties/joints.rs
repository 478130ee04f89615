//! Joints: more wood, metal or depth never gives less, more load never less use; groups balance.

use super::random::Random;
use chairwright_resistance::Capacity;
use chairwright_resistance::dowel::{Bears, Dowel, double_shear, single_shear, wood_bearing};
use chairwright_resistance::group::tilted;
use chairwright_resistance::gusset::{Lap, lap_moment};
use chairwright_resistance::metal::allowable;
use chairwright_resistance::pvc::{Block, combined};
use chairwright_resistance::withdrawal::{Fastener, Into, ultimate, with_shear, withdrawal};
use chairwright_resistance::wood::{self, Basis, Duration, Property, Service, Warmth};

fn of(value: f64) -> Capacity {
    allowable(value, 1.0).unwrap()
}

const LONGER: [Duration; 5] =
    [Duration::TenMinutes, Duration::SevenDays, Duration::TwoMonths, Duration::TenYears, Duration::Permanent];

#[test]
fn dowels_gain_by_wood_length_and_steel() {
    let mut r = Random(21);
    for _ in 0..1000 {
        let d = Dowel { diameter: r.between(0.0025, 0.025), bending_yield: r.between(250e6, 700e6) };
        let mut member = || Bears { strength: r.between(10e6, 60e6), length: r.between(0.005, 0.1) };
        let (m, s) = (member(), member());
        let more = 1.0 + r.unit();
        let steel = Dowel { bending_yield: d.bending_yield * more, ..d };
        let hard = |b: &Bears| Bears { strength: b.strength * more, ..*b };
        let long = |b: &Bears| Bears { length: b.length * more, ..*b };
        for shear in [single_shear, double_shear] {
            let z = |d: &Dowel, m: &Bears, s: &Bears| shear(d, m, s, 0.7).unwrap().capacity.value;
            let base = z(&d, &m, &s) * (1.0 - 1e-12);
            assert!(z(&steel, &m, &s) >= base);
            assert!(z(&d, &hard(&m), &s) >= base && z(&d, &m, &hard(&s)) >= base);
            assert!(z(&d, &long(&m), &s) >= base && z(&d, &m, &long(&s)) >= base);
            // The angle between load and grain never helps.
            assert!(shear(&d, &m, &s, 1.5).unwrap().capacity.value <= z(&d, &m, &s));
        }
    }
}

#[test]
fn denser_wood_bears_and_holds_more() {
    let mut r = Random(22);
    for _ in 0..500 {
        let g = r.between(0.3, 0.7);
        let more = g + r.between(0.0, 0.05);
        let d = r.between(0.0064, 0.0094);
        assert!(wood_bearing(more, d, 0.4).unwrap() >= wood_bearing(g, d, 0.4).unwrap());
        for f in [Fastener::Nail, Fastener::WoodScrew, Fastener::Lag] {
            let depth = r.between(0.01, 0.1);
            for pair in LONGER.windows(2) {
                let at = |g, depth, duration, wet| {
                    withdrawal(
                        f,
                        g,
                        d,
                        depth,
                        Into::SideGrain,
                        Service { duration, wet, warmth: Warmth::Usual },
                    )
                    .unwrap()
                    .value
                };
                let base = at(g, depth, pair[0], false);
                assert!(at(more, depth, pair[0], false) >= base && at(g, 1.1 * depth, pair[0], false) > base);
                assert!(at(g, depth, pair[1], false) < base && at(g, depth, pair[0], true) < base);
                // A design value stays well below what comes out in tests: at most 1.6/5 of it.
                if let Some(most) = ultimate(f, g, d).unwrap() {
                    assert!(base < 0.32 * most * depth);
                }
            }
        }
    }
}

#[test]
fn wood_loses_by_time_water_and_knots() {
    let mut r = Random(23);
    for _ in 0..200 {
        let (mean, ratio, safety) = (r.between(5e6, 120e6), r.between(0.3, 0.99), r.between(1.0, 3.0));
        for property in [Property::Bending, Property::Compression, Property::Shear] {
            let at = |strength_ratio, safety, duration, wet| {
                let basis = Basis::ClearMean { mean, strength_ratio, safety };
                wood::allowable(property, basis, Service { duration, wet, warmth: Warmth::Usual })
                    .unwrap()
                    .value
            };
            for pair in LONGER.windows(2) {
                let base = at(ratio, safety, pair[0], false);
                assert!(base < mean && base > 0.0);
                assert!(at(ratio, safety, pair[1], false) < base && at(ratio, safety, pair[0], true) < base);
                assert!(at(0.9 * ratio, safety, pair[0], false) < base);
                assert!(at(ratio, 1.1 * safety, pair[0], false) < base);
            }
        }
    }
}

#[test]
fn larger_laps_turn_harder() {
    let mut r = Random(24);
    for _ in 0..300 {
        let l = Lap { width: r.between(0.01, 0.2), height: r.between(0.01, 0.2) };
        let at = |l: &Lap| lap_moment(l, &of(1e6)).unwrap().value;
        assert!(
            at(&Lap { width: 1.1 * l.width, ..l }) > at(&l)
                && at(&Lap { height: 1.1 * l.height, ..l }) > at(&l)
        );
    }
}

/// Neither share alone, nor less than it, and at most their sum.
#[test]
fn pulled_and_pushed_aside() {
    let mut r = Random(25);
    for _ in 0..1000 {
        let (w, z) = (of(r.between(10.0, 1e3)), of(r.between(10.0, 1e3)));
        let (pull, aside) = (r.between(0.0, 1e3), r.between(0.0, 1e3));
        let used = |f, pull, aside| with_shear(f, (pull, &w), (aside, &z)).0;
        let (l, o) = (z.use_of(aside), w.use_of(pull));
        for f in [Fastener::Nail, Fastener::WoodScrew, Fastener::Lag] {
            let both = used(f, pull, aside);
            assert!(both >= l.max(o) && both <= (l + o) * (1.0 + 1e-12));
            assert!((used(f, -pull, -aside) - both).abs() <= 1e-12 * both);
            assert!((used(f, 2.0 * pull, 2.0 * aside) / both - 2.0).abs() < 1e-12);
        }
        assert!(used(Fastener::Nail, pull, aside) >= used(Fastener::WoodScrew, pull, aside) * (1.0 - 1e-12));
    }
}

/// Pulls add up to the pull and to both moments; a group turned about a pressing edge is pulled less.
#[test]
fn tilted_groups_balance() {
    let mut r = Random(26);
    for _ in 0..1000 {
        let count = 3 + (r.unit() * 7.0) as usize;
        let places: Vec<[f64; 2]> = (0..count).map(|_| [r.between(-1.0, 1.0), r.between(-1.0, 1.0)]).collect();
        let (pull, my, mz) = (r.between(-9.0, 9.0), r.between(-9.0, 9.0), r.between(-9.0, 9.0));
        let t = tilted(&places, pull, my, mz).unwrap();
        let n = count as f64;
        let mid: [f64; 2] = std::array::from_fn(|k| places.iter().map(|p| p[k]).sum::<f64>() / n);
        let about = |k: usize| places.iter().zip(&t.each).map(|(p, e)| (p[k] - mid[k]) * e).sum::<f64>();
        let scale = 1e-9 * (1.0 + t.each.iter().fold(0.0_f64, |a, e| a.max(e.abs())));
        assert!((t.each.iter().sum::<f64>() - pull).abs() < scale);
        assert!((about(1) - my).abs() < scale && (about(0) + mz).abs() < scale);
        assert!(t.each.iter().all(|e| *e <= t.greatest) && t.greatest >= 0.0);
        // Along one line: an edge at or beyond the last fastener on the pressed side.
        let line: Vec<[f64; 2]> = places.iter().map(|p| [0.0, p[1]]).collect();
        let edge = line.iter().fold(f64::INFINITY, |a, p| a.min(p[1])) - r.unit();
        let squares: f64 = line.iter().map(|p| (p[1] - edge) * (p[1] - edge)).sum();
        let far = line.iter().fold(f64::NEG_INFINITY, |a, p| a.max(p[1])) - edge;
        let tilt = tilted(&line, 0.0, 1.0, 0.0).unwrap();
        assert!(tilt.greatest >= far / squares * (1.0 - 1e-9));
    }
}

#[test]
fn more_of_any_load_uses_more_life() {
    let mut r = Random(27);
    for _ in 0..500 {
        let blocks: Vec<Block> = (0..4)
            .map(|_| Block { peak: r.between(1e6, 30e6), cycles: libm::pow(10.0, r.between(0.0, 6.0)) })
            .collect();
        let notch = (1.0, r.between(1.0, 3.0));
        let base = combined(&blocks, notch).unwrap();
        assert!(base.worst >= base.best && base.best > 0.0);
        for k in 0..blocks.len() {
            let with = |b: Block| {
                let mut all = blocks.clone();
                all[k] = b;
                combined(&all, notch).unwrap()
            };
            let harder = with(Block { peak: 1.05 * blocks[k].peak, ..blocks[k] });
            let oftener = with(Block { cycles: 2.0 * blocks[k].cycles, ..blocks[k] });
            for more in [harder, oftener] {
                assert!(more.best >= base.best && more.worst >= base.worst);
            }
        }
    }
}

/// A row at any angle, whose digits do not fall in a line: it holds what turns it up, and nothing about itself.
#[test]
fn rows_at_any_angle() {
    let mut r = Random(28);
    for _ in 0..500 {
        let (s, c) = libm::sincos(r.between(-3.0, 3.0));
        let at = [r.between(-2.0, 2.0), r.between(-2.0, 2.0)];
        let row: Vec<[f64; 2]> = [-0.1, 0.0, 0.1].iter().map(|u| [at[0] + u * c, at[1] + u * s]).collect();
        // 20 N·m: 20 × 0.1 / (2 × 0.1²) = 100 N at the ends.
        let up = tilted(&row, 0.0, 20.0 * s, -20.0 * c).unwrap();
        assert!((up.greatest - 100.0).abs() < 1e-6, "{}", up.greatest);
        assert!(tilted(&row, 0.0, 20.0 * c, 20.0 * s).is_err());
    }
}
