//! The grammar of one line, over cooked tokens, by chumsky.
//!
//! Every function is generic over the input and returns a boxed parser: naming the concrete input
//! makes the compiler of this crate slow.

use crate::cook::Tok;
use crate::token::Raw;
use crate::tree::{Binary, Clause, Expr, ExprKind, Literal, Path, Unary, Word};
use crate::words::{is_direction, is_reserved};
use chairwright_diagnostics::{SourceId, Span};
use chumsky::input::ValueInput;
use chumsky::pratt::{infix, left, prefix};
use chumsky::prelude::*;
use smol_str::SmolStr;

pub(crate) type Range = SimpleSpan<usize>;
pub(crate) type Errors<'t, 's> = extra::Err<Rich<'t, Tok<'s>, Range>>;
pub(crate) type Rule<'t, 's, I, T> = Boxed<'t, 't, I, T, Errors<'t, 's>>;

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

fn op<'t, 's: 't, I>(kind: Raw, name: &'static str) -> Rule<'t, 's, I, ()>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
{
    just(Tok::Op(kind)).ignored().labelled(name).boxed()
}

fn word<'t, 's: 't, I>(context: Context<'t>) -> Rule<'t, 's, I, Word>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
{
    select! { Tok::Word(w) => w }
        .map_with(move |w, e| Word { text: SmolStr::new(w), span: context.span(e.span()) })
        .labelled("a word")
        .boxed()
}

fn reserved<'t, 's: 't, I>(wanted: &'static str) -> Rule<'t, 's, I, ()>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
{
    just(Tok::Word(wanted)).ignored().labelled(wanted).boxed()
}

fn path<'t, 's: 't, I>(context: Context<'t>) -> Rule<'t, 's, I, Path>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
{
    let first = select! { Tok::Word(w) if !is_reserved(w) => w }
        .map_with(move |w, e| Word { text: SmolStr::new(w), span: context.span(e.span()) });
    first
        .then(op(Raw::Dot, ".").ignore_then(word(context)).repeated().collect::<Vec<_>>())
        .map_with(move |(first, rest), e| Path {
            words: std::iter::once(first).chain(rest).collect(),
            span: context.span(e.span()),
        })
        .labelled("a name")
        .boxed()
}

fn atom<'t, 's: 't, I>(context: Context<'t>, item: Rule<'t, 's, I, Expr>) -> Rule<'t, 's, I, Expr>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
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

fn binary(
    context: Context<'_>,
    operator: Binary,
) -> impl Fn(Expr, Expr, Range) -> Expr + Clone + '_ {
    move |l, r, range| Expr {
        kind: ExprKind::Binary(operator, Box::new(l), Box::new(r)),
        span: context.span(range),
    }
}

/// An expression; binding strength from weak to strong: range, or, and, not, comparison,
/// tolerance, sum, product, sign, power.
fn expression<'t, 's: 't, I>(context: Context<'t>, item: Rule<'t, 's, I, Expr>) -> Rule<'t, 's, I, Expr>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
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
pub(crate) fn item<'t, 's: 't, I>(context: Context<'t>) -> Rule<'t, 's, I, Expr>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
{
    recursive(move |item| {
        let value = expression(context, item.boxed());
        let direction = select! { Tok::Word(w) if is_direction(w) => w }
            .map_with(move |w, e| Word { text: SmolStr::new(w), span: context.span(e.span()) })
            .boxed();
        let lean = reserved("leaning").ignore_then(direction.clone()).then(value.clone().map(Box::new));
        let step = direction
            .then(value.clone().map(Box::new))
            .then(lean.or_not())
            .map(|((word, amount), lean)| ExprKind::Direction { word, amount, lean });
        let along = reserved("along")
            .ignore_then(path(context))
            .then_ignore(reserved("by"))
            .then(value.clone().map(Box::new))
            .map(|(line, amount)| ExprKind::Along { line, amount });
        let moved = choice((step, along))
            .map_with(move |kind, e| Expr { kind, span: context.span(e.span()) });
        choice((moved, value))
    })
    .boxed()
}

fn values<'t, 's: 't, I>(item: Rule<'t, 's, I, Expr>) -> Rule<'t, 's, I, Vec<Expr>>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
{
    item.separated_by(op(Raw::Comma, ",")).at_least(1).collect::<Vec<_>>().boxed()
}

/// A line up to its block.
pub(crate) fn head<'t, 's: 't, I>(context: Context<'t>) -> Rule<'t, 's, I, Head>
where
    I: ValueInput<'t, Token = Tok<'s>, Span = Range>,
{
    let item = item(context);
    let clause = word(context)
        .labelled("a clause")
        .then(values(item.clone()))
        .map_with(move |(word, values), e| Clause { word, values, span: context.span(e.span()) });
    path(context)
        .labelled("a statement")
        .then(item.clone().or_not())
        .then(op(Raw::Equals, "=").ignore_then(values(item)).or_not())
        .then(clause.repeated().collect::<Vec<_>>())
        .then_ignore(end())
        .map(|(((keyword, subject), value), clauses)| Head { keyword, subject, value, clauses })
        .boxed()
}
