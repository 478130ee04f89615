//! How the rear wheels and the stems of casters stand and how the seat lies once the frame has given way for years under its rider.

use crate::bar::Of;
use crate::remark::Open;
use crate::solve::Run;
use crate::structure::{Carries, Port, Spot, Structure, TieOf};
use chairwright_checks::{Figures, MOST_LEAN, MOST_TOE};
use chairwright_design::{Design, Side, SupportKind, Vec3};
use chairwright_frame::Settled;

/// A rear wheel after years under the seated rider, on the ground, rad.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Turned {
    /// Index among the design's wheels.
    pub wheel: usize,
    /// Which side it is on.
    pub side: Side,
    /// Toe without a load and by how much it changes, toe-out is positive.
    pub toe: (f64, f64),
    /// Camber without a load and by how much it changes, top inward is positive.
    pub camber: (f64, f64),
}

/// Toe and camber of an outboard axle, rad: as the figures `toe.*` and `camber.*` have them.
fn stands(axle: Vec3, side: Side) -> (f64, f64) {
    (libm::atan2(-axle.x, axle.y * side.sign()), libm::asin(axle.z.clamp(-1.0, 1.0)))
}

/// By how much an axle that turns a little changes toe and camber.
fn changes(axle: Vec3, side: Side, turn: Vec3) -> (f64, f64) {
    let after = axle + turn.cross(axle);
    let (was, is) = (stands(axle, side), stands(after.unit().unwrap_or(axle), side));
    (is.0 - was.0, is.1 - was.1)
}

/// Every rear wheel in the run of the rider who sits for years. What was measured of the built chair comes before what is
/// drawn.
pub(crate) fn wheels(
    (design, figures): (&Design, &Figures),
    all: &Structure,
    pose: &Settled,
    run: &Run,
) -> Vec<Turned> {
    let held = |wheel: usize| {
        let tie = all.ties.iter().find(|t| t.of == TieOf::Wheel(wheel))?;
        tie.spots.iter().find_map(|s| if let Spot::Port(p) = s { Some(*p) } else { None })
    };
    let one = |wheel: usize| {
        let w = &design.wheels[wheel];
        let axle = pose.pose.turn(w.axle).unit()?;
        let side = if axle.y < 0.0 { Side::Right } else { Side::Left };
        let (toe, camber) = changes(axle, side, turn(run, held(wheel)?)?);
        let drawn = stands(axle, side);
        let known = |what: &str| figures.si(&format!("{what}.{}", side.word()));
        let toe = (known("toe").unwrap_or(drawn.0), toe);
        Some(Turned { wheel, side, toe, camber: (known("camber").unwrap_or(drawn.1), camber) })
    };
    all.footings.iter().filter(|f| !f.caster).filter_map(|f| one(f.index)).collect()
}

/// A caster's stem after years under the seated rider, on the ground, rad.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Leaned {
    /// Index among the design's casters.
    pub caster: usize,
    /// From the vertical without a load, and then.
    pub lean: (f64, f64),
    /// By what its top has moved to the rear, and to its own side outward.
    pub by: (f64, f64),
}

/// Every caster in the run of the rider who sits for years: what turns is the bar that holds its stem. What the bore around
/// it gives is in no figure here, nor how tyres sink in, which their radii under load have in them.
pub(crate) fn stems(
    design: &Design,
    (all, tyres): (&Structure, &[f64]),
    pose: &Settled,
    run: &Run,
) -> Vec<Leaned> {
    let sunk = sinks(all, tyres, run);
    let held = |caster: usize| {
        let tie = all.ties.iter().find(|t| t.of == TieOf::Caster(caster))?;
        tie.spots.iter().find_map(|s| if let Spot::Port(p) = s { Some(*p) } else { None })
    };
    let one = |caster: usize| {
        let c = &design.casters[caster];
        Some(leans(caster, pose.pose.turn(c.stem), c.at.y, turn(run, held(caster)?)? - sunk))
    };
    all.footings.iter().filter(|f| f.caster).filter_map(|f| one(f.index)).collect()
}

/// How the chair turns as a whole by its tyres sinking in, each by its load over its stiffness, N/m: the plane that lies
/// nearest to them.
fn sinks(all: &Structure, tyres: &[f64], run: &Run) -> Vec3 {
    let feet = all.footings.iter().zip(&run.feet).zip(tyres);
    let down: Vec<Vec3> = feet
        .map(|((f, load), k)| {
            let at = all.place(Spot::Point(f.contact));
            Vec3::new(at.x, at.y, -load.max(0.0) / k)
        })
        .collect();
    slope(&down)
}

/// The turn of a level plane into the one that lies nearest to some points of it that have moved up or down a little.
fn slope(points: &[Vec3]) -> Vec3 {
    #[allow(clippy::cast_precision_loss)]
    let middle = points.iter().fold(Vec3::ZERO, |s, p| s + *p) * (1.0 / points.len().max(1) as f64);
    let sum = |f: &dyn Fn(Vec3) -> f64| points.iter().map(|p| f(*p - middle)).sum::<f64>();
    let (xx, xy, yy) = (sum(&|p| p.x * p.x), sum(&|p| p.x * p.y), sum(&|p| p.y * p.y));
    let (xz, yz) = (sum(&|p| p.x * p.z), sum(&|p| p.y * p.z));
    let spread = xx * yy - xy * xy;
    // wheels in one line tell nothing of the way across it
    if spread <= 1e-9 {
        return Vec3::ZERO;
    }
    let (by_x, by_y) = ((xz * yy - yz * xy) / spread, (yz * xx - xz * xy) / spread);
    Vec3::new(by_y, -by_x, 0.0)
}

/// How a stem at a place across stands before and after it turns a little.
fn leans(caster: usize, stem: Vec3, across: f64, turn: Vec3) -> Leaned {
    let after = stem + turn.cross(stem);
    let after = after.unit().unwrap_or(stem);
    let lean = |s: Vec3| libm::acos(s.z.clamp(-1.0, 1.0));
    let moved = after - stem;
    let outward = if across < 0.0 { -moved.y } else { moved.y };
    Leaned { caster, lean: (lean(stem), lean(after)), by: (libm::asin(-moved.x), libm::asin(outward)) }
}

/// Stems that stood upright and do so no longer: those past the limit already are told elsewhere.
pub(crate) fn leaning(all: &[Leaned]) -> Vec<Open> {
    all.iter().filter(|l| l.lean.0 <= MOST_LEAN && l.lean.1 > MOST_LEAN).map(|l| Open::Leans(*l)).collect()
}

/// How a bar turns at the station nearest to a place.
fn turn(run: &Run, port: Port) -> Option<Vec3> {
    let here = run.moved.iter().zip(&run.turned).filter(|((bar, ..), _)| *bar == port.bar);
    let nearest = here.min_by(|a, b| (a.0.1 - port.at).abs().total_cmp(&(b.0.1 - port.at).abs()));
    nearest.map(|(_, turn)| *turn)
}

/// Wheels that ran straight and do so no longer: those past the limit already are told elsewhere.
pub(crate) fn toes(turned: &[Turned]) -> Vec<Open> {
    let past = |t: &&Turned| t.toe.0.abs() <= MOST_TOE && (t.toe.0 + t.toe.1).abs() > MOST_TOE;
    turned.iter().filter(past).map(|t| Open::Toes(*t)).collect()
}

/// By what the seat turns, rad, front up is positive: its foremost strip or band against its rearmost.
pub(crate) fn seat(design: &Design, all: &Structure, run: &Run) -> Option<f64> {
    let deck = all.decks.iter().find(|d| design.supports[d.support].kind == SupportKind::Seat)?;
    let sinks = |port: Port| {
        let on = run.moved.iter().filter(|(bar, ..)| *bar == port.bar);
        let nearest = on.min_by(|a, b| (a.1 - port.at).abs().total_cmp(&(b.1 - port.at).abs()))?;
        Some((all.bars[port.bar].at(port.at), nearest.2.z))
    };
    let (rear, front) = match &deck.carries {
        Carries::Sheet { across, .. } => {
            let middle = |bar: usize| sinks(Port { bar, at: all.bars[bar].length() / 2.0 });
            debug_assert!(across.iter().all(|b| matches!(all.bars[*b].of, Of::Support(_))));
            (middle(*across.first()?)?, middle(*across.last()?)?)
        }
        Carries::Bands(pairs) => {
            let middle = |(left, right): &(Port, Port)| {
                let (l, r) = (sinks(*left)?, sinks(*right)?);
                Some((l.0.mix(r.0, 0.5), f64::midpoint(l.1, r.1)))
            };
            (middle(pairs.first()?)?, middle(pairs.last()?)?)
        }
        Carries::Nothing => return None,
    };
    let apart = (front.0 - rear.0).norm();
    (apart > 0.05).then(|| libm::atan((front.1 - rear.1) / apart))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// An axle that points left and turns by 1 degree about the upright, left to the rear: its wheel toes out by 1 degree
    /// (the figure's own sense: backward over outward part of the axle). About the way forward, outer end up: its top leans
    /// inward by 1 degree. Turned about itself it stays.
    #[test]
    fn an_axle_turns_its_wheel() {
        let d = 1f64.to_radians();
        let near = |(toe, camber): (f64, f64), want: (f64, f64)| {
            assert!((toe - want.0).abs() < 1e-5 && (camber - want.1).abs() < 1e-5, "{toe} {camber}");
        };
        near(changes(Vec3::Y, Side::Left, Vec3::Z * d), (d, 0.0));
        near(changes(Vec3::Y, Side::Left, Vec3::X * d), (0.0, d));
        near(changes(Vec3::Y, Side::Left, Vec3::Y * d), (0.0, 0.0));
        // the right wheel, mirrored
        near(changes(-Vec3::Y, Side::Right, Vec3::Z * -d), (d, 0.0));
        near(changes(-Vec3::Y, Side::Right, Vec3::X * -d), (0.0, d));
    }

    /// An upright stem that turns by 1 degree about the way left, its top forward: 1 degree from the vertical, to the front. About the
    /// way forward, its top to the right: outward on the right side, inward on the left. About itself it stays.
    #[test]
    fn a_stem_turns_with_what_holds_it() {
        let d = 1f64.to_radians();
        let near = |l: Leaned, want: (f64, f64, f64)| {
            let got = (l.lean.1, l.by.0, l.by.1);
            assert!(
                (got.0 - want.0).abs() < 1e-5 && (got.1 - want.1).abs() < 1e-5 && (got.2 - want.2).abs() < 1e-5
            );
        };
        near(leans(0, Vec3::Z, 0.2, Vec3::Y * d), (d, -d, 0.0));
        near(leans(0, Vec3::Z, -0.2, Vec3::X * d), (d, 0.0, d));
        near(leans(0, Vec3::Z, 0.2, Vec3::X * d), (d, 0.0, -d));
        near(leans(0, Vec3::Z, 0.2, Vec3::Z * d), (0.0, 0.0, 0.0));
        // one that leaned back by 1 degree and turns forward by 4 leans forward by 3, past the limit of 2
        let back = Vec3::new(-libm::sin(d), 0.0, libm::cos(d));
        let l = leans(0, back, 0.2, Vec3::Y * (4.0 * d));
        assert!((l.lean.0 - d).abs() < 1e-9 && (l.lean.1 - 3.0 * d).abs() < 1e-3, "{l:?}");
        assert_eq!((leaning(&[l]).len(), leaning(&[Leaned { lean: (3.0 * d, 4.0 * d), ..l }]).len()), (1, 0));
    }

    /// Rear wheels at 0 that sink by 3 mm and casters 0.4 m ahead by 0.5 mm raise the front by 2.5 mm of 400, 0.00625 rad, about the
    /// way to the right. Left wheels that sink by 4 mm more than the right ones 0.5 m beside them: 0.008 rad about the way back.
    #[test]
    fn a_chair_that_sinks_in_turns() {
        let near = |points: [(f64, f64, f64); 4], want: Vec3| {
            let got = slope(&points.map(|(x, y, z)| Vec3::new(x, y, z)));
            assert!((got - want).norm() < 1e-12, "{got:?}");
        };
        let (rear, front) = (-0.003, -0.0005);
        near(
            [(0.0, 0.25, rear), (0.0, -0.25, rear), (0.4, 0.2, front), (0.4, -0.2, front)],
            Vec3::Y * -0.00625,
        );
        near(
            [(0.0, 0.25, -0.004), (0.0, -0.25, 0.0), (0.4, 0.25, -0.004), (0.4, -0.25, 0.0)],
            Vec3::X * -0.008,
        );
        near([(0.0, 0.0, -0.1), (0.1, 0.0, 0.0), (0.2, 0.0, 0.0), (0.3, 0.0, 0.0)], Vec3::ZERO);
    }

    /// Half a degree is the limit: 0.2 and 0.2 stay below it, 0.2 and 0.4 do not, and 0.6 was told before.
    #[test]
    fn only_what_the_load_takes_past_the_limit_is_told() {
        let t = |was: f64, by: f64| Turned {
            wheel: 0,
            side: Side::Left,
            toe: (was.to_radians(), by.to_radians()),
            camber: (0.0, 0.0),
        };
        assert!(toes(&[t(0.2, 0.2), t(0.6, 0.2), t(0.2, -0.4)]).is_empty());
        assert_eq!(toes(&[t(0.2, 0.4), t(-0.1, -0.5)]).len(), 2);
    }
}
