//! Refuses what cannot be computed, before anything is.

use crate::error::{Error, Fault, Item};
use crate::load::{LoadCase, MemberLoad};
use crate::model::{Joint, Link, Member, Model, Node, Orientation, Panel, Section};
use crate::patch;
use crate::vector::{cross, dot, finite, norm, sub};

type Found = Result<(), Fault>;

fn all(good: bool, fault: Fault) -> Found {
    if good { Ok(()) } else { Err(fault) }
}

/// Checks the model.
pub(crate) fn model(model: &Model) -> Result<(), Error> {
    let named = |item: Item| move |fault| Error::Invalid { item, fault };
    for (k, n) in model.nodes.iter().enumerate() {
        node(n).map_err(named(Item::Node(k)))?;
    }
    for (k, m) in model.members.iter().enumerate() {
        member(m, &model.nodes).map_err(named(Item::Member(k)))?;
    }
    for (k, l) in model.links.iter().enumerate() {
        link(l, model.nodes.len()).map_err(named(Item::Link(k)))?;
    }
    for (k, p) in model.panels.iter().enumerate() {
        panel(p, &model.nodes).map_err(named(Item::Panel(k)))?;
    }
    Ok(())
}

/// Checks one load case.
pub(crate) fn case(at: usize, case: &LoadCase, model: &Model) -> Result<(), Error> {
    let nodes = model.nodes.len();
    for (k, (node, load)) in case.nodes.iter().enumerate() {
        let found = all(node.0 < nodes, Fault::UnknownNode).and(all(finite(load), Fault::NotFinite));
        found.map_err(|fault| Error::Invalid { item: Item::NodeLoad(at, k), fault })?;
    }
    for (k, (id, load)) in case.members.iter().enumerate() {
        let item = Item::MemberLoad(at, k);
        let Some(m) = model.members.get(id.0) else {
            return Err(Error::Invalid { item, fault: Fault::UnknownMember });
        };
        member_load(load, m.length(&model.nodes)).map_err(|fault| Error::Invalid { item, fault })?;
    }
    for (k, &(node, direction, by)) in case.settlements.iter().enumerate() {
        let fixed = |n: &Node| n.fixed.get(direction).copied().unwrap_or(false);
        let found = match model.nodes.get(node.0) {
            None => Err(Fault::UnknownNode),
            Some(n) if !fixed(n) => Err(Fault::NotFixed),
            Some(_) => all(by.is_finite(), Fault::NotFinite),
        };
        found.map_err(|fault| Error::Invalid { item: Item::Settlement(at, k), fault })?;
    }
    Ok(())
}

fn node(n: &Node) -> Found {
    all(finite(&n.at) && finite(&n.spring), Fault::NotFinite)?;
    all(n.spring.iter().all(|&k| k >= 0.0), Fault::Negative)
}

fn member(m: &Member, nodes: &[Node]) -> Found {
    all(m.i.0 < nodes.len() && m.j.0 < nodes.len(), Fault::UnknownNode)?;
    section(&m.section)?;
    for end in &m.ends {
        all(finite(&end.offset), Fault::NotFinite)?;
        end.joint.iter().try_for_each(joint)?;
    }
    let (a, b) = m.span(nodes);
    let reach = norm(a).max(norm(b));
    // Shorter than the rounding of its own coordinates, its direction would be noise.
    all(m.length(nodes) > 1e-12 * reach, Fault::NoLength)?;
    // whether it has axes is seen when they are made
    match m.orientation {
        Orientation::Roll(angle) => all(angle.is_finite(), Fault::NotFinite),
        _ => Ok(()),
    }
}

fn section(s: &Section) -> Found {
    let areas = [s.shear_y.unwrap_or(1.0), s.shear_z.unwrap_or(1.0)];
    let figures = [s.e, s.g, s.area, s.iy, s.iz, s.j, areas[0], areas[1]];
    all(finite(&figures), Fault::NotFinite)?;
    all(figures.iter().all(|&v| v > 0.0), Fault::NotPositive)
}

fn joint(j: &Joint) -> Found {
    match *j {
        Joint::Spring(k) if !k.is_finite() => Err(Fault::NotFinite),
        Joint::Spring(k) if k < 0.0 => Err(Fault::Negative),
        Joint::Spring(k) => all(k > 0.0, Fault::NotPositive),
        _ => Ok(()),
    }
}

fn link(l: &Link, nodes: usize) -> Found {
    all(l.a.0 < nodes && l.b.0 < nodes, Fault::UnknownNode)?;
    all(l.a != l.b, Fault::NoLength)?;
    all(finite(&l.stiffness), Fault::NotFinite)?;
    all(l.stiffness.iter().all(|&k| k >= 0.0), Fault::Negative)?;
    let (x, y, z) = (l.axes.x, l.axes.y, l.axes.z);
    let square = norm(sub(cross(x, y), z)) < 1e-9 && (dot(x, x) - 1.0).abs() < 1e-9 && dot(x, y).abs() < 1e-9;
    all(square && (dot(y, y) - 1.0).abs() < 1e-9, Fault::NoAxes)
}

fn panel(p: &Panel, nodes: &[Node]) -> Found {
    all(p.corners.iter().all(|c| c.0 < nodes.len()), Fault::UnknownNode)?;
    all(finite(&[p.thickness, p.g]), Fault::NotFinite)?;
    all(p.thickness > 0.0 && p.g > 0.0, Fault::NotPositive)?;
    all(patch::flat(&p.corners.map(|c| nodes[c.0].at)), Fault::NotFlat)
}

fn member_load(load: &MemberLoad, length: f64) -> Found {
    // Stations are often computed: forgive the rounding of a length.
    let inside = |x: f64| (-1e-9 * length..=length * (1.0 + 1e-9)).contains(&x);
    match load {
        MemberLoad::Uniform(_, q) => all(finite(q), Fault::NotFinite),
        MemberLoad::Linear { from, to, first, last, .. } => {
            all(finite(&[*from, *to]) && finite(first) && finite(last), Fault::NotFinite)?;
            all(inside(*from) && inside(*to) && from <= to, Fault::OutsideMember)
        }
        MemberLoad::Point { at, force, moment, .. } => {
            all(at.is_finite() && finite(force) && finite(moment), Fault::NotFinite)?;
            all(inside(*at), Fault::OutsideMember)
        }
        MemberLoad::Strain { axial, about_y, about_z } => {
            all(finite(&[*axial, *about_y, *about_z]), Fault::NotFinite)
        }
    }
}
