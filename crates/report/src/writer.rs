//! Lines of a text report.

use crate::table::Table;
use chairwright_diagnostics::wrap;
use std::fmt::Write as _;

/// Columns of a text report.
pub(crate) const WIDTH: usize = 80;

pub(crate) struct Writer {
    pub out: String,
}

impl Writer {
    pub(crate) fn head(&mut self, text: &str) {
        let _ = write!(self.out, "\n{}\n{}\n", text, "─".repeat(WIDTH));
    }

    pub(crate) fn para(&mut self, text: &str, indent: &str) {
        for line in wrap(text, WIDTH - indent.chars().count()) {
            let _ = writeln!(self.out, "{indent}{line}");
        }
    }

    pub(crate) fn item(&mut self, text: &str) {
        for (i, line) in wrap(text, WIDTH - 4).iter().enumerate() {
            let _ = writeln!(self.out, "  {} {line}", if i == 0 { "·" } else { " " });
        }
    }

    pub(crate) fn numbered(&mut self, number: usize, text: &str) {
        for (i, line) in wrap(text, WIDTH - 6).iter().enumerate() {
            let mark = if i == 0 { format!("{number:>2}") } else { "  ".to_owned() };
            let _ = writeln!(self.out, "  {mark}  {line}");
        }
    }

    pub(crate) fn table(&mut self, table: &Table) {
        for line in table.lines(WIDTH) {
            let _ = writeln!(self.out, "{line}");
        }
    }
}
