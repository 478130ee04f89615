//! Bolts of a seam: their own steel, what heads and nuts are pulled against, and the walls of pipe, sheet and rod
//! that they press on.

use crate::answer::Mode;
use crate::case::Lasting;
use crate::demand::{Demand, fastener_use, head_use};
use crate::joints::{Fixed, Said, When};
use crate::judge::Court;
use crate::limit::Unknown;
use crate::piece::Body;
use crate::reasons::Reason;
use crate::screws::{Why, beside, grip};
use crate::seam::{Seam, Wrench};
use crate::walls::{OnWall, Unhead, across, shank, torn};
use chairwright_design::Fastener;
use chairwright_resistance::Refusal;
use chairwright_resistance::bolt_in_pipe::Stays;
use chairwright_resistance::metal::bolt_together;

/// A pull smaller than this is none, N.
pub(crate) const NOTHING: f64 = 1.0;
/// Share of what a bare wall may bear for years below which a lasting push is a trifle. Common practice,
/// no source.
const TRIFLE: f64 = 0.05;

impl Court<'_> {
    /// Use of the bolt itself, plain and cautious; what its head and nut are pulled against is told as a use of its own, for it asks for
    /// something else: washers, and not more bolts.
    pub(crate) fn bolt_pulled(
        &self,
        seam: &Seam<'_>,
        of: &OnWall<'_>,
        demand: Demand,
        when: When,
        say: &mut dyn FnMut(Said),
    ) -> Option<(f64, f64)> {
        let (shear, tension) = match shank(of.bolt) {
            Ok(both) => both,
            Err(why) => {
                self.refuse(seam, &Why::Refused(why), say);
                return None;
            }
        };
        let (aside, pull) = (demand.aside, demand.pull);
        let steel = |p: f64, a: f64| bolt_together(p, a, &tension, &shear).0;
        let used = (steel(pull.0, aside.0), steel(pull.1, aside.1));
        if pull.1 <= NOTHING {
            return Some(used);
        }
        let mut head = (0.0_f64, 0.0_f64);
        for piece in &seam.pair {
            match self.under_head(of, piece, self.limits(piece.stock, when.1)) {
                Ok((plain, cautious)) => {
                    let wall = self.wall_bent(of, piece, self.limits(piece.stock, when.1));
                    head = (head.0.max(pull.0 / plain), head.1.max(pull.1 / cautious.min(wall)));
                }
                Err(Unhead::Limits) => {
                    say(Said::Cannot(seam.what, self.why(piece.stock, when.1)));
                    return None;
                }
                Err(Unhead::Unknown(unknown)) => {
                    say(Said::Cannot(seam.what, unknown));
                    return None;
                }
                Err(Unhead::Why(why)) => {
                    self.refuse(seam, &why, say);
                    return None;
                }
            }
        }
        if head.1 > 0.0 {
            say(Said::Use(head_use(seam.what, when.0, pull.1, head)));
        }
        Some(used)
    }

    /// A bolt that presses on walls of pipe, sheet or rod, on one side at least.
    pub(crate) fn on_walls(
        &self,
        seam: &Seam<'_>,
        f: &Fastener,
        fixed: &Fixed<'_>,
        (demand, w): (Demand, &Wrench),
        when: When,
        say: &mut dyn FnMut(Said),
    ) {
        if let Err(why) = grip(f, &[seam.pair[0].body, seam.pair[1].body]) {
            return self.refuse(seam, &why, say);
        }
        let tube = |k: &usize| matches!(seam.pair[*k].body, Body::Tube { .. });
        let walls: Vec<f64> = [0, 1].iter().filter(|k| tube(k)).map(|k| seam.pair[*k].body.thick()).collect();
        let wide = walls.iter().copied().fold(0.0, f64::max);
        if let Some(s) = fixed.sleeve.filter(|s| s.length + 0.001 < wide) {
            let why = Reason::SleeveShort(s.length.into(), wide.into());
            return self.refuse(seam, &Why::Reason(why), say);
        }
        // two in a row fill the stack together
        let stack: f64 = seam.pair.iter().map(|p| p.body.thick()).sum();
        let rows = f64::from(fixed.sleeves) / f64::from(fixed.count.max(1));
        if let Some(s) =
            fixed.sleeve.filter(|s| s.length * rows.max(1.0) > stack + 0.001 && s.length > wide + 0.001)
        {
            let why = Reason::SleeveLong(s.length.into(), stack.into());
            return self.refuse(seam, &Why::Reason(why), say);
        }
        if let Some(s) = fixed.sleeve.filter(|s| s.diameter <= f.diameter + 1e-6) {
            let why = Reason::SleeveNarrow(s.diameter.into(), f.diameter.into());
            return self.refuse(seam, &Why::Reason(why), say);
        }
        let stays = match when.1 {
            Lasting::Sustained | Lasting::Repeated => Stays::Sustained,
            Lasting::Short | Lasting::Impact => Stays::Brief,
        };
        let sleeve = fixed.lines(&walls).map(|s| s.diameter);
        let mut of = OnWall { bolt: f, sleeve, washer: fixed.washer, stays };
        for k in 0..2 {
            let piece = &seam.pair[k];
            // metal does not creep: the refusal is of bare plastic
            // and what lies on its rail is only kept in its place by its bolts
            let bare = self.family(piece.stock) != "metal" && !seam.lies;
            of.stays = if bare { stays } else { Stays::Brief };
            let used = match piece.body {
                Body::Wood { .. } => self.wood_beside(seam, k, f, demand, when),
                _ => self.wall(seam, k, &of, (demand, w), when),
            };
            match used {
                Ok(used) => say(Said::Use(fastener_use(seam.what, when.0, Mode::Bearing, demand, used))),
                Err(Ok(why)) => self.refuse(seam, &why, say),
                Err(Err(unknown)) => say(Said::Cannot(seam.what, unknown)),
            }
        }
        if let Some(used) = self.bolt_pulled(seam, &of, demand, when, say) {
            say(Said::Use(fastener_use(seam.what, when.0, Mode::Bearing, demand, used)));
        }
    }

    fn wood_beside(
        &self,
        seam: &Seam<'_>,
        k: usize,
        f: &Fastener,
        demand: Demand,
        when: When,
    ) -> Result<(f64, f64), Result<Why, Unknown>> {
        let other = &seam.pair[1 - k];
        let m = &self.design.stocks[other.stock].material;
        let strength = m.strength.ok_or_else(|| Err(Unknown::Strength(m.name.clone())))?;
        let d = beside(f, seam.pair[k].body, (strength, other.body), (when.1, self.climate)).map_err(Ok)?;
        Ok((d.sideways.use_of(demand.aside.0) / d.slack, d.sideways.use_of(demand.aside.1)))
    }

    fn wall(
        &self,
        seam: &Seam<'_>,
        k: usize,
        of: &OnWall<'_>,
        (demand, w): (Demand, &Wrench),
        when: When,
    ) -> Result<(f64, f64), Result<Why, Unknown>> {
        let piece = &seam.pair[k];
        let l = self.limits(piece.stock, when.1).ok_or_else(|| Err(self.why(piece.stock, when.1)))?;
        let bears = match across(of, piece.body, l.fibre) {
            Err(Why::Refused(Refusal::Never(never))) => {
                let brief = OnWall { stays: Stays::Brief, ..*of };
                let bears = across(&brief, piece.body, l.fibre).map_err(Ok)?;
                if demand.aside.1 > TRIFLE * bears {
                    return Err(Ok(Why::Refused(never.into())));
                }
                bears
            }
            other => other.map_err(Ok)?,
        };
        let mut used = (demand.aside.0 / bears / l.slack, demand.aside.1 * l.notch / bears);
        let along = w.force.dot(piece.long).abs() / demand.each;
        if along > NOTHING {
            let shear = self.shear_of(piece.stock, l).map_err(Err)?;
            let out = torn(of, piece.body, shear).map_err(|r| Ok(Why::Refused(r)))?;
            if let Some(bears) = out {
                used = (used.0.max(along / bears / l.shear_slack), used.1.max(along * l.notch / bears));
            }
        }
        Ok(used)
    }
}
