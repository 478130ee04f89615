//! The slope that tips the chair by the way down, drawn from above as a curve around it.

use crate::text::value;
use crate::title::{self, Title};
use chairwright_driver::Compilation;
use chairwright_quantity::{Dimension, Quantity};
use std::fmt::Write as _;

/// What is seen.
const SEEN: &str = "slopes that tip the chair, by the way down";
/// Pixels a degree.
const SCALE: f64 = 8.0;
/// Curves that are drawn: name, colour, dashes, and what the legend says.
const DRAWN: [(&str, &str, &str, &str); 3] = [
    ("free", "#009e73", "9 4", "wheels free to turn"),
    ("leaning", "#cc79a7", "2 3", "wheels locked, the rider leaning out, the worst of four ways"),
    ("locked", "#0072b2", "", "wheels locked"),
];
/// Greatest slope that is drawn.
const MOST: f64 = 35.0;
/// Room below the drawing for the legend.
const LEGEND: f64 = 98.0;
const SIZE: f64 = 2.0 * (MOST * SCALE + 60.0);

/// Draws the curve; `None` where there is none.
#[must_use]
pub fn slopes_drawing(c: &Compilation) -> Option<String> {
    let curves = c.curves();
    if curves.is_empty() {
        return None;
    }
    let mut out = String::new();
    let half = SIZE / 2.0;
    let title = Title::new(c, SEEN, (16.0, SIZE - 40.0));
    let (top, high) = (-title.height() - 14.0, SIZE + LEGEND + title.height() + 14.0);
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 {top:.1} {SIZE} {high:.1}\" width=\"{SIZE}\" height=\"{high:.1}\" \
         font-family=\"DejaVu Sans,Arial,sans-serif\" font-size=\"13\">"
    );
    let _ = writeln!(out, "<title>{}</title>", title::plain(c, SEEN));
    let _ = writeln!(out, "<rect y=\"{top:.1}\" width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>");
    out.push_str(&title.draw((20.0, top + 8.0)));
    let _ = writeln!(out, "<g transform=\"translate({half} {half})\">");
    rings(&mut out);
    declared(c, &mut out);
    footprint(c, &mut out);
    for (name, colour, dashes, _) in DRAWN {
        if let Some(curve) = curves.iter().find(|k| k.name == name) {
            line(&curve.slopes, colour, dashes, &mut out);
        }
    }
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
        // whoever turns on the slope stands across it on the way
        let _ = writeln!(
            out,
            "<circle r=\"{along:.1}\" fill=\"none\" stroke=\"#b07000\" stroke-dasharray=\"2 5\"/>"
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

fn line(curve: &[f64], colour: &str, dashes: &str, out: &mut String) {
    let mut path = String::new();
    for (k, angle) in curve.iter().enumerate() {
        #[allow(clippy::cast_precision_loss)]
        let toward = k as f64 * std::f64::consts::TAU / curve.len() as f64;
        let (x, y) = place(*angle, toward);
        let _ = write!(path, "{}{x:.1} {y:.1}", if k == 0 { "M" } else { "L" });
    }
    let dashes = if dashes.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{dashes}\"") };
    let _ =
        writeln!(out, "<path d=\"{path}Z\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"2.5\"{dashes}/>");
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
    for (i, (_, colour, dashes, words)) in DRAWN.iter().rev().enumerate() {
        #[allow(clippy::cast_precision_loss)]
        let y = SIZE + 4.0 + 17.0 * i as f64;
        let least = if i == 0 { format!("; least {}", angle("tip.any")) } else { String::new() };
        let _ = writeln!(
            out,
            "<path d=\"M20 {}h34\" stroke=\"{colour}\" stroke-width=\"2.5\" stroke-dasharray=\"{}\"/>",
            y - 4.0,
            if dashes.is_empty() { "none" } else { dashes }
        );
        let _ = writeln!(
            out,
            "<text x=\"62\" y=\"{y}\" fill=\"#303030\">slope that tips the chair, {words}{least}</text>"
        );
    }
    let lines = [
        "Each with the casters in their worst swivel and with whatever rides along and tips it soonest.",
        "Orange: slopes of the path; dotted, for whoever turns on it. What lies between is the margin.",
        "A rigid body, computed: not an ISO 7176-1 test. Beyond 35 degrees a curve is drawn at 35.",
    ];
    for (i, text) in lines.iter().enumerate() {
        #[allow(clippy::cast_precision_loss)]
        let y = SIZE + 55.0 + 17.0 * i as f64;
        let _ = writeln!(out, "<text x=\"20\" y=\"{y}\" fill=\"#303030\">{text}</text>");
    }
}
