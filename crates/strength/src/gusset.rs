//! The plates of a gusset: all that goes through the joint goes through them, where the member stops at the other.

use crate::answer::Mode;
use crate::drill::WIDER;
use crate::joints::{Said, When};
use crate::judge::{Court, Use};
use crate::limit::{Limits, Unknown};
use crate::placing::Driven;
use crate::plates::inward;
use crate::reasons::Reason;
use crate::screws::Why;
use crate::seam::{Seam, Wrench};
use crate::structure::Spot;
use chairwright_resistance::keep::Shaft;

/// Plywood bears about half as much across its face grain as along it, as its entry says, and nobody says how a plate is cut.
const ACROSS: f64 = 2.0;

/// What the two plates are, m.
#[derive(Clone, Copy, PartialEq, Debug)]
struct Plates {
    thick: f64,
    /// Across the member, in their own plane.
    height: f64,
    /// What bolts leave of that.
    left: f64,
    /// From the middle of the one to that of the other.
    apart: f64,
    /// Half of the member's size in their plane: how far from its axis its end can press on the other.
    reach: f64,
}

/// What goes through both plates where the member stops: N and N m.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
struct Through {
    /// Along the member, pull positive.
    pull: f64,
    /// Across it, in the plane of the plates and out of it.
    across: [f64; 2],
    /// In the plane of the plates, and out of it.
    bend: [f64; 2],
    twist: f64,
}

/// Stress along a plate from pull and from bending, and shear, Pa.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
struct On {
    pull: f64,
    bending: f64,
    shear: f64,
}

impl Plates {
    /// Both plates bent in their plane as boards on edge, `6M/(2th²)`; one pulled and one pushed by what bends them out of it;
    /// shear with the peak of a rectangle. The member's end is given nothing.
    fn free(&self, f: &Through) -> On {
        let area = 2.0 * self.thick * self.left;
        let couple = f.bend[1].abs() / self.apart / (area / 2.0);
        On {
            pull: f.pull / area + couple.copysign(f.pull),
            bending: 3.0 * f.bend[0].abs() / (self.thick * self.left * self.left),
            shear: self.shear(f, self.left),
        }
    }

    /// The same where the member's end fits so well that it presses on the other piece: the plates only pull, with the arm of half
    /// the member, if that asks less of them.
    fn pressed(&self, f: &Through) -> On {
        let whole = Plates { left: self.height, ..*self };
        let free = whole.free(f);
        let bending = free.bending.min(f.bend[0].abs() / self.reach / (2.0 * self.thick * self.height));
        On { pull: free.pull.max(0.0), bending, shear: free.shear }
    }

    fn shear(&self, f: &Through, height: f64) -> f64 {
        let each = libm::hypot(f.across[0], f.across[1]) / 2.0 + f.twist.abs() / self.apart;
        1.5 * each / (self.thick * height)
    }
}

/// Share of the limits that a stress takes up: along the fibres or the shear, whichever is more.
fn share(on: On, l: &Limits, fibrous: bool) -> (f64, f64) {
    let along = if on.pull < 0.0 { l.push } else { l.pull };
    if fibrous {
        let shear = l.shear.map_or(f64::NAN, |limit| on.shear / limit);
        return (on.pull.abs() / along + on.bending / l.fibre, shear);
    }
    let fibre = on.pull.abs() + on.bending;
    ((fibre * fibre + 3.0 * on.shear * on.shear).sqrt() / l.fibre, 0.0)
}

impl Court<'_> {
    /// What the plates of a seam are used for.
    pub(crate) fn plates(&self, seam: &Seam<'_>, when: When, w: &Wrench, say: &mut dyn FnMut(Said)) {
        let stock = seam.pair[1].stock;
        let limits = match self.known(stock, when.1) {
            Some(Ok(limits)) => limits,
            Some(Err(why)) => return say(Said::Cannot(seam.what, why.clone())),
            None => return,
        };
        let Some((plates, f)) = self.through_plates(seam, w) else {
            return self.refuse(seam, &Why::Reason(Reason::Lengthwise), say);
        };
        let material = &self.design.stocks[stock].material;
        let fibrous = self.fibrous[stock.index()];
        let (free, pressed) = (plates.free(&f), plates.pressed(&f));
        let (cautious, plain) = (share(free, limits, fibrous), share(pressed, limits, fibrous));
        if cautious.1.is_nan() {
            return say(Said::Cannot(seam.what, Unknown::Shear(material.name.clone())));
        }
        let grain = if fibrous { ACROSS } else { 1.0 };
        let notch = if limits.everywhere { limits.notch } else { 1.0 };
        let used = (plain.0.max(plain.1) / limits.slack, (cautious.0 * grain).max(cautious.1) * notch);
        let demand = if cautious.0 * grain >= cautious.1 { free.pull.abs() + free.bending } else { free.shear };
        let bears = if used.1 > 0.0 { demand / used.1 } else { limits.fibre };
        say(Said::Use(Use {
            what: seam.what,
            case: when.0,
            mode: Mode::Plates,
            at: 0.0,
            used,
            most: used.1,
            demand,
            bears,
        }));
    }

    /// The plates of a seam and what goes through them where the member stops, at the face of what it stops at.
    fn through_plates(&self, seam: &Seam<'_>, w: &Wrench) -> Option<(Plates, Through)> {
        let spots = &self.all.ties[*seam.ties.first()?].spots;
        let mine = seam.moved?;
        let (Spot::Port(p), Spot::Port(q)) = (*spots.get(mine)?, *spots.get(1 - mine)?) else { return None };
        let (bar, other) = (&self.all.bars[p.bar], &self.all.bars[q.bar]);
        let inward = inward(bar, p.at);
        let across = seam.way.cross(bar.way());
        let at = bar.at(p.at) + inward * other.half_along(inward);
        let moment = w.moment + (seam.at - at).cross(w.force);
        let f = Through {
            // the force is that on the member
            pull: -w.force.dot(inward),
            across: [w.force.dot(across), w.force.dot(seam.way)],
            bend: [moment.dot(seam.way), moment.dot(across)],
            twist: moment.dot(bar.way()),
        };
        let (thick, height) = (seam.pair[1].body.thick(), 2.0 * seam.ground.lies[1].reach[1]);
        let left = height - self.drilled_away(seam);
        let apart = 2.0 * bar.half_along(seam.way) + thick;
        let plates = Plates { thick, height, left: left.max(0.0), apart, reach: bar.half_along(across) };
        (thick > 0.0 && height > 0.0).then_some((plates, f))
    }

    /// What bolts in a row across the plates take off their height, m; screws only part the fibres.
    fn drilled_away(&self, seam: &Seam<'_>) -> f64 {
        let driven: Option<Driven> = self.fixed(seam).ok().and_then(|f| f.driven());
        let rows = seam.placing.as_ref().map_or(1, |p| p.rows.max(1));
        match driven {
            Some((Shaft::Bolt, diameter)) => f64::from(rows) * (diameter + WIDER),
            _ => 0.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two plates of 6 by 30 mm on both faces of a member 95 mm deep and 45 mm thick.
    const PLATES: Plates = Plates { thick: 0.006, height: 0.030, left: 0.030, apart: 0.051, reach: 0.0475 };

    /// 183 N m in their plane: W = 2 · 6 · 30²/6 = 1 800 mm³, 101.7 MPa. Where the member's end presses on the other piece, 183/0.0475 =
    /// 3 853 N pull on 360 mm²: 10.7 MPa. A bolt's hole of 9 mm leaves 21 mm of their height, W = 882 mm³: 207.5 MPa.
    #[test]
    fn plates_bent_in_their_plane() {
        let f = Through { bend: [-183.0, 0.0], ..Through::default() };
        assert!((PLATES.free(&f).bending / 101.67e6 - 1.0).abs() < 1e-4);
        assert!((PLATES.pressed(&f).bending / 10.70e6 - 1.0).abs() < 1e-3);
        let drilled = Plates { left: 0.021, ..PLATES };
        assert!((drilled.free(&f).bending / 207.5e6 - 1.0).abs() < 1e-3);
        assert_eq!(drilled.pressed(&f), PLATES.pressed(&f));
    }

    /// 720 N that pull are 2 MPa on 360 mm², pushed they are taken by the end; 9.18 N m out of their plane pull one and push the other by
    /// 180 N, 1 MPa on its 180 mm². 600 N across are 1.5 · 600/360 = 2.5 MPa, 5.1 N m of twist 100 N on each: 1.5 · 100/180 = 0.833 MPa.
    #[test]
    fn plates_pulled_and_cut() {
        let f = Through { pull: 720.0, across: [600.0, 0.0], bend: [0.0, 9.18], twist: 5.1 };
        let on = PLATES.free(&f);
        assert!((on.pull / 3.0e6 - 1.0).abs() < 1e-9 && on.bending == 0.0, "{on:?}");
        assert!((on.shear / (2.5e6 + 5.0e6 / 6.0) - 1.0).abs() < 1e-9, "{on:?}");
        let pushed = Through { pull: -720.0, ..f };
        assert!((PLATES.free(&pushed).pull / -3.0e6 - 1.0).abs() < 1e-9);
        assert_eq!(PLATES.pressed(&pushed).pull, 0.0);
    }
}
