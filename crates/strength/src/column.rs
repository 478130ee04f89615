//! Bars that give way sideways under a push along them, and the glued corners of boxes.

use crate::answer::{Mode, What};
use crate::assumed::Assumed;
use crate::bar::{Bar, Of};
use crate::case::Lasting;
use crate::form::Form;
use crate::judge::{BondOf, Court, Use};
use crate::limit::{Unknown, allowance, wooden};
use crate::solve::{Cut, Run};
use crate::structure::{Spot, Structure};
use chairwright_design::{Design, StockId};
use chairwright_resistance::column::{Ends, euler_load};
use chairwright_resistance::section::box_glue_line;

/// Pushes smaller than this are none, N.
const NONE: f64 = 1.0;
/// On the cautious side a bar bears this part of its buckling load. Common practice for slender struts, no source.
const SAFETY: f64 = 2.0;
/// The same of wood, whose modulus is a mean of sorts that scatter: NDS appendix D, `Emin = E (1 − 1.645 · 0.25) · 1.03 / 1.66`, from
/// memory, not checked; one in 2.7.
const OF_WOOD: f64 = 1.66 / 1.03 / (1.0 - 1.645 * 0.25);

/// One end held, the other free, both at their best.
const CANTILEVER: Ends = Ends::Factor(2.0);
/// Bars whose axes are no further apart run on in one line, m; and no more aslant than 1 less the cosine of 5 degrees.
const IN_LINE: (f64, f64) = (0.01, 0.996);

/// Whether a bar is tied to another at its first and at its last end.
pub(crate) fn met(all: &Structure) -> Vec<[bool; 2]> {
    let mut out = vec![[false; 2]; all.bars.len()];
    for tie in &all.ties {
        let others = |bar: usize| tie.spots.iter().any(|s| s.bar() != Some(bar));
        for spot in &tie.spots {
            let Spot::Port(p) = spot else { continue };
            for (k, end) in [0.0, all.bars[p.bar].length()].into_iter().enumerate() {
                out[p.bar][k] |= (p.at - end).abs() < 1e-6 && others(p.bar);
            }
        }
    }
    out
}

/// Length of the straight run that every bar is part of, m: with those tied to it that go on in its line.
pub(crate) fn runs(all: &Structure) -> Vec<f64> {
    let mut run: Vec<usize> = (0..all.bars.len()).collect();
    for tie in &all.ties {
        let bars: Vec<usize> = tie.spots.iter().filter_map(Spot::bar).collect();
        for (k, a) in bars.iter().enumerate() {
            for b in bars[k + 1..].iter().filter(|b| in_line(&all.bars[*a], &all.bars[**b])) {
                let (from, to) = (run[*a].max(run[*b]), run[*a].min(run[*b]));
                run.iter_mut().filter(|r| **r == from).for_each(|r| *r = to);
            }
        }
    }
    let reach = |k: usize| {
        let way = all.bars[k].way();
        let mine = (0..run.len()).filter(|o| run[*o] == run[k]).map(|o| &all.bars[o]);
        let ends = mine.flat_map(|b| [b.ends.0.dot(way), b.ends.1.dot(way)]);
        let (low, high) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), x| (l.min(x), h.max(x)));
        high - low
    };
    (0..run.len()).map(reach).collect()
}

fn in_line(a: &Bar, b: &Bar) -> bool {
    let (far, along) = IN_LINE;
    a.way().dot(b.way()).abs() > along && (b.at(b.length() / 2.0) - a.ends.0).across(a.way()).norm() < far
}

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
    /// Push, N, at which a member gives way sideways, on the plain and the cautious side. Cautious is Euler's load of the
    /// whole straight run that it is part of, one end free to move and turn, with what heat and years leave of the
    /// stiffness, and a safety: what meets the run on the way may move with it and braces nothing. Where the frame
    /// itself was looked at in this case, its load factor tells both. Sleeves are left out.
    pub(crate) fn gives_way(&self, lasting: Lasting, cut: &Cut) -> Option<(f64, f64)> {
        let bar = &self.all.bars[cut.bar];
        let push = -cut.forces.pull;
        if !matches!(bar.of, Of::Member(_) | Of::Box(_)) || push <= NONE || !bar.free_at(cut.at) {
            return None;
        }
        let sustained = lasting == Lasting::Sustained;
        let matter = &self.matters[cut.bar];
        let least = matter.shape.iy.min(matter.shape.iz);
        let load = |e: f64, span, ends| euler_load(e * least, span, ends).ok();
        let safety =
            if self.fibrous.get(bar.stock.index()).copied().unwrap_or(true) { OF_WOOD } else { SAFETY };
        let bears = load(matter.softest(sustained), self.runs[cut.bar], Ends::Free)? / safety;
        let (span, ends) = self.span(cut)?;
        let plain = load(matter.e[usize::from(sustained)], span, ends)?;
        let Some(gives) = cut.gives else { return Some((plain, bears)) };
        let surely = if gives.drives { gives.factor * push } else { plain };
        Some((surely, bears.max(gives.factor * gives.keeps * push / safety)))
    }

    /// The stretch between the two nearest places where something meets a bar, and how it is held at best: both ends, or
    /// one where it runs out free.
    fn span(&self, cut: &Cut) -> Option<(f64, Ends)> {
        let places = self.stations(cut.bar);
        let next = places.iter().position(|p| *p >= cut.at - 1e-9)?.max(1);
        let span = places.get(next)? - places[next - 1];
        let [first, last] = self.met[cut.bar];
        let free = (next == 1 && !first) || (next + 1 == places.len() && !last);
        Some((span, if free { CANTILEVER } else { Ends::Fixed }))
    }

    /// Whether some member of a run is pushed beyond what it bears on the cautious side by itself: then only the whole
    /// frame tells.
    pub(crate) fn leans(&self, lasting: Lasting, run: &Run) -> bool {
        let beyond = |c: &Cut| self.gives_way(lasting, c).is_some_and(|(_, bears)| -c.forces.pull > bears);
        run.cuts.iter().any(beyond)
    }

    /// A member pushed along its axis against what makes it give way sideways.
    pub(crate) fn column(&self, case: usize, lasting: Lasting, cut: &Cut) -> Option<Use> {
        let bar = &self.all.bars[cut.bar];
        let push = -cut.forces.pull;
        let (plain, bears) = self.gives_way(lasting, cut)?;
        let used = (push / plain, push / bears);
        Some(Use {
            what: What::Bar(bar.of),
            case,
            mode: Mode::Buckling,
            at: cut.at,
            used,
            most: used.1,
            demand: push,
            bears,
        })
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
        Some(Use {
            what: What::Bar(bar.of),
            case,
            mode: Mode::Glue,
            at: cut.at,
            used,
            most: used.1,
            demand: stress,
            bears,
        })
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
