//! Gaps that catch a child's finger: between fixed parts, and where something moves.

use crate::assumed::Assumed;
use crate::clear::GEOMETRY;
use crate::clear::casters::{AGAINST, Against, Leasts};
use crate::clear::depth::Gap;
use crate::clear::even::wheels_mirrored;
use crate::clear::near::{bounds, filled, open, slices};
use crate::clear::scene::{Kind, Thing};
use crate::clear::spokes::spokes;
use crate::clear::trouble::Trouble;
use crate::clear::wheels::Between;
use crate::figure::Figures;
use chairwright_design::{Design, Vec3, Wheel};
use chairwright_quantity::Dimension;

/// Openings between fixed parts that a child's finger enters and cannot leave: European finger-entrapment
/// requirements, as read second hand.
pub(super) const FIXED: (f64, f64) = (0.005, 0.012);
/// Gaps that shear or squeeze a finger as something moves through them, from the same.
pub(super) const MOVING: (f64, f64) = (0.007, 0.018);
/// Riders below this age are checked, in seconds: fourteen years.
const CHILD: f64 = 14.0 * crate::body::YEAR;
/// Parts nearer than this touch: they are joined, or pressed together.
pub(super) const TOUCH: f64 = 0.001;
/// Findings of fixed gaps in one design; more would bury the first.
const MOST: usize = 12;

/// Whether finger gaps are looked at; where nobody says how old the rider is, who is as small as a child counts as one, and
/// that is told.
pub(crate) fn is_child(design: &Design, assumptions: &mut Vec<Assumed>) -> bool {
    if !design.rider.given {
        return false;
    }
    if let Some(age) = design.rider.get("age") {
        return age < CHILD;
    }
    let small = crate::body::small(&design.rider);
    assumptions.push(if small { Assumed::MaybeChild } else { Assumed::GrownUp });
    small
}

/// Gaps of what moves: the least of the casters to each kind of thing and to each other, and of the tyres. A tyre stays as far
/// from the chair as it is; a caster comes as near as that from further away, so that any gap below the band's upper end shears.
/// Where both sides are even, the same gap on the other side is told too.
pub(crate) fn moving(
    (casters, pair, tyre): (&Leasts, &Between, &Between),
    even: bool,
    troubles: &mut Vec<Trouble>,
) {
    let below = |l: &&(f64, String, String)| l.0 >= 0.0 && l.0 < MOVING.1 - 1e-4;
    let swings =
        AGAINST.iter().zip(casters).filter(|(a, _)| **a != Against::Foot).filter_map(|(_, l)| l.as_ref());
    let swings = swings.chain(pair.as_ref()).filter(below);
    let tyre = tyre.as_ref().filter(|l| l.0 >= MOVING.0 && below(l));
    for (gap, one, other) in swings.chain(tyre) {
        let mut told = |one: String, other: String| {
            troubles.push(Trouble::FingerGap { one, other, gap: *gap, band: MOVING, moves: true });
        };
        told(one.clone(), other.clone());
        let (image, across) = (other_side(one), other_side(other));
        let same = (&image, &across) == (one, other) || (&across, &image) == (one, other);
        if even && !same {
            told(image, across);
        }
    }
}

/// The name of the same thing on the other side; what stands in the middle keeps its name.
fn other_side(name: &str) -> String {
    let swap = |word| match word {
        "left" => "right",
        "right" => "left",
        word => word,
    };
    name.split('.').map(swap).collect::<Vec<_>>().join(".")
}

/// Gaps of what the spokes of fixed wheels pass, unless the tyre is told to pass the same part. Where both sides are `even`, the
/// image of a wheel that catches nothing is not looked at.
pub(crate) fn faces(
    design: &Design,
    (things, even): (&[Thing<'_>], bool),
    assumptions: &mut Vec<Assumed>,
    troubles: &mut Vec<Trouble>,
) {
    let measured = |w: &&Wheel| w.hub > 0.0;
    if !design.wheels.iter().all(|w| measured(&w)) {
        assumptions.push(Assumed::SpokesUnmeasured);
    }
    let mut free: Vec<&Wheel> = Vec::new();
    for wheel in design.wheels.iter().filter(measured) {
        if even && free.iter().any(|w| wheels_mirrored(w, wheel)) {
            continue;
        }
        let Some((gap, one, other)) = spokes(wheel, things) else {
            free.push(wheel);
            continue;
        };
        let told =
            |t: &Trouble| matches!(t, Trouble::FingerGap { one: o, other: b, .. } if *o == one && *b == other);
        if !troubles.iter().any(told) {
            troubles.push(Trouble::FingerGap { one, other, gap, band: MOVING, moves: true });
        }
    }
}

/// Gaps between fixed parts that are near each other and not joined. A gap that another part fills is none.
pub(crate) fn fixed(
    things: &[Thing<'_>],
    figures: &mut Figures,
    assumptions: &mut Vec<Assumed>,
    troubles: &mut Vec<Trouble>,
) {
    let hard: Vec<&Thing<'_>> =
        things.iter().filter(|t| !matches!(t.kind, Kind::Soft | Kind::Axle | Kind::Brake)).collect();
    let boxes: Vec<Vec<[Vec3; 2]>> = hard.iter().map(|t| t.parts.iter().map(bounds).collect()).collect();
    let mut found: Vec<(f64, usize, usize)> = Vec::new();
    for i in 0..hard.len() {
        for j in i + 1..hard.len() {
            if let Some(size) = opening(&hard, &boxes, i, j) {
                found.push((size, i, j));
            }
        }
    }
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    #[allow(clippy::cast_precision_loss)]
    let count = (found.len() as f64, Dimension::NUMBER);
    let formula = "pairs of fixed parts that stand 5 to 12 mm apart and are not joined";
    figures.put("count.finger.gaps", count, formula, GEOMETRY, &[]);
    if found.len() > MOST {
        assumptions.push(Assumed::NarrowestTold { of: found.len(), told: MOST });
    }
    for (size, i, j) in found.into_iter().take(MOST) {
        troubles.push(Trouble::FingerGap {
            one: hard[i].name.to_owned(),
            other: hard[j].name.to_owned(),
            gap: size,
            band: FIXED,
            moves: false,
        });
    }
}

/// The open gap in the band between two things, if there is one.
fn opening(all: &[&Thing<'_>], boxes: &[Vec<[Vec3; 2]>], i: usize, j: usize) -> Option<f64> {
    let (a, b) = (all[i], all[j]);
    let far = |k: usize, l: usize| {
        let ([least, most], [low, high]) = (boxes[i][k], boxes[j][l]);
        let apart = |x: Vec3| x.x > FIXED.1 || x.y > FIXED.1 || x.z > FIXED.1;
        apart(low - most) || apart(least - high)
    };
    let each = |k: usize| (0..b.parts.len()).map(move |l| (k, l));
    let mut least: Option<Gap> = None;
    let mut near = Vec::new();
    for (k, l) in (0..a.parts.len()).flat_map(each).filter(|(k, l)| !far(*k, *l)) {
        let (p, q) = (&a.parts[k], &b.parts[l]);
        let found = open(p, q, FIXED.1)?;
        if found.size < TOUCH {
            return None;
        }
        if found.size < FIXED.1 - 1e-6 {
            near.push((p, q));
            if least.is_none_or(|l| found.size < l.size) {
                least = Some(found);
            }
        }
    }
    least.filter(|l| l.size >= FIXED.0 - 1e-6)?;
    let pieces =
        near.into_iter().flat_map(|(p, q)| slices(p).into_iter().filter_map(move |s| open(&s, q, FIXED.1)));
    let others = || all.iter().enumerate().filter(|(k, _)| *k != i && *k != j).flat_map(|(_, t)| &t.parts);
    let in_band = |g: &Gap| (FIXED.0 - 1e-6..FIXED.1 - 1e-6).contains(&g.size);
    let free = pieces.filter(in_band).filter(|g| !filled(others(), g.on.0.mix(g.on.1, 0.5)));
    free.map(|g| g.size).min_by(f64::total_cmp)
}
