//! What lies under the seat: what might stop it before the ground, where it comes down.

use crate::bar::Bar;
use crate::follow::hangs_on;
use crate::load::deck;
use crate::structure::Structure;
use chairwright_design::{Design, SupportKind, Vec3};

/// The first part of the frame under the seat that does not carry it: its name, and how far its upper face lies below the seat as
/// drawn, m. What a falling seat takes along with it stops nothing, and whether the rest would hold is not looked at.
pub(crate) fn under_seat(design: &Design, all: &Structure) -> Option<(String, f64)> {
    const STEPS: u32 = 40;
    let seat = deck(design, all, SupportKind::Seat)?;
    let way = seat.ends.1 - seat.ends.0;
    let carries = |bar: usize| hangs_on(all, &seat.carries, &[all.bars[bar].of]);
    let lower = |at: Vec3, half: f64| {
        let along = (at - seat.ends.0).dot(way) / way.dot(way);
        let aside = (at - seat.ends.0).dot(seat.side).abs();
        let below = seat.ends.0.z + way.z * along - at.z - half;
        ((0.0..=1.0).contains(&along) && aside <= seat.width / 2.0 && below > 0.0).then_some(below)
    };
    let one = |(bar, b): (usize, &Bar)| {
        let places = (0..=STEPS).map(|k| b.at(b.length() * f64::from(k) / f64::from(STEPS)));
        let nearest = places.filter_map(|p| lower(p, b.half_along(Vec3::Z))).reduce(f64::min)?;
        (!carries(bar)).then(|| (b.name.clone(), nearest))
    };
    all.frame_bars().filter_map(one).reduce(|a, b| if b.1 < a.1 { b } else { a })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bar::Of;
    use crate::form::Form;
    use crate::hand::bar;
    use crate::shipped::{PARTS, design};
    use crate::structure::{Carries, Deck, Port};
    use chairwright_design::Id;

    /// A sling at 500 mm on two rails, an axle of 40 mm square through the middle at 300 mm: 500 - 320 = 180 mm lower. A bar beside the
    /// seat is not under it, one over it neither.
    #[test]
    fn an_axle_lies_under_the_seat() {
        let design = design(&format!(
            "{PARTS}use catalogue.webbing
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
        let port = |bar: usize, at: f64| Port { bar, at };
        all.decks.push(Deck {
            support: 0,
            ends: (Vec3::Z * 0.5, Vec3::new(0.4, 0.0, 0.5)),
            side: Vec3::Y,
            normal: Vec3::Z,
            width: 0.4,
            sag: 0.016,
            carries: Carries::Bands(vec![(port(0, 0.1), port(1, 0.1))]),
        });
        let (name, by) = under_seat(&design, &all).unwrap();
        assert!(name == "axle" && (by - 0.18).abs() < 1e-9, "{name} {by}");
        all.bars.truncate(2);
        assert_eq!(under_seat(&design, &all), None);
    }
}
