//! Properties of reading: every node has its exact range, and a broken line spoils only itself.

#![allow(clippy::unwrap_used, clippy::panic)]

use chairwright_diagnostics::{SourceId, Span};
use chairwright_syntax::{Entry, Expr, ExprKind, Limits, parse, tokens};
use chairwright_tests::{files, root, sections};

fn read(text: &str) -> chairwright_syntax::Parse {
    parse(SourceId(0), text, &Limits::default())
}

fn texts() -> Vec<String> {
    let mut all: Vec<String> = files(&root().join("examples"), "chair")
        .iter()
        .chain(&files(&root().join("tests/broken"), "chair"))
        .map(|f| std::fs::read_to_string(f).unwrap())
        .collect();
    for file in files(&root().join("tests/suite"), "chair") {
        let text = std::fs::read_to_string(&file).unwrap();
        all.extend(sections(&text).into_iter().flat_map(|s| s.files.into_values()));
    }
    all.extend(chairwright_catalogue::PAGES.iter().map(|p| p.text.to_owned()));
    all
}

fn inside(text: &str, outer: Span, inner: Span) {
    assert!(outer.start <= inner.start && inner.end <= outer.end, "{inner:?} is not in {outer:?} of\n{text}");
}

fn expression(text: &str, expr: &Expr) {
    let slice = &text[expr.span.range()];
    match &expr.kind {
        ExprKind::Name(path) => {
            let bare: String = slice.chars().filter(|c| !c.is_whitespace()).collect();
            // a name in parentheses keeps their range
            assert_eq!(bare.trim_matches(['(', ')']), path.text(), "in\n{text}");
        }
        ExprKind::Text(inner) => assert!(slice.contains(inner.as_str())),
        ExprKind::Literal(l) => l.parts.iter().for_each(|p| inside(text, expr.span, p.span)),
        ExprKind::Unary(_, v) => inside(text, expr.span, v.span),
        ExprKind::Binary(_, l, r) => {
            inside(text, expr.span, l.span);
            inside(text, expr.span, r.span);
            assert!(l.span.end <= r.span.start);
            expression(text, l);
            expression(text, r);
        }
        ExprKind::Call(_, items) | ExprKind::List(items) => {
            for item in items {
                inside(text, expr.span, item.span);
                expression(text, item);
            }
        }
        ExprKind::Direction { word, amount, .. } => {
            inside(text, expr.span, amount.span);
            assert_eq!(&text[word.span.range()], word.text);
        }
        ExprKind::Along { amount, .. } => inside(text, expr.span, amount.span),
        ExprKind::Broken => {}
    }
}

fn entry(text: &str, e: &Entry) -> usize {
    inside(text, e.span, e.head);
    inside(text, e.head, e.keyword.span);
    for v in e.subject.iter().chain(e.value.iter().flatten()) {
        inside(text, e.head, v.span);
        expression(text, v);
    }
    for c in &e.clauses {
        inside(text, e.head, c.span);
        assert_eq!(&text[c.word.span.range()], c.word.text);
        for v in &c.values {
            inside(text, c.span, v.span);
            expression(text, v);
        }
    }
    let inner = e.block.iter().flat_map(|b| b.entries.iter().map(move |i| (b.span, i)));
    inner.fold(1, |n, (block, i)| {
        inside(text, e.span, block);
        inside(text, block, i.span);
        n + entry(text, i)
    })
}

#[test]
fn every_node_has_its_exact_range() {
    let mut nodes = 0;
    for text in texts() {
        let mut at = 0;
        for (_, range) in tokens(&text) {
            assert_eq!(range.start, at);
            at = range.end;
        }
        assert_eq!(at, text.len());
        nodes += read(&text).entries.iter().map(|e| entry(&text, e)).sum::<usize>();
    }
    assert!(nodes > 3000, "only {nodes} entries");
}

/// What a top-level entry is, without its place.
fn shape(text: &str, e: &Entry) -> String {
    text[e.span.range()].to_owned()
}

#[test]
fn a_broken_line_spoils_only_itself() {
    let mut broken = 0;
    for file in files(&root().join("examples"), "chair") {
        let text = std::fs::read_to_string(file).unwrap();
        let whole = read(&text);
        let before: Vec<String> = whole.entries.iter().map(|e| shape(&text, e)).collect();
        for (i, e) in whole.entries.iter().enumerate().filter(|(_, e)| e.block.is_none()) {
            let mut spoilt = text.clone();
            let range = e.span.range();
            spoilt.replace_range(range, "joint ) @@ = (");
            let after = read(&spoilt);
            assert!(!after.problems.is_empty());
            let left: Vec<String> = after.entries.iter().map(|e| shape(&spoilt, e)).collect();
            let mut wanted = before.clone();
            wanted.remove(i);
            assert_eq!(left, wanted, "breaking `{}`", before[i]);
            broken += 1;
        }
    }
    assert!(broken > 150, "only {broken} lines");
}

/// A rail 500 mm long from `a` to `b` on each side, 45 mm square, with holes.
const DRILLED: &str = "use catalogue.lumber
both sides {
    joint a at outward 200 mm, up 300 mm
    joint b at a, forward 500 mm
    member rail = \"board 45 x 45\" from a to b offset outward 45 mm
    hole axle on rail at 120 mm from b diameter 12 mm toward outward
    hole stop on rail at 50 mm from a diameter 6 mm toward down times 3 every 30 mm
    hole slot on rail at 250 mm from a diameter 8 mm toward up slotted 40 mm
}
";

#[test]
fn holes_lie_where_the_text_says_and_an_offset_moves_the_piece() {
    let world = chairwright_tests::Memory::of(DRILLED);
    let (_, c) = chairwright_driver::compile(&world, "main.chair", &chairwright_driver::Options::default());
    for (side, sign) in [("left", 1.0), ("right", -1.0)] {
        let piece = c.frame.pieces.iter().find(|p| p.name == format!("{side}.rail")).unwrap();
        let holes: Vec<(f64, f64, f64, &str)> = piece
            .holes
            .iter()
            .map(|h| ((h.from_end * 1e3).round(), h.diameter * 1e3, h.long * 1e3, h.toward.as_str()))
            .collect();
        // 500 - 120 from the first end; then 50, 80 and 110; the slot in the middle
        let wanted = [
            (380.0, 12.0, 12.0, "outward"),
            (50.0, 6.0, 6.0, "down"),
            (80.0, 6.0, 6.0, "down"),
            (110.0, 6.0, 6.0, "down"),
            (250.0, 8.0, 40.0, "up"),
        ];
        assert_eq!(holes, wanted);
        let body = c.frame.bodies.iter().find(|b| b.name == piece.name).unwrap();
        assert!((body.centre.y - sign * 0.245).abs() < 1e-12, "200 mm and 45 mm outward");
    }
}
