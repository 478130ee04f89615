//! Joints that the text closes without a fitting: laps, butts, gussets, and ends left open.

use crate::bodies::{Body, Group};
use crate::closing::{At, Ends, Ray, members_of, rays};
use crate::problem::Problem;
use crate::solid::Solid;
use crate::{Cut, Frame, JointReport, Piece};
use chairwright_design::{Closing, ClosingKind, Design, Frame3, Lap, Member, MemberId, Shape, Vec3};

/// The axes of a member: along it, across it level, across it upright; turned as the text says.
pub(crate) fn axes(design: &Design, member: &Member) -> Frame3 {
    let (a, b) = (design.joints[member.start].at, design.joints[member.end].at);
    let along = (b - a).unit().unwrap_or(Vec3::X);
    let up = Vec3::Z.across(along).unit().unwrap_or(Vec3::X);
    let side = up.cross(along);
    let (s, c) = (libm::sin(member.turned), libm::cos(member.turned));
    Frame3 { origin: a, x: along, y: side * c + up * s, z: up * c - side * s }
}

/// Half the extent of a member's section along a direction of the drawing, in metres.
#[must_use]
pub fn half_along(design: &Design, id: MemberId, direction: Vec3) -> f64 {
    let member = &design.members[id];
    let shape = &design.stocks[member.stock].shape;
    let (level, upright) = shape.half_sizes();
    let axes = axes(design, member);
    if shape.is_round() {
        return level * direction.across(axes.x).norm();
    }
    direction.dot(axes.y).abs() * level + direction.dot(axes.z).abs() * upright
}

pub(crate) fn close_wood(design: &Design, ends: &mut Ends, frame: &mut Frame) {
    for closing in &design.closings {
        let rays = rays(design, closing.joint);
        let words = match &closing.kind {
            ClosingKind::Fitting(_) => continue,
            ClosingKind::Lap(lap) => Close { design, closing, rays: &rays }.lap(lap, ends, frame),
            ClosingKind::Butt { member, against } => Close { design, closing, rays: &rays }
                .butt(*member, *against, ends, frame)
                .then(|| "butt".to_owned()),
            ClosingKind::Gusset { member, against, stock, size } => {
                let close = Close { design, closing, rays: &rays };
                let good = close.butt(*member, *against, ends, frame);
                if good {
                    close.gusset((*member, *against), *stock, *size, frame);
                }
                good.then(|| "gusset on both faces".to_owned())
            }
            ClosingKind::Free(words) => Some(words.clone()),
        };
        ends.closed[closing.joint.index()] = true;
        let Some(mut words) = words else { continue };
        for (name, count) in &closing.fasteners {
            words.push_str(&format!(", {count} × {name}"));
        }
        if let Some(glue) = &closing.glue {
            words.push_str(&format!(", {glue}"));
        }
        frame.joints.push(JointReport {
            joint: closing.joint,
            members: members_of(&rays),
            closed_by: words,
            chosen_by_design: true,
            off: 0.0,
            contact: None,
        });
    }
}

struct Close<'a> {
    design: &'a Design,
    closing: &'a Closing,
    rays: &'a [Ray],
}

impl Close<'_> {
    fn at_joint(&self, member: MemberId, frame: &mut Frame) -> bool {
        let here = self.rays.iter().any(|r| r.member == member);
        if !here {
            frame.problems.push(Problem::NotAtJoint {
                origin: self.closing.origin,
                joint: self.closing.joint,
                member,
            });
        }
        here
    }

    fn lap(&self, lap: &Lap, ends: &mut Ends, frame: &mut Frame) -> Option<String> {
        if !self.at_joint(lap.member, frame) {
            return None;
        }
        let others: Vec<MemberId> = members_of(self.rays).into_iter().filter(|m| *m != lap.member).collect();
        let mine = half_along(self.design, lap.member, lap.toward);
        let theirs = others.iter().map(|m| half_along(self.design, *m, lap.toward)).fold(0.0, f64::max);
        let along = axes(self.design, &self.design.members[lap.member]).x;
        let toward = lap.toward.across(along).unit().unwrap_or(lap.toward);
        let shift = toward * (mine + theirs);
        let slot = &mut ends.shift[lap.member.index()];
        match slot {
            Some(first) if (*first - shift).norm() > 1e-4 => {
                frame.problems.push(Problem::LapConflict {
                    origin: self.closing.origin,
                    member: lap.member,
                    first: *first,
                    second: shift,
                });
                return None;
            }
            _ => *slot = Some(shift),
        }
        for ray in self.rays {
            let past = members_of(self.rays)
                .iter()
                .filter(|m| **m != ray.member)
                .map(|m| half_along(self.design, *m, ray.direction))
                .fold(0.0, f64::max);
            extend(ray, past, "lap", ends);
        }
        Some(format!("lap, {} aside by {:.1} mm", self.design.members[lap.member].name, (mine + theirs) * 1e3))
    }

    fn butt(&self, member: MemberId, against: MemberId, ends: &mut Ends, frame: &mut Frame) -> bool {
        if !self.at_joint(member, frame) || !self.at_joint(against, frame) {
            return false;
        }
        for ray in self.rays {
            if ray.member == member {
                let stop = half_along(self.design, against, ray.direction);
                extend(ray, -stop, "butt", ends);
            } else if ray.member == against {
                extend(ray, half_along(self.design, member, ray.direction), "runs past", ends);
            }
        }
        true
    }

    fn gusset(
        &self,
        (member, against): (MemberId, MemberId),
        stock: chairwright_design::StockId,
        size: (f64, f64),
        frame: &mut Frame,
    ) {
        let sheet = &self.design.stocks[stock];
        let Shape::Sheet { thickness } = sheet.shape else { return };
        let along = axes(self.design, &self.design.members[member]).x;
        let other = axes(self.design, &self.design.members[against]).x;
        let Some(plate) = Frame3::from_two(along, other) else { return };
        let inward = self.rays.iter().find(|r| r.member == member).map_or(along, |r| r.direction);
        // half of a plate on either member, from where the one stops
        let at = self.design.joints[self.closing.joint].at + inward * half_along(self.design, against, inward);
        let face = half_along(self.design, member, plate.z).max(half_along(self.design, against, plate.z));
        let name = &self.design.joints[self.closing.joint].name;
        for (i, sign) in [1.0, -1.0].into_iter().enumerate() {
            let middle = at + plate.z * (sign * (face + thickness / 2.0));
            let axes = Frame3 { origin: middle, ..plate };
            let half = Vec3::new(size.0 / 2.0, size.1 / 2.0, thickness / 2.0);
            let piece = format!("{name}.gusset_{}", i + 1);
            frame.bodies.push(Body {
                name: piece.clone(),
                group: Group::Frame,
                mass: sheet.mass_per_area() * size.0 * size.1,
                centre: middle,
                solids: vec![Solid::Brick { axes, half }],
                swivels: None,
            });
            frame.pieces.push(Piece {
                of: format!("{name}.gusset"),
                name: piece,
                side: None,
                stock,
                cut: Cut::Sheet { outline: vec![(0.0, 0.0), (size.0, 0.0), (size.0, size.1), (0.0, size.1)] },
                ends: "gusset".to_owned(),
                lies: None,
                holes: Vec::new(),
                origin: self.closing.origin,
            });
        }
    }
}

/// Lengthens a member at a joint; a member that runs on past the joint needs nothing.
fn extend(ray: &Ray, by: f64, words: &str, ends: &mut Ends) {
    let end = match ray.at {
        At::Start => 0,
        At::End => 1,
        At::Middle(..) => return,
    };
    ends.trim[ray.member.index()][end] -= by;
    words.clone_into(&mut ends.words[ray.member.index()][end]);
}
