//! Where a name comes from: its line, and the names that the line leans on.

use crate::Program;
use crate::fields::ENTRIES;
use crate::room::{Argument, RoomId};
use crate::scope::{Decl, DeclKind, Found, block_fields, fold, text_of};
use crate::words::{inner, keyword, usual, value};
use chairwright_diagnostics::Span;
use chairwright_syntax::{Entry, Expr, ExprKind};
use smol_str::SmolStr;

/// One step of a derivation.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trace {
    /// The line that says it.
    pub span: Span,
    /// Names it leans on, each once: declared names in full, `rider.` and `conditions.` fields, figures,
    /// and catalogue names in quotes.
    pub leans_on: Vec<String>,
    /// Where a catalogue entry's figures are from.
    pub source: Option<String>,
}

impl Program<'_> {
    /// The line behind a name, and what it leans on.
    #[must_use]
    pub fn trace(&self, name: &str) -> Option<Trace> {
        if let Some(quoted) = name.strip_prefix('"').and_then(|n| n.strip_suffix('"')) {
            return self.trace_entry(quoted);
        }
        if let Some((base, key)) = name.split_once('.')
            && let Some((base, _)) = block_fields(base)
        {
            return self.trace_field(base, &usual(key));
        }
        let decl = self.scope.names.get(name)?;
        let mut out = Trace { span: decl.entry.head, leans_on: Vec::new(), source: None };
        match self.scope.given.get(name) {
            Some(given) => {
                out.span = given.value.span;
                self.names(given.value, given.room, &mut out.leans_on);
            }
            None => self.of_entry(decl, &mut out.leans_on),
        }
        Some(out)
    }

    fn of_entry(&self, decl: &Decl, out: &mut Vec<String>) {
        let clauses = decl.entry.clauses.iter().filter(|c| c.word.text != "within").flat_map(|c| &c.values);
        for expr in decl.entry.value.iter().flatten().chain(clauses) {
            self.names(expr, decl.room, out);
        }
        // a joint drawn without a point begins where its room stands
        let room = self.scope.room(decl.room);
        if decl.kind == DeclKind::Joint
            && let Some(stand) = room.stand
        {
            stand.at.iter().for_each(|e| self.names(e, stand.room, out));
        }
    }

    fn trace_field(&self, base: &str, key: &str) -> Option<Trace> {
        let full = format!("{base}.{key}");
        if let Some(given) = self.scope.chosen(&full) {
            return Some(Trace { span: given.value.span, leans_on: Vec::new(), source: None });
        }
        let block = if base == "rider" { self.scope.rider? } else { self.scope.conditions? };
        let line = inner(block).find(|e| {
            let k = keyword(e);
            k == key || k.strip_suffix(".left").or_else(|| k.strip_suffix(".right")) == Some(key)
        })?;
        let mut leans_on = Vec::new();
        value(line).into_iter().for_each(|v| self.names(v, RoomId::ROOT, &mut leans_on));
        Some(Trace { span: line.head, leans_on, source: None })
    }

    fn trace_entry(&self, name: &str) -> Option<Trace> {
        let key = fold(name);
        let find = |e: &&Entry| text_of(e.subject.as_ref()).is_some_and(|t| fold(t) == key);
        let measured = self.scope.measured.iter().copied().find(find);
        let kinds = ENTRIES.iter().filter(|e| !matches!(e.keyword, "segment" | "allowance"));
        let shipped = kinds.filter_map(|e| self.scope.entries.get(&(e.keyword, key.clone())).copied()).next();
        let entry = measured.or(shipped)?;
        let mut leans_on = Vec::new();
        for field in
            inner(entry).filter(|f| matches!(keyword(f).as_str(), "material" | "socket" | "host" | "made_for"))
        {
            leans_on.extend(text_of(value(field)).map(|t| format!("\"{t}\"")));
        }
        leans_on.retain(|n| fold(n.trim_matches('"')) != key);
        let source = crate::words::field_of(entry, "source").and_then(|e| text_of(Some(e))).map(str::to_owned);
        Some(Trace { span: entry.head, leans_on, source })
    }

    /// The names in an expression, in full.
    fn names(&self, expr: &Expr, room: RoomId, out: &mut Vec<String>) {
        let mut add = |name: String| {
            if !out.contains(&name) {
                out.push(name);
            }
        };
        match &expr.kind {
            ExprKind::Name(path) => self.name(&path.text(), room, out),
            ExprKind::Text(text) => add(format!("\"{text}\"")),
            ExprKind::Unary(_, v) => self.names(v, room, out),
            ExprKind::Binary(_, l, r) => {
                self.names(l, room, out);
                self.names(r, room, out);
            }
            ExprKind::Call(path, items) => {
                self.name(&path.text(), room, out);
                items.iter().for_each(|i| self.names(i, room, out));
            }
            ExprKind::List(items) => items.iter().for_each(|i| self.names(i, room, out)),
            ExprKind::Direction { amount, lean, .. } => {
                self.names(amount, room, out);
                lean.iter().for_each(|(_, angle)| self.names(angle, room, out));
            }
            ExprKind::Along { line, amount } => {
                self.name(&line.text(), room, out);
                self.names(amount, room, out);
            }
            ExprKind::Literal(_) | ExprKind::Broken => {}
        }
    }

    fn name(&self, text: &SmolStr, room: RoomId, out: &mut Vec<String>) {
        let mut add = |name: String| {
            if !out.contains(&name) {
                out.push(name);
            }
        };
        match self.scope.find(text, room) {
            Some(Found::Name(full)) => add(full.to_string()),
            Some(Found::Argument(Argument::Given(expr, from), None)) => self.names(expr, from, out),
            Some(Found::Argument(
                Argument::Given(Expr { kind: ExprKind::Name(path), .. }, from),
                Some(rest),
            )) => {
                self.name(&smol_str::format_smolstr!("{}.{rest}", path.text()), from, out);
            }
            Some(_) => {}
            None => {
                let field = text.split_once('.').and_then(|(base, key)| Some((block_fields(base)?.0, key)));
                let owner = text.rsplit_once('.').and_then(|(base, _)| match self.scope.find(base, room) {
                    Some(Found::Name(full)) => Some(full),
                    _ => None,
                });
                match (field, owner) {
                    (Some((base, key)), _) => add(format!("{base}.{}", usual(key))),
                    (None, Some(owner)) => add(owner.to_string()),
                    _ if crate::figures::figure_spec(text).is_some() => add(text.to_string()),
                    _ => {}
                }
            }
        }
    }
}
