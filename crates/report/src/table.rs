//! Plain text tables that fit a width.

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

    /// The table in lines of at most `width` characters; the last column is broken to fit.
    #[must_use]
    pub fn lines(&self, width: usize) -> Vec<String> {
        let columns = self.heads.len();
        let count = |s: &String| s.chars().count();
        let mut widths: Vec<usize> = self.heads.iter().map(count).collect();
        for row in &self.rows {
            for (w, cell) in widths.iter_mut().zip(row) {
                *w = (*w).max(count(cell));
            }
        }
        let fixed: usize = widths[..columns - 1].iter().map(|w| w + 2).sum();
        let room = width.saturating_sub(fixed + 2).max(12);
        widths[columns - 1] = widths[columns - 1].min(room);
        let mut out = vec![self.line(&self.heads, &widths)];
        out.push(format!("  {}", widths.iter().map(|w| "─".repeat(*w)).collect::<Vec<_>>().join("  ")));
        for row in &self.rows {
            let mut last = chairwright_diagnostics::wrap(row.last().map_or("", String::as_str), room);
            if last.is_empty() {
                last.push(String::new());
            }
            for (i, part) in last.iter().enumerate() {
                let mut cells: Vec<String> =
                    if i == 0 { row[..columns - 1].to_vec() } else { vec![String::new(); columns - 1] };
                cells.push(part.clone());
                out.push(self.line(&cells, &widths));
            }
        }
        out
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
