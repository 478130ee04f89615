//! How the chair bends under a load: shape and use along every part, over a ghost of the chair without the load.
//! Use is told by the breadth and the darkness of the line together, so that it also reads in black and white.

use crate::paint::paint;
use crate::scene::{bodies, pose};
use crate::view::{Bounds, Point, View, escape};
use chairwright_driver::{BOTH, Compilation, case_words, percent, without_side};
use chairwright_strength::{Bent, BentBar, Station};
use std::fmt::Write as _;

/// The greatest shift is drawn no longer than this, mm.
const LONGEST: f64 = 60.0;
/// Parts that are named.
const NAMED: usize = 5;

/// A step of the scale: up to which use, breadth in heights of a letter, colour, words.
struct Step {
    to: f64,
    broad: f64,
    colour: &'static str,
    words: &'static str,
}

/// Each step is broader and darker than the one before.
const STEPS: [Step; 4] = [
    Step { to: 0.5, broad: 0.16, colour: "#9aa89a", words: "up to 50 %" },
    Step { to: 0.8, broad: 0.30, colour: "#5d8a86", words: "up to 80 %" },
    Step { to: 1.0, broad: 0.46, colour: "#84561b", words: "up to 100 %" },
    Step { to: f64::INFINITY, broad: 0.70, colour: "#4b0d2b", words: "beyond 100 %" },
];

/// The drawings of all bent shapes that there are: the name of the file and the drawing.
#[must_use]
pub fn bent_drawings(c: &Compilation) -> Vec<(&'static str, String)> {
    let first = c.strength.items.first().map(|i| i.case);
    let shapes = c.strength.bent.iter().filter(|b| b.bars.iter().any(|x| x.stations.len() > 1));
    shapes
        .map(|b| (if Some(b.case) == first { "bent_worst.svg" } else { "bent_seated.svg" }, one(c, b)))
        .collect()
}

fn one(c: &Compilation, bent: &Bent) -> String {
    let mut sheet = Sheet::new(c, bent);
    let mut body = ghost(c);
    body.push_str(&lines(&sheet, bent));
    body.push_str(&names(c, &mut sheet, bent));
    body.push_str(&legend(&mut sheet, bent));
    wrap(c, &sheet, bent, &body)
}

struct Sheet {
    frame: Bounds,
    /// Height of letters in mm of the chair.
    text: f64,
    /// How many times as large shifts are drawn.
    scale: f64,
}

impl Sheet {
    fn new(c: &Compilation, bent: &Bent) -> Sheet {
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
    fn at(&self, s: &Station) -> Point {
        View::Corner.project(s.place + s.shift * self.scale).0
    }
}

/// The greatest shift, m, and the part that has it.
fn greatest(bent: &Bent) -> Option<(f64, &str)> {
    let all = bent.bars.iter().flat_map(|b| b.stations.iter().map(|s| (s.shift.norm(), b.name.as_str())));
    all.reduce(|a, b| if b.0 > a.0 { b } else { a })
}

fn ghost(c: &Compilation) -> String {
    let mut patches: Vec<_> = bodies(c).iter().flat_map(|b| paint(View::Corner, b)).collect();
    patches.sort_by(|a, b| a.near.total_cmp(&b.near));
    let mut out = String::new();
    for p in patches {
        let _ = writeln!(out, "<path class=\"ghost\" fill-rule=\"evenodd\" d=\"{}\"/>", p.path);
    }
    out
}

/// The step of a stretch between two stations: the worse of both; `None` where neither has a use.
fn step(a: &Station, b: &Station) -> Option<usize> {
    let used = match (a.used, b.used) {
        (Some(x), Some(y)) => x.max(y),
        (one, other) => one.or(other)?,
    };
    STEPS.iter().position(|s| used <= s.to)
}

/// Every bar as strokes of equal step, the farther ones first.
fn lines(sheet: &Sheet, bent: &Bent) -> String {
    let near = |b: &BentBar| {
        b.stations.iter().map(|s| View::Corner.project(s.place).1).fold(f64::NEG_INFINITY, f64::max)
    };
    let mut bars: Vec<&BentBar> = bent.bars.iter().collect();
    bars.sort_by(|a, b| near(a).total_cmp(&near(b)));
    let mut out = String::new();
    for bar in bars {
        let steps: Vec<Option<usize>> = bar.stations.windows(2).map(|w| step(&w[0], &w[1])).collect();
        let mut from = 0;
        while from < steps.len() {
            let mut to = from;
            while to + 1 < steps.len() && steps[to + 1] == steps[from] {
                to += 1;
            }
            let points: Vec<Point> = bar.stations[from..=to + 1].iter().map(|s| sheet.at(s)).collect();
            out.push_str(&stroke(&open(&points), steps[from], &bar.name));
            from = to + 1;
        }
    }
    out
}

fn open(points: &[Point]) -> String {
    let mut path = String::new();
    for (k, p) in points.iter().enumerate() {
        let _ = write!(path, "{}{:.1} {:.1}", if k == 0 { "M" } else { "L" }, p.0, p.1);
    }
    path
}

/// A stroke on a white seam, which parts lines that cross; the last step has a white dashed core as well.
fn stroke(path: &str, step: Option<usize>, name: &str) -> String {
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

/// A part to name: its name, its use, where it is and how near to the eye.
struct Named {
    name: String,
    used: f64,
    at: Point,
    near: f64,
}

/// What gives first in this case, then the parts that are used most.
fn weakest(c: &Compilation, sheet: &Sheet, bent: &Bent) -> Vec<Named> {
    let mut out: Vec<Named> = Vec::new();
    let mut bars: Vec<Named> = Vec::new();
    for bar in &bent.bars {
        let used = bar.stations.iter().filter_map(|s| s.used.map(|u| (u, s)));
        let Some((used, s)) = used.reduce(|a, b| if b.0 > a.0 { b } else { a }) else { continue };
        let near = View::Corner.project(s.place).1;
        bars.push(Named { name: bar.name.clone(), used, at: sheet.at(s), near });
    }
    // of two sides that say the same the nearer one stands for both
    let key = |n: &Named| (n.used * 100.0).ceil();
    bars.sort_by(|a, b| key(b).total_cmp(&key(a)).then(b.near.total_cmp(&a.near)));
    if let Some((name, used)) = c.strength.worst_of_case.get(bent.case).and_then(Option::as_ref)
        && !bars.iter().any(|b| b.name == *name)
        && let Some(at) = place(c, sheet, bent, name)
    {
        out.push(Named { name: name.clone(), used: *used, at, near: 0.0 });
    }
    for bar in bars {
        let plain = without_side(&bar.name);
        let twin = out.iter().position(|n| without_side(bare(&n.name)) == plain);
        match twin {
            Some(k) if out[k].name != bar.name && key(&out[k]) == key(&bar) => {
                out[k].name = format!("{plain}{BOTH}");
            }
            Some(_) => {}
            None if out.len() < NAMED => out.push(bar),
            None => {}
        }
    }
    out
}

fn bare(name: &str) -> &str {
    name.trim_end_matches(BOTH)
}

/// Where a joint or a fastening is drawn.
fn place(c: &Compilation, sheet: &Sheet, bent: &Bent, name: &str) -> Option<Point> {
    let of = |name: &str| -> Vec<&Station> {
        bent.bars.iter().filter(|b| b.name == name).flat_map(|b| &b.stations).collect()
    };
    if let Some((a, b)) = name.split_once(" to ") {
        let (a, b) = (of(a), of(b));
        let pairs = a.iter().flat_map(|p| b.iter().map(move |q| (*p, (p.place - q.place).norm())));
        return pairs.min_by(|x, y| x.1.total_cmp(&y.1)).map(|(s, _)| sheet.at(s));
    }
    let joint = c.design.joints.values().find(|j| j.name == name)?;
    let at = pose(c).place(joint.at);
    let all = bent.bars.iter().flat_map(|b| &b.stations);
    all.min_by(|x, y| (x.place - at).norm().total_cmp(&(y.place - at).norm())).map(|s| sheet.at(s))
}

/// Names beside the drawing, each with a line to its place.
fn names(c: &Compilation, sheet: &mut Sheet, bent: &Bent) -> String {
    let t = sheet.text;
    let mut all = weakest(c, sheet, bent);
    all.sort_by(|a, b| a.at.1.total_cmp(&b.at.1));
    let x = sheet.frame.high.0 + 1.5 * t;
    let gap = 3.2 * t;
    let mut y = sheet.frame.low.1 + t;
    let mut out = String::new();
    for (k, n) in all.iter().enumerate() {
        // room is kept for those below
        #[allow(clippy::cast_precision_loss)]
        let room = sheet.frame.high.1 - gap * (all.len() - 1 - k) as f64;
        y = n.at.1.max(y).min(room.max(y));
        let words = format!("{} of what is sound", percent(n.used));
        let _ = writeln!(
            out,
            "<path class=\"lead\" d=\"M{:.1} {:.1}L{:.1} {y:.1}\"/><circle class=\"dot\" cx=\"{:.1}\" cy=\"{:.1}\" r=\"{:.1}\"/>\
             <text class=\"name\" x=\"{x:.1}\" y=\"{:.1}\">{}</text><text x=\"{x:.1}\" y=\"{:.1}\">{words}</text>",
            n.at.0,
            n.at.1,
            x - 0.4 * t,
            n.at.0,
            n.at.1,
            0.3 * t,
            y + 0.1 * t,
            escape(&n.name),
            y + 1.3 * t
        );
        let wide = n.name.chars().count().max(words.chars().count());
        #[allow(clippy::cast_precision_loss)]
        sheet.frame.take((x + 0.66 * t * wide as f64, y + 1.5 * t));
        y += gap;
    }
    out
}

fn legend(sheet: &mut Sheet, bent: &Bent) -> String {
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

fn wrap(c: &Compilation, sheet: &Sheet, bent: &Bent, body: &str) -> String {
    let t = sheet.text;
    let (x, y) = (sheet.frame.low.0 - 1.5 * t, sheet.frame.low.1 - 5.0 * t);
    let (w, h) = (sheet.frame.width() + 3.0 * t, sheet.frame.height() + 6.5 * t);
    let mut title = escape(&c.design.name.replace('_', " "));
    if c.has_errors() {
        title.insert_str(0, "NOT TO BE BUILT — ");
    }
    if let Some(variant) = &c.design.variant {
        let _ = write!(title, ", variant {}", escape(variant));
    }
    let case = escape(&case_words(&c.design, &c.strength.cases[bent.case].kind));
    let line = t / 12.0;
    let mut steps = String::new();
    for (k, s) in STEPS.iter().enumerate() {
        let _ = writeln!(steps, ".s{k}{{stroke:{};stroke-width:{:.2}}}", s.colour, s.broad * t);
        let _ = writeln!(steps, ".seam.s{k}{{stroke:#fff;stroke-width:{:.2}}}", s.broad * t + 2.0 * line);
    }
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"{x:.1} {y:.1} {w:.1} {h:.1}\" width=\"{:.0}\" height=\"{:.0}\" role=\"img\">\n\
         <title>{title}: bent {case}</title>\n\
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
         <text x=\"{:.1}\" y=\"{:.1}\" style=\"font-size:{:.1}px\">{title}</text>\n\
         <text x=\"{:.1}\" y=\"{:.1}\">bent {case} — {}</text>\n{body}</svg>\n",
        w.min(1100.0),
        h * w.min(1100.0) / w,
        0.12 * t,
        0.02 * t,
        0.28 * t,
        0.40 * t,
        0.20 * t,
        0.5 * t,
        0.4 * t,
        line,
        1.5 * line,
        x + 1.5 * t,
        y + 2.0 * t,
        t * 1.25,
        x + 1.5 * t,
        y + 3.6 * t,
        View::Corner.title(),
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
