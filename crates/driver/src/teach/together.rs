//! Two parameters at once, or three, where no one alone mends a finding: the least change of all together that their slopes
//! promise, and proof by compiling.
//!
//! What is asked is taken as straight in each parameter: room + a x + b y + ... >= 0 for what is sought and for everything that is
//! met now, within all ranges. The least |x| / width + |y| / width + ... lies on a corner of that region. A compile there says what
//! the rooms really are; the faces are moved by the difference and the corner is looked for again, a few times.

use super::asked::{Asked, Standing};
use super::{Change, HAIR, Slope, outward};
use crate::{Compilation, Options, Project};

/// Pairs that are tried for one finding, the least promised change first.
const PAIRS: usize = 5;
/// The same of threes.
const THREES: usize = 3;
/// Corners that are tried for one pair, or three.
const CORNERS: usize = 6;
/// Of a pair one is among so many that move most what is sought.
const LEADING: usize = 4;
/// Parameters that a three is made of: so many that move most what is sought, and so many that move most what has to be kept.
const OF_THREE: (usize, usize) = (3, 5);
/// Compiles that pairs and threes may take for one chair.
pub(super) const BUDGET: usize = 80;

/// One thing that is asked, as a face: room left, and what each parameter does to it.
#[derive(Clone, PartialEq, Debug)]
struct Face {
    room: f64,
    by: Vec<f64>,
}

impl Face {
    fn at(&self, x: &[f64]) -> f64 {
        self.room + self.by.iter().zip(x).map(|(b, x)| b * x).sum::<f64>()
    }
}

/// What is sought: which targets must be met, and a finding's own figure with what it has to gain.
pub(super) struct Sought<'w> {
    /// Place among the targets of the slopes.
    pub target: usize,
    /// What is lacking now; below zero. For a finding: of its figure, up to where it was seen to be gone.
    pub room: f64,
    /// Whether more of the target is better (1) or less (-1).
    pub sign: f64,
    /// Whether an uncertain value that takes the last of the room is told of, as it is of demands.
    pub strictly: bool,
    /// Whether a compilation has what is sought; its own room where it can be told.
    pub has: &'w dyn Fn(&Compilation) -> (bool, Option<f64>),
}

/// How much of their widths some turns take together.
fn share(x: &[f64], widths: &[f64]) -> f64 {
    x.iter().zip(widths).map(|(x, w)| x.abs() / w).sum()
}

/// The corner of least change: `widths` and `bounds` of the parameters, as turns from where they are.
fn corner(faces: &[Face], widths: &[f64], bounds: &[(f64, f64)]) -> Option<Vec<f64>> {
    let n = widths.len();
    let along = |k: usize, room: f64, by: f64| {
        let mut face = Face { room, by: vec![0.0; n] };
        face.by[k] = by;
        face
    };
    let mut all = faces.to_vec();
    let edges = (0..n).flat_map(|k| [along(k, -bounds[k].0, 1.0), along(k, bounds[k].1, -1.0)]);
    all.extend(edges.filter(|f| f.room.is_finite()));
    let held = all.len();
    all.extend((0..n).map(|k| along(k, 0.0, 1.0)));
    let inside = |x: &[f64]| {
        all[..held].iter().all(|f| {
            let scale = f.room.abs() + f.by.iter().zip(widths).map(|(b, w)| (b * w).abs()).sum::<f64>();
            f.at(x) >= -1e-9 * scale.max(1e-9)
        })
    };
    let mut best: Option<(f64, Vec<f64>)> = None;
    let mut pick: Vec<usize> = (0..n).collect();
    while pick.len() == n {
        let meeting: Vec<&Face> = pick.iter().map(|i| &all[*i]).collect();
        if let Some(x) = meet(&meeting, widths) {
            let share = share(&x, widths);
            if best.as_ref().is_none_or(|b| share < b.0 - 1e-12) && inside(&x) {
                best = Some((share, x));
            }
        }
        next(&mut pick, all.len());
    }
    best.map(|b| b.1)
}

/// The next choice of as many among `count`, in order; emptied behind the last.
fn next(pick: &mut Vec<usize>, count: usize) {
    let n = pick.len();
    let Some(k) = (0..n).rev().find(|k| pick[*k] + n - k < count) else { return pick.clear() };
    pick[k] += 1;
    for j in k + 1..n {
        pick[j] = pick[j - 1] + 1;
    }
}

/// Where as many faces as there are parameters meet; `None` where they do not in one point.
fn meet(faces: &[&Face], widths: &[f64]) -> Option<Vec<f64>> {
    let n = faces.len();
    let mut rows: Vec<Vec<f64>> =
        faces.iter().map(|f| f.by.iter().copied().chain([-f.room]).collect()).collect();
    let mut volume = 1.0;
    for k in 0..n {
        let most = (k..n).max_by(|a, b| rows[*a][k].abs().total_cmp(&rows[*b][k].abs()))?;
        rows.swap(k, most);
        volume *= rows[k][k] * widths[k];
        if rows[k][k] == 0.0 {
            return None;
        }
        let pivot = rows[k].clone();
        for (_, row) in rows.iter_mut().enumerate().filter(|(i, _)| *i != k) {
            let by = row[k] / pivot[k];
            row.iter_mut().zip(&pivot).skip(k).for_each(|(r, p)| *r -= by * p);
        }
    }
    (volume.abs() >= 1e-15).then(|| (0..n).map(|k| rows[k][n] / rows[k][k]).collect())
}

/// How far a parameter may be turned each way.
fn bounds(slope: &Slope) -> (f64, f64) {
    let now = slope.dial.now;
    let stops = || slope.dial.stops.iter().map(|s| s - now);
    match slope.dial.range {
        _ if !slope.dial.stops.is_empty() => (stops().fold(0.0, f64::min), stops().fold(0.0, f64::max)),
        Some((low, high)) => (low - now, high - now),
        None => (-slope.width(), slope.width()),
    }
}

/// The value for a turn, rounded away from the present one to what a builder can set; `None` beyond the range.
fn set(slope: &Slope, turn: f64) -> Option<f64> {
    let dial = &slope.dial;
    if turn.abs() < 1e-9 {
        return Some(dial.now);
    }
    let to = dial.now + turn;
    if !dial.stops.is_empty() {
        let beyond = |s: &f64| (s - to) * turn.signum() >= -1e-9;
        let stops = dial.stops.iter().copied().filter(beyond);
        return stops.min_by(|a, b| (a - to).abs().total_cmp(&(b - to).abs()));
    }
    let to = outward(to, dial.now, &dial.unit);
    dial.range.is_none_or(|(low, high)| (low - 1e-9..=high + 1e-9).contains(&to)).then_some(to)
}

/// Some parameters and the corner that their slopes promise.
struct Promise<'s> {
    turned: Vec<&'s Slope>,
    faces: Vec<Face>,
    at: Vec<f64>,
    share: f64,
}

fn promise<'s>(sought: &Sought<'_>, before: &Standing, turned: Vec<&'s Slope>) -> Option<Promise<'s>> {
    let face = |i: usize, room: f64, sign: f64| Face {
        room,
        by: turned.iter().map(|s| sign * s.by_target[i]).collect(),
    };
    let mut faces = vec![face(sought.target, sought.room, sought.sign)];
    let met = before.rooms.iter().enumerate().filter(|(i, _)| *i != sought.target);
    faces.extend(met.filter_map(|(i, r)| r.filter(|r| *r >= HAIR).map(|r| face(i, r, 1.0))));
    let (widths, bounds) = reach(&turned);
    let at = corner(&faces, &widths, &bounds)?;
    let share = share(&at, &widths);
    // what leaves one of them where it is was looked at with fewer
    at.iter().all(|x| x.abs() > 1e-9).then_some(Promise { turned, faces, at, share })
}

fn reach(turned: &[&Slope]) -> (Vec<f64>, Vec<(f64, f64)>) {
    (turned.iter().map(|s| s.width()).collect(), turned.iter().map(|s| bounds(s)).collect())
}

/// Pairs of one that leads and any other.
fn pairs<'s>(leading: &[&'s Slope], all: &'s [Slope]) -> Vec<Vec<&'s Slope>> {
    let mut out = Vec::new();
    for (i, first) in leading.iter().take(LEADING).enumerate() {
        let led = |s: &&Slope| !leading[..=i].iter().any(|l| l.name == s.name);
        out.extend(all.iter().filter(led).map(|s| vec![*first, s]));
    }
    out
}

/// Threes of those that lead and those that move most what has to be kept, as a share of the room that is left there.
fn threes<'s>(
    leading: &[&'s Slope],
    all: &'s [Slope],
    sought: &Sought<'_>,
    before: &Standing,
) -> Vec<Vec<&'s Slope>> {
    let grips = |s: &Slope| {
        let of = |(i, room): (usize, &Option<f64>)| {
            let room = room.filter(|r| *r >= HAIR && i != sought.target)?;
            Some((s.by_target[i] * s.width()).abs() / room.max(1e-6))
        };
        before.rooms.iter().enumerate().filter_map(of).fold(0.0, f64::max)
    };
    let mut some: Vec<&Slope> = leading.iter().take(OF_THREE.0).copied().collect();
    let mut rest: Vec<&Slope> = all.iter().filter(|s| !some.iter().any(|l| l.name == s.name)).collect();
    rest.sort_by(|a, b| grips(b).total_cmp(&grips(a)));
    some.extend(rest.into_iter().take(OF_THREE.1));
    let mut out = Vec::new();
    let mut pick = vec![0, 1, 2];
    // each has one that leads
    while some.len() >= 3 && pick.first().is_some_and(|f| *f < leading.len().min(OF_THREE.0)) {
        out.push(pick.iter().map(|i| some[*i]).collect());
        next(&mut pick, some.len());
    }
    out
}

impl Project {
    /// The least change of two parameters, or else of three, with which what is sought is had and nothing else is worse.
    /// `leading` are the parameters that move it, the strongest first.
    pub(super) fn together(
        &mut self,
        options: &Options,
        (asked, sought): (&Asked, &Sought<'_>),
        (leading, all, budget): (&[&Slope], &[Slope], &mut usize),
    ) -> Option<Change> {
        let before = &asked.before;
        let all_of = [(pairs(leading, all), PAIRS), (threes(leading, all, sought, before), THREES)];
        all_of.into_iter().find_map(|(some, most)| {
            let mut promises: Vec<Promise<'_>> =
                some.into_iter().filter_map(|turned| promise(sought, before, turned)).collect();
            promises.sort_by(|a, b| a.share.total_cmp(&b.share));
            promises.truncate(most);
            let mut best: Option<Change> = None;
            for promise in promises {
                if best.as_ref().is_some_and(|b| b.share <= promise.share) {
                    break;
                }
                let found = self.prove(options, (asked, sought), promise, budget);
                if let Some(found) = found.filter(|f| f.is_better(best.as_ref())) {
                    best = Some(found);
                }
            }
            best
        })
    }

    fn prove(
        &mut self,
        options: &Options,
        (asked, sought): (&Asked, &Sought<'_>),
        promise: Promise<'_>,
        budget: &mut usize,
    ) -> Option<Change> {
        let Promise { turned, mut faces, mut at, .. } = promise;
        let kept: Vec<usize> = (0..asked.goals.len())
            .filter(|i| *i != sought.target)
            .filter(|i| asked.before.rooms[*i].is_some_and(|r| r >= HAIR))
            .collect();
        let (widths, bounds) = reach(&turned);
        for _ in 0..CORNERS {
            *budget = budget.checked_sub(1)?;
            let to: Vec<f64> = turned.iter().zip(&at).map(|(s, x)| set(s, *x)).collect::<Option<_>>()?;
            let turns: Vec<(&Slope, f64)> = turned.iter().copied().zip(to.iter().copied()).collect();
            let down = self.turned_down_for(options, asked, sought, &turns);
            let light = down.is_some();
            let tried = down.unwrap_or_else(|| self.turned(options, &turns));
            let now = asked.standing(&tried);
            let (has, room) = (sought.has)(&tried);
            if !light && has && asked.keeps(&now, Some(sought.target)) {
                let turns = turned.iter().zip(&to).map(|(s, to)| s.turn(*to)).collect();
                return Some(Change::of(turns, now.kept(&asked.before)));
            }
            // what the compile says of the rounded corner, against what the faces said of the corner
            let shift = |f: &mut Face, room: f64| {
                let missed = room - f.at(&at);
                f.room += missed.min(0.0);
                // met by a hair, and yet not for the finding: a little more of it
                if room.abs() < 1e-9 {
                    f.room -= 1e-3 * f.by.iter().map(|b| b.abs()).sum::<f64>();
                }
            };
            if let Some(room) = room {
                shift(&mut faces[0], room);
            }
            for (face, i) in faces[1..].iter_mut().zip(&kept) {
                match now.rooms[*i] {
                    Some(room) => shift(face, room),
                    // where its strength was left aside
                    None if light => {}
                    None => return None,
                }
            }
            let next = corner(&faces, &widths, &bounds)?;
            if next.iter().zip(&at).all(|(n, a)| (n - a).abs() < 1e-9) {
                return None;
            }
            at = next;
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn face(room: f64, by: &[f64]) -> Face {
        Face { room, by: by.to_vec() }
    }

    /// By hand: sought x >= 10, kept 5 - x + y >= 0: x = 10 alone breaks it, with y = 5 both hold. Within a range of y up to 4
    /// nothing does.
    #[test]
    fn the_second_gives_back_what_the_first_takes() {
        let faces = [face(-10.0, &[1.0, 0.0]), face(5.0, &[-1.0, 1.0])];
        let wide = (-100.0, 100.0);
        let at = corner(&faces, &[200.0, 200.0], &[wide, wide]).unwrap();
        assert!((at[0] - 10.0).abs() < 1e-9 && (at[1] - 5.0).abs() < 1e-9, "{at:?}");
        assert!(corner(&faces, &[200.0, 200.0], &[wide, (-100.0, 4.0)]).is_none());
    }

    /// x + y >= 10 with x up to 4: x of width 100 and y of 10 cost 0.04 + 0.6; y alone would cost 1.
    #[test]
    fn the_cheaper_one_goes_to_its_end() {
        let faces = [face(-10.0, &[1.0, 1.0])];
        let at = corner(&faces, &[100.0, 10.0], &[(-4.0, 4.0), (-20.0, 20.0)]).unwrap();
        assert!((at[0] - 4.0).abs() < 1e-9 && (at[1] - 6.0).abs() < 1e-9, "{at:?}");
    }

    /// By hand: sought x >= 10, kept 5 - x + y >= 0 and 2 - y + z >= 0: y has to give 5, of which 2 are there, and z the other 3.
    /// Where z goes to 2 alone, nothing does.
    #[test]
    fn the_third_gives_back_what_the_second_takes() {
        let faces = [face(-10.0, &[1.0, 0.0, 0.0]), face(5.0, &[-1.0, 1.0, 0.0]), face(2.0, &[0.0, -1.0, 1.0])];
        let (wide, widths) = ((-100.0, 100.0), [200.0; 3]);
        let at = corner(&faces, &widths, &[wide; 3]).unwrap();
        let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
        assert!(near(at[0], 10.0) && near(at[1], 5.0) && near(at[2], 3.0), "{at:?}");
        assert!(corner(&faces, &widths, &[wide, wide, (-100.0, 2.0)]).is_none());
    }

    /// Of five things there are ten choices of three, the last of the last three.
    #[test]
    fn every_choice_once() {
        let mut pick = vec![0, 1, 2];
        let mut all = Vec::new();
        while !pick.is_empty() {
            all.push(pick.clone());
            next(&mut pick, 5);
        }
        assert_eq!(all.len(), 10);
        assert_eq!(all[9], [2, 3, 4]);
        all.dedup();
        assert_eq!(all.len(), 10);
    }
}
