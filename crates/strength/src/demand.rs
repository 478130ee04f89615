//! What each fastener of a seam is asked to bear, by where they sit.

use crate::answer::{Mode, What};
use crate::joints::Fixed;
use crate::judge::{Court, Use};
use crate::placing::{Driven, layout};
use crate::reasons::Reason;
use crate::screws::Why;
use crate::seam::{Places, Seam, Wrench};
use crate::spread::Group;
use chairwright_design::Placing;
use chairwright_resistance::Refusal;
use chairwright_resistance::group::shared;

/// A moment smaller than this is none, N m: what the solver leaves of a hinge.
const NO_MOMENT: f64 = 1e-3;
/// Friction that keeps what is sat on from sliding on what it lies on: wood on dry plastic or wood, low; from
/// memory, not checked.
pub(crate) const FRICTION: f64 = 0.2;

/// What each fastener of a seam is asked to bear, N, plain and cautious.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Demand {
    pub aside: (f64, f64),
    pub pull: (f64, f64),
    /// How many share the force.
    pub each: f64,
}

/// What each fastener is asked to bear at the very least, where nobody knows where they could sit or what a moment puts on
/// them: an even share of the force, and nothing for what turns or opens the joint. Whoever fails by that fails.
pub(crate) fn even(seam: &Seam<'_>, fixed: &Fixed<'_>, w: &Wrench, places: &Places) -> Demand {
    let each = each(seam, fixed);
    let mut aside = w.force.across(seam.way).norm();
    let (pull, _) = opening(seam, w, places);
    if seam.lies {
        aside = (aside - FRICTION * (-w.force.dot(seam.way)).max(0.0)).max(0.0);
    }
    let one = |force: f64| (force / each, force / each);
    Demand { aside: one(aside), pull: one(pull), each }
}

/// How many share the force: of a gusset half of them are on this member.
fn each(seam: &Seam<'_>, fixed: &Fixed<'_>) -> f64 {
    f64::from(fixed.count) / if seam.plates { 2.0 } else { 1.0 }
}

/// What opens the faces of a seam: pull along its fasteners, N, and moments about its long and its short side, N m, with
/// their signs.
fn opening(seam: &Seam<'_>, w: &Wrench, places: &Places) -> (f64, [f64; 2]) {
    let along = w.force.dot(seam.way);
    let pull = match (seam.lies, seam.plates) {
        (true, _) => places.opens,
        (_, true) => 2.0 * along.abs(),
        _ => along.max(0.0),
    };
    let about = [w.moment.dot(seam.along), w.moment.dot(seam.way.cross(seam.along))];
    if seam.lies {
        // what lies on its rail tilts against the rail; where it opens is in `opens`
        return (pull, [0.0; 2]);
    }
    if seam.plates {
        return (pull, about);
    }
    let left = pressed(about, -along, seam.face);
    (pull, [left[0].copysign(about[0]), left[1].copysign(about[1])])
}

impl Court<'_> {
    pub(crate) fn demand(
        &self,
        seam: &Seam<'_>,
        fixed: &Fixed<'_>,
        w: &Wrench,
        places: &Places,
    ) -> Result<Demand, Why> {
        match (&seam.placing, fixed.driven()) {
            (Some(p), Some(driven)) => self.placed(seam, (p, fixed, driven), w, places),
            _ => Ok(even(seam, fixed, w, places)),
        }
    }

    /// What each fastener bears where it is known how they sit: force and moment shared out by the places. Where it
    /// does not say towards which end they stand, either counts. The cautious side bears more where an end or edge is
    /// nearer than the load wants it.
    fn placed(
        &self,
        seam: &Seam<'_>,
        (placing, fixed, driven): (&Placing, &Fixed<'_>, Driven),
        w: &Wrench,
        places: &Places,
    ) -> Result<Demand, Why> {
        let (groups, faces) = if seam.plates { (4, 2.0) } else { (1, 1.0) };
        let laid = layout(placing, fixed.count / groups, seam.face);
        if self.ill(seam, &laid, driven)?.is_some() {
            return Err(Why::Reason(Reason::Misplaced));
        }
        let [u, v] = seam.axes();
        let mut force = [w.force.dot(u) / faces, w.force.dot(v) / faces];
        let (pull, tilt) = opening(seam, w, places);
        if seam.lies {
            let size = libm::hypot(force[0], force[1]);
            let left = (size - FRICTION * (-w.force.dot(seam.way)).max(0.0)).max(0.0);
            force = force.map(|f| if size > 0.0 { f * left / size } else { 0.0 });
        }
        let twist = w.moment.dot(seam.way) / faces;
        let (mut aside, mut pulled) = ((f64::INFINITY, 0.0_f64), (f64::INFINITY, 0.0_f64));
        for by in sides(laid.off) {
            let at: Vec<[f64; 2]> = laid.places.iter().map(|p| [p[0] + by[0], p[1] + by[1]]).collect();
            let twist = if twist.abs() < NO_MOMENT && force == [0.0; 2] { 0.0 } else { twist };
            let each = turned(&at, force, twist)?;
            let mut worst = (0.0_f64, 0.0_f64);
            for f in each {
                let size = libm::hypot(f[0], f[1]);
                let toward = f.map(|x| if size > 0.0 { x / size } else { 0.0 });
                let kept = self.kept(seam, &laid, driven, toward)?;
                worst = (worst.0.max(size), worst.1.max(size / kept));
            }
            aside = (aside.0.min(worst.0), aside.1.max(worst.1));
            // what lies is pulled off place by place, and each place by the fasteners beside it
            let apart = if seam.lies { lifted(&at, &places.along) } else { 0.0 };
            let of = Group { places: at, face: seam.face }.pulled(pull / faces, tilt.map(|m| m / faces));
            let of = (of.0, of.1.max(apart));
            pulled = (pulled.0.min(of.0), pulled.1.max(of.1));
        }
        let each = each(seam, fixed);
        let several = places.count > 1.0 && !seam.lies;
        let most = |force: f64| if several { force / (each / places.count) } else { 0.0 };
        Ok(Demand {
            aside: (aside.0, aside.1.max(most(places.aside))),
            pull: (pulled.0, pulled.1.max(most(places.pull))),
            each,
        })
    }
}

/// The most that pulls at places along a row, each by where it is, put on one fastener of it, N. A place between two is held by both, by
/// the lever; one beyond the last lifts about the last but one, and the last bears more than the pull. What presses elsewhere takes
/// nothing off. One alone holds everything, about the farthest place that lies on.
fn lifted(at: &[[f64; 2]], pulls: &[(f64, f64)]) -> f64 {
    let mut columns: Vec<f64> = at.iter().map(|p| p[0]).collect();
    columns.sort_by(f64::total_cmp);
    columns.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    if columns.len() < 2 {
        return columns.first().map_or(0.0, |one| alone(*one, pulls)) / at.len().max(1) as f64;
    }
    let mut each = vec![0.0; columns.len()];
    for (x, pull) in pulls.iter().filter(|p| p.1 > 0.0) {
        let next = columns.iter().position(|c| c >= x).unwrap_or(columns.len() - 1).max(1);
        let share = (x - columns[next - 1]) / (columns[next] - columns[next - 1]);
        each[next] += pull * share.max(0.0);
        each[next - 1] += pull * (1.0 - share).max(0.0);
    }
    let rows = at.len() as f64 / columns.len() as f64;
    each.into_iter().fold(0.0, f64::max) / rows
}

/// What one column alone bears of pulls along its row, N: each about the farthest place on its other side.
fn alone(at: f64, pulls: &[(f64, f64)]) -> f64 {
    let lever = |x: f64| {
        let far = pulls.iter().map(|p| (at - p.0) * (x - at).signum()).fold(0.0, f64::max);
        if far > 0.0 { (far + (x - at).abs()) / far } else { 1.0 }
    };
    pulls.iter().filter(|p| p.1 > 0.0).map(|(x, pull)| pull * lever(*x)).sum()
}

/// Force on each fastener of a group, N; a moment that is none asks nothing of a single one.
fn turned(at: &[[f64; 2]], force: [f64; 2], twist: f64) -> Result<Vec<[f64; 2]>, Refusal> {
    let twist = if twist.abs() < NO_MOMENT { 0.0 } else { twist };
    if let [one] = at
        && libm::hypot(one[0], one[1]) < 1e-9
        && twist == 0.0
    {
        return Ok(vec![force]);
    }
    Ok(shared(at, force, [0.0; 2], twist)?.each)
}

/// Where the middle of a group may be.
pub(crate) fn sides(off: [f64; 2]) -> Vec<[f64; 2]> {
    let both = |o: f64| if o > 0.0 { vec![o, -o] } else { vec![0.0] };
    both(off[0]).iter().flat_map(|a| both(off[1]).into_iter().map(|b| [*a, b])).collect()
}

/// What is left of moments that open the faces, about their long and their short side, where a force
/// presses them together: as long as its resultant stays in the middle third, nothing opens (strength of
/// materials: the kern of a rectangle, e ≤ b/6). Half of the force is counted for either side.
fn pressed(tilt: [f64; 2], press: f64, face: [f64; 2]) -> [f64; 2] {
    let left = |k: usize| (tilt[k].abs() - press.max(0.0) / 2.0 * face[1 - k] / 6.0).max(0.0);
    [left(0), left(1)]
}

pub(crate) fn fastener_use(what: What, case: usize, mode: Mode, d: Demand, used: (f64, f64)) -> Use {
    let demand = libm::hypot(d.aside.1, d.pull.1);
    let bears = if used.1 > 0.0 { demand / used.1 } else { f64::INFINITY };
    Use { what, case, mode, at: 0.0, used, most: used.1, demand, bears }
}

/// What the worst fastener pulls its head and nut against, N, and what that lies on bears of it.
pub(crate) fn head_use(what: What, case: usize, pull: f64, used: (f64, f64)) -> Use {
    let bears = if used.1 > 0.0 { pull / used.1 } else { f64::INFINITY };
    Use { what, case, mode: Mode::Head, at: 0.0, used, most: used.1, demand: pull, bears }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1 200 N press a face of 0.12 m by 0.06 m: half of it, 600 N, closes 600 · 0.06/6 = 6 N m about the long side and
    /// 12 N m about the short one.
    #[test]
    fn what_presses_keeps_shut() {
        let left = pressed([10.0, 10.0], 1200.0, [0.12, 0.06]);
        assert!((left[0] - 4.0).abs() < 1e-12 && left[1] == 0.0, "{left:?}");
        assert_eq!(pressed([-10.0, 3.0], -500.0, [0.12, 0.06]), [10.0, 3.0]);
    }

    /// Three at -0.1, 0 and 0.1 m. 300 N at 0.05 m: 150 N each to the last two. 200 N at 0.12 m lift about the middle one: 200 · 0.12/0.1 =
    /// 240 N on the last, so that it bears 390 N of 500 N, which shared out evenly are 167 N. Of two rows half. One alone at 0,
    /// the far place at -0.2 m: 200 N at 0.1 m are 200 · 0.3/0.2 = 300 N.
    #[test]
    fn the_last_of_a_row_bears_most() {
        let row: Vec<[f64; 2]> = [-0.1, 0.0, 0.1].map(|x| [x, 0.0]).to_vec();
        let pulls = [(-0.12, 0.0), (0.05, 300.0), (0.12, 200.0)];
        assert!((lifted(&row, &pulls) - 390.0).abs() < 1e-9);
        let two: Vec<[f64; 2]> = row.iter().flat_map(|p| [[p[0], -0.01], [p[0], 0.01]]).collect();
        assert!((lifted(&two, &pulls) - 195.0).abs() < 1e-9);
        assert!((lifted(&[[0.0, 0.0]], &[(-0.2, 0.0), (0.1, 200.0)]) - 300.0).abs() < 1e-9);
        assert_eq!(lifted(&row, &[]), 0.0);
    }

    /// Two rows of two, 60 mm and 40 mm apart: Σr² = 4 · (30² + 20²) = 5 200 mm². 400 N along the rows give each 100 N;
    /// 52 N m turn each by 10 N a mm: at (30, 20) mm 10 · 20 = 200 N along and 300 N across, so that the worst carries
    /// (100 + 200, 300): √(300² + 300²) = 424.3 N.
    #[test]
    fn force_and_twist_on_a_placed_group() {
        let at = [[-0.03, -0.02], [0.03, -0.02], [-0.03, 0.02], [0.03, 0.02]];
        let each = turned(&at, [400.0, 0.0], 52.0).unwrap();
        let worst = each.iter().map(|f| libm::hypot(f[0], f[1])).fold(0.0, f64::max);
        assert!((worst - 424.264).abs() < 1e-3, "{each:?}");
        // one alone in the middle carries a force, and no twist
        assert_eq!(turned(&[[0.0, 0.0]], [400.0, 0.0], 0.0).unwrap(), vec![[400.0, 0.0]]);
        assert!(turned(&[[0.0, 0.0]], [400.0, 0.0], 1.0).is_err());
    }
}
