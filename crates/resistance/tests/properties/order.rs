//! More heat, time, load or notch never gives more capacity.

use super::random::Random;
use chairwright_resistance::column::{Ends, Strut, strut, wood_column};
use chairwright_resistance::pvc::{
    CREEP, Duty, ISO_20C, Life, STRENGTH, TENSILE, US_73F, Wall, allowable_bending, cycles, duration_factor,
    factor, life, repeated_stress,
};
use chairwright_resistance::section::{Through, tube_with_hole};
use chairwright_resistance::shock::{climb, fall};
use chairwright_resistance::socket::{Bond, Fitting, Socket, lap_shear, pull_out, twist};

#[test]
fn heat_never_helps() {
    for table in [&US_73F, &ISO_20C] {
        let warmest = table.points.last().unwrap().0;
        let mut last = 1.0;
        for k in 0..=2000 {
            let t = table.coldest + (warmest - table.coldest) * f64::from(k) / 2000.0;
            let f = factor(table, t).unwrap();
            assert!(f.value <= last && f.value > 0.0 && f.value <= 1.0, "{t}");
            assert_eq!(f.held, t < table.points[0].0);
            last = f.value;
        }
        // Never extrapolates: a hair beyond either end there is nothing.
        assert!(factor(table, warmest + 1e-6).is_err() && factor(table, table.coldest - 1e-6).is_err());
        assert_eq!(last, table.points.last().unwrap().1);
    }
}

#[test]
fn time_never_helps() {
    for law in [&STRENGTH, &TENSILE, &CREEP] {
        let mut last = 1.0;
        for k in 0..=1000 {
            let f = duration_factor(law, law.long * libm::pow(10.0, f64::from(k) / 100.0 - 10.0)).unwrap();
            assert!(f <= last && f >= law.left - 1e-12);
            last = f;
        }
        assert!((last - law.left).abs() < 1e-12);
        assert!(duration_factor(law, law.long * 1.000_001).is_err() && duration_factor(law, -1.0).is_err());
    }
}

#[test]
fn allowable_falls_with_each_of_its_factors() {
    let mut r = Random(1);
    for _ in 0..500 {
        let duty = Duty {
            table: &US_73F,
            kelvin: r.between(274.0, 330.0),
            seconds: r.between(0.0, 1e8),
            safety: r.between(1.0, 4.0),
        };
        let of = |d: Duty| allowable_bending(50e6, Wall::Solid, &d).unwrap().value;
        let base = of(duty);
        assert!(of(Duty { kelvin: duty.kelvin + 2.0, ..duty }) <= base);
        assert!(of(Duty { seconds: duty.seconds * 2.0, ..duty }) <= base);
        assert!(of(Duty { safety: duty.safety * 1.1, ..duty }) < base);
        assert!(base <= 50e6 / duty.safety);
    }
}

#[test]
fn repeated_load_turns_round() {
    let mut r = Random(2);
    for _ in 0..500 {
        let n = libm::pow(10.0, r.between(3.0, 7.0));
        let notch = r.between(1.0, 4.0);
        let stress = repeated_stress(n, notch).unwrap();
        let back = cycles(stress * notch).unwrap();
        assert!((back / n - 1.0).abs() < 1e-9);
        let band = life(stress, (1.0, notch)).unwrap();
        let least = |l: Life| match l {
            Life::About(n) | Life::AtLeast(n) => n,
            Life::Below(_) => 0.0,
        };
        assert!(least(band.worst) <= least(band.best));
    }
}

#[test]
fn a_hole_takes_and_a_larger_one_takes_more() {
    let mut r = Random(3);
    for _ in 0..2000 {
        let outer = r.between(0.01, 0.1);
        let wall = outer * r.between(0.02, 0.5);
        let bore = (outer - 2.0 * wall).max(0.0);
        let hole = r.between(0.0, 0.45) * if bore > 0.0 { bore } else { outer };
        let angle = r.between(-7.0, 7.0);
        for through in [Through::One, Through::Both] {
            let of = |h: f64| tube_with_hole(outer, wall, h, angle, through).unwrap();
            let (none, small, large) = (of(0.0), of(hole), of(2.0 * hole));
            let slack = 1e-12 * none.iy;
            assert!(small.area <= none.area && large.area <= small.area);
            assert!(
                small.principal().minor <= none.iy + slack
                    && large.principal().minor <= small.principal().minor + slack
            );
            assert!(small.iy <= none.iy + slack && small.iz <= none.iz + slack);
        }
    }
}

#[test]
fn slender_columns_carry_less() {
    let mut last = f64::INFINITY;
    for k in 1..500 {
        let of = Strut {
            area: 1e-4,
            second_moment: 1e-8,
            length: 0.01 * f64::from(k),
            modulus: 200e9,
            strength: 235e6,
        };
        let now = strut(&of, Ends::Pinned, 1.0).unwrap().value;
        // Johnson's parabola meets Euler's curve: no step.
        assert!(now < last && now <= 235e6 * 1e-4 && (last.is_infinite() || last / now < 1.5));
        last = now;
    }
    let mut last = f64::INFINITY;
    for k in 1..=500 {
        let now = wood_column(10e6, 4e9, 0.1 * f64::from(k)).unwrap().value;
        assert!(now < last && now < 10e6);
        last = now;
    }
}

#[test]
fn shocks_grow() {
    for k in 1..100 {
        let h = 0.001 * f64::from(k);
        assert!(fall(h, 0.005).unwrap() > fall(h - 0.001, 0.005).unwrap());
        assert!(fall(h, 0.005).unwrap() > fall(h, 0.006).unwrap());
        assert!(fall(h, 0.005).unwrap() >= 2.0);
        assert!(climb(0.1, h * 0.99).unwrap() > climb(0.1, h * 0.98).unwrap());
    }
}

#[test]
fn sockets_gain_by_depth_and_by_cure() {
    let mut r = Random(4);
    for _ in 0..500 {
        let depth = r.between(0.01, 0.05);
        let s = Socket {
            fitting: Fitting::Stop,
            diameter: r.between(0.02, 0.09),
            depth,
            engaged: depth * r.between(0.5, 0.9),
        };
        let deeper = Socket { engaged: s.engaged * 1.05, ..s };
        let hours = r.between(2.0, 200.0);
        let bond =
            |h: f64| Bond { shear: lap_shear(h * 3600.0, 1.0, 2.0).unwrap(), close: r_share(h), gap: 0.3 };
        let b = bond(hours);
        let later = Bond { close: b.close, ..bond(hours * 1.5) };
        assert!(pull_out(&deeper, &b).unwrap().value >= pull_out(&s, &b).unwrap().value);
        assert!(pull_out(&s, &later).unwrap().value >= pull_out(&s, &b).unwrap().value);
        let ratio = twist(&s, &b).unwrap().value / pull_out(&s, &b).unwrap().value;
        assert!((ratio - s.diameter / 2.0).abs() < 1e-12);
    }
}

fn r_share(h: f64) -> f64 {
    (h / 200.0).clamp(0.0, 1.0)
}
