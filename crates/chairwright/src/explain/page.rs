//! A page as a terminal shows it: prose in lines of 80 columns, wherever the page breaks its own; code, headings and tables as they stand.

use chairwright_diagnostics::wrap;

/// Columns of a terminal.
const WIDE: usize = 80;

/// The page with its prose broken anew.
pub(super) fn flowed(page: &str) -> String {
    let (mut out, mut prose, mut code) = (Vec::new(), String::new(), false);
    for line in page.lines() {
        let fence = line.starts_with("```");
        let item = line.starts_with("- ");
        let plain = code || fence || line.trim().is_empty() || line.starts_with('#') || line.starts_with('|');
        if plain || item {
            put(&mut out, &mut prose);
        }
        code ^= fence;
        if plain {
            out.push(line.to_owned());
        } else {
            if !prose.is_empty() {
                prose.push(' ');
            }
            prose.push_str(line.trim());
        }
    }
    put(&mut out, &mut prose);
    out.join("\n") + "\n"
}

/// One paragraph, or one item of a list with what follows its first line set in.
fn put(out: &mut Vec<String>, prose: &mut String) {
    let said = std::mem::take(prose);
    match said.strip_prefix("- ") {
        Some(item) => {
            let lines = wrap(item, WIDE - 2).into_iter().enumerate();
            out.extend(lines.map(|(k, line)| format!("{}{line}", if k == 0 { "- " } else { "  " })));
        }
        None if said.is_empty() => {}
        None => out.extend(wrap(&said, WIDE)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use chairwright_diagnostics::CODES;

    #[test]
    fn prose_flows_and_code_stands() {
        let page = "# a\n\none\ntwo\n- first\n  more\n- second\n\n```chair\n  x\n```\nend\n";
        assert_eq!(flowed(page), "# a\n\none two\n- first more\n- second\n\n```chair\n  x\n```\nend\n");
    }

    /// No word of a page is lost, and no line of its prose is wider than a terminal.
    #[test]
    fn every_page_fits_a_terminal() {
        for code in CODES {
            let shown = flowed(code.page);
            let words = |t: &str| t.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
            assert_eq!(words(&shown), words(code.page), "{}", code.name);
            let mut inside = false;
            for line in shown.lines() {
                inside ^= line.starts_with("```");
                let table = line.starts_with('|');
                assert!(inside || table || line.chars().count() <= WIDE, "{}: {line}", code.name);
            }
        }
    }
}
