//! The feet with their shoes, of flesh or not: where they stand and how large they are. Everything that asks where a
//! foot is asks here.
//!
//! The shank points at the rear edge of the foot support, and nobody says which part of the foot stands there: anything from
//! the heel to the ankle. One room therefore holds the foot in all of these places, from the heel with the ankle over the edge
//! to the toes with the heel on it, and everything looks at that room. Where nobody measured the hips it is as wide as where the
//! feet may stand: from the middle of the chair to where hips that fill the seat would put them.

use crate::assumed::{Assumed, once};
use crate::body::{Leg, RiderBody, ankle_height, guess, hip_out, support};
use chairwright_design::{Design, Side, SupportKind, Vec3};
use chairwright_frame::Settled;

/// Foot length and breadth as fractions of stature: NYU Technical Report 1166.03 (1966), from memory.
const LENGTH: f64 = 0.152;
const BREADTH: f64 = 0.055;
/// What a shoe adds to the length and the breadth of a bare foot, m. Common practice, no source.
const SHOE: [f64; 2] = [0.025, 0.010];
/// Heel behind the ankle, as a share of the foot's length. From memory, not checked.
const HEEL: f64 = 0.25;

/// One foot, in the drawing's axes and in metres.
#[derive(Clone, Debug)]
pub(crate) struct Foot {
    pub side: Side,
    /// The ankle over the rear edge of the foot support, or where it hangs.
    ankle: Vec3,
    /// Unit vectors: to the toes, to the left, and up from the sole.
    pub along: Vec3,
    pub left: Vec3,
    pub normal: Vec3,
    /// Size of the room that the shoe is somewhere in.
    pub length: f64,
    pub breadth: f64,
    pub height: f64,
}

impl Foot {
    /// Middle of the room around the shoe.
    pub(crate) fn middle(&self) -> Vec3 {
        let behind = self.length * HEEL / (1.0 + HEEL);
        self.ankle + self.along * (self.length / 2.0 - behind) - self.normal * (self.height / 2.0)
    }

    /// The foremost tip of the sole: the whole length of the foot ahead of the rear edge of its support.
    pub(crate) fn toe(&self) -> Vec3 {
        self.middle() + self.along * (self.length / 2.0) - self.normal * (self.height / 2.0)
    }
}

/// Whether feet go on the floor on purpose: they push, or one steers.
pub(crate) fn on_the_floor(design: &Design) -> bool {
    design.rider.word("pushes") == Some("feet") || design.rider.word("steers") == Some("foot")
}

/// How high a foot that hangs ends above the floor: as far below the hollow of the knee as the lower leg is long, as a builder
/// measures it. `None` where nobody measured the thigh.
pub(crate) fn hangs(design: &Design, settled: &Settled, rider: &RiderBody, leg: &Leg) -> Option<f64> {
    let thigh = design.rider.sided("thigh", leg.side)?;
    let hollow = Vec3 { y: leg.hip.y, ..rider.seat.0 + rider.along * thigh };
    let calf = design.rider.sided("calf", leg.side).unwrap_or((leg.ankle - leg.knee).norm());
    Some(settled.pose.place(hollow).z - calf)
}

/// The feet that the seated rider has, and those of prostheses that are worn.
pub(crate) fn feet(design: &Design, rider: &RiderBody, assumptions: &mut Vec<Assumed>) -> Vec<Foot> {
    let legs = rider.legs.iter().filter(|l| l.has_foot());
    legs.filter_map(|leg| foot(design, leg, assumptions)).collect()
}

fn foot(design: &Design, leg: &Leg, assumptions: &mut Vec<Assumed>) -> Option<Foot> {
    let along = (leg.toe - leg.ankle).unit()?;
    let left = Vec3::Y.across(along).unit()?;
    let normal = along.cross(left);
    let [length, breadth, height] = size(design, leg.side, assumptions)?;
    let across = across(design, assumptions);
    // a knee that does not bend so far keeps the foot off its support
    let rests = leg.moves.is_none();
    let ankle = if rests { on_support(design, leg.ankle, normal, height) } else { leg.ankle };
    let ankle = ankle + left * (leg.side.sign() * across / 2.0);
    let (length, breadth) = (length * (1.0 + HEEL), breadth + across);
    Some(Foot { side: leg.side, ankle, along, left, normal, length, breadth, height })
}

/// How far to its side a foot may stand beyond where the body has it: nothing, if the hips were measured.
fn across(design: &Design, assumptions: &mut Vec<Assumed>) -> f64 {
    if design.rider.get("hip_width").is_some() {
        return 0.0;
    }
    once(Assumed::FeetAnywhere, assumptions);
    support(design, SupportKind::Seat).map_or(0.0, |s| hip_out(s.width))
}

/// Length, breadth and height of the box around a shoe; what is not given is estimated and said. A rider is only seated
/// when the stature is known.
fn size(design: &Design, side: Side, assumptions: &mut Vec<Assumed>) -> Option<[f64; 3]> {
    let rider = &design.rider;
    let stature = rider.get("stature")?;
    let mut want = |measure: &'static str, share: f64, shoe: f64| {
        let by_stature = (share * stature, shoe);
        let guessed = || shoe + guess(rider, measure, by_stature, stature, assumptions);
        rider.sided(measure, side).unwrap_or_else(guessed)
    };
    let (length, breadth) = (want("foot_length", LENGTH, SHOE[0]), want("foot_width", BREADTH, SHOE[1]));
    let height = ankle_height(stature);
    once(Assumed::Shoe(height), assumptions);
    Some([length, breadth, height])
}

/// The ankle with the sole on the foot support, if there is one: the foot rests there, whatever the length
/// of the shank says.
fn on_support(design: &Design, ankle: Vec3, normal: Vec3, height: f64) -> Vec3 {
    let Some(rest) = support(design, SupportKind::Footrest) else { return ankle };
    ankle - normal * ((ankle - rest.from).dot(normal) - height)
}
