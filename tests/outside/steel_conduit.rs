//! Published dimension and weight table of electrical metallic tubing (steel tube trade body): mass
//! per length follows from outside diameter and wall at 7850 kg/m3 within 1 %.

use crate::{clean, off};

#[test]
fn weights_follow_from_sections() {
    for size in ["1/2", "3/4", "1", "1 1/4"] {
        let text = format!(
            "use catalogue.metal\njoint a at up 0 mm\njoint b at up 1 m\nmember m = \"steel tube emt {size} in\" from a to b\n"
        );
        let c = clean(&text);
        let stock = c.design.stocks.values().next().unwrap();
        let computed = 7850.0 * stock.shape.mean_area();
        assert!(off(computed, stock.mass_per_length()) < 0.01, "{size}");
    }
}
