//! Across the slope and round the bend.

use super::problem::Problem;
use super::push::grounds;
use super::stand::Stands;
use super::{G, helped, place, said};
use crate::Checked;
use crate::assumed::Assumed;
use crate::fit::{Hands, hands};
use chairwright_design::Design;
use chairwright_quantity::Dimension;

const F: Dimension = Dimension::FORCE;
const A: Dimension = Dimension::ANGLE;
const L: Dimension = Dimension::LENGTH;
const MOMENT: Dimension = Dimension::MOMENT;
const SPEED: Dimension = Dimension::SPEED;
const DRIFT: &str = "statics: the weight's downhill part acts ahead of the axle, casters swivel freely";
const ALONE: &str = "statics: one hand at the upper rim, casters swivel freely";
const BEND: &str = "statics: centripetal force against weight, at the slope that tips it sideways";

pub(crate) fn side(design: &Design, stands: &Stands, out: &mut Checked, found: &mut Vec<Problem>) {
    bend(design, out);
    let stand = stands.most(|s| (s.weight * s.ahead).abs());
    let Some(slope) = place(design, "cross_slope").map(f64::abs).filter(|s| *s > 0.0) else { return };
    let moment = stand.weight * libm::sin(slope) * stand.ahead;
    let inputs = [("weight", stand.weight, F), ("cross slope", slope, A), ("distance ahead", stand.ahead, L)];
    let formula = format!(
        "weight x sin(cross slope) x distance of the centre of mass ahead of the rear contacts{}",
        stand.words()
    );
    out.figures.put("drift.moment", (moment, MOMENT), formula, DRIFT, &inputs);
    if stand.track <= 0.0 {
        return;
    }
    let force = moment / stand.track;
    let inputs = [("drift.moment", moment, MOMENT), ("track", stand.track, L)];
    out.figures.put("drift.force", (force, F), "drift.moment / track", DRIFT, &inputs);
    // of several kinds of ground any may have the cross slope: it is the easiest on which a hand has the least to give back
    let ease = grounds(design).iter().map(|g| g.rolling.1).fold(f64::INFINITY, f64::min);
    let hand = stand.weight * ease / 2.0;
    let alone = matches!(hands(&design.rider), Hands::One(_) | Hands::Either);
    if alone {
        alone_across(moment.abs(), stand.base, out);
    }
    if ease.is_finite() && force.abs() > hand && !helped(design) {
        let origin = said(design, "conditions.cross_slope");
        found.push(Problem::Drifts { origin, slope, force: force.abs(), hand, alone });
    }
}

/// One hand at the upper rim turns the chair further downhill with every push: what steers has to hold both.
fn alone_across(moment: f64, base: f64, out: &mut Checked) {
    let steer = out.figures.si("push.one.turn").map(|turn| (turn, (turn + moment) / base));
    if let Some((turn, steer)) = steer {
        let inputs = [
            ("push.one.turn", turn, MOMENT),
            ("drift.moment", moment, MOMENT),
            ("rear contacts to caster contacts", base, L),
        ];
        let formula =
            "(push.one.turn + drift.moment) / distance of the caster contacts ahead of the rear contacts";
        out.figures.put("drift.one.steer", (steer, F), formula, ALONE, &inputs);
    }
    out.assumptions.push(Assumed::AcrossAlone(steer.map(|s| s.1)));
}

/// The tightest bend at the declared speed: v² / (r g) = tan of the slope that tips it sideways.
fn bend(design: &Design, out: &mut Checked) {
    let (Some(speed), Some(tip)) = (place(design, "speed"), out.figures.si("tip.side")) else { return };
    if tip <= 0.0 {
        return;
    }
    let radius = speed * speed / (G * libm::tan(tip));
    let inputs = [("speed", speed, SPEED), ("tip.side", tip, A)];
    out.figures.put("turn.radius", (radius, L), "speed² / (9.80665 m/s2 x tan tip.side)", BEND, &inputs);
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: one hand turns the chair by 5 Nm and the cross slope by 9 Nm the same way: 14 Nm over 400 mm are 35 N aside.
    #[test]
    fn the_upper_rim_adds_to_the_slope() {
        let mut out = Checked::default();
        out.figures.put("push.one.turn", (5.0, MOMENT), "", "", &[]);
        alone_across(9.0, 0.4, &mut out);
        assert!((out.figures.si("drift.one.steer").unwrap() - 35.0).abs() < 1e-9);
        assert!(matches!(out.assumptions[..], [Assumed::AcrossAlone(Some(n))] if (n - 35.0).abs() < 1e-9));
        // and where the path is not known, what steers holds nobody knows how much
        let mut out = Checked::default();
        alone_across(9.0, 0.4, &mut out);
        assert!(matches!(out.assumptions[..], [Assumed::AcrossAlone(None)]));
    }
}
