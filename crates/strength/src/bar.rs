//! Bars: everything of the chair that bends as a beam, in ground axes, and where things meet it.

use crate::form::{Drilled, Form};
use crate::remark::Absent;
use crate::sleeve::{fills, play};
use crate::space::nearest_on;
use chairwright_checks::Checked;
use chairwright_design::{BoxBeam, Design, Frame3, Member, MemberId, Shape, StockId, SupportKind, Vec3};
use chairwright_frame::{Frame, Settled};

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
}

/// A slot is looked at in so many places between its ends: between loads the forces along a bar go straight, or bend so
/// little over a slot that these find their peak.
const LOOKED_AT: u8 = 8;

impl Pierced {
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

    /// Places that are looked at beside those where something meets it: lips of sockets and holes.
    pub fn marks(&self) -> Vec<f64> {
        let lips = self.stretches.iter().flat_map(|s| {
            let first = (s.grip[0] > 0.0).then_some(s.from + s.grip[0]);
            first.into_iter().chain((s.grip[1] > 0.0).then_some(s.to - s.grip[1]))
        });
        lips.chain(self.holes.iter().flat_map(|h| h.places())).collect()
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
    let sheath = |s: &chairwright_design::Sleeve| {
        let form = Form::of(&design.stocks[s.stock].shape)?;
        let play = match &s.shim {
            Some(with) if fills(with) => 0.0,
            _ => play(&design.stocks[m.stock], &design.stocks[s.stock]).map_or(0.0, |p| p.high),
        };
        Some(Sheath { from: s.start.min(s.end), to: s.start.max(s.end), stock: s.stock, form, play })
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
        Some(Pierced { at: h.along, drilled: Drilled { way, diameter: h.diameter, long: h.long }, said: true })
    };
    design.holes.iter().filter(|h| h.member == id).filter_map(pierced).collect()
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
