//! In which order patches are painted, so that what is nearer to the eye ends on top.
//!
//! Two patches that overlap in the picture are compared where they overlap: how much nearer the one is than the other, summed
//! over the area. From that follows which is painted first; where patches lie around each other in a ring, long ones are cut
//! into strips, and what is left of a ring is opened where the least would be seen of it.

use crate::patch::{Patch, area, overlap};
use crate::view::{Bounds, Point};
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet, BinaryHeap};

/// Patches of one picture that are compared; more are painted by their middles.
const MOST: usize = 6000;
/// Pairs that are compared where they overlap.
const PAIRS: usize = 400_000;
/// Times that rings are looked for and cut.
const ROUNDS: usize = 5;
/// Strips that a patch is cut into.
const STRIPS: u32 = 4;
/// What of a ring is decided by less is left aside, in mm³: a square centimetre that lies wrongly by two millimetres.
const FAINT: f64 = 200.0;
/// Rings that are opened with care; beyond that the farthest patch goes first.
const STUCK: usize = 300;
/// Patches no longer than this are not cut, in mm of the chair.
const SHORT: f64 = 25.0;
/// Differences of nearness count up to this, in mm: whether something lies behind by ten or by a hundred is alike.
const CLEAR: f64 = 5.0;
/// Overlaps that differ by less say nothing, in mm³.
const NOTHING: f64 = 1e-3;

struct Item {
    patch: Patch,
    bounds: Bounds,
    pieces: Vec<Vec<Point>>,
}

/// Which are painted before which, with what would be seen of the opposite.
#[derive(Default)]
struct Rules {
    later: Vec<BTreeMap<usize, f64>>,
}

/// The patches from the farthest to the nearest.
pub(crate) fn order(mut patches: Vec<Patch>) -> Vec<Patch> {
    patches.sort_by(|a, b| a.near.total_cmp(&b.near));
    if patches.len() > MOST {
        return patches;
    }
    let mut items: Vec<Item> = Vec::new();
    let mut rules = Rules::default();
    let mut left = PAIRS;
    for patch in patches {
        join(patch, &mut items, &mut rules, &BTreeSet::new(), &mut left);
    }
    let gone = untangle(&mut items, &mut rules, &mut left);
    let sequence = rules.sequence(&items, &gone);
    let mut slots: Vec<Option<Patch>> = items.into_iter().map(|i| Some(i.patch)).collect();
    sequence.into_iter().filter_map(|i| slots[i].take()).collect()
}

/// Takes a patch in and compares it with those that are there.
fn join(patch: Patch, items: &mut Vec<Item>, rules: &mut Rules, gone: &BTreeSet<usize>, left: &mut usize) {
    let item = Item { bounds: patch.bounds(), pieces: patch.pieces(), patch };
    rules.later.push(BTreeMap::new());
    let new = items.len();
    for (old, other) in items.iter().enumerate().filter(|(k, _)| !gone.contains(k)) {
        // of two that are clear the order is not seen
        let unseen = item.patch.clear() && other.patch.clear();
        if unseen || !meet(&item.bounds, &other.bounds) || *left == 0 {
            continue;
        }
        *left -= 1;
        let nearer = nearer(&item, other);
        if nearer > NOTHING {
            rules.later[old].insert(new, nearer);
        } else if nearer < -NOTHING {
            rules.later[new].insert(old, -nearer);
        }
    }
    items.push(item);
}

fn meet(a: &Bounds, b: &Bounds) -> bool {
    a.low.0 < b.high.0 && b.low.0 < a.high.0 && a.low.1 < b.high.1 && b.low.1 < a.high.1
}

/// How much nearer the first is than the second, summed over where they overlap.
fn nearer(a: &Item, b: &Item) -> f64 {
    let mut sum = 0.0;
    for (p, q) in a.pieces.iter().flat_map(|p| b.pieces.iter().map(move |q| (p, q))) {
        let (pb, qb) = (around(p), around(q));
        if !meet(&pb, &qb) {
            continue;
        }
        let shared = overlap(p, q);
        if shared.len() < 3 {
            continue;
        }
        sum += area(&shared) / 2.0
            * mean(&shared, |at| (a.patch.surface.near(at) - b.patch.surface.near(at)).clamp(-CLEAR, CLEAR));
    }
    sum
}

fn around(points: &[Point]) -> Bounds {
    let mut all = Bounds::default();
    points.iter().for_each(|p| all.take(*p));
    all
}

/// The mean over an outline's middle and places half way to its corners.
fn mean(points: &[Point], of: impl Fn(Point) -> f64) -> f64 {
    #[allow(clippy::cast_precision_loss)]
    let n = points.len() as f64;
    let sum = points.iter().fold((0.0, 0.0), |s, p| (s.0 + p.0, s.1 + p.1));
    let middle = (sum.0 / n, sum.1 / n);
    let half = points.iter().map(|p| of(((p.0 + middle.0) / 2.0, (p.1 + middle.1) / 2.0)));
    (half.sum::<f64>() + of(middle)) / (n + 1.0)
}

/// Cuts the longest patch of every ring into strips, until no ring is left or none can be cut; what was cut is told.
fn untangle(items: &mut Vec<Item>, rules: &mut Rules, left: &mut usize) -> BTreeSet<usize> {
    let mut gone = BTreeSet::new();
    for _ in 0..ROUNDS {
        rules.forget_faint(&gone);
        let long = |i: &usize| {
            let b = items[*i].bounds;
            libm::hypot(b.width(), b.height())
        };
        let mut cuts: Vec<(usize, Vec<Patch>)> = Vec::new();
        for ring in rules.rings(&gone) {
            let mut all: Vec<usize> = ring.into_iter().filter(|i| long(i) > SHORT).collect();
            all.sort_by(|a, b| long(b).total_cmp(&long(a)).then(a.cmp(b)));
            let first = all.into_iter().map(|i| (i, items[i].patch.cut(STRIPS))).find(|(_, c)| !c.is_empty());
            cuts.extend(first);
        }
        if cuts.is_empty() || items.len() + cuts.len() * STRIPS as usize > MOST {
            break;
        }
        for (old, strips) in cuts {
            gone.insert(old);
            rules.forget(old);
            for strip in strips {
                join(strip, items, rules, &gone, left);
            }
        }
    }
    gone
}

impl Rules {
    fn forget(&mut self, old: usize) {
        self.later[old].clear();
        for row in &mut self.later {
            row.remove(&old);
        }
    }

    /// Patches of which each must be painted before the next and the last before the first (Tarjan, SIAM J. Comput. 1972,
    /// without recursion).
    fn rings(&self, gone: &BTreeSet<usize>) -> Vec<Vec<usize>> {
        let n = self.later.len();
        let next: Vec<Vec<usize>> =
            self.later.iter().map(|r| r.keys().copied().filter(|j| !gone.contains(j)).collect()).collect();
        let (mut number, mut low) = (vec![usize::MAX; n], vec![0; n]);
        let (mut open, mut on) = (Vec::new(), vec![false; n]);
        let (mut count, mut out) = (0, Vec::new());
        for root in (0..n).filter(|i| !gone.contains(i)) {
            if number[root] != usize::MAX {
                continue;
            }
            let mut path: Vec<(usize, usize)> = vec![(root, 0)];
            while let Some((v, k)) = path.last().copied() {
                if k == 0 {
                    (number[v], low[v]) = (count, count);
                    count += 1;
                    open.push(v);
                    on[v] = true;
                }
                if let Some(w) = next[v].get(k).copied() {
                    if let Some(top) = path.last_mut() {
                        top.1 += 1;
                    }
                    if number[w] == usize::MAX {
                        path.push((w, 0));
                    } else if on[w] {
                        low[v] = low[v].min(number[w]);
                    }
                    continue;
                }
                path.pop();
                if let Some((up, _)) = path.last() {
                    low[*up] = low[*up].min(low[v]);
                }
                if low[v] == number[v] {
                    let from = open.iter().position(|w| *w == v).unwrap_or(0);
                    let ring = open.split_off(from);
                    ring.iter().for_each(|w| on[*w] = false);
                    if ring.len() > 1 {
                        out.push(ring);
                    }
                }
            }
        }
        out
    }

    /// In rings, what would hardly be seen decides nothing.
    fn forget_faint(&mut self, gone: &BTreeSet<usize>) {
        for ring in self.rings(gone) {
            let ring: BTreeSet<usize> = ring.into_iter().collect();
            for i in &ring {
                self.later[*i].retain(|j, w| *w > FAINT || !ring.contains(j));
            }
        }
    }

    /// The rule inside a ring that is missed the least.
    fn weakest(&self, done: &BTreeSet<usize>) -> Option<(usize, usize)> {
        let rings = self.rings(done).into_iter().map(|r| r.into_iter().collect::<BTreeSet<usize>>());
        let mut best: Option<(f64, usize, usize)> = None;
        for ring in rings {
            for i in &ring {
                for (j, w) in self.later[*i].iter().filter(|(j, _)| ring.contains(j)) {
                    if best.is_none_or(|(least, ..)| *w < least) {
                        best = Some((*w, *i, *j));
                    }
                }
            }
        }
        best.map(|(_, i, j)| (i, j))
    }

    /// All patches, each after those that it hides; where a ring is left, it is opened where the least is missed.
    fn sequence(mut self, items: &[Item], gone: &BTreeSet<usize>) -> Vec<usize> {
        let n = items.len();
        let mut rank: Vec<usize> = (0..n).collect();
        rank.sort_by(|a, b| items[*a].patch.near.total_cmp(&items[*b].patch.near).then(a.cmp(b)));
        let mut place = vec![0; n];
        rank.iter().enumerate().for_each(|(k, i)| place[*i] = k);
        let mut before: Vec<BTreeMap<usize, f64>> = vec![BTreeMap::new(); n];
        for (i, row) in self.later.iter().enumerate() {
            row.iter().for_each(|(j, w)| {
                before[*j].insert(i, *w);
            });
        }
        let mut waiting: BTreeSet<usize> = (0..n).filter(|i| !gone.contains(i)).collect();
        let mut ready: BinaryHeap<Reverse<(usize, usize)>> = BinaryHeap::new();
        waiting.iter().filter(|i| before[**i].is_empty()).for_each(|i| ready.push(Reverse((place[*i], *i))));
        let mut out = Vec::with_capacity(n);
        let mut stuck = 0;
        while !waiting.is_empty() {
            let next = ready.pop().map(|Reverse((_, i))| i);
            let Some(i) = next else {
                stuck += 1;
                let done: BTreeSet<usize> = (0..n).filter(|i| !waiting.contains(i)).collect();
                let first = waiting.iter().copied().min_by_key(|i| place[*i]);
                let weakest = if stuck > STUCK { None } else { self.weakest(&done) };
                match (weakest, first) {
                    (Some((i, j)), _) => {
                        self.later[i].remove(&j);
                        before[j].remove(&i);
                        if before[j].is_empty() {
                            ready.push(Reverse((place[j], j)));
                        }
                    }
                    (None, Some(first)) => ready.push(Reverse((place[first], first))),
                    (None, None) => break,
                }
                continue;
            };
            if !waiting.remove(&i) {
                continue;
            }
            out.push(i);
            for j in self.later[i].keys() {
                before[*j].remove(&i);
                if before[*j].is_empty() && waiting.contains(j) {
                    ready.push(Reverse((place[*j], *j)));
                }
            }
        }
        out
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::patch::Surface;
    use crate::view::View;
    use chairwright_design::Vec3;

    /// A bar of 20 mm between two places in metres as the front view has it: left is to the right, up is up, forward is nearer.
    fn bar(name: &str, from: [f64; 3], to: [f64; 3]) -> Patch {
        let [a, b] = [from, to].map(|[x, y, z]| Vec3::new(x, y, z));
        let (p, q) = (View::Front.project(a).0, View::Front.project(b).0);
        let (x, y) = (q.0 - p.0, q.1 - p.1);
        let n = libm::hypot(x, y);
        let (x, y) = (-y / n * 10.0, x / n * 10.0);
        let outline = vec![(p.0 - x, p.1 - y), (q.0 - x, q.1 - y), (q.0 + x, q.1 + y), (p.0 + x, p.1 + y)];
        let near = View::Front.project(a.mix(b, 0.5)).1;
        Patch::filled(vec![outline], Surface::round(View::Front, a, b, 0.010), near, "frame", name)
    }

    fn at(all: &[Patch], name: &str) -> usize {
        all.iter().position(|p| p.name == name).unwrap()
    }

    /// A rail from 100 mm behind to 500 mm ahead lies with its middle ahead of a post at 100 mm; where they cross in the
    /// picture, at a quarter of its length, it is at 50 mm and behind the post.
    #[test]
    fn what_decides_is_where_they_cross() {
        let rail = bar("rail", [-0.100, -0.200, 0.5], [0.500, 0.200, 0.5]);
        let post = bar("post", [0.100, -0.100, 0.3], [0.100, -0.100, 0.7]);
        assert!(rail.near > post.near);
        let all = order(vec![post, rail]);
        assert!(at(&all, "rail") < at(&all, "post"));
    }

    /// Three bars of which each lies on the next at one end and below the one before at the other: no order of whole bars is
    /// right. Their middles lie at one depth, 40 mm of rise over each crossing. Wherever a strip of one crosses a strip of
    /// another, the nearer one must come later.
    #[test]
    fn a_ring_of_three_bars_is_cut() {
        let corner = |k: i32| {
            let (s, c) = libm::sincos(f64::from(k) * std::f64::consts::TAU / 3.0);
            (0.2 * c, 0.5 + 0.2 * s)
        };
        let all: Vec<Patch> = (0..3)
            .map(|k| {
                let ((y1, z1), (y2, z2)) = (corner(k), corner(k + 1));
                let (dy, dz) = ((y2 - y1) * 0.3, (z2 - z1) * 0.3);
                bar(&format!("b{k}"), [-0.040, y1 - dy, z1 - dz], [0.040, y2 + dy, z2 + dz])
            })
            .collect();
        let painted = order(all);
        assert!(painted.len() > 3, "a ring cannot be painted whole");
        let crossings: [(usize, f64, f64); 3] = [0, 1, 2].map(|k| {
            let (y, z) = corner(k as i32);
            (k, y * 1e3, -z * 1e3)
        });
        let over = |name: &str, (x, y): Point| {
            painted.iter().rposition(|p| {
                p.name == name
                    && p.pieces().iter().any(|o| {
                        !overlap(
                            o,
                            &[(x - 1.0, y - 1.0), (x + 1.0, y - 1.0), (x + 1.0, y + 1.0), (x - 1.0, y + 1.0)],
                        )
                        .is_empty()
                    })
            })
        };
        for (k, x, y) in crossings {
            // at corner k bar k begins, 40 mm back, and bar k - 1 ends, 40 mm ahead
            let (begins, ends) = (format!("b{k}"), format!("b{}", (k + 2) % 3));
            assert!(over(&ends, (x, y)) > over(&begins, (x, y)), "corner {k}");
        }
    }

    /// The same patches in another sequence give the same picture.
    #[test]
    fn the_order_hangs_on_the_shapes_alone() {
        let all = |flip: bool| {
            let mut v: Vec<Patch> = (0..12)
                .map(|k| {
                    let a = f64::from(k) * 0.7;
                    let (s, c) = libm::sincos(a);
                    bar(
                        &format!("b{k}"),
                        [0.01 * a, -0.2 * c, 0.5 - 0.2 * s],
                        [0.2 - 0.02 * a, 0.2 * c, 0.5 + 0.2 * s],
                    )
                })
                .collect();
            if flip {
                v.reverse();
            }
            order(v).into_iter().map(|p| p.path()).collect::<Vec<_>>()
        };
        assert_eq!(all(false), all(true));
    }
}
