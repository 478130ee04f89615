//! Members cut into pieces.

use crate::element::Element;
use crate::model::{End, Member, Model, Node, NodeId, Orientation};
use crate::vector::{add, scale};

/// Cuts every member into equal pieces, rigidly joined.
///
/// The nodes keep their places and new ones follow; piece `p` of member `m` is member
/// `m · pieces + p`. Loads must be given anew. A member that has no length or axes is repeated whole, so that
/// the check still refuses it.
#[must_use]
pub fn split(model: &Model, pieces: usize) -> Model {
    split_each(model, &vec![pieces.max(1); model.members.len()])
}

/// The same with a number of pieces for every member, none of them zero.
pub(crate) fn split_each(model: &Model, pieces: &[usize]) -> Model {
    let mut out = Model { members: Vec::new(), ..model.clone() };
    for (m, &pieces) in model.members.iter().zip(pieces) {
        match Element::new_checked(m, &model.nodes) {
            Some(e) if pieces > 1 => cut(&mut out, m, &e, pieces),
            _ => out.members.extend(std::iter::repeat_n(*m, pieces)),
        }
    }
    out
}

fn cut(out: &mut Model, m: &Member, e: &Element, pieces: usize) {
    let start = add(out.nodes[m.i.0].at, e.arms[0]);
    let mut last = m.i;
    for p in 1..=pieces {
        let next = if p == pieces {
            m.j
        } else {
            let at = add(start, scale(e.axes.x, e.length * p as f64 / pieces as f64));
            out.nodes.push(Node { at, ..Node::default() });
            NodeId(out.nodes.len() - 1)
        };
        let ends =
            [if p == 1 { m.ends[0] } else { End::RIGID }, if p == pieces { m.ends[1] } else { End::RIGID }];
        let orientation = Orientation::ZTowards(e.axes.z);
        out.members.push(Member { i: last, j: next, section: m.section, orientation, ends });
        last = next;
    }
}
