//! Breaking words into lines.

/// Breaks a text at blanks so that no line is longer than `width` characters, unless one word is.
/// Line breaks in the text stay.
#[must_use]
pub fn wrap(text: &str, width: usize) -> Vec<String> {
    text.lines().flat_map(|line| wrap_line(line, width)).collect()
}

fn wrap_line(text: &str, width: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in text.split(' ') {
        let long = line.chars().count() + 1 + word.chars().count() > width;
        if !line.trim().is_empty() && long {
            lines.push(std::mem::take(&mut line).trim_end().to_owned());
        } else if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(word);
    }
    lines.push(line.trim_end().to_owned());
    lines
}
