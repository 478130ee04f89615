//! Plain text tables that fit a width.

/// A column is not broken narrower than this.
const NARROW: usize = 24;

/// A table of texts; columns marked right are aligned to the right.
#[derive(Clone, Debug, Default)]
pub struct Table {
    right: Vec<bool>,
    rows: Vec<Vec<String>>,
    heads: Vec<String>,
}

impl Table {
    /// A table with these headings; a heading that begins with `>` is aligned to the right.
    #[must_use]
    pub fn new(heads: &[&str]) -> Table {
        Table {
            right: heads.iter().map(|h| h.starts_with('>')).collect(),
            heads: heads.iter().map(|h| h.trim_start_matches('>').to_owned()).collect(),
            rows: Vec::new(),
        }
    }

    /// Adds a row.
    pub fn row(&mut self, cells: Vec<String>) {
        self.rows.push(cells);
    }

    /// Whether it has no rows.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// The table in lines of at most `width` characters; the last column is broken to fit, and before it
    /// gets too narrow to read the widest of the others too.
    #[must_use]
    pub fn lines(&self, width: usize) -> Vec<String> {
        let widths = self.widths(width);
        let mut out = vec![self.line(&self.heads, &widths)];
        out.push(format!("  {}", widths.iter().map(|w| "─".repeat(*w)).collect::<Vec<_>>().join("  ")));
        for row in &self.rows {
            let broken: Vec<Vec<String>> =
                row.iter().zip(&widths).map(|(cell, w)| chairwright_diagnostics::wrap(cell, *w)).collect();
            let height = broken.iter().map(Vec::len).max().unwrap_or(0).max(1);
            for i in 0..height {
                let cells: Vec<String> = broken.iter().map(|c| c.get(i).cloned().unwrap_or_default()).collect();
                out.push(self.line(&cells, &widths));
            }
        }
        out
    }

    fn widths(&self, width: usize) -> Vec<usize> {
        let count = |s: &String| s.chars().count();
        let mut widths: Vec<usize> = self.heads.iter().map(count).collect();
        for row in &self.rows {
            for (w, cell) in widths.iter_mut().zip(row) {
                *w = (*w).max(count(cell));
            }
        }
        let last = widths.len() - 1;
        let readable = widths[last].min(NARROW);
        loop {
            let fixed: usize = widths[..last].iter().map(|w| w + 2).sum();
            let room = width.saturating_sub(fixed + 2);
            let widest = (0..last).filter(|i| !self.right[*i]).max_by_key(|i| widths[*i]);
            match widest {
                Some(i) if room < readable && widths[i] > NARROW => widths[i] -= 1,
                _ => {
                    widths[last] = widths[last].min(room.max(12));
                    return widths;
                }
            }
        }
    }

    fn line(&self, cells: &[String], widths: &[usize]) -> String {
        let mut line = String::from("  ");
        for (i, (cell, width)) in cells.iter().zip(widths).enumerate() {
            let pad = " ".repeat(width.saturating_sub(cell.chars().count()));
            let padded = if self.right[i] { format!("{pad}{cell}") } else { format!("{cell}{pad}") };
            line.push_str(&padded);
            line.push_str("  ");
        }
        line.trim_end().to_owned()
    }
}
