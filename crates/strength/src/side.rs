//! Names on both sides of the chair.

use chairwright_design::unsided;

/// A name without its sides: `left.rail to left.post` is `rail to post`. Only whole first words of a name go,
/// so that `cleft.rail` stays.
#[must_use]
pub fn without_side(name: &str) -> String {
    let mut out = String::with_capacity(name.len());
    for (k, word) in name.split(' ').enumerate() {
        if k > 0 {
            out.push(' ');
        }
        let ticked = word.strip_prefix('`');
        out.push_str(if ticked.is_some() { "`" } else { "" });
        let bare = ticked.unwrap_or(word);
        out.push_str(unsided(bare));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::without_side;

    #[test]
    fn only_whole_prefixes_are_sides() {
        assert_eq!(without_side("left.post to right.rail"), "post to rail");
        assert_eq!(without_side("cleft.post"), "cleft.post");
        assert_eq!(without_side("seat"), "seat");
        assert_eq!(without_side("`left.rail` and cleft.rail"), "`rail` and cleft.rail");
    }
}
