//! The rider in the seat: segments with their masses and centres.
//!
//! Shares and centres come from the one segment table of the catalogue; lengths from the rider's own
//! measures where they are given, else from stature by the fractions beside the table. The buttocks are where back support and
//! seat leave them ([`seated`]), the thigh lies along the seat, the trunk along the back support, the shank points from the
//! knee to the foot support. Left and right are worked out apart. Joints that do not go so far change the posture (`joints`).

mod grow;
mod guess;
mod joints;
mod limbs;
mod posture;
mod seated;

pub use grow::{Growth, grow, grown};
pub(crate) use grow::{YEAR, small, unsaid as grows_unsaid};
pub(crate) use guess::guess;
pub use guess::guessed;
pub use limbs::LegEnd;
pub use posture::ankle_height;
pub(crate) use posture::stands_at;

use crate::assumed::Assumed;
use crate::problem::Problem;
use chairwright_design::{Design, Origin, Rider, Segment, Side, Support, SupportKind, Vec3};
use limbs::Limbs;

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

/// One leg as it is held, in the drawing's axes.
#[derive(Clone, PartialEq, Debug)]
pub struct Leg {
    /// Which.
    pub side: Side,
    /// Where it ends.
    pub end: LegEnd,
    /// The hip joint.
    pub hip: Vec3,
    /// The knee joint, or where it would be.
    pub knee: Vec3,
    /// The ankle joint, or where it would be.
    pub ankle: Vec3,
    /// The tip of the foot, or where it would be.
    pub toe: Vec3,
    /// Whether a prosthesis is worn on it.
    pub prosthesis: bool,
    /// How far the chair asks the knee to bend from straight, in radians.
    pub knee_bend: f64,
    /// What the chair asks of the ankle: foot against shank less a right angle; toes up is positive, in radians.
    pub ankle_bend: f64,
    /// Where the knee does not bend so far: how far ahead and above of where the chair wants it the ankle is, in metres.
    pub moves: Option<(f64, f64)>,
    /// How much further than the shank is long the place of the ankle over the foot support is, in metres; below zero nearer.
    /// Zero without a foot support.
    pub beyond: f64,
    /// How far from straight below the hip the foot has to go sideways to be on its support at all, in metres.
    pub aside: f64,
}

impl Leg {
    /// Whether there is a foot, of flesh or not.
    #[must_use]
    pub fn has_foot(&self) -> bool {
        self.end == LegEnd::Whole || self.prosthesis
    }
}

/// The seated rider.
#[derive(Clone, PartialEq, Debug)]
pub struct RiderBody {
    /// Declared mass in kg, and what is worn on residual limbs.
    pub mass: f64,
    /// The segments.
    pub segments: Vec<SegmentMass>,
    /// Middle between the hip joints.
    pub hip: Vec3,
    /// Unit vector along the thighs.
    pub along: Vec3,
    /// Unit vector up the trunk.
    pub up: Vec3,
    /// Upper side of the loaded seat: where the back of the buttocks is on it, and the unit normal.
    pub seat: (Vec3, Vec3),
    /// Both legs, left first.
    pub legs: Vec<Leg>,
    /// Arms that do not end in a hand: the side, and from the top of the shoulder to the end in metres.
    pub stumps: Vec<(Side, f64)>,
}

impl SegmentMass {
    /// Whether it is a prosthesis of a leg, which may be taken off.
    pub(crate) fn is_worn(&self) -> bool {
        self.name.ends_with("prosthesis")
    }
}

impl RiderBody {
    /// Masses and centres of the segments without a prosthesis of a leg.
    pub(crate) fn flesh(&self) -> Vec<(f64, Vec3)> {
        self.segments.iter().filter(|s| !s.is_worn()).map(|s| (s.mass, s.centre)).collect()
    }

    /// The same with the trunk leaning: turned about the hips by an angle about a unit axis.
    #[must_use]
    pub fn leaning(&self, axis: Vec3, angle: f64) -> Vec<(f64, Vec3)> {
        let turned = |s: &SegmentMass| {
            let arm = s.centre - self.hip;
            if s.name.starts_with(TRUNK) { self.hip + turn(arm, axis, angle) } else { s.centre }
        };
        self.segments.iter().filter(|s| !s.is_worn()).map(|s| (s.mass, turned(s))).collect()
    }
}

/// Turns a vector about a unit axis (Rodrigues' formula).
fn turn(v: Vec3, axis: Vec3, angle: f64) -> Vec3 {
    let (s, c) = libm::sincos(angle);
    v * c + axis.cross(v) * s + axis * (axis.dot(v) * (1.0 - c))
}

/// Breadth of the shoulders as a fraction of stature: NYU Technical Report 1166.03 (1966).
pub(crate) const SHOULDERS: f64 = 0.259;

/// Half the breadth of the shoulders; by stature where nobody measured it.
pub(crate) fn half_shoulders(rider: &Rider, stature: f64) -> f64 {
    rider.get("shoulder_width").unwrap_or_else(|| rider.at_trial("shoulder_width", SHOULDERS * stature)) / 2.0
}

/// How far from the middle of the chair a hip joint lies, and the foot below it: a quarter of the width over the hips. Common
/// practice, no source.
pub(crate) fn hip_out(hips: f64) -> f64 {
    hips / 4.0
}

/// Up to this age, in years, a body's segments are not shared out as in the table. Common practice, no source.
const GROWN_TABLE: f64 = 15.0;

pub(crate) const TRUNK: &str = "head, arms and trunk";

/// Hip joint ahead of the back support, as a fraction of stature. From memory, not checked:
/// buttock-to-knee less the thigh segment of the same statures.
const HIP_AHEAD: f64 = 0.0733;
/// Hip joint above the seat surface, as a fraction of stature. From memory, not checked.
const HIP_ABOVE: f64 = 0.050;
/// Knee joint ahead of the hollow of the knee, as a fraction of stature: thigh segment 0.245 and hip joint 0.0733 ahead
/// of the buttock (both from memory) less buttock to hollow of the knee 0.286 (ANSUR II, median men).
const KNEE_AHEAD: f64 = 0.032;
/// Measured and estimated lengths that differ by more than this are worth a word.
const WORTH_A_WORD: f64 = 0.02;

/// What seating the rider may report.
pub(crate) struct Notes<'n> {
    pub(crate) assumptions: &'n mut Vec<Assumed>,
    pub(crate) problems: &'n mut Vec<Problem>,
    pub(crate) origin: Option<Origin>,
}

impl Notes<'_> {
    pub(crate) fn need(
        &mut self,
        rider: &Rider,
        measure: &'static str,
        wanted_by: &'static str,
    ) -> Option<f64> {
        let value = rider.get(measure);
        if value.is_none() {
            self.missing(measure.to_owned(), wanted_by);
        }
        value
    }

    pub(crate) fn missing(&mut self, measure: String, wanted_by: &'static str) {
        let origin = self.origin;
        self.problems.push(Problem::MissingMeasure { measure, wanted_by, origin });
    }
}

/// Lengths of the body in metres.
struct Lengths {
    ahead: f64,
    above: f64,
    trunk: f64,
    stature: f64,
}

/// Seats the rider. `None` when a measure or the seat is missing; the missing measure is reported.
#[must_use]
pub fn seat_rider(
    design: &Design,
    assumptions: &mut Vec<Assumed>,
    problems: &mut Vec<Problem>,
) -> Option<RiderBody> {
    let rider = &design.rider;
    if !rider.given {
        return None;
    }
    let seat = support(design, SupportKind::Seat)?;
    let mut notes = Notes { assumptions, problems, origin: rider.origin };
    let mass = notes.need(rider, "mass", "tip angles and loads");
    let stature = notes.need(rider, "stature", "the lengths of the rider's segments");
    let (mass, stature) = (mass?, stature?);
    let row = design.body.get(TRUNK)?;
    let limbs = Limbs::of(design, mass, stature, &mut notes)?;
    let lengths = lengths(rider, row, stature, &mut notes);
    if let Some(age) = rider.get("age").map(|a| a / grow::YEAR).filter(|a| *a < GROWN_TABLE) {
        notes.assumptions.push(Assumed::SegmentsOfGrownUps(age));
    }
    let along = (seat.to - seat.from).unit()?;
    let normal = along.cross(Vec3::Y).unit()?;
    let edge = seated::surface(seat, normal);
    let hip = edge + along * seated::hip(design, edge, (along, normal), &lengths) + normal * lengths.above;
    let surface = hip - along * lengths.ahead - normal * lengths.above;
    seated::told(design, seat, along, &mut notes);
    let drawn = posture::trunk(design, along, normal, notes.assumptions);
    let ends = [Side::Left, Side::Right].map(|s| limbs.end(s).0);
    let (hip, up) = joints::trunk(design, (hip, along, drawn), ends, &lengths, &mut notes);
    let mut segments = limbs.trunk(row, hip, up, &lengths);
    let mut legs = Vec::new();
    for side in [Side::Left, Side::Right] {
        let leg = posture::leg(design, side, (hip, along), &limbs, &lengths, &mut notes)?;
        segments.extend(limbs.leg(design, &leg)?);
        legs.push(leg);
    }
    let mass = segments.iter().map(|s| s.mass).sum();
    posture::bends(rider, &legs, along.angle_to(drawn), design, &mut notes);
    Some(RiderBody { mass, segments, hip, along, up, seat: (surface, normal), legs, stumps: limbs.stumps() })
}

fn lengths(rider: &Rider, row: &Segment, stature: f64, notes: &mut Notes) -> Lengths {
    let mut estimate = |measure: &'static str, fraction: f64| {
        let by_stature = (fraction * stature, 0.0);
        rider.get(measure).unwrap_or_else(|| guess(rider, measure, by_stature, stature, notes.assumptions))
    };
    let (ahead, above) = (estimate("hip_ahead", HIP_AHEAD), estimate("hip_above", HIP_ABOVE));
    let by_stature = row.of_stature * stature;
    let shoulders = [Side::Left, Side::Right].map(|s| rider.sided("shoulder_height", s));
    let trunk = match shoulders.into_iter().flatten().reduce(f64::max) {
        Some(shoulder) => {
            let measured = shoulder - above;
            if (measured - by_stature).abs() > WORTH_A_WORD {
                notes.assumptions.push(Assumed::Trunk(measured, by_stature));
            }
            by_stature.max(measured)
        }
        None => guess(rider, "shoulder_height", (by_stature, above), stature, notes.assumptions),
    };
    Lengths { ahead, above, trunk, stature }
}

pub(crate) fn support(design: &Design, kind: SupportKind) -> Option<&Support> {
    design.supports.iter().find(|s| s.kind == kind)
}

fn segment(name: String, mass: f64, centre: f64, (near, far): (Vec3, Vec3)) -> SegmentMass {
    SegmentMass { name, mass, centre: near.mix(far, centre), ends: (near, far) }
}
