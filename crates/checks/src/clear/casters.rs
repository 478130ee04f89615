//! Casters against everything around them, at every swivel.

use crate::clear::caster::{Swing, sweep_radius};
use crate::clear::convex::{Convex, Form};
use crate::clear::even::even;
use crate::clear::mend;
use crate::clear::pair::{balls_apart, least_pair};
use crate::clear::scene::{Kind, Thing};
use crate::clear::sweep::Least;
use crate::clear::trouble::{Struck, Trouble};
use crate::clear::wheels::Between;
use crate::clear::{GEOMETRY, LIMIT, NUMB_LIMIT};
use crate::feet::Foot;
use crate::figure::Figures;
use chairwright_design::{Design, Vec3};
use chairwright_quantity::Dimension;

const L: Dimension = Dimension::LENGTH;
/// Casters further apart than this are not searched: the figure is then what their sweep circles leave.
const FAR: f64 = 0.050;

/// What a caster must keep clear of, one for each figure.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) enum Against {
    Foot,
    Footrest,
    Frame,
    Wheel,
}

pub(crate) const AGAINST: [Against; 4] = [Against::Foot, Against::Footrest, Against::Frame, Against::Wheel];

/// Something that stands in reach of casters.
#[derive(Clone, Debug)]
pub(crate) struct Target {
    pub against: Against,
    pub struck: Struck,
    pub body: Convex,
}

/// Everything that a caster can strike, but other casters.
pub(crate) fn targets(design: &Design, things: &[Thing<'_>], feet: &[Foot]) -> Vec<Target> {
    let fixed = things.iter().filter(|t| t.kind != Kind::Axle).flat_map(|t| {
        let rest = t.kind == Kind::Footrest;
        t.parts.iter().map(move |body| Target {
            against: if rest { Against::Footrest } else { Against::Frame },
            struck: if rest { Struck::Footrest(t.name.to_owned()) } else { Struck::Part(t.name.to_owned()) },
            body: body.clone(),
        })
    });
    let feet =
        feet.iter().map(|f| Target { against: Against::Foot, struck: Struck::Foot(f.side), body: shoe(f) });
    let wheels = design.wheels.iter().map(|w| Target {
        against: Against::Wheel,
        struck: Struck::Wheel(w.name.clone()),
        body: Convex::disc(w.at, w.axle, w.radius, w.tyre / 2.0),
    });
    fixed.chain(feet).chain(wheels).collect()
}

/// The box around a shoe.
fn shoe(foot: &Foot) -> Convex {
    let half = Vec3::new(foot.length / 2.0, foot.breadth / 2.0, foot.height / 2.0);
    let form = Form::Brick([foot.along * half.x, foot.left * half.y, foot.normal * half.z]);
    Convex { form, skin: 0.0, middle: foot.middle(), radius: half.norm() }
}

/// What is wanted of a gap.
pub(crate) fn limit(against: Against, numb: bool) -> f64 {
    if against == Against::Foot && numb { NUMB_LIMIT } else { LIMIT }
}

/// Whether the rider feels little or nothing in a foot.
pub(crate) fn numb(design: &Design) -> bool {
    let word = |side| design.rider.sided_word("sensation_legs", side);
    use chairwright_design::Side::{Left, Right};
    [Left, Right].into_iter().any(|s| matches!(word(s), Some("reduced" | "absent")))
}

/// The nearest target of one kind.
#[derive(Clone, Debug)]
pub(crate) struct Near {
    pub least: Least,
    pub target: usize,
}

/// For each target whether it carries the stem, or lies above the plane that the fork turns under.
pub(crate) fn carriers(swing: &Swing, targets: &[Target]) -> Vec<bool> {
    targets.iter().map(|t| swing.carries(&t.body)).collect()
}

/// The nearest target of a kind, if it is nearer than `beat`: of those that carry the stem, or of the others.
/// For the former only the wheel and the legs below the crown count.
pub(crate) fn nearest(
    swing: &Swing,
    targets: &[Target],
    (carries, carry): (&[bool], bool),
    against: Against,
    beat: f64,
) -> Option<Near> {
    let turning = swing.turning();
    let ball = |t: &Target| turning.iter().map(|b| b.at_least(&t.body)).fold(f64::INFINITY, f64::min);
    let mut order: Vec<(f64, usize)> = targets
        .iter()
        .enumerate()
        .filter(|(i, t)| t.against == against && carries[*i] == carry)
        .map(|(i, t)| (ball(t), i))
        .collect();
    order.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut best: Option<Near> = None;
    for (bound, i) in order {
        let beat = best.as_ref().map_or(beat, |b| b.least.gap);
        if bound > beat {
            break;
        }
        let body = &targets[i].body;
        let found = if carry { swing.least_below_crown(body, beat) } else { swing.least(body, beat) };
        if let Some(least) = found {
            best = Some(Near { least, target: i });
        }
    }
    best
}

/// The nearest target that is too near, with what is wanted of it: what lies above the fork only where wheel or
/// legs run into it, since how near they pass below it is the caster's own make. Not so a foot.
pub(crate) fn too_near(
    swing: &Swing,
    targets: &[Target],
    carries: &[bool],
    against: Against,
    wanted: f64,
) -> Option<(Near, f64)> {
    nearest(swing, targets, (carries, false), against, wanted).map(|n| (n, wanted)).or_else(|| {
        let wanted = if against == Against::Foot { wanted } else { 0.0 };
        nearest(swing, targets, (carries, true), against, wanted).map(|n| (n, wanted))
    })
}

/// The least gap of each kind over all casters, for the figures and for fingers.
pub(crate) type Leasts = [Option<(f64, String, String)>; 4];

/// Figures and troubles of every caster. Of what stands alike on both sides the image of a caster that keeps clear of it keeps
/// clear as well, and is not looked at.
pub(crate) fn casters(
    design: &Design,
    targets: &[Target],
    parts_even: bool,
    figures: &mut Figures,
    troubles: &mut Vec<Trouble>,
) -> (Leasts, Between) {
    let swings: Vec<Swing> = design.casters.iter().map(Swing::new).collect();
    let mut leasts: Leasts = Default::default();
    let alike = |against: Against| {
        let some = targets.iter().filter(|t| t.against == against);
        even(&some.map(|t| ((), &t.body)).collect::<Vec<_>>())
    };
    let even = AGAINST.map(|a| match a {
        Against::Frame | Against::Footrest => parts_even,
        Against::Foot | Against::Wheel => alike(a),
    });
    let mut seen: Vec<(&Swing, [bool; 4])> = Vec::new();
    for (caster, swing) in design.casters.iter().zip(&swings) {
        let inputs = [("trail", caster.trail, L), ("radius", caster.tread, L), ("width", caster.width, L)];
        figures.put(
            format!("caster.sweep.{}", caster.name),
            (sweep_radius(caster), L),
            "sqrt((trail + radius)^2 + (width / 2)^2)",
            "geometry: the corner of the tyre about the stem",
            &inputs,
        );
        let image = seen.iter().find(|(s, _)| s.mirrors(swing)).map(|(_, free)| *free);
        let skipped = |k: usize| even[k] && image.is_some_and(|free| free[k]);
        let carries = if (0..4).all(skipped) { Vec::new() } else { carriers(swing, targets) };
        let (mut shift, mut free) = (None, [false; 4]);
        for (k, (slot, against)) in leasts.iter_mut().zip(AGAINST).enumerate().filter(|(k, _)| !skipped(*k)) {
            let numb = against == Against::Foot && numb(design);
            let nearest_free = nearest(swing, targets, (&carries, false), against, f64::INFINITY);
            let beat = nearest_free.as_ref().map_or(f64::INFINITY, |n| n.least.gap);
            let Some(near) = nearest(swing, targets, (&carries, true), against, beat).or(nearest_free) else {
                free[k] = true;
                continue;
            };
            let gap = near.least.gap;
            if slot.as_ref().is_none_or(|(least, ..)| gap < *least) {
                *slot = Some((gap, caster.name.clone(), name_of(&targets[near.target].struck).to_owned()));
            }
            if gap >= limit(against, numb) {
                free[k] = true;
                continue;
            }
            let Some((near, limit)) = too_near(swing, targets, &carries, against, limit(against, numb)) else {
                continue;
            };
            troubles.push(Trouble::CasterHits {
                caster: caster.name.clone(),
                origin: caster.origin,
                side: caster.side,
                what: targets[near.target].struck.clone(),
                swivel: near.least.angle,
                gap: near.least.gap,
                limit,
                numb,
                caster_shift: *shift
                    .get_or_insert_with(|| mend::caster_shift(design, swing, caster.side, targets, &carries)),
                feet_shift: mend::feet_shift(design, swing, targets, against),
            });
        }
        seen.push((swing, free));
    }
    put(&leasts, figures);
    let pair = pairs(design, &swings, figures, troubles);
    (leasts, pair)
}

fn name_of(struck: &Struck) -> &str {
    match struck {
        Struck::Foot(side) => side.word(),
        Struck::Footrest(n) | Struck::Part(n) | Struck::Wheel(n) | Struck::Caster(n) => n,
    }
}

fn put(leasts: &Leasts, figures: &mut Figures) {
    let names = ["gap.caster.foot", "gap.caster.footrest", "gap.caster.frame", "gap.caster.wheel"];
    for (name, least) in names.into_iter().zip(leasts) {
        if let Some((gap, caster, other)) = least {
            let formula = format!(
                "least distance of wheel and fork to it over all swivels, proven within 0.1 mm: {caster} and {other}"
            );
            figures.put(name, (*gap, L), formula, GEOMETRY, &[]);
        }
    }
}

/// Casters against each other, each at every swivel.
fn pairs(design: &Design, swings: &[Swing], figures: &mut Figures, troubles: &mut Vec<Trouble>) -> Between {
    let mut least: Between = None;
    for i in 0..swings.len() {
        for j in i + 1..swings.len() {
            let (one, other) = (&design.casters[i], &design.casters[j]);
            let (gap, angle) = between(&swings[i], &swings[j]);
            if least.as_ref().is_none_or(|(l, ..)| gap < *l) {
                least = Some((gap, one.name.clone(), other.name.clone()));
            }
            if gap < LIMIT {
                troubles.push(Trouble::CasterHits {
                    caster: one.name.clone(),
                    origin: one.origin,
                    side: one.side,
                    what: Struck::Caster(other.name.clone()),
                    swivel: angle,
                    gap,
                    limit: LIMIT,
                    numb: false,
                    caster_shift: mend::pair_shift((one, &swings[i]), (other, &swings[j])),
                    feet_shift: None,
                });
            }
        }
    }
    if let Some((gap, one, other)) = &least {
        let formula = format!(
            "least distance over all pairs of swivels; beyond 50 mm what their sweep circles leave: {one} and {other}"
        );
        figures.put("gap.caster.caster", (*gap, L), formula, GEOMETRY, &[]);
    }
    least
}

/// The least gap of two casters and the swivel of the first there.
pub(crate) fn between(a: &Swing, b: &Swing) -> (f64, Option<f64>) {
    let (one, two) = (a.turning(), b.turning());
    let combos = || one.iter().flat_map(|p| two.iter().map(move |q| (p, q)));
    let bound = combos().map(|(p, q)| balls_apart(p, q)).fold(f64::INFINITY, f64::min);
    if bound > FAR {
        return (bound, None);
    }
    let mut best = (f64::INFINITY, None);
    for (p, q) in combos() {
        if balls_apart(p, q) < best.0
            && let Some(found) = least_pair(p, q, best.0.min(1.0))
        {
            best = (found.gap, Some(found.angles[0]));
        }
    }
    best
}
