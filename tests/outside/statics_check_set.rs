//! Rigid-body tip angles of a four-wheeled chair: tan q = d / h about each edge of the contacts
//! (statics, any handbook). Check set, worked by hand: centre of mass 150 mm ahead of the axle and
//! 450 mm high, rear wheels of 305 mm radius on a track of 560 mm, casters of 75 mm radius 420 mm
//! ahead on a track of 440 mm without trail.

use crate::{clean, degrees, figure};

/// A chair of no mass under one heavy point, and a rider of no mass, so that the point is all.
fn chair(ahead: f64) -> String {
    format!(
        "part \"w\" {{ kind = wheel, mass = 0 kg, diameter = 610 mm, loaded_radius = 305 mm, width = 20 mm, source = \"made up\" }}
part \"c\" {{ kind = caster, mass = 0 kg, diameter = 150 mm, width = 20 mm, trail = 0 mm, drop = 100 mm, source = \"made up\" }}
part \"lump\" {{ kind = other, mass = 90 kg, source = \"made up\" }}
material \"air\" {{ density = 0.000001 kg/m3, source = \"made up\" }}
stock \"film\" {{ shape = sheet, material = \"air\", thickness = 1 mm, source = \"made up\" }}
rider {{ mass = 0.000000001 kg, stature = 1.7 m }}
seat = \"film\" from up 450 mm to up 450 mm, forward 400 mm width 400 mm
both sides {{
    wheel rear = \"w\" at outward 280 mm, up 305 mm
    caster front = \"c\" at outward 220 mm, forward 420 mm, up 175 mm
}}
item lump = \"lump\" at forward {ahead} mm, up 450 mm
"
    )
}

#[test]
fn angles_of_the_check_set() {
    let c = clean(&chair(150.0));
    let close = |name: &str, wanted: f64| {
        let got = degrees(&c, name);
        assert!((got - wanted).abs() < 0.001, "{name}: {got} against {wanted}");
    };
    close("tip.rear.locked", 18.435);
    close("tip.rear.free", 45.971);
    close("tip.forward.locked", 30.964);
    close("tip.forward.free", 35.754);
    close("tip.left", 29.882);
    close("tip.right", 29.882);
    assert!((figure(&c, "load.caster.share") - 0.35714).abs() < 1e-5);
    assert!((figure(&c, "wheelbase") - 0.420).abs() < 1e-9);
}

#[test]
fn half_the_distance_gives_the_published_order_of_angles() {
    let c = clean(&chair(75.0));
    assert!((degrees(&c, "tip.rear.locked") - 9.46).abs() < 0.01);
    assert!((degrees(&c, "tip.rear.free") - 27.35).abs() < 0.01);
}

/// Trail shortens the wheelbase when the casters trail: the worst case must find it.
#[test]
fn the_worst_swivel_is_found() {
    let text = chair(150.0).replace("trail = 0 mm", "trail = 50 mm");
    let c = clean(&text);
    let wanted = (0.420f64 - 0.050 - 0.150).atan2(0.450).to_degrees();
    assert!((degrees(&c, "tip.forward.locked") - wanted).abs() < 0.01);
    // sideways: the caster swings 50 mm inward; the edge from the rear contact to it, at the centre's station
    let edge = |x: f64, y: f64| 0.280 + (y - 0.280) * 0.150 / x;
    let worst = (0..3600)
        .map(|k| (f64::from(k) / 10.0).to_radians())
        .map(|a| edge(0.420 + 0.050 * a.cos(), 0.220 + 0.050 * a.sin()))
        .fold(f64::INFINITY, f64::min);
    assert!((degrees(&c, "tip.left") - worst.atan2(0.450).to_degrees()).abs() < 0.02);
}
