//! The formatter. It moves blanks and line ends only: tokens and comments stay as they are, so a
//! file with errors is formatted too.

use crate::token::{Raw, tokens};

const INDENT: &str = "    ";

/// Formats a text.
#[must_use]
pub fn format(text: &str) -> String {
    let mut out = Writer {
        out: String::with_capacity(text.len()),
        depth: 0,
        parens: 0,
        breaks: 2,
        before: None,
        earlier: None,
        margin: false,
        run: 0,
    };
    let list: Vec<(Raw, &str)> = tokens(text)
        .into_iter()
        .filter(|(t, _)| *t != Raw::Blank)
        .map(|(t, r)| (t, text.get(r).unwrap_or("")))
        .collect();
    let gaps = gaps(text);
    let margins = margins(text);
    for (i, (kind, slice)) in list.iter().enumerate() {
        out.margin = margins[i];
        if out.margin {
            (out.depth, out.parens) = (0, 0);
        }
        let next = list.get(i + 1).map(|(t, _)| *t);
        out.write(*kind, trimmed(*kind, slice), next, gaps[i]);
    }
    let mut done = out.out.trim_end_matches([' ', '\n']).to_owned();
    if !done.is_empty() {
        done.push('\n');
    }
    done
}

/// Blanks at the end of a comment mean nothing; a stray character may look like one and still is one.
fn trimmed(kind: Raw, slice: &str) -> &str {
    if matches!(kind, Raw::Comment | Raw::Doc) { slice.trim_end() } else { slice }
}

/// For each token that is not a blank: whether a blank or line end stood before it.
fn gaps(text: &str) -> Vec<bool> {
    let mut gap = true;
    let mut all = Vec::new();
    for (kind, _) in tokens(text) {
        match kind {
            Raw::Blank => gap = true,
            _ => {
                all.push(gap);
                gap = kind == Raw::Newline;
            }
        }
    }
    all
}

/// For each token that is not a blank: whether it is a statement at the left margin that closes every
/// block, as the reader takes it when some block is never closed.
fn margins(text: &str) -> Vec<bool> {
    let all: Vec<(Raw, std::ops::Range<usize>)> =
        tokens(text).into_iter().filter(|(k, _)| *k != Raw::Blank).collect();
    let count = |wanted: Raw| all.iter().filter(|(k, _)| *k == wanted).count();
    let open = count(Raw::OpenBrace) > count(Raw::CloseBrace);
    let bytes = text.as_bytes();
    all.iter()
        .map(|(kind, r)| {
            let first = r.start == 0 || bytes.get(r.start - 1) == Some(&b'\n');
            let word = text.get(r.clone()).unwrap_or("");
            open && first && *kind == Raw::Word && crate::words::STATEMENT_WORDS.contains(&word)
        })
        .collect()
}

struct Writer {
    out: String,
    depth: usize,
    parens: usize,
    /// Line ends written since the last token; two at the top of a file.
    breaks: usize,
    before: Option<(Raw, bool)>,
    /// Where the tokens without a blank between them begin.
    run: usize,
    /// Whether the token to be written is a statement that closes every block.
    margin: bool,
    /// The token before that.
    earlier: Option<Raw>,
}

impl Writer {
    fn write(&mut self, kind: Raw, slice: &str, next: Option<Raw>, gap: bool) {
        match kind {
            Raw::Newline => {
                if self.breaks < 2 && !(self.breaks == 1 && self.after_open()) {
                    self.out.push('\n');
                    self.breaks += 1;
                }
                return;
            }
            Raw::CloseBrace => {
                self.depth = self.depth.saturating_sub(1);
                if self.breaks == 2 && self.out.ends_with("\n\n") {
                    self.out.pop();
                }
            }
            Raw::Close => self.parens = self.parens.saturating_sub(1),
            _ => {}
        }
        if self.breaks > 0 {
            // what closes every block stays at the margin, or it would close none the next time
            let carried = usize::from(!self.margin && self.carried(kind, slice, next));
            self.out.push_str(&INDENT.repeat(self.depth + self.parens + carried));
        } else if matches!(kind, Raw::Comment | Raw::Doc) {
            self.out.push_str("  ");
        } else if self.spaced(kind, gap) || self.would_join(slice) {
            self.out.push(' ');
        }
        if self.out.ends_with([' ', '\n']) {
            self.run = self.out.len();
        }
        self.out.push_str(slice);
        let sign = self.is_sign(kind);
        match kind {
            Raw::OpenBrace => self.depth += 1,
            Raw::Open => self.parens += 1,
            _ => {}
        }
        self.breaks = 0;
        self.earlier = self.before.map(|(b, _)| b);
        self.before = Some((kind, sign));
    }

    fn after_open(&self) -> bool {
        matches!(self.before, Some((Raw::OpenBrace, _)) | None)
    }

    /// A line that carries on the one above is set in one step.
    fn carried(&self, kind: Raw, slice: &str, next: Option<Raw>) -> bool {
        if self.parens > 0 || self.before.is_none() {
            return false;
        }
        let joins_above = matches!(self.before, Some((b, _)) if b.is_joining() || b == Raw::Equals)
            || matches!(self.before, Some((Raw::Comma, _)));
        joins_above
            || kind.is_joining()
            || (kind == Raw::Word && next != Some(Raw::Equals) && crate::words::CLAUSE_WORDS.contains(&slice))
    }

    /// Whether a minus stands before one value rather than between two.
    fn is_sign(&self, kind: Raw) -> bool {
        kind == Raw::Minus
            && !matches!(
                self.before,
                Some((Raw::Number | Raw::Word | Raw::Text | Raw::Close | Raw::Percent, _))
            )
    }

    /// Whether a token would become part of those before it without a blank between them.
    fn would_join(&self, slice: &str) -> bool {
        let before = self.out.get(self.run..).unwrap_or("");
        let joined = tokens(&format!("{before}{slice}"));
        joined.iter().rev().nth(1).is_none_or(|(_, r)| r.end != before.len())
            || joined.len() != tokens(before).len() + 1
    }

    fn spaced(&self, kind: Raw, gap: bool) -> bool {
        let Some((before, sign)) = self.before else { return false };
        if sign || before == Raw::Open || before == Raw::Dot || before == Raw::Caret {
            return false;
        }
        match kind {
            Raw::Comma | Raw::Close | Raw::Dot | Raw::Caret => false,
            // a call or a list: as written, since `at (…)` and `max(…)` differ only by the blank
            Raw::Open => gap || !matches!(before, Raw::Word),
            // fractions and compound units are written without blanks and mean it
            Raw::Slash => gap,
            Raw::Percent => gap,
            _ if before == Raw::Slash => gap,
            // broken writing stays as it was
            Raw::CurlyQuote | Raw::Stray => gap,
            _ if matches!(before, Raw::CurlyQuote | Raw::Stray) => gap,
            Raw::Minus | Raw::Number if matches!(before, Raw::Number | Raw::Minus) => gap,
            // a decimal comma stays one, so that it is still reported
            Raw::Number if before == Raw::Comma && self.earlier == Some(Raw::Number) => gap,
            _ => true,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn blanks_move_and_nothing_else() {
        let text = "design   a\n\n\n\nrider{ mass=68kg,stature = 5 ft 6 in }  // she\nparam x=-1/2 in+3 mm within 0 mm..5 mm\nboth sides {\n\njoint a at (1 mm,2 mm, 3 mm)\n\n}\n";
        let once = format(text);
        assert_eq!(
            once,
            "design a\n\nrider { mass = 68 kg, stature = 5 ft 6 in }  // she\nparam x = -1/2 in + 3 mm within 0 mm .. 5 mm\nboth sides {\n    joint a at (1 mm, 2 mm, 3 mm)\n}\n"
        );
        assert_eq!(format(&once), once);
    }

    #[test]
    fn tokens_never_join() {
        for text in ["1 .8\n", "a < = b\n", "a . . b\n"] {
            let kinds = |t: &str| {
                tokens(t).into_iter().map(|(k, _)| k).filter(|k| *k != Raw::Blank).collect::<Vec<_>>()
            };
            assert_eq!(kinds(&format(text)), kinds(text), "{text}");
        }
    }

    #[test]
    fn the_margin_of_an_unclosed_block_stays() {
        let once = format("a {\n--- b ---\nuse c\n");
        assert_eq!(format(&once), once);
    }

    #[test]
    fn a_stray_character_that_looks_blank_stays() {
        assert_eq!(format("\u{c}"), "\u{c}\n");
        let once = format("joint a\u{c}b at up 3 mm");
        assert!(once.contains('\u{c}'));
        assert_eq!(format(&once), once);
    }
}
