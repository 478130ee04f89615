//! Names on both sides of the chair.

/// A name without the side it is on: `left.post to right.rail` is `post to rail`. Only whole prefixes count.
#[must_use]
pub fn without_side(name: &str) -> String {
    let plain = |w: &str| {
        let rest = w.strip_prefix("left.").or_else(|| w.strip_prefix("right."));
        rest.unwrap_or(w).to_owned()
    };
    name.split(' ').map(plain).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::without_side;

    #[test]
    fn only_whole_prefixes_are_sides() {
        assert_eq!(without_side("left.post to right.rail"), "post to rail");
        assert_eq!(without_side("cleft.post"), "cleft.post");
        assert_eq!(without_side("seat"), "seat");
    }
}
