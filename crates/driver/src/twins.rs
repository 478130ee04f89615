//! Findings that both sides have in common are said once.

use crate::sides::without_side;
use chairwright_diagnostics::{Diagnostic, Problems};

/// Keeps one of two findings of the same place and code that differ only by left and right.
pub(crate) fn fold(problems: &mut Problems) {
    let mut at = 0;
    while at < problems.len() {
        let twin = (at + 1..problems.len()).find(|j| are_twins(&problems[at], &problems[*j]));
        if let Some(j) = twin {
            let mut other = problems.remove(j);
            let about = std::mem::take(&mut other.about);
            let kept = &mut problems[at];
            kept.about.extend(about);
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
        && said(a) == said(b)
}

/// Everything that is said, without the sides.
fn said(d: &Diagnostic) -> Vec<String> {
    let labels = d.primary.iter().chain(&d.secondary).map(|l| &l.text);
    let words = std::iter::once(&d.headline).chain(labels).chain(&d.notes).chain(&d.help);
    words.map(|w| w.replace("left", "").replace("right", "")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

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
