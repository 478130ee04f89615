//! What pushes on the structure: the rider through seat, back and footrest.

use crate::structure::{Carries, Deck, Port, Structure};
use chairwright_checks::RiderBody;
use chairwright_design::{Design, SupportKind, Vec3};
use chairwright_frame::Settled;

pub(crate) use chairwright_resistance::shock::GRAVITY as G;

/// Sag of a sling as a share of its width where nobody has measured it: tight webbing, which pulls hardest. Common practice,
/// no source.
pub(crate) const SAG: f64 = 0.02;
/// Sag of a slack sling as a share of its width: no seat is to sag by more after years. Common practice, no source.
pub(crate) const SLACK: f64 = 0.05;
/// Shares of the seat's depth and width that the rider's whole weight covers on a corner. Common practice, no source.
const CORNER: f64 = 0.25;

/// One push.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) enum Push {
    /// A force (N) and a moment (N m) at a place.
    At { port: Port, force: Vec3, moment: Vec3 },
    /// A small force and its moment, handed to the nearest stations of its bar by the lever rule.
    Weight { port: Port, force: Vec3, moment: Vec3 },
    /// A force spread evenly over a stretch of a bar.
    Over { bar: usize, from: f64, to: f64, force: Vec3 },
}

impl Push {
    /// As many times over.
    pub fn times(self, n: f64) -> Push {
        match self {
            Push::At { port, force, moment } => Push::At { port, force: force * n, moment: moment * n },
            Push::Weight { port, force, moment } => Push::Weight { port, force: force * n, moment: moment * n },
            Push::Over { bar, from, to, force } => Push::Over { bar, from, to, force: force * n },
        }
    }

    pub fn force(&self) -> Vec3 {
        match self {
            Push::At { force, .. } | Push::Weight { force, .. } | Push::Over { force, .. } => *force,
        }
    }
}

/// How much lies where on a deck.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Lie {
    /// Middle of the load along the deck, as a share of its length from the rear or lower edge.
    pub along: f64,
    /// How far it is shifted to the left, in m.
    pub aside: f64,
}

impl Deck {
    /// Spreads a force over the deck: along it in a straight line that has its middle where it is
    /// asked for, across it over nine tenths of the width.
    pub fn push(&self, all: &Structure, force: Vec3, lie: Lie) -> Vec<Push> {
        match &self.carries {
            Carries::Nothing => Vec::new(),
            Carries::Sheet { across, .. } => {
                let shares = shares(across.len(), lie.along);
                let half = (0.45 * self.width).min(self.width / 2.0 - lie.aside.abs()).max(0.05 * self.width);
                let middle = self.width / 2.0 + lie.aside;
                let strip = |(bar, share): (&usize, f64)| {
                    let length = all.bars[*bar].length();
                    let (from, to) = ((middle - half).max(0.0), (middle + half).min(length));
                    Push::Over { bar: *bar, from, to, force: force * share }
                };
                across.iter().zip(shares).map(strip).collect()
            }
            Carries::Bands(bands) => {
                let shares = shares(bands.len(), lie.along);
                bands.iter().zip(shares).flat_map(|(pair, s)| self.band(*pair, force * s, lie.aside)).collect()
            }
        }
    }

    /// A band hands half its load to each side and pulls both sides together by T = W·L/(8·sag).
    fn band(&self, (left, right): (Port, Port), force: Vec3, aside: f64) -> [Push; 2] {
        let square = force.dot(self.normal).abs();
        let pull = self.side * (square * self.width / (8.0 * self.sag));
        let lean = (0.5 + aside / self.width).clamp(0.0, 1.0);
        let at = |port: Port, force: Vec3| Push::At { port, force, moment: Vec3::ZERO };
        [at(left, force * lean - pull), at(right, force * (1.0 - lean) + pull)]
    }

    /// A force on the front or upper edge, on two places 0.2 m apart or half the width.
    pub fn edge(&self, all: &Structure, force: Vec3) -> Vec<Push> {
        let Carries::Sheet { across, .. } = &self.carries else {
            return self.push(all, force, Lie { along: 0.9, aside: 0.0 });
        };
        let Some(bar) = across.last().copied() else { return Vec::new() };
        let (middle, off) = (self.width / 2.0, 0.1_f64.min(self.width / 4.0));
        let place = |sign: f64| {
            let at = middle + sign * off;
            let arm = (self.ends.1 - all.bars[bar].at(at)).across(self.side);
            let half = force * 0.5;
            Push::At { port: Port { bar, at }, force: half, moment: arm.cross(half) }
        };
        vec![place(-1.0), place(1.0)]
    }

    /// A force on the left (+1) or right (-1) front corner: on a patch of the foremost strip, or on the foremost band
    /// where it is nearest to that side. With the shares of depth and width that it covers.
    pub fn corner(&self, all: &Structure, force: Vec3, sign: f64) -> (Vec<Push>, (f64, f64)) {
        let middle = sign * (1.0 - CORNER) / 2.0 * self.width;
        #[allow(clippy::cast_precision_loss)]
        let share = |n: usize| 1.0 / n.max(1) as f64;
        match &self.carries {
            Carries::Sheet { across, .. } => {
                let Some(bar) = across.last().copied() else { return (Vec::new(), (0.0, 0.0)) };
                let at = self.width / 2.0 + middle;
                let half = CORNER / 2.0 * self.width;
                let (from, to) = ((at - half).max(0.0), (at + half).min(all.bars[bar].length()));
                (vec![Push::Over { bar, from, to, force }], (share(across.len()), CORNER))
            }
            Carries::Bands(bands) => {
                let on = bands.last().map(|pair| self.band(*pair, force, middle).to_vec());
                (on.unwrap_or_default(), (share(bands.len()), CORNER))
            }
            Carries::Nothing => (Vec::new(), (0.0, 0.0)),
        }
    }

    pub fn is_sling(&self) -> bool {
        matches!(self.carries, Carries::Bands(_))
    }
}

/// Shares of strips of equal breadth under a load that changes in a straight line and has its middle
/// at a share of the length; where that would want pull, the strip carries nothing.
fn shares(n: usize, along: f64) -> Vec<f64> {
    #[allow(clippy::cast_precision_loss)]
    let count = n as f64;
    let off = (along - 0.5).clamp(-1.0 / 3.0, 1.0 / 3.0);
    #[allow(clippy::cast_precision_loss)]
    let raw: Vec<f64> =
        (0..n).map(|k| (1.0 + 12.0 * off * ((k as f64 + 0.5) / count - 0.5)).max(0.0)).collect();
    let sum: f64 = raw.iter().sum();
    raw.into_iter().map(|r| r / sum.max(1e-12)).collect()
}

/// The rider's weight on the chair.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Seated {
    /// Mass that loads are taken for, kg.
    pub mass: f64,
    /// On the seat: weight and where along it.
    pub seat: (f64, f64),
    /// On the foot support.
    pub feet: f64,
    /// Square to the back.
    pub back: f64,
    /// Head, arms and trunk, N.
    pub trunk: f64,
}

pub(crate) fn deck<'s>(design: &Design, all: &'s Structure, kind: SupportKind) -> Option<&'s Deck> {
    all.decks.iter().find(|d| design.supports[d.support].kind == kind && d.carries != Carries::Nothing)
}

/// Shares the rider's weight among seat, back and feet. `mass` may be above the declared one.
pub(crate) fn seated(
    design: &Design,
    all: &Structure,
    settled: &Settled,
    rider: &RiderBody,
    mass: f64,
) -> Seated {
    let scale = mass / rider.mass.max(1e-9) * G;
    let legs = |name: &str| name.ends_with("shank") || name.ends_with("foot");
    let sum = |of: &dyn Fn(&str) -> bool| {
        let part = rider.segments.iter().filter(|s| of(&s.name));
        part.fold((0.0, Vec3::ZERO), |(m, v), s| (m + s.mass, v + settled.pose.place(s.centre) * s.mass))
    };
    let (feet, _) = sum(&legs);
    let (upper, moment) = sum(&|n| !legs(n));
    let (trunk, _) = sum(&|n| !legs(n) && !n.ends_with("thigh"));
    let rest = deck(design, all, SupportKind::Footrest).is_some();
    let seat = deck(design, all, SupportKind::Seat);
    let along = seat.map_or(0.5, |d| {
        let way = d.ends.1 - d.ends.0;
        let middle = moment * (1.0 / upper.max(1e-9));
        ((middle - d.ends.0).dot(way) / way.dot(way)).clamp(0.0, 1.0)
    });
    let back = deck(design, all, SupportKind::Back).map_or(0.0, |d| {
        let way = (d.ends.1 - d.ends.0).unit().unwrap_or(Vec3::Z);
        (trunk * scale * -way.x).max(0.0)
    });
    let total = if rest { upper } else { upper + feet };
    Seated {
        mass,
        seat: (total * scale, along),
        feet: if rest { feet * scale } else { 0.0 },
        back,
        trunk: trunk * scale,
    }
}

/// The rider in the chair, with so much more on the back (N), shifted to the left by so much (m).
pub(crate) fn rider_pushes(
    design: &Design,
    all: &Structure,
    s: &Seated,
    more_back: f64,
    aside: f64,
) -> Vec<Push> {
    let mut out = Vec::new();
    let down = Vec3::Z * -1.0;
    let mut on_seat = down * s.seat.0;
    if let Some(back) = deck(design, all, SupportKind::Back) {
        let force = back.normal * -(s.back + more_back);
        // the rider is in balance: the seat holds him against what the back gives
        on_seat = on_seat - force;
        let lie = Lie { along: if more_back > 0.0 { 0.66 } else { 0.5 }, aside: 0.0 };
        out.extend(back.push(all, force, lie));
    }
    if let Some(seat) = deck(design, all, SupportKind::Seat) {
        out.extend(seat.push(all, on_seat, Lie { along: s.seat.1, aside }));
    }
    if let Some(rest) = deck(design, all, SupportKind::Footrest) {
        out.extend(rest.push(all, down * s.feet, Lie { along: 0.5, aside: 0.0 }));
    }
    out
}
