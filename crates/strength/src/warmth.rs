//! Plastic that carries where nobody says how warm it gets.

use crate::judge::Court;
use crate::remark::Open;
use std::collections::BTreeSet;

impl Court<'_> {
    /// Told of a whole chair whose text says neither how warm it gets in use nor where it stands.
    pub(crate) fn warmth_unsaid(&self) -> Option<Open> {
        let keys = || self.design.conditions.quantities.keys();
        let said = |name: &str| keys().any(|k| k.split('.').next() == Some(name));
        if self.design.name.is_empty() || said("temperature") || said("parked_temperature") {
            return None;
        }
        let stocks = self.all.bars.iter().flat_map(|b| b.sheaths.iter().map(|s| s.stock).chain([b.stock]));
        let plastic = stocks.filter(|s| self.family(*s) == "plastic");
        let of: BTreeSet<String> = plastic.map(|s| self.design.stocks[s].material.name.clone()).collect();
        (!of.is_empty()).then(|| Open::WarmthUnsaid { of: of.into_iter().collect(), at: self.climate.hot })
    }
}
