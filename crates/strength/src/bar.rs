//! Bars: everything of the chair that bends as a beam, in ground axes, and where things meet it.

use crate::form::{Drilled, Form};
use crate::remark::Absent;
use crate::sleeve::{fills, play};
use crate::space::nearest_on;
use crate::structure::TieOf;
use chairwright_checks::Checked;
use chairwright_design::{BoxBeam, Design, Frame3, Member, MemberId, Shape, StockId, SupportKind, Vec3};
use chairwright_frame::{Frame, Settled, covers, goes_into};

/// What a bar is of.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Of {
    /// A member of the design.
    Member(MemberId),
    /// A closed box, counted from zero among the design's.
    Box(usize),
    /// A strip of a seat, back or foot support, counted among the design's supports.
    Support(usize),
    /// An arm of a panel from its middle to where it is held, counted among the design's panels.
    Panel(usize),
}

/// A stretch of a bar where there is material, m from its first joint.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Stretch {
    pub from: f64,
    pub to: f64,
    /// How much of each end is inside a socket.
    pub grip: [f64; 2],
}

/// A second tube over or in a bar.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Sheath {
    pub from: f64,
    pub to: f64,
    pub stock: StockId,
    pub form: Form,
    /// The most play on the diameter that nothing fills, m: it carries only once the bar has bent so far.
    pub play: f64,
}

/// A hole through a bar, or a slot along it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Pierced {
    /// Its middle.
    pub at: f64,
    pub drilled: Drilled,
    /// Whether the text says where it is; else it follows from what is fastened here.
    pub said: bool,
    /// What drills it, where the text does not say it.
    pub of: Option<TieOf>,
    /// Whether it is a row of holes that stand as one slot.
    pub row: bool,
}

/// A slot is looked at in so many places between its ends: between loads the forces along a bar go straight, or bend so
/// little over a slot that these find their peak.
const LOOKED_AT: u8 = 8;

/// Holes of one row with less than so many diameters between their edges stand as one slot. As bolts are spaced: three diameters from middle
/// to middle. Common practice, no source.
const CLEAR: f64 = 2.0;
/// Cosine of the angle up to which two drills go the same way.
pub(crate) const SAME_WAY: f64 = 0.9;

impl Pierced {
    /// One that the text drills.
    pub fn said(at: f64, drilled: Drilled) -> Pierced {
        Pierced { at, drilled, said: true, of: None, row: false }
    }

    /// Both as one slot, where they stand so near to each other along the bar that what is between them is no longer than a post of a
    /// ladder is thick.
    fn joined(&self, next: &Pierced) -> Option<Pierced> {
        let way = self.drilled.way.zip(next.drilled.way);
        let alike = way.is_some_and(|(a, b)| (a[0] * b[0] + a[1] * b[1]).abs() > SAME_WAY);
        let diameter = self.drilled.diameter.max(next.drilled.diameter);
        let (from, to) = (self.at - self.reach(), (next.at + next.reach()).max(self.at + self.reach()));
        let clear = next.at - next.reach() - self.at - self.reach();
        let drilled = Drilled { diameter, long: to - from, ..self.drilled };
        let row = Pierced { at: f64::midpoint(from, to), drilled, row: true, ..*self };
        (alike && clear < CLEAR * diameter).then_some(row)
    }

    /// How far it reaches along the bar from its middle, m.
    pub fn reach(&self) -> f64 {
        self.drilled.long.max(self.drilled.diameter) / 2.0
    }

    /// Whether a place is in it.
    pub fn over(&self, along: f64) -> bool {
        (self.at - along).abs() < self.reach() + 1e-6
    }

    /// Places where what it leaves is looked at: its middle; of a slot both ends too, and between.
    fn places(self) -> impl Iterator<Item = f64> {
        let slot = self.drilled.is_slot();
        let between = move |k: u8| self.at + self.reach() * (2.0 * f64::from(k) / f64::from(LOOKED_AT) - 1.0);
        (0..=LOOKED_AT).filter(move |k| slot || *k == LOOKED_AT / 2).map(between)
    }
}

/// One straight bar.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Bar {
    pub name: String,
    pub of: Of,
    /// Ends of its axis.
    pub ends: (Vec3, Vec3),
    /// Its own z.
    pub up: Vec3,
    pub stock: StockId,
    pub form: Form,
    pub stretches: Vec<Stretch>,
    pub sheaths: Vec<Sheath>,
    pub holes: Vec<Pierced>,
}

impl Bar {
    pub fn length(&self) -> f64 {
        (self.ends.1 - self.ends.0).norm()
    }

    pub fn way(&self) -> Vec3 {
        (self.ends.1 - self.ends.0).unit().unwrap_or(Vec3::X)
    }

    pub fn at(&self, along: f64) -> Vec3 {
        self.ends.0 + self.way() * along
    }

    /// Half its size along a direction.
    pub fn half_along(&self, direction: Vec3) -> f64 {
        let (level, upright) = self.form.half();
        let side = self.up.cross(self.way());
        if self.form.is_round() {
            return level * direction.across(self.way()).norm();
        }
        direction.dot(side).abs() * level + direction.dot(self.up).abs() * upright
    }

    /// How far a point is from its axis, and where along.
    pub fn nearest(&self, p: Vec3) -> (f64, f64) {
        nearest_on(self.ends, p)
    }

    /// Whether a fitting cuts it at this place.
    pub fn cut_at(&self, along: f64) -> bool {
        self.stretches.windows(2).any(|w| w[0].to - 1e-6 <= along && along <= w[1].from + 1e-6)
    }

    /// Whether the bar is out of every socket at a place.
    pub fn free_at(&self, along: f64) -> bool {
        let out = |s: &Stretch| s.from + s.grip[0] - 1e-6 <= along && along <= s.to - s.grip[1] + 1e-6;
        self.stretches.iter().any(out)
    }

    /// How far from its ends a sleeve carries, m: there the bar hands over, over its own width. No length where the end is in a socket,
    /// which presses both together. Common practice, no source.
    fn hands_over(&self, s: &Sheath) -> [f64; 2] {
        let (level, upright) = self.form.half();
        [s.from, s.to].map(|end| if self.free_at(end) { 2.0 * level.max(upright) } else { 0.0 })
    }

    /// How a sleeve helps at a place: where the bar has handed over to it for sure, and where it may have. At its very end the bar is
    /// alone.
    pub fn helped_at(&self, s: &Sheath, along: f64) -> [bool; 2] {
        let [first, last] = self.hands_over(s);
        let free = [first > 0.0, last > 0.0].map(|f| if f { 1e-6 } else { -1e-6 });
        let within = |from: f64, to: f64| s.from + from + free[0] < along && along < s.to - to - free[1];
        [within(first, last), within(0.0, 0.0)]
    }

    /// Places that are looked at beside those where something meets it: lips of sockets, holes, and where it has handed over to a
    /// sleeve.
    pub fn marks(&self) -> Vec<f64> {
        let lips = self.stretches.iter().flat_map(|s| {
            let first = (s.grip[0] > 0.0).then_some(s.from + s.grip[0]);
            first.into_iter().chain((s.grip[1] > 0.0).then_some(s.to - s.grip[1]))
        });
        let handed = self.sheaths.iter().flat_map(|s| {
            let [first, last] = self.hands_over(s);
            [s.from + first, s.to - last].into_iter().filter(|at| (s.from..=s.to).contains(at))
        });
        lips.chain(self.holes.iter().flat_map(|h| h.places())).chain(handed).collect()
    }

    /// Whether a lip of a socket is at a place.
    pub fn lip_at(&self, along: f64) -> bool {
        let near = |s: &Stretch, k: usize, lip: f64| s.grip[k] > 0.0 && (lip - along).abs() < 0.002;
        self.stretches.iter().any(|s| near(s, 0, s.from + s.grip[0]) || near(s, 1, s.to - s.grip[1]))
    }

    /// The holes at a place.
    pub fn holes_at(&self, along: f64) -> impl Iterator<Item = Pierced> {
        self.holes.iter().filter(move |h| h.over(along)).copied()
    }
}

/// Members and boxes of a design as bars on the ground.
pub(crate) fn bars(design: &Design, frame: &Frame, settled: &Settled) -> Vec<Bar> {
    let pose = &settled.pose;
    let members = design.members.iter().filter_map(|(id, m)| member(design, frame, (id, m), pose));
    let boxes = design.boxes.iter().enumerate().filter_map(|(i, b)| closed_box(design, i, b, pose));
    members.chain(boxes).collect()
}

fn member(design: &Design, frame: &Frame, (id, m): (MemberId, &Member), pose: &Frame3) -> Option<Bar> {
    let stock = &design.stocks[m.stock];
    let form = Form::of(&stock.shape)?;
    let (a, b) = (design.joints[m.start].at, design.joints[m.end].at);
    let way = (b - a).unit()?;
    let shift = shift(frame, m, (a, way));
    let level_up = Vec3::Z.across(way).unit().unwrap_or(Vec3::X);
    let (s, c) = libm::sincos(m.turned);
    let up = level_up * c - level_up.cross(way) * s;
    let pieces = frame.pieces.iter().filter(|p| p.of == m.name).filter_map(|p| p.lies);
    let mut stretches: Vec<Stretch> =
        pieces.map(|l| Stretch { from: l.from, to: l.to, grip: l.grip }).collect();
    stretches.sort_by(|x, y| x.from.total_cmp(&y.from));
    if stretches.is_empty() {
        stretches.push(Stretch { from: 0.0, to: (b - a).norm(), grip: [0.0; 2] });
    }
    let free: Vec<[f64; 2]> = stretches.iter().map(|s| [s.from + s.grip[0], s.to - s.grip[1]]).collect();
    let sheath = |s: &chairwright_design::Sleeve| {
        let form = Form::of(&design.stocks[s.stock].shape)?;
        // over a pipe a sleeve stops at the sockets; inside it runs on to the stop
        let inside = goes_into(&design.stocks[m.stock], &design.stocks[s.stock]);
        let whole = [s.start.min(s.end), s.start.max(s.end)];
        let [from, to] = if inside { whole } else { covers(s, (b - a).norm(), &free) };
        let play = match &s.shim {
            Some(with) if fills(with) => 0.0,
            _ => play(&design.stocks[m.stock], &design.stocks[s.stock]).map_or(0.0, |p| p.high),
        };
        Some(Sheath { from, to, stock: s.stock, form, play })
    };
    Some(Bar {
        name: m.name.clone(),
        of: Of::Member(id),
        ends: (pose.place(a + shift), pose.place(b + shift)),
        up: pose.turn(up),
        stock: m.stock,
        form,
        stretches,
        sheaths: m.sleeves.iter().filter_map(sheath).collect(),
        holes: holes(design, id, (way, up)),
    })
}

fn holes(design: &Design, id: MemberId, (way, up): (Vec3, Vec3)) -> Vec<Pierced> {
    let side = up.cross(way);
    let pierced = |h: &chairwright_design::Hole| {
        let across = h.toward.across(way).unit()?;
        let way = Some([across.dot(side), across.dot(up)]);
        Some(Pierced::said(h.along, Drilled { long: h.long, ..Drilled::hole(way, h.diameter) }))
    };
    rows(design.holes.iter().filter(|h| h.member == id).filter_map(pierced).collect())
}

/// Holes of one row that stand as one slot, as that slot.
fn rows(mut holes: Vec<Pierced>) -> Vec<Pierced> {
    holes.sort_by(|a, b| (a.at - a.reach()).total_cmp(&(b.at - b.reach())));
    let mut out: Vec<Pierced> = Vec::new();
    for hole in holes {
        // holes of other ways may stand between
        match out.iter_mut().rev().find_map(|last| Some((last.joined(&hole)?, last))) {
            Some((row, last)) => *last = row,
            None => out.push(hole),
        }
    }
    out
}

/// How far a lap or an offset moves a member off the line of its joints: read from its first piece.
fn shift(frame: &Frame, m: &Member, (start, way): (Vec3, Vec3)) -> Vec3 {
    let piece = frame.pieces.iter().find(|p| p.of == m.name && p.lies.is_some());
    let body = piece.and_then(|p| frame.bodies.iter().find(|b| b.name == p.name));
    match (piece.and_then(|p| p.lies), body) {
        (Some(lies), Some(body)) => {
            let off = (body.centre - (start + way * ((lies.from + lies.to) / 2.0))).across(way);
            if off.norm() < 1e-7 { Vec3::ZERO } else { off }
        }
        _ => m.offset.across(way),
    }
}

fn closed_box(design: &Design, index: usize, b: &BoxBeam, pose: &Frame3) -> Option<Bar> {
    let Shape::Sheet { thickness } = design.stocks[b.stock].shape else { return None };
    let way = (b.end - b.start).unit()?;
    let up = Vec3::Z.across(way).unit().unwrap_or(Vec3::X);
    Some(Bar {
        name: b.name.clone(),
        of: Of::Box(index),
        ends: (pose.place(b.start), pose.place(b.end)),
        up: pose.turn(up),
        stock: b.stock,
        form: Form::Hollow { level: b.width, upright: b.height, wall: thickness },
        stretches: vec![Stretch { from: 0.0, to: (b.end - b.start).norm(), grip: [0.0; 2] }],
        sheaths: Vec::new(),
        holes: Vec::new(),
    })
}

/// Why nothing of a published chair is judged: nobody sits on it, it has no wheels, or nothing of it is a bar.
pub(crate) fn nobody(design: &Design, checked: &Checked) -> Option<Absent> {
    if design.unridden || design.name.is_empty() {
        return None;
    }
    let seat = design.supports.iter().any(|s| s.kind == SupportKind::Seat);
    if checked.settled.is_none() {
        let wheels = design.wheels.is_empty() && design.casters.is_empty();
        return (wheels && seat).then_some(Absent::Wheels);
    }
    if frameless(design) {
        return (seat || !design.panels.is_empty()).then_some(Absent::Frame);
    }
    checked.rider.is_none().then_some(if seat { Absent::Rider } else { Absent::Seat })
}

/// Whether nothing is drawn that could bend as a beam.
fn frameless(design: &Design) -> bool {
    design.members.is_empty() && design.boxes.is_empty()
}

/// The pose, where a rider sits in a whole chair.
pub(crate) fn settled<'c>(design: &Design, checked: &'c Checked) -> Option<&'c Settled> {
    let whole = !(design.unridden || frameless(design));
    checked.rider.as_ref().filter(|_| whole).and(checked.settled.as_ref())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hole(at: f64, way: [f64; 2], diameter: f64) -> Pierced {
        Pierced::said(at, Drilled::hole(Some(way), diameter))
    }

    /// Eight holes of 9 mm every 9 mm from 100 mm on touch: from 95.5 to 167.5 mm they are a slot 72 mm long, about 131.5 mm. Three every 27
    /// mm leave 18 mm, two diameters, between them: three holes. Every 26 mm they are a slot. One that crosses stays a hole.
    #[test]
    fn holes_that_touch_are_a_slot() {
        let [down, level] = [[0.0, 1.0], [1.0, 0.0]];
        let row = |n: u8, every: f64| -> Vec<Pierced> {
            (0..n).map(|k| hole(0.1 + every * f64::from(k), down, 0.009)).collect()
        };
        let touching = rows(row(8, 0.009));
        let [slot] = touching[..] else { panic!("{touching:?}") };
        assert!((slot.at - 0.1315).abs() < 1e-12 && (slot.drilled.long - 0.072).abs() < 1e-12 && slot.row);
        let apart = rows(row(3, 0.02701));
        assert!(apart.len() == 3 && apart.iter().all(|h| !h.row), "{apart:?}");
        assert_eq!(rows(row(3, 0.026)).len(), 1);
        let mut crossed = row(2, 0.02);
        crossed.push(hole(0.11, level, 0.009));
        let crossed = rows(crossed);
        assert!(crossed.len() == 2 && crossed.iter().filter(|h| h.row).count() == 1, "{crossed:?}");
    }
}
