//! Biomechanics and Motor Control of Human Movement (2005), segment table: shares of body mass sum to
//! one, and head, arms and trunk together are what their parts are.

use crate::{clean, figure};

fn body() -> chairwright_design::Body {
    clean("rider { mass = 70 kg, stature = 1.75 m }\n").design.body
}

#[test]
fn shares_sum_to_one() {
    let body = body();
    let share = |name: &str| body.get(name).unwrap().share;
    let whole = share("head, arms and trunk") + 2.0 * (share("thigh") + share("shank") + share("foot"));
    assert!((whole - 1.0).abs() < 1e-12, "{whole}");
    let parts =
        share("trunk") + share("head and neck") + 2.0 * (share("upper arm") + share("forearm") + share("hand"));
    assert!((parts - share("head, arms and trunk")).abs() < 1e-12, "{parts}");
    assert!(body.segments.iter().all(|s| s.source.contains("2005")));
}

#[test]
fn a_leg_is_the_sum_of_its_segments() {
    // whole leg 0.161 at 0.447 of its length from the hip, knee straight: table row of the same source
    let body = body();
    let s = |name: &str| body.get(name).unwrap().clone();
    let (thigh, shank, foot) = (s("thigh"), s("shank"), s("foot"));
    let mass = thigh.share + shank.share + foot.share;
    assert!((mass - 0.161).abs() < 1e-12);
    let moment = thigh.share * thigh.centre * thigh.of_stature
        + shank.share * (thigh.of_stature + shank.centre * shank.of_stature)
        + foot.share * (thigh.of_stature + shank.of_stature);
    let centre = moment / mass / (thigh.of_stature + shank.of_stature);
    assert!((centre - 0.447).abs() < 0.02, "{centre}");
}

#[test]
fn the_seated_rider_weighs_what_was_declared() {
    let text = "material \"m\" { density = 600 kg/m3, source = \"made up\" }
stock \"ply\" { shape = sheet, material = \"m\", thickness = 12 mm, source = \"made up\" }
rider { mass = 70 kg, stature = 1.75 m }
seat = \"ply\" from up 450 mm to up 450 mm, forward 400 mm width 400 mm
";
    let c = clean(text);
    let sum: f64 = c.checked.rider.as_ref().unwrap().segments.iter().map(|s| s.mass).sum();
    assert!((sum - 70.0).abs() < 1e-9);
    assert!((figure(&c, "mass.total") - figure(&c, "mass.chair") - 70.0).abs() < 1e-9);
}
