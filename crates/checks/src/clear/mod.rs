//! The clearances of a chair: what swings, turns or is pulled off, against everything it must not touch.
//!
//! In come the design, its frame, the settled pose and the seated rider; out go figures `gap.*`,
//! `caster.sweep.*`, `wheel.load.*`, `caster.load.*` and typed [`Trouble`]s. Distances between convex bodies are exact
//! ([`distance`], [`depth`]), least distances over all angles are proven ([`sweep`], [`pair`]). The pose only
//! says that there is a chair: a rigid turn onto the ground changes no gap, so everything is measured in the
//! drawing's axes. This room must not know the words a finding is told in, nor how a rider is seated:
//! where a foot stands is told by [`crate::feet`].
//!
//! What closes on a finger between two stops of an adjustment or on the way into a state is told by [`ways`], from positions
//! that whoever calls has drawn; what runs into each other there by [`collide`].
//! What is drawn through something else as it stands is told by [`overlap`], to whoever asks: it is no part of the checks that
//! every change is tried by.
//!
//! Not checked: loads and flex beyond the allowance beside the tyres, belts and clothing, shanks and the ends of limbs
//! that wear no prosthesis, what rides along, ways that the text does not say (of a lever, of a part that is put on or taken
//! off), open ends of pipes, gaps that only widen into the band of a fixed finger, and what reaches through spokes. What of
//! this a child's fingers can come to harm by is told with what was assumed.

mod caster;
mod casters;
mod collide;
mod convex;
mod depth;
mod distance;
mod even;
mod fingers;
mod flutter;
mod hands;
mod holes;
mod load;
mod mend;
mod near;
mod overlap;
mod pair;
mod scene;
mod spokes;
mod sweep;
mod trouble;
mod ways;
mod wheels;
mod within;

pub(crate) use caster::sweep_radius;
pub use collide::{Collided, collided};
pub(crate) use convex::{Convex, Form, convex};
pub(crate) use depth::gap;
pub use overlap::{Overlap, Overlaps, overlaps};
pub use trouble::{Doubt, Shift, Struck, Trouble, Way};
pub use ways::{Caught, Stage, caught};

use crate::Checked;
use crate::assumed::{Assumed, once};
use crate::body::RiderBody;
use crate::feet::feet;
use crate::figure::Figures;
use crate::problem::Problem;
use chairwright_design::Design;
use chairwright_frame::{Frame, Settled};

const GEOMETRY: &str = "geometry of the drawn parts";
/// What a moving part keeps clear of anything. Common practice, no source.
const LIMIT: f64 = 0.010;
/// The same of feet that feel little or nothing. Common practice, no source.
const NUMB_LIMIT: f64 = 0.015;

/// What one way of looking found.
#[derive(Default)]
struct Seen {
    figures: Figures,
    assumptions: Vec<Assumed>,
    troubles: Vec<Trouble>,
}

impl Seen {
    fn by<T>(look: impl FnOnce(&mut Seen) -> T) -> (T, Seen) {
        let mut seen = Seen::default();
        (look(&mut seen), seen)
    }

    /// With what another found after it.
    fn and(mut self, mut next: Seen) -> Seen {
        self.figures.0.append(&mut next.figures.0);
        self.assumptions.append(&mut next.assumptions);
        self.troubles.append(&mut next.troubles);
        self
    }
}

/// What was looked at of the drawing alone: it takes as long as everything about balance, and needs nothing of it.
pub(crate) struct Looked<'f> {
    things: Vec<scene::Thing<'f>>,
    even: bool,
    child: bool,
    /// What was assumed before anything was looked at.
    assumptions: Vec<Assumed>,
    /// The least gaps of casters, of casters to each other, and of tyres.
    leasts: (casters::Leasts, wheels::Between, wheels::Between),
    moving: Seen,
    still: Seen,
}

/// Looks at whatever swings, rolls, or stands where a child reaches, while something else is worked out that needs nothing of it.
pub(crate) fn look<'f>(
    design: &Design,
    frame: &'f Frame,
    rider: Option<&RiderBody>,
    meanwhile: impl FnOnce() + Send,
) -> Looked<'f> {
    let things = scene::things(design, frame);
    let mut assumptions = Vec::new();
    let feet = rider.map_or_else(Vec::new, |rider| feet(design, rider, &mut assumptions));
    if !design.casters.is_empty() {
        assumptions.push(Assumed::Forks);
    }
    if !design.wheels.is_empty() && things.iter().any(|t| t.kind == scene::Kind::Brake) {
        assumptions.push(Assumed::BrakesOpen);
    }
    let targets = casters::targets(design, &things, &feet);
    let parts: Vec<_> = things.iter().flat_map(|t| t.parts.iter().map(|p| (t.kind, p))).collect();
    let even = even::even(&parts);
    let child = fingers::is_child(design, &mut assumptions);
    let swing =
        || Seen::by(|seen| casters::casters(design, &targets, even, &mut seen.figures, &mut seen.troubles));
    let roll = || {
        Seen::by(|seen| {
            let side = wheels::wheels(design, &things, &mut seen.figures, &mut seen.troubles);
            within::within(design, &things, &mut seen.troubles);
            side
        })
    };
    // what a child's fingers can come to harm by where nothing of the chair moves but its wheels
    let faces = || {
        let look = |seen: &mut Seen| {
            fingers::faces(design, (&things, even), &mut seen.assumptions, &mut seen.troubles);
        };
        if child { Seen::by(look).1 } else { Seen::default() }
    };
    let fixed = || {
        let look = |seen: &mut Seen| {
            fingers::fixed(&things, &mut seen.figures, &mut seen.assumptions, &mut seen.troubles);
            holes::open(design, &things, &mut seen.troubles);
        };
        if child { Seen::by(look).1 } else { Seen::default() }
    };
    // both halves take about as long where a child rides; whoever is done first takes what is left of the other
    let first = || rayon::join(swing, faces);
    let second = || rayon::join(meanwhile, || (roll(), fixed()));
    let ((((leasts, pair), swung), faces), ((), ((side, rolled), fixed))) = rayon::join(first, second);
    let (leasts, moving, still) = ((leasts, pair, side), swung.and(rolled), faces.and(fixed));
    Looked { things, even, child, assumptions, leasts, moving, still }
}

/// Every clearance of a chair that stands. A part of a plan, with neither a rider in the seat nor a name,
/// gets its figures and no findings.
pub(crate) fn clear(design: &Design, settled: &Settled, looked: Looked<'_>, out: &mut Checked) {
    let Looked { things, even, child, assumptions, leasts, moving: mut seen, still } = looked;
    assumptions.into_iter().for_each(|a| once(a, &mut out.assumptions));
    out.figures.0.append(&mut seen.figures.0);
    hands::hands(design, &things, (&mut out.assumptions, &mut out.figures), &mut seen.troubles);
    load::loads(design, settled, &out.loadings, &mut out.figures, &mut seen.troubles);
    load::axles(design, &mut out.figures, &mut seen.troubles);
    load::unsaid(design, &mut out.assumptions);
    if child {
        out.assumptions.push(Assumed::FingersWhereItStands);
        fingers::moving((&leasts.0, &leasts.1, &leasts.2), even, &mut seen.troubles);
    }
    let mut seen = seen.and(still);
    out.figures.0.append(&mut seen.figures.0);
    out.assumptions.append(&mut seen.assumptions);
    let mut troubles = seen.troubles;
    flutter::flutter(design, settled, &mut troubles, &mut out.assumptions);
    if out.rider.is_some() || !design.name.is_empty() {
        out.problems.extend(troubles.into_iter().map(Problem::Clearance));
    }
}
