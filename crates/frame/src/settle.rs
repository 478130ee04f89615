//! The chair at rest on its wheels.
//!
//! Lowest point of a wheel of radius R with a tyre section of radius r, centre C and unit axle a,
//! towards the ground of unit normal n: u is n made square to the axle, and the point is
//! C − (R − r)·u/|u| − r·n; its height is n·C − (R − r)·√(1 − (a·n)²) − r.

use chairwright_design::{Caster, Design, Frame3, Vec3};

/// One wheel on the ground.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Contact {
    /// Whether it is a caster.
    pub caster: bool,
    /// Index into the design's wheels or casters.
    pub index: usize,
    /// The lowest point, in the settled pose.
    pub at: Vec3,
    /// Gap under it.
    pub gap: f64,
}

/// The pose at rest.
#[derive(Clone, PartialEq, Debug)]
pub struct Settled {
    /// From the drawing to the ground: x forward, z up, origin under the middle of the rear axle.
    pub pose: Frame3,
    /// Nose up is positive, in radians.
    pub pitch: f64,
    /// Left side up is positive, in radians.
    pub roll: f64,
    /// All wheels, rear ones first.
    pub contacts: Vec<Contact>,
    /// Gap under the wheel that does not touch.
    pub rock: f64,
}

/// Why a chair cannot be set on the ground.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum SettleError {
    /// Fewer than two fixed wheels, or fewer than three wheels in all.
    TooFewWheels {
        /// Wheels that do not swivel.
        fixed: usize,
        /// Casters.
        casters: usize,
    },
    /// The wheels are in one line.
    InLine,
    /// The centre of mass lies outside every three wheels: it falls over.
    FallsOver,
}

/// Centre of a caster's wheel, turned by `swivel` from trailing straight back, in the drawing.
#[must_use]
pub fn caster_centre(caster: &Caster, swivel: f64) -> Vec3 {
    let back = (-Vec3::X).across(caster.stem).unit().unwrap_or(-Vec3::X);
    let side = caster.stem.cross(back);
    let (s, c) = libm::sincos(swivel);
    caster.at - caster.stem * caster.drop + (back * c + side * s) * caster.trail
}

/// Unit axle of a caster's wheel at a swivel, in the drawing.
fn caster_axle(caster: &Caster, swivel: f64) -> Vec3 {
    let back = (-Vec3::X).across(caster.stem).unit().unwrap_or(-Vec3::X);
    let side = caster.stem.cross(back);
    let (s, c) = libm::sincos(swivel);
    side * c - back * s
}

/// Lowest point of a wheel towards the ground.
#[must_use]
pub fn lowest(centre: Vec3, axle: Vec3, radius: f64, section: f64, n: Vec3) -> Vec3 {
    let u = n.across(axle).unit().unwrap_or(n);
    centre - u * (radius - section) - n * section
}

struct Roller {
    caster: bool,
    index: usize,
    centre: Vec3,
    axle: Vec3,
    radius: f64,
    section: f64,
}

fn rollers(design: &Design, swivel: f64) -> Vec<Roller> {
    let fixed = design.wheels.iter().enumerate().map(|(index, w)| Roller {
        caster: false,
        index,
        centre: w.at,
        axle: w.axle,
        radius: w.radius,
        section: (w.tyre / 2.0).min(w.radius * 0.9),
    });
    let swinging = design.casters.iter().enumerate().map(|(index, c)| Roller {
        caster: true,
        index,
        centre: caster_centre(c, swivel),
        axle: caster_axle(c, swivel),
        radius: c.radius,
        section: (c.width / 2.0).min(c.radius * 0.9),
    });
    fixed.chain(swinging).collect()
}

/// Sets the chair on the ground, casters at one swivel (zero trails). `centre` is the centre of mass
/// in the drawing; it decides which three wheels carry.
///
/// # Errors
/// When there is no stable rest on three wheels.
pub fn settle(design: &Design, centre: Vec3, swivel: f64) -> Result<Settled, SettleError> {
    let all = rollers(design, swivel);
    if design.wheels.len() < 2 || all.len() < 3 {
        return Err(SettleError::TooFewWheels { fixed: design.wheels.len(), casters: design.casters.len() });
    }
    let mut best: Option<(f64, Vec3)> = None;
    let mut any_plane = false;
    for triple in triples(all.len()) {
        let Some(n) = plane(&all, triple) else { continue };
        any_plane = true;
        let heights: Vec<f64> =
            all.iter().map(|r| lowest(r.centre, r.axle, r.radius, r.section, n).dot(n)).collect();
        let ground = heights[triple[0]];
        let deepest = heights.iter().map(|h| h - ground).fold(f64::INFINITY, f64::min);
        let feet = triple.map(|i| lowest(all[i].centre, all[i].axle, all[i].radius, all[i].section, n));
        let inside = inside_by(centre, feet, n);
        // a wheel below the ground means another three carry
        if deepest < -1e-7 || inside < -1e-9 {
            continue;
        }
        if best.is_none_or(|(b, _)| inside > b) {
            best = Some((inside, n));
        }
    }
    match best {
        Some((_, n)) => Ok(pose(design, &all, n)),
        None if any_plane => Err(SettleError::FallsOver),
        None => Err(SettleError::InLine),
    }
}

fn triples(n: usize) -> Vec<[usize; 3]> {
    let mut all = Vec::new();
    for a in 0..n {
        for b in a + 1..n {
            all.extend((b + 1..n).map(|c| [a, b, c]));
        }
    }
    all.truncate(200);
    all
}

/// Upward normal of the ground under three wheels, by repeating lowest points and plane.
fn plane(all: &[Roller], triple: [usize; 3]) -> Option<Vec3> {
    let mut n = Vec3::Z;
    for _ in 0..60 {
        let p = triple.map(|i| lowest(all[i].centre, all[i].axle, all[i].radius, all[i].section, n));
        let cross = (p[1] - p[0]).cross(p[2] - p[0]);
        if cross.norm() < 1e-6 {
            return None;
        }
        let mut next = cross.unit()?;
        if next.z < 0.0 {
            next = -next;
        }
        let moved = (next - n).norm();
        n = next;
        if moved < 1e-14 {
            break;
        }
    }
    (n.z > 0.2).then_some(n)
}

/// How far inside the triangle of feet a point's foot lies, in metres; negative is outside.
fn inside_by(point: Vec3, feet: [Vec3; 3], n: Vec3) -> f64 {
    let turn = (feet[1] - feet[0]).cross(feet[2] - feet[0]).dot(n).signum();
    (0..3)
        .map(|i| {
            let (a, b) = (feet[i], feet[(i + 1) % 3]);
            let edge = b - a;
            turn * edge.cross(point - a).dot(n) / edge.norm().max(1e-9)
        })
        .fold(f64::INFINITY, f64::min)
}

fn pose(design: &Design, all: &[Roller], n: Vec3) -> Settled {
    // rows of the motion: the new axes seen from the drawing
    let forward = Vec3::X.across(n).unit().unwrap_or(Vec3::X);
    let left = n.cross(forward);
    let turn = Frame3 {
        origin: Vec3::ZERO,
        x: Vec3::new(forward.x, left.x, n.x),
        y: Vec3::new(forward.y, left.y, n.y),
        z: Vec3::new(forward.z, left.z, n.z),
    };
    let feet: Vec<Vec3> =
        all.iter().map(|r| turn.turn(lowest(r.centre, r.axle, r.radius, r.section, n))).collect();
    let ground = feet.iter().map(|f| f.z).fold(f64::INFINITY, f64::min);
    let axle = rear_middle(design, &turn);
    let origin = Vec3::new(-axle.x, -axle.y, -ground);
    let pose = Frame3 { origin, ..turn };
    let contacts: Vec<Contact> = all
        .iter()
        .zip(&feet)
        .map(|(r, f)| {
            let at = *f + origin;
            Contact { caster: r.caster, index: r.index, at, gap: at.z }
        })
        .collect();
    let rock = contacts.iter().map(|c| c.gap).fold(0.0, f64::max);
    let (x, y) = (turn.turn(Vec3::X), turn.turn(Vec3::Y));
    Settled { pose, pitch: libm::asin(x.z), roll: libm::asin(y.z), contacts, rock }
}

/// The middle of the rear axle line: between the two fixed wheels that are furthest apart.
fn rear_middle(design: &Design, turn: &Frame3) -> Vec3 {
    let mut pair = (Vec3::ZERO, Vec3::ZERO, -1.0);
    for a in &design.wheels {
        for b in &design.wheels {
            let gap = (a.at.y - b.at.y).abs();
            if gap > pair.2 {
                pair = (a.at, b.at, gap);
            }
        }
    }
    turn.turn(pair.0.mix(pair.1, 0.5))
}
