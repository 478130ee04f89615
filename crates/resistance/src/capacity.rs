//! The answer of every capacity function: how much, by what it gives, on which assumptions.

use crate::never::Never;
use crate::source::Source;

/// A capacity. Its unit is told by the function that returns it.
#[derive(Clone, Debug, PartialEq)]
pub struct Capacity {
    /// How much: N, N·m or Pa as the function says. Never below zero.
    pub value: f64,
    /// What gives first.
    pub mode: Mode,
    /// What was taken for granted.
    pub assumed: Vec<Assumed>,
    /// What the maker must see to for the figure to hold.
    pub needs: Vec<Need>,
    /// The formula's source.
    pub source: Source,
}

impl Capacity {
    pub(crate) fn new(value: f64, mode: Mode, source: Source) -> Capacity {
        Capacity { value, mode, assumed: Vec::new(), needs: Vec::new(), source }
    }

    pub(crate) fn assuming(mut self, assumed: Assumed) -> Capacity {
        if !self.assumed.contains(&assumed) {
            self.assumed.push(assumed);
        }
        self
    }

    pub(crate) fn needing(mut self, need: Need) -> Capacity {
        if !self.needs.contains(&need) {
            self.needs.push(need);
        }
        self
    }

    /// The same with what another figure assumed and needs: for a figure that was computed from it.
    pub(crate) fn resting_on(self, other: &Capacity) -> Capacity {
        let with = other.assumed.iter().fold(self, |c, a| c.assuming(*a));
        other.needs.iter().fold(with, |c, n| c.needing(*n))
    }

    /// Demand over capacity, without sign; more than one does not hold. Infinite where nothing is
    /// carried or the demand is not a number.
    #[must_use]
    pub fn use_of(&self, demand: f64) -> f64 {
        let share = demand.abs() / self.value;
        match share.is_nan() {
            true if demand == 0.0 => 0.0,
            true => f64::INFINITY,
            false => share,
        }
    }

    /// Of several ways to give, the least; assumptions and needs of all of them. `None` of none.
    #[must_use]
    pub fn least(all: &[Capacity]) -> Option<Capacity> {
        let first = all.iter().min_by(|a, b| a.value.total_cmp(&b.value))?.clone();
        Some(all.iter().fold(first, |c, other| c.resting_on(other)))
    }
}

/// Why there is no capacity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Refusal {
    /// Such a thing must not carry this, whatever the numbers.
    Never(Never),
    /// A figure outside what the formula is known for: cannot tell.
    Outside(Outside),
    /// No formula or figure is held for it: cannot tell.
    NotKnown(NotKnown),
}

/// What no formula is held for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum NotKnown {
    /// Tension or peeling across a line of glue.
    TensionAcrossGlue,
}

impl From<Never> for Refusal {
    fn from(never: Never) -> Refusal {
        Refusal::Never(never)
    }
}

/// A figure outside its range, in the unit of the argument.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outside {
    /// Which.
    pub figure: Figure,
    /// What was given.
    pub value: f64,
    /// The least that can be answered.
    pub low: f64,
    /// The most that can be answered.
    pub high: f64,
}

/// Hands on a figure within its range; anything else, not a number included, is refused.
pub(crate) fn within(figure: Figure, value: f64, low: f64, high: f64) -> Result<f64, Refusal> {
    match value >= low && value <= high {
        true => Ok(value),
        false => Err(Refusal::Outside(Outside { figure, value, low, high })),
    }
}

/// Least and most of a figure without a range of its own: far outside of anything built, and near
/// enough to one that powers and products of it stay finite.
pub(crate) const LEAST: f64 = 1e-30;
/// See [`LEAST`].
pub(crate) const MOST: f64 = 1e30;

/// A size, stress or factor that must be more than nothing and finite.
pub(crate) fn positive(figure: Figure, value: f64) -> Result<f64, Refusal> {
    within(figure, value, LEAST, MOST)
}

/// What a refused figure is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Figure {
    /// Temperature, K.
    Temperature,
    /// Time under load or since making, s.
    Time,
    /// Safety factor, at least 1.
    Safety,
    /// Factor on stress at a notch, at least 1.
    Notch,
    /// Stress or strength, Pa.
    Stress,
    /// Elastic modulus, Pa.
    Modulus,
    /// Number of cycles.
    Cycles,
    /// Diameter, m.
    Diameter,
    /// Wall or panel thickness, m.
    Thickness,
    /// Diameter of a hole, m.
    Hole,
    /// Length, m.
    Length,
    /// Depth engaged or penetrated, m.
    Depth,
    /// Width, m.
    Width,
    /// Area, m².
    Area,
    /// Second moment of area, m⁴.
    SecondMoment,
    /// Specific gravity or density relative to water.
    Gravity,
    /// Coefficient of variation.
    Variation,
    /// Share between 0 and 1.
    Share,
    /// Angle, rad.
    Angle,
    /// Ratio of length to width.
    Slenderness,
    /// Count of fasteners or parts.
    Count,
    /// Force, N.
    Force,
    /// Deflection, m.
    Deflection,
    /// Height, m.
    Height,
    /// Speed, m/s.
    Speed,
    /// Mass, kg.
    Mass,
    /// Pitch of a thread, m.
    Pitch,
}

/// What gives first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mode {
    /// Stress at the fibre in bending.
    Bending,
    /// Pull along a member.
    Tension,
    /// Push along a member, short of buckling.
    Compression,
    /// Push along a slender member.
    Buckling,
    /// Shear across a member.
    Shear,
    /// Stress beside a hole or notch.
    NetSection,
    /// Lap shear along a socket in pull-out.
    PullOut,
    /// Lap shear round a socket in twist.
    SocketTwist,
    /// Bearing of the pipe on its socket, as a couple over the depth.
    SocketCouple,
    /// Bending of the pipe at the lip of its socket.
    SocketLip,
    /// Bearing of a bolt on walls.
    Bearing,
    /// Walls torn out between a hole and the end.
    TearOut,
    /// A pipe squashed by a bolt's clamping.
    Crushing,
    /// A dowel joint's yield mode.
    Yield(Yield),
    /// A nail, screw or lag pulled out.
    Withdrawal,
    /// A bolt's proof load.
    Proof,
    /// A bolt's shank or thread in shear.
    BoltShear,
    /// A stem bent at the root of its thread.
    ThreadRoot,
    /// A glue line in shear.
    GlueLine,
    /// The fastener of a group that carries most.
    WorstFastener,
}

/// Yield modes of a dowel-type joint, as the NDS names them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Yield {
    /// The main member crushes under a straight dowel.
    Im,
    /// The side member crushes under a straight dowel.
    Is,
    /// The dowel turns and crushes both members.
    II,
    /// The dowel yields at one place, and crushes the main member.
    IIIm,
    /// The dowel yields at one place, and crushes the side member.
    IIIs,
    /// The dowel yields at two places.
    IV,
}

/// What a figure takes for granted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Assumed {
    /// Divided by this safety factor.
    Safety(f64),
    /// Multiplied by this temperature factor.
    TemperatureFactor(f64),
    /// Colder than the table begins: its first factor is kept, no credit is taken.
    TemperatureHeld,
    /// Multiplied by this factor for the time under load.
    DurationFactor(f64),
    /// Only two points in time are published; between them a straight line over log time.
    LogTimeInterpolated,
    /// Multiplied by this factor for wet wood.
    WetFactor(f64),
    /// The tensile strength stands for the strength in bending, which the sheets print higher.
    TensileForBending,
    /// A figure of plain pipe under pressure surges stands for bending.
    PlainPipeFit,
    /// Tests at room temperature.
    RoomTemperature,
    /// A lower bound of what grows was computed from the mean and this coefficient of variation.
    FifthPercentile(f64),
    /// Straight-grained wood without defects.
    ClearWood,
    /// Knots and slope of grain leave this share of the clear strength.
    StrengthRatio(f64),
    /// Strength tests of wood last about five to ten minutes.
    TestMinutes,
    /// The member cannot buckle sideways.
    NoSidewaysBuckling,
    /// Deflection by shear left out: the modulus comes out low.
    ShearDeflectionLeftOut,
    /// This share of the socket's depth is a close fit, the rest is filled with cement.
    CloseShare(f64),
    /// The gap-filled part carries this share of the cement's strength.
    GapStrength(f64),
    /// Hours of cure credited, the last published step that was reached.
    CureHours(f64),
    /// Bearing falls off in a straight line from lip to stop; the cement's own help left out.
    LinearCouple,
    /// The stress at the lip raised by this notch factor.
    NotchFactor(f64),
    /// Load shared evenly between both walls.
    TwoWallsAlike,
    /// Root diameter of the thread, everywhere.
    RootDiameter,
    /// Friction under the head left out.
    NoFriction,
    /// Fasteners alike, plate rigid: load in proportion to the distance from their centroid.
    RigidPlate,
    /// Stress spread evenly over the lap.
    EvenLap,
    /// Multiplied by this factor for a dowel driven into end grain, loaded sideways.
    EndGrainLateral(f64),
    /// A coefficient of friction, from memory.
    NutFactor(f64),
    /// Ends held as this factor of the length says.
    EffectiveLength(f64),
    /// The glue's class is for uses that carry nothing.
    NonStructuralGlue,
    /// The figure is the whole pair's, shared evenly.
    HalfOfPair,
}

/// What the maker must see to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Need {
    /// An impact test in the cold: the plastic is brittle there, and no figure stands for it.
    ColdImpactTest,
    /// Pipe whose print line names a solid-wall standard.
    SolidWallPrint,
    /// Pipe pushed to the stop.
    InsertToStop,
    /// A practice joint cut open.
    PracticeJoint,
    /// Nothing on the joint for so many seconds after cementing.
    WaitSeconds(f64),
    /// A metal sleeve in the hole, cut square.
    Sleeve,
    /// The hole on the neutral axis of the plane of bending.
    HoleOnNeutralAxis,
    /// Torque of the nut not above this, N·m.
    TorqueAtMost(f64),
    /// Lead holes.
    LeadHole,
    /// Edge, end and spacing distances kept.
    Distances,
    /// Real thickness measured.
    MeasureThickness,
    /// A proof load on the finished thing.
    ProofLoad,
    /// The board looked over for knots, splits and slope of grain.
    LookOver,
    /// No thread in the plane of bending.
    NoThreadInBending,
    /// The maker's word whether a rating is for one or for a pair.
    RatingBasis,
    /// At least so warm, K, while the glue cures.
    WarmWhileCuring(f64),
    /// Screws beside the glue, to carry what stays.
    ScrewsBesideGlue,
    /// Ends sealed against water.
    SealEnds,
    /// Inspection at every service: no proof of life.
    InspectOften,
}
