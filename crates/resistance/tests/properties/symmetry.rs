//! Mirrored, turned or exchanged figures give mirrored, turned or the same answers.

use std::f64::consts::{FRAC_PI_2, PI};

use super::random::Random;
use chairwright_resistance::Yield;
use chairwright_resistance::compatible::{Stuff, Wetness, touching};
use chairwright_resistance::dowel::{Bears, Dowel, double_shear, hankinson, single_shear};
use chairwright_resistance::group::shared;
use chairwright_resistance::metal::{allowable, bolt_together};
use chairwright_resistance::section::{Through, outline, tube_with_hole};
use chairwright_resistance::spacing::{Shank, axis_distance};
use chairwright_resistance::wood::{Stresses, bent_and_pressed, bent_and_pulled};

fn close(a: f64, b: f64, size: f64) {
    assert!((a - b).abs() <= 1e-9 * size, "{a} {b}");
}

#[test]
fn main_and_side_exchanged() {
    let mut r = Random(5);
    for _ in 0..1000 {
        let d = Dowel { diameter: r.between(0.0025, 0.025), bending_yield: r.between(250e6, 700e6) };
        let mut member = || Bears { strength: r.between(10e6, 500e6), length: r.between(0.005, 0.1) };
        let (a, b) = (member(), member());
        let angle = r.between(0.0, FRAC_PI_2);
        let (ab, ba) = (single_shear(&d, &a, &b, angle).unwrap(), single_shear(&d, &b, &a, angle).unwrap());
        let of = |y: &chairwright_resistance::dowel::Yielding, m| y.modes.iter().find(|x| x.0 == m).unwrap().1;
        let mirrored = [
            (Yield::Im, Yield::Is),
            (Yield::II, Yield::II),
            (Yield::IIIm, Yield::IIIs),
            (Yield::IV, Yield::IV),
        ];
        for (one, other) in mirrored {
            close(of(&ab, one), of(&ba, other), of(&ab, one));
        }
        close(ab.capacity.value, ba.capacity.value, ab.capacity.value);
        // Two planes carry at most twice one, and at least what the main member's own crushing lets through.
        let two = double_shear(&d, &a, &b, angle).unwrap().capacity.value;
        assert!(two >= ab.capacity.value * (1.0 - 1e-12));
        assert!(two <= 2.0 * of(&ab, Yield::IV) * (1.0 + 1e-12));
    }
}

#[test]
fn hankinson_lies_between() {
    let mut r = Random(6);
    for _ in 0..500 {
        let (along, across) = (r.between(20e6, 60e6), r.between(5e6, 20e6));
        let a = r.between(0.0, FRAC_PI_2);
        let f = hankinson(along, across, a);
        assert!(f <= along * (1.0 + 1e-12) && f >= across * (1.0 - 1e-12));
        close(hankinson(along, across, 0.0), along, along);
        close(hankinson(along, across, FRAC_PI_2), across, across);
        close(f, hankinson(across, along, FRAC_PI_2 - a), f);
    }
}

#[test]
fn holes_turned() {
    let mut r = Random(7);
    for _ in 0..1000 {
        let (outer, share) = (r.between(0.01, 0.1), r.between(0.05, 0.4));
        let wall = outer * share;
        let hole = r.between(0.0, 0.99) * (outer - 2.0 * wall);
        let angle = r.between(-4.0, 4.0);
        for through in [Through::One, Through::Both] {
            let of = |a| tube_with_hole(outer, wall, hole, a, through).unwrap();
            let (p, q) = (of(angle), of(-angle));
            close(p.iy, q.iy, p.iy);
            close(p.iyz, -q.iyz, p.iy);
            // A quarter turn exchanges the axes, and the sum stays whatever the angle.
            let quarter = of(angle + FRAC_PI_2);
            close(p.iy, quarter.iz, p.iy);
            close(p.iy + p.iz, of(0.0).iy + of(0.0).iz, p.iy);
            let half = of(angle + PI);
            close(p.iy, half.iy, p.iy);
            close(p.centroid[0], -half.centroid[0], outer);
            // Turning the straight section by hand gives the same.
            let [iy, iz, iyz] = of(0.0).turned(angle);
            close(iy, p.iy, p.iy);
            close(iz, p.iz, p.iy);
            close(iyz, p.iyz, p.iy);
        }
    }
}

/// A polygon turned, shifted and read backwards keeps its principal moments; its axis turns with it.
#[test]
fn outlines_moved() {
    let mut r = Random(8);
    for _ in 0..500 {
        let count = 3 + (r.unit() * 9.0) as usize;
        // A star about the origin: corners by rising angle never cross.
        let corners: Vec<[f64; 2]> = (0..count)
            .map(|k| {
                let a = 2.0 * PI * (k as f64 + r.between(0.0, 0.9)) / count as f64;
                let l = r.between(0.2, 1.0);
                [l * libm::cos(a), l * libm::sin(a)]
            })
            .collect();
        let Ok(here) = outline(&corners) else { continue };
        let (turn, far) = (r.between(-3.0, 3.0), [r.between(-9.0, 9.0), r.between(-9.0, 9.0)]);
        let (s, c) = libm::sincos(turn);
        let moved: Vec<[f64; 2]> = corners
            .iter()
            .rev()
            .map(|p| [far[0] + c * p[0] - s * p[1], far[1] + s * p[0] + c * p[1]])
            .collect();
        let there = outline(&moved).unwrap();
        let (p, q) = (here.principal(), there.principal());
        close(here.area, there.area, here.area);
        close(p.major, q.major, p.major);
        close(p.minor, q.minor, p.major);
        assert!(q.minor >= 0.0);
        if p.major - p.minor > 1e-3 * p.major {
            let turned = q.angle - p.angle - turn;
            assert!(libm::sin(turned).abs() < 1e-6, "{turned}");
        }
        // In the principal axes the product of inertia is gone.
        close(here.turned(p.angle)[2], 0.0, p.major);
        close(here.turned(p.angle)[0], p.major, p.major);
        close(here.turned(p.angle)[1], p.minor, p.major);
        let [iy, iz, _] = here.turned(turn);
        close(iy + iz, here.iy + here.iz, p.major);
    }
}

#[test]
fn interaction_knows_no_signs() {
    let mut r = Random(9);
    for _ in 0..500 {
        let on = Stresses { axial: r.between(0.0, 3e6), bending: [r.between(0.0, 3e6), r.between(0.0, 3e6)] };
        let flipped = Stresses { axial: -on.axial, bending: [-on.bending[0], on.bending[1]] };
        let swapped = Stresses { axial: on.axial, bending: [on.bending[1], on.bending[0]] };
        let (fb, fe) = ([r.between(5e6, 9e6), r.between(5e6, 9e6)], [r.between(4e6, 9e6), r.between(4e6, 9e6)]);
        let (rb, re) = ([fb[1], fb[0]], [fe[1], fe[0]]);
        let p = bent_and_pressed(on, 7e6, fb, fe).unwrap().used;
        close(p, bent_and_pressed(flipped, 7e6, fb, fe).unwrap().used, p);
        close(p, bent_and_pressed(swapped, 7e6, rb, re).unwrap().used, p);
        let t = bent_and_pulled(on, 7e6, fb).unwrap().used;
        close(t, bent_and_pulled(swapped, 7e6, rb).unwrap().used, t);
        let (a, b) = (allowable(1e6, 1.0).unwrap(), allowable(2e6, 1.0).unwrap());
        close(
            bolt_together(on.axial, on.bending[0], &a, &b).0,
            bolt_together(-on.axial, -on.bending[0], &a, &b).0,
            t + 9.0,
        );
    }
}

/// What fasteners carry adds up to the force and to its moment.
#[test]
fn groups_balance() {
    let mut r = Random(10);
    for _ in 0..500 {
        let count = 2 + (r.unit() * 8.0) as usize;
        let places: Vec<[f64; 2]> = (0..count).map(|_| [r.between(-1.0, 1.0), r.between(-1.0, 1.0)]).collect();
        let (force, at) =
            ([r.between(-9.0, 9.0), r.between(-9.0, 9.0)], [r.between(-2.0, 2.0), r.between(-2.0, 2.0)]);
        let moment = r.between(-5.0, 5.0);
        let s = shared(&places, force, at, moment).unwrap();
        for (k, f) in force.iter().enumerate() {
            close(s.each.iter().map(|e| e[k]).sum(), *f, 100.0);
        }
        let arm = |p: &[f64; 2], f: &[f64; 2]| p[0] * f[1] - p[1] * f[0];
        let sum: f64 = places.iter().zip(&s.each).map(|(p, f)| arm(p, f)).sum();
        close(sum, arm(&at, &force) + moment, 100.0);
        assert!(s.each.iter().all(|e| libm::hypot(e[0], e[1]) <= s.greatest));
    }
}

/// Against a search over a grid of both segments.
#[test]
fn distance_of_segments() {
    let mut r = Random(11);
    for _ in 0..300 {
        let mut point = || [r.between(-1.0, 1.0), r.between(-1.0, 1.0), r.between(-1.0, 1.0)];
        let (a, b) = (
            Shank { from: point(), to: point(), diameter: 0.0 },
            Shank { from: point(), to: point(), diameter: 0.0 },
        );
        let d = axis_distance(&a, &b).unwrap();
        close(d, axis_distance(&b, &a).unwrap(), 1.0);
        let at =
            |s: &Shank, t: f64| -> [f64; 3] { std::array::from_fn(|k| s.from[k] + t * (s.to[k] - s.from[k])) };
        let mut least = f64::INFINITY;
        for i in 0..=100 {
            for j in 0..=100 {
                let (p, q) = (at(&a, f64::from(i) / 100.0), at(&b, f64::from(j) / 100.0));
                let square: f64 = (0..3).map(|k| (p[k] - q[k]) * (p[k] - q[k])).sum();
                least = least.min(square.sqrt());
            }
        }
        // Never more than any pair of points, and as near as the grid's step lets tell.
        assert!(d <= least + 1e-12 && least - d < 0.035, "{d} {least}");
    }
}

#[test]
fn touching_either_way() {
    let all = [
        Stuff::RigidPvc,
        Stuff::PlasticisedVinyl,
        Stuff::ThreadLocker,
        Stuff::OilPaint,
        Stuff::WaterPaint,
        Stuff::Webbing,
        Stuff::Zinc,
        Stuff::Aluminium,
        Stuff::Steel,
        Stuff::Stainless,
        Stuff::Brass,
        Stuff::Copper,
    ];
    for a in all {
        for b in all {
            for wet in [Wetness::None, Wetness::Rain, Wetness::Fresh, Wetness::Salt] {
                assert_eq!(touching(a, b, wet).verdict, touching(b, a, wet).verdict);
            }
        }
    }
}
