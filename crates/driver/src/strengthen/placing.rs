//! Where fasteners could sit, written as clauses; and what is said of those that sit badly.

use super::site::{Site, Statement};
use crate::words::Words;
use chairwright_design::{Origin, Placing};
use chairwright_diagnostics::{Diagnostic, Edit, Sources};
use chairwright_quantity::{Dimension, Display, Quantity};
use chairwright_strength::{Ill, Near, Room, Strength, steps};

/// The clauses that place fasteners.
const CLAUSES: [&str; 5] = ["rows", "apart", "spaced", "ends", "edges"];
fn length(m: f64, inches: bool) -> String {
    let (value, unit) = if inches { (m / 0.0254, "in") } else { (m * 1e3, "mm") };
    let rounded = (value * 1e4).round() / 1e4;
    format!("{rounded} {unit}")
}

/// The clauses of a placing.
pub(crate) fn clauses(p: &Placing, inches: bool) -> String {
    let mut out = if p.rows > 1 { format!("rows {}", p.rows) } else { String::new() };
    let given = [("apart", p.apart), ("spaced", p.spaced), ("ends", p.ends), ("edges", p.edges)];
    for (word, m) in given.into_iter().filter_map(|(w, m)| Some((w, m?))) {
        out.push_str(&format!(" {word} {}", length(m, inches)));
    }
    // one fastener alone sits in the middle
    let out = out.trim_start();
    if out.is_empty() { "rows 1".to_owned() } else { out.to_owned() }
}

/// Where fasteners sit, for the one who drills: "2 rows of 3, rows 40 mm apart, 60 mm from one to the next, 30 mm from the
/// ends and 20 mm from the edges of the face", with a word before it where the text does not say so; `None` where so many fit nowhere.
#[must_use]
pub fn placing_words(room: &Room, display: Display) -> Option<String> {
    let length = |m: f64| display.text(Quantity::from_si(m, Dimension::LENGTH));
    let p = room.placing.as_ref()?;
    let each = room.count / room.faces / p.rows.max(1);
    let laid = room.laid()?;
    let mut out = match (p.rows, each) {
        (1, 1) => "1 in the middle".to_owned(),
        (1, n) => format!("{n} in a row"),
        (rows, n) => format!("{rows} rows of {n}"),
    };
    if p.rows > 1 {
        out.push_str(&format!(", rows {} apart", length(laid.step[1])));
    }
    if each > 1 {
        out.push_str(&format!(", {} from one to the next", length(laid.step[0])));
    }
    let near = [0, 1].map(|k| length(laid.margin[k]));
    out.push_str(&format!(", {} from an end and {} from an edge of the face", near[0], near[1]));
    if room.faces > 1 {
        out.push_str("; on each plate over each member");
    }
    Some(if room.taken { format!("taken: {out}") } else { out })
}

/// The edits that write a placing into a statement, and other fasteners in number.
pub(super) fn write(s: &Statement<'_>, text: &str, count: Option<u32>) -> Option<Vec<Edit>> {
    let mut out: Vec<Edit> = Vec::new();
    for clause in CLAUSES.iter().filter_map(|word| s.clause(word)) {
        let before = s.source.text.get(..clause.span.start as usize)?;
        let blanks = before.len() - before.trim_end().len();
        let span = chairwright_diagnostics::Span {
            start: clause.span.start.saturating_sub(u32::try_from(blanks).ok()?),
            ..clause.span
        };
        out.push(s.replace(span, ""));
    }
    let behind = s.clause("times").or_else(|| s.clause("using"))?;
    let times = s.clause("times").zip(count);
    match times {
        Some((clause, n)) => out.push(s.replace(clause.span, format!("times {n} {text}"))),
        None => {
            let end = chairwright_diagnostics::Span { start: behind.span.end, ..behind.span };
            out.push(s.replace(end, format!(" {text}")));
        }
    }
    // what touches becomes one edit, so that none depends on the order of the others
    out.sort_by_key(|e| (e.span.start, e.span.end));
    let mut joined: Vec<Edit> = Vec::new();
    for e in out {
        match joined.last_mut() {
            Some(last) if last.span.end == e.span.start => {
                last.span.end = e.span.end;
                last.replacement.push_str(&e.replacement);
            }
            _ => joined.push(e),
        }
    }
    Some(joined)
}

/// What is said of fasteners that sit badly, with where they would sit well.
pub(crate) fn misplaced(words: &Words<'_>, sources: &Sources, s: &Strength) -> Vec<Diagnostic> {
    let site = Site { sources, design: words.design, origins: words.origins, rooms: &[] };
    let mut said: Vec<Origin> = Vec::new();
    let mut out = Vec::new();
    for m in &s.misplaced {
        // both sides are one statement
        if said.contains(&m.origin) {
            continue;
        }
        said.push(m.origin);
        let (code, label, note) = ill_words(words, &m.ill);
        let headline = match code {
            "splits" => format!("wood may split at the fasteners of `{}`", crate::sides::without_side(&m.name)),
            _ => format!(
                "the fasteners of `{}` do not all meet both pieces",
                crate::sides::without_side(&m.name)
            ),
        };
        let found = words.placed(Diagnostic::new(code, headline), m.origin, label).note(note);
        out.push(mended(words, &site, found, m.origin, &m.room));
    }
    out
}

fn mended(words: &Words<'_>, site: &Site<'_>, said: Diagnostic, origin: Origin, room: &Room) -> Diagnostic {
    let inches = !matches!(words.display, Display::Metric);
    let better = room.fit(room.count, steps(inches)).map(|p| (None, p));
    let better = better.or_else(|| room.fewer(room.count, steps(inches)).map(|(n, p)| (Some(n), p)));
    let Some((count, placing)) = better else {
        return said.help("nothing of this size fits there: thinner ones, glue, or a larger face");
    };
    let text = clauses(&placing, inches);
    let said = match count {
        None => said.help(format!("write {text}")),
        Some(n) => {
            let only = if n == 1 { "only one fits".to_owned() } else { format!("only {n} fit") };
            said.help(format!("{only}: times {n} {text}; or a larger face"))
        }
    };
    let edits = site.statement(origin).and_then(|s| write(&s, &text, count));
    edits.unwrap_or_default().into_iter().fold(said, |said, e| said.edit(e.span, e.replacement))
}

/// Code, label and note of what is wrong.
fn ill_words(words: &Words<'_>, ill: &Ill) -> (&'static str, String, String) {
    match ill {
        Ill::Off { span, face } => {
            let by =
                |s: &[f64; 2]| format!("{} by {}", words.length(s[0].max(0.0)), words.length(s[1].max(0.0)));
            (
                "off-face",
                format!("they reach over {}", by(span)),
                format!("the face that both pieces share is {}, along the rows and across them", by(face)),
            )
        }
        Ill::Close { near, has, least, piece } => {
            let (has, least) = (words.length(has.max(0.0)), words.length(*least));
            let what = match near {
                Near::InRow => format!("{has} from one to the next in `{piece}`"),
                Near::Rows => format!("{has} from row to row in `{piece}`"),
                Near::End => format!("{has} from the end of `{piece}`"),
                Near::Edge => format!("{has} from the edge of `{piece}`"),
            };
            ("splits", what, format!("at least {least} there: nearer, no value of these fasteners holds"))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn clauses_in_either_units() {
        let p = Placing { rows: 2, spaced: Some(0.05), apart: Some(0.0381), ends: None, edges: None };
        assert_eq!(clauses(&p, false), "rows 2 apart 38.1 mm spaced 50 mm");
        let p = Placing { apart: Some(0.0381), spaced: None, ..p };
        assert_eq!(clauses(&p, true), "rows 2 apart 1.5 in");
    }
}
