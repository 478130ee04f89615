//! What the checks took for granted and what they left out.

use crate::problem::Limb;
use chairwright_design::{OtherBuilt, Side, SupportKind};

/// One thing that nobody said and that was assumed, or that was not looked at.
#[derive(Clone, PartialEq, Debug)]
pub enum Assumed {
    /// There is no rider, so that nothing of one was computed.
    NoRider,
    /// Measures of rider and place that nothing in this design is worked out from, by their full names.
    Unused(Vec<String>),
    /// Measures of the rider that were taken on this side alone and stand for both.
    OneSide(Side, Vec<&'static str>),
    /// After this many months the measures stay, for the rider is grown up.
    StaysAsOld(f64),
    /// The rider grows until the state under look.
    Grows {
        /// After how many months.
        months: f64,
        /// By how much stature a year, in metres.
        yearly: f64,
        /// As measured last year, and not by a usual rate.
        as_last_year: bool,
    },
    /// The rider is grown up after this many months, before the state under look, and grows no more from then on.
    GrownUpBy {
        /// Months.
        months: f64,
    },
    /// Nobody says how far this sling hangs through under the rider: the body is placed as on a tight one.
    SagUnsaid(SupportKind),
    /// A helper has to push the loaded chair up the slope, or hold it back on the way down, with this force in N: whether
    /// the helper can was not judged.
    HelperUnjudged {
        /// Least and greatest push along the slope.
        push: (f64, f64),
        /// Pull down the slope of the loaded chair that runs easily.
        back: f64,
        /// The slope.
        slope: f64,
    },
    /// A measure estimated from stature.
    Estimate {
        /// The measure.
        measure: &'static str,
        /// In metres, as a builder takes it.
        value: f64,
        /// The fraction of stature that it is.
        of_stature: f64,
        /// How far people of one stature lie from it, in metres.
        spread: f64,
    },
    /// Hip to shoulder as measured and by stature, in metres: the longer one counts.
    Trunk(f64, f64),
    /// No back support, so that the trunk leans by a usual angle.
    NoBack,
    /// Shanks point to the foot support.
    Shanks,
    /// The share of an intact body that is missing, and the mass of an intact one in kg.
    MissingLimbs(f64, f64),
    /// No prosthesis is worn on a side where something is missing.
    NoProsthesis(Limb, Side),
    /// Half of a segment of a side is taken to be left.
    HalfLeft(Side, &'static str),
    /// The hips do not bend or open as seat and back ask: the trunk leans back further by this (forward below zero, radians), the
    /// pelvis has slid ahead by this (metres).
    HipHeld {
        /// Radians.
        back: f64,
        /// Metres.
        slid: f64,
    },
    /// No one angle is within the range of both hips.
    HipsApart,
    /// A knee keeps the foot this far off where the chair wants it, in metres.
    KneeHeld {
        /// Which.
        side: Side,
        /// Metres.
        off: f64,
    },
    /// An ankle keeps the sole off its support.
    AnkleHeld(Side),
    /// Each foot is looked at wherever it may stand, for nobody says how wide the hips are.
    FeetAnywhere,
    /// The box around a shoe, this high in metres.
    Shoe(f64),
    /// A measure of leaning, taken at a usual reach in radians.
    UsualReach(String, f64),
    /// The built chair was tipped one way only.
    TippedOnce,
    /// The readings of the built chair are of another chair.
    OtherBuilt(OtherBuilt),
    /// The built chair is taken to differ from its plan here as it did where it was tested.
    BuiltCarried,
    /// The built chair was put on scales and not tipped.
    OnScales,
    /// Nothing says how old the rider is, who is as small as a child.
    MaybeChild,
    /// Nothing says how old the rider is, who is no longer as small as a child.
    GrownUp,
    /// Gaps for fingers were not looked for while a part is on its way.
    FingersWhereItStands,
    /// A wheel whose hub nobody measured: where its spokes stand is not known.
    SpokesUnmeasured,
    /// Brakes are taken as open where wheels are pulled off.
    BrakesOpen,
    /// Brakes stand still beside the push rims: nobody knows the way of their levers.
    LeverStands,
    /// The shape of forks.
    Forks,
    /// Of so many gaps that catch a finger only the narrowest are told.
    NarrowestTold {
        /// How many there are.
        of: usize,
        /// How many are told.
        told: usize,
    },
    /// Nobody says whether the wheels' axles bear being held from one side.
    SidesUnsaid,
    /// Axles of which nobody says how thick they are, or how wide the holes are that they go into.
    BoresUnmeasured,
    /// Flutter was not computed; the casters are inside the band of common practice.
    FlutterInBand,
    /// The built chair ran without flutter as fast as it is meant to go.
    FlutterTried,
    /// No foot support: the feet hang where room to turn is looked for.
    FeetHang,
    /// Between the walls of a corridor this wide the chair does not turn round, which takes so much, in metres.
    NoTurning {
        /// The narrowest corridor.
        corridor: f64,
        /// What half a turn takes.
        passage: f64,
    },
    /// Sides of the boot that are not given.
    BootUnknown(Vec<&'static str>),
    /// The frame goes into the boot only slanted.
    BootSlanted,
    /// The frame goes into the boot, and so many wheels were found no place beside it; none where the state has taken them off.
    BootBeside(usize),
    /// So many things ride along that rolling was not judged for every set of them.
    ManyRide(usize),
    /// No ground is named: what rolling takes of the rider, and how the chair runs downhill on a cross slope, was not judged.
    NoGround,
    /// The table of segments is of grown people, and the rider is this old, in years.
    SegmentsOfGrownUps(f64),
    /// A rule of the use profile is judged on level ground: no cross slope (true) or slope (false) is declared.
    Level(bool),
    /// Steps are met at a usual speed.
    UsualSpeed,
    /// The rider's push is not known.
    PushUnknown {
        /// Whether a limit of a hand is given in its place.
        by_hand: bool,
    },
    /// The toe in radians, beyond what was measured of its drag.
    ToeBeyond(f64),
    /// The chair goes into water.
    Afloat,
    /// The ground under locked tyres is wet.
    WetGround,
    /// Nothing says whether the ground is wet, so it is dry.
    DryGround,
    /// Measures without which reach was not worked out.
    NoReach(&'static [&'static str]),
    /// The arm at the rim of a side lacks its hand: its reach was not worked out.
    HandlessRim(Side),
    /// Nobody says which of two hands pushes alone: both were looked at.
    WhichHand,
    /// What the rider can push is taken as that of the one hand.
    OneHandForce,
    /// What keeps a chair straight that is pushed with one hand, by the rider's word: it is not drawn and was not looked at.
    Steered(String),
    /// A cross slope under one hand at one rim; what steers has to hold this much aside, in N, where it is known.
    AcrossAlone(Option<f64>),
    /// Whether the one hand gets to the wheel locks was not worked out.
    LeversUnreached,
    /// Rules of fit for parts that the drawing has not, by the rule.
    Unruled(Vec<&'static str>),
    /// There is no such support, so that its rules were not judged.
    Undrawn(&'static str),
    /// The rider sits with both hands free, as far as anybody says.
    HandsFree,
    /// No push rims: the rule for the elbow was not judged.
    NoRims,
    /// What nobody says about the rider's skin, by the measure.
    SkinUnsaid(Vec<&'static str>),
}

/// Adds what was not added yet.
pub(crate) fn once(assumed: Assumed, all: &mut Vec<Assumed>) {
    if !all.contains(&assumed) {
        all.push(assumed);
    }
}
