//! The sheet that a bent chair is drawn on: its scale of uses, strokes, legend and title.

use crate::scene::bodies;
use crate::title::{self, Title};
use crate::view::{Bounds, Point, View, escape};
use chairwright_driver::{Compilation, case_words};
use chairwright_strength::{Bent, Station};
use std::fmt::Write as _;

/// The greatest shift is drawn no longer than this, mm.
const LONGEST: f64 = 60.0;

/// A step of the scale: up to which use, breadth in heights of a letter, colour, words.
pub(crate) struct Step {
    pub to: f64,
    broad: f64,
    colour: &'static str,
    words: &'static str,
}

/// Each step is broader and darker than the one before.
pub(crate) const STEPS: [Step; 4] = [
    Step { to: 0.5, broad: 0.16, colour: "#9aa89a", words: "up to 50 %" },
    Step { to: 0.8, broad: 0.30, colour: "#5d8a86", words: "up to 80 %" },
    Step { to: 1.0, broad: 0.46, colour: "#84561b", words: "up to 100 %" },
    Step { to: f64::INFINITY, broad: 0.70, colour: "#4b0d2b", words: "beyond 100 %" },
];

pub(crate) struct Sheet {
    pub frame: Bounds,
    /// Height of letters in mm of the chair.
    pub text: f64,
    /// How many times as large shifts are drawn.
    pub scale: f64,
}

impl Sheet {
    pub(crate) fn new(c: &Compilation, bent: &Bent) -> Sheet {
        let most = greatest(bent).map_or(0.0, |(m, _)| m * 1e3);
        let scale = [500.0, 200.0, 100.0, 50.0, 20.0, 10.0, 5.0, 2.0];
        let scale = scale.into_iter().find(|k| k * most <= LONGEST).unwrap_or(1.0);
        let mut frame = Bounds::default();
        for solid in bodies(c).iter().flat_map(|b| &b.solids) {
            solid.mesh(12).points.iter().for_each(|p| frame.take(View::Corner.project(*p).0));
        }
        let mut sheet = Sheet { frame, text: 0.0, scale };
        let shapes = bent.bars.iter().flat_map(|b| &b.stations);
        let points: Vec<Point> = shapes.map(|s| sheet.at(s)).collect();
        points.into_iter().for_each(|p| sheet.frame.take(p));
        sheet.text = (sheet.frame.width().max(sheet.frame.height()) / 46.0).clamp(12.0, 40.0);
        sheet
    }

    /// Where a shifted station is drawn.
    pub(crate) fn at(&self, s: &Station) -> Point {
        View::Corner.project(s.place + s.shift * self.scale).0
    }
}

/// The greatest shift, m, and the part that has it.
fn greatest(bent: &Bent) -> Option<(f64, &str)> {
    let all = bent.bars.iter().flat_map(|b| b.stations.iter().map(|s| (s.shift.norm(), b.name.as_str())));
    all.reduce(|a, b| if b.0 > a.0 { b } else { a })
}

/// A stroke on a white seam, which parts lines that cross; the last step has a white dashed core as well.
pub(crate) fn stroke(path: &str, step: Option<usize>, name: &str) -> String {
    let class = step.map_or("u".to_owned(), |k| format!("s{k}"));
    let title = if name.is_empty() { String::new() } else { format!("<title>{}</title>", escape(name)) };
    let mut out = format!(
        "<path class=\"seam {class}\" d=\"{path}\"/><path class=\"{class}\" d=\"{path}\">{title}</path>"
    );
    if step == Some(STEPS.len() - 1) {
        let _ = write!(out, "<path class=\"core\" d=\"{path}\"/>");
    }
    out.push('\n');
    out
}

pub(crate) fn legend(sheet: &mut Sheet, bent: &Bent) -> String {
    let t = sheet.text;
    let (left, mut y) = (sheet.frame.low.0, sheet.frame.high.1 + 2.6 * t);
    let mut out = String::new();
    let mut put = |x: f64, y: f64, words: &str| {
        let _ = writeln!(out, "<text x=\"{x:.1}\" y=\"{y:.1}\">{words}</text>");
    };
    put(left, y, "Use of what is sound, with safety:");
    let mut samples = String::new();
    let mut sample = |x: f64, y: f64, step: Option<usize>| {
        let path = format!("M{:.1} {:.1}h{:.1}", x, y - 0.35 * t, 3.0 * t);
        samples.push_str(&stroke(&path, step, ""));
    };
    y += 2.0 * t;
    for (k, s) in STEPS.iter().enumerate() {
        #[allow(clippy::cast_precision_loss)]
        let x = left + 12.0 * t * k as f64;
        sample(x, y, Some(k));
        put(x + 3.6 * t, y, s.words);
    }
    y += 2.0 * t;
    sample(left, y, None);
    put(left + 3.6 * t, y, "inside a fitting, or not judged");
    let x = left + 24.0 * t;
    let _ = writeln!(
        samples,
        "<path class=\"ghost\" d=\"M{x:.1} {:.1}h{:.1}v{:.1}h-{:.1}Z\"/>",
        y - 0.75 * t,
        3.0 * t,
        0.8 * t,
        3.0 * t
    );
    put(x + 3.6 * t, y, "the chair without the load");
    let most = greatest(bent)
        .map_or(String::new(), |(m, name)| format!("; the greatest is {:.1} mm, of {}", m * 1e3, escape(name)));
    let times = if sheet.scale > 1.0 {
        format!("Shifts are drawn {:.0} times as large as they are{most}.", sheet.scale)
    } else {
        format!("Shifts are drawn as large as they are{most}: far too soft, and more than can be told well.")
    };
    y += 2.0 * t;
    put(left, y, &times);
    y += 1.5 * t;
    put(
        left,
        y,
        "Wheels, fittings and bought parts are drawn unmoved. Computed, not tested; no ISO 7176 result.",
    );
    sheet.frame.take((left + 56.0 * t, y + 0.5 * t));
    out + &samples
}

pub(crate) fn wrap(c: &Compilation, sheet: &Sheet, bent: &Bent, body: &str) -> String {
    let t = sheet.text;
    let seen =
        format!("bent {} — {}", case_words(&c.design, &c.strength.cases[bent.case].kind), View::Corner.title());
    let title = Title::new(c, &seen, (t * 1.15, sheet.frame.width()));
    let head = title.height() + 1.5 * t;
    let (x, y) = (sheet.frame.low.0 - 1.5 * t, sheet.frame.low.1 - head);
    let (w, h) = (sheet.frame.width() + 3.0 * t, sheet.frame.height() + head + 1.5 * t);
    let line = t / 12.0;
    let mut steps = String::new();
    for (k, s) in STEPS.iter().enumerate() {
        let _ = writeln!(steps, ".s{k}{{stroke:{};stroke-width:{:.2}}}", s.colour, s.broad * t);
        let _ = writeln!(steps, ".seam.s{k}{{stroke:#fff;stroke-width:{:.2}}}", s.broad * t + 2.0 * line);
    }
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"{x:.1} {y:.1} {w:.1} {h:.1}\" width=\"{:.0}\" height=\"{:.0}\" role=\"img\">\n\
         <title>{}</title>\n\
         <style>\n\
         path{{fill:none;stroke-linejoin:round;stroke-linecap:round}}\n\
         .ghost{{fill:#fff;stroke:#c9cdd0;stroke-width:{line:.2}}}\n\
         {steps}\
         .u{{stroke:#5a6066;stroke-width:{:.2};stroke-dasharray:{:.2} {:.2}}}.seam.u{{stroke:#fff;stroke-width:{:.2};stroke-dasharray:none}}\n\
         .core{{stroke:#fff;stroke-width:{:.2};stroke-linecap:butt;stroke-dasharray:{:.2} {:.2}}}\n\
         .lead{{stroke:#1b1f23;stroke-width:{:.2}}}.dot{{fill:#fff;stroke:#1b1f23;stroke-width:{:.2}}}\n\
         text{{font-family:DejaVu Sans,Arial,sans-serif;font-size:{t:.1}px;fill:#1b1f23;stroke:none}}.name{{font-weight:bold}}\n\
         </style>\n\
         <rect x=\"{x:.1}\" y=\"{y:.1}\" width=\"{w:.1}\" height=\"{h:.1}\" fill=\"#fff\"/>\n\
         {}{body}</svg>\n",
        w.min(1100.0),
        h * w.min(1100.0) / w,
        title::plain(c, &seen),
        0.12 * t,
        0.02 * t,
        0.28 * t,
        0.40 * t,
        0.20 * t,
        0.5 * t,
        0.4 * t,
        line,
        1.5 * line,
        title.draw((x + 1.5 * t, y + 0.5 * t)),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// In black and white each step must still be broader and darker than the one before: luminance after ITU-R BT.709, 0.2126 R +
    /// 0.7152 G + 0.0722 B.
    #[test]
    fn the_scale_reads_without_colour() {
        let grey = |s: &Step| {
            let part = |k: usize| f64::from(u8::from_str_radix(&s.colour[k..k + 2], 16).unwrap());
            0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
        };
        for pair in STEPS.windows(2) {
            assert!(pair[1].to > pair[0].to && pair[1].broad > 1.4 * pair[0].broad);
            assert!(grey(&pair[1]) < grey(&pair[0]) - 25.0, "{} {}", grey(&pair[0]), grey(&pair[1]));
        }
    }
}
