//! Tokens, cut by logos. They cover every byte of the text.

use logos::Logos;
use std::ops::Range;

/// One raw token; blanks, line ends and comments are tokens too.
#[derive(Logos, Clone, Copy, PartialEq, Eq, Debug)]
pub enum Raw {
    /// Blanks within a line.
    #[regex(r"[ \t\r\u{a0}]+")]
    Blank,
    /// The end of a line.
    #[token("\n")]
    Newline,
    /// A comment for readers of the plan; it belongs to the statement below it.
    #[regex(r"///[^\n]*", priority = 6, allow_greedy = true)]
    Doc,
    /// A comment for readers of the text.
    #[regex(r"//[^\n]*", priority = 5, allow_greedy = true)]
    Comment,
    /// A decimal number.
    #[regex(r"[0-9]+(\.[0-9]+)?([eE][+-]?[0-9]+)?")]
    Number,
    /// A word: a name, a keyword or a unit.
    #[regex(r"[\p{L}_][\p{L}\p{N}_]*")]
    Word,
    /// A quoted text.
    #[regex(r#""[^"\n]*""#)]
    Text,
    /// A quoted text without its closing quote.
    #[regex(r#""[^"\n]*"#)]
    OpenText,
    /// Feet and inches with marks, which are refused: `5'6"`.
    #[regex(r#"[0-9]+(\.[0-9]+)?['′]([0-9]+(\.[0-9]+)?)?(["″])?"#, priority = 9)]
    FeetMarks,
    /// A number with an inch mark behind it, which is refused: `18.5"`.
    #[regex(r#"[0-9]+(\.[0-9]+)?["″]"#, priority = 8)]
    InchMark,
    /// A typographic quote.
    #[regex(r"[“”„«»‘’]")]
    CurlyQuote,
    /// `{`
    #[token("{")]
    OpenBrace,
    /// `}`
    #[token("}")]
    CloseBrace,
    /// `(`
    #[token("(")]
    Open,
    /// `)`
    #[token(")")]
    Close,
    /// `,`
    #[token(",")]
    Comma,
    /// `.`
    #[token(".")]
    Dot,
    /// `..`
    #[token("..")]
    DotDot,
    /// `=`
    #[token("=")]
    Equals,
    /// `+`
    #[token("+")]
    Plus,
    /// `-`
    #[token("-")]
    #[token("−")]
    Minus,
    /// `*`
    #[token("*")]
    #[token("×")]
    #[token("·")]
    Star,
    /// `/`
    #[token("/")]
    Slash,
    /// `^`
    #[token("^")]
    Caret,
    /// `±`
    #[token("±")]
    #[token("+/-")]
    PlusMinus,
    /// `%`
    #[token("%")]
    Percent,
    /// `<=`
    #[token("<=")]
    #[token("≤")]
    AtMost,
    /// `>=`
    #[token(">=")]
    #[token("≥")]
    AtLeast,
    /// `<`
    #[token("<")]
    Less,
    /// `>`
    #[token(">")]
    More,
    /// `==`
    #[token("==")]
    Same,
    /// `!=`
    #[token("!=")]
    #[token("≠")]
    Differs,
    /// Anything else, one character at a time.
    #[regex(r".", priority = 0)]
    Stray,
}

impl Raw {
    /// Whether the token carries no meaning for the tree.
    #[must_use]
    pub fn is_trivia(self) -> bool {
        matches!(self, Raw::Blank | Raw::Newline | Raw::Comment | Raw::Doc)
    }

    /// Whether the token joins what stands before it with what follows.
    #[must_use]
    pub fn is_joining(self) -> bool {
        matches!(
            self,
            Raw::DotDot
                | Raw::Plus
                | Raw::Minus
                | Raw::Star
                | Raw::Slash
                | Raw::Caret
                | Raw::PlusMinus
                | Raw::AtMost
                | Raw::AtLeast
                | Raw::Less
                | Raw::More
                | Raw::Same
                | Raw::Differs
        )
    }
}

/// Cuts a text into tokens that cover every byte.
#[must_use]
pub fn tokens(text: &str) -> Vec<(Raw, Range<usize>)> {
    let mut out = Vec::with_capacity(text.len() / 3);
    let mut lexer = Raw::lexer(text);
    while let Some(token) = lexer.next() {
        out.push((token.unwrap_or(Raw::Stray), lexer.span()));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_byte_is_covered() {
        let text = "param a = 1 1/4 in // half\n\u{1F6A7} “x” 5'6\" 3±2 a..b §\n\"open";
        let mut at = 0;
        for (_, span) in tokens(text) {
            assert_eq!(span.start, at);
            at = span.end;
        }
        assert_eq!(at, text.len());
    }
}
