//! Members, panels, boxes and supports as pieces to cut and as solids.

use crate::bodies::{Body, Group};
use crate::closing::{Ends, Sawn};
use crate::problem::Problem;
use crate::solid::Solid;
use crate::wood::axes;
use crate::{Cut, Frame, Lies, Piece};
use chairwright_design::{Design, Frame3, Member, MemberId, Shape, Stock, Support, SupportKind, Vec3};

/// What a band needs at each end to be led round its rail and sewn; from memory, not checked.
const BAND_WRAP: f64 = 0.15;

pub(crate) fn members(design: &Design, ends: &Ends, frame: &mut Frame) {
    for (id, member) in design.members.iter() {
        member_pieces(design, id, member, ends, frame);
        crate::sleeves::sleeves(design, (id, member), ends, frame);
    }
}

/// One piece of a member, measured along it from its start.
pub(crate) struct Part {
    pub from: f64,
    pub to: f64,
    words: String,
    /// From middle to middle of the fittings at its ends.
    between: f64,
    /// What the sockets at each end must hold.
    pub grip: [f64; 2],
}

pub(crate) fn parts(length: f64, ends: &Ends, id: MemberId) -> Vec<Part> {
    let m = id.index();
    let mut cuts = ends.cuts[m].clone();
    cuts.sort_by(|a, b| a.along.total_cmp(&b.along));
    let first =
        Sawn { along: 0.0, take_out: ends.trim[m][0], grip: ends.grip[m][0], name: ends.words[m][0].clone() };
    let last = Sawn {
        along: length,
        take_out: ends.trim[m][1],
        grip: ends.grip[m][1],
        name: ends.words[m][1].clone(),
    };
    let all: Vec<Sawn> = std::iter::once(first).chain(cuts).chain([last]).collect();
    all.windows(2)
        .map(|w| Part {
            from: w[0].along + w[0].take_out,
            to: w[1].along - w[1].take_out,
            words: join(&w[0].name, &w[1].name),
            between: w[1].along - w[0].along,
            grip: [w[0].grip, w[1].grip],
        })
        .collect()
}

fn join(a: &str, b: &str) -> String {
    let free = |s: &str| if s.is_empty() { "square cut".to_owned() } else { s.to_owned() };
    if a == b { format!("both ends: {}", free(a)) } else { format!("{}; {}", free(a), free(b)) }
}

fn member_pieces(design: &Design, id: MemberId, member: &Member, ends: &Ends, frame: &mut Frame) {
    let stock = &design.stocks[member.stock];
    let axes = axes(design, member);
    let length = (design.joints[member.end].at - design.joints[member.start].at).norm();
    let shift = ends.shift[id.index()].unwrap_or(Vec3::ZERO);
    let parts = parts(length, ends, id);
    let several = parts.len() > 1;
    for (i, part) in parts.into_iter().enumerate() {
        let (from, to) = (part.from, part.to);
        let name = if several { format!("{}.{}", member.name, i + 1) } else { member.name.clone() };
        let grip = part.grip[0] + part.grip[1];
        if to - from < grip.max(0.001) - 1e-6 {
            frame.problems.push(Problem::PieceTooShort {
                member: id,
                piece: name,
                between: part.between,
                left: to - from,
                grip,
            });
            continue;
        }
        let at = |along: f64| axes.origin + axes.x * along + shift;
        frame.bodies.push(Body {
            name: name.clone(),
            group: Group::Frame,
            mass: stock.mass_per_length() * (to - from),
            centre: at((from + to) / 2.0),
            solids: vec![bar(stock, &axes, at(from), at(to))],
            swivels: None,
        });
        frame.pieces.push(Piece {
            name,
            of: member.name.clone(),
            side: member.side,
            stock: member.stock,
            cut: Cut::Length(to - from),
            ends: part.words,
            lies: Some(Lies { from, to, grip: part.grip }),
            holes: Vec::new(),
            origin: member.origin,
        });
    }
}

pub(crate) fn bar(stock: &Stock, axes: &Frame3, from: Vec3, to: Vec3) -> Solid {
    match stock.shape {
        Shape::Tube { outer, wall, .. } => {
            Solid::Bar { from, to, outer: outer.mid() / 2.0, inner: outer.mid() / 2.0 - wall.mid() }
        }
        Shape::Rod { diameter } => Solid::Bar { from, to, outer: diameter / 2.0, inner: 0.0 },
        shape => {
            let (level, upright) = shape.half_sizes();
            let half = Vec3::new((to - from).norm() / 2.0, level, upright);
            Solid::Brick { axes: Frame3 { origin: from.mix(to, 0.5), ..*axes }, half }
        }
    }
}

pub(crate) fn panels(design: &Design, frame: &mut Frame) {
    for panel in &design.panels {
        let stock = &design.stocks[panel.stock];
        let thickness = sheet_thickness(stock);
        let (outline, area) = flatten(&panel.corners, panel.toward);
        let middle = centroid(&panel.corners, panel.toward) + panel.toward * (thickness / 2.0);
        frame.bodies.push(Body {
            name: panel.name.clone(),
            group: Group::Frame,
            mass: stock.mass_per_area() * area,
            centre: middle,
            solids: vec![Solid::Prism { outline: panel.corners.clone(), along: panel.toward * thickness }],
            swivels: None,
        });
        frame.pieces.push(Piece {
            name: panel.name.clone(),
            of: panel.name.clone(),
            side: panel.side,
            stock: panel.stock,
            cut: Cut::Sheet { outline },
            ends: String::new(),
            lies: None,
            holes: Vec::new(),
            origin: panel.origin,
        });
    }
}

fn sheet_thickness(stock: &Stock) -> f64 {
    match stock.shape {
        Shape::Sheet { thickness } | Shape::Webbing { thickness, .. } | Shape::Board { thickness, .. } => {
            thickness
        }
        _ => 0.0,
    }
}

/// A flat outline with its first edge along x, moved into the positive corner, and its area.
fn flatten(corners: &[Vec3], normal: Vec3) -> (Vec<(f64, f64)>, f64) {
    let Some(axes) = Frame3::from_two(corners[1] - corners[0], normal.cross(corners[1] - corners[0])) else {
        return (Vec::new(), 0.0);
    };
    let flat: Vec<(f64, f64)> = corners
        .iter()
        .map(|c| {
            let v = axes.unturn(*c - corners[0]);
            (v.x, v.y)
        })
        .collect();
    let least = |f: fn(&(f64, f64)) -> f64| flat.iter().map(f).fold(f64::INFINITY, f64::min);
    let (x0, y0) = (least(|p| p.0), least(|p| p.1));
    let moved: Vec<(f64, f64)> = flat.iter().map(|(x, y)| (x - x0, y - y0)).collect();
    let n = moved.len();
    let twice: f64 =
        (0..n).map(|i| moved[i].0 * moved[(i + 1) % n].1 - moved[(i + 1) % n].0 * moved[i].1).sum();
    (moved, (twice / 2.0).abs())
}

/// Centroid of a flat polygon in space, by triangles from its first corner.
fn centroid(corners: &[Vec3], normal: Vec3) -> Vec3 {
    let (mut sum, mut total) = (Vec3::ZERO, 0.0);
    for pair in corners.windows(2).skip(1) {
        let area = (pair[0] - corners[0]).cross(pair[1] - corners[0]).dot(normal) / 2.0;
        sum += (corners[0] + pair[0] + pair[1]) * (area / 3.0);
        total += area;
    }
    if total.abs() < 1e-12 { corners[0] } else { sum * (1.0 / total) }
}

pub(crate) fn boxes(design: &Design, frame: &mut Frame) {
    for b in &design.boxes {
        let stock = &design.stocks[b.stock];
        let t = sheet_thickness(stock);
        let length = (b.end - b.start).norm();
        let x = (b.end - b.start).unit().unwrap_or(Vec3::Y);
        let z = Vec3::Z.across(x).unit().unwrap_or(Vec3::X);
        let axes = Frame3 { origin: b.start.mix(b.end, 0.5), x, y: z.cross(x), z };
        let (w, h) = (b.width, b.height);
        let mut plates: Vec<(String, Vec3, Vec3)> = vec![
            ("top".into(), Vec3::new(0.0, 0.0, h / 2.0 - t / 2.0), Vec3::new(length, w, t)),
            ("bottom".into(), Vec3::new(0.0, 0.0, t / 2.0 - h / 2.0), Vec3::new(length, w, t)),
            ("front".into(), Vec3::new(0.0, w / 2.0 - t / 2.0, 0.0), Vec3::new(length, t, h - 2.0 * t)),
            ("back".into(), Vec3::new(0.0, t / 2.0 - w / 2.0, 0.0), Vec3::new(length, t, h - 2.0 * t)),
        ];
        if b.ends {
            for (i, sign) in [-1.0, 1.0].into_iter().enumerate() {
                plates.push((
                    format!("end_{}", i + 1),
                    Vec3::new(sign * (length / 2.0 - t / 2.0), 0.0, 0.0),
                    Vec3::new(t, w - 2.0 * t, h - 2.0 * t),
                ));
            }
        }
        for (word, middle, size) in plates {
            let name = format!("{}.{word}", b.name);
            let at = axes.place(middle);
            let mut sides = [size.x, size.y, size.z];
            sides.sort_by(|p, q| q.total_cmp(p));
            frame.bodies.push(Body {
                name: name.clone(),
                group: Group::Frame,
                mass: stock.mass_per_area() * sides[0] * sides[1],
                centre: at,
                solids: vec![Solid::Brick { axes: Frame3 { origin: at, ..axes }, half: size * 0.5 }],
                swivels: None,
            });
            frame.pieces.push(rectangle(name, &b.name, b.stock, (sides[0], sides[1]), "box", b.origin));
        }
    }
}

fn rectangle(
    name: String,
    of: &str,
    stock: chairwright_design::StockId,
    (length, width): (f64, f64),
    ends: &str,
    origin: chairwright_design::Origin,
) -> Piece {
    Piece {
        name,
        of: of.to_owned(),
        side: None,
        stock,
        cut: Cut::Sheet { outline: vec![(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)] },
        ends: ends.to_owned(),
        lies: None,
        holes: Vec::new(),
        origin,
    }
}

/// Unit normal of a support, towards the rider.
pub(crate) fn rider_side(support: &Support) -> Vec3 {
    let along = (support.to - support.from).unit().unwrap_or(Vec3::X);
    let normal = along.cross(Vec3::Y).unit().unwrap_or(Vec3::Z);
    if support.kind == SupportKind::Back { -normal } else { normal }
}

pub(crate) fn supports(design: &Design, frame: &mut Frame) {
    for support in &design.supports {
        let stock = &design.stocks[support.stock];
        let normal = rider_side(support);
        match stock.shape {
            Shape::Webbing { width, thickness } => bands(support, stock, (width, thickness), normal, frame),
            _ => {
                let thickness = sheet_thickness(stock);
                let length = (support.to - support.from).norm();
                let sides = (length.max(support.width), length.min(support.width));
                frame.pieces.push(rectangle(
                    support.name.clone(),
                    &support.name,
                    support.stock,
                    sides,
                    "",
                    support.origin,
                ));
                frame.bodies.push(Body {
                    name: support.name.clone(),
                    group: Group::Support,
                    mass: stock.mass_per_area() * length * support.width,
                    centre: support.from.mix(support.to, 0.5) - normal * (thickness / 2.0),
                    solids: vec![strip(support, (0.0, 1.0), -normal * thickness)],
                    swivels: None,
                });
            }
        }
        if let Some((_, mass, thick)) = &support.cushion {
            frame.bodies.push(Body {
                name: format!("{}.cushion", support.name),
                group: Group::Part,
                mass: *mass,
                centre: support.from.mix(support.to, 0.5) + normal * (thick / 2.0),
                solids: vec![strip(support, (0.0, 1.0), normal * *thick)],
                swivels: None,
            });
        }
    }
}

/// A part of a support from one share of its length to another, with a thickness.
fn strip(support: &Support, (from, to): (f64, f64), along: Vec3) -> Solid {
    let half = Vec3::Y * (support.width / 2.0);
    let (a, b) = (support.from.mix(support.to, from), support.from.mix(support.to, to));
    Solid::Prism { outline: vec![a - half, b - half, b + half, a + half], along }
}

/// Bands side by side, spread evenly over the length.
fn bands(support: &Support, stock: &Stock, (width, thickness): (f64, f64), normal: Vec3, frame: &mut Frame) {
    let each = support.width + 2.0 * BAND_WRAP;
    let length = (support.to - support.from).norm();
    let half = (width / length / 2.0).min(0.5);
    let n = f64::from(support.bands);
    for i in 0..support.bands {
        let middle = ((f64::from(i) + 0.5) / n).clamp(half, 1.0 - half);
        let name = format!("{}.band_{}", support.name, i + 1);
        frame.bodies.push(Body {
            name: name.clone(),
            group: Group::Support,
            mass: stock.mass_per_area() * width * each,
            centre: support.from.mix(support.to, middle) - normal * (thickness / 2.0),
            solids: vec![strip(support, (middle - half, middle + half), -normal * thickness)],
            swivels: None,
        });
        frame.pieces.push(Piece {
            name,
            of: support.name.clone(),
            side: None,
            stock: support.stock,
            cut: Cut::Band(each),
            ends: format!("{:.0} mm at each end to wrap and sew", BAND_WRAP * 1e3),
            lies: None,
            holes: Vec::new(),
            origin: support.origin,
        });
    }
    frame.assumptions.push(format!(
        "{}: each band is {:.0} mm longer at both ends to go round its rail (from memory)",
        support.name,
        BAND_WRAP * 1e3
    ));
}
