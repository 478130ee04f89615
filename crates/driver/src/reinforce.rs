//! The reinforcements that the strength check found, with what they weigh and cost: the plan is changed as they say and
//! its bill made again.

use crate::sides::without_side;
use chairwright_cost::{Difference, Need, PriceBook, Shed, difference, needs};
use chairwright_design::{Design, Shape, Stock, StockId};
use chairwright_frame::{Cut, Frame, Piece};
use chairwright_strength::{How, Mend};

/// One reinforcement, on every side that has the part.
#[derive(Clone, Debug)]
pub struct Reinforcement {
    /// The parts that it is for.
    pub parts: Vec<String>,
    /// What to do; never [`How::Nothing`].
    pub how: How,
    /// Whether a sleeve goes inside the part rather than over it.
    pub inside: bool,
    /// Name of the stock.
    pub stock: String,
    /// Use of the part after it, cautious side, in the load case that was worst before.
    pub used: f64,
    /// Lengths to cut of the stock, m.
    pub lengths: Vec<f64>,
    /// Mass more, kg; what larger fittings weigh more is not in it.
    pub mass: f64,
    /// What it adds to the bill; what larger fittings cost more is not in it.
    pub cost: Difference,
}

impl Reinforcement {
    /// Whether it is for this part.
    #[must_use]
    pub fn is_for(&self, name: &str) -> bool {
        self.parts.iter().any(|p| p == name)
    }
}

/// Prices everything that is offered; what nothing was found for is left out.
pub(crate) fn reinforcements(
    (design, frame): (&Design, &Frame),
    mends: &[Mend],
    before: &[Need],
    (book, shed): (Option<&PriceBook>, &Shed),
) -> Vec<Reinforcement> {
    let mut out: Vec<Reinforcement> = Vec::new();
    for mend in mends {
        if out.iter().any(|r| r.is_for(&mend.name)) {
            continue;
        }
        let (How::Sleeve(id, ..) | How::Stock(id)) = mend.how else { continue };
        let Some(stock) = design.shelf.get(id) else { continue };
        // the check changes both sides at once, and so does the bill
        let same = |n: &&String| without_side(n) == without_side(&mend.name);
        let parts: Vec<String> = design.members.values().map(|m| &m.name).filter(same).cloned().collect();
        let mut changed = Changed::new(design, frame, stock);
        match mend.how {
            How::Sleeve(_, from, to) => parts.iter().for_each(|p| changed.sleeve(p, to - from)),
            _ => parts.iter().for_each(|p| changed.instead(p)),
        }
        let after = needs(&changed.design, &changed.frame);
        out.push(Reinforcement {
            parts,
            inside: is_inside(design, stock, &mend.name),
            how: mend.how.clone(),
            stock: stock.name.clone(),
            used: mend.used,
            lengths: changed.lengths,
            mass: changed.mass,
            cost: difference(before, &after, book, shed),
        });
    }
    out
}

/// Whether a round stock is thinner than a member.
fn is_inside(design: &Design, stock: &Stock, member: &str) -> bool {
    let across = |s: &Shape| match s {
        Shape::Tube { outer, .. } => Some(outer.mid()),
        Shape::Rod { diameter } => Some(*diameter),
        _ => None,
    };
    let own = design.members.values().find(|m| m.name == member).map(|m| &design.stocks[m.stock].shape);
    let pair = across(&stock.shape).zip(own.and_then(across));
    pair.is_some_and(|(new, own)| new < own)
}

/// The plan with a change in it.
struct Changed {
    design: Design,
    frame: Frame,
    stock: StockId,
    lengths: Vec<f64>,
    mass: f64,
}

impl Changed {
    fn new(design: &Design, frame: &Frame, stock: &Stock) -> Changed {
        let mut design = design.clone();
        let stock = design.stocks.push(stock.clone());
        Changed { design, frame: frame.clone(), stock, lengths: Vec::new(), mass: 0.0 }
    }

    fn sleeve(&mut self, part: &str, length: f64) {
        let Some(piece) = self.frame.pieces.iter().find(|p| p.of == part) else { return };
        let sleeve = Piece {
            name: format!("{part}.sleeve"),
            stock: self.stock,
            cut: Cut::Length(length),
            ends: String::new(),
            lies: None,
            holes: Vec::new(),
            ..piece.clone()
        };
        self.frame.pieces.push(sleeve);
        self.mass += self.design.stocks[self.stock].mass_per_length() * length;
        self.lengths.push(length);
    }

    fn instead(&mut self, part: &str) {
        let new = self.design.stocks[self.stock].mass_per_length();
        for piece in self.frame.pieces.iter_mut().filter(|p| p.of == part) {
            let length = match &piece.cut {
                Cut::Length(l) => *l,
                Cut::Sheet { outline } => chairwright_making::extent(outline).0,
                Cut::Band(_) => continue,
            };
            self.mass += (new - self.design.stocks[piece.stock].mass_per_length()) * length;
            self.lengths.push(length);
            piece.stock = self.stock;
        }
    }
}
