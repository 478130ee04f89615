//! Names of the two sides: `left.rail` and `right.rail` are one thing to whoever reads.

pub use chairwright_strength::without_side;

/// What stands behind a name for both sides.
pub const BOTH: &str = " (both sides)";

/// Names with both sides folded into one, in their order: `rail (both sides)`.
#[must_use]
pub fn folded<'n>(names: impl IntoIterator<Item = &'n str>) -> Vec<String> {
    let mut seen: Vec<(String, Vec<&str>)> = Vec::new();
    for name in names {
        let plain = without_side(name);
        match seen.iter_mut().find(|(p, _)| *p == plain) {
            Some((_, all)) if all.contains(&name) => {}
            Some((_, all)) => all.push(name),
            None => seen.push((plain, vec![name])),
        }
    }
    let word = |(plain, all): (String, Vec<&str>)| match all[..] {
        [only] => only.to_owned(),
        _ => format!("{plain}{BOTH}"),
    };
    seen.into_iter().map(word).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_whole_words_are_sides() {
        assert_eq!(without_side("left.rail to right.post"), "rail to post");
        assert_eq!(without_side("`left.rail` and cleft.rail"), "`rail` and cleft.rail");
        assert_eq!(without_side("left"), "left");
    }

    #[test]
    fn a_lone_side_keeps_its_name() {
        let names = ["left.a", "b", "right.a", "left.c", "left.c"];
        assert_eq!(folded(names), ["a (both sides)", "b", "left.c"]);
    }
}
