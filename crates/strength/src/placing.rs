//! Where fasteners sit that the text places: on the face that both pieces share, and what that asks of the wood around
//! them.

use crate::judge::Court;
use crate::piece::Body;
use crate::room::Room;
use crate::seam::Seam;
use chairwright_design::{Origin, Placing};
use chairwright_resistance::Refusal;
use chairwright_resistance::keep::{Ground, Keep, Shaft, keep, left, loaded};

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

/// What goes in, and how thick it is.
pub(crate) type Driven = (Shaft, f64);

impl Court<'_> {
    fn ground(&self, seam: &Seam<'_>, k: usize) -> Option<Ground> {
        let piece = &seam.pair[k];
        let ply = self.family(piece.stock) == "plywood";
        matches!(piece.body, Body::Wood { .. }).then_some(if ply { Ground::Plywood } else { Ground::Lumber })
    }

    /// Whether an axis of the face runs along the grain of a piece.
    fn lengthwise(seam: &Seam<'_>, k: usize, axis: usize) -> bool {
        seam.pair[k].long.dot(seam.axes()[axis]).abs() > 0.7
    }

    /// What a piece asks of spacing and of its end or edge, along an axis of the face, m.
    fn asks(&self, seam: &Seam<'_>, (shaft, d): Driven, k: usize, axis: usize) -> Result<(f64, f64), Refusal> {
        let Some(ground) = self.ground(seam, k) else { return Ok((ELSEWHERE.0 * d, ELSEWHERE.1 * d)) };
        let Keep { in_row, between_rows, end, edge, .. } = keep(shaft, ground, d)?;
        Ok(if Self::lengthwise(seam, k, axis) { (in_row, end) } else { (between_rows, edge) })
    }

    /// How far the group may reach, along an axis, from the middle of a piece: a pipe only takes bolts through its axis.
    fn reach(seam: &Seam<'_>, k: usize, axis: usize) -> f64 {
        let round = matches!(seam.pair[k].body, Body::Tube { .. } | Body::Rod { .. });
        if round && !Self::lengthwise(seam, k, axis) { f64::INFINITY } else { seam.ground.reach[k][axis] }
    }

    /// What is wrong with where they sit, first of all that they do not lie on the face.
    pub(crate) fn ill(&self, seam: &Seam<'_>, l: &Layout, driven: Driven) -> Result<Option<Ill>, Refusal> {
        for axis in 0..2 {
            let round = (0..2).any(|k| {
                matches!(seam.pair[k].body, Body::Tube { .. } | Body::Rod { .. })
                    && !Self::lengthwise(seam, k, axis)
            });
            let half = l.span[axis] / 2.0 + l.off[axis];
            let room = if round { 0.0 } else { seam.ground.size[axis] / 2.0 };
            // half a fastener is over the edge before the last one is
            let body = if round { 0.0 } else { driven.1 / 2.0 };
            if half + body > room + ROUND || l.span[axis] < 0.0 {
                return Ok(Some(Ill::Off { span: l.span, face: seam.ground.size }));
            }
        }
        for axis in 0..2 {
            for k in 0..2 {
                let (least, margin) = self.asks(seam, driven, k, axis)?;
                let near = if Self::lengthwise(seam, k, axis) { Near::End } else { Near::Edge };
                let has = Self::reach(seam, k, axis) - l.span[axis] / 2.0 - l.off[axis];
                let piece = || seam.pair[k].name.clone();
                if l.span[axis] > 0.0 && l.step[axis] + ROUND < least {
                    let near = if axis == 0 { Near::InRow } else { Near::Rows };
                    return Ok(Some(Ill::Close { near, has: l.step[axis], least, piece: piece() }));
                }
                if has + ROUND < margin {
                    return Ok(Some(Ill::Close { near, has, least: margin, piece: piece() }));
                }
            }
        }
        Ok(None)
    }

    /// Share of its value that a fastener keeps so near to ends and edges that the load, along and across the face in
    /// shares from 0 to 1, may point to.
    pub(crate) fn kept(
        &self,
        seam: &Seam<'_>,
        l: &Layout,
        (shaft, d): Driven,
        toward: [f64; 2],
    ) -> Result<f64, Refusal> {
        let mut out = 1.0_f64;
        for k in 0..2 {
            let Some(ground) = self.ground(seam, k) else { continue };
            for (axis, share) in toward.into_iter().enumerate() {
                let has = seam.ground.reach[k][axis] - l.span[axis] / 2.0 - l.off[axis];
                let grain = Self::lengthwise(seam, k, axis);
                let share = if grain { [share, 0.0] } else { [0.0, share] };
                let [end, edge] = loaded(shaft, ground, d, share)?;
                out = out.min(left(has, if grain { end } else { edge }));
            }
            // NDS 11.5.1, from memory: a bolt has its full value four diameters from the next along the grain
            let row = (0..2).find(|axis| Self::lengthwise(seam, k, *axis) && l.span[*axis] > 0.0);
            if let (Shaft::Bolt, Ground::Lumber, Some(axis)) = (shaft, ground, row) {
                out = out.min(left(l.step[axis], 4.0 * d));
            }
        }
        Ok(out)
    }

    /// The room on a seam's face; `None` where nobody knows how large it is, or nothing may go in.
    pub(crate) fn room(&self, seam: &Seam<'_>, count: u32, driven: Driven) -> Option<Room> {
        let mut least = [0.0_f64; 2];
        let mut span = [seam.ground.size.map(|f| f - driven.1); 2];
        for axis in 0..2 {
            for k in 0..2 {
                let (step, margin) = self.asks(seam, driven, k, axis).ok()?;
                let grain = Self::lengthwise(seam, k, axis);
                let round = matches!(seam.pair[k].body, Body::Tube { .. } | Body::Rod { .. });
                if round && !grain {
                    span.iter_mut().for_each(|s| s[axis] = 0.0);
                    continue;
                }
                let full = match self.ground(seam, k) {
                    Some(g) => loaded(driven.0, g, driven.1, [1.0; 2]).ok()?[usize::from(!grain)],
                    None => margin,
                };
                least[axis] = least[axis].max(step);
                let room = |m: f64| 2.0 * (seam.ground.reach[k][axis] - m);
                span[0][axis] = span[0][axis].min(room(full));
                span[1][axis] = span[1][axis].min(room(margin));
            }
        }
        let (name, origin) = self.said_of(seam.what);
        let finite = seam.ground.size.iter().chain(span.as_flattened()).all(|x| x.is_finite());
        finite.then_some(Room {
            name,
            origin,
            count,
            faces: if seam.plates { 4 } else { 1 },
            placing: seam.placing.copied(),
            face: seam.ground.size,
            least,
            span,
        })
    }

    /// Every face that fasteners go through, and those where they sit badly.
    pub(crate) fn rooms(&self) -> (Vec<Room>, Vec<Misplaced>) {
        let (mut rooms, mut ill) = (Vec::new(), Vec::new());
        for seam in self.seams.iter().flatten() {
            let Ok(fixed) = self.fixed(seam.list) else { continue };
            let Some(driven) = fixed.driven() else { continue };
            let Some(room) = self.room(seam, fixed.count, driven) else { continue };
            if let Some(p) = seam.placing {
                let l = layout(p, fixed.count / room.faces, seam.ground.size);
                if let Ok(Some(found)) = self.ill(seam, &l, driven) {
                    let (name, origin) = (room.name.clone(), room.origin);
                    ill.push(Misplaced { name, origin, ill: found, room: room.clone() });
                }
            }
            rooms.push(room);
        }
        (rooms, ill)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn placing(rows: u32, spaced: Option<f64>, apart: Option<f64>) -> Placing {
        Placing { rows, spaced, apart, ends: None, edges: None }
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
