//! ASTM D1785, PVC pressure pipe of schedule 40 and 80: dimension and weight tables as reprinted in
//! public libraries of fluid mechanics and trade pages. Section values are recomputed from outside
//! diameter and least wall; published weights are printed to 0.01 lb/ft, so they are compared within
//! the average wall's range of 10 %.

use crate::{clean, figure, off};
use chairwright_design::Shape;

/// Size, outside diameter in mm, least walls in mm, area and section modulus of both schedules.
const ROWS: &[(&str, f64, [f64; 2], [f64; 2], [f64; 2])] = &[
    ("1/2", 21.34, [2.77, 3.73], [161.5, 206.5], [667.0, 783.0]),
    ("3/4", 26.67, [2.87, 3.91], [214.6, 279.7], [1156.0, 1398.0]),
    ("1", 33.40, [3.38, 4.55], [318.6, 412.1], [2177.0, 2632.0]),
    ("1 1/4", 42.16, [3.56, 4.85], [431.3, 568.7], [3844.0, 4774.0]),
    ("1 1/2", 48.26, [3.68, 5.08], [515.8, 689.1], [5346.0, 6748.0]),
    ("2", 60.33, [3.91, 5.54], [693.2, 953.1], [9187.0, 11977.0]),
    ("2 1/2", 73.03, [5.16, 7.01], [1099.4, 1453.9], [17436.0, 21936.0]),
    ("3", 88.90, [5.49, 7.62], [1437.7, 1945.8], [28253.0, 36467.0]),
];

/// Published pressure ratings in psi at the allowable stress of 2000 psi.
const RATINGS: &[(&str, f64, f64)] = &[
    ("1/2", 600.0, 848.0),
    ("3/4", 480.0, 688.0),
    ("1", 450.0, 630.0),
    ("1 1/4", 370.0, 520.0),
    ("1 1/2", 330.0, 471.0),
    ("2", 280.0, 404.0),
    ("2 1/2", 300.0, 425.0),
    ("3", 260.0, 375.0),
];

fn pipe(size: &str, schedule: &str) -> (chairwright_design::Stock, f64) {
    let text = format!(
        "use catalogue.pipe_inch\njoint a at up 0 mm\njoint b at up 1 m\nmember m = \"pipe {size} in {schedule}\" from a to b\nclose a with open\nclose b with open\n"
    );
    let c = clean(&text);
    let stock = c.design.stocks.values().next().unwrap().clone();
    (stock, figure(&c, "mass.frame"))
}

#[test]
fn sections_follow_from_diameter_and_least_wall() {
    for (size, outside, walls, areas, moduli) in ROWS {
        for (i, schedule) in ["sch40", "sch80"].iter().enumerate() {
            let (stock, _) = pipe(size, schedule);
            let Shape::Tube { outer, wall, is_pipe } = stock.shape else { panic!("no tube") };
            assert!(is_pipe);
            assert!((outer.mid() * 1e3 - outside).abs() < 0.006, "{size} outside");
            assert!((wall.low * 1e3 - walls[i]).abs() < 0.006, "{size} wall");
            let section = stock.shape.section();
            assert!(off(section.area * 1e6, areas[i]) < 5e-4, "{size} area");
            assert!(off(section.modulus * 1e9, moduli[i]) < 1e-3, "{size} modulus");
            let greatest = wall.low + (0.020 * 0.0254f64).max(0.12 * wall.low);
            assert!((wall.high - greatest).abs() < 2e-5, "{size} greatest wall");
        }
    }
}

#[test]
fn a_metre_weighs_what_the_table_says() {
    let published = [0.16, 0.21, 0.32, 0.43, 0.51, 0.68, 1.07, 1.41];
    for ((size, ..), pounds) in ROWS.iter().zip(published) {
        let (stock, mass) = pipe(size, "sch40");
        assert!(off(mass, pounds * 0.453_592_37 / 0.3048) < 1e-9, "{size}");
        // density times mean wall must agree with the published weight: a test of the density
        let computed = stock.material.density * stock.shape.mean_area();
        assert!(off(computed, mass) < 0.10, "{size}: {computed} against {mass}");
    }
}

#[test]
fn pressure_ratings_follow_from_the_dimensions() {
    for (size, forty, eighty) in RATINGS {
        for (schedule, rating, step) in [("sch40", forty, 5.0), ("sch80", eighty, 1.0)] {
            let (stock, _) = pipe(size, schedule);
            let Shape::Tube { outer, wall, .. } = stock.shape else { panic!("no tube") };
            let computed = 2.0 * 2000.0 * wall.low / (outer.mid() - wall.low);
            assert!((computed - rating).abs() <= step + 0.5, "{size} {schedule}: {computed} against {rating}");
        }
    }
}
