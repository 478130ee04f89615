//! Screws and nails that are longer than what they go into: their points come out behind.

use crate::judge::Court;
use crate::piece::Body;
use crate::remark::Open;
use crate::screws::held_by_wood;
use chairwright_resistance::spacing::bite;

/// A point that comes out by less does not, m: a rounding of the text.
const ROUND: f64 = 0.0005;

impl Court<'_> {
    /// Every fastening and joint between wood whose longest screws or nails come out behind.
    pub(crate) fn points_out(&self) -> Vec<Open> {
        let mut out: Vec<Open> = Vec::new();
        for seam in self.seams.iter().flatten() {
            let [Body::Wood { thick: a, .. }, Body::Wood { thick: b, .. }] = [0, 1].map(|k| seam.pair[k].body)
            else {
                continue;
            };
            // between plates on both faces a point ends in the other plate
            let behind = if seam.plates { seam.pair[1].body.thick() } else { 0.0 };
            let driven =
                seam.list.iter().filter(|(_, count)| *count > 0).filter_map(|(name, _)| self.fastener(name));
            let driven = driven.filter(|f| held_by_wood(f).is_some());
            let Some(longest) = driven.max_by(|x, y| x.length.total_cmp(&y.length)) else { continue };
            let Ok(bite) = bite(longest.length, a, b + behind) else { continue };
            if bite.pokes_out > ROUND {
                let (name, origin) = (self.name(seam.what), self.origin(seam.what));
                let (by, length) = (longest.name.clone(), longest.length);
                out.push(Open::PointsOut { name, origin, by, length, out: bite.pokes_out });
            }
        }
        out
    }
}
