//! Dimensioned views of the chair on the ground, as SVG in millimetres.

use crate::scene::{Placed, bodies, pose, rider};
use chairwright_design::Vec3;
use chairwright_driver::Compilation;
use chairwright_frame::{Group, Solid};
use chairwright_quantity::{Dimension, Quantity};
use std::fmt::Write as _;

/// From where the chair is seen.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum View {
    /// From the rider's right, forward to the right.
    Side,
    /// From ahead.
    Front,
    /// From above, forward to the right.
    Top,
}

impl View {
    fn title(self) -> &'static str {
        match self {
            View::Side => "side view, from the rider's right",
            View::Front => "front view",
            View::Top => "top view, forward to the right",
        }
    }

    /// Picture coordinates in mm (right, down) and the nearness to the eye.
    fn project(self, p: Vec3) -> ((f64, f64), f64) {
        let mm = |v: f64| v * 1e3;
        match self {
            View::Side => ((mm(p.x), -mm(p.z)), -mm(p.y)),
            View::Front => ((mm(p.y), -mm(p.z)), mm(p.x)),
            View::Top => ((mm(p.x), -mm(p.y)), mm(p.z)),
        }
    }

    /// Towards the eye.
    fn eye(self) -> Vec3 {
        match self {
            View::Side => -Vec3::Y,
            View::Front => Vec3::X,
            View::Top => Vec3::Z,
        }
    }
}

type Point = (f64, f64);

/// One closed outline to paint.
struct Patch {
    path: String,
    near: f64,
    class: &'static str,
    name: String,
}

/// Draws one view.
#[must_use]
pub fn drawing(c: &Compilation, view: View) -> String {
    let bodies = bodies(c);
    let mut patches: Vec<Patch> = bodies.iter().flat_map(|b| paint(view, b)).collect();
    patches.sort_by(|a, b| a.near.total_cmp(&b.near));
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

#[derive(Clone, Copy)]
struct Bounds {
    low: Point,
    high: Point,
}

impl Default for Bounds {
    fn default() -> Bounds {
        Bounds { low: (f64::INFINITY, f64::INFINITY), high: (f64::NEG_INFINITY, f64::NEG_INFINITY) }
    }
}

impl Bounds {
    fn take(&mut self, p: Point) {
        self.low = (self.low.0.min(p.0), self.low.1.min(p.1));
        self.high = (self.high.0.max(p.0), self.high.1.max(p.1));
    }
    fn is_empty(&self) -> bool {
        self.low.0 > self.high.0
    }
    fn width(&self) -> f64 {
        self.high.0 - self.low.0
    }
    fn height(&self) -> f64 {
        self.high.1 - self.low.1
    }
}

struct Sheet {
    out: String,
    frame: Bounds,
    /// Height of letters in mm of the chair.
    text: f64,
}

fn wrap(c: &Compilation, view: View, sheet: &Sheet, body: &str) -> String {
    let t = sheet.text;
    let (x, y) = (sheet.frame.low.0 - 2.0 * t, sheet.frame.low.1 - 4.5 * t);
    let (w, h) = (sheet.frame.width() + 4.0 * t, sheet.frame.height() + 6.5 * t);
    let mut title = escape(&c.design.name.replace('_', " "));
    if c.has_errors() {
        title.insert_str(0, "NOT TO BE BUILT — ");
    }
    if let Some(variant) = &c.design.variant {
        let _ = write!(title, ", variant {}", escape(variant));
    }
    let stroke = t / 12.0;
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"{x:.1} {y:.1} {w:.1} {h:.1}\" width=\"{:.0}\" height=\"{:.0}\" role=\"img\">\n\
         <title>{title}: {}</title>\n\
         <style>\n\
         path{{stroke:#1b1f23;stroke-width:{stroke:.2};stroke-linejoin:round}}\n\
         .frame{{fill:#fdfcf8}}.joint{{fill:#d8dadb}}.board{{fill:#efe6d2}}.soft{{fill:#e3d7c3}}.wheel{{fill:#8b8f93}}.part{{fill:#c6ccd1}}\n\
         .rider{{stroke:#1b1f23;stroke-opacity:.13;stroke-linecap:round;fill:none}}\n\
         .ground{{stroke:#1b1f23;stroke-width:{:.2}}}\n\
         .dim{{stroke:#3a4a5a;stroke-width:{:.2};fill:none}}.tip{{fill:#3a4a5a;stroke:none}}\n\
         text{{font-family:DejaVu Sans,Arial,sans-serif;font-size:{t:.1}px;fill:#1b1f23;stroke:none}}\n\
         </style>\n\
         <rect x=\"{x:.1}\" y=\"{y:.1}\" width=\"{w:.1}\" height=\"{h:.1}\" fill=\"#fff\"/>\n\
         <text x=\"{:.1}\" y=\"{:.1}\" style=\"font-size:{:.1}px\">{title} — {}</text>\n{body}</svg>\n",
        w.min(1100.0 * w / w.max(1.0)),
        h * w.min(1100.0) / w,
        view.title(),
        stroke * 1.6,
        stroke * 0.8,
        x + 1.2 * t,
        y + 2.0 * t,
        t * 1.25,
        view.title(),
    )
}

fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

fn compose(c: &Compilation, view: View, patches: &[Patch], sheet: &mut Sheet) -> String {
    let mut out = String::new();
    if view != View::Top {
        let (a, b) = (sheet.frame.low.0 - sheet.text, sheet.frame.high.0 + sheet.text);
        let _ = writeln!(out, "<path class=\"ground\" d=\"M{a:.1} 0H{b:.1}\"/>");
    }
    out.push_str(&rider_shadow(c, view));
    for p in patches {
        let _ = writeln!(
            out,
            "<path class=\"{}\" fill-rule=\"evenodd\" d=\"{}\"><title>{}</title></path>",
            p.class,
            p.path,
            escape(&p.name)
        );
    }
    if let Some(ahead) = c.figures.si("com.total.ahead")
        && let (Some(up), Some(left)) = (c.figures.si("com.total.height"), c.figures.si("com.total.left"))
    {
        out.push_str(&centre_mark(view.project(Vec3::new(ahead, left, up)).0, sheet.text));
    }
    dimensions(c, view, sheet);
    out.push_str(&sheet.out);
    out
}

/// A limb as a broad line, in mm.
struct Limb {
    from: Vec3,
    to: Vec3,
    breadth: f64,
}

/// The rider's segments as broad lines, and a head above the shoulders. Breadths are for the eye.
fn limbs(c: &Compilation) -> Vec<Limb> {
    let mut all = Vec::new();
    for (name, from, to) in rider(c) {
        let length = (to - from).norm() * 1e3;
        let trunk = name.contains("trunk");
        all.push(Limb { from, to, breadth: length * if trunk { 0.36 } else { 0.26 } });
        if trunk {
            let head = to + (to - from) * 0.38;
            all.push(Limb { from: head, to: head, breadth: length * 0.40 });
        }
    }
    all
}

fn rider_shadow(c: &Compilation, view: View) -> String {
    let mut out = String::new();
    for limb in limbs(c) {
        let (p, q) = (view.project(limb.from).0, view.project(limb.to).0);
        let _ = writeln!(
            out,
            "<path class=\"rider\" style=\"stroke-width:{:.1}\" d=\"M{:.1} {:.1}L{:.1} {:.1}\"/>",
            limb.breadth, p.0, p.1, q.0, q.1
        );
    }
    out
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

fn class(body: &Placed, solid: &Solid) -> &'static str {
    match (body.group, body.fitting) {
        (_, true) => "joint",
        (Group::Wheel | Group::Caster, _) if matches!(solid, Solid::Ring { .. }) => "wheel",
        (Group::Wheel | Group::Caster | Group::Part, _) => "part",
        (Group::Support, _) => "soft",
        (Group::Frame, _) if matches!(solid, Solid::Bar { .. }) => "frame",
        (Group::Frame, _) => "board",
    }
}

fn paint(view: View, body: &Placed) -> Vec<Patch> {
    let mut patches = Vec::new();
    for solid in &body.solids {
        let class = class(body, solid);
        let mut push = |path: String, near: f64| {
            patches.push(Patch { path, near, class, name: body.name.clone() });
        };
        match solid {
            Solid::Bar { from, to, outer, .. } => bar(view, *from, *to, *outer, &mut push),
            Solid::Ring { centre, axle, radius, section, hub } => {
                ring(view, (*centre, *axle), (*radius, *section, *hub), &mut push);
            }
            Solid::Brick { .. } | Solid::Prism { .. } => faces(view, solid, &mut push),
        }
    }
    patches
}

fn closed(points: &[Point]) -> String {
    let mut path = String::new();
    for (i, p) in points.iter().enumerate() {
        let _ = write!(path, "{}{:.1} {:.1}", if i == 0 { "M" } else { "L" }, p.0, p.1);
    }
    path.push('Z');
    path
}

/// Outline of a round bar, and the end that faces the eye.
fn bar(view: View, from: Vec3, to: Vec3, radius: f64, push: &mut dyn FnMut(String, f64)) {
    let axis = (to - from).unit().unwrap_or(Vec3::X);
    let ring = |centre: Vec3| -> Vec<Point> {
        circle(centre, axis, radius, 28).into_iter().map(|p| view.project(p).0).collect()
    };
    let (a, b) = (ring(from), ring(to));
    let hull = hull(&[a.clone(), b.clone()].concat());
    let near = view.project(from.mix(to, 0.5)).1 + radius * 1e3;
    push(closed(&hull), near);
    let slope = axis.dot(view.eye());
    if slope.abs() > 0.05 {
        let end = if slope > 0.0 { (b, to) } else { (a, from) };
        push(closed(&end.0), view.project(end.1).1 + radius * 1e3 + 0.01);
    }
}

fn circle(centre: Vec3, axis: Vec3, radius: f64, n: u32) -> Vec<Vec3> {
    let u = axis.any_across();
    let v = axis.cross(u);
    (0..n)
        .map(|i| {
            let (s, c) = libm::sincos(f64::from(i) * std::f64::consts::TAU / f64::from(n));
            centre + u * (c * radius) + v * (s * radius)
        })
        .collect()
}

/// A wheel: its tyre as a ring where it is seen from the side, and its hub.
fn ring(
    view: View,
    (centre, axle): (Vec3, Vec3),
    (radius, section, hub): (f64, f64, f64),
    push: &mut dyn FnMut(String, f64),
) {
    let near = view.project(centre).1;
    let flat =
        |r: f64| -> Vec<Point> { circle(centre, axle, r, 72).into_iter().map(|p| view.project(p).0).collect() };
    if axle.dot(view.eye()).abs() > 0.6 {
        let path = closed(&flat(radius)) + &closed(&flat(radius - 2.0 * section));
        push(path, near + section * 1e3);
        if hub > 0.0 {
            push(closed(&flat((radius * 0.09).max(0.012))), near + hub * 1e3);
        }
        return;
    }
    let solid = Solid::Ring { centre, axle, radius, section, hub };
    let points: Vec<Point> = solid.mesh(36).points.into_iter().map(|p| view.project(p).0).collect();
    push(closed(&hull(&points)), near + section * 1e3);
    if hub > section {
        bar(view, centre - axle * hub, centre + axle * hub, (radius * 0.09).max(0.012), push);
    }
}

/// Faces of a flat-sided shape that look toward the eye.
fn faces(view: View, solid: &Solid, push: &mut dyn FnMut(String, f64)) {
    let (outline, along) = match solid {
        Solid::Prism { outline, along } => (outline.clone(), *along),
        Solid::Brick { axes, half } => {
            let corner = |x: f64, y: f64| axes.place(Vec3::new(x * half.x, y * half.y, -half.z));
            (vec![corner(-1., -1.), corner(1., -1.), corner(1., 1.), corner(-1., 1.)], axes.z * (2.0 * half.z))
        }
        _ => return,
    };
    let shifted: Vec<Vec3> = outline.iter().map(|p| *p + along).collect();
    let middle = outline.iter().chain(&shifted).fold(Vec3::ZERO, |s, p| s + *p);
    #[allow(clippy::cast_precision_loss)]
    let middle = middle * (1.0 / (2 * outline.len()) as f64);
    let n = outline.len();
    let mut all: Vec<Vec<Vec3>> = vec![outline.clone(), shifted.clone()];
    all.extend((0..n).map(|i| {
        let j = (i + 1) % n;
        vec![outline[i], outline[j], shifted[j], shifted[i]]
    }));
    let eye = view.eye();
    for face in all {
        let normal = face.windows(2).fold(Vec3::ZERO, |s, w| s + (w[0] - face[0]).cross(w[1] - face[0]));
        let centre = face.iter().fold(Vec3::ZERO, |s, p| s + *p);
        #[allow(clippy::cast_precision_loss)]
        let centre = centre * (1.0 / face.len() as f64);
        let outward = if normal.dot(centre - middle) < 0.0 { -normal } else { normal };
        if outward.dot(eye) <= 1e-6 * normal.norm().max(1e-12) {
            continue;
        }
        let points: Vec<Point> = face.iter().map(|p| view.project(*p).0).collect();
        push(closed(&points), view.project(centre).1);
    }
}

/// The smallest convex outline around points (monotone chain).
fn hull(points: &[Point]) -> Vec<Point> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let turn = |o: Point, a: Point, b: Point| (a.0 - o.0) * (b.1 - o.1) - (a.1 - o.1) * (b.0 - o.0);
    let half = |list: &mut dyn Iterator<Item = Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for p in list {
            while chain.len() >= 2 && turn(chain[chain.len() - 2], chain[chain.len() - 1], p) <= 0.0 {
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut lower = half(&mut sorted.iter().copied());
    lower.extend(half(&mut sorted.iter().rev().copied()));
    lower
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
    match view {
        View::Side => {
            if let (Some(base), Some(rear)) = (get("wheelbase"), mean(false, |p| p.x)) {
                sheet.level(c, (rear, rear + base * 1e3), drawn.high.1, 1, "wheelbase");
            }
            sheet.level(c, (body.low.0, body.high.0), drawn.high.1, 2, "length");
            sheet.upright(c, (0.0, body.low.1), drawn.low.0, 2, true);
            if let Some(seat) =
                c.design.supports.iter().find(|s| s.kind == chairwright_design::SupportKind::Seat)
            {
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
            sheet.upright(c, (0.0, body.low.1), drawn.low.0, 1, true);
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
    }
}

/// Extent of the chair without its rider.
fn extent(c: &Compilation, view: View) -> Bounds {
    let mut all = Bounds::default();
    let (right, down) = match view {
        View::Side => (Vec3::X, -Vec3::Z),
        View::Front => (Vec3::Y, -Vec3::Z),
        View::Top => (Vec3::X, -Vec3::Y),
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
