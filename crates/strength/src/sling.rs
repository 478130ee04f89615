//! What the fasteners along the edges of a sling have to hold. Nothing here knows how cloth tears at them: it is told, and never passes.

use crate::case::Case;
use crate::load::Push;
use crate::remark::Beside;
use crate::structure::{Carries, Port, Structure};
use crate::ties::fixing;
use chairwright_design::Design;
use std::collections::BTreeMap;

/// Each sling that the text fastens to the bars at its edges, with the most that one fastener bears, where an edge's bands share its
/// fasteners evenly and the band that carries most in the case that is worst for it hands its own to its own alone.
pub(crate) fn edges(design: &Design, all: &Structure, cases: &[Case]) -> Vec<Beside> {
    let mut out = Vec::new();
    for deck in &all.decks {
        let Carries::Bands(bands) = &deck.carries else { continue };
        let name = &design.supports[deck.support].name;
        let mut edges: BTreeMap<usize, Vec<Port>> = BTreeMap::new();
        for port in bands.iter().flat_map(|(left, right)| [*left, *right]) {
            edges.entry(port.bar).or_default().push(port);
        }
        let one = |(bar, ports): (&usize, &Vec<Port>)| {
            let on = &all.bars[*bar].name;
            let here = |a: &str, b: &str| a == name && b == on;
            let mine = design.fastenings.iter().filter(|f| here(&f.what, &f.to) || here(&f.to, &f.what));
            let count: u32 = mine.map(|f| fixing(design, &f.fasteners)).sum();
            let most = ports.iter().map(|p| pulled(*p, cases)).fold(0.0, f64::max);
            #[allow(clippy::cast_precision_loss)]
            let bands = ports.len() as f64;
            (count > 0).then(|| most * bands / f64::from(count))
        };
        if let Some(each) = edges.iter().filter_map(one).reduce(f64::max) {
            out.push(Beside::SlingFasteners { support: deck.support, each });
        }
    }
    out
}

/// The most that any case pulls at one end of a band, N.
fn pulled(port: Port, cases: &[Case]) -> f64 {
    let force = |push: &Push| match push {
        Push::At { port: at, force, .. } if *at == port => Some(*force),
        _ => None,
    };
    let one = |case: &Case| case.pushes.iter().filter_map(force).reduce(|a, b| a + b).map_or(0.0, |f| f.norm());
    cases.iter().map(one).fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bar::Bar;
    use crate::form::Form;
    use crate::hand::bar;
    use crate::shipped::{PARTS, design, short};
    use crate::structure::Deck;
    use chairwright_design::Vec3;

    /// Two bands on two rails of a sling 400 mm wide that sags by 16 mm; the front one carries 160 N: 80 N down at each edge, and a pull
    /// of 160 · 400/(8 · 16) = 500 N across it, 506.4 N together. Of four screws along the left edge two hold that band, 253.2 N
    /// each; one alone holds both bands, no more than two such: 1 012.7 N. What is sewn on is not told.
    #[test]
    fn screws_of_a_sling_by_hand() {
        let told = |line: &str| {
            let design = design(&format!(
                "{PARTS}use catalogue.fasteners
use catalogue.webbing
seat = \"webbing 50 mm\" from up 600 mm to forward 400 mm, up 600 mm width 400 mm times 2 sagging 16 mm
{line}"
            ));
            let form = Form::Flat { level: 0.045, upright: 0.045 };
            let rail = |y: f64, name: &str| Bar {
                name: name.to_owned(),
                ..bar(Vec3::new(0.0, y, 0.6), Vec3::new(0.4, y, 0.6), Vec3::Z, form)
            };
            let mut all =
                Structure { bars: vec![rail(0.2, "side"), rail(-0.2, "post")], ..Structure::default() };
            let port = |bar: usize, at: f64| Port { bar, at };
            let bands = [0.1, 0.3].map(|at| (port(0, at), port(1, at))).to_vec();
            all.decks.push(Deck {
                support: 0,
                ends: (Vec3::Z * 0.6, Vec3::new(0.4, 0.0, 0.6)),
                side: Vec3::Y,
                normal: Vec3::Z,
                width: 0.4,
                sag: 0.016,
                carries: Carries::Bands(bands),
            });
            let at =
                |port: Port, y: f64| Push::At { port, force: Vec3::new(0.0, y, -80.0), moment: Vec3::ZERO };
            let cases = [short(vec![at(port(0, 0.3), -500.0), at(port(1, 0.3), 500.0)])];
            edges(&design, &all, &cases)
        };
        let near = |told: &[Beside], want: f64| {
            let [Beside::SlingFasteners { support: 0, each }] = told else { panic!("{told:?}") };
            assert!((each - want).abs() < 0.1, "{each} {want}");
        };
        near(&told("fasten seat to side using \"screw 5 x 40\" times 4\n"), 253.2);
        near(&told("fasten seat to side using \"screw 5 x 40\" times 1\n"), 1012.7);
        assert!(told("").is_empty());
    }
}
