//! "Did you mean": the nearest known word.

/// The known word nearest to a misspelt one, if it is near enough to be meant; of equals the one
/// that begins and ends alike, then the first.
#[must_use]
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let limit = (word.chars().count() / 3).clamp(1, 4);
    known
        .into_iter()
        .take(5_000)
        .filter(|k| k.chars().count().abs_diff(word.chars().count()) <= limit)
        .map(|k| (distance(word, k), std::cmp::Reverse(shared(word, k)), k))
        .filter(|(d, _, k)| *d <= limit && *d < k.chars().count())
        .min_by_key(|(d, shared, _)| (*d, *shared))
        .map(|(.., k)| k)
}

/// The known word at most so many slips away; none where two are equally near.
pub(crate) fn within<'a>(
    word: &str,
    known: impl IntoIterator<Item = &'a str>,
    limit: usize,
) -> Option<&'a str> {
    let mut near: Vec<(usize, &str)> = known.into_iter().map(|k| (distance(word, k), k)).collect();
    near.sort();
    match near.as_slice() {
        [(d, _), (e, _), ..] if d == e => None,
        [(d, k), ..] if *d <= limit => Some(k),
        _ => None,
    }
}

/// How many characters two words share at their beginning and their end.
fn shared(a: &str, b: &str) -> usize {
    let front = a.chars().zip(b.chars()).take_while(|(x, y)| x == y).count();
    let back = a.chars().rev().zip(b.chars().rev()).take_while(|(x, y)| x == y).count();
    front + back
}

/// Edits (insert, delete, replace, swap of neighbours) between two words, ignoring case.
pub(crate) fn distance(a: &str, b: &str) -> usize {
    let a: Vec<char> = a.to_lowercase().chars().take(80).collect();
    let b: Vec<char> = b.to_lowercase().chars().take(80).collect();
    let mut rows = vec![vec![0usize; b.len() + 1]; a.len() + 1];
    for i in 0..=a.len() {
        for j in 0..=b.len() {
            rows[i][j] = if i == 0 || j == 0 {
                i + j
            } else {
                let replace = rows[i - 1][j - 1] + usize::from(a[i - 1] != b[j - 1]);
                let step = replace.min(rows[i - 1][j] + 1).min(rows[i][j - 1] + 1);
                let swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
                if swapped { step.min(rows[i - 2][j - 2] + 1) } else { step }
            };
        }
    }
    rows[a.len()][b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn near_words_are_found_and_far_ones_are_not() {
        assert_eq!(nearest("seat_rial", ["seat_rail", "shin"]), Some("seat_rail"));
        assert_eq!(nearest("membr", ["member", "panel"]), Some("member"));
        assert_eq!(nearest("zebra", ["member", "panel"]), None);
    }
}
