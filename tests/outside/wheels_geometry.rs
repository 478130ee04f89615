//! Geometry of cambered wheels and casters, derived by hand: track grows by 2R·sin c, the hub sinks
//! by R(1 − cos c); pitching a cambered axle by t gives each wheel a toe of atan(tan c·sin t) and
//! leaves a camber of asin(sin c·cos t); caster trail is (e + r·sin b) / cos b.

use crate::{degrees, figure, solve, with};

fn chair(wheel: f64) -> String {
    format!(
        "part \"w\" {{ kind = wheel, mass = 1 kg, diameter = {wheel} mm, loaded_radius = {} mm, width = 0.002 mm, source = \"made up\" }}
part \"c\" {{ kind = caster, mass = 1 kg, diameter = 150 mm, width = 0.002 mm, trail = 40 mm, drop = 100 mm, source = \"made up\" }}
part \"lump\" {{ kind = other, mass = 90 kg, source = \"made up\" }}
param lean = 0 deg
param rise = 175 mm
param rake = 0 deg
both sides {{
    wheel rear = \"w\" at outward 280 mm, up {} mm camber lean
    caster front = \"c\" at outward 220 mm, forward 420 mm, up rise raked rake
}}
item lump = \"lump\" at forward 150 mm, up 450 mm
",
        wheel / 2.0,
        wheel / 2.0
    )
}

#[test]
fn camber_widens_the_track_and_lowers_the_hub() {
    for (diameter, camber, growth, drop) in [
        (610.0, 2.0, 21.29, 0.186),
        (610.0, 3.0, 31.92, 0.418),
        (610.0, 6.0, 63.76, 1.671),
        (559.0, 4.0, 38.99, 0.681),
    ] {
        let upright = with(&chair(diameter), &[]);
        // the casters sink with the hubs, so that the chair stays level
        let rise = 175.0 + drop;
        let leaning = with(&chair(diameter), &[("lean", camber, "deg"), ("rise", rise, "mm")]);
        let grown = (figure(&leaning, "track") - figure(&upright, "track")) * 1e3;
        assert!((grown - growth).abs() < 0.02, "{diameter} {camber}: {grown}");
        assert!((degrees(&leaning, "pitch")).abs() < 0.01);
    }
}

#[test]
fn pitch_turns_camber_into_toe() {
    for (camber, pitch, toe, after) in [
        (3.0, 5.0, 0.2617, 2.9886),
        (6.0, 5.0, 0.5248, 5.9771),
        (6.0, 10.0, 1.0456, 5.9085),
        (4.0, -5.0, -0.3492, 3.9848),
        (12.0, 8.0, 1.6944, 11.8815),
    ] {
        let text = chair(610.0).replace("param lean = 0 deg", &format!("param lean = {camber} deg"));
        let c = solve(&text, "rise", "mm", (175.0, 160.0), pitch, &|c| degrees(c, "pitch"));
        assert!((degrees(&c, "pitch") - pitch).abs() < 1e-8);
        for side in ["left", "right"] {
            let got = degrees(&c, &format!("toe.{side}"));
            assert!((got - toe).abs() < 1e-4, "toe {camber} {pitch}: {got}");
            let got = degrees(&c, &format!("camber.{side}"));
            assert!((got - after).abs() < 1e-4, "camber {camber} {pitch}: {got}");
        }
    }
}

#[test]
fn a_leaning_stem_changes_the_trail() {
    for (lean, trail) in [(0.0, 40.00), (3.0, 43.99), (-3.0, 36.12)] {
        let signed = |c: &chairwright_driver::Compilation| {
            let inputs = &c.figures.0["caster.trail.left.front"].inputs;
            inputs.iter().find(|i| i.name == "lean to the rear").unwrap().value.si().to_degrees()
        };
        let c = solve(&chair(610.0), "rake", "deg", (0.0, 1.0), lean, &signed);
        let got = figure(&c, "caster.trail.left.front") * 1e3;
        assert!((got - trail).abs() < 0.006, "{lean}: {got}");
    }
}
