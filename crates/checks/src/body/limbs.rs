//! Which limbs there are, what is missing, and what each weighs.
//!
//! The declared mass is that of the rider as weighed, without prostheses. A missing limb takes its share of an
//! intact body away: intact mass = weighed mass / (1 − missing share).

use super::{Leg, Lengths, Notes, SegmentMass, TRUNK, segment};
use crate::assumed::Assumed;
use crate::ends;
use crate::problem::{Limb, Problem};
use chairwright_design::{Design, Segment, Side, Vec3};

/// Where a leg ends.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum LegEnd {
    /// It is whole.
    Whole,
    /// The foot is missing.
    Foot,
    /// It ends this far along the shank, as a share of the shank's length.
    BelowKnee(f64),
    /// It ends at the knee.
    Knee,
    /// It ends this far along the thigh, as a share of the thigh's length.
    AboveKnee(f64),
    /// It ends at the hip.
    Hip,
}

impl LegEnd {
    /// What is left of thigh, shank and foot, each as a share of its length.
    #[must_use]
    pub fn left(self) -> [f64; 3] {
        match self {
            LegEnd::Whole => [1.0, 1.0, 1.0],
            LegEnd::Foot => [1.0, 1.0, 0.0],
            LegEnd::BelowKnee(share) => [1.0, share, 0.0],
            LegEnd::Knee => [1.0, 0.0, 0.0],
            LegEnd::AboveKnee(share) => [share, 0.0, 0.0],
            LegEnd::Hip => [0.0, 0.0, 0.0],
        }
    }
}

/// One arm.
#[derive(Clone, Copy, PartialEq, Debug)]
struct ArmEnd {
    /// What is left of upper arm, forearm and hand, each as a share of its length.
    left: [f64; 3],
    /// From the top of the shoulder to its end in metres, where it does not end in a hand.
    stump: Option<f64>,
    /// Mass of a prosthesis that is worn.
    prosthesis: f64,
}

const WHOLE_ARM: ArmEnd = ArmEnd { left: [1.0; 3], stump: None, prosthesis: 0.0 };

const LEG: [&str; 3] = ["thigh", "shank", "foot"];
const ARM: [&str; 3] = ["upper arm", "forearm", "hand"];

/// The limbs of one rider.
pub(super) struct Limbs {
    /// Mass of the same body with nothing missing.
    intact: f64,
    legs: [(LegEnd, Option<f64>); 2],
    arms: [ArmEnd; 2],
    arm_rows: Vec<Segment>,
    shoulder_half: f64,
}

fn index(side: Side) -> usize {
    usize::from(side == Side::Right)
}

impl Limbs {
    pub(super) fn of(design: &Design, mass: f64, stature: f64, notes: &mut Notes) -> Option<Limbs> {
        // of two contradicting entries neither is weighed
        if !ends::contradictions(design).is_empty() {
            return None;
        }
        let rider = &design.rider;
        let [left, right] = [Side::Left, Side::Right].map(|side| leg_end(design, side, stature, notes));
        let legs = [left?, right?];
        let [left, right] = [Side::Left, Side::Right].map(|side| arm_end(design, side, stature, notes));
        let arms = [left?, right?];
        let share = |name: &str| design.body.get(name).map(|s| s.share);
        let mut gone = 0.0;
        for (left, names) in legs.iter().map(|l| (l.0.left(), LEG)).chain(arms.iter().map(|a| (a.left, ARM))) {
            for (left, name) in left.iter().zip(names) {
                if *left < 1.0 {
                    gone += (1.0 - left) * share(name)?;
                }
            }
        }
        if gone > 0.0 {
            notes.assumptions.push(Assumed::MissingLimbs(gone, mass / (1.0 - gone)));
        }
        let arm_rows = ARM.iter().filter_map(|n| design.body.get(n).cloned()).collect();
        let shoulder_half = super::half_shoulders(rider, stature);
        Some(Limbs { intact: mass / (1.0 - gone), legs, arms, arm_rows, shoulder_half })
    }

    pub(super) fn end(&self, side: Side) -> (LegEnd, bool) {
        let (end, prosthesis) = self.legs[index(side)];
        (end, prosthesis.is_some())
    }

    /// Arms that do not end in a hand: the side, and from the top of the shoulder to the end.
    pub(super) fn stumps(&self) -> Vec<(Side, f64)> {
        let sides = [Side::Left, Side::Right].into_iter().zip(&self.arms);
        sides.filter_map(|(side, arm)| Some((side, arm.stump?))).collect()
    }

    /// Head, arms and trunk in one, as the table has them, less what is missing of the arms, with what is worn in its place.
    pub(super) fn trunk(&self, row: &Segment, hip: Vec3, up: Vec3, lengths: &Lengths) -> Vec<SegmentMass> {
        let shoulder = hip + up * lengths.trunk;
        let whole = segment(TRUNK.to_owned(), row.share * self.intact, row.centre, (hip, shoulder));
        let mut moment = whole.centre * whole.mass;
        let mut mass = whole.mass;
        for (side, arm) in [Side::Left, Side::Right].into_iter().zip(&self.arms) {
            // the table's trunk carries its arms hanging beside it
            let mut at = shoulder + Vec3::Y * (side.sign() * self.shoulder_half);
            let mut stump = None;
            for (left, row) in arm.left.iter().zip(&self.arm_rows) {
                let end = at - up * (row.of_stature * lengths.stature);
                let gone = (1.0 - left) * row.share * self.intact;
                moment = moment - at.mix(end, f64::midpoint(1.0, *left)) * gone;
                mass -= gone;
                if *left < 1.0 {
                    stump = stump.or(Some(at.mix(end, *left)));
                }
                at = end;
            }
            // what is worn hangs from the end of the limb to where the hand would end
            if let Some(stump) = stump {
                moment += stump.mix(at, 0.5) * arm.prosthesis;
                mass += arm.prosthesis;
            }
        }
        let centre = if mass > 0.0 { moment * (1.0 / mass) } else { whole.centre };
        vec![SegmentMass { mass, centre, ..whole }]
    }

    /// What there is of one leg, and a prosthesis if it is worn.
    pub(super) fn leg(&self, design: &Design, leg: &Leg) -> Option<Vec<SegmentMass>> {
        let points = [leg.hip, leg.knee, leg.ankle, leg.toe];
        let (end, prosthesis) = self.legs[index(leg.side)];
        let word = leg.side.word();
        let mut out = Vec::new();
        for (i, (name, left)) in LEG.iter().zip(end.left()).enumerate() {
            let row = design.body.get(name)?;
            if left <= 0.0 {
                continue;
            }
            // the table's foot ends at the heads of the metatarsals, not at the tip of the toes
            let whole = if *name == "foot" { METATARSALS } else { 1.0 };
            let (near, far) = (points[i], points[i].mix(points[i + 1], left * whole));
            out.push(segment(
                format!("{word} {name}"),
                row.share * self.intact * left,
                row.centre,
                (near, far),
            ));
        }
        if let Some(mass) = prosthesis {
            let start = out.last().map_or(leg.hip, |s| s.ends.1);
            out.push(segment(format!("{word} prosthesis"), mass, 0.5, (start, leg.toe)));
        }
        Some(out)
    }
}

fn leg_end(design: &Design, side: Side, stature: f64, notes: &mut Notes) -> Option<(LegEnd, Option<f64>)> {
    let rider = &design.rider;
    let Some(level) = rider.sided_word("missing_leg", side) else {
        return Some((LegEnd::Whole, None));
    };
    let row = |name: &str| design.body.get(name).map(|s| s.of_stature * stature);
    let guessed = |measure: &str, name: &str| row(name).map(|value| rider.at_trial(measure, value));
    let ahead = rider.get("hip_ahead");
    let ahead = ahead.unwrap_or_else(|| rider.at_trial("hip_ahead", super::HIP_AHEAD * stature));
    // from hip to knee joint as where the legs are placed
    let measured = rider.sided("thigh", side).map(|t| t + super::KNEE_AHEAD * stature - ahead);
    let thigh = measured.filter(|t| *t > 0.0).map_or_else(|| guessed("thigh", "thigh"), Some);
    let limb = |wanted_by, notes: &mut Notes| {
        let value = rider.sided("residual_limb", side);
        if value.is_none() {
            notes.missing(format!("residual_limb.{}", side.word()), wanted_by);
        }
        value
    };
    let given = rider.sided("residual_limb", side);
    let knee = ahead + thigh?;
    let shank = rider.sided("calf", side).map_or_else(|| guessed("calf", "shank"), Some)?;
    let which = (Limb::Leg, side);
    let end = match level {
        "foot" => {
            let ankle = knee + shank;
            at_joint(design, which, given, ((ankle, ankle + HEEL * shank), shank), notes)?;
            LegEnd::Foot
        }
        "below_knee" => {
            let left = limb("the mass and place of what is left of the shank", notes)?;
            LegEnd::BelowKnee(share(design, which, left, (knee, shank), notes)?)
        }
        "through_knee" => {
            at_joint(design, which, given, ((knee, knee), thigh?), notes)?;
            LegEnd::Knee
        }
        "above_knee" => {
            let left = limb("the mass and place of what is left of the thigh", notes)?;
            LegEnd::AboveKnee(share(design, which, left, (ahead, thigh?), notes)?)
        }
        _ => LegEnd::Hip,
    };
    let prosthesis = match rider.sided_word("prosthesis", side) {
        Some("worn") => {
            let mass = rider.sided("prosthesis_mass", side);
            if mass.is_none() {
                notes.missing(format!("prosthesis_mass.{}", side.word()), "the balance with the prosthesis on");
            }
            Some(mass?)
        }
        Some(_) => None,
        None => {
            notes.assumptions.push(Assumed::NoProsthesis(Limb::Leg, side));
            None
        }
    };
    Some((end, prosthesis))
}

/// The share of a segment that is left, by the length to the end of the limb, knee or elbow straight, from the back of the
/// pelvis or the top of the shoulder; the segment begins `from` there and is `long`. A length that ends in another segment is no length of this limb.
fn share(
    design: &Design,
    (limb, side): (Limb, Side),
    given: f64,
    (from, long): (f64, f64),
    notes: &mut Notes,
) -> Option<f64> {
    let share = (given - from) / long;
    // the tape and the joints' places are good to a few per cent of the segment
    if (-NEAR..=1.0 + NEAR).contains(&share) {
        return Some(share.clamp(0.0, 1.0));
    }
    elsewhere(design, (limb, side), given, (from, from + long), notes);
    None
}

/// Whether a limb that ends at a joint is as long as that; `long` is the segment before the joint, to a few per cent of which the
/// tape is good.
fn at_joint(
    design: &Design,
    which: (Limb, Side),
    given: Option<f64>,
    (range, long): ((f64, f64), f64),
    notes: &mut Notes,
) -> Option<()> {
    match given {
        Some(given) if given < range.0 - NEAR * long || given > range.1 + NEAR * long => {
            elsewhere(design, which, given, range, notes);
            None
        }
        _ => Some(()),
    }
}

/// Tells of a limb that by its length ends elsewhere than its level says.
fn elsewhere(design: &Design, (limb, side): (Limb, Side), given: f64, range: (f64, f64), notes: &mut Notes) {
    let key = if limb == Limb::Leg { "rider.residual_limb" } else { "rider.residual_arm" };
    let name = format!("{key}.{}", side.word());
    let known = design.known.iter().find(|k| k.name == name || k.name == key);
    let origin = known.map(|k| k.origin).or(notes.origin);
    notes.problems.push(Problem::LimbLength { limb, side, given, range, origin });
}

/// Heads of the metatarsals ahead of the ankle, as a share of the whole foot's length: the ankle stands over its hind quarter,
/// they lie at some 0.73 of it. From memory, not checked.
const METATARSALS: f64 = 0.48;

/// From the ankle to the sole, as a share of the shank, at most: a limb without its foot may keep its heel's pad. From memory, not checked.
const HEEL: f64 = 0.2;

/// How far a measured limb may end beyond its segment, as a share of it. Common practice, no source.
const NEAR: f64 = 0.05;

/// Where an arm ends. What is left of a segment is measured with `residual_arm`, from the top of the shoulder to the end of the
/// limb with the elbow straight, or half of it is taken to be left, and said so.
fn arm_end(design: &Design, side: Side, stature: f64, notes: &mut Notes) -> Option<ArmEnd> {
    let rider = &design.rider;
    let Some(level) = rider.sided_word("missing_arm", side) else { return Some(WHOLE_ARM) };
    let [upper, fore] = arm_lengths(design, side, stature)?;
    let given = residual_arm(design, side);
    if level == "hand" {
        let wrist = upper + fore;
        let hand = design.body.get("hand").map(|h| h.of_stature * stature)?;
        at_joint(design, (Limb::Arm, side), given, ((wrist, wrist + hand), fore), notes)?;
    }
    let mut part = |part: &'static str, from: f64, long: f64| match given {
        Some(given) => share(design, (Limb::Arm, side), given, (from, long), notes),
        None => {
            notes.assumptions.push(Assumed::HalfLeft(side, part));
            Some(0.5)
        }
    };
    let left = match level {
        "hand" => [1.0, 1.0, 0.0],
        "below_elbow" => [1.0, part("forearm", upper, fore)?, 0.0],
        "above_elbow" => [part("upper arm", 0.0, upper)?, 0.0, 0.0],
        _ => [0.0; 3],
    };
    let stump = given.filter(|_| left[0] > 0.0).unwrap_or(left[0] * upper + left[1] * fore);
    Some(ArmEnd { left, stump: Some(stump), prosthesis: arm_prosthesis(design, side, notes)? })
}

/// Of two arms that end in different places the other one's length says nothing.
fn residual_arm(design: &Design, side: Side) -> Option<f64> {
    let own = |side: Side| design.rider.get(&format!("residual_arm.{}", side.word()));
    let sided = [Side::Left, Side::Right].into_iter().any(|s| own(s).is_some());
    own(side).or_else(|| design.rider.get("residual_arm").filter(|_| !sided))
}

/// The mass of an arm's prosthesis, nothing where none is worn.
fn arm_prosthesis(design: &Design, side: Side, notes: &mut Notes) -> Option<f64> {
    match design.rider.sided_word("arm_prosthesis", side) {
        Some("worn") => {
            let mass = design.rider.sided("arm_prosthesis_mass", side);
            if mass.is_none() {
                let wanted_by = "the balance with the prosthesis on";
                notes.missing(format!("arm_prosthesis_mass.{}", side.word()), wanted_by);
            }
            mass
        }
        Some(_) => Some(0.0),
        None => {
            notes.assumptions.push(Assumed::NoProsthesis(Limb::Arm, side));
            Some(0.0)
        }
    }
}

/// Upper arm and forearm to the wrist: as measured, else by the table. The measure goes to the grip, where by the table the
/// hand has its middle.
fn arm_lengths(design: &Design, side: Side, stature: f64) -> Option<[f64; 2]> {
    let rider = &design.rider;
    let row = |name: &str| design.body.get(name);
    let by_table = |name: &str| row(name).map(|s| s.of_stature * stature);
    let upper = rider.sided("upper_arm", side).map_or_else(|| by_table("upper arm"), Some)?;
    let grip = row("hand").map(|h| h.centre * h.of_stature * stature)?;
    let fore = rider.sided("forearm", side).map(|f| f - grip).filter(|f| *f > 0.0);
    Some([upper, fore.map_or_else(|| by_table("forearm"), Some)?])
}
