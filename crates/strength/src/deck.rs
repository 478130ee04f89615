//! Seat, back and foot support: what carries each, and how it hands its load on.
//!
//! A sheet is a grid of strips, each as wide as its share of the sheet, rigidly crossed, that lies
//! on every bar whose face meets its underside. A sling is bands between the bars at its two edges.

use crate::bar::{Bar, Of, Stretch};
use crate::form::Form;
use crate::load::SAG;
use crate::remark::{Open, Taken};
use crate::slip::{Held, Slip};
use crate::space::nearest_between;
use crate::structure::{Carries, Deck, Hold, Loose, Port, Spot, Structure, Tie, TieOf};
use crate::ties::{TOUCH, reach, thick};
use chairwright_design::{Design, Shape, StockId, Support, SupportKind, Vec3};
use chairwright_frame::Settled;

/// Strips across and along a sheet.
const ACROSS: u32 = 4;
const ALONG: u32 = 3;
/// Gap between a sheet and a bar's face within which it may be meant to lie on it, m.
const LIES: f64 = 0.015;
/// Bars that carry a sheet without another.
const ENOUGH: usize = 2;
/// How far from the edge of a sling its rail may lie.
const RAIL: f64 = 0.06;

pub(crate) fn decks(design: &Design, settled: &Settled, all: &mut Structure) {
    for (index, support) in design.supports.iter().enumerate() {
        let (from, to) = (settled.pose.place(support.from), settled.pose.place(support.to));
        let side = settled.pose.turn(Vec3::Y);
        let Some(along) = (to - from).unit() else {
            all.loose.push(Loose::Support(index));
            continue;
        };
        let normal = along.cross(side).unit().unwrap_or(Vec3::Z);
        let normal = if support.kind == SupportKind::Back { -normal } else { normal };
        let mut deck = Deck {
            support: index,
            ends: (from, to),
            side,
            normal,
            width: support.width,
            sag: sag(support),
            carries: Carries::Nothing,
        };
        deck.carries = match design.stocks[support.stock].shape {
            Shape::Webbing { .. } => bands(support, &deck, all),
            Shape::Sheet { thickness } | Shape::Board { thickness, .. } => {
                sheet(design, support, &deck, thickness, all)
            }
            _ => Carries::Nothing,
        };
        if deck.carries == Carries::Nothing {
            all.loose.push(Loose::Support(index));
        } else if support.kind != SupportKind::Arm && all.decks.iter().any(|d| of_kind(design, d, support.kind))
        {
            // the rider is put on the first of a kind alone
            all.open.push(Open::Unloaded(index));
        }
        all.decks.push(deck);
    }
}

/// How far a sling hangs through, m: as the text says, else as tight ones do.
fn sag(support: &Support) -> f64 {
    support.sag.unwrap_or(SAG * support.width)
}

fn of_kind(design: &Design, deck: &Deck, kind: SupportKind) -> bool {
    design.supports[deck.support].kind == kind && deck.carries != Carries::Nothing
}

/// The bar that runs beside an edge of a sling, near its plane.
fn rail(deck: &Deck, at: Vec3, sign: f64, all: &Structure) -> Option<Port> {
    let edge = at + deck.side * (sign * deck.width / 2.0);
    let mut best: Option<(f64, Port)> = None;
    for (bar, b) in all.frame_bars() {
        if b.way().dot(deck.side).abs() > 0.7 {
            continue;
        }
        let (along, gap) = b.nearest(edge);
        let (level, upright) = b.form.half();
        if gap < RAIL + level.max(upright) && best.is_none_or(|(g, _)| gap < g - 1e-6) {
            best = Some((gap, Port { bar, at: along }));
        }
    }
    best.map(|(_, p)| p)
}

fn bands(support: &Support, deck: &Deck, all: &mut Structure) -> Carries {
    let n = f64::from(support.bands.max(1));
    let pair = |i: u32| {
        let at = deck.ends.0.mix(deck.ends.1, (f64::from(i) + 0.5) / n);
        Some((rail(deck, at, 1.0, all)?, rail(deck, at, -1.0, all)?))
    };
    let pairs: Vec<(Port, Port)> = (0..support.bands.max(1)).filter_map(pair).collect();
    let of = support.bands.max(1) as usize;
    if pairs.is_empty() {
        return Carries::Nothing;
    }
    if pairs.len() < of {
        all.loose.push(Loose::Bands { support: deck.support, missing: of - pairs.len(), of });
    }
    Carries::Bands(pairs)
}

/// A bar that a sheet lies on: which, and over what stretch of it.
struct Under {
    bar: usize,
    from: f64,
    to: f64,
    /// How many fasteners hold it there, and what they resist sliding with.
    fastened: Option<(u32, Slip)>,
    /// The least gap between their faces.
    gap: f64,
}

fn under(design: &Design, support: &Support, deck: &Deck, thickness: f64, all: &Structure) -> Vec<Under> {
    let along = (deck.ends.1 - deck.ends.0).unit().unwrap_or(Vec3::X);
    let depth = (deck.ends.1 - deck.ends.0).norm();
    let mut out = Vec::new();
    for (bar, b) in all.frame_bars() {
        // a post beside a sheet carries it only where the text fastens it
        if b.way().dot(deck.normal).abs() > 0.7 {
            continue;
        }
        let deep = (thickness, thick(b, deck.normal));
        let held = fastened(design, (&support.name, support.stock), (&b.name, b.stock), deep);
        let half = b.half_along(deck.normal);
        let slack = b.form.half().0.max(b.form.half().1);
        let room = held.map_or(LIES, |h| h.2);
        const STEPS: u32 = 80;
        let lies = |k: u32| {
            let s = b.length() * f64::from(k) / f64::from(STEPS);
            let v = b.at(s) - deck.ends.0;
            let (u, w) = (v.dot(along), v.dot(deck.side));
            // a sheet may be drawn into the bar, down to its axis
            let gap = -v.dot(deck.normal) - thickness - half;
            let inside = (-slack..=depth + slack).contains(&u) && w.abs() <= deck.width / 2.0 + slack;
            // what is bolted on may hang below the bars as well
            let hung = v.dot(deck.normal) - half;
            let near = |gap: f64| (inside && gap <= room && gap > -half - thickness).then_some((s, gap));
            near(gap).or_else(|| near(hung).filter(|_| held.is_some()))
        };
        let places: Vec<(f64, f64)> = (0..=STEPS).filter_map(lies).collect();
        if let (Some((from, _)), Some((to, _))) = (places.first().copied(), places.last().copied())
            && to - from > 0.02
        {
            let gap = places.iter().map(|p| p.1).fold(f64::INFINITY, f64::min);
            out.push(Under { bar, from, to, fastened: held.map(|h| (h.0, h.1)), gap });
        }
    }
    out
}

/// How many fasteners hold two named things together, what they resist sliding with, and how wide a gap they bridge.
fn fastened(
    design: &Design,
    (a, one): (&str, StockId),
    (b, other): (&str, StockId),
    deep: (f64, f64),
) -> Option<(u32, Slip, f64)> {
    let of = |f: &&chairwright_design::Fastening| (f.what == a && f.to == b) || (f.what == b && f.to == a);
    let mine = || design.fastenings.iter().filter(of);
    let sum: u32 = mine().map(|f| crate::ties::fixing(design, &f.fasteners)).sum();
    let wide = mine().map(|f| reach(design, &f.fasteners, deep)).fold(TOUCH, f64::max);
    let slips = mine().map(|f| crate::slip::of(design, &f.fasteners, (one, other)));
    let slip = slips.fold(Slip::default(), Slip::plus);
    (sum > 0).then_some((sum, slip, wide))
}

/// The bars that a sheet lies on. One a little away carries nothing where others touch; where they do not carry it without that one,
/// nobody can tell.
fn touched(deck: &Deck, under: Vec<Under>, all: &mut Structure) -> Vec<Under> {
    let touches = |u: &Under| u.fastened.is_some() || u.gap <= TOUCH;
    let enough = under.iter().filter(|u| touches(u)).count() >= ENOUGH;
    for u in under.iter().filter(|u| !touches(u)) {
        let (support, bar, gap) = (deck.support, all.bars[u.bar].name.clone(), u.gap);
        if enough {
            all.taken.push(Taken::Misses { support, bar, gap });
        } else {
            all.open.push(Open::Above { support, bar, gap });
        }
    }
    if enough { under.into_iter().filter(touches).collect() } else { under }
}

fn sheet(design: &Design, support: &Support, deck: &Deck, thickness: f64, all: &mut Structure) -> Carries {
    let under = touched(deck, under(design, support, deck, thickness, all), all);
    if under.is_empty() {
        return Carries::Nothing;
    }
    let strips = Grid::new(support, deck, thickness).strips(deck.support, support.stock, all);
    let mut feet: Vec<(usize, Vec3)> = Vec::new();
    let found: Vec<_> = under.iter().map(|u| (u, crossings(&strips, u, deck, all))).collect();
    let each = |u: &Under, places: usize| u.fastened.map(|(_, slip)| slip.times(shared(places)));
    let held: Vec<Held> = found
        .iter()
        .filter_map(|(u, spots)| Some((spots, each(u, spots.len())?)))
        .flat_map(|(spots, slip)| spots.iter().map(move |s| (s.1, slip)))
        .map(|(on, slip)| (all.place(on), slip))
        .collect();
    let along = (deck.ends.1 - deck.ends.0).unit().unwrap_or(Vec3::X);
    let shear = crate::slip::sheet(
        design,
        support.stock,
        thickness,
        support.width * (deck.ends.1 - deck.ends.0).norm(),
    );
    let left = crate::slip::share(&held, (along, deck.side), shear);
    for (u, spots) in found {
        let grip = each(u, spots.len()).map(|s| s.times(left));
        for (strip, on) in spots {
            feet.push((u.bar, all.place(on)));
            all.ties.push(Tie {
                of: TieOf::Bearing(deck.support),
                spots: vec![strip, on],
                hold: Hold::Bearing { normal: deck.normal, grip },
            });
        }
    }
    one_line(deck, &under, &feet, all);
    Carries::Sheet { across: strips.across, on: under.iter().map(|u| u.bar).collect() }
}

/// The share of its fasteners that each of so many places has.
fn shared(places: usize) -> f64 {
    #[allow(clippy::cast_precision_loss)]
    let places = places.max(1) as f64;
    1.0 / places
}

/// Where the strips of a sheet cross a bar that it lies on: on the strip, and on the bar.
fn crossings(strips: &Strips, under: &Under, deck: &Deck, all: &Structure) -> Vec<(Spot, Spot)> {
    let bar = &all.bars[under.bar];
    let (level, upright) = bar.form.half();
    let one = |strip: &usize| {
        let over = &all.bars[*strip];
        let (s, t, gap) = nearest_between(over.ends, bar.ends);
        let aside = (over.at(s) - bar.at(t)).across(deck.normal).norm();
        let crosses = over.way().dot(bar.way()).abs() < 0.9;
        let within = t >= under.from - 0.02 && t <= under.to + 0.02;
        let meets = crosses && within && aside <= level.max(upright) + 0.005 && gap <= 0.2;
        let spot = |bar, at| Spot::Port(Port { bar, at });
        meets.then(|| (spot(*strip, s), spot(under.bar, t)))
    };
    strips.across.iter().chain(&strips.along).filter_map(one).collect()
}

/// A sheet that lies on one line only tips about it, unless it is fastened there; then its fasteners
/// hold it upright.
fn one_line(deck: &Deck, under: &[Under], feet: &[(usize, Vec3)], all: &mut Structure) {
    let Some((first, rest)) = feet.split_first() else { return };
    let far =
        rest.iter().map(|f| f.1 - first.1).fold(Vec3::ZERO, |a, b| if b.norm() > a.norm() { b } else { a });
    let line = far.unit().unwrap_or(deck.side);
    let spread = rest.iter().map(|f| (f.1 - first.1).across(line).norm()).fold(0.0, f64::max);
    if spread > 0.02 {
        return;
    }
    if under.iter().all(|u| u.fastened.map_or(0, |h| h.0) < 2) {
        let on = all.bars[first.0].name.clone();
        all.loose.push(Loose::Tips { support: deck.support, on });
    }
    for tie in all.ties.iter_mut().filter(|t| t.of == TieOf::Bearing(deck.support)) {
        tie.hold = Hold::Rigid;
    }
}

struct Grid {
    name: String,
    from: Vec3,
    along: Vec3,
    side: Vec3,
    normal: Vec3,
    depth: f64,
    width: f64,
    thickness: f64,
}

struct Strips {
    across: Vec<usize>,
    along: Vec<usize>,
}

impl Grid {
    fn new(support: &Support, deck: &Deck, thickness: f64) -> Grid {
        let depth = (deck.ends.1 - deck.ends.0).norm();
        Grid {
            name: support.name.clone(),
            from: deck.ends.0 - deck.normal * (thickness / 2.0),
            along: (deck.ends.1 - deck.ends.0) * (1.0 / depth),
            side: deck.side,
            normal: deck.normal,
            depth,
            width: support.width,
            thickness,
        }
    }

    fn strips(&self, support: usize, stock: StockId, all: &mut Structure) -> Strips {
        let mut add = |ends: (Vec3, Vec3), breadth: f64| {
            all.bars.push(Bar {
                name: self.name.clone(),
                of: Of::Support(support),
                ends,
                up: self.normal,
                stock,
                form: Form::Flat { level: breadth, upright: self.thickness },
                stretches: vec![Stretch { from: 0.0, to: (ends.1 - ends.0).norm(), grip: [0.0; 2] }],
                sheaths: Vec::new(),
                holes: Vec::new(),
            });
            all.bars.len() - 1
        };
        let (n, m) = (f64::from(ACROSS), f64::from(ALONG));
        let across: Vec<usize> = (0..ACROSS)
            .map(|k| {
                let at = self.from + self.along * (self.depth * (f64::from(k) + 0.5) / n);
                let half = self.side * (self.width / 2.0);
                add((at - half, at + half), self.depth / n)
            })
            .collect();
        let along: Vec<usize> = (0..ALONG)
            .map(|k| {
                let at = self.from + self.side * (self.width * ((f64::from(k) + 0.5) / m - 0.5));
                add((at, at + self.along * self.depth), self.width / m)
            })
            .collect();
        for (i, a) in across.iter().enumerate() {
            for (j, b) in along.iter().enumerate() {
                #[allow(clippy::cast_precision_loss)]
                let (i, j) = (i as f64, j as f64);
                let one = Spot::Port(Port { bar: *a, at: self.width * (j + 0.5) / m });
                let other = Spot::Port(Port { bar: *b, at: self.depth * (i + 0.5) / n });
                all.ties.push(Tie { of: TieOf::Sheet, spots: vec![one, other], hold: Hold::Rigid });
            }
        }
        Strips { across, along }
    }
}
