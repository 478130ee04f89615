//! Second order: the load case in balance on the frame that it has bent, as far as pull and push along
//! the members go (P-Δ and P-δ).
//!
//! `(K + Kg) (u₁ + d) = F` on members cut into pieces, with the geometric stiffness of the forces along
//! them. Since `K u₁ = F` is solved already, and exactly along the members, only `(K + Kg) d = -Kg u₁`
//! is left; the pulls are then taken again from the bent frame until nothing changes. The same
//! limits as in linear buckling hold: small turns, linear material, no initial bends, no twist of thin open
//! sections.

use crate::element::{Element, Six, join};
use crate::error::{Error, Fault, Item};
use crate::factor::{Factor, Matrix};
use crate::frame::Frame;
use crate::geometric::{self, Tension};
use crate::model::{MemberId, NodeId};
use crate::solution::{Side, Solution};
use crate::solver::LOOSE;
use crate::split::split;
use crate::vector::{cross, finite, halves, sub};

/// Rounds after which the pulls should have settled.
const ROUNDS: usize = 30;
/// Change of the displacements, against the largest, that is settled.
const SETTLED: f64 = 1e-10;

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub enum SecondOrder {
    /// The load is beyond what the frame carries without buckling.
    Lost,
    /// The frame stands, bent like this.
    Stands(Bent),
}

/// The bent frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Bent {
    /// Displacement (m) and rotation (rad) of each node, global.
    pub nodes: Vec<[f64; 6]>,
    /// The state of each member at the ends of its pieces, in order.
    pub members: Vec<Vec<BentStation>>,
}

/// The state of a bent member at the end of a piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BentStation {
    /// From the first end of the flexible part, m.
    pub x: f64,
    /// Displacement of the axis, global, m.
    pub displacement: [f64; 3],
    /// Pull along the member (tension positive), N.
    pub pull: f64,
    /// T, My, Mz on the face that looks along +x, in the member's own axes, N m: as in
    /// [`crate::Station::moment`], just before the station.
    pub moment: [f64; 3],
}

/// One frame cut into pieces, with its first-order answer.
struct Cut<'a> {
    first: &'a Solution<'a>,
    pieces: usize,
    frame: Frame,
    stiffness: Matrix,
    /// Pivots that are held because a released piece floats.
    held: Vec<usize>,
    u: Vec<Six>,
}

impl Solution<'_> {
    /// Finds the balance of this load case on the bent frame, each member cut into `pieces`: eight give
    /// four digits up to nine tenths of the buckling load.
    ///
    /// # Errors
    /// [`Error::Invalid`] for no pieces, [`Error::IllConditioned`] if the pulls do not settle or a
    /// number overflows,
    /// [`Error::OutOfMemory`].
    pub fn second_order(&self, pieces: usize) -> Result<SecondOrder, Error> {
        if pieces == 0 {
            return Err(Error::Invalid { item: Item::Option("pieces"), fault: Fault::NotPositive });
        }
        let cut = Cut::new(self, pieces)?;
        let each = vec![pieces; self.solver.model().members.len()];
        let straight = self.tensions(&each);
        let mut tensions = self.tensions(&each);
        let mut more = vec![[0.0; 6]; cut.frame.nodes.len()];
        for _ in 0..ROUNDS {
            let Some(next) = cut.bend(&tensions)? else { return Ok(SecondOrder::Lost) };
            let change = cut.change(&more, &next);
            more = next;
            if change <= SETTLED {
                return Ok(SecondOrder::Stands(cut.tell(&more, &tensions)));
            }
            cut.pull_again(&more, &straight, &mut tensions);
        }
        Err(Error::IllConditioned)
    }
}

impl<'a> Cut<'a> {
    fn new(first: &'a Solution<'a>, pieces: usize) -> Result<Cut<'a>, Error> {
        let (frame, stiffness) = Frame::new(&split(first.solver.model(), pieces))?;
        let held = Factor::new(&frame.layout, &stiffness, LOOSE)?.replaced;
        let mut u = first.displacements.clone();
        for m in 0..first.ends.len() {
            let (id, axes) = (MemberId(m), first.solver.frame.elements[m].axes);
            for p in 1..pieces {
                let s = first.station(id, first.length(id) * p as f64 / pieces as f64, Side::Before);
                u.push(join(axes.to_global(s.displacement), axes.to_global(s.rotation)));
            }
        }
        Ok(Cut { first, pieces, frame, stiffness, held, u })
    }

    /// The further displacements under the given pulls, or `None` if the frame does not stand.
    fn bend(&self, tensions: &[Tension]) -> Result<Option<Vec<Six>>, Error> {
        let layout = &self.frame.layout;
        let mut whole = geometric::matrix(&self.frame, tensions);
        whole.values.iter_mut().zip(&self.stiffness.values).for_each(|(g, k)| *g += k);
        let factor = Factor::new(layout, &whole, LOOSE)?;
        if factor.replaced != self.held {
            return Ok(None);
        }
        let mut rest = vec![[0.0; 6]; self.frame.nodes.len()];
        for (e, t) in self.frame.elements.iter().zip(tensions) {
            let g = geometric::element(e, t);
            for (end, f) in twelve(&g, &self.u, e).into_iter().enumerate() {
                let at = &mut rest[e.nodes[end]];
                *at = std::array::from_fn(|k| at[k] - f[k]);
            }
        }
        let mut side = vec![0.0; layout.size];
        let mut out = vec![[0.0; 6]; self.frame.nodes.len()];
        if layout.size > 0 {
            self.frame.gather(&rest, &mut side);
            factor.solve(&mut side);
        }
        if !finite(&side) {
            return Err(Error::IllConditioned);
        }
        self.frame.scatter_add(&side, &mut out);
        Ok(Some(out))
    }

    /// Largest change against the largest displacement, turns weighed by the size of the frame.
    fn change(&self, before: &[Six], after: &[Six]) -> f64 {
        let weigh = |k: usize, v: f64| v.abs() * if k < 3 { 1.0 } else { self.frame.size };
        let size = |of: &dyn Fn(usize, usize) -> f64| {
            let each = (0..after.len()).flat_map(|n| (0..6).map(move |k| (n, k)));
            each.map(|(n, k)| weigh(k, of(n, k))).fold(0.0, f64::max)
        };
        let (change, whole) =
            (size(&|n, k| after[n][k] - before[n][k]), size(&|n, k| self.u[n][k] + after[n][k]));
        if change == 0.0 { 0.0 } else { change / whole }
    }

    /// Pulls of the first order and of the further displacements.
    fn pull_again(&self, more: &[Six], straight: &[Tension], tensions: &mut [Tension]) {
        for ((e, first), t) in self.frame.elements.iter().zip(straight).zip(tensions) {
            let ends = self.elastic(e, more);
            t.pull = first.pull.map(|n| n + ends[1][0]);
            let further = geometric::end_forces(e, &ends);
            t.ends = std::array::from_fn(|k| std::array::from_fn(|d| first.ends[k][d] + further[k][d]));
        }
    }

    /// Forces on the two ends of a piece from further displacements, by its own stiffness, local.
    fn elastic(&self, e: &Element, more: &[Six]) -> [Six; 2] {
        e.ends_of(&e.spring(&e.deform([&more[e.nodes[0]], &more[e.nodes[1]]])))
    }

    fn tell(&self, more: &[Six], tensions: &[Tension]) -> Bent {
        let sum = |n: usize| std::array::from_fn(|k| self.u[n][k] + more[n][k]);
        let all: Vec<Six> = (0..more.len()).map(sum).collect();
        let member = |m: usize| {
            let stations = (0..=self.pieces).map(|p| self.station(m, p, &all, more, tensions));
            stations.collect()
        };
        let nodes = all[..self.first.solver.model().nodes.len()].to_vec();
        Bent { nodes, members: (0..self.first.ends.len()).map(member).collect() }
    }

    fn station(&self, m: usize, p: usize, all: &[Six], more: &[Six], tensions: &[Tension]) -> BentStation {
        // The end of the piece before the station; at the start, the start of the first piece.
        let (piece, end) = if p == 0 { (m * self.pieces, 0) } else { (m * self.pieces + p - 1, 1) };
        let (e, id) = (&self.frame.elements[piece], MemberId(m));
        let x = self.first.length(id) * p as f64 / self.pieces as f64;
        let own = self.first.station(id, x, Side::Before);
        let elastic = self.elastic(e, more)[end];
        let (f, moment) = halves(&twelve(&geometric::bending(e, &tensions[piece]), all, e)[end]);
        let leant = e.axes.to_local(sub(moment, cross(e.arms[end], f)));
        let sign = if end == 0 { -1.0 } else { 1.0 };
        let (u, turn) = halves(&all[e.nodes[end]]);
        let swung = cross(turn, e.arms[end]);
        BentStation {
            x,
            displacement: std::array::from_fn(|k| u[k] + swung[k]),
            pull: own.force[0] + sign * elastic[0],
            moment: std::array::from_fn(|k| own.moment[k] + sign * (elastic[3 + k] + leant[k])),
        }
    }
}

/// Forces on the two nodes of an element: its matrix times their displacements.
fn twelve(k: &[[f64; 12]; 12], u: &[Six], e: &Element) -> [Six; 2] {
    let row = |r: usize| (0..12).map(|c| k[r][c] * u[e.nodes[c / 6]][c % 6]).sum();
    std::array::from_fn(|end| std::array::from_fn(|d| row(6 * end + d)))
}

impl Bent {
    /// Displacement (m) and rotation (rad) of a node, global.
    ///
    /// # Panics
    /// If the model has no such node.
    #[must_use]
    pub fn node(&self, node: NodeId) -> [f64; 6] {
        self.nodes[node.0]
    }
}
