//! What a name means where it stands.

use crate::evaluator::{Env, Evaluator};
use crate::fields::{Field, entry_spec, field};
use crate::figures::{FIGURES, FigureSpec, figure_spec};
use crate::near_sizes::near_sizes;
use crate::room::{Argument, RoomId};
use crate::scope::{Decl, DeclKind, Found, block_fields, fold};
use crate::suggest::nearest;
use crate::value::{Outcome, Silent};
use crate::words::usual;
use chairwright_diagnostics::{Diagnostic, Span};
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
            // a seat runs down the middle; along one rail it would be no seat
            let middle = matches!(self.keyword.get(), "seat" | "back" | "footrest");
            let (help, edit) = if middle {
                let edit = format!("midpoint(left.{text}, right.{text})");
                (format!("write {edit}: the middle between the sides"), edit)
            } else {
                (format!("write left.{text} or right.{text}"), format!("left.{text}"))
            };
            self.say(
                Diagnostic::new("one-side-name", format!("there is a left and a right `{text}`"))
                    .at(path.span, "which one?")
                    .help(help)
                    .edit(path.span, edit),
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
        if self.scope.is_spoilt(&text) {
            return Err(Silent);
        }
        let mut problem = Diagnostic::new("unknown-name", format!("nothing is called `{text}`"))
            .at(path.span, "not declared");
        let turned =
            text.split_once('.').map(|(a, b)| format!("{b}.{a}")).filter(|t| known.iter().any(|k| k == t));
        let near = turned.or_else(|| near_name(&text, &known));
        problem = match near {
            Some(meant) => problem.help(format!("did you mean {meant}?")).edit(path.span, meant),
            None => problem.help(self.how_to_declare(&text)),
        };
        self.say(problem);
        Err(Silent)
    }

    /// How a name of the kind that is looked up would be declared.
    fn how_to_declare(&self, text: &str) -> String {
        let name = text.replace('.', "_");
        let example = match self.wanted.get() {
            Some(DeclKind::Joint) => format!("joint {name} at …"),
            Some(DeclKind::Member) => format!("member {name} = … from … to …"),
            Some(DeclKind::Stock) => format!("stock {name} = \"pipe 1 in sch40\""),
            Some(DeclKind::Part) => format!("part {name} = \"…\""),
            _ => format!("param {name} = … or let {name} = …"),
        };
        format!("look for it among the names of this design, or declare it: {example}")
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
            Diagnostic::new("unknown-entry", format!("no page in use has {} \"{name}\"", one(keyword)))
                .at(span, "not in the catalogue");
        let shelf = self.scope.shelf.and_then(|s| s(keyword, &fold(name)));
        if let Some(page) = shelf {
            let first =
                self.scope.placed.iter().find(|p| p.spec.keyword == "use" && p.own).map(|p| p.entry.head);
            let said = Diagnostic::new("unknown-entry", format!("\"{name}\" is on a page that is not in use"))
                .at(span, "not in reach")
                .help(format!("add the line: use catalogue.{page}"));
            let line = format!("use catalogue.{page}\n");
            self.say(match first {
                Some(first) => said.edit(Span { end: first.start, ..first }, line),
                None => said,
            });
            return Err(Silent);
        }
        problem = match near_entry(name, &known) {
            Some(meant) => problem.help(format!("did you mean \"{meant}\"?")).edit(span, format!("\"{meant}\"")),
            None if known.is_empty() => problem.help(format!(
                "use a page that has it (chairwright explain catalogue lists them), or describe it yourself: {keyword} \"{name}\" {{ … }}"
            )),
            None => problem.help(with_others(keyword, name, &known)),
        };
        self.say(problem);
        Err(Silent)
    }
}

/// A keyword with its article.
fn one(keyword: &str) -> String {
    let article = if keyword.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    format!("{article} {keyword}")
}

/// Names that are listed in one help, at most.
const LISTED: usize = 20;

/// How something that no page has is described, and which there are beside it: the nearest sizes, or all of the few kinds.
fn with_others(keyword: &str, name: &str, known: &[&str]) -> String {
    let yourself = format!("describe it yourself: {keyword} \"{name}\" {{ … }}, with its source");
    let few = matches!(keyword, "allowance" | "material") && known.len() <= LISTED;
    let others = if few { known.to_vec() } else { near_sizes(&fold(name), known) };
    if others.is_empty() {
        return yourself;
    }
    let others: Vec<String> = others.iter().map(|o| format!("\"{o}\"")).collect();
    format!("{}: {}; or {yourself}", if few { "there are" } else { "the nearest sizes are" }, others.join(", "))
}

/// What builders call a measure, and the measure.
const MEASURES: &[(&str, &str)] = &[
    ("rider.height", "rider.stature"),
    ("rider.hips", "rider.hip_width"),
    ("rider.hip", "rider.hip_width"),
    ("rider.upper_leg", "rider.thigh"),
    ("rider.leg", "rider.calf"),
    ("rider.shin", "rider.calf"),
    ("rider.foot", "rider.foot_length"),
    ("rider.shoulder", "rider.shoulder_height"),
    ("rider.elbow", "rider.elbow_height"),
];

/// The name that is meant. Among measures of the body only a slip of one letter is guessed at: a guess
/// between an arm and a leg would build a wrong chair.
fn near_name(text: &str, known: &[SmolStr]) -> Option<String> {
    let known = || known.iter().map(SmolStr::as_str);
    if let Some((_, meant)) = MEASURES.iter().find(|(w, _)| *w == text) {
        return Some((*meant).to_owned());
    }
    if text.starts_with("rider.") {
        return crate::suggest::within(text, known(), 2).map(str::to_owned);
    }
    nearest(text, known()).map(str::to_owned)
}

/// What a builder calls a measure of the rider, as the language calls it.
pub(crate) fn measure_alias(key: &str) -> Option<&'static str> {
    MEASURES
        .iter()
        .find(|(w, _)| w.strip_prefix("rider.") == Some(key))
        .and_then(|(_, m)| m.strip_prefix("rider."))
}

/// The entry that is meant: sizes are compared as sizes, then words in any order, then letters.
fn near_entry<'k>(name: &str, known: &[&'k str]) -> Option<&'k str> {
    let plain = plain_size(&fold(name));
    let sorted = |t: &str| {
        let mut words: Vec<String> = t.split(' ').map(str::to_owned).collect();
        words.sort();
        words
    };
    let by_size = known.iter().find(|k| **k == plain);
    let by_words = || known.iter().find(|k| sorted(k) == sorted(&plain));
    let joined = |t: &str| t.replace(' ', "");
    let by_blanks = || known.iter().find(|k| joined(k) == joined(&plain));
    let digits = |t: &str| {
        t.split(' ')
            .filter(|w| w.starts_with(|c: char| c.is_ascii_digit()))
            .map(str::to_owned)
            .collect::<Vec<_>>()
    };
    // another size is never a slip of the pen
    let by_letters = || {
        let same: Vec<&str> = known.iter().copied().filter(|k| digits(k) == digits(&plain)).collect();
        nearest(&plain, same.iter().copied())
    };
    let by_beginning = || {
        let words: Vec<&str> = plain.split(' ').collect();
        known.iter().find(|k| {
            let theirs: Vec<&str> = k.split(' ').collect();
            theirs.first() == words.first() && words.iter().all(|w| theirs.contains(w))
        })
    };
    by_size
        .or_else(by_words)
        .or_else(by_blanks)
        .copied()
        .or_else(by_letters)
        .or_else(|| by_beginning().copied())
}

/// `1.25`, `1-1/4` and `1¼` as `1 1/4`, `inch` and `"` as `in`, a unit apart from its number.
fn plain_size(name: &str) -> String {
    let mut text = name.replace(['"', '″'], " in").replace("inches", "in").replace("inch", "in");
    for (sign, digits) in [("½", " 1/2"), ("¼", " 1/4"), ("¾", " 3/4")] {
        text = text.replace(sign, digits);
    }
    let words = text.split_whitespace().map(|word| {
        let number = word.trim_end_matches(|c: char| c.is_ascii_alphabetic());
        let unit = &word[number.len()..];
        let spaced =
            if number.is_empty() || unit.is_empty() || !number.starts_with(|c: char| c.is_ascii_digit()) {
                word.to_owned()
            } else {
                format!("{number} {unit}")
            };
        let spaced = match spaced.split_once('-') {
            Some((a, b)) if a.bytes().all(|c| c.is_ascii_digit()) && b.contains('/') => format!("{a} {b}"),
            _ => spaced,
        };
        spaced
            .replace("0.5", "1/2")
            .replace("0.75", "3/4")
            .replace(".25", " 1/4")
            .replace(".5", " 1/2")
            .replace(".75", " 3/4")
    });
    words.collect::<Vec<_>>().join(" ").split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Blanks, order and signs of inches are slips of the pen; another size is none.
    #[test]
    fn entries_are_found_as_they_may_be_written() {
        let known = ["pipe 1 1/4 in sch40", "pipe 1 1/2 in sch40", "plywood 12 mm"];
        let found = |name: &str| near_entry(name, &known);
        assert_eq!(found("pipe 1 1/4in sch 40"), Some(known[0]));
        assert_eq!(found("Pipe 1.5 inch sch40"), Some(known[1]));
        assert_eq!(found("plywood 12mm"), Some(known[2]));
        assert_eq!(found("12 mm plywood"), Some(known[2]));
        assert_eq!(found("plywood 15 mm"), None);
    }
}
