//! Whether casters may flutter: a screen that never passes, since no formula tells for a caster made by hand.
//!
//! Looked at are trail, mass, play of the stem, its lean with the rider in the seat, and speed. Left out, and said so, are
//! friction in the stem's bearings, the width of the tread and how the tyre gives sideways: nobody can measure them at home.

use crate::assumed::{Assumed, once};
use crate::clear::trouble::{Doubt, Trouble};
use crate::tested::readings;
use chairwright_design::Design;
use chairwright_frame::Settled;

/// Trail over wheel radius of casters that are known to run quietly. Common practice, no source.
const RATIO: (f64, f64) = (0.5, 0.9);
/// Play of the stem that a hand just feels. Common practice, no source.
const PLAY: f64 = 1.0 * std::f64::consts::PI / 180.0;
/// Wheel and fork, in kg for each metre of the wheel's diameter: a heavy wheel flutters more. Bought casters of 100 to 200 mm
/// weigh some 4 to 7. Common practice, no source.
const HEAVY: f64 = 8.0;
/// Lean of the stem with the rider in the seat: upright within a degree is what builders aim at. Common practice, no source.
const LEAN: f64 = 1.0 * std::f64::consts::PI / 180.0;
/// A quick walk, in m/s. Common practice, no source.
const SPEED: f64 = 1.8;

pub(crate) fn flutter(
    design: &Design,
    settled: &Settled,
    troubles: &mut Vec<Trouble>,
    assumptions: &mut Vec<Assumed>,
) {
    if design.name.is_empty() {
        return;
    }
    let speed = design.conditions.quantities.get("speed").copied();
    let tried = tried(design);
    // nothing more is open than how fast the chair goes, where nobody says that
    let passed = tried.is_some_and(|tried| speed.is_none_or(|v| tried >= v - 1e-9));
    for caster in &design.casters {
        let ratio = caster.trail / caster.radius;
        let doubts: Vec<Doubt> = [
            (!(RATIO.0..=RATIO.1).contains(&ratio)).then_some(Doubt::Ratio(ratio)),
            heavy(caster.part.mass, 2.0 * caster.radius),
            leans(settled.pose.turn(caster.stem).z),
            match caster.play {
                None => Some(Doubt::PlayUnknown),
                Some(play) => (play > PLAY).then_some(Doubt::Play(play)),
            },
            match speed {
                None => Some(Doubt::SpeedUnknown),
                Some(v) => (v > SPEED).then_some(Doubt::Speed(v)),
            },
        ]
        .into_iter()
        .flatten()
        .filter(|doubt| !passed || *doubt == Doubt::SpeedUnknown)
        .collect();
        if passed && doubts.is_empty() {
            once(Assumed::FlutterTried, assumptions);
        } else if doubts.is_empty() {
            once(Assumed::FlutterInBand, assumptions);
        } else {
            let (caster, origin) = (caster.name.clone(), caster.origin);
            troubles.push(Trouble::CoastTest { caster, origin, doubts, tried });
        }
    }
}

/// How fast at the least the built chair ran without a caster that shook, in m/s. In the setting that was tested alone: in another
/// its stems lean otherwise.
fn tried(design: &Design) -> Option<f64> {
    let built = readings(design).filter(|b| b.carry.is_none())?;
    let passed = built.passed.get("flutter_test") == Some(&true);
    built.values.get("flutter_speed").filter(|_| passed).map(|speed| speed.low)
}

/// A mass of nothing is one that nobody gave.
fn heavy(mass: f64, diameter: f64) -> Option<Doubt> {
    match mass / diameter {
        by if by <= 0.0 => Some(Doubt::MassUnknown),
        by if by > HEAVY => Some(Doubt::Heavy { mass, most: HEAVY * diameter }),
        _ => None,
    }
}

/// From the upward part of the unit stem.
fn leans(up: f64) -> Option<Doubt> {
    let lean = libm::acos(up.clamp(-1.0, 1.0));
    (lean > LEAN).then_some(Doubt::Leans(lean))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 8 kg/m x 0.15 m = 1.2 kg.
    #[test]
    fn a_heavy_wheel_of_150() {
        assert_eq!(heavy(1.2, 0.15), None);
        assert!(matches!(heavy(1.21, 0.15), Some(Doubt::Heavy { most, .. }) if (most - 1.2).abs() < 1e-12));
        assert_eq!(heavy(0.0, 0.15), Some(Doubt::MassUnknown));
    }

    /// A stem that goes 20 mm off in 1000 leans atan 0.02 = 1.146 degrees, one that goes 17 mm off 0.974.
    #[test]
    fn a_stem_off_plumb() {
        assert!(leans(1.0 / libm::sqrt(1.0 + 0.017 * 0.017)).is_none());
        let Some(Doubt::Leans(lean)) = leans(1.0 / libm::sqrt(1.0 + 0.02 * 0.02)) else { panic!("upright") };
        assert!((lean.to_degrees() - 1.146).abs() < 1e-3);
    }
}
