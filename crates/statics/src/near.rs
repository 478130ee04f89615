//! The same frame with a little changed, on the factors of the unchanged one: nodes taken apart, links left out or
//! made softer or harder, springs and holds of the ground.
//!
//! A part that comes off a node gets a node of its own; by how much that shifts and turns against the old one are six
//! unknowns beside those of the frame. A spring that changes by `d` along `b` is one unknown more, its force: the change of
//! the matrix is `d·b·bᵀ`, and a direction that is newly held is a spring without limit. The few unknowns are found first, from
//! the Schur complement on the frame's own matrix (the identity of Sherman, Morrison and Woodbury). Without
//! rounding it is the elimination of the changed frame in another order: where it has no sound pivot, nothing is said here,
//! and the changed frame must be factored by itself.

use crate::element::Element;
use crate::factor::Factor;
use crate::frame::Frame;
use crate::layout::HELD;
use crate::model::Model;
use crate::patch::Patch;
use crate::small::Small;
use crate::twin::{Twin, twin};
use std::sync::Arc;

/// More unknowns beside those of the frame cost more than factors of their own.
const MOST: usize = 60;

/// Entries of a column, by unknown of the frame.
type Column = Vec<(usize, f64)>;

/// The factors of a frame, and what of it is changed.
#[derive(Debug)]
pub(crate) struct Near {
    base: Arc<Factor>,
    /// Unknowns of the frame, or [`HELD`], that each new unknown counts from.
    hosts: Vec<usize>,
    columns: Vec<Column>,
    /// The answers of the frame to the columns, one after the other.
    answers: Vec<f64>,
    small: Small,
    /// Square roots of the inverse diagonal, for the unknowns of the frame and the new ones.
    pub scale: Vec<f64>,
    /// Smallest pivot, of the frame and of what was changed.
    pub least: f64,
}

/// The factors of a frame: its own, or those of another that differs little.
#[derive(Debug)]
pub(crate) enum Factored {
    Own(Arc<Factor>),
    Near(Near),
}

impl Factored {
    /// Solves for several right sides, one after the other in `sides`, in place.
    pub fn solve(&self, sides: &mut [f64]) {
        match self {
            Factored::Own(factor) => factor.solve(sides),
            Factored::Near(near) => near.solve(sides),
        }
    }

    /// Smallest pivot of the scaled matrix.
    pub fn least(&self) -> f64 {
        match self {
            Factored::Own(factor) => factor.least,
            Factored::Near(near) => near.least,
        }
    }

    /// Square roots of the inverse diagonal.
    pub fn scale(&self) -> &[f64] {
        match self {
            Factored::Own(factor) => &factor.scale,
            Factored::Near(near) => &near.scale,
        }
    }

    /// Factors of its own, if it has them.
    pub fn own(&self) -> Option<&Arc<Factor>> {
        match self {
            Factored::Own(factor) => Some(factor),
            Factored::Near(_) => None,
        }
    }
}

/// What the change adds to the unknowns.
struct Change {
    columns: Vec<Column>,
    /// The matrix of the added unknowns among themselves.
    own: Vec<Vec<f64>>,
    /// How many of them come off a node; the rest are springs.
    shifts: usize,
    /// How many of the springs are added; the rest are taken away.
    harder: usize,
}

impl Near {
    /// Makes the changed frame ready; `None` where that is not for sure.
    pub fn new(base: &Arc<Factor>, old: &Frame, models: (&Model, &Model)) -> Option<(Frame, Near)> {
        let twin = twin(old, models.0, models.1)?;
        let n = old.layout.size;
        if n == 0 || twin.torn.len() * 6 + twin.changed() > MOST {
            return None;
        }
        let frame = changed_frame(old, models.1, &twin)?;
        let change = change(old, &frame, models, &twin)?;
        let mut answers = vec![0.0; n * change.columns.len()];
        for (side, column) in answers.chunks_exact_mut(n).zip(&change.columns) {
            column.iter().for_each(|&(at, v)| side[at] += v);
        }
        base.solve(&mut answers);
        let mut own = change.own;
        let given: Vec<f64> = (0..own.len()).map(|k| own[k][k]).collect();
        for (c, side) in answers.chunks_exact(n).enumerate() {
            for (r, column) in change.columns.iter().enumerate().take(c + 1) {
                own[c][r] -= along(column, side);
            }
        }
        let small = Small::new(own, &given, change.shifts..change.shifts + change.harder)?;
        let hosts = twin.torn.iter().flat_map(|t| old.layout.slot[t.old]).collect();
        let mut scale = base.scale.clone();
        scale.extend(given[..change.shifts].iter().map(|d| 1.0 / d.sqrt()));
        let least = base.least.min(small.least);
        let near =
            Near { base: Arc::clone(base), hosts, columns: change.columns, answers, small, scale, least };
        Some((frame, near))
    }

    /// Solves for several right sides, one after the other in `sides`, in place.
    pub fn solve(&self, sides: &mut [f64]) {
        let (all, n) = (self.scale.len(), self.base.scale.len());
        let count = sides.len() / all;
        let mut first = vec![0.0; n * count];
        for (u, side) in first.chunks_exact_mut(n).zip(sides.chunks_exact(all)) {
            u.copy_from_slice(&side[..n]);
            for (&host, f) in self.hosts.iter().zip(&side[n..]) {
                if host != HELD {
                    u[host] += f;
                }
            }
        }
        self.base.solve(&mut first);
        for (u, side) in first.chunks_exact_mut(n).zip(sides.chunks_exact_mut(all)) {
            let given = side[n..].iter().copied().chain(std::iter::repeat(0.0));
            let mut few: Vec<f64> = self.columns.iter().zip(given).map(|(c, f)| f - along(c, u)).collect();
            self.small.solve(&mut few);
            for (k, answer) in few.iter().zip(self.answers.chunks_exact(n)) {
                u.iter_mut().zip(answer).for_each(|(a, b)| *a -= k * b);
            }
            side[..n].copy_from_slice(u);
            for ((out, &host), shift) in side[n..].iter_mut().zip(&self.hosts).zip(&few) {
                *out = shift + if host == HELD { 0.0 } else { u[host] };
            }
        }
    }
}

fn along(column: &Column, of: &[f64]) -> f64 {
    column.iter().map(|&(at, v)| v * of[at]).sum()
}

/// The changed frame: its elements and patches on their new nodes, the new unknowns behind the old ones.
fn changed_frame(old: &Frame, model: &Model, twin: &Twin) -> Option<Frame> {
    let mut elements = old.elements.clone();
    for (e, m) in elements.iter_mut().zip(&model.members) {
        e.nodes = [m.i.0, m.j.0];
    }
    let link = |(l, &k): (&crate::model::Link, &usize)| {
        if twin.other_stiffness.contains(&k) {
            return Patch::link(l, &model.nodes);
        }
        old.patches[k].on([l.a.0, l.b.0, 0, 0])
    };
    let panels = model.panels.iter().zip(&old.patches[old.links..]);
    let mut patches: Vec<Patch> = model.links.iter().zip(&twin.links).map(link).collect();
    patches.extend(panels.map(|(p, was)| was.on(p.corners.map(|c| c.0))));
    let mut slot: Vec<[usize; 6]> = twin.hosts.iter().map(|h| old.layout.slot[*h]).collect();
    for (k, torn) in twin.torn.iter().enumerate() {
        slot[torn.new] = std::array::from_fn(|d| old.layout.size + 6 * k + d);
    }
    for &(node, direction) in &twin.held {
        slot[node][direction] = HELD;
    }
    let mut spins = old.spins.clone();
    for spin in &mut spins {
        let mut images = (0..twin.hosts.len()).filter(|n| twin.hosts[*n] == spin.node);
        spin.node = images.next().filter(|_| images.next().is_none())?;
    }
    Some(old.changed(model, elements, patches, (slot, old.layout.size + 6 * twin.torn.len()), spins))
}

/// The unknowns that are added, and how they meet those of the frame.
fn change(old: &Frame, new: &Frame, models: (&Model, &Model), twin: &Twin) -> Option<Change> {
    let shifts = 6 * twin.torn.len();
    let mut out = Change {
        columns: vec![Column::new(); shifts],
        own: vec![vec![0.0; shifts]; shifts],
        shifts,
        harder: 0,
    };
    let mut first = vec![None; new.nodes.len()];
    for (k, torn) in twin.torn.iter().enumerate() {
        first[torn.new] = Some(6 * k);
    }
    for e in &new.elements {
        if e.nodes.iter().any(|n| first[*n].is_some()) {
            let k = Element::matrix(e);
            out.tear(old, twin, &first, &e.nodes, |r, c| k[r][c]);
        }
    }
    for p in &new.patches {
        if p.nodes().iter().any(|n| first[*n].is_some()) {
            let k = p.matrix();
            out.tear(old, twin, &first, p.nodes(), |r, c| k[r][c]);
        }
    }
    if (0..shifts).any(|k| out.own[k][k] <= 0.0) {
        return None;
    }
    let springs = springs(old, models, twin);
    // what holds comes before what lets go: a chair that is lifted stands at every step
    let (harder, softer): (Vec<_>, Vec<_>) = springs.into_iter().partition(|s| s.0 >= 0.0);
    out.harder = harder.len();
    for (by, column) in harder.into_iter().chain(softer) {
        out.columns.push(column);
        let size = out.columns.len();
        out.own.iter_mut().for_each(|row| row.push(0.0));
        out.own.push(vec![0.0; size]);
        out.own[size - 1][size - 1] = -1.0 / by;
    }
    Some(out)
}

impl Change {
    /// Adds an element or a patch on a node that came off: what it puts against the shift of that node.
    fn tear(
        &mut self,
        old: &Frame,
        twin: &Twin,
        first: &[Option<usize>],
        nodes: &[usize],
        entry: impl Fn(usize, usize) -> f64,
    ) {
        for (b, &col) in nodes.iter().enumerate() {
            let Some(c) = first[col] else { continue };
            for (a, &row) in nodes.iter().enumerate() {
                for (d, e) in (0..36).map(|k| (k / 6, k % 6)) {
                    let value = entry(6 * a + d, 6 * b + e);
                    if let Some(r) = first[row] {
                        self.own[r + d][c + e] += value;
                    }
                    let at = old.layout.slot[twin.hosts[row]][d];
                    if at != HELD && value != 0.0 {
                        self.columns[c + e].push((at, value));
                    }
                }
            }
        }
    }
}

/// The springs that change on the old nodes, each by how much and against what.
fn springs(old: &Frame, (was, is): (&Model, &Model), twin: &Twin) -> Vec<(f64, Column)> {
    let mut out = Vec::new();
    for (k, l) in was.links.iter().enumerate() {
        let now = twin.links.iter().position(|m| *m == k).map_or([0.0; 6], |q| is.links[q].stiffness);
        let there = (0..6).filter(|d| l.stiffness[*d] > 0.0);
        for (d, (had, rows)) in there.zip(&old.patches[k].springs) {
            if now[d] != *had {
                out.push((now[d] - had, column(old, old.patches[k].nodes(), rows)));
            }
        }
    }
    for &(node, direction, by) in &twin.grounded {
        let at = old.layout.slot[node][direction];
        if at != HELD {
            out.push((by, vec![(at, 1.0)]));
        }
    }
    out
}

fn column(old: &Frame, nodes: &[usize], rows: &[[f64; 6]]) -> Column {
    let each = nodes.iter().zip(rows).flat_map(|(&n, row)| old.layout.slot[n].into_iter().zip(*row));
    each.filter(|(at, v)| *at != HELD && *v != 0.0).collect()
}
