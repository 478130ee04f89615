//! Where fasteners sit on the face that both pieces share, which rows fit there, and what that asks of the wood around them.

use crate::bar::{Bar, Of};
use crate::demand::sides;
use crate::drill::WIDER;
use crate::judge::Court;
use crate::piece::Body;
use crate::room::{Bound, Room, Through};
use crate::seam::{Seam, Sits};
use crate::structure::TieOf;
use chairwright_design::{Origin, Placing, Vec3};
use chairwright_resistance::Refusal;
use chairwright_resistance::keep::{Ground, Keep, Shaft, keep, left, loaded, row};
use std::collections::BTreeMap;

/// Least spacing of bolts in anything but wood, and from its ends and edges, in diameters. Common practice, no source.
const ELSEWHERE: (f64, f64) = (3.0, 2.0);
/// What a measure may fall short of, m: a rounding of the text.
pub(crate) const ROUND: f64 = 1e-5;

/// Fasteners in rows on a face, in the middle of which the axes begin; along it first, then across, m.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Layout {
    pub places: Vec<[f64; 2]>,
    /// How far the middle of the group is from that of the face, to whichever side.
    pub off: [f64; 2],
    /// From one to the next; 0 where there is one only.
    pub step: [f64; 2],
    /// From the first to the last.
    pub span: [f64; 2],
}

/// A distance that is too small.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Near {
    /// From one fastener to the next along the row.
    InRow,
    /// From one row to the next.
    Rows,
    /// From the end of a piece.
    End,
    /// From the edge of a piece.
    Edge,
}

/// What is wrong with where fasteners sit; lengths in m.
#[derive(Clone, PartialEq, Debug)]
pub enum Ill {
    /// They do not all lie on the face that the pieces share.
    Off {
        /// From the first to the last, along and across.
        span: [f64; 2],
        /// The face.
        face: [f64; 2],
    },
    /// Wood splits there.
    Close {
        /// Which distance.
        near: Near,
        /// What it is.
        has: f64,
        /// What it must be.
        least: f64,
        /// The piece.
        piece: String,
    },
}

/// A fastening whose fasteners sit badly.
#[derive(Clone, PartialEq, Debug)]
pub struct Misplaced {
    /// Its name.
    pub name: String,
    /// Where it stands in the text.
    pub origin: Origin,
    /// What is wrong, the first of it.
    pub ill: Ill,
    /// The room that they have.
    pub room: Room,
}

/// Where a text puts so many on a face.
pub(crate) fn layout(p: &Placing, count: u32, face: [f64; 2]) -> Layout {
    let rows = p.rows.max(1);
    let counts = [(count / rows).max(1), rows];
    let given = [(p.spaced, p.ends), (p.apart, p.edges)];
    let mut out = Layout { places: Vec::new(), off: [0.0; 2], step: [0.0; 2], span: [0.0; 2] };
    for k in 0..2 {
        let gaps = f64::from(counts[k] - 1);
        let (step, end) = given[k];
        let inside = |e: f64| if gaps > 0.0 { (face[k] - 2.0 * e) / gaps } else { 0.0 };
        out.step[k] = if gaps > 0.0 { step.or(end.map(inside)).unwrap_or(0.0) } else { 0.0 };
        out.span[k] = out.step[k] * gaps;
        // one alone, or a row whose spacing is told too, stands nearer to one end; nobody says to which
        let told = end.filter(|_| step.is_some() || gaps == 0.0);
        out.off[k] = told.map_or(0.0, |e| (face[k] / 2.0 - e - out.span[k] / 2.0).abs());
    }
    for row in 0..counts[1] {
        for column in 0..counts[0] {
            let at = |k: usize, i: u32| out.step[k] * f64::from(i) - out.span[k] / 2.0;
            out.places.push([at(0, column), at(1, row)]);
        }
    }
    out
}

impl Layout {
    /// How far the outermost is from the middle of the face, to whichever side, in a direction of the face, m.
    fn out(&self, e: [f64; 2]) -> f64 {
        (0..2).map(|k| e[k].abs() * (self.span[k] / 2.0 + self.off[k])).sum()
    }
}

/// What goes in, and how thick it is.
pub(crate) type Driven = (Shaft, f64);

impl Court<'_> {
    fn ground(&self, seam: &Seam<'_>, k: usize) -> Option<Ground> {
        let piece = &seam.pair[k];
        let ply = self.family(piece.stock) == "plywood";
        matches!(piece.body, Body::Wood { .. }).then_some(if ply { Ground::Plywood } else { Ground::Lumber })
    }

    fn round(seam: &Seam<'_>, k: usize) -> bool {
        matches!(seam.pair[k].body, Body::Tube { .. } | Body::Rod { .. })
    }

    /// What a piece asks of the spacing along either direction of the face, m. Of one that runs askew both directions ask
    /// for the most, as they are neither along its grain nor across it.
    fn apart(&self, seam: &Seam<'_>, (shaft, d): Driven, k: usize) -> Result<[f64; 2], Refusal> {
        let Some(ground) = self.ground(seam, k) else { return Ok([ELSEWHERE.0 * d; 2]) };
        let Keep { in_row, between_rows, .. } = keep(shaft, ground, d)?;
        let lie = &seam.ground.lies[k];
        if !lie.straight() {
            return Ok([in_row.max(between_rows); 2]);
        }
        Ok([0, 1].map(|axis| if lie.lengthwise(axis) { in_row } else { between_rows }))
    }

    /// What a piece asks of its end and of its edge, m: at all, or for the full value whichever way the load points. One
    /// that is met end on has edges only.
    fn margins(&self, seam: &Seam<'_>, (shaft, d): Driven, k: usize, full: bool) -> Result<[f64; 2], Refusal> {
        let Some(ground) = self.ground(seam, k) else { return Ok([ELSEWHERE.1 * d; 2]) };
        let [end, edge] = if full {
            loaded(shaft, ground, d, [1.0; 2])?
        } else {
            let keep = keep(shaft, ground, d)?;
            [keep.end, keep.edge]
        };
        Ok(if seam.ground.lies[k].grain { [end, edge] } else { [edge; 2] })
    }

    /// What is wrong with where they sit, first of all that they do not lie on the face.
    pub(crate) fn ill(&self, seam: &Seam<'_>, l: &Layout, driven: Driven) -> Result<Option<Ill>, Refusal> {
        let lies = &seam.ground.lies;
        for (k, lie) in lies.iter().enumerate() {
            for (own, e) in lie.axes().into_iter().enumerate() {
                // a pipe only takes bolts through its axis; half a fastener is over an edge before the last one is
                let (room, body) = match Self::round(seam, k) && own == 1 {
                    true => (0.0, 0.0),
                    false => (lie.reach[own], driven.1 / 2.0),
                };
                if l.out(e) + body > room + ROUND {
                    return Ok(Some(Ill::Off { span: l.span, face: seam.ground.size }));
                }
            }
        }
        if l.span.iter().any(|s| *s < 0.0) {
            return Ok(Some(Ill::Off { span: l.span, face: seam.ground.size }));
        }
        for (k, lie) in lies.iter().enumerate() {
            let least = self.apart(seam, driven, k)?;
            let piece = || seam.pair[k].name.clone();
            for axis in 0..2 {
                if l.span[axis] > 0.0 && l.step[axis] + ROUND < least[axis] {
                    let near = if axis == 0 { Near::InRow } else { Near::Rows };
                    let (has, least) = (l.step[axis], least[axis]);
                    return Ok(Some(Ill::Close { near, has, least, piece: piece() }));
                }
            }
            let margins = self.margins(seam, driven, k, false)?;
            for (own, e) in lie.axes().into_iter().enumerate() {
                let (has, least) = (lie.reach[own] - l.out(e), margins[own]);
                let through = Self::round(seam, k) && own == 1;
                if !through && has + ROUND < least {
                    let near = if lie.grain && own == 0 { Near::End } else { Near::Edge };
                    return Ok(Some(Ill::Close { near, has, least, piece: piece() }));
                }
            }
        }
        Ok(None)
    }

    /// Share of its value that a fastener keeps so near to ends and edges that the load, along and across the face in
    /// shares of it, may point to.
    pub(crate) fn kept(
        &self,
        seam: &Seam<'_>,
        l: &Layout,
        (shaft, d): Driven,
        toward: [f64; 2],
    ) -> Result<f64, Refusal> {
        let mut out = 1.0_f64;
        for (k, lie) in seam.ground.lies.iter().enumerate() {
            let Some(ground) = self.ground(seam, k) else { continue };
            let axes = lie.axes();
            let share = axes.map(|e| (toward[0] * e[0] + toward[1] * e[1]).abs().min(1.0));
            for own in 0..2 {
                let grain = lie.grain && own == 0;
                let asked = if grain { [share[own], 0.0] } else { [0.0, share[own]] };
                let [end, edge] = loaded(shaft, ground, d, asked)?;
                out = out.min(left(lie.reach[own] - l.out(axes[own]), if grain { end } else { edge }));
            }
            for axis in 0..2 {
                let along = if lie.straight() { lie.lengthwise(axis) } else { true };
                if along && l.span[axis] > 0.0 {
                    out = out.min(left(l.step[axis], row(shaft, ground, d)?));
                }
            }
        }
        Ok(out)
    }

    /// What bounds a group on the face: shares of half its length and half its width, and their sum's room, m.
    fn bounds(&self, seam: &Seam<'_>, driven: Driven, full: bool) -> Result<Vec<Bound>, Refusal> {
        let mut out = Vec::new();
        for (k, lie) in seam.ground.lies.iter().enumerate() {
            let margins = self.margins(seam, driven, k, full)?;
            for (own, e) in lie.axes().into_iter().enumerate() {
                let through = Self::round(seam, k) && own == 1;
                let margin = if through { 0.0 } else { margins[own].max(driven.1 / 2.0) };
                let reach = if through { 0.0 } else { lie.reach[own] };
                out.push(Bound { shares: e.map(f64::abs), reach, margin });
            }
        }
        Ok(out)
    }

    /// The room on a seam's face; `None` where nobody knows how large it is, or nothing may go in.
    pub(crate) fn room(&self, seam: &Seam<'_>, count: u32, driven: Driven) -> Option<Room> {
        let mut least = [0.0_f64; 2];
        for k in 0..2 {
            let asked = self.apart(seam, driven, k).ok()?;
            least = [0, 1].map(|axis| least[axis].max(asked[axis]));
        }
        let bounds = [true, false].map(|full| self.bounds(seam, driven, full));
        let [Ok(full), Ok(any)] = bounds else { return None };
        let bounds = [full, any];
        let bounded = |axis: usize| bounds[1].iter().any(|b| b.shares[axis] > 0.0 && b.reach.is_finite());
        let (name, origin) = self.said_of(seam.what);
        let finite = seam.ground.size.iter().all(|x| x.is_finite()) && bounded(0) && bounded(1);
        finite.then_some(Room {
            name,
            origin,
            count,
            faces: if seam.plates { 4 } else { 1 },
            placing: seam.placing,
            taken: seam.sits == Sits::Taken,
            through: Vec::new(),
            face: seam.ground.size,
            least,
            bounds,
        })
    }

    /// Fasteners of each tie that stand side by side across each of its bars, or beside its middle, where the drill goes across it: of
    /// those at one place along the bar the most, of as many those furthest out.
    pub(crate) fn side_by_side(&self) -> BTreeMap<(usize, TieOf), Abreast> {
        let mut out: BTreeMap<(usize, TieOf), Abreast> = BTreeMap::new();
        for seam in self.seams.iter().flatten() {
            let (Some(placing), Ok(fixed)) = (&seam.placing, self.fixed(seam)) else { continue };
            let Some((_, diameter)) = fixed.driven() else { continue };
            let faces = if seam.plates { 4 } else { 1 };
            let l = layout(placing, fixed.count / faces, seam.ground.size);
            if !l.span.iter().all(|x| x.is_finite()) {
                continue;
            }
            let axes = seam.axes();
            let places: Vec<Vec3> = l.places.iter().map(|p| axes[0] * p[0] + axes[1] * p[1]).collect();
            for tie in seam.ties.iter().map(|k| &self.all.ties[*k]) {
                for (k, spot) in tie.spots.iter().enumerate() {
                    let Some(bar) = spot.bar() else { continue };
                    let b = &self.all.bars[bar];
                    if matches!(b.of, Of::Support(_)) {
                        let on = |by: [f64; 2]| {
                            let at = |p: &Vec3| seam.ground.at + *p + axes[0] * by[0] + axes[1] * by[1];
                            in_strip(&places.iter().map(at).collect::<Vec<_>>(), seam.way, b, diameter + WIDER)
                        };
                        let found = sides(l.off).into_iter().filter_map(on).reduce(Abreast::worse);
                        if let Some(found) = found {
                            let old = out.get(&(bar, tie.of)).copied().unwrap_or(Abreast::ONE);
                            out.insert((bar, tie.of), old.worse(found));
                        }
                        continue;
                    }
                    let on_arm = matches!(b.of, Of::Panel(_)).then(|| {
                        let at = places.iter().map(|p| seam.ground.at + *p).collect::<Vec<_>>();
                        in_arm(&at, seam.way, b, diameter + WIDER)
                    });
                    let found = on_arm.unwrap_or_else(|| abreast(&places, seam.way, b.way(), diameter));
                    let Some(mut found) = found else { continue };
                    // between plates the other member has fasteners of its own
                    if !seam.plates || seam.moved == Some(k) {
                        found.off = beside_middle(b, seam, &l, diameter);
                    }
                    let old = out.get(&(bar, tie.of)).copied().unwrap_or(Abreast::ONE);
                    out.insert((bar, tie.of), old.worse(found));
                }
            }
        }
        out
    }

    /// Where fasteners that the text places go through members. Not those of plates, which are marked on the plates, nor any that stand
    /// nearer to one end of the face, of which nobody says which.
    fn through(&self, seam: &Seam<'_>, count: u32) -> Vec<Through> {
        let (Some(placing), Sits::Said, false) = (&seam.placing, &seam.sits, seam.plates) else {
            return Vec::new();
        };
        let l = layout(placing, count, seam.ground.size);
        let Some((fastener, _)) = seam.list.first().filter(|_| l.off.iter().all(|off| *off < ROUND)) else {
            return Vec::new();
        };
        let axes = seam.axes();
        let mut out: Vec<Through> = Vec::new();
        for spot in seam.ties.iter().flat_map(|k| &self.all.ties[*k].spots) {
            let Some(bar) = spot.bar().map(|bar| &self.all.bars[bar]) else { continue };
            let Of::Member(member) = bar.of else { continue };
            if out.iter().any(|t| t.member == member) {
                continue;
            }
            let place = |p: &[f64; 2]| seam.ground.at + axes[0] * p[0] + axes[1] * p[1];
            let mut along: Vec<f64> = l.places.iter().map(|p| (place(p) - bar.ends.0).dot(bar.way())).collect();
            along.sort_by(f64::total_cmp);
            along.dedup_by(|a, b| (*a - *b).abs() < ROUND);
            let with = seam.pair.iter().map(|p| &p.name).find(|n| **n != bar.name);
            let with = with.cloned().unwrap_or_default();
            out.push(Through { member, along, fastener: fastener.clone(), with });
        }
        out
    }

    /// Every face that fasteners go through, and those where they sit badly.
    pub(crate) fn rooms(&self) -> (Vec<Room>, Vec<Misplaced>) {
        let (mut rooms, mut ill) = (Vec::new(), Vec::new());
        for seam in self.seams.iter().flatten() {
            let Ok(fixed) = self.fixed(seam) else { continue };
            let Some(driven) = fixed.driven() else { continue };
            let Some(room) = self.room(seam, fixed.count, driven) else { continue };
            if let (Some(p), Sits::Said) = (&seam.placing, &seam.sits) {
                let l = layout(p, fixed.count / room.faces, seam.ground.size);
                if let Ok(Some(found)) = self.ill(seam, &l, driven) {
                    let (name, origin) = (room.name.clone(), room.origin);
                    ill.push(Misplaced { name, origin, ill: found, room: room.clone() });
                }
            }
            rooms.push(Room { through: self.through(seam, fixed.count), ..room });
        }
        (rooms, ill)
    }
}

/// Fasteners side by side across a bar.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Abreast {
    pub count: u32,
    /// From one to the next, m.
    pub apart: f64,
    /// How far their middle is from that of the bar, m, to whichever side.
    pub off: f64,
}

impl Abreast {
    const ONE: Abreast = Abreast { count: 1, apart: 0.0, off: 0.0 };

    /// Of two the one with more of them, of as many the one further out.
    fn worse(self, other: Abreast) -> Abreast {
        if (other.count, other.off) > (self.count, self.off) { other } else { self }
    }
}

/// How far the middle of a group may be from that of a member or box, across drill and bar, m: as far as the face that it sits on is, and
/// further by what the text puts it beside the middle of that. What lies outside of the bar is not in it; of sheets see
/// [`in_strip`].
fn beside_middle(b: &Bar, seam: &Seam<'_>, l: &Layout, diameter: f64) -> f64 {
    let Some(e) = seam.way.cross(b.way()).unit().filter(|_| matches!(b.of, Of::Member(_) | Of::Box(_))) else {
        return 0.0;
    };
    let face = (seam.ground.at - b.ends.0).dot(e).abs();
    let axes = seam.axes();
    let off = face + (0..2).map(|k| axes[k].dot(e).abs() * l.off[k]).sum::<f64>();
    let inside = off + diameter / 2.0 < b.half_along(e);
    if inside && off > ROUND { off } else { 0.0 }
}

/// Those of some holes that go through a strip of a sheet, where they are across it; one that lies on its border is in both strips, as
/// near to the border as it may be. `None` where all of them pass beside it.
fn in_strip(holes: &[Vec3], drill: Vec3, b: &Bar, diameter: f64) -> Option<Abreast> {
    let e = drill.cross(b.way()).unit()?;
    let half = b.half_along(e);
    let most = half - diameter / 2.0 - ROUND;
    let across = holes.iter().map(|p| (*p - b.ends.0).dot(e));
    let inside = across.filter(|t| t.abs() < half + diameter / 2.0);
    let mut offs: Vec<f64> = inside.map(|t| t.clamp(-most.max(0.0), most.max(0.0))).collect();
    offs.sort_by(f64::total_cmp);
    offs.dedup_by(|a, b| (*a - *b).abs() < ROUND);
    let (first, last) = (*offs.first()?, *offs.last()?);
    let count = u32::try_from(offs.len()).unwrap_or(u32::MAX);
    let apart = if count > 1 { (last - first) / f64::from(count - 1) } else { 0.0 };
    Some(Abreast { count, apart, off: f64::midpoint(first, last).abs() })
}

/// Those of some holes that stand side by side in an arm of a panel, no more than have room across it; `None` where the drill goes along it.
/// An arm is a rough strip of what works: where across it they are is not counted.
fn in_arm(holes: &[Vec3], drill: Vec3, b: &Bar, diameter: f64) -> Option<Abreast> {
    let e = drill.cross(b.way()).unit()?;
    let half = b.half_along(e);
    let inside = holes.iter().filter(|p| (**p - b.ends.0).dot(e).abs() < half + diameter / 2.0);
    let mut found = abreast(&inside.copied().collect::<Vec<_>>(), drill, b.way(), diameter)?;
    while found.count > 1 && f64::from(found.count - 1) * found.apart + diameter >= 2.0 * half {
        found.count -= 1;
    }
    Some(found)
}

/// Most of some places that stand less than a diameter from each other along a bar, and how far from one to the next across it; `None`
/// where the drill goes along the bar.
fn abreast(places: &[Vec3], drill: Vec3, bar: Vec3, diameter: f64) -> Option<Abreast> {
    let e = drill.cross(bar).unit().filter(|_| drill.dot(bar).abs() < 0.7)?;
    let mut best = Abreast::ONE;
    for p in places {
        let near = places.iter().filter(|q| (**q - *p).dot(bar).abs() < diameter);
        let mut offs: Vec<f64> = near.map(|q| q.dot(e)).collect();
        offs.sort_by(f64::total_cmp);
        offs.dedup_by(|a, b| (*a - *b).abs() < ROUND);
        let (Some(first), Some(last)) = (offs.first(), offs.last()) else { continue };
        let count = u32::try_from(offs.len()).unwrap_or(u32::MAX);
        if count > best.count {
            best = Abreast { count, apart: (last - first) / f64::from(count - 1), off: 0.0 };
        }
    }
    Some(best)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn placing(rows: u32, spaced: Option<f64>, apart: Option<f64>) -> Placing {
        Placing { rows, spaced, apart, ends: None, edges: None }
    }

    /// An arm 100 mm wide: of holes of 9 mm at -60, -20, 20 and 60 mm across it, two are in it, 40 mm apart; another 30 mm further along it is
    /// not beside them. In one of 45 mm there is room for one of both alone: 40 + 9 mm are more.
    #[test]
    fn holes_side_by_side_in_an_arm() {
        use crate::form::Form;
        use crate::hand::bar;
        let holes: Vec<Vec3> = [(-60.0, 0.1), (-20.0, 0.1), (20.0, 0.1), (60.0, 0.1), (0.0, 0.13)]
            .iter()
            .map(|(x, y)| Vec3::new(x * 1e-3, *y, 0.0))
            .collect();
        let arm = |wide: f64| {
            let form = Form::Flat { level: 0.018, upright: wide };
            Bar { of: Of::Panel(0), ..bar(Vec3::ZERO, Vec3::Y * 0.2, Vec3::X, form) }
        };
        let two = in_arm(&holes, Vec3::Z, &arm(0.1), 0.009).unwrap();
        assert!(two.count == 2 && (two.apart - 0.04).abs() < 1e-12 && two.off == 0.0, "{two:?}");
        assert_eq!(in_arm(&holes, Vec3::Z, &arm(0.045), 0.009).unwrap().count, 1);
    }

    /// A strip 100 mm wide across, holes of 7 mm at -70, 20, 45 and 90 mm from its middle: 20 and 45 mm are in it, 25 mm apart, their middle
    /// 32.5 mm beside its own. One at 52 mm has its edge in it, and counts at 46.5 mm; none at 90 mm alone.
    #[test]
    fn holes_are_where_they_are_in_a_strip() {
        let form = crate::form::Form::Flat { level: 0.100, upright: 0.018 };
        let strip = crate::hand::bar(Vec3::ZERO, Vec3::Y * 0.4, Vec3::Z, form);
        let at = |xs: &[f64]| {
            let holes: Vec<Vec3> = xs.iter().map(|x| Vec3::new(x * 1e-3, 0.1, 0.0)).collect();
            in_strip(&holes, Vec3::Z, &strip, 0.007)
        };
        let two = at(&[-70.0, 20.0, 45.0, 90.0]).unwrap();
        assert!(two.count == 2 && (two.apart - 0.025).abs() < 1e-9 && (two.off - 0.0325).abs() < 1e-9);
        let border = at(&[52.0]).unwrap();
        assert!(border.count == 1 && (border.off - 0.0465).abs() < 2e-5);
        assert_eq!(at(&[90.0]), None);
        // 1 kN along the strip of 100 by 18 mm, 7 mm gone at 46.49 mm: 93 x 18 = 1 674 mm2 are left, whose middle is 126 x 46.49/1 674 = 3.50
        // mm to the other side; the pull bends it by 3.50 N m about I = 1 500 000 - (126 x 46.49^2 + 514) - 1 674 x 3.50^2 = 1.207e6 mm4: at
        // 53.5 mm 0.155 MPa beside 0.597 MPa
        let drilled =
            crate::form::Drilled { off: border.off, ..crate::form::Drilled::hole(Some([0.0, 1.0]), 0.007) };
        let pulled = crate::form::Forces { pull: 1000.0, ..Default::default() };
        let stress = form.stress_at(&pulled, Some(drilled)).unwrap();
        assert!(
            (stress.axial / 0.5974e6 - 1.0).abs() < 1e-3 && (stress.bending / 0.1551e6 - 1.0).abs() < 5e-3,
            "{stress:?}"
        );
    }

    /// Six in two rows 40 mm apart, rows along a bar: two abreast, 40 mm apart. Beside a bar that crosses, three abreast, 60 mm apart. Along
    /// the drill nothing stands abreast.
    #[test]
    fn rows_abreast() {
        let l = layout(&placing(2, Some(0.06), Some(0.04)), 6, [0.2, 0.1]);
        let places: Vec<Vec3> = l.places.iter().map(|p| Vec3::X * p[0] + Vec3::Z * p[1]).collect();
        let of = |bar| abreast(&places, Vec3::Y, bar, 0.01).map(|a| (a.count, (a.apart * 1e6).round()));
        assert_eq!(of(Vec3::X), Some((2, 40_000.0)));
        assert_eq!(of(Vec3::Z), Some((3, 60_000.0)));
        assert_eq!(of(Vec3::Y), None);
    }

    /// Six in two rows, 60 mm apart in the row, rows 40 mm apart: 120 mm by 40 mm about the middle. With 30 mm from the ends
    /// of a face of 200 mm instead: 140 mm, 70 mm apart. With both, 120 mm at 30 mm from one end: 100 - 30 - 60 = 10 mm off.
    #[test]
    fn rows_on_a_face() {
        let l = layout(&placing(2, Some(0.06), Some(0.04)), 6, [0.2, 0.1]);
        assert_eq!(l.places.len(), 6);
        assert!((l.places[0][0] + 0.06).abs() < 1e-12 && (l.places[5][1] - 0.02).abs() < 1e-12);
        assert_eq!(l.off, [0.0; 2]);
        let ends = Placing { ends: Some(0.03), ..placing(2, None, Some(0.04)) };
        let l = layout(&ends, 6, [0.2, 0.1]);
        assert!((l.step[0] - 0.07).abs() < 1e-12 && l.off[0] == 0.0);
        let l = layout(&Placing { spaced: Some(0.06), ..ends }, 6, [0.2, 0.1]);
        assert!((l.off[0] - 0.01).abs() < 1e-12);
    }
}
