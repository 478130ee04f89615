//! Why a line could not be read: the usual slips by name, and otherwise what was expected where.

use crate::cook::Tok;
use crate::grammar::Range as Place;
use crate::token::Raw;
use crate::words::{
    CLAUSE_WORDS, NEARLY_DIRECTIONS, NEARLY_STATEMENTS, STATEMENT_WORDS, is_direction, is_reserved,
};
use chairwright_diagnostics::{Diagnostic, SourceId, Span};
use chumsky::error::{Rich, RichPattern, RichReason};

/// A line that the grammar refused.
pub(crate) struct Unread<'a, 't, 's> {
    pub source: SourceId,
    pub text: &'a str,
    pub line: &'a [(Tok<'s>, Place)],
    pub error: &'a Rich<'t, Tok<'s>, Place>,
    pub line_end: usize,
}

pub(crate) fn unreadable(u: &Unread) -> Diagnostic {
    u.parentheses()
        .or_else(|| u.two_statements())
        .or_else(|| u.first_word())
        .or_else(|| u.reserved_name())
        .or_else(|| u.number_in_front())
        .or_else(|| u.blank_in_name())
        .or_else(|| u.blank_at_end())
        .or_else(|| u.direction_behind())
        .or_else(|| u.nearly_direction())
        .or_else(|| u.comma_missing())
        .or_else(|| u.comma_too_many())
        .or_else(|| u.equals())
        .or_else(|| u.number_of_thousands())
        .unwrap_or_else(|| u.expected())
}

impl<'s> Unread<'_, '_, 's> {
    fn span(&self, place: Place) -> Span {
        Span::new(self.source, place.start, place.end)
    }

    fn slice(&self, place: Place) -> &str {
        self.text.get(place.start..place.end).unwrap_or("")
    }

    /// The token at which reading stopped, by its place in the line; its length at the end.
    fn stopped(&self) -> usize {
        let start = self.error.span().start;
        self.line.iter().position(|(_, p)| p.start >= start).unwrap_or(self.line.len())
    }

    fn token(&self, at: usize) -> Option<Tok<'s>> {
        self.line.get(at).map(|(t, _)| *t)
    }

    fn word(&self, at: usize) -> Option<&'s str> {
        match self.token(at) {
            Some(Tok::Word(word)) => Some(word),
            _ => None,
        }
    }

    fn say(&self, headline: impl Into<String>, place: Place, label: impl Into<String>) -> Diagnostic {
        Diagnostic::new("unreadable-line", headline).at(self.span(place), label)
    }

    fn parentheses(&self) -> Option<Diagnostic> {
        let mut open = Vec::new();
        for (token, place) in self.line {
            match token {
                Tok::Op(Raw::Open) => open.push(*place),
                Tok::Op(Raw::Close) if open.pop().is_none() => {
                    let said = self.say("this ) closes nothing", *place, "no ( is open here");
                    return Some(said.help("take it out").edit(self.span(*place), ""));
                }
                _ => {}
            }
        }
        let first = *open.first()?;
        Some(self.say("this ( is not closed", first, "opened here").help("put a ) where it ends"))
    }

    /// A second statement behind the first, with or without a comma.
    fn two_statements(&self) -> Option<Diagnostic> {
        let at = (2..self.stopped()).find(|i| {
            let opens =
                matches!(self.word(*i), Some(w) if STATEMENT_WORDS.contains(&w) && !CLAUSE_WORDS.contains(&w));
            opens && !is_direction(self.word(*i).unwrap_or_default()) && self.word(i + 1).is_some()
        })?;
        let place = self.line[at].1;
        let before = self.line[at - 1].1;
        let comma = self.line[at - 1].0 == Tok::Op(Raw::Comma);
        let gap = Span::new(self.source, if comma { before.start } else { before.end }, place.start);
        let word = self.word(at).unwrap_or_default();
        Some(
            Diagnostic::new("two-statements", "two statements on one line")
                .at(self.span(place), "the second begins here")
                .help(format!("begin a new line before {word}"))
                .edit(gap, "\n"),
        )
    }

    /// The line opens with a word that is no statement, so it is most likely no statement at all.
    fn first_word(&self) -> Option<Diagnostic> {
        let (place, word) = (self.line.first()?.1, self.word(0));
        if word.is_some_and(|w| STATEMENT_WORDS.contains(&w)) || self.token(1) == Some(Tok::Op(Raw::Equals)) {
            return None;
        }
        let next = self.token(1);
        let field = matches!(next, Some(Tok::Literal(_) | Tok::Text(_))) && self.line.len() == 2;
        if let (Some(word), true) = (word, field) {
            let behind = self.span(place).behind();
            let said = self.say("= is missing", self.line[1].1, "stands behind a name");
            return Some(
                said.help(format!("write {word} = {}", self.slice(self.line[1].1))).edit(behind, " ="),
            );
        }
        let written = self.slice(place).to_owned();
        let said = self.say(format!("`{written}` opens no statement"), place, "not a statement");
        if let Some((_, meant)) = NEARLY_STATEMENTS.iter().find(|(w, _)| Some(*w) == word) {
            return Some(said.help(format!("write {meant}")).edit(self.span(place), *meant));
        }
        if let (Some(a), Some(b), Some(Tok::Op(Raw::Equals))) = (word, self.word(1), self.token(2)) {
            return Some(self.two_words(0, &format!("{a}_{b}")));
        }
        // what gives a value is no remark: taken out of the text, a limb or a load would be lost without a word
        if let Some(equals) = self.line.iter().position(|(t, _)| *t == Tok::Op(Raw::Equals)) {
            let value = (self.word(equals + 1), self.word(equals + 2), self.line.len() == equals + 3);
            return Some(match value {
                (Some(a), Some(b), true) => self.two_words(equals + 1, &format!("{a}_{b}")),
                _ => said.help("look at what stands behind the =: it cannot be read as one value"),
            });
        }
        let start = Span { end: self.span(place).start, ..self.span(place) };
        Some(said.help("to keep the line as a remark, write // in front of it").edit(start, "// "))
    }

    /// A word of the grammar where a name is wanted: `member from = …`.
    fn reserved_name(&self) -> Option<Diagnostic> {
        let word = self.word(1).filter(|w| is_reserved(w))?;
        let named = matches!(
            self.word(0),
            Some("joint" | "member" | "stock" | "part" | "param" | "let" | "panel" | "box")
        );
        let then = self.token(2)?;
        let goes_on = then == Tok::Op(Raw::Equals) || matches!(then, Tok::Word(w) if CLAUSE_WORDS.contains(&w));
        (named && goes_on).then(|| {
            Diagnostic::new("reserved-name", format!("`{word}` cannot be a name"))
                .at(self.span(self.line[1].1), "it is a word of the language")
                .help(format!("choose another, such as {word}_1"))
        })
    }

    /// `let 2nd_gap = …`
    fn number_in_front(&self) -> Option<Diagnostic> {
        let (Some(Tok::Literal(_)), Some(place)) = (self.token(1), self.line.get(1).map(|l| l.1)) else {
            return None;
        };
        let named =
            matches!(self.word(0), Some("joint" | "member" | "stock" | "part" | "param" | "let" | "panel"));
        let letters = self.slice(place).trim_start_matches(|c: char| c.is_ascii_digit());
        (named && self.token(2) == Some(Tok::Op(Raw::Equals)) && !letters.is_empty()).then(|| {
            Diagnostic::new("bad-name", "a name begins with a letter")
                .at(self.span(place), "begins with a digit")
                .help("put the number behind the letters")
        })
    }

    /// `joint front knee at …`
    fn blank_in_name(&self) -> Option<Diagnostic> {
        let (_, first, second) = (self.word(0)?, self.word(1)?, self.word(2)?);
        let then = self.token(3)?;
        let goes_on = then == Tok::Op(Raw::Equals) || matches!(then, Tok::Word(w) if is_reserved(w));
        let clause = CLAUSE_WORDS.contains(&second) && then != Tok::Op(Raw::Equals);
        if !goes_on || clause || is_reserved(first) || is_reserved(second) {
            return None;
        }
        Some(self.two_words(1, &format!("{first}_{second}")))
    }

    /// Two words that are one name.
    fn two_words(&self, first: usize, fixed: &str) -> Diagnostic {
        let span = self.span(self.line[first].1).to(self.span(self.line[first + 1].1));
        Diagnostic::new("bad-name", "a name has no blank")
            .at(span, "two words")
            .help(format!("write {fixed} here and everywhere else"))
            .edit(span, fixed)
    }

    /// Two names at the end of a line, the second of which opens nothing.
    fn blank_at_end(&self) -> Option<Diagnostic> {
        let last = self.line.len().checked_sub(1)?;
        let (b, a) = (self.word(last)?, self.word(last.checked_sub(1)?)?);
        let names = !CLAUSE_WORDS.contains(&b) && !is_reserved(a) && !is_reserved(b) && !is_direction(a);
        (names && last >= 3 && self.stopped() > last).then(|| self.two_words(last - 1, &format!("{a}_{b}")))
    }

    /// `460 mm up`: the direction stands first.
    fn direction_behind(&self) -> Option<Diagnostic> {
        let at = (1..self.line.len()).find(|i| {
            matches!(self.token(*i), Some(Tok::Word(w)) if is_direction(w))
                && matches!(self.token(i - 1), Some(Tok::Literal(_)))
                && !i.checked_sub(2).and_then(|k| self.word(k)).is_some_and(is_direction)
                && !matches!(self.token(i + 1), Some(Tok::Literal(_)))
        })?;
        let (amount, way) = (self.line[at - 1].1, self.line[at].1);
        let fixed = format!("{} {}", self.slice(way), self.slice(amount));
        let span = self.span(amount).to(self.span(way));
        let said =
            self.say("the direction stands first", Place::from(amount.start..way.end), "the other way round");
        Some(said.help(format!("write {fixed}")).edit(span, fixed))
    }

    /// `forwards 430 mm`.
    fn nearly_direction(&self) -> Option<Diagnostic> {
        let at = self.stopped().checked_sub(1)?;
        let word = self.word(at)?;
        let (_, meant) = NEARLY_DIRECTIONS.iter().find(|(w, _)| *w == word)?;
        let place = self.line[at].1;
        let said = self.say(format!("`{word}` is no direction"), place, "not one of the directions");
        Some(said.help(format!("write {meant}")).edit(self.span(place), *meant))
    }

    /// A direction right behind a value, or two values in a row.
    fn comma_missing(&self) -> Option<Diagnostic> {
        let at = self.stopped();
        let word = self.word(at).filter(|w| is_direction(w))?;
        let before = self.line.get(at.checked_sub(1)?)?;
        let said = self.say(format!("a comma is missing before `{word}`"), self.line[at].1, "a new step");
        Some(said.help("put a comma between two steps").edit(self.span(before.1).behind(), ","))
    }

    /// `from a, to b`.
    fn comma_too_many(&self) -> Option<Diagnostic> {
        let at = self.stopped();
        let before = at.checked_sub(1)?;
        let word = self.word(at).filter(|w| CLAUSE_WORDS.contains(w))?;
        if self.token(before) != Some(Tok::Op(Raw::Comma)) {
            return None;
        }
        let place = self.line[before].1;
        let said = self.say(format!("no comma belongs before `{word}`"), place, "take it out");
        Some(said.help("a comma stands only between values").edit(self.span(place), ""))
    }

    /// `is` for `=`, `=` where none belongs, and none where one belongs.
    fn equals(&self) -> Option<Diagnostic> {
        let at = self.stopped();
        if let Some(is) = (2..self.line.len()).find(|i| matches!(self.word(*i), Some("is" | "are")))
            && is <= at
        {
            let place = self.line[is].1;
            let said = self.say("a sentence is no statement", place, "in place of =");
            return Some(said.help("write = instead").edit(self.span(place), "="));
        }
        let (last, end) = *self.line.last()?;
        if at == self.line.len() && last == Tok::Op(Raw::Equals) {
            let said = self.say("nothing stands behind =", end, "no value");
            let block = matches!(
                self.word(0),
                Some("rider" | "conditions" | "as_built" | "baseline" | "both" | "variant" | "state")
            );
            return Some(if block {
                said.help("take this = out").edit(self.span(end), "")
            } else {
                said.help("write the value behind it")
            });
        }
        let place = self.line.get(at)?.1;
        if let (Some(Tok::Op(Raw::Equals)), Some(b), Some(a), Some(Tok::Op(Raw::Comma))) = (
            self.token(at),
            at.checked_sub(1).and_then(|i| self.word(i)),
            at.checked_sub(2).and_then(|i| self.word(i)),
            at.checked_sub(3).and_then(|i| self.token(i)),
        ) {
            return Some(self.two_words(at - 2, &format!("{a}_{b}")));
        }
        match self.token(at)? {
            Tok::Op(Raw::Equals) => {
                let clause = at.checked_sub(1).and_then(|i| self.word(i)).unwrap_or_default();
                let said = self.say("no = belongs here", place, "take it out");
                let again = self.line[..at].iter().any(|(t, _)| *t == Tok::Op(Raw::Equals));
                Some(if again || is_reserved(clause) || at == 1 {
                    said.help("take this = out").edit(self.span(place), "")
                } else {
                    said.help("what stands behind = comes right behind the name, before from, to or at")
                })
            }
            Tok::Text(_) if at == 2 => {
                let behind = self.span(self.line[1].1).behind();
                Some(
                    self.say("= is missing", place, "stands behind a name")
                        .help("put = before it")
                        .edit(behind, " ="),
                )
            }
            Tok::Literal(_) if at == 2 && self.word(1).is_some_and(|w| !is_direction(w)) => {
                let behind = self.span(self.line[1].1).behind();
                Some(
                    self.say("= is missing", place, "stands behind a name")
                        .help("put = before it")
                        .edit(behind, " ="),
                )
            }
            _ => None,
        }
    }

    /// `1 200 mm`.
    fn number_of_thousands(&self) -> Option<Diagnostic> {
        let at = self.stopped();
        let (Some(Tok::Literal(_)), Some(Tok::Literal(_))) = (self.token(at), self.token(at.checked_sub(1)?))
        else {
            return None;
        };
        let (a, b) = (self.line[at - 1].1, self.line[at].1);
        let said = self.say("two numbers side by side", b, "the second");
        let digits = self.slice(a).bytes().all(|c| c.is_ascii_digit());
        Some(if digits {
            said.help(format!("write {}{} if it is one number", self.slice(a), self.slice(b)))
        } else {
            said.help("put an operator or a comma between them")
        })
    }

    fn expected(&self) -> Diagnostic {
        let place = self.error.span();
        let at_end = place.start >= self.line_end;
        let mut wanted: Vec<String> = match self.error.reason() {
            RichReason::ExpectedFound { expected, .. } => expected.iter().filter_map(wanted).collect(),
            RichReason::Custom(words) => vec![words.clone()],
        };
        wanted.sort_by_key(|w| (w != "a value", w.clone()));
        wanted.dedup();
        let wanted = match wanted.as_slice() {
            [] => "something else".to_owned(),
            [only] => only.clone(),
            [rest @ .., last] => format!("{} or {last}", rest.join(", ")),
        };
        if at_end {
            let last = Place::from(self.line_end.saturating_sub(1)..self.line_end);
            return self.say(
                format!("this line stops where {wanted} should follow"),
                last,
                format!("{wanted} is wanted here"),
            );
        }
        self.say("this line cannot be read from here on", *place, format!("{wanted} is wanted here"))
    }
}

fn wanted(pattern: &RichPattern<Tok>) -> Option<String> {
    match pattern {
        RichPattern::Label(label) if label.len() == 1 => Some(format!("`{label}`")),
        RichPattern::Label(label) => Some(label.to_string()),
        RichPattern::EndOfInput => Some("the end of the line".to_owned()),
        RichPattern::Token(token) => match **token {
            Tok::Op(Raw::Close) => Some("`)`".to_owned()),
            Tok::Word(word) => Some(format!("`{word}`")),
            _ => None,
        },
        _ => None,
    }
}
