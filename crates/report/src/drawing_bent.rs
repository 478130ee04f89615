//! How the chair bends under a load: shape and use along every part, over a ghost of the chair without the load.
//! Use is told by the breadth and the darkness of the line together, so that it also reads in black and white.

use crate::bar::bar;
use crate::bent_sheet::{STEPS, Sheet, legend, stroke, wrap};
use crate::order::order;
use crate::paint::paint;
use crate::scene::{bodies, pose};
use crate::view::{Point, View, escape};
use chairwright_driver::{BOTH, Compilation, percent, without_side};
use chairwright_strength::{Bent, BentBar, Station};
use std::fmt::Write as _;

/// Parts that are named.
const NAMED: usize = 5;

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
    body.push_str(&bar(c, &mut sheet.frame, sheet.text, ", square to the line of sight"));
    wrap(c, &sheet, bent, &body)
}

fn ghost(c: &Compilation) -> String {
    let patches = order(bodies(c).iter().flat_map(|b| paint(View::Corner, b)).collect());
    let mut out = String::new();
    for p in patches {
        let path = p.path();
        let _ = match p.rim_path() {
            None => writeln!(out, "<path class=\"ghost\" fill-rule=\"evenodd\" d=\"{path}\"/>"),
            Some(rim) => writeln!(
                out,
                "<path class=\"ghost\" style=\"stroke:none\" d=\"{path}\"/><path class=\"ghost\" style=\"fill:none\" d=\"{rim}\"/>"
            ),
        };
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
