//! Gusset plates: the half of each that lies on the member that stops, and the half on the one that runs past it.

use crate::bar::Bar;
use crate::face::{ASKEW, AT_JOINT, Lie};
use crate::judge::Court;
use crate::piece::{Body, Grain, Piece};
use crate::reasons::Reason;
use crate::seam::{Found, Ground, Seam, held};
use crate::structure::{Port, Spot};
use chairwright_design::{Closing, ClosingKind, Shape, Vec3};

/// Whether a bar ends at a place on it.
pub(crate) fn ends_at(bar: &Bar, at: f64) -> bool {
    at < AT_JOINT || at > bar.length() - AT_JOINT
}

/// From a joint into the bar that ends there.
pub(crate) fn inward(bar: &Bar, at: f64) -> Vec3 {
    bar.way() * if at < bar.length() / 2.0 { 1.0 } else { -1.0 }
}

impl<'a> Court<'a> {
    /// Makes the seam of two members that of the plates on the one that stops: half of their length lies on it, from where it
    /// stops at the other's face.
    pub(crate) fn plated(
        &self,
        mut seam: Seam<'a>,
        c: &'a Closing,
        (p, other): (Port, &Bar),
    ) -> Result<Seam<'a>, Reason> {
        let ClosingKind::Gusset { stock, size, .. } = &c.kind else { return Ok(seam) };
        let Shape::Sheet { thickness } = self.design.stocks[*stock].shape else {
            return Err(Reason::PlatesNoSheet);
        };
        let body = match self.wooden(*stock) {
            Some(gravity) => Body::Wood { gravity, thick: thickness, grain: Grain::Side },
            None => Body::Sheet { thick: thickness },
        };
        let bar = &self.all.bars[p.bar];
        seam.pair[1] =
            Piece { name: "its plates".to_owned(), stock: *stock, body, long: bar.way(), wall: None };
        seam.along = bar.way();
        let across = seam.way.cross(bar.way());
        seam.face = [size.0 / 2.0, size.1.min(2.0 * bar.half_along(across))];
        seam.plates = true;
        // each group sits in the middle of its half of the plate
        let half = [size.0 / 4.0, size.1 / 2.0];
        let lie = |reach| Lie { long: [1.0, 0.0], grain: true, reach };
        let lies = [lie([half[0], bar.half_along(across)]), lie(half)];
        let inward = inward(bar, p.at);
        seam.at = bar.at(p.at) + inward * (other.half_along(inward) + half[0]);
        seam.ground = Ground { along: seam.along, at: seam.at, size: seam.face, lies };
        seam.said(c.placing);
        Ok(seam)
    }

    /// The plates of a gusset on the member that runs past, which bear the same: as much of their other half as lies on it.
    pub(crate) fn past(&self, c: &'a Closing, first: &Seam<'a>) -> Option<Found<'a>> {
        let ClosingKind::Gusset { size, .. } = c.kind else { return None };
        let [Spot::Port(one), Spot::Port(two)] = self.all.ties[*first.ties.first()?].spots[..] else {
            return None;
        };
        let (p, q, moved) = if first.moved == Some(0) { (one, two, 1) } else { (two, one, 0) };
        let (bar, other) = (&self.all.bars[p.bar], &self.all.bars[q.bar]);
        let inward = inward(bar, p.at);
        let (stop, way) = (other.half_along(inward), other.way());
        let deep = (size.0 / 2.0).min(2.0 * stop);
        // where it ends there too, it runs past the whole of the other
        let past = |to: f64| if to < AT_JOINT { bar.half_along(way) } else { to };
        let ends = [q.at, other.length() - q.at].map(past);
        let [back, on] = ends.map(|to| to.min(size.1 / 2.0));
        let (long, aside) = (back + on, (on - back) / 2.0);
        let at = other.at(q.at) + inward * (stop - deep / 2.0) + way * aside;
        let own = [way.dot(first.along), way.dot(first.way.cross(first.along))];
        let end = (ends[0] + aside).min(ends[1] - aside);
        let mine = Lie { long: straight(own), grain: true, reach: [end, deep / 2.0] };
        let reach = [size.0 / 2.0 - deep / 2.0, size.1 / 2.0 - aside.abs()];
        let plate = Lie { long: [1.0, 0.0], grain: true, reach };
        let face = [deep, long];
        let mut seam = Seam {
            at,
            face,
            moved: Some(moved),
            past: true,
            pair: [self.piece(other, q.at, first.way), first.pair[1].clone()],
            ground: Ground { along: first.along, at, size: face, lies: [mine, plate] },
            ..first.clone()
        };
        seam.said(c.placing);
        match deep > AT_JOINT && long > AT_JOINT {
            true => Some(Ok(seam)),
            false => Some(Err((first.what, held(&c.fasteners, c.glue.as_deref(), Reason::NoFace)))),
        }
    }
}

/// A direction on the face, exactly along or across where it nearly is.
fn straight([u, v]: [f64; 2]) -> [f64; 2] {
    let size = libm::hypot(u, v).max(1e-9);
    match (u / size, v / size) {
        (u, _) if u.abs() < ASKEW => [0.0, 1.0],
        (_, v) if v.abs() < ASKEW => [1.0, 0.0],
        (u, v) => [u, v],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::Form;
    use crate::hand::bar;

    #[test]
    fn ends_and_ways_at_a_joint() {
        let board = Form::Flat { level: 0.045, upright: 0.045 };
        let b = bar(Vec3::ZERO, Vec3::X * 0.4, Vec3::Z, board);
        assert!(ends_at(&b, 0.0) && ends_at(&b, 0.4) && !ends_at(&b, 0.2));
        assert_eq!((inward(&b, 0.0), inward(&b, 0.4)), (Vec3::X, Vec3::X * -1.0));
        assert_eq!((straight([0.02, -0.9]), straight([0.9, 0.01])), ([0.0, 1.0], [1.0, 0.0]));
        let [u, v] = straight([0.5, 0.5]);
        assert!((u - 0.5_f64.sqrt()).abs() < 1e-12 && (v - u).abs() < 1e-12);
    }
}
