//! Rear wheels that do not run parallel, or lean as no everyday chair's do.

use crate::Checked;
use crate::problem::Problem;
use crate::roll::toe_drag;
use crate::sizes::outer_wheel;
use chairwright_design::{Design, Side, Wheel};

/// Toe of one rear wheel from which on it is said: half a degree, that 5 mm between the fronts and the backs of a pair of
/// rims show. Common practice, no source; riders' own chairs were found with 0.92 degrees on average (RESNA 2016).
pub const MOST_TOE: f64 = 0.5 * std::f64::consts::PI / 180.0;

/// Lean of rear wheels that chairs have, top inward is positive; a level axle may hang by a little. Common practice, no source.
const CAMBER: (f64, f64) = (-2.0 * std::f64::consts::PI / 180.0, 15.0 * std::f64::consts::PI / 180.0);

/// Whether the text draws the axle out of square to the way of travel, by half of the toe and more; else the frame's tilt turns
/// camber into toe.
fn drawn(wheel: &Wheel, toe: f64) -> bool {
    let own = libm::atan2(-wheel.axle.x, wheel.axle.y.abs());
    wheel.camber.abs() <= 0.0 || own * toe.signum() >= toe.abs() / 2.0
}

/// Judges what stands in the figures by now: as built where it was measured, else as drawn and settled.
pub(crate) fn toe(design: &Design, out: &mut Checked) {
    for side in [Side::Left, Side::Right] {
        let Some(wheel) = outer_wheel(design, side) else { continue };
        let Some(toe) = out.figures.si(&format!("toe.{}", side.word())) else { continue };
        if toe.abs() <= MOST_TOE {
            continue;
        }
        // gauged between the rims at axle height, ahead and behind: each wheel gives D sin(toe)
        let gap = 2.0 * wheel.radius * libm::sin(toe.abs());
        let measured = crate::tested::readings(design)
            .is_some_and(|b| b.values.contains_key(&format!("toe_{}", side.word())));
        out.problems.push(Problem::Toes {
            wheel: wheel.name.clone(),
            origin: wheel.origin,
            toe,
            gap,
            drag: toe_drag(toe),
            camber: (!measured && !drawn(wheel, toe)).then_some(wheel.camber),
            measured,
        });
    }
}

/// The same of camber.
pub(crate) fn camber(design: &Design, out: &mut Checked) {
    for side in [Side::Left, Side::Right] {
        let Some(wheel) = outer_wheel(design, side) else { continue };
        let Some(camber) = out.figures.si(&format!("camber.{}", side.word())) else { continue };
        if !(CAMBER.0..=CAMBER.1).contains(&camber) {
            let (wheel, origin) = (wheel.name.clone(), wheel.origin);
            out.problems.push(Problem::OddCamber { wheel, origin, camber });
        }
    }
}
