//! The chair that its rider has just left, or not yet sat down in: with what hangs behind it may go over by itself.

use super::antitip;
use super::riding::Scene;
use super::{A, L, Loading, STATICS, tip_angle};
use crate::Checked;
use crate::problem::Problem;

/// The slope that tips the empty chair backward, with locked wheels and whatever of what rides along tips it soonest, and
/// what the place makes of it.
pub(super) fn empty(scene: &Scene, out: &mut Checked) {
    let loadings = scene.loadings(&[]);
    let of = |l: &Loading| scene.contacts.span(l.total.centre, (-1.0, 0.0)).least;
    let angle = |l: &Loading| tip_angle(of(l).0, of(l).1);
    let Some(worst) = loadings.iter().min_by(|a, b| angle(a).total_cmp(&angle(b))) else { return };
    let (has, (t, h)) = (angle(worst), of(worst));
    let formula = format!("atan(distance to the rear contacts / height), nobody in the seat{}", worst.words());
    out.figures.put("tip.empty", (has, A), formula, STATICS, &[("distance", t, L), ("height", h, L)]);
    let slope = crate::roll::steepest(scene.design);
    let guarded = crate::layout::usual(scene.settled) && antitip::guards(scene.design, &out.problems);
    if has > slope || scene.design.name.is_empty() || guarded {
        return;
    }
    let carried = scene.design.carried.iter().map(|c| (c.name.as_str(), c.origin));
    let mut all = carried.chain(scene.design.items.iter().map(|i| (i.name.as_str(), i.origin)));
    let first = worst.with.split(" and ").next().unwrap_or("");
    let origin = all.find(|(name, _)| *name == first).map(|(_, origin)| origin);
    let origin = origin.or(scene.design.wheels.first().map(|w| w.origin));
    out.problems.push(Problem::EmptyTips { with: worst.with.clone(), origin, has, slope });
}
