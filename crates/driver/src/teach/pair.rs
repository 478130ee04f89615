//! Two parameters at once, where no one alone mends a finding: the least change of both together that their slopes promise,
//! and proof by compiling.
//!
//! What is asked is taken as straight in both parameters: room + a x + b y >= 0 for what is sought and for everything that is met
//! now, within both ranges. The least |x| / width + |y| / width lies on a corner of that region. A compile there says what the
//! rooms really are; the lines are moved by the difference and the corner is looked for again, a few times.

use super::{Change, HAIR, Slope, Standing, is_no_worse, outward, standing};
use crate::teach::target::Target;
use crate::{Compilation, Options, Project};

/// Pairs that are tried for one finding, the least promised change first.
const PAIRS: usize = 5;
/// Corners that are tried for one pair.
const CORNERS: usize = 6;
/// Of a pair one is among so many that move most what is sought.
const LEADING: usize = 4;
/// Compiles that pairs may take for one chair.
pub(super) const BUDGET: usize = 60;

/// One thing that is asked, as a line in two parameters.
#[derive(Clone, Copy, PartialEq, Debug)]
struct Line {
    room: f64,
    a: f64,
    b: f64,
}

/// What is sought: which targets must be met, and a finding's own figure with what it has to gain.
pub(super) struct Sought<'w> {
    /// Place among the targets of the slopes.
    pub target: usize,
    /// What is lacking now; below zero. For a finding: of its figure, up to where it was seen to be gone.
    pub room: f64,
    /// Whether more of the target is better (1) or less (-1).
    pub sign: f64,
    /// Whether a compilation has what is sought; its own room where it can be told.
    pub has: &'w dyn Fn(&Compilation) -> (bool, Option<f64>),
}

/// The corner of least change: `widths` and `bounds` of both parameters, as turns from where they are.
fn corner(lines: &[Line], widths: (f64, f64), (x, y): ((f64, f64), (f64, f64))) -> Option<(f64, f64)> {
    let mut all = lines.to_vec();
    let edge = |room: f64, a: f64, b: f64| Line { room, a, b };
    let finite = [edge(-x.0, 1.0, 0.0), edge(x.1, -1.0, 0.0), edge(-y.0, 0.0, 1.0), edge(y.1, 0.0, -1.0)];
    all.extend(finite.into_iter().filter(|l| l.room.is_finite()));
    let inside = |x: f64, y: f64| {
        all.iter().all(|l| {
            let scale = (l.a * widths.0).abs() + (l.b * widths.1).abs() + l.room.abs();
            l.room + l.a * x + l.b * y >= -1e-9 * scale.max(1e-9)
        })
    };
    let axes = [edge(0.0, 1.0, 0.0), edge(0.0, 0.0, 1.0)];
    let mut best: Option<(f64, (f64, f64))> = None;
    for (i, p) in all.iter().enumerate() {
        for q in all[i + 1..].iter().chain(&axes) {
            let det = p.a * q.b - p.b * q.a;
            if (det * widths.0 * widths.1).abs() < 1e-15 {
                continue;
            }
            let at = ((p.b * q.room - q.b * p.room) / det, (q.a * p.room - p.a * q.room) / det);
            let share = at.0.abs() / widths.0 + at.1.abs() / widths.1;
            if best.is_none_or(|b| share < b.0 - 1e-12) && inside(at.0, at.1) {
                best = Some((share, at));
            }
        }
    }
    best.map(|b| b.1)
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

/// A pair and the corner that its slopes promise.
struct Promise<'s> {
    pair: [&'s Slope; 2],
    lines: Vec<Line>,
    at: (f64, f64),
    share: f64,
}

fn promise<'s>(sought: &Sought<'_>, before: &Standing, pair: [&'s Slope; 2]) -> Option<Promise<'s>> {
    let [a, b] = pair;
    let line =
        |i: usize, room: f64, sign: f64| Line { room, a: sign * a.by_target[i], b: sign * b.by_target[i] };
    let mut lines = vec![line(sought.target, sought.room, sought.sign)];
    let met = before.rooms.iter().enumerate().filter(|(i, _)| *i != sought.target);
    lines.extend(met.filter_map(|(i, r)| r.filter(|r| *r >= HAIR).map(|r| line(i, r, 1.0))));
    let widths = (a.width(), b.width());
    let at = corner(&lines, widths, (bounds(a), bounds(b)))?;
    let share = at.0.abs() / widths.0 + at.1.abs() / widths.1;
    Some(Promise { pair, lines, at, share })
}

impl Project {
    /// The least change of two parameters with which what is sought is had and nothing else is worse. `leading` are the
    /// parameters that move it, the strongest first.
    pub(super) fn pair(
        &mut self,
        options: &Options,
        goals: &[Target],
        (sought, before): (&Sought<'_>, &Standing),
        (leading, all, budget): (&[&Slope], &[Slope], &mut usize),
    ) -> Option<Change> {
        let mut promises: Vec<Promise<'_>> = Vec::new();
        for (i, first) in leading.iter().take(LEADING).enumerate() {
            let led = |s: &&Slope| !leading[..=i.min(leading.len() - 1)].iter().any(|l| l.name == s.name);
            promises.extend(all.iter().filter(led).filter_map(|s| promise(sought, before, [first, s])));
        }
        promises.retain(|p| p.at.0.abs() > 1e-9 && p.at.1.abs() > 1e-9);
        promises.sort_by(|a, b| a.share.total_cmp(&b.share));
        let mut best: Option<Change> = None;
        for promise in promises.into_iter().take(PAIRS) {
            if best.as_ref().is_some_and(|b| b.share <= promise.share) {
                break;
            }
            let found = self.prove(options, goals, (sought, before), promise, budget);
            if let Some(found) = found.filter(|f| f.is_better(best.as_ref())) {
                best = Some(found);
            }
        }
        best
    }

    fn prove(
        &mut self,
        options: &Options,
        goals: &[Target],
        (sought, before): (&Sought<'_>, &Standing),
        promise: Promise<'_>,
        budget: &mut usize,
    ) -> Option<Change> {
        let Promise { pair, mut lines, mut at, .. } = promise;
        let [a, b] = pair;
        let kept: Vec<usize> = (0..goals.len())
            .filter(|i| *i != sought.target)
            .filter(|i| before.rooms[*i].is_some_and(|r| r >= HAIR))
            .collect();
        for _ in 0..CORNERS {
            *budget = budget.checked_sub(1)?;
            let to = (set(a, at.0)?, set(b, at.1)?);
            let tried = self.turned(options, &[(&a.name, &a.dial, to.0), (&b.name, &b.dial, to.1)]);
            let now = standing(&tried, goals);
            let (has, room) = (sought.has)(&tried);
            let goal = Some(sought.target).filter(|i| *i < goals.len());
            if has && is_no_worse(&now, before, goal) {
                return Some(Change::of(vec![a.turn(to.0), b.turn(to.1)], now.rest(before)));
            }
            // what the compile says of the rounded corner, against what the lines said of the corner
            let shift = |l: &mut Line, room: f64| {
                let missed = room - (l.room + l.a * at.0 + l.b * at.1);
                l.room += missed.min(0.0);
                // met by a hair, and yet not for the finding: a little more of it
                if room.abs() < 1e-9 {
                    l.room -= 1e-3 * (l.a.abs() + l.b.abs());
                }
            };
            if let Some(room) = room {
                shift(&mut lines[0], room);
            }
            for (line, i) in lines[1..].iter_mut().zip(&kept) {
                shift(line, now.rooms[*i]?);
            }
            let next = corner(&lines, (a.width(), b.width()), (bounds(a), bounds(b)))?;
            let same = (next.0 - at.0).abs() < 1e-9 && (next.1 - at.1).abs() < 1e-9;
            if same {
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

    fn line(room: f64, a: f64, b: f64) -> Line {
        Line { room, a, b }
    }

    /// By hand: sought x >= 10, kept 5 - x + y >= 0: x = 10 alone breaks it, with y = 5 both hold. Within a range of y up to 4
    /// nothing does.
    #[test]
    fn the_second_gives_back_what_the_first_takes() {
        let lines = [line(-10.0, 1.0, 0.0), line(5.0, -1.0, 1.0)];
        let wide = (-100.0, 100.0);
        let at = corner(&lines, (200.0, 200.0), (wide, wide)).unwrap();
        assert!((at.0 - 10.0).abs() < 1e-9 && (at.1 - 5.0).abs() < 1e-9, "{at:?}");
        assert!(corner(&lines, (200.0, 200.0), (wide, (-100.0, 4.0))).is_none());
    }

    /// x + y >= 10 with x up to 4: x of width 100 and y of 10 cost 0.04 + 0.6; y alone would cost 1.
    #[test]
    fn the_cheaper_one_goes_to_its_end() {
        let lines = [line(-10.0, 1.0, 1.0)];
        let at = corner(&lines, (100.0, 10.0), ((-4.0, 4.0), (-20.0, 20.0))).unwrap();
        assert!((at.0 - 4.0).abs() < 1e-9 && (at.1 - 6.0).abs() < 1e-9, "{at:?}");
    }
}
