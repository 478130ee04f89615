//! What a material surely does not bear although nobody knows what it bears here: hotter, wetter or colder than anything
//! that is known of it.

use super::{Climate, Unknown};
use chairwright_design::{Allowance, Design, StockId};

/// The hottest for which anything is known of wood under load, 150 degF, K: NDS 2.3.3, from memory, not checked.
const HOTTEST: f64 = 338.7;

/// Whether a material bears no more here than at the nearest that is known of it. Heat and water only weaken, and a blow in the cold
/// breaks what it breaks in the warm.
pub(crate) fn bears_no_more(why: &Unknown) -> bool {
    matches!(why, Unknown::TooHot(_) | Unknown::Wet(_) | Unknown::Brittle(_) | Unknown::Cold(_))
}

/// The same design and climate as kind as they can be: beyond the hottest that is known as strong as there, dry, and not
/// brittle. What fails so surely fails; nothing passes by it.
pub(crate) fn kindest(design: &Design, climate: &Climate) -> (Design, Climate) {
    let mut kind = design.clone();
    for k in 0..kind.stocks.len() {
        kind.stocks[StockId::new(k)].material.service_temperature = None;
    }
    for a in &mut kind.allowances {
        extend(a, climate.hot);
    }
    (kind, Climate { hot: climate.hot.min(HOTTEST), wet: false, ..*climate })
}

fn extend(a: &mut Allowance, hot: f64) {
    a.brittle_below = None;
    let left = a.heat.last().map_or(1.0, |p| p.1);
    if a.heat.last().is_none_or(|p| p.0 < hot) {
        a.heat.push((hot, left));
    }
}
