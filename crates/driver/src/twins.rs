//! Findings that both sides have in common are said once.

use crate::sides::without_side;
use chairwright_diagnostics::{Diagnostic, Problems};

/// Numbers of both sides that differ by no more than this share of the greater are told once, the other side's in a note.
const NEAR: f64 = 0.05;

/// Keeps one of two findings of the same place and code that differ only by left and right, and by little in their numbers.
pub(crate) fn fold(problems: &mut Problems) {
    let mut at = 0;
    while at < problems.len() {
        let twin = (at + 1..problems.len()).find(|j| are_twins(&problems[at], &problems[*j]));
        if let Some(j) = twin {
            let mut other = problems.remove(j);
            let about = std::mem::take(&mut other.about);
            let kept = &mut problems[at];
            kept.about.extend(about);
            kept.notes.extend(beside(kept, &other));
            kept.headline = format!("{}, on both sides", common(&kept.headline, &other.headline));
        }
        at += 1;
    }
}

/// What both say: what is of one side in both keeps its side.
fn common(a: &str, b: &str) -> String {
    let mut out: Vec<String> = Vec::new();
    for (one, other) in a.split(' ').zip(b.split(' ')) {
        if one == other {
            out.push(one.to_owned());
        } else if !matches!(one, "left" | "right") {
            out.push(without_side(one));
        }
    }
    out.join(" ")
}

fn are_twins(a: &Diagnostic, b: &Diagnostic) -> bool {
    a.code == b.code
        && a.primary.is_some()
        && a.primary.as_ref().map(|l| l.span) == b.primary.as_ref().map(|l| l.span)
        && a.headline != b.headline
        && same_but_sides(&a.headline, &b.headline)
        && a.help.iter().map(|w| no_sides(w)).eq(b.help.iter().map(|w| no_sides(w)))
        && said(a).len() == said(b).len()
        && said(a).iter().zip(said(b)).all(|(a, b)| near(a, &b))
}

/// What the other of two twins says in its label, where that is not the same.
fn beside(kept: &Diagnostic, other: &Diagnostic) -> Option<String> {
    let [mine, theirs] = [kept, other].map(|d| d.primary.as_ref().map(|l| l.text.as_str()).unwrap_or_default());
    (!same_but_sides(mine, theirs)).then(|| format!("on the other side: {theirs}"))
}

fn same_but_sides(a: &str, b: &str) -> bool {
    no_sides(a) == no_sides(b)
}

fn no_sides(words: &str) -> String {
    words.replace("left", "").replace("right", "")
}

/// Whether the words are the same, and the numbers among them near each other.
fn near(a: &str, b: &str) -> bool {
    let number = |w: &str| w.parse::<f64>().ok();
    let pair = |(a, b): (&str, &str)| match (number(a), number(b)) {
        (Some(x), Some(y)) => (x - y).abs() <= NEAR * x.abs().max(y.abs()),
        _ => a == b,
    };
    a.split(' ').count() == b.split(' ').count() && a.split(' ').zip(b.split(' ')).all(pair)
}

/// What is said below the headline but for what may help, without the sides.
fn said(d: &Diagnostic) -> Vec<String> {
    let labels = d.primary.iter().chain(&d.secondary).map(|l| &l.text);
    let words = labels.chain(&d.notes);
    words.map(|w| no_sides(w)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 100.5 of one hundred and 100.6 are told once, 132 and 145 are not; and no word is taken for another.
    #[test]
    fn numbers_that_differ_little_are_told_once() {
        assert!(near("used to 100.5 % of what breaks it", "used to 100.6 % of what breaks it"));
        assert!(!near("used to 132 % of what breaks it", "used to 145 % of what breaks it"));
        assert!(!near("used to 132 % of it", "used to 132 % of them"));
        assert!(!near("used to 132 %", "used to 132 % here"));
    }

    /// What is of one side in both findings keeps it: a chair is lifted by both arms at once.
    #[test]
    fn a_side_that_both_name_is_kept() {
        let one = |side: &str| format!("`{side}.rail` does not hold when lifted by left.arm and right.arm");
        assert_eq!(
            common(&one("left"), &one("right")),
            "`rail` does not hold when lifted by left.arm and right.arm"
        );
        assert_eq!(common("the left wheel rubs", "the right wheel rubs"), "the wheel rubs");
    }
}
