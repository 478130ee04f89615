//! What a name means where it stands.

use crate::evaluator::{Env, Evaluator};
use crate::fields::{Field, entry_spec, field};
use crate::figures::{FIGURES, FigureSpec, figure_spec};
use crate::room::{Argument, RoomId};
use crate::scope::{Decl, DeclKind, Found, block_fields, fold};
use crate::suggest::nearest;
use crate::value::{Outcome, Silent};
use crate::words::usual;
use chairwright_diagnostics::Diagnostic;
use chairwright_syntax::{Entry, Expr, ExprKind, Path};
use smol_str::{SmolStr, format_smolstr};

/// What a name was found to mean.
#[derive(Clone, Copy)]
pub(crate) enum Meaning<'a> {
    /// A declaration, by its full name.
    Decl(Decl<'a>),
    /// A field of the rider's or the conditions' block.
    Block(&'static str, &'static Field),
    /// A field of the catalogue entry that a stock or part name stands for.
    Entry(Decl<'a>, &'static Field),
    /// A computed figure.
    Figure(&'static FigureSpec),
    /// What an assembly was given, in the room of the one who gave it.
    Expr(&'a Expr, RoomId),
    /// The number of a turn.
    Turn(i64),
}

impl<'a> Evaluator<'a> {
    /// Finds what a path means, or reports why it means nothing.
    pub(crate) fn resolve(&self, path: &Path, env: &Env) -> Outcome<Meaning<'a>> {
        let (text, room) = self.through(path.text(), env.room)?;
        match self.scope.find(&text, room) {
            Some(Found::Name(name)) => return Ok(Meaning::Decl(self.scope.names[&name])),
            Some(Found::Argument(Argument::Nothing, _)) => return Err(Silent),
            Some(Found::Argument(Argument::Turn(turn), None)) => return Ok(Meaning::Turn(turn)),
            Some(Found::Argument(Argument::Given(expr, from), None)) => return Ok(Meaning::Expr(expr, from)),
            Some(Found::Argument(_, Some(_))) | None => {}
        }
        if let Some((base, key)) = text.split_once('.')
            && let Some((base, list)) = block_fields(base)
        {
            return match field(list, &usual(key)) {
                Some(field) => Ok(Meaning::Block(base, field)),
                None => self.unknown(path, list.iter().map(|f| format_smolstr!("{base}.{}", f.key)).collect()),
            };
        }
        if let Some((base, key)) = text.rsplit_once('.')
            && let Some(Found::Name(name)) = self.scope.find(base, room)
        {
            let decl = self.scope.names[&name];
            let list = match decl.kind {
                DeclKind::Stock | DeclKind::Member => entry_spec("stock"),
                DeclKind::Part | DeclKind::Wheel | DeclKind::Caster | DeclKind::Item => entry_spec("part"),
                _ => None,
            };
            if let Some(field) = list.and_then(|l| field(l.fields, &usual(key))) {
                return Ok(Meaning::Entry(decl, field));
            }
        }
        self.no_declaration(path, &text, env)
    }

    /// Follows what an assembly was given, as long as it is a name itself.
    fn through(&self, mut text: SmolStr, mut room: RoomId) -> Outcome<(SmolStr, RoomId)> {
        for _ in 0..32 {
            let Some(Found::Argument(Argument::Given(expr, from), rest)) = self.scope.find(&text, room) else {
                return Ok((text, room));
            };
            let ExprKind::Name(path) = &expr.kind else { return Ok((text, room)) };
            text = match rest {
                Some(rest) => format_smolstr!("{}.{rest}", path.text()),
                None => path.text(),
            };
            room = from;
        }
        Err(Silent)
    }

    fn no_declaration(&self, path: &Path, text: &SmolStr, env: &Env) -> Outcome<Meaning<'a>> {
        if let Some(figure) = figure_spec(text).or_else(|| figure_spec(&usual(text))) {
            if env.figures {
                return Ok(Meaning::Figure(figure));
            }
            self.say(
                Diagnostic::new("figure-in-geometry", format!("`{text}` is computed from the finished chair"))
                    .at(path.span, "it does not exist yet here")
                    .note("the drawing cannot depend on what is computed from the drawing")
                    .help("use it in require or prefer"),
            );
            return Err(Silent);
        }
        let one_side = self.scope.side(env.room).is_none()
            && matches!(self.scope.find(&format!("left.{text}"), env.room), Some(Found::Name(_)));
        if one_side {
            self.say(
                Diagnostic::new("one-side-name", format!("there is a left and a right `{text}`"))
                    .at(path.span, "which one?")
                    .help(format!("write left.{text} or right.{text}"))
                    .edit(path.span, format!("left.{text}")),
            );
            return Err(Silent);
        }
        let mut known = self.scope.reachable(env.room);
        if env.figures {
            known.extend(FIGURES.iter().map(|f| SmolStr::new(f.name)));
        }
        self.unknown(path, known)
    }

    fn unknown<T>(&self, path: &Path, known: Vec<SmolStr>) -> Outcome<T> {
        let text = path.text();
        let mut problem = Diagnostic::new("unknown-name", format!("nothing is called `{text}`"))
            .at(path.span, "not declared");
        problem = match nearest(&text, known.iter().map(SmolStr::as_str)) {
            Some(meant) => problem.help(format!("did you mean {meant}?")).edit(path.span, meant),
            None => problem.help(format!("declare it, for example: param {} = …", text.replace('.', "_"))),
        };
        self.say(problem);
        Err(Silent)
    }

    /// A catalogue entry by its name, or a report with the nearest one.
    pub(crate) fn find_entry(
        &self,
        keyword: &'static str,
        name: &str,
        span: chairwright_diagnostics::Span,
    ) -> Outcome<&'a Entry> {
        if let Some(entry) = self.scope.entries.get(&(keyword, fold(name))) {
            return Ok(entry);
        }
        let known: Vec<&str> =
            self.scope.entries.keys().filter(|(k, _)| *k == keyword).map(|(_, n)| n.as_str()).collect();
        let mut problem =
            Diagnostic::new("unknown-entry", format!("no page in use has a {keyword} \"{name}\""))
                .at(span, "not in the catalogue");
        problem = match nearest(&fold(name), known.iter().copied()) {
            Some(meant) => problem.help(format!("did you mean \"{meant}\"?")).edit(span, format!("\"{meant}\"")),
            None if known.is_empty() => problem.help(format!(
                "use a page that has it (chairwright explain catalogue lists them), or describe it yourself: {keyword} \"{name}\" {{ … }}"
            )),
            None => problem.help(format!("describe it yourself: {keyword} \"{name}\" {{ … }}, with its source")),
        };
        self.say(problem);
        Err(Silent)
    }
}
