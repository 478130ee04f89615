//! Pieces onto sheets in shelves: widest first, each onto the first shelf that still takes it.
//! Every cut runs from edge to edge, so a hand saw can follow it.

/// One piece on a sheet.
#[derive(Clone, PartialEq, Debug)]
pub struct Laid {
    /// Its name.
    pub name: String,
    /// Its lower left corner.
    pub at: (f64, f64),
    /// Its size along the sheet's length and width.
    pub size: (f64, f64),
}

/// One sheet and what is cut from it.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct SheetLayout {
    /// Its length and width.
    pub size: (f64, f64),
    /// The pieces.
    pub pieces: Vec<Laid>,
    shelves: Vec<Shelf>,
}

#[derive(Clone, PartialEq, Debug)]
struct Shelf {
    y: f64,
    height: f64,
    used: f64,
}

/// Name, length and width of a piece.
type Rectangle = (String, f64, f64);

/// Cuts what it can from sheets that are on hand. Returns the sheets that were cut and the pieces
/// that are left.
#[must_use]
pub fn use_up_sheets(
    pieces: &[Rectangle],
    on_hand: &[(f64, f64)],
    kerf: f64,
) -> (Vec<SheetLayout>, Vec<Rectangle>) {
    let mut sheets: Vec<SheetLayout> =
        on_hand.iter().map(|s| SheetLayout { size: *s, ..SheetLayout::default() }).collect();
    sheets.sort_by(|a, b| (a.size.0 * a.size.1).total_cmp(&(b.size.0 * b.size.1)));
    let mut order = pieces.to_vec();
    order.sort_by(|a, b| b.2.total_cmp(&a.2).then(b.1.total_cmp(&a.1)).then(a.0.cmp(&b.0)));
    order.retain(|(name, l, w)| {
        !sheets.iter_mut().any(|s| {
            let fits = |l: f64, w: f64| l <= s.size.0 + 1e-9 && w <= s.size.1 + 1e-9;
            let sizes = [(*l, *w), (*w, *l)].into_iter().filter(|(l, w)| fits(*l, *w)).collect::<Vec<_>>();
            sizes.into_iter().any(|size| s.take(name, size, kerf))
        })
    });
    sheets.retain(|s| !s.pieces.is_empty());
    (sheets, order)
}

/// Packs rectangles (name, length, width; longer side first) onto sheets of one size, with a saw cut
/// between. Longer sides lie along the sheet; a piece too long for that is turned.
///
/// # Errors
/// The first piece that does not fit the sheet either way.
pub fn pack_sheets(
    pieces: &[(String, f64, f64)],
    sheet: (f64, f64),
    kerf: f64,
) -> Result<Vec<SheetLayout>, (String, f64, f64)> {
    let mut order = pieces.to_vec();
    order.sort_by(|a, b| b.2.total_cmp(&a.2).then(b.1.total_cmp(&a.1)).then(a.0.cmp(&b.0)));
    let mut sheets: Vec<SheetLayout> = Vec::new();
    for (name, length, width) in order {
        let fits = |l: f64, w: f64| l <= sheet.0 + 1e-9 && w <= sheet.1 + 1e-9;
        let size = if fits(length, width) {
            (length, width)
        } else if fits(width, length) {
            (width, length)
        } else {
            return Err((name, length, width));
        };
        let placed = sheets.iter_mut().any(|s| s.take(&name, size, kerf));
        if !placed {
            let mut fresh = SheetLayout { size: sheet, ..SheetLayout::default() };
            fresh.take(&name, size, kerf);
            sheets.push(fresh);
        }
    }
    Ok(sheets)
}

impl SheetLayout {
    fn take(&mut self, name: &str, size: (f64, f64), kerf: f64) -> bool {
        let length = self.size.0;
        let on =
            self.shelves.iter_mut().find(|s| size.1 <= s.height + 1e-9 && s.used + size.0 <= length + 1e-9);
        let at = match on {
            Some(shelf) => {
                let at = (shelf.used, shelf.y);
                shelf.used += size.0 + kerf;
                at
            }
            None => {
                let y = self.shelves.last().map_or(0.0, |s| s.y + s.height + kerf);
                if y + size.1 > self.size.1 + 1e-9 {
                    return false;
                }
                self.shelves.push(Shelf { y, height: size.1, used: size.0 + kerf });
                (0.0, y)
            }
        };
        self.pieces.push(Laid { name: name.to_owned(), at, size });
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces_lie_inside_and_apart() {
        let pieces: Vec<(String, f64, f64)> = (0..30)
            .map(|i| (format!("p{i}"), 0.3 + 0.02 * f64::from(i), 0.1 + 0.01 * f64::from(i % 7)))
            .collect();
        let sheets = pack_sheets(&pieces, (1.525, 1.525), 0.003).unwrap();
        let mut count = 0;
        for sheet in &sheets {
            for (i, a) in sheet.pieces.iter().enumerate() {
                count += 1;
                assert!(a.at.0 + a.size.0 <= 1.5251 && a.at.1 + a.size.1 <= 1.5251);
                for b in &sheet.pieces[i + 1..] {
                    let apart_x = a.at.0 + a.size.0 + 0.003 <= b.at.0 + 1e-9
                        || b.at.0 + b.size.0 + 0.003 <= a.at.0 + 1e-9;
                    let apart_y = a.at.1 + a.size.1 + 0.003 <= b.at.1 + 1e-9
                        || b.at.1 + b.size.1 + 0.003 <= a.at.1 + 1e-9;
                    assert!(apart_x || apart_y, "{} and {}", a.name, b.name);
                }
            }
        }
        assert_eq!(count, 30);
        assert!(pack_sheets(&[("long".into(), 2.0, 0.1)], (1.5, 1.5), 0.003).is_err());
    }
}
