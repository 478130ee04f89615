//! What of the bars cannot be told, and that nothing of it passes.

use crate::answer::{Item, Untold, Verdict};
use crate::bar::{Bar, Pierced};
use crate::case::{Case, Lasting};
use crate::form::{Forces, Form};
use crate::judge::{Court, KINDS, origin};
use crate::limit::Unknown;
use crate::slot::opens;
use chairwright_design::{Design, StockId};

impl Court<'_> {
    /// Bars that could not be judged in a kind of load that occurs, or of which a figure is a guess.
    pub fn untold(&self, cases: &[Case]) -> Vec<Untold> {
        let mut out: Vec<Untold> = Vec::new();
        for bar in &self.all.bars {
            for kind in KINDS.into_iter().filter(|k| cases.iter().any(|c| c.lasting == *k)) {
                for stock in bar.sheaths.iter().map(|s| s.stock).chain([bar.stock]) {
                    for why in self.unknown(bar, stock, kind) {
                        add(&mut out, self.design, bar, (why, kind));
                    }
                }
            }
        }
        out
    }

    /// What of a stock in a bar is not known under a kind of load.
    fn unknown(&self, bar: &Bar, stock: StockId, kind: Lasting) -> Vec<Unknown> {
        let material = &self.design.stocks[stock].material;
        let mut out = Vec::new();
        match self.known(stock, kind) {
            Some(Err(why)) => return vec![why.clone()],
            Some(Ok(l)) if l.shear.is_none() && self.fibrous.get(stock.index()) == Some(&true) => {
                out.push(Unknown::Shear(material.name.clone()));
            }
            _ => {}
        }
        out.extend(self.benches[stock.index()].clone());
        if material.modulus.is_none() {
            out.push(Unknown::Stiffness(material.name.clone()));
        }
        let form = if stock == bar.stock { Some(bar.form) } else { Form::of(&self.design.stocks[stock].shape) };
        let gone =
            |h: &Pierced| form.is_some_and(|f| f.stress_at(&Forces::default(), Some(h.drilled)).is_none());
        if bar.holes.iter().any(gone) {
            out.push(Unknown::Hole);
        }
        for (row, why) in [(false, Unknown::Slot), (true, Unknown::Row)] {
            if bar.holes.iter().any(|h| h.row == row && form.is_some_and(|f| opens(&f, &h.drilled))) {
                out.push(why);
            }
        }
        if matches!(bar.form, Form::Hollow { .. })
            && let Err(why) = self.glue(stock, kind)
        {
            out.push(why);
        }
        out
    }

    /// Nothing passes of which something could not be judged.
    pub fn doubt(items: &mut [Item], untold: &[Untold]) {
        for item in items.iter_mut().filter(|i| i.verdict == Verdict::Pass) {
            if untold.iter().any(|u| u.name == item.name) {
                item.verdict = Verdict::CannotTell;
            }
        }
    }
}

fn add(out: &mut Vec<Untold>, design: &Design, bar: &Bar, (why, kind): (Unknown, Lasting)) {
    match out.iter_mut().find(|u| u.name == bar.name && u.why == why) {
        Some(old) if !old.kinds.contains(&kind) => old.kinds.push(kind),
        Some(_) => {}
        None => {
            out.push(Untold { name: bar.name.clone(), origin: origin(design, bar.of), why, kinds: vec![kind] })
        }
    }
}
