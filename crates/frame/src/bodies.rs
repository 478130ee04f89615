//! Everything that has a mass and a shape.

use crate::Frame;
use crate::settle::caster_centre;
use crate::solid::Solid;
use chairwright_design::{Design, Frame3, ItemKind, Vec3};

/// What a body counts as.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Group {
    /// Cut, fitted and fastened: the bare frame.
    Frame,
    /// Seat, back and foot support.
    Support,
    /// Rear wheels.
    Wheel,
    /// Casters.
    Caster,
    /// Other bought parts.
    Part,
}

/// One body.
#[derive(Clone, PartialEq, Debug)]
pub struct Body {
    /// Its name.
    pub name: String,
    /// What it counts as.
    pub group: Group,
    /// Mass in kg.
    pub mass: f64,
    /// Centre of mass in the drawing.
    pub centre: Vec3,
    /// Its shape in the drawing; empty for things too small to draw.
    pub solids: Vec<Solid>,
    /// The caster that it turns with.
    pub swivels: Option<usize>,
}

/// Fitting bodies: hubs around the ports.
pub(crate) fn fittings(design: &Design, frame: &mut Frame) {
    let placed = frame.fittings.clone();
    let mut count = std::collections::BTreeMap::new();
    for p in &placed {
        let fitting = &design.fittings[p.fitting];
        let depth = design.sockets[fitting.socket].depth;
        let inner = design.sockets[fitting.socket].bottom.mid() / 2.0;
        let joint = &design.joints[p.joint].name;
        let n = count.entry(p.joint).or_insert(0usize);
        *n += 1;
        let name = if p.bush { format!("{joint}.bush_{}", *n - 1) } else { format!("{joint}.fitting") };
        let reach = if p.bush { depth } else { fitting.take_out + depth };
        let hub = |direction: &Vec3| Solid::Bar {
            from: p.at,
            to: p.at + *direction * reach,
            outer: fitting.hub / 2.0,
            inner: inner.min(fitting.hub / 2.0 * 0.95),
        };
        let solids: Vec<Solid> = p.ports.iter().map(hub).collect();
        let along: Vec3 = p.ports.iter().fold(Vec3::ZERO, |s, d| s + *d);
        #[allow(clippy::cast_precision_loss)]
        let n_ports = p.ports.len().max(1) as f64;
        let centre = p.at + along * (reach / 2.0 / n_ports);
        frame.bodies.push(Body {
            name,
            group: Group::Frame,
            mass: fitting.mass,
            centre,
            solids,
            swivels: None,
        });
    }
}

/// Fasteners, as point masses where they act.
pub(crate) fn fasteners(design: &Design, frame: &mut Frame) {
    let mass = |name: &str| design.fastener(name).map_or(0.0, |f| f.mass);
    let mut add = |name: String, list: &[(String, u32)], at: Vec3| {
        let total: f64 = list.iter().map(|(n, c)| mass(n) * f64::from(*c)).sum();
        if total > 0.0 {
            frame.bodies.push(Body {
                name,
                group: Group::Frame,
                mass: total,
                centre: at,
                solids: Vec::new(),
                swivels: None,
            });
        }
    };
    for c in &design.closings {
        let joint = &design.joints[c.joint];
        add(format!("{}.fasteners", joint.name), &c.fasteners, joint.at);
    }
    for (i, f) in design.fastenings.iter().enumerate() {
        add(format!("{}.fasteners_{}", f.what, i + 1), &f.fasteners, f.at);
    }
}

/// Bought parts.
pub(crate) fn parts(design: &Design, frame: &mut Frame) {
    for w in &design.wheels {
        let mut solids = vec![Solid::Ring {
            centre: w.at,
            axle: w.axle,
            radius: w.radius,
            section: w.tyre / 2.0,
            hub: (w.hub / 2.0).max(0.01),
        }];
        if let Some(rim) = w.rim {
            solids.push(Solid::Ring {
                centre: w.at + w.axle * (w.rim_out - w.rim_tube / 2.0),
                axle: w.axle,
                radius: rim / 2.0,
                section: w.rim_tube / 2.0,
                hub: 0.0,
            });
        }
        frame.bodies.push(Body {
            name: w.name.clone(),
            group: Group::Wheel,
            mass: w.part.mass,
            centre: w.at,
            solids,
            swivels: None,
        });
    }
    for (i, c) in design.casters.iter().enumerate() {
        let centre = caster_centre(c, 0.0);
        let axle = Vec3::Y.across(c.stem).unit().unwrap_or(Vec3::Y);
        let half = c.width / 2.0 + 0.005;
        let crown = c.at - c.stem * (c.drop - c.tread - 0.008).max(0.0);
        let mut solids = vec![Solid::Ring { centre, axle, radius: c.tread, section: c.width / 2.0, hub: half }];
        solids.push(Solid::Bar { from: crown, to: c.at + c.stem * 0.02, outer: 0.008, inner: 0.0 });
        for sign in [1.0, -1.0] {
            let aside = axle * (sign * half);
            solids.push(Solid::Bar { from: crown + aside, to: centre + aside, outer: 0.005, inner: 0.0 });
        }
        frame.bodies.push(Body {
            name: c.name.clone(),
            group: Group::Caster,
            mass: c.part.mass,
            centre,
            solids,
            swivels: Some(i),
        });
    }
    for item in &design.items {
        let axes = Frame3 { origin: item.at, ..Frame3::IDENTITY };
        let solid = match item.kind {
            ItemKind::Axle => {
                let half = Vec3::Y * (item.size.y / 2.0);
                Solid::Bar { from: item.at - half, to: item.at + half, outer: item.size.x / 2.0, inner: 0.0 }
            }
            _ => Solid::Brick { axes, half: item.size * 0.5 },
        };
        frame.bodies.push(Body {
            name: item.name.clone(),
            group: Group::Part,
            mass: item.part.mass,
            centre: item.at,
            solids: vec![solid],
            swivels: None,
        });
    }
}
