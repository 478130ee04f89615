//! What is marked along each piece before it is joined, in plain text.

use crate::table::Table;
use crate::text::short;
use crate::writer::Writer;
use chairwright_driver::{BOTH, Compilation};
use chairwright_making::{Mark, Marked, Set, What, marks};
use chairwright_quantity::{Dimension, Quantity};

/// Every piece with its marks; where fasteners sit, strength knows from the faces that they go through.
pub(crate) fn pieces(c: &Compilation) -> Vec<Marked> {
    let through = c.strength.rooms.iter().flat_map(|r| &r.through).map(|t| Set {
        member: t.member,
        along: t.along.clone(),
        fastener: t.fastener.clone(),
        with: t.with.clone(),
    });
    marks(&c.design, &c.frame, &through.collect::<Vec<_>>())
}

pub(crate) fn marked(c: &Compilation, w: &mut Writer) {
    let all = pieces(c);
    if all.is_empty() {
        return;
    }
    w.head("MARKS ALONG EACH PIECE");
    w.para(
        "The tape stays at one end of the piece, the one that is named, or the other one where it says so; joints, holes and fasteners \
         whose places the text says are marked at their middles, what is fastened to a piece at both of its edges, and where it leans at its outermost corners. \
         A pipe is home when \"in to here\" is at the mouth of its fitting; where the fitting is deeper than its page says it \
         goes in further.",
        "  ",
    );
    w.out.push('\n');
    let mut table = Table::new(&["piece", "from its end nearer", ">mark", "what is there"]);
    for piece in &all {
        rows(c, piece, &mut table);
    }
    w.table(&table);
}

fn rows(c: &Compilation, piece: &Marked, table: &mut Table) {
    let both = piece.names.len() > 1;
    let own = |name: &str| if both { short(name) } else { name.to_owned() };
    let name = if both { format!("{}{BOTH}", short(&piece.names[0])) } else { piece.names[0].clone() };
    let mut head = [name, own(&c.design.joints[piece.first].name)];
    // how deep the last end goes in is measured from that end
    let depth = |mark: &Mark| if mark.what == What::Mouth(true) { piece.length - mark.at } else { mark.at };
    let text = |m: f64| c.display().text(Quantity::from_si(m, Dimension::LENGTH));
    let mouth = |last: bool| piece.marks.iter().find(|m| m.what == What::Mouth(last)).map(|m| text(depth(m)));
    let alike = mouth(false).is_some() && mouth(false) == mouth(true);
    for mark in &piece.marks {
        let what = match &mark.what {
            What::Mouth(false) if alike => "in to here, both ends".to_owned(),
            What::Mouth(true) if alike => continue,
            What::Mouth(false) => "in to here".to_owned(),
            What::Mouth(true) => "from the other end: in to here".to_owned(),
            What::Hole(name) => format!("hole {}", own(name)),
            What::Fastener(name, with) => format!("{name} of {}", own(with)),
            What::Edge(name, false) => format!("{} begins", own(name)),
            What::Edge(name, true) => format!("{} ends", own(name)),
            What::Part(name) => format!("middle of {}", own(name)),
            What::Joint(joint, meets) => {
                let mut meets: Vec<String> = meets.iter().map(|m| own(&c.design.members[*m].name)).collect();
                meets.sort();
                meets.dedup();
                let joint = own(&c.design.joints[*joint].name);
                if meets.is_empty() { joint } else { format!("{joint}: middle of {}", meets.join(", ")) }
            }
        };
        let [name, end] = std::mem::take(&mut head);
        table.row(vec![name, end, text(depth(mark)), what]);
    }
}
