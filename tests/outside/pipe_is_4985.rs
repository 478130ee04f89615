//! IS 4985:2000, unplasticised PVC pipes for water: outside diameter and wall by working pressure.
//! Area and second moment are recomputed from the least diameter and least wall, as the comparison
//! table does; the compiler uses the middle diameter, so they are compared within 3 %. The wall
//! itself follows from e = p·D / (2·8.6 + p), rounded up to 0.1 mm.

use crate::{clean, off};
use chairwright_design::Shape;

#[test]
fn sections_at_the_highest_pressure() {
    let rows = [
        (20, 81.8, 3558.0),
        (25, 124.4, 8490.0),
        (32, 206.0, 22_988.0),
        (40, 327.2, 56_925.0),
        (50, 497.8, 135_832.0),
        (63, 793.0, 343_374.0),
    ];
    for (size, area, second) in rows {
        let text = format!(
            "use catalogue.pipe_metric\njoint a at up 0 mm\njoint b at up 1 m\nmember m = \"pipe {size} mm 1.25 MPa\" from a to b\nclose a with open\nclose b with open\n"
        );
        let c = clean(&text);
        let stock = c.design.stocks.values().next().unwrap();
        let section = stock.shape.section();
        assert!(off(section.area * 1e6, area) < 0.015, "{size}");
        assert!(off(section.second_moment * 1e12, second) < 0.03, "{size}");
        let Shape::Tube { outer, wall, .. } = stock.shape else { panic!("no tube") };
        let formula = 1.25 * outer.low * 1e3 / (2.0 * 8.6 + 1.25);
        let wall = wall.low * 1e3;
        assert!(wall >= formula - 0.05 && wall < formula + 0.11, "{size}: {wall} against {formula}");
    }
}
