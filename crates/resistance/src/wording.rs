//! Whether a text says something or denies it: marks, names and notes are read by their words, for nobody writes what is
//! in a pipe or a board in any other way.

/// What turns a thing that is named into one that is not there. Common practice of language, no source.
const NEGATORS: [&str; 16] = [
    "no", "not", "non", "never", "without", "nor", "neither", "unlike", "instead", "rather", "don", "isn",
    "doesn", "hasn", "zero", "nothing",
];
/// What may stand between such a word and the thing.
const BETWEEN: [&str; 38] = [
    "a", "an", "the", "any", "of", "core", "wall", "take", "use", "buy", "with", "to", "be", "confused",
    "mixed", "up", "as", "it", "is", "ever", "t", "than", "from", "or", "and", "astm", "en", "iso", "type",
    "pipe", "in", "been", "like", "mistaken", "stamp", "stamped", "mark", "marked",
];

/// A word, or where a clause ends.
#[derive(PartialEq)]
enum Token {
    Word(String),
    End,
}

/// Whether a text says one of these phrases without denying it. A phrase is words in small letters with blanks between; `*` after a word
/// stands for any ending, before it for any beginning. Letters and digits are words of their own: `d 1785` is said by "ASTM D1785-21".
#[must_use]
pub fn says(text: &str, phrases: &[&str]) -> bool {
    let tokens = tokens(text);
    let said = |phrase: &&str| {
        let parts: Vec<&str> = phrase.split(' ').collect();
        let n = parts.len();
        let here = |at: usize| parts.iter().zip(&tokens[at..]).all(|(p, t)| is(p, t));
        tokens.len() >= n && (0..=tokens.len() - n).any(|at| here(at) && !denied(&tokens, at, n))
    };
    phrases.iter().any(said)
}

fn is(part: &str, token: &Token) -> bool {
    let Token::Word(word) = token else { return false };
    if let Some(stem) = part.strip_suffix('*') {
        return word.starts_with(stem);
    }
    part.strip_prefix('*').map_or(word == part, |end| word.ends_with(end))
}

/// Whether what stands at a place is said not to be there: by a word before it in its clause, or by "free" behind it.
fn denied(tokens: &[Token], at: usize, long: usize) -> bool {
    let word = |t: &Token, words: &[&str]| matches!(t, Token::Word(w) if words.contains(&w.as_str()));
    let free = tokens.get(at + long).is_some_and(|t| word(t, &["free"]));
    let before = tokens[..at].iter().rev().find(|t| !word(t, &BETWEEN));
    free || before.is_some_and(|t| word(t, &NEGATORS))
        // "free of foam" and "free from foam"
        || (before.is_some_and(|t| word(t, &["free"])) && word(&tokens[at - 1], &["of", "from"]))
}

fn tokens(text: &str) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::new();
    let mut open: Option<bool> = None;
    for c in text.chars() {
        if !c.is_alphanumeric() {
            open = None;
            if matches!(c, ',' | ';' | ':' | '(' | ')' | '.' | '!' | '?') {
                out.push(Token::End);
            }
            continue;
        }
        let digit = c.is_numeric();
        match out.last_mut() {
            Some(Token::Word(w)) if open == Some(digit) => w.extend(c.to_lowercase()),
            _ => out.push(Token::Word(c.to_lowercase().collect())),
        }
        open = Some(digit);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_denied_is_not_said() {
        let foam = |t: &str| says(t, &["foam*", "cellular", "f 891"]);
        for text in
            ["coex foam core", "cellular", "ASTM F-891", "solid: no; foamed middle", "not solid but cellular"]
        {
            assert!(foam(text), "{text}");
        }
        for text in [
            "non-cellular",
            "solid wall; never take the cellular core pipe beside it",
            "ASTM D1785 (not F891)",
            "no core of foam",
            "foam-free",
            "free of foam",
            "not to be confused with ASTM F891",
            "F8910",
            "",
        ] {
            assert!(!foam(text), "{text}");
        }
    }

    #[test]
    fn marks_are_found_however_they_are_spaced() {
        for text in ["ASTM D1785-21", "astm d 1785", "D-1785", "ASTMD1785/D2665"] {
            assert!(says(text, &["*d 1785"]), "{text}");
        }
        assert!(says("BSEN1452-2", &["*en 1452"]));
        assert!(!says("1785", &["*d 1785"]));
        assert!(!says("D 17855", &["*d 1785"]));
    }
}
