//! The rider in the seat: segments with their masses and centres.
//!
//! Shares and centres come from the one segment table of the catalogue; lengths from the rider's
//! stature by the fractions beside it. The thigh lies along the seat, the trunk along the back
//! support, the shank points from the knee to the foot support.

use crate::problem::Problem;
use chairwright_design::{Design, Segment, Support, SupportKind, Vec3};

/// One segment of the seated rider.
#[derive(Clone, PartialEq, Debug)]
pub struct SegmentMass {
    /// Its name, with the side.
    pub name: String,
    /// In kg.
    pub mass: f64,
    /// In the drawing's axes.
    pub centre: Vec3,
    /// Its two ends, nearer the trunk first.
    pub ends: (Vec3, Vec3),
}

/// The seated rider.
#[derive(Clone, PartialEq, Debug)]
pub struct RiderBody {
    /// Declared mass in kg.
    pub mass: f64,
    /// The segments.
    pub segments: Vec<SegmentMass>,
}

/// Hip joint ahead of the back support, as a fraction of stature. From memory, not checked:
/// buttock-to-knee less the thigh segment of the same statures.
const HIP_AHEAD: f64 = 0.0733;
/// Hip joint above the seat surface, as a fraction of stature. From memory, not checked.
const HIP_ABOVE: f64 = 0.050;
/// Ankle above the sole, as a fraction of stature: NYU Technical Report 1166.03 (1966), from memory.
const ANKLE: f64 = 0.039;
/// Back support leaning back from square to the seat, where there is none: 10 degrees, assumed.
const LEAN: f64 = 10.0 * std::f64::consts::PI / 180.0;

/// Seats the rider. `None` when a measure or the seat is missing; the missing measure is reported.
#[must_use]
pub fn seat_rider(
    design: &Design,
    assumptions: &mut Vec<String>,
    problems: &mut Vec<Problem>,
) -> Option<RiderBody> {
    let rider = &design.rider;
    if !rider.given {
        return None;
    }
    let seat = support(design, SupportKind::Seat)?;
    let mut need = |measure: &'static str, wanted_by: &'static str| {
        let value = rider.get(measure);
        if value.is_none() {
            problems.push(Problem::MissingMeasure { measure, wanted_by, origin: rider.origin });
        }
        value
    };
    let (mass, stature) =
        (need("mass", "tip angles and loads"), need("stature", "the lengths of the rider's segments"));
    let (mass, stature) = (mass?, stature?);
    let table = |name: &str| design.body.get(name);
    let (trunk, thigh, shank, foot) =
        (table("head, arms and trunk")?, table("thigh")?, table("shank")?, table("foot")?);
    let mut estimate = |measure: &str, fraction: f64| {
        rider.get(measure).unwrap_or_else(|| {
            let value = fraction * stature;
            assumptions.push(format!(
                "rider.{measure}: {:.0} mm, estimated as {fraction} of stature (from memory)",
                value * 1e3
            ));
            value
        })
    };
    let (ahead, above) = (estimate("hip_ahead", HIP_AHEAD), estimate("hip_above", HIP_ABOVE));
    let along = (seat.to - seat.from).unit()?;
    let normal = along.cross(Vec3::Y).unit()?;
    let cushion = seat.cushion.as_ref().map_or(0.0, |c| c.2);
    let hip = seat.from + along * ahead + normal * (cushion + above);
    let back = back_direction(design, along, normal, assumptions);
    let torso = trunk.of_stature * stature;
    let mut segments = vec![segment(trunk, "", mass, hip, hip + back * torso)];
    for side in [1.0, -1.0] {
        let out = Vec3::Y * (side * rider.get("hip_width").unwrap_or(0.0) / 4.0);
        let word = if side > 0.0 { "left " } else { "right " };
        let knee = hip + out + along * (thigh.of_stature * stature);
        segments.push(segment(thigh, word, mass, hip + out, knee));
        let (ankle, toe) = foot_place(design, knee, out, stature, (shank, foot));
        segments.push(segment(shank, word, mass, knee, ankle));
        segments.push(segment(foot, word, mass, ankle, toe));
    }
    Some(RiderBody { mass, segments })
}

pub(crate) fn support(design: &Design, kind: SupportKind) -> Option<&Support> {
    design.supports.iter().find(|s| s.kind == kind)
}

fn back_direction(design: &Design, along: Vec3, normal: Vec3, assumptions: &mut Vec<String>) -> Vec3 {
    if let Some(back) = support(design, SupportKind::Back)
        && let Some(direction) = (back.to - back.from).unit()
    {
        return direction;
    }
    assumptions
        .push("there is no back support: the trunk leans back 10 degrees from square to the seat".to_owned());
    normal * libm::cos(LEAN) - along * libm::sin(LEAN)
}

/// Ankle and toe: towards the foot support, or hanging where there is none.
fn foot_place(
    design: &Design,
    knee: Vec3,
    out: Vec3,
    stature: f64,
    (shank, foot): (&Segment, &Segment),
) -> (Vec3, Vec3) {
    let length = shank.of_stature * stature;
    let foot_length = foot.of_stature * stature;
    let Some(rest) = support(design, SupportKind::Footrest) else {
        let ankle = knee - Vec3::Z * length;
        return (ankle, ankle + Vec3::X * foot_length);
    };
    let along = (rest.to - rest.from).unit().unwrap_or(Vec3::X);
    let normal = along.cross(Vec3::Y).unit().unwrap_or(Vec3::Z);
    let target = rest.from + out + normal * (ANKLE * stature);
    let ankle = knee + (target - knee).unit().unwrap_or(-Vec3::Z) * length;
    (ankle, ankle + along * foot_length)
}

fn segment(row: &Segment, side: &str, body: f64, near: Vec3, far: Vec3) -> SegmentMass {
    SegmentMass {
        name: format!("{side}{}", row.name),
        mass: row.share * body,
        centre: near.mix(far, row.centre),
        ends: (near, far),
    }
}
