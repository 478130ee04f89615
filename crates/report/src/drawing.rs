//! Dimensioned views of the chair on the ground, as SVG in millimetres.

use crate::bar::bar;
use crate::order::order;
use crate::paint::{limb, paint};
use crate::patch::Patch;
use crate::scene::{bodies, pose, rider};
use crate::title::{self, Title};
use crate::view::{Bounds, Point, View, escape};
use chairwright_checks::ankle_height;
use chairwright_design::Vec3;
use chairwright_driver::Compilation;
use chairwright_quantity::{Dimension, Quantity};
use std::fmt::Write as _;

/// Draws one view.
#[must_use]
pub fn drawing(c: &Compilation, view: View) -> String {
    let bodies = bodies(c);
    let mut patches: Vec<Patch> = bodies.iter().flat_map(|b| paint(view, b)).collect();
    patches.extend(crate::holes::holes(c, view));
    patches.extend(limbs(c).iter().map(|l| limb(view, &l.name, l.from, l.to, l.breadth / 1e3)));
    let patches = order(patches);
    let mut frame = Bounds::default();
    for body in &bodies {
        for solid in &body.solids {
            for p in solid.mesh(16).points {
                frame.take(view.project(p).0);
            }
        }
    }
    for limb in limbs(c) {
        for p in [limb.from, limb.to].map(|p| view.project(p).0) {
            frame.take((p.0 - limb.breadth / 2.0, p.1 - limb.breadth / 2.0));
            frame.take((p.0 + limb.breadth / 2.0, p.1 + limb.breadth / 2.0));
        }
    }
    if frame.is_empty() {
        frame.take((0.0, 0.0));
    }
    let mut sheet = Sheet { out: String::new(), frame, text: 0.0 };
    sheet.text = (sheet.frame.width().max(sheet.frame.height()) / 52.0).clamp(12.0, 40.0);
    let body = compose(c, view, &patches, &mut sheet);
    wrap(c, view, &sheet, &body)
}

/// Whether it stands on its wheels: only then there is a ground, and heights above it.
fn stands(c: &Compilation) -> bool {
    c.checked.settled.is_some()
}

struct Sheet {
    out: String,
    frame: Bounds,
    /// Height of letters in mm of the chair.
    text: f64,
}

fn wrap(c: &Compilation, view: View, sheet: &Sheet, body: &str) -> String {
    let t = sheet.text;
    let seen = if stands(c) {
        view.title().to_owned()
    } else {
        format!("{}; it does not stand on its wheels", view.title())
    };
    let title = Title::new(c, &seen, (t * 1.25, sheet.frame.width() + 1.6 * t));
    let head = title.height() + 2.0 * t;
    let (x, y) = (sheet.frame.low.0 - 2.0 * t, sheet.frame.low.1 - head);
    let (w, h) = (sheet.frame.width() + 4.0 * t, sheet.frame.height() + head + 2.0 * t);
    let stroke = t / 12.0;
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"{x:.1} {y:.1} {w:.1} {h:.1}\" width=\"{:.0}\" height=\"{:.0}\" role=\"img\">\n\
         <title>{}</title>\n\
         <style>\n\
         path{{stroke:#1b1f23;stroke-width:{stroke:.2};stroke-linejoin:round}}\n\
         .frame{{fill:#fdfcf8}}.joint{{fill:#d8dadb}}.board{{fill:#efe6d2}}.soft{{fill:#e3d7c3}}.wheel{{fill:#8b8f93}}.part{{fill:#c6ccd1}}\n\
         .rider{{fill:#1b1f23;fill-opacity:.13;stroke:none}}.piece{{stroke:none}}.rim{{fill:none}}\n\
         .hole{{fill:#fff}}.axis{{fill:none;stroke-width:{:.2}}}\n\
         .ground{{stroke:#1b1f23;stroke-width:{:.2}}}\n\
         .dim{{stroke:#3a4a5a;stroke-width:{:.2};fill:none}}.tip{{fill:#3a4a5a;stroke:none}}\n\
         text{{font-family:DejaVu Sans,Arial,sans-serif;font-size:{t:.1}px;fill:#1b1f23;stroke:none}}\n\
         </style>\n\
         <rect x=\"{x:.1}\" y=\"{y:.1}\" width=\"{w:.1}\" height=\"{h:.1}\" fill=\"#fff\"/>\n\
         {}{body}</svg>\n",
        w.min(1100.0 * w / w.max(1.0)),
        h * w.min(1100.0) / w,
        title::plain(c, &seen),
        stroke * 0.7,
        stroke * 1.6,
        stroke * 0.8,
        title.draw((x + 1.2 * t, y + 0.5 * t)),
    )
}

fn compose(c: &Compilation, view: View, patches: &[Patch], sheet: &mut Sheet) -> String {
    let mut out = String::new();
    if matches!(view, View::Side | View::Front) && stands(c) {
        let (a, b) = (sheet.frame.low.0 - sheet.text, sheet.frame.high.0 + sheet.text);
        let _ = writeln!(out, "<path class=\"ground\" d=\"M{a:.1} 0H{b:.1}\"/>");
    }
    patches.iter().for_each(|p| draw(p, &mut out));
    if let Some(ahead) = c.figures.si("com.total.ahead")
        && let (Some(up), Some(left)) = (c.figures.si("com.total.height"), c.figures.si("com.total.left"))
    {
        out.push_str(&centre_mark(view.project(Vec3::new(ahead, left, up)).0, sheet.text));
    }
    dimensions(c, view, sheet);
    out.push_str(&sheet.out);
    out.push_str(&bar(c, &mut sheet.frame, sheet.text, ""));
    out
}

/// A patch: as a whole, or what fills it and then what is drawn of its outline.
fn draw(p: &Patch, out: &mut String) {
    let title = format!("<title>{}</title>", escape(&p.name));
    let (class, path) = (p.class, p.path());
    let _ = match p.rim_path() {
        None => writeln!(out, "<path class=\"{class}\" fill-rule=\"evenodd\" d=\"{path}\">{title}</path>"),
        Some(rim) => writeln!(
            out,
            "<path class=\"{class} piece\" d=\"{path}\">{title}</path><path class=\"rim\" d=\"{rim}\"/>"
        ),
    };
}

/// A limb as a broad line, its breadth in mm.
struct Limb {
    name: String,
    from: Vec3,
    to: Vec3,
    breadth: f64,
}

/// The rider's segments as broad lines, feet from the ankle down to the sole, and a head above the shoulders. Other breadths are
/// for the eye.
fn limbs(c: &Compilation) -> Vec<Limb> {
    let mut all = Vec::new();
    let sole = c.design.rider.get("stature").map_or(0.0, ankle_height);
    for (name, from, to) in rider(c) {
        if name.ends_with("foot") && sole > 0.0 {
            let down = (to - from).cross(Vec3::Y).unit().unwrap_or(Vec3::Z) * (-sole / 2.0);
            all.push(Limb { name, from: from + down, to: to + down, breadth: sole * 1e3 });
            continue;
        }
        let length = (to - from).norm() * 1e3;
        let trunk = name.contains("trunk");
        all.push(Limb { name, from, to, breadth: length * if trunk { 0.36 } else { 0.26 } });
        if trunk {
            let head = to + (to - from) * 0.38;
            all.push(Limb { name: "head".to_owned(), from: head, to: head, breadth: length * 0.40 });
        }
    }
    all
}

/// The usual sign for a centre of mass: a circle in four quarters.
fn centre_mark((x, y): Point, text: f64) -> String {
    let r = text * 0.7;
    format!(
        "<g><path fill=\"#fff\" d=\"M{x:.1} {:.1}A{r:.1} {r:.1} 0 1 1 {x:.1} {:.1}A{r:.1} {r:.1} 0 1 1 {x:.1} {:.1}Z\"/>\
         <path fill=\"#1b1f23\" d=\"M{x:.1} {y:.1}V{:.1}A{r:.1} {r:.1} 0 0 1 {:.1} {y:.1}ZM{x:.1} {y:.1}V{:.1}A{r:.1} {r:.1} 0 0 1 {:.1} {y:.1}Z\"/>\
         <title>centre of mass of chair and rider</title></g>\n",
        y - r,
        y + r,
        y - r,
        y - r,
        x + r,
        y + r,
        x - r
    )
}

fn dimensions(c: &Compilation, view: View, sheet: &mut Sheet) {
    let get = |name: &str| c.figures.si(name);
    let contacts = c.checked.settled.as_ref().map(|s| s.contacts.clone()).unwrap_or_default();
    let mean = |caster: bool, f: fn(&Vec3) -> f64| {
        let v: Vec<f64> = contacts.iter().filter(|k| k.caster == caster).map(|k| f(&k.at) * 1e3).collect();
        #[allow(clippy::cast_precision_loss)]
        let n = v.len() as f64;
        (!v.is_empty()).then(|| v.iter().sum::<f64>() / n)
    };
    let span = |caster: bool| {
        let v: Vec<f64> = contacts.iter().filter(|k| k.caster == caster).map(|k| k.at.y * 1e3).collect();
        let low = v.iter().copied().fold(f64::INFINITY, f64::min);
        (v.len() > 1).then(|| (low, v.iter().copied().fold(f64::NEG_INFINITY, f64::max)))
    };
    let drawn = sheet.frame;
    let body = extent(c, view);
    let floor = if stands(c) { 0.0 } else { body.high.1 };
    match view {
        View::Side => {
            if let (Some(base), Some(rear)) = (get("wheelbase"), mean(false, |p| p.x)) {
                sheet.level(c, (rear, rear + base * 1e3), drawn.high.1, 1, "wheelbase");
            }
            sheet.level(c, (body.low.0, body.high.0), drawn.high.1, 2, "length");
            sheet.upright(c, (floor, body.low.1), drawn.low.0, 2, true);
            let mut seats =
                c.design.supports.iter().filter(|s| s.kind == chairwright_design::SupportKind::Seat);
            if let Some(seat) = seats.next().filter(|_| stands(c)) {
                let at = |p: Vec3| view.project(pose(c).place(p)).0;
                sheet.upright(c, (0.0, at(seat.to).1), drawn.high.0, 1, false);
                sheet.upright(c, (0.0, at(seat.from).1), drawn.low.0, 1, true);
            }
        }
        View::Front => {
            if let Some(track) = span(false) {
                sheet.level(c, track, drawn.high.1, 1, "track");
            }
            sheet.level(c, (body.low.0, body.high.0), drawn.high.1, 2, "width");
            if let Some(seat) = get("seat.width") {
                sheet.level(c, (-seat * 500.0, seat * 500.0), drawn.high.1, 3, "seat");
            }
            sheet.upright(c, (floor, body.low.1), drawn.low.0, 1, true);
        }
        View::Top => {
            if let (Some(base), Some(rear)) = (get("wheelbase"), mean(false, |p| p.x)) {
                sheet.level(c, (rear, rear + base * 1e3), drawn.high.1, 1, "wheelbase");
            }
            sheet.level(c, (body.low.0, body.high.0), drawn.high.1, 2, "length");
            sheet.upright(c, (body.high.1, body.low.1), drawn.low.0, 1, true);
            if let Some((a, b)) = span(true) {
                sheet.upright(c, (-a, -b), drawn.high.0, 1, false);
            }
        }
        View::Corner => {}
    }
}

/// Extent of the chair without its rider.
fn extent(c: &Compilation, view: View) -> Bounds {
    let mut all = Bounds::default();
    let (right, down) = match view {
        View::Side => (Vec3::X, -Vec3::Z),
        View::Front => (Vec3::Y, -Vec3::Z),
        View::Top | View::Corner => (Vec3::X, -Vec3::Y),
    };
    for solid in bodies(c).iter().flat_map(|b| &b.solids) {
        all.take((solid.reach(right) * 1e3, solid.reach(down) * 1e3));
        all.take((-solid.reach(-right) * 1e3, -solid.reach(-down) * 1e3));
    }
    if all.is_empty() {
        all.take((0.0, 0.0));
    }
    all
}

impl Sheet {
    fn size(c: &Compilation, mm: f64) -> String {
        let q = Quantity::from_si(mm.abs() / 1e3, Dimension::LENGTH);
        let pieces = c.display().pieces(q);
        pieces.number.trim_end_matches(".0").to_owned()
    }

    /// A dimension between two places, below the drawing in the given row.
    fn level(&mut self, c: &Compilation, (a, b): Point, edge: f64, row: u8, word: &str) {
        let (t, gap) = (self.text, f64::from(row) * 2.2 * self.text);
        let y = edge + gap;
        self.frame.take((a, y + t));
        self.frame.take((b, y + t));
        let text = format!("{word} {}", Self::size(c, b - a));
        let _ = writeln!(
            self.out,
            "<path class=\"dim\" d=\"M{a:.1} {:.1}V{:.1}M{b:.1} {:.1}V{:.1}M{a:.1} {y:.1}H{b:.1}\"/>{}{}\
             <text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"middle\">{text}</text>",
            edge + t * 0.3,
            y + t * 0.4,
            edge + t * 0.3,
            y + t * 0.4,
            arrow((a, y), (1.0, 0.0), t),
            arrow((b, y), (-1.0, 0.0), t),
            (a + b) / 2.0,
            y - t * 0.3
        );
    }

    /// A dimension between two heights, beside the drawing in the given column.
    fn upright(&mut self, c: &Compilation, (a, b): Point, edge: f64, column: u8, left: bool) {
        let t = self.text;
        let sign = if left { -1.0 } else { 1.0 };
        let x = edge + sign * f64::from(column) * 2.2 * t;
        self.frame.take((x + sign * t * 0.5, a));
        self.frame.take((x + sign * t * 0.5, b));
        let (low, high) = (a.min(b), a.max(b));
        let y = (a + b) / 2.0;
        let near = edge + sign * t * 0.3;
        let _ = writeln!(
            self.out,
            "<path class=\"dim\" d=\"M{near:.1} {low:.1}H{:.1}M{near:.1} {high:.1}H{:.1}M{x:.1} {low:.1}V{high:.1}\"/>{}{}\
             <text x=\"{:.1}\" y=\"{y:.1}\" text-anchor=\"middle\" transform=\"rotate(-90 {:.1} {y:.1})\">{}</text>",
            x + sign * t * 0.4,
            x + sign * t * 0.4,
            arrow((x, low), (0.0, 1.0), t),
            arrow((x, high), (0.0, -1.0), t),
            x - t * 0.3,
            x - t * 0.3,
            Self::size(c, b - a)
        );
    }
}

/// A filled arrow head at a point, along a direction.
fn arrow((x, y): Point, (dx, dy): Point, text: f64) -> String {
    let (l, w) = (text * 0.6, text * 0.18);
    let (bx, by) = (x + dx * l, y + dy * l);
    format!(
        "<path class=\"tip\" d=\"M{x:.1} {y:.1}L{:.1} {:.1}L{:.1} {:.1}Z\"/>",
        bx - dy * w,
        by + dx * w,
        bx + dy * w,
        by - dx * w
    )
}
