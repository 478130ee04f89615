//! The grammar of one line, over cooked tokens, by chumsky.
//!
//! Every function is generic over the input and returns a boxed parser: naming the concrete input
//! makes the compiler of this crate slow.

use crate::cook::Tok;
use crate::token::Raw;
use crate::tree::{Binary, Clause, Expr, ExprKind, Literal, Path, Unary, Word};
use crate::words::{CLAUSE_WORDS, is_direction, is_reserved};
use chairwright_diagnostics::{SourceId, Span};
use chumsky::DefaultExpected;
use chumsky::input::{Input, ValueInput};
use chumsky::label::LabelError;
use chumsky::pratt::{infix, left, prefix};
use chumsky::prelude::*;
use chumsky::util::MaybeRef;
use smol_str::SmolStr;

pub(crate) type Range = SimpleSpan<usize>;
pub(crate) type Rule<'t, I, T, E> = Boxed<'t, 't, I, T, E>;

/// How errors are kept: in full, or not at all for a first quick reading.
pub(crate) trait Errors<'t, I: Input<'t, Token: 't>>:
    extra::ParserExtra<
        't,
        I,
        Error: LabelError<'t, I, &'static str>
                   + LabelError<'t, I, MaybeRef<'t, I::Token>>
                   + LabelError<'t, I, DefaultExpected<'t, I::Token>>,
    > + 't
{
}

impl<'t, I, E> Errors<'t, I> for E
where
    I: Input<'t, Token: 't>,
    E: extra::ParserExtra<
            't,
            I,
            Error: LabelError<'t, I, &'static str>
                       + LabelError<'t, I, MaybeRef<'t, I::Token>>
                       + LabelError<'t, I, DefaultExpected<'t, I::Token>>,
        > + 't,
{
}

/// What a line says before its block.
#[derive(Clone, Debug)]
pub(crate) struct Head {
    pub keyword: Path,
    pub subject: Option<Expr>,
    pub value: Option<Vec<Expr>>,
    pub clauses: Vec<Clause>,
}

/// What the grammar needs from outside.
#[derive(Clone, Copy)]
pub(crate) struct Context<'t> {
    pub source: SourceId,
    pub literals: &'t [Literal],
}

impl Context<'_> {
    fn span(self, range: Range) -> Span {
        Span::new(self.source, range.start, range.end)
    }
}

fn op<'t, 's: 't, I, E>(kind: Raw, name: &'static str) -> Rule<'t, I, (), E>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
    E: Errors<'t, I>,
{
    just(Tok::Op(kind)).ignored().labelled(name).boxed()
}

fn word<'t, 's: 't, I, E>(context: Context<'t>) -> Rule<'t, I, Word, E>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
    E: Errors<'t, I>,
{
    select! { Tok::Word(w) => w }
        .map_with(move |w, e| Word { text: SmolStr::new(w), span: context.span(e.span()) })
        .labelled("a word")
        .boxed()
}

fn reserved<'t, 's: 't, I, E>(wanted: &'static str) -> Rule<'t, I, (), E>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
    E: Errors<'t, I>,
{
    just(Tok::Word(wanted)).ignored().labelled(wanted).boxed()
}

fn path<'t, 's: 't, I, E>(context: Context<'t>) -> Rule<'t, I, Path, E>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
    E: Errors<'t, I>,
{
    dotted(context, select! { Tok::Word(w) if !is_reserved(w) => w }.boxed())
}

/// The word that opens an entry: a field may be called what elsewhere opens a clause.
fn opening<'t, 's: 't, I, E>(context: Context<'t>) -> Rule<'t, I, Path, E>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
    E: Errors<'t, I>,
{
    dotted(context, select! { Tok::Word(w) => w }.boxed())
}

fn dotted<'t, 's: 't, I, E>(context: Context<'t>, first: Rule<'t, I, &'s str, E>) -> Rule<'t, I, Path, E>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
    E: Errors<'t, I>,
{
    let first = first.map_with(move |w, e| Word { text: SmolStr::new(w), span: context.span(e.span()) });
    first
        .then(op(Raw::Dot, ".").ignore_then(word(context)).repeated().collect::<Vec<_>>())
        .map_with(move |(first, rest), e| Path {
            words: std::iter::once(first).chain(rest).collect(),
            span: context.span(e.span()),
        })
        .labelled("a name")
        .boxed()
}

fn atom<'t, 's: 't, I, E>(context: Context<'t>, item: Rule<'t, I, Expr, E>) -> Rule<'t, I, Expr, E>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
    E: Errors<'t, I>,
{
    let simple = select! {
        Tok::Literal(i) => ExprKind::Literal(
            context.literals.get(i as usize).cloned().unwrap_or(Literal { parts: Vec::new() })),
        Tok::Text(t) => ExprKind::Text(SmolStr::new(t)),
        Tok::Broken => ExprKind::Broken,
    };
    let list = item
        .separated_by(op(Raw::Comma, ","))
        .allow_trailing()
        .collect::<Vec<_>>()
        .delimited_by(op(Raw::Open, "("), op(Raw::Close, ")"))
        .boxed();
    let name = path(context).then(list.clone().or_not()).map(|(path, arguments)| match arguments {
        Some(arguments) => ExprKind::Call(path, arguments),
        None => ExprKind::Name(path),
    });
    let group = list.map(|mut items| match items.len() {
        1 => items.remove(0).kind,
        _ => ExprKind::List(items),
    });
    choice((simple, name, group))
        .map_with(move |kind, e| Expr { kind, span: context.span(e.span()) })
        .labelled("a value")
        .boxed()
}

fn binary(context: Context<'_>, operator: Binary) -> impl Fn(Expr, Expr, Range) -> Expr + Clone + '_ {
    move |l, r, range| Expr {
        kind: ExprKind::Binary(operator, Box::new(l), Box::new(r)),
        span: context.span(range),
    }
}

/// An expression; binding strength from weak to strong: range, or, and, not, comparison,
/// tolerance, sum, product, sign, power.
fn expression<'t, 's: 't, I, E>(context: Context<'t>, item: Rule<'t, I, Expr, E>) -> Rule<'t, I, Expr, E>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
    E: Errors<'t, I>,
{
    use Binary as B;
    macro_rules! two {
        ($power:literal, $kind:expr, $operator:expr) => {{
            let build = binary(context, $operator);
            infix(left($power), just($kind).labelled("an operator"), move |l, _, r, e| build(l, r, e.span()))
        }};
    }
    let one = move |operator: Unary, value: Expr, range: Range| Expr {
        kind: ExprKind::Unary(operator, Box::new(value)),
        span: context.span(range),
    };
    let op = Tok::Op;
    atom(context, item)
        .pratt((
            two!(1, op(Raw::DotDot), B::Range),
            two!(2, Tok::Word("or"), B::Or),
            two!(3, Tok::Word("and"), B::And),
            prefix(4, just(Tok::Word("not")), move |_, v, e| one(Unary::Not, v, e.span())),
            (
                two!(5, op(Raw::Less), B::Less),
                two!(5, op(Raw::AtMost), B::AtMost),
                two!(5, op(Raw::More), B::More),
                two!(5, op(Raw::AtLeast), B::AtLeast),
                two!(5, op(Raw::Same), B::Same),
                two!(5, op(Raw::Differs), B::Differs),
            ),
            two!(6, op(Raw::PlusMinus), B::Tolerance),
            two!(7, op(Raw::Plus), B::Plus),
            two!(7, op(Raw::Minus), B::Minus),
            two!(8, op(Raw::Star), B::Times),
            two!(8, op(Raw::Slash), B::Over),
            prefix(9, just(op(Raw::Minus)), move |_, v, e| one(Unary::Minus, v, e.span())),
            two!(10, op(Raw::Caret), B::Power),
        ))
        .boxed()
}

/// A value or a step in a direction.
pub(crate) fn item<'t, 's: 't, I, E>(context: Context<'t>) -> Rule<'t, I, Expr, E>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
    E: Errors<'t, I>,
{
    recursive(move |item| {
        let value = expression(context, item.boxed());
        let direction = select! { Tok::Word(w) if is_direction(w) => w }
            .map_with(move |w, e| Word { text: SmolStr::new(w), span: context.span(e.span()) })
            .boxed();
        let lean = reserved("leaning").ignore_then(direction.clone()).then(value.clone().map(Box::new));
        // a word that opens a clause and is followed by its value is no amount: `toward left glued "epoxy"`
        let clause = select! { Tok::Word(w) if CLAUSE_WORDS.contains(&w) && !is_reserved(w) => () };
        let text = select! { Tok::Text(_) => (), Tok::Literal(_) => () };
        let name = select! { Tok::Word(w) if !CLAUSE_WORDS.contains(&w) && !is_reserved(w) => () };
        let opens = clause.then(choice((text, name)));
        let step = direction
            .then_ignore(opens.not().rewind())
            .then(value.clone().map(Box::new))
            .then(lean.or_not())
            .map(|((word, amount), lean)| ExprKind::Direction { word, amount, lean });
        let along = reserved("along")
            .ignore_then(path(context))
            .then_ignore(reserved("by"))
            .then(value.clone().map(Box::new))
            .map(|(line, amount)| ExprKind::Along { line, amount });
        let moved = choice((step, along)).map_with(move |kind, e| Expr { kind, span: context.span(e.span()) });
        choice((moved, value))
    })
    .boxed()
}

fn values<'t, 's: 't, I, E>(item: Rule<'t, I, Expr, E>) -> Rule<'t, I, Vec<Expr>, E>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
    E: Errors<'t, I>,
{
    item.separated_by(op(Raw::Comma, ",")).at_least(1).collect::<Vec<_>>().boxed()
}

/// A line up to its block.
pub(crate) fn head<'t, 's: 't, I, E>(context: Context<'t>) -> Rule<'t, I, Head, E>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
    E: Errors<'t, I>,
{
    let item = item(context);
    let clause = word(context)
        .labelled("a clause")
        .then(values(item.clone()))
        .map_with(move |(word, values), e| Clause { word, values, span: context.span(e.span()) });
    opening(context)
        .labelled("a statement")
        .then(item.clone().or_not())
        .then(op(Raw::Equals, "=").ignore_then(values(item)).or_not())
        .then(clause.repeated().collect::<Vec<_>>())
        .then_ignore(end())
        .map(|(((keyword, subject), value), clauses)| Head { keyword, subject, value, clauses })
        .boxed()
}

/// The end of what is read.
pub(crate) fn end_of_input<'t, 's: 't, I, E>() -> Rule<'t, I, (), E>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
    E: Errors<'t, I>,
{
    end().boxed()
}
