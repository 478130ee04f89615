//! Bars that give way sideways under a push along them, and the glued corners of boxes.

use crate::answer::{Mode, What};
use crate::assumed::Assumed;
use crate::bar::{Bar, Of};
use crate::case::Lasting;
use crate::form::Form;
use crate::judge::{BondOf, Court, Use};
use crate::limit::{Unknown, allowance, wooden};
use crate::solve::Cut;
use crate::structure::{Spot, Structure};
use chairwright_design::{Design, StockId};
use chairwright_resistance::column::{Ends, euler};
use chairwright_resistance::section::box_glue_line;

/// Pushes smaller than this are none, N.
const NONE: f64 = 1.0;
/// On the cautious side a bar bears this part of its buckling load. Common practice for slender struts, no source.
const SAFETY: f64 = 2.0;

/// Places of every bar where something meets it, in order, with both its ends.
pub(crate) fn stations(all: &Structure) -> Vec<Vec<f64>> {
    let mut out: Vec<Vec<f64>> = all.bars.iter().map(|b| vec![0.0, b.length()]).collect();
    for spot in all.ties.iter().flat_map(|t| &t.spots) {
        if let Spot::Port(p) = spot {
            out[p.bar].push(p.at);
        }
    }
    for places in &mut out {
        places.sort_by(f64::total_cmp);
        places.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    }
    out
}

/// What is taken for granted of the corners of boxes of wood.
pub(crate) fn glued(design: &Design, all: &Structure) -> Option<Assumed> {
    let wood = |b: &Bar| allowance(design, &design.stocks[b.stock].material).is_some_and(wooden);
    all.bars.iter().any(|b| matches!(b.of, Of::Box(_)) && wood(b)).then_some(Assumed::GluedCorners)
}

impl Court<'_> {
    /// Push, N, at which a member gives way sideways, on the plain and the cautious side: between the two nearest places where something meets it: Euler's load, on
    /// the plain side with both ends held, on the cautious one with one end free to move and turn, what
    /// creep leaves of the stiffness where the load lasts, and a safety. Sleeves are left out.
    pub(crate) fn gives_way(&self, lasting: Lasting, cut: &Cut) -> Option<(f64, f64)> {
        let bar = &self.all.bars[cut.bar];
        let push = -cut.forces.pull;
        if !matches!(bar.of, Of::Member(_) | Of::Box(_)) || push <= NONE || !bar.free_at(cut.at) {
            return None;
        }
        let places = self.stations(cut.bar);
        let next = places.iter().position(|p| *p >= cut.at - 1e-9)?.max(1);
        let span = places.get(next)? - places[next - 1];
        let matter = &self.matters[cut.bar];
        let least = matter.shape.iy.min(matter.shape.iz);
        let load = |e: f64, ends| Some(euler(e * least, span, ends).ok()?.value);
        let plain = load(matter.e[0], Ends::Fixed)?;
        let bears = load(matter.softest(lasting == Lasting::Sustained), Ends::Free)? / SAFETY;
        Some((plain, bears))
    }

    /// A member pushed along its axis against what makes it give way sideways.
    pub(crate) fn column(&self, case: usize, lasting: Lasting, cut: &Cut) -> Option<Use> {
        let bar = &self.all.bars[cut.bar];
        let push = -cut.forces.pull;
        let (plain, bears) = self.gives_way(lasting, cut)?;
        let used = (push / plain, push / bears);
        Some(Use { what: What::Bar(bar.of), case, mode: Mode::Buckling, at: cut.at, used, demand: push, bears })
    }

    /// The glue in the corners of a box of wood: shear across and twist go through four lines as wide as the
    /// sheet is thick (Jourawski and Bredt). The plates over and under run through to both edges, those at the
    /// sides stand between them, which is the worse way for the lines.
    pub(crate) fn corners(&self, case: usize, lasting: Lasting, cut: &Cut) -> Option<Use> {
        let bar = &self.all.bars[cut.bar];
        let Form::Hollow { level, upright, wall } = bar.form else { return None };
        let (bears, slack) = self.glue(bar.stock, lasting).ok()?;
        let shape = &self.matters[cut.bar].shape;
        let [y, z] = cut.forces.across;
        let (wide, high) = (level - wall, upright - wall);
        let (over, beside) = (level * wall * high / 2.0, upright * wall * wide / 2.0);
        let line = |forces, first, second| {
            let enclosed = wide * high;
            box_glue_line(forces, (first, second), (2.0, wall), enclosed).unwrap_or(f64::NAN)
        };
        let stress = line((z, cut.forces.twist), over, shape.iy) + line((y, 0.0), beside, shape.iz);
        let used = (stress / bears / slack, stress / bears);
        Some(Use { what: What::Bar(bar.of), case, mode: Mode::Glue, at: cut.at, used, demand: stress, bears })
    }

    /// Shear that a line of glue in a sheet bears on its cautious side, and how much more on the plain one. What
    /// years and many loads leave of a glue line is an estimate: only on the cautious side.
    ///
    /// # Errors
    /// Where glue does not hold it, or something is not known.
    pub(crate) fn glue(&self, stock: StockId, lasting: Lasting) -> Result<(f64, f64), Unknown> {
        let m = &self.design.stocks[stock].material;
        if !self.wooden[stock.index()] {
            return Err(Unknown::Corners(m.name.clone()));
        }
        let b = self.bond(BondOf::Glue, lasting)?;
        let slack = b.safety / b.share;
        Ok((b.strength / slack, slack))
    }
}
