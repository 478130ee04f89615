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
/// How far beside the middle of a deck a load can lie, as a share of its width. Common practice, no source.
const ASIDE: f64 = 0.4;
/// A load lies where it should once its moment is off by less than its force times this, m.
const EXACT: f64 = 1e-9;
/// Steps to get there: of a sheet one is enough, rails of a sling may lie anywhere.
const STEPS: u32 = 16;
/// A couple smaller than this is none, N m.
const NONE: f64 = 1e-4;
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

    /// Where it acts, on the axis of its bar.
    pub fn place(&self, all: &Structure) -> Vec3 {
        match *self {
            Push::At { port, .. } | Push::Weight { port, .. } => all.bars[port.bar].at(port.at),
            Push::Over { bar, from, to, .. } => all.bars[bar].at(f64::midpoint(from, to)),
        }
    }

    /// Its moment about the origin, N m.
    pub fn moment(&self, all: &Structure) -> Vec3 {
        match *self {
            Push::At { port, force, moment } | Push::Weight { port, force, moment } => {
                all.bars[port.bar].at(port.at).cross(force) + moment
            }
            Push::Over { bar, from, to, force } => all.bars[bar].at(f64::midpoint(from, to)).cross(force),
        }
    }
}

/// A direction of the ground as a chair has it whose nose has come up by an angle: down is then also backward.
pub(crate) fn turned(v: Vec3, angle: f64) -> Vec3 {
    let (s, c) = libm::sincos(angle);
    Vec3::new(v.x * c + v.z * s, v.y, v.z * c - v.x * s)
}

/// Moment of pushes about the origin, N m.
pub(crate) fn moment(all: &Structure, pushes: &[Push]) -> Vec3 {
    pushes.iter().fold(Vec3::ZERO, |m, p| m + p.moment(all))
}

/// How much lies where on a deck.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Middle {
    /// Middle of the load along the deck, as a share of its length from the rear or lower edge.
    pub along: f64,
    /// How far it is shifted to the left, in m.
    pub aside: f64,
}

impl Deck {
    /// Spreads a force over the deck: along it in a straight line that has its middle where it is
    /// asked for, across it over nine tenths of the width.
    pub fn push(&self, all: &Structure, force: Vec3, lie: Middle) -> Vec<Push> {
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

    /// How many strips or bands carry it.
    fn places(&self) -> usize {
        match &self.carries {
            Carries::Sheet { across, .. } => across.len(),
            Carries::Bands(bands) => bands.len(),
            Carries::Nothing => 0,
        }
    }

    /// Where the middle of the first strip or band lies, as a share of the length: no load has its middle nearer to an edge.
    fn edge_share(&self) -> f64 {
        #[allow(clippy::cast_precision_loss)]
        let places = self.places().max(1) as f64;
        0.5 / places
    }

    /// Spreads a force so that its moment about the origin is this one about both level axes; what of that moment the
    /// deck cannot take by where the force lies on it comes back, N m.
    pub fn laid(&self, all: &Structure, force: Vec3, wanted: Vec3) -> (Vec<Push>, Vec3) {
        let way = self.ends.1 - self.ends.0;
        // what a shift along and to the side adds to the moment
        let (a, b) = (way.cross(force), self.side.cross(force));
        let det = a.x * b.y - a.y * b.x;
        let edge = self.edge_share();
        let mut lie = Middle { along: 0.5, aside: 0.0 };
        let mut pushes = self.push(all, force, lie);
        for _ in 0..STEPS {
            let lacks = wanted - moment(all, &pushes);
            if det.abs() < 1e-9 || libm::hypot(lacks.x, lacks.y) < EXACT * force.norm() {
                break;
            }
            let along = (lie.along + (lacks.x * b.y - lacks.y * b.x) / det).clamp(edge, 1.0 - edge);
            let most = ASIDE * self.width;
            let aside = (lie.aside + (a.x * lacks.y - a.y * lacks.x) / det).clamp(-most, most);
            let next = Middle { along, aside };
            if next == lie {
                break;
            }
            lie = next;
            pushes = self.push(all, force, lie);
        }
        let lacks = wanted - moment(all, &pushes);
        (pushes, Vec3::new(lacks.x, lacks.y, 0.0))
    }

    /// A moment alone, on the strip or band in its middle.
    pub fn couple(&self, all: &Structure, moment: Vec3) -> Vec<Push> {
        let at = |port: Port, share: f64| Push::At { port, force: Vec3::ZERO, moment: moment * share };
        match &self.carries {
            Carries::Sheet { across, .. } => across
                .get(across.len() / 2)
                .map(|bar| at(Port { bar: *bar, at: all.bars[*bar].length() / 2.0 }, 1.0))
                .into_iter()
                .collect(),
            Carries::Bands(bands) => bands
                .get(bands.len() / 2)
                .map(|(left, right)| vec![at(*left, 0.5), at(*right, 0.5)])
                .unwrap_or_default(),
            Carries::Nothing => Vec::new(),
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
            return self.push(all, force, Middle { along: 0.9, aside: 0.0 });
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

/// Shares of strips of equal breadth under a load that changes in a straight line and has its middle at a share of the
/// length, exactly; where that would want pull, the far strips carry nothing.
fn shares(n: usize, along: f64) -> Vec<f64> {
    #[allow(clippy::cast_precision_loss)]
    let f = |k: usize| k as f64;
    if n < 2 {
        return vec![1.0; n];
    }
    // in strips from the middle of the first
    let middle = (along * f(n) - 0.5).clamp(0.0, f(n - 1));
    let late = middle > f(n - 1) / 2.0;
    // from the end that carries more
    let near = if late { f(n - 1) - middle } else { middle };
    // of m strips the middle lies no nearer than (m - 2)/3 to the end where the last of them carries nothing
    let m = (2..=n).rev().find(|m| near >= f(m - 2) / 3.0 - 1e-12).unwrap_or(2);
    let slope = 12.0 * (f(m - 1) / 2.0 - near) / (f(m) * f(m) - 1.0);
    let one = |k: usize| {
        let k = if late { n - 1 - k } else { k };
        if k < m { ((1.0 - slope * (f(k) - f(m - 1) / 2.0)) / f(m)).max(0.0) } else { 0.0 }
    };
    (0..n).map(one).collect()
}

/// The rider's weight on the chair.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Seated {
    /// Mass that loads are taken for, kg.
    pub mass: f64,
    /// All of the weight, N, and its centre on the ground's axes.
    pub whole: (f64, Vec3),
    /// Shanks and feet, where there is a foot support: weight, N, and centre.
    pub feet: (f64, Vec3),
    /// Head, arms and trunk: weight, N, and centre.
    pub trunk: (f64, Vec3),
}

impl Seated {
    /// What is left for seat and back, N.
    pub fn upper(&self) -> f64 {
        self.whole.0 - self.feet.0
    }
}

pub(crate) fn deck<'s>(design: &Design, all: &'s Structure, kind: SupportKind) -> Option<&'s Deck> {
    all.decks.iter().find(|d| design.supports[d.support].kind == kind && d.carries != Carries::Nothing)
}

/// The rider's weight and that of the parts which rest on foot support and back. `mass` may be above the declared one.
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
        let (m, v) =
            part.fold((0.0, Vec3::ZERO), |(m, v), s| (m + s.mass, v + settled.pose.place(s.centre) * s.mass));
        (m * scale, v * (1.0 / m.max(1e-9)))
    };
    let rest = deck(design, all, SupportKind::Footrest).is_some();
    Seated {
        mass,
        whole: sum(&|_| true),
        feet: if rest { sum(&legs) } else { (0.0, Vec3::ZERO) },
        trunk: sum(&|n| !legs(n) && !n.ends_with("thigh")),
    }
}

/// The rider in the chair, in balance: what foot support, back and seat carry of the weight, which acts along `down`, has the
/// moment of that weight at its centre. Shanks and feet rest on the foot support below their own centre, the trunk presses on
/// the back with what of its weight is square to it, the seat carries all else, where the moment wants it. Leaning to the left
/// by so much, m, shifts what is on the seat.
pub(crate) fn rider_pushes(design: &Design, all: &Structure, s: &Seated, down: Vec3, lean: f64) -> Vec<Push> {
    let [seat, back, rest] =
        [SupportKind::Seat, SupportKind::Back, SupportKind::Footrest].map(|k| deck(design, all, k));
    let side = seat.map_or(Vec3::Y, |d| d.side);
    let whole = down * s.whole.0;
    let centre = s.whole.1 + side * (lean * s.upper() / s.whole.0.max(1e-9));
    let mut feet = s.feet.0;
    let mut pressed = back.map_or(0.0, |b| s.trunk.0 * (-down.dot(b.normal)).max(0.0));
    let mut found = Vec::new();
    for step in 1..=STEPS {
        let on_feet = rest.map_or(Vec::new(), |d| d.laid(all, down * feet, s.feet.1.cross(down * feet)).0);
        let on_back = back.map_or(Vec::new(), |d| {
            let beside = (s.trunk.1 - d.ends.0).dot(d.side).clamp(-ASIDE * d.width, ASIDE * d.width);
            d.push(all, d.normal * -pressed, Middle { along: 0.5, aside: beside })
        });
        let foot = moment(all, &on_feet).y / feet.max(NONE);
        found = [on_feet, on_back].concat();
        let Some(seat) = seat else { break };
        let sum = found.iter().fold(Vec3::ZERO, |f, p| f + p.force());
        let wanted = centre.cross(whole) - moment(all, &found);
        let (on_seat, lacks) = seat.laid(all, whole - sum, wanted);
        found.extend(on_seat);
        if libm::hypot(lacks.x, lacks.y) < NONE {
            break;
        }
        // beyond the seat's front edge the feet carry more, beyond its rear edge the back
        let [rear, front] =
            [seat.edge_share(), 1.0 - seat.edge_share()].map(|s| seat.ends.0.mix(seat.ends.1, s));
        let by = match (lacks.y > NONE, lacks.y < -NONE) {
            (true, _) => (feet > NONE).then_some(foot - front.cross(down).y),
            (_, true) => back.map(|d| (rear - d.ends.0.mix(d.ends.1, 0.5)).cross(d.normal).y),
            _ => None,
        };
        match by.map(|by| lacks.y / by).filter(|more| *more > 1e-6 && step < STEPS) {
            Some(more) if lacks.y > 0.0 => feet = (feet + more).min(s.whole.0),
            Some(more) => pressed += more,
            None => {
                found.extend(seat.couple(all, lacks));
                break;
            }
        }
    }
    found
}

/// The trunk thrown against the back with so much, N, more: the seat holds the rider against it.
pub(crate) fn thrown(design: &Design, all: &Structure, more: f64) -> Vec<Push> {
    let Some(back) = deck(design, all, SupportKind::Back) else { return Vec::new() };
    let force = back.normal * -more;
    let mut out = back.push(all, force, Middle { along: 0.66, aside: 0.0 });
    if let Some(seat) = deck(design, all, SupportKind::Seat) {
        out.extend(seat.push(all, -force, Middle { along: 0.5, aside: 0.0 }));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::Form;
    use crate::hand::bar;
    use chairwright_design::{Origin, StockId, Support};

    /// A design with these supports; where they are is told by the decks.
    fn with_supports(kinds: &[SupportKind]) -> Design {
        let support = |kind: &SupportKind| Support {
            kind: *kind,
            name: kind.word().into(),
            stock: StockId::new(0),
            from: Vec3::ZERO,
            to: Vec3::X,
            width: 0.4,
            bands: 1,
            sag: None,
            cushion: None,
            origin: Origin(0),
        };
        Design { supports: kinds.iter().map(support).collect(), ..Design::default() }
    }

    /// Four strips: middle shares of a quarter each; a load two strips ahead of the first's middle, on its edge, is all on the first. At 0.6 of the
    /// length, 0.4 strips past the middle: slope 12 · 0.4/15 = 0.32 a strip of an even quarter each, so (0.52, 0.84, 1.16,
    /// 1.48)/4. At 5/6, 1.333 strips past it, three strips carry: 0.833 past the middle of the last three is more than 2/3, so two do:
    /// 1.333 - 1 = 0.333 past theirs, 0.5 ∓ 0.333.
    #[test]
    fn shares_have_their_middle_where_it_is_asked_for() {
        let near = |a: &[f64], b: &[f64]| a.iter().zip(b).all(|(x, y)| (x - y).abs() < 1e-9);
        assert!(near(&shares(4, 0.5), &[0.25; 4]));
        assert!(near(&shares(4, 0.0), &[1.0, 0.0, 0.0, 0.0]));
        assert!(near(&shares(4, 0.6), &[0.13, 0.21, 0.29, 0.37]), "{:?}", shares(4, 0.6));
        let late = shares(4, 5.0 / 6.0);
        assert!(near(&late, &[0.0, 0.0, 1.0 / 6.0, 5.0 / 6.0]), "{late:?}");
        for n in 1..9_usize {
            for k in 0..=40_u32 {
                let along = f64::from(k) / 40.0;
                let found = shares(n, along);
                #[allow(clippy::cast_precision_loss)]
                let (f, most) = (|k: usize| (k as f64 + 0.5) / n as f64, 1.0 - 0.5 / n as f64);
                let middle: f64 = found.iter().enumerate().map(|(k, s)| s * f(k)).sum();
                assert!((middle - along.clamp(1.0 - most, most)).abs() < 1e-9, "{n} {along} {found:?}");
                assert!(found.iter().all(|s| *s >= 0.0));
            }
        }
    }

    fn tilted(support: usize, from: Vec3, to: Vec3, normal: Vec3, width: f64, all: &mut Structure) {
        let first = all.bars.len();
        for k in 0..4 {
            let at = from.mix(to, (f64::from(k) + 0.5) / 4.0);
            let half = Vec3::Y * (width / 2.0);
            all.bars.push(bar(at - half, at + half, normal, Form::Flat { level: 0.1, upright: 0.012 }));
        }
        let across = (first..first + 4).collect();
        let carries = Carries::Sheet { across, on: Vec::new() };
        all.decks.push(Deck { support, ends: (from, to), side: Vec3::Y, normal, width, sag: 0.0, carries });
    }

    /// A seat tilted back by 60 mm in 420, a back leaned back by a fifth, a foot support, and a rider of 600 N whose centre of mass lies 0.20 m
    /// ahead of the seat's rear edge, 0.22 m above it and 30 mm to the left: whatever each of the three carries, together they
    /// hand on 600 N down and their moments about the origin, 0.03 · -600 = -18 N m about the length and 0.20 · 600 = 120 N m
    /// about the width. Nothing of it hangs on how high the centre of mass lies, as long as the weight acts straight down.
    #[test]
    fn the_rider_is_in_balance_on_a_tilted_seat() {
        let mut all = Structure::default();
        let seat = (Vec3::Z * 0.44, Vec3::new(0.42, 0.0, 0.50));
        let along = (seat.1 - seat.0).unit().unwrap();
        tilted(0, seat.0, seat.1, along.cross(Vec3::Y), 0.4, &mut all);
        let back = (Vec3::new(-0.02, 0.0, 0.5), Vec3::new(-0.10, 0.0, 0.9));
        let up = (back.1 - back.0).unit().unwrap();
        tilted(1, back.0, back.1, -up.cross(Vec3::Y), 0.4, &mut all);
        tilted(2, Vec3::new(0.5, 0.0, 0.1), Vec3::new(0.65, 0.0, 0.1), Vec3::Z, 0.3, &mut all);
        let design = with_supports(&[SupportKind::Seat, SupportKind::Back, SupportKind::Footrest]);
        for height in [0.5, 0.66, 0.9] {
            let rider = Seated {
                mass: 61.2,
                whole: (600.0, Vec3::new(0.20, 0.03, height)),
                feet: (70.0, Vec3::new(0.52, 0.02, 0.25)),
                trunk: (400.0, Vec3::new(0.08, 0.03, 0.75)),
            };
            let pushes = rider_pushes(&design, &all, &rider, Vec3::Z * -1.0, 0.0);
            let force = pushes.iter().fold(Vec3::ZERO, |f, p| f + p.force());
            assert!((force - Vec3::Z * -600.0).norm() < 1e-6, "{force:?}");
            let m = moment(&all, &pushes);
            assert!((m.x + 18.0).abs() < 1e-3 && (m.y - 120.0).abs() < 1e-3, "{m:?}");
        }
    }

    /// A centre of mass ahead of the seat's front edge is held by the feet: with 0.40 m on a seat of 0.42 m whose foremost strip has its middle at
    /// 0.3675 m, the moment is still that of the weight, 600 · 0.40 = 240 N m.
    #[test]
    fn what_lies_ahead_of_the_seat_is_on_the_feet() {
        let mut all = Structure::default();
        tilted(0, Vec3::Z * 0.45, Vec3::new(0.42, 0.0, 0.45), Vec3::Z, 0.4, &mut all);
        tilted(1, Vec3::new(0.5, 0.0, 0.1), Vec3::new(0.65, 0.0, 0.1), Vec3::Z, 0.3, &mut all);
        let design = with_supports(&[SupportKind::Seat, SupportKind::Footrest]);
        let rider = Seated {
            mass: 61.2,
            whole: (600.0, Vec3::new(0.40, 0.0, 0.7)),
            feet: (70.0, Vec3::new(0.55, 0.0, 0.25)),
            trunk: (400.0, Vec3::new(0.38, 0.0, 0.75)),
        };
        let pushes = rider_pushes(&design, &all, &rider, Vec3::Z * -1.0, 0.0);
        let m = moment(&all, &pushes);
        assert!((m.y - 240.0).abs() < 1e-3, "{m:?}");
        let feet = pushes.iter().filter(|p| matches!(p, Push::Over { bar, .. } if *bar >= 4));
        // on the seat 600 - F at 0.3675 m, on the feet F at 0.55 m: F = 600 · 0.0325/0.1825 = 106.8 N
        let feet: f64 = feet.map(|p| -p.force().z).sum();
        assert!((feet - 106.8).abs() < 0.1, "{feet}");
        assert!(pushes.iter().all(|p| matches!(p, Push::Over { .. })), "no couple is left");
    }
}
