//! Factors and limits of the sheet. No standard sets a pass mark for a chair like this: they are the project's own.

pub use chairwright_checks::SIZE;

/// Sand on the seat over the rider, for minutes. Common practice, no source.
pub const FACTOR: f64 = 1.5;
/// How long that sand stays, min. Common practice, no source.
pub const MINUTES: u32 = 10;
/// How long the rider's own weight in sand stays, h. Common practice, no source.
pub const HOURS: u32 = 12;
/// Set that may stay when the sand is off, m. Common practice, no source.
pub const SET: f64 = 0.002;
/// How much more than computed the seat may sink: this factor, and [`SET`] for cloth and joints. Common practice, no
/// source.
pub const SINKS: f64 = 1.5;
/// How far an axle may lie off the plan from the seat, m: holes that were marked off a shrunken print lie further off, and turn the seat and
/// the reach to the rims by as much. Common practice, no source.
pub const AXLE: f64 = 0.005;
/// How far the chair's mass may be off the plan, as a share. Common practice, no source.
pub const MASS: f64 = 0.10;
/// How far a wheel's load may be off the plan, as a share of chair and rider: on both casters of a short chair that is
/// about the 30 mm of its centre of mass at which another chair begins. Common practice, no source.
pub const SCALE: f64 = 0.03;
/// How far off the plan it may tip, rad: a chair that stands so much better is another one, or was read wrongly. Common practice, no source.
pub const NEAR: f64 = 2.0 * DEG;
/// Toe of one wheel, rad: a quarter more drag at one degree (RESNA 2016, Vander Wiel et al.).
pub const TOE: f64 = DEG;
/// Camber off the plan, rad. Common practice, no source.
pub(crate) const CAMBER: f64 = DEG;
/// Gap under the fourth wheel, m: what tyres take up. Common practice, no source.
pub(crate) const ROCK: f64 = 0.003;
/// Slope that is tried at the least, rad: no path is level. Common practice, no source.
pub const FLOOR: f64 = 3.0 * DEG;
/// Pull that brakes must hold over the downhill pull of the slope. Common practice, no source.
pub const BRAKE: f64 = 1.5;
/// Length of the coast, m.
pub const COAST: f64 = 5.0;
/// Drops each way. Common practice, no source; ISO 7176-8 has 6 666 (from memory, not checked).
pub const DROPS: u32 = 3;
/// Height of the batten that it is rolled over, m: about that of the slats of the two-drum test.
pub const BATTEN: f64 = 0.012;
/// How often. Common practice, no source; the two-drum test has 200 000 turns.
pub const BATTENS: u32 = 200;

/// Speed at which casters are tried where none is declared, m/s: a quick walk. Common practice, no source.
pub const WALK: f64 = 1.8;

const DEG: f64 = std::f64::consts::PI / 180.0;

/// How far instruments are taken to be off. All common practice, no source.
pub(crate) mod off {
    pub use chairwright_checks::TAPE;
    /// A steel rule against a mark, m.
    pub const RULE: f64 = 0.0005;
    /// The level of a telephone, or of a builder, rad.
    pub const LEVEL: f64 = 0.5 * super::DEG;
    /// Toe by a rule across both rims, rad: 2 mm over 0.6 m.
    pub const RIMS: f64 = 0.2 * super::DEG;
    /// A bathroom scale, kg.
    pub const SCALE: f64 = 0.5;
    /// A luggage scale, N: half a kilogram.
    pub const LUGGAGE: f64 = 5.0;
    /// A line on the floor, m.
    pub const LINE: f64 = 0.005;
}
