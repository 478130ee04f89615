//! What a text asks to be brought in.

use crate::words::keyword;
use chairwright_diagnostics::Span;
use chairwright_syntax::{Entry, ExprKind};

/// One thing to bring in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Import {
    /// A shipped page: `use catalogue.pipe_inch`.
    Page(String, Span),
    /// A neighbouring file: `use "parts.chair"`.
    File(String, Span),
    /// A plan that this one is made from: `fork "valley/school.chair"`.
    Fork(String, Span),
    /// A price book: `prices "shop.csv"`.
    Prices(String, Span),
    /// A list of what lies in the shed: `on_hand "shed.csv"`.
    OnHand(String, Span),
}

/// The imports of one tree, in order.
#[must_use]
pub fn imports(entries: &[Entry]) -> Vec<Import> {
    entries
        .iter()
        .filter_map(|entry| {
            let subject = entry.subject.as_ref()?;
            match (keyword(entry).as_str(), &subject.kind) {
                ("use", ExprKind::Name(path)) => {
                    Some(Import::Page(crate::words::usual_path(path).to_string(), subject.span))
                }
                ("use", ExprKind::Text(text)) => Some(Import::File(text.to_string(), subject.span)),
                ("fork", ExprKind::Text(text)) => Some(Import::Fork(text.to_string(), subject.span)),
                ("prices", ExprKind::Text(text)) => Some(Import::Prices(text.to_string(), subject.span)),
                ("on_hand", ExprKind::Text(text)) => Some(Import::OnHand(text.to_string(), subject.span)),
                _ => None,
            }
        })
        .collect()
}
