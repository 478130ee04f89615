//! Splits a text into entries and blocks, and reads each entry by the grammar.
//!
//! Entries are read one by one, so that nothing a line says wrongly reaches the next line.

use crate::cook::{Cooked, Tok, cook};
use crate::grammar::{Context, Head, Range as Place, end_of_input, head, item};
use crate::token::{Raw, tokens};
use crate::tree::{Block, Entry, Expr};
use crate::unread::{Unread, unreadable};
use crate::words::STATEMENT_WORDS;
use chairwright_diagnostics::{Diagnostic, Problems, SourceId, Span};
use chumsky::error::{EmptyErr, Rich};
use chumsky::prelude::*;
use smol_str::SmolStr;
use std::collections::BTreeSet;
use std::ops::Range;

/// Bounds on what one text may ask for.
#[derive(Clone, Copy, Debug)]
pub struct Limits {
    /// Bytes in one text.
    pub bytes: usize,
    /// Blocks and parentheses inside each other.
    pub depth: usize,
    /// Tokens in one entry.
    pub entry_tokens: usize,
    /// Operators in one entry.
    pub entry_operators: usize,
}

impl Default for Limits {
    fn default() -> Limits {
        Limits { bytes: 4 << 20, depth: 24, entry_tokens: 2_000, entry_operators: 160 }
    }
}

/// A text read.
#[derive(Clone, Debug)]
pub struct Parse {
    /// Every token, blanks and comments too; they cover every byte.
    pub tokens: Vec<(Raw, Range<usize>)>,
    /// The entries.
    pub entries: Vec<Entry>,
    /// What is wrong with the writing.
    pub problems: Problems,
    /// Words of the lines that could not be read: what they declare is not missing.
    pub spoilt: BTreeSet<SmolStr>,
}

/// Errors with all that was expected.
type Full<'t, 's> = extra::Err<Rich<'t, Tok<'s>, Place>>;
/// No errors: most lines have none, and keeping track of them costs most of the time.
type Quick = extra::Err<EmptyErr>;

type Item<'s> = (Tok<'s>, Range<usize>);

/// Reads a text.
#[must_use]
pub fn parse(source: SourceId, text: &str, limits: &Limits) -> Parse {
    let mut problems = Problems::new();
    if text.len() > limits.bytes {
        problems.push(too_large(source, text, limits));
        return Parse { tokens: Vec::new(), entries: Vec::new(), problems, spoilt: BTreeSet::new() };
    }
    let raw = tokens(text);
    let cooked = cook(text, source, &raw, &mut problems);
    let (shape, lines) = shapes(source, text, &cooked.tokens, limits, &mut problems);
    let heads = read_lines(source, text, &cooked, &lines, &mut problems);
    let spoilt = spoilt(&cooked, &lines, &heads);
    let entries = assemble(source, &shape, &mut heads.into_iter().map(Some).collect::<Vec<_>>());
    problems.sort_by_key(|p| p.primary.as_ref().map(|l| l.span));
    Parse { tokens: raw, entries, problems, spoilt }
}

/// Reads one expression, such as a value given on the command line.
///
/// # Errors
/// The problems of writing.
pub fn parse_expression(source: SourceId, text: &str) -> Result<Expr, Problems> {
    let limits = Limits::default();
    let mut problems = Problems::new();
    if text.len() > limits.entry_tokens {
        return Err(vec![too_large(source, text, &limits)]);
    }
    let raw = tokens(text);
    let cooked = cook(text, source, &raw, &mut problems);
    let line: Vec<(Tok, Place)> = plain(&cooked.tokens, 0..cooked.tokens.len());
    problems.extend(overload(source, &line, &limits));
    if !problems.is_empty() {
        return Err(problems);
    }
    let context = Context { source, literals: &cooked.literals };
    let end: Place = (text.len()..text.len()).into();
    let (value, errors) = item::<_, Full>(context)
        .then_ignore(end_of_input())
        .parse(line.as_slice().split_token_span(end))
        .into_output_errors();
    match value {
        Some(value) if errors.is_empty() => Ok(value),
        _ => Err(errors
            .iter()
            .take(1)
            .map(|error| unreadable(&Unread { source, text, line: &line, error, line_end: text.len() }))
            .collect()),
    }
}

fn too_large(source: SourceId, text: &str, limits: &Limits) -> Diagnostic {
    Diagnostic::new("too-large", format!("this text has {} bytes", text.len()))
        .at(Span::new(source, 0, 0), "here")
        .note(format!("the limit is {} bytes", limits.bytes))
        .help("split it into files that import each other")
}

/// The shape of a text: which token range is a head, and what stands in its block.
struct Shape {
    doc: Option<String>,
    line: usize,
    block: Option<(Vec<Shape>, Range<usize>)>,
}

/// Splits the tokens into lines and blocks. When a block is never closed, a statement at the left margin
/// is taken to stand outside of it, so that the rest of the text is still read.
fn shapes(
    source: SourceId,
    text: &str,
    tokens: &[Item],
    limits: &Limits,
    problems: &mut Problems,
) -> (Vec<Shape>, Vec<Range<usize>>) {
    let read = |margin: Option<&str>| {
        let mut found = Problems::new();
        let mut reader = Reader { source, limits, lines: Vec::new(), at: 0, margin, problems: &mut found };
        let shape = reader.entries(tokens, 0, None);
        let lines = std::mem::take(&mut reader.lines);
        (shape, lines, found)
    };
    let (mut shape, mut lines, mut found) = read(None);
    if found.iter().any(|p| p.code.name == "open-block") {
        (shape, lines, found) = read(Some(text));
    }
    problems.extend(found);
    (shape, lines)
}

/// Words of the lines that were not read.
fn spoilt(cooked: &Cooked, lines: &[Range<usize>], heads: &[Option<Head>]) -> BTreeSet<SmolStr> {
    let broken = lines.iter().zip(heads).filter(|(_, head)| head.is_none()).map(|(line, _)| line);
    let mut out = BTreeSet::new();
    for line in broken {
        let mut before: Option<&str> = None;
        for (token, _) in &cooked.tokens[line.clone()] {
            let Tok::Word(word) = token else {
                before = None;
                continue;
            };
            out.insert(SmolStr::new(word));
            // a name with a blank is used under its whole name elsewhere
            out.extend(before.map(|b| smol_str::format_smolstr!("{b}_{word}")));
            before = Some(word);
        }
    }
    out
}

struct Reader<'p> {
    source: SourceId,
    /// The text, when statements at its left margin close every block.
    margin: Option<&'p str>,
    limits: &'p Limits,
    /// Token ranges of the heads.
    lines: Vec<Range<usize>>,
    at: usize,
    problems: &'p mut Problems,
}

impl Reader<'_> {
    fn span(&self, range: &Range<usize>) -> Span {
        Span::new(self.source, range.start, range.end)
    }

    fn entries(&mut self, tokens: &[Item], depth: usize, open: Option<Range<usize>>) -> Vec<Shape> {
        let mut shapes = Vec::new();
        let mut doc: Vec<&str> = Vec::new();
        loop {
            match tokens.get(self.at) {
                None => {
                    if let Some(open) = &open {
                        self.problems.push(
                            Diagnostic::new("open-block", "this block is not closed")
                                .at(self.span(open), "opened here")
                                .help("put a } on a line of its own where the block ends"),
                        );
                    }
                    return shapes;
                }
                Some((Tok::Doc(text), _)) => {
                    doc.push(text);
                    self.at += 1;
                }
                Some((Tok::Newline | Tok::Op(Raw::Comma), _)) => self.at += 1,
                Some((Tok::CloseBrace, range)) => {
                    if open.is_some() {
                        return shapes;
                    }
                    let span = self.span(range);
                    self.problems.push(
                        Diagnostic::new("stray-brace", "this } closes nothing")
                            .at(span, "no block is open here")
                            .help("take it out, or look for the { that is missing above")
                            .edit(span, ""),
                    );
                    self.at += 1;
                }
                Some((_, range)) if open.is_some() && self.at_margin(&tokens[self.at].0, range.start) => {
                    let span = self.span(range);
                    if let Some(open) = &open {
                        self.problems.push(
                            Diagnostic::new("open-block", "this block is not closed")
                                .at(self.span(open), "opened here")
                                .also(span, "a } is missing before this line")
                                .help("put a } on a line of its own where the block ends")
                                .edit(Span { end: span.start, ..span }, "}\n"),
                        );
                    }
                    return shapes;
                }
                Some(_) => {
                    let doc_text = (!doc.is_empty()).then(|| doc.join("\n"));
                    doc.clear();
                    shapes.push(self.entry(tokens, depth, doc_text));
                }
            }
        }
    }

    /// Whether a statement begins at the left margin, where that closes a block.
    fn at_margin(&self, token: &Tok, start: usize) -> bool {
        let Some(text) = self.margin else { return false };
        let first = start == 0 || text.as_bytes().get(start - 1) == Some(&b'\n');
        first && matches!(token, Tok::Word(word) if STATEMENT_WORDS.contains(word))
    }

    fn entry(&mut self, tokens: &[Item], depth: usize, doc: Option<String>) -> Shape {
        let start = self.at;
        let mut parens = 0usize;
        while let Some((token, _)) = tokens.get(self.at) {
            match token {
                Tok::Newline | Tok::OpenBrace | Tok::CloseBrace => break,
                Tok::Op(Raw::Open) => parens += 1,
                Tok::Op(Raw::Close) => parens = parens.saturating_sub(1),
                Tok::Op(Raw::Comma) if parens == 0 && opens_field(tokens, self.at + 1) => break,
                _ => {}
            }
            self.at += 1;
        }
        let line = self.lines.len();
        self.lines.push(start..self.at);
        let block = match tokens.get(self.at) {
            Some((Tok::OpenBrace, range)) => Some(self.block(tokens, depth, range.clone())),
            _ => None,
        };
        Shape { doc, line, block }
    }

    fn block(&mut self, tokens: &[Item], depth: usize, open: Range<usize>) -> (Vec<Shape>, Range<usize>) {
        self.at += 1;
        let inner = if depth + 1 > self.limits.depth {
            self.problems.push(
                Diagnostic::new("too-deep", "blocks are nested too deep here")
                    .at(self.span(&open), "one too many")
                    .note(format!("the limit is {} blocks inside each other", self.limits.depth)),
            );
            self.skip(tokens);
            Vec::new()
        } else {
            self.entries(tokens, depth + 1, Some(open.clone()))
        };
        // a block that nothing closes reaches to the last token
        let last = self.at.min(tokens.len().saturating_sub(1));
        let end = tokens.get(last).map_or(open.end, |(_, r)| r.end.max(open.end));
        if matches!(tokens.get(self.at), Some((Tok::CloseBrace, _))) {
            self.at += 1;
        }
        (inner, open.start..end)
    }

    /// Skips to the brace that closes the current block.
    fn skip(&mut self, tokens: &[Item]) {
        let mut depth = 0usize;
        while let Some((token, _)) = tokens.get(self.at) {
            match token {
                Tok::OpenBrace => depth += 1,
                Tok::CloseBrace if depth == 0 => return,
                Tok::CloseBrace => depth -= 1,
                _ => {}
            }
            self.at += 1;
        }
    }
}

/// `word =`, `word.word =` or `without`: a comma before it separates two fields on one line.
fn opens_field(tokens: &[Item], mut at: usize) -> bool {
    if matches!(tokens.get(at), Some((Tok::Word("without"), _))) {
        return true;
    }
    loop {
        if !matches!(tokens.get(at), Some((Tok::Word(_), _))) {
            return false;
        }
        match tokens.get(at + 1) {
            Some((Tok::Op(Raw::Dot), _)) => at += 2,
            Some((Tok::Op(Raw::Equals), _)) => return true,
            _ => return false,
        }
    }
}

fn plain<'s>(tokens: &[Item<'s>], range: Range<usize>) -> Vec<(Tok<'s>, Place)> {
    tokens[range].iter().map(|(t, r)| (*t, r.clone().into())).collect()
}

fn overload(source: SourceId, line: &[(Tok, Place)], limits: &Limits) -> Option<Diagnostic> {
    let mut depth = 0usize;
    let mut deepest = 0usize;
    let mut operators = 0usize;
    for (token, _) in line {
        match token {
            Tok::Op(Raw::Open) => depth += 1,
            Tok::Op(Raw::Close) => depth = depth.saturating_sub(1),
            Tok::Op(Raw::Comma | Raw::Dot | Raw::Equals) => {}
            Tok::Op(_) | Tok::Word("not" | "and" | "or") => operators += 1,
            _ => {}
        }
        deepest = deepest.max(depth);
    }
    let (first, last) = (line.first()?.1, line.last()?.1);
    let span = Span::new(source, first.start, last.end);
    if deepest > limits.depth {
        return Some(
            Diagnostic::new("too-deep", "parentheses are nested too deep here")
                .at(span, "in this line")
                .note(format!("the limit is {} inside each other", limits.depth)),
        );
    }
    (line.len() > limits.entry_tokens || operators > limits.entry_operators).then(|| {
        Diagnostic::new("too-large", "this line is too long to read")
            .at(span, "here")
            .note(format!(
                "the limits are {} words and signs, {} of them operators",
                limits.entry_tokens, limits.entry_operators
            ))
            .help("give parts of it names with let")
    })
}

fn read_lines(
    source: SourceId,
    text: &str,
    cooked: &Cooked,
    lines: &[Range<usize>],
    problems: &mut Problems,
) -> Vec<Option<Head>> {
    let limits = Limits::default();
    let plain_lines: Vec<Vec<(Tok, Place)>> = lines.iter().map(|l| plain(&cooked.tokens, l.clone())).collect();
    let context = Context { source, literals: &cooked.literals };
    let (quick, full) = (head::<_, Quick>(context), head::<_, Full>(context));
    let mut heads = Vec::with_capacity(lines.len());
    for line in &plain_lines {
        if let Some(problem) = overload(source, line, &limits) {
            problems.push(problem);
            heads.push(None);
            continue;
        }
        let line_end = line.last().map_or(0, |(_, r)| r.end);
        let end: Place = (line_end..line_end).into();
        if let Some(value) = quick.parse(line.as_slice().split_token_span(end)).into_output() {
            heads.push(Some(value));
            continue;
        }
        let (value, errors) = full.parse(line.as_slice().split_token_span(end)).into_output_errors();
        if let Some(error) = errors.first()
            && !line.iter().any(|(t, _)| *t == Tok::Broken)
        {
            problems.push(unreadable(&Unread { source, text, line, error, line_end }));
        }
        heads.push(value.filter(|_| errors.is_empty()));
    }
    heads
}

fn assemble(source: SourceId, shapes: &[Shape], heads: &mut [Option<Option<Head>>]) -> Vec<Entry> {
    let mut entries = Vec::new();
    for shape in shapes {
        let head = heads.get_mut(shape.line).and_then(Option::take).flatten();
        let block = shape.block.as_ref().map(|(inner, range)| Block {
            entries: assemble(source, inner, heads),
            span: Span::new(source, range.start, range.end),
        });
        let Some(head) = head else { continue };
        let mut span = head.keyword.span;
        for part in head
            .subject
            .iter()
            .chain(head.value.iter().flatten())
            .map(|e| e.span)
            .chain(head.clauses.iter().map(|c| c.span))
        {
            span = span.to(part);
        }
        entries.push(Entry {
            doc: shape.doc.clone(),
            keyword: head.keyword,
            subject: head.subject,
            value: head.value,
            clauses: head.clauses,
            head: span,
            span: block.as_ref().map_or(span, |b| span.to(b.span)),
            block,
        });
    }
    entries
}
