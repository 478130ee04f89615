//! Which nodes are eliminated together, and what each such front hands on to the next.
//!
//! All of it is found on the nodes, long before any number. Nodes whose columns reach the same nodes, or
//! nearly so, are eliminated as one dense block: worth some zeros, since dense work is quick (Ashcraft and
//! Grimes, relaxed supernodes). What a front leaves for later goes to one later front, so they form trees
//! (Duff and Reid, the multifrontal method).

use std::ops::Range;

use crate::graph::Graph;
use crate::order::{NONE, reach};

/// Nodes that are eliminated together.
#[derive(Debug)]
pub(crate) struct Front {
    /// Their places.
    pub places: Range<usize>,
    /// Later places that they reach, ascending, each with the number of unknowns before it.
    pub rows: Vec<(usize, usize)>,
    /// Where its columns start among those of all.
    pub at: usize,
    /// Their first unknown.
    pub start: usize,
    /// Their unknowns.
    pub own: usize,
    /// The unknowns that they reach.
    pub below: usize,
}

impl Front {
    /// Its unknowns and those that it reaches.
    pub fn height(&self) -> usize {
        self.own + self.below
    }

    /// Its own unknowns.
    pub fn unknowns(&self) -> Range<usize> {
        self.start..self.start + self.own
    }

    /// Where its columns are among those of all.
    pub fn panel(&self) -> Range<usize> {
        self.at..self.at + self.own * self.height()
    }
}

/// All fronts, each after those that hand on to it.
#[derive(Debug, Default)]
pub(crate) struct Fronts {
    pub list: Vec<Front>,
    /// The front that each place belongs to.
    pub owner: Vec<usize>,
    /// The first unknown of each place, and the number of unknowns.
    pub base: Vec<usize>,
}

/// What a front takes, in nanoseconds: to start, for each value of its columns, for each that it leaves to
/// later ones, for each multiplication. Measured; only their proportions matter. Most of the second is
/// fetching fresh memory.
const START: f64 = 600.0;
const VALUE: f64 = 2.0;
const LEFT: f64 = 0.4;
const PRODUCT: f64 = 0.03;

fn time(own: usize, below: usize) -> f64 {
    let (own, below) = (own as f64, below as f64);
    let all = own + below;
    let products = (all * all * all - below * below * below) / 6.0;
    START + VALUE * own * all + LEFT * below * below + PRODUCT * products
}

impl Fronts {
    /// The fronts of nodes with `free` unknowns each that are eliminated in about the given order, and the
    /// order that they are eliminated in: another of the same trees.
    pub fn new(graph: &Graph, free: &[usize], order: &[usize]) -> (Vec<usize>, Fronts) {
        let forest = Forest::new(graph, free, order);
        let (mut out, mut last) = (Fronts::default(), Vec::with_capacity(order.len()));
        let (mut start, mut at, mut children) = (0, 0, Vec::new());
        for (root, count) in forest.up() {
            let (first, own, below) = (last.len(), forest.own[root], forest.below[root]);
            last.extend(forest.members(root));
            last[first..].sort_unstable();
            out.owner.resize(last.len(), out.list.len());
            let front = Front { places: first..last.len(), rows: Vec::new(), at, start, own, below };
            (start, at) = (start + own, front.panel().end);
            out.list.push(front);
            children.push(count);
        }
        let last: Vec<usize> = last.into_iter().map(|p| order[p]).collect();
        let mut rows = out.reach(graph, &last, &children);
        let last = out.settle(&last, &mut rows);
        out.base.push(0);
        for &n in &last {
            out.base.push(out.base[out.base.len() - 1] + free[n]);
        }
        for (f, rows) in rows.into_iter().enumerate() {
            let mut before = 0;
            let count = |q: usize| {
                before += out.width(q);
                (q, before - out.width(q))
            };
            out.list[f].rows = rows.into_iter().map(count).collect();
        }
        (last, out)
    }

    /// Puts the nodes of each front in the order in which earlier fronts reach them first, and says in which order all
    /// are then: what a front leaves goes to places that lie side by side.
    fn settle(&self, order: &[usize], rows: &mut [Vec<usize>]) -> Vec<usize> {
        let mut first = vec![NONE; order.len()];
        for (f, rows) in rows.iter().enumerate() {
            rows.iter().for_each(|&q| first[q] = first[q].min(f));
        }
        let mut settled: Vec<usize> = (0..order.len()).collect();
        self.list.iter().for_each(|f| settled[f.places.clone()].sort_by_key(|&p| first[p]));
        let mut place = vec![0; order.len()];
        settled.iter().enumerate().for_each(|(p, &was)| place[was] = p);
        for rows in rows {
            rows.iter_mut().for_each(|q| *q = place[*q]);
            rows.sort_unstable();
        }
        settled.into_iter().map(|p| order[p]).collect()
    }

    /// The number of values of the columns of all fronts.
    pub fn len(&self) -> usize {
        self.list.last().map_or(0, |f| f.panel().end)
    }

    /// The number of unknowns of a place.
    pub fn width(&self, place: usize) -> usize {
        self.base[place + 1] - self.base[place]
    }

    /// The unknowns that a front reaches: how many before, the first, and how many, place by place.
    pub fn runs(&self, front: &Front) -> impl Iterator<Item = (usize, usize, usize)> {
        front.rows.iter().map(|&(q, before)| (before, self.base[q], self.width(q)))
    }

    /// Finds the later places that each reaches: what its nodes meet, and what the fronts that hand on to it reach.
    fn reach(&self, graph: &Graph, order: &[usize], children: &[usize]) -> Vec<Vec<usize>> {
        let mut place = vec![NONE; graph.len()];
        for (p, &n) in order.iter().enumerate() {
            place[n] = p;
        }
        let mut seen = vec![NONE; order.len()];
        let mut waiting: Vec<usize> = Vec::new();
        let mut all: Vec<Vec<usize>> = Vec::with_capacity(self.list.len());
        for (f, front) in self.list.iter().enumerate() {
            let mut rows = Vec::new();
            let mut put = |q: usize| {
                if q >= front.places.end && q != NONE && seen[q] != f {
                    seen[q] = f;
                    rows.push(q);
                }
            };
            order[front.places.clone()].iter().for_each(|&n| graph.of(n).iter().for_each(|&m| put(place[m])));
            for child in waiting.split_off(waiting.len() - children[f]) {
                all[child].iter().for_each(|&q| put(q));
            }
            if !rows.is_empty() {
                waiting.push(f);
            }
            all.push(rows);
        }
        all
    }
}

/// The elimination tree, some of whose nodes are joined to the one above.
struct Forest {
    own: Vec<usize>,
    below: Vec<usize>,
    roots: Vec<usize>,
    /// First of those right below each, and the next beside each.
    first: Vec<usize>,
    beside: Vec<usize>,
    /// Last and first that were joined to each, and the next joined after each.
    head: Vec<usize>,
    after: Vec<usize>,
}

impl Forest {
    fn new(graph: &Graph, free: &[usize], order: &[usize]) -> Forest {
        let n = order.len();
        let (parent, below) = reach(graph, free, order);
        let mut out = Forest {
            own: order.iter().map(|&n| free[n]).collect(),
            below,
            roots: (0..n).filter(|&p| parent[p] == NONE).collect(),
            first: vec![NONE; n],
            beside: vec![NONE; n],
            head: (0..n).collect(),
            after: vec![NONE; n],
        };
        let mut tail: Vec<usize> = (0..n).collect();
        let mut under = Vec::new();
        for p in 0..n {
            out.join(p, &mut under, &mut tail);
            if parent[p] != NONE {
                out.beside[p] = std::mem::replace(&mut out.first[parent[p]], p);
            }
        }
        out
    }

    /// Joins to one those right below it with which it is quicker, the most rewarding first.
    fn join(&mut self, p: usize, under: &mut Vec<(f64, usize)>, tail: &mut [usize]) {
        under.clear();
        let mut next = std::mem::replace(&mut self.first[p], NONE);
        while next != NONE {
            under.push((self.gain(next, p), next));
            next = self.beside[next];
        }
        under.sort_by(|a, b| b.0.total_cmp(&a.0));
        for &(_, c) in &*under {
            if self.gain(c, p) < 0.0 {
                self.beside[c] = std::mem::replace(&mut self.first[p], c);
                continue;
            }
            self.own[p] += self.own[c];
            self.after[tail[c]] = self.head[p];
            self.head[p] = self.head[c];
            let mut next = self.first[c];
            while next != NONE {
                let beside = self.beside[next];
                self.beside[next] = std::mem::replace(&mut self.first[p], next);
                next = beside;
            }
        }
    }

    fn gain(&self, c: usize, p: usize) -> f64 {
        let apart = time(self.own[c], self.below[c]) + time(self.own[p], self.below[p]);
        apart - time(self.own[c] + self.own[p], self.below[p])
    }

    /// What was joined to one, and itself last.
    fn members(&self, p: usize) -> impl Iterator<Item = usize> {
        linked(self.head[p], &self.after)
    }

    /// All that are left, each after those below it, with the number of those right below.
    fn up(&self) -> Vec<(usize, usize)> {
        let mut open = self.roots.clone();
        let mut out = Vec::new();
        while let Some(p) = open.pop() {
            let before = open.len();
            open.extend(linked(self.first[p], &self.beside));
            out.push((p, open.len() - before));
        }
        out.reverse();
        out
    }
}

/// A linked list: the first, and the next after each.
fn linked(first: usize, next: &[usize]) -> impl Iterator<Item = usize> {
    let there = |q: usize| Some(q).filter(|&q| q != NONE);
    std::iter::successors(there(first), move |&q| there(next[q]))
}
