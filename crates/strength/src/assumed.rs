//! What limits and sections took for granted and what was not judged: plain data, no sentences.

use chairwright_design::Placing;

/// What was taken for granted, without words.
#[derive(Clone, PartialEq, PartialOrd, Debug)]
pub enum Assumed {
    /// No temperature is declared: strength is taken at this, K.
    NoTemperature(f64),
    /// Strength is taken at this parked temperature, K: a chair is ridden from where it stood.
    Parked(f64),
    /// A material without a modulus: taken for the sharing of loads, Pa.
    Modulus(String, f64),
    /// A material without a Poisson's ratio: taken.
    Poisson(String, f64),
    /// Wood whose strength has no scatter: it is taken for what nearly every piece bears.
    LowerBound(String),
    /// Shear modulus of wood over its modulus along the grain.
    WoodShear(f64),
    /// Wood in the wet: its ends and cut edges are taken as sealed.
    SealedEnds,
    /// A material of which nothing says what share of its stiffness years of load leave: taken.
    Creep(String, f64),
    /// A material hotter than anything known: share of its stiffness taken for the sharing of loads.
    WarmStiffness(String, f64),
    /// A plastic without a notch factor: holes and lips are taken to raise the stress by this.
    Notch(String, f64),
    /// A shimmed sleeve is taken to sit tight: member, stock, the most play that the sizes leave, m.
    TightSleeve(String, String, f64),
    /// Nobody says that the play of a sleeve is filled: member, stock, the most play that the sizes leave, m.
    LooseSleeve(String, String, f64),
    /// The text fills the play of a sleeve with something that is not known to fill it.
    NoFiller {
        /// Member.
        bar: String,
        /// Stock of the sleeve.
        sleeve: String,
        /// The most play that the sizes leave, m.
        play: f64,
        /// What the text says.
        with: String,
    },
    /// Bolts of one place stand in a hole each, this much wider than themselves, m: those of several rows side by side.
    BoltHoles(f64),
    /// Axles and stems go through these bars in the middle, in holes as wide as they are, m.
    Bored(Vec<(String, f64)>),
    /// Nobody says which way the grain of these boxes' plates runs: half the strength is taken.
    BoxGrain(Vec<String>),
    /// Wood without a grade or a proof: its material, and what knots may leave of clear wood, least and most.
    NoGrade(String, f64, f64),
    /// A board that bore this stress, Pa, for ten minutes on a bench: its material.
    Proven(String, f64),
    /// A wood whose entry says nothing of pull and push along the grain: shares of bending taken.
    Along(String, f64, f64),
    /// Fasteners that the text does not place are taken to sit in the rows that fit in which they bear most: names and
    /// places, and whether the design is in inches.
    Places(Vec<(String, Placing)>, bool),
    /// Fasteners stand in lead holes in the middle of their face, and their joint does not give way before its moment comes.
    LeadHoles,
    /// Bolts whose list names no nut: each is taken with one. The fastenings and joints.
    NoNuts(Vec<String>),
    /// Bolts are of the weakest class that is sold, and screws go in from the worse side.
    WeakestBolts,
    /// Friction, as a share of the press, that keeps a seat or foot support from sliding on what it lies on.
    Friction(f64),
    /// Glue is pressed together and cured warm.
    GluePressed,
    /// The corners of boxes are glued all along, and with a glue that is as strong as the wood beside it.
    GluedCorners,
}

/// What was not judged, without words.
#[derive(Clone, PartialEq, PartialOrd, Debug)]
pub enum Unchecked {
    /// A sleeve that was given nothing to carry: member, stock, why.
    Sleeve(String, String, IdleSleeve),
    /// A joint that the text leaves open: it is taken to hold nothing.
    LeftOpen(String),
    /// Loads from the side.
    Sideways,
    /// Holes for axles and stems of which nobody says how wide they are: the bars that carry them.
    AxleHoles(Vec<String>),
    /// What axles and stems press into, where neither bush nor sleeve takes it: bars.
    Pressed(Vec<String>),
    /// Wheels or casters whose makers say nothing of what they bear: names, and the most that any load case puts on one, N.
    Ratings(Vec<String>, f64),
    /// Wheels of whose axles nobody says how thick they are, or how far they stand out.
    Axles(Vec<String>),
}

/// Why a sleeve carries nothing.
#[derive(Clone, Copy, PartialEq, PartialOrd, Debug)]
pub enum IdleSleeve {
    /// It may have this much play, m, more than a sleeve that works.
    Play(f64),
    /// It neither goes into the bar nor over it.
    Misfit,
    /// Nothing says what its material bears.
    Strength,
    /// Nothing says how stiff its material is.
    Stiffness,
}
