//! Nails, wood screws and lag screws pulled out of wood.

use crate::capacity::{Capacity, Figure, Mode, Refusal, positive, within};
use crate::connection::{Loaded, adjusted};
use crate::never::Never;
use crate::source::Source;
use crate::wood::Service;

const INCH: f64 = 0.0254;
/// N/m of one pound-force per inch.
const LB_PER_INCH: f64 = 4.448_221_615_260_5 / INCH;

/// What is pulled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fastener {
    /// A bright smooth nail.
    Nail,
    /// A wood screw, by its shank diameter.
    WoodScrew,
    /// A lag screw, by its shank diameter.
    Lag,
}

/// What it is pulled from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Into {
    /// Side grain, or the face of a panel of that gravity.
    SideGrain,
    /// End grain.
    EndGrain,
    /// The edge of a panel.
    PanelEdge,
}

const DESIGN: [Source; 3] = [
    Source::published("withdrawal tables (NDS basis): nail 1380 G^2.5 D lb/in"),
    Source::published("withdrawal tables (NDS basis): wood screw 2850 G^2 D lb/in"),
    Source::memory("NDS: lag screw 1800 G^1.5 D^0.75 lb/in"),
];

/// Load at which a nail or wood screw comes out, N per m of penetration, mean of tests: nail
/// `7850 G^(5/2) D`, screw `15700 G² D`, lb/in with D in inches (Wood Handbook; the screw's coefficient
/// from memory). G is the oven-dry specific gravity, the diameter in m. `None` of a lag screw, whose
/// formula for this we do not hold.
///
/// # Errors
/// Figures outside their range.
pub fn ultimate(fastener: Fastener, gravity: f64, diameter: f64) -> Result<Option<f64>, Refusal> {
    let inches = checked(fastener, gravity, diameter)?;
    Ok(match fastener {
        Fastener::Nail => Some(7850.0 * gravity * gravity * gravity.sqrt() * inches * LB_PER_INCH),
        Fastener::WoodScrew => Some(15_700.0 * gravity * gravity * inches * LB_PER_INCH),
        Fastener::Lag => None,
    })
}

/// Reference design value, N per m of penetration (of thread), ten years under load: nail
/// `1380 G^(5/2) D`, wood screw `2850 G² D`, lag `1800 G^(3/2) D^(3/4)`, lb/in with D in inches.
///
/// # Errors
/// A specific gravity outside 0.3 to 0.75; a diameter outside what the tables hold (nails 0.099 to
/// 0.375 in, wood screws 0.138 to 0.372 in, lags ¼ to 1¼ in).
pub fn reference(fastener: Fastener, gravity: f64, diameter: f64) -> Result<f64, Refusal> {
    let inches = checked(fastener, gravity, diameter)?;
    Ok(LB_PER_INCH
        * match fastener {
            Fastener::Nail => 1380.0 * gravity * gravity * gravity.sqrt() * inches,
            Fastener::WoodScrew => 2850.0 * gravity * gravity * inches,
            Fastener::Lag => 1800.0 * gravity * gravity.sqrt() * libm::pow(inches, 0.75),
        })
}

fn checked(fastener: Fastener, gravity: f64, diameter: f64) -> Result<f64, Refusal> {
    within(Figure::Gravity, gravity, 0.3, 0.75)?;
    let (low, high) = match fastener {
        Fastener::Nail => (0.099, 0.375),
        Fastener::WoodScrew => (0.138, 0.372),
        Fastener::Lag => (0.25, 1.25),
    };
    // Sizes are printed to a thousandth of an inch.
    Ok(within(Figure::Diameter, diameter, (low - 0.0005) * INCH, (high + 0.0005) * INCH)? / INCH)
}

/// Pull that one fastener carries, N: reference × penetration (m; of the thread for screws) × factors.
///
/// # Errors
/// End grain and panel edges; impact; figures outside their range.
pub fn withdrawal(
    fastener: Fastener,
    gravity: f64,
    diameter: f64,
    penetration: f64,
    into: Into,
    service: Service,
) -> Result<Capacity, Refusal> {
    match into {
        Into::EndGrain => return Err(Never::EndGrainWithdrawal.into()),
        Into::PanelEdge => return Err(Never::PanelEdgeWithdrawal.into()),
        Into::SideGrain => {}
    }
    positive(Figure::Depth, penetration)?;
    let value = reference(fastener, gravity, diameter)? * penetration;
    let out = Capacity::new(value, Mode::Withdrawal, DESIGN[fastener as usize]);
    adjusted(out, Loaded::Pulled, fastener == Fastener::Nail, service)
}

const HEADS: Source = Source::memory(
    "NDS 2018, 12.2.5: a round head is pulled through at 690 pi D G^2 t lb, D and t in inches, where t is 2.5 D at most, else at 1725 pi D^2 G^2",
);

/// Pull at which the head of a nail or screw goes through the piece under it, N: `690 π D G² t` lb with the head's diameter D and the
/// thickness t in inches, of which no more than 2.5 D counts.
///
/// # Errors
/// Figures outside their range.
pub fn pull_through(gravity: f64, head: f64, thick: f64, service: Service) -> Result<Capacity, Refusal> {
    within(Figure::Gravity, gravity, 0.3, 0.75)?;
    positive(Figure::Diameter, head)?;
    positive(Figure::Thickness, thick)?;
    let (d, t) = (head / INCH, thick.min(2.5 * head) / INCH);
    let value = 690.0 * std::f64::consts::PI * d * gravity * gravity * t * LB_PER_INCH * INCH;
    adjusted(Capacity::new(value, Mode::Withdrawal, HEADS), Loaded::Pulled, false, service)
}

const ASLANT: Source = Source::memory(
    "NDS 2005, 11.4: lag and wood screws W Z / (W cos^2 + Z sin^2), nails W Z / (W cos + Z sin) along a load aslant",
);

/// How far a fastener is used that is pushed across its shank and pulled along it at once, by forces
/// without sign (N) and what it carries of each alone, N. More than 1 does not hold.
///
/// With α between load and surface: of nails the shares add, of screws they add as `l cos α + w sin α`.
/// The latter lets either share pass 1 where the other is small: never less than the greater share is
/// told here.
#[must_use]
pub fn with_shear(
    fastener: Fastener,
    (pull, pull_alone): (f64, &Capacity),
    (aside, aside_alone): (f64, &Capacity),
) -> (f64, Source) {
    let (w, l) = (pull_alone.use_of(pull), aside_alone.use_of(aside));
    let load = libm::hypot(pull, aside);
    let used = match fastener {
        Fastener::Nail => w + l,
        Fastener::WoodScrew | Fastener::Lag => l * aside.abs() / load + w * pull.abs() / load,
    };
    // Without a load the way of it is no number, which `max` passes over.
    (used.max(w).max(l), ASLANT)
}
