//! The slope that tips the chair by the way down, drawn from above as a curve around it.

use crate::text::value;
use chairwright_driver::Compilation;
use chairwright_quantity::{Dimension, Quantity};
use std::fmt::Write as _;

/// Pixels a degree.
const SCALE: f64 = 8.0;
/// Greatest slope that is drawn.
const MOST: f64 = 35.0;
const SIZE: f64 = 2.0 * (MOST * SCALE + 60.0);

/// Draws the curve; `None` where there is none.
#[must_use]
pub fn slopes_drawing(c: &Compilation) -> Option<String> {
    let curve = &c.checked.curve;
    if curve.is_empty() {
        return None;
    }
    let mut out = String::new();
    let half = SIZE / 2.0;
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {SIZE} {}\" width=\"{SIZE}\" height=\"{}\" \
         font-family=\"sans-serif\" font-size=\"13\">",
        SIZE + 60.0,
        SIZE + 60.0
    );
    let _ = writeln!(out, "<title>slopes that tip the chair, by the way down</title>");
    let _ = writeln!(out, "<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>");
    let _ = writeln!(out, "<g transform=\"translate({half} {half})\">");
    rings(&mut out);
    declared(c, &mut out);
    footprint(c, &mut out);
    line(curve, &mut out);
    captions(&mut out);
    let _ = writeln!(out, "</g>");
    legend(c, &mut out);
    out.push_str("</svg>\n");
    Some(out)
}

/// Picture place of a slope in a direction: ahead is up, the rider's left is left.
fn place(angle: f64, toward: f64) -> (f64, f64) {
    let r = angle.to_degrees().min(MOST) * SCALE;
    (-r * libm::sin(toward), -r * libm::cos(toward))
}

fn rings(out: &mut String) {
    for degrees in [5.0, 10.0, 15.0, 20.0, 25.0, 30.0] {
        let r = degrees * SCALE;
        let _ = writeln!(out, "<circle r=\"{r}\" fill=\"none\" stroke=\"#c8c8c8\"/>");
        let _ = writeln!(
            out,
            "<text x=\"3\" y=\"{:.1}\" fill=\"#606060\" font-size=\"11\">{degrees:.0}°</text>",
            -r - 2.0
        );
    }
    let r = MOST * SCALE;
    let _ = writeln!(out, "<path d=\"M{} 0H{r}M0 {}V{r}\" stroke=\"#e0e0e0\"/>", -r, -r);
}

/// Slopes of the path: an ellipse through slope ahead and behind, and cross slope to the sides.
fn declared(c: &Compilation, out: &mut String) {
    let of = |key: &str| c.design.conditions.quantities.get(key).map_or(0.0, |s| s.abs().to_degrees() * SCALE);
    let (along, across) = (of("slope"), of("cross_slope").max(1.0));
    if along > 0.0 {
        let _ = writeln!(
            out,
            "<ellipse rx=\"{across:.1}\" ry=\"{along:.1}\" fill=\"#e69f00\" fill-opacity=\"0.35\" stroke=\"#b07000\"/>"
        );
    }
}

/// The wheels from above, small, to show which way the chair looks.
fn footprint(c: &Compilation, out: &mut String) {
    let Some(settled) = &c.checked.settled else { return };
    for contact in &settled.contacts {
        let (x, y) = (-contact.at.y * 60.0, -contact.at.x * 60.0);
        let long = if contact.caster { 4.0 } else { 18.0 };
        let _ = writeln!(
            out,
            "<rect x=\"{:.1}\" y=\"{:.1}\" width=\"3\" height=\"{:.1}\" fill=\"#404040\"/>",
            x - 1.5,
            y - long,
            2.0 * long
        );
    }
}

fn line(curve: &[f64], out: &mut String) {
    let mut path = String::new();
    for (k, angle) in curve.iter().enumerate() {
        #[allow(clippy::cast_precision_loss)]
        let toward = k as f64 * std::f64::consts::TAU / curve.len() as f64;
        let (x, y) = place(*angle, toward);
        let _ = write!(path, "{}{x:.1} {y:.1}", if k == 0 { "M" } else { "L" });
    }
    let _ = writeln!(out, "<path d=\"{path}Z\" fill=\"none\" stroke=\"#0072b2\" stroke-width=\"2.5\"/>");
}

fn captions(out: &mut String) {
    let r = MOST * SCALE + 14.0;
    for (x, y, anchor, text) in [
        (0.0, -r, "middle", "nose down the slope"),
        (0.0, r + 12.0, "middle", "back down the slope"),
        (-r + 10.0, -8.0, "start", "left side down"),
        (r - 10.0, -8.0, "end", "right side down"),
    ] {
        let _ = writeln!(out, "<text x=\"{x}\" y=\"{y}\" text-anchor=\"{anchor}\">{text}</text>");
    }
}

fn legend(c: &Compilation, out: &mut String) {
    let angle = |name: &str| {
        c.figures
            .si(name)
            .map_or("?".to_owned(), |a| value(c.display(), "tip.", Quantity::from_si(a, Dimension::ANGLE)))
    };
    let lines = [
        format!(
            "Blue: slope that tips the chair, wheels locked, casters in their worst swivel; least {}.",
            angle("tip.any")
        ),
        "Orange: slopes of the path as declared. The distance between them is what is left.".to_owned(),
        "A rigid body, computed: not an ISO 7176-1 test.".to_owned(),
    ];
    for (i, text) in lines.iter().enumerate() {
        #[allow(clippy::cast_precision_loss)]
        let y = SIZE + 8.0 + 17.0 * i as f64;
        let _ = writeln!(out, "<text x=\"20\" y=\"{y}\" fill=\"#303030\">{text}</text>");
    }
}
