//! Screws in the edge of a sheet: one sheet stands on the face of another and is screwed through it. A screw there splits the
//! plies and pulls out (common practice, no source), whatever the numbers say.

use crate::answer::Forbidden;
use crate::extras::screws;
use chairwright_design::{Design, Shape, StockId, Vec3};
use chairwright_resistance::Never;

/// Screws that go into the edge of a sheet.
pub(crate) fn edges_at_sheets(design: &Design) -> Vec<Forbidden> {
    let sheets = sheets(design);
    let by_name = |n: &str| sheets.iter().find(|s| s.name == n);
    let mut out = Vec::new();
    for f in design.fastenings.iter().filter(|f| screws(design, &f.fasteners)) {
        let Some((one, other)) = by_name(&f.what).zip(by_name(&f.to)) else { continue };
        if one.stands_on(other) || other.stands_on(one) {
            let name = format!("{} to {}", f.what, f.to);
            out.push(Forbidden::Never { origin: f.origin, name, never: Never::PanelEdgeWithdrawal });
        }
    }
    out
}

/// A flat sheet: corners on one face, and from where to where along its normal it is.
struct Flat<'a> {
    name: &'a str,
    corners: Vec<Vec3>,
    normal: Vec3,
    slab: (f64, f64),
}

fn sheets(design: &Design) -> Vec<Flat<'_>> {
    let thick = |stock: StockId| match design.stocks[stock].shape {
        Shape::Sheet { thickness } => Some(thickness),
        _ => None,
    };
    let panels = design.panels.iter().filter_map(|p| {
        let slab = (-TOUCH, thick(p.stock)? + TOUCH);
        Some(Flat { name: &p.name, corners: p.corners.clone(), normal: p.toward, slab })
    });
    let boards = design.supports.iter().filter_map(|s| {
        let normal = (s.to - s.from).cross(Vec3::Y).unit()?;
        let side = Vec3::Y * (s.width / 2.0);
        let corners = vec![s.from + side, s.to + side, s.to - side, s.from - side];
        // the drawn face is the rider's, and what carries the board lies behind it, on either side of the drawn one
        let thick = thick(s.stock)? + TOUCH;
        Some(Flat { name: &s.name, corners, normal, slab: (-thick, thick) })
    });
    panels.chain(boards).collect()
}

impl Flat<'_> {
    /// Whether it stands square on the other's face with an edge: two neighbouring corners lie within the other's thickness
    /// or touch it.
    fn stands_on(&self, other: &Flat<'_>) -> bool {
        if self.normal.dot(other.normal).abs() > 0.5 {
            return false;
        }
        let off = |p: Vec3| (p - other.corners[0]).dot(other.normal);
        let on = |p: Vec3| (other.slab.0..=other.slab.1).contains(&off(p));
        let n = self.corners.len();
        (0..n).any(|k| on(self.corners[k]) && on(self.corners[(k + 1) % n]))
    }
}

/// How far sheets that touch may be drawn apart, m.
const TOUCH: f64 = 1e-3;
