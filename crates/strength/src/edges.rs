//! Screws in the edge of a sheet: one sheet stands on the face of another, or a board or a box lies against its edge, and is screwed
//! to it. A screw there splits the plies and pulls out (common practice, no source), whatever the numbers say.

use crate::answer::Forbidden;
use crate::bar::{Bar, Of};
use crate::extras::screws;
use crate::structure::Structure;
use chairwright_design::{Design, Drive, Shape, StockId, Vec3};
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

/// Screws that hold a board or a box to the edge of a sheet, as they stand on the ground.
pub(crate) fn edges_at_bars(design: &Design, all: &Structure) -> Vec<Forbidden> {
    let bar = |n: &str| all.bars.iter().find(|b| b.name == n && matches!(b.of, Of::Member(_) | Of::Box(_)));
    let mut out = Vec::new();
    // aslant they go through the face of the sheet
    let square = design.fastenings.iter().filter(|f| f.drive != Drive::Slanted);
    for f in square.filter(|f| screws(design, &f.fasteners)) {
        let sheet = |n: &str| standing(design, all, n);
        let pair = sheet(&f.what).zip(bar(&f.to)).or_else(|| sheet(&f.to).zip(bar(&f.what)));
        if pair.is_some_and(|(sheet, bar)| sheet.meets_by_edge(bar)) {
            let name = format!("{} to {}", f.what, f.to);
            out.push(Forbidden::Never { origin: f.origin, name, never: Never::PanelEdgeWithdrawal });
        }
    }
    out
}

/// A sheet of this name on the ground, where its stock says how thick it is.
fn standing<'d>(design: &'d Design, all: &Structure, name: &str) -> Option<Flat<'d>> {
    let thick = |stock: StockId| match design.stocks[stock].shape {
        Shape::Sheet { thickness } => Some(thickness),
        _ => None,
    };
    let panel = all.outlines.iter().find_map(|(k, corners)| {
        let panel = &design.panels[*k];
        let normal = upward(corners)?;
        let half = thick(panel.stock)? / 2.0;
        let flat = Flat { name: &panel.name, corners: corners.clone(), normal, slab: (-half, half) };
        (panel.name == name).then_some(flat)
    });
    panel.or_else(|| {
        all.decks.iter().find_map(|d| {
            let support = &design.supports[d.support];
            let side = d.side * (d.width / 2.0);
            let corners = vec![d.ends.0 + side, d.ends.1 + side, d.ends.1 - side, d.ends.0 - side];
            let slab = (-thick(support.stock)?, 0.0);
            (support.name == name).then_some(Flat { name: &support.name, corners, normal: d.normal, slab })
        })
    })
}

/// The side of an outline from which it is seen to go round to the left.
fn upward(corners: &[Vec3]) -> Option<Vec3> {
    let first = *corners.first()?;
    let area = corners.windows(2).fold(Vec3::ZERO, |sum, c| sum + (c[0] - first).cross(c[1] - first));
    area.unit()
}

/// From where to where a bar is along a direction.
fn span(bar: &Bar, e: Vec3) -> (f64, f64) {
    let (from, to) = match (bar.stretches.first(), bar.stretches.last()) {
        (Some(first), Some(last)) => (first.from, last.to),
        _ => (0.0, bar.length()),
    };
    let (a, b, half) = (bar.at(from).dot(e), bar.at(to).dot(e), bar.half_along(e));
    (a.min(b) - half, a.max(b) + half)
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

impl Flat<'_> {
    /// Whether a bar lies beside it against one of its edges, and on neither face.
    fn meets_by_edge(&self, bar: &Bar) -> bool {
        let over = |(a, b): (f64, f64), (c, d): (f64, f64)| b.min(d) - a.max(c);
        let level = self.corners[0].dot(self.normal);
        let (low, high) = span(bar, self.normal);
        if over((low - level, high - level), self.slab) <= TOUCH {
            return false;
        }
        let Some(up) = upward(&self.corners) else { return false };
        let n = self.corners.len();
        (0..n).any(|k| {
            let (a, b) = (self.corners[k], self.corners[(k + 1) % n]);
            let Some(along) = (b - a).unit() else { return false };
            let out = along.cross(up);
            let gap = span(bar, out).0 - a.dot(out);
            gap.abs() <= APART && over(span(bar, along), (a.dot(along), b.dot(along))) > TOUCH
        })
    }
}

/// How far a bar that is screwed to an edge may be drawn from it, or into it, m.
const APART: f64 = 3e-3;
/// How far sheets that touch may be drawn apart, m.
const TOUCH: f64 = 1e-3;
