//! Casters against everything around them, at every swivel.

use crate::clear::caster::{Swing, sweep_radius};
use crate::clear::convex::{Convex, Form};
use crate::clear::even::even;
use crate::clear::mend;
use crate::clear::pair::{Care, balls_apart, least_pair};
use crate::clear::scene::{Kind, Thing};
use crate::clear::sweep::{Least, Turning};
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

/// So many pairs that may meet are looked at: of twelve casters every one. Common practice, no source.
const MOST_PAIRS: usize = 66;

/// Casters against each other, each at every swivel.
fn pairs(design: &Design, swings: &[Swing], figures: &mut Figures, troubles: &mut Vec<Trouble>) -> Between {
    let mut least: Between = None;
    let care = care(swings.len());
    let all = (0..swings.len()).flat_map(|i| (i + 1..swings.len()).map(move |j| (i, j)));
    let all: Vec<(f64, usize, usize)> =
        all.map(|(i, j)| (circles_apart(&swings[i].turning(), &swings[j].turning()), i, j)).collect();
    let nearest = nearest_pairs(&all);
    for (bound, i, j) in &all {
        let (one, other) = (&design.casters[*i], &design.casters[*j]);
        let searched = *bound <= nearest;
        let (gap, angle) = if searched { between(&swings[*i], &swings[*j], care) } else { (*bound, None) };
        if least.as_ref().is_none_or(|(l, ..)| gap < *l) {
            least = Some((gap, one.name.clone(), other.name.clone()));
        }
        if gap < LIMIT && searched {
            troubles.push(Trouble::CasterHits {
                caster: one.name.clone(),
                origin: one.origin,
                side: one.side,
                what: Struck::Caster(other.name.clone()),
                swivel: angle,
                gap,
                limit: LIMIT,
                numb: false,
                caster_shift: mend::pair_shift((one, &swings[*i]), (other, &swings[*j]), care),
                feet_shift: None,
            });
        }
    }
    let open: Vec<&(f64, usize, usize)> = all.iter().filter(|p| p.0 > nearest && p.0 < LIMIT).collect();
    if let Some((_, i, _)) = open.first() {
        let first = &design.casters[*i];
        let (caster, origin) = (first.name.clone(), first.origin);
        troubles.push(Trouble::CastersUntold { caster, origin, pairs: open.len(), looked: MOST_PAIRS });
    }
    if let Some((gap, one, other)) = &least {
        let formula = format!(
            "least distance over all pairs of swivels; beyond 50 mm what their sweep circles leave: {one} and {other}"
        );
        figures.put("gap.caster.caster", (*gap, L), formula, GEOMETRY, &[]);
    }
    least
}

/// How far apart the sweeps of the last pair are that is still looked at. Pairs as far apart as the first one too many are left
/// as well, so that the order of the text decides nothing.
fn nearest_pairs(all: &[(f64, usize, usize)]) -> f64 {
    let mut bounds: Vec<f64> = all.iter().map(|p| p.0).collect();
    bounds.sort_by(f64::total_cmp);
    match bounds.get(MOST_PAIRS) {
        Some(first) => bounds.iter().copied().filter(|b| b < first).fold(f64::NEG_INFINITY, f64::max),
        None => f64::INFINITY,
    }
}

/// Overlaps of more casters than a chair has are only told roughly: there are as many pairs as the square of them.
fn care(casters: usize) -> Care {
    /// Common practice, no source.
    const USUAL: usize = 4;
    Care(if casters > USUAL { 0.1 } else { 0.0 })
}

/// A gap that no two swivels are below: what the balls leave that everything turns in.
fn circles_apart(one: &[Turning<'_>], two: &[Turning<'_>]) -> f64 {
    one.iter().flat_map(|p| two.iter().map(move |q| balls_apart(p, q))).fold(f64::INFINITY, f64::min)
}

/// The least gap of two casters and the swivel of the first there.
pub(crate) fn between(a: &Swing, b: &Swing, care: Care) -> (f64, Option<f64>) {
    let (one, two) = (a.turning(), b.turning());
    let bound = circles_apart(&one, &two);
    if bound > FAR {
        return (bound, None);
    }
    let mut best = (f64::INFINITY, None);
    for (p, q) in one.iter().flat_map(|p| two.iter().map(move |q| (p, q))) {
        if balls_apart(p, q) < best.0
            && let Some(found) = least_pair(p, q, best.0.min(1.0), care)
        {
            best = (found.gap, Some(found.angles[0]));
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::clear::pair::work;
    use chairwright_design::{Caster, Origin, PartSpec, Side};

    /// Casters of 150 mm with 40 mm of trail on both sides, so far from each other sideways and along.
    fn abreast(each_side: u32, aside: f64, along: f64) -> Design {
        let one = |k: u32, side: Side| Caster {
            name: format!("{}.front{k}", side.word()),
            side: Some(side),
            part: PartSpec::default(),
            radius: 0.075,
            tread: 0.075,
            width: 0.03,
            trail: 0.04,
            drop: 0.115,
            fork_width: 0.046,
            play: None,
            stem_diameter: None,
            rated: None,
            stiffness: None,
            at: Vec3::new(0.4 + along * f64::from(k), side.sign() * aside * f64::from(k), 0.19),
            stem: Vec3::Z,
            origin: Origin(0),
        };
        let casters = (1..=each_side).flat_map(|k| [one(k, Side::Left), one(k, Side::Right)]).collect();
        Design { casters, ..Design::default() }
    }

    fn told(design: &Design) -> Vec<Trouble> {
        let swings: Vec<Swing> = design.casters.iter().map(Swing::new).collect();
        let mut troubles = Vec::new();
        pairs(design, &swings, &mut Figures::default(), &mut troubles);
        troubles
    }

    /// Twelve casters in each other's way: every overlap is told, none less deep than it is and none by more than a tenth deeper,
    /// in no more work than a few pairs of usual chairs take.
    #[test]
    fn many_casters_abreast_are_told_of_in_bounded_work() {
        let design = abreast(6, 0.02, 0.003);
        let before = work();
        let troubles = told(&design);
        assert!(work() - before < 50_000, "{}", work() - before);
        let swing = |name: &str| Swing::new(design.casters.iter().find(|c| c.name == name).unwrap());
        let mut deep = 0;
        for trouble in troubles.iter().step_by(7) {
            let Trouble::CasterHits { caster, what: Struck::Caster(other), gap, .. } = trouble else {
                panic!()
            };
            let exact = between(&swing(caster), &swing(other), Care(0.0)).0;
            assert!(*gap <= exact + 1e-9 && *gap >= exact.min(exact * 1.1) - 0.001, "{gap} {exact}");
            deep += usize::from(exact < -0.05);
        }
        assert!(troubles.len() == 66 && deep >= 5, "{} {deep}", troubles.len());
    }

    /// Beyond what is looked at, pairs that may meet are told as open: of 50 casters 1225 pairs.
    #[test]
    fn what_is_not_looked_at_is_left_open() {
        let troubles = told(&abreast(25, 0.002, 0.001));
        let hits = troubles.iter().filter(|t| matches!(t, Trouble::CasterHits { .. })).count();
        let Some(Trouble::CastersUntold { pairs, .. }) = troubles.last() else {
            panic!("{:?}", troubles.last())
        };
        assert!(hits > 30 && hits <= MOST_PAIRS, "{hits}");
        assert_eq!(hits + pairs, 1225);
    }
}
