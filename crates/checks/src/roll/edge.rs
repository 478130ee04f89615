//! The edge of a sill or kerb and what hangs low: ahead of the casters, where it meets the edge first, and under the chair, where it
//! does not clear an edge that the casters are over.

use super::grounding::Rolling;
use super::obstacle::tilt;
use super::problem::{Low, Problem};
use super::profile::Under;
use super::{helped_at_steps, place, said};
use chairwright_design::Design;

/// How far ahead of its contact a wheel touches the edge of a step: √(2 r h - h²), at most its radius.
fn touches(wheel: Rolling, height: f64) -> f64 {
    let high = wheel.radius.min(height);
    (2.0 * wheel.radius * high - high * high).sqrt()
}

/// Parts that meet a sill or kerb before the casters do, and parts between rearmost and foremost wheels that do not clear it.
/// Who helps there lifts the chair over it.
pub(super) fn edges(
    design: &Design,
    (rear, front, rows): (Rolling, Rolling, usize),
    unders: &[Under<'_>],
    found: &mut Vec<Problem>,
) {
    if helped_at_steps(design) {
        return;
    }
    for what in ["sill", "kerb"] {
        let Some(height) = place(design, what).filter(|h| *h > 0.0) else { continue };
        let origin = said(design, &format!("conditions.{what}"));
        let reach = front.at + touches(front, height);
        let ahead = lowest(unders, height, |p| (p.0 > reach).then_some(p.1));
        let strikes = |at: Low, (part, low): (&str, f64)| {
            let part = part.to_owned();
            Problem::Strikes { what, origin, height, part, low, at }
        };
        // what already stops it there is not told again
        if let Some(ahead) = ahead {
            found.push(strikes(Low::Ahead, ahead));
            continue;
        }
        let step = lowest(unders, height, |p| over_a_step((rear, front), height, p)).filter(|_| rows == 2);
        let ridge = || lowest(unders, height, |p| over_a_ridge((rear, front), height, p));
        let ridge = if what == "sill" && step.is_none() { ridge() } else { None };
        found.extend(step.map(|part| strikes(Low::Under, part)));
        found.extend(ridge.map(|part| strikes(Low::OverRidge, part)));
    }
}

/// The lowest of the points that are looked at, with its part, where it is lower than the step.
fn lowest<'a>(
    unders: &[Under<'a>],
    height: f64,
    over: impl Fn((f64, f64)) -> Option<f64>,
) -> Option<(&'a str, f64)> {
    let all = unders.iter().flat_map(|u| u.points.iter().map(move |p| (u.name, *p)));
    let low = all.filter_map(|(name, p)| Some((name, over(p)?))).filter(|(_, low)| *low < height - 1e-9);
    low.min_by(|a, b| a.1.total_cmp(&b.1))
}

/// How high a point between the wheels is above the ground before a kerb, where it is over the ground behind its edge: the casters
/// up on it, the rear wheels against it, the whole chair turned about their axle.
fn over_a_step((rear, front): (Rolling, Rolling), height: f64, (x, z): (f64, f64)) -> Option<f64> {
    if x <= rear.at || x >= front.at {
        return None;
    }
    let (s, c) = libm::sincos(tilt(height, front.at - rear.at));
    let (ahead, up) = (x - rear.at, z - rear.radius);
    let behind_edge = ahead * c - up * s > touches(rear, height);
    behind_edge.then_some(rear.radius + ahead * s + up * c)
}

/// How high a point is above level ground, where a narrow ridge can lie under it while all wheels stand beside it.
fn over_a_ridge((rear, front): (Rolling, Rolling), height: f64, (x, z): (f64, f64)) -> Option<f64> {
    let between = x > rear.at + touches(rear, height) && x < front.at - touches(front, height);
    between.then_some(z)
}

#[cfg(test)]
mod tests {
    use super::*;

    const REAR: Rolling = Rolling { at: 0.0, radius: 0.3 };
    const FRONT: Rolling = Rolling { at: 0.4, radius: 0.075 };

    /// By hand: a kerb of 40 mm over 400 mm turns it by asin 0.1, cosine 0.99499. A point 200 mm ahead of the axle and 250 mm below
    /// it comes to 300 + 200 x 0.1 - 250 x 0.99499 = 71.25 mm. The wheel meets the edge √(2 x 300 x 40 - 1600) = 149.67 mm ahead; the
    /// point is over 199.0 + 25 = 224.0 mm, behind the edge. One 100 mm ahead is not: 99.5 + 25 = 124.5 mm.
    #[test]
    fn a_kerb_turns_the_chair_over_its_edge() {
        let high = over_a_step((REAR, FRONT), 0.040, (0.200, 0.050)).unwrap();
        assert!((high - 0.071_25).abs() < 1e-5, "{high}");
        assert!(over_a_step((REAR, FRONT), 0.040, (0.100, 0.050)).is_none());
    }

    /// The caster touches a sill of 40 mm √(2 x 75 x 40 - 1600) = 66.3 mm ahead of its contact: beyond 333.7 mm it holds the chair up.
    #[test]
    fn a_ridge_lies_between_all_wheels() {
        assert!(over_a_ridge((REAR, FRONT), 0.040, (0.330, 0.030)).is_some());
        assert!(over_a_ridge((REAR, FRONT), 0.040, (0.336, 0.030)).is_none());
    }
}
