//! What lies under the seat: what might stop it before the ground, where it comes down.

use crate::bar::Bar;
use crate::follow::hangs_on;
use crate::load::deck;
use crate::structure::{Deck, Footing, Structure};
use chairwright_design::{Caster, Design, SupportKind, Vec3, Wheel};
use chairwright_frame::{Settled, caster_centre};
use std::f64::consts::TAU;

/// What a part under the seat is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Beneath {
    /// A member or box.
    Frame,
    /// The tyre of a wheel.
    Wheel,
    /// The tyre of a caster, or its fork.
    Caster,
}

/// A part under the seat that does not carry it.
#[derive(Clone, PartialEq, Debug)]
pub struct Under {
    /// What.
    pub what: Beneath,
    /// Its name.
    pub name: String,
    /// How far its upper face lies below the seat as drawn, m.
    pub by: f64,
}

/// Places that are looked at along a bar and around a wheel, and around a caster for each of as many turns of it: what lies between
/// two of them lies no more than some 2 mm higher.
const STEPS: u32 = 40;
const TURNS: u32 = 16;

/// The first part under the seat that does not carry it. What a falling seat takes along with it stops nothing, and whether the rest
/// would hold is not looked at.
pub(crate) fn under_seat(design: &Design, settled: &Settled, all: &Structure) -> Option<Under> {
    let seat = deck(design, all, SupportKind::Seat)?;
    let under = |what: Beneath, name: &str, places: &mut dyn Iterator<Item = Vec3>| {
        let by = places.filter_map(|p| below(seat, p)).reduce(f64::min)?;
        Some(Under { what, name: name.to_owned(), by })
    };
    let carries = |bar: usize| hangs_on(all, &seat.carries, &[all.bars[bar].of]);
    let bars = all.frame_bars().filter(|(bar, _)| !carries(*bar));
    let bars = bars.filter_map(|(_, b)| under(Beneath::Frame, &b.name, &mut top(b)));
    let falls_along = |f: &&Footing| f.carrier.as_ref().and_then(|c| all.bar_named(c)).is_some_and(carries);
    let rolling = all.footings.iter().filter(|f| !falls_along(f)).filter_map(|f| {
        let place = |p: Vec3| settled.pose.place(p);
        match f.caster {
            true => under(Beneath::Caster, &f.name, &mut swings(design.casters.get(f.index)?).map(place)),
            false => under(Beneath::Wheel, &f.name, &mut tyre(design.wheels.get(f.index)?).map(place)),
        }
    });
    bars.chain(rolling).reduce(|a, b| if b.by < a.by { b } else { a })
}

/// How far a place lies under a seat, m; `None` beside and over it.
fn below(seat: &Deck, at: Vec3) -> Option<f64> {
    let way = seat.ends.1 - seat.ends.0;
    let along = (at - seat.ends.0).dot(way) / way.dot(way);
    let aside = (at - seat.ends.0).dot(seat.side).abs();
    let below = seat.ends.0.z + way.z * along - at.z;
    ((0.0..=1.0).contains(&along) && aside <= seat.width / 2.0 && below > 0.0).then_some(below)
}

fn shares(steps: u32) -> impl Iterator<Item = f64> {
    (0..=steps).map(move |k| f64::from(k) / f64::from(steps))
}

/// Along the upper face of a bar.
fn top(b: &Bar) -> impl Iterator<Item = Vec3> {
    let half = Vec3::Z * b.half_along(Vec3::Z);
    shares(STEPS).map(move |s| b.at(b.length() * s) + half)
}

/// Around a tyre with square shoulders, on both of its sides and in the middle.
fn ring(centre: Vec3, axle: Vec3, (radius, width): (f64, f64), steps: u32) -> impl Iterator<Item = Vec3> {
    let level = axle.any_across();
    let upright = axle.cross(level);
    shares(steps).flat_map(move |s| {
        let (sin, cos) = libm::sincos(TAU * s);
        [-0.5, 0.0, 0.5].map(|k| centre + axle * (width * k) + (level * cos + upright * sin) * radius)
    })
}

fn tyre(wheel: &Wheel) -> impl Iterator<Item = Vec3> {
    ring(wheel.at, wheel.axle, (wheel.radius, wheel.tyre), STEPS)
}

/// The tyre of a caster however it is turned, and the top of its fork around the stem.
fn swings(caster: &Caster) -> impl Iterator<Item = Vec3> {
    let tyres = shares(TURNS).flat_map(move |s| {
        let centre = caster_centre(caster, TAU * s);
        let off = centre - caster.at;
        let back = off - caster.stem * off.dot(caster.stem);
        let axle = caster.stem.cross(back).unit().unwrap_or_else(|| caster.stem.any_across());
        ring(centre, axle, (caster.tread, caster.width), TURNS)
    });
    tyres.chain(ring(caster.at, caster.stem, (caster.fork_width / 2.0, 0.0), TURNS))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bar::Of;
    use crate::form::Form;
    use crate::hand::bar;
    use crate::shipped::{PARTS, design};
    use crate::structure::{Carries, Port};
    use chairwright_design::{Frame3, Id};

    fn flat() -> Settled {
        Settled { pose: Frame3::IDENTITY, pitch: 0.0, roll: 0.0, contacts: Vec::new(), rock: 0.0 }
    }

    /// 400 mm deep and wide, 500 mm up.
    fn seat() -> Deck {
        Deck {
            support: 0,
            ends: (Vec3::Z * 0.5, Vec3::new(0.4, 0.0, 0.5)),
            side: Vec3::Y,
            normal: Vec3::Z,
            width: 0.4,
            sag: 0.016,
            carries: Carries::Bands(vec![(Port { bar: 0, at: 0.1 }, Port { bar: 1, at: 0.1 })]),
        }
    }

    /// A sling at 500 mm on two rails, an axle of 40 mm square through the middle at 300 mm: 500 - 320 = 180 mm lower. A bar beside the
    /// seat is not under it, one over it neither.
    #[test]
    fn an_axle_lies_under_the_seat() {
        let design = design(&format!(
            "{PARTS}use catalogue.webbing
part \"w\" {{ kind = wheel, mass = 2 kg, diameter = 600 mm, loaded_radius = 300 mm, width = 30 mm, source = \"bench\" }}
part \"c\" {{ kind = caster, mass = 1 kg, diameter = 150 mm, width = 30 mm, trail = 40 mm, drop = 115 mm, source = \"bench\" }}
wheel rear = \"w\" at left 240 mm, up 300 mm
caster front = \"c\" at left 160 mm, forward 300 mm, up 190 mm
seat = \"webbing 50 mm\" from up 500 mm to forward 400 mm, up 500 mm width 400 mm times 2
"
        ));
        let form = Form::Flat { level: 0.040, upright: 0.040 };
        let of = |k: usize, name: &str, from: Vec3, to: Vec3| Bar {
            name: name.to_owned(),
            of: Of::Member(Id::new(k)),
            ..bar(from, to, Vec3::Z, form)
        };
        let rail = |k: usize, y: f64| of(k, "rail", Vec3::new(0.0, y, 0.5), Vec3::new(0.4, y, 0.5));
        let across =
            |k: usize, name: &str, x: f64, z: f64| of(k, name, Vec3::new(x, -0.3, z), Vec3::new(x, 0.3, z));
        let bars = vec![
            rail(0, 0.2),
            rail(1, -0.2),
            across(2, "axle", 0.1, 0.3),
            across(3, "push", 0.1, 0.9),
            across(4, "foot", 0.5, 0.45),
        ];
        let mut all = Structure { bars, ..Structure::default() };
        all.decks.push(seat());
        let under = |all: &Structure| under_seat(&design, &flat(), all);
        let found = under(&all).unwrap();
        assert!(found.what == Beneath::Frame && found.name == "axle", "{found:?}");
        assert!((found.by - 0.18).abs() < 1e-9, "{found:?}");
        all.bars.truncate(2);
        assert_eq!(under(&all), None);
        // a wheel of 300 mm radius whose hub stands at 300 mm beside the seat is not under it; cambered or wide enough it would be
        let foot = |caster: bool, carrier: &str| Footing {
            name: if caster { "front" } else { "rear" }.to_owned(),
            caster,
            index: 0,
            hub: 0,
            contact: 0,
            carrier: Some(carrier.to_owned()),
            swung: None,
            overhang: None,
        };
        all.footings = vec![foot(false, "post")];
        assert_eq!(under(&all), None);
        // a caster's fork meets its seat 190 mm up, 310 mm lower than the seat; its tyre of 150 mm turns 115 mm lower: its top is 40 mm
        // lower still
        all.footings.push(foot(true, "post"));
        let found = under(&all).unwrap();
        assert!(found.what == Beneath::Caster && (found.by - 0.31).abs() < 1e-9, "{found:?}");
        // what the seat hangs on takes its caster along
        all.footings[1].carrier = Some("rail".into());
        assert_eq!(under(&all), None);
    }

    /// A tyre of 600 mm whose hub is 250 mm up, in the middle of the seat: its top is 550 - 500 mm over the seat, and what is under it
    /// is where the ring leaves the seat's height: nearer than a step of 9 degrees of 300 mm, 47 mm.
    #[test]
    fn a_wheel_under_the_seat() {
        let wheel = |z: f64| ring(Vec3::Z * z + Vec3::X * 0.2, Vec3::Y, (0.3, 0.03), STEPS);
        let nearest = |z: f64| wheel(z).filter_map(|p| below(&seat(), p)).reduce(f64::min).unwrap();
        assert!((nearest(0.15) - 0.05).abs() < 1e-9, "{}", nearest(0.15));
        assert!(nearest(0.25) < 0.047);
    }
}
