//! From raw tokens to the tokens of the grammar: literals are put together, line ends that end
//! nothing are dropped, and habits from other trades are refused with their repair.

use crate::token::Raw;
use crate::tree::{Literal, Part, Word};
use crate::words::{CLAUSE_WORDS, STATEMENT_WORDS, is_reserved};
use chairwright_diagnostics::{Diagnostic, Problems, SourceId, Span};
use smol_str::SmolStr;
use std::ops::Range;

/// A token of the grammar.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) enum Tok<'s> {
    /// Index into [`Cooked::literals`].
    Literal(u32),
    /// A quoted text, without its quotes.
    Text(&'s str),
    Word(&'s str),
    Op(Raw),
    /// Refused and reported.
    Broken,
    Newline,
    OpenBrace,
    CloseBrace,
    Doc(&'s str),
}

pub(crate) struct Cooked<'s> {
    pub tokens: Vec<(Tok<'s>, Range<usize>)>,
    pub literals: Vec<Literal>,
}

struct Cook<'s, 'p> {
    text: &'s str,
    source: SourceId,
    raw: Vec<(Raw, Range<usize>)>,
    at: usize,
    depth: usize,
    out: Cooked<'s>,
    problems: &'p mut Problems,
}

pub(crate) fn cook<'s>(
    text: &'s str,
    source: SourceId,
    raw: &[(Raw, Range<usize>)],
    problems: &mut Problems,
) -> Cooked<'s> {
    let raw = raw.iter().filter(|(t, _)| !matches!(t, Raw::Blank | Raw::Comment)).cloned().collect();
    let out = Cooked { tokens: Vec::with_capacity(text.len() / 4), literals: Vec::new() };
    let mut cook = Cook { text, source, raw, at: 0, depth: 0, out, problems };
    while cook.at < cook.raw.len() {
        cook.step();
    }
    cook.out
}

impl<'s> Cook<'s, '_> {
    fn kind(&self, ahead: usize) -> Option<Raw> {
        self.raw.get(self.at + ahead).map(|(t, _)| *t)
    }

    fn range(&self, ahead: usize) -> Range<usize> {
        self.raw.get(self.at + ahead).map_or(self.text.len()..self.text.len(), |(_, r)| r.clone())
    }

    fn slice(&self, ahead: usize) -> &'s str {
        self.text.get(self.range(ahead)).unwrap_or("")
    }

    fn span(&self, range: &Range<usize>) -> Span {
        Span::new(self.source, range.start, range.end)
    }

    /// Whether the tokens from here on stand without a blank between them.
    fn adjacent(&self, from: usize, to: usize) -> bool {
        (from..to).all(|i| self.range(i).end == self.range(i + 1).start)
    }

    fn push(&mut self, token: Tok<'s>, count: usize) {
        let range = self.range(0).start..self.range(count - 1).end;
        self.out.tokens.push((token, range));
        self.at += count;
    }

    fn refuse(&mut self, name: &str, count: usize, says: &str, help: Option<(String, String)>) {
        let range = self.range(0).start..self.range(count - 1).end;
        let span = self.span(&range);
        let written: String = self.text[range].chars().take(40).collect();
        let mut problem = Diagnostic::new(name, says.replace("{}", &written)).at(span, "here");
        if let Some((words, replacement)) = help {
            problem = problem.help(words).edit(span, replacement);
        }
        self.problems.push(problem);
        self.push(Tok::Broken, count);
    }

    fn step(&mut self) {
        let Some(kind) = self.kind(0) else { return };
        let fresh = matches!(self.out.tokens.last(), None | Some((Tok::Newline | Tok::OpenBrace, _)));
        if fresh && let Some(count) = self.list_mark(0) {
            return self.refuse_mark(count);
        }
        match kind {
            Raw::Number => self.number(),
            Raw::Newline => self.newline(),
            Raw::Word => self.push(Tok::Word(self.slice(0)), 1),
            Raw::Text => {
                let inner = self.slice(0);
                self.push(Tok::Text(&inner[1..inner.len() - 1]), 1);
            }
            Raw::Doc => self.push(Tok::Doc(self.slice(0).trim_start_matches('/').trim()), 1),
            Raw::OpenBrace | Raw::CloseBrace => {
                self.depth = 0;
                let token = if kind == Raw::OpenBrace { Tok::OpenBrace } else { Tok::CloseBrace };
                self.push(token, 1);
            }
            Raw::OpenText => {
                let fixed = format!("{}\"", self.slice(0).trim_end());
                let help = Some((format!("close it: {fixed}"), fixed));
                self.refuse("open-text", 1, "this text has no closing quote", help);
            }
            Raw::CurlyQuote => self.curly(),
            Raw::FeetMarks => self.feet_marks(),
            Raw::InchMark => self.inch_mark(1),
            Raw::Stray => self.stray(),
            Raw::Open | Raw::Close => {
                self.depth = if kind == Raw::Open { self.depth + 1 } else { self.depth.saturating_sub(1) };
                self.push(Tok::Op(kind), 1);
            }
            other => self.push(Tok::Op(other), 1),
        }
    }

    /// A line end counts only outside parentheses, and only where the line is not carried on by
    /// an operator or by a word that cannot open a statement.
    fn newline(&mut self) {
        let mut ahead = 1;
        while matches!(self.kind(ahead), Some(Raw::Newline)) {
            ahead += 1;
        }
        let next_joins = match self.kind(ahead) {
            Some(Raw::Word) => {
                let word = self.slice(ahead);
                let field = matches!(self.kind(ahead + 1), Some(Raw::Equals | Raw::Dot));
                (is_reserved(word) || CLAUSE_WORDS.contains(&word)) && !field
            }
            // a minus before a keyword is a list mark
            Some(Raw::Minus | Raw::Star) if self.is_list_mark(ahead) => false,
            // a block may open on the next line
            Some(Raw::OpenBrace) => !matches!(
                self.out.tokens.last(),
                None | Some((Tok::Newline | Tok::OpenBrace | Tok::CloseBrace, _))
            ),
            Some(kind) => kind.is_joining(),
            None => false,
        };
        let last_joins = match self.out.tokens.last() {
            Some((Tok::Op(kind), _)) => kind.is_joining() || matches!(kind, Raw::Comma | Raw::Equals),
            _ => false,
        };
        let carried = if self.depth > 0 { !self.opens_statement(ahead) } else { next_joins || last_joins };
        if carried {
            self.at += ahead;
        } else {
            self.depth = 0;
            self.push(Tok::Newline, 1);
            self.at += ahead - 1;
        }
    }

    /// Whether the line ahead looks like `word = …` or `word word`, so that a forgotten closing
    /// parenthesis spoils one line and not the rest of the file.
    fn opens_statement(&self, ahead: usize) -> bool {
        let word = self.slice(ahead);
        let keyword = STATEMENT_WORDS.contains(&word) && !crate::words::is_direction(word);
        if keyword && self.kind(ahead + 1) == Some(Raw::Number) {
            return true;
        }
        self.kind(ahead) == Some(Raw::Word)
            && matches!(self.kind(ahead + 1), Some(Raw::Equals | Raw::Word | Raw::Text | Raw::OpenBrace))
            && !is_reserved(self.slice(ahead))
            && !is_reserved(self.slice(ahead + 1))
    }

    /// How many tokens a list mark before a keyword has: a bullet, a dash, a star, `1.` or `1)`.
    fn list_mark(&self, at: usize) -> Option<usize> {
        let count = match (self.kind(at)?, self.slice(at)) {
            (Raw::Minus | Raw::Star, _) | (Raw::Stray, "•" | "‣" | "◦" | "–" | "—" | "·" | "▪") => {
                1
            }
            (Raw::Number, n) if n.len() <= 3 && matches!(self.kind(at + 1), Some(Raw::Dot | Raw::Close)) => 2,
            _ => return None,
        };
        let word = self.kind(at + count) == Some(Raw::Word);
        (word && STATEMENT_WORDS.contains(&self.slice(at + count))).then_some(count)
    }

    fn is_list_mark(&self, at: usize) -> bool {
        self.list_mark(at).is_some()
    }

    /// Reads past a list mark as if it were not there.
    fn refuse_mark(&mut self, count: usize) {
        let range = self.range(0).start..self.range(count - 1).end;
        let through = range.start..self.range(count).start;
        let problem = Diagnostic::new("list-mark", "this line begins with a list mark")
            .at(self.span(&range), "no part of the statement")
            .help("take the mark out")
            .edit(self.span(&through), "");
        self.problems.push(problem);
        self.at += count;
    }

    /// `18 1/2"`, `7-7/8"` and the like, from the first token of the number.
    fn inch_mark(&mut self, count: usize) {
        let end = self.range(count - 1).end;
        let written = &self.text[self.range(0).start..end];
        let number = written.trim_end_matches(['"', '″', '”']);
        let fixed = format!("{} in", number.replacen('-', " ", 1).replace("  ", " "));
        let help = Some((format!("write {fixed}"), fixed));
        self.refuse("inch-marks", count, "inches are written in, not with marks", help);
    }

    fn curly(&mut self) {
        let line_end =
            self.text[self.range(0).start..].find('\n').map_or(self.text.len(), |i| i + self.range(0).start);
        let closing = (1..).take_while(|i| self.range(*i).start < line_end && self.kind(*i).is_some());
        let count = closing.filter(|i| self.kind(*i) == Some(Raw::CurlyQuote)).last().unwrap_or(0) + 1;
        let range = self.range(0).start..self.range(count - 1).end;
        let inner: String = self.text[range].chars().filter(|c| !"“”„«»‘’".contains(*c)).collect();
        let fixed = format!("\"{inner}\"");
        let help = Some((format!("write straight quotes: {fixed}"), fixed));
        self.refuse("curly-quote", count, "typographic quotes do not open a text", help);
    }

    fn feet_marks(&mut self) {
        let written = self.slice(0);
        let mut numbers = written.split(|c: char| !(c.is_ascii_digit() || c == '.'));
        let feet = numbers.next().unwrap_or_default();
        let inches = numbers.find(|n| !n.is_empty());
        let fixed = match inches {
            Some(inches) => format!("{feet} ft {inches} in"),
            None => format!("{feet} ft"),
        };
        let help = Some((format!("write {fixed}"), fixed));
        self.refuse("feet-marks", 1, "feet and inches are written with their names, not with marks", help);
    }

    fn stray(&mut self) {
        let written = self.slice(0);
        if self.one_in_so_many() {
            return;
        }
        let block = |kind: Option<Raw>| matches!(kind, Some(Raw::Newline | Raw::CloseBrace) | None);
        let last_word = matches!(self.out.tokens.last(), Some((Tok::Word(_), _)));
        let (words, fix): (&str, &str) = match written {
            "°" => ("an angle is written with deg, a temperature with degC", " deg"),
            "•" | "‣" | "◦" | "*" => ("leave the bullet out; one statement stands on each line", ""),
            "#" => ("a comment opens with two slashes", "//"),
            ";" if block(self.kind(1)) => ("a statement ends with its line; leave the semicolon out", ""),
            ";" => ("write a comma in its place", ","),
            ":" if last_word => ("write = in its place", " ="),
            "–" | "—" => ("a minus is the plain hyphen", "-"),
            _ => ("leave it out", ""),
        };
        // beside a number a sign means something: leaving it out would change the number
        let touches = self.at > 0
            && self
                .raw
                .get(self.at - 1)
                .is_some_and(|(k, r)| *k == Raw::Number && r.end == self.range(0).start);
        let help = match (vulgar(written), touches) {
            (Some(fraction), true) => {
                Some((format!("write {} {fraction}", self.before()), format!(" {fraction}")))
            }
            (Some(fraction), false) => Some((format!("write {fraction}"), fraction.to_owned())),
            (None, true) if written == "°" => {
                Some((format!("write {} deg", self.before()), " deg".to_owned()))
            }
            (None, true) if words == "leave it out" || written == "#" => None,
            _ => Some((words.to_owned(), fix.to_owned())),
        };
        if help.is_none() {
            let range = self.range(0);
            let problem = Diagnostic::new("stray-character", format!("`{written}` means nothing here"))
                .at(self.span(&range), "here")
                .help("write the number with digits, a point or a fraction such as 1/2, and its unit");
            self.problems.push(problem);
            return self.push(Tok::Broken, 1);
        }
        let range = self.range(0);
        let span = self.span(&range);
        let count = (1..).take_while(|i| self.kind(*i) == Some(Raw::Stray)).count() + 1;
        let mut problem =
            Diagnostic::new("stray-character", format!("`{written}` means nothing here")).at(span, "here");
        if let Some((words, replacement)) = help {
            problem = problem.help(words).edit(span, replacement);
        }
        self.problems.push(problem);
        self.push(Tok::Broken, count);
    }

    /// The token before this one, as written.
    fn before(&self) -> &'s str {
        self.raw.get(self.at.saturating_sub(1)).and_then(|(_, r)| self.text.get(r.clone())).unwrap_or("")
    }

    /// `1:12` is a slope of one in twelve; the angle is rounded up, so that a ramp is never called flatter.
    fn one_in_so_many(&mut self) -> bool {
        let Some((Tok::Literal(_), before)) = self.out.tokens.last().cloned() else { return false };
        if self.slice(0) != ":" || before.end != self.range(0).start || self.kind(1) != Some(Raw::Number) {
            return false;
        }
        let written = format!("{}:{}", &self.text[before.clone()], self.slice(1));
        let read = |t: &str| t.parse::<f64>().ok().filter(|n| *n > 0.0);
        let range = before.start..self.range(1).end;
        let mut problem = Diagnostic::new("stray-character", format!("`{written}` is no quantity"))
            .at(self.span(&range), "one in so many?");
        if let (Some(rise), Some(run)) = (read(&self.text[before]), read(self.slice(1))) {
            let degrees = (libm::atan2(rise, run).to_degrees() * 100.0).ceil() / 100.0;
            problem = problem
                .help(format!("a slope of {written} is {degrees} deg, rounded up: write that"))
                .edit(self.span(&range), format!("{degrees} deg"));
        }
        self.problems.push(problem);
        self.push(Tok::Broken, 2);
        true
    }

    fn number(&mut self) {
        // the number of a piece, as in cut.left.seat_rail.1, is part of a name
        let start = self.range(0).start;
        let after_dot = matches!(self.out.tokens.last(), Some((Tok::Op(Raw::Dot), r)) if r.end == start);
        if after_dot && self.slice(0).bytes().all(|b| b.is_ascii_digit()) {
            return self.push(Tok::Word(self.slice(0)), 1);
        }
        if self.habit() {
            return;
        }
        let start = self.range(0).start;
        let mut parts = Vec::new();
        while self.kind(0) == Some(Raw::Number) {
            if !parts.is_empty() && parts.last().is_some_and(|p: &Part| p.unit.is_none()) {
                break;
            }
            parts.push(self.part());
        }
        let end = parts.last().map_or(start, |p| p.span.end as usize);
        let index = u32::try_from(self.out.literals.len()).unwrap_or(u32::MAX);
        self.out.literals.push(Literal { parts });
        self.out.tokens.push((Tok::Literal(index), start..end));
    }

    /// Habits that would silently mean something else: `1-1/4 in`, `3,5 mm`.
    fn habit(&mut self) -> bool {
        use Raw::{Comma, Minus, Number, Slash, Word};
        let kinds: [Option<Raw>; 6] = std::array::from_fn(|i| self.kind(i));
        let whole = |i: usize| self.slice(i).bytes().all(|b| b.is_ascii_digit());
        let marked = (1..6).find(|i| kinds[*i] == Some(Raw::InchMark));
        if let Some(last) = marked
            && kinds[..last].iter().all(|k| matches!(k, Some(Number | Slash | Minus)))
        {
            self.inch_mark(last + 1);
            return true;
        }
        if kinds[..5] == [Some(Number), Some(Minus), Some(Number), Some(Slash), Some(Number)]
            && self.adjacent(0, 4)
            && whole(0)
            && whole(2)
            && whole(4)
        {
            let fixed = format!("{} {}/{}", self.slice(0), self.slice(2), self.slice(4));
            let unit = if kinds[5] == Some(Word) { format!(" {}", self.slice(5)) } else { String::new() };
            let count = if kinds[5] == Some(Word) { 6 } else { 5 };
            let help =
                Some((format!("write {fixed}{unit}; the hyphen would subtract"), format!("{fixed}{unit}")));
            self.refuse("hyphen-fraction", count, "`{}` would be a subtraction", help);
            return true;
        }
        if kinds[..3] == [Some(Number), Some(Comma), Some(Number)] && self.adjacent(0, 2) && whole(0) {
            let fixed = format!("{}.{}", self.slice(0), self.slice(2));
            let unit = kinds[3] == Some(Word) && !CLAUSE_WORDS.contains(&self.slice(3));
            if self.slice(2).len() == 3 {
                return self.thousands(if unit { 4 } else { 3 });
            }
            let tail = if unit { format!(" {}", self.slice(3)) } else { String::new() };
            let help = Some((
                format!("write {fixed}{tail}; a comma separates two values and wants a blank behind it"),
                format!("{fixed}{tail}"),
            ));
            self.refuse("decimal-comma", if unit { 4 } else { 3 }, "`{}` is written with a comma", help);
            return true;
        }
        false
    }

    /// `1,000` is a thousand to one builder and one to another, so no edit is offered.
    fn thousands(&mut self, count: usize) -> bool {
        let range = self.range(0).start..self.range(count - 1).end;
        let (whole, part) = (self.slice(0), self.slice(2));
        let problem = Diagnostic::new("decimal-comma", format!("`{whole},{part}` can be read in two ways"))
            .at(self.span(&range), "a thousand, or a decimal?")
            .help(format!("write {whole}{part} or {whole}.{part}, whichever is meant"));
        self.problems.push(problem);
        self.push(Tok::Broken, count);
        true
    }

    /// One part: number, fraction or both, and the unit behind it.
    fn part(&mut self) -> Part {
        let start = self.range(0).start;
        let whole = |s: &str| s.bytes().all(|b| b.is_ascii_digit());
        let mut number = None;
        let mut fraction = None;
        if self.fraction_at(0) && self.unit_at(3) {
            fraction = Some((SmolStr::new(self.slice(0)), SmolStr::new(self.slice(2))));
            self.at += 3;
        } else {
            number = Some(SmolStr::new(self.slice(0)));
            let mixed = whole(self.slice(0)) && self.fraction_at(1);
            self.at += 1;
            if mixed {
                fraction = Some((SmolStr::new(self.slice(0)), SmolStr::new(self.slice(2))));
                self.at += 3;
            }
        }
        let mut end = self.raw[self.at - 1].1.end;
        let unit = self.unit();
        if let Some(unit) = &unit {
            end = unit.span.end as usize;
        }
        Part { number, fraction, unit, span: self.span(&(start..end)) }
    }

    /// `1/4` without blanks.
    fn fraction_at(&self, ahead: usize) -> bool {
        let whole = |i: usize| self.slice(i).bytes().all(|b| b.is_ascii_digit());
        self.kind(ahead) == Some(Raw::Number)
            && self.kind(ahead + 1) == Some(Raw::Slash)
            && self.kind(ahead + 2) == Some(Raw::Number)
            && self.adjacent(ahead, ahead + 2)
            && whole(ahead)
            && whole(ahead + 2)
    }

    fn unit_at(&self, ahead: usize) -> bool {
        match self.kind(ahead) {
            Some(Raw::Percent) => true,
            Some(Raw::Word) => {
                let word = self.slice(ahead);
                word == "in" || !CLAUSE_WORDS.contains(&word)
            }
            _ => false,
        }
    }

    /// A unit, with the factors joined to it without blanks: `kg/m3`.
    fn unit(&mut self) -> Option<Word> {
        if !self.unit_at(0) {
            return None;
        }
        let start = self.range(0).start;
        let mut end = self.range(0).end;
        self.at += 1;
        while self.kind(0) == Some(Raw::Slash)
            && self.kind(1) == Some(Raw::Word)
            && self.range(0).start == end
            && self.adjacent(0, 1)
        {
            end = self.range(1).end;
            self.at += 2;
        }
        let text = SmolStr::new(&self.text[start..end]);
        Some(Word { text, span: self.span(&(start..end)) })
    }
}

/// A fraction that is one sign, in digits.
fn vulgar(sign: &str) -> Option<&'static str> {
    Some(match sign {
        "½" => "1/2",
        "¼" => "1/4",
        "¾" => "3/4",
        "⅛" => "1/8",
        "⅜" => "3/8",
        "⅝" => "5/8",
        "⅞" => "7/8",
        "⅓" => "1/3",
        "⅔" => "2/3",
        _ => return None,
    })
}
