//! The title of every drawing and table: what stands in the way of building it, which chair it is, and what is seen.

use crate::view::escape;
use chairwright_diagnostics::wrap;
use chairwright_driver::Compilation;
use std::fmt::Write as _;

/// What a sheet says whose chair has an error.
const MARK: &str = "NOT TO BE BUILT AS IT STANDS";
/// A letter's breadth over its height, of the broadest faces that viewers take.
const LETTER: f64 = 0.62;

/// Design, revision, variant and state.
fn name(c: &Compilation) -> String {
    let d = &c.design;
    let mut name = d.name.replace('_', " ");
    for (word, value) in [("revision", &d.revision), ("variant", &d.variant), ("state", &d.state)] {
        if let Some(value) = value {
            let _ = write!(name, ", {word} {value}");
        }
    }
    name
}

/// The same behind what stands in the way, for tables and solids.
pub(crate) fn line(c: &Compilation) -> String {
    let mark = if c.has_errors() { format!("{MARK}: ") } else { String::new() };
    mark + &name(c)
}

/// The title in one line, for programs that read pictures aloud; fit to stand between tags.
pub(crate) fn plain(c: &Compilation, seen: &str) -> String {
    escape(&format!("{}: {seen}", line(c)))
}

/// The title as it is drawn.
pub(crate) struct Title {
    lines: Vec<(bool, String)>,
    text: f64,
}

impl Title {
    /// A title in letters of this height that goes no further than this breadth.
    pub(crate) fn new(c: &Compilation, seen: &str, (text, breadth): (f64, f64)) -> Title {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let room = ((breadth / (text * LETTER)).max(20.0)) as usize;
        let broken = |bold: bool, words: &str| {
            wrap(words, room).into_iter().map(move |l| (bold, escape(&l))).collect::<Vec<_>>()
        };
        let mut lines = if c.has_errors() { broken(true, MARK) } else { Vec::new() };
        lines.extend(broken(false, &name(c)));
        lines.extend(broken(false, seen));
        Title { lines, text }
    }

    fn line(&self) -> f64 {
        1.4 * self.text
    }

    /// The room that it takes.
    pub(crate) fn height(&self) -> f64 {
        #[allow(clippy::cast_precision_loss)]
        let lines = self.lines.len() as f64;
        lines * self.line()
    }

    /// Draws it with its upper left corner here.
    pub(crate) fn draw(&self, (x, y): (f64, f64)) -> String {
        let mut out = String::new();
        let mut at = y;
        for (bold, line) in &self.lines {
            at += self.line();
            let weight = if *bold { ";font-weight:bold;fill:#b00020" } else { "" };
            let _ = writeln!(
                out,
                "<text x=\"{x:.1}\" y=\"{:.1}\" style=\"font-size:{:.1}px{weight}\">{line}</text>",
                at - 0.3 * self.text,
                self.text
            );
        }
        out
    }
}
