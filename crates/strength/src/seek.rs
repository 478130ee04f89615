//! Finding the seams: every fastening, and every lap, butt and gusset, or the reason why it is none.

use crate::answer::What;
use crate::bar::{Bar, Of};
use crate::judge::Court;
use crate::plates::ends_at;
use crate::reasons::Reason;
use crate::seam::{Found, held};
use crate::structure::{Hold, Spot, Tie, TieOf};
use crate::ties::{TOUCH, facing};
use chairwright_design::{Closing, ClosingKind, Vec3};

/// Places that the solver holds apart no more than this coincide, m: then no direction can be read off them.
const SAME: f64 = 0.002;

impl<'a> Court<'a> {
    /// Every fastening, and every lap, butt and gusset, that ties hand something through.
    pub(crate) fn find_seams(&self) -> Vec<Found<'a>> {
        let mut out: Vec<Found<'a>> = Vec::new();
        for index in 0..self.design.fastenings.len() {
            out.extend(self.fastening(index));
        }
        for c in &self.design.closings {
            let first = self.closing(c);
            let second = first.as_ref().and_then(|f| self.past(c, f.as_ref().ok()?));
            out.extend(first.into_iter().chain(second));
        }
        out
    }

    fn fastening(&self, index: usize) -> Option<Found<'a>> {
        let f = &self.design.fastenings[index];
        let what = What::Tie(TieOf::Fastening(index));
        let no = |why: Reason| Some(Err((what, held(&f.fasteners, None, why))));
        let named = |s: &Spot, name: &str| matches!(s, Spot::Port(p) if self.all.bars[p.bar].name == name);
        let support = |k: usize| {
            let name = self.design.supports[k].name.as_str();
            [(f.what.as_str(), f.to.as_str()), (f.to.as_str(), f.what.as_str())]
                .into_iter()
                .find(|(a, _)| *a == name)
                .map(|(_, b)| b)
        };
        let mine = |t: &Tie| match t.of {
            TieOf::Fastening(k) => k == index,
            TieOf::Bearing(k) => support(k).is_some_and(|other| named(&t.spots[1], other)),
            _ => false,
        };
        let ties: Vec<usize> = (0..self.all.ties.len()).filter(|k| mine(&self.all.ties[*k])).collect();
        let first = &self.all.ties[*ties.first()?];
        let bearing = matches!(first.of, TieOf::Bearing(_));
        if bearing && first.hold == Hold::Rigid {
            return no(Reason::OneBar);
        }
        let ports = ties.iter().find_map(|k| match self.all.ties[*k].spots[..] {
            [Spot::Port(p), Spot::Port(q)] => Some((p, q)),
            _ => None,
        });
        let Some((p, q)) = ports else {
            return no(Reason::MiddleOnly);
        };
        let (a, b) = (&self.all.bars[p.bar], &self.all.bars[q.bar]);
        let gap = b.at(q.at) - a.at(p.at);
        let normal = match a.of {
            Of::Panel(_) => Some(a.up.cross(a.way())),
            Of::Support(_) => Some(a.up),
            _ => None,
        };
        let signed = |n: Vec3| if n.dot(gap) < 0.0 { -n } else { n };
        let way = match normal {
            Some(n) => signed(n),
            None if gap.norm() < SAME => {
                return no(Reason::AxesCross);
            }
            None => facing((a, b), gap)?,
        };
        let free = gap.dot(way).abs() - self.half(a, way) - b.half_along(way);
        if free > TOUCH {
            return no(Reason::Air(free.into()));
        }
        let edgewise = normal.is_some() && !bearing && b.way().dot(way).abs() < 0.7;
        if edgewise && gap.dot(way).abs() < 0.5 * self.half(a, way).max(SAME) {
            return no(Reason::EdgeToEdge);
        }
        let mut seam = self.between(what, ties, (p, q), way);
        seam.list = &f.fasteners;
        seam.drive = f.drive;
        seam.lies = bearing;
        // rows run along what something is fastened to, and along the bar where that is a sheet
        let sheet = |bar: &Bar| matches!(bar.of, Of::Panel(_) | Of::Support(_));
        let rows = if a.name == f.to && !sheet(a) { a.way() } else { b.way() };
        self.lay(&mut seam, f.placing, (p, q), (rows, [false; 2]));
        Some(Ok(seam))
    }

    fn closing(&self, c: &'a Closing) -> Option<Found<'a>> {
        use ClosingKind as K;
        let moved = match &c.kind {
            K::Lap(lap) => lap.member,
            K::Butt { member, .. } | K::Gusset { member, .. } => *member,
            K::Fitting(_) | K::Free(_) => return None,
        };
        let index = self.all.ties.iter().position(|t| t.of == TieOf::Joint(c.joint))?;
        let tie = &self.all.ties[index];
        let what = What::Joint(c.joint);
        let no = |why: Reason| Some(Err((what, held(&c.fasteners, c.glue.as_deref(), why))));
        if tie.spots.len() > 2 {
            return no(Reason::Crowd);
        }
        let port = |mine: bool| {
            tie.spots.iter().enumerate().find_map(|(k, s)| match s {
                Spot::Port(p) if (self.all.bars[p.bar].of == Of::Member(moved)) == mine => Some((k, *p)),
                _ => None,
            })
        };
        let (Some((k, p)), Some((_, q))) = (port(true), port(false)) else {
            return no(Reason::NotInFrame);
        };
        let (bar, other) = (&self.all.bars[p.bar], &self.all.bars[q.bar]);
        if matches!(c.kind, K::Butt { .. } | K::Gusset { .. }) && !ends_at(bar, p.at) {
            return no(Reason::RunsPast(bar.name.clone()));
        }
        let gap = other.at(q.at) - bar.at(p.at);
        let crossed = bar.way().cross(other.way()).unit();
        let way = match &c.kind {
            // screws of a butt go through the one that runs past, along the one that stops
            K::Butt { .. } if p.at < bar.length() / 2.0 => Some(-bar.way()),
            K::Butt { .. } => Some(bar.way()),
            K::Gusset { .. } => crossed,
            _ if gap.norm() < SAME => crossed,
            _ => facing((bar, other), gap),
        };
        let Some(way) = way else {
            return no(Reason::InLine);
        };
        let mut seam = self.between(what, vec![index], (p, q), way);
        seam.list = &c.fasteners;
        seam.drive = c.drive;
        seam.glue = c.glue.as_deref();
        seam.moved = Some(k);
        if let K::Lap(_) = c.kind {
            self.lay(&mut seam, c.placing, (p, q), (bar.way(), [true; 2]));
        }
        if let K::Butt { .. } = c.kind {
            // the end of the one that stops lies on the face of the other
            seam.at = other.at(q.at) - way * other.half_along(way);
            // which runs past it where it ends there
            self.lay(&mut seam, c.placing, (p, q), (other.way(), [false, true]));
        }
        if let K::Gusset { .. } = &c.kind {
            return match self.plated(seam, c, (p, other)) {
                Ok(seam) => Some(Ok(seam)),
                Err(why) => no(why),
            };
        }
        Some(Ok(seam))
    }
}
