//! Sizes that stand as plain numbers where something of the chair is placed: nobody made them a parameter, and yet whoever draws
//! the chair can write another number there.

use crate::literal::literal;
use crate::words::keyword;
use chairwright_diagnostics::Span;
use chairwright_quantity::Dimension;
use chairwright_syntax::{Binary, Entry, Expr, ExprKind};

/// Statements that place what belongs to the chair, with the clauses that hold sizes: those that are moved most easily first. What is
/// carried or loaded is of another day, and a hole is where its bolt goes; what `let` names may be the very limit that a demand asks for.
const PLACING: [(&str, &[&str]); 10] = [
    ("wheel", &["at", "camber"]),
    ("caster", &["at", "raked"]),
    ("seat", &["from", "to", "width"]),
    ("back", &["from", "to", "width"]),
    ("footrest", &["from", "to", "width"]),
    ("armrest", &["from", "to", "width"]),
    ("brake", &["at"]),
    ("item", &["at"]),
    ("joint", &["at"]),
    ("box", &["from", "to"]),
];

/// Such a size. One that stands several times in a statement, the same way each time, is one.
#[derive(Clone, PartialEq, Debug)]
pub struct PlainSize {
    /// What kind of thing it places: the first word of the statement.
    pub of: &'static str,
    /// Every place where it stands.
    pub places: Vec<Span>,
    /// The direction before it, where one stands there.
    pub way: Option<String>,
    /// How much it is, in millimetres or degrees.
    pub now: f64,
    /// `mm` or `deg`.
    pub unit: &'static str,
}

/// All such sizes of a text, those of what is moved most easily first.
#[must_use]
pub fn plain_sizes(entries: &[Entry]) -> Vec<PlainSize> {
    let mut out = Vec::new();
    gather(entries, &mut out);
    out.sort_by_key(|(rank, _)| *rank);
    out.into_iter().map(|(_, size)| size).collect()
}

fn gather(entries: &[Entry], out: &mut Vec<(usize, PlainSize)>) {
    for entry in entries {
        let keyword = keyword(entry);
        if let Some(rank) = PLACING.iter().position(|(k, _)| *k == keyword) {
            let mut own = Vec::new();
            let of = entry.clauses.iter().filter(|c| PLACING[rank].1.contains(&c.word.text.as_str()));
            of.flat_map(|c| &c.values).for_each(|e| sizes((PLACING[rank].0, e), &mut own));
            out.extend(own.into_iter().map(|size| (rank, size)));
        }
        if let Some(block) = &entry.block {
            gather(&block.entries, out);
        }
    }
}

/// The sizes of a place.
fn sizes((of, expr): (&'static str, &Expr), own: &mut Vec<PlainSize>) {
    match &expr.kind {
        ExprKind::Direction { word, amount, .. } => size((of, amount), Some(word.text.as_str()), own),
        ExprKind::List(items) => items.iter().for_each(|e| sizes((of, e), own)),
        _ => size((of, expr), None, own),
    }
}

fn size((of, expr): (&'static str, &Expr), way: Option<&str>, own: &mut Vec<PlainSize>) {
    let written = match &expr.kind {
        ExprKind::Literal(written) => written,
        ExprKind::Binary(Binary::Tolerance, middle, _) => return size((of, middle), way, own),
        _ => return,
    };
    let Ok(value) = literal(written, expr.span) else { return };
    let (now, unit) = match value.dimension {
        Dimension::LENGTH => (value.si() * 1e3, "mm"),
        Dimension::ANGLE => (value.si().to_degrees(), "deg"),
        _ => return,
    };
    let same = |s: &&mut PlainSize| s.way.as_deref() == way && way.is_some() && s.unit == unit && s.now == now;
    match own.iter_mut().find(same) {
        Some(known) => known.places.push(expr.span),
        None => own.push(PlainSize { of, places: vec![expr.span], way: way.map(str::to_owned), now, unit }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use chairwright_diagnostics::SourceId;
    use chairwright_syntax::{Limits, parse};

    #[test]
    fn sizes_of_places() {
        let text = "let wide = 400 mm\nlet tall = wide + 20 mm\nboth sides {\n    joint a at outward wide / 2, up 30 cm ± 2 mm\n}\n\
                    seat = \"ply\" from up 480 mm to up 480 mm, forward 430 mm width wide\ncarry bag = 4 kg at up 700 mm\n\
                    wheel rear = \"w\" at a camber 2 deg\n";
        let read = parse(SourceId(0), text, &Limits::default());
        let found: Vec<(usize, Option<String>, f64)> = plain_sizes(&read.entries)
            .into_iter()
            .map(|s| (s.places.len(), s.way, (s.now * 1e6).round() / 1e6))
            .collect();
        let way = |w: &str| Some(w.to_owned());
        let wanted = [(1, None, 2.0), (2, way("up"), 480.0), (1, way("forward"), 430.0), (1, way("up"), 300.0)];
        assert_eq!(found, wanted);
    }
}
