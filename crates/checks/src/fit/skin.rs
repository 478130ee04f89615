//! Flags about skin. Pressure and shear are not computed: nothing here says that a seat is safe.

use super::{BODY, SIDES};
use crate::Checked;
use crate::assumed::Assumed;
use crate::body::TRUNK;
use crate::problem::Problem;
use chairwright_design::{Design, Shape, Support};
use chairwright_quantity::Dimension;

/// Surfaces hotter than this burn skin that does not feel it within minutes, in kelvin: 44 degC. From memory, not checked.
const BURNS: f64 = 273.15 + 44.0;
/// Standard gravity, CGPM 1901.
const GRAVITY: f64 = 9.806_65;

/// What is risky for the skin.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum SkinFlag {
    /// No cushion under somebody who does not feel the seat, or had a sore.
    NoCushion,
    /// A sling under the same.
    Sling,
    /// Whatever lies under somebody who does not feel the seat, or had a sore.
    AtRisk {
        /// Feeling is absent or reduced there.
        numb: bool,
        /// There was a sore.
        sore: bool,
    },
    /// Parts that get hot next to legs that do not feel it.
    Hot,
}

pub(super) fn flags(design: &Design, seat: &Support, out: &mut Checked) {
    let rider = &design.rider;
    let numb =
        |key: &str| SIDES.iter().any(|s| matches!(rider.sided_word(key, *s), Some("absent" | "reduced")));
    let sling = matches!(design.stocks[seat.stock].shape, Shape::Webbing { .. });
    let mut flag = |flag: SkinFlag| out.problems.push(Problem::Skin { flag, origin: seat.origin });
    let sore = SIDES.iter().any(|s| rider.sided_word("past_sore", *s) == Some("yes"));
    if numb("sensation_seat") || sore {
        if seat.cushion.is_none() {
            flag(SkinFlag::NoCushion);
        }
        if sling {
            flag(SkinFlag::Sling);
        }
        if seat.cushion.is_some() && !sling {
            flag(SkinFlag::AtRisk { numb: numb("sensation_seat"), sore });
        }
    }
    let hot = ["parked_temperature", "temperature"]
        .iter()
        .any(|k| design.conditions.quantities.get(*k).is_some_and(|t| *t >= BURNS));
    if hot && (numb("sensation_legs") || numb("sensation_seat")) {
        flag(SkinFlag::Hot);
    }
    silent(design, &mut out.assumptions);
    average(design, seat, out);
}

/// What nobody said about the rider's skin, so that nothing was flagged for it.
fn silent(design: &Design, assumptions: &mut Vec<Assumed>) {
    let rider = &design.rider;
    let known = |key: &str| SIDES.iter().any(|s| rider.sided_word(key, *s).is_some());
    let unsaid: Vec<&'static str> =
        ["sensation_seat", "sensation_legs", "past_sore"].into_iter().filter(|k| !known(k)).collect();
    if !design.name.is_empty() && !unsaid.is_empty() {
        assumptions.push(Assumed::SkinUnsaid(unsaid));
    }
}

/// The average alone; peaks under the sitting bones are many times higher and want a measuring mat.
fn average(design: &Design, seat: &Support, out: &mut Checked) {
    let Some(rider) = &out.rider else { return };
    // shanks, feet and what is worn in their place hang on the foot support
    let sits = |name: &str| name == TRUNK || name.ends_with("thigh");
    let mass: f64 = rider.segments.iter().filter(|s| sits(&s.name)).map(|s| s.mass).sum();
    let width = design.rider.get("hip_width").unwrap_or(seat.width).min(seat.width);
    let depth = (seat.to - seat.from).norm();
    if width * depth <= 0.0 {
        return;
    }
    let pressure = mass * GRAVITY / (width * depth);
    let formula =
        "mass above the knees x g / (width of the hips x depth of the seat); an average, never a peak";
    let inputs = [
        ("mass above the knees", mass, Dimension::MASS),
        ("width", width, Dimension::LENGTH),
        ("depth", depth, Dimension::LENGTH),
    ];
    out.figures.put("pressure.seat.average", (pressure, Dimension::PRESSURE), formula, BODY, &inputs);
}
