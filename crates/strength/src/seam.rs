//! Where fasteners or glue hold two things together: what lies under the heads and behind, which way the
//! fasteners go, on what face, and what goes through in one run.
//!
//! What cannot be found here is told in words, never left out.

use crate::answer::What;
use crate::bar::{Bar, Of};
use crate::face::{Lie, face};
use crate::judge::Court;
use crate::limit::Unknown;
use crate::piece::Piece;
use crate::reasons::Reason;
use crate::solve::Run;
use crate::structure::{Port, Spot};
use chairwright_design::{Drive, Placing, Shape, Vec3};

/// The face that fasteners have to themselves, as its pieces are cut.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Ground {
    /// The way of their rows.
    pub along: Vec3,
    /// Sizes along and across, m.
    pub size: [f64; 2],
    /// How each piece lies on it.
    pub lies: [Lie; 2],
    /// Its middle.
    pub at: Vec3,
}

/// Who says where the fasteners of a seam sit.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) enum Sits {
    /// Nobody yet; of what no fastener goes through, ever.
    Open,
    /// The text.
    Said,
    /// Taken to sit in the rows that fit in which they bear most.
    Taken,
    /// So many fit nowhere on the face, or nobody knows the face.
    Nowhere(Reason),
}

/// A place where fasteners or glue hold.
#[derive(Clone, Debug)]
pub(crate) struct Seam<'a> {
    pub what: What,
    pub list: &'a [(String, u32)],
    pub glue: Option<&'a str>,
    /// How its fasteners are driven.
    pub drive: Drive,
    /// Where its fasteners sit, and who says it.
    pub placing: Option<Placing>,
    pub sits: Sits,
    /// The room around its fasteners.
    pub ground: Ground,
    /// Ties that it hands through, each with the sign that makes its force that on the first piece.
    pub ties: Vec<usize>,
    pub pair: [Piece; 2],
    /// From the first piece to the second: the way of the fasteners.
    pub way: Vec3,
    /// Middle of the faces.
    pub at: Vec3,
    /// Along the face.
    pub along: Vec3,
    /// Sizes of the face that both share, along and across, m.
    pub face: [f64; 2],
    /// Plates on both faces, each with its half of the fasteners, and half of the fasteners on this member.
    pub plates: bool,
    /// Plates on the member that runs past, which are settled by themselves.
    pub past: bool,
    /// A face that lies on the other under load: friction keeps it from sliding.
    pub lies: bool,
    /// The member whose side the force is told for, where the tie has more places than two.
    pub moved: Option<usize>,
}

/// What goes through a seam: force on the first piece and moment about the middle of the faces, in
/// ground axes, N and N m.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub(crate) struct Wrench {
    pub force: Vec3,
    pub moment: Vec3,
}

/// The places of one seam, each by itself, N.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Places {
    /// How many.
    pub count: f64,
    /// Sum of what pulls the faces apart anywhere.
    pub opens: f64,
    /// The most across the fasteners, and along them, of any one place.
    pub aside: f64,
    pub pull: f64,
    /// Where each is, along the rows from the middle of the face, m, and what pulls it apart, N.
    pub along: Vec<(f64, f64)>,
}

/// A seam, or why there is none.
pub(crate) type Found<'a> = Result<Seam<'a>, (What, Unknown)>;

impl<'a> Court<'a> {
    /// Half of what lies between a bar's middle and its face along a way, m.
    pub(crate) fn half(&self, bar: &Bar, way: Vec3) -> f64 {
        match (bar.of, &self.design.stocks[bar.stock].shape) {
            (Of::Panel(_) | Of::Support(_), Shape::Sheet { thickness }) => thickness / 2.0,
            _ => bar.half_along(way),
        }
    }

    /// The seam of ties between two bars.
    pub(crate) fn between(&self, what: What, ties: Vec<usize>, (p, q): (Port, Port), way: Vec3) -> Seam<'a> {
        let (a, b) = (&self.all.bars[p.bar], &self.all.bars[q.bar]);
        let along = b.way().across(way).unit().unwrap_or_else(|| way.any_across());
        let across = way.cross(along);
        // which of a joint's members stands first in its tie is the order of the text
        let own = |s: &&Spot| s.bar().is_some_and(|bar| self.all.bars[bar].of == a.of);
        let face = |k: &usize| {
            let spots = &self.all.ties[*k].spots;
            self.all.place(*spots.iter().find(own).unwrap_or(&spots[0])) + way * self.half(a, way)
        };
        let faces: Vec<Vec3> = ties.iter().map(face).collect();
        #[allow(clippy::cast_precision_loss)]
        let at = faces.iter().fold(Vec3::ZERO, |s, f| s + *f) * (1.0 / faces.len().max(1) as f64);
        let face = [along, across].map(|e| extent(a, e).min(extent(b, e)));
        let unknown = Lie { long: [1.0, 0.0], grain: false, reach: [f64::INFINITY; 2] };
        Seam {
            what,
            list: &[],
            glue: None,
            drive: Drive::Drilled,
            placing: None,
            sits: Sits::Open,
            ground: Ground { along, at, size: face, lies: [unknown; 2] },
            ties,
            pair: [self.piece(a, p.at, way), self.piece(b, q.at, way)],
            way,
            at,
            along,
            face,
            plates: false,
            past: false,
            lies: false,
            moved: None,
        }
    }

    /// The room that the fasteners of a seam have, their rows along a way; of each bar `ends` says whether it runs on over the
    /// other where it ends at the joint.
    pub(crate) fn lay(
        &self,
        seam: &mut Seam<'a>,
        placing: Option<Placing>,
        (p, q): (Port, Port),
        (rows, ends): (Vec3, [bool; 2]),
    ) {
        let along = rows.across(seam.way).unit().unwrap_or(seam.along);
        let bars = [&self.all.bars[p.bar], &self.all.bars[q.bar]];
        let found = face(self.all, bars, seam.at, [along, seam.way.cross(along)], ends);
        seam.ground = Ground { along, at: found.at, size: found.size, lies: found.lies };
        seam.said(placing);
    }
}

/// How far a bar reaches along a direction of its face, m; a sheet as far as one asks.
fn extent(bar: &Bar, e: Vec3) -> f64 {
    match bar.of {
        Of::Panel(_) | Of::Support(_) => f64::INFINITY,
        _ => 2.0 * bar.half_along(e) + bar.way().dot(e).abs() * bar.length(),
    }
}

impl Seam<'_> {
    /// What the text says of where they sit.
    pub fn said(&mut self, placing: Option<Placing>) {
        if let Some(placing) = placing {
            self.place(placing, Sits::Said);
        }
    }

    /// Puts its fasteners somewhere: about the middle of the face that both pieces share, which what goes through is told
    /// for then.
    pub fn place(&mut self, placing: Placing, sits: Sits) {
        self.placing = Some(placing);
        self.sits = sits;
        (self.along, self.at, self.face) = (self.ground.along, self.ground.at, self.ground.size);
    }

    /// The way of the rows of its fasteners, and across them.
    pub fn axes(&self) -> [Vec3; 2] {
        [self.ground.along, self.way.cross(self.ground.along)]
    }

    /// What goes through in one run; `None` where the run does not tell.
    ///
    /// A tie's force is that on its first place towards the others. Moments are told about the middle
    /// between the two places and are moved to the middle of the faces.
    ///
    /// Beside it stands what pulls the faces apart and what each place is handed by itself.
    pub fn wrench(&self, court: &Court<'_>, run: &Run) -> Option<(Wrench, Places)> {
        let mut sum: Option<Wrench> = None;
        let mut places = Places { count: 0.0, opens: 0.0, aside: 0.0, pull: 0.0, along: Vec::new() };
        for h in run.handed.iter().filter(|h| self.ties.contains(&h.tie)) {
            let spots = &court.all.ties[h.tie].spots;
            let mid = court.all.place(spots[0]).mix(court.all.place(spots[1]), 0.5);
            let sign = if self.moved == Some(1) { -1.0 } else { 1.0 };
            let w = sum.get_or_insert_with(Wrench::default);
            w.force += h.force * sign;
            w.moment += (h.moment + (mid - self.at).cross(h.force)) * sign;
            let pull = (h.force.dot(self.way) * sign).max(0.0);
            places.count += 1.0;
            places.opens += pull;
            places.pull = places.pull.max(pull);
            places.along.push(((mid - self.at).dot(self.along), pull));
            places.aside = places.aside.max(h.force.across(self.way).norm());
        }
        sum.map(|w| (w, places))
    }
}

/// Why what holds something cannot be judged.
pub(crate) fn held(list: &[(String, u32)], glue: Option<&str>, why: Reason) -> Unknown {
    let mut all: Vec<String> = list.iter().map(|(n, c)| format!("{c} x {n}")).collect();
    all.extend(glue.map(str::to_owned));
    Unknown::Held { by: all.join(", "), why }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::Form;
    use crate::hand::bar;
    use crate::limit::Climate;
    use crate::matter::matters;
    use crate::shipped::{PARTS, design};
    use crate::solve::Handed;
    use crate::structure::{Hold, Structure, Tie, TieOf};
    use chairwright_design::{Id, JointId};

    /// A post of 45 by 45 mm lapped on a rail as thick: axes 45 mm apart, the faces halfway, 22.5 mm from each. The tie hands its force
    /// on there, so that 300 N that draw the post off by its middle turn nothing; and of 40 N m in it 40 N m open the faces. Which of
    /// both the text names first is the order in the tie.
    #[test]
    fn a_lap_is_told_about_its_own_faces_in_either_order() {
        let design = design(PARTS);
        let board = Form::Flat { level: 0.045, upright: 0.045 };
        let rail = bar(Vec3::ZERO, Vec3::X * 0.4, Vec3::Z, board);
        let (foot, top) = (Vec3::new(0.2, 0.045, -0.3), Vec3::new(0.2, 0.045, 0.3));
        let post = Bar { of: Of::Member(Id::new(1)), ..bar(foot, top, Vec3::X, board) };
        let (on_rail, on_post) = (Port { bar: 0, at: 0.2 }, Port { bar: 1, at: 0.3 });
        let joint = JointId::new(0);
        for (k, spots) in [[on_post, on_rail], [on_rail, on_post]].into_iter().enumerate() {
            let tie =
                Tie { of: TieOf::Joint(joint), spots: spots.map(Spot::Port).to_vec(), hold: Hold::Fastened };
            let all =
                Structure { bars: vec![rail.clone(), post.clone()], ties: vec![tie], ..Structure::default() };
            let climate = Climate::of(&design, &mut Vec::new());
            let matters = matters(&design, &all, &climate);
            let court = Court::new(&design, &all, &matters, climate);
            let mut seam = court.between(What::Joint(joint), vec![0], (on_post, on_rail), -Vec3::Y);
            seam.moved = Some(k);
            assert!((seam.at - Vec3::new(0.2, 0.0225, 0.0)).norm() < 1e-12, "{k}: {:?}", seam.at);
            let sign = if k == 1 { -1.0 } else { 1.0 };
            let handed = Handed { tie: 0, force: Vec3::Y * (300.0 * sign), moment: Vec3::X * (40.0 * sign) };
            let run = Run { handed: vec![handed], ..Run::default() };
            let (w, _) = seam.wrench(&court, &run).unwrap();
            assert!(
                (w.force - Vec3::Y * 300.0).norm() < 1e-9 && (w.moment - Vec3::X * 40.0).norm() < 1e-9,
                "{w:?}"
            );
        }
    }
}
