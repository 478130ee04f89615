//! Names that differ from one that nobody knows in their numbers alone: the sizes that there are beside the one that is not.

use chairwright_design::fold;

/// Sizes that are told, at most.
const TOLD: usize = 2;

/// The names that read alike but for one number, the nearest below and above first; a size that stands further back in the name
/// (a length behind a diameter) is rather another one. Where none is but for one number, those nearest in all of them.
#[must_use]
pub fn near_sizes<'k>(name: &str, known: &[&'k str]) -> Vec<&'k str> {
    let (pattern, wanted) = numbers(&fold(name));
    if wanted.is_empty() {
        return Vec::new();
    }
    let mut alike: Vec<(usize, usize, f64, bool, &str)> = Vec::new();
    for other in known {
        let (theirs, sizes) = numbers(&fold(other));
        if theirs != pattern {
            continue;
        }
        let apart = |i: &usize| (sizes[*i] - wanted[*i]).abs() > 1e-9;
        let differ: Vec<usize> = (0..sizes.len()).filter(apart).collect();
        let Some(first) = differ.first() else { continue };
        let far: f64 = differ.iter().map(|i| (sizes[*i] - wanted[*i]).abs() / wanted[*i].max(1e-9)).sum();
        alike.push((differ.len(), sizes.len() - first, far, sizes[*first] > wanted[*first], other));
    }
    alike.sort_by(|a, b| (a.0, a.1).cmp(&(b.0, b.1)).then(a.2.total_cmp(&b.2)).then(a.4.cmp(b.4)));
    let Some(best) = alike.first().map(|a| (a.0, a.1)) else { return Vec::new() };
    alike.retain(|a| (a.0, a.1) == best);
    let side = |above: bool| alike.iter().find(|a| a.3 == above).map(|a| a.4);
    let mut told: Vec<&str> = [side(false), side(true)].into_iter().flatten().collect();
    let more = alike.iter().map(|a| a.4).find(|n| !told.contains(n));
    told.extend(more.filter(|_| told.len() < TOLD));
    told
}

/// A name with a mark for each number, and the numbers: `1 1/4` is one.
fn numbers(name: &str) -> (String, Vec<f64>) {
    let mut pattern = String::new();
    let mut sizes: Vec<f64> = Vec::new();
    let mut rest = name;
    while let Some(c) = rest.chars().next() {
        let digits = rest.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '/'))).unwrap_or(rest.len());
        if !c.is_ascii_digit() {
            pattern.push(c);
            rest = &rest[c.len_utf8()..];
            continue;
        }
        let (written, behind) = rest.split_at(digits);
        rest = behind;
        let part =
            written.split_once('/').and_then(|(a, b)| Some(a.parse::<f64>().ok()? / b.parse::<f64>().ok()?));
        match (part, written.parse::<f64>(), sizes.last_mut()) {
            (Some(part), _, Some(whole)) if pattern.ends_with("# ") => {
                *whole += part;
                pattern.pop();
            }
            (Some(size), ..) | (None, Ok(size), _) => {
                sizes.push(size);
                pattern.push('#');
            }
            (None, Err(_), _) => pattern.push_str(written),
        }
    }
    (pattern, sizes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_neighbours_in_size_are_found() {
        let known = [
            "bolt m6 x 60",
            "bolt m6 x 80",
            "bolt m6 x 100",
            "bolt m8 x 90",
            "plywood 12 mm",
            "plywood 18 mm",
            "pipe 1 in sch40",
            "pipe 1 1/4 in sch40",
            "pipe 1 1/2 in sch40",
            "washer m6 large",
        ];
        let found = |name: &str| near_sizes(name, &known);
        assert_eq!(found("bolt m6 x 90"), ["bolt m6 x 80", "bolt m6 x 100"]);
        assert_eq!(found("bolt m6 x 140"), ["bolt m6 x 100", "bolt m6 x 80"]);
        assert_eq!(found("plywood 15 mm"), ["plywood 12 mm", "plywood 18 mm"]);
        assert_eq!(found("pipe 1.4 in sch40"), ["pipe 1 1/4 in sch40", "pipe 1 1/2 in sch40"]);
        assert_eq!(found("bolt m10 x 85"), ["bolt m8 x 90", "bolt m6 x 80"]);
        assert!(found("bamboo").is_empty() && found("bamboo 12 mm").is_empty());
    }
}
