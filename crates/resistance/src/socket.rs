//! A pipe cemented into a tapered socket.

use std::f64::consts::PI;

use crate::capacity::{Assumed, Capacity, Figure, LEAST, MOST, Mode, Need, Refusal, positive, within};
use crate::never::Never;
use crate::source::Source;

const PSI: f64 = 6_894.757_293_168_361;
const HOUR: f64 = 3600.0;

/// Least lap shear of a cement after so many seconds, Pa; ASTM D2564, from memory, not checked.
pub const CURE: [(f64, f64); 3] =
    [(2.0 * HOUR, 250.0 * PSI), (16.0 * HOUR, 500.0 * PSI), (72.0 * HOUR, 900.0 * PSI)];

/// Source of the cure steps.
pub const CURE_SOURCE: Source =
    Source::memory("ASTM D2564: least lap shear 250 psi at 2 h, 500 psi at 16 h, 900 psi at 72 h");

/// Source of how cold and damp slow the cure.
pub const SLOW_SOURCE: Source = Source::published(
    "published cement set and cure table: 60-100, 40-60, 0-40 degF as 1 : 2 : 8; half as long again above 60 % humidity",
);

/// How much longer a cement takes, by the coldest that it had since cementing (K) and whether the air
/// was damp (above 60 % relative humidity).
///
/// # Errors
/// Colder than 0 or warmer than 100 °F.
pub fn cure_slowed(coldest: f64, damp: bool) -> Result<f64, Refusal> {
    const fn fahrenheit(t: f64) -> f64 {
        (t + 459.67) * 5.0 / 9.0
    }
    within(Figure::Temperature, coldest, fahrenheit(0.0), fahrenheit(100.0))?;
    let cold = match coldest {
        t if t >= fahrenheit(60.0) => 1.0,
        t if t >= fahrenheit(40.0) => 2.0,
        _ => 8.0,
    };
    Ok(if damp { 1.5 * cold } else { cold })
}

/// What the fitting does beside the pipe.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fitting {
    /// A tapered socket with a stop.
    Stop,
    /// A through bore without a stop.
    Slip,
    /// A threaded adapter.
    Threaded,
}

/// A socket with its pipe, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Socket {
    /// What kind.
    pub fitting: Fitting,
    /// Outside diameter of the pipe.
    pub diameter: f64,
    /// Depth of the socket.
    pub depth: f64,
    /// How far the pipe is in.
    pub engaged: f64,
}

/// Diameters that decide how tight a dry pipe sits, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// Outside diameter of the pipe.
    pub pipe: f64,
    /// Socket at its entrance.
    pub entrance: f64,
    /// Socket at its bottom.
    pub bottom: f64,
}

/// Where the dry pipe first touches, as a share of the depth: `(A − D)/(A − B)`. Cement must fill what
/// is shallower; what is deeper is an interference that the softened walls take up. Common practice
/// wants it between one third and two thirds.
///
/// # Errors
/// A pipe that does not enter, or one that touches nowhere ([`Never::LooseSocket`]).
pub fn contact(fit: &Fit) -> Result<f64, Refusal> {
    positive(Figure::Diameter, fit.bottom)?;
    within(Figure::Diameter, fit.entrance, fit.bottom * (1.0 + 1e-9), MOST)?;
    within(Figure::Diameter, fit.pipe, LEAST, fit.entrance)?;
    let share = (fit.entrance - fit.pipe) / (fit.entrance - fit.bottom);
    match share <= 1.0 {
        true => Ok(share),
        false => Err(Never::LooseSocket.into()),
    }
}

/// Strength of a bond.
#[derive(Clone, Debug, PartialEq)]
pub struct Bond {
    /// Allowable lap shear where the fit is close, Pa.
    pub shear: Capacity,
    /// Share of the depth where the fit is close, from the stop: one minus [`contact`].
    pub close: f64,
    /// What the gap-filled part carries of that; 0 takes nothing for it, and is the careful choice:
    /// nothing is published in what we hold.
    pub gap: f64,
}

/// Allowable lap shear of a cement, Pa: the last published step that the time since cementing has
/// reached (nothing between the steps is credited; divide the time by [`cure_slowed`] first), times `factor` for heat and time under load of the
/// pipe's own material (0 to 1, [`crate::pvc`]), over the safety factor.
///
/// # Errors
/// Less than two hours since cementing; a factor or safety outside its range.
pub fn lap_shear(since: f64, factor: f64, safety: f64) -> Result<Capacity, Refusal> {
    within(Figure::Time, since, CURE[0].0, MOST)?;
    within(Figure::Share, factor, 0.0, 1.0)?;
    within(Figure::Safety, safety, 1.0, MOST)?;
    let step = CURE.iter().rev().find(|s| s.0 <= since).unwrap_or(&CURE[0]);
    let out = Capacity::new(step.1 * factor / safety, Mode::PullOut, CURE_SOURCE)
        .assuming(Assumed::CureHours(step.0 / HOUR))
        .assuming(Assumed::RoomTemperature)
        .assuming(Assumed::DurationFactor(factor))
        .assuming(Assumed::Safety(safety))
        .needing(Need::PracticeJoint);
    Ok(if step.0 < CURE[2].0 { out.needing(Need::WaitSeconds(CURE[2].0)) } else { out })
}

/// Area of pipe within the socket, m²: `π D L`.
#[must_use]
pub fn engaged_area(diameter: f64, engaged: f64) -> f64 {
    PI * diameter * engaged
}

/// Share of the socket's depth that is engaged.
///
/// # Errors
/// More than the depth, or less than half of it ([`Never::HalfInserted`]).
pub fn insertion(socket: &Socket) -> Result<f64, Refusal> {
    positive(Figure::Diameter, socket.diameter)?;
    positive(Figure::Depth, socket.depth)?;
    within(Figure::Depth, socket.engaged, 0.0, socket.depth)?;
    let share = socket.engaged / socket.depth;
    match share >= 0.5 {
        true => Ok(share),
        false => Err(Never::HalfInserted.into()),
    }
}

const LAP: Source = Source::mechanics("lap shear spread evenly over the close part of the engaged area pi D L");

/// Pull that a cemented socket carries, N: `τ π D L` over the close and the gap-filled part.
///
/// # Errors
/// A slip fitting (cement alone does not hold it), an insertion that is none, figures outside their range.
pub fn pull_out(socket: &Socket, bond: &Bond) -> Result<Capacity, Refusal> {
    let area = bonded_area(socket, bond)?;
    Ok(bonded(socket, bond, area * bond.shear.value, Mode::PullOut))
}

/// Torque that a cemented socket carries, N·m: `τ π D² L / 2` over the same parts.
///
/// # Errors
/// As for [`pull_out`].
pub fn twist(socket: &Socket, bond: &Bond) -> Result<Capacity, Refusal> {
    let area = bonded_area(socket, bond)?;
    Ok(bonded(socket, bond, area * bond.shear.value * socket.diameter / 2.0, Mode::SocketTwist))
}

/// Area that counts, m²: the gap-filled part by its share of strength. A pipe short of the stop loses
/// the close part first, which lies at the bottom.
fn bonded_area(socket: &Socket, bond: &Bond) -> Result<f64, Refusal> {
    if socket.fitting == Fitting::Slip {
        return Err(Never::SlipFittingByCementAlone.into());
    }
    insertion(socket)?;
    within(Figure::Share, bond.close, 0.0, 1.0)?;
    within(Figure::Share, bond.gap, 0.0, 1.0)?;
    let short = socket.depth - socket.engaged;
    let close = (bond.close * socket.depth - short).max(0.0);
    Ok(engaged_area(socket.diameter, close + bond.gap * (socket.engaged - close)))
}

fn bonded(socket: &Socket, bond: &Bond, value: f64, mode: Mode) -> Capacity {
    let out = Capacity::new(value, mode, LAP)
        .resting_on(&bond.shear)
        .assuming(Assumed::CloseShare(bond.close))
        .assuming(Assumed::GapStrength(bond.gap));
    if socket.engaged < socket.depth { out.needing(Need::InsertToStop) } else { out }
}

/// The pipe where it enters the socket.
#[derive(Clone, Debug, PartialEq)]
pub struct Lip {
    /// Allowable fibre stress of the pipe, Pa.
    pub stress: Capacity,
    /// Section modulus of the pipe, m³.
    pub section_modulus: f64,
    /// Factor on the stress at the lip, at least 1; none is published in what we hold.
    pub notch: f64,
}

const COUPLE: Source = Source::mechanics("bearing over the depth as two triangles: M = p D L^2 / 6");
const LIP: Source = Source::mechanics("M = stress x section modulus / notch factor at the lip");

/// Moment that a socket carries, N·m: the lesser of the bearing couple over the engaged depth and of
/// the pipe's bending at the lip. `bearing` is the allowable bearing stress of the walls, Pa. The
/// cement's share of the moment is left out, to the careful side.
///
/// # Errors
/// A threaded adapter, an insertion that is none, figures outside their range.
pub fn moment(socket: &Socket, bearing: f64, lip: &Lip) -> Result<Capacity, Refusal> {
    if socket.fitting == Fitting::Threaded {
        return Err(Never::ThreadedAdapterBending.into());
    }
    insertion(socket)?;
    positive(Figure::Stress, bearing)?;
    positive(Figure::SecondMoment, lip.section_modulus)?;
    within(Figure::Notch, lip.notch, 1.0, MOST)?;
    let couple = bearing * socket.diameter * socket.engaged * socket.engaged / 6.0;
    let couple = Capacity::new(couple, Mode::SocketCouple, COUPLE).assuming(Assumed::LinearCouple);
    let bent = lip.stress.value * lip.section_modulus / lip.notch;
    let bent = Capacity::new(bent, Mode::SocketLip, LIP)
        .resting_on(&lip.stress)
        .assuming(Assumed::NotchFactor(lip.notch));
    let out = if couple.value < bent.value { couple.resting_on(&bent) } else { bent.resting_on(&couple) };
    Ok(if socket.engaged < socket.depth { out.needing(Need::InsertToStop) } else { out })
}

/// What springing a frame shut leaves in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sprung {
    /// Force on each leg while springing, N.
    pub force: f64,
    /// Fibre stress that stays, Pa.
    pub stress: f64,
    /// It is refused whatever the stress.
    pub refused: Never,
}

/// Two legs held at one end, sprung apart at the other by `travel` (m) each: `F = 3EIδ/L³`,
/// `σ = F L c / I`. `ei` in N·m² with the second moment in m⁴ and the outer radius `fibre` in m.
///
/// # Errors
/// Figures not above zero.
pub fn sprung_shut(
    modulus: f64,
    second_moment: f64,
    fibre: f64,
    length: f64,
    travel: f64,
) -> Result<Sprung, Refusal> {
    positive(Figure::Modulus, modulus)?;
    positive(Figure::SecondMoment, second_moment)?;
    positive(Figure::Length, length)?;
    positive(Figure::Deflection, travel)?;
    let force = 3.0 * modulus * second_moment * travel / (length * length * length);
    Ok(Sprung { force, stress: force * length * fibre / second_moment, refused: Never::SprungShut })
}
