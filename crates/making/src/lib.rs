//! What is cut, and from how many lengths and sheets.
//!
//! In come a design and its frame; out go the [`CutRow`]s of the cut list, what is marked along each piece, and, for a
//! given sale length or sheet, the [`Packing`] of pieces into it. This room knows no price.

mod lengths;
mod marks;
mod outline;
mod sheets;

pub use lengths::{Bar, pack_lengths, use_up_lengths};
pub use marks::{Mark, Marked, Set, What, marks};
pub use sheets::{Laid, SheetLayout, pack_sheets, use_up_sheets};

use crate::outline::{is_own_mirror, outline_alike};
use chairwright_design::{Design, Side, StockId};
use chairwright_frame::{Cut, Drilled, Frame};

/// Width of a saw cut that is lost between pieces: 3 mm for a hand saw, common practice, no source.
pub const KERF: f64 = 0.003;

/// One row of the cut list: pieces that are alike share a row.
#[derive(Clone, PartialEq, Debug)]
pub struct CutRow {
    /// Names of the pieces, in order.
    pub names: Vec<String>,
    /// What they are cut from.
    pub stock: StockId,
    /// To what.
    pub cut: Cut,
    /// What is at their ends.
    pub ends: String,
    /// Holes, of the first of them.
    pub holes: Vec<Drilled>,
    /// Whether left and right differ, so that one must be the mirror of the other.
    pub handed: bool,
}

/// The cut list: longest pieces of each stock first, pieces alike in one row.
#[must_use]
pub fn cut_list(design: &Design, frame: &Frame) -> Vec<CutRow> {
    let mut rows: Vec<CutRow> = Vec::new();
    for piece in &frame.pieces {
        let alike = rows.iter_mut().find(|r| {
            r.stock == piece.stock
                && same(&r.cut, &piece.cut)
                && r.ends == piece.ends
                && drilled_alike(&r.holes, &piece.holes)
        });
        match alike {
            Some(row) => row.names.push(piece.name.clone()),
            None => rows.push(CutRow {
                names: vec![piece.name.clone()],
                stock: piece.stock,
                cut: piece.cut.clone(),
                ends: piece.ends.clone(),
                holes: piece.holes.clone(),
                handed: false,
            }),
        }
    }
    for row in &mut rows {
        row.handed = is_handed(frame, row);
    }
    rows.sort_by(|a, b| {
        let name = |r: &CutRow| design.stocks[r.stock].name.clone();
        name(a).cmp(&name(b)).then(size(&b.cut).total_cmp(&size(&a.cut))).then(a.names.cmp(&b.names))
    });
    rows
}

fn drilled_alike(a: &[Drilled], b: &[Drilled]) -> bool {
    let near = |x: f64, y: f64| (x - y).abs() < 1e-5;
    let alike = |(p, q): (&Drilled, &Drilled)| {
        near(p.from_end, q.from_end)
            && near(p.diameter, q.diameter)
            && near(p.long, q.long)
            && p.toward == q.toward
    };
    a.len() == b.len() && a.iter().zip(b).all(alike)
}

/// Left and right pieces of which one is the other's mirror image and cannot be laid on it by turning it in its plane: a sheet has a good face,
/// and what is drilled into it is on one.
fn is_handed(frame: &Frame, row: &CutRow) -> bool {
    let Cut::Sheet { outline } = &row.cut else { return false };
    let sides = |side| frame.pieces.iter().any(|p| p.side == Some(side) && row.names.contains(&p.name));
    !is_own_mirror(outline) && sides(Side::Left) && sides(Side::Right)
}

/// The greatest extent of a cut.
fn size(cut: &Cut) -> f64 {
    match cut {
        Cut::Length(l) | Cut::Band(l) => *l,
        Cut::Sheet { outline } => extent(outline).0,
    }
}

/// Length and width of the rectangle around an outline, longer side first.
#[must_use]
pub fn extent(outline: &[(f64, f64)]) -> (f64, f64) {
    let x = outline.iter().map(|p| p.0).fold(0.0, f64::max);
    let y = outline.iter().map(|p| p.1).fold(0.0, f64::max);
    (x.max(y), x.min(y))
}

/// Alike to a hundredth of a millimetre; mirror images of an outline count as alike and are marked.
fn same(a: &Cut, b: &Cut) -> bool {
    let near = |x: f64, y: f64| (x - y).abs() < 1e-5;
    match (a, b) {
        (Cut::Length(x), Cut::Length(y)) | (Cut::Band(x), Cut::Band(y)) => near(*x, *y),
        (Cut::Sheet { outline: x }, Cut::Sheet { outline: y }) => near(area(x), area(y)) && outline_alike(x, y),
        _ => false,
    }
}

/// Area of a flat outline (shoelace formula).
#[must_use]
pub fn area(outline: &[(f64, f64)]) -> f64 {
    let n = outline.len();
    let twice: f64 = (0..n)
        .map(|i| {
            let (a, b) = (outline[i], outline[(i + 1) % n]);
            a.0 * b.1 - b.0 * a.1
        })
        .sum();
    (twice / 2.0).abs()
}
