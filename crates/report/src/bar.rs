//! The control bar of a drawing: so long on the chair, and the word that nothing is measured off the sheet. Printers fit a sheet to
//! their paper, and a hole that is measured off a print is as far off as the print.

use crate::view::{Bounds, Point};
use chairwright_driver::Compilation;
use std::fmt::Write as _;

/// What every drawing says.
const WORDS: [&str; 2] = [
    "Nothing is measured off this sheet: printers shrink it.",
    "Sizes are the numbers on it and in the cut list.",
];

/// The bar's length in mm of the chair, round in the unit of the design, and its words.
fn length(c: &Compilation) -> (f64, &'static str) {
    if c.design.inches { (101.6, "4 in") } else { (100.0, "100 mm") }
}

/// Draws the bar below a frame in letters of this height, and widens the frame by it. `seen` says how a length has to lie to be drawn so
/// long, where not every length in the picture is.
pub(crate) fn bar(c: &Compilation, frame: &mut Bounds, t: f64, seen: &str) -> String {
    let (long, words) = length(c);
    let (x, y): Point = (frame.low.0, frame.high.1 + 2.4 * t);
    let mut out = String::new();
    let _ = writeln!(
        out,
        "<g class=\"bar\"><title>control bar, {words} of the chair</title>\
         <path style=\"fill:none;stroke:#1b1f23;stroke-width:{:.2}\" d=\"M{x:.1} {:.1}V{:.1}M{:.1} {:.1}V{:.1}\"/>\
         <path style=\"fill:#1b1f23;stroke:none\" d=\"M{x:.1} {:.1}H{:.1}V{:.1}H{x:.1}Z\"/></g>",
        t / 10.0,
        y - 0.6 * t,
        y + 0.6 * t,
        x + long,
        y - 0.6 * t,
        y + 0.6 * t,
        y - 0.15 * t,
        x + long,
        y + 0.15 * t,
    );
    let after = x + long + 0.8 * t;
    let mut put = |x: f64, y: f64, words: &str| {
        let _ = writeln!(out, "<text x=\"{x:.1}\" y=\"{y:.1}\">{words}</text>");
        #[allow(clippy::cast_precision_loss)]
        frame.take((x + 0.62 * t * words.chars().count() as f64, y + 0.3 * t));
    };
    put(after, y + 0.35 * t, &format!("{words} of the chair{seen}"));
    for (line, words) in [(2.1, WORDS[0]), (3.5, WORDS[1])] {
        put(x, y + line * t, words);
    }
    out
}
