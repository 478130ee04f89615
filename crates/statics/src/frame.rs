//! The frame made ready: elements, patches, unknowns, stiffness matrix.

use crate::element::{Carried, Element, Six};
use crate::error::{Error, Fault, Item};
use crate::factor::Matrix;
use crate::layout::{HELD, Layout};
use crate::model::{Model, Node};
use crate::patch::Patch;
use crate::spin::{Spin, hold_spins};
use std::sync::Arc;

/// A checked model made ready.
#[derive(Clone, Debug)]
pub(crate) struct Frame {
    pub nodes: Vec<Node>,
    pub elements: Vec<Element>,
    pub patches: Vec<Patch>,
    /// How many of the patches are links; the rest are panels.
    pub links: usize,
    pub layout: Arc<Layout>,
    /// Rotations of single nodes that nothing resists and that are held in their place.
    pub spins: Vec<Spin>,
    /// Nodes with springs to the ground.
    springy: Vec<usize>,
    /// Largest distance between nodes, or one.
    pub size: f64,
}

impl Frame {
    /// Makes a checked model ready and fills its stiffness matrix.
    pub fn new(model: &Model) -> Result<(Frame, Matrix), Error> {
        Frame::like(model, None)
    }

    /// The same; the layout is that of a known frame where the same nodes meet.
    pub fn like(model: &Model, known: Option<&Frame>) -> Result<(Frame, Matrix), Error> {
        let element = |(k, m)| {
            let item = Item::Member(k);
            Element::new(m, &model.nodes).ok_or(Error::Invalid { item, fault: Fault::NoAxes })
        };
        let elements = model.members.iter().enumerate().map(element).collect::<Result<Vec<_>, _>>()?;
        let links = model.links.iter().map(|l| Patch::link(l, &model.nodes));
        let panels = model.panels.iter().map(|p| Patch::panel(p, &model.nodes));
        let patches: Vec<Patch> = links.chain(panels).collect();
        let layout = match known.filter(|k| k.meets_alike(&model.nodes, &elements, &patches)) {
            Some(known) => Arc::clone(&known.layout),
            None => {
                let fixed: Vec<[bool; 6]> = model.nodes.iter().map(|n| n.fixed).collect();
                let groups = elements.iter().map(|e| &e.nodes[..]).chain(patches.iter().map(Patch::nodes));
                Arc::new(Layout::new(&fixed, groups)?)
            }
        };
        let size = if model.size() > 0.0 { model.size() } else { 1.0 };
        let nodes = model.nodes.clone();
        let springy = springy(&nodes);
        let links = model.links.len();
        let mut frame = Frame { nodes, elements, patches, links, layout, spins: Vec::new(), springy, size };
        let mut matrix = frame.stiffness();
        frame.spins = hold_spins(&frame, &mut matrix);
        Ok((frame, matrix))
    }

    /// Whether in another frame the same nodes are held and meet.
    fn meets_alike(&self, nodes: &[Node], elements: &[Element], patches: &[Patch]) -> bool {
        self.nodes.len() == nodes.len()
            && self.elements.len() == elements.len()
            && self.patches.len() == patches.len()
            && self.nodes.iter().zip(nodes).all(|(a, b)| a.fixed == b.fixed)
            && self.elements.iter().zip(elements).all(|(a, b)| a.nodes == b.nodes)
            && self.patches.iter().zip(patches).all(|(a, b)| a.nodes() == b.nodes())
    }

    /// The frame of a model that differs little, without the pattern of a matrix: on which unknown each direction of its
    /// nodes is, and how many there are.
    pub fn changed(
        &self,
        model: &Model,
        elements: Vec<Element>,
        patches: Vec<Patch>,
        (slot, size): (Vec<[usize; 6]>, usize),
        spins: Vec<Spin>,
    ) -> Frame {
        let nodes = model.nodes.clone();
        let mut layout = Layout::default();
        (layout.slot, layout.size) = (slot, size);
        let (springy, layout) = (springy(&nodes), Arc::new(layout));
        Frame { nodes, elements, patches, links: model.links.len(), layout, spins, springy, size: self.size }
    }

    fn stiffness(&self) -> Matrix {
        let mut matrix = Matrix::new(&self.layout);
        for element in &self.elements {
            let k = element.matrix();
            matrix.add(&self.layout, &element.nodes, |c| &k[c]);
        }
        for patch in &self.patches {
            let k = patch.matrix();
            matrix.add(&self.layout, patch.nodes(), |c| &k[c]);
        }
        for &n in &self.springy {
            for k in 0..6 {
                matrix.add_at(&self.layout, n, k, k, self.nodes[n].spring[k]);
            }
        }
        matrix
    }

    /// Elastic energy, doubled, of one displacement with another: from strains, so that it is
    /// exactly small where nothing is strained.
    pub fn energy(&self, a: &[Six], b: &[Six]) -> f64 {
        self.elements.iter().map(|e| e.energy(a, b)).sum::<f64>() + self.rest_energy(a, b)
    }

    /// The same without the members: of links, panels and springs of the ground.
    pub fn rest_energy(&self, a: &[Six], b: &[Six]) -> f64 {
        let patch = |p: &Patch| {
            let one = |s: usize| p.springs[s].0 * p.strain(s, a) * p.strain(s, b);
            (0..p.springs.len()).map(one).sum::<f64>()
        };
        let ground = |&n: &usize| (0..6).map(|k| self.nodes[n].spring[k] * a[n][k] * b[n][k]).sum::<f64>();
        self.patches.iter().map(patch).sum::<f64>() + self.springy.iter().map(ground).sum::<f64>()
    }

    /// Takes the forces that the frame needs to be displaced so, away from the given ones; keeps
    /// the end forces of the members.
    pub fn subtract_forces(
        &self,
        u: &[Six],
        loads: &[(usize, Carried)],
        rest: &mut [Six],
        ends: &mut Vec<[Six; 2]>,
    ) {
        let mut next = loads.iter().peekable();
        ends.clear();
        ends.reserve(self.elements.len());
        for (k, e) in self.elements.iter().enumerate() {
            let carried = next.next_if(|c| c.0 == k).map(|c| &c.1);
            let [i, j] = e.nodes;
            let f = e.end_forces([&u[i], &u[j]], carried);
            let at = if carried.is_none() { e.at_nodes(&f) } else { [0, 1].map(|end| e.at_node(end, &f[end])) };
            take(&mut rest[i], &at[0]);
            take(&mut rest[j], &at[1]);
            ends.push(f);
        }
        for p in &self.patches {
            for (n, f) in p.nodes().iter().zip(p.forces(u)) {
                take(&mut rest[*n], &f);
            }
        }
        for &n in &self.springy {
            let f: Six = std::array::from_fn(|k| self.nodes[n].spring[k] * u[n][k]);
            take(&mut rest[n], &f);
        }
    }

    /// The unknowns among six numbers a node.
    pub fn gather(&self, nodes: &[Six], out: &mut [f64]) {
        for (six, slots) in nodes.iter().zip(&self.layout.slot) {
            for (v, &slot) in six.iter().zip(slots) {
                if slot != HELD {
                    out[slot] = *v;
                }
            }
        }
    }

    /// Adds unknowns to six numbers a node.
    pub fn scatter_add(&self, unknowns: &[f64], nodes: &mut [Six]) {
        for (six, slots) in nodes.iter_mut().zip(&self.layout.slot) {
            for (v, &slot) in six.iter_mut().zip(slots) {
                if slot != HELD {
                    *v += unknowns[slot];
                }
            }
        }
    }
}

fn springy(nodes: &[Node]) -> Vec<usize> {
    (0..nodes.len()).filter(|&n| nodes[n].spring.iter().any(|&k| k > 0.0)).collect()
}

fn take(from: &mut Six, what: &Six) {
    for (a, b) in from.iter_mut().zip(what) {
        *a -= b;
    }
}
