//! Every node of the tree lies inside its parent, whatever the text.
#![no_main]

use chairwright_diagnostics::{SourceId, Span};
use chairwright_syntax::{Entry, Limits, parse};
use libfuzzer_sys::fuzz_target;

fn inside(outer: Span, inner: Span) {
    assert!(outer.start <= inner.start && inner.end <= outer.end, "{inner:?} is not in {outer:?}");
}

fn entry(e: &Entry) {
    inside(e.span, e.head);
    inside(e.head, e.keyword.span);
    for v in e.subject.iter().chain(e.value.iter().flatten()) {
        inside(e.head, v.span);
    }
    for c in &e.clauses {
        inside(e.head, c.span);
        c.values.iter().for_each(|v| inside(c.span, v.span));
    }
    if let Some(b) = &e.block {
        inside(e.span, b.span);
        for i in &b.entries {
            inside(b.span, i.span);
            entry(i);
        }
    }
}

fuzz_target!(|text: &str| {
    parse(SourceId(0), text, &Limits::default()).entries.iter().for_each(entry);
});
