//! What comes out, as plain data. Lengths in m, angles in rad, masses in kg, forces in N.

use chairwright_design::Band;
use chairwright_quantity::Dimension;
use chairwright_strength::Verdict;

/// Where a bag of sand stands in for a part of the rider.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Place {
    /// Against the back: head, arms and trunk.
    Back,
    /// On the seat: the thighs.
    Seat,
    /// On the foot support: shanks and feet.
    Feet,
}

/// One bag of the sand rider.
#[derive(Clone, PartialEq, Debug)]
pub struct Bag {
    /// Where.
    pub place: Place,
    /// In kg, for the rider's declared mass.
    pub mass: f64,
    /// Its middle ahead of the seat's rear edge, along the ground; negative is behind.
    pub ahead: f64,
    /// Its middle above the ground.
    pub height: f64,
}

/// One kind of test, with what it is made with.
#[derive(Clone, PartialEq, Debug)]
pub enum Kind {
    /// Pieces against the cut list.
    Pieces {
        /// How many.
        count: usize,
    },
    /// Outside sizes and seat heights.
    Sizes,
    /// Whether all wheels touch and point ahead.
    Alignment {
        /// Diameter of the rear wheels, for the toe by the rims.
        diameter: f64,
        /// What half a degree of toe is from the front to the rear of such a wheel.
        half: f64,
    },
    /// Whether the wheels stay on.
    Wheels,
    /// Mass of the chair and what each wheel carries.
    Scales,
    /// Sand for minutes.
    Load {
        /// All of it, kg.
        sand: f64,
        /// Whether the seat is a sling: it hangs through by itself, and what is worked out is how far its rails sink.
        sling: bool,
    },
    /// Sand over a night.
    Night {
        /// All of it, kg.
        sand: f64,
    },
    /// Slopes that tip it.
    Tilt {
        /// Whether the finished chair can be adjusted.
        adjustable: bool,
    },
    /// Whether anti-tip devices hold it.
    AntiTip {
        /// How many there are.
        devices: usize,
    },
    /// Whether the brakes hold.
    Brakes {
        /// The slope that they are tried for, never less than [`crate::FLOOR`].
        slope: Option<f64>,
        /// Whether the design has a brake.
        drawn: bool,
    },
    /// Whether it runs straight.
    Coast {
        /// What each hand holds against on the declared cross slope, N, as computed.
        hold: Option<f64>,
    },
    /// Whether casters flutter.
    Flutter {
        /// The speed of the place of use, m/s, where it is declared.
        speed: Option<f64>,
    },
    /// Casters against an edge.
    Edge {
        /// Its height.
        height: f64,
    },
    /// A batten, many times.
    Bumps,
    /// Off a kerb.
    Drop {
        /// The height that is tried.
        height: f64,
        /// The height that strength was computed for.
        computed: f64,
        /// Peak over static load, as computed.
        factor: f64,
        /// That peak on chair and sand, N.
        force: f64,
    },
    /// Weight on the foot support.
    Footrest {
        /// Kg on its front edge.
        sand: f64,
    },
    /// Weight on the arms.
    Arms {
        /// Name and kg, each.
        arms: Vec<(String, f64)>,
    },
    /// Lifting with the sand in it.
    Lift {
        /// What it is lifted by.
        by: Vec<String>,
        /// What a helper on each side lifts all of it by.
        whole: Vec<String>,
        /// All of the sand, kg.
        sand: f64,
        /// Heaviest end of it as loaded, or all of it where it is lifted as a whole, kg.
        heaviest: Option<f64>,
    },
}

/// A part to look at, with its computed use in this kind of load.
#[derive(Clone, PartialEq, Debug)]
pub struct Weak {
    /// Its name.
    pub name: String,
    /// Demand over what it may bear, cautious side.
    pub used: f64,
    /// What was computed of it, where it is judged by itself in this load.
    pub verdict: Option<Verdict>,
}

/// Why a limit is what it is.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Why {
    /// A slope of the path with its margin.
    Path {
        /// Declared, or [`crate::FLOOR`] where that is more.
        slope: f64,
        /// What the use profile wants beyond it; `None` without a profile.
        margin: Option<f64>,
        /// What the design's own demands want in all.
        demand: Option<f64>,
    },
    /// Past this turn back the chair goes over.
    Balance {
        /// The slope that tips it with its wheels free, the rider leaning back.
        free: f64,
        /// Declared, or [`crate::FLOOR`] where that is more.
        slope: f64,
    },
    /// A demand of the design on this figure.
    Demand,
    /// Wheels that rock further than tyres take up.
    Rock,
    /// Toe that costs a quarter more push.
    Toe,
    /// Set that stays after the load is off.
    Set,
    /// The downhill pull with its factor.
    Brake {
        /// The slope.
        slope: f64,
    },
    /// A degree off the line.
    Straight,
    /// How hard the test is made: as hard as this sheet asks, or harder.
    Hard,
}

/// What passes.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Limit {
    /// At least.
    pub least: Option<f64>,
    /// At most.
    pub most: Option<f64>,
    /// Why.
    pub why: Why,
}

/// Why the sheet has no expected value or no limit.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Lack {
    /// The place of use declares no slope.
    Slope,
    /// The figure could not be computed.
    Figure,
    /// The chair does not have two wheels and two casters.
    FourWheels,
    /// The chair has no brake that says what it holds.
    Brake,
    /// The plan has no brake at all.
    NoBrake,
    /// Strength was not computed.
    Strength,
    /// It is known when the chair is worked out at every stop.
    Stops,
}

/// What came of one reading.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Outcome {
    /// Nothing is written down.
    Missing,
    /// It passes, with its measuring tolerance.
    Passed,
    /// It does not.
    Failed,
    /// It is not the chair that was worked out.
    OffSheet,
    /// The test was made more gently than the sheet asks: it is still to be made.
    TooGentle,
    /// Its tolerance reaches over the limit.
    CannotTell,
    /// Nobody can say what passes.
    NoLimit,
}

/// One thing to write down.
#[derive(Clone, PartialEq, Debug)]
pub struct Reading {
    /// The field of `as_built`.
    pub field: &'static str,
    /// Of what kind; `None` for a word.
    pub dimension: Option<Dimension>,
    /// As planned.
    pub expected: Option<f64>,
    /// As planned for the most stable adjustment and swivel, where that differs.
    pub most: Option<f64>,
    /// How it is adjusted for `expected`; empty as drawn.
    pub adjusted: String,
    /// What passes.
    pub limit: Option<Limit>,
    /// Between what a chair is still the planned one.
    pub near: Option<(f64, f64)>,
    /// How far a tape, scale or level is taken to be off where the result does not say.
    pub tolerance: f64,
    /// What is missing for more.
    pub lack: Option<Lack>,
    /// What was measured.
    pub result: Option<Band>,
    /// What was found, for a word.
    pub passed: Option<bool>,
    /// What came of it.
    pub outcome: Outcome,
}

impl Reading {
    /// Least and greatest that pass, the plan's neighbourhood and the limit together.
    #[must_use]
    pub fn range(&self) -> (Option<f64>, Option<f64>) {
        let near = self.near.unwrap_or((f64::NEG_INFINITY, f64::INFINITY));
        let least = self.limit.and_then(|l| l.least).unwrap_or(f64::NEG_INFINITY).max(near.0);
        let most = self.limit.and_then(|l| l.most).unwrap_or(f64::INFINITY).min(near.1);
        (Some(least).filter(|x| x.is_finite()), Some(most).filter(|x| x.is_finite()))
    }
}

/// One test.
#[derive(Clone, PartialEq, Debug)]
pub struct Test {
    /// What.
    pub kind: Kind,
    /// Parts to look at, the weakest first.
    pub weakest: Vec<Weak>,
    /// What to write down.
    pub readings: Vec<Reading>,
}

/// The sheet.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct TestSheet {
    /// Whether there is a ridden chair that stands, with its rider: else there is nothing to test by.
    pub whole: bool,
    /// Heaviest that the rider may be, kg: with the spread of the measure.
    pub rider: f64,
    /// Chair, rider and what rides along, kg.
    pub total: f64,
    /// The sand rider.
    pub bags: Vec<Bag>,
    /// The tests in their order.
    pub tests: Vec<Test>,
}

impl TestSheet {
    /// A reading by its field.
    #[must_use]
    pub fn reading(&self, field: &str) -> Option<&Reading> {
        self.tests.iter().flat_map(|t| &t.readings).find(|r| r.field == field)
    }
}
