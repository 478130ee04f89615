//! Tables kept here, figure by figure, and both sides of each range's end. What a table comes from stands with it.

use super::common::{INCH, MPA, PSI, celsius, fahrenheit, near};
use chairwright_resistance::column::{Ends, cantilever_amplified, simple_beam_amplified};
use chairwright_resistance::compatible::{Stuff, Touch, Wetness, touching};
use chairwright_resistance::dowel::{divisors, wood_bearing};
use chairwright_resistance::metal::{BoltClass, Thread, allowable, bolt_shear, bolt_tension};
use chairwright_resistance::pvc::softened_modulus;
use chairwright_resistance::section::{Through, rectangle_with_hole, tube_with_hole};
use chairwright_resistance::socket::{cure_slowed, lap_shear};
use chairwright_resistance::spacing::bite;
use chairwright_resistance::withdrawal::{Fastener, reference};
use chairwright_resistance::wood::{self, Basis, Duration, Property, Service, Warmth};

/// ISO 898-1 and SAE J429, proof and tensile in MPa (from memory).
#[test]
fn bolt_classes() {
    for (class, proof, tensile) in [
        (BoltClass::Iso46, 225.0, 400.0),
        (BoltClass::Iso88, 580.0, 800.0),
        (BoltClass::Iso109, 830.0, 1040.0),
        (BoltClass::Sae2, 379.0, 510.0),
        (BoltClass::Sae5, 586.0, 827.0),
        (BoltClass::Sae8, 827.0, 1034.0),
    ] {
        near(class.proof() / MPA, proof, 1e-9);
        near(class.tensile() / MPA, tensile, 1e-9);
        // Half as much with a safety of 2, in tension and in shear.
        let m8 = Thread { diameter: 0.008, pitch: 0.00125 };
        let of = |safety| {
            (bolt_tension(&m8, class, safety).unwrap().value, bolt_shear(&m8, class, 1, safety).unwrap().value)
        };
        let ((t1, v1), (t2, v2)) = (of(1.0), of(2.0));
        near(t1 / t2, 2.0, 1e-12);
        near(v1 / v2, 2.0, 1e-12);
    }
}

/// Wood Handbook table 5-6 and NDS wet factors (from memory); a modulus has no duration nor test factor.
#[test]
fn wood_factors() {
    for (p, variation, wet) in [
        (Property::Bending, 0.16, 0.85),
        (Property::Modulus, 0.22, 0.9),
        (Property::Compression, 0.18, 0.8),
        (Property::Shear, 0.14, 0.97),
    ] {
        near(p.variation(), variation, 0.0);
        near(p.wet(), wet, 0.0);
    }
    let service = Service { duration: Duration::Permanent, wet: false, warmth: Warmth::Usual };
    let basis = Basis::ClearMean { mean: 13.4e9, strength_ratio: 1.0, safety: 1.0 };
    // 13.4 × (1 − 1.645 × 0.22) = 8.5505 GPa.
    near(wood::allowable(Property::Modulus, basis, service).unwrap().value / 1e9, 8.5505, 1e-3);
    let unsafe_ = Basis::ClearMean { mean: 13.4e9, strength_ratio: 1.0, safety: 0.999 };
    assert!(wood::allowable(Property::Modulus, unsafe_, service).is_err());
    assert_eq!(Duration::of_seconds(0.0), Duration::TenMinutes);
}

/// A screw that does not reach the second piece bites nothing.
#[test]
fn a_short_screw_bites_nothing() {
    let short = bite(0.016, 0.018, 0.038).unwrap();
    assert!(short.penetration == 0.0 && short.pokes_out == 0.0 && !short.two_thirds);
}

/// Anodic indices, V, and the limits on their difference (from memory).
#[test]
fn galvanic() {
    let index = [
        (Stuff::Zinc, 1.25),
        (Stuff::Aluminium, 0.90),
        (Stuff::Steel, 0.85),
        (Stuff::Stainless, 0.50),
        (Stuff::Brass, 0.45),
        (Stuff::Copper, 0.35),
    ];
    for (metal, volts) in index {
        assert_eq!(metal.anodic_index(), Some(volts));
    }
    assert_eq!(Stuff::RigidPvc.anodic_index(), None);
    let limits = [Wetness::None, Wetness::Rain, Wetness::Fresh, Wetness::Salt].map(Wetness::most);
    assert_eq!(limits, [0.50, 0.25, 0.25, 0.15]);
    // 0.85 − 0.35 = 0.50 is at the limit of a dry room, 0.50 − 0.35 = 0.15 at that of salt.
    assert_eq!(touching(Stuff::Steel, Stuff::Copper, Wetness::None).verdict, Touch::May);
    assert_eq!(touching(Stuff::Stainless, Stuff::Copper, Wetness::Salt).verdict, Touch::May);
}

/// Effective lengths recommended in the AISC commentary (from memory).
#[test]
fn effective_lengths() {
    let all = [Ends::Pinned, Ends::Fixed, Ends::FixedPinned, Ends::Free, Ends::Sway, Ends::Factor(0.5)];
    assert_eq!(all.map(|e| e.factor().unwrap()), [1.0, 0.65, 0.8, 2.1, 1.2, 0.5]);
    assert!(Ends::Factor(0.49).factor().is_err());
}

/// 4 K, 3.6 K, 3.2 K from ¼ in with K from 1 to 1.25; below it 2.2 to 0.17 in, then 10 D + 0.5.
#[test]
fn divisors_of_the_nds() {
    let of = |d: f64, a: f64| divisors(d * INCH, a.to_radians()).unwrap();
    for (got, want) in of(0.25, 90.0).iter().zip([5.0, 4.5, 4.0]) {
        near(*got, want, 1e-12);
    }
    for (got, want) in of(0.5, 36.0).iter().zip([4.4, 3.96, 3.52]) {
        near(*got, want, 1e-12);
    }
    near(of(0.162, 90.0)[1], 2.2, 1e-12);
    near(of(0.249, 0.0)[2], 2.99, 1e-9);
}

/// Each range holds its end and nothing beyond.
#[test]
fn ends_of_ranges() {
    assert!(divisors(INCH, 0.0).is_ok() && divisors(1.01 * INCH, 0.0).is_err());
    for (gravity, good) in [(0.30, true), (0.29, false), (0.75, true), (0.76, false)] {
        assert_eq!(reference(Fastener::Nail, gravity, 0.004).is_ok(), good);
        assert_eq!(wood_bearing(gravity, 0.004, 0.0).is_ok(), good);
    }
    for (fastener, low, high) in
        [(Fastener::Nail, 0.099, 0.375), (Fastener::WoodScrew, 0.138, 0.372), (Fastener::Lag, 0.25, 1.25)]
    {
        let at = |inches: f64| reference(fastener, 0.5, inches * INCH).is_ok();
        assert!(at(low) && at(high) && !at(low - 0.001) && !at(high + 0.001));
    }
    assert!(
        softened_modulus(1e9, celsius(23.0), 1.0).is_ok() && softened_modulus(1e9, celsius(23.1), 1.0).is_err()
    );
    assert!(
        lap_shear(3e5, 1.0, 1.0).is_ok()
            && lap_shear(3e5, 1.01, 1.0).is_err()
            && lap_shear(3e5, 1.0, 0.99).is_err()
    );
    near(allowable(240e6, 1.5).unwrap().value, 160e6, 1e-6);
    assert!(allowable(1.0, 1.0).is_ok() && allowable(1.0, 0.999).is_err());
    assert!(cure_slowed(fahrenheit(0.001), false).is_ok() && cure_slowed(fahrenheit(-0.001), false).is_err());
    near(cure_slowed(fahrenheit(60.01), false).unwrap(), 1.0, 0.0);
    near(cure_slowed(fahrenheit(59.9), false).unwrap(), 2.0, 0.0);
    near(cure_slowed(fahrenheit(40.01), false).unwrap(), 2.0, 0.0);
    near(cure_slowed(fahrenheit(39.9), false).unwrap(), 8.0, 0.0);
}

/// The series used for a small push meet the closed forms.
#[test]
fn small_pushes() {
    // u or a just below and just above the switch: both forms against the series with its next term, by hand:
    // tan a / a = 1 + a²/3 + 2a⁴/15; 3(tan a − a)/a³ = 1 + 2a²/5 + 17a⁴/105;
    // 2(sec u − 1)/u² = 1 + 5u²/12 + 61u⁴/360; 12(2 sec u − 2 − u²)/5u⁴ = 1 + 61u²/150 + 277u⁴/1680.
    for a in [0.0_f64, 5e-4, 9e-4, 1.1e-3, 0.02] {
        let c = cantilever_amplified(1.0, 1.0, a * a).unwrap();
        let a2 = a * a;
        near(c.moment, 1.0 + a2 / 3.0 + 2.0 * a2 * a2 / 15.0, 1e-10);
        // The closed form cancels: digits are lost as 1/a².
        near(c.deflection, 1.0 + 0.4 * a2 + 17.0 * a2 * a2 / 105.0, 1e-9);
    }
    for u in [0.0_f64, 0.01, 0.029, 0.031, 0.05] {
        let s = simple_beam_amplified(1.0, 1.0, 4.0 * u * u).unwrap();
        let u2 = u * u;
        near(s.moment, 1.0 + 5.0 * u2 / 12.0 + 61.0 * u2 * u2 / 360.0, 2e-7);
        near(s.deflection, 1.0 + 61.0 * u2 / 150.0 + 277.0 * u2 * u2 / 1680.0, 2e-7);
    }
}

/// A rod of 20 mm with a 6 mm hole, through and half-way, against midpoint sums over 2 000 strips of the chord.
#[test]
fn drilled_rod() {
    let (r, a) = (10.0_f64, 3.0);
    let strips = 2000;
    let mut sums = [0.0; 4];
    for k in 0..strips {
        let u = -a + 2.0 * a * (f64::from(k) + 0.5) / f64::from(strips);
        let (c, w) = ((r * r - u * u).sqrt(), 2.0 * a / f64::from(strips));
        for (sum, part) in sums.iter_mut().zip([c, c * c / 2.0, u * u * c, c * c * c / 3.0]) {
            *sum += part * w;
        }
    }
    let [half, first, across, along] = sums;
    let (area, i) = (std::f64::consts::PI * r * r, std::f64::consts::PI * r.powi(4) / 4.0);
    let both = tube_with_hole(0.02, 0.01, 0.006, 0.0, Through::Both).unwrap();
    near(both.area * 1e6, area - 2.0 * half, 1e-4);
    near(both.iy * 1e12, i - 2.0 * along, 1e-2);
    near(both.iz * 1e12, i - 2.0 * across, 1e-2);
    let one = tube_with_hole(0.02, 0.01, 0.006, 0.0, Through::One).unwrap();
    let down = first / (area - half);
    near(one.centroid[1] * 1e3, -down, 1e-6);
    near(one.iy * 1e12, i - along - (area - half) * down * down, 1e-2);
    assert!(tube_with_hole(0.02, 0.01, 0.0199, 0.0, Through::Both).is_err());
}

/// 40 × 90 mm less a 10 mm strip: about the upright axis 80 × 40³/12 = 426 667 mm⁴, and no product.
#[test]
fn board_with_hole_upright() {
    let b = rectangle_with_hole(0.04, 0.09, 0.01, 0.02).unwrap();
    near(b.iz * 1e12, 426_667.0, 1.0);
    assert_eq!((b.iyz, b.centroid[0]), (0.0, 0.0));
}

/// Specific values used above stay what the standard says in psi: 900 psi is 6.205 MPa.
#[test]
fn units() {
    near(900.0 * PSI / MPA, 6.205, 5e-4);
}
