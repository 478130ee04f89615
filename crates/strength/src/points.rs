//! Screws and nails that are longer than what they go into: their points come out behind, or meet those that come from the
//! plate on the other face.

use crate::judge::Court;
use crate::piece::Body;
use crate::remark::Open;
use crate::screws::held_by_wood;
use chairwright_resistance::spacing::bite;

/// A point that comes out by less does not, m: a rounding of the text.
const ROUND: f64 = 0.0005;

impl Court<'_> {
    /// Every fastening and joint between wood whose longest screws or nails come out behind; and every gusset where they meet in the
    /// member, as the text puts those of both plates in the same places.
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
            } else if seam.plates
                && let Some(most) = meet(longest.length, seam.pair[1].body.thick(), seam.pair[0].body.thick())
            {
                let (name, origin) = (self.name(seam.what), self.origin(seam.what));
                let (by, length) = (longest.name.clone(), longest.length);
                let meets = Open::PointsMeet { name, origin, by, length, most };
                // both members of a joint are held by the same screws
                if !out.contains(&meets) {
                    out.push(meets);
                }
            }
        }
        out
    }
}

/// Whether points that are driven through plates on both faces of a member meet in its middle: then the length that
/// does not, m.
fn meet(length: f64, plate: f64, member: f64) -> Option<f64> {
    let most = plate + member / 2.0;
    (length >= most - 1e-9).then_some(most)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Through plates of 6 mm into 45 mm from both faces: 6 + 22.5 = 28.5 mm. Screws of 30 mm meet, those of 28 mm do not; of 28.5 mm the
    /// points touch.
    #[test]
    fn points_from_both_faces_meet_in_the_middle() {
        assert!((meet(0.030, 0.006, 0.045).unwrap() - 0.0285).abs() < 1e-12);
        assert!(meet(0.0285, 0.006, 0.045).is_some());
        assert_eq!(meet(0.028, 0.006, 0.045), None);
    }
}
