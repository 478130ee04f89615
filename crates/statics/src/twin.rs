//! How two models of one frame correspond: which nodes of the second came off one of the first, which links it lacks, and
//! what of the ground has changed.

use crate::frame::Frame;
use crate::model::{Link, Model};

/// A node that came off another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Torn {
    pub new: usize,
    pub old: usize,
}

/// The second model in terms of the first.
#[derive(Debug)]
pub(crate) struct Twin {
    /// The node of the first model that each node of the second is or was part of.
    pub hosts: Vec<usize>,
    /// Nodes that came off; every node of the first model has one in the second that did not.
    pub torn: Vec<Torn>,
    /// The link of the first model that each link of the second is.
    pub links: Vec<usize>,
    /// Links of the first model that have another stiffness in the second.
    pub other_stiffness: Vec<usize>,
    /// How many springs of links go or change.
    springs: usize,
    /// Springs of the ground that change: node of the first model, direction, by how much; without limit where newly held.
    pub grounded: Vec<(usize, usize, f64)>,
    /// Directions that are newly held: node of the second model, direction.
    pub held: Vec<(usize, usize)>,
}

impl Twin {
    /// How many springs change.
    pub fn changed(&self) -> usize {
        self.springs + self.grounded.len()
    }
}

/// Finds the correspondence; `None` where the models differ in anything else.
pub(crate) fn twin(old: &Frame, was: &Model, is: &Model) -> Option<Twin> {
    let counts = |m: &Model| (m.members.len(), m.panels.len());
    if counts(was) != counts(is) || is.nodes.len() < was.nodes.len() || is.links.len() > was.links.len() {
        return None;
    }
    let mut hosts: Vec<Option<usize>> = vec![None; is.nodes.len()];
    for (a, b) in was.members.iter().zip(&is.members) {
        let same = a.section == b.section && a.orientation == b.orientation && a.ends == b.ends;
        (same && put(&mut hosts, b.i.0, a.i.0) && put(&mut hosts, b.j.0, a.j.0)).then_some(())?;
    }
    for (a, b) in was.panels.iter().zip(&is.panels) {
        let same = a.thickness == b.thickness && a.g == b.g;
        let mut corners = a.corners.iter().zip(&b.corners);
        (same && corners.all(|(a, b)| put(&mut hosts, b.0, a.0))).then_some(())?;
    }
    let links = matched(&mut hosts, was, is)?;
    let hosts = hosts.into_iter().collect::<Option<Vec<usize>>>()?;
    if hosts.iter().zip(&is.nodes).any(|(h, n)| was.nodes[*h].at != n.at) {
        return None;
    }
    let mut out = Twin {
        hosts,
        torn: Vec::new(),
        links,
        other_stiffness: Vec::new(),
        springs: 0,
        grounded: Vec::new(),
        held: Vec::new(),
    };
    out.compare_links(was, is)?;
    out.tear(was, is)?;
    let torn = |n: usize| out.torn.iter().any(|t| t.old == n);
    if old.spins.iter().any(|s| torn(s.node)) { None } else { Some(out) }
}

/// Notes which node another came from; whether that is the one already known.
fn put(hosts: &mut [Option<usize>], new: usize, old: usize) -> bool {
    *hosts[new].get_or_insert(old) == old
}

/// Finds the links of the second model among those of the first, which come in the same order.
fn matched(hosts: &mut [Option<usize>], was: &Model, is: &Model) -> Option<Vec<usize>> {
    let mut next = 0;
    let mut out = Vec::with_capacity(is.links.len());
    for b in &is.links {
        let ends = [b.a.0, b.b.0];
        let fits = |a: &Link| {
            let there = [a.a.0, a.b.0];
            let end = |k: usize| {
                hosts[ends[k]].is_none_or(|h| h == there[k]) && was.nodes[there[k]].at == is.nodes[ends[k]].at
            };
            a.axes == b.axes && end(0) && end(1)
        };
        let found = next + was.links[next..].iter().position(fits)?;
        for (new, old) in ends.into_iter().zip([was.links[found].a.0, was.links[found].b.0]) {
            put(hosts, new, old).then_some(())?;
        }
        out.push(found);
        next = found + 1;
    }
    Some(out)
}

impl Twin {
    /// Which springs of links go or change; `None` where one comes that was not there.
    fn compare_links(&mut self, was: &Model, is: &Model) -> Option<()> {
        let mut now: Vec<[f64; 6]> = vec![[0.0; 6]; was.links.len()];
        for (b, &k) in is.links.iter().zip(&self.links) {
            now[k] = b.stiffness;
            if b.stiffness != was.links[k].stiffness {
                self.other_stiffness.push(k);
            }
        }
        let differ = |(a, b): (&Link, &[f64; 6])| (0..6).filter(|d| a.stiffness[*d] != b[*d]).count();
        self.springs = was.links.iter().zip(&now).map(differ).sum();
        let comes = |(a, b): (&Link, &[f64; 6])| (0..6).any(|d| a.stiffness[d] == 0.0 && b[d] > 0.0);
        (!was.links.iter().zip(&now).any(comes)).then_some(())
    }

    /// Which node of those that are made of one stays, and which come off. The ground stays with one of them.
    fn tear(&mut self, was: &Model, is: &Model) -> Option<()> {
        let mut stays: Vec<Option<usize>> = vec![None; was.nodes.len()];
        let grounded = |n: usize| is.nodes[n].fixed.contains(&true) || is.nodes[n].spring != [0.0; 6];
        for new in (0..is.nodes.len()).filter(|n| grounded(*n)) {
            let slot = &mut stays[self.hosts[new]];
            slot.is_none().then_some(())?;
            *slot = Some(new);
        }
        for new in 0..is.nodes.len() {
            let old = self.hosts[new];
            if *stays[old].get_or_insert(new) != new {
                self.torn.push(Torn { new, old });
            }
        }
        for (old, new) in stays.into_iter().enumerate() {
            let new = new?;
            let (a, b) = (&was.nodes[old], &is.nodes[new]);
            for d in 0..6 {
                match (a.fixed[d], b.fixed[d]) {
                    (true, false) => return None,
                    (false, true) => {
                        self.grounded.push((old, d, f64::INFINITY));
                        self.held.push((new, d));
                    }
                    (true, true) => {}
                    (false, false) if a.spring[d] != b.spring[d] => {
                        self.grounded.push((old, d, b.spring[d] - a.spring[d]));
                    }
                    (false, false) => {}
                }
            }
        }
        Some(())
    }
}
