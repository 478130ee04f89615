//! Whether casters may flutter: a screen that never passes, since no formula tells for a caster made by hand.

use crate::assumed::{Assumed, once};
use crate::clear::trouble::{Doubt, Trouble};
use chairwright_design::Design;

/// Trail over wheel radius of casters that are known to run quietly. Common practice, no source.
const RATIO: (f64, f64) = (0.5, 0.9);
/// Play of the stem that a hand just feels. Common practice, no source.
const PLAY: f64 = 1.0 * std::f64::consts::PI / 180.0;
/// A quick walk, in m/s. Common practice, no source.
const SPEED: f64 = 1.8;

pub(crate) fn flutter(design: &Design, troubles: &mut Vec<Trouble>, assumptions: &mut Vec<Assumed>) {
    if design.name.is_empty() {
        return;
    }
    let speed = design.conditions.quantities.get("speed").copied();
    for caster in &design.casters {
        let ratio = caster.trail / caster.radius;
        let doubts: Vec<Doubt> = [
            (!(RATIO.0..=RATIO.1).contains(&ratio)).then_some(Doubt::Ratio(ratio)),
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
        .collect();
        if doubts.is_empty() {
            once(Assumed::FlutterInBand, assumptions);
        } else {
            let (caster, origin) = (caster.name.clone(), caster.origin);
            troubles.push(Trouble::CoastTest { caster, origin, doubts });
        }
    }
}
