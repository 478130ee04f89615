//! The least shift that mends a clearance.
//!
//! A shift by d widens a gap by at most d, so the shift that mends it is reached from below by adding what
//! is still lacking; it is then made whole millimetres and looked at once more.

use crate::clear::LIMIT;
use crate::clear::caster::Swing;
use crate::clear::casters::{AGAINST, Against, Target, between, limit, nearest, numb, too_near};
use crate::clear::pair::Care;
use crate::clear::sweep::CLOSE;
use crate::clear::trouble::{Shift, Way};
use chairwright_design::{Caster, Design, Side, Vec3};

/// A shift beyond this is another design, not a repair.
const MOST: f64 = 0.080;
const STEPS: usize = 24;

fn vector(way: Way, side: Option<Side>) -> Vec3 {
    let out = side.map_or(1.0, Side::sign);
    match way {
        Way::Forward => Vec3::X,
        Way::Back => -Vec3::X,
        Way::Outward => Vec3::Y * out,
        Way::Inward => Vec3::Y * -out,
        Way::Up => Vec3::Z,
    }
}

/// The least shift in one direction after which nothing is lacking.
fn march(way: Way, lacks: impl Fn(f64) -> f64) -> Option<Shift> {
    let mut d = 0.0;
    for _ in 0..STEPS {
        let lack = lacks(d);
        if lack <= CLOSE {
            return Some(Shift { way, by: d });
        }
        d = libm::ceil((d + lack) * 1e3 - 1e-6) / 1e3;
        if d > MOST {
            return None;
        }
    }
    None
}

fn shortest(all: impl Iterator<Item = Shift>) -> Option<Shift> {
    all.min_by(|a, b| a.by.total_cmp(&b.by))
}

/// What the worst gap of a caster lacks. First over some swivels: what they lack is lacking at least; only
/// when they lack nothing it has to be proven over all.
fn lack(swing: &Swing, targets: &[Target], carries: &[bool], numb: bool) -> f64 {
    let wanted = |t: &Target, carry: bool| {
        if carry && t.against != Against::Foot { 0.0 } else { limit(t.against, numb) }
    };
    let quick = targets.iter().zip(carries).fold(0.0_f64, |most, (t, carry)| {
        let wanted = wanted(t, *carry);
        most.max(wanted - swing.sampled(&t.body, *carry, wanted - most))
    });
    if quick > 0.001 {
        return quick;
    }
    let of = |against: Against| {
        let (near, wanted) = too_near(swing, targets, carries, against, limit(against, numb))?;
        Some(wanted - near.least.gap)
    };
    AGAINST.into_iter().filter_map(of).fold(quick, f64::max)
}

pub(crate) fn caster_shift(
    design: &Design,
    swing: &Swing,
    side: Option<Side>,
    targets: &[Target],
    carries: &[bool],
) -> Option<Shift> {
    let aside: &[Way] = if side.is_some() { &[Way::Outward, Way::Inward] } else { &[] };
    let ways = [Way::Forward, Way::Back].into_iter().chain(aside.iter().copied());
    let feels = numb(design);
    shortest(ways.filter_map(|way| {
        let v = vector(way, side);
        march(way, |d| lack(&swing.moved(v * d), targets, carries, feels))
    }))
}

/// The shift of the feet, or of the foot support, as far as the caster strikes those.
pub(crate) fn feet_shift(
    design: &Design,
    swing: &Swing,
    targets: &[Target],
    against: Against,
) -> Option<Shift> {
    if !matches!(against, Against::Foot | Against::Footrest) {
        return None;
    }
    let wanted = limit(against, numb(design));
    shortest([Way::Forward, Way::Up].into_iter().filter_map(|way| {
        let v = vector(way, None);
        march(way, |d| {
            let moved: Vec<Target> = targets
                .iter()
                .filter(|t| t.against == against)
                .map(|t| Target { body: t.body.moved(v * d), ..t.clone() })
                .collect();
            let quick =
                moved.iter().fold(0.0_f64, |m, t| m.max(wanted - swing.sampled(&t.body, false, wanted - m)));
            if quick > 0.001 {
                return quick;
            }
            let carried = vec![false; moved.len()];
            nearest(swing, &moved, (&carried, false), against, wanted).map_or(0.0, |n| wanted - n.least.gap)
        })
    }))
}

/// Both casters outward, each to its own side.
pub(crate) fn pair_shift(one: (&Caster, &Swing), other: (&Caster, &Swing), care: Care) -> Option<Shift> {
    let (Some(_), Some(_)) = (one.0.side, other.0.side) else { return None };
    if one.0.side == other.0.side {
        return None;
    }
    march(Way::Outward, |d| {
        let [a, b] = [one, other].map(|(c, s)| s.moved(vector(Way::Outward, c.side) * d));
        // both move, so that the gap may widen by twice the shift
        (LIMIT - between(&a, &b, care).0) / 2.0
    })
}
